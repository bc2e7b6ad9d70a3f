"""A system that refuses: a call that fails, little room on a disk, a user who owns nothing."""

import os
import resource
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager

NOBODY = 65534


def failing(number: int) -> Callable[..., None]:
    """A call of the system that fails with this errno."""

    def fail(*_: object, **__: object) -> None:
        raise OSError(number, os.strerror(number))

    return fail


@contextmanager
def little_room(most: int = 1000) -> Iterator[None]:
    """Take only so many first bytes of any file, until the block ends.

    No longer than that: the tests' own report may be a file too.
    """
    limits = resource.getrlimit(resource.RLIMIT_FSIZE)
    handler = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (most, limits[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, limits)
        signal.signal(signal.SIGXFSZ, handler)


@contextmanager
def as_nobody() -> Iterator[None]:
    """Act as a user who owns nothing, until the block ends; as oneself where that is no root."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)
