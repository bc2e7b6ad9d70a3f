"""All pieces into a given mix of sheets: again and again, what was left out comes earlier."""

from collections.abc import Iterator, Sequence
from random import Random
from typing import Final

from hivecalc.cutting.sheets.blocks import Block, counts_of
from hivecalc.cutting.sheets.filling import filled
from hivecalc.cutting.sheets.problem import Cutting, Mix, Pattern, Problem, left_out

ANEW: Final = 60
"""Tries after which the order begins anew, by the pieces' areas."""

EARLIER: Final = 1.15
"""What the weight of a piece that was left out grows by, to come earlier in the next try."""

SPREAD: Final = (0.7, 1.4)
"""How far a weight is shaken in one try."""

ODD: Final = (0.0, 0.1, 0.2)
"""Shares of the cuts that leave the smaller rest in one piece."""

PATIENCE: Final = 250
"""Tries that may go by without leaving out less."""

MOST_PATTERNS: Final = 300
"""Patterns that are kept to choose from."""

FILLINGS: Final = 12
"""Ways in which a sheet is filled, of which the best is taken."""


def repeated(stock: int, most: int, left: list[int], block: Block) -> tuple[Pattern, int]:
    """A filled sheet as a pattern, and how often it can be cut with what is left.

    The first time it was taken from `left` already, and now the others are.
    """
    counts = counts_of(block, len(left))
    more = min(n // each for n, each in zip(left, counts, strict=True) if each)
    times = 1 + min(more, most - 1)
    for kind, each in enumerate(counts):
        left[kind] -= each * (times - 1)
    return Pattern(stock, counts, block), times


def greedy(problem: Problem) -> Cutting:
    """The cutting of somebody in a hurry: always the sheet that costs least for what it takes.

    >>> from hivecalc.cutting.sheets.problem import Kind, Stock, mix_of
    >>> halves = Problem((Kind(3, 5, 4),), (Stock(9, 9, 5, 9), Stock(9, 5, 3, 9)))
    >>> mix_of(halves, greedy(halves))
    (0, 2)
    """
    left = list(problem.demands)
    there = [stock.count for stock in problem.stocks]
    cutting: dict[Pattern, int] = {}
    while choices := list(_choices(problem, there, left)):
        _, stock, block, left = min(choices, key=lambda choice: choice[:2])
        pattern, times = repeated(stock, there[stock], left, block)
        there[stock] -= times
        cutting[pattern] = cutting.get(pattern, 0) + times
    return cutting


def _choices(
    problem: Problem, there: Sequence[int], left: Sequence[int]
) -> Iterator[tuple[float, int, Block, list[int]]]:
    """Each stock that is there, filled: its cost by area laid, itself, its block, what is left."""
    order = sorted(range(len(left)), key=lambda kind: -problem.kinds[kind].area)
    for number, stock in enumerate(problem.stocks):
        rest = list(left)
        if there[number] and (block := filled(problem.kinds, stock, rest, order)):
            laid = problem.area(left) - problem.area(rest)
            yield stock.cost / laid, number, block, rest


class Packing:
    """Tries to lay all pieces on the sheets of one mix.

    >>> from hivecalc.cutting.sheets.problem import Kind, Stock
    >>> packing = Packing(Problem((Kind(3, 5, 3), Kind(4, 4, 2)), (Stock(9, 9, 1, 9),)), (1,))
    >>> packing.try_again()
    >>> sum(packing.cutting.values()), packing.left
    (1, 0)

    `cutting` leaves out the least area of all that were tried: `left`. Since then `stale` tries
    were no better. Dice are thrown the same way each time.
    """

    def __init__(self, problem: Problem, mix: Mix) -> None:
        self.problem, self.mix = problem, mix
        self.dice = Random(1)  # noqa: S311 - layouts are no secret
        self.tries = 0
        self.weights = self._areas()
        self.cutting: Cutting = {}
        self.left = problem.area(problem.demands)
        self.stale = 0
        self.patterns: dict[Pattern, None] = {}

    def _areas(self) -> list[float]:
        return [float(kind.area) for kind in self.problem.kinds]

    def try_again(self) -> None:
        """One more cutting; what it leaves out comes earlier in the next one."""
        cutting = self._laid()
        rest = left_out(self.problem.demands, cutting)
        self._keep(cutting, self.problem.area(rest))
        self.tries += 1
        if self.tries % ANEW == 0:
            self.weights = self._areas()
        for kind, n in enumerate(rest):
            self.weights[kind] *= EARLIER if n else 1

    def _keep(self, cutting: Cutting, left: int) -> None:
        self.patterns.update(dict.fromkeys(cutting))
        if len(self.patterns) > 2 * MOST_PATTERNS:
            self.patterns = dict.fromkeys(self.full_patterns())
        self.stale += 1
        if left < self.left:
            self.cutting, self.left, self.stale = cutting, left, 0

    def full_patterns(self) -> list[Pattern]:
        """Patterns that came up, those that fill their sheet best."""
        return sorted(self.patterns, key=self._waste)[:MOST_PATTERNS]

    def _waste(self, pattern: Pattern) -> float:
        return -self.problem.area(pattern.counts) / self.problem.stocks[pattern.stock].area

    def _laid(self) -> Cutting:
        cutting: dict[Pattern, int] = {}
        left = list(self.problem.demands)
        for number in sheet_order(self.problem):
            there = self.mix[number]
            while there and (best := self._best_filling(number, left)):
                left, block = best
                pattern, times = repeated(number, there, left, block)
                cutting[pattern] = cutting.get(pattern, 0) + times
                there -= times
        return cutting

    def _best_filling(self, number: int, left: Sequence[int]) -> tuple[list[int], Block] | None:
        """Of several ways to fill a sheet the one whose pieces weigh most."""
        fillings = (self._filling(number, list(left)) for _ in range(FILLINGS if any(left) else 0))
        laid = [(rest, block) for rest, block in fillings if block]
        return min(laid, key=lambda each: self._weight(each[0]), default=None)

    def _filling(self, number: int, rest: list[int]) -> tuple[list[int], Block | None]:
        stock, share = self.problem.stocks[number], self.dice.choice(ODD)
        odd = lambda: self.dice.random() < share  # noqa: E731 - the dice as a question
        return rest, filled(self.problem.kinds, stock, rest, self._order(), odd)

    def _order(self) -> list[int]:
        shaken = [weight * self.dice.uniform(*SPREAD) for weight in self.weights]
        return sorted(range(len(shaken)), key=lambda kind: -shaken[kind])

    def _weight(self, counts: Sequence[int]) -> float:
        return sum(n * weight for n, weight in zip(counts, self.weights, strict=True))


def sheet_order(problem: Problem) -> list[int]:
    """The stocks in the order to fill them: those at hand, small ones first; then big ones first.

    >>> from hivecalc.cutting.sheets.problem import Stock
    >>> sheet_order(Problem((), (Stock(4, 4, 1, 9), Stock(4, 8, 2, 9), Stock(2, 3, 0, 1))))
    [2, 1, 0]
    """

    def place(number: int) -> tuple[bool, int]:
        stock = problem.stocks[number]
        return stock.cost > 0, -stock.area if stock.cost else stock.area

    return sorted(range(len(problem.stocks)), key=place)
