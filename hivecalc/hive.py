"""The hive file: what the builder measured and chose, read with every fault told at once.

A hive file is TOML. Numbers in it are never floats: `23.125` is read as it is written, exactly.
"""

import errno
import os
import stat
import unicodedata
from collections.abc import Callable, Iterable, Iterator, Mapping, MutableMapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice
from pathlib import Path
from typing import Final, Literal, TypeAlias, cast

from hivecalc.length import (
    LONGEST,
    LengthError,
    Units,
    decimal_inches,
    length_from_text,
    millimetres,
    written,
)

Group: TypeAlias = Literal["measured", "chosen"]
Kind: TypeAlias = Literal["length", "count"]

# ── the measurements ──────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True, slots=True)
class Measurement:
    """One line of the hive file: its name, default, accepted range, and what it means.

    >>> MEASUREMENTS["stud_width"].default
    Fraction(7, 2)
    >>> print(MEASUREMENTS["stud_width"].meaning)
    Width of a stud, the wide way, as measured.

    Lengths are in inches; a count is a whole number. default is None where only the builder knows.
    """

    name: str
    group: Group
    default: Fraction | None
    low: Fraction
    high: Fraction
    meaning: str
    reason: str
    kind: Kind = "length"


# A row: name, default ("" where there is none), lowest, highest, meaning, reason for the range.
# Defaults and ranges are common practice, no published source, unless a comment says more.
_Row: TypeAlias = tuple[str, str, str, str, str, str]

_A_HIVE: Final = "A hive is bigger than its frame of studs and smaller than a sheet of plywood."
_A_BOX: Final = (
    "The box holds at least two frames and goes into a hive smaller than a plywood sheet."
)
_SAWN_STRIP: Final = "The strips are ripped from one stud and still have to take a brad."
_PLYWOOD: Final = "Thinner plywood bends, and thicker makes the hive too heavy to lift."

_MEASURED: Final[tuple[_Row, ...]] = (
    ("hive_length", "", "8", "48",
     "Outside length of the hive where the box stands, front to back.", _A_HIVE),
    ("hive_width", "", "8", "48",
     "Outside width of the hive where the box stands, side to side.", _A_HIVE),
    # A dry 2x4 is 1 1/2 by 3 1/2 in: American Softwood Lumber Standard PS 20-20, Table 3.
    ("stud_thickness", "1 1/2", "1", "2 1/4",
     "Thickness of a stud, the thin way, as measured.",
     "A thinner stud splits at the screws, and a rough-sawn one is little over 2 in."),
    ("stud_width", "3 1/2", "2", "7 1/4",
     "Width of a stud, the wide way, as measured.",
     "Runners, panel and screen go into this height, and wider studs are hard to lift."),
    ("strip_narrow", "1/2", "1/4", "1",
     "Narrow side of the strip that serves as runner, screen frame and retainer.", _SAWN_STRIP),
    ("strip_wide", "3/4", "3/8", "1 1/4",
     "Wide side of the same strip.", _SAWN_STRIP),
    ("foam_thickness", "1", "1/2", "3",
     "Thickness of the foam board, as measured.",
     "Foam board for building is sold in these thicknesses."),
    ("mesh_thickness", "0.034", "0.01", "1/8",
     "Thickness of the mesh where two wires cross.",
     "Thinner wire is fly screen that bees chew through, and thicker lets bees pass between."),
    ("deck_thickness", "1/2", "1/4", "1",
     "Thickness of the plywood of the roof's deck, as measured.", _PLYWOOD),
    ("skirt_thickness", "1/2", "1/8", "1",
     "Thickness of the plywood of the roof's skirt, as measured.", _PLYWOOD),
    ("sheet_thickness", "1/4", "1/16", "3/4",
     "Thickness of the inner cover's sheets, as measured.", _PLYWOOD),
    ("skin_thickness", "1/2", "1/8", "1",
     "Thickness of the sleeve's plywood skin, as measured.", _PLYWOOD),
    ("board_thickness", "3/4", "3/8", "1 3/4",
     "Thickness of the boards of the box, as measured.",
     "A thinner board does not hold the frames' rest, and a thicker one is a stud."),
    # Corrugated plastic of 4 mm is nearly 5/32 in.
    ("cover_thickness", "5/32", "1/64", "1/2",
     "Thickness of the waterproof sheet on the roof, as measured.",
     "Sheet metal is the thinnest cover, and a 1 in screw must reach through cover and deck."),
    ("box_length", "", "6", "46",
     "Outside length of a single-wall box to be sleeved, front to back.", _A_BOX),
    ("box_width", "", "4", "46",
     "Outside width of a single-wall box to be sleeved, side to side.", _A_BOX),
    ("box_height", "", "4", "16",
     "Height of a single-wall box to be sleeved.",
     "A box holds a frame in its height, and a higher one full of honey cannot be lifted."),
    ("top_bar", "19", "8", "24",
     "Length of a frame's top bar, with both lugs.",
     "Frames from the smallest breeding box to the longest hives have such top bars."),
    ("frame_depth", "9 1/8", "3", "14",
     "Height of a whole frame.",
     "The shallowest honey frame and the deepest brood frame are within it."),
    ("lug_thickness", "3/8", "1/8", "3/4",
     "Thickness of the frame's lug where it rests on the box.",
     "A thinner lug breaks under honey, and a thicker one does not fit a rest."),
)  # fmt: skip

