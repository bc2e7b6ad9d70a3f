"""Exercises of lessons 06 to 14; all numbers in them are invented."""

from typing import Final

from hivecalc.exercise.record import KERF, Exercise, LessonExercises

SAVED: Final = (
    "Too long can be trimmed, and too short is another piece. What slides may be a little short, "
    "and never long."
)

ROW: Final = "Heat has to go through all layers, one after another. So what each resists is added."

LESSON_06: Final = LessonExercises("06", "The inner cover", (
    Exercise("06-01", "derive", "inner_cover.rim_back_length",
        "The back of the inner cover's rim lies between its sides. How long does Ines cut it?",
        "hive_width 17 3/8, stud_thickness 1 1/2", "hive_width 16 1/4, stud_thickness 1 9/16",
        shows="thickness_once thickness_forgotten nominal_size", stage="worked", own=True,
        picture="inner cover"),
    Exercise("06-02", "derive", "inner_cover.rim_front_length",
        "The front of the rim is two pieces with the notch between them. How long is each piece?",
        "hive_width 17 3/8, stud_thickness 1 1/2, inner_notch 2 1/4",
        "hive_width 18 1/8, stud_thickness 1 5/8, inner_notch 1 3/4",
        shows="size_left_out thickness_once thickness_forgotten", stage="last step", own=True),
    Exercise("06-03", "derive", "inner_cover.rim_front_length",
        "Tomas wants a narrow notch in the middle. How long is each of the two front pieces?",
        "hive_width 16 5/8, stud_thickness 1 1/2, inner_notch 1 1/4",
        "hive_width 15 1/4, stud_thickness 1 9/16, inner_notch 1 3/8",
        shows="thickness_once size_left_out nominal_size", stage="hard step"),
    Exercise("06-04", "derive", "inner_cover.overall_height",
        "One rim and two sheets lie on one another. How high is Mira's inner cover?",
        "inner_rim_height 3/8, sheet_thickness 3/16", "inner_rim_height 5/16, sheet_thickness 1/4",
        shows="thickness_once thickness_forgotten", own=True),
    Exercise("06-05", "derive", "inner_cover.rim_side_length",
        "The sides run the whole length of the inner cover. How long are they on Jonas's hive?",
        "hive_length 22 5/8, hive_width 16 3/4", "hive_length 20 15/16, hive_width 15 1/2",
        shows="length_for_width", own=True),
    Exercise("06-06", "find", "inner_cover.rim_back_length",
        "For the back of the rim Lena wrote “{wrong}”. How long is it?",
        "hive_width 16 7/8, stud_thickness 1 1/2", "hive_width 18 3/8, stud_thickness 1 9/16",
        shows="thickness_once thickness_forgotten"),
    Exercise("06-07", "find", "inner_cover.rim_front_length",
        "Pavel forgot something in front: “{wrong}”. How long is each of the two pieces?",
        "hive_width 17 1/4, stud_thickness 1 1/2, inner_notch 2",
        "hive_width 19 5/8, stud_thickness 1 5/8, inner_notch 2 1/2",
        shows="size_left_out thickness_once"),
    Exercise("06-08", "find", "inner_cover.overall_height",
        "Noor counted: “{wrong}”. How high is the inner cover?",
        "inner_rim_height 3/8, sheet_thickness 1/4", "inner_rim_height 5/16, sheet_thickness 5/16",
        shows="thickness_once thickness_forgotten"),
    Exercise("06-09", "choose", "inner_cover.rim_back_length",
        "Four strips of stud lie on the bench. Which one closes the rim at the back?",
        "hive_width 15 5/8, stud_thickness 1 1/2", "hive_width 17 7/8, stud_thickness 1 9/16",
        shows="thickness_once thickness_forgotten nominal_size", own=True),
    Exercise("06-10", "predict", "inner_cover.overall_height",
        "The sheets are {change} thick instead of {sheet_thickness}. What happens to the height of "
        "the inner cover?",
        "inner_rim_height 3/8, sheet_thickness 1/4", "inner_rim_height 5/16, sheet_thickness 3/16",
        shows="thickness_once", by="sheet_thickness 5/16"),
    Exercise("06-11", "predict",
        "inner_cover.rim_side_length inner_cover.rim_back_length inner_cover.overall_height",
        "The stud is {change} thick instead of {stud_thickness}. Which of these changes?",
        "stud_thickness 1 1/2", "stud_thickness 1 5/8", by="most stud_thickness 1 9/16",
        question="Which of these lies between two strips that are as wide as a stud is thick?",
        rule="What lies between two strips loses twice what the strips gain.",
        almost="The sides run the whole length, and the height knows only rim and sheets.",
        why="The back lies between the sides, whose strips are as wide as a stud is thick."),
    Exercise("06-12", "order",
        "inner_cover.rim_front_length inner_cover.rim_side_length inner_cover.rim_back_length",
        "All strips of the rim come out of one long piece. In which order do you cut them?",
        "hive_length 23 1/8, hive_width 17 3/8, stud_thickness 1 1/2, inner_notch 2",
        "hive_length 19 1/2, hive_width 16 1/4, stud_thickness 1 1/2, inner_notch 1 1/2",
        by="longest first",
        why="A long piece that is spoilt still gives a shorter one. So the longest is cut first."),
    Exercise("06-13", "board", "inner_cover.rim_back_length",
        "How many backs for inner covers come out of a strip of {board}, with a kerf of {kerf} for "
        "every cut?",
        "hive_width 17 3/8, stud_thickness 1 1/2, board 72, kerf 1/8",
        "hive_width 18 15/16, stud_thickness 1 1/2, board 96, kerf 1/8", by="count", why=KERF,
        metric="hive_width 441, stud_thickness 38, board 1825, kerf 3; hive_width 481, "
            "stud_thickness 38, board 2440, kerf 3"),
    Exercise("06-14", "derive", "inner_cover.channel_back_length",
        "The channel behind the notch is as wide as the notch. Its back covers the ends of its two "
        "sides. How long is the back?",
        "inner_notch 2 1/4, strip_narrow 1/2, strip_wide 3/4",
        "inner_notch 1 3/4, strip_narrow 7/16, strip_wide 3/4",
        shows="thickness_once thickness_forgotten other_side", own=True,
        question="What lies beside the way of the bees, left and right, and how thick is it?"),
    Exercise("06-15", "chain", "inner_cover.rim_back_length",
        "Before any sum: which sizes make the back of the rim on Ines's inner cover?",
        "hive_width 17 3/8, stud_thickness 1 1/2", "hive_width 16 1/2, stud_thickness 1 9/16",
        shows="thickness_once thickness_added length_for_width", own=True),
    Exercise("06-16", "part", "practice.notched_front_length",
        "Jonas cuts the notch at one side, beside the rim's side, and not in the middle. So the "
        "front is one piece. How long is it?",
        "hive_width 17 3/8, stud_thickness 1 1/2, inner_notch 2",
        "hive_width 16 1/4, stud_thickness 1 9/16, inner_notch 1 3/4",
        shows="size_left_out thickness_once notch_twice", own=True,
        question="What else lies across the width, besides the one front piece?"),
))  # fmt: skip

