"""What goes to paper from a lesson, written beside the hive file: the book, and the templates."""

from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path

import ipywidgets

from hivecalc.book import book, book_html, book_pdf
from hivecalc.book.templates import templates_pdf
from hivecalc.hive import Fault, Hive, HiveFaults, write_whole
from hivecalc.pages.messages import message
from hivecalc.pages.workshop import yard_beside
from hivecalc.paper import Paper
from hivecalc.widgets.field import Area, button, choice, told
from hivecalc.widgets.keeping import Look
from hivecalc.workshop import Yard, demo_yard


def written_book(hive: Hive, beside: Path, paper: Paper) -> tuple[Path, Path]:
    """Write the book of a hive beside its file, as a page and as a PDF, and return both paths.

    Wood is bought at the yard whose file lies there too; what is wrong with that file stands in the
    book. Each file is written whole or not at all. Raises HiveFaults where it can't be written.
    """
    today = date.today().isoformat()  # noqa: DTZ011 - the learner's own day
    made = book(hive, today, *_yard(beside))
    page, printed = (beside.with_name(f"{beside.stem}-book{e}") for e in (".html", ".pdf"))
    write_whole(page, book_html(made, paper))
    write_whole(printed, book_pdf(made, paper))
    return page, printed


def _yard(beside: Path) -> tuple[Yard, tuple[Fault, ...]]:
    """Return the yard beside a hive file, or the invented one and what is wrong with the file."""
    try:
        return yard_beside(beside), ()
    except HiveFaults as error:
        return demo_yard(), error.faults


def written_templates(hive: Hive, beside: Path, paper: Paper) -> tuple[Path]:
    """Write the templates of a hive as a PDF beside its file, whole or not at all; its path.

    Raises HiveFaults where it can't be written.
    """
    printed = beside.with_name(f"{beside.stem}-templates.pdf")
    write_whole(printed, templates_pdf(hive, paper))
    return (printed,)


class Printer(ipywidgets.VBox):
    """A choice of paper, and a button that writes files to print beside the hive file.

    `written` writes them, whole or not at all, and gives their paths; `advice` is said then.
    """

    def __init__(
        self, keeper: Look, name: str, written: Callable[..., Sequence[Path]], *advice: str
    ) -> None:
        self.keeper, self.written, self.advice = keeper, written, advice
        self.said = Area(min_height="4.2em")
        usual = "letter" if keeper.hive.units == "inch" else "a4"
        self.paper = choice("Paper", [("A4", "a4"), ("Letter", "letter")], self._forget, usual)
        super().__init__([self.paper, button(name, self.make), self.said])

    def _forget(self) -> None:
        self.said.tell("")

    def make(self) -> None:
        """Write the files; a line stands there until that is done."""
        self.said.tell(message("note", "Working: it is written in a moment."))
        self.said.tell(told(self._made)())

    def _made(self) -> str:
        paths = self.written(self.keeper.hive, self.keeper.path, self.paper.value)
        return message("right", *(f"Written: {path.name}" for path in paths), *self.advice)
