"""The roof in its place: rim, deck, foam, retainers, skirt and cover.

In the hive's coordinates: the rim is bigger than the hive by the cap clearance in all, so it begins
half of that outside of the hive; z is counted from the rim's foot. What the slope does:

- The deck and the cover were cut to the size they have in plan. Lying on the slope they reach a
  hair less far to the front and back: their length times the slope's cosine.
- The foam is pressed against the rails, so its ends stand upright although it lies on the slope.
- The rim's front and back are planed on top to the slope. So is the skirt where the deck comes down
  past the rim's low end: the top of its back end, and the tails of its sides.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from math import isqrt
from typing import Final

from hivecalc.length import Length, Ratio
from hivecalc.space.meeting import (
    BRADS,
    FOAM,
    OTHERS,
    RESTS,
    TOUCHES,
    Away,
    Each,
    Held,
    Hold,
    Joint,
    Layers,
    Loose,
    OnTheLine,
    both_sides,
)
from hivecalc.space.solids import (
    FLAT_LENGTHWAYS,
    NOTHING,
    ON_EDGE_ACROSS,
    ON_EDGE_LENGTHWAYS,
    CutPieces,
    Interval,
    Point,
    Profile,
    Solid,
    Spot,
    centred_on,
    ending_at,
    hive_outline,
    rectangle,
    starting_at,
)

COMPONENT = "roof"
FINE = 2**20  # square roots are taken to one part in a million or better


def solids(values: Mapping[str, Fraction]) -> tuple[Solid, ...]:
    """Every piece of the roof in its place."""
    pieces = CutPieces(COMPONENT, values)
    return (*_rim(pieces), *_deck_and_foam(pieces), *_skirt(pieces), _cover(pieces))


def surroundings(values: Mapping[str, Fraction]) -> tuple[Solid, ...]:
    """What the roof meets: the inner cover that it stands on, if any, and the box below."""
    pieces, depth = CutPieces(COMPONENT, values), -values["skirt_width"]
    outline = hive_outline(values)
    if not values["inner_cover"]:
        return (pieces.stand_in("box_below", *outline, (depth, NOTHING)),)
    top = -values["inner_cover.overall_height"]
    return (
        pieces.stand_in("inner_cover_below", *outline, (top, NOTHING)),
        pieces.stand_in("box_below", *outline, (top + depth, top)),
    )


def _outline(values: Mapping[str, Fraction], size: str) -> Interval:
    """From where to where the rim reaches, along the hive's length or across its width."""
    half = values["cap_clearance"] / 2
    return (-half, values[size] + half)


def _line(values: Mapping[str, Fraction]) -> tuple[Point, Point]:
    """The line on which the deck lies: its front and its back point above the rim's ends."""
    front, back = _outline(values, "hive_length")
    return (front, values["stud_width"]), (back, values["rim_low_height"])


def fall(values: Mapping[str, Fraction]) -> Ratio:
    """How much the roof falls for each inch to the back."""
    (y0, z0), (y1, z1) = _line(values)
    return (z0 - z1) / (y1 - y0)


def height_on_slope(values: Mapping[str, Fraction], y: Length) -> Length:
    """How high the deck's lower face lies at a place along the hive, above the rim's foot."""
    (front, high), _ = _line(values)
    return high - fall(values) * (y - front)


def cosine(slope: Ratio) -> Ratio:
    """The length in plan of each inch along a slope.

    Too big by less than one part in a million.
    """
    rise, run = slope.numerator, slope.denominator
    return Fraction(run * FINE, isqrt((rise * rise + run * run) * FINE * FINE))


def tilted(slope: Ratio, middle: Point, length: Length, thickness: Length) -> Profile:
    """The outline of a square-edged board on the slope, over the middle of its lower face."""
    c = cosine(slope)
    y, z = c * length / 2, slope * c * length / 2
    up_y, up_z = slope * c * thickness, c * thickness
    front, back = (middle[0] - y, middle[1] + z), (middle[0] + y, middle[1] - z)
    return (front, back, (back[0] + up_y, back[1] + up_z), (front[0] + up_y, front[1] + up_z))


