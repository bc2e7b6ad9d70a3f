"""Bad input: exit status 2, one sentence a fault, no traceback, and nothing written."""

import errno
import json
import os
import re
import subprocess
import sys
import unicodedata
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from hivecalc import course_folder
from hivecalc.hive import write_whole
from hivecalc.workshop import yard_text
from tests.commands import Told, called
from tests.jupyter_rig import ROOT
from tests.refusing import as_nobody, failing, little_room

GOOD = 'name = "Orchard hive"\n[measured]\nhive_length = "23 1/8"\nhive_width = "17 3/8"\n'


def tree(folder: Path) -> dict[str, bytes | None]:
    """Return all that is in a folder, hidden files too: names, and what the files hold."""
    found = (path for path in folder.rglob("*") if not path.is_symlink())
    return {str(p.relative_to(folder)): p.read_bytes() if p.is_file() else None for p in found}


def check_sentences(told: Told, *parts: str) -> None:
    """Check that a command was refused in one sentence for each of these parts."""
    assert (told.status, told.out) == (2, "")
    check_lines(told.err, *parts)


def check_lines(err: str, *parts: str) -> None:
    lines = err.splitlines()
    assert len(lines) == len(parts), err
    for line, part in zip(lines, parts, strict=True):
        assert part in line
        assert line.endswith((".", "?"))
        assert not re.search(r"[.?!] [A-Z]", line), line
        assert len(line) < 500
    assert "Traceback" not in err
    assert is_harmless(err)


def is_harmless(text: str) -> bool:
    """Return whether a text has no character that steers a terminal or turns the text round."""
    return not any(unicodedata.category(sign) in {"Cc", "Cf"} and sign != "\n" for sign in text)


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """Folder to work in, which a refused command leaves as it was."""
    monkeypatch.chdir(tmp_path)
    Path("kept.json").write_text("old", encoding="utf-8")
    yield tmp_path
    assert Path("kept.json").read_text(encoding="utf-8") == "old"


# ── a file that is none ───────────────────────────────────────────────────────────────────────


def grow(path: Path) -> None:
    with path.open("wb") as file:
        file.truncate(50_000_000)


FILES: dict[str, tuple[Callable[[Path], object], str]] = {
    "missing": (lambda path: path.exists(), "there is no such file"),
    "empty": (lambda path: path.write_bytes(b""), "this file is empty"),
    "a folder": (lambda path: path.mkdir(), "this is a folder"),
    "no TOML": (lambda path: path.write_text("hive_length: 23"), "cannot be read as TOML"),
}
CALLS = ("parts", "explain way_in", "fit", "open --folder course", "cut", "shop --yard")


@pytest.mark.parametrize("call", CALLS)
@pytest.mark.parametrize(("make", "part"), FILES.values(), ids=FILES)
def test_a_file_that_is_no_hive_file_is_refused(capfd, place, call, make, part):
    make(place / "bad.toml")
    before = tree(place)
    out = [] if call.startswith("open") else ["--out", "kept.json"]
    check_sentences(called(capfd, call, "bad.toml", *out), part)
    assert tree(place) == before


@pytest.mark.parametrize("command", ["cut", "shop", "saw"])
def test_a_file_that_is_too_big_is_told_as_what_was_asked_for(capfd, place, command):
    grow(place / "bad.toml")
    check_sentences(called(capfd, command, "bad.toml"), "name a hive file")
    check_sentences(called(capfd, command, "--yard", "bad.toml"), "1 MB; name a yard file")


@pytest.mark.parametrize("command", ["cut", "shop", "saw"])
def test_a_row_at_the_top_of_a_yard_file_is_told_as_what_it_is(capfd, place, command):
    """The row takes in all that follows: each entry is told with the place where it belongs."""
    row = '[[board]]\nmaterial = "2x4"\nlength = "8 ft"\nprice = 4\n'
    (place / "own.toml").write_text(row + yard_text(), encoding="utf-8")
    told = called(capfd, command, "--yard", "own.toml", "--out", "kept.json")
    names = re.findall(r"^(\w+) = ", yard_text().partition("[[board]]")[0], re.MULTILINE)
    top = "put it at the top of the file, above all rows"
    check_sentences(told, *(f"[[board]] 1 {name}: {name} stands in a row; {top}" for name in names))


