"""A hive book as a PDF, set by typst from book.typ."""

import json
from dataclasses import asdict
from importlib import resources
from pathlib import Path
from typing import Final

from hivecalc.book.content import Block, Book, Chapter, Paper, Section

PAPERS: Final[dict[Paper, str]] = {"a4": "a4", "letter": "us-letter"}


def pdf(book: Book, paper: Paper) -> bytes:
    """A hive book as a PDF on this paper."""
    import typst  # noqa: PLC0415 - only a PDF needs it

    return typst.compile(
        (resources.files(__package__) / "book.typ").read_bytes(),
        font_paths=[_fonts()],
        ignore_system_fonts=True,
        sys_inputs={"book": json.dumps(_book(book)), "paper": PAPERS[paper]},
    )


def _fonts() -> Path:
    """Return the folder of the fonts that matplotlib brings, which the drawings are measured by."""
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
    return {"kind": type(block).__name__.lower(), **asdict(block)}
