"""Walls as layers: what they conduct, still air, films, and both limits where wood bridges.

The combined method of ISO 6946:2017, for plane parts; below it the walls, roof and bottom board of
a hive from its own dimensions. Areas are those inside the box; what goes round the corners comes on
top, at the edges (`bridges`). SI units throughout: metres, W/(m·K), m²·K/W.
"""

import re
from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING, Final, Literal, TypeAlias

from hivecalc.components import built, values
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.length import Units
from hivecalc.space import box_height
from hivecalc.support.faults import quoted

if TYPE_CHECKING:
    import pint

Direction: TypeAlias = Literal["up", "level", "down"]
"""Where heat flows: up through a roof, level through a wall, down through a bottom board."""


def wood_conductivity(gravity: float, moisture: float) -> float:
    """Conductivity of wood across the grain, in W/(m·K).

    >>> round(wood_conductivity(0.45, 12), 4)
    0.1279

    `gravity` is oven-dry mass over the volume at that moisture, above 0.3; `moisture` in percent,
    at most 25. Wood Handbook, FPL-GTR-190 (2010), equation 4-15; its stated spread is 20 %.
    """
    return gravity * (0.1941 + 0.004064 * moisture) + 0.01864


@dataclass(frozen=True)
class Material:
    """What a layer is made of: its conductivity in W/(m·K), with year, condition and source.

    `low` and `high` are what other published tables have.
    """

    name: str
    conductivity: float
    low: float
    high: float
    year: int
    condition: str
    source: str


SOFTWOOD: Final = Material(
    "softwood", wood_conductivity(0.42, 12), 0.10, 0.14, 2010,
    "specific gravity 0.42, 12 % moisture, across the grain",
    "Wood Handbook FPL-GTR-190, equation 4-15; range: its Table 4-7, as a wood council cites it",
)  # fmt: skip
PLYWOOD: Final = Material(
    "plywood", 0.13, 0.09, 0.17, 2007, "500 kg/m³",
    "EN ISO 10456:2007, Table 3, from memory, not checked against print",
)  # fmt: skip
FOAM: Final = Material(
    "foam", 0.0254 / 0.880551, 0.0288, 0.036, 2019, "extruded polystyrene, R 5 an inch at 75 °F",
    "ASTM C578 Type IV as specification notes cite it (year from memory); aged European values "
    "of EN 13164 are 0.030 to 0.036, from memory",
)  # fmt: skip
MATERIALS: Final = (SOFTWOOD, PLYWOOD, FOAM)

FILM_INSIDE: Final[dict[Direction, float]] = {"up": 0.10, "level": 0.13, "down": 0.17}
"""Resistance of the air film at an inside face, m²·K/W: ISO 6946:2017."""
FILM_OUTSIDE: Final = 0.04
"""Resistance of the air film at an outside face, m²·K/W: ISO 6946:2017."""

# Still air between two faces, m²·K/W, by its thickness in mm: ISO 6946:2017, Table 8, from memory,
# not checked against print.
_THICK: Final = (0, 5, 7, 10, 15, 25, 50, 100, 300)
_AIR: Final[dict[Direction, tuple[float, ...]]] = {
    "up": (0.0, 0.11, 0.13, 0.15, 0.16, 0.16, 0.16, 0.16, 0.16),
    "level": (0.0, 0.11, 0.13, 0.15, 0.17, 0.18, 0.18, 0.18, 0.18),
    "down": (0.0, 0.11, 0.13, 0.15, 0.17, 0.19, 0.21, 0.22, 0.23),
}


def air_resistance(thickness: float, direction: Direction) -> float:
    """Resistance of a layer of still air, in m²·K/W; `thickness` in metres.

    >>> air_resistance(0.010, "up"), round(air_resistance(0.0125, "level"), 3)
    (0.15, 0.16)

    Between the thicknesses of the table it goes straight; beyond 300 mm it stays. ISO 6946:2017,
    Table 8, from memory.
    """
    mm, row = thickness * 1000, _AIR[direction]
    if mm >= _THICK[-1]:
        return row[-1]
    after = max(bisect_left(_THICK, mm), 1)
    part = (mm - _THICK[after - 1]) / (_THICK[after] - _THICK[after - 1])
    return row[after - 1] + part * (row[after] - row[after - 1])


