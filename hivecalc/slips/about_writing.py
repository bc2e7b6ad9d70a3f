"""Slips about writing: the right length, written down or converted wrongly."""

from collections.abc import Iterator
from fractions import Fraction
from functools import partial

from hivecalc.derivation import Dimension
from hivecalc.length import (
    MILLIMETRE,
    MM,
    SIXTEENTH,
    THIRTY_SECOND,
    Grid,
    Rounding,
    Units,
    decimal_inches,
    feet_and_inches,
    rounded,
    written,
)
from hivecalc.slips.slip import Slip, Wrong

SLIPS = (
    Slip(
        "fraction_as_decimal", "writing",
        "the figures of the fraction were put behind a point, and no decimal was worked out",
        "Is half an inch .12 or .5? How do you get from a fraction to a decimal?",
        "Write 1/4, 3/8 and 5/8 as decimals: divide the top by the bottom.",
        "fraction to write", 7,
    ),
    Slip(
        "decimal_feet", "writing",
        "feet and inches were mixed up with feet and tenths of a foot",
        "How many inches is a foot and a half? So what does .5 mean behind feet?",
        "Write 1 ft 3 in as feet with a decimal. Write 2.75 ft in feet and inches.",
        "length of a foot or more", 5,
    ),
    Slip(
        "mm_for_cm", "writing",
        "the point stood one place off, as when mm are written for cm",
        "How long is that about, held beside the piece? Is it a hand, an arm or a thumb?",
        "A board is 38 mm thick. How many cm is that? A box is 44.2 cm wide. How many mm?",
        "length", 6,
        carries=False,  # a size ten times too big or too small is seen at the next step
    ),
    Slip(
        "inch_as_25_mm", "writing",
        "an inch were taken for 25 mm; it is 25.4 mm",
        "How many mm are there in an inch, to the tenth?",
        "How many mm are 10 in? How far off is it if you take 25 mm for each inch?",
        "length", 5,
    ),
    Slip(
        "rounded_wrong_way", "writing",
        "it were rounded to the wrong side",
        "If it comes out a hair wrong, what does less harm here: a hair too much or too little?",
        "A drawer must slide in an opening of 15 5/32 in. To which sixteenth do you cut it?",
        "side to which it must be rounded", 9,
    ),
    Slip(
        "rounded_too_far", "writing",
        "it were rounded to a whole inch or to a tenth, which is too coarse for a saw",
        "How near can you cut with a saw, and how near is your number?",
        "Round 9.41 in to the nearest sixteenth. How far off are 9 in and 9.4 in?",
        "length in inches", 6,
        carries=False,  # somebody who rounds so works on from the size before it
    ),
    Slip(
        "unit_left_out", "writing",
        "the number were meant in another unit, and that unit were left out",
        "Which unit is your number in? Write it behind the number: is it in, mm or cm?",
        "A board is 38 mm thick. What does “38” say if somebody reads it as inches?",
        "length", 9,
        carries=False,  # a size that is so far off is seen at the next step
    ),
)  # fmt: skip
NAMED = {slip.name: slip for slip in SLIPS}

TOO_COARSE = (Grid("1 in", Fraction(1), "inch"), Grid("0.1 in", Fraction(1, 10), "inch"))
METRIC = (("mm", MM, 0), ("mm", MM, 1), ("cm", 10 * MM, 1), ("cm", 10 * MM, 2))
"""Units that an inch may be mistaken for, with the places that a number in them has."""
FOOT = 12
FINEST = 64
OTHER_WAY = {Rounding.DOWN: Rounding.UP, Rounding.UP: Rounding.DOWN}


def makes_sense(slip: str, dimension: Dimension, units: Units) -> bool:
    """Whether a step's size can be written wrongly so."""
    if slip == "rounded_wrong_way":
        return dimension.rule.rounding in OTHER_WAY
    inch_only = slip in {"fraction_as_decimal", "decimal_feet", "rounded_too_far"}
    return dimension.kind == "length" and (units == "inch" or not inch_only)


def wrong_answers(dimension: Dimension, value: Fraction, units: Units) -> Iterator[Wrong]:
    """The wrong ways to write a step's right value that make sense for it."""
    ways = [
        *spellings(value),
        *_wrong_sides(dimension, value, units),
        *_without_unit(value, units),
    ]
    for name, wrong, working in ways:
        if makes_sense(name, dimension, units):
            yield Wrong(NAMED[name], dimension.name, wrong, _working=partial(str, working))


def spellings(value: Fraction) -> Iterator[tuple[str, Fraction, str]]:
    """The slips in writing a length: name, what stands there then, how it came about.

    >>> [(name, str(wrong)) for name, wrong, _ in spellings(Fraction(45, 8))][:2]
    [('fraction_as_decimal', '279/50'), ('fraction_as_decimal', '11/2')]

    In inches.
    """
    if value <= 0:
        return
    mark = value if not FINEST % value.denominator else rounded(value, SIXTEENTH)
    yield from _as_decimal(mark)
    if value >= FOOT:
        yield from _as_feet(value)
    for times in (Fraction(10), Fraction(1, 10)):
        yield "mm_for_cm", value * times, "the point one place off"
    for mm in (25 * MM, 1 / (25 * MM)):
        yield "inch_as_25_mm", value * mm, "1 in taken for 25 mm"
    for coarse in TOO_COARSE:
        yield "rounded_too_far", rounded(value, coarse), f"rounded to {coarse.name}"


def _as_decimal(mark: Fraction) -> Iterator[tuple[str, Fraction, str]]:
    part = mark % 1
    if part:
        for figures in (f"{part.numerator}{part.denominator}", f"{part.numerator}"):
            behind = Fraction(int(figures), 10 ** len(figures))
            yield "fraction_as_decimal", mark // 1 + behind, f"{part} written as .{figures}"


def _as_feet(value: Fraction) -> Iterator[tuple[str, Fraction, str]]:
    feet, inches = divmod(value, FOOT)
    figures = decimal_inches(inches).removeprefix("≈ ").replace(".", "")
    behind = Fraction(int(figures), 10 ** len(figures))
    said = feet_and_inches(value).removeprefix("≈ ")
    yield "decimal_feet", FOOT * (feet + behind), f"{said} written as {feet}.{figures} ft"
    decimal = decimal_inches(value / FOOT).removeprefix("≈ ")
    read = feet_and_inches(FOOT * feet + 10 * (value / FOOT % 1)).removeprefix("≈ ")
    yield "decimal_feet", FOOT * feet + 10 * (value / FOOT % 1), f"{decimal} ft read as {read}"


def _wrong_sides(
    dimension: Dimension, value: Fraction, units: Units
) -> Iterator[tuple[str, Fraction, str]]:
    if dimension.rule.rounding in OTHER_WAY:
        way = OTHER_WAY[dimension.rule.rounding]
        for grid in (SIXTEENTH, THIRTY_SECOND, MILLIMETRE) if units == "inch" else (MILLIMETRE,):
            wrong = rounded(value, grid, way)
            yield "rounded_wrong_way", wrong, f"{written(value)} rounded {way.value}"


def _without_unit(value: Fraction, units: Units) -> Iterator[tuple[str, Fraction, str]]:
    """The numbers of other units, as they are read in this one; mm and cm rounded as one does."""
    if units == "mm":
        yield "unit_left_out", value * MM, f"{written(value)} in without its unit"
    for name, unit, places in METRIC if units == "inch" and value > 0 else ():
        number = decimal_inches(value / unit, places).removeprefix("≈ ")
        yield "unit_left_out", Fraction(number), f"{number} {name} without its unit"
