"""Patterns that come up one after the other, each because it is worth more than its sheet costs.

HiGHS says what each kind of piece is worth when the patterns so far are cut in fractions of sheets.
What a sheet can be worth at most is then found in whole numbers, so that no rounding of HiGHS can
make a certificate false. The pattern that makes it worth so much joins the others.
"""

import time
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Final

from hivecalc.cutting.sheets.master import HAIR, Relaxed, least_cost, least_left
from hivecalc.cutting.sheets.mixes import Certificate
from hivecalc.cutting.sheets.pricing import Priced, Pricing
from hivecalc.cutting.sheets.problem import Mix, Pattern, Problem

SCALE: Final = 1_000_000
"""The highest worth of a piece, in whole numbers."""


class Columns:
    """The columns so far, and one way of pricing.

    >>> from hivecalc.cutting.sheets.pricing import by_table
    >>> from hivecalc.cutting.sheets.problem import Kind, Stock
    >>> four = Problem((Kind(5, 5, 4),), (Stock(9, 9, 1, 9),))
    >>> columns = Columns(four, by_table(four, 1))
    >>> columns.refuting((3,), seconds=1), columns.refuting((4,), seconds=1)
    (Certificate(pieces=4000000, sheets=(1000000,)), None)

    `patterns` are those of the columns that can be cut.
    """

    def __init__(self, problem: Problem, pricing: Pricing, start: Iterable[Pattern] = ()) -> None:
        self.problem, self.pricing = problem, pricing
        self.patterns = dict.fromkeys(start)
        self.columns = dict.fromkeys((p.stock, p.counts) for p in self.patterns)

    def refuting(self, mix: Mix, seconds: float) -> Certificate | None:
        """A certificate that does not allow a mix; None where there is none, or no time for it."""
        rounds = self._rounds(lambda: least_left(self.problem, list(self.columns), mix), seconds)
        return next((found for found in rounds if not found.allows(mix)), None)

    def grown(self, seconds: float) -> list[Certificate]:
        """Certificates, better and better, as patterns come in that make cutting all cheaper."""
        return list(self._rounds(lambda: least_cost(self.problem, list(self.columns)), seconds))

    def _rounds(self, relaxed: Callable[[], Relaxed], seconds: float) -> Iterator[Certificate]:
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            found = relaxed()
            if found.total < HAIR:
                return
            scale = SCALE / found.kinds.max()
            values = [max(0, int(worth * scale)) for worth in found.kinds]
            priced = self.pricing(values, [int(worth * scale) for worth in found.floors])
            if priced.most:
                yield Certificate(self._worth(values), priced.most)
            if not self._joined(priced):
                return

    def _worth(self, values: Sequence[int]) -> int:
        return sum(value * n for value, n in zip(values, self.problem.demands, strict=True))

    def _joined(self, priced: Priced) -> bool:
        """Take in the columns that were priced; whether one of them is new."""
        before = len(self.columns)
        self.columns.update(dict.fromkeys(priced.columns))
        self.patterns.update(dict.fromkeys(priced.patterns))
        return len(self.columns) > before
