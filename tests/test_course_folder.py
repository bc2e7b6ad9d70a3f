"""The course folder: what is copied, what is never overwritten, and JupyterLab on it."""

import hashlib
import json
import os
import re
import signal
import socket
import subprocess
import sys
import threading
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from fractions import Fraction
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path
from urllib.error import HTTPError
from urllib.parse import urlsplit

import nbformat
import psutil
import pytest

from hivecalc import course_folder
from hivecalc.cli import exit_status
from hivecalc.components import opened_hive
from hivecalc.course_folder import (
    HIVE_FILE,
    MANIFEST,
    PLACES,
    Address,
    Course,
    copying,
    manifest,
    originals,
    prepare,
    prints,
    report,
    running,
    serving,
    writing,
)
from hivecalc.course_folder.given import write_manifest
from hivecalc.course_folder.serving import SETTINGS
from hivecalc.hive import HiveFaults, demo_hive
from hivecalc.workshop import YARD_FILE, demo_yard, yard_from_file, yard_text
from tests.hives import HIVES
from tests.jupyter_rig import FOLDERS, ROOT

FIRST, SECOND = "workbook/00-first.ipynb", "workbook/01-second.ipynb"
EXERCISE, SOLUTION = "exercises/00-first.ipynb", "solutions/00-first.ipynb"
PICTURE = "workbook/pictures/tape.svg"
LESSONS = {FIRST: "one", SECOND: "two", PICTURE: "<svg/>", EXERCISE: "ask", SOLUTION: "tell"}
GIVEN = {**LESSONS, YARD_FILE: yard_text()}


@pytest.fixture
def source(tmp_path: Path) -> Path:
    """Originals of a small course."""
    root = tmp_path / "originals"
    for name, text in LESSONS.items():
        write(root / name, text)
    write(root / "workbook/.ipynb_checkpoints/00-first-checkpoint.ipynb", "scratch")
    write(root / "workbook/__pycache__/x.pyc", "scratch")
    return root


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "my course"


def write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


def files(folder: Path) -> dict[str, str]:
    """Return what a learner sees in a folder: its files, hidden ones left out."""
    found = (path for path in folder.rglob("*") if path.is_file())
    names = {path.relative_to(folder).as_posix(): path for path in found}
    return {name: path.read_text() for name, path in sorted(names.items()) if name[0] != "."}


# ── the first time ────────────────────────────────────────────────────────────────────────────


def test_a_new_folder_holds_the_course_and_the_demo_hive(folder, source):
    course = prepare(folder, source=source)
    held = files(folder)
    assert held.pop("my-hive.toml").startswith("# A hive file")
    assert held == GIVEN
    assert opened_hive(course.hive) == demo_hive()
    assert course.lesson == FIRST
    assert sorted(course.fresh) == sorted([*GIVEN, "my-hive.toml"])
    assert str(folder) in report(course)[0]


def test_the_yard_file_is_the_learners_once_they_write_their_prices(folder, source):
    course = prepare(folder, source=source)
    own = course.folder / YARD_FILE
    assert yard_from_file(own) == demo_yard()
    own.write_text(own.read_text().replace("price = 4\n", "price = 5.25\n", 1))
    again = prepare(folder, source=source)
    assert (again.fresh, again.renewed, again.beside) == ([], [], [])
    assert yard_from_file(own).boards[0].price == Fraction(21, 4)


def test_a_hive_file_that_is_given_is_copied_as_it_is(folder, source, tmp_path):
    file = tmp_path / "shed.toml"
    file.write_text(HIVES["metric"], encoding="utf-8")
    course = prepare(folder, file, source)
    assert course.hive.read_bytes() == file.read_bytes()
    assert not any("not copied" in line for line in report(course, file))


def test_the_originals_come_from_the_clone():
    assert originals() == ROOT
    assert all((originals() / name).is_dir() for name in FOLDERS)


def test_the_first_lesson_is_the_first_by_name(folder):
    assert prepare(folder).lesson == "workbook/00-your-hive-and-your-tape.ipynb"


# ── an update ─────────────────────────────────────────────────────────────────────────────────


