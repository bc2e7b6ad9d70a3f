"""What a panel is made of: fields with their messages, and the places where an outcome is shown."""

import asyncio
from abc import abstractmethod
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Any, ParamSpec, Protocol

import ipywidgets

from hivecalc.pages.messages import Outcome, picture, refused
from hivecalc.widgets.page_hive import SharedHive

P = ParamSpec("P")
ENTER_BEFORE_TEXT = 0.1  # seconds: a browser tells of Enter first, and of the changed text after it
REST = 0.15  # seconds without a step, and a slider rests
LABEL = {"description_width": "initial"}
WIDE = {"width": "100%", "max_width": "46em"}
# A label stands above its field, and the message beside them, or below where the page is narrow.
ENTRY = {"flex_flow": "column", "align_items": "stretch", "width": "17em", "height": "auto"}
LIST = {**ENTRY, "width": "fit-content", "min_width": "17em", "max_width": "100%"}
BESIDE = {"flex": "1 1 15em", "min_height": "4.2em", "height": "auto", "margin": "2px 0 2px 12px"}


class Watched(Protocol):
    """What tells of its changes: a page's hive, a learner's answers."""

    def watch(self, watcher: Callable[[], None]) -> None:
        """Call this at each change."""


class Area(ipywidgets.HTML):
    """A place for HTML: a message, a table or a picture, replaced whole."""

    _at_rest: Callable[[], str] | None = None

    def __init__(self, **layout: str) -> None:
        super().__init__(layout=ipywidgets.Layout(**{**WIDE, "height": "auto", **layout}))

    def tell(self, html: str) -> None:
        """Show this."""
        self._at_rest, self.value = None, html
        self.remove_class("hc-moving")

    def show(self, html: Callable[[], str]) -> None:
        """Show what this gives, or what goes wrong with it."""
        self.tell(safely(html)())

    def show_at_rest(self, html: Callable[[], str]) -> None:
        """Show what this gives once a slider rests; while it moves, what is shown stands back."""
        self._at_rest = html
        self.add_class("hc-moving")
        _soon(lambda: self.show(html) if self._at_rest is html else None, REST)

    def follow(self, html: Callable[[], str], *watched: Watched) -> "Area":
        """This area, which shows what this gives, now and at each change of what is watched."""
        self.show(html)
        for each in watched:
            each.watch(lambda: self.show(html))
        return self


class Panel(ipywidgets.VBox):
    """A panel that shows what an entry leads to: a message, a picture, and what follows.

    Why an entry can't be used stands in the place of the message, and the rest goes empty.
    """

    at_rest = False
    """Whether what follows waits until a slider rests."""

    def __init__(self, shared: SharedHive) -> None:
        super().__init__()
        self.shared = shared
        self.message, self.picture, self.follows = Area(), Area(), Area()

    @abstractmethod
    def outcome(self) -> Outcome:
        """What the entries lead to as they stand now."""

    def show(self) -> None:
        """Show what the entries lead to as they stand now."""
        self.message.tell(safely(self._shown, self.picture, self.follows)())

    def _shown(self) -> str:
        found = self.outcome()
        self.picture.tell(picture(found.picture))
        if self.at_rest and found.then:
            self.follows.show_at_rest(lambda: found.follows)
        else:
            self.follows.tell(found.follows)
        return found.message

    def blank(self) -> None:
        """Show nothing of the entry before."""
        for area in (self.message, self.picture, self.follows):
            area.tell("")


