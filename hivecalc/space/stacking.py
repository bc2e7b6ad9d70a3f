"""The whole hive stacked as it stands in the field, and what only the whole shows.

Bottom board, one to three boxes with or without sleeve, inner cover or none, roof. Where no box is
built, four plain walls stand for it. All is measured between the solids, nothing is clipped.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import floor, pi
from types import ModuleType
from typing import Final

from hivecalc.components import BOXES
from hivecalc.components import MODULES as COMPONENTS
from hivecalc.components import box as from_frames
from hivecalc.derivation import title
from hivecalc.length import MM, Length
from hivecalc.part import Material
from hivecalc.space import bottom_board, box, inner_cover, roof, sleeve
from hivecalc.space.solids import (
    NOTHING,
    Block,
    Interval,
    Solid,
    hive_outline,
    rectangle,
)

MODULES: Final[dict[str, ModuleType]] = {
    "bottom_board": bottom_board,
    "roof": roof,
    "inner_cover": inner_cover,
    "box": box,
    "sleeve": sleeve,
}


def stacked(values: Mapping[str, Fraction], built: Collection[str]) -> tuple[Solid, ...]:
    """Every piece of the hive where it stands, from the ground up.

    z from the bottom of the frame. `values` and `built` from components.
    """
    heights = feet(values, built)
    found: list[Solid] = list(bottom_board.solids(values))
    for tier in range(1, int(values["boxes"]) + 1):
        foot = heights["box"] + (tier - 1) * box_height(values, built)
        one = box.solids(values) if "box" in built else _plain_walls(values, built)
        sleeved = sleeve.solids(values) if "sleeve" in built else ()
        found += [replace(s.raised(foot), tier=tier) for s in (*one, *sleeved)]
    if "inner_cover" in built:
        found += [s.raised(heights["inner_cover"]) for s in inner_cover.solids(values)]
    return (*found, *(s.raised(heights["roof"]) for s in roof.solids(values)))


def feet(values: Mapping[str, Fraction], built: Collection[str]) -> dict[str, Length]:
    """How high the foot of each component stands above the bottom of the hive."""
    on_board = values["stud_width"]
    on_box = on_board + values["boxes"] * box_height(values, built)
    lid = values["inner_cover.overall_height"] if "inner_cover" in built else NOTHING
    at_box = {"box": on_board, "sleeve": on_board}
    return {"bottom_board": NOTHING, **at_box, "inner_cover": on_box, "roof": on_box + lid}


def box_height(values: Mapping[str, Fraction], built: Collection[str]) -> Length:
    """Height of one box: built or measured; else that of the course's usual frames."""
    if any(c in built for c in BOXES) or "box_height" in values:
        return values["box_height"]
    above = from_frames.space_above(values["rest_depth"], values["lug_thickness"])
    return from_frames.box_height(above, values["frame_depth"], values["space_below"])


def _plain_walls(values: Mapping[str, Fraction], built: Collection[str]) -> Iterator[Solid]:
    """Four walls with the box's outside, a board thick; front and back stand between the sides."""
    (x0, x1), (y0, y1) = _outline(values, built)
    thick, z = values["board_thickness"], (NOTHING, box_height(values, built))
    walls = {
        "left": ((x0, x0 + thick), (y0, y1)),
        "right": ((x1 - thick, x1), (y0, y1)),
        "front": ((x0 + thick, x1 - thick), (y0, y0 + thick)),
        "back": ((x0 + thick, x1 - thick), (y1 - thick, y1)),
    }
    for place, (x, y) in walls.items():
        yield Solid("box", "wall", place, (Block(*x, rectangle(y, z)),))


def _outline(values: Mapping[str, Fraction], built: Collection[str]) -> tuple[Interval, Interval]:
    """From where to where the box reaches; the hive itself is one where none is given."""
    if any(c in built for c in BOXES):
        return box.outline(values)
    return hive_outline(values)


def overall_height(stack: Iterable[Solid]) -> Length:
    """Height of the whole hive, from the bottom of its frame to its highest edge."""
    return max(s.extents[2][1] for s in stack)


# ── the skirt over the box ────────────────────────────────────────────────────────────────────────


def skirt_laps(stack: Sequence[Solid]) -> dict[str, Length]:
    """How far the skirt hangs down over the topmost box, at each side.

    Less than nothing where the skirt ends above the box.
    """
    top = max(s.extents[2][1] for s in stack if s.component in BOXES)
    return {s.place: top - s.extents[2][0] for s in stack if s.part.startswith("skirt_")}


# ── the way in ────────────────────────────────────────────────────────────────────────────────────


def way_in(stack: Sequence[Solid]) -> Length:
    """Height of the way in: from the higher of front rail and front stop up to the lowest box."""
    foot = min(s.extents[2][0] for s in stack if s.component in BOXES)
    below = (s for s in stack if s.part in {"front_rail", "screen_front_stop"})
    return foot - max(s.extents[2][1] for s in below)


# ── what it weighs ────────────────────────────────────────────────────────────────────────────────


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
    """What one component weighs, empty and full, in kilograms: "box 2" is the second from below."""

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
        name = title(solid.component)
        if solid.component in BOXES:
            name = f"box {solid.tier}" if values["boxes"] > 1 else "box"
        found[name] = found.get(name, 0.0) + _mass(solid, values)
    honey = _honey(values, built)
    each = [Weight(n, kg, kg + honey * n.startswith("box")) for n, kg in found.items()]
    return (*each, Weight("whole hive", sum(w.empty for w in each), sum(w.full for w in each)))


def _mass(solid: Solid, values: Mapping[str, Fraction]) -> float:
    """What one piece weighs, in kilograms; of mesh two layers of round wire, eight to the inch."""
    material, share = material_of(solid), 1.0
    if material == "mesh":
        thickness = float(values["mesh_thickness"])
        wire = thickness / 2
        share = 2 * 8 * (pi / 4 * wire**2) / thickness
    return float(solid.volume) * _CUBIC_INCH * DENSITIES[material] * share


_MATERIALS: Final[Mapping[tuple[str, str], Material]] = {
    (component, part.name): part.material
    for component, module in COMPONENTS.items()
    for part in module.PARTS
}


def material_of(solid: Solid) -> Material:
    """What a piece is made of; the plain walls that stand for a box are boards."""
    return _MATERIALS.get((solid.component, solid.part), "board")


def _honey(values: Mapping[str, Fraction], built: Collection[str]) -> float:
    """Frames and honey of one full box, in kilograms."""
    outline = _outline(values, built)
    wide, long = (high - low - 2 * values["board_thickness"] for low, high in outline)
    frames = values["frames"] if "box" in built else floor(wide / values["frame_spacing"])
    above = values["rest_depth"] - values["lug_thickness"]
    high = box_height(values, built) - above - values["space_below"] - BARS_HIGH
    comb = (values["frame_spacing"] - WAY_BETWEEN) * (long - ENDS_LONG) * high
    return int(frames) * (FRAME + max(0.0, float(comb)) * _CUBIC_INCH * HONEY)
