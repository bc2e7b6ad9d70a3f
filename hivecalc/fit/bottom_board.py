"""Will the bottom board go together, and can bees use it: one function a rule."""

from typing import Final

from hivecalc.derivation import difference
from hivecalc.fit.rule import (
    AGREE,
    LEAST_WAY,
    MEMORY,
    alike,
    at_least,
    at_most,
    bee_space,
    blocks,
    flush,
    harms,
    point_covered,
)
from hivecalc.length import Length, Lengths

LONGER_BRAD: Final = "Take a longer brad."
SHORTER_BRAD: Final = "Take a shorter brad or a staple."
PANEL_SLIDES: Final = at_least(
    "1/8", "Trim the panel: measure the opening in the glued frame and take the panel gap off."
)
SCREEN_SLIDES: Final = at_least(
    "1/16",
    "Plane the screen's edge; next time cut it to the opening measured in the glued frame.",
    widest="1/32",
)
RUNNER_FITS: Final = at_least(
    "1/16", "Cut the runner shorter: its length is not critical.", widest=0
)
FRONT_RUNNER_FITS: Final = at_least(
    "1/16", "Cut the front runner shorter: its length is not critical.", widest=0
)


@blocks(
    at_least(
        0,
        "Turn any strip that lies the wrong way; else rip thinner strips, take "
        "thinner foam or less slot ease.",
    )
)
def room_above_stack(headroom: Length) -> Length:
    """Room above the runners, the panel's slot and the screen, up to the top of the rails.

    Less than nothing means that the screen stands proud: the box rocks on it, and bees and wind get
    in under the box.
    """
    return headroom


@harms(
    *bee_space(
        "Plane the front stop lower; where the front rail is the higher, rip the rail.",
        "Rip a higher front stop; it costs a minute.",
    )
)
def bee_way_in(way_in: Length) -> Length:
    """Height of the way in for the bees, at its lowest place.

    A lower way holds the bees up, and they close it with resin; through a higher one mice and
    robber bees get in.
    """
    return way_in


@blocks(
    at_least(LEAST_WAY, "Take that strip out, and rip a lower one for the front stop."),
    source=MEMORY,
)
def way_over_stop(rail_top: Length, front_stop_top: Length) -> Length:
    """Height left open above the screen's front stop.

    All bees walk in over the stop. A strip as high as the others in its place shuts them in.
    """
    return rail_top - front_stop_top


@harms(at_least(0, "Choose a lower entrance: rip less off the front rail."))
def front_rail_over_screen(front_rail_width: Length, screen_underside: Length) -> Length:
    """How far the front rail reaches above the screen's underside.

    A front rail that ends lower leaves the panel's slot open in front, below the screen: mice walk
    in there, and the warmth out.
    """
    return front_rail_width - screen_underside


@blocks(PANEL_SLIDES)
def panel_play_along(opening_length: Length, panel_length: Length) -> Length:
    """How much shorter the foam panel is than its opening, front to back.

    A frame leans a little and dirt gets in: a panel without play sticks, or the back rail does not
    close behind it.
    """
    return opening_length - panel_length


@blocks(PANEL_SLIDES)
def panel_play_across(opening_width: Length, panel_width: Length) -> Length:
    """How much narrower the foam panel is than its opening, side to side.

    Rails bow and a frame leans a little: a panel without play sticks between the rails and breaks
    when you pull.
    """
    return opening_width - panel_width


@harms(
    at_most("1/2", "Glue a strip of foam to the panel's edge, or cut a new panel to the opening.")
)
def widest_gap_at_panel(
    bottom_board_panel_play_along: Length, bottom_board_panel_play_across: Length
) -> Length:
    """The wider of the two gaps beside the foam panel.

    Cold air comes up through a wide gap, and then the panel keeps little warmth in.
    """
    return max(bottom_board_panel_play_along, bottom_board_panel_play_across)


