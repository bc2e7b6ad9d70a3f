"""The course folder: what is copied, what is never overwritten, and where the learner left off."""

import hashlib
import json
import os
import time
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from hivecalc.components import opened_hive
from hivecalc.course_folder import (
    MANIFEST,
    PLACES,
    Prints,
    copying,
    manifest,
    originals,
    prints,
    worked_in,
    write_manifest,
)
from hivecalc.course_folder.copying import HIVE_FILE, prepare, report
from hivecalc.hive import HiveFaults, demo_hive
from hivecalc.workshop import YARD_FILE, demo_yard, yard_from_file, yard_text
from tests.hives import HIVES
from tests.jupyter_rig import FOLDERS, ROOT

FIRST, SECOND = "workbook/00-first.ipynb", "workbook/01-second.ipynb"
EXERCISE, SOLUTION = "exercises/00-first.ipynb", "solutions/00-first.ipynb"
PICTURE = "workbook/pictures/tape.svg"


def code(source: str) -> dict:
    return {"cell_type": "code", "source": source, "metadata": {}, "outputs": []}


def notebook(*sources: str, **metadata: object) -> str:
    """Return a notebook with these cells, as the originals are kept: without results."""
    return json.dumps({"cells": [*map(code, sources)], "metadata": metadata, "nbformat": 4})


LESSON, NEWER = notebook("show_tape()", "show_rails(2)"), notebook("show_tape()", "show_rails(4)")
LESSONS = {FIRST: LESSON, SECOND: LESSON, PICTURE: "<svg/>", EXERCISE: "ask", SOLUTION: "tell"}
GIVEN = {**LESSONS, YARD_FILE: yard_text()}


def write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


@pytest.fixture
def source(tmp_path: Path) -> Path:
    """Originals of a small course, with scratch files among them."""
    root = tmp_path / "originals"
    scratch = ["workbook/.ipynb_checkpoints/00-first-checkpoint.ipynb", "workbook/__pycache__/x"]
    for name, text in {**LESSONS, **dict.fromkeys(scratch, "scratch")}.items():
        write(root / name, text)
    return root


@pytest.fixture
def folder(tmp_path: Path, source: Path) -> Path:
    """A course folder in which nothing was done yet."""
    return prepare(tmp_path / "my course", source=source).folder


def files(folder: Path) -> dict[str, str]:
    """Return what a learner sees in a folder: its files, hidden ones left out."""
    found = (path for path in folder.rglob("*") if path.is_file())
    names = {path.relative_to(folder).as_posix(): path for path in found}
    return {name: path.read_text() for name, path in sorted(names.items()) if name[0] != "."}


def saved(path: Path, change: Callable[[list[dict]], object]) -> None:
    """Change a notebook's cells and save it as JupyterLab does: sources parted in lines."""
    held = json.loads(path.read_bytes())
    held["metadata"]["language_info"] = {"name": "python", "version": "3.11.7"}
    change(held["cells"])
    for cell in held["cells"]:
        cell["source"] = "".join(cell["source"]).splitlines(keepends=True)
    path.write_text(json.dumps(held, indent=1))


def run(cells: list[dict]) -> None:
    """Leave cells as JupyterLab does when it has run them: with outputs, counts and times."""
    for number, cell in enumerate(cells, 1):
        output = {"output_type": "stream", "name": "stdout", "text": ["2 rails"]}
        when = {"execution": {"iopub.status.busy": "2026-05-01T10:00:00"}}
        cell.update(execution_count=number, outputs=[output], metadata=when)


def run_and_save(path: Path) -> None:
    saved(path, run)


@pytest.fixture(autouse=True)
def _no_waiting_for_the_disk(monkeypatch):
    monkeypatch.setattr(os, "fsync", lambda _: None)  # see test_files.py


# ── the first time ────────────────────────────────────────────────────────────────────────────


def test_a_new_folder_holds_the_course_and_the_demo_hive(tmp_path, source):
    course = prepare(tmp_path / "course", source=source)
    held = files(course.folder)
    assert held.pop(HIVE_FILE).startswith("# A hive file")
    assert held == GIVEN
    assert opened_hive(course.hive) == demo_hive()
    assert (course.lesson, course.opens) == (FIRST, FIRST)
    assert sorted(course.fresh) == sorted([*GIVEN, HIVE_FILE])
    assert not (course.folder / OLD).exists()  # no lesson of before
    told = report(course)
    assert told[0] == f"Your course folder: {course.folder}"
    assert "3 in workbook" in told[1]
    assert HIVE_FILE in told[1]


