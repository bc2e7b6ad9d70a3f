"""`hivecalc open`: what it says, what it serves, for whom, and how it ends."""

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
from contextlib import contextmanager, nullcontext, suppress
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path
from urllib.error import HTTPError
from urllib.parse import urlsplit

import psutil
import pytest

from hivecalc.cli import exit_status
from hivecalc.course_folder import PLACES, serving
from hivecalc.course_folder.copying import Course
from hivecalc.course_folder.serving import LEADING_PAGE, SETTINGS, Address, run_lab, running
from hivecalc.hive import Fault, HiveFaults
from hivecalc.lab.__main__ import page_with_first_picture
from tests.jupyter_rig import ROOT

FIRST = "workbook/00-your-hive-and-your-tape.ipynb"
FRAME = "workbook/02-the-frame-of-the-bottom-board.ipynb"
OPEN = [sys.executable, "-m", "hivecalc", "open"]
NOT_FOR_EVERYBODY = """
c.ServerApp.ip = "0.0.0.0"
c.ServerApp.allow_remote_access = True
c.ServerApp.base_url = "/elsewhere"
c.ServerApp.token = c.IdentityProvider.token = c.PasswordIdentityProvider.token = ""
c.ServerApp.password = ""
"""


def without_screen(home: Path) -> dict[str, str]:
    """Return the environment of a learner on a machine without a screen."""
    screen = {"DISPLAY", "WAYLAND_DISPLAY", "BROWSER", "JUPYTER_TOKEN", "JUPYTER_CONFIG_PATH"}
    own = {"HOME": str(home), "XDG_DATA_HOME": str(home), "HIVECALC_COURSE": ""}
    own |= {"JUPYTERLAB_DIR": "/elsewhere", "JUPYTER_PATH": "/elsewhere", "JUPYTER_NO_CONFIG": "1"}
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


def answer(url: str, data: bytes | None = None) -> str:
    with urllib.request.urlopen(url, data, timeout=20) as reply:  # noqa: S310 - our own server
        return str(reply.read().decode())


def running_below(pid: int, module: str) -> list[psutil.Process]:
    """Every process of this module that a process started."""
    below = psutil.Process(pid).children(recursive=True)
    alive = [process for process in below if process.status() != psutil.STATUS_ZOMBIE]
    return [process for process in alive if module in process.cmdline()]


def start_kernel(pid: int, url: str) -> list[psutil.Process]:
    """Every kernel of a server, once there is one more."""
    base, key = url.partition("doc/")[0], urlsplit(url).query
    answer(f"{base}api/kernels?{key}", b"{}")
    return running_below(pid, "ipykernel_launcher")


@pytest.mark.notebooks
def test_open_serves_the_course_to_this_machine_says_so_once_and_is_found_again(tmp_path):
    """Whatever signs part its folder's path, what port is taken, what the user's settings say."""
    home = tmp_path / "Saturday 10:00; first day"
    (home / ".jupyter").mkdir(parents=True)
    for name in ("jupyter_server_config.py", "jupyter_lab_config.py"):
        (home / ".jupyter" / name).write_text(NOT_FOR_EVERYBODY)
    with socket.socket() as taken:
        with suppress(OSError):  # the port that JupyterLab tries first may be taken already
            taken.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            taken.bind(("127.0.0.1", 8888))
            taken.listen()
        with opened(home) as process:
            said, url = told_until(process, r"^The first lesson: (\S+)$")
            more, way = told_until(process, r"run there first: (.*)$")
            port, key = urlsplit(url).port, urlsplit(url).query.partition("token=")[2]
            assert (port != 8888, f"-L {port}:localhost:{port} " in way) == (True, True)
            check_served_lesson(home / "hivecalc-course", url)
            [server] = running_below(process.pid, "hivecalc.lab")
            bound = {c.laddr.ip for c in server.net_connections() if c.status == psutil.CONN_LISTEN}
            assert bound == {"127.0.0.1"}
            assert len(key) >= 32
            assert not any(key in word for word in server.cmdline())
            with pytest.raises(HTTPError, match="403"):
                answer(url.partition("doc/")[0] + "api/contents")
            [kernel] = start_kernel(process.pid, url)
            assert kernel.environ()["HIVECALC_HIVE"] == str(home / "hivecalc-course/my-hive.toml")
            check_opened_again(home, url)
            assert process.wait(20) == 0
            assert process.stdout is not None
            rest = process.stdout.read()
    folder, *new, starting, _ = said.splitlines()
    assert folder == f"Your course folder: {home / 'hivecalc-course'}"
    assert (len(new), starting.partition(",")[0]) == (1, "Starting JupyterLab")
    assert len(re.findall(r"https?://", said + more + rest)) == 1, rest
    assert rest.startswith("To stop it, press Ctrl-C here, or run hivecalc open --stop\n")
    assert not server.is_running()  # its port may be another server's by now