@blocks(at_least("1/8", "Cut a wider panel, with a smaller gap than its runners are thick."))
def panel_on_side_runners(
    lower_side_runner_thickness: Lengths, bottom_board_panel_play_across: Length
) -> Length:
    """How much of a side runner still carries the panel when it is pushed to the other side.

    A panel with a gap as wide as its runner is thick falls off the runner.
    """
    return min(*lower_side_runner_thickness) - bottom_board_panel_play_across


@blocks(at_least("1/8", "Cut a longer panel, with a smaller gap than its runner is thick."))
def panel_on_front_runner(
    lower_front_runner_thickness: Length, bottom_board_panel_play_along: Length
) -> Length:
    """How much of the front runner still carries the panel when it is pushed to the back.

    A panel with a gap as wide as its runner is thick falls off the runner.
    """
    return lower_front_runner_thickness - bottom_board_panel_play_along


@blocks(at_least("1/32", "Set the upper runners higher, or take thinner foam."))
def slot_over_panel(slot_height: Length, panel_thickness: Length) -> Length:
    """How much higher the slot is than the panel is thick.

    A panel that fills its slot binds, and breaks when you pull.
    """
    return slot_height - panel_thickness


@blocks(SCREEN_SLIDES)
def screen_play_along(opening_length: Length, screen_length: Length) -> Length:
    """How much shorter the screen is than its opening, front to back.

    A screen without play does not let the back rail close, or sticks in resin and dirt.
    """
    return opening_length - screen_length


@blocks(SCREEN_SLIDES)
def screen_play_across(opening_width: Length, screen_width: Length) -> Length:
    """How much narrower the screen is than its opening, side to side.

    A screen without play sticks between the rails in resin and dirt, and cannot be cleaned.
    """
    return opening_width - screen_width


@harms(
    at_most(
        "5/32", "Make a new screen, cut to the opening measured in the glued frame.", widest="3/16"
    ),
    source=MEMORY,
)
def widest_gap_at_screen(
    bottom_board_screen_play_along: Length, bottom_board_screen_play_across: Length
) -> Length:
    """The wider of the two gaps beside the screen, when it is pushed to one side.

    A bee squeezes through little more than [5/32 in|4 mm], gets under the screen and cannot find
    the way back.
    """
    return max(bottom_board_screen_play_along, bottom_board_screen_play_across)


@harms(at_most("1/16", "Cut new strips, all against one stop; they cost a minute.", widest="1/8"))
def screen_strips_alike(
    screen_side_strip_length: Lengths,
    screen_end_strip_length: Lengths,
    screen_front_stop_length: Length,
) -> Length:
    """How much the screen's strips of one length differ, where they differ more.

    A strip that is shorter than its twins leaves a hole beside it that a bee gets through, and the
    screen is not square.
    """
    return max(
        difference(*screen_side_strip_length),
        difference(*screen_end_strip_length, screen_front_stop_length),
    )


@harms(
    at_least("1/16", "Trim the mesh further back from the screen's edge.", widest="1/32"),
    at_most("3/8", "Cut a larger mesh, or the strips hold too little of it."),
)
def mesh_inside_screen(
    screen_length: Length, screen_width: Length, mesh_length: Length, mesh_width: Length
) -> Length:
    """How far the mesh stays inside the screen's edge, where it comes nearest.

    Cut wires at the edge catch in the rails, and the screen does not slide.
    """
    return min(screen_length - mesh_length, screen_width - mesh_width) / 2


@harms(at_least("1/4", "Cut a larger mesh: the strips must hold its edge."))
def mesh_held(
    screen_length: Length,
    screen_width: Length,
    mesh_length: Length,
    mesh_width: Length,
    strip_wide: Length,
) -> Length:
    """How much of the mesh lies between the strips, where they hold least of it.

    Mesh that is hardly held comes loose when the screen is scraped clean.
    """
    return strip_wide - max(screen_length - mesh_length, screen_width - mesh_width) / 2


