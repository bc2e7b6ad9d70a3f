"""Steady heat through a section: a plane cut of rectangles, solved on a grid that follows them.

Unknown temperatures stand at the corners of the grid's cells, so that faces and joints have one of
their own. The grid is refined until the flow changes by less than 1 %. SI units; flows are for each
metre of depth. Checked against ISO 10211:2017, cases 1 and 2.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING, Final, Literal, NamedTuple, TypeAlias

from hivecalc.components import built, values
from hivecalc.hive import Hive
from hivecalc.space import Solid, feet, material_of, stacked
from hivecalc.space.solids import span
from hivecalc.warmth.layers import (
    FILM_INSIDE,
    FILM_OUTSIDE,
    FOAM,
    METRE,
    PLYWOOD,
    SOFTWOOD,
    Inside,
    Material,
    Surface,
    air_resistance,
    metres,
    surfaces,
)

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats: TypeAlias = NDArray[np.float64]

Side: TypeAlias = Literal["inside", "outside"]

ENOUGH: Final = 0.01
"""How much the flow may still change at a refinement."""
FINENESSES: Final = (2, 4, 8, 16, 32)
"""Cells into which each interval of the grid is divided, one try after the other."""


class Box(NamedTuple):
    """A rectangle: from left to right and from low to high, in m."""

    left: float
    right: float
    low: float
    high: float


@dataclass(frozen=True)
class Patch:
    """A rectangle of some material, with its conductivity and name."""

    box: Box
    conductivity: float
    name: str = ""


@dataclass(frozen=True)
class Air:
    """A rectangle of air, inside or outside: its temperature is given, and its film resists.

    Without `film` it is that of ISO 6946, by the direction of the face.
    """

    box: Box
    side: Side
    film: float | None = None


@dataclass(frozen=True)
class Section:
    """Rectangles that lie over one another, the later above; where there are none, nothing flows.

    Two equal sections have equal hashes, so a solution is kept by what the section is.
    """

    rectangles: tuple[Patch | Air, ...]


@dataclass(frozen=True, eq=False)
class Temperatures:
    """The temperatures of a section, from 0 outside to 1 inside, and the flow through it.

    `temperatures[i, j]` is that at `x[i]`, `z[j]`; nan where there is no material. `inwards` and
    `outwards` are watts for each metre and each kelvin at the inside and at the outside faces; they
    are equal but for the error of the arithmetic. `coldest` is the lowest temperature at an inside
    face. `error` is what the last refinement changed, as a share.
    """

    x: "Floats"
    z: "Floats"
    temperatures: "Floats"
    inwards: float
    outwards: float
    coldest: float
    error: float = 0.0

    def at(self, x: float, z: float) -> float:
        """Temperature at the grid's corner nearest to a place."""
        i = int(abs(self.x - x).argmin())
        j = int(abs(self.z - z).argmin())
        return float(self.temperatures[i, j])


@lru_cache(maxsize=64)
def solved(section: Section) -> Temperatures:
    """The field of a section, on a grid as fine as it needs.

    Raises ValueError where the section has no face to the inside or none to the outside.
    """
    before = on_grid(section, FINENESSES[0])
    for fineness in FINENESSES[1:]:
        found = on_grid(section, fineness)
        error = abs(found.inwards - before.inwards) / found.inwards
        before = found
        if error < ENOUGH:
            break
    return replace(before, error=error)


def on_grid(section: Section, fineness: int) -> Temperatures:
    """The field of a section with each interval between edges in `fineness` cells."""
    import numpy as np  # noqa: PLC0415 - loads slowly
    from scipy.sparse import coo_array  # noqa: PLC0415 - as above
    from scipy.sparse.linalg import spsolve  # noqa: PLC0415 - as above

    x = _places([e for r in section.rectangles for e in r.box[:2]], fineness)
    z = _places([e for r in section.rectangles for e in r.box[2:]], fineness)
    conductivity, air = _cells(section, x, z)
    number = np.arange(x.size * z.size).reshape(x.size, z.size)
    first, second, between = _between(number, conductivity, x, z)
    nodes, films, sides = _films(section, number, air, conductivity > 0, x, z)
    if not (sides == 1).any() or not (sides == 0).any():
        raise ValueError("a section needs a face to the inside and one to the outside")
    size = number.size
    diagonal = np.zeros(size)
    for ends in (first, second):
        np.add.at(diagonal, ends, between)
    np.add.at(diagonal, nodes, films)
    right = np.zeros(size)
    np.add.at(right, nodes, films * sides)
    lone = diagonal == 0
    diagonal[lone] = 1.0
    rows = np.concatenate([first, second, np.arange(size)])
    columns = np.concatenate([second, first, np.arange(size)])
    filled = np.concatenate([-between, -between, diagonal])
    matrix = coo_array((filled, (rows, columns)), shape=(size, size)).tocsc()
    temperatures = np.asarray(spsolve(matrix, right), dtype=np.float64)
    flows = films * (sides - temperatures[nodes])
    temperatures[lone] = np.nan
    return Temperatures(
        x, z, temperatures.reshape(x.size, z.size),
        float(flows[sides == 1].sum()), float(-flows[sides == 0].sum()),
        float(temperatures[nodes[sides == 1]].min()),
    )  # fmt: skip


