"""Which patterns matter, from fractions of boards: their cost is a bound, and they round well."""

from collections.abc import Iterable
from itertools import count
from math import ceil
from typing import Final

from hivecalc.cutting.boards.filling import LOOKED_AT, filled
from hivecalc.cutting.boards.master import HAIR, Relaxed, relaxed, whole
from hivecalc.cutting.boards.pricing import SCALE, Prices, bound, lowered, worthwhile
from hivecalc.cutting.boards.problem import LEFT_OUT, Pattern, Problem, taken
from hivecalc.cutting.boards.record import Record

MOST_KINDS: Final = 700
MOST_PATTERNS: Final = 1500
ROUND_EACH: Final = 10
LONGEST: Final = 2.0


def narrow(record: Record) -> None:
    """Weigh patterns against each other until no other one could lower the cost of fractions."""
    if len(record.problem.kinds) > MOST_KINDS:
        return
    for turn in count(1):
        found = _weighed(record)
        if found is None or not record.open:
            return
        new = _missing(record, found)
        if turn % ROUND_EACH == 0 or not new:
            _round(record, found)
        if not new:
            return
        record.patterns.update(dict.fromkeys(new))


def choose(record: Record) -> None:
    """Choose whole boards by the patterns that matter most."""
    if record.prices is not None:
        ordered = sorted(record.patterns, key=record.prices.reduced_cost)[:MOST_PATTERNS]
        found = whole(record.problem, ordered, min(LONGEST, record.seconds_left), record.cost)
        if found.cutting:
            record.improve(found.cutting)


def _weighed(record: Record) -> Relaxed | None:
    """The cheapest cutting in fractions of boards by the patterns so far."""
    problem = record.problem
    if problem.penalty:
        left_out = (Pattern(LEFT_OUT, ((kind, 1),)) for kind in range(len(problem.kinds)))
        record.patterns.update(dict.fromkeys(left_out))
    return relaxed(problem, [*record.patterns], record.seconds_left)


def _missing(record: Record, found: Relaxed) -> list[Pattern]:
    """Patterns that are worth more than their board, and are not there yet."""
    problem = record.problem
    scale = max(1, SCALE // max(1, *(stock.cost for stock in problem.stocks), problem.penalty))
    most = problem.penalty * scale or max(1, *(stock.cost for stock in problem.stocks)) * scale
    prices = Prices(problem, _whole(found.pieces_worth, scale, most), scale)
    low = lowered(prices)
    if record.prices is None or bound(low) >= bound(record.prices):
        record.prices = low
        record.prove(bound(low))
    if ceil(bound(low)) >= ceil(found.cost - HAIR):
        return []
    discounts = {stock: int(worth * scale) for stock, worth in found.stocks_worth.items()}
    fresh = dict.fromkeys(worthwhile(prices, discounts))
    return [pattern for pattern in fresh if pattern not in record.patterns]


def _whole(worths: Iterable[float], scale: int, most: int) -> tuple[int, ...]:
    """Worths in whole numbers; none is more than the dearest board, or than leaving it out."""
    return tuple(min(most, max(0, int(worth * scale))) for worth in worths)


def _round(record: Record, found: Relaxed) -> None:
    """Cut the whole boards of a cutting in fractions, and fill boards with what is still wanted."""
    whole_boards = zip(record.patterns, found.boards, strict=True)
    kept = {pattern: int(n + HAIR) for pattern, n in whole_boards if int(n + HAIR)}
    rest = _still_wanted(record.problem, kept)
    for looked_at in LOOKED_AT:
        more = filled(rest, looked_at)
        record.improve(kept | {p: n + kept.get(p, 0) for p, n in more.items()})


def _still_wanted(problem: Problem, cutting: dict[Pattern, int]) -> Problem:
    demand = [kind.demand for kind in problem.kinds]
    for pattern, boards in cutting.items():
        for kind, pieces in pattern.pieces:
            demand[kind] = max(0, demand[kind] - pieces * boards)
    return problem.residual(demand, taken(cutting))
