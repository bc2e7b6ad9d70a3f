"""A hive book as one HTML page: no other file, no script, no network; it prints well."""

from collections.abc import Iterable
from html import escape
from importlib import resources
from typing import Final

from hivecalc.book.content import (
    Block,
    Book,
    Chapter,
    Column,
    Paragraph,
    Picture,
    Section,
    Table,
    Tone,
    Working,
    Workings,
)
from hivecalc.paper import Paper

SIZES: Final[dict[Paper, str]] = {"a4": "A4", "letter": "letter"}
SIGNS: Final[dict[Tone, str]] = {"caution": "⚠", "right": "✓", "wrong": "✗"}
NOTHING_ELSE: Final = "default-src 'none'; style-src 'unsafe-inline'"
"""What a browser may load for the page, in the words of Content Security Policy Level 3."""

FEW: Final = 3
"""Columns that a narrow screen has room for; a table of more is scrolled sideways."""

PRINTED: Final = """@page { size: %s; margin: 18mm 16mm 20mm 21mm;
  @bottom-right { content: "Page " counter(page) " of " counter(pages);
    font: 9pt Georgia, serif; color: #555; } }
"""


def page(book: Book, paper: Paper) -> str:
    """A hive book as the text of one HTML page, whose print goes on this paper."""
    style = (resources.files(__package__) / "book.css").read_text() + PRINTED % SIZES[paper]
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{NOTHING_ELSE}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(book.name)}: hive book</title>\n<style>\n{style}</style>\n</head>\n"
        f"<body>\n{_front(book)}<main>\n{''.join(map(_chapter, book.chapters))}</main>\n"
        "</body>\n</html>\n"
    )


def _front(book: Book) -> str:
    date = f'<p class="date">{escape(book.made_on)}</p>\n' if book.made_on else ""
    links = "".join(
        f'<li><a href="#{_mark(c)}">{escape(c.heading)}</a></li>\n' for c in book.chapters
    )
    return (
        f'<header>\n<p class="date">Hive book</p>\n<h1>{escape(book.name)}</h1>\n{date}'
        f'{_blocks(book.front)}<nav aria-label="Contents"><ol class="contents">\n{links}'
        "</ol></nav>\n</header>\n"
    )


def _chapter(chapter: Chapter) -> str:
    return (
        f'<section class="chapter" id="{_mark(chapter)}">\n<h2>{escape(chapter.heading)}</h2>\n'
        f"{_blocks(chapter.blocks)}{''.join(map(_section, chapter.sections))}</section>\n"
    )


def _section(section: Section) -> str:
    return f"<h3>{escape(section.heading)}</h3>\n{_blocks(section.blocks)}"


def _mark(chapter: Chapter) -> str:
    """Return the name that a chapter is linked by."""
    return "".join(sign if sign.isalpha() else "-" for sign in chapter.heading.lower())


def _blocks(blocks: Iterable[Block]) -> str:
    return "".join(map(_block, blocks))


def _block(block: Block) -> str:
    match block:
        case Paragraph():
            return _paragraph(block)
        case Table():
            return _table(block)
        case Workings():
            return "".join(map(_working, block.steps))
        case Picture():
            caption = f"<figcaption>{escape(block.caption)}</figcaption>"
            return f'<figure class="{block.size}">{block.svg}{caption}</figure>\n'


def _paragraph(block: Paragraph) -> str:
    lead = f"<b>{escape(block.lead)}</b> " if block.lead else ""
    text = f"<p>{lead}{escape(block.text)}</p>\n"
    if block.tone == "plain":
        return text
    return f'<div class="{block.tone}"><p aria-hidden="true">{SIGNS[block.tone]}</p>{text}</div>\n'


def _table(table: Table) -> str:
    whole = sum(column.share for column in table.columns)
    widths = "".join(f'<col style="width:{100 * c.share / whole:.1f}%">' for c in table.columns)
    heads = "".join(f'<th scope="col">{escape(c.head)}</th>' for c in table.columns)
    rows = "".join(_row(row, table.columns) for row in table.rows)
    kinds = ["write"] * table.to_write_in + ["many"] * (len(table.columns) > FEW)
    return (
        f'<div class="wide" tabindex="0"><table class="{" ".join(kinds)}">'
        f"<colgroup>{widths}</colgroup><thead><tr>{heads}</tr></thead>\n<tbody>\n{rows}</tbody></table></div>\n"
    )


def _row(row: Iterable[str], columns: Iterable[Column]) -> str:
    cells = (f"<td>{_cell(t, bold=c.bold)}</td>" for t, c in zip(row, columns, strict=True))
    return f"<tr>{''.join(cells)}</tr>\n"


def _cell(text: str, *, bold: bool) -> str:
    first, *more = map(escape, text.split("\n"))
    small = "".join(f"<small>{line}</small>" for line in more)
    return f"<b>{first}</b>{small}" if bold and first else f"{first}{small}"


def _working(step: Working) -> str:
    numbers = f"<p>= {escape(step.numbers)}</p>" if step.numbers else ""
    tape = f" &ensp;on the tape {escape(step.on_tape)}" if step.on_tape else ""
    sign = "" if step.value.startswith("≈") else "= "
    return (
        f'<div class="working"><div><p><b>{escape(step.size)}</b> = {escape(step.formula)}</p>'
        f"{numbers}<p>{sign}<b>{escape(step.value)}</b>{tape}</p></div>"
        f'<p class="why">{escape(step.why)}</p></div>\n'
    )
