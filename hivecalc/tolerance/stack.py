"""How far the value of a rule may go, three ways, beside its limits."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, TypeAlias

from hivecalc.derivation import Kind, number
from hivecalc.fit import FIT, RULES, Level
from hivecalc.hive import Hive
from hivecalc.length import Units

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats: TypeAlias = NDArray[np.float64]
from hivecalc.tolerance.arithmetic import rule_value
from hivecalc.tolerance.care import USUAL, Care, Contributor
from hivecalc.tolerance.chance import (
    HAIR,
    HIVES,
    SEED,
    Simulation,
    errors_drawn,
    gaps_drawn,
    simulation_of,
)
from hivecalc.tolerance.corners import branches_of, deciding_branch, worst_ends
from hivecalc.tolerance.sizes import rests_on, sheet_of
from hivecalc.tolerance.summing import ranked, root_sum_square


@dataclass(frozen=True)
class Stack:
    """How far the value of a rule may go, three ways, beside the limits of the rule.

    Worst: everything off the worst way at once. Root-sum-square: by chance, partly cancelling.
    Simulation: hives made by chance, with the share that fails. The contributors stand with the
    largest share first. Lengths are in inches; a ratio is a number.
    """

    rule: str
    level: Level
    kind: Kind
    value: Fraction
    low: Fraction | None
    high: Fraction | None
    contributors: tuple[Contributor, ...]
    worst_low: Fraction
    worst_high: Fraction
    rss_low: float
    rss_high: float
    simulation: Simulation

    @property
    def holds_at_worst(self) -> bool:
        """Whether the rule holds however the errors fall."""
        return self._within(self.worst_low, self.worst_high)

    @property
    def holds_by_chance(self) -> bool:
        """Whether the rule holds within root-sum-square, in all hives but about 27 in 10,000."""
        return self._within(self.rss_low + HAIR, self.rss_high - HAIR)

    def _within(self, least: float | Fraction, most: float | Fraction) -> bool:
        return (self.low is None or least >= self.low) and (self.high is None or most <= self.high)

    def sentences(self, units: Units = "inch") -> tuple[str, str, str]:
        r"""What the three ways find, in a plain sentence each.

        >>> from hivecalc.hive import demo_hive
        >>> print("\n".join(stack(demo_hive(), "bottom_board.panel_play_along").sentences()))
        Everything off the worst way at once: 1/8 in to 3/8 in, and the rule holds.
        Off by chance (root-sum-square): ≈ 11/64 in to ≈ 21/64 in, and the rule holds.
        10,000 hives made by chance (seed 1): 0 fail, 0 in 100.
        """
        worst = self._span(self.worst_low, self.worst_high, units)
        chance = self._span(Fraction(self.rss_low), Fraction(self.rss_high), units)
        tried = self.simulation
        percent = f"{100 * tried.share:.2f}".rstrip("0").rstrip(".")
        made = f"{tried.hives:,} hives made by chance (seed {tried.seed})"
        return (
            f"Everything off the worst way at once: {worst}, {_held(self.holds_at_worst)}.",
            f"Off by chance (root-sum-square): {chance}, {_held(self.holds_by_chance)}.",
            f"{made}: {tried.failing:,} fail, {percent} in 100.",
        )

    def _span(self, least: Fraction, most: Fraction, units: Units) -> str:
        unit = "" if self.kind == "ratio" else " mm" if units == "mm" else " in"
        return " to ".join(f"{number(v, self.kind, units)}{unit}" for v in (least, most))


def _held(holds: bool) -> str:  # noqa: FBT001 - a word for yes or no
    return "and the rule holds" if holds else "and the rule fails"


def stack(  # noqa: PLR0913 - a rule of a hive, how it is made, and how it is tried
    hive: Hive,
    rule: str,
    care: Care = USUAL,
    given: Mapping[str, Fraction] | None = None,
    *,
    seed: int = SEED,
    hives: int = HIVES,
) -> Stack:
    """How far a rule may go on this hive when it is measured and cut with this care.

    >>> from hivecalc.hive import demo_hive
    >>> found = stack(demo_hive(), "bottom_board.room_above_stack")
    >>> found.holds_at_worst, found.holds_by_chance, found.contributors[0].name
    (False, False, 'strip_narrow')

    `given` replaces sizes by values as measured on the pieces. Where the smaller or larger of two
    decides the rule, the contributors and root-sum-square are those of the one that comes nearest
    to failing. Raises UnknownNameError for a rule that there isn't.
    """
    sheet = sheet_of(hive, care, given)
    sizes = {n: sheet.values[n] for n in rests_on(hive, rule, given)}
    asked = RULES[rule]
    deviations = sheet.deviations(sizes)
    branches = branches_of(rule, sizes, deviations)
    least, most = worst_ends(rule, branches, sizes)
    deciding = deciding_branch(branches, asked, least, most)
    chance = root_sum_square(deciding.contributors)
    gaps = gaps_drawn(rule, sizes, errors_drawn(deviations, seed, hives))
    return Stack(
        rule=rule,
        level=asked.level,
        kind=FIT.dimension(rule).kind,
        value=rule_value(rule, sizes),
        low=asked.low,
        high=asked.high,
        contributors=ranked([c for c in deciding.contributors if c.reach]),
        worst_low=least,
        worst_high=most,
        rss_low=max(float(deciding.middle) - chance, float(least)),
        rss_high=min(float(deciding.middle) + chance, float(most)),
        simulation=simulation_of(gaps, asked.low, asked.high, seed, hives),
    )
