"""Sheets as a carpenter cuts them: straight across first, then each strip, then a trim at most.

Strips of falling width are each filled along the sheet, first fit, both ways round; sheets follow
one another until nothing is left, and the last of them give way to cheaper ones. What the areas
alone prove is told beside it. No search goes on by the clock.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from itertools import groupby
from math import ceil, gcd, lcm
from typing import Final, Literal, NamedTuple, TypeAlias

from hivecalc.length import Length, with_unit
from hivecalc.workshop.boards import Aim, Unplanned, least_cost
from hivecalc.workshop.needs import RUN_ALONG, Piece, SheetStock
from hivecalc.workshop.yard import Money, SheetGoods, Yard

Way: TypeAlias = Literal["along", "across"]
WAYS: Final[tuple[Way, ...]] = ("along", "across")

LEAST_OFF: Final = Fraction(1, 4)
"""A cut takes off its kerf and at least so much more; common practice, no published source.

A saw or a knife that has less to bite on runs off the line.
"""

FEW: Final = 60
"""So many pieces are tried in every order of sheets; of more only the last sheets' pieces."""

DEEP: Final = 4
"""So many sheets follow one another in such a trial at most."""

SAWN: Final = frozenset({"plywood"})
"""Materials that are sawn. The others are cut with a knife or with snips, which takes no kerf."""


class Want(NamedTuple):
    """A piece to cut from a sheet: its sides across and along the grain, and whether it may turn.

    Its sides are in steps, so many an inch that every size is whole.
    """

    piece: Piece
    width: int
    length: int
    turns: bool
    edge: bool = False


class Placed(NamedTuple):
    """A piece where it lies: its corner, its reach across and along the sheet, whether turned."""

    piece: Piece
    x: Length
    y: Length
    width: Length
    length: Length
    turned: bool


class SheetCut(NamedTuple):
    """Cuts of one setting on a sheet: what is done, how far from the edge, how often, of what.

    `stage` 1 goes straight across the sheet, 2 across one strip, 3 trims one piece; `off` is the
    least that one of them takes off.
    """

    stage: int
    way: Way
    at: Length
    times: int
    marks: tuple[str, ...]
    run: Length
    off: Length


@dataclass(frozen=True)
class SheetStrip:
    """A strip of a sheet: where it begins, how wide it is, how wide its pieces are, and they."""

    at: Length
    wide: Length
    width: Length
    pieces: tuple[Placed, ...]


@dataclass(frozen=True)
class Sheet:
    """A numbered sheet, the way its first cuts go, its strips with their pieces, and its kerf.

    x and y run from the sheet's left edge and its near end, y along its length, in inches.
    """

    number: str
    goods: SheetGoods
    way: Way
    strips: tuple[SheetStrip, ...]
    kerf: Length

    @property
    def placed(self) -> tuple[Placed, ...]:
        """Each piece where it lies."""
        return tuple(piece for strip in self.strips for piece in strip.pieces)

    @property
    def across(self) -> Length:
        """The side of the sheet that the strips share."""
        return self.goods.width if self.way == "along" else self.goods.length

    @property
    def reach(self) -> Length:
        """The side of the sheet along the strips."""
        return self.goods.length if self.way == "along" else self.goods.width

    @cached_property
    def cuts(self) -> tuple[SheetCut, ...]:
        """Its cuts by settings, in the order to make them."""
        return (*_first_cuts(self), *_second_cuts(self), *_trims(self))

    @property
    def length_of_cuts(self) -> Length:
        """How far is cut in all."""
        return sum((cut.run * cut.times for cut in self.cuts), Fraction(0))

    @property
    def rest(self) -> tuple[Length, Length]:
        """What is left beside the strips: its width and length, 0 where nothing is."""
        end = max((s.at + s.wide for s in self.strips if s.at + s.wide < self.across), default=None)
        ends = [s.at + s.wide for s in self.strips]
        wide = self.across - max(ends) - self.kerf if end is not None and ends else Fraction(0)
        wide = max(wide, Fraction(0))
        return (wide, self.reach) if self.way == "along" else (self.reach, wide)

    @property
    def used(self) -> Fraction:
        """Area of its pieces, in square inches."""
        return sum((p.width * p.length for p in self.placed), Fraction(0))


