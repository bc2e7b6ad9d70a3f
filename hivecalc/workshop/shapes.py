"""Slanted cuts: the taper of the roof's rim sides, and edges that are ripped with a tilted blade.

The blade leans away from the fence, so that what falls off is not caught under it. The face that
lies on the table then comes out narrower than the one above it.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import atan, degrees
from typing import NamedTuple

from hivecalc.components import values
from hivecalc.hive import Hive
from hivecalc.hive.hive import said_with_unit
from hivecalc.length import MM, Length, Ratio, Units, decimal_inches, shown
from hivecalc.space.bottom_board import COSINE, SINE
from hivecalc.space.roof import cosine
from hivecalc.workshop.needs import batch, needed


class Mark(NamedTuple):
    """A mark on a piece: how far from its front end, and how far above its straight edge."""

    along: Length
    up: Length


@dataclass(frozen=True)
class Taper:
    """A taper from one height to a lower one over a length: its angle, marks and jig.

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
    def jig_offset(self) -> Length:
        """How much nearer to the sled's edge the straight edge lies at the back than in front.

        Both square to the sled's edge, along which the blade runs; too big by less than one part in
        a million.
        """
        return self.rise * cosine(self.slope)


def taper(hive: Hive) -> Taper:
    """The taper of a hive's rim sides, over the length that they are cut to."""
    pieces = needed(batch([hive]))
    side = next(p for p in pieces if (p.component, p.part) == ("roof", "rim_side"))
    return Taper(side.length, side.width, values(hive)["rim_low_height"])


@dataclass(frozen=True)
class Bevel:
    """An edge ripped with the blade tilted: the tilt, the fence, and the two faces' widths.

    Lengths in inches, the tilt in degrees from upright. `slope` is the tangent of the tilt; `upper`
    is the width of the face that lies above, and the fence is set to that of the face below.
    """

    thickness: Length
    upper: Length
    slope: Ratio

    @property
    def tilt(self) -> float:
        """How far the blade leans from upright, in degrees."""
        return degrees(atan(self.slope))

    @property
    def fence(self) -> Length:
        """Distance from the fence to the blade where it comes out of the table."""
        return self.upper - self.thickness * self.slope


def landing_bevel(hive: Hive) -> Bevel:
    """The bevel of the landing board's rear edge, which lies against the frame."""
    sizes = hive.measurements
    return Bevel(sizes["landing_thickness"], sizes["landing_width"], SINE / COSINE)


# ── in words ──────────────────────────────────────────────────────────────────────────────────


def degrees_text(angle: float) -> str:
    """An angle as a saw's scale shows it."""
    return f"{decimal_inches(Fraction(round(angle * 1000), 1000), 1)}°"


def taper_told(taper: Taper, units: Units = "inch") -> Iterator[str]:
    """How a taper is marked, set up and checked."""
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
    metric = units == "mm"
    leg, told = (300 * MM, "300 mm") if metric else (Fraction(12), "12 in")
    yield f"a hinged jig stands {shown(leg * taper.slope, units)} open, {told} from its hinge"
    yield f"check: {middle} high half-way; {rise} fall over {run}"