def test_a_folder_that_can_only_be_read_is_told_before_anything_opens(
    tmp_path, source, monkeypatch
):
    course = prepare(tmp_path / "course", source=source)
    monkeypatch.setattr(os, "access", lambda path, _: path != course.folder)
    with pytest.raises(
        HiveFaults, match=r"course: nothing that you do could be kept there, .*; give "
    ):
        prepare(course.folder, source=source)


def test_a_hive_file_that_is_given_is_copied_as_it_is_once(tmp_path, source):
    file = tmp_path / "shed.toml"
    file.write_text(HIVES["metric"], encoding="utf-8")
    course = prepare(tmp_path / "course", file, source)
    assert course.hive.read_bytes() == file.read_bytes()
    assert not any("not copied" in line for line in report(course, file))
    write(course.hive, HIVES["eight-frame"])
    again = prepare(course.folder, file, source)
    assert course.hive.read_text() == HIVES["eight-frame"]
    assert f"my-hive.toml is there already and stays; {file} was not copied" in report(again, file)


def test_the_originals_come_from_the_clone_and_are_not_worked_on(source):
    assert originals() == ROOT
    assert all((originals() / name).is_dir() for name in FOLDERS)
    before = files(source)
    for place in (source, source / "workbook", source / "exercises" / "mine"):
        with pytest.raises(HiveFaults, match="must stay clean"):
            prepare(place, source=source)
    assert files(source) == before


def test_an_installation_without_lessons_says_so(tmp_path, source):
    for name in (FIRST, SECOND):
        (source / name).unlink()
    with pytest.raises(HiveFaults, match="the lessons are missing from this installation"):
        prepare(tmp_path / "course", source=source)
    assert not (tmp_path / "course").exists()


# ── an update ─────────────────────────────────────────────────────────────────────────────────


def test_the_same_again_changes_nothing(folder, source):
    before = {path: path.stat().st_mtime_ns for path in folder.rglob("*")}
    course = prepare(folder, source=source)
    assert (course.fresh, course.renewed, course.beside) == ([], [], [])
    assert {path: path.stat().st_mtime_ns for path in folder.rglob("*")} == before


def test_an_update_adds_renews_and_brings_back(folder, source):
    write(source / FIRST, NEWER)
    write(source / "workbook/02-third.ipynb", "three")
    (folder / SECOND).unlink()
    course = prepare(folder, source=source)
    assert (course.fresh, course.renewed) == ([SECOND, "workbook/02-third.ipynb"], [FIRST])
    assert files(folder)[FIRST] == NEWER
    assert all(any(name in line for line in report(course)) for name in (FIRST, "02-third"))


def test_work_is_never_overwritten_and_a_newer_lesson_lies_beside_it_once(
    folder, source, monkeypatch
):
    write(folder / FIRST, "my work")
    assert prepare(folder, source=source).beside == []
    write(source / FIRST, NEWER)
    monkeypatch.setattr(copying, "__version__", "0.2.0")
    course, beside = prepare(folder, source=source), "workbook/00-first (newer 0.2.0).ipynb"
    assert (files(folder)[FIRST], files(folder)[beside]) == ("my work", NEWER)
    assert f"You changed {FIRST}: it stays, and the newer one is {beside}" in report(course)
    write(folder / beside, "my work on the newer one")
    assert prepare(folder, source=source).beside == []
    write(source / FIRST, LESSON)
    [(_, again)] = prepare(folder, source=source).beside
    held = files(folder)
    assert [held[n] for n in (FIRST, beside, again)] == [
        "my work", "my work on the newer one", LESSON,
    ]  # fmt: skip
    (folder / again).replace(folder / FIRST)  # the learner takes the newest one over
    write(source / FIRST, NEWER)
    assert prepare(folder, source=source).renewed == [FIRST]


