"""The basket of a plan: boards and sheets that it cuts, some to spare, and small goods by package.

Each line says what it costs and what is left over; each hive's share follows what it takes.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm
from typing import Final, Literal, TypeAlias

from hivecalc.components import values
from hivecalc.length import Length, Rounding, Units, shown, written
from hivecalc.workshop.boards import CutBoard
from hivecalc.workshop.fixings import Fixing, fixings, small_goods
from hivecalc.workshop.needs import Piece, Tagged
from hivecalc.workshop.sheets import Sheet
from hivecalc.workshop.yard import ITEMS, Board, Money, Package, SheetGoods, Yard

Sort: TypeAlias = Literal["board", "sheet", "package"]

WORTH_KEEPING: Final = Fraction(3)
"""Shorter or narrower offcuts are not told; a choice."""


@dataclass(frozen=True)
class Line:
    """Goods that are alike: how many, the price of one, how many are spare, what is left over.

    >>> Line("board", "8 ft 2x4", 3, Fraction("3.95")).cost
    Fraction(237, 20)
    """

    sort: Sort
    name: str
    count: int
    price: Money | None
    spare: int = 0
    left_over: tuple[str, ...] = ()
    at_hand: bool = False
    why: str = ""

    @property
    def cost(self) -> Money | None:
        """What all of them cost, None where the price is not known."""
        return None if self.price is None else self.count * self.price


@dataclass(frozen=True)
class Basket:
    """Everything to buy: its lines, what the yard does not give, and each hive's share by tag."""

    currency: str
    lines: tuple[Line, ...]
    missing: tuple[str, ...]
    shares: Mapping[str, Money]

    @property
    def total(self) -> Money:
        """What everything costs whose price is known."""
        return sum((line.cost for line in self.lines if line.cost is not None), Fraction(0))

    @property
    def unpriced(self) -> tuple[Line, ...]:
        """Lines whose price is not known, which the total leaves out."""
        return tuple(line for line in self.lines if line.price is None)

    @property
    def told(self) -> str:
        """The total in a sentence, which says what it leaves out."""
        if self.unpriced and len(self.unpriced) == sum(not line.at_hand for line in self.lines):
            return "There is no total, as no price is known. The counts stand."
        said = f"{paid(self.total, self.currency)} in all"
        without = ", ".join(f"{line.count:,} × {line.name}" for line in self.unpriced)
        return f"{said}, without what has no price: {without}." if without else f"{said}."


def basket(
    boards: Sequence[CutBoard],
    sheets: Sequence[Sheet],
    pieces: Mapping[str, Sequence[Piece]],
    hives: Sequence[Tagged],
    yard: Yard,
) -> Basket:
    """Everything to buy for a plan; `pieces` are those of each group of goods, by its name."""
    cut = [*_board_lines(boards, yard), *_sheet_lines(sheets, yard)]
    counts = _counted(hives)
    small, missing = list[Line](), list[str]()
    for (item, size), count in counts.items():
        lines, told = _small(item, size, count, yard)
        small += lines
        missing += told
    shares = _shares(cut, small, pieces, hives)
    return Basket(yard.currency, (*cut, *small), tuple(missing), shares)


def _board_lines(boards: Sequence[CutBoard], yard: Yard) -> Iterator[Line]:
    found: dict[Board, list[CutBoard]] = {}
    for cut in boards:
        found.setdefault(cut.board, []).append(cut)
    spare = _spare(Counter({b: len(cuts) for b, cuts in found.items() if not b.at_hand}), yard)
    for board, cuts in found.items():
        offcuts = Counter(cut.offcut for cut in cuts if cut.offcut >= WORTH_KEEPING)
        left = tuple(
            times(n, on_mark(size, yard.units)) for size, n in sorted(offcuts.items(), reverse=True)
        )
        count = len(cuts) + spare[board]
        yield Line("board", board.name, count, board.price, spare[board], left, board.at_hand)


def _sheet_lines(sheets: Sequence[Sheet], yard: Yard) -> Iterator[Line]:
    found: dict[SheetGoods, list[Sheet]] = {}
    for sheet in sheets:
        found.setdefault(sheet.goods, []).append(sheet)
    spare = _spare(Counter({g: len(cut) for g, cut in found.items() if not g.at_hand}), yard)
    for goods, cut in found.items():
        rests = Counter(sheet.rest for sheet in cut if min(sheet.rest) >= WORTH_KEEPING)
        left = tuple(
            times(n, " × ".join(on_mark(side, yard.units) for side in size))
            for size, n in rests.items()
        )
        count = len(cut) + spare[goods]
        yield Line("sheet", goods.name, count, goods.price, spare[goods], left, goods.at_hand)


def _spare(counts: Counter[Board] | Counter[SheetGoods], yard: Yard) -> Counter[object]:
    """How many more of each goods are bought, the nearest whole number of those that are cut."""
    share = yard.spare_boards / 100
    return Counter({goods: int(count * share + Fraction(1, 2)) for goods, count in counts.items()})


def on_mark(length: Length, units: Units) -> str:
    """What is left over, in words, on a mark and rounded down."""
    return shown(length, units, rounding=Rounding.DOWN).removeprefix("≈ ")


def times(count: int, what: str) -> str:
    """Some things that are alike, in words."""
    return what if count == 1 else f"{count:,} × {what}"


# ── small goods ───────────────────────────────────────────────────────────────────────────────


