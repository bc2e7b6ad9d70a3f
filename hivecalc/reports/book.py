"""The book of one hive, to print: a page to pin over the bench, drawings, workings, plan, checks.

The date is the caller's; nothing in here reads a clock, so the same hive gives the same book.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cache
from itertools import groupby
from pathlib import Path
from types import MappingProxyType
from typing import Final

from hivecalc.assembly import PHRASES, STRIP_WAY, WHOLE, steps, taken
from hivecalc.components import (
    DIMENSIONS,
    built,
    parts,
    sides_in_hand,
    values,
    values_to_find,
)
from hivecalc.course_folder import originals
from hivecalc.derivation import number, title
from hivecalc.document import (
    TICK,
    Block,
    Chapter,
    Column,
    Document,
    Paper,
    Paragraph,
    Section,
    Table,
    ticks,
)
from hivecalc.document.page import document_html, document_pdf
from hivecalc.drawing import Picture as Drawn
from hivecalc.drawing import Subject, section, stack
from hivecalc.drawing import plan as frame_plan
from hivecalc.drawing.inner_cover import exploded_inner_cover
from hivecalc.drawing.nested import nested
from hivecalc.drawing.roof import roof_from_above
from hivecalc.drawing.roof_section import roof_section
from hivecalc.drawing.whole_hive import exploded_hive, part_numbers, standing_hive
from hivecalc.fit import marked
from hivecalc.hive import HIVE_SIZES, MEASUREMENTS, Fault, Hive
from hivecalc.length import MARKS, Length, Rounding, shown, with_unit
from hivecalc.measuring import reading_to_use, squareness
from hivecalc.part import SIZES, SizedPart
from hivecalc.reports.fit import rules_chapter
from hivecalc.reports.plan import buying_chapter, captioned, cutting_chapter
from hivecalc.reports.saw import settings_chapter
from hivecalc.reports.sizes import (
    WAYS,
    as_on_tape,
    exactly_in_both_units,
    in_both_units,
    of_sheet,
    roundings,
    sizes_in_both_units,
    workings,
)
from hivecalc.reports.warmth import warmth_chapter
from hivecalc.workshop import Plan, Yard, demo_yard, plan
from hivecalc.workshop.cautions import AFTER, BEES, CLAMP, DRILL, IN_BOOK, LIFT, SOURCES, TRAINED
from hivecalc.workshop.needs import batch, needed


def book(
    hive: Hive,
    made_on: str = "",
    yard: Yard | None = None,
    faults: Sequence[Fault] = (),
    made: Plan | None = None,
) -> Document:
    """What the book of a hive says.

    `made_on` is the date as it shall stand on the first page. `yard` is where its wood is bought,
    the invented one if not given; `faults` are those of a yard file that can't be used: the book
    tells them. `made` is a plan that was made before.
    """
    numbers = part_numbers(values(hive), built(hive))
    planned = made or plan([hive], yard or demo_yard(hive.units))
    chapters = (
        this_hive(hive),
        take_care(),
        drawings(hive),
        *(component_chapter(hive, c, numbers) for c in built(hive)),
        _with_faults(buying_chapter(planned, in_book=True), faults),
        cutting_chapter(planned, in_book=True),
        settings_chapter(planned, in_book=True),
        assembly_chapter(hive),
        when_it_is_together(hive),
        rules_chapter(hive),
        warmth_chapter(hive),
    )
    return Document(hive.name, (*chapters, words(chapters)), bench_page(hive), made_on)


def book_paths(hive_file: Path) -> tuple[Path, Path]:
    """The book's two files beside a hive file: a page of HTML and a PDF."""
    page, pdf = (hive_file.with_name(f"{hive_file.stem}-book{end}") for end in (".html", ".pdf"))
    return page, pdf


def written_book(document: Document, path: Path, paper: Paper) -> str | bytes:
    """A book as its file's name says: a page of HTML that needs no other file, or a PDF."""
    return (document_html if path.suffix.lower() == ".html" else document_pdf)(document, paper)


def _with_faults(chapter: Chapter, faults: Sequence[Fault]) -> Chapter:
    """A chapter that first tells what is wrong with a yard file: one fault, and how many more."""
    if not faults:
        return chapter
    more = len(faults) - 1
    others = f" There are {more:,} more faults like it." if more else ""
    instead = (
        "So the yard that comes with the course stands here, with invented prices. Mend your yard "
        "file and make the book again."
    )
    warning = Paragraph(f"{faults[0]}{others} {instead}", "Your yard file can't be used.", "wrong")
    return replace(chapter, blocks=(warning, *chapter.blocks))


