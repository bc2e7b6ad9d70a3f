"""What is told, for other programs: JSON and CSV, in which nothing a builder wrote does harm.

A character that can't be seen is written as an escape, and no CSV cell is taken for a formula.
"""

import csv
import io
import json
from collections.abc import Mapping

from hivecalc.document.content import Cell, Rows
from hivecalc.support.faults import escaped


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
