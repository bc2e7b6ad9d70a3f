"""The block worth most that one sheet can give, when there are so many pieces of each kind.

Best first: a block is joined with every block before it as long as it, with the most that can still
be put around it, may beat the best. When none may, the best is proved; when time is up, what the
most promising one may come to is a bound. After K. V. Viswanathan and A. Bagchi, "Best-first search
methods for constrained two-dimensional cutting stock problems", Operations Research 41 (1993).
"""

import time
from collections.abc import Sequence
from heapq import heappop, heappush
from math import inf
from typing import Any, Final, NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray

from hivecalc.cutting.sheets.blocks import Block, Leaf, end_to_end, side_by_side
from hivecalc.cutting.sheets.problem import Kind, Stock
from hivecalc.cutting.sheets.worth import Worth

Sizes: TypeAlias = NDArray[np.int64]
Flags: TypeAlias = NDArray[np.bool_]

MOST_BLOCKS: Final = 60_000
"""Blocks that a search may hold, which take about 50 MB."""


class Found(NamedTuple):
    """The best block, what it is worth, and what no block is worth more than."""

    block: Block | None
    worth: int
    bound: int


class Effort(NamedTuple):
    """What a search may take: seconds, and the step of its table of bounds.

    A coarser table takes less time and bounds less.
    """

    seconds: float = 10
    step: int = 1


ENOUGH: Final = Effort()


def best_block(
    kinds: Sequence[Kind], values: Sequence[int], stock: Stock, effort: Effort = ENOUGH
) -> Found:
    """The block worth most that fits in a sheet, no kind more often than it is wanted.

    >>> found = best_block([Kind(3, 5, 2), Kind(4, 4, 1)], [7, 9], Stock(9, 9, 1, 1))
    >>> found.worth, found.bound
    (23, 23)
    """
    search = _Search(kinds, values, stock, effort.step)
    return search.found(effort.seconds, enough=inf)


def block_above(
    kinds: Sequence[Kind], values: Sequence[int], stock: Stock, above: int, effort: Effort
) -> Found:
    """The first block that is found to be worth more than this; none where no block is.

    >>> block_above([Kind(3, 5, 2), Kind(4, 4, 1)], [7, 9], Stock(9, 9, 1, 1), 23, Effort())
    Found(block=None, worth=0, bound=23)
    """
    search = _Search(kinds, values, stock, effort.step, above)
    return search.found(effort.seconds, enough=above)


class _Closed:
    """Blocks that were joined with all the others: their sizes and counts as columns."""

    def __init__(self, kinds: int) -> None:
        self.size = 0
        self.sizes = np.zeros((64, 3), dtype=np.int64)
        self.counts = np.zeros((64, kinds), dtype=np.int32)
        self.on_edge = np.zeros(64, dtype=bool)
        self.blocks: list[Block] = []

    def add(self, block: Block, worth: int, counts: NDArray[np.int32], *, on_edge: bool) -> None:
        """Take one more block in; the columns double where they are full."""
        if self.size == len(self.sizes):
            self.sizes, self.counts = _doubled(self.sizes), _doubled(self.counts)
            self.on_edge = _doubled(self.on_edge)
        self.sizes[self.size] = block.width, block.length, worth
        self.counts[self.size], self.on_edge[self.size] = counts, on_edge
        self.blocks.append(block)
        self.size += 1


def _doubled(columns: NDArray[Any]) -> NDArray[Any]:
    return np.concatenate((columns, np.zeros_like(columns)))


def _by_area(kinds: Sequence[Kind], values: Sequence[int]) -> tuple[Sizes, Sizes]:
    """Points between which the most that an area can be worth grows straight on.

    They are those of the pieces that are worth most by area, all of a kind before the next.
    """
    order = sorted(range(len(kinds)), key=lambda kind: -values[kind] / kinds[kind].area)
    areas = [kinds[kind].area * kinds[kind].demand for kind in order]
    worths = [values[kind] * kinds[kind].demand for kind in order]
    return np.cumsum([0, *areas]), np.cumsum([0, *worths])


