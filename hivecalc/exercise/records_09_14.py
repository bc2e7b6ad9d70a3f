"""Exercises of lessons 09 to 14; all numbers in them are invented."""

from typing import Final

from hivecalc.exercise.record import KERF, Exercise, Lesson

ROW: Final = "Heat has to go through all layers, one after another. So what each resists is added."

LESSONS: Final = (
    Lesson("09", "What to buy", (
        Exercise("09-01", "board", "offcut = board - 2 * rail - 2 * kerf",
            "Noor cuts two rails off one board. Each cut takes its kerf. How long is the offcut?",
            "board 72, rail 21 5/8, kerf 1/8", "board 60, rail 19 7/8, kerf 1/8",
            shows="size_left_out", stage="worked",
            question="How many cuts does it take to get two rails off a longer board?",
            why="Every cut takes its kerf, and there are as many cuts as pieces while wood is "
                "left."),
        Exercise("09-02", "board", "bottom_board.side_rail_length",
            "Twelve people need side rails, two each. The yard sells studs of {board}, and each "
            "cut takes a kerf of {kerf}. How many side rails does one stud give?",
            "hive_length 25 1/2, stud_thickness 1 1/2, board 144, kerf 1/8",
            "hive_length 21 1/2, stud_thickness 1 1/2, board 120, kerf 1/8",
            stage="last step", by="count", why=KERF,
            metric="hive_length 648, stud_thickness 38, board 3660, kerf 3; hive_length 546, "
                   "stud_thickness 38, board 3050, kerf 3"),
        Exercise("09-03", "predict", "roof.deck_length",
            "Ines wants to save plywood. She takes an overhang of {change} instead of {overhang}. "
            "What happens to the deck's length?",
            "hive_length 23 1/8, overhang 2", "hive_length 20 3/4, overhang 2 1/4",
            shows="one_side_only", stage="hard step", by="overhang 1 1/2"),
        Exercise("09-04", "order", "red blue green white",
            "Four offcuts lie at home, marked with colours. The shortest one that is long enough "
            "is used first. Order them, the shortest first.",
            "red 14 3/8, blue 14 1/4, green 14 7/16, white 14 1/2",
            "red 9 3/4, blue 9 13/16, green 9 5/8, white 9 7/8",
            by="smallest first",
            almost="Write them all in sixteenths: then the tops alone decide.",
            why="Fractions are compared when all have the same number under the line."),
    )),
    Lesson("10", "Cutting it out of boards and sheets", (
        Exercise("10-01", "board", "bottom_board.front_rail_length",
            "Emil cuts front rails for the whole class. How many come out of one stud of {board}, "
            "if every cut takes a kerf of {kerf}?",
            "hive_width 19, stud_thickness 1 1/2, board 96, kerf 1/8",
            "hive_width 17 3/8, stud_thickness 1 1/2, board 72, kerf 1/8",
            stage="last step", by="count", why=KERF,
            metric="hive_width 483, stud_thickness 38, board 2450, kerf 3; hive_width 441, "
                   "stud_thickness 38, board 1825, kerf 3"),
        Exercise("10-02", "derive", "offcut = entrance - kerf",
            "The entrance is ripped off the front rail, and the kerf comes off what is ripped "
            "off. How thick is the piece that falls off?",
            "entrance 13/16, kerf 1/8", "entrance 11/16, kerf 3/32",
            shows="size_left_out size_added", stage="worked",
            question="Where does the wood of the kerf go: to the rail, to the piece, or to dust?",
            why="The rail keeps its full height. So the kerf comes off the piece that falls off."),
        Exercise("10-03", "board", "offcut = sheet - 2 * deck - 2 * kerf",
            "Two decks are ripped off a half sheet, side by side, with a kerf for each. How wide "
            "is the offcut?",
            "sheet 48, deck 21 3/8, kerf 1/8", "sheet 48, deck 19 5/8, kerf 3/16",
            shows="size_left_out", stage="hard step",
            question="How many rips does it take to get two decks off a wider sheet?",
            why="Every rip takes its kerf, and there are as many rips as pieces while a rest is "
                "left."),
        Exercise("10-04", "order",
            "bottom_board.side_rail_length bottom_board.front_rail_length roof.rim_side_length",
            "Three kinds of rails come out of the same stud. In which order do you cut them?",
            "hive_length 23 1/8, hive_width 17 3/8, cap_clearance 1/2",
            "hive_length 18 1/4, hive_width 23 1/2, cap_clearance 3/8",
            by="longest first",
            question="If a cut goes wrong, out of which piece can another one still be made?",
            why="A long piece that is spoilt still gives a shorter one. So the longest is cut "
                "first."),
    )),
    Lesson("11", "At the saw", (
        Exercise("11-01", "derive", "offcut = stud - rail - kerf",
            "The fence is set to the rail's height. What falls off on the other side of the blade?",
            "stud 3 1/2, rail 2 9/16, kerf 1/8", "stud 3 7/16, rail 2 5/8, kerf 1/8",
            shows="size_left_out", stage="worked",
            question="The rail stays at the fence. What are the two things that the rest is made "
                     "of?",
            why="The rail keeps its full height, so the kerf comes off what falls away."),
        Exercise("11-02", "derive", "half_way = (front + back) / 2",
            "A side of the roof's rim is {front} high in front and {back} at the back. How high "
            "must it be half-way, where you check it with the tape?",
            "front 3 1/2, back 1 1/4", "front 3 7/16, back 1 1/2",
            shows="size_left_out", stage="hard step",
            question="A line falls evenly. What lies in the middle between its two ends?",
            why="A straight line falls as much in its first half as in its second half."),
        Exercise("11-03", "predict", "bottom_board.front_rail_width",
            "Jonas wants an entrance of {change} instead of {entrance_height}. What happens to "
            "the height that he sets the fence to for the front rail?",
            "stud_width 3 1/2, entrance_height 3/4", "stud_width 3 7/16, entrance_height 5/8",
            stage="last step", by="entrance_height 7/8",
            question="The stud stays as wide as it is. More is ripped off: what becomes of the "
                     "rest?",
            why="The rail is what is left of the stud below the entrance."),
        Exercise("11-04", "order",
            "bottom_board.back_rail_length roof.rim_front_length bottom_board.side_rail_length",
            "The stop block is set once for each length. Which setting comes first, which next?",
            "hive_length 23 1/8, hive_width 17 3/8, cap_clearance 1/2",
            "hive_length 16 1/2, hive_width 20 1/4, cap_clearance 3/8",
            by="longest first",
            question="Which piece needs the most sound wood?",
            why="What is left after a long piece still serves for a shorter one."),
    )),
    Lesson("12", "Why insulate", (
        Exercise("12-01", "derive", "wall = board + foam + skin",
            "A wall has three layers: a board, foam and a skin. How thick is it in all?",
            "board 3/4, foam 1 1/2, skin 1/2", "board 7/8, foam 2, skin 3/8",
            shows="size_left_out", stage="worked", why=ROW),
        Exercise("12-02", "derive", "foam_in_all = first_layer + second_layer",
            "Noor lays two boards of foam on one another in her roof. How much foam is that?",
            "first_layer 1 5/8, second_layer 1 1/2", "first_layer 1 3/4, second_layer 1 7/8",
            metric="first_layer 46, second_layer 38; first_layer 44, second_layer 48",
            shows="carry_dropped tops_and_bottoms", stage="last step", why=ROW),
        Exercise("12-03", "derive", "foam_left = foam - lost",
            "A roof has foam of {foam}. Wood goes through it, and costs as much heat as if {lost} "
            "of the foam were missing. How much foam is that roof really worth?",
            "foam 2 1/4, lost 1 1/2", "foam 3 1/8, lost 1 3/8",
            metric="foam 57, lost 38; foam 82, lost 35",
            shows="inch_not_lowered smaller_from_larger", stage="hard step",
            why="Wood lets through more than foam. So the roof is worth less foam than lies in "
                "it."),
        Exercise("12-04", "measure", "wall",
            "An inch of foam has R 5, of board R 1.2, of skin R 1.1. Films of air are there on "
            "both faces: 0.7 inside, 0.2 outside. What is R of the whole wall?",
            "board 3/4, foam 1, skin 1/2", "board 3/4, foam 2, skin 1/4",
            by="row", why=ROW,
            question="Which things does the heat go through on its way, the air at both faces too?",
            rule="Take each thickness times its R for an inch. Then add them all, and both films.",
            almost="Write them in a column from inside to outside, five lines, and add them up."),
        Exercise("12-05", "measure", "wall",
            "A layer is foam of R 5 for {foam_height} of its height. For the other {strip_height} "
            "a strip of wood stands there, of R 1. What is R of the whole layer?",
            "foam_height 9, strip_height 1", "foam_height 8 1/2, strip_height 1 1/2",
            by="beside",
            question="Does the heat go through both, or does each bit of it choose one way?",
            rule="Divide each share of the height by its R. Add them. Then divide one by that.",
            almost="Share of foam by its R, share of wood by its own: add both, and turn it round.",
            why="Side by side it is the flows that are added. A little wood lets much heat "
                "through."),
        Exercise("12-06", "order", "plywood foam softwood straw",
            "Four walls hold heat equally well. Order them by how thick they are, the thinnest "
            "first.",
            "plywood 4 1/2, foam 1, softwood 4 3/16, straw 2",
            "plywood 9, foam 2, softwood 8 3/8, straw 4",
            by="smallest first",
            almost="Foam holds heat best, so it is first. Then compare the figures of the others.",
            why="The better a thing holds heat, the thinner it may be."),
    )),
    Lesson("13", "Wood moves", (
        Exercise("13-01", "derive", "gap_left = gap - swelling",
            "A rail swells by {swelling} into a gap of {gap}. How much of the gap is left?",
            "gap 1/4, swelling 1/32", "gap 3/16, swelling 1/64",
            shows="size_added", stage="worked",
            why="What the wood grows is taken off the gap."),
        Exercise("13-02", "derive", "board_now = board + swelling",
            "A board is cut to {board}. In a wet autumn it swells by {swelling}. How wide is it "
            "now?",
            "board 9 15/16, swelling 1/8", "board 7 7/8, swelling 3/16",
            metric="board 248, swelling 3; board 236, swelling 5",
            shows="carry_dropped", stage="last step",
            why="Damp wood is wider: what it grew is added."),
        Exercise("13-03", "derive", "rail_now = rail - shrinking",
            "A stud was measured wet: {rail}. In summer it has shrunk by {shrinking}. How wide is "
            "it now?",
            "rail 3 9/16, shrinking 3/32", "rail 5 1/2, shrinking 5/32",
            shows="size_added", stage="hard step",
            why="Wood that dries gets narrower, so what it lost comes off."),
        Exercise("13-04", "measure", "board",
            "A board dries. It is {board} wide. Which way does it move most?",
            "board 9 1/4", "board 7 1/4",
            by="grain",
            question="Where does a round log crack as it dries: along, or from the middle "
                     "outwards?",
            rule="Wood grows and shrinks across its grain. Along the grain it hardly changes.",
            almost="The rings of a tree close up as they dry. Follow one ring round the log.",
            why="Round the rings wood moves about twice as much as across them."),
        Exercise("13-05", "order", "box_side stud strip dowel",
            "Four pieces of the same wood dry equally. The wider one shrinks more. Order them by "
            "how much they shrink, the least first.",
            "box_side 9 9/16, stud 3 1/2, strip 3/4, dowel 1 1/4",
            "box_side 6 5/8, stud 5 1/2, strip 1/2, dowel 15/16",
            by="smallest first",
            almost="Each shrinks by the same part of its width. So order them by width.",
            why="Twice as wide moves twice as much. So a high box side moves most of all."),
        Exercise("13-06", "derive", "headroom_now = headroom - shrinking",
            "Over the screen {headroom} were left while the rails were wet. They shrink by "
            "{shrinking}, and the screen stays. What headroom is left?",
            "headroom 3/16, shrinking 1/16", "headroom 7/32, shrinking 1/16",
            shows="size_added",
            almost="Write both in the finer parts of an inch. Then take one top off the other.",
            why="The rails get lower and the screen does not: what they lose is lost to the "
                "headroom."),
    )),
    Lesson("14", "Putting it together", (
        Exercise("14-01", "derive", "panel_length = opening - panel_gap",
            "The frame is glued. Its opening is {opening} long, and the panel's gap is "
            "{panel_gap}. How long do you cut the panel?",
            "opening 20 1/16, panel_gap 1/4", "opening 19 1/8, panel_gap 3/8",
            shows="gap_forgotten gap_added inch_not_lowered", stage="worked",
            question="Must the panel go into the opening, or fill it?",
            why="The panel is cut to the opening that is there, and slides in it with its gap."),
        Exercise("14-02", "derive", "each_side = (strip - way) / 2",
            "An entrance strip is {strip} long. The way through it is {way} wide, in the middle. "
            "How long is the strip on each side of the way?",
            "strip 14 1/4, way 3", "strip 13 5/8, way 3 1/4",
            shows="size_left_out size_added both_given", stage="last step",
            question="What is left of the strip when the way is cut out, and how many pieces "
                     "share it?",
            why="What the way leaves is shared by two sides."),
        Exercise("14-03", "derive", "entrance_strip = hive_width - 2 * stud_thickness - screen_gap",
            "An entrance strip closes the room over the front rail, between the two side rails. "
            "It has to come out again, so it gets the gap of the screen: {screen_gap} in all. How "
            "long is it?",
            "hive_width 17 1/4, stud_thickness 1 1/2, screen_gap 1/8",
            "hive_width 16 3/8, stud_thickness 1 7/16, screen_gap 3/32",
            shows="thickness_once gap_added gap_forgotten", stage="hard step",
            question="Go across the hive at the entrance: which two pieces stand beside the strip?",
            why="It stands between the side rails as the screen does, with the same gap."),
        Exercise("14-04", "order",
            "bottom_board.slide_in bottom_board.front "
            "bottom_board.opening sleeve.skin sleeve.edge_strips sleeve.foam",
            "Which of these do you do first, which next?",
            "hive_length 23 1/8, hive_width 17 3/8", "frames 10",
            by="built first",
            question="Which of these must be there, or be dry, before you can do another one?",
            rule="A step comes after all those that make the place for it.",
            almost="Ask of each one what it is fastened to, and whether that is there yet.",
            why="What holds comes before what is held, and what is measured before what is cut to "
                "it."),
        Exercise("14-05", "find",
            "bottom_board.lower_runners bottom_board.front bottom_board.opening "
            "bottom_board.slide_in sleeve.edge_strips sleeve.skin sleeve.foam",
            "Jonas did it in this order: {done}. What went wrong?",
            "hive_length 23 1/8, hive_width 17 3/8", "frames 10",
            by="too early",
            question="Which of these must be there, or be dry, before you can do another one?",
            rule="A step comes after all those that make the place for it.",
            almost="Go through his list. At each step: could he get there, and did he know the "
                   "size?",
            why="A step that comes too early is cut to a guess, or closes the way to the next "
                "one."),
        Exercise("14-06", "measure", "judgement",
            "The glue is still wet. Ines measures her frame: rising from front left to back "
            "right, falling from front right to back left. What does she do?",
            "length 23 1/8, width 17 3/8, rising 29 1/8, falling 28 11/16",
            "length 22, width 16, rising 27, falling 27 3/8",
            by="square",
            question="Which of the two diagonals is longer, and by how much?",
            rule="Up to 1/8 in is square enough. Else push together the corners of the longer "
                 "diagonal.",
            almost="Draw the frame leaning, and see which two corners reach farthest out.",
            why="Now it can still be pulled. In an hour it can't."),
        Exercise("14-07", "measure", "bottom_board.panel_length",
            "Tomas cut his panel by the plan, before the frame was glued: {cut} long. Now the "
            "opening measures {built_opening_length}. What does he do with the panel?",
            "hive_length 23 1/8, panel_gap 1/4, built_opening_length 19 13/16, cut 19 7/8",
            "hive_length 23 1/8, panel_gap 1/4, built_opening_length 21, cut 19 7/8",
            by="piece",
            question="How long must the panel be for the opening that is there?",
            rule="What slides may be a little short, and never long.",
            almost="Take the gap off the opening. Then hold the panel against that.",
            why="The plan is to buy by. The opening in the glued frame is to cut by."),
        Exercise("14-08", "choose", "bottom_board.panel_width",
            "Three panels lie beside a glued frame. Its opening is {built_opening_width} wide. "
            "Which panel goes in, slides, and still closes it?",
            "hive_width 17 3/8, built_opening_width 14 5/16, panel_gap 1/4",
            "hive_width 16 1/8, built_opening_width 13 3/16, panel_gap 5/16",
            shows="gap_forgotten gap_each_side", own=True,
            question="What is measured now: the hive, or the opening itself?"),
    )),
)  # fmt: skip
