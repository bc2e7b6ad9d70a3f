"""Will the roof go together, shed rain and stay on: one function a rule.

Figures in the examples are common practice, no published source.
"""

from fractions import Fraction
from typing import Final

from hivecalc.fit.limits import (
    AGREE,
    BEE_SPACE,
    BEE_SPACE_LOW,
    BEE_SPACE_SPREAD,
    LOOSE_HIGH,
    MEMORY,
    POINT_COVER,
    POINT_COVER_LEAST,
    SCREW_EDGE,
    SNUG_HIGH,
    SNUG_LOW,
)
from hivecalc.fit.rule import rule
from hivecalc.length import Length, Ratio

FALL: Final = Fraction(1, 48)
FALL_SOURCE: Final = (
    "common practice, no published source: 1/4 in a foot, for a cover of one sheet without a joint"
)
SCREW_BITE: Final = Fraction(1, 4)
NEXT_SCREW: Final = Fraction(1, 4)
MARK_ANEW: Final = "Mark a new line, from the edge of the sheet as you cut it."


@rule(
    "blocks",
    low=Fraction(1, 16),
    if_low="Choose more cap clearance, and cut new rim sides, longer ones.",
)
def rim_clear_along(roof_clear_length: Length, stack_outside_length: Length) -> Length:
    """Room inside the skirt at each end of the hive, with the roof in the middle.

    Without clearance the roof does not go over the box, or sticks when the box leans a little.

    >>> rim_clear_along(23, 22.5)
    0.25
    """
    return (roof_clear_length - stack_outside_length) / 2


@rule(
    "blocks",
    low=Fraction(1, 16),
    if_low="Choose more cap clearance, and cut a new front and back for the rim, longer ones.",
)
def rim_clear_across(roof_clear_width: Length, stack_outside_width: Length) -> Length:
    """Room inside the skirt at each side of the hive, with the roof in the middle.

    Without clearance the roof does not go over the box, or sticks when the box leans a little.

    >>> rim_clear_across(16.5, 16)
    0.25
    """
    return (roof_clear_width - stack_outside_width) / 2


@rule(
    "harms",
    high=Fraction(1, 2),
    widest_high=Fraction(5, 8),
    if_high="Glue thin strips inside the skirt.",
)
def roof_does_not_slide(roof_rim_clear_along: Length, roof_rim_clear_across: Length) -> Length:
    """Room inside the skirt at the end or side where there is more.

    A roof that is much bigger than the hive slides about, and rain runs in on one side.

    >>> roof_does_not_slide(0.25, 0.25)
    0.25
    """
    return max(roof_rim_clear_along, roof_rim_clear_across)


@rule(
    "harms",
    low=BEE_SPACE_LOW - BEE_SPACE_SPREAD,
    source=BEE_SPACE,
    only=("inner_notch", "inner_cover"),
    if_low="Choose more cap clearance, or close the upper way.",
)
def way_behind_skirt(roof_rim_clear_along: Length) -> Length:
    """Width of the gap behind the skirt in front, the upper way's end, with the roof in the middle.

    The skirt hangs before the notch, so bees and damp air leave downwards between skirt and box.

    >>> way_behind_skirt(0.25)
    0.25
    """
    return roof_rim_clear_along


@rule(
    "harms",
    low=Fraction(1, 2),
    widest_low=Fraction(1, 4),
    source=MEMORY,
    if_low="Cut a wider skirt: the roof stands on the inner cover, so its height counts too.",
)
def skirt_lap(lap: Length) -> Length:
    """How far the skirt reaches down over the box.

    Wind blows rain in under a skirt that hardly laps the box. Less than nothing means that the
    skirt ends above the box, and the joint below the inner cover stands in the weather.

    >>> skirt_lap(0.5)
    0.5
    """
    return lap


@rule("note")
def held_against_wind(lap: Length) -> Length:
    """How far the skirt reaches down over the box, which keeps the roof from sliding.

    It does not keep it from lifting: a strap or a stone holds a roof down in wind.

    >>> held_against_wind(1)
    1
    """
    return lap


