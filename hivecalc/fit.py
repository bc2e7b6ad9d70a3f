"""Will it go together, and will bees use it: one rule, one function.

A rule is a dimension with limits: its parameters are dimensions and measurements, its body is one
line of arithmetic, its docstring says what it measures and then why that matters. Figures in the
examples are common practice, no published source.
"""

import ast
import inspect
import sys
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal, TypeAlias, TypeVar

from hivecalc.components import COURSE, TAPE_AGREES, built
from hivecalc.derivation import (
    Dimension,
    Formula,
    Graph,
    Kind,
    RoundingRule,
    UnknownNameError,
    _dimension,
    _Resolver,
)
from hivecalc.hive import MEASUREMENTS, Hive
from hivecalc.length import Count, Length, Ratio, length_json, written
from hivecalc.stock import COMMON, FASTENERS, SHEETS, Figure

Level: TypeAlias = Literal["blocks", "harms", "note"]
"""How much a rule matters.

blocks: it does not go together, or sticks when the wood has swollen, or shuts the bees in.
harms: it goes together, but wood, warmth or bees suffer. note: worth knowing, stops nothing.
"""
Json: TypeAlias = dict[str, object]
F = TypeVar("F", bound=Formula)

# ── limits and their sources ──────────────────────────────────────────────────────────────────

BEE_SPACE_LOW: Final = Fraction(1, 4)
BEE_SPACE_HIGH: Final = Fraction(3, 8)
BEE_SPACE: Final = (
    "bee space of 1/4 to 3/8 in, a rule of thumb: encyclopedias and beekeepers' associations, "
    "which differ by 1 to 3 mm"
)
FRAME_LUG: Final = Figure(
    Fraction(11, 16),
    "Length of a frame's lug, from its side bar to the end of its top bar.",
    "frame 17 5/8 in long: USDA Farmers' Bulletin 447 (1911); top bar 19 in: common practice",
)
FRAME_ENDS: Final = f"{BEE_SPACE}; {FRAME_LUG.source}"
FALL: Final = Fraction(1, 48)
FALL_SOURCE: Final = (
    "common practice, no published source: 1/4 in a foot, for a cover of one sheet without a joint"
)
POINT_COVER: Final = Fraction(1, 8)
SCREW_EDGE: Final = Fraction(3, 16)
SCREW_BITE: Final = Fraction(1, 4)

FIGURES: Final[Mapping[str, Figure]] = {
    **FASTENERS,
    **{
        f"{name}_{side}": Figure(getattr(SHEETS[name], side), f"The {side} of a {what}.", COMMON)
        for name, what in {
            "plywood_sheet": "sheet of plywood",
            "foam_board": "foam board",
            "plastic_sheet": "sheet of corrugated plastic",
        }.items()
        for side in ("width", "length")
    },
    "frame_lug": FRAME_LUG,
}
"""Sizes that nobody measures on the hive, by the name that a rule has for them."""


@dataclass(frozen=True)
class Rule:
    """What a rule asks: how much it matters, the limits, which still hold, and their source."""

    component: str
    level: Level
    source: str
    low: Fraction | None
    high: Fraction | None
    unless: str | None

    def applies(self, components: Iterable[str]) -> bool:
        """Whether its component is built, and the one that would make it pointless is not."""
        names = set(components)
        return self.component in names and self.unless not in names

    def allows(self, value: Fraction) -> bool:
        """Whether a value is not below the low limit and not above the high one."""
        above = self.low is None or value >= self.low
        return above and (self.high is None or value <= self.high)


RULES: Final[dict[str, Rule]] = {}
"""Every rule by its full name, such as "bottom_board.room_above_stack"."""


def _rule(  # noqa: PLR0913 - one argument for each thing that a rule asks
    component: str,
    level: Level,
    *,
    low: Fraction | None = None,
    high: Fraction | None = None,
    source: str = COMMON,
    unless: str | None = None,
) -> Callable[[F], F]:
    """Return a decorator that makes a rule of a function."""

    def ruled(function: F) -> F:
        name = f"{component}.{function.__name__}"
        RULES[name] = Rule(component, level, source, low, high, unless)
        return function

    return ruled


