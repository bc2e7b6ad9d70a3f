"""The sleeve in its place: edge strips and foam round the box, a skin round the foam.

In the hive's coordinates: the box stands in the middle of the hive's outline, z from its foot.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from hivecalc.space.box import outline
from hivecalc.space.meeting import (
    BRADS,
    FOAM,
    OTHERS,
    TOUCHES,
    Away,
    Held,
    Hold,
    Joint,
    Layers,
    Loose,
    both_sides,
)
from hivecalc.space.solids import (
    NOTHING,
    ON_EDGE_ACROSS,
    ON_EDGE_LENGTHWAYS,
    CutPieces,
    Interval,
    Solid,
    Spot,
    ending_at,
    starting_at,
)

COMPONENT = "sleeve"


def solids(values: Mapping[str, Fraction]) -> tuple[Solid, ...]:
    """Every piece of the sleeve in its place."""
    pieces, ground = CutPieces(COMPONENT, values), starting_at(NOTHING)
    foam = (NOTHING, values["sleeve_foam_thickness"])
    skin = (foam[1], foam[1] + values["skin_thickness"])
    between, top = starting_at(values["edge_strip_height"]), ending_at(values["box_height"])
    return (
        *_ring(pieces, "foam", "", between, foam),
        *_ring(pieces, "edge_strip", "lower ", ground, foam),
        *_ring(pieces, "edge_strip", "upper ", top, foam),
        *_ring(pieces, "skin", "", ground, skin),
    )


def surroundings(values: Mapping[str, Fraction]) -> tuple[Solid, ...]:
    """What the sleeve meets: the box inside it, as a plain block."""
    x, y = outline(values)
    pieces = CutPieces(COMPONENT, values)
    return (pieces.stand_in("box_inside", x, y, (NOTHING, values["box_height"])),)


def _ring(pieces: CutPieces, stem: str, layer: str, z: Spot, wall: Interval) -> Iterator[Solid]:
    """Two sides and the two ends that cover their edges; the wall is counted from the box."""
    (left, right), (front, back) = outline(pieces.values)
    inner, outer = wall
    y = starting_at(front - inner)
    for place, x in (("left", ending_at(left - inner)), ("right", starting_at(right + inner))):
        yield pieces.piece(f"{stem}_side", layer + place, ON_EDGE_LENGTHWAYS, (x, y, z))
    x = starting_at(left - outer)
    for place, y in (("front", ending_at(front - inner)), ("back", starting_at(back + inner))):
        yield pieces.piece(f"{stem}_end", layer + place, ON_EDGE_ACROSS, (x, y, z))


def _ring_joints() -> Iterator[Joint]:
    """Each layer's joints at the left; both_sides adds the right."""
    sides = ("foam side, left", "edge strip side, lower left", "edge strip side, upper left")
    for end in ("front", "back"):
        ends = (f"foam end, {end}", f"edge strip end, lower {end}", f"edge strip end, upper {end}")
        for side_piece, end_piece in zip(sides, ends, strict=True):
            yield (side_piece, end_piece, "y")
            yield (end_piece, "skin side, left", "x")
        yield ("skin side, left", f"skin end, {end}", "y")
    for side_piece in sides:
        yield ("box inside", side_piece, "x")
        yield (side_piece, "skin side, left", "x")
    for strip in sides[1:]:
        yield ("foam side, left", strip, "z")


def _end_joints() -> Iterator[Joint]:
    for end in ("front", "back"):
        strips = (f"edge strip end, lower {end}", f"edge strip end, upper {end}")
        for piece in (f"foam end, {end}", *strips):
            yield ("box inside", piece, "y")
            yield (piece, f"skin end, {end}", "y")
        for strip in strips:
            yield (f"foam end, {end}", strip, "z")


def joints(_: Mapping[str, Fraction]) -> tuple[Joint, ...]:
    """The joints of the sleeve: which pieces are meant to touch."""
    return (*both_sides(*_ring_joints()), *_end_joints())


HELD: Final[tuple[Hold, ...]] = (
    Held("edge strip side", "box inside", "edge_screw", BRADS),
    Held("edge strip end", "box inside", "edge_screw", BRADS),
    Held("skin side", "edge strip side", "long_brad", BRADS, glued=True),
    Held("skin end", "edge strip end", "long_brad", BRADS, glued=True),
    Loose("skin side", "skin end", OTHERS, glued=True),
    Loose("edge strip side", "edge strip end", OTHERS, glued=True),
    Loose("edge strip end", "skin side", TOUCHES),
    Loose("foam side", "box inside", FOAM),
    Loose("foam end", "box inside", FOAM),
    Loose("foam side", "foam end", FOAM),
    Loose("foam side", "skin side", FOAM),
    Loose("foam end", "skin side", FOAM),
    Loose("foam end", "skin end", FOAM),
    Loose("foam side", "edge strip side", FOAM),
    Loose("foam end", "edge strip end", FOAM),
)
"""How each kind of joint of the sleeve is held."""

APART: Final[Layers] = (
    (Away("edge strip side, lower", steps=1.5), Away("edge strip end, lower", steps=1.5)),
    (Away("foam side", steps=1.5), Away("foam end", steps=1.5)),
    (Away("edge strip side, upper", steps=1.5), Away("edge strip end, upper", steps=1.5)),
    (Away("skin side", steps=2), Away("skin end", steps=2)),
)
"""How the sleeve is taken apart: its layers from below upwards, each piece its way."""
