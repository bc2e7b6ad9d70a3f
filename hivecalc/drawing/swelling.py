"""The foam panel in its opening, from above, while the side rails beside it swell."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from hivecalc.assembly import Solid, solids
from hivecalc.assembly.outlines import Interval, rectangle
from hivecalc.assembly.solids import hull
from hivecalc.drawing.bottom_board.state import COMPONENT, Sizes, titled
from hivecalc.drawing.dimensions import Dim, Row, depth, draw_dims, packed
from hivecalc.drawing.faults import SPACE_TAKEN_TWICE
from hivecalc.drawing.labels import Label, column_height, draw_labels, fitted
from hivecalc.drawing.layout import LINE, Side
from hivecalc.drawing.svg import (
    CHANGED_LINE,
    FOAM,
    HIDDEN,
    MARGIN,
    OUTLINE,
    PAPER,
    THIN,
    WIDTH,
    WOOD,
    Pen,
    Sheet,
    figure,
)
from hivecalc.drawing.view import Look, View
from hivecalc.length import Length, LengthError, Units

MOST = Fraction(1)
"""Most that a rail is drawn swollen by, in inches: far more than wood can."""

TITLE = "The panel between side rails that swell, from above"
HEADING = "From above, front at left"
HIGHEST = 300.0  # of the frame on the sheet
WINDOW_WIDE, WINDOW_HIGH = 150.0, 92.0
GAP_SHOWN = 40.0  # how big half the panel's gap is in an enlargement, on the sheet
FRAME = ("side_rail", "front_rail", "back_rail")
RAIL, RAIL_ACROSS = Look(OUTLINE, WOOD, "grain"), Look(OUTLINE, WOOD, "grain_across")
PANEL, SPACE = Look(OUTLINE, FOAM, "foam"), Look(None, PAPER)


def gap_left(values: Sizes, swell: Length) -> Length:
    """Gap that is left between the panel and both side rails, in all, once each has swollen.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> gap_left(values(demo_hive()), Fraction(1, 16))
    Fraction(1, 8)

    In inches. Where it is nothing or less, the panel sticks.
    """
    opening = values["bottom_board.opening_width"] - 2 * swell
    return opening - values["bottom_board.panel_width"]


def swelling(values: Sizes, swell: Length, *, units: Units = "inch", name: str = "") -> str:
    """SVG picture of the panel in its opening, with each side rail swollen towards it.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> "1/16 in at each side" in swelling(values(demo_hive()), Fraction(1, 16))
    True
    >>> "the panel sticks" in swelling(values(demo_hive()), Fraction(1, 8))
    True

    Values as components.values gives them, and the swelling of one rail, in inches; figures are
    shown in `units`. Raises LengthError for a swelling below zero or above 1 in.
    """
    if not 0 <= swell <= MOST:
        raise LengthError(
            f"A rail can't be drawn that swells by {figure(swell, units)}: "
            f"give a swelling from 0 to {figure(MOST, units)}."
        )
    return _Swelling(values, swell, units).picture(name)


@dataclass(frozen=True)
class _Side:
    """A side rail and the panel beside it, from above: which places lie where across the hive.

    The places run from the rail's edge as it was, over the swollen edge, to the panel's edge.
    """

    name: str
    rail: Solid
    was: Length
    edge: Length
    panel: Length

    @property
    def swollen(self) -> Interval:
        """The part that the rail has grown by."""
        return _ordered(self.was, self.edge)

    @property
    def between(self) -> Interval:
        """The gap between rail and panel, or what both would take if they run into each other."""
        return _ordered(self.edge, self.panel)


def _ordered(one: Length, other: Length) -> Interval:
    return min(one, other), max(one, other)


@dataclass(frozen=True)
class _Swelling:
    values: Sizes
    swell: Length
    units: Units

    def picture(self, name: str) -> str:
        sheet = Sheet()
        heading = sheet.paragraph(HEADING, MARGIN, bold=True)
        view, bottom = self._draw_whole(sheet, heading)
        for side in self._sides:
            bottom = self._draw_side(sheet, side, bottom + MARGIN)
        bottom = sheet.paragraph(self._told, bottom + MARGIN, bold=self._sticks)
        words = f"The foam panel between the side rails, from above. {self._figures} {self._told}"
        return sheet.picture(titled(TITLE, name), words, bottom + MARGIN, view.scale)

    # What is found

    @cached_property
    def _solids(self) -> dict[str, Solid]:
        return {s.label: s for s in solids(self.values, COMPONENT)}

    @cached_property
    def _left(self) -> Length:
        return gap_left(self.values, self.swell)

    @property
    def _sticks(self) -> bool:
        return self._left <= 0

    @cached_property
    def _sides(self) -> tuple[_Side, _Side]:
        left, right = self._solids["side rail, left"], self._solids["side rail, right"]
        near, far = self._solids["panel"].extents[0]
        inner, other = left.extents[0][1], right.extents[0][0]
        return (
            _Side("left", left, inner, inner + self.swell, near),
            _Side("right", right, other, other - self.swell, far),
        )

    @property
    def _figures(self) -> str:
        dims = (f"{line}" for dim in self._dims(View(0, 0, 1, *self._window)) for line in dim.lines)
        return f"{'; '.join(dims)}; each side rail swells by {self._shown(self.swell)}."

    @property
    def _told(self) -> str:
        in_all, each = self._shown(abs(self._left)), self._shown(abs(self._left) / 2)
        if self._left > 0:
            return f"The panel slides: {in_all} of gap is left in all, {each} at each side."
        if self._left == 0:
            return "The gap is used up: the panel sticks. It does not go."
        return (
            f"The gap is used up: the panel sticks. It is {in_all} too wide, {each} at each side. "
            "It does not go."
        )

    def _shown(self, length: Length) -> str:
        return figure(length, self.units)

    # The whole

    @cached_property
    def _window(self) -> tuple[Interval, Interval]:
        """The frame's reach, along the hive and across it."""
        x, y, _ = hull(s.extents for s in self._solids.values() if s.part in FRAME)
        return y, x

    def _draw_whole(self, sheet: Sheet, heading: float) -> tuple[View, float]:
        """Draw the frame with the panel in it; where that ends on the sheet comes back too."""
        view = replace(self._view(), top=heading + MARGIN)
        columns = self._columns(view, heading)
        with sheet.view("plan", view.scale):
            self._draw_pieces(sheet, view)
            for side, rows in columns.items():
                draw_dims(sheet, side, view.left if side == "left" else view.right, rows)
        texts = [c + d.text_width / 2 for rows in columns.values() for row in rows for d, c in row]
        return view, max(view.bottom, *texts)

    def _view(self) -> View:
        """The frame as big as the sheet allows between its upright dimension lines."""
        (y, x), sides = self._window, self._dims(View(0, 0, 1, *self._window))
        opening, panel = (depth([[(dim, 0.0)]]) for dim in sides)
        wide = WIDTH - 2 * MARGIN - opening - panel
        length, width = float(y[1] - y[0]), float(x[1] - x[0])
        scale = min(wide / length, HIGHEST / width)
        left = MARGIN + opening + (wide - length * scale) / 2
        return View(left, 0, scale, y, x, down=True)

    def _columns(self, view: View, heading: float) -> dict[Side, list[Row]]:
        """The upright dimension lines: within the frame's height, if their texts go in there."""
        dims = self._dims(view)
        fits = max(dim.text_width for dim in dims) <= view.bottom - view.top
        between = (view.top, view.bottom) if fits else (heading, float("inf"))
        opening, panel = (packed([dim], *between) for dim in dims)
        return {"left": opening, "right": panel}

    def _dims(self, view: View) -> tuple[Dim, Dim]:
        """The opening, as it is now and as it was, and the panel."""
        first, second = self._sides
        opening, was = second.edge - first.edge, second.was - first.was
        panel = second.panel - first.panel
        lines = [f"opening {self._shown(opening)}"]
        lines += [f"was {self._shown(was)}"] if self.swell else []
        ends = view.y(first.edge), view.y(second.edge)
        panel_ends = view.y(first.panel), view.y(second.panel)
        return (
            Dim("opening", opening, tuple(lines), *ends, bool(self.swell)),
            Dim("panel", panel, (f"panel {self._shown(panel)}",), *panel_ends),
        )

    def _draw_pieces(self, sheet: Sheet, view: View) -> None:
        """Draw frame and panel, then what the rails have grown by and what is left between."""
        for solid in self._solids.values():
            x, y, _ = solid.extents
            if solid.part in FRAME:
                look = RAIL if solid.part == "side_rail" else RAIL_ACROSS
                view.draw(sheet, rectangle(y, x), look, {"part": solid.label})
        x, y, _ = self._solids["panel"].extents
        view.draw(sheet, rectangle(y, x), PANEL, {"part": "panel"})
        for side in self._sides:
            self._draw_swelling(sheet, view, side)

    def _draw_swelling(self, sheet: Sheet, view: View, side: _Side) -> None:
        along = self._solids["panel"].extents[1]
        rail = side.rail.extents[1]
        grown = rail[0] + self.values["stud_thickness"], rail[1]
        if self.swell:
            look, data = Look(HIDDEN, WOOD, "grain"), {"name": "swell", "exact": self.swell}
            view.draw(sheet, rectangle(grown, side.swollen), look, data)
            edge = rectangle(grown, (side.edge, side.edge))
            view.draw(sheet, edge, Look(CHANGED_LINE))
        low, high = side.between
        data = {"name": "gap", "exact": high - low}
        if self._left > 0:
            view.draw(sheet, rectangle(along, side.between), SPACE, data)
        elif self._left < 0:
            data = {"fault": "overlap", "exact": high - low}
            view.draw(sheet, rectangle(along, side.between), SPACE_TAKEN_TWICE, data)
