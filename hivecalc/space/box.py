"""The single-wall box in its place: two sides with a rabbet at each end, two ends with a rest.

In the hive's coordinates: the box stands in the middle of the hive's outline, z from its foot.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from hivecalc.space.meeting import CORNER, RESTS, Away, Held, Hold, Joint, Layers, Loose, both_sides
from hivecalc.space.solids import (
    NOTHING,
    ON_EDGE_ACROSS,
    ON_EDGE_LENGTHWAYS,
    Block,
    CutPieces,
    Interval,
    Solid,
    centred_on,
    rectangle,
    starting_at,
)

COMPONENT = "box"


def solids(values: Mapping[str, Fraction]) -> tuple[Solid, ...]:
    """Every piece of the box in its place."""
    pieces = CutPieces(COMPONENT, values)
    return (*_sides(pieces), *_ends(pieces))


def surroundings(values: Mapping[str, Fraction]) -> tuple[Solid, ...]:
    """What the box meets: the frames' top bars in its rests, the cover above."""
    pieces, height = CutPieces(COMPONENT, values), values["box_height"]
    x, y = outline(values)
    bars = (
        centred_on(values["hive_width"] / 2)(values["frames"] * values["frame_spacing"]),
        centred_on(values["hive_length"] / 2)(values["top_bar"]),
        starting_at(height - values["rest_depth"])(values["lug_thickness"]),
    )
    above = (height, height + values["stud_width"])
    return (pieces.stand_in("top_bars", *bars), pieces.stand_in("cover_above", x, y, above))


def outline(values: Mapping[str, Fraction]) -> tuple[Interval, Interval]:
    """From where to where the box reaches across the hive and along it."""
    middle = centred_on(values["hive_width"] / 2), centred_on(values["hive_length"] / 2)
    return (middle[0](values["box_width"]), middle[1](values["box_length"]))


def _sides(pieces: CutPieces) -> Iterator[Solid]:
    """A side's outer layer is whole; a rabbet for the end takes its inner layer at both ends."""
    v = pieces.values
    (left, right), (front, _) = outline(v)
    cut = pieces.cut("side", ON_EDGE_LENGTHWAYS)
    thickness, length, height = cut
    depth = min(v["joint_depth"], thickness)
    rabbet = v["board_thickness"] if v["joint_depth"] else NOTHING
    y, z = (front, front + length), (NOTHING, height)
    outer, inner = rectangle(y, z), rectangle((y[0] + rabbet, y[1] - rabbet), z)
    whole = ((left, left + thickness - depth), (left + thickness - depth, left + thickness))
    mirrored = ((right - thickness + depth, right), (right - thickness, right - thickness + depth))
    for place, layers in (("left", whole), ("right", mirrored)):
        slabs = zip(layers, (outer, inner), strict=True)
        blocks = tuple(Block(*x, profile) for x, profile in slabs if x[0] < x[1])
        yield Solid(COMPONENT, "side", place, blocks, ON_EDGE_LENGTHWAYS, cut)


def _ends(pieces: CutPieces) -> Iterator[Solid]:
    """The whole board up to the rest, and the thin wall that stands behind the rest."""
    v = pieces.values
    (left, _), (front, back) = outline(v)
    _, thickness, height = pieces.cut("end", ON_EDGE_ACROSS)
    into_side = starting_at(left + v["board_thickness"] - v["joint_depth"])
    wall, rest = thickness - v["rest_overlap"], height - v["rest_depth"]
    front_spots = (front, front + thickness), (front, front + wall)
    back_spots = (back - thickness, back), (back - wall, back)
    for place, (board, behind) in (("front", front_spots), ("back", back_spots)):
        profiles = [rectangle(board, (NOTHING, rest))]
        if wall > 0:
            profiles.append(rectangle(behind, (rest, height)))
        yield pieces.prism("end", place, ON_EDGE_ACROSS, into_side, *profiles)


def joints(_: Mapping[str, Fraction]) -> tuple[Joint, ...]:
    """The joints of the box: which pieces are meant to touch."""
    return both_sides(
        ("side, left", "end, front", "x"),
        ("side, left", "end, front", "y"),
        ("side, left", "end, back", "x"),
        ("side, left", "end, back", "y"),
        ("side, left", "cover above", "z"),
        ("end, front", "cover above", "z"),
        ("end, back", "cover above", "z"),
        ("end, front", "top bars", "z"),
        ("end, back", "top bars", "z"),
    )


HELD: Final[tuple[Hold, ...]] = (
    Held("side", "end", "deck_screw", CORNER, "width", glued=True, axis="x"),
    Loose("side", "end", "The screws through the side hold it.", axis="y"),
    Loose("side", "cover above", RESTS),
    Loose("end", "cover above", RESTS),
    Loose("end", "top bars", RESTS),
)
"""How each kind of joint of the box is held."""

APART: Final[Layers] = ((Away("side"), Away("end"), Away("wall")),)
"""How the box is taken apart: its layers from below upwards, each piece its way."""
