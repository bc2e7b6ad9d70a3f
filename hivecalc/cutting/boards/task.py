"""From what a builder writes to whole numbers: pieces by kind, boards by stock."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain, compress
from math import gcd, lcm
from operator import not_

from hivecalc.cutting.boards.asking import (
    faults_of_aim,
    faults_of_boards,
    faults_of_pieces,
    faults_of_saw,
)
from hivecalc.cutting.boards.fitting import usable_length
from hivecalc.cutting.boards.plan import Aim
from hivecalc.cutting.boards.problem import Kind, Problem, Stock
from hivecalc.cutting.wanted import Unplanned, Wanted
from hivecalc.hive.faults import refuse
from hivecalc.length import Length, Units, with_unit
from hivecalc.stock import Board


@dataclass(frozen=True)
class Request:
    """What is asked for: pieces, boards, kerf, trim, aim, and the units to speak in."""

    wanted: tuple[Wanted, ...]
    boards: tuple[Board, ...]
    kerf: Length
    trim: Length
    aim: Aim
    units: Units

    @property
    def followed(self) -> Aim:
        """The aim that is followed: fewest boards where the cost is not known."""
        priced = all(b.price is not None for b in self.boards if not b.at_hand)
        return self.aim if priced or self.aim != "cost" else "boards"

    def fits(self, board: Board, piece: Wanted) -> bool:
        """Whether a board gives such a piece at all."""
        straight = board.straight or not piece.straight
        return straight and board.count != 0 and piece.length <= usable_length(board, self.trim)

    def cost(self, board: Board) -> Fraction:
        """What the aim counts for one board. A board at hand costs nothing."""
        if board.at_hand:
            return Fraction(0)
        costs = {"boards": Fraction(1), "cost": board.price or Fraction(0), "waste": board.length}
        return costs[self.followed]


@dataclass(frozen=True)
class Task:
    """A problem in whole numbers, and what its numbers stand for.

    `pieces` are the wanted pieces of each kind, `unit` is what one unit of cost is worth.
    """

    request: Request
    problem: Problem
    pieces: tuple[tuple[Wanted, ...], ...]
    unit: Fraction
    unplanned: tuple[Unplanned, ...]


def check(request: Request) -> None:
    """Raise HiveFaults with every fault of what is asked for."""
    faults = chain(
        faults_of_aim(request.aim),
        faults_of_saw(request.wanted, request.kerf, request.trim, request.units),
        faults_of_pieces(request.wanted, request.units),
        faults_of_boards(request.boards, request.units),
    )
    refuse(faults, "cutting plan")


def task_of(request: Request) -> Task:
    """The task in whole numbers; pieces that no board gives are set apart.

    >>> stud = Board("stud", "stud", Fraction(3, 2), Fraction(7, 2), Fraction(96))
    >>> rails = (Wanted("rail", Fraction(87, 4), 5), Wanted("beam", Fraction(120)))
    >>> task = task_of(Request(rails, (stud,), Fraction(1, 8), Fraction(0), "boards", "inch"))
    >>> task.problem.kinds, task.problem.stocks[0].room
    ((Kind(size=1, demand=5, straight=False),), 4)
    >>> task.unplanned[0].why
    'it is 120 in long, and the longest board gives 96 in'
    """
    asked = [piece for piece in request.wanted if piece.count]
    fits = [any(request.fits(board, piece) for board in request.boards) for piece in asked]
    fitting = sorted(compress(asked, fits), key=lambda piece: (not piece.straight, -piece.length))
    too_long = compress(asked, map(not_, fits))
    groups: dict[tuple[bool, Length], list[Wanted]] = {}
    for piece in fitting:
        groups.setdefault((piece.straight, piece.length), []).append(piece)
    problem, unit = _problem(request, groups)
    unplanned = tuple(Unplanned(w.label, w.count, _why(request, w)) for w in too_long)
    return Task(request, problem, tuple(map(tuple, groups.values())), unit, unplanned)


def _problem(
    request: Request, groups: dict[tuple[bool, Length], list[Wanted]]
) -> tuple[Problem, Fraction]:
    sizes, rooms = _whole(
        [length + request.kerf for _, length in groups],
        [usable_length(board, request.trim) + request.kerf for board in request.boards],
    )
    demands = [sum(w.count for w in group) for group in groups.values()]
    kinds = tuple(Kind(s, d, g[0]) for s, d, g in zip(sizes, demands, groups, strict=True))
    costs, unit = whole_costs([request.cost(board) for board in request.boards])
    counts = [
        sum(demands) if b.count is None else min(b.count, sum(demands)) for b in request.boards
    ]
    straight = [board.straight for board in request.boards]
    stocks = tuple(map(Stock, rooms, costs, counts, straight, _ranks(request.boards)))
    return Problem(kinds, stocks, _penalty(kinds, stocks)), unit


def _whole(sizes: list[Fraction], rooms: list[Fraction]) -> tuple[list[int], list[int]]:
    """Sizes and rooms in the largest unit in which all sizes are whole; of a room what is whole."""
    scale = lcm(*(size.denominator for size in sizes))
    common = gcd(*(int(size * scale) for size in sizes)) or 1
    return [int(s * scale) // common for s in sizes], [int(r * scale // common) for r in rooms]


def whole_costs(costs: list[Fraction]) -> tuple[list[int], Fraction]:
    """Costs in whole numbers, and what one is worth.

    >>> whole_costs([Fraction(4), Fraction(11, 2)])
    ([8, 11], Fraction(1, 2))
    """
    scale = lcm(*(cost.denominator for cost in costs))
    common = gcd(*(int(cost * scale) for cost in costs)) or 1
    return [int(cost * scale) // common for cost in costs], Fraction(common, scale)


def _ranks(boards: Sequence[Board]) -> list[int]:
    """Place of each board by price where all have one, and by length."""
    priced = all(board.price is not None for board in boards)
    keys = [((b.price or Fraction(0)) * priced, b.length) for b in boards]
    order = sorted(set(keys))
    return [order.index(key) for key in keys]


def _penalty(kinds: tuple[Kind, ...], stocks: tuple[Stock, ...]) -> int:
    """More than all the stock costs where it can run out, else 0."""
    pieces = sum(kind.demand for kind in kinds)
    enough = [s for s in stocks if s.supply >= pieces]
    if all(any(s.room >= k.size and s.straight >= k.straight for s in enough) for k in kinds):
        return 0
    return 1 + sum(stock.cost * stock.supply for stock in stocks)


def _why(request: Request, piece: Wanted) -> str:
    boards = [board for board in request.boards if board.count != 0]
    able = [board for board in boards if board.straight or not piece.straight]
    if not boards:
        return "there is no board to cut it from"
    if not able:
        return "it must come out of a straight board, and there is none"
    longest = max(usable_length(board, request.trim) for board in able)
    what = "longest straight board" if piece.straight else "longest board"
    long, gives = (with_unit(request.units, x) for x in (piece.length, longest))
    return f"it is {long} long, and the {what} gives {gives}"
