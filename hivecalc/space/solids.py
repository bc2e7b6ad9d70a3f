"""Solids: a piece of wood in its place.

Every part of the course is a prism along x, or a few of them put together. So a block is an
interval along x times a convex outline in the y-z plane, and all of it is exact: no rounding can
hide a sixteenth. Lengths are Fractions of an inch.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property, lru_cache, reduce
from itertools import product
from math import lcm
from typing import Literal, TypeAlias, TypeVar, cast

from hivecalc.derivation import title
from hivecalc.length import Length

Interval: TypeAlias = tuple[Length, Length]
Point: TypeAlias = tuple[Length, Length]
Profile: TypeAlias = tuple[Point, ...]
Edge: TypeAlias = tuple[Point, Point]
Corner = TypeVar("Corner")

NOTHING = Fraction(0)


def rectangle(y: Interval, z: Interval) -> Profile:
    """The outline of a rectangle in the y-z plane, corners in counter-clockwise order."""
    (y0, y1), (z0, z1) = y, z
    return ((y0, z0), (y1, z0), (y1, z1), (y0, z1))


def profile_area(profile: Profile) -> Length:
    """The area inside a convex outline, in square inches."""
    turns = (p[0] * q[1] - q[0] * p[1] for p, q in edges(profile))
    return Fraction(sum(turns)) / 2


def clipped(profile: Profile, start: Point, end: Point) -> Profile:
    """What is left of a convex outline on the left hand of the line from start to end."""
    kept: list[Point] = []
    corners, line, _ = _on_one_grid(profile, (start, end))
    sides = [_side(corner, *line) for corner in corners]
    for i, here in enumerate(profile):
        before = i - 1
        if sides[before] * sides[i] < 0:
            a, share = profile[before], Fraction(sides[before]) / (sides[before] - sides[i])
            kept.append((a[0] + (here[0] - a[0]) * share, a[1] + (here[1] - a[1]) * share))
        if sides[i] >= 0:
            kept.append(here)
    return tuple(kept)


@lru_cache(maxsize=1024)  # twins share outlines, and so do the picture and the words of one cut
def shared_profile(first: Profile, second: Profile) -> Profile:
    """The outline of what two convex outlines share; empty where they share no area."""
    a, b, grid = _on_one_grid(first, second)
    if _apart(a, b):
        return ()
    kept = reduce(lambda left, edge: clipped(left, *edge), edges(b), a)
    return kept if grid == 1 else tuple((Fraction(y, grid), Fraction(z, grid)) for y, z in kept)


@lru_cache(maxsize=1024)
def profiles_meet(first: Profile, second: Profile) -> bool:
    """Whether two convex outlines share some area."""
    a, b, _ = _on_one_grid(first, second)
    return not _apart(a, b)


def _on_one_grid(first: Profile, second: Profile) -> tuple[Profile, Profile, int]:
    """Two outlines in whole steps of one grid, and how many of them make an inch."""
    grid = finest_grid(c for point in (*first, *second) for c in point)
    return on_grid(first, grid), on_grid(second, grid), grid


def finest_grid(lengths: Iterable[Length]) -> int:
    """How many steps make an inch, where each of these lengths is so many whole steps."""
    return lcm(*{length.denominator for length in lengths})


def steps(length: Length, grid: int) -> Length:
    """A length in whole steps of a grid: the same in whole numbers, which are quicker by far.

    Nothing is rounded where the grid is a multiple of finest_grid.
    """
    return cast("Length", length.numerator * (grid // length.denominator))


def on_grid(profile: Profile, grid: int) -> Profile:
    """An outline in whole steps of a grid."""
    return tuple((steps(y, grid), steps(z, grid)) for y, z in profile)


def _apart(first: Profile, second: Profile) -> bool:
    """Whether some edge of one outline has the whole of the other on its outer side."""
    return any(
        all(_side(p, *edge) <= 0 for p in other)
        for one, other in ((first, second), (second, first))
        for edge in edges(one)
    )


def edges(corners: Sequence[Corner]) -> Iterator[tuple[Corner, Corner]]:
    """The edges of an outline, each from its corner to the next."""
    return zip(corners, (*corners[1:], *corners[:1]), strict=True)


def _side(point: Point, start: Point, end: Point) -> Length:
    """More than nothing left of the line, less than nothing right of it."""
    (y, z), (y0, z0), (y1, z1) = point, start, end
    return (y1 - y0) * (z - z0) - (z1 - z0) * (y - y0)


@lru_cache(maxsize=1024)
def edges_in_line(first: Profile, second: Profile) -> tuple[tuple[Edge, Edge], ...]:
    """The pairs of edges of two outlines that lie on one line and look at one another."""
    a, b, _ = _on_one_grid(first, second)
    pairs = product(
        zip(edges(first), edges(a), strict=True), zip(edges(second), edges(b), strict=True)
    )
    return tuple((one, other) for (one, line), (other, against) in pairs if _in_line(line, against))


def _in_line(edge: Edge, other: Edge) -> bool:
    """Whether edges lie on one line and run in opposite directions, as of two touching blocks."""
    if any(_side(corner, *edge) for corner in other):
        return False
    (start, end), (other_start, other_end) = edge, other
    return sum((end[i] - start[i]) * (other_end[i] - other_start[i]) for i in (0, 1)) < 0


def looks_along(start: Point, end: Point) -> int:
    """The axis that a face looks along most: 1 for y, 2 for z."""
    return 1 if abs(end[1] - start[1]) > abs(end[0] - start[0]) else 2


def ordered(a: Length, b: Length) -> Interval:
    """The interval between two lengths, whichever comes first."""
    return (a, b) if a <= b else (b, a)


def on_edge(edge: Edge, i: int, at: Length) -> Length:
    """The other coordinate of the edge's line where its coordinate i is `at`."""
    (start, end), j = edge, 1 - i
    run, rise = end[i] - start[i], end[j] - start[j]
    return Fraction(start[j] * run + rise * (at - start[i]), run)


