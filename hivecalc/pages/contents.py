"""The table of contents: each lesson, what it is for, how far the learner is, and the way on.

What is said of a lesson stands in its own notebook: its number, title, minutes and aim in the first
cell, its questions in the cells that ask. There is no second list.
"""

import ast
import json
import re
from base64 import b64encode
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from html import escape
from pathlib import Path
from typing import Any, Final
from urllib.parse import quote

from hivecalc.answers import Answers
from hivecalc.course_folder import FOLDERS, originals, worked_in
from hivecalc.exercise import EXERCISES
from hivecalc.hive import Hive
from hivecalc.pages.earlier import right_by_now
from hivecalc.support.faults import sentence

ASKING: Final = frozenset({"ask", "derive", "sums"})
"""The methods of the bench that ask: each argument is a question, by the key of its answers."""
GLOSSARY: Final = "workbook/glossary.md"
LINK: Final = "color:var(--jp-content-link-color,#0b3d91);text-decoration:underline"
"""How a link looks: as in a lesson, and underlined, since its colour alone says little."""
_TITLE: Final = re.compile(r"^# (\d+ · .+)$", re.MULTILINE)
_MINUTES: Final = re.compile(r"^\*\*Time:\*\* (?:about )?(\d+) minutes\.", re.MULTILINE)
_HEADING: Final = re.compile(r"## (\S+) ·")
_AIM: Final = re.compile(r"^\*\*What you will be able to do:\*\* (.+)$", re.MULTILINE)


@dataclass(frozen=True)
class Lesson:
    """What a lesson's notebook says of itself. asks are the keys that its answers are kept under.

    name is that of its file in the course folder. exercises are the ids of those that belong to it.
    """

    name: str
    title: str
    minutes: str
    aim: str
    asks: tuple[str, ...]
    exercises: tuple[str, ...]

    @property
    def number(self) -> str:
        """Its number, such as "02"."""
        return self.title.partition(" ")[0]

    def page_in(self, folder: str) -> str:
        """The name of its notebook in another folder of the course, such as "exercises"."""
        return f"{folder}/{self.name.partition('/')[2]}"


def lessons() -> list[Lesson]:
    """Every lesson, in order, as its own notebook tells of it.

    >>> frame = lessons()[2]
    >>> frame.title, frame.minutes, frame.asks[0]
    ('02 · The frame of the bottom board', '50', 'bottom_board.side_rail_length')
    """
    return [lesson_in(path) for path in sorted((originals() / "workbook").glob("*.ipynb"))]


@cache
def lesson_in(path: Path) -> Lesson:
    """The lesson in this notebook.

    What the notebook does not say is left empty.
    """
    cells = json.loads(path.read_bytes())["cells"]
    first = _text(cells[0])
    title, minutes, aim = (_found(sought, first) for sought in (_TITLE, _MINUTES, _AIM))
    aim = sentence(aim)
    own = tuple(e.id for e in EXERCISES.values() if e.lesson == path.name[:2])
    return Lesson(f"workbook/{path.name}", title, minutes, aim, tuple(_asked(cells)), own)


def _text(cell: Mapping[str, Any]) -> str:
    return "".join(cell["source"])


def _found(sought: re.Pattern[str], text: str) -> str:
    found = sought.search(text)
    return found[1] if found else ""


def _asked(cells: Sequence[Mapping[str, Any]]) -> Iterator[str]:
    """Yield what the cells of code ask, as the text of each argument of a call that asks."""
    for cell in cells:
        if cell["cell_type"] == "code":
            for node in ast.walk(ast.parse(_text(cell))):
                match node:
                    case ast.Call(func=ast.Attribute(attr=name), args=given) if name in ASKING:
                        yield from (ast.literal_eval(each) for each in given)


# ── how far ───────────────────────────────────────────────────────────────────────────────────


def how_far(asked: Sequence[str], right: Mapping[str, bool], *, worked_in: bool) -> str:
    """How far a learner is, in words: `right` has each question that was answered.

    >>> how_far(["02-01", "02-02"], {}, worked_in=False)
    'not begun'
    >>> how_far(["02-01", "02-02"], {}, worked_in=True)
    'begun, 0 of 2 questions right'

    A lesson that asks nothing is only begun or not.
    """
    answered = [right[key] for key in asked if key in right]
    if not (worked_in or answered):
        return "not begun"
    state = "all answered" if asked and len(answered) == len(asked) else "begun"
    return f"{state}, {sum(answered)} of {len(asked)} questions right" if asked else state


@dataclass(frozen=True)
class _Now:
    """How things stand: which questions are answered rightly, the notebooks worked in, this one."""

    right: Mapping[str, bool]
    worked_in: frozenset[str]
    here: str

    def item(self, lesson: Lesson) -> str:
        """One lesson in the list: its picture, title, minutes, how far it is, its exercises."""
        told = f"{lesson.minutes} minutes · {self._how_far(lesson.name, lesson.asks)}"
        title = link(lesson.name, lesson.title)
        far = f"{escape(told)}{self._bar([*lesson.asks, *lesson.exercises], lesson.number)}"
        below = f"{far}<br>{escape(lesson.aim)}{self._exercises(lesson)}"
        return f'<li style="{_ITEM}">{_thumbnail(lesson)}<div><b>{title}</b><br>{below}</div></li>'

    def _exercises(self, lesson: Lesson) -> str:
        if not lesson.exercises:
            return ""
        name = lesson.page_in("exercises")
        far = self._how_far(name, lesson.exercises)
        return f"<br>{link(name, f'Exercises of lesson {lesson.number}')} · {escape(far)}"

    def _how_far(self, name: str, asked: Sequence[str]) -> str:
        far = how_far(asked, self.right, worked_in=name in self.worked_in)
        return f"{far} · you are here" if name == self.here else far

    def _bar(self, asked: Sequence[str], number: str) -> str:
        done = sum(self.right.get(key, False) for key in asked)
        name = f"Lesson {number} and its exercises, done"
        return f' <progress max="{len(asked) or 1}" value="{done}" aria-label="{name}"></progress>'


