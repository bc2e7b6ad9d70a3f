"""The commands: what they tell in each form, their exit status, their help, and what they cost."""

import os
import pty
import re
import shlex
import subprocess
import sys
from fractions import Fraction
from functools import partial
from pathlib import Path

import click
import pytest

from hivecalc.cli import commands
from hivecalc.components import DIMENSIONS, opened_hive, values
from hivecalc.document import Document, Rows
from hivecalc.document.text import document_text, json_text, text_table
from hivecalc.hive import MEASUREMENTS, demo_hive
from hivecalc.length import MM
from hivecalc.reports.sizes import size_report
from hivecalc.workshop import demo_yard, yard_from_file
from tests.commands import Told, called, in_a_process
from tests.hives import HIVES

ROOT = Path(__file__).parent.parent
LENGTH = ["exact", "inches", "mm"]
PART = ["component", "part", "quantity", "material", "thickness", "width", "length", "note"]


def hive_file(folder: Path, name: str) -> Path:
    path = folder / f"{name}.toml"
    path.write_text(HIVES[name], encoding="utf-8")
    return path


def sizes(told: Told) -> dict[str, str]:
    return {name: value["inches"] for name, value in told.document["dimensions"].items()
            if isinstance(value, dict)}  # fmt: skip


# ── parts ─────────────────────────────────────────────────────────────────────────────────────


NAMED = """
    bottom_board: opening_length opening_width screen_length screen_width slot_height stack_height
        headroom front_stop_top way_in side_rail_length front_rail_width
    roof: rim_length rim_width slope lap deck_overhang deck_screw_line cover_screw_line
    box: inside_length inside_width space_above
    sleeve: clear_height
"""


def test_json_of_parts_has_the_promised_shape_names_and_dimensions(capfd, tmp_path):
    told = called(capfd, "parts --format json", hive_file(tmp_path, "eight-frame"))
    document, parts = told.document, told.document["parts"]
    assert (told.status, told.out[-2:]) == (0, "}\n")
    assert list(document) == ["schema", "hive", "parts", "dimensions"]
    assert document["schema"] == "hivecalc/1"
    assert list(document["hive"]) == ["name", "units", "measured", "chosen"]
    assert document["hive"]["chosen"] == {"frames": 8}
    assert list(document["hive"]["measured"]) == ["stud_thickness"]
    assert all(list(part) == PART for part in parts)
    lengths = [part[size] for part in parts for size in PART[4:7] if part[size]]
    lengths += [v for n, v in document["dimensions"].items() if n != "roof.slope"]
    for length in lengths:
        assert list(length) == LENGTH
        assert length["mm"] == float(Fraction(length["exact"]) * Fraction("25.4"))
    components = list(dict.fromkeys(part["component"] for part in parts))
    assert components == ["bottom_board", "roof", "inner_cover", "box", "sleeve"]
    materials = {part["material"] for part in parts}
    assert materials <= {"stud", "strip", "foam", "plywood", "sheet", "mesh", "board"}
    assert {"side_rail", "lower_front_runner", "screen_end_strip"} <= {p["part"] for p in parts}
    assert [part["thickness"] for part in parts if part["part"] == "mesh"] == [None]
    groups = re.findall(r"(\w+): ([^:]+)(?=\n    \w|\Z)", NAMED)
    promised = [f"{component}.{name}" for component, names in groups for name in names.split()]
    assert len(promised) == 22
    assert set(promised) <= set(document["dimensions"])
    assert isinstance(document["dimensions"]["roof.slope"], float)
    assert "hive_length" in document["dimensions"]  # made by the box and its sleeve, so derived


def test_one_component_has_only_its_own_parts_and_dimensions(capfd):
    document = called(capfd, "parts --component 'Inner cover' --format json").document
    assert {part["component"] for part in document["parts"]} == {"inner_cover"}
    assert {name.partition(".")[0] for name in document["dimensions"]} == {"inner_cover"}


