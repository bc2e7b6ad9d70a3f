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
from typing import Final, Literal, NamedTuple, TypeAlias

from hivecalc.length import Length, with_unit
from hivecalc.workshop.yard import Board, Money, Yard

Aim: TypeAlias = Literal["cost", "boards"]
Size: TypeAlias = tuple[int, bool]
"""A length in steps, and whether what is so long must be straight."""

Sizes: TypeAlias = Mapping[Size, int]
"""How many items there are of each size, and whether they must be straight."""

UNIT: Final = 128
"""Parts of an inch in which boards are filled: items are rounded up in it, and room down."""

TIGHT: Final = Fraction(1, 4)
"""A board with less to spare is told as tight; a choice."""

EFFORT: Final = 400_000
"""Steps that all attempts take together: boards times different sizes."""

MOST_MIXES: Final = 60
FULL_UP_TO: Final = 60_000
"""Where an attempt takes more steps, boards are filled first fit only."""

MOST_STEPS: Final = 100_000
"""Amounts of money that the bound goes through."""


class Item(NamedTuple):
    """A piece or a blank that is crosscut off a board: its mark, and its length in inches."""

    mark: str
    length: Length
    straight: bool = False


class Unplanned(NamedTuple):
    """A piece that the yard does not give, and why not."""

    mark: str
    why: str


@dataclass(frozen=True)
class CutBoard:
    """A numbered board and the items that come off it, the longest first.

    `offcut` is what is left behind the last cut; `tight` says that hardly anything of it is to
    spare.
    """

    number: str
    board: Board
    items: tuple[Item, ...]
    offcut: Length
    tight: bool


@dataclass(frozen=True)
class BoardsCut:
    """How boards of one kind are cut, and how near that is to the best.

    `counted` is what the aim counts of it, money or boards to buy; `bound` is what no plan can go
    below.
    """

    boards: tuple[CutBoard, ...]
    aim: Aim
    counted: Fraction
    bound: Fraction
    unplanned: tuple[Unplanned, ...] = ()

    @property
    def proved(self) -> bool:
        """Whether no plan can do better."""
        return self.bound >= self.counted


def boards_cut(items: Sequence[Item], boards: Sequence[Board], yard: Yard, aim: Aim) -> BoardsCut:
    """How to crosscut these items out of boards; those at hand come first.

    >>> stud = Board("8 ft", "stud", Fraction(3, 2), Fraction(7, 2), Fraction(96), Fraction(4))
    >>> shop = Yard("coins", (stud,), (), ())
    >>> found = boards_cut([Item(str(n), Fraction(30)) for n in range(4)], [stud], shop, "cost")
    >>> [len(cut.items) for cut in found.boards], found.proved
    ([2, 2], True)

    The boards have no numbers yet. Where a price is not known, boards are counted instead.
    """
    aim = aim if all(b.price is not None for b in boards if not b.at_hand) else "boards"
    kinds = {(i.length, i.straight): any(_gives(b, i, yard) for b in boards) for i in items}
    fitting = [item for item in items if kinds[item.length, item.straight]]
    unplanned = [
        Unplanned(i.mark, _why(i, boards, yard)) for i in items if not kinds[i.length, i.straight]
    ]
    filled, left = _at_hand(fitting, boards, yard)
    sold = [b for b in boards if not b.at_hand and b.count != 0]
    mix, short = _mix(left, sold, yard, aim) if left else ([], [])
    unplanned += [Unplanned(item.mark, "there are not enough boards for it") for item in short]
    cut = [_cut(board, found, yard) for board, found in (*filled, *mix) if found]
    counted = sum((_cost(c.board, aim) for c in cut), Fraction(0))
    held = [item for _, found in mix for item in found]
    bound = min(counted, _bound(held, sold, yard, aim))
    return BoardsCut(tuple(cut), aim, counted, bound, tuple(unplanned))


def room(board: Board, yard: Yard) -> Length:
    """What a board gives for items and their cuts: all but the two ends that are trimmed off.

    The ends of a board at hand are sawn already, so its last item needs no cut.
    """
    return board.length + yard.cut if board.at_hand else board.length - 2 * yard.end_trim


