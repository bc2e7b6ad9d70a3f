"""A learner's answers in their file: kept, read back, never lost; whatever happens to the file.

What is expected follows from the form that the module's docstring describes.
"""

import errno
import fcntl
import json
import os
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from datetime import datetime, timedelta, timezone
from pathlib import Path
from threading import Barrier
from typing import get_args

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from hivecalc.answers import STEPS, Answer, Answers, answers_path, kept
from hivecalc.hive import HiveFaults, demo_hive
from hivecalc.judging import Judgement, NamedSlip, Verdict, verdict
from hivecalc.support import files
from tests.commands import in_a_process
from tests.refusing import as_nobody, failing, little_room

PANEL, SIDE = "bottom_board.panel_width", "bottom_board.side_rail_length"
NOW = datetime(2026, 5, 2, 10, 15, tzinfo=timezone(timedelta(hours=2)))
DEMO = demo_hive()
FSYNC = os.fsync
HEADER = b'{"schema": "hivecalc-answers/1", "hive": "Orchard hive"}\n'


@pytest.fixture(autouse=True)
def _no_waiting_for_the_disk(monkeypatch):
    monkeypatch.setattr(os, "fsync", lambda _: None)  # where it counts, a test lets it fail


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return answers_path(tmp_path / "my-hive.toml")


def entered(answers: Answers, text: str, asked: str = PANEL) -> Answer:
    """An answer that is judged and saved, as a page does it."""
    return answers.add(asked, text, verdict(DEMO, asked, text), NOW)


def filled(path: Path, *texts: str) -> Answers:
    answers = Answers(path, DEMO.name)
    for text in texts:
        entered(answers, text)
    return answers


def told(answers: Answers) -> str:
    return "\n".join(map(str, answers.faults))


@contextmanager
def refused(part: str) -> Iterator[None]:
    """Check that an answer is not saved, for a reason told in one sentence."""
    with pytest.raises(HiveFaults) as caught:
        yield
    sentence = str(caught.value)
    assert part in sentence
    assert sentence.endswith(".")
    assert "\n" not in sentence
    assert sentence.isprintable()


# ── kept ──────────────────────────────────────────────────────────────────────────────────────


def test_an_answer_stands_in_the_file_as_the_docstring_says(path):
    answers = Answers(path, DEMO.name)  # before the first there is no file, and no fault
    assert (answers.all(), answers.last(PANEL), answers.faults) == ([], None, ())
    assert not path.exists()
    filled(path, "14 3/8")
    header, line = path.read_bytes().splitlines(keepends=True)
    assert header == HEADER
    documented = " ".join((kept.__doc__ or "").split())
    assert header.decode().strip() in documented
    assert line.decode().strip() in documented


def test_answers_are_there_again_when_reopened(path):
    given_before = [entered(filled(path), t, a) for t, a in [("14", PANEL), ("21 5/8", SIDE),
                                                            ("14 1/8", PANEL)]]  # fmt: skip
    again = Answers(path, DEMO.name)
    assert again.all() == given_before
    assert again.last(PANEL) == given_before[2]
    assert again.last(SIDE).right
    assert again.last("roof.lap") is None
    assert again.faults == ()


def test_what_another_window_adds_is_seen(path):
    ours, theirs = filled(path, "14"), Answers(path, DEMO.name)
    assert theirs.last(PANEL).answer == "14"
    entered(theirs, "14 1/8")
    assert ours.last(PANEL).answer == "14 1/8"
    assert path.read_bytes().count(b"schema") == 1


TEXTS = st.text(st.characters(), max_size=60) | st.sampled_from(["\ud800", "21 ⅝", "\n", "\u2028"])
TIMES = st.datetimes(
    datetime(1901, 1, 1), datetime(2998, 1, 1),  # noqa: DTZ001 - the offset comes beside it
    timezones=st.integers(-1439, 1439).map(lambda m: timezone(timedelta(minutes=m))),
)  # fmt: skip
SLIP_NAMES = st.lists(st.text(max_size=9), max_size=3)


