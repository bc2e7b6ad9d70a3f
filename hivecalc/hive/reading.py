"""A hive from its file, and a hive changed by a call: read with every fault listed at once.

Beside the hive a file keeps readings of the tape, and a size that stood there before:

    [readings]
    hive_length = ["20 1/8", "20 3/16", "20 1/4"]
    diagonals = ["26 1/8", "26 3/16"]

    [set_aside]
    hive_length = "21 7/8"
    hive_width = "17 1/16"

A reading not taken yet is an empty text. Nothing is built from either section; both are read and
refused like all else.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Final

from hivecalc.hive.hive import (
    UNNAMED,
    Given,
    Hive,
    Readings,
    faults_together,
    hive_of,
    kind_of_value,
    line_of,
    value_of,
)
from hivecalc.hive.measurements import (
    HIVE_SIZES,
    MEASUREMENTS,
    SECTIONS,
    SIZED_BY,
    Measurement,
    entry,
)
from hivecalc.length import UNITS
from hivecalc.support.faults import (
    Fault,
    HiveFaults,
    RefusedError,
    escaped,
    nearest,
    nearest_or,
    quoted,
    raise_faults,
    short,
)
from hivecalc.support.files import file_faults, text_in, toml_table

_TOP: Final = ("name", "units")


def hive_from_file(path: str | Path) -> Hive:
    """Hive that a file holds.

    Raises HiveFaults with every fault, in the file's order, and for a file that cannot be read.
    """
    return hive_from_text(text_in(path), str(path))


def hive_from_text(text: str, place: str = "hive.toml") -> Hive:
    """Hive that the text of a hive file says.

    >>> from hivecalc.hive import demo_hive
    >>> hive_from_text('''
    ...     units = "mm"
    ...     [measured]
    ...     hive_length = 587.375
    ...     hive_width = "17 3/8 in"
    ... ''').measured == demo_hive().measured
    True

    place is what faults call the file. Raises HiveFaults with every fault, in the file's order.
    """
    file = escaped(place)
    table = toml_table(text, file)
    if _is_no_hive(table):
        raise file_faults(place, "nothing of a hive stands in this file")
    units = table.get("units", "inch")
    known = units if units in UNITS else None
    given = Given(lambda where: f"{file}, {where}" if where else file, known)
    raise_faults(_faults_of_file(given, table), file)
    hive = hive_of(str(table.get("name", UNNAMED)), known or "inch", given.values)
    return replace(hive, readings=given.readings, set_aside=given.set_aside)


def changed(hive: Hive, settings: Mapping[str, str | Fraction]) -> Hive:
    """Hive with some measurements set to other values.

    >>> from hivecalc.hive import demo_hive
    >>> changed(demo_hive(), {"stud_thickness": "1 5/8"}).measured["stud_thickness"]
    Fraction(13, 8)
    >>> changed(demo_hive(), {"stud_thickness": "15"})
    Traceback (most recent call last):
    hivecalc.support.faults.HiveFaults: --set stud_thickness: 15 in is too large; give 1 in to \