@pytest.mark.parametrize("command", ["cut", "shop", "saw"])
def test_of_two_hive_files_the_broken_one_is_told_and_nothing_is_written(capfd, place, command):
    (place / "good.toml").write_text(GOOD, encoding="utf-8")
    (place / "bad.toml").write_text(GOOD.replace("23 1/8", "long"), encoding="utf-8")
    told = called(capfd, command, "good.toml", "bad.toml", "nowhere.toml", "--out", "kept.json")
    check_sentences(told, "bad.toml, [measured] hive_length: cannot read “long”", "nowhere.toml: ")


@pytest.fixture
def shut(place: Path) -> Iterator[Path]:
    """Folder that may be entered but not be written to, with a file that may not be read."""
    folder = place / "shut"
    folder.mkdir()
    for name in ("secret.toml", "report.json"):
        (folder / name).write_text(GOOD, encoding="utf-8")
        (folder / name).chmod(0o000 if name == "secret.toml" else 0o444)
    folder.chmod(0o555)
    yield folder
    folder.chmod(0o755)


@pytest.mark.parametrize("call", [
    "parts shut/secret.toml", "parts --format json --out shut/report.json",
    "parts --format json --out shut/new.json", "new shut/new.toml", "open --folder shut/course",
])  # fmt: skip
def test_without_permission_nothing_happens(capfd, shut, call):
    before = tree(shut)
    with as_nobody():
        told = called(capfd, call)
    check_sentences(told, "permission")
    assert tree(shut) == before


# ── values that are none ──────────────────────────────────────────────────────────────────────


SETTINGS = {
    "stud_thickness": "is not NAME=LENGTH",
    "stud_thickness=": "nothing is written",
    "=1": "not a known name",
    "stud_thicknes=1 1/2": "the nearest known name is stud_thickness",
    "boxes=4": "4 is too large; give 1 to 3, because",
    "\x1b[31m=1": r"“\x1b[31m” is not a known name",
}


@pytest.mark.parametrize("command", ["parts", "fit", "new"])
@pytest.mark.parametrize(("setting", "part"), SETTINGS.items(), ids=lambda text: ascii(text[:30]))
def test_a_setting_that_is_not_accepted_is_refused(capfd, place, command, setting, part):
    file = ["new.toml"] if command == "new" else []
    check_sentences(called(capfd, command, *file, "--set", setting), part)
    assert tree(place).keys() == {"kept.json"}


# What stands in a file, and what is said of it, a sentence a fault.
IN_A_FILE = [
    (GOOD + 'stud_thickness = "15"\nstud_widht = "3 1/2"\n[chosen]\npanel_gap = "0"\n',
     ("15 in is too large", "stud_width", "0 in")),
    # read as they are written, and told in the file's units
    ('units = "mm"\n[measured]\nhive_length = "8 in"\nhive_width = 17',
     ("17 mm is too small; give 203 mm to 1219 mm",)),
]  # fmt: skip


@pytest.mark.usefixtures("place")
@pytest.mark.parametrize(("text", "parts"), IN_A_FILE, ids=range(2))
def test_every_fault_of_a_file_is_told_at_once(capfd, text, parts):
    Path("bad.toml").write_text(text, encoding="utf-8")
    check_sentences(called(capfd, "parts bad.toml"), *parts)


@pytest.mark.usefixtures("place")
@pytest.mark.parametrize("command", ["parts", "fit", "open"])
def test_two_ways_to_a_size_that_disagree_are_both_told(capfd, command):
    # By hand: a box 19 7/8 long in 1 in foam and 1/2 in skin makes a hive 22 7/8 long, not 23 1/8;
    # 16 1/4 wide makes 19 1/4, not 17 3/8.
    Path("bad.toml").write_text(
        f'{GOOD}box_length = "19 7/8"\nbox_width = "16 1/4"\nbox_height = "9 5/8"\n'
    )
    folder = ["--folder", "course"] if command == "open" else []
    told = called(capfd, command, "bad.toml", *folder)
    check_sentences(told, "hive_length", "hive_width")
    length, width = told.err.splitlines()
    assert ("23 1/8" in length, "22 7/8" in length) == (True, True)
    assert ("17 3/8" in width, "19 1/4" in width) == (True, True)
    assert not Path("course").exists()


