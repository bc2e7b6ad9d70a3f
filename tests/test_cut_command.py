"""The command `cut`: its plans in every form, checked by what knows only stock, pieces and kerf."""

import json
import os
import pty
import re
import signal
import subprocess
import sys
import time
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from importlib import import_module
from pathlib import Path

import pytest

from hivecalc.cli.progress import _line
from hivecalc.components import opened_hive
from hivecalc.cutting import Progress, planner
from hivecalc.cutting import boards as cutting_boards
from hivecalc.cutting.needs import board_needs, sheet_needs
from hivecalc.cutting.planner import HURRIED, Planner
from hivecalc.cutting.plans import cut_plans
from hivecalc.cutting.wanted import STOPPED
from hivecalc.stock import demo_yard, yard_text
from tests.test_bad_input import check_lines, check_sentences, place  # noqa: F401 - a fixture
from tests.test_cli import ROOT, called, hive_file, read_end

TOP = ["schema", "proved", "bound", "stock_used", "plans", "aim", "needs", "unplanned"]
KERF, TRIM = Fraction(1, 8), Fraction(1, 2)


def size(length: dict) -> Fraction:
    return Fraction(length["exact"])


def is_board(plan: dict) -> bool:
    return "x" not in plan["pieces"][0]


def check_board(plan: dict) -> None:
    """Walk along the board: pieces one after the other, each with a kerf behind it."""
    end = Fraction(0) if plan["stock"]["at_hand"] else TRIM
    for number, piece in enumerate(plan["pieces"]):
        end += (KERF if number else 0) + size(piece["length"])
    rest = size(plan["stock"]["length"]) - end
    assert rest >= 0
    assert size(plan["offcut"]) in {rest, max(rest - KERF, 0)}


def check_sheet(plan: dict) -> None:
    """No piece over the edge, and no two on one another."""
    spots = [[size(piece[name]) for name in ("x", "y", "width", "length")]
             for piece in plan["pieces"]]  # fmt: skip
    width, length = size(plan["stock"]["width"]), size(plan["stock"]["length"])
    for x, y, wide, long in spots:
        assert 0 <= x <= x + wide <= width
        assert 0 <= y <= y + long <= length
    for number, (x, y, wide, long) in enumerate(spots):
        for other_x, other_y, other_wide, other_long in spots[:number]:
            apart_x = x >= other_x + other_wide or other_x >= x + wide
            apart_y = y >= other_y + other_long or other_y >= y + long
            assert apart_x or apart_y


def check_plans(document: dict, hives: list) -> None:
    """Check that just what these hives need is cut, and that it can be cut so."""
    made: Counter[str] = Counter()
    for plan in document["plans"]:
        (check_board if is_board(plan) else check_sheet)(plan)
        made.update({k: n * plan["count"] for k, n in
                     Counter(piece["label"] for piece in plan["pieces"]).items()})  # fmt: skip
    for left in document["unplanned"]:
        made[left["label"]] += left["count"]
    wanted: Counter[str] = Counter()
    for need in (*board_needs(hives, demo_yard()), *sheet_needs(hives, demo_yard())):
        for piece in need.wanted:
            wanted[piece.label] += piece.count
    assert made == wanted


@pytest.mark.parametrize("aim", ["boards", "cost", "waste"])
@pytest.mark.parametrize("name", ["orchard", "metric", "eight-frame"])
def test_json_of_cut_has_the_promised_shape_and_can_be_cut(capfd, tmp_path, name, aim):
    file = hive_file(tmp_path, name)
    told = called(capfd, "cut", file, "--format", "json", "--aim", aim)
    document = told.document
    assert list(document)[:8] == TOP
    assert document["schema"] == "hivecalc/1"
    check_plans(document, [opened_hive(file)])
    assert document["proved"] is True
    assert document["stock_used"] == sum(plan["count"] for plan in document["plans"])
    assert told.status == (1 if document["unplanned"] else 0)
    counted = sum(n["counted"] for n in document["needs"] if aim != "waste" or n["aim"] == aim)
    assert document["bound"] == counted


def test_a_batch_is_one_plan_whose_labels_name_the_hive(capfd, tmp_path):
    files = [hive_file(tmp_path, name) for name in ("orchard", "smallest")]
    told = called(capfd, "cut", *files, "--hives", "2", "--format", "json")
    hives = [opened_hive(file) for file in files for _ in range(2)]
    check_plans(told.document, hives)
    labels = {piece["label"] for plan in told.document["plans"] for piece in plan["pieces"]}
    assert "Orchard hive: bottom board side rail" in labels