def _places(edges: Sequence[float], fineness: int) -> "Floats":
    """The grid's lines: every edge, and between two of them lines that crowd towards both."""
    import numpy as np  # noqa: PLC0415 - loads slowly

    lines = np.unique(np.round(edges, 7))
    within = (1 - np.cos(np.linspace(0, np.pi, fineness + 1))) / 2
    parts = [low + (high - low) * within[:-1] for low, high in pairwise(lines)]
    return np.concatenate([*parts, lines[-1:]])


def _cells(section: Section, x: "Floats", z: "Floats") -> tuple["Floats", "Floats"]:
    """Of each cell its conductivity, and which air is in it; 0 and −1 where none is."""
    import numpy as np  # noqa: PLC0415 - loads slowly

    middle_x, middle_z = (x[1:] + x[:-1]) / 2, (z[1:] + z[:-1]) / 2
    conductivity = np.zeros((middle_x.size, middle_z.size))
    air, airs = np.full(conductivity.shape, -1.0), 0
    for rectangle in section.rectangles:
        left, right, low, high = rectangle.box
        across, up = (middle_x > left) & (middle_x < right), (middle_z > low) & (middle_z < high)
        here = np.ix_(across, up)
        if isinstance(rectangle, Air):
            conductivity[here], air[here], airs = 0.0, airs, airs + 1
        else:
            conductivity[here], air[here] = rectangle.conductivity, -1.0
    return conductivity, air


def _between(
    number: "NDArray[np.int64]", conductivity: "Floats", x: "Floats", z: "Floats"
) -> tuple["NDArray[np.int64]", "NDArray[np.int64]", "Floats"]:
    """Pairs of neighbouring corners with what each pair conducts, through half of both cells."""
    import numpy as np  # noqa: PLC0415 - loads slowly

    wide, high = np.diff(x)[:, None], np.diff(z)[None, :]
    along_x, along_z = conductivity * high / 2 / wide, conductivity * wide / 2 / high
    level = np.pad(along_x, ((0, 0), (1, 0))) + np.pad(along_x, ((0, 0), (0, 1)))
    upright = np.pad(along_z, ((1, 0), (0, 0))) + np.pad(along_z, ((0, 1), (0, 0)))
    first = np.concatenate([number[:-1].ravel(), number[:, :-1].ravel()])
    second = np.concatenate([number[1:].ravel(), number[:, 1:].ravel()])
    return first, second, np.concatenate([level.ravel(), upright.ravel()])


def _films(  # noqa: PLR0913, PLR0917 - a grid has as many sides
    section: Section,
    number: "NDArray[np.int64]",
    air: "Floats",
    solid: "NDArray[np.bool_]",
    x: "Floats",
    z: "Floats",
) -> tuple["NDArray[np.int64]", "Floats", "Floats"]:
    """Corners at a face to air, what half a face's film conducts, and the air's temperature."""
    import numpy as np  # noqa: PLC0415 - loads slowly

    nodes, films, sides = [], [], []
    airs = [one for one in section.rectangles if isinstance(one, Air)]
    wide, high = np.diff(x), np.diff(z)
    # Air beyond a solid cell, and the two corners of the face: (axis, step, direction of the flow).
    for axis, step in ((0, 1), (0, -1), (1, 1), (1, -1)):
        beyond = np.roll(air, -step, axis)
        np.moveaxis(beyond, axis, 0)[-1 if step == 1 else 0] = -1.0
        for i, j in np.argwhere(solid & (beyond >= 0)):
            found = airs[int(beyond[i, j])]
            length = high[j] if axis == 0 else wide[i]
            film = _film(found, axis, step) if found.film is None else found.film
            face_i, face_j = (i + (step == 1), j) if axis == 0 else (i, j + (step == 1))
            other = (face_i, face_j + 1) if axis == 0 else (face_i + 1, face_j)
            nodes += [number[face_i, face_j], number[other]]
            films += [length / 2 / film] * 2
            sides += [float(found.side == "inside")] * 2
    return np.array(nodes, dtype=np.int64), np.array(films), np.array(sides)


def _film(air: Air, axis: int, step: int) -> float:
    """The film at a face, with the air beyond it to the side, above (step 1) or below it."""
    if air.side == "outside":
        return FILM_OUTSIDE
    if axis == 0:
        return FILM_INSIDE["level"]
    return FILM_INSIDE["down"] if step == 1 else FILM_INSIDE["up"]


# ── bridges: sections across the hive in space ──────────────────────────────────────────────────

MADE_OF: Final[dict[str, Material]] = {
    "stud": SOFTWOOD, "strip": SOFTWOOD, "board": SOFTWOOD, "plywood": PLYWOOD, "foam": FOAM,
}  # fmt: skip
"""What a part's material is, to heat; the others are left out."""

