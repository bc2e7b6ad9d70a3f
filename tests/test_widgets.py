"""The panels as a learner uses them, without a browser: entries read, refused, saved, undone."""

import asyncio
import errno
import html
import os
import re
import subprocess
import sys
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from hivecalc.components import DIMENSIONS, built, values
from hivecalc.hive import (
    MEASUREMENTS,
    demo_hive,
    exact_text,
    hive_from_file,
    hive_text,
    write_whole,
)
from hivecalc.judging import SLIPS, verdict
from hivecalc.length import written
from hivecalc.pages import outcomes
from hivecalc.pages.contents import found_on
from hivecalc.pages.messages import heading
from hivecalc.reports.book import this_hive
from hivecalc.widgets import Bench
from hivecalc.widgets.answering import Ask, SumPractice, Sums, task_steps, task_verdict
from hivecalc.widgets.field import ENTER_BEFORE_TEXT, Area, Field
from hivecalc.widgets.page_hive import PageHive, hive_path
from hivecalc.widgets.panels import Entries, WhatIf, text_of
from hivecalc.workshop import yard_text
from tests.panels import enter, has, press, said, walk, words
from tests.refusing import failing

FRONT_RAIL = "bottom_board.front_rail_length"


def press_enter(field) -> str:
    """Press Enter in a field on what stands there; what is said comes back."""
    field.box._handle_custom_msg({"event": "submit"}, [])  # noqa: SLF001 - as a browser sends it
    return said(field.message)


def measure(bench: Bench, name: str, text: str) -> str:
    """Type a measurement on a page that asks for it alone; what is said comes back."""
    return enter(bench.measurements(name).fields[name], text)


def read(panel, *texts: str) -> list[str]:
    """Type a reading into each field of a panel; what each field says comes back."""
    return [enter(field, text) for field, text in zip(panel.fields, texts, strict=True)]


def fill(panel, sizes: dict[str, str]) -> str:
    """Type sizes by name and have them used; what is said comes back."""
    for name, text in sizes.items():
        enter(panel.fields[name], text)
    panel.use()
    return said(panel.said)


# ── measurements ──────────────────────────────────────────────────────────────────────────────


def test_a_measurement_is_saved_as_it_is_entered_and_taken_out_when_emptied(bench, file):
    panel = bench.measurements("hive_length", "stud_thickness")
    told = enter(panel.fields["hive_length"], "22 7/8")
    assert told == "✓ Saved: hive length 22 7/8 in (≈ 581 mm)."
    enter(panel.fields["stud_thickness"], "1 9/16")
    kept = {"hive_length": Fraction(183, 8), "stud_thickness": Fraction(25, 16)}
    assert hive_from_file(file).measured.items() >= kept.items()
    assert bench.hive.measured.items() >= kept.items()
    assert "1 9/16 in" in said(panel.tape)
    enter(panel.fields["stud_thickness"], "")
    assert "stud_thickness" not in hive_from_file(file).measured


REFUSED = {
    "rubbish": "rubbish", "": "missing", "9" * 10_000: "characters", "-3": "-3",
    "<img src=x onerror=alert(1)>": "<img", "300": "300 in is too large",
    "2": "2 in is too small",
}  # fmt: skip


def test_what_can_not_be_right_is_refused_and_the_old_value_stays(bench, file):
    panel = bench.measurements("hive_length", "hive_width")
    enter(panel.fields["hive_length"], "22 7/8")
    before = file.read_bytes()
    for text, named in REFUSED.items():
        told = enter(panel.fields["hive_length"], text)
        assert told.startswith("✗")
        assert named in told
        assert "Still in use: 22 7/8 in." in told
        assert "<img" not in panel.fields["hive_length"].message.value
        assert file.read_bytes() == before
        assert bench.hive.measured["hive_length"] == Fraction(183, 8)


def test_a_nonsense_file_is_told_and_left_and_a_new_lesson_shows_the_demo_hive(bench, file):
    panel = bench.measurements("hive_length")
    enter(panel.fields["hive_length"], "22 7/8")
    file.write_text("[measured\nhive_length = ")
    has(enter(panel.fields["hive_length"], "23"), "✗", "my-hive.toml")
    assert file.read_text() == "[measured\nhive_length = "
    assert bench.hive.measured["hive_length"] == Fraction(183, 8)
    opened = PageHive(file)
    assert (opened.hive, opened.demo, bool(opened.faults)) == (demo_hive(), True, True)


@pytest.mark.parametrize("trouble", [errno.ENOSPC, errno.EROFS, errno.EACCES])
def test_a_disk_that_does_not_take_it_is_told_and_nothing_is_lost(
    bench, file, monkeypatch, trouble
):
    panel = bench.measurements("hive_length")
    enter(panel.fields["hive_length"], "22 7/8")
    before = file.read_bytes()
    monkeypatch.setattr(os, "replace", failing(trouble))
    assert enter(panel.fields["hive_length"], "23").startswith("✗")
    assert file.read_bytes() == before
    assert [*file.parent.iterdir()] == [file]
    assert bench.hive.measured["hive_length"] == Fraction(183, 8)


def test_what_another_window_saves_is_judged_by_at_the_next_answer(bench, file):
    """A lesson open in one tab, the stud measured in another: 17 3/8 − 2 × 1 9/16 = 14 1/4."""
    (ask,) = asked(bench, FRONT_RAIL)
    assert enter(ask.field, "14 3/8").startswith("✓ Right")
    PageHive(file).keep("stud_thickness", "1 9/16")
    assert enter(ask.field, "14 1/4").startswith("✓ Right")
    assert bench.hive.measured["stud_thickness"] == Fraction(25, 16)


def test_the_heading_says_whose_hive_it_is_and_what_is_still_the_demos(bench):
    assert bench.page_hive.demo
    measure(bench, "hive_length", "22 7/8")
    shown = html.unescape(bench._heading())  # noqa: SLF001 - shown, not returned
    assert "hive width is still the demo's, 17 3/8 in" in shown


