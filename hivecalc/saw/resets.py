"""The shortest list of settings in which several orders of work can all be followed."""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from typing import Final, TypeAlias

from hivecalc.length import Length

Order: TypeAlias = tuple[Length, ...]
"""Settings that one piece needs, one after the other."""

Numbers: TypeAlias = tuple[int, ...]
"""The same as whole numbers, which are quicker: the wider the setting, the greater."""

MOST_LOOKED_AT: Final = 8_000  # states of the search: about a second


@dataclass(frozen=True)
class Settings:
    """A list of settings in which every order can be followed, and the fewest it could have."""

    order: Order
    fewest: int

    @property
    def proved(self) -> bool:
        """Whether no shorter list does."""
        return len(self.order) == self.fewest


def settings(orders: Iterable[Order]) -> Settings:
    """The fewest settings in which each order can be followed from its first to its last.

    >>> found = settings([(3, 2, 1), (2, 1), (1, 2)])
    >>> found.order, found.proved
    ((3, 2, 1, 2), True)

    A setting stays until the next; whatever needs it is done as soon as its turn has come. The
    shortest common list is sought with a bound on what is still to come, so it is proved to be the
    shortest. Where that would take too long, a good list is given with the bound.
    """
    kept = _needed(sorted(set(orders), key=len, reverse=True))
    distances = sorted({distance for order in kept for distance in order})
    number = {distance: n for n, distance in enumerate(distances)}
    numbered = tuple(tuple(number[distance] for distance in order) for order in kept)
    order, fewest = _searched(numbered) or (_greedy(numbered), _at_least(numbered))
    return Settings(tuple(distances[n] for n in order), fewest)


def followed(order: Order, settings: Sequence[Length]) -> bool:
    """Whether an order can be followed through these settings.

    >>> followed((3, 1), (3, 2, 1)), followed((1, 3), (3, 2, 1))
    (True, False)
    """
    left = iter(settings)
    return all(any(there == setting for there in left) for setting in order)


def _needed(orders: Sequence[Order]) -> list[Order]:
    """The orders that are no part of a longer one."""
    kept: list[Order] = []
    for order in orders:
        if not any(followed(order, longer) for longer in kept):
            kept.append(order)
    return kept


def _at_least(rests: Collection[Numbers]) -> int:
    """Fewer settings than this can't do: one for each distance, and the longest order's length."""
    distances = {setting for rest in rests for setting in rest}
    return max(len(distances), max((len(rest) for rest in rests), default=0))


def _after(rests: Sequence[Numbers], setting: int) -> tuple[Numbers, ...]:
    return tuple(rest[1:] if rest[:1] == (setting,) else rest for rest in rests)


def _next(rests: Sequence[Numbers]) -> list[int]:
    """The settings that some order needs next, the widest first."""
    return sorted({rest[0] for rest in rests if rest}, reverse=True)


def _searched(start: tuple[Numbers, ...]) -> tuple[Numbers, int] | None:
    """The shortest list, wide settings before narrow ones; None where it takes long to find.

    What is looked at next is what may come out shortest, then what has come furthest, then what
    began with the widest settings, which is why they are kept negated.
    """
    waiting: list[tuple[int, int, Numbers, tuple[Numbers, ...]]] = []
    heappush(waiting, (_at_least(start), 0, (), start))
    best = {start: 0}
    for _ in range(MOST_LOOKED_AT):
        total, _, narrower, rests = heappop(waiting)
        if not any(rests):
            return tuple(-setting for setting in narrower), total
        for setting in _next(rests):
            then = _after(rests, setting)
            length = len(narrower) + 1
            if length < best.get(then, length + 1):
                best[then] = length
                entry = (length + _at_least(then), -length, (*narrower, -setting), then)
                heappush(waiting, entry)
    return None


def _greedy(orders: Sequence[Numbers]) -> Numbers:
    """A good list: at each step the widest setting that is needed next."""
    rests: tuple[Numbers, ...] = tuple(orders)
    done: list[int] = []
    while any(rests):
        done.append(_next(rests)[0])
        rests = _after(rests, done[-1])
    return tuple(done)
