"""The pieces worth most together that one board can hold, and all sets worth at least so much."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from hivecalc.cutting.interrupts import interrupts_held

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

Pieces: TypeAlias = tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class Item:
    """A kind that can be put on the board: its number, size, worth and how many at most."""

    kind: int
    size: int
    worth: int
    copies: int


class Worth:
    """What the best set of pieces is worth, for every room up to the largest.

    >>> items = [Item(0, 5, 8, 1), Item(1, 3, 4, 9)]
    >>> Worth(items, [5, 3], 11).best(10), Worth(items, [5, 3], 11).pieces(11)
    (12, ((0, 1), (1, 2)))

    `sizes` are the items' sizes as counted here, in cells: rounded up, so that what is found fits;
    or rounded down, so that nothing that fits is worth more. Row i of the table knows the items
    from i on.
    """

    def __init__(self, items: Sequence[Item], sizes: Sequence[int], cells: int) -> None:
        with interrupts_held():
            import numpy as np  # noqa: PLC0415 - heavy, so loaded where it is used

        self.items, self.sizes = items, sizes
        self.table = np.zeros((len(items) + 1, cells + 1), dtype=np.int64)
        for i in range(len(items) - 1, -1, -1):
            self.table[i] = self.table[i + 1]
            self._put(self.table[i], items[i], sizes[i])

    @staticmethod
    def _put(row: "NDArray[np.int64]", item: Item, size: int) -> None:
        """Offer the item's copies to the row: in portions of 1, 2, 4 …, which make any number."""
        import numpy as np  # noqa: PLC0415

        if size == 0:
            row += item.copies * item.worth
            return
        for portion in portions(min(item.copies, (len(row) - 1) // size)):
            kept = row[: len(row) - portion * size] + portion * item.worth
            np.maximum(row[portion * size :], kept, out=row[portion * size :])

    def best(self, cells: int) -> int:
        """What the best set for this room is worth."""
        return int(self.table[0, cells])

    def pieces(self, cells: int) -> Pieces:
        """The best set for this room: pairs of a kind and how many."""
        found = []
        for i, (item, size) in enumerate(zip(self.items, self.sizes, strict=True)):
            if self.table[i, cells] == self.table[i + 1, cells]:
                continue
            count = self._count(i, cells)
            cells -= count * size
            found.append((item.kind, count))
        return tuple(found)

    def _count(self, i: int, cells: int) -> int:
        item, size = self.items[i], self.sizes[i]
        value, rest = self.table[i, cells], self.table[i + 1]
        counts = range(1, min(item.copies, cells // size) + 1)
        return next(n for n in counts if rest[cells - n * size] + n * item.worth == value)


def portions(copies: int) -> Iterator[int]:
    """Portions of which some make any number of copies and no more.

    >>> list(portions(10))
    [1, 2, 4, 3]
    """
    portion = 1
    while copies > 0:
        yield min(portion, copies)
        copies -= portion
        portion *= 2
