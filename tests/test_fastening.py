"""How the hive is held: each joint in one way, and the roof's screws where they should stand.

Rules: common practice, no published source, as the course's design has them. The second way to
compute is the plain loop in this file.
"""

import re
from fractions import Fraction
from itertools import pairwise
from math import sqrt
from textwrap import dedent

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hivecalc.components import built, values
from hivecalc.hive import Hive, changed, demo_hive, hive_from_text
from hivecalc.length import MM
from hivecalc.pages.workshop import joints as joints_told
from hivecalc.space import (
    HELD,
    SIDES,
    Each,
    Held,
    OnTheLine,
    assembled,
    fasteners,
    joints,
    matches,
    screw_row,
    solids,
)
from hivecalc.space.fastening import on_cover
from hivecalc.space.meeting import Every
from tests.hives import HIVES, inches

CLOSED = changed(demo_hive(), {"inner_notch": "0"})
BARE = changed(demo_hive(), {"inner_cover": "no"})
FLAT = changed(demo_hive(), {"rim_low_height": "3 1/2"})
BOXED = hive_from_text("[chosen]\nframes = 10")
EVERY = (demo_hive(), CLOSED, BARE, FLAT, BOXED)
LITTLE = Fraction(1, 1000)  # inches: the slope's cosine is a fraction near it


def sized(length: Fraction, width: Fraction, **more: str) -> Hive:
    sizes = {"hive_length": str(length), "hive_width": str(width)}
    return changed(demo_hive(), sizes | more)


@pytest.mark.parametrize("component", HELD)
def test_each_joint_is_of_pieces_that_are_there_and_held_in_one_way_and_no_way_is_idle(component):
    met = set()
    for hive in [hive for hive in EVERY if component in built(hive)]:
        there = {s.label for s in assembled(values(hive), component)}
        own = joints(values(hive), component)
        assert {label for *pair, _ in own for label in pair} <= there
        met |= set(own)
    for joint in met:
        assert len([w for w in HELD[component] if matches(w, joint)]) == 1, joint
    for way in HELD[component]:
        assert any(matches(way, joint) for joint in met), way


# One holds a piece in its place, two keep it from turning: common practice, no published source.
EACH = {
    ("side rail", "front rail"): 2, ("back rail", "side rail"): 1,
    ("landing board", "side rail"): 1, ("rim side", "rim front"): 2, ("rim side", "rim back"): 2,
    ("skirt end", "rim side"): 1, ("sheet", "channel side"): 1, ("sheet", "channel back"): 2,
}  # fmt: skip


def test_a_joint_too_short_for_a_row_has_one_fastener_or_two():
    held = [way for ways in HELD.values() for way in ways if isinstance(way, Held)]
    counted = {(w.through, w.into): w.count.count(Fraction(1), "inch") for w in held
               if isinstance(w.count, Each)}  # fmt: skip
    assert counted == EACH, "EACH holds, by hand, how many each joint held by `Each` takes"


@pytest.mark.parametrize("name", HIVES)
def test_each_screw_of_the_roof_stands_over_the_middle_of_a_rail(name):
    """In plan, from the solids: the middle of a rail, but for what the slope shortens."""
    sizes = values(hive_from_text(HIVES[name]))
    rails = {s.label: s.extents for s in solids(sizes, "roof")}
    shortened = sizes["roof.slope"] ** 2 * sizes["roof.cover_length"] / 4 + LITTLE
    lip, level = sizes["cover_lip"], 1 / sqrt(1 + sizes["roof.slope"] ** 2)
    for row in (screw_row(sizes, side) for side in SIDES):
        back = "back_" * (row.side == "back")
        at_sides = row.side in ("left", "right")
        cover = row.cover[1:-1] if at_sides else row.cover  # a corner's is over two rails
        places = [(at, sizes[f"roof.cover_{back}screw_line"]) for at in cover]
        places += [(at, sizes[f"roof.deck_{back}screw_line"] + lip) for at in row.deck]
        (x0, x1), (y0, y1), _ = rails[f"rim side, {row.side}" if at_sides else f"rim {row.side}"]
        for across, along in (on_cover(sizes, row.side, at, line) for at, line in places):
            x = sizes["hive_width"] / 2 + across - sizes["roof.cover_width"] / 2
            y = sizes["hive_length"] / 2 + (along - sizes["roof.cover_length"] / 2) * level
            if at_sides:
                assert x == (x0 + x1) / 2
                assert y0 < y < y1
            else:
                assert abs(y - (y0 + y1) / 2) <= shortened


