"""A learner's answers: one plain file a person per hive, added to and never rewritten.

The file `my-hive-answers.jsonl` stands beside `my-hive.toml`. Each line is a JSON object in plain
ASCII. The first one is a header, which says the version of the file and the hive's name:

    {"schema": "hivecalc-answers/1", "hive": "Orchard hive"}

Every other line is one answer:

    {"when": "2026-05-02T10:15:00+02:00", "asked": "bottom_board.panel_width",
     "answer": "14 3/8", "verdict": "slip", "slips": ["gap_forgotten"]}

(on one line). when: the learner's own time, with its offset; asked: an exercise or a dimension, or
a step on the way to one, as in bottom_board.panel_width#chain, whose answer is not its length;
answer: as it was typed, at most 1,000 characters of it; verdict: a `Judgement`; slips: the names of
those that give this answer, at most three. Other keys are passed over. Where the hive has another
name from some answer on, another header stands before that answer.

A line that can't be read costs that line only, and stays as it is. A line that a crash has cut
short is such a line: the next answer begins a line of its own.
"""

import json
import os
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Final, get_args

from hivecalc.hive import Fault, HiveFaults
from hivecalc.judging import Judgement, Verdict
from hivecalc.support.faults import MOST_FAULTS, RefusedError, escaped, quoted
from hivecalc.support.files import lock, ordinary_mode, stamp, system_faults

SCHEMA: Final = "hivecalc-answers/1"
STEPS: Final = ("#prediction", "#chain", "#sum", "#shown", "#done")
"""What stands behind a dimension's name where an answer is a step on the way to it."""
MOST_READ: Final = 4_000_000
"""Bytes of a file that is read: more than twenty thousand answers."""
MOST_KEPT: Final = 1_000
"""Characters of an answer that are kept; none that can be read has more than 60."""

_KINDS: Final = {kind: kind for kind in get_args(Judgement)}
_YEARS: Final = range(1900, 3000)


