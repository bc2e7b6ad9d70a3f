"""What a file or a call gives: what can be used, what is meant, and which values go together."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final, Literal

from hivecalc.hive.hive import Readings, said_with_unit, value_of
from hivecalc.hive.measurements import BOX_SIZES, DEFAULTS, HIVE_SIZES, MEASUREMENTS, SECTIONS
from hivecalc.length import MM, Units
from hivecalc.support.faults import Fault, RefusedError, nearest, quoted

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
        return Fault(place, f"{quoted(name)} is not a known name", hint)

    def doubt_size(self) -> None:
        """Take the size as given: it may stand in what could not be read, so none is missing."""
        self.names |= SIZES

    def place_of(self, *names: str) -> str:
        """Place of the first of these names that was given just now, else of the first."""
        name = next((name for name in names if name in self.names), names[0])
        return self.place(f"[{MEASUREMENTS[name].group}] {name}")


# ── what the values say together ──────────────────────────────────────────────────────────────────


ROOM: Final[Mapping[Units, Fraction]] = {"inch": Fraction(4), "mm": 100 * MM}
"""Room that the hive's frame must have between its studs, both ways, by the hive's units.

Runners, panel and screen go in there; 4 in leave wood for each of them, whatever is chosen within
the measurements' ranges. Common practice, no published source.
"""

_WAYS_IN: Final = (
    "give hive_length and hive_width; or box_length, box_width and box_height; or frames"
)


@dataclass(frozen=True, slots=True)
class _Relation:
    """Two measurements, the first of which must be "less than" or "at most" the second."""

    small: str
    limit: Literal["less than", "at most"]
    big: str
    reason: str

    def holds(self, values: Mapping[str, Fraction]) -> bool:
        small, big = values[self.small], values[self.big]
        return small < big or (small == big and self.limit == "at most")


_RELATIONS: Final = (
    _Relation("strip_narrow", "at most", "strip_wide", "its narrow side would be the wide one"),
    _Relation("entrance_height", "less than", "stud_width", "the front rail would be ripped away"),
    _Relation("rim_low_height", "at most", "stud_width", "the roof would slope to the front"),
    _Relation("rim_back_thickness", "at most", "stud_thickness", "no stud would be thick enough"),
    _Relation("lug_thickness", "at most", "rest_depth", "the lugs would stand above the box"),
    _Relation("rest_overlap", "less than", "board_thickness", "the rest would cut off the board"),
    _Relation("joint_depth", "less than", "board_thickness", "the rabbet would cut off the board"),
    _Relation("mesh_margin", "less than", "strip_wide", "the mesh would end short of the strips"),
    _Relation("bolt_diameter", "less than", "bolt_hole", "the bolt would not go through"),
    _Relation("screw_offset", "at most", "screw_spacing", "no deck screw would have a place"),
)


def faults_together(given: Given) -> Iterator[Fault]:
    """Yield a fault for each size that is missing and for all values that do not go together."""
    meant = given.names | given.values.keys()
    yield from _halves(given, meant, HIVE_SIZES, "give both or neither")
    yield from _halves(given, meant, BOX_SIZES, "give all three or none")
    if meant.isdisjoint(SIZES):
        yield Fault(given.place(""), "the hive has no size", _WAYS_IN)
    if given.units:
        yield from _misfits(given, given.units)


def _halves(
    given: Given, meant: set[str], sizes: tuple[str, ...], accepted: str
) -> Iterator[Fault]:
    there = [name for name in sizes if name in meant]
    if there:
        found = f"it is missing, and {' and '.join(there)} {('is', 'are')[len(there) > 1]} given"
        for name in sizes:
            if name not in meant:
                yield Fault(given.place_of(name), found, accepted)


def _misfits(given: Given, units: Units) -> Iterator[Fault]:
    """Yield the faults of values that do not go together; with a refused one none is compared."""
    values = {**DEFAULTS[units], **given.values}
    refused = given.names - given.values.keys()

    def said(value: Fraction) -> str:
        return said_with_unit(value, units)

    stud = values["stud_thickness"]
    least = 2 * stud + ROOM[units]
    for name in HIVE_SIZES:
        if "stud_thickness" not in refused and values.get(name, least) < least:
            found = f"{said(values[name])} does not hold two studs of {said(stud)}"
            between = f"so that {said(ROOM[units])} are left between them for panel and screen"
            accepted = f"give at least {said(least)}, {between}"
            yield Fault(given.place_of(name, "stud_thickness"), found, accepted)
    for relation in _RELATIONS:
        small, big = relation.small, relation.big
        if refused.isdisjoint({small, big}) and not relation.holds(values):
            found = " and ".join(
                f"{name} is {said(values[name])}{'' if name in given.values else ' (the default)'}"
                for name in (small, big)
            )
            accepted = f"{small} must be {relation.limit} {big}, or {relation.reason}"
            yield Fault(given.place_of(small, big), found, accepted)