@blocks(RUNNER_FITS)
def lower_runner_room(opening_length: Length, lower_side_runner_length: Lengths) -> Length:
    """Room for the lower side runners between front rail and back rail, both ends together.

    A runner that is too long keeps the back rail from closing.
    """
    return opening_length - max(*lower_side_runner_length)


@blocks(RUNNER_FITS)
def upper_runner_room(opening_length: Length, upper_side_runner_length: Lengths) -> Length:
    """Room for the upper side runners between front rail and back rail, both ends together.

    A runner that is too long keeps the back rail from closing.
    """
    return opening_length - max(*upper_side_runner_length)


@blocks(FRONT_RUNNER_FITS)
def lower_runners_apart(
    opening_width: Length, lower_side_runner_thickness: Lengths, lower_front_runner_length: Length
) -> Length:
    """Room for the lower front runner between the lower side runners, both ends together.

    The side runners stand on edge and take the strip's narrow side each. A front runner that is too
    long meets them at the corners and does not lie down.
    """
    return opening_width - sum(lower_side_runner_thickness) - lower_front_runner_length


@blocks(FRONT_RUNNER_FITS)
def upper_runners_apart(
    opening_width: Length, upper_side_runner_width: Lengths, upper_front_runner_length: Length
) -> Length:
    """Room for the upper front runner between the upper side runners, both ends together.

    The side runners lie flat and take the strip's wide side each. A front runner as long as the
    lower one is too long here and does not lie down.
    """
    return opening_width - sum(upper_side_runner_width) - upper_front_runner_length


@harms(at_most(2, "Cut a new runner; it costs a minute."))
def runners_reach(
    opening_length: Length, lower_side_runner_length: Lengths, upper_side_runner_length: Lengths
) -> Length:
    """Room beside the shortest side runner, both ends together.

    Over a very short runner panel or screen dips at its end.
    """
    return opening_length - min(*lower_side_runner_length, *upper_side_runner_length)


@harms(at_most(2, "Cut a new front runner; it costs a minute."))
def front_runners_reach(
    bottom_board_lower_runners_apart: Length, bottom_board_upper_runners_apart: Length
) -> Length:
    """Room beside the shorter front runner, both ends together.

    Over a very short runner the front of panel or screen dips at the corners.
    """
    return max(bottom_board_lower_runners_apart, bottom_board_upper_runners_apart)


@harms(at_least(0, "Turn the upper runners: they lie flat, narrow side up."))
def upper_runner_lies_flat(
    strip_narrow: Length, strip_wide: Length, upper_runner_height: Length
) -> Length:
    """How far an upper runner stays below the height half-way between the strip's two sides.

    The upper runners lie flat, narrow side up. Turned on edge they lift the screen, and it stands
    proud of the frame or closes the way in.
    """
    return (strip_narrow + strip_wide) / 2 - upper_runner_height


# ── the frame, and what stands on it ──────────────────────────────────────────────────────────


@harms(
    at_least(
        -AGREE,
        "Cut new side rails; a frame that is glued stays as it is, and the box stands over.",
        widest=-2 * AGREE,
    ),
    at_most(
        AGREE,
        "Crosscut the side rails; on a frame that is glued, set the box flush "
        "with the front, where the bees go in.",
    ),
)
def frame_against_hive_along(frame_length: Length, stack_outside_length: Length) -> Length:
    """How much longer the frame is than what stands on it, front to back.

    A frame that stands out catches rain and leads it in under the box; a short one leaves the box
    hanging over.
    """
    return frame_length - stack_outside_length


@harms(
    at_least(
        -AGREE, "Cut a new front rail; no shim holds the screws of that joint.", widest=-2 * AGREE
    ),
    at_most(AGREE, "Crosscut the front rail before you glue it."),
)
def frame_against_hive_across(frame_width: Length, stack_outside_width: Length) -> Length:
    """How much wider the frame is than what stands on it, side to side.

    A frame that stands out catches rain and leads it in under the box; a narrow one leaves the box
    hanging over.
    """
    return frame_width - stack_outside_width


