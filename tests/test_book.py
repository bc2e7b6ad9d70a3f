"""The hive book: what it says, and what its page of HTML and its PDF hold.

Sizes are held against the hand calculation in by_hand.py, rounding against its own meaning: down is
never longer, up never shorter. Paper sizes: ISO 216 (A4, 210 x 297 mm) and ANSI/ASME Y14.1
(letter, 8 1/2 x 11 in); a PDF's unit is 1/72 in (ISO 32000-1, 8.3.2.3).
"""

import hashlib
import io
import re
import subprocess
import sys
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from functools import cache
from html.parser import HTMLParser
from textwrap import dedent
from typing import NamedTuple

import pypdf
import pypdfium2
import pytest

from hivecalc.components import DIMENSIONS, built, parts, values
from hivecalc.derivation import title
from hivecalc.document import TICK, Document, Paragraph, Picture, Section, Table, Workings, ticks
from hivecalc.document.page import document_html, document_pdf
from hivecalc.drawing.whole_hive import part_numbers
from hivecalc.fit import findings
from hivecalc.hive import Hive, changed, demo_hive, hive_from_text, with_reading
from hivecalc.length import MM, length_from_text
from hivecalc.part import SIZES
from hivecalc.reports.book import bench_page, book, component_chapter, this_hive
from hivecalc.reports.fit import rules_chapter
from hivecalc.reports.sizes import usual_paper
from hivecalc.workshop import cautions
from hivecalc.workshop.cautions import Caution
from hivecalc.workshop.needs import batch, needed
from tests.by_hand import by_hand
from tests.hives import HIVES

MADE_ON = "3 May"
PAPERS = {"a4": (210 * 72 / 25.4, 297 * 72 / 25.4), "letter": (8.5 * 72, 11 * 72)}
MARKUP = '#panic(1) *b* <script>alert(1)</script> $x$ `c` @r \\ & &amp; "q" // [a] = '
WORD = re.compile(r"[\w/☐]+")
MOST_PAGES, FEWEST_LINES = 23, 8
# The ends of what is allowed on one paper in turn, and on both the hive of the longest book.
PRINTED = [("smallest", "a4"), ("largest", "letter"), ("metric", "letter"), ("eight-frame", "a4"),
           ("sleeved", "letter"), ("sleeved", "a4")]  # fmt: skip


def hive_named(name: str) -> Hive:
    return hive_from_text(dedent(HIVES[name]))


@cache
def book_of(name: str) -> Document:
    return book(hive_named(name), MADE_ON)


@cache
def pdf_of(name: str, paper: str = "a4") -> bytes:
    return document_pdf(book_of(name), paper)


class Page(NamedTuple):
    """A page of a PDF: its text, where each piece of it begins, and its size."""

    text: str
    places: list[tuple[float, float]]
    size: tuple[float, float]


@cache
def pages_of(name: str, paper: str = "a4") -> list[Page]:
    return pages_in(pdf_of(name, paper))


def pages_in(pdf: bytes) -> list[Page]:
    found = []
    for page in pypdfium2.PdfDocument(pdf):
        text = page.get_textpage()
        boxes = (text.get_rect(n) for n in range(text.count_rects()))
        found.append(Page(text.get_text_range(), [box[:2] for box in boxes], page.get_size()))
    return found


def chapter(made: Document, heading: str) -> Section:
    return next(c for c in made.sections if c.heading == heading)


def found_in(section: Section, kind: type) -> list:
    return [block for block in section.all_blocks() if isinstance(block, kind)]


def lines(text: str) -> list[str]:
    return [line for line in text.splitlines() if line.strip()]


def squeezed(text: str) -> str:
    """A text as a PDF's reader finds it, whatever it does to spaces and line ends."""
    return re.sub(r"[\s\u200b\u2060]+", "", text)


# ── the page to pin over the bench ────────────────────────────────────────────────────────────


