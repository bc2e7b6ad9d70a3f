"""The frame as it was made: widths, lengths and diagonals."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeAlias

from hivecalc.as_built.faults import faults_of_lengths, refuse
from hivecalc.as_built.plan import to_cut
from hivecalc.as_built.sizes import MARK, cut_sizes
from hivecalc.components import TAPE_AGREES, values
from hivecalc.derivation import Change, Values, changes, title
from hivecalc.hive import Fault, Hive
from hivecalc.length import Length, Units, with_unit
from hivecalc.measuring import Squareness, reading_to_use, squareness
from hivecalc.tolerance import READING

Shape: TypeAlias = Literal["straight", "tapered", "bellied", "waisted"]


@dataclass(frozen=True)
class Frame:
    """Readings of a frame that was put together, outside: three widths and both diagonals.

    The widths stand from front over middle to back. `rising` is the diagonal from the front left
    corner to the back right one, `falling` the other. `lengths` may be left out. In inches.
    """

    widths: Sequence[Length]
    rising: Length
    falling: Length
    lengths: Sequence[Length] = ()


@dataclass(frozen=True)
class FrameCheck:
    """What the readings of a frame come to.

    `taper` is how much wider the back is than the front, `belly` how much wider the middle is than
    half-way between them; each may be below 0. `given` is what the frame makes of its opening, for
    whatever is computed from there on. `recuts` are the pieces to cut otherwise than planned.
    """

    squareness: Squareness
    shapes: tuple[Shape, ...]
    taper: Length
    belly: Length
    given: Mapping[str, Length]
    recuts: tuple[Change, ...]
    sentences: tuple[str, ...]


def frame_check(hive: Hive, frame: Frame) -> FrameCheck:
    """How far a frame is out of square and out of straight, where, and what follows from it.

    >>> from hivecalc.hive import demo_hive
    >>> widths = [Fraction(139, 8), Fraction(140, 8), Fraction(141, 8)]
    >>> found = frame_check(demo_hive(), Frame(widths, Fraction(29), Fraction(29)))
    >>> found.shapes, found.sentences[0]
    (('tapered',), 'The frame is 1/4 in wider at the back than at the front: it is tapered.')

    Widths that differ by no more than 1/8 in are straight. A frame that is out of square leaves
    less width for what slides straight in: its lean comes off the opening, unless the diagonals
    differ by no more than 1/8 in. Raises HiveFaults with every fault at once.
    """
    refuse(faults_of_frame(hive, frame))
    front, middle, back = frame.widths
    taper, belly = back - front, middle - (front + back) / 2
    shapes = _shapes(frame.widths, taper, belly)
    length = _mean(frame.lengths) if frame.lengths else values(hive)["hive_length"]
    square = squareness(length, (front + back) / 2, frame.rising, frame.falling, hive.units)
    given = _opening(hive, frame, square)
    recuts = _recuts(hive, given)
    sentences = (
        *_shape_told(shapes, taper, belly, hive.units),
        *_square_told(square, shapes, hive.units),
        *_against_hive(hive, frame),
        *_recuts_told(recuts, hive.units),
    )
    return FrameCheck(square, shapes, taper, belly, given, recuts, sentences)


def _mean(lengths: Sequence[Length]) -> Length:
    return sum(lengths, Fraction(0)) / len(lengths)


def _shapes(widths: Sequence[Length], taper: Length, belly: Length) -> tuple[Shape, ...]:
    """What sort of crooked a frame is: at least one where readings differ by more than 1/8 in."""
    if reading_to_use(widths).straight:
        return ("straight",)
    tapered: tuple[Shape, ...] = ("tapered",) if abs(taper) > MARK else ()
    bowed: Shape = "bellied" if belly > 0 else "waisted"
    return (*tapered, bowed) if abs(belly) > MARK else tapered


def _shape_told(
    shapes: Sequence[Shape], taper: Length, belly: Length, units: Units
) -> Iterator[str]:
    if "straight" in shapes:
        yield "The three widths agree within 1/8 in: the frame is straight enough."
    if "tapered" in shapes:
        wide, narrow = ("back", "front") if taper > 0 else ("front", "back")
        yield (
            f"The frame is {with_unit(units, abs(taper))} wider at the {wide} than at the {narrow}:"
            " it is tapered."
        )
        yield "Bring the back to the front's width before the back rail goes on."
    if {"bellied", "waisted"} & set(shapes):
        way, how = ("wider", "outwards") if belly > 0 else ("narrower", "inwards")
        yield (
            f"In the middle it is {with_unit(units, abs(belly))} {way} than half-way between front "
            f"and back: the side rails bow {how}."
        )
        yield "Clamp a bowed rail straight while its screws go in, or take a straight one."


def _square_told(square: Squareness, shapes: Sequence[Shape], units: Units) -> Iterator[str]:
    yield square.sentence
    if square.square and "tapered" in shapes:
        yield "But diagonals that agree do not make the corners of a tapered frame square."
    if not square.square and not square.misread:
        side, sharp = (
            ("right", "front left and back right")
            if square.lean > 0
            else ("left", "front right and back left")
        )
        lean = with_unit(units, abs(square.lean))
        angle = f"{abs(square.angle):.1f}"
        yield (
            f"The back stands {lean} too far to the {side}; the corners {sharp} are {angle}"
            " degrees too sharp, the other two as much too wide."
        )


def _against_hive(hive: Hive, frame: Frame) -> Iterator[str]:
    """Where the frame and the hive that stands on it do not agree."""
    width = values(hive)["hive_width"]
    for place, reading in zip(("front", "middle", "back"), frame.widths, strict=True):
        if abs(reading - width) > TAPE_AGREES:
            what = "narrower" if reading < width else "wider"
            does = "the box stands over" if reading < width else "rain stands on its edge"
            yield (
                f"At the {place} it is {with_unit(hive.units, abs(reading - width))} {what} than "
                f"the hive: {does}."
            )


def _opening(hive: Hive, frame: Frame, square: Squareness) -> Values:
    """The opening that a frame leaves for what slides straight in from the back."""
    rails = 2 * hive.measurements["stud_thickness"]
    leaning = not square.square and not square.misread
    lean = abs(square.lean) if leaning else Fraction(0)
    found = {"bottom_board.opening_width": min(frame.widths) - lean - rails}
    if frame.lengths:
        found["bottom_board.opening_length"] = min(frame.lengths) - rails
    refuse(faults_of_opening(hive, found))
    return found


def _recuts(hive: Hive, given: Mapping[str, Fraction]) -> tuple[Change, ...]:
    cut = {s.name for s in cut_sizes(hive)}
    return tuple(c for c in changes(values(hive), values(hive, given)) if c.name in cut)


def _recuts_told(recuts: Iterable[Change], units: Units) -> Iterator[str]:
    for change in recuts:
        if abs(change.new - change.old) > READING:
            new, old = (to_cut(change.name, v, units) for v in (change.new, change.old))
            yield f"If the frame stays so, cut the {title(change.name)} to {new}, not {old}."


def faults_of_frame(hive: Hive, frame: Frame) -> Iterator[Fault]:
    """What is wrong with the readings of a frame."""
    if len(frame.widths) != 3:  # noqa: PLR2004 - front, middle, back
        found = f"{len(frame.widths)} widths"
        yield Fault("frame", found, "give three: front, middle and back")
    readings = (*frame.widths, *frame.lengths, frame.rising, frame.falling)
    yield from faults_of_lengths("frame", readings, hive.units)


def faults_of_opening(hive: Hive, opening: Mapping[str, Length]) -> Iterator[Fault]:
    """The sizes of an opening that leave no room in the frame."""
    for name, size in opening.items():
        if size <= 0:
            accepted = "readings that leave an opening between the rails are accepted"
            yield Fault(
                "frame", f"the {title(name)} would be {with_unit(hive.units, size)}", accepted
            )