def test_a_hive_is_named_and_a_name_that_steers_is_refused(bench, file):
    named = bench.name()
    assert "“North row”" in enter(named, "North row")
    assert hive_from_file(file).name == "North row"
    assert enter(named, "bad\u202ename").startswith("✗")
    assert enter(named, " ") == "✗ The name is empty; write 1 to 80 characters on one line."
    assert hive_from_file(file).name == "North row"
    enter(named, "<b>bold</b>")
    assert "<b>bold" not in named.message.value


# ── pictures and outcomes ─────────────────────────────────────────────────────────────────────


def test_a_wrong_cut_is_built_in_measured_and_undone_by_one_press(bench):
    panel: WhatIf = bench.cut(FRONT_RAIL)
    words_of = re.compile(r"(?<!<style)>([^<]+)<").findall
    before = words_of(panel.picture.value)
    enter(panel.field, "15 7/8")
    has(said(panel.follows), "1 1/2 in", "right side rail")
    assert "overlap 1 1/2 in" in panel.picture.value
    assert "✗ Widest gap at panel fails: Cold air" in said(panel.follows)
    press(panel, "Back to my hive")
    assert panel.field.box.value == "14 3/8"
    assert words_of(panel.picture.value) == before


def test_a_piece_that_is_cut_off_a_little_says_what_can_hurt(bench):
    panel = bench.pieces()
    assert "21 7/8" in enter(panel.fields.children[0], "21 7/8")  # a side rail, 1/4 in too long
    assert "thin slice" in said(panel.follows)


def test_a_changed_stud_shows_old_and_new_and_is_not_saved(bench, file):
    panel = bench.change("stud_thickness", "hive_length")
    told = enter(panel.field, "1 9/16")
    assert told == "• Stud thickness: was 1 1/2 in (≈ 38 mm), now 1 9/16 in (≈ 40 mm)."
    follows = said(panel.follows)
    assert "bottom board: front rail length why was 14 3/8 in now 14 1/4 in" in follows
    assert re.search(r"\d more in other parts of the hive", follows)
    assert not file.exists()
    assert bench.hive == demo_hive()
    panel.choice.value = "hive_length"  # begins again from the hive
    assert (panel.field.box.value, said(panel.follows)) == ("23 1/8", "")


def test_a_slider_and_its_field_are_twins_in_both_ways_of_a_what_if(bench):
    panel: WhatIf = bench.change("stud_thickness", "frames")
    panel.twin.slider.value = "1 9/16"
    assert panel.field.box.value == "1 9/16"
    assert "was 14 3/8 in now 14 1/4 in" in said(panel.follows)
    assert "overlap" not in panel.picture.value
    panel.way.value = "pieces already cut"
    assert "overlap" in panel.picture.value
    enter(panel.field, "38.1 mm")  # 1 1/2 in
    assert panel.twin.slider.value == "1 1/2"
    enter(panel.field, "1 37/64")  # between two marks of the slider
    assert panel.twin.slider.value == "1 1/2"
    panel.back()
    assert (panel.field.box.value, panel.twin.slider.value) == ("1 1/2", "1 1/2")


@pytest.mark.parametrize("units", ["inch", "mm"])
def test_a_slider_offers_marks_of_the_tape_that_the_hive_allows(bench, units):
    bench.page_hive.count_in(units)
    for name, known in MEASUREMENTS.items():
        if name not in values(bench.hive) or known.kind == "answer":
            continue
        own, (low, high) = values(bench.hive)[name], known.limits(units)
        marks = outcomes.marks_around(bench.hive, name)
        assert own in marks
        assert list(marks) == sorted(set(marks))
        assert all(low <= mark <= high for mark in marks if mark != own), name
        if known.kind == "length":
            step = Fraction(1, 64) if units == "inch" else Fraction(1, 254)
            assert all((mark / step).denominator == 1 for mark in marks if mark != own), name


def test_a_wrong_cut_begins_with_the_mark_that_the_cutting_list_has(file):
    """Foam of 25 mm round a box in inches: no inch is exact, and nobody cuts 418.297 mm."""
    file.write_text(
        '[measured]\nbox_length = "20 1/16"\nbox_width = "16 3/8"\nbox_height = "9 5/8"\n'
        'foam_thickness = "25 mm"\nstud_thickness = "1 7/16"\n'
    )
    panel = Bench(str(file)).cut(FRONT_RAIL)
    # 16 3/8 + 2 x (63/64 + 1/2) - 2 x 1 7/16 = 16 15/32 and a little less
    assert panel.field.box.value == "16 7/16"
    assert panel.twin.slider.value == "16 7/16"


def test_a_change_of_the_hive_reaches_every_panel_of_the_page(bench):
    drawn, (ask,) = bench.picture_to_work_out("plan"), asked(bench, "bottom_board.side_rail_length")
    assert "Right" in enter(ask.field, "21 5/8")
    measure(bench, "hive_length", "24")
    assert "hive 24 in" in drawn.value
    assert said(ask.field.message).startswith("✗")


def test_an_answer_is_judged_and_after_three_tries_the_steps_are_shown(bench):
    ask = Ask(bench.page_hive, FRONT_RAIL)
    for tries, text in enumerate(["15 7/8", "15", "16"], 1):
        assert enter(ask.field, text).startswith("✗")
        assert bool(ask.help.steps.value) == (tries == 3)
    assert "17 3/8 − 2 × 1 1/2" in said(ask.help.steps)
    assert enter(ask.field, "14 3/8").startswith("✓ Right")
    assert ask.help.steps.value == ""
    press(ask, "Show me the steps")
    assert "It stands between the two side rails" in said(ask.help.steps)


def test_diagonals_say_how_far_out_of_square(bench):
    panel: Entries = bench.diagonals()
    assert "both diagonals are about 28 15/16 in" in said(panel.message)
    read(panel, "29 1/8", "28 3/4")
    assert "differ by 3/8 in" in said(panel.message)
    assert "leans" in panel.picture.value
    misread = outcomes.two_diagonals(demo_hive(), "30", "20")
    assert ("misread" in misread.message, misread.picture) == (True, "")


