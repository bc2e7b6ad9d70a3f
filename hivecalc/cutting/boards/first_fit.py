"""Board after board: the longest piece left, a board that holds it, and what else goes on it."""

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from typing import TypeAlias

from hivecalc.cutting.boards.problem import LEFT_OUT, Pattern, Problem

Choice: TypeAlias = Callable[[Problem, int, list[int], Sequence[int]], dict[int, int]]
"""Pieces for a room: of a problem, so many wanted, of these kinds; of the first at least one."""


def first_fit(problem: Problem) -> dict[Pattern, int]:
    """What a careful person cuts: the longest piece left, always into the first board it fits.

    >>> from hivecalc.cutting.boards.problem import Kind, Stock
    >>> first_fit(Problem((Kind(50, 2), Kind(22, 4)), (Stock(96, 1, 6),)))
    {Pattern(stock=0, pieces=((0, 1), (1, 2))): 2}
    """
    return board_by_board(problem, longest_first)


def longest_first(
    problem: Problem, room: int, wanted: list[int], kinds: Sequence[int]
) -> dict[int, int]:
    """Pieces that a careful person takes off a board: as many of the longest kind as fit, and on.

    >>> from hivecalc.cutting.boards.problem import Kind
    >>> longest_first(Problem((Kind(50, 2), Kind(22, 4)), ()), 96, [2, 4], [0, 1])
    {0: 1, 1: 2}
    """
    chosen = {}
    for kind in kinds:
        size = problem.kinds[kind].size
        if size <= room:
            chosen[kind] = min(wanted[kind], room // size)
            room -= chosen[kind] * size
    return chosen


def board_by_board(problem: Problem, choice: Choice) -> dict[Pattern, int]:
    """A cutting of the whole problem, each board filled by the choice.

    >>> from hivecalc.cutting.boards.problem import Kind, Stock
    >>> board_by_board(Problem((Kind(50, 2),), (Stock(96, 1, 1),), 2), longest_first)
    {Pattern(stock=0, pieces=((0, 1),)): 1, Pattern(stock=-1, pieces=((0, 1),)): 1}

    Pieces for which no board is left are left out.
    """
    cutting: dict[Pattern, int] = {}
    for pattern, count in _Boards(problem, choice).patterns():
        cutting[pattern] = cutting.get(pattern, 0) + count
    return cutting


class _Boards:
    def __init__(self, problem: Problem, choice: Choice) -> None:
        self.problem, self.choice, self.order = problem, choice, preferred(problem)
        self.wanted = [kind.demand for kind in problem.kinds]
        self.left = [stock.supply for stock in problem.stocks]
        kinds = range(len(problem.kinds))
        self.allowed = [[k for k in kinds if problem.allowed(i, k)] for i in range(len(self.left))]

    def patterns(self) -> Iterator[tuple[Pattern, int]]:
        """Patterns with how many boards are cut so, until nothing is wanted any more."""
        for first in range(len(self.wanted)):
            while self.wanted[first]:
                fits = (i for i in self.order if self.left[i] and self.problem.allowed(i, first))
                stock = next(fits, LEFT_OUT)
                yield self._left_out(first) if stock == LEFT_OUT else self._cut(stock)

    def _left_out(self, kind: int) -> tuple[Pattern, int]:
        count, self.wanted[kind] = self.wanted[kind], 0
        return Pattern(LEFT_OUT, ((kind, 1),)), count

    def _cut(self, stock: int) -> tuple[Pattern, int]:
        """Fill a board, and cut as many like it as the stock and the wanted pieces allow."""
        kinds = [kind for kind in self.allowed[stock] if self.wanted[kind]]
        pieces = self.choice(self.problem, self.problem.stocks[stock].room, self.wanted, kinds)
        alike = min(self.left[stock], *(self.wanted[k] // n for k, n in pieces.items()))
        self.left[stock] -= alike
        for kind, count in pieces.items():
            self.wanted[kind] -= count * alike
        return Pattern(stock, tuple(sorted(pieces.items()))), alike


def preferred(problem: Problem) -> list[int]:
    """Stocks in the order to take them: least cost for the room; crooked boards before straight.

    >>> from hivecalc.cutting.boards.problem import Stock
    >>> preferred(Problem((), (Stock(96, 3, 9), Stock(144, 4, 9), Stock(30, 0, 1))))
    [2, 1, 0]
    """

    def key(stock: int) -> tuple[Fraction, bool, int]:
        board = problem.stocks[stock]
        return Fraction(board.cost, max(1, board.room)), board.straight, board.rank

    return sorted(range(len(problem.stocks)), key=key)
