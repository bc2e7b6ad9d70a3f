"""How far the sums of a rule reach, where a choice of the larger or smaller decides in them."""

import ast
import itertools
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, TypeAlias

from hivecalc.fit import Rule

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats: TypeAlias = NDArray[np.float64]
from hivecalc.tolerance.arithmetic import Arithmetic, rule_value
from hivecalc.tolerance.care import STOP_BLOCK, Contributor, Deviation
from hivecalc.tolerance.summing import worst_case


@dataclass(frozen=True)
class Branch:
    """A rule with each choice of the larger or smaller decided one way: a plain sum of sizes."""

    arithmetic: Arithmetic[Fraction]
    middle: Fraction
    contributors: Sequence[Contributor]

    @property
    def least(self) -> Fraction:
        """The least that the sum comes to."""
        return self.middle - worst_case(self.contributors)

    @property
    def most(self) -> Fraction:
        """The most that the sum comes to."""
        return self.middle + worst_case(self.contributors)


def branches_of(
    rule: str, sizes: Mapping[str, Fraction], deviations: Sequence[Deviation]
) -> list[Branch]:
    """The rule's plain sums, one for each way in which its choices can fall."""
    calls: dict[ast.Call, int] = {}

    def noted(call: ast.Call, numbers: Sequence[Fraction]) -> Fraction:
        calls[call] = len(numbers)
        return numbers[0]

    Arithmetic(noted).value(rule, dict(sizes))
    picks = itertools.product(*(range(n) for n in calls.values()))
    decided = (_decided(dict(zip(calls, pick, strict=True))) for pick in picks)
    return [_branch(rule, d, sizes, deviations) for d in decided]


def _decided(picks: Mapping[ast.Call, int]) -> Arithmetic[Fraction]:
    return Arithmetic(lambda call, numbers: numbers[picks[call]])


def _branch(
    rule: str,
    arithmetic: Arithmetic[Fraction],
    sizes: Mapping[str, Fraction],
    deviations: Iterable[Deviation],
) -> Branch:
    contributors = [_contributor(rule, arithmetic, sizes, d) for d in deviations]
    return Branch(arithmetic, arithmetic.value(rule, dict(sizes)), contributors)


def _contributor(
    rule: str,
    arithmetic: Arithmetic[Fraction],
    sizes: Mapping[str, Fraction],
    deviation: Deviation,
) -> Contributor:
    """A size with its sensitivity: exact where the rule is a sum, as all are but the slope."""
    step, size = deviation.tolerance or STOP_BLOCK, sizes[deviation.name]
    less, more = (
        arithmetic.value(rule, {**sizes, deviation.name: size + s}) for s in (-step, step)
    )
    return Contributor(**vars(deviation), sensitivity=(more - less) / (2 * step))


def worst_ends(
    rule: str, branches: Sequence[Branch], sizes: Mapping[str, Fraction]
) -> tuple[Fraction, Fraction]:
    """The least and the most that a rule can come to, everything off by its tolerance at most."""
    spots = [sizes, *(_corner(b.contributors, sizes, way) for b in branches for way in (-1, 1))]
    reached = [rule_value(rule, spot) for spot in spots]
    sums = [[b.arithmetic.value(rule, dict(spot)) for b in branches] for spot in spots]
    if len(branches) > 1 and reached == [*map(min, sums)]:
        return min(b.least for b in branches), _most_of_smallest(branches)
    if len(branches) > 1 and reached == [*map(max, sums)]:
        return -_most_of_smallest(branches, -1), max(b.most for b in branches)
    if len(branches) > 1:
        reached = [rule_value(rule, spot) for spot in _all_corners(branches, sizes)]
    return min(reached), max(reached)


def _all_corners(
    branches: Sequence[Branch], sizes: Mapping[str, Fraction]
) -> Iterator[dict[str, Fraction]]:
    """The sizes with every error at either end: enough where each moves a rule one way only."""
    moving = [c for c in branches[0].contributors if any(_reaches_by(c, b) for b in branches)]
    keys = list(dict.fromkeys(c.group or c.name for c in moving))
    for ways in itertools.product((-1, 1), repeat=len(keys)):
        way = dict(zip(keys, ways, strict=True))
        moves = {c.name: c.tolerance * way[c.group or c.name] for c in moving}
        yield {**sizes, **{n: sizes[n] + moved for n, moved in moves.items()}}


def _reaches_by(one: Contributor, branch: Branch) -> bool:
    return any(c.name == one.name and c.reach for c in branch.contributors)


def _corner(
    contributors: Sequence[Contributor], sizes: Mapping[str, Fraction], way: int
) -> dict[str, Fraction]:
    """The sizes with every error at its end, each the way that moves the gap this way."""
    moved, reaches = dict(sizes), _reach_of(contributors)
    for one in contributors:
        reach = reaches[one.group or one.name]
        moved[one.name] += one.tolerance * way * ((reach > 0) - (reach < 0))
    return moved


def _reach_of(contributors: Iterable[Contributor]) -> dict[str, Fraction]:
    """What each separate error does to the gap, by its group or else its name."""
    found: dict[str, Fraction] = {}
    for one in contributors:
        key = one.group or one.name
        found[key] = found.get(key, Fraction(0)) + one.reach
    return found


def _most_of_smallest(branches: Sequence[Branch], sign: int = 1) -> Fraction:
    """The most that the smallest of some sums can come to (with sign -1, of their opposites).

    However two sums are mixed, the smaller of them stays below the mixture: the mixture with the
    lowest top says how high it can come. That top is lowest where one error drops out of it.
    """
    lines = [(sign * b.middle, _reach_of(b.contributors)) for b in branches]
    tops = [
        share * one + (1 - share) * other + sum(abs(share * a[k] + (1 - share) * b[k]) for k in a)
        for (one, a), (other, b) in itertools.combinations(lines, 2)
        for share in _mixtures(a, b)
    ]
    return min(tops)


def _mixtures(a: Mapping[str, Fraction], b: Mapping[str, Fraction]) -> set[Fraction]:
    """The shares of the first sum at which an error drops out, and all or nothing of it."""
    shares = {b[k] / (b[k] - a[k]) for k in a if (a[k] < 0 < b[k]) or (b[k] < 0 < a[k])}
    return shares | {Fraction(0), Fraction(1)}


def deciding_branch(
    branches: Sequence[Branch], rule: Rule, least: Fraction, most: Fraction
) -> Branch:
    """The sum that brings a rule nearest to failing."""
    if _low_side(rule, least, most):
        return min(branches, key=lambda b: abs(b.least - least))
    return min(branches, key=lambda b: abs(b.most - most))


def _low_side(rule: Rule, least: Fraction, most: Fraction) -> bool:
    """Whether a rule comes nearer to failing at its low limit than at its high one."""
    if rule.high is None or rule.low is None:
        return rule.high is None
    return least - rule.low <= rule.high - most