def test_a_hive_in_mm_gets_the_metric_yard(folder, source):
    (folder / "my-hive.toml").write_text('units = "mm"\n[chosen]\nframes = 8\n')
    assert prepare(folder, source=source).renewed == [YARD_FILE]
    assert yard_from_file(folder / YARD_FILE) == demo_yard("mm")


def test_the_yard_file_is_the_learners_once_they_write_their_prices(folder, source):
    own = folder / YARD_FILE
    assert yard_from_file(own) == demo_yard()
    own.write_text(own.read_text().replace("price = 4\n", "price = 5.25\n", 1))
    again = prepare(folder, source=source)
    assert (again.fresh, again.renewed, again.beside) == ([], [], [])
    assert yard_from_file(own).boards[0].price == Fraction(21, 4)


def test_a_folder_left_half_made_is_completed(tmp_path, source, monkeypatch):
    written, folder = [], tmp_path / "course"

    def failing(path: Path, data: bytes) -> None:
        if len(written) == 3:
            raise KeyboardInterrupt
        written.append(path)
        write(path, data.decode())

    with monkeypatch.context() as patch:
        patch.setattr(copying, "write_whole", failing)
        with pytest.raises(KeyboardInterrupt):
            prepare(folder, source=source)
    assert not (folder / MANIFEST).exists()
    course = prepare(folder, source=source)
    assert (len(course.fresh), course.beside) == (len(GIVEN) + 1 - 3, [])
    write(source / FIRST, NEWER)
    assert prepare(folder, source=source).renewed == [FIRST]


def test_what_a_crash_left_half_written_is_swept_after_a_day(folder, source):
    names = [f"{n}/.0123456789ab.part" for n in (".", "workbook/pictures", ".hivecalc/places")]
    others = ["workbook/.notes.part", "mine/.0123456789ab.part"]
    for name in (*names, *others):
        write(folder / name, "half")
        os.utime(folder / name, (0, 0))
    fresh = folder / "workbook/.ba9876543210.part"
    write(fresh, "half")
    prepare(folder, source=source)
    assert not any((folder / name).exists() for name in names)
    assert all((folder / name).exists() for name in others)
    assert fresh.exists()


# ── notebooks that were run, and notebooks that were changed ──────────────────────────────────


def test_a_lesson_that_was_only_run_and_saved_takes_the_newer_original(folder, source):
    run_and_save(folder / FIRST)
    held = (folder / FIRST).read_bytes()
    course = prepare(folder, source=source)
    assert (course.renewed, course.beside, (folder / FIRST).read_bytes()) == ([], [], held)
    write(source / FIRST, notebook("show_tape()", "show_rails(2)", title="Rails"))  # metadata only
    assert prepare(folder, source=source).renewed == [FIRST]
    run_and_save(folder / FIRST)
    write(source / FIRST, NEWER)
    course = prepare(folder, source=source)
    assert (course.renewed, course.beside) == ([FIRST], [])
    assert (folder / FIRST).read_text() == NEWER


CHANGES = {
    "a source": lambda cells: cells[1].update(source="show_rails(3)"),
    "a type": lambda cells: cells[1].update(cell_type="markdown"),
    "a cell more": lambda cells: cells.append(code("mine")),
    "a cell less": lambda cells: cells.pop(),
    "the order": lambda cells: cells.reverse(),
}
UNREADABLE = {
    "empty": b"",
    "cut off": b'{"cells": [{"cell_type": "code", "source": "show_',
    "not UTF-8": b'{"cells": "\xff"}',
    "deeply nested": b"[" * 200_000,
    "no cells": b"{}",
    "a cell that is none": b'{"cells": [1]}',
    "a source that is none": b'{"cells": [{"cell_type": "code", "source": 1}]}',
}


@pytest.mark.parametrize("change", [*CHANGES.values(), *UNREADABLE.values()])
def test_a_change_or_damage_of_the_cells_is_the_learners_and_stays(folder, source, change):
    run_and_save(folder / FIRST)
    if isinstance(change, bytes):
        (folder / FIRST).write_bytes(change)
    else:
        saved(folder / FIRST, change)
    mine = (folder / FIRST).read_bytes()
    write(source / FIRST, NEWER)
    course = prepare(folder, source=source)
    [(name, beside)] = course.beside
    assert (name, course.renewed) == (FIRST, [])
    assert (folder / FIRST).read_bytes() == mine
    assert (folder / beside).read_text() == NEWER


