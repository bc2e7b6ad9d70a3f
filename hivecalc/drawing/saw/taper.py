"""The taper of a rim side: the whole piece, and its two ends enlarged with the marks on them."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeAlias

from hivecalc.drawing.dimensions import Dim, depth, draw_dims, packed
from hivecalc.drawing.layout import Side
from hivecalc.drawing.svg import (
    CHANGED,
    MARGIN,
    OUTLINE,
    PAPER,
    PENCIL,
    WIDTH,
    WOOD,
    Pen,
    Sheet,
    figure,
)
from hivecalc.drawing.view import Look, Outline, View
from hivecalc.length import Length, Units
from hivecalc.workshop.shapes import Taper, degrees_text, taper_told

End: TypeAlias = Literal["front", "back"]

TITLE = "The taper of a rim side"
HIGHEST = 120.0  # of an enlarged end on the sheet
LARGEST = 40.0  # units of the sheet for an inch
BETWEEN = 20.0  # between the two enlarged ends
AIR = Fraction(1, 8)
SIDE = Look(OUTLINE, WOOD, "grain")
WASTE = Look(Pen(PENCIL, 0.9, "4 3"), PAPER)
CUT = Pen(CHANGED, 2.0)
SIDES: dict[End, Side] = {"front": "left", "back": "right"}


def taper_drawing(taper: Taper, *, units: Units = "inch", name: str = "") -> str:
    """SVG picture of a rim side's taper, with its two heights and the marks for the cut.

    >>> picture = taper_drawing(Taper(Fraction(24), Fraction(7, 2), Fraction(3, 2)))
    >>> all(text in picture for text in ("front 3 1/2 in", "back 1 1/2 in", "4.8°"))
    True

    The front is at the left. Lengths in inches, shown in `units`.
    """
    return _Picture(taper, units).picture(name)


@dataclass(frozen=True)
class _Picture:
    taper: Taper
    units: Units

    def picture(self, name: str) -> str:
        sheet = Sheet()
        top = sheet.paragraph(f"{TITLE}, front at left", MARGIN, bold=True) + MARGIN
        whole, bottom = self._draw_whole(sheet, top)
        bottom = (
            sheet.paragraph(
                "Both ends, larger: mark 1 in front, mark 2 at the back", bottom + MARGIN, bold=True
            )
            + MARGIN
        )
        bottom = self._draw_ends(sheet, bottom)
        for line in self._told():
            bottom = sheet.paragraph(line, bottom)
        title = f"{name}: {TITLE}" if name else TITLE
        words = "; ".join(self._told())
        return sheet.picture(title, f"{TITLE}: {words}.", bottom + MARGIN, whole.scale)

    def _told(self) -> list[str]:
        angle = f"angle {degrees_text(self.taper.angle)}: {self._size(self.taper.rise)} over "
        return [f"{angle}{self._size(self.taper.run)}", *taper_told(self.taper, self.units)]

    def _size(self, length: Length) -> str:
        return figure(length, self.units)

    @property
    def _side(self) -> Outline:
        t, foot = self.taper, Fraction(0)
        return [(foot, foot), (t.run, foot), (t.run, t.low), (foot, t.high)]

    @property
    def _waste(self) -> Outline:
        t = self.taper
        return [(Fraction(0), t.high), (t.run, t.low), (t.run, t.high)]

    def _draw(self, sheet: Sheet, view: View) -> None:
        view.draw(sheet, self._waste, WASTE, {"part": "waste"})
        view.draw(sheet, self._side, SIDE, {"part": "rim side"})

    def _draw_whole(self, sheet: Sheet, top: float) -> tuple[View, float]:
        t = self.taper
        scale = (WIDTH - 2 * MARGIN) / float(t.run + 2 * AIR)
        view = View(MARGIN, top, scale, (-AIR, t.run + AIR), (-AIR, t.high + AIR))
        with sheet.view("whole", scale):
            self._draw(sheet, view)
            start, end = view.points([mark[:2] for mark in t.marks])
            sheet.line(start, end, CUT, {"part": "cut"})
            ends = view.x(0), view.x(t.run)
            run = Dim("roof.rim_side_length", t.run, (f"length {self._size(t.run)}",), *ends)
            rows = packed([run], MARGIN, WIDTH - MARGIN)
            draw_dims(sheet, "bottom", view.bottom, rows)
        return view, view.bottom + depth(rows)

    def _draw_ends(self, sheet: Sheet, top: float) -> float:
        """Draw the enlarged ends side by side; where they end comes back."""
        t, beside = self.taper, MARGIN + depth([[(self._height("front", 0, 0), 0.0)]])
        scale = min(LARGEST, HIGHEST / float(t.high))
        shown = min(t.run / 2, Fraction((WIDTH - BETWEEN) / 2 - beside) / Fraction(scale))
        up = -AIR, t.high + AIR
        front = View(beside, top, scale, (-AIR, shown - AIR), up)
        left = WIDTH - beside - float(shown) * scale
        back = View(left, top, scale, (t.run - shown + AIR, t.run + AIR), up)
        with sheet.view("front", scale):
            low = self._draw_end(sheet, front, "front")
        with sheet.view("back", scale):
            return max(low, self._draw_end(sheet, back, "back")) + MARGIN

    def _draw_end(self, sheet: Sheet, view: View, end: End) -> float:
        """Draw one end with its height and its mark; where it ends comes back."""
        mark = self.taper.marks[0 if end == "front" else 1]
        self._draw(sheet, view)
        place = view.x(mark.along), view.y(mark.up)
        sheet.circle(place, 4.0, CUT)
        dim = self._height(end, view.y(mark.up), view.y(0))
        rows = packed([dim], view.top, view.bottom + MARGIN)
        edge = {"left": view.left, "right": view.right}[SIDES[end]]
        draw_dims(sheet, SIDES[end], edge, rows)
        return max(view.bottom, *(c + d.text_width / 2 for row in rows for d, c in row))

    def _height(self, end: End, low: float, high: float) -> Dim:
        name, exact = {
            "front": ("stud_width", self.taper.high),
            "back": ("rim_low_height", self.taper.low),
        }[end]
        return Dim(name, exact, (f"{end} {self._size(exact)}",), low, high)
