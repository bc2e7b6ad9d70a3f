"""What the fit rules found, as text and as rows."""

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from hivecalc.derivation import title
from hivecalc.hive import Hive
from hivecalc.hive.texts import seen
from hivecalc.length import Units
from hivecalc.tables.numbers import exactly, length_in_mm
from hivecalc.tables.texts import Cell, Table, text_table, wrapped

if TYPE_CHECKING:  # the rules take a while to load, and parts need none of them
    from hivecalc.fit import Finding


def fit_table(hive: Hive, found: Iterable["Finding"]) -> Table:
    """Findings of the fit rules as rows for a spreadsheet.

    >>> from hivecalc.fit import findings
    >>> from hivecalc.hive import demo_hive
    >>> fit_table(demo_hive(), findings(demo_hive())).rows[0][1:6]
    ['bottom_board.room_above_stack', 'blocks', 'yes', '0.091 in', '0 in']
    """
    limits = ("value", "low", "high")
    in_mm = (f"{limit}_mm" for limit in limits)
    columns = ("hive", "rule", "level", "holds", *limits, *in_mm, "why", "source")
    return Table(columns, [_finding_row(hive, finding) for finding in found])


def _finding_row(hive: Hive, finding: "Finding") -> list[Cell]:
    limits = (finding.value, finding.low, finding.high)
    return [
        *(hive.name, finding.rule, finding.level, "yes" if finding.holds else "no"),
        *(None if limit is None else exactly(limit, finding.kind, hive.units) for limit in limits),
        *(None if limit is None else length_in_mm(limit, finding.kind) for limit in limits),
        *(finding.why, finding.source),
    ]


def fit_text(hive: Hive, found: Sequence["Finding"], across: int | None = None) -> str:
    """Findings of the fit rules to read: a table for each component, and why each rule matters.

    >>> from hivecalc.fit import findings
    >>> from hivecalc.hive import demo_hive
    >>> fit_text(demo_hive(), findings(demo_hive())).splitlines()[0]
    'Orchard hive: every rule holds that matters.'
    """
    failing = sum(not finding.holds and finding.level != "note" for finding in found)
    rules = "rule does" if failing == 1 else "rules do"
    result = f"{failing} {rules} not hold." if failing else "every rule holds that matters."
    by_component = groupby(found, lambda finding: finding.rule.partition(".")[0])
    sections = (_rules_text(hive, name, list(group), across) for name, group in by_component)
    return "\n".join((f"{wrapped(f'{seen(hive.name)}: {result}')}\n", *sections))


def _rules_text(hive: Hive, name: str, found: list["Finding"], across: int | None) -> str:
    rows = [_rule_row(finding, hive.units) for finding in found]
    table = text_table(Table(("", "rule", "value", "accepted", "by how much"), rows), across)
    notes = (f"{title(f.rule)} ({f.level}): {f.why} Source: {f.source}." for f in found)
    return f"{title(name).capitalize()}\n{table}" + "".join(f"{wrapped(n, '  ')}\n" for n in notes)


def _rule_row(finding: "Finding", units: Units) -> list[Cell]:
    said = "note" if finding.level == "note" else "FAILS"
    return [
        "holds" if finding.holds else said,
        title(finding.rule),
        exactly(finding.value, finding.kind, units),
        accepted_text(finding, units),
        margin_text(finding, units),
    ]


def accepted_text(finding: "Finding", units: Units) -> str:
    """What values a rule accepts, in words.

    >>> from hivecalc.fit import findings
    >>> from hivecalc.hive import demo_hive
    >>> accepted_text(findings(demo_hive())[0], "inch")
    '0 in or more'
    """
    low, high = (
        None if limit is None else exactly(limit, finding.kind, units)
        for limit in (finding.low, finding.high)
    )
    if low and high:
        return f"{low} to {high}" if low != high else f"exactly {low}"
    return f"{low} or more" if low else f"{high} or less" if high else "anything"


def margin_text(finding: "Finding", units: Units) -> str:
    """Return how far a value is from the limit that it is nearest to, or that it passes."""
    room = []
    if finding.low is not None:
        room.append((finding.value - finding.low, "too small"))
    if finding.high is not None:
        room.append((finding.high - finding.value, "too big"))
    if not room:
        return ""
    least, fault = min(room)
    return f"{exactly(abs(least), finding.kind, units)} {'to spare' if least >= 0 else fault}"
