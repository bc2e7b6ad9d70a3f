"""Where a learner works: a folder of their own with copies of the lessons, and JupyterLab on it.

The originals stay clean. A newer original takes the place of a copy only while the learner has not
touched that copy; otherwise it is laid beside it. What was copied is kept in a manifest in the
folder; a manifest that cannot be trusted counts for nothing, and every file is then the learner's.

Lessons find the learner's hive file by the environment variable HIVECALC_HIVE, which holds its
whole path and is set for every kernel that is started from here.
"""

import getpass
import hashlib
import json
import os
import re
import signal
import socket
import subprocess
import sys
import time
import webbrowser
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from typing import Final
from urllib.parse import quote

from hivecalc import __version__
from hivecalc.hive import Fault, HiveFaults, demo_hive, hive_text, write_whole

FOLDERS: Final = ("workbook", "exercises", "solutions")
HIVE_FILE: Final = "my-hive.toml"
MANIFEST: Final = ".hivecalc-course.json"
SCHEMA: Final = "hivecalc-course/1"
OVERRIDES: Final = Path(".hivecalc", "jupyter", "labconfig", "default_setting_overrides.json")
"""Where in the course folder JupyterLab finds SETTINGS."""

HIVE_VARIABLE: Final = "HIVECALC_HIVE"
FOLDER_VARIABLE: Final = "HIVECALC_COURSE"
MOST_BYTES: Final = 5_000_000
"""A manifest that is bigger than this was not written here."""

EXTENSIONS: Final = Path(__file__).parent / "lab" / "labextensions"
"""Where JupyterLab finds the extension that runs a lesson when it is opened."""

FEW: Final = 5  # files that are told by name
PAUSE: Final = 0.1  # seconds between two looks whether JupyterLab answers
_DIGEST: Final = re.compile("[0-9a-f]{64}")

SETTINGS: Final = {
    "@jupyterlab/apputils-extension:notification": {
        "fetchNews": "false",
        "checkForUpdates": False,
        "doNotDisturbMode": True,
    },
    "@jupyterlab/docmanager-extension:plugin": {"autosave": True, "autosaveInterval": 30},
    "@jupyterlab/notebook-extension:tracker": {"windowingMode": "none"},
}
"""Where JupyterLab's defaults differ for learners: no news, saved every 30 s, nothing unloaded."""

# ── the originals ─────────────────────────────────────────────────────────────────────────────


def originals() -> Path:
    """Folder that holds workbook, exercises and solutions as they came with this version.

    >>> (originals() / "workbook").is_dir()
    True

    That is hivecalc/notebooks where a wheel was installed, and the top of a clone. Raises
    HiveFaults where neither is there.
    """
    package = Path(__file__).parent
    for place in (package / "notebooks", package.parent):
        if (place / FOLDERS[0]).is_dir() and (place.name == "notebooks" or _is_clone(place)):
            return place
    raise _no_lessons(package)


def _is_clone(place: Path) -> bool:
    return (place / "pyproject.toml").is_file()


def _no_lessons(place: Path) -> HiveFaults:
    found = "the lessons are missing from this installation"
    return HiveFaults([Fault(str(place), found, "install hivecalc again")])


def _files(root: Path) -> Iterator[tuple[str, Path]]:
    """Yield every original with its name in the course folder; scratch files are left out."""
    for folder in FOLDERS:
        for path in sorted((root / folder).rglob("*")):
            name = path.relative_to(root)
            if path.is_file() and not any(_is_scratch(part) for part in name.parts):
                yield name.as_posix(), path


def _is_scratch(part: str) -> bool:
    return part.startswith(".") or part == "__pycache__"


def _lessons(names: Iterable[str]) -> list[str]:
    return sorted(n for n in names if n.startswith(f"{FOLDERS[0]}/") and n.endswith(".ipynb"))


# ── the folder ────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Course:
    """A course folder: where it is, its first lesson, and what was done to make it ready.

    fresh are the files that were not there before, renewed those that took a newer original, and
    beside the pairs of a file that is the learner's and the newer original laid beside it.
    """

    folder: Path
    lesson: str
    fresh: list[str] = field(default_factory=list)
    renewed: list[str] = field(default_factory=list)
    beside: list[tuple[str, str]] = field(default_factory=list)

    @property
    def hive(self) -> Path:
        """Where the learner's hive file is."""
        return self.folder / HIVE_FILE


def usual_folder(environment: Mapping[str, str] = os.environ) -> Path:
    """Where the course folder is, unless told otherwise.

    >>> usual_folder({"HIVECALC_COURSE": "course"}).as_posix()
    'course'
    >>> usual_folder({}).name
    'hivecalc-course'
    """
    return Path(environment.get(FOLDER_VARIABLE) or Path("~", "hivecalc-course"))


