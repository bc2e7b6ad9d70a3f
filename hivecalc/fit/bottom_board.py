"""Will the bottom board go together, and can bees use it: one function a rule.

Figures in the examples are common practice, no published source.
"""

from fractions import Fraction
from typing import Final

from hivecalc.fit.limits import (
    AGREE,
    BEE_SPACE,
    BEE_SPACE_HIGH,
    BEE_SPACE_LOW,
    BEE_SPACE_SPREAD,
    BRAD_BITE,
    LOOSE_HIGH,
    MEMORY,
    POINT_COVER,
    POINT_COVER_LEAST,
)
from hivecalc.fit.rule import rule
from hivecalc.length import Length

NOTHING: Final = Fraction(0)
LONGER_BRAD: Final = "Take a longer brad."
SHORTER_BRAD: Final = "Take a shorter brad or a staple."


@rule(
    "blocks",
    low=NOTHING,
    if_low="Turn any strip that lies the wrong way; else rip thinner strips, take thinner foam or "
    "less slot ease.",
)
def room_above_stack(bottom_board_headroom: Length) -> Length:
    """Room above the runners, the panel's slot and the screen, up to the top of the rails.

    Less than nothing means that the screen stands proud: the box rocks on it, and bees and wind get
    in under the box.

    >>> room_above_stack(0.0625)
    0.0625
    """
    return bottom_board_headroom


@rule(
    "harms",
    low=BEE_SPACE_LOW,
    widest_low=BEE_SPACE_LOW - BEE_SPACE_SPREAD,
    high=BEE_SPACE_HIGH,
    widest_high=BEE_SPACE_HIGH + BEE_SPACE_SPREAD,
    source=BEE_SPACE,
    if_low="Plane the front stop lower; where the front rail is the higher, rip the rail.",
    if_high="Rip a higher front stop; it costs a minute.",
)
def bee_way_in(bottom_board_way_in: Length) -> Length:
    """Height of the way in for the bees, at its lowest place.

    A lower way crowds the door, and bees close it with resin; through a higher one mice and robber
    bees get in.

    >>> bee_way_in(0.3125)
    0.3125
    """
    return bottom_board_way_in


@rule(
    "blocks",
    low=BEE_SPACE_LOW - BEE_SPACE_SPREAD,
    source=MEMORY,
    if_low="Take that strip out, and rip a lower one for the front stop.",
)
def way_over_stop(bottom_board_rail_top: Length, bottom_board_front_stop_top: Length) -> Length:
    """Height left open above the screen's front stop.

    All bees walk in over the stop. A strip as high as the others in its place shuts them in.

    >>> way_over_stop(3.5, 3.125)
    0.375
    """
    return bottom_board_rail_top - bottom_board_front_stop_top


@rule(
    "harms",
    low=NOTHING,
    if_low="Choose a lower entrance: rip less off the front rail.",
)
def front_rail_over_screen(
    bottom_board_front_rail_width: Length, bottom_board_screen_underside: Length
) -> Length:
    """How far the front rail reaches above the screen's underside.

    A front rail that ends lower leaves the panel's slot open in front, below the screen: mice walk
    in there, and the warmth out.

    >>> front_rail_over_screen(2.75, 2.375)
    0.375
    """
    return bottom_board_front_rail_width - bottom_board_screen_underside


@rule(
    "blocks",
    low=Fraction(1, 8),
    if_low="Trim the panel: measure the opening in the glued frame and take the panel gap off.",
)
def panel_play_along(
    bottom_board_opening_length: Length, bottom_board_panel_length: Length
) -> Length:
    """How much shorter the foam panel is than its opening, front to back.

    A frame leans a little and dirt gets in: a panel without play sticks, or the back rail does not
    close behind it.

    >>> panel_play_along(19.75, 19.5)
    0.25
    """
    return bottom_board_opening_length - bottom_board_panel_length


