"""What a hive is made of: lumber and sheets as they are sold, with their sources, and parts."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal, NamedTuple, TypeAlias

from hivecalc.length import Length, Rounding

COMMON: Final = "common practice, no published source"


class Dressed(NamedTuple):
    """Actual size of a piece of lumber that is dry and planed, in inches."""

    thickness: Length
    width: Length


_THICKNESSES: Final = {1: "3/4", 2: "1 1/2"}
_WIDTHS: Final = {
    2: "1 1/2", 3: "2 1/2", 4: "3 1/2", 6: "5 1/2", 8: "7 1/4", 10: "9 1/4", 12: "11 1/4",
}  # fmt: skip


def _inches(text: str) -> Length:
    return sum(map(Fraction, text.split()), Fraction(0))


NOMINAL: Final[Mapping[str, Dressed]] = {
    f"{thick}x{wide}": Dressed(_inches(_THICKNESSES[thick]), _inches(_WIDTHS[wide]))
    for thick in _THICKNESSES
    for wide in _WIDTHS
}
"""Smallest dry dressed size of softwood lumber by its nominal name, such as "2x4".

American Softwood Lumber Standard PS 20-20, Table 3 (minimum-dressed sizes of boards and dimension),
as retold in an engineering reference. A real piece may be bigger: measure it.
"""


LEAST_RIP: Final = Fraction(12)
"""Nothing shorter is ripped on the saw, as it turns there; common practice, no published source."""
WHOLE_SHEET: Final = {"width": Fraction(48), "length": Fraction(96)}
"""Sides of a sheet of plywood, foam or plastic as it is sold, in inches: common practice."""


@dataclass(frozen=True, slots=True)
class TradeSize:
    """A size that nobody measures on the hive: its value in inches, what it is, its source."""

    value: Length
    what: str
    source: str


# ── parts and pieces ────────────────────────────────────────────────────────────────────────────

Material: TypeAlias = Literal["stud", "strip", "foam", "plywood", "sheet", "mesh", "board"]
ADJECTIVES: Final = {"thickness": "thick", "width": "wide", "length": "long"}
SIZES = tuple(ADJECTIVES)
ONE = ("",)
SIDES = ("left", "right")
ENDS = ("front", "back")
LAYERS = ("lower", "upper")


@dataclass(frozen=True)
class Part:
    """A kind of piece: its sizes are names of dimensions or measurements, or None.

    >>> rail = Part("side_rail", SIDES, "stud", "stud_thickness", "stud_width", "side_rail_length",
    ...             "Closes the frame at one side.")
    >>> rail.quantity, dict(rail.sizes())["length"]
    (2, 'side_rail_length')

    `places` name each piece of it: "left", "lower front"; a part of which there is one has one
    place without a name. A part with `only` is there where that measurement is not 0, one with
    `unless` where it is.
    """

    name: str
    places: tuple[str, ...]
    material: Material
    thickness: str | None
    width: str | None
    length: str | None
    note: str
    only: str | None = None
    unless: str | None = None

    @property
    def quantity(self) -> int:
        """How many pieces of it there are."""
        return len(self.places)

    def is_there(self, measurements: Mapping[str, Fraction]) -> bool:
        """Whether it is there in a hive with these measurements."""
        wanted = self.only is None or measurements[self.only] != 0
        return wanted and (self.unless is None or measurements[self.unless] == 0)

    def sizes(self) -> Iterator[tuple[str, str]]:
        """The sizes that this part has: pairs of thickness, width or length and a source's name."""
        for size in SIZES:
            source = getattr(self, size)
            if source is not None:
                yield size, source


@dataclass(frozen=True)
class Size:
    """One size of a piece: its exact value, and which way it is rounded on the cutting list."""

    value: Fraction
    rounding: Rounding


@dataclass(frozen=True)
class SizedPart:
    """A part of one hive, with its sizes worked out."""

    component: str
    part: str
    quantity: int
    material: Material
    thickness: Size | None
    width: Size | None
    length: Size | None
    note: str
