"""Will the roof go together, shed rain and stay on: one function a rule."""

from typing import Final

from hivecalc.derivation import difference
from hivecalc.fit.rule import (
    AGREE,
    BEE_SPACE,
    LEAST_WAY,
    MEMORY,
    alike,
    at_least,
    at_most,
    blocks,
    flush,
    harms,
    note,
    point_covered,
    snug,
)
from hivecalc.length import Length, Lengths, Ratio

FALL_SOURCE: Final = (
    "common practice, no published source: 1/4 in a foot, for a cover of one sheet without a joint"
)
MARK_ANEW: Final = "Mark a new line, from the edge of the sheet as you cut it."
FOAM_SNUG: Final = snug("Trim the foam to the opening measured in the glued rim.")
SCREW_IN_RAIL: Final = at_least("3/16", MARK_ANEW)
ONE_SHEET: Final = at_least(0, "Choose less overhang, so that one sheet is enough.")


@blocks(at_least("1/16", "Choose more cap clearance, and cut new rim sides, longer ones."))
def rim_clear_along(clear_length: Length, stack_outside_length: Length) -> Length:
    """Room inside the skirt at each end of the hive, with the roof in the middle.

    Without clearance the roof does not go over the box, or sticks when the box leans a little.
    """
    return (clear_length - stack_outside_length) / 2


@blocks(
    at_least(
        "1/16", "Choose more cap clearance, and cut a new front and back for the rim, longer ones."
    )
)
def rim_clear_across(clear_width: Length, stack_outside_width: Length) -> Length:
    """Room inside the skirt at each side of the hive, with the roof in the middle.

    Without clearance the roof does not go over the box, or sticks when the box leans a little.
    """
    return (clear_width - stack_outside_width) / 2


@harms(at_most("1/2", "Glue thin strips inside the skirt.", widest="5/8"))
def roof_does_not_slide(roof_rim_clear_along: Length, roof_rim_clear_across: Length) -> Length:
    """Room inside the skirt at the end or side where there is more.

    A roof that is much bigger than the hive slides about, and rain runs in on one side.
    """
    return max(roof_rim_clear_along, roof_rim_clear_across)


@harms(
    at_least(LEAST_WAY, "Choose more cap clearance, or close the upper way."),
    only="inner_notch inner_cover",
    source=BEE_SPACE,
)
def way_behind_skirt(roof_rim_clear_along: Length) -> Length:
    """Width of the gap behind the skirt in front, the upper way's end, with the roof in the middle.

    The skirt hangs before the notch, so bees and damp air leave downwards between skirt and box.
    """
    return roof_rim_clear_along


@harms(
    at_least(
        "1/2",
        "Cut a wider skirt: the roof stands on the inner cover, so its height counts too.",
        widest="1/4",
    ),
    source=MEMORY,
)
def skirt_lap(lap: Length) -> Length:
    """How far the skirt reaches down over the box.

    Wind blows rain in under a skirt that hardly laps the box. Less than nothing means that the
    skirt ends above the box, and the joint below the inner cover stands in the weather.
    """
    return lap


@note()
def held_against_wind(lap: Length) -> Length:
    """How far the skirt reaches down over the box, which keeps the roof from sliding.

    It does not keep it from lifting: a strap or a stone holds a roof down in wind.
    """
    return lap


# Foam that lies along the slope is higher by 1 / cos(slope): under 0.01 in on an ordinary roof.
@blocks(at_least(0, "Take thinner foam for the roof, or a higher low end.", widest="-1/16"))
def room_under_retainer(
    rim_low_height: Length,
    slope: Ratio,
    roof_rim_back_thickness: Length,
    roof_panel_thickness: Length,
    roof_retainer_thickness: Lengths,
) -> Length:
    """Room from the retainers down to the bottom of the rim, at the panel's low end.

    Foam and retainers lie under the deck, and the rim is lowest at the back. Retainers that hang
    out below the rim hold the roof up, and it rocks.
    """
    return (
        rim_low_height
        + slope * roof_rim_back_thickness
        - roof_panel_thickness
        - max(*roof_retainer_thickness)
    )


@note(
    at_least(
        "1/48",
        "Tilt the whole hive forward, [1/4 in for each foot|21 mm for each metre]: then a flat "
        "roof sheds rain too.",
    ),
    source=FALL_SOURCE,
)
def fall(slope: Ratio) -> Ratio:
    """Fall of the roof for each inch of its length.

    On a roof that is nearly level rain stands in puddles, finds every screw hole and rots the deck.
    """
    return slope


# ── the rim ───────────────────────────────────────────────────────────────────────────────────