def check_opened_again(home: Path, url: str) -> None:
    """A second one leads to the server that runs, and --stop ends that."""
    handed, browser = home.parent / "handed", home.parent / "browser"  # BROWSER is parted at ":"
    browser.write_text(f'#!/bin/sh\necho "$1" > "{handed}"\n')
    browser.chmod(0o755)

    def opened_again(*more: str) -> str:
        return subprocess.run(
            [*OPEN, *more], cwd=ROOT, capture_output=True, text=True, check=True, timeout=20,
            env={**without_screen(home), "BROWSER": f"{browser} %s"},
        ).stdout  # fmt: skip

    said = opened_again()
    assert f"The first lesson: {url}\nYour browser opens it." in said
    assert "It runs already. To stop it, press Ctrl-C in the window where" in said
    assert url in answer(handed.read_text().strip())
    (home / "hivecalc-course" / PLACES / f"{FRAME}.json").touch()  # the page did so
    now = url.replace(FIRST, FRAME)
    assert f"Where you left off: {now}\n" in opened_again()
    page = handed.read_text().strip()
    assert (page.startswith("file://"), url in page) == (True, False)
    assert (now in answer(page), FIRST in answer(page)) == (True, False)
    assert len(list(home.rglob("jpserver-*.json"))) == 1
    assert opened_again("--stop") == "Stopped.\n"


def check_served_lesson(folder: Path, url: str) -> None:
    assert urlsplit(url).path == f"/doc/tree/{FIRST}"
    base, key = url.partition("doc/")[0], urlsplit(url).query
    served = json.loads(answer(f"{base}api/contents/{FIRST}?content=1&{key}"))
    copied = json.loads((folder / FIRST).read_bytes())
    assert [c["id"] for c in served["content"]["cells"]] == [c["id"] for c in copied["cells"]]
    ours = SETTINGS / "labconfig"
    overrides = json.loads((ours / "default_setting_overrides.json").read_bytes())
    for plugin, settings in overrides.items():
        schema = json.loads(answer(f"{base}lab/api/settings/{plugin}?{key}"))["schema"]
        assert {n: schema["properties"][n]["default"] for n in settings} == settings
    page = answer(url)
    assert '<h1>00 · Your hive and your tape</h1>\n<img src="/files/workbook/pictures/00-' in page
    assert "<h1>" not in answer(f"{base}doc/tree/workbook/glossary.md?{key}")
    told = json.loads(
        re.findall(r'id="jupyter-config-data"[^>]*>(.*?)</script>', page, re.DOTALL)[0]
    )
    settings = json.loads((ours / "page_config.json").read_bytes())
    assert told["buildCheck"] is settings["buildCheck"] is False
    assert {*told["disabledExtensions"]} == {*settings["disabledExtensions"]}
    assert not told["terminalsAvailable"]


@pytest.mark.notebooks
@pytest.mark.skipif(sys.platform == "win32", reason="nobody is killed so there")
def test_the_server_and_its_kernels_end_with_a_window_that_was_killed(tmp_path):
    with opened(tmp_path) as process:
        _, url = told_until(process, r"^The first lesson: (\S+)$")
        assert start_kernel(process.pid, url)
        left = psutil.Process(process.pid).children(recursive=True)
        process.kill()
        _, alive = psutil.wait_procs(left, timeout=20)
    assert (len(left) >= 2, alive) == (True, [])


# ── which server is the course's own ──────────────────────────────────────────────────────────


