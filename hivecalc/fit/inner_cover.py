"""Will the inner cover go together, and can bees use its upper way: one function a rule."""

from typing import Final

from hivecalc.derivation import difference
from hivecalc.fit.rule import (
    AGREE,
    alike,
    at_least,
    at_most,
    bee_space,
    blocks,
    flush,
    harms,
    point_covered,
)
from hivecalc.length import Count, Length, Lengths

SHEET_FLUSH: Final = flush("Cut a new sheet.", "Trim the sheet flush with the rim, after gluing.")


@harms(
    *bee_space(
        "Rip new rim strips, higher ones.",
        "Rip the rim strips lower, or close the notch and the slot.",
    ),
    only="inner_notch",
)
def upper_way_height(rim_front_thickness: Lengths) -> Length:
    """Height of the channel and the notch, the upper way of bees and damp air.

    Bees close a lower way with resin, and in a higher one they build comb.
    """
    return min(*rim_front_thickness)


@harms(
    *bee_space("File the slot wider.", "Staple a strip of wood along the slot."), only="inner_notch"
)
def slot_for_bees(slot_width: Length) -> Length:
    """Width of the slot in the lower sheet.

    Bees close a narrower slot with resin, and in a wider one they build comb.
    """
    return slot_width


@harms(
    at_least(0, "Choose a deeper channel, so that the slot lies behind the wall.", widest="-1/16"),
    only="inner_notch",
)
def slot_behind_wall(slot_from_front: Length, stack_wall_thickness: Length) -> Length:
    """How far the slot lies behind the box's wall, or behind the wall and its sleeve.

    A slot over the wall opens onto wood or foam: neither bees nor damp air find the upper way.
    """
    return slot_from_front - stack_wall_thickness


@harms(
    at_least(1, "Crosscut both front pieces shorter."),
    at_most(4, "Cut new front pieces, longer ones."),
    only="inner_notch",
)
def notch_open(notch_length: Length) -> Length:
    """Length of the notch that the two pieces of the front leave open.

    Through a narrow one little air and few bees pass; a wide one weakens the rim.
    """
    return notch_length


@blocks(at_least("1/2", "Cut longer channel sides; they cost a minute."), only="inner_notch")
def channel_over_slot(channel_side_length: Lengths, slot_width: Length) -> Length:
    """How much deeper the channel is than the slot that opens into it.

    In a channel as short as that the back lies over the slot, and the way is shut.
    """
    return min(*channel_side_length) - slot_width


@harms(
    at_least("1/4", "Cut a longer channel back; it costs a minute."),
    at_most(4, "Crosscut the channel back."),
    only="inner_notch",
)
def channel_closed(channel_back_length: Length, notch_length: Length) -> Length:
    """How much longer the channel's back is than the notch, both ends together.

    It must cover the ends of the channel's sides, or the still air beside it is not still.
    """
    return channel_back_length - notch_length


@harms(at_most(AGREE, "Crosscut the longer channel side to the shorter."), only="inner_notch")
def channel_sides_alike(channel_side_length: Lengths) -> Length:
    """How much the two sides of the channel differ in length.

    The channel's back meets only the longer side, and the way leads into the still air.
    """
    return difference(*channel_side_length)


@blocks(
    at_least(0, "Choose a shorter notch, so that the channel goes between the rim's sides."),
    only="inner_notch",
)
def channel_in_rim(rim_back_length: Length, channel_back_length: Length) -> Length:
    """Room for the channel between the sides of the rim.

    A channel that is wider than the room between the sides does not go in.
    """
    return rim_back_length - channel_back_length


@harms(
    *flush(
        "Cut new rim sides: the sheets need wood under their edges.", "Crosscut the rim's sides."
    )
)
def rim_against_hive_along(overall_length: Length, stack_outside_length: Length) -> Length:
    """How much longer the inner cover's rim is than the hive.

    A rim that stands out carries the roof's skirt off the box; a short one leaves a gap for bees
    and rain.
    """
    return overall_length - stack_outside_length


@harms(
    *flush(
        "Cut a new front and back: the sheets need wood under their edges.",
        "Crosscut the rim's front and back.",
    )
)
def rim_against_hive_across(overall_width: Length, stack_outside_width: Length) -> Length:
    """How much wider the inner cover's rim is than the hive.

    A rim that stands out carries the roof's skirt off the box; a narrow one leaves a gap for bees
    and rain.
    """
    return overall_width - stack_outside_width