def shared_interval(first: Interval, second: Interval) -> Interval | None:
    """What two intervals share, None where that is at most a point."""
    low, high = max(first[0], second[0]), min(first[1], second[1])
    return (low, high) if low < high else None


def intervals_meet(first: Interval, second: Interval) -> bool:
    """Whether two intervals share more than a point."""
    return first[0] < second[1] and second[0] < first[1]


def span(profile: Profile, along: int, at: Length) -> Interval:
    """How low and how high an outline reaches along y (0) or z (1), where the other is `at`."""
    found: list[Length] = []
    for start, end in edges(profile):
        a, b = start[1 - along], end[1 - along]
        if a == at:
            found.append(start[along])
        elif a < at < b or b < at < a:
            found.append(on_edge((start, end), 1 - along, at))
    return min(found), max(found)


def covering(intervals: Sequence[Interval]) -> Interval:
    """The interval that holds all of these."""
    if len(intervals) == 1:
        return intervals[0]
    return (min(i[0] for i in intervals), max(i[1] for i in intervals))


@lru_cache(maxsize=1024)  # twins share outlines, and so do the picture and the words of one cut
def profile_distance(first: Profile, second: Profile, i: int) -> Length:
    """The least distance of two outlines along y (1) or z (2), where their shadows meet.

    It bends only at corners, so it is least at a corner or where the shadows end. It is less than
    nothing where the outlines overlap.
    """
    places = _bends(first, second, i)
    spans = [(span(first, i - 1, at), span(second, i - 1, at)) for at in places]
    return max(min(b[0] - a[1] for a, b in spans), min(a[0] - b[1] for a, b in spans))


def space_between(
    first: Profile, second: Profile, i: int, within: Interval
) -> tuple[tuple[Length, Interval], ...]:
    """What lies open between two faces that are opposite along y (1) or z (2), place by place.

    Each is a place and from where to where it is open there. Places are those within an interval
    where it begins, bends or ends. The ends of a board on a slope look another way, so they are
    left out. Nothing where no faces are opposite there.
    """
    bends = _bends(first, second, i)
    low, high = sorted((first, second), key=lambda profile: span(profile, i - 1, bends[0]))
    opposite = shared_interval(_face(low, i, 1), _face(high, i, -1))
    faced = opposite and shared_interval(opposite, within)
    if faced is None:
        return ()
    places = sorted({*faced, *(at for at in bends if faced[0] < at < faced[1])})
    return tuple((at, (span(low, i - 1, at)[1], span(high, i - 1, at)[0])) for at in places)


