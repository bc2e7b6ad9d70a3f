"""What any rectangle is worth at most, when pieces have a worth and there is no end of any kind.

Only sizes that pieces can make side by side are looked at: what is wider than such a size and
narrower than the next is worth no more. In whole units that is exact. In coarser ones it is a bound
where pieces are rounded down, and can be cut where they are rounded up.

The method is that of P. C. Gilmore and R. E. Gomory, "The theory and computation of knapsack
functions", Operations Research 14 (1966). What lies around a block is bounded as by K. V.
Viswanathan and A. Bagchi, "Best-first search methods for constrained two-dimensional cutting stock
problems", Operations Research 41 (1993).
"""

from collections.abc import Iterable, Sequence
from functools import cached_property
from typing import NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray

from hivecalc.cutting.sheets.blocks import Block, Leaf, together
from hivecalc.cutting.sheets.problem import Kind

Numbers: TypeAlias = NDArray[np.int64]


class Points:
    """The sizes up to a limit that others add up to, from 0 on, and where a size stands in them.

    >>> points = Points([3, 5], 10)
    >>> points.sizes.tolist(), points.index(7), points.sizes[points.back(5)].tolist()
    ([0, 3, 5, 6, 8, 9, 10], 3, [0, 0, 3, 3, 5])
    """

    def __init__(self, sizes: Iterable[int], limit: int) -> None:
        self.limit = limit
        reached = np.zeros(limit + 1, dtype=bool)
        reached[0] = True
        for size in set(sizes):
            for at in range(size, limit + 1, max(size, 1)):
                end = min(at + size, limit + 1)
                reached[at:end] |= reached[at - size : end - size]
        self.sizes: Numbers = np.flatnonzero(reached)
        self._index = np.cumsum(reached) - 1

    def index(self, size: int) -> int:
        """Which point a size is, or the next one below."""
        return int(self._index[size])

    def indices(self, sizes: Numbers) -> Numbers:
        """Which points these sizes are, or the next ones below."""
        return self._index[sizes]

    def back(self, size: int) -> Numbers:
        """For each point from this size on: which point is left when it is taken off."""
        return self._index[self.sizes[self._index[size] :] - size]

    def halves(self, at: int) -> tuple[Numbers, Numbers]:
        """The points up to half of a point, without 0, and the ones that go with them."""
        size = self.sizes[at]
        low = np.arange(1, self._index[size // 2] + 1)
        return low, self._index[size - self.sizes[low]]


class _Lying(NamedTuple):
    """A piece as it lies, its sides as they are counted here, and its worth."""

    leaf: Leaf
    wide: int
    long: int
    value: int


class Worth:
    """The worth of rectangles up to one size, in units of `step`.

    >>> worth = Worth([Kind(3, 5, 1), Kind(4, 4, 1)], [7, 9], (9, 9))
    >>> worth.of(9, 9), worth.of(9, 5), worth.of(2, 9)
    (39, 21, 0)
    >>> block = worth.block(9, 5)
    >>> block.width, block.length
    (9, 5)

    `up` says to round the pieces up and not down.
    """

    def __init__(
        self,
        kinds: Sequence[Kind],
        values: Sequence[int],
        room: tuple[int, int],
        step: int = 1,
        *,
        up: bool = False,
    ) -> None:
        self.step = step
        self.leaves = [
            _Lying(Leaf(n, *way), self._cells(way[1], up=up), self._cells(way[2], up=up), values[n])
            for n, kind in enumerate(kinds)
            for way in kind.ways()
        ]
        self.wide = Points((lying.wide for lying in self.leaves), room[0] // step)
        self.long = Points((lying.long for lying in self.leaves), room[1] // step)
        self.table = self._single()
        self._grow()

    def _cells(self, size: int, *, up: bool) -> int:
        return -(-size // self.step) if up else size // self.step

    def _single(self) -> Numbers:
        """The worth of one piece, at its own size."""
        table = np.zeros((len(self.wide.sizes), len(self.long.sizes)), dtype=np.int64)
        for _, wide, long, value in self.leaves:
            if wide <= self.wide.limit and long <= self.long.limit:
                place = self.wide.index(wide), self.long.index(long)
                table[place] = max(table[place], value)
        return table

    def _grow(self) -> None:
        """Each row from narrower ones by a cut along, then from its own parts by cuts across."""
        for at in range(1, len(self.table)):
            row = np.maximum(self.table[at], self.table[at - 1])
            low, high = self.wide.halves(at)
            if len(low):
                two = self.table[low] + self.table[high]
                np.maximum(row, two.max(axis=0), out=row)
            self.table[at] = self._stacked(np.maximum.accumulate(row))

    def _stacked(self, row: Numbers) -> Numbers:
        """The most for each length, from parts of the row end to end, as many as fit."""
        own = row.copy()
        for at in _rises(own):
            size = self.long.sizes[at]
            if 2 * size > self.long.limit:
                break
            low, high = self.long.halves(at)
            if len(low) and (row[low] + row[high]).max() >= own[at]:
                continue  # shorter parts do as much
            back = self.long.back(size)
            for _ in range(self.long.limit // size - 1):
                np.maximum(row[at:], own[at] + row[back], out=row[at:])
        return row

    @property
    def most(self) -> int:
        """The most that the largest rectangle can be worth."""
        return int(self.table[-1, -1])

    def _place(self, width: int, length: int) -> tuple[int, int]:
        return self.wide.index(width // self.step), self.long.index(length // self.step)

    def of(self, width: int, length: int) -> int:
        """The most that a rectangle can be worth."""
        return int(self.table[self._place(width, length)])

    def block(self, width: int, length: int) -> Block | None:
        """A block that is worth as much as a rectangle can be; it may not fit if rounded down."""
        return self._block(*self._place(width, length))

    def _block(self, wide: int, long: int) -> Block | None:
        most = self.table[wide, long]
        if not most:
            return None
        low, high = self.wide.halves(wide)
        for i in np.flatnonzero(self.table[low, long] + self.table[high, long] == most)[:1]:
            return together("along", self._block(low[i], long), self._block(high[i], long))
        low, high = self.long.halves(long)
        for i in np.flatnonzero(self.table[wide, low] + self.table[wide, high] == most)[:1]:
            return together("across", self._block(wide, low[i]), self._block(wide, high[i]))
        return self._leaf(wide, long)

    def _leaf(self, wide: int, long: int) -> Leaf:
        """The piece that is worth most of those that fit."""
        room = self.wide.sizes[wide], self.long.sizes[long]
        fitting = (each for each in self.leaves if each.wide <= room[0] and each.long <= room[1])
        return max(fitting, key=lambda each: each.value).leaf

    def around(self, wide: Numbers, long: Numbers) -> Numbers:
        """What can be put around blocks of these sizes, until all is as big as the whole table."""
        places = self.wide.indices(wide // self.step), self.long.indices(long // self.step)
        return self._outside[places]

    @cached_property
    def _outside(self) -> Numbers:
        outside = np.zeros_like(self.table)
        last = len(self.table) - 1
        for at in range(last, -1, -1):
            beside = outside[min(at + 1, last)]  # a block may be taken for a wider one
            strips = self.wide.sizes[1:]
            strips = strips[strips <= self.wide.limit - self.wide.sizes[at]]
            if len(strips):
                reached = self.wide.indices(self.wide.sizes[at] + strips)
                more = self.table[1 : len(strips) + 1] + outside[reached]
                beside = np.maximum(beside, more.max(axis=0))
            outside[at] = self._behind(beside, self.table[at])
        return outside

    def _behind(self, row: Numbers, strips: Numbers) -> Numbers:
        """The most for each length with a strip behind; a block may be taken for a longer one."""
        row = np.maximum.accumulate(row[::-1])[::-1]
        best = row.copy()
        for at in _rises(strips):
            size = self.long.sizes[at]
            room = self.long.index(self.long.limit - size) + 1
            reached = self.long.indices(self.long.sizes[:room] + size)
            np.maximum(best[:room], row[reached] + strips[at], out=best[:room])
        return np.maximum.accumulate(best[::-1])[::-1]


def _rises(row: Numbers) -> list[int]:
    """The points at which a row is worth more than at the one below."""
    rises: list[int] = (np.flatnonzero(row[1:] > row[:-1]) + 1).tolist()
    return rises