@harms(alike("Crosscut the longer side to the shorter, before you taper it."))
def rim_sides_alike(rim_side_length: Lengths) -> Length:
    """How much the two sides of the rim differ in length.

    With different sides the rim is out of square, and its slope is not the same on both.
    """
    return difference(*rim_side_length)


@harms(alike("Crosscut the longer of the two to the shorter; no shim holds those screws."))
def rim_ends_alike(rim_front_length: Length, rim_back_length: Length) -> Length:
    """How much the front and the back of the rim differ in length.

    With different ends the rim is narrower at one end, and the deck overhangs unevenly.
    """
    return difference(rim_front_length, rim_back_length)


@harms(
    at_least("-1/16", "Rip a new back, or glue a strip on its top and plane that to the slope."),
    at_most("1/4", "Plane the top of the back to the slope."),
)
def rim_back_under_deck(
    rim_back_width: Length, rim_low_height: Length, slope: Ratio, roof_rim_back_thickness: Length
) -> Length:
    """How far the rim's back, before it is planed, reaches above the slope at its inner face.

    A back that is too low leaves the deck lying on air: screws bend it down, and ants move in. What
    is too high is planed off.
    """
    return rim_back_width - (rim_low_height + slope * roof_rim_back_thickness)


@harms(*FOAM_SNUG)
def roof_foam_along(rim_opening_length: Length, roof_panel_length: Length) -> Length:
    """Gap left between the foam and the rim, front to back.

    Foam that is too long does not go in; through a wide gap the warmth goes out, and water drips
    where it meets cold wood.
    """
    return rim_opening_length - roof_panel_length


@harms(*FOAM_SNUG)
def roof_foam_across(rim_opening_width: Length, roof_panel_width: Length) -> Length:
    """Gap left between the foam and the rim, side to side.

    Foam that is too wide does not go in; through a wide gap the warmth goes out, and water drips
    where it meets cold wood.
    """
    return rim_opening_width - roof_panel_width


@blocks(at_least(0, "Cut the retainer shorter: its length is not critical."))
def retainer_room(rim_opening_length: Length, roof_retainer_length: Lengths) -> Length:
    """Room for the retainers between the rim's front and back, both ends together.

    A retainer that is too long does not go in.
    """
    return rim_opening_length - max(*roof_retainer_length)


@harms(at_most(2, "Cut a new retainer; it costs a minute."))
def retainers_reach(rim_opening_length: Length, roof_retainer_length: Lengths) -> Length:
    """Room beside the shorter retainer, both ends together.

    Beyond the end of a very short retainer the foam sags.
    """
    return rim_opening_length - min(*roof_retainer_length)


# ── skirt, deck and cover ─────────────────────────────────────────────────────────────────────


@harms(
    at_least(-AGREE, "Cut new skirt sides: they cover the edges of its ends."),
    at_most("1/4", "Trim the skirt's sides flush with its ends."),
)
def skirt_sides_cover(
    skirt_side_length: Lengths, skirt_end_thickness: Lengths, rim_length: Length
) -> Length:
    """How much longer the skirt's shorter side is than rim and ends together.

    A short side leaves the plywood's edge open to the rain, and a gap at the corner.
    """
    return min(*skirt_side_length) - sum(skirt_end_thickness) - rim_length


@harms(
    *flush(
        "Cut new skirt ends.",
        "Trim the skirt's ends flush with the rim, or the sides do not lie on it.",
    )
)
def skirt_ends_fit(skirt_end_length: Lengths, rim_width: Length) -> Length:
    """How much longer the skirt's longer end is than the rim is wide.

    A long end keeps the skirt's sides off the rim; a short one leaves a gap at the corner.
    """
    return max(*skirt_end_length) - rim_width


@harms(at_most(AGREE, "Trim the longer piece to the shorter.", widest="1/4"))
def skirt_pairs_alike(skirt_side_length: Lengths, skirt_end_length: Lengths) -> Length:
    """How much the pieces of a pair differ in length in the skirt, in the pair that differs more.

    One longer piece leaves the corner open, or stands out and splinters.
    """
    return max(difference(*skirt_side_length), difference(*skirt_end_length))


@harms(
    at_least(
        "1/2", "Choose more overhang and cut a new deck, or take a thinner skirt.", widest="1/4"
    )
)
def deck_drips_clear(
    deck_overhang_along: Length,
    deck_overhang_across: Length,
    skirt_end_front_thickness: Length,
    skirt_side_left_thickness: Length,
) -> Length:
    """How far the deck stands out beyond the skirt, where it does least.

    Drops must fall clear of the skirt: on a deck that hardly stands out they run down the plywood.
    """
    return min(deck_overhang_along, deck_overhang_across) - max(
        skirt_end_front_thickness, skirt_side_left_thickness
    )


