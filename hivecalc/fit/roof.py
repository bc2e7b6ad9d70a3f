"""Will the roof go together, shed rain and stay on: one function a rule.

Figures in the examples are common practice, no published source.
"""

from fractions import Fraction
from typing import Final

from hivecalc.fit.limits import POINT_COVER
from hivecalc.fit.rule import rule
from hivecalc.length import Length, Ratio

FALL: Final = Fraction(1, 48)
FALL_SOURCE: Final = (
    "common practice, no published source: 1/4 in a foot, for a cover of one sheet without a joint"
)
SCREW_EDGE: Final = Fraction(3, 16)
SCREW_BITE: Final = Fraction(1, 4)


@rule("blocks", low=Fraction(1, 16))
def rim_clear_along(roof_rim_length: Length, hive_length: Length) -> Length:
    """How far the roof's rim stands out beyond the hive at each end.

    The skirt hangs from the rim: without clearance it does not go over the box, or sticks on it
    when the wood swells.

    >>> rim_clear_along(23, 22.5)
    0.25
    """
    return (roof_rim_length - hive_length) / 2


@rule("blocks", low=Fraction(1, 16))
def rim_clear_across(roof_rim_width: Length, hive_width: Length) -> Length:
    """How far the roof's rim stands out beyond the hive at each side.

    The skirt hangs from the rim: without clearance it does not go over the box, or sticks on it
    when the wood swells.

    >>> rim_clear_across(16.5, 16)
    0.25
    """
    return (roof_rim_width - hive_width) / 2


@rule("harms", low=Fraction(1, 4))
def skirt_lap(roof_lap: Length) -> Length:
    """How far the skirt reaches down over what the roof stands on.

    Wind blows rain in under a skirt that hardly laps, and a gust lifts the roof off.

    >>> skirt_lap(0.5)
    0.5
    """
    return roof_lap


# Foam that lies along the slope is higher by 1 / cos(slope): under 0.01 in on an ordinary roof.
@rule("blocks", low=Fraction(0))
def room_under_retainer(
    rim_low_height: Length,
    roof_slope: Ratio,
    rim_back_thickness: Length,
    foam_thickness: Length,
    strip_narrow: Length,
) -> Length:
    """Room from the retainers down to the bottom of the rim, at the panel's low end.

    Foam and retainers lie under the deck, and the rim is lowest at the back. Retainers that hang
    out below the rim hold the roof up, and it rocks.

    >>> room_under_retainer(1.5, 0.0625, 1, 1, 0.5)
    0.0625
    """
    return rim_low_height + roof_slope * rim_back_thickness - foam_thickness - strip_narrow


@rule("harms", low=FALL, source=FALL_SOURCE)
def fall(roof_slope: Ratio) -> Ratio:
    """Fall of the roof for each inch of its length.

    On a roof that is nearly level rain stands in puddles, finds every screw hole and rots the deck.

    >>> fall(0.0625)
    0.0625
    """
    return roof_slope


@rule("harms", low=SCREW_EDGE)
def deck_line_in_rim(
    roof_deck_screw_line: Length, roof_deck_overhang: Length, stud_thickness: Length
) -> Length:
    """Distance of the deck's screw line from the nearer face of the rim's side or front below it.

    A screw beside the rail holds nothing and its point shows below the deck; one near the rail's
    face splits it.

    >>> deck_line_in_rim(2.5, 1.75, 1.5)
    0.75
    """
    return min(
        roof_deck_screw_line - roof_deck_overhang,
        roof_deck_overhang + stud_thickness - roof_deck_screw_line,
    )


@rule("harms", low=SCREW_EDGE)
def deck_line_in_back(
    roof_deck_screw_line: Length, roof_deck_overhang: Length, rim_back_thickness: Length
) -> Length:
    """Distance of the deck's screw line from the nearer face of the rim's back below it.

    The rim's back is ripped thin, so the line that is right for the sides comes near its inner
    face: a screw beside it goes into the foam.

    >>> deck_line_in_back(2.5, 1.75, 1)
    0.25
    """
    return min(
        roof_deck_screw_line - roof_deck_overhang,
        roof_deck_overhang + rim_back_thickness - roof_deck_screw_line,
    )


