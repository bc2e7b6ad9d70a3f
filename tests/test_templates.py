"""Templates at full size: true to 0.2 mm, read back from the PDF's own lines and from its pixels.

Sheets are laid together as a person does it, by the crosses that neighbours share.
"""

import io
import math
import re
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import combinations, pairwise
from typing import NamedTuple

import numpy as np
import pypdf
import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hivecalc.components import values
from hivecalc.hive import changed, demo_hive
from hivecalc.length import MM
from hivecalc.workshop.settings import taper
from hivecalc.workshop.templates import (
    OVERLAP,
    Line,
    Paper,
    Template,
    Window,
    Words,
    pages,
    screw_templates,
    taper_template,
    templates,
    templates_pdf,
    windows,
)
from tests.pictures import real_width

TRUE = 0.2  # mm
POINT = 25.4 / 72
PAPERS: tuple[Paper, ...] = ("a4", "letter")
PRINTED: tuple[tuple[str, Paper], ...] = (
    ("smallest", "letter"), ("demo", "a4"), ("demo", "letter"), ("metric", "a4"),
)  # fmt: skip
"""Hives, and the paper that their templates are read back from."""
# ISO 216: A4 is 210 by 297 mm. Letter is 8 1/2 by 11 in.
SIZES = {"a4": (297.0, 210.0), "letter": (279.4, 215.9)}
HIVES = {
    "smallest": changed(demo_hive(), {
        "hive_length": "8", "hive_width": "8", "stud_width": "2", "rim_low_height": "1 7/8",
    }),
    "demo": demo_hive(),
    "largest": changed(demo_hive(), {
        "hive_length": "48", "hive_width": "48", "stud_width": "7 1/4", "rim_low_height": "1/2",
        "overhang": "6", "cover_lip": "2", "stud_thickness": "2 1/4",
    }),
    "metric": replace(changed(demo_hive(), {"hive_length": "587 mm"}), units="mm"),
}  # fmt: skip


class Drawn(NamedTuple):
    """A line as the PDF has it, in mm from the sheet's lower left corner; thick in mm."""

    start: complex
    end: complex
    thick: float

    @property
    def length(self) -> float:
        return abs(self.end - self.start)

    @property
    def middle(self) -> complex:
        return (self.start + self.end) / 2


@cache
def pdf(hive: str, paper: Paper) -> bytes:
    return templates_pdf(HIVES[hive], paper)


def texts(made: bytes) -> list[str]:
    found = pypdfium2.PdfDocument(made)
    return [" ".join(page.get_textpage().get_text_range().split()) for page in found]


@cache
def lines_on(hive: str, paper: Paper) -> list[list[Drawn]]:
    found = pypdf.PdfReader(io.BytesIO(pdf(hive, paper))).pages
    sides = [(float(p.mediabox.width) * POINT, float(p.mediabox.height) * POINT) for p in found]
    assert sides == [pytest.approx(SIZES[paper], abs=0.05)] * len(sides)
    return [list(drawn_lines(page)) for page in found]


def drawn_lines(page: pypdf.PageObject) -> Iterator[Drawn]:
    """The lines of a page, from the operators of its content stream."""
    matrix, kept, thick, place = np.eye(3), [], 1.0, 0j

    def at(x: float, y: float) -> complex:
        x, y, _ = np.array([x, y, 1.0]) @ matrix
        return complex(x, y) * POINT

    for values_, operator in page.get_contents().operations:
        numbers = [float(v) for v in values_] if operator in {b"cm", b"w", b"m", b"l"} else []
        if operator == b"q":
            kept.append((matrix, thick))
        elif operator == b"Q":
            matrix, thick = kept.pop()
        elif operator == b"cm":
            a, b, c, d, e, f = numbers
            matrix = np.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ matrix
        elif operator == b"w":
            thick = numbers[0] * POINT
        elif operator == b"m":
            place = at(*numbers)
        elif operator == b"l":
            end = at(*numbers)
            yield Drawn(place, end, thick)
            place = end


def sheets(hive: str, paper: Paper, template: Template) -> list[list[Drawn]]:
    """The lines of each sheet of one of a hive's templates."""
    start = 0
    for other in templates(HIVES[hive]):
        count = len(pages(other, paper))
        if other == template:
            return lines_on(hive, paper)[start : start + count]
        start += count
    raise AssertionError