@harms(
    *flush(
        "Cut a new back rail: it must cover the ends of both side rails.", "Crosscut the back rail."
    )
)
def back_rail_covers(back_rail_length: Length, frame_width: Length) -> Length:
    """How much longer the back rail is than the frame is wide.

    A short one leaves end grain open to the rain, and its bolts sit near its ends; a long one
    stands out.
    """
    return back_rail_length - frame_width


@harms(
    at_most(
        AGREE,
        "Crosscut the longer side rail to the shorter, and cut panel and screen to the frame.",
    )
)
def side_rails_alike(side_rail_length: Lengths) -> Length:
    """How much the two side rails differ in length.

    With different sides the back rail stands askew, and no panel fits both sides.
    """
    return difference(*side_rail_length)


@harms(alike("Plane the higher rails down to the lowest."))
def rails_level(side_rail_width: Lengths, back_rail_width: Length, rail_top: Length) -> Length:
    """How far the highest rail stands above the lowest.

    A box on rails of different height rocks, and bees and wind get in under it.
    """
    return max(*side_rail_width, back_rail_width) - rail_top


@harms(
    at_least("-1/2", "Take a longer board."),
    at_most("1/4", "Crosscut the board: what stands out catches on everything."),
)
def landing_board_runs(landing_board_length: Length, frame_width: Length) -> Length:
    """How much longer the landing board is than the frame is wide.

    It runs across the whole front, so that bees that miss the middle still land on wood.
    """
    return landing_board_length - frame_width


@harms(at_least(0, "Take a narrower landing board, or rip this one.", widest="-1/8"))
def landing_board_over_ground(
    front_rail_width: Length, landing_board_width: Length, landing_board_thickness: Length
) -> Length:
    """How far the landing board's front edge stays above the bottom of the frame.

    At 30 degrees it falls by half its width, and its thickness hangs below that. A board that
    reaches below the frame stands on the ground before the frame does, and breaks off.
    """
    return front_rail_width - landing_board_width / 2 - landing_board_thickness


# ── fasteners ─────────────────────────────────────────────────────────────────────────────────


@harms(point_covered(SHORTER_BRAD))
def wood_past_long_brad(
    strip_narrow: Length, side_rail_left_thickness: Length, long_brad: Length
) -> Length:
    """Wood left beyond the point of a brad through a runner on edge into its rail.

    A brad as long as the wood comes out on the other side, where hands carry the hive. A runner
    that lies flat leaves more wood than one on edge.
    """
    return strip_narrow + side_rail_left_thickness - long_brad


@harms(at_least("1/4", LONGER_BRAD))
def long_brad_bite(long_brad: Length, strip_wide: Length) -> Length:
    """How deep a brad bites into the rail through a runner that lies flat.

    A brad that hardly reaches the rail lets the runner sag under the screen.
    """
    return long_brad - strip_wide


@harms(point_covered(SHORTER_BRAD))
def wood_past_short_brad(
    screen_side_strip_upper_left_thickness: Length,
    screen_side_strip_lower_left_thickness: Length,
    mesh_thickness: Length,
    short_brad: Length,
) -> Length:
    """Wood left beyond the point of a brad through the two flat strips of the screen.

    Two flat strips and the mesh are little more than twice the narrow side: the brad that you took
    for the runners comes out on the other side and scratches hands and frame.
    """
    return (
        screen_side_strip_upper_left_thickness
        + screen_side_strip_lower_left_thickness
        + mesh_thickness
        - short_brad
    )


@harms(at_least("1/8", LONGER_BRAD))
def short_brad_bite(
    short_brad: Length, screen_side_strip_upper_left_thickness: Length, mesh_thickness: Length
) -> Length:
    """How deep a brad bites into the lower strip, through the upper one and the mesh.

    A brad that hardly reaches the lower strip lets the screen come apart when it is pulled.
    """
    return short_brad - screen_side_strip_upper_left_thickness - mesh_thickness


