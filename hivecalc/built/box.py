"""What the box comes to when its boards are put together, as they were cut.

Sizes that the plan has too carry the same names, and are the same for boards cut exactly. Figures
in the examples are those of the ten-frame box of the Langstroth type, common practice, no published
source.
"""

from hivecalc.length import Length


def inside_length(
    side_left_length: Length,
    side_right_length: Length,
    end_front_thickness: Length,
    end_back_thickness: Length,
) -> Length:
    """Length inside the box, front to back, where it is shorter.

    >>> inside_length(19.875, 19.875, 0.75, 0.75)
    18.375
    """
    return min(side_left_length, side_right_length) - end_front_thickness - end_back_thickness


def inside_width(end_front_length: Length, end_back_length: Length, joint_depth: Length) -> Length:
    """Width inside the box, side to side, where it is narrower.

    Each end reaches into both sides by the depth of the rabbet.

    >>> inside_width(15.5, 15.5, 0.375)
    14.75
    """
    return min(end_front_length, end_back_length) - 2 * joint_depth


def box_length(side_left_length: Length, side_right_length: Length) -> Length:
    """Outside length of the box, front to back, where it is longer.

    >>> box_length(19.875, 19.875)
    19.875
    """
    return max(side_left_length, side_right_length)


def box_width(
    end_front_length: Length,
    end_back_length: Length,
    joint_depth: Length,
    side_left_thickness: Length,
    side_right_thickness: Length,
) -> Length:
    """Outside width of the box, side to side, where it is wider.

    >>> box_width(15.5, 15.5, 0.375, 0.75, 0.75)
    16.25
    """
    return (
        max(end_front_length, end_back_length)
        - 2 * joint_depth
        + side_left_thickness
        + side_right_thickness
    )


def box_height(
    side_left_width: Length,
    side_right_width: Length,
    end_front_width: Length,
    end_back_width: Length,
) -> Length:
    """Height of the box, where it is highest.

    >>> box_height(9.5625, 9.5625, 9.5625, 9.5625)
    9.5625
    """
    return max(side_left_width, side_right_width, end_front_width, end_back_width)


def space_above(rest_depth: Length, lug_thickness: Length) -> Length:
    """Space above the frames, up to the top of the box.

    >>> space_above(0.6875, 0.375)
    0.3125
    """
    return rest_depth - lug_thickness


def space_beneath(
    side_left_width: Length,
    side_right_width: Length,
    end_front_width: Length,
    end_back_width: Length,
    space_above: Length,
    frame_depth: Length,
) -> Length:
    """Space between the frames and the bottom of the box, where it is lowest.

    >>> space_beneath(9.5625, 9.5625, 9.5625, 9.5625, 0.3125, 9.125)
    0.125
    """
    return (
        min(side_left_width, side_right_width, end_front_width, end_back_width)
        - space_above
        - frame_depth
    )


def space_between(space_above: Length, space_beneath: Length) -> Length:
    """Space between the frames of two boxes that stand on one another.

    >>> space_between(0.3125, 0.125)
    0.4375
    """
    return space_above + space_beneath
