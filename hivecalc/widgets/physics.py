"""Panels of the lessons on heat and on wood: fields of their own kinds, a slider, a list."""

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import TypeAlias

import ipywidgets

from hivecalc.length import MM, LengthError, Units, length_from_text, with_unit
from hivecalc.pages.chain import Offered
from hivecalc.pages.outcomes import Outcome
from hivecalc.widgets.chain import STYLE as COUNTERS
from hivecalc.widgets.chain import Counter, step
from hivecalc.widgets.field import LABEL, WIDE, Area, Field, button, choice, picture, told
from hivecalc.widgets.keeping import Look

Reader: TypeAlias = Callable[[str], str]


class Physics(ipywidgets.VBox):
    """Fields, each read in its own way, and perhaps lists, that together lead to one outcome.

    What can't be read is told beside its field only, and nothing of the entry before stays.
    """

    def __init__(
        self,
        look: Look,
        fields: Mapping[str, tuple[str, Reader]],
        outcome: Callable[..., Outcome],
        lists: Mapping[str, Mapping[str, str]] | None = None,
    ) -> None:
        self.look, self.outcome = look, outcome
        self.message, self.picture, self.follows = Area(), Area(), Area()
        self.lists = [
            choice(label, list(options.items()), self._show)
            for label, options in (lists or {}).items()
        ]
        self.readers = [reader for _, reader in fields.values()]
        self.fields = [
            Field(label, lambda start=start: start, self._answered(reader))  # type: ignore[misc]
            for label, (start, reader) in fields.items()
        ]
        self._show()
        look.watch(self._show)
        shown = [self.message, self.picture, self.follows]
        super().__init__([*self.lists, *self.fields, *shown])

    def _answered(self, reader: Reader) -> Reader:
        def answer(text: str) -> str:
            self._show()
            return reader(text)

        return answer

    def _show(self) -> None:
        areas = self.message, self.picture, self.follows
        texts = [field.box.value for field in self.fields]
        if all(map(_can_be_read, self.readers, texts)):
            chosen = [str(each.value) for each in self.lists]
            self.message.tell(told(self._shown, *areas)(*chosen, *texts))
        else:
            for area in areas:
                area.tell("")

    def _shown(self, *entries: str) -> str:
        found = self.outcome(self.look.hive, *entries)
        self.picture.tell(picture(found.picture) if found.picture else "")
        self.follows.tell(found.follows)
        return found.message


def _can_be_read(reader: Reader, text: str) -> bool:
    try:
        reader(text)
    except ValueError:
        return False
    return True


class Sliding(ipywidgets.VBox):
    """A slider on marks of the tape with a field as its twin, and the outcome of what it says."""

    def __init__(
        self, look: Look, label: str, marks: tuple[Fraction, ...], outcome: Callable[..., Outcome]
    ) -> None:
        self.look, self.outcome = look, outcome
        self.picture, self.follows = Area(), Area()
        units: Units = look.hive.units
        self.texts = [with_unit(units, mark) for mark in marks]
        self.slider = ipywidgets.SelectionSlider(
            options=self.texts,
            value=with_unit(units, Fraction(1) if units == "inch" else 25 * MM),
            description=label,
            style=LABEL,
            layout=ipywidgets.Layout(**WIDE),
        )
        self.field = Field(f"{label}, typed", lambda: self.texts[0], self._typed)
        self.field.show(self.slider.value)
        self.slider.observe(self._slid, names="value")
        look.watch(self._renewed)
        self._renewed()
        super().__init__([self.slider, self.field, self.picture, self.follows])

    def _renewed(self) -> None:
        self.field.message.tell(self._told(self.field.box.value))

    def _slid(self, change: Mapping[str, str]) -> None:
        self.field.show(change["new"])
        self._renewed()

    def _typed(self, text: str) -> str:
        try:
            typed = with_unit(self.look.hive.units, length_from_text(text, self.look.hive.units))
        except LengthError:
            typed = ""
        if typed in self.texts:
            self.slider.unobserve(self._slid, names="value")
            self.slider.value = typed
            self.slider.observe(self._slid, names="value")
        return self._told(text)

    def _told(self, text: str) -> str:
        return told(self._shown, self.picture, self.follows)(text)

    def _shown(self, text: str) -> str:
        found = self.outcome(self.look.hive, text)
        self.picture.tell(picture(found.picture))
        self.follows.tell(found.follows)
        return found.message


class LayerChain(ipywidgets.VBox):
    """A wall's layers to build a chain from, judged by what is in it, and then its sum."""

    def __init__(self, look: Look) -> None:
        from hivecalc.pages import warmth as page  # noqa: PLC0415 - slow to load

        self.look, self._page = look, page
        self.counters: list[Counter] = []
        self.rows, self.checked = ipywidgets.VBox(), Area()
        self.sum = Field("R of the whole wall", str, self._summed)
        build = step("1 · Build the chain: what does heat go through, one after another?")
        check = button("Check the chain", self.check)
        second = step("2 · Do the sum of your chain")
        style = ipywidgets.HTML(COUNTERS)
        self.renew()
        look.watch(self.renew)
        super().__init__([style, build, self.rows, check, self.checked, second, self.sum])

    def renew(self) -> None:
        """Offer the layers of the hive as it is now, keeping how often each counts."""
        counts = self.counts
        self.counters = [
            Counter(
                Offered(link.name, link.name, f"R {link.r:.1f}"),
                Fraction(counts.get(link.name, 0)),
                Fraction(1),
                self._new,
            )
            for link in self._page.links_offered(self.look.hive)
        ]
        self.rows.children = self.counters
        self._new()

    @property
    def counts(self) -> dict[str, int]:
        """How often each layer counts."""
        return {counter.name: int(counter.count) for counter in self.counters}

    def _new(self) -> None:
        self.checked.tell("")

    def check(self) -> None:
        """Say what is missing, counts too often or lies beside the way."""
        self.checked.tell(
            told(lambda: self._page.judged_layers(self.look.hive, self.counts).message)()
        )

    def _summed(self, text: str) -> str:
        return self._page.judged_layers_sum(self.look.hive, self.counts, text).message