def test_a_size_is_rounded_the_way_its_use_asks_for(capfd):
    # By hand: 23 5/32 - 3 - 1/4 = 19 29/32, down; 23 5/32 - 1 1/2 = 21 21/32, a tie goes up;
    # 23 5/32 + 4 = 27 5/32, up. 19 29/32 in the finer grid stands on a mark.
    call = "parts --set 'hive_length=23 5/32' --set hive_width=17"
    told = called(capfd, call).out
    assert re.search(r"panel .*foam .*≈ 19 7/8 in\n", told)
    assert re.search(r"side rail .*≈ 21 11/16 in\n", told)
    assert re.search(r"deck .*plywood .*≈ 27 3/16 in\n", told)
    as_json = called(capfd, f"{call} --format json")
    assert sizes(as_json)["bottom_board.panel_length"] == "≈ 19 7/8"
    [panel] = [part for part in as_json.document["parts"] if part["part"] == "panel"]
    assert panel["length"] == {"exact": "637/32", "inches": "≈ 19 7/8", "mm": 505.61875}
    finer = called(capfd, f"{call} --grid 1/32").out
    assert re.search(r"panel .*foam .* 19 29/32 in\n", finer)
    rounded = [line.split()[1:3] for line in finer.split("\n\n")[1].splitlines() if "≈" in line]
    assert rounded == [["screen", "front"]]  # 0.2785 in; the mesh is 19 25/32, down on 1/16 only


def test_text_of_parts_says_how_many_of_what_and_what_for(capfd):
    told = called(capfd, "parts")
    assert told.out.startswith("Orchard hive: ")
    assert re.search(r"\n +2  side rail +stud +1 1/2 in +3 1/2 in +21 5/8 in\n", told.out)
    assert re.search(r"\n +1  mesh +mesh +14 in +19 3/4 in\n", told.out)
    assert "  panel: Slides in from the back" in told.out
    assert "\x1b" not in told.out


@pytest.mark.parametrize("form", ["text", "csv"])
def test_a_sheet_which_nobody_cuts_is_as_thick_as_it_was_measured_on_any_grid(capfd, form):
    # 25 mm are 0.984 in, and 63/64 are 0.984: no inch; a cover of 5/32 lies between two marks
    told = called(capfd, f"parts --set 'foam_thickness=25 mm' --format {form}").out
    assert re.search(r"panel\W.*foam\W+≈ 63/64 in\W+14 1/8 in", told)
    assert re.search(r"cover\W.*sheet\W+5/32 in", told)
    told = called(capfd, f"parts --set 'foam_thickness=1 in' --grid '1 mm' --format {form}").out
    assert re.search(r"panel\W.*foam\W+25\.4 mm\W+≈ 358 mm", told)


@pytest.mark.parametrize("command", ["parts", "explain skirt_width", "fit"])
@pytest.mark.parametrize("name", HIVES)
def test_a_number_stays_with_its_fraction_and_its_unit_on_one_line(capfd, tmp_path, name, command):
    told = called(capfd, command, hive_file(tmp_path, name)).out
    assert not re.search(r"[0-9]\n +[0-9]+/[0-9]|[0-9]\n +(in|mm)\b|≈\n", told)


def test_a_metric_hive_shows_mm_and_one_in_inches_where_the_grid_is_in_mm(capfd, tmp_path):
    # By hand: 587 - 38 = 549; with a 25 mm foam the slot is 25 + 3.
    told = called(capfd, "parts", hive_file(tmp_path, "metric"))
    assert re.search(r"side rail +stud +38 mm +89 mm +549 mm\n", told.out)
    assert " in\n" not in told.out
    steps = called(capfd, "explain slot_height", hive_file(tmp_path, "metric"))
    assert "= 25 + 3\n   = 28 mm\n" in steps.out
    assert "On the tape: 28 mm (≈ 1 1/8 in)" in steps.out
    demo = called(capfd, "parts --grid '0.1 mm'")
    assert re.search(r"side rail +stud +38\.1 mm +88\.9 mm +≈ 549\.3 mm\n", demo.out)


