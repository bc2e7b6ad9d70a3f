"""Boards along a tape and the ends of real boards: true to scale, clear, and right by hand."""

import xml.etree.ElementTree as ET
from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from hivecalc.drawing.boards import cut_off, end_to_end, real_boards
from hivecalc.drawing.layout import Box
from hivecalc.length import MM, LengthError, Units
from tests.pictures import (
    NS,
    PX,
    assert_clear,
    assert_labels_clear,
    assert_sound,
    assert_true_to_scale,
    corners,
    extent,
    label_box,
    parsed,
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


def view(root: ET.Element, name: str) -> tuple[ET.Element, float]:
    (found,) = (g for g in views(root) if g.attrib["data-view"] == name)
    return found, float(found.attrib["data-scale"])


def box_of(element: ET.Element) -> Box:
    xs, ys = zip(*corners(element), strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def reach(root: ET.Element, part: str) -> tuple[float, float]:
    """From where to where on the sheet a board reaches along the whole tape."""
    boards, _ = view(root, "boards")
    (found,) = (e for e in boards.iter() if e.get("data-part") == part)
    xs = [x for x, _ in corners(found)]
    return min(xs), max(xs)


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
@example(Fraction(1, 64), Fraction(100), end_to_end, "inch")
@example(Fraction(1, 64), Fraction(1, 64), cut_off, "mm")
@example(Fraction(6399, 64), Fraction(100), cut_off, "mm")
@settings(max_examples=120)
def test_any_two_boards_are_drawn_clear_and_true(
    one: Fraction, other: Fraction, picture: Picture, units: Units
) -> None:
    svg = picture(one, other, units=units)
    root = assert_clear(svg)
    assert_true_to_scale(svg, spans(picture, one, other))
    _, scale = view(root, "boards")
    for part, length in spans(picture, one, other).items():
        if length and part not in {"whole", "to come off"}:
            left, right = reach(root, part)
            assert right - left == pytest.approx(float(length) * scale, abs=PX)


@given(BOARDS, BOARDS, st.sampled_from([end_to_end, cut_off]), st.sampled_from(UNITS))
@settings(max_examples=60)
def test_arrows_stand_at_their_readings_among_the_numbered_marks(
    one: Fraction, other: Fraction, picture: Picture, units: Units
) -> None:
    root, unit = parsed(picture(one, other, units=units)), MM if units == "mm" else 1
    ends = [g for g in views(root) if g.attrib["data-view"].endswith("enlarged")]
    arrows = [e for e in root.iter() if "data-reading" in e.attrib]
    assert len(arrows) == len(ends)
    for arrow, tape in zip(arrows, ends, strict=True):
        x, scale = float(arrow.attrib["x1"]), float(tape.attrib["data-scale"])
        marks = [e for e in tape.iter() if "data-mark" in e.attrib]
        assert marks
        for mark in marks:
            beyond = (x - float(mark.attrib["x1"])) / scale
            read = float(Fraction(mark.attrib["data-mark"]) * unit) + beyond
            assert read == pytest.approx(
                float(Fraction(arrow.attrib["data-reading"])), abs=PX / scale
            )


def test_the_tape_over_the_whole_is_to_the_scale_of_the_boards() -> None:
    boards, scale = view(parsed(end_to_end(Fraction(139, 8), Fraction(23, 4))), "boards")
    marks = {int(e.attrib["data-mark"]): float(e.attrib["x1"]) for e in boards.iter()
             if "data-mark" in e.attrib}  # fmt: skip
    assert len(marks) >= 4
    for (near, x), (far, other) in pairwise(sorted(marks.items())):
        assert other - x == pytest.approx((far - near) * scale, abs=2 * PX)
    first = float(next(e for e in boards.iter() if e.get("data-part") == "first")
                  .attrib["points"].partition(",")[0])  # fmt: skip
    assert marks[10] - first == pytest.approx(10 * scale, abs=PX)


@given(BOARDS, BOARDS, st.sampled_from([end_to_end, cut_off]), st.sampled_from(UNITS))
@example(Fraction(100), Fraction(1, 64), end_to_end, "inch")
@example(Fraction(1, 64), Fraction(100), end_to_end, "mm")
@settings(max_examples=60)
def test_no_end_of_a_board_is_drawn_through_a_length(
    one: Fraction, other: Fraction, picture: Picture, units: Units
) -> None:
    assume(one + other > 10)  # on shorter boards there is not always a free place
    root = parsed(picture(one, other, units=units))
    boards, _ = view(root, "boards")
    size = float(root.attrib["font-size"])
    lengths = [
        label_box(t, size) for t in boards.iter(f"{NS}text") if "font-weight" not in t.attrib
    ]
    assert len(lengths) >= 2
    ends = [box_of(e) for e in boards.iter(f"{NS}line") if e.attrib["x1"] == e.attrib["x2"]]
    for end in ends:
        for box in lengths:
            between = box.left < end.left < box.right
            assert not (between and end.top < box.bottom - 1 and end.bottom > box.top + 1)


def test_two_boards_of_the_course_by_hand() -> None:
    # By hand: 17 3/8 + 5 3/4 = 17 3/8 + 5 6/8 = 22 9/8 = 23 1/8.
    root = parsed(end_to_end(Fraction(139, 8), Fraction(23, 4)))
    for text in ("first 17 3/8 in", "second 5 3/4 in", "whole 23 1/8 in"):
        assert text in words(root)
        assert text in (root.findtext(f"{NS}desc") or "")
    assert reach(root, "first")[1] == reach(root, "second")[0]
    readings = {e.attrib["data-reading"] for e in root.iter() if "data-reading" in e.attrib}
    assert readings == {"139/8", "185/8"}


def test_a_piece_off_a_board_by_hand() -> None:
    # By hand: 23 1/8 - 5 3/4 = 22 9/8 - 5 6/8 = 17 3/8. In mm: 25.4 each, so 23 1/8 in are 587.375,
    # 5 3/4 in are 146.05 and 17 3/8 in are 441.325, shown to a tenth.
    root = parsed(cut_off(Fraction(185, 8), Fraction(23, 4)))
    for text in ("left 17 3/8 in", "off 5 3/4 in", "whole 23 1/8 in"):
        assert text in words(root)
    assert reach(root, "left")[1] == reach(root, "off")[0]
    metric = words(parsed(cut_off(Fraction(185, 8), Fraction(23, 4), units="mm")))
    for text in ("left ≈ 441.3 mm", "off ≈ 146.1 mm", "whole ≈ 587.4 mm"):
        assert text in metric


def test_what_comes_off_is_told_by_dashes_and_words_not_by_colour() -> None:
    root = parsed(cut_off(Fraction(185, 8), Fraction(23, 4)))
    boards, _ = view(root, "boards")
    pieces = {e.attrib["data-part"]: e for e in boards.iter() if "data-part" in e.attrib}
    assert "stroke-dasharray" in pieces["off"].attrib
    assert "stroke-dasharray" not in pieces["left"].attrib
    assert "Dashed: what comes off" in words(root)


def test_all_of_a_board_leaves_nothing() -> None:
    root = parsed(cut_off(Fraction(60), Fraction(60)))
    assert "leaves nothing" in words(root)
    assert {e.attrib["data-part"] for e in root.iter() if "data-part" in e.attrib} == {"off"}


def test_more_than_the_board_has_does_not_go() -> None:
    root = parsed(cut_off(Fraction(5), Fraction(11, 2)))
    boards, scale = view(root, "boards")
    (lacking,) = (e for e in boards.iter() if e.get("data-part") == "lacking")
    assert "wrong" in lacking.attrib["fill"]
    assert reach(root, "board")[1] == reach(root, "lacking")[0]
    assert extent(lacking)[0] == pytest.approx(0.5 * scale, abs=PX)
    bold = " ".join(t.text or "" for t in root.iter(f"{NS}text") if "font-weight" in t.attrib)
    assert "1/2 in is lacking. It does not go." in bold


def test_the_ends_of_short_boards_are_not_enlarged_as_they_are_big_already() -> None:
    root = parsed(end_to_end(Fraction(3, 8), Fraction(3, 4)))
    assert [g.attrib["data-view"] for g in views(root)] == ["boards"]
    boards, scale = view(root, "boards")
    assert scale == 80
    sixteenths = {float(e.attrib["x1"]) for e in boards.iter(f"{NS}line")
                  if "data-name" not in e.attrib and e.attrib["x1"] == e.attrib["x2"]}  # fmt: skip
    assert {8 + 5.0 * k for k in range(1, 60)} <= sixteenths


@pytest.mark.parametrize("picture", [end_to_end, cut_off])
@pytest.mark.parametrize("wrong", [Fraction(0), Fraction(-1), Fraction(1601, 16), Fraction(10**9)])
def test_a_board_that_cannot_be_is_refused_in_one_sentence(
    picture: Picture, wrong: Fraction
) -> None:
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
def test_real_boards_are_sound_and_clear(units: Units) -> None:
    svg = real_boards(units=units)
    assert_labels_clear(svg)
    description = assert_sound(svg).findtext(f"{NS}desc") or ""
    for inches, _, _, mm in PS_20.values():
        assert f"really {inches if units == 'inch' else mm}" in description


@pytest.mark.parametrize("name", PS_20)
def test_a_board_end_is_drawn_at_its_real_size_within_the_size_of_its_name(name: str) -> None:
    root = parsed(real_boards())
    ends, scale = view(root, "ends of boards")
    drawn = {e.attrib["data-part"]: e for e in ends.iter() if "data-part" in e.attrib}
    says, really = drawn[f"{name} says"], drawn[f"{name} really"]
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


def test_growth_rings_stay_within_the_board() -> None:
    root = parsed(real_boards())
    boards = [box_of(e) for e in root.iter() if e.get("data-part", "").endswith("really")]
    rings = [box_of(e) for e in root.iter(f"{NS}polyline")]
    assert len(rings) >= 4 * len(boards)
    for ring in rings:
        assert any(
            board.left - PX <= ring.left
            and ring.right <= board.right + PX
            and board.top - PX <= ring.top
            and ring.bottom <= board.bottom + PX
            for board in boards
        )
