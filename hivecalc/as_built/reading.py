"""A file of pieces as they were cut: TOML, read as a hive file is, every fault told at once.

[bottom_board]
side_rail_length = ["21 1/2", "21 7/16"]    # one for each piece
panel_width = "14 1/8"                      # one for all

[frame]                                     # the glued frame, measured outside
widths = ["17 3/8", "17 3/8", "17 7/16"]    # front, middle, back
lengths = ["23 1/8", "23 1/8"]              # left, right
diagonals = ["28 15/16", "28 15/16"]        # from the front left corner, from the front right
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Final

from hivecalc.as_built.frame import PIECE_SIZE, Frame
from hivecalc.built import PIECES, pieces_of
from hivecalc.derivation import nearest_names
from hivecalc.hive import MEASUREMENTS, Fault, Hive
from hivecalc.hive.hive import value_of
from hivecalc.length import Units
from hivecalc.support.faults import RefusedError, escaped, quoted, raise_faults
from hivecalc.support.files import file_faults, text_in, toml_table

_FRAME: Final = ("widths", "lengths", "diagonals")
_UNITS: Final[Mapping[str, Units]] = {"inch": "inch", "mm": "mm"}
_A_LENGTH: Final = 'write a length like "21 1/2", or a list of them in [ ]'
_ALL_NAMES: Final = frozenset({*PIECES, *(s.planned for s in PIECES.values())})
_PIECES_FILE: Final = "name a file of pieces as you cut them; see README.md"
_METRIC: Final = ("mm", "cm", "m")


@dataclass(frozen=True)
class Pieces:
    """What was measured: sizes of pieces by name, one reading for all or one each; the frame."""

    readings: Mapping[str, Sequence[Fraction]]
    frame: Frame | None = None


def pieces_from_file(path: str | Path, hive: Hive) -> Pieces:
    """The pieces that a file holds, for this hive.

    Raises HiveFaults with every fault, in the file's order, and for a file that can't be read.
    """
    return pieces_from_text(text_in(path, _PIECES_FILE), hive, str(path))


def pieces_from_text(text: str, hive: Hive, place: str = "pieces.toml") -> Pieces:
    """The pieces that a text says, for this hive.

    Bare numbers are in the hive's units, unless `units` stands at the top. Raises HiveFaults with
    every fault.
    """
    file = escaped(place)
    table = toml_table(text, file)
    reader = _Reader(hive, f"{file},", _UNITS.get(str(table.get("units", hive.units)), hive.units))
    for name, value in table.items():
        if name == "units":
            if value not in _UNITS:
                found = f"{quoted(str(value))} isn't a unit here"
                reader.faults.append(Fault(f"{file}, units", found, 'write "inch" or "mm"'))
        elif name == "frame" and isinstance(value, dict):
            reader.read_frame(value)
        elif isinstance(value, dict):
            for part, found in value.items():
                reader.read_piece(f"{name}.{part}", found)
        else:
            reader.read_piece(name, value)
    raise_faults(iter(reader.faults), file)
    if not reader.readings and not reader.frame:
        raise file_faults(place, "no piece stands in it", _PIECES_FILE)
    frame = Frame(*(reader.frame[n] for n in _FRAME)) if reader.frame else None
    return Pieces(reader.readings, frame)


def pieces_given(given: Mapping[str, str], hive: Hive) -> Pieces:
    """The pieces that a call gives, by name, each with one or more lengths between commas.

    >>> from hivecalc.hive import demo_hive
    >>> given = {"bottom_board.side_rail_length": "21 1/2, 21 7/16"}
    >>> [str(v) for v in pieces_given(given, demo_hive()).readings[next(iter(given))]]
    ['43/2', '343/16']

    Where a decimal comma may stand, a space goes with the comma between two lengths. Raises
    HiveFaults with every fault.
    """
    reader = _Reader(hive, "--piece", hive.units)
    for name, text in given.items():
        metric = any(_is_metric(part, hive.units) for part in text.split(","))
        listed = [part.strip() for part in text.split(", " if metric else ",")]
        reader.read_piece(name, listed)
    raise_faults(iter(reader.faults), "--piece")
    return Pieces(reader.readings)


class _Reader:
    """Readings of a file or a call, and the faults that come up."""

    def __init__(self, hive: Hive, place: str, units: Units) -> None:
        self.place, self.units = place, units
        self.faults: list[Fault] = []
        self.pieces: dict[str, list[str]] = {}
        for size in pieces_of(hive):
            for name in dict.fromkeys((size.planned, size.name)):
                self.pieces.setdefault(name, []).append(size.name)
        self.told = set[str]()
        self.readings: dict[str, tuple[Fraction, ...]] = {}
        self.frame: dict[str, tuple[Fraction, ...]] = {}

    def read_frame(self, table: Mapping[str, object]) -> None:
        """Read what was measured of a frame."""
        place, accepted = f"{self.place} [frame]", f"give {', '.join(_FRAME)}"
        for name, value in table.items():
            if name in _FRAME:
                self.frame[name] = self._lengths(f"{place} {name}", value)
            else:
                found = f"{quoted(name)} isn't a reading of a frame"
                self.faults.append(Fault(f"{place} {name}", found, accepted))
        for name in _FRAME:
            if name not in table:
                self.faults.append(Fault(f"{place} {name}", "it is missing", accepted))

    def read_piece(self, name: str, value: object) -> None:
        """Read the sizes of one piece or part."""
        place, pieces = f"{self.place} {name[:80]}", self.pieces.get(name, [])
        if not pieces:
            self.faults.append(Fault(place, *self._unknown(name)))
        elif self.told & {*pieces}:
            self.faults.append(Fault(place, "this piece is given twice", "give each piece once"))
        else:
            self.told.update(pieces)
            found = self._lengths(place, value)
            if len(found) > len(pieces):
                there = "is 1" if len(pieces) == 1 else f"are {len(pieces)}"
                many = f"{len(found)} sizes are given"
                self.faults.append(Fault(place, many, f"there {there} of this piece"))
            elif found:
                self.readings[name] = found

    def _unknown(self, name: str) -> tuple[str, str]:
        if name in MEASUREMENTS:
            return "that isn't a piece", "give it in your hive file"
        if name in _ALL_NAMES:
            return "this hive does not have that piece", "see `hivecalc parts`"
        near = nearest_names(name, self.pieces)
        known = f"the nearest known name is {near[0]}" if near else ""
        found = f"{quoted(name[:60])} isn't a piece of this hive"
        return found, known or "the names stand in `hivecalc parts`"

    def _lengths(self, place: str, value: object) -> tuple[Fraction, ...]:
        """One length or a list of them; none where a fault was noted."""
        given = value if isinstance(value, list) else [value]
        found = []
        if not given:
            self.faults.append(Fault(place, "the list is empty", _A_LENGTH))
        elif len({_is_metric(g, self.units) for g in given}) > 1:
            mixed = "inches and millimetres are mixed in one list"
            self.faults.append(Fault(place, mixed, "write all in one unit"))
        else:
            for each in given:
                try:
                    found.append(value_of(PIECE_SIZE, each, self.units))
                except RefusedError as error:
                    self.faults.append(Fault(place, *error.args))
        return tuple(found) if len(found) == len(given) else ()


def _is_metric(given: object, units: Units) -> bool:
    text = str(given).strip().rstrip(".")
    return text.endswith(_METRIC) or (units == "mm" and text[-1:].isdigit())
