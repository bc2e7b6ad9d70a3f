"""Distances of the stop block, one below the other: what lies between blade and block, to scale."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import count, takewhile
from typing import Final

from hivecalc.drawing.layout import ASCENT, LETTER, LINE, text_width
from hivecalc.drawing.svg import (
    INK,
    MARGIN,
    METAL,
    OUTLINE,
    PENCIL,
    WIDTH,
    WOOD,
    Pen,
    Sheet,
    figure,
)
from hivecalc.drawing.view import Look, View
from hivecalc.length import MM, Length, Units
from hivecalc.saw import Step
from hivecalc.saw.telling import HEADINGS, setting_told, work_told

HIGH: Final = 16.0  # of a piece on the sheet
BEYOND: Final = 5.0  # by which blade and block stand above and below a piece
BLOCK: Final = 10.0  # how long the block is on the sheet
TICK: Final = 5.0
PIECE, IRON = Look(OUTLINE, WOOD, "grain"), Look(Pen(INK, 0.9), METAL, "stud")
BLADE: Final = Pen(PENCIL, 3.0)
RULER: Final = Pen(INK, 0.9)
TOLD: Final = "Thick line: the blade. Hatched: the stop block. The ruler begins at the blade."
MARKS: Final[dict[Units, tuple[Length, ...]]] = {
    "inch": tuple(map(Fraction, (1, 2, 3, 6, 12, 24))),
    "mm": tuple(n * MM for n in (20, 50, 100, 200, 300, 500)),
}
"""How far apart the marks of the ruler may be."""


def stop_distances(
    steps: Sequence[tuple[int, Step]],
    *,
    longest: Length = Fraction(0),
    units: Units = "inch",
    name: str = "",
) -> str:
    """SVG picture of what is cut at each setting of the stop block, to scale above a ruler.

    >>> from hivecalc.saw.steps import Work
    >>> step = Step("crosscut", Fraction(20), (Work("side rail", 2),))
    >>> picture = stop_distances([(3, step)])
    >>> all(text in picture for text in ("3. stop block 20 in from the blade", "2 × side rail"))
    True

    Each step has its number. `longest`, where it is more than any of their settings, is what the
    picture's whole width stands for. Lengths in inches, shown in `units`. Raises ValueError where
    there are no steps.
    """
    if not steps:
        raise ValueError("there is no setting of the stop block to draw")
    most = max(longest, *(step.setting for _, step in steps))
    return _Picture(tuple(steps), most, units).picture(name)


@dataclass(frozen=True)
class _Picture:
    steps: tuple[tuple[int, Step], ...]
    most: Length
    units: Units

    def picture(self, name: str) -> str:
        sheet, title = Sheet(), HEADINGS[self.steps[0][1].kind]
        bottom = sheet.paragraph(TOLD, MARGIN)
        with sheet.view("stops", self._scale):
            bottom = self._draw_ruler(sheet, bottom)
            for number, step in self.steps:
                bottom = self._draw(sheet, number, step, bottom + MARGIN)
        words = (TOLD, *(f"{line}." for n, s in self.steps for line in self._told(n, s)))
        whole = f"{name}: {title}" if name else title
        return sheet.picture(whole, " ".join(words), bottom + MARGIN, self._scale)

    @property
    def _scale(self) -> float:
        return (WIDTH - 2 * MARGIN - BLOCK) / float(self.most)

    def _told(self, number: int, step: Step) -> Iterator[str]:
        yield f"{number}. {setting_told(step, self.units)}"
        yield from work_told(step, self.units)

    def _draw_ruler(self, sheet: Sheet, top: float) -> float:
        """Draw the ruler's marks and their figures; where it ends comes back."""
        foot = top + LINE + TICK
        sheet.line((MARGIN, foot), (MARGIN + float(self.most) * self._scale, foot), RULER)
        for mark in self._marks:
            x = MARGIN + float(mark) * self._scale
            sheet.line((x, foot - TICK), (x, foot), RULER)
            if mark:
                sheet.text(self._figure(mark), (x, top + ASCENT * LETTER), "middle")
        return foot

    @property
    def _marks(self) -> list[Length]:
        """The marks, so far apart that their figures keep clear; none where a figure is cut off."""
        wide = text_width(self._figure(self.most)) + MARGIN
        apart = next((m for m in MARKS[self.units] if float(m) * self._scale > wide), self.most)
        last = self.most - Fraction((wide / 2 - MARGIN - BLOCK) / self._scale)
        return list(takewhile(lambda mark: mark <= last, (n * apart for n in count())))

    def _figure(self, length: Length) -> str:
        return figure(length, self.units)

    def _draw(self, sheet: Sheet, number: int, step: Step, top: float) -> float:
        heading, *works = self._told(number, step)
        top = sheet.paragraph(heading, top, bold=True)
        for work in works:
            top = sheet.paragraph(work, top)
        high = Fraction(HIGH / self._scale)
        view = View(
            MARGIN, top + BEYOND + 2, self._scale, (Fraction(0), self.most), (Fraction(0), high)
        )
        low, end, beyond = Fraction(0), step.setting, Fraction(BEYOND / self._scale)
        data = {"name": "stop block", "exact": step.setting}
        piece = [(low, low), (end, low), (end, high), (low, high)]
        sheet.polygon(view.points(piece), PIECE.pen, PIECE.fill, PIECE.hatch, data)
        after = end + Fraction(BLOCK / self._scale)
        block = [(end, -beyond), (after, -beyond), (after, high + beyond), (end, high + beyond)]
        sheet.polygon(view.points(block), IRON.pen, IRON.fill, IRON.hatch, {"part": "block"})
        sheet.line((MARGIN, view.top - BEYOND), (MARGIN, view.bottom + BEYOND), BLADE)
        return view.bottom + BEYOND
