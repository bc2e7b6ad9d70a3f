"""The insulated sleeve: foam round a single-wall box, and a plywood skin round the foam.

Edge strips as thick as the foam close its top and bottom edges. Figures in the examples are common
practice, no published source.
"""

from hivecalc.derivation import rounds
from hivecalc.length import Length, Rounding
from hivecalc.part import ENDS, SIDES, Part

FOAM_GOES_IN = "The foam must go in between its strips: a hair too small is harmless."


def sleeve_foam_thickness(foam_thickness: Length) -> Length:
    """Thickness of the sleeve's foam.

    The sleeve has the same foam as the rest, unless you measured another for it; two layers count
    together.

    >>> sleeve_foam_thickness(1)
    1
    """
    return foam_thickness


def hive_length(
    box_length: Length, sleeve_foam_thickness: Length, skin_thickness: Length
) -> Length:
    """Outside length of the sleeved hive, front to back.

    Foam and skin are added to the box at each end.

    >>> hive_length(19.875, 1, 0.5)
    22.875
    """
    return box_length + 2 * (sleeve_foam_thickness + skin_thickness)


def hive_width(box_width: Length, sleeve_foam_thickness: Length, skin_thickness: Length) -> Length:
    """Outside width of the sleeved hive, side to side.

    Foam and skin are added to the box at each side.

    >>> hive_width(16.25, 1, 0.5)
    19.25
    """
    return box_width + 2 * (sleeve_foam_thickness + skin_thickness)


def clear_height(box_height: Length, edge_strip_height: Length) -> Length:
    """Clear height between the edge strips, where the foam stands.

    One edge strip closes the foam's top and one its bottom.

    >>> clear_height(9.625, 0.75)
    8.125
    """
    return box_height - 2 * edge_strip_height


@rounds(Rounding.DOWN, FOAM_GOES_IN)
def foam_side_width(clear_height: Length) -> Length:
    """Height of the foam at one side.

    It stands between the edge strips.

    >>> foam_side_width(8.125)
    8.125
    """
    return clear_height


@rounds(Rounding.DOWN, FOAM_GOES_IN)
def foam_end_width(clear_height: Length) -> Length:
    """Height of the foam at one end.

    It stands between the edge strips.

    >>> foam_end_width(8.125)
    8.125
    """
    return clear_height


def foam_side_length(box_length: Length) -> Length:
    """Length of the foam at one side.

    It is as long as the box; the foam at the ends covers its edges.

    >>> foam_side_length(19.875)
    19.875
    """
    return box_length


def foam_end_length(box_width: Length, sleeve_foam_thickness: Length) -> Length:
    """Length of the foam at one end.

    It covers the edges of the foam at both sides, so both their thicknesses are added.

    >>> foam_end_length(16.25, 1)
    18.25
    """
    return box_width + 2 * sleeve_foam_thickness


def edge_strip_side_length(foam_side_length: Length) -> Length:
    """Length of one edge strip along a side.

    It closes the foam's edge, so it is as long as that foam.

    >>> edge_strip_side_length(19.875)
    19.875
    """
    return foam_side_length


def edge_strip_end_length(foam_end_length: Length) -> Length:
    """Length of one edge strip along an end.

    It closes the foam's edge, so it is as long as that foam.

    >>> edge_strip_end_length(18.25)
    18.25
    """
    return foam_end_length


def skin_side_length(box_length: Length, sleeve_foam_thickness: Length) -> Length:
    """Length of the skin at one side.

    It covers the foam at the side and the edges of the foam at both ends.

    >>> skin_side_length(19.875, 1)
    21.875
    """
    return box_length + 2 * sleeve_foam_thickness


def skin_end_length(
    box_width: Length, sleeve_foam_thickness: Length, skin_thickness: Length
) -> Length:
    """Length of the skin at one end.

    It covers the edges of the skin at both sides as well as the foam.

    >>> skin_end_length(16.25, 1, 0.5)
    19.25
    """
    return box_width + 2 * (sleeve_foam_thickness + skin_thickness)


def edge_screw(sleeve_foam_thickness: Length, board_thickness: Length) -> Length:
    """Length of the screws that hold the edge strips to the box.

    An edge strip is as thick as the foam; behind it the screw goes half-way into the box's board.

    >>> edge_screw(1, 0.75)
    1.375
    """
    return sleeve_foam_thickness + board_thickness / 2


def bearing(
    stud_thickness: Length, sleeve_foam_thickness: Length, skin_thickness: Length
) -> Length:
    """How much of the box's foot bears on the bottom board's rails.

    Foam and skin stand on the outer part of each rail; what they leave of it carries the box. With
    nothing left the lower edge strips and their screws carry it.

    >>> bearing(1.5, 1, 0.5)
    0.0
    """
    return stud_thickness - sleeve_foam_thickness - skin_thickness


PARTS = (
    Part("foam_side", SIDES, "foam", "sleeve_foam_thickness", "foam_side_width", "foam_side_length",
        "Stands against the box's side between the edge strips."),
    Part("foam_end", ENDS, "foam", "sleeve_foam_thickness", "foam_end_width", "foam_end_length",
        "Stands against the box's end and covers the edges of the foam at the sides."),
    Part("edge_strip_side", ("lower left", "lower right", "upper left", "upper right"), "strip",
        "sleeve_foam_thickness", "edge_strip_height", "edge_strip_side_length",
        "Closes the top or bottom edge of the foam along a side."),
    Part("edge_strip_end", ("lower front", "lower back", "upper front", "upper back"), "strip",
        "sleeve_foam_thickness", "edge_strip_height", "edge_strip_end_length",
        "Closes the top or bottom edge of the foam along an end."),
    Part("skin_side", SIDES, "plywood", "skin_thickness", "box_height", "skin_side_length",
        "Covers the foam at one side."),
    Part("skin_end", ENDS, "plywood", "skin_thickness", "box_height", "skin_end_length",
        "Covers the foam at one end and the edges of the skin at both sides."),
)  # fmt: skip
