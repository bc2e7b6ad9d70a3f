"""Exercises of lesson 07: a box from its frames outwards, and foam and skin round it.

All numbers are invented. They begin at the usual frames, common practice, no published source.
"""

from typing import Final

from hivecalc.exercise.record import KERF, Exercise

TITLE: Final = "The box and its sleeve"

INSIDE_WIDTH, INSIDE_LENGTH, ABOVE, END = (
    f"box.{n}" for n in ("inside_width", "inside_length", "space_above", "end_length")
)
CLEAR, FOAM_END, SKIN_SIDE, SKIN_END = (
    f"sleeve.{n}"
    for n in ("clear_height", "foam_end_length", "skin_side_length", "skin_end_length")
)

EXERCISES: Final = (
    Exercise(
        "07-01", "derive", INSIDE_WIDTH,
        "Ines builds a box for her frames, with play to lift the first one out. How wide is it "
        "inside?",
        "frames 8, frame_spacing 1 3/8, frame_play 3/4",
        "frames 6, frame_spacing 1 1/2, frame_play 5/8",
        "gap_forgotten gap_each_side size_taken_off", stage="worked", own=True,
    ),
    Exercise(
        "07-02", "derive", "box_width",
        "Boards go round that room. How wide is the box outside?",
        "frames 10, frame_spacing 1 3/8, frame_play 1, board_thickness 3/4",
        "frames 8, frame_spacing 1 3/8, frame_play 3/4, board_thickness 7/8",
        "thickness_once thickness_forgotten nominal_size", stage="last step", own=True,
    ),
    Exercise(
        "07-03", "derive", END,
        "The end boards stand between the sides and reach into a rabbet at both ends. How long is "
        "an end board?",
        "frames 10, frame_spacing 1 3/8, frame_play 1, board_thickness 7/8, joint_depth 3/8",
        "frames 9, frame_spacing 1 3/8, frame_play 3/4, board_thickness 13/16, joint_depth 5/16",
        "one_side_only size_left_out thickness_once", stage="hard step", own=True,
    ),
    Exercise(
        "07-04", "derive", INSIDE_LENGTH,
        "The frame hangs by its lugs on a rest at each end, with a little ease. How long is the "
        "room inside Tomas's box?",
        "frames 10, top_bar 19, rest_overlap 3/8, rest_ease 1/8",
        "frames 10, top_bar 18 1/2, rest_overlap 7/16, rest_ease 3/16",
        "one_side_only gap_forgotten size_left_out", own=True,
    ),
    Exercise(
        "07-05", "derive", ABOVE,
        "The lug lies in its rest. How much room is left above it, up to the top of Mira's box?",
        "frames 10, rest_depth 11/16, lug_thickness 3/8",
        "frames 10, rest_depth 9/16, lug_thickness 5/16",
        "thickness_forgotten thickness_added", own=True,
    ),
    Exercise(
        "07-06", "derive", "box_height",
        "Space above, the frames, space below: how high is Jonas's box?",
        "frames 10, rest_depth 11/16, lug_thickness 3/8, frame_depth 9 1/8, space_below 1/8",
        "frames 10, rest_depth 5/8, lug_thickness 5/16, frame_depth 6 1/4, space_below 1/16",
        "size_left_out", own=True,
    ),
    Exercise(
        "07-07", "derive", "hive_width",
        "Foam and a skin go round an old box. How wide does the hive become?",
        "box_length 19 7/8, box_width 16 1/4, box_height 9 5/8, foam_thickness 1, skin_thickness "
        "3/8",
        "box_length 18 1/2, box_width 14 7/8, box_height 9 5/8, foam_thickness 1 1/4, "
        "skin_thickness 1/4",
        "thickness_once thickness_forgotten length_for_width", own=True,
    ),
    Exercise(
        "07-08", "derive", SKIN_SIDE,
        "The skin at the side covers the foam there and the edges of the foam at both ends. How "
        "long is it?",
        "box_length 19 7/8, box_width 16 1/4, box_height 9 5/8, foam_thickness 1 1/8, "
        "skin_thickness 1/2",
        "box_length 18 3/8, box_width 15 1/2, box_height 9 5/8, foam_thickness 1, skin_thickness "
        "3/8",
        "thickness_once thickness_forgotten", own=True,
    ),
    Exercise(
        "07-09", "derive", CLEAR,
        "Edge strips close the foam at top and bottom. How high is the foam between them?",
        "box_length 19 7/8, box_width 16 1/4, box_height 9 5/8, edge_strip_height 13/16",
        "box_length 19 7/8, box_width 16 1/4, box_height 6 5/8, edge_strip_height 11/16",
        "one_side_only size_left_out size_added", own=True,
    ),
    Exercise(
        "07-10", "find", FOAM_END,
        "For the foam at the end of the box Lena wrote “{wrong}”. How long is it?",
        "box_length 19 7/8, box_width 16 1/4, box_height 9 5/8, foam_thickness 1",
        "box_length 18 3/4, box_width 15 1/8, box_height 9 5/8, foam_thickness 1 1/4",
        "thickness_once thickness_forgotten",
    ),
    Exercise(
        "07-11", "find", "hive_length",
        "Pavel counted foam and skin at one end: “{wrong}”. How long does the hive become?",
        "box_length 19 7/8, box_width 16 1/4, box_height 9 5/8, foam_thickness 1, skin_thickness "
        "1/2",
        "box_length 18 5/8, box_width 15 1/2, box_height 9 5/8, foam_thickness 1 1/2, "
        "skin_thickness 3/8",
        "thickness_once",
    ),
    Exercise(
        "07-12", "choose", SKIN_END,
        "Sheets of thin plywood lean at the wall. Which one is the skin for an end, which covers "
        "the edges of the side skins, too?",
        "box_length 19 7/8, box_width 16 1/4, box_height 9 5/8, foam_thickness 1, skin_thickness "
        "3/8",
        "box_length 18 1/2, box_width 15 1/8, box_height 9 5/8, foam_thickness 1 1/4, "
        "skin_thickness 1/2",
        "thickness_once thickness_forgotten", own=True,
    ),
    Exercise(
        "07-13", "predict", "hive_width",
        "The foam is {change} thick instead of {foam_thickness}. What happens to the width of the "
        "hive?",
        "box_length 19 7/8, box_width 16 1/4, box_height 9 5/8, foam_thickness 1, skin_thickness "
        "1/2",
        "box_length 18 1/2, box_width 15 1/8, box_height 9 5/8, foam_thickness 1 1/8, "
        "skin_thickness 3/8",
        "thickness_once", by="foam_thickness 1 1/4",
    ),
    Exercise(
        "07-14", "order", f"hive_width {INSIDE_WIDTH} box_width",
        "Noor works from the frames outwards. In which order does she find these sizes?",
        "frames 10", "frames 8",
        by="needed first",
        why="A box grows from the frame outwards: the room, the boards, then foam and skin.",
    ),
    Exercise(
        "07-15", "board", "box_length",
        "Rosa saws sides for boxes out of one long board of {board}. How many come out of it, "
        "with a "
        "kerf of {kerf} for every cut?",
        "frames 10, top_bar 18 5/16, board_thickness 3/4, board 96, kerf 1/8",
        "frames 10, top_bar 23 1/16, board_thickness 3/4, board 96, kerf 1/8",
        by="count", why=KERF,
    ),
    Exercise(
        "07-16", "derive", "sleeve.bearing",
        "Foam and skin stand on the outer part of each rail. How much of the rail is left to carry "
        "Jonas's box?",
        "box_length 19 7/8, box_width 16 1/4, box_height 9 5/8, stud_thickness 1 1/2, "
        "foam_thickness 1, skin_thickness 1/4",
        "box_length 18 1/2, box_width 15 1/8, box_height 9 5/8, stud_thickness 1 9/16, "
        "foam_thickness 3/4, skin_thickness 3/8",
        "thickness_forgotten nominal_size", own=True,
        why="What bears on less than 1/4 in of rail hangs on its edge strips and their screws.",
    ),
    Exercise(
        "07-17", "derive", "box.space_between",
        "Two of Noor's boxes stand on one another. How much room is there between the frames of "
        "the two?",
        "frames 10, rest_depth 11/16, lug_thickness 3/8, space_below 1/8",
        "frames 10, rest_depth 5/8, lug_thickness 3/8, space_below 3/16",
        "size_left_out size_taken_off", own=True,
        why="The space above the lower frames and the space below the upper ones come together.",
    ),
)  # fmt: skip
