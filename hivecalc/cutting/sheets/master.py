"""How often to cut each of some patterns: in fractions of sheets, and in whole ones, by HiGHS.

Where the sheets of a mix are given, as little as can be is left out; else all is cut as cheaply as
can be.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final, TypeAlias

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, linprog, milp

from hivecalc.cutting.sheets.problem import Counts, Mix, Problem

Column: TypeAlias = tuple[int, Counts]
"""A stock, and how many pieces of each kind one of its sheets gives."""

Reals: TypeAlias = NDArray[np.float64]

HAIR: Final = 1e-7
"""A share so small that HiGHS may mean nothing."""

MOST_ADDED: Final = 0.9
"""Share of what a mix lacks that its sheets may be worth more, and it still lacks something."""


@dataclass(frozen=True)
class Relaxed:
    """What it comes to if sheets could be cut in fractions, and what a piece of each kind adds.

    `floors` are what a sheet of each stock must be worth more than, to be any help.
    """

    total: float
    kinds: Reals
    floors: Reals


def _rows(problem: Problem, columns: Sequence[Column]) -> Reals:
    """One row a kind: pieces given; one row a stock: sheets taken, negative."""
    given = np.array([counts for _, counts in columns], dtype=float)
    taken = np.zeros((len(columns), len(problem.stocks)))
    taken[range(len(columns)), [stock for stock, _ in columns]] = -1
    return np.hstack([given.reshape(len(columns), len(problem.kinds)), taken]).T


def _solved(costs: Reals, rows: Reals, least: Sequence[float]) -> tuple[float, Reals]:
    """The least cost, and what one more in each row adds to it."""
    found: Any = linprog(costs, -rows, -np.array(least), method="highs-ds")
    return float(found.fun), -np.asarray(found.ineqlin.marginals)


def least_left(problem: Problem, columns: Sequence[Column], mix: Mix) -> Relaxed:
    """The least share of the area that a mix leaves out.

    >>> from hivecalc.cutting.sheets.problem import Kind, Stock
    >>> four = Problem((Kind(5, 5, 4),), (Stock(9, 9, 1, 9),))
    >>> least_left(four, [(0, (1,))], (3,)).total
    0.25
    """
    kinds, stocks = len(problem.kinds), len(problem.stocks)
    shares = np.array([kind.area for kind in problem.kinds]) / problem.area(problem.demands)
    leaving = np.vstack([np.eye(kinds), np.zeros((stocks, kinds))])
    rows = np.hstack([_rows(problem, columns), leaving])
    costs = np.concatenate([np.zeros(len(columns)), shares])
    total, duals = _solved(costs, rows, [*problem.demands, *(-n for n in mix)])
    areas = np.array([stock.area for stock in problem.stocks])
    added = MOST_ADDED * total * areas / np.dot(areas, mix)
    return Relaxed(total, duals[:kinds], duals[kinds:] + added)


def least_cost(problem: Problem, columns: Sequence[Column]) -> Relaxed:
    """The least cost to cut all; the columns must be enough for that.

    >>> from hivecalc.cutting.sheets.problem import Kind, Stock
    >>> four = Problem((Kind(5, 5, 4),), (Stock(9, 9, 1, 9),))
    >>> found = least_cost(four, [(0, (1,))])
    >>> found.total, found.kinds.tolist(), found.floors.tolist()
    (4.0, [1.0], [1.0])
    """
    kinds = len(problem.kinds)
    prices = np.array([stock.cost for stock in problem.stocks], dtype=float)
    total, duals = _solved(
        prices[[stock for stock, _ in columns]],
        _rows(problem, columns),
        [*problem.demands, *(-stock.count for stock in problem.stocks)],
    )
    return Relaxed(total, duals[:kinds], prices + duals[kinds:])


def cheapest(
    problem: Problem, columns: Sequence[Column], seconds: float
) -> dict[Column, int] | None:
    """How often to cut each pattern to have all at the least cost; None if nothing is found.

    >>> from hivecalc.cutting.sheets.problem import Kind, Stock
    >>> four = Problem((Kind(5, 5, 4),), (Stock(9, 9, 1, 9), Stock(9, 19, 4, 9)))
    >>> cheapest(four, [(0, (1,)), (1, (3,))], 1)
    {(0, (1,)): 4}

    Patterns may give more pieces than are wanted. It goes on for so many seconds at most.
    """
    least = [*problem.demands, *(-stock.count for stock in problem.stocks)]
    found: Any = milp(
        np.array([problem.stocks[stock].cost for stock, _ in columns], dtype=float),
        integrality=np.ones(len(columns), dtype=np.int64),
        bounds=Bounds(0, np.inf),
        constraints=LinearConstraint(_rows(problem, columns), np.array(least), np.inf),
        options={"time_limit": seconds, "mip_rel_gap": 0},
    )
    if found.x is None:
        return None
    times = np.rint(found.x).astype(int).tolist()
    return {column: n for column, n in zip(columns, times, strict=True) if n}
