"""Exercises of lesson 11: fence, kerf and taper at the saw.

All numbers are invented.
"""

from typing import Final

from hivecalc.exercise.record import Exercise

TITLE: Final = "At the saw"

SIDE, BACK = (f"bottom_board.{n}_rail_length" for n in ("side", "back"))
RIM_FRONT = "roof.rim_front_length"
HEIGHT = "bottom_board.front_rail_width"

EXERCISES: Final = (
    Exercise(
        "11-01", "derive", "offcut = stud - rail - kerf",
        "The fence is set to the rail's height. What falls off on the other side of the blade?",
        "stud 3 1/2, rail 2 9/16, kerf 1/8", "stud 3 7/16, rail 2 5/8, kerf 1/8",
        "size_left_out",
        question="The rail stays at the fence. What are the two things that the rest is made of?",
        why="The rail keeps its full height, so the kerf comes off what falls away.",
        stage="worked",
    ),
    Exercise(
        "11-02", "derive", "half_way = (front + back) / 2",
        "A side of the roof's rim is {front} high in front and {back} at the back. How high must "
        "it be half-way, where you check it with the tape?",
        "front 3 1/2, back 1 1/4", "front 3 7/16, back 1 1/2",
        "size_left_out",
        question="A line falls evenly. What lies in the middle between its two ends?",
        why="A straight line falls as much in its first half as in its second half.",
        stage="hard step",
    ),
    Exercise(
        "11-03", "predict", HEIGHT,
        "Jonas wants an entrance of {change} instead of {entrance_height}. What happens to the "
        "height that he sets the fence to for the front rail?",
        "stud_width 3 1/2, entrance_height 3/4", "stud_width 3 7/16, entrance_height 5/8",
        by="entrance_height 7/8",
        question="The stud stays as wide as it is. More is ripped off: what becomes of the rest?",
        why="The rail is what is left of the stud below the entrance.",
        stage="last step",
    ),
    Exercise(
        "11-04", "order", f"{BACK} {RIM_FRONT} {SIDE}",
        "The stop block is set once for each length. Which setting comes first, which next?",
        "hive_length 23 1/8, hive_width 17 3/8, cap_clearance 1/2",
        "hive_length 16 1/2, hive_width 20 1/4, cap_clearance 3/8",
        by="longest first",
        question="Which piece needs the most sound wood?",
        why="What is left after a long piece still serves for a shorter one.",
    ),
)  # fmt: skip
