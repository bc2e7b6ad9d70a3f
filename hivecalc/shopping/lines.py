"""What a basket is made of: a line for goods that are alike, a group for what serves one need."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeAlias

from hivecalc.cutting.boards import BoardPlan
from hivecalc.cutting.plans import BoardsCut, SheetsCut
from hivecalc.cutting.sheets import SheetPlan
from hivecalc.cutting.wanted import Unplanned
from hivecalc.stock import Money

Sort: TypeAlias = Literal["board", "sheet", "package"]


@dataclass(frozen=True)
class Line:
    """Goods that are alike: how many, the price of one, how much is used, what is left over.

    >>> Line("board", "8 ft 2x4", 3, Fraction("3.95"), Fraction(1, 2), ("31 1/2 in",)).cost
    Fraction(237, 20)

    `used` is the share that becomes part of the hive. Goods at hand cost nothing.
    """

    sort: Sort
    name: str
    count: int
    price: Money | None
    used: Fraction
    left_over: tuple[str, ...] = ()
    at_hand: bool = False

    @property
    def cost(self) -> Money | None:
        """What all of them cost, None where the price is not known."""
        return None if self.price is None else self.count * self.price


@dataclass(frozen=True)
class Group:
    """Lines that serve one need together: a kind of lumber, of sheet, or of small goods.

    `why` says what is needed; `unplanned` what the yard does not give, and why not. Lumber and
    sheets have what is needed of them and the plan that they are cut by; `notes` tell what was not
    done as it was meant.
    """

    name: str
    lines: tuple[Line, ...]
    why: str = ""
    unplanned: tuple[Unplanned, ...] = ()
    cut: BoardsCut | SheetsCut | None = None
    notes: tuple[str, ...] = ()

    @property
    def plan(self) -> BoardPlan | SheetPlan | None:
        """The plan that lumber or sheets are cut by."""
        return self.cut.plan if self.cut else None

    @property
    def cost(self) -> Money:
        """What its lines cost, without those whose price is not known."""
        return known_cost(self.lines)

    @property
    def proved(self) -> bool:
        """Whether it is certain that nothing else does it better."""
        return self.plan is None or self.plan.proved

    @property
    def unpriced(self) -> tuple[Line, ...]:
        """Lines whose price is not known."""
        return tuple(line for line in self.lines if line.price is None)


def known_cost(lines: "tuple[Line, ...]") -> Money:
    """What lines cost together, without those whose price is not known.

    >>> nail = Line("package", "nails", 2, Fraction(3), Fraction(1))
    >>> known_cost((nail, Line("board", "oak", 1, None, Fraction(1))))
    Fraction(6, 1)
    """
    return sum((line.cost for line in lines if line.cost is not None), Fraction(0))


def counted_lines(lines: Iterable[Line]) -> str:
    """What lines stand for, in words.

    >>> counted_lines([Line("board", "8 ft 2x4", 3, None, Fraction(1, 2))])
    '3 × 8 ft 2x4'
    """
    return ", ".join(f"{line.count:,} × {line.name}" for line in lines)
