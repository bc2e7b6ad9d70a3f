"""The hive book: what it says, and what its page of HTML and its PDF hold.

Sizes are held against the hand calculation in by_hand.py, rounding against its own meaning: down is
never longer, up never shorter. Paper sizes: ISO 216 (A4, 210 x 297 mm) and ANSI/ASME Y14.1
(letter, 8 1/2 x 11 in); a PDF's unit is 1/72 in (ISO 32000-1, 8.3.2.3).
"""

import io
import re
import subprocess
import sys
from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from functools import cache
from html.parser import HTMLParser
from textwrap import dedent
from typing import NamedTuple

import pypdf
import pytest

from hivecalc.book import Book, book, book_html, book_pdf
from hivecalc.book.content import TICK, Chapter, Paragraph, Picture, Table, Workings
from hivecalc.book.front import not_given
from hivecalc.components import DIMENSIONS, built, parts, values
from hivecalc.derivation import title
from hivecalc.drawing.exploded import part_numbers
from hivecalc.fit import findings
from hivecalc.hive import Hive, changed, demo_hive, hive_from_text
from hivecalc.length import MM, length_from_text
from hivecalc.part import SIZES, Piece
from tests.by_hand import by_hand
from tests.hives import HIVES

MADE_ON = "3 May"
PAPERS = {"a4": (210 * 72 / 25.4, 297 * 72 / 25.4), "letter": (8.5 * 72, 11 * 72)}
MARKUP = '#panic(1) *b* <script>alert(1)</script> $x$ `c` @r \\ & &amp; "q" // [a] = '
UNMEASURED = "What was not measured"
SAMPLE = ("orchard", "eight-frame", "metric")
PRINTED = (
    *((name, "letter") for name in SAMPLE), ("smallest", "letter"), ("sleeved", "a4"),
    ("largest", "a4"), ("orchard", "a4"),
)  # fmt: skip


def hive_named(name: str) -> Hive:
    return hive_from_text(dedent(HIVES[name]))


@cache
def book_of(name: str) -> Book:
    return book(hive_named(name), MADE_ON)


@cache
def pdf_of(name: str, paper: str = "a4") -> bytes:
    return book_pdf(book_of(name), paper)


def chapter(made: Book, heading: str) -> Chapter:
    return next(c for c in made.chapters if c.heading == heading)


def blocks(made: Chapter) -> list[object]:
    return [*made.blocks, *(block for section in made.sections for block in section.blocks)]


def tables(made: Chapter) -> list[Table]:
    return [block for block in blocks(made) if isinstance(block, Table)]


def parts_rows(made: Book, hive: Hive) -> list[tuple[str, ...]]:
    """Return the rows of all parts tables, in the order of the book."""
    chapters = [chapter(made, title(component).capitalize()) for component in built(hive)]
    return [row for c in chapters for table in tables(c) for row in table.rows]


def first_line(cell: str) -> str:
    return cell.partition("\n")[0]


def squeezed(text: str) -> str:
    """Return a text as a PDF's reader finds it, whatever it does to spaces and line ends."""
    return re.sub(r"[\s\u200b\u2060]+", "", text)


def read(pdf: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(pdf))


class Sheet(NamedTuple):
    """A page of a PDF as it was read: its size, its text, and where each piece of text begins."""

    size: tuple[float, float]
    text: str
    places: tuple[tuple[float, float], ...]


def sheet(page: pypdf.PageObject) -> Sheet:
    places: list[tuple[float, float]] = []

    def visit(text: str, now: list[float], line: list[float], *_: object) -> None:
        if text.strip():
            x = line[4] * now[0] + line[5] * now[2] + now[4]
            places.append((x, line[4] * now[1] + line[5] * now[3] + now[5]))

    text = page.extract_text(visitor_text=visit)
    return Sheet((float(page.mediabox.width), float(page.mediabox.height)), text, tuple(places))


@cache
def sheets(name: str, paper: str = "a4") -> list[Sheet]:
    return [sheet(page) for page in read(pdf_of(name, paper)).pages]


def text_of(pages: Iterable[Sheet]) -> str:
    return squeezed("".join(page.text for page in pages))


# ── what the book says ────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("name", HIVES)
def test_every_part_stands_once_in_the_parts_tables_with_its_number(name) -> None:
    hive = hive_named(name)
    numbers = part_numbers(values(hive), built(hive))
    found = [
        (row[0], first_line(row[1]), row[2], row[3]) for row in parts_rows(book_of(name), hive)
    ]
    assert found == [
        (
            str(numbers[piece.component, piece.part]),
            title(piece.part).capitalize(),
            str(piece.quantity),
            piece.material,
        )
        for piece in parts(hive)
    ]
    assert len({number for number, *_ in found}) == len(found)