2 1/4 in, because a thinner stud splits at the screws, and a rough-sawn one is little over 2 in.

    A text is read in the hive's units; a Fraction is in inches. Raises HiveFaults with every fault.
    """
    old = {**hive.measured, **hive.chosen}

    def place(where: str) -> str:
        name = where.rpartition(" ")[2]
        return f"--set {name}" if name in settings else where or "the hive"

    given = Given(place, hive.units, old)
    raise_faults(_faults_of_settings(given, settings), "--set")
    new = hive_of(hive.name, hive.units, given.values)
    return replace(hive, measured=new.measured, chosen=new.chosen)


def _faults_of_settings(given: Given, settings: Mapping[str, str | Fraction]) -> Iterator[Fault]:
    for name, value in settings.items():
        place = f"--set {short(name)}"
        if name in MEASUREMENTS:
            yield from given.item(name, value, place)
        elif name in _TOP:
            found = f"a call sets measurements, and not a hive's {name}"
            new = "write a new one with `hivecalc new FILE --set units=mm`"
            yield Fault(place, found, new if name == "units" else "write it into its file")
        else:
            yield given.unknown(name, place)
    yield from faults_together(given)


# ── the file, from its top down ───────────────────────────────────────────────────────────────


def _faults_of_file(given: Given, table: Mapping[str, object]) -> Iterator[Fault]:
    for key, value in table.items():
        place = given.place(f"[{key}]")
        if key == "name":
            try:
                line_of(value, "the name")
            except RefusedError as refused:
                yield Fault(given.place("name"), *refused.args)
        elif key == "units":
            if value not in UNITS:
                found = quoted(value) if isinstance(value, str) else kind_of_value(value)
                not_known = f"{found} is not a unit of this file"
                yield Fault(given.place("units"), not_known, 'write "inch" or "mm"')
        elif key not in {*SECTIONS, *BESIDE}:
            yield from _strange(given, key, value)
        elif not isinstance(value, dict):
            if key in SECTIONS:
                given.doubt_size()
            accepted = f"write [{key}] on a line of its own"
            yield Fault(place, f"{kind_of_value(value)} stands here", accepted)
        elif key in SECTIONS:
            yield from _entries(given, key, value, place)
        else:
            yield from faults_beside(given, key, value)
    yield from faults_together(given)


def _is_no_hive(table: Mapping[str, object]) -> bool:
    """Whether a file is one of a yard, or of pieces, say: nothing in it is known of a hive."""
    names = table.keys() - {*_TOP}
    sections = (*SECTIONS, *BESIDE)
    return (
        bool(names)
        and names.isdisjoint((*sections, *MEASUREMENTS))
        and not any(nearest(name, sections) for name in names)
    )


def _strange(given: Given, key: str, value: object) -> Iterator[Fault]:
    """Read what should not stand at the top of a file."""
    if key in MEASUREMENTS:
        yield given.astray(key, given.place(quoted(key)), "outside of the sections")
    elif isinstance(value, dict):
        near = nearest(key, (*SECTIONS, *BESIDE))
        place = given.place(f"[{short(key)}]")
        all_ = " and ".join(f"[{name}]" for name in SECTIONS)
        hint = f"the nearest is [{near}]" if near else f"the sections are {all_}"
        yield Fault(place, "there is no such section", hint)
        if near in SECTIONS:
            yield from _entries(given, near, value, place)
        else:
            given.doubt_size()
    else:
        known = (*_TOP, *SECTIONS, *MEASUREMENTS)
        accepted = "only name and units stand above the sections"
        yield given.unknown(key, given.place(quoted(key)), known, accepted)


def _entries(
    given: Given, group: str, table: Mapping[str, object], section: str
) -> Iterator[Fault]:
    for name, value in table.items():
        place = f"{section} {short(name)}"
        if name in _TOP:
            yield Fault(place, f"{name} stands in [{group}]", "put it at the top of the file")
        elif name not in MEASUREMENTS:
            yield given.unknown(name, place)
        elif MEASUREMENTS[name].group != group:
            yield given.astray(name, place, f"in [{group}]")
        else:
            yield from given.item(name, value, place)


# ── what stands beside the hive ───────────────────────────────────────────────────────────────────


DIAGONALS: Final = entry(
    "diagonals",
    "11",
    "68",
    "The two diagonals of the hive, from front left and from front right.",
    "A hive of [8 in by 8 in has diagonals over 11 in, and one of 48 in by 48 in under 68 in|"
    "20 by 20 cm has diagonals over 28 cm, and one of 122 by 122 cm under 173 cm].",
)
KNOWN: Final[Mapping[str, tuple[Measurement, int]]] = {
    **{name: (MEASUREMENTS[name], 3) for name in HIVE_SIZES},
    DIAGONALS.name: (DIAGONALS, 2),
}
"""What has readings: what is read, and at how many places."""

BESIDE: Final = ("readings", "set_aside")
"""The sections that nothing is built from."""


def faults_beside(given: Given, section: str, table: Mapping[str, object]) -> Iterator[Fault]:
    """Keep what one of these sections says, and yield its faults."""
    known = tuple(KNOWN) if section == "readings" else SIZED_BY
    for name, value in table.items():
        place = f"{given.place(f'[{section}]')} {short(name)}"
        if name not in known:
            hint = nearest_or(nearest(name, known), f"write {', '.join(known)}")
            yield Fault(place, f"{quoted(name)} is not a known name here", hint)
        elif section == "readings":
            yield from _readings(given, name, value, place)
        else:
            try:
                given.set_aside[name] = value_of(MEASUREMENTS[name], value, given.units)
            except RefusedError as refused:
                yield Fault(place, *refused.args)


def _readings(given: Given, name: str, value: object, place: str) -> Iterator[Fault]:
    known, most = KNOWN[name]
    if not isinstance(value, list):
        instead = f"{kind_of_value(value)} stands here"
        yield Fault(place, instead, 'write a list like ["20 1/8", ""]')
    elif len(value) > most:
        yield Fault(place, f"it has {len(value)} readings", f"{most} are kept")
    else:
        found: list[Fraction | None] = []
        for number, one in enumerate(value, 1):
            try:
                found.append(None if one == "" else value_of(known, one, given.units))
            except RefusedError as refused:
                yield Fault(f"{place}, reading {number}", *refused.args)
        given.readings = _without_empty({**given.readings, name: tuple(found)})


def with_reading(hive: Hive, name: str, place: int, text: str) -> Hive:
    """Hive with one reading of a size kept at its place, or taken out where the text is empty.

    >>> from hivecalc.hive import demo_hive
    >>> with_reading(demo_hive(), "hive_length", 1, "23 1/16").readings["hive_length"]
    (None, Fraction(369, 16))

    Places are counted from 0. Raises HiveFaults for a text that can't be used.
    """
    known, most = KNOWN[name]
    old = hive.readings.get(name, ())
    found = [*old, *[None] * (most - len(old))]
    try:
        found[place] = value_of(known, text, hive.units) if text.strip() else None
    except RefusedError as refused:
        raise HiveFaults([Fault(name, *refused.args)]) from None
    return replace(hive, readings=_without_empty({**hive.readings, name: tuple(found)}))


def _without_empty(readings: Mapping[str, Readings]) -> dict[str, Readings]:
    """Readings in the file's order, without the places at the end that were not read yet."""
    kept = dict[str, Readings]()
    for name in KNOWN:
        read = [place for place, one in enumerate(readings.get(name, ()), 1) if one is not None]
        if read:
            kept[name] = readings[name][: read[-1]]
    return kept
