"""Strips: what is ripped comes out of blanks, which are crosscut first and cut to length last.

Pieces of one cross-section share blanks: short rails too, so that nothing short is ever ripped.
All blanks of a kind are equally long, as short as the pieces together allow.
"""

from bisect import bisect_right
from collections import Counter, deque
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import atan, ceil, degrees, tan
from typing import Final, NamedTuple, TypeAlias

from hivecalc.components.bottom_board import LANDING_TILT
from hivecalc.hive import Hive
from hivecalc.length import Length, Rounding, rounded
from hivecalc.workshop.boards import UNIT, Item, Unplanned, room
from hivecalc.workshop.needs import MARKS, Lumber, Piece, slope_of
from hivecalc.workshop.rips import CrossSection, cross_section
from hivecalc.workshop.yard import Yard

LONGEST_RIP: Final = Fraction(54)
"""Longest blank that is ripped; common practice, no published source.

One person can feed it past the blade, and studs are used up better than with longer ones.
"""

MORE_BLANKS: Final = 4
"""So many counts of blanks are tried, from the fewest on."""

Pattern: TypeAlias = tuple[int, ...]


class CutTo(NamedTuple):
    """A piece, and the length in inches that it is cut to: a common one if not critical."""

    piece: Piece
    length: Length


@dataclass(frozen=True)
class Strip:
    """One strip and the pieces that it is cut into, the longest first; its number in its kind."""

    number: str
    pieces: tuple[CutTo, ...]


@dataclass(frozen=True)
class Blanks:
    """Blanks that are alike: a number, the section of their wood, their length, how many.

    In inches. `section` says how each is ripped; `tilt` is how far the blade leans for an edge of
    all of them, in whole degrees; `fence` is what it is set to then.
    """

    number: str
    kind: Lumber
    section: CrossSection
    length: Length
    count: int
    strips: tuple[Strip, ...]
    tilt: int = 0
    fence: Length = Fraction(0)

    @property
    def items(self) -> list[Item]:
        """The blanks as they are crosscut from boards."""
        return [Item(self.number, self.length, straight=True)] * self.count

    @property
    def sides(self) -> tuple[Length, Length]:
        """Thickness and width of its strips."""
        return self.section.piece_thickness, self.section.piece_width

    @property
    def pieces(self) -> tuple[CutTo, ...]:
        """All pieces that come out of it."""
        return tuple(cut for strip in self.strips for cut in strip.pieces)


def tilt_of(piece: Piece, hives: Mapping[str, Hive]) -> int:
    """How far the blade leans for an edge of a piece, in whole degrees, as a saw's scale has them.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.workshop.needs import batch, needed
    >>> one = batch([demo_hive()])
    >>> [tilt_of(p, {"": demo_hive()}) for p in needed(one) if p.part == "landing_board"]
    [30]

    Half a degree on a stud is an eightieth of an inch, so hives with like roofs share a tilt.
    """
    match piece.component, piece.part:
        case "bottom_board", "landing_board":
            return LANDING_TILT
        case "roof", "rim_front":
            return round(degrees(atan(slope_of(hives[piece.hive]))))
        case _:
            return 0


def fence_at(width: Length, thickness: Length, tilt: int, piece: Piece) -> Length:
    """The fence's distance for a tilted rip, on a mark: the face on the table comes out narrower.

    In inches. The blade leans away from the fence.
    """
    taken = Fraction(tan(tilt * atan(1) / 45)).limit_denominator(10_000) * thickness
    return rounded(width - taken, MARKS[piece.units])


def common_lengths(pieces: Iterable[Piece]) -> dict[Piece, Length]:
    """The length that each piece is cut to: those that are not critical share as few as can be.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.workshop.needs import batch, needed
    >>> runners = [p for p in needed(batch([demo_hive()])) if "front_runner" in p.part]
    >>> [str(p.length) for p in runners], {str(size) for size in common_lengths(runners).values()}
    (['103/8', '99/8'], {'99/8'})

    Each may be as short as its `least`; the fewest lengths come from taking the shortest first.
    """
    found: dict[Piece, Length] = {}
    ends: dict[tuple[Length | None, Length], list[Length]] = {}
    for piece in sorted(pieces, key=lambda piece: piece.length):
        there = ends.setdefault((piece.thickness, piece.width), [])
        if piece.least == piece.length:
            found[piece] = piece.length
            continue
        if not there or there[-1] < piece.least:
            there.append(piece.length)
        found[piece] = there[-1]
    return found


# ── blanks ────────────────────────────────────────────────────────────────────────────────────


