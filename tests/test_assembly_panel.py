"""The panels of putting together: stepped, turned, ticked and kept; pulled square; cut anew."""

import re
from fractions import Fraction
from math import sqrt

import pytest

from hivecalc.answers import Answers, answers_path
from hivecalc.assembly import steps
from hivecalc.components import built
from hivecalc.fit import findings
from hivecalc.hive import Hive, changed, demo_hive, hive_from_text
from hivecalc.pages.assembly import (
    cut_anew,
    leans,
    looked_at,
    pulled,
    rule_table,
    shown_and_new,
    step_outcome,
)
from hivecalc.pages.outcomes import already_cut, planned_anew
from hivecalc.widgets import Bench
from hivecalc.widgets.page_hive import made_from_frames
from tests.hives import HIVES, hive_of
from tests.panels import enter, has, press, said, words
from tests.pictures import assert_clear

KINDS: dict[str, Hive] = {
    **{name: hive_from_text(text) for name, text in HIVES.items()},
    "demo": demo_hive(),
    "two boxes, mm": hive_of("mm", frames="10", boxes="2"),
}


# ── the rules ─────────────────────────────────────────────────────────────────────────────────


# With each of these fasteners of a wrong length more than eight rules fail.
WRONG = {
    "deck_screw": "3", "frame_screw": "1 1/2", "long_brad": "2 1/2", "cover_screw": "1/2",
    "short_brad": "2", "stop_brad": "1 1/2", "sheet_brad": "1 1/2", "stud_thickness": "1",
}  # fmt: skip


@pytest.mark.parametrize("hive", [demo_hive(), changed(demo_hive(), WRONG)], ids=["demo", "wrong"])
def test_the_tightest_rules_and_all_that_fail_stand_there_at_once_and_the_others_folded(hive):
    found = findings(hive)
    failing = sum(not f.holds and f.level != "note" for f in found)
    shown, _, others = rule_table(hive).partition("<details")
    assert shown.count("<tr>") - 1 == max(8, failing)
    assert shown.count("fails") >= failing
    assert shown.count("<tr>") - 1 + others.count("<tr>") - 1 == len(found)
    assert f"The other {others.count('<tr>') - 1} rules" in others


# ── step by step ──────────────────────────────────────────────────────────────────────────────


@pytest.fixture
def panel(bench):
    return bench.assembly()


def test_steps_go_on_and_back_and_end_at_both_ends(panel):
    assert "Hang the back" in said(panel.message)
    press(panel, "Step back")
    assert panel.step.value == 1
    press(panel, "Next step")
    assert "Step 2 of 24: Glue in the front rail" in said(panel.message)
    assert "front rail: 4 screws of 3 in, and glue" in said(panel.follows)
    panel.step.value = panel.step.max
    press(panel, "Next step")
    assert "Step 24 of 24" in said(panel.message)


def test_a_tick_is_there_after_a_reload_which_begins_at_what_is_still_to_do(panel, file):
    panel.done.value = True
    press(panel, "Next step")
    assert not panel.done.value
    panel.done.value = True
    assert "2 of 24 steps done" in said(panel.far)
    again = Bench(str(file)).assembly()
    assert again.step.value == 3
    press(again, "Step back")
    assert again.done.value
    again.done.value = False
    assert Bench(str(file)).assembly().step.value == 2


def test_a_tick_is_no_answer_to_a_question_and_one_that_can_not_be_kept_says_so(panel, file):
    panel.done.value = True
    kept = Answers(answers_path(file))
    assert (kept.all(), kept.faults) == ([], ())
    assert kept.last("assembly.bottom_board.back#done") is not None
    answers_path(file).unlink()
    answers_path(file).mkdir()
    panel.done.value = False
    assert "✗" in said(panel.far)


def test_the_steps_follow_the_hive(panel, bench):
    panel.step.value = panel.step.max
    bench.page_hive.keep("inner_cover", "no")
    assert panel.step.max == len(steps(bench.hive)) == 20
    assert "Step 20 of 20" in said(panel.message)


def test_the_slider_turns_the_hive(panel):
    before = panel.picture.value
    panel.turn.value = 180
    assert "From the back" in said(panel.picture)
    assert panel.picture.value != before


@pytest.mark.parametrize("kind", ["smallest", "largest", "sleeved", "two boxes, mm"])
def test_each_step_has_a_sound_picture_with_clear_labels_and_says_all_of_it(kind):
    work = steps(hive := KINDS[kind])
    for number, step in enumerate(work, 1):
        told = step_outcome(hive, work, number, 30 + 40 * number)
        assert_clear(told.picture)
        cautions = [" ".join(caution.text.split()) for caution in step.cautions]
        has(words(told.follows), *step.do, *step.holds, step.why, step.check, *cautions)


