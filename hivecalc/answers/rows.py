"""A file of answers that wait for a verdict: one row an answer.

As CSV, the first row names the columns, in any order: `dimension`, `answer`, and if you like
`learner` and any number of columns that begin with `carry`, for earlier answers:

    learner,dimension,answer,carry
    Ana,panel_width,14 1/8,
    Ben,panel_width,15 5/8,opening_width=15 7/8

The sign between the cells may be a comma, a semicolon or a tab. As JSON, each row is an object,
one a line, or all in one list:

    {"learner": "Ben", "dimension": "panel_width", "answer": "15 5/8",
     "carry": {"opening_width": "15 7/8"}}

(on one line). A row that is damaged costs that row only; a damaged list costs the file.
"""

import csv
import json
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import Final, TypeAlias

from hivecalc.hive import Fault
from hivecalc.support.faults import RefusedError, escaped, quoted
from hivecalc.support.files import file_faults, text_in

A_FILE_OF_ANSWERS: Final = "name a file of answers, as CSV or JSON"
LEFT_OUT: Final = "this row is left out, and all others are judged"
NEEDED: Final = ("dimension", "answer")


@dataclass(frozen=True, slots=True)
class AnswerRow:
    """One answer of a file: its number there, whose it is, to what, and earlier answers."""

    number: int
    learner: str
    dimension: str
    answer: str
    carry: Mapping[str, str] = field(default_factory=dict)


_Numbered: TypeAlias = Iterator[tuple[int, Callable[[int], AnswerRow]]]


def rows_in(path: Path) -> list[AnswerRow | Fault]:
    """The rows of a file of answers, each with its number, or what is wrong with it.

    In a CSV file the row of names is number 1. Raises HiveFaults for a file that can't be read, and
    where a needed column is missing.
    """
    found = list[AnswerRow | Fault]()
    for number, row in _numbered(path):
        try:
            found.append(row(number))
        except RefusedError as refused:
            found.append(Fault(f"{escaped(str(path))}, row {number}", str(refused), LEFT_OUT))
    return found


def _numbered(path: Path) -> _Numbered:
    """The rows of a file, each with a function that reads it: of a list, of lines, or of CSV."""
    text = text_in(path, A_FILE_OF_ANSWERS)
    lines = [(n, line.rstrip("\r")) for n, line in enumerate(text.split("\n"), 1) if line.strip()]
    begin = text.lstrip()[0]
    if begin == "[":
        try:
            rows = _json(text)
        except RefusedError as refused:
            raise file_faults(path, str(refused), A_FILE_OF_ANSWERS) from None
        return ((n, partial(_row_of, row)) for n, row in enumerate(rows, 1))
    if begin == "{":
        return ((n, partial(_object_row, line)) for n, line in lines)
    return _csv_rows(path, lines)


# ── CSV ───────────────────────────────────────────────────────────────────────────────────────


def _csv_rows(path: Path, lines: Iterable[tuple[int, str]]) -> _Numbered:
    (_, first), *others = lines
    sign = max(",;\t", key=first.count)
    try:
        columns = [name.strip().lower() for name in _cells(first, sign)]
    except RefusedError as refused:
        found = f"its first row can't be read, as {refused}"
        raise file_faults(path, found, A_FILE_OF_ANSWERS) from None
    if any(columns.count(name) != 1 for name in NEEDED):
        found = "its first row does not name the columns dimension and answer, each once"
        raise file_faults(path, found, "begin it like learner,dimension,answer")
    for number, line in others:
        if line.strip(",;\t "):
            yield number, partial(_csv_row, columns, sign, line)


def _cells(line: str, sign: str) -> list[str]:
    try:
        return next(csv.reader([line], delimiter=sign, strict=True), [])
    except csv.Error:
        raise RefusedError("a quotation mark in it is not closed or is out of place") from None


def _csv_row(columns: list[str], sign: str, line: str, number: int) -> AnswerRow:
    cells = _cells(line, sign)
    if len(cells) > len(columns) and any(cells[len(columns) :]):
        raise RefusedError(f"it has {len(cells)} cells, and there are {len(columns)} columns")
    found = dict(zip(columns, cells, strict=False))
    if not all(name in found for name in NEEDED):
        raise RefusedError(f"it has only {len(cells)} of {len(columns)} cells")
    carry = dict[str, str]()
    for column, cell in zip(columns, cells, strict=False):
        if column.startswith("carry") and cell.strip():
            name, equals, carry[name] = cell.partition("=")
            if not equals:
                raise RefusedError(f"{quoted(cell)} is not DIMENSION=ANSWER")
    return AnswerRow(number, found.get("learner", ""), found["dimension"], found["answer"], carry)


# ── JSON ──────────────────────────────────────────────────────────────────────────────────────


def _json(text: str) -> Iterable[object]:
    """What a text says, its numbers as they are written."""
    try:
        said: Iterable[object] = json.loads(text, parse_int=str, parse_float=str)
    except (json.JSONDecodeError, RecursionError):
        raise RefusedError("it is cut short or isn't JSON") from None
    return said


def _object_row(line: str, number: int) -> AnswerRow:
    return _row_of(_json(line), number)


def _row_of(found: object, number: int) -> AnswerRow:
    if not isinstance(found, dict):
        raise RefusedError("it is not a JSON object in { }")
    carry = found.get("carry", {})
    if not isinstance(carry, dict):
        raise RefusedError("its “carry” is not a JSON object in { }")
    learner = _said(found, "learner") if "learner" in found else ""
    earlier = {name: _said(carry, name) for name in carry}
    return AnswerRow(number, learner, _said(found, "dimension"), _said(found, "answer"), earlier)


def _said(found: Mapping[str, object], key: str) -> str:
    text = found.get(key)
    if not isinstance(text, str):
        raise RefusedError(f"its {quoted(key)} is missing, or neither text nor a number")
    return text
