"""The report on the fit rules, on a plan and on pieces as they were cut, and of many hives."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from typing import TYPE_CHECKING, Final

from hivecalc.as_built import HABITS, KINDS, SPREAD_NOTE, AsBuilt, FrameCheck
from hivecalc.derivation import Kind, title
from hivecalc.document import (
    SCHEMA,
    Cell,
    Chapter,
    Column,
    Document,
    Json,
    Paragraph,
    Report,
    Rows,
    Section,
    Table,
    notes,
    unheaded,
)
from hivecalc.fit import Finding, finding_json, findings, fit_json, holds
from hivecalc.hive import Hive
from hivecalc.length import TENTH_MM, Grid, Units, length_json, limit_text, shown, with_unit
from hivecalc.part import COMMON
from hivecalc.reports.sizes import exactly, length_in_mm
from hivecalc.support.faults import sentence

if TYPE_CHECKING:
    from hivecalc.as_built.trial import Trial  # needs numpy

SIGNS: Final = {
    "holds": "✓ holds",
    "at the edge": "~ at the edge",
    "look": "• look",
    "FAILS": "✗ fails",
}
"""What stands before a rule on a page, by its outcome in words."""


def fit_report(hive: Hive, tried: "Trial | None" = None) -> Report:
    """The report on every rule of one hive, and on a trial of many if one was made."""
    found = findings(hive)

    def document() -> Document:
        first = unheaded(f"{hive.name}: {result_text(found)}")
        last = (trial_section(hive, tried),) if tried else ()
        return Document("", (*first, *rule_sections(hive, found), *last))

    def data() -> Json:
        return fit_json(hive) | ({"trial": trial_json(tried)} if tried else {})

    return Report(document, lambda: _rows(hive, found), data, holds=holds(found))


def _rows(hive: Hive, found: Iterable[Finding]) -> Rows:
    limits = ("value", "low", "high")
    columns = (
        "hive", "rule", "level", "holds", "at_edge", *limits, *(f"{limit}_mm" for limit in limits),
        "why", "mend", "source",
    )  # fmt: skip
    rows: list[list[Cell]] = []
    for f in found:
        given = [f.value, f.low, f.high]
        rows.append([
            hive.name, f.rule, f.level,
            *("yes" if asked else "no" for asked in (f.holds, f.at_edge)),
            *(None if limit is None else exactly(limit, f.kind, hive.units) for limit in given),
            *(None if limit is None else length_in_mm(limit, f.kind) for limit in given),
            f.why, f.mend, f.source,
        ])  # fmt: skip
    return Rows(columns, rows)


def rule_sections(hive: Hive, found: Iterable[Finding]) -> Iterator[Section]:
    """A section for each component: its rules in a table, and why each matters."""
    columns = ("", "rule", "value", "accepted", "by how much")
    for name, group in groupby(found, lambda finding: finding.rule.partition(".")[0]):
        listed = list(group)
        rows = [[outcome_text(f), title(f.rule), *figures(f, hive.units)] for f in listed]
        said = (
            f"{title(f.rule)} ({f.level}): {why_and_mend(f)} Source: {f.source}." for f in listed
        )
        yield notes(title(name).capitalize(), said, Rows(columns, rows))


def result_text(found: Iterable[Finding]) -> str:
    """How many rules fail that matter, and how many are at the edge, in a sentence."""
    counted = [f for f in found if f.level != "note"]
    failing = sum(not f.holds for f in counted)
    edge = sum(f.at_edge for f in counted)
    said = f"{failing} {'rule fails' if failing == 1 else 'rules fail'}"
    held = said if failing else "every rule that matters holds"
    return f"{held}, {edge} at the edge." if edge else f"{held}."


def outcome_text(finding: Finding) -> str:
    """Whether a rule holds, is at the edge or fails; a note that fails only asks to look."""
    if finding.outcome == "fails":
        return "look" if finding.level == "note" else "FAILS"
    return finding.outcome


def why_and_mend(finding: Finding) -> str:
    """Why a rule matters, and what helps where its value is not as it should be."""
    return f"{finding.why} What helps: {finding.mend}" if finding.mend else finding.why


def figure(value: Fraction, kind: Kind, units: Units) -> str:
    """A value or a limit of a rule with its unit."""
    return limit_text(value, units) if kind == "length" else exactly(value, kind, units)


def accepted(least: Fraction | None, most: Fraction | None, kind: Kind, units: Units) -> str:
    """What lies between two limits, in words; one that is None does not exist."""
    low, high = (None if limit is None else figure(limit, kind, units) for limit in (least, most))
    if low and high:
        return f"{low} to {high}" if low != high else f"exactly {low}"
    return f"{low} or more" if low else f"{high} or less" if high else "anything"


def figures(finding: Finding, units: Units) -> tuple[str, str, str]:
    """The value of a rule, what is accepted, and how far it is from the limit that counts.

    >>> from hivecalc.hive import demo_hive
    >>> figures(findings(demo_hive())[0], "inch")
    ('0.091 in', '0 in or more', '0.091 in to spare')
    """
    room = []
    if finding.low is not None:
        room.append((finding.value - finding.low, "too small"))
    if finding.high is not None:
        room.append((finding.high - finding.value, "too big"))
    margin = ""
    if room:
        least, fault = min(room)
        size = abs(least)
        in_figures = exactly if 0 < size < TENTH_MM.step / 2 else figure  # a hair may decide a fit
        far = in_figures(size, finding.kind, units)
        margin = f"{far} {'to spare' if least >= 0 else fault}"
    value = figure(finding.value, finding.kind, units)
    return value, accepted(finding.low, finding.high, finding.kind, units), margin


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


def rules_chapter(hive: Hive) -> Chapter:
    """Chapter of what every rule finds on this hive, failing ones first.

    A source that several rules have is said once, under the name that it has in their rows.
    """
    found = findings(hive)
    failing = []
    for f in found:
        if not f.holds and f.level != "note":
            lead = f"{title(f.rule).capitalize()} fails: {figures(f, hive.units)[2]}."
            failing.append(Paragraph(why_and_mend(f), lead, "wrong"))
    first = failing or [Paragraph("Every rule that matters holds for this hive.", tone="right")]
    counted = Counter(f.source for f in found if not f.source.startswith(COMMON))
    several = (source for source, count in counted.items() if count > 1)
    shared = {source: f"Source {number}" for number, source in enumerate(several, 1)}
    sections = (
        Section(
            title(component).capitalize(),
            (Table(COLUMNS, tuple(_book_row(f, hive.units, shared) for f in group), abreast=3),),
        )
        for component, group in groupby(found, lambda f: f.rule.partition(".")[0])
    )
    sources = (Paragraph(f"{sentence(text)}.", f"{number}.") for text, number in shared.items())
    blocks = (*first, Paragraph(LEVELS), Paragraph(SOURCES), *sources)
    return Chapter("Will it go together?", blocks, tuple(sections))


def _book_row(found: Finding, units: Units, shared: Mapping[str, str]) -> tuple[str]:
    source = "" if found.source == COMMON else f" Source: {found.source}."
    for text, number in shared.items():
        source = source.replace(f"Source: {text}", number).replace(text, number.lower())
    sign, _, outcome = SIGNS[outcome_text(found)].partition(" ")
    level = "a note" if found.level == "note" else found.level
    value, allowed, margin = figures(found, units)
    said = ", ".join(filter(None, (f"{value} {outcome}", f"{allowed} accepted", margin)))
    head = f"{sign} {title(found.rule).capitalize()} ({level})"
    return (f"{head}\n{said}\n{why_and_mend(found)}{source}",)


# ── many hives ────────────────────────────────────────────────────────────────────────────────


def trial_json(found: "Trial") -> Json:
    """A trial for other programs: how many hives fail, and each rule's count, the worst first."""
    return {
        "hives": found.hives,
        "failing": found.failing,
        "seed": found.seed,
        "care": {kind: length_json(amount) for kind, amount in found.care.amounts.items()},
        "habit": found.habit,
        "rules": dict(found.rules),
    }


