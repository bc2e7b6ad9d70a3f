"""How two outlines face one another: how far apart they are, and what lies open between them.

They do so along y (1) or z (2), where their shadows meet; a place is one along the other of these.
"""

from functools import lru_cache
from typing import TypeAlias

from hivecalc.length import Length
from hivecalc.space.outlines import (
    NOTHING,
    Interval,
    Profile,
    edges,
    held,
    looks_along,
    ordered,
    shared_interval,
    span,
)

Space: TypeAlias = tuple[tuple[Length, Interval], ...]  # at each place, from where to where


@lru_cache(maxsize=1024)  # twins share outlines, and so do the picture and the words of one cut
def profile_distance(first: Profile, second: Profile, i: int) -> Length:
    """The least distance of two outlines along y (1) or z (2), where their shadows meet.

    It bends only at corners, so it is least at a corner or where the shadows end. It is less than
    nothing where the outlines overlap.

    >>> from hivecalc.space.outlines import rectangle
    >>> float(profile_distance(((0, 0), (8, 0), (0, 1)), rectangle((4, 8), (1, 2)), 2))
    0.5
    """
    places = _bends(first, second, i)
    spans = [(span(first, i - 1, at), span(second, i - 1, at)) for at in places]
    return max(min(b[0] - a[1] for a, b in spans), min(a[0] - b[1] for a, b in spans))


def space_between(first: Profile, second: Profile, i: int, within: Interval) -> Space:
    """What lies open between two faces that are opposite along y (1) or z (2), place by place.

    Places are those within an interval where it begins, bends or ends. The ends of a board on a
    slope look another way, so they are left out. Nothing where no faces are opposite there.

    >>> from hivecalc.space.outlines import rectangle
    >>> board, ceiling = ((0, 0), (8, 0), (9, 3), (1, 3)), rectangle((-1, 20), (4, 5))
    >>> found = space_between(board, ceiling, 2, (0, 5))
    >>> [(float(at), float(low), float(high)) for at, (low, high) in found]
    [(1.0, 3.0, 4.0), (5.0, 3.0, 4.0)]
    """
    bends = _bends(first, second, i)
    low, high = sorted((first, second), key=lambda profile: span(profile, i - 1, bends[0]))
    faced = _opposite(low, high, i, within)
    if faced is None:
        return ()
    places = sorted({*faced, *(at for at in bends if faced[0] < at < faced[1])})
    return tuple((at, (span(low, i - 1, at)[1], span(high, i - 1, at)[0])) for at in places)


def _bends(first: Profile, second: Profile, i: int) -> list[Length]:
    """The places where a distance can bend: where the shared shadow ends, and at corners in it."""
    low, high = shared_interval(_shadow(first, i), _shadow(second, i)) or (NOTHING, NOTHING)
    corners = {p[2 - i] for p in (*first, *second)}
    return [low, high, *(at for at in corners if low < at < high)]


def _shadow(profile: Profile, i: int) -> Interval:
    return held([(p[2 - i], p[2 - i]) for p in profile])


def _opposite(low: Profile, high: Profile, i: int, within: Interval) -> Interval | None:
    """Where, within an interval, the high face of one outline is opposite another's low face."""
    faced = shared_interval(_face(low, i, 1), _face(high, i, -1))
    return shared_interval(faced, within) if faced else None


def _face(profile: Profile, i: int, way: int) -> Interval:
    """From where to where the face at the high end (1) or the low end (-1) of an outline reaches.

    All its shadow, where no face looks along this axis.
    """
    ahead = way if i == 1 else -way  # corners run counter-clockwise
    found = [
        ordered(a[2 - i], b[2 - i])
        for a, b in edges(profile)
        if (b[2 - i] - a[2 - i]) * ahead > 0 and looks_along(a, b) == i
    ]
    return held(found) if found else _shadow(profile, i)
