"""Parts that nobody has worked out: each ends a lesson, to be worked out alone. No hive has them.

Invented for the course; figures in the examples are common practice, no published source.
"""

from hivecalc.derivation import rounds
from hivecalc.length import Length, Rounding

SLIDES = "It must slide: a hair too small is harmless, a hair too big sticks."


def middle_rail_length(hive_length: Length, stud_thickness: Length) -> Length:
    """Length of a rail down the middle of the frame, from the front rail to the back rail.

    The front rail stands at one end of it and the back rail at the other, so both their thicknesses
    come off the hive's length.

    >>> middle_rail_length(22.75, 1.5)
    19.75
    """
    return hive_length - 2 * stud_thickness


@rounds(Rounding.DOWN, SLIDES)
def pan_end_length(
    bottom_board_opening_width: Length, panel_gap: Length, strip_narrow: Length
) -> Length:
    """Length of one end of a dirt pan that slides in the panel's place.

    The pan has the panel's gap, once, in all. Its ends stand between two sides on edge, which take
    the strip's narrow side each.

    >>> pan_end_length(13.25, 0.25, 0.5)
    12.0
    """
    return bottom_board_opening_width - panel_gap - 2 * strip_narrow


def middle_strip_length(bottom_board_screen_length: Length, strip_wide: Length) -> Length:
    """Length of a strip down the middle of the screen, from its front strip to its back strip.

    The strips at both ends lie flat, so each takes the strip's wide side off the screen's length.

    >>> middle_strip_length(19.625, 0.75)
    18.125
    """
    return bottom_board_screen_length - 2 * strip_wide


def twin_rim_front_length(
    hive_width: Length, cap_clearance: Length, stud_thickness: Length
) -> Length:
    """Length of the rim's front for one roof over two hives side by side.

    Both widths count. The clearance is meant in all, so it is added once, and the front stands
    between the two sides of the rim.

    >>> twin_rim_front_length(16, 0.5, 1.5)
    29.5
    """
    return 2 * hive_width + cap_clearance - 2 * stud_thickness


def notched_front_length(hive_width: Length, stud_thickness: Length, inner_notch: Length) -> Length:
    """Length of the inner cover's front where the notch lies at one side and not in the middle.

    Both sides and the notch come off, and what is left is one piece, so nothing is shared.

    >>> notched_front_length(16.25, 1.5, 2)
    11.25
    """
    return hive_width - 2 * stud_thickness - inner_notch


@rounds(Rounding.DOWN, SLIDES)
def follower_length(box_inside_length: Length, rest_ease: Length) -> Length:
    """Length of a follower board, which hangs like a frame and closes off a part of the box.

    It must come out without scraping, so it gets the frame's ease at each end.

    >>> follower_length(18.375, 0.125)
    18.125
    """
    return box_inside_length - 2 * rest_ease


@rounds(Rounding.DOWN, SLIDES)
def entrance_strip_length(bottom_board_opening_width: Length, screen_gap: Length) -> Length:
    """Length of a strip that makes the entrance smaller, over the front rail.

    It stands between the side rails as the screen does, and comes out as easily: with the screen's
    gap, meant in all.

    >>> entrance_strip_length(13.25, 0.125)
    13.125
    """
    return bottom_board_opening_width - screen_gap
