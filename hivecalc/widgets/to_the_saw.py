"""The panels of shop and saw: a number of hives, and a button that writes the templates."""

from collections.abc import Callable

import ipywidgets

from hivecalc.pages.messages import message
from hivecalc.pages.outcomes import Outcome
from hivecalc.pages.to_the_saw.saw import written_templates
from hivecalc.widgets.field import Area, Field, button, choice, picture, told
from hivecalc.widgets.keeping import Keeper


class HowMany(ipywidgets.VBox):
    """A field for the number of hives, and what it leads to."""

    def __init__(self, keeper: Keeper, outcome: Callable[..., Outcome]) -> None:
        self.keeper, self.outcome = keeper, outcome
        self.picture, self.follows = Area(), Area()
        self.field = Field("How many hives", "1", self._answer)
        self._show()
        keeper.watch(self._show)
        super().__init__([self.field, self.picture, self.follows])

    def _show(self) -> None:
        self.field.message.tell(told(self._answer)(self.field.box.value))

    def _answer(self, text: str) -> str:
        found = self.outcome(self.keeper.hive, text)
        self.picture.tell(picture(found.picture))
        self.follows.tell(found.follows)
        return found.message


class TemplateMaker(ipywidgets.VBox):
    """A choice of paper, and a button that writes the templates beside the hive file."""

    def __init__(self, keeper: Keeper) -> None:
        self.keeper = keeper
        self.said = Area(min_height="4.2em")
        self.paper = choice("Paper", [("A4", "a4"), ("Letter", "letter")], self._forget)
        super().__init__([self.paper, button("Make the templates", self.make), self.said])

    def _forget(self) -> None:
        self.said.tell("")

    def make(self) -> None:
        """Write the PDF, whole or not at all."""
        self.said.tell(told(self._made)())

    def _made(self) -> str:
        keeper = self.keeper
        made = written_templates(keeper.hive, keeper.path, self.paper.value)
        return message("right", f"Written: {made.name}", "Print it at 100 %, and check its ruler.")