# ── calls and names that are none ─────────────────────────────────────────────────────────────

# As one writes them in a shell.
USAGE = {
    "new hive.toml --set name=Ada": "and not a hive's name; write it into its file.",
    "parts --component box": "no component is called “box”; name one of bottom_board, inner_cover, "
    "roof.",
    "explain bottom_board.side_rail_lenght": "perhaps you mean bottom_board.side_rail_length",
    "explain panel_widht": "bottom_board.panel_width",
    "explain stud_thicknes": "perhaps you mean stud_thickness",
    "explain xyzzy": "there is no dimension of this name",
    "explain ''": "there is no dimension of this name",
    f"explain {'9' * 10_000}": "there is no dimension of this name",
    "explain rim_side_length": "inner_cover.rim_side_length or roof.rim_side_length",
    "explain box.side_length": "this hive has no box",
    "explain box_height": "give a box or frames",
    "explain overall_height --set inner_cover=no": 'give inner_cover = "yes"',
    "explain '\x1b]0;title\x07'": r"\x1b]0;title\x07",
    "parts --component '\x1b[31m'": r"\x1b[31m",
    "parts 'a\nb\x9b31m.toml'": r"a\nb\x9b31m.toml: there is no such file",
    "parts '\udcff.toml'": r"\udcff.toml: there is no such file",
    "judge side_rail_lenght 1": "or bottom_board.side_rail_length",
    "judge box.end_length 1": "this hive has no box",
    "judge stud_thickness '1 1/2'": "it is measured, so there is nothing to work out",
    "judge 'width\x1b[31m' 1": "there is no dimension of this name",
    "judge panel_width 14 -x": "No such option '-x'",
    "judge bottom_board.panel_width": "an answer in quotes",
    "judge": "an answer in quotes",
    "judge panel_width 14 1/8": 'an answer in quotes like "14 1/8"',
    "judge panel_width 14 1/8 my-hive.toml": "an answer in quotes",
    "judge panel_width 14 mm": "an answer in quotes",
    "judge panel_width 14 no-such.toml": "there is no such file",
    "judge panel_width 14 --formt json": "did you mean --format",
    "judge panel_width 14 --format xml": "'xml' is not one of",
    "judge bottom_board.panel_width 14 --carry opening_width": "is not DIMENSION=ANSWER",
    "judge bottom_board.panel_width 14 --carry opening=1": "there is no dimension of this name",
    "judge panel_width 14 --carry opening_width=1 --carry opening_width=2": "given twice",
    "judge panel_width 14 --set stud=1": "not a known name",
    "judge --answers no-such.csv": "there is no such file or folder",
    "judge --answers a.csv b.toml c.toml": "with --answers at most one hive file",
    "judge --answers a.csv --carry a=b": "--carry goes with one answer",
    "prats": "did you mean parts?", "parts --fromat json": "did you mean --format",
    "parts --format xml": "'xml' is not one of 'text', 'json', 'csv'; see",
    "parts --grid 1/5": "write one of 1/8 in, 1/16 in",
    "parts --set": "--set needs a value after it",
    "parts --set panel_gap=1/4 --set panel_gap=1/2": "“panel_gap” is given twice",
    "new new.toml --set units=cm": "“cm” is not a unit",
    "new new.toml --set units=": "“” is not a unit",
    "parts --set units=mm": "write a new one with `hivecalc new FILE --set units=mm`",
    # choices that can't be built together
    "parts --set stud_width=2 --set entrance_height=2": "or the front rail would be ripped away",
    "parts --set stud_width=3": "give a wider stud, thinner foam for the panel, thinner strips",
    "parts --set hive_width=8 --set stud_thickness=2 --set inner_notch=3 --set strip_narrow=9/16":
        "[chosen] inner_notch: with its strips the channel is 4 1/8 in across",
    "parts --set hive_width=6": "6 in is too small; give 8 in to 48 in",
    "parts one two": "unexpected extra argument (two)",
    "explain": "Missing argument 'DIMENSION'; see hivecalc explain --help",
    "new": "Missing argument 'FILE'", "'--\x1b[31m'": "No such option",
    "judge front_rail_length --chain hive_widht=1": "perhaps you mean hive_width",
    "judge front_rail_length --chain hive_width=21": "from -20 to 20",
    "judge front_rail_length --chain hive_width=1.5": "from -20 to 20",
    f"judge front_rail_length --chain hive_width={'9' * 5000}": "from -20 to 20",
    "judge front_rail_length --chain hive_width=": "from -20 to 20",
    "judge front_rail_length --chain hive_width=0": "there is nothing in this chain",
    "judge front_rail_length --chain frames=1": "not a length",
    "judge front_rail_length --chain hive_width": "NAME=COUNT",
    "judge roof.slope --chain rim_length=1": "not a plain sum",
    "judge --chain hive_width=1": "a dimension",
    "judge front_rail_length --chain hive_width=1 --carry a=1": "--carry",
    "cut --component rof": "--component: no component is called “rof”;",
    "saw --group today": "'--group': 'today' is not one of 'week before',",
    "shop --hives 0": "--hives: that makes 0 hives;",
    "cut --factory-edge rail": "--factory-edge: no part from a sheet is called “rail”;",
    "cut --kerf 2": "--kerf: 2 in is too large;", "cut --plan none.json": "none.json",
    "saw --templates t.pdf --out x": "--templates goes with one hive file",
    "warmth --inside 20": "--inside: “20” is not a temperature",
    "warmth --inside '900 C'": "--inside: 900 C is beyond any weather",
    "warmth --inside '0 C' --outside '5 C'": "colder than outside",
    "warmth --humidity 0": "humidity: “0” is not a humidity",
    "warmth --set foam_thickness=0": "0 in is too small",
    "wood --species 'wite fir'": "did you mean white fir",
    "wood --species oak": "write western redcedar",
    "wood --climate seatle": "did you mean seattle",
    "wood --made 50": "made: “50” is too wet",
    "wood --humidity 100": "not air to build in",
    "shop --hives 1.5": "'--hives': '1.5' is not a valid integer",
    "shop --factory-edge ''": "--factory-edge: no part from a sheet is called “”;",
    "fit --trial x": "'--trial': 'x' is not a valid integer",
    "parts --format": "--format needs a value after it;",
    "fit --trial 0": "1 to 1,000,000 are accepted",
    "fit --trial 1000001": "1 to 1,000,000 are accepted",
    "fit --trial 10 --care glue=1/8": "write cut, rip, tape, plane",
    "fit --trial 10 --care cut=abc": "must begin with a number",
    "fit --trial 10 --care cut=2": "2 in is too large; give 0 in to 1/2 in, because",
    "fit --trial 10 --habit lazy": "write frame, plan, block",
    "fit --trial 10 --seed -1": "0 or more is accepted",
    "fit --care cut=1/8": "give --trial N too",
}  # fmt: skip


