"""A document as pages to print: one HTML page, or a PDF set by typst with the fonts it brings.

The page of HTML needs no other file, no script and no network. Templates at full size are a PDF of
their own.
"""

import json
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict
from html import escape
from importlib import resources
from typing import Final

from hivecalc.document import (
    Block,
    Column,
    Document,
    Paper,
    Paragraph,
    Picture,
    Rows,
    Section,
    Table,
    Tone,
    Working,
    Workings,
)
from hivecalc.support.faults import escaped

# ── HTML ────────────────────────────────────────────────────────────────────────────────────────

SIZES: Final[dict[Paper, str]] = {"a4": "A4", "letter": "letter"}
SIGNS: Final[dict[Tone, str]] = {"caution": "⚠", "right": "✓", "wrong": "✗"}
NOTHING_ELSE: Final = "default-src 'none'; style-src 'unsafe-inline'"
"""What a browser may load for the page, in the words of Content Security Policy Level 3."""

FEW: Final = 3
"""Columns that a narrow screen has room for; a table of more is scrolled sideways."""

PRINTED: Final = """@page { size: %s; margin: 15mm 14mm 17mm 18mm;
  @bottom-right { content: "Page " counter(page) " of " counter(pages);
    font: 9pt Georgia, serif; color: #555; } }
"""
_LENGTH: Final = re.compile(r"(\d) (?=\d+/\d|(?:in|mm|cm|ft|W)\b)")


class Html(str):
    """Text that is HTML already; all other text is escaped."""

    __slots__ = ()


def element(name: str, *inner: str, **attributes: str) -> Html:
    """An element with what is in it; a name like `class_` loses its stroke.

    >>> element("p", "3 < 4", element("b", "so"), class_="why")
    '<p class="why">3 &lt; 4<b>so</b></p>'
    """
    said = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{escape(value)}"'
        for key, value in attributes.items()
        if value
    )
    return Html(f"<{name}{said}>{joined(inner)}</{name}>")


def joined(inner: Iterable[str]) -> Html:
    """Texts and elements one after the other; no length is parted at the end of a line."""
    return Html("".join(one if isinstance(one, Html) else _escaped(one) for one in inner))


def _escaped(text: str) -> str:
    return _LENGTH.sub("\\1\N{NO-BREAK SPACE}", escape(escaped(text)))


def document_html(document: Document, paper: Paper = "a4") -> str:
    """A document as one HTML page that needs no other file, and prints on this paper."""
    style = (resources.files(__package__) / "page.css").read_text() + PRINTED % SIZES[paper]
    head = (
        Html('<meta charset="utf-8">'),
        Html(f'<meta http-equiv="Content-Security-Policy" content="{NOTHING_ELSE}">'),
        Html('<meta name="viewport" content="width=device-width, initial-scale=1">'),
        element("title", document.title),
        element("style", Html(style)),
    )
    chapters = "\n".join(map(_chapter, document.sections))
    body = element("body", _front(document), element("main", Html(chapters)))
    return f"<!DOCTYPE html>\n{element('html', element('head', *head), body, lang='en')}\n"


def _front(document: Document) -> Html:
    date = [element("p", document.made_on, class_="date")] if document.made_on else []
    links = (
        element("li", element("a", c.heading, href=f"#{_anchor(c)}")) for c in document.sections
    )
    contents = element("ol", *links, class_="contents")
    return element(
        "header",
        element("h1", document.title),
        *date,
        *map(_block, document.front),
        element("nav", contents, aria_label="Contents", id="contents"),
    )


def _chapter(chapter: Section) -> Html:
    back = element("a", "↑ Contents", class_="back", href="#contents")
    inner = (*map(_block, chapter.blocks), *(_section(part, 3) for part in chapter.sections))
    heading = element("h2", chapter.heading)
    return element("section", back, heading, *inner, class_="chapter", id=_anchor(chapter))


def _section(section: Section, level: int) -> Html:
    heading = element(f"h{level}", section.heading)
    parts = (_section(part, level + 1) for part in section.sections)
    return joined((heading, *map(_block, section.blocks), *parts))


def _anchor(chapter: Section) -> str:
    return "".join(sign if sign.isalpha() else "-" for sign in chapter.heading.lower())


def _block(block: Block) -> Html:
    match block:
        case Paragraph():
            return _paragraph(block)
        case Table():
            return _table(block)
        case Rows():
            return _table(as_table(block))
        case Workings():
            return joined(map(_working, block.steps))
        case Picture():
            caption = [element("figcaption", block.caption)] if block.caption else []
            return element("figure", Html(block.svg), *caption, class_=block.size)


