"""Does the sleeve close round its box, and does the hive agree with it: one function a rule.

Figures in the examples are common practice, no published source.
"""

from fractions import Fraction

from hivecalc.components import TAPE_AGREES
from hivecalc.fit.limits import AGREE, POINT_COVER, POINT_COVER_LEAST, SNUG_HIGH, SNUG_LOW
from hivecalc.fit.rule import rule
from hivecalc.length import Length


@rule(
    "harms",
    low=SNUG_LOW,
    high=SNUG_HIGH,
    if_low="Trim the foam.",
    if_high="Press a strip of foam into the gap.",
)
def foam_between_strips(
    sleeve_clear_height: Length,
    sleeve_foam_side_left_width: Length,
    sleeve_foam_side_right_width: Length,
    sleeve_foam_end_front_width: Length,
    sleeve_foam_end_back_width: Length,
) -> Length:
    """Gap left between the foam and the edge strips, where the foam is highest.

    Foam that is too high does not go in; through a wide gap the warmth goes out.

    >>> foam_between_strips(8.125, 8.125, 8.125, 8.125, 8.125)
    0.0
    """
    return sleeve_clear_height - max(
        sleeve_foam_side_left_width,
        sleeve_foam_side_right_width,
        sleeve_foam_end_front_width,
        sleeve_foam_end_back_width,
    )


@rule(
    "harms",
    low=-AGREE,
    high=SNUG_HIGH,
    if_low="Trim the foam.",
    if_high="Press a strip of foam into the corner.",
)
def foam_along_box(
    box_length: Length, sleeve_foam_side_left_length: Length, sleeve_foam_side_right_length: Length
) -> Length:
    """How much shorter the foam at a side is than the box, where it is longest.

    Foam that is too long pushes the foam of the ends off the box; a gap in the corner leaks.

    >>> foam_along_box(19.875, 19.875, 19.875)
    0.0
    """
    return box_length - max(sleeve_foam_side_left_length, sleeve_foam_side_right_length)


@rule(
    "harms",
    low=-AGREE,
    high=SNUG_HIGH,
    if_low="Trim the foam.",
    if_high="Press a strip of foam into the corner.",
)
def foam_across_box(
    box_width: Length,
    sleeve_foam_side_left_thickness: Length,
    sleeve_foam_side_right_thickness: Length,
    sleeve_foam_end_front_length: Length,
    sleeve_foam_end_back_length: Length,
) -> Length:
    """How much shorter the foam at an end is than box and foam together, where it is longest.

    Foam that is too long pushes the skin off; a gap in the corner leaks.

    >>> foam_across_box(16.25, 1, 1, 18.25, 18.25)
    0.0
    """
    return (
        box_width
        + sleeve_foam_side_left_thickness
        + sleeve_foam_side_right_thickness
        - max(sleeve_foam_end_front_length, sleeve_foam_end_back_length)
    )


@rule(
    "harms",
    low=-AGREE,
    high=AGREE,
    if_low="Crosscut the strip.",
    if_high="Cut a new strip; it costs a minute.",
)
def strips_along_box(
    box_length: Length,
    sleeve_edge_strip_side_lower_left_length: Length,
    sleeve_edge_strip_side_lower_right_length: Length,
    sleeve_edge_strip_side_upper_left_length: Length,
    sleeve_edge_strip_side_upper_right_length: Length,
) -> Length:
    """How much shorter the edge strips along the sides are than the box, the longest of them.

    A strip that is too long pushes the strips of the ends off the box; a short one leaves foam open
    to ants and mice.

    >>> strips_along_box(19.875, 19.875, 19.875, 19.875, 19.875)
    0.0
    """
    return box_length - max(
        sleeve_edge_strip_side_lower_left_length,
        sleeve_edge_strip_side_lower_right_length,
        sleeve_edge_strip_side_upper_left_length,
        sleeve_edge_strip_side_upper_right_length,
    )


