"""What pieces come to when they are put together as they were cut, component by component.

Sizes that the plan has too carry the same names, and are the same for pieces cut exactly.
"""

from hivecalc.length import Count, Length, Lengths, Ratio

COMPONENT = "bottom_board"


def opening_length(side_rail_length: Lengths, front_rail_thickness: Length) -> Length:
    """Length of the opening inside the frame, front to back, where it is shorter.

    The back is bolted tight against the ends of the side rails, so the opening ends where the
    shorter side rail ends. Only the front rail takes its thickness off.
    """
    return min(*side_rail_length) - front_rail_thickness


def opening_width(front_rail_length: Length) -> Length:
    """Width of the opening inside the frame, side to side.

    The front rail stands between the sides, so the opening is as wide as the front rail is long.
    """
    return front_rail_length


def frame_length(side_rail_length: Lengths, back_rail_thickness: Length) -> Length:
    """Length of the whole frame, front to back, where it is longer.

    The back rail covers the ends of the side rails.
    """
    return max(*side_rail_length) + back_rail_thickness


def frame_width(front_rail_length: Length, side_rail_thickness: Lengths) -> Length:
    """Width of the whole frame, side to side.

    The side rails stand against the ends of the front rail.
    """
    return front_rail_length + sum(side_rail_thickness)


def rail_top(side_rail_width: Lengths, back_rail_width: Length) -> Length:
    """Height of the rails that the box stands on, where they are lowest."""
    return min(*side_rail_width, back_rail_width)


def lower_runner_height(
    lower_side_runner_width: Lengths, lower_front_runner_width: Length
) -> Length:
    """Height of the lower runners as they stand in the frame, the highest of them."""
    return max(*lower_side_runner_width, lower_front_runner_width)


def upper_runner_height(
    upper_side_runner_thickness: Lengths, upper_front_runner_thickness: Length
) -> Length:
    """Height of the upper runners as they lie in the frame, the highest of them."""
    return max(*upper_side_runner_thickness, upper_front_runner_thickness)


def screen_underside(
    lower_runner_height: Length, slot_height: Length, upper_runner_height: Length
) -> Length:
    """Height of the screen's underside above the bottom of the frame.

    The screen lies on the upper runners.
    """
    return lower_runner_height + slot_height + upper_runner_height


def mesh_top(
    screen_underside: Length,
    screen_side_strip_lower_thickness: Lengths,
    screen_end_strip_lower_thickness: Lengths,
    mesh_thickness: Length,
) -> Length:
    """Height of the mesh's upper face above the bottom of the frame."""
    return (
        screen_underside
        + max(*screen_side_strip_lower_thickness, *screen_end_strip_lower_thickness)
        + mesh_thickness
    )


def stack_height(
    mesh_top: Length,
    screen_side_strip_upper_thickness: Lengths,
    screen_end_strip_upper_back_thickness: Length,
) -> Length:
    """Height of everything stacked in the frame: runners, slot and screen."""
    return mesh_top + max(*screen_side_strip_upper_thickness, screen_end_strip_upper_back_thickness)


def headroom(rail_top: Length, stack_height: Length) -> Length:
    """Room left above the stack, below the top of the rails."""
    return rail_top - stack_height


def front_stop_top(mesh_top: Length, screen_front_stop_thickness: Length) -> Length:
    """Height of the front stop's top above the bottom of the frame."""
    return mesh_top + screen_front_stop_thickness


def way_in(rail_top: Length, front_rail_width: Length, front_stop_top: Length) -> Length:
    """Height of the way in for the bees, at its lowest place.

    The box stands on the rails; front rail and front stop stand in the way.
    """
    return rail_top - max(front_rail_width, front_stop_top)


def screen_length(screen_side_strip_length: Lengths) -> Length:
    """Length of the screen, front to back, where it is longest."""
    return max(*screen_side_strip_length)


def screen_width(
    screen_end_strip_length: Lengths,
    screen_front_stop_length: Length,
    screen_side_strip_lower_width: Lengths,
) -> Length:
    """Width of the screen, side to side, where it is widest.

    The end strips and the front stop lie between the side strips, which they push apart.
    """
    return max(*screen_end_strip_length, screen_front_stop_length) + sum(
        screen_side_strip_lower_width
    )