def off_by(cell: str, expected: Fraction, hive: Hive) -> Fraction:
    """Return how much longer a size in a table is than it should be."""
    return length_from_text(first_line(cell).removeprefix("≈ "), hive.units) - expected


@pytest.mark.parametrize("name", HIVES)
def test_every_size_is_the_one_worked_out_by_hand_rounded_the_dimensions_way(name) -> None:
    hive = hive_named(name)
    by_name = by_hand(hive.measurements)
    step = MM if hive.units == "mm" else Fraction(1, 16)
    ways: Counter[str] = Counter()
    for piece, row in zip(parts(hive), parts_rows(book_of(name), hive), strict=True):
        for size, cell in zip(SIZES, row[4:], strict=True):
            if getattr(piece, size) is None:
                assert cell == "–"
                continue
            full = f"{piece.component}.{piece.part}_{size}"
            off, way = (
                off_by(cell, by_name[full], hive),
                DIMENSIONS.dimension(full).rule.rounding.value,
            )
            low, high = {"nearest": (-1, 1), "down": (-2, 0), "up": (0, 2)}[way]
            assert low * step / 2 <= off <= high * step / 2, (full, cell)
            assert cell.startswith("≈ ") == (off != 0), (full, cell)
            ways[way] += 1
    assert set(ways) == {"nearest", "down", "up"}


def test_stock_that_is_used_as_it_was_measured_is_not_rounded() -> None:
    """Mesh of two wires of 0.017 in and a sheet of 5/32 in are on no sixteenth and stand as is."""
    hive = demo_hive()
    cover = next(row for row in parts_rows(book(hive), hive) if row[1].startswith("Cover"))
    assert first_line(cover[4]) == "5/32 in"
    used = {first_line(row[0]): row[1] for row in tables(chapter(book(hive), UNMEASURED))[0].rows}
    assert used["Mesh thickness"].startswith("0.034 in\n")


@pytest.mark.parametrize("name", HIVES)
def test_every_size_that_is_worked_out_is_worked_out_once_below_what_it_needs(name) -> None:
    hive, found = hive_named(name), list[str]()
    for component in built(hive):
        [steps] = [
            block.steps
            for block in blocks(chapter(book_of(name), title(component).capitalize()))
            if isinstance(block, Workings)
        ]
        own = {title(n): n for n in DIMENSIONS.names([component])}
        assert len(own) == len(DIMENSIONS.names([component])), "two sizes with one name"
        told = [own[step.size] for step in steps]
        for place, dimension in enumerate(told):
            needed = set(DIMENSIONS.dimension(dimension).inputs) & set(told)
            assert needed <= set(told[:place]), dimension
        assert all(step.why.endswith(".") for step in steps)
        found += told
    expected = {
        n
        for n in DIMENSIONS.names(built(hive))
        if n not in hive.measurements and not DIMENSIONS.dimension(n).as_measured
    }
    assert Counter(found) == Counter(expected)


def test_a_worked_size_shows_its_sum_and_what_the_tape_says() -> None:
    """23 1/8 − 2 × 1 1/2 − 9/32 = 19 27/32, which is 19 13/16 rounded down: by hand."""
    hive = changed(demo_hive(), {"panel_gap": "9/32"})
    [steps] = [
        b.steps for b in blocks(chapter(book(hive), "Bottom board")) if isinstance(b, Workings)
    ]
    panel = next(step for step in steps if step.size == "panel length")
    assert (panel.formula, panel.numbers) == ("opening length − panel gap", "20 1/8 − 9/32")
    assert (panel.value, panel.on_tape) == ("19 27/32 in", "≈ 19 13/16 in, down to 1/16 in")


@pytest.mark.parametrize("name", HIVES)
def test_the_saw_gets_every_part_once_by_kind_the_longest_first(name) -> None:
    hive = hive_named(name)
    saw = chapter(book_of(name), "At the saw")
    numbers = part_numbers(values(hive), built(hive))
    by_number = {str(numbers[p.component, p.part]): p for p in parts(hive)}
    seen: list[Piece] = []
    for table in tables(saw):
        pieces = [by_number[row[0]] for row in table.rows]
        assert len({piece.material for piece in pieces}) == 1
        lengths = [piece.length.value for piece in pieces if piece.length]
        assert lengths == sorted(lengths, reverse=True)
        for piece, row in zip(pieces, table.rows, strict=True):
            assert row[6].count(TICK) == piece.quantity
            assert first_line(row[5]) == piece.length.rounding.value
            assert row[7] == ""
        assert table.to_write_in
        seen += pieces
    assert len(seen) == len(by_number)
    assert {p.part for p in seen} == {p.part for p in by_number.values()}


