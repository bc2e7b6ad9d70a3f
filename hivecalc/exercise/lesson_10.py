"""Exercises of lesson 10: pieces on boards and sheets, kerfs and strips.

All numbers are invented.
"""

from typing import Final

from hivecalc.exercise.record import KERF, Exercise

TITLE: Final = "Cutting it out of boards and sheets"

SIDE, FRONT = (f"bottom_board.{n}_rail_length" for n in ("side", "front"))
RIM_SIDE = "roof.rim_side_length"

EXERCISES: Final = (
    Exercise(
        "10-01", "board", FRONT,
        "Emil cuts front rails for the whole class. How many come out of one stud of {board}, if "
        "every cut takes a kerf of {kerf}?",
        "hive_width 19, stud_thickness 1 1/2, board 96, kerf 1/8",
        "hive_width 17 3/8, stud_thickness 1 1/2, board 72, kerf 1/8",
        by="count", why=KERF,
        stage="last step",
    ),
    Exercise(
        "10-02", "derive", "offcut = entrance - kerf",
        "The entrance is ripped off the front rail, and the kerf comes off what is ripped off. How "
        "thick is the piece that falls off?",
        "entrance 13/16, kerf 1/8", "entrance 11/16, kerf 3/32",
        "size_left_out size_added",
        question="Where does the wood of the kerf go: to the rail, to the piece, or to dust?",
        why="The rail keeps its full height. So the kerf comes off the piece that falls off.",
        stage="worked",
    ),
    Exercise(
        "10-03", "board", "offcut = sheet - 2 * deck - 2 * kerf",
        "Two decks are ripped off a half sheet, side by side, with a kerf for each. How wide is "
        "the offcut?",
        "sheet 48, deck 21 3/8, kerf 1/8", "sheet 48, deck 19 5/8, kerf 3/16",
        "size_left_out",
        question="How many rips does it take to get two decks off a wider sheet?",
        why="Every rip takes its kerf, and there are as many rips as pieces while a rest is left.",
        stage="hard step",
    ),
    Exercise(
        "10-04", "order", f"{SIDE} {FRONT} {RIM_SIDE}",
        "Three kinds of rails come out of the same stud. In which order do you cut them?",
        "hive_length 23 1/8, hive_width 17 3/8, cap_clearance 1/2",
        "hive_length 18 1/4, hive_width 23 1/2, cap_clearance 3/8",
        by="longest first",
        question="If a cut goes wrong, out of which piece can another one still be made?",
        why="A long piece that is spoilt still gives a shorter one. So the longest is cut first.",
    ),
)  # fmt: skip