class OtherServer(BaseHTTPRequestHandler):
    """Answers as JupyterLab does: its page to whom has the key, else a page to log in."""

    def do_GET(self) -> None:
        lessons = "" if self.path.startswith("/plain/") else "hivecalc-lessons"
        page = f"JupyterLab {lessons}" if self.path.endswith("lab?token=key") else "Log in"
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
        (tmp_path / "jpserver-7.json").write_text(text)
        return running(Course(tmp_path / "course", FIRST))

    return address


def server_file(place: Path, at: int, **more: object) -> str:
    url = f"http://127.0.0.1:{at}/"
    ours = {"root_dir": str(place / "course"), "port": at, "url": url, "token": "key"}
    return json.dumps(ours | more)


def test_a_running_server_of_this_course_is_found(tmp_path, found, other_port):
    address = found(server_file(tmp_path, other_port))
    assert (address.port, address.runs_already) == (other_port, True)
    assert address.url == f"http://127.0.0.1:{other_port}/doc/tree/{FIRST}?token=key"
    assert address.lead_here() == address.url  # this server left no page that leads there


def test_what_stops_it_names_a_folder_that_is_not_the_usual_one(
    tmp_path, found, other_port, monkeypatch
):
    own = found(server_file(tmp_path, other_port)).announcement(browser=False)
    assert own.endswith(f"or run hivecalc open --stop --folder {tmp_path / 'course'}")
    monkeypatch.setenv("HIVECALC_COURSE", str(tmp_path / "course"))
    usual = found(server_file(tmp_path, other_port)).announcement(browser=False)
    assert usual.endswith("or run hivecalc open --stop")


OTHERS = {
    "a key that it does not take": {"token": "old"},
    "no key": {"token": ""},
    "another folder": {"root_dir": "/elsewhere"},
    "a port that is none": {"port": "x"},
    "no HTTP": {"url": f"http+unix://{'%2Ftmp' * 20}/"},
    "a broken address": {"url": "http://["},
    "a file": {"url": "file:///etc/"},
    "no address": {"url": ""},
    "a JupyterLab that was started otherwise": {"url": "/plain/"},
}


@pytest.mark.parametrize("other", OTHERS.values(), ids=OTHERS)
def test_another_server_does_not_count(tmp_path, found, other_port, other):
    plain = {"url": f"http://127.0.0.1:{other_port}/plain/"} if "/plain/" in other.values() else {}
    assert found(server_file(tmp_path, other_port, **other | plain)) is None


@pytest.mark.parametrize("text", ["", "[]", "{", '{"root_dir": 1}', "[" * 200_000])
def test_a_damaged_server_file_does_not_count(found, text):
    assert found(text) is None


def test_a_server_that_is_gone_does_not_count(tmp_path, found):
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    assert found(server_file(tmp_path, port)) is None


# ── what is said and where the browser is led ─────────────────────────────────────────────────


def address(page: Path, **more: bool) -> Address:
    return Address("http://localhost:8888/", 8888, 'k&a="', "x.ipynb", page, **more)


def test_the_page_leads_to_the_lesson_if_it_can_be_written(tmp_path, monkeypatch):
    def full(*_: object) -> None:
        raise HiveFaults([Fault("page", "the disk is full", "make room")])

    page = tmp_path / "jpserver-7-open.html"
    assert address(page).lead_here() == address(page).url
    page.write_text("to the first lesson")
    page.chmod(0o600)
    assert address(page).lead_here() == page.as_uri()
    quoted = "http://localhost:8888/doc/tree/x.ipynb?token=k&amp;a=&quot;"
    assert page.read_text() == LEADING_PAGE.format(quoted)
    assert page.stat().st_mode & 0o777 == 0o600
    monkeypatch.setattr(serving, "write", full)
    assert address(page).lead_here() == address(page).url


def test_the_terminal_says_in_one_line_where_it_goes_on(tmp_path):
    first, on = (address(tmp_path, goes_on=on).announcement(browser=True) for on in (False, True))
    assert first.startswith("The first lesson: http://localhost:8888/doc/tree/x.ipynb?token=")
    assert on.startswith("Where you left off: http://localhost:8888/doc/tree/x.ipynb?token=")


def test_the_first_picture_stands_in_the_page_that_is_installed():
    page = page_with_first_picture("<html><body class='x'><script></script></body></html>")
    assert page.startswith("<html><body class='x'>{% set modules = ['access.js',")
    assert page.endswith("<script></script></body></html>")
    assert page.count("hivecalc-first") > 1


