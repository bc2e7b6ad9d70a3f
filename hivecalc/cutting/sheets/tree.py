"""A sheet as a tree of cuts, each from edge to edge of the part that it cuts in two.

The sheet lies with its length away from you. x runs from its left edge, y from its near end.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple, TypeAlias

from hivecalc.cutting.sheets.blocks import Way
from hivecalc.length import Length


class Rectangle(NamedTuple):
    """A part of a sheet: its left near corner, and how far it reaches across and along the sheet.

    >>> Rectangle(Fraction(0), Fraction(0), Fraction(3), Fraction(5)).area
    Fraction(15, 1)

    In inches.
    """

    x: Length
    y: Length
    width: Length
    length: Length

    @property
    def area(self) -> Fraction:
        """Its area in square inches."""
        return self.width * self.length


@dataclass(frozen=True, slots=True)
class Piece:
    """A part that is a piece, exactly; `turned` says that its own length lies across the sheet."""

    label: str
    turned: bool = False


@dataclass(frozen=True, slots=True)
class Offcut:
    """A part that is left over."""


@dataclass(frozen=True, slots=True)
class Split:
    """A part that is cut in two, along the sheet or across it.

    `at` is how much the low part keeps, which is the left one or the near one. Behind it comes the
    kerf, then the high part. Where the blade leaves nothing of a part, it is None.
    """

    way: Way
    at: Length
    low: "Part | None"
    high: "Part | None"


Part: TypeAlias = Piece | Offcut | Split


def halves(split: Split, where: Rectangle, kerf: Length) -> tuple[Rectangle, Rectangle]:
    """The rectangles of the two parts that a cut leaves; one may have nothing in it.

    >>> whole = Rectangle(*map(Fraction, (0, 0, 48, 96)))
    >>> rip = Split("along", Fraction(20), None, None)
    >>> [str(half.width) for half in halves(rip, whole, Fraction(1, 8))]
    ['20', '223/8']
    """
    x, y, width, length = where
    beyond = split.at + kerf
    if split.way == "along":
        high = Rectangle(x + beyond, y, max(width - beyond, Fraction(0)), length)
        return Rectangle(x, y, split.at, length), high
    high = Rectangle(x, y + beyond, width, max(length - beyond, Fraction(0)))
    return Rectangle(x, y, width, split.at), high
