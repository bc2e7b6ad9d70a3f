"""Sheets filled piece by piece, each in the smallest space that it fits in."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import inf
from typing import TypeAlias

from hivecalc.cutting.sheets.blocks import Block, Leaf, together
from hivecalc.cutting.sheets.problem import Kind, Stock


@dataclass(slots=True, eq=False)
class Space:
    """A free rectangle of a sheet; once a piece lies in its corner, two smaller ones are left.

    `along` says that the cut beside the piece runs the space's whole length, so that the space
    behind is only as wide as the piece. `edge` says whether it reaches the sheet's left edge.
    """

    width: int
    length: int
    edge: bool
    leaf: Leaf | None = None
    along: bool = True
    beside: "Space | None" = None
    behind: "Space | None" = None

    def put(self, leaf: Leaf, *, along: bool) -> tuple["Space", "Space"]:
        """Lay a piece in the corner, and part what is left in two."""
        wide, long = self.width - leaf.width, self.length - leaf.length
        self.leaf, self.along = leaf, along
        self.beside = Space(wide, self.length if along else leaf.length, edge=False)
        self.behind = Space(leaf.width if along else self.width, long, self.edge)
        return self.beside, self.behind

    def block(self) -> Block | None:
        """What lies in it as one block."""
        if self.leaf is None or self.beside is None or self.behind is None:
            return None
        beside, behind = self.beside.block(), self.behind.block()
        if self.along:
            return together("along", together("across", self.leaf, behind), beside)
        return together("across", together("along", self.leaf, beside), behind)


def filled(
    kinds: Sequence[Kind],
    stock: Stock,
    left: list[int],
    order: Sequence[int],
    odd: Callable[[], bool] = bool,
) -> Block | None:
    """A sheet filled with what is left of each kind, kind by kind in this order.

    >>> left = [3, 5]
    >>> block = filled([Kind(4, 4, 3), Kind(3, 5, 5)], Stock(9, 9, 1, 1), left, [0, 1])
    >>> left, (block.width, block.length)
    ([0, 4], (8, 9))

    What is laid is taken from `left`. Each piece goes in the smallest space that it fits in, and is
    cut free so that the bigger rest stays in one piece, or, where `odd` says so, the other one.
    """
    root = Space(stock.width, stock.length, stock.edge)
    spaces = [root]
    narrowest = min((kinds[n].narrow for n in order if left[n]), default=0)
    for number in order:
        while left[number] and (place := _place(kinds[number], spaces)):
            space, lying = place
            spaces.remove(space)
            along = _along(space, lying) ^ odd()
            parts = space.put(Leaf(number, *lying), along=along)
            spaces += (part for part in parts if min(part.width, part.length) >= narrowest)
            left[number] -= 1
    return root.block()


_Lying: TypeAlias = tuple[bool, int, int]


def _place(kind: Kind, spaces: Sequence[Space]) -> tuple[Space, _Lying] | None:
    """The smallest space that a piece fits in, and how it lies there; None if there is none."""
    best: tuple[Space, _Lying] | None = None
    least: float = inf
    for lying in kind.ways():
        _, wide, long = lying
        for space in spaces:
            fits = wide <= space.width and long <= space.length
            area = space.width * space.length
            if fits and area < least and (space.edge or not kind.edge):
                least, best = area, (space, lying)
    return best


def _along(space: Space, lying: _Lying) -> bool:
    """Whether a cut along leaves the bigger rest in one piece."""
    _, wide, long = lying
    beside, behind = space.width - wide, space.length - long
    by_cut_along = max(beside * space.length, wide * behind)
    return by_cut_along >= max(space.width * behind, beside * long)
