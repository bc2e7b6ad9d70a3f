"""Files: read where they are small text, written whole or not at all, locked by one at a time."""

import errno
import os
import stat
from collections.abc import Callable, Iterator
from contextlib import nullcontext
from pathlib import Path

import pytest

from hivecalc.hive import HiveFaults, hive_from_file, locked, write_new, write_whole
from hivecalc.support import files
from hivecalc.support.faults import escaped, quoted, steers
from tests.refusing import as_nobody, failing, little_room


def names_in(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


# ── read ──────────────────────────────────────────────────────────────────────────────────────


def locked_away(folder: Path) -> Path:
    path = folder / "hive.toml"
    path.write_text("")
    path.chmod(0)
    return path


# What the file holds, or which file is read, and what is said.
UNREADABLE: list[tuple[bytes | str | Callable[[Path], Path], str]] = [
    (lambda folder: folder / "none", "there is no such file or folder; name a hive file, or write"),
    (lambda folder: folder, "this is a folder"), (locked_away, "you have no permission"),
    (b"", "this file is empty"), (b" \n\n", "this file is empty"),
    (b"\xef\xbb\xbf", "this file is empty"),
    (b"\x7fELF\x02\xff\xfe", "this file is not text in UTF-8 (see byte 6)"),
    ("name = 'é'".encode("latin-1"), "not text in UTF-8 (see byte 9)"),
    ("name".encode("utf-16"), "not text in UTF-8 (see byte 1)"),
    (b"\0" * 500, "cannot be read as TOML"),
    (b"#" * 1_000_001, "this file is bigger than 1 MB"),
    ("a\0b", "not a name that a file can have"), ("a\ud800", "not a name that a file can have"),
    ("x" * 5000, "this name is too long"),
    ("/dev/null/hive.toml", "a part of this path is a file, not a folder"),
]  # fmt: skip


@pytest.mark.parametrize(("what", "reason"), UNREADABLE, ids=range(len(UNREADABLE)))
def test_a_file_that_cannot_be_read_is_one_sentence(tmp_path, what, reason):
    path = what(tmp_path) if callable(what) else what
    if isinstance(path, bytes):
        path = tmp_path / "hive.toml"
        path.write_bytes(what)
    rights = as_nobody() if what is locked_away else nullcontext()
    with rights, pytest.raises(HiveFaults) as caught:
        hive_from_file(path)
    sentence = str(caught.value)
    assert reason in sentence
    assert sentence.isprintable()
    assert sentence.endswith(".")


def test_what_the_system_says_is_told(tmp_path, monkeypatch):
    for number, reason in ((errno.EACCES, "you have no permission"), (errno.EIO, "Input/output")):
        monkeypatch.setattr(Path, "open", failing(number))
        with pytest.raises(HiveFaults, match=reason):
            hive_from_file(tmp_path / "hive.toml")


# ── whole or not at all ───────────────────────────────────────────────────────────────────────


@pytest.fixture
def old_file(tmp_path: Path) -> Iterator[Path]:
    """A file, which must still be there alone, byte for byte, when a write has failed."""
    path = tmp_path / "kept.txt"
    path.write_bytes(b"old\r\n\xff")
    yield path
    assert path.read_bytes() == b"old\r\n\xff"
    assert names_in(tmp_path) == ["kept.txt"]


FAILING = {
    errno.ENOSPC: "the disk is full", errno.EDQUOT: "your part of the disk is full",
    errno.EROFS: "this disk can only be read", errno.EACCES: "you have no permission",
    errno.EIO: os.strerror(errno.EIO),
}  # fmt: skip


@pytest.mark.parametrize("step", ["replace", "fsync"])
@pytest.mark.parametrize("number", FAILING)
def test_a_step_that_fails_leaves_the_old_file(old_file, monkeypatch, step, number):
    with monkeypatch.context() as patched:
        patched.setattr(files.time, "sleep", lambda _: None)
        patched.setattr(os, step, failing(number))
        with pytest.raises(HiveFaults) as caught:
            write_whole(old_file, "new")
    (fault,) = caught.value.faults
    assert (fault.place, fault.found) == (str(old_file), FAILING[number])
    assert fault.accepted.startswith("nothing was changed")


def test_a_file_that_does_not_go_onto_the_disk_leaves_the_old_one(old_file):
    with little_room(), pytest.raises(HiveFaults, match=os.strerror(errno.EFBIG)):
        write_whole(old_file, b"x" * 100_000)


def test_an_interrupt_leaves_the_old_file(old_file, monkeypatch):
    def interrupt(_: int) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", interrupt)
        with pytest.raises(KeyboardInterrupt):
            write_whole(old_file, "new")


def test_nothing_is_overwritten_by_a_new_file_nor_a_file_set_to_be_only_read(old_file, monkeypatch):
    with pytest.raises(HiveFaults, match="this file is there already"):
        write_new(old_file, "new")
    old_file.chmod(0o444)
    if not os.geteuid():  # root may write it all the same, so the answer for others is given here
        monkeypatch.setattr(os, "access", lambda *_: False)
    with pytest.raises(HiveFaults, match="you have no permission"):
        write_whole(old_file, "new")


def test_data_is_on_the_disk_before_the_new_file_takes_the_old_ones_place(tmp_path, monkeypatch):
    steps: list[str] = []

    def noting(step: str, really: Callable[..., None]) -> Callable[..., None]:
        def noted(*given: object) -> None:
            steps.append(step)
            really(*given)

        return noted

    monkeypatch.setattr(os, "fsync", noting("fsync", os.fsync))
    monkeypatch.setattr(os, "replace", noting("replace", os.replace))
    write_whole(tmp_path / "new.txt", "new")
    assert steps == ["fsync", "replace", "fsync"]


def test_bytes_and_text_are_written_as_they_are(tmp_path):
    write_whole(tmp_path / "a", "é\n\r\n")
    write_whole(str(tmp_path / "b"), b"\xff\n")
    assert (tmp_path / "a").read_bytes() == b"\xc3\xa9\n\r\n"
    assert (tmp_path / "b").read_bytes() == b"\xff\n"
    assert names_in(tmp_path) == ["a", "b"]


def test_permissions_stay_and_a_new_file_has_those_of_any_new_file(tmp_path):
    path = tmp_path / "old"
    for mode in (0o600, 0o640, 0o664):
        path.write_text("old")
        path.chmod(mode)
        write_whole(path, "new")
        assert stat.S_IMODE(path.stat().st_mode) == mode
    (tmp_path / "any").write_text("")
    write_whole(tmp_path / "new", "")
    assert (tmp_path / "new").stat().st_mode == (tmp_path / "any").stat().st_mode


@pytest.mark.parametrize("before", ["old", None])
def test_a_link_is_followed_also_to_nothing(tmp_path, before):
    (tmp_path / "folder").mkdir()
    target, link = tmp_path / "folder" / "hive.toml", tmp_path / "link"
    if before is not None:
        target.write_text(before)
    link.symlink_to(target)
    write_whole(link, "new")
    assert link.is_symlink()
    assert target.read_text() == "new"
    assert names_in(tmp_path / "folder") == ["hive.toml"]


@pytest.fixture
def odd_places(tmp_path: Path) -> Path:
    """A folder with a link in a circle, a pipe and a file."""
    (tmp_path / "link").symlink_to("link")
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "file").write_text("")
    return tmp_path


