"""The content of a report: headings, paragraphs, tables, workings and pictures, and its forms.

Plain frozen values with plain texts in them, made in `reports`, a module a subject. The writers
know these and no subject, and escape what they are given: `text` writes text, JSON and CSV, `page`
HTML and PDF.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import astuple, dataclass
from typing import Final, Literal, TypeAlias, get_args

Paper: TypeAlias = Literal["a4", "letter"]
"""The papers that are printed on."""

Form: TypeAlias = Literal["text", "json", "csv", "svg", "pdf"]
FORMS: Final[tuple[Form, ...]] = get_args(Form)

PictureSize: TypeAlias = Literal["small", "usual", "large", "page"]
Tone: TypeAlias = Literal["plain", "note", "caution", "right", "wrong"]
Cell: TypeAlias = str | int | float | None
Json: TypeAlias = dict[str, object]

SCHEMA: Final = "hivecalc/1"
TICK: Final = "☐"
"""A box to tick, in a cell of a table."""

MOST_TICKS: Final = 12
"""Of more things than that a count is written down: so many boxes are lost count of."""


def ticks(count: int) -> str:
    """A box to tick for each of some things, or room to write how many of many are done."""
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
class Rows:
    """Figures in rows under named columns, as a command or a spreadsheet shows them."""

    columns: tuple[str, ...]
    rows: Sequence[Sequence[Cell]]

    def texts(self) -> Iterator[str]:
        """All that is read of it."""
        yield from self.columns
        yield from ("" if cell is None else str(cell) for row in self.rows for cell in row)


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

    @property
    def result(self) -> str:
        """The value after its sign: one that was rounded has its own."""
        return self.value if self.value.startswith("≈") else f"= {self.value}"


@dataclass(frozen=True)
class Workings:
    """Several sizes worked out, those that others need first."""

    steps: tuple[Working, ...]

    def texts(self) -> Iterator[str]:
        """All that is read of it."""
        yield from (text for step in self.steps for text in astuple(step))


@dataclass(frozen=True)
class Picture:
    """A drawing as SVG, the words under it, all that it shows in words, and the same as a list.

    A large one takes the page for itself, one of the size of a page lies on it; small ones share.
    The list stands in its place where nothing is drawn.
    """

    svg: str
    caption: str
    words: str
    size: PictureSize = "usual"
    listed: tuple[str, ...] = ()

    def texts(self) -> Iterator[str]:
        """All that is read of it."""
        yield from (self.caption, self.words)


Block: TypeAlias = Paragraph | Rows | Table | Workings | Picture


@dataclass(frozen=True)
class Section:
    """A heading, what stands under it, and its own sections."""

    heading: str
    blocks: tuple[Block, ...] = ()
    sections: "tuple[Section, ...]" = ()

    def all_blocks(self) -> Iterator[Block]:
        """Its blocks and those of its sections, in order."""
        yield from self.blocks
        for section in self.sections:
            yield from section.all_blocks()

    def texts(self) -> Iterator[str]:
        """All that is read of it, in order."""
        yield self.heading
        yield from (text for block in self.blocks for text in block.texts())
        for section in self.sections:
            yield from section.texts()


def unheaded(*blocks: Block | str) -> Iterator[Section]:
    """Sections without a heading, each of one block; a text is a paragraph."""
    for block in blocks:
        yield Section("", (Paragraph(block) if isinstance(block, str) else block,))


def notes(heading: str, texts: Iterable[str], *before: Block) -> Section:
    """A section of notes below what stands before them."""
    return Section(heading, (*before, *(Paragraph(text, tone="note") for text in texts)))


@dataclass(frozen=True)
class Chapter(Section):
    """A section that begins a page."""


@dataclass(frozen=True)
class Document:
    """Sections or chapters under a title, which may be empty; a book has a front page too."""

    title: str
    sections: tuple[Section, ...]
    front: tuple[Block, ...] = ()
    made_on: str = ""


@dataclass(frozen=True)
class Report:
    """What is said of one subject, in the forms that can be asked for; made when it is asked for.

    `holds` is whether the answer is yes; it decides a command's exit status.
    """

    document: Callable[[], Document]
    rows: Callable[[], Rows] = lambda: Rows((), ())
    data: Callable[[], Mapping[str, object]] = dict
    svg: Callable[[], str] = str
    holds: bool = True
