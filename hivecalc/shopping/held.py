"""How each joint of a hive is held: by which fastener and how many, by glue, or by nothing.

All of it is common practice, no published source. A joint is named by the two kinds of pieces that
meet in it, as the assembly labels them but without left, right, front and back.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Final, Literal, TypeAlias

from hivecalc.assembly import JOINTS, Axis, Joint
from hivecalc.length import Length, Units, with_unit

Along: TypeAlias = Literal["length", "width"]


@dataclass(frozen=True)
class Every:
    """One fastener for every so many inches of a joint, rounded up, and never fewer than `least`.

    >>> Every(Fraction(6), 2).count(Fraction(20)), Every(Fraction(6), 2).count(Fraction(5))
    (4, 2)
    """

    spacing: Length
    least: int

    def count(self, run: Length) -> int:
        """How many a joint takes that runs so far."""
        return max(self.least, -(-run // self.spacing))

    def told(self, run: Length, units: Units) -> str:
        """Why it is so many."""
        every, whole = with_unit(units, self.spacing), with_unit(units, run)
        return f": one for every {every} of {whole}, rounded up, and at least {self.least}"


@dataclass(frozen=True)
class Each:
    """The same number of fasteners in each joint, however far it runs.

    >>> Each(2).count(Fraction(20))
    2
    """

    number: int

    def count(self, _: Length) -> int:
        """How many a joint takes."""
        return self.number

    def told(self, _: Length, __: Units) -> str:
        """Why it is so many: there is nothing to add."""
        return ""


@dataclass(frozen=True)
class Held:
    """How one kind of joint is held: which fastener goes through which piece and into which.

    The joint runs along one size of the pieces, as far as the piece that has less of it; glued, it
    takes one line of glue so long. A `square` fastener goes straight from one into the other. An
    axis is given where two kinds of pieces meet along several.
    """

    through: str
    into: str
    item: str
    count: Every | Each
    along: Along = "length"
    glued: bool = False
    square: bool = True
    axis: Axis | None = None


@dataclass(frozen=True)
class Loose:
    """A joint that no fastener goes through, and why not; it may be glued all the same."""

    through: str
    into: str
    why: str
    glued: bool = False
    along: Along = "width"
    axis: Axis | None = None


Way: TypeAlias = Held | Loose

BRADS: Final = Every(Fraction(6), 2)
SCREWS: Final = Every(Fraction(8), 3)
CORNER: Final = Every(Fraction(3), 3)

_SLIDES: Final = "It slides in and out."
_RESTS: Final = "It rests there by its weight."
_FOAM: Final = "The foam is pressed in between what holds it."
_TOUCHES: Final = "It only touches there."
_OTHERS: Final = "Fasteners in the joints beside it hold both."

HELD: Final[Mapping[str, tuple[Way, ...]]] = {
    "bottom_board": (
        Held("side rail", "front rail", "frame_screw", Each(2), "width", glued=True),
        Held("back rail", "side rail", "hanger_bolt", Each(1), "width", square=False),
        Held("lower side runner", "side rail", "long_brad", BRADS),
        Held("lower front runner", "front rail", "long_brad", BRADS),
        Held("upper side runner", "side rail", "long_brad", BRADS),
        Held("upper front runner", "front rail", "long_brad", BRADS),
        Held("screen side strip, upper", "mesh", "short_brad", BRADS, square=False),
        Held("screen end strip, upper", "mesh", "short_brad", BRADS, square=False),
        Held("screen front stop", "mesh", "short_brad", BRADS, square=False),
        Held("landing board", "front rail", "deck_screw", BRADS, glued=True, square=False),
        Held("landing board", "side rail", "deck_screw", Each(1), square=False),
        Loose("screen side strip, lower", "mesh", "The brads from above hold it."),
        Loose("screen end strip, lower", "mesh", "The brads from above hold it."),
        Loose("screen side strip", "screen end strip", _OTHERS, glued=True),
        Loose("screen side strip", "screen front stop", _OTHERS, glued=True),
        Loose("lower side runner", "panel", _SLIDES),
        Loose("lower front runner", "panel", _SLIDES),
        Loose("upper side runner", "screen side strip", _SLIDES),
        Loose("upper front runner", "screen end strip", _SLIDES),
        Loose("side rail", "box above", _RESTS),
        Loose("back rail", "box above", _RESTS),
    ),
    "roof": (
        Held("rim side", "rim front", "frame_screw", Each(2), "width", glued=True),
        Held("rim side", "rim back", "frame_screw", Each(2), "width", glued=True),
        Held("deck", "rim side", "deck_screw", SCREWS),
        Held("deck", "rim front", "deck_screw", SCREWS),
        Held("deck", "rim back", "deck_screw", SCREWS),
        Held("roof retainer", "rim side", "long_brad", BRADS),
        Held("skirt side", "rim side", "long_brad", BRADS, glued=True),
        Held("skirt end", "rim front", "long_brad", BRADS, glued=True),
        Held("skirt end", "rim back", "long_brad", BRADS, glued=True),
        Held("skirt end", "rim side", "long_brad", Each(1)),
        Loose("skirt side", "skirt end", _OTHERS, glued=True),
        Loose("skirt side", "deck", _TOUCHES),
        Loose("skirt end", "deck", _TOUCHES),
        Loose("cover", "deck", "The screws along the screw line hold it."),
        Loose("roof panel", "deck", _FOAM),
        Loose("roof panel", "rim front", _FOAM),
        Loose("roof panel", "rim back", _FOAM),
        Loose("roof panel", "rim side", _FOAM),
        Loose("roof retainer", "roof panel", _FOAM),
        Loose("rim side", "hive below", _RESTS),
        Loose("rim front", "hive below", _RESTS),
        Loose("rim back", "hive below", _RESTS),
    ),
    "inner_cover": (
        Held("sheet", "rim side", "short_brad", BRADS, glued=True),
        Held("sheet", "rim front", "short_brad", BRADS, glued=True),
        Held("sheet", "rim back", "short_brad", BRADS, glued=True),
        Loose("rim side", "rim front", _OTHERS, glued=True),
        Loose("rim side", "rim back", _OTHERS, glued=True),
        Loose("sheet", "box below", _RESTS),
        Loose("sheet", "roof above", _RESTS),
    ),
    "box": (
        Held("side", "end", "deck_screw", CORNER, "width", glued=True, axis="x"),
        Loose("side", "end", "The screws through the side hold it.", axis="y"),
        Loose("side", "cover above", _RESTS),
        Loose("end", "cover above", _RESTS),
        Loose("end", "top bars", _RESTS),
    ),
    "sleeve": (
        Held("edge strip side", "box inside", "deck_screw", BRADS),
        Held("edge strip end", "box inside", "deck_screw", BRADS),
        Held("skin side", "edge strip side", "long_brad", BRADS, glued=True),
        Held("skin end", "edge strip end", "long_brad", BRADS, glued=True),
        Loose("skin side", "skin end", _OTHERS, glued=True),
        Loose("edge strip side", "edge strip end", _OTHERS, glued=True),
        Loose("edge strip end", "skin side", _TOUCHES),
        Loose("foam side", "box inside", _FOAM),
        Loose("foam end", "box inside", _FOAM),
        Loose("foam side", "foam end", _FOAM),
        Loose("foam side", "skin side", _FOAM),
        Loose("foam end", "skin side", _FOAM),
        Loose("foam end", "skin end", _FOAM),
        Loose("foam side", "edge strip side", _FOAM),
        Loose("foam end", "edge strip end", _FOAM),
    ),
}
"""For each component, every kind of joint and how it is held."""

# The rim's back is square on top and meets the deck above it only along an edge, so that the
# assembly has no face for it. The screw line goes round over it all the same.
_ALONG_AN_EDGE: Final[Mapping[str, tuple[Joint, ...]]] = {"roof": (("deck", "rim back", "z"),)}
_PLACES: Final = frozenset({"left", "right", "front", "back"})


def joints(component: str) -> tuple[Joint, ...]:
    """The joints of a component: those whose faces meet, and one that meets along an edge.

    >>> ("deck", "rim back", "z") in joints("roof")
    True
    """
    return (*JOINTS[component], *_ALONG_AN_EDGE.get(component, ()))


def kind_of_piece(label: str) -> str:
    """Label of a piece without its place among twins.

    >>> kind_of_piece("side rail, left"), kind_of_piece("screen side strip, upper right")
    ('side rail', 'screen side strip, upper')
    """
    piece, _, place = label.partition(", ")
    layers = [word for word in place.split() if word not in _PLACES]
    return ", ".join((piece, *layers))


def matches(way: Way, joint: Joint) -> bool:
    """Whether this is how a joint is held; a way without layer is that of every layer.

    >>> matches(Loose("sheet", "rim back", ""), ("sheet, upper", "rim back", "z"))
    True
    """
    first, second, axis = joint
    pairs = ((first, second), (second, first))
    return way.axis in {None, axis} and any(
        is_kind(a, way.through) and is_kind(b, way.into) for a, b in pairs
    )


@cache
def ways(component: str) -> tuple[tuple[Way, tuple[Joint, ...]], ...]:
    """Each way in which joints of a component are held, and the joints that are held so.

    >>> way, met = ways("bottom_board")[0]
    >>> way.item, len(met)
    ('frame_screw', 2)
    """
    listed = joints(component)
    return tuple((way, tuple(j for j in listed if matches(way, j))) for way in HELD[component])


def is_kind(label: str, kind: str) -> bool:
    """Whether a piece is of a kind, which may name its layer.

    >>> is_kind("screen side strip, upper left", "screen side strip, upper")
    True
    """
    return kind in {kind_of_piece(label), label.partition(", ")[0]}
