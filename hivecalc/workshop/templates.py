"""Templates at full size: the taper and the roof's screw lines, on as many sheets as they take.

On a template x runs right, y up; on paper places run from the sheet's upper left corner, y down.
All lengths are in inches.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from math import ceil
from typing import Final, Literal, NamedTuple, TypeAlias

from hivecalc.components import values
from hivecalc.document import Paper
from hivecalc.document.page import sheets_pdf
from hivecalc.hive import Hive
from hivecalc.hive.hive import said_with_unit
from hivecalc.length import MM, Length
from hivecalc.space.fastening import Side, screw_row
from hivecalc.space.solids import Point
from hivecalc.support.faults import escaped
from hivecalc.workshop.settings import degrees_text, taper

LineKind: TypeAlias = Literal["edge", "cut", "thin", "mark"]

ABOVE: Final = 3 * MM
BELOW: Final = -3 * MM
"""How far above or below a line the middle of its label stands."""


class Line(NamedTuple):
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


class Template(NamedTuple):
    """A template at full size: what it is for, how it is laid on, its size and its lines."""

    title: str
    use: str
    width: Length
    height: Length
    lines: tuple[Line, ...]


def templates(hive: Hive) -> tuple[Template, ...]:
    """The templates of a hive: its taper, and the screw lines along sides and ends of its roof."""
    return taper_template(hive), *screw_templates(hive)


def templates_pdf(hive: Hive, paper: Paper = "a4") -> bytes:
    """The templates of a hive as a PDF at full size, on lying sheets with marks to join them.

    The same bytes for the same hive.
    """

    def mm(*lengths: Length) -> list[float]:
        return [float(length / MM) for length in lengths]

    sheets = [
        {
            "width": float(page.width / MM),
            "height": float(page.height / MM),
            "strokes": [(*mm(*start, *end), kind) for start, end, kind in page.strokes],
            "words": [(text, *mm(*place), anchor) for text, place, anchor in page.words],
        }
        for template in templates(hive)
        for page in pages(template, paper, escaped(hive.name))
    ]
    return sheets_pdf(hive.name, sheets)


def cross(place: Point, half: Length, label: str = "") -> tuple[Line, Line]:
    """Two short lines that cross at a place; the label stands on the level one."""
    x, y = place
    return (
        Line((x - half, y), (x + half, y), "mark", label),
        Line((x, y - half), (x, y + half), "mark"),
    )


# ── the taper ─────────────────────────────────────────────────────────────────────────────────

HALF_MARK: Final = Fraction(1, 8)  # inches: half the size of the crosses at the two marks


def taper_template(hive: Hive) -> Template:
    """The template of a hive's rim sides."""
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
            Line((foot, t.high), (t.run, t.low), "cut", "cut here, waste above", BELOW - HALF_MARK),
            Line((foot, foot), (t.run, foot), "edge", "straight edge", BELOW),
            Line((foot, foot), (foot, t.high), "edge", f"front {high}"),
            Line((t.run, foot), (t.run, t.high), "edge", f"back {low}"),
            Line((foot, t.high), (t.run, t.high), "thin"),
            Line((half, foot), (half, t.middle), "thin", f"half-way {middle}"),
            *cross((foot, t.high), HALF_MARK),
            *cross((t.run, t.low), HALF_MARK),
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

LETTER: Final = Fraction(9, 72)  # 9 points
DROP: Final = LETTER * 36 / 100  # from the middle of a text down to the line its letters stand on
SIGN: Final = Fraction(65, 100)  # of that, the width that a sign takes at most, on average
BESIDE: Final = Fraction(3, 2) * MM  # between a line and its label
SHARE: Final = Fraction(1, 4)  # how far along a line its label stands, clear of the middle
LEAST_SHOWN: Final = 25 * MM  # of an upright line that is labelled, unless it is shorter
TICK: Final = 4 * MM
RULER_APART: Final = 11 * MM
METRIC, INCHES = 100 * MM, Fraction(4)

PAPERS: Final[Mapping[Paper, tuple[Length, Length]]] = {
    "a4": (297 * MM, 210 * MM),
    "letter": (Fraction(11), Fraction(17, 2)),
}
"""Width and height of each paper, lying: ISO 216 and ANSI Y14.1, from memory."""

MARGIN: Final = 12 * MM
HEADER: Final = 18 * MM
RULERS: Final = 24 * MM
OVERLAP: Final = 15 * MM
CROSS: Final = 5 * MM  # half the size of a joint mark


Stroke: TypeAlias = tuple[Point, Point, LineKind]
"""A line on paper: from where, to where, what it is."""


class Words(NamedTuple):
    """A text on paper: where it begins, ends or has its middle, and on what line it stands."""

    text: str
    place: Point
    anchor: Literal["start", "middle", "end"]


class Window(NamedTuple):
    """The part of a template that a sheet shows: its lower left and upper right corner."""

    low: Point
    high: Point

    def part(self, line: Line) -> tuple[Point, Point] | None:
        """The ends of as much of a line as the window shows, if it shows any of it."""
        first, last = Fraction(0), Fraction(1)  # shares of the line's length
        for low, high, start, end in zip(*self, line.start, line.end, strict=True):
            way = end - start
            if way:
                one, other = sorted(((low - start) / Fraction(way), (high - start) / Fraction(way)))
                first, last = max(first, one), min(last, other)
            elif not low <= start <= high:
                return None
        if first >= last:
            return None
        (x0, y0), (x1, y1) = line.start, line.end
        return (
            (x0 + (x1 - x0) * first, y0 + (y1 - y0) * first),
            (x0 + (x1 - x0) * last, y0 + (y1 - y0) * last),
        )

    def on_paper(self, place: Point) -> Point:
        """Where a place of the template stands on paper."""
        return MARGIN + place[0] - self.low[0], MARGIN + HEADER + self.high[1] - place[1]


