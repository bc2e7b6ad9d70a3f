"""What a hive weighs: an estimate from the pieces' volumes, empty and full of honey.

Densities are those of design tables; wood differs from board to board by a quarter and more.
Screws, brads, glue, paint and bees are left out. Kilograms are worked out in floats.
"""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import floor, pi
from typing import Final

from hivecalc.components import MODULES as COMPONENTS
from hivecalc.length import MM, Length
from hivecalc.part import Material
from hivecalc.space.box import outline
from hivecalc.space.solids import Solid
from hivecalc.space.stacking import BOXES, box_height, stacked

POUND: Final = 0.45359237  # kilograms, exactly: the international yard and pound agreement of 1959
_CUBIC_INCH: Final = float(1 / (1000 * MM)) ** 3  # cubic metres

DENSITIES: Final[Mapping[Material, float]] = {
    # Construction timber 450: a public Austrian catalogue of building components; the same figure
    # in EN ISO 10456:2007, Table 3 (from memory).
    "stud": 450,
    "strip": 450,
    "board": 450,
    # Plywood 500: EN ISO 10456:2007, Table 3 (from memory).
    "plywood": 500,
    # Extruded polystyrene 35: a design table that names EN ISO 10456 and SIA 381/1.
    "foam": 35,
    # Twin-wall polypropylene, 4 mm and 0.8 kg a square metre: from memory, no published source.
    "sheet": 200,
    # Steel 7850 (from memory), as far as its wires fill the mesh's thickness.
    "mesh": 7850,
}
"""Kilograms in a cubic metre of each material; of mesh, of its steel."""

HONEY: Final = 1400
"""Kilograms in a cubic metre of ripe honey: about 1.4 kg a litre, common practice, no published
source. Wax is counted as honey."""

FRAME: Final = 0.25
"""Kilograms of an empty frame's wood: half a pound or so, from memory, no published source."""

# What of a full frame is not comb: common practice, no published source, in inches.
WAY_BETWEEN: Final = Fraction(3, 8)  # that bees leave between two combs
BARS_HIGH: Final = Fraction(9, 8)  # top bar and bottom bar
ENDS_LONG: Final = Fraction(11, 8)  # two side bars, and the bee way outside of each


@dataclass(frozen=True)
class Weight:
    """What one component weighs, empty and full, in kilograms: "box 2" is the second from below.

    >>> round(Weight("roof", 10, 10).pounds)
    22
    """

    component: str
    empty: float
    full: float

    @property
    def pounds(self) -> float:
        """What it weighs empty, in pounds."""
        return self.empty / POUND

    @property
    def full_pounds(self) -> float:
        """What it weighs full, in pounds."""
        return self.full / POUND


def weights(values: Mapping[str, Fraction], built: Collection[str]) -> tuple[Weight, ...]:
    """What each component weighs, from the ground up, and last the whole hive.

    >>> from hivecalc.components import built, values
    >>> from hivecalc.hive import demo_hive
    >>> for weight in weights(values(demo_hive()), built(demo_hive())):
    ...     print(weight.component, round(weight.pounds), round(weight.full_pounds))
    bottom board 9 9
    box 9 105
    inner cover 4 4
    roof 14 14
    whole hive 36 132

    A box is with its sleeve and, where it is full, with its frames: each holds a comb, a frame's
    spacing less the bees' way thick, as long as the box less side bars and ways at its ends, and as
    high as the frame less its bars. Where no frames are given, there are as many as go in.
    """
    found: dict[str, float] = {}
    for solid in stacked(values, built):
        name = _named(solid, values)
        found[name] = found.get(name, 0.0) + _mass(solid, values)
    honey = _honey(values, built)
    each = [Weight(n, kg, kg + honey * n.startswith("box")) for n, kg in found.items()]
    return (*each, Weight("whole hive", sum(w.empty for w in each), sum(w.full for w in each)))


def _named(solid: Solid, values: Mapping[str, Fraction]) -> str:
    if solid.component not in BOXES:
        return solid.component.replace("_", " ")
    return f"box {solid.tier}" if values["boxes"] > 1 else "box"


def _mass(solid: Solid, values: Mapping[str, Fraction]) -> float:
    material = _material(solid)
    share = _steel_share(values["mesh_thickness"]) if material == "mesh" else 1.0
    return float(solid.volume) * _CUBIC_INCH * DENSITIES[material] * share


def _material(solid: Solid) -> Material:
    parts: Iterator[Material] = (
        p.material for p in COMPONENTS[solid.component].PARTS if p.name == solid.part
    )
    return next(parts, "board")  # the plain walls that stand for a box


def _steel_share(mesh_thickness: Length) -> float:
    """How much of the mesh's thickness is steel: round wires half as thick, eight to the inch."""
    wire = float(mesh_thickness) / 2
    return 2 * 8 * (pi / 4 * wire**2) / float(mesh_thickness)


def _honey(values: Mapping[str, Fraction], built: Collection[str]) -> float:
    """Frames and honey of one full box, in kilograms."""
    long, wide = _inside(values, built)
    frames = values["frames"] if "box" in built else floor(wide / values["frame_spacing"])
    above = values["rest_depth"] - values["lug_thickness"]
    high = box_height(values, built) - above - values["space_below"] - BARS_HIGH
    comb = (values["frame_spacing"] - WAY_BETWEEN) * (long - ENDS_LONG) * high
    return int(frames) * (FRAME + max(0.0, float(comb)) * _CUBIC_INCH * HONEY)


def _inside(values: Mapping[str, Fraction], built: Collection[str]) -> tuple[Length, Length]:
    """Length and width inside one box."""
    long, wide = values["hive_length"], values["hive_width"]
    if any(c in built for c in BOXES):
        (x0, x1), (y0, y1) = outline(values)
        long, wide = y1 - y0, x1 - x0
    walls = 2 * values["board_thickness"]
    return long - walls, wide - walls
