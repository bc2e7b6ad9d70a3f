"""A frame as it was put together: three widths, two lengths, both diagonals, measured outside."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal, TypeAlias

from hivecalc.built import pieces_of
from hivecalc.components import DIMENSIONS, values
from hivecalc.derivation import title
from hivecalc.fit import AGREE, mark, newly_failing
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.hive.hive import value_of
from hivecalc.hive.measurements import Measurement
from hivecalc.length import MARKS, Length, Units, rounded, shown, with_unit
from hivecalc.measuring import Squareness, squareness
from hivecalc.support.faults import RefusedError

Shape: TypeAlias = Literal["straight", "tapered", "bellied", "waisted"]
SHAPE_SEEN: Final = Fraction(1, 16)
"""A taper or a bow of more than this is told; common practice, no published source."""
PIECE_SIZE: Final = Measurement(
    "piece_size", "measured", {"inch": None, "mm": None}, Fraction(1, 64), Fraction(120),
    "A size of a piece as it was cut, or of a frame as it was glued.",
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

    `taper` is how much wider the back is than the front, `belly` how much wider the middle is than
    half-way between them; each may be below 0. `opening` is what the frame leaves for what slides
    straight in, length and width. `recut` has each piece that no longer goes in as planned, by its
    part's size, and what to cut it to instead.
    """

    squareness: Squareness
    shapes: tuple[Shape, ...]
    taper: Length
    belly: Length
    opening: tuple[Length, Length]
    recut: Mapping[str, Length]
    sentences: tuple[str, ...]

    @property
    def holds(self) -> bool:
        """Whether all goes into the frame as planned."""
        return not self.squareness.misread and not self.recut


def check_frame(hive: Hive, frame: Frame) -> FrameCheck:
    """How far a frame is out of square and out of straight, where, and what follows from it.

    Raises HiveFaults with every fault at once.
    """
    faults = [*_faults(frame, hive.units)]
    if faults:
        raise HiveFaults(faults)
    (front, middle, back), (rising, falling) = frame.widths, frame.diagonals
    taper, belly = back - front, middle - (front + back) / 2
    length = sum(frame.lengths, Fraction(0)) / len(frame.lengths)
    square = squareness(length, (front + back) / 2, rising, falling, hive.units)
    opening = _opening(hive, frame, square)
    recut = {} if square.misread else _recut(hive, opening)
    shapes = _shapes(taper, belly)
    told = (
        *_shape_told(shapes, taper, belly, hive.units),
        *_square_told(square, shapes, hive.units),
        *_against_hive(hive, frame),
        *(
            f"If the frame stays so, cut the {title(name)} to {shown(size, hive.units)}, not "
            f"{shown(mark(hive, name), hive.units)}."
            for name, size in recut.items()
        ),
    )
    return FrameCheck(square, shapes, taper, belly, opening, recut, told)


def _faults(frame: Frame, units: Units) -> Iterator[Fault]:
    wanted = {"widths": 3, "lengths": 2, "diagonals": 2}
    for name, count in wanted.items():
        readings = getattr(frame, name)
        if len(readings) != count:
            yield Fault(f"frame {name}", f"{len(readings)} readings", f"give {count}")
        for reading in readings:
            try:
                value_of(PIECE_SIZE, reading, units)
            except RefusedError as error:
                yield Fault(f"frame {name}", *error.args)


def _shapes(taper: Length, belly: Length) -> tuple[Shape, ...]:
    """In which ways a frame is crooked; "straight" where it is not."""
    bowed: Shape = "bellied" if belly > 0 else "waisted"
    found: list[Shape] = []
    if abs(taper) > SHAPE_SEEN:
        found.append("tapered")
    if abs(belly) > SHAPE_SEEN:
        found.append(bowed)
    return tuple(found) or ("straight",)


def _shape_told(
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


def _square_told(square: Squareness, shapes: Sequence[Shape], units: Units) -> Iterator[str]:
    yield square.sentence
    if square.square and "tapered" in shapes:
        yield "But diagonals that agree do not make the corners of a tapered frame square."
    if not square.square and not square.misread:
        side = "right" if square.lean > 0 else "left"
        lean = shown(abs(square.lean), units)
        yield f"The back stands {lean} too far to the {side}, against the front."


def _against_hive(hive: Hive, frame: Frame) -> Iterator[str]:
    """Where the frame and the hive that stands on it do not agree."""
    plan = values(hive)
    readings = (*zip(("at the front", "in the middle", "at the back"), frame.widths, strict=True),)
    for place, reading in readings:
        off = reading - plan["hive_width"]
        if abs(off) > AGREE:
            what, does = (
                ("narrower", "the box stands over")
                if off < 0
                else ("wider", "rain stands on its edge")
            )
            yield f"It is {shown(abs(off), hive.units)} {what} than the hive {place}: {does}."


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


def _recut(hive: Hive, opening: tuple[Length, Length]) -> dict[str, Length]:
    """The pieces that no longer go into the frame as planned, and what to cut them to instead."""
    names = ("bottom_board.opening_length", "bottom_board.opening_width")
    came = dict(zip(names, opening, strict=True))
    old, new = values(hive), values(hive, came)
    parts = dict.fromkeys(s.planned for s in pieces_of(hive))
    follow = {n: new[n] for n in parts if new[n] != old[n]}
    return {
        n: rounded(size, MARKS[hive.units], DIMENSIONS.dimension(n).rule.rounding)
        for n, size in follow.items()
        if newly_failing(hive, {**came, **follow, n: mark(hive, n)})
    }
