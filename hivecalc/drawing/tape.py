"""A stretch of tape with a reading on it, in sixteenths or mm, and a step of a sum on it."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, lcm
from typing import Final, Literal, TypeAlias

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
    Data,
    Finish,
    Hand,
    Pen,
    Picture,
    corners,
    figure,
)
from hivecalc.drawing.labels import SHEET, draw_measures
from hivecalc.drawing.layout import LETTER, LINE, Point, spread, text_width
from hivecalc.length import MM, SIXTY_FOURTH, Length, Units, mixed, written

LONGEST = Fraction(1200)
"""Longest reading that is drawn: a tape of 100 ft."""

TOP, EDGE, BOARD_BOTTOM = 46.0, 108.0, 138.0  # the tape's marks stand on its lower edge, the board
CAPTION = BOARD_BOTTOM + 12
TEETH = 6  # of a torn edge
TAPE = Finish(OUTLINE, "#fff8d6")
NEAR_WIDE, FAR_WIDE, TORN = 146, 172, 22  # two stretches of one tape, and the tear between them


@dataclass(frozen=True)
class Scale:
    """The marks of a tape: what it counts in, how marks and numbers follow, how big it is drawn."""

    unit: Fraction  # one unit, in inches
    name: str
    step: Fraction  # from mark to mark, in units
    numbered: int  # from number to number, in units
    size: int  # of one unit, on the sheet
    heights: tuple[tuple[Fraction, float], ...]  # of marks that are whole multiples, longest first
    burnt: int  # where people start who don't trust the tape's end, in units
    before: Fraction  # how much tape is shown before the number below the reading, in units

    def height(self, position: Fraction) -> float:
        """How high the mark at this position is."""
        return next(high for step, high in self.heights if position % step == 0)


INCHES = Scale(
    unit=Fraction(1),
    name="in",
    step=Fraction(1, 16),
    numbered=1,
    size=80,
    heights=tuple((Fraction(1, n), h) for n, h in ((1, 38), (2, 30), (4, 23), (8, 16), (16, 10))),
    burnt=1,
    before=Fraction(1, 2),
)
MILLIMETRES = Scale(
    unit=MM,
    name="mm",
    step=Fraction(1),
    numbered=10,
    size=4,
    heights=((Fraction(10), 38), (Fraction(5), 26), (Fraction(1), 14)),
    burnt=100,
    before=Fraction(16),
)
SCALES: dict[Units, Scale] = {"inch": INCHES, "mm": MILLIMETRES}


@dataclass(frozen=True)
class Stretch:
    """The part of a tape from low to high, in its own units, and where on the sheet it begins."""

    scale: Scale
    low: Fraction
    high: Fraction
    left: float

    @property
    def right(self) -> float:
        """Where on the sheet it ends."""
        return self.x(self.high)

    def x(self, position: Fraction) -> float:
        """Where on the sheet a position stands."""
        return self.left + float(position - self.low) * self.scale.size

    def marks(self) -> Iterator[Fraction]:
        """The positions of the marks on this stretch."""
        step = self.scale.step
        return (n * step for n in range(-(-self.low // step), self.high // step + 1))


def tape(reading: Length, units: Units = "inch") -> Picture:
    """SVG picture of a tape at the end of a board, with an arrow at the reading and its value.

    The reading is in inches, on a mark or between two. Raises ValueError where it is below zero or
    above 1200 in.
    """
    (position, scale), text = _position(reading, units), figure(reading, units)
    canvas = _pointed(position, scale, text, {"name": "reading", "exact": reading})
    words = f"The tape reads {text}: {_counted(position, scale)}."
    bottom = canvas.paragraph(words, CAPTION)
    return _picture(canvas, f"A tape that reads {text}", words, scale, bottom)


def tape_to_read(reading: Length, units: Units = "inch") -> Picture:
    """SVG picture of a tape for somebody to read: the arrow, but not its value.

    The description, which stands for the picture to a screen reader, counts the marks as eyes do.
    The reading is in inches. Raises ValueError where it is below zero or above 1200 in.
    """
    position, scale = _position(reading, units)
    canvas = _pointed(position, scale, "?", {})
    bottom = canvas.paragraph("What does the tape read?", CAPTION)
    words = f"What does the tape read? The arrow is {_counted(position, scale)}."
    return _picture(canvas, "A tape to read", words, scale, bottom)


def burnt_inch_tape(length: Length, units: Units = "inch") -> Picture:
    """SVG picture of a board measured from the 1 in mark, or from 100 mm, and not from the end.

    The length is the board's own, in inches. Raises ValueError where the reading would be below
    zero or above 1200 in.
    """
    scale = SCALES[units]
    start = f"{scale.burnt} {scale.name}"
    reading = length + scale.burnt * scale.unit
    words = (
        f"The board begins at the {start} mark. The tape reads {figure(reading, units)}. Take off "
        f"the {start} that you began with: the board is {figure(length, units)} long."
    )
    title = f"A board measured from the {start} mark"
    return _measured(Fraction(scale.burnt), length, reading, units, (title, words))


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
    return _measured(Fraction(0), length, length, units, (title, words))


def _position(reading: Length, units: Units) -> tuple[Fraction, Scale]:
    """A reading in the tape's own units, and the tape's marks."""
    if not 0 <= reading <= LONGEST:
        raise ValueError(f"a tape of {LONGEST} in can't read {written(reading)} in")
    return reading / SCALES[units].unit, SCALES[units]


def _stretch_around(position: Fraction, scale: Scale) -> Stretch:
    """As much tape as the sheet is wide, with the position near its middle, or from its start."""
    wide = Fraction(int(WIDTH - 2 * MARGIN - 4), scale.size)
    numbers_before = position // scale.numbered - wide // (2 * scale.numbered)
    low = Fraction(max(0, numbers_before) * scale.numbered)
    return Stretch(scale, low, low + wide, MARGIN + 2)


def _two_stretches(start: Fraction, end: Fraction, scale: Scale) -> list[Stretch]:
    """The tape at both ends of a board: in one piece where it is short, else torn between."""
    whole = _stretch_around(Fraction(0), scale)
    low = max(Fraction(0), start - Fraction(5, 4) * scale.numbered)
    if end <= low + whole.high - scale.step:
        return [Stretch(scale, low, low + whole.high, whole.left)]
    far = end // scale.numbered * scale.numbered - scale.before
    return [
        Stretch(scale, low, low + Fraction(NEAR_WIDE, scale.size), whole.left),
        Stretch(scale, far, far + Fraction(FAR_WIDE, scale.size), whole.left + NEAR_WIDE + TORN),
    ]


def _pointed(position: Fraction, scale: Scale, text: str, data: Data) -> Canvas:
    """A sheet with a tape over the end of a board at a position, and a text at the arrow."""
    canvas, stretch = Canvas(), _stretch_around(position, scale)
    _draw_board(canvas, [stretch], Fraction(0), position)
    _draw_tape(canvas, [stretch])
    levels = TOP - 2, EDGE - scale.heights[0][1], BOARD_BOTTOM + 6
    draw_arrow(canvas, stretch.x(position), levels, (text, data))
    return canvas


def _measured(
    start: Fraction, length: Length, reading: Length, units: Units, texts: tuple[str, str]
) -> Picture:
    """A board that begins at a position of the tape and ends at a reading."""
    end, scale = _position(reading, units)
    canvas, stretches = Canvas(), _two_stretches(start, end, scale)
    _draw_board(canvas, stretches, start, end)
    _draw_tape(canvas, stretches)
    if not start:
        _draw_hook(canvas, stretches[0])
    told = figure(reading, units), {"name": "reading", "exact": reading}
    levels = TOP - 2, EDGE - scale.heights[0][1], BOARD_BOTTOM + 6
    draw_arrow(canvas, stretches[-1].x(end), levels, told)
    _draw_length(canvas, stretches[0].x(start), stretches[-1].x(end), figure(length, units))
    title, words = texts
    return _picture(canvas, title, words, scale, canvas.paragraph(words, CAPTION + 28))


def _torn(x: float, top: float, bottom: float) -> list[Point]:
    """A ragged edge from top to bottom: what is drawn goes on beyond it."""
    step = (bottom - top) / TEETH
    inner = [(x + (2.5 if i % 2 else -2.5), top + i * step) for i in range(1, TEETH)]
    return [(x, top), *inner, (x, bottom)]


def _strip(
    left: float, right: float, rows: tuple[float, float], torn: tuple[bool, bool]
) -> list[Point]:
    """The outline of a band across the sheet, each of its ends straight or torn."""
    (top, bottom), (left_torn, right_torn) = rows, torn
    first = _torn(left, top, bottom) if left_torn else [(left, top), (left, bottom)]
    second = _torn(right, top, bottom) if right_torn else [(right, top), (right, bottom)]
    return first + second[::-1]


def _draw_board(
    canvas: Canvas, stretches: Sequence[Stretch], start: Fraction, end: Fraction
) -> None:
    """The board that is measured: it lies under the tape's marks from start to end."""
    for stretch in stretches:
        low, high = max(stretch.low, start), min(stretch.high, end)
        torn = (low > start or (low == stretch.low and low > 0), high < end)
        points = _strip(stretch.x(low), stretch.x(high), (EDGE, BOARD_BOTTOM), torn)
        canvas.polygon(points, LENGTHWAYS)


