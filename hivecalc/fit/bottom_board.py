"""Will the bottom board go together, and can bees use it: one function a rule.

Figures in the examples are common practice, no published source.
"""

from fractions import Fraction

from hivecalc.fit.limits import BEE_SPACE, BEE_SPACE_HIGH, BEE_SPACE_LOW, POINT_COVER
from hivecalc.fit.rule import rule
from hivecalc.length import Length


@rule("blocks", low=Fraction(0))
def room_above_stack(bottom_board_headroom: Length) -> Length:
    """Room above the runners, the panel's slot and the screen, up to the top of the rails.

    Less than nothing means that the screen stands proud: the box rocks on it, and bees and wind get
    in under the box.

    >>> room_above_stack(0.0625)
    0.0625
    """
    return bottom_board_headroom


@rule("harms", low=BEE_SPACE_LOW, high=BEE_SPACE_HIGH, source=BEE_SPACE)
def bee_way_in(bottom_board_way_in: Length) -> Length:
    """Height of the way in for the bees, at its lowest place.

    A lower way makes a crowd at the door and bees close it with resin; through a higher one mice
    and robber bees get in.

    >>> bee_way_in(0.3125)
    0.3125
    """
    return bottom_board_way_in


@rule("blocks", low=Fraction(3, 16))
def way_over_stop(stud_width: Length, bottom_board_front_stop_top: Length) -> Length:
    """Height left open above the screen's front stop.

    All bees walk in over the stop. A strip as high as the others in its place shuts them in.

    >>> way_over_stop(3.5, 3.125)
    0.375
    """
    return stud_width - bottom_board_front_stop_top


@rule("blocks", low=Fraction(1, 8))
def panel_play_along(
    bottom_board_opening_length: Length, bottom_board_panel_length: Length
) -> Length:
    """How much shorter the foam panel is than its opening, front to back.

    Wood swells in wet weather: a panel without play sticks, or the back rail does not close behind
    it.

    >>> panel_play_along(19.75, 19.5)
    0.25
    """
    return bottom_board_opening_length - bottom_board_panel_length


@rule("blocks", low=Fraction(1, 8))
def panel_play_across(
    bottom_board_opening_width: Length, bottom_board_panel_width: Length
) -> Length:
    """How much narrower the foam panel is than its opening, side to side.

    Wood swells in wet weather: a panel without play sticks between the rails and breaks when you
    pull.

    >>> panel_play_across(13.25, 13)
    0.25
    """
    return bottom_board_opening_width - bottom_board_panel_width


@rule("harms", high=Fraction(1, 2))
def widest_gap_at_panel(
    bottom_board_panel_play_along: Length, bottom_board_panel_play_across: Length
) -> Length:
    """The wider of the two gaps beside the foam panel.

    Cold air comes up through a wide gap, and then the panel keeps little warmth in.

    >>> widest_gap_at_panel(0.25, 0.375)
    0.375
    """
    return max(bottom_board_panel_play_along, bottom_board_panel_play_across)


@rule("blocks", low=Fraction(1, 16))
def screen_play_along(
    bottom_board_opening_length: Length, bottom_board_screen_length: Length
) -> Length:
    """How much shorter the screen is than its opening, front to back.

    A screen without play does not let the back rail close, or sticks when the wood swells.

    >>> screen_play_along(19.75, 19.625)
    0.125
    """
    return bottom_board_opening_length - bottom_board_screen_length


@rule("blocks", low=Fraction(1, 16))
def screen_play_across(
    bottom_board_opening_width: Length, bottom_board_screen_width: Length
) -> Length:
    """How much narrower the screen is than its opening, side to side.

    A screen without play sticks between the rails when the wood swells, and cannot be cleaned.

    >>> screen_play_across(13.25, 13.125)
    0.125
    """
    return bottom_board_opening_width - bottom_board_screen_width


@rule("harms", high=Fraction(5, 32))
def widest_gap_at_screen(
    bottom_board_screen_play_along: Length, bottom_board_screen_play_across: Length
) -> Length:
    """The wider of the two gaps beside the screen, when it is pushed to one side.

    A bee squeezes through little more than 5/32 in, gets under the screen and cannot find the way
    back.

    >>> widest_gap_at_screen(0.125, 0.0625)
    0.125
    """
    return max(bottom_board_screen_play_along, bottom_board_screen_play_across)