@rule(
    "blocks",
    low=Fraction(1, 8),
    if_low="Trim the panel: measure the opening in the glued frame and take the panel gap off.",
)
def panel_play_across(
    bottom_board_opening_width: Length, bottom_board_panel_width: Length
) -> Length:
    """How much narrower the foam panel is than its opening, side to side.

    Rails bow and a frame leans a little: a panel without play sticks between the rails and breaks
    when you pull.

    >>> panel_play_across(13.25, 13)
    0.25
    """
    return bottom_board_opening_width - bottom_board_panel_width


@rule(
    "harms",
    high=Fraction(1, 2),
    if_high="Glue a strip of foam to the panel's edge, or cut a new panel to the opening.",
)
def widest_gap_at_panel(
    bottom_board_panel_play_along: Length, bottom_board_panel_play_across: Length
) -> Length:
    """The wider of the two gaps beside the foam panel.

    Cold air comes up through a wide gap, and then the panel keeps little warmth in.

    >>> widest_gap_at_panel(0.25, 0.375)
    0.375
    """
    return max(bottom_board_panel_play_along, bottom_board_panel_play_across)


@rule(
    "blocks",
    low=Fraction(1, 8),
    if_low="Cut a wider panel, with a smaller gap than its runners are thick.",
)
def panel_on_side_runners(
    bottom_board_lower_side_runner_left_thickness: Length,
    bottom_board_lower_side_runner_right_thickness: Length,
    bottom_board_panel_play_across: Length,
) -> Length:
    """How much of a side runner still carries the panel when it is pushed to the other side.

    A panel with a gap as wide as its runner is thick falls off the runner.

    >>> panel_on_side_runners(0.5, 0.5, 0.25)
    0.25
    """
    return (
        min(
            bottom_board_lower_side_runner_left_thickness,
            bottom_board_lower_side_runner_right_thickness,
        )
        - bottom_board_panel_play_across
    )


@rule(
    "blocks",
    low=Fraction(1, 8),
    if_low="Cut a longer panel, with a smaller gap than its runner is thick.",
)
def panel_on_front_runner(
    bottom_board_lower_front_runner_thickness: Length, bottom_board_panel_play_along: Length
) -> Length:
    """How much of the front runner still carries the panel when it is pushed to the back.

    A panel with a gap as wide as its runner is thick falls off the runner.

    >>> panel_on_front_runner(0.5, 0.25)
    0.25
    """
    return bottom_board_lower_front_runner_thickness - bottom_board_panel_play_along


@rule(
    "blocks",
    low=Fraction(1, 32),
    if_low="Set the upper runners higher, or take thinner foam.",
)
def slot_over_panel(
    bottom_board_slot_height: Length, bottom_board_panel_thickness: Length
) -> Length:
    """How much higher the slot is than the panel is thick.

    A panel that fills its slot binds, and breaks when you pull.

    >>> slot_over_panel(1.125, 1)
    0.125
    """
    return bottom_board_slot_height - bottom_board_panel_thickness


@rule(
    "blocks",
    low=Fraction(1, 16),
    widest_low=Fraction(1, 32),
    if_low="Plane the screen's edge; next time cut it to the opening measured in the glued frame.",
)
def screen_play_along(
    bottom_board_opening_length: Length, bottom_board_screen_length: Length
) -> Length:
    """How much shorter the screen is than its opening, front to back.

    A screen without play does not let the back rail close, or sticks in resin and dirt.

    >>> screen_play_along(19.75, 19.625)
    0.125
    """
    return bottom_board_opening_length - bottom_board_screen_length


@rule(
    "blocks",
    low=Fraction(1, 16),
    widest_low=Fraction(1, 32),
    if_low="Plane the screen's edge; next time cut it to the opening measured in the glued frame.",
)
def screen_play_across(
    bottom_board_opening_width: Length, bottom_board_screen_width: Length
) -> Length:
    """How much narrower the screen is than its opening, side to side.

    A screen without play sticks between the rails in resin and dirt, and cannot be cleaned.

    >>> screen_play_across(13.25, 13.125)
    0.125
    """
    return bottom_board_opening_width - bottom_board_screen_width


@rule(
    "harms",
    high=Fraction(5, 32),
    widest_high=Fraction(3, 16),
    source=MEMORY,
    if_high="Make a new screen, cut to the opening measured in the glued frame.",
)
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


