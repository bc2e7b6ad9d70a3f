"""The walls, roof and bottom board of a hive as layers, from its own dimensions.

Areas are those inside the box; what goes round the corners comes on top, at the edges (`bridges`).
SI units.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Final

from hivecalc.components import built, values
from hivecalc.hive import Hive
from hivecalc.space import box_height
from hivecalc.warmth.layers import (
    FOAM,
    PLYWOOD,
    SOFTWOOD,
    Direction,
    Element,
    Layer,
    Path,
    air_resistance,
    layer,
)

METRE: Final = 0.0254
"""Metres in an inch."""

ALL: Final = frozenset({"panel", "roof foam", "sleeve"})
"""What keeps heat in, and can be thought away."""


@dataclass(frozen=True)
class Surface:
    """A part of the hive's outside: its name, its area inside in m², and what it is built of."""

    name: str
    area: float
    element: Element

    @property
    def clear(self) -> float:
        """Watts for each kelvin where no wood bridges it, as if all of it were so."""
        return self.area / self.element.clear


def usual(hive: Hive) -> frozenset[str]:
    """What of `ALL` this hive has.

    >>> from hivecalc.hive import demo_hive
    >>> sorted(usual(demo_hive()))
    ['panel', 'roof foam']
    """
    return ALL if "sleeve" in built(hive) else ALL - {"sleeve"}


def surfaces(hive: Hive, keeping: frozenset[str] | None = None) -> tuple[Surface, ...]:
    """Walls, roof and bottom board of a hive, as layers of what it is built from.

    >>> from hivecalc.hive import demo_hive
    >>> [(s.name, round(s.area, 2)) for s in surfaces(demo_hive())]
    [('walls', 0.46), ('roof', 0.22), ('bottom board', 0.22)]
    """
    there = usual(hive) if keeping is None else keeping
    return surfaces_of(values(hive), built(hive), there)


def surfaces_of(
    found: Mapping[str, Fraction], components: tuple[str, ...], there: frozenset[str]
) -> tuple[Surface, ...]:
    """The same for the values of a hive, of which any may have been changed.

    >>> from hivecalc.hive import demo_hive
    >>> changed = {**values(demo_hive()), "roof_foam_thickness": Fraction(2)}
    >>> roof = surfaces_of(changed, built(demo_hive()), frozenset({"roof foam"}))[1]
    >>> round(roof.element.resistance, 1)
    2.0
    """
    inside = Inside.of(found, components)
    floor = inside.length * inside.width
    return (
        Surface("walls", inside.walls, _wall(found, inside, sleeved="sleeve" in there)),
        Surface("roof", floor, _roof(found, inside, components, foamed="roof foam" in there)),
        Surface("bottom board", floor, _floor(found, inside, closed="panel" in there)),
    )


@dataclass(frozen=True)
class Inside:
    """The room inside the boxes, in metres, and how thick the walls round it are."""

    length: float
    width: float
    height: float
    wall: float

    @classmethod
    def of(cls, found: Mapping[str, Fraction], components: tuple[str, ...]) -> "Inside":
        """The room of a hive: the box inside the sleeve, or the hive itself."""
        of_box = "sleeve" in components
        long, wide = ("box_length", "box_width") if of_box else ("hive_length", "hive_width")
        board = found["board_thickness"]
        high = found["boxes"] * box_height(found, components)
        wall = (found["hive_width"] - found[wide]) / 2 + board
        sizes = (found[long] - 2 * board, found[wide] - 2 * board, high, wall)
        return cls(*(metres(size) for size in sizes))

    @property
    def walls(self) -> float:
        """Area of all four walls inside, in m²."""
        return 2 * (self.length + self.width) * self.height

    @property
    def round(self) -> float:
        """Length once round the walls, inside, in m."""
        return 2 * (self.length + self.width)

    def border(self, depth: float) -> float:
        """Share of the floor that lies within so many metres of the walls.

        >>> round(Inside(0.5, 0.4, 0.25, 0.02).border(0.1), 2)
        0.7
        """
        if depth <= 0:
            return 0.0
        left = max(self.length - 2 * depth, 0) * max(self.width - 2 * depth, 0)
        return 1 - left / (self.length * self.width)