def judged(kind: Judgement, slips: list[str]) -> Verdict:
    named = tuple(NamedSlip(s, PANEL, "", "", "", "") for s in slips)
    return Verdict(PANEL, "", kind, "", slips=named)


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.tuples(TEXTS, TEXTS, st.sampled_from(get_args(Judgement)), SLIP_NAMES, TIMES),
                min_size=1, max_size=5), TEXTS)  # fmt: skip
@example([("a\r", '"}\n{', "slip", ["\x00"], NOW)], "\x85")
def test_any_answers_are_read_back_as_they_were_given(path, rows, hive):
    path.unlink(missing_ok=True)
    answers = Answers(path, hive)
    saved = [answers.add(a, t, judged(kind, s), when) for a, t, kind, s, when in rows]
    again = Answers(path, hive)
    assert again.all() == [a for a in saved if not a.asked.endswith(STEPS)]
    assert again.asked() == {a.asked for a in saved}
    assert again.faults == ()
    for (asked, text, kind, slips, when), answer in zip(rows, saved, strict=True):
        assert (answer.asked, answer.answer, answer.verdict) == (asked, text, kind)
        assert list(answer.slips) == slips
        assert timedelta(0) <= when - answer.when < timedelta(seconds=1)
        assert when.utcoffset() == answer.when.utcoffset()
    raw = path.read_bytes()
    assert raw.isascii()
    assert raw.decode().replace("\n", "").isprintable()


def test_bad_answers_are_kept_with_their_verdict(path):
    bad = [
        "", "a foot", "x" * 900, "٢١", "21\u202e 5/8", "<script>alert(1)</script>", "=1+1",
        "about 21", "21 22", "-21", "0.5 mi", "21 seconds", "__import__('os').abort()",
    ]  # fmt: skip
    filled(path, *bad)
    found = Answers(path, DEMO.name).all()
    assert [a.answer for a in found] == bad
    assert {a.verdict for a in found} == {"unreadable"}


def test_of_an_endless_answer_the_beginning_is_kept(path):
    filled(path, "9" * 10_000_000)
    assert Answers(path).last(PANEL).answer == "9" * 1000 + "…"
    assert path.stat().st_size < 2000


def test_a_time_without_an_offset_is_refused(path):
    naive = NOW.replace(tzinfo=None)
    with pytest.raises(ValueError, match="offset"):
        Answers(path).add(PANEL, "14", verdict(DEMO, PANEL, "14"), naive)
    assert not path.exists()


# ── two at once ───────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("locks", [True, False], ids=["locks", "no locks"])
def test_two_that_append_at_once_mix_no_lines(path, monkeypatch, locks):
    """Where a disk knows no locks, one write at the end of the file does it alone.

    Each opens the file for itself at every answer, so the system takes them for two.
    """
    monkeypatch.setattr(os, "fsync", FSYNC)  # each waits there while the other goes on
    if not locks:
        monkeypatch.setattr(fcntl, "flock", failing(errno.ENOLCK))
    right, both = Verdict("roof.lap", "", "right", "Right."), Barrier(2)

    def add(who: str) -> None:
        answers = Answers(path, "Orchard hive")
        for number in range(150):
            if number == 1:  # until both are at it
                both.wait(60)
            answers.add(who, f"{number} " + "x" * (number % 90), right, NOW)

    with ThreadPoolExecutor(2) as pool:
        list(pool.map(add, ("Ana", "Ben")))
    found = Answers(path, "Orchard hive")
    assert found.faults == ()
    turns = [a.asked for a in found.all()]
    assert turns != sorted(turns)  # at the same time, or nothing could have mixed
    for who in ("Ana", "Ben"):
        numbers = [a.answer for a in found.all() if a.asked == who]
        assert numbers == [f"{n} " + "x" * (n % 90) for n in range(150)]


# ── cut short, full, locked, forbidden ────────────────────────────────────────────────────────


