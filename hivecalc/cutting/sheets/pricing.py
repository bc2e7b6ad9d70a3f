"""What one sheet of each stock is worth at most, when each kind of piece has a worth."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import TypeAlias

from hivecalc.cutting.sheets.blocks import counts_of
from hivecalc.cutting.sheets.edges import on_edge, with_edges_left
from hivecalc.cutting.sheets.knapsack import Effort, block_above
from hivecalc.cutting.sheets.master import Column
from hivecalc.cutting.sheets.problem import Pattern, Problem
from hivecalc.cutting.sheets.worth import Points, Worth


@dataclass(frozen=True)
class Priced:
    """What no sheet of each stock is worth more than, and what makes it worth a lot.

    `columns` may give more of a kind than is wanted, or more than can be cut where sizes were
    rounded down; `patterns` can be cut.
    """

    most: tuple[int, ...]
    columns: tuple[Column, ...]
    patterns: tuple[Pattern, ...] = ()


Pricing: TypeAlias = Callable[[Sequence[int], Sequence[int]], Priced]
"""Prices from what each kind is worth, as far as sheets are worth more than their floors."""


def step_for(problem: Problem, points: int) -> int:
    """The smallest step in which a table has no more points than this.

    >>> from hivecalc.cutting.sheets.problem import Kind, Stock
    >>> small = Problem((Kind(30, 50, 9), Kind(41, 17, 9)), (Stock(480, 960, 1, 9),))
    >>> step_for(small, 100_000), step_for(small, 500)
    (1, 16)

    It is never longer than a side of a piece.
    """
    shortest = min(kind.narrow for kind in problem.kinds)
    step = 1
    while 2 * step <= shortest and _points(problem, step) > points:
        step *= 2
    return step


def _points(problem: Problem, step: int) -> int:
    wide = max(stock.width for stock in problem.stocks) // step
    long = max(stock.length for stock in problem.stocks) // step
    ways = [way for kind in problem.kinds for way in kind.ways()]
    across = Points((w // step for _, w, _ in ways), wide)
    along = Points((length // step for _, _, length in ways), long)
    return len(across.sizes) * len(along.sizes)


def by_table(problem: Problem, step: int) -> Pricing:
    """Prices from a table in units of this step, as if there were no end of each kind."""
    return partial(_by_table, problem, step)


def _by_table(problem: Problem, step: int, values: Sequence[int], _floors: Sequence[int]) -> Priced:
    worth = _worth(problem, values, step)
    most = tuple(worth.of(stock.width, stock.length) for stock in problem.stocks)
    patterns = tuple(_patterns(problem, worth))
    exact = tuple(_on_edges(problem, patterns)) if step == 1 else ()
    return Priced(most, tuple((p.stock, p.counts) for p in patterns), exact)


def by_layouts(problem: Problem, step: int) -> Pricing:
    """Layouts from a table in which pieces are rounded up: they can be cut, and prove nothing."""
    return partial(_by_layouts, problem, step)


def _by_layouts(
    problem: Problem, step: int, values: Sequence[int], _floors: Sequence[int]
) -> Priced:
    worth = _worth(problem, values, step, up=True)
    patterns = tuple(_on_edges(problem, _patterns(problem, worth)))
    return Priced((), tuple((p.stock, p.counts) for p in patterns), patterns)


def _worth(problem: Problem, values: Sequence[int], step: int, *, up: bool = False) -> Worth:
    wide = max(stock.width for stock in problem.stocks)
    long = max(stock.length for stock in problem.stocks)
    return Worth(problem.kinds, values, (wide, long), step, up=up)


def _patterns(problem: Problem, worth: Worth) -> Iterator[Pattern]:
    for number, stock in enumerate(problem.stocks):
        if block := worth.block(stock.width, stock.length):
            yield Pattern(number, counts_of(block, len(problem.kinds)), block)


def _on_edges(problem: Problem, patterns: Iterable[Pattern]) -> Iterator[Pattern]:
    """Patterns in which all pieces that must lie on the left edge do."""
    for pattern in patterns:
        edge = problem.stocks[pattern.stock].edge or not on_edge(pattern.counts, problem.kinds)
        if edge and (block := with_edges_left(pattern.block, problem.kinds)):
            yield replace(pattern, block=block)


def by_search(problem: Problem, effort: Effort) -> Pricing:
    """Prices from the exact search, with so much effort a stock."""
    return partial(_by_search, problem, effort)


def _by_search(
    problem: Problem, effort: Effort, values: Sequence[int], floors: Sequence[int]
) -> Priced:
    most, patterns = [], []
    for number, stock in enumerate(problem.stocks):
        found = block_above(problem.kinds, values, stock, floors[number], effort)
        most.append(found.bound)
        if found.block:
            counts = counts_of(found.block, len(values))
            patterns.append(Pattern(number, counts, found.block))
    return Priced(tuple(most), tuple((p.stock, p.counts) for p in patterns), tuple(patterns))
