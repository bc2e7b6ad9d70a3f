"""Sheets: layouts in which each cut goes from edge to edge, as few or as cheap as can be found."""

from hivecalc.cutting.sheets.blocks import Way
from hivecalc.cutting.sheets.checking import sheet_faults
from hivecalc.cutting.sheets.layout import Layout, Placed
from hivecalc.cutting.sheets.order import Cut, Result
from hivecalc.cutting.sheets.plan import SHEET_AIMS, SheetAim, SheetPlan
from hivecalc.cutting.sheets.planning import sheet_plan
from hivecalc.cutting.sheets.tree import Offcut, Part, Piece, Rectangle, Split
from hivecalc.cutting.sheets.wanted import WantedSheet
from hivecalc.cutting.sheets.words import cut_words

__all__ = [
    "SHEET_AIMS",
    "Cut",
    "Layout",
    "Offcut",
    "Part",
    "Piece",
    "Placed",
    "Rectangle",
    "Result",
    "SheetAim",
    "SheetPlan",
    "Split",
    "WantedSheet",
    "Way",
    "cut_words",
    "sheet_faults",
    "sheet_plan",
]
