"""Sheets as a carpenter cuts them: straight across first, then each strip, then a trim at most.

Strips of falling width are each filled along the sheet, first fit, both ways round; sheets follow
one another until nothing is left, and the last of them give way to cheaper ones. What the areas
alone prove is shown beside it. No search goes on by the clock.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import groupby, product
from math import ceil, lcm
from typing import Final, Literal, NamedTuple, TypeAlias

from hivecalc.length import Length, with_unit
from hivecalc.workshop.boards import Aim, Cut, Unplanned, cost, known_aim, least_cost
from hivecalc.workshop.needs import RUN_ALONG, Piece, Stock
from hivecalc.workshop.yard import Goods, Money, Yard

Way: TypeAlias = Literal["along", "across"]
OTHER: Final[dict[Way, Way]] = {"along": "across", "across": "along"}

LEAST_OFF: Final = Fraction(1, 4)
"""A cut takes off its kerf and at least so much more; common practice, no published source.

A saw or a knife that has less to bite on runs off the line.
"""

FEW: Final = 60  # pieces are tried in every order of sheets; of more only those of the last ones
DEEP: Final = 4  # sheets follow one another in such a trial at most


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

    `stage` 1 goes straight across the sheet, 2 across one strip, 3 trims one piece; `run` is the
    longest of them, `off` the least that one of them takes off.
    """

    stage: int
    way: Way
    at: Length
    times: int
    marks: tuple[str, ...]
    run: Length
    off: Length


class SheetStrip(NamedTuple):
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
    goods: Goods
    way: Way
    strips: tuple[SheetStrip, ...]
    kerf: Length

    @property
    def placed(self) -> tuple[Placed, ...]:
        """Each piece where it lies."""
        return tuple(piece for strip in self.strips for piece in strip.pieces)

    @property
    def sides(self) -> tuple[Length, Length]:
        """The side of the sheet that the strips share, and the one along them."""
        sides = self.goods.width, self.goods.length
        return sides if self.way == "along" else sides[::-1]

    @cached_property
    def cuts(self) -> tuple[SheetCut, ...]:
        """Its cuts by settings, in the order to make them."""
        return tuple(_cuts(self))

    @property
    def rest(self) -> tuple[Length, Length]:
        """What is left beside the strips: its width and length, 0 where nothing is."""
        across, reach = self.sides
        wide = max(across - max(s.at + s.wide for s in self.strips) - self.kerf, Fraction(0))
        return (wide, reach) if self.way == "along" else (reach, wide)


def sheets_cut(
    stock: Stock, yard: Yard, aim: Aim, edge: frozenset[str] = frozenset()
) -> Cut[Sheet]:
    """How to cut the pieces of a stock of sheets; those at hand come first.

    `edge` names parts that shall have one side on the long edge of a sheet as it came from the
    factory. The sheets have no numbers yet.
    """
    own = sorted((s for s in stock.goods if s.at_hand), key=lambda s: s.width * s.length)
    sold = [sheet for sheet in stock.goods if not sheet.at_hand and sheet.count != 0]
    aim = known_aim(sold, aim)
    # what is not sawn is cut with a knife or with snips, which takes no kerf
    sawn = stock.material == "plywood"
    kerf, margin = yard.kerf * sawn, yard.cut_margin * sawn
    all_of_it: tuple[Piece | Goods, ...] = (*stock.pieces, *stock.goods)
    sides = (size for one in all_of_it for size in (one.width, one.length))
    steps = lcm((kerf + margin).denominator, *(size.denominator for size in sides))
    filling = _Filling(kerf, int((kerf + margin) * steps), steps)
    wants, left = list[_Want](), list[Unplanned]()
    for piece in stock.pieces:
        on_edge = piece.part in edge
        turns = piece.part not in RUN_ALONG and not on_edge
        sizes = int(piece.width * steps), int(piece.length * steps)
        want = _Want(piece, *sizes, turns, on_edge)
        if any(filling.gives(sheet, want) for sheet in (*own, *sold)):
            wants.append(want)
        else:
            left.append(Unplanned(piece.mark, _why(piece, stock, (*own, *sold), yard)))
    first, wants = filling.one_by_one(own, wants)
    bought, missing = filling.bought(sold, wants, aim)
    left += [Unplanned(want.piece.mark, "there are not enough sheets for it") for want in missing]
    counted, lost = _price(bought, aim), {piece.mark for piece in left}

    def area(one: Piece | Goods) -> Fraction:
        return (one.width + kerf) * (one.length + kerf)

    need = sum((area(want.piece) for want in wants if want.piece.mark not in lost), Fraction(0))
    bound = min(counted, least_cost(int(need), [ceil(area(s)) for s in sold], sold, aim))
    return Cut(stock, (*first, *bought), aim, counted, bound, tuple(left))