class Field(ipywidgets.Box):
    """A text field with a label bound to it, answering on Enter or on leaving, and its message.

    `text` is what stands in it at first and again whenever that changes (`renew`). `answer` gets
    what was typed and returns the HTML of the message beside the field; `again` is asked instead
    where Enter is pressed on a text that was answered already. Whatever goes wrong is shown there,
    since errors of callbacks are seen nowhere else, and the areas it `blanks` go empty: they show
    the entry before. `now` is said as long as nothing was typed.
    """

    def __init__(  # noqa: PLR0913 - a field is given all that it does
        self,
        label: str,
        text: Callable[[], str],
        answer: Callable[[str], str],
        *,
        again: Callable[[str], str] | None = None,
        blanks: Sequence[Area] = (),
        now: Callable[[], str] = str,
    ) -> None:
        self._text, self._now, self._shown = text, now, text()
        self.box = ipywidgets.Text(
            value=self._shown,
            description=label,
            continuous_update=False,
            style=LABEL,
            layout=ipywidgets.Layout(**ENTRY),
        )
        self.message = Area(**BESIDE)
        self.message.tell(now())
        self._answer, self._again = (safely(a, *blanks) for a in (answer, again or answer))
        self._answers = 0
        self.box.observe(self._changed, names="value")
        self.box.on_msg(self._sent)
        row = ipywidgets.Layout(**WIDE, flex_flow="row wrap", align_items="flex-start")
        super().__init__([self.box, self.message], layout=row)

    def _changed(self, change: Any) -> None:  # noqa: ANN401 - a traitlets bunch
        self._answers += 1
        self.message.tell(self._answer(change["new"]))

    def _sent(self, _box: object, content: Mapping[str, object], _buffers: object) -> None:
        if content.get("event") == "submit":
            before = self._answers
            _soon(lambda: self._entered(before), ENTER_BEFORE_TEXT)

    def _entered(self, before: int) -> None:
        """Answer Enter, unless the text has changed with it and was answered so."""
        if self._answers == before:
            self.message.tell(self._again(self.box.value))

    def answer_again(self) -> None:
        """Answer once more what stands in the field, as things are now."""
        if self.box.value:
            self.message.tell(self._again(self.box.value))

    def show(self, text: str) -> None:
        """Put a text into the field without answering to it."""
        with unheard(self.box, self._changed):
            self.box.value = text

    def renew(self) -> None:
        """Show what belongs in the field now, if that is another text than before."""
        text = self._text()
        if text != self._shown:
            self._shown = text
            self.show(text)
            self.message.tell(self._now())


@contextmanager
def unheard(widget: ipywidgets.Widget, answer: Callable[[Any], None]) -> Iterator[None]:
    """What is put into a widget meanwhile gets no answer."""
    widget.unobserve(answer, names="value")
    yield
    widget.observe(answer, names="value")


def _soon(done: Callable[[], None], seconds: float) -> None:
    """Do this so much later, when what was sent meanwhile has come in; at once if nothing can."""
    try:
        loop = asyncio.get_running_loop()
    except RuntimeError:
        done()
    else:
        loop.call_later(seconds, done)


def safely(answer: Callable[P, str], *blanks: Area) -> Callable[P, str]:
    """The same function, with any error shown as a message instead of being lost.

    What an error leaves without ground, the areas to blank, goes with it.
    """

    def safe(*args: P.args, **kwargs: P.kwargs) -> str:
        try:
            return answer(*args, **kwargs)
        except Exception as error:  # noqa: BLE001 - a callback's error is seen nowhere else
            for area in blanks:
                area.tell("")
            return refused(error)

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
        layout=ipywidgets.Layout(**LIST),
    )
    made.observe(lambda _: chosen(), names="value")
    return made


def abreast(panel: ipywidgets.VBox, fields: int) -> None:
    """Let a panel's fields stand side by side on a wall, to be seen with their picture."""
    if fields > 1:
        panel.add_class(f"hc-abreast-{min(fields, 3)}")


def beside(*columns: Sequence[ipywidgets.Widget]) -> ipywidgets.Box:
    """Columns of widgets, beside one another where the page is wide enough."""
    column = {"flex": "1 1 22em", "min_width": "0"}
    row = ipywidgets.Layout(display="flex", flex_flow="row wrap", width="100%")
    made = [ipywidgets.VBox(each, layout=ipywidgets.Layout(**column)) for each in columns]
    for each in made:
        each.add_class("hc-column")
    return ipywidgets.Box(made, layout=row)
