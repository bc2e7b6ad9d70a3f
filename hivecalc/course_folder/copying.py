"""The course folder: what is copied into it, and what is never overwritten.

The originals stay clean. A newer one takes the place of a copy only while the learner has not
changed that copy; otherwise it is laid beside it. Running a notebook changes nothing.
"""

import os
import time
from collections import Counter
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from itertools import chain, count
from pathlib import Path
from typing import Final

from hivecalc import __version__
from hivecalc.components import changed_since_first_edition, opened_hive
from hivecalc.course_folder import (
    FOLDERS,
    HIVE_FILE,
    NOTHING,
    PLACES,
    RENAMED,
    Prints,
    course_files,
    first_lesson,
    follow_renamed,
    make_room_for_places,
    manifest,
    no_lessons,
    originals,
    prints,
    worked_in,
    write_manifest,
)
from hivecalc.hive import Fault, HiveFaults, demo_hive, hive_from_file, hive_text, write_whole
from hivecalc.support.files import PART, reason
from hivecalc.workshop.yard import YARD_FILE, yard_text

FEW: Final = 5  # files that are named
OLD: Final = 24 * 60 * 60  # seconds after which nobody writes a file any more


@dataclass(frozen=True)
class Course:
    """A course folder: where it is, its first lesson, and what was done to make it ready.

    fresh are the files that were not there before, renewed those that took a newer original, and
    beside the pairs of a file that is the learner's and the newer original laid beside it. left_off
    is the lesson that was worked in last, None before there is one. news is what is new for the
    learner's hive file where the folder was of the course's first edition.
    """

    folder: Path
    lesson: str
    fresh: list[str] = field(default_factory=list)
    renewed: list[str] = field(default_factory=list)
    beside: list[tuple[str, str]] = field(default_factory=list)
    left_off: str | None = None
    news: list[str] = field(default_factory=list)

    @property
    def hive(self) -> Path:
        """Where the learner's hive file is."""
        return self.folder / HIVE_FILE

    @property
    def opens(self) -> str:
        """The lesson that JupyterLab opens: the one worked in last, else the first."""
        return self.left_off or self.lesson


ELSEWHERE: Final = "give another course folder with --folder PATH"


def usual_folder(environment: Mapping[str, str] = os.environ) -> Path:
    """Where the course folder is, unless told otherwise.

    >>> usual_folder({"HIVECALC_COURSE": "course"}).as_posix()
    'course'
    >>> usual_folder({}).name
    'hivecalc-course'
    """
    return Path(environment.get("HIVECALC_COURSE") or Path("~", "hivecalc-course"))


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
    files = course_files(root)
    if not (lesson := first_lesson(files)):
        raise no_lessons(root)
    try:
        place = _own_place(folder, root)
        follow_renamed(place)
        course = Course(place, lesson)
        _write_all(course, files, hive_file)
    except (OSError, RuntimeError) as error:  # RuntimeError: links in a circle, no home folder
        named, found = folder, str(error).rstrip(".")
        if isinstance(error, OSError):
            named, found = error.filename or folder, reason(error)
        fault = Fault(str(named), found[:1].lower() + found[1:], ELSEWHERE)
        raise HiveFaults([fault]) from None
    if not os.access(place, os.W_OK):
        found = "nothing that you do could be kept there, as it can only be read"
        raise HiveFaults([Fault(str(place), found, ELSEWHERE)])
    return replace(course, left_off=next(iter(worked_in(place)), None))


def report(course: Course, hive_file: Path | None = None) -> list[str]:
    """Lines that say where the course folder is and what was done to it.

    >>> report(Course(Path("course"), "", renewed=["workbook/00-start.ipynb"]))
    ['Your course folder: course', 'Newer now, as you had not changed it: workbook/00-start.ipynb']
    """
    lines = [f"Your course folder: {course.folder}"]
    if course.fresh:
        lines.append(f"New in it: {_some(course.fresh)}")
    lines += [f"Newer now, as you had not changed it: {name}" for name in course.renewed]
    lines += [f"You changed {n}: it stays, and the newer one is {o}" for n, o in course.beside]
    if course.news:
        lines.append(f"New in the second edition of the course, for {HIVE_FILE}:")
        lines += [f"  {sentence}" for sentence in course.news]
    if hive_file and hive_file.read_bytes() != course.hive.read_bytes():
        lines.append(f"{HIVE_FILE} is there already and stays; {hive_file} was not copied")
    return lines


