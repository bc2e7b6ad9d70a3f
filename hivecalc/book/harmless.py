"""A chapter whose texts were written by others, such as a yard file, shown so that they do no harm.

A character that can't be seen stands there as an escape.
"""

from dataclasses import replace

from hivecalc.book.content import Block, Chapter, Paragraph, Picture, Section, Table, Workings
from hivecalc.support.faults import escaped


def harmless(chapter: Chapter) -> Chapter:
    r"""The same chapter with escapes for what can't be seen in its texts.

    >>> made = harmless(Chapter("Goods", (Paragraph("bell\x07"),)))
    >>> made.blocks[0].text
    'bell\\x07'
    """
    sections = tuple(Section(s.heading, _blocks(s.blocks)) for s in chapter.sections)
    return Chapter(chapter.heading, _blocks(chapter.blocks), sections)


def _blocks(blocks: tuple[Block, ...]) -> tuple[Block, ...]:
    return tuple(map(_block, blocks))


def _block(block: Block) -> Block:
    match block:
        case Paragraph():
            return replace(block, text=escaped(block.text), lead=escaped(block.lead))
        case Table():
            return replace(block, rows=tuple(tuple(map(_cell, row)) for row in block.rows))
        case Picture():
            return replace(block, caption=escaped(block.caption), words=escaped(block.words))
        case Workings():
            return block


def _cell(text: str) -> str:
    return "\n".join(map(escaped, text.split("\n")))