LESSON_07: Final = LessonExercises("07", "The box and its sleeve", (
    Exercise("07-01", "derive", "box.inside_width",
        "Ines builds a box for her frames, with play to lift the first one out. How wide is it "
        "inside?",
        "frames 8, frame_spacing 1 3/8, frame_play 3/4",
        "frames 6, frame_spacing 1 1/2, frame_play 5/8",
        shows="gap_forgotten gap_each_side size_taken_off", stage="worked", own=True),
    Exercise("07-02", "derive", "box_width",
        "Boards go round that room. How wide is the box outside?",
        "frames 10, frame_spacing 1 3/8, frame_play 1, board_thickness 3/4",
        "frames 8, frame_spacing 1 3/8, frame_play 3/4, board_thickness 7/8",
        shows="thickness_once thickness_forgotten nominal_size", stage="last step", own=True,
        metric="frames 10, frame_spacing 35, frame_play 25, board_thickness 20; frames 8, "
            "frame_spacing 35, frame_play 18, board_thickness 22"),
    Exercise("07-03", "derive", "box.end_length",
        "The end boards stand between the sides and reach into a rabbet at both ends. How long is "
        "an end board?",
        "frames 10, frame_spacing 1 3/8, frame_play 1, board_thickness 7/8, joint_depth 3/8",
        "frames 9, frame_spacing 1 3/8, frame_play 3/4, board_thickness 13/16, joint_depth 5/16",
        shows="one_side_only size_left_out thickness_once", stage="hard step", own=True),
    Exercise("07-04", "derive", "box.inside_length",
        "The frame hangs by its lugs on a rest at each end, with a little ease. How long is the "
        "room inside Tomas's box?",
        "frames 10, top_bar 19, rest_overlap 3/8, rest_ease 1/8",
        "frames 10, top_bar 18 1/2, rest_overlap 7/16, rest_ease 3/16",
        shows="one_side_only gap_forgotten size_left_out", own=True),
    Exercise("07-05", "derive", "box.space_above",
        "The lug lies in its rest. How much room is left above it, up to the top of Mira's box?",
        "frames 10, rest_depth 11/16, lug_thickness 3/8",
        "frames 10, rest_depth 9/16, lug_thickness 5/16",
        shows="thickness_forgotten thickness_added", own=True),
    Exercise("07-06", "derive", "box_height",
        "Space above, the frames, space below: how high is Jonas's box?",
        "frames 10, rest_depth 11/16, lug_thickness 3/8, frame_depth 9 1/8, space_below 1/8",
        "frames 10, rest_depth 5/8, lug_thickness 5/16, frame_depth 6 1/4, space_below 1/16",
        shows="size_left_out", own=True),
    Exercise("07-07", "derive", "hive_width",
        "Foam and a skin go round an old box. How wide does the hive become?",
        "box_length 19 7/8, box_width 16 1/4, box_height 9 5/8, foam_thickness 1, skin_thickness "
        "3/8",
        "box_length 18 1/2, box_width 14 7/8, box_height 9 5/8, foam_thickness 1 1/4, "
        "skin_thickness 1/4", shows="thickness_once thickness_forgotten length_for_width",
        own=True),
    Exercise("07-08", "derive", "sleeve.skin_side_length",
        "The skin at the side covers the foam there and the edges of the foam at both ends. How "
        "long is it?",
        "box_length 19 7/8, box_width 16 1/4, box_height 9 5/8, foam_thickness 1 1/8, "
        "skin_thickness 1/2",
        "box_length 18 3/8, box_width 15 1/2, box_height 9 5/8, foam_thickness 1, skin_thickness "
        "3/8", shows="thickness_once thickness_forgotten", own=True),
    Exercise("07-09", "derive", "sleeve.clear_height",
        "Edge strips close the foam at top and bottom. How high is the foam between them?",
        "box_length 19 7/8, box_width 16 1/4, box_height 9 5/8, edge_strip_height 13/16",
        "box_length 19 7/8, box_width 16 1/4, box_height 6 5/8, edge_strip_height 11/16",
        shows="one_side_only size_left_out size_added", own=True),
    Exercise("07-10", "find", "sleeve.foam_end_length",
        "For the foam at the end of the box Lena wrote “{wrong}”. How long is it?",
        "box_length 19 7/8, box_width 16 1/4, box_height 9 5/8, foam_thickness 1",
        "box_length 18 3/4, box_width 15 1/8, box_height 9 5/8, foam_thickness 1 1/4",
        shows="thickness_once thickness_forgotten"),
    Exercise("07-11", "find", "hive_length",
        "Pavel counted foam and skin at one end: “{wrong}”. How long does the hive become?",
        "box_length 19 7/8, box_width 16 1/4, box_height 9 5/8, foam_thickness 1, skin_thickness "
        "1/2",
        "box_length 18 5/8, box_width 15 1/2, box_height 9 5/8, foam_thickness 1 1/2, "
        "skin_thickness 3/8", shows="thickness_once"),
    Exercise("07-12", "choose", "sleeve.skin_end_length",
        "Sheets of thin plywood lean at the wall. Which one is the skin for an end, which covers "
        "the edges of the side skins, too?",
        "box_length 19 7/8, box_width 16 1/4, box_height 9 5/8, foam_thickness 1, skin_thickness "
        "3/8",
        "box_length 18 1/2, box_width 15 1/8, box_height 9 5/8, foam_thickness 1 1/4, "
        "skin_thickness 1/2", shows="thickness_once thickness_forgotten", own=True),
    Exercise("07-13", "predict", "hive_width",
        "The foam is {change} thick instead of {foam_thickness}. What happens to the width of the "
        "hive?",
        "box_length 19 7/8, box_width 16 1/4, box_height 9 5/8, foam_thickness 1, skin_thickness "
        "1/2",
        "box_length 18 1/2, box_width 15 1/8, box_height 9 5/8, foam_thickness 1 1/8, "
        "skin_thickness 3/8", shows="thickness_once", by="foam_thickness 1 1/4"),
    Exercise("07-14", "order", "hive_width box.inside_width box_width",
        "Noor works from the frames outwards. In which order does she find these sizes?",
        "frames 10", "frames 8", by="needed first",
        why="A box grows from the frame outwards: the room, the boards, then foam and skin."),
    Exercise("07-15", "board", "box_length",
        "Rosa saws sides for boxes out of one long board of {board}. How many come out of it, with "
        "a kerf of {kerf} for every cut?",
        "frames 10, top_bar 18 5/16, board_thickness 3/4, board 96, kerf 1/8",
        "frames 10, top_bar 23 1/16, board_thickness 3/4, board 96, kerf 1/8", by="count", why=KERF,
        metric="frames 10, top_bar 465, board_thickness 20, board 2440, kerf 3; frames 10, top_bar "
            "585, board_thickness 20, board 2440, kerf 3"),
    Exercise("07-16", "derive", "sleeve.bearing",
        "Foam and skin stand on the outer part of each rail. How much of the rail is left to carry "
        "Jonas's box?",
        "box_length 19 7/8, box_width 16 1/4, box_height 9 5/8, stud_thickness 1 1/2, "
        "foam_thickness 1, skin_thickness 1/4",
        "box_length 18 1/2, box_width 15 1/8, box_height 9 5/8, stud_thickness 1 9/16, "
        "foam_thickness 3/4, skin_thickness 3/8", shows="thickness_forgotten nominal_size",
        own=True,
        why="What bears on less than 1/4 in of rail hangs on its edge strips and their screws."),
    Exercise("07-17", "derive", "box.space_between",
        "Two of Noor's boxes stand on one another. How much room is there between the frames of "
        "the two?",
        "frames 10, rest_depth 11/16, lug_thickness 3/8, space_below 1/8",
        "frames 10, rest_depth 5/8, lug_thickness 3/8, space_below 3/16",
        shows="size_left_out size_taken_off", own=True,
        why="The space above the lower frames and the space below the upper ones come together."),
    Exercise("07-18", "chain", "box_width",
        "Before any sum: which sizes make the width of Rosa's box outside?",
        "frames 10, board_thickness 3/4", "frames 8, board_thickness 7/8",
        shows="thickness_once thickness_forgotten", own=True),
    Exercise("07-19", "part", "practice.follower_length",
        "A follower board hangs in the box like a frame and closes off a part of it. It gets the "
        "ease of a frame at each end. How long does Mira cut it?",
        "frames 10, top_bar 19, rest_overlap 3/8, rest_ease 1/8",
        "frames 10, top_bar 18 1/2, rest_overlap 7/16, rest_ease 3/16",
        shows="one_side_only gap_forgotten", own=True,
        question="How long is the room inside, and where must the board not scrape?"),
))  # fmt: skip

