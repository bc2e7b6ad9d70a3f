"""What the bottom board comes to when its pieces are put together, as they were cut.

Sizes that the plan has too carry the same names, and are the same for pieces cut exactly. Figures
in the examples are common practice, no published source.
"""

from hivecalc.length import Length


def opening_length(
    side_rail_left_length: Length, side_rail_right_length: Length, front_rail_thickness: Length
) -> Length:
    """Length of the opening inside the frame, front to back, where it is shorter.

    The back is bolted tight against the ends of the side rails, so the opening ends where the
    shorter side rail ends. Only the front rail takes its thickness off.

    >>> opening_length(21.25, 21.25, 1.5)
    19.75
    """
    return min(side_rail_left_length, side_rail_right_length) - front_rail_thickness


def opening_width(front_rail_length: Length) -> Length:
    """Width of the opening inside the frame, side to side.

    The front rail stands between the sides, so the opening is as wide as the front rail is long.

    >>> opening_width(13.25)
    13.25
    """
    return front_rail_length


def frame_length(
    side_rail_left_length: Length, side_rail_right_length: Length, back_rail_thickness: Length
) -> Length:
    """Length of the whole frame, front to back, where it is longer.

    The back rail covers the ends of the side rails.

    >>> frame_length(21.25, 21.25, 1.5)
    22.75
    """
    return max(side_rail_left_length, side_rail_right_length) + back_rail_thickness


def frame_width(
    front_rail_length: Length, side_rail_left_thickness: Length, side_rail_right_thickness: Length
) -> Length:
    """Width of the whole frame, side to side.

    The side rails stand against the ends of the front rail.

    >>> frame_width(13.25, 1.5, 1.5)
    16.25
    """
    return front_rail_length + side_rail_left_thickness + side_rail_right_thickness


def rail_top(
    side_rail_left_width: Length, side_rail_right_width: Length, back_rail_width: Length
) -> Length:
    """Height of the rails that the box stands on, where they are lowest.

    >>> rail_top(3.5, 3.5, 3.5)
    3.5
    """
    return min(side_rail_left_width, side_rail_right_width, back_rail_width)


def lower_runner_height(
    lower_side_runner_left_width: Length,
    lower_side_runner_right_width: Length,
    lower_front_runner_width: Length,
) -> Length:
    """Height of the lower runners as they stand in the frame, the highest of them.

    >>> lower_runner_height(0.75, 0.75, 0.75)
    0.75
    """
    return max(
        lower_side_runner_left_width, lower_side_runner_right_width, lower_front_runner_width
    )


def upper_runner_height(
    upper_side_runner_left_thickness: Length,
    upper_side_runner_right_thickness: Length,
    upper_front_runner_thickness: Length,
) -> Length:
    """Height of the upper runners as they lie in the frame, the highest of them.

    >>> upper_runner_height(0.5, 0.5, 0.5)
    0.5
    """
    return max(
        upper_side_runner_left_thickness,
        upper_side_runner_right_thickness,
        upper_front_runner_thickness,
    )


def screen_underside(
    lower_runner_height: Length, slot_height: Length, upper_runner_height: Length
) -> Length:
    """Height of the screen's underside above the bottom of the frame.

    The screen lies on the upper runners.

    >>> screen_underside(0.75, 1.125, 0.5)
    2.375
    """
    return lower_runner_height + slot_height + upper_runner_height


def mesh_top(
    screen_underside: Length,
    screen_side_strip_lower_left_thickness: Length,
    screen_side_strip_lower_right_thickness: Length,
    screen_end_strip_lower_front_thickness: Length,
    screen_end_strip_lower_back_thickness: Length,
    mesh_thickness: Length,
) -> Length:
    """Height of the mesh's upper face above the bottom of the frame.

    >>> mesh_top(2.375, 0.5, 0.5, 0.5, 0.5, 0.0625)
    2.9375
    """
    return (
        screen_underside
        + max(
            screen_side_strip_lower_left_thickness,
            screen_side_strip_lower_right_thickness,
            screen_end_strip_lower_front_thickness,
            screen_end_strip_lower_back_thickness,
        )
        + mesh_thickness
    )


def stack_height(
    mesh_top: Length,
    screen_side_strip_upper_left_thickness: Length,
    screen_side_strip_upper_right_thickness: Length,
    screen_end_strip_upper_back_thickness: Length,
) -> Length:
    """Height of everything stacked in the frame: runners, slot and screen.

    >>> stack_height(2.9375, 0.5, 0.5, 0.5)
    3.4375
    """
    return mesh_top + max(
        screen_side_strip_upper_left_thickness,
        screen_side_strip_upper_right_thickness,
        screen_end_strip_upper_back_thickness,
    )


def headroom(rail_top: Length, stack_height: Length) -> Length:
    """Room left above the stack, below the top of the rails.

    >>> headroom(3.5, 3.4375)
    0.0625
    """
    return rail_top - stack_height


def front_stop_top(mesh_top: Length, screen_front_stop_thickness: Length) -> Length:
    """Height of the front stop's top above the bottom of the frame.

    >>> front_stop_top(2.9375, 0.25)
    3.1875
    """
    return mesh_top + screen_front_stop_thickness


def way_in(rail_top: Length, front_rail_width: Length, front_stop_top: Length) -> Length:
    """Height of the way in for the bees, at its lowest place.

    The box stands on the rails; front rail and front stop stand in the way.

    >>> way_in(3.5, 2.75, 3.1875)
    0.3125
    """
    return rail_top - max(front_rail_width, front_stop_top)


def screen_length(
    screen_side_strip_lower_left_length: Length,
    screen_side_strip_lower_right_length: Length,
    screen_side_strip_upper_left_length: Length,
    screen_side_strip_upper_right_length: Length,
) -> Length:
    """Length of the screen, front to back, where it is longest.

    >>> screen_length(19.625, 19.625, 19.625, 19.625)
    19.625
    """
    return max(
        screen_side_strip_lower_left_length,
        screen_side_strip_lower_right_length,
        screen_side_strip_upper_left_length,
        screen_side_strip_upper_right_length,
    )


def screen_width(
    screen_end_strip_lower_front_length: Length,
    screen_end_strip_lower_back_length: Length,
    screen_end_strip_upper_back_length: Length,
    screen_front_stop_length: Length,
    screen_side_strip_lower_left_width: Length,
    screen_side_strip_lower_right_width: Length,
) -> Length:
    """Width of the screen, side to side, where it is widest.

    The end strips and the front stop lie between the side strips, which they push apart.

    >>> screen_width(11.625, 11.625, 11.625, 11.625, 0.75, 0.75)
    13.125
    """
    return (
        max(
            screen_end_strip_lower_front_length,
            screen_end_strip_lower_back_length,
            screen_end_strip_upper_back_length,
            screen_front_stop_length,
        )
        + screen_side_strip_lower_left_width
        + screen_side_strip_lower_right_width
    )