def test_a_class_of_hives_alike_is_a_file_named_so_often(capfd, tmp_path):
    file = hive_file(tmp_path, "orchard")
    often = called(capfd, "cut", *[file] * 3, "--format", "json")
    counted = called(capfd, "cut", file, "--hives", "3", "--format", "json")
    assert often.document["bound"] == counted.document["bound"]
    assert often.document["stock_used"] == counted.document["stock_used"]


def test_csv_of_cut_agrees_with_its_json(capfd):
    rows = called(capfd, "cut", "--format", "csv").rows
    plans = called(capfd, "cut", "--format", "json").document["plans"]
    pieces = sum(int(row["count"]) * int(row["pieces_each"]) for row in rows)
    assert pieces == sum(plan["count"] * len(plan["pieces"]) for plan in plans)
    assert {row["stock"] for row in rows} == {plan["stock"]["name"] for plan in plans}
    longest = [r for r in rows if r["piece"] == "roof rim side"]
    assert (longest[0]["length"], longest[0]["length_mm"]) == ("23 5/8 in", "600.075")


def test_text_of_cut_says_what_is_cut_how_sure_it_is_and_whose_prices(capfd, tmp_path):
    text = called(capfd, "cut").out
    flat = " ".join(text.split())
    assert "2 × roof rim side (23 5/8 in)" in flat
    assert "No plan does better: that is proved." in flat
    assert "its prices are invented" in flat
    assert "your saw's manual, local codes and trained people go before this plan" in flat
    assert all(len(line) <= 80 for line in text.splitlines())
    yard = tmp_path / "my-yard.toml"
    yard.write_text(yard_text(), encoding="utf-8")
    assert "invented" not in called(capfd, "cut", "--yard", yard).out


def test_a_thicker_kerf_is_taken(capfd):
    thin, thick = (
        called(capfd, "cut", "--kerf", kerf, "--format", "json").document
        for kerf in ("1/64", "1/4")
    )
    left = [size(plans["plans"][0]["offcut"]) for plans in (thin, thick)]
    assert left[0] >= left[1]
    assert thin["plans"] != thick["plans"]


def test_the_three_aims_each_are_best_at_their_own(capfd):
    # Against the plans themselves: no aim may beat the one whose aim it is.
    totals = {}
    for aim in ("boards", "cost", "waste"):
        plans = called(capfd, "cut", "--hives", "3", "--aim", aim, "--format", "json").document
        boards = [plan for plan in plans["plans"] if is_board(plan)]
        prices = {board.name: board.price for board in demo_yard().boards}
        totals[aim] = {
            "boards": sum(p["count"] for p in boards),
            "cost": sum(p["count"] * prices[p["stock"]["name"]] for p in boards),
            "waste": sum(p["count"] * size(p["stock"]["length"]) for p in boards),
        }
    for aim in totals:
        assert all(totals[aim][aim] <= other[aim] for other in totals.values())


# ── bad input ─────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("command", ["cut", "shop", "saw"])
@pytest.mark.parametrize(("arguments", "part"), [
    (["--kerf", "0"], "--kerf: 0 in is too small; give 1/64 in to 1/4 in"),
    (["--kerf", "-1/8"], "--kerf:"),
    (["--kerf", "3"], "--kerf: 3 in is too large"),
    (["--kerf", "thin"], "--kerf:"),
    (["--hives", "0"], "--hives: that makes 0 hives; give 1 to 2,000"),
    (["--hives", "-3"], "--hives: that makes -3 hives"),
    (["--hives", "10000"], "--hives: that makes 10,000 hives; give 1 to 2,000"),
    (["--hives", "many"], "--hives"),
    (["--yard", "nowhere.toml"], "nowhere.toml: there is no such file"),
    (["--set", "hive_length=-3"], "hive_length"),
    (["nowhere.toml"], "nowhere.toml: there is no such file"),
    (["--format", "xml"], "xml"),
], ids=lambda given: "-".join(given) if isinstance(given, list) else "")  # fmt: skip
def test_bad_input_is_one_sentence(capfd, place, command, arguments, part):  # noqa: F811
    check_sentences(called(capfd, command, *arguments, "--out", "plan.txt"), part)
    assert [path.name for path in place.iterdir()] == ["kept.json"]


