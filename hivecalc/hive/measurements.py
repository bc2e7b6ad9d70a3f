"""What a hive file may give: each measurement with its default, its range and what it means."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal, TypeAlias

from hivecalc.length import MM, UNITS, Units, length_from_text

Group: TypeAlias = Literal["measured", "chosen"]
Kind: TypeAlias = Literal["length", "count", "answer"]


@dataclass(frozen=True, slots=True)
class Measurement:
    """One line of the hive file: its name, defaults, accepted range, and what it means.

    Lengths are in inches, whatever the hive's units, which its defaults go by; a count is a whole
    number, an answer 1 for yes and 0 for no. A default is None where only the builder knows, or
    where the value is derived.
    """

    name: str
    group: Group
    defaults: Mapping[Units, Fraction | None]
    low: Fraction
    high: Fraction
    meaning: str
    reason: str
    kind: Kind = "length"

    def limits(self, units: Units) -> tuple[Fraction, Fraction]:
        """Lowest and highest value that is accepted in a hive of these units, in inches.

        For a hive in mm they are whole millimetres, and tenths below 1 mm.
        """
        if units == "inch" or self.kind != "length":
            return self.low, self.high
        return _to_the_mm(self.low), _to_the_mm(self.high)


def _to_the_mm(limit: Fraction) -> Fraction:
    step = MM if limit >= MM else MM / 10
    return round(limit / step) * step


def entry(  # noqa: PLR0913, PLR0917 - a row of a table
    name: str, low: str, high: str, meaning: str, reason: str, kind: Kind = "length"
) -> Measurement:
    """What may be typed somewhere that is no measurement of a hive: it has no default."""
    ends = Fraction(low), Fraction(high)
    return Measurement(name, "chosen", dict.fromkeys(UNITS), *ends, meaning, reason, kind)


# A row: name, default in inches, default in millimetres ("" where only the builder knows, or where
# it is derived), lowest, highest, meaning, reason for the range. Millimetres are not converted
# inches: they are what a metric builder would choose. Defaults and ranges are common practice, no
# published source, unless a comment says more.
_Row: TypeAlias = tuple[str, str, str, str, str, str, str]

_A_HIVE: Final = "A hive is bigger than its frame of studs and smaller than a sheet of plywood."
_A_BOX: Final = (
    "The box holds at least two frames and goes into a hive smaller than a plywood sheet."
)
_SAWN_STRIP: Final = "The strips are ripped from one stud and still have to take a brad."
_PLYWOOD: Final = "Thinner plywood bends, and thicker makes the hive too heavy to lift."
_FOAM_BOARD: Final = "Foam board for building is sold in these thicknesses, and two layers may lie \
on one another."
_AN_OPENING: Final = "It lies inside a hive of [8 to 48 in|20 to 122 cm], between two studs."
_FASTENER: Final = "Shorter ones do not hold, and longer ones are not sold for wood so thin."

_MEASURED: Final[tuple[_Row, ...]] = (
    ("hive_length", "", "", "8", "48",
     "Outside length of the hive where the box stands, front to back.", _A_HIVE),
    ("hive_width", "", "", "8", "48",
     "Outside width of the hive where the box stands, side to side.", _A_HIVE),
    # A dry 2x4 is 1 1/2 by 3 1/2 in: American Softwood Lumber Standard PS 20-20, Table 3.
    ("stud_thickness", "1 1/2", "38", "1", "2 1/4",
     "Thickness of a stud, the thin way, as measured.",
     "A thinner stud splits at the screws, and a rough-sawn one is little over [2 in|50 mm]."),
    ("stud_width", "3 1/2", "89", "2", "7 1/4",
     "Width of a stud, the wide way, as measured.",
     "Runners, panel and screen go into this height, and wider studs are hard to lift."),
    ("strip_narrow", "1/2", "12", "1/4", "1",
     "Narrow side of the strip that serves as runner, screen frame and retainer.", _SAWN_STRIP),
    ("strip_wide", "3/4", "20", "3/8", "1 1/4",
     "Wide side of the same strip.", _SAWN_STRIP),
    # A 1x4 is 3/4 by 3 1/2 in: American Softwood Lumber Standard PS 20-20, Table 3.
    ("landing_thickness", "3/4", "20", "3/8", "1 3/4",
     "Thickness of the landing board, as measured.",
     "A thinner board splits on its bevel, and a thicker one is a stud."),
    ("landing_width", "3 1/2", "95", "1 1/2", "7 1/4",
     "Width of the landing board, as measured.",
     "Bees miss a narrower board, and a wider one breaks off when the hive is carried."),
    ("foam_thickness", "1", "25", "1/2", "3",
     "Thickness of the foam board, as measured.", _FOAM_BOARD),
    ("panel_foam_thickness", "", "", "1/2", "3",
     "Thickness of the panel's foam, where it is another than the foam thickness.", _FOAM_BOARD),
    ("roof_foam_thickness", "", "", "1/2", "3",
     "Thickness of the roof's foam, where it is another than the foam thickness.", _FOAM_BOARD),
    ("sleeve_foam_thickness", "", "", "1/2", "4",
     "Thickness of the sleeve's foam, all layers together, where it is another than the foam \
thickness.", _FOAM_BOARD),
    ("mesh_thickness", "0.034", "1", "0.01", "1/8",
     "Thickness of the mesh where two wires cross.",
     "Thinner wire is fly screen that bees chew through, and thicker lets bees pass between."),
    ("deck_thickness", "1/2", "12", "1/4", "1",
     "Thickness of the plywood of the roof's deck, as measured.", _PLYWOOD),
    ("skirt_thickness", "1/2", "12", "1/8", "1",
     "Thickness of the plywood of the roof's skirt, as measured.", _PLYWOOD),
    ("sheet_thickness", "1/4", "6", "1/16", "3/4",
     "Thickness of the inner cover's sheets, as measured.", _PLYWOOD),
    ("skin_thickness", "1/2", "12", "1/8", "1",
     "Thickness of the sleeve's plywood skin, as measured.", _PLYWOOD),
    ("board_thickness", "3/4", "20", "3/8", "1 3/4",
     "Thickness of the boards of the box, as measured.",
     "A thinner board does not hold the frames' rest, and a thicker one is a stud."),
    # Corrugated plastic of 4 mm is nearly 5/32 in.
    ("cover_thickness", "5/32", "4", "1/64", "1/2",
     "Thickness of the waterproof sheet on the roof, as measured.",
     "Sheet metal is the thinnest, and a screw of [1 in|25 mm] must reach through cover and deck."),
    ("box_length", "", "", "6", "46",
     "Outside length of a single-wall box to be sleeved, front to back.", _A_BOX),
    ("box_width", "", "", "4", "46",
     "Outside width of a single-wall box to be sleeved, side to side.", _A_BOX),
    ("box_height", "", "", "4", "16",
     "Height of a single-wall box to be sleeved.",
     "A box holds a frame in its height, and a higher one full of honey cannot be lifted."),
    ("built_opening_length", "", "", "4", "46",
     "Length of the opening in the glued bottom board, front to back, once you have measured it.",
     _AN_OPENING),
    ("built_opening_width", "", "", "4", "46",
     "Width of the opening in the glued bottom board, side to side, once you have measured it.",
     _AN_OPENING),
    ("built_rim_opening_length", "", "", "4", "48",
     "Length inside the glued rim of the roof, front to back, once you have measured it.",
     _AN_OPENING),
    ("built_rim_opening_width", "", "", "4", "48",
     "Width inside the glued rim of the roof, side to side, once you have measured it.",
     _AN_OPENING),
    ("top_bar", "19", "482", "8", "24",
     "Length of a frame's top bar, with both lugs.",
     "Frames from the smallest breeding box to the longest hives have such top bars."),
    ("frame_depth", "9 1/8", "232", "3", "14",
     "Height of a whole frame.",
     "The shallowest honey frame and the deepest brood frame are within it."),
    ("lug_thickness", "3/8", "10", "1/8", "3/4",
     "Thickness of the frame's lug where it rests on the box.",
     "A thinner lug breaks under honey, and a thicker one does not fit a rest."),
)  # fmt: skip

_CHOSEN: Final[tuple[_Row, ...]] = (
    ("slot_ease", "1/8", "3", "1/32", "1/2",
     "Height of the panel's slot beyond the foam's thickness.",
     "Without ease the panel sticks, and with too much of it bees get round the panel."),
    ("panel_gap", "1/4", "6", "1/16", "1",
     "Gap of the panel in its opening, both sides together.",
     "The loose panel must slide in a frame that leans a little, and still close the opening."),
    ("screen_gap", "1/8", "3", "1/32", "1/2",
     "Gap of the screen in its opening, both sides together.",
     "The screen must slide, but bees must not pass beside it."),
    ("runner_gap", "1/2", "12", "1/16", "1",
     "How far runners stop short, both ends together.",
     "Runners must not press against the rails, and must carry the panel to its ends."),
    ("mesh_margin", "1/8", "3", "1/32", "1/2",
     "How far the mesh stays inside the screen's edge, each side.",
     "At the very edge cut wires catch in the rails, and further in the strips hold too little."),
    ("entrance_height", "3/4", "19", "1/4", "2 1/2",
     "Height ripped off the top of the front rail for the entrance.",
     "A bee needs about [1/4 in|6 mm], and the front rail needs height left to hold screws."),
    ("bee_way", "5/16", "8", "3/16", "7/16",
     "Height of the way in that you want over the front stop.",
     "Bees close a lower way with resin, and through a higher one mice get in."),
    ("front_stop_height", "", "", "1/8", "1",
     "Height of the front stop, if you want another than the bee way gives.",
     "A thinner strip splits, and a higher one closes the entrance."),
    ("overhang", "2", "50", "3/4", "6",
     "How far the roof's deck reaches beyond the hive, each side.",
     "The deck must reach beyond the rim, and too wide a deck catches the wind."),
    ("cap_clearance", "1/2", "12", "1/8", "1",
     "How much bigger than the hive the roof's rim is, both sides together.",
     "The roof must come off a box that leans a little, and must not shift about."),
    ("rim_low_height", "1 1/2", "38", "1/2", "7 1/4",
     "Height of the roof's tapered side at its low end, the back; the stud's width for a flat \
roof.",
     "The low end still has to hold a screw, and is at most as high as the stud is wide."),
    ("rim_back_thickness", "1", "25", "1/2", "2 1/4",
     "Thickness of the rim's back rail, which is ripped thin.",
     "A thinner rail does not hold the deck's screws, and a stud is no thicker."),
    ("roof_lap", "1", "25", "1/4", "4",
     "How far the skirt hangs down over the box.",
     "Rain blows in under a shorter lap, and a longer one is hard to lift off."),
    ("skirt_width", "", "", "3/4", "14",
     "Width of the roof's skirt, if you want another than the roof lap gives.",
     "The skirt covers the rim and laps the box, and a wider one hinders lifting."),
    ("cover_lip", "1/2", "12", "1/8", "2",
     "How far the waterproof sheet reaches beyond the deck, each side.",
     "Without a lip water runs back under the deck, and a long lip breaks off."),
    ("inner_cover", "yes", "yes", "0", "1",
     "Whether an inner cover lies under the roof: yes or no.",
     "Either there is an inner cover or there is not."),
    ("inner_rim_height", "3/8", "8", "1/4", "2",
     "Height of the inner cover's rim between its two sheets.",
     "A lower rim is too thin for a brad, and a higher one is for a thick layer of still air."),
    ("inner_notch", "2", "50", "0", "3",
     "Length of the notch in the inner cover's front rim, or 0 for a closed cover.",
     "Bees need room to pass, and the rim needs wood on both sides of the notch."),
    ("inner_channel_depth", "1 1/2", "40", "3/4", "4",
     "How far the channel of the upper way reaches back behind the front rim.",
     "The slot must open into the channel, and a deeper channel takes warmth from still air."),
    ("edge_screw", "", "", "3/4", "6",
     "Length of the screws that hold the sleeve's edge strips, if you take another than half-way \
into the box's board.", _FASTENER),
    ("edge_strip_height", "3/4", "20", "3/8", "1 1/2",
     "Height of the strips that close the sleeve's foam at top and bottom.",
     "A lower strip splits, and higher ones leave no room for foam."),
    ("boxes", "1", "1", "1", "3",
     "Number of boxes that stand on one another.",
     "A hive has one box at least, and nobody lifts a fourth one safely."),
    ("frames", "10", "10", "2", "30",
     "Number of frames in the box: give it to build the box from the frames outwards.",
     "Two frames make the smallest colony, and no hive is wide enough for more than thirty."),
    ("frame_spacing", "1 3/8", "35", "1 1/4", "2",
     "Width that one frame takes, from centre to centre.",
     "Closer frames leave bees no way between, and wider ones get extra comb."),
    ("frame_play", "1", "24", "1/8", "2",
     "Room beyond the frames across the box, to lift the first one out.",
     "Without play no frame comes out, and bees fill more than that with comb."),
    ("rest_overlap", "3/8", "10", "1/4", "3/4",
     "How far each end of a frame rests on the box.",
     "With less a frame falls off its rest, and with more the board is cut through."),
    ("rest_ease", "1/8", "3", "1/32", "1/2",
     "Ease of the frame between its two rests.",
     "Without ease the frame sticks, and with more it slips off."),
    ("rest_depth", "11/16", "18", "1/8", "1 1/2",
     "Depth of the rest below the top of the box.",
     "The lug lies in the rest, and bees must find no more than a bee space over it."),
    ("space_below", "1/8", "3", "0", "1",
     "Space between the frames and the bottom of the box.",
     "Frames that end flush need none; more adds to the space over the frames of the box below."),
    ("joint_depth", "3/8", "10", "0", "1 1/2",
     "Depth of the rabbet in the box's corner joints, or 0 for a butt joint.",
     "The rabbet must leave wood in the board."),
    ("frame_screw", "3", "80", "1 1/2", "6",
     "Length of the screws that hold the frames' corners, two a joint.", _FASTENER),
    ("hanger_bolt", "3", "80", "1 1/2", "6",
     "Length of the two hanger bolts that hold the back rail.", _FASTENER),
    ("bolt_diameter", "1/4", "6", "1/8", "1/2",
     "Diameter of the hanger bolts.",
     "A thinner bolt bends, and a thicker one splits the rail's end."),
    ("bolt_hole", "3/8", "9", "3/16", "3/4",
     "Diameter of the clearance holes in the back rail.",
     "The bolt must go through, and a wide hole leaves too little wood at the rail's end."),
    ("nut_room", "1/2", "12", "1/8", "1 1/2",
     "Length of a hanger bolt that washer and wing nut take.",
     "A nut needs thread, and what it does not need should be in the wood."),
    ("long_brad", "1 1/4", "30", "1/2", "2 1/2",
     "Length of the brads that hold strips to rails.", _FASTENER),
    ("short_brad", "3/4", "20", "3/8", "2",
     "Length of the brads that hold two flat strips of the screen together.", _FASTENER),
    ("stop_brad", "1/2", "15", "1/4", "1 1/2",
     "Length of the brads or staples that hold the front stop.", _FASTENER),
    ("sheet_brad", "1/2", "10", "1/4", "1 1/2",
     "Length of the brads or staples that hold the inner cover's sheets to its rim.", _FASTENER),
    ("deck_screw", "1 5/8", "40", "3/4", "3",
     "Length of the screws that hold the deck to the rim.", _FASTENER),
    ("cover_screw", "1", "25", "1/2", "2",
     "Length of the screws that hold the cover through the deck to the rim.", _FASTENER),
    ("screw_spacing", "8", "200", "3", "16",
     "Most that two screws of the cover, or two of the deck, are apart.",
     "Farther apart the cover flutters in the wind, and nearer ones only weaken the rail."),
    ("screw_offset", "3", "75", "1", "6",
     "How far a deck screw keeps from the next cover screw, along the same screw line.",
     "Nearer they meet in the wood, and farther they leave the corner loose."),
)  # fmt: skip

ANSWERS: Final[Mapping[str, Fraction]] = {"yes": Fraction(1), "no": Fraction(0)}


def _measurement(group: Group, row: _Row) -> Measurement:
    name, inches, mm, low, high, meaning, reason = row
    counted = name in {"frames", "boxes"}
    kind: Kind = "answer" if inches in ANSWERS else "count" if counted else "length"
    defaults: dict[Units, Fraction | None] = {
        "inch": _default(kind, inches, "inch"),
        "mm": _default(kind, mm, "mm"),
    }
    ends = length_from_text(low), length_from_text(high)
    return Measurement(name, group, defaults, *ends, meaning, reason, kind)


def _default(kind: Kind, text: str, units: Units) -> Fraction | None:
    if not text:
        return None
    if kind == "answer":
        return ANSWERS[text]
    return length_from_text(text, "inch" if kind == "count" else units)


MEASUREMENTS: Final[Mapping[str, Measurement]] = {
    known.name: known
    for known in (
        *(_measurement("measured", row) for row in _MEASURED),
        *(_measurement("chosen", row) for row in _CHOSEN),
    )
}
"""Every name that a hive file may give, in the order of the file."""

OPENINGS: Final[Mapping[str, tuple[str, ...]]] = {
    "built_opening_length": ("bottom_board.opening_length",),
    "built_opening_width": ("bottom_board.opening_width",),
    "built_rim_opening_length": ("roof.rim_opening_length", "roof.roof_panel_length"),
    "built_rim_opening_width": ("roof.rim_opening_width", "roof.roof_panel_width"),
}
"""An opening measured in a glued frame, and the dimensions that are cut to it from then on."""

SECTIONS: Final[tuple[Group, ...]] = ("measured", "chosen")
HIVE_SIZES: Final = ("hive_length", "hive_width")
BOX_SIZES: Final = ("box_length", "box_width", "box_height")
SIZED_BY: Final = (*HIVE_SIZES, *BOX_SIZES, "frames")
"""The measurements from which the size of a hive can come."""

DEFAULTS: Final[Mapping[Units, Mapping[str, Fraction]]] = {
    units: {
        n: value
        for n, known in MEASUREMENTS.items()
        if (value := known.defaults[units]) is not None
    }
    for units in UNITS
}
"""The value of each measurement that need not be given, by the hive's units and by name."""


def in_section(group: Group) -> list[Measurement]:
    """Measurements of one section of the file, in its order."""
    return [known for known in MEASUREMENTS.values() if known.group == group]