@pytest.mark.parametrize(("call", "part"), USAGE.items(), ids=lambda item: ascii(item)[:60])
def test_a_call_that_is_not_understood_is_refused_in_one_sentence(capfd, place, call, part):
    check_sentences(called(capfd, call), part)
    assert tree(place).keys() == {"kept.json"}


# ── places that cannot be written to ──────────────────────────────────────────────────────────


@pytest.mark.parametrize("command", ["parts", "explain way_in", "fit"])
def test_out_goes_only_where_a_file_can_be(capfd, place, command):
    before = tree(place)
    for out, part in {
        "missing/x.json": "missing/x.json: there is no such file or folder",
        ".": "this is a folder",
        "kept.json/x.json": "a part of this path is a file",
        "x" * 300: "this name is too long",
        "hive.toml": "hive files and yard files end so, and an answer would replace one; choose ",
    }.items():
        check_sentences(called(capfd, command, "--out", out), part)
    assert tree(place) == before


def test_new_overwrites_nothing(capfd, place):
    Path("link.toml").symlink_to("nowhere")
    before = tree(place)
    for name in ("kept.json", "link.toml", "."):
        check_sentences(called(capfd, "new", name), "there already")
    assert tree(place) == before
    check_sentences(called(capfd, "new missing/new.toml"), "there is no such file or folder")


