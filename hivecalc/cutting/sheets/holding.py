"""Whether a mix of sheets holds pieces, exactly, from the fronts of every set of them."""

from collections import Counter
from collections.abc import Iterator
from operator import le, sub
from typing import Final, NamedTuple, TypeAlias

from hivecalc.cutting.sheets.edges import on_edge
from hivecalc.cutting.sheets.fronts import fronts, partings
from hivecalc.cutting.sheets.packing import sheet_order
from hivecalc.cutting.sheets.problem import (
    Counts,
    Cutting,
    Mix,
    Pattern,
    Problem,
    best_block_in,
    offcut,
)

MOST_PARTINGS: Final = 20_000
"""Partings of sets that take about a second."""

MOST_AT_HAND: Final = 30
"""Sheets at hand that are shared out exactly; each one multiplies the work."""

_Sheets: TypeAlias = tuple[int, ...]


class _Held(NamedTuple):
    """What some sheets hold at best: the better of two is the greater."""

    pieces: int
    area: int
    offcut: int
    spared: int
    patterns: tuple[Pattern, ...]


class Holding:
    """The sets of pieces that each stock can give, and the best way to share them out to a mix.

    >>> from hivecalc.cutting.sheets.problem import Kind, Stock
    >>> holding = Holding(Problem((Kind(5, 5, 4),), (Stock(10, 9, 1, 9),)))
    >>> sum(holding.most((1,)).values()), holding.all_in((1,)), len(holding.all_in((2,)))
    (1, None, 1)
    """

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.fronts = fronts(problem)
        self.patterns = [list(self._patterns(n)) for n in range(len(problem.stocks))]
        self.known: dict[tuple[Counts, _Sheets], _Held] = {}

    @staticmethod
    def can(problem: Problem) -> bool:
        """Whether the pieces are few enough for every set of them to be looked at."""
        at_hand = sum(stock.count for stock in problem.stocks if not stock.cost)
        return at_hand <= MOST_AT_HAND and partings(problem.demands) <= MOST_PARTINGS

    def _patterns(self, number: int) -> Iterator[Pattern]:
        stock = self.problem.stocks[number]
        for counts, front in self.fronts.items():
            block = best_block_in(stock, front)
            if block and (stock.edge or not on_edge(counts, self.problem.kinds)):
                yield Pattern(number, counts, block)

    def most(self, mix: Mix) -> Cutting:
        """The cutting of a mix that leaves out least, then has the biggest offcut on a new one."""
        return Counter(self._best(self.problem.demands, self._sheets(mix)).patterns)

    def all_in(self, mix: Mix) -> Cutting | None:
        """The cutting of a mix with nothing left out; None where there is none."""
        held = self._best(self.problem.demands, self._sheets(mix))
        return Counter(held.patterns) if held.pieces == sum(self.problem.demands) else None

    def _sheets(self, mix: Mix) -> _Sheets:
        order = sheet_order(self.problem)
        return tuple(
            number for number in order if self.patterns[number] for _ in range(mix[number])
        )

    def _best(self, left: Counts, sheets: _Sheets) -> _Held:
        """The best that these sheets hold of what is left; the first one is decided here."""
        if not sheets or not any(left):
            return _Held(0, 0, 0, len(sheets), ())
        key = left, sheets
        if key not in self.known:
            self.known[key] = max(self._choices(left, sheets), key=lambda held: held[:4])
        return self.known[key]

    def _choices(self, left: Counts, sheets: _Sheets) -> Iterator[_Held]:
        number, *others = sheets
        unused = self._best(left, tuple(others))
        yield unused._replace(spared=unused.spared + 1)
        for pattern in self.patterns[number]:
            if all(map(le, pattern.counts, left)):
                rest = self._best(tuple(map(sub, left, pattern.counts)), tuple(others))
                yield self._with(pattern, rest)

    def _with(self, pattern: Pattern, rest: _Held) -> _Held:
        """What some sheets hold and one more that is cut to a pattern."""
        stock = self.problem.stocks[pattern.stock]
        over = offcut(stock, pattern.block) if stock.cost else 0
        return _Held(
            rest.pieces + sum(pattern.counts),
            rest.area + self.problem.area(pattern.counts),
            max(rest.offcut, over),
            rest.spared,
            (pattern, *rest.patterns),
        )
