"""How a basket is worked out: how long, told to whom, in which units it speaks."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Final

from hivecalc.cutting import Progress
from hivecalc.cutting.wanted import STOPPED
from hivecalc.length import Units

HURRIED: Final = 0.2
"""Seconds that each further plan takes once the user has stopped a search."""


@dataclass(frozen=True)
class Working:
    """How a basket is worked out.

    `seconds` is what the plan of one kind of lumber or sheet may take; `tell` hears which kind is
    being planned and how far it is.
    """

    units: Units = "inch"
    seconds: float = 10
    tell: Callable[[str, Progress], None] | None = None

    def teller(self, name: str) -> Callable[[Progress], None] | None:
        """What hears of the progress of one kind, None where nobody listens."""
        tell = self.tell
        return None if tell is None else lambda progress: tell(name, progress)

    def after(self, notes: Iterable[str]) -> "Working":
        """How to go on after a plan with such notes: in a hurry once its search was stopped.

        >>> Working(seconds=10).after([STOPPED]).seconds, Working(seconds=10).after([]).seconds
        (0.2, 10)
        """
        return replace(self, seconds=min(self.seconds, HURRIED)) if STOPPED in notes else self
