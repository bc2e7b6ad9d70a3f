"""The second way to cut sheets: try every cut there is, on sheets a few units wide and long."""

import random
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import product
from typing import NamedTuple, TypeAlias


class Small(NamedTuple):
    """A small piece; `edge` says that it must lie on the sheet's left edge."""

    width: int
    length: int
    turns: bool
    edge: bool


Pieces: TypeAlias = tuple[Small, ...]
Sheet: TypeAlias = tuple[int, int]


@cache
def holds(width: int, length: int, kerf: int, pieces: Pieces, edge: bool = True) -> bool:  # noqa: FBT001, FBT002 - so that it can be cached
    """Whether a part of a sheet gives these pieces; `edge` says whether it has the left edge."""
    if not edge and any(piece.edge for piece in pieces):
        return False
    if len(pieces) == 1:
        wide, long, turns, _ = pieces[0]
        return (wide <= width and long <= length) or (turns and long <= width and wide <= length)
    return not pieces or any(
        holds(*low, kerf, left, edge) and holds(*high, kerf, right, edge and high[0] == width)
        for low, high in cuts(width, length, kerf)
        for left, right in shared(pieces)
    )


def cuts(width: int, length: int, kerf: int) -> Iterator[tuple[Sheet, Sheet]]:
    """Each cut through a part that leaves something on both sides: what it leaves."""
    for at in range(1, width - kerf):
        yield (at, length), (width - at - kerf, length)
    for at in range(1, length - kerf):
        yield (width, at), (width, length - at - kerf)


@cache
def shared(pieces: Pieces) -> list[tuple[Pieces, Pieces]]:
    """Each way to share pieces out in two, with some on both sides."""
    ways = set()
    for sides in product((True, False), repeat=len(pieces)):
        left = tuple(p for p, low in zip(pieces, sides, strict=True) if low)
        right = tuple(p for p, low in zip(pieces, sides, strict=True) if not low)
        if left and right:
            ways.add((left, right))
    return sorted(ways)


def cheapest(stocks: Sequence[tuple[int, int, int]], kerf: int, pieces: Pieces) -> int | None:
    """Return the least that sheets cost that give all pieces; None where no sheets do."""
    if not pieces:
        return 0
    costs = []
    for taken, rest in [(pieces, ()), *shared(pieces)]:
        if pieces[0] in taken:
            fitting = [cost for wide, long, cost in stocks if holds(wide, long, kerf, taken)]
            others = cheapest(stocks, kerf, rest) if fitting else None
            costs += [] if others is None else [min(fitting) + others]
    return min(costs, default=None)


def mix_holds(
    stocks: Sequence[tuple[int, int, int]], kerf: int, pieces: Pieces, mix: tuple[int, ...]
) -> bool:
    """Whether a mix of sheets gives all pieces, by trying what the first of them may give."""
    if not pieces:
        return True
    number = next((n for n, there in enumerate(mix) if there), None)
    if number is None:
        return False
    less = tuple(there - (n == number) for n, there in enumerate(mix))
    wide, long, _ = stocks[number]
    return any(
        holds(wide, long, kerf, taken) and mix_holds(stocks, kerf, rest, less)
        for taken, rest in [*shared(pieces), (pieces, ()), ((), pieces)]
    )


def small_instance(seed: int) -> tuple[list[tuple[int, int, int]], int, Pieces]:
    """Return a few sheets with their costs, a kerf and pieces at random."""
    dice = random.Random(seed)  # noqa: S311 - the dice of tests need no secrecy
    stocks = [(dice.randint(5, 9), dice.randint(6, 11), dice.randint(3, 9)) for _ in range(2)]
    kinds = [
        Small(dice.randint(2, 6), dice.randint(2, 7), dice.random() < 1 / 2, dice.random() < 1 / 4)
        for _ in range(3)
    ]
    pieces = sorted(kinds[dice.randrange(3)] for _ in range(dice.randint(2, 5)))
    return stocks, dice.randint(0, 1), tuple(pieces)
