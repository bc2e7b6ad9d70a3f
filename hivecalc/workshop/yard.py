"""What a yard sells, what it asks for it, and what a saw and a hand can do: all a plan rests on.

Money is a Fraction of whatever the user pays in, None where the price is not known.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final, TypeAlias

from hivecalc.length import MILLIMETRE, MM, TENTH_MM, Length, Rounding, Units, rounded
from hivecalc.support.faults import Fault

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


# ── small goods ───────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True, slots=True)
class Item:
    """One kind of small goods: its name for one and for several.

    >>> ITEMS["long_brad"].named(4, "1 1/4 in"), ITEMS["glue"].named(90)
    ('4 brads of 1 1/4 in', 'glue for 90 in of joint')

    What is spread is counted in inches of joint. Of what `gets_lost`, some more is bought than is
    counted.
    """

    one: str
    several: str
    spread: bool = False
    gets_lost: bool = True
    more: tuple[str, str] = ("", "")

    def named(self, count: int, size: str = "", units: Units = "inch") -> str:
        """So many of it in words, each of this size."""
        if self.spread and units == "mm":
            return f"{self.one} for {float(count / MM) / 1000:.1f} m of joint"
        if self.spread:
            return f"{self.one} for {count:,} in of joint"
        name, more = (self.one, self.more[0]) if count == 1 else (self.several, self.more[1])
        return f"{count:,} {name}{f' of {size}' * bool(size)}{more}"


ITEMS: Final[Mapping[str, Item]] = {
    "frame_screw": Item("screw", "screws"),
    "deck_screw": Item("deck screw", "deck screws"),
    "edge_screw": Item("screw for edge strips", "screws for edge strips"),
    "cover_screw": Item("cover screw", "cover screws"),
    "long_brad": Item("brad", "brads"),
    "short_brad": Item("brad", "brads"),
    "stop_brad": Item("brad", "brads"),
    "sheet_brad": Item("brad", "brads"),
    "hanger_bolt": Item(
        "hanger bolt",
        "hanger bolts",
        gets_lost=False,
        more=(" with washer and wing nut", " with washers and wing nuts"),
    ),
    "silicone": Item("dab of outdoor silicone", "dabs of outdoor silicone"),
    "glue": Item("glue", "glue", spread=True),
}
"""Every kind of small goods, by the name that a yard file and a hive file have for it."""


# ── the yard ──────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Yard:
    """What a yard sells, in which currency, what the saw takes, and what its user will do.

    >>> from hivecalc.workshop.yard_file import demo_yard
    >>> demo_yard().currency, demo_yard().kerf
    ('coins', Fraction(1, 8))

    Lengths in inches. The defaults are common practice, no published source; a machine's manual
    goes before each of them. `kerf` is what a cut takes, `cut_margin` what is added to each so
    that no error adds up, `end_trim` what comes off both ends of a new board. Nothing shorter than
    `least_rip` is ripped, nothing narrower than `least_fence` runs between fence and blade, and no
    piece shorter than `least_stop` is cut against a stop by a machine. No board longer than
    `longest_board` is bought. `left_out` tells which rows of the file are no part of the yard.
    """

    currency: str
    boards: tuple[Board, ...]
    sheets: tuple[SheetGoods, ...]
    packages: tuple[Package, ...]
    units: Units = "inch"
    kerf: Length = Fraction(1, 8)
    cut_margin: Length = Fraction(1, 32)
    end_trim: Length = Fraction(1, 2)
    least_rip: Length = Fraction(12)
    least_fence: Length = Fraction(3, 4)
    least_stop: Length = Fraction(6)
    longest_board: Length = Fraction(144)
    spare_percent: Fraction = Fraction(10)
    spare_boards: Fraction = Fraction(5)
    minutes_a_setting: Fraction = Fraction(3)
    left_out: tuple[Fault, ...] = ()

    @property
    def goods(self) -> tuple[Board | SheetGoods, ...]:
        """Everything that is cut: boards, then sheets."""
        return (*self.boards, *self.sheets)

    @property
    def cut(self) -> Length:
        """What one cut of the saw takes of a length, with its margin."""
        return self.kerf + self.cut_margin


def told_in(yard: Yard, units: Units) -> Yard:
    """The same yard for hives in these units: in mm, what saw and hand do is in whole mm, too.

    >>> from hivecalc.length import with_unit
    >>> from hivecalc.workshop.yard_file import demo_yard
    >>> told = told_in(demo_yard(), "mm")
    >>> [with_unit("mm", size) for size in (told.kerf, told.least_fence, told.least_rip)]
    ['3.2 mm', '20 mm', '305 mm']

    A margin is never less than it was: it goes up to the next mm, or tenth of one below 10 mm.
    """
    if units == "inch":
        return replace(yard, units=units)
    return replace(
        yard,
        units=units,
        kerf=_up_to_mm(yard.kerf),
        cut_margin=_up_to_mm(yard.cut_margin),
        end_trim=_up_to_mm(yard.end_trim),
        least_rip=_up_to_mm(yard.least_rip),
        least_fence=_up_to_mm(yard.least_fence),
        least_stop=_up_to_mm(yard.least_stop),
        longest_board=_up_to_mm(yard.longest_board),
    )


def _up_to_mm(length: Length) -> Length:
    return rounded(length, TENTH_MM if length < 10 * MM else MILLIMETRE, Rounding.UP)