def _draw_tape(canvas: Canvas, stretches: Iterable[Stretch]) -> None:
    for stretch in stretches:
        left, right = stretch.left, stretch.right
        torn = stretch.low > 0
        canvas.polygon(_strip(left, right, (TOP, EDGE), (torn, True)), TAPE)
        for position in stretch.marks():
            if left + 3 * torn <= stretch.x(position) <= right - 3:
                _draw_mark(canvas, stretch, position)


def _draw_mark(canvas: Canvas, stretch: Stretch, position: Fraction) -> None:
    """A mark of the tape, with its number where that clears its neighbours and the tape's ends."""
    scale, x = stretch.scale, stretch.x(position)
    top, text = EDGE - scale.height(position), str(position)
    if position % scale.numbered:
        canvas.line((x, EDGE), (x, top), Pen(INK, 0.7))
        return
    canvas.line((x, EDGE), (x, top), Pen(INK, 1.1), {"mark": position})
    left, right, wide = stretch.left, stretch.right, text_width(text, bold=True)
    crowded = wide > scale.numbered * scale.size and position % (2 * scale.numbered)
    if left + 3 < x - wide / 2 and x + wide / 2 < right - 3 and not crowded:
        canvas.text(text, (x, top - 4), "middle", BOLD)


def draw_arrow(
    canvas: Canvas,
    x: float,
    levels: tuple[float, float, float],
    told: tuple[str, Data],
    between: tuple[float, float] = SHEET,
) -> None:
    """Draw an arrow at a place of a tape, with a text above it that keeps between two places.

    Its levels are those of its point, and of the line below that.
    """
    (point, top, bottom), (text, data) = levels, told
    canvas.line((x, top), (x, bottom), Pen(CHANGED, 1.8), data)
    head = [(x - 5, point - 10), (x + 5, point - 10), (x, point)]
    canvas.polygon(head, Finish(NO_LINE, CHANGED))
    centre = spread([x], [text_width(text, bold=True)], *between)[0]
    canvas.text(text, (centre, point - 15), "middle", STRESSED)