def test_the_same_again_changes_nothing(folder, source):
    prepare(folder, source=source)
    before = {path: path.stat().st_mtime_ns for path in folder.rglob("*")}
    course = prepare(folder, source=source)
    assert (course.fresh, course.renewed, course.beside) == ([], [], [])
    assert {path: path.stat().st_mtime_ns for path in folder.rglob("*")} == before


def test_an_update_adds_new_lessons_and_renews_untouched_ones(folder, source):
    prepare(folder, source=source)
    write(source / SECOND, "two, corrected")
    write(source / "workbook/02-third.ipynb", "three")
    course = prepare(folder, source=source)
    assert (course.fresh, course.renewed) == (["workbook/02-third.ipynb"], [SECOND])
    assert files(folder)[SECOND] == "two, corrected"
    assert any("02-third" in line for line in report(course))
    assert any(SECOND in line for line in report(course))


def test_work_is_never_overwritten_and_the_newer_lesson_lies_beside_it(folder, source, monkeypatch):
    prepare(folder, source=source)
    write(folder / FIRST, "my work")
    write(source / FIRST, "one, corrected")
    monkeypatch.setattr(copying, "__version__", "0.2.0")
    course = prepare(folder, source=source)
    beside = "workbook/00-first (newer 0.2.0).ipynb"
    assert files(folder)[FIRST] == "my work"
    assert files(folder)[beside] == "one, corrected"
    assert course.beside == [(FIRST, beside)]
    assert f"You changed {FIRST}: it stays, and the newer one is {beside}" in report(course)
    assert course.lesson == FIRST


def test_work_on_a_lesson_that_did_not_change_stays_without_a_word(folder, source):
    prepare(folder, source=source)
    write(folder / FIRST, "my work")
    course = prepare(folder, source=source)
    assert (files(folder)[FIRST], course.beside, course.renewed) == ("my work", [], [])


def test_what_was_laid_beside_once_is_not_laid_again(folder, source):
    prepare(folder, source=source)
    write(folder / FIRST, "my work")
    write(source / FIRST, "one, corrected")
    [(_, beside)] = prepare(folder, source=source).beside
    (folder / beside).unlink()
    assert prepare(folder, source=source).beside == []
    assert not (folder / beside).exists()


def test_work_on_the_newer_lesson_stays_too(folder, source):
    prepare(folder, source=source)
    write(folder / FIRST, "my work")
    write(source / FIRST, "one, corrected")
    [(_, beside)] = prepare(folder, source=source).beside
    write(folder / beside, "my work on the newer one")
    write(source / FIRST, "one, corrected twice")
    [(_, again)] = prepare(folder, source=source).beside
    held = files(folder)
    assert held[FIRST] == "my work"
    assert held[beside] == "my work on the newer one"
    assert held[again] == "one, corrected twice"


def test_a_newer_lesson_that_the_learner_took_over_is_renewed_again(folder, source):
    prepare(folder, source=source)
    write(folder / FIRST, "my work")
    write(source / FIRST, "one, corrected")
    [(_, beside)] = prepare(folder, source=source).beside
    (folder / beside).replace(folder / FIRST)
    write(source / FIRST, "one, corrected twice")
    assert prepare(folder, source=source).renewed == [FIRST]


def test_a_lesson_that_was_deleted_comes_back(folder, source):
    prepare(folder, source=source)
    (folder / SECOND).unlink()
    assert prepare(folder, source=source).fresh == [SECOND]


def test_the_learners_hive_file_stays(folder, source, tmp_path):
    prepare(folder, source=source)
    write(folder / "my-hive.toml", HIVES["eight-frame"])
    file = tmp_path / "other.toml"
    file.write_text(HIVES["metric"], encoding="utf-8")
    course = prepare(folder, file, source)
    assert course.hive.read_text() == HIVES["eight-frame"]
    assert f"my-hive.toml is there already and stays; {file} was not copied" in report(course, file)


