"""A cutting plan: which boards, what comes out of each, and how near it is to the best."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal, TypeAlias, get_args

from hivecalc.cutting.wanted import Unplanned
from hivecalc.length import Length
from hivecalc.stock import Board, Money

Aim: TypeAlias = Literal["boards", "cost", "waste"]
AIMS: Final[tuple[Aim, ...]] = get_args(Aim)
"""Fewest boards to buy, least money for them, or least length of them."""


@dataclass(frozen=True, slots=True)
class BoardPattern:
    """Boards that are cut alike: the pieces in the order to cut them, and what is left of each.

    >>> stud = Board("8 ft stud", "stud", Fraction(3, 2), Fraction(7, 2), Fraction(96))
    >>> BoardPattern(stud, (("rail", Fraction(24)),) * 3, 2, Fraction(24)).waste
    Fraction(48, 1)

    In inches; the longest piece comes first, since it needs the most sound wood.
    """

    board: Board
    pieces: tuple[tuple[str, Length], ...]
    count: int
    offcut: Length

    @property
    def waste(self) -> Length:
        """Length of these boards that becomes no piece: offcuts, kerfs and trimmed ends."""
        pieces = sum((length for _, length in self.pieces), Fraction(0))
        return (self.board.length - pieces) * self.count


@dataclass(frozen=True)
class BoardPlan:
    """How to cut all pieces out of boards, and what is known about doing better.

    `bound` is what no plan can go below: boards to buy, money, or inches of board to buy, as the
    aim has it. `proved` says that this plan meets it. `notes` tell in a sentence each what was not
    done as asked.

    >>> stud = Board("8 ft stud", "stud", Fraction(3, 2), Fraction(7, 2), Fraction(96), Fraction(5))
    >>> one = BoardPattern(stud, (("rail", Fraction(24)),) * 3, 2, Fraction(24))
    >>> plan = BoardPlan((one,), "cost", Fraction(10), proved=True)
    >>> plan.boards, plan.price, plan.counted, plan.gap
    (2, Fraction(10, 1), Fraction(10, 1), Fraction(0, 1))
    """

    patterns: tuple[BoardPattern, ...]
    aim: Aim
    bound: Fraction
    proved: bool
    unplanned: tuple[Unplanned, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def bought(self) -> tuple[BoardPattern, ...]:
        """Patterns whose boards are not at hand."""
        return tuple(pattern for pattern in self.patterns if not pattern.board.at_hand)

    @property
    def boards(self) -> int:
        """How many boards are cut, those at hand too."""
        return sum(pattern.count for pattern in self.patterns)

    @property
    def boards_to_buy(self) -> int:
        """How many boards are cut that are not at hand."""
        return sum(pattern.count for pattern in self.bought)

    @property
    def price(self) -> Money | None:
        """What the boards to buy cost; None if the price of one of them is not known."""
        total = Fraction(0)
        for pattern in self.bought:
            if pattern.board.price is None:
                return None
            total += pattern.board.price * pattern.count
        return total

    @property
    def length_to_buy(self) -> Length:
        """Length of the boards to buy, in inches."""
        lengths = (pattern.board.length * pattern.count for pattern in self.bought)
        return sum(lengths, Fraction(0))

    @property
    def waste(self) -> Length:
        """Length of all these boards that becomes no piece: offcuts, kerfs and trimmed ends."""
        return sum((pattern.waste for pattern in self.patterns), Fraction(0))

    @property
    def counted(self) -> Fraction:
        """What the aim counts of this plan: boards to buy, money, or inches of board to buy."""
        if self.aim == "cost":
            return self.price or Fraction(0)
        return Fraction(self.boards_to_buy) if self.aim == "boards" else self.length_to_buy

    @property
    def gap(self) -> Fraction:
        """By how much another plan could be better, at most; 0 if this one is proved."""
        return self.counted - self.bound