def answers_path(hive_file: Path) -> Path:
    """Where the answers for a hive file are kept: beside it."""
    return hive_file.with_name(f"{hive_file.stem}-answers.jsonl")


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer as it was entered: to what, when, what was said to it, and for which hive."""

    asked: str
    answer: str
    verdict: Judgement
    slips: tuple[str, ...]
    when: datetime
    hive: str = ""

    @property
    def right(self) -> bool:
        """Whether it counted as right."""
        return self.verdict.startswith("right")


class Answers:
    """A learner's answers to exercises and dimensions, as they stand in the file now.

    `hive` is the name of the hive that is worked on. Reading raises nothing: what can't be read is
    said by `faults`, and what others add to the file is seen at the next look.
    """

    def __init__(self, path: Path | str, hive: str = "") -> None:
        self.path, self.hive = Path(path), hive
        self._watchers: list[Callable[[], None]] = []
        self._stamp: tuple[int, ...] = ()
        self._last_reading = _Reading("")

    def all(self) -> list[Answer]:
        """Every answer, in the order they were entered; those to steps on the way are left out."""
        return [a for a in self._reading().answers if not a.asked.endswith(STEPS)]

    def last(self, asked: str) -> Answer | None:
        """The last answer to an exercise, dimension or step, None where there is none."""
        return next((a for a in reversed(self._reading().answers) if a.asked == asked), None)

    def asked(self) -> frozenset[str]:
        """Every exercise, dimension and step that has an answer."""
        return frozenset(a.asked for a in self._reading().answers)

    def watch(self, watcher: Callable[[], None]) -> None:
        """Call this whenever an answer has been added here."""
        self._watchers.append(watcher)

    @property
    def closed(self) -> Fault | None:
        """Why nothing can be added, if that is so: the file is of a later version."""
        return self._reading().closed

    @property
    def faults(self) -> tuple[Fault, ...]:
        """What is wrong with the file, each fault with its line; of very many only the first."""
        found = self._reading()
        return (*found.faults, *found.about_hive(self.hive))

    def add(self, asked: str, answer: str, verdict: Verdict, when: datetime) -> Answer:
        """Save an answer at the end of the file, whole or not at all.

        `when` has an offset, as a time without one says little. Raises HiveFaults where the answer
        can't be saved, with the reason.
        """
        if when.utcoffset() is None:
            raise ValueError("The time of an answer needs its offset from UTC.")
        before = self._reading()
        if before.closed:
            raise HiveFaults([before.closed])
        slips = tuple(slip.name for slip in verdict.slips)
        hive = self.hive or before.hive or ""
        cut = answer if len(answer) <= MOST_KEPT else f"{answer[:MOST_KEPT]}…"
        new = Answer(asked, cut, verdict.verdict, slips, when.replace(microsecond=0), hive)
        said = [{"when": new.when.isoformat(), "asked": asked, "answer": cut,
                 "verdict": new.verdict, "slips": list(slips)}]  # fmt: skip
        if before.hive is None or self.hive not in {"", before.hive}:
            said.insert(0, {"schema": SCHEMA, "hive": self.hive})
        lines = "".join(f"{json.dumps(line)}\n" for line in said).encode()
        with system_faults(self.path, "the answer was judged, but it is not saved"):
            append(self.path, lines)
        self._take_added(lines)
        for watcher in self._watchers:
            watcher()
        return new

    def _take_added(self, lines: bytes) -> None:
        """Take in what was added here; the whole file is read again only if others added, too."""
        now, before = stamp(self.path), self._stamp
        if now and before and now[:2] == (before[0], before[1] + len(lines)):
            for line in lines.splitlines():
                self._last_reading.take(0, line)
            self._stamp = now

    def _reading(self) -> "_Reading":
        """What the file says; read anew only if it has changed."""
        now = stamp(self.path)
        if now != self._stamp or not now:
            self._stamp, self._last_reading = now, _read(self.path)
        return self._last_reading


# ── reading ───────────────────────────────────────────────────────────────────────────────────


@dataclass
class _Reading:
    """What was found in a file: its answers, its faults, the hive that its last header names.

    A file is closed, for the reason given, if it is of another version or too big: nothing may be
    added.
    """

    place: str
    answers: list[Answer] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)
    hive: str | None = None
    closed: Fault | None = None
    more: int = 0

    def take(self, number: int, line: bytes) -> None:
        """Take one line: an answer, a header, or a fault."""
        if self.closed or not line.strip():
            return
        try:
            found = _object(line)
            if "schema" in found:
                self._take_header(found)
            else:
                self.answers.append(_answer(found, self.hive or ""))
        except RefusedError as refused:
            self.more += len(self.faults) >= MOST_FAULTS
            if not self.more:
                left_out = "this line is left out and stays as it is, and all others are read"
                fault = Fault(f"{self.place}, line {number}", str(refused), left_out)
                self.faults.append(fault)

    def _take_header(self, said: Mapping[str, object]) -> None:
        schema, hive = said["schema"], said.get("hive")
        if schema != SCHEMA:  # no more is taken: what stands from here on has an unknown form
            found = quoted(str(schema))
            self.close(
                f"{found} is a version of answers that this hivecalc does not know",
                "nothing in it is changed, and no answer is saved until you get a newer hivecalc",
            )
        elif isinstance(hive, str):
            self.hive = hive
        else:
            raise RefusedError("this header names no hive")

    def close(self, found: str, accepted: str) -> None:
        """Take nothing more and let nothing be added, for this reason."""
        self.closed = Fault(self.place, found, accepted)
        self.faults.append(self.closed)

    def about_hive(self, hive: str) -> Iterator[Fault]:
        """What there is to say about the file as a whole."""
        if self.more:
            found = f"{self.more:,} more lines can't be read"
            yield Fault(self.place, found, "they stay as they are")
        if self.hive is None and self.answers and not self.faults:
            yield Fault(self.place, "its first line, the header, is gone", "all answers are read")
        if hive and self.hive is not None and self.hive != hive:
            found = f"its answers are for the hive {quoted(self.hive)}, and this is {quoted(hive)}"
            yield Fault(self.place, found, "they are judged anew for this hive, and none is lost")


def _read(path: Path) -> _Reading:
    found, data = _Reading(escaped(str(path))), b""
    try:
        with system_faults(path, "the answers in it can't be shown"):
            if ordinary_mode(path) is not None:
                with path.open("rb") as file:
                    data = file.read(MOST_READ + 1)
    except HiveFaults as error:
        found.faults += error.faults
    if len(data) > MOST_READ:
        found.close(
            "this file is bigger than 4 MB, more than one learner's answers",
            "it stays as it is, and no answer is saved until you move it to another folder",
        )
        return found
    for number, line in enumerate(data.split(b"\n"), 1):
        found.take(number, line)
    return found


def _object(line: bytes) -> Mapping[str, object]:
    try:
        found = json.loads(line.decode("utf-8-sig"))
    except UnicodeDecodeError:
        raise RefusedError("this line is not text in UTF-8") from None
    except (ValueError, RecursionError):
        raise RefusedError("this line is cut short or isn't JSON") from None
    if not isinstance(found, dict):
        raise RefusedError("this line is not a JSON object in { }")
    return found


def _answer(found: Mapping[str, object], hive: str) -> Answer:
    texts = {key: found.get(key) for key in ("asked", "answer", "verdict", "when")}
    for key, text in texts.items():
        if not isinstance(text, str):
            raise RefusedError(f"“{key}” is missing, or not text in quotes")
    asked, answer, kind, when = map(str, texts.values())
    slips = found.get("slips")
    if kind not in _KINDS:
        raise RefusedError(f"{quoted(kind)} is not a verdict")
    if not isinstance(slips, list) or not all(isinstance(slip, str) for slip in slips):
        raise RefusedError("“slips” is missing, or not a list of names")
    with suppress(ValueError):
        time = datetime.fromisoformat(when)
        if time.utcoffset() is not None and time.year in _YEARS:
            return Answer(asked, answer, _KINDS[kind], tuple(slips), time, hive)
    like = "a time with its offset, like 2026-05-02T10:15:00+02:00"
    raise RefusedError(f"{quoted(when)} is not {like}")


# ── at the end of a file ──────────────────────────────────────────────────────────────────────


def append(path: Path, lines: bytes) -> None:
    """Add whole lines at the end of a file, or leave it as it was; raises OSError."""
    ordinary_mode(path)
    ways = os.O_RDWR | os.O_CREAT | os.O_APPEND | getattr(os, "O_BINARY", 0)
    handle = os.open(path, ways, 0o666)
    try:
        lock(handle)
        _write_at_end(handle, lines)
    finally:
        os.close(handle)  # which opens the lock


def _write_at_end(handle: int, rest: bytes) -> None:
    end = os.lseek(handle, 0, os.SEEK_END)
    if end:
        os.lseek(handle, end - 1, os.SEEK_SET)
        if os.read(handle, 1) != b"\n":  # a crash cut the last line short
            rest = b"\n" + rest
    try:
        while rest:  # one write, but for a disk that fills up at this very moment
            rest = rest[os.write(handle, rest) :]
        os.fsync(handle)
    except BaseException:
        with suppress(OSError):
            os.ftruncate(handle, end)
        raise
