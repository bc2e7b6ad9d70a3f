"""The plan for cutting boards: asked, searched, finished, and told with labels."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from typing import Final

from hivecalc.cutting.boards.cheaper import with_cheaper_boards
from hivecalc.cutting.boards.fewer import fewer_patterns
from hivecalc.cutting.boards.finishing import at_hand_first, shorter_boards
from hivecalc.cutting.boards.labels import Labels, board_patterns, left_out
from hivecalc.cutting.boards.plan import Aim, BoardPlan
from hivecalc.cutting.boards.problem import LEFT_OUT
from hivecalc.cutting.boards.record import Record, Tell
from hivecalc.cutting.boards.search import search, start
from hivecalc.cutting.boards.task import Request, Task, check, task_of
from hivecalc.cutting.wanted import STOPPED, Wanted
from hivecalc.length import Length, Units
from hivecalc.stock import Board

SECONDS: Final = 10.0
FOR_CHEAPER: Final = 1.0
FOR_FEWER: Final = 1.0
A_KNIFE: Final = "The kerf is 0, so each cut is taken to lose nothing, as with a knife."
NO_PRICE: Final = (
    "Not every board has a price, so this plan buys the fewest boards instead of the cheapest."
)


def board_plan(  # noqa: PLR0913 - what a workshop can say about its wood and saw
    wanted: Sequence[Wanted],
    boards: Sequence[Board],
    *,
    kerf: Length,
    trim: Length = Fraction(0),
    aim: Aim = "boards",
    seconds: float = SECONDS,
    tell: Tell | None = None,
    units: Units = "inch",
) -> BoardPlan:
    """How to cut these pieces out of these boards, the best way that is found, and a bound on it.

    >>> stud = Board("8 ft stud", "stud", Fraction(3, 2), Fraction(7, 2), Fraction(96))
    >>> rails = [Wanted("side rail", Fraction(173, 8), 6), Wanted("beam", Fraction(98))]
    >>> plan = board_plan(rails, [stud], kerf=Fraction(1, 8))
    >>> plan.boards, plan.proved, [pattern.offcut for pattern in plan.patterns]
    (2, True, [Fraction(105, 2), Fraction(9, 1)])
    >>> plan.unplanned[0].why
    'it is 98 in long, and the longest board gives 96 in'

    Lengths are in inches; `units` is how messages say them. The aim is to buy the fewest boards,
    at the least cost, or with the least length bought; a board at hand counts nothing in all three.
    `trim` goes off one end of each board that is not at hand. A piece that must be straight comes
    only out of a straight board. What no board gives is told as unplanned, the rest is planned.

    The search ends after so many seconds; `tell` hears how far it is. Ctrl-C ends it sooner. Either
    way the best plan so far comes back, and `proved` and `bound` say how good it is. Raises
    HiveFaults for sizes, counts and prices that can't be, and for more than 500,000 pieces.
    """
    task = checked_task(Request(tuple(wanted), tuple(boards), kerf, trim, aim, units))
    record = Record(task.problem.without_outdone(), task.unit, seconds, tell)
    start(record)
    notes = []
    try:
        search(record)
        wished = with_cheaper_boards(task, record, min(FOR_CHEAPER, seconds))
        record.best = fewer_patterns(wished.problem, wished.best, min(FOR_FEWER, seconds))
    except KeyboardInterrupt:
        notes.append(STOPPED)
    return plan_of(task, record, notes)


def checked_task(request: Request) -> Task:
    """The task of a request that can be followed; raises HiveFaults for one that can't.

    >>> checked_task(Request((), (), Fraction(0), Fraction(0), "boards", "inch")).pieces
    ()
    """
    check(request)
    return task_of(request)


def plan_of(task: Task, record: Record, notes: Iterable[str] = ()) -> BoardPlan:
    """The plan of the best cutting so far: boards at hand first, short boards before long ones.

    >>> task = checked_task(Request((), (), Fraction(0), Fraction(0), "boards", "inch"))
    >>> plan_of(task, Record(task.problem, task.unit, 1, None)).proved
    True
    """
    problem, boards = task.problem, task.request.boards
    at_hand = {i for i, board in enumerate(boards) if board.at_hand}
    cutting = shorter_boards(problem, at_hand, at_hand_first(problem, at_hand, record.best))
    labels = Labels(task.pieces)
    patterns = tuple(board_patterns(task, cutting, labels))
    unplanned = (*task.unplanned, *left_out(cutting, labels))
    left = sum(n for pattern, n in cutting.items() if pattern.stock == LEFT_OUT)
    bound = max(0, record.bound - left * record.problem.penalty) * task.unit
    told = (*_notes(task.request), *notes)
    return BoardPlan(patterns, task.request.followed, bound, record.proved, unplanned, told)


def _notes(request: Request) -> Iterator[str]:
    if request.kerf == 0:
        yield A_KNIFE
    if request.followed != request.aim:
        yield NO_PRICE
