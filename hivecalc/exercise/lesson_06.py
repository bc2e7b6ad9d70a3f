"""Exercises of lesson 06: strips and sheets of the inner cover, the notch, bee space.

All numbers are invented.
"""

from typing import Final

from hivecalc.exercise.record import KERF, Exercise

TITLE: Final = "The inner cover"

FRONT, BACK, SIDE, HEIGHT, CHANNEL = (
    f"inner_cover.{n}"
    for n in (
        "rim_front_length", "rim_back_length", "rim_side_length", "overall_height",
        "channel_back_length",
    )
)  # fmt: skip

EXERCISES: Final = (
    Exercise(
        "06-01", "derive", BACK,
        "The back of the inner cover's rim lies between its sides. How long does Ines cut it?",
        "hive_width 17 3/8, stud_thickness 1 1/2", "hive_width 16 1/4, stud_thickness 1 9/16",
        "thickness_once thickness_forgotten nominal_size", stage="worked", own=True,
        picture="inner cover",
    ),
    Exercise(
        "06-02", "derive", FRONT,
        "The front of the rim is two pieces with the notch between them. How long is each piece?",
        "hive_width 17 3/8, stud_thickness 1 1/2, inner_notch 2 1/4",
        "hive_width 18 1/8, stud_thickness 1 5/8, inner_notch 1 3/4",
        "size_left_out thickness_once thickness_forgotten", stage="last step", own=True,
    ),
    Exercise(
        "06-03", "derive", FRONT,
        "Tomas wants a narrow notch in the middle. How long is each of the two front pieces?",
        "hive_width 16 5/8, stud_thickness 1 1/2, inner_notch 1 1/4",
        "hive_width 15 1/4, stud_thickness 1 9/16, inner_notch 1 3/8",
        "thickness_once size_left_out nominal_size", stage="hard step",
    ),
    Exercise(
        "06-04", "derive", HEIGHT,
        "One rim and two sheets lie on one another. How high is Mira's inner cover?",
        "inner_rim_height 3/8, sheet_thickness 3/16", "inner_rim_height 5/16, sheet_thickness 1/4",
        "thickness_once thickness_forgotten", own=True,
    ),
    Exercise(
        "06-05", "derive", SIDE,
        "The sides run the whole length of the inner cover. How long are they on Jonas's hive?",
        "hive_length 22 5/8, hive_width 16 3/4", "hive_length 20 15/16, hive_width 15 1/2",
        "length_for_width", own=True,
    ),
    Exercise(
        "06-06", "find", BACK,
        "For the back of the rim Lena wrote “{wrong}”. How long is it?",
        "hive_width 16 7/8, stud_thickness 1 1/2", "hive_width 18 3/8, stud_thickness 1 9/16",
        "thickness_once thickness_forgotten",
    ),
    Exercise(
        "06-07", "find", FRONT,
        "Pavel forgot something in front: “{wrong}”. How long is each of the two pieces?",
        "hive_width 17 1/4, stud_thickness 1 1/2, inner_notch 2",
        "hive_width 19 5/8, stud_thickness 1 5/8, inner_notch 2 1/2",
        "size_left_out thickness_once",
    ),
    Exercise(
        "06-08", "find", HEIGHT,
        "Noor counted: “{wrong}”. How high is the inner cover?",
        "inner_rim_height 3/8, sheet_thickness 1/4", "inner_rim_height 5/16, sheet_thickness 5/16",
        "thickness_once thickness_forgotten",
    ),
    Exercise(
        "06-09", "choose", BACK,
        "Four strips of stud lie on the bench. Which one closes the rim at the back?",
        "hive_width 15 5/8, stud_thickness 1 1/2", "hive_width 17 7/8, stud_thickness 1 9/16",
        "thickness_once thickness_forgotten nominal_size", own=True,
    ),
    Exercise(
        "06-10", "predict", HEIGHT,
        "The sheets are {change} thick instead of {sheet_thickness}. What happens to the height of "
        "the inner cover?",
        "inner_rim_height 3/8, sheet_thickness 1/4", "inner_rim_height 5/16, sheet_thickness 3/16",
        "thickness_once", by="sheet_thickness 5/16",
    ),
    Exercise(
        "06-11", "predict", f"{SIDE} {BACK} {HEIGHT}",
        "The stud is {change} thick instead of {stud_thickness}. Which of these changes?",
        "stud_thickness 1 1/2", "stud_thickness 1 5/8",
        by="most stud_thickness 1 9/16",
        question="Which of these lies between two strips that are as wide as a stud is thick?",
        rule="What lies between two strips loses twice what the strips gain.",
        almost="The sides run the whole length, and the height knows only rim and sheets.",
        why="The back lies between the sides, whose strips are as wide as a stud is thick.",
    ),
    Exercise(
        "06-12", "order", f"{FRONT} {SIDE} {BACK}",
        "All strips of the rim come out of one long piece. In which order do you cut them?",
        "hive_length 23 1/8, hive_width 17 3/8, stud_thickness 1 1/2, inner_notch 2",
        "hive_length 19 1/2, hive_width 16 1/4, stud_thickness 1 1/2, inner_notch 1 1/2",
        by="longest first",
        why="A long piece that is spoilt still gives a shorter one. So the longest is cut first.",
    ),
    Exercise(
        "06-13", "board", BACK,
        "How many backs for inner covers come out of a strip of {board}, with a kerf of {kerf} for "
        "every cut?",
        "hive_width 17 3/8, stud_thickness 1 1/2, board 72, kerf 1/8",
        "hive_width 18 15/16, stud_thickness 1 1/2, board 96, kerf 1/8",
        by="count", why=KERF,
    ),
    Exercise(
        "06-14", "derive", CHANNEL,
        "The channel behind the notch is as wide as the notch. Its back covers the ends of its two "
        "sides. How long is the back?",
        "inner_notch 2 1/4, strip_narrow 1/2, strip_wide 3/4",
        "inner_notch 1 3/4, strip_narrow 7/16, strip_wide 3/4",
        "thickness_once thickness_forgotten other_side", own=True,
        question="What lies beside the way of the bees, left and right, and how thick is it?",
    ),
)  # fmt: skip