@rule("blocks", low=Fraction(1, 16))
def lower_runners_apart(
    bottom_board_opening_width: Length,
    strip_narrow: Length,
    bottom_board_lower_front_runner_length: Length,
) -> Length:
    """Room for the lower front runner between the lower side runners, both ends together.

    The side runners stand on edge and take the strip's narrow side each. A front runner that is too
    long meets them at the corners and does not lie down.

    >>> lower_runners_apart(13.25, 0.5, 11.75)
    0.5
    """
    return bottom_board_opening_width - 2 * strip_narrow - bottom_board_lower_front_runner_length


@rule("blocks", low=Fraction(1, 16))
def upper_runners_apart(
    bottom_board_opening_width: Length,
    strip_wide: Length,
    bottom_board_upper_front_runner_length: Length,
) -> Length:
    """Room for the upper front runner between the upper side runners, both ends together.

    The side runners lie flat and take the strip's wide side each. A front runner as long as the
    lower one is too long here and does not lie down.

    >>> upper_runners_apart(13.25, 0.75, 11.25)
    0.5
    """
    return bottom_board_opening_width - 2 * strip_wide - bottom_board_upper_front_runner_length


@rule("harms", low=Fraction(0))
def upper_runner_lies_flat(
    strip_narrow: Length, strip_wide: Length, bottom_board_upper_runner_height: Length
) -> Length:
    """How far an upper runner stays below the height half-way between the strip's two sides.

    The upper runners lie flat, narrow side up. Turned on edge they lift the screen, and it stands
    proud of the frame or closes the way in.

    >>> upper_runner_lies_flat(0.5, 0.75, 0.5)
    0.125
    """
    return (strip_narrow + strip_wide) / 2 - bottom_board_upper_runner_height


@rule("harms", low=POINT_COVER)
def wood_past_long_brad(strip_narrow: Length, stud_thickness: Length, long_brad: Length) -> Length:
    """Wood left beyond the point of a brad through a runner on edge into its rail.

    A brad as long as the wood comes out on the other side, where hands carry the hive. A runner
    that lies flat leaves more wood than one on edge.

    >>> wood_past_long_brad(0.5, 1.5, 1.25)
    0.75
    """
    return strip_narrow + stud_thickness - long_brad


@rule("harms", low=POINT_COVER)
def wood_past_short_brad(strip_narrow: Length, short_brad: Length) -> Length:
    """Wood left beyond the point of a brad through two flat strips of the screen.

    Two flat strips are only twice the narrow side: the brad that you took for the runners comes out
    on the other side and scratches hands and frame.

    >>> wood_past_short_brad(0.5, 0.75)
    0.25
    """
    return 2 * strip_narrow - short_brad


@rule("harms", low=Fraction(3, 4))
def bolt_bite(hanger_bolt: Length, stud_thickness: Length, nut_room: Length) -> Length:
    """How deep the hanger bolt bites into the end of the side rail.

    The bolt passes the back rail, and washer and wing nut need thread. What is left must hold in
    end grain, the weakest way for a screw, each time you tighten the nut.

    >>> bolt_bite(3, 1.5, 0.5)
    1.0
    """
    return hanger_bolt - stud_thickness - nut_room


@rule("blocks", low=Fraction(1, 16), high=Fraction(1, 4))
def bolt_play(bolt_hole: Length, bolt_diameter: Length) -> Length:
    """How much wider the clearance hole in the back rail is than the bolt.

    In a tight hole the back rail does not come off over two bolts that are never quite straight; a
    hole much wider than the bolt lets the rail hang.

    >>> bolt_play(0.375, 0.25)
    0.125
    """
    return bolt_hole - bolt_diameter


@rule("harms", low=Fraction(3, 8))
def wood_beside_bolt_hole(stud_thickness: Length, bolt_hole: Length) -> Length:
    """Wood left in the back rail between the clearance hole and the rail's end.

    The bolt sits in the middle of the side rail, so the hole is half a stud from the back rail's
    end. With little wood left there the end splits off.

    >>> wood_beside_bolt_hole(1.5, 0.375)
    0.5625
    """
    return (stud_thickness - bolt_hole) / 2


@rule("blocks", low=Fraction(0))
def panel_out_of_board(
    bottom_board_panel_width: Length,
    bottom_board_panel_length: Length,
    foam_board_width: Length,
    foam_board_length: Length,
) -> Length:
    """What a foam board is bigger than the panel, in the tighter direction.

    A panel that is bigger than the biggest board, whichever way you turn it, cannot be cut in one
    piece.

    >>> panel_out_of_board(13, 19.5, 48, 96)
    35
    """
    return min(
        foam_board_width - min(bottom_board_panel_width, bottom_board_panel_length),
        foam_board_length - max(bottom_board_panel_width, bottom_board_panel_length),
    )
