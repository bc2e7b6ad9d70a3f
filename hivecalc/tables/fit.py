"""What the fit rules found, and a trial of many hives: as text and as rows."""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import groupby
from typing import TYPE_CHECKING, Final, TypeAlias

from hivecalc.derivation import Kind, title
from hivecalc.hive import Hive
from hivecalc.length import Units, length_json, with_unit
from hivecalc.support.faults import escaped
from hivecalc.tables.numbers import exactly, length_in_mm
from hivecalc.tables.texts import Cell, Table, text_table, wrapped

if TYPE_CHECKING:  # the rules take a while to load, and parts need none of them
    from hivecalc.as_built import Trial
    from hivecalc.fit import Finding

Json: TypeAlias = dict[str, object]
SIGNS: Final = {
    "holds": "✓ holds",
    "at the edge": "~ at the edge",
    "look": "• look",
    "FAILS": "✗ fails",
}
"""What stands before a rule on a page, by its outcome in words."""


def fit_table(hive: Hive, found: Iterable["Finding"]) -> Table:
    """Findings of the fit rules as rows for a spreadsheet.

    >>> from hivecalc.fit import findings
    >>> from hivecalc.hive import demo_hive
    >>> fit_table(demo_hive(), findings(demo_hive())).rows[0][1:6]
    ['bottom_board.room_above_stack', 'blocks', 'yes', 'no', '0.091 in']
    """
    limits = ("value", "low", "high")
    in_mm = (f"{limit}_mm" for limit in limits)
    columns = (
        *("hive", "rule", "level", "holds", "at_edge"),
        *limits,
        *in_mm,
        *("why", "mend", "source"),
    )
    return Table(columns, [_finding_row(hive, finding) for finding in found])


def _finding_row(hive: Hive, finding: "Finding") -> list[Cell]:
    limits = (finding.value, finding.low, finding.high)
    return [
        *(hive.name, finding.rule, finding.level),
        *("yes" if asked else "no" for asked in (finding.holds, finding.at_edge)),
        *(None if limit is None else exactly(limit, finding.kind, hive.units) for limit in limits),
        *(None if limit is None else length_in_mm(limit, finding.kind) for limit in limits),
        *(finding.why, finding.mend, finding.source),
    ]


def fit_text(hive: Hive, found: Sequence["Finding"], across: int | None = None) -> str:
    """Findings of the fit rules to read: a table for each component, and why each rule matters.

    >>> from hivecalc.fit import findings
    >>> from hivecalc.hive import demo_hive
    >>> fit_text(demo_hive(), findings(demo_hive())).splitlines()[0]
    'Orchard hive: every rule that matters holds.'
    """
    result = wrapped(f"{escaped(hive.name)}: {result_text(found)}")
    return f"{result}\n\n{findings_text(hive, found, across)}"


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


def findings_text(hive: Hive, found: Sequence["Finding"], across: int | None = None) -> str:
    """Some findings to read, component by component, each with why it matters and what helps.

    >>> from hivecalc.fit import findings
    >>> from hivecalc.hive import demo_hive
    >>> findings_text(demo_hive(), findings(demo_hive())[:1]).splitlines()[0]
    'Bottom board'
    """
    by_component = groupby(found, lambda finding: finding.rule.partition(".")[0])
    return "\n".join(_rules_text(hive, name, list(group), across) for name, group in by_component)


def _rules_text(hive: Hive, name: str, found: list["Finding"], across: int | None) -> str:
    rows = [_rule_row(finding, hive.units) for finding in found]
    table = text_table(Table(("", "rule", "value", "accepted", "by how much"), rows), across)
    notes = (_note(f) for f in found)
    return f"{title(name).capitalize()}\n{table}" + "".join(f"{wrapped(n, '  ')}\n" for n in notes)


def _note(finding: "Finding") -> str:
    helps = f" What helps: {finding.mend}" if finding.mend else ""
    said = f"{title(finding.rule)} ({finding.level}): {finding.why}{helps}"
    return f"{said} Source: {finding.source}."


def _rule_row(finding: "Finding", units: Units) -> list[Cell]:
    return [
        outcome_text(finding),
        title(finding.rule),
        exactly(finding.value, finding.kind, units),
        accepted_text(finding, units),
        margin_text(finding, units),
    ]


def outcome_text(finding: "Finding") -> str:
    """Whether a rule holds, is at the edge or fails; a note that fails only asks to look.

    >>> from hivecalc.fit import findings
    >>> from hivecalc.hive import demo_hive
    >>> outcome_text(findings(demo_hive())[0])
    'holds'
    """
    if finding.outcome == "fails":
        return "look" if finding.level == "note" else "FAILS"
    return finding.outcome


def accepted_text(finding: "Finding", units: Units) -> str:
    """What values a rule accepts, in words.

    >>> from hivecalc.fit import findings
    >>> from hivecalc.hive import demo_hive
    >>> accepted_text(findings(demo_hive())[0], "inch")
    '0 in or more'
    """
    return accepted(finding.low, finding.high, finding.kind, units)


def accepted(least: Fraction | None, most: Fraction | None, kind: Kind, units: Units) -> str:
    """What lies between two limits, in words; one that is None does not exist.

    >>> accepted(Fraction(1, 4), None, "length", "inch")
    '1/4 in or more'
    """
    low, high = (None if limit is None else exactly(limit, kind, units) for limit in (least, most))
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
    return f"{exactly(abs(least), finding.kind, units)} {'to spare' if least >= 0 else fault}"


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


def trial_text(hive: Hive, found: "Trial") -> str:
    """A trial to read: how it was made, how many hives fail, and by which rule.

    >>> from hivecalc.as_built import trial
    >>> from hivecalc.hive import demo_hive
    >>> trial_text(demo_hive(), trial(demo_hive(), hives=100)).splitlines()[0]
    '100 hives built with this care (seed 1): 0 fail, 0 in 100.'
    """
    from hivecalc.as_built import HABITS, KINDS, SPREAD_TOLD  # noqa: PLC0415 - the rules load slowly

    amounts = "; ".join(
        f"{kind} ± {with_unit(hive.units, found.care.amounts[kind])} ({words})"
        for kind, words in KINDS.items()
    )
    made = f"{found.hives:,} hives built with this care (seed {found.seed})"
    lines = [
        f"{made}: {found.failing:,} fail, {share_text(found)}.",
        f"Care: {amounts}. {SPREAD_TOLD}",
        f"Habit: {HABITS[found.habit]}.",
        *(f"  {count:,} fail {title(rule)} ({rule})" for rule, count in found.rules.items()),
    ]
    return "".join(f"{wrapped(line)}\n" for line in lines)


def share_text(found: "Trial") -> str:
    """The share of hives that fail, as exactly as so many hives can tell.

    >>> from hivecalc.as_built import trial
    >>> from hivecalc.hive import demo_hive
    >>> share_text(trial(demo_hive(), hives=1000))
    'about 2 in 1,000'
    """
    if not found.failing:
        return "0 in 100"
    if found.share >= 1 / 100:
        return f"about {100 * found.share:.0f} in 100"
    return f"about {max(1, round(1000 * found.share))} in 1,000"
