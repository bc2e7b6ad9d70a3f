"""Exercises of lesson 13: gaps that wood closes, boards that shrink, and which way they do.

All numbers are invented; how wood moves is worked out by hivecalc.wood.
"""

from typing import Final

from hivecalc.exercise.record import Exercise

TITLE: Final = "Wood moves"

CLOSES: Final = "What the wood grows is taken off the gap."
SHRINKS: Final = "Wood that dries gets narrower, so what it lost comes off."

EXERCISES: Final = (
    Exercise(
        "13-01", "derive", "gap_left = gap - swelling",
        "A rail swells by {swelling} into a gap of {gap}. How much of the gap is left?",
        "gap 1/4, swelling 1/32", "gap 3/16, swelling 1/64",
        "size_added", stage="worked", why=CLOSES,
    ),
    Exercise(
        "13-02", "derive", "board_now = board + swelling",
        "A board is cut to {board}. In a wet autumn it swells by {swelling}. How wide is it now?",
        "board 9 15/16, swelling 1/8", "board 7 7/8, swelling 3/16",
        "carry_dropped", stage="last step", why="Damp wood is wider: what it grew is added.",
    ),
    Exercise(
        "13-03", "derive", "rail_now = rail - shrinking",
        "A stud was measured wet: {rail}. In summer it has shrunk by {shrinking}. How wide is it "
        "now?",
        "rail 3 9/16, shrinking 3/32", "rail 5 1/2, shrinking 5/32",
        "size_added", stage="hard step", why=SHRINKS,
    ),
    Exercise(
        "13-04", "measure", "board",
        "A board dries. It is {board} wide. Which way does it move most?",
        "board 9 1/4", "board 7 1/4",
        by="grain",
        question="Where does a round log crack as it dries: along, or from the middle outwards?",
        rule="Wood grows and shrinks across its grain. Along the grain it hardly changes.",
        almost="The rings of a tree close up as they dry. Follow one ring round the log.",
        why="Round the rings wood moves about twice as much as across them.",
    ),
    Exercise(
        "13-05", "order", "box_side stud strip dowel",
        "Four pieces of one wood dry by as much. The wider one shrinks more. Order them by how "
        "much they shrink, the least first.",
        "box_side 9 9/16, stud 3 1/2, strip 3/4, dowel 1 1/4",
        "box_side 6 5/8, stud 5 1/2, strip 1/2, dowel 15/16",
        by="smallest first",
        almost="Each shrinks by the same part of its width. So order them by width.",
        why="Twice as wide moves twice as much. So a high box side moves most of all.",
    ),
    Exercise(
        "13-06", "derive", "headroom_now = headroom - shrinking",
        "Over the screen {headroom} were left while the rails were wet. They shrink by "
        "{shrinking}, and the screen stays. What headroom is left?",
        "headroom 3/16, shrinking 1/16", "headroom 7/32, shrinking 1/16",
        "size_added",
        almost="Write both in the finer parts of an inch. Then take one top off the other.",
        why=CLOSES,
    ),
)  # fmt: skip
