"""Slips about the tape: the right length, read or marked wrongly."""

import ast
from collections.abc import Iterator
from fractions import Fraction
from functools import partial

from hivecalc.derivation import Dimension
from hivecalc.hive import MEASUREMENTS
from hivecalc.length import (
    MILLIMETRE,
    SIXTEENTH,
    Units,
    millimetres,
    rounded,
    written,
)
from hivecalc.slips.slip import Slip, Wrong

SLIPS = (
    Slip(
        "one_tick_off", "tape",
        "it were one mark of the tape off, one too far or one too short",
        "Look once more, on the tape or in your sum: which mark is it, counted from the nearest "
        "long one?",
        "Find 7 5/16 on a tape, then 7 3/8, then 7 7/16. How far is it from one to the next?",
        "mark to read on a tape", 6,
    ),
    Slip(
        "eighths_for_sixteenths", "tape",
        "the small marks were counted as eighths, and they are sixteenths",
        "How many of the smallest marks are there in a whole inch of this tape?",
        "Count the smallest marks from 4 to 5 on a tape. What is the third one called?",
        "mark to read on a tape", 5,
    ),
    Slip(
        "wrong_inch", "tape",
        "the fraction were right and the whole inches were counted one off",
        "Count the whole inches once more, on the tape or in your sum: between which two numbers "
        "does it lie?",
        "A mark lies a little before the 14 on a tape, at the third eighth after the 13. What is "
        "it called?",
        "mark to read on a tape", 4,
    ),
    Slip(
        "first_inch_kept", "tape",
        "the tape were laid on at its 1 in mark, and that inch were not taken off again",
        "At which mark did your tape begin: at its hook or at 1 in?",
        "A tape with a bent hook is laid on at 1 in and shows 16 3/4 in at the other end. How long "
        "is the board?",
        "length that is measured with a tape", 5,
    ),
)  # fmt: skip
NAMED = {slip.name: slip for slip in SLIPS}

INCH = Fraction(1)


def makes_sense(slip: str, dimension: Dimension, units: Units) -> bool:
    """Whether a step's size can be misread so: the first inch only where it may be measured."""
    if dimension.kind != "length" or (units == "mm" and slip != "one_tick_off"):
        return False
    return slip != "first_inch_kept" or _is_read(dimension) or dimension.name in MEASUREMENTS


def _is_read(dimension: Dimension) -> bool:
    """Whether a dimension is a size that the tape says, and nothing is worked out."""
    if not isinstance(dimension.expression, ast.Name):
        return False
    (source,) = dimension.inputs
    return source in MEASUREMENTS and MEASUREMENTS[source].group == "measured"


def wrong_answers(
    dimension: Dimension, value: Fraction, units: Units, *, measured: bool
) -> Iterator[Wrong]:
    """The wrong readings of a step's right value that make sense for it."""
    no_tape_laid = not measured and not _is_read(dimension)
    for wrong in readings(value, units, dimension.name):
        name = wrong.slip.name
        if name == "first_inch_kept" and no_tape_laid:
            continue
        if makes_sense(name, dimension, units):
            yield wrong


def readings(value: Fraction, units: Units = "inch", step: str = "reading") -> Iterator[Wrong]:
    """The wrong readings of a length, whatever it is the length of.

    >>> [(w.slip.name, str(w.value)) for w in readings(Fraction(83, 16))][:3]
    [('one_tick_off', '21/4'), ('one_tick_off', '41/8'), ('eighths_for_sixteenths', '43/8')]

    In inches. On a tape in mm only the neighbouring marks are wrong readings.
    """
    marks = MILLIMETRE if units == "mm" else SIXTEENTH
    mark = rounded(value, marks)
    wrong = [("one_tick_off", mark + marks.step), ("one_tick_off", mark - marks.step)]
    if units == "inch":
        wrong += _inch_readings(value, mark)
    for name, read in wrong:
        yield Wrong(NAMED[name], step, read, _working=partial(_working, name, mark, read, units))


def _inch_readings(value: Fraction, mark: Fraction) -> Iterator[tuple[str, Fraction]]:
    if 0 < mark % 1 < Fraction(1, 2):
        yield "eighths_for_sixteenths", mark + mark % 1
    yield "wrong_inch", value + INCH
    yield "wrong_inch", value - INCH
    yield "first_inch_kept", value + INCH


def _working(name: str, mark: Fraction, read: Fraction, units: Units) -> str:
    text = millimetres if units == "mm" else written
    if name == "first_inch_kept":
        return f"from 1 in to {text(read)} in is {text(read)} in"
    return f"{text(mark)} read as {text(read)}"