_CHOSEN: Final[tuple[_Row, ...]] = (
    ("slot_ease", "1/8", "1/32", "1/2",
     "Height of the panel's slot beyond the foam's thickness.",
     "Without ease the panel sticks, and with too much of it bees get round the panel."),
    ("panel_gap", "1/4", "1/16", "1",
     "Gap of the panel in its opening, both sides together.",
     "The loose panel must slide when wood has swollen, and still close the opening."),
    ("screen_gap", "1/8", "1/32", "1/2",
     "Gap of the screen in its opening, both sides together.",
     "The screen must slide, but bees must not pass beside it."),
    ("runner_gap", "1/2", "1/16", "1",
     "How far runners stop short, both ends together.",
     "Runners must not press against the rails, and must carry the panel to its ends."),
    ("entrance_height", "3/4", "1/4", "2 1/2",
     "Height ripped off the top of the front rail for the entrance.",
     "A bee needs about 1/4 in to pass, and the front rail needs height left to hold screws."),
    ("front_stop_height", "1/4", "1/8", "1",
     "Height of the thin strip on the front of the screen's upper frame.",
     "A thinner strip splits, and a higher one closes the entrance."),
    ("overhang", "2", "3/4", "6",
     "How far the roof's deck reaches beyond the hive, each side.",
     "The deck must reach beyond the rim, and too wide a deck catches the wind."),
    ("cap_clearance", "1/2", "1/8", "1",
     "How much bigger than the hive the roof's rim is, both sides together.",
     "The roof must come off when wood has swollen, and must not shift about."),
    ("rim_low_height", "1 1/2", "1/2", "6",
     "Height of the roof's tapered side at the back, its low end.",
     "The low end still has to hold a screw, and must stay below the stud's width."),
    ("rim_back_thickness", "1", "1/2", "2 1/4",
     "Thickness of the rim's back rail, which is ripped thin.",
     "A thinner rail does not hold the deck's screws, and a stud is no thicker."),
    ("skirt_width", "2", "3/4", "8",
     "Width of the roof's skirt, from the deck's underside down.",
     "The skirt covers the rim and laps the box, and a wider one hinders lifting."),
    ("cover_lip", "1/2", "1/8", "2",
     "How far the waterproof sheet reaches beyond the deck, each side.",
     "Without a lip water runs back under the deck, and a long lip breaks off."),
    ("inner_rim_height", "1/2", "1/4", "2",
     "Height of the inner cover's rim between its two sheets.",
     "Lower than 1/4 in no bee can pass through the notch, and higher is filled with comb."),
    ("inner_notch", "2", "1/2", "3",
     "Length of the notch in the inner cover's front rim.",
     "Bees need room to pass, and the rim needs wood on both sides of the notch."),
    ("edge_strip_height", "3/4", "3/8", "1 1/2",
     "Height of the strips that close the sleeve's foam at top and bottom.",
     "A lower strip splits, and higher ones leave no room for foam."),
    ("frames", "10", "2", "30",
     "Number of frames in the box: give it to build the box from the frames outwards.",
     "Two frames make the smallest colony, and more than thirty do not go into a hive of 48 in."),
    ("frame_spacing", "1 3/8", "1 1/4", "2",
     "Width that one frame takes, from centre to centre.",
     "Closer frames leave bees no way between, and wider ones get extra comb."),
    ("frame_play", "1", "1/8", "2",
     "Room beyond the frames across the box, to lift the first one out.",
     "Without play no frame comes out, and bees fill more than that with comb."),
    ("rest_overlap", "3/8", "1/4", "3/4",
     "How far each end of a frame rests on the box.",
     "With less a frame falls off its rest, and with more the board is cut through."),
    ("rest_ease", "1/8", "1/32", "1/2",
     "Ease of the frame between its two rests.",
     "Without ease the frame sticks, and with more it slips off."),
    ("rest_depth", "5/8", "1/8", "1 1/2",
     "Depth of the rest below the top of the box.",
     "The lug lies in the rest, and bees must find no more than a bee space over it."),
    ("space_below", "1/4", "0", "1",
     "Space between the frames and the bottom of the box.",
     "None is needed where the frames end flush, and more is filled with comb."),
    ("joint_depth", "3/8", "0", "1 1/2",
     "Depth of the rabbet in the box's corner joints, or 0 for a butt joint.",
     "The rabbet must leave wood in the board."),
)  # fmt: skip


def _measurement(group: Group, row: _Row) -> Measurement:
    name, default, low, high, meaning, reason = row
    value = length_from_text(default) if default else None
    kind: Kind = "count" if name == "frames" else "length"
    ends = length_from_text(low), length_from_text(high)
    return Measurement(name, group, value, *ends, meaning, reason, kind)


MEASUREMENTS: Final[Mapping[str, Measurement]] = {
    known.name: known
    for known in (
        *(_measurement("measured", row) for row in _MEASURED),
        *(_measurement("chosen", row) for row in _CHOSEN),
    )
}
"""Every name that a hive file may give, in the order of the file."""

SECTIONS: Final[tuple[Group, ...]] = ("measured", "chosen")
UNITS: Final[tuple[Units, ...]] = ("inch", "mm")
HIVE_SIZES: Final = ("hive_length", "hive_width")
BOX_SIZES: Final = ("box_length", "box_width", "box_height")
LONGEST_NAME: Final = 80
COUNT_DIGITS: Final = 6
UNNAMED: Final = "My hive"

