"""Which lesson one left off in: found again, never trusted, and two folders do not mix."""

import os
from pathlib import Path

import pytest

from hivecalc.cli import exit_status
from hivecalc.course_folder import (
    PLACES,
    Address,
    Course,
    lab_command,
    manifest,
    prepare,
    prints,
    serving,
    worked_in,
)
from hivecalc.course_folder.addresses import LEADING_PAGE
from hivecalc.hive import Fault, HiveFaults

FIRST, SECOND = "workbook/00-first.ipynb", "workbook/01-second.ipynb"
EXERCISE = "exercises/01-second.ipynb"


@pytest.fixture
def source(tmp_path: Path) -> Path:
    """Originals of a small course."""
    for name in (FIRST, SECOND, EXERCISE):
        path = tmp_path / "originals" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(name)
    return tmp_path / "originals"


@pytest.fixture
def folder(tmp_path: Path, source: Path) -> Path:
    """A course folder in which nothing was done yet."""
    return prepare(tmp_path / "course", source=source).folder


def work_in(folder: Path, lesson: str, when: float = 0) -> Path:
    """Leave behind what the page leaves of a lesson that was worked in."""
    note = folder / PLACES / f"{lesson}.json"
    note.write_text('{"cell": "4c56bb00"}')
    os.utime(note, (when, when))
    return note


def test_the_page_finds_room_for_its_notes(folder):
    assert all((folder / PLACES / Path(name).parent).is_dir() for name in (FIRST, EXERCISE))
    assert worked_in(folder) == []


def test_the_newest_comes_first(folder):
    work_in(folder, FIRST, 300)
    work_in(folder, SECOND, 200)
    work_in(folder, EXERCISE, 400)
    assert worked_in(folder) == [EXERCISE, FIRST, SECOND]


def test_open_goes_on_where_one_left_off(folder, source):
    assert prepare(folder, source=source).opens == FIRST
    work_in(folder, FIRST, 300)
    work_in(folder, SECOND, 400)
    course = prepare(folder, source=source)
    assert (course.lesson, course.left_off, course.opens) == (FIRST, SECOND, SECOND)
    [*_, last] = lab_command(course, browser=False)
    assert last == f"--LabApp.default_url=/lab/tree/{SECOND}"


def test_two_folders_do_not_mix(folder, source, tmp_path):
    other = prepare(tmp_path / "other", source=source).folder
    work_in(folder, SECOND)
    work_in(other, EXERCISE)
    assert prepare(folder, source=source).opens == SECOND
    assert prepare(other, source=source).opens == EXERCISE


def kept_open(folder: Path) -> Path:
    """Where JupyterLab keeps what stands open in a course folder."""
    [told] = [w for w in lab_command(Course(folder, FIRST), browser=False) if "workspaces" in w]
    return Path(told.partition("=")[2])


def test_what_stands_open_is_kept_in_the_folder_and_only_as_long_as_jupyterlab_runs(
    folder, monkeypatch
):
    place = kept_open(folder)
    assert place.is_relative_to(folder)
    place.mkdir(parents=True)
    (place / "default.jupyterlab-workspace").write_text("{}")
    monkeypatch.setattr(serving, "lab_command", lambda *_, **__: ["true"])
    assert serving.run_lab(Course(folder, FIRST), print, browser=False) == 0
    assert not place.exists()


# ── a note is not trusted ─────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("damage", [b"", b'{"cell": "tw', b"[]", b"\xff", b"[" * 200_000])
def test_a_damaged_note_still_says_which_lesson_it_was(folder, source, damage):
    work_in(folder, FIRST, 100)
    work_in(folder, SECOND).write_bytes(damage)
    assert worked_in(folder) == [SECOND, FIRST]
    assert prepare(folder, source=source).opens == SECOND


def test_a_lesson_that_is_gone_is_no_place(folder):
    work_in(folder, SECOND)
    (folder / SECOND).unlink()
    assert worked_in(folder) == []


def test_no_note_leads_out_of_the_course_folder(folder, tmp_path):
    outside = tmp_path / "outside.ipynb"
    outside.write_text("outside")
    (folder / "workbook" / "link.ipynb").symlink_to(outside)
    (folder / "outside.ipynb").write_text("outside")
    work_in(folder, "workbook/link.ipynb")
    work_in(folder, "outside.ipynb")
    work_in(folder, "workbook/..\\outside.ipynb")
    assert worked_in(folder) == []


def test_a_folder_or_a_link_in_place_of_a_note_does_no_harm(folder, tmp_path):
    work_in(folder, FIRST)
    (folder / PLACES / f"{SECOND}.json").mkdir()
    (folder / PLACES / f"{EXERCISE}.json").symlink_to(tmp_path / "nowhere")
    assert set(worked_in(folder)) == {FIRST, SECOND}


