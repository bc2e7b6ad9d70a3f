"""The inner cover in its place: a sheet, the rim, a sheet; with a notch also slot and channel.

In the hive's coordinates, z from the lower sheet's lower face. The notch is in the middle of the
front; behind it the channel, and in the channel the slot through the lower sheet.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from hivecalc.space.meeting import (
    BRADS,
    OTHERS,
    RESTS,
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
    Block,
    CutPieces,
    Interval,
    Solid,
    centred_on,
    ending_at,
    hive_outline,
    rectangle,
    starting_at,
)

COMPONENT = "inner_cover"


def solids(values: Mapping[str, Fraction]) -> tuple[Solid, ...]:
    """Every piece of the inner cover in its place."""
    pieces = CutPieces(COMPONENT, values)
    channel = _channel(pieces) if values["inner_notch"] else ()
    corner = starting_at(NOTHING)
    top = starting_at(values["sheet_thickness"] + values["inner_rim_height"])
    upper_sheet = pieces.piece("sheet", "upper", FLAT_LENGTHWAYS, (corner, corner, top))
    return (_lower_sheet(pieces), *_rim(pieces), *channel, upper_sheet)


def surroundings(values: Mapping[str, Fraction]) -> tuple[Solid, ...]:
    """What the inner cover meets: the box below and the roof above, as plain blocks."""
    pieces, outline, deep = CutPieces(COMPONENT, values), hive_outline(values), values["stud_width"]
    top = 2 * values["sheet_thickness"] + values["inner_rim_height"]
    below = pieces.stand_in("box_below", *outline, (-deep, NOTHING))
    return (below, pieces.stand_in("roof_above", *outline, (top, top + deep)))


def _lower_sheet(pieces: CutPieces) -> Solid:
    """The lower sheet, whole or with the slot: the four fields round it are its blocks."""
    cut = pieces.cut("sheet", FLAT_LENGTHWAYS)
    (x0, x1), (y0, y1), z = ((NOTHING, size) for size in cut)
    blocks = [Block(x0, x1, rectangle((y0, y1), z))]
    if pieces.values["inner_notch"]:
        (left, right), (front, back) = slot(pieces.values)
        blocks = [
            Block(x0, left, rectangle((y0, y1), z)),
            Block(left, right, rectangle((y0, front), z)),
            Block(left, right, rectangle((back, y1), z)),
            Block(right, x1, rectangle((y0, y1), z)),
        ]
    return Solid(COMPONENT, "sheet", "lower", tuple(blocks), FLAT_LENGTHWAYS, cut)


def slot(values: Mapping[str, Fraction]) -> tuple[Interval, Interval]:
    """From where to where the slot in the lower sheet reaches, across the hive and along it."""
    x = centred_on(values["hive_width"] / 2)(values["inner_cover.slot_length"])
    return x, starting_at(values["inner_cover.slot_from_front"])(values["inner_cover.slot_width"])


def _rim(pieces: CutPieces) -> Iterator[Solid]:
    v, corner = pieces.values, starting_at(NOTHING)
    z = starting_at(v["sheet_thickness"])
    for place, x in (("left", corner), ("right", ending_at(v["hive_width"]))):
        yield pieces.piece("rim_side", place, FLAT_LENGTHWAYS, (x, corner, z))
    left, right = starting_at(v["stud_thickness"]), ending_at(v["hive_width"] - v["stud_thickness"])
    fronts = (("left", left), ("right", right)) if v["inner_notch"] else (("", left),)
    for place, x in fronts:
        yield pieces.piece("rim_front", place, FLAT_ACROSS, (x, corner, z))
    yield pieces.piece("rim_back", "", FLAT_ACROSS, (left, ending_at(v["hive_length"]), z))


def _channel(pieces: CutPieces) -> Iterator[Solid]:
    """Two short strips behind the notch's ends, and one across their ends."""
    v, middle = pieces.values, centred_on(pieces.values["hive_width"] / 2)
    z, y = starting_at(v["sheet_thickness"]), v["stud_thickness"]
    left, right = middle(v["inner_notch"])
    for place, x in (("left", ending_at(left)), ("right", starting_at(right))):
        yield pieces.piece("channel_side", place, FLAT_LENGTHWAYS, (x, starting_at(y), z))
    behind = starting_at(y + v["inner_channel_depth"])
    yield pieces.piece("channel_back", "", FLAT_ACROSS, (middle, behind, z))


def joints(values: Mapping[str, Fraction]) -> tuple[Joint, ...]:
    """The joints of the inner cover: which pieces are meant to touch, with a notch or closed."""
    framing, in_channel = ["rim side, left", "rim side, right", "rim back"], list[Joint]()
    front = "rim front, left" if values["inner_notch"] else "rim front"
    framing.append(front)
    if values["inner_notch"]:
        framing += ["rim front, right", "channel side, left", "channel side, right", "channel back"]
        in_channel += [
            ("channel side, left", front, "y"),
            ("channel side, left", "channel back", "y"),
        ]
    on_sheets: list[Joint] = [
        (f"sheet, {place}", piece, "z") for place in ("lower", "upper") for piece in framing
    ]
    return (
        *on_sheets,
        *both_sides(
            ("rim side, left", front, "x"),
            ("rim side, left", "rim back", "x"),
            ("box below", "sheet, lower", "z"),
            ("sheet, upper", "roof above", "z"),
            *in_channel,
        ),
    )


HELD: Final[tuple[Hold, ...]] = (
    Held("sheet", "rim side", "sheet_brad", BRADS, glued=True),
    Held("sheet", "rim front", "sheet_brad", BRADS, glued=True),
    Held("sheet", "rim back", "sheet_brad", BRADS, glued=True),
    Held("sheet", "channel side", "sheet_brad", Each(1), glued=True),
    Held("sheet", "channel back", "sheet_brad", Each(2), glued=True),
    Loose("channel side", "rim front", OTHERS, glued=True),
    Loose("channel side", "channel back", OTHERS, glued=True),
    Loose("rim side", "rim front", OTHERS, glued=True),
    Loose("rim side", "rim back", OTHERS, glued=True),
    Loose("sheet", "box below", RESTS),
    Loose("sheet", "roof above", RESTS),
)
"""How each kind of joint of the inner cover is held."""

APART: Final[Layers] = (
    (Away("sheet, lower"),),
    (
        Away("rim side"),
        Away("rim front", "front"),
        Away("rim back", "back"),
        Away("channel side", steps=0),
        Away("channel back"),
    ),
    (Away("sheet, upper"),),
)
"""How the inner cover is taken apart: its layers from below upwards, each piece its way."""
