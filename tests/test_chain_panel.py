"""The walk to a dimension as a learner goes it, without a browser: kept, and nothing given away.

Check values are sums done on paper on the demo hive (23 1/8 by 17 3/8 in, studs 1 1/2 by 3 1/2 in,
entrance 3/4 in): side rail 21 5/8, front rail 14 3/8 long and 2 3/4 high.
"""

import json
import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

import ipywidgets
import pytest

from hivecalc.answers import Answers, answers_path
from hivecalc.components import DIMENSIONS, PRACTICE, built, values_to_find
from hivecalc.hive import Hive, changed, demo_hive, hive_from_text
from hivecalc.judging.chain import MOST_COUNT, true_chain
from hivecalc.length import MM, SIXTY_FOURTH, mixed
from hivecalc.pages import chain as pages
from hivecalc.widgets import Bench
from hivecalc.widgets.chain import Derive, Waiting
from hivecalc.widgets.field import Area
from hivecalc.widgets.page_hive import to_ask_on, with_a_box
from tests.by_hand import by_hand
from tests.commands import called
from tests.hives import HIVES
from tests.jupyter_rig import ROOT, cells
from tests.panels import enter, has, said, walk, words
from tests.pictures import parsed

FRONT, SIDE = "bottom_board.front_rail_length", "bottom_board.side_rail_length"
UNIT = {"inch": "in", "mm": "mm"}
FRAME = "02-the-frame-of-the-bottom-board"
LESSONS = sorted(p.stem for p in (ROOT / "workbook").glob("0[2-7]-*.ipynb"))
IN_MM = """name = "Hillside hive"
units = "mm"
[measured]
hive_length = 587
hive_width = 441
"""
Widget = ipywidgets.DOMWidget
NUMBER_OF_DRAWING = re.compile(r"\bd\d+-[0-9a-f]{6}")


def count(panel: Derive, **counts: int) -> None:
    """Press the buttons until each size counts so often."""
    panel.build()
    for counter in panel.counters:
        wanted = Fraction(counts.get(counter.name.rpartition(".")[2], 0))
        while counter.count != wanted:
            counter.press(Fraction(1 if wanted > counter.count else -1))


def checked(panel: Derive, **counts: int) -> str:
    count(panel, **counts)
    panel.links.check.click()
    return said(panel.links.said)


def is_seen(widget: Widget) -> bool:
    return widget.layout.display != "none"


def walked(panel: Derive, answer: str = "14 3/8") -> None:
    panel.predict.choice.value = "hand"
    checked(panel, hive_width=1, stud_thickness=-2)
    enter(panel.sum, answer)


def test_the_walk_leads_to_the_figure_the_why_and_the_prediction(bench):
    panel = bench.derive(FRONT)
    assert panel.middle.children == ()
    panel.predict.choice.value = "hand"
    assert panel.sum_box.layout.display == "none"
    assert panel.links in panel.middle.children
    assert "does not count often enough" in checked(panel, hive_width=1, stud_thickness=-1)
    assert "The sum is right" in enter(panel.sum, "15 7/8")
    assert "the chain itself is not right yet" in said(panel.sum.message)
    assert panel.end.value == ""
    assert is_seen(panel.or_type)
    assert bench.page_hive.answers.all() == []
    assert "Your chain is right" in checked(panel, hive_width=1, stud_thickness=-2)
    assert "an inch were borrowed" not in said(panel.sum.message)
    assert "The sum is right" in enter(panel.sum, "14 3/8")
    told = said(panel.end)
    has(told, "14 3/8 in", "between the two side rails", "You predicted: shorter by a hand")
    assert "14 3/8 in" in panel.lit.value
    assert "14 3/8 in" in panel.bar.value
    assert not is_seen(panel.or_type)
    assert panel.at_once.field.box.value == "14 3/8"
    assert "Right." in said(panel.at_once.field.message)


def test_each_step_is_kept_apart_and_is_there_after_a_reload(bench, file):
    walked(bench.derive(FRONT))
    answers = Answers(answers_path(file))
    kept = {step: answers.last(f"{FRONT}#{step}") for step in ("prediction", "chain", "sum")}
    assert [a and (a.answer, a.verdict) for a in kept.values()] == [
        ("hand", "right"), ("hive_width=1, stud_thickness=-2", "right"), ("14 3/8", "right"),
    ]  # fmt: skip
    assert [a.asked for a in answers.all()] == [FRONT]
    again = Bench(str(file)).derive(FRONT)
    assert again.predict.choice.value == "hand"
    assert again.chain == {"hive_width": 1, "stud_thickness": -2}
    assert again.sum.box.value == "14 3/8"
    assert "14 3/8 in" in said(again.end)


