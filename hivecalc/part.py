"""What a part is: a name, how many, of what, and the names of its three sizes."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeAlias

from hivecalc.length import Rounding

Material: TypeAlias = Literal["stud", "strip", "foam", "plywood", "sheet", "mesh", "board"]
SIZES = ("thickness", "width", "length")


@dataclass(frozen=True)
class Part:
    """A kind of piece: its sizes are names of dimensions or measurements, or None.

    >>> rail = Part("side_rail", 2, "stud", "stud_thickness", "stud_width", "side_rail_length",
    ...             "Closes the frame at one side.")
    >>> dict(rail.sizes())["length"]
    'side_rail_length'
    """

    name: str
    quantity: int
    material: Material
    thickness: str | None
    width: str | None
    length: str | None
    note: str

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
