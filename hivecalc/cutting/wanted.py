"""What is wanted from the stock, what could not be planned, and how far a search has come."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from hivecalc.length import Length

STOPPED: Final = "The search was stopped, and this is the best plan found up to then."
"""What a plan notes when Ctrl-C ended its search."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """Pieces of one length that are to be cut off boards.

    >>> Wanted("side rail", Fraction(173, 8), 2).count
    2

    In inches. `straight` says that they must come out of a straight board.
    """

    label: str
    length: Length
    count: int = 1
    straight: bool = False


@dataclass(frozen=True, slots=True)
class Unplanned:
    """Pieces that the stock does not give: what they are, how many, and why not.

    >>> Unplanned("ridge", 1, "it is 120 in long, and the longest board gives 96 in").count
    1
    """

    label: str
    count: int
    why: str


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a search has come: what it does, the best it has, what no plan can go below.

    >>> Progress("proving", Fraction(23), Fraction(20), 0.5).gap
    Fraction(3, 1)

    `best` and `bound` are what the aim counts, such as boards; `seconds` have passed so far.
    """

    doing: str
    best: Fraction
    bound: Fraction
    seconds: float

    @property
    def gap(self) -> Fraction:
        """By how much the best plan so far may still be beaten, at most."""
        return self.best - self.bound