def test_a_folder_left_half_made_is_completed(folder, source, monkeypatch):
    written = []

    def failing(path: Path, data: bytes) -> None:
        if len(written) == 3:
            raise KeyboardInterrupt
        written.append(path)
        write(path, data.decode())

    with monkeypatch.context() as patch:
        patch.setattr(writing, "write_whole", failing)
        with pytest.raises(KeyboardInterrupt):
            prepare(folder, source=source)
    assert not (folder / MANIFEST).exists()
    course = prepare(folder, source=source)
    assert len(course.fresh) == len(GIVEN) + 1 - 3
    assert course.beside == []
    write(source / FIRST, "one, corrected")
    assert prepare(folder, source=source).renewed == [FIRST]


def test_what_a_crash_left_half_written_is_swept_after_a_day(folder, source):
    prepare(folder, source=source)
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


DAMAGE = {
    "empty": b"",
    "no JSON": b"{",
    "binary": bytes(range(256)),
    "a list": b"[]",
    "files are no table": b'{"schema": "hivecalc-course/2", "files": ["workbook"]}',
    "no digest": b'{"schema": "hivecalc-course/2", "files": {"workbook/00-first.ipynb": "ab"}}',
    "a short one": b'{"schema": "hivecalc-course/2", "files": {"a": {"whole": "b", "work": "b"}}}',
    "half of a file": b'{"schema": "hivecalc-course/2", "files": {"a": {"whole": "b"}}}',
    "a number": b'{"schema": "hivecalc-course/2", "files": {"workbook/00-first.ipynb": 1}}',
    "an old one, a number": b'{"schema": "hivecalc-course/1", "files": {"a": 1}}',
    "an old one, no digest": b'{"schema": "hivecalc-course/1", "files": {"a": "ab"}}',
    "a schema that is none": b'{"schema": ["hivecalc-course/2"], "files": {}}',
    "deeply nested": b"[" * 200_000,
    "cut off": b'{"schema": "hivecalc-course/2", "files": {"workbook/00-first.ipynb": {"whole": "',
}


@pytest.mark.parametrize("damage", DAMAGE.values(), ids=DAMAGE)
def test_with_a_damaged_manifest_every_file_is_the_learners(folder, source, damage):
    prepare(folder, source=source)
    (folder / MANIFEST).write_bytes(damage)
    assert manifest(folder) == {}
    write(source / FIRST, "one, corrected")
    course = prepare(folder, source=source)
    assert files(folder)[FIRST] == "one"
    assert [name for name, _ in course.beside] == [FIRST]
    assert len(manifest(folder)) == len(GIVEN)


def test_a_manifest_of_another_schema_is_not_trusted(folder, source):
    prepare(folder, source=source)
    assert len(manifest(folder)) == len(GIVEN)
    text = (folder / MANIFEST).read_text()
    (folder / MANIFEST).write_text(text.replace("hivecalc-course/2", "hivecalc-course/3"))
    assert manifest(folder) == {}


def test_the_originals_are_not_worked_on(source):
    for place in (source, source / "workbook", source / "exercises" / "mine"):
        with pytest.raises(HiveFaults, match="must stay clean"):
            prepare(place, source=source)
    assert files(source).keys() - LESSONS.keys() == {
        "workbook/.ipynb_checkpoints/00-first-checkpoint.ipynb",
        "workbook/__pycache__/x.pyc",
    }


def test_an_installation_without_lessons_says_so(folder, source):
    for name in (FIRST, SECOND):
        (source / name).unlink()
    with pytest.raises(HiveFaults, match="the lessons are missing from this installation"):
        prepare(folder, source=source)
    assert not folder.exists()


# ── notebooks that were run, and notebooks that were changed ──────────────────────────────────


def notebook(*sources: str, **metadata: object) -> str:
    """Return a notebook with these cells, as the originals are kept: without results."""
    cells = [nbformat.v4.new_code_cell(s, id=f"cell-{n}") for n, s in enumerate(sources)]
    return nbformat.writes(nbformat.v4.new_notebook(cells=cells, metadata=metadata))


def run_and_save(path: Path) -> None:
    """Leave a notebook as JupyterLab does: run, with outputs, counts and the kernel's metadata."""
    held = nbformat.read(path, as_version=4)
    for number, cell in enumerate(held.cells, 1):
        cell.execution_count = number
        cell.outputs = [nbformat.v4.new_output("stream", name="stdout", text="2 rails")]
        cell.metadata["execution"] = {"iopub.status.busy": "2026-05-01T10:00:00"}
    held.metadata["language_info"] = {"name": "python", "version": "3.11.7"}
    nbformat.write(held, path)