@rule(
    "harms",
    low=-AGREE,
    high=AGREE,
    if_low="Crosscut the strip.",
    if_high="Cut a new strip; it costs a minute.",
)
def strips_across_box(
    box_width: Length,
    sleeve_foam_side_left_thickness: Length,
    sleeve_foam_side_right_thickness: Length,
    sleeve_edge_strip_end_lower_front_length: Length,
    sleeve_edge_strip_end_lower_back_length: Length,
    sleeve_edge_strip_end_upper_front_length: Length,
    sleeve_edge_strip_end_upper_back_length: Length,
) -> Length:
    """How much shorter the edge strips along the ends are than box and foam, the longest of them.

    A strip that is too long pushes the skin off; a short one leaves foam open to ants and mice.

    >>> strips_across_box(16.25, 1, 1, 18.25, 18.25, 18.25, 18.25)
    0.0
    """
    return (
        box_width
        + sleeve_foam_side_left_thickness
        + sleeve_foam_side_right_thickness
        - max(
            sleeve_edge_strip_end_lower_front_length,
            sleeve_edge_strip_end_lower_back_length,
            sleeve_edge_strip_end_upper_front_length,
            sleeve_edge_strip_end_upper_back_length,
        )
    )


@rule(
    "harms",
    low=-AGREE,
    high=AGREE,
    if_low="Trim the skin.",
    if_high="Cut a new skin, or close the corner with a strip.",
)
def skin_along_foam(
    box_length: Length,
    sleeve_foam_end_front_thickness: Length,
    sleeve_foam_end_back_thickness: Length,
    sleeve_skin_side_left_length: Length,
    sleeve_skin_side_right_length: Length,
) -> Length:
    """How much shorter the skin at a side is than box and foam together, where it is longest.

    A skin that is too long holds the skin of the ends off the foam; a short one leaves the corner
    open.

    >>> skin_along_foam(19.875, 1, 1, 21.875, 21.875)
    0.0
    """
    return (
        box_length
        + sleeve_foam_end_front_thickness
        + sleeve_foam_end_back_thickness
        - max(sleeve_skin_side_left_length, sleeve_skin_side_right_length)
    )


@rule(
    "harms",
    low=-AGREE,
    high=AGREE,
    if_low="Trim the skin.",
    if_high="Cut a new skin, or close the corner with a strip.",
)
def skin_across_sleeve(
    sleeve_outside_width: Length,
    sleeve_skin_end_front_length: Length,
    sleeve_skin_end_back_length: Length,
) -> Length:
    """How much shorter the skin at an end is than the whole sleeve is wide, where it is longest.

    A skin that stands out catches the roof's skirt; a short one leaves the edges of the other skins
    open to rain.

    >>> skin_across_sleeve(19.25, 19.25, 19.25)
    0.0
    """
    return sleeve_outside_width - max(sleeve_skin_end_front_length, sleeve_skin_end_back_length)


@rule(
    "harms",
    low=-AGREE,
    high=AGREE,
    if_low="Trim the skin flush with the box.",
    if_high="Leave the gap at the top, and close it with a strip.",
)
def skin_as_high_as_box(
    box_height: Length,
    sleeve_skin_side_left_width: Length,
    sleeve_skin_side_right_width: Length,
    sleeve_skin_end_front_width: Length,
    sleeve_skin_end_back_width: Length,
) -> Length:
    """How much lower the skin is than the box, where it is highest.

    A skin that stands above the box keeps cover and box apart; a low one leaves the edge strip's
    joint open to the rain.

    >>> skin_as_high_as_box(9.625, 9.625, 9.625, 9.625, 9.625)
    0.0
    """
    return box_height - max(
        sleeve_skin_side_left_width,
        sleeve_skin_side_right_width,
        sleeve_skin_end_front_width,
        sleeve_skin_end_back_width,
    )


@rule("harms", high=SNUG_HIGH, if_high="Press a strip of foam in beside the smaller piece.")
def foam_alike(
    sleeve_foam_side_left_length: Length,
    sleeve_foam_side_right_length: Length,
    sleeve_foam_end_front_length: Length,
    sleeve_foam_end_back_length: Length,
    sleeve_foam_side_left_width: Length,
    sleeve_foam_side_right_width: Length,
    sleeve_foam_end_front_width: Length,
    sleeve_foam_end_back_width: Length,
) -> Length:
    """How much pieces of foam that should be alike differ, where they differ most.

    Beside a smaller piece warmth goes out.

    >>> foam_alike(19.875, 19.875, 18.25, 18.25, *[8.125] * 4)
    0.0
    """
    return max(
        max(sleeve_foam_side_left_length, sleeve_foam_side_right_length)
        - min(sleeve_foam_side_left_length, sleeve_foam_side_right_length),
        max(sleeve_foam_end_front_length, sleeve_foam_end_back_length)
        - min(sleeve_foam_end_front_length, sleeve_foam_end_back_length),
        max(
            sleeve_foam_side_left_width,
            sleeve_foam_side_right_width,
            sleeve_foam_end_front_width,
            sleeve_foam_end_back_width,
        )
        - min(
            sleeve_foam_side_left_width,
            sleeve_foam_side_right_width,
            sleeve_foam_end_front_width,
            sleeve_foam_end_back_width,
        ),
    )