@harms(
    at_least("1/8", "Cut a new cover: the deck must not stand out of it."),
    at_most("5/2", "Trim the cover: the wind gets hold of a long lip."),
)
def cover_lip_left(cover_lip_along: Length, cover_lip_across: Length) -> Length:
    """How far the cover stands out beyond the deck, where it does least.

    Without a lip water runs back under the deck; plywood that stands out of its cover rots.
    """
    return min(cover_lip_along, cover_lip_across)


@note(at_least(0, "Cut a new deck: this one does not cover the rim."))
def spacer_width(deck_overhang_across: Length) -> Length:
    """How far the deck stands out beyond the rim, which the spacer is cut to.

    The overhang is counted from the hive, and the rim is bigger than the hive. A spacer as wide as
    the overhang fits on one side and then not on the other.
    """
    return deck_overhang_across


# ── screws ────────────────────────────────────────────────────────────────────────────────────


@harms(SCREW_IN_RAIL)
def deck_line_in_rim(
    deck_screw_line: Length,
    deck_overhang_along: Length,
    deck_overhang_across: Length,
    rim_side_left_thickness: Length,
) -> Length:
    """Distance of the deck's screw line from the nearer face of the rim's side or front below it.

    A screw beside the rail holds nothing and its point shows below the deck; one near the rail's
    face splits it.
    """
    return min(
        deck_screw_line - max(deck_overhang_along, deck_overhang_across),
        min(deck_overhang_along, deck_overhang_across) + rim_side_left_thickness - deck_screw_line,
    )


@harms(SCREW_IN_RAIL)
def deck_line_in_back(
    deck_back_screw_line: Length, deck_overhang_along: Length, roof_rim_back_thickness: Length
) -> Length:
    """Distance of the deck's screw line at the back from the nearer face of the rim's back.

    The rim's back is ripped thin, so it has a line of its own: on the line of the sides a screw
    comes near its inner face and goes into the foam.
    """
    return min(
        deck_back_screw_line - deck_overhang_along,
        deck_overhang_along + roof_rim_back_thickness - deck_back_screw_line,
    )


@harms(SCREW_IN_RAIL)
def cover_line_in_rim(
    cover_screw_line: Length,
    cover_lip_along: Length,
    cover_lip_across: Length,
    deck_overhang_along: Length,
    deck_overhang_across: Length,
    rim_side_left_thickness: Length,
) -> Length:
    """Distance of the cover's screw line from the nearer face of the rim's side or front below it.

    You measure from the cover's edge, which stands out by its lip: forget the lip and the screw
    lands beside the middle of the rail, or beside the rail.
    """
    return min(
        cover_screw_line
        - max(cover_lip_along + deck_overhang_along, cover_lip_across + deck_overhang_across),
        min(cover_lip_along + deck_overhang_along, cover_lip_across + deck_overhang_across)
        + rim_side_left_thickness
        - cover_screw_line,
    )


@harms(SCREW_IN_RAIL)
def cover_line_in_back(
    cover_back_screw_line: Length,
    cover_lip_along: Length,
    deck_overhang_along: Length,
    roof_rim_back_thickness: Length,
) -> Length:
    """Distance of the cover's screw line at the back from the nearer face of the rim's back.

    The rim's back is ripped thin, so it has a line of its own: on the line of the sides a screw
    comes near its inner face and goes into the foam.
    """
    return min(
        cover_back_screw_line - cover_lip_along - deck_overhang_along,
        cover_lip_along + deck_overhang_along + roof_rim_back_thickness - cover_back_screw_line,
    )


@harms(at_least("1/4", "Take longer cover screws."))
def screw_bite(
    cover_screw: Length, roof_cover_thickness: Length, roof_deck_thickness: Length
) -> Length:
    """How deep a screw bites into the rail, through cover and deck.

    Thick plywood or a thick cover uses the screw up: then it does not reach the rail, and the wind
    pulls it out.
    """
    return cover_screw - roof_cover_thickness - roof_deck_thickness


@harms(point_covered("Take shorter cover screws."))
def wood_past_screw(
    rim_low_height: Length,
    roof_deck_thickness: Length,
    roof_cover_thickness: Length,
    cover_screw: Length,
) -> Length:
    """Wood left beyond a cover screw's point, where the rim is lowest.

    A screw that is longer than cover, deck and rail together comes out below the rim, where hands
    and bees are.
    """
    return rim_low_height + roof_deck_thickness + roof_cover_thickness - cover_screw