@dataclass(frozen=True)
class Layer:
    """One layer on the way out: its name, thickness in m, and resistance in m²·K/W."""

    name: str
    thickness: float
    resistance: float


def layer(material: Material, thickness: float, name: str = "") -> Layer:
    """A layer of some material, `thickness` metres thick.

    >>> round(layer(FOAM, 0.0254).resistance, 2)
    0.88
    """
    return Layer(name or material.name, thickness, thickness / material.conductivity)


@dataclass(frozen=True)
class Path:
    """One straight way out through all layers, from inside, and its share of the area."""

    share: float
    layers: tuple[Layer, ...]

    @property
    def resistance(self) -> float:
        """Its layers together, without films."""
        return sum(one.resistance for one in self.layers)


@dataclass(frozen=True)
class Element:
    """A wall, roof or bottom board: the ways through it side by side, and where the heat flows.

    All paths have as many layers, so that each layer is one plane. With one path both limits are
    the plain sum of the layers.
    """

    paths: tuple[Path, ...]
    direction: Direction

    @property
    def film(self) -> float:
        """The film of air at its inside face."""
        return FILM_INSIDE[self.direction]

    @property
    def upper(self) -> float:
        """Upper limit of the resistance: no heat crosses from one path to another."""
        films = self.film + FILM_OUTSIDE
        return parallel([(p.share, films + p.resistance) for p in self.paths])

    @property
    def lower(self) -> float:
        """Lower limit of the resistance: each plane between two layers has one temperature."""
        planes = zip(*(p.layers for p in self.paths), strict=True)
        bridged = (
            parallel([(p.share, one.resistance) for p, one in zip(self.paths, plane, strict=True)])
            for plane in planes
        )
        return self.film + FILM_OUTSIDE + sum(bridged)

    @property
    def resistance(self) -> float:
        """Half-way between both limits, as the standard has it."""
        return (self.upper + self.lower) / 2

    @property
    def transmittance(self) -> float:
        """Watts through each square metre for each kelvin of difference."""
        return 1 / self.resistance

    @property
    def clear(self) -> float:
        """Resistance of the way through most of it, where no wood bridges it."""
        return self.film + self.main.resistance + FILM_OUTSIDE

    @property
    def factor(self) -> float:
        """Temperature factor of its inside face: 1 is as warm as the air inside, 0 as outside."""
        return 1 - self.film / self.clear

    @property
    def main(self) -> Path:
        """The way through most of it."""
        return max(self.paths, key=lambda p: p.share)


def parallel(ways: Sequence[tuple[float, float]]) -> float:
    """Resistance of ways side by side, from the share and the resistance of each.

    >>> round(parallel([(0.85, 4.111), (0.15, 1.778)]), 3)
    3.435

    A layer of nothing lets all pass: then it is 0. ISO 6946:2017; the example is that of the
    Scottish Technical Handbook, annex 6.B.
    """
    if any(not resistance for share, resistance in ways if share):
        return 0.0
    return 1 / sum(share / resistance for share, resistance in ways if share)


def temperatures(element: Element, path: Path, inside: float, outside: float) -> tuple[float, ...]:
    """Temperatures along one way out: air, inside face, between layers, outside face, air.

    >>> wall = Element((Path(1, (layer(SOFTWOOD, 0.019),)),), "level")
    >>> [round(t, 1) for t in temperatures(wall, wall.main, 20, 0)]
    [20, 12.1, 2.4, 0]

    In °C.
    """
    steps = [element.film, *(one.resistance for one in path.layers), FILM_OUTSIDE]
    flow = (inside - outside) / sum(steps)
    found = [inside]
    for step in steps[:-1]:
        found.append(found[-1] - flow * step)
    return (*found, outside)


# ── the surfaces of a hive ────────────────────────────────────────────────────────────────────────


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
    """What of `ALL` this hive has."""
    return ALL if "sleeve" in built(hive) else ALL - {"sleeve"}


