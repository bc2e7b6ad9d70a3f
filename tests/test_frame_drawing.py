"""Rails that bow until the panel sticks, and a box or frame out of square: read back by hand."""

import re
import xml.etree.ElementTree as ET
from fractions import Fraction
from math import copysign

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from hivecalc.components import values
from hivecalc.drawing import Subject
from hivecalc.drawing.frame import bowed_rails as drawn_bowed
from hivecalc.drawing.frame import frame_from_above, gap_left, out_of_square
from hivecalc.hive import demo_hive
from hivecalc.length import MM, LengthError, Units
from tests.pictures import (
    NS,
    PX,
    assert_clear,
    box_of,
    corners,
    described,
    extent,
    hive_of,
    hives,
    in_bold,
    missing,
    parsed,
    parts,
    scaled,
    true_values,
    views,
    words,
)

BOWS = st.one_of(
    st.integers(0, 64).map(lambda n: Fraction(n, 64)),
    st.integers(0, 254).map(lambda n: n * MM / 10),
)
UNITS: tuple[Units, Units] = ("inch", "mm")


def bowed_rails(now: dict[str, Fraction], bow: Fraction, **more: object) -> str:
    return drawn_bowed(Subject(now, **more), bow)  # type: ignore[arg-type]


def marked(svg: str, name: str) -> list[tuple[ET.Element, float]]:
    """What is drawn under this name, or as a fault of this kind, with its scale."""
    found = ((e, scale) for e, scale in scaled(parsed(svg)))
    return [(e, s) for e, s in found if name in {e.get("data-name"), e.get("data-fault")}]


def assert_marked(svg: str, name: str, size: Fraction, least: int) -> None:
    """Everything of this name has this size, and is drawn to scale; there are at least so many."""
    found = marked(svg, name)
    assert len(found) >= least
    for element, scale in found:
        assert Fraction(element.attrib["data-exact"]) == size
        assert extent(element)[1] == pytest.approx(float(size) * scale, abs=PX)


# ── rails that bow ─────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    ("bow", "left"), [("0", "1/4"), ("1/16", "1/8"), ("1/8", "0"), ("5/32", "-1/16")]
)
def test_the_gap_left_by_hand(bow, left):
    # By hand: 17 3/8 - 2 x 1 1/2 = 14 3/8 opening; panel 14 3/8 - 1/4 = 14 1/8; each rail takes the
    # bow off the gap of 1/4, so both take it twice: 1/4 - 2/16 = 1/8; 1/4 - 2/8 = 0.
    assert gap_left(values(demo_hive()), Fraction(bow)) == Fraction(left)


@given(hives(), BOWS, st.sampled_from(UNITS))
@example(hive_of("8", "8"), Fraction(1), "inch")
@example(hive_of("48", "8"), Fraction(1, 16), "mm")
@example(hive_of("8", "48", panel_gap="1"), Fraction(3, 8), "inch")
@example(hive_of("48", "48", panel_gap="1/16"), Fraction(1, 64), "mm")
@settings(max_examples=40)
def test_any_hive_and_any_bow_is_drawn_clear_and_true(hive, bow, units):
    found = values(hive)
    svg = bowed_rails(found, bow, units=units, name=hive.name)
    assert_clear(svg)
    width = found["hive_width"] - 2 * found["stud_thickness"]
    left = hive.measurements["panel_gap"] - 2 * bow
    assert gap_left(found, bow) == left
    assert_marked(svg, "opening", width - 2 * bow, 1)
    assert_marked(svg, "panel", width - left - 2 * bow, 1)
    if bow:
        assert_marked(svg, "bow", bow, 2)
    if left:
        assert_marked(svg, "gap" if left > 0 else "overlap", abs(left) / 2, 2)
    assert bool(marked(svg, "overlap")) == (left < 0)
    assert ("sticks" in words(parsed(svg))) == (left <= 0)


def test_the_demo_hive_by_hand():
    # By hand: the gap of 1/4 less twice 1/16 is 1/8 in all, so 1/16 at each side; opening
    # 14 3/8 - 2/16 = 14 1/4; panel 14 1/8.
    root = parsed(bowed_rails(true_values(), Fraction(1, 16)))
    told = (
        "opening 14 1/4 in", "was 14 3/8 in", "panel 14 1/8 in",
        "1/8 in of gap is left in all, 1/16 in at each side.",
    )  # fmt: skip
    assert not missing((*told, "bows in 1/16 in", "gap 1/16 in"), words(root))
    assert not missing((*told, "each side rail bows in by 1/16 in"), described(root))


def test_a_gap_is_enlarged_until_it_is_seen_at_both_sides():
    svg = bowed_rails(true_values(), Fraction(0))
    seen = [extent(e)[1] for e, scale in marked(svg, "gap") if scale > 50]
    assert len(seen) == 2
    assert min(seen) >= 20  # units of a sheet 360 wide, so never under 17 px
    assert in_bold(parsed(svg)).endswith("Left side, enlarged Right side, enlarged")


def test_rails_grow_towards_the_panel_until_its_gap_is_used_up():
    # By hand: at 1/8 in each the gap of 1/4 is used up.
    svg = bowed_rails(true_values(), Fraction(1, 8))
    plan = next(views(parsed(svg)))
    bows = (box_of(e) for e in plan.iter() if e.get("data-name") == "bow")
    left, right = sorted(bows, key=lambda box: box.top)
    panel = box_of(parts(plan)["panel"])
    assert (left.bottom, right.top) == pytest.approx((panel.top, panel.bottom), abs=PX)
    told = in_bold(parsed(svg))
    assert not missing(("no gap: sticks", "the panel sticks. It does not go."), told)
    assert not marked(svg, "overlap") + marked(svg, "gap")


