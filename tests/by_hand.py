"""The whole hive worked out by hand: one straight function, written apart from the library.

It serves as the second way to compute every dimension, and as the measure of what the graph costs.
It takes the measurements by name and gives every dimension by its full name.
"""

from collections.abc import Mapping
from fractions import Fraction


def by_hand(m: Mapping[str, Fraction]) -> dict[str, Fraction]:
    t, w = m["stud_thickness"], m["stud_width"]
    n, b = m["strip_narrow"], m["strip_wide"]
    panel_foam = m.get("panel_foam_thickness", m["foam_thickness"])
    roof_foam = m.get("roof_foam_thickness", m["foam_thickness"])
    wrap = m.get("sleeve_foam_thickness", m["foam_thickness"])
    ply, skin, plank = m["sheet_thickness"], m["skin_thickness"], m["board_thickness"]

    # the box, from the frames outwards, then foam and skin round it
    room_long = m["top_bar"] - m["rest_overlap"] - m["rest_overlap"] + m["rest_ease"]
    room_wide = m["frame_play"] + m["frames"] * m["frame_spacing"]
    above = m["rest_depth"] - m["lug_thickness"]
    box_l = m.get("box_length", room_long + plank + plank)
    box_w = m.get("box_width", room_wide + plank + plank)
    box_h = m.get("box_height", above + m["frame_depth"] + m["space_below"])
    wall = wrap + skin
    length = m.get("hive_length", wall + box_l + wall)
    width = m.get("hive_width", wall + box_w + wall)

    rail_l, rail_w = length - t - t, width - t - t
    open_l = m.get("built_opening_length", rail_l)  # cut to the frame once it is measured
    open_w = m.get("built_opening_width", rail_w)
    runner_l = open_l - m["runner_gap"]
    pull_l, pull_w = open_l - m["screen_gap"], open_w - m["screen_gap"]
    slot = m["slot_ease"] + panel_foam
    below_mesh = b + slot + n + n + m["mesh_thickness"]
    stack = below_mesh + n
    stop_h = m.get("front_stop_height", w - below_mesh - m["bee_way"])
    sill, stop = w - m["entrance_height"], below_mesh + stop_h
    edge = 2 * m["mesh_margin"]

    half_gap = m["cap_clearance"] / 2
    rim_l, rim_w = length + half_gap + half_gap, width + half_gap + half_gap
    between = rim_w - t - t
    fall = (w - m["rim_low_height"]) / rim_l
    deck_l, deck_w = m["overhang"] + length + m["overhang"], m["overhang"] + width + m["overhang"]
    cover_l, cover_w = deck_l + m["cover_lip"] * 2, deck_w + m["cover_lip"] * 2
    foam_l = m.get("built_rim_opening_length", rim_l - t - m["rim_back_thickness"])
    foam_w = m.get("built_rim_opening_width", between)
    over = m["overhang"] - half_gap
    line = over + t / 2
    back_line = over + m["rim_back_thickness"] / 2
    lid = (ply + m["inner_rim_height"] + ply) if m["inner_cover"] else 0
    tall = m.get("skirt_width", m["roof_lap"] + lid + m["rim_low_height"])
    low_inside = m["rim_low_height"] + fall * m["rim_back_thickness"]
    notch = m["inner_notch"]
    front_piece = (rail_w - notch) / 2 if notch else rail_w
    channel = notch + n + n

    strip_h = m["edge_strip_height"]
    clear = box_h - strip_h - strip_h

    sizes = {
        "bottom_board.side_rail": (t, w, length - t),
        "bottom_board.front_rail": (t, sill, rail_w),
        "bottom_board.back_rail": (t, w, width),
        "bottom_board.lower_side_runner": (n, b, runner_l),
        "bottom_board.lower_front_runner": (n, b, open_w - n - n - m["runner_gap"]),
        "bottom_board.panel": (panel_foam, open_w - m["panel_gap"], open_l - m["panel_gap"]),
        "bottom_board.upper_side_runner": (n, b, runner_l),
        "bottom_board.upper_front_runner": (n, b, open_w - b - b - m["runner_gap"]),
        "bottom_board.screen_side_strip": (n, b, pull_l),
        "bottom_board.screen_end_strip": (n, b, pull_w - b - b),
        "bottom_board.screen_front_stop": (stop_h, b, pull_w - b - b),
        "bottom_board.mesh": (None, pull_w - edge, pull_l - edge),
        "bottom_board.landing_board": (m["landing_thickness"], m["landing_width"], width),
        "roof.rim_side": (t, w, rim_l),
        "roof.rim_front": (t, w, between),
        "roof.rim_back": (m["rim_back_thickness"], low_inside, between),
        "roof.deck": (m["deck_thickness"], deck_w, deck_l),
        "roof.roof_panel": (roof_foam, foam_w, foam_l),
        "roof.roof_retainer": (n, b, foam_l - m["runner_gap"]),
        "roof.skirt_end": (m["skirt_thickness"], tall, rim_w),
        "roof.skirt_side": (m["skirt_thickness"], tall, rim_l + 2 * m["skirt_thickness"]),
        "roof.cover": (m["cover_thickness"], cover_w, cover_l),
        "inner_cover.rim_side": (m["inner_rim_height"], t, length),
        "inner_cover.rim_front": (m["inner_rim_height"], t, front_piece),
        "inner_cover.rim_back": (m["inner_rim_height"], t, rail_w),
        "inner_cover.channel_side": (m["inner_rim_height"], n, m["inner_channel_depth"]),
        "inner_cover.channel_back": (m["inner_rim_height"], n, channel),
        "inner_cover.sheet": (ply, width, length),
        "box.side": (plank, box_h, box_l),
        "box.end": (plank, box_h, box_w - 2 * (plank - m["joint_depth"])),
        "sleeve.foam_side": (wrap, clear, box_l),
        "sleeve.foam_end": (wrap, clear, box_w + wrap + wrap),
        "sleeve.edge_strip_side": (wrap, strip_h, box_l),
        "sleeve.edge_strip_end": (wrap, strip_h, box_w + wrap + wrap),
        "sleeve.skin_side": (skin, box_h, box_l + wrap + wrap),
        "sleeve.skin_end": (skin, box_h, box_w + wall + wall),
    }
    found = {
        f"{part}_{size}": value
        for part, three in sizes.items()
        for size, value in zip(("thickness", "width", "length"), three, strict=True)
        if value is not None
    }
    return found | {
        "hive_length": length,
        "hive_width": width,
        "box_length": box_l,
        "box_width": box_w,
        "box_height": box_h,
        "practice.middle_rail_length": length - t - t,
        "practice.pan_end_length": open_w - n - m["panel_gap"] - n,
        "practice.middle_strip_length": pull_l - b - b,
        "practice.twin_rim_front_length": width + rim_w - t - t,
        "practice.notched_front_length": rail_w - notch,
        "practice.entrance_strip_length": open_w - m["screen_gap"],
        "practice.follower_length": room_long - m["rest_ease"] - m["rest_ease"],
        "bottom_board.opening_length": open_l,
        "bottom_board.opening_width": open_w,
        "bottom_board.screen_length": pull_l,
        "bottom_board.screen_width": pull_w,
        "panel_foam_thickness": panel_foam,
        "roof_foam_thickness": roof_foam,
        "sleeve_foam_thickness": wrap,
        "front_stop_height": stop_h,
        "skirt_width": tall,
        "bottom_board.mesh_top": below_mesh,
        "bottom_board.slot_height": slot,
        "bottom_board.lower_runner_height": b,
        "bottom_board.upper_runner_height": n,
        "bottom_board.stack_height": stack,
        "bottom_board.headroom": w - stack,
        "bottom_board.front_stop_top": stop,
        "bottom_board.way_in": min(w - sill, w - stop),
        "roof.rim_length": rim_l,
        "roof.rim_width": rim_w,
        "roof.slope": fall,
        "roof.rim_front_inner_height": w - fall * t,
        "roof.rim_back_inner_height": low_inside,
        "roof.lap": tall - m["rim_low_height"] - lid,
        "roof.deck_overhang": over,
        "roof.deck_screw_line": line,
        "roof.cover_screw_line": line + m["cover_lip"],
        "roof.deck_back_screw_line": back_line,
        "roof.cover_back_screw_line": back_line + m["cover_lip"],
        "inner_cover.overall_height": ply + m["inner_rim_height"] + ply,
        "box.inside_length": room_long,
        "box.inside_width": room_wide,
        "inner_cover.slot_length": notch,
        "inner_cover.slot_width": m["bee_way"],
        "inner_cover.slot_from_front": t + m["inner_channel_depth"] - m["bee_way"],
        "box.space_above": above,
        "box.space_between": above + m["space_below"],
        "sleeve.bearing": t - wall,
        "edge_screw": m.get("edge_screw", wrap + plank / 2),
        "sleeve.clear_height": clear,
    }