def surfaces(hive: Hive) -> tuple[Surface, ...]:
    """Walls, roof and bottom board of a hive, as layers of what it is built from.

    >>> from hivecalc.hive import demo_hive
    >>> [(s.name, round(s.area, 2)) for s in surfaces(demo_hive())]
    [('walls', 0.46), ('roof', 0.22), ('bottom board', 0.22)]
    """
    return surfaces_of(values(hive), built(hive), usual(hive))


def surfaces_of(
    found: Mapping[str, Fraction], components: tuple[str, ...], there: frozenset[str]
) -> tuple[Surface, ...]:
    """The same for the values of a hive, of which any may have been changed."""
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
        """Share of the floor that lies within so many metres of the walls."""
        if depth <= 0:
            return 0.0
        left = max(self.length - 2 * depth, 0) * max(self.width - 2 * depth, 0)
        return 1 - left / (self.length * self.width)


def metres(inches: Fraction) -> float:
    """A length in metres."""
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
    found: Mapping[str, Fraction], inside: Inside, components: tuple[str, ...], *, foamed: bool
) -> Element:
    """Inner cover, still air and foam between the rim's rails, deck; the cover is left out.

    From the walls inwards: wood all the way up, wood of one of both rims, neither of them.
    """
    covered = "inner_cover" in components
    stud, ease = metres(found["stud_thickness"]), metres(found["cap_clearance"]) / 2
    reaches = {"cover": stud - inside.wall, "rim": stud - ease - inside.wall}
    sheet = layer(PLYWOOD, metres(found["sheet_thickness"]), "inner cover's sheet")
    high = metres(found["stud_width"] + found["rim_low_height"]) / 2
    foam = min(metres(found["roof_foam_thickness"]), high) if foamed else 0.0
    deck = layer(PLYWOOD, metres(found["deck_thickness"]), "deck")

    def way(share: float, wood: set[str]) -> Path:
        """One way up, where the named rims are wood."""
        rim = "rim" in wood
        between = _filled(metres(found["inner_rim_height"]), wood="cover" in wood)
        above = _filled(high - foam, wood=rim, still=covered)
        filling = layer(SOFTWOOD, foam, "rim") if rim else layer(FOAM, foam)
        return Path(share, (*((sheet, between, sheet) * covered), above, filling, deck))

    depths = [0.0, *sorted({depth for depth in reaches.values() if depth > 0})]
    paths = [way(1 - inside.border(depths[-1]), set())]
    for start, end in pairwise(depths):
        wood = {name for name, depth in reaches.items() if depth >= end}
        paths.append(way(inside.border(end) - inside.border(start), wood))
    return Element(tuple(paths), "up")


def _filled(thickness: float, *, wood: bool, still: bool = True) -> Layer:
    """Wood or air between two planes; air that is that of the room resists nothing."""
    if wood:
        return layer(SOFTWOOD, thickness, "rim")
    if not still:
        return Layer("air of the room", thickness, 0.0)
    return Layer("still air", thickness, air_resistance(thickness, "up"))


def _floor(found: Mapping[str, Fraction], inside: Inside, *, closed: bool) -> Element:
    """The foam panel between the rails; without it, mesh that stops nothing but the film of air."""
    rails = inside.border(metres(found["stud_thickness"]) - inside.wall)
    foam = metres(found["panel_foam_thickness"]) if closed else 0.0
    middle = Path(1 - rails, (layer(FOAM, foam, "panel"),))
    wood = layer(SOFTWOOD, metres(found["stud_width"]), "rail")
    return Element((middle, Path(rails, (wood,))) if rails else (middle,), "down")


# ── units in, units out ─────────────────────────────────────────────────────────────────────────

COLDEST, HOTTEST = -60.0, 60.0
"""Temperatures in °C between which a hive may stand: weather records on land, from memory."""

_TEMPERATURE: Final = re.compile(r"([+-]?\d+(?:[.,]\d+)?) ?°?([CFcf])")
_PERCENT: Final = re.compile(r"(\d+(?:[.,]\d+)?) ?%?")
_UNITS: Final = {"C": "degC", "F": "degF"}