def test_a_walk_needs_the_tab_key_and_the_space_bar_only(bench):
    panel = bench.derive(FRONT)
    panel.predict.choice.value = "hand"
    checked(panel, hive_width=1)
    kinds = (ipywidgets.Button, ipywidgets.Text, ipywidgets.ToggleButtons)
    reached = (w for w in walk(panel.children[0]) if isinstance(w, kinds) and is_seen(w))
    stops = [w for w in reached if "hc-vote" not in w._dom_classes]  # noqa: SLF001 - as shown
    assert stops[0] is panel.predict.choice
    names = [w.description for w in stops[1:]]
    assert [n.replace("\u2003", "") for n in names[:2]] == [
        "−one less: hive length",
        "+one more: hive length",
    ]
    assert names[-4:] == [
        "Check my chain", "Front rail length, by your chain", "Front rail length",
        "Show me the steps",
    ]  # fmt: skip
    assert len(set(names)) == len(names)


def test_after_the_third_wrong_sum_a_step_is_shown_without_its_result(bench):
    panel = bench.derive(SIDE)
    checked(panel, hive_length=1, stud_thickness=-1)
    for wrong in ("20", "20 1/8", "19"):
        assert "22 − 1" not in said(panel.step)
        enter(panel.sum, wrong)
    borrowed = ("one inch is taken apart: 9/8", "borrow an inch. 23 1/8 is 22 9/8", "22 − 1 = ?")
    has(said(panel.step), *borrowed, without=("21 ", "5/8"))


def test_after_the_third_wrong_length_no_result_is_shown_either(bench):
    panel = bench.derive(FRONT)
    for wrong in ("20", "20 1/8", "19"):
        enter(panel.at_once.field, wrong)
    has(said(panel.at_once.help.steps), "17 3/8 − 2 × 1 1/2 = ?", without=("14 3/8",))
    panel.at_once.show.click()
    assert "14 3/8" in said(panel.at_once.help.steps)
    assert "14 3/8 in" in said(panel.end)


def test_counts_stop_at_the_ends_of_their_range(bench):
    panel = bench.derive(FRONT)
    panel.build()
    for _ in range(MOST_COUNT + 5):
        panel.counters[0].press(Fraction(-1))
    assert panel.counters[0].count == -MOST_COUNT
    assert "nothing would be left" in enter(panel.sum, "3")


def test_an_empty_chain_and_an_entry_that_is_none_are_told(bench, file):
    panel = bench.derive(FRONT)
    assert "There is nothing in this chain yet" in checked(panel)
    assert "Build your chain first" in enter(panel.sum, "3")
    checked(panel, hive_width=1)
    for text in ("<b>x", "9" * 500, "1/0"):
        assert enter(panel.sum, text).startswith("✗")
        assert "<b>" not in panel.sum.message.value
    assert not file.exists()


@pytest.mark.parametrize(
    "text",
    ["hive_width=21", "frames=1", "hive_width=1e9", "hive_width", "=", "hive_width=1/0", "x" * 999],
)
def test_a_kept_chain_that_can_not_be_is_passed_over(file, text):
    row = {"when": "2026-05-02T10:15:00+02:00", "asked": f"{FRONT}#chain", "answer": text,
           "verdict": "right", "slips": []}  # fmt: skip
    head = {"schema": "hivecalc-answers/1", "hive": "Orchard hive"}
    lines = (json.dumps(each) + "\n" for each in (head, row))
    answers_path(file).write_text("".join(lines), encoding="utf-8")
    assert Bench(str(file)).derive(FRONT).chain == {}


