"""What is told, as content, and a writer for each form: text, JSON, CSV, HTML, PDF.

Content (`Document`, `Section`, `Paragraph`, `Table`, ...) is made in `reports`, a module a subject;
the writers know no subject, and each makes harmless whatever somebody else wrote.
"""

import csv
import io
import json
from collections.abc import Mapping
from typing import Final, Literal, TypeAlias, get_args

from hivecalc.document.content import (
    SCHEMA,
    TICK,
    Block,
    Cell,
    Chapter,
    Column,
    Document,
    Json,
    Paper,
    Paragraph,
    Picture,
    Report,
    Rows,
    Section,
    Table,
    Working,
    Workings,
    ticks,
)
from hivecalc.document.text import ACROSS, chapter_lines, document_text, filled
from hivecalc.support.faults import escaped

Form: TypeAlias = Literal["text", "json", "csv", "svg", "pdf"]
FORMS: Final[tuple[Form, ...]] = get_args(Form)


def written(
    report: Report, form: Form, *, across: int | None = None, paper: Paper = "a4"
) -> str | bytes:
    r"""A report in one form; `across` is how wide a terminal is, `paper` what a PDF is for.

    >>> written(Report(lambda: Document("", ()), lambda: Rows(("a",), [[1]]), dict), "csv")
    'a\n1\n'
    """
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
            from hivecalc.document.pdf import document_pdf  # noqa: PLC0415 - only a PDF needs it

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


__all__ = [
    "ACROSS",
    "FORMS",
    "SCHEMA",
    "TICK",
    "Block",
    "Cell",
    "Chapter",
    "Column",
    "Document",
    "Form",
    "Json",
    "Paper",
    "Paragraph",
    "Picture",
    "Report",
    "Rows",
    "Section",
    "Table",
    "Working",
    "Workings",
    "chapter_lines",
    "csv_text",
    "document_text",
    "filled",
    "json_text",
    "ticks",
    "written",
]