def test_csv_of_parts_reads_back(capfd):
    told = called(capfd, "parts --format csv")
    pieces = called(capfd, "parts --format json").document["parts"]
    assert [row["part"] for row in told.rows] == [piece["part"] for piece in pieces]
    for row, piece in zip(told.rows, pieces, strict=True):
        assert int(row["quantity"]) == piece["quantity"]
        assert row["note"] == piece["note"]
        assert row["length"] == f"{piece['length']['inches']} in"
        assert float(row["length_mm"]) == piece["length"]["mm"]


# ── explain ───────────────────────────────────────────────────────────────────────────────────


def test_json_of_explain_has_the_promised_shape(capfd):
    told = called(capfd, "explain bottom_board.panel_width --format json")
    document = told.document
    assert list(document) == ["schema", "dimension", "value", "why", "steps"]
    assert document["schema"] == "hivecalc/1"
    assert document["value"] == {"exact": "113/8", "inches": "14 1/8", "mm": 358.775}
    steps = document["steps"]
    assert all(list(s) == ["dimension", "formula", "numbers", "value", "why"] for s in steps)
    assert [(step["dimension"], step["numbers"]) for step in steps] == [
        ("bottom_board.opening_width", "17 3/8 − 2 × 1 1/2"),
        ("bottom_board.panel_width", "14 3/8 − 1/4"),
    ]


def test_text_of_explain_goes_down_to_what_was_measured(capfd, tmp_path):
    file = hive_file(tmp_path, "eight-frame")
    told = called(capfd, "explain side_rail_length", file)
    assert "side rail length = hive length − stud thickness\n" in told.out
    assert "The loose back rail closes the frame" in told.out
    assert "  stud thickness 1 9/16 in, measured\n" in told.out
    assert "  top bar 19 in, not measured: the usual size\n" in told.out
    assert told.out.index("box length =") < told.out.index("hive length =")


@pytest.mark.parametrize(("written", "full"), [
    ("way_in", "bottom_board.way_in"), ("Panel width", "bottom_board.panel_width"),
    ("roof.rim-side-length", "roof.rim_side_length"), ("stud thickness", "stud_thickness"),
])  # fmt: skip
def test_a_name_of_its_own_needs_no_component(capfd, written, full):
    assert called(capfd, "explain", written, "--format", "json").document["dimension"] == full


def test_a_measurement_is_explained_by_what_it_is_and_csv_has_a_row_a_step(capfd):
    told = called(capfd, "explain hive_width --format json")
    assert told.document["steps"] == []
    assert told.document["why"].startswith("Outside width of the hive")
    assert "hive width 17 3/8 in, measured" in called(capfd, "explain hive_width").out
    [row] = called(capfd, "explain hive_width --format csv").rows
    assert (row["value"], float(row["mm"])) == ("17 3/8 in", 441.325)
    rows = called(capfd, "explain roof.slope --format csv").rows
    assert [(row["dimension"], row["mm"]) for row in rows] == [
        ("roof.rim_length", "600.075"), ("roof.slope", ""),
    ]  # fmt: skip
    assert rows[1]["value"] == "≈ 0.0847"  # (3 1/2 - 1 1/2) / 23 5/8, by hand


def test_only_what_the_formula_takes_is_explained(capfd):
    with_cover = called(capfd, "explain skirt_width").out
    assert "rim low height + inner cover height + roof lap\n   = 1 1/2 + 7/8 + 1\n" in with_cover
    assert "inner cover yes, the usual choice" in with_cover
    without = called(capfd, "explain skirt_width --set inner_cover=no").out
    assert "= rim low height + roof lap\n   = 1 1/2 + 1\n   = 2 1/2 in\n" in without
    assert "inner cover no, chosen" in without
    assert "sheet" not in without
    told = called(capfd, "explain inner_cover --format json")
    assert told.document["value"] == "yes"


