"""Slanted cuts: the taper of the roof's rim sides, and edges that are ripped with a tilted blade.

The blade leans away from the fence, so that what falls off is not caught under it. The face that
lies on the table then comes out narrower than the one above it.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import atan, degrees
from typing import Final, NamedTuple

from hivecalc.components import values
from hivecalc.hive import Hive
from hivecalc.hive.hive import said_with_unit
from hivecalc.length import Length, Ratio, Units, decimal_inches, shown
from hivecalc.space.bottom_board import COSINE, SINE
from hivecalc.space.roof import cosine
from hivecalc.workshop.needs import batch, needed

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
    """The taper of a hive's rim sides, over the length that they are cut to."""
    pieces = needed(batch([hive]))
    side = next(p for p in pieces if (p.component, p.part) == ("roof", "rim_side"))
    return Taper(side.length, side.width, values(hive)["rim_low_height"])


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
    """How many degrees a blade leans that goes aside by so much for each inch up."""
    return degrees(atan(slope))


def landing_bevel(hive: Hive) -> Bevel:
    """The bevel of the landing board's rear edge, which lies against the frame."""
    sizes = hive.measurements
    return Bevel(sizes["landing_thickness"], sizes["landing_width"], SINE / COSINE)


# ── in words ──────────────────────────────────────────────────────────────────────────────────


def degrees_text(angle: float) -> str:
    """An angle as a saw's scale shows it."""
    return f"{decimal_inches(Fraction(round(angle * 1000), 1000), 1)}°"


def taper_told(taper: Taper, units: Units = "inch") -> Iterator[str]:
    """How a taper is marked, set up and checked.

    >>> for line in taper_told(Taper(Fraction(24), Fraction(7, 2), Fraction(3, 2))):
    ...     print(line)
    mark 1: at the front end, 3 1/2 in up, the top corner
    mark 2: 24 in from the front end, 1 1/2 in up from the straight edge
    the cut runs from mark to mark; the wedge above it is waste
    on a sled, the straight edge lies ≈ 2 in nearer to the blade at the back
    a hinged jig stands 1 in open, 12 in from its hinge
    check: 2 1/2 in high half-way; 2 in fall over 24 in
    """
    front, back = taper.marks
    high, low, run, rise, middle = (
        said_with_unit(length, units)
        for length in (front.up, back.up, back.along, taper.rise, taper.middle)
    )
    yield f"mark 1: at the front end, {high} up, the top corner"
    yield f"mark 2: {run} from the front end, {low} up from the straight edge"
    yield "the cut runs from mark to mark; the wedge above it is waste"
    nearer = shown(taper.jig_offset, units)
    yield f"on a sled, the straight edge lies {nearer} nearer to the blade at the back"
    foot, leg = _leg(taper, units)
    yield f"a hinged jig stands {shown(foot, units)} open, {leg} from its hinge"
    yield f"check: {middle} high half-way; {rise} fall over {run}"


def _leg(taper: Taper, units: Units) -> tuple[Length, str]:
    """How far a jig stands open, and how far from its hinge: a foot, or 300 mm."""
    if units == "mm":
        leg = Fraction(300 * 5, 127)
        return leg * taper.slope, "300 mm"
    return taper.per_foot, "12 in"
