"""What the sleeve comes to when its pieces stand round the box, as they were cut.

Sizes that the plan has too carry the same names, and are the same for pieces cut exactly. Figures
in the examples are common practice, no published source.
"""

from hivecalc.length import Length


def outside_length(
    skin_side_left_length: Length,
    skin_side_right_length: Length,
    skin_end_front_thickness: Length,
    skin_end_back_thickness: Length,
) -> Length:
    """Outside length of the sleeve, front to back, where it is longer.

    The skin's ends cover the edges of its sides.

    >>> outside_length(21.875, 21.875, 0.5, 0.5)
    22.875
    """
    return (
        max(skin_side_left_length, skin_side_right_length)
        + skin_end_front_thickness
        + skin_end_back_thickness
    )


def outside_width(
    box_width: Length,
    foam_side_left_thickness: Length,
    foam_side_right_thickness: Length,
    skin_side_left_thickness: Length,
    skin_side_right_thickness: Length,
) -> Length:
    """Outside width of the sleeve, side to side.

    Foam and skin stand at both sides of the box.

    >>> outside_width(16.25, 1, 1, 0.5, 0.5)
    19.25
    """
    return (
        box_width
        + foam_side_left_thickness
        + foam_side_right_thickness
        + skin_side_left_thickness
        + skin_side_right_thickness
    )


def clear_height(
    box_height: Length,
    edge_strip_side_lower_left_width: Length,
    edge_strip_side_lower_right_width: Length,
    edge_strip_end_lower_front_width: Length,
    edge_strip_end_lower_back_width: Length,
    edge_strip_side_upper_left_width: Length,
    edge_strip_side_upper_right_width: Length,
    edge_strip_end_upper_front_width: Length,
    edge_strip_end_upper_back_width: Length,
) -> Length:
    """Clear height between the edge strips, where the foam stands, at its lowest place.

    >>> clear_height(9.625, *[0.75] * 8)
    8.125
    """
    return (
        box_height
        - max(
            edge_strip_side_lower_left_width,
            edge_strip_side_lower_right_width,
            edge_strip_end_lower_front_width,
            edge_strip_end_lower_back_width,
        )
        - max(
            edge_strip_side_upper_left_width,
            edge_strip_side_upper_right_width,
            edge_strip_end_upper_front_width,
            edge_strip_end_upper_back_width,
        )
    )


def bearing(
    bottom_board_side_rail_left_thickness: Length,
    foam_side_left_thickness: Length,
    skin_side_left_thickness: Length,
) -> Length:
    """How much of the box's foot bears on the bottom board's rails.

    >>> bearing(1.5, 1, 0.5)
    0.0
    """
    return (
        bottom_board_side_rail_left_thickness - foam_side_left_thickness - skin_side_left_thickness
    )
