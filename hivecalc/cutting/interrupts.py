"""Ctrl-C while a library loads: it waits, since a library that was half loaded can't be used."""

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def interrupts_held() -> Iterator[None]:
    """A stretch of work in which Ctrl-C waits; it is heard at the end.

    >>> with interrupts_held():
    ...     import numpy

    numpy and scipy refuse to load again after their loading was broken off, and the plans after the
    one that was stopped need them. Only the main thread hears Ctrl-C, so nothing waits in another.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    heard: list[int] = []
    before = signal.signal(signal.SIGINT, lambda number, _: heard.append(number))
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, signal.SIG_DFL if before is None else before)
        if heard:
            signal.raise_signal(signal.SIGINT)
