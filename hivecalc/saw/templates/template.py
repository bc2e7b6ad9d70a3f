"""What a full-size template shows: lines in inches, each with its kind and, perhaps, a label."""

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from hivecalc.length import MM, Length

Point: TypeAlias = tuple[Length, Length]
LineKind: TypeAlias = Literal["edge", "cut", "thin", "mark"]

ABOVE: Final = 3 * MM
BELOW: Final = -3 * MM
"""How far above or below a line the middle of its label stands."""


@dataclass(frozen=True)
class Line:
    """A straight line of a template: from where, to where, what it is, and what is written by it.

    x runs right, y up, in inches. An edge is laid on the edge of the piece; a cut is sawn or
    drilled along; a thin line only helps; a mark shows a single place. The label of a line that is
    not upright stands so far above it, or below it where `aside` is less than nothing.
    """

    start: Point
    end: Point
    kind: LineKind
    label: str = ""
    aside: Length = ABOVE


@dataclass(frozen=True)
class Template:
    """A template at full size: what it is for, how it is laid on, its size and its lines."""

    title: str
    told: str
    width: Length
    height: Length
    lines: tuple[Line, ...]


def cross(place: Point, half: Length, label: str = "") -> tuple[Line, Line]:
    """Two short lines that cross at a place; the label stands on the level one.

    >>> level, upright = cross((0, 0), 1)
    >>> level.start, upright.end
    ((-1, 0), (0, 1))
    """
    x, y = place
    return (
        Line((x - half, y), (x + half, y), "mark", label),
        Line((x, y - half), (x, y + half), "mark"),
    )
