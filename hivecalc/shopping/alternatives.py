"""What else could be bought: a need from one size only, and the difference in cost."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final, TypeVar

from hivecalc.cutting.needs import board_needs
from hivecalc.cutting.planner import Planner
from hivecalc.hive import Hive
from hivecalc.shopping.basket import Basket, counted
from hivecalc.shopping.boards import board_group
from hivecalc.shopping.lines import Group, counted_lines
from hivecalc.shopping.saying import more_or_less
from hivecalc.shopping.sheets import sheet_group
from hivecalc.shopping.small import item_group
from hivecalc.stock import Board, Money, Package, SheetGoods, Yard

G = TypeVar("G", Board, SheetGoods, Package)

SECONDS: Final = 0.25
"""What the plan of one size may take: there are many sizes, and none is what will be bought."""


@dataclass(frozen=True)
class Alternative:
    """Another way to buy for one need: only one of the sizes that the yard sells for it.

    `instead` is the group of the basket that it would stand for.
    """

    name: str
    instead: Group
    group: Group

    @property
    def now(self) -> str:
        """What the basket has, in words."""
        return counted_lines(self.instead.lines)

    @property
    def missing(self) -> int:
        """How many pieces it leaves out that the basket does not."""
        return _left(self.group) - _left(self.instead)

    @property
    def difference(self) -> Money | None:
        """What it costs more than the basket does, below zero where it costs less.

        None where a price is not known, or where pieces do not come out of that size.
        """
        if self.missing or self.group.unpriced or self.instead.unpriced:
            return None
        return self.group.cost - self.instead.cost

    def told(self, currency: str) -> str:
        """The difference in words."""
        if self.missing > 0:
            return f"{self.missing:,} of the pieces do not come out of it"
        if self.difference is None:
            return "a price is not known"
        return more_or_less(self.difference, currency)


def _left(group: Group) -> int:
    return sum(left.count for left in group.unplanned)


def alternatives(found: Basket, yard: Yard, planner: Planner | None = None) -> list[Alternative]:
    """The other ways to buy what is in a basket: each need from one size only.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.shopping import basket
    >>> from hivecalc.stock import demo_yard
    >>> other = alternatives(basket([demo_hive()], demo_yard()), demo_yard())
    >>> [a.name for a in other][:3]
    ['only 8 ft 2x4', 'only 10 ft 2x4', 'only 12 ft 2x4']

    What is at hand is used all the same. `yard` is the one that the basket is from. From here on
    the planner takes a quarter of a second a plan at most.
    """
    hives = [alike.hive for alike in found.joints for _ in range(alike.count)]
    how = planner or Planner(hives[0].units)
    how.seconds = min(how.seconds, SECONDS)
    return [
        *_of_boards(found, hives, yard, how),
        *_of_sheets(found, how),
        *_of_packages(found, yard),
    ]


def _of_boards(
    found: Basket, hives: Sequence[Hive], yard: Yard, how: Planner
) -> Iterator[Alternative]:
    for cut, group in zip(found.boards_cut, found.boards, strict=True):
        for kind, others in _sizes(cut.need.boards, group):
            only = replace(yard, boards=tuple(b for b in yard.boards if b not in others))
            again = next(n for n in board_needs(hives, only) if kind in n.boards)
            yield Alternative(f"only {kind.name}", group, board_group(again, only, how))


def _of_sheets(found: Basket, how: Planner) -> Iterator[Alternative]:
    for cut, group in zip(found.sheets_cut, found.sheets, strict=True):
        for kind, others in _sizes(cut.need.sheets, group):
            left = tuple(sheet for sheet in cut.need.sheets if sheet not in others)
            again = replace(cut.need, sheets=left)
            yield Alternative(f"only {kind.name}", group, sheet_group(again, how))


def _of_packages(found: Basket, yard: Yard) -> Iterator[Alternative]:
    for (item, count), group in zip(counted(found.joints).items(), found.small, strict=True):
        for kind, _ in _sizes([p for p in yard.packages if p.item == item], group):
            again = item_group(item, count, [kind], yard.spare)
            yield Alternative(f"only {kind.name}", group, again)


def _sizes(goods: Sequence[G], group: Group) -> Iterator[tuple[G, list[G]]]:
    """Each size that is sold, with the others, unless only that size is bought already."""
    sold = [g for g in goods if isinstance(g, Package) or not g.at_hand]
    bought = {line.name for line in group.lines if not line.at_hand}
    for kind in sold if len(sold) > 1 else ():
        if bought != {kind.name}:
            yield kind, [other for other in sold if other != kind]