COMPONENT = "roof"


def rim_length(rim_side_length: Lengths) -> Length:
    """Overall length of the rim, front to back, where it is longer."""
    return max(*rim_side_length)


def rim_width(
    rim_front_length: Length, rim_back_length: Length, rim_side_thickness: Lengths
) -> Length:
    """Overall width of the rim, side to side, where it is wider."""
    return max(rim_front_length, rim_back_length) + sum(rim_side_thickness)


def rim_opening_length(
    rim_side_length: Lengths, rim_front_thickness: Length, roof_rim_back_thickness: Length
) -> Length:
    """Length inside the rim, front to back, where it is shorter."""
    return min(*rim_side_length) - rim_front_thickness - roof_rim_back_thickness


def rim_opening_width(rim_front_length: Length, rim_back_length: Length) -> Length:
    """Width inside the rim, side to side, where it is narrower."""
    return min(rim_front_length, rim_back_length)


def clear_length(
    skirt_side_length: Lengths, skirt_end_thickness: Lengths, rim_length: Length
) -> Length:
    """Length inside the skirt, front to back, where the box has to go in.

    The ends of the skirt stand against the rim. Skirt sides that are short pull them in; long ones
    do not push them out.
    """
    return min(min(*skirt_side_length) - sum(skirt_end_thickness), rim_length)


def clear_width(skirt_end_length: Lengths, rim_width: Length) -> Length:
    """Width inside the skirt, side to side, where the box has to go in.

    The sides of the skirt stand against the rim and the ends of the skirt; short ends pull them in.
    """
    return min(*skirt_end_length, rim_width)


def slope(rim_side_width: Lengths, rim_low_height: Length, rim_length: Length) -> Ratio:
    """Fall of the roof for each inch of its length."""
    return (max(*rim_side_width) - rim_low_height) / rim_length


def lap(
    skirt_end_width: Lengths,
    skirt_side_width: Lengths,
    rim_low_height: Length,
    inner_cover: Count,
    inner_cover_overall_height: Length,
) -> Length:
    """How far the skirt reaches down over the box, where it reaches least."""
    return (
        min(*skirt_end_width, *skirt_side_width) - rim_low_height - inner_cover_overall_height
        if inner_cover
        else min(*skirt_end_width, *skirt_side_width) - rim_low_height
    )


def deck_overhang_along(deck_length: Length, rim_length: Length) -> Length:
    """How far the deck stands out beyond the rim, front and back alike."""
    return (deck_length - rim_length) / 2


def deck_overhang_across(deck_width: Length, rim_width: Length) -> Length:
    """How far the deck stands out beyond the rim, left and right alike."""
    return (deck_width - rim_width) / 2


def cover_lip_along(cover_length: Length, deck_length: Length) -> Length:
    """How far the cover stands out beyond the deck, front and back alike."""
    return (cover_length - deck_length) / 2


def cover_lip_across(cover_width: Length, deck_width: Length) -> Length:
    """How far the cover stands out beyond the deck, left and right alike."""
    return (cover_width - deck_width) / 2


COMPONENT = "inner_cover"


def overall_length(rim_side_length: Lengths) -> Length:
    """Length of the rim between the sheets, front to back, where it is longer."""
    return max(*rim_side_length)


def overall_width(
    inner_notch: Count, rim_back_length: Length, rim_front_length: Length, rim_side_width: Lengths
) -> Length:
    """Width of the rim between the sheets, side to side, where it is wider.

    Only a front of one piece pushes the sides apart; two pieces leave the notch between them.
    """
    return (
        rim_back_length + sum(rim_side_width)
        if inner_notch
        else max(rim_back_length, rim_front_length) + sum(rim_side_width)
    )


def notch_length(rim_back_length: Length, rim_front_length: Lengths) -> Length:
    """Length of the notch that the two pieces of the front leave open."""
    return rim_back_length - sum(rim_front_length)


def overall_height(
    rim_side_thickness: Lengths,
    inner_cover_rim_back_thickness: Length,
    rim_front_thickness: Length,
    rim_front_left_thickness: Length,
    rim_front_right_thickness: Length,
    sheet_thickness: Lengths,
) -> Length:
    """Height of the whole inner cover, where it is highest.

    The front of the rim is one piece or two; what is not there counts nothing.
    """
    return max(
        *rim_side_thickness,
        inner_cover_rim_back_thickness,
        rim_front_thickness,
        rim_front_left_thickness,
        rim_front_right_thickness,
    ) + sum(sheet_thickness)


