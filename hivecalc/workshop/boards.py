"""Boards: whole pieces and blanks crosscut out of what the yard sells, with something to spare.

First fit decreasing and filling, for the cheapest mixes of boards in turn; what the lengths alone
prove; and of all mixes that cost the same the one whose tightest board has most to spare. No
search goes on by the clock: the same input gives the same plan.
"""

from bisect import bisect_right
from collections import Counter, deque
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from math import ceil, gcd, lcm
from typing import Final, Generic, Literal, NamedTuple, TypeAlias, TypeVar

from hivecalc.length import Length, with_unit
from hivecalc.workshop.needs import Stock
from hivecalc.workshop.yard import Goods, Money, Yard

Aim: TypeAlias = Literal["cost", "boards"]
Size: TypeAlias = tuple[int, bool]
"""A length in steps, and whether what is so long must be straight; of a board, whether it is."""

Sizes: TypeAlias = Mapping[Size, int]
"""How many items there are of each size."""

UNIT: Final = 128
"""Parts of an inch in which boards are filled: items are rounded up in it, and room down."""

TIGHT: Final = Fraction(1, 4)  # a board with less to spare is called tight; a choice
EFFORT: Final = 400_000  # steps that all attempts take together: boards times different sizes
MOST_MIXES: Final = 60
FULL_UP_TO: Final = 60_000  # where an attempt takes more steps, boards are filled first fit only
MOST_STEPS: Final = 100_000  # amounts of money that the bound goes through

C = TypeVar("C")


class CutItem(NamedTuple):
    """A piece or a blank that is crosscut off a board: its mark, and its length in inches."""

    mark: str
    length: Length
    straight: bool = False


class Unplanned(NamedTuple):
    """A piece that the yard does not give, and why not."""

    mark: str
    why: str


@dataclass(frozen=True)
class Cut(Generic[C]):
    """How the boards or sheets of one stock are cut, and how near that is to the best.

    `counted` is what the aim counts of it, money or goods to buy; `bound` is what no plan can go
    below.
    """

    stock: Stock
    goods: tuple[C, ...]
    aim: Aim
    counted: Fraction
    bound: Fraction
    unplanned: tuple[Unplanned, ...] = ()

    @property
    def proved(self) -> bool:
        """Whether no plan can do better."""
        return self.bound >= self.counted


@dataclass(frozen=True)
class CutBoard:
    """A numbered board and the items that come off it, the longest first.

    `offcut` is what is left behind the last cut; `tight` says that hardly anything of it is to
    spare.
    """

    number: str
    board: Goods
    items: tuple[CutItem, ...]
    offcut: Length
    tight: bool


def boards_cut(items: Sequence[CutItem], stock: Stock, yard: Yard, aim: Aim) -> Cut[CutBoard]:
    """How to crosscut these items out of a stock of boards; those at hand come first.

    The boards have no numbers yet. Where a price is not known, boards are counted instead.
    """
    boards = stock.goods
    aim = known_aim(boards, aim)
    kinds = {(item.length, item.straight) for item in items}
    given = {
        (length, straight)
        for length, straight in kinds
        if any(
            b.count != 0 and b.straight >= straight and length + yard.cut <= room(b, yard)
            for b in boards
        )
    }
    able = [item for item in items if item[1:] in given]
    unplanned = [Unplanned(i.mark, _why(i, boards, yard)) for i in items if i[1:] not in given]
    sizes, lies = Counter(_size(item, yard) for item in able), list[list[Size]]()
    at_hand = sorted((b for b in boards if b.at_hand), key=lambda b: b.length)
    own = [b for b in at_hand for _ in range(b.count or 0)]
    for board in own:
        lies.append(filled(sizes, _room(board, yard), full=True))
        sizes.subtract(lies[-1])
    *taken, left = _dealt(lies, able, yard)
    sold = [b for b in boards if not b.at_hand and b.count != 0]
    mix, short = _mix(left, sold, yard, aim) if left else ([], [])
    unplanned += [Unplanned(item.mark, "there are not enough boards for it") for item in short]
    full = (*zip(own, taken, strict=True), *mix)
    cut = tuple(_cut(board, found, yard) for board, found in full if found)
    counted = sum((cost(c.board, aim) for c in cut), Fraction(0))
    need = sum((item.length + yard.cut for _, found in mix for item in found), Fraction(0)) * UNIT
    bound = least_cost(int(need), [ceil(room(b, yard) * UNIT) for b in sold], sold, aim)
    return Cut(stock, cut, aim, counted, min(counted, bound), tuple(unplanned))


def room(board: Goods, yard: Yard) -> Length:
    """What a board gives for items and their cuts: all but the two ends that are trimmed off.

    The ends of a board at hand are sawn already, so its last item needs no cut.
    """
    return board.length + yard.cut if board.at_hand else board.length - 2 * yard.end_trim


