"""What the roof comes to when its pieces are put together, as they were cut.

Sizes that the plan has too carry the same names, and are the same for pieces cut exactly. Figures
in the examples are common practice, no published source.
"""

from hivecalc.length import Count, Length, Ratio


def rim_length(rim_side_left_length: Length, rim_side_right_length: Length) -> Length:
    """Overall length of the rim, front to back, where it is longer.

    >>> rim_length(23, 23)
    23
    """
    return max(rim_side_left_length, rim_side_right_length)


def rim_width(
    rim_front_length: Length,
    rim_back_length: Length,
    rim_side_left_thickness: Length,
    rim_side_right_thickness: Length,
) -> Length:
    """Overall width of the rim, side to side, where it is wider.

    >>> rim_width(13.5, 13.5, 1.5, 1.5)
    16.5
    """
    return (
        max(rim_front_length, rim_back_length) + rim_side_left_thickness + rim_side_right_thickness
    )


def rim_opening_length(
    rim_side_left_length: Length,
    rim_side_right_length: Length,
    rim_front_thickness: Length,
    roof_rim_back_thickness: Length,
) -> Length:
    """Length inside the rim, front to back, where it is shorter.

    >>> rim_opening_length(23, 23, 1.5, 1)
    20.5
    """
    return (
        min(rim_side_left_length, rim_side_right_length)
        - rim_front_thickness
        - roof_rim_back_thickness
    )


def rim_opening_width(rim_front_length: Length, rim_back_length: Length) -> Length:
    """Width inside the rim, side to side, where it is narrower.

    >>> rim_opening_width(13.5, 13.5)
    13.5
    """
    return min(rim_front_length, rim_back_length)


def clear_length(
    skirt_side_left_length: Length,
    skirt_side_right_length: Length,
    skirt_end_front_thickness: Length,
    skirt_end_back_thickness: Length,
    rim_length: Length,
) -> Length:
    """Length inside the skirt, front to back, where the box has to go in.

    The ends of the skirt stand against the rim. Skirt sides that are short pull them in; long ones
    do not push them out.

    >>> clear_length(24, 24, 0.5, 0.5, 23)
    23.0
    """
    return min(
        min(skirt_side_left_length, skirt_side_right_length)
        - skirt_end_front_thickness
        - skirt_end_back_thickness,
        rim_length,
    )


def clear_width(
    skirt_end_front_length: Length, skirt_end_back_length: Length, rim_width: Length
) -> Length:
    """Width inside the skirt, side to side, where the box has to go in.

    The sides of the skirt stand against the rim and the ends of the skirt; short ends pull them in.

    >>> clear_width(16.5, 16.5, 16.5)
    16.5
    """
    return min(skirt_end_front_length, skirt_end_back_length, rim_width)


def slope(
    rim_side_left_width: Length,
    rim_side_right_width: Length,
    rim_low_height: Length,
    rim_length: Length,
) -> Ratio:
    """Fall of the roof for each inch of its length.

    >>> slope(3.5, 3.5, 1.5, 32)
    0.0625
    """
    return (max(rim_side_left_width, rim_side_right_width) - rim_low_height) / rim_length


def lap(
    skirt_end_front_width: Length,
    skirt_end_back_width: Length,
    skirt_side_left_width: Length,
    skirt_side_right_width: Length,
    rim_low_height: Length,
    inner_cover: Count,
    inner_cover_overall_height: Length,
) -> Length:
    """How far the skirt reaches down over the box, where it reaches least.

    >>> lap(3.375, 3.375, 3.375, 3.375, 1.5, 1, 0.875)
    1.0
    """
    return (
        min(
            skirt_end_front_width,
            skirt_end_back_width,
            skirt_side_left_width,
            skirt_side_right_width,
        )
        - rim_low_height
        - inner_cover_overall_height
        if inner_cover
        else min(
            skirt_end_front_width,
            skirt_end_back_width,
            skirt_side_left_width,
            skirt_side_right_width,
        )
        - rim_low_height
    )


def deck_overhang_along(deck_length: Length, rim_length: Length) -> Length:
    """How far the deck stands out beyond the rim, front and back alike.

    >>> deck_overhang_along(26.5, 23)
    1.75
    """
    return (deck_length - rim_length) / 2


def deck_overhang_across(deck_width: Length, rim_width: Length) -> Length:
    """How far the deck stands out beyond the rim, left and right alike.

    >>> deck_overhang_across(20, 16.5)
    1.75
    """
    return (deck_width - rim_width) / 2


def cover_lip_along(cover_length: Length, deck_length: Length) -> Length:
    """How far the cover stands out beyond the deck, front and back alike.

    >>> cover_lip_along(27.5, 26.5)
    0.5
    """
    return (cover_length - deck_length) / 2


def cover_lip_across(cover_width: Length, deck_width: Length) -> Length:
    """How far the cover stands out beyond the deck, left and right alike.

    >>> cover_lip_across(21, 20)
    0.5
    """
    return (cover_width - deck_width) / 2
