"""Where wood bridges the foam: sections across the hive in space, and what each bridge costs.

Each section is cut across the hive half-way along it, where every piece shows as a rectangle, at
the hive's left wall, and is taken to go on all round. The roof's slope is left out, and so are the
mesh and the thin cover. SI units, °C.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Final, TypeAlias

from hivecalc.components import built, values
from hivecalc.hive import Hive
from hivecalc.space import Solid, feet, material_of, stacked
from hivecalc.space.solids import span
from hivecalc.warmth.layers import (
    FOAM,
    METRE,
    PLYWOOD,
    SOFTWOOD,
    Inside,
    Material,
    Surface,
    air_resistance,
    surfaces,
)
from hivecalc.warmth.section import Air, Box, Field, Patch, Section, Side, solved

MADE_OF: Final[dict[str, Material]] = {
    "stud": SOFTWOOD, "strip": SOFTWOOD, "board": SOFTWOOD, "plywood": PLYWOOD, "foam": FOAM,
}  # fmt: skip
"""What a part's material is, to heat; the others are left out."""

REACH: Final = 6.0
"""Inches that a section goes on beyond the wall's corner, where the heat flows straight again."""
MARGIN: Final = 1.0
"""Inches of outside air above and below the hive."""

Rectangle: TypeAlias = tuple[float, float, float, float]
"""Left, right, low and high, in inches."""


@dataclass(frozen=True)
class Bridge:
    """A place where wood goes through the foam: its section as it is, and with foam for the wood.

    `length` is how far it runs round the hive, in m; `beside` is the plain part that it borders on;
    `flat` is what the plain parts of the section would let through, in W/(m·K).
    """

    name: str
    section: Section
    foamed: Section
    length: float
    beside: Surface
    flat: float

    @property
    def field(self) -> Field:
        """The temperatures with the wood as it is."""
        return solved(self.section)

    @property
    def error(self) -> float:
        """What the last refinement changed of a flow, as a share."""
        return max(self.field.error, solved(self.foamed).error)

    @property
    def conductance(self) -> float:
        """Watts for each kelvin that the wood lets through beyond foam in its place."""
        return (self.field.inwards - solved(self.foamed).inwards) * self.length

    @property
    def edge(self) -> float:
        """Watts for each kelvin beyond the plain parts, with the wood as it is."""
        return max(self.field.inwards - self.flat, 0.0) * self.length

    @property
    def inches(self) -> float:
        """Inches of foam, taken off the whole plain part, that would cost as much heat."""
        area, resistance = self.beside.area, self.beside.element.resistance
        worse = area / (area / resistance + self.conductance)
        return (resistance - worse) * FOAM.conductivity / METRE


RAIL, RIM, STRIPS = "bottom board's rail", "roof's rim", "sleeve's edge strips"


def bridges(hive: Hive) -> tuple[Bridge, ...]:
    """The roof's rim, the sleeve's edge strips and the bottom board's rail of this hive.

    >>> from hivecalc.hive import hive_from_text
    >>> [b.name for b in bridges(hive_from_text("chosen.frames = 10"))]
    ["roof's rim", "sleeve's edge strips", "bottom board's rail"]

    A hive without a sleeve has no edge strips.
    """
    cut = _Cut(values(hive), built(hive))
    walls, roof, floor = surfaces(hive)
    once, strips = cut.inside.round, 2 * float(cut.found["boxes"])
    wide, wall = (cut.end - cut.wall) * METRE, 1 / walls.element.clear
    beside, low = REACH * METRE * wall, (cut.middle - cut.foot("box")) * METRE * wall
    made = [Bridge(RIM, *cut.roof(), once, roof, beside + wide / roof.element.clear)]
    if "sleeve" in cut.components:
        made.append(Bridge(STRIPS, *cut.strips(), strips * once, walls, low))
    flat = beside + wide / floor.element.clear
    return (*made, Bridge(RAIL, *cut.floor(), once, floor, flat))


