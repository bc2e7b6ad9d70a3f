"""The order of work as it is written down, for any hive: what comes in, what is done, why then.

Order and ways of working are common practice, no published source.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from hivecalc.length import Units
from hivecalc.workshop.cautions import BEES, CLAMP, DRILL, FOAM, GLUE, HELD, LIFT, Caution

Comes: TypeAlias = Literal["above", "below", "front", "back", "outside", ""]
"""From where pieces are brought to what is there already; nothing where they are the first."""


@dataclass(frozen=True)
class Row:
    """One step as it is written down, for any hive.

    `brings` are kinds of pieces; those of `work` are put together on their own until a row `puts`
    that in. `off` is taken off while this is done. A row of the whole hive `sets` components where
    they belong. `only` is a component or measurement without which the step is left out. `do` has
    a line for each thing that is done. Texts name phrases and the hive's figures in braces.
    """

    key: str
    title: str
    do: str
    why: str
    check: str
    brings: tuple[str, ...] = ()
    comes: Comes = ""
    work: str = ""
    puts: str = ""
    off: tuple[str, ...] = ()
    sets: tuple[str, ...] = ()
    only: str = ""
    care: tuple[Caution, ...] = ()

    @property
    def component(self) -> str:
        """The component that is worked on; "hive" where the whole is set up."""
        return self.key.partition(".")[0]


PHRASES: Final[Mapping[str, str]] = {
    "dry": (
        "Put it together dry first, and clamp it. Drill a hole through the outer piece that the "
        "screw slips through, and go on into the end grain with a narrower one, or it splits."
    ),
    "spread": (
        "Take it apart. Spread glue on both faces, twice on end grain, which drinks it. Put it "
        "back, and drive the screws until the joints just close."
    ),
    "diagonals": (
        "Before the clamps are tight, measure both diagonals. Push the two corners of the longer "
        "one toward each other until both are the same."
    ),
    "tighten": (
        "Tighten, and measure the diagonals once more. Wipe off the glue that came out, as its "
        "label says."
    ),
    "set": "Leave it clamped and flat for as long as the glue's label says.",
    "square": "The diagonals differ by no more than {square_enough}, and it does not rock.",
}
"""What is done at every joint of its kind; a row names it in braces."""

ROWS: Final[tuple[Row, ...]] = (
    Row(
        "bottom_board.back", "Hang the back",
        "Lay the four rails together dry on a flat bench, and mark every corner, so that each "
        "piece comes back to its place.\n"
        "Drill a {bolt_hole} hole in the back rail over the middle of each side's end. Mark the "
        "middle of the hole on the end.\n"
        "Drill into the ends as deep as the bolts go, as wide as a bolt without its thread. Lock "
        "two nuts on the bolt, and turn it in by them.\n"
        "Grease the thread that stands out. Put on the back, washers and wing nuts, hand tight. No "
        "glue here.",
        "The back must come off for as long as the hive lives. Hung first, it also holds the sides "
        "apart while the front's glue sets.",
        "The back comes off and goes on by hand, and its ends lie flush with the sides.",
        brings=("side rail", "back rail"),
    ),
    Row(
        "bottom_board.front", "Glue in the front rail",
        "The front rail stands between the sides, flush with them below; above it the entrance "
        "stays open.\n"
        "{dry}\n"
        "{spread}\n"
        "{diagonals}\n"
        "{tighten}\n"
        "{set}",
        "A frame sets as it stands. What is pulled square now stays square, and what leans stays "
        "so, too.",
        "{square}",
        brings=("front rail",), comes="front", care=(CLAMP,),
    ),
    Row(
        "bottom_board.opening", "Measure the opening",
        "When the glue is hard, hang the back and measure the opening: in three places each way, "
        "the smallest counts.\n"
        "Write it into your hive. Cut panel, mesh, runners and screen to the sizes that you get "
        "from it now.",
        "What you cut a little wrong in the rails then no longer counts.",
        "The figures for panel and screen come from your opening, not from the plan.",
    ),
    Row(
        "bottom_board.lower_runners", "Lower runners",
        "Take off the back.\n"
        "Lay the runners on edge, flush with the bottom of the rails, as far from one end as from "
        "the other.\n"
        "One brad at each end, look, and then the rest.",
        "All else in the frame is measured up from them.",
        "Nothing stands across the back: panel and screen come in there.",
        brings=("lower side runner", "lower front runner"), comes="above", off=("back rail",),
    ),
    Row(
        "bottom_board.upper_runners", "Upper runners",
        "Cut two spacers {slot_height} high: the foam and its ease.\n"
        "Stand them on the lower runners, lay the upper runners flat on top, and drive the brads. "
        "Pull the spacers out.",
        "The spacers make the slot equally high all round, and no line has to be drawn.",
        "A scrap of your foam goes through the whole slot with one finger.",
        brings=("upper side runner", "upper front runner"), comes="above", off=("back rail",),
    ),
    Row(
        "bottom_board.landing_board", "Landing board",
        "Drill it for its screws. Hold its bevelled edge against the front rail, flush on top.\n"
        "Glue on the front rail only; then the screws, from the middle outwards. Wipe.",
        "On earlier, it would be in the way each time the frame is laid on its front.",
        "Water that you drop on it runs away from the hive.",
        brings=("landing board",), comes="front",
    ),
    Row(
        "bottom_board.screen_below", "Screen: lower layer",
        "Lay paper on a flat board, so that no glue holds the screen there. Lay out the long "
        "strips, and the ends between them.\n"
        "Glue in the four corners; tape or small clamps.\n"
        "{diagonals}\n"
        "Wipe, and leave it as the glue's label says.",
        "The mesh needs a flat, square bed, or it pulls the strips crooked.",
        "{square}",
        brings=("screen side strip, lower", "screen end strip, lower"),
        work="screen",
        care=(CLAMP,),
    ),
    Row(
        "bottom_board.screen_above", "Screen: mesh and upper layer",
        "Lay the mesh on, {mesh_margin} inside every edge, and pull it flat.\n"
        "Lay the upper strips over the lower ones, with glue in their corners: long ones at the "
        "sides, one at the back, the thin front stop in front.\n"
        "Brads through strip and mesh into the strip below. The shortest are for the front stop.",
        "The upper strips hold the mesh, so they come last.",
        "No brad and no wire comes out anywhere: draw a rag round the edge.",
        brings=("mesh", "screen side strip, upper", "screen end strip, upper", "screen front stop"),
        comes="above",
        work="screen",
    ),
    Row(
        "bottom_board.slide_in", "Slide in panel and screen",
        "With the back off, slide the panel into its slot, and the screen above it, front stop to "
        "the front.\n"
        "Hang the back, and turn the wing nuts hand tight.",
        "Before a box hides them, all of it can still be mended.",
        "Both come out by one finger, nothing stands above the rails, and a strip {way_in} high "
        "goes in over the front rail.",
        brings=("panel",), comes="back", puts="screen", off=("back rail",),
    ),
    Row(
        "box.corners", "Glue up the box",
        "Lay out sides and ends, the rests inside and on top. Number the corners.\n"
        "{dry}\n"
        "{spread}\n"
        "{diagonals}\n"
        "{tighten}\n"
        "{set}\n"
        "{each_box}",
        "All four corners set at once, or the last one is forced.",
        "{square} A frame drops into its rests and can be pushed a little to and fro.",
        brings=("side", "end"), care=(CLAMP,),
    ),
    Row(
        "sleeve.edge_strips", "Edge strips round the box",
        "Screw on the strips, drilled first: the lower ones flush with the box's foot, the upper "
        "ones with its top. Sides first, then the ends over theirs, with glue where they meet.\n"
        "The screws end half-way in the board: none may come out inside.\n"
        "{glued_strips}\n"
        "{each_box}",
        "They carry the skin, and the foam is cut to the room between them.",
        "Nothing stands out above or below the box.",
        brings=("edge strip side", "edge strip end"), comes="outside",
    ),
    Row(
        "sleeve.foam", "Foam between the strips",
        "Measure the room between the strips before you cut the foam.\n"
        "Press the pieces in, sides first. Close what is open with foam, not with glue.",
        "While the skin is off you see every gap.",
        "No light comes through, and no foam stands out beyond the strips.",
        brings=("foam side", "foam end"), comes="outside",
    ),
    Row(
        "sleeve.skin", "Skin over the foam",
        "Glue on the strips, not on the foam. Put on the skin: sides first, then the ends over "
        "their edges.\n"
        "A brad at each corner, look along the edges, and then the rest. Wipe, and let it set.",
        "The ends cover the sides' edges, so rain from the front and the back meets no joint.",
        "The skin is flush with the strips above and below: a box on it must not rock.",
        brings=("skin side", "skin end"), comes="outside",
    ),
    Row(
        "inner_cover.rim", "Inner cover: rim and lower sheet",
        "Lay out the rim on a flat board with paper on it, glue in its corners.\n"
        "{notch}\n"
        "Spread glue on the rim, lay on the lower sheet, and push the rim to the sheet's edges: a "
        "sheet cut square makes the rim square.\n"
        "Brads through the sheet. Wipe off the glue inside, too.",
        "Thin strips have no stiffness of their own: the sheet gives them their shape.",
        "Rim and sheet are flush all round, and no point comes through.",
        brings=("rim side", "rim front", "rim back", "sheet, lower"),
    ),
    Row(
        "inner_cover.channel", "Channel behind the notch",
        "Turn it over. Set the strips round the slot with glue: two behind the notch's ends, one "
        "across them.\n"
        "Hold them with a weight, and drive brads through the sheet from below.",
        "With the upper sheet on, nobody gets in there any more.",
        "You can look from the notch through the channel into the slot, and glue closes none of "
        "it.",
        brings=("channel side", "channel back"), comes="above", only="inner_notch",
    ),
    Row(
        "inner_cover.upper_sheet", "Upper sheet",
        "Spread glue thin on all strips, lay on the sheet, flush all round, and drive the brads.\n"
        "Weights on top, on a flat bench, for as long as the glue's label says.",
        "It closes the still air in, so it is the last piece.",
        "It lies flat on the bench, and so it will lie on the box.",
        brings=("sheet, upper",), comes="above",
    ),
    Row(
        "roof.rim", "Glue up the rim",
        "The sides lie outside, high ends to the front; front and back stand between them.\n"
        "{dry}\n"
        "At the thin back the screws sit in the lower half, clear of those that come down through "
        "the deck.\n"
        "{spread}\n"
        "{diagonals}\n"
        "{tighten}\n"
        "{set}\n"
        "{plane}",
        "The deck is set on what the rim is: a rim that leans makes a roof that leans.",
        "{square} A straight edge from front to back lies on the wood all along.",
        brings=("rim side", "rim front", "rim back"), care=(CLAMP, HELD),
    ),
    Row(
        "roof.opening", "Measure the rim inside",
        "Measure the rim inside in three places each way, keep the smallest, and write it into "
        "your hive.\n"
        "Cut the roof's foam and its retainers to what you get from it.",
        "Foam that is a hair too big bends the rim, and one too small falls down.",
        "Tried dry, the foam goes in with a little pressure.",
    ),
    Row(
        "roof.deck", "Deck on the rim",
        "Set the deck with spacers as wide as it reaches beyond the rim, {deck_overhang} at the "
        "sides. Look at all four corners.\n"
        "Mark the screw line over the middle of the rails. One screw in each corner, look again, "
        "and then the rest. No glue: a deck must be changed one day.",
        "The deck holds the rim square and flat from now on.",
        "No point comes out beside a rail, and the deck reaches out as far at the left as at the "
        "right.",
        brings=("deck",), comes="above",
    ),
    Row(
        "roof.foam", "Foam and retainers",
        "Turn the roof over. Press the foam against the deck.\n"
        "Lay a retainer along each side on the foam, and drive the brads into the rim.",
        "From below, since the deck is on. The skirt would be in the way.",
        "Tap it: the foam neither falls nor rattles.",
        brings=("roof panel", "roof retainer"), comes="below",
    ),
    Row(
        "roof.skirt", "Skirt round the rim",
        "Ends first, then the sides over their edges, glued and pressed against the rim.\n"
        "The top is level with the rim's low end, so the skirt hangs {skirt_below} below the rim's "
        "foot: a block so high is your gauge.\n"
        "{plane_skirt}\n"
        "A brad at each end, look, and then the rest. Wipe, and let it set.",
        "After the foam, which comes in from below. Before the cover, so that you can lay the roof "
        "on its deck.",
        "It hangs as far down at all four corners, and the roof goes over the box with room all "
        "round.",
        brings=("skirt end", "skirt side"), comes="outside", care=(HELD,),
    ),
    Row(
        "roof.cover", "Cover on the deck",
        "Lay the sheet on with the same lip all round, and mark its own screw line: never on the "
        "deck's screws.\n"
        "Drill it. Corners first, then half-way between. A dab of silicone under every head, tight "
        "but not sunk.",
        "On earlier, it would be scratched and leaned on.",
        "Water that you pour on runs off. No point comes out below.",
        brings=("cover",), comes="above",
    ),
    Row(
        "hive.handles", "Handles on the sleeve",
        "Screw a strip across each end as a handle, into the upper edge strip and not into foam "
        "alone. Bevel its top, so that no rain stands on it.",
        "A sleeved box has no edge to grip, and a skin that is pulled comes off.",
        "Lift the empty box by them and shake it: nothing gives.",
        only="sleeve", care=(DRILL,),
    ),
    Row(
        "hive.finish", "Finish, outside only",
        "Break the sharp edges with sandpaper. Then oil or paint the outside only, also end grain "
        "and the underside of the rails. Keep it off where parts slide or lie on one another.\n"
        "Cover foam that ants and mice can reach: tape or a strip over bare edges.\n"
        "Let it dry and air until it no longer smells.",
        "After the last glue, so that no joint is painted. The inside stays bare: bees coat it "
        "themselves.",
        "No smell, nothing sticks, and you see no bare foam from outside.",
        care=(GLUE, FOAM),
    ),
    Row(
        "hive.stand", "Stand and bottom board",
        "Set a stand on firm ground, as high as suits your back, level from left to right.\n"
        "{tilt}\n"
        "Set the bottom board on it, landing board to the front, with air under the open screen.",
        "Empty it is light. Full, nobody moves it.",
        "It does not rock, and a hand goes under the screen from all sides.",
        sets=("bottom_board",), care=(LIFT,),
    ),
    Row(
        "hive.boxes", "Set on the box",
        "Set it flush with the frame all round: nothing slides down between.\n"
        "{on_top}\n"
        "Hang in the frames, all pushed together to the middle.",
        "Each part is set on and looked at before the next one hides it.",
        "No gap between box and rails. Look in from the front: the entrance is open.",
        sets=("box", "sleeve"), care=(LIFT, BEES),
    ),
    Row(
        "hive.inner_cover", "Lay on the inner cover",
        "The lower sheet down; a notch looks to the front.",
        "It closes the box, and the roof stands on it.",
        "It lies flat on all four walls.",
        sets=("inner_cover",), only="inner_cover",
    ),
    Row(
        "hive.roof", "Put on the roof",
        "Lower it level, high side to the front, with the same gap all round.",
        "Last on, first off.",
        "It can be shifted a little, and the skirt hangs below the top of the box.",
        sets=("roof",), care=(LIFT,),
    ),
    Row(
        "hive.strap", "Strap and entrance strip",
        "A strap right round stand and hive, or a heavy stone on the roof.\n"
        "Have the entrance strip at hand: in before winter, and where other bees come to rob.",
        "A skirt stops the roof from sliding, not from being lifted by the wind.",
        "Push at the top with one hand: nothing moves.",
        care=(BEES,),
    ),
)  # fmt: skip
"""Every step of any hive, in order."""

STRIP_WAY: Final[Mapping[Units, str]] = {
    "inch": "3/8 in high and 3 in",
    "mm": "9 mm high and 75 mm",
}
"""The way through an entrance strip, in words; common practice, no published source."""