# ── to pin over the bench ─────────────────────────────────────────────────────────────────────

BENCH: Final = (
    Column("for the", 2.7), Column("mark", 1.7, bold=True), Column("piece", 3.9),
    Column("thick", 2.1, bold=True), Column("wide", 2.7, bold=True), Column("long", 2.7, bold=True),
    Column("cut", 2.4),
)  # fmt: skip


def bench_page(hive: Hive) -> tuple[Block, ...]:
    """The page to pin over the bench: every piece with its mark, its sizes, and boxes to tick."""
    grid = MARKS[hive.units]
    codes = {(p.component, p.part): p.code for p in needed(batch([hive]))}
    rows = []
    for component, pieces in groupby(parts(hive), key=lambda piece: piece.component):
        for place, piece in enumerate(pieces):
            cut = marked(hive, piece, grid)
            code = codes.get((component, piece.part), "")
            sizes = (_to_cut(hive, cut, size) for size in SIZES)
            named = ("" if place else title(component), code, title(piece.part))
            rows.append((*named, *sizes, ticks(piece.quantity)))
    how = (
        f"To {grid.name}; ≈ stands before a rounded size. Longest first. Write its mark on each "
        "piece, tick its box. Before you cut a piece that must meet another, measure the one that "
        "is there."
    )
    assumed = [title(n) for n in _not_given(hive) if MEASUREMENTS[n].group == "measured"]
    care = Paragraph(f"{', '.join(assumed)}.", "Not measured yet, so assumed:", "caution")
    return (
        Paragraph(how),
        Table(BENCH, tuple(rows)),
        *([care] if assumed else []),
    )


def _to_cut(hive: Hive, piece: SizedPart, name: str) -> str:
    size = getattr(piece, name)
    if size is None:
        return "–"
    if name in roundings(piece):
        return shown(size.value, hive.units, None, size.rounding)
    return as_on_tape(size.value, hive.units, fine=of_sheet(piece, name))


# ── what it rests on ──────────────────────────────────────────────────────────────────────────

USUAL: Final = (
    "Nobody gave these, so the usual sizes stand here. Measure the wood, foam and sheets that you "
    "have. Where yours differs, write it down, enter it in the lessons and make the book again."
)


def this_hive(hive: Hive) -> Chapter:
    """Chapter of the hive, what was measured and chosen for it, and what is only assumed."""
    length, width = (
        exactly_in_both_units(values(hive)[name], hive.units).split("\n") for name in HIVE_SIZES
    )
    inner, outer = (" by ".join(pair) for pair in zip(length, width, strict=True))
    count = sum(piece.quantity for piece in parts(hive))
    components = ", ".join(title(c) for c in built(hive)).capitalize()
    signed = (Column("measured by", 1), Column("checked by", 1), Column("begun on", 1))
    made = f"{components}: {count} pieces. Every size in this book is worked out from these."
    first = (
        Paragraph(f"{inner} ({outer}), length by width, where the box stands.", "Outside."),
        Paragraph(made, "What is built."),
        Table(signed, (("", "", ""),), to_write_in=True),
    )
    return Chapter("This hive", first, tuple(_sources(hive)))


def _sources(hive: Hive) -> Iterator[Section]:
    what = Column("size, and what it is", 5, bold=True)
    if hive.readings:
        head = (Column("size", 3), Column("what the tape said", 4), Column("so use", 5))
        readings_rows = []
        for name, readings in hive.readings.items():
            taken = [reading for reading in readings if reading is not None]
            said = "; ".join(with_unit(hive.units, reading) for reading in taken)
            readings_rows.append((title(name).capitalize(), said, _advice(hive, name, taken)))
        yield Section("Readings of the tape", (Table(head, tuple(readings_rows)),))
    for heading, given in (("Measured", hive.measured), ("Chosen", hive.chosen)):
        rows = tuple((_as_used(hive, n),) for n in MEASUREMENTS if n in given)
        if rows:
            yield Section(heading, (Table((what,), rows, abreast=2),))
    unsaid = tuple((_as_used(hive, n), "") for n in _not_given(hive))
    table = Table((what, Column("yours", 1.2)), unsaid, abreast=2)
    yield Section("Assumed: not measured, not chosen", (Paragraph(USUAL), table))