REACH: Final = 6 * METRE
"""Metres that a section goes on beyond the wall's corner, where the heat flows straight again."""
MARGIN: Final = METRE
"""Metres of outside air above and below the hive."""


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
    def field(self) -> Temperatures:
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

    Each is a section across the hive half-way along it, where every piece shows as a rectangle, at
    the hive's left wall, and is taken to go on all round. The roof's slope is left out, and so are
    the mesh and the thin cover. A hive without a sleeve has no edge strips.
    """
    cut = _Cut(values(hive), built(hive))
    walls, roof, floor = surfaces(hive)
    once, strips = cut.inside.round, 2 * float(cut.found["boxes"])
    wide, wall = cut.end - cut.inside.wall, 1 / walls.element.clear
    beside, low = REACH * wall, (cut.middle - cut.foot("box")) * wall
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
    def pieces(self) -> tuple[tuple[Solid, Box], ...]:
        """Each piece that shows half-way from the front, with its rectangles there."""
        at, shown = self.found["hive_length"] / 2, []
        for solid in stacked(self.found, self.components):
            for block in solid.blocks:
                front, back = block.extents[1]
                if front <= at <= back:
                    low, high = span(block.profile, 1, at)
                    shown.append((solid, Box(*map(metres, (block.x0, block.x1, low, high)))))
        return tuple(shown)

    @cached_property
    def inside(self) -> Inside:
        return Inside.of(self.found, self.components)

    @property
    def end(self) -> float:
        """Where a section ends, at the latest in the hive's middle."""
        return min(self.inside.wall + REACH, metres(self.found["hive_width"]) / 2)

    @property
    def middle(self) -> float:
        """Half-way up the wall, or some inches up a high one."""
        return self.foot("box") + min(REACH, self.inside.height / 2)

    def foot(self, component: str) -> float:
        return metres(feet(self.found, self.components)[component])

    def place(self, part: str) -> Box:
        """Where the first piece of a part shows."""
        return next(box for solid, box in self.pieces if solid.part == part)

    def roof(self) -> tuple[Section, Section]:
        """From some inches below the roof to above it."""
        lid, foam = self.foot("roof"), self.place("roof_panel")
        top, under_foam = lid, Box(foam.left, self.end, lid, foam.low)
        if "inner_cover" in self.components:
            top, sheet = self.foot("inner_cover"), metres(self.found["sheet_thickness"])
            rim = metres(self.found["stud_thickness"])
            between = Box(rim, self.end, top + sheet, lid - sheet)
            airs: list[Patch | Air] = [_still(between), _still(under_foam)]
        else:
            airs = [Air(under_foam, "inside")]
        airs.append(Air(Box(self.inside.wall, self.end, top - REACH, top), "inside"))
        highest = max(box.high for _, box in self.pieces) + MARGIN
        wood = {"rim_side": FOAM, "roof_retainer": None}
        return self._pair((top - REACH, highest), airs, wood)

    def strips(self) -> tuple[Section, Section]:
        """The lower part of a wall, half its height at most."""
        foot, top = self.foot("box"), self.middle
        room = Air(Box(self.inside.wall, self.end, foot, top), "inside")
        return self._pair((foot, top), [room], {"edge_strip_side": FOAM})

    def floor(self) -> tuple[Section, Section]:
        """From below the bottom board to some inches above it."""
        foot, top = self.foot("box"), self.foot("box") + REACH
        rail = metres(self.found["stud_thickness"])
        airs = [
            Air(Box(rail, self.end, self.place("panel").low, foot), "inside"),
            Air(Box(self.inside.wall, self.end, foot, top), "inside"),
        ]
        return self._pair((-MARGIN, top), airs, {"side_rail": FOAM})

    def _pair(
        self,
        heights: tuple[float, float],
        airs: Sequence[Patch | Air],
        wood: Mapping[str, Material | None],
    ) -> tuple[Section, Section]:
        """Two sections between these heights: as it is, and with foam or nothing for the wood."""
        low, high = heights
        around = [Air(Box(min(b.left for _, b in self.pieces) - MARGIN, self.end, low, high),
                      "outside"), *airs]  # fmt: skip
        as_it_is, foamed = list[Patch](), list[Patch]()
        for solid, box in self.pieces:
            there = Box(box.left, min(box.right, self.end), max(box.low, low), min(box.high, high))
            if there.left >= there.right or there.low >= there.high:
                continue
            made = MADE_OF.get(material_of(solid))
            # the inner cover's rim has the same name as the roof's, and stays wood
            instead = made if solid.component == "inner_cover" else wood.get(solid.part, made)
            for found, material in ((as_it_is, made), (foamed, instead)):
                if material:
                    found.append(Patch(there, material.conductivity, solid.label))
        return Section((*around, *as_it_is)), Section((*around, *foamed))


def _still(box: Box) -> Patch:
    """Still air as a material that resists as much, from below upwards."""
    thick = max(box.high - box.low, 0.0)
    return Patch(box, thick / air_resistance(thick, "up") if thick else 1.0, "still air")
