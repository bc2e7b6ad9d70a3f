"""Wrong figures: the right rule, and one sum of it done wrong, the tape misread, a length misspelt.

Each generator yields what slips of its family give at one step, under the name of the slip.
"""

import ast
from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction
from functools import lru_cache, partial
from math import lcm
from typing import Final, TypeAlias

from hivecalc.derivation import Dimension, Values, computed, full_named, swapped
from hivecalc.fractions_in_words import SIGNS
from hivecalc.judging.slips import COUNTS, SLIPS, Form, Wrong
from hivecalc.length import (
    MARKS,
    MILLIMETRE,
    MM,
    SIXTEENTH,
    THIRTY_SECOND,
    Grid,
    Rounding,
    Units,
    decimal_inches,
    feet_and_inches,
    is_mark,
    millimetres,
    rounded,
    written,
)

FINEST: Final = 64
TEN: Final = 10
TENS: Final = (10, 100, 1000)  # what is borrowed or carried in whole mm
FOOT: Final = 12
INCH, HALF, QUARTER = Fraction(1), Fraction(1, 2), Fraction(1, 4)

# ── sums ──────────────────────────────────────────────────────────────────────────────────────

WrongSums: TypeAlias = Iterator[tuple[str, Fraction]]
"""The wrong results of a sum of two numbers, by the slip that gives each; none that can't be."""


def _differences(left: Fraction, right: Fraction) -> WrongSums:
    """An inch borrowed and not made one less, not borrowed, or borrowed as ten parts."""
    inches, parts = left // 1 - right // 1, left % 1 - right % 1
    if left > right and parts < 0:
        yield "inch_not_lowered", left - right + 1
        yield "smaller_from_larger", inches - parts
        bottom = lcm(left.denominator, right.denominator)
        if 0 < parts * bottom + TEN < bottom:  # else nothing would be left, or more than an inch
            yield "borrowed_ten", inches - 1 + parts + Fraction(TEN, bottom)
    yield from _without_a_fraction(left, right, -1)


def _additions(left: Fraction, right: Fraction) -> WrongSums:
    """The inch of the fractions not carried, or tops added to tops and bottoms to bottoms."""
    one, other = left % 1, right % 1
    if one + other >= 1:
        yield "carry_dropped", left + right - 1
    if one and other:
        tops, bottoms = one.numerator + other.numerator, one.denominator + other.denominator
        yield "tops_and_bottoms", left // 1 + right // 1 + Fraction(tops, bottoms)
    yield from _without_a_fraction(left, right, 1)