@pytest.mark.parametrize("name", HIVES)
def test_the_bench_page_has_every_piece_with_its_mark_and_boxes_and_sizes_as_by_hand(name):
    hive = hive_named(name)
    step, sizes = MM if hive.units == "mm" else Fraction(1, 16), by_hand(hive.measurements)
    codes = {(p.component, p.part): p.code for p in needed(batch([hive]))}
    (table,) = [b for b in book_of(name).front if isinstance(b, Table)]
    for piece, row in zip(parts(hive), table.rows, strict=True):
        assert row[1:3] == (codes[piece.component, piece.part], title(piece.part))
        assert row[-1].count(TICK) == piece.quantity
        for size, cell in zip(SIZES, row[3:6], strict=True):
            if getattr(piece, size) is None:
                assert cell == "–"
                continue
            full = f"{piece.component}.{piece.part}_{size}"
            way = DIMENSIONS.dimension(full).rule.rounding.value
            off = length_from_text(cell.removeprefix("≈ "), hive.units) - sizes[full]
            low, high = {"nearest": (-1, 1), "down": (-2, 0), "up": (0, 2)}[way]
            assert low * step / 2 <= off <= high * step / 2, (full, cell)
            assert cell.startswith("≈ ") == (off != 0), (full, cell)


def test_what_is_only_assumed_is_said_on_the_bench_page():
    (care,) = [b for b in bench_page(demo_hive()) if getattr(b, "tone", "") == "caution"]
    assert "stud thickness" in care.text
    how = "To 1/16 in; ≈ stands before a rounded size. Longest first. Write its mark on each piece"
    assert how in " ".join(Section("", bench_page(demo_hive())).texts())
    assert (ticks(12).count(TICK), ticks(13)) == (12, "____ of 13")  # more are lost count of
    measured = changed(demo_hive(), {"stud_thickness": "1 1/2"})
    assert "stud thickness" not in bench_page(measured)[-1].text


def test_a_size_that_no_tape_shows_is_rounded_and_wire_is_not():
    """A stud 1 9/16 in wide less leaves a stop of 0.2785 in; mesh of two wires is 0.034 in."""
    table = next(b for b in book_of("eight-frame").front if isinstance(b, Table))
    thick = {row[2]: row[3] for row in table.rows}
    assert (thick["screen front stop"], thick["cover"]) == ("≈ 1/4 in", "5/32 in")
    told = " ".join(this_hive(demo_hive()).texts())
    assert "Mesh thickness: 0.034 in (≈ 0.9 mm)" in told


def test_foam_of_25_mm_is_not_about_an_inch_anywhere_in_the_book():
    """25 mm are 0.984 in, and 63/64 are 0.984; the list to buy by says 25 mm."""
    sleeved = hive_named("sleeved")
    table = next(b for b in book_of("sleeved").front if isinstance(b, Table))
    assert {row[3] for row in table.rows if "foam" in row[2] or "panel" in row[2]} == {"≈ 63/64 in"}
    assert "Foam thickness: ≈ 63/64 in (25 mm)" in " ".join(this_hive(sleeved).texts())
    for component in ("Bottom board", "Sleeve"):
        assert "≈ 63/64 in\n25 mm" in "\n".join(chapter(book_of("sleeved"), component).texts())


# ── what it rests on ──────────────────────────────────────────────────────────────────────────


def sources(hive: Hive) -> dict[str, str]:
    """The texts of each section on what the hive's sizes rest on."""
    return {s.heading: "\n".join(s.texts()) for s in this_hive(hive).sections}


def test_what_was_measured_chosen_and_assumed_are_told_apart():
    told = sources(hive_named("metric"))
    assert "Stud thickness: 38 mm (≈ 1 1/2 in)" in told["Measured"]
    assert "Panel gap: 6 mm" in told["Chosen"]
    (assumed,) = [text for heading, text in told.items() if heading.startswith("Assumed")]
    assert "Overhang:" in assumed
    assert not re.search("Stud thickness|Panel gap|Top bar", assumed)
    first = chapter(book_of("metric"), "This hive").blocks[0].text
    assert "587 mm by 441.5 mm" in first


