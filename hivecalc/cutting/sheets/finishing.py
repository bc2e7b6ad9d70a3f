"""Each sheet laid out anew, so that one big offcut is left and the cuts are few."""

from dataclasses import replace
from typing import Final

from hivecalc.cutting.sheets.fronts import fronts, partings
from hivecalc.cutting.sheets.problem import Cutting, Pattern, Problem, best_block_in

MOST_PARTINGS: Final = 2_000
"""Partings of sets that take about a twentieth of a second."""

MOST_PATTERNS: Final = 20


def tidied(problem: Problem, cutting: Cutting) -> Cutting:
    """The same pieces on the same sheets, in layouts that leave a bigger offcut if there are any.

    >>> from hivecalc.cutting.sheets.blocks import Leaf, side_by_side
    >>> from hivecalc.cutting.sheets.problem import Kind, Stock
    >>> two = Problem((Kind(4, 2, 2),), (Stock(12, 4, 1, 1),))
    >>> row = Pattern(0, (2,), side_by_side(*[Leaf(0, False, 4, 2)] * 2))
    >>> [(p.block.width, p.block.length) for p in tidied(two, {row: 1})]
    [(4, 4)]

    Sheets with many different pieces stay as they are.
    """
    if len(cutting) > MOST_PATTERNS:
        return cutting
    return {_tidy(problem, pattern): times for pattern, times in cutting.items()}


def _tidy(problem: Problem, pattern: Pattern) -> Pattern:
    if partings(pattern.counts) > MOST_PARTINGS:
        return pattern
    kinds = zip(problem.kinds, pattern.counts, strict=True)
    stock = problem.stocks[pattern.stock]
    alone = Problem(tuple(replace(kind, demand=n) for kind, n in kinds), (stock,))
    block = best_block_in(stock, (*fronts(alone)[pattern.counts], pattern.block))
    return replace(pattern, block=block or pattern.block)
