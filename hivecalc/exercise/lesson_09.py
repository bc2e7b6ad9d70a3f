"""Exercises of lesson 09: from pieces to what a yard sells.

All numbers are invented.
"""

from typing import Final

from hivecalc.exercise.record import KERF, Exercise

TITLE: Final = "What to buy"

SIDE = "bottom_board.side_rail_length"
DECK_LENGTH = "roof.deck_length"

EXERCISES: Final = (
    Exercise(
        "09-01", "board", "offcut = board - 2 * rail - 2 * kerf",
        "Noor cuts two rails off one board. Each cut takes its kerf. How long is the offcut?",
        "board 72, rail 21 5/8, kerf 1/8", "board 60, rail 19 7/8, kerf 1/8",
        "size_left_out",
        question="How many cuts does it take to get two rails off a longer board?",
        why="Every cut takes its kerf, and there are as many cuts as pieces while wood is left.",
        stage="worked",
    ),
    Exercise(
        "09-02", "board", SIDE,
        "Twelve people need side rails, two each. The yard sells studs of {board}, and each cut "
        "takes a kerf of {kerf}. How many side rails does one stud give?",
        "hive_length 25 1/2, stud_thickness 1 1/2, board 144, kerf 1/8",
        "hive_length 21 1/2, stud_thickness 1 1/2, board 120, kerf 1/8",
        by="count", why=KERF,
        stage="last step",
    ),
    Exercise(
        "09-03", "predict", DECK_LENGTH,
        "Ines wants to save plywood. She takes an overhang of {change} instead of {overhang}. What "
        "happens to the deck's length?",
        "hive_length 23 1/8, overhang 2", "hive_length 20 3/4, overhang 2 1/4",
        "one_side_only", by="overhang 1 1/2",
        stage="hard step",
    ),
    Exercise(
        "09-04", "order", "red blue green white",
        "Four offcuts lie at home, marked with colours. The shortest one that is long enough is "
        "used first. Order them, the shortest first.",
        "red 14 3/8, blue 14 1/4, green 14 7/16, white 14 1/2",
        "red 9 3/4, blue 9 13/16, green 9 5/8, white 9 7/8",
        by="smallest first",
        almost="Write them all in sixteenths: then the tops alone decide.",
        why="Fractions are compared when all have the same number under the line.",
    ),
)  # fmt: skip