def _gives(board: Board, item: Item, yard: Yard) -> bool:
    straight = board.straight or not item.straight
    return straight and board.count != 0 and item.length + yard.cut <= room(board, yard)


def _why(item: Item, boards: Sequence[Board], yard: Yard) -> str:
    able = [b for b in boards if b.count != 0 and (b.straight or not item.straight)]
    if not able:
        return "there is no straight board to cut it from"
    longest = max(room(b, yard) for b in able) - yard.cut
    long, gives = (with_unit(yard.units, x) for x in (item.length, longest))
    return f"it is {long} long, and the longest board gives {gives}"


def _cost(board: Board, aim: Aim) -> Fraction:
    if board.at_hand:
        return Fraction(0)
    return Fraction(1) if aim == "boards" else board.price or Fraction(0)


def _cut(board: Board, items: Sequence[Item], yard: Yard) -> CutBoard:
    longest_first = tuple(sorted(items, key=lambda item: -item.length))
    taken = sum((item.length + yard.cut for item in items), Fraction(0))
    spare = room(board, yard) - taken
    trim = Fraction(0) if board.at_hand else yard.end_trim
    offcut = max(board.length - trim - taken, Fraction(0))
    return CutBoard("", board, longest_first, offcut, spare < TIGHT)


# ── filling boards ────────────────────────────────────────────────────────────────────────────


class Room(NamedTuple):
    """A board that is to be filled: how much it gives in steps, and whether it is straight."""

    steps: int
    straight: bool


def _size(item: Item, yard: Yard) -> Size:
    return ceil((item.length + yard.cut) * UNIT), item.straight


def _room(board: Board, yard: Yard, spare: int = 0) -> Room:
    return Room(int(room(board, yard) * UNIT) - spare, board.straight)