def _rim(pieces: CutPieces) -> Iterator[Solid]:
    v, foot = pieces.values, NOTHING
    (left, right), (front, back) = _outline(v, "hive_width"), _outline(v, "hive_length")
    # A side is tapered over its own length, from its width in front to the low height.
    _, length, width = pieces.cut("rim_side", ON_EDGE_LENGTHWAYS)
    end, low = front + length, v["rim_low_height"]
    side = ((front, foot), (end, foot), (end, low), (front, width))
    for place, x in (("left", starting_at(left)), ("right", ending_at(right))):
        yield pieces.prism("rim_side", place, ON_EDGE_LENGTHWAYS, x, side)
    between = starting_at(left + v["stud_thickness"])
    _, thickness, width = pieces.cut("rim_front", ON_EDGE_ACROSS)
    behind, inner = front + thickness, v["roof.rim_front_inner_height"]
    planed = ((front, foot), (behind, foot), (behind, inner), (front, width))
    yield pieces.prism("rim_front", "", ON_EDGE_ACROSS, between, planed)
    # The back is ripped to its height inside and planed on top to the slope.
    _, thickness, width = pieces.cut("rim_back", ON_EDGE_ACROSS)
    before, outer = back - thickness, width - fall(v) * thickness
    planed = ((before, foot), (back, foot), (back, outer), (before, width))
    yield pieces.prism("rim_back", "", ON_EDGE_ACROSS, between, planed)


def _deck_and_foam(pieces: CutPieces) -> Iterator[Solid]:
    v, across = pieces.values, centred_on(pieces.values["hive_width"] / 2)
    _, length, thickness = pieces.cut("deck", FLAT_LENGTHWAYS)
    deck = tilted(fall(v), _middle(v), length, thickness)
    yield pieces.prism("deck", "", FLAT_LENGTHWAYS, across, deck)
    # The foam reaches from the rim's front to its back, its ends upright.
    _, length, thickness = pieces.cut("roof_panel", FLAT_LENGTHWAYS)
    front = _outline(v, "hive_length")[0] + v["stud_thickness"]
    tops = [(y, height_on_slope(v, y)) for y in (front + length, front)]
    panel = (*((y, z - thickness) for y, z in reversed(tops)), *tops)
    yield pieces.prism("roof_panel", "", FLAT_LENGTHWAYS, across, panel)
    # The retainers lie flat under the foam, their middle under the foam's middle.
    slope, (_, back) = fall(v), _outline(v, "hive_length")
    _, length, thickness = pieces.cut("roof_retainer", FLAT_LENGTHWAYS)
    y = (front + back - v["rim_back_thickness"]) / 2
    z = height_on_slope(v, y) - v["roof_foam_thickness"]
    down_y, down_z = slope * cosine(slope) * thickness, cosine(slope) * thickness
    retainer = tilted(slope, (y - down_y, z - down_z), length, thickness)
    left, right = _outline(v, "hive_width")
    rails = (
        ("left", starting_at(left + v["stud_thickness"])),
        ("right", ending_at(right - v["stud_thickness"])),
    )
    for place, x in rails:
        yield pieces.prism("roof_retainer", place, FLAT_LENGTHWAYS, x, retainer)


def _middle(values: Mapping[str, Fraction]) -> Point:
    """The middle of the deck's lower face, over the middle of the hive."""
    y = values["hive_length"] / 2
    return (y, height_on_slope(values, y))


def _skirt(pieces: CutPieces) -> Iterator[Solid]:
    v = pieces.values
    (left, right), (front, back) = _outline(v, "hive_width"), _outline(v, "hive_length")
    for place, y in (("front", ending_at(front)), ("back", starting_at(back))):
        profile = _skirt_profile(pieces, "skirt_end", ON_EDGE_ACROSS, y)
        yield pieces.prism("skirt_end", place, ON_EDGE_ACROSS, starting_at(left), profile)
    y = starting_at(front - v["skirt_thickness"])
    for place, x in (("left", ending_at(left)), ("right", starting_at(right))):
        profile = _skirt_profile(pieces, "skirt_side", ON_EDGE_LENGTHWAYS, y)
        yield pieces.prism("skirt_side", place, ON_EDGE_LENGTHWAYS, x, profile)


def _skirt_profile(pieces: CutPieces, part: str, along: tuple[str, str, str], y: Spot) -> Profile:
    """A piece of the skirt, level with the rim's low end; behind it the top is planed to the slope.

    The front end lies before the rim's low end and stays square.
    """
    _, deep, high = pieces.cut(part, along)
    (low, end), top = y(deep), pieces.values["rim_low_height"]
    foot, (_, back) = top - high, _outline(pieces.values, "hive_length")
    slope = fall(pieces.values)
    if end <= back or not slope:
        return rectangle((low, end), (foot, top))
    tail = ((back, top),) if low < back else ()
    return (
        (low, foot),
        (end, foot),
        (end, top - slope * (end - back)),
        *tail,
        (low, top - slope * max(low - back, NOTHING)),
    )