# ── bottom board ──────────────────────────────────────────────────────────────────────────────


@_rule("bottom_board", "blocks", low=Fraction(0))
def room_above_stack(bottom_board_headroom: Length) -> Length:
    """Room above the runners, the panel's slot and the screen, up to the top of the rails.

    Less than nothing means that the screen stands proud: the box rocks on it, and bees and wind get
    in under the box.

    >>> room_above_stack(0.0625)
    0.0625
    """
    return bottom_board_headroom


@_rule("bottom_board", "harms", low=BEE_SPACE_LOW, high=BEE_SPACE_HIGH, source=BEE_SPACE)
def bee_way_in(bottom_board_way_in: Length) -> Length:
    """Height of the way in for the bees, at its lowest place.

    A lower way makes a crowd at the door and bees close it with resin; through a higher one mice
    and robber bees get in.

    >>> bee_way_in(0.3125)
    0.3125
    """
    return bottom_board_way_in


@_rule("bottom_board", "blocks", low=Fraction(3, 16))
def way_over_stop(stud_width: Length, bottom_board_front_stop_top: Length) -> Length:
    """Height left open above the screen's front stop.

    All bees walk in over the stop. A strip as high as the others in its place shuts them in.

    >>> way_over_stop(3.5, 3.125)
    0.375
    """
    return stud_width - bottom_board_front_stop_top


@_rule("bottom_board", "blocks", low=Fraction(1, 8))
def panel_play_along(
    bottom_board_opening_length: Length, bottom_board_panel_length: Length
) -> Length:
    """How much shorter the foam panel is than its opening, front to back.

    Wood swells in wet weather: a panel without play sticks, or the back rail does not close behind
    it.

    >>> panel_play_along(19.75, 19.5)
    0.25
    """
    return bottom_board_opening_length - bottom_board_panel_length


@_rule("bottom_board", "blocks", low=Fraction(1, 8))
def panel_play_across(
    bottom_board_opening_width: Length, bottom_board_panel_width: Length
) -> Length:
    """How much narrower the foam panel is than its opening, side to side.

    Wood swells in wet weather: a panel without play sticks between the rails and breaks when you
    pull.

    >>> panel_play_across(13.25, 13)
    0.25
    """
    return bottom_board_opening_width - bottom_board_panel_width


@_rule("bottom_board", "harms", high=Fraction(1, 2))
def widest_gap_at_panel(
    bottom_board_panel_play_along: Length, bottom_board_panel_play_across: Length
) -> Length:
    """The wider of the two gaps beside the foam panel.

    Cold air comes up through a wide gap, and then the panel keeps little warmth in.

    >>> widest_gap_at_panel(0.25, 0.375)
    0.375
    """
    return max(bottom_board_panel_play_along, bottom_board_panel_play_across)


@_rule("bottom_board", "blocks", low=Fraction(1, 16))
def screen_play_along(
    bottom_board_opening_length: Length, bottom_board_screen_length: Length
) -> Length:
    """How much shorter the screen is than its opening, front to back.

    A screen without play does not let the back rail close, or sticks when the wood swells.

    >>> screen_play_along(19.75, 19.625)
    0.125
    """
    return bottom_board_opening_length - bottom_board_screen_length


@_rule("bottom_board", "blocks", low=Fraction(1, 16))
def screen_play_across(
    bottom_board_opening_width: Length, bottom_board_screen_width: Length
) -> Length:
    """How much narrower the screen is than its opening, side to side.

    A screen without play sticks between the rails when the wood swells, and cannot be cleaned.

    >>> screen_play_across(13.25, 13.125)
    0.125
    """
    return bottom_board_opening_width - bottom_board_screen_width


@_rule("bottom_board", "harms", high=Fraction(5, 32))
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


