"""Solids: a piece of wood in its place.

Every part of the course is a prism along x, or a few of them put together. So a block is an
interval along x times a convex outline in the y-z plane, and all of it is exact: no rounding can
hide a sixteenth. Lengths are Fractions of an inch.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from typing import Literal, TypeAlias

from hivecalc.length import Length
from hivecalc.space.outlines import (
    NOTHING,
    Interval,
    Profile,
    covering,
    on_grid,
    profile_area,
    rectangle,
    steps,
)

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
        part = self.part.replace("_", " ")
        return f"{part}, {self.place}" if self.place else part

    @cached_property
    def name(self) -> str:
        """The component, the part and its place: one name for one piece."""
        tier = f" {self.tier}" if self.tier > 1 else ""
        return f"{self.component.replace('_', ' ')}{tier}: {self.label}"

    @property
    def words(self) -> str:
        """The piece as one says it in a sentence: "left side rail", "left side of box 2"."""
        of = f" of box {self.tier}" if self.tier > 1 else ""
        return f"{self.place} {self.part.replace('_', ' ')}{of}".strip()

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


Along: TypeAlias = tuple[str, str, str]
Spot: TypeAlias = Callable[[Length], Interval]
Spots: TypeAlias = tuple[Spot, Spot, Spot]

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
    """A size that no piece of wood has: nothing, or less.

    >>> print(NoPieceError("roof.deck_width", Fraction(-1, 2)))
    roof.deck_width: -1/2 in cannot be the size of a piece; a size is more than nothing
    """

    def __init__(self, name: str, size: Length) -> None:
        super().__init__(
            f"{name}: {size} in cannot be the size of a piece; a size is more than nothing"
        )


@dataclass(frozen=True)
class Bench:
    """The pieces of one component as they are cut, ready to be put in their places.

    >>> sizes = {"roof.deck_width": 20, "roof.deck_length": 26, "roof.deck_thickness": 1}
    >>> bench, corner = Bench("roof", sizes), starting_at(0)
    >>> bench.piece("deck", "", FLAT_LENGTHWAYS, (corner, corner, corner)).size
    (20, 26, 1)
    """

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

    def piece(self, part: str, place: str, along: Along, at: Spots) -> Solid:
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
