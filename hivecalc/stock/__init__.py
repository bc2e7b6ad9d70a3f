"""What the yard sells: actual sizes with their sources, and goods by board, sheet and package."""

from hivecalc.stock.goods import Board, Money, Package, SheetGoods
from hivecalc.stock.sizes import (
    COMMON,
    FASTENERS,
    NOMINAL,
    SHEETS,
    Dressed,
    Figure,
    Range,
    Sheet,
    plywood_thickness,
)

__all__ = [
    "COMMON",
    "FASTENERS",
    "NOMINAL",
    "SHEETS",
    "Board",
    "Dressed",
    "Figure",
    "Money",
    "Package",
    "Range",
    "Sheet",
    "SheetGoods",
    "plywood_thickness",
]
