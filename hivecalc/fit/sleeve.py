"""Does the sleeve close round its box, and does the hive agree with it: one function a rule."""

from typing import Final

from hivecalc.components import LEAST_BEARING
from hivecalc.derivation import difference
from hivecalc.fit.rule import (
    AGREE,
    READINGS_AGREE,
    SNUG,
    at_least,
    at_most,
    flush,
    harms,
    note,
    point_covered,
    snug,
)
from hivecalc.hive import MEASUREMENTS
from hivecalc.length import UNITS, Length, Lengths, with_unit

_STRIP: Final = MEASUREMENTS["edge_strip_height"]
HIGHEST_STRIP: Final = f"[{'|'.join(with_unit(u, _STRIP.limits(u)[1]) for u in UNITS)}]"
FOAM_IN_CORNER: Final = (
    at_least(-AGREE, "Trim the foam."),
    at_most(SNUG, "Press a strip of foam into the corner."),
)
STRIP_FLUSH: Final = flush("Crosscut the strip.", "Cut a new strip; it costs a minute.")
SKIN_FLUSH: Final = flush("Trim the skin.", "Cut a new skin, or close the corner with a strip.")


@harms(*snug("Trim the foam."))
def foam_between_strips(
    clear_height: Length, foam_side_width: Lengths, foam_end_width: Lengths
) -> Length:
    """Gap left between the foam and the edge strips, where the foam is highest.

    Foam that is too high does not go in; through a wide gap the warmth goes out.
    """
    return clear_height - max(*foam_side_width, *foam_end_width)


@harms(*FOAM_IN_CORNER)
def foam_along_box(box_length: Length, foam_side_length: Lengths) -> Length:
    """How much shorter the foam at a side is than the box, where it is longest.

    Foam that is too long pushes the foam of the ends off the box; a gap in the corner leaks.
    """
    return box_length - max(*foam_side_length)


@harms(*FOAM_IN_CORNER)
def foam_across_box(
    box_width: Length, foam_side_thickness: Lengths, foam_end_length: Lengths
) -> Length:
    """How much shorter the foam at an end is than box and foam together, where it is longest.

    Foam that is too long pushes the skin off; a gap in the corner leaks.
    """
    return box_width + sum(foam_side_thickness) - max(*foam_end_length)


@harms(*STRIP_FLUSH)
def strips_along_box(box_length: Length, edge_strip_side_length: Lengths) -> Length:
    """How much shorter the edge strips along the sides are than the box, the longest of them.

    A strip that is too long pushes the strips of the ends off the box; a short one leaves foam open
    to ants and mice.
    """
    return box_length - max(*edge_strip_side_length)


@harms(*STRIP_FLUSH)
def strips_across_box(
    box_width: Length, foam_side_thickness: Lengths, edge_strip_end_length: Lengths
) -> Length:
    """How much shorter the edge strips along the ends are than box and foam, the longest of them.

    A strip that is too long pushes the skin off; a short one leaves foam open to ants and mice.
    """
    return box_width + sum(foam_side_thickness) - max(*edge_strip_end_length)


@harms(*SKIN_FLUSH)
def skin_along_foam(
    box_length: Length, foam_end_thickness: Lengths, skin_side_length: Lengths
) -> Length:
    """How much shorter the skin at a side is than box and foam together, where it is longest.

    A skin that is too long holds the skin of the ends off the foam; a short one leaves the corner
    open.
    """
    return box_length + sum(foam_end_thickness) - max(*skin_side_length)


@harms(*SKIN_FLUSH)
def skin_across_sleeve(outside_width: Length, skin_end_length: Lengths) -> Length:
    """How much shorter the skin at an end is than the whole sleeve is wide, where it is longest.

    A skin that stands out catches the roof's skirt; a short one leaves the edges of the other skins
    open to rain.
    """
    return outside_width - max(*skin_end_length)