# Foam that lies along the slope is higher by 1 / cos(slope): under 0.01 in on an ordinary roof.
@rule(
    "blocks",
    low=Fraction(0),
    widest_low=Fraction(-1, 16),
    if_low="Take thinner foam for the roof, or a higher low end.",
)
def room_under_retainer(
    rim_low_height: Length,
    roof_slope: Ratio,
    roof_rim_back_thickness: Length,
    roof_roof_panel_thickness: Length,
    roof_roof_retainer_left_thickness: Length,
    roof_roof_retainer_right_thickness: Length,
) -> Length:
    """Room from the retainers down to the bottom of the rim, at the panel's low end.

    Foam and retainers lie under the deck, and the rim is lowest at the back. Retainers that hang
    out below the rim hold the roof up, and it rocks.

    >>> room_under_retainer(1.5, 0.0625, 1, 1, 0.5, 0.5)
    0.0625
    """
    return (
        rim_low_height
        + roof_slope * roof_rim_back_thickness
        - roof_roof_panel_thickness
        - max(roof_roof_retainer_left_thickness, roof_roof_retainer_right_thickness)
    )


@rule(
    "note",
    low=FALL,
    source=FALL_SOURCE,
    if_low="Tilt the stand to the back, 1/4 in for each foot: then a flat roof sheds rain too.",
)
def fall(roof_slope: Ratio) -> Ratio:
    """Fall of the roof for each inch of its length.

    On a roof that is nearly level rain stands in puddles, finds every screw hole and rots the deck.

    >>> fall(0.0625)
    0.0625
    """
    return roof_slope


# ── the rim ───────────────────────────────────────────────────────────────────────────────────


@rule(
    "harms",
    high=Fraction(1, 16),
    widest_high=AGREE,
    if_high="Crosscut the longer side to the shorter, before you taper it.",
)
def rim_sides_alike(
    roof_rim_side_left_length: Length, roof_rim_side_right_length: Length
) -> Length:
    """How much the two sides of the rim differ in length.

    With different sides the rim is out of square, and its slope is not the same on both.

    >>> rim_sides_alike(23.0, 23.0)
    0.0
    """
    return max(roof_rim_side_left_length, roof_rim_side_right_length) - min(
        roof_rim_side_left_length, roof_rim_side_right_length
    )


@rule(
    "harms",
    high=Fraction(1, 16),
    widest_high=AGREE,
    if_high="Crosscut the longer of the two to the shorter; no shim holds those screws.",
)
def rim_ends_alike(roof_rim_front_length: Length, roof_rim_back_length: Length) -> Length:
    """How much the front and the back of the rim differ in length.

    With different ends the rim is narrower at one end, and the deck overhangs unevenly.

    >>> rim_ends_alike(13.5, 13.5)
    0.0
    """
    return max(roof_rim_front_length, roof_rim_back_length) - min(
        roof_rim_front_length, roof_rim_back_length
    )


@rule(
    "harms",
    low=Fraction(-1, 16),
    high=Fraction(1, 4),
    if_low="Rip a new back, or glue a strip on its top and plane that to the slope.",
    if_high="Plane the top of the back to the slope.",
)
def rim_back_under_deck(
    roof_rim_back_width: Length,
    rim_low_height: Length,
    roof_slope: Ratio,
    roof_rim_back_thickness: Length,
) -> Length:
    """How far the rim's back, before it is planed, reaches above the slope at its inner face.

    A back that is too low leaves the deck lying on air: screws bend it down, and ants move in. What
    is too high is planed off.

    >>> rim_back_under_deck(1.5625, 1.5, 0.0625, 1)
    0.0
    """
    return roof_rim_back_width - (rim_low_height + roof_slope * roof_rim_back_thickness)


@rule(
    "harms",
    low=SNUG_LOW,
    high=SNUG_HIGH,
    if_low="Trim the foam to the opening measured in the glued rim.",
    if_high="Press a strip of foam into the gap.",
)
def roof_foam_along(roof_rim_opening_length: Length, roof_roof_panel_length: Length) -> Length:
    """Gap left between the foam and the rim, front to back.

    Foam that is too long does not go in; through a wide gap the warmth goes out, and water drips
    where it meets cold wood.

    >>> roof_foam_along(20.5, 20.5)
    0.0
    """
    return roof_rim_opening_length - roof_roof_panel_length