@harms(alike("Crosscut the longer side to the shorter."))
def rim_sides_alike(rim_side_length: Lengths) -> Length:
    """How much the two sides of the rim differ in length.

    With different sides the inner cover is out of square and stands out at a corner.
    """
    return difference(*rim_side_length)


@harms(alike("Crosscut the longer of the two to the shorter."), unless="inner_notch")
def rim_ends_alike(rim_front_length: Length, rim_back_length: Length) -> Length:
    """How much the front and the back of the rim differ in length.

    With different ends the inner cover is narrower at one end.
    """
    return difference(rim_front_length, rim_back_length)


@harms(alike("Plane the higher strips down to the lowest."))
def rim_level(
    inner_notch: Count,
    rim_side_thickness: Lengths,
    rim_front_thickness: Length,
    rim_front_left_thickness: Length,
    rim_front_right_thickness: Length,
    inner_cover_rim_back_thickness: Length,
) -> Length:
    """How far the highest strip of the rim stands above the lowest.

    The sheets do not lie on all strips of such a rim, and bees and cold air get in between.
    """
    return (
        difference(
            *rim_side_thickness,
            rim_front_left_thickness,
            rim_front_right_thickness,
            inner_cover_rim_back_thickness,
        )
        if inner_notch
        else difference(*rim_side_thickness, rim_front_thickness, inner_cover_rim_back_thickness)
    )


@harms(alike("Rip new channel strips, as high as the rim."), only="inner_notch")
def channel_level(
    rim_side_left_thickness: Length, channel_side_thickness: Lengths, channel_back_thickness: Length
) -> Length:
    """How much a strip of the channel differs in height from the rim, the one that differs most.

    A higher strip keeps the sheet off the rim; a lower one lets bees into the still air beside the
    channel.
    """
    return difference(rim_side_left_thickness, *channel_side_thickness, channel_back_thickness)


@harms(*SHEET_FLUSH)
def sheet_against_rim_along(sheet_length: Lengths, overall_length: Length) -> Length:
    """How much longer the shorter sheet is than the rim.

    A short sheet leaves a way for bees between sheet and box; a long one hinders the roof.
    """
    return min(*sheet_length) - overall_length


@harms(*SHEET_FLUSH)
def sheet_against_rim_across(sheet_width: Lengths, overall_width: Length) -> Length:
    """How much wider the narrower sheet is than the rim.

    A narrow sheet leaves a way for bees between sheet and box; a wide one hinders the roof.
    """
    return min(*sheet_width) - overall_width


@harms(at_most(AGREE, "Trim the bigger sheet to the smaller, after gluing."))
def sheets_alike(sheet_length: Lengths, sheet_width: Lengths) -> Length:
    """How much the two sheets differ in length or width, where they differ more.

    A sheet that stands out splinters, and the roof catches on it.
    """
    return max(difference(*sheet_length), difference(*sheet_width))


@harms(point_covered("Take a shorter brad or a staple."))
def wood_past_sheet_brad(
    sheet_upper_thickness: Length, rim_side_left_thickness: Length, sheet_brad: Length
) -> Length:
    """Wood left beyond the point of a brad through a sheet into the rim.

    A longer one stands out of the rim and lifts the other sheet.
    """
    return sheet_upper_thickness + rim_side_left_thickness - sheet_brad


@harms(at_least("1/8", "Take a longer brad."))
def sheet_brad_bite(sheet_brad: Length, sheet_upper_thickness: Length) -> Length:
    """How deep a brad bites into the rim through a sheet.

    A brad that hardly reaches the rim lets the sheet lift when the cover is prised off.
    """
    return sheet_brad - sheet_upper_thickness


@blocks(at_least(0, "Make the sheet of two pieces, with one more strip under the joint."))
def sheet_out_of_sheet(
    sheet_upper_width: Length,
    sheet_upper_length: Length,
    plywood_sheet_width: Length,
    plywood_sheet_length: Length,
) -> Length:
    """How much bigger a sheet of plywood is than the inner cover, in the tighter direction.

    A thin sheet of two pieces sags at its joint, between the rim's strips.
    """
    return min(
        plywood_sheet_width - min(sheet_upper_width, sheet_upper_length),
        plywood_sheet_length - max(sheet_upper_width, sheet_upper_length),
    )