def _why(piece: Piece, stock: Stock, goods: Sequence[Goods], yard: Yard) -> str:
    if not goods:
        return f"your yard has no {stock.name}"
    largest = max(goods, key=lambda sheet: sheet.width * sheet.length)
    size, gives = (with_unit(yard.units, one.width, one.length) for one in (piece, largest))
    return f"it is {size}, and the largest sheet gives {gives}"


# ── filling sheets ────────────────────────────────────────────────────────────────────────────


class _Want(NamedTuple):
    """A piece to cut: its sides across and along the grain in steps, and whether it may turn."""

    piece: Piece
    width: int
    length: int
    turns: bool
    edge: bool

    def lies(self, way: Way, *, wide: bool) -> list[tuple[int, int, bool]]:
        """How it may lie in a strip: its reach across and along it, and whether it is turned.

        Where both ways do, the wide one comes first or last.
        """
        across, along = (self.width, self.length)[:: 1 if way == "along" else -1]
        lies = [(across, along, False), (along, across, True)]
        return sorted(lies, key=lambda lie: lie[0], reverse=wide) if self.turns else lies[:1]


@dataclass
class _Open:
    """A strip that is being filled: how wide its widest piece is, and how far it is filled."""

    width: int
    filled: int
    pieces: list[tuple[_Want, int, bool]]
    edge: bool


@dataclass(frozen=True)
class _Filling:
    """Sheets filled strip by strip; what a cut takes with its margin, and sizes, are in steps."""

    kerf: Length
    cut: int
    steps: int

    def sides(self, sheet: Goods) -> tuple[int, int]:
        """Width and length of a sheet, in steps."""
        return int(sheet.width * self.steps), int(sheet.length * self.steps)

    def gives(self, sheet: Goods, want: _Want) -> bool:
        """Whether a sheet gives such a piece at all."""
        width, length = self.sides(sheet)
        return any(a <= width and b <= length for a, b, _ in want.lies("along", wide=False))

    def filled(self, sheet: Goods, wants: Sequence[_Want]) -> tuple[Sheet, list[_Want]] | None:
        """A sheet as full as was found, of these the one with least to cut; what is left."""
        full, most = list[tuple[Sheet, list[_Want]]](), 1
        for way, wide in product(OTHER, (False, True)):
            strips, rest = self._strips(sheet, wants, way, wide=wide)
            area = sum(w.width * w.length for strip in strips for w, _, _ in strip.pieces)
            if area >= most:
                kept = full if area == most else []
                full, most = [*kept, (_sheet(sheet, way, strips, self), rest)], area
        return min(full, key=lambda one: sum(c.run * c.times for c in one[0].cuts), default=None)

    def _strips(
        self, sheet: Goods, wants: Sequence[_Want], way: Way, *, wide: bool
    ) -> tuple[list[_Open], list[_Want]]:
        """Strips of falling width, each piece in the first that has room, and what is left over."""
        across, reach = self.sides(sheet) if way == "along" else self.sides(sheet)[::-1]
        ways = {want: want.lies(way, wide=wide) for want in wants}
        strips, taken, rest = list[_Open](), 0, list[_Want]()
        for want in sorted(wants, key=lambda w: (not w.edge, *(-size for size in ways[w][0][:2]))):
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
        self, want: _Want, ways: Iterable[tuple[int, int, bool]], strips: Iterable[_Open],
        reach: int,
    ) -> bool:  # fmt: skip
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

    def one_by_one(
        self, sheets: Iterable[Goods], wants: list[_Want]
    ) -> tuple[list[Sheet], list[_Want]]:
        """These sheets one after the other, each as full as can be, and what is left to cut."""
        found = []
        for sheet in sheets:
            for _ in range(len(wants) if sheet.count is None else sheet.count):
                filled = self.filled(sheet, wants)
                if filled:
                    found.append(filled[0])
                    wants = filled[1]
        return found, wants

    def bought(
        self, sold: Sequence[Goods], wants: list[_Want], aim: Aim
    ) -> tuple[list[Sheet], list[_Want]]:
        """The cheapest sheets that were found to hold all pieces, or as many as go in."""
        plans = [p for p in (self._of_one(s, sold, wants) for s in sold) if p is not None]
        if not plans:
            return self.one_by_one(sold, wants)
        best = min(plans, key=lambda plan: _price(plan, aim))
        for last in range(1, len(best) + 1):
            held = [{placed.piece for placed in sheet.placed} for sheet in best[-last:]]
            tail = [want for pieces in held for want in wants if want.piece in pieces]
            if len(tail) > FEW:
                break
            other = self._cheapest(sold, tail, aim, _price(best[-last:], aim), DEEP)
            if other is not None:
                best = [*best[:-last], *other]
        return best, []

    def _of_one(
        self, main: Goods, sold: Sequence[Goods], wants: Sequence[_Want]
    ) -> list[Sheet] | None:
        """All pieces out of sheets of one kind; what it can't give, from another."""
        found, left, many = list[Sheet](), list(wants), dict.fromkeys(sold, 0)
        while left:
            able = [s for s in (main, *sold) if s.count is None or many[s] < s.count]
            filled = next((f for f in (self.filled(s, left) for s in able) if f), None)
            if filled is None:
                return None
            found.append(filled[0])
            many[filled[0].goods] += 1
            left = filled[1]
        return found

    def _cheapest(
        self, sold: Sequence[Goods], wants: list[_Want], aim: Aim, limit: Money, deep: int
    ) -> list[Sheet] | None:
        """Sheets that cost less than a limit and hold all pieces, tried one after the other."""
        if not wants:
            return []
        best = None
        for sheet in sorted(sold, key=lambda s: cost(s, aim)) if deep else ():
            money = cost(sheet, aim)
            filled = self.filled(sheet, wants) if money < limit else None
            if filled is None or sheet.count is not None:
                continue
            rest = self._cheapest(sold, filled[1], aim, limit - money, deep - 1)
            if rest is not None:
                best = [filled[0], *rest]
                limit = _price(best, aim)
        return best


