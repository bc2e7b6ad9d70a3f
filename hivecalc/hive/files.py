"""Files: read where they are small text, written whole or not at all; errors in one sentence."""

import errno
import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Final

from hivecalc.hive.faults import Fault, HiveFaults
from hivecalc.hive.texts import seen

MOST_BYTES: Final = 1_000_000

A_FILE: Final = "name a hive file, or write a new one with `hivecalc new FILE`"
A_TARGET: Final = "nothing was changed; name a file in a folder that you may write to"

_REASONS: Final = {
    errno.ENOENT: "there is no such file or folder",
    errno.ENOTDIR: "a part of this path is a file, not a folder",
    errno.EISDIR: "this is a folder",
    errno.EACCES: "you have no permission",
    errno.EPERM: "you have no permission",
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "your part of the disk is full",
    errno.EROFS: "this disk can only be read",
    errno.ENAMETOOLONG: "this name is too long",
    errno.ELOOP: "these links lead round in a circle",
}


@contextmanager
def system_faults(path: str | Path, accepted: str) -> Iterator[None]:
    """Raise HiveFaults for what the system refuses within; it has a ValueError for a name."""
    try:
        yield
    except OSError as error:
        reason = _REASONS.get(error.errno or 0) or seen(error.strerror or str(error))
        raise file_faults(path, reason, accepted) from None
    except ValueError:
        raise file_faults(path, "this is no name that a file can have", accepted) from None


def file_faults(path: str | Path, found: str, accepted: str = A_FILE) -> HiveFaults:
    """Error that tells one fault of a whole file.

    >>> print(file_faults("hive.toml", "this file is empty", "name another"))
    hive.toml: this file is empty; name another.
    """
    return HiveFaults([Fault(seen(str(path)), found, accepted)])


# ── reading ───────────────────────────────────────────────────────────────────────────────────


def data_in(path: str | Path) -> bytes:
    """What is in a file; of one too big only so much that this can be seen."""
    with Path(path).open("rb") as file:
        return file.read(MOST_BYTES + 1)


def text_of(path: str | Path, data: bytes, accepted: str = A_FILE) -> str:
    """Text that the data of a file say, without a byte order mark.

    >>> text_of("hive.toml", b"# A hive file")
    '# A hive file'

    Raises HiveFaults for data that are too many or no text; what is accepted is said there.
    """
    if len(data) > MOST_BYTES:
        raise file_faults(path, "this file is bigger than 1 MB", accepted)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        found = f"this file is not text in UTF-8 (see byte {error.start + 1})"
        raise file_faults(path, found, accepted) from None


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
        _replace_file(target, content, _old_mode(target))


def _old_mode(target: Path) -> int | None:
    """Return the permissions of the file that is to be replaced, or None where there is none."""
    try:
        mode = target.stat().st_mode
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(mode):
        raise IsADirectoryError(errno.EISDIR, "")
    if not stat.S_ISREG(mode):
        raise OSError(errno.EINVAL, "this is no plain file")
    if not os.access(target, os.W_OK):
        raise PermissionError(errno.EACCES, "")
    return stat.S_IMODE(mode)


def _replace_file(target: Path, content: bytes, mode: int | None) -> None:
    beside = target.with_name(f".{os.urandom(6).hex()}.part")
    try:
        _write_through(beside, content, mode)
        beside.replace(target)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
    _settle(target.parent)


def _write_through(path: Path, content: bytes, mode: int | None) -> None:
    """Write a new file down to the disk itself."""
    with path.open("xb") as file:
        if mode is not None:
            path.chmod(mode)
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _settle(folder: Path) -> None:
    """Write a folder's list of files down to the disk, where the system can do that."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
