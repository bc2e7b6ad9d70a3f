"""A hive as its file gives it, and the demo hive of an orchard apiary course."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final, TypeAlias

from hivecalc.hive.measurements import DEFAULTS, OPENINGS, SECTIONS, in_section
from hivecalc.length import Units

UNNAMED: Final = "My hive"

Readings: TypeAlias = tuple[Fraction | None, ...]
"""Readings of one size, place by place; None where none was taken yet."""


@dataclass(frozen=True)
class Hive:
    """A hive as its file gives it: name, units, what was measured and what was chosen.

    Lengths are in inches whatever the units, which say how a bare number is read and shown.
    `readings` are those of the tape, and `set_aside` the size that stood there before: nothing is
    built from them.
    """

    name: str
    units: Units
    measured: Mapping[str, Fraction]
    chosen: Mapping[str, Fraction]
    readings: Mapping[str, Readings] = field(default_factory=dict)
    set_aside: Mapping[str, Fraction] = field(default_factory=dict)

    @property
    def measurements(self) -> dict[str, Fraction]:
        """Everything that is given, and the defaults for the rest, by name.

        An opening that was measured in a glued frame stands for the dimension that it replaces.
        """
        openings = {
            cut: self.measured[name]
            for name, cut_to_it in OPENINGS.items()
            if name in self.measured
            for cut in cut_to_it
        }
        return {**DEFAULTS[self.units], **self.measured, **self.chosen, **openings}


def hive_of(name: str, units: Units, values: Mapping[str, Fraction]) -> Hive:
    """Hive whose values stand in the order of the file, each in its section."""
    measured, chosen = (
        {known.name: values[known.name] for known in in_section(group) if known.name in values}
        for group in SECTIONS
    )
    return Hive(name, units, measured, chosen)


def demo_hive() -> Hive:
    """Hive of an orchard apiary course, which is invented: 23 1/8 in by 17 3/8 in."""
    sizes = {"hive_length": Fraction(185, 8), "hive_width": Fraction(139, 8)}
    return Hive("Orchard hive", "inch", sizes, {})