def test_what_can_not_be_kept_is_said_at_each_step_and_once_at_the_top(bench, file):
    later = json.dumps({"schema": "hivecalc-answers/9", "hive": "Orchard hive"}) + "\n"
    answers_path(file).write_text(later, encoding="utf-8")
    panel = bench.derive(FRONT)
    panel.predict.choice.value = "hand"
    assert "a version of answers" in said(panel.links.said)
    told = checked(panel, hive_width=1, stud_thickness=-2)
    has(told, "Your chain is right", "a version of answers")
    assert "a version of answers" in enter(panel.sum, "14 3/8")
    assert answers_path(file).read_text(encoding="utf-8") == later
    heading = Bench(str(file))._heading()  # noqa: SLF001 - shown, not returned
    assert heading.count("a version of answers that this hivecalc does not know") == 1


def test_another_hive_asks_anew(bench):
    walked(panel := bench.derive(FRONT))
    bench.page_hive.keep("stud_thickness", "1 9/16")
    assert panel.end.value == ""
    assert "1 9/16" in panel.bar.value
    assert panel.chain == {"hive_width": 1, "stud_thickness": -2}
    enter(panel.sum, "14 1/4")
    assert "14 1/4 in" in said(panel.end)


def test_a_hive_in_mm_is_walked_in_mm(file):
    file.write_text(HIVES["metric"], encoding="utf-8")
    panel = Bench(str(file)).derive(FRONT)
    checked(panel, hive_width=1, stud_thickness=-2)
    for wrong in ("300", "310", "320"):
        enter(panel.sum, wrong)
    assert said(panel.step) == "• First 2 × 38 = 76 mm. • Then 441.5 − 76 = ? mm"
    enter(panel.sum, "365.5")
    assert "365.5 mm" in said(panel.end)


def test_what_is_no_plain_chain_is_asked_by_a_rule_in_words(bench):
    panel = bench.derive("roof.slope")
    panel.build()
    assert panel.rule in panel.links.rows.children
    panel.links.check.click()
    assert "Choose a rule first" in said(panel.links.said)
    panel.rule.value = "stud width ÷ rim length"
    panel.links.check.click()
    assert said(panel.links.said).startswith("✗ Not yet.")
    panel.rule.value = "(stud width − rim low height) ÷ rim length"
    panel.links.check.click()
    assert "That is the rule" in said(panel.links.said)
    again = Bench(str(bench.page_hive.path)).derive("roof.slope")
    assert again.rule.value == "(stud width − rim low height) ÷ rim length"


def test_the_walk_of_a_number_asked_alone_is_there_at_a_press_and_stays(bench, file):
    (alone,) = bench.ask(FRONT).children
    assert "hive width 17 3/8 in" in said(alone.card)
    assert not alone.is_open
    alone.open_button.click()
    assert alone.is_open
    walked(alone)
    assert "14 3/8 in" in said(alone.end)
    (again,) = Bench(str(file)).ask(FRONT).children
    assert again.is_open


def test_after_five_wrong_sums_the_whole_sum_is_there_at_a_press(bench):
    panel = bench.derive(SIDE)
    checked(panel, hive_length=1, stud_thickness=-1)
    for tries in range(5):
        assert panel.whole.layout.display == "none"
        enter(panel.sum, f"{tries + 3}")
    panel.whole.click()
    assert "21 5/8 in" in said(panel.step)
    assert "21 5/8 in" in said(panel.end)


@pytest.mark.parametrize(
    ("wrong", "drawn", "task"),
    [("22 5/8", "one inch is taken apart: 9/8", "12 1/4 − 3 5/8"),
     ("22 3/8", "one inch is taken apart: 9/8", "9 1/8 − 2 3/8")],
)  # fmt: skip
def test_a_slip_in_a_sum_is_shown_on_the_tape_and_practised(bench, wrong, drawn, task):
    panel = bench.derive(SIDE)
    checked(panel, hive_length=1, stud_thickness=-1)
    enter(panel.sum, wrong)
    assert drawn in said(panel.step)
    assert "21 5/8" not in panel.step.value
    (question,) = panel.practice.children[1].children
    assert question.key == task


def test_hands_are_counted_for_each_choice(bench):
    hands = bench.derive(FRONT).predict.hands
    for place in (3, 3, 0):
        hands[place].click()
    assert [h.description for h in hands] == ["1: 1", "2: 0", "3: 0", "4: 2", "5: 0"]


@pytest.mark.parametrize(("units", "left"), [("inch", "28 3/4 in"), ("mm", "724 mm")])
def test_the_first_walk_has_a_sister_worked_through(units, left):
    told = words(pages.worked_chain(replace(demo_hive(), units=units)))
    assert left in told
    assert told.count(left.partition(" ")[0]) > 1


