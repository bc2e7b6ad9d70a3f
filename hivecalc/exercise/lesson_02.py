"""Exercises of lesson 02: the four rails of the bottom board's frame.

All numbers are invented.
"""

from typing import Final

from hivecalc.exercise.record import KERF, Exercise

TITLE: Final = "The frame of the bottom board"

SIDE, FRONT, BACK = (f"bottom_board.{n}_rail_length" for n in ("side", "front", "back"))
HEIGHT = "bottom_board.front_rail_width"

EXERCISES: Final = (
    Exercise(
        "02-01", "derive", SIDE,
        "Ines builds a bottom board for a hive in the orchard. How long is each side rail?",
        "hive_length 23 1/8, hive_width 17 3/8, stud_thickness 1 1/2",
        "hive_length 21 1/4, hive_width 16 1/8, stud_thickness 1 5/8",
        "thickness_twice thickness_forgotten thickness_added", stage="worked", own=True,
        question="Which rail lies behind the ends of the side rails, and how thick is it?",
        picture="plan",
    ),
    Exercise(
        "02-02", "derive", FRONT,
        "The front rail stands between the two side rails. How long does Tomas cut it?",
        "hive_width 17 3/8, stud_thickness 1 1/2", "hive_width 15 7/8, stud_thickness 1 9/16",
        "thickness_once thickness_forgotten thickness_added", stage="last step", own=True,
        picture="plan",
    ),
    Exercise(
        "02-03", "derive", FRONT,
        "Mira's studs are thicker than usual. How long is her front rail?",
        "hive_width 18 1/16, stud_thickness 1 9/16", "hive_width 16 1/16, stud_thickness 1 5/8",
        "thickness_once nominal_size inch_not_lowered", stage="hard step",
    ),
    Exercise(
        "02-04", "derive", SIDE,
        "Jonas has a long hive and thin studs. How long is each of his side rails?",
        "hive_length 24 1/16, stud_thickness 1 3/8", "hive_length 22 1/8, stud_thickness 1 7/16",
        "thickness_twice nominal_size inch_not_lowered smaller_from_larger", own=True,
    ),
    Exercise(
        "02-05", "derive", HEIGHT,
        "The entrance is ripped off the top of the front rail. How high is the rail then, on edge?",
        "stud_width 3 1/2, stud_thickness 1 1/2, entrance_height 3/4",
        "stud_width 3 7/16, stud_thickness 1 1/2, entrance_height 5/8",
        "size_left_out nominal_size size_added", own=True,
    ),
    Exercise(
        "02-06", "derive", BACK,
        "The back rail covers the ends of both side rails. How long is it on Noor's hive?",
        "hive_length 22 3/4, hive_width 16 5/8", "hive_length 20 1/2, hive_width 14 3/16",
        "length_for_width", own=True,
        question="From where to where does the back rail reach: is anything beside its ends?",
    ),
    Exercise(
        "02-07", "find", FRONT,
        "For her front rail Lena wrote “{wrong}” and was about to saw. How long must it be?",
        "hive_width 16 1/4, stud_thickness 1 1/2", "hive_width 19 3/8, stud_thickness 1 5/8",
        "thickness_once thickness_forgotten",
    ),
    Exercise(
        "02-08", "find", SIDE,
        "For his side rails Pavel wrote “{wrong}”. How long must they be?",
        "hive_length 22 7/8, stud_thickness 1 1/2", "hive_length 20 15/16, stud_thickness 1 9/16",
        "thickness_twice thickness_forgotten",
        question="The front rail stands between the sides: does it take anything off their length?",
    ),
    Exercise(
        "02-09", "find", FRONT,
        "Rosa trusted the name of her wood: “{wrong}”. How long must the front rail be?",
        "hive_width 17 3/4, stud_thickness 1 1/2", "hive_width 15 1/4, stud_thickness 1 7/16",
        "nominal_size thickness_once",
    ),
    Exercise(
        "02-10", "choose", FRONT,
        "Offcuts of stud lie in the corner, all clean and straight. Which one is the front rail?",
        "hive_length 23 1/8, hive_width 17 3/8, stud_thickness 1 1/2",
        "hive_length 20 3/4, hive_width 15 5/8, stud_thickness 1 9/16",
        "thickness_once thickness_forgotten length_for_width", own=True,
    ),
    Exercise(
        "02-11", "predict", FRONT,
        "Emil planned for a stud of {stud_thickness}. The yard brings studs of {change}. What "
        "happens to the front rail's length?",
        "hive_width 17 3/8, stud_thickness 1 1/2", "hive_width 16 1/2, stud_thickness 1 7/16",
        "thickness_once", by="stud_thickness 1 9/16",
    ),
    Exercise(
        "02-12", "predict", f"{SIDE} {FRONT} {BACK}",
        "The stud is {change} instead of {stud_thickness} thick. Which rail keeps its length?",
        "stud_thickness 1 1/2", "stud_thickness 1 5/8",
        by="least stud_thickness 1 9/16",
        question="Beside or behind which rail does another rail stand?",
        rule="A rail changes as often as a stud's thickness is taken off it.",
        almost="Look for the rail that has no other rail between its ends and the outside.",
        why="No stud is taken off the back rail: it covers the ends of the others.",
    ),
    Exercise(
        "02-13", "order", f"{SIDE} {FRONT} {BACK}",
        "All rails come out of one long stud. In which order do you cut them?",
        "hive_length 23 1/8, hive_width 17 3/8, stud_thickness 1 1/2",
        "hive_length 16 1/4, hive_width 20 1/2, stud_thickness 1 1/2",
        by="longest first",
        why="A long piece that is spoilt still gives a shorter one. So the longest is cut first.",
    ),
    Exercise(
        "02-14", "board", SIDE,
        "How many side rails come out of one stud of {board}, if every cut takes a kerf of {kerf}?",
        "hive_length 25 1/2, stud_thickness 1 1/2, board 96, kerf 1/8",
        "hive_length 20 5/8, stud_thickness 1 1/2, board 96, kerf 1/8",
        by="count", why=KERF,
    ),
    Exercise(
        "02-15", "derive", FRONT,
        "Amara works in mm, and her studs are {stud_thickness} thick. How long is her front rail, "
        "in mm?",
        "hive_length 530, hive_width 430, stud_thickness 45",
        "hive_length 515, hive_width 405, stud_thickness 38",
        "thickness_once thickness_forgotten length_for_width", units="mm",
    ),
)  # fmt: skip
