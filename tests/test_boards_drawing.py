"""Boards along a tape and the ends of real boards: true to scale, clear, and right by hand."""

import xml.etree.ElementTree as ET
from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from hivecalc.drawing.boards import cut_off, end_to_end, real_boards
from hivecalc.length import MM, LengthError, Units
from tests.pictures import (
    NS,
    PX,
    assert_clear,
    assert_true,
    box_of,
    described,
    extent,
    in_bold,
    label_box,
    missing,
    parsed,
    parts,
    views,
    words,
)

Picture = Callable[..., str]
BOARDS = st.one_of(
    st.integers(1, 1600).map(lambda n: Fraction(n, 16)),
    st.integers(1, 6400).map(lambda n: Fraction(n, 64)),
    st.integers(1, 2540).map(lambda n: n * MM),
)
UNITS: tuple[Units, Units] = ("inch", "mm")
LONG, SHORT = Fraction(185, 8), Fraction(23, 4)


def view(root: ET.Element, name: str) -> tuple[ET.Element, float]:
    (found,) = (g for g in views(root) if g.attrib["data-view"] == name)
    return found, float(found.attrib["data-scale"])


def laid(root: ET.Element) -> dict[str, ET.Element]:
    """The boards along the whole tape."""
    return parts(view(root, "boards")[0])


def readings(root: ET.Element) -> set[str]:
    return {e.attrib["data-reading"] for e in root.iter() if "data-reading" in e.attrib}


def spans(picture: Picture, one: Fraction, other: Fraction) -> dict[str, Fraction]:
    """What each length on a picture of two boards must be, by plain arithmetic."""
    if picture is end_to_end:
        return {"first": one, "second": other, "whole": one + other}
    if other > one:
        return {"board": one, "lacking": other - one, "to come off": other}
    return {"left": one - other, "off": other, "whole": one}


@given(BOARDS, BOARDS, st.sampled_from([end_to_end, cut_off]), st.sampled_from(UNITS))
@example(Fraction(100), Fraction(100), end_to_end, "mm")
@example(Fraction(100), Fraction(1, 64), end_to_end, "inch")
@example(Fraction(1, 64), Fraction(100), end_to_end, "mm")
@example(Fraction(1, 64), Fraction(1, 64), cut_off, "mm")
@example(Fraction(6399, 64), Fraction(100), cut_off, "mm")
@settings(max_examples=50)
def test_any_two_boards_are_drawn_clear_and_true(one, other, picture, units):
    svg, lengths = picture(one, other, units=units), spans(picture, one, other)
    root = assert_clear(svg)
    assert assert_true(svg, lengths).items() <= lengths.items()
    boards, scale = view(root, "boards")
    for part, board in parts(boards).items():
        assert extent(board)[0] == pytest.approx(float(lengths[part]) * scale, abs=PX)
    assert parts(boards).keys() == {
        n for n, length in lengths.items() if length and n not in {"whole", "to come off"}
    }
    assert_arrows_at_their_readings(root, Fraction(MM) if units == "mm" else Fraction(1))
    if one + other > 10:  # on shorter boards there is not always a free place
        assert_no_end_runs_through_a_length(root, boards)


def assert_arrows_at_their_readings(root: ET.Element, unit: Fraction) -> None:
    ends = [g for g in views(root) if g.attrib["data-view"].endswith("enlarged")]
    arrows = [e for e in root.iter() if "data-reading" in e.attrib]
    for arrow, tape in zip(arrows, ends, strict=True):
        x, scale = float(arrow.attrib["x1"]), float(tape.attrib["data-scale"])
        reading = float(Fraction(arrow.attrib["data-reading"]))
        marks = [e for e in tape.iter() if "data-mark" in e.attrib]
        assert marks
        for mark in marks:
            beyond = (x - float(mark.attrib["x1"])) / scale
            read = float(Fraction(mark.attrib["data-mark"]) * unit) + beyond
            assert read == pytest.approx(reading, abs=PX / scale)


def assert_no_end_runs_through_a_length(root: ET.Element, boards: ET.Element) -> None:
    size = float(root.attrib["font-size"])
    texts = (t for t in boards.iter(f"{NS}text") if "font-weight" not in t.attrib)
    lengths = [label_box(t, size) for t in texts]
    assert len(lengths) >= 2
    ends = [box_of(e) for e in boards.iter(f"{NS}line") if e.attrib["x1"] == e.attrib["x2"]]
    for end in ends:
        for box in lengths:
            between = box.left < end.left < box.right
            assert not (between and end.top < box.bottom - 1 and end.bottom > box.top + 1)


def test_the_tape_over_the_whole_is_to_the_scale_of_the_boards():
    boards, scale = view(parsed(end_to_end(Fraction(139, 8), SHORT)), "boards")
    marks = {int(e.attrib["data-mark"]): float(e.attrib["x1"]) for e in boards.iter()
             if "data-mark" in e.attrib}  # fmt: skip
    assert len(marks) >= 4
    for (near, x), (far, other) in pairwise(sorted(marks.items())):
        assert other - x == pytest.approx((far - near) * scale, abs=2 * PX)
    assert marks[10] - box_of(parts(boards)["first"]).left == pytest.approx(10 * scale, abs=PX)


def test_two_boards_of_the_course_by_hand():
    # By hand: 17 3/8 + 5 3/4 = 17 3/8 + 5 6/8 = 22 9/8 = 23 1/8.
    root = parsed(end_to_end(Fraction(139, 8), SHORT))
    told = ("first 17 3/8 in", "second 5 3/4 in", "whole 23 1/8 in")
    assert not missing(told, words(root)) + missing(told, described(root))
    assert box_of(laid(root)["first"]).right == box_of(laid(root)["second"]).left
    assert readings(root) == {"139/8", "185/8"}


