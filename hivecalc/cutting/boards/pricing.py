"""Patterns worth their board at given prices of pieces, and the bound which those prices prove."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Final

from hivecalc.cutting.boards.knapsack import Item, Pieces, Worth
from hivecalc.cutting.boards.problem import Pattern, Problem

SCALE: Final = 10**12
CELLS: Final = 6_000_000
COARSEST: Final = 4096


@dataclass(frozen=True)
class Prices:
    """What a piece of each kind is worth, in whole numbers of 1/`scale` of the cost."""

    problem: Problem
    worth: tuple[int, ...]
    scale: int

    @cached_property
    def cell(self) -> Fraction:
        """How long one cell of the tables is: one unit, or more where there would be too many."""
        cells = max(COARSEST, CELLS // (len(self.problem.kinds) + 1))
        return max(Fraction(1), Fraction(self.problem.largest_room, cells))

    def room(self, stock: int) -> int:
        """Cells that a board of this stock has."""
        return self.problem.stocks[stock].room // self.cell

    def items(self, *, straight: bool) -> list[Item]:
        """Kinds that may come out of such a board."""
        return [
            Item(i, kind.size, worth, kind.demand)
            for i, (kind, worth) in enumerate(zip(self.problem.kinds, self.worth, strict=True))
            if kind.demand and (straight or not kind.straight)
        ]

    def _tables(self, *, up: bool) -> dict[bool, Worth]:
        cells = self.problem.largest_room // self.cell
        tables = {}
        for straight in {stock.straight for stock in self.problem.stocks if stock.supply}:
            items = self.items(straight=straight)
            sizes = [int(-(-i.size // self.cell) if up else i.size // self.cell) for i in items]
            tables[straight] = Worth(items, sizes, int(cells))
        return tables

    @cached_property
    def fitting(self) -> dict[bool, Worth]:
        """Tables whose sets fit, sizes rounded up to cells; by whether boards are straight."""
        return self._tables(up=True)

    @cached_property
    def generous(self) -> dict[bool, Worth]:
        """Tables that no set which fits goes beyond: sizes rounded down to whole cells."""
        return self.fitting if self.cell == 1 else self._tables(up=False)

    def reduced_cost(self, pattern: Pattern) -> int:
        """By how much a board costs more than its pieces are worth, in 1/`scale`."""
        worth = sum(self.worth[kind] * count for kind, count in pattern.pieces)
        return self.problem.price(pattern) * self.scale - worth

    def surplus(self, stock: int) -> int:
        """By how much a board's best set is worth more than the board costs, at most."""
        board = self.problem.stocks[stock]
        return self.generous[board.straight].best(self.room(stock)) - board.cost * self.scale


def lowered(prices: Prices) -> Prices:
    """The same prices, so much lower that no unlimited board is worth less than its pieces."""
    problem = prices.problem
    unlimited = [i for i in range(len(problem.stocks)) if problem.unlimited(i)]
    worths = {i: prices.surplus(i) + problem.stocks[i].cost * prices.scale for i in unlimited}
    shares = (Fraction(problem.stocks[i].cost * prices.scale, w) for i, w in worths.items() if w)
    share = min(shares, default=Fraction(1))
    if share >= 1:
        return prices
    return Prices(problem, tuple(int(w * share) for w in prices.worth), prices.scale)


def bound(prices: Prices) -> Fraction:
    """What no cutting can cost less than, by these (lowered) prices.

    All pieces together are worth so much; a limited board can give at most its surplus on top.
    """
    problem = prices.problem
    demand = zip(prices.worth, problem.kinds, strict=True)
    worth = sum(worth * kind.demand for worth, kind in demand)
    extra = sum(
        max(0, prices.surplus(i)) * min(board.supply, problem.pieces)
        for i, board in enumerate(problem.stocks)
        if board.supply and not problem.unlimited(i)
    )
    return Fraction(worth - extra, prices.scale)


def worthwhile(prices: Prices, discounts: dict[int, int]) -> Iterator[Pattern]:
    """Patterns whose pieces are worth more than the board: the best one, and the best with each.

    `discounts` are added to the cost of a board of a limited stock.
    """
    for i, board in enumerate(prices.problem.stocks):
        if board.supply:
            least = board.cost * prices.scale + discounts.get(i, 0)
            for pieces in _sets(prices, i, least):
                yield Pattern(i, pieces)


def _sets(prices: Prices, stock: int, least: int) -> Iterator[Pieces]:
    table, room = prices.fitting[prices.problem.stocks[stock].straight], int(prices.room(stock))
    if table.best(room) > least:
        yield table.pieces(room)
    for item, size in zip(table.items, table.sizes, strict=True):
        if size <= room and table.best(room - size) + item.worth > least:
            yield _with_one_more(table.pieces(room - size), item)


def _with_one_more(pieces: Pieces, item: Item) -> Pieces:
    counts = dict(pieces)
    counts[item.kind] = min(item.copies, counts.get(item.kind, 0) + 1)
    return tuple(sorted(counts.items()))