def test_the_readings_of_the_tape_are_shown_with_what_they_come_to():
    hive = demo_hive()
    for place, text in enumerate(("23 1/8", "23 3/16", "23 1/4")):
        hive = with_reading(hive, "hive_length", place, text)
    for place, text in enumerate(("28 15/16", "29 1/16")):
        hive = with_reading(hive, "diagonals", place, text)
    told = sources(hive)["Readings of the tape"]
    assert "23 1/8 in; 23 3/16 in; 23 1/4 in" in told
    assert "28 15/16 in; 29 1/16 in" in told
    assert len(re.findall(r"\w\.$", told, re.MULTILINE)) == 2  # advice on both


def test_whether_there_is_an_inner_cover_is_told_as_yes_or_no():
    (assumed,) = [t for h, t in sources(demo_hive()).items() if h.startswith("Assumed")]
    assert "Inner cover: yes" in assumed
    closed = sources(changed(demo_hive(), {"inner_cover": "no"}))
    assert "Inner cover: no" in closed["Chosen"]
    assert not any("Sheet thickness" in text for text in closed.values())


# ── the rest of what it says ──────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("name", HIVES)
def test_every_part_stands_once_with_its_number_in_the_table_of_its_component(name):
    hive = hive_named(name)
    numbers = part_numbers(values(hive), built(hive))
    rows = [
        row
        for component in built(hive)
        for table in found_in(chapter(book_of(name), title(component).capitalize()), Table)
        for row in table.rows
    ]
    assert [(row[0], row[1].split("\n")[0], row[2]) for row in rows] == [
        (str(numbers[p.component, p.part]), f"{p.quantity} × {title(p.part)}", p.material)
        for p in parts(hive)
    ]


@pytest.mark.parametrize("name", HIVES)
def test_every_size_that_is_worked_out_is_worked_out_once_below_what_it_needs(name):
    hive, found = hive_named(name), list[str]()
    for component in built(hive):
        (workings,) = found_in(chapter(book_of(name), title(component).capitalize()), Workings)
        own = {title(n): n for n in DIMENSIONS.names([component])}
        assert len(own) == len(DIMENSIONS.names([component])), "two sizes with one name"
        told = [own[step.size] for step in workings.steps]
        for place, dimension in enumerate(told):
            needed_for_it = set(DIMENSIONS.dimension(dimension).inputs) & set(told)
            assert needed_for_it <= set(told[:place]), dimension
        assert all(step.why.endswith(".") for step in workings.steps)
        found += told
    expected = {
        n
        for n in DIMENSIONS.names(built(hive))
        if n not in hive.measurements and not DIMENSIONS.dimension(n).as_measured
    }
    assert Counter(found) == Counter(expected)


def test_a_worked_size_shows_its_sum_and_what_the_tape_says():
    """23 1/8 − 2 × 1 1/2 − 9/32 = 19 27/32, which is 19 13/16 rounded down: by hand."""
    hive = changed(demo_hive(), {"panel_gap": "9/32"})
    numbers = part_numbers(values(hive), built(hive))
    (workings,) = found_in(component_chapter(hive, "bottom_board", numbers), Workings)
    panel = next(step for step in workings.steps if step.size == "panel length")
    assert (panel.formula, panel.numbers) == ("opening length − panel gap", "20 1/8 − 9/32")
    assert (panel.value, panel.on_tape) == ("19 27/32 in", "≈ 19 13/16 in, down to 1/16 in")
    page = Read(document_html(Document("", (component_chapter(hive, "bottom_board", numbers),))))
    told = " ".join(page.text.split())
    assert "= 19 27/32 in on the tape ≈ 19 13/16 in, down to 1/16 in" in told
    rail = next(step for step in workings.steps if step.size == "front rail length")
    assert (rail.value, rail.on_tape) == ("14 3/8 in", "")  # 17 3/8 - 3, a mark of the tape


def test_each_way_of_rounding_has_its_reason_and_its_pieces():
    told = found_in(chapter(book_of("orchard"), "Bottom board"), Paragraph)
    panel = next(p for p in told if re.search(r"So: .*\bpanel\b", p.text))
    assert panel.lead == "Down to 1/16 in."
    assert panel.text.startswith(DIMENSIONS.dimension("bottom_board.panel_length").rule.reason)
    roof = found_in(chapter(book_of("orchard"), "Roof"), Paragraph)
    assert any(p.lead == "Up to 1/16 in." and "deck" in p.text for p in roof)