def test_a_measured_opening_stands_in_the_place_of_the_one_from_the_hive(capfd):
    frame = "--set 'built_opening_width=14 1/4' --set built_rim_opening_length=21"
    panel = called(capfd, f"explain panel_width {frame}").out
    assert "1. panel width = opening width − panel gap\n   = 14 1/4 − 1/4\n" in panel
    assert "  built opening width 14 1/4 in, measured\n" in panel
    opening = called(capfd, f"explain opening_width {frame}").out
    assert "Width of the opening in the glued bottom board, side to side" in opening
    assert "built opening width 14 1/4 in, measured" in opening
    foam = called(capfd, f"explain roof_panel_length {frame} --format json").document
    assert (foam["value"]["exact"], foam["steps"]) == ("21", [])
    told = called(capfd, f"parts {frame} --format json")
    found = sizes(told)
    assert found["bottom_board.opening_width"] == "14 1/4"
    assert found["bottom_board.front_rail_length"] == "14 3/8"
    assert found["roof.roof_panel_length"] == "21"
    assert "built_opening_width" in told.document["hive"]["measured"]


FRAMED = """
units = "mm"
[measured]
built_opening_length = 500
built_rim_opening_width = 420
[chosen]
frames = 10
inner_cover = "no"
boxes = 2
"""


@pytest.mark.parametrize("text", [*HIVES.values(), FRAMED], ids=[*HIVES, "framed"])
def test_every_dimension_and_measurement_of_a_hive_can_be_explained(tmp_path, text):
    path = tmp_path / "hive.toml"
    path.write_text(text, encoding="utf-8")
    hive = opened_hive(path)
    for name in values(hive).keys() & {*DIMENSIONS.dimensions, *MEASUREMENTS}:
        told = size_report(hive, name)
        sources = document_text(told.document()).partition("It comes from\n")[2]
        assert re.match(r"  (\w+ )+(≈ )?[\dyn]", sources), name
        assert told.rows().rows
        assert json_text(told.data())


# ── choices that disagree ─────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("call", ["parts", "explain lap", "fit", "judge rim_width '17 7/8'"])
def test_choices_that_disagree_are_told_once_on_standard_error(capfd, tmp_path, call):
    file = tmp_path / "first-edition.toml"
    file.write_text(f"{HIVES['orchard']}\n[chosen]\nskirt_width = 2\n", encoding="utf-8")
    told = called(capfd, call, file)
    assert told.err == (
        "skirt_width 2 in ends 3/8 in above the box: leave it out and the skirt is 3 3/8 in.\n"
    )
    assert told.out
    assert called(capfd, "parts", file, "--format", "json").document["hive"]["chosen"] == {
        "skirt_width": {"exact": "2", "inches": "2", "mm": 50.8}
    }


# ── fit ───────────────────────────────────────────────────────────────────────────────────────


def test_fit_answers_by_its_exit_status(capfd):
    holds = called(capfd, "fit")
    assert (holds.status, "What helps: " in holds.out) == (0, False)
    told = called(capfd, "fit --set 'entrance_height=2 1/2'")
    assert (told.status, told.err, "What helps: " in told.out) == (1, "", True)
    assert re.search(r"FAILS +front rail over screen .* too small\n", told.out)
    assert re.match(r"Orchard hive: [^\n]*fails?\.\n", told.out)


@pytest.mark.parametrize("setting", ["entrance_height=3/4", "entrance_height=2 1/2"])
def test_json_of_fit_has_the_promised_shape(capfd, setting):
    told = called(capfd, "fit --set", setting, "--format", "json")
    document = told.document
    assert list(document) == ["schema", "holds", "rules"]
    assert document["holds"] is (told.status == 0)
    keys = ["rule", "level", "holds", "at_edge", "value", "low", "high", "why", "mend", "source"]
    assert all(list(rule) == keys for rule in document["rules"])
    assert {rule["level"] for rule in document["rules"]} <= {"blocks", "harms", "note"}


def test_csv_of_fit_agrees_with_its_json(capfd):
    rows = called(capfd, "fit --format csv --set 'entrance_height=2 1/2'").rows
    rules = called(capfd, "fit --format json --set 'entrance_height=2 1/2'").document["rules"]
    assert [(row["rule"], row["holds"]) for row in rows] == [
        (rule["rule"], "yes" if rule["holds"] else "no") for rule in rules
    ]
    assert {"yes", "no"} == {row["holds"] for row in rows}
    rail = [row for row in rows if row["rule"] == "bottom_board.front_rail_over_screen"]
    # By hand: the rail is 1 in high, and the screen lies at 3/4 + 1 1/8 + 1/2 = 2 3/8.
    assert float(rail[0]["value_mm"]) == pytest.approx(-1.375 * 25.4)


