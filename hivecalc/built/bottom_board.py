"""What the bottom board comes to when its pieces are put together, as they were cut.

Sizes that the plan has too carry the same names, and are the same for pieces cut exactly.
"""

from hivecalc.length import Length, Lengths


def opening_length(side_rail_length: Lengths, front_rail_thickness: Length) -> Length:
    """Length of the opening inside the frame, front to back, where it is shorter.

    The back is bolted tight against the ends of the side rails, so the opening ends where the
    shorter side rail ends. Only the front rail takes its thickness off.
    """
    return min(*side_rail_length) - front_rail_thickness


def opening_width(front_rail_length: Length) -> Length:
    """Width of the opening inside the frame, side to side.

    The front rail stands between the sides, so the opening is as wide as the front rail is long.
    """
    return front_rail_length


def frame_length(side_rail_length: Lengths, back_rail_thickness: Length) -> Length:
    """Length of the whole frame, front to back, where it is longer.

    The back rail covers the ends of the side rails.
    """
    return max(*side_rail_length) + back_rail_thickness


def frame_width(front_rail_length: Length, side_rail_thickness: Lengths) -> Length:
    """Width of the whole frame, side to side.

    The side rails stand against the ends of the front rail.
    """
    return front_rail_length + sum(side_rail_thickness)


def rail_top(side_rail_width: Lengths, back_rail_width: Length) -> Length:
    """Height of the rails that the box stands on, where they are lowest."""
    return min(*side_rail_width, back_rail_width)


def lower_runner_height(
    lower_side_runner_width: Lengths, lower_front_runner_width: Length
) -> Length:
    """Height of the lower runners as they stand in the frame, the highest of them."""
    return max(*lower_side_runner_width, lower_front_runner_width)


def upper_runner_height(
    upper_side_runner_thickness: Lengths, upper_front_runner_thickness: Length
) -> Length:
    """Height of the upper runners as they lie in the frame, the highest of them."""
    return max(*upper_side_runner_thickness, upper_front_runner_thickness)


def screen_underside(
    lower_runner_height: Length, slot_height: Length, upper_runner_height: Length
) -> Length:
    """Height of the screen's underside above the bottom of the frame.

    The screen lies on the upper runners.
    """
    return lower_runner_height + slot_height + upper_runner_height


def mesh_top(
    screen_underside: Length,
    screen_side_strip_lower_thickness: Lengths,
    screen_end_strip_lower_thickness: Lengths,
    mesh_thickness: Length,
) -> Length:
    """Height of the mesh's upper face above the bottom of the frame."""
    return (
        screen_underside
        + max(*screen_side_strip_lower_thickness, *screen_end_strip_lower_thickness)
        + mesh_thickness
    )


def stack_height(
    mesh_top: Length,
    screen_side_strip_upper_thickness: Lengths,
    screen_end_strip_upper_back_thickness: Length,
) -> Length:
    """Height of everything stacked in the frame: runners, slot and screen."""
    return mesh_top + max(*screen_side_strip_upper_thickness, screen_end_strip_upper_back_thickness)


def headroom(rail_top: Length, stack_height: Length) -> Length:
    """Room left above the stack, below the top of the rails."""
    return rail_top - stack_height


def front_stop_top(mesh_top: Length, screen_front_stop_thickness: Length) -> Length:
    """Height of the front stop's top above the bottom of the frame."""
    return mesh_top + screen_front_stop_thickness


def way_in(rail_top: Length, front_rail_width: Length, front_stop_top: Length) -> Length:
    """Height of the way in for the bees, at its lowest place.

    The box stands on the rails; front rail and front stop stand in the way.
    """
    return rail_top - max(front_rail_width, front_stop_top)


def screen_length(screen_side_strip_length: Lengths) -> Length:
    """Length of the screen, front to back, where it is longest."""
    return max(*screen_side_strip_length)


def screen_width(
    screen_end_strip_length: Lengths,
    screen_front_stop_length: Length,
    screen_side_strip_lower_width: Lengths,
) -> Length:
    """Width of the screen, side to side, where it is widest.

    The end strips and the front stop lie between the side strips, which they push apart.
    """
    return max(*screen_end_strip_length, screen_front_stop_length) + sum(
        screen_side_strip_lower_width
    )
