"""The table of contents: each lesson, what it is for, how far the learner is, and the way on.

What is said of a lesson stands in its own notebook: its number, title, minutes and aim in the first
cell, its questions in the cells that ask. There is no second list.
"""

import ast
import json
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from html import escape
from pathlib import Path
from typing import Any, Final
from urllib.parse import quote

from hivecalc.answers import Answers
from hivecalc.course_folder import originals, worked_in
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

    >>> lesson_in(originals() / "workbook" / "05-the-roof.ipynb").number
    '05'

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
        """One lesson in the list: its title, its minutes, how far it is, its aim, its exercises."""
        told = f"{lesson.minutes} minutes · {self._how_far(lesson.name, lesson.asks)}"
        title = link(lesson.name, lesson.title)
        below = f"{escape(told)}<br>{escape(lesson.aim)}{self._exercises(lesson)}"
        return f'<li style="margin:.7em 0"><b>{title}</b><br>{below}</li>'

    def _exercises(self, lesson: Lesson) -> str:
        if not lesson.exercises:
            return ""
        name = lesson.page_in("exercises")
        far = self._how_far(name, lesson.exercises)
        return f"<br>{link(name, f'Exercises of lesson {lesson.number}')} · {escape(far)}"

    def _how_far(self, name: str, asked: Sequence[str]) -> str:
        far = how_far(asked, self.right, worked_in=name in self.worked_in)
        return f"{far} · you are here" if name == self.here else far


def contents(answers: Answers, hive: Hive, folder: Path, here: str = "") -> str:
    """The table of contents as things stand now, as HTML.

    >>> from hivecalc.hive import demo_hive
    >>> roof = "workbook/05-the-roof.ipynb"
    >>> told = contents(Answers("no such file"), demo_hive(), Path("no such folder"), roof)
    >>> told.count("70 minutes · not begun · you are here"), told.count("you are here")
    (1, 1)

    folder is the course folder, and here the name of the notebook that the learner looks at.
    """
    right = right_by_now(answers.all(), hive)
    now = _Now(right, frozenset(worked_in(folder)), here)
    items = "".join(map(now.item, lessons()))
    words = f"<p>What each word means: {link(GLOSSARY, 'the glossary')}.</p>"
    listed = f'<ul style="list-style:none;margin:0;padding:0">{items}</ul>'
    return f'<nav class="hc hc-contents" aria-label="Contents">{listed}{words}</nav>'


def way_on(folder: Path, here: str = "") -> str:
    """A link to where the learner left off, unless that is here or this comes right after it.

    >>> way_on(Path("no such folder"))
    ''
    """
    last = next(iter(worked_in(folder)), here)
    if last == here or _comes_next(last, here):
        return ""
    on = link(last, _called(last), 'data-place="where you left off"')
    return f'<p class="hc">Go on with {on}, where you left off.</p>'


def _comes_next(last: str, here: str) -> bool:
    """Whether a notebook is of the same lesson as another or of the next: one has gone on."""
    names = [each.page_in("") for each in lessons()]
    of = [f"/{name.partition('/')[2]}" for name in (last, here)]
    return all(n in names for n in of) and names.index(of[1]) - names.index(of[0]) in {0, 1}


def _called(name: str) -> str:
    """What a notebook of the course is called in a sentence; its own name for any other."""
    of = {"workbook": "lesson", "exercises": "the exercises of", "solutions": "the solutions of"}
    known = {
        each.page_in(f): f"{words} {each.title}" for each in lessons() for f, words in of.items()
    }
    return known.get(name, name)


def link(name: str, words: str, more: str = "") -> str:
    """A link from any notebook of the course to a page of the course folder.

    >>> 'href="../workbook/05.ipynb" data-page="workbook/05.ipynb"' in link("workbook/05.ipynb", "")
    True

    The course's part of JupyterLab opens data-page beside the other pages; the plain address is for
    where that part is missing. `more` is HTML that goes into the link.
    """
    address, page = escape(quote(f"../{name}")), escape(name)
    return f'<a href="{address}" data-page="{page}" {more} style="{LINK}">{escape(words)}</a>'
