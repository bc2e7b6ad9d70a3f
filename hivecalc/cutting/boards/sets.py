"""Sets of pieces with which a board is full: no further piece that is wanted would fit."""

from collections.abc import Callable, Iterator, Sequence
from itertools import accumulate
from typing import TypeAlias

from hivecalc.cutting.boards.knapsack import Item, Pieces

Hopeful: TypeAlias = Callable[[int, int, int], bool]
"""Whether to go on: from this item on, with this room left, with pieces worth so much so far."""


def always(_item: int, _room: int, _worth: int) -> bool:
    """Hope that never ends.

    >>> always(0, 0, 0)
    True
    """
    return True


def full_sets(items: Sequence[Item], room: int, hopeful: Hopeful = always) -> Iterator[Pieces]:
    """All sets that fill a board, as pairs of a kind and how many, those with the first item first.

    >>> [*full_sets([Item(0, 50, 0, 1), Item(1, 30, 0, 3), Item(2, 22, 0, 2)], 96)]
    [((0, 1), (1, 1)), ((0, 1), (2, 2)), ((1, 3),), ((1, 2), (2, 1)), ((1, 1), (2, 2))]
    """
    return _Filling(items, hopeful).sets(0, room, 0, room + 1, ())


class _Filling:
    def __init__(self, items: Sequence[Item], hopeful: Hopeful) -> None:
        self.items, self.hopeful = items, hopeful
        backwards = accumulate((item.size * item.copies for item in reversed(items)), initial=0)
        self.still_to_come = [*backwards][::-1]

    def sets(
        self, start: int, room: int, worth: int, passed: int, chosen: Pieces
    ) -> Iterator[Pieces]:
        """Sets that begin with the chosen; `passed` is the shortest piece that was passed over."""
        for i in range(start, len(self.items)):
            if room - self.still_to_come[i] >= passed or not self.hopeful(i, room, worth):
                return
            item = self.items[i]
            for count in range(min(item.copies, room // item.size), 0, -1):
                left_over = min(passed, item.size) if count < item.copies else passed
                taken = (*chosen, (item.kind, count))
                rest, gain = room - count * item.size, count * item.worth
                yield from self.sets(i + 1, rest, worth + gain, left_over, taken)
            passed = min(passed, item.size)
        if chosen and room < passed and self.hopeful(len(self.items), room, worth):
            yield chosen
