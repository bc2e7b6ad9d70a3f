"""What can hurt at each kind of step, and what people do about it.

Where no source stands, it is common practice, no published source. Each caution gives way to the
saw's manual, local codes and licensed practice.
"""

from dataclasses import dataclass
from typing import Final, NamedTuple

from hivecalc.part import COMMON


@dataclass(frozen=True)
class Caution:
    """One thing to take care of, and where it is written down."""

    text: str
    source: str = COMMON

    @property
    def cited(self) -> str:
        """It, with its source where that is a law."""
        return f"{self.text} ({self.source})" if "OSHA" in self.source else self.text


GUARD: Final = Caution(
    "Guard over the blade and riving knife or splitter behind it, at every cut that they allow. "
    "Where the guard must come off, use a jig or feather board that the saw's manual shows.",
    "OSHA 29 CFR 1910.213(c)(1) to (3)",
)
FENCE: Final = Caution(
    "Lock the fence, and see that it stands along the blade and does not shake.",
    "OSHA 29 CFR 1910.213(a)(1) and (a)(6)",
)
SWITCH: Final = Caution(
    "Have the switch within reach of where you stand. A saw must not start by itself when the "
    "power comes back.",
    "OSHA 29 CFR 1910.213(b)(1) and (b)(3)",
)
FREEHAND: Final = Caution(
    "Nothing freehand: a rip runs along the fence, a crosscut along the miter gauge or sled, and "
    "never along both, or the piece is thrown back."
)
STOP: Final = Caution(
    "Clamp the stop block to the miter gauge, the sled or the miter saw, never to the rip fence: a "
    "piece that is caught between fence and blade is thrown back. Hold a short piece with a clamp."
)
STAND: Final = Caution("Stand beside the line of the blade, not in it, and let nobody stand there.")
PUSH: Final = Caution(
    "Push stick or push block in hand before the cut begins. Fingers stay a hand's width away."
)
WET: Final = Caution(
    "Wet or twisted wood closes on the blade and binds; knots and nails throw pieces. Look at "
    "every board first. Leave a doubtful one, or dry and straighten it."
)
SMALL: Final = Caution(
    "Never rip a piece shorter or narrower than the saw's manual allows. A rest too narrow to be "
    "held is not cut on the saw: use a hand saw and a plane."
)
THROW: Final = Caution(
    "The blade throws chips and the piece. Wear safety glasses with side shields and hearing "
    "protection; no gloves, rings or loose sleeves near the blade, and long hair tied back."
)
DUST: Final = Caution(
    "Wood dust harms the lungs: draw it off, and wear a mask that fits. For western redcedar the "
    "limit that hygienists advise is half as high as for other wood, as it can bring on asthma.",
    "OSHA, page on wood dust",
)
UNPLUG: Final = Caution(
    "Unplug the saw before you change the blade or reach near it. Stop when you are tired."
)
TILT: Final = Caution(
    "Tilt the blade away from the fence, so that what falls off is not caught under it. See that "
    "guard and knife clear the tilted blade before you switch on."
)
SLED: Final = Caution(
    "Clamp the piece to a jig that the saw's manual allows. Never steer it past the blade by hand."
)
BY_HAND: Final = Caution(
    "Or do without: saw the taper with a hand saw and plane it to the line, or leave the roof flat "
    "and let the whole hive lean a little, so that rain runs off."
)
MESH: Final = Caution(
    "Cut wire is sharp, and its ends fly. Wear gloves and glasses for it, with no machine running."
)
GLUE: Final = Caution(
    "Glue, silicone and paint: air, gloves and drying time as the label says. Solvent glue eats "
    "foam: take one that is made for polystyrene."
)
FOAM: Final = Caution(
    "Knife: away from your hand, along a metal strip, in several light passes. Foam: wear a "
    "mask; it burns, so no flame, and a hot wire only with the air moving that its maker asks for."
)
NAILS: Final = Caution(
    "Brads: keep fingers out of the line of a nail gun, and bend over or cut off any point that "
    "comes through. Glasses on."
)
DRILL: Final = Caution(
    "Drill and driver: clamp the piece, with no hand behind the hole or beside the bit. No gloves, "
    "loose sleeves or loose hair. Take the battery or plug out before you change the bit."
)
CLAMP: Final = Caution(
    "Clamps: a frame under clamps can spring. Keep face and fingers out of its way. Never force "
    "a joint: find what is too long."
)
HELD: Final = Caution("Clamp the piece before you saw or plane it by hand, and work away from you.")
LIFT: Final = Caution(
    "Lifting: a full box is heavier than it looks. Lift it with two people, or take frames out "
    "first, and set the hive where you can stand firmly."
)
BEES: Final = Caution(
    "Bees: change parts of a lived-in hive only with somebody who knows bees, in a veil, on a mild "
    "day. Nothing wet or smelling goes near them. If a sting has ever made you ill, leave it to "
    "others and ask a doctor first; trouble with breathing after a sting is an emergency: call for "
    "help at once."
)

