"""What is made nicer once the boards are found: boards at hand used first, shorter boards bought.

Nothing here makes a cutting dearer.
"""

from collections import Counter
from collections.abc import Iterator
from typing import TypeAlias

from hivecalc.cutting.boards.filling import fullest
from hivecalc.cutting.boards.problem import LEFT_OUT, Cutting, Pattern, Problem, taken

Board: TypeAlias = tuple[int, Counter[int]]
"""One single board: of which stock, and what is cut off it."""


def at_hand_first(problem: Problem, at_hand: set[int], cutting: Cutting) -> dict[Pattern, int]:
    """The same cutting with as much as possible out of boards at hand instead of bought ones.

    >>> from hivecalc.cutting.boards.problem import Kind, Stock
    >>> task = Problem((Kind(50, 1), Kind(40, 1)), (Stock(96, 1, 2), Stock(45, 0, 1)))
    >>> at_hand_first(task, {1}, {Pattern(0, ((0, 1), (1, 1))): 1})
    {Pattern(stock=0, pieces=((0, 1),)): 1, Pattern(stock=1, pieces=((1, 1),)): 1}
    """
    if not at_hand:
        return dict(cutting)
    boards = [(p.stock, Counter(dict(p.pieces))) for p, n in cutting.items() for _ in range(n)]
    used = taken(cutting)
    for i in sorted(at_hand):
        boards += [(i, Counter()) for _ in range(problem.stocks[i].supply - used.get(i, 0))]
    _fill_up(
        problem,
        [(i, pieces) for i, pieces in boards if i in at_hand],
        _bought(problem, at_hand, boards),
    )
    patterns = (Pattern(stock, tuple(sorted(pieces.items()))) for stock, pieces in boards)
    return dict(Counter(pattern for pattern in patterns if pattern.pieces))


def _bought(problem: Problem, at_hand: set[int], boards: list[Board]) -> list[Counter[int]]:
    """What is cut off each board that is not at hand, the boards cut least first."""
    bought = [pieces for i, pieces in boards if i != LEFT_OUT and i not in at_hand]
    return sorted(bought, key=lambda pieces: problem.size(pieces.items()))


def _fill_up(problem: Problem, at_hand: list[Board], bought: list[Counter[int]]) -> None:
    """Take pieces off the bought boards, and cut them off those at hand."""
    there: Counter[int] = Counter()
    for pieces in bought:
        there.update(pieces)
    for stock, pieces in at_hand:
        for kind, count in _more(problem, stock, pieces, there).items():
            pieces[kind] += count
            there[kind] -= count
            _take_off(kind, count, bought)


def _more(
    problem: Problem, stock: int, pieces: Counter[int], there: Counter[int]
) -> dict[int, int]:
    """Pieces of those there that leave the least of this board."""
    room = problem.stocks[stock].room - problem.size(pieces.items())
    wanted = [there[kind] for kind in range(len(problem.kinds))]
    fitting = [
        kind
        for kind, n in enumerate(wanted)
        if n and problem.allowed(stock, kind) and problem.kinds[kind].size <= room
    ]
    return fullest(problem, room, wanted, fitting) if fitting else {}


def _take_off(kind: int, count: int, bought: list[Counter[int]]) -> None:
    for pieces in bought:
        off = min(count, pieces[kind])
        count -= off
        pieces[kind] -= off
        if not pieces[kind]:
            del pieces[kind]


def shorter_boards(problem: Problem, at_hand: set[int], cutting: Cutting) -> dict[Pattern, int]:
    """The same cutting out of the cheapest, shortest boards that still hold the pieces.

    >>> from hivecalc.cutting.boards.problem import Kind, Stock
    >>> stocks = (Stock(144, 1, 3, rank=1), Stock(96, 1, 3, rank=0))
    >>> shorter_boards(Problem((Kind(90, 1),), stocks), set(), {Pattern(0, ((0, 1),)): 1})
    {Pattern(stock=1, pieces=((0, 1),)): 1}
    """
    left = [stock.supply for stock in problem.stocks]
    for stock, count in taken(cutting).items():
        if stock != LEFT_OUT:
            left[stock] -= count
    shorter: Counter[Pattern] = Counter()
    for pattern, count in cutting.items():
        for stock, run in _swaps(problem, at_hand, pattern, count, left):
            shorter[Pattern(stock, pattern.pieces)] += run
    return dict(shorter)


def _swaps(
    problem: Problem, at_hand: set[int], pattern: Pattern, count: int, left: list[int]
) -> Iterator[tuple[int, int]]:
    if pattern.stock != LEFT_OUT and pattern.stock not in at_hand:
        for stock in _better(problem, at_hand, pattern):
            run = min(count, left[stock])
            left[stock] -= run
            left[pattern.stock] += run
            count -= run
            if run:
                yield stock, run
    if count:
        yield pattern.stock, count


def _better(problem: Problem, at_hand: set[int], pattern: Pattern) -> list[int]:
    """Bought stocks, cheaper or else of lower rank, that hold the pattern's pieces."""
    stocks, size = problem.stocks, problem.size(pattern.pieces)
    keys = {i: (stock.cost, stock.rank) for i, stock in enumerate(stocks) if i not in at_hand}
    holding = (
        i
        for i in keys
        if stocks[i].room >= size and all(problem.allowed(i, k) for k, _ in pattern.pieces)
    )
    return sorted((i for i in holding if keys[i] < keys[pattern.stock]), key=keys.__getitem__)
