"""The taper of the roof's rim sides, and the blade's tilt that it gives the front between them."""

from dataclasses import dataclass
from fractions import Fraction
from math import atan, degrees
from typing import Final, NamedTuple

from hivecalc.components import values
from hivecalc.cutting.needs.pieces import needed
from hivecalc.hive import Hive
from hivecalc.length import Length, Ratio
from hivecalc.space.roof import cosine

FOOT: Final = Fraction(12)


class Mark(NamedTuple):
    """A mark on a piece: how far from its front end, and how far above its straight edge."""

    along: Length
    up: Length


@dataclass(frozen=True)
class Taper:
    """A taper from one height to a lower one over a length: its angle, marks and jig.

    >>> side = Taper(Fraction(24), Fraction(7, 2), Fraction(3, 2))
    >>> side.slope, round(side.angle, 3), side.per_foot
    (Fraction(1, 12), 4.764, Fraction(1, 1))

    Lengths in inches, the angle in degrees.
    """

    run: Length
    high: Length
    low: Length

    @property
    def rise(self) -> Length:
        """How much higher the front is than the back."""
        return self.high - self.low

    @property
    def slope(self) -> Ratio:
        """Rise over run."""
        return self.rise / self.run

    @property
    def angle(self) -> float:
        """The angle between the straight edge and the cut, in degrees."""
        return degrees(atan(self.slope))

    @property
    def marks(self) -> tuple[Mark, Mark]:
        """The two marks that the cut runs through: the front's top corner, and the low height."""
        return Mark(Fraction(0), self.high), Mark(self.run, self.low)

    @property
    def middle(self) -> Length:
        """The height half-way along: what a check with the tape must find."""
        return (self.high + self.low) / 2

    @property
    def per_foot(self) -> Length:
        """How far a jig stands open, a foot from where its legs meet, square to one of them."""
        return FOOT * self.slope

    @property
    def from_jig(self) -> tuple[Length, Length]:
        """How far the straight edge lies from the sled's edge, at the front and at the back.

        Both are square to the sled's edge, along which the blade runs; too big by less than one
        part in a million.
        """
        return self.high * cosine(self.slope), self.low * cosine(self.slope)

    @property
    def jig_offset(self) -> Length:
        """How much nearer to the sled's edge the straight edge lies at the back than in front."""
        front, back = self.from_jig
        return front - back


def taper(hive: Hive) -> Taper:
    """The taper of a hive's rim sides, over the length that they are cut to.

    >>> from hivecalc.hive import demo_hive
    >>> round(taper(demo_hive()).angle, 2), taper(demo_hive()).middle
    (4.84, Fraction(5, 2))
    """
    side = next(p for p in needed([hive]) if (p.component, p.part) == ("roof", "rim_side"))
    return Taper(side.length, side.width, values(hive)["rim_low_height"])