UNWRITABLE = {
    "none/a.txt": "there is no such file or folder", ".": "this is a folder", "link": "circle",
    "pipe": "this is not an ordinary file", "file/a.txt": "a part of this path is a file",
    "x" * 300: "this name is too long", "a\0b": "not a name that a file can have",
}  # fmt: skip


@pytest.mark.parametrize("place", UNWRITABLE, ids=range(len(UNWRITABLE)))
def test_a_place_that_cannot_be_written_to_is_one_sentence(odd_places, place):
    before = names_in(odd_places)
    with pytest.raises(HiveFaults, match=UNWRITABLE[place]) as caught:
        write_whole(odd_places / place, "new")
    assert str(caught.value).isprintable()
    assert names_in(odd_places) == before


# ── one at a time ─────────────────────────────────────────────────────────────────────────────


def test_a_file_that_another_program_has_open_is_replaced_a_moment_later(tmp_path, monkeypatch):
    path, really, tried = tmp_path / "old", os.replace, []
    path.write_text("old")

    def busy(*names: str) -> None:
        tried.append(names)
        if len(tried) < 3:
            raise PermissionError(errno.EACCES, "another program has this file open")
        really(*names)

    monkeypatch.setattr(os, "replace", busy)
    monkeypatch.setattr(files.time, "sleep", lambda _: None)
    write_whole(path, "new")
    assert (len(tried), path.read_text(), names_in(tmp_path)) == (3, "new", ["old"])


def test_a_file_that_stays_open_elsewhere_is_tried_for_half_a_second(old_file, monkeypatch):
    """A virus scanner lets go of a file within that: common practice, no published source."""
    waited: list[float] = []
    with monkeypatch.context() as patched:
        patched.setattr(files.time, "sleep", waited.append)
        patched.setattr(os, "replace", failing(errno.EACCES))
        with pytest.raises(HiveFaults, match="you have no permission"):
            write_whole(old_file, "new")
    assert sum(waited) == pytest.approx(0.5)


def test_whoever_locks_a_file_is_waited_for_and_told_at_last(old_file, monkeypatch):
    """As long as a person's attention lasts: ten seconds (J. Nielsen, 1993; from memory)."""
    waited: list[float] = []
    monkeypatch.setattr(files.time, "sleep", waited.append)
    with locked(old_file):
        refused = pytest.raises(HiveFaults, match="another program has locked this file")
        with refused, locked(old_file):
            pass
    assert sum(waited) == pytest.approx(10)
    assert max(waited) < 0.1  # who waits hears of it at once, as one feels it
    with locked(old_file):
        assert len(names_in(old_file.parent)) == 2
    assert names_in(old_file.parent) == [old_file.name]


def test_a_file_with_the_longest_name_can_be_locked(tmp_path):
    with locked(tmp_path / ("é" * 125 + ".toml")):
        assert len(names_in(tmp_path)) == 1


# ── harmless text ─────────────────────────────────────────────────────────────────────────────


def test_text_that_cannot_be_seen_or_steers_stands_as_an_escape():
    assert escaped("a\x1b[31m\u202eb\n") == "a\\x1b[31m\\u202eb\\n"
    assert quoted("q" * 41) == f"“{'q' * 40}…”"
    assert quoted("q" * 40) == f"“{'q' * 40}”"
    assert len(quoted("\x1b" * 40)) == 43  # what an escape takes up counts
    assert [c for c in "a \u202e\u2028\x07\uffff\U0001fffe蜂é" if steers(c)] == [
        "\u202e", "\u2028", "\x07", "\uffff", "\U0001fffe",
    ]  # fmt: skip
