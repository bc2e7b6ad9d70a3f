"""What a rule asks: how much it matters, within which limits, and where they come from."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal, TypeAlias, TypeVar

from hivecalc.derivation import DerivationError, Formula
from hivecalc.stock import COMMON

Level: TypeAlias = Literal["blocks", "harms", "note"]
"""How much a rule matters.

blocks: it does not go together, or sticks when the wood has swollen, or shuts the bees in.
harms: it goes together, but wood, warmth or bees suffer. note: worth knowing, stops nothing.
"""
F = TypeVar("F", bound=Formula)


@dataclass(frozen=True)
class Rule:
    """What a rule asks: how much it matters, the limits, which still hold, and their source."""

    component: str
    level: Level
    source: str
    low: Fraction | None
    high: Fraction | None
    unless: str | None

    def applies(self, components: Iterable[str]) -> bool:
        """Whether its component is built, and the one that would make it pointless is not."""
        names = set(components)
        return self.component in names and self.unless not in names

    def allows(self, value: Fraction) -> bool:
        """Whether a value is not below the low limit and not above the high one."""
        above = self.low is None or value >= self.low
        return above and (self.high is None or value <= self.high)


_RULES: Final[dict[Formula, Rule]] = {}


def rule(
    level: Level,
    *,
    low: Fraction | None = None,
    high: Fraction | None = None,
    source: str = COMMON,
    unless: str | None = None,
) -> Callable[[F], F]:
    """A decorator that makes a rule of a function, for the component that its module is named for.

    >>> @rule("harms", low=Fraction(1, 2))
    ... def lap(cover: Fraction) -> Fraction:
    ...     return cover
    >>> rule_of(lap).allows(Fraction(1, 2)), rule_of(lap).allows(Fraction(1, 4))
    (True, False)

    Both limits are allowed values, in inches; one that is None does not exist. The rule is left out
    where the component called `unless` is built.
    """

    def ruled(function: F) -> F:
        component = function.__module__.rpartition(".")[2]
        _RULES[function] = Rule(component, level, source, low, high, unless)
        return function

    return ruled


def rule_of(function: Formula) -> Rule:
    """What the rule asks that was made of this function.

    >>> from hivecalc.fit.roof import fall
    >>> rule_of(fall).low
    Fraction(1, 48)

    Raises DerivationError for a function without a rule.
    """
    if function not in _RULES:
        raise DerivationError(f"{function.__name__}: a function in here must have a rule above it")
    return _RULES[function]