_DEFAULTS: Final = {
    name: known.default for name, known in MEASUREMENTS.items() if known.default is not None
}

# ── faults ────────────────────────────────────────────────────────────────────────────────────

MOST_FAULTS: Final = 100


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault of the input: where it stands, what was found there, and what is accepted.

    >>> print(Fault("hive.toml, units", "“cm” is no unit of this file", 'write "inch" or "mm"'))
    hive.toml, units: “cm” is no unit of this file; write "inch" or "mm".
    """

    place: str
    found: str
    accepted: str

    def __str__(self) -> str:
        """Return the fault as one sentence."""
        return f"{self.place}: {self.found}; {self.accepted}."


class HiveFaults(ValueError):  # noqa: N818 - it carries several faults, and is named for them
    """All faults of one input, told at once.

    >>> hive_from_text("measured.hive_length = 20")
    Traceback (most recent call last):
    hivecalc.hive.HiveFaults: hive.toml, [measured] hive_width: it is missing, and hive_length \
is given; give both or neither.
    """

    faults: tuple[Fault, ...]

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(map(str, self.faults)))


class _RefusedError(ValueError):
    """A value that is not accepted: what was found, and what would be accepted."""

    def __init__(self, found: str, accepted: str) -> None:
        self.found, self.accepted = found, accepted
        super().__init__(found, accepted)


def _seen(text: str) -> str:
    """Return a text with what could not be seen, or could steer a terminal, as an escape."""
    return text if text.isprintable() else "".join(map(_seen_sign, text))


def _seen_sign(sign: str) -> str:
    return sign if sign.isprintable() else sign.encode("unicode_escape").decode("ascii")


def _quoted(text: str, most: int = 40) -> str:
    return f"“{_seen(text[:most])}{'…' if len(text) > most else ''}”"


def _nearest(name: str, known: Iterable[str]) -> str | None:
    import difflib  # noqa: PLC0415 - only a misspelt name needs it

    near = difflib.get_close_matches(name, known, n=1) if len(name) <= LONGEST_NAME else []
    return near[0] if near else None


def _said(value: Fraction, units: Units, kind: Kind = "length") -> str:
    """Return a value with its unit; one too long to be read by a person is only described."""
    if abs(value) >= 10**9:
        return "a number of ten digits or more"
    if kind == "count":
        return str(value)
    return f"{written(value, units)} {'mm' if units == 'mm' else 'in'}"


# ── the hive ──────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Hive:
    """A hive as its file gives it: name, units, what was measured and what was chosen.

    >>> hive = hive_from_text('measured = {hive_length = "23 1/8", hive_width = 17.375}')
    >>> hive.measured["hive_width"], hive.measurements["stud_width"]
    (Fraction(139, 8), Fraction(7, 2))
    >>> hive.components
    ('bottom_board', 'roof', 'inner_cover')

    Lengths are in inches whatever the units, which say how a bare number is read and shown.
    """

    name: str
    units: Units
    measured: Mapping[str, Fraction]
    chosen: Mapping[str, Fraction]

    @property
    def measurements(self) -> dict[str, Fraction]:
        """Everything that is given, and the defaults for the rest, by name.

        >>> len(demo_hive().measurements)
        40
        """
        return {**_DEFAULTS, **self.measured, **self.chosen}

    @property
    def components(self) -> tuple[str, ...]:
        """Names of the components that are built.

        >>> changed(demo_hive(), {"frames": "10"}).components
        ('bottom_board', 'roof', 'inner_cover', 'box', 'sleeve')

        The box is built where frames are given; the sleeve where the hive is made round a box, that
        is, where a box or frames are given and the hive is not given as big as that box.
        """
        box = ("box",) if "frames" in self.chosen else ()
        sleeve = ("sleeve",) if self._is_sleeved() else ()
        return ("bottom_board", "roof", "inner_cover", *box, *sleeve)

    def _is_sleeved(self) -> bool:
        if "box_length" not in self.measured:
            return "frames" in self.chosen
        hive = [self.measured.get(name) for name in HIVE_SIZES]
        return hive != [self.measured.get(name) for name in BOX_SIZES[:2]]


def _hive(name: str, units: Units, values: Mapping[str, Fraction]) -> Hive:
    """Return a hive whose values stand in the order of the file."""
    measured, chosen = (
        {known.name: values[known.name] for known in _group(group) if known.name in values}
        for group in SECTIONS
    )
    return Hive(name, units, measured, chosen)


def _group(group: Group) -> list[Measurement]:
    return [known for known in MEASUREMENTS.values() if known.group == group]


def demo_hive() -> Hive:
    """Hive of an orchard apiary course, which is invented: 23 1/8 in by 17 3/8 in.

    >>> demo_hive().name
    'Orchard hive'
    """
    sizes = {"hive_length": Fraction(185, 8), "hive_width": Fraction(139, 8)}
    return Hive("Orchard hive", "inch", sizes, {})


# ── one value ─────────────────────────────────────────────────────────────────────────────────


class _Number(str):
    """A decimal number as it stands in the file, so that it stays exact."""

    __slots__ = ()


_KINDS: Final = (
    (bool, "true or false"),
    (list, "a list"),
    (dict, "a table"),
    (float, "a floating number"),
    (object, "a date or time"),
)


def _value(known: Measurement, given: object, units: Units | None) -> Fraction:
    """Return the value that is given, in inches; where the units are unknown, any size will do."""
    value = _count(given) if known.kind == "count" else _length(given, units or "inch")
    if units and not known.low <= value <= known.high:
        size = "small" if value < known.low else "large"
        found = f"{_said(value, units, known.kind)} is too {size}"
        raise _RefusedError(found, f"give {_range(known, units)}, because {_clause(known.reason)}")
    return value


def _range(known: Measurement, units: Units) -> str:
    low, high = (_said(end, units, known.kind) for end in (known.low, known.high))
    return f"{low} to {high}"


def _clause(sentence: str) -> str:
    return sentence[0].lower() + sentence[1:].rstrip(".")


def _length(given: object, units: Units) -> Fraction:
    if isinstance(given, Fraction):
        return given
    text = _text(given, 'write a length like "3 1/2"')
    try:
        return length_from_text(text, units)
    except LengthError as error:
        found, _, accepted = str(error).rstrip(".").rpartition("; ")
        raise _RefusedError(_clause(found), accepted) from None


def _count(given: object) -> Fraction:
    accepted = "write a whole number like 10"
    if isinstance(given, Fraction):
        if given.denominator > 1:
            raise _RefusedError("this is not a whole number", accepted)
        return given
    text = _text(given, accepted).strip(" ")
    if not (text.isascii() and text.isdigit() and len(text) <= COUNT_DIGITS):
        raise _RefusedError(f"{_quoted(text)} is not a whole number that can be counted", accepted)
    return Fraction(int(text))


def _text(given: object, accepted: str) -> str:
    """Return the text of a value that is a text or a number."""
    if isinstance(given, str):
        return given
    if isinstance(given, int) and not isinstance(given, bool):
        if abs(given) >= 10**9:
            raise _RefusedError("this number has ten digits or more", accepted)
        return str(given)
    raise _RefusedError(f"{_kind(given)} stands here", accepted)


def _kind(given: object) -> str:
    if isinstance(given, (str, int)) and not isinstance(given, bool):
        return "a number" if isinstance(given, (_Number, int)) else "a text"
    return next(name for kind, name in _KINDS if isinstance(given, kind))


def _fault_of_name(name: str) -> str:
    if not name.strip():
        return "the name is empty"
    if len(name) > LONGEST_NAME:
        return f"the name has {len(name)} characters"
    if any(map(_steers, name)):
        return f"{_quoted(name)} has a control character in it"
    return ""


_TURNS: Final = frozenset({"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"})
_UNREADABLE: Final = frozenset({"Cc", "Cs", "Zl", "Zp"})
_NO_CHARACTER: Final = 0xFFFE  # the last two of each plane are none: Unicode Standard, 23.7


def _steers(sign: str) -> bool:
    """Return whether a character breaks the line, turns the text round, or is none at all."""
    return (
        unicodedata.category(sign) in _UNREADABLE
        or unicodedata.bidirectional(sign) in _TURNS
        or ord(sign) & _NO_CHARACTER == _NO_CHARACTER
    )


# ── relations between values ──────────────────────────────────────────────────────────────────


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
    _Relation("rim_low_height", "less than", "stud_width", "the roof would not slope to the back"),
    _Relation("rim_back_thickness", "at most", "stud_thickness", "no stud would be thick enough"),
    _Relation("lug_thickness", "at most", "rest_depth", "the lugs would stand above the box"),
    _Relation("rest_overlap", "less than", "board_thickness", "the rest would cut off the board"),
    _Relation("joint_depth", "less than", "board_thickness", "the rabbet would cut off the board"),
)
_WAYS_IN: Final = (
    "give hive_length and hive_width; or box_length, box_width and box_height; or frames"
)
ROOM: Final = Fraction(4)
"""Room that the hive's frame must have between its studs, both ways.

