"""Exact geometry against a float library (shapely, in tests only), closed forms and identities."""

import math
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, MultiPoint, Polygon, affinity

from hivecalc.space.meeting import contacts, contacts_between, gap, opening, overlap, overlaps
from hivecalc.space.roof import cosine, tilted
from hivecalc.space.solids import (
    Block,
    Profile,
    Solid,
    clipped,
    hull,
    profile_area,
    rectangle,
    shared_profile,
    size_of,
)

CLOSE = 1e-9
FEW = settings(max_examples=20)

sixteenths = st.integers(-160, 160).map(lambda n: Fraction(n, 16))
points = st.tuples(sixteenths, sixteenths)


def outline_of(corners: list[tuple[Fraction, Fraction]]) -> Profile:
    """Return the convex outline round some points, counter-clockwise, as shapely finds it."""
    exact = {(float(y), float(z)): (y, z) for y, z in corners}
    around = MultiPoint(list(exact)).convex_hull
    if not isinstance(around, Polygon) or around.area < 0.01:
        return ()
    ring = list(around.exterior.coords)[:-1]
    turned = ring if around.exterior.is_ccw else ring[::-1]
    return tuple(exact[corner] for corner in turned)


outlines = st.lists(points, min_size=3, max_size=7).map(outline_of).filter(bool)
blocks = st.builds(
    lambda x, width, profile: Block(x, x + abs(width) + 1, profile),
    sixteenths,
    sixteenths,
    outlines,
)


def solid(*of: Block, place: str = "") -> Solid:
    return Solid("box", "side", place, of)


def polygon(profile: Profile) -> Polygon:
    return Polygon([(float(y), float(z)) for y, z in profile])


def is_near(exact: Fraction, measured: float, within: float = CLOSE) -> bool:
    return math.isclose(float(exact), measured, rel_tol=within, abs_tol=within)


# ---- outlines, beside shapely (a second, independent way to compute it) ----


@FEW
@given(outlines)
def test_an_area_is_what_shapely_finds(profile):
    assert is_near(profile_area(profile), polygon(profile).area)


@FEW
@given(outlines, outlines)
def test_the_area_that_two_outlines_share_is_what_shapely_finds(a, b):
    shared = polygon(a).intersection(polygon(b)).area
    assert is_near(profile_area(shared_profile(a, b)), shared, 1e-7)
    assert bool(shared_profile(a, b)) or shared < CLOSE


@FEW
@given(outlines, outlines)
def test_sharing_is_the_same_both_ways(a, b):
    assert profile_area(shared_profile(a, b)) == profile_area(shared_profile(b, a))


@FEW
@given(outlines, points, points)
def test_a_cut_loses_nothing(profile, start, end):
    assume(start != end)
    left, right = clipped(profile, start, end), clipped(profile, end, start)
    assert profile_area(left) + profile_area(right) == profile_area(profile)


# ---- solids ----


@FEW
@given(blocks, blocks)
def test_shared_volume_is_length_times_shared_area(a, b):
    length = min(a.x1, b.x1) - max(a.x0, b.x0)
    area = polygon(a.profile).intersection(polygon(b.profile)).area
    found = overlap(solid(a), solid(b))
    shared = sum(block.volume for block in found.blocks) if found else Fraction(0)
    assert is_near(shared, max(float(length), 0) * area, 1e-6)


@FEW
@given(blocks, blocks)
def test_an_overlap_reaches_as_far_as_shapely_says(a, b):
    found = overlap(solid(a), solid(b))
    shared = polygon(a.profile).intersection(polygon(b.profile))
    if found and shared.area > 1e-6:
        low_y, low_z, high_y, high_z = shared.bounds
        x, y, z = size_of(hull(block.extents for block in found.blocks))
        assert is_near(y, high_y - low_y, 1e-6)
        assert is_near(z, high_z - low_z, 1e-6)
        assert x == min(a.x1, b.x1) - max(a.x0, b.x0)


@FEW
@given(outlines, outlines, st.sampled_from([("y", 1, 0), ("z", 0, 1)]))
def test_moved_by_the_gap_two_solids_touch_and_a_hair_more_makes_them_overlap(near, other, way):
    axis, dy, dz = way
    far = tuple((y + 30 * dy, z + 30 * dz) for y, z in other)
    found = gap(*(solid(Block(Fraction(0), Fraction(1), p)) for p in (near, far)), axis)

    def shared(closing: float) -> float:
        moved = affinity.translate(polygon(far), -closing * dy, -closing * dz)
        return polygon(near).intersection(moved).area

    if found is None:
        sides = [[p[1] if axis == "y" else p[0] for p in profile] for profile in (near, far)]
        assert max(map(min, sides)) >= min(map(max, sides))
    else:
        assert shared(float(found) - 1e-6) == 0
        assert shared(float(found) + 1e-3) > 0


@FEW
@given(blocks, blocks)
def test_solids_side_by_side_touch_where_their_outlines_overlap(a, b):
    beside = Block(a.x1, a.x1 + 1, b.profile)
    shared = polygon(a.profile).intersection(polygon(b.profile)).area
    areas = [c.area for c in contacts_between(solid(a), solid(beside)) if c.axis == "x"]
    assert is_near(sum(areas, Fraction(0)), shared, 1e-6)


