"""Exercises: answers worked by hand, slips told apart, hints, notebooks in step, the panel.

Check values are sums done on paper beside the line. Names of slips are those of hivecalc.judging.
"""

import ast
import os
import re
import subprocess
import sys
from collections import Counter
from collections.abc import Callable
from fractions import Fraction
from functools import cache
from itertools import chain, combinations, islice, product
from pathlib import Path

import pytest

from hivecalc.derivation import UnknownNameError
from hivecalc.exercise import EXERCISES, KINDS, LESSONS, Posed, by_slip, exercise, posed, titles
from hivecalc.exercise.building import stem
from hivecalc.exercise.hints import gives_away, lines
from hivecalc.exercise.posing import HIDDEN
from hivecalc.exercise.record import Exercise, numbers_of
from hivecalc.hive import demo_hive, hive_from_text
from hivecalc.judging import SLIPS, Entry, Wrong
from hivecalc.length import (
    MM,
    SIXTY_FOURTH,
    decimal_inches,
    feet_and_inches,
    length_from_text,
    millimetres,
    mixed,
    written,
)
from hivecalc.pages import exercises as pages
from hivecalc.widgets.answering import Choices, ExercisePanel
from hivecalc.widgets.page_hive import PageHive, to_ask_on
from tests.each import each
from tests.hives import HIVES
from tests.jupyter_rig import ROOT, cells
from tests.panels import enter, has, press, said, words


@cache
def in_inches() -> dict[str, Posed]:
    """Every exercise on both its sets of numbers."""
    return {p.key: p for e in EXERCISES.values() for p in (posed(e), posed(e, "alike"))}


@cache
def in_mm() -> dict[str, Posed]:
    """Those that are others on a tape in mm."""
    made = (posed(e, c, units="mm") for e in EXERCISES.values() for c in ("given", "alike"))
    return {f"{p.key} mm": p for p in made if p.exercise != EXERCISES[p.exercise.id]}


def case(key: str) -> Posed:
    return (in_mm() if key.endswith(" mm") else in_inches())[key]


def each_case(where: Callable[[Posed], object] = bool) -> Callable[..., Callable[[], None]]:
    """Make a test of one exercise, on one set of numbers, into a test of all of this kind."""

    def over_all(test: Callable[[Posed], None]) -> Callable[[], None]:
        def one(key: str) -> None:
            test(case(key))

        one.__name__ = test.__name__
        return each(lambda: [k for k, p in (in_inches() | in_mm()).items() if where(p)])(one)

    return over_all


def is_typed(asked: Posed) -> bool:
    return not asked.options


TWIN = {
    "inch_not_lowered": "ten_not_lowered",
    "smaller_from_larger": "smaller_digit_from_larger",
    "carry_dropped": "ten_not_carried",
    "first_inch_kept": "size_left_out",
}


def test_there_are_more_than_a_hundred_in_every_kind_and_lesson_and_each_lesson_fades():
    assert len(EXERCISES) > 100
    assert {e.kind for e in EXERCISES.values()} == set(KINDS)
    counts = {lesson: len(LESSONS[lesson].exercises) for lesson in LESSONS}
    assert all(counts[f"0{n}"] >= 6 for n in range(8))
    assert counts["08"] >= 4
    for lesson, held in LESSONS.items():
        ids = [f"{lesson}-{n:02}" for n in range(1, len(held.exercises) + 1)]
        assert [e.id for e in held.exercises] == ids
        fading = {"worked", "last step", "hard step", "alone"}
        assert {e.stage for e in held.exercises} == fading, f"lesson {lesson}: one of each stage"


def value_of(asked: Posed) -> Fraction:
    """Return the right value of an exercise in which a length is typed."""
    (one,) = asked.asked
    return one.values[one.dimension.name]


def texts(value: Fraction, asked: Posed) -> list[str]:
    """Return a value in five notations: list, decimal, feet and inches, mm, cm."""
    if asked.asked[0].dimension.kind == "ratio":
        return [f"{float(value):.{n}f}" for n in (3, 4, 5)] + [f"{float(value):.2%}", f"{value}"]
    inch = "" if asked.numbers.units == "inch" else " in"
    exact = SIXTY_FOURTH.step.denominator % value.denominator == 0
    first = mixed(value, SIXTY_FOURTH) if exact else decimal_inches(value, 4)
    feet = feet_and_inches(value, SIXTY_FOURTH) if exact else f"{decimal_inches(value, 4)} in"
    found = (
        f"{first}{inch}", f"{decimal_inches(value, 4)}{inch}", feet, f"{millimetres(value)} mm",
        f"{millimetres(value / 10, 2)} cm",
    )  # fmt: skip
    return [text.replace("≈ ", "") for text in found]


