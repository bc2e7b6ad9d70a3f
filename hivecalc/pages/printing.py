"""What goes to paper from a lesson, written beside the hive file: the book, and the templates."""

from datetime import date
from pathlib import Path

from hivecalc.book import book, book_html, book_pdf
from hivecalc.book.content import Paper
from hivecalc.book.templates import templates_pdf
from hivecalc.hive import Hive, write_whole


def written_book(hive: Hive, beside: Path, paper: Paper) -> tuple[Path, Path]:
    """Write the book of a hive beside its file, as a page and as a PDF, and return both paths.

    Each file is written whole or not at all. Raises HiveFaults where it can't be written.
    """
    made = book(hive, made_on=date.today().isoformat())  # noqa: DTZ011 - the learner's own day
    page, printed = (beside.with_name(f"{beside.stem}-book{e}") for e in (".html", ".pdf"))
    write_whole(page, book_html(made, paper))
    write_whole(printed, book_pdf(made, paper))
    return page, printed


def written_templates(hive: Hive, beside: Path, paper: Paper) -> tuple[Path]:
    """Write the templates of a hive as a PDF beside its file, whole or not at all; its path.

    Raises HiveFaults where it can't be written.
    """
    printed = beside.with_name(f"{beside.stem}-templates.pdf")
    write_whole(printed, templates_pdf(hive, paper))
    return (printed,)