@harms(at_least("3/4", "Take longer deck screws."))
def deck_screw_bite(deck_screw: Length, roof_deck_thickness: Length) -> Length:
    """How deep a screw bites into the rim through the deck.

    The deck is what the wind pulls at.
    """
    return deck_screw - roof_deck_thickness


@harms(point_covered("Take shorter deck screws."))
def wood_past_deck_screw(
    rim_low_height: Length, roof_deck_thickness: Length, deck_screw: Length
) -> Length:
    """Wood left beyond a deck screw's point, where the rim is lowest.

    A screw that is longer than deck and rail together comes out below the rim, where hands and bees
    are.
    """
    return rim_low_height + roof_deck_thickness - deck_screw


@harms(
    at_least("1/2", "Set the deck's screws further from the cover's, along the line."),
    source=MEMORY,
)
def deck_screws_beside_cover_screws(screw_offset: Length) -> Length:
    """Distance of a deck screw from the next cover screw, along their line.

    On the same spot the second screw meets the head of the first, and does not go in.
    """
    return screw_offset


@harms(
    at_least(
        "1/4", "Set the deck's screws further from the corners, or take shorter frame screws."
    ),
    source=MEMORY,
)
def deck_screws_past_frame_screws(
    rim_side_left_thickness: Length, screw_offset: Length, frame_screw: Length
) -> Length:
    """Distance of the first deck screw in the rim's front or back from the frame screws' points.

    Frame screws come in through the rim's side, along the front and the back: a deck screw above
    them meets them in the wood.
    """
    return rim_side_left_thickness / 2 + screw_offset - frame_screw


@harms(
    at_least(
        "3/16", "Take shorter cover screws, or set the back's frame screws lower.", widest="1/8"
    ),
    source=MEMORY,
)
def cover_screw_above_frame_screw(rim_low_height: Length, roof_screw_bite: Length) -> Length:
    """Distance of a corner's cover screw from the frame screw below it, at the rim's low end.

    The two frame screws of the back sit in its lower half, so the cover's screw, that comes down in
    the corner, ends above them.
    """
    return rim_low_height / 2 - roof_screw_bite


@harms(at_least("3/8", "Rip the back thicker, and drill pilot holes for its screws.", widest="1/4"))
def wood_beside_back_screw(roof_rim_back_thickness: Length) -> Length:
    """Wood on each side of a frame screw in the middle of the rim's back.

    A screw near a face splits the thin back; pilot holes help.
    """
    return roof_rim_back_thickness / 2


@harms(point_covered("Take shorter brads for the skirt."))
def wood_past_skirt_brad(
    skirt_end_back_thickness: Length, roof_rim_back_thickness: Length, long_brad: Length
) -> Length:
    """Wood left beyond the point of a brad through the skirt into the rim's thin back.

    A point that comes out in there goes into the foam, where nobody sees it and nothing is held.
    """
    return skirt_end_back_thickness + roof_rim_back_thickness - long_brad


# ── out of whole sheets ───────────────────────────────────────────────────────────────────────


@blocks(at_least(0, "Lay two pieces of foam side by side: under the deck that does no harm."))
def roof_panel_out_of_board(
    roof_panel_width: Length,
    roof_panel_length: Length,
    foam_board_width: Length,
    foam_board_length: Length,
) -> Length:
    """How much bigger a foam board is than the roof's panel, in the tighter direction.

    A panel that is bigger than the biggest board, whichever way you turn it, cannot be cut in one
    piece.
    """
    return min(
        foam_board_width - min(roof_panel_width, roof_panel_length),
        foam_board_length - max(roof_panel_width, roof_panel_length),
    )


@blocks(ONE_SHEET)
def deck_out_of_sheet(
    deck_width: Length,
    deck_length: Length,
    plywood_sheet_width: Length,
    plywood_sheet_length: Length,
) -> Length:
    """How much bigger a sheet of plywood is than the deck, in the tighter direction.

    A deck of two pieces has a joint that bends and lets water through.
    """
    return min(
        plywood_sheet_width - min(deck_width, deck_length),
        plywood_sheet_length - max(deck_width, deck_length),
    )


@blocks(ONE_SHEET)
def cover_out_of_sheet(
    cover_width: Length,
    cover_length: Length,
    plastic_sheet_width: Length,
    plastic_sheet_length: Length,
) -> Length:
    """How much bigger a sheet of plastic is than the cover, in the tighter direction.

    A cover of two pieces has a joint, and on so flat a roof rain goes through it.
    """
    return min(
        plastic_sheet_width - min(cover_width, cover_length),
        plastic_sheet_length - max(cover_width, cover_length),
    )
