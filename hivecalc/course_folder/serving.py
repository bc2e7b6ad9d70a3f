"""JupyterLab on a course folder: how it is started, where it answers, and how it ends.

Whatever the user's own settings of Jupyter say, they do not reach it, and nothing is written there:
it has a folder for settings of its own beside them.
"""

import getpass
import json
import os
import secrets
import shlex
import shutil
import signal
import socket
import subprocess
import sys
import time
import webbrowser
from collections.abc import Callable, Iterator, Mapping
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from html import escape
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from typing import Final
from urllib.parse import quote, urlsplit

from hivecalc.course_folder import HIVE_VARIABLE, PACKAGE
from hivecalc.course_folder.copying import Course, usual_folder, write
from hivecalc.hive import HiveFaults

EXTENSIONS: Final = PACKAGE / "lab" / "labextensions"
"""Where JupyterLab finds the extension that makes a page of a lesson."""

EXTENSION: Final = "hivecalc-lessons"
"""Name of that extension: JupyterLab's page holds it only where `hivecalc open` started it."""

SETTINGS: Final = PACKAGE / "lab" / "settings"
"""Where JupyterLab finds what differs for learners, in its folder labconfig.

No news, saved every 30 s, pages to read instead of their text to edit, nothing unloaded. Left out
is what keeps server and browser busy just when a lesson opens, and no lesson needs: language
servers, terminals, the debugger, extensions to install, whether JupyterLab should be built anew,
and exports, which have no panels. They are not in the course folder, whose path may have the sign
that parts such paths, and which may be somebody else's.
"""

WARM_UP: Final = PACKAGE / "lab" / "warm_up.py"
"""What a kernel runs as it starts, so that the library is loaded while the page still is."""

LEADS_ASTRAY: Final = frozenset({
    "JUPYTERLAB_DIR", "JUPYTER_NO_CONFIG", "JUPYTER_PATH", "JUPYTER_PREFER_ENV_PATH",
})  # fmt: skip
"""By these the user leads a Jupyter of their own to another page, other settings and kernels."""

WORKSPACES: Final = Path(".hivecalc", "workspaces")
"""Where in the course folder JupyterLab keeps what stands open, so that two courses do not mix."""
IDENTITY: Final = "jupyter_server.auth.identity.PasswordIdentityProvider"
"""What asks for the key: Jupyter's own way."""
UNUSED: Final = ("jupyter_lsp", "jupyter_server_terminals")
"""Parts of the server that no lesson needs."""

IDLE: Final = 20 * 60  # seconds after which the kernel of a lesson that nobody has open ends
PATIENCE: Final = 5  # seconds before a server that says nothing counts as gone
PAUSE: Final = 0.1  # seconds between two looks whether JupyterLab answers
MOST_BYTES: Final = 1_000_000  # of a page; JupyterLab's has some 5000
LEADING_PAGE: Final = """<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><title>Opening the lesson</title>
<meta http-equiv="refresh" content="0; url={0}"></head>
<body><p><a href="{0}">To the lesson</a></p></body></html>
"""

STOP: Final = "hivecalc open --stop"

# ── where JupyterLab answers ──────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Address:
    """Where JupyterLab answers: its address, the key that it asks for, and the lesson to show.

    page is a file that leads a browser there, so that the key stands in no list of processes.
    runs_already says that JupyterLab was started before, and not from here; goes_on that the lesson
    is the one that the learner worked in last.
    """

    server: str
    port: int
    key: str
    lesson: str
    page: Path
    runs_already: bool = False
    goes_on: bool = False
    stop: str = STOP

    @property
    def url(self) -> str:
        """Address of the lesson, alone on its page."""
        return self.target(f"doc/tree/{quote(self.lesson)}")

    def target(self, path: str) -> str:
        """Address of anything that the server has, with the key."""
        return f"{self.server}{path}?token={self.key}"

    def announcement(self, *, browser: bool) -> str:
        """Say where the lesson is, how it comes into a browser, and how all this is stopped."""
        lines = [f"{'Where you left off' if self.goes_on else 'The first lesson'}: {self.url}"]
        if browser:
            lines.append("Your browser opens it. If none does, copy the address into one.")
        else:
            user = "you"
            with suppress(OSError, KeyError):
                user = getpass.getuser()
            way = f"ssh -N -L {self.port}:localhost:{self.port} {user}@{socket.gethostname()}"
            lines.append("Copy the address into a browser on this computer.")
            lines.append(f"From another computer, run there first: {way}")
        here = "in the window where it was started" if self.runs_already else "here"
        already = "It runs already. " if self.runs_already else ""
        lines.append(f"{already}To stop it, press Ctrl-C {here}, or run {self.stop}")
        return "\n".join(lines)

    def lead_here(self) -> str:
        """Address to give to a browser: the page's, if JupyterLab made it and it can lead here."""
        with suppress(HiveFaults):
            if self.page.is_file():
                write(self.page, LEADING_PAGE.format(escape(self.url)).encode())
                return self.page.as_uri()
        return self.url