class _Search:
    """The best block so far, blocks that may still lead to a better one, and closed ones."""

    def __init__(
        self, kinds: Sequence[Kind], values: Sequence[int], stock: Stock, step: int, above: int = 0
    ) -> None:
        self.worth = Worth(kinds, values, (stock.width, stock.length), step)
        self.stock = stock
        self.areas, self.worths = _by_area(kinds, values)
        self.demands = np.array([kind.demand for kind in kinds], dtype=np.int32)
        self.edges = np.array([kind.edge for kind in kinds])
        self.above = above
        self.best = Found(None, 0, 0)
        self.closed = _Closed(len(kinds))
        self.blocks: list[tuple[Block, int, NDArray[np.int32]]] = []
        self.open: list[tuple[int, int, int]] = []
        self.seen: set[tuple[int, int, bytes]] = set()
        self._open_leaves(kinds, values)

    def _open_leaves(self, kinds: Sequence[Kind], values: Sequence[int]) -> None:
        for number, kind in enumerate(kinds):
            counts = np.zeros(len(kinds), dtype=np.int32)
            counts[number] = 1
            for way in kind.ways() if kind.demand and self.stock.gives(kind) else ():
                if way[1] <= self.stock.width and way[2] <= self.stock.length:
                    self._offer(Leaf(number, *way), values[number], counts)

    def found(self, seconds: float, enough: float) -> Found:
        """Go on until nothing may be better, or the best is more than enough, or time is up."""
        end = time.monotonic() + seconds
        while self.open and (reach := -self.open[0][0]) > self.above:
            out = time.monotonic() > end or len(self.blocks) > MOST_BLOCKS
            if out or self.best.worth > enough:
                return self.best._replace(bound=reach)
            self._close(heappop(self.open)[2])
        return self.best._replace(bound=self.above)

    def _close(self, number: int) -> None:
        """Join a block with itself and with every closed one."""
        block, worth, counts = self.blocks[number]
        on_edge = bool((counts * self.edges).any())
        self.closed.add(block, worth, counts, on_edge=on_edge)
        size = self.closed.size
        wide, long, worths = self.closed.sizes[:size].T
        enough = np.asarray((self.closed.counts[:size] + counts <= self.demands).all(axis=1))
        free = np.asarray(enough & ~(self.closed.on_edge[:size] & on_edge))
        wider, longer = np.maximum(wide, block.width), np.maximum(long, block.length)
        beside = self._better(wide + block.width, longer, worths + worth, free)
        behind = self._better(wider, long + block.length, worths + worth, enough)
        for join, better in ((side_by_side, beside), (end_to_end, behind)):
            for i in better:
                other = self.closed.blocks[i]
                low, high = (other, block) if self.closed.on_edge[i] else (block, other)
                more = self.closed.counts[i]
                self._offer(join(low, high), worth + int(worths[i]), counts + more)

    def _better(
        self,
        wide: Sizes,
        long: Sizes,
        worths: Sizes,
        allowed: Flags,
    ) -> list[int]:
        """Which of these blocks fit and may lead to a better one than the best so far."""
        fit = np.flatnonzero(allowed & (wide <= self.stock.width) & (long <= self.stock.length))
        better: list[int] = fit[
            worths[fit] + self._around(wide[fit], long[fit]) > self.above
        ].tolist()
        return better

    def _around(self, wide: Sizes, long: Sizes) -> Sizes:
        """What may be put around blocks of these sizes at most, by the table and by area."""
        by_table = self.worth.around(wide, long)
        area = self.stock.width * self.stock.length - wide * long
        by_area = np.interp(area, self.areas, self.worths).astype(np.int64) + 1
        least: Sizes = np.minimum(by_table, by_area)
        return least

    def _offer(self, block: Block, worth: int, counts: NDArray[np.int32]) -> None:
        """Keep a block that is new; it is the best so far if it is worth more than that."""
        key = block.width, block.length, counts.tobytes()
        if key in self.seen:
            return
        self.seen.add(key)
        if worth > self.above:
            self.above, self.best = worth, Found(block, worth, 0)
        sizes = np.array([block.width]), np.array([block.length])
        reach = worth + int(self._around(*sizes)[0])
        heappush(self.open, (-reach, -worth, len(self.blocks)))
        self.blocks.append((block, worth, counts))
