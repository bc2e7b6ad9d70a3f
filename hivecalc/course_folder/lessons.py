"""The originals of the lessons: where they are, and which files belong to a course."""

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Final

from hivecalc.hive import Fault, HiveFaults

FOLDERS: Final = ("workbook", "exercises", "solutions")
PACKAGE: Final = Path(__file__).parent.parent
RENAMED: Final[Mapping[str, str]] = {
    "workbook/14-your-hive-book.ipynb": "workbook/15-your-hive-book.ipynb"
}
"""A lesson's name in a course folder of before, and its name now."""


def originals() -> Path:
    """Folder that holds workbook, exercises and solutions as they came with this version.

    >>> (originals() / "workbook").is_dir()
    True

    That is hivecalc/notebooks where a wheel was installed, and the top of a clone. Raises
    HiveFaults where neither is there.
    """
    for place in (PACKAGE / "notebooks", PACKAGE.parent):
        if (place / FOLDERS[0]).is_dir() and (place.name == "notebooks" or _is_clone(place)):
            return place
    raise no_lessons(PACKAGE)


def _is_clone(place: Path) -> bool:
    return (place / "pyproject.toml").is_file()


def no_lessons(place: Path) -> HiveFaults:
    """What is told where the originals should be and are not.

    >>> print(no_lessons(Path("place")))
    place: the lessons are missing from this installation; install hivecalc again.
    """
    found = "the lessons are missing from this installation"
    return HiveFaults([Fault(str(place), found, "install hivecalc again")])


def course_files(root: Path) -> dict[str, Path]:
    """Every original by its name in the course folder; scratch files are left out.

    >>> sorted({name.partition("/")[0] for name in course_files(originals())})
    ['exercises', 'solutions', 'workbook']
    """
    return {path.relative_to(root).as_posix(): path for path in _files(root)}


def _files(root: Path) -> Iterator[Path]:
    for folder in FOLDERS:
        for path in sorted((root / folder).rglob("*")):
            if path.is_file() and not any(map(_is_scratch, path.relative_to(root).parts)):
                yield path


def _is_scratch(part: str) -> bool:
    return part.startswith(".") or part == "__pycache__"


def first_lesson(names: Iterable[str]) -> str | None:
    """Name of the lesson that comes first; None where there is no lesson.

    >>> first_lesson(["workbook/02.ipynb", "workbook/00.ipynb", "exercises/00.ipynb"])
    'workbook/00.ipynb'
    """
    lessons = (n for n in names if n.startswith(f"{FOLDERS[0]}/") and n.endswith(".ipynb"))
    return min(lessons, default=None)
