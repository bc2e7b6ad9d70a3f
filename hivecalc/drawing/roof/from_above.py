"""The roof from above: where each screw of the cover and of the deck stands."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Final

from hivecalc.drawing.bottom_board.state import Sizes, titled
from hivecalc.drawing.dimensions import Dim, Row, depth, draw_dims, packed
from hivecalc.drawing.layout import Point
from hivecalc.drawing.svg import (
    HIDDEN,
    INK,
    MARGIN,
    METAL,
    OUTLINE,
    PAPER,
    WIDTH,
    Pen,
    Sheet,
    figure,
)
from hivecalc.drawing.view import Look, View
from hivecalc.length import Length, Units
from hivecalc.space import SIDES, ScrewRow, Side, screw_row
from hivecalc.space.outlines import Interval, rectangle

TITLE: Final = "Screws of the roof, from above"
HEADING: Final = "The flat cover from above, front at left"
HIGHEST: Final = 250.0  # of the cover on the sheet
COVER_SCREW, DECK_SCREW = 3.4, 3.4  # radius on the sheet
RING: Final = Pen(INK, 1.4)
COVER, DECK, LINE = Look(OUTLINE, METAL), Look(HIDDEN), Look(HIDDEN)
ENDS: Final = ("front", "back")


def roof_from_above(values: Sizes, *, units: Units = "inch", name: str = "") -> str:
    """SVG picture of the cover from above, with its own screws and, under it, the deck's.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> "16 screws of the cover" in roof_from_above(values(demo_hive()))
    True

    Places are those on the flat sheets, as one marks them. Values as components.values gives them,
    in inches; figures are shown in `units`.
    """
    return _FromAbove(values, units).picture(name)


@dataclass(frozen=True)
class _FromAbove:
    values: Sizes
    units: Units

    def picture(self, name: str) -> str:
        sheet = Sheet()
        top = sheet.paragraph(HEADING, MARGIN, bold=True)
        left = packed(self._upright(self._view(0, 0)), top, float("inf"))
        above = packed(self._above(self._view(0, 0)), MARGIN, WIDTH - MARGIN)
        view = self._view(MARGIN + depth(left) + 6, top + depth(above) + 6)
        bottom = self._draw(sheet, view)
        for line in self._told:
            bottom = sheet.paragraph(line, bottom + 4)
        words = " ".join((f"{HEADING}.", *self._told))
        return sheet.picture(titled(TITLE, name), words, bottom + MARGIN, view.scale)

    # Places

    @cached_property
    def _rows(self) -> Mapping[Side, ScrewRow]:
        return {side: screw_row(self.values, side) for side in SIDES}

    @property
    def _size(self) -> tuple[Length, Length]:
        """Length and width of the cover."""
        return self.values["roof.cover_length"], self.values["roof.cover_width"]

    def _place(self, side: Side, at: Length, line: Length) -> tuple[Length, Length]:
        """A place on the cover, along it and across it, from its front left corner."""
        long, wide = self._size
        if side in ENDS:
            return (line if side == "front" else long - line), at
        return at, (line if side == "left" else wide - line)

    def _places(self, kind: str) -> set[tuple[Length, Length]]:
        """Where the screws of the cover or of the deck stand; corner screws only once."""
        return {
            self._place(side, at, row.line)
            for side, row in self._rows.items()
            for at in (row.cover if kind == "cover" else row.deck)
        }

    # Drawn

    def _view(self, left: float, top: float) -> View:
        long, wide = self._size
        room = WIDTH - 2 * MARGIN - 80
        scale = min(room / float(long), HIGHEST / float(wide))
        return View(left, top, scale, (Fraction(0), long), (Fraction(0), wide), down=True)

    def _draw(self, sheet: Sheet, view: View) -> float:
        """Draw sheets, screw line, screws and dimension lines; where they end comes back."""
        (long, wide), lip = self._size, self.values["cover_lip"]
        front, back, side = (self._rows[at].line for at in ("front", "back", "left"))
        inside: tuple[Interval, Interval] = (front, long - back), (side, wide - side)
        left, above, below = self._upright(view), self._above(view), self._below(view)
        rows: list[Row] = packed(below, view.left, WIDTH - MARGIN)
        with sheet.view("roof from above", view.scale):
            view.draw(sheet, rectangle((Fraction(0), long), (Fraction(0), wide)), COVER)
            view.draw(sheet, rectangle((lip, long - lip), (lip, wide - lip)), DECK)
            view.draw(sheet, rectangle(*inside), LINE)
            for place in sorted(self._places("cover")):
                sheet.circle(self._on(view, place), COVER_SCREW, None, INK)
            for place in sorted(self._places("deck")):
                sheet.circle(self._on(view, place), DECK_SCREW, RING, PAPER)
            draw_dims(sheet, "top", view.top, packed(above, MARGIN, WIDTH - MARGIN))
            draw_dims(sheet, "left", view.left, packed(left, view.top, view.bottom))
            draw_dims(sheet, "bottom", view.bottom, rows)
        return view.bottom + depth(rows) + MARGIN

    def _on(self, view: View, place: tuple[Length, Length]) -> Point:
        return view.x(place[0]), view.y(place[1])

    def _dim(self, name: str, ends: Interval, view: View, *, upright: bool = False) -> Dim:
        at = view.y if upright else view.x
        text = figure(ends[1] - ends[0], self.units)
        return Dim(name, ends[1] - ends[0], (text,), at(ends[0]), at(ends[1]))

    def _above(self, view: View) -> list[Dim]:
        """From the cover's edge to the screw line, in front and at the back."""
        long, _ = self._size
        front, back = self._rows["front"].line, self._rows["back"].line
        return [
            self._dim("roof.cover_screw_line", (Fraction(0), front), view),
            self._dim("roof.cover_back_screw_line", (long - back, long), view),
        ]

    def _upright(self, view: View) -> list[Dim]:
        """From the cover's edge to the screw line at the left side."""
        ends = Fraction(0), self._rows["left"].line
        return [self._dim("roof.cover_screw_line", ends, view, upright=True)]

    def _below(self, view: View) -> list[Dim]:
        """From a corner screw to the next of the cover, and to the next of the deck."""
        row = self._rows["right"]
        return [
            self._dim("to deck screw", (row.cover[0], row.deck[0]), view),
            self._dim("to cover screw", (row.cover[0], row.cover[1]), view),
        ]

    # Told

    @property
    def _told(self) -> tuple[str, ...]:
        cover, deck = (len(self._places(kind)) for kind in ("cover", "deck"))
        most = figure(self.values["screw_spacing"], self.units)
        lengths = [figure(self.values[f"{kind}_screw"], self.units) for kind in ("cover", "deck")]
        return (
            f"Full: {cover} screws of the cover, {lengths[0]} long, none more than {most} apart.",
            f"Rings: {deck} screws of the deck below, {lengths[1]} long, between the cover's.",
            "Dashed: the deck's edge, and the screw line over the middle of the rim.",
        )
