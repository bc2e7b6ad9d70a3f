"""The graph of dimensions: values, worked steps, what a change reaches."""

import ast
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from graphlib import CycleError, TopologicalSorter
from typing import TypeAlias

from hivecalc.derivation.dimension import (
    DerivationError,
    Dimension,
    Formula,
    UnknownNameError,
    kind_of,
    title,
)
from hivecalc.derivation.formula import line, names_in, number, settled
from hivecalc.hive import MEASUREMENTS
from hivecalc.length import Units

Values: TypeAlias = dict[str, Fraction]
Plan: TypeAlias = tuple[tuple[str, Formula, tuple[str, ...]], ...]


@dataclass(frozen=True)
class Step:
    """One worked step: the formula in words, the same with numbers, the value and the reason."""

    dimension: str
    formula: str
    numbers: str
    value: Fraction
    shown: str
    why: str


@dataclass(frozen=True)
class Change:
    """A dimension whose value differs between two hives."""

    name: str
    old: Fraction
    new: Fraction


class Graph:
    """All dimensions of some components, checked once: nothing goes in a circle."""

    def __init__(self, dimensions: Iterable[Dimension], components: Iterable[str]) -> None:
        self.dimensions = {d.name: d for d in dimensions}
        self.components = tuple(components)
        self._known = frozenset({*MEASUREMENTS, *self.dimensions})
        self._order = self._sorted()
        self.plan = lru_cache(maxsize=256)(self._planned)
        self.plan_for = lru_cache(maxsize=256)(self._planned_for)

    def _sorted(self) -> tuple[Dimension, ...]:
        inner = {
            n: [i for i in d.inputs if i in self.dimensions] for n, d in self.dimensions.items()
        }
        try:
            return tuple(self.dimensions[n] for n in TopologicalSorter(inner).static_order())
        except CycleError as error:
            circle = " → ".join(error.args[1])
            raise DerivationError(
                f"these dimensions need each other in a circle: {circle}"
            ) from None

    def dimension(self, name: str) -> Dimension:
        """The dimension of this full name; raises UnknownNameError with the nearest names."""
        if name not in self.dimensions:
            raise UnknownNameError(name, self.dimensions)
        return self.dimensions[name]

    def names(self, components: Iterable[str] | None = None) -> tuple[str, ...]:
        """The full names of these components' dimensions, in the order they stand in the text."""
        wanted = set(self.components if components is None else components)
        return tuple(n for n, d in self.dimensions.items() if d.component in wanted)

    def _planned(self, known: frozenset[str], components: tuple[str, ...]) -> Plan:
        return self._planned_for(known, self.names(components))

    def _planned_for(self, known: frozenset[str], names: tuple[str, ...]) -> Plan:
        needed, waiting = set[str](), list(names)
        while waiting:
            name = waiting.pop()
            if name in needed or name in known or name not in self.dimensions:
                continue
            needed.add(name)
            waiting += self.dimensions[name].inputs
        return tuple((d.name, d.compute, d.inputs) for d in self._order if d.name in needed)

    def values(
        self,
        measurements: Mapping[str, Fraction],
        given: Mapping[str, Fraction] | None = None,
        components: tuple[str, ...] | None = None,
    ) -> Values:
        """The value of every dimension of these components, with the measurements beside them.

        >>> from hivecalc.components import DIMENSIONS
        >>> from hivecalc.hive import demo_hive
        >>> wide = {"skirt_width": Fraction(3)}
        >>> DIMENSIONS.values(demo_hive().measurements, wide, ("roof",))["roof.lap"]
        Fraction(5, 8)

        `given` replaces any dimension or measurement by a value: a learner's answer, a measured
        piece, a wrong cut. Keys are full names, values Fractions of an inch. Raises
        UnknownNameError for a name that is neither.
        """
        if given and not self._known.issuperset(given):
            raise self._unknown(given)
        found: Values = {**measurements, **(given or {})}
        known, value = frozenset(self.dimensions.keys() & found.keys()), found.__getitem__
        for name, function, inputs in self.plan(known, components or self.components):
            found[name] = function(*map(value, inputs))
        return found

    def _unknown(self, names: Iterable[str], kind: str = "dimension") -> UnknownNameError:
        first = next(n for n in names if n not in self._known)
        return UnknownNameError(first, [*MEASUREMENTS, *self.dimensions], kind)

    def _walk(self, name: str, known: frozenset[str], values: Values | None) -> Iterator[str]:
        """The names that a dimension rests on and at last itself, deepest first, each once.

        With values, only what it rests on for these: of a formula with two branches, the one taken.
        """
        seen: set[str] = set()

        def visit(n: str) -> Iterator[str]:
            if n in seen:
                return
            seen.add(n)
            for i in _inputs(self.dimensions[n], values) if self._derived(n, known) else ():
                yield from visit(i)
            yield n

        return visit(name)

    def _derived(self, name: str, known: frozenset[str]) -> bool:
        return name in self.dimensions and name not in known

    def steps(
        self,
        name: str,
        measurements: Mapping[str, Fraction],
        given: Mapping[str, Fraction] | None = None,
        units: Units = "inch",
    ) -> list[Step]:
        """The worked steps down to what was measured or given: deepest first, each once.

        >>> from hivecalc.components import DIMENSIONS
        >>> from hivecalc.hive import demo_hive
        >>> (step,) = DIMENSIONS.steps("bottom_board.front_rail_width", demo_hive().measurements)
        >>> step.formula, step.numbers, step.shown
        ('stud width − entrance height', '3 1/2 − 3/4', '2 3/4')

        Raises UnknownNameError as `dimension` and `values` do.
        """
        top = self.dimension(name)
        known = frozenset({*measurements, *(given or {})})
        values = self.values(measurements, given, (top.component,))
        walk = (n for n in self._walk(name, known, values) if self._derived(n, known))
        return [self._step(self.dimensions[n], values, units) for n in walk]

    def _step(self, d: Dimension, values: Values, units: Units) -> Step:
        shown = number(values[d.name], d.kind, units)
        formula, numbers = self._lines(d, values, units) if d.inputs else (shown, shown)
        return Step(d.name, formula, numbers, values[d.name], shown, d.why)

    def _lines(self, d: Dimension, values: Values, units: Units) -> tuple[str, str]:
        pairs = list(zip(d.parameters, d.inputs, strict=True))
        words = {p: title(i) for p, i in pairs}
        numbers = {p: number(values[i], kind_of(i, self.dimensions), units) for p, i in pairs}
        plain = settled(d.expression, {p: values[i] for p, i in pairs})
        return line(plain, words), line(plain, numbers)

    def rests_on(
        self, name: str, known: Iterable[str] = (), values: Values | None = None
    ) -> tuple[str, ...]:
        """The measurements (and names taken as known) that a dimension is made from.

        >>> from hivecalc.components import DIMENSIONS
        >>> DIMENSIONS.rests_on("bottom_board.side_rail_length", ["hive_length"])
        ('hive_length', 'stud_thickness')

        A formula may ask for a measurement, as for the inner cover; with a hive's values only the
        way that it goes there is followed.
        """
        self.dimension(name)
        fixed = frozenset(known)
        return tuple(n for n in self._walk(name, fixed, values) if not self._derived(n, fixed))

    def reached_by(self, name: str, known: Iterable[str] = ()) -> tuple[str, ...]:
        """The dimensions that change when this measurement or dimension changes, in order.

        Raises UnknownNameError.
        """
        if name not in self._known:
            raise self._unknown([name], "measurement")
        reached, fixed = {name}, frozenset(known)
        for d in self._order:
            if d.name not in fixed and reached.intersection(d.inputs):
                reached.add(d.name)
        return tuple(n for n in self.dimensions if n in reached and n != name)


def _inputs(d: Dimension, values: Values | None) -> tuple[str, ...]:
    """What a dimension needs; with values only what it needs for these, and what it asks for."""
    if values is None or not isinstance(d.expression, ast.IfExp):
        return d.inputs
    pairs = list(zip(d.parameters, d.inputs, strict=True))
    plain = settled(d.expression, {p: values[i] for p, i in pairs})
    used = names_in(d.expression.test, plain)
    return tuple(i for p, i in pairs if p in used)


def changes(old: Values, new: Values) -> list[Change]:
    """The values that differ between two hives, in the order of the first."""
    return [Change(n, old[n], new[n]) for n in old if n in new and old[n] != new[n]]
