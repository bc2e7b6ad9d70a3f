"""The panels of shop and saw: a number of hives, and a button that writes the templates."""

from collections.abc import Callable

import ipywidgets

from hivecalc.pages.messages import message
from hivecalc.pages.outcomes import Outcome
from hivecalc.widgets.field import Area, Field, picture, told
from hivecalc.widgets.keeping import Look

WORKING = message("note", "Working out what to buy …")


class HowMany(ipywidgets.VBox):
    """A field for the number of hives, and what it leads to; a line stands there until then."""

    def __init__(self, keeper: Look, outcome: Callable[..., Outcome]) -> None:
        self.keeper, self.outcome = keeper, outcome
        self.picture, self.follows = Area(), Area()
        self.field = Field(
            "How many hives", lambda: "1", self._answer, blanks=(self.picture, self.follows)
        )
        self.spare = Field("Boards to spare, in percent", lambda: "5", self._again)
        self._show()
        keeper.watch(self._show)
        super().__init__([self.field, self.spare, self.picture, self.follows])

    def _show(self) -> None:
        self.field.message.tell(told(self._answer)(self.field.box.value))

    def _again(self, _text: str) -> str:
        self._show()
        return ""

    def _answer(self, text: str) -> str:
        self.field.message.tell(WORKING)
        found = self.outcome(self.keeper.hive, text, self.spare.box.value)
        self.picture.tell(picture(found.picture))
        self.follows.tell(found.follows)
        return found.message
