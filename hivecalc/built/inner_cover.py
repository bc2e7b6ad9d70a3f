"""What the inner cover comes to when its pieces are put together, as they were cut.

Sizes that the plan has too carry the same names, and are the same for pieces cut exactly. Figures
in the examples are common practice, no published source.
"""

from hivecalc.length import Count, Length


def overall_length(rim_side_left_length: Length, rim_side_right_length: Length) -> Length:
    """Length of the rim between the sheets, front to back, where it is longer.

    >>> overall_length(22.75, 22.75)
    22.75
    """
    return max(rim_side_left_length, rim_side_right_length)


def overall_width(
    inner_notch: Count,
    rim_back_length: Length,
    rim_front_length: Length,
    rim_side_left_width: Length,
    rim_side_right_width: Length,
) -> Length:
    """Width of the rim between the sheets, side to side, where it is wider.

    Only a front of one piece pushes the sides apart; two pieces leave the notch between them.

    >>> overall_width(2, 13.25, 0, 1.5, 1.5)
    16.25
    """
    return (
        rim_back_length + rim_side_left_width + rim_side_right_width
        if inner_notch
        else max(rim_back_length, rim_front_length) + rim_side_left_width + rim_side_right_width
    )


def notch_length(
    rim_back_length: Length, rim_front_left_length: Length, rim_front_right_length: Length
) -> Length:
    """Length of the notch that the two pieces of the front leave open.

    >>> notch_length(13.25, 5.625, 5.625)
    2.0
    """
    return rim_back_length - rim_front_left_length - rim_front_right_length


def overall_height(
    rim_side_left_thickness: Length,
    rim_side_right_thickness: Length,
    inner_cover_rim_back_thickness: Length,
    rim_front_thickness: Length,
    rim_front_left_thickness: Length,
    rim_front_right_thickness: Length,
    sheet_lower_thickness: Length,
    sheet_upper_thickness: Length,
) -> Length:
    """Height of the whole inner cover, where it is highest.

    The front of the rim is one piece or two; what is not there counts nothing.

    >>> overall_height(0.375, 0.375, 0.375, 0, 0.375, 0.375, 0.25, 0.25)
    0.875
    """
    return (
        max(
            rim_side_left_thickness,
            rim_side_right_thickness,
            inner_cover_rim_back_thickness,
            rim_front_thickness,
            rim_front_left_thickness,
            rim_front_right_thickness,
        )
        + sheet_lower_thickness
        + sheet_upper_thickness
    )
