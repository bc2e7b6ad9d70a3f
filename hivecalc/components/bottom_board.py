"""The bottom board: a frame of studs on edge; a foam panel and a screen slide in from the back.

From below, between the rails: lower runners, the panel's slot, upper runners, the screen. Figures
in the examples are common practice, no published source.
"""

from hivecalc.derivation import rounds
from hivecalc.length import Length, Rounding
from hivecalc.part import ONE, SIDES, Part

PANEL_SLIDES = "The panel must slide: a hair too small is harmless, a hair too big sticks."
LANDING_TILT = 30
"""Degrees by which the landing board falls to the front; common practice, no published source."""
SCREEN_SLIDES = "The screen must slide: a hair too small is harmless, a hair too big sticks."


def side_rail_length(hive_length: Length, stud_thickness: Length) -> Length:
    """Length of one side rail.

    The loose back rail closes the frame and covers the ends of both sides, so a side is one stud
    thickness shorter than the hive.

    >>> side_rail_length(22.75, 1.5)
    21.25
    """
    return hive_length - stud_thickness


def front_rail_width(stud_width: Length, entrance_height: Length) -> Length:
    """Height of the front rail when it stands on edge, after ripping.

    The entrance is a strip ripped off the top of the front rail, so the rail is lower than the
    others by the entrance's height.

    >>> front_rail_width(3.5, 0.75)
    2.75
    """
    return stud_width - entrance_height


def front_rail_length(hive_width: Length, stud_thickness: Length) -> Length:
    """Length of the front rail.

    It stands between the two side rails, so both their thicknesses come off the hive's width.

    >>> front_rail_length(16.25, 1.5)
    13.25
    """
    return hive_width - 2 * stud_thickness


def back_rail_length(hive_width: Length) -> Length:
    """Length of the back rail.

    It covers the ends of both side rails, so it is as long as the hive is wide. It comes off, and
    the panel and the screen slide in and out there.

    >>> back_rail_length(16.25)
    16.25
    """
    return hive_width


def opening_length(hive_length: Length, stud_thickness: Length) -> Length:
    """Length of the opening inside the frame, front to back.

    The front rail and the back rail each take one stud thickness off the hive's length.

    >>> opening_length(22.75, 1.5)
    19.75
    """
    return hive_length - 2 * stud_thickness


def opening_width(hive_width: Length, stud_thickness: Length) -> Length:
    """Width of the opening inside the frame, side to side.

    The two side rails each take one stud thickness off the hive's width.

    >>> opening_width(16.25, 1.5)
    13.25
    """
    return hive_width - 2 * stud_thickness


def lower_side_runner_length(opening_length: Length, runner_gap: Length) -> Length:
    """Length of one lower side runner.

    Runners stop short of the rails so that dirt does not wedge them; their length is not critical.

    >>> lower_side_runner_length(19.75, 0.5)
    19.25
    """
    return opening_length - runner_gap


def lower_front_runner_length(
    opening_width: Length, strip_narrow: Length, runner_gap: Length
) -> Length:
    """Length of the lower front runner.

    It lies between the two lower side runners, which stand on edge and so take up the strip's
    narrow side each.

    >>> lower_front_runner_length(13.25, 0.5, 0.5)
    11.75
    """
    return opening_width - 2 * strip_narrow - runner_gap


@rounds(Rounding.DOWN, PANEL_SLIDES)
def panel_length(opening_length: Length, panel_gap: Length) -> Length:
    """Length of the foam panel, front to back.

    The loose panel must slide though the frame leans and the rails bow a little, so the gap comes
    off the opening once: it is the gap in all, not at each end.

    >>> panel_length(19.75, 0.25)
    19.5
    """
    return opening_length - panel_gap


@rounds(Rounding.DOWN, PANEL_SLIDES)
def panel_width(opening_width: Length, panel_gap: Length) -> Length:
    """Width of the foam panel, side to side.

    The loose panel must slide though the frame leans and the rails bow a little, so the gap comes
    off the opening once: it is the gap in all, not at each side.

    >>> panel_width(13.25, 0.25)
    13.0
    """
    return opening_width - panel_gap


def panel_foam_thickness(foam_thickness: Length) -> Length:
    """Thickness of the panel's foam.

    The panel is of the same foam as the rest, unless you measured another for it.

    >>> panel_foam_thickness(1)
    1
    """
    return foam_thickness


