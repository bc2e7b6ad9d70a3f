"""The single-wall box, from the frame outwards: inside first, then the boards round it.

Figures in the examples are those of the ten-frame box of the Langstroth type, common practice, no
published source.
"""

from hivecalc.length import Length
from hivecalc.part import ENDS, SIDES, Part


def inside_length(top_bar: Length, rest_overlap: Length, rest_ease: Length) -> Length:
    """Length inside the box, front to back.

    The frame's top bar rests on a ledge at each end, so both ledges come off its length; a little
    ease lets the frame in and out.

    >>> inside_length(19, 0.375, 0.125)
    18.375
    """
    return top_bar - 2 * rest_overlap + rest_ease


def inside_width(frames: int, frame_spacing: Length, frame_play: Length) -> Length:
    """Width inside the box, side to side.

    Each frame takes its spacing; the play lets you lift the first one out without rolling bees.

    >>> inside_width(10, 1.375, 1)
    14.75
    """
    return frames * frame_spacing + frame_play


def box_length(inside_length: Length, board_thickness: Length) -> Length:
    """Outside length of the box, front to back.

    A board's thickness is added at each end.

    >>> box_length(18.375, 0.75)
    19.875
    """
    return inside_length + 2 * board_thickness


def box_width(inside_width: Length, board_thickness: Length) -> Length:
    """Outside width of the box, side to side.

    A board's thickness is added at each side.

    >>> box_width(14.75, 0.75)
    16.25
    """
    return inside_width + 2 * board_thickness


def space_above(rest_depth: Length, lug_thickness: Length) -> Length:
    """Space above the frames, up to the top of the box.

    The lug of the frame sits in the rest and leaves the rest of its depth free: it should be a bee
    space.

    >>> space_above(0.6875, 0.375)
    0.3125
    """
    return rest_depth - lug_thickness


def space_between(space_above: Length, space_below: Length) -> Length:
    """Space between the frames of two boxes that stand on one another.

    The space above the lower box's frames and the space below the upper one's come together there:
    it should be about a bee space.

    >>> space_between(0.3125, 0.125)
    0.4375
    """
    return space_above + space_below


def box_height(space_above: Length, frame_depth: Length, space_below: Length) -> Length:
    """Height of the box.

    The space above the frames, the frames, and the space below them.

    >>> box_height(0.3125, 9.125, 0.125)
    9.5625
    """
    return space_above + frame_depth + space_below


def end_length(box_width: Length, board_thickness: Length, joint_depth: Length) -> Length:
    """Length of one end of the box.

    It stands between the two sides, so both their thicknesses come off; then it reaches into each
    side by the depth of the rabbet.

    >>> end_length(16.25, 0.75, 0.375)
    15.5
    """
    return box_width - 2 * board_thickness + 2 * joint_depth


PARTS = (
    Part("side", SIDES, "board", "board_thickness", "box_height", "box_length",
        "Runs the whole length of the box; a rabbet at each end takes the end board."),
    Part("end", ENDS, "board", "board_thickness", "box_height", "end_length",
        "Carries the frames on a rest cut in its top inner edge."),
)  # fmt: skip
