"""What is told of a size: how it comes out of what was measured, step by step, and why."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Final

from hivecalc.components import DIMENSIONS, values
from hivecalc.derivation import RoundingRule, Step, title
from hivecalc.document import (
    SCHEMA,
    Cell,
    Document,
    Json,
    Paragraph,
    Rows,
    Section,
    Told,
    Working,
    Workings,
)
from hivecalc.hive import MEASUREMENTS, Hive
from hivecalc.hive.measurements import OPENINGS
from hivecalc.length import MARKS, Grid, Rounding, shown
from hivecalc.telling.figures import (
    WAYS,
    exactly,
    kind_named,
    length_in_mm,
    number_json,
    number_text,
    other,
    rule_named,
)

_TOWARDS: Final = {
    Rounding.NEAREST: "to the nearest",
    Rounding.DOWN: "down to a full",
    Rounding.UP: "up to a full",
}


def size_told(hive: Hive, name: str, grid: Grid | None = None) -> Told:
    """What is told of a dimension of a hive, by its whole name; a measurement has no steps.

    Raises KeyError for one that this hive has not.
    """
    size = _Size(hive, name, grid or MARKS[hive.units], values(hive)[name])
    return Told(size.document, size.table, size.data)


@dataclass(frozen=True)
class _Size:
    hive: Hive
    name: str
    grid: Grid
    value: Fraction

    @property
    def given(self) -> bool:
        """Whether it is measured or chosen, and not worked out."""
        return self.name in self.hive.measurements

    @cached_property
    def words(self) -> tuple[str, str]:
        """What it is, and why it is so."""
        if self.given:
            meaning = MEASUREMENTS[_as_measured(self.name)].meaning
            return meaning, meaning
        dimension = DIMENSIONS.dimension(self.name)
        return dimension.what, dimension.why

    @property
    def rule(self) -> RoundingRule:
        """How it is rounded."""
        return rule_named(self.name)

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """Its worked steps, deepest first."""
        if self.given:
            return ()
        return tuple(DIMENSIONS.steps(self.name, self.hive.measurements, units=self.hive.units))

    @property
    def sources(self) -> tuple[str, ...]:
        """The measurements and choices that it comes from."""
        if self.given:
            return (_as_measured(self.name),)
        rests_on = DIMENSIONS.rests_on(self.name, self.hive.measurements, values(self.hive))
        return tuple(map(_as_measured, rests_on))

    # to read

    def document(self) -> Document:
        first = Section(
            f"{title(self.name).capitalize()} ({self.name})", (Paragraph(self.words[0]),)
        )
        if not self.steps:
            return Document("", (first, self._comes_from()))
        worked = Workings(tuple(working(step, self.hive) for step in self.steps))
        sections = (first, Section("", (worked,)), self._comes_from(), self._on_tape())
        return Document("", sections)

    def _comes_from(self) -> Section:
        notes = (
            f"{title(n)} {exactly(self.hive.measurements[n], kind_named(n), self.hive.units)}, "
            f"{origin(self.hive, n)}"
            for n in self.sources
        )
        return Section("It comes from", tuple(Paragraph(note, tone="note") for note in notes))

    def _on_tape(self) -> Section:
        kind = kind_named(self.name)
        if kind != "length":
            return Section("", (Paragraph(f"Value: {number_text(self.value, kind, self.grid)}"),))
        rounding, grid = self.rule.rounding, self.grid
        value = shown(self.value, grid=grid, rounding=rounding)
        also = shown(self.value, grid=MARKS[other(grid.units)], rounding=rounding)
        towards = f"{_TOWARDS[rounding]} {grid.name}"
        said = f"On the tape: {value} ({also}), {towards}. {self.rule.reason}"
        return Section("", (Paragraph(said),))

    # as rows, deepest first; mm is empty for a ratio

    def table(self) -> Rows:
        columns = ("dimension", "formula", "numbers", "value", "mm", "why")
        return Rows(columns, [self._row(step) for step in self.steps] or [self._given()])

    def _given(self) -> list[Cell]:
        kind = kind_named(self.name)
        value = number_text(self.value, kind, self.grid)
        return [self.name, "", "", value, length_in_mm(self.value, kind), self.words[1]]

    def _row(self, step: Step) -> list[Cell]:
        name, kind = step.dimension, kind_named(step.dimension)
        value = number_text(step.value, kind, self.grid, rule_named(name).rounding)
        mm = length_in_mm(step.value, kind)
        return [name, step.formula, step.numbers, value, mm, step.why]

    # for other programs

    def data(self) -> Json:
        return {
            "schema": SCHEMA,
            "dimension": self.name,
            "value": self._number(self.name, self.value),
            "why": self.words[1],
            "steps": [
                {
                    "dimension": step.dimension,
                    "formula": step.formula,
                    "numbers": step.numbers,
                    "value": self._number(step.dimension, step.value),
                    "why": step.why,
                }
                for step in self.steps
            ],
        }

    def _number(self, name: str, value: Fraction) -> object:
        return number_json(value, kind_named(name), self.grid, rule_named(name).rounding)


def _as_measured(name: str) -> str:
    """The measurement that gives a value: itself, or the opening that was measured instead."""
    return next((opening for opening, cut in OPENINGS.items() if name in cut), name)


def origin(hive: Hive, name: str) -> str:
    """Where the value of a measurement or choice comes from, in words.

    >>> from hivecalc.hive import demo_hive
    >>> origin(demo_hive(), "hive_width"), origin(demo_hive(), "stud_width")
    ('measured', 'not measured: the usual size')
    """
    if name in hive.measured:
        return "measured"
    if name in hive.chosen:
        return "chosen"
    if MEASUREMENTS[name].group == "measured":
        return "not measured: the usual size"
    return "the usual choice"


# ── all sizes of a component ──────────────────────────────────────────────────────────────────


def workings(hive: Hive, component: str) -> Workings:
    """Every size of a component that is worked out, those that others need first."""
    return Workings(tuple(working(step, hive) for step in _steps(hive, component)))


def _steps(hive: Hive, component: str) -> Iterator[Step]:
    """One step for each size, in an order that needs nothing from below."""
    told = set[str]()
    for name in DIMENSIONS.names([component]):
        if name in hive.measurements or DIMENSIONS.dimension(name).as_measured:
            continue
        for step in DIMENSIONS.steps(name, hive.measurements, units=hive.units):
            if step.dimension not in told and _belongs(step.dimension, component):
                told.add(step.dimension)
                yield step


def _belongs(name: str, component: str) -> bool:
    dimension = DIMENSIONS.dimension(name)
    return dimension.component == component and not dimension.as_measured


def working(step: Step, hive: Hive) -> Working:
    """How one size of a hive comes out, and what the tape says where that is another value."""
    dimension, units = DIMENSIONS.dimension(step.dimension), hive.units
    numbers = "" if step.numbers == step.shown else step.numbers
    value, on_tape = step.shown, ""
    if dimension.kind == "length":
        value += " in" if units == "inch" else " mm"
        rounding = dimension.rule.rounding
        cut = shown(step.value, units, None, rounding)
        on_tape = "" if cut == value else f"{cut}, {WAYS[rounding]} {MARKS[units].name}"
    return Working(title(step.dimension), step.formula, numbers, value, on_tape, step.why)
