"""Pieces in space as one sees them from the front, the right and above.

Length, width and height are all drawn to one scale: a line along any of them is as long on the
sheet as it is in wood, times the scale. The hive's front looks to the lower left, its right side to
the lower right. The roof falls to the back by less than what one looks down at it, so every upper
face is seen.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import cos, radians, sin
from typing import Literal, TypeAlias

from hivecalc.drawing.layout import Box, Point
from hivecalc.space import Block, Solid

Place: TypeAlias = tuple[float, float, float]
Side: TypeAlias = Literal["top", "front", "right"]

FLAT = radians(25)  # how much lines to the right and to the back rise or fall on the sheet
ACROSS, RISE = cos(FLAT), sin(FLAT)
TOUCH = 1e-6  # inches: what is nearer than this touches


@dataclass(frozen=True)
class Projection:
    """How a place in the hive, in inches, comes to a place on the sheet."""

    left: float
    top: float
    scale: float

    def at(self, place: Place) -> Point:
        """Where on the sheet a place is seen."""
        x, y, z = place
        across, down = (x + y) * ACROSS, (x - y) * RISE - z
        return self.left + across * self.scale, self.top + down * self.scale


@dataclass(frozen=True)
class Face:
    """A face of a piece that is seen: which side of it, and its corners in the hive.

    An edge is a seam where another block of the same piece goes on.
    """

    solid: Solid
    side: Side
    corners: tuple[Place, ...]
    seams: tuple[bool, ...]


@dataclass(frozen=True)
class Shape:
    """One block of a piece, lifted by so much, in floats."""

    solid: Solid
    block: Block
    lift: float = 0.0

    @cached_property
    def x(self) -> Point:
        """From where to where it reaches across the hive."""
        return float(self.block.x0), float(self.block.x1)

    @cached_property
    def profile(self) -> list[Point]:
        """Its outline from the side."""
        return [(float(y), float(z) + self.lift) for y, z in self.block.profile]

    @cached_property
    def y(self) -> Point:
        """From where to where it reaches along the hive."""
        ys = [y for y, _ in self.profile]
        return min(ys), max(ys)

    @cached_property
    def z(self) -> Point:
        """From where to where it reaches in height."""
        zs = [z for _, z in self.profile]
        return min(zs), max(zs)

    def is_before(self, other: "Shape") -> bool:
        """Whether this one is drawn before the other: it lies behind it or below it for sure."""
        return (
            self.x[1] <= other.x[0] + TOUCH
            or self.y[0] >= other.y[1] - TOUCH
            or self.z[1] <= other.z[0] + TOUCH
        )

    def holds(self, place: Place) -> bool:
        """Whether a place lies in this block or on its surface."""
        x, y, z = place
        return self.x[0] - TOUCH <= x <= self.x[1] + TOUCH and all(
            (y1 - y0) * (z - z0) - (z1 - z0) * (y - y0) >= -TOUCH
            for (y0, z0), (y1, z1) in _edges(self.profile)
        )


def _edges(profile: Sequence[Point]) -> Iterator[tuple[Point, Point]]:
    return zip(profile, (*profile[1:], profile[0]), strict=True)


def shapes(solid: Solid, lift: float = 0.0) -> list[Shape]:
    """The blocks of a piece, lifted by so much.

    >>> from fractions import Fraction
    >>> from hivecalc.space.solids import rectangle
    >>> unit = (Fraction(0), Fraction(1))
    >>> strip = Solid("box", "end", "front", (Block(*unit, rectangle(unit, unit)),))
    >>> shapes(strip, 2.0)[0].z
    (2.0, 3.0)
    """
    return [Shape(solid, block, lift) for block in solid.blocks]


def faces(shape: Shape, others: Iterable[Shape] = ()) -> list[Face]:
    """The faces of a block that are seen; `others` are the other blocks of the same piece.

    >>> from fractions import Fraction
    >>> from hivecalc.space.solids import rectangle
    >>> unit = (Fraction(0), Fraction(1))
    >>> strip = Solid("box", "end", "front", (Block(*unit, rectangle(unit, unit)),))
    >>> [face.side for face in faces(shapes(strip)[0])]
    ['front', 'top', 'right']
    """
    (x0, x1), rest = shape.x, tuple(others)
    found = []
    for (y0, z0), (y1, z1) in _edges(shape.profile):
        rise, run = z1 - z0, y1 - y0
        if -rise - 2 * RISE * run > TOUCH:
            side: Side = "front" if -rise > -run else "top"
            found.append((side, ((x0, y1, z1), (x0, y0, z0), (x1, y0, z0), (x1, y1, z1))))
    cap = tuple((x1, y, z) for y, z in shape.profile)
    found.sort(key=lambda entry: entry[0])
    return [_face(shape, side, corners, rest) for side, corners in (*found, ("right", cap))]


def _face(shape: Shape, side: Side, corners: tuple[Place, ...], others: Sequence[Shape]) -> Face:
    ring = zip(corners, (*corners[1:], corners[0]), strict=True)
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2) for a, b in ring]
    seams = tuple(any(other.holds(middle) for other in others) for middle in middles)
    return Face(shape.solid, side, corners, seams)


def in_order(blocks: Sequence[Shape]) -> list[Shape]:
    """Blocks in the order in which they are drawn: what lies behind or below comes first.

    >>> from fractions import Fraction
    >>> from hivecalc.space.solids import rectangle
    >>> unit = (Fraction(0), Fraction(1))
    >>> strip = Solid("box", "end", "front", (Block(*unit, rectangle(unit, unit)),))
    >>> high, low = shapes(strip, 2.0) + shapes(strip)
    >>> [shape.lift for shape in in_order([high, low])]
    [0.0, 2.0]
    """
    left, found = list(blocks), []
    while left:
        first = next((b for b in left if not _waits(b, left)), left[0])
        left.remove(first)
        found.append(first)
    return found


def _waits(block: Shape, others: Iterable[Shape]) -> bool:
    """Whether some other block has to be drawn before this one."""
    return any(
        other is not block and other.is_before(block) and not block.is_before(other)
        for other in others
    )


def covers(points: Sequence[Point], place: Point) -> bool:
    """Whether a convex outline on the sheet has a place in it.

    >>> square = [(0, 0), (2, 0), (2, 2), (0, 2)]
    >>> covers(square, (1, 1)), covers(square, (3, 1))
    (True, False)
    """
    turns = [
        (x1 - x0) * (place[1] - y0) - (y1 - y0) * (place[0] - x0)
        for (x0, y0), (x1, y1) in _edges(points)
    ]
    return all(t >= 0 for t in turns) or all(t <= 0 for t in turns)


def bounds(points: Iterable[Point]) -> Box:
    """The rectangle on the sheet that holds these places.

    >>> bounds([(0, 5), (2, 1)])
    Box(left=0, top=1, right=2, bottom=5)
    """
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))
