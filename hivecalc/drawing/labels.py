"""Labels beside a drawing, each with a leader to the place that it speaks of."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from hivecalc.drawing.layout import LETTER, LINE, Point, Side, spread, widest, wrapped
from hivecalc.drawing.svg import CHANGED, INK, THIN, WRONG, Hand, Pen, Sheet

Mark: TypeAlias = Literal["plain", "changed", "wrong"]
LEADERS = {"plain": THIN, "changed": Pen(CHANGED, 1.2), "wrong": Pen(WRONG, 1.6)}
STANDOFF, ELBOW = 3.0, 9.0  # of a leader's two ends at the label
BESIDE = 8.0  # between two labels of a row


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


def column_height(labels: Iterable[Label]) -> float:
    """Height of some labels, one below the other."""
    return sum(label.height for label in labels)


def draw_labels(
    sheet: Sheet, side: Side, level: float, labels: Sequence[Label], between: tuple[float, float]
) -> None:
    """Draw labels on one side of a drawing, in a column that begins at x = level, or in a row.

    They are given from the top down or from left to right, and stand as near as they can to what
    they speak of, between two places along the column or row.
    """
    across = side in {"top", "bottom"}
    sizes = [lb.width + BESIDE if across else lb.height for lb in labels]
    wished = [lb.target[0 if across else 1] for lb in labels]
    places = spread(wished, sizes, *between)
    for label, along in zip(labels, places, strict=True):
        _draw_leader(sheet, side, level, along, label)
    for label, along in zip(labels, places, strict=True):
        _draw_lines(sheet, side, level, along, label)


def _draw_leader(sheet: Sheet, side: Side, level: float, along: float, label: Label) -> None:
    across = side in {"top", "bottom"}
    way = -1 if side in {"right", "bottom"} else 1
    ends = level + way * STANDOFF, level + way * ELBOW
    bends = [(along, end) if across else (end, along) for end in ends]
    target = _reached(label, along, across=across)
    pen = LEADERS[label.mark]
    sheet.path([*bends, target], pen)
    sheet.circle(target, 1.7, None, pen.colour if label.bold else INK)


def _reached(label: Label, along: float, *, across: bool) -> Point:
    if label.low is None or label.high is None:
        return label.target
    nearest = max(label.low, min(along, label.high))
    return (nearest, label.target[1]) if across else (label.target[0], nearest)


def _draw_lines(sheet: Sheet, side: Side, level: float, along: float, label: Label) -> None:
    colour = CHANGED if label.mark == "changed" else INK
    x, top = level, along - label.height / 2
    if side in {"top", "bottom"}:
        x, top = along, level if side == "bottom" else level - label.height
    anchor = {"left": "end", "right": "start"}.get(side, "middle")
    for i, line in enumerate(label.lines):
        y = top + 1 + i * LINE + 0.93 * LETTER
        sheet.text(line, (x, y), anchor, Hand(label.bold, colour))