def written_as_it_must_be(wrong: Wrong, asked: Posed) -> str:
    """Return a wrong answer in the first notation in which its slip can stand."""
    units = asked.numbers.units
    found = texts(wrong.value, asked)
    return next(t for t in found if wrong.forms <= Entry(t, wrong.value, units).forms)


# ── how many, and which ───────────────────────────────────────────────────────────────────────


def test_exercises_are_found_by_id_and_by_slip_and_called_by_title():
    assert exercise("02-02").asks == "bottom_board.front_rail_length"
    with pytest.raises(UnknownNameError, match="02-02"):
        exercise("02-2")
    assert case("01-03").verdict("1").dimension == "01-03"
    assert case("02-02").verdict("1").dimension == "bottom_board.front_rail_length"
    assert set(by_slip()) <= set(SLIPS)
    assert "02-07" in by_slip()["thickness_once"]
    assert titles()["01-03 alike"] == "01-03, work out a length: another one like it"


@each_case()
def test_what_is_given_differs_from_case_to_case_and_so_does_what_is_asked(asked):
    assert "{" not in asked.text
    assert asked.exercise.givens != asked.exercise.alike
    assert asked.text.endswith(("?", ".", ".)"))
    assert all(said[0].isdigit() for _, said in asked.given)


# ── right answers ─────────────────────────────────────────────────────────────────────────────

# Worked on paper.
BY_HAND = {
    "00-03": "14 3/8",  # six sixteenths past 14
    "00-05": "17 3/8",  # 18 3/8 - 1
    "00-09": "17 7/16",
    "00-10": "3/16",  # 23 1/16 - 22 14/16
    "00-12": "Push front left and back right together",  # 29 1/8 is longer than 28 3/4
    "00-13 alike": "Measure again: these can't all be right",  # 15, 20, 25: 27 can't be
    "00-14": "screw, then knot, then nail, then notch",  # 8/16, 9/16, 10/16, 11/16
    "01-01": "8 1/8",  # 5 5/8 + 2 4/8 = 7 9/8
    "01-03": "21 5/8",  # 22 9/8 - 1 4/8
    "01-06": "6 7/8",  # 6 1/2 + 3/8
    "01-10": "3 in",
    "01-12": "0.4",  # 25.4 - 25
    "01-13 alike": "20",  # 508 / 25.4
    "01-14": "368.3",  # 14.5 x 25.4
    "01-17": "13",  # 48 - 34 3/4 - 1/4
    "02-02": "14 3/8",  # 17 3/8 - 3
    "02-04": "22 11/16",  # 24 1/16 - 1 6/16
    "02-11": "1/8 in shorter",  # two studs, each 1/16 thicker
    "02-12": "back rail",
    "02-13": "side rail, then back rail, then front rail",  # 21 5/8, 17 3/8, 14 3/8
    "03-02": "14 1/8",  # 17 3/8 - 3 - 1/4
    "03-03": "13",  # 14 3/8 - 1 - 3/8
    "03-06": "14 1/16",  # 14 12/32 - 9/32 = 14 3/32, rounded down
    "04-05": "3 13/32",  # 24/32 + 1 4/32 + 16/32 + 32/32 + 1/32
    "04-08": "11/32",  # 3 16/32 - 3 5/32, the front stop being the higher
    "04-13": "3/32 in higher",  # three layers, each 1/32 thicker
    "05-05": "21 1/8",  # 23 5/8 - 2 1/2
    "05-08": "1 15/16",  # 2 2/16 - 3/16
    "05-10 alike": "0.125",  # 2 1/2 over 20
    "02-15": "340",  # 430 - 2 x 45
    "03-16 alike": "314",  # 412 - 90 - 8
    "04-07": "9/32",  # 3 16/32 - 2 29/32 - 10/32
    "05-07": "1",  # 3 1/4 - 1 3/8 - 7/8
    "05-18": "3 1/8",  # 1 4/8 + 7/8 + 6/8
    "05-19": "2 1/4",  # 2 - 1/4 + 1/2
    "05-20": "530",  # 430 + 2 x 50
    "06-02": "6 1/16",  # 17 3/8 - 3 - 2 1/4 = 12 1/8; half of it
    "06-14": "3 1/4",  # 2 1/4 + 1
    "07-03": "15 1/2",  # 14 3/4 + 2 x 7/8 = 16 1/2; - 1 3/4 + 3/4
    "07-07": "19",  # 16 1/4 + 2 x 1 3/8
    "07-06": "9 9/16",  # 5/16 + 9 2/16 + 2/16
    "07-16": "1/4",  # 1 1/2 - 1 - 1/4
    "07-17": "7/16",  # 5/16 + 2/16
    "08-01": "5/32",  # 12/32 - 2/32 - 1/32 - 4/32
    "08-05": "Trim it to size",  # 14 5/8 instead of 14 3/8
    "08-05 alike": "Cut another one",  # 13 1/2 instead of 14 3/8
    "08-06 alike": "Trim it to size",  # 20 1/4 instead of 19 7/8
    "08-08": "Room above stack",  # 3 12/32 - 3 13/32 is less than nothing
    "08-09": "Widest gap at screen",  # 1/4 is more than 5/32
    "14-01": "19 13/16",  # 20 1/16 - 4/16
    "14-02": "5 5/8",  # 11 1/4 shared by two
    "14-03": "14 1/8",  # 17 2/8 - 3 - 1/8
    "14-04 alike": "Edge strips round the box, then foam between the strips, then skin over the "
    "foam",
    "14-05": "“Lower runners” came too early",
    "14-05 alike": "“Skin over the foam” came too early",
    "14-06": "Push front left and back right together",  # 29 1/8 is longer than 28 11/16
    "14-07": "Trim it to size",  # 19 7/8 instead of 19 9/16
    "14-07 alike": "Cut another one",  # 19 7/8 instead of 20 3/4
}


