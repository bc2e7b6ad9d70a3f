"""Everything that one sheet can give: for each set of pieces, the smallest blocks of it.

A set of pieces is cut edge to edge where it is one piece, or where one cut parts it into two such
sets. So the blocks of a set come from the blocks of every two sets that make it up. Only those are
kept that no other beats in both width and length: the set's front. A set fits in a sheet where a
block of its front does. That is exact: no layout is passed over.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import product
from math import inf, prod
from operator import attrgetter, sub
from typing import TypeAlias

from hivecalc.cutting.sheets.blocks import Block, Leaf, Pair, end_to_end, side_by_side
from hivecalc.cutting.sheets.edges import on_edge
from hivecalc.cutting.sheets.problem import Counts, Problem

Front: TypeAlias = tuple[Block, ...]
"""Blocks of the same pieces, from the narrowest to the widest, each shorter than the one before."""

Fronts: TypeAlias = Mapping[Counts, Front]
_Sized: TypeAlias = tuple[int, Block]


def partings(demands: Iterable[int]) -> int:
    """About how many ways there are to part every set of these pieces in two.

    >>> partings((1, 2))
    9
    """
    return prod((n + 1) * (n + 2) // 2 for n in demands) // 2


def fronts(problem: Problem) -> Fronts:
    """The front of each set of pieces that fits in a sheet of some stock.

    >>> from hivecalc.cutting.sheets.problem import Kind, Stock
    >>> found = fronts(Problem((Kind(3, 5, 2),), (Stock(9, 9, 1, 1),)))
    >>> [(block.width, block.length) for block in found[2,]]
    [(6, 5)]
    """
    return _Finding(problem).found


class _Finding:
    """The fronts found so far, smaller sets first."""

    def __init__(self, problem: Problem) -> None:
        self.kinds = problem.kinds
        self.wide = max((stock.width for stock in problem.stocks), default=0)
        self.long = max((stock.length for stock in problem.stocks), default=0)
        self.found: dict[Counts, Front] = {}
        for whole in sorted(_within(problem.demands), key=sum):
            if front := _front(self._blocks(whole)):
                self.found[whole] = front

    def _blocks(self, whole: Counts) -> Iterator[Block]:
        if sum(whole) == 1:
            kind = whole.index(1)
            for way in self.kinds[kind].ways():
                if way[1] <= self.wide and way[2] <= self.long:
                    yield Leaf(kind, *way)
        for part in _within(whole):
            rest = tuple(map(sub, whole, part))
            if part <= rest and part in self.found and rest in self.found:
                yield from self._pairs(part, rest)

    def _pairs(self, part: Counts, rest: Counts) -> Iterator[Pair]:
        """Blocks of two sets; of two side by side only the left one can lie on the left edge."""
        for low, high in _steps(self._by_width(part), self._by_width(rest)):
            if low.length + high.length <= self.long:
                yield end_to_end(low, high)
        left, right = (rest, part) if on_edge(rest, self.kinds) else (part, rest)
        if on_edge(right, self.kinds):
            return
        for low, high in _steps(self._by_length(left), self._by_length(right)):
            if low.width + high.width <= self.wide:
                yield side_by_side(low, high)

    def _by_width(self, counts: Counts) -> list[_Sized]:
        return [(block.width, block) for block in self.found[counts]]

    def _by_length(self, counts: Counts) -> list[_Sized]:
        return [(block.length, block) for block in reversed(self.found[counts])]


def _within(counts: Counts) -> Iterator[Counts]:
    """Every set of pieces out of these, the empty one too."""
    return product(*(range(n + 1) for n in counts))


def _steps(lows: Sequence[_Sized], highs: Sequence[_Sized]) -> Iterator[tuple[Block, Block]]:
    """Pairs for each size that both can share, each with the block that is smallest otherwise.

    Both come with that size growing: step by step the one goes on whose next size is smaller.
    """
    i = j = 0
    while True:
        yield lows[i][1], highs[j][1]
        next_low = lows[i + 1][0] if i + 1 < len(lows) else inf
        next_high = highs[j + 1][0] if j + 1 < len(highs) else inf
        if next_low == next_high == inf:
            return
        i, j = i + (next_low <= next_high), j + (next_high <= next_low)


def _front(blocks: Iterable[Block]) -> Front:
    kept: list[Block] = []
    for block in sorted(blocks, key=attrgetter("width", "length", "cuts")):
        if not kept or block.length < kept[-1].length:
            kept.append(block)
    return tuple(kept)
