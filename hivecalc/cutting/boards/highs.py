"""HiGHS, asked in a process of its own, so that Ctrl-C and the end of the time end it at once."""

import atexit
import os
import pickle
import subprocess
import sys
import threading
import time
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final, NamedTuple

WORKER: Final = Path(__file__).with_name("highs_worker.py")
TICK: Final = 0.05
GRACE: Final = 3.0
"""Seconds to start, and to come to an end, beyond those that the work may take."""


class Rows(NamedTuple):
    """Conditions on the unknowns: each row's entries, with the least and most they may come to.

    An entry is a row, a column and a number.
    """

    entries: list[tuple[int, int, float]]
    low: list[float]
    high: list[float]

    def followed_by(self, more: "Rows") -> "Rows":
        """These rows with more of them below."""
        below = [(row + len(self.low), column, number) for row, column, number in more.entries]
        return Rows([*self.entries, *below], [*self.low, *more.low], [*self.high, *more.high])


@dataclass(frozen=True)
class Fractions:
    """The unknowns in fractions, the least cost, and what each row is worth at that."""

    values: list[float]
    cost: float
    worth: list[float]


@dataclass(frozen=True)
class Answer:
    """The unknowns in whole numbers, what none cost less than, and whether that is all."""

    values: list[int] | None
    bound: float
    done: bool


def in_fractions(costs: Sequence[float], rows: Rows, seconds: float) -> Fractions | None:
    """The unknowns from 0 up that give each row its least at the least cost.

    >>> in_fractions([2.0, 3.0], Rows([(0, 0, 4.0), (0, 1, 7.0)], [14], [float("inf")]), 5).cost
    6.0

    None if HiGHS gives it up, or is not done in time.
    """
    found = PROCESS.answer({"whole": False, "costs": costs, **rows._asdict()}, seconds)
    return None if found is None else Fractions(**found)


def in_whole_numbers(
    costs: Sequence[float], most: Sequence[float] | float, rows: Rows, seconds: float
) -> Answer:
    """Whole numbers from 0 up to `most` that keep all rows at the least cost.

    >>> rows = Rows([(0, 0, 4.0), (0, 1, 7.0)], [8], [float("inf")])
    >>> in_whole_numbers([2.0, 3.0], float("inf"), rows, 5)
    Answer(values=[2, 0], bound=4.0, done=True)
    """
    task = {"whole": True, "costs": costs, "most": most, **rows._asdict()}
    found = PROCESS.answer(task, seconds)
    return Answer(None, 0.0, done=False) if found is None else Answer(**found)


class Process:
    """The process, started when it is first asked and again after it was stopped."""

    def __init__(self) -> None:
        self.lock = threading.Lock()
        self.process: subprocess.Popen[bytes] | None = None
        self.owner = 0

    def answer(self, task: dict[str, Any], seconds: float) -> dict[str, Any] | None:
        """What the process finds, None if it is not done in time; Ctrl-C is heard meanwhile."""
        task["seconds"] = max(TICK, seconds)
        answers: list[dict[str, Any] | None] = []
        with self.lock:
            process = self._running()
            talk = threading.Thread(target=_exchange, args=(process, task, answers), daemon=True)
            try:
                talk.start()
                _wait_for(talk, task["seconds"] + GRACE)
            finally:
                if not answers:
                    self.stop()
                    talk.join(GRACE)
        return answers[0] if answers else None

    def _running(self) -> "subprocess.Popen[bytes]":
        if self.process is None or self.owner != os.getpid() or self.process.poll() is not None:
            command = [sys.executable, "-P", str(WORKER)]
            pipe, nowhere = subprocess.PIPE, subprocess.DEVNULL
            self.process = subprocess.Popen(command, stdin=pipe, stdout=pipe, stderr=nowhere)  # noqa: S603
            self.owner = os.getpid()
        return self.process

    def stop(self) -> None:
        """End the process, whatever it is doing."""
        process, self.process = self.process, None
        if process is not None and self.owner == os.getpid():
            process.kill()
            process.wait()
            for pipe in (process.stdin, process.stdout):
                if pipe is not None:
                    with suppress(OSError):
                        pipe.close()


def _wait_for(talk: threading.Thread, seconds: float) -> None:
    """Wait for a talk to end, but no longer; in short pieces, or Ctrl-C is not heard everywhere."""
    end = time.monotonic() + seconds
    while talk.is_alive() and time.monotonic() < end:
        talk.join(TICK)


def _exchange(
    process: "subprocess.Popen[bytes]", task: dict[str, Any], answers: list[dict[str, Any] | None]
) -> None:
    """Send the task and keep the answer; none comes if the process is stopped meanwhile."""
    if process.stdin is not None and process.stdout is not None:
        with suppress(OSError, ValueError, EOFError, pickle.UnpicklingError):
            pickle.dump(task, process.stdin)
            process.stdin.flush()
            answers.append(pickle.load(process.stdout))  # noqa: S301 - from our own process


PROCESS: Final = Process()
atexit.register(PROCESS.stop)