@_rule("bottom_board", "blocks", low=Fraction(1, 16))
def lower_runners_apart(
    bottom_board_opening_width: Length,
    strip_narrow: Length,
    bottom_board_lower_front_runner_length: Length,
) -> Length:
    """Room for the lower front runner between the lower side runners, both ends together.

    The side runners stand on edge and take the strip's narrow side each. A front runner that is too
    long meets them at the corners and does not lie down.

    >>> lower_runners_apart(13.25, 0.5, 11.75)
    0.5
    """
    return bottom_board_opening_width - 2 * strip_narrow - bottom_board_lower_front_runner_length


@_rule("bottom_board", "blocks", low=Fraction(1, 16))
def upper_runners_apart(
    bottom_board_opening_width: Length,
    strip_wide: Length,
    bottom_board_upper_front_runner_length: Length,
) -> Length:
    """Room for the upper front runner between the upper side runners, both ends together.

    The side runners lie flat and take the strip's wide side each. A front runner as long as the
    lower one is too long here and does not lie down.

    >>> upper_runners_apart(13.25, 0.75, 11.25)
    0.5
    """
    return bottom_board_opening_width - 2 * strip_wide - bottom_board_upper_front_runner_length


@_rule("bottom_board", "harms", low=Fraction(0))
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


@_rule("bottom_board", "harms", low=POINT_COVER)
def wood_past_long_brad(strip_narrow: Length, stud_thickness: Length, long_brad: Length) -> Length:
    """Wood left beyond the point of a brad through a runner on edge into its rail.

    A brad as long as the wood comes out on the other side, where hands carry the hive. A runner
    that lies flat leaves more wood than one on edge.

    >>> wood_past_long_brad(0.5, 1.5, 1.25)
    0.75
    """
    return strip_narrow + stud_thickness - long_brad


@_rule("bottom_board", "harms", low=POINT_COVER)
def wood_past_short_brad(strip_narrow: Length, short_brad: Length) -> Length:
    """Wood left beyond the point of a brad through two flat strips of the screen.

    Two flat strips are only twice the narrow side: the brad that you took for the runners comes out
    on the other side and scratches hands and frame.

    >>> wood_past_short_brad(0.5, 0.75)
    0.25
    """
    return 2 * strip_narrow - short_brad


@_rule("bottom_board", "harms", low=Fraction(3, 4))
def bolt_bite(hanger_bolt: Length, stud_thickness: Length, nut_room: Length) -> Length:
    """How deep the hanger bolt bites into the end of the side rail.

    The bolt passes the back rail, and washer and wing nut need thread. What is left must hold in
    end grain, the weakest way for a screw, each time you tighten the nut.

    >>> bolt_bite(3, 1.5, 0.5)
    1.0
    """
    return hanger_bolt - stud_thickness - nut_room


@_rule("bottom_board", "blocks", low=Fraction(1, 16), high=Fraction(1, 4))
def bolt_play(bolt_hole: Length, bolt_diameter: Length) -> Length:
    """How much wider the clearance hole in the back rail is than the bolt.

    In a tight hole the back rail does not come off over two bolts that are never quite straight; a
    hole much wider than the bolt lets the rail hang.

    >>> bolt_play(0.375, 0.25)
    0.125
    """
    return bolt_hole - bolt_diameter


@_rule("bottom_board", "harms", low=Fraction(3, 8))
def wood_beside_bolt_hole(stud_thickness: Length, bolt_hole: Length) -> Length:
    """Wood left in the back rail between the clearance hole and the rail's end.

    The bolt sits in the middle of the side rail, so the hole is half a stud from the back rail's
    end. With little wood left there the end splits off.

    >>> wood_beside_bolt_hole(1.5, 0.375)
    0.5625
    """
    return (stud_thickness - bolt_hole) / 2