def crosses(lines: list[Drawn]) -> list[complex]:
    """The middles of the joint marks: two lines of 10 mm that halve one another."""
    tens = [line for line in lines if line.length == pytest.approx(10, abs=0.01)]
    level = [line for line in tens if abs((line.end - line.start).imag) < 0.01]
    upright = [line for line in tens if abs((line.end - line.start).real) < 0.01]
    return [a.middle for a in level if any(abs(a.middle - b.middle) < 0.01 for b in upright)]


def right_of(one: list[Drawn], other: list[Drawn]) -> complex:
    """How far the other sheet is moved so that its left crosses lie on this one's right ones."""
    here = sorted(sorted(crosses(one), key=lambda c: -c.real)[:2], key=lambda c: c.imag)
    there = sorted(sorted(crosses(other), key=lambda c: c.real)[:2], key=lambda c: c.imag)
    moves = [a - b for a, b in zip(here, there, strict=True)]
    assert abs(moves[0] - moves[1]) < TRUE / 10
    return moves[0]


def laid_together(found: list[list[Drawn]], across: int) -> list[Drawn]:
    """The first row of sheets in one plane, each moved onto the one before it."""
    together, moved = list(found[0]), 0j
    for one, other in pairwise(found[:across]):
        moved += right_of(one, other)
        together += [Drawn(a + moved, b + moved, t) for a, b, t in other]
    return together


def thick_ends(lines: list[Drawn]) -> tuple[complex, complex]:
    """Where the thick line, the one of 0.5 mm, begins and ends."""
    ends = [p for line in lines if line.thick > 0.4 for p in (line.start, line.end)]
    return min(ends, key=lambda p: p.real), max(ends, key=lambda p: p.real)


def mm(length: Fraction) -> float:
    return float(length / MM)


# ── read back from the PDF's lines ─────────────────────────────────────────────────────────────


@pytest.mark.parametrize(("hive", "paper"), [*PRINTED, ("largest", "a4")])
def test_every_sheet_is_of_the_paper_and_has_control_rulers_of_100_mm_and_4_in(hive, paper):
    for lines, text in zip(lines_on(hive, paper), texts(pdf(hive, paper)), strict=True):
        low = [line for line in lines if max(line.start.imag, line.end.imag) < 40]
        level = [line for line in low if abs((line.end - line.start).imag) < 1e-6]
        lengths = {round(line.length, 2) for line in level}
        assert any(abs(length - 100) < TRUE for length in lengths)
        assert any(abs(length - 4 * 25.4) < TRUE for length in lengths)
        assert all(said in text for said in ("100 mm", "4 in", "100 %"))


@pytest.mark.parametrize(("hive", "paper"), PRINTED)
def test_the_taper_is_as_long_and_as_high_as_the_piece(hive, paper):
    template, side = taper_template(HIVES[hive]), taper(HIVES[hive])
    found = sheets(hive, paper, template)
    together = laid_together(found, len(found))
    start, end = thick_ends(together)
    assert (end - start).real == pytest.approx(mm(side.run), abs=TRUE)
    assert (start - end).imag == pytest.approx(mm(side.high - side.low), abs=TRUE)
    thin = [line for line in together if 0.22 < line.thick < 0.28]
    foot = min(p.imag for line in thin for p in (line.start, line.end) if p.imag > 40)
    assert start.imag - foot == pytest.approx(mm(side.high), abs=TRUE)
    assert end.imag - foot == pytest.approx(mm(side.low), abs=TRUE)
    fall = math.degrees(math.atan2((start - end).imag, (end - start).real))
    assert fall == pytest.approx(side.angle, abs=0.01)
    half = [line for line in together if abs(line.start.real - (start + end).real / 2) < TRUE]
    tall = max(abs((line.end - line.start).imag) for line in half)
    assert tall == pytest.approx(mm(side.high + side.low) / 2, abs=TRUE)  # of a trapezium


def test_rows_of_sheets_join_to_the_whole_height():
    """The largest stud is higher than a sheet: the front end runs over two rows."""
    hive, paper = HIVES["largest"], "a4"
    template = taper_template(hive)
    found = sheets("largest", paper, template)
    across = len(windows(template, paper)[0])
    below, above = found[0], found[across]
    top = sorted(sorted(crosses(below), key=lambda c: -c.imag)[:2], key=lambda c: c.real)
    low = sorted(sorted(crosses(above), key=lambda c: c.imag)[:2], key=lambda c: c.real)
    moves = [a - b for a, b in zip(top, low, strict=True)]
    assert abs(moves[0] - moves[1]) < TRUE / 10
    upright = [
        Drawn(line.start + move, line.end + move, line.thick)
        for lines, move in ((below, 0j), (above, moves[0]))
        for line in lines
        if 0.22 < line.thick < 0.28
        and line.length > 20
        and abs((line.end - line.start).real) < 1e-6
    ]
    heights = [p.imag for line in upright for p in (line.start, line.end)]
    assert max(heights) - min(heights) == pytest.approx(7.25 * 25.4, abs=TRUE)