def _price(sheets: Iterable[Sheet], aim: Aim) -> Money:
    return sum((cost(sheet.goods, aim) for sheet in sheets), Fraction(0))


def _sheet(goods: Goods, way: Way, strips: Sequence[_Open], how: _Filling) -> Sheet:
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
    laid, along = [], Fraction(0)
    for want, across, turned in strip.pieces:
        width, length = (want.piece.width, want.piece.length)[:: -1 if turned else 1]
        laid.append((-across, -(length if way == "along" else width), want, width, length, turned))
    for _, reach, want, width, length, turned in sorted(laid, key=lambda lie: lie[:2]):
        x, y = (at, along) if way == "along" else (along, at)
        yield Placed(want.piece, x, y, width, length, turned)
        along += kerf - reach


# ── its cuts ──────────────────────────────────────────────────────────────────────────────────


def _cuts(sheet: Sheet) -> Iterator[SheetCut]:
    """Straight across the sheet, strips of one width together, and then piece by piece.

    The last strip needs no cut at the sheet's edge. Pieces of one length are cut across their
    strips together; trimmed at last is what is narrower than its strip, and what is left at an end
    and too thin to be cut off by itself.
    """
    across, reach = sheet.sides
    cut = [strip for strip in sheet.strips if strip.at + strip.wide < across]
    for width, alike in groupby(cut, key=lambda strip: strip.width):
        group = list(alike)
        marks = tuple(piece.piece.mark for strip in group for piece in strip.pieces)
        off = min(across - s.at - s.wide for s in group)
        yield SheetCut(1, sheet.way, width, len(group), marks, reach, off)
    found: dict[tuple[int, Way, Length], list[tuple[str, Length, Length]]] = {}
    for strip in sheet.strips:
        for mark, x, y, width, length, _ in strip.pieces:
            at, long, wide = (y, length, width) if sheet.way == "along" else (x, width, length)
            behind = reach - at - long
            if behind:
                stage = -3 if behind < sheet.kerf + LEAST_OFF else -2
                trim = (mark.mark, strip.wide, behind)
                found.setdefault((stage, OTHER[sheet.way], long), []).append(trim)
            if wide < strip.wide:
                trim = (mark.mark, long, strip.wide - wide)
                found.setdefault((-3, sheet.way, wide), []).append(trim)
    for stage, way, size in sorted(found, reverse=True):
        names, runs, offs = zip(*found[stage, way, size], strict=True)
        yield SheetCut(-stage, way, size, len(names), names, max(runs), min(offs))