def _why(item: CutItem, boards: Sequence[Goods], yard: Yard) -> str:
    able = [b for b in boards if b.count != 0 and (b.straight or not item.straight)]
    if not able:
        return "there is no straight board to cut it from"
    longest = max(room(b, yard) for b in able) - yard.cut
    long, gives = (with_unit(yard.units, x) for x in (item.length, longest))
    return f"it is {long} long, and the longest board gives {gives}"


def _cut(board: Goods, items: Sequence[CutItem], yard: Yard) -> CutBoard:
    taken = sum((item.length + yard.cut for item in items), Fraction(0))
    trim = Fraction(0) if board.at_hand else yard.end_trim
    offcut = max(board.length - trim - taken, Fraction(0))
    longest_first = tuple(sorted(items, key=lambda item: -item.length))
    return CutBoard("", board, longest_first, offcut, room(board, yard) - taken < TIGHT)


# ── what boards and sheets cost ───────────────────────────────────────────────────────────────


def known_aim(goods: Iterable[Goods], aim: Aim) -> Aim:
    """What is aimed at: where the price of something that is sold is not known, few of them."""
    return aim if all(g.price is not None for g in goods if not g.at_hand) else "boards"


def cost(goods: Goods, aim: Aim) -> Money:
    """What one of some goods counts: its price, or one."""
    if goods.at_hand:
        return Fraction(0)
    return Fraction(1) if aim == "boards" else goods.price or Fraction(0)


