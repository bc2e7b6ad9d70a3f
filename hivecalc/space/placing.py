"""Where pieces are put: a piece has its own sizes and a datum that no other piece moves.

The datum comes from the hive's measurements, so a piece cut wrong shows as an overlap or a gap.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from hivecalc.length import Length
from hivecalc.space.outlines import Interval, Profile, rectangle
from hivecalc.space.solids import Block, Extents, Size, Solid

Along: TypeAlias = tuple[str, str, str]
Spot: TypeAlias = Callable[[Length], Interval]
Spots: TypeAlias = tuple[Spot, Spot, Spot]

# Which size of the piece lies along x, y and z.
ON_EDGE_ACROSS: Along = ("length", "thickness", "width")
ON_EDGE_LENGTHWAYS: Along = ("thickness", "length", "width")
FLAT_ACROSS: Along = ("length", "width", "thickness")
FLAT_LENGTHWAYS: Along = ("width", "length", "thickness")


def starting_at(low: Length) -> Spot:
    """The spot that begins here: from a piece's size to where it lies.

    >>> starting_at(2)(5)
    (2, 7)
    """
    return lambda size: (low, low + size)


def ending_at(high: Length) -> Spot:
    """The spot that ends here.

    >>> ending_at(7)(5)
    (2, 7)
    """
    return lambda size: (high - size, high)


def centred_on(middle: Length) -> Spot:
    """The spot whose middle is here.

    >>> centred_on(4)(6)
    (Fraction(1, 1), Fraction(7, 1))
    """

    def spot(size: Length) -> Interval:
        half = Fraction(size) / 2
        return (middle - half, middle + half)

    return spot


class NoPieceError(ValueError):
    """A size that no piece of wood has: nothing, or less.

    >>> print(NoPieceError("roof.deck_width", Fraction(-1, 2)))
    roof.deck_width: -1/2 in is no size of a piece; a size is more than nothing
    """

    def __init__(self, name: str, size: Length) -> None:
        super().__init__(f"{name}: {size} in is no size of a piece; a size is more than nothing")


@dataclass(frozen=True)
class Bench:
    """The pieces of one component as they are cut, ready to be put in their places.

    >>> sizes = {"roof.deck_width": 20, "roof.deck_length": 26, "roof.deck_thickness": 1}
    >>> bench, corner = Bench("roof", sizes), starting_at(0)
    >>> bench.piece("deck", "", FLAT_LENGTHWAYS, (corner, corner, corner)).size
    (20, 26, 1)
    """

    component: str
    values: Mapping[str, Fraction]

    def cut(self, part: str, along: Along) -> Size:
        """The sizes that a part was cut to, in the order in which they lie along x, y and z."""
        x, y, z = along
        return (self.size(part, x), self.size(part, y), self.size(part, z))

    def size(self, part: str, size: str) -> Length:
        """One size of a part: its thickness, width or length. Raises NoPieceError."""
        name = f"{self.component}.{part}_{size}"
        if self.values[name] <= 0:
            raise NoPieceError(name, self.values[name])
        return self.values[name]

    def piece(self, part: str, place: str, along: Along, at: Spots) -> Solid:
        """A square-edged piece in its place."""
        cut = self.cut(part, along)
        extents = (at[0](cut[0]), at[1](cut[1]), at[2](cut[2]))
        return self.box(part, place, along, cut, extents)

    def box(self, part: str, place: str, along: Along, cut: Size, extents: Extents) -> Solid:
        """A square-edged piece that fills these extents."""
        x, y, z = extents
        blocks = (Block(*x, rectangle(y, z)),)
        return Solid(self.component, part, place, blocks, along, cut)

    def prism(self, part: str, place: str, along: Along, x: Spot, *profiles: Profile) -> Solid:
        """A piece with these outlines in the y-z plane, its size along x as it was cut."""
        cut = self.cut(part, along)
        blocks = tuple(Block(*x(cut[0]), profile) for profile in profiles)
        return Solid(self.component, part, place, blocks, along, cut)

    def stand_in(self, part: str, x: Interval, y: Interval, z: Interval) -> Solid:
        """A plain block in the place of what this component meets; no piece of it."""
        return Solid(self.component, part, "", (Block(*x, rectangle(y, z)),))
