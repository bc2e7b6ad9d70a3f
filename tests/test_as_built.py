"""What you cut, measured: by hand, by geometry in the plane, and by doing what is advised."""

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hivecalc.as_built import (
    AsBuilt,
    CutSize,
    Frame,
    Repair,
    allowance,
    as_built,
    cut_sizes,
    frame_check,
)
from hivecalc.components import parts
from hivecalc.hive import Hive, HiveFaults, demo_hive, hive_from_text
from hivecalc.length import MM, Rounding, length_from_text
from hivecalc.measuring import STRAIGHT_ENOUGH
from tests.hives import HIVES

DEMO = demo_hive()
BUILT = {name: hive_from_text(text) for name, text in HIVES.items()}
SIZES = {name: cut_sizes(hive) for name, hive in BUILT.items()}


def inches(text: str) -> Fraction:
    sign = -1 if text.startswith("-") else 1
    return sign * length_from_text(text.removeprefix("-"))


def one(hive: Hive, name: str, measured: Fraction) -> tuple[AsBuilt, Repair]:
    found = as_built(hive, {name: measured})
    return found, found.repairs[0]


# ── worked out by hand for the demo hive of 23 1/8 by 17 3/8 in ───────────────────────────────

# Side rail 21 5/8, front rail 14 3/8, back rail 17 3/8, panel 14 1/8 by 19 7/8; the stop is 1/4.
ROWS = [
    ("bottom_board.front_rail_length", "14 3/8", "good", "14 3/8 in long, within tolerance"),
    ("bottom_board.front_rail_length", "14 7/16", "good", "14 7/16 in long"),
    ("bottom_board.front_rail_length", "14 1/2", "trim", "Crosscut 1/8 in off"),
    ("bottom_board.front_rail_length", "14 1/4", "shim", "Glue on a shim of 1/8 in"),
    ("bottom_board.front_rail_length", "14", "reuse", "lower front runner of the bottom board"),
    ("bottom_board.front_rail_length", "9", "new", "cut anew"),
    ("bottom_board.side_rail_length", "20 1/8", "reuse", "leave a gap of 1 1/2 in to the back"),
    ("bottom_board.back_rail_length", "17 1/2", "trim", "stands out 1/8 in"),
    ("bottom_board.lower_side_runner_length", "19 3/8", "usable", "nothing fails: use it"),
    ("bottom_board.lower_side_runner_length", "14 5/8", "reuse", "the gap to the front rail"),
    ("bottom_board.panel_width", "14 1/16", "good", "within tolerance"),
    ("bottom_board.panel_width", "14 3/8", "trim", "Cut 1/4 in off"),
    ("bottom_board.panel_width", "13 3/4", "shim", "Glue on a strip of foam of 3/8 in"),
    ("bottom_board.panel_width", "12", "new", "cut anew"),
    ("bottom_board.screen_front_stop_thickness", "1/2", "trim", "Rip 1/4 in off"),
    ("bottom_board.screen_front_stop_thickness", "5/16", "good", "5/16 in thick"),
    ("bottom_board.screen_side_strip_length", "20 3/64", "usable", "more than the tolerance"),
    ("bottom_board.screen_side_strip_length", "19 15/16", "shim", "A bee squeezes through"),
    ("bottom_board.mesh_length", "19 3/4", "usable", "use it"),
    ("bottom_board.mesh_length", "20 1/4", "trim", "Snip 1/4 in off"),
    ("roof.deck_length", "27 1/4", "good", "27 1/4 in long"),
    ("roof.deck_length", "22", "reuse", "skirt end of the roof"),
    ("inner_cover.rim_back_thickness", "9/16", "good", "9/16 in thick"),
    ("inner_cover.rim_back_thickness", "37/64", "trim", "Rip 5/64 in off"),
]


@pytest.mark.parametrize(("name", "measured", "verdict", "words"), ROWS)
def test_pieces_of_the_demo_hive(name: str, measured: str, verdict: str, words: str) -> None:
    found, repair = one(DEMO, name, inches(measured))
    assert repair.verdict == verdict, repair.sentence
    assert words in repair.sentence
    assert bool(repair.caution) is (verdict not in {"good", "usable"})
    assert found.fits is (verdict in {"good", "usable"})