def slot_height(panel_foam_thickness: Length, slot_ease: Length) -> Length:
    """Height of the slot that the foam panel slides in.

    The slot is a little higher than the foam is thick, or the panel would bind.

    >>> slot_height(1, 0.125)
    1.125
    """
    return panel_foam_thickness + slot_ease


def lower_runner_height(strip_wide: Length) -> Length:
    """Height of a lower runner as it stands in the frame.

    The lower runners stand on edge, wide side up, to hold the panel clear of the ground.

    >>> lower_runner_height(0.75)
    0.75
    """
    return strip_wide


def upper_runner_height(strip_narrow: Length) -> Length:
    """Height of an upper runner as it lies in the frame.

    The upper runners lie flat, narrow side up. Turned on edge they would lift the screen out of
    the frame.

    >>> upper_runner_height(0.5)
    0.5
    """
    return strip_narrow


def upper_side_runner_length(lower_side_runner_length: Length) -> Length:
    """Length of one upper side runner.

    It is as long as the lower one below it.

    >>> upper_side_runner_length(19.25)
    19.25
    """
    return lower_side_runner_length


def upper_front_runner_length(
    opening_width: Length, strip_wide: Length, runner_gap: Length
) -> Length:
    """Length of the upper front runner.

    It lies between the two upper side runners, which lie flat and so take up the strip's wide side
    each.

    >>> upper_front_runner_length(13.25, 0.75, 0.5)
    11.25
    """
    return opening_width - 2 * strip_wide - runner_gap


@rounds(Rounding.DOWN, SCREEN_SLIDES)
def screen_length(opening_length: Length, screen_gap: Length) -> Length:
    """Length of the pull-out screen, front to back.

    It fits closer than the panel, for bees must not pass it: the gap comes off once, in all.

    >>> screen_length(19.75, 0.125)
    19.625
    """
    return opening_length - screen_gap


@rounds(Rounding.DOWN, SCREEN_SLIDES)
def screen_width(opening_width: Length, screen_gap: Length) -> Length:
    """Width of the pull-out screen, side to side.

    It fits closer than the panel, for bees must not pass it: the gap comes off once, in all.

    >>> screen_width(13.25, 0.125)
    13.125
    """
    return opening_width - screen_gap


@rounds(Rounding.DOWN, SCREEN_SLIDES)
def screen_side_strip_length(screen_length: Length) -> Length:
    """Length of one side strip of the screen's frame.

    The side strips run the screen's whole length.

    >>> screen_side_strip_length(19.625)
    19.625
    """
    return screen_length


def screen_end_strip_length(screen_width: Length, strip_wide: Length) -> Length:
    """Length of one end strip of the screen's frame.

    It lies between the two side strips, which lie flat and so take the strip's wide side each.

    >>> screen_end_strip_length(13.125, 0.75)
    11.625
    """
    return screen_width - 2 * strip_wide


@rounds(Rounding.DOWN, SCREEN_SLIDES)
def mesh_length(screen_length: Length, mesh_margin: Length) -> Length:
    """Length of the mesh, front to back.

    It stays inside the screen's edge at both ends, or its cut wires catch in the rails: the margin
    counts twice.

    >>> mesh_length(19.625, 0.125)
    19.375
    """
    return screen_length - 2 * mesh_margin


@rounds(Rounding.DOWN, SCREEN_SLIDES)
def mesh_width(screen_width: Length, mesh_margin: Length) -> Length:
    """Width of the mesh, side to side.

    It stays inside the screen's edge at both sides, or its cut wires catch in the rails: the margin
    counts twice.

    >>> mesh_width(13.125, 0.125)
    12.875
    """
    return screen_width - 2 * mesh_margin


def mesh_top(
    lower_runner_height: Length,
    slot_height: Length,
    upper_runner_height: Length,
    strip_narrow: Length,
    mesh_thickness: Length,
) -> Length:
    """Height of the mesh's upper face above the bottom of the frame.

    Everything below it adds up: lower runner, slot, upper runner, the screen's lower strips and the
    mesh itself.

    >>> mesh_top(0.75, 1.125, 0.5, 0.5, 0.0625)
    2.9375
    """
    return lower_runner_height + slot_height + upper_runner_height + strip_narrow + mesh_thickness