def edit(path: Path, old: str, new: str) -> None:
    """Change one cell as a learner does, in a notebook that was run before."""
    run_and_save(path)
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new))


@pytest.fixture
def given(folder: Path, source: Path) -> Path:
    """Course folder whose two lessons are notebooks of two cells."""
    for name in (FIRST, SECOND):
        write(source / name, notebook("show_tape()", "show_rails(2)"))
    prepare(folder, source=source)
    return folder


def test_a_lesson_that_was_only_run_and_saved_takes_the_newer_original(given, source):
    run_and_save(given / FIRST)
    write(source / FIRST, notebook("show_tape()", "show_rails(4)"))
    course = prepare(given, source=source)
    assert (course.renewed, course.beside) == ([FIRST], [])
    assert (given / FIRST).read_bytes() == (source / FIRST).read_bytes()


def test_a_lesson_that_was_only_run_is_left_alone_while_nothing_is_newer(given, source):
    run_and_save(given / FIRST)
    held = (given / FIRST).read_bytes()
    course = prepare(given, source=source)
    assert (course.renewed, course.beside) == ([], [])
    assert (given / FIRST).read_bytes() == held


def test_new_metadata_of_a_lesson_reaches_the_learner_who_only_ran_it(given, source):
    run_and_save(given / FIRST)
    edit(given / SECOND, "show_rails(2)", "show_rails(3)")
    for name in (FIRST, SECOND):
        write(source / name, notebook("show_tape()", "show_rails(2)", title="Rails"))
    course = prepare(given, source=source)
    assert (course.renewed, course.beside) == ([FIRST], [])
    assert "show_rails(3)" in (given / SECOND).read_text()


