"""A report in the form that is asked for: as plain text for a terminal, as JSON or as CSV.

In text no length is parted at the end of a line, and what steers a terminal is an escape.
"""

import csv
import io
import json
import re
import textwrap
from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from typing import Final

from hivecalc.document import (
    Block,
    Cell,
    Chapter,
    Document,
    Form,
    Paper,
    Paragraph,
    Picture,
    Report,
    Rows,
    Section,
    Table,
    Tone,
    Workings,
)
from hivecalc.support.faults import escaped

# ── the forms ───────────────────────────────────────────────────────────────────────────────────


def written(
    report: Report, form: Form, *, across: int | None = None, paper: Paper = "a4"
) -> str | bytes:
    """A report in one form; `across` is how wide a terminal is, `paper` what a PDF is for."""
    match form:
        case "text":
            return document_text(report.document(), across)
        case "json":
            return json_text(report.data())
        case "csv":
            return csv_text(report.rows())
        case "svg":
            return report.svg()
        case "pdf":
            from hivecalc.document.page import document_pdf  # noqa: PLC0415 - only a PDF needs it

            return document_pdf(report.document(), paper)


def json_text(document: Mapping[str, object]) -> str:
    r"""JSON object as text that ends a line, in which what cannot be seen is an escape."""
    text = json.dumps(document, ensure_ascii=False, indent=1, allow_nan=False)
    signs = (c if c.isprintable() or c == "\n" else json.dumps(c)[1:-1] for c in text)
    return "".join(signs) + "\n"


def csv_text(table: Rows) -> str:
    """Rows as CSV with their columns in the first one, in which no text is a formula."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(table.columns)
    writer.writerows([_csv_cell(cell) for cell in row] for row in table.rows)
    return text.getvalue()


def _csv_cell(cell: Cell) -> Cell:
    if not isinstance(cell, str):
        return cell
    return escaped(f"'{cell}" if cell.startswith(("=", "+", "-", "@", "\t", "\r")) else cell)


# ── text ────────────────────────────────────────────────────────────────────────────────────────

ACROSS: Final = 80
"""Characters across in text that is made to be read."""

PLAIN: Final = 1000
"""Characters across where no terminal cuts lines."""

SIGNS: Final[dict[Tone, str]] = {
    "plain": "", "note": "  ", "caution": "! ", "right": "✓ ", "wrong": "✗ ",
}  # fmt: skip
CARE: Final = "⚠ "
"""What a caution in a cell of a table begins with."""

GAP: Final = "  "
INSET: Final = "      "
MONEY: Final = {"price": "each ", "cost": "costs ", "left over": "left over "}
"""What a cell says first where it stands without its head above it."""

_IN_ONE_LINE: Final = re.compile(r"(?<=\d) (?=\d+/\d|(?:in|mm|cm|ft|W)\b|[°%])|(?<=≈) ")
_UNBROKEN: Final = "\ue000"
"""Stands for a space that parts no line: neither textwrap nor rich breaks there, and no text has
it, as `escaped` writes what can't be seen."""


def document_text(document: Document, across: int | None = None) -> str:
    """A document as lines of text, its sections parted by an empty line; pictures are left out.

    `across` is how wide a terminal is; without it tables of figures are as wide as they need.
    """
    parts = ("\n".join(_section(section, across)) for section in document.sections)
    first = f"{escaped(document.title)}\n\n" if document.title else ""
    return first + "\n".join(f"{part}\n" for part in parts)


def chapter_lines(chapter: Section, width: int = ACROSS) -> list[str]:
    """The lines of a chapter, so wide at most; its heading is the first."""
    return [line.rstrip() for line in _section(chapter, None, width)]


def _section(section: Section, across: int | None, width: int = ACROSS) -> Iterator[str]:
    chapter = isinstance(section, Chapter)
    if section.heading:
        yield escaped(section.heading)
    if chapter:
        yield from ("=" * len(section.heading), "")
    inner = [line for block in section.blocks for line in _block(block, across, width)]
    yield from (line.rstrip() for line in inner)
    for number, part in enumerate(section.sections):
        lines = list(_section(part, across, width))
        if not chapter:
            yield from ["", *lines] if inner or number else lines
        elif len(lines) > 1:
            yield from ("", lines[0], "-" * len(part.heading), *lines[1:])


