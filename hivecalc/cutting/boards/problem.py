"""The task of cutting boards in whole numbers: kinds of pieces, boards in stock, what they cost.

Every piece is taken one kerf longer and every board too. Then the pieces of a board simply add up:
the last one may end at the board's end, where no cut is made.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import NamedTuple, TypeAlias

LEFT_OUT = -1


class Kind(NamedTuple):
    """Pieces that are alike to the saw: their length with one kerf, how many, whether straight."""

    size: int
    demand: int
    straight: bool = False


class Stock(NamedTuple):
    """Boards that are alike: usable length with one kerf, cost, how many, whether straight.

    Boards of the lower `rank` are taken where the cost leaves the choice.
    """

    room: int
    cost: int
    supply: int
    straight: bool = True
    rank: int = 0


class Pattern(NamedTuple):
    """One way to cut one board: which stock, and pairs of a kind and how many of it.

    The stock LEFT_OUT is no board: its one piece is left out of the plan.
    """

    stock: int
    pieces: tuple[tuple[int, int], ...]


Cutting: TypeAlias = Mapping[Pattern, int]
"""How many boards are cut by each pattern."""


@dataclass(frozen=True)
class Problem:
    """Kinds of pieces, longest first, the stock, and what one piece left out counts.

    >>> rails = Problem((Kind(22, 5),), (Stock(96, 1, 5),))
    >>> rails.cost({Pattern(0, ((0, 4),)): 1, Pattern(0, ((0, 1),)): 1})
    2

    `penalty` is 0 where the stock can't run out; else it is more than all the stock costs.
    """

    kinds: tuple[Kind, ...]
    stocks: tuple[Stock, ...]
    penalty: int = 0

    @property
    def pieces(self) -> int:
        """How many pieces there are in all."""
        return sum(kind.demand for kind in self.kinds)

    @property
    def material(self) -> int:
        """Lengths of all pieces together, each with one kerf."""
        return sum(kind.size * kind.demand for kind in self.kinds)

    @property
    def largest_room(self) -> int:
        """Usable length of the longest board, with one kerf."""
        return max((stock.room for stock in self.stocks), default=0)

    def price(self, pattern: Pattern) -> int:
        """What one board cut by this pattern counts."""
        left_out = pattern.stock == LEFT_OUT
        return self.penalty if left_out else self.stocks[pattern.stock].cost

    def cost(self, cutting: Cutting) -> int:
        """What all boards of a cutting count together."""
        return sum(self.price(pattern) * count for pattern, count in cutting.items())

    def size(self, pieces: Iterable[tuple[int, int]]) -> int:
        """Lengths of these pieces together, each with one kerf."""
        return sum(self.kinds[kind].size * count for kind, count in pieces)

    def allowed(self, stock: int, kind: int) -> bool:
        """Whether a piece of this kind may come out of a board of this stock."""
        straight = self.stocks[stock].straight or not self.kinds[kind].straight
        return straight and self.kinds[kind].size <= self.stocks[stock].room

    def unlimited(self, stock: int) -> bool:
        """Whether there are as many boards of this stock as any plan could use."""
        return self.stocks[stock].supply >= self.pieces

    def residual(self, demand: Iterable[int], taken: Mapping[int, int]) -> "Problem":
        """The same task for what is still wanted, from what is left of the stock."""
        kinds = tuple(k._replace(demand=d) for k, d in zip(self.kinds, demand, strict=True))
        stocks = tuple(
            s._replace(supply=s.supply - taken.get(i, 0)) for i, s in enumerate(self.stocks)
        )
        return Problem(kinds, stocks, self.penalty)

    def limited_to(self, boards: Iterable[int]) -> "Problem":
        """The same task with so many boards of each stock and no more."""
        counts = zip(self.stocks, boards, strict=True)
        return replace(self, stocks=tuple(s._replace(supply=n) for s, n in counts))

    def without_outdone(self) -> "Problem":
        """The same task without stocks that another one outdoes: as cheap, long and straight."""
        outdone = (
            any(self._outdoes(i, j) for i in range(len(self.stocks)))
            for j in range(len(self.stocks))
        )
        return self.limited_to(
            0 if out else stock.supply for out, stock in zip(outdone, self.stocks, strict=True)
        )

    def _outdoes(self, one: int, other: int) -> bool:
        a, b = self.stocks[one], self.stocks[other]
        better = a.cost <= b.cost and a.room >= b.room and a.straight >= b.straight
        equal = a[:2] == b[:2] and a.straight == b.straight
        return self.unlimited(one) and better and not (equal and one >= other)


def taken(cutting: Cutting) -> dict[int, int]:
    """How many boards of each stock a cutting takes.

    >>> taken({Pattern(0, ((0, 4),)): 3, Pattern(0, ((0, 1),)): 1})
    {0: 4}
    """
    boards: dict[int, int] = {}
    for pattern, count in cutting.items():
        boards[pattern.stock] = boards.get(pattern.stock, 0) + count
    return boards


def without_surplus(problem: Problem, cutting: Cutting) -> dict[Pattern, int]:
    """The same cutting with no piece more than is wanted; boards left without a piece go.

    >>> rails = Problem((Kind(22, 5),), (Stock(96, 1, 5),))
    >>> without_surplus(rails, {Pattern(0, ((0, 4),)): 2})
    {Pattern(stock=0, pieces=((0, 4),)): 1, Pattern(stock=0, pieces=((0, 1),)): 1}
    """
    wanted = [kind.demand for kind in problem.kinds]
    kept: dict[Pattern, int] = {}
    for pattern, count in _runs(cutting, wanted):
        kept[pattern] = kept.get(pattern, 0) + count
    return kept


def complete(problem: Problem, cutting: Cutting) -> bool:
    """Whether a cutting gives every piece, out of no more boards than there are.

    >>> rails = Problem((Kind(22, 5),), (Stock(96, 1, 5),))
    >>> complete(rails, {Pattern(0, ((0, 4),)): 1})
    False
    """
    given = [0] * len(problem.kinds)
    for pattern, count in cutting.items():
        for kind, pieces in pattern.pieces:
            given[kind] += pieces * count
    enough = all(n >= kind.demand for n, kind in zip(given, problem.kinds, strict=True))
    boards = ((n, i) for i, n in taken(cutting).items() if i != LEFT_OUT)
    return enough and all(n <= problem.stocks[i].supply for n, i in boards)


def _runs(cutting: Cutting, wanted: list[int]) -> Iterator[tuple[Pattern, int]]:
    for pattern, count in cutting.items():
        left = count
        while left and (pieces := _still_wanted(pattern, wanted)):
            run = min(left, *(wanted[kind] // n for kind, n in pieces))
            for kind, n in pieces:
                wanted[kind] -= n * run
            left -= run
            yield Pattern(pattern.stock, pieces), run


def _still_wanted(pattern: Pattern, wanted: list[int]) -> tuple[tuple[int, int], ...]:
    cut = ((kind, min(n, wanted[kind])) for kind, n in pattern.pieces)
    return tuple((kind, n) for kind, n in cut if n)
