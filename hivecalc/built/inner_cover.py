"""What the inner cover comes to when its pieces are put together, as they were cut.

Sizes that the plan has too carry the same names, and are the same for pieces cut exactly.
"""

from hivecalc.length import Count, Length, Lengths


def overall_length(rim_side_length: Lengths) -> Length:
    """Length of the rim between the sheets, front to back, where it is longer."""
    return max(*rim_side_length)


def overall_width(
    inner_notch: Count, rim_back_length: Length, rim_front_length: Length, rim_side_width: Lengths
) -> Length:
    """Width of the rim between the sheets, side to side, where it is wider.

    Only a front of one piece pushes the sides apart; two pieces leave the notch between them.
    """
    return (
        rim_back_length + sum(rim_side_width)
        if inner_notch
        else max(rim_back_length, rim_front_length) + sum(rim_side_width)
    )


def notch_length(rim_back_length: Length, rim_front_length: Lengths) -> Length:
    """Length of the notch that the two pieces of the front leave open."""
    return rim_back_length - sum(rim_front_length)


def overall_height(
    rim_side_thickness: Lengths,
    inner_cover_rim_back_thickness: Length,
    rim_front_thickness: Length,
    rim_front_left_thickness: Length,
    rim_front_right_thickness: Length,
    sheet_thickness: Lengths,
) -> Length:
    """Height of the whole inner cover, where it is highest.

    The front of the rim is one piece or two; what is not there counts nothing.
    """
    return max(
        *rim_side_thickness,
        inner_cover_rim_back_thickness,
        rim_front_thickness,
        rim_front_left_thickness,
        rim_front_right_thickness,
    ) + sum(sheet_thickness)