def test_the_diagonals_of_a_box_stay_those_of_the_box_when_it_gets_a_sleeve(bench):
    bench.page_hive.keep_box({"box_length": "20", "box_width": "15", "box_height": "10"})
    for number in (0, 1):
        bench.page_hive.keep_reading("diagonals", number, "25")  # 15² + 20² = 25²
    square = "The diagonals differ by 0 in: square enough to build for."
    assert square in said(bench.diagonals().message)
    assert square in str(this_hive(bench.hive))


def test_three_places_and_a_press_save_the_largest(bench, file):
    panel = bench.places("hive_length")
    panel.children[-1].click()
    assert said(panel.message).startswith("✗")  # nothing was read yet
    assert not file.exists()
    read(panel, "23", "23 1/16", "23")
    assert "Use the largest, 23 1/16 in" in said(panel.message)
    panel.children[-1].click()
    assert hive_from_file(file).measured["hive_length"] == Fraction(369, 16)


def test_of_readings_that_can_not_all_be_right_none_is_used(bench):
    panel = bench.places("hive_width")
    read(panel, "20 3/8", "16 1/4", "26 5/16")
    panel.children[-1].click()
    assert "differ by 10 1/16 in: one of them is misread" in said(panel.message)
    assert bench.hive.measured["hive_width"] == demo_hive().measured["hive_width"]


# What is typed, and what it may have been meant as.
FAR_OFF = [
    ("inch", "hive_length", "587", "Is it in millimetres? Then write mm"),
    ("mm", "hive_length", "57,9", "Is it in centimetres? Then write cm"),
    ("inch", "stud_thickness", "3 7/16", "Still in use"),  # nobody writes mm so
    ("inch", "stud_thickness", "4", "Still in use"),  # 4 mm would be too small
    ("mm", "hive_length", "3.8", "Still in use"),  # 3.8 cm would be, too
]


@pytest.mark.parametrize(("units", "name", "text", "asks"), FAR_OFF)
def test_a_number_far_off_may_be_in_another_unit(bench, units, name, text, asks):
    bench.page_hive.count_in(units)
    told = measure(bench, name, text)
    assert asks in told
    assert ("Is it in" in told) == ("Is it in" in asks)


# A panel, the size it is of, what is typed, and how the sentence beside the field begins.
BESIDE = [
    ("measurements", "strip_narrow", "3/4", "Screen front stop thickness: no room is left"),
    ("change", "stud_thickness", "15",
     "Stud thickness: 15 in is too large; give 1 in to 2 1/4 in, because"),
    ("cut", FRONT_RAIL, "0", "0 in is too small; give 1/64 in to 120 in, because no piece"),
    ("cut", FRONT_RAIL, "9999", "9999 in is too large; give 1/64 in to 120 in, because no piece"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "name", "text", "begins"), BESIDE)
def test_a_fault_beside_a_field_names_a_size_in_words(bench, kind, name, text, begins):
    panel = getattr(bench, kind)(name)
    told = enter(panel.fields[name] if kind == "measurements" else panel.field, text)
    assert told.startswith(f"✗ {begins}")
    assert "--set" not in told
    assert kind != "cut" or panel.picture.value == ""


def test_a_box_becomes_the_hive_all_three_sizes_or_none(bench, file):
    panel = bench.sleeved_box()
    assert fill(panel, {"box_length": "19 7/8", "box_width": "16 1/4"}).startswith("✗")
    assert not file.exists()
    assert "22 7/8 in (≈ 581 mm) long and 19 1/4 in" in fill(panel, {"box_height": "9 5/8"})
    assert set(hive_from_file(file).measured) == {"box_length", "box_width", "box_height"}
    assert panel.use_button.description == "My hive is this box in a sleeve"
    assert values(bench.hive)["hive_length"] == Fraction(183, 8)


def test_a_slip_in_a_sum_is_named_and_the_steps_come_at_the_third_try(bench):
    (sum_,) = bench.sums("17 1/4 − 2 5/8").children
    assert "an inch were borrowed for the fraction" in enter(sum_.field, "15 5/8")
    assert "the smaller fraction were taken from the larger one" in enter(sum_.field, "15 3/8")
    assert sum_.help.steps.value == ""
    assert "not the value expected" in enter(sum_.field, "13")
    has(said(sum_.help.steps), "borrow an inch", without=("14 5/8",))
    assert enter(sum_.field, "14 5/8") == "✓ Right."
    assert sum_.help.steps.value == ""
    assert enter(sum_.field, "14.625").endswith("On a cutting list it is written 14 5/8 in.")
    assert "Cannot read" in enter(sum_.field, "about 14")


# Worked on paper: the sum that practises each slip, done with that slip.
PRACTISED = {
    "inch_not_lowered": "9 5/8", "smaller_from_larger": "7 1/4", "carry_dropped": "6 1/2",
    "ten_not_lowered": "424", "smaller_digit_from_larger": "545", "ten_not_carried": "322",
}  # fmt: skip


@pytest.mark.parametrize("name", PRACTISED)
def test_the_sum_that_practises_a_slip_is_in_its_unit_and_shows_it(name):
    task = SLIPS[name].task
    assert name in {slip.name for slip in task_verdict(task, PRACTISED[name]).slips}
    assert ("inch" in task_steps(task)) == ("mm" not in task)


def test_answers_to_sums_are_kept_in_the_learners_own_file(bench):
    answers = bench.page_hive.answers
    for again in (False, True):
        (sum_,) = Sums(["4 5/8 + 2 7/8"], answers).children
        assert (sum_.field.box.value == "6 1/2") == again
        assert ("not carried over" in said(sum_.field.message)) == again
        enter(sum_.field, "6 1/2")
    assert [(a.asked, a.slips[0]) for a in answers.all()] == [("4 5/8 + 2 7/8", "carry_dropped")]
    assert bench.sums("4 5/8 + 2 7/8").children[0].field.box.value == "6 1/2"