Quantity: TypeAlias = tuple[str, str, str]
"""Its SI unit as it is written, that unit in words, and that of inches and pounds."""
CONDUCTANCE: Final = ("W/(m²·K)", "watt/meter**2/kelvin", "Btu/hour/foot**2/delta_degF")
RESISTANCE: Final = ("m²·K/W", "meter**2*kelvin/watt", "hour*foot**2*delta_degF/Btu")
MASS: Final = ("kg", "kilogram", "pound")


@cache
def _registry() -> "pint.UnitRegistry[float]":
    import pint  # noqa: PLC0415 - loads slowly

    return pint.UnitRegistry()


def temperature(text: str, field: str) -> float:
    """Temperature in °C, from text such as "68 F" or "20 C".

    >>> round(temperature("68 F", "inside"), 6), temperature("−5 °C", "outside")
    (20.0, -5.0)

    Raises HiveFaults with one sentence, in which `field` stands.
    """
    found = _TEMPERATURE.fullmatch(text.strip().replace("−", "-"))
    if not found:
        found_so = f"{quoted(text)} is not a temperature"
        raise HiveFaults([Fault(field, found_so, "write it like 68 F or 20 C")])
    number, unit = float(found[1].replace(",", ".")), _UNITS[found[2].upper()]
    celsius = round(float(_registry().Quantity(number, unit).to("degC").magnitude), 6)
    if not COLDEST <= celsius <= HOTTEST:
        beyond = f"{text[:40]} is beyond any weather"
        raise HiveFaults([Fault(field, beyond, "write -76 to 140 F, or -60 to 60 C")])
    return celsius


def humidity(text: str) -> float:
    """Relative humidity as a share, from text in percent.

    Raises HiveFaults for anything but a number from 1 to 100.
    """
    found = _PERCENT.fullmatch(text.strip())
    share = float(found[1].replace(",", ".")) / 100 if found else 0.0
    if not 0.01 <= share <= 1:  # noqa: PLR2004 - 1 to 100 %
        found_so = f"{quoted(text)} is not a humidity"
        raise HiveFaults([Fault("humidity", found_so, "write 1 to 100, in percent")])
    return share


def warmer_inside(inside: float, outside: float, units: Units) -> None:
    """Refuse an inside that is colder than outside: heat then flows in, and no dew forms there."""
    if inside < outside:
        found = f"{in_both_degrees(inside, units)} is colder than outside"
        raise HiveFaults([Fault("inside", found, "write a temperature that is at least as warm")])


def fahrenheit(celsius: float) -> float:
    """A temperature in °F, without pint: a book says two, and is not to wait for it."""
    return celsius * 1.8 + 32


def in_both_degrees(celsius: float, units: Units) -> str:
    """A temperature in both scales, to the degree, first in that which goes with a tape's units.

    >>> in_both_degrees(-10, "inch"), in_both_degrees(-10, "mm")
    ('14 °F (−10 °C)', '−10 °C (14 °F)')
    """
    scales = [f"{round(fahrenheit(celsius))} °F", f"{round(celsius)} °C"]
    first, other = scales if units == "inch" else scales[::-1]
    return f"{first} ({other})".replace("-", "−")


def in_both(value: float, units: Quantity, tape: Units = "inch") -> str:
    """A transmittance or resistance in both systems, first in that which goes with a tape's units.

    >>> in_both(0.88, RESISTANCE), in_both(0.88, RESISTANCE, "mm")
    ('R 5.0 (0.88 m²·K/W)', 'R 0.88 m²·K/W (5.0 in inches)')
    >>> in_both(0.3, CONDUCTANCE)
    'U 0.053 (0.30 W/(m²·K))'

    R in h·ft²·°F/Btu and U in Btu/(h·ft²·°F), as foam is sold in inches.
    """
    other = imperial(value, units)
    letter, places = ("R", 1) if units == RESISTANCE else ("U", 3)
    metric, inches = f"{value:.2f} {units[0]}", f"{other:.{places}f}"
    if tape == "mm":
        return f"{letter} {metric} ({inches} in inches)"
    return f"{letter} {inches} ({metric})"


def imperial(value: float, units: Quantity) -> float:
    """A value in SI units as those of inches and pounds have it."""
    return float(_registry().Quantity(value, units[1]).to(units[2]).magnitude)
