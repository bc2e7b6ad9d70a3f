"""What may be cut: right only if nothing fails by it, and the same wherever it is asked."""

import math
import re
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hivecalc.as_built import check
from hivecalc.built import pieces_of
from hivecalc.components import DIMENSIONS, of_stock, parts, values
from hivecalc.fit import findings, is_allowed, mark, marked, newly_failing
from hivecalc.hive import Hive, demo_hive
from hivecalc.judging import verdict
from hivecalc.length import EIGHTH, MARKS, MM, SIXTEENTH, Rounding, rounded, with_unit
from hivecalc.part import SIZES
from hivecalc.reports.sizes import of_sheet, parts_report
from tests.hives import allowed_hives, hive_of, inches

DEMO = demo_hive()
REACH = Fraction(1, 2)


def cut_dimensions(hive: Hive) -> list[str]:
    """What a saw makes of this hive, by the plan's name; the stock's own sizes are no choice."""
    return sorted({s.planned for s in pieces_of(hive) if not of_stock(s.planned)})


def failing_without_notes(hive: Hive, cut: dict[str, Fraction] | None = None) -> set[str]:
    return {f.rule for f in findings(hive, cut) if not f.holds and f.level != "note"}


def marks_near(exact: Fraction, step: Fraction) -> list[Fraction]:
    first, last = math.ceil((exact - REACH) / step), math.floor((exact + REACH) / step)
    return [n * step for n in range(max(first, 1), last + 1)]


# ── right, allowed, and what fails ────────────────────────────────────────────────────────────


@settings(max_examples=30, suppress_health_check=[HealthCheck.too_slow])
@given(allowed_hives(), st.randoms(use_true_random=False))
def test_what_is_right_lets_nothing_fail_and_the_check_says_so_too(hive, chance):
    """For a dimension of each of some hives, and values of the grid within 1/2 in of it."""
    step, failed = MARKS[hive.units].step, failing_without_notes(hive)
    name = chance.choice(cut_dimensions(hive))
    exact, best = values(hive)[name], mark(hive, name)
    tried = chance.choice(marks_near(exact, step))
    for value in {best, tried}:
        fails = failing_without_notes(hive, {name: value}) - failed
        assert is_allowed(hive, name, value) is not bool(fails)
    (piece,) = check(hive, {name: [tried]}).pieces
    assert (piece.verdict == "good") is is_allowed(hive, name, tried)


@settings(max_examples=25, suppress_health_check=[HealthCheck.too_slow])
@given(allowed_hives(), st.randoms(use_true_random=False))
def test_the_judge_calls_right_only_what_lets_nothing_fail(hive, chance):
    """An answer on the tape near the exact one; right is the value or its mark, and no other."""
    step, failed = MARKS[hive.units].step, failing_without_notes(hive)
    name = chance.choice(cut_dimensions(hive))
    exact, best = values(hive)[name], mark(hive, name)
    for value in {best, best + step, best - step, chance.choice(marks_near(exact, step))}:
        said = verdict(hive, name, with_unit(hive.units, value)).verdict
        if value > 0 and said in {"right", "right_other_form"}:
            assert not failing_without_notes(hive, {name: value}) - failed
            assert exact % step != 0 or value == exact


MM_FRAMES = hive_of("mm", frames="10", rest_overlap="8", strip_narrow="9", strip_wide="15",
                    landing_thickness="15")  # fmt: skip
# A size that is exact, and one that is a mark off it and not right for that.
EXACT = [
    # 20 1/8 - 1/4 = 19 7/8; 19 13/16 slides, too, but the sum gives another
    (DEMO, "bottom_board.panel_length", "19 7/8", "19 13/16"),
    # 508 mm is 20 in exactly, the sixteenth below 509 mm; 497 mm is 0.1 mm off 19 9/16 in
    (MM_FRAMES, "box.side_length", "509 mm", "508 mm"),
    (MM_FRAMES, "bottom_board.mesh_length", "498 mm", "497 mm"),
]


@pytest.mark.parametrize(("hive", "name", "exact", "off"), EXACT)
def test_a_mark_off_an_exact_value_is_not_right_though_it_would_work(hive, name, exact, off):
    assert verdict(hive, name, exact).verdict == "right"
    assert not verdict(hive, name, off).right
    assert hive is not DEMO or is_allowed(hive, name, inches(off))


# By hand on the demo hive; common practice, no published source.
REACHES = [
    # opening 20 1/8: play of 1/8 at least, and 1/8 of the 1/2 in runner still under it
    ("bottom_board.panel_length", "19 3/4", "20"),
    # the screen of 20 wants 1/32 of play, and a gap of 3/16 at most: rail 1 1/2 more than that
    ("bottom_board.side_rail_length", "21 9/16", "21 11/16"),
    # flush within 1/8
    ("bottom_board.back_rail_length", "17 1/4", "17 1/2"),
    # not critical: 2 in short at most, and no longer than the opening
    ("bottom_board.lower_side_runner_length", "18 1/8", "20 1/8"),
]