def test_after_a_slip_in_a_sum_another_one_practises_it_and_stays_while_the_slip_does(bench):
    (ask,) = asked(bench, "bottom_board.side_rail_length")
    (offered,) = (each for each in walk(ask) if isinstance(each, SumPractice))
    enter(ask.field, "22 5/8")  # 23 1/8 - 1 1/2, and no inch lowered
    assert all_said(offered).startswith("• Practise that on another sum:")
    first = offered.children
    enter(ask.field, "22.625")
    assert offered.children == first
    enter(ask.field, "22 3/8")  # the smaller fraction taken from the larger
    assert offered.children != first


def test_a_hive_can_be_told_in_millimetres_from_now_on(bench):
    fields, units = bench.measurements("hive_length", "stud_thickness"), bench.tape_units()
    enter(fields.fields["hive_length"], "23 1/4")
    units.choice.value = "mm"
    assert "a number alone is in millimetres" in said(units.said)
    assert fields.fields["hive_length"].box.value == "590.55"  # 23 1/4 in x 25.4
    assert bench.hive.measured["hive_length"] == Fraction(93, 4)
    assert "usual size in that unit" in said(units.said)
    press_enter(fields.fields["stud_thickness"])  # 38, the usual one
    assert bench.hive.measured["stud_thickness"] == 38 * Fraction(5, 127)
    assert Bench(str(bench.page_hive.path)).tape_units().choice.value == "mm"


def test_the_demo_hive_is_one_of_whole_millimetres_for_a_tape_in_mm(bench):
    """It is nobody's: 23 1/8 by 17 3/8 in are 587.375 by 441.325 mm, and no tape shows those."""
    fields, units = bench.measurements("hive_length", "hive_width"), bench.tape_units()
    units.choice.value = "mm"
    assert [f.box.value for f in fields.fields.values()] == ["587", "441"]
    assert bench.page_hive.demo
    assert "≈" not in words(fields.tape.value)
    units.choice.value = "inch"
    assert [f.box.value for f in fields.fields.values()] == ["23 1/8", "17 3/8"]
    assert bench.hive == demo_hive()


def test_a_size_that_is_still_the_demo_hives_is_told_whatever_the_tape_shows(bench):
    enter(bench.measurements("hive_length").fields["hive_length"], "24")
    bench.tape_units().choice.value = "mm"
    told = words(heading(bench.hive, demo=bench.page_hive.demo, place="my-hive.toml"))
    has(told, "The hive width is still the demo's", without=("The hive length is still",))


def test_a_box_in_a_sleeve_is_saved_though_the_page_shows_another(bench):
    told = fill(
        bench.with_frames().sleeved_box(),
        {"box_length": "19 7/8", "box_width": "14", "box_height": "9 5/8"},
    )
    assert "Saved" in told
    assert Bench(str(bench.page_hive.path)).hive.measured["box_width"] == 14


# ── earlier answers ───────────────────────────────────────────────────────────────────────────

# On the demo hive: opening width 17 3/8 - 2 x 1 1/2 = 14 3/8, panel width 14 3/8 - 1/4 = 14 1/8,
# screen width 14 3/8 - 1/8 = 14 1/4, its end strip 14 1/4 - 2 x 3/4 = 12 3/4.
OPENING, PANEL = "bottom_board.opening_width", "bottom_board.panel_width"
SCREEN, STRIP = "bottom_board.screen_width", "bottom_board.screen_end_strip_length"


def asked(bench: Bench, *dimensions: str) -> list[Ask]:
    return [each.at_once for each in bench.ask(*dimensions).children]


def one_stud_too_wide(bench: Bench) -> list[Ask]:
    """The questions for opening and panel, and the first answered 17 3/8 - 1 1/2."""
    opening, panel = asked(bench, OPENING, PANEL)
    enter(opening.field, "15 7/8")
    return [opening, panel]


def test_an_answer_is_right_for_an_earlier_one_and_says_which_to_look_at(bench, file):
    _, panel = one_stud_too_wide(bench)
    told = enter(panel.field, "15 5/8")
    assert told.startswith("✓ Right, worked on from your opening width of 15 7/8 in.")
    has(told, "look at that opening width again before you cut", "Begin with the opening width")
    assert bench.page_hive.answers.last(PANEL).verdict == "right_carried"
    assert panel.help.built.value == ""
    (strip,) = asked(Bench(str(file)), STRIP)  # on another page: 15 7/8 - 1/8 - 1 1/2
    assert "worked on from your opening width" in enter(strip.field, "14 1/4")
    opening, panel = asked(Bench(str(file.with_name("other.toml"))), OPENING, PANEL)
    assert enter(panel.field, "15 5/8").startswith("✗")
    enter(opening.field, "15 7/8")  # one that comes later counts too
    assert "worked on from your opening width" in said(panel.field.message)


def test_when_the_earlier_answer_is_mended_the_later_one_is_told_so(bench, file):
    opening, panel = one_stud_too_wide(bench)
    enter(panel.field, "15 5/8")
    enter(opening.field, "14 3/8")
    (again,) = asked(Bench(str(file)), PANEL)
    for ask in (panel, again):
        assert said(ask.field.message) == (
            "✗ This was right for your old opening width. You have changed that opening width "
            "since, so work this one out again from the new one."
        )
    assert enter(panel.field, "15 1/2").startswith("✗ Not yet")
    assert enter(panel.field, "14 1/8") == "✓ Right."


def test_carried_answers_are_judged_again_when_the_hive_changes(bench):
    opening, panel = one_stud_too_wide(bench)
    enter(panel.field, "15 5/8")
    measure(bench, "hive_width", "18 7/8")  # opening 15 7/8
    assert said(opening.field.message) == said(panel.field.message) == "✓ Right."


def test_answers_for_another_hive_are_not_carried(bench):
    opening, panel = one_stud_too_wide(bench)
    enter(bench.name(), "North row")
    assert enter(panel.field, "15 5/8").startswith("✗")
    enter(opening.field, "15 3/4")
    assert enter(panel.field, "15 1/2").startswith("✓ Right, worked on")


