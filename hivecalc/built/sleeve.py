"""What the sleeve comes to when its pieces stand round the box, as they were cut.

Sizes that the plan has too carry the same names, and are the same for pieces cut exactly.
"""

from hivecalc.length import Length, Lengths


def outside_length(skin_side_length: Lengths, skin_end_thickness: Lengths) -> Length:
    """Outside length of the sleeve, front to back, where it is longer.

    The skin's ends cover the edges of its sides.
    """
    return max(*skin_side_length) + sum(skin_end_thickness)


def outside_width(
    box_width: Length, foam_side_thickness: Lengths, skin_side_thickness: Lengths
) -> Length:
    """Outside width of the sleeve, side to side.

    Foam and skin stand at both sides of the box.
    """
    return box_width + sum(foam_side_thickness) + sum(skin_side_thickness)


def clear_height(
    box_height: Length,
    edge_strip_side_lower_width: Lengths,
    edge_strip_end_lower_width: Lengths,
    edge_strip_side_upper_width: Lengths,
    edge_strip_end_upper_width: Lengths,
) -> Length:
    """Clear height between the edge strips, where the foam stands, at its lowest place."""
    return (
        box_height
        - max(*edge_strip_side_lower_width, *edge_strip_end_lower_width)
        - max(*edge_strip_side_upper_width, *edge_strip_end_upper_width)
    )


def bearing(
    bottom_board_side_rail_left_thickness: Length,
    foam_side_left_thickness: Length,
    skin_side_left_thickness: Length,
) -> Length:
    """How much of the box's foot bears on the bottom board's rails."""
    return (
        bottom_board_side_rail_left_thickness - foam_side_left_thickness - skin_side_left_thickness
    )
