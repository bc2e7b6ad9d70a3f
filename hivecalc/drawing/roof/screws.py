"""Where the roof's screws land: on the line that was marked, and in a rail or beside it.

The cover's screws and the deck's stand on one line, but never in one place: the section is drawn
through a screw of the cover, and the deck's next one is seen behind it, dashed.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import hypot
from typing import Literal, TypeAlias

from hivecalc.drawing.layout import Point
from hivecalc.drawing.svg import HIDDEN, METAL, OUTLINE, WRONG_LINE, Sheet
from hivecalc.drawing.view import Look, Outline, View
from hivecalc.length import Length
from hivecalc.space import Solid
from hivecalc.space.outlines import Profile, span

Where: TypeAlias = Literal["front", "back"]

# A No. 8 wood screw: 0.164 in over its thread, by ASME B18.6.1; the head is about twice as wide.
# Both are from memory, and only for the look of it.
THICK, HEAD_WIDE, HEAD_HIGH, POINT = 0.164, 0.32, 0.1, 0.22
# The lines that are marked on the roof: the dimension, the piece from whose edge it is taken, and
# the words for it. The rim's back is thin, so there they lie nearer to the edge.
LINES: Mapping[Where, tuple[tuple[str, str, str], tuple[str, str, str]]] = {
    "front": (
        ("roof.cover_screw_line", "cover", "screw from cover's edge"),
        ("roof.deck_screw_line", "deck", "screw from deck's edge"),
    ),
    "back": (
        ("roof.cover_back_screw_line", "cover", "screw from cover's edge"),
        ("roof.deck_back_screw_line", "deck", "screw from deck's edge"),
    ),
}
RAILS: Mapping[Where, str] = {"front": "rim front", "back": "rim back"}


@dataclass(frozen=True)
class Line:
    """A screw line: its dimension, and in the section the edge it is taken from and the mark."""

    name: str
    edge: Point
    mark: Point


@dataclass(frozen=True)
class Screw:
    """A screw in the section: its head's middle, the way it points, and the sheet it starts from.

    `exact` is its length; `fault` says what is wrong with where it lands, or nothing.
    """

    head: Point
    way: Point
    sheet: str
    exact: Length
    fault: str = ""

    @property
    def length(self) -> float:
        """Its length in inches."""
        return float(self.exact)

    @property
    def aside(self) -> bool:
        """Whether it stands behind the cut: the deck's screws keep away from the cover's."""
        return self.sheet == "deck"

    def at(self, deep: float, aside: float = 0.0) -> Point:
        """The place so deep along the screw and so far aside from its middle, in inches."""
        (y, z), (dy, dz) = self.head, self.way
        return (y + dy * deep - dz * aside, z + dz * deep + dy * aside)

    @property
    def tip(self) -> Point:
        """Where its point is."""
        return self.at(self.length)

    @property
    def outline(self) -> Outline:
        """Its outline: a head that is sunk in, a shank and a point."""
        half, shank = THICK / 2, self.length - POINT
        return [
            self.at(0, -HEAD_WIDE / 2),
            self.at(HEAD_HIGH, -half),
            self.at(shank, -half),
            self.tip,
            self.at(shank, half),
            self.at(HEAD_HIGH, half),
            self.at(0, HEAD_WIDE / 2),
        ]


def lines(solids: Mapping[str, Solid], sizes: Mapping[str, Fraction], end: Where) -> list[Line]:
    """The screw lines at one end of the roof, the cover's first.

    >>> from hivecalc.space import solids
    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> true = values(demo_hive())
    >>> found = lines({s.label: s for s in solids(true, "roof")}, true, "front")
    >>> [line.name for line in found]
    ['roof.cover_screw_line', 'roof.deck_screw_line']
    """
    found = []
    for name, piece, _ in LINES[end]:
        edge, along = _edge(solids[piece].blocks[0].profile, end)
        far = float(sizes[name])
        found.append(Line(name, edge, (edge[0] + along[0] * far, edge[1] + along[1] * far)))
    return found


def _edge(profile: Profile, end: Where) -> tuple[Point, Point]:
    """A sheet's upper edge at this end, and the way from there along its upper face."""
    back, front = ((float(y), float(z)) for y, z in profile[2:])
    here, there = (front, back) if end == "front" else (back, front)
    long = hypot(there[0] - here[0], there[1] - here[1])
    return here, ((there[0] - here[0]) / long, (there[1] - here[1]) / long)


def screws(solids: Mapping[str, Solid], sizes: Mapping[str, Fraction], end: Where) -> list[Screw]:
    """The screws at one end: the cover's and the deck's, each on its own line.

    >>> from hivecalc.space import solids
    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> true = values(demo_hive())
    >>> pieces = {s.label: s for s in solids(true, "roof")}
    >>> [screw.fault for screw in screws(pieces, true, "front")]
    ['', '']
    >>> no_lip = values(demo_hive(), {"roof.cover_screw_line": Fraction(1, 2)})
    >>> screws(pieces, no_lip, "front")[0].fault
    'misses the rim front'
    """
    _, (along_y, along_z) = _edge(solids["deck"].blocks[0].profile, "front")
    way, rail = (along_z, -along_y), solids[RAILS[end]]
    found = [
        Screw(line.mark, way, sheet, sizes[f"{sheet}_screw"])
        for line, (_, sheet, _) in zip(lines(solids, sizes, end), LINES[end], strict=True)
    ]
    return [replace(screw, fault=_fault(screw, solids["deck"], rail)) for screw in found]


def _fault(screw: Screw, deck: Solid, rail: Solid) -> str:
    """What is wrong with where a screw lands: it must enter the rail and end in it."""
    profile = rail.blocks[0].profile
    low, high = (float(y) for y in rail.extents[1])
    under = _below(screw, deck.blocks[0].profile)
    if not all(low <= y <= high for y in (under[0], screw.tip[0])):
        return f"misses the {rail.label}"
    bottom, top = (float(z) for z in span(profile, 1, Fraction(screw.tip[0])))
    if screw.tip[1] > top:
        return f"does not reach the {rail.label}"
    return "" if screw.tip[1] > bottom else f"comes out below the {rail.label}"


def _below(screw: Screw, deck: Profile) -> Point:
    """Where a screw comes out of the deck's lower face, or where its point is if it does not."""
    y, z = (float(c) for c in deck[0])
    deep = (y - screw.head[0]) * screw.way[0] + (z - screw.head[1]) * screw.way[1]
    return screw.at(min(deep, screw.length))


LANDS, MISSES = Look(OUTLINE, METAL), Look(WRONG_LINE, METAL, "wrong")
BEHIND = Look(HIDDEN)


def draw_screw(sheet: Sheet, view: View, screw: Screw) -> None:
    """Draw as much of a screw as the view shows; one that misses is hatched."""
    data = {"screw": screw.fault or f"{screw.sheet}: lands in the rail", "exact": screw.exact}
    look = MISSES if screw.fault else BEHIND if screw.aside else LANDS
    view.draw(sheet, screw.outline, look, data)
