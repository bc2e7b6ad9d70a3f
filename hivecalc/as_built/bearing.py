"""How much of a consequence a builder can bear; common practice, no published source."""

from fractions import Fraction
from typing import Final

from hivecalc.as_built.sizes import LONGEST
from hivecalc.length import Length
from hivecalc.space import Consequence
from hivecalc.tolerance import READING

BARE: Final = Fraction(1, 4)  # a joint may lack this of its cover, or an eighth of it
MOST_BARE: Final = Fraction(1)  # but never more than this
ROOM: Final = Fraction(1, 2)  # a gap that no rule speaks of may be wider than planned by this
STANDS_OUT: Final = Fraction(1, 4)  # what covers may stand out by this


def is_harmful(found: Consequence, *, covers: bool) -> bool:
    """Whether a consequence is worse than a tape can tell, a cover's overhang or a bit of play."""
    if found.kind == "nothing":
        return False
    if found.after is None or found.amount is None:
        return True
    if found.kind == "clearance":
        return found.after == 0 or found.after - found.before > ROOM
    return found.amount > _bearable(found, covers=covers)


def gravity(found: Consequence) -> Fraction:
    """Where a consequence stands among others: first what has come apart, then by its amount."""
    return -LONGEST if found.amount is None else -found.amount


def _bearable(found: Consequence, *, covers: bool) -> Length:
    """How much of a consequence nobody minds."""
    if found.kind == "bare":
        return min(MOST_BARE, max(BARE, found.before / 8))
    return STANDS_OUT if found.kind == "stands out" and covers else READING