CHANGES = {
    "a source": lambda cells: cells[1].update(source="show_rails(3)"),
    "a type": lambda cells: cells.__setitem__(1, nbformat.v4.new_markdown_cell("show_rails(2)")),
    "a cell more": lambda cells: cells.append(nbformat.v4.new_code_cell("mine")),
    "a cell less": lambda cells: cells.pop(),
    "the order": lambda cells: cells.reverse(),
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_a_change_of_the_cells_is_the_learners_and_stays(given, source, change):
    run_and_save(given / FIRST)
    held = nbformat.read(given / FIRST, as_version=4)
    change(held.cells)
    nbformat.write(held, given / FIRST)
    mine = (given / FIRST).read_bytes()
    write(source / FIRST, notebook("show_tape()", "show_rails(4)"))
    course = prepare(given, source=source)
    [(name, beside)] = course.beside
    assert (name, course.renewed) == (FIRST, [])
    assert (given / FIRST).read_bytes() == mine
    assert (given / beside).read_bytes() == (source / FIRST).read_bytes()


UNREADABLE = {
    "empty": b"",
    "cut off": b'{"cells": [{"cell_type": "code", "source": "show_',
    "not UTF-8": b'{"cells": "\xff"}',
    "deeply nested": b"[" * 200_000,
    "no cells": b"{}",
    "a cell that is none": b'{"cells": [1]}',
    "a source that is none": b'{"cells": [{"cell_type": "code", "source": 1}]}',
}


@pytest.mark.parametrize("damage", UNREADABLE.values(), ids=UNREADABLE)
def test_a_damaged_notebook_counts_as_the_learners(given, source, damage):
    (given / FIRST).write_bytes(damage)
    write(source / FIRST, notebook("show_tape()", "show_rails(4)"))
    course = prepare(given, source=source)
    assert [name for name, _ in course.beside] == [FIRST]
    assert (given / FIRST).read_bytes() == damage


def test_a_newer_lesson_laid_beside_and_run_there_is_not_laid_again(given, source):
    edit(given / FIRST, "show_rails(2)", "show_rails(3)")
    write(source / FIRST, notebook("show_tape()", "show_rails(4)"))
    [(_, beside)] = prepare(given, source=source).beside
    run_and_save(given / beside)
    (given / MANIFEST).unlink()
    assert prepare(given, source=source).beside == [(FIRST, beside)]
    assert len(list((given / "workbook").glob("00-first*"))) == 2


def test_the_manifest_vouches_for_the_course_and_for_nothing_that_was_sent(given, source):
    sent = notebook("open('written', 'w')")
    write(given / EXERCISE, sent)
    foreign = prints("sent.ipynb", sent.encode())
    held = {**manifest(given), EXERCISE: foreign, "exercises/sent.ipynb": foreign}
    write_manifest(given, held)
    prepare(given, source=source)
    assert foreign not in manifest(given).values()
    run_and_save(given / FIRST)
    lesson = prints(FIRST, (given / FIRST).read_bytes())
    assert lesson.work == manifest(given)[FIRST].work


def write_first_manifest(folder: Path) -> None:
    """Put the manifest in the form of the first version: one digest a file, that of its bytes."""
    given = {n: hashlib.sha256((folder / n).read_bytes()).hexdigest() for n in manifest(folder)}
    document = {"schema": "hivecalc-course/1", "version": "0.1.0", "files": given}
    (folder / MANIFEST).write_text(json.dumps(document))


def test_a_manifest_of_the_first_version_is_understood(given, source):
    write_first_manifest(given)
    run_and_save(given / SECOND)
    for name in (FIRST, SECOND):
        write(source / name, notebook("show_tape()", "show_rails(4)"))
    course = prepare(given, source=source)
    assert course.renewed == [FIRST]
    assert [name for name, _ in course.beside] == [SECOND]  # its cells were not known then


def test_a_manifest_of_the_first_version_is_brought_up_to_date(given, source):
    write_first_manifest(given)
    run_and_save(given / FIRST)
    assert prepare(given, source=source).beside == []
    write(source / FIRST, notebook("show_tape()", "show_rails(4)"))
    assert prepare(given, source=source).renewed == [FIRST]


# ── a folder of the first edition ─────────────────────────────────────────────────────────────


def make_it_of_the_first_edition(folder: Path, hive: str) -> None:
    """Take from the manifest what only the second edition writes, and put a hive file there."""
    document = json.loads((folder / MANIFEST).read_text())
    del document["edition"]
    (folder / MANIFEST).write_text(json.dumps(document))
    write(folder / HIVE_FILE, hive)


@pytest.mark.parametrize("manifested", [make_it_of_the_first_edition, None])
def test_what_changed_since_the_first_edition_is_told_once(given, source, manifested):
    if manifested:
        manifested(given, HIVES["orchard"])
    else:
        write_first_manifest(given)
    told = report(prepare(given, source=source))
    assert "New in the second edition of the course, for my-hive.toml:" in told
    assert [line for line in told if line.startswith("  The skirt width is 3 3/8 in now and was 2")]
    assert not [line for line in told if "rest depth" in line]  # no box is built
    assert prepare(given, source=source).news == []


def test_nothing_is_new_in_a_folder_of_this_edition_or_in_one_that_is_new(given, folder, source):
    assert prepare(given, source=source).news == []
    assert prepare(folder.with_name("another"), source=source).news == []


@pytest.mark.parametrize("hive", ["", "[measured]\nhive_length = 'long'\n"])
def test_a_hive_file_at_fault_does_not_stop_the_folder(given, source, hive):
    make_it_of_the_first_edition(given, hive)
    assert prepare(given, source=source).news == []


# ── JupyterLab ────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("folder", [Path("Saturday 10:00"), Path("a;b")])
def test_jupyterlab_finds_the_settings_of_the_course_before_the_learners_own_folders(folder):
    course = Course(folder, FIRST)
    environment = course_folder.lab_environment(course, {"JUPYTER_CONFIG_PATH": "mine"})
    own, mine = environment["JUPYTER_CONFIG_PATH"].split(os.pathsep)
    assert mine == "mine"
    assert Path(own) == SETTINGS
    assert environment["HIVECALC_HIVE"] == str(folder / "my-hive.toml")


def test_a_browser_needs_a_screen(monkeypatch):
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setattr("webbrowser.get", lambda: None)
    assert not course_folder.shows_browser({})
    assert course_folder.shows_browser({"DISPLAY": ":0"})


def test_the_name_of_a_lesson_is_quoted_in_the_address(folder):
    [*_, last] = course_folder.lab_command(Course(folder, "workbook/00 a?b.ipynb"), browser=True)
    assert last == "--LabApp.default_url=/lab/tree/workbook/00%20a%3Fb.ipynb"


FRAME = "workbook/02-the-frame-of-the-bottom-board.ipynb"
OPEN = [sys.executable, "-m", "hivecalc", "open"]


def without_screen(home: Path) -> dict[str, str]:
    """Return the environment of a learner on a machine without a screen."""
    screen = {"DISPLAY", "WAYLAND_DISPLAY", "BROWSER", "JUPYTER_TOKEN", "JUPYTER_CONFIG_PATH"}
    own = {"HOME": str(home), "XDG_DATA_HOME": str(home), "HIVECALC_COURSE": ""}
    return {n: v for n, v in os.environ.items() if n not in screen} | own


@contextmanager
def opened(home: Path) -> Iterator[subprocess.Popen[str]]:
    """Run `hivecalc open` until the block ends."""
    with subprocess.Popen(
        OPEN, cwd=ROOT, env=without_screen(home), text=True, stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
    ) as process:  # fmt: skip
        try:
            yield process
        finally:
            process.send_signal(signal.SIGINT)
            process.wait(20)


def told_until(process: subprocess.Popen[str], pattern: str) -> tuple[str, str]:
    """Return all that a process said up to a line like this, and what the pattern holds."""
    said = ""
    assert process.stdout is not None
    for line in process.stdout:
        said += line
        if found := re.search(pattern, line):
            return said, found[1]
    raise AssertionError(said)


def answer(url: str) -> str:
    with urllib.request.urlopen(url, timeout=10) as reply:  # noqa: S310 - our own server
        return reply.read().decode()


def test_open_serves_the_first_lesson_where_it_says(tmp_path):
    home = tmp_path / "Saturday 10:00; first day"  # signs that part paths
    home.mkdir()
    with socket.socket() as taken:
        with suppress(OSError):  # the port that JupyterLab tries first may be taken already
            taken.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            taken.bind(("127.0.0.1", 8888))
            taken.listen()
        with opened(home) as process:
            said, url = told_until(process, r"^The first lesson: (\S+)$")
            _, way = told_until(process, r"run there first: (.*)$")
            check_served_lesson(home / "hivecalc-course", url)
            check_kernel_knows_the_hive(process.pid, url, home / "hivecalc-course")
            port = urlsplit(url).port
            assert port != 8888
            assert f"-L {port}:localhost:{port} " in way
    assert f"Your course folder: {home / 'hivecalc-course'}" in said
    assert process.returncode == 0
    with pytest.raises(OSError, match="refused"):
        answer(url)


def check_served_lesson(folder: Path, url: str) -> None:
    lesson = "workbook/00-your-hive-and-your-tape.ipynb"
    assert urlsplit(url).path == f"/lab/tree/{lesson}"
    assert "JupyterLab" in answer(url)
    key = urlsplit(url).query
    base = url.partition("/lab/")[0]
    served = json.loads(answer(f"{base}/api/contents/{lesson}?content=1&{key}"))
    copied = json.loads((folder / lesson).read_bytes())
    assert [c["id"] for c in served["content"]["cells"]] == [c["id"] for c in copied["cells"]]
    ours = SETTINGS / "labconfig"
    overrides = json.loads((ours / "default_setting_overrides.json").read_bytes())
    for plugin, settings in overrides.items():
        schema = json.loads(answer(f"{base}/lab/api/settings/{plugin}?{key}"))["schema"]
        assert {n: schema["properties"][n]["default"] for n in settings} == settings
    page = re.search(r'id="jupyter-config-data"[^>]*>(.*?)</script>', answer(url), re.DOTALL)
    assert page
    told = json.loads(page[1])
    settings = json.loads((ours / "page_config.json").read_bytes())
    assert told["buildCheck"] is settings["buildCheck"] is False
    assert told["disabledExtensions"] == list(settings["disabledExtensions"])


def check_kernel_knows_the_hive(pid: int, url: str, folder: Path) -> None:
    base, key = url.partition("/lab/")[0], urlsplit(url).query
    request = urllib.request.Request(f"{base}/api/kernels?{key}", data=b"{}")  # noqa: S310
    with urllib.request.urlopen(request, timeout=20) as reply:  # noqa: S310
        assert reply.status == 201
    kernels = running_below(pid, "ipykernel_launcher")
    assert [k.environ()["HIVECALC_HIVE"] for k in kernels] == [str(folder / "my-hive.toml")]


NO_KEY = """
c.ServerApp.ip = "0.0.0.0"
c.ServerApp.allow_remote_access = True
c.ServerApp.token = c.IdentityProvider.token = c.PasswordIdentityProvider.token = ""
c.ServerApp.password = ""
"""


def running_below(pid: int, module: str) -> list[psutil.Process]:
    """Every process of this module that a process started."""
    below = psutil.Process(pid).children(recursive=True)
    alive = [process for process in below if process.status() != psutil.STATUS_ZOMBIE]
    return [process for process in alive if module in process.cmdline()]


def test_open_is_for_this_machine_and_asks_for_a_key_whatever_the_users_settings_say(tmp_path):
    write(tmp_path / ".jupyter" / "jupyter_server_config.py", NO_KEY)
    write(tmp_path / ".jupyter" / "jupyter_lab_config.py", NO_KEY)
    with opened(tmp_path) as process:
        _, url = told_until(process, r"^The first lesson: (\S+)$")
        [server] = running_below(process.pid, "hivecalc.lab")
        bound = {c.laddr.ip for c in server.net_connections() if c.status == psutil.CONN_LISTEN}
        key = urlsplit(url).query.partition("token=")[2]
        assert bound == {"127.0.0.1"}
        assert len(key) >= 32
        assert not any(key in word for word in server.cmdline())
        assert "hivecalc-lessons" in answer(url)
        with pytest.raises(HTTPError, match="403"):
            answer(url.partition("/lab/")[0] + "/api/contents")


@pytest.mark.skipif(sys.platform == "win32", reason="nobody is killed so there")
def test_the_server_and_its_kernels_end_with_a_window_that_was_killed(tmp_path):
    with opened(tmp_path) as process:
        _, url = told_until(process, r"^The first lesson: (\S+)$")
        check_kernel_knows_the_hive(process.pid, url, tmp_path / "hivecalc-course")
        left = psutil.Process(process.pid).children(recursive=True)
        process.kill()
        _, alive = psutil.wait_procs(left, timeout=20)
    assert (len(left) >= 2, alive) == (True, [])


def test_open_a_second_time_leads_to_the_server_that_runs_already(tmp_path):
    handed, browser = tmp_path / "handed", tmp_path / "browser"
    browser.write_text(f'#!/bin/sh\necho "$1" > "{handed}"\n')
    browser.chmod(0o755)
    first = "workbook/00-your-hive-and-your-tape.ipynb"

    def opened_again() -> str:
        return subprocess.run(
            OPEN, cwd=ROOT, env={**without_screen(tmp_path), "BROWSER": f"{browser} %s"},
            capture_output=True, text=True, check=True, timeout=20,
        ).stdout  # fmt: skip

    with opened(tmp_path) as process:
        _, url = told_until(process, r"^The first lesson: (\S+)$")
        assert f"The first lesson: {url}\nIt runs already. Ctrl-C stops it" in opened_again()
        assert url in answer(handed.read_text().strip())
        (tmp_path / "hivecalc-course" / PLACES / f"{FRAME}.json").touch()  # the page did so
        now = url.replace(first, FRAME)
        assert f"Where you left off: {now}\nIt runs already. Ctrl-C stops it" in opened_again()
        assert process.poll() is None
        page = handed.read_text().strip()
        assert page.startswith("file://")
        assert url not in page
        assert now in answer(page)
        assert first not in answer(page)
        assert len(list(tmp_path.rglob("jpserver-*.json"))) == 1


class OtherServer(BaseHTTPRequestHandler):
    """Answers as JupyterLab does: its page to whom has the key, else a page to log in."""

    def do_GET(self) -> None:
        lessons = "" if self.path.startswith("/plain/") else "hivecalc-lessons"
        page = f"JupyterLab {lessons}" if self.path.endswith("ipynb?token=key") else "Log in"
        self.send_response(200)
        self.end_headers()
        self.wfile.write(page.encode())

    def log_message(self, *_: object) -> None:
        """Say nothing."""


@pytest.fixture(scope="module")
def other_port() -> Iterator[int]:
    with HTTPServer(("127.0.0.1", 0), OtherServer) as server:
        threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.02}).start()
        yield server.server_port
        server.shutdown()