CHOP: Final = Caution(
    "Miter saw: hold the board against the fence and flat on the table, both ends held up. Hand a "
    "hand's width from the blade and never across its line. Blade at full speed before it touches "
    "the wood, and at rest before it comes up. The piece at the stop is held; what is short and "
    "loose between stop and blade is thrown."
)
SHEET: Final = Caution(
    "Circular saw: hold up the sheet on both sides of the cut, so that nothing falls or pinches "
    "the blade. Blade no deeper than the sheet and a tooth. Let it stop before you lift it."
)

FIRST: Final[tuple[Caution, ...]] = (SWITCH, UNPLUG, THROW, DUST, WET, STAND)
"""What to take care of before the first cut."""

IN_BOOK: Final[tuple[Caution, ...]] = (*FIRST, GUARD)
"""What a book tells on a page of its own, and no more beside the steps."""

AFTER: Final[tuple[Caution, ...]] = (GLUE, NAILS)
"""What to take care of when the sawing is done."""

TRAINED: Final = (
    "Building a hive means saws, dust, glue and, in the end, bees. This book only reminds you. "
    "The machine's manual, local codes and the advice of licensed or trained people come first: "
    "where they say something else, do what they say. If you have never used a machine, let "
    "somebody who is trained on it show you, and stay beside you."
)
SOURCES: Final = (
    f"Where no source is named, it is {COMMON}; OSHA's sections are given in our own words."
)
MANUAL: Final = (
    "The saw's manual, local codes and trained people go before all that stands here. " + SOURCES
)


class Kind(NamedTuple):
    """What is done at a setting: machine or tool, cautions, how it is set, its heading, and why so.

    What is cut out of sheets has no heading: it is described beside their pictures.
    """

    name: str
    machine: str
    cautions: tuple[Caution, ...]
    set: str = "mark {distance}"
    heading: str = ""
    why: str = ""


CROSSCUT: Final = Kind(
    "crosscut", "miter saw", (CHOP,), "stop {distance} from the blade", "Crosscut the boards",
    "Longest first, so that what is left of a board still serves for a shorter piece.",
)  # fmt: skip
RIP: Final = Kind(
    "rip", "table saw", (GUARD, FENCE, FREEHAND, PUSH, SMALL), "fence {distance} from the blade",
    "Rip the blanks",
    "The wide part runs between blade and fence; the strip falls off beyond it.",
)  # fmt: skip
RIP_SLICE: Final = RIP._replace(heading="Rip the slices, laid flat", why="")
BEVEL: Final = Kind(
    "bevel", "table saw, blade tilted", (TILT, PUSH),
    "fence {distance} from the blade, tilted {tilt}°", "Rip with the blade tilted",
    "Rip it on the whole blank, which is long enough to hold; cut to length after.",
)  # fmt: skip
TO_LENGTH: Final = Kind(
    "to_length", "miter saw", (CHOP, STOP), CROSSCUT.set, "Cut the strips to length",
    "Strips are ripped long and cut to length last: a long piece is held more safely.",
)  # fmt: skip
SHORT: Final = Kind(
    "by_hand", "hand saw and miter box", (HELD,),
    heading="Saw by hand: too short for a machine",
)  # fmt: skip
TAPER: Final = Kind(
    "taper", "table saw with jig", (SLED, BY_HAND), "jig with an offset of {distance}",
    "Taper the rim's sides",
    "The taper comes last, as a tapered piece has one straight edge less.",
)  # fmt: skip
PLANE: Final = Kind("plane", "hand plane", (HELD,), "plane the top to a slope of {tilt}°", "Plane")
SAW_SHEET: Final = Kind("saw_sheet", "circular saw along a clamped strip", (SHEET, GUARD))
KNIFE: Final = Kind("knife", "knife along a metal strip", (FOAM,))
SNIPS: Final = Kind("snips", "snips", (MESH,))

KINDS: Final = (
    CROSSCUT, RIP, RIP_SLICE, BEVEL, TO_LENGTH, SHORT, TAPER, PLANE, SAW_SHEET, KNIFE, SNIPS,
)  # fmt: skip
"""Every kind of setting, in the order of the work."""