LESSON_08: Final = LessonExercises("08", "Will it go together?", (
    Exercise("08-01", "derive", "gap_left = panel_gap - front_error - bow - panel_error",
        "The front rail was cut short, a side rail is bowed inwards, the panel was cut wide: each "
        "a little, all the worst way. How much of the panel's gap is left?",
        "panel_gap 3/8, front_error 1/16, bow 1/32, panel_error 1/8",
        "panel_gap 5/16, front_error 1/32, bow 1/16, panel_error 1/8", shows="size_added",
        stage="worked",
        question="Which two make the opening narrower, and which one makes the panel wider?",
        why="In the worst case every error takes its share of the gap at once."),
    Exercise("08-02", "derive", "bottom_board.headroom",
        "Before you saw: how much room is left above the stack on these rails?",
        "stud_width 3 9/16, strip_narrow 1/2, strip_wide 3/4, foam_thickness 1, slot_ease 1/8, "
        "mesh_thickness 1/32",
        "stud_width 3 5/8, strip_narrow 1/2, strip_wide 3/4, foam_thickness 1, slot_ease 1/8, "
        "mesh_thickness 1/32", shows="step_skipped size_left_out nominal_size", stage="last step",
        own=True),
    Exercise("08-03", "derive", "bottom_board.screen_end_strip_length",
        "Check the whole chain once more: how long is an end strip of this screen?",
        "hive_width 18 3/8, stud_thickness 1 1/2, screen_gap 1/8, strip_narrow 7/16, strip_wide "
        "3/4",
        "hive_width 16 7/8, stud_thickness 1 1/2, screen_gap 1/8, strip_narrow 1/2, strip_wide 7/8",
        shows="thickness_once other_side", stage="hard step", own=True,
        metric="hive_width 467, stud_thickness 38, screen_gap 3, strip_narrow 12, strip_wide 20; "
            "hive_width 429, stud_thickness 38, screen_gap 3, strip_narrow 12, strip_wide 23"),
    Exercise("08-04", "derive", "too_long = as_cut - planned",
        "A rail came off the saw longer than planned. By how much?",
        "as_cut 15 1/8, planned 14 3/8", "as_cut 22 1/4, planned 21 7/16",
        metric="as_cut 384, planned 365; as_cut 565, planned 547",
        shows="inch_not_lowered smaller_from_larger",
        why="What is too long runs into its neighbour by just that much."),
    Exercise("08-05", "measure", "bottom_board.front_rail_length",
        "Ines's front rail came out {cut} long. What does she do with it?",
        "hive_width 17 3/8, stud_thickness 1 1/2, cut 14 5/8",
        "hive_width 17 3/8, stud_thickness 1 1/2, cut 13 1/2", by="piece", why=SAVED,
        question="How long should it be, and is it longer or shorter than that?",
        rule="Too long can be trimmed. Too short is another piece: no strip holds a screw.",
        almost="Work out the rail first. Then say on which side of it her piece is, and how far."),
    Exercise("08-06", "measure", "bottom_board.panel_length",
        "Tomas's foam panel came out {cut} long. What does he do with it?",
        "hive_length 23 1/8, stud_thickness 1 1/2, panel_gap 1/4, cut 19 13/16",
        "hive_length 23 1/8, stud_thickness 1 1/2, panel_gap 1/4, cut 20 1/4", by="piece",
        why=SAVED,
        question="How long should it be, and is its error on the side that still slides?",
        rule="What slides may be a little short, and never long.",
        almost="Work out the panel first. Then ask whether it would still slide, and still close."),
    Exercise("08-07", "measure", "judgement",
        "Mira laid her frame together dry and measured sides and diagonals: rising from front left "
        "to back right, falling from front right to back left. What now?",
        "length 23 1/8, width 17 3/8, rising 28 11/16, falling 29 3/16",
        "length 22, width 16, rising 27 1/4, falling 27 3/16", by="square",
        question="Which of the two diagonals is longer, and by how much?",
        rule="Up to 1/8 in is square enough. Else push together the corners of the longer "
            "diagonal.",
        almost="Draw the frame leaning, and see which two corners reach farthest out.",
        why="Equal diagonals mean square corners: pull the frame square before the glue sets."),
    Exercise("08-08", "predict",
        "bottom_board.room_above_stack bottom_board.panel_play_along roof.skirt_lap "
        "roof.rim_clear_along",
        "The yard brings studs that are only {change} wide. Which rule fails now?",
        "stud_width 3 1/2, strip_narrow 1/2, strip_wide 3/4, foam_thickness 1, slot_ease 1/8, "
        "mesh_thickness 1/32",
        "stud_width 3 9/16, strip_narrow 1/2, strip_wide 3/4, foam_thickness 1 1/16",
        by="rule stud_width 3 3/8",
        question="Which of these rules has to do with the height of the rails?",
        rule="Everything in the frame must stay below the top of the rails.",
        almost="Add up what lies in the frame, and hold it against the lower rail.",
        why="Lower rails leave the stack no room, and the box above would rock on it.",
        metric="stud_width 89, strip_narrow 13, strip_wide 20, foam_thickness 25, slot_ease 3, "
            "mesh_thickness 1; stud_width 91, strip_narrow 13, strip_wide 20, foam_thickness 26, "
            "slot_ease 3, mesh_thickness 1"),
    Exercise("08-09", "predict",
        "bottom_board.widest_gap_at_screen bottom_board.room_above_stack "
        "bottom_board.panel_play_along roof.skirt_lap roof.rim_clear_along",
        "Jonas wants his screen to slide freely, so he plans a screen gap of {change}. Which rule "
        "fails?",
        "screen_gap 1/8", "screen_gap 3/32", by="rule screen_gap 1/4",
        question="Pushed to one side, where does the screen leave its whole gap open?",
        rule="A bee squeezes through little more than 5/32 in.",
        almost="Ask which of these rules the screen has to do with.",
        why="A screen that lies at one side shows its whole gap at the other, and a bee walks "
            "through."),
    Exercise("08-10", "predict", "bottom_board.stack_height",
        "The fence was off, so all strips are {change} thick the narrow way instead of "
        "{strip_narrow}. What does that do to the stack?",
        "strip_narrow 1/2, strip_wide 3/4, foam_thickness 1, slot_ease 1/8, mesh_thickness 1/32",
        "strip_narrow 15/32, strip_wide 3/4, foam_thickness 1, slot_ease 1/8, mesh_thickness 1/32",
        shows="thickness_forgotten thickness_twice", by="strip_narrow 9/16",
        why="All strips are off the same way, so nothing cancels: three layers, three errors."),
    Exercise("08-11", "find", "bottom_board.headroom",
        "Lena looked for the headroom and wrote “{wrong}”. What is it really?",
        "stud_width 3 1/2, strip_narrow 1/2, strip_wide 3/4, foam_thickness 1, slot_ease 1/8, "
        "mesh_thickness 1/32",
        "stud_width 3 9/16, strip_narrow 1/2, strip_wide 3/4, foam_thickness 1, slot_ease 1/8, "
        "mesh_thickness 1/32", shows="nominal_size step_skipped"),
    Exercise("08-12", "choose", "bottom_board.front_rail_length",
        "Three rails lie by the bench, cut by three people. Which one goes between the sides?",
        "hive_width 18 5/8, stud_thickness 1 9/16", "hive_width 16 1/8, stud_thickness 1 7/16",
        shows="thickness_once nominal_size", own=True),
))  # fmt: skip

