"""What the box comes to when its boards are put together, as they were cut.

Sizes that the plan has too carry the same names, and are the same for boards cut exactly.
"""

from hivecalc.length import Length, Lengths


def inside_length(side_length: Lengths, end_thickness: Lengths) -> Length:
    """Length inside the box, front to back, where it is shorter."""
    return min(*side_length) - sum(end_thickness)


def inside_width(end_length: Lengths, joint_depth: Length) -> Length:
    """Width inside the box, side to side, where it is narrower.

    Each end reaches into both sides by the depth of the rabbet.
    """
    return min(*end_length) - 2 * joint_depth


def box_length(side_length: Lengths) -> Length:
    """Outside length of the box, front to back, where it is longer."""
    return max(*side_length)


def box_width(end_length: Lengths, joint_depth: Length, side_thickness: Lengths) -> Length:
    """Outside width of the box, side to side, where it is wider."""
    return max(*end_length) - 2 * joint_depth + sum(side_thickness)


def box_height(side_width: Lengths, end_width: Lengths) -> Length:
    """Height of the box, where it is highest."""
    return max(*side_width, *end_width)


def space_above(rest_depth: Length, lug_thickness: Length) -> Length:
    """Space above the frames, up to the top of the box."""
    return rest_depth - lug_thickness


def space_beneath(
    side_width: Lengths, end_width: Lengths, space_above: Length, frame_depth: Length
) -> Length:
    """Space between the frames and the bottom of the box, where it is lowest."""
    return min(*side_width, *end_width) - space_above - frame_depth


def space_between(space_above: Length, space_beneath: Length) -> Length:
    """Space between the frames of two boxes that stand on one another."""
    return space_above + space_beneath