lengths = st.fractions(10, 44, max_denominator=16)


@settings(max_examples=40)
@given(lengths, lengths, st.sampled_from(["5", "8", "11"]), st.sampled_from(["2", "3", "4"]))
def test_screws_keep_their_spacing_and_their_distance(length, width, spacing, offset):
    sizes = values(sized(length, width, screw_spacing=spacing, screw_offset=offset))
    for side in SIDES:
        row = screw_row(sizes, side)
        space = row.cover[1] - row.cover[0]
        assert len(row.deck) >= 3
        assert all(b - a == space <= int(spacing) for a, b in pairwise(row.cover))
        assert all(b - a <= int(spacing) for a, b in pairwise(row.deck))
        nearest = [min(abs(d - c) for c in row.cover) for d in row.deck]
        fewest = -(-3 // (len(row.cover) - 1))  # deck screws in each space
        assert min(nearest) >= min(int(offset), space / (fewest + 1))
        ends = row.length, 2 * sum(row.cover) / len(row.cover), 2 * sum(row.deck) / len(row.deck)
        if side in ("front", "back"):
            assert ends == (row.length,) * 3  # the same from both ends: one strip of paper


def test_the_usual_hive_by_hand():
    """A hive of 22 1/2 by 16: rim 23 by 16 1/2, deck 26 1/2 by 20, cover 27 1/2 by 21.

    Screw line 3 in from the cover's edge (2 overhang - 1/4 + 3/4 half a stud + 1/2 lip), 2 3/4 at
    the back, whose rail is 1 in thick. So it is 15 by 21 3/4: two spaces of 7 1/2 across, four of
    5 7/16 along. Two deck screws in each space across, 2 1/2 from the cover's; one in each along,
    2 23/32 from the corner's, where 3 would pass the middle.
    """
    sizes = values(sized(Fraction(45, 2), Fraction(16)))
    front, back, left = (screw_row(sizes, side) for side in ("front", "back", "left"))
    assert front.cover == (3, Fraction(21, 2), 18)
    assert front.deck == (Fraction(11, 2), 8, 13, Fraction(31, 2))
    assert (front.line, back.line, left.line) == (3, Fraction(11, 4), 3)
    assert left.cover == tuple(3 + Fraction(87, 16) * i for i in range(5))
    assert left.deck == tuple(3 + Fraction(87, 16) * (i + Fraction(1, 2)) for i in range(4))
    counts = dict.fromkeys(("cover_screw", "deck_screw"), 0)
    for joint in joints(sizes, "roof"):
        (way,) = (way for way in HELD["roof"] if matches(way, joint))
        if isinstance(way, Held) and way.item in counts:
            counts[way.item] += fasteners(way, joint, Fraction(0), sizes, "inch")
    assert counts == {"cover_screw": 12, "deck_screw": 16}


def test_fasteners_of_one_joint_by_hand():
    """Brads every 6 in and two at least, corner screws every 3 in and three at least, two a frame.

    In mm every 150 mm and every 75 mm. Common practice, no published source.
    """
    rail, _ = HELD["bottom_board"][:2]
    brads = next(w for w in HELD["bottom_board"] if w.through == "lower side runner")
    corner = HELD["box"][0]
    for way, run, count in (
        (brads, "18", 3), (brads, "18 1/8", 4), (brads, "3", 2),
        (corner, "9", 3), (corner, "9 1/8", 4), (corner, "4", 3), (rail, "3 1/2", 2),
    ):  # fmt: skip
        assert isinstance(way, Held)
        assert not isinstance(way.count, OnTheLine)
        assert way.count.count(inches(run), "inch") == count
    for way, mm, count in ((brads, 450, 3), (brads, 451, 4), (corner, 225, 3), (corner, 226, 4)):
        assert isinstance(way.count, Every)
        assert way.count.count(mm * MM, "mm") == count
        assert "≈" not in way.count.words(mm * MM, "mm")


@pytest.mark.parametrize(("name", "unit"), [("orchard", "in"), ("metric", "m")])
def test_a_lesson_tells_small_goods_apart_by_size_and_glue_in_the_hives_unit(name, unit):
    in_all = re.findall("<p>(.*?)</p>", joints_told(hive_from_text(dedent(HIVES[name]))))[0]
    sizes = re.findall(r"\d+ brads( of [^,]+|)", in_all)
    assert len(sizes) == 4
    assert all(sizes)
    assert re.search(rf"glue for [\d.]+ {unit} of joint", in_all)
