"""What a hive file keeps beside the hive: readings of the tape, and a size that stood there before.

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
from typing import Final

from hivecalc.hive.faults import Fault, HiveFaults, RefusedError
from hivecalc.hive.given import Given
from hivecalc.hive.hive import Hive, Readings
from hivecalc.hive.measurements import BOX_SIZES, HIVE_SIZES, MEASUREMENTS, Measurement
from hivecalc.hive.texts import nearest, quoted, short
from hivecalc.hive.values import kind_of, value_of
from hivecalc.length import UNITS

DIAGONALS: Final = Measurement(
    "diagonals",
    "measured",
    dict.fromkeys(UNITS),
    Fraction(11),
    Fraction(68),
    "The two diagonals of the hive, from front left and from front right.",
    "A hive of 8 in by 8 in has diagonals over 11 in, and one of 48 in by 48 in under 68 in.",
)
KNOWN: Final[Mapping[str, tuple[Measurement, int]]] = {
    **{name: (MEASUREMENTS[name], 3) for name in HIVE_SIZES},
    DIAGONALS.name: (DIAGONALS, 2),
}
"""What has readings: what is read, and at how many places."""

SIZES_IN_ORDER: Final = (*HIVE_SIZES, *BOX_SIZES, "frames")
"""What can be set aside: the sizes from which a hive can come."""
BESIDE: Final = ("readings", "set_aside")
"""The sections that nothing is built from."""


def faults_beside(given: Given, section: str, table: object) -> Iterator[Fault]:
    """Keep what one of these sections says, and yield its faults."""
    place = given.place(f"[{section}]")
    if not isinstance(table, dict):
        yield Fault(
            place, f"{kind_of(table)} stands here", f"write [{section}] on a line of its own"
        )
        return
    known = tuple(KNOWN) if section == "readings" else SIZES_IN_ORDER
    for name, value in table.items():
        there = f"{place} {short(name)}"
        if name not in known:
            near = nearest(name, known)
            hint = f"the nearest known name is {near}" if near else f"write {', '.join(known)}"
            yield Fault(there, f"{quoted(name)} is no known name here", hint)
        elif section == "readings":
            yield from _readings(given, name, value, there)
        else:
            yield from _set_aside(given, name, value, there)


def _readings(given: Given, name: str, value: object, place: str) -> Iterator[Fault]:
    known, most = KNOWN[name]
    if not isinstance(value, list):
        yield Fault(place, f"{kind_of(value)} stands here", 'write a list like ["20 1/8", ""]')
        return
    if len(value) > most:
        yield Fault(place, f"it has {len(value)} readings", f"{most} are kept")
        return
    found: list[Fraction | None] = []
    for number, one in enumerate(value, 1):
        try:
            found.append(None if one == "" else value_of(known, one, given.units))
        except RefusedError as refused:
            yield Fault(f"{place}, reading {number}", *refused.args)
    given.readings = _without_empty({**given.readings, name: tuple(found)})


def _set_aside(given: Given, name: str, value: object, place: str) -> Iterator[Fault]:
    try:
        given.set_aside[name] = value_of(MEASUREMENTS[name], value, given.units)
    except RefusedError as refused:
        yield Fault(place, *refused.args)


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
        found = readings.get(name, ())
        while found and found[-1] is None:
            found = found[:-1]
        if found:
            kept[name] = found
    return kept