Runners, panel and screen go in there; 4 in leave wood for each of them, whatever is chosen within
the ranges above. Common practice, no published source.
"""


# ── reading ───────────────────────────────────────────────────────────────────────────────────


class _Reader:
    """Reads the items of a file or a call one by one: keeps the values, yields the faults."""

    def __init__(self, place: Callable[[str], str], units: Units | None) -> None:
        self.place, self.units = place, units
        self.values: dict[str, Fraction] = {}
        self.meant: set[str] = set()  # names that are given, even where wrongly
        self.fresh: set[str] = set()  # names among them that this file or call gives
        self.size_is_clear = True

    def item(self, name: str, given: object, place: str) -> Iterator[Fault]:
        """Keep one value, or yield its fault."""
        self.mean(name)
        self.values.pop(name, None)
        try:
            self.values[name] = _value(MEASUREMENTS[name], given, self.units)
        except _RefusedError as refused:
            yield Fault(place, refused.found, refused.accepted)

    def mean(self, name: str) -> None:
        self.meant.add(name)
        self.fresh.add(name)

    def unknown(self, name: str, place: str) -> Fault:
        near = _nearest(name, MEASUREMENTS)
        if near:
            self.mean(near)
        known = "the known names stand in the file that `hivecalc new FILE` writes"
        accepted = f"the nearest known name is {near}" if near else known
        return Fault(place, f"{_quoted(name)} is no known name", accepted)

    # The file

    def sheet(self, table: Mapping[str, object]) -> Iterator[Fault]:
        """Read a whole file."""
        for key, value in table.items():
            if key == "name":
                yield from self.title(value)
            elif key == "units":
                yield from self.unit(value)
            else:
                yield from self.top(key, value)
        yield from self.whole()

    def title(self, value: object) -> Iterator[Fault]:
        is_text = isinstance(value, str) and not isinstance(value, _Number)
        found = _fault_of_name(str(value)) if is_text else f"{_kind(value)} stands here"
        if found:
            accepted = f"write a name of 1 to {LONGEST_NAME} characters in quotes, on one line"
            yield Fault(self.place("name"), found, accepted)

    def unit(self, value: object) -> Iterator[Fault]:
        if value not in UNITS:
            found = _quoted(value) if isinstance(value, str) else _kind(value)
            found = f"{found} is no unit of this file"
            yield Fault(self.place("units"), found, 'write "inch" or "mm"')

    def top(self, key: str, value: object) -> Iterator[Fault]:
        """Read what stands at the top of the file beside name and units: the sections."""
        if key in SECTIONS:
            yield from self.section(key, key, value)
        elif key in MEASUREMENTS:
            self.mean(key)
            yield self.astray(key, self.place(_quoted(key)), "outside of the sections")
        elif isinstance(value, dict):
            yield from self.strange_section(key, value)
        else:
            yield self.strange_key(key)

    def strange_section(self, key: str, value: object) -> Iterator[Fault]:
        near = _nearest(key, SECTIONS)
        self.size_is_clear &= near is not None
        hint = f"the nearest is [{near}]" if near else "the sections are [measured] and [chosen]"
        yield Fault(self.place(f"[{_seen(key[:40])}]"), "there is no such section", hint)
        if near:
            yield from self.section(key, cast("Group", near), value)

    def strange_key(self, key: str) -> Fault:
        near = _nearest(key, ("name", "units", *SECTIONS, *MEASUREMENTS))
        if near and near in MEASUREMENTS:
            self.mean(near)
        self.size_is_clear &= near not in SECTIONS
        above = "only name and units stand above the sections"
        accepted = f"the nearest known name is {near}" if near else above
        return Fault(self.place(_quoted(key)), f"{_quoted(key)} is no known name", accepted)

    def section(self, title: str, group: Group, table: object) -> Iterator[Fault]:
        """Read a section, whose title may be misspelt."""
        place = self.place(f"[{_seen(title[:40])}]")
        if not isinstance(table, dict):
            self.size_is_clear = False
            yield Fault(
                place, f"{_kind(table)} stands here", f"write [{title}] on a line of its own"
            )
            return
        for name, given in table.items():
            yield from self.entry(group, name, given, f"{place} {_seen(name[:40])}")

    def entry(self, group: Group, name: str, given: object, place: str) -> Iterator[Fault]:
        known = MEASUREMENTS.get(name)
        if known and known.group == group:
            yield from self.item(name, given, place)
        elif known:
            self.mean(name)
            yield self.astray(name, place, f"in [{group}]")
        elif name in {"name", "units"}:
            yield Fault(place, f"{name} stands in [{group}]", "put it at the top of the file")
        else:
            yield self.unknown(name, place)

    def astray(self, name: str, place: str, where: str) -> Fault:
        home = MEASUREMENTS[name].group
        return Fault(place, f"{name} stands {where}", f"put it in the section [{home}]")

    # The whole hive

    def whole(self) -> Iterator[Fault]:
        """Look at what the values say together: the hive's size, and how they relate."""
        yield from self.halves(HIVE_SIZES, "both or neither")
        yield from self.halves(BOX_SIZES, "all three or none")
        if self.size_is_clear and self.meant.isdisjoint({*HIVE_SIZES, *BOX_SIZES, "frames"}):
            yield Fault(self.place(""), "the hive has no size", _WAYS_IN)
        if self.units:
            yield from self.relations(self.units)

    def halves(self, names: tuple[str, ...], accepted: str) -> Iterator[Fault]:
        given = [name for name in names if name in self.meant]
        missing = [name for name in names if name not in self.meant]
        if given and missing and self.size_is_clear:
            verb = ("is", "are")[len(given) > 1]
            found = f"it is missing, and {' and '.join(given)} {verb} given"
            for name in missing:
                yield Fault(self.place_of(name), found, f"give {accepted}")

    def relations(self, units: Units) -> Iterator[Fault]:
        values = {**_DEFAULTS, **self.values}
        doubtful = self.meant - self.values.keys()
        for name in HIVE_SIZES:
            if name in values and doubtful.isdisjoint({name, "stud_thickness"}):
                yield from self.room(name, values, units)
        for rule in _RELATIONS:
            if doubtful.isdisjoint({rule.small, rule.big}):
                yield from self.order(rule, values, units)

    def room(self, name: str, values: Mapping[str, Fraction], units: Units) -> Iterator[Fault]:
        stud = values["stud_thickness"]
        if values[name] < 2 * stud + ROOM:
            found = f"{_said(values[name], units)} does not hold two studs of {_said(stud, units)}"
            accepted = f"give at least {_said(2 * stud + ROOM, units)}, so that"
            room = f"{_said(ROOM, units)} are left between them for panel and screen"
            yield Fault(self.place_of(name, "stud_thickness"), found, f"{accepted} {room}")

    def order(
        self, rule: _Relation, values: Mapping[str, Fraction], units: Units
    ) -> Iterator[Fault]:
        if not rule.holds(values):
            said = (
                f"{name} is {self.told(name, values, units)}" for name in (rule.small, rule.big)
            )
            accepted = f"{rule.small} must be {rule.limit} {rule.big}, or {rule.reason}"
            yield Fault(self.place_of(rule.small, rule.big), " and ".join(said), accepted)

    def told(self, name: str, values: Mapping[str, Fraction], units: Units) -> str:
        default = "" if name in self.values else " (the default)"
        return _said(values[name], units) + default

    def place_of(self, *names: str) -> str:
        """Return the place of the first name that was given just now, else of the first."""
        name = next((name for name in names if name in self.fresh), names[0])
        return self.place(f"[{MEASUREMENTS[name].group}] {name}")