def test_text_of_fit_says_by_how_much_and_why(capfd):
    told = called(capfd, "fit")
    # By hand: 3 1/2 - 3/4 - 1 1/8 - 3 x 1/2 - 0.034 = 0.091.
    assert re.search(
        r"holds +room above stack +0\.091 in +0 in or more +0\.091 in to spare", told.out
    )
    # By hand: the stop leaves the bee way of 5/16, in the middle between 1/4 and 3/8.
    assert re.search(r"bee way in +5/16 in +1/4 in to 3/8 in +1/16 in to spare", told.out)
    assert "room above stack (blocks): Less than nothing means" in told.out
    assert "Source: common practice" in told.out.replace("\n  ", " ")


# ── new, and writing to a file ────────────────────────────────────────────────────────────────


# What is set, and the units of the file with its length and width in them.
NEW = [
    ("", "inch", [*demo_hive().measured.values()]),
    ("'hive_length=22 1/2' 'hive_width=406.4 mm'", "inch", [Fraction(45, 2), 16]),
    ("'hive_length=22 in' 'hive_width=406.4 mm'", "inch", [22, 16]),
    ("frames=8", "inch", []),
    ("units=mm", "mm", [588, 442]),
    ("'hive_length=530 mm' 'hive_width=42 cm'", "mm", [530, 420]),
    ("units=mm hive_length=530 hive_width=420", "mm", [530, 420]),
    ("units=inch 'hive_length=508 mm' 'hive_width=406.4 mm'", "inch", [20, 16]),
    ("'units= mm ' 'hive_length=20 in' 'hive_width=15 in'", "mm", [508, 381]),
]


@pytest.mark.parametrize(("settings", "units", "sizes"), NEW)
def test_new_writes_a_file_that_can_be_read(capfd, tmp_path, settings, units, sizes):
    file, words = tmp_path / "my-hive.toml", shlex.split(settings)
    told = called(capfd, "new", file, *(word for text in words for word in ("--set", text)))
    assert (told.status, str(file) in told.out) == (0, True)
    hive, text = opened_hive(file), file.read_text(encoding="utf-8")
    assert [v / (MM if units == "mm" else 1) for v in hive.measured.values()] == sizes
    assert (hive.units, hive.chosen) == (units, {} if sizes else {"frames": 8})
    assert ("Measure your own hive" in text) == (settings in {"", "units=mm"})
    if settings == "units=mm":
        assert '\nhive_length = "588" ' in text
        assert '\n# stud_width = "89" ' in text
        told = called(capfd, "parts", file)
        assert re.search(r"side rail +stud +38 mm +89 mm +550 mm\n", told.out)


@pytest.mark.parametrize("name", ["my-hive.toml", "Grün & Söhne (2).toml", "Улей.toml"])
def test_the_command_that_new_says_can_be_copied(capfd, tmp_path, name):
    told = called(capfd, "new", tmp_path / name)
    assert called(capfd, told.out.partition("then: hivecalc ")[2]).status == 0


def test_new_writes_a_yard_file_that_shop_reads(capfd, tmp_path):
    file = tmp_path / "my-yard.toml"
    told = called(capfd, "new", file, "--yard")
    assert told.out == (
        f"Wrote {file}. Write your yard's prices into it, then: hivecalc shop --yard {file}\n"
    )
    assert called(capfd, "shop --yard", file, "--format", "csv").status == 0
    held = file.read_bytes()
    assert called(capfd, "new", file, "--yard").status == 2
    assert file.read_bytes() == held
    other = tmp_path / "other.toml"
    assert called(capfd, "new", other, "--yard", "--set", "frames=8").status == 2
    assert not other.exists()
    assert called(capfd, "new", other, "--yard", "--set", "units=mm").status == 0
    assert yard_from_file(other) == demo_yard("mm")


