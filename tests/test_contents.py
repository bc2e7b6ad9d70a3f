"""The course folder on a page: contents that say what the notebooks say, how far, other hives."""

import html
import json
import os
import re
from datetime import UTC, datetime
from pathlib import Path

import pytest

from hivecalc.answers import Answers, answers_path
from hivecalc.course_folder import PLACES
from hivecalc.exercise import EXERCISES
from hivecalc.exercise import LESSONS as WITH_EXERCISES
from hivecalc.hive import demo_hive, hive_text
from hivecalc.judging import verdict
from hivecalc.pages import contents as page
from hivecalc.pages.contents import contents, how_far, lessons, link, practice, practice_of, way_on
from hivecalc.pages.views import first_pictures
from hivecalc.widgets import Bench
from hivecalc.widgets.folder import CLOSE, SHOW, Contents, TwoHives, other_hives, this_page
from hivecalc.workshop import yard_text
from tests.hives import HIVES
from tests.jupyter_rig import ROOT, cells
from tests.panels import has, words

WORKBOOK = ROOT / "workbook"
NOTEBOOKS = sorted(WORKBOOK.glob("*.ipynb"))
FRAME = "workbook/02-the-frame-of-the-bottom-board.ipynb"
EXERCISES_OF_FRAME = f"exercises/{FRAME[9:]}"
SIDE, FRONT = "bottom_board.side_rail_length", "bottom_board.front_rail_length"
NOW = datetime(2026, 5, 2, 10, tzinfo=UTC)
ASKS = re.compile(r"\.(ask|derive|sums)\(")
ENTRY = re.compile(r"<li[^>]*>(.*?)</li>", re.DOTALL)


def sources(notebook: Path, kind: str) -> list[str]:
    """Return what the cells of one kind say."""
    return [cell["source"] for cell in cells(notebook, kind)]


def entries(told: str) -> list[str]:
    """Return what a table of contents says of each lesson."""
    return [words(entry) for entry in ENTRY.findall(told)]


