"""What is known about a plan in words: its aim, what it takes, what no plan can go below."""

from fractions import Fraction
from math import ceil

from hivecalc.cutting.boards import Aim, BoardPlan
from hivecalc.cutting.sheets import SheetAim, SheetPlan
from hivecalc.hive.values import said_with_unit
from hivecalc.length import Units
from hivecalc.shopping import paid
from hivecalc.tables.cut import COUNTED, PROVED, UNPROVED, counted_goods


def known(plan: BoardPlan | SheetPlan, currency: str, units: Units) -> str:
    """What a plan aims at and takes, what no plan can go below, and whether it is proved.

    >>> plan = BoardPlan((), "cost", Fraction(8), proved=False)
    >>> known(plan, "coins", "inch").partition(". ")[2]
    'It takes 0 coins, and no plan can take less than 8 coins. Whether another plan does better \
is not proved.'
    """
    takes, least = (_amount(plan.aim, n, currency, units) for n in (plan.counted, plan.bound))
    aim = f"Aim: {COUNTED[plan.aim]}."
    if plan.proved:
        return f"{aim} It takes {takes}. {PROVED}"
    return f"{aim} It takes {takes}, and no plan can take less than {least}. {UNPROVED}"


def _amount(aim: Aim | SheetAim, counted: Fraction, currency: str, units: Units) -> str:
    """Return what an aim counts, in words."""
    match aim:
        case "cost":
            return paid(counted, currency)
        case "waste":
            return f"{said_with_unit(counted, units)} of board to buy"
        case "boards" | "sheets":
            return f"{counted_goods(ceil(counted), aim[:-1])} to buy"