@harms(
    *flush(
        "Trim the skin flush with the box.", "Leave the gap at the top, and close it with a strip."
    )
)
def skin_as_high_as_box(
    box_height: Length, skin_side_width: Lengths, skin_end_width: Lengths
) -> Length:
    """How much lower the skin is than the box, where it is highest.

    A skin that stands above the box keeps cover and box apart; a low one leaves the edge strip's
    joint open to the rain.
    """
    return box_height - max(*skin_side_width, *skin_end_width)


@harms(at_most(SNUG, "Press a strip of foam in beside the smaller piece."))
def foam_alike(
    foam_side_length: Lengths,
    foam_end_length: Lengths,
    foam_side_width: Lengths,
    foam_end_width: Lengths,
) -> Length:
    """How much pieces of foam that should be alike differ, where they differ most.

    Beside a smaller piece warmth goes out.
    """
    return max(
        difference(*foam_side_length),
        difference(*foam_end_length),
        difference(*foam_side_width, *foam_end_width),
    )


@harms(at_most(AGREE, "Trim the bigger skin, or cut the smaller one new.", widest=2 * AGREE))
def skins_alike(
    skin_side_length: Lengths,
    skin_end_length: Lengths,
    skin_side_width: Lengths,
    skin_end_width: Lengths,
) -> Length:
    """How much skins that should be alike differ, where they differ most.

    A smaller skin leaves a corner or an edge open to the rain.
    """
    return max(
        difference(*skin_side_length),
        difference(*skin_end_length),
        difference(*skin_side_width, *skin_end_width),
    )


@harms(at_most(AGREE, "Cut a new strip; it costs a minute.", widest=2 * AGREE))
def edge_strips_alike(
    edge_strip_side_length: Lengths,
    edge_strip_end_length: Lengths,
    edge_strip_side_width: Lengths,
    edge_strip_end_width: Lengths,
) -> Length:
    """How much edge strips that should be alike differ, where they differ most.

    Beside a smaller strip the foam is open to ants and mice, and the box stands on the others.
    """
    return max(
        difference(*edge_strip_side_length),
        difference(*edge_strip_end_length),
        difference(*edge_strip_side_width, *edge_strip_end_width),
    )


@harms(at_least("1/4", "Take longer screws for the edge strips."))
def edge_screw_bite(edge_screw: Length, edge_strip_side_lower_left_thickness: Length) -> Length:
    """How deep a screw bites into the box's board, through an edge strip.

    Those screws carry the whole box where its walls stand over the opening.
    """
    return edge_screw - edge_strip_side_lower_left_thickness


@harms(point_covered("Take a shorter brad for the skin."))
def wood_past_skin_brad(
    skin_side_left_thickness: Length,
    edge_strip_side_lower_left_thickness: Length,
    long_brad: Length,
) -> Length:
    """Wood left beyond the point of a brad through the skin into an edge strip.

    A brad that goes through the strip holds the box's board instead, and splits it.
    """
    return skin_side_left_thickness + edge_strip_side_lower_left_thickness - long_brad


@note(
    at_least(
        LEAST_BEARING,
        f"Make the edge strips {HIGHEST_STRIP} high, glue and screw them: the lower ones carry the "
        "box. Or take a thinner skin.",
    )
)
def box_bearing(bearing: Length) -> Length:
    """How much of the box's foot bears on the bottom board's rails.

    With little or nothing left the box's walls stand over the opening, and its weight hangs on the
    lower edge strips and their screws.
    """
    return bearing


@harms(*READINGS_AGREE)
def hive_against_sleeve_along(hive_length: Length, outside_length: Length) -> Length:
    """How much longer the hive was measured than box, foam and skin make it.

    Bottom board and roof are cut to the hive's length. Where two ways to it disagree, one of them
    is wrong, and the skin overhangs the board or falls short of it.
    """
    return hive_length - outside_length


@harms(*READINGS_AGREE)
def hive_against_sleeve_across(hive_width: Length, outside_width: Length) -> Length:
    """How much wider the hive was measured than box, foam and skin make it.

    Bottom board and roof are cut to the hive's width. Where two ways to it disagree, one of them is
    wrong, and the skin overhangs the board or falls short of it.
    """
    return hive_width - outside_width