def test_a_course_folder_goes_only_where_a_folder_can_be(capfd, place):
    before = tree(place)
    check_sentences(called(capfd, "open --folder kept.json"), "a file of this name is there")
    Path("round").symlink_to("round")
    check_sentences(called(capfd, "open --folder round"), "round")
    assert tree(place) == before
    told = called(capfd, "open --folder", str(course_folder.originals() / "workbook"))
    check_sentences(told, "must stay clean")


def test_a_full_disk_leaves_the_old_file(capfd, place, monkeypatch):
    before = tree(place)
    monkeypatch.setattr(os, "fsync", failing(errno.ENOSPC))
    told = called(capfd, "parts --format json --out kept.json")
    check_sentences(told, "the disk is full")
    check_sentences(called(capfd, "new new.toml"), "the disk is full")
    assert tree(place) == before


@pytest.mark.parametrize("call", [
    "parts --format json --out kept.json", "fit --out kept.json", "new new.toml",
    "open --folder course",
])  # fmt: skip
def test_a_file_that_cannot_be_written_to_its_end_is_not_there(capfd, place, call):
    with little_room():
        told = called(capfd, call)
    check_sentences(told, "nothing was changed")
    assert {n for n, data in tree(place).items() if data is not None} == {"kept.json"}


@pytest.mark.usefixtures("place")
def test_a_full_disk_behind_standard_output_is_told():
    with Path("/dev/full").open("wb") as full:
        told = subprocess.run([sys.executable, "-m", "hivecalc", "parts"], check=False, cwd=ROOT,
                              stdout=full, stderr=subprocess.PIPE, text=True)  # fmt: skip
    assert told.returncode == 2
    check_lines(told.stderr, "The answer could not be written: the disk is full")


# ── names that would do harm ──────────────────────────────────────────────────────────────────


def named(name: str) -> Path:
    path = Path("named.toml")
    write_whole(path, GOOD.replace('"Orchard hive"', json.dumps(name)))
    return path


@pytest.mark.usefixtures("place")
@pytest.mark.parametrize("name", ["a\x1b[31m red", "a\tb", "a\nb", "a\u202eb", "a\x9bb", "a\x7fb"])
def test_a_hive_whose_name_steers_the_terminal_is_refused(capfd, name):
    check_sentences(called(capfd, "parts", named(name)), "control character")


@pytest.mark.usefixtures("place")
@pytest.mark.parametrize(
    "name",
    ["<script>alert(1)</script>", "[bold red]hive[/]", "& \"'", "Bär ½ 蜂", "a\u200bb\u2060"],
)
def test_markup_in_a_name_stays_text(capfd, name):
    path = named(name)
    shown = name.replace("\u200b", "\\u200b").replace("\u2060", "\\u2060")
    told = called(capfd, "parts", path)
    assert told.out.startswith(f"{shown}: ")
    assert called(capfd, "fit", path).out.startswith(f"{shown}: ")
    assert is_harmless(told.out)
    document = called(capfd, "parts", path, "--format", "json")
    assert document.document["hive"]["name"] == name
    assert is_harmless(document.out)
    assert called(capfd, "parts", path, "--format", "csv").rows[0]["hive"] == shown


@pytest.mark.usefixtures("place")
@pytest.mark.parametrize("name", ['=HYPERLINK("x")', "+1", "-1", "@SUM(A1)"])
def test_a_name_becomes_no_formula_in_a_spreadsheet(capfd, name):
    for command in ("parts", "fit"):
        told = called(capfd, command, named(name), "--format", "csv")
        assert {row["hive"] for row in told.rows} == {f"'{name}"}