def test_just_one_prediction_fits():
    right = {
        "bottom_board.back_rail_length": "same", "bottom_board.side_rail_length": "finger",
        "bottom_board.front_rail_length": "hand", "roof.deck_length": "more",
    }  # fmt: skip
    assert {name: pages.to_predict(demo_hive(), name).right for name in right} == right


def test_an_opening_is_seen_by_the_plan_though_it_was_measured_since():
    glued = changed(demo_hive(), {"built_opening_width": "14 5/16"})  # by the plan 17 3/8 - 3
    assert "Opening width: 14 3/8 in." in pages.seen(glued, "bottom_board.opening_width", "hand")


@pytest.mark.parametrize("name", sorted(HIVES))
def test_the_pieces_at_the_ends_of_a_rail_are_lit_on_any_hive(name):
    hive = hive_from_text(HIVES[name])
    chain = {"hive_width": Fraction(1), "stud_thickness": Fraction(-2)}
    assert len(lit_up(pages.drawing_of(hive, FRONT, chain, ()))) == 2
    side = {"hive_length": Fraction(1), "stud_thickness": Fraction(-1)}
    assert len(lit_up(pages.drawing_of(hive, SIDE, side, ()))) == 1


def lit_up(svg: str) -> list[ET.Element]:
    return [e for e in parsed(svg).iter() if "fill-opacity" in e.attrib]


# ── nothing given away ────────────────────────────────────────────────────────────────────────


def lesson_widgets(bench: Bench, lesson: str = FRAME) -> Iterator[Widget]:
    """Every panel of a lesson, as its cells make them."""
    code = cells(ROOT / "workbook" / f"{lesson}.ipynb", "code")
    for line in [each for cell in code for each in cell["source"].splitlines()]:
        if line.startswith("bench."):
            yield eval(line, {"bench": bench})  # noqa: S307 - a lesson of our own
        elif line.startswith("bench = bench."):
            exec(line, {"bench": bench})  # noqa: S102 - a lesson of our own


def test_no_two_fields_of_the_box_have_one_label(file):
    """A box is worked out from its frames there, and further down measured."""
    panels = lesson_widgets(Bench(str(file)), "07-the-box-and-its-sleeve")
    made = (w for panel in panels for w in walk(panel) if isinstance(w, ipywidgets.Text))
    labels = [field.description for field in made]
    assert {"Box length", "Box length, measured"} <= {*labels}
    assert len(labels) == len({*labels})


def shown_in(widget: Widget) -> str:
    return " ".join(w.value for w in walk(widget) if isinstance(w, Area | ipywidgets.HTML))


def worked_out(hive: Hive, name: str) -> Fraction:
    """What a dimension comes to by hand, on the hive that it is asked on."""
    hive = to_ask_on(hive, name)
    return by_hand(with_a_box(hive).measurements | hive.measurements)[name]


@pytest.mark.parametrize("units", ["inch", "mm"])
@pytest.mark.parametrize("lesson", LESSONS)
def test_a_lesson_gives_no_figure_away_before_it_is_found_and_opens_when_all_is_found(
    file, lesson, units, monkeypatch
):
    if units == "mm":
        file.write_text(IN_MM, encoding="utf-8")
    bench = Bench(str(file))
    panels = list(lesson_widgets(bench, lesson))
    waits = [p for p in panels if isinstance(p, Waiting)]
    walks = [w for p in panels for w in walk(p) if isinstance(w, Derive)]
    assert [w.dimension for w in walks] == bench.to_find
    shown = " ".join(map(shown_in, panels)).replace("\u00a0", " ")
    sizes = {name: worked_out(bench.hive, name) for name in bench.to_find}
    asked = {
        name: mixed(value, SIXTY_FOURTH) if units == "inch" else f"{float(value / MM):g}"
        for name, value in sizes.items()
        if DIMENSIONS.dimension(name).kind == "length"
    }
    given = set(to_ask_on(bench.hive, bench.to_find[0]).measurements.values())
    hidden = {figure for name, figure in asked.items() if sizes[name] not in given}
    assert len(hidden) >= 2
    for figure in hidden:
        told = re.search(rf"(?<![\d/.])(?<!\d ){re.escape(figure)} {UNIT[units]}\b", shown)
        assert told is None, shown[told.start() - 90 : told.end() + 40]
    assert waits
    if units == "mm":
        return
    monkeypatch.setattr(pages, "drawing_of", lambda *_: "")  # seen above, and redrawn each time
    assert all(w.names for w in waits)
    for place, each in enumerate(walks):
        assert [w.is_open for w in waits] == [len(w.names) <= place for w in waits]
        text = f"{float(sizes[each.dimension]):.4f}"
        assert enter(each.at_once.field, text).startswith("✓"), each.dimension
        assert said(each.end), each.dimension
    assert all(w.is_open for w in waits)
    assert "hc-wrong" not in " ".join(map(shown_in, panels))  # and what opened can be shown


