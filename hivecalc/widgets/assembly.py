"""The panel of putting together: step by step, turned, and ticked when it is done."""

from collections.abc import Mapping
from typing import Final

import ipywidgets

from hivecalc.assembly import steps
from hivecalc.length import with_unit
from hivecalc.pages import assembly as page
from hivecalc.pages.messages import message
from hivecalc.pages.outcomes import Outcome
from hivecalc.widgets.answering import kept_answer
from hivecalc.widgets.field import LABEL, WIDE, Area, Panel, button
from hivecalc.widgets.in_space import slider
from hivecalc.widgets.page_hive import SharedHive

TURN: Final = 30
STARTS_AT: Final = 4
"""The mark, from the right end of the slider, at which the frame leans at first."""


class Assembly(Panel):
    """The hive growing step by step: what comes in is lit, what is done stands beside it.

    A step is chosen by its buttons or, by arrow keys too, on its slider. A tick is kept with the
    answers, and a page begins at the first step without one.
    """

    def __init__(self, shared: SharedHive) -> None:
        super().__init__()
        self.shared, self.answers, self.work = shared, shared.answers, steps(shared.hive)
        self.far = Area()
        self.step = slider("Step", 1, len(self.work), 1, by=1)
        self.turn = slider("Turn it", -180, 180, TURN)
        self.done = ipywidgets.Checkbox(description="This step is done", indent=False)
        self.step.value = page.step_to_begin_with(self._ticked(), self.work)
        self.step.observe(lambda _: self.show(), names="value")
        self.turn.observe(lambda _: self.show(), names="value")
        self.done.observe(self._tick, names="value")
        shared.watch(self._renew)
        self.show()
        ways = [button("Step back", lambda: self.go(-1)), button("Next step", lambda: self.go(1))]
        row = ipywidgets.Box(ways, layout=ipywidgets.Layout(flex_flow="row wrap"))
        controls = [self.step, row, self.turn, self.message, self.done, self.far]
        self.children = [*controls, self.picture, self.follows]

    def go(self, by: int) -> None:
        """Go so many steps on, or back."""
        self.step.value = min(max(self.step.value + by, self.step.min), self.step.max)

    def show(self) -> None:
        """Show the step that is chosen, turned as it is now, and whether it is done."""
        super().show()
        self._put_tick(page.is_done(self.answers, self._key))
        self.far.tell(self._how_far())

    def outcome(self) -> Outcome:
        """The step that is chosen, as it is turned now."""
        return page.step_told(self.shared.hive, self.work, self.step.value, self.turn.value)

    @property
    def _key(self) -> str:
        number: int = self.step.value
        return self.work[number - 1].key

    def _renew(self) -> None:
        """Show the hive as it is now; it may have more steps or fewer."""
        self.work = steps(self.shared.hive)
        self.step.max = len(self.work)
        self.show()

    # What is done

    def _ticked(self) -> set[str]:
        """The steps that are done, by what was ticked last."""
        return {s.key for s in self.work if page.is_done(self.answers, s.key)}

    def _put_tick(self, done: bool) -> None:  # noqa: FBT001 - what a checkbox has
        self.done.unobserve(self._tick, names="value")
        self.done.value = done
        self.done.observe(self._tick, names="value")

    def _tick(self, change: Mapping[str, bool]) -> None:
        kept = page.step_kept(self._key, done=change["new"])
        fault = kept_answer(self.answers, kept.dimension, kept)
        self.far.tell(fault or self._how_far())

    def _how_far(self) -> str:
        return message("note", f"{len(self._ticked())} of {len(self.work)} steps done.")


class PullSquare(Panel):
    """A frame that leans, a slider that pulls it, and its two diagonals."""

    def __init__(self, shared: SharedHive) -> None:
        super().__init__()
        self.shared = shared
        marks = page.leans(shared.hive.units)
        self.marks = {with_unit(shared.hive.units, abs(m)) + page.side(m): m for m in marks}
        self.message.layout.min_height = "6em"
        self.lean = ipywidgets.SelectionSlider(
            options=list(self.marks),
            value=list(self.marks)[-STARTS_AT],
            description="Pull the back",
            readout=False,
            style=LABEL,
            layout=ipywidgets.Layout(**WIDE),
        )
        self.lean.observe(lambda _: self.show(), names="value")
        shared.watch(self.show)
        self.show()
        self.children = [self.lean, self.message, self.picture]

    def outcome(self) -> Outcome:
        """The frame as far as it leans now."""
        return page.pulled(self.shared.hive, self.marks[self.lean.value])