def test_the_saw_is_told_why_each_figure_is_rounded_as_it_is() -> None:
    hive = demo_hive()
    told = [b for b in blocks(chapter(book(hive), "At the saw")) if isinstance(b, Paragraph)][1:]
    panel = next(p for p in told if re.search(r"So: .*\bpanel\b", p.text))
    assert panel.lead == "Down to 1/16 in."
    assert panel.text.startswith(DIMENSIONS.dimension("bottom_board.panel_length").rule.reason)
    deck = next(p for p in told if "deck" in p.text)
    assert deck.lead == "Up to 1/16 in."


@pytest.mark.parametrize("name", HIVES)
def test_every_rule_stands_once_with_its_reason(name) -> None:
    found = findings(hive_named(name))
    rows = [
        row
        for table in tables(chapter(book_of(name), "Will it go together?"))
        for row in table.rows
    ]
    assert [first_line(row[1]) for row in rows] == [title(f.rule).capitalize() for f in found]
    for finding, row in zip(found, rows, strict=True):
        assert finding.why in row[1]
        assert row[0].endswith(finding.level)
        assert row[0].startswith("✓") == (finding.outcome == "holds")
        assert row[0].startswith("~") == (finding.outcome == "at the edge")
        limited = (finding.low, finding.high) != (None, None)
        assert row[4].endswith("to spare") == (limited and finding.outcome == "holds")


def test_a_rule_that_fails_is_told_at_the_top_by_how_much_and_why() -> None:
    """A skirt of 2 5/8 in on a rim that is 1 5/8 in low, with an inner cover of 7/8 in between,

    laps 1/8 in; 1/2 in is asked: by hand.
    """
    hive = changed(demo_hive(), {"skirt_width": "2 5/8", "rim_low_height": "1 5/8"})
    failing = next(f for f in findings(hive) if f.rule == "roof.skirt_lap")
    assert not failing.holds
    first = chapter(book(hive), "Will it go together?").blocks[0]
    assert isinstance(first, Paragraph)
    assert (first.tone, first.lead) == ("wrong", "Skirt lap fails: 3/8 in too small.")
    assert first.text == f"{failing.why} What helps: {failing.mend}"
    assert "✗ fails" in book_html(book(hive))


def test_the_title_page_tells_name_date_size_and_what_was_given() -> None:
    made = book_of("metric")
    assert (made.name, made.made_on) == ("Metric yard", MADE_ON)
    rows = [row for block in made.front if isinstance(block, Table) for row in block.rows]
    given = {first_line(row[0]): row[1:] for row in rows if len(row) == len("how") and row[0]}
    assert given["Stud thickness"] == ("measured", "38 mm\n≈ 1 1/2 in")
    assert given["Panel gap"][0] == "chosen"
    assert "587 mm by 441.5 mm" in " ".join(b.text for b in made.front if isinstance(b, Paragraph))


def test_what_was_not_measured_is_listed_where_something_is_made_from_it() -> None:
    names = {
        name: {first_line(row[0]) for row in tables(chapter(book_of(name), UNMEASURED))[0].rows}
        for name in ("orchard", "eight-frame")
    }
    assert {"Stud thickness", "Panel gap"} <= names["orchard"]
    assert "Top bar" not in names["orchard"]
    assert "Top bar" in names["eight-frame"]
    assert "Stud thickness" not in names["eight-frame"]


@pytest.mark.parametrize("name", HIVES)
def test_the_whole_hive_is_drawn_with_the_number_of_every_part(name) -> None:
    hive = hive_named(name)
    pictures = [
        b for b in chapter(book_of(name), "The whole hive").blocks if isinstance(b, Picture)
    ]
    picture = next(p for p in pictures if "apart" in p.words)
    drawn = set(re.findall(r"<text[^>]*>([^<]*)</text>", picture.svg))
    seen = {number for text in drawn for number in re.findall(r"\d+", text)}
    assert {str(n) for n in part_numbers(values(hive), built(hive)).values()} <= seen
    assert len(picture.words) > len(picture.caption)


@pytest.mark.parametrize("name", HIVES)
def test_each_drawing_stands_once(name) -> None:
    pictures = [b for c in book_of(name).chapters for b in blocks(c) if isinstance(b, Picture)]
    assert len({p.svg for p in pictures}) == len(pictures) >= len(built(hive_named(name)))


