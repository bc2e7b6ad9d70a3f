"""What a careful person cuts without any search, to compare with."""

from collections.abc import Sequence
from fractions import Fraction

from hivecalc.cutting.boards.plan import Aim, BoardPlan
from hivecalc.cutting.boards.planning import checked_task, plan_of
from hivecalc.cutting.boards.record import Record
from hivecalc.cutting.boards.search import start
from hivecalc.cutting.boards.task import Request
from hivecalc.cutting.wanted import Wanted
from hivecalc.length import Length, Units
from hivecalc.stock import Board


def careful_plan(  # noqa: PLR0913 - the same as for `board_plan`
    wanted: Sequence[Wanted],
    boards: Sequence[Board],
    *,
    kerf: Length,
    trim: Length = Fraction(0),
    aim: Aim = "boards",
    units: Units = "inch",
) -> BoardPlan:
    """The plan of somebody who cuts the longest piece first, out of the first board it fits.

    >>> stud = Board("8 ft stud", "stud", Fraction(3, 2), Fraction(7, 2), Fraction(96))
    >>> rails = [Wanted("rail", Fraction(40), 3), Wanted("stop", Fraction(30), 5)]
    >>> careful_plan(rails, [stud], kerf=Fraction(1, 8)).boards
    4

    Boards at hand come first, then the boards that do most for the aim. Lengths, faults and what is
    unplanned are as in `board_plan`; `bound` is what the pieces' lengths alone prove.
    """
    task = checked_task(Request(tuple(wanted), tuple(boards), kerf, trim, aim, units))
    record = Record(task.problem.without_outdone(), task.unit, 0, None)
    start(record)
    return plan_of(task, record)
