"""The plan that pieces are held against."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import cached_property

from hivecalc.as_built.sizes import cut_sizes_of, names_in_rules
from hivecalc.components import COURSE
from hivecalc.derivation import Values
from hivecalc.hive import MEASUREMENTS, Hive
from hivecalc.length import Length, Units, shown, with_unit
from hivecalc.space import Consequence, Solid, assembled, consequences
from hivecalc.tolerance import rule_value, rules_of, sizes_of
from hivecalc.tolerance.sizes import PIECE_SIZES, resting_sizes


class Plan:
    """A hive as planned, perhaps for a frame that was made already."""

    def __init__(self, hive: Hive, frame: Mapping[str, Fraction]) -> None:
        self.hive, self.frame, self.units = hive, frame, hive.units
        self.rules = rules_of(hive)
        self.values: Values = sizes_of(hive, frame)
        self.sizes = {s.name: s for s in cut_sizes_of(hive, self.values)}
        self._standing: dict[str, tuple[Solid, ...]] = {}

    @cached_property
    def held(self) -> dict[str, dict[str, Fraction]]:
        """The sizes that each rule rests on, for the rules that hold as planned and matter."""
        held, known = {}, frozenset({*self.hive.measurements, *self.frame})
        for name, rule in self.rules.items():
            sizes = {n: self.values[n] for n in resting_sizes(name, known)}
            if rule.level != "note" and rule.allows(rule_value(name, sizes)):
                held[name] = sizes
        return held

    def failing(self, measured: Mapping[str, Length]) -> list[str]:
        """The rules that fail because of these sizes of pieces."""
        found = self.in_rules({n: (v,) for n, v in measured.items()})
        return [
            name
            for name, sizes in self.held.items()
            if sizes.keys() & found.keys()
            and not self.rules[name].allows(rule_value(name, {**sizes, **found}))
        ]

    def in_rules(self, measured: Mapping[str, Sequence[Length]]) -> Values:
        """Sizes of pieces under the names that rules have: of several, the furthest from plan.

        Mesh that is short counts for nothing: the strips beside it leave no way past the screen.
        """
        found: Values = {}
        for size, value in ((self.sizes[n], v) for n, r in measured.items() for v in r):
            if size.part.material == "mesh" and value < size.planned:
                continue
            for name in names_in_rules(size):
                if abs(value - size.planned) >= abs(found.get(name, size.planned) - size.planned):
                    found[name] = value
        return found

    def pinned(self) -> Values:
        """All sizes of pieces as planned: what one piece is off does not change the others."""
        names = {n for s in self.sizes for n in PIECE_SIZES[s] if n not in MEASUREMENTS}
        return {n: self.values[n] for n in names} | dict(self.frame)

    def standing(self, component: str) -> tuple[Solid, ...]:
        """A component as planned, in its place."""
        if component not in self._standing:
            self._standing[component] = assembled(self.values, component)
        return self._standing[component]

    def meeting(
        self, component: str, part: str, number: int, measured: Values
    ) -> tuple[Consequence, ...]:
        """What a piece of these sizes does to those round it: one of a part, or with 0 all."""
        true = self.standing(component)
        changed = assembled(self.values | measured, component)
        places = [i for i, solid in enumerate(true) if solid.part == part]
        cut = {places[number - 1]} if number else set(places)
        mixed = (changed[i] if i in cut else solid for i, solid in enumerate(true))
        return consequences(true, tuple(mixed), self.units)

    def said(self, value: Length) -> str:
        """A length as the builder reads it, with its unit."""
        return with_unit(self.units, value)


def to_cut(name: str, value: Length, units: Units) -> str:
    """A planned size as one cuts it: on a mark of the tape, where it lies on none of 1/64 in."""
    exact = with_unit(units, value)
    rounding = COURSE.dimension(name).rule.rounding
    return shown(value, units, rounding=rounding) if exact.startswith("≈") else exact
