"""All cutting plans of some hives: boards of each kind of lumber, sheets of each material."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from hivecalc.cutting.boards import Aim, BoardPlan
from hivecalc.cutting.needs import BoardNeed, SheetNeed, board_needs, sheet_needs
from hivecalc.cutting.planner import Planner
from hivecalc.cutting.sheets import SheetPlan
from hivecalc.cutting.wanted import Unplanned
from hivecalc.hive import Hive
from hivecalc.length import Units
from hivecalc.stock import Yard


@dataclass(frozen=True)
class BoardsCut:
    """The boards of one kind of lumber: what is needed of it, and how they are cut."""

    need: BoardNeed
    plan: BoardPlan


@dataclass(frozen=True)
class SheetsCut:
    """The sheets of one material and thickness: what is needed of it, and how they are cut."""

    need: SheetNeed
    plan: SheetPlan


@dataclass(frozen=True)
class CutPlans:
    """All cutting plans of some hives, and what is known about them together.

    `stopped` says that the user stopped a search.
    """

    units: Units
    aim: Aim
    boards: tuple[BoardsCut, ...]
    sheets: tuple[SheetsCut, ...]
    stopped: bool = False

    @property
    def cuts(self) -> tuple[BoardsCut | SheetsCut, ...]:
        """Everything that is cut: boards, then sheets."""
        return (*self.boards, *self.sheets)

    @property
    def proved(self) -> bool:
        """Whether it is shown of every plan that none is better."""
        return all(cut.plan.proved for cut in self.cuts)

    @property
    def unplanned(self) -> tuple[Unplanned, ...]:
        """What the yard does not give, and why not."""
        return tuple(left for c in self.cuts for left in (*c.need.unplanned, *c.plan.unplanned))

    @property
    def used(self) -> int:
        """How many boards and sheets are cut, those at hand too."""
        return sum(c.plan.boards for c in self.boards) + sum(c.plan.sheets for c in self.sheets)

    @property
    def bound(self) -> Fraction:
        """What no plans can go below: boards and sheets to buy, money, or inches of board."""
        counted = self.boards if self.aim == "waste" else self.cuts
        return sum((cut.plan.bound for cut in counted), Fraction(0))


def cut_plans(
    hives: Sequence[Hive],
    yard: Yard,
    aim: Aim = "boards",
    planner: Planner | None = None,
) -> CutPlans:
    """How to cut all boards and sheets of one or several hives out of what a yard sells.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> plans = cut_plans([demo_hive()], demo_yard())
    >>> [(cut.need.name, cut.plan.boards, cut.plan.proved) for cut in plans.boards][:1]
    [('stud of 1 1/2 × 3 1/2 in', 2, True)]

    Ctrl-C ends the search that is on and hurries the others: the best plans so far come back.
    Raises HiveFaults where there is no hive.
    """
    how = planner or Planner(hives[0].units if hives else "inch")
    boards = tuple(BoardsCut(n, how.boards(n, yard, aim)) for n in board_needs(hives, yard))
    sheets = tuple(SheetsCut(n, how.sheets(n, aim)) for n in sheet_needs(hives, yard))
    return CutPlans(how.units, aim, boards, sheets, how.stopped)
