"""Files: small ones read, written whole or not at all, locked by one at a time; their TOML.

Errors are one sentence.
"""

import errno
import os
import re
import stat
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Final

from hivecalc.support.faults import Fault, HiveFaults, escaped, raise_faults

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl


MOST_BYTES: Final = 1_000_000
PART: Final = re.compile(r"\.[0-9a-f]{12}\.part")
"""Name of a file that is not written whole yet; one that is old was left by a crash."""

_TRIES, _PAUSE = 1000, 0.01  # ten seconds in all, while another program holds a file
_REPLACE_TRIES, _REPLACE_PAUSE = 5, 0.1  # a virus scanner holds a file for moments
_BEYOND: Final = 1 << 30  # a byte that no file here has, as Windows keeps others from what is held

A_FILE: Final = "name a hive file, or write a new one with `hivecalc new FILE`"
A_TARGET: Final = "nothing was changed; name a file in a folder that you may write to"

_REASONS: Final = {
    errno.ENOENT: "there is no such file or folder",
    errno.ENOTDIR: "a part of this path is a file, not a folder",
    errno.EISDIR: "this is a folder",
    errno.EEXIST: "a file of this name is there already",
    errno.EACCES: "you have no permission",
    errno.EPERM: "you have no permission",
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "your part of the disk is full",
    errno.EROFS: "this disk can only be read",
    errno.ENAMETOOLONG: "this name is too long",
    errno.ELOOP: "these links lead round in a circle",
}


def reason(error: OSError) -> str:
    """Why the system refuses something, in words."""
    return _REASONS.get(error.errno or 0) or escaped(error.strerror or str(error))


@contextmanager
def system_faults(path: str | Path, accepted: str) -> Iterator[None]:
    """Raise HiveFaults for what the system refuses within; it has a ValueError for a name."""
    try:
        yield
    except OSError as error:
        raise file_faults(path, reason(error), accepted) from None
    except ValueError:
        raise file_faults(path, "this is not a name that a file can have", accepted) from None


def file_faults(path: str | Path, found: str, accepted: str = A_FILE) -> HiveFaults:
    """Error that tells one fault of a whole file."""
    return HiveFaults([Fault(escaped(str(path)), found, accepted)])


# ── reading ───────────────────────────────────────────────────────────────────────────────────


def stamp(path: Path) -> tuple[int, ...]:
    """What a file's place, size and time are now; nothing where there is none."""
    try:
        now = path.stat()
    except (OSError, ValueError):
        return ()
    return now.st_ino, now.st_size, now.st_mtime_ns


def data_in(path: str | Path) -> bytes:
    """What is in a file; of one too big only so much that this can be seen."""
    with Path(path).open("rb") as file:
        return file.read(MOST_BYTES + 1)


def text_of(path: str | Path, data: bytes, accepted: str = A_FILE) -> str:
    """Text that the data of a file say, without a byte order mark.

    Raises HiveFaults for data that are too many or no text; what is accepted is said there.
    """
    if len(data) > MOST_BYTES:
        raise file_faults(path, "this file is bigger than 1 MB", accepted)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        found = f"this file is not text in UTF-8 (see byte {error.start + 1})"
        raise file_faults(path, found, accepted) from None


def text_in(path: str | Path, accepted: str = A_FILE) -> str:
    """Text of a file.

    Raises HiveFaults for one that can't be read, is too big, no text, or empty.
    """
    with system_faults(path, accepted):
        data = data_in(path)
    text = text_of(path, data, accepted)
    if not text.strip():
        raise file_faults(path, "this file is empty", accepted)
    return text


# ── writing ───────────────────────────────────────────────────────────────────────────────────


def write_new(path: str | Path, data: str | bytes) -> None:
    """Write a file that is not there yet, whole; one that is there stays as it is.

    Raises HiveFaults with the reason where nothing was written.
    """
    if os.path.lexists(path):
        accepted = "choose another name, as nothing is ever overwritten"
        raise file_faults(path, "this file is there already", accepted)
    write_whole(path, data)


def write_whole(path: str | Path, data: str | bytes) -> None:
    """Write a file whole or not at all: on any error the old file stands as it was.

    The data goes to a new file beside it, which takes its place when all is on the disk. A link is
    followed; the permissions of the old file stay. Raises HiveFaults with the reason.
    """
    content = data.encode("utf-8") if isinstance(data, str) else data
    with system_faults(path, A_TARGET):
        target = Path(os.path.realpath(path))  # resolve() has no OSError for a circle
        old = ordinary_mode(target)
        if old is not None and not os.access(target, os.W_OK):
            raise PermissionError(errno.EACCES, "")
        _replace_file(target, content, old)


