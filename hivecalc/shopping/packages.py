"""Small goods by the package: which packages to buy so that they hold enough and cost least."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

from hivecalc.stock import Package


@dataclass(frozen=True, slots=True)
class Bought:
    """Packages that are alike, and how many of them."""

    package: Package
    count: int


def with_spare(count: int, share: Fraction) -> int:
    """How many to have, with a share more for those that bend or roll away, rounded up.

    >>> with_spare(48, Fraction(1, 10))
    53
    """
    return -(-(count * (1 + share)) // 1)


def packed(count: int, packages: Sequence[Package]) -> list[Bought]:
    """The packages that together hold at least so many and cost least; of these the fewest.

    >>> box = Package("box", "long_brad", 100, Fraction(9))
    >>> bag = Package("bag", "long_brad", 25, Fraction(3))
    >>> [(b.package.name, b.count) for b in packed(110, [box, bag])]
    [('box', 1), ('bag', 1)]

    Packages without a price are taken only where none has one, and then as little as can be is left
    over. Empty where there are no packages, or nothing to pack.
    """
    kinds = [p for p in packages if p.price is not None] or list(packages)
    if not kinds or count <= 0:
        return []
    step = gcd(*(p.holds for p in kinds))
    chosen = _cheapest(-(-count // step), [p.holds // step for p in kinds], _costs(kinds))
    return [Bought(kinds[i], n) for i, n in sorted(Counter(chosen).items())]


def _costs(kinds: Sequence[Package]) -> list[int]:
    """What each package costs, in whole numbers; what it holds where no price is known."""
    costs = [Fraction(p.holds) if p.price is None else p.price for p in kinds]
    parts = lcm(*(cost.denominator for cost in costs))
    return [int(cost * parts) for cost in costs]


def _cheapest(count: int, holds: Sequence[int], costs: Sequence[int]) -> list[int]:
    """Numbers of the packages that hold so many at least cost, worked up from none."""
    best, last = [(0, 0)], [0]
    for n in range(1, count + 1):
        ways = ((*best[max(0, n - h)], i) for i, h in enumerate(holds))
        cost, packages, i = min((c + costs[i], p + 1, i) for c, p, i in ways)
        best.append((cost, packages))
        last.append(i)
    chosen = []
    while count > 0:
        chosen.append(last[count])
        count -= holds[last[count]]
    return chosen