def _block(block: Block, across: int | None, width: int) -> Iterator[str]:
    match block:
        case Paragraph():
            sign, lead = SIGNS[block.tone], f"{block.lead} " if block.lead else ""
            yield from filled(f"{lead}{block.text}", width, sign, " " * len(sign))
        case Table():
            yield from _table(block, width)
        case Rows():
            yield from text_table(block, across).splitlines()
        case Workings():
            yield from _workings(block)
        case Picture():
            for line in block.listed:
                yield from filled(line, width, GAP, INSET)


def _workings(block: Workings) -> Iterator[str]:
    for count, step in enumerate(block.steps, 1):
        if count > 1:
            yield ""
        yield from filled(f"{count}. {step.size} = {step.formula}", ACROSS, "", "     ")
        if step.numbers:
            yield f"   = {step.numbers}"
        yield f"   {step.result}"
        yield from filled(step.why, ACROSS, "   ", "   ")


def _table(table: Table, width: int) -> Iterator[str]:
    """The rows under their heads where they fit; else each row's cells one after the other."""
    heads = [column.head for column in table.columns]
    firsts = [[cell.strip().partition("\n")[0] for cell in row] for row in table.rows]
    wide = [max(map(len, cells)) for cells in zip(heads, *firsts, strict=True)]
    inset = partial(filled, across=width, later=INSET)
    if sum(wide) + len(GAP) * len(wide) <= width:
        yield _aligned(heads, wide)
        for row, cells in zip(table.rows, firsts, strict=True):
            yield _aligned(cells, wide)
            for small in (line for cell in row for line in cell.strip().split("\n")[1:]):
                sign = INSET + SIGNS["caution"] if small.startswith(CARE) else INSET
                yield from filled(small.removeprefix(CARE), width, sign, " " * len(sign))
        return
    for row in table.rows:
        first, *more = (
            f"{MONEY.get(head, '')}{cell.strip()}".replace("\n", ": ")
            for head, cell in zip(heads, row, strict=True)
            if cell.strip()
        )
        yield from inset(f"{first}  {' | '.join(more)}", first=GAP)


def _aligned(cells: Sequence[str], wide: Sequence[int]) -> str:
    padded = (escaped(cell).ljust(width) for cell, width in zip(cells, wide, strict=True))
    return GAP + GAP.join(padded)


def text_table(table: Rows, across: int | None = None) -> str:
    """Rows as text; without `across` they are plain and as wide as they need, else for a terminal.

    >>> print(text_table(Rows(("qty", "part"), [[2, "side rail"], [1, "deck"]])), end="")
    qty  part
      2  side rail
      1  deck
    """
    from rich.box import SIMPLE_HEAD  # noqa: PLC0415 - slow to load, and only text needs it
    from rich.console import Console  # noqa: PLC0415 - as above
    from rich.table import Table as Lines  # noqa: PLC0415 - as above
    from rich.text import Text  # noqa: PLC0415 - as above

    lines = Lines(box=SIMPLE_HEAD if across else None, pad_edge=False, padding=(0, 2, 0, 0))
    for column, cell in zip(table.columns, table.rows[0], strict=True):
        lines.add_column(Text(column), justify="left" if isinstance(cell, str) else "right")
    for row in table.rows:
        lines.add_row(*(Text("" if cell is None else _whole(str(cell))) for cell in row))
    drawn, width = across is not None, across or PLAIN
    paper = Console(file=io.StringIO(), force_terminal=drawn, legacy_windows=False, width=width)
    with paper.capture() as capture:
        paper.print(lines)
    printed = capture.get().replace(_UNBROKEN, " ").splitlines()
    return "".join(f"{line.rstrip()}\n" for line in printed)


def filled(text: str, across: int, first: str = "", later: str = "") -> list[str]:
    """A text in lines that are not too wide, none of which parts a length or a hyphened name."""
    lines = textwrap.wrap(
        _whole(text), across,
        initial_indent=first, subsequent_indent=later, break_on_hyphens=False,
    )  # fmt: skip
    return [line.replace(_UNBROKEN, " ") for line in lines]


def _whole(text: str) -> str:
    """A text whose lengths are parted nowhere."""
    return _IN_ONE_LINE.sub(_UNBROKEN, escaped(text))