@each(BY_HAND)
def test_the_answer_is_what_it_is_on_paper(key):
    assert case(key).model_answer == BY_HAND[key]


@each_case()
def test_the_model_answer_is_right(asked):
    found = asked.verdict(asked.model_answer)
    assert found.right, found.message
    assert found.slips == ()
    assert found.verdict == "right"


@each_case(is_typed)
def test_a_right_answer_is_right_in_five_notations(asked):
    for text in texts(value_of(asked), asked):
        assert asked.verdict(text).right, text


@each_case(lambda p: p.exercise.by == "count")
def test_as_many_pieces_come_out_as_somebody_can_saw_off(asked):
    (one,) = asked.asked
    piece, kerf = one.values[one.name], asked.numbers.sizes["kerf"]
    board, sawn = asked.numbers.sizes["board"], 0
    while board >= piece:
        board, sawn = max(board - piece - kerf, Fraction(0)), sawn + 1
    assert asked.model_answer == f"{sawn} pieces"
    assert sawn != asked.numbers.sizes["board"] // piece  # the kerf matters


# ── slips ─────────────────────────────────────────────────────────────────────────────────────


@each_case()
def test_every_slip_that_it_shows_gives_a_wrong_answer_apart_from_the_others(asked):
    by_name = {n: [w for w in asked.shown if w.slip.name == n] for n in asked.exercise.slips}
    assert all(by_name.values()), by_name
    for one, other in combinations(by_name.values(), 2):
        for a, b in product(one, other):
            assert asked.options or abs(a.value - b.value) >= Fraction(1, 32), (a, b)
    if asked.options and by_name:
        names = [{w.slip.name for w in option.wrong} for option in asked.options]
        assert all(len(each) <= 1 for each in names)
        assert set().union(*names) == set(by_name)


@each_case(is_typed)
def test_a_slip_that_it_shows_gives_its_message(asked):
    for wrong in asked.shown:
        found = asked.verdict(written_as_it_must_be(wrong, asked))
        assert found.verdict == "slip", (wrong, found.message)
        assert wrong.slip.name in [s.name for s in found.slips]
        assert wrong.gives in found.message


@each_case(is_typed)
def test_a_wrong_answer_that_no_slip_gives_gets_none(asked):
    right, slipped = value_of(asked), [w.value for w in asked.asked[0].wrong]
    tried = (right + Fraction(n, 16) for n in (*range(3, 200), *range(-3, -20, -1)))
    free = (v for v in tried if v > 0 and all(abs(v - s) > Fraction(1, 8) for s in slipped))
    found = [asked.verdict(texts(value, asked)[0]) for value in islice(free, 0, 12, 3)]
    silent = [v for v in found if v.verdict == "unexplained"]
    assert not any(v.right for v in found)
    assert len(silent) >= 2
    assert all(v.slips == () and v.question for v in silent)


@each_case(lambda p: "{wrong}" in p.exercise.prompt)
def test_the_error_that_is_to_be_found_is_made_by_a_slip(asked):
    first = asked.shown[0]
    assert first.slip.name == asked.exercise.slips[0]
    assert f"“{first.working}”" in asked.text
    *_, last = first.working.replace("=", " is ").rpartition(" is ")
    assert not asked.verdict(last.replace(" in", "").strip()).right