@dataclass(frozen=True)
class SheetsCut:
    """How sheets of one kind are cut, and how near that is to the best."""

    sheets: tuple[Sheet, ...]
    aim: Aim
    counted: Fraction
    bound: Fraction
    unplanned: tuple[Unplanned, ...] = ()

    @property
    def proved(self) -> bool:
        """Whether no plan can do better."""
        return self.bound >= self.counted


def sheets_cut(
    stock: SheetStock, yard: Yard, aim: Aim, edge: frozenset[str] = frozenset()
) -> SheetsCut:
    """How to cut the pieces of one material out of sheets; those at hand come first.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.workshop.needs import batch, needed, sheet_stock
    >>> from hivecalc.workshop.yard_file import demo_yard
    >>> foam = sheet_stock(needed(batch([demo_hive()])), demo_yard())[0]
    >>> [sheet.goods.name for sheet in sheets_cut(foam, demo_yard(), "cost").sheets]
    ['half board of 1 in foam']

    `edge` names parts that shall have one side on the long edge of a sheet as it came from the
    factory. The sheets have no numbers yet.
    """
    sold = [sheet for sheet in stock.sheets if not sheet.at_hand and sheet.count != 0]
    aim = aim if all(sheet.price is not None for sheet in sold) else "boards"
    kerf, margin = (yard.kerf, yard.cut_margin) if stock.material in SAWN else (Fraction(0),) * 2
    filling = _Filling(kerf, margin, _steps(stock, kerf + margin))
    wants = [_want(piece, edge, filling.steps) for piece in stock.pieces]
    goods = [*(s for s in stock.sheets if s.at_hand), *sold]
    fit = [any(filling.fits(sheet, want) for sheet in goods) for want in wants]
    left = [
        Unplanned(w.piece.mark, _why(w, goods, yard))
        for w, ok in zip(wants, fit, strict=True)
        if not ok
    ]
    todo = [want for want, ok in zip(wants, fit, strict=True) if ok]
    own, todo = filling.at_hand([s for s in stock.sheets if s.at_hand], todo)
    bought, missing = filling.bought(sold, todo, aim)
    left += [Unplanned(want.piece.mark, "there are not enough sheets for it") for want in missing]
    todo = [want for want in todo if want not in missing]
    counted = sum((_cost(sheet.goods, aim) for sheet in bought), Fraction(0))
    bound = min(counted, _bound(todo, sold, kerf, aim))
    return SheetsCut((*own, *bought), aim, counted, bound, tuple(left))


def _steps(stock: SheetStock, cut: Length) -> int:
    """How many steps make an inch, so that all sizes are whole numbers of them."""
    goods: tuple[Piece | SheetGoods, ...] = (*stock.pieces, *stock.sheets)
    sizes = [size for one in goods for size in (one.width, one.length)]
    return lcm(cut.denominator, *(size.denominator for size in sizes))


def _want(piece: Piece, edge: frozenset[str], steps: int) -> Want:
    on_edge = piece.part in edge
    turns = piece.part not in RUN_ALONG and not on_edge
    return Want(piece, int(piece.width * steps), int(piece.length * steps), turns, on_edge)


def _why(want: Want, goods: Sequence[SheetGoods], yard: Yard) -> str:
    if not goods:
        return f"your yard has no {want.piece.material} for it"
    largest = max(goods, key=lambda sheet: sheet.width * sheet.length)
    both: tuple[Piece | SheetGoods, ...] = (want.piece, largest)
    size, gives = (with_unit(yard.units, one.width, one.length) for one in both)
    return f"it is {size}, and the largest sheet gives {gives}"


def _cost(sheet: SheetGoods, aim: Aim) -> Money:
    if sheet.at_hand:
        return Fraction(0)
    return Fraction(1) if aim == "boards" else sheet.price or Fraction(0)


# ── filling sheets ────────────────────────────────────────────────────────────────────────────


@dataclass
class _Open:
    """A strip that is being filled: how wide its widest piece is, and how far it is filled."""

    width: int
    filled: int
    pieces: list[tuple[Want, int, bool]]
    edge: bool = False


