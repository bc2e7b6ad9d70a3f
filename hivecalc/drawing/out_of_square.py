"""A box out of square, seen from above, with its lean drawn larger than it is."""

from dataclasses import dataclass
from fractions import Fraction

from hivecalc.drawing.layout import Point
from hivecalc.drawing.svg import (
    CHANGED,
    CHANGED_LINE,
    HIDDEN,
    MARGIN,
    OUTLINE,
    WIDTH,
    WOOD,
    Pen,
    Sheet,
    figure,
)
from hivecalc.length import Length, Units

LARGEST = 250.0  # of either side of the box on the sheet
SHOWN_LEAN = 0.14  # of the shorter side: how far a leaning box leans on the sheet


def out_of_square(
    length: Length, width: Length, lean: Length, *, units: Units = "inch", name: str = ""
) -> str:
    """SVG picture of a box from above whose back has moved sideways by `lean`, drawn larger.

    >>> "square" in out_of_square(Fraction(23), Fraction(17), Fraction(0))
    True

    The front is at the left, and a lean above 0 is towards the box's right side, which lies below.
    All three are in inches.
    """
    return _Leaning(length, width, lean, units).picture(name)


@dataclass(frozen=True)
class _Leaning:
    length: Length
    width: Length
    lean: Length
    units: Units

    @property
    def scale(self) -> float:
        return LARGEST / float(max(self.length, self.width))

    @property
    def shown_lean(self) -> float:
        """How far the back is moved on the sheet."""
        if not self.lean:
            return 0.0
        far = SHOWN_LEAN * float(min(self.length, self.width)) * self.scale
        true = float(self.lean) * self.scale
        return true if abs(true) > far else far * (1 if self.lean > 0 else -1)

    @property
    def times(self) -> int:
        """How many times larger than it is the lean is drawn."""
        return round(self.shown_lean / (float(self.lean) * self.scale)) if self.lean else 1

    def corners(self, lean: float) -> list[Point]:
        """The corners on the sheet: front left, back left, back right, front right."""
        long, wide = float(self.length) * self.scale, float(self.width) * self.scale
        left, top = (WIDTH - long) / 2, 3 * MARGIN + 48 + max(0.0, -self.shown_lean)
        return [
            (left, top),
            (left + long, top + lean),
            (left + long, top + lean + wide),
            (left, top + wide),
        ]

    def picture(self, name: str) -> str:
        sheet = Sheet()
        sheet.paragraph("From above, the front at the left", MARGIN, bold=True)
        square, leaning = self.corners(0), self.corners(self.shown_lean)
        sheet.polygon(square, HIDDEN if self.lean else OUTLINE, WOOD)
        if self.lean:
            sheet.polygon(leaning, CHANGED_LINE)
        self._draw_diagonals(sheet, leaning)
        bottom = max(y for _, y in [*square, *leaning])
        sheet.text(f"front: {figure(self.width, self.units)}", (MARGIN, square[0][1] - 26))
        sheet.text("back", (WIDTH - MARGIN, square[0][1] - 26), "end")
        bottom = sheet.paragraph(self._told(), bottom + MARGIN)
        what = f"{name}: " if name else ""
        return sheet.picture(f"{what}A box from above", self._told(), bottom + MARGIN, self.scale)

    def _draw_diagonals(self, sheet: Sheet, corners: list[Point]) -> None:
        front_left, back_left, back_right, front_right = corners
        long_first = self.lean >= 0
        for start, end, long in (
            (front_left, back_right, long_first),
            (front_right, back_left, not long_first),
        ):
            sheet.line(start, end, Pen(CHANGED, 1.6) if self.lean and long else HIDDEN)

    def _told(self) -> str:
        if not self.lean:
            return "This box is square: both diagonals are the same."
        side, other = ("right", "left") if self.lean > 0 else ("left", "right")
        lean = figure(Fraction(round(abs(self.lean) * 32), 32), self.units)
        drawn = f"drawn {self.times} times as far" if self.times > 1 else "true to scale"
        return (
            f"The back leans {lean} to the {side}, {drawn}. "
            f"The diagonal from front {other} to back {side}, drawn full, is the longer one; "
            "dashed: square."
        )