def _without_a_fraction(left: Fraction, right: Fraction, sign: int) -> WrongSums:
    if _is_mixed(left):
        yield "fraction_dropped", left // 1 + sign * right
    if _is_mixed(right):
        yield "fraction_dropped", left + sign * (right // 1)


def _products(times: Fraction, size: Fraction) -> WrongSums:
    """Only the inches multiplied, only the fraction, or the fraction left out: 2 × 1 1/2."""
    inches, part = size // 1, size % 1
    if _is_mixed(size):
        yield "multiplied_one_part", times * inches + part
        if inches + times * part != times * inches:
            yield "multiplied_one_part", inches + times * part
        yield "fraction_dropped", times * inches


def _halves(whole: Fraction, _two: Fraction) -> WrongSums:
    """The bottom of the fraction halved: half of 3/4 becomes 3/2."""
    if whole % 1:
        yield "halved_bottom", Fraction(whole // 1, 2) + 2 * (whole % 1)


def _is_mixed(size: Fraction) -> bool:
    return size > 1 and size % 1 > 0


def _differences_in_mm(left: Fraction, right: Fraction) -> WrongSums:
    """A borrowed ten that stayed in its column, or in each column the smaller digit taken off.

    >>> [str(value) for _, value in _differences_in_mm(Fraction(532), Fraction(145))]
    ['397', '487', '497', '413']
    """
    if left > right:
        columns = list(_columns(left, right))
        for ten in TENS:
            if left % ten < right % ten:
                yield "ten_not_lowered", left - right + ten
        yield "ten_not_lowered", _unconnected(one - other for one, other in columns)
        yield "smaller_digit_from_larger", _unconnected(abs(one - other) for one, other in columns)


def _additions_in_mm(left: Fraction, right: Fraction) -> WrongSums:
    """One column, or none, given what the one before had too much.

    >>> [str(value) for _, value in _additions_in_mm(Fraction(387), Fraction(45))]
    ['422', '332', '322']
    """
    for ten in TENS:
        if left % ten + right % ten >= ten:
            yield "ten_not_carried", left + right - ten
    yield "ten_not_carried", _unconnected(map(sum, _columns(left, right)))


def _products_in_mm(times: Fraction, size: Fraction) -> WrongSums:
    """A digit times a number, in which no column was given what the one before had too much.

    >>> list(_products_in_mm(Fraction(2), Fraction(38)))
    [('ten_not_carried', Fraction(66, 1))]
    """
    if times < TEN:
        products = (int(times) * digit for (digit,) in _columns(size))
        yield "ten_not_carried", _unconnected(products)


def _columns(*numbers: Fraction) -> Iterator[tuple[int, ...]]:
    """The digits of whole numbers that stand below one another, the highest first."""
    places = len(str(max(numbers)))
    return zip(*(map(int, f"{number!s:0>{places}}") for number in numbers), strict=True)


def _unconnected(columns: Iterable[int]) -> Fraction:
    """What stands there if nothing goes from one column to the next; the first is written whole.

    >>> _unconnected([3, 4, -2])
    Fraction(348, 1)
    """
    first, *others = columns
    return Fraction("".join(map(str, [first, *(column % TEN for column in others)])))


SUMS: Final[Mapping[type[ast.operator], Callable[[Fraction, Fraction], WrongSums]]] = {
    ast.Sub: _differences, ast.Add: _additions, ast.Mult: _products, ast.Div: _halves,
}  # fmt: skip
"""What may go wrong with inches and their fractions, by the kind of sum."""
SUMS_IN_MM: Final[Mapping[type[ast.operator], Callable[[Fraction, Fraction], WrongSums]]] = {
    ast.Sub: _differences_in_mm, ast.Add: _additions_in_mm, ast.Mult: _products_in_mm,
    ast.Div: lambda _whole, _two: iter(()),
}  # fmt: skip
"""What may go wrong with whole millimetres."""


def wrong_sums(dimension: Dimension, values: Values, units: Units) -> Iterator[Wrong]:
    """The wrong answers of the sums' slips at one step, those that these numbers allow."""
    expression, nodes = _sums(dimension)
    unit, finest, sums = (MM, 1, SUMS_IN_MM) if units == "mm" else (INCH, FINEST, SUMS)
    for node in nodes:
        first = INCH if isinstance(node.op, ast.Mult) else unit  # a product's first is a count
        second = INCH if isinstance(node.op, ast.Div) else unit
        left, right = computed(node.left, values) / first, computed(node.right, values) / second
        if finest % left.denominator or finest % right.denominator or left < 0 or right < 0:
            continue
        for name, part in sums[type(node.op)](left, right):
            wrong = ast.Constant(part * unit)  # type: ignore[arg-type]
            value = computed(swapped(expression, node, wrong), values)
            working = partial(_sum_working, name, left, SIGNS[type(node.op)], right, part)
            yield Wrong(SLIPS[name], dimension.name, value, _working=working)


@lru_cache(maxsize=512)
def _sums(dimension: Dimension) -> tuple[ast.expr, tuple[ast.BinOp, ...]]:
    """A dimension's arithmetic and the sums in it: what is added, taken off, doubled, halved."""
    expression = full_named(dimension)
    nodes = [n for n in ast.walk(expression) if isinstance(n, ast.BinOp) and _is_sum(n)]
    return expression, tuple(nodes)


def _is_sum(node: ast.BinOp) -> bool:
    if isinstance(node.op, ast.Div):
        return isinstance(node.right, ast.Constant) and node.right.value == 2  # noqa: PLR2004 - a half
    if isinstance(node.op, ast.Mult):
        counted = isinstance(node.left, ast.Name) and node.left.id in COUNTS
        return counted or isinstance(node.left, ast.Constant)
    return True


def _sum_working(name: str, left: Fraction, sign: str, right: Fraction, part: Fraction) -> str:
    shown = written(part)
    if name == "tops_and_bottoms":  # as it stands on the paper: 1/2 and 3/4 make 4/6
        one, other, whole = left % 1, right % 1, left // 1 + right // 1
        top, bottom = one.numerator + other.numerator, one.denominator + other.denominator
        shown = f"{whole} {top}/{bottom}" if whole else f"{top}/{bottom}"
    return f"{written(left)} {sign} {written(right)} = {shown}"


# ── the tape ──────────────────────────────────────────────────────────────────────────────────


def readings(
    value: Fraction, units: Units = "inch", step: str = "reading", *, laid_on: bool = True
) -> Iterator[Wrong]:
    """The wrong readings of a length, in inches, whatever it is the length of.

    On a tape in mm only the neighbouring marks are wrong readings. laid_on says whether a piece was
    measured, so that the tape may have begun at 1 in, or only a mark was read.
    """
    marks = MARKS[units]
    mark = rounded(value, marks)
    wrong = [("one_tick_off", mark + marks.step), ("one_tick_off", mark - marks.step)]
    if units == "inch":
        wrong += _fractions_misread(mark)
        wrong += [("first_inch_kept" if laid_on else "wrong_inch", value + INCH)]
        wrong += [("wrong_inch", value - INCH)]
    for name, read in wrong:
        working = partial(_reading_working, name, mark, read, units)
        yield Wrong(SLIPS[name], step, read, _working=working)


def _fractions_misread(mark: Fraction) -> Iterator[tuple[str, Fraction]]:
    """The readings of a mark whose inch is right, and whose fraction is another."""
    inch, part = mark // 1, mark % 1
    past_half, past_quarter = part % HALF, part % QUARTER
    if 0 < part < HALF:
        yield "eighths_for_sixteenths", mark + part
    if part > QUARTER and past_quarter > SIXTEENTH.step:
        yield "eighths_for_sixteenths", mark + past_quarter
    if part > 0 and part.denominator <= 8:  # noqa: PLR2004 - a mark of an eighth
        yield "sixteenths_for_eighths", inch + part / 2
    for past in {past_half, past_quarter} - {0, part}:
        yield "long_mark_dropped", inch + past
    if past_quarter == 3 * SIXTEENTH.step:
        yield "longer_marks_left_out", mark + 2 * SIXTEENTH.step
    if part not in {0, HALF}:
        yield "from_the_other_end", inch + 1 - part


def _reading_working(name: str, mark: Fraction, read: Fraction, units: Units) -> str:
    text = millimetres if units == "mm" else written
    if name == "first_inch_kept":
        return f"from 1 in to {text(read)} in is {text(read)} in"
    return f"{text(mark)} read as {text(read)}"


# ── writing ───────────────────────────────────────────────────────────────────────────────────

Spelling: TypeAlias = tuple[str, Fraction, str, frozenset[Form]]
"""The slip, what stands there then, how it came about, and how it must be written to be this."""

TOO_COARSE: Final = (Grid("1 in", INCH, "inch"), Grid("0.1 in", Fraction(1, 10), "inch"))
METRIC: Final = (("mm", MM, 0), ("mm", MM, 1), ("cm", 10 * MM, 1), ("cm", 10 * MM, 2))
"""Units that an inch may be mistaken for, with the places that a number in them has."""
IN_INCHES_ONLY: Final = {
    "fraction_as_decimal", "space_forgotten", "decimal_feet", "rounded_too_far",
}  # fmt: skip
OTHER_WAY: Final = {Rounding.DOWN: Rounding.UP, Rounding.UP: Rounding.DOWN}
DECIMAL: Final[frozenset[Form]] = frozenset({"decimal", "inch"})
IN_METRIC: Final[frozenset[Form]] = frozenset({"metric"})
BARE: Final[frozenset[Form]] = frozenset({"bare", "decimal"})
SPACELESS: Final[frozenset[Form]] = frozenset({"spaceless"})
FEET: Final[frozenset[Form]] = frozenset({"feet"})


def misspelt(dimension: Dimension, value: Fraction, units: Units) -> Iterator[Wrong]:
    """The wrong ways to write a step's right value that make sense for it."""
    ways = [*_wrong_sides(dimension, value, units)]
    if dimension.kind == "length" and value > 0:
        ways += [*spellings(value), *_without_unit(value, units)]
    for name, wrong, working, forms in ways:
        if units == "inch" or name not in IN_INCHES_ONLY:
            line = partial(str, working)
            yield Wrong(SLIPS[name], dimension.name, wrong, forms=forms, _working=line)


def spellings(value: Fraction) -> Iterator[Spelling]:
    """The slips in writing a length that is more than nothing, in inches."""
    mark = value if is_mark(value) else rounded(value, SIXTEENTH)
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
        said = f"{part} written as .{figures}"
        yield "fraction_as_decimal", whole + _behind_a_point(figures), said, DECIMAL
    if whole:
        said = f"{whole} {part} written as {whole}{part}"
        yield "space_forgotten", Fraction(int(f"{whole}{top}"), bottom), said, SPACELESS


def _as_feet(value: Fraction) -> Iterator[Spelling]:
    feet, inches = divmod(value, FOOT)
    figures = decimal_inches(inches).removeprefix("≈ ").replace(".", "")
    said = f"{feet_and_inches(value).removeprefix('≈ ')} written as {feet}.{figures} ft"
    yield "decimal_feet", FOOT * (feet + _behind_a_point(figures)), said, DECIMAL
    decimal = decimal_inches(value / FOOT).removeprefix("≈ ")
    wrong = FOOT * feet + 10 * (value / FOOT % 1)
    said = f"{decimal} ft read as {feet_and_inches(wrong).removeprefix('≈ ')}"
    yield "decimal_feet", wrong, said, FEET


def _behind_a_point(figures: str) -> Fraction:
    return Fraction(int(figures), 10 ** len(figures))


def _wrong_sides(dimension: Dimension, value: Fraction, units: Units) -> Iterator[Spelling]:
    if dimension.rule.rounding in OTHER_WAY:
        way = OTHER_WAY[dimension.rule.rounding]
        for grid in (SIXTEENTH, THIRTY_SECOND, MILLIMETRE) if units == "inch" else (MILLIMETRE,):
            said = f"{written(value)} rounded {way.value}"
            yield "rounded_wrong_way", rounded(value, grid, way), said, frozenset()


def _without_unit(value: Fraction, units: Units) -> Iterator[Spelling]:
    """The numbers of other units, as they are read in this one; mm and cm rounded as one does."""
    if units == "mm":
        yield "unit_left_out", value * MM, f"{written(value)} in without its unit", BARE
    for name, unit, places in METRIC if units == "inch" else ():
        number = decimal_inches(value / unit, places).removeprefix("≈ ")
        yield "unit_left_out", Fraction(number), f"{number} {name} without its unit", BARE