def test_a_plane_takes_off_what_a_saw_should_not() -> None:
    """By hand: a stop of 5/16 leaves a way in of 0.279, and 1/4 is the least: 1/64 in is left."""
    hive = hive_from_text(
        """
        [measured]
        hive_length = 20
        hive_width = 15
        [chosen]
        front_stop_height = "5/16"
        """
    )
    name = "bottom_board.screen_front_stop_thickness"
    room = allowance(hive, name)
    assert room.long == Fraction(1, 64)
    _, repair = one(hive, name, inches("5/16") + Fraction(1, 16))
    assert repair.verdict == "trim"
    assert "Plane 1/16 in off" in repair.sentence


def test_what_can_be_cut_from_a_short_side_rail_is_told_longest_first() -> None:
    """By hand: of 16 in of 2x4 the longest parts are the roof's rails, 17 7/8 less two studs."""
    _, repair = one(DEMO, "bottom_board.side_rail_length", Fraction(16))
    names = [(o.component, o.part) for o in repair.others]
    assert names[:2] == [("roof", "rim_front"), ("roof", "rim_back")]
    assert repair.others[0].length == inches("14 7/8")
    assert ("bottom_board", "front_rail") in names
    assert ("bottom_board", "back_rail") not in names
    assert ("bottom_board", "landing_board") not in names
    assert not any(part == "panel" for _, part in names)


def test_what_is_too_long_and_too_thin_cannot_be_trimmed_well() -> None:
    sizes = {
        "inner_cover.rim_back_thickness": inches("3/8"),
        "inner_cover.rim_back_length": inches("15"),
    }
    repair = as_built(DEMO, sizes).repairs[0]
    assert repair.verdict in {"reuse", "new"}
    assert len(repair.off) == 2
    assert "too thin and" in repair.sentence
    assert "too long" in repair.sentence


def test_two_rails_cut_unlike_are_judged_each_by_itself() -> None:
    name = "bottom_board.side_rail_length"
    found = as_built(DEMO, {name: [inches("21 5/8"), inches("21 1/8")]})
    assert [(r.number, r.verdict) for r in found.repairs] == [(1, "good"), (2, "reuse")]
    assert found.repairs[1].sentence.startswith("The side rail no. 2 is 1/2 in too short")
    assert [c.kind for c in found.consequences] == ["open"]
    assert "right side rail" in found.consequences[0].sentence


def test_pieces_that_are_wrong_together_are_built_together() -> None:
    wrong = {
        "bottom_board.front_rail_length": inches("14 7/8"),
        "bottom_board.side_rail_length": inches("21 3/8"),
        "inner_cover.rim_back_length": inches("14 1/4"),
    }
    found = as_built(DEMO, wrong)
    assert [r.verdict for r in found.repairs] == ["reuse", "trim", "shim"]
    kinds = [c.kind for c in found.consequences]
    assert kinds == ["overlap", "open", "open"]
    assert not found.fits


def test_the_rule_that_fails_now_is_named() -> None:
    found, repair = one(DEMO, "bottom_board.screen_front_stop_thickness", inches("1/2"))
    assert {f.rule for f in found.broken} == {
        "bottom_board.bee_way_in",
        "bottom_board.way_over_stop",
    }
    assert any("shuts them in" in effect for effect in repair.effects)


# ── tolerance and its reason ──────────────────────────────────────────────────────────────────


def test_what_slides_may_be_short_and_what_covers_long() -> None:
    for size in cut_sizes(DEMO):
        room = allowance(DEMO, size.name)
        if size.rounding is Rounding.DOWN:
            assert room.short >= room.long, size.name
        if size.rounding is Rounding.UP:
            assert room.long >= room.short, size.name
        assert room.why_short.endswith(".")
        assert room.why_long.endswith(".")


def test_a_tolerance_ends_where_a_rule_would_fail() -> None:
    """By hand: the screen has 1/8 in of play, and a bee gets through more than 5/32."""
    room = allowance(DEMO, "bottom_board.screen_side_strip_length")
    assert room.short == Fraction(1, 32)
    assert "A bee squeezes" in room.why_short
    assert "screen must slide" in room.why_long


@pytest.mark.parametrize("hive", BUILT)
def test_every_size_that_is_cut_is_one_of_a_piece_and_none_is_the_stock_s(hive: str) -> None:
    """Second way: the parts table. What it lists and we do not is as thick or wide as its stock."""
    table = {
        f"{p.component}.{p.part}_{s}": getattr(p, s).value
        for p in parts(BUILT[hive])
        for s in ("thickness", "width", "length")
        if getattr(p, s)
    }
    ours = {s.name: s.planned for s in SIZES[hive]}
    assert ours.items() <= table.items()
    stock = {v for n, v in BUILT[hive].measurements.items() if "thick" in n or "strip" in n}
    stock.add(BUILT[hive].measurements["stud_width"])
    assert {v for n, v in table.items() if n not in ours} <= stock
    assert all(f"{p.component}.{p.part}_length" in ours for p in parts(BUILT[hive]))