COMPONENT = "box"


def inside_length(side_length: Lengths, end_thickness: Lengths) -> Length:
    """Length inside the box, front to back, where it is shorter."""
    return min(*side_length) - sum(end_thickness)


def inside_width(end_length: Lengths, joint_depth: Length) -> Length:
    """Width inside the box, side to side, where it is narrower.

    Each end reaches into both sides by the depth of the rabbet.
    """
    return min(*end_length) - 2 * joint_depth


def box_length(side_length: Lengths) -> Length:
    """Outside length of the box, front to back, where it is longer."""
    return max(*side_length)


def box_width(end_length: Lengths, joint_depth: Length, side_thickness: Lengths) -> Length:
    """Outside width of the box, side to side, where it is wider."""
    return max(*end_length) - 2 * joint_depth + sum(side_thickness)


def box_height(side_width: Lengths, end_width: Lengths) -> Length:
    """Height of the box, where it is highest."""
    return max(*side_width, *end_width)


def space_above(rest_depth: Length, lug_thickness: Length) -> Length:
    """Space above the frames, up to the top of the box."""
    return rest_depth - lug_thickness


def space_beneath(
    side_width: Lengths, end_width: Lengths, space_above: Length, frame_depth: Length
) -> Length:
    """Space between the frames and the bottom of the box, where it is lowest."""
    return min(*side_width, *end_width) - space_above - frame_depth


def space_between(space_above: Length, space_beneath: Length) -> Length:
    """Space between the frames of two boxes that stand on one another."""
    return space_above + space_beneath


COMPONENT = "sleeve"


def outside_length(skin_side_length: Lengths, skin_end_thickness: Lengths) -> Length:
    """Outside length of the sleeve, front to back, where it is longer.

    The skin's ends cover the edges of its sides.
    """
    return max(*skin_side_length) + sum(skin_end_thickness)


def outside_width(
    box_width: Length, foam_side_thickness: Lengths, skin_side_thickness: Lengths
) -> Length:
    """Outside width of the sleeve, side to side.

    Foam and skin stand at both sides of the box.
    """
    return box_width + sum(foam_side_thickness) + sum(skin_side_thickness)


def clear_height(
    box_height: Length,
    edge_strip_side_lower_width: Lengths,
    edge_strip_end_lower_width: Lengths,
    edge_strip_side_upper_width: Lengths,
    edge_strip_end_upper_width: Lengths,
) -> Length:
    """Clear height between the edge strips, where the foam stands, at its lowest place."""
    return (
        box_height
        - max(*edge_strip_side_lower_width, *edge_strip_end_lower_width)
        - max(*edge_strip_side_upper_width, *edge_strip_end_upper_width)
    )


def bearing(
    bottom_board_side_rail_left_thickness: Length,
    foam_side_left_thickness: Length,
    skin_side_left_thickness: Length,
) -> Length:
    """How much of the box's foot bears on the bottom board's rails."""
    return (
        bottom_board_side_rail_left_thickness - foam_side_left_thickness - skin_side_left_thickness
    )


COMPONENT = "stack"  # what stands between bottom board and roof, from outside


def stack_outside_length(
    hive_length: Length, sleeved: Count, sleeve_outside_length: Length
) -> Length:
    """Outside length of what stands on the bottom board, front to back."""
    return sleeve_outside_length if sleeved else hive_length


def wall_thickness(
    board_thickness: Length,
    sleeved: Count,
    sleeve_foam_end_front_thickness: Length,
    sleeve_skin_end_front_thickness: Length,
) -> Length:
    """Thickness of the wall in front, from outside to where the bees are."""
    return (
        board_thickness + sleeve_foam_end_front_thickness + sleeve_skin_end_front_thickness
        if sleeved
        else board_thickness
    )


def stack_outside_width(hive_width: Length, sleeved: Count, sleeve_outside_width: Length) -> Length:
    """Outside width of what stands on the bottom board, side to side."""
    return sleeve_outside_width if sleeved else hive_width
