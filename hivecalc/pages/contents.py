"""How far a learner is: earlier answers as they stand now, the table of contents, the way on.

What is said of a lesson stands in its own notebook: its number, title, minutes and aim in the first
cell, its questions in the cells that ask. There is no second list.
"""

import ast
import json
import re
from base64 import b64encode
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from html import escape
from pathlib import Path
from typing import Any, Final, TypeAlias, cast
from urllib.parse import quote

from hivecalc.answers import STEPS, Answer, Answers
from hivecalc.components import DIMENSIONS, values_to_find
from hivecalc.course_folder import FOLDERS, originals, worked_in
from hivecalc.derivation import title
from hivecalc.exercise import EXERCISES, Case, Exercise, Posed, posed
from hivecalc.hive import Hive
from hivecalc.judging import Verdict, verdict
from hivecalc.length import SIGN_OF, UNITS, Units, length_from_text
from hivecalc.support.faults import sentence, so_many

Texts: TypeAlias = dict[str, str]

PREDICTED, CHAIN, SUM, SHOWN, DONE = STEPS
"""What a prediction, a chain, its sum, a figure that was shown and a step done are kept under."""
FARTHEST: Final = 99
"""Steps before an answer in which an earlier one is looked for: all of them."""


# ── an answer judged ──────────────────────────────────────────────────────────────────────────


def _judged(
    judge: Callable[[Sequence[Answer]], Verdict], key: str, text: str, answers: Sequence[Answer]
) -> Verdict:
    """The verdict now; where it once was right for an answer that was changed since, saying so."""
    now = judge(answers)
    last = next((i for i, a in reversed(list(enumerate(answers))) if a.asked == key), None)
    if now.right or last is None:
        return now
    was_carried = (answers[last].answer, answers[last].verdict) == (text, "right_carried")
    rested_on = judge(answers[:last]).carried_from if was_carried else None
    if rested_on is None:
        return now
    name = title(rested_on)
    words = (
        f"This was right for your old {name}. You have changed that {name} since, so work this one "
        "out again from the new one."
    )
    return replace(now, verdict="unexplained", message=words, question="", slips=(), tells_apart="")


def judged_of_hive(hive: Hive, dimension: str, text: str, answers: Sequence[Answer]) -> Verdict:
    """The verdict on an answer for a dimension of a hive, with the earlier answers of that hive."""

    def judge(kept: Sequence[Answer]) -> Verdict:
        return verdict(hive, dimension, text, of_hive(kept, hive))

    return _judged(judge, dimension, text, answers)


def of_hive(answers: Iterable[Answer], hive: Hive) -> Texts:
    """The last answer to each dimension of a hive, asked for by itself or in an exercise.

    Those of a hive with another name are left out.
    """
    found: Texts = {}
    for answer in answers:
        asked, _, case = answer.asked.partition(" ")
        names: Sequence[str] = [answer.asked] if answer.asked in DIMENSIONS.dimensions else []
        if case == "own" and asked in EXERCISES:
            names = EXERCISES[asked].dimensions
        if len(names) == 1 and answer.hive in {"", hive.name}:
            found[names[0]] = on_this_tape(answer.answer, hive.units)
    return {name: text for name, text in found.items() if name not in hive.measurements}


def on_this_tape(text: str, units: Units) -> str:
    """An answer from before the tape was changed with the unit it then had; others as they are.

    Only what can't be read in this unit is told by it: a number alone may be of either.

    >>> on_this_tape("20 1/4", "mm"), on_this_tape("587,5", "inch"), on_this_tape("587", "inch")
    ('20 1/4 in', '587,5 mm', '587')
    """
    for read in (text, *(f"{text} {SIGN_OF[unit]}" for unit in UNITS)):
        with suppress(ValueError):
            length_from_text(read, units)
            return read
    return text