class Page(NamedTuple):
    """One sheet of paper with its part of a template."""

    width: Length
    height: Length
    strokes: tuple[Stroke, ...]
    words: tuple[Words, ...]


def pages(template: Template, paper: Paper, name: str = "") -> tuple[Page, ...]:
    """The sheets that a template takes at full size, from the lower left on, row by row.

    Neighbours share a band of 15 mm with marks in it, which are laid one on the other. Each sheet
    has a control ruler of 100 mm and one of 4 in. `name` is the hive's, in the head of each sheet.
    """
    rows = windows(template, paper)
    shown = [window for row in rows for window in row]
    lines = (*template.lines, *_joints(rows))
    wide, high = PAPERS[paper]
    found = []
    for number, window in enumerate(shown, 1):
        strokes, words = list[Stroke](), list[Words]()
        for line in lines:
            part = window.part(line)
            if part:
                start, end = map(window.on_paper, part)
                strokes.append((start, end, line.kind))
                words += _label(line, start, end, wide)
        foot = MARGIN, high - MARGIN
        strokes += ruler_strokes(foot)
        end_of_ruler = MARGIN + INCHES + 4 * BESIDE
        sentence = "100 mm: measure this ruler before you cut."
        words.append(Words(sentence, (end_of_ruler, foot[1] - RULER_APART), "start"))
        sentence = "4 in. If it is off, print again at 100 %, not “fit to page”."
        words.append(Words(sentence, (end_of_ruler, foot[1]), "start"))
        joined = f"sheet {number} of {len(shown)}: lay crosses with the same numbers on one another"
        of = f", {joined}" if len(shown) > 1 else ""
        for i, text in enumerate((name, f"{template.title}{of}", template.use), 1):
            if text:
                words.append(Words(text, (MARGIN, MARGIN + i * HEADER / 4), "start"))
        found.append(Page(wide, high, tuple(strokes), tuple(words)))
    return tuple(found)


def windows(template: Template, paper: Paper) -> list[list[Window]]:
    """The part of a template that each of its sheets shows, row by row from the lower left on.

    The template stands in the middle of them all.
    """
    wide, high = PAPERS[paper]
    starts = []
    rooms = wide - 2 * MARGIN, high - 2 * MARGIN - HEADER - RULERS
    for size, room in zip((template.width, template.height), rooms, strict=True):
        count = max(1, ceil((size - OVERLAP) / (room - OVERLAP)))
        first = (size - count * room + (count - 1) * OVERLAP) / 2
        starts.append([first + n * (room - OVERLAP) for n in range(count)])
    return [[Window((x, y), (x + rooms[0], y + rooms[1])) for x in starts[0]] for y in starts[1]]


def _label(line: Line, start: Point, end: Point, width: Length) -> Iterator[Words]:
    """The label of as much of a line as a sheet shows, where there is room for it."""
    wide = len(line.label) * SIGN * LETTER
    upright = start[0] == end[0]
    if upright and abs(end[1] - start[1]) < min(abs(line.end[1] - line.start[1]), LEAST_SHOWN):
        return  # so little of it is shown that its label belongs elsewhere
    if not line.label:
        return
    if upright or line.kind == "mark":  # on the side where the sheet has more room
        y = (start[1] + end[1]) / 2 + DROP
        if start[0] < width / 2:
            yield Words(line.label, (end[0] + BESIDE, y), "start")
        else:
            yield Words(line.label, (start[0] - BESIDE, y), "end")
    elif end[0] - start[0] > 2 * wide:
        along = SHARE * (end[0] - start[0])
        fall = (end[1] - start[1]) / (end[0] - start[0])
        away = abs(fall) * wide / 2
        aside = line.aside + (away if line.aside > 0 else -away)
        level = start[1] + fall * along - aside + DROP
        yield Words(line.label, (start[0] + along, level), "middle")


def ruler_strokes(foot: Point) -> Iterator[Stroke]:
    """The lines of two control rulers, of 100 mm and below it of 4 in, that end above a place."""
    x, bottom = foot
    for length, step, y in (
        (METRIC, 10 * MM, bottom - RULER_APART),
        (INCHES, Fraction(1, 2), bottom),
    ):
        yield (x, y), (x + length, y), "edge"
        for number in range(int(length / step) + 1):
            high = TICK if number in {0, int(length / step)} else TICK / 2
            yield (x + number * step, y - high), (x + number * step, y), "edge"


def _joints(rows: list[list[Window]]) -> Iterator[Line]:
    """The marks that two neighbouring sheets share, with the sheets' numbers."""
    up, across = len(rows), len(rows[0])
    near, far = 2 * CROSS, OVERLAP + 2 * CROSS
    for number, (low, high) in enumerate((window for row in rows for window in row), 1):
        row, column = divmod(number - 1, across)
        if column + 1 < across:
            x = high[0] - OVERLAP / 2
            foot, head = (near if row == end else far for end in (0, up - 1))
            for y in (low[1] + foot, high[1] - head):
                yield from cross((x, y), CROSS, f"{number}/{number + 1}")
        if row + 1 < up:
            y = high[1] - OVERLAP / 2
            left, right = (near if column == end else far for end in (0, across - 1))
            for x in (low[0] + left, high[0] - right):
                yield from cross((x, y), CROSS, f"{number}/{number + across}")
