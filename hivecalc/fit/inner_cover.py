"""Will the inner cover go together, and can bees use its upper way: one function a rule.

Figures in the examples are common practice, no published source.
"""

from fractions import Fraction

from hivecalc.fit.limits import (
    AGREE,
    BEE_SPACE,
    BEE_SPACE_HIGH,
    BEE_SPACE_LOW,
    BEE_SPACE_SPREAD,
    BRAD_BITE,
    POINT_COVER,
    POINT_COVER_LEAST,
)
from hivecalc.fit.rule import rule
from hivecalc.length import Count, Length


@rule(
    "harms",
    low=BEE_SPACE_LOW,
    widest_low=BEE_SPACE_LOW - BEE_SPACE_SPREAD,
    high=BEE_SPACE_HIGH,
    widest_high=BEE_SPACE_HIGH + BEE_SPACE_SPREAD,
    source=BEE_SPACE,
    only=("inner_notch",),
    if_low="Rip new rim strips, higher ones.",
    if_high="Rip the rim strips lower, or close the notch and the slot.",
)
def upper_way_height(
    inner_cover_rim_front_left_thickness: Length, inner_cover_rim_front_right_thickness: Length
) -> Length:
    """Height of the channel and the notch, the upper way of bees and damp air.

    Bees close a lower way with resin, and in a higher one they build comb.

    >>> upper_way_height(0.375, 0.375)
    0.375
    """
    return min(inner_cover_rim_front_left_thickness, inner_cover_rim_front_right_thickness)


@rule(
    "harms",
    low=BEE_SPACE_LOW,
    widest_low=BEE_SPACE_LOW - BEE_SPACE_SPREAD,
    high=BEE_SPACE_HIGH,
    widest_high=BEE_SPACE_HIGH + BEE_SPACE_SPREAD,
    source=BEE_SPACE,
    only=("inner_notch",),
    if_low="File the slot wider.",
    if_high="Staple a strip of wood along the slot.",
)
def slot_for_bees(inner_cover_slot_width: Length) -> Length:
    """Width of the slot in the lower sheet.

    Bees close a narrower slot with resin, and in a wider one they build comb.

    >>> slot_for_bees(0.3125)
    0.3125
    """
    return inner_cover_slot_width


@rule(
    "harms",
    low=Fraction(0),
    widest_low=-Fraction(1, 16),
    only=("inner_notch",),
    if_low="Choose a deeper channel, so that the slot lies behind the wall.",
)
def slot_behind_wall(inner_cover_slot_from_front: Length, stack_wall_thickness: Length) -> Length:
    """How far the slot lies behind the box's wall, or behind the wall and its sleeve.

    A slot over the wall opens onto wood or foam: neither bees nor damp air find the upper way.

    >>> slot_behind_wall(2.6875, 2.25)
    0.4375
    """
    return inner_cover_slot_from_front - stack_wall_thickness


@rule(
    "harms",
    low=Fraction(1),
    high=Fraction(4),
    only=("inner_notch",),
    if_low="Crosscut both front pieces shorter.",
    if_high="Cut new front pieces, longer ones.",
)
def notch_open(inner_cover_notch_length: Length) -> Length:
    """Length of the notch that the two pieces of the front leave open.

    Through a narrow one little air and few bees pass; a wide one weakens the rim.

    >>> notch_open(2)
    2
    """
    return inner_cover_notch_length


@rule(
    "blocks",
    low=Fraction(1, 2),
    only=("inner_notch",),
    if_low="Cut longer channel sides; they cost a minute.",
)
def channel_over_slot(
    inner_cover_channel_side_left_length: Length,
    inner_cover_channel_side_right_length: Length,
    inner_cover_slot_width: Length,
) -> Length:
    """How much deeper the channel is than the slot that opens into it.

    In a channel as short as that the back lies over the slot, and the way is shut.

    >>> channel_over_slot(1.5, 1.5, 0.3125)
    1.1875
    """
    return (
        min(inner_cover_channel_side_left_length, inner_cover_channel_side_right_length)
        - inner_cover_slot_width
    )


