"""Drawings: functions that give SVG pictures of a hive, of the tape, of boards and of the saw.

    plan(subject), section(subject), stack(subject)     the bottom board
    roof_section(subject), roof_from_above(subject)     the roof
    exploded_inner_cover(subject), nested(subject)      the inner cover, the box
    in_space(values, components, turn=…, opened=…)      any of them in space
    exploded_hive(subject, built), standing_hive(…)     the whole hive
    tape(reading), tape_to_read, burnt_inch_tape, hooked_tape

A `Subject` is what is drawn: a hive as it is, with a wrong cut, after a change, or with "?" for
what is to be worked out. Each is in the module of its name.

A picture is at least 309 px wide, so that its text is never under 12 px: on a narrower page put it
in a box that scrolls sideways. It carries its own paper, so it reads on a dark page too.
"""

from hivecalc.drawing.bottom_board import plan, section, stack
from hivecalc.drawing.canvas import Picture
from hivecalc.drawing.subject import Subject
from hivecalc.drawing.tape import burnt_inch_tape, hooked_tape, tape, tape_to_read

__all__ = [
    "Picture",
    "Subject",
    "burnt_inch_tape",
    "hooked_tape",
    "plan",
    "section",
    "stack",
    "tape",
    "tape_to_read",
]