@rule(
    "harms",
    low=SNUG_LOW,
    high=SNUG_HIGH,
    if_low="Trim the foam to the opening measured in the glued rim.",
    if_high="Press a strip of foam into the gap.",
)
def roof_foam_across(roof_rim_opening_width: Length, roof_roof_panel_width: Length) -> Length:
    """Gap left between the foam and the rim, side to side.

    Foam that is too wide does not go in; through a wide gap the warmth goes out, and water drips
    where it meets cold wood.

    >>> roof_foam_across(13.5, 13.5)
    0.0
    """
    return roof_rim_opening_width - roof_roof_panel_width


@rule(
    "blocks",
    low=Fraction(0),
    if_low="Cut the retainer shorter: its length is not critical.",
)
def retainer_room(
    roof_rim_opening_length: Length,
    roof_roof_retainer_left_length: Length,
    roof_roof_retainer_right_length: Length,
) -> Length:
    """Room for the retainers between the rim's front and back, both ends together.

    A retainer that is too long does not go in.

    >>> retainer_room(20.5, 20, 20)
    0.5
    """
    return roof_rim_opening_length - max(
        roof_roof_retainer_left_length, roof_roof_retainer_right_length
    )


@rule("harms", high=LOOSE_HIGH, if_high="Cut a new retainer; it costs a minute.")
def retainers_reach(
    roof_rim_opening_length: Length,
    roof_roof_retainer_left_length: Length,
    roof_roof_retainer_right_length: Length,
) -> Length:
    """Room beside the shorter retainer, both ends together.

    Beyond the end of a very short retainer the foam sags.

    >>> retainers_reach(20.5, 20, 20)
    0.5
    """
    return roof_rim_opening_length - min(
        roof_roof_retainer_left_length, roof_roof_retainer_right_length
    )


# ── skirt, deck and cover ─────────────────────────────────────────────────────────────────────


@rule(
    "harms",
    low=-AGREE,
    high=Fraction(1, 4),
    if_low="Cut new skirt sides: they cover the edges of its ends.",
    if_high="Trim the skirt's sides flush with its ends.",
)
def skirt_sides_cover(
    roof_skirt_side_left_length: Length,
    roof_skirt_side_right_length: Length,
    roof_skirt_end_front_thickness: Length,
    roof_skirt_end_back_thickness: Length,
    roof_rim_length: Length,
) -> Length:
    """How much longer the skirt's shorter side is than rim and ends together.

    A short side leaves the plywood's edge open to the rain, and a gap at the corner.

    >>> skirt_sides_cover(24, 24, 0.5, 0.5, 23)
    0.0
    """
    return (
        min(roof_skirt_side_left_length, roof_skirt_side_right_length)
        - roof_skirt_end_front_thickness
        - roof_skirt_end_back_thickness
        - roof_rim_length
    )


@rule(
    "harms",
    low=-AGREE,
    high=AGREE,
    if_low="Cut new skirt ends.",
    if_high="Trim the skirt's ends flush with the rim, or the sides do not lie on it.",
)
def skirt_ends_fit(
    roof_skirt_end_front_length: Length, roof_skirt_end_back_length: Length, roof_rim_width: Length
) -> Length:
    """How much longer the skirt's longer end is than the rim is wide.

    A long end keeps the skirt's sides off the rim; a short one leaves a gap at the corner.

    >>> skirt_ends_fit(16.5, 16.5, 16.5)
    0.0
    """
    return max(roof_skirt_end_front_length, roof_skirt_end_back_length) - roof_rim_width


@rule(
    "harms",
    high=AGREE,
    widest_high=Fraction(1, 4),
    if_high="Trim the longer piece to the shorter.",
)
def skirt_pairs_alike(
    roof_skirt_side_left_length: Length,
    roof_skirt_side_right_length: Length,
    roof_skirt_end_front_length: Length,
    roof_skirt_end_back_length: Length,
) -> Length:
    """How much the pieces of a pair differ in length in the skirt, in the pair that differs more.

    One longer piece leaves the corner open, or stands out and splinters.

    >>> skirt_pairs_alike(24, 24, 16.5, 16.5)
    0
    """
    return max(
        max(roof_skirt_side_left_length, roof_skirt_side_right_length)
        - min(roof_skirt_side_left_length, roof_skirt_side_right_length),
        max(roof_skirt_end_front_length, roof_skirt_end_back_length)
        - min(roof_skirt_end_front_length, roof_skirt_end_back_length),
    )


