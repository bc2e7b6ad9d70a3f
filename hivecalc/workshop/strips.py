"""Strips: how a stud is ripped into them, and the blanks they come from, crosscut first.

Pieces of one cross-section share blanks: short rails too, so that nothing short is ever ripped.
All blanks of a kind are equally long, as short as the pieces together allow.
"""

from collections import Counter, deque
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import accumulate
from math import atan, ceil, degrees, radians, tan
from typing import Final, Literal, NamedTuple

from hivecalc.components import values
from hivecalc.components.bottom_board import LANDING_TILT
from hivecalc.hive import Hive
from hivecalc.hive.hive import said_with_unit
from hivecalc.length import MARKS, Length, Rounding, Units, in_either_unit, rounded
from hivecalc.workshop.boards import UNIT, CutItem, Size, Sizes, Unplanned, filled, room
from hivecalc.workshop.needs import Piece, Section, Stock, as_it_comes
from hivecalc.workshop.yard import Yard

DEEPEST: Final = Fraction(3)
"""Deepest cut of an upright blade of 10 in; common practice, no published source.

The saw's manual says how deep yours cuts.
"""


class Rip(NamedTuple):
    """One pass: the fence's distance from the blade, and what the stock measures before it.

    `off` is the width that falls away on the other side of the blade; nothing falls where the stock
    is wider than the fence's distance by a kerf or less. `keeps` says whether what falls is wanted.
    """

    fence: Length
    before: Length
    off: Length
    keeps: bool


class Rectangle(NamedTuple):
    """A part of the cross-section as the stud lies for the first rip: its low corner, its sides.

    x runs along the side that is ripped first, y up from the table.
    """

    x: Length
    y: Length
    wide: Length
    high: Length


@dataclass(frozen=True)
class Slice:
    """A slice that the first rips take off: its size, its number of strips, how it is ripped."""

    size: Length
    strips: int
    rips: tuple[Rip, ...]


@dataclass(frozen=True)
class CrossSection:
    """How the cross-section of a stud is ripped into strips of one size, in inches.

    The first rips cut the stud's `first` side into slices, widest rest first; then each slice is
    laid flat and ripped into strips. Nothing narrower than `least_fence` can be held at the saw.
    """

    thickness: Length
    width: Length
    piece_thickness: Length
    piece_width: Length
    kerf: Length
    least_fence: Length
    first: Literal["width", "thickness"] = "width"
    slices: tuple[Slice, ...] = ()
    rips: tuple[Rip, ...] = ()

    @property
    def count(self) -> int:
        """How many strips come out."""
        return sum(part.strips for part in self.slices)

    @property
    def used(self) -> Fraction:
        """The share of the cross-section that becomes strips."""
        area = self.count * self.piece_thickness * self.piece_width
        return area / (self.thickness * self.width)

    @property
    def sides(self) -> tuple[Length, Length]:
        """The side that is ripped first, and the one that stands up on the table then."""
        sides = self.width, self.thickness
        return sides if self.first == "width" else sides[::-1]

    def giving(self, strips: int) -> "CrossSection":
        """The same, with no more slices taken off than it takes for so many strips."""
        made = accumulate((part.strips for part in self.slices), initial=0)
        enough = next((i for i, count in enumerate(made) if count >= strips), len(self.slices))
        return replace(self, slices=self.slices[:enough], rips=self.rips[:enough])

    @cached_property
    def places(self) -> dict[str, list[Rectangle]]:
        """Where each kerf lies, as far as there is wood, each rest beside the strips, and they."""
        side, other = self.sides
        strips, rests, through, within = (list[Rectangle]() for _ in range(4))
        x, nothing = Fraction(0), Fraction(0)
        for number, part in enumerate(self.slices):
            lying = part.size == self.piece_thickness
            size = self.piece_width if lying else self.piece_thickness
            step, end = size + self.kerf, part.strips * (size + self.kerf)
            strips += [Rectangle(x, i * step, part.size, size) for i in range(part.strips)]
            if end < other:
                rests.append(Rectangle(x, end, part.size, other - end))
            for y in (i * step + size for i in range(len(part.rips))):
                within.append(Rectangle(x, y, part.size, min(self.kerf, other - y)))
            x += part.size
            if number < len(self.rips):
                through.append(Rectangle(x, nothing, min(self.kerf, side - x), other))
            x += self.kerf
        if x < side:
            rests.append(Rectangle(x, nothing, side - x, other))
        return {"kerf": [*within, *through], "rest": rests, "strip": strips}


