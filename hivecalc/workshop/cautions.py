"""What can hurt at each kind of step, and what people do about it.

Where no source stands, it is common practice, no published source. Each caution gives way to the
saw's manual, local codes and licensed practice.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from hivecalc.stock import COMMON

Kind: TypeAlias = Literal["before", "crosscut", "rip", "to_length", "bevel", "taper", "after"]


@dataclass(frozen=True)
class Caution:
    """One thing to take care of, and where it is written down."""

    text: str
    source: str = COMMON


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
    "Wet or twisted wood closes on the blade and binds. Leave it, or dry and straighten it first."
)
SMALL: Final = Caution(
    "Never rip a piece shorter or narrower than the saw's manual allows. A rest too narrow to be "
    "held is not cut on the saw: use a hand saw and a plane."
)
THROW: Final = Caution(
    "The blade throws chips and the piece. Wear safety glasses with side shields and hearing "
    "protection; no gloves, rings or loose sleeves near the blade."
)
DUST: Final = Caution(
    "Wood dust harms the lungs: draw it off, and wear a mask that fits. For western redcedar the "
    "limit that hygienists advise is half as high as for other wood, as it can bring on asthma.",
    "OSHA, page on wood dust",
)
UNPLUG: Final = Caution("Unplug the saw before you change the blade or reach near it.")
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
FOAM: Final = Caution("Cut foam with a knife, away from your hand. It burns: no flame or hot wire.")

CAUTIONS: Final[Mapping[Kind, tuple[Caution, ...]]] = {
    "before": (GUARD, SWITCH, UNPLUG, THROW, DUST, WET, STAND),
    "crosscut": (GUARD, FREEHAND, STOP, STAND, THROW, WET),
    "rip": (GUARD, FENCE, FREEHAND, PUSH, STAND, SMALL, THROW, WET),
    "to_length": (GUARD, FREEHAND, STOP, STAND, THROW, SMALL),
    "bevel": (GUARD, TILT, FENCE, FREEHAND, PUSH, SMALL, THROW),
    "taper": (SLED, GUARD, PUSH, THROW, BY_HAND),
    "after": (MESH, FOAM, GLUE, DUST),
}
"""What to take care of before the first cut, at each kind of step, and after the saw.

The sections of the OSHA standard are told in our own words: read their current text.
"""