# ── the manifest ──────────────────────────────────────────────────────────────────────────────


def given(folder: Path) -> dict[str, Prints]:
    return manifest(folder)[0]


FORM = '{{"schema": "hivecalc-course/{}", "files": {}}}'
DAMAGE = [
    b"", b"{", bytes(range(256)), b"[]", b"[" * 200_000, b'{"schema": ["hivecalc-course/2"]}',
    *(FORM.format(*pair).encode() for pair in (
        (2, '["workbook"]'), (2, '{"a": "ab"}'), (2, '{"a": {"whole": "b", "work": "b"}}'),
        (2, '{"a": {"whole": "b"}}'), (2, '{"a": 1}'), (1, '{"a": 1}'), (1, '{"a": "ab"}'),
        (3, "{}"), (2, '{"workbook/00-first.ipynb": {"whole": "'),
    )),
]  # fmt: skip


@pytest.mark.parametrize("damage", DAMAGE)
def test_with_a_damaged_manifest_every_file_is_the_learners(folder, source, damage):
    assert len(given(folder)) == len(GIVEN)
    (folder / MANIFEST).write_bytes(damage)
    assert given(folder) == {}
    write(source / FIRST, NEWER)
    course = prepare(folder, source=source)
    assert files(folder)[FIRST] == LESSON
    assert [name for name, _ in course.beside] == [FIRST]
    assert len(given(folder)) == len(GIVEN)
    (folder / MANIFEST).write_bytes(damage)  # the newer one lies there already: under one name
    assert prepare(folder, source=source).beside == course.beside


def test_the_manifest_vouches_for_the_course_and_for_nothing_that_was_sent(folder, source):
    sent = notebook("open('written', 'w')")
    write(folder / EXERCISE, sent)
    foreign = prints("sent.ipynb", sent.encode())
    write_manifest(folder, {**given(folder), EXERCISE: foreign, "exercises/sent.ipynb": foreign})
    prepare(folder, source=source)
    assert foreign not in given(folder).values()
    run_and_save(folder / FIRST)
    lesson = prints(FIRST, (folder / FIRST).read_bytes())
    assert lesson.work == given(folder)[FIRST].work


def write_first_manifest(folder: Path) -> None:
    """Put the manifest in the form of the first version: one digest a file, that of its bytes."""
    held = {n: hashlib.sha256((folder / n).read_bytes()).hexdigest() for n in given(folder)}
    document = {"schema": "hivecalc-course/1", "version": "0.1.0", "files": held}
    (folder / MANIFEST).write_text(json.dumps(document))


def forget_edition(folder: Path) -> None:
    """Take from the manifest what only the second edition writes."""
    document = json.loads((folder / MANIFEST).read_text())
    del document["edition"]
    (folder / MANIFEST).write_text(json.dumps(document))


def test_a_manifest_of_the_first_version_is_understood_and_brought_up_to_date(folder, source):
    write_first_manifest(folder)
    run_and_save(folder / SECOND)
    for name in (FIRST, SECOND):
        write(source / name, NEWER)
    course = prepare(folder, source=source)
    assert course.renewed == [FIRST]
    assert [name for name, _ in course.beside] == [SECOND]  # its cells were not known then
    run_and_save(folder / FIRST)
    write(source / FIRST, LESSON)
    assert prepare(folder, source=source).renewed == [FIRST]


@pytest.mark.parametrize("of_first_edition", [forget_edition, write_first_manifest])
def test_what_changed_since_the_first_edition_is_told_once(folder, source, of_first_edition):
    assert prepare(folder, source=source).news == []
    of_first_edition(folder)
    write(folder / HIVE_FILE, HIVES["orchard"])
    told = report(prepare(folder, source=source))
    assert "New in the second edition of the course, for my-hive.toml:" in told
    assert [line for line in told if line.startswith("  The skirt width is 3 3/8 in now and was 2")]
    assert not [line for line in told if "rest depth" in line]  # no box is built
    assert prepare(folder, source=source).news == []


