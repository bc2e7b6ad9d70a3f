"""What makes the plans of a yard one after the other, in a hurry once the user has stopped one."""

import time
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Final, TypeAlias, TypeVar

from hivecalc.cutting.boards import Aim, BoardPlan, board_plan
from hivecalc.cutting.needs import BoardNeed, SheetNeed
from hivecalc.cutting.sheets import SheetAim, SheetPlan, sheet_plan
from hivecalc.cutting.wanted import STOPPED, Progress
from hivecalc.length import Units
from hivecalc.stock import Yard

P = TypeVar("P", BoardPlan, SheetPlan)

Hears: TypeAlias = Callable[[str, Progress], None]
"""Something that hears what is being planned, and how far it is."""

SECONDS: Final = 8.0
"""What one plan may take."""

IN_ALL: Final = 14.0
"""What all plans may take together: a class of twelve hives that differ is planned within 20 s."""

HURRIED: Final = 0.2
"""Seconds that each further plan takes once the user has stopped a search, or no more are left."""

SHEET_AIM: Final[dict[Aim, SheetAim]] = {"boards": "sheets", "cost": "cost", "waste": "sheets"}
"""What a plan for sheets aims at, by the aim of the one for boards: fewest sheets waste least."""


@dataclass
class Planner:
    """What makes plans: how long for each and in all, told to whom, in which units it speaks.

    >>> from hivecalc.cutting.needs import board_needs
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> need = board_needs([demo_hive()], demo_yard())[0]
    >>> Planner().boards(need, demo_yard(), "boards").boards
    2

    Ctrl-C ends the search that is on, and the best plan so far comes back; `stopped` is set, and
    all further searches are hurried.
    """

    units: Units = "inch"
    seconds: float = SECONDS
    tell: Hears | None = None
    stopped: bool = False
    in_all: float = IN_ALL

    def boards(self, need: BoardNeed, yard: Yard, aim: Aim) -> BoardPlan:
        """The plan that cuts the boards of one kind of lumber."""
        return self._made(
            partial(
                board_plan,
                need.wanted,
                need.boards,
                kerf=yard.kerf,
                trim=yard.end_trim,
                aim=aim,
                tell=self._teller(need.name),
                units=self.units,
            )
        )

    def sheets(self, need: SheetNeed, aim: Aim) -> SheetPlan:
        """The plan that cuts the sheets of one material and thickness."""
        return self._made(
            partial(
                sheet_plan,
                need.wanted,
                need.sheets,
                kerf=need.kerf,
                keep_factory_edge=any(wanted.factory_edge for wanted in need.wanted),
                aim=SHEET_AIM[aim],
                tell=self._teller(need.name),
                units=self.units,
            )
        )

    def _teller(self, name: str) -> Callable[[Progress], None] | None:
        tell = self.tell
        return None if tell is None else lambda progress: tell(name, progress)

    def _made(self, plan: Callable[..., P]) -> P:
        """Make a plan; where it is stopped before there is one, make it again in a hurry."""
        begun = time.monotonic()
        try:
            found: P = plan(seconds=min(self.seconds, max(self.in_all, HURRIED)))
        except KeyboardInterrupt:
            self._hurry()
            return plan(seconds=self.seconds)
        finally:
            self.in_all -= time.monotonic() - begun
        if STOPPED in found.notes:
            self._hurry()
        return found

    def _hurry(self) -> None:
        self.stopped, self.seconds = True, min(self.seconds, HURRIED)
