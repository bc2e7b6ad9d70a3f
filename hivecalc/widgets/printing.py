"""What goes to paper from a lesson, written beside the hive file: the book, and the templates."""

import os
from collections.abc import Callable, Iterator
from datetime import date
from html import escape
from pathlib import Path
from typing import TypeAlias
from urllib.parse import quote

import ipywidgets

from hivecalc.document import Paper
from hivecalc.hive import Fault, Hive, HiveFaults, write_whole
from hivecalc.length import Units
from hivecalc.pages.contents import LINK
from hivecalc.pages.messages import message
from hivecalc.reports.sizes import usual_paper
from hivecalc.widgets.field import Area, button, choice, safely
from hivecalc.widgets.page_hive import SharedHive
from hivecalc.workshop import Yard, demo_yard, yard_beside

Steps: TypeAlias = Iterator[str | Path]
"""What is done next, in words, and each file once it is written."""


def book_steps(hive: Hive, beside: Path, paper: Paper) -> Steps:
    """Write the book of a hive beside its file, as a page and as a PDF, each whole or not at all.

    Wood is bought at the yard whose file lies there too; what is wrong with that file stands in the
    book. Raises HiveFaults where it can't be written.
    """
    from hivecalc.reports.book import book, written_book  # noqa: PLC0415 - slow to load

    yield "working it out and drawing it, 1 of 3"
    today = date.today().isoformat()  # noqa: DTZ011 - the learner's own day
    made = book(hive, today, *_yard(beside, hive.units))
    for number, (end, what) in enumerate(((".html", "the page"), (".pdf", "the PDF")), 2):
        yield f"{what}, {number} of 3"
        path = beside.with_name(f"{beside.stem}-book{end}")
        write_whole(path, written_book(made, path, paper))
        yield path


def _yard(beside: Path, units: Units) -> tuple[Yard, tuple[Fault, ...]]:
    """The yard beside a hive file, or the invented one and what is wrong with the file."""
    try:
        return yard_beside(beside, units), ()
    except HiveFaults as error:
        return demo_yard(units), error.faults


def template_steps(hive: Hive, beside: Path, paper: Paper) -> Steps:
    """Write the templates of a hive as a PDF beside its file, whole or not at all.

    Raises HiveFaults where it can't be written.
    """
    from hivecalc.workshop.templates import templates_pdf  # noqa: PLC0415 - slow to load

    yield "drawing them at full size"
    path = beside.with_name(f"{beside.stem}-templates.pdf")
    write_whole(path, templates_pdf(hive, paper))
    yield path


def file_link(path: Path) -> str:
    """A link that opens a file of the course folder in a tab of its own; else its name.

    Jupyter tells the page's own path in the variable JPY_SESSION_NAME: two folders above it begins
    what its server gives out.
    """
    page, name = os.environ.get("JPY_SESSION_NAME", ""), escape(path.name)
    try:
        within = path.resolve().relative_to(Path(page).resolve().parents[1]) if page else None
    except (ValueError, IndexError):
        within = None
    if within is None:
        return name
    address = f"/files/{quote(within.as_posix())}"
    return f'<a href="{address}" target="_blank" style="{LINK}">Open {name}</a>'


class Printer(ipywidgets.VBox):
    """A choice of paper, and a button that writes files to print beside the hive file.

    `steps` writes them and says what it does; `advice` is said when all are written.
    """

    def __init__(
        self,
        page_hive: SharedHive,
        name: str,
        steps: Callable[[Hive, Path, Paper], Steps],
        *advice: str,
    ) -> None:
        self.page_hive, self.steps, self.advice = page_hive, steps, advice
        self.said = Area(min_height="4.2em")
        usual = usual_paper(page_hive.hive.units)
        self.paper = choice("Paper", [("A4", "a4"), ("Letter", "letter")], self._forget, usual)
        super().__init__([self.paper, button(name, self.make), self.said])

    def _forget(self) -> None:
        self.said.tell("")

    def make(self) -> None:
        """Write the files; a line says what is being done until they are there."""
        self.said.tell(safely(self._made)())

    def _made(self) -> str:
        paths = []
        for step in self.steps(self.page_hive.hive, self.page_hive.path, self.paper.value):
            if isinstance(step, Path):
                paths.append(step)
            else:
                self.said.tell(message("note", f"Working: {step} …"))
        links = "".join(f'<p class="hc">{file_link(path)}</p>' for path in paths)
        written = (f"Written: {path.name}" for path in paths)
        return message("right", *written, *self.advice) + links