@pytest.mark.parametrize(("name", "low", "high"), REACHES)
def test_how_far_a_piece_may_be_off(name, low, high):
    least, most = (inches(t) for t in (low, high))
    step = Fraction(1, 16)
    tried = (least - step, least, most, most + step)
    assert [is_allowed(DEMO, name, v) for v in tried] == [False, True, True, False]


def test_what_no_piece_has_is_allowed_as_it_is():
    slope = values(DEMO)["roof.slope"]
    assert is_allowed(DEMO, "roof.slope", slope)
    assert not is_allowed(DEMO, "roof.slope", slope + Fraction(1, 1000))
    assert not is_allowed(DEMO, "bottom_board.panel_length", Fraction(0))


def test_a_note_forbids_nothing():
    """Skin 1/4: bearing 1 1/2 - 1 - 1/4 = 1/4; rails 1/16 thinner leave 3/16, only told."""
    hive = hive_of(frames="10", skin_thickness="1/4")
    thin = {"bottom_board.side_rail_thickness": Fraction(23, 16)}
    bearing = {f.rule: f for f in findings(hive, thin)}["sleeve.box_bearing"]
    assert (bearing.holds, bearing.level) == (False, "note")
    assert newly_failing(hive, thin) == []


def test_a_rule_that_fails_already_does_not_count_against_a_piece():
    """The deck of 3/4 in overhang drips on its skirt whatever the deck's screw line is."""
    hive = hive_of(hive_length="23", hive_width="17", overhang="3/4", cap_clearance="1")
    assert "roof.deck_drips_clear" in failing_without_notes(hive)
    assert is_allowed(hive, "roof.deck_length", values(hive)["roof.deck_length"])


# ── the mark ──────────────────────────────────────────────────────────────────────────────────

THIRDS = hive_of(hive_length="587.4 mm", hive_width="441.3 mm", frame_play="24 mm")
EXPECTED = [
    # 587.4 mm is 23.126 in: rails 21.626, opening 20.126, panel 19.876, screen 20.001
    ("bottom_board.side_rail_length", "21 5/8"),  # nearest
    ("bottom_board.panel_length", "19 7/8"),  # down: it slides
    ("bottom_board.screen_side_strip_length", "20"),
    # deck 441.3 mm + 4 in = 21.374: up, it covers
    ("roof.deck_width", "21 3/8"),
]


@pytest.mark.parametrize(("name", "expected"), EXPECTED)
def test_the_mark_goes_the_way_that_the_piece_permits(name, expected):
    assert mark(THIRDS, name) == inches(expected)


def test_a_mark_that_would_let_a_rule_fail_is_not_taken():
    """Rim side 23.13 + 3/8 = 23.505: 23 1/2 leaves 0.185 behind the skirt, bees need 3/16."""
    hive = hive_of(hive_length="23.13", hive_width="17 3/8", cap_clearance="3/8")
    name = "roof.rim_side_length"
    nearest = rounded(values(hive)[name], SIXTEENTH, DIMENSIONS.dimension(name).rule.rounding)
    assert nearest == Fraction(47, 2)
    assert newly_failing(hive, {name: nearest}) == ["roof.way_behind_skirt"]
    assert mark(hive, name) == nearest + Fraction(1, 16)


@settings(max_examples=12)
@given(allowed_hives())
def test_the_parts_table_shows_the_mark_of_every_size(hive):
    grid, unit = MARKS[hive.units], MM if hive.units == "mm" else 1
    table = parts_report(hive, grid).rows()
    column = table.columns.index("thickness")
    for row, piece in zip(table.rows, parts(hive), strict=True):
        for text, size in zip(row[column : column + 3], SIZES, strict=True):
            found = getattr(piece, size)
            if found is None or of_sheet(piece, size):
                continue
            best = mark(hive, f"{piece.component}.{piece.part}_{size}")
            read = inches(re.sub("≈ | in| mm", "", str(text)))
            assert read * unit == best or best % grid.step
            assert str(text).startswith("≈") is (found.value % grid.step != 0)


def test_a_coarser_grid_has_its_own_marks():
    """Rim back 1.585 in: 1 5/8 by eighths, and 1 5/8 by sixteenths too: up, for it is planed."""
    back = next(p for p in parts(DEMO) if p.part == "rim_back")
    for grid in (EIGHTH, SIXTEENTH):
        assert mark(DEMO, "roof.rim_back_width", grid) == Fraction(13, 8)
        found = marked(DEMO, back, grid).width
        assert found
        assert found.rounding is Rounding.UP
