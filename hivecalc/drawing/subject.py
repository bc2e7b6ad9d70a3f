"""What a drawing is of, and the window that it is seen through, true to scale."""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from typing import Self, TypeAlias

from hivecalc.components import DIMENSIONS
from hivecalc.drawing.canvas import (
    CHANGED_LINE,
    FOAM,
    MARGIN,
    METAL,
    OUTLINE,
    WIDTH,
    WOOD,
    Canvas,
    Finish,
    Pen,
    Shape,
    figure,
)
from hivecalc.drawing.labels import Dim, Label, Text, draw_column, draw_labels
from hivecalc.drawing.layout import Box, Point, Side
from hivecalc.drawing.svg import Data
from hivecalc.hive import MEASUREMENTS
from hivecalc.length import Length, Units
from hivecalc.space import Solid, material_of, sizes_of_pieces, solids, surroundings
from hivecalc.space.solids import Interval

Sizes: TypeAlias = Mapping[str, Fraction]
Named: TypeAlias = tuple[str, str, str]  # a piece, the dimension to show, and the word for it
WORKED_OUT = frozenset({"front_stop_height", "skirt_width"})
"""Sizes that a builder works out, though a hive file may give them."""


@dataclass(frozen=True)
class Subject:
    """What a drawing is of, in inches, and the units that its figures are shown in.

        Subject(values)                      a hive as it is
        Subject(cut, true, wrong=True)       with a wrong cut among its sizes
        Subject(now, before)                 after a change, with the sizes from before
        Subject(values, asked=True)          with "?" for what is to be worked out and was not found

    `now` is as components.values gives it, `name` is the hive's. A piece as somebody answered it
    shows its figure even where figures are `asked`. `lit` are labels of pieces to light up.
    Views raise NoPieceError where a piece would have no size left.
    """

    now: Sizes
    was: Sizes | None = None
    units: Units = "inch"
    name: str = ""
    wrong: bool = False
    asked: bool = False
    found: Collection[str] = ()
    lit: Collection[str] = ()
    component: str = "bottom_board"

    @property
    def before(self) -> Sizes:
        """The sizes to compare with: from before a change, or as they should be."""
        return self.now if self.was is None else self.was

    def of(self, component: str) -> "Subject":
        """The same, of this component."""
        return self if component == self.component else replace(self, component=component)

    # Pieces

    @cached_property
    def solids(self) -> dict[str, Solid]:
        """Every piece of the component as it is drawn, by its label."""
        return {s.label: s for s in solids(self.now, self.component)}

    @cached_property
    def solids_before(self) -> dict[str, Solid]:
        """Every piece as it was before, or should be, by its label."""
        if self.now is self.before:
            return self.solids
        return {s.label: s for s in solids(self.before, self.component)}

    @cached_property
    def met(self) -> dict[str, Solid]:
        """What the component meets, by its label."""
        return {s.label: s for s in surroundings(self.now, self.component)}

    def pen(self, solid: Solid) -> Pen:
        """The pen for a piece's outline: thicker, in the colour of a change, if it is cut anew."""
        before = self.solids_before.get(solid.label)
        return OUTLINE if before and before.cut == solid.cut else CHANGED_LINE

    # Figures

    def changed(self, name: str) -> bool:
        """Whether this size is another than before."""
        return self.now[name] != self.before[name]

    def shown(self, length: Length) -> str:
        """A length as it stands on a drawing."""
        return figure(length, self.units)

    def figure(self, name: str) -> str:
        """This size as it stands on a drawing."""
        return "?" if self.asked and self._to_work_out(name) else self.shown(self.now[name])

    def _to_work_out(self, name: str) -> bool:
        """Whether this is a size of its own, no stock as it was bought, and no answered piece's."""
        if name in MEASUREMENTS or name in self.found:
            return False
        if name in DIMENSIONS.dimensions and DIMENSIONS.dimension(name).as_measured:
            (source,) = DIMENSIONS.dimension(name).inputs
            if source not in WORKED_OUT or source in self.found:
                return False  # stock as it was bought
        return not (name in sizes_of_pieces() and self.changed(name))

    @property
    def compared_word(self) -> str:
        """The word for the sizes to compare with."""
        return "should be" if self.wrong else "was"

    def said(self, name: str, word: str) -> Text:
        """A word and the size, and below it the size to compare it with, if it is another."""
        return self.compared(word, self.now[name], self.before[name], self.figure(name))

    def compared(self, word: str, now: Length, before: Length, figure: str = "") -> Text:
        """A word and a length, or a figure for it, and below it the one from before, if another.

        That one is not told where figures are `asked`.
        """
        lines = [f"{word} {figure or self.shown(now)}"]
        if now != before and not self.asked:
            lines.append(f"{self.compared_word} {self.shown(before)}")
        return Text(tuple(lines), "plain" if now == before else "changed")

    def dim(self, name: str, word: str, low: float, high: float) -> Dim:
        """A dimension line for this size between two places on a sheet."""
        return Dim(name, self.now[name], self.said(name, word), low, high)

    def words(self, intro: str, rows: Iterable[tuple[str, str]], *more: str) -> str:
        """A description: what is seen, the figures on it, and whatever more there is to tell."""
        figures = "; ".join(dict.fromkeys(", ".join(self.said(*row).lines) for row in rows))
        return " ".join([f"{intro}: {figures}.", *more]).strip()

    @property
    def proud(self) -> str:
        """A sentence where the screen of a hive without a wrong cut stands above the rails."""
        headroom = self.now["bottom_board.headroom"]
        if headroom >= 0 or self.wrong or self.asked:
            return ""
        above = self.shown(-headroom)
        return f"The screen stands {above} above the rails: the box rocks on it."


# ── the window ──────────────────────────────────────────────────────────────────────────────────

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

    def draw_framed(
        self, canvas: Canvas, name: str, draw: Callable[[Canvas, "View"], None]
    ) -> None:
        """Draw what is seen through the window, and a frame round it."""
        with canvas.view(name, self.scale), canvas.window(self.frame):
            draw(canvas, self)
        canvas.frame(self.frame)

    def _near(self, pieces: Iterable[Piece]) -> Iterator[Shape]:
        """What is not too far beyond the window to be drawn, with what is noted of whole pieces."""
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

    def draw_labels(
        self,
        canvas: Canvas,
        column: Sequence[Label],
        rows: tuple[Sequence[Label], Sequence[Label]],
        over: float = 10.0,
        lowest: float = 0.0,
    ) -> float:
        """Draw labels beside the window, so far over it, and below both; where they end."""
        between = self.view.top, max(self.view.bottom, lowest)
        foot = draw_column(canvas, self.side, self.level, column, between) + 10
        draw_labels(canvas, "top", self.view.top - over, rows[0])
        draw_labels(canvas, "bottom", foot, rows[1])
        return foot + max(label.height for label in rows[1])


def floated(outline: Outline) -> list[Point]:
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
    material = material_of(solid)
    return Finish(pen, FILLS.get(material, WOOD), HATCHES.get(material))
