"""Where a learner stands: the table of contents behind a button, and what the answers show."""

import os
from collections.abc import Callable, Mapping
from datetime import datetime
from pathlib import PurePath

import ipywidgets

from hivecalc.answers import Answers
from hivecalc.course_folder import worked_in
from hivecalc.length import Units
from hivecalc.widgets.field import Area, button, safely
from hivecalc.widgets.page_hive import PageHive

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
        self.shown = Area()
        self._show()
        page_hive.answers.watch(self._show)
        page_hive.watch(self._show)
        super().__init__([self.button, self.shown])

    def turn(self) -> None:
        """Show the table if it is away, and put it away if it is shown."""
        self.button.description = CLOSE if self.button.description == SHOW else SHOW
        self._show()

    def _show(self) -> None:
        self.shown.tell(safely(self._told)())

    def _told(self) -> str:
        shown = self.button.description == CLOSE
        if not shown and next(iter(worked_in(self.folder)), self.page) == self.page:
            return ""  # nothing is to be told, and nothing need be loaded for it
        from hivecalc.pages.contents import contents, way_on  # noqa: PLC0415
        from hivecalc.pages.earlier import right_by_now  # noqa: PLC0415

        answers, hive = self.page_hive.answers, self.page_hive.hive
        on = way_on(self.folder, self.page, right_by_now(answers.all(), hive))
        return on + (contents(answers, hive, self.folder, self.page) if shown else "")


class Practice(Area):
    """Exercises to practise with, and which of them are done: told anew after each answer."""

    def __init__(self, page_hive: PageHive, listed: Callable[[Mapping[str, bool]], str]) -> None:
        super().__init__()
        self.page_hive, self.listed = page_hive, listed
        self.show()
        page_hive.answers.watch(self.show)

    def show(self) -> None:
        """Tell what is done by now."""
        right = {a.asked: a.right for a in self.page_hive.answers.all()}
        self.tell(safely(self.listed)(right))


class Learned(Area):
    """What the learner's answers show, and what to practise next: counted anew after each one."""

    def __init__(self, answers: Answers, units: Units = "inch") -> None:
        super().__init__()
        self.answers, self.units = answers, units
        self.show()
        answers.watch(self.show)

    def show(self) -> None:
        """Show what the answers show by now."""
        today = datetime.now().astimezone().date()
        from hivecalc.pages.progress import learned  # noqa: PLC0415 - few lessons show it

        self.tell(safely(learned)(self.answers, today, self.units))
