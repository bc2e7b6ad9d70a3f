"""How solids meet: what they share, where they touch, how far apart; joints and what holds them.

What holds a joint is all common practice, no published source.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, product
from math import prod
from typing import Final, Literal, TypeAlias

from hivecalc.length import MM, Length, Units, shown
from hivecalc.space.solids import (
    AXES,
    NOTHING,
    Axis,
    Block,
    Extents,
    Size,
    Solid,
    edges_in_line,
    hull,
    intervals_meet,
    looks_along,
    near,
    on_edge,
    ordered,
    profile_area,
    profile_distance,
    profiles_meet,
    rectangle,
    shared_interval,
    shared_profile,
    size_of,
    space_between,
    span,
)


@dataclass(frozen=True)
class Overlap:
    """Two pieces that would have to be in one place at once, and the blocks that they share."""

    first: Solid
    second: Solid
    blocks: tuple[Block, ...]

    def depth(self, axis: Axis) -> Length:
        """How deep one runs into the other along an axis, at the deepest place."""
        return max(_thickness(b, axis) for b in self.blocks)


@dataclass(frozen=True)
class Contact:
    """Two pieces that touch: the axis their faces look along, and the face that they share.

    A sloping face counts for the axis it looks along most, and its area is its shadow along it.
    """

    first: Solid
    second: Solid
    axis: Axis
    extents: Extents
    area: Length

    @property
    def size(self) -> Size:
        """How far the face reaches along x, y and z."""
        return size_of(self.extents)

    @property
    def rectangular(self) -> bool:
        """Whether the face is a plain rectangle, its sides along the axes."""
        return self.area == prod(
            s for s, axis in zip(self.size, AXES, strict=True) if axis != self.axis
        )


def overlap(first: Solid, second: Solid) -> Overlap | None:
    """What two solids share, None where they share no volume."""
    pairs = ((a, b) for a in first.blocks for b in second.blocks)
    found = tuple(s for pair in pairs if (s := shared_block(*pair)))
    return Overlap(first, second, found) if found else None


def _thickness(block: Block, axis: Axis) -> Length:
    """How thick a block is along an axis, at its thickest place: at some corner of its outline."""
    i = AXES.index(axis)
    low, high = block.extents[i]
    if axis == "x" or block.square:
        return high - low
    spans = [span(block.profile, i - 1, corner[2 - i]) for corner in block.profile]
    return max(span[1] - span[0] for span in spans)


def shared_block(first: Block, second: Block) -> Block | None:
    """The block that two blocks share, None where they share no volume."""
    if not all(intervals_meet(a, b) for a, b in zip(first.extents, second.extents, strict=True)):
        return None
    x, y, z = (
        (max(a[0], b[0]), min(a[1], b[1]))
        for a, b in zip(first.extents, second.extents, strict=True)
    )
    if first.square and second.square:
        return Block(*x, rectangle(y, z))
    profile = shared_profile(first.profile, second.profile)
    return Block(*x, profile) if profile else None


def overlaps(solids: Iterable[Solid]) -> tuple[Overlap, ...]:
    """Every pair of solids that shares some volume, and the extents of what they share."""
    near_pairs = (pair for pair in combinations(solids, 2) if near(*pair))
    return tuple(o for pair in near_pairs if (o := overlap(*pair)))


def contacts(solids: Iterable[Solid]) -> tuple[Contact, ...]:
    """Every pair of solids whose faces touch, once for each axis that the faces look along.

    Area in square inches.
    """
    near_pairs = (pair for pair in combinations(solids, 2) if near(*pair))
    return tuple(c for pair in near_pairs for c in contacts_between(*pair))


def contacts_between(first: Solid, second: Solid) -> Iterator[Contact]:
    """The contacts of two solids: at most one for each axis."""
    faces: dict[Axis, list[tuple[Extents, Length]]] = {}
    for a in first.blocks:
        for b in second.blocks:
            for axis, extents, area in _faces(a, b):
                faces.setdefault(axis, []).append((extents, area))
    for axis, found in faces.items():
        extents = hull(extents for extents, _ in found)
        yield Contact(first, second, axis, extents, sum((a for _, a in found), NOTHING))


_Face: TypeAlias = tuple[Axis, Extents, Length]


def _faces(first: Block, second: Block) -> Iterator[_Face]:
    """The faces that two blocks share: at their ends along x, and where edges lie in one line."""
    if first.square and second.square:
        yield from _square_faces(first, second)
        return
    if first.x1 == second.x0 or first.x0 == second.x1:
        at = first.x1 if first.x1 == second.x0 else first.x0
        if profile := shared_profile(first.profile, second.profile):
            yield "x", Block(at, at, profile).extents, profile_area(profile)
    x = shared_interval(first.extents[0], second.extents[0])
    for edge, other in edges_in_line(first.profile, second.profile) if x else ():
        along = looks_along(*edge)
        i = 2 - along
        run = shared_interval(ordered(edge[0][i], edge[1][i]), ordered(other[0][i], other[1][i]))
        if x and run:
            side = ordered(*(on_edge(edge, i, at) for at in run))
            y, z = (side, run) if along == 1 else (run, side)
            yield AXES[along], (x, y, z), (x[1] - x[0]) * (run[1] - run[0])


def _square_faces(first: Block, second: Block) -> Iterator[_Face]:
    for i, axis in enumerate(AXES):
        (low, high), (other_low, other_high) = first.extents[i], second.extents[i]
        if high != other_low and low != other_high:
            continue
        at = high if high == other_low else low
        common = [shared_interval(a, b) for a, b in zip(first.extents, second.extents, strict=True)]
        common[i] = (at, at)
        x, y, z = common
        if x and y and z:
            sides = [c[1] - c[0] for j, c in enumerate((x, y, z)) if j != i]
            yield axis, (x, y, z), sides[0] * sides[1]


def gap(first: Solid, second: Solid, axis: Axis) -> Length | None:
    """The least distance between two solids along an axis, where their shadows along it meet.

    0 where they touch; None where they do not face each other along this axis or share space.
    """
    pairs = product(first.blocks, second.blocks)
    found = [d for a, b in pairs if (d := _distance(a, b, axis)) is not None]
    least = min(found, default=None)
    return least if least is not None and least >= 0 else None


def least_gap(first: Solid, second: Solid, axis: Axis) -> Length:
    """The distance of two solids' extents along an axis: a gap is never less, and this is quick.

    Less than nothing where their extents overlap.
    """
    i = AXES.index(axis)
    (low, high), (other_low, other_high) = first.extents[i], second.extents[i]
    return max(other_low - high, low - other_high)


def opening(first: Solid, second: Solid, axis: Axis, within: Extents) -> Length | None:
    """The distance between the nearest faces of two solids at its widest place within extents.

    It differs from the gap where the faces are not parallel: a wedge that opens.

    `within` is where the two should touch. None where they do not face each other there.
    """
    least, i = gap(first, second, axis), AXES.index(axis)
    if least is None:
        return None
    pairs = product(first.blocks, second.blocks)
    one, other = next(pair for pair in pairs if _distance(*pair, axis) == least)
    if axis == "x" or (one.square and other.square):
        return least
    space = space_between(one.profile, other.profile, i, within[3 - i])
    return max((high - low for _, (low, high) in space), default=None)


def _distance(first: Block, second: Block, axis: Axis) -> Length | None:
    """The least distance along an axis, less than nothing where blocks share space."""
    i = AXES.index(axis)
    for j in range(3):
        if j != i and not intervals_meet(first.extents[j], second.extents[j]):
            return None
    if axis != "x" and not (first.square and second.square):
        return profile_distance(first.profile, second.profile, i)
    (low, high), (other_low, other_high) = first.extents[i], second.extents[i]
    if not ((first.square and second.square) or profiles_meet(first.profile, second.profile)):
        return None
    return max(other_low - high, low - other_high)


# ── joints, and what may hold one ─────────────────────────────────────────────────────────────────


Joint: TypeAlias = tuple[str, str, Axis]


def both_sides(*joints: Joint) -> tuple[Joint, ...]:
    """These joints and, where one speaks of the left, the same on the right."""
    found = list[Joint]()
    for first, second, axis in joints:
        found.append((first, second, axis))
        if "left" in first + second:
            found.append((first.replace("left", "right"), second.replace("left", "right"), axis))
    return tuple(found)


Along: TypeAlias = Literal["length", "width"]


@dataclass(frozen=True)
class Every:
    """One fastener for every so much of a joint, rounded up, and at least `least`.

    In mm it is what a metric builder steps off, and no converted inches.
    """

    inches: int
    mm: int
    least: int

    def spacing(self, units: Units) -> Length:
        """How far two of them are apart at most, in inches, on a hive in these units."""
        return Fraction(self.inches) if units == "inch" else self.mm * MM

    def count(self, run: Length, units: Units) -> int:
        """How many a joint takes that runs so far."""
        return max(self.least, -(-run // self.spacing(units)))

    def words(self, run: Length, units: Units) -> str:
        """Why it is so many."""
        every, whole = shown(self.spacing(units), units), shown(run, units)
        return f": one for every {every} of {whole}, rounded up, and at least {self.least}"


@dataclass(frozen=True)
class Each:
    """The same number of fasteners in each joint, however far it runs."""

    number: int

    def count(self, _: Length, __: Units) -> int:
        """How many a joint takes."""
        return self.number

    def words(self, _: Length, __: Units) -> str:
        """Why it is so many: there is nothing to add."""
        return ""


@dataclass(frozen=True)
class OnTheLine:
    """As many as stand on the roof's screw line, along the side that a rail closes or all round."""


