"""A field with its label and its message, and a picture: the two things a panel is made of."""

from collections.abc import Callable, Sequence
from html import escape
from typing import Any, ParamSpec

import ipywidgets

from hivecalc.pages.messages import message

P = ParamSpec("P")
LABEL = {"description_width": "initial"}
WIDE = {"width": "100%", "max_width": "46em"}
# A label stands above its field, and the message beside them, or below where the page is narrow.
ENTRY = {"flex_flow": "column", "align_items": "stretch", "width": "17em", "height": "auto"}
BESIDE = {"flex": "1 1 15em", "min_height": "4.2em", "height": "auto", "margin": "2px 0 2px 12px"}


class Area(ipywidgets.HTML):
    """A place for HTML: a message, a table or a picture, replaced whole."""

    def __init__(self, **layout: str) -> None:
        super().__init__(layout=ipywidgets.Layout(**{**WIDE, "height": "auto", **layout}))

    def tell(self, html: str) -> None:
        """Show this."""
        self.value = html


class Field(ipywidgets.Box):
    """A text field with a label bound to it, answering on Enter or on leaving, and its message.

    `answer` gets the text and returns the HTML of the message beside the field. Whatever goes
    wrong in it is told there: errors of callbacks are seen nowhere else. `now` is said at first.
    """

    def __init__(
        self, label: str, value: str, answer: Callable[[str], str], hint: str = "", now: str = ""
    ) -> None:
        self.box = ipywidgets.Text(
            value=value,
            description=label,
            placeholder=hint,
            continuous_update=False,
            style=LABEL,
            layout=ipywidgets.Layout(**ENTRY),
        )
        self.message = Area(**BESIDE)
        self.message.tell(now)
        self._answer = answer
        self.box.observe(self._changed, names="value")
        row = ipywidgets.Layout(**WIDE, flex_flow="row wrap", align_items="flex-start")
        super().__init__([self.box, self.message], layout=row)

    def _changed(self, change: Any) -> None:  # noqa: ANN401 - a traitlets bunch
        self.message.tell(told(self._answer)(change["new"]))

    def show(self, value: str) -> None:
        """Put a value into the field without answering to it."""
        self.box.unobserve(self._changed, names="value")
        self.box.value = value
        self.box.observe(self._changed, names="value")


def told(answer: Callable[P, str]) -> Callable[P, str]:
    """The same function, with any error told as a message instead of being lost."""

    def safe(*args: P.args, **kwargs: P.kwargs) -> str:
        try:
            return answer(*args, **kwargs)
        except Exception as error:  # noqa: BLE001 - a callback's error is seen nowhere else
            text = str(error) or type(error).__name__
            return message("wrong", *text.split("\n")[:5])

    return safe


def button(text: str, pressed: Callable[[], None]) -> ipywidgets.Button:
    """A button that says what it does."""
    size = ipywidgets.Layout(width="auto", height="auto", align_self="flex-start")
    made = ipywidgets.Button(description=text, layout=size)
    made.on_click(lambda _: pressed())
    return made


def choice(
    label: str, options: Sequence[tuple[str, str]], chosen: Callable[[], None], first: str = ""
) -> ipywidgets.Dropdown:
    """A drop-down list with a label bound to it, at its first option or another to begin with."""
    made = ipywidgets.Dropdown(
        options=options,
        value=first or options[0][1],
        description=label,
        style=LABEL,
        layout=ipywidgets.Layout(**ENTRY),
    )
    made.observe(lambda _: chosen(), names="value")
    return made


def picture(svg: str, caption: str = "") -> str:
    """A picture in its own box, with its caption."""
    below = f'<p class="hc">{escape(caption)}</p>' if caption else ""
    return f'<figure style="margin:0;overflow-x:auto">{svg}{below}</figure>'