@pytest.fixture
def found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[[str], Address | None]:
    """Return what is found running on a course folder by a server's file that holds this text."""
    monkeypatch.setenv("JUPYTER_RUNTIME_DIR", str(tmp_path))

    def address(text: str) -> Address | None:
        write(tmp_path / "jpserver-7.json", text)
        return running(Course(tmp_path / "course", FIRST))

    return address


def server_file(place: Path, at: int, **more: object) -> str:
    url = f"http://127.0.0.1:{at}/"
    ours = {"root_dir": str(place / "course"), "port": at, "url": url, "token": "key"}
    return json.dumps(ours | more)


def test_a_running_server_of_this_course_is_found(tmp_path, found, other_port):
    address = found(server_file(tmp_path, other_port))
    assert (address.port, address.runs_already) == (other_port, True)
    assert address.url == f"http://127.0.0.1:{other_port}/lab/tree/{FIRST}?token=key"
    assert address.opened_by() == address.url  # this server left no page that leads there


OTHERS = {
    "a key that it does not take": {"token": "old"},
    "no key": {"token": ""},
    "another folder": {"root_dir": "/elsewhere"},
    "a port that is none": {"port": "x"},
    "no HTTP": {"url": f"http+unix://{'%2Ftmp' * 20}/"},
    "a broken address": {"url": "http://["},
    "a file": {"url": "file:///etc/"},
    "no address": {"url": ""},
}


