"""The picture of a leaning box: what it says and draws, read back from its SVG."""

import math
import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hivecalc.drawing.frame import frame_from_above, out_of_square
from tests.pictures import parsed

SVG = "{http://www.w3.org/2000/svg}"
SIZE = st.integers(8 * 16, 48 * 16).map(lambda n: Fraction(n, 16))
LEAN = st.integers(-64, 64).map(lambda n: Fraction(n, 32))


def corners(svg: str) -> list[list[tuple[float, float]]]:
    """The outlines in the picture, the square one first, then the leaning one if there is any."""
    outlines = parsed(svg).iter(f"{SVG}polygon")
    return [
        [tuple(map(float, xy.split(","))) for xy in p.attrib["points"].split()] for p in outlines
    ]


def test_a_square_box_is_one_outline_and_says_so():
    drawn = out_of_square(Fraction(23), Fraction(17), Fraction(0))
    assert len(corners(drawn)) == 1
    assert "A square box" in drawn


@given(SIZE, SIZE, LEAN.filter(bool))
def test_the_leaning_outline_leans_to_the_side_that_is_told(length, width, lean):
    svg = out_of_square(length, width, lean)
    square, leaning = corners(svg)
    moved = leaning[1][1] - square[1][1]
    assert math.copysign(1, moved) == math.copysign(1, lean)
    assert ("to the right" in svg) == (lean > 0)
    assert leaning[0] == square[0]
    assert leaning[3] == square[3]


@given(SIZE, SIZE, LEAN.filter(bool))
def test_the_sides_are_to_one_scale_and_the_lean_as_many_times_larger_as_told(length, width, lean):
    svg = out_of_square(length, width, lean)
    square, leaning = corners(svg)
    long, wide = square[1][0] - square[0][0], square[3][1] - square[0][1]
    assert long / wide == pytest.approx(float(length / width), rel=3e-3)  # drawn to a tenth
    whole = float(lean) * long / float(length)
    times = (leaning[1][1] - square[1][1]) / whole
    told = re.search(r"drawn (\d+) times", svg)
    assert told or "true to scale" in svg
    rounded = 0.51 + 0.1 / abs(whole)  # to a whole one, and drawn to a tenth
    assert int(told[1] if told else 1) == pytest.approx(times, abs=rounded)


@pytest.mark.parametrize(
    ("lean", "diagonal"), [("1/4", "left to back right"), ("-1/4", "right to back left")]
)
def test_the_longer_diagonal_is_named(lean, diagonal):
    assert f"from front {diagonal}" in out_of_square(Fraction(23), Fraction(17), Fraction(lean))


@given(SIZE, SIZE, LEAN)
def test_nothing_is_drawn_beyond_the_sheet(length, width, lean):
    svg = out_of_square(length, width, lean)
    root = parsed(svg)
    _, _, wide, high = map(float, root.attrib["viewBox"].split())
    for outline in corners(svg):
        assert all(0 < x < wide and 0 < y < high for x, y in outline)


# ── a frame ───────────────────────────────────────────────────────────────────────────────────

TWENTY_THREE = [Fraction(23), Fraction(23)]


def frame(*widths: str, lengths=TWENTY_THREE, lean="0") -> str:
    return frame_from_above(lengths, [Fraction(w) for w in widths], Fraction(lean))


def test_a_frame_that_is_true_is_one_outline():
    assert len(corners(frame("17", "17", "17"))) == 1


@pytest.mark.parametrize(
    ("widths", "lean", "moved"),
    [
        (("17", "17", "17+1/4"), "0", {2: -1, 3: 1}),
        (("17", "17+1/4", "17"), "0", {1: -1, 4: 1}),
        (("17", "16+3/4", "17"), "0", {1: 1, 4: -1}),
        (("17", "17", "17"), "1/4", {1: 1, 2: 1, 3: 1, 4: 1}),
    ],
    ids=["tapered", "bellied", "waisted", "leaning"],
)
def test_taper_bow_and_lean_move_the_corners_that_they_move_in_wood(widths, lean, moved):
    """Corner by corner: front, middle and back at the left, then back, middle, front; down is +."""
    read = [sum(map(Fraction, w.split("+")), Fraction(0)) for w in widths]
    plain, crooked = corners(frame_from_above(TWENTY_THREE, read, Fraction(lean)))
    found = {
        i: math.copysign(1, b[1] - a[1])
        for i, (a, b) in enumerate(zip(plain, crooked, strict=True))
        if abs(b[1] - a[1]) > 0.1
    }
    assert found == moved


def test_a_side_that_is_longer_is_drawn_longer():
    plain, crooked = corners(frame("17", "17", "17", lengths=[Fraction(23), Fraction("23.25")]))
    assert crooked[3][0] > plain[3][0]
    assert crooked[2][0] == plain[2][0]
