"""Sheets that are cut alike: where each piece lies, what is left over, and which cut comes when."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import NamedTuple

from hivecalc.cutting.sheets.order import Cut, ordered
from hivecalc.cutting.sheets.tree import Offcut, Part, Piece, Rectangle, Split, halves
from hivecalc.length import Length
from hivecalc.stock import SheetGoods


class Placed(NamedTuple):
    """A piece where it lies: its width across the sheet, its length along it.

    In inches. `turned` says that the piece's own length lies across.
    """

    label: str
    x: Length
    y: Length
    width: Length
    length: Length
    turned: bool


@dataclass(frozen=True)
class Layout:
    """Sheets that are cut alike: which sheet, how many, the tree of its cuts, and the kerf.

    >>> sheet = SheetGoods("sheet", "plywood", Fraction(1, 2), Fraction(48), Fraction(96))
    >>> row = Split("along", Fraction(20), Piece("deck"), Offcut())
    >>> layout = Layout(sheet, 1, Split("across", Fraction(30), row, Offcut()), Fraction(1, 8))
    >>> [(placed.label, str(placed.width), str(placed.length)) for placed in layout.placed]
    [('deck', '20', '30')]
    >>> [str(cut.at) for cut in layout.cuts], [str(offcut.area) for offcut in layout.offcuts]
    (['30', '20'], ['3162', '3345/4'])

    In inches. x and y run from the sheet's left edge and its near end; y along its length.
    """

    sheet: SheetGoods
    count: int
    tree: Part
    kerf: Length

    @property
    def whole(self) -> Rectangle:
        """The sheet before any cut."""
        return Rectangle(Fraction(0), Fraction(0), self.sheet.width, self.sheet.length)

    @cached_property
    def placed(self) -> tuple[Placed, ...]:
        """Each piece where it lies."""
        return tuple(
            Placed(part.label, *where, part.turned)
            for part, where in self._ends()
            if isinstance(part, Piece)
        )

    @cached_property
    def offcuts(self) -> tuple[Rectangle, ...]:
        """What is left over, the biggest first."""
        rests = (where for part, where in self._ends() if isinstance(part, Offcut))
        return tuple(sorted(rests, key=lambda rest: -rest.area))

    @cached_property
    def cuts(self) -> tuple[Cut, ...]:
        """The cuts, numbered in the order to make them."""
        return tuple(ordered(self.tree, self.whole, self.kerf))

    @property
    def waste(self) -> Fraction:
        """Area of these sheets that becomes no piece, in square inches."""
        pieces = sum((piece.width * piece.length for piece in self.placed), Fraction(0))
        return (self.whole.area - pieces) * self.count

    def _ends(self) -> Iterator[tuple[Part, Rectangle]]:
        """Every part that is cut no further, and where it lies."""
        open_parts: list[tuple[Part | None, Rectangle]] = [(self.tree, self.whole)]
        while open_parts:
            part, where = open_parts.pop()
            if isinstance(part, Split):
                low, high = halves(part, where, self.kerf)
                open_parts += [(part.high, high), (part.low, low)]
            elif part is not None:
                yield part, where