def test_a_right_answer_stays_right_when_the_tape_is_changed(bench):
    """A fraction alone is no number in mm; of an exercise the other numbers are asked then."""
    (opening,) = asked(bench, OPENING)
    typed, chosen = bench.exercise("09-01"), bench.exercise("09-03")
    enter(opening.field, "14 3/8")
    enter(typed.field, "28 5/8")
    press(chosen, "1 in longer")
    bench.tape_units().choice.value = "mm"
    assert (opening.field.box.value, said(opening.field.message)[:7]) == ("14 3/8 in", "✓ Right")
    assert OPENING in found_on(bench.hive, bench.page_hive.answers)
    again = bench.exercise("09-01")
    for panel in (typed, again):
        assert (panel.field.box.value, said(panel.field.message)) == ("", "")
    assert said(chosen.field.message) == ""
    bench.tape_units().choice.value = "inch"
    assert (opening.field.box.value, typed.field.box.value) == ("14 3/8", "28 5/8")


def test_an_exercise_carries_on_from_one_on_the_same_givens(bench):
    # 04-05 asks for the stack's height, and 04-06 for the headroom above it, on one hive
    stack, headroom = bench.exercise("04-05"), bench.exercise("04-06")
    wrong = values(stack.asked.numbers.hive)["bottom_board.stack_height"] - Fraction(1, 4)
    enter(stack.field, written(wrong))
    left = headroom.asked.numbers.hive.measurements["stud_width"] - wrong
    told = enter(headroom.field, written(left))
    assert told.startswith("✓ Right, worked on from your stack height")
    headroom.another()  # on other numbers
    assert enter(headroom.field, written(left)).startswith("✗")


def test_an_exercise_on_ones_own_hive_and_a_lesson_carry_on_from_one_another(bench):
    panel, opening = bench.exercise("03-02"), asked(bench, OPENING)[0]
    enter(opening.field, "15 7/8")
    assert enter(panel.field, "15 5/8").startswith("✗")  # its givens are its own
    panel.on_own_hive()
    assert enter(panel.field, "15 5/8").startswith("✓ Right, worked on from your opening width")
    assert bench.page_hive.answers.last("03-02 own").verdict == "right_carried"


def test_the_piece_as_answered_is_built_in_below_a_question_of_a_lesson(bench):
    (rail,) = asked(bench, FRONT_RAIL)
    enter(rail.field, "15 7/8")
    has(said(rail.help.built), "overlap ?", without=("1 1/2 in too long",))
    enter(rail.field, "15 3/4")
    assert "1 3/8 in too long" in said(rail.help.built)
    enter(rail.field, "14 3/8")
    assert rail.help.built.value == ""


def test_a_piece_as_answered_is_drawn_only_where_its_answer_can_be_seen():
    """Two wrong answers to one question give two drawings, apart from what is written there."""
    hive, compared = demo_hive(), 0
    written = r"<(title|desc|text)\b.*?</\1>|<div.*|\bd\d+-[0-9a-f]{6}|data-\S+"
    found = values(hive)
    for name in found.keys() & DIMENSIONS.dimensions.keys():
        wrong = [replace(verdict(hive, name, "1"), value=found[name] * n / 8) for n in (6, 7)]
        looks = [re.sub(written, "", outcomes.as_answered(hive, name, one, 1)) for one in wrong]
        if looks[0]:
            compared += 1
            assert looks[0] != looks[1], f"{name}: not to be seen, so NOT_SEEN has to name it"
    assert compared >= 20


def test_what_the_answers_show_is_counted_anew_after_each_one(bench):
    learned = bench.progress()
    assert said(learned) == "• No answer of yours is saved yet."
    enter(asked(bench, FRONT_RAIL)[0].field, "15 7/8")
    has(said(learned), "1 answer of yours on 1 day.", "thickness once")


@pytest.mark.parametrize(("panel", "typed"), [
    ("pieces", {"Left side rail, length": "0", "Right side rail, length": "9999"}),
    ("frame", {"Width in front": "0", "Length of the left side": "x"}),
    ("many_hives", {"Off by, cut": "x", "Off by, tape": "2"}),
    ("openings", {"Built opening length": "0", "Built opening width": "1"}),
    ("basket", {"How many hives": "0", "Boards to spare, in percent": "101"}),
    ("boards", {"Kerf of your saw": "0", "Margin for each cut": "1", "Length of a board": "8"}),
    ("strips", {"Kerf of your saw": "x", "Least width at the fence": "0"}),
])  # fmt: skip
def test_each_field_that_can_not_be_is_told_beside_it_and_nowhere_else(bench, panel, typed):
    shown = getattr(bench, panel)()
    fields = {f.box.description: f for f in walk(shown) if isinstance(f, Field)}
    for label, text in typed.items():
        enter(fields[label], text)
    for label, text in typed.items():
        has(said(fields[label].message), "✗", "Cannot read" if text == "x" else text)
    assert refusals(shown) == len(typed)


def test_the_boards_to_spare_stand_as_the_learner_s_yard_has_them(bench, file):
    text = yard_text().replace("spare_boards = 5 ", "spare_boards = 10 ")
    write_whole(file.with_name("my-yard.toml"), text)
    assert bench.basket().fields[1].box.value == "10"


@pytest.fixture
def in_mm(file):
    write_whole(file, hive_text(demo_hive()).replace('units = "inch"', 'units = "mm"')
                .replace('"23 1/8"', '"587 mm"').replace('"17 3/8"', '"441 mm"'))  # fmt: skip
    return Bench(str(file))


@pytest.mark.parametrize("name", ["boards", "strips", "saw", "fence"])
@pytest.mark.parametrize("yard", ["inch", "mm"])
def test_shop_and_saw_of_a_hive_in_mm_are_told_in_mm(in_mm, name, yard):
    in_mm.page_hive.path.with_name("my-yard.toml").write_text(yard_text(yard))
    told = all_said(getattr(in_mm, name)())
    assert re.search(r"\d mm", told)
    assert re.findall(r"\d+ (?:in|ft)\b(?!\))", told) == []