@dataclass(frozen=True)
class _Filling:
    """What a cut takes, with its margin, and the steps; sheets are filled strip by strip."""

    kerf: Length
    margin: Length
    steps: int

    @cached_property
    def cut(self) -> int:
        """What a cut takes with its margin, in steps."""
        return int((self.kerf + self.margin) * self.steps)

    def sides(self, sheet: SheetGoods) -> tuple[int, int]:
        """Width and length of a sheet, in steps."""
        return int(sheet.width * self.steps), int(sheet.length * self.steps)

    def fits(self, sheet: SheetGoods, want: Want) -> bool:
        """Whether a sheet gives such a piece at all."""
        width, length = self.sides(sheet)
        as_is = want.width <= width and want.length <= length
        turned = want.turns and want.length <= width and want.width <= length
        return as_is or turned

    def filled(self, sheet: SheetGoods, wants: Sequence[Want]) -> tuple[Sheet, list[Want]] | None:
        """A sheet as full as was found, of these the one with least to cut; what is left."""
        tries = [
            (way, *self._strips(sheet, wants, way, wide=wide))
            for way in WAYS
            for wide in (False, True)
        ]
        areas = [
            sum(want.width * want.length for strip in strips for want, _, _ in strip.pieces)
            for _, strips, _ in tries
        ]
        most = max(areas)
        if not most:
            return None
        full = [
            (_sheet(sheet, way, strips, self), rest)
            for (way, strips, rest), area in zip(tries, areas, strict=True)
            if area == most
        ]
        return full[0] if len(full) == 1 else min(full, key=lambda one: one[0].length_of_cuts)

    def _strips(
        self, sheet: SheetGoods, wants: Sequence[Want], way: Way, *, wide: bool
    ) -> tuple[list[_Open], list[Want]]:
        """Strips of falling width, each piece in the first that has room, and what is left over."""
        across, reach = self.sides(sheet) if way == "along" else self.sides(sheet)[::-1]
        ways = {want: _lies(want, way, wide=wide) for want in wants}
        strips: list[_Open] = []
        taken, rest = 0, []
        order = sorted(wants, key=lambda w: (not w.edge, *(-size for size in ways[w][0][:2])))
        for want in order:
            if want.edge and way == "across":
                rest.append(want)
                continue
            if self._laid(want, ways[want], strips, reach):
                continue
            least = self.cut if strips else 0
            new = next(
                (lie for lie in ways[want] if taken + least + lie[0] <= across and lie[1] <= reach),
                None,
            )
            if new is None or (want.edge and (len(strips) > 1 or sheet.at_hand)):
                rest.append(want)
                continue
            strips.append(_Open(new[0], new[1], [(want, new[0], new[2])], want.edge))
            taken += least + new[0]
        return strips, rest

    def _laid(
        self,
        want: Want,
        ways: Sequence[tuple[int, int, bool]],
        strips: Sequence[_Open],
        reach: int,
    ) -> bool:
        """Whether a piece went into a strip that is open already."""
        for strip in strips:
            for width, length, turned in ways:
                wide = width == strip.width if want.edge else width <= strip.width
                if wide and strip.edge >= want.edge and strip.filled + self.cut + length <= reach:
                    strip.pieces.append((want, width, turned))
                    strip.filled += self.cut + length
                    return True
        return False

    # which sheets

    def at_hand(
        self, sheets: Sequence[SheetGoods], wants: list[Want]
    ) -> tuple[list[Sheet], list[Want]]:
        """Sheets at hand, the smallest first, each as full as can be, and what is left to cut."""
        found = []
        for sheet in sorted(sheets, key=lambda s: s.width * s.length):
            for _ in range(sheet.count or 0):
                filled = self.filled(sheet, wants)
                if filled:
                    found.append(filled[0])
                    wants = filled[1]
        return found, wants

    def bought(
        self, sold: Sequence[SheetGoods], wants: Sequence[Want], aim: Aim
    ) -> tuple[list[Sheet], list[Want]]:
        """The cheapest sheets that were found to hold all pieces."""
        plans = [p for p in (self._of_one(s, sold, wants) for s in sold) if p is not None]
        if not plans:
            return self._one_by_one(sold, wants)
        best = min(plans, key=lambda plan: _price(plan, aim))
        for last in range(1, len(best) + 1):
            tail = [w for sheet in best[-last:] for w in self._wants(sheet, wants)]
            if len(tail) > FEW:
                break
            limit = _price(best[-last:], aim)
            other = self._cheapest(sold, tail, aim, limit, DEEP)
            if other is not None:
                best = [*best[:-last], *other]
        return best, []

    def _of_one(
        self, main: SheetGoods, sold: Sequence[SheetGoods], wants: Sequence[Want]
    ) -> list[Sheet] | None:
        """All pieces out of sheets of one kind; what it can't give, from another."""
        found: list[Sheet] = []
        left, many = list(wants), dict.fromkeys(sold, 0)
        while left:
            able = [s for s in (main, *sold) if s.count is None or many[s] < s.count]
            filled = next((f for f in (self.filled(s, left) for s in able) if f), None)
            if filled is None:
                return None
            found.append(filled[0])
            many[filled[0].goods] += 1
            left = filled[1]
        return found

    def _one_by_one(
        self, sold: Sequence[SheetGoods], wants: Sequence[Want]
    ) -> tuple[list[Sheet], list[Want]]:
        """Where there are not enough sheets: all that go in."""
        found, left = [], list(wants)
        for sheet in sold:
            for _ in range(len(wants) if sheet.count is None else sheet.count):
                filled = self.filled(sheet, left) if left else None
                if filled:
                    found.append(filled[0])
                    left = filled[1]
        return found, left

    def _wants(self, sheet: Sheet, wants: Sequence[Want]) -> list[Want]:
        marks = {placed.piece for placed in sheet.placed}
        return [want for want in wants if want.piece in marks]

    def _cheapest(
        self, sold: Sequence[SheetGoods], wants: list[Want], aim: Aim, limit: Money, deep: int
    ) -> list[Sheet] | None:
        """Sheets that cost less than a limit and hold all pieces, tried one after the other."""
        if not wants:
            return []
        best = None
        for sheet in sorted(sold, key=lambda s: _cost(s, aim)) if deep else ():
            cost = _cost(sheet, aim)
            filled = self.filled(sheet, wants) if cost < limit else None
            if filled is None or sheet.count is not None:
                continue
            rest = self._cheapest(sold, filled[1], aim, limit - cost, deep - 1)
            if rest is not None:
                best = [filled[0], *rest]
                limit = _price(best, aim)
        return best