def _paragraph(block: Paragraph) -> Html:
    lead = [element("b", block.lead), " "] if block.lead else []
    text = element("p", *lead, block.text, class_="note" if block.tone == "note" else "")
    if block.tone not in SIGNS:
        return text
    sign = element("p", SIGNS[block.tone], aria_hidden="true")
    return element("div", sign, text, class_=block.tone)


def as_table(rows: Rows) -> Table:
    """Figures as a table for a page: each column as wide as its longest text asks for."""
    cells = [["" if cell is None else str(cell) for cell in row] for row in rows.rows]
    wide = (max(map(len, column)) for column in zip(rows.columns, *cells, strict=True))
    columns = (Column(head, max(w, 3)) for head, w in zip(rows.columns, wide, strict=True))
    return Table(tuple(columns), tuple(map(tuple, cells)))


def _table(table: Table) -> Html:
    whole = sum(column.share for column in table.columns)
    widths = (Html(f'<col style="width:{100 * c.share / whole:.1f}%">') for c in table.columns)
    heads = (element("th", column.head, scope="col") for column in table.columns)
    rows = (
        element("tr", *(_cell(t, bold=c.bold) for t, c in zip(row, table.columns, strict=True)))
        for row in table.rows
    )
    named = {"write": table.to_write_in, "many": len(table.columns) > FEW}
    kinds = " ".join(name for name, so in named.items() if so)
    inner = (
        element("colgroup", *widths),
        element("thead", element("tr", *heads)),
        element("tbody", *rows),
    )
    whole_table = element("table", *inner, class_=kinds)
    return element("div", whole_table, class_="wide", tabindex="0")


def _cell(text: str, *, bold: bool) -> Html:
    first, *more = text.split("\n")
    small = [element("small", line, class_="care" if line.startswith("⚠") else "") for line in more]
    return element("td", element("b", first) if bold and first else first, *small)


def _working(step: Working) -> Html:
    numbers = [element("p", f"= {step.numbers}")] if step.numbers else []
    sign, _, value = step.result.partition(" ")
    tape = f"  on the tape {step.on_tape}" if step.on_tape else ""
    lines = (
        element("p", element("b", step.size), f" = {step.formula}"),
        *numbers,
        element("p", f"{sign} ", element("b", value), tape),
    )
    return element("div", element("div", *lines), element("p", step.why, class_="why"),
                   class_="working")  # fmt: skip


# ── PDF ─────────────────────────────────────────────────────────────────────────────────────────

PAPERS: Final[dict[Paper, str]] = {"a4": "a4", "letter": "us-letter"}


def document_pdf(document: Document, paper: Paper = "a4") -> bytes:
    """A document as a PDF on this paper; the same bytes for the same document.

    Signs of scripts that typst's fonts lack, such as Chinese, are shown as boxes: a page of HTML
    shows them with the fonts of the reader's computer.
    """
    data = {
        "name": escaped(document.title),
        "made_on": escaped(document.made_on),
        "front": [_block_data(block) for block in document.front],
        "chapters": [_section_data(section) for section in document.sections],
    }
    return _set("page.typ", {"book": json.dumps(data), "paper": PAPERS[paper]})


def sheets_pdf(title: str, sheets: Sequence[Mapping[str, object]]) -> bytes:
    """Lines and words at places in mm as a PDF, each sheet as it is given: at full size."""
    return _set("templates.typ", {"sheets": json.dumps(sheets), "title": escaped(title)})


def _set(source: str, inputs: dict[str, str]) -> bytes:
    import typst  # noqa: PLC0415 - only a PDF needs it

    return typst.compile(
        (resources.files(__package__) / source).read_bytes(),
        font_paths=typst.Fonts(include_system_fonts=False),
        sys_inputs=inputs,
    )


def _section_data(section: Section) -> dict[str, object]:
    return {
        "heading": escaped(section.heading),
        "blocks": [_block_data(block) for block in section.blocks],
        "sections": [_section_data(part) for part in section.sections],
    }


def _block_data(block: Block) -> dict[str, object]:
    if isinstance(block, Rows):
        block = as_table(block)
    data = {name: _harmless(value) for name, value in asdict(block).items() if name != "svg"}
    if isinstance(block, Picture):  # in letters that are at hand, narrower than those it was for
        family = "font-family='Libertinus Serif'"
        data["svg"] = re.sub("font-family='[^']*'", family, block.svg)
    return {"kind": type(block).__name__.lower(), **data}


def _harmless(value: object) -> object:
    match value:
        case str():
            return "\n".join(map(escaped, value.split("\n")))
        case dict():
            return {name: _harmless(inner) for name, inner in value.items()}
        case list() | tuple():
            return [_harmless(inner) for inner in value]
        case _:
            return value
