"""What a part is: a name, its places, its material, and the names of its three sizes."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeAlias

from hivecalc.length import Rounding

Material: TypeAlias = Literal["stud", "strip", "foam", "plywood", "sheet", "mesh", "board"]
SIZES = ("thickness", "width", "length")
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
class Piece:
    """A part of one hive, with its sizes worked out."""

    component: str
    part: str
    quantity: int
    material: Material
    thickness: Size | None
    width: Size | None
    length: Size | None
    note: str