@harms(point_covered(SHORTER_BRAD))
def wood_past_stop_brad(
    screen_front_stop_thickness: Length,
    mesh_thickness: Length,
    screen_end_strip_lower_front_thickness: Length,
    stop_brad: Length,
) -> Length:
    """Wood left beyond the point of a brad through the front stop.

    The stop is thin, so the brad of the other strips comes out below.
    """
    return (
        screen_front_stop_thickness
        + mesh_thickness
        + screen_end_strip_lower_front_thickness
        - stop_brad
    )


@harms(at_least("1/8", LONGER_BRAD, widest="1/16"))
def stop_brad_bite(
    stop_brad: Length, screen_front_stop_thickness: Length, mesh_thickness: Length
) -> Length:
    """How deep a brad bites into the strip below the front stop.

    A brad that hardly reaches the strip lets bees and boxes lift the stop.
    """
    return stop_brad - screen_front_stop_thickness - mesh_thickness


@harms(at_least("5/4", "Take longer screws.", widest=1))
def frame_screw_bite(frame_screw: Length, side_rail_left_thickness: Length) -> Length:
    """How deep a screw bites into the front rail's end, through the side rail.

    End grain holds a screw badly, so much of it must be in there.
    """
    return frame_screw - side_rail_left_thickness


@harms(at_least("3/4", "Take longer hanger bolts."))
def bolt_bite(hanger_bolt: Length, back_rail_thickness: Length, nut_room: Length) -> Length:
    """How deep the hanger bolt bites into the end of the side rail.

    The bolt passes the back rail, and washer and wing nut need thread. What is left must hold in
    end grain, the weakest way for a screw, each time you tighten the nut.
    """
    return hanger_bolt - back_rail_thickness - nut_room


@blocks(
    at_least("1/16", "Drill the hole wider."),
    at_most("1/4", "Put a wide washer under the nut, or drill new holes beside it."),
)
def bolt_play(bolt_hole: Length, bolt_diameter: Length) -> Length:
    """How much wider the clearance hole in the back rail is than the bolt.

    In a tight hole the back rail does not come off over two bolts that are never quite straight; a
    hole much wider than the bolt lets the rail hang.
    """
    return bolt_hole - bolt_diameter


@harms(at_least("3/8", "Take thinner bolts and drill narrower holes."))
def wood_beside_bolt_hole(side_rail_left_thickness: Length, bolt_hole: Length) -> Length:
    """Wood left in the back rail between the clearance hole and the rail's end.

    The bolt sits in the middle of the side rail, so the hole is half a stud from the back rail's
    end. With little wood left there the end splits off.
    """
    return (side_rail_left_thickness - bolt_hole) / 2


@harms(at_least("1/2", "Take a longer deck screw."))
def landing_screw_bite(deck_screw: Length, landing_board_thickness: Length) -> Length:
    """How deep a screw bites into the rails through the landing board.

    A landing board that is hardly held breaks off when the hive is carried.
    """
    return deck_screw - landing_board_thickness


@harms(point_covered("Take a shorter deck screw."))
def wood_past_landing_screw(
    landing_board_thickness: Length, front_rail_thickness: Length, deck_screw: Length
) -> Length:
    """Wood left beyond the point of a screw through the landing board into the front rail.

    A point inside the frame tears the panel when it is pulled out.
    """
    return landing_board_thickness + front_rail_thickness - deck_screw


@blocks(at_least(0, "Make the panel of two pieces, taped where they meet."))
def panel_out_of_board(
    panel_width: Length, panel_length: Length, foam_board_width: Length, foam_board_length: Length
) -> Length:
    """How much bigger a foam board is than the panel, in the tighter direction.

    A panel that is bigger than the biggest board, whichever way you turn it, cannot be cut in one
    piece.
    """
    return min(
        foam_board_width - min(panel_width, panel_length),
        foam_board_length - max(panel_width, panel_length),
    )
