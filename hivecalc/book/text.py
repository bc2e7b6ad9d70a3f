"""A chapter as plain text for a terminal, in which no length is parted at the end of a line."""

import re
import textwrap
from collections.abc import Iterator
from typing import Final

from hivecalc.book.content import Block, Chapter, Paragraph, Picture, Table, Workings
from hivecalc.hive.texts import seen
from hivecalc.tables.texts import ACROSS

SIGNS: Final = {"plain": "", "caution": "! ", "right": "✓ ", "wrong": "✗ "}
_WITHIN: Final = re.compile(r"(?<=\d) (?=\d+/\d)|(?<=\d) (?=(?:in|mm|ft)\b)")
_HELD: Final = "\N{NO-BREAK SPACE}"


def chapter_text(chapter: Chapter, across: int = ACROSS) -> str:
    r"""A chapter as lines of text; pictures are left out, a table is a list of its rows.

    >>> print(chapter_text(Chapter("Buy", (Paragraph("3 1/2 in of wood.", "Soon."),))), end="")
    Buy
    ===
    <BLANKLINE>
    Soon. 3 1/2 in of wood.
    """
    lines = [seen(chapter.heading), "=" * len(chapter.heading), ""]
    lines += _blocks(chapter.blocks, across)
    for section in chapter.sections:
        found = list(_blocks(section.blocks, across))
        if found:
            lines += ["", seen(section.heading), "-" * len(section.heading), *found]
    return "".join(f"{line.rstrip()}\n" for line in lines)


def filled(text: str, across: int, first: str = "", later: str = "") -> list[str]:
    """A text in lines that are not too wide, none of which parts a length.

    >>> filled("it is 3 1/2 in", 10)
    ['it is', '3 1/2 in']
    """
    held = _WITHIN.sub(_HELD, seen(text))
    lines = textwrap.wrap(held, across, initial_indent=first, subsequent_indent=later)
    return [line.replace(_HELD, " ") for line in lines]


def _blocks(blocks: tuple[Block, ...], across: int) -> Iterator[str]:
    for block in blocks:
        match block:
            case Paragraph():
                sign = SIGNS[block.tone]
                lead = f"{block.lead} " if block.lead else ""
                yield from filled(f"{lead}{block.text}", across, sign, " " * len(sign))
            case Table():
                yield from _rows(block, across)
            case Picture() | Workings():
                pass


def _rows(table: Table, across: int) -> Iterator[str]:
    for row in table.rows:
        first, *more = (cell.strip().replace("\n", ": ") for cell in row if cell.strip())
        told = " | ".join(more)
        yield from filled(f"{first}  {told}", across, "  ", "      ")
