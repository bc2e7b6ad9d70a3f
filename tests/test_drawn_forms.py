"""The commands `shop`, `cut` and `saw` as a picture and as pages to print, for one hive or several.

Paper sizes: ISO 216 (A4) and ANSI/ASME Y14.1 (letter); a PDF's unit is 1/72 in (ISO 32000-1).
"""

import os
import pty
import subprocess
import sys
import xml.etree.ElementTree as ET

import pytest
from pypdf import PdfReader

from tests.test_bad_input import check_sentences
from tests.test_cli import ROOT, called, hive_file, read_end
from tests.test_cut_command import yard_file

COMMANDS = ("shop", "cut", "saw")
SVG = "{http://www.w3.org/2000/svg}"


def flat(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("command", COMMANDS)
def test_a_picture_is_one_svg_that_names_the_hives(capfd, tmp_path, command):
    files = [hive_file(tmp_path, name) for name in ("orchard", "smallest")]
    root = ET.fromstring(called(capfd, command, *files, "--hives", "2", "--format", "svg").out)
    assert root.tag == f"{SVG}svg"
    assert (root.findtext(f"{SVG}title") or "").startswith("Orchard hive × 2, Smallest hive × 2:")
    assert len(root.findtext(f"{SVG}desc") or "") > 100


@pytest.mark.parametrize(("paper", "mm"), [("a4", (210, 297)), ("letter", (215.9, 279.4))])
@pytest.mark.parametrize("command", COMMANDS)
def test_pages_are_of_the_paper_that_is_asked_for(capfd, tmp_path, command, paper, mm):
    out = tmp_path / "pages.pdf"
    told = called(capfd, command, "--format", "pdf", "--paper", paper, "--out", out)
    assert (told.status, told.out) == (0, f"Wrote {out}.\n")
    page = PdfReader(out).pages[0]
    assert tuple(float(n) * 25.4 / 72 for n in page.mediabox[2:]) == pytest.approx(mm, abs=0.1)
    assert "Orchard hive" in flat(page.extract_text())


@pytest.mark.parametrize("command", ["shop", "cut"])
@pytest.mark.parametrize("form", ["svg", "pdf"])
def test_picture_and_pages_say_whose_the_prices_are(capfd, tmp_path, command, form):
    def told(*more: object) -> str:
        out = tmp_path / f"told.{form}"
        called(capfd, command, *more, "--format", form, "--out", out)
        if form == "svg":
            return out.read_text(encoding="utf-8")
        return flat(" ".join(page.extract_text() for page in PdfReader(out).pages))

    assert "invented" in told()
    assert "invented" not in told("--yard", yard_file(tmp_path, ("coins", "acorns")))


@pytest.mark.parametrize("form", ["svg", "pdf"])
@pytest.mark.parametrize("command", COMMANDS)
def test_what_the_yard_lacks_makes_the_answer_no_and_what_it_has_is_drawn(
    capfd, tmp_path, command, form
):
    without = yard_file(tmp_path, (r'^material = "2x4"$', 'material = "1x4"'))
    out = tmp_path / f"told.{form}"
    told = called(capfd, command, "--yard", without, "--format", form, "--out", out)
    assert told.status == 1
    assert out.stat().st_size > 1000


def test_pages_go_through_a_pipe_but_not_onto_a_terminal():
    command = [sys.executable, "-m", "hivecalc", "cut", "--format", "pdf"]
    piped = subprocess.run(command, check=True, cwd=ROOT, capture_output=True)
    assert piped.stdout.startswith(b"%PDF-")
    ours, theirs = pty.openpty()
    with subprocess.Popen(command, cwd=ROOT, stdout=theirs, stderr=theirs) as process:
        os.close(theirs)
        seen = b"".join(iter(lambda: read_end(ours), b"")).decode()
    os.close(ours)
    assert process.returncode == 2
    assert "a PDF can't be read on a terminal; give --out PATH.pdf" in seen


@pytest.mark.parametrize("command", COMMANDS)
def test_a_form_that_is_none_is_refused(capfd, command):
    check_sentences(called(capfd, command, "--format", "png"), "'png' is not one of")