def _no_faults(faults: Iterator[Fault], place: str) -> None:
    """Raise HiveFaults where there are any; of very many only the first are told."""
    told = tuple(islice(faults, MOST_FAULTS))
    if next(faults, None):
        told += (Fault(place, "there are more faults than these", "mend these first"),)
    if told:
        raise HiveFaults(told)


def hive_from_text(text: str, place: str = "hive.toml") -> Hive:
    """Hive that the text of a hive file says.

    >>> hive_from_text('''
    ...     units = "mm"
    ...     [measured]
    ...     hive_length = 587.375
    ...     hive_width = "17 3/8 in"
    ... ''').measured == demo_hive().measured
    True

    place is what faults call the file. Raises HiveFaults with every fault, in the file's order.
    """
    file = _seen(place)
    table = _table(text, file)
    units = table.get("units", "inch")
    known = units if units in UNITS else None
    reader = _Reader(lambda where: f"{file}, {where}" if where else file, known)
    _no_faults(reader.sheet(table), file)
    return _hive(str(table.get("name", UNNAMED)), known or "inch", reader.values)


def changed(hive: Hive, settings: Mapping[str, str | Fraction]) -> Hive:
    """Hive with some measurements set to other values.

    >>> changed(demo_hive(), {"stud_thickness": "1 5/8"}).measured["stud_thickness"]
    Fraction(13, 8)
    >>> changed(demo_hive(), {"stud_thickness": "15"})
    Traceback (most recent call last):
    hivecalc.hive.HiveFaults: --set stud_thickness: 15 in is too large; give 1 in to 2 1/4 in, \
because a thinner stud splits at the screws, and a rough-sawn one is little over 2 in.

    A text is read in the hive's units; a Fraction is in inches. Raises HiveFaults with every fault.
    """
    reader = _Reader(lambda where: _set_place(where, settings), hive.units)
    reader.values = {**hive.measured, **hive.chosen}
    reader.meant = set(reader.values)
    _no_faults(_setting_faults(reader, settings), "--set")
    return _hive(hive.name, hive.units, reader.values)


