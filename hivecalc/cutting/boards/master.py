"""How often to cut by each of some patterns: in fractions of boards, and in whole boards."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf
from typing import Final

from hivecalc.cutting.boards.highs import Rows, in_fractions, in_whole_numbers
from hivecalc.cutting.boards.problem import Pattern, Problem

HAIR: Final = 1e-6
"""What floating numbers may add to a value that is whole."""


def _limited(problem: Problem) -> list[int]:
    return [i for i in range(len(problem.stocks)) if not problem.unlimited(i)]


def rows(problem: Problem, patterns: Sequence[Pattern]) -> Rows:
    """One row a kind: pieces by pattern; one a limited stock: boards it takes, negative.

    >>> from hivecalc.cutting.boards.problem import Kind, Stock
    >>> rows(Problem((Kind(50, 4),), (Stock(100, 1, 2),)), [Pattern(0, ((0, 2),))])
    Rows(entries=[(0, 0, 2.0), (1, 0, -1.0)], low=[4.0, -2.0], high=[inf, inf])
    """
    row_of = {stock: len(problem.kinds) + n for n, stock in enumerate(_limited(problem))}
    entries = [
        (row, column, float(value))
        for column, pattern in enumerate(patterns)
        for row, value in (*pattern.pieces, (row_of.get(pattern.stock, -1), -1))
        if row >= 0
    ]
    pieces = [float(kind.demand) for kind in problem.kinds]
    boards = [-float(problem.stocks[i].supply) for i in row_of]
    return Rows(entries, pieces + boards, [inf] * (len(pieces) + len(boards)))


def costs_at_most(problem: Problem, patterns: Sequence[Pattern], most: float) -> Rows:
    """One row: what the boards by these patterns cost, and the most they may.

    >>> from hivecalc.cutting.boards.problem import Kind, Stock
    >>> costs_at_most(Problem((Kind(50, 4),), (Stock(100, 3, 2),)), [Pattern(0, ((0, 2),))], 6)
    Rows(entries=[(0, 0, 3.0)], low=[-inf], high=[6])
    """
    prices = [float(problem.price(pattern)) for pattern in patterns]
    return Rows([(0, i, price) for i, price in enumerate(prices) if price], [-inf], [most])


@dataclass(frozen=True)
class Relaxed:
    """Boards by pattern in fractions, and what a piece and a limited board are worth at that."""

    boards: list[float]
    cost: float
    pieces_worth: list[float]
    stocks_worth: dict[int, float]


def relaxed(problem: Problem, patterns: Sequence[Pattern], seconds: float) -> Relaxed | None:
    """The cheapest cutting by these patterns if boards could be cut in fractions.

    >>> from hivecalc.cutting.boards.problem import Kind, Stock
    >>> task = Problem((Kind(50, 3), Kind(40, 2)), (Stock(100, 1, 5),))
    >>> relaxed(task, [Pattern(0, ((0, 2),)), Pattern(0, ((0, 1), (1, 1)))], 5).cost
    2.5

    None if it is not found in time.
    """
    costs = [float(problem.price(pattern)) for pattern in patterns]
    found = in_fractions(costs, rows(problem, patterns), seconds)
    if found is None:
        return None
    kinds, worth = len(problem.kinds), found.worth
    stocks = dict(zip(_limited(problem), worth[kinds:], strict=True))
    return Relaxed(found.values, found.cost, worth[:kinds], stocks)


@dataclass(frozen=True)
class Whole:
    """A cutting in whole boards, what no cutting by these patterns costs less than, and if done."""

    cutting: dict[Pattern, int] | None
    bound: float
    done: bool


def whole(problem: Problem, patterns: Sequence[Pattern], seconds: float, most: float) -> Whole:
    """The cheapest cutting by these patterns that costs so much at most, if there is one.

    >>> from hivecalc.cutting.boards.problem import Kind, Stock
    >>> task = Problem((Kind(50, 2), Kind(40, 2)), (Stock(96, 1, 4),))
    >>> whole(task, [Pattern(0, ((0, 1), (1, 1))), Pattern(0, ((1, 2),))], 5, 4)
    Whole(cutting={Pattern(stock=0, pieces=((0, 1), (1, 1))): 2}, bound=2.0, done=True)
    """
    if not patterns:
        return Whole(None, inf, done=True)
    costs = [float(problem.price(pattern)) for pattern in patterns]
    both = rows(problem, patterns).followed_by(costs_at_most(problem, patterns, most))
    found = in_whole_numbers(costs, inf, both, seconds)
    if found.values is None:
        return Whole(None, found.bound, found.done)
    counts = zip(patterns, found.values, strict=True)
    return Whole({pattern: n for pattern, n in counts if n}, found.bound, found.done)
