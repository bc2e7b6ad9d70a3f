"""The bottom board in its place: frame, runners, panel, screen and landing board.

From the hive's front left corner at the bottom of the frame: x across, y to the back, z up.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from hivecalc.length import Length
from hivecalc.space.meeting import (
    BRADS,
    OTHERS,
    RESTS,
    SLIDES,
    Away,
    Each,
    Held,
    Hold,
    Joint,
    Layers,
    Loose,
    both_sides,
)
from hivecalc.space.solids import (
    FLAT_ACROSS,
    FLAT_LENGTHWAYS,
    NOTHING,
    ON_EDGE_ACROSS,
    ON_EDGE_LENGTHWAYS,
    CutPieces,
    Profile,
    Solid,
    centred_on,
    ending_at,
    hive_outline,
    starting_at,
)

COMPONENT = "bottom_board"
# The landing board falls by 30 degrees. √3 is taken as 1351/780, which is too big by less than
# one part in a million; the sine is exactly one half.
COSINE, SINE = Fraction(1351, 1560), Fraction(1, 2)


def solids(values: Mapping[str, Fraction]) -> tuple[Solid, ...]:
    """Every piece of the bottom board in its place."""
    pieces, runners = CutPieces(COMPONENT, values), values["bottom_board.lower_runner_height"]
    slot_top = runners + values["bottom_board.slot_height"]
    middle = centred_on(values["hive_width"] / 2), centred_on(values["hive_length"] / 2)
    return (
        *_frame(pieces),
        *_runners(pieces, "lower", NOTHING),
        pieces.piece("panel", "", FLAT_LENGTHWAYS, (*middle, starting_at(runners))),
        *_runners(pieces, "upper", slot_top),
        *_screen(pieces, slot_top + values["bottom_board.upper_runner_height"]),
        _landing_board(pieces),
    )


def surroundings(values: Mapping[str, Fraction]) -> tuple[Solid, ...]:
    """What the bottom board meets: the box above, a plain block that rests on the rails."""
    pieces, top = CutPieces(COMPONENT, values), values["stud_width"]
    return (pieces.stand_in("box_above", *hive_outline(values), (top, top + top)),)


def _frame(pieces: CutPieces) -> Iterator[Solid]:
    v = pieces.values
    corner = starting_at(NOTHING)
    for place, x in (("left", corner), ("right", ending_at(v["hive_width"]))):
        yield pieces.piece("side_rail", place, ON_EDGE_LENGTHWAYS, (x, corner, corner))
    between = starting_at(v["stud_thickness"])
    yield pieces.piece("front_rail", "", ON_EDGE_ACROSS, (between, corner, corner))
    back = ending_at(v["hive_length"])
    yield pieces.piece("back_rail", "", ON_EDGE_ACROSS, (corner, back, corner))


def _runners(pieces: CutPieces, layer: str, height: Length) -> Iterator[Solid]:
    """The two side runners against their rails and the front runner between them."""
    v, thickness = pieces.values, pieces.values["stud_thickness"]
    z, y = starting_at(height), centred_on(v["hive_length"] / 2)
    flat, on_edge = (FLAT_LENGTHWAYS, FLAT_ACROSS), (ON_EDGE_LENGTHWAYS, ON_EDGE_ACROSS)
    lies = {v["strip_wide"]: on_edge, v["strip_narrow"]: flat}
    high = pieces.size(f"{layer}_runner", "height")
    if high not in lies:  # no side of the strip is as high: another one is ripped, turned as meant
        lies[high], upright = (flat, "thickness") if layer == "upper" else (on_edge, "width")
        sizes = (f"bottom_board.{layer}_{side}_runner_{upright}" for side in ("side", "front"))
        pieces = CutPieces(COMPONENT, {**v, **dict.fromkeys(sizes, high)})
    lengthways, across = lies[high]
    rails = ("left", starting_at(thickness)), ("right", ending_at(v["hive_width"] - thickness))
    for place, x in rails:
        yield pieces.piece(f"{layer}_side_runner", place, lengthways, (x, y, z))
    x, y = centred_on(v["hive_width"] / 2), starting_at(thickness)
    yield pieces.piece(f"{layer}_front_runner", "", across, (x, y, z))


def _screen(pieces: CutPieces, height: Length) -> Iterator[Solid]:
    """Two layers of strips, the upper one with the front stop, and the mesh between them.

    The screen begins past the rail and half the gap.
    """
    v = pieces.values
    edge = v["stud_thickness"] + v["screen_gap"] / 2
    front, between = starting_at(edge), starting_at(edge + v["strip_wide"])
    sides = {"left": front, "right": ending_at(v["hive_width"] - edge)}
    ends = {"front": front, "back": ending_at(v["hive_length"] - edge)}
    mesh = height + v["strip_narrow"]
    for layer, z in (
        ("lower", starting_at(height)),
        ("upper", starting_at(mesh + v["mesh_thickness"])),
    ):
        for place, x in sides.items():
            spots = x, front, z
            yield pieces.piece("screen_side_strip", f"{layer} {place}", FLAT_LENGTHWAYS, spots)
        for place, y in ends.items():
            if (layer, place) == ("upper", "front"):
                continue
            spots = between, y, z
            yield pieces.piece("screen_end_strip", f"{layer} {place}", FLAT_ACROSS, spots)
        if layer == "lower":  # mesh is cut from a roll: its thickness is the measured one
            cut = (pieces.size("mesh", "width"), pieces.size("mesh", "length"), v["mesh_thickness"])
            x, y = centred_on(v["hive_width"] / 2), centred_on(v["hive_length"] / 2)
            extents = x(cut[0]), y(cut[1]), starting_at(mesh)(cut[2])
            yield pieces.box("mesh", "", FLAT_LENGTHWAYS, cut, extents)
    yield pieces.piece("screen_front_stop", "", FLAT_ACROSS, (between, front, z))


def _landing_board(pieces: CutPieces) -> Solid:
    """A board that falls to the front from the front rail's top, its rear edge bevelled."""
    _, width, thickness = pieces.cut("landing_board", FLAT_ACROSS)
    top = pieces.values["stud_width"] - pieces.values["entrance_height"]
    profile = landing_profile(top, width, thickness)
    return pieces.prism("landing_board", "", FLAT_ACROSS, starting_at(NOTHING), profile)


