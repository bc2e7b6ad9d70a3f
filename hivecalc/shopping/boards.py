"""Boards to buy: a group for each kind of lumber, by the plan that they are cut by."""

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Final

from hivecalc.cutting import BoardPattern, BoardPlan
from hivecalc.cutting.needs import BoardNeed
from hivecalc.cutting.planner import Planner
from hivecalc.cutting.plans import BoardsCut
from hivecalc.length import Length, Units, with_unit
from hivecalc.shopping.cut_goods import by_goods, group_of
from hivecalc.shopping.lines import Group, Line
from hivecalc.shopping.saying import times
from hivecalc.stock import Yard

WORTH_KEEPING: Final = Fraction(1)
"""Shorter offcuts are not told; a choice."""


def board_group(need: BoardNeed, yard: Yard, planner: Planner) -> Group:
    """The boards of one kind of lumber that cost least, and the plan that they are cut by."""
    cut = BoardsCut(need, planner.boards(need, yard, "cost"))
    return group_of(cut, _lines(cut.plan, planner.units), "crosscut")


def _lines(plan: BoardPlan, units: Units) -> Iterator[Line]:
    """A line for each board of which some are taken, in the order of the plan."""
    for board, patterns in by_goods(plan.patterns, lambda pattern: pattern.board).items():
        count = sum(pattern.count for pattern in patterns)
        waste = sum((pattern.waste for pattern in patterns), Fraction(0))
        used = 1 - waste / (count * board.length)
        left = tuple(_offcuts(patterns, units))
        yield Line("board", board.name, count, board.price, used, left, board.at_hand)


def _offcuts(patterns: Sequence[BoardPattern], units: Units) -> Iterator[str]:
    """The offcuts worth keeping in words, the longest first."""
    counts = Counter[Length]()
    for pattern in patterns:
        counts[pattern.offcut] += pattern.count
    for offcut, count in sorted(counts.items(), reverse=True):
        if offcut >= WORTH_KEEPING:
            yield times(count, with_unit(units, offcut))