def running(course: Course) -> Address | None:
    """Address of a JupyterLab that `hivecalc open` started on this folder and that answers."""
    found = _addresses(course, runs_already=True)
    return next((address for address in found if _shows_lessons(address)), None)


def _started(course: Course, key: str) -> Address | None:
    """Return where the JupyterLab answers that was started with a key, once it does.

    The key is nobody else's. A process id is not that of the server where Python's own starter
    stands between (in an environment on Windows), and a clock may be set.
    """
    found = _addresses(course, key)
    return next((address for address in found if _listens(address)), None)


def _addresses(course: Course, key: str = "", *, runs_already: bool = False) -> Iterator[Address]:
    """Yield the address in each file about a server on this folder, with this key if one is given.

    `hivecalc open` never starts a server without a key.
    """
    from jupyter_core.paths import jupyter_runtime_dir  # noqa: PLC0415 - only `open` needs it

    stop = STOP
    if course.folder != usual_folder().expanduser().resolve():
        stop = f"{STOP} --folder {shlex.quote(str(course.folder))}"
    for path in Path(jupyter_runtime_dir()).glob("jpserver-*.json"):
        with suppress(OSError, ValueError, LookupError, TypeError, RecursionError):
            server = json.loads(path.read_bytes())
            token = server["token"]
            if server["root_dir"] == str(course.folder) and token and key in {"", token}:
                page = path.with_name(f"{path.stem}-open.html")
                where = (server["url"], int(server["port"]), token)
                goes_on = course.left_off is not None
                yield Address(*where, course.opens, page, runs_already, goes_on, stop)


def _listens(address: Address) -> bool:
    """Whether a server takes calls there; its file is written a moment before it does."""
    with suppress(OSError, ValueError):
        host = urlsplit(address.server).hostname
        socket.create_connection((host, address.port), PATIENCE).close()
        return True
    return False


def _shows_lessons(address: Address) -> bool:
    """Whether JupyterLab answers there, takes the key, and has the extension of the course."""
    with suppress(OSError, ValueError, HTTPException):
        return EXTENSION.encode() in _answer("GET", address.target("lab"))
    return False


def _answer(method: str, url: str) -> bytes:
    place = urlsplit(url)
    with closing(HTTPConnection(place.netloc, timeout=PATIENCE)) as line:
        line.request(method, f"{place.path}?{place.query}")
        return line.getresponse().read(MOST_BYTES)


# ── how it is started and stopped ─────────────────────────────────────────────────────────────


def lab_command(course: Course) -> list[str]:
    """Command that runs JupyterLab on a course folder.

    >>> lab_command(Course(Path("course"), "workbook/00-start.ipynb"))[-1]
    '--LabApp.default_url=/doc/tree/workbook/00-start.ipynb'
    """
    return [
        *(sys.executable, "-P", "-m", "hivecalc.lab"),  # -P: no module from the folder it runs in
        "-y",  # Ctrl-C stops it without a question
        "--ServerApp.log_level=ERROR",
        "--LabApp.log_level=ERROR",
        "--no-browser",  # the browser gets the address from here
        *(["--allow-root"] if sys.platform != "win32" and os.geteuid() == 0 else []),
        "--ServerApp.ip=127.0.0.1",
        "--ServerApp.allow_remote_access=False",
        f"--ServerApp.identity_provider_class={IDENTITY}",
        f"--ServerApp.root_dir={course.folder}",
        *(f"--ServerApp.jpserver_extensions={name}=False" for name in UNUSED),
        f"--MappingKernelManager.cull_idle_timeout={IDLE}",
        f"--MappingKernelManager.cull_interval={IDLE // 4}",
        f"--LabApp.extra_labextensions_path={EXTENSIONS}",
        f"--LabApp.workspaces_dir={course.folder / WORKSPACES}",
        "--ContentsManager.allow_hidden=True",  # the page writes down where the learner stopped
        f"--LabApp.default_url=/doc/tree/{quote(course.opens)}",
    ]