def test_every_fault_of_every_file_is_told_at_once(capfd, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    told = called(capfd, "cut", "one.toml", "two.toml", "--hives", "5000")
    check_sentences(told, "one.toml", "two.toml", "--hives: that makes 10,000 hives")


def yard_file(folder: Path, *changes: tuple[str, str], more: str = "") -> Path:
    """Return a yard file like the shipped one, with some of its text changed everywhere."""
    text = yard_text()
    for old, new in changes:
        text, count = re.subn(old, new, text, flags=re.MULTILINE)
        assert count
    path = folder / "my-yard.toml"
    path.write_text(text + more, encoding="utf-8")
    return path


@pytest.mark.parametrize("command", ["cut", "shop", "saw"])
@pytest.mark.parametrize(("change", "part"), [
    (("^price = 5.50$", "price = -5"), "is below zero"),
    (("^price = 5.50$", 'price = "cheap"'), "is no price"),
    (('^kerf = "1/8"', 'kerf = "0"'), "too small"),
    (('^kerf = "1/8"', 'kerf = "-1/8"'), "kerf"),
    (('^kerf = "1/8"', 'kerf = "2"'), "too large"),
])  # fmt: skip
def test_a_bad_yard_file_is_told(capfd, tmp_path, command, change, part):
    told = called(capfd, command, "--yard", yard_file(tmp_path, change))
    assert (told.status, told.out) == (2, "")
    assert all(part in line for line in told.err.splitlines())
    check_lines(told.err, *[part] * len(told.err.splitlines()))


def test_a_piece_longer_than_any_board_is_told_and_the_rest_planned(capfd, tmp_path):
    short = yard_file(tmp_path, (r'^length = "(8|10|12|16) ft"$', 'length = "20"'))
    told = called(capfd, "cut", "--yard", short, "--format", "json")
    assert told.status == 1
    rail = next(u for u in told.document["unplanned"] if u["label"] == "bottom board side rail")
    assert rail["count"] == 2
    assert "21 5/8 in" in rail["why"]
    made = {piece["label"] for plan in told.document["plans"] for piece in plan["pieces"]}
    assert "bottom board front rail" in made
    text = " ".join(called(capfd, "cut", "--yard", short).out.split())
    assert "2 × bottom board side rail: " in text.split("Not planned")[1]


def test_a_yard_without_stock_leaves_everything_unplanned(capfd, tmp_path):
    empty = tmp_path / "empty.toml"
    empty.write_text('currency = "coins"\n', encoding="utf-8")
    told = called(capfd, "cut", "--yard", empty, "--format", "json")
    assert (told.status, told.document["plans"]) == (1, [])
    assert all("your yard has no" in left["why"] for left in told.document["unplanned"])
    for form in ("text", "csv"):
        assert called(capfd, "cut", "--yard", empty, "--format", form).status == 1


def test_rubbish_among_the_offcuts_costs_its_own_row_only(capfd, tmp_path):
    more = '\n[[at_hand]]\nmaterial = "2x4"\nlength = "very long"\n'
    more += '\n[[at_hand]]\nname = "old stud"\nmaterial = "2x4"\nlength = "30"\ncount = 1\n'
    told = called(capfd, "cut", "--yard", yard_file(tmp_path, more=more), "--format", "json")
    assert told.status == 0
    assert len(told.err.splitlines()) == 1
    assert "[[at_hand]]" in told.err
    assert "old stud" in {plan["stock"]["name"] for plan in told.document["plans"]}


def test_without_prices_the_cheapest_is_the_fewest_and_it_says_so(capfd, tmp_path):
    unpriced = yard_file(tmp_path, (r"^price = .*$", ""))
    told = called(capfd, "cut", "--yard", unpriced, "--aim", "cost", "--format", "json")
    assert told.status == 0
    assert any("has a price" in note for need in told.document["needs"] for note in need["notes"])


# ── long work ─────────────────────────────────────────────────────────────────────────────────


def test_a_part_is_laid_on_the_sheets_own_edge_on_request(capfd):
    sides = called(capfd, "cut", "--factory-edge", "skirt side", "--format", "json").document
    lying = [
        piece
        for plan in sides["plans"] if not is_board(plan)
        for piece in plan["pieces"] if piece["label"] == "roof skirt side"
    ]  # fmt: skip
    assert {size(piece["x"]) for piece in lying} == {0}
    told = " ".join(called(capfd, "cut", "--factory-edge", "deck").out.split())
    assert "stays as it came from the factory" in told
    assert "stays as it came from the factory" not in called(capfd, "cut").out
    refused = called(capfd, "cut", "--factory-edge", "rail")
    assert refused.status == 2
    assert "no part from a sheet is called rail; name one of cover, deck" in refused.err


def test_ctrl_c_tells_the_best_plan_so_far_as_not_proved(capfd, tmp_path, monkeypatch):
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(cutting_boards.planning, "search", interrupted)
    out = tmp_path / "plan.json"
    told = called(capfd, "cut", "--format", "json", "--out", out)
    assert told.status == 130
    assert told.err == (
        "The search was stopped; this is the best plan found up to then, and not proved.\n"
    )
    document = json.loads(out.read_text(encoding="utf-8"))
    check_plans(document, [opened_hive(None)])
    assert STOPPED in document["needs"][0]["notes"]


def test_after_ctrl_c_the_other_plans_are_hurried(monkeypatch):
    asked: list[float] = []
    plan = planner.board_plan

    def stopped(*given: object, seconds: float, **more: object) -> object:
        asked.append(seconds)
        return replace(plan(*given, seconds=seconds, **more), notes=(STOPPED,))

    monkeypatch.setattr(planner, "board_plan", stopped)
    found = cut_plans([opened_hive(None)], demo_yard(), planner=Planner(seconds=9))
    assert asked == [9, HURRIED]
    assert found.stopped


def test_once_the_time_for_all_plans_is_used_up_the_rest_is_hurried(monkeypatch):
    asked: list[float] = []
    plan = planner.sheet_plan

    def slow(*given: object, seconds: float, **more: object) -> object:
        asked.append(seconds)
        time.sleep(0.3)
        return plan(*given, seconds=seconds, **more)

    monkeypatch.setattr(planner, "sheet_plan", slow)
    found = cut_plans([opened_hive(None)], demo_yard(), planner=Planner(seconds=9, in_all=0.5))
    assert 0.3 < asked[0] < 0.5
    assert asked[2:] == [HURRIED] * 3
    assert not found.stopped
    assert found.unplanned == ()


@pytest.mark.parametrize("command", ["cut", "shop"])
@pytest.mark.parametrize("room", ["boards", "sheets"])
def test_ctrl_c_before_there_is_a_plan_makes_it_in_a_hurry(capfd, monkeypatch, command, room):
    planning = import_module(f"hivecalc.cutting.{room}.planning")
    once = iter([True])
    task_of = planning.task_of

    def interrupted(request: object) -> object:
        if next(once, False):
            raise KeyboardInterrupt
        return task_of(request)

    monkeypatch.setattr(planning, "task_of", interrupted)
    told = called(capfd, command, "--format", "json")
    assert told.status == 130
    assert "not proved" in told.err
    assert told.document["unplanned"] == []


def test_a_terminal_is_told_how_far_it_is_and_nothing_else_is(tmp_path):
    out = tmp_path / "plan.json"
    command = [sys.executable, "-m", "hivecalc", "cut", "--hives", "12", "--format", "json",
               "--out", out]  # fmt: skip
    ours, theirs = pty.openpty()
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.DEVNULL, stderr=theirs) as process:
        os.close(theirs)
        seen = b"".join(iter(lambda: read_end(ours), b"")).decode()
    os.close(ours)
    assert process.returncode == 0, seen
    assert "stud of 1 1/2 × 3 1/2 in: " in seen
    assert seen.endswith("\r\x1b[K")
    assert json.loads(out.read_text(encoding="utf-8"))["stock_used"] > 12
    quiet = subprocess.run(command, check=True, cwd=ROOT, capture_output=True)
    assert quiet.stderr == b""