@rule(
    "harms",
    low=Fraction(1, 4),
    high=Fraction(4),
    only=("inner_notch",),
    if_low="Cut a longer channel back; it costs a minute.",
    if_high="Crosscut the channel back.",
)
def channel_closed(
    inner_cover_channel_back_length: Length, inner_cover_notch_length: Length
) -> Length:
    """How much longer the channel's back is than the notch, both ends together.

    It must cover the ends of the channel's sides, or the still air beside it is not still.

    >>> channel_closed(3, 2)
    1
    """
    return inner_cover_channel_back_length - inner_cover_notch_length


@rule(
    "harms",
    high=AGREE,
    only=("inner_notch",),
    if_high="Crosscut the longer channel side to the shorter.",
)
def channel_sides_alike(
    inner_cover_channel_side_left_length: Length, inner_cover_channel_side_right_length: Length
) -> Length:
    """How much the two sides of the channel differ in length.

    The channel's back meets only the longer side, and the way leads into the still air.

    >>> channel_sides_alike(1.5, 1.5)
    0.0
    """
    return max(inner_cover_channel_side_left_length, inner_cover_channel_side_right_length) - min(
        inner_cover_channel_side_left_length, inner_cover_channel_side_right_length
    )


@rule(
    "blocks",
    low=Fraction(0),
    only=("inner_notch",),
    if_low="Choose a shorter notch, so that the channel goes between the rim's sides.",
)
def channel_in_rim(
    inner_cover_rim_back_length: Length, inner_cover_channel_back_length: Length
) -> Length:
    """Room for the channel between the sides of the rim.

    A channel that is wider than the room between the sides does not go in.

    >>> channel_in_rim(13.25, 3)
    10.25
    """
    return inner_cover_rim_back_length - inner_cover_channel_back_length


@rule(
    "harms",
    low=-AGREE,
    high=AGREE,
    if_low="Cut new rim sides: the sheets need wood under their edges.",
    if_high="Crosscut the rim's sides.",
)
def rim_against_hive_along(
    inner_cover_overall_length: Length, stack_outside_length: Length
) -> Length:
    """How much longer the inner cover's rim is than the hive.

    A rim that stands out carries the roof's skirt off the box; a short one leaves a gap for bees
    and rain.

    >>> rim_against_hive_along(22.75, 22.75)
    0.0
    """
    return inner_cover_overall_length - stack_outside_length


@rule(
    "harms",
    low=-AGREE,
    high=AGREE,
    if_low="Cut a new front and back: the sheets need wood under their edges.",
    if_high="Crosscut the rim's front and back.",
)
def rim_against_hive_across(
    inner_cover_overall_width: Length, stack_outside_width: Length
) -> Length:
    """How much wider the inner cover's rim is than the hive.

    A rim that stands out carries the roof's skirt off the box; a narrow one leaves a gap for bees
    and rain.

    >>> rim_against_hive_across(16.25, 16.25)
    0.0
    """
    return inner_cover_overall_width - stack_outside_width


@rule(
    "harms",
    high=Fraction(1, 16),
    widest_high=AGREE,
    if_high="Crosscut the longer side to the shorter.",
)
def rim_sides_alike(
    inner_cover_rim_side_left_length: Length, inner_cover_rim_side_right_length: Length
) -> Length:
    """How much the two sides of the rim differ in length.

    With different sides the inner cover is out of square and stands out at a corner.

    >>> rim_sides_alike(22.75, 22.75)
    0.0
    """
    return max(inner_cover_rim_side_left_length, inner_cover_rim_side_right_length) - min(
        inner_cover_rim_side_left_length, inner_cover_rim_side_right_length
    )