@lru_cache(maxsize=256)  # the same few studs and strips are asked for again and again
def cross_section(  # noqa: PLR0913 - a stud and a strip have two sides each
    thickness: Length,
    width: Length,
    piece_thickness: Length,
    piece_width: Length,
    kerf: Length,
    *,
    least_fence: Length = Yard.least_fence,
) -> CrossSection:
    """The way to rip a stud that gives most strips, and of these the one with fewest rips.

    >>> stud = cross_section(*map(Fraction, ("1.5", "3.5", "0.5", "0.75", "0.125")))
    >>> stud.count, stud.first, [str(rip.fence) for rip in stud.rips]
    (5, 'width', ['23/8', '9/4', '13/8', '3/4'])

    In inches. One side of the stud is cut into slices as wide as a strip is wide or thick, the
    rest perhaps the other way; then each slice into strips. A side of W gives
    floor((W + kerf) / (w + kerf)) pieces of w where w can be held at the fence; fewer where it is
    narrower than `least_fence`, as then that much must stay there. No cut is deeper than 3 in.
    With no way to rip it, the count is 0.
    """
    none = CrossSection(thickness, width, piece_thickness, piece_width, kerf, least_fence)
    thin, wide, saw = piece_thickness, piece_width, _Saw(kerf, least_fence)
    ways = [none]
    for first in ("width", "thickness"):
        lying = replace(none, first=first)
        side, other = lying.sides
        kinds = saw.slice(thin, wide, other), saw.slice(wide, thin, other)
        for thins in range(saw.most(side, thin) + 1):
            for wides in range(saw.most(side, wide) + 1 if wide != thin else 1):
                slices = (kinds[0],) * thins + (kinds[1],) * wides
                rips = saw.rips(side, [part.size for part in slices], other)
                if rips is not None:
                    ways.append(replace(lying, slices=slices, rips=rips))

    def worst(way: CrossSection) -> tuple[int, int, bool]:
        passes = len(way.rips) + sum(len(part.rips) for part in way.slices)
        return -way.count, passes, way.first != "width"

    return min(ways, key=worst)


