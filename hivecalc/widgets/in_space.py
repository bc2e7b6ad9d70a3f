"""The view in space: a slider turns it, one takes it apart, and a choice lights a part."""

from collections.abc import Sequence

import ipywidgets

from hivecalc.pages import in_space as page
from hivecalc.pages.outcomes import Outcome
from hivecalc.widgets.field import LABEL, Panel, choice
from hivecalc.widgets.page_hive import SharedHive

NOTHING = ("nothing", "")
SIDE_BY_SIDE = {"flex_flow": "row wrap", "align_items": "flex-start", "width": "100%"}
CONTROLS = {"flex": "1 1 15em", "max_width": "22em", "width": "auto", "margin": "0 12px 0 0"}
PICTURE = {"flex": "3 1 21em", "max_width": "34em", "width": "auto"}


class InSpace(Panel):
    """Some components in space, as they are turned, taken apart and lit; the whole hive if none."""

    def __init__(self, shared: SharedHive, components: Sequence[str]) -> None:
        super().__init__()
        self.shared, self.components = shared, components
        self.asked: frozenset[str] = frozenset()
        self.turn = slider("Turn it", -180, 180, page.Viewpoint.turn)
        self.apart = slider("Take it apart", 0, 100, page.Viewpoint.opened)
        self.lit = choice("Light up", self._options(), self.show)
        self.message.layout.min_height = "6em"
        self.picture.layout = ipywidgets.Layout(**PICTURE, height="auto")
        for each in (self.turn, self.apart):
            each.observe(lambda _: self.show(), names="value")
        self._renew()
        shared.watch(self._renew)
        shared.answers.watch(self._learned)
        controls = [self.turn, self.apart, self.lit, self.message]
        beside = ipywidgets.VBox(controls, layout=ipywidgets.Layout(**CONTROLS))
        self.children, self.layout = [beside, self.picture], ipywidgets.Layout(**SIDE_BY_SIDE)

    def _seen(self) -> tuple[str, ...]:
        return page.to_look_at(self.shared.hive, self.components)

    def _options(self) -> list[tuple[str, str]]:
        return [NOTHING, *page.parts_to_light(self.shared.hive, self._seen())]

    def _renew(self) -> None:
        """Offer the parts of the hive as it is now, and show it."""
        options, lit = self._options(), self.lit.value
        if options != list(self.lit.options):
            self.lit.options = options
            self.lit.value = lit if lit in dict(options).values() else ""
        self._learned()

    def _learned(self) -> None:
        """Show it with what has been found until now."""
        self.asked = page.still_asked(self.shared.hive, self.shared.answers)
        self.show()

    def outcome(self) -> Outcome:
        """What is seen as it is turned, taken apart and lit now."""
        seen = page.Viewpoint(self.turn.value, self.apart.value, self.lit.value)
        return page.turned(self.shared.hive, self.asked, self._seen(), seen)


def slider(label: str, low: int, high: int, value: int, by: int = 5) -> ipywidgets.IntSlider:
    """A slider that answers while it moves."""
    return ipywidgets.IntSlider(
        value=value,
        min=low,
        max=high,
        step=by,
        description=label,
        readout=False,
        style=LABEL,
        layout=ipywidgets.Layout(width="100%", flex_flow="row wrap"),
    )