@pytest.mark.parametrize("kind", KINDS)
def test_the_picture_grows_and_shows_nothing_before_its_time(kind):
    hive = KINDS[kind]
    work = steps(hive)
    for number, step in enumerate(work, 1):
        shown, new = shown_and_new(work[:number], looked_at(hive, step))
        if step.pieces:
            assert set(new) <= set(shown) <= set(step.shown)
            assert not set(shown) & set(step.off)
        later = {p.name for each in work[number:] for p in each.pieces}
        assert not later & set(shown)


def test_the_screen_is_seen_alone_until_it_is_slid_in():
    work = {step.key.partition(".")[2]: step for step in steps(demo_hive())}
    for key in ("screen_below", "screen_above"):
        assert all("screen" in name or "mesh" in name for name in work[key].shown)
    has(work["slide_in"].shown, "bottom board: side rail, left", "bottom board: mesh")


def test_panel_and_screen_are_both_lit_where_both_slide_in():
    work = steps(demo_hive())
    number = next(n for n, s in enumerate(work, 1) if s.key == "bottom_board.slide_in")
    _, new = shown_and_new(work[:number], ["bottom_board"])
    kinds = {name.removeprefix("bottom board: ").split(",")[0] for name in new}
    screen = {"screen side strip", "screen end strip", "screen front stop", "mesh"}
    assert kinds == {"panel", *screen}


def test_the_key_of_a_picture_lists_only_what_is_there_and_keeps_its_numbers():
    work = steps(demo_hive())
    first, second = (step_outcome(demo_hive(), work, n).picture for n in (1, 2))
    has(first, "side rail", without=("front rail",))
    assert ">3</text>" in first  # the back rail, the third part
    assert "front rail" in second
    assert re.findall(r"viewBox=\S+ \S+ \S+ \S+", first)[0] in second  # nothing jumps


# ── pulled square ─────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("units", ["inch", "mm"])
def test_a_frame_is_square_where_both_diagonals_are_the_same(units):
    hive = hive_of(units, hive_length="23 1/8 in", hive_width="17 3/8 in")
    told = {lean: pulled(hive, lean).message for lean in leans(hive.units)}
    assert "the same" in told[Fraction(0)]
    right = {lean for lean, message in told.items() if "hc-right" in message}
    width, diagonal = Fraction(139, 8), sqrt(float(Fraction(185, 8)) ** 2 + (139 / 8) ** 2)
    for lean in told:  # to the first order each diagonal changes by width · lean / diagonal
        differ = 2 * float(width * abs(lean)) / diagonal
        if abs(differ - 1 / 8) > 1 / 64:
            assert (lean in right) == (differ <= 1 / 8), lean


def test_the_longer_diagonal_ends_where_the_back_leans_to():
    told = pulled(demo_hive(), Fraction(1, 2)).message
    rising, falling = (
        told.index(t) for t in ("front left to back right", "front right to back left")
    )
    # by hand: √(23.125² + 17.375² ± 17.375) is 29.22 and 28.62
    assert "29 7/32 in" in told[rising:falling]
    assert "28 5/8 in" in told[falling:]


def test_the_frame_is_pulled_by_its_slider(bench):
    panel = bench.pull_square()
    assert "✗" in said(panel.message)
    panel.lean.value = "0 in"
    assert "it is square" in said(panel.message)
    assert "both diagonals are the same" in said(panel.picture)


# ── cut to what was built ─────────────────────────────────────────────────────────────────────


def test_what_is_cut_anew_follows_the_opening_that_is_typed(bench):
    openings, anew = bench.openings(), bench.cut_anew()
    assert "No opening is typed yet" in said(anew)
    enter(openings.fields["built_opening_width"], "14 1/4")
    # by hand: 14 1/4 - 1/4, 14 1/4 - 1/8; planned 14 3/8 - 1/4 and 14 3/8 - 1/8
    strip = "screen end strip length 12 3/4 in 12 5/8 in"
    has(said(anew), "panel width 14 1/8 in 14 in", strip, without=("rail",))
    enter(openings.fields["built_opening_width"], "14 3/8")
    assert "as planned" in said(anew)


def test_another_hive_is_not_held_to_the_opening_of_this_one():
    """A what-if of 19 in would leave 16, a box from frames 16 1/4; in this frame it is 14 1/4."""
    glued = hive_of(hive_length="23 1/8", hive_width="17 3/8", built_opening_width="14 1/4")
    for way in (planned_anew, already_cut):
        assert way(glued, "hive_width", "19").picture
    assert "sleeve" in built(made_from_frames(glued))


def test_the_roofs_foam_is_cut_to_its_own_rim():
    narrow = hive_of(hive_length="23 1/8", hive_width="17 3/8", built_rim_opening_width="14 3/4")
    assert "<td>roof panel width</td><td>14 7/8 in</td><td>14 3/4 in</td>" in cut_anew(narrow)
