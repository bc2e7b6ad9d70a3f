"""Drawings of the saw: true to scale, labels clear from the smallest to the largest."""

from collections import Counter
from fractions import Fraction
from functools import cache
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hivecalc.drawing.saw import fence_and_kerf, stud_section, taper_drawing, tilted_blade
from hivecalc.hive import demo_hive, hive_from_text
from hivecalc.length import MM
from hivecalc.workshop import demo_yard, plan
from hivecalc.workshop.settings import Bevel, Taper, landing_bevel, taper
from hivecalc.workshop.strips import CrossSection, Rip, cross_section
from tests.hives import HIVES, inches
from tests.pictures import (
    NS,
    PX,
    assert_clear,
    assert_true,
    box_of,
    corners,
    extent,
    missing,
    parsed,
    parts,
    views,
    words,
)

UNITS = st.sampled_from(["inch", "mm"])
KERFS = st.sampled_from([Fraction(0), Fraction(3, 32), Fraction(1, 8), Fraction(1, 4), 3 * MM])


@cache
def sizes(low: int, high: int) -> st.SearchStrategy[Fraction]:
    """Sixteenths from low to high inches, and odd thousandths of a millimetre."""
    sixteenths = st.integers(low * 16, high * 16).map(lambda n: Fraction(n, 16))
    metric = st.integers(low * 26, high * 25).map(lambda n: n * MM + MM / 7)
    return st.one_of(sixteenths, metric)


@st.composite
def sections(draw: st.DrawFn) -> CrossSection:
    thin, wide = sorted((draw(sizes(0, 1)) + Fraction(1, 4), draw(sizes(0, 2)) + Fraction(3, 8)))
    stud = draw(sizes(1, 2)), draw(sizes(2, 7))
    return cross_section(*stud, thin, wide, draw(KERFS))


# ── the stud's cross-section ───────────────────────────────────────────────────────────────────


@given(sections(), UNITS)
@settings(max_examples=50)
def test_any_section_is_drawn_clear_and_true(cut, units):
    svg = stud_section(cut, units=units, name="Orchard hive")
    assert_clear(svg)
    assert assert_true(svg)
    root = parsed(svg)
    scale = float(root.attrib["data-scale"])
    drawn = Counter[str]()
    for element in root.iter(f"{NS}polygon"):
        wide, high = extent(element)
        drawn[element.get("data-part", "").removeprefix("narrow ")] += wide * high / scale**2
    for part in ("strip", "kerf", "rest"):
        area = float(sum(place.wide * place.high for place in cut.places[part]))
        assert drawn[part] == pytest.approx(area, rel=0.05, abs=0.05)


def test_the_demo_studs_strips_lie_where_they_are_cut():
    # By hand, where 1/2 in may run at the fence: slices of 3/4 begin at 0, 7/8, 1 3/4 and 2 5/8;
    # strips of 1/2 at 0 and 5/8.
    sizes = map(inches, ("1 1/2", "3 1/2", "1/2", "3/4", "1/8"))
    cut = cross_section(*sizes, least_fence=Fraction(1, 2))
    root = parsed(stud_section(cut))
    scale = float(root.attrib["data-scale"])
    strips = [box_of(e) for e in root.iter(f"{NS}polygon") if e.get("data-part") == "strip"]
    left, foot = min(s.left for s in strips), max(s.bottom for s in strips)
    found = {(round((s.left - left) / scale, 3), round((foot - s.bottom) / scale, 3))
             for s in strips}  # fmt: skip
    assert found == set(product((0, 0.875, 1.75, 2.625), (0, 0.625)))
    assert "gives 8 strips of 1/2 in by 3/4 in" in words(root)


@pytest.mark.parametrize(("least", "crossed_out"), [("3/4", 3), ("1/2", 4)])
def test_a_rest_too_narrow_to_hold_is_crossed_out_and_said(least, crossed_out):
    stud = map(inches, ("1 1/2", "3 1/2", "1/2", "3/4", "1/8"))
    root = parsed(stud_section(cross_section(*stud, least_fence=inches(least))))
    narrow = [e for e in root.iter(f"{NS}polygon") if e.get("data-part") == "narrow rest"]
    assert len(narrow) == crossed_out
    assert all("wrong" in e.attrib["fill"] for e in narrow)
    never = f"Never cut a rest on the saw that is less than {least} in wide"
    assert not missing(("Crossed out", never), words(root))
    wide = cross_section(*map(inches, ("1 1/2", "3 1/2", "1 1/2", "2 1/2", "1/8")))
    svg = stud_section(wide).traced
    assert len(missing(("narrow rest", "Crossed out", "Never"), svg)) == 3


