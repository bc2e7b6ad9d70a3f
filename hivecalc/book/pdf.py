"""A hive book as a PDF, set by typst from book.typ."""

import json
import re
from dataclasses import asdict
from importlib import resources
from pathlib import Path
from typing import Final

from hivecalc.book.content import Block, Book, Chapter, Picture, Section
from hivecalc.paper import Paper

PAPERS: Final[dict[Paper, str]] = {"a4": "a4", "letter": "us-letter"}


def pdf(book: Book, paper: Paper) -> bytes:
    """A hive book as a PDF on this paper."""
    import typst  # noqa: PLC0415 - only a PDF needs it

    return typst.compile(
        (resources.files(__package__) / "book.typ").read_bytes(),
        font_paths=typst.Fonts(include_system_fonts=False, font_paths=[fonts()]),
        sys_inputs={"book": json.dumps(_book(book)), "paper": PAPERS[paper]},
    )


def fonts() -> Path:
    """Return the folder of the fonts that matplotlib brings: the drawings are measured by them."""
    import matplotlib as mpl  # noqa: PLC0415

    return Path(mpl.get_data_path(), "fonts", "ttf")


def _book(book: Book) -> dict[str, object]:
    return {
        "name": book.name,
        "made_on": book.made_on,
        "front": [_block(block) for block in book.front],
        "chapters": [
            {**_section(chapter), "sections": [_section(section) for section in chapter.sections]}
            for chapter in book.chapters
        ],
    }


def _section(section: Section | Chapter) -> dict[str, object]:
    return {"heading": section.heading, "blocks": [_block(block) for block in section.blocks]}


def _block(block: Block) -> dict[str, object]:
    told = {"kind": type(block).__name__.lower(), **asdict(block)}
    return {**told, "svg": _lettered(block.svg)} if isinstance(block, Picture) else told


def _lettered(svg: str) -> str:
    """Return a drawing whose letters are of a font that is at hand, the one it was laid out for."""
    return re.sub(r'font-family="[^"]*"', 'font-family="DejaVu Sans"', svg)