@rule(
    "harms",
    high=Fraction(1, 16),
    widest_high=AGREE,
    unless=("inner_notch",),
    if_high="Crosscut the longer of the two to the shorter.",
)
def rim_ends_alike(
    inner_cover_rim_front_length: Length, inner_cover_rim_back_length: Length
) -> Length:
    """How much the front and the back of the rim differ in length.

    With different ends the inner cover is narrower at one end.

    >>> rim_ends_alike(13.25, 13.25)
    0.0
    """
    return max(inner_cover_rim_front_length, inner_cover_rim_back_length) - min(
        inner_cover_rim_front_length, inner_cover_rim_back_length
    )


@rule(
    "harms",
    high=Fraction(1, 16),
    widest_high=AGREE,
    if_high="Plane the higher strips down to the lowest.",
)
def rim_level(
    inner_notch: Count,
    inner_cover_rim_side_left_thickness: Length,
    inner_cover_rim_side_right_thickness: Length,
    inner_cover_rim_front_thickness: Length,
    inner_cover_rim_front_left_thickness: Length,
    inner_cover_rim_front_right_thickness: Length,
    inner_cover_rim_back_thickness: Length,
) -> Length:
    """How far the highest strip of the rim stands above the lowest.

    The sheets do not lie on all strips of such a rim, and bees and cold air get in between.

    >>> rim_level(2, 0.375, 0.375, 0, 0.375, 0.375, 0.375)
    0.0
    """
    return (
        max(
            inner_cover_rim_side_left_thickness,
            inner_cover_rim_side_right_thickness,
            inner_cover_rim_front_left_thickness,
            inner_cover_rim_front_right_thickness,
            inner_cover_rim_back_thickness,
        )
        - min(
            inner_cover_rim_side_left_thickness,
            inner_cover_rim_side_right_thickness,
            inner_cover_rim_front_left_thickness,
            inner_cover_rim_front_right_thickness,
            inner_cover_rim_back_thickness,
        )
        if inner_notch
        else max(
            inner_cover_rim_side_left_thickness,
            inner_cover_rim_side_right_thickness,
            inner_cover_rim_front_thickness,
            inner_cover_rim_back_thickness,
        )
        - min(
            inner_cover_rim_side_left_thickness,
            inner_cover_rim_side_right_thickness,
            inner_cover_rim_front_thickness,
            inner_cover_rim_back_thickness,
        )
    )


@rule(
    "harms",
    high=Fraction(1, 16),
    widest_high=AGREE,
    only=("inner_notch",),
    if_high="Rip new channel strips, as high as the rim.",
)
def channel_level(
    inner_cover_rim_side_left_thickness: Length,
    inner_cover_channel_side_left_thickness: Length,
    inner_cover_channel_side_right_thickness: Length,
    inner_cover_channel_back_thickness: Length,
) -> Length:
    """How much a strip of the channel differs in height from the rim, the one that differs most.

    A higher strip keeps the sheet off the rim; a lower one lets bees into the still air beside the
    channel.

    >>> channel_level(0.375, 0.375, 0.375, 0.375)
    0.0
    """
    return max(
        inner_cover_rim_side_left_thickness,
        inner_cover_channel_side_left_thickness,
        inner_cover_channel_side_right_thickness,
        inner_cover_channel_back_thickness,
    ) - min(
        inner_cover_rim_side_left_thickness,
        inner_cover_channel_side_left_thickness,
        inner_cover_channel_side_right_thickness,
        inner_cover_channel_back_thickness,
    )


@rule(
    "harms",
    low=-AGREE,
    high=AGREE,
    if_low="Cut a new sheet.",
    if_high="Trim the sheet flush with the rim, after gluing.",
)
def sheet_against_rim_along(
    inner_cover_sheet_lower_length: Length,
    inner_cover_sheet_upper_length: Length,
    inner_cover_overall_length: Length,
) -> Length:
    """How much longer the shorter sheet is than the rim.

    A short sheet leaves a way for bees between sheet and box; a long one hinders the roof.

    >>> sheet_against_rim_along(22.75, 22.75, 22.75)
    0.0
    """
    return (
        min(inner_cover_sheet_lower_length, inner_cover_sheet_upper_length)
        - inner_cover_overall_length
    )


