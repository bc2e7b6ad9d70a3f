"""From what a builder writes to whole numbers: pieces by kind, sheets by stock."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain
from math import gcd, lcm
from typing import NamedTuple

from hivecalc.cutting.sheets.asking import (
    faults_of_aim,
    faults_of_pieces,
    faults_of_saw,
    faults_of_sheets,
)
from hivecalc.cutting.sheets.blocks import Way
from hivecalc.cutting.sheets.plan import SheetAim
from hivecalc.cutting.sheets.problem import Kind, Problem, Stock
from hivecalc.cutting.sheets.wanted import WantedSheet
from hivecalc.cutting.wanted import Unplanned
from hivecalc.hive.faults import refuse
from hivecalc.length import Length, Units, with_unit
from hivecalc.stock import SheetGoods


class Room(NamedTuple):
    """How far a part of a sheet reaches across it and along it.

    >>> Room(Fraction(48), Fraction(96)).cut("along", Fraction(20))
    Room(width=Fraction(20, 1), length=Fraction(96, 1))

    In inches.
    """

    width: Length
    length: Length

    def side(self, way: Way) -> Length:
        """The side that a cut of this way divides."""
        return self.width if way == "along" else self.length

    def cut(self, way: Way, at: Length) -> "Room":
        """The low part when it is cut this way."""
        return Room(at, self.length) if way == "along" else Room(self.width, at)


@dataclass(frozen=True)
class Request:
    """What is asked for: pieces, sheets, what saw and edges take, the aim, units of messages."""

    wanted: tuple[WantedSheet, ...]
    sheets: tuple[SheetGoods, ...]
    kerf: Length
    trim: Length
    keep_factory_edge: bool
    aim: SheetAim
    units: Units

    @property
    def followed(self) -> SheetAim:
        """The aim that is followed: fewest sheets where the cost is not known."""
        priced = all(s.price is not None for s in self.sheets if not s.at_hand)
        return self.aim if priced else "sheets"

    def left_trim(self, sheet: SheetGoods) -> Length:
        """What is trimmed off a sheet's left edge."""
        return Fraction(0) if sheet.at_hand or self.keep_factory_edge else self.trim

    def trims(self, sheet: SheetGoods) -> Length:
        """What is trimmed off each other edge."""
        return Fraction(0) if sheet.at_hand else self.trim

    def room(self, sheet: SheetGoods) -> Room:
        """What is left of a sheet when its edges are trimmed."""
        trim = self.trims(sheet)
        return Room(sheet.width - self.left_trim(sheet) - trim, sheet.length - 2 * trim)

    def has_edge(self, sheet: SheetGoods) -> bool:
        """Whether pieces may lie on a left edge that came from the factory."""
        return self.keep_factory_edge and not sheet.at_hand

    def on_edge(self, piece: WantedSheet) -> bool:
        """Whether a piece must lie on such an edge."""
        return self.keep_factory_edge and piece.factory_edge

    def fits(self, sheet: SheetGoods, piece: WantedSheet) -> bool:
        """Whether a sheet gives such a piece at all."""
        width, length = self.room(sheet)
        as_is = piece.width <= width and piece.length <= length
        turned = piece.turns and piece.length <= width and piece.width <= length
        edge = self.has_edge(sheet) or not self.on_edge(piece)
        return (as_is or turned) and edge and sheet.count != 0


class Size(NamedTuple):
    """What makes pieces of one kind: their sides, whether they turn, whether they need the edge."""

    width: Length
    length: Length
    turns: bool
    edge: bool


@dataclass(frozen=True)
class Task:
    """A problem in whole numbers, and what its numbers stand for.

    `groups` are the pieces wanted of each kind, `sheets` the sheets of each stock. A length of 1 in
    the problem is `scale` inches. A cost in it holds the aim, which is its share by `second`; what
    is beyond is a second wish.
    """

    request: Request
    problem: Problem
    groups: tuple[tuple[WantedSheet, ...], ...]
    sheets: tuple[SheetGoods, ...]
    scale: Fraction
    unit: Fraction
    second: int
    unplanned: tuple[Unplanned, ...]

    def aimed(self, cost: int) -> Fraction:
        """What a cost in the problem counts for the aim."""
        return cost // self.second * self.unit


def check(request: Request) -> None:
    """Raise HiveFaults with every fault of what is asked for."""
    units = request.units
    faults = chain(
        faults_of_aim(request.aim),
        faults_of_saw(request.wanted, request.kerf, request.trim, units),
        faults_of_pieces(request.wanted, units),
        faults_of_sheets(request.sheets, units),
    )
    refuse(faults, "cutting plan")


