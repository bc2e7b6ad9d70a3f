"""The template of the taper: a rim side at full size with the line that is cut."""

from fractions import Fraction
from typing import Final

from hivecalc.hive import Hive
from hivecalc.hive.values import said_with_unit
from hivecalc.saw.taper import taper
from hivecalc.saw.telling import degrees_text
from hivecalc.saw.templates.template import BELOW, Line, Template, cross

HALF: Final = Fraction(1, 8)  # inches: half the size of the crosses at the two marks
UNDER: Final = BELOW - HALF


def taper_template(hive: Hive) -> Template:
    """The template of a hive's rim sides.

    >>> from hivecalc.hive import demo_hive
    >>> found = taper_template(demo_hive())
    >>> str(found.width), [str(y) for _, y in (found.lines[0].start, found.lines[0].end)]
    ('189/8', ['7/2', '3/2'])
    """
    t, foot = taper(hive), Fraction(0)
    high, low, middle = (said_with_unit(s, hive.units) for s in (t.high, t.low, t.middle))
    half = t.run / 2
    return Template(
        f"Taper of the rim sides, {degrees_text(t.angle)}",
        "Lay the straight edge on the stud's edge. Cut along the thick line; what is above it is "
        "waste.",
        t.run,
        t.high,
        (
            Line((foot, t.high), (t.run, t.low), "cut", "cut here, waste above", UNDER),
            Line((foot, foot), (t.run, foot), "edge", "straight edge", BELOW),
            Line((foot, foot), (foot, t.high), "edge", f"front {high}"),
            Line((t.run, foot), (t.run, t.high), "edge", f"back {low}"),
            Line((foot, t.high), (t.run, t.high), "thin"),
            Line((half, foot), (half, t.middle), "thin", f"half-way {middle}"),
            *(line for mark in t.marks for line in cross(mark, HALF)),
        ),
    )
