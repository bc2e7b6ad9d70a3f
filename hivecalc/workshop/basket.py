"""The basket of a plan: boards and sheets that it cuts, some to spare, and small goods by package.

Screws, brads and glue are counted joint by joint, each count with its reason. Each line says what
it costs and what is left over; each hive's share follows what it takes.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import gcd, lcm
from typing import Final, Literal, NamedTuple, TypeAlias

from hivecalc.components import built, how_many, values
from hivecalc.derivation import title
from hivecalc.fit import FIT, broken, findings
from hivecalc.hive import MEASUREMENTS, Hive
from hivecalc.length import (
    Length,
    Rounding,
    Units,
    ends_within,
    in_either_unit,
    shown,
    with_unit,
)
from hivecalc.space import Held, Joint, Loose, OnTheLine, assembled, fasteners, held, joints, run_of
from hivecalc.workshop.boards import CutBoard
from hivecalc.workshop.needs import TOLD_FROM, Piece, Tagged
from hivecalc.workshop.sheets import Sheet
from hivecalc.workshop.yard import ITEMS, Goods, Money, Package, Yard

Sort: TypeAlias = Literal["board", "sheet", "package"]
CUT: Final[tuple[Sort, ...]] = ("board", "sheet")

WORTH_KEEPING: Final = Fraction(3)
"""Shorter or narrower offcuts are not listed; a choice."""


# ── joint by joint ────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Fixing:
    """Joints that are held alike: how many there are, what each takes, and why.

    `glue` is the line of glue for all of them together, in inches; `item` is empty for joints that
    are only glued.
    """

    component: str
    joint: str
    joints: int
    item: str
    each: int
    why: str
    glue: Length = Fraction(0)
    size: str = ""

    @property
    def count(self) -> int:
        """How many fasteners all these joints take."""
        return self.joints * self.each

    @property
    def takes(self) -> str:
        """Its fasteners in words, or that glue alone holds it."""
        return ITEMS[self.item].named(self.count, self.size) if self.item else "glue only"

    @property
    def reason(self) -> str:
        """Where the count comes from, in a sentence."""
        many = f"{self.joints} joint{'s' * (self.joints != 1)}"
        if not self.item:
            return f"{many}, only glued."
        return f"{many} × {ITEMS[self.item].named(self.each, self.size)}{self.why}."


def fixings(hive: Hive) -> list[Fixing]:
    """What holds the joints of a hive, component by component as it is built."""
    return [
        fixing
        for component in built(hive)
        for fixing in fixings_of(hive, component, joints(values(hive), component))
    ]


def fixings_of(hive: Hive, component: str, met: Sequence[Joint]) -> list[Fixing]:
    """What holds some joints of a component, in every box where it is one that is stacked.

    Joints that are held in one way and take equally much are one fixing.
    """
    sizes, units, found = values(hive), hive.units, list[Fixing]()
    pieces = {solid.label: solid for solid in assembled(sizes, component)}
    boxes = how_many(component, sizes)
    apart = with_unit(units, sizes["screw_spacing"])
    for way, joined in held(met, component):
        alike = Counter[tuple[Length, int]]()
        for joint in joined:
            run = run_of(way, joint, pieces)
            each = fasteners(way, joint, run, sizes, units) if isinstance(way, Held) else 0
            alike[run, each] += boxes
        for (run, each), count in alike.items():
            glue = count * run if way.glued else Fraction(0)
            one = Fixing(component, f"{way.through} to {way.into}", count, "", each, "", glue)
            if isinstance(way, Loose):
                found += [replace(one, why=way.why)] * way.glued
                continue
            line = f": on the screw line, none more than {apart} apart"
            why = line if isinstance(way.count, OnTheLine) else way.count.words(run, units)
            size = with_unit(units, sizes[way.item])
            found.append(replace(one, item=way.item, why=why, size=size))
            if way.item == "cover_screw":
                under = ": one under each screw's head"
                found.append(replace(one, item="silicone", why=under, glue=Fraction(0)))
    return found


def small_goods(listed: Iterable[Fixing]) -> Counter[str]:
    """How many of each item some joints take; of glue, the inches of joint, rounded up."""
    counted, glue = Counter[str](), Fraction(0)
    for fixing in listed:
        glue += fixing.glue
        if fixing.item:
            counted[fixing.item] += fixing.count
    counted["glue"] = -(-glue // 1)
    return counted


def misfits(hive: Hive) -> list[str]:
    """What the rules find wrong with the lengths of this hive's fasteners, a sentence each."""
    fastened = ITEMS.keys() & MEASUREMENTS.keys()
    return [
        f"{title(found.rule).capitalize()}: {found.why} {found.mend}"
        for found in findings(hive)
        if not found.holds and fastened.intersection(FIT.dimension(found.rule).inputs)
    ]