def test_a_hive_in_mm_is_bought_where_metric_sizes_are_sold(capfd, tmp_path):
    file = tmp_path / "hive.toml"
    called(capfd, "new", file, "--set", "units=mm")
    told = called(capfd, "shop", file, "--kerf", "3").out
    assert "2.4 m stud, 38 x 89" in told
    assert "All prices are invented" in told
    assert re.findall(r"\d (?:in|ft)\b", told) == []
    assert called(capfd, "shop", file, "--kerf", "8").status == 2  # 8 mm: no blade is so thick


def test_out_holds_what_the_screen_would_show(capfd, tmp_path):
    for form in ("text", "json", "csv"):
        shown = called(capfd, "parts --format", form).out
        file = tmp_path / form
        told = called(capfd, "parts --format", form, "--out", file)
        assert (told.status, told.out) == (0, f"Wrote {file}.\n")
        assert file.read_bytes().decode() == shown


# ── help ──────────────────────────────────────────────────────────────────────────────────────

WITHOUT = click.Context(commands)
COMMANDS = {name: commands.get_command(WITHOUT, name) for name in commands.list_commands(WITHOUT)}


def examples(name: str) -> list[list[str]]:
    text = COMMANDS[name].epilog or ""
    return [shlex.split(line.split("hivecalc ", 1)[1]) for line in text.splitlines()
            if line.startswith("  hivecalc ")]  # fmt: skip


def test_there_are_the_promised_commands_and_no_others():
    promised = "book check cut explain fit judge new open parts plan saw shop warmth wood"
    assert promised.split() == [*COMMANDS] == sorted(commands.commands)


@pytest.mark.parametrize("name", COMMANDS)
def test_the_help_has_examples_and_they_work(capfd, tmp_path, monkeypatch, name):
    told = called(capfd, name, "--help")
    assert told.status == 0
    assert all(f"hivecalc {name}" in line for line in told.out.splitlines() if "hivecalc " in line)
    assert len(examples(name)) >= 3
    monkeypatch.chdir(tmp_path)
    for room in ("document.page", "reports.book"):
        monkeypatch.setattr(f"hivecalc.{room}.document_pdf", lambda *_: b"%PDF")
    monkeypatch.setattr("hivecalc.cli.book.book", lambda *_, **__: Document("", ()))
    Path("class.csv").write_text("dimension,answer\npanel_width,14 1/8\n", encoding="utf-8")
    Path("pieces.toml").write_text('"bottom_board.panel_width" = "14 1/8"\n', encoding="utf-8")
    for arguments in examples(name):
        for file in tmp_path.glob("my-*.toml"):
            file.unlink()
        if name == "open":  # which would start JupyterLab: that it is understood is enough here
            COMMANDS[name].make_context(name, arguments[1:])
            continue
        if name != "new":
            called(capfd, "new my-hive.toml")
            called(capfd, "new my-yard.toml --yard")
        if "plan.json" in arguments and name != "plan" and not Path("plan.json").exists():
            called(capfd, "plan my-hive.toml --out plan.json")
        told = called(capfd, *("2" if word == "12" else word for word in arguments))
        assert told.status in {0, 1} if name in {"fit", "check"} else told.status == 0, told


def test_without_a_command_help_is_shown(capfd):
    told = called(capfd)
    assert told.status == 0
    assert all(f"\n  {name}" in told.out for name in COMMANDS)


def test_the_readme_names_every_command_and_option():
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    options = [option for command in COMMANDS.values() for option in command.params
               if isinstance(option, click.Option)]  # fmt: skip
    names = {max(option.opts, key=len) for option in options}
    assert [name for name in COMMANDS if f"hivecalc {name}" not in text] == []
    assert sorted(name for name in names if name not in text) == []


# ── the whole process ─────────────────────────────────────────────────────────────────────────


def process(*arguments: str, **more) -> subprocess.CompletedProcess:
    command = [sys.executable, "-W", "error", "-m", "hivecalc", *arguments]
    return subprocess.run(command, check=False, cwd=ROOT, **more)


def with_signs(name: str) -> dict[str, str]:
    return {**os.environ, "PYTHONIOENCODING": name}


