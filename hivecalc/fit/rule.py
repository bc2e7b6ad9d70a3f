"""What a rule asks: how much it matters, within which limits, where they come from, what helps."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal, TypeAlias, TypeVar

from hivecalc.derivation import DerivationError, Formula
from hivecalc.stock import COMMON

Level: TypeAlias = Literal["blocks", "harms", "note"]
"""How much a rule matters.

blocks: it does not go together, or sticks, or shuts the bees in. harms: it goes together, but wood,
warmth or bees suffer. note: worth knowing, stops nothing.
"""
F = TypeVar("F", bound=Formula)


@dataclass(frozen=True)
class Rule:
    """What a rule asks: how much it matters, the limits, which still hold, and their source.

    Where sources differ, `low` and `high` are the strict limits and `widest_low` and `widest_high`
    those of the widest source: a value between them is at the edge. `if_low` and `if_high` say
    what a builder can do about a value that is too small or too big. `only` and `unless` name
    values that must not be 0, or must.
    """

    component: str
    level: Level
    source: str
    low: Fraction | None
    high: Fraction | None
    widest_low: Fraction | None
    widest_high: Fraction | None
    if_low: str
    if_high: str
    only: tuple[str, ...]
    unless: tuple[str, ...]

    def applies(self, components: Iterable[str], values: Mapping[str, Fraction]) -> bool:
        """Whether its component is built, and what it asks for is there."""
        return (
            self.component in {*components, "stack"}
            and all(values[n] for n in self.only)
            and not any(values[n] for n in self.unless)
        )

    def allows(self, value: Fraction) -> bool:
        """Whether a value is not below the widest low limit and not above the widest high one."""
        return _within(value, self.widest_low, self.widest_high)

    def at_edge(self, value: Fraction) -> bool:
        """Whether a value is allowed by the widest source, but not by the strict one."""
        return self.allows(value) and not _within(value, self.low, self.high)

    def mend(self, value: Fraction) -> str:
        """What a builder can do about this value; empty where it is within the strict limits."""
        if self.low is not None and value < self.low:
            return self.if_low
        return self.if_high if self.high is not None and value > self.high else ""


def _within(value: Fraction, low: Fraction | None, high: Fraction | None) -> bool:
    return (low is None or value >= low) and (high is None or value <= high)


_RULES: Final[dict[Formula, Rule]] = {}


def rule(
    level: Level,
    *,
    low: Fraction | None = None,
    high: Fraction | None = None,
    widest_low: Fraction | None = None,
    widest_high: Fraction | None = None,
    source: str = COMMON,
    if_low: str = "",
    if_high: str = "",
    only: tuple[str, ...] = (),
    unless: tuple[str, ...] = (),
) -> Callable[[F], F]:
    """A decorator that makes a rule of a function, for the component that its module is named for.

    >>> @rule("harms", low=Fraction(1, 2), widest_low=Fraction(3, 8), if_low="A wider skirt.")
    ... def lap(cover: Fraction) -> Fraction:
    ...     return cover
    >>> asked = rule_of(lap)
    >>> [(asked.allows(v), asked.at_edge(v)) for v in (Fraction(n, 16) for n in (8, 7, 5))]
    [(True, False), (True, True), (False, False)]

    All limits are allowed values, in inches; one that is None does not exist. Raises
    DerivationError for a limit without a word on what helps.
    """

    def ruled(function: F) -> F:
        for limit, advice in ((low, if_low), (high, if_high)):
            if limit is not None and not advice:
                raise DerivationError(f"{function.__name__}: say what helps beyond the limit")
        component = function.__module__.rpartition(".")[2]
        _RULES[function] = Rule(
            component=component,
            level=level,
            source=source,
            low=low,
            high=high,
            widest_low=low if widest_low is None else widest_low,
            widest_high=high if widest_high is None else widest_high,
            if_low=if_low,
            if_high=if_high,
            only=only,
            unless=unless,
        )
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
