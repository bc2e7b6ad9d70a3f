"""Two hives side by side: the one of this page, and another whose file lies in the same folder."""

from collections.abc import Mapping
from contextlib import suppress
from html import escape
from pathlib import Path

import ipywidgets

from hivecalc.components import opened_hive
from hivecalc.hive import Hive, HiveFaults
from hivecalc.pages.earlier import found_on
from hivecalc.pages.views import VIEWS
from hivecalc.widgets.field import Area, choice, picture, safely
from hivecalc.widgets.page_hive import PageHive

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
        self.other = choice("Another hive beside this one", names, self.show)
        self.view = choice("Picture", [(name.capitalize(), name) for name in VIEWS], self.show)
        self.shown = Area(max_width="none")
        page_hive.watch(self.show)
        page_hive.answers.watch(self.show)
        super().__init__([ipywidgets.HBox([self.other, self.view]), self.shown])

    def show(self) -> None:
        """Draw both, or nothing where no other hive is chosen."""
        self.shown.tell(safely(self._told)())

    def _told(self) -> str:
        if not self.other.value:
            return ""
        halves = map(self._half, (self.page_hive.hive, self.others[self.other.value]))
        return f'<div style="{ROW}">{"".join(halves)}</div>'

    def _half(self, hive: Hive) -> str:
        """One hive's picture under its name; what is still to be found has a "?" in both."""
        found = found_on(self.page_hive.hive, self.page_hive.answers)
        drawn = picture(VIEWS[self.view.value].to_work_out(hive, found))
        return f'<div style="{HALF}"><p class="hc"><b>{escape(hive.name)}</b></p>{drawn}</div>'