LESSON_09: Final = LessonExercises("09", "What to buy", (
    Exercise("09-01", "board", "offcut = board - 2 * rail - 2 * kerf",
        "Noor cuts two rails off one board. Each cut takes its kerf. How long is the offcut?",
        "board 72, rail 21 5/8, kerf 1/8", "board 60, rail 19 7/8, kerf 1/8", shows="size_left_out",
        stage="worked", question="How many cuts does it take to get two rails off a longer board?",
        why="Every cut takes its kerf, and there are as many cuts as pieces while wood is left."),
    Exercise("09-02", "board", "bottom_board.side_rail_length",
        "Twelve people need side rails, two each. The yard sells studs of {board}, and each cut "
        "takes a kerf of {kerf}. How many side rails does one stud give?",
        "hive_length 25 1/2, stud_thickness 1 1/2, board 144, kerf 1/8",
        "hive_length 21 1/2, stud_thickness 1 1/2, board 120, kerf 1/8", stage="last step",
        by="count", why=KERF,
        metric="hive_length 648, stud_thickness 38, board 3660, kerf 3; hive_length 546, "
            "stud_thickness 38, board 3050, kerf 3"),
    Exercise("09-03", "predict", "roof.deck_length",
        "Ines wants to save plywood. She takes an overhang of {change} instead of {overhang}. What "
        "happens to the deck's length?",
        "hive_length 23 1/8, overhang 2", "hive_length 20 3/4, overhang 2 1/4",
        shows="one_side_only", stage="hard step", by="overhang 1 1/2"),
    Exercise("09-04", "order", "red blue green white",
        "Four offcuts lie at home, marked with colours. The shortest one that is long enough is "
        "used first. Order them, the shortest first.",
        "red 14 3/8, blue 14 1/4, green 14 7/16, white 14 1/2",
        "red 9 3/4, blue 9 13/16, green 9 5/8, white 9 7/8", by="smallest first",
        almost="Write them all in sixteenths: then the tops alone decide.",
        why="Fractions are compared when all have the same number under the line."),
))  # fmt: skip

