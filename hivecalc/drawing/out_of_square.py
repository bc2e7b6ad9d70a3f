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
    Finish,
    Pen,
    Picture,
    figure,
)
from hivecalc.drawing.layout import Point
from hivecalc.length import Length, Units

LARGEST = 250.0  # of either side of the box on the sheet
SHOWN = 0.14  # of the shorter side: how far what is off is drawn off on the sheet


def out_of_square(
    length: Length, width: Length, lean: Length, *, units: Units = "inch", name: str = ""
) -> Picture:
    """SVG picture of a box from above whose back has moved sideways by `lean`, drawn larger.

    The front is at the left, and a lean above 0 is towards the box's right side, which lies below.
    All three are in inches.
    """
    box = _Crooked((length, length), (width,) * 3, lean)
    told = _box_told(box, units)
    canvas = Canvas()
    canvas.paragraph("From above, the front at the left", MARGIN, bold=True)
    corners = [box.outline(times)[i] for times in (0, box.times) for i in (0, 2, 3, 5)]
    square, (front_left, back_left, back_right, front_right) = corners[:4], corners[4:]
    bottom = box.draw(canvas, square, corners[4:])
    for ends, long in (((front_left, back_right), lean >= 0), ((front_right, back_left), lean < 0)):
        canvas.line(*ends, Pen(CHANGED, 1.6) if lean and long else HIDDEN)
    canvas.text(f"front: {figure(width, units)}", (MARGIN, square[0][1] - 26))
    canvas.text("back", (WIDTH - MARGIN, square[0][1] - 26), "end")
    return _finished(canvas, "A box from above", name, told, bottom, box.scale)


def _box_told(box: "_Crooked", units: Units) -> str:
    if not box.lean:
        return "A square box: both diagonals are the same."
    side, other = ("right", "left") if box.lean > 0 else ("left", "right")
    lean = figure(Fraction(round(abs(box.lean) * 32), 32), units)
    drawn = f"drawn {box.times} times as far" if box.times > 1 else "true to scale"
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
) -> Picture:
    """SVG picture of a frame from above: taper, bow and lean as measured, drawn larger.

    The front is at the left. Lengths of the left and the right side; widths in front, in the middle
    and at the back; how far the back has moved to the right. In inches.
    """
    frame = _Crooked(lengths, widths, lean)
    told = _frame_told(frame)
    canvas = Canvas()
    canvas.paragraph("The frame from above", MARGIN, bold=True)
    plain, crooked = frame.outline(0), frame.outline(frame.times)
    bottom = frame.draw(canvas, plain, crooked)
    above = min(y for _, y in [*plain, *crooked]) - 10
    for (x, _), width, anchor in zip(plain, widths, ("start", "middle", "end"), strict=False):
        canvas.text(figure(width, units), (x, above), anchor)
    middle = (plain[0][1] + plain[5][1]) / 2
    canvas.text("front", (plain[0][0] + MARGIN, middle))
    canvas.text("back", (plain[2][0] - 2 * MARGIN, middle), "end")
    return _finished(canvas, "A frame from above", name, told, bottom, frame.scale)


def _frame_told(frame: "_Crooked") -> str:
    if not any(frame.off):
        return "All widths and lengths agree, and it does not lean."
    drawn = f"drawn {frame.times} times as large" if frame.times > 1 else "true to scale"
    return (
        f"Full line: the frame as measured, with its taper, its bow and its lean {drawn}. "
        "Dashed: as wide as in front, and square."
    )


def _finished(  # noqa: PLR0913, PLR0917 - what ends either picture
    canvas: Canvas, title: str, name: str, told: str, bottom: float, scale: float
) -> Picture:
    bottom = canvas.paragraph(told, bottom + MARGIN)
    return canvas.picture(f"{name}: {title}" if name else title, told, bottom + MARGIN, scale)


@dataclass(frozen=True)
class _Crooked:
    """A frame by its lengths at the left and right, its widths from front to back, its lean."""

    lengths: Sequence[Length]
    widths: Sequence[Length]
    lean: Length

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
        far = SHOWN * float(min(*self.lengths, *self.widths))
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
        above = max(LARGEST * SHOWN, -float(self.lean) * self.times * self.scale)
        x0, y0 = (WIDTH - left * self.scale) / 2, 3 * MARGIN + 48 + above
        return [(x0 + x * self.scale, y0 + y * self.scale) for x, y in corners]

    def draw(self, canvas: Canvas, plain: Sequence[Point], crooked: Sequence[Point]) -> float:
        """Draw it as it should be, dashed, and as it is; where that ends on the sheet."""
        canvas.polygon(plain, Finish(HIDDEN if any(self.off) else OUTLINE, WOOD))
        if any(self.off):
            canvas.polygon(crooked, Finish(CHANGED_LINE))
        return max(y for _, y in [*plain, *crooked])
