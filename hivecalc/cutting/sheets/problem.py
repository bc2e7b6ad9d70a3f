"""The task in whole numbers: kinds of pieces, kinds of sheets, and how sheets are cut.

Every size has one kerf added: a sheet 48 in wide is 48 1/8 here, and a piece of 17 takes 17 1/8.
Pieces and kerfs then fill a sheet exactly where these sizes do, so no search has to know the kerf.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from hivecalc.cutting.sheets.blocks import Block

Counts: TypeAlias = tuple[int, ...]
"""How many of each kind."""

Mix: TypeAlias = tuple[int, ...]
"""How many sheets of each stock."""


@dataclass(frozen=True, slots=True)
class Kind:
    """Pieces of one size; `edge` says that each must lie on the sheet's left edge."""

    width: int
    length: int
    demand: int
    turns: bool = False
    edge: bool = False

    @property
    def area(self) -> int:
        """The area of one piece."""
        return self.width * self.length

    @property
    def narrow(self) -> int:
        """The narrower side of a piece."""
        return min(self.width, self.length)

    def ways(self) -> tuple[tuple[bool, int, int], ...]:
        """How a piece may lie: turned or not, its reach across the sheet and along it.

        >>> Kind(3, 5, 1, turns=True).ways()
        ((False, 3, 5), (True, 5, 3))
        """
        as_is = (False, self.width, self.length)
        if not self.turns or self.width == self.length:
            return (as_is,)
        return (as_is, (True, self.length, self.width))


@dataclass(frozen=True, slots=True)
class Stock:
    """Sheets of one size: what one costs, and how many may be taken.

    `edge` says that its left edge is as it came from the factory, `endless` that there are enough
    for all pieces. What is at hand costs nothing.
    """

    width: int
    length: int
    cost: int
    count: int
    edge: bool = True
    endless: bool = True

    @property
    def area(self) -> int:
        """The area of one sheet."""
        return self.width * self.length

    def gives(self, kind: Kind) -> bool:
        """Whether such a piece comes out of it.

        >>> Stock(48, 96, 1, 1).gives(Kind(96, 40, 1)), Stock(48, 96, 1, 1).gives(Kind(40, 96, 1))
        (False, True)
        """
        fits = any(wide <= self.width and long <= self.length for _, wide, long in kind.ways())
        return fits and (self.edge or not kind.edge)


@dataclass(frozen=True, slots=True)
class Problem:
    """Kinds to cut, and stocks to cut them from."""

    kinds: tuple[Kind, ...]
    stocks: tuple[Stock, ...]

    @property
    def demands(self) -> Counts:
        """How many pieces of each kind are wanted."""
        return tuple(kind.demand for kind in self.kinds)

    def cost(self, mix: Sequence[int]) -> int:
        """What the sheets of a mix cost."""
        return sum(n * stock.cost for n, stock in zip(mix, self.stocks, strict=True))

    def area(self, counts: Iterable[int]) -> int:
        """The area of so many pieces of each kind."""
        return sum(n * kind.area for n, kind in zip(counts, self.kinds, strict=True))


def offcut(stock: Stock, block: Block) -> int:
    """The area of the biggest rest when a block is cut off a sheet.

    >>> from hivecalc.cutting.sheets.blocks import Leaf
    >>> offcut(Stock(9, 9, 1, 1), Leaf(0, False, 3, 5))
    54
    """
    beside, behind = stock.width - block.width, stock.length - block.length
    return max(beside * stock.length, behind * stock.width)


def best_block_in(stock: Stock, front: Iterable[Block]) -> Block | None:
    """Of blocks of the same pieces the one that leaves the biggest offcut, then takes fewest cuts.

    >>> from hivecalc.cutting.sheets.blocks import Leaf
    >>> best_block_in(Stock(9, 12, 1, 1), [Leaf(0, False, 3, 5), Leaf(0, True, 5, 3)]).turned
    True
    """
    fits = (b for b in front if b.width <= stock.width and b.length <= stock.length)
    return max(fits, key=lambda block: (offcut(stock, block), -block.cuts), default=None)


@dataclass(frozen=True, slots=True)
class Pattern:
    """How one sheet of a stock is cut."""

    stock: int
    counts: Counts
    block: Block = field(compare=False)


Cutting: TypeAlias = Mapping[Pattern, int]
"""How many sheets are cut to each pattern."""


def mix_of(problem: Problem, cutting: Cutting) -> Mix:
    """How many sheets of each stock a cutting takes."""
    mix = [0] * len(problem.stocks)
    for pattern, times in cutting.items():
        mix[pattern.stock] += times
    return tuple(mix)


def left_out(demands: Sequence[int], cutting: Cutting) -> Counts:
    """How many pieces of each kind a cutting leaves out."""
    rest = list(demands)
    for pattern, times in cutting.items():
        for kind, n in enumerate(pattern.counts):
            rest[kind] -= n * times
    return tuple(rest)
