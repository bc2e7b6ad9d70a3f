"""A whole hive tried: every rule at once."""

import itertools
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, TypeAlias

from hivecalc.hive import Hive

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats: TypeAlias = NDArray[np.float64]
from hivecalc.tolerance.care import USUAL, Care
from hivecalc.tolerance.chance import (
    HIVES,
    SEED,
    errors_drawn,
    gaps_drawn,
    outside_limits,
)
from hivecalc.tolerance.sizes import rules_of, sheet_of


@dataclass(frozen=True)
class Trial:
    """Whole hives made by chance: how many fail a rule that blocks or harms, and each rule's count.

    The same seed makes the same hives.
    """

    hives: int
    seed: int
    failing: int
    rules: Mapping[str, int]

    @property
    def share(self) -> float:
        """The share of hives in which something fails, from 0 to 1."""
        return self.failing / self.hives


def trial(
    hive: Hive,
    care: Care = USUAL,
    given: Mapping[str, Fraction] | None = None,
    *,
    seed: int = SEED,
    hives: int = HIVES,
) -> Trial:
    """How many of many hives made to the same plan fail some rule that blocks or harms.

    >>> from hivecalc.hive import demo_hive
    >>> perfect = Care(cut=Fraction(0), reading=Fraction(0))
    >>> trial(demo_hive(), perfect, hives=100).failing
    0

    In each hive all rules see the same errors. Rules that never fail are not listed.
    """
    import numpy as np  # noqa: PLC0415 - loaded only where hives are simulated

    sheet = sheet_of(hive, care, given)
    asked = {name: rule for name, rule in rules_of(hive).items() if rule.level != "note"}
    names = dict.fromkeys(itertools.chain(*(sheet.sizes(rule) for rule in asked)))
    drawn = errors_drawn(sheet.deviations(names), seed, hives)
    failed, counts = np.zeros(hives, dtype=bool), dict[str, int]()
    for name, rule in asked.items():
        outside = outside_limits(gaps_drawn(name, sheet.sizes(name), drawn), rule.low, rule.high)
        failed |= outside
        counts[name] = int(np.broadcast_to(outside, (hives,)).sum())
    failing = {n: c for n, c in counts.items() if c}
    return Trial(hives, seed, int(failed.sum()), failing)