def test_show_all_figures_is_remembered(bench, file):
    assert bench.show_all.layout.display == "none"
    assert [p for p in lesson_widgets(bench) if isinstance(p, Waiting)]
    assert bench.show_all.layout.display == ""
    assert (bench.show_all.description, bench.show_all.disabled) == ("Show all figures", False)
    bench.show_all.click()
    assert (bench.show_all.description, bench.show_all.disabled) == ("All figures are shown", True)
    again = [p for p in lesson_widgets(Bench(str(file))) if isinstance(p, Waiting)]
    assert all(w.is_open for w in again)
    assert Answers(answers_path(file)).all() == []


# ── at the shell ──────────────────────────────────────────────────────────────────────────────


KEYS = "schema dimension answer verdict slips message first_difference carried chain sum"
RIGHT = {"right": True, "missing": [], "extra": [], "count": {}, "sign": []}


def test_a_chain_is_judged_at_the_shell(capfd):
    front = "judge front_rail_length"
    twice = "--chain hive_width=1 --chain stud_thickness=-2"
    found = called(capfd, f"{front} '14 3/8' {twice} --format json")
    assert (found.status, list(found.document)) == (0, KEYS.split())
    assert (found.document["chain"], found.document["sum"]) == (RIGHT, "right")
    alone = called(capfd, f"{front} --chain stud_width=-2 --format json")
    assert (alone.status, alone.document["sum"]) == (1, None)
    assert alone.document["chain"]["missing"] == ["hive_width", "stud_thickness"]
    assert alone.document["chain"]["extra"] == ["stud_width"]
    chain = "--chain hive_length=1 --chain 'stud thickness=-1'"
    slipped = called(capfd, f"judge 'side rail length' '22 5/8' {chain} --format json")
    assert (slipped.status, slipped.document["sum"]) == (1, "slip")
    assert slipped.document["slips"] == ["inch_not_lowered"]
    assert called(capfd, f"judge side_rail_length '22 5/8' {chain}").status == 1


@pytest.mark.parametrize("name", sorted(HIVES))
def test_every_dimension_of_any_hive_can_be_walked(name):
    """One prediction fits; the right chain leads to its bar and drawing, looked at on half."""
    hive = hive_from_text(HIVES[name])
    sizes = values_to_find(hive)
    derived = [
        n for n, d in DIMENSIONS.dimensions.items() if n in sizes and n not in hive.measurements
    ]
    plain = [n for n in derived if DIMENSIONS.dimensions[n].component in (*built(hive), PRACTICE)]
    for dimension in plain:
        question, options, right, _ = pages.to_predict(hive, dimension)
        if DIMENSIONS.dimensions[dimension].kind == "length":
            assert question
            assert sum(word == right for _, word in options) == 1
        chain = true_chain(hive, dimension)
        if chain is None or name != "eight-frame":  # which has all that is ever built
            continue
        bar = pages.bar_of(hive, dimension, chain)
        drawn = pages.drawing_of(hive, dimension, chain, ())
        others = [n for n in sizes if not pages.may_change_drawing(dimension, [n])]
        if others:  # what they come to stands nowhere in it
            assert dimension not in others
            again = pages.drawing_of(hive, dimension, chain, others)
            assert NUMBER_OF_DRAWING.sub("", again) == NUMBER_OF_DRAWING.sub("", drawn)
        assert bar.startswith("<svg")
        assert drawn.startswith("<svg")
        assert pages.seen(hive, dimension, "same")
