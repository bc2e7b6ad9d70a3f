"""Does the box leave bees their space, and does the hive agree with it: one function a rule.

Figures in the examples are common practice, no published source.
"""

from fractions import Fraction
from typing import Final

from hivecalc.components import TAPE_AGREES
from hivecalc.fit.fasteners import FRAME_LUG
from hivecalc.fit.limits import BEE_SPACE, BEE_SPACE_HIGH, BEE_SPACE_LOW
from hivecalc.fit.rule import rule
from hivecalc.length import Count, Length
from hivecalc.stock import COMMON

FRAME_ENDS: Final = f"{BEE_SPACE}; {FRAME_LUG.source}"


@rule("harms", low=BEE_SPACE_LOW, high=BEE_SPACE_HIGH, source=BEE_SPACE)
def bee_space_above(box_space_above: Length) -> Length:
    """Space above the frames, up to the top of the box.

    Bees glue a narrower space shut with resin and fill a wider one with comb: then the cover tears
    comb apart when you lift it.

    >>> bee_space_above(0.25)
    0.25
    """
    return box_space_above


@rule("harms", low=BEE_SPACE_LOW, high=BEE_SPACE_HIGH, source=BEE_SPACE)
def bee_space_below(space_below: Length) -> Length:
    """Space below the frames, down to the bottom of the box.

    Bees glue a narrower space shut with resin and fill a wider one with comb: then frames stick to
    what is below them.

    >>> bee_space_below(0.25)
    0.25
    """
    return space_below


@rule("harms", low=BEE_SPACE_LOW, high=BEE_SPACE_HIGH, source=FRAME_ENDS)
def bee_space_at_ends(frame_lug: Length, top_bar: Length, box_inside_length: Length) -> Length:
    """Space between a frame's side bar and the box at each end.

    A lug reaches past the side bar and partly lies on its rest: the rest of it is the space. Bees
    glue a narrower one shut and fill a wider one with comb, and the frame does not come out.

    >>> bee_space_at_ends(0.6875, 19, 18.375)
    0.375
    """
    return frame_lug - (top_bar - box_inside_length) / 2


@rule(
    "harms",
    low=BEE_SPACE_LOW,
    high=Fraction(5, 8),
    source=f"low: {BEE_SPACE}; high: {COMMON}",
)
def room_at_sides(box_inside_width: Length, frames: Count, frame_spacing: Length) -> Length:
    """Room between the last frame and the box at each side, with the frames in the middle.

    It is wider than a bee space so that the first frame can be lifted out; but in twice 5/8 in bees
    have nearly room for one more comb, and build it on the wall.

    >>> room_at_sides(14.75, 10, 1.375)
    0.5
    """
    return (box_inside_width - frames * frame_spacing) / 2


@rule("harms", low=-TAPE_AGREES, high=TAPE_AGREES, unless="sleeve")
def hive_against_box_along(hive_length: Length, box_length: Length) -> Length:
    """How much longer the hive was measured than its box is.

    Bottom board and roof are cut to the hive's length. Where two ways to it disagree, one of them
    is wrong, and the box does not sit on the board.

    >>> hive_against_box_along(20, 19.875)
    0.125
    """
    return hive_length - box_length


@rule("harms", low=-TAPE_AGREES, high=TAPE_AGREES, unless="sleeve")
def hive_against_box_across(hive_width: Length, box_width: Length) -> Length:
    """How much wider the hive was measured than its box is.

    Bottom board and roof are cut to the hive's width. Where two ways to it disagree, one of them is
    wrong, and the box does not sit on the board.

    >>> hive_against_box_across(16.25, 16.25)
    0.0
    """
    return hive_width - box_width
