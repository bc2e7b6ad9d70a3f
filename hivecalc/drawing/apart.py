"""A hive taken apart: what lies on what, and which way each piece comes away."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from math import hypot, sqrt

from hivecalc.drawing.canvas import HIDDEN, Canvas
from hivecalc.drawing.prisms import Eye, Place
from hivecalc.space import BOXES, Solid, is_kind, solids, stacked
from hivecalc.space import layers as layers_of

LAYER_GAP, SIDE_STEP = 0.08, 0.09  # between layers, and of a piece to the side: shares of the hive's diagonal
ACROSS = sqrt(3) / 2  # how far an inch of length or of width goes across an isometric drawing
BETWEEN_COMPONENTS = 1.5  # times the gap within a component

WAYS = {"left": (-1, 0), "right": (1, 0), "front": (0, -1), "back": (0, 1)}


@dataclass(frozen=True)
class Layer:
    """Some pieces of one component that are lifted together, and by how many inches."""

    component: str
    solids: tuple[Solid, ...]
    lift: float = 0.0

    def reach(self, slope: float = 0.0) -> tuple[float, float]:
        """The lowest and highest it reaches, counted from a plane that falls to the back."""
        heights = [
            float(z) + slope * float(y)
            for solid in self.solids
            for block in solid.blocks
            for y, z in block.profile
        ]
        return min(heights) + self.lift, max(heights) + self.lift

    @property
    def lifted(self) -> list[tuple[Solid, Place]]:
        """Its pieces, each with where it is moved to."""
        return [(solid, (0.0, 0.0, self.lift)) for solid in self.solids]


def layers(component: str, solids: Sequence[Solid]) -> Iterator[Layer]:
    """The layers of a component, from below upwards, none lifted yet; none without a piece."""
    left = list(solids)
    for kinds in layers_of(component):
        own = tuple(s for s in left if any(is_kind(s.label, one.kind) for one in kinds))
        left = [s for s in left if s not in own]
        if own:
            yield Layer(component, own)
    if left:
        raise ValueError(f"APART of space/{component}.py does not name the {left[0].label}")


def apart(found: Iterable[Layer], gap: float, slope: float = 0.0) -> list[Layer]:
    """Layers lifted, each until it is so many inches above the one below it.

    Between two components the gap is wider. The roof's layers keep theirs all along its slope.
    """
    lifted: list[Layer] = []
    for layer in found:
        lift = 0.0
        if lifted:
            below = lifted[-1]
            steep = slope if layer.component == below.component == "roof" else 0.0
            above = below.reach(steep)[1] + gap * gaps(below, layer)
            lift = max(above - layer.reach(steep)[0], below.lift)
        lifted.append(replace(layer, lift=lift))
    return lifted


def beside_labels(  # noqa: PLR0913, PLR0917 - the room there is, and its limits
    found: Sequence[Layer],
    labels: float,
    wide: float,
    largest: float,
    least: float,
    slope: float = 0,
) -> tuple[list[Layer], float]:
    """Layers lifted so far that labels of this height fit beside them, and their scale.

    The scale is in units of the sheet for an inch, the least gap and the width in those units.
    """
    low, high = across(found)
    scale = min(largest, wide / (high - low) / ACROSS)
    low, high = down(apart(found, 0.0, slope))
    free = (labels - (high - low) * scale) / sum(gaps(*pair) for pair in pairwise(found))
    return apart(found, max(least, free) / scale, slope), scale


def moves(values: Mapping[str, Fraction], components: Sequence[str]) -> list[tuple[Solid, Place]]:
    """Every piece of some components, and how far it moves where all is taken apart.

    On the way there no two pieces meet: each is lifted at least as far as what lies below it.
    """
    size = hypot(float(values["hive_length"]), float(values["hive_width"]))
    found = []
    for layer in apart(_flat(values, components), LAYER_GAP * size):
        for solid in layer.solids:
            x, y = aside(solid)
            found.append((solid, (x * SIDE_STEP * size, y * SIDE_STEP * size, layer.lift)))
    return found


def standing(values: Mapping[str, Fraction], components: Sequence[str]) -> list[Solid]:
    """The pieces of one component, or of several where they stand on one another."""
    if len(components) == 1:
        return list(solids(values, components[0]))
    return [s for s in stacked(values, components) if s.component in components or s.part == "wall"]


def _flat(values: Mapping[str, Fraction], components: Sequence[str]) -> Iterator[Layer]:
    """The layers of some components from below upwards, box by box, none lifted yet."""
    found = standing(values, components)
    tiers = range(1, max(s.tier for s in found) + 1)
    boxes = [(component, tier) for tier in tiers for component in BOXES]
    for component, tier in (("bottom_board", 1), *boxes, ("inner_cover", 1), ("roof", 1)):
        own = [s for s in found if (s.component, s.tier) == (component, tier)]
        yield from layers(component, own)


def gaps(below: Layer, layer: Layer) -> float:
    """How many gaps there are between two layers: more where a component begins."""
    return 1.0 if below.component == layer.component else BETWEEN_COMPONENTS


def aside(solid: Solid) -> tuple[float, float]:
    """Which way a piece comes away, in steps across and along the hive."""
    kinds = (one for layer in layers_of(solid.component) for one in layer)
    away = next(one for one in kinds if is_kind(solid.label, one.kind))
    x, y = WAYS.get(away.way or solid.place.rpartition(" ")[2], (0, 0))
    return x * away.steps, y * away.steps


def eye_on(found: Sequence[Layer], left: float, right: float, top: float, scale: float) -> Eye:
    """An eye that sees layers between two places across a sheet, from `top` downwards."""
    low, high = (limit * ACROSS * scale for limit in across(found))
    return Eye((left + right - high - low) / 2, top - down(found)[0] * scale, scale)


def draw_guides(canvas: Canvas, eye: Eye, values: Mapping[str, Fraction], top: float) -> None:
    """Draw upright lines up to a height, at the three corners of the hive that are seen."""
    wide, long = float(values["hive_width"]), float(values["hive_length"])
    for x, y in ((0.0, 0.0), (wide, 0.0), (wide, long)):
        canvas.line(eye.at((x, y, 0.0)), eye.at((x, y, top)), HIDDEN)


def across(found: Iterable[Layer]) -> tuple[float, float]:
    """From where to where layers reach to the right on a sheet: inches of x and y together."""
    extents = [solid.extents for layer in found for solid in layer.solids]
    low = min(x[0] + y[0] for x, y, _ in extents)
    return float(low), float(max(x[1] + y[1] for x, y, _ in extents))


def down(found: Iterable[Layer]) -> tuple[float, float]:
    """From where to where layers reach on a sheet, counted downwards, in inches."""
    downs = [
        (float(x) - float(y)) / 2 - float(z) - layer.lift
        for layer in found
        for solid in layer.solids
        for block in solid.blocks
        for x in (block.x0, block.x1)
        for y, z in block.profile
    ]
    return min(downs), max(downs)