@pytest.mark.parametrize("name", HIVES)
def test_every_rule_stands_once_with_its_value_and_reason(name):
    found = findings(hive_named(name))
    tables = found_in(chapter(book_of(name), "Will it go together?"), Table)
    cells = [row[0] for table in tables for row in table.rows]
    for finding, cell in zip(found, cells, strict=True):
        head, figures, why = cell.split("\n")
        assert f"{title(finding.rule).capitalize()} (" in head
        assert finding.level in head
        assert head[0] == {"holds": "✓", "at the edge": "~"}.get(finding.outcome, head[0])
        assert finding.why in why
        limited = (finding.low, finding.high) != (None, None)
        assert figures.endswith("to spare") == (limited and finding.outcome == "holds")


def test_a_rule_that_fails_is_told_at_the_top_by_how_much_and_why():
    """A skirt of 2 5/8 in on a rim 1 5/8 in low over a cover of 7/8 in laps 1/8 in, not 1/2."""
    hive = changed(demo_hive(), {"skirt_width": "2 5/8", "rim_low_height": "1 5/8"})
    failing = next(f for f in findings(hive) if f.rule == "roof.skirt_lap")
    first = rules_chapter(hive).blocks[0]
    assert (first.tone, first.lead) == ("wrong", "Skirt lap fails: 3/8 in too small.")
    assert first.text == f"{failing.why} What helps: {failing.mend}"


@pytest.mark.parametrize("name", HIVES)
def test_the_whole_hive_is_drawn_with_the_number_of_every_part_and_each_drawing_once(name):
    hive = hive_named(name)
    pictures = [p for c in book_of(name).sections for p in found_in(c, Picture)]
    assert len({p.svg for p in pictures}) == len(pictures) >= len(built(hive))
    apart = next(p for p in pictures if "apart" in p.words)
    drawn = set(re.findall(r"<text[^>]*>([^<]*)</text>", apart.svg))
    seen = {number for text in drawn for number in re.findall(r"\d+", text)}
    assert {str(n) for n in part_numbers(values(hive), built(hive)).values()} <= seen


def all_cautions() -> list[Caution]:
    return [one for one in vars(cautions).values() if isinstance(one, Caution)]


@pytest.mark.parametrize("name", ["orchard", "sleeved"])
def test_every_caution_is_told_exactly_once(name):
    told = " ".join(text for c in book_of(name).sections for text in c.texts())
    assert {c.text: told.count(c.text) for c in all_cautions()} == {
        c.text: 1 for c in all_cautions()
    }
    for whom in ("manual", "local codes", "licensed"):
        assert whom in " ".join(chapter(book_of(name), "Take care").texts())


def test_the_words_of_the_book_are_explained_and_no_others():
    words = {
        name: {row[0].split("\n")[0] for row in chapter(book_of(name), "Words").blocks[0].rows}
        for name in ("orchard", "eight-frame")
    }
    assert {"bee space", "rail", "skirt", "stack"} <= words["orchard"]
    assert {"lug", "borrow"}.isdisjoint(words["orchard"])
    assert "lug" in words["eight-frame"]


def test_the_book_tells_what_the_foam_saves_and_what_that_leaves_out():
    warm = chapter(book_of("sleeved"), "How warm it is")
    said = " ".join(warm.texts())
    rows = found_in(warm, Table)[0].rows
    watts = [int(row[1]) for row in rows]
    assert watts == sorted(watts, reverse=True)
    ours = next(int(row[1]) for row in rows if row[0] == "this hive")
    saved = int(re.search(r"saves about (\d+) W", said)[1])
    assert saved == pytest.approx(watts[0] - ours, abs=6)  # told to the nearest ten
    assert all(word in said for word in ("Wind", "hivecalc warmth"))
    care = "thick smoke: cover it, and keep flames and hot tools away. Mask on where it is cut."
    assert f"Foam burns with {care} Glue made for polystyrene only." in said