@dataclass(frozen=True)
class _Cut:
    """A hive cut across half-way along it."""

    found: Mapping[str, Fraction]
    components: tuple[str, ...]

    @cached_property
    def pieces(self) -> tuple[tuple[Solid, Rectangle], ...]:
        return tuple(_shown(stacked(self.found, self.components), self.found["hive_length"] / 2))

    @cached_property
    def inside(self) -> Inside:
        return Inside.of(self.found, self.components)

    @property
    def wall(self) -> float:
        """Where the room begins, from the hive's outside."""
        return self.inside.wall / METRE

    @property
    def end(self) -> float:
        """Where a section ends, at the latest in the hive's middle."""
        return min(self.wall + REACH, float(self.found["hive_width"]) / 2)

    @property
    def middle(self) -> float:
        """Half-way up the wall, or some inches up a high one."""
        return self.foot("box") + min(REACH, self.inside.height / METRE / 2)

    def foot(self, component: str) -> float:
        heights = feet(self.found, self.components)
        return float(heights[component])

    def place(self, part: str) -> Rectangle:
        """Where the first piece of a part shows."""
        return next(rectangle for solid, rectangle in self.pieces if solid.part == part)

    def roof(self) -> tuple[Section, Section]:
        """From some inches below the roof to above it."""
        lid, foam = self.foot("roof"), self.place("roof_panel")
        top, under_foam = lid, (foam[0], self.end, lid, foam[2])
        if "inner_cover" in self.components:
            top = self.foot("inner_cover")
            sheet = float(self.found["sheet_thickness"])
            rim = float(self.found["stud_thickness"])
            airs: list[Patch | Air] = [
                _still((rim, self.end, top + sheet, lid - sheet)),
                _still(under_foam),
            ]
        else:
            airs = [_air("inside", under_foam)]
        airs.append(_air("inside", (self.wall, self.end, top - REACH, top)))
        highest = max(rectangle[3] for _, rectangle in self.pieces) + MARGIN
        wood = {"rim_side": FOAM, "roof_retainer": None}
        return self._pair((top - REACH, highest), airs, wood)

    def strips(self) -> tuple[Section, Section]:
        """The lower part of a wall, half its height at most."""
        foot, top = self.foot("box"), self.middle
        room = _air("inside", (self.wall, self.end, foot, top))
        return self._pair((foot, top), [room], {"edge_strip_side": FOAM})

    def floor(self) -> tuple[Section, Section]:
        """From below the bottom board to some inches above it."""
        foot, panel = self.foot("box"), self.place("panel")
        rail = float(self.found["stud_thickness"])
        airs = [
            _air("inside", (rail, self.end, panel[2], foot)),
            _air("inside", (self.wall, self.end, foot, foot + REACH)),
        ]
        return self._pair((-MARGIN, foot + REACH), airs, {"side_rail": FOAM})

    def _pair(
        self,
        heights: tuple[float, float],
        airs: Sequence[Patch | Air],
        wood: Mapping[str, Material | None],
    ) -> tuple[Section, Section]:
        """Two sections between these heights: as it is, and with foam or nothing for the wood."""
        left = min(rectangle[0] for _, rectangle in self.pieces) - MARGIN
        window = (left, self.end, *heights)
        around = [_air("outside", window), *airs]
        as_it_is, foamed = list[Patch](), list[Patch]()
        for solid, place in _within(self.pieces, window):
            made = MADE_OF.get(material_of(solid))
            # the inner cover's rim has the same name as the roof's, and stays wood
            instead = made if solid.component == "inner_cover" else wood.get(solid.part, made)
            for found, material in ((as_it_is, made), (foamed, instead)):
                if material:
                    found.append(Patch(_metric(place), material.conductivity, solid.label))
        return Section((*around, *as_it_is)), Section((*around, *foamed))


def _shown(stack: Sequence[Solid], at: Fraction) -> Iterator[tuple[Solid, Rectangle]]:
    """Each piece that shows at so many inches from the front, with its rectangles there."""
    for solid in stack:
        for block in solid.blocks:
            front, back = block.extents[1]
            if front <= at <= back:
                low, high = span(block.profile, 1, at)
                yield solid, (float(block.x0), float(block.x1), float(low), float(high))


def _within(
    pieces: Sequence[tuple[Solid, Rectangle]], window: Rectangle
) -> Iterator[tuple[Solid, Rectangle]]:
    for solid, (left, right, low, high) in pieces:
        inside = (
            max(left, window[0]), min(right, window[1]), max(low, window[2]), min(high, window[3])
        )  # fmt: skip
        if inside[0] < inside[1] and inside[2] < inside[3]:
            yield solid, inside


def _air(side: Side, place: Rectangle) -> Air:
    return Air(_metric(place), side)


def _still(place: Rectangle) -> Patch:
    """Still air as a material that resists as much, from below upwards."""
    box = _metric(place)
    thick = max(box.high - box.low, 0.0)
    return Patch(box, thick / air_resistance(thick, "up") if thick else 1.0, "still air")


def _metric(place: Rectangle) -> Box:
    return Box(*(round(inches * METRE, 7) for inches in place))
