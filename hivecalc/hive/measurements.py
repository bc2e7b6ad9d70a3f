"""What a hive file may give: each measurement with its default, its range and what it means."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal, TypeAlias

from hivecalc.length import length_from_text

Group: TypeAlias = Literal["measured", "chosen"]
Kind: TypeAlias = Literal["length", "count"]


@dataclass(frozen=True, slots=True)
class Measurement:
    """One line of the hive file: its name, default, accepted range, and what it means.

    >>> MEASUREMENTS["stud_width"].default
    Fraction(7, 2)
    >>> print(MEASUREMENTS["stud_width"].meaning)
    Width of a stud, the wide way, as measured.

    Lengths are in inches; a count is a whole number. default is None where only the builder knows.
    """

    name: str
    group: Group
    default: Fraction | None
    low: Fraction
    high: Fraction
    meaning: str
    reason: str
    kind: Kind = "length"


# A row: name, default ("" where there is none), lowest, highest, meaning, reason for the range.
# Defaults and ranges are common practice, no published source, unless a comment says more.
_Row: TypeAlias = tuple[str, str, str, str, str, str]

_A_HIVE: Final = "A hive is bigger than its frame of studs and smaller than a sheet of plywood."
_A_BOX: Final = (
    "The box holds at least two frames and goes into a hive smaller than a plywood sheet."
)
_SAWN_STRIP: Final = "The strips are ripped from one stud and still have to take a brad."
_PLYWOOD: Final = "Thinner plywood bends, and thicker makes the hive too heavy to lift."

_MEASURED: Final[tuple[_Row, ...]] = (
    ("hive_length", "", "8", "48",
     "Outside length of the hive where the box stands, front to back.", _A_HIVE),
    ("hive_width", "", "8", "48",
     "Outside width of the hive where the box stands, side to side.", _A_HIVE),
    # A dry 2x4 is 1 1/2 by 3 1/2 in: American Softwood Lumber Standard PS 20-20, Table 3.
    ("stud_thickness", "1 1/2", "1", "2 1/4",
     "Thickness of a stud, the thin way, as measured.",
     "A thinner stud splits at the screws, and a rough-sawn one is little over 2 in."),
    ("stud_width", "3 1/2", "2", "7 1/4",
     "Width of a stud, the wide way, as measured.",
     "Runners, panel and screen go into this height, and wider studs are hard to lift."),
    ("strip_narrow", "1/2", "1/4", "1",
     "Narrow side of the strip that serves as runner, screen frame and retainer.", _SAWN_STRIP),
    ("strip_wide", "3/4", "3/8", "1 1/4",
     "Wide side of the same strip.", _SAWN_STRIP),
    ("foam_thickness", "1", "1/2", "3",
     "Thickness of the foam board, as measured.",
     "Foam board for building is sold in these thicknesses."),
    ("mesh_thickness", "0.034", "0.01", "1/8",
     "Thickness of the mesh where two wires cross.",
     "Thinner wire is fly screen that bees chew through, and thicker lets bees pass between."),
    ("deck_thickness", "1/2", "1/4", "1",
     "Thickness of the plywood of the roof's deck, as measured.", _PLYWOOD),
    ("skirt_thickness", "1/2", "1/8", "1",
     "Thickness of the plywood of the roof's skirt, as measured.", _PLYWOOD),
    ("sheet_thickness", "1/4", "1/16", "3/4",
     "Thickness of the inner cover's sheets, as measured.", _PLYWOOD),
    ("skin_thickness", "1/2", "1/8", "1",
     "Thickness of the sleeve's plywood skin, as measured.", _PLYWOOD),
    ("board_thickness", "3/4", "3/8", "1 3/4",
     "Thickness of the boards of the box, as measured.",
     "A thinner board does not hold the frames' rest, and a thicker one is a stud."),
    # Corrugated plastic of 4 mm is nearly 5/32 in.
    ("cover_thickness", "5/32", "1/64", "1/2",
     "Thickness of the waterproof sheet on the roof, as measured.",
     "Sheet metal is the thinnest cover, and a 1 in screw must reach through cover and deck."),
    ("box_length", "", "6", "46",
     "Outside length of a single-wall box to be sleeved, front to back.", _A_BOX),
    ("box_width", "", "4", "46",
     "Outside width of a single-wall box to be sleeved, side to side.", _A_BOX),
    ("box_height", "", "4", "16",
     "Height of a single-wall box to be sleeved.",
     "A box holds a frame in its height, and a higher one full of honey cannot be lifted."),
    ("top_bar", "19", "8", "24",
     "Length of a frame's top bar, with both lugs.",
     "Frames from the smallest breeding box to the longest hives have such top bars."),
    ("frame_depth", "9 1/8", "3", "14",
     "Height of a whole frame.",
     "The shallowest honey frame and the deepest brood frame are within it."),
    ("lug_thickness", "3/8", "1/8", "3/4",
     "Thickness of the frame's lug where it rests on the box.",
     "A thinner lug breaks under honey, and a thicker one does not fit a rest."),
)  # fmt: skip

_CHOSEN: Final[tuple[_Row, ...]] = (
    ("slot_ease", "1/8", "1/32", "1/2",
     "Height of the panel's slot beyond the foam's thickness.",
     "Without ease the panel sticks, and with too much of it bees get round the panel."),
    ("panel_gap", "1/4", "1/16", "1",
     "Gap of the panel in its opening, both sides together.",
     "The loose panel must slide when wood has swollen, and still close the opening."),
    ("screen_gap", "1/8", "1/32", "1/2",
     "Gap of the screen in its opening, both sides together.",
     "The screen must slide, but bees must not pass beside it."),
    ("runner_gap", "1/2", "1/16", "1",
     "How far runners stop short, both ends together.",
     "Runners must not press against the rails, and must carry the panel to its ends."),
    ("entrance_height", "3/4", "1/4", "2 1/2",
     "Height ripped off the top of the front rail for the entrance.",
     "A bee needs about 1/4 in to pass, and the front rail needs height left to hold screws."),
    ("front_stop_height", "1/4", "1/8", "1",
     "Height of the thin strip on the front of the screen's upper frame.",
     "A thinner strip splits, and a higher one closes the entrance."),
    ("overhang", "2", "3/4", "6",
     "How far the roof's deck reaches beyond the hive, each side.",
     "The deck must reach beyond the rim, and too wide a deck catches the wind."),
    ("cap_clearance", "1/2", "1/8", "1",
     "How much bigger than the hive the roof's rim is, both sides together.",
     "The roof must come off when wood has swollen, and must not shift about."),
    ("rim_low_height", "1 1/2", "1/2", "6",
     "Height of the roof's tapered side at the back, its low end.",
     "The low end still has to hold a screw, and must stay below the stud's width."),
    ("rim_back_thickness", "1", "1/2", "2 1/4",
     "Thickness of the rim's back rail, which is ripped thin.",
     "A thinner rail does not hold the deck's screws, and a stud is no thicker."),
    ("skirt_width", "2", "3/4", "8",
     "Width of the roof's skirt, from the deck's underside down.",
     "The skirt covers the rim and laps the box, and a wider one hinders lifting."),
    ("cover_lip", "1/2", "1/8", "2",
     "How far the waterproof sheet reaches beyond the deck, each side.",
     "Without a lip water runs back under the deck, and a long lip breaks off."),
    ("inner_rim_height", "1/2", "1/4", "2",
     "Height of the inner cover's rim between its two sheets.",
     "Lower than 1/4 in no bee can pass through the notch, and higher is filled with comb."),
    ("inner_notch", "2", "1/2", "3",
     "Length of the notch in the inner cover's front rim.",
     "Bees need room to pass, and the rim needs wood on both sides of the notch."),
    ("edge_strip_height", "3/4", "3/8", "1 1/2",
     "Height of the strips that close the sleeve's foam at top and bottom.",
     "A lower strip splits, and higher ones leave no room for foam."),
    ("frames", "10", "2", "30",
     "Number of frames in the box: give it to build the box from the frames outwards.",
     "Two frames make the smallest colony, and more than thirty do not go into a hive of 48 in."),
    ("frame_spacing", "1 3/8", "1 1/4", "2",
     "Width that one frame takes, from centre to centre.",
     "Closer frames leave bees no way between, and wider ones get extra comb."),
    ("frame_play", "1", "1/8", "2",
     "Room beyond the frames across the box, to lift the first one out.",
     "Without play no frame comes out, and bees fill more than that with comb."),
    ("rest_overlap", "3/8", "1/4", "3/4",
     "How far each end of a frame rests on the box.",
     "With less a frame falls off its rest, and with more the board is cut through."),
    ("rest_ease", "1/8", "1/32", "1/2",
     "Ease of the frame between its two rests.",
     "Without ease the frame sticks, and with more it slips off."),
    ("rest_depth", "5/8", "1/8", "1 1/2",
     "Depth of the rest below the top of the box.",
     "The lug lies in the rest, and bees must find no more than a bee space over it."),
    ("space_below", "1/4", "0", "1",
     "Space between the frames and the bottom of the box.",
     "None is needed where the frames end flush, and more is filled with comb."),
    ("joint_depth", "3/8", "0", "1 1/2",
     "Depth of the rabbet in the box's corner joints, or 0 for a butt joint.",
     "The rabbet must leave wood in the board."),
)  # fmt: skip


def _measurement(group: Group, row: _Row) -> Measurement:
    name, default, low, high, meaning, reason = row
    value = length_from_text(default) if default else None
    kind: Kind = "count" if name == "frames" else "length"
    ends = length_from_text(low), length_from_text(high)
    return Measurement(name, group, value, *ends, meaning, reason, kind)


MEASUREMENTS: Final[Mapping[str, Measurement]] = {
    known.name: known
    for known in (
        *(_measurement("measured", row) for row in _MEASURED),
        *(_measurement("chosen", row) for row in _CHOSEN),
    )
}
"""Every name that a hive file may give, in the order of the file."""

SECTIONS: Final[tuple[Group, ...]] = ("measured", "chosen")
HIVE_SIZES: Final = ("hive_length", "hive_width")
BOX_SIZES: Final = ("box_length", "box_width", "box_height")

DEFAULTS: Final = {
    name: known.default for name, known in MEASUREMENTS.items() if known.default is not None
}
"""The value of each measurement that need not be given, by name."""


def in_section(group: Group) -> list[Measurement]:
    """Measurements of one section of the file, in its order.

    >>> [known.name for known in in_section("chosen")][:2]
    ['slot_ease', 'panel_gap']
    """
    return [known for known in MEASUREMENTS.values() if known.group == group]
