"""The cheapest cutting of a few pieces, by trying: nothing is left untried that could be cheaper.

For one hive this takes a moment, and far less than it takes to load HiGHS.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil
from typing import Final, TypeAlias

from hivecalc.cutting.boards.first_fit import preferred
from hivecalc.cutting.boards.knapsack import Item, Pieces
from hivecalc.cutting.boards.problem import LEFT_OUT, Pattern, Problem
from hivecalc.cutting.boards.sets import full_sets

MOST_TRIED: Final = 20_000
State: TypeAlias = tuple[tuple[int, ...], tuple[int, ...]]


class TooManyError(Exception):
    """More had to be tried than was allowed."""


def few(problem: Problem, below: int, tried: int = MOST_TRIED) -> dict[Pattern, int] | None:
    """The cheapest cutting that costs less than this; None if there is none. Nothing is missed.

    >>> from hivecalc.cutting.boards.problem import Kind, Stock
    >>> task = Problem((Kind(50, 2), Kind(40, 2)), (Stock(96, 1, 4),))
    >>> few(task, 4)
    {Pattern(stock=0, pieces=((0, 1), (1, 1))): 2}
    >>> few(task, 2) is None
    True

    Raises TooManyError if that would take more tries than given.
    """
    search = _Search(problem, below, tried)
    wanted = tuple(kind.demand for kind in problem.kinds)
    search.go_on(wanted, tuple(stock.supply for stock in problem.stocks), 0)
    return search.best


@dataclass
class _Search:
    problem: Problem
    below: int
    tries: int
    best: dict[Pattern, int] | None = None
    path: list[Pattern] = field(default_factory=list)
    reached: dict[State, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.order = preferred(self.problem)
        boards = (self.problem.stocks[i] for i in self.order)
        rates = (Fraction(board.cost, board.room) for board in boards if board.room > 0)
        self.rate = min(rates, default=Fraction(0))

    def go_on(self, wanted: tuple[int, ...], stock: tuple[int, ...], cost: int) -> None:
        """Try everything for what is still wanted, out of the boards left."""
        if not any(wanted):
            self._keep_if_cheaper(cost)
        elif self._hopeful(wanted, stock, cost):
            first = next(kind for kind, count in enumerate(wanted) if count)
            for pattern in self._patterns(first, wanted, stock):
                self.path.append(pattern)
                left, boards = self._after(pattern, wanted, stock)
                self.go_on(left, boards, cost + self.problem.price(pattern))
                self.path.pop()

    def _keep_if_cheaper(self, cost: int) -> None:
        if cost < self.below:
            self.below = cost
            self.best = {pattern: self.path.count(pattern) for pattern in self.path}

    def _count(self) -> None:
        self.tries -= 1
        if self.tries < 0:
            raise TooManyError

    def _hopeful(self, wanted: tuple[int, ...], stock: tuple[int, ...], cost: int) -> bool:
        """Whether this can end below the best, and was not reached as cheaply before."""
        before = self.reached.get((wanted, stock))
        if before is not None and before <= cost:
            return False
        self.reached[wanted, stock] = cost
        if self.problem.penalty:
            return cost < self.below
        return cost + ceil(self.problem.size(enumerate(wanted)) * self.rate) < self.below

    def _patterns(
        self, first: int, wanted: tuple[int, ...], stock: tuple[int, ...]
    ) -> Iterator[Pattern]:
        """Ways to cut the next board with the first kind on it, the fullest of a stock first."""
        alike: set[tuple[int, int, bool]] = set()
        for i in self.order:
            board = self.problem.stocks[i]
            if stock[i] and self.problem.allowed(i, first) and board[:2] + board[3:4] not in alike:
                alike.add((board.room, board.cost, board.straight))
                sets = sorted(self._sets(i, first, wanted), key=self.problem.size, reverse=True)
                yield from (Pattern(i, pieces) for pieces in sets)
        if self.problem.penalty:
            yield Pattern(LEFT_OUT, ((first, 1),))

    def _sets(self, stock: int, first: int, wanted: tuple[int, ...]) -> Iterator[Pieces]:
        items = [
            Item(kind, self.problem.kinds[kind].size, 0, wanted[kind])
            for kind in range(first, len(wanted))
            if wanted[kind] and self.problem.allowed(stock, kind)
        ]
        for pieces in full_sets(items, self.problem.stocks[stock].room):
            self._count()
            if pieces[0][0] != first:
                return
            yield pieces

    @staticmethod
    def _after(
        pattern: Pattern, wanted: tuple[int, ...], stock: tuple[int, ...]
    ) -> tuple[tuple[int, ...], tuple[int, ...]]:
        left, boards = list(wanted), list(stock)
        for kind, count in pattern.pieces:
            left[kind] -= count
        if pattern.stock != LEFT_OUT:
            boards[pattern.stock] -= 1
        return tuple(left), tuple(boards)