def _set_place(where: str, settings: Mapping[str, str | Fraction]) -> str:
    name = where.rpartition(" ")[2]
    return f"--set {name}" if name in settings else where or "the hive"


def _setting_faults(reader: _Reader, settings: Mapping[str, str | Fraction]) -> Iterator[Fault]:
    for name, given in settings.items():
        place = f"--set {_seen(name[:40])}"
        if name in MEASUREMENTS:
            yield from reader.item(name, given, place)
        else:
            yield reader.unknown(name, place)
    yield from reader.whole()


# ── the file ──────────────────────────────────────────────────────────────────────────────────

MOST_BYTES: Final = 1_000_000
LONGEST_LINE: Final = 1_000

_TOML_FORM: Final = (
    'a line is a [section], a # note, or a name with its value in quotes, like stud_width = "3 1/2"'
)
_A_FILE: Final = "name a hive file, or write a new one with `hivecalc new FILE`"
_A_TARGET: Final = "nothing was changed; name a file in a folder that you may write to"

_REASONS: Final = {
    errno.ENOENT: "there is no such file or folder",
    errno.ENOTDIR: "a part of this path is a file, not a folder",
    errno.EISDIR: "this is a folder",
    errno.EACCES: "you have no permission",
    errno.EPERM: "you have no permission",
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "your part of the disk is full",
    errno.EROFS: "this disk can only be read",
    errno.ENAMETOOLONG: "this name is too long",
    errno.ELOOP: "these links lead round in a circle",
}


def _fault_of_system(path: str | Path, error: OSError | ValueError, accepted: str) -> Fault:
    """Return the fault for a path that the system refuses; it has a ValueError for a name."""
    reason = "this is no name that a file can have"
    if isinstance(error, OSError):
        reason = _REASONS.get(error.errno or 0) or _seen(error.strerror or str(error))
    return Fault(_seen(str(path)), reason, accepted)


def hive_from_file(path: str | Path) -> Hive:
    """Hive that a file holds.

    Raises HiveFaults with every fault, in the file's order, and for a file that cannot be read.
    """
    try:
        data = _bytes(path)
    except (OSError, ValueError) as error:
        raise HiveFaults([_fault_of_system(path, error, _A_FILE)]) from None
    text = _decoded(path, data)
    if not text.strip():
        raise HiveFaults([Fault(_seen(str(path)), "this file is empty", _A_FILE)])
    return hive_from_text(text, str(path))


