"""Worked steps, what changes between two hives, rules that fail, figures to carry to the saw."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from html import escape

from hivecalc.components import DIMENSIONS, built, parts, values
from hivecalc.derivation import (
    Change,
    Dimension,
    RoundingRule,
    Step,
    Values,
    kind_of,
    line,
    number,
    on_hive,
    title,
)
from hivecalc.fit import Finding, marked
from hivecalc.hive import Hive
from hivecalc.length import MARKS, Grid, Units, shown
from hivecalc.pages.messages import folded, message, table
from hivecalc.part import Piece
from hivecalc.reports.sizes import WAYS, exactly
from hivecalc.support.faults import sentence


def steps(shown_steps: Sequence[Step], units: Units) -> str:
    """Worked steps as a numbered list: the formula, the numbers, the value and the reason."""
    items = "".join(step_item(step, units) for step in shown_steps)
    return f'<div class="hc"><ol>{items}</ol></div>'


def step_item(step: Step, units: Units) -> str:
    """One worked step as an item of a list.

    >>> from hivecalc.hive import demo_hive
    >>> (step,) = DIMENSIONS.steps("bottom_board.side_rail_length", demo_hive().measurements)
    >>> step_item(step, "inch").split("<br>")[1]
    '= 23 1/8 − 1 1/2 = <b>21 5/8 in</b>'
    """
    of = unit(DIMENSIONS.dimension(step.dimension), units)
    numbers = "" if step.numbers == step.shown else f"= {escape(step.numbers)} "
    equals = "" if step.shown.startswith("≈") else "= "
    return (
        f"<li><b>{escape(title(step.dimension))}</b> = {escape(step.formula)}<br>"
        f"{numbers}{equals}<b>{escape(step.shown)}{of}</b><br>"
        f"{escape(step.why)}</li>"
    )


def unit(dimension: Dimension, units: Units) -> str:
    """The unit of a dimension, behind a space; nothing for a ratio or a count.

    >>> unit(DIMENSIONS.dimension("roof.lap"), "mm"), unit(DIMENSIONS.dimension("roof.slope"), "mm")
    (' mm', '')
    """
    if dimension.kind != "length":
        return ""
    return " in" if units == "inch" else " mm"


def worked(hive: Hive, dimension: str) -> str:
    """The worked steps to one dimension of a hive, down to what was measured."""
    found = DIMENSIONS.steps(dimension, hive.measurements, units=hive.units)
    return steps(found, hive.units)


def how_derived(hive: Hive, dimension: str) -> str:
    """The worked steps to one dimension, folded away until somebody wants to see them."""
    return folded(f"How {title(dimension)} is worked out", worked(hive, dimension))


def failing(findings: Sequence[Finding]) -> str:
    """The rules that fail now, each with why it matters; a line that says so where none does."""
    if not findings:
        return message("note", "No rule fails that held before; lesson 08 lists them all.")
    return message("wrong", *(f"{title(f.rule).capitalize()} fails: {f.why}" for f in findings))


def carry(hive: Hive, component: str, names: Sequence[str] = ()) -> str:
    """The figures to carry to the saw: pieces of a component, and below how they are rounded.

    Of a component that isn't built for this hive, only that nothing of it is cut.
    """
    if component not in built(hive):
        told = f"Nothing of the {component.replace('_', ' ')} is cut for this hive."
        return message("note", told)
    pieces = [p for p in parts(hive, component=component) if not names or p.part in names]
    head = ["piece", "how many", "thick", "wide", "long"]
    listed = table(head, [_carry_row(hive, p) for p in pieces])
    return listed + message("note", *_rounded(pieces, MARKS[hive.units]))


def _carry_row(hive: Hive, piece: Piece) -> list[str]:
    listed = marked(hive, piece)
    sizes = (
        shown(size.value, hive.units, None, size.rounding) if size else "–"
        for size in (listed.thickness, listed.width, listed.length)
    )
    return [title(piece.part), str(piece.quantity), *sizes]


def _rounded(pieces: Sequence[Piece], grid: Grid) -> Iterator[str]:
    """How the lengths of pieces are rounded and why: a sentence for all that have it alike."""
    alike: dict[RoundingRule, list[str]] = {}
    for piece in pieces:
        rule = DIMENSIONS.dimension(f"{piece.component}.{piece.part}_length").rule
        alike.setdefault(rule, []).append(title(piece.part))
    for rule, names in alike.items():
        which = "All lengths" if len(alike) == 1 else sentence(", ".join(names))
        yield f"{which}, {WAYS[rule.rounding]} {grid.name}: {rule.reason}"


# ── what changes between two hives ────────────────────────────────────────────────────────────


def change_table(
    found: Sequence[Change], now: Hive, first: Collection[str] = ("bottom_board",)
) -> str:
    """What changes between two hives: each dimension, old and new, and the steps that change it.

    `found` is all that differs, `now` the changed hive, `first` the components that are looked
    at: what changes in others is folded away.
    """
    explained = _Explained({c.name: c for c in found}, values(now), now)
    found_here = [d for d in DIMENSIONS.dimensions.values() if d.name in explained.dimensions]
    if not found_here:
        return message("note", "No piece changes.")
    seen = [explained.row(d) for d in found_here if d.component in first]
    others = [explained.row(d) for d in found_here if d.component not in first]
    rows = "".join([*seen, *_folded(others)]) if seen else "".join(others)
    return f'<div class="hc hc-changes"><p><b>What changes, and why:</b></p>{rows}</div>'


def _folded(rows: Sequence[str]) -> Iterator[str]:
    """The rows of what is not seen in the picture, behind a line that says how many they are."""
    if rows:
        count = f"<span>{len(rows)} more in other parts of the hive</span>"
        yield f'<details class="hc-others"><summary>{count}</summary>{"".join(rows)}</details>'


@dataclass(frozen=True)
class _Explained:
    """All that changes, by name, in the order in which it is worked out, and all that is."""

    changed: Mapping[str, Change]
    values: Values
    hive: Hive

    @cached_property
    def dimensions(self) -> dict[str, Dimension]:
        """The dimensions that change, without what was measured."""
        derived = (n for n in self.changed if n not in self.hive.measurements)
        return {n: on_hive(DIMENSIONS.dimension(n), self.values) for n in derived}

    def row(self, d: Dimension) -> str:
        """One dimension: its name, its old and its new value, opening to its own step."""
        name = f"{escape(d.component.replace('_', ' '))}: {escape(d.title)} <u>why</u>"
        old, new = self._values(d)
        values = f"<span>was {old}</span> <span>now <b>{new}</b></span>"
        summary = f"<span>{name}</span> <span>{values}</span>"
        step = "<br>".join(map(escape, self._step(self.dimensions[d.name])))
        return f"<details><summary>{summary}</summary><p>{step}</p></details>"

    def _values(self, d: Dimension) -> list[str]:
        """The old and the new value with their unit, told apart where they are rounded alike."""
        change, units = self.changed[d.name], self.hive.units
        old, new = (f"{told}{unit(d, units)}" for told in self._told[d.name])
        if d.kind != "length":
            old, new = (exactly(value, d.kind, units) for value in (change.old, change.new))
        if old == new:
            new += ", a hair more" if change.new > change.old else ", a hair less"
        return [old, new]

    def _step(self, d: Dimension) -> tuple[str, str, str]:
        """The formula, its numbers, and why: name and values stand above it."""
        inputs = list(zip(d.parameters, d.inputs, strict=True))
        formula = line(d.expression, {p: title(i) for p, i in inputs})
        numbers = line(d.expression, {p: self._numbers[i] for p, i in inputs})
        return f"= {formula}", f"= {numbers}", " ".join([d.why, *self._entries(d)])

    @cached_property
    def _numbers(self) -> dict[str, str]:
        """Each number that stands in a step, with the one that it was before, if it is another."""
        inputs = {i for d in self.dimensions.values() for i in d.inputs}
        same = {i: self._number(i, self.values[i]) for i in inputs - self.changed.keys()}
        return same | {name: f"{new} (was {was})" for name, (was, new) in self._told.items()}

    @cached_property
    def _told(self) -> dict[str, tuple[str, str]]:
        """The old and the new value of all that changes."""
        found = self.changed.values()
        return {c.name: (self._number(c.name, c.old), self._number(c.name, c.new)) for c in found}

    def _number(self, name: str, value: Fraction) -> str:
        return number(value, kind_of(name, DIMENSIONS.dimensions), self.hive.units)

    def _entries(self, d: Dimension) -> list[str]:
        """Where the change comes in: a sentence about each measurement in a step that is new."""
        entering = (i for i in d.inputs if i in self.changed and i in self.hive.measurements)
        return [f"Here the new {title(i)} comes in." for i in dict.fromkeys(entering)]
