"""The inner cover: a rim of thin strips with a plywood sheet above and below, and one notch.

Its rim strips are as wide as the stud is thick. Overall it is exactly as long and as wide as the
hive. Figures in the examples are common practice, no published source.
"""

from hivecalc.length import Length
from hivecalc.part import Part


def rim_side_length(hive_length: Length) -> Length:
    """Length of one side of the inner cover's rim.

    The sides run the hive's whole length; front and back lie between them.

    >>> rim_side_length(22.75)
    22.75
    """
    return hive_length


def rim_front_length(hive_width: Length, stud_thickness: Length, inner_notch: Length) -> Length:
    """Length of the front of the inner cover's rim, both pieces together.

    It lies between the sides, whose strips are as wide as a stud is thick, and leaves the notch
    open: two pieces, with the notch between them where you want it.

    >>> rim_front_length(16.25, 1.5, 2)
    11.25
    """
    return hive_width - 2 * stud_thickness - inner_notch


def rim_back_length(hive_width: Length, stud_thickness: Length) -> Length:
    """Length of the back of the inner cover's rim.

    It lies between the sides, whose strips are as wide as a stud is thick.

    >>> rim_back_length(16.25, 1.5)
    13.25
    """
    return hive_width - 2 * stud_thickness


def overall_height(inner_rim_height: Length, sheet_thickness: Length) -> Length:
    """Height of the whole inner cover.

    The rim lies between two sheets, so the sheet counts twice.

    >>> overall_height(0.5, 0.25)
    1.0
    """
    return inner_rim_height + 2 * sheet_thickness


PARTS = (
    Part(
        "rim_side", 2, "stud", "inner_rim_height", "stud_thickness", "rim_side_length",
        "Lies along one side between the two sheets.",
    ),
    Part(
        "rim_front", 1, "stud", "inner_rim_height", "stud_thickness", "rim_front_length",
        "Cut in two pieces, with the notch between them where you want it.",
    ),
    Part(
        "rim_back", 1, "stud", "inner_rim_height", "stud_thickness", "rim_back_length",
        "Lies across the back between the sides.",
    ),
    Part(
        "sheet", 2, "plywood", "sheet_thickness", "hive_width", "hive_length",
        "One above and one below the rim; still air between them.",
    ),
)  # fmt: skip