def packed(sizes: Sizes, rooms: Sequence[Room], *, full: bool) -> list[list[Size]] | None:
    """The sizes that lie in each room, or None where they don't all go in.

    >>> packed({(5, False): 1, (3, False): 2}, [Room(8, True), Room(3, True)], full=False)
    [[(5, False), (3, False)], [(3, False)]]

    Room by room: the longest that still goes in, again and again, or where they shall be `full` the
    longest and what fills the rest best.
    """
    left, found = dict(sizes), list[list[Size]]()
    able = sorted(left)
    while len(found) < len(rooms):
        one = rooms[len(found)]
        able = [size for size in able if left[size]]
        here = able if one.straight else [size for size in able if not size[1]]
        lie = (_fullest if full else _first_fit)(here, left, one.steps)
        alike = next((n for n, r in enumerate(rooms[len(found) :]) if r != one), len(rooms))
        many = min((left[size] // n for size, n in Counter(lie).items()), default=1)
        many = max(1, min(many, alike, len(rooms) - len(found)))
        for size in lie:
            left[size] -= many
        found += [lie] * many
    return None if any(left.values()) else found


def _first_fit(able: Sequence[Size], left: Sizes, steps: int) -> list[Size]:
    lie: list[Size] = []
    end = bisect_right(able, (steps, True))
    while end:
        size = able[end - 1]
        count = min(steps // size[0], left[size])
        lie += [size] * count
        steps -= size[0] * count
        end = bisect_right(able, (steps, True), 0, end - 1)
    return lie


def _fullest(able: Sequence[Size], left: Sizes, steps: int) -> list[Size]:
    """The longest, and the others whose sum comes nearest to the rest: all sums as bits."""
    fitting = [size for size in able if size[0] <= steps]
    if not fitting:
        return []
    longest = fitting[-1]
    steps -= longest[0]
    every, mask = [1], (1 << (steps + 1)) - 1
    for size in fitting:
        bits = every[-1]
        for _ in range(min(left[size] - (size == longest), steps // size[0])):
            more = bits | (bits << size[0]) & mask
            if more == bits:
                break
            bits = more
        every.append(bits)
    at, lie = every[-1].bit_length() - 1, [longest]
    for number in range(len(fitting), 0, -1):
        while not every[number - 1] >> at & 1:
            lie.append(fitting[number - 1])
            at -= fitting[number - 1][0]
    return sorted(lie, reverse=True)


def _at_hand(
    items: Sequence[Item], boards: Sequence[Board], yard: Yard
) -> tuple[list[tuple[Board, list[Item]]], list[Item]]:
    """The boards at hand, each as full as can be, the shortest first, and the items left."""
    own = [
        b for b in sorted(boards, key=lambda b: b.length) if b.at_hand for _ in range(b.count or 0)
    ]
    left, found = list(items), []
    for board in own:
        sizes = Counter(_size(item, yard) for item in left)
        one = _room(board, yard)
        able = sorted(size for size in sizes if one.straight or not size[1])
        taken, rest = _named(_fullest(able, sizes, one.steps), left, yard)
        found.append((board, taken))
        left = rest
    return found, left


def _named(lie: Iterable[Size], items: Iterable[Item], yard: Yard) -> tuple[list[Item], list[Item]]:
    """The items that have these sizes, and the others."""
    wanted = Counter(lie)
    taken, rest = list[Item](), list[Item]()
    for item in items:
        size = _size(item, yard)
        (taken if wanted[size] > 0 else rest).append(item)
        wanted[size] -= 1
    return taken, rest


# ── which boards to buy ───────────────────────────────────────────────────────────────────────


def _mix(
    items: Sequence[Item], sold: Sequence[Board], yard: Yard, aim: Aim
) -> tuple[list[tuple[Board, list[Item]]], list[Item]]:
    """The cheapest boards that were found to hold all items, filled with something to spare."""
    sizes = Counter(_size(item, yard) for item in items)
    best: tuple[Money, int] | None = None
    spare, chosen, effort = -1, list[Board](), 0
    mixes = sorted(_mixes(sizes, sold, yard, aim), key=lambda mix: (mix[0], len(mix[1])))
    for cost, mix in mixes[:MOST_MIXES]:
        if effort > EFFORT or (best is not None and (cost, len(mix)) > best):
            break
        effort += len(mix) * len(sizes)
        found = _most_to_spare(sizes, mix, yard)
        if found > spare:
            best, spare, chosen = (cost, len(mix)), found, mix
    if best is None:
        one_by_one = _one_by_one(items, sold, yard, aim)
        chosen = [board for board, _ in one_by_one[0]]
        spare = -1 if one_by_one[1] else _most_to_spare(sizes, chosen, yard)
        if spare < 0:
            return one_by_one
    laid = _laid(sizes, chosen, yard, spare) or []
    return _with_items(laid, _order(chosen), items, yard), []


def _mixes(
    sizes: Sizes, sold: Sequence[Board], yard: Yard, aim: Aim
) -> Iterator[tuple[Money, list[Board]]]:
    """Mixes with room enough: as many of one kind as it takes beside a few of each other."""
    need = sum(size * count for (size, _), count in sizes.items())
    rooms = [_room(board, yard).steps for board in sold]
    few = 3 if len(sold) <= 4 else 1  # noqa: PLR2004 - beyond it there would be too many mixes
    seen = set()
    for main in (i for i, steps in enumerate(rooms) if steps > 0):
        for others in product(*(range(1 if i == main else few + 1) for i in range(len(sold)))):
            rest = need - sum(n * r for n, r in zip(others, rooms, strict=True))
            for more in range(3):
                counts = list(others)
                counts[main] = max(0, -(-rest // rooms[main])) + more
                if tuple(counts) not in seen and _are_there(counts, sold):
                    seen.add(tuple(counts))
                    mix = [b for b, n in zip(sold, counts, strict=True) for _ in range(n)]
                    yield sum((_cost(b, aim) for b in mix), Fraction(0)), mix


def _are_there(counts: Sequence[int], sold: Sequence[Board]) -> bool:
    return all(b.count is None or n <= b.count for n, b in zip(counts, sold, strict=True))


def _order(mix: Sequence[Board]) -> list[Board]:
    return sorted(mix, key=lambda board: (board.straight, board.length))


def _laid(sizes: Sizes, mix: Sequence[Board], yard: Yard, spare: int) -> list[list[Size]] | None:
    """The sizes on each board of a mix, every board with so many steps to spare."""
    rooms = [_room(board, yard, spare) for board in _order(mix)]
    found = packed(sizes, rooms, full=False)
    if found is None and len(rooms) * len(sizes) <= FULL_UP_TO:
        found = packed(sizes, rooms, full=True)
    return found


def _most_to_spare(sizes: Sizes, mix: Sequence[Board], yard: Yard) -> int:
    """Most steps that were found to be left on every board of a mix; -1 if it holds not all."""
    if _laid(sizes, mix, yard, 0) is None:
        return -1
    need = sum(size * count for (size, _), count in sizes.items())
    low = 0
    high = (sum(_room(b, yard).steps for b in mix) - need) // len(mix)
    while high - low > UNIT // 16:
        middle = (low + high + 1) // 2
        if _laid(sizes, mix, yard, middle) is None:
            high = middle - 1
        else:
            low = middle
    return low


def _with_items(
    laid: Sequence[Sequence[Size]],
    boards: Sequence[Board],
    items: Sequence[Item],
    yard: Yard,
) -> list[tuple[Board, list[Item]]]:
    waiting: dict[Size, deque[Item]] = {}
    for item in items:
        waiting.setdefault(_size(item, yard), deque()).append(item)
    return [
        (board, [waiting[size].popleft() for size in lie])
        for board, lie in zip(boards, laid, strict=True)
    ]


def _one_by_one(
    items: Sequence[Item], sold: Sequence[Board], yard: Yard, aim: Aim
) -> tuple[list[tuple[Board, list[Item]]], list[Item]]:
    """Boards taken one after the other, those first that give most for what they cost."""
    by_worth = sorted(
        sold, key=lambda b: (_cost(b, aim) / max(room(b, yard), Fraction(1)), -b.length)
    )
    left, taken = Counter(_size(item, yard) for item in items), list[tuple[Board, list[Size]]]()
    for board in by_worth:
        one = _room(board, yard)
        for _ in range(len(items) if board.count is None else board.count):
            able = sorted(s for s, n in left.items() if n and (one.straight or not s[1]))
            lie = _first_fit(able, left, one.steps)
            if not lie:
                break
            left.subtract(lie)
            taken.append((board, lie))
    lies = [*(lie for _, lie in taken), [size for size, n in left.items() for _ in range(n)]]
    named = [
        found for _, found in _with_items(lies, [*(b for b, _ in taken), sold[0]], items, yard)
    ]
    return [(board, found) for (board, _), found in zip(taken, named, strict=False)], named[-1]


# ── what no plan can go below ─────────────────────────────────────────────────────────────────


def _bound(items: Sequence[Item], sold: Sequence[Board], yard: Yard, aim: Aim) -> Fraction:
    """The least that boards can cost whose rooms together hold what the items take together."""
    need = int(sum((item.length + yard.cut for item in items), Fraction(0)) * UNIT)
    if not need or not sold:
        return Fraction(0)
    costs = [_cost(board, aim) for board in sold]
    parts = lcm(*(cost.denominator for cost in costs))
    step = gcd(*(int(cost * parts) for cost in costs))
    if not step:
        return Fraction(0)
    whole = [
        (int(c * parts) // step, ceil(room(b, yard) * UNIT))
        for c, b in zip(costs, sold, strict=True)
    ]
    return Fraction(least_cost(whole, need) * step, parts)


def least_cost(goods: Sequence[tuple[int, int]], need: int) -> int:
    """The least cost, in whole numbers, of goods that give so much together."""
    best = min(Fraction(cost, gives) for cost, gives in goods if gives > 0)
    at_least = ceil(need * best)
    if at_least > MOST_STEPS or not all(cost for cost, _ in goods):
        return at_least
    most = [0]
    while most[-1] < need:
        at = len(most)
        most.append(max(most[-1], *(most[at - c] + gives for c, gives in goods if c <= at), 0))
    return len(most) - 1