# ── what is said ──────────────────────────────────────────────────────────────────────────────

TELLABLE = {"right", "right_other_form", "slip", "unexplained", "unreadable"}
NO_ANSWERS = [
    "", " ", "wide", "9" * 10_000, "٣", "\u202e14", "<b>14</b>", "=1+1", "about 21", "14 15 16",
    "-14 3/8", "1 m", "5 seconds",
]  # fmt: skip


# An exercise, answers to it, and every verdict that they get.
REACHED = [
    ("02-02", ("14 3/8", "14.375", "15 7/8", "15", "x"), TELLABLE),
    ("01-03", ("21 5/8", "21.625", "22 5/8", "4", "x"), TELLABLE),
    ("02-10", ("14.375", "15 7/8 in", "x"), {"right", "slip", "unreadable"}),
]


@pytest.mark.parametrize(("key", "answers", "verdicts"), REACHED)
def test_every_message_can_be_reached(key, answers, verdicts):
    assert {case(key).verdict(text).verdict for text in answers} == verdicts
    # 17 3/8 - 1 1/2 = 15 7/8, and on from there 15 5/8
    carried = case("03-02").verdict("15 5/8", {"bottom_board.opening_width": "15 7/8"})
    assert carried.verdict == "right_carried"


@pytest.mark.parametrize("answer", NO_ANSWERS, ids=range(len(NO_ANSWERS)))
def test_what_is_no_answer_is_told_and_harms_nothing(answer):
    for key in ("01-03", "02-02", "01-14", "02-10", "00-12", "05-10"):
        found = case(key).verdict(answer)
        assert found.verdict in {"unreadable", "unexplained"}
        assert 0 < len(found.message) < 600


def test_a_sum_is_judged_by_value_and_by_form_apart():
    asked = case("01-03")
    assert asked.verdict("21 5/8 in").verdict == "right"
    assert asked.verdict("21 10/16").verdict == "right_other_form"
    assert "21 5/8 in" in asked.verdict("549.3 mm").message
    assert case("01-14").verdict("368.3 mm").verdict == "right"


def test_who_is_asked_which_way_to_round_is_not_done_with_the_exact_value():
    asked = case("03-06")
    assert "which one do you cut" in asked.verdict("14 3/32").message
    assert "which one do you cut" not in asked.verdict("14 1/16").message
    assert asked.verdict("14 1/8").verdict == "slip"


def test_a_slip_is_named_for_the_nearest_mark_of_the_tape_too():
    # 442 mm over 25 is 17.68 in, which lies nearest to 17 11/16
    found = case("01-13").verdict("17 11/16")
    assert [slip.name for slip in found.slips] == ["inch_as_25_mm"]


# ── hints and steps ───────────────────────────────────────────────────────────────────────────


@each_case()
def test_three_hints_differ_and_the_third_holds_no_figure_of_the_answer(asked):
    assert len(set(asked.hints)) == 3
    assert all(asked.hints)
    assert asked.hints[0].endswith("?")
    if asked.options:
        assert asked.model_answer.casefold() not in asked.hints[2].casefold()
    if not asked.options or asked.exercise.kind == "choose":
        assert not any(gives_away(hint, value_of(asked)) for hint in asked.hints)


def test_a_hint_keeps_its_figures_back_where_the_answer_is_among_them():
    lap = exercise("05-07")  # 3 - 1 1/4 - 7/8 is 7/8
    asked = posed(lap, "own", numbers_of("skirt_width 3, rim_low_height 1 1/4").hive)
    assert "7/8" not in asked.hints[2]
    assert "3 1/4 − 1 3/8 − 7/8" in posed(lap).hints[2]


# An exercise, which of its hints, and what stands in it; sums and readings as on paper.
HINTS = [
    ("00-03", 2, "Count the shortest marks from there."),
    ("01-01", 1, "If they make an inch or more, carry it over."),
    ("01-01", 2, "5/8 + 4/8 = 9/8. 9/8 is more than an inch: carry it. 9/8 is 1 1/8. Go on from"),
    ("02-13", 2, "Last comes this one: front rail."),  # 14 3/8, the shortest
    ("08-09 mm", 1, "A bee squeezes through little more than 4 mm."),  # 5/32 in are 3.97
]


def test_a_hint_says_what_to_do_next():
    assert [said for key, place, said in HINTS if said not in case(key).hints[place]] == []
    assert "the arrow is 6 of the shortest marks further" in words(pages.steps(case("00-03")))