def test_the_same_hive_gives_the_same_book_however_much_was_drawn_before():
    again = book(hive_named("orchard"), MADE_ON)
    assert again == book_of("orchard")
    assert document_html(again) == document_html(book_of("orchard"))


# ── the page of HTML ──────────────────────────────────────────────────────────────────────────


class Read(HTMLParser):
    """A page as it was read: its tags balanced, every attribute, all that is read of it."""

    ALONE = frozenset({"meta", "col", "br"})

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: Counter[str] = Counter()
        self.attributes: list[tuple[str, str, str]] = []
        self.text = ""
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attrs) -> None:
        self.tags[tag] += 1
        self.attributes += [(tag, name, value or "") for name, value in attrs]
        if tag not in self.ALONE:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in self.ALONE:
            self.open.pop()

    def handle_endtag(self, tag) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data) -> None:
        self.text += data


@pytest.mark.parametrize("name", ["orchard", "eight-frame", "metric"])
def test_the_page_is_whole_alone_and_every_chapter_leads_back_to_its_contents(name):
    text = document_html(book_of(name))
    page = Read(text)
    assert page.open == []
    ids = [value for _, attribute, value in page.attributes if attribute == "id"]
    assert len(ids) == len(set(ids))
    links = Counter(v.removeprefix("#") for t, a, v in page.attributes if (t, a) == ("a", "href"))
    chapters = len(book_of(name).sections)
    assert links.pop("contents") == chapters
    assert len(links) == chapters
    assert {*links, "contents"} <= set(ids)
    alone = {"script", "link", "iframe", "object", "embed", "img", "base", "form"}
    assert alone.isdisjoint(page.tags)
    for tag, attribute, value in page.attributes:
        assert not attribute.startswith("on"), (tag, attribute)
        if attribute in {"src", "href", "xlink:href", "action", "data", "srcset"}:
            assert value.startswith("#"), (tag, attribute, value)
        assert attribute == "xmlns" or "//" not in value, (tag, attribute, value)
    style = text.partition("<style>")[2].partition("</style>")[0]
    assert "url(" not in style
    assert "@import" not in style


@pytest.mark.parametrize(("paper", "size"), [("a4", "A4"), ("letter", "letter")])
def test_the_page_prints_on_the_paper_that_was_asked_for(paper, size):
    assert f"@page {{ size: {size};" in document_html(book_of("orchard"), paper)
    assert usual_paper({"a4": "mm", "letter": "inch"}[paper]) == paper


def test_a_table_has_as_many_cells_in_each_row_as_heads():
    for name in ("orchard", "eight-frame"):
        for c in book_of(name).sections:
            tables = found_in(c, Table)
            assert all({len(row) for row in t.rows} == {len(t.columns)} for t in tables)


def test_what_a_builder_wrote_is_text_on_the_page():
    made = book(replace(demo_hive(), name=MARKUP + "\x07"), MARKUP)
    page = Read(document_html(made))
    assert "script" not in page.tags
    assert page.text.count(MARKUP) > 3  # in the title, as heading, as date, in the drawings
    assert "\x07" not in document_html(made)


# ── the PDF ───────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(("name", "paper"), PRINTED)
def test_the_pdf_has_few_pages_none_nearly_empty_all_of_the_paper_asked_for_and_numbered(
    name, paper
):
    """The bench page is one, and the first; none ends with a heading or parts a figure."""
    pages = pages_of(name, paper)
    assert len(pages) <= MOST_PAGES
    headings = {s.heading for c in book_of(name).sections for s in (c, *c.sections)}
    for number, (text, _, size) in enumerate(pages, 1):
        assert size == pytest.approx(PAPERS[paper], abs=0.01)
        assert squeezed(f"Page {number} of {len(pages)}") in squeezed(text)
        assert len(lines(text)) - 2 >= FEWEST_LINES, number  # without head and foot
        body = [line.strip() for line in lines(text)]
        body = [line for line in body if not line.startswith(("Page ", book_of(name).title))]
        assert body[-1] not in headings
        assert body.count("in") == 0, number  # a size does not stand on two lines
        assert re.findall(r".*(?:\d[./]|−)\n\d.*", text.replace("\r", "")) == []
    first, second, *_ = (squeezed(page.text) for page in pages)
    table = next(b for b in book_of(name).front if isinstance(b, Table))
    assert all(squeezed("".join(row[1:-1])) in first for row in table.rows)
    assert first.count(TICK) == sum(p.quantity for p in parts(hive_named(name)))
    assert "Thishive" in second