@rule(
    "harms",
    low=Fraction(1, 2),
    widest_low=Fraction(1, 4),
    if_low="Choose more overhang and cut a new deck, or take a thinner skirt.",
)
def deck_drips_clear(
    roof_deck_overhang_along: Length,
    roof_deck_overhang_across: Length,
    roof_skirt_end_front_thickness: Length,
    roof_skirt_side_left_thickness: Length,
) -> Length:
    """How far the deck stands out beyond the skirt, where it does least.

    Drops must fall clear of the skirt: on a deck that hardly stands out they run down the plywood.

    >>> deck_drips_clear(1.75, 1.75, 0.5, 0.5)
    1.25
    """
    return min(roof_deck_overhang_along, roof_deck_overhang_across) - max(
        roof_skirt_end_front_thickness, roof_skirt_side_left_thickness
    )


@rule(
    "harms",
    low=Fraction(1, 8),
    high=Fraction(5, 2),
    if_low="Cut a new cover: the deck must not stand out of it.",
    if_high="Trim the cover: the wind gets hold of a long lip.",
)
def cover_lip_left(roof_cover_lip_along: Length, roof_cover_lip_across: Length) -> Length:
    """How far the cover stands out beyond the deck, where it does least.

    Without a lip water runs back under the deck; plywood that stands out of its cover rots.

    >>> cover_lip_left(0.5, 0.5)
    0.5
    """
    return min(roof_cover_lip_along, roof_cover_lip_across)


@rule("note", low=Fraction(0), if_low="Cut a new deck: this one does not cover the rim.")
def spacer_width(roof_deck_overhang_across: Length) -> Length:
    """How far the deck stands out beyond the rim, which the spacer is cut to.

    The overhang is counted from the hive, and the rim is bigger than the hive. A spacer as wide as
    the overhang fits on one side and then not on the other.

    >>> spacer_width(1.75)
    1.75
    """
    return roof_deck_overhang_across


# ── screws ────────────────────────────────────────────────────────────────────────────────────


@rule("harms", low=SCREW_EDGE, if_low=MARK_ANEW)
def deck_line_in_rim(
    roof_deck_screw_line: Length,
    roof_deck_overhang_along: Length,
    roof_deck_overhang_across: Length,
    roof_rim_side_left_thickness: Length,
) -> Length:
    """Distance of the deck's screw line from the nearer face of the rim's side or front below it.

    A screw beside the rail holds nothing and its point shows below the deck; one near the rail's
    face splits it.

    >>> deck_line_in_rim(2.5, 1.75, 1.75, 1.5)
    0.75
    """
    return min(
        roof_deck_screw_line - max(roof_deck_overhang_along, roof_deck_overhang_across),
        min(roof_deck_overhang_along, roof_deck_overhang_across)
        + roof_rim_side_left_thickness
        - roof_deck_screw_line,
    )


@rule("harms", low=SCREW_EDGE, if_low=MARK_ANEW)
def deck_line_in_back(
    roof_deck_back_screw_line: Length,
    roof_deck_overhang_along: Length,
    roof_rim_back_thickness: Length,
) -> Length:
    """Distance of the deck's screw line at the back from the nearer face of the rim's back.

    The rim's back is ripped thin, so it has a line of its own: on the line of the sides a screw
    comes near its inner face and goes into the foam.

    >>> deck_line_in_back(2.25, 1.75, 1)
    0.5
    """
    return min(
        roof_deck_back_screw_line - roof_deck_overhang_along,
        roof_deck_overhang_along + roof_rim_back_thickness - roof_deck_back_screw_line,
    )


@rule("harms", low=SCREW_EDGE, if_low=MARK_ANEW)
def cover_line_in_rim(
    roof_cover_screw_line: Length,
    roof_cover_lip_along: Length,
    roof_cover_lip_across: Length,
    roof_deck_overhang_along: Length,
    roof_deck_overhang_across: Length,
    roof_rim_side_left_thickness: Length,
) -> Length:
    """Distance of the cover's screw line from the nearer face of the rim's side or front below it.

    You measure from the cover's edge, which stands out by its lip: forget the lip and the screw
    lands beside the middle of the rail, or beside the rail.

    >>> cover_line_in_rim(3, 0.5, 0.5, 1.75, 1.75, 1.5)
    0.75
    """
    return min(
        roof_cover_screw_line
        - max(
            roof_cover_lip_along + roof_deck_overhang_along,
            roof_cover_lip_across + roof_deck_overhang_across,
        ),
        min(
            roof_cover_lip_along + roof_deck_overhang_along,
            roof_cover_lip_across + roof_deck_overhang_across,
        )
        + roof_rim_side_left_thickness
        - roof_cover_screw_line,
    )


