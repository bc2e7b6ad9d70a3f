"""A hive as its file gives it: one value read or refused, and which values go together."""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final, TypeAlias

from hivecalc.hive.measurements import (
    ANSWERS,
    BOX_SIZES,
    DEFAULTS,
    HIVE_SIZES,
    MEASUREMENTS,
    OPENINGS,
    SECTIONS,
    SIZED_BY,
    Kind,
    Measurement,
    in_section,
)
from hivecalc.length import MM, LengthError, Units, in_units, length_from_text, with_unit
from hivecalc.support.faults import (
    LONGEST_NAME,
    Fault,
    RefusedError,
    nearest,
    nearest_or,
    quoted,
    steers,
)
from hivecalc.support.files import Number

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


def demo_hive(units: Units = "inch") -> Hive:
    """Hive of an orchard apiary course, which is invented: 23 1/8 in by 17 3/8 in.

    For a tape in mm it is 587 by 441 mm.
    """
    sizes = Fraction(185, 8), Fraction(139, 8)
    if units == "mm":
        sizes = 587 * MM, 441 * MM
    return Hive("Orchard hive", units, dict(zip(HIVE_SIZES, sizes, strict=True)), {})


# ── one value ─────────────────────────────────────────────────────────────────────────────────────


_TOO_LONG: Final = 10**9
_ACCEPTED: Final[Mapping[Kind, str]] = {
    "length": 'write a length like "3 1/2"',
    "count": "write a whole number like 10",
    "answer": 'write "yes" or "no"',
}
_A_LINE: Final = f"write 1 to {LONGEST_NAME} characters on one line"
_COUNT: Final = re.compile(r"[0-9]{1,6}")
_KINDS: Final = (
    (Number, "a number"),
    (str, "a text"),
    (bool, "true or false"),
    (int, "a number"),
    (list, "a list"),
    (dict, "a table"),
    (float, "a floating number"),
    (object, "a date or time"),
)


def value_of(known: Measurement, given: object, units: Units | None) -> Fraction:
    """Value that is given for a measurement, in inches; a Fraction is in inches already.

    Where the units are unknown, any size will do. Raises RefusedError.
    """
    value = given if isinstance(given, Fraction) else _read(known.kind, given, units or "inch")
    if known.kind == "answer" and value not in ANSWERS.values():
        raise RefusedError("this is neither yes nor no", _ACCEPTED["answer"])
    if known.kind != "length" and value.denominator > 1:
        raise RefusedError("this is not a whole number", _ACCEPTED["count"])
    lowest, highest = known.limits(units or "inch")
    if units and not lowest <= value <= highest:
        said, low, high = (said_with_unit(v, units, known.kind) for v in (value, lowest, highest))
        size = "small" if value < lowest else "large"
        accepted = f"give {low} to {high}, because {_clause(in_units(known.reason, units))}"
        raise RefusedError(f"{said} is too {size}", accepted)
    return value


def _clause(sentence: str) -> str:
    return sentence[0].lower() + sentence[1:].rstrip(".")


def _read(kind: Kind, given: object, units: Units) -> Fraction:
    accepted = _ACCEPTED[kind]
    if not isinstance(given, str | int) or isinstance(given, bool):
        raise RefusedError(f"{kind_of_value(given)} stands here", accepted)
    if isinstance(given, int) and abs(given) >= _TOO_LONG:
        raise RefusedError("this number has ten digits or more", accepted)
    text = str(given)
    if kind == "length":
        try:
            return length_from_text(text, units)
        except LengthError as error:
            found, _, accepted = str(error).rstrip(".").rpartition("; ")
            raise RefusedError(_clause(found), accepted) from None
    text = text.strip(" ")
    if kind == "answer":
        if text not in ANSWERS:
            raise RefusedError(f"{quoted(text)} is neither yes nor no", accepted)
        return ANSWERS[text]
    if not _COUNT.fullmatch(text):
        raise RefusedError(f"{quoted(text)} is not a whole number that can be counted", accepted)
    return Fraction(text)


