"""What lies on what in each component: the layers that a hive is taken apart into."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from hivecalc.drawing.exploded.space import RISE
from hivecalc.space import Solid

# From below upwards: what the labels of a layer's pieces begin with.
LAYERS: dict[str, tuple[tuple[str, ...], ...]] = {
    "bottom_board": (
        ("side rail", "front rail", "back rail", "landing board"),
        ("lower side runner", "lower front runner"),
        ("panel",),
        ("upper side runner", "upper front runner"),
        ("screen side strip, lower", "screen end strip, lower"),
        ("mesh",),
        ("screen side strip, upper", "screen end strip, upper", "screen front stop"),
    ),
    "box": (("side", "end"),),
    "sleeve": (
        ("edge strip side, lower", "edge strip end, lower"),
        ("foam",),
        ("edge strip side, upper", "edge strip end, upper"),
        ("skin",),
    ),
    "inner_cover": (("sheet, lower",), ("rim", "channel"), ("sheet, upper",)),
    "roof": (("skirt",), ("rim",), ("roof retainer",), ("roof panel",), ("deck",), ("cover",)),
}

BETWEEN_COMPONENTS = 1.5  # times the gap within a component


@dataclass(frozen=True)
class Layer:
    """Some pieces of one component that are lifted together, and by how many inches."""

    component: str
    solids: tuple[Solid, ...]
    lift: float = 0.0

    def reach(self, slope: float) -> tuple[float, float]:
        """The lowest and highest it reaches, counted from a plane that falls to the back."""
        heights = [
            float(z) + slope * float(y)
            for solid in self.solids
            for block in solid.blocks
            for y, z in block.profile
        ]
        return min(heights) + self.lift, max(heights) + self.lift

    @property
    def lifted(self) -> list[tuple[Solid, float]]:
        """Its pieces, each with how much it is lifted."""
        return [(solid, self.lift) for solid in self.solids]


def layers(component: str, solids: Sequence[Solid]) -> Iterator[Layer]:
    """The layers of a component, from below upwards, none lifted yet.

    >>> from hivecalc.space import solids
    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> found = layers("inner_cover", solids(values(demo_hive()), "inner_cover"))
    >>> [len(layer.solids) for layer in found]
    [1, 8, 1]
    """
    for starts in LAYERS[component]:
        yield Layer(component, tuple(s for s in solids if s.label.startswith(starts)))


def apart(found: Iterable[Layer], gap: float, slope: float) -> list[Layer]:
    """Layers lifted, each until it is so many inches above the one below it.

    Between two components the gap is wider. The roof's layers keep theirs all along its slope.
    """
    lifted: list[Layer] = []
    for layer in found:
        if not lifted:
            lifted.append(layer)
            continue
        below = lifted[-1]
        steep = slope if layer.component == below.component == "roof" else 0.0
        lift = below.reach(steep)[1] + gap * gaps(below, layer) - layer.reach(steep)[0]
        lifted.append(Layer(layer.component, layer.solids, lift))
    return lifted


def gaps(below: Layer, layer: Layer) -> float:
    """How many gaps there are between two layers: more where a component begins."""
    return 1.0 if below.component == layer.component else BETWEEN_COMPONENTS


def across(found: Iterable[Layer]) -> tuple[float, float]:
    """From where to where layers reach to the right on the sheet: inches of x and y together."""
    extents = [solid.extents for layer in found for solid in layer.solids]
    low = min(x[0] + y[0] for x, y, _ in extents)
    return float(low), float(max(x[1] + y[1] for x, y, _ in extents))


def down(found: Iterable[Layer]) -> tuple[float, float]:
    """From where to where layers reach on the sheet, counted downwards, in inches."""
    downs = [
        (float(x) - float(y)) * RISE - float(z) - layer.lift
        for layer in found
        for solid in layer.solids
        for block in solid.blocks
        for x in (block.x0, block.x1)
        for y, z in block.profile
    ]
    return min(downs), max(downs)