LESSON_10: Final = LessonExercises("10", "Cutting it out of boards and sheets", (
    Exercise("10-01", "board", "bottom_board.front_rail_length",
        "Emil cuts front rails for the whole class. How many come out of one stud of {board}, if "
        "every cut takes a kerf of {kerf}?",
        "hive_width 19, stud_thickness 1 1/2, board 96, kerf 1/8",
        "hive_width 17 3/8, stud_thickness 1 1/2, board 72, kerf 1/8", stage="last step",
        by="count", why=KERF,
        metric="hive_width 483, stud_thickness 38, board 2450, kerf 3; hive_width 441, "
            "stud_thickness 38, board 1825, kerf 3"),
    Exercise("10-02", "derive", "offcut = entrance - kerf",
        "The entrance is ripped off the front rail, and the kerf comes off what is ripped off. How "
        "thick is the piece that falls off?",
        "entrance 13/16, kerf 1/8", "entrance 11/16, kerf 3/32", shows="size_left_out size_added",
        stage="worked",
        question="Where does the wood of the kerf go: to the rail, to the piece, or to dust?",
        why="The rail keeps its full height. So the kerf comes off the piece that falls off."),
    Exercise("10-03", "board", "offcut = sheet - 2 * deck - 2 * kerf",
        "Two decks are ripped off a half sheet, side by side, with a kerf for each. How wide is "
        "the offcut?",
        "sheet 48, deck 21 3/8, kerf 1/8", "sheet 48, deck 19 5/8, kerf 3/16",
        shows="size_left_out", stage="hard step",
        question="How many rips does it take to get two decks off a wider sheet?",
        why="Every rip takes its kerf, and there are as many rips as pieces while a rest is left."),
    Exercise("10-04", "order",
        "bottom_board.side_rail_length bottom_board.front_rail_length roof.rim_side_length",
        "Three kinds of rails come out of the same stud. In which order do you cut them?",
        "hive_length 23 1/8, hive_width 17 3/8, cap_clearance 1/2",
        "hive_length 18 1/4, hive_width 23 1/2, cap_clearance 3/8", by="longest first",
        question="If a cut goes wrong, out of which piece can another one still be made?",
        why="A long piece that is spoilt still gives a shorter one. So the longest is cut first."),
))  # fmt: skip