@pytest.mark.parametrize(("name", "paper"), PRINTED)
def test_the_pdf_says_all_that_the_book_says_and_no_text_begins_off_the_page(name, paper):
    """All text begins 13 mm or more from the sides and 8 mm from top and bottom."""
    blocks = [block for c in book_of(name).sections for block in c.all_blocks()]
    said = [[b.caption] if isinstance(b, Picture) else b.texts() for b in blocks]
    asked = Counter(word for texts in said for text in texts for word in WORD.findall(text))
    shown = Counter(WORD.findall(" ".join(page.text for page in pages_of(name, paper))))
    assert asked - shown == Counter()
    width, height = PAPERS[paper]
    for page in pages_of(name, paper):
        across, up = zip(*page.places, strict=True)
        assert 13 / 25.4 * 72 < min(across) <= max(across) < width - 13 / 25.4 * 72
        assert 8 / 25.4 * 72 < min(up) <= max(up) < height - 8 / 25.4 * 72


def first_page(name: str) -> str:
    """The text of the first page of a short book under this name, and its PDF's title."""
    made = book_of("orchard")
    pdf = document_pdf(replace(made, title=name, made_on=name, sections=made.sections[:1]))
    assert pypdfium2.PdfDocument(pdf).get_metadata_value("Title") == name
    return pages_in(pdf)[0].text


def test_what_a_builder_wrote_is_text_in_the_pdf():
    assert squeezed(first_page(MARKUP)).count(squeezed(MARKUP)) == 2  # name and date


def test_a_name_without_a_space_is_parted_and_stays_on_the_page():
    first = first_page("W" * 80).replace("\u200b", "")
    assert len([line for line in first.splitlines() if set(line.strip()) == {"W"}]) > 1
    assert "W" * 80 in squeezed(first)


def test_the_pdf_can_be_read_aloud():
    """Tagged, in a language, with a title, a description of every picture (PDF/UA, ISO 14289-1)."""
    made = replace(book_of("orchard"), sections=(chapter(book_of("orchard"), "Drawings"),))
    pdf = pypdf.PdfReader(io.BytesIO(document_pdf(made)))
    assert pdf.trailer["/Root"]["/Lang"] == "en"
    assert pdf.trailer["/Root"]["/MarkInfo"]["/Marked"]
    objects = map(pdf.get_object, range(1, pdf.trailer["/Size"]))
    told = [o["/Alt"] for o in objects if isinstance(o, dict) and "/Alt" in o]
    assert Counter(told) == Counter(p.words for p in found_in(made.sections[0], Picture))


ELSEWHERE = """
import hashlib, os, sys
sys.path.insert(0, os.getcwd())
import hivecalc.document as d
slow = {"typst", "matplotlib", "numpy", "hivecalc.drawing", "hivecalc.fit", "rich"}
assert not slow & set(sys.modules)
from hivecalc.reports.book import book
from hivecalc.document.page import document_html, document_pdf
from hivecalc.hive import hive_from_text
made = book(hive_from_text(sys.argv[1]), "3 May")
document_html(made)
assert not {"typst", "matplotlib", "scipy"} & set(sys.modules)
os.chdir("/")
print(hashlib.sha256(document_pdf(made)).hexdigest())
assert not {"matplotlib", "scipy"} & set(sys.modules)
"""


def test_libraries_are_loaded_late_and_the_same_book_is_the_same_bytes_elsewhere():
    command = [sys.executable, "-c", ELSEWHERE, dedent(HIVES["smallest"])]
    told = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    assert told.strip() == hashlib.sha256(pdf_of("smallest")).hexdigest()
