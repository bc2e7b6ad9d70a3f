"""A yard: everything that it sells, what it asks for it, and the offcuts that are at hand."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from hivecalc.hive.faults import Fault
from hivecalc.length import Length
from hivecalc.stock.goods import Board, Package, SheetGoods

KERF: Final = Fraction(1, 8)
"""Width of the cut of an ordinary saw blade; common practice, no published source."""

END_TRIM: Final = Fraction(1, 2)
"""What comes off an end of a new board to make it square; common practice, no published source."""

SPARE: Final = Fraction(1, 10)
"""Share of small goods bought beyond those counted, as some bend or roll away: a choice."""


@dataclass(frozen=True)
class Yard:
    """What a yard sells, in which currency, and what the saw takes.

    >>> from hivecalc.stock import demo_yard
    >>> demo_yard().currency, demo_yard().kerf
    ('coins', Fraction(1, 8))

    Lengths in inches. Boards and sheets that are at hand stand among the others. `end_trim` comes
    off one end of each board. `left_out` tells which rows of the file are no part of the yard, and
    why: the rest of it holds. `factory_edge` names the parts that shall have one side on the long
    edge of a sheet as it came from the factory, which is straight.
    """

    currency: str
    boards: tuple[Board, ...]
    sheets: tuple[SheetGoods, ...]
    packages: tuple[Package, ...]
    kerf: Length = KERF
    end_trim: Length = END_TRIM
    spare: Fraction = SPARE
    left_out: tuple[Fault, ...] = ()
    factory_edge: frozenset[str] = frozenset()