def ripped(
    kind: Lumber, hives: Mapping[str, Hive], yard: Yard, first: int, most: Length = LONGEST_RIP
) -> tuple[list[Blanks], list[Piece], list[Unplanned]]:
    """The blanks of one kind of lumber, the pieces only crosscut, and what can't be cut.

    Blanks are numbered from `first` on, and no longer than `most` unless a piece is.
    """
    groups: dict[tuple[Length, Length, int], list[Piece]] = {}
    whole = []
    for piece in kind.pieces:
        tilt = tilt_of(piece, hives)
        if kind.comes_as(piece) and not tilt:
            whole.append(piece)
        elif piece.thickness:
            sides = (_as_sold(size, piece, kind) for size in (piece.thickness, piece.width))
            thick, wide = sides
            groups.setdefault((thick, wide, tilt), []).append(piece)
    blanks, left = list[Blanks](), list[Unplanned]()
    lengths = common_lengths(p for group in groups.values() for p in group)
    longest = max((room(board, yard) - yard.cut for board in kind.boards), default=Fraction(0))
    for (thick, wide, tilt), group in sorted(groups.items(), key=lambda item: -len(item[1])):
        section = cross_section(
            *kind.sold[1:3], thick, wide, yard.kerf, least_fence=yard.least_fence
        )
        fitting, long = list[Piece](), list[Piece]()
        for p in group:
            fits = section.count and lengths[p] + yard.cut <= longest
            (fitting if fits else long).append(p)
        left += [Unplanned(p.mark, _why(section)) for p in long]
        if fitting:
            cuts = [CutTo(p, lengths[p]) for p in fitting]
            made = _blanks(cuts, section, (min(most, longest), longest), yard)
            number = f"R{first + len(blanks)}"
            strips = tuple(
                replace(strip, number=f"{number}/{n}") for n, strip in enumerate(made.strips, 1)
            )
            fence = fence_at(wide, thick, tilt, group[0]) if tilt else Fraction(0)
            blanks.append(
                replace(made, number=number, kind=kind, strips=strips, tilt=tilt, fence=fence)
            )
    return blanks, whole, left


def _as_sold(size: Length, piece: Piece, kind: Lumber) -> Length:
    """A side of a piece; where it is a side of the lumber as it was measured, the yard's own."""
    section = piece.section
    if section and not section.sawn:
        if size == section.thickness:
            return kind.sold.thickness
        if size == section.width:
            return kind.sold.width
    return size


def _why(section: CrossSection) -> str:
    if section.count:
        return "it is longer than any board that you buy"
    return (
        "no such strip can be ripped from this wood with enough left between fence and blade: buy "
        "it ready, or saw and plane it by hand"
    )


def _blanks(
    pieces: Sequence[CutTo], section: CrossSection, ends: tuple[Length, Length], yard: Yard
) -> Blanks:
    """The fewest inches of wood, in equal blanks, that give all these pieces as strips.

    `ends` are how long a blank shall be at most, and how long one can be at all.
    """
    sizes = Counter(_size(cut, yard) for cut in pieces)
    most = max(ends[0], *(cut.length + yard.cut for cut in pieces))
    units = int(most * UNIT)
    fewest = -(-len(laid(sizes, units)) // section.count)
    plans = []
    for count in range(fewest, fewest + MORE_BLANKS):
        short = shortest_room(sizes, count * section.count, units)
        grid = MARKS[pieces[0].piece.units]
        length = max(rounded(Fraction(short, UNIT), grid, Rounding.UP), yard.least_rip)
        plans.append((min(length, max(ends[1], Fraction(short, UNIT))) * count, count, short))
    total, count, short = min(plans)
    strips = list(_named(laid(sizes, short), pieces, yard))
    used = section.giving(-(-len(strips) // count))
    return Blanks("", _NO_KIND, used, total / count, count, tuple(strips))


_NO_KIND: Final = Lumber("", (), (), None)  # type: ignore[arg-type]  # replaced where it is made


def _size(cut: CutTo, yard: Yard) -> int:
    return ceil((cut.length + yard.cut) * UNIT)


def _named(patterns: Iterable[Pattern], pieces: Sequence[CutTo], yard: Yard) -> Iterator[Strip]:
    waiting: dict[int, deque[CutTo]] = {}
    for cut in pieces:
        waiting.setdefault(_size(cut, yard), deque()).append(cut)
    for pattern in patterns:
        yield Strip("", tuple(waiting[size].popleft() for size in pattern))


def laid(sizes: Mapping[int, int], units: int) -> list[Pattern]:
    """The sizes laid along strips, the longest first, each into the first strip with room.

    >>> laid({5: 2, 3: 3}, 8)
    [(5, 3), (5, 3), (3,)]
    """
    left = dict(sizes)
    found = []
    while able := sorted(size for size in left if left[size]):
        lie, rest, end = list[int](), units, len(able)
        while end:
            size = able[end - 1]
            count = min(rest // size, left[size])
            lie += [size] * count
            left[size] -= count
            rest -= size * count
            end = bisect_right(able, rest, 0, end - 1)
        found.append(tuple(lie))
    return found


def shortest_room(sizes: Mapping[int, int], strips: int, longest: int) -> int:
    """The shortest room found at which the sizes go into so many strips, longest first.

    >>> shortest_room({5: 2, 3: 3}, 3, 20)
    8

    They must go in at `longest`. The room is halved as long as that does: a heuristic known for
    equal machines as MULTIFIT (Coffman, Garey and Johnson, SIAM Journal on Computing 7, 1978), from
    memory.
    """
    low = max(*sizes, -(-sum(size * n for size, n in sizes.items()) // strips))
    high = longest
    while low < high:
        middle = (low + high) // 2
        if len(laid(sizes, middle)) <= strips:
            high = middle
        else:
            low = middle + 1
    return high