def test_a_file_cut_at_any_byte_costs_that_line_only(path):
    filled(path, "14", "14 1/8", "14 5/8")
    whole, lines = path.read_bytes(), path.read_bytes().splitlines(keepends=True)
    ends = [sum(map(len, lines[: n + 1])) for n in range(len(lines))]
    for cut in range(len(whole) + 1):
        path.write_bytes(whole[:cut])
        answers = Answers(path, DEMO.name)
        there = sum(cut >= end - 1 for end in ends[1:])  # the end of the line may be gone, too
        assert [a.answer for a in answers.all()] == ["14", "14 1/8", "14 5/8"][:there]
        in_line = cut > 0 and not any(cut in {end, end - 1} for end in ends)
        assert len(answers.faults) == in_line
        if in_line:
            assert f"line {sum(cut >= end for end in ends) + 1}: " in told(answers)
        entered(answers, "14 1/16")
        again = Answers(path, DEMO.name)
        assert [a.answer for a in again.all()][there:] == ["14 1/16"]
        assert len(again.faults) == in_line
        assert path.read_bytes().startswith(whole[:cut])
        assert path.read_bytes().endswith(b"\n")


def test_on_a_full_disk_the_file_stays_as_it_was(path, monkeypatch):
    answers = filled(path, "14")
    before, write = path.read_bytes(), os.write

    def filling_up(handle: int, data: bytes) -> int:
        if len(data) < 40:
            raise OSError(errno.ENOSPC, "No space left on device")
        return write(handle, data[:-30])

    monkeypatch.setattr(os, "write", filling_up)
    with refused("the disk is full; the answer was judged, but it is not saved"):
        entered(answers, "14 1/8")
    assert path.read_bytes() == before
    monkeypatch.undo()

    monkeypatch.setattr(os, "fsync", failing(errno.EIO))  # what is not kept is taken back
    with refused("Input/output error"):
        entered(answers, "14 1/8")
    assert path.read_bytes() == before
    monkeypatch.undo()
    entered(answers, "14 1/8")
    assert [a.answer for a in answers.all()] == ["14", "14 1/8"]


def test_where_a_file_may_grow_no_further_nothing_is_left_behind(path):
    answers = filled(path, "14")
    before = path.read_bytes()
    # the system itself writes a part of the line, and then no more
    with little_room(len(before) + 20), refused("it is not saved"):
        entered(answers, "14 1/8")
    assert path.read_bytes() == before


def test_a_locked_file_is_told_and_waited_for(path, monkeypatch):
    answers = filled(path, "14")
    before = path.read_bytes()
    monkeypatch.setattr(files, "_PAUSE", 0.0001)
    with path.open("rb") as other:
        fcntl.flock(other, fcntl.LOCK_EX)
        with refused("another program has locked this file"):
            entered(answers, "14 1/8")
        assert path.read_bytes() == before
        monkeypatch.setattr(files.time, "sleep", lambda _: fcntl.flock(other, fcntl.LOCK_UN))
        entered(answers, "14 1/8")
    assert len(answers.all()) == 2


@pytest.fixture
def open_to_all(tmp_path: Path) -> None:
    """Folders that anybody may go through, as pytest makes its own for one user."""
    for folder in (tmp_path, *tmp_path.parents[:3]):
        folder.chmod(folder.stat().st_mode | 0o755)


@pytest.mark.usefixtures("open_to_all")
@pytest.mark.parametrize(("mode", "read", "said"), [
    (0o444, ["14"], ""),
    (0o000, [], "you have no permission; the answers in it can't be shown"),
])  # fmt: skip
def test_without_permission_what_can_be_read_is_read_and_the_rest_is_told(path, mode, read, said):
    filled(path, "14").path.chmod(mode)
    with as_nobody():
        answers = Answers(path, DEMO.name)
        assert ([a.answer for a in answers.all()], bool(answers.faults)) == (read, bool(said))
        assert said in told(answers)
        with refused("you have no permission"):
            entered(answers, "14 1/8")
    path.chmod(0o644)
    assert [a.answer for a in Answers(path).all()] == ["14"]


def test_what_is_no_plain_file_is_told_at_once(tmp_path):
    os.mkfifo(tmp_path / "fifo")
    places = {
        tmp_path: "this is a folder",
        tmp_path / "fifo": "this is not an ordinary file",
        Path("/dev/full"): "this is not an ordinary file",
        tmp_path / "a\x00b": "this is not a name that a file can have",
        tmp_path / ("x" * 300): "this name is too long",
    }
    for place, part in places.items():
        answers = Answers(place, DEMO.name)
        assert answers.all() == []
        assert part in told(answers)
        with refused(part):
            entered(answers, "14")
    with refused("there is no such file or folder"):
        entered(Answers(tmp_path / "none" / "x.jsonl"), "14")


