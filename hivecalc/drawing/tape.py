"""A stretch of tape with a reading on it, in sixteenths or mm, and a step of a sum on it."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, lcm
from typing import Final

from hivecalc.drawing.canvas import (
    BOLD,
    CHANGED,
    INK,
    LENGTHWAYS,
    MARGIN,
    METAL,
    NO_LINE,
    OUTLINE,
    PAPER,
    PENCIL,
    STRESSED,
    WIDTH,
    WOOD,
    Canvas,
    Finish,
    Pen,
    corners,
    figure,
)
from hivecalc.drawing.labels import SHEET, draw_measures
from hivecalc.drawing.layout import LETTER, LINE, Point, spread, text_width
from hivecalc.drawing.svg import Data, Picture
from hivecalc.length import MM, SIGN_OF, SIXTY_FOURTH, Length, Units, mixed

UNIT: dict[Units, Length] = {"inch": Fraction(1), "mm": MM}
# From one mark to the next, and from one number to the next, in the tape's own units.
MARKS: dict[Units, tuple[Fraction, ...]] = {
    "inch": (*(Fraction(1, n) for n in (16, 8, 4, 2)), *map(Fraction, (1, 5, 10, 50))),
    "mm": tuple(map(Fraction, (1, 5, 10, 50, 100, 500, 1000))),
}
NUMBERS: dict[Units, tuple[int, ...]] = {
    "inch": (1, 2, 5, 10, 20, 50),
    "mm": (10, 20, 50, 100, 200, 500, 1000),
}
HEIGHTS = (0.16, 0.26, 0.36, 0.46, 0.54)  # of marks, the finest first: shares of the tape's
CLOSEST = 3.0  # from mark to mark
LARGEST = 80.0  # units of the sheet for an inch: a sixteenth is then 5
TAPE = Finish(OUTLINE, "#fff8d6")
TEETH = 6  # of a torn edge


@dataclass(frozen=True)
class Stretch:
    """A stretch of tape between two places on a sheet: where it begins, in inches, and its scale.

    The scale is in units of the sheet for an inch.
    """

    units: Units
    left: float
    right: float
    low: Length
    scale: float = LARGEST

    def x(self, place: Length) -> float:
        """Where on the sheet a place along the tape stands."""
        return self.left + float(place - self.low) * self.scale

    def within(self, low: Length, high: Length) -> Point:
        """As much of an interval along the tape as the stretch shows, on the sheet."""
        return max(self.x(low), self.left), min(self.x(high), self.right)

    def draw(self, canvas: Canvas, rows: Point, torn: tuple[bool, bool] = (False, False)) -> None:
        """Draw as many of its marks and numbers as can be told apart between two rows."""
        (top, edge), unit, left, right = rows, UNIT[self.units], self.left, self.right
        canvas.polygon(_band(left, right, rows, torn), TAPE)
        size, across = self.scale * float(unit), right - left
        steps = [step for step in MARKS[self.units] if float(step) * size >= CLOSEST]
        # from one number to the next, so that neighbours keep clear
        highest = int((float(self.low) * self.scale + across) / size)
        room, numbers = text_width(str(highest), bold=True) + 4, NUMBERS[self.units]
        numbered = next((n for n in numbers if n * size >= room), numbers[-1])
        over, first = edge - HEIGHTS[-1] * (edge - top) - 4, ceil(self.low / (steps[0] * unit))
        for n in range(first, first + int(across / (float(steps[0]) * size)) + 1):
            position = n * steps[0]
            x, rank = self.x(position * unit), sum(position % step == 0 for step in steps[:5])
            if not left + 3 * torn[0] <= x <= right - 3:
                continue
            number = position % numbered == 0
            pen, data = Pen(INK, 1.1 if number else 0.7), {"mark": position} if number else {}
            canvas.line((x, edge), (x, edge - HEIGHTS[rank - 1] * (edge - top)), pen, data)
            half = text_width(str(position), bold=True) / 2
            if number and left + 3 < x - half and x + half < right - 3:
                canvas.text(str(position), (x, over), "middle", BOLD)


def _band(left: float, right: float, rows: Point, torn: tuple[bool, bool]) -> list[Point]:
    """The outline of a band across the sheet, each of its ends straight or torn."""
    (top, bottom), edges = rows, []
    for x, ragged in zip((left, right), torn, strict=True):
        step = (bottom - top) / TEETH
        teeth = [(x + (2.5 if i % 2 else -2.5), top + i * step) for i in range(1, TEETH)]
        edges.append([(x, top), *(teeth if ragged else ()), (x, bottom)])
    return edges[0] + edges[1][::-1]


# ── readings ──────────────────────────────────────────────────────────────────────────────────

LONGEST = Fraction(1200)
"""Longest reading that is drawn: a tape of 100 ft."""

TOP, EDGE, BOARD_BOTTOM = 46.0, 108.0, 138.0  # the tape's marks stand on its lower edge, the board
CAPTION = BOARD_BOTTOM + 12
ARROW = TOP - 2, EDGE - HEIGHTS[-1] * (EDGE - TOP), BOARD_BOTTOM + 6
NEAR_WIDE, FAR_WIDE, TORN = 146, 172, 22  # two stretches of one tape, and the tear between them
SCALE = {"inch": LARGEST, "mm": float(4 / MM)}
BURNT: dict[Units, int] = {"inch": 1, "mm": 100}
"""Where people start who don't trust the tape's end, in its own units."""


def tape(reading: Length, units: Units = "inch") -> Picture:
    """SVG picture of a tape at the end of a board, with an arrow at the reading and its value.

    The reading is in inches, on a mark or between two. Raises ValueError where it is below zero or
    above 1200 in.
    """
    text = figure(reading, units)
    words = f"The tape reads {text}: {_counted(reading, units)}."
    data = {"name": "reading", "exact": reading}
    return _pointed(reading, units, (text, data), (f"A tape that reads {text}", words, words))


def tape_to_read(reading: Length, units: Units = "inch") -> Picture:
    """SVG picture of a tape for somebody to read: the arrow, but not its value.

    The description, which stands for the picture to a screen reader, counts the marks as eyes do.
    The reading is in inches. Raises ValueError where it is below zero or above 1200 in.
    """
    asked = "What does the tape read?"
    words = f"{asked} The arrow is {_counted(reading, units)}."
    return _pointed(reading, units, ("?", {}), ("A tape to read", asked, words))


def burnt_inch_tape(length: Length, units: Units = "inch") -> Picture:
    """SVG picture of a board measured from the 1 in mark, or from 100 mm, and not from the end.

    The length is the board's own, in inches. Raises ValueError where the reading would be below
    zero or above 1200 in.
    """
    start, begin = f"{BURNT[units]} {SIGN_OF[units]}", BURNT[units] * UNIT[units]
    reading = length + begin
    words = (
        f"The board begins at the {start} mark. The tape reads {figure(reading, units)}. Take off "
        f"the {start} that you began with: the board is {figure(length, units)} long."
    )
    title = f"A board measured from the {start} mark"
    return _measured(begin, reading, units, (title, words))


def hooked_tape(length: Length, units: Units = "inch") -> Picture:
    """SVG picture of a board measured with the tape's hook over its end.

    The length is in inches. Raises ValueError where it is below zero or above 1200 in.
    """
    words = (
        f"The hook is over the board's end and the tape reads {figure(length, units)}. The hook "
        "slides by just its own thickness: pull it over an end, push it against a wall, and both "
        "readings are right."
    )
    title = "A board measured from the tape's hook"
    return _measured(Fraction(0), length, units, (title, words))


def _checked(reading: Length, units: Units) -> float:
    """The scale of a tape that is long enough for this reading."""
    if not 0 <= reading <= LONGEST:
        raise ValueError(f"a tape of {figure(LONGEST, units)} can't read {figure(reading, units)}.")
    return SCALE[units]


def _pointed(
    reading: Length, units: Units, arrow: tuple[str, Data], texts: tuple[str, str, str]
) -> Picture:
    """A tape over the end of a board, with an arrow; its title, sentence and description."""
    scale, apart = _checked(reading, units), NUMBERS[units][0] * UNIT[units]
    wide = int((WIDTH - 2 * MARGIN - 4) / (2 * scale * float(apart)))
    low = max(Fraction(0), (reading // apart - wide) * apart)
    stretch = Stretch(units, MARGIN + 2, WIDTH - MARGIN - 2, low, scale)
    canvas, (title, text, words) = Canvas(), texts
    with canvas.view("tape", scale):
        _draw_measured(canvas, [stretch], Fraction(0), reading)
        draw_arrow(canvas, stretch.x(reading), ARROW, arrow)
    return canvas.picture(title, words, canvas.paragraph(text, CAPTION) + MARGIN)


def _measured(start: Length, end: Length, units: Units, texts: tuple[str, str]) -> Picture:
    """A board that begins at one place of the tape and ends at another."""
    scale, (title, words), canvas = _checked(end, units), texts, Canvas()
    stretches = _stretches(start, end, units)
    with canvas.view("tape", scale):
        _draw_measured(canvas, stretches, start, end)
    left, right = stretches[0].x(start), stretches[-1].x(end)
    if not start:  # the tape's hook hangs over the end of the board
        hook = [(left, EDGE - 9), (left, EDGE + 17), (left - 4, EDGE + 17), (left - 4, EDGE - 5)]
        canvas.polygon(hook, Finish(OUTLINE, METAL))
    draw_arrow(canvas, right, ARROW, (figure(end, units), {"name": "reading", "exact": end}))
    level, foot = BOARD_BOTTOM + 27, BOARD_BOTTOM + 2
    draw_measures(canvas, ([(left, level), (right, level)], [(left, foot), (right, foot)], {}))
    text = f"board {figure(end - start, units)}"
    centre = spread([(left + right) / 2], [text_width(text)], *SHEET)[0]
    canvas.text(text, (centre, level - 5), "middle")
    return canvas.picture(title, words, canvas.paragraph(words, CAPTION + 28) + MARGIN)


def _stretches(start: Length, end: Length, units: Units) -> list[Stretch]:
    """The tape at both ends of a board: in one piece where it is short, else torn between."""
    scale, apart = SCALE[units], NUMBERS[units][0] * UNIT[units]
    left, right = MARGIN + 2, WIDTH - MARGIN - 2
    low = max(Fraction(0), start - apart * 5 / 4)
    whole = Stretch(units, left, right, low, scale)
    if whole.x(end) <= right - 3:
        return [whole]
    far = (end // apart - Fraction(1, 2)) * apart
    torn = left + NEAR_WIDE + TORN
    return [
        Stretch(units, left, left + NEAR_WIDE, low, scale),
        Stretch(units, torn, torn + FAR_WIDE, far, scale),
    ]


def _draw_measured(
    canvas: Canvas, stretches: Sequence[Stretch], start: Length, end: Length
) -> None:
    """Draw a board, and the tape over it, whose marks stand on its edge."""
    for stretch in stretches:
        left, right = stretch.within(start, end)
        goes_on = stretch.x(start) < left, right < stretch.x(end)
        canvas.polygon(_band(left, right, (EDGE, BOARD_BOTTOM), goes_on), LENGTHWAYS)
    for stretch in stretches:
        stretch.draw(canvas, (TOP, EDGE), (stretch.low > 0, True))


def _counted(reading: Length, units: Units) -> str:
    """Where a reading is, in marks past a number: what eyes count on the tape."""
    position, step, name = reading / UNIT[units], MARKS[units][0], SIGN_OF[units]
    number = position // NUMBERS[units][0] * NUMBERS[units][0]
    marks, beyond = divmod(position - number, step)
    where = f"of {step} {name} past {number} {name}"
    if beyond:
        return f"between mark {marks} and mark {marks + 1} {where}"
    if not marks:
        return f"on the {number} {name} mark"
    return f"{marks} mark{'s' if marks > 1 else ''} {where}"


def draw_arrow(
    canvas: Canvas,
    x: float,
    levels: tuple[float, float, float],
    texts: tuple[str, Data],
    between: tuple[float, float] = SHEET,
) -> None:
    """Draw an arrow at a place of a tape, with a text above it that keeps between two places.

    Its levels are those of its point, and of the line below that.
    """
    (point, top, bottom), (text, data) = levels, texts
    canvas.line((x, top), (x, bottom), Pen(CHANGED, 1.8), data)
    head = [(x - 5, point - 10), (x + 5, point - 10), (x, point)]
    canvas.polygon(head, Finish(NO_LINE, CHANGED))
    centre = spread([x], [text_width(text, bold=True)], *between)[0]
    canvas.text(text, (centre, point - 15), "middle", STRESSED)


# ── a step of a sum ───────────────────────────────────────────────────────────────────────────

HIGH: Final = 22.0
TICK: Final = 7.0
PARTS_CLOSEST: Final = 5.0  # from mark to mark


@dataclass(frozen=True)
class Laid:
    """One length laid off over the tape, in inches: dashed where it comes off."""

    low: Fraction
    high: Fraction
    word: str = ""
    off: bool = False


def step_on_tape(operation: str, first: Fraction, second: Fraction) -> str:
    """SVG picture of one step of a sum: only parts of an inch where the whole inches are no matter.

    The times stand first in a product; `÷` is half of the first. The result is never shown.
    """
    if operation == "×":
        often, read = int(first), mixed(second, SIXTY_FOURTH)
        laid = [Laid(n * second, (n + 1) * second, read) for n in range(often)]
        text = f"{read} laid off {often} times: the inches as often, and the fraction as often."
        return _drawn(f"{often} × {read}", text, laid, second.denominator)
    if operation == "÷":
        read, bottom = mixed(first, SIXTY_FOURTH), 2 * first.denominator
        laid = [Laid(Fraction(0), first / 2), Laid(first / 2, first)]
        text = (
            f"{read} in two equal parts. Each mark is 1/{bottom}: half parts have twice the bottom."
        )
        return _drawn(f"half of {read}", text, laid, bottom)
    return _summed(operation, first, second)


def _summed(operation: str, first: Fraction, second: Fraction) -> str:
    one, other = first % 1, second % 1
    bottom = lcm(one.denominator, other.denominator)
    if operation == "+":
        laid = [Laid(Fraction(0), one, _part(one, bottom))]
        laid.append(Laid(one, one + other, _part(other, bottom)))
        text = "The two fractions end to end. Do they reach the inch, or pass it?"
    else:
        start = one + 1 if one < other else one
        laid = [Laid(Fraction(0), start, _part(start, bottom))]
        laid.append(Laid(start - other, start, _part(other, bottom), off=True))
        text = f"There is enough to take {_part(other, bottom)} from."
        if one < other:
            text = (
                f"{_part(one, bottom)} is too little, so one inch is taken apart: "
                f"{_part(start, bottom)}. Take {_part(other, bottom)} from that. "
                "One whole inch less is left."
            )
    read, taken = (mixed(size, SIXTY_FOURTH) for size in (first, second))
    return _drawn(f"{read} {operation} {taken}", text, laid, bottom)


def _part(size: Fraction, bottom: int) -> str:
    return f"{int(size * bottom)}/{bottom}" if bottom > 1 else str(size)


def _drawn(title: str, text: str, laid: Sequence[Laid], bottom: int) -> str:
    canvas = Canvas()
    top = canvas.paragraph(title, MARGIN, bold=True) + 4
    inches = max(1, ceil(max(one.high for one in laid)))
    scale = (WIDTH - 2 * MARGIN) / inches
    with canvas.view("tape", scale):
        for one in laid:
            left, right = (MARGIN + float(place) * scale for place in (one.low, one.high))
            inset = HIGH * 0.2 if one.off else 0.0
            outline = corners(left, top + inset, right, top + HIGH - inset)
            pen = Pen(CHANGED, 1.6, "4 3") if one.off else Pen(INK, 1.1)
            canvas.polygon(outline, Finish(pen, PAPER if one.off else WOOD))
            if one.word and text_width(one.word) < right - left - 4 and not one.off:
                canvas.text(one.word, (left + 4, top + HIGH - 6))
        _marks(canvas, top + HIGH, inches, bottom, scale)
    end = canvas.paragraph(text, top + HIGH + TICK * 2 + LINE + 4)
    words = "; ".join(f"{one.word}{' taken off' if one.off else ''}" for one in laid if one.word)
    return canvas.picture(title, f"{words}. {text}", end + MARGIN)


def _marks(canvas: Canvas, level: float, inches: int, bottom: int, scale: float) -> None:
    """The marks of the tape, each part of an inch where there is room, and the whole inches."""
    canvas.line((MARGIN, level), (WIDTH - MARGIN, level), Pen(INK, 1.1))
    parts = bottom if scale / bottom >= PARTS_CLOSEST else 1
    for n in range(inches * parts + 1):
        x, whole = MARGIN + n * scale / parts, n % parts == 0
        pen = Pen(INK, 1.6) if whole else Pen(PENCIL, 0.8)
        canvas.line((x, level), (x, level + TICK * (2 if whole else 1)), pen)
    every = max(1, ceil(text_width(f"{inches} in") * 1.3 / scale))
    for n in range(0, inches + 1, every):
        width = text_width(f"{n} in") / 2
        x = min(max(MARGIN + n * scale, MARGIN + width), WIDTH - MARGIN - width)
        canvas.text(f"{n} in", (x, level + 2 * TICK + LETTER), "middle")
