"""Dimension lines with ticks, in rows beside an outline whose texts keep clear of one another."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from hivecalc.drawing.layout import ASCENT, DESCENT, LETTER, LINE, Point, Side, spread, widest
from hivecalc.drawing.svg import CHANGED, INK, PAPER, THIN, Hand, Pen, Sheet

Row: TypeAlias = list[tuple["Dim", float]]

GAP = 7.0  # between the outline or the row before and a dimension line
BESIDE = 8.0  # between two texts of one row
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


def packed(dims: Iterable[Dim], low: float, high: float) -> list[Row]:
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


def _reach(dim: Dim, centre: float) -> tuple[float, float]:
    half = dim.text_width / 2
    return min(dim.low, centre - half), max(dim.high, centre + half)


def _meet(one: tuple[Dim, float], other: tuple[Dim, float]) -> bool:
    (low, high), (other_low, other_high) = _reach(*one), _reach(*other)
    return low < other_high + BESIDE and other_low < high + BESIDE


def depth(rows: Iterable[Row]) -> float:
    """How far outwards these rows reach from the outline."""
    return sum(GAP + max(dim.depth for dim, _ in row) for row in rows)


def draw_dims(sheet: Sheet, side: Side, start: float, rows: Sequence[Row]) -> None:
    """Draw rows of dimension lines outwards from `start` on one side of an outline."""
    placed: list[tuple[Dim, float, float]] = []
    edge = start
    outwards = -1 if side in {"top", "left"} else 1
    for row in rows:
        deep = max(dim.depth for dim, _ in row)
        level = start - GAP if outwards < 0 else start + deep
        placed += [(dim, centre, level) for dim, centre in row]
        start += outwards * (GAP + deep)
    for dim, centre, level in placed:
        _draw_line(sheet, side, dim, _reach(dim, centre), (edge, level))
    for dim, centre, level in placed:
        _draw_text(sheet, side, dim, centre, level)


def _point(side: Side, along: float, across: float) -> Point:
    return (along, across) if side in {"top", "bottom"} else (across, along)


def _draw_line(
    sheet: Sheet, side: Side, dim: Dim, reach: tuple[float, float], levels: tuple[float, float]
) -> None:
    edge, level = levels
    outwards = 1 if level > edge else -1
    pen = Pen(CHANGED, 1.6) if dim.changed else THIN
    low, high = reach
    if high - low > dim.high - dim.low:
        sheet.line(_point(side, low, level), _point(side, high, level), Pen(THIN.colour, 0.35))
    for end in (dim.low, dim.high):
        start = _point(side, end, edge + 2 * outwards)
        sheet.line(start, _point(side, end, level + 3 * outwards))
        tick = [_point(side, end - s * TICK, level + s * TICK) for s in (1, -1)]
        sheet.path(tick, Pen(CHANGED if dim.changed else INK, 1.3))
    data = {"name": dim.name, "exact": dim.exact}
    sheet.line(_point(side, dim.low, level), _point(side, dim.high, level), pen, data)


def _clear(sheet: Sheet, side: Side, reach: tuple[float, float], level: float, dim: Dim) -> None:
    """Clear the place of a text, so that no extension line of another size runs through it."""
    low, high = reach
    near = level - UNDER_TEXT + DESCENT * LETTER
    far = level - UNDER_TEXT - (len(dim.lines) - 1) * LINE - ASCENT * LETTER
    corners = ((low, near), (high, near), (high, far), (low, far))
    sheet.polygon([_point(side, *corner) for corner in corners], None, PAPER)


def _draw_text(sheet: Sheet, side: Side, dim: Dim, centre: float, level: float) -> None:
    _clear(sheet, side, (centre - dim.text_width / 2, centre + dim.text_width / 2), level, dim)
    colour = CHANGED if dim.changed else INK
    hand = Hand(dim.changed, colour, upright=side in {"left", "right"})
    for i, line in enumerate(reversed(dim.lines)):
        sheet.text(line, _point(side, centre, level - UNDER_TEXT - i * LINE), "middle", hand)
