"""JupyterLab on a course folder: how it is started, where it answers, and how it ends."""

import os
import secrets
import shutil
import signal
import subprocess
import sys
import time
import webbrowser
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Final
from urllib.parse import quote

from hivecalc.course_folder.addresses import EXTENSIONS, Address, running, started
from hivecalc.course_folder.copying import Course

HIVE_VARIABLE: Final = "HIVECALC_HIVE"
SETTINGS: Final = EXTENSIONS.with_name("settings")
"""Where JupyterLab finds what differs for learners, in its folder labconfig.

No news, saved every 30 s, pages to read instead of their text to edit, nothing unloaded. Left out
are two things that keep the server busy just when a lesson opens: whether it should be built anew,
and exports, which have no panels. They are not in the course folder, whose path may have the sign
that parts such paths, and which may be somebody else's.
"""

WORKSPACES: Final = Path(".hivecalc", "workspaces")
"""Where in the course folder JupyterLab keeps what stands open, so that two courses do not mix."""
IDENTITY: Final = "jupyter_server.auth.identity.PasswordIdentityProvider"
"""What asks for the key: Jupyter's own way."""

PAUSE: Final = 0.1  # seconds between two looks whether JupyterLab answers


def lab_command(course: Course, *, browser: bool) -> list[str]:
    """Command that runs JupyterLab on a course folder and opens a lesson.

    >>> lab_command(Course(Path("course"), "workbook/00-start.ipynb"), browser=True)[-1]
    '--LabApp.default_url=/lab/tree/workbook/00-start.ipynb'
    """
    return [
        *(sys.executable, "-P", "-m", "hivecalc.lab"),  # -P: no module from the folder it runs in
        "-y",  # Ctrl-C stops it without a question
        "--log-level=WARN",
        *([] if browser else ["--no-browser"]),
        *(["--allow-root"] if _is_root() else []),
        # whatever the user's own settings of Jupyter say
        *("--ServerApp.ip=127.0.0.1", "--ServerApp.allow_remote_access=False"),
        f"--ServerApp.identity_provider_class={IDENTITY}",
        f"--ServerApp.root_dir={course.folder}",
        f"--LabApp.extra_labextensions_path={EXTENSIONS}",
        f"--LabApp.workspaces_dir={course.folder / WORKSPACES}",
        "--ContentsManager.allow_hidden=True",  # the page writes down where the learner stopped
        f"--LabApp.default_url=/lab/tree/{quote(course.opens)}",
    ]


def _is_root() -> bool:
    return sys.platform != "win32" and os.geteuid() == 0


def lab_environment(course: Course, environment: Mapping[str, str] = os.environ) -> dict[str, str]:
    """Environment of JupyterLab and its kernels: this one, the course's settings, the hive file.

    >>> lab_environment(Course(Path("course"), ""), {"LANG": "C"})["HIVECALC_HIVE"]
    'course/my-hive.toml'

    The learner's own settings of JupyterLab outrank those of the course.
    """
    before = environment.get("JUPYTER_CONFIG_PATH")
    return {
        **environment,
        "JUPYTER_CONFIG_PATH": os.pathsep.join(filter(None, [str(SETTINGS), before])),
        HIVE_VARIABLE: str(course.hive),
    }


def shows_browser(environment: Mapping[str, str] = os.environ) -> bool:
    """Whether a browser can show up where this runs.

    >>> shows_browser({}) and sys.platform == "linux"
    False
    """
    screen = environment.keys() & {"DISPLAY", "WAYLAND_DISPLAY", "BROWSER"}
    if sys.platform not in {"win32", "darwin"} and not screen:
        return False
    try:
        webbrowser.get()
    except webbrowser.Error:
        return False
    return True


def run_lab(course: Course, tell: Callable[[Address], None], *, browser: bool) -> int:
    """Run JupyterLab on a course folder until it is stopped; its exit status comes back.

    `tell` gets the address as soon as JupyterLab answers there. Ctrl-C, or a request to end this
    process, ends JupyterLab and with it the kernels. Where `hivecalc open` runs it already on this
    folder, no second one is started: its address is told, the browser opened, and 0 comes back.
    """
    if address := running(course):
        tell(address)
        if browser:
            address.lead_here()
            webbrowser.open(address.opened_by())
        return 0
    return _run(course, tell, browser=browser)


def _run(course: Course, tell: Callable[[Address], None], *, browser: bool) -> int:
    key = secrets.token_hex(24)
    with _start(course, key, browser=browser) as lab, _ending(lab):
        while lab.poll() is None:
            if address := started(course, key):
                tell(address)
                break
            time.sleep(PAUSE)
        return lab.wait()


def _start(course: Course, key: str, *, browser: bool) -> subprocess.Popen[bytes]:
    """Start JupyterLab in a session of its own, so that Ctrl-C reaches it once, from here.

    Its standard input stays open as long as this process lives: it ends with it, even if killed.

    It begins with one lesson: those that stood open before would all start their kernels again.
    """
    shutil.rmtree(course.folder / WORKSPACES, ignore_errors=True)
    command, environment = lab_command(course, browser=browser), lab_environment(course)
    lab = subprocess.Popen(  # noqa: S603 - our own command
        command, bufsize=0, env=environment, stdin=subprocess.PIPE, start_new_session=True
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
