"""Slips about writing: the right length, written down or converted wrongly."""

from collections.abc import Iterator
from fractions import Fraction
from functools import partial
from typing import Final, TypeAlias

from hivecalc.derivation import Dimension
from hivecalc.judging.slip import Form, Slip, Wrong
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

SLIPS = (
    Slip(
        "fraction_as_decimal", "writing",
        "the figures of the fraction were put behind a point, and no decimal was worked out",
        "Is half an inch .12 or .5? How do you get from a fraction to a decimal?",
        "Write 1/4, 3/8 and 5/8 as decimals: divide the top by the bottom.",
        7,
        trace="did you put the figures of a fraction behind a point",
    ),
    Slip(
        "space_forgotten", "writing",
        "the space between the inches and the fraction were left out",
        "Where do the whole inches end, and where does the fraction begin?",
        "Read 93/4 aloud, and then 9 3/4. How many inches is each of them?",
        9,
        carries=False,  # somebody who works on knows what was meant
        trace="did you leave out a space",
    ),
    Slip(
        "decimal_feet", "writing",
        "feet and inches were mixed up with feet and tenths of a foot",
        "How many inches is a foot and a half? So what does .5 mean behind feet?",
        "Write 1 ft 3 in as feet with a decimal. Write 2.75 ft in feet and inches.",
        5,
        trace="did you reckon in feet",
    ),
    Slip(
        "mm_for_cm", "writing",
        "the point stood one place off, as when mm are written for cm",
        "How long is that about, held beside the piece? Is it a hand, an arm or a thumb?",
        "A board is 38 mm thick. How many cm is that? A box is 44.2 cm wide. How many mm?",
        6,
        carries=False,  # a size ten times too big or too small is seen at the next step
        trace="did you move the point",
    ),
    Slip(
        "inch_as_25_mm", "writing",
        "an inch were taken for 25 mm; it is 25.4 mm",
        "How many mm are there in an inch, to the tenth?",
        "How many mm are 10 in? How far off is it if you take 25 mm for each inch?",
        5,
        trace="did you turn inches into mm or mm into inches",
    ),
    Slip(
        "rounded_wrong_way", "writing",
        "it were rounded to the wrong side",
        "If it comes out a hair wrong, what does less harm here: a hair too much or too little?",
        "A drawer must slide in an opening of 15 5/32 in. To which sixteenth do you cut it?",
        9,
        trace="did you round it",
    ),
    Slip(
        "rounded_too_far", "writing",
        "it were rounded to a whole inch or to a tenth, which is too coarse for a saw",
        "How near can you cut with a saw, and how near is your number?",
        "Round 9.41 in to the nearest sixteenth. How far off are 9 in and 9.4 in?",
        6,
        carries=False,  # somebody who rounds so works on from the size before it
        trace="did you round it",
    ),
    Slip(
        "unit_left_out", "writing",
        "the number were meant in another unit, and the unit were left out",
        "Which unit is your number in? Write it behind the number: is it in, mm or cm?",
        "A board is 38 mm thick. What does “38” say if somebody reads it as inches?",
        9,
        carries=False,  # a size that is so far off is seen at the next step
        trace="did you mean another unit",
    ),
)  # fmt: skip
NAMED = {slip.name: slip for slip in SLIPS}

TOO_COARSE = (Grid("1 in", Fraction(1), "inch"), Grid("0.1 in", Fraction(1, 10), "inch"))
METRIC = (("mm", MM, 0), ("mm", MM, 1), ("cm", 10 * MM, 1), ("cm", 10 * MM, 2))
"""Units that an inch may be mistaken for, with the places that a number in them has."""
FOOT = 12
FINEST = 64
IN_INCHES_ONLY = {"fraction_as_decimal", "space_forgotten", "decimal_feet", "rounded_too_far"}
OTHER_WAY = {Rounding.DOWN: Rounding.UP, Rounding.UP: Rounding.DOWN}

Spelling: TypeAlias = tuple[str, Fraction, str, frozenset[Form]]
"""The slip, what stands there then, how it came about, and how it must be written to be this."""
DECIMAL: Final[frozenset[Form]] = frozenset({"decimal", "inch"})
IN_METRIC: Final[frozenset[Form]] = frozenset({"metric"})
BARE: Final[frozenset[Form]] = frozenset({"bare", "decimal"})