def lab_environment(course: Course, environment: Mapping[str, str] = os.environ) -> dict[str, str]:
    """Environment of JupyterLab and its kernels: this one, settings of its own, the hive file."""
    from jupyter_core.paths import jupyter_config_dir  # noqa: PLC0415 - only `open` needs it

    theirs = environment.get("JUPYTER_CONFIG_DIR") or jupyter_config_dir()
    own = Path(theirs, "hivecalc-course")
    return {
        **{name: value for name, value in environment.items() if name not in LEADS_ASTRAY},
        "JUPYTER_CONFIG_DIR": str(own),
        "JUPYTER_CONFIG_PATH": str(SETTINGS),
        "JUPYTERLAB_SETTINGS_DIR": str(own / "lab" / "user-settings"),
        "IPYTHONDIR": str(own / "ipython"),
        "PYTHONSTARTUP": str(WARM_UP),
        HIVE_VARIABLE: str(course.hive),
    }


def shows_browser(environment: Mapping[str, str] = os.environ) -> bool:
    """Whether a browser can show up where this runs."""
    screen = environment.keys() & {"DISPLAY", "WAYLAND_DISPLAY", "BROWSER"}
    if sys.platform not in {"win32", "darwin"} and not screen:
        return False
    try:
        webbrowser.get()
    except webbrowser.Error:
        return False
    return True


def run_lab(course: Course, tell: Callable[[str], None], *, browser: bool) -> int:
    """Run JupyterLab on a course folder until it is stopped; its exit status comes back.

    `tell` gets what happens as it happens. Ctrl-C, or a request to end this process, ends
    JupyterLab and with it the kernels. Where `hivecalc open` runs it already on this folder, no
    second one is started: its address is printed, the browser opened, and 0 comes back.
    """
    if address := running(course):
        _show(address, tell, browser=browser)
        return 0
    tell("Starting JupyterLab, which shows the lessons. It takes a few seconds.")
    key = secrets.token_hex(24)
    with _start(course, key) as lab, _ending(lab):
        while lab.poll() is None:
            if address := _started(course, key):
                _show(address, tell, browser=browser)
                break
            time.sleep(PAUSE)
        return lab.wait()


def _show(address: Address, tell: Callable[[str], None], *, browser: bool) -> None:
    tell(address.announcement(browser=browser))
    if browser:
        webbrowser.open(address.lead_here())


def stop_lab(course: Course) -> bool:
    """End a JupyterLab that runs on this course folder; False comes back where none does."""
    address = running(course)
    if address is None:
        return False
    _answer("POST", address.target("api/shutdown"))
    end = time.monotonic() + PATIENCE
    while _listens(address) and time.monotonic() < end:
        time.sleep(PAUSE)
    return True


def _start(course: Course, key: str) -> subprocess.Popen[bytes]:
    """Start JupyterLab in a session of its own, so that Ctrl-C reaches it once, from here.

    Its standard input stays open as long as this process lives: it ends with it, even if killed.

    It begins with one lesson: those that stood open before would all start their kernels again.
    """
    shutil.rmtree(course.folder / WORKSPACES, ignore_errors=True)
    environment = lab_environment(course)
    with suppress(OSError):  # Jupyter does without
        profile = Path(environment["IPYTHONDIR"], "profile_default")
        profile.mkdir(parents=True, exist_ok=True)
        quiet = "c.IPKernelApp.log_level = 40  # errors, and no advice on networks\n"
        (profile / "ipython_kernel_config.py").write_text(quiet)
    lab = subprocess.Popen(  # noqa: S603 - our own command
        lab_command(course),
        bufsize=0,
        env=environment,
        stdin=subprocess.PIPE,
        start_new_session=True,
    )
    hand_over(lab, key)
    return lab


def hand_over(lab: subprocess.Popen[bytes], key: str) -> None:
    """Give JupyterLab the key that it asks for; one that has ended already needs none."""
    if lab.stdin:
        with suppress(OSError):
            lab.stdin.write(f"{key}\n".encode())


@contextmanager
def _ending(lab: subprocess.Popen[bytes]) -> Iterator[None]:
    """End JupyterLab when this process is told to end, or fails."""
    names = [n for n in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, n)]
    old = {n: signal.signal(getattr(signal, n), lambda *_: lab.terminate()) for n in names}
    try:
        yield
    finally:
        lab.terminate()
        for name, handler in old.items():
            signal.signal(getattr(signal, name), handler)