def trial_section(hive: Hive, found: "Trial") -> Section:
    """A trial to read: how it was made, how many hives fail, and by which rule."""
    amounts = "; ".join(
        f"{kind} ± {with_unit(hive.units, found.care.amounts[kind])} ({words})"
        for kind, words in KINDS.items()
    )
    made = f"{found.hives:,} hives built with this care (seed {found.seed})"
    failing = (f"{count:,} fail {title(rule)} ({rule})" for rule, count in found.rules.items())
    lines = (
        f"{made}: {found.failing:,} fail, {share_text(found)}.",
        f"Care: {amounts}. {SPREAD_NOTE}",
        f"Habit: {HABITS[found.habit]}.",
    )
    return notes("", failing, *map(Paragraph, lines))


def share_text(found: "Trial") -> str:
    """The share of hives that fail, as exactly as so many hives can tell."""
    if not found.failing:
        return "0 in 100"
    if found.share >= 1 / 100:
        return f"about {100 * found.share:.0f} in 100"
    return f"about {max(1, round(1000 * found.share))} in 1,000"


# ── pieces as they were cut ───────────────────────────────────────────────────────────────────


def check_report(hive: Hive, found: AsBuilt, frame: FrameCheck | None, grid: Grid) -> Report:
    """The report on pieces that were cut, and on a frame that was measured."""
    cut = _Cut(hive, found, frame, grid)
    return Report(cut.document, cut.table, cut.data, holds=cut.holds)


