"""Slips about the sums: the right rule, and one addition, subtraction or halving of it done wrong.

They act on the numbers of a step, written as whole inches and a fraction.
"""

import ast
from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import lru_cache, partial
from math import lcm
from typing import TypeAlias

from hivecalc.derivation import Dimension, Values
from hivecalc.judging.arithmetic import COUNTS, computed, full_named, swapped
from hivecalc.judging.slip import PRACTICE, Slip, Wrong
from hivecalc.length import Units, written

FINEST = 64
TEN = 10

BROWN_BURTON = (
    "J. S. Brown, R. R. Burton, Diagnostic models for procedural bugs in basic mathematical "
    "skills, Cognitive Science 2 (1978), 155-192, bug “{}”; from memory, not checked against print"
)
TATSUOKA = (
    "K. K. Tatsuoka, Analysis of errors in fraction addition and subtraction problems, University "
    "of Illinois (1984), borrowing; from memory, not checked against print"
)
COX = (
    "L. S. Cox, Systematic errors in the four vertical algorithms in normal and handicapped "
    "populations, Journal for Research in Mathematics Education 6 (1975), 202-220, carrying; from "
    "memory, not checked against print"
)
CARPENTER = (
    "T. P. Carpenter and others, Results from the Second Mathematics Assessment of the National "
    "Assessment of Educational Progress (1981), adding fractions; from memory, not checked against "
    "print"
)

SLIPS = (
    Slip(
        "inch_not_lowered", "sums",
        "an inch were borrowed for the fraction, and the whole inches were not made one less",
        "You took an inch apart to have enough fraction. How many whole inches are left then?",
        "Work out 12 1/4 − 3 5/8, and check it by adding 3 5/8 again.",
        7,
        BROWN_BURTON.format("borrow no decrement"),
    ),
    Slip(
        "smaller_from_larger", "sums",
        "the smaller fraction were taken from the larger one, whichever stood first",
        "Which fraction is to be taken from which? Is there enough of it?",
        "Work out 9 1/8 − 2 3/8. Count it back on a tape.",
        8,
        BROWN_BURTON.format("smaller from larger"),
    ),
    Slip(
        "borrowed_ten", "sums",
        "a borrowed inch were taken for ten parts, whatever stands under the line",
        "How many eighths, or how many sixteenths, make a whole inch?",
        "Work out 7 1/16 − 4 9/16. Write the borrowed inch as sixteenths first.",
        5,
        TATSUOKA,
    ),
    Slip(
        "carry_dropped", "sums",
        "the two fractions made a whole inch more, and that inch were not carried over",
        "The fractions together make more than an inch: where did that inch go?",
        "Work out 4 5/8 + 2 7/8. Is it more or less than 7?",
        6,
        COX,
    ),
    Slip(
        "tops_and_bottoms", "sums",
        "the tops were added and the bottoms were added",
        "Half an inch and half an inch: how much is that? Does your way of adding say so?",
        "Work out 1/4 + 3/8. Find both marks on a tape.",
        5,
        CARPENTER,
    ),
    Slip(
        "halved_bottom", "sums",
        "a fraction were halved by halving what stands under the line instead of doubling it",
        "Is half of your fraction smaller than the fraction was?",
        "What is half of 3/4 in? What is half of 5/8 in? Find them on a tape.",
        7,
        PRACTICE,
    ),
    Slip(
        "multiplied_one_part", "sums",
        "only the whole inches were multiplied, or only the fraction",
        "How much is the fraction, taken that often, and how much are the whole inches?",
        "Work out 2 × 1 1/2, then 10 × 1 3/8. Add it up on the tape.",
        7,
    ),
    Slip(
        "fraction_dropped", "sums",
        "a fraction were dropped on the way",
        "Is each fraction that you began with in your sum?",
        "Work out 12 3/8 − 2 1/4. Which fraction is left?",
        5,
    ),
)  # fmt: skip
NAMED = {slip.name: slip for slip in SLIPS}

Sum: TypeAlias = Callable[[Fraction, Fraction], Fraction | None]


def inch_not_lowered(left: Fraction, right: Fraction) -> Fraction | None:
    """Difference in which an inch was borrowed and the whole inches stayed as they were.

    >>> inch_not_lowered(Fraction("12.25"), Fraction("3.625"))
    Fraction(77, 8)
    """
    return left - right + 1 if _borrows(left, right) else None


def smaller_from_larger(left: Fraction, right: Fraction) -> Fraction | None:
    """Difference of the whole inches, with the difference of the fractions the wrong way round.

    >>> smaller_from_larger(Fraction("12.25"), Fraction("3.625"))
    Fraction(75, 8)
    """
    if not _borrows(left, right):
        return None
    return left // 1 - right // 1 + (right % 1 - left % 1)


