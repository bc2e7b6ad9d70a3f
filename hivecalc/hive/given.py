"""What a file or a call gives, collected value by value: what can be used, and what was meant."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final

from hivecalc.hive.faults import Fault, RefusedError
from hivecalc.hive.hive import Readings
from hivecalc.hive.measurements import BOX_SIZES, HIVE_SIZES, MEASUREMENTS, SECTIONS
from hivecalc.hive.texts import nearest, quoted
from hivecalc.hive.values import value_of
from hivecalc.length import Units

SIZES: Final = frozenset({*HIVE_SIZES, *BOX_SIZES, "frames"})
"""The measurements from which the size of the hive can come."""

_KNOWN: Final = "the known names stand in the file that `hivecalc new FILE` writes"


@dataclass
class Given:
    """Values by name, and the names that this file or call gives, even where wrongly.

    place makes a fault's place from a place within the file or call; units are None where the
    file's are not understood, and then no value is held against a range.
    """

    place: Callable[[str], str]
    units: Units | None
    values: dict[str, Fraction] = field(default_factory=dict)
    names: set[str] = field(default_factory=set)
    readings: Mapping[str, Readings] = field(default_factory=dict)
    set_aside: dict[str, Fraction] = field(default_factory=dict)

    def item(self, name: str, value: object, place: str) -> Iterator[Fault]:
        """Keep one value, or yield its fault."""
        self.names.add(name)
        self.values.pop(name, None)
        try:
            self.values[name] = value_of(MEASUREMENTS[name], value, self.units)
        except RefusedError as refused:
            yield Fault(place, *refused.args)

    def astray(self, name: str, place: str, where: str) -> Fault:
        """Fault of a measurement that does not stand in its section."""
        self.names.add(name)
        home = MEASUREMENTS[name].group
        return Fault(place, f"{name} stands {where}", f"put it in the section [{home}]")

    def unknown(
        self, name: str, place: str, known: Iterable[str] = MEASUREMENTS, accepted: str = _KNOWN
    ) -> Fault:
        """Fault of an unknown name, with the nearest known one, which is taken to be meant."""
        near = nearest(name, known)
        if near and near in MEASUREMENTS:
            self.names.add(near)
        if near in SECTIONS:
            self.doubt_size()
        hint = f"the nearest known name is {near}" if near else accepted
        return Fault(place, f"{quoted(name)} is no known name", hint)

    def doubt_size(self) -> None:
        """Take the size as given: it may stand in what could not be read, so none is missing."""
        self.names |= SIZES

    def place_of(self, *names: str) -> str:
        """Place of the first of these names that was given just now, else of the first."""
        name = next((name for name in names if name in self.names), names[0])
        return self.place(f"[{MEASUREMENTS[name].group}] {name}")