def _price(sheets: Sequence[Sheet], aim: Aim) -> Money:
    return sum((_cost(sheet.goods, aim) for sheet in sheets), Fraction(0))


def _lies(want: Want, way: Way, *, wide: bool) -> list[tuple[int, int, bool]]:
    """How a piece may lie in a strip: its reach across and along it, and whether it is turned.

    Where both ways do, the wide one comes first or last.
    """
    as_is = (want.width, want.length, False)
    turned = (want.length, want.width, True)
    if way == "across":
        as_is, turned = (want.length, want.width, False), (want.width, want.length, True)
    if not want.turns:
        return [as_is]
    return sorted((as_is, turned), key=lambda lie: lie[0], reverse=wide)


def _sheet(goods: SheetGoods, way: Way, strips: Sequence[_Open], how: _Filling) -> Sheet:
    """A sheet with its strips laid side by side; a rest too thin to cut off stays with a strip."""
    across = goods.width if way == "along" else goods.length
    edges = [strip for strip in strips if strip.edge]
    order = [*edges[:1], *(s for s in strips if not s.edge), *edges[1:]]
    laid, at = [], Fraction(0)
    for number, strip in enumerate(order, 1):
        width = wide = Fraction(strip.width, how.steps)
        if number == len(order) and len(edges) > 1:
            at = across - wide
        elif number == len(order) and across - at - wide < how.kerf + LEAST_OFF:
            wide = across - at
        laid.append(SheetStrip(at, wide, width, tuple(_placed(strip, at, way, how.kerf))))
        at += width + how.kerf
    return Sheet("", goods, way, tuple(laid), how.kerf)


def _placed(strip: _Open, at: Length, way: Way, kerf: Length) -> Iterator[Placed]:
    along = Fraction(0)
    for want, _, turned in sorted(strip.pieces, key=lambda p: (-p[1], -_long(p, way))):
        sides = want.piece.width, want.piece.length
        width, length = sides[::-1] if turned else sides
        x, y = (at, along) if way == "along" else (along, at)
        yield Placed(want.piece, x, y, width, length, turned)
        along += (length if way == "along" else width) + kerf


def _long(lie: tuple[Want, int, bool], way: Way) -> int:
    want, _, turned = lie
    return want.width if (way == "along") == turned else want.length