# ── for any hive and any piece ────────────────────────────────────────────────────────────────


@st.composite
def a_size(draw: st.DrawFn) -> tuple[Hive, CutSize]:
    hive = draw(st.sampled_from(sorted(BUILT)))
    return BUILT[hive], draw(st.sampled_from(SIZES[hive]))


@given(a_size(), st.fractions(0, 1, max_denominator=128))
@settings(max_examples=120)
def test_a_piece_within_tolerance_is_never_condemned(
    chosen: tuple[Hive, CutSize], share: Fraction
) -> None:
    hive, size = chosen
    room = allowance(hive, size.name)
    measured = size.planned - room.short + share * (room.short + room.long)
    found, repair = one(hive, size.name, measured)
    assert repair.verdict == "good", repair.sentence
    assert found.broken == ()
    assert found.consequences == ()


@given(a_size(), st.integers(-6 * 64, 2 * 64))
@settings(max_examples=120)
def test_whoever_does_what_is_advised_has_a_piece_that_fits(
    chosen: tuple[Hive, CutSize], sixty_fourths: int
) -> None:
    hive, size = chosen
    off = Fraction(sixty_fourths, 64)
    if size.planned + off <= 0:
        return
    found, repair = one(hive, size.name, size.planned + off)
    if repair.verdict in {"good", "usable"}:
        assert found.broken == ()
        return
    assert repair.effects
    if repair.verdict in {"trim", "shim"}:
        assert (off > 0) is (repair.verdict == "trim")
        again = as_built(hive, repair.mended)
        assert [r.verdict for r in again.repairs] == ["good"]
        assert again.broken == ()
        assert again.consequences == ()
    else:
        assert off < 0


@given(a_size(), st.integers(1, 12 * 64))
@settings(max_examples=120)
def test_what_is_cut_from_a_piece_lies_within_it(
    chosen: tuple[Hive, CutSize], sixty_fourths: int
) -> None:
    """Second way: by the sizes of the parts table, along the grain where there is one."""
    hive, size = chosen
    measured = size.planned - Fraction(sixty_fourths, 64)
    if measured <= 0:
        return
    _, repair = one(hive, size.name, measured)
    table = {(p.component, p.part): p for p in parts(hive)}
    piece = table[size.component, size.part.name]
    grainless = piece.material in {"plywood", "foam", "sheet", "mesh"}
    lengths = [o.length for o in repair.others]
    assert lengths == sorted(lengths, reverse=True)
    assert bool(repair.others) is (repair.verdict == "reuse")
    for other in repair.others:
        need = table[other.component, other.part]
        assert other.length == need.length.value
        have = {
            s: getattr(piece, s).value
            for s in ("thickness", "width", "length")
            if getattr(piece, s)
        }
        have[size.size] = measured
        assert other.length <= (max(have.values()) if grainless else have["length"])
        assert need.material in {piece.material, "strip"}
        volume = math.prod(float(v) for v in have.values())
        sizes = (need.thickness, need.width, need.length)
        assert math.prod(float(s.value) for s in sizes if s) <= volume * (33 / 32)


@given(a_size(), st.integers(-64, 64), st.integers(-64, 64))
@settings(max_examples=60)
def test_a_longer_piece_is_never_too_short(
    chosen: tuple[Hive, CutSize], one_way: int, other_way: int
) -> None:
    hive, size = chosen
    low, high = sorted((one_way, other_way))
    values = [size.planned + Fraction(n, 64) for n in (low, high)]
    if values[0] <= 0:
        return
    small, big = (one(hive, size.name, v)[1] for v in values)
    assert not (small.verdict == "trim" and big.verdict in {"shim", "reuse", "new"})


@pytest.mark.parametrize("hive", BUILT)
def test_a_hive_cut_to_plan_is_good_all_over(hive: str) -> None:
    """And what fails then failed on the plan."""
    found = as_built(BUILT[hive], {s.name: s.planned for s in SIZES[hive]})
    assert {r.verdict for r in found.repairs} == {"good"}
    assert found.broken == ()
    assert found.consequences == ()


# ── the frame ─────────────────────────────────────────────────────────────────────────────────


