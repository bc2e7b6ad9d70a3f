"""Pieces that must lie on the sheet's left edge, which came from the factory."""

from collections.abc import Iterable, Sequence

from hivecalc.cutting.sheets.blocks import Block, Leaf, counts_of, end_to_end, side_by_side
from hivecalc.cutting.sheets.problem import Kind


def on_edge(counts: Iterable[int], kinds: Sequence[Kind]) -> bool:
    """Whether one of these pieces must lie on the left edge.

    >>> on_edge((0, 1), [Kind(3, 5, 1, edge=True), Kind(3, 5, 1)])
    False
    """
    return any(n and kind.edge for n, kind in zip(counts, kinds, strict=True))


def with_edges_left(block: Block, kinds: Sequence[Kind]) -> Block | None:
    """A block with the pieces that must be there on its left edge; None if not all can be.

    >>> row = side_by_side(Leaf(1, False, 2, 5), Leaf(0, False, 3, 5))
    >>> with_edges_left(row, [Kind(3, 5, 1, edge=True), Kind(2, 5, 1)]).low
    Leaf(kind=0, turned=False, width=3, length=5, cuts=0)
    >>> with_edges_left(row, [Kind(3, 5, 1, edge=True)] * 2) is None
    True
    """
    if isinstance(block, Leaf) or not _asks(block, kinds):
        return block
    if block.way == "across":
        near, far = (with_edges_left(half, kinds) for half in (block.low, block.high))
        return end_to_end(near, far) if near and far else None
    low, high = (block.high, block.low) if _asks(block.high, kinds) else (block.low, block.high)
    left = None if _asks(high, kinds) else with_edges_left(low, kinds)
    return side_by_side(left, high) if left else None


def _asks(block: Block, kinds: Sequence[Kind]) -> bool:
    return on_edge(counts_of(block, len(kinds)), kinds)