def test_a_hint_that_gives_the_answer_away_is_found():
    for text, value in (("It is 14 3/8.", "115/8"), ("It is 14.375.", "115/8"), ("38.1.", "3/2")):
        assert gives_away(text, Fraction(value))
    assert not gives_away("It is 17 3/8 less 3.", Fraction(115, 8))


@each_case(lambda p: p.exercise.stage != "alone")
def test_steps_that_are_left_open_do_not_hold_the_answer(asked):
    told = [line.text for line in lines(asked.asked[0], asked.numbers.texts)]
    if asked.exercise.stage == "worked":
        assert asked.faded == ()
        assert not any("?" in text for text in told)
        return
    *_, last = asked.faded
    assert len(asked.faded) == len(told)
    assert "?" in last
    assert sum("?" in text for text in asked.faded) == 1 or asked.exercise.stage == "hard step"
    assert not any(gives_away(t, value_of(asked)) for t in asked.faded)


def test_the_hard_step_is_how_often_each_thing_counts_or_the_borrowed_inch():
    assert case("02-03").faded[0] == "front rail length = hive width − ? × stud thickness"
    assert case("01-03").faded[1].endswith("borrow an inch. 23 1/8 is ?.")
    assert case("01-06").faded[0].endswith("13 3/4 is ?.")


@each_case()
def test_the_steps_end_at_the_answer(asked):
    said = words(pages.steps(asked))
    assert "✗" not in pages.prompt(asked) + pages.beginning(asked) + said
    assert f"The answer: {asked.model_answer}" in said
    if not asked.options and asked.asked[0].dimension.kind == "length":
        value = value_of(asked)
        assert written(value, asked.numbers.units) in said or decimal_inches(value) in said


@each_case(is_typed)
def test_the_step_after_a_third_try_has_no_result(asked):
    said = words(pages.open_step(asked))
    assert "?" in said
    if isinstance(asked.asked[0].dimension.expression, ast.Name):
        return  # one size is another as it is: its figure stands among the givens
    last = said.rpartition("Then ")[2]
    assert not re.search(rf"(=|is|≈|reads|:) {re.escape(asked.model_answer)}(?![ .]?\d|/)", last)


def test_an_example_is_worked_out_for_other_numbers():
    said = words(pages.beginning(case("02-01")))
    assert "21 1/4 in" in said  # the hive of the other case
    assert "= 19 5/8 in" in said  # 21 2/8 - 1 5/8
    assert "21 5/8" not in said


# ── pictures ──────────────────────────────────────────────────────────────────────────────────


@each_case(lambda p: HIDDEN in p.numbers.sizes)
def test_a_tape_shows_its_reading_and_does_not_say_it(asked):
    drawn = pages.picture(asked)
    units, mark = asked.numbers.units, asked.numbers.sizes[HIDDEN]
    pattern = {"inch": r"(\d+) marks? of 1/16 in past (\d+) in", "mm": r"(\d+) marks? of 1 mm past "
               r"(\d+) mm"}[units]  # fmt: skip
    count, number = map(int, re.findall(pattern, drawn)[0])
    assert mark == (number + Fraction(count, 16) if units == "inch" else (number + count) * MM)
    assert written(mark, units) not in words(drawn)


@each_case(lambda p: is_typed(p) and p.exercise.picture)
def test_a_picture_that_asks_holds_no_answer(asked):
    assert written(value_of(asked)) not in words(pages.picture(asked))


def test_a_wrong_piece_is_built_in():
    asked = case("02-02")
    first, second = (pages.built_in(asked, asked.verdict("15 7/8"), tries) for tries in (1, 2))
    assert "front rail 15 7/8 in" in words(first)
    assert "overlap ?: does not go" in words(first)
    assert "1 1/2 in too long" in words(second)
    assert "14 3/8" not in words(first) + words(second)
    for answer in ("14 3/8", "x", "1000"):
        assert pages.built_in(asked, asked.verdict(answer), 2) == ""
    assert pages.built_in(case("01-03"), case("01-03").verdict("5"), 2) == ""


def test_a_wrong_piece_can_be_looked_at_and_its_first_picture_gives_nothing_away():
    """It says neither the right figure nor how far off the answer is, but where a given is that."""
    seen = 0
    for asked in in_inches().values():
        if asked.options or not asked.exercise.dimensions or asked.case == "alike":
            continue
        right, given = value_of(asked), asked.numbers.hive.measurements.values()
        for wrong in asked.shown:
            found = asked.verdict(written_as_it_must_be(wrong, asked))
            first = pages.built_in(asked, found, 1)
            said = words(first)
            told = {length_from_text(f) for f in FIGURES.findall(said)}
            seen += bool(said)
            for secret in (right, abs(right - wrong.value)):
                assert secret not in told or secret in given, (asked.key, wrong.slip.name, said)
            if wrong is asked.shown[0]:
                assert ("<svg" in pages.built_in(asked, found, 2)) == ("<svg" in first)
    assert seen > 30