def diagonals(front: float, back: float, length: float, lean: float) -> tuple[Fraction, Fraction]:
    """Both diagonals of a frame laid out in the plane, its back moved sideways by the lean."""
    back_left = (front - back) / 2 + lean
    rising = math.hypot(back_left + back, length)
    falling = math.hypot(back_left - front, length)
    return Fraction(rising), Fraction(falling)


def frame(*widths: str, lean: float = 0.0, length: str = "23 1/8") -> Frame:
    front, middle, back = map(inches, widths)
    across = diagonals(float(front), float(back), float(inches(length)), lean)
    return Frame((front, middle, back), *across)


SHAPES = [
    (("17 3/8", "17 3/8", "17 3/8"), ("straight",), "straight enough"),
    (("17 3/8", "17 1/2", "17 3/8"), ("straight",), "straight enough"),
    (("17 3/8", "17 1/2", "17 5/8"), ("tapered",), "1/4 in wider at the back"),
    (("17 5/8", "17 1/2", "17 3/8"), ("tapered",), "1/4 in wider at the front"),
    (("17 3/8", "17 5/8", "17 3/8"), ("bellied",), "1/4 in wider than half-way"),
    (("17 3/8", "17 1/8", "17 3/8"), ("waisted",), "1/4 in narrower than half-way"),
    (("17 3/8", "17 3/8", "17 3/4"), ("tapered", "waisted"), "bow inwards"),
]


@pytest.mark.parametrize(("widths", "shapes", "words"), SHAPES)
def test_shapes_of_frames(widths: tuple[str, ...], shapes: tuple[str, ...], words: str) -> None:
    found = frame_check(DEMO, frame(*widths))
    assert found.shapes == shapes
    assert words in " ".join(found.sentences)


WIDTHS = st.integers(15 * 32, 20 * 32).map(lambda n: Fraction(n, 32))


@given(WIDTHS, WIDTHS, WIDTHS)
def test_a_frame_is_straight_or_has_a_shape(
    front: Fraction, middle: Fraction, back: Fraction
) -> None:
    across = diagonals(float(front), float(back), 23.125, 0)
    found = frame_check(DEMO, Frame((front, middle, back), *across))
    spread = max(front, middle, back) - min(front, middle, back)
    assert found.shapes
    assert ("straight" in found.shapes) is (spread <= STRAIGHT_ENOUGH)
    assert front + found.taper == back
    assert 2 * (middle - found.belly) == front + back


@given(WIDTHS, WIDTHS, st.floats(-2, 2))
def test_the_lean_of_a_tapered_frame_is_read_back_from_its_diagonals(
    front: Fraction, back: Fraction, lean: float
) -> None:
    """Second way: four corners in the plane, the back moved sideways against the front."""
    across = diagonals(float(front), float(back), 23.125, lean)
    found = frame_check(DEMO, Frame((front, (front + back) / 2, back), *across))
    assert float(found.squareness.lean) == pytest.approx(lean, abs=1e-6)


@pytest.mark.parametrize(("lean", "side"), [(0.5, "right"), (-0.5, "left")])
def test_a_leaning_frame_says_where(lean: float, side: str) -> None:
    found = frame_check(DEMO, frame("17 3/8", "17 3/8", "17 3/8", lean=lean))
    told = " ".join(found.sentences)
    sharp = "front left and back right" if lean > 0 else "front right and back left"
    assert f"1/2 in too far to the {side}" in told
    assert f"the corners {sharp} are 1.2 degrees too sharp" in told
    degrees = math.degrees(math.asin(0.5 / 23.125))
    assert abs(found.squareness.angle) == pytest.approx(degrees, abs=0.02)


@given(WIDTHS, st.floats(0.2, 2))
@settings(max_examples=50)
def test_a_square_panel_passes_straight_into_a_leaning_frame(width: Fraction, lean: float) -> None:
    """Second way: the corridor between both rails' inner faces, front to back, in the plane."""
    across = diagonals(float(width), float(width), 23.125, lean)
    found = frame_check(DEMO, Frame((width,) * 3, *across))
    thickness = float(DEMO.measurements["stud_thickness"])
    left = max(thickness, thickness + lean)
    right = min(float(width) - thickness, float(width) - thickness + lean)
    opening = float(found.given["bottom_board.opening_width"])
    if not found.squareness.square:
        assert opening == pytest.approx(right - left, abs=1e-6)