def test_a_browser_needs_a_screen(monkeypatch):
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setattr("webbrowser.get", lambda: None)
    assert not serving.shows_browser({})
    assert serving.shows_browser({"DISPLAY": ":0"})


@pytest.mark.parametrize("name", ["workbook/00 a?b.ipynb", FIRST])
def test_the_name_of_a_lesson_is_quoted_in_the_address(name):
    [*_, last] = serving.lab_command(Course(Path("course"), name))
    quoted = name.replace(" ", "%20").replace("?", "%3F")
    assert last == f"--LabApp.default_url=/doc/tree/{quoted}"


# ── how it ends ───────────────────────────────────────────────────────────────────────────────


def test_what_stood_open_is_forgotten_and_kept_in_the_folder_meanwhile(tmp_path, monkeypatch):
    [told] = [w for w in serving.lab_command(Course(tmp_path, FIRST)) if "workspaces" in w]
    place = Path(told.partition("=")[2])
    assert place.is_relative_to(tmp_path)
    place.mkdir(parents=True)
    (place / "default.jupyterlab-workspace").write_text("{}")
    monkeypatch.setattr(serving, "lab_command", lambda *_: ["true"])
    assert run_lab(Course(tmp_path, FIRST), print, browser=False) == 0
    assert not place.exists()


def broken_pipe() -> None:
    raise BrokenPipeError


@pytest.mark.parametrize(("ends", "status"), [
    (broken_pipe, None), (lambda: signal.raise_signal(signal.SIGINT), -signal.SIGTERM),
], ids=["failure", "Ctrl-C"])  # fmt: skip
def test_jupyterlab_ends_with_a_failure_or_ctrl_c(tmp_path, monkeypatch, ends, status):
    pid = tmp_path / "pid"
    os.mkfifo(pid)
    place, by_itself = map(str, (pid, tmp_path / "ended by itself"))
    code = f"import os, time; open({place!r}, 'w').write(str(os.getpid())); time.sleep(60)"
    code += f"; open({by_itself!r}, 'w')"
    monkeypatch.setattr(serving, "lab_command", lambda *_: [sys.executable, "-c", code])
    started = []

    def ending(*_: object) -> None:
        if not started:
            started.append(int(pid.read_text()))  # which waits for it
            ends()

    monkeypatch.setattr(serving, "_started", ending)
    with pytest.raises(BrokenPipeError) if status is None else nullcontext():
        assert run_lab(Course(tmp_path, FIRST), print, browser=False) == status
    assert not psutil.pid_exists(started[0])
    assert not Path(by_itself).exists()


def test_where_nothing_runs_stop_says_so(tmp_path, monkeypatch, capfd):
    monkeypatch.setenv("JUPYTER_RUNTIME_DIR", str(tmp_path))
    assert exit_status(["open", "--stop", "--folder", str(tmp_path)]) == 0
    assert capfd.readouterr().out == f"Nothing runs on {tmp_path}.\n"


def test_open_says_so_when_jupyterlab_does_not_start(tmp_path, monkeypatch, capfd):
    ends = [sys.executable, "-c", "raise SystemExit(3)"]
    monkeypatch.setattr(serving, "lab_command", lambda *_: ends)
    assert exit_status(["open", "--folder", str(tmp_path / "course"), "--no-browser"]) == 2
    out, err = capfd.readouterr()
    assert f"Your course folder: {tmp_path / 'course'}" in out
    assert err == "JupyterLab: it ended with status 3; what it said stands above.\n"


def test_a_kernel_loads_at_its_start_only_what_every_lesson_needs():
    code = (
        "import sys, hivecalc.widgets; print(*sys.modules)\n"
        "from hivecalc.judging import SizeOfHive  # each module is there once, loaded by whatever\n"
        "from hivecalc.exercise import exercise, posed\n"
        "assert isinstance(posed(exercise('02-02')).asked[0], SizeOfHive)"
    )
    loaded = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    own = {"hivecalc.warmth", "hivecalc.wood", "hivecalc.document.page", "hivecalc.reports.book"}
    libraries = {"numpy", "scipy", "matplotlib", "pint", "typst", "psychrolib", "tomlkit", "rich"}
    assert (own | libraries).isdisjoint(loaded.stdout.split())
