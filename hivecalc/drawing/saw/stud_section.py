"""The cross-section of a stud with the cuts through it: strips, kerfs, and what is left."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from hivecalc.drawing.dimensions import Dim, Row, depth, draw_dims, packed
from hivecalc.drawing.labels import Label, draw_labels
from hivecalc.drawing.layout import LINE
from hivecalc.drawing.svg import HIDDEN, MARGIN, OUTLINE, PAPER, WIDTH, WOOD, Pen, Sheet, figure
from hivecalc.drawing.view import Look, View
from hivecalc.length import Length, Units
from hivecalc.workshop.rips import CrossSection, Rectangle, section_told
from hivecalc.workshop.yard import Yard

TITLE = "Cross-section of a stud, cut into strips"
CROSSED_OUT = "Crossed out: a rest that is too narrow to be cut any further."
LARGEST = 64.0  # units of the sheet for an inch
LABEL_ROOM = LINE + 24.0  # for a row of labels and their leaders
AIR = Fraction(1, 1000)
LOOKS = {
    "strip": Look(OUTLINE, WOOD, "strip"),
    "kerf": Look(HIDDEN, PAPER),
    "rest": Look(Pen(OUTLINE.colour, 0.8), PAPER, "grain"),
    "narrow rest": Look(Pen(OUTLINE.colour, 0.8), PAPER, "wrong"),
}


def stud_section(section: CrossSection, *, units: Units = "inch", name: str = "") -> str:
    """SVG picture of a stud's cross-section with its strips, kerfs and rests, true to scale.

    >>> from hivecalc.workshop.rips import cross_section
    >>> stud = cross_section(*map(Fraction, ("1.5", "3.5", "0.5", "0.75", "0.125")))
    >>> picture = stud_section(stud)
    >>> picture.count('data-part="strip"'), "kerf 1/8 in" in picture
    (5, True)

    The stud lies as it does for the first rip, its `first` side along the sheet. Figures are shown
    in `units`. A rest that is too narrow to be held is crossed out, and it is said so.
    """
    return _Picture(section, units).picture(name)


@dataclass(frozen=True)
class _Picture:
    section: CrossSection
    units: Units

    def picture(self, name: str) -> str:
        sheet, told = Sheet(), [*self._legend(), *section_told(self.section, self.units)]
        top = sheet.paragraph(TITLE, MARGIN, bold=True) + LABEL_ROOM
        view = self._view(top)
        with sheet.view("section", view.scale):
            for part, place in self._places():
                view.draw(sheet, _outline(self._laid(place)), LOOKS[part], {"part": part})
            rows = packed(self._dims(view), view.left, WIDTH - MARGIN)
            draw_dims(sheet, "bottom", view.bottom, rows)
            draw_dims(sheet, "left", view.left, self._upright(view))
        self._label_rips(sheet, view)
        bottom = view.bottom + depth(rows) + MARGIN
        for sentence in told:
            bottom = sheet.paragraph(sentence, bottom)
        title = f"{name}: {TITLE}" if name else TITLE
        return sheet.picture(title, " ".join(told), bottom + MARGIN, view.scale)

    def _legend(self) -> Iterator[str]:
        if any(part == "narrow rest" for part, _ in self._places()):
            yield CROSSED_OUT

    @property
    def _sides(self) -> tuple[Length, Length]:
        """The side that lies along the sheet, and the one that stands up on it."""
        sides = self.section.width, self.section.thickness
        return sides if self.section.first == "width" else sides[::-1]

    def _laid(self, place: Rectangle) -> Rectangle:
        """A place of the section as the stud lies for the first rip."""
        x, y, wide, high = place
        return place if self.section.first == "width" else Rectangle(y, x, high, wide)

    def _view(self, top: float) -> View:
        along, up = self._sides
        left = MARGIN + depth([[(self._dim("", up, 0, 0), 0.0)]]) + 2 * LINE
        scale = min(LARGEST, (WIDTH - 2 * MARGIN - left) / float(along))
        return View(left, top, scale, (-AIR, along + AIR), (-AIR, up + AIR))

    def _places(self) -> Iterator[tuple[str, Rectangle]]:
        yield from (("kerf", place) for place in self.section.kerfs)
        for rest in self.section.rests:
            narrow = min(rest.wide, rest.high) < Yard.least_fence
            yield ("narrow rest" if narrow else "rest"), rest
        yield from (("strip", place) for place in self.section.strips)

    def _dim(self, word: str, exact: Length, low: float, high: float) -> Dim:
        name = word or "stud"
        return Dim(name, exact, (f"{name} {figure(exact, self.units)}",), low, high)

    def _dims(self, view: View) -> Iterator[Dim]:
        """The first strip of each width along the sheet, the first kerf, the rest, the stud."""
        shown: set[tuple[str, Length]] = set()
        for part, place in self._places():
            x, _, wide, high = self._laid(place)
            word = part.removeprefix("narrow ")
            if (word, wide) not in shown and (word == "strip" or high == self._sides[1]):
                shown.add((word, wide))
                yield self._dim(word, wide, view.x(x), view.x(x + wide))
        along, _ = self._sides
        yield self._dim("", along, view.x(0), view.x(along))

    def _upright(self, view: View) -> Sequence[Row]:
        _, up = self._sides
        _, y, _, high = self._laid(self.section.strips[0]) if self.section.strips else (0, 0, 0, up)
        strip = self._dim("strip", high, view.y(y + high), view.y(y))
        whole = self._dim("", up, view.y(up), view.y(0))
        dims = [whole] if high == up else [strip, whole]
        return packed(dims, view.top - LABEL_ROOM / 2, float("inf"))

    def _label_rips(self, sheet: Sheet, view: View) -> None:
        """Label the first rip and the last one through the stud."""
        through = [
            self._laid(k) for k in self.section.kerfs if self._laid(k).high == self._sides[1]
        ]
        words = ["only rip"] if len(through) == 1 else ["first rip", "last rip"]
        ends = through[:1] if len(through) == 1 else [through[0], through[-1]] if through else []
        labels = [
            Label((word,), (view.x(kerf.x + kerf.wide / 2), view.top))
            for word, kerf in zip(words, ends, strict=False)
        ]
        if labels:
            draw_labels(sheet, "top", view.top - 20, labels, (view.left, WIDTH - MARGIN))


def _outline(place: Rectangle) -> list[tuple[Length, Length]]:
    x, y, wide, high = place
    return [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]
