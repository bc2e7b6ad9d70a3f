"""Mixes of sheets by cost, without those that are known not to hold all pieces.

A certificate gives each kind of piece a worth, and says what one sheet of each stock is worth at
most. Where all pieces together are worth more than all sheets of a mix, the mix can't hold them.
By area is one such; others are found by `refuting`.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from heapq import heappop, heappush

from hivecalc.cutting.sheets.problem import Mix, Problem


@dataclass(frozen=True, slots=True)
class Certificate:
    """What all pieces are worth together, and what one sheet of each stock is worth at most.

    >>> Certificate(50, (40, 20)).allows((1, 0)), Certificate(50, (40, 20)).allows((1, 1))
    (False, True)
    """

    pieces: int
    sheets: tuple[int, ...]

    def short(self, mix: Sequence[int]) -> int:
        """By how much the sheets of a mix are worth less than the pieces."""
        return self.pieces - sum(n * worth for n, worth in zip(mix, self.sheets, strict=True))

    def allows(self, mix: Sequence[int]) -> bool:
        """Whether a mix may hold all pieces, as far as this tells."""
        return self.short(mix) <= 0

    def with_room(self, share: Fraction) -> "Certificate":
        """One for pieces that are worth more by this share: what it allows has that much room.

        >>> Certificate(50, (40, 20)).with_room(Fraction(1, 5))
        Certificate(pieces=60, sheets=(40, 20))
        """
        return replace(self, pieces=int(self.pieces * (1 + share)))


def by_area(problem: Problem) -> Certificate:
    """The certificate in which each piece is worth its area.

    >>> from hivecalc.cutting.sheets.problem import Kind, Stock
    >>> by_area(Problem((Kind(3, 5, 2),), (Stock(9, 9, 1, 1),)))
    Certificate(pieces=30, sheets=(81,))
    """
    return Certificate(problem.area(problem.demands), tuple(s.area for s in problem.stocks))


def mixes(problem: Problem, certificates: Sequence[Certificate]) -> Iterator[Mix]:
    """Mixes that all certificates allow, the cheapest first.

    >>> from hivecalc.cutting.sheets.problem import Kind, Stock
    >>> halves = Problem((Kind(3, 5, 2),), (Stock(9, 9, 5, 9), Stock(9, 4, 3, 9)))
    >>> found = mixes(halves, [by_area(halves)])
    >>> next(found), next(found), next(found)
    ((0, 1), (1, 0), (0, 2))

    What costs nothing is always there in full. `certificates` may grow while mixes are taken: those
    that come later keep to all of them. A mix with more sheets than it takes comes as well.
    """
    start = tuple(0 if stock.cost else stock.count for stock in problem.stocks)
    paid = [i for i, stock in enumerate(problem.stocks) if stock.cost]
    open_mixes = [(0, 0, start)]
    while open_mixes:
        least, place, mix = heappop(open_mixes)
        if (known := _least(problem, certificates, mix, paid[place:])) is None:
            continue
        if known > least:
            heappush(open_mixes, (known, place, mix))
        elif place == len(paid):
            yield mix
        else:
            for next_place, next_mix in _further(problem, mix, place, paid):
                heappush(open_mixes, (least, next_place, next_mix))


def _further(
    problem: Problem, mix: Mix, place: int, paid: Sequence[int]
) -> Iterator[tuple[int, Mix]]:
    """The mix with its stocks up to this one settled; and with one more sheet of this one."""
    yield place + 1, mix
    stock = paid[place]
    if mix[stock] < problem.stocks[stock].count:
        yield place, (*mix[:stock], mix[stock] + 1, *mix[stock + 1 :])


def _least(
    problem: Problem, certificates: Sequence[Certificate], mix: Mix, free: Sequence[int]
) -> int | None:
    """What a mix costs at least when sheets of free stocks are added; None where it can't do."""
    least = cost = problem.cost(mix)
    for certificate in certificates:
        if (short := certificate.short(mix)) > 0:
            more = [
                -(-short * problem.stocks[i].cost // certificate.sheets[i])
                for i in free
                if certificate.sheets[i]
            ]
            if not more:
                return None
            least = max(least, cost + min(more))
    return least
