"""A hive from its file, and a hive changed by a call: read with every fault told at once."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Final

from hivecalc.hive.faults import Fault, RefusedError, refuse
from hivecalc.hive.files import A_FILE, data_in, file_faults, system_faults, text_of
from hivecalc.hive.given import Given
from hivecalc.hive.hive import UNNAMED, Hive, hive_of
from hivecalc.hive.measurements import MEASUREMENTS, SECTIONS
from hivecalc.hive.readings import BESIDE, faults_beside
from hivecalc.hive.relations import faults_together
from hivecalc.hive.texts import nearest, quoted, seen, short
from hivecalc.hive.toml import toml_table
from hivecalc.hive.values import kind_of, line_of
from hivecalc.length import UNITS

_TOP: Final = ("name", "units")


def hive_from_file(path: str | Path) -> Hive:
    """Hive that a file holds.

    Raises HiveFaults with every fault, in the file's order, and for a file that cannot be read.
    """
    with system_faults(path, A_FILE):
        data = data_in(path)
    text = text_of(path, data)
    if not text.strip():
        raise file_faults(path, "this file is empty")
    return hive_from_text(text, str(path))


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
    file = seen(place)
    table = toml_table(text, file)
    units = table.get("units", "inch")
    known = units if units in UNITS else None
    given = Given(lambda where: f"{file}, {where}" if where else file, known)
    refuse(_faults_of_file(given, table), file)
    hive = hive_of(str(table.get("name", UNNAMED)), known or "inch", given.values)
    return replace(hive, readings=given.readings, set_aside=given.set_aside)


def changed(hive: Hive, settings: Mapping[str, str | Fraction]) -> Hive:
    """Hive with some measurements set to other values.

    >>> from hivecalc.hive import demo_hive
    >>> changed(demo_hive(), {"stud_thickness": "1 5/8"}).measured["stud_thickness"]
    Fraction(13, 8)
    >>> changed(demo_hive(), {"stud_thickness": "15"})
    Traceback (most recent call last):
    hivecalc.hive.faults.HiveFaults: --set stud_thickness: 15 in is too large; give 1 in to \
2 1/4 in, because a thinner stud splits at the screws, and a rough-sawn one is little over 2 in.

    A text is read in the hive's units; a Fraction is in inches. Raises HiveFaults with every fault.
    """
    old = {**hive.measured, **hive.chosen}
    given = Given(lambda where: _place_of_setting(where, settings), hive.units, old)
    refuse(_faults_of_settings(given, settings), "--set")
    new = hive_of(hive.name, hive.units, given.values)
    return replace(hive, measured=new.measured, chosen=new.chosen)


def _place_of_setting(where: str, settings: Mapping[str, str | Fraction]) -> str:
    name = where.rpartition(" ")[2]
    return f"--set {name}" if name in settings else where or "the hive"


def _faults_of_settings(given: Given, settings: Mapping[str, str | Fraction]) -> Iterator[Fault]:
    for name, value in settings.items():
        place = f"--set {short(name)}"
        if name in MEASUREMENTS:
            yield from given.item(name, value, place)
        elif name == "units":
            found = "a call sets measurements, and a hive's units stand in its file"
            yield Fault(place, found, "write a new one with `hivecalc new FILE --set units=mm`")
        else:
            yield given.unknown(name, place)
    yield from faults_together(given)


# ── the file, from its top down ───────────────────────────────────────────────────────────────


def _faults_of_file(given: Given, table: Mapping[str, object]) -> Iterator[Fault]:
    for key, value in table.items():
        if key == "name":
            yield from _title(given, value)
        elif key == "units":
            yield from _unit(given, value)
        elif key in SECTIONS:
            yield from _section(given, key, value)
        elif key in BESIDE:
            yield from faults_beside(given, key, value)
        else:
            yield from _strange(given, key, value)
    yield from faults_together(given)


def _title(given: Given, value: object) -> Iterator[Fault]:
    try:
        line_of(value, "the name")
    except RefusedError as refused:
        yield Fault(given.place("name"), *refused.args)


def _unit(given: Given, value: object) -> Iterator[Fault]:
    if value not in UNITS:
        found = quoted(value) if isinstance(value, str) else kind_of(value)
        yield Fault(
            given.place("units"), f"{found} is no unit of this file", 'write "inch" or "mm"'
        )


def _strange(given: Given, key: str, value: object) -> Iterator[Fault]:
    """Read what should not stand at the top of a file."""
    place = given.place(quoted(key))
    if key in MEASUREMENTS:
        yield given.astray(key, place, "outside of the sections")
    elif isinstance(value, dict):
        yield from _strange_section(given, key, value)
    else:
        names = (*_TOP, *SECTIONS, *MEASUREMENTS)
        yield given.unknown(key, place, names, "only name and units stand above the sections")


def _strange_section(given: Given, title: str, table: Mapping[str, object]) -> Iterator[Fault]:
    near = nearest(title, (*SECTIONS, *BESIDE))
    place = given.place(f"[{short(title)}]")
    all_sections = " and ".join(f"[{name}]" for name in SECTIONS)
    hint = f"the nearest is [{near}]" if near else f"the sections are {all_sections}"
    yield Fault(place, "there is no such section", hint)
    if near in SECTIONS:
        yield from _entries(given, near, table, place)
    else:
        given.doubt_size()


def _section(given: Given, group: str, table: object) -> Iterator[Fault]:
    place = given.place(f"[{group}]")
    if isinstance(table, dict):
        yield from _entries(given, group, table, place)
    else:
        given.doubt_size()
        accepted = f"write [{group}] on a line of its own"
        yield Fault(place, f"{kind_of(table)} stands here", accepted)


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
