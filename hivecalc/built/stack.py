"""What stands between bottom board and roof, from outside."""

from hivecalc.length import Count, Length


def outside_length(hive_length: Length, sleeved: Count, sleeve_outside_length: Length) -> Length:
    """Outside length of what stands on the bottom board, front to back."""
    return sleeve_outside_length if sleeved else hive_length


def wall_thickness(
    board_thickness: Length,
    sleeved: Count,
    sleeve_foam_end_front_thickness: Length,
    sleeve_skin_end_front_thickness: Length,
) -> Length:
    """Thickness of the wall in front, from outside to where the bees are."""
    return (
        board_thickness + sleeve_foam_end_front_thickness + sleeve_skin_end_front_thickness
        if sleeved
        else board_thickness
    )


def outside_width(hive_width: Length, sleeved: Count, sleeve_outside_width: Length) -> Length:
    """Outside width of what stands on the bottom board, side to side."""
    return sleeve_outside_width if sleeved else hive_width
