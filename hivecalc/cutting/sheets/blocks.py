"""Blocks: one piece, or two blocks side by side or end to end, as one cut parts them."""

from collections.abc import Iterator
from typing import Literal, NamedTuple, TypeAlias

Way: TypeAlias = Literal["along", "across"]
"""How a cut runs, with respect to the sheet's length."""


class Leaf(NamedTuple):
    """A block that is one piece; it takes no more cuts."""

    kind: int
    turned: bool
    width: int
    length: int
    cuts: int = 0


class Pair(NamedTuple):
    """A block of two, with a cut between them: along where they lie side by side.

    `cuts` counts all cuts that it takes to free its pieces.
    """

    way: Way
    low: "Block"
    high: "Block"
    width: int
    length: int
    cuts: int


Block: TypeAlias = Leaf | Pair


def side_by_side(low: Block, high: Block) -> Pair:
    """Two blocks next to each other, the first one at the left.

    >>> pair = side_by_side(Leaf(0, False, 3, 5), Leaf(1, False, 2, 6))
    >>> pair.width, pair.length, pair.cuts
    (5, 6, 2)
    """
    length = max(low.length, high.length)
    trims = (low.length < length) + (high.length < length)
    cuts = low.cuts + high.cuts + trims + 1
    return Pair("along", low, high, low.width + high.width, length, cuts)


def end_to_end(low: Block, high: Block) -> Pair:
    """Two blocks, one behind the other.

    >>> pair = end_to_end(Leaf(0, False, 3, 5), Leaf(1, False, 3, 6))
    >>> pair.width, pair.length, pair.cuts
    (3, 11, 1)
    """
    width = max(low.width, high.width)
    trims = (low.width < width) + (high.width < width)
    cuts = low.cuts + high.cuts + trims + 1
    return Pair("across", low, high, width, low.length + high.length, cuts)


def together(way: Way, low: Block | None, high: Block | None) -> Block | None:
    """Two blocks parted by a cut this way, or the one that there is.

    >>> together("along", None, Leaf(0, False, 3, 5))
    Leaf(kind=0, turned=False, width=3, length=5, cuts=0)
    """
    if low is None or high is None:
        return low or high
    return side_by_side(low, high) if way == "along" else end_to_end(low, high)


def leaves(block: Block) -> Iterator[Leaf]:
    """The pieces of a block.

    >>> pair = side_by_side(Leaf(0, False, 3, 5), Leaf(1, False, 2, 6))
    >>> [leaf.kind for leaf in leaves(pair)]
    [0, 1]
    """
    if isinstance(block, Leaf):
        yield block
    else:
        yield from leaves(block.low)
        yield from leaves(block.high)


def counts_of(block: Block, kinds: int) -> tuple[int, ...]:
    """How many of each kind a block holds.

    >>> counts_of(Leaf(1, False, 2, 6), 3)
    (0, 1, 0)
    """
    counts = [0] * kinds
    for leaf in leaves(block):
        counts[leaf.kind] += 1
    return tuple(counts)