def test_what_goes_into_a_narrow_frame_is_planned_from_it() -> None:
    """By hand: the frame is 1/4 in narrower at the back, so everything in it is, to slide in."""
    narrow = frame("17 3/8", "17 1/4", "17 1/8")
    old_panel = {"bottom_board.panel_width": inches("14 1/8")}
    found = as_built(DEMO, old_panel, narrow)
    assert found.frame is not None
    assert found.frame.given["bottom_board.opening_width"] == inches("14 1/8")
    recut = {c.name: c.new - c.old for c in found.frame.recuts}
    assert recut["bottom_board.panel_width"] == -Fraction(1, 4)
    assert recut["bottom_board.screen_end_strip_length"] == -Fraction(1, 4)
    assert "bottom_board.front_rail_length" not in recut
    assert any("cut the panel width to 13 7/8 in" in s for s in found.frame.sentences)
    assert found.repairs[0].verdict == "trim"
    assert "bottom_board.panel_play_across" in {f.rule for f in found.broken}
    assert as_built(DEMO, found.repairs[0].mended, narrow).broken == ()


def test_a_frame_as_planned_changes_nothing() -> None:
    found = as_built(DEMO, {}, frame("17 3/8", "17 3/8", "17 3/8"))
    assert found.frame is not None
    assert found.frame.recuts == ()
    assert found.broken == ()
    assert found.fits


def test_a_frame_that_differs_from_the_hive_is_told_where() -> None:
    told = frame_check(DEMO, frame("17 3/8", "17 3/8", "17")).sentences
    assert any("At the back it is 3/8 in narrower than the hive" in s for s in told)
    assert not any("At the front" in s for s in told)
    wide = frame_check(DEMO, frame("17 3/4", "17 3/4", "17 3/4")).sentences
    assert sum("wider than the hive: rain" in s for s in wide) == 3


def test_readings_that_no_frame_has_take_nothing_off_the_opening() -> None:
    misread = Frame((inches("17 3/8"),) * 3, Fraction(40), Fraction(20))
    found = frame_check(DEMO, misread)
    assert found.squareness.misread
    assert found.given["bottom_board.opening_width"] == inches("14 3/8")


def test_lengths_of_a_frame_make_its_opening_shorter() -> None:
    made = frame("17 3/8", "17 3/8", "17 3/8")
    shorter = Frame(made.widths, made.rising, made.falling, (inches("23"), inches("23 1/8")))
    assert frame_check(DEMO, shorter).given["bottom_board.opening_length"] == 20


# ── what is refused ───────────────────────────────────────────────────────────────────────────


def test_faults_are_told_all_at_once() -> None:
    measured = {
        "bottom_board.side_rail_lenght": Fraction(1),
        "bottom_board.side_rail_thickness": Fraction(3, 2),
        "bottom_board.side_rail_length": [Fraction(21)] * 3,
        "bottom_board.front_rail_length": Fraction(0),
        "bottom_board.back_rail_length": Fraction(500),
        "box.side_length": Fraction(20),
    }
    made = Frame((Fraction(17), Fraction(-17)), Fraction(29), Fraction(29))
    with pytest.raises(HiveFaults) as caught:
        as_built(DEMO, measured, made)
    told = str(caught.value).splitlines()
    assert len(told) == 8
    for words in (
        "frame: 2 widths; give three",
        "frame: −17 in",
        "one that is: bottom_board.side_rail_length",
        "change stud_thickness in your hive",
        "3 readings; of this piece there are 2",
        "bottom_board.front_rail_length: 0 in; more than 0",
        "bottom_board.back_rail_length: 500 in",
        "box.side_length",
    ):
        assert any(words in line for line in told), words


def test_a_frame_without_an_opening_is_refused() -> None:
    with pytest.raises(HiveFaults, match="opening width would be"):
        frame_check(DEMO, Frame((Fraction(2),) * 3, Fraction(23), Fraction(23)))


def test_a_size_that_is_not_cut_has_no_tolerance() -> None:
    with pytest.raises(HiveFaults, match="one that is"):
        allowance(DEMO, "stud_thickness")


def test_a_hive_in_millimetres_is_told_in_millimetres() -> None:
    metric = BUILT["metric"]
    name = "bottom_board.front_rail_length"
    planned = next(s.planned for s in SIZES["metric"] if s.name == name)
    _, repair = one(metric, name, planned + 5 * MM)
    assert repair.sentence == (
        "The front rail is 5 mm too long: it runs 5 mm into the right side rail. "
        "Crosscut 5 mm off: it should be 365.5 mm long."
    )