@_rule("bottom_board", "blocks", low=Fraction(0))
def panel_out_of_board(
    bottom_board_panel_width: Length,
    bottom_board_panel_length: Length,
    foam_board_width: Length,
    foam_board_length: Length,
) -> Length:
    """What a foam board is bigger than the panel, in the tighter direction.

    A panel that is bigger than the biggest board, whichever way you turn it, cannot be cut in one
    piece.

    >>> panel_out_of_board(13, 19.5, 48, 96)
    35
    """
    return min(
        foam_board_width - min(bottom_board_panel_width, bottom_board_panel_length),
        foam_board_length - max(bottom_board_panel_width, bottom_board_panel_length),
    )


# ── roof ──────────────────────────────────────────────────────────────────────────────────────


@_rule("roof", "blocks", low=Fraction(1, 16))
def rim_clear_along(roof_rim_length: Length, hive_length: Length) -> Length:
    """How far the roof's rim stands out beyond the hive at each end.

    The skirt hangs from the rim: without clearance it does not go over the box, or sticks on it
    when the wood swells.

    >>> rim_clear_along(23, 22.5)
    0.25
    """
    return (roof_rim_length - hive_length) / 2


@_rule("roof", "blocks", low=Fraction(1, 16))
def rim_clear_across(roof_rim_width: Length, hive_width: Length) -> Length:
    """How far the roof's rim stands out beyond the hive at each side.

    The skirt hangs from the rim: without clearance it does not go over the box, or sticks on it
    when the wood swells.

    >>> rim_clear_across(16.5, 16)
    0.25
    """
    return (roof_rim_width - hive_width) / 2


@_rule("roof", "harms", low=Fraction(1, 4))
def skirt_lap(roof_lap: Length) -> Length:
    """How far the skirt reaches down over what the roof stands on.

    Wind blows rain in under a skirt that hardly laps, and a gust lifts the roof off.

    >>> skirt_lap(0.5)
    0.5
    """
    return roof_lap


# Foam that lies along the slope is higher by 1 / cos(slope): under 0.01 in on an ordinary roof.
@_rule("roof", "blocks", low=Fraction(0))
def room_under_retainer(
    rim_low_height: Length,
    roof_slope: Ratio,
    rim_back_thickness: Length,
    foam_thickness: Length,
    strip_narrow: Length,
) -> Length:
    """Room from the retainers down to the bottom of the rim, at the panel's low end.

    Foam and retainers lie under the deck, and the rim is lowest at the back. Retainers that hang
    out below the rim hold the roof up, and it rocks.

    >>> room_under_retainer(1.5, 0.0625, 1, 1, 0.5)
    0.0625
    """
    return rim_low_height + roof_slope * rim_back_thickness - foam_thickness - strip_narrow


@_rule("roof", "harms", low=FALL, source=FALL_SOURCE)
def fall(roof_slope: Ratio) -> Ratio:
    """Fall of the roof for each inch of its length.

    On a roof that is nearly level rain stands in puddles, finds every screw hole and rots the deck.

    >>> fall(0.0625)
    0.0625
    """
    return roof_slope


@_rule("roof", "harms", low=SCREW_EDGE)
def deck_line_in_rim(
    roof_deck_screw_line: Length, roof_deck_overhang: Length, stud_thickness: Length
) -> Length:
    """Distance of the deck's screw line from the nearer face of the rim's side or front below it.

    A screw beside the rail holds nothing and its point shows below the deck; one near the rail's
    face splits it.

    >>> deck_line_in_rim(2.5, 1.75, 1.5)
    0.75
    """
    return min(
        roof_deck_screw_line - roof_deck_overhang,
        roof_deck_overhang + stud_thickness - roof_deck_screw_line,
    )


@_rule("roof", "harms", low=SCREW_EDGE)
def deck_line_in_back(
    roof_deck_screw_line: Length, roof_deck_overhang: Length, rim_back_thickness: Length
) -> Length:
    """Distance of the deck's screw line from the nearer face of the rim's back below it.

    The rim's back is ripped thin, so the line that is right for the sides comes near its inner
    face: a screw beside it goes into the foam.

    >>> deck_line_in_back(2.5, 1.75, 1)
    0.25
    """
    return min(
        roof_deck_screw_line - roof_deck_overhang,
        roof_deck_overhang + rim_back_thickness - roof_deck_screw_line,
    )


