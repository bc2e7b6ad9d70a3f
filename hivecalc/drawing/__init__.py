"""Drawings of the hive and of the tape, each a function that gives the text of an SVG picture.

    plan(values), section(values), stack(values)            the bottom board as it is
    plan(values, cut), section(…), stack(…)                 with a wrong cut among the sizes
    changed_plan(before, now), changed_section, changed_stack   after a change, old sizes beside new
    tape(reading), tape_to_read, burnt_inch_tape, hooked_tape

`python -m hivecalc.drawing FOLDER` writes the pictures of the demo hive into a folder.

A picture is at least 309 px wide, so that its text is never under 12 px: on a narrower page put it
in a box that scrolls sideways. It carries its own paper, so it reads on a dark page too.
"""

from hivecalc.drawing.bottom_board import (
    changed_plan,
    changed_section,
    changed_stack,
    plan,
    section,
    stack,
)
from hivecalc.drawing.tape import burnt_inch_tape, hooked_tape, tape, tape_to_read

__all__ = [
    "burnt_inch_tape",
    "changed_plan",
    "changed_section",
    "changed_stack",
    "hooked_tape",
    "plan",
    "section",
    "stack",
    "tape",
    "tape_to_read",
]
