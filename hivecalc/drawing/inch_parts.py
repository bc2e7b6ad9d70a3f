"""One step of a sum on the tape, where it goes wrong: parts of an inch, the result open."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, lcm
from typing import Final, Literal, TypeAlias

from hivecalc.drawing.canvas import (
    CHANGED,
    INK,
    MARGIN,
    PAPER,
    PENCIL,
    WIDTH,
    WOOD,
    Canvas,
    Finish,
    Hand,
    Pen,
    corners,
)
from hivecalc.drawing.layout import LETTER, LINE, text_width
from hivecalc.length import SIXTY_FOURTH, mixed

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