@rule(
    "harms",
    high=Fraction(1, 16),
    widest_high=Fraction(1, 8),
    if_high="Cut new strips, all against one stop; they cost a minute.",
)
def screen_strips_alike(
    bottom_board_screen_side_strip_lower_left_length: Length,
    bottom_board_screen_side_strip_lower_right_length: Length,
    bottom_board_screen_side_strip_upper_left_length: Length,
    bottom_board_screen_side_strip_upper_right_length: Length,
    bottom_board_screen_end_strip_lower_front_length: Length,
    bottom_board_screen_end_strip_lower_back_length: Length,
    bottom_board_screen_end_strip_upper_back_length: Length,
    bottom_board_screen_front_stop_length: Length,
) -> Length:
    """How much the screen's strips of one length differ, where they differ more.

    A strip that is shorter than its twins leaves a hole beside it that a bee gets through, and the
    screen is not square.

    >>> screen_strips_alike(19.625, 19.625, 19.625, 19.625, 11.625, 11.625, 11.625, 11.625)
    0.0
    """
    return max(
        max(
            bottom_board_screen_side_strip_lower_left_length,
            bottom_board_screen_side_strip_lower_right_length,
            bottom_board_screen_side_strip_upper_left_length,
            bottom_board_screen_side_strip_upper_right_length,
        )
        - min(
            bottom_board_screen_side_strip_lower_left_length,
            bottom_board_screen_side_strip_lower_right_length,
            bottom_board_screen_side_strip_upper_left_length,
            bottom_board_screen_side_strip_upper_right_length,
        ),
        max(
            bottom_board_screen_end_strip_lower_front_length,
            bottom_board_screen_end_strip_lower_back_length,
            bottom_board_screen_end_strip_upper_back_length,
            bottom_board_screen_front_stop_length,
        )
        - min(
            bottom_board_screen_end_strip_lower_front_length,
            bottom_board_screen_end_strip_lower_back_length,
            bottom_board_screen_end_strip_upper_back_length,
            bottom_board_screen_front_stop_length,
        ),
    )


@rule(
    "harms",
    low=Fraction(1, 16),
    widest_low=Fraction(1, 32),
    high=Fraction(3, 8),
    if_low="Trim the mesh further back from the screen's edge.",
    if_high="Cut a larger mesh, or the strips hold too little of it.",
)
def mesh_inside_screen(
    bottom_board_screen_length: Length,
    bottom_board_screen_width: Length,
    bottom_board_mesh_length: Length,
    bottom_board_mesh_width: Length,
) -> Length:
    """How far the mesh stays inside the screen's edge, where it comes nearest.

    Cut wires at the edge catch in the rails, and the screen does not slide.

    >>> mesh_inside_screen(19.625, 13.125, 19.375, 12.875)
    0.125
    """
    return (
        min(
            bottom_board_screen_length - bottom_board_mesh_length,
            bottom_board_screen_width - bottom_board_mesh_width,
        )
        / 2
    )


@rule(
    "harms",
    low=Fraction(1, 4),
    if_low="Cut a larger mesh: the strips must hold its edge.",
)
def mesh_held(
    bottom_board_screen_length: Length,
    bottom_board_screen_width: Length,
    bottom_board_mesh_length: Length,
    bottom_board_mesh_width: Length,
    strip_wide: Length,
) -> Length:
    """How much of the mesh lies between the strips, where they hold least of it.

    Mesh that is hardly held comes loose when the screen is scraped clean.

    >>> mesh_held(19.625, 13.125, 19.375, 12.875, 0.75)
    0.625
    """
    return (
        strip_wide
        - max(
            bottom_board_screen_length - bottom_board_mesh_length,
            bottom_board_screen_width - bottom_board_mesh_width,
        )
        / 2
    )


@rule(
    "blocks",
    low=Fraction(1, 16),
    widest_low=NOTHING,
    if_low="Cut the runner shorter: its length is not critical.",
)
def lower_runner_room(
    bottom_board_opening_length: Length,
    bottom_board_lower_side_runner_left_length: Length,
    bottom_board_lower_side_runner_right_length: Length,
) -> Length:
    """Room for the lower side runners between front rail and back rail, both ends together.

    A runner that is too long keeps the back rail from closing.

    >>> lower_runner_room(19.75, 19.25, 19.25)
    0.5
    """
    return bottom_board_opening_length - max(
        bottom_board_lower_side_runner_left_length, bottom_board_lower_side_runner_right_length
    )