def _counted(hives: Iterable[Tagged]) -> Counter[tuple[str, str]]:
    """How many of each item and size all joints take; of glue, the inches of joint."""
    found = Counter[tuple[str, str]]()
    known: dict[object, Counter[tuple[str, str]]] = {}
    for one in hives:
        key = (
            one.hive.units,
            *map(frozenset, (one.hive.measured.items(), one.hive.chosen.items())),
        )
        if key not in known:
            known[key] = goods_of(fixings(one.hive), one)
        found.update(known[key])
    order = list(ITEMS)
    return Counter(
        dict(sorted(found.items(), key=lambda item: (order.index(item[0][0]), item[0][1])))
    )


def goods_of(joints: Iterable[Fixing], one: Tagged) -> Counter[tuple[str, str]]:
    """How many of each item some joints take, each with the size that the hive file gives it."""
    sizes, units = values(one.hive), one.hive.units
    counted = small_goods(joints)
    return Counter(
        {
            (item, size_text(sizes[item], units) if item in sizes else ""): count
            for item, count in counted.items()
            if count
        }
    )


def size_text(length: Length, units: Units) -> str:
    """The length of a fastener in words."""
    return f"{written(length, units)} {'mm' if units == 'mm' else 'in'}"


def _small(item: str, size: str, count: int, yard: Yard) -> tuple[list[Line], list[str]]:
    """The packages that hold so many of an item and some to spare, or what is missing."""
    kind = ITEMS[item]
    extra = yard.spare_percent / 100 if kind.gets_lost else Fraction(0)
    wanted = int(-(-count * (1 + extra) // 1))
    bought = packed(wanted, [package for package in yard.packages if package.item == item])
    if not bought:
        return [], [f"{kind.named(wanted, size, yard.units)}: your yard sells none"]
    why = f"{kind.named(count, size, yard.units)}, joint by joint"
    held = sum(package.holds * n for package, n in bought)
    lines = []
    for number, (package, n) in enumerate(bought, 1):
        over = (
            (kind.named(held - wanted, size, yard.units),)
            if number == len(bought) and held > wanted
            else ()
        )
        lines.append(Line("package", package.name, n, package.price, 0, over, why=why))
    return lines, []


def packed(count: int, packages: Sequence[Package]) -> list[tuple[Package, int]]:
    """The packages that together hold at least so many and cost least; of these the fewest.

    >>> box = Package("box", "long_brad", 100, Fraction(9))
    >>> bag = Package("bag", "long_brad", 25, Fraction(3))
    >>> [(package.name, n) for package, n in packed(110, [box, bag])]
    [('box', 1), ('bag', 1)]

    Packages without a price are taken only where none has one, and then as little as can be is left
    over. Empty where there are no packages, or nothing to pack.
    """
    kinds = [p for p in packages if p.price is not None] or list(packages)
    if not kinds or count <= 0:
        return []
    costs = [Fraction(p.holds) if p.price is None else p.price for p in kinds]
    parts, step = lcm(*(cost.denominator for cost in costs)), gcd(*(p.holds for p in kinds))
    whole, holds = [int(cost * parts) for cost in costs], [p.holds // step for p in kinds]
    need, best, last = -(-count // step), [(0, 0)], [0]
    for n in range(1, need + 1):
        ways = ((*best[max(0, n - h)], i) for i, h in enumerate(holds))
        cost, many, i = min((c + whole[i], p + 1, i) for c, p, i in ways)
        best.append((cost, many))
        last.append(i)
    chosen = Counter[int]()
    while need > 0:
        chosen[last[need]] += 1
        need -= holds[last[need]]
    return [(kinds[i], n) for i, n in sorted(chosen.items())]


# ── shares and money ──────────────────────────────────────────────────────────────────────────


def _shares(
    cut: Iterable[Line],
    small: Iterable[Line],
    pieces: Mapping[str, Sequence[Piece]],
    hives: Sequence[Tagged],
) -> dict[str, Money]:
    """What each hive pays: of boards and sheets by the wood in its pieces, of the rest alike."""
    found = {one.tag: Fraction(0) for one in hives}
    for sort in ("board", "sheet"):
        cost = sum((line.cost or Fraction(0) for line in cut if line.sort == sort), Fraction(0))
        taken = {one.tag: Fraction(0) for one in hives}
        for piece in pieces[sort]:
            taken[piece.hive] += piece.width * piece.length * (piece.thickness or 1)
        whole = sum(taken.values(), Fraction(0))
        for tag, volume in taken.items():
            found[tag] += cost * volume / whole if whole else Fraction(0)
    rest = sum((line.cost or Fraction(0) for line in small), Fraction(0))
    return {tag: share + rest / len(hives) for tag, share in found.items()}


def amount(money: Money) -> str:
    """An amount as a decimal: whole where it is, else with two places or more.

    >>> amount(3 * Fraction("3.95")), amount(Fraction(7)), amount(Fraction(-5, 2))
    ('11.85', '7', '−2.50')

    A share is rounded to a hundredth; prices have four places at most and are told exactly.
    """
    sign, size = "−" if money < 0 else "", abs(money)
    if size.denominator == 1:
        return f"{sign}{size.numerator:,}"
    if 10_000 % size.denominator:
        size = Fraction(round(size * 100), 100)
    whole, parts = divmod(size * 10_000, 10_000)
    return f"{sign}{int(whole):,}.{f'{int(parts):04}'.rstrip('0').ljust(2, '0')}"


def paid(money: Money, currency: str) -> str:
    """An amount with its currency."""
    return f"{amount(money)} {currency}"