def _draw_hook(canvas: Canvas, stretch: Stretch) -> None:
    """The tape's hook, which hangs over the end of the board."""
    x = stretch.x(Fraction(0))
    points = [(x, EDGE - 9), (x, EDGE + 17), (x - 4, EDGE + 17), (x - 4, EDGE - 5)]
    canvas.polygon([*points, (x, EDGE - 9)], Finish(OUTLINE, METAL))


def _draw_length(canvas: Canvas, left: float, right: float, text: str) -> None:
    """A dimension line under the board, with the board's own length on it."""
    level, foot = BOARD_BOTTOM + 27, BOARD_BOTTOM + 2
    draw_measures(canvas, ([(left, level), (right, level)], [(left, foot), (right, foot)], {}))
    words = f"board {text}"
    centre = spread([(left + right) / 2], [text_width(words)], *SHEET)[0]
    canvas.text(words, (centre, level - 5), "middle")


def _counted(position: Fraction, scale: Scale) -> str:
    """Where a position is, in marks past a number: what eyes count on the tape."""
    number = position // scale.numbered * scale.numbered
    marks, beyond = divmod(position - number, scale.step)
    where = f"past {number} {scale.name}"
    if beyond:
        return f"between mark {marks} and mark {marks + 1} of {scale.step} {scale.name} {where}"
    if not marks:
        return f"on the {number} {scale.name} mark"
    return f"{marks} mark{'s' if marks > 1 else ''} of {scale.step} {scale.name} {where}"


def _picture(canvas: Canvas, title: str, words: str, scale: Scale, bottom: float) -> Picture:
    return canvas.picture(title, words, bottom + MARGIN, float(scale.size / scale.unit))


Operation: TypeAlias = Literal["+", "−", "×", "÷"]
HIGH: Final = 22.0
TICK: Final = 7.0
CLOSEST: Final = 5.0
"""How near two marks stand at the closest, in units of the sheet."""


@dataclass(frozen=True)
class Laid:
    """One length laid off over the tape, in inches: dashed where it comes off."""

    low: Fraction
    high: Fraction
    word: str = ""
    off: bool = False


def step_on_tape(operation: Operation, first: Fraction, second: Fraction) -> str:
    """SVG picture of one step of a sum: only parts of an inch where the whole inches are no matter.

    The times stand first in a product; `÷` is half of the first. The result is told nowhere.
    """
    if operation == "×":
        return _drawn(*_times(int(first), second))
    if operation == "÷":
        return _drawn(*_half(first))
    return _drawn(*_summed(operation, first, second))