def _bytes(path: str | Path) -> bytes:
    """Return what is in a file; of one too big only so much that this can be seen."""
    with Path(path).open("rb") as file:
        return file.read(MOST_BYTES + 1)


def _decoded(path: str | Path, data: bytes) -> str:
    if len(data) > MOST_BYTES:
        found = "this file is bigger than 1 MB, so it is no hive file"
        raise HiveFaults([Fault(_seen(str(path)), found, _A_FILE)])
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        found = f"this file is not text in UTF-8 (see byte {error.start + 1})"
        raise HiveFaults([Fault(_seen(str(path)), found, _A_FILE)]) from None


def _long_lines(text: str, file: str) -> Iterator[Fault]:
    """Yield a fault for each line that no person wrote; reading names of that length takes ages."""
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST_LINE:
            found = f"this line has {len(line)} characters"
            yield Fault(f"{file}, line {number}", found, f"{LONGEST_LINE} are enough")


def _table(text: str, file: str) -> dict[str, object]:
    """Return the tables and values of a TOML text, its decimals as text."""
    import tomllib  # noqa: PLC0415 - the demo hive needs none of it

    _no_faults(_long_lines(text, file), file)
    try:
        return tomllib.loads(f"{text}\n", parse_float=_Number)  # so that each fault has its line
    except tomllib.TOMLDecodeError as error:
        message, _, where = str(error).rstrip(")").rpartition(" (at ")
        found = f"this cannot be read as TOML ({_seen(message)})"
        place = f"{file}, {where}"
    except RecursionError:
        found, place = "lists or tables are nested too deeply in it", file
    raise HiveFaults([Fault(place, found, _TOML_FORM)])


# ── writing ───────────────────────────────────────────────────────────────────────────────────

_HEAD: Final = """\
# A hive file: what you measured and what you chose. A line that begins with # is a note.
# Every line below that begins with # and a name shows the value that is used as long as you
# give none: take the # away and write your own. Measure your own wood: no two yards sell alike.
#
# Lengths: "23 1/8", "23.125", "1 ft 11 1/8 in", "587.4 mm", "58.7 cm".
"""

_HEADINGS: Final[dict[Group, str]] = {
    "measured": (
        "# What the tape says. Give hive_length and hive_width; or box_length, box_width and\n"
        "# box_height of a box to be sleeved; or, further below, frames.\n"
    ),
    "chosen": "# What you decide.\n",
}


def hive_text(hive: Hive) -> str:
    """Text of a new hive file, with a note on each line for a beginner.

    >>> print(hive_text(demo_hive()).splitlines()[6])
    name = "Orchard hive"
    >>> hive_from_text(hive_text(demo_hive())) == demo_hive()
    True

    Raises HiveFaults for a length that cannot be written exactly.
    """
    sections = (_section_text(hive, group) for group in SECTIONS)
    top = f'name = {_toml(hive.name)}\nunits = "{hive.units}"    # of a number without a unit:'
    return "\n".join((_HEAD, f'{top} "inch" or "mm"\n', *sections))


def _section_text(hive: Hive, group: Group) -> str:
    given = hive.measured if group == "measured" else hive.chosen
    lines = (_line(known, given.get(known.name), hive.units) for known in _group(group))
    return f"[{group}]\n{_HEADINGS[group]}" + "".join(lines)


def _line(known: Measurement, given: Fraction | None, units: Units) -> str:
    value = known.default if given is None else given
    shown = _toml("" if value is None else _literal(known, value, units))
    line = f"{'# ' if given is None else ''}{known.name} = {shown}"
    return f"{line:<34}  # {known.meaning}\n"


def _literal(known: Measurement, value: Fraction, units: Units) -> str | int:
    """Return a value as a hive file holds it."""
    return int(value) if known.kind == "count" else _exact(known.name, value, units)


def _exact(name: str, length: Fraction, units: Units) -> str:
    """Return the plainest text that reads back as exactly this length."""
    for text in _spellings(length, units):
        if len(text) <= LONGEST and not text.startswith("≈"):
            return text
    found = f"this length has no exact text of {LONGEST} characters"
    raise HiveFaults([Fault(name, found, "give one with fewer digits")])


def _spellings(length: Fraction, units: Units) -> Iterator[str]:
    """Yield ways to write a length, the plainest first; one with ≈ in front is not exact."""
    decimal = {"inch": decimal_inches(length, LONGEST), "mm": millimetres(length, LONGEST)}
    yield written(length, units)
    yield decimal[units]
    yield f"{written(length)} in" if units == "mm" else f"{written(length, 'mm')} mm"
    yield f"{decimal['inch']} in" if units == "mm" else f"{decimal['mm']} mm"
    whole, top = divmod(length.numerator, length.denominator)
    yield f"{whole} {top}/{length.denominator} in".removeprefix("0 ")


def _toml(value: str | int) -> str:
    """Return a number, or a text in quotes, as TOML has it."""
    if isinstance(value, int):
        return str(value)
    escaped = value.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def save(path: str | Path, hive: Hive) -> None:
    """Write a hive to its file; the notes, the order and the spelling in it stay as they are.

    A missing file is written new. Raises HiveFaults where the file cannot be read as a hive file or
    not be written, and then leaves it as it was.
    """
    write_whole(path, _edited(path, hive))