@rule("harms", low=SCREW_EDGE, if_low=MARK_ANEW)
def cover_line_in_back(
    roof_cover_back_screw_line: Length,
    roof_cover_lip_along: Length,
    roof_deck_overhang_along: Length,
    roof_rim_back_thickness: Length,
) -> Length:
    """Distance of the cover's screw line at the back from the nearer face of the rim's back.

    The rim's back is ripped thin, so it has a line of its own: on the line of the sides a screw
    comes near its inner face and goes into the foam.

    >>> cover_line_in_back(2.75, 0.5, 1.75, 1)
    0.5
    """
    return min(
        roof_cover_back_screw_line - roof_cover_lip_along - roof_deck_overhang_along,
        roof_cover_lip_along
        + roof_deck_overhang_along
        + roof_rim_back_thickness
        - roof_cover_back_screw_line,
    )


@rule("harms", low=SCREW_BITE, if_low="Take longer cover screws.")
def screw_bite(
    cover_screw: Length, roof_cover_thickness: Length, roof_deck_thickness: Length
) -> Length:
    """How deep a screw bites into the rail, through cover and deck.

    Thick plywood or a thick cover uses the screw up: then it does not reach the rail, and the wind
    pulls it out.

    >>> screw_bite(1, 0.125, 0.5)
    0.375
    """
    return cover_screw - roof_cover_thickness - roof_deck_thickness


@rule("harms", low=POINT_COVER, widest_low=POINT_COVER_LEAST, if_low="Take shorter cover screws.")
def wood_past_screw(
    rim_low_height: Length,
    roof_deck_thickness: Length,
    roof_cover_thickness: Length,
    cover_screw: Length,
) -> Length:
    """Wood left beyond a cover screw's point, where the rim is lowest.

    A screw that is longer than cover, deck and rail together comes out below the rim, where hands
    and bees are.

    >>> wood_past_screw(1.5, 0.5, 0.125, 1)
    1.125
    """
    return rim_low_height + roof_deck_thickness + roof_cover_thickness - cover_screw


@rule("harms", low=Fraction(3, 4), if_low="Take longer deck screws.")
def deck_screw_bite(deck_screw: Length, roof_deck_thickness: Length) -> Length:
    """How deep a screw bites into the rim through the deck.

    The deck is what the wind pulls at.

    >>> deck_screw_bite(1.625, 0.5)
    1.125
    """
    return deck_screw - roof_deck_thickness


@rule("harms", low=POINT_COVER, widest_low=POINT_COVER_LEAST, if_low="Take shorter deck screws.")
def wood_past_deck_screw(
    rim_low_height: Length, roof_deck_thickness: Length, deck_screw: Length
) -> Length:
    """Wood left beyond a deck screw's point, where the rim is lowest.

    A screw that is longer than deck and rail together comes out below the rim, where hands and bees
    are.

    >>> wood_past_deck_screw(1.5, 0.5, 1.625)
    0.375
    """
    return rim_low_height + roof_deck_thickness - deck_screw


@rule(
    "harms",
    low=Fraction(1, 2),
    source=MEMORY,
    if_low="Set the deck's screws further from the cover's, along the line.",
)
def deck_screws_beside_cover_screws(screw_offset: Length) -> Length:
    """Distance of a deck screw from the next cover screw, along their line.

    On the same spot the second screw meets the head of the first, and does not go in.

    >>> deck_screws_beside_cover_screws(3)
    3
    """
    return screw_offset


@rule(
    "harms",
    low=NEXT_SCREW,
    source=MEMORY,
    if_low="Set the deck's screws further from the corners, or take shorter frame screws.",
)
def deck_screws_past_frame_screws(
    roof_rim_side_left_thickness: Length, screw_offset: Length, frame_screw: Length
) -> Length:
    """Distance of the first deck screw in the rim's front or back from the frame screws' points.

    Frame screws come in through the rim's side, along the front and the back: a deck screw above
    them meets them in the wood.

    >>> deck_screws_past_frame_screws(1.5, 3, 3)
    0.75
    """
    return roof_rim_side_left_thickness / 2 + screw_offset - frame_screw


