"""The chapter of the fit rules: held or not, by how much, and why each one matters."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from hivecalc.book.content import Chapter, Column, Paragraph, Section, Table
from hivecalc.derivation import title
from hivecalc.fit import Finding, Level, findings
from hivecalc.hive import Hive
from hivecalc.length import Units
from hivecalc.stock import COMMON
from hivecalc.tables.fit import SIGNS, accepted_text, margin_text, outcome_text
from hivecalc.tables.numbers import exactly

COLUMNS = (
    Column("held?", 1.8, bold=True),
    Column("rule, and why it matters", 7.4),
    Column("here", 1.9, bold=True),
    Column("accepted", 2.9),
    Column("by how much", 3),
)
IF_NOT: dict[Level, str] = {"blocks": "else it blocks", "harms": "else it harms", "note": "a note"}
LEVELS = (
    "Each rule says how much it matters. If one that blocks fails, the hive does not go together, "
    "sticks when a frame leans, or shuts the bees in. If one that harms fails, wood, warmth or "
    "bees suffer. A note is worth knowing and stops nothing."
)
SOURCES = f"Where no source stands with a rule, its limit is {COMMON}."
ALL_HOLD = "Every rule that matters holds for this hive."


def checks(hive: Hive) -> Chapter:
    """Chapter of what every rule finds on this hive, failing ones told first.

    >>> from hivecalc.hive import demo_hive
    >>> checks(demo_hive()).blocks[0].text
    'Every rule that matters holds for this hive.'
    """
    found = findings(hive)
    by_component = groupby(found, lambda f: f.rule.partition(".")[0])
    sections = (
        Section(title(component).capitalize(), (_table(list(group), hive.units),))
        for component, group in by_component
    )
    told = (*_failing(found, hive.units), Paragraph(LEVELS), Paragraph(SOURCES))
    return Chapter("Will it go together?", told, tuple(sections))


def _failing(found: Sequence[Finding], units: Units) -> Iterator[Paragraph]:
    """Return a paragraph for each rule that fails and matters, or one that none does."""
    failing = [f for f in found if not f.holds and f.level != "note"]
    for f in failing:
        lead = f"{title(f.rule).capitalize()} fails: {margin_text(f, units)}."
        yield Paragraph(_why(f), lead, "wrong")
    if not failing:
        yield Paragraph(ALL_HOLD, tone="right")


def _why(found: Finding) -> str:
    """Why a rule matters, and what helps where its value is not as it should be."""
    return f"{found.why} What helps: {found.mend}" if found.mend else found.why


def _table(found: Sequence[Finding], units: Units) -> Table:
    return Table(COLUMNS, tuple(_row(f, units) for f in found))


def _row(found: Finding, units: Units) -> tuple[str, ...]:
    source = "" if found.source == COMMON else f" Source: {found.source}."
    return (
        f"{SIGNS[outcome_text(found)]}\n{IF_NOT[found.level]}",
        f"{title(found.rule).capitalize()}\n{_why(found)}{source}",
        exactly(found.value, found.kind, units),
        accepted_text(found, units),
        margin_text(found, units),
    )
