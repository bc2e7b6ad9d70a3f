"""Cutting what is wanted out of what the yard sells: boards, strips and sheets."""

from hivecalc.cutting.boards import (
    AIMS,
    Aim,
    BoardPattern,
    BoardPlan,
    board_plan,
    offcut,
    pieces_of_one_length,
    usable_length,
)
from hivecalc.cutting.careful import careful_plan
from hivecalc.cutting.checking import board_faults
from hivecalc.cutting.wanted import Progress, Unplanned, Wanted

__all__ = [
    "AIMS",
    "Aim",
    "BoardPattern",
    "BoardPlan",
    "Progress",
    "Unplanned",
    "Wanted",
    "board_faults",
    "board_plan",
    "careful_plan",
    "offcut",
    "pieces_of_one_length",
    "usable_length",
]
