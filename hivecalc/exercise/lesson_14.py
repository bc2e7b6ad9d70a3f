"""Exercises of lesson 14: the order of work, square frames, the opening, the entrance strip.

All numbers are invented. The order of work is common practice, no published source.
"""

from typing import Final

from hivecalc.exercise.record import Exercise

TITLE: Final = "Putting it together"

PANEL: Final = "bottom_board.panel_length"
AFTER: Final = "Which of these must be there, or be dry, before you can do another one?"
NEEDED: Final = "A step comes after all those that make the place for it."

EXERCISES: Final = (
    Exercise(
        "14-01", "derive", "panel_length = opening - panel_gap",
        "The frame is glued. Its opening is {opening} long, and the panel's gap is {panel_gap}. "
        "How long do you cut the panel?",
        "opening 20 1/16, panel_gap 1/4", "opening 19 1/8, panel_gap 3/8",
        "gap_forgotten gap_added inch_not_lowered", stage="worked",
        question="Must the panel go into the opening, or fill it?",
        why="The panel is cut to the opening that is there, and slides in it with its gap.",
    ),
    Exercise(
        "14-02", "derive", "each_side = (strip - way) / 2",
        "An entrance strip is {strip} long. The way through it is {way} wide, in the middle. How "
        "long is the strip on each side of the way?",
        "strip 14 1/4, way 3", "strip 13 5/8, way 3 1/4",
        "size_left_out size_added both_given", stage="last step",
        question="What is left of the strip when the way is cut out, and how many pieces share it?",
        why="What the way leaves is shared by two sides.",
    ),
    Exercise(
        "14-03", "derive", "entrance_strip = hive_width - 2 * stud_thickness - screen_gap",
        "An entrance strip closes the room over the front rail, between the two side rails. It has "
        "to come out again, so it gets the gap of the screen: {screen_gap} in all. How long is it?",
        "hive_width 17 1/4, stud_thickness 1 1/2, screen_gap 1/8",
        "hive_width 16 3/8, stud_thickness 1 7/16, screen_gap 3/32",
        "thickness_once gap_added gap_forgotten", stage="hard step",
        question="Go across the hive at the entrance: which two pieces stand beside the strip?",
        why="It stands between the side rails as the screen does, with the same gap.",
    ),
    Exercise(
        "14-04", "order",
        "bottom_board.slide_in bottom_board.front bottom_board.opening "
        "sleeve.skin sleeve.edge_strips sleeve.foam",
        "Which of these do you do first, which next?",
        "hive_length 23 1/8, hive_width 17 3/8", "frames 10",
        by="built first", question=AFTER, rule=NEEDED,
        almost="Ask of each one what it is fastened to, and whether that is there yet.",
        why="What holds comes before what is held, and what is measured before what is cut to it.",
    ),
    Exercise(
        "14-05", "find",
        "bottom_board.lower_runners bottom_board.front bottom_board.opening bottom_board.slide_in "
        "sleeve.edge_strips sleeve.skin sleeve.foam",
        "Jonas did it in this order: {done}. What went wrong?",
        "hive_length 23 1/8, hive_width 17 3/8", "frames 10",
        by="too early", question=AFTER, rule=NEEDED,
        almost="Go through his list. At each step: could he get there, and did he know the size?",
        why="A step that comes too early is cut to a guess, or closes the way to the next one.",
    ),
    Exercise(
        "14-06", "measure", "judgement",
        "The glue is still wet. Ines measures her frame: rising from front left to back right, "
        "falling from front right to back left. What does she do?",
        "length 23 1/8, width 17 3/8, rising 29 1/8, falling 28 11/16",
        "length 22, width 16, rising 27, falling 27 3/8",
        by="square",
        question="Which of the two diagonals is longer, and by how much?",
        rule="Up to 1/8 in is square enough. Else push together the corners of the longer "
        "diagonal.",
        almost="Draw the frame leaning, and see which two corners reach farthest out.",
        why="Now it can still be pulled. In an hour it can't.",
    ),
    Exercise(
        "14-07", "measure", PANEL,
        "Tomas cut his panel by the plan, before the frame was glued: {cut} long. Now the opening "
        "measures {built_opening_length}. What does he do with the panel?",
        "hive_length 23 1/8, panel_gap 1/4, built_opening_length 19 13/16, cut 19 7/8",
        "hive_length 23 1/8, panel_gap 1/4, built_opening_length 21, cut 19 7/8",
        by="piece",
        question="How long must the panel be for the opening that is there?",
        rule="What slides may be a little short, and never long.",
        almost="Take the gap off the opening. Then hold the panel against that.",
        why="The plan is to buy by. The opening in the glued frame is to cut by.",
    ),
    Exercise(
        "14-08", "choose", "bottom_board.panel_width",
        "Three panels lie beside a glued frame. Its opening is {built_opening_width} wide. Which "
        "panel goes in, slides, and still closes it?",
        "hive_width 17 3/8, built_opening_width 14 5/16, panel_gap 1/4",
        "hive_width 16 1/8, built_opening_width 13 3/16, panel_gap 5/16",
        "gap_forgotten gap_each_side", own=True,
        question="What is measured now: the hive, or the opening itself?",
    ),
)  # fmt: skip
