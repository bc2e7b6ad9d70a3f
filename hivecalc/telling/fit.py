"""What is told of the fit rules: held or not, by how much and why; and of a trial of many hives."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from functools import partial
from itertools import groupby
from typing import TYPE_CHECKING, Final

from hivecalc.derivation import Kind, title
from hivecalc.document import (
    Cell,
    Chapter,
    Column,
    Document,
    Json,
    Paragraph,
    Rows,
    Section,
    Table,
    Told,
)
from hivecalc.hive import Hive
from hivecalc.length import TENTH_MM, Units, length_json, limit_text, with_unit
from hivecalc.stock import COMMON
from hivecalc.telling.figures import exactly, length_in_mm

if TYPE_CHECKING:  # the rules take a while to load, and parts need none of them
    from hivecalc.as_built import Trial
    from hivecalc.fit import Finding

SIGNS: Final = {
    "holds": "✓ holds",
    "at the edge": "~ at the edge",
    "look": "• look",
    "FAILS": "✗ fails",
}
"""What stands before a rule on a page, by its outcome in words."""


def fit_told(hive: Hive, tried: "Trial | None" = None) -> Told:
    """What is told of every rule on one hive, and of a trial of many if one was made.

    >>> from hivecalc.hive import demo_hive
    >>> fit_told(demo_hive()).rows().rows[0][1:6]
    ['bottom_board.room_above_stack', 'blocks', 'yes', 'no', '0.091 in']
    """
    from hivecalc.fit import findings, fit_json, holds  # noqa: PLC0415 - the rules load slowly

    found = findings(hive)

    def data() -> Json:
        return fit_json(hive) | ({"trial": trial_json(tried)} if tried else {})

    return Told(
        partial(_document, hive, found, tried),
        partial(_rows, hive, found),
        data,
        holds=holds(found),
    )


def _document(hive: Hive, found: Sequence["Finding"], tried: "Trial | None") -> Document:
    first = Section("", (Paragraph(f"{hive.name}: {result_text(found)}"),))
    last = (trial_section(hive, tried),) if tried else ()
    return Document("", (first, *rule_sections(hive, found), *last))


def _rows(hive: Hive, found: Iterable["Finding"]) -> Rows:
    limits = ("value", "low", "high")
    in_mm = (f"{limit}_mm" for limit in limits)
    columns = (
        "hive",
        "rule",
        "level",
        "holds",
        "at_edge",
        *limits,
        *in_mm,
        "why",
        "mend",
        "source",
    )
    return Rows(columns, [_row(hive, finding) for finding in found])


def _row(hive: Hive, finding: "Finding") -> list[Cell]:
    limits = (finding.value, finding.low, finding.high)
    return [
        *(hive.name, finding.rule, finding.level),
        *("yes" if asked else "no" for asked in (finding.holds, finding.at_edge)),
        *(None if limit is None else exactly(limit, finding.kind, hive.units) for limit in limits),
        *(None if limit is None else length_in_mm(limit, finding.kind) for limit in limits),
        *(finding.why, finding.mend, finding.source),
    ]


def rule_sections(hive: Hive, found: Iterable["Finding"]) -> Iterator[Section]:
    """A section for each component: its rules in a table, and why each matters."""
    columns = ("", "rule", "value", "accepted", "by how much")
    for name, group in groupby(found, lambda finding: finding.rule.partition(".")[0]):
        listed = list(group)
        rows = [[outcome_text(f), title(f.rule), *_figures(f, hive.units)] for f in listed]
        notes = (
            Paragraph(
                f"{title(f.rule)} ({f.level}): {why_and_mend(f)} Source: {f.source}.", tone="note"
            )
            for f in listed
        )
        yield Section(title(name).capitalize(), (Rows(columns, rows), *notes))


def result_text(found: Iterable["Finding"]) -> str:
    """How many rules fail that matter, and how many are at the edge, in a sentence.

    >>> from hivecalc.fit import findings
    >>> from hivecalc.hive import demo_hive
    >>> result_text(findings(demo_hive(), {"skirt_width": 2}))
    'every rule that matters holds.'
    """
    counted = [f for f in found if f.level != "note"]
    failing = sum(not f.holds for f in counted)
    edge = sum(f.at_edge for f in counted)
    said = f"{failing} {'rule fails' if failing == 1 else 'rules fail'}"
    held = said if failing else "every rule that matters holds"
    return f"{held}, {edge} at the edge." if edge else f"{held}."


def outcome_text(finding: "Finding") -> str:
    """Whether a rule holds, is at the edge or fails; a note that fails only asks to look."""
    if finding.outcome == "fails":
        return "look" if finding.level == "note" else "FAILS"
    return finding.outcome


def why_and_mend(finding: "Finding") -> str:
    """Why a rule matters, and what helps where its value is not as it should be."""
    return f"{finding.why} What helps: {finding.mend}" if finding.mend else finding.why


def figure(value: Fraction, kind: Kind, units: Units) -> str:
    """A value or a limit of a rule with its unit."""
    return limit_text(value, units) if kind == "length" else exactly(value, kind, units)


def accepted_text(finding: "Finding", units: Units) -> str:
    """What values a rule accepts, in words."""
    return accepted(finding.low, finding.high, finding.kind, units)


def accepted(least: Fraction | None, most: Fraction | None, kind: Kind, units: Units) -> str:
    """What lies between two limits, in words; one that is None does not exist."""
    low, high = (None if limit is None else figure(limit, kind, units) for limit in (least, most))
    if low and high:
        return f"{low} to {high}" if low != high else f"exactly {low}"
    return f"{low} or more" if low else f"{high} or less" if high else "anything"


def margin_text(finding: "Finding", units: Units) -> str:
    """How far a value is from the limit that it is nearest to, or that it passes.

    >>> from hivecalc.fit import findings
    >>> from hivecalc.hive import demo_hive
    >>> margin_text(findings(demo_hive())[0], "inch")
    '0.091 in to spare'
    """
    room = []
    if finding.low is not None:
        room.append((finding.value - finding.low, "too small"))
    if finding.high is not None:
        room.append((finding.high - finding.value, "too big"))
    if not room:
        return ""
    least, fault = min(room)
    size = abs(least)
    told = exactly if 0 < size < TENTH_MM.step / 2 else figure  # a hair may decide a fit
    return f"{told(size, finding.kind, units)} {'to spare' if least >= 0 else fault}"


def _figures(finding: "Finding", units: Units) -> tuple[str, str, str]:
    """The value of a rule, what is accepted, and by how much it holds or fails."""
    value = figure(finding.value, finding.kind, units)
    return value, accepted_text(finding, units), margin_text(finding, units)


# ── in the book ───────────────────────────────────────────────────────────────────────────────

COLUMNS: Final = (
    Column("rule, its value here, what is accepted, and why it matters", 1, bold=True),
)
LEVELS: Final = (
    "Each rule says how much it matters. If one that blocks fails, the hive does not go together, "
    "sticks when a frame leans, or shuts the bees in. If one that harms fails, wood, warmth or "
    "bees suffer. A note is worth knowing and stops nothing."
)
SOURCES: Final = f"Where no source stands with a rule, its limit is {COMMON}."
ALL_HOLD: Final = "Every rule that matters holds for this hive."


def rules_chapter(hive: Hive) -> Chapter:
    """Chapter of what every rule finds on this hive, failing ones told first.

    >>> from hivecalc.hive import demo_hive
    >>> rules_chapter(demo_hive()).blocks[0].text
    'Every rule that matters holds for this hive.'
    """
    from hivecalc.fit import findings  # noqa: PLC0415 - the rules load slowly

    found = findings(hive)
    sections = (
        Section(
            title(component).capitalize(),
            (Table(COLUMNS, tuple(_book_row(f, hive.units) for f in group), abreast=3),),
        )
        for component, group in groupby(found, lambda f: f.rule.partition(".")[0])
    )
    told = (*_failing(found, hive.units), Paragraph(LEVELS), Paragraph(SOURCES))
    return Chapter("Will it go together?", told, tuple(sections))


def _failing(found: Sequence["Finding"], units: Units) -> Iterator[Paragraph]:
    """A paragraph for each rule that fails and matters, or one that none does."""
    failing = [f for f in found if not f.holds and f.level != "note"]
    for f in failing:
        lead = f"{title(f.rule).capitalize()} fails: {margin_text(f, units)}."
        yield Paragraph(why_and_mend(f), lead, "wrong")
    if not failing:
        yield Paragraph(ALL_HOLD, tone="right")


def _book_row(found: "Finding", units: Units) -> tuple[str]:
    source = "" if found.source == COMMON else f" Source: {found.source}."
    sign, _, outcome = SIGNS[outcome_text(found)].partition(" ")
    level = "a note" if found.level == "note" else found.level
    value, allowed, margin = _figures(found, units)
    figures = ", ".join(filter(None, (f"{value} {outcome}", f"{allowed} accepted", margin)))
    head = f"{sign} {title(found.rule).capitalize()} ({level})"
    return (f"{head}\n{figures}\n{why_and_mend(found)}{source}",)


# ── many hives ────────────────────────────────────────────────────────────────────────────────


def trial_json(found: "Trial") -> Json:
    """A trial for other programs: how many hives fail, and each rule's count, the worst first.

    >>> from hivecalc.as_built import trial
    >>> from hivecalc.hive import demo_hive
    >>> list(trial_json(trial(demo_hive(), hives=10)))
    ['hives', 'failing', 'seed', 'care', 'habit', 'rules']
    """
    return {
        "hives": found.hives,
        "failing": found.failing,
        "seed": found.seed,
        "care": {kind: length_json(amount) for kind, amount in found.care.amounts.items()},
        "habit": found.habit,
        "rules": dict(found.rules),
    }


def trial_section(hive: Hive, found: "Trial") -> Section:
    """A trial to read: how it was made, how many hives fail, and by which rule.

    >>> from hivecalc.as_built import trial
    >>> from hivecalc.hive import demo_hive
    >>> trial_section(demo_hive(), trial(demo_hive(), hives=100)).blocks[0].text
    '100 hives built with this care (seed 1): 0 fail, 0 in 100.'
    """
    from hivecalc.as_built import HABITS, KINDS, SPREAD_TOLD  # noqa: PLC0415 - the rules load slowly

    amounts = "; ".join(
        f"{kind} ± {with_unit(hive.units, found.care.amounts[kind])} ({words})"
        for kind, words in KINDS.items()
    )
    made = f"{found.hives:,} hives built with this care (seed {found.seed})"
    lines = (
        Paragraph(f"{made}: {found.failing:,} fail, {share_text(found)}."),
        Paragraph(f"Care: {amounts}. {SPREAD_TOLD}"),
        Paragraph(f"Habit: {HABITS[found.habit]}."),
        *(
            Paragraph(f"{count:,} fail {title(rule)} ({rule})", tone="note")
            for rule, count in found.rules.items()
        ),
    )
    return Section("", lines)


def share_text(found: "Trial") -> str:
    """The share of hives that fail, as exactly as so many hives can tell."""
    if not found.failing:
        return "0 in 100"
    if found.share >= 1 / 100:
        return f"about {100 * found.share:.0f} in 100"
    return f"about {max(1, round(1000 * found.share))} in 1,000"
