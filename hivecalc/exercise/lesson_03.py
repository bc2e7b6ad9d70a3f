"""Exercises of lesson 03: opening, panel, slot and runners.

All numbers are invented.
"""

from typing import Final

from hivecalc.exercise.record import KERF, Exercise

TITLE: Final = "Runners, slot and panel"

OPENING, PANEL = "bottom_board.opening_width", "bottom_board.panel_width"
ALONG, PANEL_ALONG = "bottom_board.opening_length", "bottom_board.panel_length"
SLOT = "bottom_board.slot_height"
LOWER, UPPER = (f"bottom_board.{n}_front_runner_length" for n in ("lower", "upper"))
LOWER_SIDE = "bottom_board.lower_side_runner_length"

EXERCISES: Final = (
    Exercise(
        "03-01", "derive", ALONG,
        "The frame of Ines's bottom board is screwed together. How long is the opening inside it, "
        "front to back?",
        "hive_length 23 1/8, stud_thickness 1 1/2", "hive_length 21 5/8, stud_thickness 1 9/16",
        "thickness_once thickness_forgotten thickness_added", stage="worked", own=True,
        picture="section",
    ),
    Exercise(
        "03-02", "derive", PANEL,
        "The foam panel slides in the opening. How wide does Tomas cut it?",
        "hive_width 17 3/8, stud_thickness 1 1/2, panel_gap 1/4",
        "hive_width 16 5/8, stud_thickness 1 9/16, panel_gap 3/8",
        "gap_each_side gap_forgotten gap_added", stage="last step", own=True,
    ),
    Exercise(
        "03-03", "derive", LOWER,
        "The lower front runner lies between two side runners that stand on edge. How long is it?",
        "hive_width 17 3/8, stud_thickness 1 1/2, strip_narrow 1/2, strip_wide 3/4, "
        "runner_gap 3/8",
        "hive_width 18 1/4, stud_thickness 1 1/2, strip_narrow 7/16, strip_wide 13/16, "
        "runner_gap 5/16",
        "thickness_once gap_forgotten other_side overall_size", stage="hard step", own=True,
        picture="section",
    ),
    Exercise(
        "03-04", "derive", UPPER,
        "The upper runners lie flat. How long is the upper front runner?",
        "hive_width 17 3/8, stud_thickness 1 1/2, strip_narrow 1/2, strip_wide 3/4, "
        "runner_gap 3/8",
        "hive_width 16 1/8, stud_thickness 1 1/2, strip_narrow 9/16, strip_wide 7/8, "
        "runner_gap 5/16",
        "other_side thickness_once gap_forgotten overall_size", own=True,
    ),
    Exercise(
        "03-05", "derive", PANEL_ALONG,
        "Mira's frame is done. How long does she cut the foam panel, front to back?",
        "hive_length 22 1/16, hive_width 17 3/8, stud_thickness 1 1/2, panel_gap 3/16",
        "hive_length 24 1/8, hive_width 18 5/8, stud_thickness 1 1/2, panel_gap 1/4",
        "gap_each_side gap_forgotten length_for_width", own=True,
    ),
    Exercise(
        "03-06", "derive", PANEL,
        "Jonas chose an odd gap. His tape has sixteenths. How wide does he cut the panel: which "
        "way does he round?",
        "hive_width 17 3/8, stud_thickness 1 1/2, panel_gap 9/32",
        "hive_width 16 1/4, stud_thickness 1 1/2, panel_gap 7/32",
        "rounded_wrong_way gap_each_side",
        question="If it comes out a hair wrong, what does less harm: a hair too wide or too "
        "narrow?",
    ),
    Exercise(
        "03-07", "derive", SLOT,
        "Lena's foam is thicker than an inch. How high is the slot for the panel?",
        "foam_thickness 1 3/16, slot_ease 1/8", "foam_thickness 1 1/16, slot_ease 3/16",
        "gap_forgotten gap_each_side size_taken_off", own=True,
    ),
    Exercise(
        "03-08", "find", PANEL,
        "Pavel took the gap off at both sides: “{wrong}”. How wide should the panel be?",
        "hive_width 18 1/8, stud_thickness 1 1/2, panel_gap 1/4",
        "hive_width 15 3/4, stud_thickness 1 5/8, panel_gap 3/8",
        "gap_each_side gap_forgotten",
    ),
    Exercise(
        "03-09", "find", OPENING,
        "For the opening's width Noor wrote “{wrong}”. What is it really?",
        "hive_width 16 7/8, stud_thickness 1 1/2", "hive_width 19 1/4, stud_thickness 1 9/16",
        "thickness_once thickness_added",
    ),
    Exercise(
        "03-10", "find", UPPER,
        "Rosa took the wrong side of the strip: “{wrong}”. How long is the upper front runner?",
        "hive_width 17, stud_thickness 1 1/2, strip_narrow 1/2, strip_wide 3/4, runner_gap 1/4",
        "hive_width 18 3/8, stud_thickness 1 1/2, strip_narrow 1/2, strip_wide 7/8, "
        "runner_gap 3/8",
        "other_side thickness_once gap_forgotten",
    ),
    Exercise(
        "03-11", "choose", PANEL_ALONG,
        "Four foam panels are stacked in the shed. Which one slides into this frame as it should?",
        "hive_length 23 1/8, stud_thickness 1 1/2, panel_gap 1/4",
        "hive_length 20 1/2, stud_thickness 1 9/16, panel_gap 3/16",
        "gap_forgotten gap_each_side gap_added", own=True,
    ),
    Exercise(
        "03-12", "predict", UPPER,
        "The strip's wide side is {change} instead of {strip_wide}. What happens to the upper "
        "front "
        "runner?",
        "hive_width 17 3/8, stud_thickness 1 1/2, strip_narrow 1/2, strip_wide 3/4",
        "hive_width 16 1/4, stud_thickness 1 1/2, strip_narrow 1/2, strip_wide 11/16",
        "thickness_once", by="strip_wide 7/8",
    ),
    Exercise(
        "03-13", "predict", f"{LOWER_SIDE} {LOWER} {UPPER} {PANEL_ALONG}",
        "The runner gap grows from {runner_gap} to {change}. Which of these keeps its size?",
        "runner_gap 1/2", "runner_gap 3/8",
        by="least runner_gap 5/8",
        question="In which of these sizes does the runner gap come in?",
        rule="Runners stop short by the runner gap. The panel has a gap of its own.",
        almost="Look for the piece that is no runner.",
        why="The panel has a gap of its own: the runner gap is no part of it.",
    ),
    Exercise(
        "03-14", "order", f"{UPPER} {LOWER_SIDE} {LOWER}",
        "These runners all come out of one long strip. In which order do you cut them?",
        "hive_length 23 1/8, hive_width 17 3/8", "hive_length 16 1/2, hive_width 20 1/8",
        by="longest first",
        why="A long piece that is spoilt still gives a shorter one. So the longest is cut first.",
    ),
    Exercise(
        "03-15", "board", LOWER_SIDE,
        "How many lower side runners come out of a strip of {board}? Every cut takes {kerf}.",
        "hive_length 22 11/16, stud_thickness 1 1/2, runner_gap 1/2, board 96, kerf 1/8",
        "hive_length 20 1/4, stud_thickness 1 1/2, runner_gap 1/2, board 84, kerf 1/8",
        by="count", why=KERF,
    ),
    Exercise(
        "03-16", "derive", PANEL,
        "Emil works in mm. How wide does he cut the panel, in mm?",
        "hive_width 430, stud_thickness 38, panel_gap 6",
        "hive_width 412, stud_thickness 45, panel_gap 8",
        "gap_each_side gap_forgotten gap_added", units="mm",
    ),
)  # fmt: skip