def prepare(folder: Path, hive_file: Path | None = None, source: Path | None = None) -> Course:
    """Make a course folder or bring it up to date, and say what was done.

    >>> from tempfile import TemporaryDirectory
    >>> with TemporaryDirectory() as home:
    ...     course = prepare(Path(home, "course"))
    >>> course.lesson, course.hive.name
    ('workbook/00-your-hive-and-your-tape.ipynb', 'my-hive.toml')

    Each file is written whole or not at all, so a folder that was left half made is completed the
    next time. A hive file that is already there stays. Raises HiveFaults.
    """
    root = source or originals()
    files = dict(_files(root))
    if not _lessons(files):
        raise _no_lessons(root)
    try:
        course = Course(_own_place(folder, root), _lessons(files)[0])
        _write_copies(course, files)
        _write_hive(course, hive_file)
        _write_json(course.folder / OVERRIDES, SETTINGS)
    except (OSError, RuntimeError) as error:  # RuntimeError: links in a circle, no home folder
        raise _fault(folder, error) from None
    return course


def report(course: Course, hive_file: Path | None = None) -> list[str]:
    """Lines that say where the course folder is and what was done to it.

    >>> report(Course(Path("course"), "", renewed=["workbook/00-start.ipynb"]))
    ['Your course folder: course', 'Newer now, as you had not changed it: workbook/00-start.ipynb']
    """
    lines = [f"Your course folder: {course.folder}"]
    if course.fresh:
        some = ", ".join(course.fresh[:FEW]) + (" and more" if len(course.fresh) > FEW else "")
        lines.append(f"New in it, {len(course.fresh)} in all: {some}")
    lines += [f"Newer now, as you had not changed it: {name}" for name in course.renewed]
    lines += [f"You changed {n}: it stays, and the newer one is {o}" for n, o in course.beside]
    if hive_file and hive_file.read_bytes() != course.hive.read_bytes():
        lines.append(f"{HIVE_FILE} is there already and stays; {hive_file} was not copied")
    return lines


def _own_place(folder: Path, root: Path) -> Path:
    """Return the whole path of a course folder, which may not be where the originals are."""
    place, clean = folder.expanduser().resolve(), root.resolve()
    if place == clean or any(place.is_relative_to(clean / name) for name in FOLDERS):
        found = "the originals of the lessons are here, and they must stay clean"
        raise HiveFaults([Fault(str(folder), found, "choose another folder")])
    return place


def _write_hive(course: Course, hive_file: Path | None) -> None:
    if not course.hive.exists():
        data = hive_file.read_bytes() if hive_file else hive_text(demo_hive()).encode()
        _write(course.hive, data)
        course.fresh.append(HIVE_FILE)


def _write_copies(course: Course, files: Mapping[str, Path]) -> None:
    given = manifest(course.folder)
    for name, original in files.items():
        newest = original.read_bytes()
        _write_copy(course, name, newest, given.get(name))
        given[name] = _digest(newest)
    document = {"schema": SCHEMA, "version": __version__, "files": given}
    _write_json(course.folder / MANIFEST, document)


def _write_copy(course: Course, name: str, newest: bytes, given: str | None) -> None:
    """Bring one file up to date; `given` is the original that this folder was given last."""
    target = course.folder / name
    if not target.exists():
        _write(target, newest)
        course.fresh.append(name)
        return
    held, new = _digest(target.read_bytes()), _digest(newest)
    if new in {held, given}:
        return
    if held == given:
        _write(target, newest)
        course.renewed.append(name)
    else:
        course.beside.append((name, _laid_beside(course.folder, name, newest)))


def _laid_beside(folder: Path, name: str, newest: bytes) -> str:
    """Write a newer original beside a learner's file, under the name that comes back."""
    for other in _names_beside(name):
        target = folder / other
        if not target.exists():
            _write(target, newest)
            return other
        if target.read_bytes() == newest:
            return other
    raise AssertionError("the names beside a file never end")


def _names_beside(name: str) -> Iterator[str]:
    """Yield names for a newer original beside a learner's file, the plainest first."""
    stem, dot, ending = name.rpartition(".")
    yield f"{stem} (newer {__version__}){dot}{ending}"
    for number in count(2):
        yield f"{stem} (newer {__version__}, {number}){dot}{ending}"


