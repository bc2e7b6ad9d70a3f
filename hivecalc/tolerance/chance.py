"""Hives made by chance, and how many of them fail."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final, TypeAlias

from hivecalc.hive import Fault, HiveFaults
from hivecalc.length import Length

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats: TypeAlias = NDArray[np.float64]
from hivecalc.tolerance.arithmetic import Arithmetic, true_choices
from hivecalc.tolerance.care import SIGMAS, Contributor, Deviation

SEED: Final = 1
HIVES: Final = 10_000
MOST_HIVES: Final = 1_000_000
HAIR: Final = 1e-9  # inches: what floating numbers may add to a value that lies on its limit
INSIDE: Final = 0.9973  # share of a bell curve within three standard deviations


@dataclass(frozen=True)
class Simulation:
    """What came out of hives made by chance: how many fail, and how far the gap went.

    The same seed makes the same hives. `low` and `high` hold the gap of all hives but 27 in 10,000.
    """

    hives: int
    seed: int
    failing: int
    low: float
    high: float

    @property
    def share(self) -> float:
        """The share of hives that fail, from 0 to 1."""
        return self.failing / self.hives


def simulated(  # noqa: PLR0913 - a gap, its limits, and how it is tried
    contributors: Sequence[Contributor],
    middle: Length,
    low: Length | None,
    high: Length | None,
    *,
    seed: int = SEED,
    hives: int = HIVES,
) -> Simulation:
    """What comes out of hives made by chance, for a gap that is a sum of sizes.

    >>> lid = Contributor(name="lid", tolerance=Fraction(1, 16), sensitivity=Fraction(-1))
    >>> simulated([lid], Fraction(1, 8), Fraction(1, 16), None).failing
    0

    Each error is normal, its tolerance three standard deviations, and cut off there, since a piece
    that is off by more is seen and not used. Lengths are in inches. Raises HiveFaults for a number
    of hives that is not from 1 to 1,000,000.
    """
    errors = errors_drawn(contributors, seed, hives)
    gap = float(middle) + sum(float(c.sensitivity) * errors[c.name] for c in contributors)
    return simulation_of(gap, low, high, seed, hives)


def errors_drawn(errors: Iterable[Deviation], seed: int, hives: int) -> "dict[str, Floats]":
    """By how much each size is off in each hive."""
    import numpy as np  # noqa: PLC0415 - loaded only where hives are simulated

    if not 1 <= hives <= MOST_HIVES:
        raise HiveFaults([Fault("hives to simulate", str(hives), "1 to 1,000,000 is accepted")])
    source = np.random.default_rng(seed)
    bells: dict[tuple[str, str], Floats] = {}
    found: dict[str, Floats] = {}
    for error in errors:
        key = (error.group, "" if error.group else error.name)
        if key not in bells:
            bells[key] = _bell(source, error.pieces, hives)
        found[error.name] = float(error.tolerance) / SIGMAS * bells[key]
    return found


def _bell(source: "np.random.Generator", pieces: int, hives: int) -> "Floats":
    """The mean error of some pieces in each hive, in standard deviations of one."""
    drawn = source.standard_normal((pieces, hives))
    far = abs(drawn) > SIGMAS
    while far.any():
        drawn[far] = source.standard_normal(int(far.sum()))
        far = abs(drawn) > SIGMAS
    mean: Floats = drawn.mean(axis=0)
    return mean


def simulation_of(
    gap: "Floats | float", low: Fraction | None, high: Fraction | None, seed: int, hives: int
) -> Simulation:
    """How many hives with these gaps fail, and the ends that nearly all of them lie between."""
    import numpy as np  # noqa: PLC0415 - loaded only where hives are simulated

    gaps = np.broadcast_to(gap, (hives,))
    ends = np.quantile(gaps, [(1 - INSIDE) / 2, (1 + INSIDE) / 2])
    failing = int(outside_limits(gaps, low, high).sum())
    return Simulation(hives, seed, failing, float(ends[0]), float(ends[1]))


def outside_limits(
    gaps: "Floats", low: Fraction | None, high: Fraction | None
) -> "NDArray[np.bool_]":
    """Which of these gaps lie outside their limits, by more than a hair of floating numbers."""
    least = -math.inf if low is None else float(low) - HAIR
    most = math.inf if high is None else float(high) + HAIR
    return (gaps < least) | (gaps > most)


def gaps_drawn(rule: str, sizes: Mapping[str, Fraction], drawn: "Mapping[str, Floats]") -> "Floats":
    """The rule's value in each hive made by chance, from its own arithmetic."""
    import numpy as np  # noqa: PLC0415 - loaded only where hives are simulated

    found = {n: np.float64(v) + drawn.get(n, np.zeros(1)) for n, v in sizes.items()}
    return Arithmetic(true_choices).value(rule, found)