@pytest.mark.parametrize("other", OTHERS.values(), ids=OTHERS)
def test_another_server_does_not_count(tmp_path, found, other_port, other):
    assert found(server_file(tmp_path, other_port, **other)) is None


def test_a_jupyterlab_that_was_started_otherwise_does_not_count(tmp_path, found, other_port):
    plain = {"url": f"http://127.0.0.1:{other_port}/plain/"}
    assert found(server_file(tmp_path, other_port, **plain)) is None


@pytest.mark.parametrize("text", ["", "[]", "{", '{"root_dir": 1}', "[" * 200_000])
def test_a_damaged_server_file_does_not_count(found, text):
    assert found(text) is None


def test_a_server_that_is_gone_does_not_count(tmp_path, found):
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    assert found(server_file(tmp_path, port)) is None


def test_jupyterlab_does_not_outlive_a_failure(tmp_path, monkeypatch):
    pid = tmp_path / "pid"
    code = f"import os, time; open({str(pid)!r}, 'w').write(str(os.getpid())); time.sleep(60)"
    monkeypatch.setattr(serving, "lab_command", lambda *_, **__: [sys.executable, "-c", code])

    def address(*_: object) -> None:
        if pid.exists() and pid.read_text():
            raise BrokenPipeError

    monkeypatch.setattr(serving, "started", address)
    with pytest.raises(BrokenPipeError):
        course_folder.run_lab(Course(tmp_path, FIRST), print, browser=False)
    assert not psutil.pid_exists(int(pid.read_text()))


def test_open_says_so_when_jupyterlab_does_not_start(tmp_path, monkeypatch, capfd):
    monkeypatch.setattr(
        serving, "lab_command", lambda *_, **__: [sys.executable, "-c", "raise SystemExit(3)"]
    )
    assert exit_status(["open", "--folder", str(tmp_path / "course"), "--no-browser"]) == 2
    out, err = capfd.readouterr()
    assert f"Your course folder: {tmp_path / 'course'}" in out
    assert err == "JupyterLab: it ended with status 3; what it said stands above.\n"
