"""Does the box leave bees their space, and does the hive agree with it: one function a rule."""

from fractions import Fraction
from typing import Final

from hivecalc.derivation import difference
from hivecalc.fit.rule import (
    BEE_SPACE,
    READINGS_AGREE,
    alike,
    at_least,
    at_most,
    bee_space,
    bees_need,
    blocks,
    harms,
    note,
    point_covered,
)
from hivecalc.length import Count, Length, Lengths
from hivecalc.part import COMMON, TradeSize

FRAME_LUG: Final = TradeSize(
    Fraction(11, 16),
    "Length of a frame's lug, from its side bar to the end of its top bar.",
    "frame 17 5/8 in long: USDA Farmers' Bulletin 447 (1911); top bar 19 in: common practice",
)


@harms(*bee_space("Cut the rest deeper.", "Glue a thin strip into the rest."))
def bee_space_above(space_above: Length) -> Length:
    """Space above the frames, up to the top of the box.

    Bees glue a narrower space shut with resin and fill a wider one with comb: then the cover tears
    comb apart when you lift it.
    """
    return space_above


@blocks(at_least(0, "Rip higher boards, or cut the rest less deep."))
def frames_inside(space_beneath: Length) -> Length:
    """Space between the frames and the bottom of the box.

    Frames that hang out below the box stand on what is under it, and bees are crushed there.
    """
    return space_beneath


@harms(
    bees_need("Cut the rest deeper."),
    at_most("3/8", "Choose less space below the frames, or a shallower rest.", widest="1/2"),
    only="stacked",
    source=f"{BEE_SPACE}; up to 1/2 in between boxes: {COMMON}",
)
def bee_space_between(space_between: Length) -> Length:
    """Space between the frames of two boxes that stand on one another.

    Bees glue a narrower space shut with resin and fill a wider one with comb: then the frames of
    the upper box lift those of the lower.
    """
    return space_between


@harms(
    *bee_space("Cut new sides, longer ones.", "Crosscut the sides."),
    source=f"{BEE_SPACE}; {FRAME_LUG.source}",
)
def bee_space_at_ends(frame_lug: Length, top_bar: Length, inside_length: Length) -> Length:
    """Space between a frame's side bar and the box at each end.

    Part of each lug lies on its rest; what is left of the lug is this space. Bees glue a narrower
    one shut and fill a wider one with comb, and the frame does not come out.
    """
    return frame_lug - (top_bar - inside_length) / 2


@harms(
    bees_need("Choose more frame play, or one frame less."),
    at_most("5/8", "Hang a thin board beside the last frame, or choose less frame play."),
    source=f"low: {BEE_SPACE}; high: {COMMON}",
)
def room_at_sides(inside_width: Length, frames: Count, frame_spacing: Length) -> Length:
    """Room between the last frame and the box at each side, with the frames in the middle.

    It is wider than a bee space so that the first frame can be lifted out; but in twice [5/8
    in|16 mm] bees have nearly room for one more comb, and build it on the wall.
    """
    return (inside_width - frames * frame_spacing) / 2


@harms(alike("Plane the higher boards down to the lowest."))
def box_level(side_width: Lengths, end_width: Lengths) -> Length:
    """How far the highest board of the box stands above the lowest.

    A box of boards of different height rocks, and bees and wind get through.
    """
    return difference(*side_width, *end_width)


@harms(alike("Crosscut the longer boards to the shorter, in pairs."))
def box_square(side_length: Lengths, end_length: Lengths) -> Length:
    """How much the boards of a pair differ in length, in the pair that differs more.

    With different boards the box is out of square, and no frame hangs straight in it.
    """
    return max(difference(*side_length), difference(*end_length))


@harms(at_least("3/4", "Take longer screws for the corners."))
def corner_screw_bite(
    deck_screw: Length, side_left_thickness: Length, joint_depth: Length
) -> Length:
    """How deep a screw bites into the end board's end, through the side board.

    End grain holds a screw badly, so much of it must be in there.
    """
    return deck_screw - (side_left_thickness - joint_depth)


@harms(*READINGS_AGREE, unless="sleeved")
def hive_against_box_along(hive_length: Length, box_length: Length) -> Length:
    """How much longer the hive was measured than its box is.

    Bottom board and roof are cut to the hive's length. Where two ways to it disagree, one of them
    is wrong, and the box does not sit on the board.
    """
    return hive_length - box_length


@harms(*READINGS_AGREE, unless="sleeved")
def hive_against_box_across(hive_width: Length, box_width: Length) -> Length:
    """How much wider the hive was measured than its box is.

    Bottom board and roof are cut to the hive's width. Where two ways to it disagree, one of them is
    wrong, and the box does not sit on the board.
    """
    return hive_width - box_width


@harms(point_covered("Take shorter screws for the edge strips."), only="sleeved")
def wood_past_edge_screw(
    sleeve_edge_strip_side_lower_left_thickness: Length,
    side_left_thickness: Length,
    edge_screw: Length,
) -> Length:
    """Wood left beyond the point of a screw through an edge strip into the box.

    A point that comes out inside the box tears hands, frames and bees.
    """
    return sleeve_edge_strip_side_lower_left_thickness + side_left_thickness - edge_screw


@note()
def lifting(box_height: Length) -> Length:
    """Height of one box, which decides what it weighs full of honey.

    A full box is heavier than it looks: lift it with two, near the body, or take the honey out
    frame by frame.
    """
    return box_height