def landing_profile(top: Length, width: Length, thickness: Length) -> Profile:
    """The outline of the landing board, seen from the right: its rear edge lies flat at y = 0.

    The upper face is as wide as the board; the bevel takes the lower face's rear corner away.
    """
    front = (-width * COSINE, top - width * SINE)
    below = (front[0] + thickness * SINE, front[1] - thickness * COSINE)
    heel = top - thickness * (COSINE + SINE * SINE / COSINE)
    return ((NOTHING, heel), (NOTHING, top), front, below)


def joints(_: Mapping[str, Fraction]) -> tuple[Joint, ...]:
    """The joints of the bottom board: which pieces are meant to touch."""
    return both_sides(
        ("side rail, left", "front rail", "x"),
        ("side rail, left", "back rail", "y"),
        ("side rail, left", "box above", "z"),
        ("back rail", "box above", "z"),
        ("side rail, left", "lower side runner, left", "x"),
        ("front rail", "lower front runner", "y"),
        ("lower side runner, left", "panel", "z"),
        ("lower front runner", "panel", "z"),
        ("side rail, left", "upper side runner, left", "x"),
        ("front rail", "upper front runner", "y"),
        ("upper side runner, left", "screen side strip, lower left", "z"),
        ("upper front runner", "screen end strip, lower front", "z"),
        ("screen side strip, lower left", "screen end strip, lower front", "x"),
        ("screen side strip, lower left", "screen end strip, lower back", "x"),
        ("screen side strip, upper left", "screen end strip, upper back", "x"),
        ("screen side strip, upper left", "screen front stop", "x"),
        ("screen side strip, lower left", "mesh", "z"),
        ("screen end strip, lower front", "mesh", "z"),
        ("screen end strip, lower back", "mesh", "z"),
        ("screen side strip, upper left", "mesh", "z"),
        ("screen end strip, upper back", "mesh", "z"),
        ("screen front stop", "mesh", "z"),
        ("side rail, left", "landing board", "y"),
        ("front rail", "landing board", "y"),
    )


HELD: Final[tuple[Hold, ...]] = (
    Held("side rail", "front rail", "frame_screw", Each(2), "width", glued=True),
    Held("back rail", "side rail", "hanger_bolt", Each(1), "width"),
    Held("lower side runner", "side rail", "long_brad", BRADS),
    Held("lower front runner", "front rail", "long_brad", BRADS),
    Held("upper side runner", "side rail", "long_brad", BRADS),
    Held("upper front runner", "front rail", "long_brad", BRADS),
    Held("screen side strip, upper", "mesh", "short_brad", BRADS),
    Held("screen end strip, upper", "mesh", "short_brad", BRADS),
    Held("screen front stop", "mesh", "stop_brad", BRADS),
    Held("landing board", "front rail", "deck_screw", BRADS, glued=True),
    Held("landing board", "side rail", "deck_screw", Each(1)),
    Loose("screen side strip, lower", "mesh", "The brads from above hold it."),
    Loose("screen end strip, lower", "mesh", "The brads from above hold it."),
    Loose("screen side strip", "screen end strip", OTHERS, glued=True),
    Loose("screen side strip", "screen front stop", OTHERS, glued=True),
    Loose("lower side runner", "panel", SLIDES),
    Loose("lower front runner", "panel", SLIDES),
    Loose("upper side runner", "screen side strip", SLIDES),
    Loose("upper front runner", "screen end strip", SLIDES),
    Loose("side rail", "box above", RESTS),
    Loose("back rail", "box above", RESTS),
)
"""How each kind of joint of the bottom board is held."""

APART: Final[Layers] = (
    (
        Away("side rail"),
        Away("front rail", "front"),
        Away("back rail", "back", 2.5),
        Away("landing board", "front", 2),
    ),
    (Away("lower side runner", steps=0), Away("lower front runner")),
    (Away("panel", "back", 2),),
    (Away("upper side runner", steps=0), Away("upper front runner")),
    (Away("screen side strip, lower", "back", 2), Away("screen end strip, lower", "back", 2)),
    (Away("mesh", "back", 2),),
    (
        Away("screen side strip, upper", "back", 2),
        Away("screen end strip, upper", "back", 2),
        Away("screen front stop", "back", 2),
    ),
)
"""How the bottom board is taken apart: its layers from below upwards, each piece its way."""