def _advice(hive: Hive, name: str, taken: Sequence[Length]) -> str:
    if name in HIVE_SIZES:
        return reading_to_use(taken, hive.units).sentence if taken else ""
    if len(taken) < 2:  # noqa: PLR2004 - a box has two diagonals
        return ""
    return squareness(*sides_in_hand(hive), taken[0], taken[1], hive.units).sentence


def _not_given(hive: Hive) -> list[str]:
    return [n for n in used(hive) if n not in hive.measured and n not in hive.chosen]


def _as_used(hive: Hive, name: str) -> str:
    value, kind = hive.measurements[name], MEASUREMENTS[name].kind
    said = number(value, kind)
    if kind == "length":
        own, also = exactly_in_both_units(value, hive.units, fine=True).split("\n")
        said = f"{own} ({also})"
    return f"{title(name).capitalize()}: {said}\n{MEASUREMENTS[name].meaning}"


def used(hive: Hive) -> list[str]:
    """The measurements that some size of what is built is made from, in the file's order."""
    names, found = DIMENSIONS.names(built(hive)), values(hive)
    sources = {s for n in names for s in DIMENSIONS.rests_on(n, hive.measurements, found)}
    return [name for name in MEASUREMENTS if name in sources]


# ── drawings, pieces, workings ────────────────────────────────────────────────────────────────

DRAWN: Final[dict[str, tuple[Callable[[Subject], Drawn], ...]]] = {
    "bottom_board": (frame_plan, stack, section),
    "roof": (roof_section, roof_from_above),
    "inner_cover": (exploded_inner_cover,),
    "box": (nested,),
    "sleeve": (nested,),
}


def take_care() -> Chapter:
    """Chapter of what can hurt wherever one works; what a step adds stands with that step."""
    cautions = (*IN_BOOK, *AFTER, DRILL, CLAMP, BEES, LIFT)
    paragraphs = (Paragraph(caution.cited, tone="caution") for caution in cautions)
    return Chapter("Take care", (Paragraph(TRAINED), Paragraph(SOURCES), *paragraphs))


def drawings(hive: Hive) -> Chapter:
    """Chapter of all drawings: the whole hive taken apart and as it stands, then each component."""
    known = dict.fromkeys(draw for component in built(hive) for draw in DRAWN[component])
    subject = Subject(values(hive), units=hive.units, name=hive.name)
    pictures = (
        captioned(exploded_hive(subject, built(hive)), "", "small"),
        captioned(standing_hive(subject, built(hive)), "Weights are estimates.", "small"),
        *(captioned(draw(subject), "", "small") for draw in known),
    )
    return Chapter("Drawings", pictures)


def component_chapter(
    hive: Hive, component: str, numbers: Mapping[tuple[str, str], int]
) -> Chapter:
    """Chapter of one component of a hive: its pieces, and its sizes worked out.

    `numbers` are those that its parts have in the drawing of the whole hive.
    """
    pieces = parts(hive, component=component)
    columns = (
        Column("no.", 0.8, bold=True),
        Column("piece", 6.6),
        Column("of", 1.4),
        Column("thick", 1.9, bold=True),
        *(Column(head, 2.4, bold=True) for head in ("wide", "long")),
    )
    rows = tuple(
        (
            str(numbers[piece.component, piece.part]),
            f"{piece.quantity} × {title(piece.part)}\n{piece.note}",
            piece.material,
            *sizes_in_both_units(piece, hive.units),
        )
        for piece in pieces
    )
    rounded = dict[tuple[Rounding, str], dict[str, None]]()
    for piece in pieces:
        for way in roundings(piece).values():
            rounded.setdefault(way, {})[title(piece.part)] = None
    grid = MARKS[hive.units].name
    reasons = (
        Paragraph(f"{why} So: {', '.join(names)}.", f"{WAYS[way].capitalize()} {grid}.", "note")
        for (way, why), names in rounded.items()
    )
    how = "Each size once. What stands in its sum is worked out above it or in its own chapter."
    sections = (
        Section("Pieces", (Table(columns, rows), *reasons)),
        Section("How the sizes come out", (Paragraph(how), workings(hive, component))),
    )
    return Chapter(title(component).capitalize(), (), sections)