def judged_in(asked: Posed, text: str, answers: Sequence[Answer]) -> Verdict:
    """The verdict on an answer to an exercise, with the earlier answers that it rests on."""

    def judge(kept: Sequence[Answer]) -> Verdict:
        if asked.case == "own":
            return asked.verdict(text, of_hive(kept, asked.numbers.hive))
        sources = _sources(asked.exercise, asked.case, asked.numbers.units)
        earlier = {sources[a.asked]: a.answer for a in kept if a.asked in sources}
        return asked.verdict(text, earlier)

    return _judged(judge, asked.key, text, answers)


@lru_cache(maxsize=512)
def _sources(exercise: Exercise, case: Case, units: Units) -> Texts:
    """The exercises that lead to this one, on the same givens: by their keys the dimensions."""
    asked = posed(exercise, case, units=units)
    if asked.options or exercise.asks not in DIMENSIONS.dimensions:
        return {}
    ours, found = asked.numbers.hive.measurements, {}
    leading = DIMENSIONS.before(exercise.asks, ours, FARTHEST)
    for record in (each for each in EXERCISES.values() if each.asks in leading):
        source = posed(record, case, units=units)
        if not source.options:
            theirs = source.numbers.hive.measurements
            needed = DIMENSIONS.rests_on(record.asks, theirs)
            if all(theirs[name] == ours.get(name) for name in needed):
                found[source.key] = record.asks
    return found


def right_by_now(answers: Sequence[Answer], hive: Hive) -> dict[str, bool]:
    """Whether the last answer to each question is right, as the earlier answers now stand."""
    found = {answer.asked: answer.right for answer in answers}
    for answer in {a.asked: a for a in answers}.values():
        name, _, case = answer.asked.partition(" ")
        record = EXERCISES.get(name)
        if answer.verdict != "right_carried":
            continue
        if name in values_to_find(hive):
            found[answer.asked] = judged_of_hive(hive, name, answer.answer, answers).right
        elif record and case in {"", "alike", *(["own"] if record.own else [])}:
            asked = posed(record, cast("Case", case or "given"), hive, hive.units)
            found[answer.asked] = judged_in(asked, answer.answer, answers).right
    return found


def last_text(answers: Answers, key: str) -> str:
    """The answer that was given last under a key, on whatever day; empty without one."""
    last = answers.last(key)
    return last.answer if last else ""


# ── found ─────────────────────────────────────────────────────────────────────────────────────


def found_on(hive: Hive, answers: Answers) -> frozenset[str]:
    """The dimensions of this hive that a learner answered rightly, or had shown.

    They are judged anew: what was right for another stud is to be found again. All that a page
    shows asks here.
    """
    sizes = values_to_find(hive)
    texts = of_hive(answers.all(), hive)
    right = {n for n, text in texts.items() if n in sizes and verdict(hive, n, text).right}
    shown = {key.removesuffix(SHOWN) for key in answers.asked() if key.endswith(SHOWN)}
    return frozenset(right | (shown & sizes.keys()))


# ── the lessons ───────────────────────────────────────────────────────────────────────────────

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
    return _lessons(originals() / "workbook")


@cache
def _lessons(folder: Path) -> list[Lesson]:
    """The lessons in a folder's notebooks; what one does not say is left empty."""
    lessons = []
    for path in sorted(folder.glob("*.ipynb")):
        cells = json.loads(path.read_bytes())["cells"]
        found = (sought.search(_text(cells[0])) for sought in (_TITLE, _MINUTES, _AIM))
        title, minutes, aim = (said[1] if said else "" for said in found)
        asks = tuple(_asked(cells))
        own = tuple(e.id for e in EXERCISES.values() if e.lesson == path.name[:2])
        lessons.append(Lesson(f"workbook/{path.name}", title, minutes, sentence(aim), asks, own))
    return lessons


def _text(cell: Mapping[str, Any]) -> str:
    return "".join(cell["source"])


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


