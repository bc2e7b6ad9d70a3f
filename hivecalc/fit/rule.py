"""What a rule asks: how much it matters, within which limits, where they come from, what helps."""

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from functools import partial
from typing import Final, Literal, NamedTuple, TypeAlias, TypeVar

from hivecalc.components import TAPE_AGREES
from hivecalc.derivation import DerivationError, Formula
from hivecalc.part import COMMON

Level: TypeAlias = Literal["blocks", "harms", "note"]
"""How much a rule matters.

blocks: it does not go together, or sticks, or shuts the bees in. harms: it goes together, but wood,
warmth or bees suffer. note: worth knowing, stops nothing.
"""
F = TypeVar("F", bound=Formula)
MEMORY: Final = f"{COMMON}; from memory"


class Limit(NamedTuple):
    """One end of what a rule allows: the strict limit, the widest, what helps beyond, the source.

    Where sources differ, a value between the strict limit and that of the widest source is at the
    edge. `sign` is 1 for the lowest value allowed and -1 for the highest.
    """

    sign: Literal[1, -1]
    strict: Fraction
    widest: Fraction
    advice: str
    source: str

    def is_beyond(self, value: Fraction, end: Fraction) -> bool:
        """Whether a value is beyond this end, the strict or the widest one."""
        return self.sign * value < self.sign * end


Size: TypeAlias = str | int | Fraction
"""Inches, as "1/8", 2 or a Fraction."""


def at_least(strict: Size, advice: str, *, widest: Size | None = None, source: str = "") -> Limit:
    """The lowest value allowed, and what a builder can do about a lower one."""
    return _limit(1, strict, advice, widest, source)


def at_most(strict: Size, advice: str, *, widest: Size | None = None, source: str = "") -> Limit:
    """The highest value allowed, and what a builder can do about a higher one."""
    return _limit(-1, strict, advice, widest, source)


def _limit(
    sign: Literal[1, -1], strict: Size, advice: str, widest: Size | None, source: str
) -> Limit:
    if not advice:
        raise DerivationError(f"limit {strict}: say what helps beyond the limit")
    end = strict if widest is None else widest
    return Limit(sign, Fraction(strict), Fraction(end), advice, source)


class Rule(NamedTuple):
    """What a rule asks: how much it matters, its limits, which still hold, and their source.

    `only` and `unless` name values that must not be 0, or must.
    """

    component: str
    level: Level
    limits: tuple[Limit, ...]
    source: str
    only: tuple[str, ...]
    unless: tuple[str, ...]

    @property
    def low(self) -> Fraction | None:
        """The strict limit below, if there is one."""
        return next((limit.strict for limit in self.limits if limit.sign == 1), None)

    @property
    def high(self) -> Fraction | None:
        """The strict limit above, if there is one."""
        return next((limit.strict for limit in self.limits if limit.sign == -1), None)

    @property
    def widest(self) -> tuple[Fraction | None, Fraction | None]:
        """The limits below and above by the widest source."""
        ends = {limit.sign: limit.widest for limit in self.limits}
        return ends.get(1), ends.get(-1)

    def applies(self, components: Iterable[str], values: Mapping[str, Fraction]) -> bool:
        """Whether its component is built, and what it asks for is there."""
        return (
            self.component in {*components, "stack"}
            and all(values[n] for n in self.only)
            and not any(values[n] for n in self.unless)
        )

    def allows(self, value: Fraction) -> bool:
        """Whether a value is not below the widest low limit and not above the widest high one."""
        return not any(limit.is_beyond(value, limit.widest) for limit in self.limits)

    def at_edge(self, value: Fraction) -> bool:
        """Whether a value is allowed by the widest source, but not by the strict one."""
        return self.allows(value) and bool(self.mend(value))

    def mend(self, value: Fraction) -> str:
        """What a builder can do about this value; empty where it is within the strict limits."""
        beyond = (limit for limit in self.limits if limit.is_beyond(value, limit.strict))
        return next((limit.advice for limit in beyond), "")


_RULES: Final[dict[Formula, Rule]] = {}


def rule(
    level: Level, *limits: Limit, source: str = "", only: str = "", unless: str = ""
) -> Callable[[F], F]:
    """A decorator that makes a rule of a function, for the component that its module is named for.

    >>> @harms(at_least("1/2", "A wider skirt.", widest="3/8"))
    ... def lap(cover: Fraction) -> Fraction:
    ...     return cover
    >>> asked = rule_of(lap)
    >>> [(asked.allows(v), asked.at_edge(v)) for v in (Fraction(n, 16) for n in (8, 7, 5))]
    [(True, False), (True, True), (False, False)]

    Each level has its own. Where neither the rule nor a limit has a source, it is common practice.
    """

    def ruled(function: F) -> F:
        component = function.__module__.rpartition(".")[2]
        known = source or next((limit.source for limit in limits if limit.source), COMMON)
        there, missing = tuple(only.split()), tuple(unless.split())
        _RULES[function] = Rule(component, level, limits, known, there, missing)
        return function

    return ruled


blocks, harms, note = partial(rule, "blocks"), partial(rule, "harms"), partial(rule, "note")


def rule_of(function: Formula) -> Rule:
    """The rule made of this function; raises DerivationError for a function without one."""
    if function not in _RULES:
        raise DerivationError(f"{function.__name__}: a function in here must have a rule above it")
    return _RULES[function]


# ── limits that several rules share ───────────────────────────────────────────────────────────

BEE_SPACE: Final = (
    "bee space of 1/4 to 3/8 in (6 to 9.5 mm), a rule of thumb: a British and an Australian "
    "beekeepers' association, the latter 8 to 10 mm; the widest range takes in a sixteenth more "
    "on both sides, since sources differ by 1 to 3 mm"
)
LEAST_WAY: Final = Fraction(3, 16)
"""The lowest way that a bee still takes, by the widest source of the bee space."""
AGREE: Final = Fraction(1, 8)
"""What two sizes may differ that should be flush; common practice, no published source."""
SNUG: Final = Fraction(1, 4)
"""The widest gap beside foam that is pressed in; common practice, no published source."""


def bee_space(if_low: str, if_high: str) -> tuple[Limit, Limit]:
    """The two limits of a way for bees."""
    return bees_need(if_low), at_most("3/8", if_high, widest="7/16", source=BEE_SPACE)


def bees_need(if_low: str) -> Limit:
    """The lowest way for bees."""
    return at_least("1/4", if_low, widest=LEAST_WAY, source=BEE_SPACE)


def flush(if_low: str, if_high: str) -> tuple[Limit, Limit]:
    """The limits of what should be 0: two edges that meet."""
    return at_least(-AGREE, if_low), at_most(AGREE, if_high)


def alike(if_high: str) -> Limit:
    """The most that pieces may differ that should be alike."""
    return at_most("1/16", if_high, widest=AGREE)


def snug(if_low: str) -> tuple[Limit, Limit]:
    """The limits of the gap beside foam, which gives by a sixteenth when it is pressed in."""
    return at_least("-1/16", if_low), at_most(SNUG, "Press a strip of foam into the gap.")


def point_covered(if_low: str) -> Limit:
    """The least wood beyond the point of a brad or screw."""
    return at_least("1/8", if_low, widest="1/16")


_MEASURE: Final = "Measure hive and box again; one of the two readings is wrong."
READINGS_AGREE: Final = (at_least(-TAPE_AGREES, _MEASURE), at_most(TAPE_AGREES, _MEASURE))
"""How far two ways to one size may differ."""
