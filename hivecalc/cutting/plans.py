"""All cutting plans of some hives: boards of each kind of lumber, sheets of each material."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from typing import Final, TypeAlias, TypeVar

from hivecalc.cutting.boards import Aim, BoardPlan, board_plan
from hivecalc.cutting.needs import BoardNeed, SheetNeed, board_needs, sheet_needs
from hivecalc.cutting.sheets import SheetAim, SheetPlan, sheet_plan
from hivecalc.cutting.wanted import STOPPED, Progress, Unplanned
from hivecalc.hive import Hive
from hivecalc.length import Units
from hivecalc.stock import Yard

P = TypeVar("P", BoardPlan, SheetPlan)

Hears: TypeAlias = Callable[[str, Progress], None]
"""Something that hears what is being planned, and how far it is."""

HURRIED: Final = 0.2
"""Seconds that each further plan takes once the user has stopped a search."""

SHEET_AIM: Final[dict[Aim, SheetAim]] = {"boards": "sheets", "cost": "cost", "waste": "sheets"}
"""What a plan for sheets aims at, by the aim of the one for boards: fewest sheets waste least."""


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
    seconds: float = 10,
    tell: Hears | None = None,
) -> CutPlans:
    """How to cut all boards and sheets of one or several hives out of what a yard sells.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> plans = cut_plans([demo_hive()], demo_yard())
    >>> [(cut.need.name, cut.plan.boards, cut.plan.proved) for cut in plans.boards][:1]
    [('stud of 1 1/2 × 3 1/2 in', 2, True)]

    `seconds` is what each plan may take. Ctrl-C ends the search that is on and hurries the others:
    the best plans so far come back. Raises HiveFaults where there is no hive.
    """
    making = _Making(yard, hives[0].units if hives else "inch", aim, seconds, tell)
    boards = tuple(map(making.boards, board_needs(hives, yard)))
    sheets = tuple(map(making.sheets, sheet_needs(hives, yard)))
    return CutPlans(making.units, aim, boards, sheets, making.stopped)


@dataclass
class _Making:
    """How plans are made: one after the other, in a hurry once the user has stopped one."""

    yard: Yard
    units: Units
    aim: Aim
    seconds: float
    tell: Hears | None
    stopped: bool = False

    def boards(self, need: BoardNeed) -> BoardsCut:
        plan = partial(
            board_plan,
            need.wanted,
            need.boards,
            kerf=self.yard.kerf,
            trim=self.yard.end_trim,
            aim=self.aim,
            tell=self._teller(need.name),
            units=self.units,
        )
        return BoardsCut(need, self._made(plan))

    def sheets(self, need: SheetNeed) -> SheetsCut:
        plan = partial(
            sheet_plan,
            need.wanted,
            need.sheets,
            kerf=need.kerf,
            aim=SHEET_AIM[self.aim],
            tell=self._teller(need.name),
            units=self.units,
        )
        return SheetsCut(need, self._made(plan))

    def _teller(self, name: str) -> Callable[[Progress], None] | None:
        tell = self.tell
        return None if tell is None else lambda progress: tell(name, progress)

    def _made(self, plan: Callable[..., P]) -> P:
        """Make a plan; where it is stopped before there is one, make it again in a hurry."""
        try:
            found: P = plan(seconds=self.seconds)
        except KeyboardInterrupt:
            self._hurry()
            return plan(seconds=self.seconds)
        if STOPPED in found.notes:
            self._hurry()
        return found

    def _hurry(self) -> None:
        self.stopped, self.seconds = True, min(self.seconds, HURRIED)
