"""One sheet of paper of a template: its lines, its words and its control rulers.

Every length on paper is in inches, from the upper left corner of the sheet, y down.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal, NamedTuple, TypeAlias

from hivecalc.length import MM, Length
from hivecalc.saw.templates.template import Line, LineKind, Point

Anchor: TypeAlias = Literal["start", "middle", "end"]

LETTER: Final = Fraction(9, 72)
"""Size of the letters: 9 points."""

DROP: Final = LETTER * 36 / 100
"""From the middle of a text down to the line that its letters stand on."""

SIGN: Final = Fraction(65, 100)
"""Width that a sign takes at most, on average, of the size of the letters."""

BESIDE: Final = Fraction(3, 2) * MM
"""Between a line and its label."""

SHARE: Final = Fraction(1, 4)
"""How far along a line its label stands: clear of what is marked half-way."""

LEAST_SHOWN: Final = 25 * MM
"""Least of an upright line that is labelled, unless the whole line is shorter."""

TICK: Final = 4 * MM
RULER_APART: Final = 11 * MM
METRIC, INCHES = 100 * MM, Fraction(4)


class Stroke(NamedTuple):
    """A line on paper."""

    start: Point
    end: Point
    kind: LineKind


class Words(NamedTuple):
    """A text on paper: where it begins, ends or has its middle, and on what line it stands."""

    text: str
    place: Point
    anchor: Anchor


class Window(NamedTuple):
    """A part of a template: its lower left and its upper right corner, in the template's inches."""

    low: Point
    high: Point

    def part(self, line: Line) -> "Part | None":
        """As much of a line as the window shows, if it shows any of it.

        >>> window = Window((0, 0), (2, 2))
        >>> window.part(Line((-1, 1), (5, 1), "cut")).ends
        ((Fraction(0, 1), Fraction(1, 1)), (Fraction(2, 1), Fraction(1, 1)))
        """
        shares = Fraction(0), Fraction(1)
        for axis in (0, 1):
            shares = _within(line, axis, (self.low[axis], self.high[axis]), shares)
        if shares[0] >= shares[1]:
            return None
        start, end = (_at(line, share) for share in shares)
        return Part(line, (start, end))

    def on_paper(self, place: Point, corner: Point) -> Point:
        """Where a place of the template stands on paper, if the window begins at this corner."""
        return corner[0] + place[0] - self.low[0], corner[1] + self.high[1] - place[1]


def _at(line: Line, share: Fraction) -> Point:
    (x0, y0), (x1, y1) = line.start, line.end
    return x0 + (x1 - x0) * share, y0 + (y1 - y0) * share


def _within(
    line: Line, axis: int, limits: tuple[Length, Length], shares: tuple[Fraction, Fraction]
) -> tuple[Fraction, Fraction]:
    """From where to where a line is between two limits along one axis, in shares of its length."""
    start, way = line.start[axis], line.end[axis] - line.start[axis]
    low, high = limits
    if not way:
        return shares if low <= start <= high else (Fraction(1), Fraction(0))
    first, last = sorted(((low - start) / Fraction(way), (high - start) / Fraction(way)))
    return max(shares[0], first), min(shares[1], last)


@dataclass(frozen=True)
class Part:
    """As much of a line as one sheet shows."""

    line: Line
    ends: tuple[Point, Point]

    def moved(self, window: Window, corner: Point) -> Stroke:
        """The line on paper."""
        start, end = (window.on_paper(place, corner) for place in self.ends)
        return Stroke(start, end, self.line.kind)

    def words(self, window: Window, corner: Point) -> Iterator[Words]:
        """The line's label on paper, where there is room for it."""
        label, (start, end) = self.line.label, self.moved(window, corner)[:2]
        wide = len(label) * SIGN * LETTER
        if not label or self._too_little:
            return
        middle = corner[0] + (window.high[0] - window.low[0]) / 2
        if start[0] == end[0] or self.line.kind == "mark":
            yield _beside(label, start, end, middle)
        elif end[0] - start[0] > 2 * wide:
            along = SHARE * (end[0] - start[0])
            fall = (end[1] - start[1]) / (end[0] - start[0])
            away = abs(fall) * wide / 2
            aside = self.line.aside + (away if self.line.aside > 0 else -away)
            level = start[1] + fall * along - aside + DROP
            yield Words(label, (start[0] + along, level), "middle")

    @property
    def _too_little(self) -> bool:
        """Whether so little of an upright line is shown that its label belongs elsewhere."""
        high, shown = (
            abs(end[1] - start[1]) for start, end in ((self.line.start, self.line.end), self.ends)
        )
        upright = self.line.start[0] == self.line.end[0]
        return upright and shown < min(high, LEAST_SHOWN)


def _beside(label: str, start: Point, end: Point, middle: Length) -> Words:
    """The label beside an upright line or a cross, on the side where the sheet has more room."""
    y = (start[1] + end[1]) / 2 + DROP
    if start[0] < middle:
        return Words(label, (end[0] + BESIDE, y), "start")
    return Words(label, (start[0] - BESIDE, y), "end")


@dataclass(frozen=True)
class Page:
    """One sheet of paper with its part of a template."""

    number: int
    width: Length
    height: Length
    window: Window
    strokes: tuple[Stroke, ...]
    words: tuple[Words, ...]


def ruler_strokes(foot: Point) -> Iterator[Stroke]:
    """The lines of two control rulers, of 100 mm and below it of 4 in, that end above a place.

    >>> level = [s for s in ruler_strokes((0, 0)) if s.start[1] == s.end[1]]
    >>> [str((line.end[0] - line.start[0]) / MM) for line in level]
    ['100', '508/5']
    """
    x, bottom = foot
    for length, step, y in (
        (METRIC, 10 * MM, bottom - RULER_APART),
        (INCHES, Fraction(1, 2), bottom),
    ):
        yield Stroke((x, y), (x + length, y), "edge")
        for number in range(int(length / step) + 1):
            high = TICK if number in {0, int(length / step)} else TICK / 2
            yield Stroke((x + number * step, y - high), (x + number * step, y), "edge")


def ruler_words(foot: Point) -> Iterator[Words]:
    """What is written beside the two control rulers."""
    x, bottom = foot
    end = x + INCHES + 4 * BESIDE
    yield Words("100 mm: measure this ruler before you cut.", (end, bottom - RULER_APART), "start")
    told = "4 in. If it is off, print again at 100 %, not “fit to page”."
    yield Words(told, (end, bottom), "start")