def metres(inches: Fraction) -> float:
    """A length in metres.

    >>> metres(Fraction(1, 2))
    0.0127
    """
    return float(inches) * METRE


def _wall(found: Mapping[str, Fraction], inside: Inside, *, sleeved: bool) -> Element:
    board = layer(SOFTWOOD, metres(found["board_thickness"]), "board")
    if not sleeved:
        return Element((Path(1, (board,)),), "level")
    foam = metres(found["sleeve_foam_thickness"])
    skin = layer(PLYWOOD, metres(found["skin_thickness"]), "skin")
    strips = 2 * metres(found["edge_strip_height"]) * float(found["boxes"]) / inside.height
    ways = ((1 - strips, layer(FOAM, foam)), (strips, layer(SOFTWOOD, foam, "edge strip")))
    return Element(tuple(Path(share, (board, way, skin)) for share, way in ways), "level")


def _roof(
    found: Mapping[str, Fraction],
    inside: Inside,
    components: tuple[str, ...],
    *,
    foamed: bool,
) -> Element:
    """Inner cover, still air and foam between the rim's rails, deck; the cover is left out.

    From the walls inwards: wood all the way up, wood of one of both rims, neither of them.
    """
    stud, ease = metres(found["stud_thickness"]), metres(found["cap_clearance"]) / 2
    reaches = {"cover": stud - inside.wall, "rim": stud - ease - inside.wall}
    if "inner_cover" not in components:
        reaches["cover"] = 0.0
    depths = [0.0, *sorted({depth for depth in reaches.values() if depth > 0})]
    paths = [
        Path(
            inside.border(end) - inside.border(start),
            tuple(
                _up(found, components, {n for n, d in reaches.items() if d >= end}, foamed=foamed)
            ),
        )
        for start, end in pairwise(depths)
    ]
    middle = Path(
        1 - inside.border(depths[-1]), tuple(_up(found, components, set(), foamed=foamed))
    )
    return Element((middle, *paths), "up")


def _up(
    found: Mapping[str, Fraction],
    components: tuple[str, ...],
    wood: set[str],
    *,
    foamed: bool,
) -> Iterator[Layer]:
    """The layers of one way up through the roof, where the named rims are wood."""
    if "inner_cover" in components:
        sheet = layer(PLYWOOD, metres(found["sheet_thickness"]), "inner cover's sheet")
        yield sheet
        yield _filled(metres(found["inner_rim_height"]), "up", wood="cover" in wood)
        yield sheet
    high = metres(found["stud_width"] + found["rim_low_height"]) / 2
    foam = min(metres(found["roof_foam_thickness"]), high) if foamed else 0.0
    yield _filled(high - foam, "up", wood="rim" in wood, still="inner_cover" in components)
    yield layer(SOFTWOOD, foam, "rim") if "rim" in wood else layer(FOAM, foam)
    yield layer(PLYWOOD, metres(found["deck_thickness"]), "deck")


def _filled(thickness: float, direction: Direction, *, wood: bool, still: bool = True) -> Layer:
    """Wood or air between two planes; air that is that of the room resists nothing."""
    if wood:
        return layer(SOFTWOOD, thickness, "rim")
    if not still:
        return Layer("air of the room", thickness, 0.0)
    return Layer("still air", thickness, air_resistance(thickness, direction))


def _floor(found: Mapping[str, Fraction], inside: Inside, *, closed: bool) -> Element:
    """The foam panel between the rails; without it, mesh that stops nothing but the film of air."""
    rails = inside.border(metres(found["stud_thickness"]) - inside.wall)
    foam = metres(found["panel_foam_thickness"]) if closed else 0.0
    middle = Path(1 - rails, (layer(FOAM, foam, "panel"),))
    wood = layer(SOFTWOOD, metres(found["stud_width"]), "rail")
    return Element((middle, Path(rails, (wood,))) if rails else (middle,), "down")
