"""Exercises of lesson 01: adding, taking off, halving; real boards; inches and millimetres.

All numbers are invented. Names and sizes of lumber are those of hivecalc.stock.
"""

from typing import Final

from hivecalc.exercise.record import Exercise

TITLE: Final = "Inches, fractions and real boards"

ADDING = "Equal parts can be added. What makes an inch is carried over to the inches."
TAKING = "An inch that is borrowed for the fraction is missing from the inches: they are one less."
HALVING = "Half of a fraction has twice as many parts under its line, so it is smaller."
NAMES = "A board's name is the size it had when it was sawn wet. What counts is what the tape says."
METRIC = "An inch is 25.4 mm, not 25."

EXERCISES: Final = (
    Exercise(
        "01-01", "derive", "whole = first_board + second_board",
        "Two boards lie end to end on the bench. How long are they together?",
        "first_board 5 5/8, second_board 2 1/2", "first_board 6 7/8, second_board 3 1/4",
        "carry_dropped tops_and_bottoms", stage="worked", why=ADDING,
    ),
    Exercise(
        "01-02", "derive", "whole = first_board + second_board",
        "Emil lays a long strip and a short one end to end. How long are they together?",
        "first_board 21 15/16, second_board 1 3/8", "first_board 17 3/4, second_board 2 9/16",
        "carry_dropped tops_and_bottoms", stage="last step", why=ADDING,
    ),
    Exercise(
        "01-03", "derive", "piece_left = board - piece_cut_off",
        "Ines saws a piece off a board. How much is left? (Count no wood for the saw.)",
        "board 23 1/8, piece_cut_off 1 1/2", "board 18 3/8, piece_cut_off 2 3/4",
        "inch_not_lowered smaller_from_larger borrowed_ten", stage="hard step", why=TAKING,
    ),
    Exercise(
        "01-04", "derive", "piece_left = board - piece_cut_off",
        "Now alone: how much is left of this board? (Count no wood for the saw.)",
        "board 17 1/4, piece_cut_off 2 5/8", "board 21 1/8, piece_cut_off 3 7/16",
        "smaller_from_larger inch_not_lowered borrowed_ten", why=TAKING,
    ),
    Exercise(
        "01-05", "derive", "piece_left = board - piece_cut_off",
        "A piece with sixteenths comes off a board of whole inches. How much is left?",
        "board 20, piece_cut_off 1 3/16", "board 16, piece_cut_off 2 5/16",
        "inch_not_lowered smaller_from_larger borrowed_ten", why=TAKING,
    ),
    Exercise(
        "01-06", "derive", "middle = rail / 2",
        "A screw goes into the middle of a rail. How far is it from the rail's end?",
        "rail 13 3/4", "rail 15 5/8",
        "halved_bottom fraction_as_decimal", stage="hard step", why=HALVING,
    ),
    Exercise(
        "01-07", "find", "piece_left = board - piece_cut_off",
        "On Jonas's paper stands “{wrong}”. What is it really?",
        "board 14 1/4, piece_cut_off 3 7/8", "board 22 3/16, piece_cut_off 5 1/2",
        "inch_not_lowered smaller_from_larger", why=TAKING,
    ),
    Exercise(
        "01-08", "find", "whole = first_board + second_board",
        "Lena added tops and bottoms: “{wrong}”. What is it really?",
        "first_board 3 1/4, second_board 4 3/8", "first_board 6 1/2, second_board 2 5/16",
        "tops_and_bottoms size_left_out",
        question="Is half an inch and half an inch still half an inch?",
        why=ADDING,
    ),
    Exercise(
        "01-09", "find", "piece_left = board - piece_cut_off",
        "Mira borrowed an inch: “{wrong}”. What did she forget, and what is it really?",
        "board 11 1/16, piece_cut_off 4 5/16", "board 9 3/16, piece_cut_off 2 7/16",
        "borrowed_ten inch_not_lowered", why=TAKING,
    ),
    Exercise(
        "01-10", "choose", "both = 2 * stud_thickness",
        "Two 2x4 stand on edge side by side. How thick are they together?",
        "stud_thickness 1 1/2, stud_width 3 1/2", "stud_thickness 1 9/16, stud_width 3 9/16",
        "nominal_size other_side", why=NAMES,
    ),
    Exercise(
        "01-11", "derive", "width_of_three = 3 * stud_width",
        "Three 2x4 lie flat, edge to edge. How wide is that?",
        "stud_width 3 1/2, stud_thickness 1 1/2", "stud_width 3 7/16, stud_thickness 1 1/2",
        "nominal_size other_side", why=NAMES,
    ),
    Exercise(
        "01-12", "derive", "difference = one_inch - foam",
        "This foam is sold as an inch, and measures {foam}. By how many mm is it thinner than an "
        "inch?",
        "one_inch 1 in, foam 25 mm", "one_inch 1 in, foam 24 mm",
        "size_left_out mm_for_cm", units="mm",
        question="How many mm are there in an inch, to the tenth?",
        rule="Write both in mm, and then take one off the other.",
        almost="An inch is twenty-five mm and four tenths. Take the foam off it.", why=METRIC,
    ),
    Exercise(
        "01-13", "derive", "width_in_inches = width_in_mm",
        "A box from another country is marked in mm. How wide is it in inches, to the nearest "
        "sixteenth?",
        "width_in_mm 442 mm", "width_in_mm 508 mm",
        "inch_as_25_mm mm_for_cm",
        question="How many mm are there in an inch, to the tenth?",
        rule="Divide the mm by 25.4. Then take the nearest sixteenth.",
        almost="Divide the mm by 25.4 and look which mark of the tape lies nearest.", why=METRIC,
    ),
    Exercise(
        "01-14", "derive", "length_in_mm = rail",
        "A rail is told in inches, but the yard sells in mm. How long is it in mm?",
        "rail 14 1/2 in", "rail 21 1/4 in",
        "inch_as_25_mm mm_for_cm", units="mm",
        question="How many mm are there in an inch, to the tenth?",
        rule="Write the inches with a decimal, and take each of them 25.4 times.",
        almost="Write the fraction as a decimal first. Then take it 25.4 times.", why=METRIC,
    ),
    Exercise(
        "01-15", "predict", "bottom_board.slot_height",
        "Rosa planned the panel's slot for foam of {foam_thickness}. The yard brings foam of "
        "{change}. What happens to the slot's height?",
        "foam_thickness 1, slot_ease 1/8", "foam_thickness 1 1/4, slot_ease 1/8",
        by="foam_thickness 1 1/2",
        why="The slot is as high as the foam and a little ease. What the foam gains, the slot "
        "gains.",
    ),
    Exercise(
        "01-16", "order", "dowel strip sheet peg",
        "Four small pieces lie in a box. Order them by their thickness, the thinnest first.",
        "dowel 3/8, strip 5/16, sheet 7/16, peg 1/4", "dowel 9/16, strip 5/8, sheet 1/2, peg 3/8",
        by="smallest first",
        almost="Write them all in sixteenths: then the tops alone decide.",
        why="Fractions are compared when all have the same number under the line.",
    ),
    Exercise(
        "01-17", "board", "left_over = board - piece - piece - kerf - kerf",
        "Two pieces are cut off a board, one after the other. Each cut turns its kerf into dust. "
        "How much of the board is left over?",
        "board 48, piece 17 3/8, kerf 1/8", "board 60, piece 21 5/8, kerf 1/8",
        "size_left_out",
        question="How many cuts does it take to get two pieces off a longer board?",
        why="Every cut takes its kerf, and there are as many cuts as pieces while wood is left.",
    ),
)  # fmt: skip
