"""The inner cover: a rim of thin strips with a plywood sheet above and below.

With a notch it has an upper way for bees and damp air: a slot through the lower sheet, a channel of
three strips round it, the notch in the front rim. How that is led differs from builder to builder;
this way is the course's own.

Its rim strips are as wide as the stud is thick. Overall it is exactly as long and as wide as the
hive. Figures in the examples are common practice, no published source.
"""

from hivecalc.length import Length
from hivecalc.part import LAYERS, ONE, SIDES, Part


def rim_side_length(hive_length: Length) -> Length:
    """Length of one side of the inner cover's rim.

    The sides run the hive's whole length; front and back lie between them.

    >>> rim_side_length(22.75)
    22.75
    """
    return hive_length


def rim_front_length(hive_width: Length, stud_thickness: Length, inner_notch: Length) -> Length:
    """Length of one piece of the front of the inner cover's rim.

    The front lies between the sides, whose strips are as wide as a stud is thick. The notch is left
    open in its middle, so there are two pieces, each half of what remains; without a notch there is
    one piece.

    >>> rim_front_length(16.25, 1.5, 2)
    5.625
    >>> rim_front_length(16.25, 1.5, 0)
    13.25
    """
    return (
        (hive_width - 2 * stud_thickness - inner_notch) / 2
        if inner_notch
        else hive_width - 2 * stud_thickness
    )


def rim_back_length(hive_width: Length, stud_thickness: Length) -> Length:
    """Length of the back of the inner cover's rim.

    It lies between the sides, whose strips are as wide as a stud is thick.

    >>> rim_back_length(16.25, 1.5)
    13.25
    """
    return hive_width - 2 * stud_thickness


def channel_side_length(inner_channel_depth: Length) -> Length:
    """Length of one side of the channel that leads from the slot to the notch.

    It reaches from the front rim back as far as you chose the channel's depth.

    >>> channel_side_length(1.5)
    1.5
    """
    return inner_channel_depth


def channel_back_length(inner_notch: Length, strip_narrow: Length) -> Length:
    """Length of the back of the channel.

    The channel is as wide as the notch. Its back covers the ends of both sides, so a strip's narrow
    side is added at each end.

    >>> channel_back_length(2, 0.5)
    3.0
    """
    return inner_notch + 2 * strip_narrow


def slot_length(inner_notch: Length) -> Length:
    """Length of the slot in the lower sheet, across the hive.

    It is as long as the notch that it leads to.

    >>> slot_length(2)
    2
    """
    return inner_notch


def slot_width(bee_way: Length) -> Length:
    """Width of the slot in the lower sheet, front to back.

    Bees and damp air pass through it, so it is as wide as the way in is high.

    >>> slot_width(0.3125)
    0.3125
    """
    return bee_way


def overall_height(inner_rim_height: Length, sheet_thickness: Length) -> Length:
    """Height of the whole inner cover.

    The rim lies between two sheets, so the sheet counts twice.

    >>> overall_height(0.5, 0.25)
    1.0
    """
    return inner_rim_height + 2 * sheet_thickness


def slot_from_front(
    stud_thickness: Length, inner_channel_depth: Length, slot_width: Length
) -> Length:
    """Distance of the slot's front edge from the front of the inner cover.

    The slot lies at the back end of the channel, behind the rim: further to the front it would open
    over the wall of a sleeved box, and the way would be shut.

    >>> slot_from_front(1.5, 1.5, 0.3125)
    2.6875
    """
    return stud_thickness + inner_channel_depth - slot_width


PARTS = (
    Part("rim_side", SIDES, "stud", "inner_rim_height", "stud_thickness", "rim_side_length",
        "Lies along one side between the two sheets."),
    Part("rim_front", SIDES, "stud", "inner_rim_height", "stud_thickness", "rim_front_length",
        "Lies at the front between the side and the notch.", only="inner_notch"),
    Part("rim_front", ONE, "stud", "inner_rim_height", "stud_thickness", "rim_front_length",
        "Lies across the front between the sides.", unless="inner_notch"),
    Part("rim_back", ONE, "stud", "inner_rim_height", "stud_thickness", "rim_back_length",
        "Lies across the back between the sides."),
    Part("channel_side", SIDES, "strip", "inner_rim_height", "strip_narrow", "channel_side_length",
        "Closes the channel from slot to notch at one side.", only="inner_notch"),
    Part("channel_back", ONE, "strip", "inner_rim_height", "strip_narrow", "channel_back_length",
        "Closes the channel at its back and covers the ends of its sides.", only="inner_notch"),
    Part("sheet", LAYERS, "plywood", "sheet_thickness", "hive_width", "hive_length",
        "One lies above the rim and one below it."),
)  # fmt: skip