def front_stop_height(stud_width: Length, mesh_top: Length, bee_way: Length) -> Length:
    """Height of the front stop, the thin strip on the mesh at the front.

    What lies below the stop and the way in above it come off the rail's height: the stop fills what
    is left, so the way in is right whatever your stud measures.

    >>> front_stop_height(3.5, 2.9375, 0.3125)
    0.25
    """
    return stud_width - mesh_top - bee_way


def front_stop_top(mesh_top: Length, front_stop_height: Length) -> Length:
    """Height of the front stop's top above the bottom of the frame.

    The stop stands on the mesh. All bees walk in over it.

    >>> front_stop_top(2.9375, 0.25)
    3.1875
    """
    return mesh_top + front_stop_height


def stack_height(mesh_top: Length, strip_narrow: Length) -> Length:
    """Height of everything stacked in the frame: runners, slot and screen.

    The screen is two layers of flat strips with the mesh between them: the upper layer's narrow
    side comes on top of the mesh.

    >>> stack_height(2.9375, 0.5)
    3.4375
    """
    return mesh_top + strip_narrow


def headroom(stud_width: Length, stack_height: Length) -> Length:
    """Room left above the stack, below the top of the rails.

    Less than nothing means that the screen stands above the rails and the box rocks on it.

    >>> headroom(3.5, 3.4375)
    0.0625
    """
    return stud_width - stack_height


def way_in(stud_width: Length, front_rail_width: Length, front_stop_top: Length) -> Length:
    """Height of the way in for the bees, at its lowest place.

    Bees pass over the front rail and then over the front stop: the higher of the two leaves the
    lower way. It should be a bee space, which also keeps mice out.

    >>> way_in(3.5, 2.75, 3.1875)
    0.3125
    """
    return stud_width - max(front_rail_width, front_stop_top)


def landing_board_length(hive_width: Length) -> Length:
    """Length of the landing board.

    It runs across the whole front, as long as the hive is wide.

    >>> landing_board_length(16.25)
    16.25
    """
    return hive_width


PARTS = (
    Part("side_rail", SIDES, "stud", "stud_thickness", "stud_width", "side_rail_length",
        "Stands on edge and closes the frame at one side."),
    Part("front_rail", ONE, "stud", "stud_thickness", "front_rail_width", "front_rail_length",
        "Stands between the sides, ripped lower to leave the entrance above it."),
    Part("back_rail", ONE, "stud", "stud_thickness", "stud_width", "back_rail_length",
        "Comes off: two hanger bolts and wing nuts hold it, no glue."),
    Part("lower_side_runner", SIDES, "strip", "strip_narrow", "strip_wide",
        "lower_side_runner_length", "Stands on edge, wide side up, and carries the panel."),
    Part("lower_front_runner", ONE, "strip", "strip_narrow", "strip_wide",
        "lower_front_runner_length",
        "Stands on edge at the front and carries the panel's front edge."),
    Part("panel", ONE, "foam", "panel_foam_thickness", "panel_width", "panel_length",
        "Slides in from the back and keeps the heat in."),
    Part("upper_side_runner", SIDES, "strip", "strip_narrow", "strip_wide",
        "upper_side_runner_length",
        "Lies flat, narrow side up, closes the panel's slot and carries the screen."),
    Part("upper_front_runner", ONE, "strip", "strip_narrow", "strip_wide",
        "upper_front_runner_length", "Lies flat at the front and closes the panel's slot there."),
    Part("screen_side_strip", ("lower left", "lower right", "upper left", "upper right"), "strip",
        "strip_narrow", "strip_wide", "screen_side_strip_length",
        "Lies flat; two below and two above the mesh along its sides."),
    Part("screen_end_strip", ("lower front", "lower back", "upper back"), "strip", "strip_narrow",
        "strip_wide", "screen_end_strip_length",
        "Lies flat across the ends: front and back below the mesh, back above it."),
    Part("screen_front_stop", ONE, "strip", "front_stop_height", "strip_wide",
        "screen_end_strip_length",
        "The thin strip above the mesh at the front: all bees walk in over it."),
    Part("mesh", ONE, "mesh", None, "mesh_width", "mesh_length",
        "Eight-mesh hardware cloth of metal: dirt falls through, bees do not."),
    Part("landing_board", ONE, "board", "landing_thickness", "landing_width",
        "landing_board_length",
        f"Lies in front on a {LANDING_TILT} degree bevel; it has a size of its own, so measure "
        "it."),
)  # fmt: skip