@pytest.mark.parametrize(
    "danger", ["saw", "taper", "wire", "glue", "dust", "bees", "manual", "local codes", "licensed"]
)
def test_the_cautions_name_what_can_hurt_and_whom_to_obey(danger) -> None:
    told = " ".join(chapter(book_of("orchard"), "Take care").texts()).lower()
    assert danger in told


def test_the_words_of_the_book_are_explained_and_no_others() -> None:
    words = {
        name: {row[0] for row in tables(chapter(book_of(name), "Words"))[0].rows}
        for name in ("orchard", "eight-frame")
    }
    assert {"bee space", "rail", "skirt", "stack"} <= words["orchard"]
    assert {"lug", "borrow"}.isdisjoint(words["orchard"])
    assert "lug" in words["eight-frame"]


def test_the_same_hive_gives_the_same_book_however_much_was_drawn_before() -> None:
    assert book(hive_named("orchard"), MADE_ON) == book_of("orchard")
    assert book_html(book(hive_named("orchard"), MADE_ON)) == book_html(book_of("orchard"))


# ── the page of HTML ──────────────────────────────────────────────────────────────────────────


class Page(HTMLParser):
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


@cache
def page_of(name: str) -> Page:
    return Page(book_html(book_of(name)))


@pytest.mark.parametrize("name", SAMPLE)
def test_the_page_is_whole_and_every_mark_stands_once(name) -> None:
    page = page_of(name)
    assert page.open == []
    ids = [value for _, attribute, value in page.attributes if attribute == "id"]
    assert len(ids) == len(set(ids))
    links = {v.removeprefix("#") for t, a, v in page.attributes if (t, a) == ("a", "href")}
    assert len(links) == len(book_of(name).chapters)
    assert links <= set(ids)
    for chapter_ in book_of(name).chapters:
        assert chapter_.heading in page.text


@pytest.mark.parametrize("name", SAMPLE)
def test_the_page_needs_no_other_file_and_runs_nothing(name) -> None:
    page = page_of(name)
    assert {"script", "link", "iframe", "object", "embed", "img", "base", "form"}.isdisjoint(
        page.tags
    )
    for tag, attribute, value in page.attributes:
        assert not attribute.startswith("on"), (tag, attribute)
        if attribute in {"src", "href", "xlink:href", "action", "data", "srcset"}:
            assert value.startswith("#"), (tag, attribute, value)
        if attribute != "xmlns":
            assert "//" not in value, (tag, attribute, value)
    style = book_html(book_of(name)).partition("<style>")[2].partition("</style>")[0]
    assert "url(" not in style
    assert "@import" not in style


@pytest.mark.parametrize(("paper", "size"), [("a4", "A4"), ("letter", "letter")])
def test_the_page_prints_on_the_paper_that_was_asked_for(paper, size) -> None:
    assert f"@page {{ size: {size};" in book_html(book_of("orchard"), paper)


def test_a_table_has_as_many_cells_in_each_row_as_heads() -> None:
    for made in (book_of("orchard"), book_of("eight-frame")):
        for c in made.chapters:
            assert all({len(row) for row in t.rows} == {len(t.columns)} for t in tables(c))


def test_what_a_builder_wrote_is_text_on_the_page() -> None:
    made = book(replace(demo_hive(), name=MARKUP + "\x07"), MARKUP)
    page = Page(book_html(made))
    assert "script" not in page.tags
    assert "title" in page.tags
    assert page.text.count(MARKUP) > 3  # in the title, as heading, as date, in the drawings
    assert "\x07" not in book_html(made)


# ── the PDF ───────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(("name", "paper"), PRINTED)
def test_every_page_of_the_pdf_is_of_the_paper_asked_for_and_numbered(name, paper) -> None:
    pages = sheets(name, paper)
    for number, page in enumerate(pages, 1):
        assert page.size == pytest.approx(PAPERS[paper], abs=0.01)
        assert squeezed(f"Page {number} of {len(pages)}") in squeezed(page.text)


@pytest.mark.parametrize(("name", "paper"), PRINTED)
def test_the_pdf_says_all_that_the_book_says(name, paper) -> None:
    made, text = book_of(name), text_of(sheets(name, paper))
    assert squeezed(made.name) in text
    for c in made.chapters:
        for block in blocks(c):
            said = [block.caption] if isinstance(block, Picture) else block.texts()
            missing = [line for s in said for line in s.split("\n") if squeezed(line) not in text]
            assert missing == []


@pytest.mark.parametrize(("name", "paper"), PRINTED)
def test_no_text_begins_off_the_page(name, paper) -> None:
    """All text begins 15 mm or more from the sides and 8 mm from top and bottom."""
    width, height = PAPERS[paper]
    for page in sheets(name, paper):
        across, up = zip(*page.places, strict=True)
        assert 15 / 25.4 * 72 < min(across) <= max(across) < width - 15 / 25.4 * 72
        assert 8 / 25.4 * 72 < min(up) <= max(up) < height - 8 / 25.4 * 72