# ── the basket ────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Purchase:
    """Goods that are alike: how many, the price of one, how many are spare, what is left over."""

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
    """Everything to buy: its lines, what the yard does not give, and each hive's share by tag.

    `instead` says which fasteners are bought in another length than the hives ask for.
    """

    currency: str
    lines: tuple[Purchase, ...]
    missing: tuple[str, ...]
    shares: Mapping[str, Money]
    instead: str = ""

    @property
    def total(self) -> Money:
        """What everything costs whose price is known."""
        return sum((line.cost for line in self.lines if line.cost is not None), Fraction(0))

    @property
    def unpriced(self) -> tuple[Purchase, ...]:
        """Lines whose price is not known, which the total leaves out."""
        return tuple(line for line in self.lines if line.price is None)

    @property
    def summary(self) -> str:
        """The total in a sentence, which says what it leaves out."""
        if self.unpriced and len(self.unpriced) == sum(not line.at_hand for line in self.lines):
            return "There is no total, as no price is known. The counts stand."
        said = f"{paid(self.total, self.currency)} in all"
        without = ", ".join(f"{line.count:,} × {line.name}" for line in self.unpriced)
        return f"{said}, without what has no price: {without}." if without else f"{said}."


def basket(
    boards: Iterable[CutBoard],
    sheets: Iterable[Sheet],
    pieces: Iterable[Piece],
    hives: Sequence[Tagged],
    yard: Yard,
) -> Basket:
    """Everything to buy for a plan of these hives and their pieces."""
    lengths = [(cut.board, (cut.offcut,)) for cut in boards]
    sides = [(sheet.goods, sheet.rest) for sheet in sheets]
    cut = [*_lines("board", lengths, yard), *_lines("sheet", sides, yard)]
    small, others, missing = _small(_counted(hives), yard)
    instead = "; ".join(others)
    if instead:
        instead = (
            "Your yard sells other lengths than the hive asks for. Bought are the nearest with "
            f"which no further rule fails: {instead}. Write the lengths that you buy into the hive "
            "file."
        )
    shares = _shares(cut, small, pieces, hives)
    return Basket(yard.currency, (*cut, *small), tuple(missing), shares, instead)


def _lines(
    sort: Sort, cut: Iterable[tuple[Goods, tuple[Length, ...]]], yard: Yard
) -> Iterator[Purchase]:
    """A line for goods that are alike, from each of them and what is left over of it."""
    found: dict[Goods, list[tuple[Length, ...]]] = {}
    for goods, rest in cut:
        found.setdefault(goods, []).append(rest)
    for goods, rests in found.items():
        more = 0 if goods.at_hand else int(len(rests) * yard.spare_boards / 100 + Fraction(1, 2))
        kept = Counter(rest for rest in rests if min(rest) >= WORTH_KEEPING)
        left = tuple(
            f"{n:,} × " * (n > 1) + " × ".join(on_mark(side, yard.units) for side in size)
            for size, n in sorted(kept.items(), reverse=True)
        )
        yield Purchase(sort, goods.name, len(rests) + more, goods.price, more, left, goods.at_hand)


def on_mark(length: Length, units: Units) -> str:
    """What is left over, in words, on a mark and rounded down."""
    return shown(length, units, rounding=Rounding.DOWN).removeprefix("≈ ")


class Asked(NamedTuple):
    """So many of an item of one size, and the kinds of hives that ask for it.

    Of glue, the inches of joint.
    """

    item: str
    size: str
    many: int
    takers: tuple[Hive, ...]

    def named(self, yard: Yard, *, spare: bool = False) -> str:
        """So many of it in words, with some to spare or without."""
        count = _with_spare(self.item, self.many, yard) if spare else self.many
        return ITEMS[self.item].named(count, self.size, yard.units)


def _counted(hives: Iterable[Tagged]) -> list[Asked]:
    """How many of each item and size all joints take, and for which kinds of hives."""
    found = dict[tuple[str, str], Asked]()
    many, first = Counter(one.alike for one in hives), {one.alike: one.hive for one in hives}
    for alike, hive in first.items():
        sizes = values(hive)
        for item, count in small_goods(fixings(hive)).items():
            if count:
                key = item, with_unit(hive.units, sizes[item]) if item in sizes else ""
                *_, before, takers = found.get(key, Asked(*key, 0, ()))
                found[key] = Asked(*key, before + count * many[alike], (*takers, hive))
    order = list(ITEMS)
    return sorted(found.values(), key=lambda one: (order.index(one.item), one.size))


