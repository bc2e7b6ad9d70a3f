"""A first cutting, and which pieces there are not enough sheets for."""

import time
from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from typing import Final

from hivecalc.cutting.sheets.holding import Holding
from hivecalc.cutting.sheets.packing import PATIENCE, Packing, greedy
from hivecalc.cutting.sheets.problem import Cutting, Mix, Problem, left_out, mix_of

SECONDS: Final = 2.0


def started(problem: Problem) -> tuple[Problem, Cutting]:
    """The problem without what there are not enough sheets for, and a cutting of all the rest.

    >>> from hivecalc.cutting.sheets.problem import Kind, Stock
    >>> problem = Problem((Kind(5, 5, 3),), (Stock(9, 10, 1, 1, endless=False),))
    >>> less, cutting = started(problem)
    >>> less.demands, sum(cutting.values())
    ((2,), 1)

    Pieces that only sheets of few give are laid on these first, as many as can be.
    """
    cutting = greedy(problem)
    if not any(left_out(problem.demands, cutting)):
        return problem, cutting
    scarce = [not any(s.endless and s.gives(k) for s in problem.stocks) for k in problem.kinds]
    kept = most_of(_asking(problem, [d * s for d, s in zip(problem.demands, scarce, strict=True)]))
    less = left_out(problem.demands, kept)
    demands = [d - n * s for d, n, s in zip(problem.demands, less, scarce, strict=True)]
    problem = _asking(problem, demands)
    others = _without(_asking(problem, left_out(demands, kept)), mix_of(problem, kept))
    return problem, Counter(kept) + Counter(greedy(others))


def most_of(problem: Problem) -> Cutting:
    """A cutting that leaves out as little as can be, from sheets of which there are few.

    >>> from hivecalc.cutting.sheets.problem import Kind, Stock
    >>> found = most_of(Problem((Kind(5, 5, 3),), (Stock(9, 10, 1, 1, endless=False),)))
    >>> [pattern.counts for pattern in found]
    [(2,)]

    It is exact where the pieces are few; else it tries for two seconds at most.
    """
    mix = tuple(0 if stock.endless else stock.count for stock in problem.stocks)
    if Holding.can(problem):
        return Holding(problem).most(mix)
    packing, end = Packing(problem, mix), time.monotonic() + SECONDS
    while packing.left and packing.stale < PATIENCE and time.monotonic() < end:
        packing.try_again()
    return packing.cutting


def _asking(problem: Problem, demands: Iterable[int]) -> Problem:
    """The problem with other demands."""
    kinds = zip(problem.kinds, demands, strict=True)
    return replace(problem, kinds=tuple(replace(kind, demand=n) for kind, n in kinds))


def _without(problem: Problem, mix: Mix) -> Problem:
    """The problem without sheets that are taken."""
    stocks = zip(problem.stocks, mix, strict=True)
    return replace(problem, stocks=tuple(replace(s, count=s.count - n) for s, n in stocks))
