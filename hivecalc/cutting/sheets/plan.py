"""A plan for cutting sheets: which sheets, how each is cut, and how near it is to the best."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal, TypeAlias, get_args

from hivecalc.cutting.sheets.layout import Layout
from hivecalc.cutting.wanted import Unplanned
from hivecalc.stock import Money

SheetAim: TypeAlias = Literal["cost", "sheets"]
SHEET_AIMS: Final[tuple[SheetAim, ...]] = get_args(SheetAim)
"""Least money for the sheets to buy, or fewest of them."""


@dataclass(frozen=True)
class SheetPlan:
    """How to cut all pieces out of sheets, and what is known about doing better.

    `bound` is what no plan for these pieces can go below: money, or sheets to buy, as the aim has
    it. `proved` says that this plan meets it. What is in `unplanned` is left out of both. `notes`
    tell in a sentence each what was not done as asked.

    >>> from hivecalc.cutting.sheets.tree import Piece
    >>> from hivecalc.stock import SheetGoods
    >>> half = SheetGoods("half", "foam", Fraction(1), Fraction(24), Fraction(48), Fraction(11))
    >>> layout = Layout(half, 2, Piece("panel"), Fraction(0))
    >>> plan = SheetPlan((layout,), Fraction(22), proved=True)
    >>> plan.sheets, plan.price, plan.counted, plan.gap, plan.waste
    (2, Fraction(22, 1), Fraction(22, 1), Fraction(0, 1), Fraction(0, 1))
    """

    layouts: tuple[Layout, ...]
    bound: Fraction
    proved: bool
    unplanned: tuple[Unplanned, ...] = ()
    aim: SheetAim = "cost"
    notes: tuple[str, ...] = ()

    @property
    def bought(self) -> tuple[Layout, ...]:
        """Layouts whose sheets are not at hand."""
        return tuple(layout for layout in self.layouts if not layout.sheet.at_hand)

    @property
    def sheets(self) -> int:
        """How many sheets are cut, those at hand too."""
        return sum(layout.count for layout in self.layouts)

    @property
    def sheets_to_buy(self) -> int:
        """How many sheets are cut that are not at hand."""
        return sum(layout.count for layout in self.bought)

    @property
    def price(self) -> Money | None:
        """What the sheets to buy cost; None if the price of one of them is not known."""
        total = Fraction(0)
        for layout in self.bought:
            if layout.sheet.price is None:
                return None
            total += layout.sheet.price * layout.count
        return total

    @property
    def waste(self) -> Fraction:
        """Area of all these sheets that becomes no piece, in square inches."""
        return sum((layout.waste for layout in self.layouts), Fraction(0))

    @property
    def counted(self) -> Fraction:
        """What the aim counts of this plan: money, or sheets to buy."""
        if self.aim == "cost":
            return self.price or Fraction(0)
        return Fraction(self.sheets_to_buy)

    @property
    def gap(self) -> Fraction:
        """By how much another plan could be better, at most; 0 if this one is proved."""
        return self.counted - self.bound