def _bends(first: Profile, second: Profile, i: int) -> list[Length]:
    """The places where a distance can bend: where the shared shadow ends, and at corners in it."""
    low, high = shared_interval(_shadow(first, i), _shadow(second, i)) or (NOTHING, NOTHING)
    corners = {p[2 - i] for p in (*first, *second)}
    return [low, high, *(at for at in corners if low < at < high)]


def _shadow(profile: Profile, i: int) -> Interval:
    return covering([(p[2 - i], p[2 - i]) for p in profile])


def _face(profile: Profile, i: int, way: int) -> Interval:
    """From where to where the face at the high end (1) or the low end (-1) of an outline reaches.

    All its shadow, where no face looks along this axis.
    """
    ahead = way if i == 1 else -way  # corners run counter-clockwise
    found = [
        ordered(a[2 - i], b[2 - i])
        for a, b in edges(profile)
        if (b[2 - i] - a[2 - i]) * ahead > 0 and looks_along(a, b) == i
    ]
    return covering(found) if found else _shadow(profile, i)


# ── blocks and solids ─────────────────────────────────────────────────────────────────────────────


Axis: TypeAlias = Literal["x", "y", "z"]
Extents: TypeAlias = tuple[Interval, Interval, Interval]
Size: TypeAlias = tuple[Length, Length, Length]

AXES: tuple[Axis, Axis, Axis] = ("x", "y", "z")


@dataclass(frozen=True)
class Block:
    """A prism: from x0 to x1, with one convex outline in y and z (counter-clockwise)."""

    x0: Length
    x1: Length
    profile: Profile

    @cached_property
    def extents(self) -> Extents:
        """The lowest and highest x, y and z."""
        ys, zs = zip(*self.profile, strict=True)
        return ((self.x0, self.x1), (min(ys), max(ys)), (min(zs), max(zs)))

    @cached_property
    def square(self) -> bool:
        """Whether the outline is a plain rectangle, its sides along y and z."""
        _, y, z = self.extents
        return len(self.profile) == 4 and all(p[0] in y and p[1] in z for p in self.profile)  # noqa: PLR2004 - a rectangle's corners

    @property
    def volume(self) -> Length:
        """Its volume in cubic inches."""
        return (self.x1 - self.x0) * profile_area(self.profile)

    @property
    def places(self) -> Iterator[Length]:
        """Where its corners lie: every x, y and z of them."""
        yield from (self.x0, self.x1)
        for corner in self.profile:
            yield from corner

    def on_grid(self, grid: int) -> "Block":
        """The same block in whole steps of a grid, so many of them to an inch."""
        return Block(steps(self.x0, grid), steps(self.x1, grid), on_grid(self.profile, grid))


@dataclass(frozen=True)
class Solid:
    """One piece in its place: which part it is of, which of the twins, and its blocks.

    `along` names the size of the piece that lies along x, y and z, and `cut` gives that size as it
    was cut. A piece on a slope reaches less far along an axis than it was cut. `tier` counts boxes
    from below, where more than one stands on the other.
    """

    component: str
    part: str
    place: str
    blocks: tuple[Block, ...]
    along: tuple[str, ...] = ()
    cut: tuple[Length, ...] = ()
    tier: int = 1

    @cached_property
    def label(self) -> str:
        """The part and its place, without the component: "side rail, left"."""
        part = title(self.part)
        return f"{part}, {self.place}" if self.place else part

    @cached_property
    def name(self) -> str:
        """The component, the part and its place: one name for one piece."""
        tier = f" {self.tier}" if self.tier > 1 else ""
        return f"{title(self.component)}{tier}: {self.label}"

    @property
    def words(self) -> str:
        """The piece as one says it in a sentence: "left side rail", "left side of box 2"."""
        of = f" of box {self.tier}" if self.tier > 1 else ""
        return f"{self.place} {title(self.part)}{of}".strip()

    @cached_property
    def extents(self) -> Extents:
        """The lowest and highest x, y and z of the whole piece."""
        return hull(b.extents for b in self.blocks)

    @property
    def size(self) -> Size:
        """How far it reaches along x, y and z."""
        return size_of(self.extents)

    @property
    def volume(self) -> Length:
        """Its volume in cubic inches."""
        return sum((b.volume for b in self.blocks), NOTHING)

    def raised(self, height: Length) -> "Solid":
        """The same piece, placed higher by this much."""
        blocks = (
            Block(b.x0, b.x1, tuple((y, z + height) for y, z in b.profile)) for b in self.blocks
        )
        return replace(self, blocks=tuple(blocks))

    def on_grid(self, grid: int) -> "Solid":
        """The same piece where it lies in whole steps of a grid; its cut sizes stay in inches."""
        blocks = tuple(b.on_grid(grid) for b in self.blocks)
        return replace(self, blocks=blocks)


