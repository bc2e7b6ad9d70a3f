"""Exercises of lesson 08: rules, pieces as they were cut, small errors that add up.

All numbers are invented. What to do with a piece is common practice, no published source.
"""

from typing import Final

from hivecalc.exercise.record import Exercise

TITLE: Final = "Will it go together?"

SIDE, FRONT, PANEL = (
    f"bottom_board.{n}" for n in ("side_rail_length", "front_rail_length", "panel_length")
)
STACK, HEADROOM = "bottom_board.stack_height", "bottom_board.headroom"
RULES = (
    "bottom_board.room_above_stack bottom_board.panel_play_along roof.skirt_lap "
    "roof.rim_clear_along"
)
STRIPS = "strip_narrow 1/2, strip_wide 3/4, foam_thickness 1, slot_ease 1/8, mesh_thickness 1/32"
SAVED = (
    "Too long can be trimmed, and too short is another piece. What slides may be a little short, "
    "and never long."
)
WORST = "In the worst case every error takes its share of the gap at once."

EXERCISES: Final = (
    Exercise(
        "08-01", "derive", "gap_left = panel_gap - front_error - bow - panel_error",
        "The front rail was cut short, a side rail is bowed inwards, the panel was cut wide: each "
        "a little, all the worst way. How much of the panel's gap is left?",
        "panel_gap 3/8, front_error 1/16, bow 1/32, panel_error 1/8",
        "panel_gap 5/16, front_error 1/32, bow 1/16, panel_error 1/8",
        "size_added", stage="worked", why=WORST,
        question="Which two make the opening narrower, and which one makes the panel wider?",
    ),
    Exercise(
        "08-02", "derive", HEADROOM,
        "Before you saw: how much room is left above the stack on these rails?",
        f"stud_width 3 9/16, {STRIPS}", f"stud_width 3 5/8, {STRIPS}",
        "step_skipped size_left_out nominal_size", stage="last step", own=True,
    ),
    Exercise(
        "08-03", "derive", "bottom_board.screen_end_strip_length",
        "Check the whole chain once more: how long is an end strip of this screen?",
        "hive_width 18 3/8, stud_thickness 1 1/2, screen_gap 1/8, strip_narrow 7/16, strip_wide "
        "3/4",
        "hive_width 16 7/8, stud_thickness 1 1/2, screen_gap 1/8, strip_narrow 1/2, strip_wide 7/8",
        "thickness_once other_side", stage="hard step", own=True,
    ),
    Exercise(
        "08-04", "derive", "too_long = as_cut - planned",
        "A rail came off the saw longer than planned. By how much?",
        "as_cut 15 1/8, planned 14 3/8", "as_cut 22 1/4, planned 21 7/16",
        "inch_not_lowered smaller_from_larger",
        why="What is too long runs into its neighbour by just that much.",
    ),
    Exercise(
        "08-05", "measure", FRONT,
        "Ines's front rail came out {cut} long. What does she do with it?",
        "hive_width 17 3/8, stud_thickness 1 1/2, cut 14 5/8",
        "hive_width 17 3/8, stud_thickness 1 1/2, cut 13 1/2",
        by="piece",
        question="How long should it be, and is it longer or shorter than that?",
        rule="Too long can be trimmed. Too short is another piece: no strip holds a screw.",
        almost="Work out the rail first. Then say on which side of it her piece is, and how far.",
        why=SAVED,
    ),
    Exercise(
        "08-06", "measure", PANEL,
        "Tomas's foam panel came out {cut} long. What does he do with it?",
        "hive_length 23 1/8, stud_thickness 1 1/2, panel_gap 1/4, cut 19 13/16",
        "hive_length 23 1/8, stud_thickness 1 1/2, panel_gap 1/4, cut 20 1/4",
        by="piece",
        question="How long should it be, and is its error on the side that still slides?",
        rule="What slides may be a little short, and never long.",
        almost="Work out the panel first. Then ask whether it would still slide, and still close.",
        why=SAVED,
    ),
    Exercise(
        "08-07", "measure", "judgement",
        "Mira laid her frame together dry and measured sides and diagonals: rising from front left "
        "to back right, falling from front right to back left. What now?",
        "length 23 1/8, width 17 3/8, rising 28 11/16, falling 29 3/16",
        "length 22, width 16, rising 27 1/4, falling 27 3/16",
        by="square",
        question="Which of the two diagonals is longer, and by how much?",
        rule="Up to 1/8 in is square enough. Else push together the corners of the longer "
        "diagonal.",
        almost="Draw the frame leaning, and see which two corners reach farthest out.",
        why="Equal diagonals mean square corners: pull the frame square before the glue sets.",
    ),
    Exercise(
        "08-08", "predict", RULES,
        "The yard brings studs that are only {change} wide. Which rule fails now?",
        f"stud_width 3 1/2, {STRIPS}",
        "stud_width 3 9/16, strip_narrow 1/2, strip_wide 3/4, foam_thickness 1 1/16",
        by="rule stud_width 3 3/8",
        question="Which of these rules has to do with the height of the rails?",
        rule="Everything in the frame must stay below the top of the rails.",
        almost="Add up what lies in the frame, and hold it against the lower rail.",
        why="Lower rails leave the stack no room, and the box above would not close.",
    ),
    Exercise(
        "08-09", "predict", f"bottom_board.widest_gap_at_screen {RULES}",
        "Jonas wants his screen to slide freely, so he plans a screen gap of {change}. Which rule "
        "fails?",
        "screen_gap 1/8", "screen_gap 3/32",
        by="rule screen_gap 1/4",
        question="Pushed to one side, where does the screen leave its whole gap open?",
        rule="A bee squeezes through little more than 5/32 in.",
        almost="Ask which of these rules the screen has to do with.",
        why="A screen that lies at one side shows its whole gap at the other, and a bee walks "
        "through.",
    ),
    Exercise(
        "08-10", "predict", STACK,
        "The fence was off, so all strips are {change} thick the narrow way instead of "
        "{strip_narrow}. What does that do to the stack?",
        STRIPS, f"strip_narrow 15/32{STRIPS.removeprefix('strip_narrow 1/2')}",
        "thickness_forgotten thickness_twice", by="strip_narrow 9/16",
        why="All strips are off the same way, so nothing cancels: three layers, three errors.",
    ),
    Exercise(
        "08-11", "find", HEADROOM,
        "Lena looked for the headroom and wrote “{wrong}”. What is it really?",
        f"stud_width 3 1/2, {STRIPS}", f"stud_width 3 9/16, {STRIPS}",
        "nominal_size step_skipped",
    ),
    Exercise(
        "08-12", "choose", FRONT,
        "Three rails lie by the bench, cut by three people. Which one goes between the sides?",
        "hive_width 18 5/8, stud_thickness 1 9/16", "hive_width 16 1/8, stud_thickness 1 7/16",
        "thickness_once nominal_size", own=True,
    ),
)  # fmt: skip
