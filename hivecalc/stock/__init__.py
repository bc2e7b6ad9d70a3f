"""What the yard sells: actual sizes with their sources, goods and prices, a yard file of one's own.

A yard file is TOML; `yard_text` is one with a note on everything that may stand in it.
"""

from hivecalc.stock.goods import Board, Money, Package, SheetGoods
from hivecalc.stock.items import ITEMS, Item
from hivecalc.stock.reading import yard_from_file, yard_from_text
from hivecalc.stock.sizes import (
    COMMON,
    NOMINAL,
    SHEETS,
    Dressed,
    Figure,
    Range,
    Sheet,
    plywood_thickness,
)
from hivecalc.stock.writing import SHIPPED, YARD_FILE, demo_yard, yard_text
from hivecalc.stock.yard import Yard

__all__ = [
    "COMMON",
    "ITEMS",
    "NOMINAL",
    "SHEETS",
    "SHIPPED",
    "YARD_FILE",
    "Board",
    "Dressed",
    "Figure",
    "Item",
    "Money",
    "Package",
    "Range",
    "Sheet",
    "SheetGoods",
    "Yard",
    "demo_yard",
    "plywood_thickness",
    "yard_from_file",
    "yard_from_text",
    "yard_text",
]
