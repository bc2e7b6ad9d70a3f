"""Where a learner works: a folder of their own with copies of the lessons, and JupyterLab on it.

Here: what belongs to it, what it was given, and where the learner stopped; `copying` makes it and
brings it up to date, `serving` shows it.
"""

import hashlib
import json
import os
import re
import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any, Final, NamedTuple

from hivecalc import __version__
from hivecalc.hive import Fault, HiveFaults, write_whole

FOLDERS: Final = ("workbook", "exercises", "solutions")
HIVE_FILE: Final = "my-hive.toml"
HIVE_VARIABLE: Final = "HIVECALC_HIVE"
"""Holds the whole path of the learner's hive file, in every kernel that is started from here."""
PACKAGE: Final = Path(__file__).parent.parent
RENAMED: Final[Mapping[str, str]] = {
    "workbook/14-your-hive-book.ipynb": "workbook/15-your-hive-book.ipynb"
}
"""A lesson's name in a course folder of before, and its name now."""

# ── the lessons ───────────────────────────────────────────────────────────────────────────────


def originals() -> Path:
    """Folder that holds workbook, exercises and solutions as they came with this version.

    That is hivecalc/notebooks where a wheel was installed, and the top of a clone. Raises
    HiveFaults where neither is there.
    """
    for place, proof in ((PACKAGE / "notebooks", "workbook"), (PACKAGE.parent, "pyproject.toml")):
        if (place / FOLDERS[0]).is_dir() and (place / proof).exists():
            return place
    raise no_lessons(PACKAGE)


def no_lessons(place: Path) -> HiveFaults:
    """What is said where the originals should be and are not."""
    found = "the lessons are missing from this installation"
    return HiveFaults([Fault(str(place), found, "install hivecalc again")])


def course_files(root: Path) -> dict[str, Path]:
    """Every original by its name in the course folder; scratch files are left out."""
    paths = (path for name in FOLDERS for path in sorted((root / name).rglob("*")))
    names = {path.relative_to(root): path for path in paths if path.is_file()}
    return {
        name.as_posix(): path
        for name, path in names.items()
        if not any(part.startswith(".") or part == "__pycache__" for part in name.parts)
    }


def first_lesson(names: Iterable[str]) -> str | None:
    """Name of the lesson that comes first; None where there is no lesson."""
    lessons = (n for n in names if n.startswith(f"{FOLDERS[0]}/") and n.endswith(".ipynb"))
    return min(lessons, default=None)


# ── what a folder was given ───────────────────────────────────────────────────────────────────
# A learner changes a notebook by adding, removing, moving or editing cells. Outputs, counts and
# metadata are written whenever a notebook is run and saved, so they do not count.

MANIFEST: Final = ".hivecalc-course.json"
SCHEMA: Final = "hivecalc-course/2"
FIRST_SCHEMA: Final = "hivecalc-course/1"
"""In this older manifest each file has one digest, that of its bytes."""

EDITION: Final = 2
"""Edition of the course that is given now; a manifest that says none is the first edition's."""

MOST_BYTES: Final = 5_000_000
"""A manifest that is bigger than this was not written here."""

_DIGEST: Final = re.compile("[0-9a-f]{64}")


class Prints(NamedTuple):
    """SHA-256 of a file: of the whole, and of the part of it that a learner works on."""

    whole: str
    work: str

    def same_work(self, other: "Prints") -> bool:
        """Whether a learner has changed nothing from one to the other."""
        return self.whole == other.whole or self.work == other.work


NOTHING: Final = Prints("", "")
"""Prints that no file has."""