def test_the_package_runs_as_a_module_and_tells_utf_8_whatever_the_terminal_says():
    told = process("parts", capture_output=True, env=with_signs("latin-1"))
    assert (told.returncode, told.stderr) == (0, b"")
    assert "≈ stands before a rounded" in told.stdout.decode("utf-8")


def test_a_name_that_the_terminal_has_no_signs_for_is_told_all_the_same(tmp_path):
    name = tmp_path / "蜂.toml"
    new, old = (
        process("new", str(name), text=True, capture_output=True, env=with_signs(signs))
        for signs in ("cp1252", "cp437")
    )
    assert (new.returncode, old.returncode) == (0, 2)
    assert new.stdout.startswith(f"Wrote {tmp_path}/\\u8702.toml. ")
    assert old.stderr.startswith(f"{tmp_path}/\\u8702.toml: this file is there already;")
    assert name.is_file()


def test_a_terminal_gets_a_table_as_wide_as_it_is():
    ours, theirs = pty.openpty()
    environment = {**os.environ, "COLUMNS": "60", "TERM": "xterm", "NO_COLOR": ""}
    command = [sys.executable, "-m", "hivecalc", "parts", "--component", "roof"]
    with subprocess.Popen(command, cwd=ROOT, stdout=theirs, env=environment) as process:
        os.close(theirs)
        seen = b"".join(iter(partial(read_end, ours), b"")).decode()
    os.close(ours)
    assert process.returncode == 0
    table = re.sub(r"\x1b\[[0-9;]*m", "", seen).split("Roof")[1].split("  rim side: ")[0]
    assert "\x1b[1m" in seen
    assert "──────" in table
    assert max(map(len, table.splitlines())) <= 60


def read_end(handle: int) -> bytes:
    """Return the next bytes of a terminal, none at its end."""
    try:
        return os.read(handle, 4096)
    except OSError:  # which Linux says instead of an end
        return b""


LOADING = """
import signal, sys

class Presses:
    def find_spec(self, name, *_):
        if name == "hivecalc.cli.shared":
            signal.raise_signal(signal.SIGINT)

sys.meta_path.insert(0, Presses())
from hivecalc.__main__ import main
main()
"""


def test_ctrl_c_is_heard_while_the_commands_load():
    told = subprocess.run([sys.executable, "-c", LOADING], check=False, capture_output=True)
    assert (told.returncode, told.stdout, told.stderr) == (130, b"", b"")


def test_ctrl_c_ends_a_command_without_a_traceback(capfd, monkeypatch):
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("hivecalc.cli.shared.opened", interrupted)
    told = called(capfd, "parts")
    stopped = "Stopped; nothing is half written.\n"
    assert (told.status, told.out, told.err) == (130, "", stopped)  # as a shell has it after Ctrl-C


def test_a_reader_who_has_had_enough_is_no_fault():
    reader, writer = os.pipe()
    os.close(reader)
    told = process("parts", stdout=writer, stderr=subprocess.PIPE)
    os.close(writer)
    assert (told.returncode, told.stderr) == (0, b"")


HEAVY = {"numpy", "pint", "matplotlib", "ipywidgets", "rich", "tomlkit", "jupyterlab"}
LISTS = """
for asked in ("parts", "fit"):
    for form in ("json", "csv"):
        exit_status([asked, "--format", form])
"""


def test_lists_for_other_programs_take_little_memory_and_load_nothing_heavy():
    peak, modules, _ = in_a_process(LISTS)
    assert peak <= 60
    assert HEAVY.isdisjoint(modules)


@pytest.mark.parametrize("across", range(28, 101, 8))
def test_a_figure_of_a_table_is_whole_on_any_terminal(across):
    left_over = "7 5/16 in; 7 in; 6 7/8 in and ≈ 23 5/64 in, and 1 in of foam"
    told = text_table(Rows(("what", "left over"), [["8 ft 2x4", left_over]]), across)
    for figure in ("8 ft", "7 5/16 in", "6 7/8 in", "≈ 23 5/64 in", "1 in"):
        assert figure in told
