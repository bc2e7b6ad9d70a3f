"""Outlines in the y-z plane, and intervals: what they share, how far apart they are.

An outline is convex, its corners in counter-clockwise order; a corner is a pair of y and z. All is
exact: coordinates are Fractions of an inch.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import reduce
from math import lcm
from typing import TypeAlias, TypeVar

from hivecalc.length import Length

Interval: TypeAlias = tuple[Length, Length]
Point: TypeAlias = tuple[Length, Length]
Profile: TypeAlias = tuple[Point, ...]
Edge: TypeAlias = tuple[Point, Point]
GridPoint: TypeAlias = tuple[int, int]
GridProfile: TypeAlias = tuple[GridPoint, ...]
N = TypeVar("N", int, Fraction)
P = TypeVar("P")

NOTHING = Fraction(0)


def rectangle(y: Interval, z: Interval) -> Profile:
    """The outline of a rectangle in the y-z plane, corners in counter-clockwise order.

    >>> rectangle((0, 2), (0, 1))
    ((0, 0), (2, 0), (2, 1), (0, 1))
    """
    (y0, y1), (z0, z1) = y, z
    return ((y0, z0), (y1, z0), (y1, z1), (y0, z1))


def profile_area(profile: Profile) -> Length:
    """The area inside a convex outline, in square inches.

    >>> profile_area(((0, 0), (2, 0), (2, 1), (0, 1)))
    Fraction(2, 1)
    """
    turns = (p[0] * q[1] - q[0] * p[1] for p, q in _edges(profile))
    return sum(turns, NOTHING) / 2


def clipped(profile: Profile, start: Point, end: Point) -> Profile:
    """What is left of a convex outline on the left hand of the line from start to end.

    >>> left = clipped(rectangle((0, 2), (0, 1)), (1, 0), (1, 1))
    >>> [(float(y), float(z)) for y, z in left]
    [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]
    """
    kept: list[Point] = []
    sides = [_side(p, start, end) for p in profile]
    for i, here in enumerate(profile):
        before = i - 1
        if sides[before] * sides[i] < 0:
            kept.append(_crossing(profile[before], here, sides[before], sides[i]))
        if sides[i] >= 0:
            kept.append(here)
    return tuple(kept)


def shared_profile(first: Profile, second: Profile) -> Profile:
    """The outline of what two convex outlines share; empty where they share no area.

    >>> profile_area(shared_profile(rectangle((0, 2), (0, 2)), rectangle((1, 3), (1, 3))))
    Fraction(1, 1)
    """
    a, b, grid = _on_one_grid(first, second)
    if _apart_in_outline(a, b):
        return ()
    start, cutter = (tuple((Fraction(y), Fraction(z)) for y, z in steps) for steps in (a, b))
    kept = reduce(lambda left, edge: clipped(left, *edge), _edges(cutter), start)
    return tuple((y / grid, z / grid) for y, z in kept)


def _on_one_grid(first: Profile, second: Profile) -> tuple[GridProfile, GridProfile, int]:
    """Two outlines in whole numbers of one small step, and how many of it make an inch.

    Nothing is rounded: the step divides every coordinate. Whole numbers are quicker by far.
    """
    grid = lcm(*(c.denominator for point in (*first, *second) for c in point))
    a, b = (
        tuple((_steps(y, grid), _steps(z, grid)) for y, z in profile) for profile in (first, second)
    )
    return a, b, grid


def _steps(value: Length, grid: int) -> int:
    return value.numerator * (grid // value.denominator)


def _apart_in_outline(first: GridProfile, second: GridProfile) -> bool:
    """Whether some edge of one outline has the whole of the other on its outer side."""
    return any(
        all(_side(p, *edge) <= 0 for p in other)
        for one, other in ((first, second), (second, first))
        for edge in _edges(one)
    )


def _edges(profile: tuple[P, ...]) -> Iterator[tuple[P, P]]:
    return zip(profile, (*profile[1:], *profile[:1]), strict=True)


def _side(point: tuple[N, N], start: tuple[N, N], end: tuple[N, N]) -> N:
    """More than nothing left of the line, less than nothing right of it."""
    (y, z), (y0, z0), (y1, z1) = point, start, end
    return (y1 - y0) * (z - z0) - (z1 - z0) * (y - y0)


def _crossing(a: Point, b: Point, side_a: Length, side_b: Length) -> Point:
    share = Fraction(side_a) / (side_a - side_b)
    return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)


def edges_in_line(first: Profile, second: Profile) -> Iterator[tuple[Edge, Edge]]:
    """The pairs of edges of two outlines that lie on one line and look at one another.

    >>> one, two = rectangle((0, 1), (0, 1)), rectangle((1, 2), (0, 9))
    >>> list(edges_in_line(one, two))
    [(((1, 0), (1, 1)), ((1, 9), (1, 0)))]
    """
    a, b, _ = _on_one_grid(first, second)
    for edge, steps in zip(_edges(first), _edges(a), strict=True):
        for other, other_steps in zip(_edges(second), _edges(b), strict=True):
            on_line = not any(_side(p, *steps) for p in other_steps)
            if on_line and _against(steps, other_steps):
                yield edge, other


def _against(edge: tuple[GridPoint, GridPoint], other: tuple[GridPoint, GridPoint]) -> bool:
    """Whether two edges run in opposite directions, as the faces of two touching blocks do."""
    (start, end), (other_start, other_end) = edge, other
    return sum((end[i] - start[i]) * (other_end[i] - other_start[i]) for i in (0, 1)) < 0


def ordered(a: Length, b: Length) -> Interval:
    """The interval between two lengths, whichever comes first.

    >>> ordered(3, 1)
    (1, 3)
    """
    return (a, b) if a <= b else (b, a)


def on_edge(edge: Edge, i: int, at: Length) -> Length:
    """The other coordinate of the edge's line where its coordinate i is `at`.

    >>> float(on_edge(((0, 0), (8, 2)), 0, 4))
    1.0
    """
    (start, end), j = edge, 1 - i
    return start[j] + (end[j] - start[j]) * Fraction(at - start[i]) / (end[i] - start[i])


def shared_interval(first: Interval, second: Interval) -> Interval | None:
    """What two intervals share, None where that is no more than a point.

    >>> shared_interval((0, 5), (3, 9)), shared_interval((0, 3), (3, 9))
    ((3, 5), None)
    """
    low, high = max(first[0], second[0]), min(first[1], second[1])
    return (low, high) if low < high else None


def intervals_meet(first: Interval, second: Interval) -> bool:
    """Whether two intervals share more than a point.

    >>> intervals_meet((0, 3), (3, 9))
    False
    """
    return first[0] < second[1] and second[0] < first[1]


def profile_distances(first: Profile, second: Profile, i: int) -> Interval:
    """The least and widest distance of two outlines along y (1) or z (2), where shadows meet.

    The distance bends only at corners, so it is least and widest at a corner or where the shadows
    end. It is less than nothing where the outlines overlap.

    >>> profile_distances(((0, 0), (8, 0), (0, 1)), rectangle((0, 8), (1, 2)), 2)
    (0, 1)
    """
    across, along = 2 - i, i - 1
    shadows = (held([(p[across], p[across]) for p in profile]) for profile in (first, second))
    low, high = shared_interval(*shadows) or (NOTHING, NOTHING)
    places = {low, high, *(p[across] for p in (*first, *second) if low < p[across] < high)}
    spans = [(span(first, along, at), span(second, along, at)) for at in places]
    ahead = [b[0] - a[1] for a, b in spans]
    behind = [a[0] - b[1] for a, b in spans]
    nearest = max(ahead, behind, key=min)
    return (min(nearest), max(nearest))


def span(profile: Profile, along: int, at: Length) -> Interval:
    """How low and how high an outline reaches along y (0) or z (1), where the other is `at`.

    >>> [float(z) for z in span(((0, 0), (8, 0), (0, 1)), 1, 4)]
    [0.0, 0.5]
    """
    found: list[Length] = []
    for start, end in _edges(profile):
        a, b = start[1 - along], end[1 - along]
        if a == at:
            found.append(start[along])
        elif min(a, b) < at < max(a, b):
            found.append(on_edge((start, end), 1 - along, at))
    return min(found), max(found)


def held(intervals: Sequence[Interval]) -> Interval:
    """The interval that holds all of these.

    >>> held([(0, 3), (2, 9)])
    (0, 9)
    """
    if len(intervals) == 1:
        return intervals[0]
    return (min(i[0] for i in intervals), max(i[1] for i in intervals))
