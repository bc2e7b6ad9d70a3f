"""The three forms of a table: text, CSV and JSON, in which nothing a builder wrote does harm.

A character that steers a terminal is written as an escape, and no CSV cell is taken for a formula.
"""

import csv
import io
import json
import re
import textwrap
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, TypeAlias

from hivecalc.support.faults import escaped

if TYPE_CHECKING:  # slow to load
    from rich.table import Table as Lines

SCHEMA: Final = "hivecalc/1"
ACROSS: Final = 80
"""Characters across in text that is made to be read."""

PLAIN: Final = 1000  # characters across where no terminal cuts lines
_IN_ONE_LINE: Final = re.compile(r"(?<=\d) (?=\d+/\d|(?:in|mm|cm|ft|W)\b|[°%])|(?<=≈) ")
_UNBROKEN: Final = "\N{NO-BREAK SPACE}"
Cell: TypeAlias = str | int | float | None
Json: TypeAlias = dict[str, object]


@dataclass(frozen=True)
class Table:
    """Rows of cells under named columns."""

    columns: tuple[str, ...]
    rows: Sequence[Sequence[Cell]]


def json_text(document: Mapping[str, object]) -> str:
    r"""JSON object as text that ends a line, in which what cannot be seen is an escape.

    >>> print(json_text({"name": "Bär \x9b"}), end="")
    {
     "name": "Bär \u009b"
    }
    """
    text = json.dumps(document, ensure_ascii=False, indent=1, allow_nan=False)
    signs = (c if c.isprintable() or c == "\n" else json.dumps(c)[1:-1] for c in text)
    return "".join(signs) + "\n"


def csv_text(table: Table) -> str:
    """Table as CSV with its columns in the first row, in which no text is a formula.

    >>> print(csv_text(Table(("name", "mm"), [["=1+1", -2.5], ["deck", None]])), end="")
    name,mm
    '=1+1,-2.5
    deck,
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(table.columns)
    writer.writerows([_csv_cell(cell) for cell in row] for row in table.rows)
    return text.getvalue()


def _csv_cell(cell: Cell) -> Cell:
    if not isinstance(cell, str):
        return cell
    return escaped(f"'{cell}" if cell.startswith(("=", "+", "-", "@", "\t", "\r")) else cell)


def text_table(table: Table, across: int | None = None) -> str:
    """Table as text; without `across` it is plain and as wide as it needs, else for a terminal.

    >>> print(text_table(Table(("qty", "part"), [[2, "side rail"], [1, "deck"]])), end="")
    qty  part
      2  side rail
      1  deck
    """
    from rich.console import Console  # noqa: PLC0415 - slow to load, and only text needs it

    drawn, width = across is not None, across or PLAIN
    paper = Console(file=io.StringIO(), force_terminal=drawn, legacy_windows=False, width=width)
    with paper.capture() as capture:
        paper.print(_lines(table, across))
    return "".join(f"{line.rstrip()}\n" for line in capture.get().splitlines())


def _lines(table: Table, across: int | None) -> "Lines":
    """Return a table as rich prints it; numbers stand to the right."""
    from rich.box import SIMPLE_HEAD  # noqa: PLC0415 - slow to load, and only text needs it
    from rich.table import Table as Lines  # noqa: PLC0415
    from rich.text import Text  # noqa: PLC0415

    lines = Lines(box=SIMPLE_HEAD if across else None, pad_edge=False, padding=(0, 2, 0, 0))
    for column, cell in zip(table.columns, table.rows[0], strict=True):
        lines.add_column(Text(column), justify="left" if isinstance(cell, str) else "right")
    for row in table.rows:
        lines.add_row(*(Text("" if cell is None else escaped(str(cell))) for cell in row))
    return lines


def wrapped(text: str, indent: str = "", later: str | None = None) -> str:
    """Text in lines that are not too wide to read; `later` is what the second and later begin with.

    >>> print(wrapped("wood " * 17, "1. ", "   "))
    1. wood wood wood wood wood wood wood wood wood wood wood wood wood wood wood
       wood wood

    A whole number and its fraction, a number and its unit stay on one line.
    """
    return "\n".join(filled(text, ACROSS, indent, indent if later is None else later))


def filled(text: str, across: int, first: str = "", later: str = "") -> list[str]:
    """A text in lines that are not too wide, none of which parts a length or a name with hyphens.

    >>> filled("it is 3 1/2 in", 10)
    ['it is', '3 1/2 in']
    """
    lines = textwrap.wrap(
        _IN_ONE_LINE.sub(_UNBROKEN, text), across,
        initial_indent=first, subsequent_indent=later, break_on_hyphens=False,
    )  # fmt: skip
    return [line.replace(_UNBROKEN, " ") for line in lines]
