"""The pages for the saw: each setting in order, its cautions, and the pictures to set it by."""

from collections.abc import Iterable, Iterator
from itertools import count

from hivecalc.book.content import (
    TICK,
    Block,
    Chapter,
    Column,
    Paragraph,
    Picture,
    Section,
    Table,
    ticks,
)
from hivecalc.book.harmless import harmless
from hivecalc.book.pictures import picture
from hivecalc.drawing.saw import fence_and_kerf, taper_drawing, tilted_blade
from hivecalc.length import Length
from hivecalc.saw import CAUTIONS, Caution, Kind, SawPlan, Step
from hivecalc.saw.plan import KINDS
from hivecalc.saw.telling import HEADINGS, WHY, setting_told, work_told
from hivecalc.tables.saw import AFTER, BEFORE, FIRST, caution_told, settings_told

SETTINGS = (
    Column("no.", 0.8, bold=True),
    Column("set", 5.2, bold=True),
    Column("what is cut", 7),
    Column("set and cut", 1.4),
)
LABELS = (Column("pieces", 1, bold=True), Column("write on each", 8), Column("written", 2.4))


def saw_settings(plan: SawPlan, name: str = "") -> Chapter:
    """Chapter of all settings of the saw in order, the cautions for each kind of step beside it.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.saw import saw_plan
    >>> from hivecalc.stock import demo_yard
    >>> told = saw_settings(saw_plan([demo_hive()], demo_yard()))
    >>> [section.heading for section in told.sections][:2]
    ['Before the first cut', 'Crosscut from the boards, the longest first']

    `name`, in the pictures' titles, is the hive's.
    """
    sections = (
        Section(BEFORE, _cautions(CAUTIONS["before"])),
        *_steps(plan, name),
        Section(AFTER, _cautions(CAUTIONS["after"])),
    )
    return harmless(Chapter("Settings of the saw", (Paragraph(FIRST), *_left(plan)), sections))


def _cautions(cautions: Iterable[Caution]) -> tuple[Paragraph, ...]:
    return tuple(Paragraph(caution_told(caution), tone="caution") for caution in cautions)


def _left(plan: SawPlan) -> Iterator[Paragraph]:
    for left in plan.unplanned:
        yield Paragraph(f"{left.count:,} × {left.label}: {left.why}.", "Not planned.", "wrong")


def _steps(plan: SawPlan, name: str) -> Iterator[Section]:
    numbers = count(1)
    for kind in KINDS:
        if steps := plan.of(kind):
            rows = tuple(_row(next(numbers), step, plan) for step in steps)
            told = Paragraph(f"{WHY[kind]} {settings_told(plan, kind)}")
            drawn = _drawn(kind, plan, name)
            blocks: tuple[Block, ...] = (
                told,
                *_cautions(steps[0].cautions),
                Table(SETTINGS, rows),
                *drawn,
            )
            yield Section(HEADINGS[kind], blocks)


def _row(number: int, step: Step, plan: SawPlan) -> tuple[str, ...]:
    work = "; ".join(work_told(step, plan.units))
    return str(number), setting_told(step, plan.units), work, TICK


def _drawn(kind: Kind, plan: SawPlan, name: str) -> Iterator[Block]:
    """Return the pictures that one kind of step is set by; of those that look alike the first."""
    match kind:
        case "rip":
            yield from _rips(plan, name)
            yield from _ripped_off(plan)
        case "bevel":
            yield from _bevels(plan, name)
        case "taper":
            sides = [step.taper for step in plan.of(kind) if step.taper]
            svg = taper_drawing(sides[0], units=plan.units, name=name)
            yield picture(svg, _caption(plan.of(kind)[0], plan), "small")


def _bevels(plan: SawPlan, name: str) -> Iterator[Picture]:
    """Return a tilted blade for each size of stock that is bevelled."""
    drawn = set[tuple[Length, Length]]()
    for step in plan.of("bevel"):
        edge = step.edge
        if edge and (edge.thickness, edge.upper) not in drawn:
            drawn.add((edge.thickness, edge.upper))
            svg = tilted_blade(edge, edge.upper, plan.kerf, units=plan.units, name=name)
            yield picture(svg, _caption(step, plan), "small")


def _caption(step: Step, plan: SawPlan) -> str:
    """Return what a picture is of: the first piece of a step."""
    return f"{step.work[0].label}: {setting_told(step, plan.units)}"


def _rips(plan: SawPlan, name: str) -> Iterator[Picture]:
    """Return a rip whose falling piece is kept, and one that keeps what stays at the fence."""
    passes = [work.passing for step in plan.of("rip") for work in step.work if work.passing]
    for keeps in (True, False):
        found = next((p for p in passes if p.rip.keeps == keeps and p.stage == "stud"), None)
        if found:
            high, units = plan.lying(found), plan.units
            svg = fence_and_kerf(found.rip, high, plan.kerf, units=units, name=name)
            yield picture(svg, found.label, "small")


def _ripped_off(plan: SawPlan) -> Iterator[Paragraph]:
    """Return whether what is ripped off the front rails serves; hives alike share a sentence."""
    told: dict[str, list[str]] = {}
    for hive, off in plan.ripped_off:
        told.setdefault(off.sentence, []).append(hive)
    for sentence, hives in told.items():
        yield Paragraph(sentence, f"{', '.join(hives)}:" if all(hives) else "")


def labels(plan: SawPlan) -> Chapter:
    """Chapter of what to write on each piece as it comes off the saw.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.saw import saw_plan
    >>> from hivecalc.stock import demo_yard
    >>> labels(saw_plan([demo_hive()], demo_yard())).blocks[0].rows[0]
    ('2', 'bottom board side rail', '☐ ☐')
    """
    rows = tuple((f"{many:,}", label, ticks(many)) for label, many in plan.labels)
    return harmless(Chapter("Labels", (Table(LABELS, rows),)))
