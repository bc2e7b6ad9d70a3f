"""A chapter as plain text for a terminal, in which no length is parted at the end of a line."""

from collections.abc import Iterator, Sequence
from typing import Final

from hivecalc.book.content import Block, Chapter, Paragraph, Picture, Table, Workings
from hivecalc.support.faults import escaped
from hivecalc.tables.texts import ACROSS, filled

SIGNS: Final = {"plain": "", "caution": "! ", "right": "✓ ", "wrong": "✗ "}
GAP: Final = "  "
MONEY: Final = {"price": "each ", "cost": "costs ", "left over": "left over "}
"""What a cell says first where it stands without its head above it."""


def chapter_text(chapter: Chapter, across: int = ACROSS) -> str:
    r"""A chapter as lines of text; pictures are left out, a table is a list of its rows.

    >>> print(chapter_text(Chapter("Buy", (Paragraph("3 1/2 in of wood.", "Soon."),))), end="")
    Buy
    ===
    <BLANKLINE>
    Soon. 3 1/2 in of wood.
    """
    lines = [escaped(chapter.heading), "=" * len(chapter.heading), ""]
    lines += _blocks(chapter.blocks, across)
    for section in chapter.sections:
        found = list(_blocks(section.blocks, across))
        if found:
            lines += ["", escaped(section.heading), "-" * len(section.heading), *found]
    return "".join(f"{line.rstrip()}\n" for line in lines)


def _aligned(cells: Sequence[str], wide: Sequence[int]) -> str:
    padded = (escaped(cell).ljust(width) for cell, width in zip(cells, wide, strict=True))
    return GAP + GAP.join(padded)


def _blocks(blocks: tuple[Block, ...], across: int) -> Iterator[str]:
    for block in blocks:
        match block:
            case Paragraph():
                sign = SIGNS[block.tone]
                lead = f"{block.lead} " if block.lead else ""
                yield from filled(escaped(f"{lead}{block.text}"), across, sign, " " * len(sign))
            case Table():
                yield from _rows(block, across)
            case Picture() | Workings():
                pass


def _rows(table: Table, across: int) -> Iterator[str]:
    """The rows under their heads where they fit; else each row's cells one after the other."""
    heads = [column.head for column in table.columns]
    firsts = [[cell.strip().partition("\n")[0] for cell in row] for row in table.rows]
    wide = [max(map(len, cells)) for cells in zip(heads, *firsts, strict=True)]
    if sum(wide) + len(GAP) * len(wide) <= across:
        yield _aligned(heads, wide)
        for row, cells in zip(table.rows, firsts, strict=True):
            yield _aligned(cells, wide)
            for small in filter(None, (cell.strip().partition("\n")[2] for cell in row)):
                yield from filled(escaped(small.replace("\n", " ")), across, "      ", "      ")
        return
    for row in table.rows:
        first, *more = (
            f"{MONEY.get(head, '')}{cell.strip()}".replace("\n", ": ")
            for head, cell in zip(heads, row, strict=True)
            if cell.strip()
        )
        yield from filled(escaped(f"{first}  {' | '.join(more)}"), across, GAP, "      ")