@dataclass(frozen=True)
class Held:
    """How one kind of joint is held: which fastener goes through which piece and into which.

    `item` is the measurement that gives the fastener's length. The joint runs along one size of the
    pieces, as far as the piece that has less of it; glued, it takes one line of glue so long. An
    axis is given where two kinds of pieces meet along several.
    """

    through: str
    into: str
    item: str
    count: Every | Each | OnTheLine
    along: Along = "length"
    glued: bool = False
    axis: Axis | None = None


@dataclass(frozen=True)
class Loose:
    """A joint that no fastener goes through, and why not; it may be glued all the same."""

    through: str
    into: str
    why: str
    glued: bool = False
    along: Along = "width"
    axis: Axis | None = None


Hold: TypeAlias = Held | Loose


@dataclass(frozen=True)
class Away:
    """Which way pieces of one kind come away where a hive is taken apart, and by how many steps.

    Where no way is given it is the side that each piece is at; a piece in the middle stays.
    """

    kind: str
    way: Literal["front", "back", ""] = ""
    steps: float = 1.0


Layers: TypeAlias = tuple[tuple[Away, ...], ...]
"""What is lifted together when a component is taken apart, from below upwards."""

BRADS: Final = Every(6, 150, 2)
CORNER: Final = Every(3, 75, 3)

SLIDES: Final = "It slides in and out."
RESTS: Final = "It rests there by its weight."
FOAM: Final = "The foam is pressed in between what holds it."
TOUCHES: Final = "It only touches there."
OTHERS: Final = "Fasteners in the joints beside it hold both."
