"""The words of the course that stand in a hive book, each with its one meaning."""

import re
from collections.abc import Iterable, Mapping
from functools import cache
from types import MappingProxyType

from hivecalc.book.content import Chapter, Column, Paragraph, Table
from hivecalc.course_folder import originals

FIRST = "One name for each thing, the same in this book and in all lessons."
COLUMNS = (Column("word", 1, bold=True), Column("what it means", 4))
_ENTRY = re.compile(r"^### (.+)\n+(.+)$", re.MULTILINE)


@cache
def glossary() -> Mapping[str, str]:
    """The glossary of the lessons: each word with what it means, in the order of the alphabet.

    >>> glossary()["brad"]
    'A thin nail with a small head.'
    """
    page = originals() / "workbook" / "glossary.md"
    return MappingProxyType(dict(_ENTRY.findall(page.read_text(encoding="utf-8"))))


def words(chapters: Iterable[Chapter]) -> Chapter:
    """Chapter of the words that stand in these chapters, and what they mean.

    >>> told = Chapter("Roof", (Paragraph("Nail the deck down with two brads."),))
    >>> [word for word, _ in words([told]).blocks[1].rows]
    ['brad', 'deck', 'roof']
    """
    told = " ".join(text for chapter in chapters for text in chapter.texts())
    rows = tuple((word, said) for word, said in glossary().items() if _stands(word, told))
    return Chapter("Words", (Paragraph(FIRST), Table(COLUMNS, rows)))


def _stands(word: str, text: str) -> bool:
    return re.search(rf"\b{re.escape(word)}(?:e?s)?\b", text, re.IGNORECASE) is not None
