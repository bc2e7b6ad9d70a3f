"""A cutting chosen from patterns that came up before."""

from collections import Counter
from collections.abc import Iterable

from hivecalc.cutting.sheets.blocks import Block, Leaf, counts_of, together
from hivecalc.cutting.sheets.master import Column, cheapest
from hivecalc.cutting.sheets.problem import Cutting, Pattern, Problem


def chosen(problem: Problem, patterns: Iterable[Pattern], seconds: float) -> Cutting | None:
    """The cheapest cutting by these patterns that is found in so many seconds; None if none is.

    >>> from hivecalc.cutting.sheets.problem import Kind, Stock
    >>> row = together("along", *[Leaf(0, False, 4, 4)] * 2)
    >>> four = Pattern(0, (4,), together("across", row, row))
    >>> nine = Problem((Kind(4, 4, 9),), (Stock(9, 9, 1, 9),))
    >>> sorted(p.counts for p in chosen(nine, [four], 1))
    [(1,), (4,)]

    Pieces that the patterns give beyond what is wanted are not cut.
    """
    blocks = {(p.stock, p.counts): p.block for p in patterns}
    times = cheapest(problem, list(blocks), seconds)
    return None if times is None else _without_surplus(problem, blocks, times)


def _without_surplus(
    problem: Problem, blocks: dict[Column, Block], times: dict[Column, int]
) -> Cutting:
    left = list(problem.demands)
    cutting: Counter[Pattern] = Counter()
    for column, n in times.items():
        for _ in range(n):
            if block := _kept(blocks[column], left):
                cutting[Pattern(column[0], counts_of(block, len(left)), block)] += 1
    return cutting


def _kept(block: Block, left: list[int]) -> Block | None:
    """A block with no more pieces than are left of each kind; those it has are taken from them."""
    if isinstance(block, Leaf):
        if not left[block.kind]:
            return None
        left[block.kind] -= 1
        return block
    return together(block.way, _kept(block.low, left), _kept(block.high, left))
