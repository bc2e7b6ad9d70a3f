"""Labels with leaders to what they speak of, and dimension lines with ticks, beside a drawing."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from typing import Literal, TypeAlias

from hivecalc.drawing.canvas import (
    CHANGED,
    INK,
    MARGIN,
    NO_LINE,
    PAPER,
    STRESSED,
    THIN,
    WIDTH,
    WRONG,
    Canvas,
    Finish,
    Hand,
    Pen,
    figure,
)
from hivecalc.drawing.layout import (
    ASCENT,
    DESCENT,
    LETTER,
    LINE,
    Point,
    Side,
    spread,
    text_width,
    widest,
    wrapped,
)
from hivecalc.drawing.svg import Data
from hivecalc.length import Length, Units

Mark: TypeAlias = Literal["plain", "changed", "wrong"]
LEADERS = {"plain": THIN, "changed": Pen(CHANGED, 1.2), "wrong": Pen(WRONG, 1.6)}
STANDOFF, ELBOW = 3.0, 9.0  # of a leader's two ends at the label
BESIDE = 8.0  # between two labels or two figures of a row


@dataclass(frozen=True)
class Text:
    """What a label or a dimension line says, in lines, and whether that is new or does not go."""

    lines: tuple[str, ...]
    mark: Mark = "plain"

    @cached_property
    def hand(self) -> Hand:
        """How it is written: what changed or does not go is bold."""
        return Hand(self.mark != "plain", CHANGED if self.mark == "changed" else INK)

    @cached_property
    def width(self) -> float:
        """Width that it keeps."""
        return widest(self.lines, bold=self.hand.bold)

    @property
    def high(self) -> float:
        """Height of its lines."""
        return LINE * len(self.lines)

    def fitted(self, room: float) -> "Text":
        """The same text, broken where a line is wider than the room.

        >>> Text(("upper runner 1/2 in",)).fitted(110).lines
        ('upper runner', '1/2 in')
        """
        lines = (part for line in self.lines for part in wrapped(line, room, bold=self.hand.bold))
        return replace(self, lines=tuple(lines))


@dataclass(frozen=True)
class Label:
    """A text beside a drawing, and the place on the sheet that it speaks of.

    The place may be any from `low` to `high` along the row or column: the leader takes the
    straightest way.
    """

    text: Text
    target: Point
    low: float | None = None
    high: float | None = None

    @property
    def height(self) -> float:
        """Height that the label keeps."""
        return self.text.high + 2


SHEET = MARGIN, WIDTH - MARGIN
"""From where to where labels and figures may stand across a sheet."""


def draw_labels(
    canvas: Canvas, side: Side, level: float, labels: Sequence[Label], between: Point = SHEET
) -> None:
    """Draw labels on one side of a drawing, in a column that begins at x = level, or in a row.

    They are given from the top down or from left to right, and stand as near as they can to what
    they speak of, between two places along the column or row.
    """
    across = side in {"top", "bottom"}
    sizes = [lb.text.width + BESIDE if across else lb.height for lb in labels]
    wished = [lb.target[0 if across else 1] for lb in labels]
    placed = list(zip(labels, spread(wished, sizes, *between), strict=True))
    way = -1 if side in {"right", "bottom"} else 1
    ends = level + way * STANDOFF, level + way * ELBOW
    reached = [_reached(label, along, across=across) for label, along in placed]
    for (label, along), target in zip(placed, reached, strict=True):
        bends = [(along, end) if across else (end, along) for end in ends]
        canvas.path([*bends, target], LEADERS[label.text.mark])
    for label, target in zip(labels, reached, strict=True):
        mark = label.text.mark
        canvas.dot(target, INK if mark == "plain" else LEADERS[mark].colour)
    anchor = {"left": "end", "right": "start"}.get(side, "middle")
    for label, along in placed:
        x, top = level, along - label.height / 2
        if across:
            x, top = along, level if side == "bottom" else level - label.height
        for i, line in enumerate(label.text.lines):
            canvas.text(line, (x, top + 1 + i * LINE + ASCENT * LETTER), anchor, label.text.hand)


def _reached(label: Label, along: float, *, across: bool) -> Point:
    """Where a leader ends: the target, or as near to the label as it may be."""
    if label.low is None or label.high is None:
        return label.target
    nearest = max(label.low, min(along, label.high))
    return (nearest, label.target[1]) if across else (label.target[0], nearest)


def draw_column(
    canvas: Canvas, side: Side, level: float, labels: Sequence[Label], between: Point
) -> float:
    """Draw labels in a column between two places, or as far down as they need; where it ends."""
    top, bottom = between
    foot = max(bottom, top + sum(label.height for label in labels))
    draw_labels(canvas, side, level, labels, (top, foot))
    return foot


# ── dimension lines ───────────────────────────────────────────────────────────────────────────

GAP = 7.0  # between the outline or the row before and a dimension line
TICK = 3.5
UNDER_TEXT = 5.0  # between a dimension line and the text on it


@dataclass(frozen=True)
class Dim:
    """One dimension line: its exact length and text, and where it stands beside an outline.

    Its text is centred where it is placed in a row.
    """

    name: str
    exact: Fraction
    text: Text
    low: float
    high: float
    centre: float = 0.0

    @property
    def depth(self) -> float:
        """How far line and text reach outwards."""
        return UNDER_TEXT + self.text.high

    @cached_property
    def ends(self) -> Point:
        """From where to where its text reaches."""
        half = self.text.width / 2
        return self.centre - half, self.centre + half

    @cached_property
    def reach(self) -> Point:
        """From where to where line and text reach."""
        return min(self.low, self.ends[0]), max(self.high, self.ends[1])

    def meets(self, other: "Dim") -> bool:
        """Whether the two come too near one another in a row."""
        (low, high), (other_low, other_high) = self.reach, other.reach
        return low < other_high + BESIDE and other_low < high + BESIDE


def plain_dim(word: str, exact: Length, units: Units, low: float, high: float) -> Dim:
    """A dimension line that says a word and a length, which is also its name."""
    return Dim(word, exact, Text((f"{word} {figure(exact, units)}",)), low, high)


Row: TypeAlias = list[Dim]


def packed(dims: Iterable[Dim], low: float = SHEET[0], high: float = SHEET[1]) -> list[Row]:
    """Rows of dimension lines, the first row nearest the outline.

    Each line stands in the first row in which neither it nor its text meets another. Texts stand
    between low and high.
    """
    rows: list[Row] = []
    for dim in dims:
        (centre,) = spread([(dim.low + dim.high) / 2], [dim.text.width], low, high)
        placed = replace(dim, centre=centre)
        free = (row for row in rows if not any(map(placed.meets, row)))
        row = next(free, None)
        if row is None:
            rows.append(row := [])
        row.append(placed)
    return rows


def in_rows(dims: Iterable[Dim], low: float, high: float = float("inf")) -> list[Row]:
    """Dimension lines each in a row of its own."""
    return [row for dim in dims for row in packed([dim], low, high)]


def text_end(rows: Iterable[Row]) -> float:
    """How far along the outline the texts of these rows reach."""
    return max(dim.ends[1] for row in rows for dim in row)


def depth(rows: Iterable[Iterable[Dim]]) -> float:
    """How far outwards these rows reach from the outline."""
    return sum(GAP + max(dim.depth for dim in row) for row in rows)


def room_for(dims: Iterable[Dim]) -> float:
    """How far outwards these dimension lines reach, each in a row of its own."""
    return depth([dim] for dim in dims)


def draw_dims(canvas: Canvas, side: Side, start: float, rows: Sequence[Row]) -> float:
    """Draw rows of dimension lines outwards from `start` on one side of an outline; their end."""
    placed: list[tuple[Dim, float]] = []
    edge = start
    outwards = -1 if side in {"top", "left"} else 1
    for row in rows:
        deep = max(dim.depth for dim in row)
        placed += [(dim, start - GAP if outwards < 0 else start + deep) for dim in row]
        start += outwards * (GAP + deep)

    def at(along: float, across: float) -> Point:
        return (along, across) if side in {"top", "bottom"} else (across, along)

    for dim, level in placed:
        low, high = dim.reach
        if high - low > dim.high - dim.low:
            canvas.line(at(low, level), at(high, level), Pen(THIN.colour, 0.35))
    both = [(dim, level, end) for dim, level in placed for end in (dim.low, dim.high)]
    for _, level, end in both:
        canvas.line(at(end, edge + 2 * outwards), at(end, level + 3 * outwards))
    for dim, level in placed:
        pen = THIN if dim.text.mark == "plain" else Pen(CHANGED, 1.6)
        data = {"name": dim.name, "exact": dim.exact}
        canvas.line(at(dim.low, level), at(dim.high, level), pen, data)
    for dim, level, end in both:
        draw_tick(canvas, at(end, level), dim.text.hand.colour)
    # a text is cleared where an extension line would run through it
    canvas.shapes(
        ([at(*corner) for corner in _place(dim, level)], Finish(NO_LINE, PAPER), None)
        for dim, level in placed
        if any(dim.ends[0] < end < dim.ends[1] and (to - level) * outwards >= 0
               for _, to, end in both)
    )  # fmt: skip
    for dim, level in placed:
        hand = replace(dim.text.hand, upright=side in {"left", "right"})
        for i, line in enumerate(reversed(dim.text.lines)):
            canvas.text(line, at(dim.centre, level - UNDER_TEXT - i * LINE), "middle", hand)
    return start


def _place(dim: Dim, level: float) -> list[Point]:
    """The corners of the place of a text: along the outline, and across."""
    (low, high), foot = dim.ends, level - UNDER_TEXT
    near, far = foot + DESCENT * LETTER, foot - dim.text.high + LINE - ASCENT * LETTER
    return [(low, near), (high, near), (high, far), (low, far)]


Measure: TypeAlias = tuple[Sequence[Point], Sequence[Point], Data]
"""The two ends of a dimension line, the places on the edges it is taken from, what is noted."""


def draw_measures(canvas: Canvas, *measures: Measure) -> None:
    """Draw dimension lines with their ticks, and lines to their ends from what they measure."""
    for ends, edges, data in measures:
        for edge, end in zip(edges, ends, strict=True):
            canvas.line(edge, end)
        canvas.path(ends, THIN, data)
    for ends, _, _ in measures:
        for end in ends:
            draw_tick(canvas, end)


def draw_asked(canvas: Canvas, ends: Point, level: float, edge: float, text: str) -> float:
    """Draw the line of what is asked for, below pieces; where the next may begin comes back."""
    pen = Pen(CHANGED, 1.8)
    for end in ends:
        canvas.line((end, edge), (end, level + 4), pen)
    canvas.line((ends[0], level), (ends[1], level), pen)
    (middle,) = spread([sum(ends) / 2], [text_width(text, bold=True)], *SHEET)
    canvas.text(text, (middle, level + 4 + LETTER), "middle", STRESSED)
    return level + 4 + LINE


def draw_tick(canvas: Canvas, place: Point, colour: str = INK) -> None:
    """Draw the tick that ends a dimension line."""
    x, y = place
    canvas.line((x - TICK, y + TICK), (x + TICK, y - TICK), Pen(colour, 1.3))