@pytest.mark.parametrize(("hive", "paper"), PRINTED)
def test_screw_lines_are_as_far_in_as_the_hive_says(hive, paper):
    found = values(HIVES[hive])
    for template in screw_templates(HIVES[hive]):
        lines = sheets(hive, paper, template)
        together = laid_together(lines, len(lines))
        start, end = thick_ends(together)
        assert (end - start).real == pytest.approx(mm(template.width), abs=TRUE)
        level = {
            round(line.start.imag, 3)
            for line in together
            if line.length > 20 and abs((line.end - line.start).imag) < 1e-6
            and line.start.imag > 40 and 0.22 < line.thick < 0.28
        }  # fmt: skip
        cover, deck = min(level), max(level)
        back = "_back" if "back" in template.title and "front end" not in template.title else ""
        lines_in = (found[f"roof.{sheet}{back}_screw_line"] for sheet in ("cover", "deck"))
        assert [start.imag - cover, start.imag - deck] == pytest.approx(
            list(map(mm, lines_in)), abs=TRUE
        )


@pytest.mark.parametrize("paper", PAPERS)
def test_crosses_of_the_screws_stand_where_they_are_counted(paper):
    # By hand for the demo hive: the cover is 28 1/8 long, the line 3 in from its front edge and,
    # over the back rail of 1 in, 2 3/4 in from its back edge; 22 3/8 between the corner screws are
    # halved twice: 5 19/32 apart.
    template = screw_templates(demo_hive())[0]
    lines = sheets("demo", paper, template)
    together = laid_together(lines, len(lines))
    start, _ = thick_ends(together)
    upright = [
        line.middle.real - start.real
        for line in together
        if abs(line.length - 12.7) < 0.01 and abs((line.end - line.start).real) < 1e-6
        and abs(line.middle.imag - start.imag) < 0.01
    ]  # fmt: skip
    meant = [(3 + i * 22.375 / 4) * 25.4 for i in range(5)]
    assert sorted({round(x, 1) for x in upright}) == pytest.approx(meant, abs=TRUE)


# ── read back from its pixels ──────────────────────────────────────────────────────────────────

DPI = 300
PIXEL = 25.4 / DPI


@cache
def raster(hive: str, paper: Paper, number: int) -> np.ndarray:
    """A sheet as grey pixels: rows from the top."""
    document = pypdfium2.PdfDocument(pdf(hive, paper))
    try:
        return document[number].render(scale=DPI / 72, grayscale=True).to_numpy()
    finally:
        document.close()


def dark(strip: np.ndarray) -> list[float]:
    """Middles of the dark runs in a row or column of pixels, in mm from its start."""
    black = np.flatnonzero(strip < 140)
    runs = np.split(black, np.flatnonzero(np.diff(black) > 1) + 1) if black.size else []
    return [float(run.mean() + 0.5) * PIXEL for run in runs]


@pytest.mark.parametrize(("hive", "paper"), [*PRINTED, ("largest", "a4")])
def test_the_rulers_on_paper_are_as_long_as_they_say(hive, paper):
    """The end ticks are 4 mm high, those between half as high: cut them 3 mm above the ruler."""
    sheet = raster(hive, paper, 0)
    high = SIZES[paper][1]
    for length, foot in ((100.0, 12.0 + 11.0), (4 * 25.4, 12.0)):
        row = sheet[round((high - foot - 3) / PIXEL), : round(130 / PIXEL)]
        ticks = [x for x in dark(row) if x < 12 + length + 2]
        assert len(ticks) == 2
        assert ticks[1] - ticks[0] == pytest.approx(length, abs=TRUE)


# ── how the sheets are laid out ────────────────────────────────────────────────────────────────