def borrowed_ten(left: Fraction, right: Fraction) -> Fraction | None:
    """Difference in which the borrowed inch was ten parts instead of eight or sixteen.

    >>> borrowed_ten(Fraction(113, 16), Fraction(73, 16))
    Fraction(17, 8)

    None where ten parts would leave nothing, or a whole inch and more.
    """
    parts = lcm(left.denominator, right.denominator)
    top = (left % 1 - right % 1) * parts + TEN
    if not _borrows(left, right) or not 0 < top < parts:
        return None
    return left // 1 - 1 - right // 1 + top / parts


def carry_dropped(left: Fraction, right: Fraction) -> Fraction | None:
    """Sum without the inch that the fractions make together.

    >>> carry_dropped(Fraction("4.625"), Fraction("2.875"))
    Fraction(13, 2)
    """
    return left + right - 1 if left % 1 + right % 1 >= 1 else None


def tops_and_bottoms(left: Fraction, right: Fraction) -> Fraction | None:
    """Sum of the whole inches, with the fractions' tops added and their bottoms added.

    >>> tops_and_bottoms(Fraction("4.25"), Fraction("2.375"))
    Fraction(19, 3)
    """
    one, other = left % 1, right % 1
    if not one or not other:
        return None
    tops, bottoms = one.numerator + other.numerator, one.denominator + other.denominator
    return left // 1 + right // 1 + Fraction(tops, bottoms)


def halved_bottom(whole: Fraction, _two: Fraction) -> Fraction | None:
    """Half of a length, its fraction's bottom halved: half of 3/4 becomes 3/2.

    >>> halved_bottom(Fraction(3, 4), Fraction(2))
    Fraction(3, 2)
    """
    return Fraction(whole // 1, 2) + 2 * (whole % 1) if whole % 1 else None


def whole_times(times: Fraction, size: Fraction) -> Fraction | None:
    """Product in which only the whole inches were multiplied: 2 × 1 1/2 becomes 2 1/2.

    >>> whole_times(Fraction(10), Fraction("1.375"))
    Fraction(83, 8)
    """
    return times * (size // 1) + size % 1 if _is_mixed(size) else None


def fraction_times(times: Fraction, size: Fraction) -> Fraction | None:
    """Product in which only the fraction was multiplied: 10 × 1 3/8 becomes 4 3/4.

    None where that is as much as without the fraction.

    >>> fraction_times(Fraction(10), Fraction("1.375"))
    Fraction(19, 4)
    """
    product = size // 1 + times * (size % 1)
    return product if _is_mixed(size) and product != times_whole(times, size) else None


def times_whole(times: Fraction, size: Fraction) -> Fraction | None:
    """Product without the fraction: 2 × 1 1/2 becomes 2.

    >>> times_whole(Fraction(2), Fraction("1.5"))
    Fraction(2, 1)
    """
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


SUMS: dict[type[ast.operator], tuple[tuple[str, Sum], ...]] = {
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
}
SIGNS: dict[type[ast.operator], str] = {ast.Sub: "−", ast.Add: "+", ast.Mult: "×", ast.Div: "÷"}


def wrong_answers(dimension: Dimension, values: Values, units: Units) -> Iterator[Wrong]:
    """The wrong answers of the sums' slips at one step, those that these numbers allow."""
    expression, nodes = _sums(dimension)
    for node in nodes if units == "inch" else ():
        left, right = computed(node.left, values), computed(node.right, values)
        if FINEST % left.denominator or FINEST % right.denominator:
            continue
        for name, wrongly in SUMS[type(node.op)]:
            part = wrongly(left, right)
            if part is not None:
                value = computed(swapped(expression, node, ast.Constant(part)), values)  # type: ignore[arg-type]
                working = partial(_working, name, left, SIGNS[type(node.op)], right, part)
                yield Wrong(NAMED[name], dimension.name, value, _working=working)


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
        return isinstance(node.left, ast.Constant) or _is_count(node.left)
    return type(node.op) in SUMS


def _is_count(node: ast.expr) -> bool:
    return isinstance(node, ast.Name) and node.id in COUNTS


def _working(name: str, left: Fraction, sign: str, right: Fraction, part: Fraction) -> str:
    shown = _unreduced(left, right) if name == "tops_and_bottoms" else written(part)
    return f"{written(left)} {sign} {written(right)} = {shown}"


def _unreduced(left: Fraction, right: Fraction) -> str:
    """The wrong sum as it stands on the paper: 1/2 and 3/4 make 4/6."""
    one, other = left % 1, right % 1
    fraction = f"{one.numerator + other.numerator}/{one.denominator + other.denominator}"
    whole = left // 1 + right // 1
    return f"{whole} {fraction}" if whole else fraction
