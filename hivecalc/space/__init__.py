"""The parts in space: what touches, what overlaps, what is left open.

All components stand in the hive's own coordinates: x across (0 at the hive's left, hive_width at
its right), y from front (0) to back, z up from the component's own foot. Lengths are Fractions of
an inch, values those of `components.values`.

    solids(values, component)        every piece of a component in its place
    surroundings(values, component)  what the component meets, as plain blocks
    stacked(values, built)           the whole hive as it stands in the field
    skirt_laps(stack), way_in(stack) what only the whole shows
    weights(values, built)           what it weighs, empty and full
    screw_row(values, side)          where the roof's screws stand
    held(joints, component)          how each joint is held
    overlaps(solids), contacts(solids), gap(a, b, axis)
    consequences(true, changed)      what a wrong cut does
    joints(values, component)        what is meant to touch
    layers(component)                how it is taken apart
"""

from collections.abc import Mapping
from fractions import Fraction

from hivecalc.space.fastening import (
    HELD,
    SIDES,
    ScrewRow,
    Side,
    fasteners,
    held,
    is_kind,
    matches,
    run_of,
    screw_row,
)
from hivecalc.space.meeting import (
    Contact,
    Each,
    Held,
    Joint,
    Layers,
    Loose,
    OnTheLine,
    contacts,
    gap,
    overlaps,
)
from hivecalc.space.solids import AXES, Axis, Block, NoPieceError, Solid
from hivecalc.space.stacking import (
    MODULES,
    Weight,
    box_height,
    feet,
    material_of,
    overall_height,
    skirt_laps,
    stacked,
    way_in,
    weights,
)
from hivecalc.space.wrong_cuts import Consequence, consequences, only_these, sizes_of_pieces

__all__ = [
    "AXES", "HELD", "SIDES", "Axis", "Block", "Consequence", "Contact", "Each", "Held",
    "Joint", "Loose", "NoPieceError", "OnTheLine", "ScrewRow", "Side", "Solid", "Weight",
    "assembled", "box_height", "consequences", "contacts", "fasteners", "feet", "gap", "held",
    "is_kind", "joints", "layers", "matches", "material_of", "only_these", "overall_height",
    "overlaps", "run_of", "screw_row", "sizes_of_pieces", "skirt_laps", "solids",
    "stacked", "surroundings", "way_in", "weights",
]  # fmt: skip


def joints(values: Mapping[str, Fraction], component: str) -> tuple[Joint, ...]:
    """The joints of a component on this hive: which pieces are meant to touch, along which axis."""
    found: tuple[Joint, ...] = MODULES[component].joints(values)
    return found


def layers(component: str) -> Layers:
    """How a component is taken apart: its layers from below upwards, each piece its way."""
    found: Layers = MODULES[component].APART
    return found


def solids(values: Mapping[str, Fraction], component: str) -> tuple[Solid, ...]:
    """Every piece of a component in its place, each with its own sizes.

    Raises NoPieceError for a size of nothing or less.
    """
    found: tuple[Solid, ...] = MODULES[component].solids(values)
    return found


def surroundings(values: Mapping[str, Fraction], component: str) -> tuple[Solid, ...]:
    """What a component meets, as plain blocks: the box above, the hive below."""
    found: tuple[Solid, ...] = MODULES[component].surroundings(values)
    return found


def assembled(values: Mapping[str, Fraction], component: str) -> tuple[Solid, ...]:
    """A component's pieces in their places, and what it meets beside them."""
    return solids(values, component) + surroundings(values, component)