def test_the_yard_is_the_tape_s_until_the_learner_writes_their_own_into_it(bench, file):
    own = file.with_name("my-yard.toml")
    own.write_text(yard_text())
    bench.page_hive.count_in("mm")
    assert own.read_text() == yard_text("mm")
    told = all_said(bench.basket())
    assert "2.4 m stud" in told
    assert re.findall(r"\d (?:in|ft)\b", told) == []
    own.write_text(mine := yard_text("mm").replace("price = 4\n", "price = 5\n"))
    bench.page_hive.count_in("inch")
    assert own.read_text() == mine


@pytest.mark.parametrize(("material", "cautions"), [
    ("foam", ("Knife: away from your hand", "Foam: wear a mask", "no flame")),
    ("plywood", ("Circular saw: hold up the sheet", "Guard over the blade")),
    ("mesh", ("Wear gloves and glasses",)), ("plastic", ("Knife: away from your hand",)),
])  # fmt: skip
def test_the_cuts_of_a_sheet_stand_below_their_cautions(bench, material, cautions):
    before, _, cuts = said(bench.sheets(material)).partition(" in order ")
    assert cuts
    has(before, *cautions)


def test_no_limit_is_told_finer_than_a_tenth_of_a_mm(in_mm):
    told = all_said(panel := in_mm.pieces()) + said(in_mm.rules())
    enter(panel.fields.children[0], "560")
    told += all_said(panel)
    assert "≈ 3.2 mm or less" in told
    assert re.findall(r"\d\.\d\d+ mm", told) == []


def test_sums_in_mm_are_shown_with_the_ten_that_is_carried_or_borrowed(in_mm):
    """441 − 38: 43 tens and 11 ones, as the text of lesson 01 does it; 247 + 38 carries one."""
    assert "441 is 43 tens and 11 ones" in all_said(in_mm.cut_off("441 mm", "38 mm"))
    assert "15 is more than ten: carry it" in all_said(in_mm.end_to_end("447 mm", "38 mm"))
    (panel,) = in_mm.sums("247 mm + 38 mm").children
    press(panel, "Show me the steps")
    assert "Add the tens: 24 + 3 + 1 = 28." in all_said(panel)


def test_what_the_yard_lacks_is_told_once_and_nothing_of_it_is_proved(in_mm):
    measure(in_mm, "foam_thickness", "30")
    assert said(in_mm.sheets("foam")) == "• B-P, R-RP: your yard has no foam of 30 mm."
    many = in_mm.basket()
    enter(many.fields[0], "12")
    assert said(many.message).count("your yard has no foam of 30 mm") == 1
    assert "and 12 more: your yard has" in said(many.message)


def test_a_hive_in_mm_is_typed_and_told_in_mm(in_mm, tmp_path):
    assert Bench(str(tmp_path / "inches.toml")).book().paper.value == "letter"
    assert in_mm.book().paper.value == "a4"
    assert text_of(in_mm.hive, "hive_length") == "587"
    assert "590 mm (≈ 23 15/64 in)" in measure(in_mm, "hive_length", "590")


# ── all of a page follows the hive ────────────────────────────────────────────────────────────


def test_every_field_and_picture_follows_a_reading_that_is_used(bench):
    places, sizes = bench.places("hive_length"), bench.measurements("hive_length", "hive_width")
    tape, drawn = bench.tape("hive_length"), bench.picture_to_work_out("plan")
    for largest in ("20 3/16", "20 1/4"):  # the second time nothing older may stand there, either
        read(places, "20", "20 1/8", largest)
        press(places, "Use this hive length")
        assert sizes.fields["hive_length"].box.value == largest
        assert tape.fields[0].box.value == largest
        for shown in (sizes.tape.value, tape.picture.value, drawn.value):
            assert f"{largest} in" in shown
    assert "Outside length" in said(sizes.fields["hive_length"].message)  # no old "Saved"


def test_the_name_and_what_is_typed_in_another_unit_follow_too(bench):
    names, sizes = [bench.name(), bench.name()], bench.measurements("hive_width", "stud_thickness")
    enter(names[0], "North row")
    assert names[1].box.value == "North row"
    enter(sizes.fields["hive_width"], "16 5/16")
    bench.tape_units().choice.value = "mm"
    assert sizes.fields["hive_width"].box.value == "414.3375"  # 16 5/16 x 25.4, exactly
    assert "Saved: hive width" in press_enter(sizes.fields["hive_width"])
    assert bench.hive.measured["hive_width"] == Fraction(261, 16)


def test_enter_is_answered_on_a_figure_that_is_there_already(bench, file):
    sizes, places = bench.measurements("stud_thickness"), bench.places("hive_width")
    assert "Not measured yet" in said(sizes.fields["stud_thickness"].message)
    told = press_enter(sizes.fields["stud_thickness"])
    assert told == "✓ Saved: stud thickness 1 1/2 in (≈ 38 mm)."
    assert hive_from_file(file).measured["stud_thickness"] == Fraction(3, 2)
    assert "This is 17 in" in enter(places.fields[0], "17")
    assert "This is 17 in" in press_enter(places.fields[0])
    trial, (ask,) = bench.change("stud_thickness"), asked(bench, FRONT_RAIL)
    assert "was 1 1/2 in (≈ 38 mm), now 1 1/2 in" in press_enter(trial.field)
    assert enter(ask.field, "15 7/8") == press_enter(ask.field)
    assert len(bench.page_hive.answers.all()) == 1  # told again, and not counted again
    assert ask.help.tries == 1


def test_a_size_measured_is_told_from_one_assumed_though_it_is_the_usual_one(bench):
    press_enter(bench.measurements("stud_thickness", "foam_thickness").fields["stud_thickness"])
    assumed = this_hive(bench.hive).sections[-1].blocks[-1]
    titles = [row[0].partition(":")[0] for row in assumed.rows]
    has(titles, "Foam thickness", without=("Stud thickness",))


