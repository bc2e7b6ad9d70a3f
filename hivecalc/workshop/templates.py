"""Templates at full size: the taper and the roof's screw lines, on as many sheets as they take.

On a template x runs right, y up; on paper places run from the sheet's upper left corner, y down.
All lengths are in inches.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import Final, Literal, NamedTuple, TypeAlias

from hivecalc.components import values
from hivecalc.document import Paper
from hivecalc.document.pdf import sheets_pdf
from hivecalc.hive import Hive
from hivecalc.hive.hive import said_with_unit
from hivecalc.length import MM, Length
from hivecalc.space.fastening import Side, screw_row
from hivecalc.support.faults import escaped
from hivecalc.workshop.shapes import degrees_text, taper

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


def templates(hive: Hive) -> tuple[Template, ...]:
    """The templates of a hive: its taper, and the screw lines along sides and ends of its roof."""
    return taper_template(hive), *screw_templates(hive)


def templates_pdf(hive: Hive, paper: Paper = "a4", which: Iterable[Template] = ()) -> bytes:
    """The templates of a hive as a PDF at full size, on lying sheets with marks to join them.

    `which` are other templates than all of the hive's. The same bytes for the same templates.
    """
    sheets = [
        page for t in which or templates(hive) for page in pages(t, paper, escaped(hive.name))
    ]
    return sheets_pdf(hive.name, list(map(_in_mm, sheets)))


def _in_mm(page: "Page") -> dict[str, object]:
    return {
        "width": _mm(page.width),
        "height": _mm(page.height),
        "strokes": [(*map(_mm, (*s.start, *s.end)), s.kind) for s in page.strokes],
        "words": [(w.text, *map(_mm, w.place), w.anchor) for w in page.words],
    }


def _mm(length: Length) -> float:
    return float(length / MM)


def cross(place: Point, half: Length, label: str = "") -> tuple[Line, Line]:
    """Two short lines that cross at a place; the label stands on the level one."""
    x, y = place
    return (
        Line((x - half, y), (x + half, y), "mark", label),
        Line((x, y - half), (x, y + half), "mark"),
    )


# ── the taper ─────────────────────────────────────────────────────────────────────────────────

HALF_MARK: Final = Fraction(1, 8)  # inches: half the size of the crosses at the two marks
UNDER_MARK: Final = BELOW - HALF_MARK


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
            Line((foot, t.high), (t.run, t.low), "cut", "cut here, waste above", UNDER_MARK),
            Line((foot, foot), (t.run, foot), "edge", "straight edge", BELOW),
            Line((foot, foot), (foot, t.high), "edge", f"front {high}"),
            Line((t.run, foot), (t.run, t.high), "edge", f"back {low}"),
            Line((foot, t.high), (t.run, t.high), "thin"),
            Line((half, foot), (half, t.middle), "thin", f"half-way {middle}"),
            *(line for mark in t.marks for line in cross(mark, HALF_MARK)),
        ),
    )


# ── screw lines ───────────────────────────────────────────────────────────────────────────────

HALF: Final = Fraction(1, 4)  # inches: half the size of the mark at a screw
BEYOND: Final = Fraction(1, 2)  # inches of paper beyond the screw line
EDGES: Final[Mapping[Side, str]] = {
    "left": "the sides of the roof, front end at the left",
    "front": "the front of the roof",
    "back": "the back of the roof",
}


def screw_templates(hive: Hive) -> tuple[Template, ...]:
    """The templates of a hive's screw lines: for its sides, its front and its thinner back.

    Upright crosses are for the cover, slanted ones for the deck beneath it, so that no two screws
    meet; both stand where the hive's own figures have them.
    """
    return tuple(_screws(hive, side) for side in EDGES)


def _screws(hive: Hive, side: Side) -> Template:
    found = values(hive)
    row, deck = screw_row(found, side), found["cover_lip"]
    length, height, foot = row.length, row.line + BEYOND, Fraction(0)
    label = f"screws, {said_with_unit(row.line, hive.units)} from the cover's edge"
    edges = (
        Line((foot, foot), (length, foot), "edge", "edge of the cover", BELOW),
        Line((deck, deck), (length - deck, deck), "edge", "edge of the deck"),
        Line((foot, row.line), (length, row.line), "cut", label, BELOW - HALF),
        *(Line((x, foot), (x, height), "edge") for x in (foot, length)),
        *(Line((x, deck), (x, height), "thin") for x in (deck, length - deck)),
    )
    crosses = (line for at in row.cover for line in cross((at, row.line), HALF))
    slanted = (
        Line((at - HALF, row.line - up), (at + HALF, row.line + up), "mark")
        for at in row.deck
        for up in (HALF, -HALF)
    )
    return Template(
        f"Screws along {EDGES[side]}",
        "Upright crosses: the cover, by its edge and end. Slanted crosses: the bare deck, by the "
        "lines inside them. The corners first.",
        length,
        height,
        (*edges, *crosses, *slanted),
    )


# ── on paper ──────────────────────────────────────────────────────────────────────────────────

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


PAPERS: Final[Mapping[Paper, tuple[Length, Length]]] = {
    "a4": (297 * MM, 210 * MM),
    "letter": (Fraction(11), Fraction(17, 2)),
}
"""Width and height of each paper, lying: ISO 216 and ANSI Y14.1, from memory."""

MARGIN: Final = 12 * MM
HEADER: Final = 18 * MM
RULERS: Final = 24 * MM
OVERLAP: Final = 15 * MM
JOINED: Final = "lay crosses with the same numbers on one another"
CROSS: Final = 5 * MM
"""Half the size of a joint mark."""


def pages(template: Template, paper: Paper, name: str = "") -> tuple[Page, ...]:
    """The sheets that a template takes at full size, from the lower left on, row by row.

    Neighbours share a band of 15 mm with marks in it, which are laid one on the other. Each sheet
    has a control ruler of 100 mm and one of 4 in. `name` is the hive's, in the head of each sheet.
    """
    return tuple(_Layout(template, paper, name).pages())


def windows(template: Template, paper: Paper) -> tuple[Window, ...]:
    """The part of a template that each of its sheets shows, from the lower left on."""
    return tuple(window for _, _, window in _Layout(template, paper, "").windows())


@dataclass(frozen=True)
class _Layout:
    template: Template
    paper: Paper
    name: str

    @property
    def _sizes(self) -> tuple[Length, Length]:
        return self.template.width, self.template.height

    @property
    def _room(self) -> tuple[Length, Length]:
        """How much of a template one sheet shows."""
        wide, high = PAPERS[self.paper]
        return wide - 2 * MARGIN, high - 2 * MARGIN - HEADER - RULERS

    @property
    def _counts(self) -> tuple[int, int]:
        """How many sheets lie side by side, and how many rows of them."""
        across, up = (
            max(1, ceil((size - OVERLAP) / (room - OVERLAP)))
            for size, room in zip(self._sizes, self._room, strict=True)
        )
        return across, up

    def windows(self) -> Iterator[tuple[int, int, Window]]:
        """Column, row and window of each sheet; the template stands in the middle of them all."""
        (wide, high), (across, up) = self._room, self._counts
        left, foot = (
            (size - count * room + (count - 1) * OVERLAP) / 2
            for size, count, room in zip(self._sizes, self._counts, self._room, strict=True)
        )
        for row in range(up):
            for column in range(across):
                x, y = left + column * (wide - OVERLAP), foot + row * (high - OVERLAP)
                yield column, row, Window((x, y), (x + wide, y + high))

    def pages(self) -> Iterator[Page]:
        """Each sheet with all that stands on it."""
        shown = list(self.windows())
        joints = [line for place in self._joints() for line in place]
        for number, (_, _, window) in enumerate(shown, 1):
            yield self._page(window, number, len(shown), joints)

    def _page(self, window: Window, number: int, count: int, joints: list[Line]) -> Page:
        wide, high = PAPERS[self.paper]
        corner = MARGIN, MARGIN + HEADER
        strokes, words = list[Stroke](), list[Words]()
        for line in (*self.template.lines, *joints):
            part = window.part(line)
            if part:
                strokes.append(part.moved(window, corner))
                words += part.words(window, corner)
        foot = high - MARGIN
        strokes += ruler_strokes((MARGIN, foot))
        words += ruler_words((MARGIN, foot))
        words += self._head(number, count)
        return Page(number, wide, high, window, tuple(strokes), tuple(words))

    def _head(self, number: int, count: int) -> Iterator[Words]:
        of = f", sheet {number} of {count}: {JOINED}" if count > 1 else ""
        lines = (self.name, f"{self.template.title}{of}", self.template.told)
        for i, line in enumerate(lines, 1):
            if line:
                yield Words(line, (MARGIN, MARGIN + i * HEADER / 4), "start")

    def _joints(self) -> Iterator[tuple[Line, Line]]:
        """The marks that two neighbouring sheets share, with the sheets' numbers."""
        across, up = self._counts
        near, far = 2 * CROSS, OVERLAP + 2 * CROSS
        for number, (column, row, (low, high)) in enumerate(self.windows(), 1):
            if column + 1 < across:
                x = high[0] - OVERLAP / 2
                foot, head = (near if row == end else far for end in (0, up - 1))
                for y in (low[1] + foot, high[1] - head):
                    yield cross((x, y), CROSS, f"{number}/{number + 1}")
            if row + 1 < up:
                y = high[1] - OVERLAP / 2
                left, right = (near if column == end else far for end in (0, across - 1))
                for x in (low[0] + left, high[0] - right):
                    yield cross((x, y), CROSS, f"{number}/{number + across}")
