"""The plan for cutting sheets: asked, searched, and told with labels."""

from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from hivecalc.cutting.interrupts import interrupts_held
from hivecalc.cutting.sheets.finishing import tidied
from hivecalc.cutting.sheets.holding import Holding
from hivecalc.cutting.sheets.labels import Labels
from hivecalc.cutting.sheets.mixes import by_area, mixes
from hivecalc.cutting.sheets.plan import SheetAim, SheetPlan
from hivecalc.cutting.sheets.record import Record, Tell
from hivecalc.cutting.sheets.starting import started
from hivecalc.cutting.sheets.task import Request, Task, check, task_of
from hivecalc.cutting.sheets.wanted import WantedSheet
from hivecalc.cutting.wanted import STOPPED
from hivecalc.length import Length, Units
from hivecalc.stock import SheetGoods

SECONDS: Final = 20.0
NO_PRICE: Final = (
    "Not every sheet has a price, so this plan buys the fewest sheets instead of the cheapest."
)
FACTORY_EDGE: Final = (
    "The left long edge of each new sheet stays as it came from the factory: let no cut trim it."
)


def sheet_plan(  # noqa: PLR0913 - all that the saw and the yard decide
    wanted: Sequence[WantedSheet],
    sheets: Sequence[SheetGoods],
    *,
    kerf: Length,
    trim: Length = Fraction(0),
    keep_factory_edge: bool = False,
    aim: SheetAim = "cost",
    seconds: float = SECONDS,
    tell: Tell | None = None,
    units: Units = "inch",
) -> SheetPlan:
    """How to cut these pieces out of these sheets, the best way that is found, and a bound on it.

    >>> half = SheetGoods("half", "plywood", *map(Fraction, (1, 48, 48)), Fraction(14))
    >>> deck = WantedSheet("deck", Fraction(171, 8), Fraction(217, 8), 2, turns=False)
    >>> plan = sheet_plan([deck], [half], kerf=Fraction(1, 8))
    >>> plan.price, plan.proved, [str(cut.at) for cut in plan.layouts[0].cuts]
    (Fraction(14, 1), True, ['217/8', '171/8', '171/8'])

    Lengths in inches; `units` is how messages say them. Each cut goes from edge to edge of the part
    that it cuts. Least money is spent, or where a price is missing, or `aim` says so, the fewest
    sheets are bought; a sheet at hand costs nothing. Of plans that are equal in that, one with few
    sheets, a big offcut and few cuts is taken as far as it is found.

    `trim` comes off each edge of a sheet that is not at hand. With `keep_factory_edge` the left
    long edge of such a sheet stays as it came from the factory, and every piece whose
    `factory_edge` is set has one side on that edge. What no sheet gives is told as unplanned, the
    rest is planned.

    The search ends after so many seconds at most; `tell` hears how far it is. Ctrl-C ends it
    sooner. Either way the best plan so far comes back, and `proved` and `bound` say how good it is.
    Raises HiveFaults for sizes, counts and prices that can't be, and for more than 100,000 pieces.
    """
    request = Request(tuple(wanted), tuple(sheets), kerf, trim, keep_factory_edge, aim, units)
    check(request)
    task = task_of(request)
    problem, cutting = started(task.problem)
    record = Record(problem, seconds, tell, task.aimed)
    try:
        record.improve(cutting)
        search(record)
        record.best = tidied(problem, record.best)
    except KeyboardInterrupt:
        return _plan(task, record, stopped=True)
    return _plan(task, record, stopped=False)


def search(record: Record) -> None:
    """Look for the best cutting: exactly where the pieces are few."""
    if not record.problem.kinds:
        return
    if Holding.can(record.problem):
        _search_exactly(record)
    else:
        with interrupts_held():
            from hivecalc.cutting.sheets.search import searched  # noqa: PLC0415 - loads numpy, scipy
        searched(record)


def _search_exactly(record: Record) -> None:
    """Take the first mix of sheets that holds all pieces, the cheapest first."""
    record.doing = "looking at every set of pieces"
    holding = Holding(record.problem)
    for mix in mixes(record.problem, [by_area(record.problem)]):
        record.prove(record.problem.cost(mix))
        if record.seconds_left <= 0:
            return
        if cutting := holding.all_in(mix):
            record.settle(cutting)
            return


def _plan(task: Task, record: Record, *, stopped: bool) -> SheetPlan:
    labels = Labels(task)
    layouts = tuple(labels.layouts(record.best))
    request = task.request
    notes = (
        *(STOPPED,) * stopped,
        *(NO_PRICE,) * (request.followed != request.aim),
        *(FACTORY_EDGE,) * request.keep_factory_edge,
    )
    return SheetPlan(
        layouts,
        task.aimed(record.bound),
        record.proved,
        (*task.unplanned, *labels.left_out()),
        request.followed,
        notes,
    )