def prints(name: str, data: bytes) -> Prints:
    """Prints of a file: in a notebook, the work is the type and source of each cell.

    >>> before = prints("00.ipynb", b'{"cells": [{"cell_type": "code", "source": ["1 + ", "1"]}]}')
    >>> after = prints("00.ipynb", b'{"cells": [{"cell_type": "code", "source": "1 + 1"}]}')
    >>> before.same_work(after), before.whole == after.whole
    (True, False)

    Of any other file, and of one that cannot be read as a notebook, the work is the whole. The
    course's part of JupyterLab makes the same digest, and runs by itself only what was given.
    """
    whole = hashlib.sha256(data).hexdigest()
    if name.endswith(".ipynb"):
        with suppress(ValueError, LookupError, TypeError, RecursionError):
            cells = [(c["cell_type"], "".join(c["source"])) for c in json.loads(data)["cells"]]
            return Prints(whole, hashlib.sha256(json.dumps(cells).encode()).hexdigest())
    return Prints(whole, whole)


def manifest(folder: Path) -> tuple[dict[str, Prints], int | None]:
    """Prints of each original that a folder was given last, and the edition of the course.

    A manifest that cannot be trusted counts for nothing, and every file is then the learner's.
    """
    try:
        with (folder / MANIFEST).open("rb") as file:
            document = json.loads(file.read(MOST_BYTES))
        read: dict[str, Callable[[Any], Prints]] = {
            SCHEMA: lambda entry: Prints(**entry),
            FIRST_SCHEMA: lambda whole: Prints(whole, whole),  # only the same bytes match it
        }
        files = {n: read[document["schema"]](entry) for n, entry in document["files"].items()}
        if all(_DIGEST.fullmatch(digest) for found in files.values() for digest in found):
            return files, int(document.get("edition", 1))
    except (OSError, ValueError, LookupError, TypeError, AttributeError, RecursionError):
        pass
    return {}, None


def write_manifest(folder: Path, given: Mapping[str, Prints]) -> None:
    """Write down what a course folder was given, unless that stands there already."""
    files = {name: found._asdict() for name, found in given.items()}
    document = {"schema": SCHEMA, "version": __version__, "edition": EDITION, "files": files}
    data, path = f"{json.dumps(document, indent=1)}\n".encode(), folder / MANIFEST
    if not path.exists() or path.read_bytes() != data:
        write_whole(path, data)


# ── where the learner stopped ─────────────────────────────────────────────────────────────────
# `.hivecalc/places/workbook/02-….ipynb.json` says {"cell": "…"}: the cell that was in view. The
# page writes and reads that. Here only its name and its age count, and only where the lesson of
# that name is in the course folder. So no such file can lead elsewhere, a damaged one costs the
# place in its lesson and no more, and two windows never meet in one.

PLACES: Final = Path(".hivecalc", "places")
"""Where in the course folder these files are."""


def worked_in(folder: Path) -> list[str]:
    """The names of the lessons that were worked in, the last one first."""
    noted = list[tuple[int, str]]()
    for note in _notes(folder):
        name = f"{note.parent.name}/{note.name.removesuffix('.json')}"
        lesson = folder / name
        with suppress(OSError):  # a lesson in the folder itself, not where a link leads
            if lesson.is_file() and lesson.resolve().is_relative_to(folder.resolve()):
                noted.append((note.stat().st_mtime_ns, name))
    return [name for _, name in sorted(noted, reverse=True)]


def _notes(folder: Path) -> Iterator[Path]:
    for name in FOLDERS:
        yield from (folder / PLACES / name).glob("*.ipynb.json")


def follow_renamed(folder: Path) -> None:
    """Keep the place in a lesson that has another name now, unless one is noted there since."""
    for old, new in RENAMED.items():
        was, now = (folder / PLACES / f"{name}.json" for name in (old, new))
        with suppress(OSError):
            if not now.exists() or now.stat().st_mtime_ns < was.stat().st_mtime_ns:
                was.replace(now)


def make_room_for_places(folder: Path) -> None:
    """Make the folders that the page writes into; where that can't be, all but this works.

    A note from a clock that ran fast counts as written now, so that what is noted next comes later.
    """
    for name in FOLDERS:
        with suppress(OSError):
            (folder / PLACES / name).mkdir(parents=True, exist_ok=True)
    now = time.time()
    for path in _notes(folder):
        with suppress(OSError):
            if path.stat().st_mtime > now:
                os.utime(path, (now, now))
