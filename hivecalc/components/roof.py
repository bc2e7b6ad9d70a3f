"""The roof: a tapered rim of studs, a plywood deck, foam, a skirt that laps the box, a cover.

The rim stands on the inner cover, or on the box where there is none; its sides are lower at the
back, so that rain runs off there. Figures in the examples are common practice, no published source.
"""

from hivecalc.derivation import rounds
from hivecalc.length import Count, Length, Ratio, Rounding
from hivecalc.part import ENDS, ONE, SIDES, Part

COVERS = "It must cover: a hair too big is harmless, a hair too small lets rain in."
PLANED = "What is too high is planed to the slope: one that is too low leaves the deck on air."
FOAM_GOES_IN = "The foam must go in: press the last hair, never force a panel that is too big."


def rim_length(hive_length: Length, cap_clearance: Length) -> Length:
    """Overall length of the rim, front to back.

    The rim is a little bigger than the hive so that the roof goes on: the clearance is meant in
    all, half of it at each end.

    >>> rim_length(22.5, 0.5)
    23.0
    """
    return hive_length + cap_clearance


def rim_width(hive_width: Length, cap_clearance: Length) -> Length:
    """Overall width of the rim, side to side.

    The rim is a little bigger than the hive so that the roof goes on: the clearance is meant in
    all, half of it at each side.

    >>> rim_width(16, 0.5)
    16.5
    """
    return hive_width + cap_clearance


def slope(stud_width: Length, rim_low_height: Length, rim_length: Length) -> Ratio:
    """Fall of the roof for each inch of its length.

    The side is as high as a stud in front and lower at the back; that fall is spread over the
    whole rim.

    >>> slope(3.5, 1.5, 32)
    0.0625
    """
    return (stud_width - rim_low_height) / rim_length


def rim_side_length(rim_length: Length) -> Length:
    """Length of one side of the rim.

    The sides run the rim's whole length; front and back stand between them.

    >>> rim_side_length(23)
    23
    """
    return rim_length


def rim_front_length(rim_width: Length, stud_thickness: Length) -> Length:
    """Length of the front of the rim.

    The rim's width is its overall size. The front stands between the two sides, so both their
    thicknesses come off.

    >>> rim_front_length(16.5, 1.5)
    13.5
    """
    return rim_width - 2 * stud_thickness


def rim_front_inner_height(stud_width: Length, slope: Ratio, stud_thickness: Length) -> Length:
    """Height of the rim's front at its inner face, where the slope is already lower.

    The top of the front must follow the slope: over one stud thickness it falls by the slope.

    >>> rim_front_inner_height(3.5, 0.0625, 1.5)
    3.40625
    """
    return stud_width - slope * stud_thickness


@rounds(Rounding.UP, PLANED)
def rim_back_inner_height(
    rim_low_height: Length, slope: Ratio, rim_back_thickness: Length
) -> Length:
    """Height of the rim's back at its inner face, where the slope is still higher.

    The back is ripped to this height, then its top is planed to the slope, down to the low height
    at its outer face: a back that is square on top leaves the deck lying on air.

    >>> rim_back_inner_height(1.5, 0.0625, 1)
    1.5625
    """
    return rim_low_height + slope * rim_back_thickness


def rim_back_length(rim_front_length: Length) -> Length:
    """Length of the back of the rim.

    It stands between the sides as the front does, so it is as long.

    >>> rim_back_length(13.5)
    13.5
    """
    return rim_front_length


@rounds(Rounding.UP, COVERS)
def deck_length(hive_length: Length, overhang: Length) -> Length:
    """Length of the deck, front to back.

    It stands out beyond the hive at both ends, so the overhang counts twice.

    >>> deck_length(22.5, 2)
    26.5
    """
    return hive_length + 2 * overhang


@rounds(Rounding.UP, COVERS)
def deck_width(hive_width: Length, overhang: Length) -> Length:
    """Width of the deck, side to side.

    It stands out beyond the hive at both sides, so the overhang counts twice.

    >>> deck_width(16, 2)
    20
    """
    return hive_width + 2 * overhang


def roof_foam_thickness(foam_thickness: Length) -> Length:
    """Thickness of the foam in the roof.

    The roof has the same foam as the rest, unless you measured another for it.

    >>> roof_foam_thickness(1)
    1
    """
    return foam_thickness


@rounds(Rounding.DOWN, FOAM_GOES_IN)
def roof_panel_length(
    rim_length: Length, stud_thickness: Length, rim_back_thickness: Length
) -> Length:
    """Length of the foam in the roof, front to back.

    It fits snugly between the front, which is one stud thick, and the back, which is thinner.

    >>> roof_panel_length(23, 1.5, 1)
    20.5
    """
    return rim_length - stud_thickness - rim_back_thickness


@rounds(Rounding.DOWN, FOAM_GOES_IN)
def roof_panel_width(rim_width: Length, stud_thickness: Length) -> Length:
    """Width of the foam in the roof, side to side.

    It fits snugly between the two sides of the rim, each one stud thick.

    >>> roof_panel_width(16.5, 1.5)
    13.5
    """
    return rim_width - 2 * stud_thickness


def roof_retainer_length(roof_panel_length: Length, runner_gap: Length) -> Length:
    """Length of one strip that holds the foam up.

    It stops short of the rails, as the runners do; its length is not critical.

    >>> roof_retainer_length(20.5, 0.5)
    20.0
    """
    return roof_panel_length - runner_gap


def skirt_end_length(rim_width: Length) -> Length:
    """Length of one end of the skirt, front or back.

    It is as long as the rim is wide; the skirt's sides cover its edges.

    >>> skirt_end_length(16.5)
    16.5
    """
    return rim_width


