"""Exercises of lesson 12: layers in a row, parts side by side, foam that wood costs.

All numbers are invented; what they come to is worked out by hivecalc.warmth.
"""

from typing import Final

from hivecalc.exercise.record import Exercise

TITLE: Final = "Why insulate"

ROW: Final = "Heat has to go through all layers, one after another. So what each resists is added."

EXERCISES: Final = (
    Exercise(
        "12-01", "derive", "wall = board + foam + skin",
        "A wall has three layers: a board, foam and a skin. How thick is it in all?",
        "board 3/4, foam 1 1/2, skin 1/2", "board 7/8, foam 2, skin 3/8",
        "size_left_out", stage="worked", why=ROW,
    ),
    Exercise(
        "12-02", "derive", "foam_in_all = first_layer + second_layer",
        "Noor lays two boards of foam on one another in her roof. How much foam is that?",
        "first_layer 1 5/8, second_layer 1 1/2", "first_layer 1 3/4, second_layer 1 7/8",
        "carry_dropped tops_and_bottoms", stage="last step", why=ROW,
    ),
    Exercise(
        "12-03", "derive", "foam_left = foam - lost",
        "A roof has foam of {foam}. Wood goes through it, and costs as much heat as if {lost} of "
        "the foam were missing. How much foam is that roof really worth?",
        "foam 2 1/4, lost 1 1/2", "foam 3 1/8, lost 1 3/8",
        "inch_not_lowered smaller_from_larger", stage="hard step",
        why="Wood lets through more than foam. So the roof is worth less foam than lies in it.",
    ),
    Exercise(
        "12-04", "measure", "wall",
        "An inch of foam has R 5, of board R 1.2, of skin R 1.1. Films of air "
        "are there on both faces: 0.7 inside, 0.2 outside. What is R of the whole wall?",
        "board 3/4, foam 1, skin 1/2", "board 3/4, foam 2, skin 1/4",
        by="row",
        question="Which things does the heat go through on its way, the air at both faces too?",
        rule="Take each thickness times its R for an inch. Then add them all, and both films.",
        almost="Write them in a column from inside to outside, five lines, and add them up.",
        why=ROW,
    ),
    Exercise(
        "12-05", "measure", "wall",
        "A layer is foam of R 5 for {foam_height} of its height. For the other {strip_height} a "
        "strip of wood stands there, of R 1. What is R of the whole layer?",
        "foam_height 9, strip_height 1", "foam_height 8 1/2, strip_height 1 1/2",
        by="beside",
        question="Does the heat go through both, or does each bit of it choose one way?",
        rule="Divide each share of the height by its R. Add them. Then divide one by that.",
        almost="Share of foam by its R, share of wood by its own: add both, and turn it round.",
        why="Side by side it is the flows that are added. A little wood lets much heat through.",
    ),
    Exercise(
        "12-06", "order", "plywood foam softwood straw",
        "Four walls hold heat equally well. Order them by how thick they are, the thinnest first.",
        "plywood 4 1/2, foam 1, softwood 4 3/16, straw 2",
        "plywood 9, foam 2, softwood 8 3/8, straw 4",
        by="smallest first",
        almost="Foam is the best of them: so it is first. Then look at the tape.",
        why="The better a thing holds heat, the thinner it may be.",
    ),
)  # fmt: skip