def test_every_blank_of_a_hive_is_drawn():
    hive = hive_from_text(HIVES["eight-frame"])
    studs = [b.section for b in plan([hive], demo_yard()).blanks if b.section.thickness > 1]
    assert studs
    for stud in dict.fromkeys(studs):
        assert_clear(stud_section(stud, units=hive.units, name=hive.name))


# ── fence and blade ────────────────────────────────────────────────────────────────────────────


@st.composite
def rips(draw: st.DrawFn) -> tuple[Rip, Fraction, Fraction]:
    before, high, kerf = draw(sizes(1, 15)), draw(sizes(0, 3)) + Fraction(1, 4), draw(KERFS)
    fence = before * draw(st.integers(1, 19)) / 20
    off = max(before - fence - kerf, Fraction(0))
    return Rip(fence, before, off, draw(st.booleans())), high, kerf


@st.composite
def bevels(draw: st.DrawFn) -> tuple[Bevel, Fraction, Fraction]:
    upper, thickness = draw(sizes(1, 7)), draw(sizes(0, 2)) + Fraction(1, 4)
    slope = min(Fraction(draw(st.integers(0, 100)), 100), upper / thickness / 2)
    bevel = Bevel(thickness, upper, slope)
    return bevel, fence_of(bevel), draw(KERFS)


@st.composite
def tapers(draw: st.DrawFn) -> tuple[Taper]:
    high = draw(sizes(2, 7))
    low = max(high * draw(st.integers(1, 19)) / 20, Fraction(1, 2))
    return (Taper(draw(sizes(8, 49)), high, low),)


DRAWN = {fence_and_kerf: rips(), tilted_blade: bevels(), taper_drawing: tapers()}


@pytest.mark.parametrize("picture", DRAWN)
@given(st.data(), UNITS)
@settings(max_examples=40)
def test_any_rip_bevel_and_taper_is_drawn_clear_and_true(picture, data, units):
    svg = picture(*data.draw(DRAWN[picture]), units=units, name="Orchard hive")
    assert_clear(svg)
    assert assert_true(svg)


def test_the_kerf_lies_on_the_side_of_what_falls_off():
    # By hand: 2 3/4 from the fence, then 1/8 of blade, then 5/8 of 3 1/2.
    rip = Rip(inches("2 3/4"), inches("3 1/2"), inches("5/8"), keeps=False)
    root = parsed(fence_and_kerf(rip, inches("1 1/2"), Fraction(1, 8)))
    scale = float(root.attrib["data-scale"])
    shapes = {part: box_of(e) for part, e in parts(root).items()}
    start = shapes["fence"].right
    places = {p: tuple(round((x - start) / scale, 3) for x in (b.left, b.right))
              for p, b in shapes.items()}  # fmt: skip
    assert places["stays"] == (0, 2.75)
    assert places["blade"] == (2.75, 2.875)
    assert places["falls"] == (2.875, 3.5)
    assert "kept" in words(root)


def fence_of(bevel: Bevel) -> Fraction:
    """Where the blade comes out of the table: the tilt takes its part of the thickness."""
    return bevel.upper - bevel.thickness * bevel.slope


ROOF = Bevel(Fraction(3, 2), Fraction(7, 2), Fraction(16, 189))


@pytest.mark.parametrize("bevel", [landing_bevel(demo_hive()), ROOF])
def test_a_tilted_blade_leaves_the_upper_face_whole(bevel):
    root = parsed(tilted_blade(bevel, fence_of(bevel), Fraction(1, 8)))
    scale = float(root.attrib["data-scale"])
    stays = corners(parts(root)["stays"])
    ends = max(y for _, y in stays), min(y for _, y in stays)
    for level, size in zip(ends, (fence_of(bevel), bevel.upper), strict=True):
        xs = [x for x, y in stays if abs(y - level) < PX]
        assert max(xs) - min(xs) == pytest.approx(float(size) * scale, abs=PX)


# ── the taper ──────────────────────────────────────────────────────────────────────────────────


def test_the_taper_is_drawn_with_its_two_heights():
    svg = taper_drawing(taper(demo_hive()))
    assert assert_true(svg) == {
        "roof.rim_side_length": inches("23 5/8"), "stud_width": inches("3 1/2"),
        "rim_low_height": inches("1 1/2"),
    }  # fmt: skip
    whole = next(g for g in views(parsed(svg)) if g.get("data-view") == "whole")
    (cut,) = (corners(e) for e in whole.iter(f"{NS}line") if e.get("data-part") == "cut")
    scale = float(whole.attrib["data-scale"])
    (x0, y0), (x1, y1) = cut
    assert ((x1 - x0) / scale, (y1 - y0) / scale) == pytest.approx((23.625, 2), abs=PX / scale)