def line_of(given: object, what: str = "the text") -> str:
    """Text on one line, such as a name or a currency.

    `what` is what a fault calls the text. Raises RefusedError for anything but a text, for one that
    is empty or has more than 80 characters, and for one with a control character in it.
    """
    if kind_of_value(given) != "a text":
        raise RefusedError(f"{kind_of_value(given)} stands here", f"{_A_LINE}, in quotes")
    text = str(given)
    if not text.strip():
        raise RefusedError(f"{what} is empty", _A_LINE)
    if len(text) > LONGEST_NAME:
        raise RefusedError(f"{what} has {len(text)} characters", _A_LINE)
    if any(map(steers, text)):
        raise RefusedError(f"{quoted(text)} has a control character in it", _A_LINE)
    return text.strip(" ")


def kind_of_value(given: object) -> str:
    """What a value is that should be something else."""
    return next(name for kind, name in _KINDS if isinstance(given, kind))


def answer_text(value: Fraction) -> str:
    """What an answer says."""
    return next(text for text, meant in ANSWERS.items() if meant == value)


def said_with_unit(value: Fraction, units: Units, kind: Kind = "length") -> str:
    """Value with its unit; one too long to be read by a person is only described.

    >>> said_with_unit(Fraction(29, 8), "inch"), said_with_unit(Fraction(10**12), "mm")
    ('3 5/8 in', 'a number of ten digits or more')
    """
    if abs(value) >= _TOO_LONG:
        return "a number of ten digits or more"
    if kind == "answer":
        return answer_text(value)
    if kind == "count":
        return str(value)
    return with_unit(units, value)


# ── what a file or a call gives ─────────────────────────────────────────────────────────────────

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
        return Fault(place, f"{quoted(name)} is not a known name", nearest_or(near, accepted))

    def doubt_size(self) -> None:
        """Take the size as given: it may stand in what could not be read, so none is missing."""
        self.names.update(SIZED_BY)

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

_RELATIONS: Final = (
    ("strip_narrow", "at most", "strip_wide", "its narrow side would be the wide one"),
    ("entrance_height", "less than", "stud_width", "the front rail would be ripped away"),
    ("rim_low_height", "at most", "stud_width", "the roof would slope to the front"),
    ("rim_back_thickness", "at most", "stud_thickness", "no stud would be thick enough"),
    ("lug_thickness", "at most", "rest_depth", "the lugs would stand above the box"),
    ("rest_overlap", "less than", "board_thickness", "the rest would cut off the board"),
    ("joint_depth", "less than", "board_thickness", "the rabbet would cut off the board"),
    ("mesh_margin", "less than", "strip_wide", "the mesh would end short of the strips"),
    ("bolt_diameter", "less than", "bolt_hole", "the bolt would not go through"),
    ("screw_offset", "at most", "screw_spacing", "no deck screw would have a place"),
)
"""Pairs of measurements, how the first must be beside the second, and what would be if not."""


def faults_together(given: Given) -> Iterator[Fault]:
    """Yield a fault for each size that is missing and for all values that do not go together."""
    meant = given.names | given.values.keys()
    for sizes, accepted in ((HIVE_SIZES, "both or neither"), (BOX_SIZES, "all three or none")):
        there = [name for name in sizes if name in meant]
        found = f"it is missing, and {' and '.join(there)} {('is', 'are')[len(there) > 1]} given"
        for name in sizes if there else ():
            if name not in meant:
                yield Fault(given.place_of(name), found, f"give {accepted}")
    if meant.isdisjoint(SIZED_BY):
        ways = "give hive_length and hive_width; or box_length, box_width and box_height; or frames"
        yield Fault(given.place(""), "the hive has no size", ways)
    if given.units:
        yield from _misfits(given, given.units)


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
    for small, limit, big, reason in _RELATIONS:
        less, equal = values[small] < values[big], values[small] == values[big]
        if refused.isdisjoint({small, big}) and not (less or (equal and limit == "at most")):
            found = " and ".join(
                f"{name} is {said(values[name])}{'' if name in given.values else ' (the default)'}"
                for name in (small, big)
            )
            accepted = f"{small} must be {limit} {big}, or {reason}"
            yield Fault(given.place_of(small, big), found, accepted)
