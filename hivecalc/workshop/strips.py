"""Strips: what is ripped comes out of blanks, which are crosscut first and cut to length last.

Pieces of one cross-section share blanks: short rails too, so that nothing short is ever ripped.
All blanks of a kind are equally long, as short as the pieces together allow.
"""

from collections import Counter, deque
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import atan, ceil, degrees, tan
from typing import Final, NamedTuple

from hivecalc.components import values
from hivecalc.components.bottom_board import LANDING_TILT
from hivecalc.hive import Hive
from hivecalc.length import MARKS, Length, Rounding, rounded
from hivecalc.workshop.boards import UNIT, Item, Size, Sizes, Unplanned, filled, room
from hivecalc.workshop.needs import Piece, Section, Stock, as_it_comes
from hivecalc.workshop.rips import CrossSection, cross_section
from hivecalc.workshop.yard import Yard

LONGEST_RIP: Final = Fraction(54)
"""Longest blank that is ripped; common practice, no published source.

One person can feed it past the blade, and studs are used up better than with longer ones.
"""

MORE_BLANKS: Final = 4
"""So many counts of blanks are tried, from the fewest on."""


class CutTo(NamedTuple):
    """A piece, and the length in inches that it is cut to: a common one if not critical."""

    piece: Piece
    length: Length


class Strip(NamedTuple):
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


def ripped(
    stock: Stock, hives: Mapping[str, Hive], yard: Yard, first: int, most: Length = LONGEST_RIP
) -> tuple[list[Blanks], list[Piece], list[Unplanned]]:
    """The blanks of one kind of lumber, the pieces only crosscut, and what can't be cut.

    Blanks are numbered from `first` on, and no longer than `most` unless a piece is.
    """
    sold: Section = stock.sold  # type: ignore[assignment]  # of lumber it is known
    groups: dict[tuple[Length, Length, int], list[Piece]] = {}
    whole = []
    for piece in stock.pieces:
        tilt = _tilt(piece, hives)
        if as_it_comes(piece, sold) and not tilt:
            whole.append(piece)
        elif piece.thickness:
            sides = (_as_sold(size, piece, sold) for size in (piece.thickness, piece.width))
            groups.setdefault((*sides, tilt), []).append(piece)  # type: ignore[arg-type]
    blanks, left = list[Blanks](), list[Unplanned]()
    lengths = common_lengths(p for group in groups.values() for p in group)
    longest = max((room(board, yard) - yard.cut for board in stock.goods), default=Fraction(0))
    for (thick, wide, tilt), group in sorted(groups.items(), key=lambda item: -len(item[1])):
        section = cross_section(*sold[1:3], thick, wide, yard.kerf, least_fence=yard.least_fence)
        fits = {p: section.count and lengths[p] + yard.cut <= longest for p in group}
        left += [Unplanned(p.mark, _why(section)) for p in group if not fits[p]]
        cuts = [CutTo(p, lengths[p]) for p in group if fits[p]]
        if cuts:
            number = f"R{first + len(blanks)}"
            made = _blanks(number, cuts, section, (min(most, longest), longest), yard)
            fence = _fence(wide, thick, tilt, group[0]) if tilt else Fraction(0)
            blanks.append(replace(made, tilt=tilt, fence=fence))
    return blanks, whole, left


def _tilt(piece: Piece, hives: Mapping[str, Hive]) -> int:
    """How far the blade leans for an edge of a piece, in whole degrees, as a saw's scale has them.

    Half a degree on a stud is an eightieth of an inch, so hives with like roofs share a tilt.
    """
    match piece.component, piece.part:
        case "bottom_board", "landing_board":
            return LANDING_TILT
        case "roof", "rim_front":
            return round(degrees(atan(values(hives[piece.hive])["roof.slope"])))
        case _:
            return 0


def _fence(width: Length, thickness: Length, tilt: int, piece: Piece) -> Length:
    """The fence's distance for a tilted rip, on a mark: the face on the table comes out narrower.

    The blade leans away from the fence.
    """
    taken = Fraction(tan(tilt * atan(1) / 45)).limit_denominator(10_000) * thickness
    return rounded(width - taken, MARKS[piece.units])


