"""Fewer different patterns for the same cost: less to set, and less to mix up at the saw."""

from collections.abc import Iterator, Sequence
from heapq import nsmallest
from itertools import islice
from math import inf
from typing import Final

from hivecalc.cutting.boards.highs import Rows, in_whole_numbers
from hivecalc.cutting.boards.knapsack import Item
from hivecalc.cutting.boards.master import costs_at_most, rows
from hivecalc.cutting.boards.problem import Cutting, Pattern, Problem, without_surplus
from hivecalc.cutting.boards.sets import full_sets

MANY_BOARDS: Final = 6
MANY_ALIKE: Final = 4
MOST_KINDS: Final = 40
MOST_PATTERNS: Final = 60
MOST_LOOKED_AT: Final = 5000


def fewer_patterns(problem: Problem, cutting: Cutting, seconds: float) -> dict[Pattern, int]:
    """The same cutting, or one as cheap with fewer different patterns if one is found in time.

    >>> from hivecalc.cutting.boards.problem import Kind, Stock
    >>> task = Problem((Kind(50, 8), Kind(40, 8)), (Stock(100, 1, 16),))
    >>> two = {Pattern(0, ((0, 1), (1, 1))): 6, Pattern(0, ((0, 2),)): 1, Pattern(0, ((1, 2),)): 1}
    >>> fewer_patterns(task, two, 1)
    {Pattern(stock=0, pieces=((0, 1), (1, 1))): 8}

    It is tried where many boards are cut and many pieces are alike; else there is little to gain.
    """
    if seconds <= 0 or not _worth_trying(problem, cutting):
        return dict(cutting)
    patterns = [*dict.fromkeys([*cutting, *_promising(problem)])]
    found = _fewest(problem, patterns, problem.cost(cutting), seconds)
    if found is None:
        return dict(cutting)
    return min(dict(cutting), without_surplus(problem, found), key=len)


def _worth_trying(problem: Problem, cutting: Cutting) -> bool:
    kinds = len(problem.kinds)
    many_boards, many_alike = (
        sum(cutting.values()) > MANY_BOARDS,
        problem.pieces >= MANY_ALIKE * kinds,
    )
    return many_boards and many_alike and kinds <= MOST_KINDS


def _promising(problem: Problem) -> list[Pattern]:
    """Full boards that can be cut most often, and leave the least."""

    def key(pattern: Pattern) -> tuple[int, int]:
        repeats = min(problem.kinds[kind].demand // count for kind, count in pattern.pieces)
        left = problem.stocks[pattern.stock].room - problem.size(pattern.pieces)
        return -repeats, left

    return nsmallest(MOST_PATTERNS, islice(_full_boards(problem), MOST_LOOKED_AT), key=key)


def _full_boards(problem: Problem) -> Iterator[Pattern]:
    for i, stock in enumerate(problem.stocks):
        items = [
            Item(kind, k.size, 0, k.demand)
            for kind, k in enumerate(problem.kinds)
            if problem.allowed(i, kind)
        ]
        yield from (Pattern(i, pieces) for pieces in full_sets(items, stock.room))


def _fewest(
    problem: Problem, patterns: Sequence[Pattern], cost: int, seconds: float
) -> dict[Pattern, int] | None:
    """A cutting for this cost at most, by as few of these patterns as can be found in time.

    Each pattern has two unknowns: how many boards, and whether it is used at all.
    """
    n = len(patterns)
    given = rows(problem, patterns).followed_by(costs_at_most(problem, patterns, cost))
    most = [float(_useful(problem, pattern)) for pattern in patterns]
    boards = [(i, i, 1.0) for i in range(n)]
    used = [(i, n + i, -most[i]) for i in range(n)]
    none_unused = Rows([*boards, *used], [-inf] * n, [0.0] * n)
    all_rows = given.followed_by(none_unused)
    found = in_whole_numbers([0.0] * n + [1.0] * n, [*most, *[1.0] * n], all_rows, seconds)
    if found.values is None:
        return None
    return {p: count for p, count in zip(patterns, found.values, strict=False) if count}


def _useful(problem: Problem, pattern: Pattern) -> int:
    """How many boards of a pattern could be of use at most."""
    return max(-(-problem.kinds[kind].demand // count) for kind, count in pattern.pieces)
