"""Drawings: functions that give SVG pictures of a hive, of the tape, of boards and of the saw.

    bottom_board    plan(subject), section(subject), stack(subject)
    roof_section    roof_section(subject)
    roof            roof_from_above(subject)
    inner_cover     exploded_inner_cover(subject)
    nested          nested(subject): the box and its sleeve
    whole_hive      exploded_hive(subject, built), standing_hive(subject, built)
    in_space        in_space(values, components, turn=…, opened=…): any of them
    frame           bowed_rails(subject, bow), out_of_square, frame_from_above
    tape            tape(reading), tape_to_read, burnt_inch_tape, hooked_tape, step_on_tape

A `Subject` is what is drawn: a hive as it is, with a wrong cut, after a change, or with "?" for
what is to be worked out.

A picture is at least 309 px wide, so that its text is never under 12 px: on a narrower page put it
in a box that scrolls sideways. It carries its own paper, so it reads on a dark page too.
"""

from hivecalc.drawing.bottom_board import plan, section, stack
from hivecalc.drawing.subject import Subject
from hivecalc.drawing.svg import Picture
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