# ── the order of work ────────────────────────────────────────────────────────────────────────

STEPS: Final = (Column("", 0.7), Column("step, what it takes, what to check", 9), Column("", 0.7))
STRIP: Final = "practice.entrance_strip_length"


def assembly_chapter(hive: Hive) -> Chapter:
    """Chapter of the order of work: what each step takes, what to check, a box to tick.

    How all is done stands in the lesson; here what has a figure, and how the hive is set up.
    """
    rows = []
    for place, step in enumerate(steps(hive), 1):
        texts = [text for text in step.do if step.component == WHOLE or re.search(r"\d", text)]
        texts += [f"Takes {taken(step.fixings)}."] if step.fixings else []
        texts.append(f"Check: {step.check}")
        rows.append((str(place), f"{step.title}\n{' '.join(texts)}", TICK))
    glueing = ("dry", "spread", "diagonals", "tighten", "set")
    glued = Paragraph(" ".join(PHRASES[name] for name in glueing), "Every glued joint.")
    strip = Paragraph(_strip(hive), "Entrance strip.")
    return Chapter("Putting it together", (glued, Table(STEPS, tuple(rows), abreast=2), strip))


def _strip(hive: Hive) -> str:
    found, units = values_to_find(hive), hive.units
    long = shown(found[STRIP], units, None, DIMENSIONS.dimension(STRIP).rule.rounding)
    high = shown(found["entrance_height"], units)
    return (
        f"{title(STRIP).capitalize()} {long}, as high as the entrance, {high}; low in its middle a "
        f"way {STRIP_WAY[units]} wide."
    )


# ── when it is together ───────────────────────────────────────────────────────────────────────

OUTSIDES: Final = {
    "bottom_board": ("hive_length", "hive_width"),
    "roof": ("roof.rim_length", "roof.rim_width"),
    "inner_cover": ("inner_cover.sheet_length", "inner_cover.sheet_width"),
    "box": ("box_length", "box_width"),
    "sleeve": ("hive_length", "hive_width"),
}
WHAT: Final = {"bottom_board": "Bottom board, frame", "roof": "Roof, rim"}
PLACES: Final = (
    Column("what", 4), Column("should be", 2.4, bold=True),
    *(Column(head, 2.4) for head in ("left or front", "middle", "right or back", "a diagonal")),
)  # fmt: skip


def when_it_is_together(hive: Hive) -> Chapter:
    """Chapter of what to measure on the parts that were made, with room to write."""
    rows = []
    for component in built(hive):
        what = WHAT.get(component, title(component).capitalize())
        for side, name in zip(("length", "width"), OUTSIDES[component], strict=True):
            size = in_both_units(values(hive)[name], hive.units)
            rows.append((f"{what}\n{side}", size, "", "", "", ""))
    how = Paragraph(
        "Before the glue is hard: measure each frame in three places, one diagonal in each row. "
        "Both the same means square corners. If one is longer, push its two corners together. "
        "hivecalc check says what still fits when a figure is off."
    )
    places = Table(PLACES, tuple(rows), to_write_in=True)
    notes = Table((Column("what to do otherwise next time", 1),), (("",),) * 3, to_write_in=True)
    return Chapter("When it is together", (how, places, notes))


# ── its words ─────────────────────────────────────────────────────────────────────────────────

_ENTRY: Final = re.compile(r"^### (.+)\n+(.+)$", re.MULTILINE)


@cache
def glossary() -> Mapping[str, str]:
    """The glossary of the lessons: each word with what it means, in the order of the alphabet."""
    page = originals() / "workbook" / "glossary.md"
    return MappingProxyType(dict(_ENTRY.findall(page.read_text(encoding="utf-8"))))


def words(chapters: Iterable[Chapter]) -> Chapter:
    """Chapter of the words that stand in these chapters, and what they mean."""
    text = " ".join(text for chapter in chapters for text in chapter.texts())
    rows = tuple(
        (f"{word}\n{said}",)
        for word, said in glossary().items()
        if re.search(rf"\b{re.escape(word)}(?:e?s)?\b", text, re.IGNORECASE)
    )
    columns = (Column("word, and what it means", 1, bold=True),)
    return Chapter("Words", (Table(columns, rows, abreast=3),))