def _with_spare(item: str, count: int, yard: Yard) -> int:
    extra = yard.spare_percent / 100 if ITEMS[item].gets_lost else Fraction(0)
    return int(-(-count * (1 + extra) // 1))


def _small(counted: Iterable[Asked], yard: Yard) -> tuple[list[Purchase], list[str], list[str]]:
    """The packages to buy, what is bought in another length, and what the yard does not have.

    What the same packages serve for, as 3 in and 80 mm, is counted together.
    """
    together = dict[tuple[str, str, tuple[Package, ...]], list[tuple[Asked, str]]]()
    instead, missing = list[str](), list[str]()
    for one in counted:
        serving, other, lacks = _serving(one, yard)
        if lacks:
            missing.append(f"{one.named(yard, spare=True)}: {lacks}")
            continue
        if other:
            instead.append(f"{other} for {one.named(yard, spare=True)}")
        size = "" if all(package.length for package in serving) else one.size
        together.setdefault((one.item, size, serving), []).append((one, other or one.size))
    bought = (_bought(served, key[-1], yard) for key, served in together.items())
    return [line for lines in bought for line in lines], instead, missing


def _serving(one: Asked, yard: Yard) -> tuple[tuple[Package, ...], str, str]:
    """The packages that serve, the other length that they have, and what the yard lacks."""
    asked = values(one.takers[0]).get(one.item)
    sold = tuple(package for package in yard.packages if package.item == one.item)
    serving = tuple(
        p for p in sold if not p.length or not asked or abs(p.length - asked) < TOLD_FROM
    )
    if serving:
        return serving, "", ""
    if not sold or not asked:
        return (), "", "your yard sells none"
    near = _nearest_allowed(one.item, asked, one.takers, {p.length for p in sold if p.length})
    if near is None:
        return (), "", "your yard sells none of that length, nor of one that will do"
    found = tuple(package for package in sold if package.length == near)
    return found, in_either_unit("inch", near), ""


def _bought(
    served: Sequence[tuple[Asked, str]], packages: Sequence[Package], yard: Yard
) -> list[Purchase]:
    """The packages that hold all of this, each with the size it is sold in, and some to spare."""
    item = served[0][0].item
    why = f"{' and '.join(one.named(yard) for one, _ in served)}, joint by joint"
    wanted = _with_spare(item, sum(one.many for one, _ in served), yard)
    bought = packed(wanted, packages)
    lines = [Purchase("package", package.name, n, package.price, why=why) for package, n in bought]
    over = sum(package.holds * n for package, n in bought) - wanted
    if over:
        size = next((size for one, size in served if size == one.size), served[0][1])
        lines[-1] = replace(lines[-1], left_over=(ITEMS[item].named(over, size, yard.units),))
    return lines


def _nearest_allowed(
    item: str, asked: Length, hives: Sequence[Hive], lengths: Iterable[Length]
) -> Length | None:
    """The length nearest to the one asked for with which all rules hold that hold with that."""

    def allows(hive: Hive, length: Length) -> bool:
        other = replace(hive, chosen={**hive.chosen, item: length})
        return not broken(findings(hive), findings(other))

    near = sorted(lengths, key=lambda length: abs(length - asked))
    return next((length for length in near if all(allows(h, length) for h in hives)), None)


def packed(count: int, packages: Sequence[Package]) -> list[tuple[Package, int]]:
    """The packages that together hold at least so many and cost least; of these the fewest.

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
    cut: Iterable[Purchase],
    small: Iterable[Purchase],
    pieces: Iterable[Piece],
    hives: Sequence[Tagged],
) -> dict[str, Money]:
    """What each hive pays: of boards and sheets by the wood in its pieces, of the rest alike."""
    taken = {sort: dict.fromkeys((one.tag for one in hives), Fraction(0)) for sort in CUT}
    for piece in pieces:
        volumes = taken["board" if piece.section else "sheet"]
        volumes[piece.hive] += piece.width * piece.length * (piece.thickness or 1)

    def cost(lines: Iterable[Purchase]) -> Money:
        return sum((line.cost or Fraction(0) for line in lines), Fraction(0))

    found = {one.tag: cost(small) / len(hives) for one in hives}
    for sort, volumes in taken.items():
        a_volume = cost(line for line in cut if line.sort == sort) / (sum(volumes.values()) or 1)
        for tag, volume in volumes.items():
            found[tag] += a_volume * volume
    return found


def amount(money: Money) -> str:
    """An amount as a decimal: whole where it is, else with two places or more.

    >>> amount(3 * Fraction("3.95")), amount(Fraction(7)), amount(Fraction(-5, 2))
    ('11.85', '7', '−2.50')

    A share is rounded to a hundredth; prices have four places at most and are written exactly.
    """
    sign, size = "−" if money < 0 else "", abs(money)
    if size.denominator == 1:
        return f"{sign}{size.numerator:,}"
    if not ends_within(size, 4):
        size = Fraction(round(size * 100), 100)
    whole, parts = divmod(size * 10_000, 10_000)
    return f"{sign}{int(whole):,}.{f'{int(parts):04}'.rstrip('0').ljust(2, '0')}"


def paid(money: Money, currency: str) -> str:
    """An amount with its currency; of one, a currency that is a word loses its s.

    >>> paid(Fraction(1), "coins"), paid(Fraction(3, 2), "coins"), paid(Fraction(1), "US$")
    ('1 coin', '1.50 coins', '1 US$')
    """
    one = money == 1 and currency.islower()
    return f"{amount(money)} {currency.removesuffix('s') if one else currency}"