# ── its cuts ──────────────────────────────────────────────────────────────────────────────────


def _first_cuts(sheet: Sheet) -> Iterator[SheetCut]:
    """Straight across the sheet, strips of one width together; the last needs none at the edge."""
    cut = [strip for strip in sheet.strips if strip.at + strip.wide < sheet.across]
    for width, alike in groupby(cut, key=lambda strip: strip.width):
        group = list(alike)
        marks = tuple(piece.piece.mark for strip in group for piece in strip.pieces)
        off = min(sheet.across - s.at - s.wide for s in group)
        yield SheetCut(1, sheet.way, width, len(group), marks, sheet.reach, off)


def _second_cuts(sheet: Sheet) -> Iterator[SheetCut]:
    """Across each strip, pieces of one length together."""
    found: dict[Length, list[tuple[SheetStrip, Placed]]] = {}
    other: Way = "across" if sheet.way == "along" else "along"
    for strip in sheet.strips:
        for piece in strip.pieces:
            size = _along(piece, sheet.way)[1]
            if _behind(piece, sheet) and not _thin(piece, sheet):
                found.setdefault(size, []).append((strip, piece))
    for size in sorted(found, reverse=True):
        cut = found[size]
        run = max(strip.wide for strip, _ in cut)
        off = min(_behind(piece, sheet) for _, piece in cut)
        marks = tuple(piece.piece.mark for _, piece in cut)
        yield SheetCut(2, other, size, len(cut), marks, run, off)


def _trims(sheet: Sheet) -> Iterator[SheetCut]:
    """The trims of single pieces: to the width of those narrower than their strip, and at the end.

    What is left at an end and too thin to be cut off by itself comes off here.
    """
    other: Way = "across" if sheet.way == "along" else "along"
    found: dict[tuple[Way, Length], list[tuple[Placed, Length, Length]]] = {}
    for strip in sheet.strips:
        for piece in strip.pieces:
            width = piece.width if sheet.way == "along" else piece.length
            length = _along(piece, sheet.way)[1]
            if _thin(piece, sheet):
                trim = (piece, strip.wide, _behind(piece, sheet))
                found.setdefault((other, length), []).append(trim)
            if width < strip.wide:
                trim = (piece, length, strip.wide - width)
                found.setdefault((sheet.way, width), []).append(trim)
    for (way, size), cut in sorted(found.items(), key=lambda item: item[0], reverse=True):
        marks = tuple(piece.piece.mark for piece, _, _ in cut)
        run, off = max(run for _, run, _ in cut), min(off for _, _, off in cut)
        yield SheetCut(3, way, size, len(cut), marks, run, off)


def _behind(piece: Placed, sheet: Sheet) -> Length:
    """What lies behind a piece up to the end of its strip."""
    return sheet.reach - sum(_along(piece, sheet.way))


def _thin(piece: Placed, sheet: Sheet) -> bool:
    """Whether that is too thin for a cut of its own."""
    return 0 < _behind(piece, sheet) < sheet.kerf + LEAST_OFF


def _along(piece: Placed, way: Way) -> tuple[Length, Length]:
    """Where a piece begins along its strip, and how far it reaches."""
    return (piece.y, piece.length) if way == "along" else (piece.x, piece.width)


def _bound(wants: Sequence[Want], sold: Sequence[SheetGoods], kerf: Length, aim: Aim) -> Fraction:
    """The least that sheets can cost whose areas together hold what the pieces take, with kerfs."""
    need = sum(((w.piece.width + kerf) * (w.piece.length + kerf) for w in wants), Fraction(0))
    if not need or not sold:
        return Fraction(0)
    costs = [_cost(sheet, aim) for sheet in sold]
    parts = lcm(*(cost.denominator for cost in costs))
    step = gcd(*(int(cost * parts) for cost in costs))
    if not step:
        return Fraction(0)
    goods = [
        (int(cost * parts) // step, ceil((sheet.width + kerf) * (sheet.length + kerf)))
        for cost, sheet in zip(costs, sold, strict=True)
    ]
    return Fraction(least_cost(goods, int(need)) * step, parts)


def numbered(sheets: Sequence[Sheet], first: int) -> list[Sheet]:
    """The same sheets with their numbers."""
    return [replace(sheet, number=f"S{n}") for n, sheet in enumerate(sheets, first)]
