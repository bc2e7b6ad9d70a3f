"""Bars that compare what things cost: one for each, with its words above it."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from hivecalc.drawing.svg import INK, MARGIN, WIDTH, WOOD, Pen, Sheet

HIGH: Final = 12.0


@dataclass(frozen=True)
class Bar:
    """One bar: what it stands for, how much, and how that is said; None where it is not known."""

    name: str
    amount: Fraction | None
    said: str


def bars(title: str, found: Sequence[Bar], *, name: str = "", most: Fraction = Fraction(0)) -> str:
    """SVG picture of bars as long as what they stand for, the name and amount above each.

    >>> picture = bars("What it costs", [Bar("boards", Fraction(4), "4 coins")])
    >>> "boards: 4 coins" in picture
    True

    `most`, where it is more than any of them, is what a bar across the whole picture stands for.
    """
    sheet = Sheet()
    longest = max(most, *(bar.amount for bar in found if bar.amount is not None), Fraction(0))
    scale = (WIDTH - 2 * MARGIN) / float(longest or 1)
    bottom = sheet.paragraph(title, MARGIN, bold=True)
    with sheet.view("bars", scale):
        for bar in found:
            bottom = _draw(sheet, bar, scale, bottom + MARGIN)
    words = "; ".join(f"{bar.name}: {bar.said}" for bar in found)
    whole = f"{name}: {title}" if name else title
    return sheet.picture(whole, words or title, bottom + MARGIN, scale)


def _draw(sheet: Sheet, bar: Bar, scale: float, top: float) -> float:
    top = sheet.paragraph(f"{bar.name}: {bar.said}", top) + 2
    if bar.amount is None:
        return top
    right = MARGIN + float(bar.amount) * scale
    corners = [(MARGIN, top), (right, top), (right, top + HIGH), (MARGIN, top + HIGH)]
    sheet.polygon(corners, Pen(INK, 0.8), WOOD, "strip", {"name": bar.name, "exact": bar.amount})
    return top + HIGH
