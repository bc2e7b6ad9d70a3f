"""A file of pieces as they were cut: TOML, read as a hive file is, every fault told at once.

[bottom_board]
side_rail_length = ["21 1/2", "21 7/16"]    # one for each piece
panel_width = "14 1/8"                      # one for all

[frame]                                     # the glued frame, measured outside
widths = ["17 3/8", "17 3/8", "17 7/16"]    # front, middle, back
lengths = ["23 1/8", "23 1/8"]              # left, right
diagonals = ["28 15/16", "28 15/16"]        # from the front left corner, from the front right
"""

from collections.abc import Generator, Iterator, Mapping, Sequence
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
from hivecalc.support.files import data_in, file_faults, system_faults, text_of, toml_table

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
    with system_faults(path, _PIECES_FILE):
        data = data_in(path)
    text = text_of(path, data, _PIECES_FILE)
    if not text.strip():
        raise file_faults(path, "this file is empty", _PIECES_FILE)
    return pieces_from_text(text, hive, str(path))


def pieces_from_text(text: str, hive: Hive, place: str = "pieces.toml") -> Pieces:
    """The pieces that a text says, for this hive.

    >>> from hivecalc.hive import demo_hive
    >>> found = pieces_from_text('bottom_board.panel_width = "14 1/8"', demo_hive())
    >>> found.readings
    {'bottom_board.panel_width': (Fraction(113, 8),)}

    Bare numbers are in the hive's units, unless `units` stands at the top. Raises HiveFaults with
    every fault.
    """
    file = escaped(place)
    table = toml_table(text, file)
    reader = _Reader(hive, file, _UNITS.get(str(table.get("units", hive.units)), hive.units))
    raise_faults(reader.faults(table), file)
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

    Raises HiveFaults with every fault.
    """
    reader = _Reader(hive, "--piece", hive.units)
    listed = {
        n: [t.strip() for t in text.split(_between(text, hive.units))] for n, text in given.items()
    }
    raise_faults((f for n, texts in listed.items() for f in reader.piece(n, texts)), "--piece")
    return Pieces(reader.readings)


def _between(text: str, units: Units) -> str:
    """What stands between two lengths: a comma, and a space too where a decimal comma may stand."""
    metric = units == "mm" or any(t.strip().endswith(_METRIC) for t in text.split(","))
    return ", " if metric else ","


class _Reader:
    """Readings of a file or a call, and the faults that come up."""

    def __init__(self, hive: Hive, place: str, units: Units) -> None:
        self.hive, self.place, self.units = hive, place, units
        self.pieces: dict[str, tuple[str, ...]] = {}
        for size in pieces_of(hive):
            own = self.pieces.setdefault(size.planned, ())
            self.pieces[size.planned] = (*own, size.name)
            self.pieces.setdefault(size.name, (size.name,))
        self.told = set[str]()
        self.readings: dict[str, tuple[Fraction, ...]] = {}
        self.frame: dict[str, tuple[Fraction, ...]] = {}

    def faults(self, table: Mapping[str, object]) -> Iterator[Fault]:
        """Read what stands in a file, and yield what is wrong with it."""
        for name, value in table.items():
            if name == "units":
                if value not in _UNITS:
                    yield Fault(
                        f"{self.place}, units",
                        f"{quoted(str(value))} isn't a unit here",
                        'write "inch" or "mm"',
                    )
            elif name == "frame" and isinstance(value, dict):
                yield from self._frame(value)
            elif isinstance(value, dict):
                for part, found in value.items():
                    yield from self.piece(f"{name}.{part}", found)
            else:
                yield from self.piece(name, value)

    def _frame(self, table: Mapping[str, object]) -> Iterator[Fault]:
        for name, value in table.items():
            place = f"{self.place}, [frame] {name}"
            if name not in _FRAME:
                yield Fault(
                    place, f"{quoted(name)} isn't a reading of a frame", f"give {', '.join(_FRAME)}"
                )
            else:
                yield from self._lengths(place, value, self.frame, name)
        for name in _FRAME:
            if name not in table:
                yield Fault(
                    f"{self.place}, [frame] {name}", "it is missing", f"give {', '.join(_FRAME)}"
                )

    def piece(self, name: str, value: object) -> Iterator[Fault]:
        """Read the sizes of one piece or part, and yield what is wrong with them."""
        place = f"{self.place}, {name[:80]}" if self.place != "--piece" else f"--piece {name[:80]}"
        if name not in self.pieces:
            yield self._unknown(place, name)
            return
        if self.told & {*self.pieces[name]}:
            yield Fault(place, "this piece is given twice", "give each piece once")
            return
        self.told.update(self.pieces[name])
        yield from self._lengths(place, value, self.readings, name)
        count, most = len(self.readings.get(name, ())), len(self.pieces[name])
        if count > most:
            self.readings.pop(name)
            pieces = "is 1" if most == 1 else f"are {most}"
            yield Fault(place, f"{count} sizes are given", f"there {pieces} of this piece")

    def _unknown(self, place: str, name: str) -> Fault:
        if name in MEASUREMENTS:
            return Fault(place, "that isn't a piece", "give it in your hive file")
        if name in _ALL_NAMES:
            return Fault(place, "this hive does not have that piece", "see `hivecalc parts`")
        near = nearest_names(name, self.pieces)
        hint = (
            f"the nearest known name is {near[0]}"
            if near
            else "the names stand in `hivecalc parts`"
        )
        return Fault(place, f"{quoted(name[:60])} isn't a piece of this hive", hint)

    def _lengths(
        self, place: str, value: object, kept: dict[str, tuple[Fraction, ...]], name: str
    ) -> Iterator[Fault]:
        given = value if isinstance(value, list) else [value]
        if not given:
            yield Fault(place, "the list is empty", _A_LENGTH)
        if len({_is_metric(g, self.units) for g in given}) > 1:
            yield Fault(
                place, "inches and millimetres are mixed in one list", "write all in one unit"
            )
            return
        found = []
        for each in given:
            length = yield from self._length(place, each)
            if length is not None:
                found.append(length)
        if len(found) == len(given) and given:
            kept[name] = tuple(found)

    def _length(self, place: str, given: object) -> Generator[Fault, None, Fraction | None]:
        try:
            return value_of(PIECE_SIZE, given, self.units)
        except RefusedError as error:
            yield Fault(place, *error.args)
            return None


def _is_metric(given: object, units: Units) -> bool:
    text = str(given).strip().rstrip(".")
    if text.endswith(_METRIC):
        return True
    return units == "mm" and text[-1:].isdigit()
