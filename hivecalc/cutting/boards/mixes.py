"""Which boards might do at all: mixes of stock long enough together, by what they cost."""

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING, Final, NamedTuple

from hivecalc.cutting.boards.first_fit import preferred
from hivecalc.cutting.boards.knapsack import portions
from hivecalc.cutting.boards.problem import Problem
from hivecalc.cutting.interrupts import interrupts_held

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

MOST_COSTS: Final = 250_000
NEVER: Final = -1
LARGEST_SUM: Final = 1 << 61


class Mix(NamedTuple):
    """Boards of each stock, and what they cost together."""

    cost: int
    boards: tuple[int, ...]


def least_by_material(problem: Problem) -> int:
    """What the boards cost at least, were nothing of them wasted but the kerfs.

    >>> from hivecalc.cutting.boards.problem import Kind, Stock
    >>> least_by_material(Problem((Kind(22, 10),), (Stock(96, 5, 10),)))
    12
    """
    wanted, cost = problem.material, Fraction(0)
    for i in preferred(problem):
        stock = problem.stocks[i]
        if wanted > 0 and stock.supply and stock.room > 0:
            boards = min(Fraction(stock.supply), Fraction(wanted, stock.room))
            wanted, cost = wanted - int(boards * stock.room), cost + boards * stock.cost
    return -(-cost.numerator // cost.denominator)


class Mixes:
    """The mixes of boards that are long enough together, up to the cost given.

    >>> from hivecalc.cutting.boards.problem import Kind, Stock
    >>> task = Problem((Kind(22, 5),), (Stock(96, 2, 5), Stock(144, 3, 5)))
    >>> [*Mixes(task, 5).from_cost(0)]
    [Mix(cost=3, boards=(0, 1)), Mix(cost=4, boards=(2, 0)), Mix(cost=5, boards=(1, 1))]

    No cutting costs what no mix costs. Boards that cost nothing are all in each mix. Row i of the
    table holds, for every cost, how long the first i stocks are at most, if they cost just that.
    """

    def __init__(self, problem: Problem, most: int) -> None:
        with interrupts_held():
            import numpy as np  # noqa: PLC0415 - heavy, so loaded where it is used

        self.problem, self.most = problem, most
        boards = sum(self._count(i) for i in range(len(problem.stocks)))
        cell = 1 + problem.largest_room * max(1, boards) // LARGEST_SUM
        self.rooms = [-(-stock.room // cell) for stock in problem.stocks]
        self.enough = problem.material // cell
        row = np.full(most + 1, NEVER, dtype=np.int64)
        row[0] = 0
        self.rows = [row]
        for i in range(len(problem.stocks)):
            self.rows.append(self._with_stock(i, self.rows[-1]))

    def _count(self, stock: int) -> int:
        board = self.problem.stocks[stock]
        return min(
            board.supply,
            self.problem.pieces,
            self.most // board.cost if board.cost else board.supply,
        )

    def _with_stock(self, stock: int, row: "NDArray[np.int64]") -> "NDArray[np.int64]":
        import numpy as np  # noqa: PLC0415

        cost, row = self.problem.stocks[stock].cost, row.copy()
        for portion in portions(self._count(stock)):
            start = row[: len(row) - portion * cost]
            longer = np.where(start == NEVER, NEVER, start + portion * self.rooms[stock])
            np.maximum(row[portion * cost :], longer, out=row[portion * cost :])
        return row

    def from_cost(self, cost: int) -> Iterator[Mix]:
        """Mixes long enough for all pieces, from this cost on, the cheapest first."""
        for v in range(cost, self.most + 1):
            if self.rows[-1][v] >= self.enough:
                yield from (Mix(v, boards) for boards in self._of(len(self.rooms), v, self.enough))

    def _of(self, stocks: int, cost: int, wanted: int) -> Iterator[tuple[int, ...]]:
        """Boards of the first stocks that cost just this and are long enough together."""
        if stocks == 0:
            yield ()
            return
        board, room = self.problem.stocks[stocks - 1], self.rooms[stocks - 1]
        most = self._count(stocks - 1)
        for count in range(most if board.cost == 0 else 0, most + 1):
            rest = cost - count * board.cost
            if rest < 0:
                return
            if self.rows[stocks - 1][rest] >= max(0, wanted - count * room):
                for boards in self._of(stocks - 1, rest, wanted - count * room):
                    yield (*boards, count)


def mixes(problem: Problem, most: int) -> Mixes | None:
    """The mixes up to this cost; None where there are too many costs to look at each.

    >>> mixes(Problem((), ()), 10**9) is None
    True
    """
    return Mixes(problem, most) if most <= MOST_COSTS else None
