"""Which lessons a learner worked in, and in which one last: a small file for each, by its name.

`.hivecalc/places/workbook/02-….ipynb.json` says {"cell": "…"}: the cell that was in view. The page
writes and reads that. Here only its name and its age count, and only where the lesson of that name
is in the course folder. So no such file can lead elsewhere, a damaged one costs the place in its
lesson and no more, and two windows never meet in one.
"""

from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Final

from hivecalc.course_folder.lessons import FOLDERS, RENAMED

PLACES: Final = Path(".hivecalc", "places")
"""Where in the course folder these files are."""


def worked_in(folder: Path) -> list[str]:
    """The names of the lessons that were worked in, the last one first.

    >>> worked_in(Path("no such folder"))
    []
    """
    return [lesson for _, lesson in sorted(_noted(folder), reverse=True)]


def _noted(folder: Path) -> Iterator[tuple[int, str]]:
    """Yield when each lesson was worked in, and its name."""
    for room in FOLDERS:
        for path in (folder / PLACES / room).glob("*.ipynb.json"):
            lesson = f"{room}/{path.name.removesuffix('.json')}"
            with suppress(OSError):
                if _is_inside(folder, lesson):
                    yield path.stat().st_mtime_ns, lesson


def _is_inside(folder: Path, lesson: str) -> bool:
    """Whether there is such a lesson in the course folder itself, and not where a link leads."""
    path = folder / lesson
    return path.is_file() and path.resolve().is_relative_to(folder.resolve())


def follow_renamed(folder: Path) -> None:
    """Keep the place in a lesson that has another name now, unless one is noted there since."""
    for old, new in RENAMED.items():
        was, now = (folder / PLACES / f"{name}.json" for name in (old, new))
        with suppress(OSError):
            if not now.exists() or now.stat().st_mtime_ns < was.stat().st_mtime_ns:
                was.replace(now)


def make_room(folder: Path) -> None:
    """Make the folders that the page writes into; where that can't be, all but this works."""
    with suppress(OSError):
        for name in FOLDERS:
            (folder / PLACES / name).mkdir(parents=True, exist_ok=True)