@rule(
    "harms",
    high=AGREE,
    widest_high=2 * AGREE,
    if_high="Trim the bigger skin, or cut the smaller one new.",
)
def skins_alike(
    sleeve_skin_side_left_length: Length,
    sleeve_skin_side_right_length: Length,
    sleeve_skin_end_front_length: Length,
    sleeve_skin_end_back_length: Length,
    sleeve_skin_side_left_width: Length,
    sleeve_skin_side_right_width: Length,
    sleeve_skin_end_front_width: Length,
    sleeve_skin_end_back_width: Length,
) -> Length:
    """How much skins that should be alike differ, where they differ most.

    A smaller skin leaves a corner or an edge open to the rain.

    >>> skins_alike(21.875, 21.875, 19.25, 19.25, *[9.5625] * 4)
    0.0
    """
    return max(
        max(sleeve_skin_side_left_length, sleeve_skin_side_right_length)
        - min(sleeve_skin_side_left_length, sleeve_skin_side_right_length),
        max(sleeve_skin_end_front_length, sleeve_skin_end_back_length)
        - min(sleeve_skin_end_front_length, sleeve_skin_end_back_length),
        max(
            sleeve_skin_side_left_width,
            sleeve_skin_side_right_width,
            sleeve_skin_end_front_width,
            sleeve_skin_end_back_width,
        )
        - min(
            sleeve_skin_side_left_width,
            sleeve_skin_side_right_width,
            sleeve_skin_end_front_width,
            sleeve_skin_end_back_width,
        ),
    )


@rule("harms", high=AGREE, widest_high=2 * AGREE, if_high="Cut a new strip; it costs a minute.")
def edge_strips_alike(
    sleeve_edge_strip_side_lower_left_length: Length,
    sleeve_edge_strip_side_lower_right_length: Length,
    sleeve_edge_strip_side_upper_left_length: Length,
    sleeve_edge_strip_side_upper_right_length: Length,
    sleeve_edge_strip_end_lower_front_length: Length,
    sleeve_edge_strip_end_lower_back_length: Length,
    sleeve_edge_strip_end_upper_front_length: Length,
    sleeve_edge_strip_end_upper_back_length: Length,
    sleeve_edge_strip_side_lower_left_width: Length,
    sleeve_edge_strip_side_lower_right_width: Length,
    sleeve_edge_strip_side_upper_left_width: Length,
    sleeve_edge_strip_side_upper_right_width: Length,
    sleeve_edge_strip_end_lower_front_width: Length,
    sleeve_edge_strip_end_lower_back_width: Length,
    sleeve_edge_strip_end_upper_front_width: Length,
    sleeve_edge_strip_end_upper_back_width: Length,
) -> Length:
    """How much edge strips that should be alike differ, where they differ most.

    Beside a smaller strip the foam is open to ants and mice, and the box stands on the others.

    >>> edge_strips_alike(*[19.875] * 4, *[18.25] * 4, *[0.75] * 8)
    0.0
    """
    return max(
        max(
            sleeve_edge_strip_side_lower_left_length,
            sleeve_edge_strip_side_lower_right_length,
            sleeve_edge_strip_side_upper_left_length,
            sleeve_edge_strip_side_upper_right_length,
        )
        - min(
            sleeve_edge_strip_side_lower_left_length,
            sleeve_edge_strip_side_lower_right_length,
            sleeve_edge_strip_side_upper_left_length,
            sleeve_edge_strip_side_upper_right_length,
        ),
        max(
            sleeve_edge_strip_end_lower_front_length,
            sleeve_edge_strip_end_lower_back_length,
            sleeve_edge_strip_end_upper_front_length,
            sleeve_edge_strip_end_upper_back_length,
        )
        - min(
            sleeve_edge_strip_end_lower_front_length,
            sleeve_edge_strip_end_lower_back_length,
            sleeve_edge_strip_end_upper_front_length,
            sleeve_edge_strip_end_upper_back_length,
        ),
        max(
            sleeve_edge_strip_side_lower_left_width,
            sleeve_edge_strip_side_lower_right_width,
            sleeve_edge_strip_side_upper_left_width,
            sleeve_edge_strip_side_upper_right_width,
            sleeve_edge_strip_end_lower_front_width,
            sleeve_edge_strip_end_lower_back_width,
            sleeve_edge_strip_end_upper_front_width,
            sleeve_edge_strip_end_upper_back_width,
        )
        - min(
            sleeve_edge_strip_side_lower_left_width,
            sleeve_edge_strip_side_lower_right_width,
            sleeve_edge_strip_side_upper_left_width,
            sleeve_edge_strip_side_upper_right_width,
            sleeve_edge_strip_end_lower_front_width,
            sleeve_edge_strip_end_lower_back_width,
            sleeve_edge_strip_end_upper_front_width,
            sleeve_edge_strip_end_upper_back_width,
        ),
    )


