"""The report on the settings of the saw: in their order, with boards, machine and cautions."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import partial
from itertools import groupby

from hivecalc.document import TICK, Block, Cell, Chapter, Paragraph, Report, Rows, Section, Table
from hivecalc.document.text import chapter_lines
from hivecalc.drawing.canvas import page_of_words
from hivecalc.drawing.saw import fence_and_kerf, stud_section, taper_drawing
from hivecalc.reports.plan import SETTINGS, captioned, in_both, plan_document, warnings, with_care
from hivecalc.support.faults import sentence
from hivecalc.workshop.basket import amount
from hivecalc.workshop.cautions import AFTER, FIRST, IN_BOOK, MANUAL, RIP, TAPER, Caution, Kind
from hivecalc.workshop.plan import Plan, plan_json
from hivecalc.workshop.settings import Group, Setting, only, taper


def saw_report(plan: Plan, component: str | None = None, group: Group | None = None) -> Report:
    """The report on all settings, or of those for one component or one day."""
    found = only(plan.settings, component, group)
    chapter = partial(settings_chapter, plan, component, group)
    return Report(
        lambda: plan_document(plan, chapter()),
        partial(_rows, found, plan),
        lambda: plan_json(replace(plan, settings=found)),
        lambda: _svg(chapter(), plan),
        holds=plan.is_whole,
    )


def settings_chapter(
    plan: Plan, component: str | None = None, group: Group | None = None, *, in_book: bool = False
) -> Chapter:
    """Chapter of the settings in order, each with its boards; a caution stands where it is new.

    A book has said what to take care of before the first cut and after the last.
    """
    found = only(plan.settings, component, group)
    lumber = [s for s in found if not s.on_sheets]
    rest = [s for s in found if s.on_sheets]
    care = () if in_book else (*warnings(plan), Paragraph(MANUAL, tone="caution"))
    first = (*care, Paragraph(time_text(found, plan)))
    known = set[Caution](IN_BOOK if in_book else FIRST)
    on_sheets = []
    if rest:
        sheets = ", ".join(dict.fromkeys(source for s in rest for source in s.sources))
        cuts = f"Settings {rest[0].number} to {rest[-1].number} are cuts of the sheets {sheets}"
        beside = Paragraph(f"{cuts}: they stand beside their pictures.")
        on_sheets.append(Section("Sheets", (beside,)))
    sections = (
        *([] if in_book else [Section("Before the first cut", _cautions(FIRST))]),
        *(
            Section(kind.heading, tuple(_settings(kind, list(some), plan, known)))
            for kind, some in groupby(lumber, key=lambda s: s.kind)
        ),
        *on_sheets,
        *([] if in_book else [Section("When the sawing is done", _cautions(AFTER))]),
    )
    return Chapter("Settings of the saw", first, sections)


def _settings(
    kind: Kind, found: Iterable[Setting], plan: Plan, known: set[Caution]
) -> Iterator[Block]:
    yield from _pictures(kind, plan)
    yield Paragraph("", f"{sentence(kind.machine)}.")
    if kind.why:
        yield Paragraph(kind.why)
    rows = []
    for s in found:
        said = with_care(f"{s.sentence(plan.units)}\n{works_words(s)}", kind.cautions, known)
        rows.append((str(s.number), said, TICK))
    yield Table(SETTINGS, tuple(rows), abreast=2)


def works_words(setting: Setting) -> str:
    """What is cut at a setting, and out of what."""
    works = []
    alike = groupby(setting.works, key=lambda work: (work.source, work.how))
    for (source, how), group in alike:
        marks = ", ".join(f"{w.times} × {w.mark}" if w.times > 1 else w.mark for w in group)
        place = f" from {source}" if source and source != marks.rpartition("× ")[2] else ""
        works.append(f"{marks}{place}{f': {how}' if how else ''}")
    return "; ".join(works)


def time_text(found: Sequence[Setting], plan: Plan) -> str:
    """How many settings there are, and about how long they take with one saw."""
    cuts, marks = sum(s.cuts for s in found), sum(s.on_sheets for s in found)
    minutes = sum((setting.minutes(plan.yard) for setting in found), Fraction(0))
    hours, left = divmod(round(minutes), 60)
    long = f"{hours} h {left} min" if hours else f"{left} min"
    each = amount(plan.yard.minutes_a_setting)
    return (
        f"{len(found)} settings, {marks} of them marks on sheets, {cuts} cuts: about {long} with "
        f"one saw, at {each} min a setting and half a minute a cut."
    )


def _cautions(found: Iterable[Caution]) -> tuple[Paragraph, ...]:
    return tuple(Paragraph(caution.cited, tone="caution") for caution in found)


def _pictures(kind: Kind, plan: Plan) -> Iterator[Block]:
    """One picture that each kind of setting is understood by, of the first that it is good for."""
    units, name = plan.units, plan.name
    ripped = [blank for blank in plan.blanks if blank.section.rips]
    if kind == RIP and ripped:
        blank = ripped[0]
        svg = stud_section(blank.section, units=units, name=name, captioned=False)
        yield captioned(svg, f"{blank.number}, seen from the end", "small")
        rip, thickness = blank.section.rips[0], blank.section.thickness
        svg = fence_and_kerf(rip, thickness, plan.yard.kerf, units=units, name=name)
        yield captioned(svg, f"{blank.number}: the first rip", "small")
    if kind == TAPER:
        side = taper(plan.hives[0].hive)
        drawn = taper_drawing(side, units=units, name=name, captioned=False)
        yield captioned(drawn, "", "small")
        yield Paragraph(drawn.words)


def _rows(found: Sequence[Setting], plan: Plan) -> Rows:
    columns = (
        "setting", "kind", "machine", "set", "distance", "distance_mm", "tilt", "piece", "from",
        "count", "group",
    )  # fmt: skip
    rows: list[list[Cell]] = [
        [s.number, s.kind.name, s.kind.machine, s.sentence(plan.units),
         *in_both(s.distance, plan), s.tilt, w.mark, w.source, w.times, w.group]
        for s in found
        for w in s.works
    ]  # fmt: skip
    return Rows(columns, rows)


def _svg(chapter: Chapter, plan: Plan) -> str:
    heading = f"{plan.name}: {chapter.heading}"
    return page_of_words(heading, chapter_lines(chapter, 100)[3:]).file()
