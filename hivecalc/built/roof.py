"""What the roof comes to when its pieces are put together, as they were cut.

Sizes that the plan has too carry the same names, and are the same for pieces cut exactly.
"""

from hivecalc.length import Count, Length, Lengths, Ratio


def rim_length(rim_side_length: Lengths) -> Length:
    """Overall length of the rim, front to back, where it is longer."""
    return max(*rim_side_length)


def rim_width(
    rim_front_length: Length, rim_back_length: Length, rim_side_thickness: Lengths
) -> Length:
    """Overall width of the rim, side to side, where it is wider."""
    return max(rim_front_length, rim_back_length) + sum(rim_side_thickness)


def rim_opening_length(
    rim_side_length: Lengths, rim_front_thickness: Length, roof_rim_back_thickness: Length
) -> Length:
    """Length inside the rim, front to back, where it is shorter."""
    return min(*rim_side_length) - rim_front_thickness - roof_rim_back_thickness


def rim_opening_width(rim_front_length: Length, rim_back_length: Length) -> Length:
    """Width inside the rim, side to side, where it is narrower."""
    return min(rim_front_length, rim_back_length)


def clear_length(
    skirt_side_length: Lengths, skirt_end_thickness: Lengths, rim_length: Length
) -> Length:
    """Length inside the skirt, front to back, where the box has to go in.

    The ends of the skirt stand against the rim. Skirt sides that are short pull them in; long ones
    do not push them out.
    """
    return min(min(*skirt_side_length) - sum(skirt_end_thickness), rim_length)


def clear_width(skirt_end_length: Lengths, rim_width: Length) -> Length:
    """Width inside the skirt, side to side, where the box has to go in.

    The sides of the skirt stand against the rim and the ends of the skirt; short ends pull them in.
    """
    return min(*skirt_end_length, rim_width)


def slope(rim_side_width: Lengths, rim_low_height: Length, rim_length: Length) -> Ratio:
    """Fall of the roof for each inch of its length."""
    return (max(*rim_side_width) - rim_low_height) / rim_length


def lap(
    skirt_end_width: Lengths,
    skirt_side_width: Lengths,
    rim_low_height: Length,
    inner_cover: Count,
    inner_cover_overall_height: Length,
) -> Length:
    """How far the skirt reaches down over the box, where it reaches least."""
    return (
        min(*skirt_end_width, *skirt_side_width) - rim_low_height - inner_cover_overall_height
        if inner_cover
        else min(*skirt_end_width, *skirt_side_width) - rim_low_height
    )


def deck_overhang_along(deck_length: Length, rim_length: Length) -> Length:
    """How far the deck stands out beyond the rim, front and back alike."""
    return (deck_length - rim_length) / 2


def deck_overhang_across(deck_width: Length, rim_width: Length) -> Length:
    """How far the deck stands out beyond the rim, left and right alike."""
    return (deck_width - rim_width) / 2


def cover_lip_along(cover_length: Length, deck_length: Length) -> Length:
    """How far the cover stands out beyond the deck, front and back alike."""
    return (cover_length - deck_length) / 2


def cover_lip_across(cover_width: Length, deck_width: Length) -> Length:
    """How far the cover stands out beyond the deck, left and right alike."""
    return (cover_width - deck_width) / 2
