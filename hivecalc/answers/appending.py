"""Lines added at the end of a file that others may add to as well: all of them, or none."""

import errno
import os
import stat
import sys
import time
from contextlib import suppress
from pathlib import Path

if sys.platform != "win32":
    import fcntl

_TRIES, _PAUSE = 1000, 0.002  # two seconds in all, if another program holds the file


def is_there(path: Path) -> bool:
    """Whether there is such a file; raises OSError for a folder and for what is no plain file."""
    try:
        mode = path.stat().st_mode
    except FileNotFoundError:
        return False
    if stat.S_ISDIR(mode):
        raise IsADirectoryError(errno.EISDIR, "")
    if not stat.S_ISREG(mode):
        raise OSError(errno.EINVAL, "this is no plain file")
    return True


def append(path: Path, lines: bytes) -> None:
    """Add whole lines at the end of a file, or leave it as it was; raises OSError."""
    is_there(path)
    ways = os.O_RDWR | os.O_CREAT | os.O_APPEND | getattr(os, "O_BINARY", 0)
    handle = os.open(path, ways, 0o666)
    try:
        _lock(handle)
        _write_at_end(handle, lines)
    finally:
        os.close(handle)  # which opens the lock


def _write_at_end(handle: int, lines: bytes) -> None:
    end = os.lseek(handle, 0, os.SEEK_END)
    rest = lines if _ends_a_line(handle, end) else b"\n" + lines
    try:
        while rest:  # one write, but for a disk that fills up at this very moment
            rest = rest[os.write(handle, rest) :]
        os.fsync(handle)
    except BaseException:
        with suppress(OSError):
            os.ftruncate(handle, end)
        raise


def _ends_a_line(handle: int, end: int) -> bool:
    if end == 0:
        return True
    os.lseek(handle, end - 1, os.SEEK_SET)
    return os.read(handle, 1) == b"\n"


def _lock(handle: int) -> None:
    """Hold a file alone, where the system can do that; wait a little where another holds it."""
    if sys.platform == "win32":
        return
    for _ in range(_TRIES):
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            time.sleep(_PAUSE)
        except OSError:  # a disk without locks
            return
        else:
            return
    raise OSError(errno.EAGAIN, "another program has locked this file")