@rule(
    "blocks",
    low=Fraction(1, 16),
    widest_low=NOTHING,
    if_low="Cut the runner shorter: its length is not critical.",
)
def upper_runner_room(
    bottom_board_opening_length: Length,
    bottom_board_upper_side_runner_left_length: Length,
    bottom_board_upper_side_runner_right_length: Length,
) -> Length:
    """Room for the upper side runners between front rail and back rail, both ends together.

    A runner that is too long keeps the back rail from closing.

    >>> upper_runner_room(19.75, 19.25, 19.25)
    0.5
    """
    return bottom_board_opening_length - max(
        bottom_board_upper_side_runner_left_length, bottom_board_upper_side_runner_right_length
    )


@rule(
    "blocks",
    low=Fraction(1, 16),
    widest_low=NOTHING,
    if_low="Cut the front runner shorter: its length is not critical.",
)
def lower_runners_apart(
    bottom_board_opening_width: Length,
    bottom_board_lower_side_runner_left_thickness: Length,
    bottom_board_lower_side_runner_right_thickness: Length,
    bottom_board_lower_front_runner_length: Length,
) -> Length:
    """Room for the lower front runner between the lower side runners, both ends together.

    The side runners stand on edge and take the strip's narrow side each. A front runner that is too
    long meets them at the corners and does not lie down.

    >>> lower_runners_apart(13.25, 0.5, 0.5, 11.75)
    0.5
    """
    return (
        bottom_board_opening_width
        - bottom_board_lower_side_runner_left_thickness
        - bottom_board_lower_side_runner_right_thickness
        - bottom_board_lower_front_runner_length
    )


@rule(
    "blocks",
    low=Fraction(1, 16),
    widest_low=NOTHING,
    if_low="Cut the front runner shorter: its length is not critical.",
)
def upper_runners_apart(
    bottom_board_opening_width: Length,
    bottom_board_upper_side_runner_left_width: Length,
    bottom_board_upper_side_runner_right_width: Length,
    bottom_board_upper_front_runner_length: Length,
) -> Length:
    """Room for the upper front runner between the upper side runners, both ends together.

    The side runners lie flat and take the strip's wide side each. A front runner as long as the
    lower one is too long here and does not lie down.

    >>> upper_runners_apart(13.25, 0.75, 0.75, 11.25)
    0.5
    """
    return (
        bottom_board_opening_width
        - bottom_board_upper_side_runner_left_width
        - bottom_board_upper_side_runner_right_width
        - bottom_board_upper_front_runner_length
    )


@rule(
    "harms",
    high=LOOSE_HIGH,
    if_high="Cut a new runner; it costs a minute.",
)
def runners_reach(
    bottom_board_opening_length: Length,
    bottom_board_lower_side_runner_left_length: Length,
    bottom_board_lower_side_runner_right_length: Length,
    bottom_board_upper_side_runner_left_length: Length,
    bottom_board_upper_side_runner_right_length: Length,
) -> Length:
    """Room beside the shortest side runner, both ends together.

    Over a very short runner panel or screen dips at its end.

    >>> runners_reach(19.75, 19.25, 19.25, 19.25, 19.25)
    0.5
    """
    return bottom_board_opening_length - min(
        bottom_board_lower_side_runner_left_length,
        bottom_board_lower_side_runner_right_length,
        bottom_board_upper_side_runner_left_length,
        bottom_board_upper_side_runner_right_length,
    )


@rule(
    "harms",
    high=LOOSE_HIGH,
    if_high="Cut a new front runner; it costs a minute.",
)
def front_runners_reach(
    bottom_board_lower_runners_apart: Length, bottom_board_upper_runners_apart: Length
) -> Length:
    """Room beside the shorter front runner, both ends together.

    Over a very short runner the front of panel or screen dips at the corners.

    >>> front_runners_reach(0.5, 0.5)
    0.5
    """
    return max(bottom_board_lower_runners_apart, bottom_board_upper_runners_apart)