def wrong_answers(dimension: Dimension, value: Fraction, units: Units) -> Iterator[Wrong]:
    """The wrong ways to write a step's right value that make sense for it."""
    ways = [*_wrong_sides(dimension, value, units)]
    if dimension.kind == "length" and value > 0:
        ways += [*spellings(value), *_without_unit(value, units)]
    for name, wrong, working, forms in ways:
        if units == "mm" and name in IN_INCHES_ONLY:
            continue
        yield Wrong(NAMED[name], dimension.name, wrong, forms=forms, _working=partial(str, working))


def spellings(value: Fraction) -> Iterator[Spelling]:
    """The slips in writing a length that is more than nothing.

    >>> [(name, str(wrong)) for name, wrong, *_ in spellings(Fraction(45, 8))][:3]
    [('fraction_as_decimal', '279/50'), ('fraction_as_decimal', '11/2'), ('fraction_as_decimal', \
'29/5')]

    In inches.
    """
    mark = value if not FINEST % value.denominator else rounded(value, SIXTEENTH)
    yield from _of_fraction(mark)
    if value >= FOOT:
        yield from _as_feet(value)
    for times in (Fraction(10), Fraction(1, 10)):
        yield "mm_for_cm", value * times, "the point one place off", IN_METRIC
    yield "inch_as_25_mm", value * 25 * MM, "1 in taken for 25 mm", IN_METRIC
    yield "inch_as_25_mm", value / (25 * MM), "25 mm taken for 1 in", DECIMAL
    for coarse in TOO_COARSE:
        yield "rounded_too_far", rounded(value, coarse), f"rounded to {coarse.name}", DECIMAL


def _of_fraction(mark: Fraction) -> Iterator[Spelling]:
    whole, part = mark // 1, mark % 1
    if not part:
        return
    top, bottom = part.numerator, part.denominator
    for figures in (f"{top}{bottom}", f"{top}", f"{bottom}"):
        behind = Fraction(int(figures), 10 ** len(figures))
        yield "fraction_as_decimal", whole + behind, f"{part} written as .{figures}", DECIMAL
    if whole:
        spaceless = Fraction(int(f"{whole}{top}"), bottom)
        written_so = f"{whole} {part} written as {whole}{part}"
        yield "space_forgotten", spaceless, written_so, frozenset({"spaceless"})


def _as_feet(value: Fraction) -> Iterator[Spelling]:
    feet, inches = divmod(value, FOOT)
    figures = decimal_inches(inches).removeprefix("≈ ").replace(".", "")
    behind = Fraction(int(figures), 10 ** len(figures))
    said = feet_and_inches(value).removeprefix("≈ ")
    yield "decimal_feet", FOOT * (feet + behind), f"{said} written as {feet}.{figures} ft", DECIMAL
    decimal = decimal_inches(value / FOOT).removeprefix("≈ ")
    wrong = FOOT * feet + 10 * (value / FOOT % 1)
    read = feet_and_inches(wrong).removeprefix("≈ ")
    yield "decimal_feet", wrong, f"{decimal} ft read as {read}", frozenset({"feet"})


def _wrong_sides(dimension: Dimension, value: Fraction, units: Units) -> Iterator[Spelling]:
    if dimension.rule.rounding in OTHER_WAY:
        way = OTHER_WAY[dimension.rule.rounding]
        for grid in (SIXTEENTH, THIRTY_SECOND, MILLIMETRE) if units == "inch" else (MILLIMETRE,):
            wrong, working = rounded(value, grid, way), f"{written(value)} rounded {way.value}"
            yield "rounded_wrong_way", wrong, working, frozenset()


def _without_unit(value: Fraction, units: Units) -> Iterator[Spelling]:
    """The numbers of other units, as they are read in this one; mm and cm rounded as one does."""
    if units == "mm":
        working = f"{written(value)} in without its unit"
        yield "unit_left_out", value * MM, working, BARE
    for name, unit, places in METRIC if units == "inch" else ():
        number = decimal_inches(value / unit, places).removeprefix("≈ ")
        yield "unit_left_out", Fraction(number), f"{number} {name} without its unit", BARE
