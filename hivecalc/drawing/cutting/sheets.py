"""A sheet laid out with its pieces, true to scale, and its cuts numbered in their order."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Final

from hivecalc.cutting.sheets import Cut, Layout
from hivecalc.cutting.sheets.layout import Placed
from hivecalc.cutting.sheets.order import letters
from hivecalc.cutting.sheets.tree import Rectangle
from hivecalc.drawing.cutting.places import SHARES, Mark, along, placed
from hivecalc.drawing.dimensions import Dim, depth, draw_dims, packed
from hivecalc.drawing.layout import LINE, Point
from hivecalc.drawing.svg import (
    CHANGED,
    HIDDEN,
    INK,
    MARGIN,
    OUTLINE,
    PAPER,
    PENCIL,
    WIDTH,
    WOOD,
    Hand,
    Pen,
    Sheet,
    figure,
)
from hivecalc.drawing.view import Look, View
from hivecalc.length import Length, Units

FOOT: Final = "at the foot of the picture"
LEFT: Final = "at the left of the picture, with its top at your left hand"
AIR: Final = Fraction(1, 1000)
HIGHEST: Final = 560.0  # of a sheet on the drawing
EDGE: Final = 6.0  # keeps the sheet's sizes clear of a number that stands on its edge
PIECE, REST = Look(OUTLINE, WOOD), Look(Pen(PENCIL, 0.8), PAPER, "grain")
CUT: Final = Pen(CHANGED, 1.4, "6 2")
WORDS: Final = "Pieces bear letters, cuts bear numbers; wavy parts are left over. You stand {}."


def sheet_cut_up(layout: Layout, *, units: Units = "inch", name: str = "") -> str:
    """SVG picture of a sheet with its pieces and numbered cuts, with a list of the pieces below.

    >>> from hivecalc.cutting.sheets import WantedSheet, sheet_plan
    >>> from hivecalc.stock import SheetGoods
    >>> half = SheetGoods("half sheet", "plywood", *map(Fraction, (1, 48, 48)), Fraction(14))
    >>> deck = WantedSheet("deck", Fraction(171, 8), Fraction(217, 8), turns=False)
    >>> (layout,) = sheet_plan([deck], [half], kerf=Fraction(1, 8)).layouts
    >>> "a: deck, 21 3/8 in × 27 1/8 in" in sheet_cut_up(layout)
    True

    The sheet's length runs along the drawing, or up where labels are crowded so. Lengths in inches,
    shown in `units`.
    """
    both = (_Picture(layout, units, upright=upright) for upright in (False, True))
    return min(both, key=lambda picture: picture.crowd).picture(name)


def lettered(layout: Layout) -> dict[tuple[str, Length, Length], str]:
    """The small letter of each kind of piece of a layout, in the order of its pieces."""
    kinds = dict.fromkeys(map(_kind, layout.placed))
    return {kind: letters(number).lower() for number, kind in enumerate(kinds)}


def _kind(piece: Placed) -> tuple[str, Length, Length]:
    sizes = (piece.width, piece.length)
    return piece.label, *(sizes[::-1] if piece.turned else sizes)


@dataclass(frozen=True)
class _Picture:
    layout: Layout
    units: Units
    upright: bool

    @cached_property
    def crowd(self) -> tuple[int, int]:
        """How many texts find no place, and how many stand apart from what they speak of."""
        view = self._view(0)
        marks = list(self._marks(view))
        spots = placed(marks, view.frame).values()
        return len(marks) - len(spots), sum(spot.target is not None for spot in spots)

    def picture(self, name: str) -> str:
        sheet, layout = Sheet(), self.layout
        title = f"{layout.count} × {layout.sheet.name}{', at hand' * layout.sheet.at_hand}"
        top = sheet.paragraph(title, MARGIN, bold=True)
        view = self._view(sheet.paragraph(self._words, top) + MARGIN)
        with sheet.view("sheet", view.scale):
            self._draw(sheet, view)
            rows = packed(self._dims(view), MARGIN, WIDTH - MARGIN)
            draw_dims(sheet, "bottom", view.bottom + EDGE, rows)
            upright = packed(self._upright(view), view.top, float("inf"))
            draw_dims(sheet, "left", view.left - EDGE, upright)
        self._write(sheet, view)
        bottom, told = view.bottom + EDGE + depth(rows) + MARGIN, list(self._listed())
        for line in told:
            bottom = sheet.paragraph(line, bottom)
        whole = f"{name}: {title}" if name else title
        return sheet.picture(whole, " ".join((self._words, *told)), bottom + MARGIN, view.scale)

    @property
    def _words(self) -> str:
        return WORDS.format(FOOT if self.upright else LEFT)

    def _view(self, top: float) -> View:
        wide, high = self._laid(self.layout.whole)[2:]
        left = 2 * MARGIN + 2 * LINE
        scale = min((WIDTH - MARGIN - left) / float(wide), HIGHEST / float(high))
        return View(left, top, scale, (-AIR, wide + AIR), (-AIR, high + AIR))

    def _laid(self, where: Rectangle) -> Rectangle:
        """A part of the sheet as the sheet lies on the drawing: it is turned to lie along it."""
        x, y, width, length = where
        if self.upright:
            return where
        return Rectangle(y, self.layout.sheet.width - x - width, length, width)

    def _draw(self, sheet: Sheet, view: View) -> None:
        view.draw(sheet, _outline(self._laid(self.layout.whole)), REST, {"part": "sheet"})
        for piece in self.layout.placed:
            data = {"part": "piece", "name": piece.label, "exact": piece.length}
            where = Rectangle(piece.x, piece.y, piece.width, piece.length)
            view.draw(sheet, _outline(self._laid(where)), PIECE, data)
        for cut in self.layout.cuts:
            sheet.line(*self._line(cut, view), CUT if self.layout.kerf else HIDDEN, {"cut": cut[0]})

    def _write(self, sheet: Sheet, view: View) -> None:
        spots = placed(list(self._marks(view)), view.frame)
        for spot in spots.values():
            if spot.target:
                sheet.line(spot.middle, spot.target)
        for mark, spot in spots.items():
            sheet.text(mark.text, spot.start, hand=Hand(mark.bold, CHANGED if mark.bold else INK))

    def _line(self, cut: Cut, view: View) -> tuple[Point, Point]:
        """Both ends of a cut on the drawing, in the middle of its kerf."""
        x, y, width, length = cut.where
        middle = cut.at + self.layout.kerf / 2
        if cut.way == "along":
            line = Rectangle(x + min(middle, width), y, Fraction(0), length)
        else:
            line = Rectangle(x, y + min(middle, length), width, Fraction(0))
        u, v, wide, high = self._laid(line)
        return (view.x(u), view.y(v)), (view.x(u + wide), view.y(v + high))

    def _marks(self, view: View) -> Iterator[Mark]:
        found = lettered(self.layout)
        for piece in self.layout.placed:
            u, v, wide, high = map(float, self._laid(Rectangle(*piece[1:5])))
            places = [(view.x(u + wide * s), view.y(v + high * t)) for t in (0.5, 0.25, 0.75)
                      for s in SHARES]  # fmt: skip
            yield Mark(found[_kind(piece)], tuple(places))
        for cut in self.layout.cuts:
            yield Mark(str(cut.number), along(*self._line(cut, view)), bold=True)

    def _dims(self, view: View) -> Iterator[Dim]:
        wide = self._laid(self.layout.whole).width
        yield Dim("sheet", wide, (figure(wide, self.units),), view.x(0), view.x(wide))

    def _upright(self, view: View) -> Iterator[Dim]:
        high = self._laid(self.layout.whole).length
        yield Dim("sheet", high, (figure(high, self.units),), view.y(high), view.y(0))

    def _listed(self) -> Iterator[str]:
        for (label, width, length), letter in lettered(self.layout).items():
            sizes = " × ".join(figure(size, self.units) for size in (width, length))
            yield f"{letter}: {label}, {sizes}"


def _outline(where: Rectangle) -> list[tuple[Length, Length]]:
    u, v, wide, high = where
    return [(u, v), (u + wide, v), (u + wide, v + high), (u, v + high)]
