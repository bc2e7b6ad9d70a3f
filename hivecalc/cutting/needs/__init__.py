"""What is needed from lumber and sheets: the pieces as they are cut, by what they come from."""

from hivecalc.cutting.needs.boards import BoardNeed, board_needs, boards_for
from hivecalc.cutting.needs.pieces import (
    HiveKind,
    Needed,
    Section,
    kinds_of,
    needed,
)
from hivecalc.cutting.needs.sheets import SheetNeed, sheet_needs, sheets_for

__all__ = [
    "BoardNeed",
    "HiveKind",
    "Needed",
    "Section",
    "SheetNeed",
    "board_needs",
    "boards_for",
    "kinds_of",
    "needed",
    "sheet_needs",
    "sheets_for",
]