def hull(extents: Iterable[Extents]) -> Extents:
    """The extents that hold all of these."""
    x, y, z = zip(*extents, strict=True)
    return (covering(x), covering(y), covering(z))


def size_of(extents: Extents) -> Size:
    """How long the extents are along x, y and z."""
    (x0, x1), (y0, y1), (z0, z1) = extents
    return (x1 - x0, y1 - y0, z1 - z0)


def near(first: Solid, second: Solid) -> bool:
    """Whether two solids' extents touch or overlap: else they can't share anything."""
    return all(
        a[0] <= b[1] and b[0] <= a[1] for a, b in zip(first.extents, second.extents, strict=True)
    )


def hive_outline(values: Mapping[str, Fraction]) -> tuple[Interval, Interval]:
    """From where to where the hive reaches across and along."""
    return (NOTHING, values["hive_width"]), (NOTHING, values["hive_length"])


# ── pieces in their places ────────────────────────────────────────────────────────────────────────

Along: TypeAlias = tuple[str, str, str]
Spot: TypeAlias = Callable[[Length], Interval]
# Which size of the piece lies along x, y and z.
ON_EDGE_ACROSS: Along = ("length", "thickness", "width")
ON_EDGE_LENGTHWAYS: Along = ("thickness", "length", "width")
FLAT_ACROSS: Along = ("length", "width", "thickness")
FLAT_LENGTHWAYS: Along = ("width", "length", "thickness")


def starting_at(low: Length) -> Spot:
    """The spot that begins here: from a piece's size to where it lies."""
    return lambda size: (low, low + size)


def ending_at(high: Length) -> Spot:
    """The spot that ends here."""
    return lambda size: (high - size, high)


def centred_on(middle: Length) -> Spot:
    """The spot whose middle is here."""

    def spot(size: Length) -> Interval:
        half = Fraction(size) / 2
        return (middle - half, middle + half)

    return spot


class NoPieceError(ValueError):
    """A size that no piece of wood has: nothing, or less."""

    def __init__(self, name: str, size: Length) -> None:
        super().__init__(
            f"{name}: {size} in cannot be the size of a piece; a size is more than nothing"
        )


@dataclass(frozen=True)
class CutPieces:
    """The pieces of one component as they are cut, ready to be put in their places."""

    component: str
    values: Mapping[str, Fraction]

    def cut(self, part: str, along: Along) -> Size:
        """The sizes that a part was cut to, in the order in which they lie along x, y and z."""
        x, y, z = along
        return (self.size(part, x), self.size(part, y), self.size(part, z))

    def size(self, part: str, size: str) -> Length:
        """One size of a part: its thickness, width or length. Raises NoPieceError."""
        name = f"{self.component}.{part}_{size}"
        if self.values[name] <= 0:
            raise NoPieceError(name, self.values[name])
        return self.values[name]

    def piece(self, part: str, place: str, along: Along, at: tuple[Spot, Spot, Spot]) -> Solid:
        """A square-edged piece in its place."""
        cut = self.cut(part, along)
        extents = (at[0](cut[0]), at[1](cut[1]), at[2](cut[2]))
        return self.box(part, place, along, cut, extents)

    def box(self, part: str, place: str, along: Along, cut: Size, extents: Extents) -> Solid:
        """A square-edged piece that fills these extents."""
        x, y, z = extents
        blocks = (Block(*x, rectangle(y, z)),)
        return Solid(self.component, part, place, blocks, along, cut)

    def prism(self, part: str, place: str, along: Along, x: Spot, *profiles: Profile) -> Solid:
        """A piece with these outlines in the y-z plane, its size along x as it was cut."""
        cut = self.cut(part, along)
        blocks = tuple(Block(*x(cut[0]), profile) for profile in profiles)
        return Solid(self.component, part, place, blocks, along, cut)

    def stand_in(self, part: str, x: Interval, y: Interval, z: Interval) -> Solid:
        """A plain block in the place of what this component meets; no piece of it."""
        return Solid(self.component, part, "", (Block(*x, rectangle(y, z)),))