LESSON_11: Final = LessonExercises("11", "At the saw", (
    Exercise("11-01", "derive", "offcut = stud - rail - kerf",
        "The fence is set to the rail's height. What falls off on the other side of the blade?",
        "stud 3 1/2, rail 2 9/16, kerf 1/8", "stud 3 7/16, rail 2 5/8, kerf 1/8",
        shows="size_left_out", stage="worked",
        question="The rail stays at the fence. What are the two things that the rest is made of?",
        why="The rail keeps its full height, so the kerf comes off what falls away."),
    Exercise("11-02", "derive", "half_way = (front + back) / 2",
        "A side of the roof's rim is {front} high in front and {back} at the back. How high must "
        "it be half-way, where you check it with the tape?",
        "front 3 1/2, back 1 1/4", "front 3 7/16, back 1 1/2", shows="size_left_out",
        stage="hard step",
        question="A line falls evenly. What lies in the middle between its two ends?",
        why="A straight line falls as much in its first half as in its second half."),
    Exercise("11-03", "predict", "bottom_board.front_rail_width",
        "Jonas wants an entrance of {change} instead of {entrance_height}. What happens to the "
        "height that he sets the fence to for the front rail?",
        "stud_width 3 1/2, entrance_height 3/4", "stud_width 3 7/16, entrance_height 5/8",
        stage="last step", by="entrance_height 7/8",
        question="The stud stays as wide as it is. More is ripped off: what becomes of the rest?",
        why="The rail is what is left of the stud below the entrance."),
    Exercise("11-04", "order",
        "bottom_board.back_rail_length roof.rim_front_length bottom_board.side_rail_length",
        "The stop block is set once for each length. Which setting comes first, which next?",
        "hive_length 23 1/8, hive_width 17 3/8, cap_clearance 1/2",
        "hive_length 16 1/2, hive_width 20 1/4, cap_clearance 3/8", by="longest first",
        question="Which piece needs the most sound wood?",
        why="What is left after a long piece still serves for a shorter one."),
))  # fmt: skip

