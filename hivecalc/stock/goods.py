"""Goods as the yard sells them: boards by length, whole sheets, fasteners and glue by the package.

Money is a Fraction of whatever the user pays in, None where the price is not known.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from hivecalc.length import Length

Money: TypeAlias = Fraction


@dataclass(frozen=True, slots=True)
class Board:
    """Boards of one length and section; `count` is how many there are, None as many as needed.

    >>> Board("8 ft stud", "stud", Fraction(3, 2), Fraction(7, 2), Fraction(96)).length
    Fraction(96, 1)

    In inches. A board at hand (an offcut, a sound length beside a defect) has a count, costs
    nothing and is used first. `straight` says whether long pieces may come out of it.
    """

    name: str
    material: str
    thickness: Length
    width: Length
    length: Length
    price: Money | None = None
    count: int | None = None
    at_hand: bool = False
    straight: bool = True


@dataclass(frozen=True, slots=True)
class SheetGoods:
    """Sheets of one size; `count` is how many there are, None as many as needed.

    >>> half = SheetGoods("half sheet", "plywood", Fraction(1, 2), Fraction(48), Fraction(48))
    >>> half.count is None
    True

    In inches. The grain, or the flutes, run along the length.
    """

    name: str
    material: str
    thickness: Length
    width: Length
    length: Length
    price: Money | None = None
    count: int | None = None
    at_hand: bool = False


@dataclass(frozen=True, slots=True)
class Package:
    """Small goods by the package: what is in it, how many or how far it goes, and its price.

    >>> Package("box of 100 screws, 3 in", "frame_screw", 100).holds
    100

    `holds` counts pieces, or for glue and silicone the inches of joint that one tube covers.
    """

    name: str
    item: str
    holds: int
    price: Money | None = None