def common_lengths(pieces: Iterable[Piece]) -> dict[Piece, Length]:
    """The length that each piece is cut to: those that are not critical share as few as can be.

    Each may be as short as its `least`; the fewest lengths come from taking the shortest first.
    """
    found: dict[Piece, Length] = {}
    longest: dict[tuple[Length | None, Length], Length] = {}
    for piece in sorted(pieces, key=lambda piece: piece.length):
        found[piece] = piece.length
        if piece.least < piece.length:
            sides = piece.thickness, piece.width
            if longest.get(sides, Fraction(0)) < piece.least:
                longest[sides] = piece.length
            found[piece] = longest[sides]
    return found


def _as_sold(size: Length, piece: Piece, sold: Section) -> Length:
    """A side of a piece; where it is a side of the lumber as it was measured, the yard's own."""
    section = piece.section
    if section and not section.sawn:
        if size == section.thickness:
            return sold.thickness
        if size == section.width:
            return sold.width
    return size


def _why(section: CrossSection) -> str:
    if section.count:
        return "it is longer than any board that you buy"
    return (
        "no such strip can be ripped from this wood with enough left between fence and blade: buy "
        "it ready, or saw and plane it by hand"
    )


# ── blanks ────────────────────────────────────────────────────────────────────────────────────


def _blanks(
    number: str, cuts: Sequence[CutTo], section: CrossSection, ends: tuple[Length, Length],
    yard: Yard,
) -> Blanks:  # fmt: skip
    """The fewest inches of wood, in equal blanks, that give all these pieces as strips.

    `ends` are how long a blank shall be at most, and how long one can be at all.
    """
    waiting: dict[Size, deque[CutTo]] = {}
    for cut in cuts:
        size = ceil((cut.length + yard.cut) * UNIT), False
        waiting.setdefault(size, deque()).append(cut)
    sizes = Counter({size: len(alike) for size, alike in sorted(waiting.items())})
    units = int(max(ends[0], *(cut.length + yard.cut for cut in cuts)) * UNIT)
    fewest = -(-len(laid(sizes, units)) // section.count)
    plans = []
    for count in range(fewest, fewest + MORE_BLANKS):
        short = shortest_room(sizes, count * section.count, units)
        grid = MARKS[cuts[0].piece.units]
        length = max(rounded(Fraction(short, UNIT), grid, Rounding.UP), yard.least_rip)
        plans.append((min(length, max(ends[1], Fraction(short, UNIT))) * count, count, short))
    total, count, short = min(plans)
    strips = tuple(
        Strip(f"{number}/{n}", tuple(waiting[size].popleft() for size in lie))
        for n, lie in enumerate(laid(sizes, short), 1)
    )
    used = section.giving(-(-len(strips) // count))
    return Blanks(number, used, total / count, count, strips)


def laid(sizes: Sizes, units: int) -> list[list[Size]]:
    """The sizes laid along strips, the longest first, each into the first strip with room."""
    rest, found = Counter(sizes), list[list[Size]]()
    while any(rest.values()):
        found.append(filled(rest, (units, True), full=False))
        rest.subtract(found[-1])
    return found


def shortest_room(sizes: Sizes, strips: int, longest: int) -> int:
    """The shortest room found at which the sizes go into so many strips, longest first.

    >>> shortest_room({(5, False): 2, (3, False): 3}, 3, 20)
    8

    They must go in at `longest`. The room is halved as long as that does: a heuristic known for
    equal machines as MULTIFIT (Coffman, Garey and Johnson, SIAM Journal on Computing 7, 1978), from
    memory.
    """
    total = sum(size * n for (size, _), n in sizes.items())
    low, high = max(*(size for size, _ in sizes), -(-total // strips)), longest
    while low < high:
        middle = (low + high) // 2
        if len(laid(sizes, middle)) <= strips:
            high = middle
        else:
            low = middle + 1
    return high
