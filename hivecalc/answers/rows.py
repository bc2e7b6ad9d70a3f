"""A file of answers that wait for a verdict: one row an answer, read one by one.

As CSV, the first row names the columns, in any order: `dimension`, `answer`, and if you like
`learner` and any number of columns that begin with `carry`, for earlier answers:

    learner,dimension,answer,carry
    Ana,panel_width,14 1/8,
    Ben,panel_width,15 5/8,opening_width=15 7/8

The sign between the cells may be a comma, a semicolon or a tab. As JSON, each row is an object,
one a line, or all in one list:

    {"learner": "Ben", "dimension": "panel_width", "answer": "15 5/8",
     "carry": {"opening_width": "15 7/8"}}

(on one line). A row that is damaged costs that row only. Nothing but one row is held at a time.
"""

import codecs
import csv
import json
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import partial
from itertools import chain
from pathlib import Path
from typing import Final, TypeAlias

from hivecalc.hive import Fault
from hivecalc.support.faults import RefusedError, escaped, quoted
from hivecalc.support.files import file_faults, system_faults

DAMAGED: Final = object()
"""What stands for an item that can't be read."""

_BETWEEN: Final = re.compile(r"[\s,]*")
_NEXT_OBJECT: Final = re.compile(r",\s*(?=\{)")
_MOST_BETWEEN: Final = 1000  # characters between two objects, where one before is damaged

MOST_ROW: Final = 1 << 16
"""Bytes of one row, at most."""

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
_Lines: TypeAlias = Iterator[tuple[int, bytes | None]]


def rows_in(path: Path) -> Iterator[AnswerRow | Fault]:
    """The rows of a file of answers, each with its number, or what is wrong with it.

    In a CSV file the row of names is number 1. Raises HiveFaults for a file that can't be read, and
    where a needed column is missing.
    """
    for number, row in _numbered(path):
        try:
            yield row(number)
        except RefusedError as refused:
            yield Fault(f"{escaped(str(path))}, row {number}", str(refused), LEFT_OUT)


def _numbered(path: Path) -> _Numbered:
    """The rows of a file, each with a function that reads it: of a list, of lines, or of CSV."""
    pieces, blank = _pieces(path), 0
    for piece in pieces:
        first = piece.removeprefix(b"\xef\xbb\xbf")  # a byte order mark
        if begin := first.lstrip()[:1]:
            rest = chain([first], pieces)
            if begin == b"[":
                return ((n, partial(_row_of, x)) for n, x in enumerate(items(rest), 1))
            lines = _lines(rest, blank + 1)
            return _object_rows(lines) if begin == b"{" else _csv_rows(path, lines)
        blank += piece.endswith(b"\n")
    raise file_faults(path, "this file is empty", A_FILE_OF_ANSWERS)


def _pieces(path: Path) -> Iterator[bytes]:
    """What stands in a file, a line each; a very long line comes in several pieces."""
    with system_faults(path, A_FILE_OF_ANSWERS), path.open("rb") as file:
        while piece := file.readline(MOST_ROW):
            yield piece


def _lines(pieces: Iterator[bytes], first: int) -> _Lines:
    """Lines with their numbers; None for a line that is too long."""
    number, going_on = first, False
    for piece in pieces:
        ends = piece.endswith(b"\n")
        if not going_on:
            yield number, piece if ends or len(piece) < MOST_ROW else None
        going_on = not ends
        number += ends


def _text(line: bytes | None) -> str:
    if line is None:
        raise RefusedError(f"it is longer than {MOST_ROW // 1024} KB")
    try:
        return line.decode("utf-8").rstrip("\r\n")
    except UnicodeDecodeError:
        raise RefusedError("it is not text in UTF-8") from None


# ── CSV ───────────────────────────────────────────────────────────────────────────────────────


def _csv_rows(path: Path, lines: _Lines) -> _Numbered:
    columns, sign = _columns(path, next(lines)[1])
    for number, line in lines:
        if line is None or line.strip(b",;\t \r\n"):
            yield number, partial(_csv_row, columns, sign, line)


