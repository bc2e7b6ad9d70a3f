"""Short texts on a crowded drawing: each at the first of its places that is free."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Final

from hivecalc.drawing.layout import ASCENT, DESCENT, LETTER, Box, Point, text_width

SHARES: Final = tuple(sorted((n / 40 for n in range(1, 40)), key=lambda share: abs(share - 0.5)))
"""Shares of a stretch at which a text may stand, those near its middle first."""


STEPS: Final = (17.0, 34.0, 51.0, 68.0, 85.0)
WAYS: Final = ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1))


@dataclass(frozen=True)
class Mark:
    """A short text, and the places at which its middle may stand, the best first.

    `beside` are places apart from what it speaks of, which need a leader to the first place.
    """

    text: str
    places: tuple[Point, ...]
    bold: bool = False

    @property
    def beside(self) -> Iterator[Point]:
        """Places apart from what the text speaks of, the nearest first."""
        x, y = self.places[0]
        yield from ((x + step * i, y + step * j) for step in STEPS for i, j in WAYS)


@dataclass(frozen=True)
class Spot:
    """Where a text stands, and where its leader leads, if it needs one."""

    box: Box
    target: Point | None = None

    @property
    def start(self) -> Point:
        """Where the text's line begins."""
        return self.box.left, self.box.top + ASCENT * LETTER

    @property
    def middle(self) -> Point:
        """The middle of the text."""
        return (self.box.left + self.box.right) / 2, (self.box.top + self.box.bottom) / 2


def along(start: Point, end: Point) -> tuple[Point, ...]:
    """Places on a line, those near its middle first.

    >>> along((0.0, 0.0), (40.0, 0.0))[0]
    (20.0, 0.0)
    """
    (x0, y0), (x1, y1) = start, end
    return tuple((x0 + (x1 - x0) * share, y0 + (y1 - y0) * share) for share in SHARES)


def placed(marks: Sequence[Mark], within: Box) -> Mapping[Mark, Spot]:
    """Where each text stands, so that no two texts meet.

    >>> one, other = (Mark(text, ((20.0, 20.0), (60.0, 20.0))) for text in "ab")
    >>> [spot.middle for spot in placed([one, other], Box(0, 0, 99, 99)).values()]
    [(20.0, 20.0), (60.0, 20.0)]

    Where none of a mark's own places is free, it stands beside them and within this box. A text for
    which no place is free at all is left out.
    """
    found: dict[Mark, Spot] = {}
    for mark in marks:
        spot = _spot(mark, [spot.box for spot in found.values()], within)
        if spot is not None:
            found[mark] = spot
    return found


def _spot(mark: Mark, taken: Sequence[Box], within: Box) -> Spot | None:
    own = (Spot(_box(mark, place)) for place in mark.places)
    beside = (Spot(_box(mark, place), mark.places[0]) for place in mark.beside)
    there = (spot for spot in beside if _inside(spot.box, within))
    free = (s for s in chain(own, there) if not any(map(s.box.meets, taken)))
    return next(free, None)


def _inside(box: Box, within: Box) -> bool:
    low = box.left >= within.left and box.top >= within.top
    return low and box.right <= within.right and box.bottom <= within.bottom


def _box(mark: Mark, middle: Point) -> Box:
    x, y = middle
    wide, high = text_width(mark.text, bold=mark.bold), (ASCENT + DESCENT) * LETTER
    return Box(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)
