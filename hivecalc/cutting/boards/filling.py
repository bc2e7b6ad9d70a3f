"""Boards filled as full as can be: the longest piece left, and beside it what leaves the least.

With many different lengths hardly anything is left over, so this often meets the bound at once.
"""

from collections.abc import Iterator, Sequence
from functools import partial
from typing import Final

from hivecalc.cutting.boards.first_fit import board_by_board
from hivecalc.cutting.boards.knapsack import portions
from hivecalc.cutting.boards.problem import Pattern, Problem

LOOKED_AT: Final = (20, 28, 14, 40)
"""Kinds looked at for one board, spread over all lengths: each number makes another cutting.

More of them fill the first boards better, and leave less choice for the last ones.
"""
FINEST: Final = 200_000
"""Cells that a board has at most; a finer length is rounded up to the next."""


def filled(problem: Problem, looked_at: int = LOOKED_AT[0]) -> dict[Pattern, int]:
    """A cutting whose boards are each filled as full as can be, the longest pieces first.

    >>> from hivecalc.cutting.boards.problem import Kind, Stock
    >>> filled(Problem((Kind(50, 1), Kind(30, 2), Kind(23, 2)), (Stock(96, 1, 5),)))
    {Pattern(stock=0, pieces=((0, 1), (2, 2))): 1, Pattern(stock=0, pieces=((1, 2),)): 1}
    """
    return board_by_board(problem, partial(fullest, looked_at=looked_at))


def fullest(
    problem: Problem,
    room: int,
    wanted: list[int],
    kinds: Sequence[int],
    looked_at: int = LOOKED_AT[0],
) -> dict[int, int]:
    """Pieces that leave the least of a board, the first kind among them.

    >>> from hivecalc.cutting.boards.problem import Kind
    >>> pieces = Problem((Kind(50, 1), Kind(30, 2), Kind(23, 2)), ())
    >>> fullest(pieces, 96, [1, 2, 2], [0, 1, 2])
    {0: 1, 2: 2}
    """
    cell = -(-problem.largest_room // FINEST) or 1
    sizes = {kind: -(-problem.kinds[kind].size // cell) for kind in _spread(kinds, looked_at)}
    first = kinds[0]
    rest = max(0, room // cell - sizes[first])
    left = {kind: wanted[kind] - (kind == first) for kind in sizes}
    chosen = {first: 1}
    for kind, count in _nearest(sizes, left, rest):
        chosen[kind] = chosen.get(kind, 0) + count
    return chosen


def _spread(kinds: Sequence[int], most: int) -> Sequence[int]:
    """Kinds from the longest on, so many at most."""
    if len(kinds) <= most:
        return kinds
    return [kinds[i * len(kinds) // most] for i in range(most)]


def _nearest(sizes: dict[int, int], left: dict[int, int], rest: int) -> Iterator[tuple[int, int]]:
    """Pieces whose sum comes nearest to the rest. A bit of `reached` is a sum that can be had."""
    reached, inside = 1, (1 << (rest + 1)) - 1
    steps = []
    for kind, size in sizes.items():
        for count in portions(min(left[kind], rest // size)):
            steps.append((kind, count, reached))
            reached |= (reached << (count * size)) & inside
    total = reached.bit_length() - 1
    for kind, count, before in reversed(steps):
        if not before >> total & 1:
            total -= count * sizes[kind]
            yield kind, count