def links(told: str) -> list[str]:
    """Return the pages that the links in some HTML lead to."""
    return re.findall(r'data-page="([^"]+)"', told)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A course folder that holds every notebook by name, in which nothing was done yet."""
    for notebook in [*WORKBOOK.glob("*.ipynb"), *(ROOT / "exercises").glob("*.ipynb")]:
        copy = tmp_path / notebook.relative_to(ROOT)
        copy.parent.mkdir(exist_ok=True)
        copy.write_bytes(notebook.read_bytes())
    return tmp_path


@pytest.fixture
def answers(folder: Path) -> Answers:
    return Answers(answers_path(folder / "my-hive.toml"), demo_hive().name)


def answer(answers: Answers, dimension: str, text: str) -> None:
    answers.add(dimension, text, verdict(demo_hive(), dimension, text), NOW)


def work_in(folder: Path, name: str, when: float = 0) -> None:
    """Leave behind what the page leaves of a notebook that was worked in."""
    note = folder / PLACES / f"{name}.json"
    note.parent.mkdir(parents=True, exist_ok=True)
    note.write_text(json.dumps({"cell": "4c56bb00"}))
    os.utime(note, (when, when))


# ── it says what the notebooks say ────────────────────────────────────────────────────────────


def test_every_lesson_stands_in_it_in_order_with_title_minutes_and_aim(answers, folder):
    told = entries(contents(answers, demo_hive(), folder))
    assert len(told) == len(NOTEBOOKS)
    for entry, notebook in zip(told, NOTEBOOKS, strict=True):
        first = sources(notebook, "markdown")[0]
        assert first.startswith(f"# {entry.partition(' · ')[0]} · ")
        assert entry.startswith(first.partition("\n")[0].removeprefix("# "))
        minutes = re.search(r"(\d+) minutes", first)
        assert minutes
        assert f" {minutes[1]} minutes · " in entry
        aim = first.partition("be able to do:** ")[2].partition("\n")[0]
        assert len(aim) > 20
        assert aim[1:] in entry


def test_it_says_which_exercises_belong_to_a_lesson_and_leads_there(answers, folder):
    told = contents(answers, demo_hive(), folder)
    exercised = [n.name for n in NOTEBOOKS if n.name[:2] in WITH_EXERCISES]
    found = [Path(name) for name in links(told)]
    assert [name.name for name in found if name.parent.name == "exercises"] == exercised
    listed = [key for lesson in lessons() for key in lesson.exercises]
    assert listed == list(EXERCISES)


def test_every_link_in_it_leads_to_a_page_of_the_course_and_what_is_asked_is_read_from_cells(
    answers, folder
):
    found = links(contents(answers, demo_hive(), folder))
    assert len(found) > len(NOTEBOOKS)
    assert "workbook/glossary.md" in found
    assert [name for name in found if not (ROOT / name).is_file()] == []
    for lesson in lessons():
        asked = [c for c in sources(ROOT / lesson.name, "code") if ASKS.search(c)]
        keys = [key for code in asked for key in re.findall(r'(?<!=)"([^"]+)"', code)]
        assert list(lesson.asks) == keys


def test_each_question_of_a_lesson_is_kept_under_the_key_that_is_counted(folder):
    bench = Bench(str(folder / "my-hive.toml"))
    sums = [key for lesson in lessons() for key in lesson.asks if " " in key]
    assert [panel.key for panel in bench.sums(*sums).children] == sums
    sizes = [SIDE, FRONT]
    assert [panel.dimension for panel in bench.ask(*sizes).children] == sizes
    assert sums


def test_a_new_lesson_stands_in_it_by_itself(tmp_path, monkeypatch, answers, folder):
    first = (
        "# 98 · What to buy <now>\n\n**What you will be able to do:** shop & pay.\n\n"
        "**Time:** 55 minutes. **At the bench:** a pencil."
    )
    asks = 'bench.with_frames(8).ask("roof.lap", "roof.slope")'
    told = [{"cell_type": "markdown", "source": first}, {"cell_type": "code", "source": asks}]
    new = tmp_path / "originals" / "workbook" / "98-what-to-buy.ipynb"
    new.parent.mkdir(parents=True)
    new.write_text(json.dumps({"cells": told}))
    monkeypatch.setattr(page, "originals", lambda: tmp_path / "originals")
    assert entries(contents(answers, demo_hive(), folder)) == [
        "98 · What to buy <now> 55 minutes · not begun Shop & pay."
    ]
    assert lessons()[0].asks == ("roof.lap", "roof.slope")


def test_the_titles_of_the_exercises_are_those_of_the_lessons():
    titles = {lesson.number: lesson.title for lesson in lessons()}
    assert {n: f"{n} · {lesson.title}" for n, lesson in WITH_EXERCISES.items()} == {
        n: titles[n] for n in WITH_EXERCISES
    }


# ── how far ───────────────────────────────────────────────────────────────────────────────────


def state(answers: Answers, folder: Path, number: str = "02") -> str:
    """Return what is said of how far one lesson is."""
    told = entries(contents(answers, demo_hive(), folder))
    [entry] = [each for each in told if each.startswith(f"{number} · ")]
    found = re.search(r"\d+ minutes · (not begun|(?:begun|all answered), .*? right|begun)", entry)
    return found[1]


def test_what_was_right_for_an_answer_that_was_mended_since_is_counted_no_more(answers, folder):
    opening, panel = "bottom_board.opening_width", "bottom_board.panel_width"
    lesson = next(each for each in lessons() if each.number == "03")
    assert {opening, panel} <= {*lesson.asks}
    answer(answers, opening, "15 7/8")
    worked_on = verdict(demo_hive(), panel, "15 5/8", {opening: "15 7/8"})
    assert worked_on.verdict == "right_carried"
    answers.add(panel, "15 5/8", worked_on, NOW)
    assert state(answers, folder, "03").startswith("begun, 1 of ")
    answer(answers, opening, "14 3/8")
    assert state(answers, folder, "03").startswith("begun, 1 of ")
    answer(answers, panel, "14 1/8")
    assert state(answers, folder, "03").startswith("begun, 2 of ")


def test_a_lesson_is_begun_when_it_was_worked_in_or_answered(answers, folder):
    assert how_far((), {}, worked_in=True) == "begun"  # a lesson without questions
    assert how_far((), {}, worked_in=False) == "not begun"
    answers.path.write_text('{"schema": "hivecalc-answers/1", "hive": "Orchard hive"}\nrubbish\n')
    assert state(answers, folder) == "not begun"  # damaged answers cost themselves only
    work_in(folder, FRAME)
    assert state(answers, folder) == "begun, 0 of 5 questions right"
    assert state(answers, folder, "03") == "not begun"
    answer(answers, "bottom_board.panel_width", "14 1/8")
    assert state(answers, folder, "03").startswith("begun, 1 of ")


def test_only_the_last_answer_to_a_question_counts_and_all_answered_says_how_many_are_right(
    answers, folder
):
    for text, right in (("20 1/8", 0), ("21 5/8", 1), ("23 1/8", 0), ("21 5/8", 1)):
        answer(answers, SIDE, text)
        assert state(answers, folder) == f"begun, {right} of 5 questions right"
    for dimension, text in (
        ("front_rail_width", "2 3/4"), ("front_rail_length", "15 7/8"), ("back_rail_length", "14"),
    ):  # fmt: skip
        answer(answers, f"bottom_board.{dimension}", text)
    answer(answers, "practice.middle_rail_length", "21 5/8")
    assert state(answers, folder) == "all answered, 2 of 5 questions right"


def test_what_was_answered_in_exercises_counts_for_them_only(answers, folder):
    found = verdict(demo_hive(), SIDE, "21 5/8")
    answers.add("02-01", "21 5/8", found, NOW)
    count = sum(e.lesson == "02" for e in EXERCISES.values())
    shown = contents(answers, demo_hive(), folder)
    told = words(shown)
    assert f"Exercises of lesson 02 · begun, 1 of {count} questions right" in told
    assert 'aria-label="Lesson 02 and its exercises, done"' in shown
    assert state(answers, folder) == "not begun"


# ── the way on ────────────────────────────────────────────────────────────────────────────────


def test_the_way_on_leads_to_the_place_in_the_lesson_worked_in_last(folder):
    work_in(folder, "workbook/05-the-roof.ipynb", 100)
    work_in(folder, FRAME, 200)
    told = way_on(folder, "workbook/00-your-hive-and-your-tape.ipynb")
    lesson = "lesson 02 · The frame of the bottom board"
    assert words(told) == f"Go on with {lesson} , where you left off."
    assert links(told) == [FRAME]
    has(told, f'href="../{FRAME}"', "data-place=")
    assert "data-place=" not in contents(Answers("no such file"), demo_hive(), folder)


@pytest.mark.parametrize("here", [
    FRAME, "workbook/03-runners-slot-and-panel.ipynb", "workbook/05-the-roof.ipynb",
    EXERCISES_OF_FRAME,
])  # fmt: skip
def test_nobody_is_sent_on_before_one_began_nor_back_nor_to_where_one_is(folder, here):
    assert (ROOT / here).exists()
    assert way_on(folder) == ""
    work_in(folder, FRAME)
    assert way_on(folder, here) == ""
    assert way_on(folder, "workbook/01-inches-fractions-and-real-boards.ipynb") != ""


def test_nobody_is_sent_to_what_is_done(folder):
    work_in(folder, EXERCISES_OF_FRAME)
    right = dict.fromkeys((n for n, e in EXERCISES.items() if e.lesson == "02"), True)
    assert way_on(folder, FRAME, right | {"02-03": False}) != ""
    assert way_on(folder, FRAME, right) == ""


# ── what practises what ───────────────────────────────────────────────────────────────────────


def test_a_lesson_says_how_many_exercises_it_has_and_which_is_next():
    own = [name for name, record in EXERCISES.items() if record.lesson == "02"]
    told = practice("02", {own[0]: True, own[1]: False})
    assert words(told).startswith(f"Practise : {len(own)} exercises , 1 done. Go on with exercise")
    assert f"Go on with exercise {own[1]} (not right yet)." in words(told)
    assert links(told) == [EXERCISES_OF_FRAME] * 2
    assert "All are done." in practice("02", dict.fromkeys(own, True))
    assert practice("99", {}) == ""


def test_a_dimension_leads_to_the_very_cells_that_practise_it():
    told = practice_of(SIDE, {"02-01": True})
    assert words(told).startswith("Practise this: exercise 02-01 ✓,")
    named = re.findall(r'data-page="([^"]+)" data-cell="([^"]+)"[^>]*>exercise ([^<]+)<', told)
    assert named
    for page_, cell, name in named:
        [found] = [each["source"] for each in cells(ROOT / page_) if each["id"] == cell]
        assert found.startswith(f"## {name} · ")
        assert SIDE in EXERCISES[name].dimensions
    assert practice_of("no_such.dimension", {}) == ""


@pytest.mark.parametrize(("name", "called"), [
    ("exercises/05-the-roof.ipynb", "the exercises of 05 · The roof"),
    ("workbook/05-the-roof (newer 0.2.0).ipynb", "workbook/05-the-roof (newer 0.2.0).ipynb"),
    ("workbook/<b>mine.ipynb", "workbook/<b>mine.ipynb"),
])  # fmt: skip
def test_any_notebook_of_the_course_can_be_where_one_left_off(folder, name, called):
    (folder / name).write_bytes((ROOT / FRAME).read_bytes())
    work_in(folder, name)
    told = way_on(folder)
    assert f"Go on with {called} , where" in words(told)
    assert html.unescape(links(told)[0]) == name


def test_nothing_of_a_name_is_read_as_markup():
    told = link('workbook/"><script>.ipynb', "<script>")
    assert "<script>" not in told
    assert told.count('"') == 6


# ── on the page ───────────────────────────────────────────────────────────────────────────────


@pytest.fixture
def panel(folder: Path) -> Contents:
    return Bench(str(folder / "my-hive.toml")).contents()


def test_the_contents_are_put_away_until_asked_for_and_then_as_things_stand(panel, folder):
    assert (panel.button.description, panel.shown.value) == (SHOW, "")
    answer(Answers(answers_path(folder / "my-hive.toml")), SIDE, "21 5/8")  # in another window
    panel.button.click()
    assert panel.button.description == CLOSE
    assert "begun, 1 of 5 questions right" in panel.shown.value
    panel.button.click()
    assert (panel.button.description, panel.shown.value) == (SHOW, "")


def test_the_contents_that_are_shown_follow_each_answer(folder):
    bench = Bench(str(folder / "my-hive.toml"))
    panel = bench.contents()
    panel.button.click()
    bench.ask(SIDE).children[0].at_once.field.box.value = "21 5/8"
    assert "begun, 1 of 5 questions right" in panel.shown.value


@pytest.mark.parametrize(("name", "marked"), [
    (FRAME, "50 minutes · not begun · you are here Work out"),
    (FRAME.replace("workbook", "exercises"), "lesson 02 · not begun · you are here"),
])  # fmt: skip
def test_the_notebook_one_looks_at_is_marked(name, marked, monkeypatch, folder):
    monkeypatch.setenv("JPY_SESSION_NAME", str(folder / name))
    assert this_page() == name
    panel = Bench(str(folder / "my-hive.toml")).contents()
    panel.button.click()
    [here] = [entry for entry in entries(panel.shown.value) if "you are here" in entry]
    assert here.startswith("02 · ")
    assert marked in here


def test_what_goes_wrong_is_told_in_its_place(monkeypatch, panel):
    def broken(*_: object) -> str:
        raise OSError("the disk is gone")

    monkeypatch.setattr("hivecalc.widgets.folder.contents", broken)
    panel.button.click()
    assert "The disk is gone" in panel.shown.value


# ── other hives of the folder ─────────────────────────────────────────────────────────────────


@pytest.fixture
def with_others(tmp_path: Path) -> Path:
    """A course folder with a yard, a second hive and a damaged one."""
    texts = {
        "my-hive": hive_text(demo_hive()), "my-yard": yard_text(), "ann": HIVES["eight-frame"],
        "torn": "[measured",
    }  # fmt: skip
    for name, text in texts.items():
        (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")
    return tmp_path


def test_every_other_hive_of_the_folder_can_stand_beside_this_one(with_others):
    assert [*other_hives(with_others / "my-hive.toml")] == ["ann.toml"]
    assert [*other_hives(with_others / "ann.toml")] == ["my-hive.toml"]


def test_both_are_drawn_without_what_is_still_to_be_found(with_others):
    page_hive = Bench(str(with_others / "my-hive.toml")).page_hive
    panel = TwoHives(page_hive, other_hives(page_hive.path))
    assert panel.shown.value == ""
    panel.other.value = "ann.toml"
    own, other = panel.shown.value.split("<svg")[1:]
    assert "side rail ?" in own
    assert "side rail ?" in other
    assert "hive 23 1/8 in" in own.replace("\u00a0", " ")
    assert "hive 23 1/8 in" not in other.replace("\u00a0", " ")
    page_hive.keep("hive_length", "24")
    assert "hive 24 in" in panel.shown.value.replace("\u00a0", " ")


def test_it_is_offered_where_there_is_another_hive_only(with_others, capsys):
    Bench(str(with_others / "my-hive.toml"))
    assert "TwoHives" in capsys.readouterr().out
    (with_others / "ann.toml").unlink()
    Bench(str(with_others / "my-hive.toml"))
    assert "TwoHives" not in capsys.readouterr().out


# ── links from lesson to lesson ───────────────────────────────────────────────────────────────


@pytest.mark.parametrize("place", range(len(NOTEBOOKS)), ids=lambda n: NOTEBOOKS[n].stem)
def test_a_lesson_leads_to_the_one_before_the_next_and_the_glossary_by_their_titles(place):
    texts = sources(NOTEBOOKS[place], "markdown")
    led = dict(
        re.findall(r"\*\*(Back|Next):\*\* \[[^]]+\]\(([^)]+)\)", texts[-1].rpartition("\n")[2])
    )
    expected = {"Back": NOTEBOOKS[place - 1].name} if place else {}
    if place + 1 < len(NOTEBOOKS):
        expected["Next"] = NOTEBOOKS[place + 1].name
    assert led == expected
    titles = {Path(lesson.name).name: lesson.title for lesson in lessons()}
    for said, name in re.findall(r"\[([^]]+)\]\((\d\d-[^)]+\.ipynb)\)", "\n".join(texts)):
        assert said == titles[name]
    assert "(glossary.md)" in texts[0]


@pytest.mark.parametrize("notebook", NOTEBOOKS, ids=lambda path: path.stem)
def test_a_lesson_begins_with_its_still_picture_as_it_is_drawn_today(notebook):
    drawn = first_pictures(notebook)
    shown = re.findall(r"!\[\w[^]]+\]\(pictures/([^)]+)\)", sources(notebook, "markdown")[0])
    assert shown == [*drawn]
    files = {name: (ROOT / "workbook" / "pictures" / name).read_text() for name in drawn}
    assert files == drawn, "draw the pictures anew: python -m hivecalc.pages.views ."


@pytest.mark.parametrize("notebook", NOTEBOOKS, ids=lambda path: path.stem)
def test_a_still_picture_with_sizes_stands_there_in_mm_too(notebook):
    """That of lesson 00 teaches to read inches, and that of lesson 01 is in mm for everybody."""
    *in_mm, first = first_pictures(notebook).values()
    assert bool(in_mm) is bool(re.search(r"\d in\b", first) and not notebook.stem.startswith("00"))
    assert all(re.search(r"\d mm\b", each) and not re.search(r"\d in\b", each) for each in in_mm)
