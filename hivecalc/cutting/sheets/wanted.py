"""What is wanted from sheets: rectangles, and whether they may be turned."""

from dataclasses import dataclass

from hivecalc.length import Length


@dataclass(frozen=True, slots=True)
class WantedSheet:
    """Pieces of one size that are to be cut out of sheets.

    >>> from fractions import Fraction
    >>> WantedSheet("deck", Fraction(171, 8), Fraction(217, 8), turns=False).count
    1

    In inches. `turns` says whether the piece may lie across the sheet; where it may not, its length
    lies along the sheet's, as the grain or the flutes do. `factory_edge` says that one of its sides
    should be the sheet's own long edge; it counts where a plan keeps that edge.
    """

    label: str
    width: Length
    length: Length
    count: int = 1
    turns: bool = True
    factory_edge: bool = False