@FEW
@given(blocks, st.integers(0, 6))
def test_solids_back_to_back_touch_along_their_common_edge(a, which):
    start, end = a.profile[which % len(a.profile)], a.profile[(which + 1) % len(a.profile)]
    along, out = (end[0] - start[0], end[1] - start[1]), (end[1] - start[1], start[0] - end[0])
    far = (start[0] + along[0] / 2 + out[0], start[1] + along[1] / 2 + out[1])
    behind = Block(a.x0, a.x1, (end, start, far))
    assert overlap(solid(a), solid(behind)) is None
    (touch,) = contacts_between(solid(a), solid(behind))
    shadow = LineString([[float(c) for c in start], [float(c) for c in end]]).bounds
    sizes = (shadow[2] - shadow[0], shadow[3] - shadow[1])
    assert touch.axis == ("z" if sizes[0] >= sizes[1] else "y")
    assert is_near(touch.area, float(a.x1 - a.x0) * max(sizes))


@FEW
@given(st.lists(blocks, min_size=2, max_size=5))
def test_all_pairs_are_looked_at(found):
    solids = [solid(block, place=str(n)) for n, block in enumerate(found)]
    pairs = [(a, b) for n, a in enumerate(solids) for b in solids[n + 1 :]]
    assert {(o.first.name, o.second.name) for o in overlaps(solids)} == {
        (a.name, b.name) for a, b in pairs if overlap(a, b)
    }
    assert len(contacts(solids)) == sum(len(list(contacts_between(a, b))) for a, b in pairs)


# ---- limits and closed forms ----

CUBE = rectangle((Fraction(0), Fraction(1)), (Fraction(0), Fraction(1)))


def cube(x: Fraction) -> Solid:
    return solid(Block(x, x + 1, CUBE), place=str(x))


@pytest.mark.parametrize(("x", "shared", "touching", "apart"), [
    (Fraction(0), 1, 0, None), (Fraction(15, 16), 1, 0, None), (Fraction(1), 0, 1, Fraction(0)),
    (Fraction(17, 16), 0, 0, Fraction(1, 16)),
])  # fmt: skip
def test_two_cubes_overlap_touch_or_stand_apart(x, shared, touching, apart):
    first, second = cube(Fraction(0)), cube(x)
    assert len(overlaps([first, second])) == shared
    assert [(c.axis, c.area) for c in contacts([first, second])] == [("x", 1)] * touching
    assert gap(first, second, "x") == gap(second, first, "x") == apart


def test_cubes_that_meet_at_an_edge_do_not_touch():
    high = rectangle((Fraction(1), Fraction(2)), (Fraction(1), Fraction(2)))
    other = solid(Block(Fraction(0), Fraction(1), high))
    assert contacts([cube(Fraction(0)), other]) == ()
    assert gap(cube(Fraction(0)), other, "z") is None


def test_a_solid_of_two_blocks_is_measured_at_its_nearest_block():
    far = rectangle((Fraction(0), Fraction(1)), (Fraction(1), Fraction(2)))
    step = solid(Block(Fraction(3), Fraction(9), CUBE), Block(Fraction(2), Fraction(9), far))
    tall = rectangle((Fraction(0), Fraction(1)), (Fraction(0), Fraction(2)))
    post = solid(Block(Fraction(0), Fraction(1), tall))
    assert gap(post, step, "x") == 1
    assert step.volume == 13
    assert step.extents == ((2, 9), (0, 1), (0, 2))


def test_a_wedge_closes_to_nothing_and_opens_to_its_height():
    wedge = ((Fraction(0), Fraction(0)), (Fraction(8), Fraction(0)), (Fraction(0), Fraction(1)))
    deck = rectangle((Fraction(0), Fraction(8)), (Fraction(1), Fraction(2)))
    one, two = (solid(Block(Fraction(0), Fraction(1), p)) for p in (wedge, deck))
    assert (gap(one, two, "z"), opening(one, two, "z", two.extents)) == (0, 1)
    x, _, z = two.extents
    assert opening(one, two, "z", (x, (Fraction(0), Fraction(4)), z)) == Fraction(1, 2)
    assert opening(one, two, "z", (x, (Fraction(9), Fraction(12)), z)) is None


slopes = st.fractions(min_value=0, max_value=1, max_denominator=500)


@FEW
@given(slopes)
def test_the_cosine_is_too_big_by_less_than_a_millionth(slope):
    squared = cosine(slope) ** 2 * (1 + slope**2)
    assert 1 <= squared < (1 + Fraction(1, 10**6)) ** 2


@FEW
@given(slopes, sixteenths.map(lambda n: abs(n) + 1), sixteenths.map(lambda n: abs(n) + 1))
def test_a_tilted_board_keeps_its_length_and_thickness(slope, length, thickness):
    corners = polygon(tilted(slope, (Fraction(3), Fraction(2)), length, thickness)).exterior.coords
    sides = [math.dist(a, b) for a, b in pairwise(corners)]
    expected = [float(length), float(thickness)] * 2
    assert all(math.isclose(a, b, rel_tol=1e-6) for a, b in zip(sides, expected, strict=True))
    falls = (corners[0][1] - corners[1][1]) / (corners[1][0] - corners[0][0])
    assert math.isclose(falls, float(slope), abs_tol=1e-9)