@rule("harms", low=NOTHING, if_low="Turn the upper runners: they lie flat, narrow side up.")
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


# ── the frame, and what stands on it ──────────────────────────────────────────────────────────


@rule(
    "harms",
    low=-AGREE,
    widest_low=-2 * AGREE,
    high=AGREE,
    if_low="Cut new side rails; a frame that is glued stays as it is, and the box stands over.",
    if_high="Crosscut the side rails; on a frame that is glued, set the box flush with the front, "
    "where the bees go in.",
)
def frame_against_hive_along(
    bottom_board_frame_length: Length, stack_outside_length: Length
) -> Length:
    """How much longer the frame is than what stands on it, front to back.

    A frame that stands out catches rain and leads it in under the box; a short one leaves the box
    hanging over.

    >>> frame_against_hive_along(22.75, 22.75)
    0.0
    """
    return bottom_board_frame_length - stack_outside_length


@rule(
    "harms",
    low=-AGREE,
    widest_low=-2 * AGREE,
    high=AGREE,
    if_low="Cut a new front rail; no shim holds the screws of that joint.",
    if_high="Crosscut the front rail before you glue it.",
)
def frame_against_hive_across(
    bottom_board_frame_width: Length, stack_outside_width: Length
) -> Length:
    """How much wider the frame is than what stands on it, side to side.

    A frame that stands out catches rain and leads it in under the box; a narrow one leaves the box
    hanging over.

    >>> frame_against_hive_across(16.25, 16.25)
    0.0
    """
    return bottom_board_frame_width - stack_outside_width


@rule(
    "harms",
    low=-AGREE,
    high=AGREE,
    if_low="Cut a new back rail: it must cover the ends of both side rails.",
    if_high="Crosscut the back rail.",
)
def back_rail_covers(
    bottom_board_back_rail_length: Length, bottom_board_frame_width: Length
) -> Length:
    """How much longer the back rail is than the frame is wide.

    A short one leaves end grain open to the rain, and its bolts sit near its ends; a long one
    stands out.

    >>> back_rail_covers(16.25, 16.25)
    0.0
    """
    return bottom_board_back_rail_length - bottom_board_frame_width


@rule(
    "harms",
    high=AGREE,
    if_high="Crosscut the longer side rail to the shorter, and cut panel and screen to the frame.",
)
def side_rails_alike(
    bottom_board_side_rail_left_length: Length, bottom_board_side_rail_right_length: Length
) -> Length:
    """How much the two side rails differ in length.

    With different sides the back rail stands askew, and no panel fits both sides.

    >>> side_rails_alike(21.25, 21.25)
    0.0
    """
    return max(bottom_board_side_rail_left_length, bottom_board_side_rail_right_length) - min(
        bottom_board_side_rail_left_length, bottom_board_side_rail_right_length
    )


@rule(
    "harms",
    high=Fraction(1, 16),
    widest_high=AGREE,
    if_high="Plane the higher rails down to the lowest.",
)
def rails_level(
    bottom_board_side_rail_left_width: Length,
    bottom_board_side_rail_right_width: Length,
    bottom_board_back_rail_width: Length,
    bottom_board_rail_top: Length,
) -> Length:
    """How far the highest rail stands above the lowest.

    A box on rails of different height rocks, and bees and wind get in under it.

    >>> rails_level(3.5, 3.5, 3.5, 3.5)
    0.0
    """
    return (
        max(
            bottom_board_side_rail_left_width,
            bottom_board_side_rail_right_width,
            bottom_board_back_rail_width,
        )
        - bottom_board_rail_top
    )


@rule(
    "harms",
    low=-Fraction(1, 2),
    high=Fraction(1, 4),
    if_low="Take a longer board.",
    if_high="Crosscut the board: what stands out catches on everything.",
)
def landing_board_runs(
    bottom_board_landing_board_length: Length, bottom_board_frame_width: Length
) -> Length:
    """How much longer the landing board is than the frame is wide.

    It runs across the whole front, so that bees that miss the middle still land on wood.

    >>> landing_board_runs(16.25, 16.25)
    0.0
    """
    return bottom_board_landing_board_length - bottom_board_frame_width