@_rule("roof", "harms", low=SCREW_EDGE)
def cover_line_in_rim(
    roof_cover_screw_line: Length,
    cover_lip: Length,
    roof_deck_overhang: Length,
    stud_thickness: Length,
) -> Length:
    """Distance of the cover's screw line from the nearer face of the rim's side or front below it.

    You measure from the cover's edge, which stands out by its lip: forget the lip and the screw
    lands beside the middle of the rail, or beside the rail.

    >>> cover_line_in_rim(3, 0.5, 1.75, 1.5)
    0.75
    """
    return min(
        roof_cover_screw_line - cover_lip - roof_deck_overhang,
        cover_lip + roof_deck_overhang + stud_thickness - roof_cover_screw_line,
    )


@_rule("roof", "harms", low=SCREW_EDGE)
def cover_line_in_back(
    roof_cover_screw_line: Length,
    cover_lip: Length,
    roof_deck_overhang: Length,
    rim_back_thickness: Length,
) -> Length:
    """Distance of the cover's screw line from the nearer face of the rim's back below it.

    The rim's back is ripped thin, so the line that is right for the sides comes near its inner
    face: a screw beside it goes into the foam.

    >>> cover_line_in_back(3, 0.5, 1.75, 1)
    0.25
    """
    return min(
        roof_cover_screw_line - cover_lip - roof_deck_overhang,
        cover_lip + roof_deck_overhang + rim_back_thickness - roof_cover_screw_line,
    )


@_rule("roof", "harms", low=SCREW_BITE)
def screw_bite(cover_screw: Length, cover_thickness: Length, deck_thickness: Length) -> Length:
    """How deep a screw bites into the rail, through cover and deck.

    Thick plywood or a thick cover uses the screw up: then it does not reach the rail, and the wind
    pulls it out.

    >>> screw_bite(1, 0.125, 0.5)
    0.375
    """
    return cover_screw - cover_thickness - deck_thickness


@_rule("roof", "harms", low=POINT_COVER)
def wood_past_screw(
    rim_low_height: Length, deck_thickness: Length, cover_thickness: Length, cover_screw: Length
) -> Length:
    """Wood left beyond the screw's point, where the rim is lowest.

    A screw that is longer than cover, deck and rail together comes out below the rim, where hands
    and bees are.

    >>> wood_past_screw(1.5, 0.5, 0.125, 1)
    1.125
    """
    return rim_low_height + deck_thickness + cover_thickness - cover_screw


@_rule("roof", "blocks", low=Fraction(0))
def roof_panel_out_of_board(
    roof_panel_width: Length,
    roof_panel_length: Length,
    foam_board_width: Length,
    foam_board_length: Length,
) -> Length:
    """What a foam board is bigger than the roof's panel, in the tighter direction.

    A panel that is bigger than the biggest board, whichever way you turn it, cannot be cut in one
    piece.

    >>> roof_panel_out_of_board(13.5, 20.5, 48, 96)
    34.5
    """
    return min(
        foam_board_width - min(roof_panel_width, roof_panel_length),
        foam_board_length - max(roof_panel_width, roof_panel_length),
    )


@_rule("roof", "blocks", low=Fraction(0))
def deck_out_of_sheet(
    roof_deck_width: Length,
    roof_deck_length: Length,
    plywood_sheet_width: Length,
    plywood_sheet_length: Length,
) -> Length:
    """What a sheet of plywood is bigger than the deck, in the tighter direction.

    A deck of two pieces has a joint that bends and lets water through.

    >>> deck_out_of_sheet(20, 26.5, 48, 96)
    28
    """
    return min(
        plywood_sheet_width - min(roof_deck_width, roof_deck_length),
        plywood_sheet_length - max(roof_deck_width, roof_deck_length),
    )


