"""The course folder: what is copied, what is never overwritten, and JupyterLab on it."""

import json
import os
import re
import signal
import socket
import subprocess
import sys
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from urllib.parse import urlsplit

import psutil
import pytest

from hivecalc import course_folder
from hivecalc.cli import exit_status
from hivecalc.components import opened_hive
from hivecalc.course_folder import MANIFEST, Course, manifest, originals, prepare, report
from hivecalc.hive import HiveFaults, demo_hive
from tests.hives import HIVES
from tests.jupyter_rig import FOLDERS, ROOT

FIRST, SECOND = "workbook/00-first.ipynb", "workbook/01-second.ipynb"
EXERCISE, SOLUTION = "exercises/00-first.ipynb", "solutions/00-first.ipynb"
PICTURE = "workbook/pictures/tape.svg"
LESSONS = {FIRST: "one", SECOND: "two", PICTURE: "<svg/>", EXERCISE: "ask", SOLUTION: "tell"}


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
    assert held == LESSONS
    assert opened_hive(course.hive) == demo_hive()
    assert course.lesson == FIRST
    assert sorted(course.fresh) == sorted([*LESSONS, "my-hive.toml"])
    assert str(folder) in report(course)[0]


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
    monkeypatch.setattr(course_folder, "__version__", "0.2.0")
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
        patch.setattr(course_folder, "write_whole", failing)
        with pytest.raises(KeyboardInterrupt):
            prepare(folder, source=source)
    assert not (folder / MANIFEST).exists()
    course = prepare(folder, source=source)
    assert len(course.fresh) == len(LESSONS) + 1 - 3
    assert course.beside == []
    write(source / FIRST, "one, corrected")
    assert prepare(folder, source=source).renewed == [FIRST]


DAMAGE = {
    "empty": b"",
    "no JSON": b"{",
    "binary": bytes(range(256)),
    "a list": b"[]",
    "files are no table": b'{"schema": "hivecalc-course/1", "files": ["workbook"]}',
    "no digest": b'{"schema": "hivecalc-course/1", "files": {"workbook/00-first.ipynb": "ab"}}',
    "a number": b'{"schema": "hivecalc-course/1", "files": {"workbook/00-first.ipynb": 1}}',
    "deeply nested": b"[" * 200_000,
    "cut off": b'{"schema": "hivecalc-course/1", "files": {"workbook/00-first.ipynb": "',
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
    assert len(manifest(folder)) == len(LESSONS)


def test_a_manifest_of_another_schema_is_not_trusted(folder, source):
    prepare(folder, source=source)
    assert len(manifest(folder)) == len(LESSONS)
    text = (folder / MANIFEST).read_text()
    (folder / MANIFEST).write_text(text.replace("hivecalc-course/1", "hivecalc-course/2"))
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


# ── JupyterLab ────────────────────────────────────────────────────────────────────────────────


def test_jupyterlab_finds_the_settings_of_the_course_before_the_learners_own_folders(folder):
    course = Course(folder, FIRST)
    environment = course_folder.lab_environment(course, {"JUPYTER_CONFIG_PATH": "mine"})
    own, mine = environment["JUPYTER_CONFIG_PATH"].split(os.pathsep)
    assert mine == "mine"
    assert Path(own).is_relative_to(folder)
    assert environment["HIVECALC_HIVE"] == str(folder / "my-hive.toml")


def test_a_browser_needs_a_screen(monkeypatch):
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setattr("webbrowser.get", lambda: None)
    assert not course_folder.shows_browser({})
    assert course_folder.shows_browser({"DISPLAY": ":0"})


def test_the_name_of_a_lesson_is_quoted_in_the_address(folder):
    [*_, last] = course_folder.lab_command(Course(folder, "workbook/00 a?b.ipynb"), browser=True)
    assert last == "--LabApp.default_url=/lab/tree/workbook/00%20a%3Fb.ipynb"


@contextmanager
def opened(home: Path, *arguments: str) -> Iterator[subprocess.Popen[str]]:
    """Run `hivecalc open` as a learner on a machine without a screen does."""
    screen = {"DISPLAY", "WAYLAND_DISPLAY", "BROWSER", "JUPYTER_TOKEN", "JUPYTER_CONFIG_PATH"}
    environment = {n: v for n, v in os.environ.items() if n not in screen}
    environment |= {"HOME": str(home), "XDG_DATA_HOME": str(home), "HIVECALC_COURSE": ""}
    command = [sys.executable, "-m", "hivecalc", "open", *arguments]
    with subprocess.Popen(
        command, cwd=ROOT, env=environment, text=True, stdout=subprocess.PIPE,
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
    with socket.socket() as taken:
        with suppress(OSError):  # the port that JupyterLab tries first may be taken already
            taken.bind(("127.0.0.1", 8888))
            taken.listen()
        with opened(tmp_path) as process:
            said, url = told_until(process, r"^The first lesson: (\S+)$")
            _, way = told_until(process, r"run there first: (.*)$")
            check_served_lesson(tmp_path / "hivecalc-course", url)
            check_kernel_knows_the_hive(process.pid, url, tmp_path / "hivecalc-course")
            port = urlsplit(url).port
            assert port != 8888
            assert f"-L {port}:localhost:{port} " in way
    assert f"Your course folder: {tmp_path / 'hivecalc-course'}" in said
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
    for plugin, settings in course_folder.SETTINGS.items():
        schema = json.loads(answer(f"{base}/lab/api/settings/{plugin}?{key}"))["schema"]
        assert {n: schema["properties"][n]["default"] for n in settings} == settings


def check_kernel_knows_the_hive(pid: int, url: str, folder: Path) -> None:
    base, key = url.partition("/lab/")[0], urlsplit(url).query
    request = urllib.request.Request(f"{base}/api/kernels?{key}", data=b"{}")  # noqa: S310
    with urllib.request.urlopen(request, timeout=20) as reply:  # noqa: S310
        assert reply.status == 201
    kernels = [
        process for process in psutil.Process(pid).children(recursive=True)
        if "ipykernel_launcher" in " ".join(process.cmdline())
    ]  # fmt: skip
    assert [k.environ()["HIVECALC_HIVE"] for k in kernels] == [str(folder / "my-hive.toml")]


def test_jupyterlab_does_not_outlive_a_failure(tmp_path, monkeypatch):
    pid = tmp_path / "pid"
    code = f"import os, time; open({str(pid)!r}, 'w').write(str(os.getpid())); time.sleep(60)"
    monkeypatch.setattr(course_folder, "lab_command", lambda *_, **__: [sys.executable, "-c", code])

    def address(*_: object) -> None:
        if pid.exists() and pid.read_text():
            raise BrokenPipeError

    monkeypatch.setattr(course_folder, "_address", address)
    with pytest.raises(BrokenPipeError):
        course_folder.run_lab(Course(tmp_path, FIRST), print, browser=False)
    assert not psutil.pid_exists(int(pid.read_text()))


def test_open_says_so_when_jupyterlab_does_not_start(tmp_path, monkeypatch, capfd):
    monkeypatch.setattr(
        course_folder, "lab_command", lambda *_, **__: [sys.executable, "-c", "raise SystemExit(3)"]
    )
    assert exit_status(["open", "--folder", str(tmp_path / "course"), "--no-browser"]) == 2
    out, err = capfd.readouterr()
    assert f"Your course folder: {tmp_path / 'course'}" in out
    assert err == "JupyterLab: it ended with status 3; what it said stands above.\n"