@dataclass(frozen=True)
class _Cut:
    hive: Hive
    found: AsBuilt
    frame: FrameCheck | None
    grid: Grid

    @property
    def holds(self) -> bool:
        return self.found.holds and (self.frame is None or self.frame.holds)

    def document(self) -> Document:
        result = "it goes together" if self.holds else "the frame is not as planned"
        if not self.found.holds:
            count = len(self.found.broken)
            result = "1 rule fails now" if count == 1 else f"{count} rules fail now"
        first = unheaded(f"{self.hive.name}, as cut: {result}.")
        pieces = (
            f"{'✓' if piece.allowed else '✗'} {piece.sentence}" for piece in self.found.pieces
        )
        return Document("", (*first, notes("", pieces), *self._rest()))

    def _rest(self) -> Iterator[Section]:
        if self.frame:
            yield notes("The frame", self.frame.sentences)
        for component in dict.fromkeys(p.name.partition(".")[0] for p in self.found.pieces):
            rows = [
                [title(name), shown(value, grid=self.grid)]
                for name, value in self.found.came.items()
                if name.startswith(f"{component}.")
            ]
            heading = f"{title(component).capitalize()}, put together"
            yield Section(heading, (Rows(("", "comes to"), rows),))
        if self.found.broken:
            failing = rule_sections(self.hive, self.found.broken)
            yield Section("What fails now", sections=tuple(failing))

    def table(self) -> Rows:
        columns = ("hive", "piece", "planned", "found", "allowed", "advice", "caution")
        rows: Sequence[Sequence[Cell]] = [
            [self.hive.name, piece.name,
             *(shown(size, grid=self.grid) for size in (piece.planned, piece.found)),
             "yes" if piece.allowed else "no", piece.advice, piece.caution]
            for piece in self.found.pieces
        ]  # fmt: skip
        return Rows(columns, rows)

    def data(self) -> Json:
        found, grid = self.found, self.grid
        fields: Json = {
            "schema": SCHEMA,
            "holds": self.holds,
            "built": {name: length_json(value, grid) for name, value in found.came.items()},
            "pieces": [
                {"piece": piece.name, "planned": length_json(piece.planned, grid),
                 "found": length_json(piece.found, grid), "allowed": piece.allowed,
                 "advice": piece.sentence}
                for piece in found.pieces
            ],
            "rules": [finding_json(f) for f in found.findings],
        }  # fmt: skip
        if frame := self.frame:
            fields["frame"] = {
                "shapes": list(frame.shapes),
                "square": frame.squareness.square,
                "opening": [length_json(side, grid) for side in frame.opening],
                "recut": {name: length_json(size, grid) for name, size in frame.recut.items()},
                "told": list(frame.sentences),
            }
        return fields
