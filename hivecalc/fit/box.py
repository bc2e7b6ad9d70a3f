"""Does the box leave bees their space, and does the hive agree with it: one function a rule.

Figures in the examples are common practice, no published source.
"""

from fractions import Fraction
from typing import Final

from hivecalc.components import TAPE_AGREES
from hivecalc.fit.figures import FRAME_LUG
from hivecalc.fit.limits import (
    AGREE,
    BEE_SPACE,
    BEE_SPACE_HIGH,
    BEE_SPACE_LOW,
    BEE_SPACE_SPREAD,
    POINT_COVER,
    POINT_COVER_LEAST,
)
from hivecalc.fit.rule import rule
from hivecalc.length import Count, Length
from hivecalc.stock import COMMON

FRAME_ENDS: Final = f"{BEE_SPACE}; {FRAME_LUG.source}"
BETWEEN_HIGH: Final = Fraction(1, 2)


@rule(
    "harms",
    low=BEE_SPACE_LOW,
    widest_low=BEE_SPACE_LOW - BEE_SPACE_SPREAD,
    high=BEE_SPACE_HIGH,
    widest_high=BEE_SPACE_HIGH + BEE_SPACE_SPREAD,
    source=BEE_SPACE,
    if_low="Cut the rest deeper.",
    if_high="Glue a thin strip into the rest.",
)
def bee_space_above(box_space_above: Length) -> Length:
    """Space above the frames, up to the top of the box.

    Bees glue a narrower space shut with resin and fill a wider one with comb: then the cover tears
    comb apart when you lift it.

    >>> bee_space_above(0.25)
    0.25
    """
    return box_space_above


@rule(
    "blocks",
    low=Fraction(0),
    if_low="Rip higher boards, or cut the rest less deep.",
)
def frames_inside(box_space_beneath: Length) -> Length:
    """Space between the frames and the bottom of the box.

    Frames that hang out below the box stand on what is under it, and bees are crushed there.

    >>> frames_inside(0.125)
    0.125
    """
    return box_space_beneath


@rule(
    "harms",
    low=BEE_SPACE_LOW,
    widest_low=BEE_SPACE_LOW - BEE_SPACE_SPREAD,
    high=BEE_SPACE_HIGH,
    widest_high=BETWEEN_HIGH,
    source=f"{BEE_SPACE}; up to 1/2 in between boxes: {COMMON}",
    only=("stacked",),
    if_low="Cut the rest deeper.",
    if_high="Choose less space below the frames, or a shallower rest.",
)
def bee_space_between(box_space_between: Length) -> Length:
    """Space between the frames of two boxes that stand on one another.

    Bees glue a narrower space shut with resin and fill a wider one with comb: then the frames of
    the upper box lift those of the lower.

    >>> bee_space_between(0.4375)
    0.4375
    """
    return box_space_between


@rule(
    "harms",
    low=BEE_SPACE_LOW,
    widest_low=BEE_SPACE_LOW - BEE_SPACE_SPREAD,
    high=BEE_SPACE_HIGH,
    widest_high=BEE_SPACE_HIGH + BEE_SPACE_SPREAD,
    source=FRAME_ENDS,
    if_low="Cut new sides, longer ones.",
    if_high="Crosscut the sides.",
)
def bee_space_at_ends(frame_lug: Length, top_bar: Length, box_inside_length: Length) -> Length:
    """Space between a frame's side bar and the box at each end.

    Part of each lug lies on its rest; what is left of the lug is this space. Bees glue a narrower
    one shut and fill a wider one with comb, and the frame does not come out.

    >>> bee_space_at_ends(0.6875, 19, 18.375)
    0.375
    """
    return frame_lug - (top_bar - box_inside_length) / 2


@rule(
    "harms",
    low=BEE_SPACE_LOW,
    widest_low=BEE_SPACE_LOW - BEE_SPACE_SPREAD,
    high=Fraction(5, 8),
    source=f"low: {BEE_SPACE}; high: {COMMON}",
    if_low="Choose more frame play, or one frame less.",
    if_high="Hang a thin board beside the last frame, or choose less frame play.",
)
def room_at_sides(box_inside_width: Length, frames: Count, frame_spacing: Length) -> Length:
    """Room between the last frame and the box at each side, with the frames in the middle.

    It is wider than a bee space so that the first frame can be lifted out; but in twice 5/8 in bees
    have nearly room for one more comb, and build it on the wall.

    >>> room_at_sides(14.75, 10, 1.375)
    0.5
    """
    return (box_inside_width - frames * frame_spacing) / 2