def _cover(pieces: CutPieces) -> Solid:
    v, slope = pieces.values, fall(pieces.values)
    _, length, thickness = pieces.cut("cover", FLAT_LENGTHWAYS)
    (y, z), up = _middle(v), cosine(slope) * v["deck_thickness"]
    profile = tilted(slope, (y + slope * up, z + up), length, thickness)
    return pieces.prism("cover", "", FLAT_LENGTHWAYS, centred_on(v["hive_width"] / 2), profile)


def joints(values: Mapping[str, Fraction]) -> tuple[Joint, ...]:
    """The joints of the roof: which pieces are meant to touch.

    The rim stands on the inner cover, or on the box where there is none. The skirt's front end and
    the deck touch only on a flat roof.
    """
    below = "inner cover below" if values["inner_cover"] else "box below"
    front: list[Joint] = [] if fall(values) else [("skirt end, front", "deck", "z")]
    meets: list[Joint] = [("inner cover below", "box below", "z")] if values["inner_cover"] else []
    return both_sides(
        ("rim side, left", "rim front", "x"),
        ("rim side, left", "rim back", "x"),
        ("rim side, left", "deck", "z"),
        ("rim front", "deck", "z"),
        ("rim back", "deck", "z"),
        ("roof panel", "deck", "z"),
        ("roof panel", "rim front", "y"),
        ("roof panel", "rim back", "y"),
        ("rim side, left", "roof panel", "x"),
        ("rim side, left", "roof retainer, left", "x"),
        ("roof retainer, left", "roof panel", "z"),
        ("skirt side, left", "rim side, left", "x"),
        ("skirt side, left", "skirt end, front", "x"),
        ("skirt side, left", "skirt end, back", "x"),
        ("skirt side, left", "deck", "z"),
        ("skirt end, back", "deck", "z"),
        ("cover", "deck", "z"),
        ("skirt end, front", "rim front", "y"),
        ("skirt end, front", "rim side, left", "y"),
        ("skirt end, back", "rim back", "y"),
        ("skirt end, back", "rim side, left", "y"),
        ("rim side, left", below, "z"),
        ("rim front", below, "z"),
        ("rim back", below, "z"),
        *front,
        *meets,
    )


HELD: Final[tuple[Hold, ...]] = (
    Held("rim side", "rim front", "frame_screw", Each(2), "width", glued=True),
    Held("rim side", "rim back", "frame_screw", Each(2), "width", glued=True),
    Held("deck", "rim side", "deck_screw", OnTheLine()),
    Held("deck", "rim front", "deck_screw", OnTheLine()),
    Held("deck", "rim back", "deck_screw", OnTheLine()),
    Held("cover", "deck", "cover_screw", OnTheLine()),
    Held("roof retainer", "rim side", "long_brad", BRADS),
    Held("skirt side", "rim side", "long_brad", BRADS, glued=True),
    Held("skirt end", "rim front", "long_brad", BRADS, glued=True),
    Held("skirt end", "rim back", "long_brad", BRADS, glued=True),
    Held("skirt end", "rim side", "long_brad", Each(1)),
    Loose("skirt side", "skirt end", OTHERS, glued=True),
    Loose("skirt side", "deck", TOUCHES),
    Loose("skirt end", "deck", TOUCHES),
    Loose("roof panel", "deck", FOAM),
    Loose("roof panel", "rim front", FOAM),
    Loose("roof panel", "rim back", FOAM),
    Loose("roof panel", "rim side", FOAM),
    Loose("roof retainer", "roof panel", FOAM),
    Loose("rim side", "inner cover below", RESTS),
    Loose("rim front", "inner cover below", RESTS),
    Loose("rim back", "inner cover below", RESTS),
    Loose("rim side", "box below", RESTS),
    Loose("rim front", "box below", RESTS),
    Loose("rim back", "box below", RESTS),
    Loose("inner cover below", "box below", RESTS),
)
"""How each kind of joint of the roof is held."""

APART: Final[Layers] = (
    (Away("skirt side", steps=2), Away("skirt end", steps=2)),
    (Away("rim side"), Away("rim front", "front"), Away("rim back", "back")),
    (Away("roof retainer", steps=0),),
    (Away("roof panel"),),
    (Away("deck"),),
    (Away("cover"),),
)
"""How the roof is taken apart: its layers from below upwards, each piece its way."""