def skirt_side_length(rim_length: Length, skirt_thickness: Length) -> Length:
    """Length of one side of the skirt.

    It covers the edges of the skirt's ends, so both their thicknesses are added to the rim.

    >>> skirt_side_length(23, 0.5)
    24.0
    """
    return rim_length + 2 * skirt_thickness


@rounds(Rounding.UP, COVERS)
def cover_length(deck_length: Length, cover_lip: Length) -> Length:
    """Length of the waterproof cover, front to back.

    A lip stands out beyond the deck at both ends, so that rain drips clear of the wood.

    >>> cover_length(26.5, 0.5)
    27.5
    """
    return deck_length + 2 * cover_lip


@rounds(Rounding.UP, COVERS)
def cover_width(deck_width: Length, cover_lip: Length) -> Length:
    """Width of the waterproof cover, side to side.

    A lip stands out beyond the deck at both sides, so that rain drips clear of the wood.

    >>> cover_width(20, 0.5)
    21.0
    """
    return deck_width + 2 * cover_lip


def skirt_width(
    rim_low_height: Length,
    inner_cover: Count,
    inner_cover_overall_height: Length,
    roof_lap: Length,
) -> Length:
    """Width of the skirt, from the rim's low end down to its lower edge.

    It hangs from the rim past the inner cover that the rim stands on, and then down over the box.
    Without an inner cover the rim stands on the box itself.

    >>> skirt_width(1.5, 1, 0.875, 1)
    3.375
    >>> skirt_width(1.5, 0, 0.875, 0.5)
    2.0
    """
    return (
        rim_low_height + inner_cover_overall_height + roof_lap
        if inner_cover
        else rim_low_height + roof_lap
    )


def lap(
    skirt_width: Length,
    rim_low_height: Length,
    inner_cover: Count,
    inner_cover_overall_height: Length,
) -> Length:
    """How far the skirt reaches down over the box, the same all round.

    The skirt's top is level with the rim's low end. What it is wider than that height, and than the
    inner cover under the rim, laps the box; less than nothing means that it ends above the box.

    >>> lap(3.375, 1.5, 1, 0.875)
    1.0
    >>> lap(2, 1.5, 0, 0.875)
    0.5
    """
    return (
        skirt_width - rim_low_height - inner_cover_overall_height
        if inner_cover
        else skirt_width - rim_low_height
    )


def deck_overhang(overhang: Length, cap_clearance: Length) -> Length:
    """How far the deck stands out beyond the rim, the same all round.

    The overhang is counted from the hive, and the rim is bigger than the hive by half the
    clearance at each side. A spacer as wide as the overhang does not fit on both sides at once.

    >>> deck_overhang(2, 0.5)
    1.75
    """
    return overhang - cap_clearance / 2


def deck_screw_line(deck_overhang: Length, stud_thickness: Length) -> Length:
    """Distance of the screw line from the deck's edge.

    A screw should land in the middle of the rail below: past the overhang, then half a stud.

    >>> deck_screw_line(1.75, 1.5)
    2.5
    """
    return deck_overhang + stud_thickness / 2


def deck_back_screw_line(deck_overhang: Length, rim_back_thickness: Length) -> Length:
    """Distance of the screw line from the deck's edge at the back.

    The rim's back is ripped thin, so its middle is nearer: past the overhang, then half of the
    back's own thickness.

    >>> deck_back_screw_line(1.75, 1)
    2.25
    """
    return deck_overhang + rim_back_thickness / 2


def cover_screw_line(deck_screw_line: Length, cover_lip: Length) -> Length:
    """Distance of the screw line from the cover's edge.

    The cover stands out beyond the deck by its lip, so the same line lies that much further in.

    >>> cover_screw_line(2.5, 0.5)
    3.0
    """
    return deck_screw_line + cover_lip


def cover_back_screw_line(deck_back_screw_line: Length, cover_lip: Length) -> Length:
    """Distance of the screw line from the cover's edge at the back.

    The cover stands out beyond the deck by its lip, so the same line lies that much further in.

    >>> cover_back_screw_line(2.25, 0.5)
    2.75
    """
    return deck_back_screw_line + cover_lip


PARTS = (
    Part("rim_side", SIDES, "stud", "stud_thickness", "stud_width", "rim_side_length",
        "Carries the deck along one side, from front to back."),
    Part("rim_front", ONE, "stud", "stud_thickness", "stud_width", "rim_front_length",
        "Stands between the sides in front."),
    Part("rim_back", ONE, "stud", "rim_back_thickness", "rim_back_inner_height", "rim_back_length",
        "Stands between the sides at the back, ripped thin."),
    Part("deck", ONE, "plywood", "deck_thickness", "deck_width", "deck_length",
        "Lies on the rim and carries the cover."),
    Part("roof_panel", ONE, "foam", "roof_foam_thickness", "roof_panel_width", "roof_panel_length",
        "Fits snugly between the rim's rails, under the deck."),
    Part("roof_retainer", SIDES, "strip", "strip_narrow", "strip_wide", "roof_retainer_length",
        "Lies flat under the foam and holds it up."),
    Part("skirt_end", ENDS, "plywood", "skirt_thickness", "skirt_width", "skirt_end_length",
        "Closes the skirt in front or at the back."),
    Part("skirt_side", SIDES, "plywood", "skirt_thickness", "skirt_width", "skirt_side_length",
        "Closes the skirt at one side and covers the edges of its ends."),
    Part("cover", ONE, "sheet", "cover_thickness", "cover_width", "cover_length",
        "Corrugated plastic that keeps the rain off the deck."),
)  # fmt: skip