def ordinary_mode(path: Path) -> int | None:
    """The permissions of an ordinary file, or None where there is none.

    Raises OSError for a folder and for what is not an ordinary file.
    """
    try:
        mode = path.stat().st_mode
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(mode):
        raise IsADirectoryError(errno.EISDIR, "")
    if not stat.S_ISREG(mode):
        raise OSError(errno.EINVAL, "this is not an ordinary file")
    return stat.S_IMODE(mode)


def _replace_file(target: Path, content: bytes, mode: int | None) -> None:
    beside = target.with_name(f".{os.urandom(6).hex()}.part")
    try:
        with beside.open("xb") as file:
            if mode is not None:
                beside.chmod(mode)
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        _take_place(beside, target)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
    with suppress(OSError):  # the folder's list of files, too, where the system can do that
        handle = os.open(target.parent, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _take_place(beside: Path, target: Path) -> None:
    """Put a file in another's place; try again where a program has that open, as on Windows."""
    for _ in range(_REPLACE_TRIES):
        try:
            beside.replace(target)
        except PermissionError:
            time.sleep(_REPLACE_PAUSE)
        else:
            return
    beside.replace(target)


# ── one at a time ─────────────────────────────────────────────────────────────────────────────


@contextmanager
def locked(path: str | Path) -> Iterator[None]:
    """Keep a file locked from reading to replacing it, so that whoever else would waits here.

    What is locked is a file beside it, as the file itself is replaced; it is gone afterwards.
    Raises HiveFaults where that can't be, or where another program keeps it for ten seconds.
    """
    target = Path(os.path.realpath(path))
    beside = target.with_name(f".{target.name[:60]}.lock")  # a long name can't get longer
    with system_faults(path, A_TARGET):
        handle = _lock_file(beside)
    try:
        yield
    finally:
        if sys.platform == "win32":  # an open file can't be removed there
            os.close(handle)
        with suppress(OSError):
            beside.unlink()
        if sys.platform != "win32":
            os.close(handle)


def _lock_file(beside: Path) -> int:
    """Return a handle of a file that is locked and still there: who held it may have removed it."""
    while True:
        handle = os.open(beside, os.O_RDWR | os.O_CREAT, 0o666)
        try:
            lock(handle)
            if os.path.samestat(os.fstat(handle), beside.stat()):
                return handle
        except FileNotFoundError:
            pass
        except BaseException:
            os.close(handle)
            raise
        os.close(handle)


def lock(handle: int) -> None:
    """Lock an open file until it is closed, where the disk knows locks; wait for another's.

    Raises OSError where another program keeps it locked.
    """
    for _ in range(_TRIES):
        try:
            _try_to_lock(handle)
        except (BlockingIOError, PermissionError):
            time.sleep(_PAUSE)
        except OSError:  # a disk without locks
            return
        else:
            return
    raise OSError(errno.EAGAIN, "another program has locked this file")


def _try_to_lock(handle: int) -> None:
    if sys.platform == "win32":
        os.lseek(handle, _BEYOND, os.SEEK_SET)
        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
    else:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)


# ── TOML, in which a decimal number stays as it is written ────────────────────────────────────────


LONGEST_LINE: Final = 1_000

_TOML_FORM: Final = (
    'a line is a [section], a # note, or a name with its value in quotes, like units = "inch"'
)


class Number(str):
    """A decimal number as it stands in the file, so that it stays exact."""

    __slots__ = ()


def toml_table(text: str, file: str) -> dict[str, object]:
    """Tables and values of a TOML text, its decimals as text.

    file is what faults call the text. Raises HiveFaults with the line and column of a slip.
    """
    import tomllib  # noqa: PLC0415 - the demo hive needs none of it

    raise_faults(_long_lines(text, file), file)
    try:
        return tomllib.loads(f"{text}\n", parse_float=Number)  # so that each fault has its line
    except tomllib.TOMLDecodeError as error:
        fault = _fault_of_slip(str(error), file)
    except RecursionError:
        fault = Fault(file, "lists or tables are nested too deeply in it", _TOML_FORM)
    raise HiveFaults([fault])


def _fault_of_slip(error: str, file: str) -> Fault:
    message, _, where = error.rstrip(")").rpartition(" (at ")
    if message.endswith(r"character '\n'"):  # a text ends on its line
        message = "the quote at its end is missing"
    found = f"this cannot be read as TOML ({escaped(message)})"
    return Fault(f"{file}, {where}", found, _TOML_FORM)


def _long_lines(text: str, file: str) -> Iterator[Fault]:
    """Yield a fault for each line that no person wrote; reading names of that length takes ages."""
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST_LINE:
            found = f"this line has {len(line)} characters"
            yield Fault(f"{file}, line {number}", found, f"{LONGEST_LINE} are enough")
