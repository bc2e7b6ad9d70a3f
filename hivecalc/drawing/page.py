"""A page of headings, words and pictures, for a file that is opened by itself."""

from collections.abc import Iterable
from itertools import islice
from typing import Final

from hivecalc.drawing.layout import ASCENT, LETTER, LINE
from hivecalc.drawing.svg import BOLD, MARGIN, OUTLINE, WIDTH, Pasted, Sheet

BETWEEN: Final = 24.0
"""Room between two pictures that hang side by side."""

INDENT: Final = 14.0  # of a caution behind its mark


class Page:
    """A page that is filled from the top; all that stands on it is its description in words.

    >>> page = Page()
    >>> page.write("Two boards.")
    >>> page.file("Boards").count("Two boards.")
    2

    So many pictures as `abreast` says hang side by side.
    """

    def __init__(self, abreast: int = 2) -> None:
        self._places = [n * (WIDTH + BETWEEN) for n in range(abreast)]
        self._right = self._places[-1] + WIDTH - MARGIN
        self._sheet = Sheet(self._right + MARGIN)
        self._bottom = MARGIN
        self._words: list[str] = []

    def begin(self, heading: str) -> None:
        """Write a heading across the page, below a line that ends what is there."""
        if self._words:
            self._bottom += LINE
            self._sheet.line((MARGIN, self._bottom), (self._right, self._bottom), OUTLINE)
            self._bottom += MARGIN
        self._words.append(f"{heading}.")
        self._bottom = self._sheet.paragraph(heading, self._bottom, bold=True)

    def write(self, *paragraphs: str) -> None:
        """Write paragraphs across the page."""
        for text in paragraphs:
            self._words.append(text)
            self._bottom = self._sheet.paragraph(text, self._bottom)

    def warn(self, cautions: Iterable[str]) -> None:
        """Write cautions across the page, each with a mark before it."""
        for text in cautions:
            self._words.append(text)
            self._sheet.text("!", (MARGIN, self._bottom + ASCENT * LETTER), hand=BOLD)
            self._bottom = self._sheet.paragraph(text, self._bottom, left=MARGIN + INDENT)

    def hang(self, pictures: Iterable[str]) -> None:
        """Hang pictures below what is there, side by side, to be read row by row."""
        left = iter(pictures)
        while row := list(islice(left, len(self._places))):
            top = self._bottom
            placed = zip(row, self._places, strict=False)
            pasted = [self._sheet.paste(picture, place, top) for picture, place in placed]
            self._words += map(_told, pasted)
            self._bottom = max(each.bottom for each in pasted)

    def picture(self) -> str:
        """The page as the text of an SVG picture, for a place on another page."""
        title, words = self._words[0], " ".join(self._words)
        return self._sheet.picture(title, words, self._bottom + MARGIN, 1.0)

    def file(self, title: str) -> str:
        """The page as the text of an SVG file."""
        return self._sheet.file(title, " ".join(self._words), self._bottom + MARGIN)


def _told(pasted: Pasted) -> str:
    """Return what a picture shows in words, its name first."""
    title, words = pasted.title, pasted.description
    return words if words.startswith(title) else f"{title}. {words}"
