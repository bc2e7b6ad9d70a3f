"""Labels with leaders to what they speak of, and dimension lines with ticks, beside a drawing."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
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
    Data,
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
from hivecalc.length import Length, Units

Row: TypeAlias = list[tuple["Dim", float]]
Mark: TypeAlias = Literal["plain", "changed", "wrong"]
LEADERS = {"plain": THIN, "changed": Pen(CHANGED, 1.2), "wrong": Pen(WRONG, 1.6)}
STANDOFF, ELBOW = 3.0, 9.0  # of a leader's two ends at the label
BESIDE = 8.0  # between two labels or two figures of a row


@dataclass(frozen=True)
class Label:
    """A label of one or more lines, and the place on the sheet that it speaks of.

    The place may be any from `low` to `high` along the row or column: the leader takes the
    straightest way.
    """

    lines: tuple[str, ...]
    target: Point
    low: float | None = None
    high: float | None = None
    mark: Mark = "plain"

    @property
    def bold(self) -> bool:
        """Whether the label says that something changed or does not go."""
        return self.mark != "plain"

    @property
    def width(self) -> float:
        """Width that the label keeps."""
        return widest(self.lines, bold=self.bold)

    @property
    def height(self) -> float:
        """Height that the label keeps."""
        return LINE * len(self.lines) + 2


def fitted(lines: Iterable[str], room: float, mark: Mark = "plain") -> tuple[str, ...]:
    """The lines of a label, broken where they are wider than the room.

    >>> fitted(["upper runner 1/2 in"], 110)
    ('upper runner', '1/2 in')
    """
    bold = mark != "plain"
    return tuple(part for line in lines for part in wrapped(line, room, bold=bold))


SHEET = MARGIN, WIDTH - MARGIN
"""From where to where labels and figures may stand across a sheet."""


def draw_labels(
    canvas: Canvas,
    side: Side,
    level: float,
    labels: Sequence[Label],
    between: tuple[float, float] = SHEET,
) -> None:
    """Draw labels on one side of a drawing, in a column that begins at x = level, or in a row.

    They are given from the top down or from left to right, and stand as near as they can to what
    they speak of, between two places along the column or row.
    """
    across = side in {"top", "bottom"}
    sizes = [lb.width + BESIDE if across else lb.height for lb in labels]
    wished = [lb.target[0 if across else 1] for lb in labels]
    places = spread(wished, sizes, *between)
    way = -1 if side in {"right", "bottom"} else 1
    ends = level + way * STANDOFF, level + way * ELBOW
    reached = [_reached(lb, at, across=across) for lb, at in zip(labels, places, strict=True)]
    for label, along, target in zip(labels, places, reached, strict=True):
        bends = [(along, end) if across else (end, along) for end in ends]
        canvas.path([*bends, target], LEADERS[label.mark])
    for label, target in zip(labels, reached, strict=True):
        canvas.dot(target, LEADERS[label.mark].colour if label.bold else INK)
    for label, along in zip(labels, places, strict=True):
        _draw_lines(canvas, side, level, along, label)


def draw_column(
    canvas: Canvas, side: Side, level: float, labels: Sequence[Label], between: Point
) -> float:
    """Draw labels in a column between two places, or as far down as they need; where it ends."""
    top, bottom = between
    foot = max(bottom, top + sum(label.height for label in labels))
    draw_labels(canvas, side, level, labels, (top, foot))
    return foot


def _reached(label: Label, along: float, *, across: bool) -> Point:
    if label.low is None or label.high is None:
        return label.target
    nearest = max(label.low, min(along, label.high))
    return (nearest, label.target[1]) if across else (label.target[0], nearest)


def _draw_lines(canvas: Canvas, side: Side, level: float, along: float, label: Label) -> None:
    colour = CHANGED if label.mark == "changed" else INK
    x, top = level, along - label.height / 2
    if side in {"top", "bottom"}:
        x, top = along, level if side == "bottom" else level - label.height
    anchor = {"left": "end", "right": "start"}.get(side, "middle")
    for i, line in enumerate(label.lines):
        y = top + 1 + i * LINE + 0.93 * LETTER
        canvas.text(line, (x, y), anchor, Hand(label.bold, colour))


# ── dimension lines ───────────────────────────────────────────────────────────────────────────

GAP = 7.0  # between the outline or the row before and a dimension line
TICK = 3.5
UNDER_TEXT = 5.0  # between a dimension line and the text on it


@dataclass(frozen=True)
class Dim:
    """One dimension line: its exact length and text, and where it stands beside an outline."""

    name: str
    exact: Fraction
    lines: tuple[str, ...]
    low: float
    high: float
    changed: bool = False

    @property
    def text_width(self) -> float:
        """Width that the text keeps."""
        return widest(self.lines, bold=self.changed)

    @property
    def depth(self) -> float:
        """How far line and text reach outwards."""
        return UNDER_TEXT + LINE * len(self.lines)


def plain_dim(word: str, exact: Length, units: Units, low: float, high: float) -> Dim:
    """A dimension line that says a word and a length, which is also its name."""
    return Dim(word, exact, (f"{word} {figure(exact, units)}",), low, high)


def packed(dims: Iterable[Dim], low: float = SHEET[0], high: float = SHEET[1]) -> list[Row]:
    """Rows of dimension lines with the centres of their texts, the first row nearest the outline.

    Each line stands in the first row in which neither it nor its text meets another. Texts stand
    between low and high.
    """
    rows: list[Row] = []
    for dim in dims:
        centre = spread([(dim.low + dim.high) / 2], [dim.text_width], low, high)[0]
        free = (row for row in rows if not any(_meet((dim, centre), other) for other in row))
        row = next(free, None)
        if row is None:
            rows.append(row := [])
        row.append((dim, centre))
    return rows


def in_rows(dims: Iterable[Dim], low: float, high: float = float("inf")) -> list[Row]:
    """Dimension lines each in a row of its own, with the centre of its text."""
    return [row for dim in dims for row in packed([dim], low, high)]


def text_end(rows: Iterable[Row]) -> float:
    """How far along the outline the texts of these rows reach."""
    return max(centre + dim.text_width / 2 for row in rows for dim, centre in row)


def _reach(dim: Dim, centre: float) -> tuple[float, float]:
    half = dim.text_width / 2
    return min(dim.low, centre - half), max(dim.high, centre + half)


def _meet(one: tuple[Dim, float], other: tuple[Dim, float]) -> bool:
    (low, high), (other_low, other_high) = _reach(*one), _reach(*other)
    return low < other_high + BESIDE and other_low < high + BESIDE


def depth(rows: Iterable[Row]) -> float:
    """How far outwards these rows reach from the outline."""
    return sum(GAP + max(dim.depth for dim, _ in row) for row in rows)


def room_for(dims: Iterable[Dim]) -> float:
    """How far outwards these dimension lines reach, each in a row of its own."""
    return depth([(dim, 0.0)] for dim in dims)


def draw_dims(canvas: Canvas, side: Side, start: float, rows: Sequence[Row]) -> float:
    """Draw rows of dimension lines outwards from `start` on one side of an outline; their end."""
    placed: list[tuple[Dim, float, float]] = []
    edge = start
    outwards = -1 if side in {"top", "left"} else 1
    for row in rows:
        deep = max(dim.depth for dim, _ in row)
        level = start - GAP if outwards < 0 else start + deep
        placed += [(dim, centre, level) for dim, centre in row]
        start += outwards * (GAP + deep)
    for dim, centre, level in placed:
        low, high = _reach(dim, centre)
        if high - low > dim.high - dim.low:
            whole = _point(side, low, level), _point(side, high, level)
            canvas.line(*whole, Pen(THIN.colour, 0.35))
    both = [(dim, level, end) for dim, _, level in placed for end in (dim.low, dim.high)]
    for _, level, end in both:
        near = _point(side, end, edge + 2 * outwards)
        canvas.line(near, _point(side, end, level + 3 * outwards))
    for dim, _, level in placed:
        pen = Pen(CHANGED, 1.6) if dim.changed else THIN
        data = {"name": dim.name, "exact": dim.exact}
        canvas.line(_point(side, dim.low, level), _point(side, dim.high, level), pen, data)
    for dim, level, end in both:
        draw_tick(canvas, _point(side, end, level), CHANGED if dim.changed else INK)
    canvas.shapes(
        (_place(side, dim, centre, level), Finish(NO_LINE, PAPER), None)
        for dim, centre, level in placed
        if any(
            abs(end - centre) < dim.text_width / 2 and (to - level) * outwards >= 0
            for _, to, end in both
        )
    )
    for dim, centre, level in placed:
        _draw_text(canvas, side, dim, centre, level)
    return start


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
    width = text_width(text, bold=True)
    (middle,) = spread([sum(ends) / 2], [width], MARGIN, WIDTH - MARGIN)
    canvas.text(text, (middle, level + 4 + LETTER), "middle", STRESSED)
    return level + 4 + LINE


def draw_tick(canvas: Canvas, place: Point, colour: str = INK) -> None:
    """Draw the tick that ends a dimension line."""
    x, y = place
    canvas.line((x - TICK, y + TICK), (x + TICK, y - TICK), Pen(colour, 1.3))


def _point(side: Side, along: float, across: float) -> Point:
    return (along, across) if side in {"top", "bottom"} else (across, along)


def _place(side: Side, dim: Dim, centre: float, level: float) -> list[Point]:
    """The place of a text, which is cleared so that no extension line runs through it."""
    low, high = centre - dim.text_width / 2, centre + dim.text_width / 2
    near = level - UNDER_TEXT + DESCENT * LETTER
    far = level - UNDER_TEXT - (len(dim.lines) - 1) * LINE - ASCENT * LETTER
    corners = ((low, near), (high, near), (high, far), (low, far))
    return [_point(side, *corner) for corner in corners]


def _draw_text(canvas: Canvas, side: Side, dim: Dim, centre: float, level: float) -> None:
    colour = CHANGED if dim.changed else INK
    hand = Hand(dim.changed, colour, upright=side in {"left", "right"})
    for i, line in enumerate(reversed(dim.lines)):
        canvas.text(line, _point(side, centre, level - UNDER_TEXT - i * LINE), "middle", hand)