def test_ctrl_c_in_a_real_terminal_keeps_the_file_whole(tmp_path):
    out = tmp_path / "plan.json"
    file = hive_file(tmp_path, "orchard")
    others = [tmp_path / f"{n}.toml" for n in range(12)]
    for number, other in enumerate(others):
        size_of = f'hive_length = "{21 + number / 16}"\nhive_width = "{16 + number / 16}"'
        other.write_text(f'name = "Hive {number}"\n[measured]\n{size_of}\n', encoding="utf-8")
    command = [sys.executable, "-m", "hivecalc", "cut", file, *others, "--out", out,
               "--format", "json", "--hives", "20"]  # fmt: skip
    ours, theirs = pty.openpty()
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.DEVNULL, stderr=theirs) as process:
        os.close(theirs)
        seen = os.read(ours, 4096)  # the first word of a search that is on
        time.sleep(0.3)
        process.send_signal(signal.SIGINT)
        seen += b"".join(iter(lambda: read_end(ours), b""))
    os.close(ours)
    assert process.returncode == 130, seen.decode()
    assert b"Traceback" not in seen
    document = json.loads(out.read_text(encoding="utf-8"))
    check_plans(document, [opened_hive(f) for f in (file, *others) for _ in range(20)])


def test_the_line_of_progress_is_short_and_does_no_harm():
    line = _line("stud\x1b[2J" * 30, Progress("looking", Fraction(7, 2), Fraction(3), 1.0))
    assert len(line) == 79
    assert "\x1b" not in line
    told = _line("mesh", Progress("looking", Fraction(7, 2), Fraction(3), 1.0))
    assert told == "mesh: looking; best 3.5, not below 3; Ctrl-C takes the best so far"
