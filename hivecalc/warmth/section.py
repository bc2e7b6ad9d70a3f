"""Steady heat through a section: a plane cut of rectangles, solved on a grid that follows them.

Unknown temperatures stand at the corners of the grid's cells, so that faces and joints have one of
their own. The grid is refined until the flow changes by less than 1 %. SI units; flows are for each
metre of depth. Checked against ISO 10211:2017, cases 1 and 2.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING, Final, Literal, NamedTuple, TypeAlias

from hivecalc.warmth.layers import FILM_INSIDE, FILM_OUTSIDE

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
class Field:
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
def solved(section: Section) -> Field:
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


def on_grid(section: Section, fineness: int) -> Field:
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
    return Field(
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
    """Of each cell its conductivity, and the number of the air in it; 0 and −1 where none is."""
    import numpy as np  # noqa: PLC0415 - loads slowly

    middle_x, middle_z = (x[1:] + x[:-1]) / 2, (z[1:] + z[:-1]) / 2
    conductivity = np.zeros((middle_x.size, middle_z.size))
    air = np.full(conductivity.shape, -1.0)
    for i, rectangle in enumerate(section.rectangles):
        box = rectangle.box
        here = np.ix_(
            (middle_x > box.left) & (middle_x < box.right),
            (middle_z > box.low) & (middle_z < box.high),
        )
        is_air = isinstance(rectangle, Air)
        conductivity[here] = 0.0 if is_air else rectangle.conductivity  # type: ignore[union-attr]
        air[here] = i if is_air else -1
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
    wide, high = np.diff(x), np.diff(z)
    # Air beyond a solid cell, and the two corners of the face: (axis, step, direction of the flow).
    for axis, step in ((0, 1), (0, -1), (1, 1), (1, -1)):
        beyond = np.full(air.shape, -1.0)
        ahead, behind = [slice(None)] * 2, [slice(None)] * 2
        ahead[axis] = slice(1, None) if step == 1 else slice(None, -1)
        behind[axis] = slice(None, -1) if step == 1 else slice(1, None)
        beyond[tuple(behind)] = air[tuple(ahead)]
        for i, j in np.argwhere(solid & (beyond >= 0)):
            found = section.rectangles[int(beyond[i, j])]
            if not isinstance(found, Air):  # pragma: no cover - `beyond` counts air only
                continue
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
