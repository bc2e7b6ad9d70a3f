"""Drawings of cutting and buying: boards and sheets with their pieces, the basket as bars."""

from hivecalc.drawing.cutting.bars import Bar, bars
from hivecalc.drawing.cutting.boards import boards_cut_up
from hivecalc.drawing.cutting.sheets import sheet_cut_up

__all__ = ["Bar", "bars", "boards_cut_up", "sheet_cut_up"]