def test_sticking_is_told_without_colour():
    svg = bowed_rails(true_values(), Fraction(5, 32)).traced
    svg = re.sub(r"#0072B2|#D55E00", "#262626", svg)
    overlaps = [e for e, _ in marked(svg, "overlap")]
    assert len(overlaps) == 4  # two in the plan, one in each enlargement
    assert all("wrong" in e.attrib["fill"] for e in overlaps)
    # the rail itself shows its grain
    assert all("strip" in e.attrib["fill"] for e, _ in marked(svg, "bow"))
    told = in_bold(parsed(svg))
    assert not missing(("The gap is used up: the panel sticks.", "1/32 in too wide"), told)


@pytest.mark.parametrize("bow", [Fraction(-1, 64), Fraction(65, 64), Fraction(10**9)])
def test_a_bow_that_cannot_be_is_refused_in_one_sentence(bow):
    with pytest.raises(LengthError, match="give a bow from 0 to 1 in"):
        bowed_rails(true_values(), bow)


# ── a box out of square ────────────────────────────────────────────────────────────────────────

SIZE = st.integers(8 * 16, 48 * 16).map(lambda n: Fraction(n, 16))
LEAN = st.integers(-64, 64).map(lambda n: Fraction(n, 32))


def outlines(svg: str) -> list[list[tuple[float, float]]]:
    """The outlines in the picture, the square one first, then the crooked one if there is any."""
    return [corners(e) for e in parsed(svg).iter(f"{NS}polygon")]


@given(SIZE, SIZE, LEAN.filter(bool))
@settings(max_examples=50)
def test_any_box_leans_to_the_side_and_as_many_times_as_far_as_is_told(length, width, lean):
    svg = out_of_square(length, width, lean, name="<b>")
    assert_clear(svg)
    _, _, sheet, foot = map(float, parsed(svg).attrib["viewBox"].split())
    square, leaning = outlines(svg)
    assert all(0 < x < sheet and 0 < y < foot for x, y in (*square, *leaning))
    long, wide = square[1][0] - square[0][0], square[3][1] - square[0][1]
    assert long / wide == pytest.approx(float(length / width), rel=3e-3)  # drawn to a tenth
    moved, whole = leaning[1][1] - square[1][1], float(lean) * long / float(length)
    assert copysign(1, moved) == copysign(1, lean)
    assert ("to the right" in svg) == (lean > 0)
    assert (leaning[0], leaning[3]) == (square[0], square[3])
    told = re.search(r"drawn (\d+) times", svg)
    assert told or "true to scale" in svg
    rounded = 0.51 + 0.1 / abs(whole)  # to a whole one, and drawn to a tenth
    assert int(told[1] if told else 1) == pytest.approx(moved / whole, abs=rounded)


@pytest.mark.parametrize(("lean", "units", "told"), [
    ("0.049", "inch", "leans ≈ 1/16 in"), ("1/16", "inch", "leans 1/16 in"),
    ("0.246", "inch", "leans ≈ 1/4 in"), ("5/127", "mm", "leans 1 mm"),
])  # fmt: skip
def test_a_lean_that_is_rounded_says_so(lean, units, told):
    assert told in out_of_square(Fraction(23), Fraction(17), Fraction(lean), units=units)


@pytest.mark.parametrize(
    ("lean", "diagonal"), [("1/4", "left to back right"), ("-1/4", "right to back left")]
)
def test_the_longer_diagonal_is_named(lean, diagonal):
    assert f"from front {diagonal}" in out_of_square(Fraction(23), Fraction(17), Fraction(lean))


# ── a frame ───────────────────────────────────────────────────────────────────────────────────


def frame(*widths: str, lean: str = "0", right: str = "23") -> str:
    lengths = [Fraction(23), Fraction(right)]
    return frame_from_above(lengths, [Fraction(w) for w in widths], Fraction(lean))


def test_what_is_square_and_true_is_one_outline_and_a_box_says_so():
    box = out_of_square(Fraction(23), Fraction(17), Fraction(0))
    assert "A square box" in box
    assert len(outlines(box)) == len(outlines(frame("17", "17", "17"))) == 1


@pytest.mark.parametrize(("widths", "lean", "moved"), [
    (("17", "17", "17.25"), "0", {2: -1, 3: 1}), (("17", "17.25", "17"), "0", {1: -1, 4: 1}),
    (("17", "16.75", "17"), "0", {1: 1, 4: -1}),
    (("17", "17", "17"), "1/4", {1: 1, 2: 1, 3: 1, 4: 1}),
], ids=["tapered", "bellied", "waisted", "leaning"])  # fmt: skip
def test_taper_bow_and_lean_move_the_corners_that_they_move_in_wood(widths, lean, moved):
    """Corner by corner: front, middle and back at the left, then back, middle, front; down is +."""
    plain, crooked = outlines(frame(*widths, lean=lean))
    off = [b[1] - a[1] for a, b in zip(plain, crooked, strict=True)]
    assert {i: copysign(1, far) for i, far in enumerate(off) if abs(far) > 0.1} == moved


def test_a_side_that_is_longer_is_drawn_longer():
    plain, crooked = outlines(frame("17", "17", "17", right="23.25"))
    assert crooked[3][0] > plain[3][0]
    assert crooked[2][0] == plain[2][0]