@rule(
    "harms",
    low=-AGREE,
    high=AGREE,
    if_low="Cut a new sheet.",
    if_high="Trim the sheet flush with the rim, after gluing.",
)
def sheet_against_rim_across(
    inner_cover_sheet_lower_width: Length,
    inner_cover_sheet_upper_width: Length,
    inner_cover_overall_width: Length,
) -> Length:
    """How much wider the narrower sheet is than the rim.

    A narrow sheet leaves a way for bees between sheet and box; a wide one hinders the roof.

    >>> sheet_against_rim_across(16.25, 16.25, 16.25)
    0.0
    """
    return (
        min(inner_cover_sheet_lower_width, inner_cover_sheet_upper_width)
        - inner_cover_overall_width
    )


@rule(
    "harms",
    high=AGREE,
    if_high="Trim the bigger sheet to the smaller, after gluing.",
)
def sheets_alike(
    inner_cover_sheet_lower_length: Length,
    inner_cover_sheet_upper_length: Length,
    inner_cover_sheet_lower_width: Length,
    inner_cover_sheet_upper_width: Length,
) -> Length:
    """How much the two sheets differ in length or width, where they differ more.

    A sheet that stands out splinters, and the roof catches on it.

    >>> sheets_alike(22.75, 22.75, 16.25, 16.25)
    0.0
    """
    return max(
        max(inner_cover_sheet_lower_length, inner_cover_sheet_upper_length)
        - min(inner_cover_sheet_lower_length, inner_cover_sheet_upper_length),
        max(inner_cover_sheet_lower_width, inner_cover_sheet_upper_width)
        - min(inner_cover_sheet_lower_width, inner_cover_sheet_upper_width),
    )


@rule(
    "harms",
    low=POINT_COVER,
    widest_low=POINT_COVER_LEAST,
    if_low="Take a shorter brad or a staple.",
)
def wood_past_sheet_brad(
    inner_cover_sheet_upper_thickness: Length,
    inner_cover_rim_side_left_thickness: Length,
    sheet_brad: Length,
) -> Length:
    """Wood left beyond the point of a brad through a sheet into the rim.

    A longer one stands out of the rim and lifts the other sheet.

    >>> wood_past_sheet_brad(0.25, 0.375, 0.5)
    0.125
    """
    return inner_cover_sheet_upper_thickness + inner_cover_rim_side_left_thickness - sheet_brad


@rule("harms", low=BRAD_BITE, if_low="Take a longer brad.")
def sheet_brad_bite(sheet_brad: Length, inner_cover_sheet_upper_thickness: Length) -> Length:
    """How deep a brad bites into the rim through a sheet.

    A brad that hardly reaches the rim lets the sheet lift when the cover is prised off.

    >>> sheet_brad_bite(0.5, 0.25)
    0.25
    """
    return sheet_brad - inner_cover_sheet_upper_thickness


@rule(
    "blocks",
    low=Fraction(0),
    if_low="Make the sheet of two pieces, with one more strip under the joint.",
)
def sheet_out_of_sheet(
    inner_cover_sheet_upper_width: Length,
    inner_cover_sheet_upper_length: Length,
    plywood_sheet_width: Length,
    plywood_sheet_length: Length,
) -> Length:
    """How much bigger a sheet of plywood is than the inner cover, in the tighter direction.

    A thin sheet of two pieces sags at its joint, between the rim's strips.

    >>> sheet_out_of_sheet(16.25, 22.75, 48, 96)
    31.75
    """
    return min(
        plywood_sheet_width - min(inner_cover_sheet_upper_width, inner_cover_sheet_upper_length),
        plywood_sheet_length - max(inner_cover_sheet_upper_width, inner_cover_sheet_upper_length),
    )
