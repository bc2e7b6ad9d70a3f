"""Pieces laid along strips, longest first, and the shortest strip that is long enough for all."""

from bisect import bisect_right
from collections.abc import Mapping
from typing import TypeAlias

Pattern: TypeAlias = tuple[tuple[int, int], ...]
"""Pairs of a size and how many pieces of it lie along one strip, the largest size first."""

Laid: TypeAlias = list[tuple[Pattern, int]]
"""Each way in which strips are filled, and how many are filled so."""


def laid(demand: Mapping[int, int], room: int) -> Laid:
    """Pieces laid longest first, each into the first strip that has room for it.

    >>> laid({5: 2, 3: 3}, 8)
    [(((5, 1), (3, 1)), 2), (((3, 1),), 1)]

    Demand says how many pieces there are of each size; sizes and room are whole numbers. The time
    grows with the number of different sizes, and not with that of the pieces. No size is larger
    than the room.
    """
    left = dict(demand)
    sizes = sorted(size for size in left if left[size])
    found: Laid = []
    while sizes:
        pattern = _filled(sizes, left, room)
        times = min(left[size] // count for size, count in pattern)
        found.append((pattern, times))
        for size, count in pattern:
            left[size] -= count * times
        sizes = [size for size in sizes if left[size]]
    return found


def _filled(sizes: list[int], left: Mapping[int, int], room: int) -> Pattern:
    """The pieces of one strip: the longest that still goes in, again and again."""
    pattern: list[tuple[int, int]] = []
    end = bisect_right(sizes, room)
    while end:
        size = sizes[end - 1]
        count = min(room // size, left[size])
        pattern.append((size, count))
        room -= size * count
        end = bisect_right(sizes, room, 0, end - 1)
    return tuple(pattern)


def strips_in(layout: Laid) -> int:
    """How many strips are filled in all.

    >>> strips_in([(((5, 1), (3, 1)), 2), (((3, 1),), 1)])
    3
    """
    return sum(times for _, times in layout)


def shortest_room(demand: Mapping[int, int], strips: int, longest: int) -> int:
    """The shortest room found at which the pieces go into so many strips, longest first.

    >>> shortest_room({5: 2, 3: 3}, 3, 20)
    8

    They must go in at `longest`. The room is halved as long as that does: a heuristic known for
    equal machines as MULTIFIT (Coffman, Garey and Johnson, SIAM Journal on Computing 7, 1978), from
    memory.
    """
    material = sum(size * count for size, count in demand.items())
    low, high = max(*demand, -(-material // strips)), longest
    while low < high:
        middle = (low + high) // 2
        if strips_in(laid(demand, middle)) <= strips:
            high = middle
        else:
            low = middle + 1
    return high