# ── fasteners ─────────────────────────────────────────────────────────────────────────────────


@rule(
    "harms",
    low=POINT_COVER,
    widest_low=POINT_COVER_LEAST,
    if_low=SHORTER_BRAD,
)
def wood_past_long_brad(
    strip_narrow: Length, bottom_board_side_rail_left_thickness: Length, long_brad: Length
) -> Length:
    """Wood left beyond the point of a brad through a runner on edge into its rail.

    A brad as long as the wood comes out on the other side, where hands carry the hive. A runner
    that lies flat leaves more wood than one on edge.

    >>> wood_past_long_brad(0.5, 1.5, 1.25)
    0.75
    """
    return strip_narrow + bottom_board_side_rail_left_thickness - long_brad


@rule("harms", low=Fraction(1, 4), if_low=LONGER_BRAD)
def long_brad_bite(long_brad: Length, strip_wide: Length) -> Length:
    """How deep a brad bites into the rail through a runner that lies flat.

    A brad that hardly reaches the rail lets the runner sag under the screen.

    >>> long_brad_bite(1.25, 0.75)
    0.5
    """
    return long_brad - strip_wide


@rule("harms", low=POINT_COVER, widest_low=POINT_COVER_LEAST, if_low=SHORTER_BRAD)
def wood_past_short_brad(
    bottom_board_screen_side_strip_upper_left_thickness: Length,
    bottom_board_screen_side_strip_lower_left_thickness: Length,
    mesh_thickness: Length,
    short_brad: Length,
) -> Length:
    """Wood left beyond the point of a brad through the two flat strips of the screen.

    Two flat strips and the mesh are little more than twice the narrow side: the brad that you took
    for the runners comes out on the other side and scratches hands and frame.

    >>> wood_past_short_brad(0.5, 0.5, 0.0625, 0.75)
    0.3125
    """
    return (
        bottom_board_screen_side_strip_upper_left_thickness
        + bottom_board_screen_side_strip_lower_left_thickness
        + mesh_thickness
        - short_brad
    )


@rule("harms", low=BRAD_BITE, if_low=LONGER_BRAD)
def short_brad_bite(
    short_brad: Length,
    bottom_board_screen_side_strip_upper_left_thickness: Length,
    mesh_thickness: Length,
) -> Length:
    """How deep a brad bites into the lower strip, through the upper one and the mesh.

    A brad that hardly reaches the lower strip lets the screen come apart when it is pulled.

    >>> short_brad_bite(0.75, 0.5, 0.0625)
    0.1875
    """
    return short_brad - bottom_board_screen_side_strip_upper_left_thickness - mesh_thickness


@rule("harms", low=POINT_COVER, widest_low=POINT_COVER_LEAST, if_low=SHORTER_BRAD)
def wood_past_stop_brad(
    bottom_board_screen_front_stop_thickness: Length,
    mesh_thickness: Length,
    bottom_board_screen_end_strip_lower_front_thickness: Length,
    stop_brad: Length,
) -> Length:
    """Wood left beyond the point of a brad through the front stop.

    The stop is thin, so the brad of the other strips comes out below.

    >>> wood_past_stop_brad(0.25, 0.0625, 0.5, 0.5)
    0.3125
    """
    return (
        bottom_board_screen_front_stop_thickness
        + mesh_thickness
        + bottom_board_screen_end_strip_lower_front_thickness
        - stop_brad
    )


@rule("harms", low=BRAD_BITE, widest_low=Fraction(1, 16), if_low=LONGER_BRAD)
def stop_brad_bite(
    stop_brad: Length, bottom_board_screen_front_stop_thickness: Length, mesh_thickness: Length
) -> Length:
    """How deep a brad bites into the strip below the front stop.

    A brad that hardly reaches the strip lets bees and boxes lift the stop.

    >>> stop_brad_bite(0.5, 0.25, 0.0625)
    0.1875
    """
    return stop_brad - bottom_board_screen_front_stop_thickness - mesh_thickness


