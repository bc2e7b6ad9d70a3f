"""Where JupyterLab answers on a course folder, found by the files that running servers leave."""

import getpass
import json
import socket
from collections.abc import Iterator
from contextlib import closing, suppress
from dataclasses import dataclass
from html import escape
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from typing import Final
from urllib.parse import quote, urlsplit

from hivecalc.course_folder.copying import Course
from hivecalc.course_folder.lessons import PACKAGE
from hivecalc.course_folder.writing import write
from hivecalc.hive import HiveFaults

EXTENSIONS: Final = PACKAGE / "lab" / "labextensions"
"""Where JupyterLab finds the extension that runs a lesson when it is opened."""

EXTENSION: Final = "hivecalc-lessons"
"""Name of that extension: JupyterLab's page holds it only where `hivecalc open` started it."""

PATIENCE: Final = 5  # seconds before a server that says nothing counts as gone
MOST_BYTES: Final = 1_000_000  # of a page; JupyterLab's has some 5000
LEADING_PAGE: Final = """<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><title>Opening the lesson</title>
<meta http-equiv="refresh" content="0; url={0}"></head>
<body><p><a href="{0}">To the lesson</a></p></body></html>
"""


@dataclass(frozen=True)
class Address:
    """Where JupyterLab answers: its port, and a lesson's address with the key.

    page is a file that leads a browser there, so that the key stands in no list of processes.
    runs_already says that JupyterLab was started before, and not from here; goes_on that the lesson
    is the one that the learner worked in last.
    """

    port: int
    url: str
    page: Path
    runs_already: bool = False
    goes_on: bool = False

    def told(self, *, browser: bool) -> str:
        """Say where the lesson is and, where no browser opens, how to reach it from elsewhere."""
        lines = [f"{'Where you left off' if self.goes_on else 'The first lesson'}: {self.url}"]
        if not browser:
            way = f"ssh -N -L {self.port}:localhost:{self.port} {_user()}@{socket.gethostname()}"
            lines.append(f"From another computer, run there first: {way}")
        already = "It runs already. Ctrl-C stops it in the window where you started it."
        lines.append(already if self.runs_already else "Ctrl-C stops it.")
        return "\n".join(lines)

    def opened_by(self) -> str:
        """Address that a browser is given: the page's where there is one."""
        return self.page.as_uri() if self.page.is_file() else self.url

    def lead_here(self) -> None:
        """Make the page lead here, if there is one: it still leads where JupyterLab once began."""
        with suppress(HiveFaults):
            if self.page.is_file():
                write(self.page, LEADING_PAGE.format(escape(self.url)).encode())


def _user() -> str:
    try:
        return getpass.getuser()
    except (OSError, KeyError):
        return "you"


def running(course: Course) -> Address | None:
    """Address of a JupyterLab that `hivecalc open` started on this course folder and that answers.

    >>> running(Course(Path("no such folder"), "workbook/00-start.ipynb")) is None
    True
    """
    found = _addresses(course, runs_already=True)
    return next((address for address in found if _shows_lessons(address)), None)


def started(course: Course, key: str) -> Address | None:
    """Address of the JupyterLab that was started on this course folder with a key, once it answers.

    >>> started(Course(Path("no such folder"), "workbook/00-start.ipynb"), "key") is None
    True

    The key is nobody else's. A process id is not that of the server where Python's own starter
    stands between (in an environment on Windows), and a clock may be set.
    """
    found = _addresses(course, key)
    return next((address for address in found if _listens(address)), None)


def _addresses(course: Course, key: str = "", *, runs_already: bool = False) -> Iterator[Address]:
    """Yield the address in each file about a server on this folder, with this key if one is given.

    A server without a key is none that `hivecalc open` started.
    """
    from jupyter_core.paths import jupyter_runtime_dir  # noqa: PLC0415 - only `open` needs it

    for path in Path(jupyter_runtime_dir()).glob("jpserver-*.json"):
        with suppress(OSError, ValueError, LookupError, TypeError, RecursionError):
            server = json.loads(path.read_bytes())
            token = server["token"]
            if server["root_dir"] == str(course.folder) and token and key in {"", token}:
                url = f"{server['url']}lab/tree/{quote(course.opens)}?token={token}"
                page = path.with_name(f"{path.stem}-open.html")
                goes_on = course.left_off is not None
                yield Address(int(server["port"]), url, page, runs_already, goes_on)


def _listens(address: Address) -> bool:
    """Whether a server takes calls there; its file is written a moment before it does."""
    with suppress(OSError, ValueError):
        host = urlsplit(address.url).hostname
        socket.create_connection((host, address.port), PATIENCE).close()
        return True
    return False


def _shows_lessons(address: Address) -> bool:
    """Whether JupyterLab answers there, takes the key, and has the extension of the course."""
    with suppress(OSError, ValueError, HTTPException):
        return EXTENSION.encode() in _page(address.url)
    return False


def _page(url: str) -> bytes:
    place = urlsplit(url)
    with closing(HTTPConnection(place.netloc, timeout=PATIENCE)) as line:
        line.request("GET", f"{place.path}?{place.query}")
        return line.getresponse().read(MOST_BYTES)
