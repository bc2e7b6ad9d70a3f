"""The chapter on warmth: what the foam of this hive saves, and what the sum leaves out."""

from collections.abc import Sequence

from hivecalc.book.content import Chapter, Column, Paragraph, Table
from hivecalc.hive import Hive
from hivecalc.warmth import CANDLE, LEFT_OUT, Compared, compared

INSIDE, OUTSIDE = 20.0, -10.0
"""Temperatures in °C that the hive is told for, 68 and 14 °F: chosen, no forecast."""
COLUMNS = (Column("built", 6), Column("watts", 1.5, bold=True))
PLAIN = (
    "Heat through walls, roof and bottom board, with 68 °F (20 °C) inside and 14 °F (−10 °C) "
    "outside. Edges come on top: hivecalc warmth tells them, and where drops form."
)
FOAM_CARE = (
    "Foam burns with thick smoke: cover it, and keep flames and hot tools away. Mask on where it "
    "is cut. Glue made for polystyrene only."
)


def warmth(hive: Hive) -> Chapter:
    """Chapter of what this hive loses beside others built of the same pieces.

    >>> from hivecalc.hive import hive_from_text
    >>> warmth(hive_from_text("chosen.frames = 10")).blocks[0].lead
    'The foam of this hive saves about 50 W.'
    """
    found = compared(hive, INSIDE, OUTSIDE)
    left = tuple(Paragraph(one) for one in LEFT_OUT)
    blocks = (Paragraph(PLAIN, _saved(found)), _table(found), Paragraph(FOAM_CARE, tone="caution"))
    return Chapter("How warm it is", (*blocks, Paragraph("", "What this sum leaves out"), *left))


def _saved(found: Sequence[Compared]) -> str:
    watts = {one.words: one.watts for one in found}
    bare = max(watts.values())
    saved = f"The foam of this hive saves about {round(bare - watts['this hive'], -1):.0f} W."
    return saved if bare - watts["this hive"] < CANDLE else f"{saved} A candle gives {CANDLE:.0f}."


def _table(found: Sequence[Compared]) -> Table:
    return Table(COLUMNS, tuple((one.words, f"{one.watts:.0f}") for one in found))
