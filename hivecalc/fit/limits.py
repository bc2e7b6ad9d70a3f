"""Limits that rules of several components share, each with its source."""

from fractions import Fraction
from typing import Final

from hivecalc.stock import COMMON

BEE_SPACE_LOW: Final = Fraction(1, 4)
BEE_SPACE_HIGH: Final = Fraction(3, 8)
BEE_SPACE_SPREAD: Final = Fraction(1, 16)
BEE_SPACE: Final = (
    "bee space of 1/4 to 3/8 in (6 to 9.5 mm), a rule of thumb: a British and an Australian "
    "beekeepers' association, the latter 8 to 10 mm; the widest range takes in a sixteenth more "
    "on both sides, since sources differ by 1 to 3 mm"
)
POINT_COVER: Final = Fraction(1, 8)
POINT_COVER_LEAST: Final = Fraction(1, 16)
"""Wood left beyond the point of a brad or screw; common practice, no published source."""
BRAD_BITE: Final = Fraction(1, 8)
SCREW_EDGE: Final = Fraction(3, 16)
AGREE: Final = Fraction(1, 8)
AGREE_LEAST: Final = Fraction(1, 16)
"""What two sizes may differ that should be flush: strictly, and at most."""
SNUG_LOW: Final = Fraction(-1, 16)
"""Foam gives by so much when it is pressed in; common practice, no published source."""
SNUG_HIGH: Final = Fraction(1, 4)
LOOSE_HIGH: Final = Fraction(2)
"""What a runner or retainer may be shorter than its place; common practice, no published source."""
MEMORY: Final = f"{COMMON}; from memory"
