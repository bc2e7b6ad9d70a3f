"""What sliders turn: the hive in space, its putting together step by step, a frame that leans."""

from collections.abc import Callable, Mapping
from typing import Final

import ipywidgets

from hivecalc.assembly import steps
from hivecalc.length import with_unit
from hivecalc.pages import assembly
from hivecalc.pages.messages import Outcome, message
from hivecalc.pages.views import Viewpoint, parts_to_light, still_asked, to_look_at, turned
from hivecalc.widgets.answering import kept_answer
from hivecalc.widgets.field import LABEL, WIDE, Area, Panel, button, choice, unheard
from hivecalc.widgets.page_hive import SharedHive


class InSpace(Panel):
    """Some components in space, as they are turned, taken apart and lit; the whole hive if none."""

    def __init__(self, shared: SharedHive, *components: str) -> None:
        super().__init__(shared)
        self.components = components
        self.asked: frozenset[str] = frozenset()
        self.turn = slider("Turn it", -180, 180, Viewpoint.turn, self.show)
        self.apart = slider("Take it apart", 0, 100, Viewpoint.opened, self.show)
        self.lit = choice("Light up", self._options(), self.show)
        self.message.layout.min_height = "6em"
        self.picture.layout = ipywidgets.Layout(
            flex="3 1 21em", max_width="34em", width="auto", height="auto"
        )
        self._renew()
        shared.watch(self._renew)
        shared.answers.watch(self._learned)
        controls = [self.turn, self.apart, self.lit, self.message]
        left = ipywidgets.Layout(
            flex="1 1 15em", max_width="22em", width="auto", margin="0 12px 0 0"
        )
        self.children = [ipywidgets.VBox(controls, layout=left), self.picture]
        self.layout = ipywidgets.Layout(
            flex_flow="row wrap", align_items="flex-start", width="100%"
        )

    def _seen(self) -> tuple[str, ...]:
        return to_look_at(self.shared.hive, self.components)

    def _options(self) -> list[tuple[str, str]]:
        return [("nothing", ""), *parts_to_light(self.shared.hive, self._seen())]

    def _renew(self) -> None:
        """Offer the parts of the hive as it is now, and show it."""
        options, lit = self._options(), self.lit.value
        if options != list(self.lit.options):
            self.lit.options = options
            self.lit.value = lit if lit in dict(options).values() else ""
        self._learned()

    def _learned(self) -> None:
        """Show it with what has been found until now."""
        self.asked = still_asked(self.shared.hive, self.shared.answers)
        self.show()

    def outcome(self) -> Outcome:
        """What is seen as it is turned, taken apart and lit now."""
        seen = Viewpoint(self.turn.value, self.apart.value, self.lit.value)
        return turned(self.shared.hive, self.asked, self._seen(), seen)


def slider(  # noqa: PLR0913, PLR0917 - as many as a slider has
    label: str, low: int, high: int, value: int, moved: Callable[[], None], by: int = 5
) -> ipywidgets.IntSlider:
    """A slider that answers while it moves."""
    made = ipywidgets.IntSlider(
        value=value, min=low, max=high, step=by, description=label, readout=False, style=LABEL,
        layout=ipywidgets.Layout(width="auto", flex_flow="row wrap"),
    )  # fmt: skip
    made.observe(lambda _: moved(), names="value")
    return made


# ── putting together ──────────────────────────────────────────────────────────────────────────

STARTS_AT: Final = 4
"""The mark, from the right end of the slider, at which the frame leans at first."""


class Assembly(Panel):
    """The hive growing step by step: what comes in is lit, what is done stands beside it.

    A step is chosen by its buttons or, by arrow keys too, on its slider. A tick is kept with the
    answers, and a page begins at the first step without one.
    """

    def __init__(self, shared: SharedHive) -> None:
        super().__init__(shared)
        self.answers, self.work = shared.answers, steps(shared.hive)
        begin = assembly.step_to_begin_with(assembly.ticked(self.answers, self.work), self.work)
        self.step = slider("Step", 1, len(self.work), begin, self.show, by=1)
        self.turn = slider("Turn it", -180, 180, Viewpoint.turn, self.show)
        self.done = ipywidgets.Checkbox(description="This step is done", indent=False)
        self.done.observe(self._tick, names="value")
        self.far = Area()
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
        with unheard(self.done, self._tick):
            self.done.value = self._key in assembly.ticked(self.answers, self.work)
        self.far.tell(self._how_far())

    def outcome(self) -> Outcome:
        """The step that is chosen, as it is turned now."""
        return assembly.step_outcome(self.shared.hive, self.work, self.step.value, self.turn.value)

    @property
    def _key(self) -> str:
        number: int = self.step.value
        return self.work[number - 1].key

    def _renew(self) -> None:
        """Show the hive as it is now; it may have more steps or fewer."""
        self.work = steps(self.shared.hive)
        self.step.max = len(self.work)
        self.show()

    def _tick(self, change: Mapping[str, bool]) -> None:
        kept = assembly.step_kept(self._key, done=change["new"])
        fault = kept_answer(self.answers, kept.dimension, kept)
        self.far.tell(fault or self._how_far())

    def _how_far(self) -> str:
        done = assembly.ticked(self.answers, self.work)
        return message("note", f"{len(done)} of {len(self.work)} steps done.")


class PullSquare(Panel):
    """A frame that leans, a slider that pulls it, and its two diagonals."""

    def __init__(self, shared: SharedHive) -> None:
        super().__init__(shared)
        marks = assembly.leans(shared.hive.units)
        self.marks = {with_unit(shared.hive.units, abs(m)) + assembly.side(m): m for m in marks}
        self.message.layout.min_height = "6em"
        self.lean = ipywidgets.SelectionSlider(
            options=list(self.marks), value=list(self.marks)[-STARTS_AT], readout=False,
            description="Pull the back", style=LABEL, layout=ipywidgets.Layout(**WIDE),
        )  # fmt: skip
        self.lean.observe(lambda _: self.show(), names="value")
        shared.watch(self.show)
        self.show()
        self.children = [self.lean, self.message, self.picture]

    def outcome(self) -> Outcome:
        """The frame as far as it leans now."""
        return assembly.pulled(self.shared.hive, self.marks[self.lean.value])