def least_cost(need: int, gives: Sequence[int], sold: Sequence[Goods], aim: Aim) -> Fraction:
    """The least that goods can cost which together give so much, where each `gives` its part."""
    costs = [cost(one, aim) for one in sold]
    if not need or not any(costs):
        return Fraction(0)
    parts = lcm(*(money.denominator for money in costs))
    step = gcd(*(int(money * parts) for money in costs))
    whole = [int(money * parts) // step for money in costs]
    at_least = ceil(need * min(Fraction(c, g) for c, g in zip(whole, gives, strict=True) if g > 0))
    if at_least > MOST_STEPS or not all(whole):
        return Fraction(at_least * step, parts)
    most = [0]
    while most[-1] < need:
        at = len(most)
        more = (most[at - c] + g for c, g in zip(whole, gives, strict=True) if c <= at)
        most.append(max(most[-1], *more, 0))
    return Fraction((len(most) - 1) * step, parts)


# ── filling boards ────────────────────────────────────────────────────────────────────────────


def _size(item: CutItem, yard: Yard) -> Size:
    return ceil((item.length + yard.cut) * UNIT), item.straight


def _room(board: Goods, yard: Yard, spare: int = 0) -> Size:
    return int(room(board, yard) * UNIT) - spare, board.straight


def packed(
    sizes: Sizes, rooms: Sequence[Size], *, full: bool
) -> tuple[list[list[Size]], dict[Size, int]]:
    """The sizes that lie in each room, and how many of each do not go in.

    Room by room: the longest that still goes in, again and again, or where they shall be `full` the
    longest and what fills the rest best.
    """
    left, found = dict(sorted(sizes.items())), list[list[Size]]()
    while len(found) < len(rooms):
        here = rooms[len(found) :]
        lie = filled(left, here[0], full=full)
        # rooms that are alike are filled alike, as long as there is enough
        alike = next((n for n, other in enumerate(here) if other != here[0]), len(here))
        many = min((left[size] // n for size, n in Counter(lie).items()), default=alike)
        for size in lie:
            left[size] -= max(1, min(many, alike))
        found += [lie] * max(1, min(many, alike))
    return found, left


def filled(left: Sizes, one: Size, *, full: bool) -> list[Size]:
    """The sizes that lie in one room."""
    steps, straight = one
    able = sorted(s for s, n in left.items() if n and s[0] <= steps and (straight or not s[1]))
    if full and able:
        return _fullest(able, left, steps)
    lie, end = list[Size](), len(able)
    while end:
        size = able[end - 1]
        count = min(steps // size[0], left[size])
        lie += [size] * count
        steps -= size[0] * count
        end = bisect_right(able, (steps, True), 0, end - 1)
    return lie


def _fullest(able: Sequence[Size], left: Sizes, steps: int) -> list[Size]:
    """The longest, and the others whose sum comes nearest to the rest: all sums as bits."""
    longest = able[-1]
    steps -= longest[0]
    every, mask = [1], (1 << (steps + 1)) - 1
    for size in able:
        bits = every[-1]
        for _ in range(min(left[size] - (size == longest), steps // size[0])):
            bits |= (bits << size[0]) & mask
        every.append(bits)
    at, lie = every[-1].bit_length() - 1, [longest]
    for number in range(len(able), 0, -1):
        while not every[number - 1] >> at & 1:
            lie.append(able[number - 1])
            at -= able[number - 1][0]
    return sorted(lie, reverse=True)


def _dealt(
    lies: Iterable[Iterable[Size]], items: Iterable[CutItem], yard: Yard
) -> list[list[CutItem]]:
    """The items that lie where these sizes do, and at the end those that are left over."""
    waiting: dict[Size, deque[CutItem]] = {}
    for item in items:
        waiting.setdefault(_size(item, yard), deque()).append(item)
    found = [[waiting[size].popleft() for size in lie] for lie in lies]
    return [*found, [item for size in sorted(waiting) for item in waiting[size]]]


# ── which boards to buy ───────────────────────────────────────────────────────────────────────


def _mix(
    items: Sequence[CutItem], sold: Sequence[Goods], yard: Yard, aim: Aim
) -> tuple[list[tuple[Goods, list[CutItem]]], list[CutItem]]:
    """The cheapest boards that were found to hold all items, filled with something to spare.

    Where no mix holds them all, as many as go in, and what is left.
    """
    sizes = Counter(_size(item, yard) for item in items)
    best: tuple[Money, int] | None = None
    spare, chosen, effort = -1, list[Goods](), 0
    mixes = sorted(_mixes(sizes, sold, yard, aim), key=lambda mix: (mix[0], len(mix[1])))
    for money, mix in mixes[:MOST_MIXES]:
        if effort > EFFORT or (best is not None and (money, len(mix)) > best):
            break
        effort += len(mix) * len(sizes)
        found = _most_to_spare(sizes, mix, yard)
        if found > spare:
            best, spare, chosen = (money, len(mix)), found, mix
    laid = list[list[Size]]()
    if best is None:  # all boards one after the other, those first that give most for their cost
        worth = {b: cost(b, aim) / max(room(b, yard), Fraction(1)) for b in sold}
        every = [
            board
            for board in sorted(sold, key=lambda b: (worth[b], -b.length))
            for _ in range(len(items) if board.count is None else board.count)
        ]
        lies, rest = packed(sizes, [_room(board, yard) for board in every], full=False)
        chosen = [board for board, lie in zip(every, lies, strict=True) if lie]
        laid = [lie for lie in lies if lie]
        spare = -1 if any(rest.values()) else _most_to_spare(sizes, chosen, yard)
    if spare >= 0:
        chosen = sorted(chosen, key=_order)
        laid = _laid(sizes, chosen, yard, spare) or []
    *named, left = _dealt(laid, items, yard)
    return list(zip(chosen, named, strict=True)), left


def _mixes(
    sizes: Sizes, sold: Sequence[Goods], yard: Yard, aim: Aim
) -> Iterator[tuple[Money, list[Goods]]]:
    """Mixes with room enough: as many of one kind as it takes beside a few of each other."""
    need = sum(size * count for (size, _), count in sizes.items())
    rooms = [_room(board, yard)[0] for board in sold]
    few = 3 if len(sold) <= 4 else 1  # noqa: PLR2004 - beyond it there would be too many mixes
    seen = set()
    for main in (i for i, steps in enumerate(rooms) if steps > 0):
        for others in product(*(range(1 if i == main else few + 1) for i in range(len(sold)))):
            rest = need - sum(n * r for n, r in zip(others, rooms, strict=True))
            for more in range(3):
                counts = list(others)
                counts[main] = max(0, -(-rest // rooms[main])) + more
                mix = [b for b, n in zip(sold, counts, strict=True) for _ in range(n)]
                enough = all(
                    b.count is None or n <= b.count for b, n in zip(sold, counts, strict=True)
                )
                if enough and tuple(counts) not in seen:
                    seen.add(tuple(counts))
                    yield sum((cost(b, aim) for b in mix), Fraction(0)), mix


def _order(board: Goods) -> tuple[bool, Length]:
    """The order in which boards are filled: crooked and short ones first."""
    return board.straight, board.length


def _laid(sizes: Sizes, mix: Iterable[Goods], yard: Yard, spare: int) -> list[list[Size]] | None:
    """The sizes on each board of a mix, in order, every board with so many steps to spare."""
    rooms = [_room(board, yard, spare) for board in sorted(mix, key=_order)]
    found, left = packed(sizes, rooms, full=False)
    if any(left.values()) and len(rooms) * len(sizes) <= FULL_UP_TO:
        found, left = packed(sizes, rooms, full=True)
    return None if any(left.values()) else found


def _most_to_spare(sizes: Sizes, mix: Sequence[Goods], yard: Yard) -> int:
    """Most steps that were found to be left on every board of a mix; -1 if it holds not all."""
    if _laid(sizes, mix, yard, 0) is None:
        return -1
    need = sum(size * count for (size, _), count in sizes.items())
    low, high = 0, (sum(_room(b, yard)[0] for b in mix) - need) // len(mix)
    while high - low > UNIT // 16:
        middle = (low + high + 1) // 2
        if _laid(sizes, mix, yard, middle) is None:
            high = middle - 1
        else:
            low = middle
    return low
