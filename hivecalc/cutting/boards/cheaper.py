"""A second wish: of all plans with as few boards, one whose boards cost least, or are shortest."""

from dataclasses import replace
from fractions import Fraction

from hivecalc.cutting.boards.problem import Problem
from hivecalc.cutting.boards.record import Record
from hivecalc.cutting.boards.search import search
from hivecalc.cutting.boards.task import Task, whole_costs


def with_cheaper_boards(task: Task, record: Record, seconds: float) -> Record:
    """A record whose best takes as few boards as this one's, cheaper ones if any are found.

    It is the same record where something else is the aim, where all boards are alike, or where
    pieces are left out. Where not every board has a price, the shorter one counts as the cheaper.
    The search ends after so many seconds; how far it is is not told, as its costs hold the wishes.
    """
    alike = len({stock.rank for stock in task.problem.stocks}) < 2  # noqa: PLR2004 - no choice
    if task.request.followed != "boards" or alike or record.problem.penalty:
        return record
    second = Record(_wished(task), task.unit, seconds, None)
    second.improve(record.best)
    search(second)
    return second


def _wished(task: Task) -> Problem:
    """The same problem, in which one board more costs more than all wishes together."""
    boards, problem = task.request.boards, task.problem
    priced = all(board.price is not None for board in boards if not board.at_hand)
    bought = ((board.price or Fraction(0)) if priced else board.length for board in boards)
    costs = zip(boards, bought, strict=True)
    wishes, _ = whole_costs([Fraction(0) if board.at_hand else cost for board, cost in costs])
    most = 1 + problem.pieces * max(wishes, default=0)
    stocks = zip(problem.stocks, wishes, strict=True)
    wished = tuple(stock._replace(cost=stock.cost * most + wish) for stock, wish in stocks)
    return replace(problem, stocks=wished, penalty=0)