def test_a_piece_off_a_board_by_hand_is_dashed():
    # By hand: 23 1/8 - 5 3/4 = 22 9/8 - 5 6/8 = 17 3/8. In mm: 25.4 each, so 23 1/8 in are 587.375,
    # 5 3/4 in are 146.05 and 17 3/8 in are 441.325, shown to a tenth.
    root = parsed(cut_off(LONG, SHORT))
    told = ("left 17 3/8 in", "off 5 3/4 in", "whole 23 1/8 in", "Dashed: what comes off")
    assert not missing(told, words(root))
    assert readings(root) == {"139/8", "185/8"}
    left, off = laid(root)["left"], laid(root)["off"]
    assert box_of(left).right == box_of(off).left
    assert "stroke-dasharray" in off.attrib
    assert "stroke-dasharray" not in left.attrib
    metric = words(parsed(cut_off(LONG, SHORT, units="mm")))
    assert not missing(("left ≈ 441.3 mm", "off ≈ 146.1 mm", "whole ≈ 587.4 mm"), metric)
    assert "leaves nothing" in words(parsed(cut_off(Fraction(60), Fraction(60))))


def test_more_than_the_board_has_does_not_go():
    root = parsed(cut_off(Fraction(5), Fraction(11, 2)))
    lacking, (_, scale) = laid(root)["lacking"], view(root, "boards")
    assert "wrong" in lacking.attrib["fill"]
    assert box_of(laid(root)["board"]).right == box_of(lacking).left
    assert extent(lacking)[0] == pytest.approx(0.5 * scale, abs=PX)
    assert "1/2 in is lacking. It does not go." in in_bold(root)


def test_the_ends_of_short_boards_are_not_enlarged_as_they_are_big_already():
    root = parsed(end_to_end(Fraction(3, 8), Fraction(3, 4)))
    assert [g.attrib["data-view"] for g in views(root)] == ["boards"]
    boards, scale = view(root, "boards")
    assert scale == 80
    sixteenths = {float(e.attrib["x1"]) for e in boards.iter(f"{NS}line")
                  if "data-name" not in e.attrib and e.attrib["x1"] == e.attrib["x2"]}  # fmt: skip
    assert {8 + 5.0 * k for k in range(1, 60)} <= sixteenths


@pytest.mark.parametrize("picture", [end_to_end, cut_off])
@pytest.mark.parametrize("wrong", [Fraction(0), Fraction(-1), Fraction(1601, 16), Fraction(10**9)])
def test_a_board_that_cannot_be_is_refused_in_one_sentence(picture, wrong):
    for pair in ((wrong, Fraction(5)), (Fraction(5), wrong)):
        with pytest.raises(LengthError, match="longer than 0 and at most 100 in long"):
            picture(*pair)


# ── the ends of real boards ────────────────────────────────────────────────────────────────────

# American Softwood Lumber Standard PS 20-20, Table 3, dry dressed, as retold in a public
# engineering reference: thickness and width in inches. Its column in mm is from memory.
PS_20 = {
    "2x4": ("1 1/2 × 3 1/2 in", 1.5, 3.5, "38 × 89 mm"),
    "1x4": ("3/4 × 3 1/2 in", 0.75, 3.5, "19 × 89 mm"),
    "1x10": ("3/4 × 9 1/4 in", 0.75, 9.25, "19 × 235 mm"),
    "1x12": ("3/4 × 11 1/4 in", 0.75, 11.25, "19 × 286 mm"),
}


@pytest.mark.parametrize("units", UNITS)
def test_real_boards_are_clear_and_their_sizes_told(units):
    root = assert_clear(real_boards(units=units))
    sizes = (inches if units == "inch" else mm for inches, _, _, mm in PS_20.values())
    assert not missing((f"really {size}" for size in sizes), described(root))


@pytest.mark.parametrize("name", PS_20)
def test_a_board_end_is_drawn_at_its_real_size_within_the_size_of_its_name(name):
    ends, scale = view(parsed(real_boards()), "ends of boards")
    says, really = (parts(ends)[f"{name} {which}"] for which in ("says", "really"))
    _, thickness, width, _ = PS_20[name]
    assert extent(really) == pytest.approx((width * scale, thickness * scale), abs=PX)
    thick, wide = map(int, name.split("x"))
    assert extent(says) == pytest.approx((wide * scale, thick * scale), abs=PX)
    inner, outer = box_of(really), box_of(says)
    assert inner.left - outer.left == pytest.approx(outer.right - inner.right, abs=PX)
    assert inner.top - outer.top == pytest.approx(outer.bottom - inner.bottom, abs=PX)
    assert inner.left > outer.left
    assert inner.top > outer.top
    assert "stroke-dasharray" in says.attrib
    assert "stroke-dasharray" not in really.attrib


def test_growth_rings_stay_within_the_board():
    root = parsed(real_boards())
    boards = [box_of(e).grown(PX) for n, e in parts(root).items() if n.endswith("really")]
    rings = [box_of(e) for e in root.iter(f"{NS}polyline")]
    assert len(rings) >= 4 * len(boards)
    for ring in rings:
        assert any(
            b.left <= ring.left and ring.right <= b.right
            and b.top <= ring.top and ring.bottom <= b.bottom for b in boards
        )  # fmt: skip
