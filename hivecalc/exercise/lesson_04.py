"""Exercises of lesson 04: the screen, the stack, the headroom and the way in.

All numbers are invented.
"""

from typing import Final

from hivecalc.exercise.record import Exercise

TITLE: Final = "The screen that pulls out"

OPENING, SCREEN, END = (
    f"bottom_board.{n}" for n in ("opening_width", "screen_width", "screen_end_strip_length")
)
ALONG = "bottom_board.screen_length"
STACK, HEADROOM, WAY_IN = (f"bottom_board.{n}" for n in ("stack_height", "headroom", "way_in"))
USUAL = "strip_narrow 1/2, strip_wide 3/4, foam_thickness 1, slot_ease 1/8, mesh_thickness 1/32"
THIN = "strip_narrow 7/16, strip_wide 13/16, foam_thickness 1, slot_ease 1/8, mesh_thickness 1/32"

EXERCISES: Final = (
    Exercise(
        "04-01", "derive", ALONG,
        "The screen slides in above the panel. How long is it on Ines's hive, front to back?",
        "hive_length 23 1/8, stud_thickness 1 1/2, screen_gap 1/8",
        "hive_length 22 3/4, stud_thickness 1 9/16, screen_gap 1/8",
        "gap_each_side gap_forgotten gap_added", stage="worked", own=True,
    ),
    Exercise(
        "04-02", "derive", SCREEN,
        "How wide is Tomas's screen, side to side?",
        "hive_length 22 3/8, hive_width 17 1/16, stud_thickness 1 1/2, screen_gap 1/8",
        "hive_length 20 1/8, hive_width 16 1/16, stud_thickness 1 1/2, screen_gap 1/8",
        "gap_each_side gap_forgotten length_for_width inch_not_lowered", stage="last step",
        own=True,
    ),
    Exercise(
        "04-03", "derive", END,
        "The end strips of the screen's frame lie flat between the side strips. How long is one?",
        "hive_width 17 3/8, stud_thickness 1 1/2, screen_gap 1/8, strip_narrow 1/2, strip_wide 3/4",
        "hive_width 18 1/4, stud_thickness 1 1/2, screen_gap 1/8, strip_narrow 9/16, "
        "strip_wide 7/8",
        "other_side thickness_once thickness_forgotten", stage="hard step", own=True,
    ),
    Exercise(
        "04-04", "derive", END,
        "Mira's strips are wide. How long is one end strip of her screen?",
        "hive_width 16 5/8, stud_thickness 1 1/2, screen_gap 1/8, strip_narrow 1/2, strip_wide "
        "13/16",
        "hive_width 15 7/8, stud_thickness 1 9/16, screen_gap 1/8, strip_narrow 1/2, strip_wide "
        "7/8",
        "thickness_once other_side thickness_added",
    ),
    Exercise(
        "04-05", "derive", STACK,
        "Everything that lies in the frame is stacked up. How high is the stack?",
        USUAL, THIN,
        "thickness_forgotten other_side", own=True, picture="stack",
    ),
    Exercise(
        "04-06", "derive", HEADROOM,
        "How much room is left above the stack, below the top of Jonas's rails?",
        f"stud_width 3 5/8, {USUAL}", f"stud_width 3 1/2, {THIN}",
        "step_skipped size_left_out nominal_size", own=True, picture="stack",
    ),
    Exercise(
        "04-07", "derive", "front_stop_height",
        "The way in over the front stop is to be {bee_way} high. How high must the stop be?",
        f"stud_width 3 1/2, bee_way 5/16, {USUAL}", f"stud_width 3 9/16, bee_way 11/32, {THIN}",
        "size_left_out nominal_size", own=True,
        question="What lies below the stop, layer by layer, and what stays free above it?",
    ),
    Exercise(
        "04-08", "derive", WAY_IN,
        "The bees walk in over the front rail and then over the front stop. How high is the way in "
        "at its lowest place?",
        f"stud_width 3 1/2, entrance_height 3/4, {USUAL}, front_stop_height 1/4",
        f"stud_width 3 1/2, entrance_height 9/16, {THIN}, front_stop_height 3/8",
        "wrong_one_of_two nominal_size", own=True,
    ),
    Exercise(
        "04-09", "find", END,
        "Lena took the strip's narrow side: “{wrong}”. How long is the end strip?",
        "hive_width 17 1/8, stud_thickness 1 1/2, screen_gap 1/8, strip_narrow 1/2, strip_wide 3/4",
        "hive_width 16 3/8, stud_thickness 1 5/8, screen_gap 1/8, strip_narrow 7/16, strip_wide "
        "3/4",
        "other_side thickness_once",
    ),
    Exercise(
        "04-10", "find", SCREEN,
        "Pavel wanted a loose screen: “{wrong}”. How wide should it be?",
        "hive_width 17 3/4, stud_thickness 1 1/2, screen_gap 1/8",
        "hive_width 19 1/8, stud_thickness 1 9/16, screen_gap 1/8",
        "gap_each_side gap_forgotten gap_added",
    ),
    Exercise(
        "04-11", "find", STACK,
        "Noor stopped at the mesh and forgot the upper layer of strips: “{wrong}”. How high is the "
        "stack?",
        USUAL, THIN,
        "thickness_forgotten other_side",
    ),
    Exercise(
        "04-12", "choose", END,
        "Four strips lie ready for the screen's frame. Which one is an end strip?",
        "hive_width 17 3/8, stud_thickness 1 1/2, screen_gap 1/8, strip_narrow 1/2, strip_wide 3/4",
        "hive_width 18 5/8, stud_thickness 1 1/2, screen_gap 1/8, strip_narrow 7/16, strip_wide "
        "3/4",
        "thickness_once other_side thickness_forgotten", own=True,
    ),
    Exercise(
        "04-13", "predict", STACK,
        "The strips come out {change} thick the narrow way instead of {strip_narrow}. What happens "
        "to the stack's height?",
        USUAL, "strip_narrow 15/32, strip_wide 3/4, foam_thickness 1, slot_ease 1/8, "
        "mesh_thickness 1/32",
        "thickness_forgotten thickness_twice", by="strip_narrow 17/32",
        why="Upper runner and two layers of screen: the narrow side lies three times in the stack.",
    ),
    Exercise(
        "04-14", "predict", HEADROOM,
        "The foam is {change} thick instead of {foam_thickness}. What happens to the headroom?",
        f"stud_width 3 1/2, {USUAL}", f"stud_width 3 1/2, {THIN}",
        by="foam_thickness 1 1/16",
        why="What the stack gains, the headroom loses: the rails are as high as before.",
    ),
    Exercise(
        "04-15", "order", f"{END} {OPENING} {SCREEN}",
        "Rosa wants the length of an end strip. In which order does she work out these sizes?",
        "hive_width 17 3/8", "hive_width 16 1/8",
        by="needed first",
        why="Take off from the size before, not from the hive again.",
    ),
)  # fmt: skip
