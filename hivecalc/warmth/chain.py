"""The chain of layers as a learner adds it up: R in inches, to one place, and known slips."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, TypeAlias

from hivecalc.warmth.layers import FILM_OUTSIDE, Element, parallel
from hivecalc.warmth.units import RESISTANCE, imperial

Links: TypeAlias = tuple[tuple[str, float], ...]
"""Films and layers from inside to outside, each with its R in h·ft²·°F/Btu."""

NEAR: Final = 0.05
"""How far off a sum may be: half of the last place that is shown."""
METRIC: Final = 0.1761
"""m²·K/W in one h·ft²·°F/Btu, to four places."""
IF: Final = "This is what you would get if"


def links(wall: Element) -> Links:
    """Each film and layer of a wall with its R, rounded as it is shown.

    >>> from hivecalc.warmth.layers import FOAM, Path, layer
    >>> links(Element((Path(1, (layer(FOAM, 0.0254),)),), "level"))
    (('inside film', 0.7), ('foam', 5.0), ('outside film', 0.2))
    """
    steps = [("inside film", wall.film), *((one.name, one.resistance) for one in wall.main.layers)]
    both = [*steps, ("outside film", FILM_OUTSIDE)]
    return tuple((name, round(imperial(r, RESISTANCE), 1)) for name, r in both)


def in_a_row(chain: Links) -> float:
    """R of links that heat goes through one after another: their sum."""
    return round(sum(r for _, r in chain), 1)


def side_by_side(parts: Sequence[tuple[float, float]]) -> float:
    """R of parts that heat goes through side by side, from the share and R of each."""
    return round(parallel(parts), 1)


@dataclass(frozen=True)
class HeatSlip:
    """A known slip about heat: its name, the value it gives, and a sentence for the learner."""

    name: str
    value: float
    sentence: str

    def gives(self, answer: float) -> bool:
        """Whether an answer is what it gives, as that may be rounded."""
        return abs(answer - self.value) <= max(NEAR * min(self.value, 1.0), 0.0005)


def chain_slips(chain: Links) -> tuple[HeatSlip, ...]:
    """Wrong sums of a chain, none of them right, each with what gives it.

    >>> found = chain_slips((("inside film", 0.7), ("foam", 5.0), ("outside film", 0.2)))
    >>> [(slip.name, slip.value) for slip in found][:2]
    [('film_forgotten', 5.7), ('films_forgotten', 5.0)]
    """
    whole, r = in_a_row(chain), [r for _, r in chain]
    found = (
        HeatSlip("film_forgotten", whole - r[-1], f"{IF} the outside film were left out."),
        HeatSlip("films_forgotten", whole - r[0] - r[-1], f"{IF} both films were left out."),
        HeatSlip("film_forgotten", whole - r[0], f"{IF} the inside film were left out."),
        HeatSlip("u_for_r", 1 / whole, f"{IF} U were told: one divided by R."),
        HeatSlip(
            "side_by_side",
            side_by_side([(1.0, each) for each in r]),
            f"{IF} the layers lay side by side. Heat goes through all of them.",
        ),
        HeatSlip("metric_r", whole * METRIC, f"{IF} metres were used. Here all is in inches."),
    )
    rounded = (HeatSlip(s.name, round(s.value, 2), s.sentence) for s in found)
    return tuple(s for s in rounded if abs(s.value - whole) > NEAR)


def beside_slips(parts: Sequence[tuple[float, float]]) -> tuple[HeatSlip, ...]:
    """Wrong values for parts side by side: added, or their plain mean taken."""
    added = sum(r for _, r in parts)
    shared = sum(share * r for share, r in parts)
    best = max(r for _, r in parts)
    return (
        HeatSlip("parallel_added", round(added, 1),
                 f"{IF} both were added. Heat takes one way or the other, not both."),
        HeatSlip("mean_of_r", round(shared, 1),
                 f"{IF} R were shared out. It is the flow that is: much goes the easy way."),
        HeatSlip("bridge_forgotten", round(best, 1), f"{IF} the wood were forgotten."),
        HeatSlip("u_for_r", round(1 / side_by_side(parts), 2), f"{IF} U were told for R."),
    )  # fmt: skip
