"""A document as a PDF, and templates at full size, both set by typst with the fonts it brings."""

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from importlib import resources
from typing import Final

from hivecalc.document.content import Block, Document, Paper, Picture, Rows, Section
from hivecalc.document.html import as_table
from hivecalc.support.faults import escaped

PAPERS: Final[dict[Paper, str]] = {"a4": "a4", "letter": "us-letter"}


def document_pdf(document: Document, paper: Paper = "a4") -> bytes:
    """A document as a PDF on this paper; the same bytes for the same document.

    Signs of scripts that typst's fonts lack, such as Chinese, are shown as boxes: a page of HTML
    shows them with the fonts of the reader's computer.
    """
    told = {
        "name": escaped(document.title),
        "made_on": escaped(document.made_on),
        "front": [_block(block) for block in document.front],
        "chapters": [_section(section) for section in document.sections],
    }
    return _set("page.typ", {"book": json.dumps(told), "paper": PAPERS[paper]})


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


def _section(section: Section) -> dict[str, object]:
    return {
        "heading": escaped(section.heading),
        "blocks": [_block(block) for block in section.blocks],
        "sections": [_section(part) for part in section.sections],
    }


def _block(block: Block) -> dict[str, object]:
    if isinstance(block, Rows):
        block = as_table(block)
    told = {name: _harmless(value) for name, value in asdict(block).items() if name != "svg"}
    drawn = {"svg": _lettered(block.svg)} if isinstance(block, Picture) else {}
    return {"kind": type(block).__name__.lower(), **told, **drawn}


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


def _lettered(svg: str) -> str:
    """A drawing in letters that are at hand: narrower than those it was laid out for."""
    return re.sub("font-family='[^']*'", "font-family='Libertinus Serif'", svg)