class _Saw(NamedTuple):
    """What a rip takes, and the least that it leaves between fence and blade."""

    kerf: Length
    least_fence: Length

    def most(self, side: Length, size: Length) -> int:
        return int((side + self.kerf) // (size + self.kerf))

    def slice(self, size: Length, strip: Length, other: Length) -> Slice:
        """The slice of this size with as many strips as it gives."""
        for count in range(self.most(other, strip), 0, -1):
            made = self.rips(other, [strip] * count, size)
            if made is not None:
                return Slice(size, count, made)
        return Slice(size, 0, ())

    def rips(self, side: Length, sizes: Sequence[Length], deep: Length) -> tuple[Rip, ...] | None:
        """The rips that cut a side into these sizes, or None where one can't be made."""
        found = list[Rip]()
        for number, size in enumerate(sizes, 1):
            last = number == len(sizes)
            if last and size == side:
                break
            at_fence = last and size >= self.least_fence
            fence = size if at_fence else side - size - self.kerf
            if fence < self.least_fence or size > side or deep > DEEPEST:
                return None
            off = max(side - fence - self.kerf, Fraction(0))
            found.append(Rip(fence, side, off, not at_fence))
            side = fence
        return tuple(found)


# ── in words ──────────────────────────────────────────────────────────────────────────────────

NEVER: Final = (
    "Never cut a rest on the saw that is less than {} wide: it can't be held. That width is common "
    "practice, no published source; your saw's manual may ask for more."
)


def section_words(section: CrossSection, units: Units = "inch") -> Iterator[str]:
    """Sentences on a cross-section: the count, the order of the rips, and the rest.

    >>> stud = cross_section(*map(Fraction, ("1.5", "3.5", "0.5", "1.5", "0.125")))
    >>> for sentence in [*section_words(stud)][:3]:
    ...     print(sentence)
    A stud of 1 1/2 in by 3 1/2 in gives 4 strips of 1/2 in by 1 1/2 in with a kerf of 1/8 in.
    It lies flat. Set the fence to 2 7/8 in, 2 1/4 in, 1 5/8 in and 1 in, in this order.
    The wide part runs between blade and fence, and each slice falls off on the other side.
    """

    def by(*sides: Length) -> str:
        return " by ".join(said_with_unit(side, units) for side in sides)

    def fences(rips: Sequence[Rip]) -> str:
        *first, last = [said_with_unit(rip.fence, units) for rip in rips]
        return f"{', '.join(first)} and {last}, in this order" if first else last

    stock = by(section.thickness, section.width)
    strip = by(section.piece_thickness, section.piece_width)
    if not section.count:
        yield f"A stud of {stock} gives no strip of {strip}."
        return
    many = "one strip" if section.count == 1 else f"{section.count} strips"
    kerf = said_with_unit(section.kerf, units)
    yield f"A stud of {stock} gives {many} of {strip} with a kerf of {kerf}."
    if section.rips:
        lies = "lies flat" if section.first == "width" else "stands on edge"
        yield f"It {lies}. Set the fence to {fences(section.rips)}."
    if any(rip.keeps for rip in section.rips):
        yield (
            "The wide part runs between blade and fence, and each slice falls off on the other "
            "side."
        )
    for part, slices in Counter(part for part in section.slices if part.rips).items():
        which = "the slice" if slices == 1 else f"each of {slices} slices"
        yield f"Lay {which} of {by(part.size)} flat and set the fence to {fences(part.rips)}."
    rests = section.places["rest"]
    for rest, count in Counter(tuple(sorted((r.wide, r.high))) for r in rests).items():
        yield f"Left: {count} of {by(*rest)}." if count > 1 else f"Left: {by(*rest)}."
    if any(min(rest.wide, rest.high) < section.least_fence for rest in rests):
        yield NEVER.format(said_with_unit(section.least_fence, units))


# ── strips of a stock ─────────────────────────────────────────────────────────────────────────────

LONGEST_RIP: Final = Fraction(54)
"""Longest blank that is ripped; common practice, no published source.

One person can feed it past the blade, and studs are used up better than with longer ones.
"""

MORE_BLANKS: Final = 4  # counts of blanks are tried, from the fewest on
TOO_LONG: Final = "it is longer than any board that you buy"
NO_STRIP: Final = (
    "no such strip can be ripped from this wood with enough left between fence and blade: buy it "
    "ready, or saw and plane it by hand"
)


class CutTo(NamedTuple):
    """A piece, and the length in inches that it is cut to: a common one if not critical."""

    piece: Piece
    length: Length

    def short_by(self, units: Units) -> str:
        """How much less than the parts list it is cut on purpose, in words; empty if nothing."""
        short = self.piece.length - self.length
        return f"{in_either_unit(units, short)} short on purpose" if short else ""


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
    def items(self) -> list[CutItem]:
        """The blanks as they are crosscut from boards."""
        return [CutItem(self.number, self.length, straight=True)] * self.count

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
        why = TOO_LONG if section.count else NO_STRIP
        left += [Unplanned(p.mark, why) for p in group if not fits[p]]
        cuts = [CutTo(p, lengths[p]) for p in group if fits[p]]
        if cuts:
            number = f"R{first + len(blanks)}"
            made = _blanks(number, cuts, section, (min(most, longest), longest), yard)
            if tilt:  # the blade leans away from the fence: the face on the table is narrower
                taken = Fraction(tan(radians(tilt))).limit_denominator(10_000) * thick
                fence = rounded(wide - taken, MARKS[group[0].units])
                made = replace(made, tilt=tilt, fence=fence)
            blanks.append(made)
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
    if section and size == section.thickness:
        return sold.thickness
    if section and size == section.width and not section.ripped_from(sold):
        return sold.width
    return size


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