LESSON_12: Final = LessonExercises("12", "Why insulate", (
    Exercise("12-01", "derive", "wall = board + foam + skin",
        "A wall has three layers: a board, foam and a skin. How thick is it in all?",
        "board 3/4, foam 1 1/2, skin 1/2", "board 7/8, foam 2, skin 3/8", shows="size_left_out",
        stage="worked", why=ROW),
    Exercise("12-02", "derive", "foam_in_all = first_layer + second_layer",
        "Noor lays two boards of foam on one another in her roof. How much foam is that?",
        "first_layer 1 5/8, second_layer 1 1/2", "first_layer 1 3/4, second_layer 1 7/8",
        metric="first_layer 46, second_layer 38; first_layer 44, second_layer 48",
        shows="carry_dropped tops_and_bottoms", stage="last step", why=ROW),
    Exercise("12-03", "derive", "foam_left = foam - lost",
        "A roof has foam of {foam}. Wood goes through it, and costs as much heat as if {lost} of "
        "the foam were missing. How much foam is that roof really worth?",
        "foam 2 1/4, lost 1 1/2", "foam 3 1/8, lost 1 3/8",
        metric="foam 57, lost 38; foam 82, lost 35", shows="inch_not_lowered smaller_from_larger",
        stage="hard step",
        why="Wood lets through more than foam. So the roof is worth less foam than lies in it."),
    Exercise("12-04", "measure", "wall",
        "[An inch|10 mm] of foam has R [5|0.347], of board R [1.2|0.083], of skin R [1.1|0.077]. "
        "Films of air are there on both faces: [0.7|0.13] inside, [0.2|0.04] outside. What is R of "
        "the whole wall?",
        "board 3/4, foam 1, skin 1/2", "board 3/4, foam 2, skin 1/4", by="row", why=ROW,
        metric="board 20, foam 25, skin 12; board 20, foam 50, skin 6",
        question="Which things does the heat go through on its way, the air at both faces too?",
        rule="Take each thickness[|, in steps of 10 mm,] times its R for [an inch|10 mm]. Then add "
            "them all, and both films.",
        almost="Write them in a column from inside to outside, five lines, and add them up."),
    Exercise("12-05", "measure", "wall",
        "A layer is foam of R 5 for {foam_height} of its height. For the other {strip_height} a "
        "strip of wood stands there, of R 1. What is R of the whole layer?",
        "foam_height 9, strip_height 1", "foam_height 8 1/2, strip_height 1 1/2", by="beside",
        question="Does the heat go through both, or does each bit of it choose one way?",
        rule="Divide each share of the height by its R. Add them. Then divide one by that.",
        almost="Share of foam by its R, share of wood by its own: add both, and turn it round.",
        why="Side by side it is the flows that are added. A little wood lets much heat through."),
    Exercise("12-06", "order", "plywood foam softwood straw",
        "Four walls hold heat equally well. Order them by how thick they are, the thinnest first.",
        "plywood 4 1/2, foam 1, softwood 4 3/16, straw 2",
        "plywood 9, foam 2, softwood 8 3/8, straw 4", by="smallest first",
        almost="Foam holds heat best, so it is first. Then compare the figures of the others.",
        why="The better a thing holds heat, the thinner it may be."),
))  # fmt: skip

LESSON_13: Final = LessonExercises("13", "Wood moves", (
    Exercise("13-01", "derive", "gap_left = gap - swelling",
        "A rail swells by {swelling} into a gap of {gap}. How much of the gap is left?",
        "gap 1/4, swelling 1/32", "gap 3/16, swelling 1/64", shows="size_added", stage="worked",
        why="What the wood grows is taken off the gap."),
    Exercise("13-02", "derive", "board_now = board + swelling",
        "A board is cut to {board}. In a wet autumn it swells by {swelling}. How wide is it now?",
        "board 9 15/16, swelling 1/8", "board 7 7/8, swelling 3/16",
        metric="board 248, swelling 3; board 236, swelling 5", shows="carry_dropped",
        stage="last step", why="Damp wood is wider: what it grew is added."),
    Exercise("13-03", "derive", "rail_now = rail - shrinking",
        "A stud was measured wet: {rail}. In summer it has shrunk by {shrinking}. How wide is it "
        "now?",
        "rail 3 9/16, shrinking 3/32", "rail 5 1/2, shrinking 5/32", shows="size_added",
        stage="hard step", why="Wood that dries gets narrower, so what it lost comes off."),
    Exercise("13-04", "measure", "board",
        "A board dries. It is {board} wide. Which way does it move most?",
        "board 9 1/4", "board 7 1/4", by="grain",
        question="Where does a round log crack as it dries: along, or from the middle outwards?",
        rule="Wood grows and shrinks across its grain. Along the grain it hardly changes.",
        almost="The rings of a tree close up as they dry. Follow one ring round the log.",
        why="Round the rings wood moves about twice as much as across them."),
    Exercise("13-05", "order", "box_side stud strip dowel",
        "Four pieces of the same wood dry equally. The wider one shrinks more. Order them by how "
        "much they shrink, the least first.",
        "box_side 9 9/16, stud 3 1/2, strip 3/4, dowel 1 1/4",
        "box_side 6 5/8, stud 5 1/2, strip 1/2, dowel 15/16", by="smallest first",
        almost="Each shrinks by the same part of its width. So order them by width.",
        why="Twice as wide moves twice as much. So a high box side moves most of all."),
    Exercise("13-06", "derive", "headroom_now = headroom - shrinking",
        "Over the screen {headroom} was left while the rails were wet. They shrink by "
        "{shrinking}, and the screen stays. What headroom is left?",
        "headroom 3/16, shrinking 1/16", "headroom 7/32, shrinking 1/16", shows="size_added",
        almost="Write both in the finer parts of an inch. Then take one top off the other.",
        why="The rails get lower and the screen does not: what they lose is lost to the headroom."),
))  # fmt: skip

