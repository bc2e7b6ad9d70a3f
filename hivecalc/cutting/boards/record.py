"""The best cutting so far, what no cutting costs less than, and the time that is left."""

import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import islice, takewhile
from math import ceil
from typing import TYPE_CHECKING, Final, TypeAlias

from hivecalc.cutting.boards.mixes import Mix, Mixes, least_by_material, mixes
from hivecalc.cutting.boards.problem import (
    LEFT_OUT,
    Cutting,
    Pattern,
    Problem,
    complete,
    without_surplus,
)
from hivecalc.cutting.wanted import Progress

if TYPE_CHECKING:
    from hivecalc.cutting.boards.pricing import Prices

Tell: TypeAlias = Callable[[Progress], None]
MOST_MIXES: Final = 50


class Record:
    """The best so far of one problem, and the bound; it tells each time one of them changes.

    >>> from hivecalc.cutting.boards.problem import Kind, Stock
    >>> record = Record(Problem((Kind(50, 3),), (Stock(96, 1, 3),)), Fraction(1), 10, None)
    >>> record.improve({Pattern(0, ((0, 1),)): 3})
    >>> record.cost, record.bound, record.proved
    (3, 2, False)
    >>> record.prove(Fraction(5, 2))
    >>> record.proved
    True
    """

    def __init__(self, problem: Problem, unit: Fraction, seconds: float, tell: Tell | None) -> None:
        self.problem, self.unit, self.tell = problem, unit, tell
        self.doing = "longest first"
        self.start = time.monotonic()
        self.end = self.start + seconds
        self.best: dict[Pattern, int] = {}
        self.cost = 0
        self.bound = 0
        self.patterns: dict[Pattern, None] = {}
        self.mixes: Mixes | None = None
        self.prices: Prices | None = None

    @property
    def seconds_left(self) -> float:
        """Seconds that are left for the search."""
        return self.end - time.monotonic()

    @property
    def proved(self) -> bool:
        """Whether nothing can be cheaper than the best so far."""
        return self.bound >= self.cost

    @property
    def open(self) -> bool:
        """Whether there is something left to find, and time to find it."""
        return not self.proved and self.seconds_left > 0

    def improve(self, cutting: Cutting) -> None:
        """Keep this cutting if it is the first, or cheaper than the best so far."""
        if not self.problem.penalty and any(p.stock == LEFT_OUT for p in cutting):
            return
        cutting = without_surplus(self.problem, cutting)
        if not complete(self.problem, cutting):
            return
        self.patterns.update(dict.fromkeys(cutting))
        cost = self.problem.cost(cutting)
        if not self.best or cost < self.cost:
            self.best, self.cost = cutting, cost
            self._lift()
            self._say()

    def prove(self, bound: Fraction) -> None:
        """Keep this bound if it is higher, raised to what boards can cost at all."""
        if ceil(bound) > self.bound:
            self.bound = min(ceil(bound), self.cost)
            self._raise_to_a_mix()
            self._say()

    def _raise_to_a_mix(self) -> None:
        if self.mixes is not None:
            self.bound = next((mix.cost for mix in self.dearer_mixes()), self.cost)

    def prove_best(self) -> None:
        """Keep that nothing is cheaper than the best so far."""
        self.prove(Fraction(self.cost))

    def dearer_mixes(self) -> Iterator[Mix]:
        """Mixes of boards that cost as much as the bound or more, but less than the best."""
        if self.mixes is None:
            return iter(())
        return takewhile(lambda mix: mix.cost < self.cost, self.mixes.from_cost(self.bound))

    def cheapest_mixes(self) -> list[Mix]:
        """All mixes that cost as much as the bound; none if they are unknown or too many."""
        alike = takewhile(lambda mix: mix.cost == self.bound, self.dearer_mixes())
        found = [*islice(alike, MOST_MIXES + 1)]
        return found if len(found) <= MOST_MIXES else []

    def _lift(self) -> None:
        """With nothing left out, the material alone proves a bound."""
        whole = all(pattern.stock != LEFT_OUT for pattern in self.best)
        if whole and self.mixes is None:
            self.problem = replace(self.problem, penalty=0)
            self.prove(Fraction(least_by_material(self.problem)))
            self.mixes = None if self.proved else mixes(self.problem, self.cost)
            self._raise_to_a_mix()

    def _say(self) -> None:
        if self.tell:
            best, bound = self.cost * self.unit, self.bound * self.unit
            self.tell(Progress(self.doing, best, bound, time.monotonic() - self.start))