_Step: TypeAlias = tuple[str, str, Sequence[Laid], int]


def _summed(operation: Operation, first: Fraction, second: Fraction) -> _Step:
    one, other = first % 1, second % 1
    bottom = lcm(one.denominator, other.denominator)
    if operation == "+":
        laid = [Laid(Fraction(0), one, _part(one, bottom))]
        laid.append(Laid(one, one + other, _part(other, bottom)))
        told = "The two fractions end to end. Do they reach the inch, or pass it?"
    else:
        start = one + 1 if one < other else one
        laid = [Laid(Fraction(0), start, _part(start, bottom))]
        laid.append(Laid(start - other, start, _part(other, bottom), off=True))
        told = f"There is enough to take {_part(other, bottom)} from."
        if one < other:
            told = (
                f"{_part(one, bottom)} is too little, so one inch is taken apart: "
                f"{_part(start, bottom)}. Take {_part(other, bottom)} from that. "
                "One whole inch less is left."
            )
    read, taken = (mixed(size, SIXTY_FOURTH) for size in (first, second))
    return f"{read} {operation} {taken}", told, laid, bottom


def _times(often: int, size: Fraction) -> _Step:
    read = mixed(size, SIXTY_FOURTH)
    laid = [Laid(n * size, (n + 1) * size, read) for n in range(often)]
    told = f"{read} laid off {often} times: the inches as often, and the fraction as often."
    return f"{often} × {read}", told, laid, size.denominator


def _half(size: Fraction) -> _Step:
    read = mixed(size, SIXTY_FOURTH)
    laid = [Laid(Fraction(0), size / 2), Laid(size / 2, size)]
    bottom = 2 * size.denominator
    told = f"{read} in two equal parts. Each mark is 1/{bottom}: half parts have twice the bottom."
    return f"half of {read}", told, laid, bottom


def _part(size: Fraction, bottom: int) -> str:
    return f"{int(size * bottom)}/{bottom}" if bottom > 1 else str(size)


def _drawn(title: str, told: str, laid: Sequence[Laid], bottom: int) -> str:
    canvas = Canvas()
    top = canvas.paragraph(title, MARGIN, bold=True) + 4
    inches = max(1, ceil(max(one.high for one in laid)))
    scale = (WIDTH - 2 * MARGIN) / inches
    with canvas.view("tape", scale):
        for one in laid:
            _lay(canvas, one, top, scale)
        _marks(canvas, top + HIGH, inches, bottom, scale)
    end = canvas.paragraph(told, top + HIGH + TICK * 2 + LINE + 4)
    words = "; ".join(f"{one.word}{' taken off' if one.off else ''}" for one in laid if one.word)
    return canvas.picture(title, f"{words}. {told}", end + MARGIN, scale)


def _lay(canvas: Canvas, one: Laid, top: float, scale: float) -> None:
    left, right = (MARGIN + float(place) * scale for place in (one.low, one.high))
    inset = HIGH * 0.2 if one.off else 0.0
    high, low = top + inset, top + HIGH - inset
    pen = Pen(CHANGED, 1.6, "4 3") if one.off else Pen(INK, 1.1)
    outline = corners(left, high, right, low)
    canvas.polygon(outline, Finish(pen, PAPER if one.off else WOOD))
    if one.word and text_width(one.word) < right - left - 4 and not one.off:
        canvas.text(one.word, (left + 4, top + HIGH - 6))


def _marks(canvas: Canvas, level: float, inches: int, bottom: int, scale: float) -> None:
    """The marks of the tape, each part of an inch where there is room, and the whole inches."""
    canvas.line((MARGIN, level), (WIDTH - MARGIN, level), Pen(INK, 1.1))
    parts = bottom if scale / bottom >= CLOSEST else 1
    for n in range(inches * parts + 1):
        x, whole = MARGIN + n * scale / parts, n % parts == 0
        pen = Pen(INK, 1.6) if whole else Pen(PENCIL, 0.8)
        canvas.line((x, level), (x, level + TICK * (2 if whole else 1)), pen)
    every = max(1, ceil(text_width(f"{inches} in") * 1.3 / scale))
    for n in range(0, inches + 1, every):
        width = text_width(f"{n} in") / 2
        x = min(max(MARGIN + n * scale, MARGIN + width), WIDTH - MARGIN - width)
        canvas.text(f"{n} in", (x, level + 2 * TICK + LETTER), "middle", Hand())
