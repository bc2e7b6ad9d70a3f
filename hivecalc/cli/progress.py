"""How far a long search is, on one line of the terminal."""

import sys
import time
from contextlib import contextmanager
from typing import TYPE_CHECKING, Final, TypeAlias

from hivecalc.tables import harmless

if TYPE_CHECKING:  # slow to load
    from collections.abc import Callable, Iterator

    from hivecalc.cutting import Progress

Hears: TypeAlias = "Callable[[str, Progress], None]"

EVERY: Final = 0.1
"""Seconds between two things that are told."""

_BEGIN: Final = "\r\x1b[K"  # to the begin of the line, and the line wiped


@contextmanager
def progress() -> "Iterator[Hears | None]":
    """Give what tells the progress of a search on standard error, None where that is no terminal.

    The line is wiped at the end.
    """
    if not sys.stderr.isatty():
        yield None
        return
    try:
        yield _teller()
    finally:
        sys.stderr.write(_BEGIN)
        sys.stderr.flush()


def _teller() -> Hears:
    told = 0.0

    def tell(name: str, far: "Progress") -> None:
        nonlocal told
        if time.monotonic() - told >= EVERY:
            told = time.monotonic()
            sys.stderr.write(f"{_BEGIN}{_line(name, far)}")
            sys.stderr.flush()

    return tell


def _line(name: str, far: "Progress") -> str:
    best, bound = (f"{float(number):g}" for number in (far.best, far.bound))
    text = f"{name}: {far.doing}; best {best}, not below {bound}; Ctrl-C takes the best so far"
    return harmless(text)[:79]
