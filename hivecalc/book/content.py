"""What a hive book is made of: chapters of headings, paragraphs, tables, workings and pictures.

Plain frozen values with plain texts in them: no markup, which is each writer's own business.
"""

from collections.abc import Iterator
from dataclasses import astuple, dataclass
from typing import Final, Literal, TypeAlias

PictureSize: TypeAlias = Literal["small", "usual", "large", "page"]
Tone: TypeAlias = Literal["plain", "caution", "right", "wrong"]

TICK = "☐"
"""A box to tick, in a cell of a table."""

MOST_TICKS: Final = 12
"""Of more things than that a count is written down: so many boxes are lost count of."""


def ticks(count: int) -> str:
    """A box to tick for each of some things, or room to write how many of many are done.

    >>> ticks(3), ticks(154)
    ('☐ ☐ ☐', '____ of 154')
    """
    return " ".join([TICK] * count) if count <= MOST_TICKS else f"____ of {count:,}"


@dataclass(frozen=True)
class Paragraph:
    """A few sentences, in bold a word or two that they begin with, and how they are meant."""

    text: str
    lead: str = ""
    tone: Tone = "plain"

    def texts(self) -> Iterator[str]:
        """All that is read of it."""
        yield from (self.lead, self.text)


@dataclass(frozen=True)
class Column:
    """A column of a table: its head, its share of the width, and whether its cells are bold."""

    head: str
    share: float
    bold: bool = False


@dataclass(frozen=True)
class Table:
    """Rows of cells under columns; a cell's first line counts, the lines below it are small.

    A table to write in has rows that a carpenter's pencil finds room in. On paper so many rows as
    `abreast` says stand side by side.
    """

    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    to_write_in: bool = False
    abreast: int = 1

    def texts(self) -> Iterator[str]:
        """All that is read of it."""
        yield from (column.head for column in self.columns)
        yield from (cell for row in self.rows for cell in row)


@dataclass(frozen=True)
class Working:
    """How one size comes out: the formula, the same with numbers, the value, and the reason.

    Numbers are empty where nothing is to be worked out, and so is the tape's reading where it is
    the value itself.
    """

    size: str
    formula: str
    numbers: str
    value: str
    on_tape: str
    why: str


@dataclass(frozen=True)
class Workings:
    """Several sizes worked out, those that others need first."""

    steps: tuple[Working, ...]

    def texts(self) -> Iterator[str]:
        """All that is read of it."""
        yield from (text for step in self.steps for text in astuple(step))


@dataclass(frozen=True)
class Picture:
    """A drawing as SVG, the words under it, and all that it shows in words.

    A large one takes the page for itself, one of the size of a page lies on it; small ones share.
    """

    svg: str
    caption: str
    words: str
    size: PictureSize = "usual"

    def texts(self) -> Iterator[str]:
        """All that is read of it."""
        yield from (self.caption, self.words)


Block: TypeAlias = Paragraph | Table | Workings | Picture


@dataclass(frozen=True)
class Section:
    """A heading and what stands under it."""

    heading: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True)
class Chapter:
    """A heading that begins a page, what stands under it, and its sections."""

    heading: str
    blocks: tuple[Block, ...]
    sections: tuple[Section, ...] = ()

    def texts(self) -> Iterator[str]:
        """All that is read of it, in order."""
        for part in (Section(self.heading, self.blocks), *self.sections):
            yield part.heading
            yield from (text for block in part.blocks for text in block.texts())


@dataclass(frozen=True)
class Book:
    """The book of one hive: its name, the date it was made on, its title page and chapters."""

    name: str
    made_on: str
    front: tuple[Block, ...]
    chapters: tuple[Chapter, ...]
