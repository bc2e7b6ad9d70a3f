"""Exercises of lesson 00: reading the tape in inches and in mm, three places, two diagonals.

All numbers are invented.
"""

from typing import Final

from hivecalc.exercise.record import Exercise

TITLE: Final = "Your hive and your tape"

MARKS = "Every reading is the number before the arrow and the sixteenths past it, in lowest terms."
MILLIMETRES = "Every reading is the number before the arrow and the millimetres past it."
FROM_100 = "The tape began at its 100 mm mark, so it says 100 mm more than the board has."
BURNT = "The tape began at its 1 in mark, so it says an inch more than the board has."
LARGEST = "The roof must go over the widest place, so the largest reading is the one to build for."
CORNERS = (
    "Equal diagonals mean square corners. The longer one lies between the two corners that stand "
    "too far apart: push those together. Diagonals that no box of these sides has were misread."
)

EXERCISES: Final = (
    Exercise(
        "00-01", "read", "reading = mark",
        "Ines hooks her tape over the front of a box in the orchard and looks at the back end. "
        "What does the tape read?",
        "mark 17 7/16", "mark 21 3/16",
        "one_tick_off eighths_for_sixteenths wrong_inch", stage="worked", why=MARKS,
    ),
    Exercise(
        "00-02", "read", "reading = mark",
        "A stud from the yard lies under the tape. What does the tape read?",
        "mark 9 5/16", "mark 12 7/16",
        "eighths_for_sixteenths one_tick_off", stage="last step", why=MARKS,
    ),
    Exercise(
        "00-03", "read", "reading = mark",
        "Mira measures the width of her box. Give the reading as it goes on a cutting list.",
        "mark 14 3/8", "mark 16 1/8",
        "eighths_for_sixteenths one_tick_off wrong_inch", stage="hard step", why=MARKS,
    ),
    Exercise(
        "00-04", "read", "reading = mark",
        "Here the arrow stands only just before a number. What does the tape read?",
        "mark 22 15/16", "mark 18 13/16",
        "wrong_inch one_tick_off", why=MARKS,
    ),
    Exercise(
        "00-05", "read", "board = mark - first_mark",
        "The hook of Jonas's tape is bent, so he lays the tape on at its 1 in mark. The arrow is "
        "at the other end of the board. How long is the board?",
        "mark 18 3/8, first_mark 1", "mark 13 5/16, first_mark 1",
        "first_inch_kept one_tick_off eighths_for_sixteenths", stage="last step", why=BURNT,
    ),
    Exercise(
        "00-06", "read", "board = mark - first_mark",
        "Lena's hook is worn. She starts at the 1 in mark as well. How long is her rail?",
        "mark 24 1/8, first_mark 1", "mark 19 11/16, first_mark 1",
        "first_inch_kept one_tick_off", why=BURNT,
    ),
    Exercise(
        "00-07", "choose", "reading = mark",
        "Four people read the same arrow and called out four lengths. Who is right?",
        "mark 20 3/16", "mark 15 5/16",
        "one_tick_off eighths_for_sixteenths", why=MARKS,
    ),
    Exercise(
        "00-08", "find", "board = reading - first_mark",
        "Tomas laid his tape on at its 1 in mark. On his paper stands: “{wrong}”. How long is the "
        "board really?",
        "reading 24 1/8, first_mark 1", "reading 17 11/16, first_mark 1",
        "first_inch_kept",
        rule="Take the mark at which you began off the mark at which you ended.", why=BURNT,
    ),
    Exercise(
        "00-09", "measure", "size_to_build_for = max(first_place, middle, last_place)",
        "A handmade box was measured across in three places. Which width do you build the roof "
        "for?",
        "first_place 17 5/16, middle 17 7/16, last_place 17 3/8",
        "first_place 16 7/8, middle 16 3/4, last_place 16 13/16",
        "wrong_one_of_two",
        question="Must the roof go over the narrow places only, or over the wide ones, too?",
        rule="Write all three with the same number under the line. Build for the largest.",
        almost="A roof that is a hair too big sits a little loose. One that is too small does not "
        "go on.", why=LARGEST,
    ),
    Exercise(
        "00-10", "measure", "difference = largest - smallest",
        "Noor read the length of her box in three places. By how much do the largest and the "
        "smallest reading differ?",
        "largest 23 1/16, smallest 22 7/8", "largest 20 1/8, smallest 19 15/16",
        "inch_not_lowered smaller_from_larger",
        why="More than 1/8 in between readings of one size means: measure again, and true up the "
        "box before you build for it.",
    ),
    Exercise(
        "00-11", "measure", "difference = longer_diagonal - shorter_diagonal",
        "Two diagonals of a box of boards, corner to corner. By how much do they differ?",
        "longer_diagonal 28 1/4, shorter_diagonal 27 13/16",
        "longer_diagonal 31 1/8, shorter_diagonal 30 11/16",
        "inch_not_lowered smaller_from_larger borrowed_ten", stage="hard step",
        why="The diagonals of a square corner are equal. 1/8 in of difference is square enough.",
    ),
    Exercise(
        "00-12", "measure", "judgement",
        "Pavel measured the sides of a box and both diagonals: the rising one from front left to "
        "back right, the falling one from front right to back left. What does he do?",
        "length 23 1/8, width 17 3/8, rising 29 1/8, falling 28 3/4",
        "length 20, width 15, rising 24 3/4, falling 25 1/4",
        by="square",
        question="Which of the two diagonals is longer, and between which corners does it lie?",
        rule="Push together the two corners that the longer diagonal joins, until both are the "
        "same.",
        almost="Draw the box leaning. The two corners that reach farthest out are to be pushed.",
        why=CORNERS,
    ),
    Exercise(
        "00-13", "measure", "judgement",
        "Rosa measured her box the same way. What does she do?",
        "length 23 1/8, width 17 3/8, rising 28 15/16, falling 28 7/8",
        "length 20, width 15, rising 25, falling 27",
        by="square",
        question="By how much do the diagonals differ? Could any box of these sides have them?",
        rule="Up to 1/8 in of difference is square enough. If one diagonal grows, the other must "
        "shrink.",
        almost="Compare both with the diagonal of a square box: is one a little longer and the "
        "other a little shorter?",
        why=CORNERS,
    ),
    Exercise(
        "00-14", "order", "nail knot screw notch",
        "A nail, a knot, a screw and a notch lie along a board, at these readings from its end. In "
        "which order do you meet them?",
        "nail 5/8, knot 9/16, screw 1/2, notch 11/16",
        "nail 3/4, knot 7/8, screw 13/16, notch 5/8",
        by="smallest first",
        almost="In sixteenths the tops alone decide: the smallest top comes first.",
        why="Fractions are compared when all have the same number under the line.",
    ),
    Exercise(
        "00-15", "read", "reading = mark",
        "Amara's tape is in millimetres: its shortest marks are 1 mm apart. What does it read, in "
        "mm?",
        "mark 442", "mark 587",
        "one_tick_off mm_for_cm", stage="last step", units="mm", why=MILLIMETRES,
    ),
    Exercise(
        "00-16", "read", "board = mark - first_mark",
        "The hook of Emil's mm tape is worn, so he lays the tape on at its 100 mm mark. How long "
        "is his board, in mm?",
        "mark 468, first_mark 100", "mark 723, first_mark 100",
        "size_left_out one_tick_off mm_for_cm", units="mm", why=FROM_100,
    ),
)  # fmt: skip
