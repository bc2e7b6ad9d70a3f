"""What is told, as content, and a writer for each form: text, JSON, CSV, HTML, PDF.

Content (`Document`, `Section`, `Paragraph`, `Table`, ...) is made in `telling`, a module a subject;
the writers know no subject, and each makes harmless whatever somebody else wrote.
"""

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
    Rows,
    Section,
    Table,
    Told,
    Working,
    Workings,
    ticks,
)
from hivecalc.document.data import csv_text, json_text
from hivecalc.document.text import ACROSS, chapter_lines, document_text, filled

Form: TypeAlias = Literal["text", "json", "csv", "svg", "pdf"]
FORMS: Final[tuple[Form, ...]] = get_args(Form)


def written(
    told: Told, form: Form, *, across: int | None = None, paper: Paper = "a4"
) -> str | bytes:
    r"""What is told, in one form; `across` is how wide a terminal is, `paper` what a PDF is for.

    >>> written(Told(lambda: Document("", ()), lambda: Rows(("a",), [[1]]), dict), "csv")
    'a\n1\n'
    """
    match form:
        case "text":
            return document_text(told.document(), across)
        case "json":
            return json_text(told.data())
        case "csv":
            return csv_text(told.rows())
        case "svg":
            return told.svg()
        case "pdf":
            from hivecalc.document.pdf import document_pdf  # noqa: PLC0415 - only a PDF needs it

            return document_pdf(told.document(), paper)


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
    "Rows",
    "Section",
    "Table",
    "Told",
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