@_rule("roof", "blocks", low=Fraction(0))
def cover_out_of_sheet(
    roof_cover_width: Length,
    roof_cover_length: Length,
    plastic_sheet_width: Length,
    plastic_sheet_length: Length,
) -> Length:
    """What a sheet of corrugated plastic is bigger than the cover, in the tighter direction.

    A cover of two pieces has a joint, and on so flat a roof rain goes through it.

    >>> cover_out_of_sheet(21, 27.5, 48, 96)
    27
    """
    return min(
        plastic_sheet_width - min(roof_cover_width, roof_cover_length),
        plastic_sheet_length - max(roof_cover_width, roof_cover_length),
    )


@_rule("roof", "note", low=Fraction(0))
def spacer_width(roof_deck_overhang: Length) -> Length:
    """How far the deck stands out beyond the rim, which the spacer is cut to.

    The overhang is counted from the hive, and the rim is bigger than the hive. A spacer as wide as
    the overhang fits on one side and then not on the other.

    >>> spacer_width(1.75)
    1.75
    """
    return roof_deck_overhang


# ── inner cover ───────────────────────────────────────────────────────────────────────────────


@_rule("inner_cover", "blocks", low=Fraction(0))
def sheet_out_of_sheet(
    inner_cover_sheet_width: Length,
    inner_cover_sheet_length: Length,
    plywood_sheet_width: Length,
    plywood_sheet_length: Length,
) -> Length:
    """What a sheet of plywood is bigger than the inner cover, in the tighter direction.

    The inner cover's thin sheets must be whole: a joint sags between the rim's strips.

    >>> sheet_out_of_sheet(16.25, 22.75, 48, 96)
    31.75
    """
    return min(
        plywood_sheet_width - min(inner_cover_sheet_width, inner_cover_sheet_length),
        plywood_sheet_length - max(inner_cover_sheet_width, inner_cover_sheet_length),
    )


# ── box ───────────────────────────────────────────────────────────────────────────────────────


@_rule("box", "harms", low=BEE_SPACE_LOW, high=BEE_SPACE_HIGH, source=BEE_SPACE)
def bee_space_above(box_space_above: Length) -> Length:
    """Space above the frames, up to the top of the box.

    Bees glue a narrower space shut with resin and fill a wider one with comb: then the cover tears
    comb apart when you lift it.

    >>> bee_space_above(0.25)
    0.25
    """
    return box_space_above


@_rule("box", "harms", low=BEE_SPACE_LOW, high=BEE_SPACE_HIGH, source=BEE_SPACE)
def bee_space_below(space_below: Length) -> Length:
    """Space below the frames, down to the bottom of the box.

    Bees glue a narrower space shut with resin and fill a wider one with comb: then frames stick to
    what is below them.

    >>> bee_space_below(0.25)
    0.25
    """
    return space_below


@_rule("box", "harms", low=BEE_SPACE_LOW, high=BEE_SPACE_HIGH, source=FRAME_ENDS)
def bee_space_at_ends(frame_lug: Length, top_bar: Length, box_inside_length: Length) -> Length:
    """Space between a frame's side bar and the box at each end.

    A lug reaches past the side bar and partly lies on its rest: the rest of it is the space. Bees
    glue a narrower one shut and fill a wider one with comb, and the frame does not come out.

    >>> bee_space_at_ends(0.6875, 19, 18.375)
    0.375
    """
    return frame_lug - (top_bar - box_inside_length) / 2


@_rule(
    "box",
    "harms",
    low=BEE_SPACE_LOW,
    high=Fraction(5, 8),
    source=f"low: {BEE_SPACE}; high: {COMMON}",
)
def room_at_sides(box_inside_width: Length, frames: Count, frame_spacing: Length) -> Length:
    """Room between the last frame and the box at each side, with the frames in the middle.

    It is wider than a bee space so that the first frame can be lifted out; but in twice 5/8 in bees
    have nearly room for one more comb, and build it on the wall.

    >>> room_at_sides(14.75, 10, 1.375)
    0.5
    """
    return (box_inside_width - frames * frame_spacing) / 2