@rule("harms", low=Fraction(1, 4), if_low="Take longer screws for the edge strips.")
def edge_screw_bite(
    edge_screw: Length, sleeve_edge_strip_side_lower_left_thickness: Length
) -> Length:
    """How deep a screw bites into the box's board, through an edge strip.

    Those screws carry the whole box where its walls stand over the opening.

    >>> edge_screw_bite(1.375, 1)
    0.375
    """
    return edge_screw - sleeve_edge_strip_side_lower_left_thickness


@rule(
    "harms",
    low=POINT_COVER,
    widest_low=POINT_COVER_LEAST,
    if_low="Take a shorter brad for the skin.",
)
def wood_past_skin_brad(
    sleeve_skin_side_left_thickness: Length,
    sleeve_edge_strip_side_lower_left_thickness: Length,
    long_brad: Length,
) -> Length:
    """Wood left beyond the point of a brad through the skin into an edge strip.

    A brad that goes through the strip holds the box's board instead, and splits it.

    >>> wood_past_skin_brad(0.5, 1, 1.25)
    0.25
    """
    return sleeve_skin_side_left_thickness + sleeve_edge_strip_side_lower_left_thickness - long_brad


@rule(
    "note",
    low=Fraction(1, 4),
    if_low="Make the edge strips 1 1/2 in high, glue and screw them: the lower ones carry the box. "
    "Or take a thinner skin.",
)
def box_bearing(sleeve_bearing: Length) -> Length:
    """How much of the box's foot bears on the bottom board's rails.

    With little or nothing left the box's walls stand over the opening, and its weight hangs on the
    lower edge strips and their screws.

    >>> box_bearing(0.5)
    0.5
    """
    return sleeve_bearing


@rule(
    "harms",
    low=-TAPE_AGREES,
    high=TAPE_AGREES,
    if_low="Measure hive and box again; one of the two readings is wrong.",
    if_high="Measure hive and box again; one of the two readings is wrong.",
)
def hive_against_sleeve_along(hive_length: Length, sleeve_outside_length: Length) -> Length:
    """How much longer the hive was measured than box, foam and skin make it.

    Bottom board and roof are cut to the hive's length. Where two ways to it disagree, one of them
    is wrong, and the skin overhangs the board or falls short of it.

    >>> hive_against_sleeve_along(22.875, 22.875)
    0.0
    """
    return hive_length - sleeve_outside_length


@rule(
    "harms",
    low=-TAPE_AGREES,
    high=TAPE_AGREES,
    if_low="Measure hive and box again; one of the two readings is wrong.",
    if_high="Measure hive and box again; one of the two readings is wrong.",
)
def hive_against_sleeve_across(hive_width: Length, sleeve_outside_width: Length) -> Length:
    """How much wider the hive was measured than box, foam and skin make it.

    Bottom board and roof are cut to the hive's width. Where two ways to it disagree, one of them is
    wrong, and the skin overhangs the board or falls short of it.

    >>> hive_against_sleeve_across(19.25, 19.25)
    0.0
    """
    return hive_width - sleeve_outside_width
