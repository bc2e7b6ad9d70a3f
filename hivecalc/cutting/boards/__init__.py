"""Boards cut into pieces with as few boards, as little money or as little length as can be."""

from hivecalc.cutting.boards.fitting import offcut, pieces_of_one_length, usable_length
from hivecalc.cutting.boards.plan import AIMS, Aim, BoardPattern, BoardPlan
from hivecalc.cutting.boards.planning import board_plan

__all__ = [
    "AIMS",
    "Aim",
    "BoardPattern",
    "BoardPlan",
    "board_plan",
    "offcut",
    "pieces_of_one_length",
    "usable_length",
]
