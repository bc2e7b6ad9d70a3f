"""The best cutting so far, what no cutting costs less than, and the time that is left."""

import time
from collections.abc import Callable
from fractions import Fraction
from typing import TypeAlias

from hivecalc.cutting.sheets.problem import Cutting, Problem, mix_of
from hivecalc.cutting.wanted import Progress

Tell: TypeAlias = Callable[[Progress], None]
"""Something that wants to hear how far a search has come."""


class Record:
    """The best so far of one problem, and the bound; it tells each time one of them changes.

    >>> from hivecalc.cutting.sheets.blocks import Leaf
    >>> from hivecalc.cutting.sheets.problem import Kind, Pattern, Stock
    >>> record = Record(Problem((Kind(5, 5, 2),), (Stock(9, 9, 1, 2),)), 10)
    >>> record.improve({Pattern(0, (1,), Leaf(0, False, 5, 5)): 2})
    >>> record.prove(1)
    >>> record.cost, record.bound, record.proved
    (2, 1, False)

    `aimed` says what of a cost is the aim and not only a second wish.
    """

    def __init__(
        self,
        problem: Problem,
        seconds: float,
        tell: Tell | None = None,
        aimed: Callable[[int], Fraction] = Fraction,
    ) -> None:
        self.problem, self.tell, self.aimed = problem, tell, aimed
        self.start = time.monotonic()
        self.seconds = seconds
        self.doing = "filling sheet by sheet"
        self.best: Cutting = {}
        self.cost = 0
        self.bound = 0

    @property
    def seconds_left(self) -> float:
        """Seconds that are left for the search."""
        return self.start + self.seconds - time.monotonic()

    @property
    def proved(self) -> bool:
        """Whether no cutting can do better for the aim than the best so far."""
        return self.aimed(self.bound) >= self.aimed(self.cost)

    def improve(self, cutting: Cutting) -> None:
        """Keep this cutting if it is the first, or cheaper than the best so far."""
        cost = self.problem.cost(mix_of(self.problem, cutting))
        if not self.best or cost < self.cost:
            self.best, self.cost = cutting, cost
            self._say()

    def settle(self, cutting: Cutting) -> None:
        """Keep this cutting, which was shown to be the best."""
        self.best, self.cost = cutting, self.problem.cost(mix_of(self.problem, cutting))
        self.bound = self.cost
        self._say()

    def prove(self, bound: int) -> None:
        """Keep this bound if it is higher."""
        if bound > self.bound:
            self.bound = min(bound, self.cost)
            self._say()

    def _say(self) -> None:
        if self.tell:
            best, bound = self.aimed(self.cost), self.aimed(self.bound)
            self.tell(Progress(self.doing, best, bound, time.monotonic() - self.start))