@rule("harms", low=Fraction(5, 4), widest_low=Fraction(1), if_low="Take longer screws.")
def frame_screw_bite(frame_screw: Length, bottom_board_side_rail_left_thickness: Length) -> Length:
    """How deep a screw bites into the front rail's end, through the side rail.

    End grain holds a screw badly, so much of it must be in there.

    >>> frame_screw_bite(3, 1.5)
    1.5
    """
    return frame_screw - bottom_board_side_rail_left_thickness


@rule("harms", low=Fraction(3, 4), if_low="Take longer hanger bolts.")
def bolt_bite(
    hanger_bolt: Length, bottom_board_back_rail_thickness: Length, nut_room: Length
) -> Length:
    """How deep the hanger bolt bites into the end of the side rail.

    The bolt passes the back rail, and washer and wing nut need thread. What is left must hold in
    end grain, the weakest way for a screw, each time you tighten the nut.

    >>> bolt_bite(3, 1.5, 0.5)
    1.0
    """
    return hanger_bolt - bottom_board_back_rail_thickness - nut_room


@rule(
    "blocks",
    low=Fraction(1, 16),
    high=Fraction(1, 4),
    if_low="Drill the hole wider.",
    if_high="Put a wide washer under the nut, or drill new holes beside it.",
)
def bolt_play(bolt_hole: Length, bolt_diameter: Length) -> Length:
    """How much wider the clearance hole in the back rail is than the bolt.

    In a tight hole the back rail does not come off over two bolts that are never quite straight; a
    hole much wider than the bolt lets the rail hang.

    >>> bolt_play(0.375, 0.25)
    0.125
    """
    return bolt_hole - bolt_diameter


@rule("harms", low=Fraction(3, 8), if_low="Take thinner bolts and drill narrower holes.")
def wood_beside_bolt_hole(
    bottom_board_side_rail_left_thickness: Length, bolt_hole: Length
) -> Length:
    """Wood left in the back rail between the clearance hole and the rail's end.

    The bolt sits in the middle of the side rail, so the hole is half a stud from the back rail's
    end. With little wood left there the end splits off.

    >>> wood_beside_bolt_hole(1.5, 0.375)
    0.5625
    """
    return (bottom_board_side_rail_left_thickness - bolt_hole) / 2


@rule("harms", low=Fraction(1, 2), if_low="Take a longer deck screw.")
def landing_screw_bite(deck_screw: Length, bottom_board_landing_board_thickness: Length) -> Length:
    """How deep a screw bites into the rails through the landing board.

    A landing board that is hardly held breaks off when the hive is carried.

    >>> landing_screw_bite(1.625, 0.75)
    0.875
    """
    return deck_screw - bottom_board_landing_board_thickness


@rule("harms", low=POINT_COVER, widest_low=POINT_COVER_LEAST, if_low="Take a shorter deck screw.")
def wood_past_landing_screw(
    bottom_board_landing_board_thickness: Length,
    bottom_board_front_rail_thickness: Length,
    deck_screw: Length,
) -> Length:
    """Wood left beyond the point of a screw through the landing board into the front rail.

    A point inside the frame tears the panel when it is pulled out.

    >>> wood_past_landing_screw(0.75, 1.5, 1.625)
    0.625
    """
    return bottom_board_landing_board_thickness + bottom_board_front_rail_thickness - deck_screw


@rule(
    "blocks",
    low=NOTHING,
    if_low="Make the panel of two pieces, taped where they meet.",
)
def panel_out_of_board(
    bottom_board_panel_width: Length,
    bottom_board_panel_length: Length,
    foam_board_width: Length,
    foam_board_length: Length,
) -> Length:
    """How much bigger a foam board is than the panel, in the tighter direction.

    A panel that is bigger than the biggest board, whichever way you turn it, cannot be cut in one
    piece.

    >>> panel_out_of_board(13, 19.5, 48, 96)
    35
    """
    return min(
        foam_board_width - min(bottom_board_panel_width, bottom_board_panel_length),
        foam_board_length - max(bottom_board_panel_width, bottom_board_panel_length),
    )