FIGURES = re.compile(r"(\d+ \d+/\d+|\d+/\d+|\d+\.\d+|\d+) in")


# ── choices ───────────────────────────────────────────────────────────────────────────────────


@each_case(lambda p: p.options)
def test_one_choice_is_right_and_each_other_is_answered(asked):
    found = {option.text: asked.verdict(option.text) for option in asked.options}
    assert [text for text, said in found.items() if said.right] == [asked.model_answer]
    assert len(found) == len(asked.options) >= 3
    wrong = [said for said in found.values() if not said.right]
    assert all(said.message and said.question for said in wrong)
    assert all(option.says or option.wrong or asked.exercise.by == "needed first"
               for option in asked.options if asked.exercise.kind != "choose")  # fmt: skip


def test_a_rule_that_still_holds_says_how_far():
    # 23 1/8 - 3 - 1/4: the panel's play along is its gap of 1/4 in; it needs 1/8 in or more
    says = {o.text: o.says for o in case("08-08").options}
    assert says["Panel play along"].endswith("holds: 1/4 in, and it asks for at least 1/8 in.")
    in_mm = {o.text: o.says for o in case("08-08 mm").options}
    assert in_mm["Panel play along"].endswith("holds: 6 mm, and it asks for at least ≈ 3.2 mm.")


def test_the_place_of_a_choice_does_not_say_whether_it_is_right():
    both = in_inches().values(), in_mm().values()
    mixed_up = [p for p in chain(*both) if p.options and p.exercise.kind in {"choose", "order"}]
    places = Counter([o.right for o in p.options].index(True) for p in mixed_up)
    assert max(places.values()) <= len(mixed_up) / 2


# ── on one's own hive ─────────────────────────────────────────────────────────────────────────


@each(HIVES)
def test_it_can_be_done_on_ones_own_hive_whatever_it_is(name):
    hive = hive_from_text(HIVES[name])
    for record in [e for e in EXERCISES.values() if e.own]:
        asked = posed(record, "own", to_ask_on(hive, record.asks))
        assert asked.key == f"{record.id} own"
        assert asked.verdict(asked.model_answer).right, (record.id, asked.model_answer)
        boxes = [named for named, _ in asked.given if named.startswith("box ")]
        assert not boxes or record.id.startswith("07"), asked  # the others begin with the hive
        assert "own hive" in words(pages.prompt(asked) + pages.beginning(asked))
        assert all(asked.hints)
        assert record.kind == "choose" or not gives_away(asked.hints[2], value_of(asked)), asked
        assert "✗" not in pages.steps(asked)


def test_some_can_not_be_done_on_ones_own_hive():
    with pytest.raises(ValueError, match="01-03"):
        posed(exercise("01-03"), "own", demo_hive())
    with pytest.raises(ValueError, match="02-02"):
        posed(exercise("02-02"), "own")


# ── the notebooks ─────────────────────────────────────────────────────────────────────────────


def test_the_command_writes_the_notebooks_of_the_project_byte_for_byte(tmp_path):
    """Whatever the order of Python's sets, and with no other file beside them."""
    subprocess.run(
        [sys.executable, "-m", "hivecalc.exercise.building", str(tmp_path)],
        env={**os.environ, "PYTHONHASHSEED": "1"}, cwd=ROOT, capture_output=True, check=True,
    )  # fmt: skip
    written, there = (
        {p.relative_to(root): p.read_bytes() for kind in ("exercises", "solutions")
         for p in (root / kind).iterdir() if p.is_file()}
        for root in (tmp_path, ROOT)
    )  # fmt: skip
    assert written == there
    assert len(there) == 2 * len(LESSONS)
    assert {path.stem for path in there} <= {p.stem for p in (ROOT / "workbook").glob("*.ipynb")}


@each(LESSONS)
def test_each_exercise_stands_in_both_notebooks_below_its_number(lesson):
    for folder, method in (("exercises", "exercise"), ("solutions", "solution")):
        sources = [c["source"] for c in cells(ROOT / folder / f"{stem(lesson)}.ipynb")]
        for record in LESSONS[lesson].exercises:
            place = sources.index(f'bench.{method}("{record.id}")')
            assert sources[place - 1].startswith(f"## {record.id} · ")