@pytest.mark.parametrize("changed", ["22 7/8", None])
def test_enter_with_a_changed_text_is_one_answer_although_enter_comes_first(changed):
    async def pressed() -> list[str]:
        answers: list[str] = []
        field = Field("Length", lambda: "23", lambda text: answers.append(text) or "")
        press_enter(field)
        if changed:
            field.box.value = changed
        await asyncio.sleep(2 * ENTER_BEFORE_TEXT)
        return answers

    assert asyncio.run(pressed()) == [changed or "23"]


def test_readings_and_diagonals_are_there_on_another_day(bench, file):
    read(bench.places("hive_length"), "20 1/8", "", "20 1/4")
    read(bench.diagonals(), "26 1/8", "26 3/16")
    later = Bench(str(file))
    places, diagonals = later.places("hive_length"), later.diagonals()
    assert [f.box.value for f in places.fields] == ["20 1/8", "", "20 1/4"]
    assert "Use the largest, 20 1/4 in" in said(places.message)
    assert [f.box.value for f in diagonals.fields] == ["26 1/8", "26 3/16"]
    later.tape_units().choice.value = "mm"
    assert [f.box.value for f in places.fields] == ["511.175", "", "514.35"]
    enter(places.fields[2], "")
    assert hive_from_file(file).readings["hive_length"] == (Fraction(161, 8),)


def test_a_size_far_from_the_readings_or_named_like_a_stud_is_asked_about(bench):
    read(bench.places("hive_length"), "20 1/8", "20 1/4", "20 1/4")
    sizes = bench.measurements("hive_length", "stud_thickness", "stud_width")
    told = enter(sizes.fields["hive_length"], "203/16")  # the space forgotten: 12 11/16
    has(told, "✓ Saved", "203/16 is 12 11/16 in. Did you mean 20 3/16 in?")
    told = enter(sizes.fields["hive_length"], "20 1/2")
    assert "The largest of your readings is 20 1/4 in." in told
    assert "Which" not in enter(sizes.fields["hive_length"], "20 1/4")
    assert "2 in is the name of a stud; most measure 1 1/2 in" in enter(
        sizes.fields["stud_thickness"], "2"
    )
    assert "most measure 3 1/2 in" in enter(sizes.fields["stud_width"], "4")
    assert "name" not in enter(sizes.fields["stud_width"], "3 1/2")


# ── one message, once; nothing of an older entry ──────────────────────────────────────────────


def refusals(panel) -> int:
    """How many messages of a panel say that something can't be used."""
    return sum("hc-wrong" in area.value for area in walk(panel) if isinstance(area, Area))


def all_said(panel) -> str:
    return " ".join(said(area) for area in walk(panel) if isinstance(area, Area))


def test_a_message_stands_once_and_a_refused_entry_leaves_nothing_of_the_one_before(bench):
    tape, diagonals, places = bench.tape(), bench.diagonals(), bench.places("hive_width")
    for panel, texts in ((tape, ["17 7/16"]), (diagonals, ["29", "28 7/8"])):
        read(panel, *texts)
        assert all_said(panel).count("This is ") == len(texts)
        assert "<svg" in panel.picture.value
        told = enter(panel.fields[-1], "seventeen")
        assert all_said(panel).count("Cannot read") + all_said(panel).count("cannot read") == 1
        assert "seventeen" in told
        assert panel.picture.value == panel.follows.value == ""
    assert said(diagonals.message) == ""
    read(places, "17", "17 1/8", "x")
    assert said(places.message) == ""
    trial = bench.cut(FRONT_RAIL)
    enter(trial.field, "15 7/8")
    assert enter(trial.field, "x").startswith("✗")
    assert trial.picture.value == trial.follows.value == ""


def test_care_that_can_not_be_is_told_once_and_leaves_no_older_count_of_hives(bench):
    panel = bench.many_hives()
    assert "10,000 hives" in all_said(panel)
    cut = panel.fields[0]
    for text in ("x", "2"):
        enter(cut, text)
        assert refusals(panel) == 1
        assert said(cut.message).startswith("✗")
        assert panel.follows.value == ""
    enter(cut, "1/32")
    assert "10,000 hives" in all_said(panel)


def test_the_tape_tells_an_inch_from_25_mm(bench):
    panel = bench.tape("foam_thickness")
    assert "1 in (25.4 mm)" in enter(panel.fields[0], "1 in")
    assert "≈ 63/64 in (25 mm)" in enter(panel.fields[0], "25 mm")


ECHOED = [
    ("1/64", "1/64 in (≈ 0.4 mm)"), ("0.5 mm", "≈ 1/64 in (0.5 mm)"), ("0.1 mm", "0.1 mm"),
    ("25 mm", "≈ 63/64 in (25 mm)"), ("513 mm", "≈ 20 13/64 in (513 mm)"),
    ("17 7/16", "17 7/16 in (≈ 443 mm)"),
]  # fmt: skip


def test_a_length_is_echoed_as_finely_as_it_was_typed_and_as_the_tape_has_it(bench):
    panel = bench.tape()
    for text, told in ECHOED:
        assert enter(panel.fields[0], text) == f"• This is {told}."
        shown = told.split(" (")[0]
        assert "≈ " not in shown or shown in panel.picture.value


# ── a box and its sleeve ──────────────────────────────────────────────────────────────────────

OWN_BOX = {"box_length": "20 1/2", "box_width": "14", "box_height": "11 3/8"}


def test_a_box_replaces_a_measured_hive_only_after_saying_so_and_there_is_a_way_back(bench, file):
    sizes, panel = bench.measurements("hive_length", "hive_width"), bench.sleeved_box()
    enter(sizes.fields["hive_length"], "21 7/8")
    enter(sizes.fields["hive_width"], "17 1/16")
    before = file.read_bytes()
    has(
        fill(panel, OWN_BOX),
        "Your hive is 21 7/8 in (≈ 556 mm) long and 17 1/16 in",
        "makes it 23 1/2 in (≈ 597 mm) long and 17 in",
    )
    assert file.read_bytes() == before
    press(panel, "Yes, replace it with this box")
    assert "✓ Saved" in said(panel.said)
    assert sizes.fields["hive_length"].box.value == "23 1/2"
    assert "[set_aside]" in file.read_text()
    later = Bench(str(file))
    panel = later.sleeved_box()
    assert [f.box.value for f in panel.fields.values()] == [*OWN_BOX.values()]
    assert "change that instead" in measure(later, "hive_length", "21")
    press(panel, "Back to the size before")
    assert "21 7/8 in (≈ 556 mm) long and 17 1/16 in" in said(panel.said)
    assert hive_from_file(file).measured["hive_width"] == Fraction(273, 16)
    assert "box_length" not in hive_from_file(file).measured
    assert panel.fields["box_length"].box.value == "20 1/2"  # to be used again