# ── versions, other hives, edited by hand ─────────────────────────────────────────────────────


@pytest.mark.parametrize("schema", ["hivecalc-answers/2", "hivecalc/1", "<b>\x1b[31m", 2, None])
def test_a_file_of_another_version_is_told_and_left_alone(path, schema):
    later = json.dumps({"schema": schema, "hive": DEMO.name}).encode() + b'\n{"new": 1}\n'
    path.write_bytes(later)
    answers = Answers(path, DEMO.name)
    assert answers.all() == []
    (fault,) = answers.faults
    assert fault.found.endswith("is a version of answers that this hivecalc does not know")
    with refused("until you get a newer hivecalc"):
        entered(answers, "14")
    assert path.read_bytes() == later


def test_what_a_newer_version_has_added_further_down_is_left_alone(path):
    filled(path, "14")
    later = path.read_bytes() + b'{"schema": "hivecalc-answers/2"}\n{"new": 1}\n'
    path.write_bytes(later)
    answers = Answers(path, DEMO.name)
    assert [a.answer for a in answers.all()] == ["14"]
    with refused("“hivecalc-answers/2”"):
        entered(answers, "14")
    assert path.read_bytes() == later
    later = HEADER.replace(b"/1", b"/2") + b'{"a": "b"}\n' * 400_000  # or a large one
    path.write_bytes(later)
    answers = Answers(path, DEMO.name)
    assert answers.all() == []
    with refused("bigger than 4 MB"):
        entered(answers, "14")
    assert path.read_bytes() == later


def test_answers_of_another_hive_are_told_and_kept(path):
    filled(path, "14")
    other = Answers(path, "Second hive")
    assert "are for the hive “Orchard hive”, and this is “Second hive”" in told(other)
    assert other.last(PANEL).answer == "14"
    entered(other, "15")
    assert other.faults == ()
    assert [a.answer for a in Answers(path).all()] == ["14", "15"]
    assert path.read_bytes().splitlines()[2] == HEADER.replace(b"Orchard", b"Second").strip()


def test_each_answer_says_for_which_hive_it_was(path):
    filled(path, "14")
    entered(Answers(path, "Second hive"), "15")
    entered(Answers(path), "16")  # who does not say which hive goes on with the last one
    hives = [a.hive for a in Answers(path).all()]
    assert hives == ["Orchard hive", "Second hive", "Second hive"]
    assert path.read_bytes().count(b"schema") == 2
    path.write_bytes(json.dumps(GOOD).encode() + b"\n")  # no header
    assert [a.hive for a in Answers(path, "Second hive").all()] == [""]


def test_whoever_watches_is_told_of_an_answer_once_it_is_saved(path):
    answers, seen = Answers(path, DEMO.name), []
    answers.watch(lambda: seen.append(answers.last(PANEL).answer))
    entered(answers, "14")
    entered(answers, "14 1/8")
    assert seen == ["14", "14 1/8"]
    path.unlink()
    path.mkdir()
    with refused("this is a folder"):
        entered(answers, "15")
    assert seen == ["14", "14 1/8"]


GOOD = {"when": NOW.isoformat(), "asked": PANEL, "answer": "14", "verdict": "right", "slips": []}
DAMAGED = {
    b"\xff\xfe": "not text in UTF-8", b'{"when": "2026': "cut short or isn't JSON",
    b"14 1/8 right": "isn't JSON", b"[" * 100_000: "isn't JSON", b'["14"]': "not a JSON object",
    b"null": "not a JSON object", b"1" * 5000: "isn't JSON", b"{}": "“asked” is missing",
    json.dumps({**GOOD, "answer": 14}).encode(): "“answer” is missing, or not text",
    json.dumps({**GOOD, "verdict": "perfect"}).encode(): "“perfect” is not a verdict",
    json.dumps({**GOOD, "slips": "gap_added"}).encode(): "“slips” is missing, or not a list",
    json.dumps({**GOOD, "slips": [1]}).encode(): "“slips” is missing, or not a list",
    json.dumps({**GOOD, "when": "yesterday"}).encode(): "“yesterday” is not a time",
    json.dumps({**GOOD, "when": "2026-05-02T10:15:00"}).encode(): "not a time with its offset",
    json.dumps({**GOOD, "when": "3000-01-01T00:00:00+00:00"}).encode(): "not a time",
    json.dumps({**GOOD, "when": "1899-12-31T23:59:59+00:00"}).encode(): "not a time",
    b'{"schema": "hivecalc-answers/1"}': "names no hive",
}  # fmt: skip


