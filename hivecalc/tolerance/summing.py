"""Errors added up: the worst way, and by chance as a root-sum-square."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, TypeAlias

from hivecalc.length import Length

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats: TypeAlias = NDArray[np.float64]
from hivecalc.tolerance.care import Contributor


def worst_case(contributors: Iterable[Contributor]) -> Length:
    """How far a gap is off, more or less, when all its sizes are off the worst way at once.

    >>> sizes = [Contributor(name=n, tolerance=Fraction(1, b)) for n, b in zip("abc", (32, 32, 64))]
    >>> worst_case(sizes)
    Fraction(5, 64)

    In inches: the sum of |sensitivity x tolerance|, those of one group first put together.
    """
    return sum((abs(reach) for reach, _ in _reaches(contributors)), Fraction(0))


def root_sum_square(contributors: Iterable[Contributor]) -> float:
    """How far a gap is off, more or less, when errors come by chance and partly cancel.

    >>> sizes = [Contributor(name=n, tolerance=Fraction(1, b)) for n, b in zip("abc", (32, 32, 64))]
    >>> root_sum_square(sizes) == 3 / 64
    True

    In inches: the root of the sum of (sensitivity x tolerance) squared. It takes errors that are
    as often above as below, each by itself but for the groups.
    """
    return math.sqrt(_square(contributors))


def _square(contributors: Iterable[Contributor]) -> Fraction:
    squares = (reach * reach / pieces for reach, pieces in _reaches(contributors))
    return sum(squares, Fraction(0))


def _reaches(contributors: Iterable[Contributor]) -> list[tuple[Fraction, int]]:
    """What each separate error does to the gap, and of how many pieces it is made."""
    alone, groups = [], dict[str, Fraction]()
    for one in contributors:
        if one.group:
            groups[one.group] = groups.get(one.group, Fraction(0)) + one.reach
        else:
            alone.append((one.reach, one.pieces))
    return alone + [(reach, 1) for reach in groups.values()]


def ranked(contributors: Sequence[Contributor]) -> tuple[Contributor, ...]:
    """The same sizes with their shares of the spread, the largest share first.

    >>> sizes = [Contributor(name=n, tolerance=Fraction(1, b)) for n, b in zip("abc", (64, 32, 32))]
    >>> [(c.name, round(c.share, 2)) for c in ranked(sizes)]
    [('b', 0.44), ('c', 0.44), ('a', 0.11)]

    A share below 0 is that of a size that takes back what others of its group do.
    """
    total = _square(contributors)
    shared = [replace(c, share=_share(c, contributors, total)) for c in contributors]
    return tuple(sorted(shared, key=lambda c: -c.share))


def _share(one: Contributor, contributors: Iterable[Contributor], total: Fraction) -> float:
    if not total:
        return 0.0
    group = [c for c in contributors if c.group == one.group] if one.group else [one]
    return float(one.reach * sum(c.reach for c in group) / one.pieces / total)