@each(EXERCISES)
def test_a_solution_runs_to_right_and_says_what_each_slip_gives(name):
    said, asked = words(pages.solution(EXERCISES[name])), case(name)
    assert f"The answer: {asked.model_answer}" in said
    assert "✗" not in said
    assert [w.working for w in asked.shown if not asked.options and w.working not in said] == []
    assert [o.text for o in asked.options if o.text not in said] == []


# ── the panel ─────────────────────────────────────────────────────────────────────────────────


@pytest.fixture
def page_hive(tmp_path: Path) -> PageHive:
    return PageHive(tmp_path / "my-hive.toml")


@pytest.fixture
def panel(page_hive: PageHive) -> ExercisePanel:
    """The panel of exercise 02-02: a front rail of 17 3/8 - 2 x 1 1/2 = 14 3/8."""
    return ExercisePanel(page_hive, exercise("02-02"))


@pytest.mark.parametrize("name", ["02-02", "05-01", "08-01", "12-01"])
def test_a_press_of_hint_says_what_no_verdict_and_no_step_said_before(name, page_hive):
    panel = ExercisePanel(page_hive, EXERCISES[name])
    *_, wrong = (o.text for o in panel.asked.options if not o.right) if panel.asked.options else "9"
    for _ in range(3):  # after the third a step comes by itself
        answer(panel, wrong)
    before = on_page(panel)
    while not panel.hint_button.disabled:
        left = re.findall(r"\((\d) left\)", panel.hint_button.description)
        panel.hint()
        new = panel.asked.hints[panel.hinted[-1] - 1]
        assert new not in before
        before = on_page(panel)
        assert int(left[0]) == sum(hint not in before for hint in panel.asked.hints) + 1
    answer(panel, wrong)
    assert [on_page(panel).count(hint) for hint in panel.asked.hints] == [1, 1, 1]


def answer(panel: ExercisePanel, text: str) -> None:
    if isinstance(panel.field, Choices):
        panel.field.buttons[text].click()
    else:
        panel.field.message.tell(panel._answer(text))  # noqa: SLF001 - as Enter does


def on_page(panel: ExercisePanel) -> str:
    return words(panel.field.message.value + panel.hints.value + panel.help.steps.value)


def test_the_piece_is_shown_at_once_amounts_at_the_second_try_a_step_at_the_third(panel):
    enter(panel.field, "15 7/8")
    assert "overlap ?" in panel.help.built.value
    assert panel.help.steps.value == ""
    enter(panel.field, "rail")  # what can't be read is no try
    assert panel.help.built.value == ""
    assert "Cannot read" in said(panel.field.message)
    enter(panel.field, "15")
    assert "5/8 in too long" in said(panel.help.built)
    assert panel.help.steps.value == ""
    enter(panel.field, "16")
    has(said(panel.help.steps), "17 3/8 − 2 × 1 1/2 = ?", without=("14 3/8",))
    assert enter(panel.field, "14 3/8") == "✓ Right."
    assert panel.help.built.value == ""
    press(panel, "Show me the steps")
    assert "The answer: 14 3/8 in." in said(panel.help.steps)


def test_another_one_like_it_and_back_and_on_ones_own_hive_which_it_follows(panel, page_hive):
    for width, answer in (("15 7/8 in", "12 3/4"), ("17 3/8 in", "14 3/8")):  # 15 7/8 - 3 1/8
        press(panel, "Another one like it")
        assert width in said(panel.prompt)
        assert enter(panel.field, answer) == "✓ Right."
    press(panel, "On my own hive")
    page_hive.keep("hive_width", "18 1/2")
    assert "18 1/2 in" in said(panel.prompt)
    assert enter(panel.field, "15 1/2") == "✓ Right."
    box = ExercisePanel(page_hive, exercise("07-02"))  # of frames where one's hive has none
    box.on_own_hive()
    assert enter(box.field, "16 1/4") == "✓ Right."  # ten frames of 1 3/8, 1 in, two boards


def test_a_choice_is_judged_when_it_is_pressed(page_hive):
    panel = ExercisePanel(page_hive, exercise("02-12"))
    panel.field.buttons["front rail"].click()
    assert "1/8 in shorter" in said(panel.field.message)
    panel.field.buttons["back rail"].click()
    assert said(panel.field.message).startswith("✓ Right.")


