"""A box or a frame out of shape, seen from above, with what is off drawn larger than it is."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from hivecalc.drawing.canvas import (
    CHANGED,
    CHANGED_LINE,
    HIDDEN,
    MARGIN,
    OUTLINE,
    WIDTH,
    WOOD,
    Canvas,
    Pen,
    figure,
)
from hivecalc.drawing.layout import Point
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
        canvas = Canvas()
        canvas.paragraph("From above, the front at the left", MARGIN, bold=True)
        square, leaning = self.corners(0), self.corners(self.shown_lean)
        canvas.polygon(square, HIDDEN if self.lean else OUTLINE, WOOD)
        if self.lean:
            canvas.polygon(leaning, CHANGED_LINE)
        self._draw_diagonals(canvas, leaning)
        bottom = max(y for _, y in [*square, *leaning])
        canvas.text(f"front: {figure(self.width, self.units)}", (MARGIN, square[0][1] - 26))
        canvas.text("back", (WIDTH - MARGIN, square[0][1] - 26), "end")
        bottom = canvas.paragraph(self._told(), bottom + MARGIN)
        what = f"{name}: " if name else ""
        return canvas.picture(f"{what}A box from above", self._told(), bottom + MARGIN, self.scale)

    def _draw_diagonals(self, canvas: Canvas, corners: list[Point]) -> None:
        front_left, back_left, back_right, front_right = corners
        long_first = self.lean >= 0
        for start, end, long in (
            (front_left, back_right, long_first),
            (front_right, back_left, not long_first),
        ):
            canvas.line(start, end, Pen(CHANGED, 1.6) if self.lean and long else HIDDEN)

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


def frame_from_above(
    lengths: Sequence[Length],
    widths: Sequence[Length],
    lean: Length,
    *,
    units: Units = "inch",
    name: str = "",
) -> str:
    """SVG picture of a frame from above: taper, bow and lean as measured, drawn larger.

    >>> lengths, widths = [Fraction(23)] * 2, [Fraction(17), Fraction(18), Fraction(17)]
    >>> "its bow" in frame_from_above(lengths, widths, Fraction(0))
    True

    The front is at the left. Lengths of the left and the right side; widths in front, in the middle
    and at the back; how far the back has moved to the right. In inches.
    """
    return _Crooked(lengths, widths, lean, units).picture(name)


@dataclass(frozen=True)
class _Crooked:
    lengths: Sequence[Length]
    widths: Sequence[Length]
    lean: Length
    units: Units

    @property
    def scale(self) -> float:
        return LARGEST / float(max(*self.lengths, *self.widths))

    @property
    def off(self) -> tuple[Length, ...]:
        """By how much the frame misses a rectangle: widths, lengths, lean."""
        front, *others = self.widths
        return (*(w - front for w in others), self.lengths[1] - self.lengths[0], self.lean)

    @property
    def times(self) -> int:
        """How many times larger than it is everything that is off is drawn."""
        most = max(abs(o) for o in self.off)
        far = SHOWN_LEAN * float(min(*self.lengths, *self.widths))
        return max(1, round(far / float(most))) if most else 1

    def outline(self, times: int) -> list[Point]:
        """Front left, middle and back left, back right, middle and front right, on the sheet."""
        half = [float(self.widths[0] + (w - self.widths[0]) * times) / 2 for w in self.widths]
        left = float(self.lengths[0])
        right = left + float(self.lengths[1] - self.lengths[0]) * times
        lean, middle = float(self.lean) * times, float(self.widths[0]) / 2
        corners = [
            (0.0, middle - half[0]),
            (left / 2, middle - half[1] + lean / 2),
            (left, middle - half[2] + lean),
            (right, middle + half[2] + lean),
            (right / 2, middle + half[1] + lean / 2),
            (0.0, middle + half[0]),
        ]
        x0, y0 = (WIDTH - left * self.scale) / 2, 3 * MARGIN + 48 + LARGEST * SHOWN_LEAN
        return [(x0 + x * self.scale, y0 + y * self.scale) for x, y in corners]

    def picture(self, name: str) -> str:
        canvas = Canvas()
        canvas.paragraph("The frame from above", MARGIN, bold=True)
        plain, crooked = self.outline(0), self.outline(self.times)
        canvas.polygon(plain, HIDDEN if any(self.off) else OUTLINE, WOOD)
        if any(self.off):
            canvas.polygon(crooked, CHANGED_LINE)
        self._draw_widths(canvas, min(y for _, y in [*plain, *crooked]) - 10, plain)
        bottom = max(y for _, y in [*plain, *crooked])
        bottom = canvas.paragraph(self._told(), bottom + MARGIN)
        whose = f"{name}: " if name else ""
        title = f"{whose}A frame from above"
        return canvas.picture(title, self._told(), bottom + MARGIN, self.scale)

    def _draw_widths(self, canvas: Canvas, above: float, plain: list[Point]) -> None:
        """Write the three widths over the places where they were measured."""
        anchors = ("start", "middle", "end")
        for (x, _), width, anchor in zip(plain, self.widths, anchors, strict=False):
            canvas.text(figure(width, self.units), (x, above), anchor)
        middle = (plain[0][1] + plain[5][1]) / 2
        canvas.text("front", (plain[0][0] + MARGIN, middle))
        canvas.text("back", (plain[2][0] - 2 * MARGIN, middle), "end")

    def _told(self) -> str:
        if not any(self.off):
            return "All widths and lengths agree, and it does not lean."
        drawn = f"drawn {self.times} times as large" if self.times > 1 else "true to scale"
        return (
            f"Full line: the frame as measured, with its taper, its bow and its lean {drawn}. "
            "Dashed: as wide as in front, and square."
        )
