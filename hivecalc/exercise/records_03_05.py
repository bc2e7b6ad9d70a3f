"""Exercises of lessons 03 to 05; all numbers in them are invented."""

from typing import Final

from hivecalc.exercise.record import KERF, Exercise, Lesson

LESSONS: Final = (
    Lesson("03", "Runners, slot and panel", (
        Exercise("03-01", "derive", "bottom_board.opening_length",
            "The frame of Ines's bottom board is screwed together. How long is the opening inside "
            "it, front to back?",
            "hive_length 23 1/8, stud_thickness 1 1/2", "hive_length 21 5/8, stud_thickness 1 9/16",
            shows="thickness_once thickness_forgotten thickness_added", stage="worked", own=True,
            picture="section"),
        Exercise("03-02", "derive", "bottom_board.panel_width",
            "The foam panel slides in the opening. How wide does Tomas cut it?",
            "hive_width 17 3/8, stud_thickness 1 1/2, panel_gap 1/4",
            "hive_width 16 5/8, stud_thickness 1 9/16, panel_gap 3/8",
            shows="gap_each_side gap_forgotten gap_added", stage="last step", own=True),
        Exercise("03-03", "derive", "bottom_board.lower_front_runner_length",
            "The lower front runner lies between two side runners that stand on edge. How long is "
            "it?",
            "hive_width 17 3/8, stud_thickness 1 1/2, strip_narrow 1/2, strip_wide 3/4, "
            "runner_gap 3/8",
            "hive_width 18 1/4, stud_thickness 1 1/2, strip_narrow 7/16, strip_wide 13/16, "
            "runner_gap 5/16",
            shows="thickness_once gap_forgotten other_side overall_size", stage="hard step",
            own=True, picture="section"),
        Exercise("03-04", "derive", "bottom_board.upper_front_runner_length",
            "The upper runners lie flat. How long is the upper front runner?",
            "hive_width 17 3/8, stud_thickness 1 1/2, strip_narrow 1/2, strip_wide 3/4, "
            "runner_gap 3/8",
            "hive_width 16 1/8, stud_thickness 1 1/2, strip_narrow 9/16, strip_wide 7/8, "
            "runner_gap 5/16",
            shows="other_side thickness_once gap_forgotten overall_size", own=True),
        Exercise("03-05", "derive", "bottom_board.panel_length",
            "Mira's frame is done. How long does she cut the foam panel, front to back?",
            "hive_length 22 1/16, hive_width 17 3/8, stud_thickness 1 1/2, panel_gap 3/16",
            "hive_length 24 1/8, hive_width 18 5/8, stud_thickness 1 1/2, panel_gap 1/4",
            shows="gap_each_side gap_forgotten length_for_width", own=True),
        Exercise("03-06", "derive", "bottom_board.panel_width",
            "Jonas chose an odd gap. His tape has sixteenths. How wide does he cut the panel: "
            "which way does he round?",
            "hive_width 17 3/8, stud_thickness 1 1/2, panel_gap 9/32",
            "hive_width 16 1/4, stud_thickness 1 1/2, panel_gap 7/32",
            shows="rounded_wrong_way gap_each_side",
            question="If it comes out a hair wrong, what does less harm: a hair too wide or too "
                     "narrow?"),
        Exercise("03-07", "derive", "bottom_board.slot_height",
            "Lena's foam is thicker than an inch. How high is the slot for the panel?",
            "foam_thickness 1 3/16, slot_ease 1/8", "foam_thickness 1 1/16, slot_ease 3/16",
            shows="gap_forgotten gap_each_side size_taken_off", own=True),
        Exercise("03-08", "find", "bottom_board.panel_width",
            "Pavel took the gap off at both sides: “{wrong}”. How wide should the panel be?",
            "hive_width 18 1/8, stud_thickness 1 1/2, panel_gap 1/4",
            "hive_width 15 3/4, stud_thickness 1 5/8, panel_gap 3/8",
            shows="gap_each_side gap_forgotten"),
        Exercise("03-09", "find", "bottom_board.opening_width",
            "For the opening's width Noor wrote “{wrong}”. What is it really?",
            "hive_width 16 7/8, stud_thickness 1 1/2", "hive_width 19 1/4, stud_thickness 1 9/16",
            shows="thickness_once thickness_added"),
        Exercise("03-10", "find", "bottom_board.upper_front_runner_length",
            "Rosa took the wrong side of the strip: “{wrong}”. How long is the upper front runner?",
            "hive_width 17, stud_thickness 1 1/2, strip_narrow 1/2, strip_wide 3/4, runner_gap 1/4",
            "hive_width 18 3/8, stud_thickness 1 1/2, strip_narrow 1/2, strip_wide 7/8, "
            "runner_gap 3/8",
            shows="other_side thickness_once gap_forgotten"),
        Exercise("03-11", "choose", "bottom_board.panel_length",
            "Four foam panels are stacked in the shed. Which one slides into this frame as it "
            "should?",
            "hive_length 23 1/8, stud_thickness 1 1/2, panel_gap 1/4",
            "hive_length 20 1/2, stud_thickness 1 9/16, panel_gap 3/16",
            shows="gap_forgotten gap_each_side gap_added", own=True),
        Exercise("03-12", "predict", "bottom_board.upper_front_runner_length",
            "The strip's wide side is {change} instead of {strip_wide}. What happens to the upper "
            "front runner?",
            "hive_width 17 3/8, stud_thickness 1 1/2, strip_narrow 1/2, strip_wide 3/4",
            "hive_width 16 1/4, stud_thickness 1 1/2, strip_narrow 1/2, strip_wide 11/16",
            shows="thickness_once", by="strip_wide 7/8"),
        Exercise("03-13", "predict",
            "bottom_board.lower_side_runner_length bottom_board.lower_front_runner_length "
            "bottom_board.upper_front_runner_length bottom_board.panel_length",
            "The runner gap grows from {runner_gap} to {change}. Which of these keeps its size?",
            "runner_gap 1/2", "runner_gap 3/8",
            by="least runner_gap 5/8",
            question="In which of these sizes does the runner gap come in?",
            rule="Runners stop short by the runner gap. The panel has a gap of its own.",
            almost="Look for the piece that is no runner.",
            why="The panel has a gap of its own: the runner gap is no part of it."),
        Exercise("03-14", "order",
            "bottom_board.upper_front_runner_length bottom_board.lower_side_runner_length "
            "bottom_board.lower_front_runner_length",
            "These runners all come out of one long strip. In which order do you cut them?",
            "hive_length 23 1/8, hive_width 17 3/8", "hive_length 16 1/2, hive_width 20 1/8",
            by="longest first",
            why="A long piece that is spoilt still gives a shorter one. So the longest is cut "
                "first."),
        Exercise("03-15", "board", "bottom_board.lower_side_runner_length",
            "How many lower side runners come out of a strip of {board}? Every cut takes {kerf}.",
            "hive_length 22 11/16, stud_thickness 1 1/2, runner_gap 1/2, board 96, kerf 1/8",
            "hive_length 20 1/4, stud_thickness 1 1/2, runner_gap 1/2, board 84, kerf 1/8",
            by="count", why=KERF,
            metric="hive_length 576, stud_thickness 38, runner_gap 12, board 2440, kerf 3; "
                   "hive_length 514, stud_thickness 38, runner_gap 12, board 2130, kerf 3"),
        Exercise("03-16", "derive", "bottom_board.panel_width",
            "Emil works in mm. How wide does he cut the panel, in mm?",
            "hive_width 430, stud_thickness 38, panel_gap 6",
            "hive_width 412, stud_thickness 45, panel_gap 8",
            shows="gap_each_side gap_forgotten gap_added", units="mm"),
        Exercise("03-17", "chain", "bottom_board.lower_front_runner_length",
            "Before any sum: which sizes make the length of Ines's lower front runner?",
            "hive_width 17 3/8, stud_thickness 1 1/2", "hive_width 16 1/4, stud_thickness 1 9/16",
            shows="thickness_once other_side gap_forgotten", own=True),
        Exercise("03-18", "part", "practice.pan_end_length",
            "Emil makes a pan for dirt, which slides in the panel's place with the panel's gap. "
            "Its two ends stand between its two sides, strips on edge. How long is an end?",
            "hive_width 17 3/8, stud_thickness 1 1/2, panel_gap 3/16, strip_narrow 1/2",
            "hive_width 16 5/8, stud_thickness 1 1/2, panel_gap 3/8, strip_narrow 7/16",
            shows="thickness_once gap_forgotten gap_added", own=True,
            question="What room is there for the whole pan, and what stands at each end of an "
                     "end?"),
    )),
    Lesson("04", "The screen that pulls out", (
        Exercise("04-01", "derive", "bottom_board.screen_length",
            "The screen slides in above the panel. How long is it on Ines's hive, front to back?",
            "hive_length 23 1/8, stud_thickness 1 1/2, screen_gap 1/8",
            "hive_length 22 3/4, stud_thickness 1 9/16, screen_gap 1/8",
            shows="gap_each_side gap_forgotten gap_added", stage="worked", own=True),
        Exercise("04-02", "derive", "bottom_board.screen_width",
            "How wide is Tomas's screen, side to side?",
            "hive_length 22 3/8, hive_width 17 1/16, stud_thickness 1 1/2, screen_gap 1/8",
            "hive_length 20 1/8, hive_width 16 1/16, stud_thickness 1 1/2, screen_gap 1/8",
            stage="last step", own=True,
            metric="hive_length 568, hive_width 438, stud_thickness 38, screen_gap 3; "
                   "hive_length 511, hive_width 408, stud_thickness 38, screen_gap 3",
            shows="gap_each_side gap_forgotten length_for_width inch_not_lowered"),
        Exercise("04-03", "derive", "bottom_board.screen_end_strip_length",
            "The end strips of the screen's frame lie flat between the side strips. How long is "
            "one?",
            "hive_width 17 3/8, stud_thickness 1 1/2, screen_gap 1/8, strip_narrow 1/2, "
            "strip_wide 3/4",
            "hive_width 18 1/4, stud_thickness 1 1/2, screen_gap 1/8, strip_narrow 9/16, "
            "strip_wide 7/8",
            shows="other_side thickness_once thickness_forgotten", stage="hard step", own=True),
        Exercise("04-04", "derive", "bottom_board.screen_end_strip_length",
            "Mira's strips are wide. How long is one end strip of her screen?",
            "hive_width 16 5/8, stud_thickness 1 1/2, screen_gap 1/8, strip_narrow 1/2, "
            "strip_wide 13/16",
            "hive_width 15 7/8, stud_thickness 1 9/16, screen_gap 1/8, strip_narrow 1/2, "
            "strip_wide 7/8",
            shows="thickness_once other_side thickness_added"),
        Exercise("04-05", "derive", "bottom_board.stack_height",
            "Everything that lies in the frame is stacked up. How high is the stack?",
            "strip_narrow 1/2, strip_wide 3/4, foam_thickness 1, slot_ease 1/8, mesh_thickness "
            "1/32",
            "strip_narrow 7/16, strip_wide 13/16, foam_thickness 1, slot_ease 1/8, mesh_thickness "
            "1/32",
            shows="thickness_forgotten other_side", own=True, picture="stack"),
        Exercise("04-06", "derive", "bottom_board.headroom",
            "How much room is left above the stack, below the top of Jonas's rails?",
            "stud_width 3 5/8, strip_narrow 1/2, strip_wide 3/4, foam_thickness 1, slot_ease 1/8, "
            "mesh_thickness 1/32",
            "stud_width 3 1/2, strip_narrow 7/16, strip_wide 13/16, foam_thickness 1, slot_ease "
            "1/8, mesh_thickness 1/32",
            shows="step_skipped size_left_out nominal_size", own=True, picture="stack"),
        Exercise("04-07", "derive", "front_stop_height",
            "The way in over the front stop is to be {bee_way} high. How high must the stop be?",
            "stud_width 3 1/2, bee_way 5/16, strip_narrow 1/2, strip_wide 3/4, foam_thickness 1, "
            "slot_ease 1/8, mesh_thickness 1/32",
            "stud_width 3 9/16, bee_way 11/32, strip_narrow 7/16, strip_wide 13/16, "
            "foam_thickness 1, slot_ease 1/8, mesh_thickness 1/32",
            shows="size_left_out nominal_size", own=True,
            question="What lies below the stop, layer by layer, and what stays free above it?",
            metric="stud_width 89, bee_way 8, strip_narrow 12, strip_wide 20, foam_thickness 25, "
                   "slot_ease 3, mesh_thickness 1; stud_width 91, bee_way 8, strip_narrow 10, "
                   "strip_wide 22, foam_thickness 25, slot_ease 3, mesh_thickness 1"),
        Exercise("04-08", "derive", "bottom_board.way_in",
            "The bees walk in over the front rail and then over the front stop. How high is the "
            "way in at its lowest place?",
            "stud_width 3 1/2, entrance_height 3/4, strip_narrow 1/2, strip_wide 3/4, "
            "foam_thickness 1, slot_ease 1/8, mesh_thickness 1/32, front_stop_height 1/4",
            "stud_width 3 1/2, entrance_height 9/16, strip_narrow 7/16, strip_wide 13/16, "
            "foam_thickness 1, slot_ease 1/8, mesh_thickness 1/32, front_stop_height 3/8",
            shows="wrong_one_of_two nominal_size", own=True),
        Exercise("04-09", "find", "bottom_board.screen_end_strip_length",
            "Lena took the strip's narrow side: “{wrong}”. How long is the end strip?",
            "hive_width 17 1/8, stud_thickness 1 1/2, screen_gap 1/8, strip_narrow 1/2, "
            "strip_wide 3/4",
            "hive_width 16 3/8, stud_thickness 1 5/8, screen_gap 1/8, strip_narrow 7/16, "
            "strip_wide 3/4",
            shows="other_side thickness_once",
            metric="hive_width 435, stud_thickness 38, screen_gap 3, strip_narrow 12, strip_wide "
                   "20; hive_width 416, stud_thickness 41, screen_gap 3, strip_narrow 12, "
                   "strip_wide 20"),
        Exercise("04-10", "find", "bottom_board.screen_width",
            "Pavel wanted a loose screen: “{wrong}”. How wide should it be?",
            "hive_width 17 3/4, stud_thickness 1 1/2, screen_gap 1/8",
            "hive_width 19 1/8, stud_thickness 1 9/16, screen_gap 1/8",
            shows="gap_each_side gap_forgotten gap_added"),
        Exercise("04-11", "find", "bottom_board.stack_height",
            "Noor stopped at the mesh and forgot the upper layer of strips: “{wrong}”. How high "
            "is the stack?",
            "strip_narrow 1/2, strip_wide 3/4, foam_thickness 1, slot_ease 1/8, mesh_thickness "
            "1/32",
            "strip_narrow 7/16, strip_wide 13/16, foam_thickness 1, slot_ease 1/8, mesh_thickness "
            "1/32",
            shows="thickness_forgotten other_side"),
        Exercise("04-12", "choose", "bottom_board.screen_end_strip_length",
            "Four strips lie ready for the screen's frame. Which one is an end strip?",
            "hive_width 17 3/8, stud_thickness 1 1/2, screen_gap 1/8, strip_narrow 1/2, "
            "strip_wide 3/4",
            "hive_width 18 5/8, stud_thickness 1 1/2, screen_gap 1/8, strip_narrow 7/16, "
            "strip_wide 3/4",
            shows="thickness_once other_side thickness_forgotten", own=True,
            metric="hive_width 441, stud_thickness 38, screen_gap 3, strip_narrow 12, strip_wide "
                   "20; hive_width 473, stud_thickness 38, screen_gap 3, strip_narrow 12, "
                   "strip_wide 22"),
        Exercise("04-13", "predict", "bottom_board.stack_height",
            "The strips come out {change} thick the narrow way instead of {strip_narrow}. What "
            "happens to the stack's height?",
            "strip_narrow 1/2, strip_wide 3/4, foam_thickness 1, slot_ease 1/8, mesh_thickness "
            "1/32",
            "strip_narrow 15/32, strip_wide 3/4, foam_thickness 1, slot_ease 1/8, mesh_thickness "
            "1/32",
            shows="thickness_forgotten thickness_twice", by="strip_narrow 17/32",
            why="Upper runner and two layers of screen: the narrow side lies three times in the "
                "stack."),
        Exercise("04-14", "predict", "bottom_board.headroom",
            "The foam is {change} thick instead of {foam_thickness}. What happens to the headroom?",
            "stud_width 3 1/2, strip_narrow 1/2, strip_wide 3/4, foam_thickness 1, slot_ease 1/8, "
            "mesh_thickness 1/32",
            "stud_width 3 1/2, strip_narrow 7/16, strip_wide 13/16, foam_thickness 1, slot_ease "
            "1/8, mesh_thickness 1/32",
            by="foam_thickness 1 1/16",
            why="What the stack gains, the headroom loses: the rails are as high as before."),
        Exercise("04-15", "order",
            "bottom_board.screen_end_strip_length bottom_board.opening_width "
            "bottom_board.screen_width",
            "Rosa wants the length of an end strip. In which order does she work out these sizes?",
            "hive_width 17 3/8", "hive_width 16 1/8",
            by="needed first",
            why="Take off from the size before, not from the hive again."),
        Exercise("04-16", "chain", "bottom_board.screen_end_strip_length",
            "Before any sum: which sizes make the length of an end strip of Mira's screen?",
            "hive_width 17 3/8, stud_thickness 1 1/2", "hive_width 18 5/8, stud_thickness 1 9/16",
            shows="thickness_once other_side thickness_added", own=True),
        Exercise("04-17", "part", "practice.middle_strip_length",
            "A strip down the middle keeps the mesh flat. It lies between the front and the back "
            "strip of the screen, which lie flat. How long does Tomas cut it?",
            "hive_length 23 1/8, stud_thickness 1 1/2, screen_gap 1/8, strip_narrow 1/2, "
            "strip_wide 3/4",
            "hive_length 21 3/8, stud_thickness 1 9/16, screen_gap 1/8, strip_narrow 1/2, "
            "strip_wide 7/8",
            shows="thickness_once thickness_forgotten other_side", own=True,
            question="Which two strips does it meet, and with which of their sides?"),
    )),
    Lesson("05", "The roof", (
        Exercise("05-01", "derive", "roof.rim_length",
            "The rim of Ines's roof goes over her hive with room to spare. How long is it over "
            "all?",
            "hive_length 23 1/8, hive_width 17 3/8, cap_clearance 3/8",
            "hive_length 21 3/4, hive_width 16 1/8, cap_clearance 7/16",
            stage="worked", own=True, picture="roof",
            shows="clearance_doubled clearance_forgotten size_taken_off length_for_width"),
        Exercise("05-02", "derive", "roof.rim_front_length",
            "The front of the rim stands between its two sides. How long does Tomas cut it?",
            "hive_width 17 3/8, cap_clearance 1/2, stud_thickness 1 1/2",
            "hive_width 15 3/4, cap_clearance 3/8, stud_thickness 1 9/16",
            shows="thickness_once thickness_forgotten thickness_added", stage="last step",
            own=True),
        Exercise("05-03", "derive", "roof.cover_length",
            "The waterproof cover stands out beyond the deck. How long is it on Mira's roof?",
            "hive_length 22 5/8, overhang 2, cover_lip 3/8",
            "hive_length 20 1/4, overhang 2 1/2, cover_lip 5/8",
            shows="one_side_only size_left_out size_taken_off", stage="hard step", own=True),
        Exercise("05-04", "derive", "roof.deck_width",
            "The deck stands out beyond Jonas's hive on both sides. How wide is it?",
            "hive_length 22 7/8, hive_width 16 3/8, overhang 2 1/4",
            "hive_length 20 1/8, hive_width 18 5/8, overhang 1 3/4",
            shows="one_side_only size_left_out length_for_width", own=True),
        Exercise("05-05", "derive", "roof.roof_panel_length",
            "The foam in the roof lies between the front, one stud thick, and the back, which is "
            "ripped thinner. How long is it?",
            "hive_length 23 1/8, cap_clearance 1/2, stud_thickness 1 1/2, rim_back_thickness 1",
            "hive_length 21 1/2, cap_clearance 3/8, stud_thickness 1 9/16, rim_back_thickness 7/8",
            shows="overall_size thickness_added nominal_size", own=True,
            question="How thick is the rim in front, how thick at the back, and what is left "
                     "between?"),
        Exercise("05-06", "derive", "roof.skirt_side_length",
            "The sides of the skirt cover the edges of its ends. How long is one side?",
            "hive_length 23 1/8, cap_clearance 1/2, skirt_thickness 3/8",
            "hive_length 20 7/8, cap_clearance 1/2, skirt_thickness 7/16",
            shows="thickness_once thickness_forgotten size_taken_off", own=True),
        Exercise("05-07", "derive", "roof.lap",
            "The rim stands on the inner cover, and the skirt hangs from the rim's low end past "
            "both. How far does it hang down over Lena's box?",
            "skirt_width 3 1/4, rim_low_height 1 3/8, inner_rim_height 3/8, sheet_thickness 1/4",
            "skirt_width 3 5/8, rim_low_height 1 1/4, inner_rim_height 3/8, sheet_thickness 1/4",
            shows="size_left_out size_added", own=True,
            question="What does the skirt hang past, from its top down, before it reaches the "
                     "box?"),
        Exercise("05-08", "derive", "roof.deck_overhang",
            "To set the deck evenly on the rim, Pavel needs a spacer as wide as the deck stands "
            "out beyond the rim. How wide is that?",
            "overhang 2 1/8, cap_clearance 3/8", "overhang 2 5/8, cap_clearance 1/2",
            shows="clearance_forgotten clearance_doubled size_added", own=True),
        Exercise("05-09", "derive", "roof.deck_screw_line",
            "The screws should land in the middle of the rail below. How far from the deck's edge "
            "is the line for them?",
            "overhang 2, cap_clearance 1/2, stud_thickness 1 1/2, stud_width 3 1/2",
            "overhang 2 1/4, cap_clearance 1/2, stud_thickness 1 5/8, stud_width 3 1/2",
            shows="half_forgotten nominal_size thickness_forgotten", own=True),
        Exercise("05-10", "derive", "roof.slope",
            "How much does the roof fall for each inch of its length? Give it as a decimal.",
            "hive_length 23 1/2, cap_clearance 1/2, stud_width 3 1/2, rim_low_height 1 1/2",
            "hive_length 19 3/4, cap_clearance 1/4, stud_width 3 1/2, rim_low_height 1",
            shows="upside_down size_left_out", own=True),
        Exercise("05-11", "find", "roof.rim_front_length",
            "Noor cut the front as long as the rim is wide, less one stud: “{wrong}”. How long "
            "must it be?",
            "hive_width 16 7/8, cap_clearance 1/2, stud_thickness 1 1/2",
            "hive_width 18 1/4, cap_clearance 3/8, stud_thickness 1 9/16",
            shows="thickness_once thickness_forgotten"),
        Exercise("05-12", "find", "roof.deck_length",
            "Rosa's deck has an overhang at one end only: “{wrong}”. How long should it be?",
            "hive_length 23 3/8, overhang 2", "hive_length 21 1/8, overhang 2 3/8",
            shows="one_side_only size_left_out"),
        Exercise("05-13", "find", "roof.deck_overhang",
            "For his spacer Emil wrote “{wrong}”, and it did not fit. How wide should it be?",
            "overhang 2 3/8, cap_clearance 1/2", "overhang 1 7/8, cap_clearance 3/8",
            shows="clearance_doubled clearance_forgotten",
            question="How much of the clearance is on one side of the hive?"),
        Exercise("05-14", "choose", "roof.cover_width",
            "The roll of waterproof sheet is marked at four places. Where does Ines cut, so that "
            "the cover stands out on both sides?",
            "hive_width 17 3/8, overhang 2, cover_lip 1/2",
            "hive_width 15 7/8, overhang 1 3/4, cover_lip 5/8",
            shows="one_side_only size_left_out size_taken_off", own=True),
        Exercise("05-15", "predict", "roof.deck_width",
            "Tomas wants an overhang of {change} instead of {overhang}. What happens to the "
            "deck's width?",
            "hive_width 17 3/8, overhang 2", "hive_width 16 1/8, overhang 2 1/4",
            shows="one_side_only", by="overhang 2 1/2"),
        Exercise("05-16", "predict", "roof.deck_length roof.rim_length roof.lap",
            "The cap clearance grows from {cap_clearance} to {change}. Which of these changes?",
            "cap_clearance 1/2", "cap_clearance 3/8",
            by="most cap_clearance 5/8",
            question="Which of these is counted from the hive, and which goes over it?",
            rule="The clearance is room between the hive and what goes over it.",
            almost="Two of the three know nothing of the room round the hive.",
            why="Only the rim goes over the hive. The deck's overhang is counted from the hive "
                "itself."),
        Exercise("05-17", "order", "roof.deck_length roof.cover_length roof.rim_side_length",
            "Three pieces of this roof, each from its own stock. Which is longest, which next?",
            "hive_length 23 1/8, cap_clearance 1/2, overhang 2, cover_lip 1/2",
            "hive_length 20 3/8, cap_clearance 3/8, overhang 1 1/2, cover_lip 3/8",
            by="longest first",
            question="Which of them stands out beyond which?",
            rule="Each layer of a roof stands out beyond the one below it.",
            why="Rain drips from the cover, clear of the deck, and from the deck clear of the "
                "rim."),
        Exercise("05-18", "find", "skirt_width",
            "Mira's skirt would end level with the top of the box: “{wrong}”. How wide must it be?",
            "rim_low_height 1 1/2, roof_lap 3/4, inner_rim_height 3/8, sheet_thickness 1/4",
            "rim_low_height 1 1/4, roof_lap 1 1/8, inner_rim_height 5/16, sheet_thickness 1/4",
            shows="size_left_out",
            question="What does the skirt hang past, and how far down over the box is it to "
                     "reach?"),
        Exercise("05-19", "derive", "roof.deck_back_screw_line",
            "At the back the rim is ripped thin. How far from the deck's back edge is the line "
            "for the screws there?",
            "overhang 2, cap_clearance 1/2, rim_back_thickness 1, stud_thickness 1 1/2",
            "overhang 2 1/4, cap_clearance 1/2, rim_back_thickness 7/8, stud_thickness 1 1/2",
            shows="half_forgotten thickness_forgotten", own=True,
            question="What does the line go past first, and in the middle of which rail does it "
                     "lie?"),
        Exercise("05-20", "derive", "roof.deck_width",
            "Emil works in mm. How wide is the deck of his roof, in mm?",
            "hive_length 530, hive_width 430, overhang 50",
            "hive_length 515, hive_width 405, overhang 45",
            shows="one_side_only size_left_out length_for_width", units="mm"),
        Exercise("05-21", "chain", "roof.rim_front_length",
            "Before any sum: which sizes make the length of the rim's front on Lena's roof?",
            "hive_width 17 3/8, cap_clearance 1/2", "hive_width 15 3/4, cap_clearance 3/8",
            shows="thickness_once thickness_added length_for_width", own=True),
        Exercise("05-22", "part", "practice.twin_rim_front_length",
            "Two hives stand side by side under one roof, which goes over both with the usual "
            "clearance in all. How long is the front of its rim, between the two sides?",
            "hive_width 17 3/8, cap_clearance 1/2, stud_thickness 1 1/2",
            "hive_width 16 1/8, cap_clearance 3/8, stud_thickness 1 9/16",
            shows="thickness_once clearance_forgotten thickness_forgotten", own=True,
            question="What does the roof go over, and what stands at the ends of its front?"),
    )),
)  # fmt: skip