def test_a_hive_file_at_fault_and_notes_that_can_not_be_kept_do_not_stop_the_folder(
    folder, source, tmp_path
):
    for hive in ("", "[measured]\nhive_length = 'long'\n"):
        forget_edition(folder)
        write(folder / HIVE_FILE, hive)
        assert prepare(folder, source=source).news == []
    write(tmp_path / "course" / PLACES, "in the way")
    assert prepare(tmp_path / "course", source=source).opens == FIRST


# ── where one left off: found again, and never trusted ────────────────────────────────────────


def work_in(folder: Path, lesson: str, when: float = 0) -> Path:
    """Leave behind what the page leaves of a lesson that was worked in."""
    note = folder / PLACES / f"{lesson}.json"
    note.write_text('{"cell": "4c56bb00"}')
    os.utime(note, (when, when))
    return note


def test_open_goes_on_where_one_left_off(folder, source, tmp_path):
    other = prepare(tmp_path / "other", source=source).folder
    work_in(other, SOLUTION, 500)
    work_in(folder, FIRST, 300)
    work_in(folder, SECOND, 200)
    work_in(folder, EXERCISE, 400)
    assert worked_in(folder) == [EXERCISE, FIRST, SECOND]
    course = prepare(folder, source=source)
    assert (course.lesson, course.left_off, course.opens) == (FIRST, EXERCISE, EXERCISE)


def test_a_note_from_a_clock_that_ran_fast_gives_way_to_the_next_one(folder, source):
    work_in(folder, FIRST, time.time() + 3 * 365 * 24 * 3600)
    assert prepare(folder, source=source).opens == FIRST
    work_in(folder, SECOND, time.time() + 1)
    assert worked_in(folder) == [SECOND, FIRST]


@pytest.mark.parametrize("damage", [b"", b'{"cell": "tw', b"[]", b"\xff", b"[" * 200_000])
def test_a_damaged_note_still_says_which_lesson_it_was(folder, damage):
    work_in(folder, FIRST, -100)
    work_in(folder, SECOND).write_bytes(damage)
    assert worked_in(folder) == [SECOND, FIRST]


def test_no_note_leads_out_of_the_course_folder_or_to_what_is_gone(folder, tmp_path):
    outside = tmp_path / "outside.ipynb"
    outside.write_text("outside")
    (folder / "workbook" / "link.ipynb").symlink_to(outside)
    (folder / "outside.ipynb").write_text("outside")
    (folder / SECOND).unlink()
    for name in ("workbook/link.ipynb", "outside.ipynb", "workbook/..\\outside.ipynb", SECOND):
        work_in(folder, name)
    (folder / PLACES / f"{FIRST}.json").mkdir()
    (folder / PLACES / f"{EXERCISE}.json").symlink_to(tmp_path / "nowhere")
    assert worked_in(folder) == [FIRST]


# ── a lesson that has another name now ────────────────────────────────────────────────────────

OLD, NEW = "workbook/14-your-hive-book.ipynb", "workbook/15-your-hive-book.ipynb"


@pytest.fixture
def before(tmp_path: Path, source: Path) -> Path:
    """A course folder of before the renaming, and originals of today."""
    write(source / OLD, LESSON)
    course = prepare(tmp_path / "before", source=source).folder
    (source / OLD).rename(source / NEW)
    return course


def test_the_place_in_a_renamed_lesson_is_kept_unless_there_is_a_newer_one(before, source):
    work_in(before, FIRST, 300)
    work_in(before, OLD, 400)
    assert prepare(before, source=source).opens == NEW
    assert worked_in(before) == [NEW, FIRST]
    work_in(before, OLD, 300)
    work_in(before, NEW, 400).write_text('{"cell": "newer"}')
    prepare(before, source=source)
    assert "newer" in (before / PLACES / f"{NEW}.json").read_text()


def test_an_old_link_leads_to_todays_lesson(before, source):
    write(source / NEW, NEWER)
    for _ in range(2):
        prepare(before, source=source)
        assert (before / OLD).read_text() == (before / NEW).read_text() == NEWER
        assert prints(OLD, NEWER.encode()) == given(before)[OLD]


def test_a_renamed_lesson_that_the_learner_changed_stays_theirs(before, source):
    (before / OLD).write_text("my book")
    course = prepare(before, source=source)
    assert (before / OLD).read_text() == "my book"
    assert (before / NEW).read_text() == LESSON
    assert OLD not in given(before)
    assert course.beside == []
