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
from hivecalc.length import Length


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

    A channel that is no deeper covers the slot with its own back, and the way is shut.

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
    "blocks",
    low=Fraction(0),
    only=("inner_notch",),
    if_low="Make the notch shorter, so that the channel goes between the rim's sides.",
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
    if_low="Cut the rim's sides anew: the sheets need wood under their edges.",
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
    if_low="Cut the rim's front and back anew: the sheets need wood under their edges.",
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
    low=-AGREE,
    high=AGREE,
    if_low="Cut the sheet anew; one that is 1/8 in short may go on top, flush in front.",
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
    if_low="Cut the sheet anew.",
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


@rule("blocks", low=Fraction(0), if_low="There is no remedy: no sheet is so big.")
def sheet_out_of_sheet(
    inner_cover_sheet_upper_width: Length,
    inner_cover_sheet_upper_length: Length,
    plywood_sheet_width: Length,
    plywood_sheet_length: Length,
) -> Length:
    """What a sheet of plywood is bigger than the inner cover, in the tighter direction.

    The inner cover's thin sheets must be whole: a joint sags between the rim's strips.

    >>> sheet_out_of_sheet(16.25, 22.75, 48, 96)
    31.75
    """
    return min(
        plywood_sheet_width - min(inner_cover_sheet_upper_width, inner_cover_sheet_upper_length),
        plywood_sheet_length - max(inner_cover_sheet_upper_width, inner_cover_sheet_upper_length),
    )
