"""A rip seen from the end of the stock: fence, what stays beside it, the kerf, what falls off."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import hypot

from hivecalc.drawing.dimensions import Dim, depth, draw_dims, packed
from hivecalc.drawing.labels import Label, draw_labels
from hivecalc.drawing.layout import LINE
from hivecalc.drawing.svg import (
    INK,
    MARGIN,
    METAL,
    OUTLINE,
    PAPER,
    PENCIL,
    WIDTH,
    WOOD,
    Pen,
    Sheet,
    figure,
)
from hivecalc.drawing.view import Look, View
from hivecalc.length import Length, Units
from hivecalc.workshop.rips import Rip
from hivecalc.workshop.shapes import Bevel, degrees_text

LARGEST = 48.0  # units of the sheet for an inch
FENCE = Fraction(1, 2)  # inches of the fence that are drawn, and of table beyond the stock
ABOVE = Fraction(1, 4)  # inches by which fence and blade stand above the stock
TABLE = Fraction(1, 4)  # inches of the table's thickness that are drawn
LABEL_ROOM = LINE + 22.0
NOTHING = Fraction(0)
STAYS = Look(OUTLINE, WOOD, "stud")
FALLS = Look(Pen(PENCIL, 0.9, "4 3"), PAPER, "grain")
IRON = Look(Pen(INK, 0.9), METAL)
BLADE = Look(Pen(INK, 0.7), PENCIL)
KEPT_OFF = "The wide part runs between blade and fence. What falls off on the other side is kept."
KEPT_HERE = "What stays between blade and fence is kept: push it with a push block, to the end."
AWAY = (
    "The blade leans away from the fence, so that what falls off is not caught under it. The face "
    "on the table comes out narrower than the face above."
)


def fence_and_kerf(
    rip: Rip, high: Length, kerf: Length, *, units: Units = "inch", name: str = ""
) -> str:
    """SVG picture of a rip from the end: the fence's distance, the kerf and what falls off.

    >>> rip = Rip(Fraction(11, 4), Fraction(7, 2), Fraction(5, 8), keeps=False)
    >>> picture = fence_and_kerf(rip, Fraction(3, 2), Fraction(1, 8))
    >>> all(text in picture for text in ("fence 2 3/4 in", "kerf 1/8 in", "falls off 5/8 in"))
    True

    `high` is how thick the stock is as it lies on the table. Lengths in inches, shown in `units`.
    """
    told = KEPT_OFF if rip.keeps else KEPT_HERE
    cut = _Cut(rip.fence, rip.before, high, kerf)
    return _Picture(cut, units, "Fence and kerf", told).picture(name)


def tilted_blade(
    bevel: Bevel, before: Length, kerf: Length, *, units: Units = "inch", name: str = ""
) -> str:
    """SVG picture of a bevel being ripped, from the end: fence, tilt and what falls off.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.workshop.shapes import landing_bevel
    >>> bevel = landing_bevel(demo_hive())
    >>> "tilted 30°" in tilted_blade(bevel, bevel.upper, Fraction(1, 8))
    True

    `before` is how wide the stock is. Lengths in inches, shown in `units`.
    """
    tilt = f"The blade is tilted {degrees_text(bevel.tilt)}."
    upper = f"The face above stays {figure(bevel.upper, units)} wide."
    cut = _Cut(bevel.fence, before, bevel.thickness, kerf, bevel.slope)
    return _Picture(cut, units, "A tilted blade", f"{tilt} {AWAY} {upper}").picture(name)


@dataclass(frozen=True)
class _Cut:
    """A rip in the plane across the stock: u from the fence, v up from the table."""

    fence: Length
    before: Length
    high: Length
    kerf: Length
    slope: Fraction = NOTHING

    @property
    def across(self) -> Fraction | float:
        """How wide the kerf is along the table."""
        return self.kerf if not self.slope else float(self.kerf) * hypot(1, self.slope)

    @property
    def end(self) -> Fraction | float:
        """Where on the table the kerf ends."""
        return self.fence + self.across

    @property
    def off(self) -> Fraction | float:
        """How wide what falls off is on the table."""
        return max(self.before - self.end, NOTHING)

    def blade(self) -> list[tuple[Fraction | float, Fraction | float]]:
        """The outline of the blade, from within the table to above the stock."""
        low, high = -TABLE, self.high + ABOVE
        foot, head = self.fence + self.slope * low, self.fence + self.slope * high
        wide = self.across
        return [(foot, low), (foot + wide, low), (head + wide, high), (head, high)]

    def stays(self) -> list[tuple[Fraction | float, Fraction | float]]:
        """The outline of what stays beside the fence."""
        top = self.fence + self.slope * self.high
        return [(NOTHING, NOTHING), (self.fence, NOTHING), (top, self.high), (NOTHING, self.high)]

    def falls(self) -> list[tuple[Fraction | float, Fraction | float]]:
        """The outline of what falls off; a wedge where the kerf leaves through its side."""
        top = self.end + self.slope * self.high
        low, high = (self.end, NOTHING), (self.before, self.high)
        if top <= self.before:
            return [low, (self.before, NOTHING), high, (top, self.high)]
        return [low, (self.before, NOTHING), (self.before, self.off / self.slope)]


@dataclass(frozen=True)
class _Picture:
    cut: _Cut
    units: Units
    title: str
    told: str

    def picture(self, name: str) -> str:
        sheet = Sheet()
        top = sheet.paragraph(f"{self.title}, seen from the end", MARGIN, bold=True) + LABEL_ROOM
        view = self._view(top)
        with sheet.view("rip", view.scale):
            self._draw(sheet, view)
            rows = packed(self._dims(view), MARGIN, WIDTH - MARGIN)
            draw_dims(sheet, "bottom", view.bottom, rows)
        draw_labels(sheet, "top", view.top - 18, self._labels(view), (MARGIN, WIDTH - MARGIN))
        bottom = sheet.paragraph(self.told, view.bottom + depth(rows) + MARGIN)
        title = f"{name}: {self.title}" if name else self.title
        return sheet.picture(title, self._words(), bottom + MARGIN, view.scale)

    def _view(self, top: float) -> View:
        cut = self.cut
        wide = cut.before + 2 * FENCE
        scale = min(LARGEST, (WIDTH - 2 * MARGIN) / float(wide))
        left = (WIDTH - float(wide) * scale) / 2
        u, v = (-FENCE, cut.before + FENCE), (-TABLE, cut.high + ABOVE)
        return View(left, top, scale, u, v)

    def _draw(self, sheet: Sheet, view: View) -> None:
        (left, right), (low, high) = view.u, view.v
        table = [(left, low), (right, low), (right, NOTHING), (left, NOTHING)]
        fence = [(left, NOTHING), (NOTHING, NOTHING), (NOTHING, high), (left, high)]
        sheet.polygon(view.points(table), IRON.pen, IRON.fill, data={"part": "table"})
        sheet.polygon(view.points(fence), IRON.pen, IRON.fill, data={"part": "fence"})
        pieces = [("stays", self.cut.stays(), STAYS)]
        pieces += [("falls", self.cut.falls(), FALLS)] if self.cut.off else []
        for part, outline, look in (*pieces, ("blade", self.cut.blade(), BLADE)):
            view.draw(sheet, outline, look, {"part": part})

    def _dims(self, view: View) -> Iterator[Dim]:
        cut = self.cut
        yield self._dim("fence", cut.fence, NOTHING, cut.fence, view)
        if not cut.slope:
            yield self._dim("kerf", cut.kerf, cut.fence, cut.end, view)
            if cut.off:
                yield self._dim("falls off", Fraction(cut.off), cut.end, cut.before, view)
        yield self._dim("stock", cut.before, NOTHING, cut.before, view)

    def _dim(
        self, word: str, exact: Length, low: Fraction | float, high: Fraction | float, view: View
    ) -> Dim:
        return Dim(word, exact, (f"{word} {figure(exact, self.units)}",), view.x(low), view.x(high))

    def _labels(self, view: View) -> list[Label]:
        cut = self.cut
        head = cut.fence + cut.slope * (cut.high + ABOVE)
        places = {"fence": (-FENCE / 2, cut.high), "blade": (head, cut.high + ABOVE)}
        return [Label((word,), (view.x(u), view.y(v))) for word, (u, v) in places.items()]

    def _words(self) -> str:
        cut = self.cut
        sizes = {"fence": cut.fence, "kerf": cut.kerf, "stock": cut.before}
        told = (f"{word} {figure(size, self.units)}" for word, size in sizes.items())
        return f"A rip seen from the end: {', '.join(told)}. {self.told}"