@rule("harms", low=SCREW_EDGE)
def cover_line_in_rim(
    roof_cover_screw_line: Length,
    cover_lip: Length,
    roof_deck_overhang: Length,
    stud_thickness: Length,
) -> Length:
    """Distance of the cover's screw line from the nearer face of the rim's side or front below it.

    You measure from the cover's edge, which stands out by its lip: forget the lip and the screw
    lands beside the middle of the rail, or beside the rail.

    >>> cover_line_in_rim(3, 0.5, 1.75, 1.5)
    0.75
    """
    return min(
        roof_cover_screw_line - cover_lip - roof_deck_overhang,
        cover_lip + roof_deck_overhang + stud_thickness - roof_cover_screw_line,
    )


@rule("harms", low=SCREW_EDGE)
def cover_line_in_back(
    roof_cover_screw_line: Length,
    cover_lip: Length,
    roof_deck_overhang: Length,
    rim_back_thickness: Length,
) -> Length:
    """Distance of the cover's screw line from the nearer face of the rim's back below it.

    The rim's back is ripped thin, so the line that is right for the sides comes near its inner
    face: a screw beside it goes into the foam.

    >>> cover_line_in_back(3, 0.5, 1.75, 1)
    0.25
    """
    return min(
        roof_cover_screw_line - cover_lip - roof_deck_overhang,
        cover_lip + roof_deck_overhang + rim_back_thickness - roof_cover_screw_line,
    )


@rule("harms", low=SCREW_BITE)
def screw_bite(cover_screw: Length, cover_thickness: Length, deck_thickness: Length) -> Length:
    """How deep a screw bites into the rail, through cover and deck.

    Thick plywood or a thick cover uses the screw up: then it does not reach the rail, and the wind
    pulls it out.

    >>> screw_bite(1, 0.125, 0.5)
    0.375
    """
    return cover_screw - cover_thickness - deck_thickness


@rule("harms", low=POINT_COVER)
def wood_past_screw(
    rim_low_height: Length, deck_thickness: Length, cover_thickness: Length, cover_screw: Length
) -> Length:
    """Wood left beyond the screw's point, where the rim is lowest.

    A screw that is longer than cover, deck and rail together comes out below the rim, where hands
    and bees are.

    >>> wood_past_screw(1.5, 0.5, 0.125, 1)
    1.125
    """
    return rim_low_height + deck_thickness + cover_thickness - cover_screw


@rule("blocks", low=Fraction(0))
def roof_panel_out_of_board(
    roof_panel_width: Length,
    roof_panel_length: Length,
    foam_board_width: Length,
    foam_board_length: Length,
) -> Length:
    """What a foam board is bigger than the roof's panel, in the tighter direction.

    A panel that is bigger than the biggest board, whichever way you turn it, cannot be cut in one
    piece.

    >>> roof_panel_out_of_board(13.5, 20.5, 48, 96)
    34.5
    """
    return min(
        foam_board_width - min(roof_panel_width, roof_panel_length),
        foam_board_length - max(roof_panel_width, roof_panel_length),
    )


@rule("blocks", low=Fraction(0))
def deck_out_of_sheet(
    roof_deck_width: Length,
    roof_deck_length: Length,
    plywood_sheet_width: Length,
    plywood_sheet_length: Length,
) -> Length:
    """What a sheet of plywood is bigger than the deck, in the tighter direction.

    A deck of two pieces has a joint that bends and lets water through.

    >>> deck_out_of_sheet(20, 26.5, 48, 96)
    28
    """
    return min(
        plywood_sheet_width - min(roof_deck_width, roof_deck_length),
        plywood_sheet_length - max(roof_deck_width, roof_deck_length),
    )


@rule("blocks", low=Fraction(0))
def cover_out_of_sheet(
    roof_cover_width: Length,
    roof_cover_length: Length,
    plastic_sheet_width: Length,
    plastic_sheet_length: Length,
) -> Length:
    """What a sheet of corrugated plastic is bigger than the cover, in the tighter direction.

    A cover of two pieces has a joint, and on so flat a roof rain goes through it.

    >>> cover_out_of_sheet(21, 27.5, 48, 96)
    27
    """
    return min(
        plastic_sheet_width - min(roof_cover_width, roof_cover_length),
        plastic_sheet_length - max(roof_cover_width, roof_cover_length),
    )


@rule("note", low=Fraction(0))
def spacer_width(roof_deck_overhang: Length) -> Length:
    """How far the deck stands out beyond the rim, which the spacer is cut to.

    The overhang is counted from the hive, and the rim is bigger than the hive. A spacer as wide as
    the overhang fits on one side and then not on the other.

    >>> spacer_width(1.75)
    1.75
    """
    return roof_deck_overhang