@rule(
    "harms",
    high=Fraction(1, 16),
    widest_high=AGREE,
    if_high="Plane the higher boards down to the lowest.",
)
def box_level(
    box_side_left_width: Length,
    box_side_right_width: Length,
    box_end_front_width: Length,
    box_end_back_width: Length,
) -> Length:
    """How far the highest board of the box stands above the lowest.

    A box of boards of different height rocks, and bees and wind get through.

    >>> box_level(9.5625, 9.5625, 9.5625, 9.5625)
    0.0
    """
    return max(
        box_side_left_width, box_side_right_width, box_end_front_width, box_end_back_width
    ) - min(box_side_left_width, box_side_right_width, box_end_front_width, box_end_back_width)


@rule(
    "harms",
    high=Fraction(1, 16),
    widest_high=AGREE,
    if_high="Crosscut the longer boards to the shorter, in pairs.",
)
def box_square(
    box_side_left_length: Length,
    box_side_right_length: Length,
    box_end_front_length: Length,
    box_end_back_length: Length,
) -> Length:
    """How much the boards of a pair differ in length, in the pair that differs more.

    With different boards the box is out of square, and no frame hangs straight in it.

    >>> box_square(19.875, 19.875, 15.5, 15.5)
    0.0
    """
    return max(
        max(box_side_left_length, box_side_right_length)
        - min(box_side_left_length, box_side_right_length),
        max(box_end_front_length, box_end_back_length)
        - min(box_end_front_length, box_end_back_length),
    )


@rule("harms", low=Fraction(3, 4), if_low="Take longer screws for the corners.")
def corner_screw_bite(
    deck_screw: Length, box_side_left_thickness: Length, joint_depth: Length
) -> Length:
    """How deep a screw bites into the end board's end, through the side board.

    End grain holds a screw badly, so much of it must be in there.

    >>> corner_screw_bite(1.625, 0.75, 0.375)
    1.25
    """
    return deck_screw - (box_side_left_thickness - joint_depth)


@rule(
    "harms",
    low=-TAPE_AGREES,
    high=TAPE_AGREES,
    unless=("sleeved",),
    if_low="Measure hive and box again; one of the two readings is wrong.",
    if_high="Measure hive and box again; one of the two readings is wrong.",
)
def hive_against_box_along(hive_length: Length, box_length: Length) -> Length:
    """How much longer the hive was measured than its box is.

    Bottom board and roof are cut to the hive's length. Where two ways to it disagree, one of them
    is wrong, and the box does not sit on the board.

    >>> hive_against_box_along(20, 19.875)
    0.125
    """
    return hive_length - box_length


@rule(
    "harms",
    low=-TAPE_AGREES,
    high=TAPE_AGREES,
    unless=("sleeved",),
    if_low="Measure hive and box again; one of the two readings is wrong.",
    if_high="Measure hive and box again; one of the two readings is wrong.",
)
def hive_against_box_across(hive_width: Length, box_width: Length) -> Length:
    """How much wider the hive was measured than its box is.

    Bottom board and roof are cut to the hive's width. Where two ways to it disagree, one of them is
    wrong, and the box does not sit on the board.

    >>> hive_against_box_across(16.25, 16.25)
    0.0
    """
    return hive_width - box_width


@rule(
    "harms",
    low=POINT_COVER,
    widest_low=POINT_COVER_LEAST,
    only=("sleeved",),
    if_low="Take shorter screws for the edge strips.",
)
def wood_past_edge_screw(
    sleeve_edge_strip_side_lower_left_thickness: Length,
    box_side_left_thickness: Length,
    edge_screw: Length,
) -> Length:
    """Wood left beyond the point of a screw through an edge strip into the box.

    A point that comes out inside the box tears hands, frames and bees.

    >>> wood_past_edge_screw(1, 0.75, 1.375)
    0.375
    """
    return sleeve_edge_strip_side_lower_left_thickness + box_side_left_thickness - edge_screw


@rule("note")
def lifting(box_height: Length) -> Length:
    """Height of one box, which decides what it weighs full of honey.

    A full box is heavier than it looks: lift it with two, near the body, or take the honey out
    frame by frame.

    >>> lifting(9.5625)
    9.5625
    """
    return box_height