def _some(names: Sequence[str]) -> str:
    """Return files by name, many files by how many there are in each folder."""
    if len(names) <= FEW:
        return ", ".join(names)
    inside = Counter(name.partition("/")[0] for name in names if "/" in name)
    folders = [f"{many} in {folder}" for folder, many in inside.items()]
    return ", ".join([*folders, *(name for name in names if "/" not in name)])


def _own_place(folder: Path, root: Path) -> Path:
    """Return the whole path of a course folder, which may not be where the originals are."""
    place, clean = folder.expanduser().resolve(), root.resolve()
    if place == clean or any(place.is_relative_to(clean / name) for name in FOLDERS):
        found = "the originals of the lessons are here, and they must stay clean"
        raise HiveFaults([Fault(str(folder), found, "choose another folder")])
    return place


def _write_all(course: Course, files: Mapping[str, Path], hive_file: Path | None) -> None:
    _sweep(course.folder)
    given, edition = manifest(course.folder)
    if edition == 1:
        with suppress(HiveFaults):  # a hive file with faults is reported elsewhere
            course.news.extend(changed_since_first_edition(opened_hive(course.hive)))
    if not course.hive.exists():
        write(course.hive, hive_file.read_bytes() if hive_file else hive_text(demo_hive()).encode())
        course.fresh.append(HIVE_FILE)
    hive = demo_hive()
    with suppress(HiveFaults):  # as above
        hive = hive_from_file(course.hive)
    newest = {name: original.read_bytes() for name, original in files.items()}
    newest[YARD_FILE] = yard_text(hive.units).encode()
    newest.update(_under_old_names(course, newest, given))
    for name, original in newest.items():
        _write_copy(course, name, original, given.get(name, NOTHING))
        given[name] = prints(name, original)
    write_manifest(course.folder, {name: given[name] for name in newest})  # vouches for no other
    make_room_for_places(course.folder)


def _under_old_names(
    course: Course, files: Mapping[str, bytes], given: Mapping[str, Prints]
) -> dict[str, bytes]:
    """Lessons under a name of before, where it still is what was given: old links go on."""
    held = {old: course.folder / old for old, new in RENAMED.items() if new in files}
    return {
        old: files[RENAMED[old]]
        for old, copy in held.items()
        if copy.is_file() and prints(old, copy.read_bytes()).same_work(given.get(old, NOTHING))
    }


def _write_copy(course: Course, name: str, newest: bytes, given: Prints) -> None:
    """Bring one file up to date; `given` is the original that this folder was given last."""
    target = course.folder / name
    if not target.exists():
        write(target, newest)
        course.fresh.append(name)
        return
    held, new = prints(name, target.read_bytes()), prints(name, newest)
    if new.whole in {held.whole, given.whole}:
        return
    if held.same_work(given):
        write(target, newest)
        course.renewed.append(name)
    elif not (new.same_work(held) or new.same_work(given)):
        course.beside.append((name, _laid_beside(course.folder, name, newest)))


def _laid_beside(folder: Path, name: str, newest: bytes) -> str:
    """Write a newer original beside a learner's file, under the name that comes back."""
    new, (stem, dot, ending) = prints(name, newest), name.rpartition(".")
    for number in count(1):
        again = f", {number}" if number > 1 else ""
        other = f"{stem} (newer {__version__}{again}){dot}{ending}"
        target = folder / other
        if not target.exists():
            write(target, newest)
        elif not new.same_work(prints(name, target.read_bytes())):
            continue
        return other
    raise AssertionError("the names beside a file never end")


def write(path: Path, data: bytes) -> None:
    """Write a file whole or not at all, and the folders that it stands in."""
    path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(path, data)


def _sweep(folder: Path) -> None:
    """Remove what a crash left half written more than a day ago."""
    below = (folder / name for name in (*FOLDERS, PLACES.parts[0]))
    for path in chain(folder.glob(".*.part"), *(place.rglob(".*.part") for place in below)):
        with suppress(OSError):
            if PART.fullmatch(path.name) and time.time() - path.stat().st_mtime > OLD:
                path.unlink()
