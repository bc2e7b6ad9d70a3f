"""Pieces as they were cut, the frame as it was glued, and what that frame says.

The file is TOML, read as a hive file is, every fault listed at once.

[bottom_board]
side_rail_length = ["21 1/2", "21 7/16"]    # one for each piece
panel_width = "14 1/8"                      # one for all

[frame]                                     # the glued frame, measured outside
widths = ["17 3/8", "17 3/8", "17 7/16"]    # front, middle, back
lengths = ["23 1/8", "23 1/8"]              # left, right
diagonals = ["28 15/16", "28 15/16"]        # from the front left corner, from the front right
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Final, Literal, TypeAlias

from hivecalc.built import PIECES, pieces_of
from hivecalc.components import DIMENSIONS, values
from hivecalc.derivation import nearest_names, title
from hivecalc.fit import AGREE, FIT, RULES, mark, newly_failing
from hivecalc.hive import MEASUREMENTS, Fault, Hive, HiveFaults
from hivecalc.hive.hive import value_of
from hivecalc.hive.measurements import entry
from hivecalc.length import MARKS, Length, Units, rounded, shown, with_unit
from hivecalc.measuring import Squareness, squareness
from hivecalc.support.faults import RefusedError, escaped, nearest_or, quoted, raise_faults
from hivecalc.support.files import file_faults, text_in, toml_table

Shape: TypeAlias = Literal["straight", "tapered", "bellied", "waisted"]
SHAPE_SEEN: Final = Fraction(1, 16)
"""A taper or a bow of more than this is pointed out; common practice, no published source."""
PIECE_SIZE: Final = entry(
    "piece_size", "1/64", "120", "A size of a piece as it was cut, or of a frame as it was glued.",
    "No piece of a hive is thinner, and none is longer than a stud of ten feet.",
)  # fmt: skip


@dataclass(frozen=True)
class Frame:
    """Readings of the bottom board's frame, outside, in inches.

    Three widths from front over middle to back; the lengths of the left and the right side, back
    rail and all; the diagonal from the front left corner to the back right one, and the other.
    """

    widths: Sequence[Length]
    lengths: Sequence[Length]
    diagonals: Sequence[Length]


@dataclass(frozen=True)
class FrameCheck:
    """What the readings of a frame come to.

    `opening` is what the frame leaves for what slides straight in, length and width. `recut` has
    each piece that no longer goes in as planned, by its part's size, and what to cut it to instead;
    it is empty where no other size helps. `remedies` are the sentences, of all `sentences`, that
    say what must be done before all goes in. `fits_hive` says whether the rules allow how much
    bigger or smaller than the hive it is.
    """

    squareness: Squareness
    shapes: tuple[Shape, ...]
    opening: tuple[Length, Length]
    recut: Mapping[str, Length]
    remedies: tuple[str, ...]
    sentences: tuple[str, ...]
    fits_hive: bool

    @property
    def holds(self) -> bool:
        """Whether all goes into the frame as planned, and the hive stands on it as planned."""
        return self.fits_hive and not self.squareness.misread and not self.remedies


def check_frame(hive: Hive, frame: Frame) -> FrameCheck:
    """How far a frame is out of square and out of straight, where, and what follows from it.

    Raises HiveFaults with every fault at once.
    """
    if faults := [*_faults(frame, hive.units)]:
        raise HiveFaults(faults)
    (front, middle, back), (rising, falling) = frame.widths, frame.diagonals
    # how much wider the back is than the front, and the middle than half-way between them
    taper, belly = back - front, middle - (front + back) / 2
    length = sum(frame.lengths, Fraction(0)) / len(frame.lengths)
    square = squareness(length, (front + back) / 2, rising, falling, hive.units)
    opening = _opening(hive, frame, square)
    recut = {} if square.misread else _recut(hive, opening)
    remedies = [
        f"If the frame stays so, cut the {title(name)} to {shown(size, hive.units)}, not "
        f"{shown(mark(hive, name), hive.units)}."
        for name, size in recut.items()
    ]
    widest = max(frame.widths) - 2 * values(hive)["stud_thickness"]
    if recut and newly_failing(hive, {**_came(opening[0], widest), **recut}):
        recut, remedies = {}, [_MAKE_IT_TRUE]
    remedies = [] if square.misread else [*_uneven(frame, hive.units), *remedies]
    bowed: Shape = "bellied" if belly > 0 else "waisted"
    found: list[Shape] = ["tapered"] * (abs(taper) > SHAPE_SEEN)
    found += [bowed] * (abs(belly) > SHAPE_SEEN)
    shapes = tuple(found) or ("straight",)
    against_hive = dict(_against_hive(hive, frame))
    texts = (
        *_shape_sentences(shapes, taper, belly, hive.units),
        *_square_sentences(square, shapes, hive.units),
        *against_hive,
        *remedies,
    )
    fits_hive = all(against_hive.values())
    return FrameCheck(square, shapes, opening, recut, tuple(remedies), texts, fits_hive)


_MAKE_IT_TRUE: Final = (
    "Do not cut panel and screen to this frame: what is narrow enough to slide in leaves too wide "
    "a gap beside it. Pull the frame square and straight while the glue is wet, or glue a new one."
)
_FRAME: Final = {"widths": 3, "lengths": 2, "diagonals": 2}  # how many readings of each


def _faults(frame: Frame, units: Units) -> Iterator[Fault]:
    for name, count in _FRAME.items():
        readings = getattr(frame, name)
        if len(readings) != count:
            yield Fault(f"frame {name}", f"{len(readings)} readings", f"give {count}")
        for reading in readings:
            try:
                value_of(PIECE_SIZE, reading, units)
            except RefusedError as error:
                yield Fault(f"frame {name}", *error.args)


def _shape_sentences(
    shapes: Sequence[Shape], taper: Length, belly: Length, units: Units
) -> Iterator[str]:
    if "straight" in shapes:
        yield f"The three widths agree within {with_unit(units, SHAPE_SEEN)}: it is straight."
    if "tapered" in shapes:
        wide, narrow = ("back", "front") if taper > 0 else ("front", "back")
        yield (
            f"The frame is {shown(abs(taper), units)} wider at the {wide} than at the "
            f"{narrow}: it is tapered. Bring the back to the front's width before the back rail "
            "goes on."
        )
    if {"bellied", "waisted"} & set(shapes):
        way, how = ("wider", "outwards") if belly > 0 else ("narrower", "inwards")
        yield (
            f"In the middle it is {shown(abs(belly), units)} {way} than half-way between front "
            f"and back: the side rails bow {how}. Clamp a bowed rail straight while its screws go "
            "in, or take a straight one."
        )


def _square_sentences(square: Squareness, shapes: Sequence[Shape], units: Units) -> Iterator[str]:
    yield square.sentence
    if square.square and "tapered" in shapes:
        yield "But diagonals that agree do not make the corners of a tapered frame square."
    if not square.square and not square.misread:
        side = "right" if square.lean > 0 else "left"
        lean = shown(abs(square.lean), units)
        yield f"The back stands {lean} too far to the {side}, against the front."


_ACROSS: Final = ("at the front", "in the middle", "at the back")
_ALONG: Final = ("on the left", "on the right")


def _against_hive(hive: Hive, frame: Frame) -> Iterator[tuple[str, bool]]:
    """Where the frame and the hive that stands on it do not agree, and whether a rule allows it."""
    sizes = values(hive)
    for way, measured, words, places, readings in (
        ("across", "hive_width", ("narrower", "wider"), _ACROSS, frame.widths),
        ("along", "hive_length", ("shorter", "longer"), _ALONG, frame.lengths),
    ):
        allows = RULES[f"bottom_board.frame_against_hive_{way}"].allows
        for place, reading in zip(places, readings, strict=True):
            off = reading - sizes[measured]
            if abs(off) > AGREE:
                does = "rain stands on its edge" if off > 0 else "the box stands over"
                much = shown(abs(off), hive.units)
                yield f"It is {much} {words[off > 0]} than the hive {place}: {does}.", allows(off)


def _uneven(frame: Frame, units: Units) -> Iterator[str]:
    """What to do about two sides that are not of one length, by the rule for the two side rails."""
    name = "bottom_board.side_rails_alike"
    left, right = frame.lengths
    if mend := RULES[name].mend(abs(left - right)):
        longer, other = ("left", "right") if left > right else ("right", "left")
        differ = f"The {longer} side is {shown(abs(left - right), units)} longer than the {other}."
        yield f"{differ} {FIT.dimension(name).why} {mend}"


def _opening(hive: Hive, frame: Frame, square: Squareness) -> tuple[Length, Length]:
    """The opening that a frame leaves for what slides straight in from the back.

    What leans takes its lean off the width that is left for a square panel.
    """
    stud = values(hive)["stud_thickness"]
    leaning = abs(square.lean) if not square.square and not square.misread else Fraction(0)
    length, width = min(frame.lengths) - 2 * stud, min(frame.widths) - 2 * stud - leaning
    if min(length, width) <= 0:
        accepted = "readings that leave an opening between the rails are accepted"
        raise HiveFaults([Fault("frame", "it would have no opening", accepted)])
    return length, width


def _came(length: Length, width: Length) -> dict[str, Length]:
    """The opening that came out, by the names that rules have for it."""
    return {"bottom_board.opening_length": length, "bottom_board.opening_width": width}


def _recut(hive: Hive, opening: tuple[Length, Length]) -> dict[str, Length]:
    came = _came(*opening)
    old, new = values(hive), values(hive, came)
    parts = dict.fromkeys(s.planned for s in pieces_of(hive))
    follow = {n: new[n] for n in parts if new[n] != old[n]}
    return {
        n: rounded(size, MARKS[hive.units], DIMENSIONS.dimension(n).rule.rounding)
        for n, size in follow.items()
        if newly_failing(hive, {**came, **follow, n: mark(hive, n)})
    }


# ── pieces as they were read ──────────────────────────────────────────────────────────────────────

_UNITS: Final[Mapping[str, Units]] = {"inch": "inch", "mm": "mm"}
_A_LENGTH: Final = 'write a length like "21 1/2", or a list of them in [ ]'
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
        self.reported = set[str]()
        self.readings: dict[str, tuple[Fraction, ...]] = {}
        self.frame: dict[str, tuple[Fraction, ...]] = {}

    def read_frame(self, table: Mapping[str, object]) -> None:
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
        place, pieces = f"{self.place} {name[:80]}", self.pieces.get(name, [])
        if not pieces:
            self.faults.append(Fault(place, *self._unknown(name)))
        elif self.reported & {*pieces}:
            self.faults.append(Fault(place, "this piece is given twice", "give each piece once"))
        else:
            self.reported.update(pieces)
            found, many = self._lengths(place, value), len(pieces)
            if len(found) > many:
                there = f"there {'is' if many == 1 else 'are'} {many} of this piece"
                self.faults.append(Fault(place, f"{len(found)} sizes are given", there))
            elif found:
                self.readings[name] = found

    def _unknown(self, name: str) -> tuple[str, str]:
        if name in MEASUREMENTS:
            return "that isn't a piece", "give it in your hive file"
        if name in PIECES or any(name == size.planned for size in PIECES.values()):
            return "this hive does not have that piece", "see `hivecalc parts`"
        near = next(iter(nearest_names(name, self.pieces)), None)
        found = f"{quoted(name[:60])} isn't a piece of this hive"
        return found, nearest_or(near, "the names stand in `hivecalc parts`")

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