def task_of(request: Request) -> Task:
    """The task in whole numbers; pieces that no sheet gives are set apart.

    >>> half = SheetGoods("half", "foam", *map(Fraction, (1, 24, 48)), Fraction(11))
    >>> panel = WantedSheet("panel", Fraction(20), Fraction(14), 2)
    >>> wall = WantedSheet("wall", Fraction(50), Fraction(50))
    >>> request = Request((panel, wall), (half,), Fraction(0), Fraction(0), False, "cost", "inch")
    >>> task = task_of(request)
    >>> task.problem.kinds, task.problem.stocks[0].width
    ((Kind(width=7, length=10, demand=2, turns=True, edge=False),), 12)
    >>> task.unplanned[0].why
    'it is 50 × 50 in, and the largest sheet gives 24 × 48 in'
    """
    wanted = [piece for piece in request.wanted if piece.count]
    fitting = [w for w in wanted if any(request.fits(sheet, w) for sheet in request.sheets)]
    groups: dict[Size, list[WantedSheet]] = {}
    for piece in fitting:
        groups.setdefault(_size(request, piece), []).append(piece)
    sheets = [s for s in request.sheets if any(request.fits(s, piece) for piece in fitting)]
    scale = _scale(request.kerf, groups)
    costs, unit, second = _costs(request, sheets, sum(piece.count for piece in fitting))
    problem = Problem(
        tuple(_kind(request, scale, size, group) for size, group in groups.items()),
        tuple(
            _stock(request, scale, sheet, cost, sum(piece.count for piece in fitting))
            for sheet, cost in zip(sheets, costs, strict=True)
        ),
    )
    return Task(
        request,
        problem,
        tuple(map(tuple, groups.values())),
        tuple(sheets),
        scale,
        unit,
        second,
        tuple(Unplanned(w.label, w.count, _why(request, w)) for w in wanted if w not in fitting),
    )


def _size(request: Request, piece: WantedSheet) -> Size:
    sides = piece.width, piece.length
    if piece.turns:
        sides = min(sides), max(sides)
    return Size(*sides, piece.turns, request.on_edge(piece))


def _scale(kerf: Length, sizes: Iterable[Size]) -> Fraction:
    """The largest length of which every side with its kerf is a multiple."""
    sides = [side + kerf for size in sizes for side in (size.width, size.length)]
    shared = lcm(*(side.denominator for side in sides))
    return Fraction(gcd(*(int(side * shared) for side in sides)) or 1, shared)


def _kind(request: Request, scale: Fraction, size: Size, group: Sequence[WantedSheet]) -> Kind:
    wide, long = (int((side + request.kerf) / scale) for side in (size.width, size.length))
    return Kind(wide, long, sum(piece.count for piece in group), size.turns, size.edge)


def _stock(request: Request, scale: Fraction, sheet: SheetGoods, cost: int, pieces: int) -> Stock:
    wide, long = (int((side + request.kerf) / scale) for side in request.room(sheet))
    there = pieces if sheet.count is None else min(sheet.count, pieces)
    return Stock(wide, long, cost, there, request.has_edge(sheet), there == pieces)


def _costs(
    request: Request, sheets: Sequence[SheetGoods], pieces: int
) -> tuple[list[int], Fraction, int]:
    """Costs in whole numbers, what one is worth, and how many of a second wish are less than one.

    The second wish is few sheets, or small ones where few sheets are the aim.
    """
    if request.followed == "cost":
        first = [sheet.price or Fraction(0) for sheet in sheets]
        wishes = [1] * len(sheets)
    else:
        first = [Fraction(1)] * len(sheets)
        areas = sorted({sheet.width * sheet.length for sheet in sheets})
        wishes = [areas.index(sheet.width * sheet.length) for sheet in sheets]
    shared = lcm(*(cost.denominator for cost in first))
    unit = Fraction(gcd(*(int(cost * shared) for cost in first)) or 1, shared)
    second = 1 + pieces * max(wishes, default=0)
    costs = [
        0 if sheet.at_hand else int(cost / unit) * second + wish
        for sheet, cost, wish in zip(sheets, first, wishes, strict=True)
    ]
    return costs, unit, second


def _why(request: Request, piece: WantedSheet) -> str:
    sheets = [sheet for sheet in request.sheets if sheet.count != 0]
    if not sheets:
        return "there is no sheet to cut it from"
    if request.on_edge(piece) and not any(map(request.has_edge, sheets)):
        return "one of its sides should be a factory edge, and no sheet has one"
    largest = max(map(request.room, sheets), key=lambda room: room.width * room.length)
    room = (max(side, Fraction(0)) for side in (largest.width, largest.length))
    size = with_unit(request.units, piece.width, piece.length)
    fixed = "" if piece.turns else " and must not be turned"
    return f"it is {size}{fixed}, and the largest sheet gives {with_unit(request.units, *room)}"