def test_where_no_note_can_be_kept_the_course_opens_all_the_same(tmp_path, source):
    (tmp_path / "course" / PLACES.parent).mkdir(parents=True)
    (tmp_path / "course" / PLACES).write_text("in the way")
    course = prepare(tmp_path / "course", source=source)
    assert course.opens == FIRST


# ── what the learner is told, and where the browser is led ────────────────────────────────────


def test_the_terminal_says_in_one_line_where_it_goes_on(tmp_path):
    page = tmp_path / "page.html"
    first, on = (Address(8888, "http://x/", page, goes_on=on) for on in (False, True))
    assert first.told(browser=True).splitlines()[0] == "The first lesson: http://x/"
    assert on.told(browser=True).splitlines()[0] == "Where you left off: http://x/"


def test_the_page_of_a_running_server_leads_to_where_one_left_off(tmp_path):
    page = tmp_path / "jpserver-7-open.html"
    address = Address(8888, 'http://localhost:8888/lab/tree/x.ipynb?token=k&a="', page)
    address.lead_here()
    assert not page.exists()
    page.write_text("to the first lesson")
    page.chmod(0o600)
    address.lead_here()
    quoted = "http://localhost:8888/lab/tree/x.ipynb?token=k&amp;a=&quot;"
    assert page.read_text() == LEADING_PAGE.format(quoted)
    assert page.read_text().count(quoted) == 2
    assert page.stat().st_mode & 0o777 == 0o600


def test_a_page_that_can_not_be_written_stays(tmp_path, monkeypatch):
    def full(*_: object) -> None:
        raise HiveFaults([Fault("page", "the disk is full", "make room")])

    page = tmp_path / "page.html"
    page.write_text("to the first lesson")
    monkeypatch.setattr("hivecalc.course_folder.addresses.write", full)
    address = Address(8888, "http://x/", page)
    address.lead_here()
    assert page.read_text() == "to the first lesson"
    assert address.opened_by() == page.as_uri()


def test_open_tells_where_it_goes_on(tmp_path, monkeypatch, capsys):
    def run_lab(course, tell, **_: object):
        tell(Address(8888, f"http://x/{course.opens}", tmp_path, goes_on=bool(course.left_off)))
        return 0

    monkeypatch.setattr("hivecalc.course_folder.run_lab", run_lab)
    frame = "workbook/02-the-frame-of-the-bottom-board.ipynb"
    arguments = ["open", "--folder", str(tmp_path / "course"), "--no-browser"]
    assert exit_status(arguments) == 0
    assert "The first lesson: http://x/workbook/00-your" in capsys.readouterr().out
    work_in(tmp_path / "course", frame)
    assert exit_status(arguments) == 0
    assert f"Where you left off: http://x/{frame}\n" in capsys.readouterr().out


# ── a lesson that has another name now ────────────────────────────────────────────────────────

OLD, NEW = "workbook/14-your-hive-book.ipynb", "workbook/15-your-hive-book.ipynb"


@pytest.fixture
def before(tmp_path: Path, source: Path) -> Path:
    """A course folder of before the renaming, and originals of today."""
    (source / OLD).write_text("the book")
    course = prepare(tmp_path / "before", source=source).folder
    (source / OLD).rename(source / NEW)
    return course


def test_the_place_in_a_renamed_lesson_is_kept(before, source):
    work_in(before, FIRST, 300)
    work_in(before, OLD, 400)
    assert prepare(before, source=source).opens == NEW
    assert (before / PLACES / f"{NEW}.json").read_text() == '{"cell": "4c56bb00"}'
    assert worked_in(before) == [NEW, FIRST]


def test_a_newer_place_under_the_new_name_stays(before, source):
    prepare(before, source=source)
    work_in(before, OLD, 300)
    work_in(before, NEW, 400).write_text('{"cell": "newer"}')
    prepare(before, source=source)
    assert "newer" in (before / PLACES / f"{NEW}.json").read_text()


def test_an_old_link_leads_to_todays_lesson(before, source):
    (source / NEW).write_text("the book, newer")
    prepare(before, source=source)
    for _ in range(2):
        assert (before / OLD).read_text() == (before / NEW).read_text() == "the book, newer"
        assert prints(OLD, b"the book, newer") == manifest(before)[OLD]
        prepare(before, source=source)


def test_a_renamed_lesson_that_the_learner_changed_stays_theirs(before, source):
    (before / OLD).write_text("my book")
    course = prepare(before, source=source)
    assert (before / OLD).read_text() == "my book"
    assert (before / NEW).read_text() == "the book"
    assert OLD not in manifest(before)
    assert course.beside == []


def test_a_new_folder_has_no_lesson_of_before(tmp_path):
    folder = prepare(tmp_path / "new").folder
    assert not (folder / OLD).exists()
    assert (folder / NEW).exists()
