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
    millimetres,
    rounded,
    written,
)

FINEST: Final = 64
TEN: Final = 10
FOOT: Final = 12
INCH, HALF, QUARTER = Fraction(1), Fraction(1, 2), Fraction(1, 4)

# ── sums ──────────────────────────────────────────────────────────────────────────────────────

Sum: TypeAlias = Callable[[Fraction, Fraction], Fraction | None]
"""A wrong sum of two sizes; None where the slip can't be made on them."""


def inch_not_lowered(left: Fraction, right: Fraction) -> Fraction | None:
    """Difference in which an inch was borrowed and the whole inches stayed as they were."""
    return left - right + 1 if _borrows(left, right) else None


def smaller_from_larger(left: Fraction, right: Fraction) -> Fraction | None:
    """Difference of the whole inches, with the difference of the fractions the wrong way round."""
    return left // 1 - right // 1 + (right % 1 - left % 1) if _borrows(left, right) else None


def borrowed_ten(left: Fraction, right: Fraction) -> Fraction | None:
    """Difference in which the borrowed inch was ten parts instead of eight or sixteen.

    None where ten parts would leave nothing, or a whole inch and more.
    """
    parts = lcm(left.denominator, right.denominator)
    top = (left % 1 - right % 1) * parts + TEN
    if not _borrows(left, right) or not 0 < top < parts:
        return None
    return left // 1 - 1 - right // 1 + top / parts


def carry_dropped(left: Fraction, right: Fraction) -> Fraction | None:
    """Sum without the inch that the fractions make together."""
    return left + right - 1 if left % 1 + right % 1 >= 1 else None


def tops_and_bottoms(left: Fraction, right: Fraction) -> Fraction | None:
    """Sum of the whole inches, with the fractions' tops added and their bottoms added."""
    one, other = left % 1, right % 1
    if not one or not other:
        return None
    tops, bottoms = one.numerator + other.numerator, one.denominator + other.denominator
    return left // 1 + right // 1 + Fraction(tops, bottoms)


def halved_bottom(whole: Fraction, _two: Fraction) -> Fraction | None:
    """Half of a length, its fraction's bottom halved: half of 3/4 becomes 3/2."""
    return Fraction(whole // 1, 2) + 2 * (whole % 1) if whole % 1 else None


def whole_times(times: Fraction, size: Fraction) -> Fraction | None:
    """Product in which only the whole inches were multiplied: 2 × 1 1/2 becomes 2 1/2."""
    return times * (size // 1) + size % 1 if _is_mixed(size) else None


def fraction_times(times: Fraction, size: Fraction) -> Fraction | None:
    """Product in which only the fraction was multiplied: 10 × 1 3/8 becomes 4 3/4.

    None where that is as much as without the fraction.
    """
    product = size // 1 + times * (size % 1)
    return product if _is_mixed(size) and product != times_whole(times, size) else None


def times_whole(times: Fraction, size: Fraction) -> Fraction | None:
    """Product without the fraction: 2 × 1 1/2 becomes 2."""
    return times * (size // 1) if _is_mixed(size) else None


def _is_mixed(size: Fraction) -> bool:
    return size > 1 and size % 1 > 0


def _without(fraction_of: int, sign: int) -> Sum:
    """The sum or difference in which the first or the second size lost its fraction."""

    def wrongly(*both: Fraction) -> Fraction | None:
        kept = [size - size % 1 if n == fraction_of else size for n, size in enumerate(both)]
        return kept[0] + sign * kept[1] if _is_mixed(both[fraction_of]) else None

    return wrongly


def _borrows(left: Fraction, right: Fraction) -> bool:
    return left > right and left % 1 < right % 1


def ten_not_lowered(left: Fraction, right: Fraction) -> Fraction | None:
    """Difference of whole numbers in which each borrowed ten stayed in its column as well."""
    return (
        _unconnected(one - other for one, other in _columns(left, right)) if left > right else None
    )


def smaller_digit_from_larger(left: Fraction, right: Fraction) -> Fraction | None:
    """Difference of whole numbers, in each column the smaller digit off the larger one."""
    apart = (abs(one - other) for one, other in _columns(left, right))
    return _unconnected(apart) if left > right else None


def ten_not_carried(left: Fraction, right: Fraction) -> Fraction:
    """Sum of whole numbers in which no column was given what the one before had too much."""
    return _unconnected(map(sum, _columns(left, right)))


def ten_of_product_not_carried(times: Fraction, size: Fraction) -> Fraction | None:
    """A digit times a whole number, in which no column was given what the one before had too much.

    >>> ten_of_product_not_carried(Fraction(2), Fraction(38))
    Fraction(66, 1)
    """
    products = (int(times) * digit for (digit,) in _columns(size))
    return _unconnected(products) if times < TEN else None


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


SUMS: Final[Mapping[type[ast.operator], tuple[tuple[str, Sum], ...]]] = {
    ast.Sub: (
        ("inch_not_lowered", inch_not_lowered),
        ("smaller_from_larger", smaller_from_larger),
        ("borrowed_ten", borrowed_ten),
        ("fraction_dropped", _without(0, -1)),
        ("fraction_dropped", _without(1, -1)),
    ),
    ast.Add: (
        ("carry_dropped", carry_dropped),
        ("tops_and_bottoms", tops_and_bottoms),
        ("fraction_dropped", _without(0, 1)),
        ("fraction_dropped", _without(1, 1)),
    ),
    ast.Mult: (
        ("multiplied_one_part", whole_times),
        ("multiplied_one_part", fraction_times),
        ("fraction_dropped", times_whole),
    ),
    ast.Div: (("halved_bottom", halved_bottom),),
}  # fmt: skip
"""The slips with inches and their fractions, by the kind of sum."""
SUMS_IN_MM: Final[Mapping[type[ast.operator], tuple[tuple[str, Sum], ...]]] = {
    ast.Sub: (
        ("ten_not_lowered", ten_not_lowered),
        ("smaller_digit_from_larger", smaller_digit_from_larger),
    ),
    ast.Add: (("ten_not_carried", ten_not_carried),),
    ast.Mult: (("ten_not_carried", ten_of_product_not_carried),),
    ast.Div: (),
}  # fmt: skip
"""The slips with whole millimetres."""


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
        for name, wrongly in sums[type(node.op)]:
            part = wrongly(left, right)
            if part is not None:
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
