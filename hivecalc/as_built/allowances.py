"""How far a size may be off, which way, and why."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from hivecalc.as_built.faults import faults_of_readings, refuse
from hivecalc.as_built.plan import Plan
from hivecalc.as_built.sizes import MARK, CutSize
from hivecalc.components import COURSE
from hivecalc.fit import FIT
from hivecalc.hive import Hive
from hivecalc.length import Length, Rounding
from hivecalc.tolerance import READING

STEP: Final = Fraction(1, 64)  # tolerances are whole numbers of these
HARMLESS_WAY: Final = Fraction(1, 8)  # what must slide may be short by this, what covers long
NEAREST_WHY: Final = "Saw and tape are each off by 1/32 in, so nobody cuts closer than this."


@dataclass(frozen=True)
class Allowance:
    """By how much a size may fall short of the plan and go beyond it, and why no more."""

    short: Length
    long: Length
    why_short: str
    why_long: str

    def allows(self, off: Length) -> bool:
        """Whether a size that is off by this (below 0: short) is within its tolerance."""
        return -self.short <= off <= self.long


def allowance(hive: Hive, name: str) -> Allowance:
    """The tolerance of a size that is cut, and its reason both ways.

    >>> from hivecalc.hive import demo_hive
    >>> screen = allowance(demo_hive(), "bottom_board.screen_side_strip_length")
    >>> screen.short, screen.long
    (Fraction(1, 32), Fraction(1, 32))
    >>> screen.why_short
    'A bee squeezes through little more than 5/32 in, gets under the screen and cannot find the \
way back.'

    One mark of the tape either way; what must slide may be shorter, what covers longer. Where a
    rule of fit would fail sooner the tolerance ends there. In inches. Raises HiveFaults for a size
    that is not cut for this hive.
    """
    refuse(faults_of_readings(hive, {name: ()}))
    plan = Plan(hive, {})
    return allowance_of(plan, plan.sizes[name])


def allowance_of(plan: Plan, size: CutSize) -> Allowance:
    """How far off this size may be, against this plan."""
    rule = COURSE.dimension(size.name).rule
    usual = {
        Rounding.NEAREST: (MARK, MARK),
        Rounding.DOWN: (HARMLESS_WAY, READING),
        Rounding.UP: (READING, HARMLESS_WAY),
    }
    why = NEAREST_WHY if rule.rounding is Rounding.NEAREST else rule.reason
    short, long = usual[rule.rounding]
    (short, why_short), (long, why_long) = (
        _pulled_in(plan, size, way, end, why) for way, end in ((-1, short), (1, long))
    )
    return Allowance(short, long, why_short, why_long)


def _pulled_in(plan: Plan, size: CutSize, way: int, end: Length, why: str) -> tuple[Length, str]:
    """The end of a tolerance, drawn in until no rule fails, with the reason why it ends there."""
    while end > 0:
        failing = plan.failing({size.name: size.planned + way * end})
        if not failing:
            break
        end, why = end - STEP, FIT.dimension(failing[0]).why
    return end, why