def manifest(folder: Path) -> dict[str, str]:
    """SHA-256 of each original that a course folder was given last; empty if it can't be trusted.

    >>> manifest(Path("no such folder"))
    {}
    """
    try:
        with (folder / MANIFEST).open("rb") as file:
            document = json.loads(file.read(MOST_BYTES))
        files = document["files"] if document["schema"] == SCHEMA else {}
        return dict(files) if all(_DIGEST.fullmatch(files[name]) for name in files) else {}
    except (OSError, ValueError, LookupError, TypeError, RecursionError):
        return {}


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _write(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(path, data)


def _write_json(path: Path, document: object) -> None:
    """Write a JSON file of ours, unless it says the same already."""
    data = f"{json.dumps(document, indent=1)}\n".encode()
    if not path.exists() or path.read_bytes() != data:
        _write(path, data)


def _fault(folder: Path, error: OSError | RuntimeError) -> HiveFaults:
    named = isinstance(error, OSError) and error.filename
    found = (isinstance(error, OSError) and error.strerror) or str(error)
    accepted = "give another course folder with --folder PATH"
    return HiveFaults([Fault(str(named or folder), found.rstrip(".").lower(), accepted)])


# ── JupyterLab ────────────────────────────────────────────────────────────────────────────────


def lab_command(course: Course, *, browser: bool) -> list[str]:
    """Command that runs JupyterLab on a course folder and opens the first lesson.

    >>> lab_command(Course(Path("course"), "workbook/00-start.ipynb"), browser=True)[-1]
    '--LabApp.default_url=/lab/tree/workbook/00-start.ipynb'
    """
    return [
        *(sys.executable, "-m", "jupyterlab"),
        "-y",  # Ctrl-C stops it without a question
        "--log-level=WARN",
        *([] if browser else ["--no-browser"]),
        *(["--allow-root"] if _is_root() else []),
        f"--ServerApp.root_dir={course.folder}",
        f"--LabApp.extra_labextensions_path={EXTENSIONS}",
        f"--LabApp.default_url=/lab/tree/{quote(course.lesson)}",
    ]


def _is_root() -> bool:
    return sys.platform != "win32" and os.geteuid() == 0


def lab_environment(course: Course, environment: Mapping[str, str] = os.environ) -> dict[str, str]:
    """Environment of JupyterLab and its kernels: this one, the course's settings, the hive file.

    >>> lab_environment(Course(Path("course"), ""), {"LANG": "C"})["HIVECALC_HIVE"]
    'course/my-hive.toml'

    The learner's own settings of JupyterLab outrank those of the course.
    """
    settings = [str((course.folder / OVERRIDES).parent.parent)]
    before = environment.get("JUPYTER_CONFIG_PATH")
    return {
        **environment,
        "JUPYTER_CONFIG_PATH": os.pathsep.join([*settings, before] if before else settings),
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


@dataclass(frozen=True)
class Address:
    """Where a running JupyterLab answers: its port, and the first lesson's address with the key."""

    port: int
    url: str

    def told(self, *, browser: bool) -> str:
        """Say where the lesson is and, where no browser opens, how to reach it from elsewhere."""
        lines = [f"The first lesson: {self.url}", "Ctrl-C stops it."]
        if not browser:
            way = f"ssh -N -L {self.port}:localhost:{self.port} {_user()}@{socket.gethostname()}"
            lines.insert(1, f"From another computer, run there first: {way}")
        return "\n".join(lines)


def _user() -> str:
    try:
        return getpass.getuser()
    except (OSError, KeyError):
        return "you"


def run_lab(course: Course, tell: Callable[[Address], None], *, browser: bool) -> int:
    """Run JupyterLab on a course folder until it is stopped; its exit status comes back.

    `tell` gets the address as soon as JupyterLab answers there. Ctrl-C, or a request to end this
    process, ends JupyterLab and with it the kernels.
    """
    started, command = time.time(), lab_command(course, browser=browser)
    environment = lab_environment(course)
    # In a session of its own, so that Ctrl-C reaches it once, from here.
    lab = subprocess.Popen(command, env=environment, start_new_session=True)  # noqa: S603
    with lab, _ending(lab):
        while lab.poll() is None:
            if address := _address(course, started):
                tell(address)
                break
            time.sleep(PAUSE)
        return lab.wait()


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


def _address(course: Course, started: float) -> Address | None:
    """Return the address of the server that runs on this folder since then, once there is one."""
    from jupyter_core.paths import jupyter_runtime_dir  # noqa: PLC0415 - only `open` needs it

    for path in Path(jupyter_runtime_dir()).glob("jpserver-*.json"):
        with suppress(OSError, ValueError, LookupError):
            server = json.loads(path.read_bytes())
            if server["root_dir"] == str(course.folder) and path.stat().st_mtime >= started:
                key = f"?token={server['token']}" if server["token"] else ""
                url = f"{server['url']}lab/tree/{quote(course.lesson)}{key}"
                return Address(int(server["port"]), url)
    return None
