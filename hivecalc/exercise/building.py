"""The exercise notebooks and their solutions, built from the records.

`python -m hivecalc.exercise.building [FOLDER]` writes exercises/ and solutions/ there, the same
bytes each time; without a folder, where you are.
"""

import json
import re
import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from hashlib import sha256
from pathlib import Path
from typing import Any, Final, TypeAlias

from hivecalc.exercise import KINDS, LESSONS, Exercise
from hivecalc.hive import write_whole

Cell: TypeAlias = str | tuple[str, ...]
KERNEL: Final = {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"}
FOLDED: Final = {"jupyter": {"source_hidden": True}}
PAPER: Final = (
    "Work each one out on paper first. Type your answer, press Enter, and you are told at once. "
    "Stuck? There are three hints, one at a time, and then the steps. These are sums on paper: no "
    "saw is needed."
)
WORKED: Final = (
    "Each exercise with its steps, its answer, the reason, and what the usual slips would have "
    "given. Try the exercise first: a solution that you only read is soon forgotten."
)
PRACTISED: Final = (
    "## What you have practised\n\nWhat your answers show so far, in all lessons: the slips behind "
    "them, those that come back, and what to do next. It is for you alone, and gives no mark."
)


def stem(lesson: str) -> str:
    """The name of a lesson's files, without its ending."""
    words = re.findall(r"[a-z0-9]+", LESSONS[lesson].title.lower())
    return "-".join([lesson, *words])


def notebooks() -> dict[str, str]:
    """Every notebook as text, by its path: exercises and solutions of each lesson."""
    found = dict[str, str]()
    for lesson in LESSONS:
        found[f"exercises/{stem(lesson)}.ipynb"] = _notebook(_exercise_cells(lesson))
        found[f"solutions/{stem(lesson)}.ipynb"] = _notebook(_solution_cells(lesson))
    return found


# ── what stands in them ───────────────────────────────────────────────────────────────────────


def _exercise_cells(lesson: str) -> Iterator[Cell]:
    """The cells of an exercise notebook: a text is prose, a tuple is code and its tags."""
    records = LESSONS[lesson].exercises
    minutes = -(-3 * len(records) // 5) * 5  # three each, in fives
    needed = f"**Time:** about {minutes} minutes. **At the bench:** paper and a pencil."
    yield "\n\n".join([_head(lesson, "exercises"), needed, PAPER])
    yield from _first_code()
    for record in records:
        yield _title(record)
        yield (f'bench.exercise("{record.id}")',)
    yield PRACTISED
    yield ("bench.progress()",)
    yield " · ".join([_link(lesson, "workbook", "Lesson"), _link(lesson, "solutions", "Solutions")])


def _solution_cells(lesson: str) -> Iterator[Cell]:
    yield "\n\n".join([_head(lesson, "solutions"), WORKED])
    yield from _first_code()
    for record in LESSONS[lesson].exercises:
        yield _title(record)
        yield (f'bench.solution("{record.id}")',)
    yield _link(lesson, "exercises", "Exercises")


def _first_code() -> Iterator[tuple[str, ...]]:
    yield 'hive_file = ""', "parameters"
    yield ("from hivecalc.widgets import Bench\nbench = Bench(hive_file)",)


def _head(lesson: str, what: str) -> str:
    return f"# {lesson} · {LESSONS[lesson].title}: {what}"


def _link(lesson: str, folder: str, words: str) -> str:
    return f"**{words}:** [{lesson} · {LESSONS[lesson].title}](../{folder}/{stem(lesson)}.ipynb)"


def _title(record: Exercise) -> str:
    return f"## {record.id} · {KINDS[record.kind].capitalize()}"


# ── their form ────────────────────────────────────────────────────────────────────────────────


def _notebook(cells: Iterable[Cell]) -> str:
    """A notebook as Jupyter writes it, without results."""
    made, seen = [], Counter[str]()
    for cell in map(_cell, cells):
        name = sha256(f"{cell['cell_type']}\0{''.join(cell['source'])}".encode()).hexdigest()[:8]
        made.append({**cell, "id": f"{name}-{seen[name]}" if seen[name] else name})
        seen[name] += 1
    whole = {"cells": made, "metadata": {"kernelspec": KERNEL}, "nbformat": 4, "nbformat_minor": 5}
    return json.dumps(whole, ensure_ascii=False, indent=1, sort_keys=True) + "\n"


def _cell(cell: Cell) -> dict[str, Any]:
    """A cell without its id, which its own text will give so that it stays the same."""
    source, *tags = (cell,) if isinstance(cell, str) else cell
    lines = source.splitlines(keepends=True)
    if isinstance(cell, str):
        return {"cell_type": "markdown", "metadata": {}, "source": lines}
    metadata = {**FOLDED, "tags": tags} if tags else FOLDED
    code: dict[str, Any] = {"cell_type": "code", "execution_count": None, "outputs": []}
    return {**code, "metadata": metadata, "source": lines}


def write(folder: Path) -> list[Path]:
    """Write every notebook into a folder, and return their paths."""
    written = list[Path]()
    for name, text in notebooks().items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        write_whole(path, text)
        written.append(path)
    return written


if __name__ == "__main__":
    for path in write(Path(*sys.argv[1:2])):
        print(path)  # noqa: T201 - a command says what it wrote