@pytest.mark.parametrize(("name", "paper"), PRINTED)
def test_no_page_ends_with_a_heading(name, paper) -> None:
    headings = {s.heading for c in book_of(name).chapters for s in c.sections}
    for page in sheets(name, paper):
        lines = [line.strip() for line in page.text.splitlines() if line.strip()]
        body = [line for line in lines if not line.startswith(("Page ", book_of(name).name))]
        assert body[-1] not in headings


def test_what_a_builder_wrote_is_text_in_the_pdf() -> None:
    pdf = read(book_pdf(book(replace(demo_hive(), name=MARKUP), MARKUP)))
    assert squeezed(pdf.pages[0].extract_text()).count(squeezed(MARKUP)) == 2  # name and date
    assert pdf.metadata.title == MARKUP


def test_a_name_without_a_space_is_parted_and_stays_on_the_page() -> None:
    pdf = book_pdf(book(replace(demo_hive(), name="W" * 80)))
    first = read(pdf).pages[0].extract_text().replace("\u200b", "")
    parted = [line for line in first.splitlines() if set(line.strip()) == {"W"}]
    assert len(parted) > 1
    assert "W" * 80 in squeezed(first)


def test_the_pdf_can_be_read_aloud() -> None:
    """Tagged, in a language, with a title, a description of every picture (PDF/UA, ISO 14289-1)."""
    pdf = read(pdf_of("orchard"))
    assert pdf.trailer["/Root"]["/Lang"] == "en"
    assert pdf.trailer["/Root"]["/MarkInfo"]["/Marked"]
    told = [o["/Alt"] for o in map(pdf.get_object, range(1, pdf.trailer["/Size"])) if has_words(o)]
    pictures = [b for c in book_of("orchard").chapters for b in blocks(c) if isinstance(b, Picture)]
    assert Counter(told) == Counter(p.words for p in pictures)


def has_words(item: object) -> bool:
    return isinstance(item, dict) and "/Alt" in item


ELSEWHERE = """
import hashlib, os, sys
sys.path.insert(0, os.getcwd())
from hivecalc.book import book, book_pdf
from hivecalc.hive import demo_hive
made = book(demo_hive(), "3 May")
os.chdir("/")
print(hashlib.sha256(book_pdf(made)).hexdigest())
"""


def run(program: str) -> str:
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    return done.stdout.strip()


def test_the_same_book_gives_the_same_bytes_in_another_process_and_folder() -> None:
    assert run(ELSEWHERE) == run(ELSEWHERE)
    assert pdf_of("orchard") == book_pdf(book(hive_named("orchard"), MADE_ON))


# ── what it costs ─────────────────────────────────────────────────────────────────────────────


def test_the_libraries_are_loaded_only_when_they_are_needed() -> None:
    program = """
import sys
import hivecalc.book as b
slow = {"typst", "matplotlib", "numpy", "hivecalc.drawing", "hivecalc.fit"}
assert not slow & set(sys.modules)
from hivecalc.hive import demo_hive
b.book_html(b.book(demo_hive()))
print(sorted({"typst", "matplotlib", "scipy"} & set(sys.modules)))
"""
    assert run(program) == "[]"


def test_whether_there_is_an_inner_cover_is_told_as_yes_or_no():
    rows = {row[0].partition("\n")[0]: row[1] for row in not_given(demo_hive()).blocks[1].rows}
    assert rows["Inner cover"] == "yes"
    closed = changed(demo_hive(), {"inner_cover": "no"})
    names = [row[0] for row in not_given(closed).blocks[1].rows]
    assert not any(name.startswith(("Inner cover", "Sheet thickness")) for name in names)


def test_the_book_tells_what_the_foam_saves_and_what_that_leaves_out():
    (chapter,) = [c for c in book_of("sleeved").chapters if c.heading == "How warm it is"]
    said = " ".join(chapter.texts())
    table = next(b for b in chapter.blocks if isinstance(b, Table))
    watts = [int(row[1]) for row in table.rows]
    assert watts == sorted(watts, reverse=True)
    ours = next(int(row[1]) for row in table.rows if row[0] == "this hive")
    saved = int(re.search(r"saves about (\d+) W", said)[1])
    assert saved == pytest.approx(watts[0] - ours, abs=6)  # told to the nearest ten
    assert all(word in said for word in ("Foam burns", "Wind", "hivecalc warmth"))
