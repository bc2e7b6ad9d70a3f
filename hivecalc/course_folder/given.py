"""What a course folder was given, and whether a file in it is still that.

A learner changes a notebook by adding, removing, moving or editing cells. Outputs, counts and
metadata are written whenever a notebook is run and saved, so they do not count.
"""

import hashlib
import json
import re
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, Final, NamedTuple

from hivecalc import __version__
from hivecalc.course_folder.writing import write_json

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

    Of any other file, and of one that cannot be read as a notebook, the work is the whole.
    """
    whole = _digest(data)
    try:
        return Prints(whole, _digest(_cells(data)) if name.endswith(".ipynb") else whole)
    except (ValueError, LookupError, TypeError, RecursionError):
        return Prints(whole, whole)


def _cells(notebook: bytes) -> bytes:
    """Return type and source of each cell; a source is a text or a list of its lines."""
    cells = json.loads(notebook)["cells"]
    return json.dumps([(cell["cell_type"], "".join(cell["source"])) for cell in cells]).encode()


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def manifest(folder: Path) -> dict[str, Prints]:
    """Prints of each original that a course folder was given last; empty if it can't be trusted.

    >>> manifest(Path("no such folder"))
    {}
    """
    return _read(folder)[0]


def edition(folder: Path) -> int | None:
    """Edition of the course that a folder was given last; None where no manifest says so.

    >>> edition(Path("no such folder")) is None
    True
    """
    return _read(folder)[1]


def _read(folder: Path) -> tuple[dict[str, Prints], int | None]:
    try:
        with (folder / MANIFEST).open("rb") as file:
            document = json.loads(file.read(MOST_BYTES))
        read = _READERS[document["schema"]]
        files = {name: read(entry) for name, entry in document["files"].items()}
        return files, int(document.get("edition", 1))
    except (OSError, ValueError, LookupError, TypeError, AttributeError, RecursionError):
        return {}, None


def _prints(entry: Mapping[str, str]) -> Prints:
    found = Prints(**entry)
    if not all(map(_DIGEST.fullmatch, found)):
        raise ValueError(entry)
    return found


def _first_prints(whole: str) -> Prints:
    """Return the prints of an original whose work is not known: only the same bytes match it."""
    return _prints({"whole": whole, "work": whole})


_READERS: Final[Mapping[str, Callable[[Any], Prints]]] = {
    SCHEMA: _prints,
    FIRST_SCHEMA: _first_prints,
}


def write_manifest(folder: Path, given: Mapping[str, Prints]) -> None:
    """Write down what a course folder was given, unless that stands there already."""
    files = {name: found._asdict() for name, found in given.items()}
    document = {"schema": SCHEMA, "version": __version__, "edition": EDITION, "files": files}
    write_json(folder / MANIFEST, document)
