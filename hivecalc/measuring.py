"""What to make of several readings: three places, and two diagonals.

How a box leans follows from its diagonals by the law of cosines; the rest is common practice, no
published source.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from hivecalc.length import Length, Units, shown, with_unit

STRAIGHT_ENOUGH = Fraction(1, 8)
SQUARE_ENOUGH = Fraction(1, 8)
MISREAD = Fraction(1, 2)
"""Readings of one size that differ by more are not of one box: a number was misread."""


@dataclass(frozen=True)
class Advice:
    """What several readings of one size come to: the reading to use, if they agree, and why.

    `misread` says that they can't all be right, so none is to be used.
    """

    use: Length
    straight: bool
    misread: bool
    sentence: str


def reading_to_use(readings: Sequence[Length], units: Units = "inch") -> Advice:
    """The reading of one outside size to derive from, taken from readings at several places.

    The largest is used, for the roof must go over the widest place. Readings that differ by more
    than 1/8 in are called crooked, by more than 1/2 in misread. Lengths are in inches. Raises
    ValueError without a reading.
    """
    if not readings:
        raise ValueError("give at least one reading")
    use, spread = max(readings), max(readings) - min(readings)
    straight = spread <= STRAIGHT_ENOUGH
    text = f"Use the largest, {with_unit(units, use)}: the roof must go over the widest place."
    differ = f"your readings differ by {with_unit(units, spread)}"
    if spread > MISREAD:
        text = f"{differ.capitalize()}: one of them is misread. Measure them again."
    elif not straight:
        text += (
            f" But {differ}, more than"
            f" {shown(STRAIGHT_ENOUGH, units)}: measure again, and true up the box before you"
            " build for it."
        )
    elif spread:
        text += f" They differ by {with_unit(units, spread)}, as they may in a box made by hand."
    return Advice(use, straight, spread > MISREAD, text)


@dataclass(frozen=True)
class Squareness:
    """How far a box is out of square, from its sides and its two diagonals.

    `lean` is how far the back of the box has moved sideways against its front, in inches; more
    than nothing to the right. `difference` is that of the diagonals. `misread` says that no box
    with straight sides has these sides and diagonals.
    """

    lean: Length
    difference: Length
    square: bool
    misread: bool
    sentence: str


def lean(length: Length, width: Length, rising: Length, falling: Length) -> Length:
    """How far the back of a box has moved sideways against its front.

    `rising` is the diagonal from the front left corner to the back right one, `falling` the other.
    By the law of cosines rising² − falling² = 4 · width · lean, whatever the length.

    The lean can't be more than the length; a larger one is cut to it. Lengths are in inches.
    """
    sideways = (rising**2 - falling**2) / (4 * width)
    return max(-length, min(length, sideways))


def squareness(
    length: Length, width: Length, rising: Length, falling: Length, units: Units = "inch"
) -> Squareness:
    """How far a box with these sides and diagonals is out of square.

    Diagonals that differ by no more than 1/8 in are called square enough. Lengths are in inches.
    """
    difference = abs(rising - falling)
    expected = math.sqrt(length**2 + width**2)
    mean = math.sqrt((rising**2 + falling**2) / 2)
    misread = abs(mean - expected) > STRAIGHT_ENOUGH
    square = difference <= SQUARE_ENOUGH and not misread
    differ = f"The diagonals differ by {with_unit(units, difference)}"
    if misread:
        text = (
            "These sides and diagonals do not go together: one of them is misread."
            " Measure the diagonals again, corner to corner."
        )
    elif square:
        text = f"{differ}: square enough to build for."
    else:
        text = (
            f"{differ}, more than {shown(SQUARE_ENOUGH, units)}. Push the two corners of the"
            " longer diagonal together until both are the same."
        )
    return Squareness(lean(length, width, rising, falling), difference, square, misread, text)