def _columns(path: Path, line: bytes | None) -> tuple[list[str], str]:
    try:
        text = _text(line)
        sign = max(",;\t", key=text.count)
        columns = [name.strip().lower() for name in _cells(text, sign)]
    except RefusedError as refused:
        raise file_faults(
            path, f"its first row can't be read, as {refused}", A_FILE_OF_ANSWERS
        ) from None
    if any(columns.count(name) != 1 for name in NEEDED):
        found = "its first row does not name the columns dimension and answer, each once"
        raise file_faults(path, found, "begin it like learner,dimension,answer")
    return columns, sign


def _cells(text: str, sign: str) -> list[str]:
    try:
        return next(csv.reader([text], delimiter=sign, strict=True), [])
    except csv.Error:
        raise RefusedError("a quotation mark in it is not closed or is out of place") from None


def _csv_row(columns: list[str], sign: str, line: bytes | None, number: int) -> AnswerRow:
    cells = _cells(_text(line), sign)
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

_JSON: Final = json.JSONDecoder(parse_int=str, parse_float=str)  # a number stays as it is written


def _object_rows(lines: _Lines) -> _Numbered:
    for number, line in lines:
        if line is None or line.strip():
            yield number, partial(_object_row, line)


def _object_row(line: bytes | None, number: int) -> AnswerRow:
    try:
        found = _JSON.decode(_text(line))
    except (json.JSONDecodeError, RecursionError):
        found = DAMAGED
    return _row_of(found, number)


def _row_of(found: object, number: int) -> AnswerRow:
    if found is DAMAGED:
        raise RefusedError("it is cut short or isn't JSON")
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


# ── a list in JSON, item by item ─────────────────────────────────────────────────────────────


def items(pieces: Iterator[bytes]) -> Iterator[object]:
    """The items of a JSON list whose text comes in pieces, `DAMAGED` for one that can't be read.

    >>> list(items(iter([b'[{"a": "1"}, {"a": "2', b'"}]'])))
    [{'a': '1'}, {'a': '2'}]

    An item has at most `MOST_ROW` characters. After a damaged one, reading goes on with the next
    object; a list that is cut short ends with `DAMAGED`.
    """
    text = _Ahead(pieces)
    text.find(re.compile(r"\["))
    while text.sign() not in {"]", ""}:
        try:
            found, end = _JSON.raw_decode(text.held, text.at)
        except (json.JSONDecodeError, RecursionError):
            yield DAMAGED
            if not text.find(_NEXT_OBJECT):
                return
        else:
            yield found
            text.at = end
    if text.sign() == "":
        yield DAMAGED


class _Ahead:
    """A text that comes in pieces, of which enough is held to read the next item."""

    def __init__(self, pieces: Iterator[bytes]) -> None:
        decode = codecs.getincrementaldecoder("utf-8")(errors="surrogateescape").decode
        self._pieces = map(decode, pieces)
        self.held, self.at = "", 0

    def fill(self) -> bool:
        """Hold as much as is needed from here on; false where no more is to come."""
        parts, ahead = [self.held[self.at :]], len(self.held) - self.at
        while ahead < 2 * MOST_ROW and (piece := next(self._pieces, None)) is not None:
            parts.append(piece)
            ahead += len(piece)
        self.held, self.at = "".join(parts), 0
        return len(parts) > 1

    def sign(self) -> str:
        """The first sign of what comes next, past spaces and commas; empty at the end."""
        going_on = True
        while going_on:
            between = _BETWEEN.match(self.held, self.at)
            self.at = between.end() if between else self.at
            low = len(self.held) - self.at < MOST_ROW
            going_on = low and self.fill()
        return self.held[self.at : self.at + 1]

    def find(self, pattern: re.Pattern[str]) -> bool:
        """Whether a pattern comes; go behind it, or else to the end."""
        while not (found := pattern.search(self.held, self.at)):
            self.at = max(self.at, len(self.held) - _MOST_BETWEEN)
            if not self.fill():
                return False
        self.at = found.end()
        return True
