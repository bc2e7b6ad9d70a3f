"""Proof in whole boards: every pattern that a cutting of that cost could use is tried.

By prices at which no board is worth less than its pieces, each pattern wastes so much; and a
cutting wastes in all by how much it costs more than its pieces are worth. So a pattern that wastes
more than that alone is in no such cutting. The same holds for the length left over of a mix.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import count, islice
from math import ceil
from typing import Final

from hivecalc.cutting.boards.knapsack import Pieces
from hivecalc.cutting.boards.master import HAIR, whole
from hivecalc.cutting.boards.mixes import Mix
from hivecalc.cutting.boards.pricing import Prices, bound
from hivecalc.cutting.boards.problem import LEFT_OUT, Pattern, Problem
from hivecalc.cutting.boards.record import Record
from hivecalc.cutting.boards.sets import full_sets

MOST_PATTERNS: Final = 20_000
MOST_STEPS: Final = 300_000


@dataclass(frozen=True)
class Goal:
    """A cost to find a cutting for or to exclude, with these boards and this length left over."""

    cost: int
    problem: Problem
    prices: Prices
    left_over: int

    @property
    def waste(self) -> Fraction:
        """How much a cutting for this cost wastes, by the prices."""
        return self.cost - bound(self.prices)


def widen(record: Record) -> None:
    """Raise the cost step by step, find a cutting for it or exclude one, till one is found."""
    reach = Fraction(0)
    while record.open and record.prices is not None:
        goal = _goal(record, record.prices, 2 * reach)
        patterns = _patterns(goal)
        if patterns is None or not _decided(record, goal, patterns):
            return
        reach = goal.waste


def _goal(record: Record, prices: Prices, reach: Fraction) -> Goal:
    """The next cost to decide: the bound itself if its mixes are known, else further each time."""
    problem, mixes = record.problem, record.cheapest_mixes()
    if mixes:
        boards = [max(counts) for counts in zip(*(mix.boards for mix in mixes), strict=True)]
        left_over = max(_length(problem, mix) for mix in mixes) - problem.material
        return Goal(record.bound, problem.limited_to(boards), prices, left_over)
    far = int(bound(prices) + reach)
    cost = min(record.cost - 1, max(record.bound, far))
    return Goal(cost, problem, prices, problem.largest_room)


def _length(problem: Problem, mix: Mix) -> int:
    return sum(s.room * n for s, n in zip(problem.stocks, mix.boards, strict=True))


def _decided(record: Record, goal: Goal, patterns: list[Pattern]) -> bool:
    """Whether the cheapest cutting by these patterns is known; they are all the goal could use."""
    before = record.cost, record.bound
    found = whole(goal.problem, patterns, record.seconds_left, goal.cost)
    if found.cutting:
        record.improve(found.cutting)
    if found.bound > goal.cost:
        record.prove(Fraction(goal.cost + 1))
    else:
        record.prove(Fraction(ceil(found.bound - HAIR)))
    return found.done and before != (record.cost, record.bound)


def _patterns(goal: Goal) -> list[Pattern] | None:
    """All patterns that a cutting for the goal could use; None if they are too many."""
    problem, prices, steps = goal.problem, goal.prices, count()
    patterns = [
        Pattern(LEFT_OUT, ((kind, 1),))
        for kind, worth in enumerate(prices.worth)
        if problem.penalty and problem.penalty * prices.scale - worth <= goal.waste * prices.scale
    ]
    for stock, board in enumerate(problem.stocks):
        if board.supply:
            sets = islice(_sets(goal, stock, steps), MOST_PATTERNS - len(patterns) + 1)
            patterns += [Pattern(stock, pieces) for pieces in sets]
    too_many = len(patterns) > MOST_PATTERNS or next(steps) > MOST_STEPS
    return None if too_many else patterns


def _sets(goal: Goal, stock: int, steps: Iterator[int]) -> Iterator[Pieces]:
    """Full boards of a stock that the goal could use; it ends when all steps are used up."""
    board, prices = goal.problem.stocks[stock], goal.prices
    table, cell = prices.generous[board.straight], prices.cell
    surplus = 0 if prices.problem.unlimited(stock) else max(0, prices.surplus(stock))
    least = ceil((board.cost - goal.waste) * prices.scale) + surplus

    def hopeful(item: int, room: int, worth: int) -> bool:
        best = int(table.table[item, int(room // cell)])
        return worth + best >= least and next(steps) <= MOST_STEPS

    for pieces in full_sets(table.items, board.room, hopeful):
        if board.room - prices.problem.size(pieces) <= goal.left_over:
            yield pieces