@rule(
    "harms",
    low=Fraction(3, 16),
    widest_low=Fraction(1, 8),
    source=MEMORY,
    if_low="Take shorter cover screws, or set the back's frame screws lower.",
)
def cover_screw_above_frame_screw(rim_low_height: Length, roof_screw_bite: Length) -> Length:
    """Distance of a corner's cover screw from the frame screw below it, at the rim's low end.

    The two frame screws of the back sit in its lower half, so the cover's screw, that comes down in
    the corner, ends above them.

    >>> cover_screw_above_frame_screw(1.5, 0.375)
    0.375
    """
    return rim_low_height / 2 - roof_screw_bite


@rule(
    "harms",
    low=Fraction(3, 8),
    widest_low=Fraction(1, 4),
    if_low="Rip the back thicker, and drill pilot holes for its screws.",
)
def wood_beside_back_screw(roof_rim_back_thickness: Length) -> Length:
    """Wood on each side of a frame screw in the middle of the rim's back.

    A screw near a face splits the thin back; pilot holes help.

    >>> wood_beside_back_screw(1)
    0.5
    """
    return roof_rim_back_thickness / 2


@rule(
    "harms",
    low=POINT_COVER,
    widest_low=POINT_COVER_LEAST,
    if_low="Take shorter brads for the skirt.",
)
def wood_past_skirt_brad(
    roof_skirt_end_back_thickness: Length, roof_rim_back_thickness: Length, long_brad: Length
) -> Length:
    """Wood left beyond the point of a brad through the skirt into the rim's thin back.

    A point that comes out in there goes into the foam, where nobody sees it and nothing is held.

    >>> wood_past_skirt_brad(0.5, 1, 1.25)
    0.25
    """
    return roof_skirt_end_back_thickness + roof_rim_back_thickness - long_brad


# ── out of whole sheets ───────────────────────────────────────────────────────────────────────


@rule(
    "blocks",
    low=Fraction(0),
    if_low="Lay two pieces of foam side by side: under the deck that does no harm.",
)
def roof_panel_out_of_board(
    roof_roof_panel_width: Length,
    roof_roof_panel_length: Length,
    foam_board_width: Length,
    foam_board_length: Length,
) -> Length:
    """How much bigger a foam board is than the roof's panel, in the tighter direction.

    A panel that is bigger than the biggest board, whichever way you turn it, cannot be cut in one
    piece.

    >>> roof_panel_out_of_board(13.5, 20.5, 48, 96)
    34.5
    """
    return min(
        foam_board_width - min(roof_roof_panel_width, roof_roof_panel_length),
        foam_board_length - max(roof_roof_panel_width, roof_roof_panel_length),
    )


@rule("blocks", low=Fraction(0), if_low="Choose less overhang, so that one sheet is enough.")
def deck_out_of_sheet(
    roof_deck_width: Length,
    roof_deck_length: Length,
    plywood_sheet_width: Length,
    plywood_sheet_length: Length,
) -> Length:
    """How much bigger a sheet of plywood is than the deck, in the tighter direction.

    A deck of two pieces has a joint that bends and lets water through.

    >>> deck_out_of_sheet(20, 26.5, 48, 96)
    28
    """
    return min(
        plywood_sheet_width - min(roof_deck_width, roof_deck_length),
        plywood_sheet_length - max(roof_deck_width, roof_deck_length),
    )


@rule("blocks", low=Fraction(0), if_low="Choose less overhang, so that one sheet is enough.")
def cover_out_of_sheet(
    roof_cover_width: Length,
    roof_cover_length: Length,
    plastic_sheet_width: Length,
    plastic_sheet_length: Length,
) -> Length:
    """How much bigger a sheet of plastic is than the cover, in the tighter direction.

    A cover of two pieces has a joint, and on so flat a roof rain goes through it.

    >>> cover_out_of_sheet(21, 27.5, 48, 96)
    27
    """
    return min(
        plastic_sheet_width - min(roof_cover_width, roof_cover_length),
        plastic_sheet_length - max(roof_cover_width, roof_cover_length),
    )