def test_who_has_no_box_makes_the_hive_of_frames_and_can_go_back(bench, file):
    measure(bench, "hive_length", "21 7/8")
    panel = bench.box_of_frames()
    assert "31 is too large" in enter(panel.fields["frames"], "31")
    fill(panel, {"frames": "8"})
    assert "frames" not in hive_from_file(file).chosen
    press(panel, "Yes, replace it with this box")
    kept = hive_from_file(file)
    assert (kept.chosen["frames"], "hive_length" in kept.measured) == (8, False)
    # 8 frames of 1 3/8 and 1 in play, two boards of 3/4, twice foam of 1 in and skin of 1/2
    assert values(bench.hive)["hive_width"] == Fraction(33, 2)
    assert {"box", "sleeve"} <= {*built(bench.hive)}
    press(panel, "Back to the size before")
    assert hive_from_file(file).measured["hive_length"] == Fraction(175, 8)
    assert panel.fields["frames"].box.value == "8"


def test_another_box_does_not_push_out_the_measured_hive_that_was_set_aside(bench, file):
    measure(bench, "hive_length", "21 7/8")
    panel = bench.sleeved_box()
    for sizes in (OWN_BOX, {**OWN_BOX, "box_length": "20 1/4"}):
        if "Press again" in fill(panel, sizes):
            panel.use()
    assert hive_from_file(file).measured["box_length"] == Fraction(81, 4)
    assert hive_from_file(file).set_aside["hive_length"] == Fraction(175, 8)


def test_who_has_a_box_sees_it_and_its_sleeve_all_over_lesson_07(bench):
    page = bench.with_frames()
    drawn, sleeve, box = page.picture_to_work_out("box"), page.carry("sleeve"), page.carry("box")
    trial = page.change("frames", "box_length", "foam_thickness", "joint_depth", view="box")
    skin, inside = asked(page, "sleeve.skin_side_length", "box.inside_width")
    assert [name for _, name in trial.choice.options] == ["frames", "foam_thickness", "joint_depth"]
    assert "1/2 in 9 9/16 in 21 7/8 in" in said(sleeve)
    fill(page.sleeved_box(), OWN_BOX)
    # by hand: 20 1/2 + 2 x 1 long, 14 + 2 x 1 1/2; foam 11 3/8 - 2 x 3/4 high
    told = said(sleeve)
    has(told, "1/2 in 11 3/8 in 22 1/2 in", "1 in 9 7/8 in 20 1/2 in", "1/2 in 11 3/8 in 17 in")
    assert "Nothing of the box is cut" in said(box)
    assert "box 20 1/2 in" in said(drawn)
    assert [name for _, name in trial.choice.options] == ["box_length", "foam_thickness"]
    assert enter(skin.field, "22 1/2") == "✓ Right."
    assert enter(inside.field, "14 3/4") == "✓ Right."  # ten frames: 10 x 1 3/8 + 1


def test_it_is_said_whose_box_a_page_shows_and_said_still_when_the_hive_changes(bench, monkeypatch):
    shown = []
    monkeypatch.setattr("hivecalc.widgets.bench.display", shown.append)
    bench.with_frames()
    bench.page_hive.keep("stud_thickness", "1 9/16")
    assert "On this page the box is made from 10 frames" in said(shown[0])
    bench.page_hive.keep_box(OWN_BOX)
    assert "for your own box, 20 1/2 × 14 × 11 3/8 in" in said(shown[0])


# ── where the hive is kept ────────────────────────────────────────────────────────────────────


def test_the_hive_is_found_as_told_then_in_the_environment_then_beside_the_lessons(
    tmp_path, monkeypatch
):
    monkeypatch.delenv("HIVECALC_HIVE", raising=False)
    workbook = tmp_path / "workbook"
    workbook.mkdir()
    for folder in (workbook, tmp_path):
        monkeypatch.chdir(folder)
        assert hive_path() == tmp_path / "my-hive.toml"
    monkeypatch.setenv("HIVECALC_HIVE", "/some/hive.toml")
    assert hive_path() == Path("/some/hive.toml")
    assert hive_path("told.toml") == Path("told.toml")


KEEPING = """
import sys
from pathlib import Path
from threading import Thread
from hivecalc.widgets.page_hive import PageHive
file, *settings = sys.argv[1:]
pairs = [setting.split("=") for setting in settings]
threads = [Thread(target=PageHive(Path(file)).keep, args=pair) for pair in pairs]
print("ready", flush=True)
sys.stdin.readline()
for thread in threads:
    thread.start()
for thread in threads:
    thread.join()
"""


def test_what_24_windows_keep_at_once_is_all_kept(file):
    """Twelve in each of two processes: what one read and another then wrote over would be gone."""
    lengths = [m for m in MEASUREMENTS.values() if m.kind == "length" and m.defaults["inch"]][:24]
    settings = [f"{m.name}={exact_text(m.name, m.defaults['inch'], 'inch')}" for m in lengths]
    keeping = [
        subprocess.Popen(
            [sys.executable, "-c", KEEPING, file, *settings[n::2]],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE,
        )
        for n in range(2)
    ]  # fmt: skip
    assert [process.stdout.readline() for process in keeping] == [b"ready\n"] * 2
    for process in keeping:
        process.stdin.write(b"\n")
        process.stdin.flush()
    for process in keeping:
        process.communicate()
    hive = hive_from_file(file)
    assert {m.name for m in lengths} - {*hive.measured, *hive.chosen} == set()
    assert [p.name for p in file.parent.iterdir()] == [file.name]