@given(
    st.integers(1, 60 * 16).map(lambda n: Fraction(n, 16)),
    st.integers(1, 12 * 16).map(lambda n: Fraction(n, 16)),
    st.sampled_from(PAPERS),
)
def test_the_sheets_show_all_of_a_template_and_overlap(width, height, paper):
    shown = [w for row in windows(Template("any", "", width, height, ()), paper) for w in row]
    lows, highs = [w.low for w in shown], [w.high for w in shown]
    for axis, size in enumerate((width, height)):
        starts = sorted({low[axis] for low in lows})
        ends = sorted({high[axis] for high in highs})
        assert starts[0] <= 0
        assert ends[-1] >= size
        assert all(end - start == OVERLAP for end, start in zip(ends, starts[1:], strict=False))
        if len(starts) > 1:  # one sheet fewer would not do
            room = ends[0] - starts[0]
            assert size > (len(starts) - 1) * (room - OVERLAP) + OVERLAP


def box(words: Words) -> tuple[float, float, float, float]:
    """The room that a text takes on paper, in mm, by the widths of the letters' own font."""
    wide = real_width(words.text, bold=False) * 9 * POINT
    x, y = (mm(place) for place in words.place)
    left = x - {"start": 0, "middle": wide / 2, "end": wide}[words.anchor]
    return left, y - 0.93 * 9 * POINT, left + wide, y + 0.24 * 9 * POINT


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("hive", HIVES)
def test_no_words_on_a_sheet_overlap_or_are_cut_off(hive, paper):
    for template in templates(HIVES[hive]):
        for page in pages(template, paper, HIVES[hive].name):
            boxes = [(w.text, box(w)) for w in page.words]
            for text, (left, top, right, bottom) in boxes:
                assert left > 4, text
                assert top > 4, text
                assert right < SIZES[paper][0] - 4, text
                assert bottom < SIZES[paper][1] - 4, text
            for (one, a), (other, b) in combinations(boxes, 2):
                across = min(a[2], b[2]) - max(a[0], b[0])
                down = min(a[3], b[3]) - max(a[1], b[1])
                assert min(across, down) <= 0.01, (one, other)


@pytest.mark.parametrize("paper", PAPERS)
def test_crosses_carry_the_numbers_of_the_two_sheets_that_they_join(paper):
    template, found = taper_template(HIVES["largest"]), dict[str, set[int]]()
    for number, page in enumerate(pages(template, paper), 1):
        for words in page.words:
            if re.fullmatch(r"\d+/\d+", words.text):
                found.setdefault(words.text, set()).add(number)
    assert all({*map(int, text.split("/"))} == numbers for text, numbers in found.items())
    rows = windows(template, paper)
    assert len(found) == len(rows) * (len(rows[0]) - 1) + (len(rows) - 1) * len(rows[0])


def test_a_line_is_cut_where_the_window_ends():
    window = Window((Fraction(0), Fraction(0)), (Fraction(4), Fraction(2)))
    line = Line((Fraction(-2), Fraction(-1)), (Fraction(6), Fraction(3)), "cut")
    assert window.part(line) == ((0, 0), (4, 2))
    assert window.part(Line((Fraction(5), Fraction(0)), (Fraction(9), Fraction(1)), "cut")) is None
    assert window.part(Line((Fraction(0), Fraction(3)), (Fraction(4), Fraction(3)), "cut")) is None


# ── the PDF itself ─────────────────────────────────────────────────────────────────────────────


def test_the_same_hive_gives_the_same_bytes():
    assert templates_pdf(demo_hive()) == pdf("demo", "a4")
    code = (
        "import sys; from hivecalc.workshop.templates import templates_pdf; "
        "from hivecalc.hive import demo_hive; sys.stdout.buffer.write(templates_pdf(demo_hive()))"
    )
    again = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True)
    assert again.stdout == pdf("demo", "a4")


def test_every_sheet_says_what_it_is_and_how_it_is_joined():
    found = texts(pdf("demo", "a4"))
    assert all("Orchard hive" in text for text in found)
    numbers = [re.findall(r"sheet (\d) of (\d)", text) for text in found]
    assert numbers == [[(str(i), "3")] for _ in range(4) for i in (1, 2, 3)]
    assert all("lay crosses with the same numbers on one another" in text for text in found)
    (one,) = pages(taper_template(HIVES["smallest"]), "letter")
    assert not any("sheet" in words.text for words in one.words)


def test_a_name_is_shown_as_it_stands_and_steers_nothing():
    name = '#include *bold* $x$ <b> " \\ \x1b[31m'
    found = texts(templates_pdf(replace(demo_hive(), name=name)))
    assert all(name.replace("\x1b", "\\x1b") in text for text in found)
