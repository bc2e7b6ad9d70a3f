"""Edges that are ripped with a tilted blade: the landing board's, and the top of the rim's front.

The blade leans away from the fence, so that what falls off is not caught under it. The face that
lies on the table then comes out narrower than the one above it.
"""

from dataclasses import dataclass
from math import atan, degrees
from typing import Final

from hivecalc.components import values
from hivecalc.hive import Hive
from hivecalc.length import Length, Ratio
from hivecalc.space.bottom_board import COSINE, SINE

LANDING_TILT: Final = 30.0
"""Degrees by which the landing board falls; common practice, no published source."""


@dataclass(frozen=True)
class Bevel:
    """An edge ripped with the blade tilted: the tilt, the fence, and the two faces' widths.

    >>> from fractions import Fraction
    >>> edge = Bevel(Fraction(3, 4), Fraction(7, 2), Fraction(1, 4))
    >>> edge.fence, round(edge.tilt, 2)
    (Fraction(53, 16), 14.04)

    Lengths in inches, the tilt in degrees from upright. `slope` is the tangent of the tilt; `upper`
    is the width of the face that lies above, and the fence is set to that of the face below.
    """

    thickness: Length
    upper: Length
    slope: Ratio

    @property
    def tilt(self) -> float:
        """How far the blade leans from upright, in degrees."""
        return tilt_of(self.slope)

    @property
    def taken(self) -> Length:
        """How much narrower the face on the table becomes."""
        return self.thickness * self.slope

    @property
    def fence(self) -> Length:
        """Distance from the fence to the blade where it comes out of the table."""
        return self.upper - self.taken


def tilt_of(slope: Ratio) -> float:
    """How many degrees a blade leans that goes aside by so much for each inch up.

    >>> tilt_of(1)
    45.0
    """
    return degrees(atan(slope))


def landing_bevel(hive: Hive) -> Bevel:
    """The bevel of the landing board's rear edge, which lies against the frame.

    >>> from hivecalc.hive import demo_hive
    >>> bevel = landing_bevel(demo_hive())
    >>> round(bevel.tilt, 4), round(float(bevel.taken), 3)
    (30.0, 0.433)
    """
    sizes = hive.measurements
    return Bevel(sizes["board_thickness"], sizes["stud_width"], SINE / COSINE)


def rim_front_bevel(hive: Hive) -> Bevel:
    """The bevel of the top of the rim's front, which follows the roof's slope.

    >>> from hivecalc.hive import demo_hive
    >>> bevel = rim_front_bevel(demo_hive())
    >>> round(bevel.tilt, 2), round(float(bevel.fence), 3)
    (4.84, 3.373)
    """
    found = values(hive)
    return Bevel(found["stud_thickness"], found["stud_width"], found["roof.slope"])