_ITEM: Final = "display:flex;gap:1em;margin:.9em 0"
_THUMBNAIL: Final = "flex:0 0 6em;width:6em;height:5em;object-fit:contain;object-position:top"


@cache
def _thumbnail(lesson: Lesson) -> str:
    """Return a lesson's own picture, small; what it shows is told in the lesson itself."""
    picture = originals() / "workbook" / "pictures" / f"{Path(lesson.name).stem}.svg"
    if not picture.is_file():
        return ""
    held = b64encode(picture.read_bytes()).decode()
    return f'<img alt="" src="data:image/svg+xml;base64,{held}" style="{_THUMBNAIL}">'


def contents(answers: Answers, hive: Hive, folder: Path, here: str = "") -> str:
    """The table of contents as things stand now, as HTML.

    folder is the course folder, and here the name of the notebook that the learner looks at.
    """
    right = right_by_now(answers.all(), hive)
    now = _Now(right, frozenset(worked_in(folder)), here)
    items = "".join(map(now.item, lessons()))
    words = f"<p>What each word means: {link(GLOSSARY, 'the glossary')}.</p>"
    listed = f'<ul style="list-style:none;margin:0;padding:0">{items}</ul>'
    return f'<nav class="hc hc-contents" aria-label="Contents">{listed}{words}</nav>'


# ── what practises what ───────────────────────────────────────────────────────────────────────


def practice(number: str, right: Mapping[str, bool]) -> str:
    """What stands at the end of a lesson: its exercises, how many are done, and the next one."""
    own = [name for name, record in EXERCISES.items() if record.lesson == number]
    if not own:
        return ""
    done, left = (sum(right.get(n, False) for n in own), [n for n in own if not right.get(n)])
    page = exercises_page(number)
    many = f"{len(own)} exercise{'s' if len(own) > 1 else ''}"
    onward = f" Go on with {_to_exercise(left[0], right)}." if left else " All are done."
    return f'<p class="hc"><b>Practise</b>: {link(page, many)}, {done} done.{onward}</p>'


def practice_of(dimensions: Collection[str], right: Mapping[str, bool]) -> str:
    """The exercises that practise these dimensions, each with what is done; empty without any."""
    own = [name for name, record in EXERCISES.items() if {*record.dimensions} & {*dimensions}]
    if not own:
        return ""
    listed = ", ".join(_to_exercise(name, right) for name in own)
    return f'<p class="hc">Practise this: {listed}.</p>'


def exercises_page(number: str) -> str:
    """The name of the notebook with a lesson's exercises; empty where it has none."""
    names = [lesson.page_in("exercises") for lesson in lessons() if lesson.number == number]
    return names[0] if names else ""


def _to_exercise(name: str, right: Mapping[str, bool]) -> str:
    """A link to one exercise, and whether it is done."""
    page = exercises_page(EXERCISES[name].lesson)
    place = f'data-cell="{_places(page).get(name, "")}"'
    sign = "" if name not in right else " ✓" if right[name] else " (not right yet)"
    return link(page, f"exercise {name}", place) + sign


@cache
def _places(page: str) -> Mapping[str, str]:
    """The cell that each exercise of a notebook begins with, by the exercise's name."""
    try:
        cells = json.loads((originals() / page).read_bytes())["cells"]
    except OSError:
        return {}
    found = ((_HEADING.match(_text(cell)), cell["id"]) for cell in cells)
    return {heading[1]: place for heading, place in found if heading}


# ── the way on ────────────────────────────────────────────────────────────────────────────────


def way_on(folder: Path, here: str = "", right: Mapping[str, bool] | None = None) -> str:
    """A link to where the learner left off, where that lies ahead and is not done."""
    last = next(iter(worked_in(folder)), here)
    if last == here or (here and _order(last) <= _order(here)) or _is_done(last, right or {}):
        return ""
    on = link(last, _called(last), 'data-place="where you left off"')
    return f'<p class="hc">Go on with {on}, where you left off.</p>'


def _order(name: str) -> tuple[str, int]:
    """Where a notebook stands on the way: by its lesson, exercises after it, then solutions."""
    folder, _, file = name.partition("/")
    return file[:2], FOLDERS.index(folder) if folder in FOLDERS else 0


def _is_done(name: str, right: Mapping[str, bool]) -> bool:
    """Whether all that a notebook asks is answered, and rightly."""
    for lesson in lessons():
        asked = {lesson.name: lesson.asks, lesson.page_in("exercises"): lesson.exercises}
        if name in asked:
            return bool(asked[name]) and all(right.get(key) for key in asked[name])
    return False


def _called(name: str) -> str:
    """What a notebook of the course is called in a sentence; its own name for any other."""
    of = {"workbook": "lesson", "exercises": "the exercises of", "solutions": "the solutions of"}
    known = {
        each.page_in(f): f"{words} {each.title}" for each in lessons() for f, words in of.items()
    }
    return known.get(name, name)


def link(name: str, words: str, more: str = "") -> str:
    """A link from any notebook of the course to a page of the course folder.

    The course's part of JupyterLab opens data-page beside the other pages; the plain address is for
    where that part is missing. `more` is HTML that goes into the link.
    """
    address, page = escape(quote(f"../{name}")), escape(name)
    return f'<a href="{address}" data-page="{page}" {more} style="{LINK}">{escape(words)}</a>'