@_rule("box", "harms", low=-TAPE_AGREES, high=TAPE_AGREES, unless="sleeve")
def hive_against_box_along(hive_length: Length, box_length: Length) -> Length:
    """How much longer the hive was measured than its box is.

    Bottom board and roof are cut to the hive's length. Where two ways to it disagree, one of them
    is wrong, and the box does not sit on the board.

    >>> hive_against_box_along(20, 19.875)
    0.125
    """
    return hive_length - box_length


@_rule("box", "harms", low=-TAPE_AGREES, high=TAPE_AGREES, unless="sleeve")
def hive_against_box_across(hive_width: Length, box_width: Length) -> Length:
    """How much wider the hive was measured than its box is.

    Bottom board and roof are cut to the hive's width. Where two ways to it disagree, one of them is
    wrong, and the box does not sit on the board.

    >>> hive_against_box_across(16.25, 16.25)
    0.0
    """
    return hive_width - box_width


# ── sleeve ────────────────────────────────────────────────────────────────────────────────────


@_rule("sleeve", "harms", low=-TAPE_AGREES, high=TAPE_AGREES)
def hive_against_sleeve_along(
    hive_length: Length, sleeve_skin_side_length: Length, skin_thickness: Length
) -> Length:
    """How much longer the hive was measured than box, foam and skin make it.

    Bottom board and roof are cut to the hive's length. Where two ways to it disagree, one of them
    is wrong, and the skin overhangs the board or falls short of it.

    >>> hive_against_sleeve_along(22.875, 21.875, 0.5)
    0.0
    """
    return hive_length - (sleeve_skin_side_length + 2 * skin_thickness)


@_rule("sleeve", "harms", low=-TAPE_AGREES, high=TAPE_AGREES)
def hive_against_sleeve_across(hive_width: Length, sleeve_skin_end_length: Length) -> Length:
    """How much wider the hive was measured than box, foam and skin make it.

    Bottom board and roof are cut to the hive's width. Where two ways to it disagree, one of them is
    wrong, and the skin overhangs the board or falls short of it.

    >>> hive_against_sleeve_across(19.25, 19.25)
    0.0
    """
    return hive_width - sleeve_skin_end_length


# ── the rules as dimensions ───────────────────────────────────────────────────────────────────


def _rule_dimensions() -> list[Dimension]:
    """Return each rule as a dimension of its component."""
    module = sys.modules[__name__]
    body = ast.parse(inspect.getsource(module)).body
    nodes = {node.name: node for node in body if isinstance(node, ast.FunctionDef)}
    known = {*MEASUREMENTS, *COURSE.dimensions, *FIGURES, *RULES}
    resolver = _Resolver(known, COURSE.components)
    return [
        _dimension(name, rule.component, nodes[name.partition(".")[2]], module, resolver)
        for name, rule in RULES.items()
    ]


def _figure_dimension(name: str, figure: Figure) -> Dimension:
    """Return a figure as a dimension that needs nothing."""
    text = ast.Constant(written(figure.value))
    rounding = RoundingRule()
    return Dimension(
        name, "stock", (), (), lambda: figure.value, text, "length", figure.what, figure.source,
        rounding,
    )  # fmt: skip


FIT: Final = Graph(
    [
        *COURSE.dimensions.values(),
        *(_figure_dimension(name, figure) for name, figure in FIGURES.items()),
        *_rule_dimensions(),
    ],
    COURSE.components,
)
"""The graph of all dimensions, figures and rules: it gives each rule's worked steps too."""

