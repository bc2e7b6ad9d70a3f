"""The command `saw`: settings and templates, in every form."""

import io
from fractions import Fraction

import pytest
from pypdf import PdfReader

from tests.test_bad_input import check_sentences
from tests.test_cli import called, hive_file


def test_json_of_saw_agrees_with_the_pieces_to_cut(capfd):
    document = called(capfd, "saw", "--format", "json").document
    stops = [step for step in document["steps"] if step["kind"] == "crosscut"]
    lengths = [Fraction(step["setting"]["exact"]) for step in stops]
    assert lengths == sorted(lengths, reverse=True)
    parts = called(capfd, "parts", "--format", "json").document["parts"]
    rail = next(part for part in parts if part["part"] == "side_rail")
    [at] = [step for step in stops if step["setting"] == rail["length"]]
    assert {"label": "bottom board side rail", "count": rail["quantity"]} in at["pieces"]


def test_csv_of_saw_agrees_with_its_json(capfd):
    rows = called(capfd, "saw", "--format", "csv").rows
    steps = called(capfd, "saw", "--format", "json").document["steps"]
    told = [(str(step["number"]), piece["label"], str(piece["count"]))
            for step in steps for piece in step["pieces"]]  # fmt: skip
    assert [(row["step"], row["piece"], row["count"]) for row in rows] == told


def test_text_of_saw_begins_with_the_cautions(capfd):
    told = called(capfd, "saw")
    assert told.status == 0
    assert told.out.startswith("Before the first cut\n")
    assert "Guard over the blade" in told.out
    assert "stop block 23 5/8 in from the blade" in told.out


def test_the_kerf_moves_the_fence_and_no_stop_block(capfd):
    def settings(kerf: str, kind: str) -> list[str]:
        steps = called(capfd, "saw", "--kerf", kerf, "--format", "json").document["steps"]
        return [step["setting"]["exact"] for step in steps if step["kind"] == kind]

    assert settings("1/16", "rip") != settings("1/8", "rip")
    whole = {"189/8", "173/8", "139/8"}  # rim side, side rail, back rail of the demo hive
    assert whole <= {*settings("1/16", "crosscut")} & {*settings("1/8", "crosscut")}


def test_a_batch_shares_its_settings(capfd, tmp_path):
    files = [hive_file(tmp_path, name) for name in ("orchard", "smallest")]
    document = called(capfd, "saw", *files, "--format", "json").document
    labels = {label["label"] for label in document["labels"]}
    assert {"Orchard hive: roof rim side", "Smallest hive: roof rim side"} <= labels
    twelve = called(capfd, "saw", "--hives", "12", "--format", "json").document
    one = called(capfd, "saw", "--format", "json").document
    stops = twelve["settings"]["crosscut"]["count"], one["settings"]["crosscut"]["count"]
    assert stops[0] == stops[1]


def test_a_yard_without_lumber_leaves_everything_uncut(capfd, tmp_path):
    empty = tmp_path / "empty.toml"
    empty.write_text('currency = "coins"\n', encoding="utf-8")
    for form in ("text", "json", "csv"):
        assert called(capfd, "saw", "--yard", empty, "--format", form).status == 1


@pytest.mark.parametrize(("paper", "mm"), [("a4", (297, 210)), ("letter", (279.4, 215.9))])
def test_templates_are_a_pdf_on_the_paper_that_is_asked_for(capfd, tmp_path, paper, mm):
    out = tmp_path / "templates.pdf"
    told = called(capfd, "saw", "--templates", out, "--paper", paper)
    assert (told.status, told.err) == (0, "")
    assert told.out == f"Wrote {out}. Print it at 100 %, and check the rulers on it.\n"
    page = PdfReader(io.BytesIO(out.read_bytes())).pages[0].mediabox
    sizes = [float(side) * 25.4 / 72 for side in (page.width, page.height)]
    assert sizes == pytest.approx(mm, abs=0.1)


def test_templates_are_of_one_hive_and_are_no_plan(capfd, tmp_path):
    files = [hive_file(tmp_path, name) for name in ("orchard", "smallest")]
    out = tmp_path / "templates.pdf"
    check_sentences(called(capfd, "saw", *files, "--templates", out), "--templates goes with one")
    plan = called(capfd, "saw", "--templates", out, "--out", tmp_path / "plan.txt")
    check_sentences(plan, "--templates goes with one")
    nowhere = called(capfd, "saw", "--templates", tmp_path / "no-folder" / "t.pdf")
    check_sentences(nowhere, "no-folder")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["orchard.toml", "smallest.toml"]
