"""A reading of the tape in words: as eyes count it, and the longer mark to count from."""

from fractions import Fraction
from typing import Final

from hivecalc.length import MM, SIXTEENTH, Units, written

TEN: Final = 10
LANDMARKS: Final = ("whole inch", "quarter", "half", "three-quarter mark")
LANDMARKS_MM: Final = ("the one with the number", "the one half-way to the next number")
FROM_THERE: Final = "Count the shortest marks from there."


def reading_in_words(mark: Fraction, units: Units = "inch") -> list[str]:
    """A reading of the tape, as eyes count it.

    >>> reading_in_words(Fraction(139, 8))
    ['The number before the arrow is 17.', \
'Past it the arrow is 6 of the shortest marks further: 6/16, which is 3/8.', \
'The tape reads 17 3/8 in.']

    The mark is in inches; a tape in mm has a number at every tenth of its marks.
    """
    number, past, unit = _counted_in_mm(mark) if units == "mm" else _counted_in_inches(mark)
    return [
        f"The number before the arrow is {number}.",
        f"Past it the arrow is {past}.",
        f"The tape reads {written(mark, units)} {unit}.",
    ]


def _counted_in_inches(mark: Fraction) -> tuple[int, str, str]:
    count, part = (mark % 1) / SIXTEENTH.step, written(mark % 1)
    lowest = "" if part.endswith("/16") else f", which is {part}"
    return mark // 1, f"{count} of the shortest marks further: {count}/16{lowest}", "in"


def _counted_in_mm(mark: Fraction) -> tuple[int, str, str]:
    tens, ones = divmod(mark / MM, TEN)
    return TEN * tens, f"{ones} of the shortest marks further: {ones} mm", "mm"


def landmark(mark: Fraction, units: Units = "inch") -> str:
    """The longer mark at or before a reading, as the last hint before its value.

    >>> landmark(Fraction(139, 8))
    'The longer mark just before the arrow is the quarter. Count the shortest marks from there.'
    >>> landmark(442 * MM, "mm")
    'The longer mark at or before the arrow is the one with the number. Count the shortest marks \
from there.'
    """
    if units == "mm":
        name = LANDMARKS_MM[mark / MM % TEN >= TEN / 2]
        return f"The longer mark at or before the arrow is {name}. {FROM_THERE}"
    count, beyond = divmod(mark % 1 / SIXTEENTH.step, 4)
    if not beyond:
        return (
            "The arrow stands on one of the longer marks: into how many parts do they cut the inch?"
        )
    name = LANDMARKS[int(count)]
    return f"The longer mark just before the arrow is the {name}. {FROM_THERE}"
