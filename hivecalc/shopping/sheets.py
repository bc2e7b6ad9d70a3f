"""Sheets to buy: a group for each material and thickness, by the plan that they are cut by."""

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction

from hivecalc.cutting.needs import SheetNeed
from hivecalc.cutting.planner import Planner
from hivecalc.cutting.plans import SheetsCut
from hivecalc.cutting.sheets import Layout, SheetPlan
from hivecalc.length import Length, Units, with_unit
from hivecalc.shopping.boards import WORTH_KEEPING
from hivecalc.shopping.cut_goods import by_goods, group_of
from hivecalc.shopping.lines import Group, Line
from hivecalc.shopping.saying import times


def sheet_group(need: SheetNeed, planner: Planner) -> Group:
    """The sheets of one material and thickness that cost least, and the plan they are cut by."""
    cut = SheetsCut(need, planner.sheets(need, "cost"))
    return group_of(cut, _lines(cut.plan, planner.units), "cut out")


def _lines(plan: SheetPlan, units: Units) -> Iterator[Line]:
    """A line for each sheet of which some are taken, in the order of the plan."""
    for sheet, layouts in by_goods(plan.layouts, lambda layout: layout.sheet).items():
        count = sum(layout.count for layout in layouts)
        waste = sum((layout.waste for layout in layouts), Fraction(0))
        used = 1 - waste / (count * sheet.width * sheet.length)
        left = tuple(_offcuts(layouts, units))
        yield Line("sheet", sheet.name, count, sheet.price, used, left, sheet.at_hand)


def _offcuts(layouts: Sequence[Layout], units: Units) -> Iterator[str]:
    """The offcuts worth keeping in words, width before length, the biggest first."""
    counts = Counter[tuple[Length, Length]]()
    for layout in layouts:
        for rest in layout.offcuts:
            counts[rest.width, rest.length] += layout.count
    for sizes, count in sorted(counts.items(), key=lambda item: -item[0][0] * item[0][1]):
        if min(sizes) >= WORTH_KEEPING:
            yield times(count, with_unit(units, *sizes))
