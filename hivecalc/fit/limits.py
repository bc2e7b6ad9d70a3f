"""Limits that rules of several components share, each with its source."""

from fractions import Fraction
from typing import Final

BEE_SPACE_LOW: Final = Fraction(1, 4)
BEE_SPACE_HIGH: Final = Fraction(3, 8)
BEE_SPACE: Final = (
    "bee space of 1/4 to 3/8 in, a rule of thumb: encyclopedias and beekeepers' associations, "
    "which differ by 1 to 3 mm"
)
POINT_COVER: Final = Fraction(1, 8)
"""Wood left beyond the point of a brad or screw; common practice, no published source."""