# ── findings ──────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Finding:
    """What one rule finds on one hive: whether it holds, its value, its limits, why it matters.

    The name is the rule's in FIT, such as "roof.fall". A length is in inches, a ratio a number; a
    limit that is None does not exist.
    """

    rule: str
    level: Level
    holds: bool
    value: Fraction
    low: Fraction | None
    high: Fraction | None
    kind: Kind
    why: str
    source: str


def findings(hive: Hive, given: Mapping[str, Fraction] | None = None) -> list[Finding]:
    """What each rule finds on what is built of this hive, from the bottom board up.

    >>> from hivecalc.hive import demo_hive
    >>> short = {"bottom_board.panel_length": Fraction(20)}
    >>> [f.rule for f in findings(demo_hive(), short) if f.value == Fraction(1, 8)][0]
    'bottom_board.panel_play_along'

    `given` replaces a dimension, measurement or figure, by full name, with a value in inches: a
    wrong cut, a size as built, a longer screw. Raises UnknownNameError for any other name.
    """
    for name in given or {}:
        if name not in FIT.dimensions and name not in MEASUREMENTS:
            raise UnknownNameError(name, [*MEASUREMENTS, *FIT.dimensions])
    components = built(hive)
    values = FIT.values(hive.measurements, given, components)
    return [_finding(n, r, values[n]) for n, r in RULES.items() if r.applies(components)]


def _finding(name: str, rule: Rule, value: Fraction) -> Finding:
    rated = FIT.dimension(name)
    return Finding(
        rule=name,
        level=rule.level,
        holds=rule.allows(value),
        value=value,
        low=rule.low,
        high=rule.high,
        kind=rated.kind,
        why=rated.why,
        source=rule.source,
    )


def holds(found: Iterable[Finding]) -> bool:
    """Whether nothing fails that blocks or harms; a note stops nothing.

    >>> from hivecalc.hive import demo_hive
    >>> holds(findings(demo_hive())), holds(findings(demo_hive(), {"skirt_width": Fraction(1)}))
    (True, False)
    """
    return all(f.holds or f.level == "note" for f in found)


def broken(before: Iterable[Finding], after: Iterable[Finding]) -> list[Finding]:
    """The findings that fail after a change, of rules that held before it.

    >>> from hivecalc.hive import demo_hive
    >>> hive, on_edge = demo_hive(), {"bottom_board.upper_runner_height": Fraction(3, 4)}
    >>> [f.rule.partition(".")[2] for f in broken(findings(hive), findings(hive, on_edge))]
    ['room_above_stack', 'bee_way_in', 'way_over_stop', 'upper_runner_lies_flat']
    """
    held = {f.rule for f in before if f.holds}
    return [f for f in after if f.rule in held and not f.holds]


def finding_json(found: Finding) -> Json:
    """One finding for other programs: lengths exact, in inches and in mm; a ratio as a number.

    >>> from hivecalc.hive import demo_hive
    >>> lap = next(f for f in findings(demo_hive()) if f.rule == "roof.skirt_lap")
    >>> finding_json(lap)["low"], finding_json(lap)["high"]
    ({'exact': '1/4', 'inches': '1/4', 'mm': 6.35}, None)
    """
    return {
        "rule": found.rule,
        "level": found.level,
        "holds": found.holds,
        "value": _value_json(found.value, found.kind),
        "low": _value_json(found.low, found.kind),
        "high": _value_json(found.high, found.kind),
        "why": found.why,
        "source": found.source,
    }


def _value_json(value: Fraction | None, kind: Kind) -> dict[str, str | float] | float | None:
    if value is None:
        return None
    return float(value) if kind == "ratio" else length_json(value)


def fit_json(hive: Hive, given: Mapping[str, Fraction] | None = None) -> Json:
    """Every rule on one hive for other programs, and whether all that matters holds.

    >>> from hivecalc.hive import demo_hive
    >>> list(fit_json(demo_hive()))
    ['schema', 'holds', 'rules']
    """
    found = findings(hive, given)
    rules = [finding_json(f) for f in found]
    return {"schema": "hivecalc/1", "holds": holds(found), "rules": rules}
