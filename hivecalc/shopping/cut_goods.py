"""What boards and sheets have in common in a basket: the group, and what is cut alike."""

from collections.abc import Callable, Iterable, Iterator
from typing import TypeVar

from hivecalc.cutting.plans import BoardsCut, SheetsCut
from hivecalc.shopping.lines import Group, Line
from hivecalc.stock import Board, SheetGoods

C = TypeVar("C")
G = TypeVar("G", Board, SheetGoods)


def group_of(cut: BoardsCut | SheetsCut, lines: Iterator[Line], verb: str) -> Group:
    """The group of what is needed, with the plan that it is cut by."""
    need, plan = cut.need, cut.plan
    pieces = sum(wanted.count for wanted in need.wanted)
    why = f"{pieces:,} piece{'s' * (pieces != 1)} to {verb}"
    unplanned = (*need.unplanned, *plan.unplanned)
    return Group(need.name, tuple(lines), why, unplanned, cut, plan.notes)


def by_goods(cut: Iterable[C], goods: Callable[[C], G]) -> dict[G, list[C]]:
    """What is cut out of each board or sheet that is bought alike, in the order of the plan.

    >>> from fractions import Fraction
    >>> stud = Board("stud", "stud", Fraction(3, 2), Fraction(7, 2), Fraction(96))
    >>> by_goods(["rail", "runner"], lambda _: stud)[stud]
    ['rail', 'runner']
    """
    found: dict[G, list[C]] = {}
    for each in cut:
        found.setdefault(goods(each), []).append(each)
    return found