LESSON_14: Final = LessonExercises("14", "Putting it together", (
    Exercise("14-01", "derive", "panel_length = opening - panel_gap",
        "The frame is glued. Its opening is {opening} long, and the panel's gap is {panel_gap}. "
        "How long do you cut the panel?",
        "opening 20 1/16, panel_gap 1/4", "opening 19 1/8, panel_gap 3/8",
        shows="gap_forgotten gap_added inch_not_lowered", stage="worked",
        question="Must the panel go into the opening, or fill it?",
        why="The panel is cut to the opening that is there, and slides in it with its gap."),
    Exercise("14-02", "derive", "each_side = (strip - way) / 2",
        "An entrance strip is {strip} long. The way through it is {way} wide, in the middle. How "
        "long is the strip on each side of the way?",
        "strip 14 1/4, way 3", "strip 13 5/8, way 3 1/4",
        shows="size_left_out size_added both_given", stage="last step",
        question="What is left of the strip when the way is cut out, and how many pieces share it?",
        why="What the way leaves is shared by two sides."),
    Exercise("14-03", "derive", "entrance_strip = hive_width - 2 * stud_thickness - screen_gap",
        "An entrance strip closes the room over the front rail, between the two side rails. It has "
        "to come out again, so it gets the gap of the screen: {screen_gap} in all. How long is it?",
        "hive_width 17 1/4, stud_thickness 1 1/2, screen_gap 1/8",
        "hive_width 16 3/8, stud_thickness 1 7/16, screen_gap 3/32",
        shows="thickness_once gap_added gap_forgotten", stage="hard step",
        question="Go across the hive at the entrance: which two pieces stand beside the strip?",
        why="It stands between the side rails as the screen does, with the same gap."),
    Exercise("14-04", "order",
        "bottom_board.slide_in bottom_board.front bottom_board.opening sleeve.skin "
        "sleeve.edge_strips sleeve.foam",
        "Which of these do you do first, which next?",
        "hive_length 23 1/8, hive_width 17 3/8", "frames 10", by="built first",
        question="Which of these must be there, or be dry, before you can do another one?",
        rule="A step comes after all those that make the place for it.",
        almost="Ask of each one what it is fastened to, and whether that is there yet.",
        why="What holds comes before what is held, and what is measured before what is cut to it."),
    Exercise("14-05", "find",
        "bottom_board.lower_runners bottom_board.front bottom_board.opening bottom_board.slide_in "
        "sleeve.edge_strips sleeve.skin sleeve.foam",
        "Jonas did it in this order: {done}. What went wrong?",
        "hive_length 23 1/8, hive_width 17 3/8", "frames 10", by="too early",
        question="Which of these must be there, or be dry, before you can do another one?",
        rule="A step comes after all those that make the place for it.",
        almost="Go through his list. At each step: could he get there, and did he know the size?",
        why="A step that comes too early is cut to a guess, or closes the way to the next one."),
    Exercise("14-06", "measure", "judgement",
        "The glue is still wet. Ines measures her frame: rising from front left to back right, "
        "falling from front right to back left. What does she do?",
        "length 23 1/8, width 17 3/8, rising 29 1/8, falling 28 11/16",
        "length 22, width 16, rising 27, falling 27 3/8", by="square",
        question="Which of the two diagonals is longer, and by how much?",
        rule="Up to 1/8 in is square enough. Else push together the corners of the longer "
            "diagonal.",
        almost="Draw the frame leaning, and see which two corners reach farthest out.",
        why="Now it can still be pulled. In an hour it can't."),
    Exercise("14-07", "measure", "bottom_board.panel_length",
        "Tomas cut his panel by the plan, before the frame was glued: {cut} long. Now the opening "
        "measures {built_opening_length}. What does he do with the panel?",
        "hive_length 23 1/8, panel_gap 1/4, built_opening_length 19 13/16, cut 19 7/8",
        "hive_length 23 1/8, panel_gap 1/4, built_opening_length 20 1/2, cut 19 7/8", by="piece",
        question="How long must the panel be for the opening that is there?",
        rule="What slides may be a little short, and never long.",
        almost="Take the gap off the opening. Then hold the panel against that.",
        why="The plan is to buy by. The opening in the glued frame is to cut by."),
    Exercise("14-08", "choose", "bottom_board.panel_width",
        "Three panels lie beside a glued frame. Its opening is {built_opening_width} wide. Which "
        "panel goes in, slides, and still closes it?",
        "hive_width 17 3/8, built_opening_width 14 5/16, panel_gap 1/4",
        "hive_width 16 1/8, built_opening_width 13 3/16, panel_gap 5/16",
        shows="gap_forgotten gap_each_side", own=True,
        question="What is measured now: the hive, or the opening itself?"),
))  # fmt: skip

LESSONS: Final = (
    LESSON_06, LESSON_07, LESSON_08, LESSON_09, LESSON_10, LESSON_11, LESSON_12, LESSON_13,
    LESSON_14,
)  # fmt: skip
