"""A part of a sheet on which solids are drawn true to scale, whole or through a window."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Self, TypeAlias

from hivecalc.drawing.canvas import (
    FOAM,
    MARGIN,
    METAL,
    OUTLINE,
    WIDTH,
    WOOD,
    Canvas,
    Data,
    Finish,
    Pen,
    Shape,
)
from hivecalc.drawing.layout import Box, Point, Side
from hivecalc.drawing.subject import MATERIALS
from hivecalc.space import Solid
from hivecalc.space.solids import Interval

Outline: TypeAlias = Sequence[tuple[Fraction | float, Fraction | float]]
Piece: TypeAlias = tuple[Outline, Finish, Data | None]
"""A convex outline in inches, its look, and what is noted of it."""

BEYOND = 4.0  # beyond a window's border, where no line of it shows any more
FILLS = {"foam": FOAM, "mesh": METAL, "sheet": METAL}
HATCHES = {"stud": "stud", "strip": "strip", "board": "board", "plywood": "board", "foam": "foam"}


@dataclass(frozen=True)
class View:
    """How exact places, in inches along u and v, come to places on a sheet.

    u runs right. v runs up, or down where `down` is set. The window is what is shown: an interval
    along u and one along v.
    """

    left: float
    top: float
    scale: float
    u: Interval
    v: Interval
    down: bool = False

    @classmethod
    def between(
        cls, left: float, right: float, highest: float, window: tuple[Interval, Interval]
    ) -> Self:
        """As large as goes between two places across a sheet, in their middle; seen from above."""
        wide, high = (float(end - start) for start, end in window)
        scale = min((right - left) / wide, highest / high)
        return cls(left + (right - left - wide * scale) / 2, 0, scale, *window, down=True)

    @property
    def right(self) -> float:
        """Where on the sheet the window ends."""
        return self.left + float(self.u[1] - self.u[0]) * self.scale

    @property
    def bottom(self) -> float:
        """Where on the sheet the window ends below."""
        return self.top + float(self.v[1] - self.v[0]) * self.scale

    def x(self, u: Fraction | float) -> float:
        """Where on the sheet a place along u stands."""
        return self.left + (float(u) - self._origin[0]) * self.scale

    def y(self, v: Fraction | float) -> float:
        """Where on the sheet a place along v stands."""
        away = float(v) - self._origin[1]
        return self.top + (away if self.down else -away) * self.scale

    @cached_property
    def _origin(self) -> Point:
        """What stands at the window's upper left corner, in inches."""
        return float(self.u[0]), float(self.v[0] if self.down else self.v[1])

    @cached_property
    def frame(self) -> Box:
        """The window on the sheet."""
        return Box(self.left, self.top, self.right, self.bottom)

    def points(self, outline: Outline) -> list[Point]:
        """Where on the sheet the corners of an outline stand."""
        return [(self.x(u), self.y(v)) for u, v in outline]

    def seen(self, outline: Outline) -> list[Point]:
        """The corners, on the sheet, of as much of a convex outline as the window shows."""
        return within(self.points(outline), self.frame)

    def draw(
        self, canvas: Canvas, outline: Outline, finish: Finish, data: Data | None = None
    ) -> None:
        """Draw as much of a convex outline as the window shows."""
        for shape in self._near([(outline, finish, data)]):
            canvas.polygon(*shape)

    def draw_beside(self, canvas: Canvas, pieces: Iterable[Piece]) -> None:
        """Draw as much of convex outlines as the window shows, which need not hide one another."""
        canvas.shapes(self._near(pieces))

    def _near(self, pieces: Iterable[Piece]) -> Iterator[Shape]:
        """What is not too far beyond the window to be told, with what is noted of whole pieces."""
        near = self.frame.grown(BEYOND)
        for outline, finish, data in pieces:
            points = self.points(outline)
            shown = within(points, near)
            if shown:
                yield shown, finish, data if shown == points else None


BESIDE = 14.0  # between an enlarged window and its labels


@dataclass(frozen=True)
class Enlarged:
    """A window that is drawn large, with a column of labels on one side of it."""

    side: Side
    view: View

    @classmethod
    def fit(  # noqa: PLR0913, PLR0917 - a window, and the room it has
        cls,
        side: Side,
        window: tuple[Interval, Interval],
        top: float,
        labels: float,
        highest: float,
        aside: float = 0.0,
    ) -> "Enlarged":
        """As large as goes beside labels of this width, with room left free aside at the right."""
        (u0, u1), (v0, v1) = window
        room = WIDTH - 2 * MARGIN - labels - BESIDE - aside
        scale = min(room / float(u1 - u0), highest / float(v1 - v0))
        left = MARGIN if side == "right" else WIDTH - MARGIN - aside - float(u1 - u0) * scale
        return cls(side, View(left, top, scale, *window))

    @property
    def level(self) -> float:
        """Where on the sheet the column of labels begins."""
        return self.view.right + BESIDE if self.side == "right" else self.view.left - BESIDE

    @property
    def room(self) -> float:
        """Width that the column of labels has."""
        return WIDTH - MARGIN - self.level if self.side == "right" else self.level - MARGIN


def floated(outline: Outline) -> Outline:
    """The same outline in floats, for one that is drawn in several views."""
    return [(float(u), float(v)) for u, v in outline]


def within(points: list[Point], frame: Box) -> list[Point]:
    """The corners of what a convex outline and a rectangle share; none where they share nothing.

    >>> within([(0, 0), (4, 0), (4, 2), (0, 2)], Box(1, -1, 9, 9))
    [(1, 0.0), (4, 0), (4, 2), (1, 2.0)]
    """
    for axis, limit, way in (
        (0, frame.left, 1),
        (0, frame.right, -1),
        (1, frame.top, 1),
        (1, frame.bottom, -1),
    ):
        points = _beyond(points, axis, limit * way, way)
    return points


def _beyond(points: list[Point], axis: int, limit: float, way: int) -> list[Point]:
    """What is left of a convex outline where its coordinate, times `way`, is at least the limit."""
    if all(p[axis] * way >= limit for p in points):
        return points
    kept: list[Point] = []
    for before, here in zip((points[-1], *points[:-1]), points, strict=True):
        away, away_before = here[axis] * way - limit, before[axis] * way - limit
        if away * away_before < 0:
            share = away_before / (away_before - away)
            other = before[1 - axis] + (here[1 - axis] - before[1 - axis]) * share
            kept.append((limit * way, other) if axis == 0 else (other, limit * way))
        if away >= 0:
            kept.append(here)
    return kept


def cut_finish(solid: Solid, pen: Pen = OUTLINE) -> Finish:
    """The look of a piece that is cut through: by its material."""
    material = MATERIALS[solid.component, solid.part]
    return Finish(pen, FILLS.get(material, WOOD), HATCHES.get(material))