def test_answers_are_kept_and_there_again(panel, page_hive):
    enter(panel.field, "15 7/8")
    panel.another()
    assert panel.field.box.value == ""
    enter(panel.field, "12 3/4")
    choice = ExercisePanel(page_hive, exercise("02-12"))
    choice.field.buttons["back rail"].click()
    kept = [("02-02", "15 7/8", "slip"), ("02-02 alike", "12 3/4", "right"),
            ("02-12", "back rail", "right")]  # fmt: skip
    assert [(a.asked, a.answer, a.verdict) for a in page_hive.answers.all()] == kept
    again = PageHive(page_hive.path)
    panel, chosen = (ExercisePanel(again, exercise(name)) for name in ("02-02", "02-12"))
    assert panel.field.box.value == "15 7/8"
    assert "counted once instead of twice" in said(panel.field.message)
    assert said(chosen.field.message).startswith("✓ Right.")
    assert len(again.answers.all()) == len(kept)


def test_an_answer_that_can_not_be_saved_is_judged_all_the_same(panel, page_hive):
    page_hive.answers.path.mkdir()  # a folder is no file
    told = enter(panel.field, "14 3/8")
    assert told.startswith("✓ Right.")
    assert "not saved" in told


def test_what_goes_wrong_is_told_on_the_page(panel, monkeypatch):
    def fails(*_args: object) -> None:
        raise RuntimeError("the disk is full")

    monkeypatch.setattr(pages, "steps", fails)
    panel.help.show_steps()
    assert "The disk is full" in said(panel.help.steps)
    monkeypatch.setattr(pages, "prompt", fails)
    panel.another()
    assert "The disk is full" in panel.prompt.value


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_makes_its_panel_on_all_sets_of_numbers(kind, page_hive):
    """What stands in it was looked at for each exercise above."""
    record = next(e for e in EXERCISES.values() if e.kind == kind)
    panel = ExercisePanel(page_hive, record)
    for case_ in ("given", "alike", *(["own"] if record.own else [])):
        panel.put(case_)
        panel.hint()
        panel.help.show_steps()
        assert panel.asked.case == case_
        assert words(panel.prompt.value).startswith(words(panel.asked.text))
        assert "✗" not in panel.hints.value + panel.help.steps.value


# ── a new exercise ────────────────────────────────────────────────────────────────────────────


def test_a_new_exercise_needs_no_answer_and_no_slip_written_down():
    asked = posed(Exercise(
        "09-01", "derive", "left_over = board - piece - piece", "Two pieces off: what is left?",
        "board 48, piece 9 1/8", "board 60, piece 11 3/8",
    ))  # fmt: skip
    assert asked.model_answer == "29 3/4"  # 48 - 18 1/4
    assert asked.verdict("38 7/8").slips[0].name == "size_left_out"  # 48 - 9 1/8
    assert asked.verdict("30 3/4").slips[0].name == "inch_not_lowered"
    assert length_from_text(asked.model_answer) / MM == Fraction(119, 4) * Fraction(127, 5)


# ── a tape in millimetres ─────────────────────────────────────────────────────────────────────


def test_a_hive_in_mm_gets_its_exercises_in_mm(page_hive):
    page_hive.path.write_text(HIVES["metric"], encoding="utf-8")
    panel, about_inches = (
        ExercisePanel(PageHive(page_hive.path), exercise(name)) for name in ("02-02", "01-09")
    )
    assert "hive width 441 mm ; stud thickness 38 mm" in said(panel.prompt)
    assert enter(panel.field, "365") == "✓ Right."  # 441 - 2 x 38
    assert "counted once instead of twice" in enter(panel.field, "403")
    assert "board 11 1/16 in" in said(about_inches.prompt)


@each(in_mm)
def test_in_mm_all_is_whole_millimetres_and_the_judgement_the_same(key):
    asked, inches = case(key), case(key.removesuffix(" mm"))
    sizes = [length_from_text(t, "mm") / MM for t in asked.numbers.texts.values()]
    assert all(size.denominator == 1 for size in sizes)
    same = {"measure", "order", "find", "chain"}
    if asked.exercise.kind in same and asked.options and asked.exercise.by != "row":  # R has a unit
        assert asked.model_answer == inches.model_answer
    pages_of = (asked.text, *asked.hints, *asked.faded, words(pages.open_step(asked)))
    about = re.findall(r"\d/\d|\binch|\d in\b|sixteenth", " ".join(pages_of))
    assert about == []
    assert {*asked.exercise.slips} <= {TWIN.get(s, s) for s in inches.exercise.slips}


def test_a_kerf_that_is_forgotten_at_one_cut_is_not_looked_for_on_a_side():
    """By hand: 72 − 2 × 21 5/8 is 28 3/4; one cut takes 1/8 off it, two take 1/4."""
    found = posed(EXERCISES["09-01"]).verdict("28 5/8")
    assert found.message == "This is what you would get if the kerf were counted once only."
    assert "at one cut or at two?" in found.question