_ITEM: Final = "display:flex;gap:1em;margin:.9em 0"
_THUMBNAIL: Final = "flex:0 0 6em;width:6em;height:5em;object-fit:contain;object-position:top"


@cache
def _thumbnail(lesson: Lesson) -> str:
    """Return a lesson's own picture, small; what it shows is said in the lesson itself."""
    picture = originals() / "workbook" / "pictures" / f"{Path(lesson.name).stem}.svg"
    if not picture.is_file():
        return ""
    held = b64encode(picture.read_bytes()).decode()
    return f'<img alt="" src="data:image/svg+xml;base64,{held}" style="{_THUMBNAIL}">'


def contents(answers: Answers, hive: Hive, folder: Path, here: str = "") -> str:
    """The table of contents as things stand now, as HTML.

    folder is the course folder, and here the name of the notebook that the learner looks at.
    """
    right, begun = right_by_now(answers.all(), hive), {*worked_in(folder)}

    def far(name: str, asked: Sequence[str]) -> str:
        text = how_far(asked, right, worked_in=name in begun)
        return f"{text} · you are here" if name == here else text

    def item(lesson: Lesson) -> str:
        asked, number = (*lesson.asks, *lesson.exercises), lesson.number
        done = sum(right.get(key, False) for key in asked)
        of = f'max="{len(asked) or 1}" value="{done}"'
        bar = f'<progress {of} aria-label="Lesson {number} and its exercises, done"></progress>'
        text = f"{lesson.minutes} minutes · {far(lesson.name, lesson.asks)} {bar}"
        text += f"<br>{escape(lesson.aim)}"
        if lesson.exercises:
            page = lesson.page_in("exercises")
            to_exercises = link(page, f"Exercises of lesson {number}")
            text += f"<br>{to_exercises} · {far(page, lesson.exercises)}"
        titled = f"<b>{link(lesson.name, lesson.title)}</b><br>{text}"
        return f'<li style="{_ITEM}">{_thumbnail(lesson)}<div>{titled}</div></li>'

    words = f"<p>What each word means: {link(GLOSSARY, 'the glossary')}.</p>"
    items = "".join(map(item, lessons()))
    listed = f'<ul style="list-style:none;margin:0;padding:0">{items}</ul>'
    return f'<nav class="hc hc-contents" aria-label="Contents">{listed}{words}</nav>'


# ── what practises what ───────────────────────────────────────────────────────────────────────


def practice(number: str, right: Mapping[str, bool]) -> str:
    """What stands at the end of a lesson: its exercises, how many are done, and the next one."""
    own = [name for name, record in EXERCISES.items() if record.lesson == number]
    if not own:
        return ""
    done = sum(right.get(n, False) for n in own)
    left = [n for n in own if not right.get(n)]
    many = link(exercises_page(number), so_many(len(own), "exercise"))
    onward = f" Go on with {_to_exercise(left[0], right)}." if left else " All are done."
    return f'<p class="hc"><b>Practise</b>: {many}, {done} done.{onward}</p>'


def practice_of(dimension: str, right: Mapping[str, bool]) -> str:
    """The exercises that practise a dimension, each with what is done; empty without any."""
    own = [name for name, record in EXERCISES.items() if dimension in record.dimensions]
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
    of = {"workbook": "lesson", "exercises": "the exercises of", "solutions": "the solutions of"}
    known = {
        each.page_in(f): f"{words} {each.title}" for each in lessons() for f, words in of.items()
    }
    on = link(last, known.get(last, last), 'data-place="where you left off"')
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


def link(name: str, words: str, more: str = "") -> str:
    """A link from any notebook of the course to a page of the course folder.

    The course's part of JupyterLab opens data-page beside the other pages; the plain address is for
    where that part is missing. `more` is HTML that goes into the link.
    """
    address, page = escape(quote(f"../{name}")), escape(name)
    return f'<a href="{address}" data-page="{page}" {more} style="{LINK}">{escape(words)}</a>'
