"""The templates of the roof's screw lines: strips to lay along the cover's and the deck's edges."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from hivecalc.components import values
from hivecalc.cutting.needs import needed
from hivecalc.hive import Hive
from hivecalc.hive.values import said_with_unit
from hivecalc.length import Length
from hivecalc.saw.templates.template import BELOW, Line, Point, Template, cross

APART: Final = Fraction(8)
"""Most that two screws of the cover are apart; common practice, no published source."""

HALF: Final = Fraction(1, 4)  # inches: half the size of the cross at a screw
UNDER: Final = BELOW - HALF
BEYOND: Final = Fraction(1, 2)  # inches of paper beyond the screw line


def screw_templates(hive: Hive) -> tuple[Template, Template]:
    """The templates of a hive's screw lines, along the roof's sides and along its front and back.

    >>> from hivecalc.hive import demo_hive
    >>> sides, ends = screw_templates(demo_hive())
    >>> str(sides.width), sides.title
    ('225/8', 'Screw line along the sides of the roof')

    Edge and screw line are as far apart as the hive's own dimensions say; the length is that to
    which the cover is cut.
    """
    cover = next(p for p in needed([hive]) if (p.component, p.part) == ("roof", "cover"))
    return (
        _template(hive, cover.length, "the sides of the roof"),
        _template(hive, cover.width, "the front and back of the roof"),
    )


def screw_places(length: Length, line: Length) -> tuple[Length, ...]:
    """Where the screws stand along an edge: at the corners first, then half-way between.

    >>> [str(place) for place in screw_places(Fraction(28), Fraction(3))]
    ['3', '17/2', '14', '39/2', '25']

    The corner screws stand on the screw line of the neighbouring edges; halves are halved again
    until no two screws are more than 8 in apart.
    """
    span, parts = length - 2 * line, 2
    while span / parts > APART:
        parts *= 2
    return tuple(line + span * i / parts for i in range(parts + 1))


def _template(hive: Hive, length: Length, where: str) -> Template:
    found = values(hive)
    deck, screws = found["cover_lip"], found["roof.cover_screw_line"]
    label = f"screws, {said_with_unit(screws, hive.units)} from the cover's edge"
    height, foot = screws + BEYOND, Fraction(0)
    edges = (
        Line((foot, foot), (length, foot), "edge", "edge of the cover", BELOW),
        Line((deck, deck), (length - deck, deck), "edge", "edge of the deck"),
        Line((foot, screws), (length, screws), "cut", label, UNDER),
        *(Line((x, foot), (x, height), "edge") for x in (foot, length)),
        *(Line((x, deck), (x, height), "thin") for x in (deck, length - deck)),
    )
    crosses = (line for place in _places(length, screws) for line in cross(place, HALF))
    return Template(
        f"Screw line along {where}",
        "On the cover, lay its edge and end on the outer lines; on the deck alone, on the lines "
        "inside them. Prick a hole at each cross, the corners first.",
        length,
        height,
        (*edges, *crosses),
    )


def _places(length: Length, line: Length) -> Iterator[Point]:
    return ((x, line) for x in screw_places(length, line))