def test_a_damaged_line_costs_that_line_only_and_is_told_with_its_number(path):
    line = json.dumps(GOOD).encode()
    path.write_bytes(HEADER + b"".join(bad + b"\n" + line + b"\n" for bad in DAMAGED))
    before = path.read_bytes()
    answers = Answers(path, DEMO.name)
    assert len(answers.all()) == len(DAMAGED)
    assert len(answers.faults) == len(DAMAGED)
    for number, (fault, part) in enumerate(zip(answers.faults, DAMAGED.values(), strict=True)):
        assert fault.place == f"{path}, line {2 * number + 2}"
        assert part in fault.found
        assert str(fault).isprintable()
    entered(answers, "15")
    assert path.read_bytes().startswith(before)


def test_of_very_many_damaged_lines_the_first_are_told_and_the_rest_counted(path):
    path.write_bytes(HEADER + b"?\n" * 1234)
    faults = Answers(path, DEMO.name).faults
    assert len(faults) == 101
    told = str(faults[-1])
    assert told.endswith("1,134 more lines can't be read; they stay as they are.")


def test_what_an_editor_leaves_behind_does_no_harm(path):
    line = json.dumps({**GOOD, "note": "my own", "answer": "21 ⅝"}, ensure_ascii=False).encode()
    path.write_bytes(b"\xef\xbb\xbf" + HEADER.replace(b"\n", b"\r\n") + b"\r\n\n  \n" + line)
    answers = Answers(path, DEMO.name)
    assert ([a.answer for a in answers.all()], answers.faults) == (["21 ⅝"], ())
    entered(answers, "15")
    assert [a.answer for a in answers.all()] == ["21 ⅝", "15"]


def test_a_header_taken_out_is_told_and_comes_with_the_next_answer(path):
    path.write_bytes(json.dumps(GOOD).encode() + b"\n")
    answers = Answers(path, DEMO.name)
    assert "the header, is gone" in told(answers)
    assert len(answers.all()) == 1
    entered(answers, "15")
    assert (len(answers.all()), answers.faults) == (2, ())


# ── far too big ───────────────────────────────────────────────────────────────────────────────

READING = """
from hivecalc.answers import Answers
answers = Answers(sys.argv[1], "Orchard hive")
print(len(answers.all()), *answers.faults, sep="\\n")
"""


def test_a_file_bigger_than_4_mb_is_told_in_a_sentence_and_left_alone(path):
    line = json.dumps(GOOD).encode() + b"\n"
    held = HEADER + line * ((4_000_000 - len(HEADER)) // len(line))
    path.write_bytes(held)
    assert len(Answers(path, DEMO.name).all()) > 20_000
    path.write_bytes(held + line)
    answers = Answers(path, DEMO.name)
    assert answers.all() == []
    (fault,) = answers.faults
    assert "bigger than 4 MB, more than one learner's answers; it stays as it is" in str(fault)
    assert answers.closed == fault
    with refused("until you move it to another folder"):
        entered(answers, "15")
    assert path.read_bytes() == held + line


def test_of_100_mb_no_more_is_read_than_may_be(path):
    with path.open("wb") as file:
        file.write(HEADER)
        file.truncate(100_000_000)
    megabytes, _, (count, *faults) = in_a_process(READING, path)
    assert (count, len(faults)) == ("0", 1)
    assert megabytes < 60


def test_one_endless_line_is_one_fault(path):
    path.write_bytes(HEADER + b"x" * 3_000_000)
    answers = Answers(path, DEMO.name)
    assert (answers.all(), len(answers.faults)) == ([], 1)
    entered(answers, "14")
    assert answers.last(PANEL).answer == "14"
