"""Slips about the tape: the right length, read or marked wrongly."""

from collections.abc import Iterator
from fractions import Fraction
from functools import partial

from hivecalc.judging.slip import Slip, Wrong
from hivecalc.length import MILLIMETRE, SIXTEENTH, Units, millimetres, rounded, written

READ = "did you read it off a tape"
SLIPS = (
    Slip(
        "one_tick_off", "tape",
        "it were one mark of the tape off, one too far or one too short",
        "Look once more: which mark is it, counted from the nearest long one?",
        "Find 7 5/16 on a tape, then 7 3/8, then 7 7/16. How far is it from one to the next?",
        6, trace=READ,
    ),
    Slip(
        "eighths_for_sixteenths", "tape",
        "the small marks were counted as eighths, and they are sixteenths",
        "How many of the smallest marks are there in a whole inch of this tape?",
        "Count the smallest marks from 4 to 5 on a tape. What is the third one called?",
        5, trace=READ,
    ),
    Slip(
        "sixteenths_for_eighths", "tape",
        "the longer marks were counted as sixteenths, and they are eighths",
        "Are there shorter marks between those that you counted?",
        "Find the fifth eighth after 9 on a tape. How many of the smallest marks is that?",
        4, trace=READ,
    ),
    Slip(
        "long_mark_dropped", "tape",
        "the marks were counted from the last long one, and that one were left out of the reading",
        "From which mark did you begin to count? How much is that mark itself?",
        "Find the third sixteenth after 8 1/2 on a tape. What is that mark called?",
        5, trace=READ,
    ),
    Slip(
        "longer_marks_left_out", "tape",
        "only the shortest marks were counted, and the longer ones between them left out",
        "Between two of the shortest marks stands a longer one. Does it count?",
        "Count all marks from 4 to 4 1/2 on a tape, the longer ones as well. How many are there?",
        4, trace="did you count the shortest marks only",
    ),
    Slip(
        "from_the_other_end", "tape",
        "the fraction were counted back from the next inch",
        "From which number did you count the marks: from the one before or the one behind?",
        "A mark lies 3/8 in before the 15 on a tape. What is it called?",
        5, trace="did you count back from the next number",
    ),
    Slip(
        "wrong_inch", "tape",
        "the fraction were right and the whole inches were counted one off",
        "Count the whole inches once more: between which two numbers does it lie?",
        "A mark lies a little before the 14 on a tape, at the third eighth after the 13. What is "
        "it called?",
        4, trace=READ,
    ),
    Slip(
        "first_inch_kept", "tape",
        "the tape were laid on at its 1 in mark, and that inch were not taken off again",
        "At which mark did your tape begin: at its hook or at 1 in?",
        "A tape with a bent hook is laid on at 1 in and shows 16 3/4 in at the other end. How long "
        "is the board?",
        5, trace=READ,
    ),
)  # fmt: skip
NAMED = {slip.name: slip for slip in SLIPS}

INCH, HALF, QUARTER = Fraction(1), Fraction(1, 2), Fraction(1, 4)


def readings(
    value: Fraction, units: Units = "inch", step: str = "reading", *, laid_on: bool = True
) -> Iterator[Wrong]:
    """The wrong readings of a length, whatever it is the length of.

    >>> [(w.slip.name, str(w.value)) for w in readings(Fraction(83, 16))][:3]
    [('one_tick_off', '21/4'), ('one_tick_off', '41/8'), ('eighths_for_sixteenths', '43/8')]

    In inches. On a tape in mm only the neighbouring marks are wrong readings. laid_on says whether
    a piece was measured, so that the tape may have begun at 1 in, or only a mark was read.
    """
    marks = MILLIMETRE if units == "mm" else SIXTEENTH
    mark = rounded(value, marks)
    wrong = [("one_tick_off", mark + marks.step), ("one_tick_off", mark - marks.step)]
    if units == "inch":
        wrong += _fractions_misread(mark)
        wrong += [("first_inch_kept" if laid_on else "wrong_inch", value + INCH)]
        wrong += [("wrong_inch", value - INCH)]
    for name, read in wrong:
        yield Wrong(NAMED[name], step, read, _working=partial(_working, name, mark, read, units))


def _fractions_misread(mark: Fraction) -> Iterator[tuple[str, Fraction]]:
    """The readings of a mark whose inch is right, and whose fraction is another."""
    inch, part = mark // 1, mark % 1
    past_half, past_quarter = part % HALF, part % QUARTER
    if 0 < part < HALF:
        yield "eighths_for_sixteenths", mark + part
    if part > QUARTER and past_quarter > SIXTEENTH.step:
        yield "eighths_for_sixteenths", mark + past_quarter
    if part > 0 and part.denominator <= 8:  # noqa: PLR2004 - a mark of an eighth
        yield "sixteenths_for_eighths", inch + part / 2
    for past in {past_half, past_quarter} - {0, part}:
        yield "long_mark_dropped", inch + past
    if past_quarter == 3 * SIXTEENTH.step:
        yield "longer_marks_left_out", mark + 2 * SIXTEENTH.step
    if part not in {0, HALF}:
        yield "from_the_other_end", inch + 1 - part


def _working(name: str, mark: Fraction, read: Fraction, units: Units) -> str:
    text = millimetres if units == "mm" else written
    if name == "first_inch_kept":
        return f"from 1 in to {text(read)} in is {text(read)} in"
    return f"{text(mark)} read as {text(read)}"
