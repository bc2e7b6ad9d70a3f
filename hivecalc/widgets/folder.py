"""The course folder from a page: how far the learner is, other hives in it, files to print."""

import os
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from datetime import date
from functools import partial
from html import escape
from pathlib import Path, PurePath
from typing import TypeAlias
from urllib.parse import quote

import ipywidgets

from hivecalc.components import opened_hive
from hivecalc.course_folder import worked_in
from hivecalc.document import Paper
from hivecalc.hive import Fault, Hive, HiveFaults, write_whole
from hivecalc.length import Units
from hivecalc.pages.contents import LINK, contents, found_on, right_by_now, way_on
from hivecalc.pages.messages import message, picture
from hivecalc.pages.views import VIEWS
from hivecalc.reports.sizes import usual_paper
from hivecalc.widgets.field import Area, button, choice
from hivecalc.widgets.page_hive import PageHive, SharedHive
from hivecalc.workshop import Yard, demo_yard, yard_beside

SHOW, CLOSE = "Contents", "Close the contents"


def this_page() -> str:
    """The notebook that this is, by its name in the course folder; empty outside of Jupyter.

    Jupyter tells it to a kernel in the variable JPY_SESSION_NAME, as a path.
    """
    return "/".join(PurePath(os.environ.get("JPY_SESSION_NAME", "")).parts[-2:])


class Contents(ipywidgets.VBox):
    """A button that shows the table of contents as things stand, and puts it away again.

    While it is away, the way to where the learner left off stands in its place.
    """

    def __init__(self, page_hive: PageHive) -> None:
        self.page_hive, self.folder, self.page = page_hive, page_hive.path.parent, this_page()
        self.button = button(SHOW, self.turn)
        self.button.add_class("hc-contents-button")
        self.shown = Area().follow(self._text, page_hive.answers, page_hive)
        super().__init__([self.button, self.shown])

    def turn(self) -> None:
        """Show the table if it is away, and put it away if it is shown."""
        self.button.description = CLOSE if self.button.description == SHOW else SHOW
        self.shown.show(self._text)

    def _text(self) -> str:
        shown = self.button.description == CLOSE
        if not shown and next(iter(worked_in(self.folder)), self.page) == self.page:
            return ""
        answers, hive = self.page_hive.answers, self.page_hive.hive
        on = way_on(self.folder, self.page, right_by_now(answers.all(), hive))
        return on + (contents(answers, hive, self.folder, self.page) if shown else "")


# ── two hives side by side ────────────────────────────────────────────────────────────────────

ROW, HALF = "display:flex;flex-wrap:wrap;gap:1em", "flex:1 1 18em;min-width:0"


def other_hives(own: Path) -> dict[str, Hive]:
    """The hives whose files lie beside a hive file, by the files' names; damaged ones left out."""
    found = {}
    for path in sorted(own.parent.glob("*.toml")):
        with suppress(HiveFaults):
            if path != own:
                found[path.name] = opened_hive(path)
    return found


class TwoHives(ipywidgets.VBox):
    """A choice of another hive and of a picture, which is then drawn of both."""

    def __init__(self, page_hive: PageHive, others: Mapping[str, Hive]) -> None:
        self.page_hive, self.others = page_hive, others
        names = [("none", ""), *((f"{hive.name} ({n})", n) for n, hive in others.items())]
        self.shown = Area(max_width="none")
        show = partial(self.shown.show, self._text)
        self.other = choice("Another hive beside this one", names, show)
        self.view = choice("Picture", [(name.capitalize(), name) for name in VIEWS], show)
        self.shown.follow(self._text, page_hive, page_hive.answers)
        super().__init__([ipywidgets.HBox([self.other, self.view]), self.shown])

    def _text(self) -> str:
        """Both, or nothing where no other hive is chosen."""
        if not self.other.value:
            return ""
        halves = map(self._half, (self.page_hive.hive, self.others[self.other.value]))
        return f'<div style="{ROW}">{"".join(halves)}</div>'

    def _half(self, hive: Hive) -> str:
        """One hive's picture under its name; what is still to be found has a "?" in both."""
        found = found_on(self.page_hive.hive, self.page_hive.answers)
        drawn = picture(VIEWS[self.view.value].to_work_out(hive, found))
        return f'<div style="{HALF}"><p class="hc"><b>{escape(hive.name)}</b></p>{drawn}</div>'


# ── files to print ────────────────────────────────────────────────────────────────────────────

Steps: TypeAlias = Iterator[str | Path]
"""What is done next, in words, and each file once it is written."""


def book_steps(hive: Hive, beside: Path, paper: Paper) -> Steps:
    """Write the book of a hive beside its file, as a page and as a PDF, each whole or not at all.

    Wood is bought at the yard whose file lies there too; what is wrong with that file stands in the
    book. Raises HiveFaults where it can't be written.
    """
    from hivecalc.reports.book import book, book_paths, written_book  # noqa: PLC0415 - slow to load

    yield "working it out and drawing it, 1 of 3"
    today = date.today().isoformat()  # noqa: DTZ011 - the learner's own day
    made = book(hive, today, *_yard(beside, hive.units))
    for path, step in zip(book_paths(beside), ("the page, 2 of 3", "the PDF, 3 of 3"), strict=True):
        yield step
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
    with suppress(ValueError, IndexError):
        within = path.resolve().relative_to(Path(page).resolve().parents[1]) if page else None
        if within:
            address = f"/files/{quote(within.as_posix())}"
            return f'<a href="{address}" target="_blank" style="{LINK}">Open {name}</a>'
    return name


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
        papers, forget = [("A4", "a4"), ("Letter", "letter")], partial(self.said.tell, "")
        self.paper = choice("Paper", papers, forget, usual)
        super().__init__([self.paper, button(name, self.make), self.said])

    def make(self) -> None:
        """Write the files; a line says what is being done until they are there."""
        self.said.show(self._made)

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