def _edited(path: str | Path, hive: Hive) -> str:
    """Return the text that the file is to hold: its own with the hive's values, or a new one."""
    text = _old_text(path)
    if not text.strip():
        return hive_text(hive)
    edited = _text_with(text, hive, _seen(str(path)))
    if hive_from_text(edited, str(path)) != hive:
        raise HiveFaults([_uneditable(_seen(str(path)))])
    return edited


def _old_text(path: str | Path) -> str:
    """Return the text of a file that is to be written, empty where there is none yet."""
    try:
        data = _bytes(path)
    except FileNotFoundError:
        return ""
    except (OSError, ValueError) as error:
        raise HiveFaults([_fault_of_system(path, error, _A_TARGET)]) from None
    return _decoded(path, data)


def _uneditable(file: str) -> Fault:
    return Fault(file, "this hive cannot be written into this file", "save it as a new file")


def _text_with(text: str, hive: Hive, file: str) -> str:
    """Return the text of a file with this hive's values in it, and all else as it was."""
    import tomlkit  # noqa: PLC0415 - slow to load, and only saving needs it
    from tomlkit.exceptions import TOMLKitError  # noqa: PLC0415 - as above

    old = _table(text, file)
    try:
        document = tomlkit.parse(text)
        for key, value, unsaid in (("name", hive.name, UNNAMED), ("units", hive.units, "inch")):
            if old.get(key, unsaid) != value:
                document[key] = value
        for group, given in zip(SECTIONS, (hive.measured, hive.chosen), strict=True):
            if given and group not in document:
                document[group] = tomlkit.table()
            if group in document:
                _edit(document[group], old.get(group, {}), given, hive.units)
    except (TOMLKitError, RecursionError, TypeError, LookupError):
        raise HiveFaults([_uneditable(file)]) from None
    return tomlkit.dumps(document)


def _edit(
    section: MutableMapping[str, object], old: object, given: Mapping[str, Fraction], units: Units
) -> None:
    """Change a section's entries to what is given; those that say it already stay as they are."""
    was = old if isinstance(old, dict) else {}
    for name, value in given.items():
        known = MEASUREMENTS[name]
        if name not in was:
            _add(section, name, _literal(known, value, units))
        elif not _says(known, was[name], value, units):
            section[name] = _literal(known, value, units)
    for name in was.keys() - given.keys() & MEASUREMENTS.keys():
        del section[name]


def _add(section: MutableMapping[str, object], name: str, value: str | int) -> None:
    """Add an entry to a section, below the line that gave it as a note or below the last entry.

    tomlkit would put it below the notes of the next section, so what comes after is put back.
    """
    from tomlkit.items import Table  # noqa: PLC0415 - loaded by the caller

    if not isinstance(section, Table) or section.is_super_table():
        section[name] = value
        return
    place = _place_for(name, section.value.body)
    after = section.value.body[place:]
    for key, _ in after:
        if key:
            section.remove(key)
    del section.value.body[place:]
    section.add(name, value)
    for key, item in after:
        section.append(key, item)


def _place_for(name: str, body: Sequence[tuple[object, object]]) -> int:
    """Return where an entry goes: below a note like `# name = "1"`, else below the last entry."""
    noted = (n for n, (_, item) in enumerate(body, 1) if _is_note_of(name, item))
    entries = [n for n, (key, _) in enumerate(body, 1) if key]
    return next(noted, max(entries, default=0))


def _is_note_of(name: str, item: object) -> bool:
    from tomlkit.items import Comment  # noqa: PLC0415 - loaded by the caller

    note = item.as_string() if isinstance(item, Comment) else ""
    return note.partition("=")[0].strip(" #\r\n\t") == name


def _says(known: Measurement, written_so: object, value: Fraction, units: Units) -> bool:
    try:
        return _value(known, written_so, units) == value
    except _RefusedError:
        return False


def write_whole(path: str | Path, data: str | bytes) -> None:
    """Write a file whole or not at all: on any error the old file stands as it was.

    The data goes to a new file beside it, which takes its place when all is on the disk. A link is
    followed; the permissions of the old file stay. Raises HiveFaults with the reason.
    """
    content = data.encode("utf-8") if isinstance(data, str) else data
    try:
        target = Path(os.path.realpath(path))  # resolve() has no OSError for a circle
        _replace_file(target, content, _old_mode(target))
    except (OSError, ValueError) as error:
        raise HiveFaults([_fault_of_system(path, error, _A_TARGET)]) from None


def _old_mode(target: Path) -> int | None:
    """Return the permissions of the file that is to be replaced, or None where there is none."""
    try:
        mode = target.stat().st_mode
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(mode):
        raise IsADirectoryError(errno.EISDIR, "")
    if not stat.S_ISREG(mode):
        raise OSError(errno.EINVAL, "this is no plain file")
    if not os.access(target, os.W_OK):
        raise PermissionError(errno.EACCES, "")
    return stat.S_IMODE(mode)


def _replace_file(target: Path, content: bytes, mode: int | None) -> None:
    beside = target.with_name(f".{os.urandom(6).hex()}.part")
    try:
        _write_through(beside, content, mode)
        beside.replace(target)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
    _settle(target.parent)


def _write_through(path: Path, content: bytes, mode: int | None) -> None:
    """Write a new file down to the disk itself."""
    with path.open("xb") as file:
        if mode is not None:
            path.chmod(mode)
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _settle(folder: Path) -> None:
    """Write a folder's list of files down to the disk, where the system can do that."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
