"""Fields for what is measured and kept in the hive file: sizes, readings, box, name and unit."""

from collections.abc import Callable, Mapping, Sequence
from functools import partial

import ipywidgets

from hivecalc.components import in_use
from hivecalc.derivation import title
from hivecalc.drawing.tape import tape
from hivecalc.hive import BOX_SIZES, MEASUREMENTS, Hive, HiveFaults
from hivecalc.length import length_from_text
from hivecalc.measuring import reading_to_use
from hivecalc.pages import outcomes
from hivecalc.pages.messages import (
    Outcome,
    gone_back,
    kept,
    meaning,
    message,
    picture,
    refused,
    replaces,
    sleeved,
)
from hivecalc.widgets.field import Area, Field, abreast, button, choice
from hivecalc.widgets.page_hive import PageHive, of_box, sizes_given
from hivecalc.widgets.panels import Entries, label, text_of, typed, value_text

REPLACE = "Yes, replace it with this box"


class Measurements(ipywidgets.VBox):
    """Fields for some measurements, each read, refused or saved, and the last one on a tape."""

    def __init__(self, page_hive: PageHive, *names: str) -> None:
        self.page_hive, self.on_tape, self.tape = page_hive, names[0], Area()
        self.fields = {n: self._field(n) for n in names}
        self._renew()
        page_hive.watch(self._renew)
        super().__init__([*self.fields.values(), self.tape])
        abreast(self, len(names))

    def _field(self, name: str) -> Field:
        def saved(text: str) -> str:
            try:
                self.on_tape = name
                return kept(name, self.page_hive.keep(name, text), text)
            except HiveFaults as error:
                return refused(error, name, self.page_hive.hive)

        def text() -> str:
            return text_of(self.page_hive.hive, name)

        return Field(label(name), text, saved, now=lambda: meaning(name, self.page_hive.hive))

    def _renew(self) -> None:
        for field in self.fields.values():
            field.renew()
        self.tape.show(self._drawn)

    def _drawn(self) -> str:
        hive, name = self.page_hive.hive, self.on_tape
        drawn = tape(in_use(hive, name), hive.units)
        return picture(drawn, f"{label(name)} on the tape.")


class TapeUnits(ipywidgets.VBox):
    """A choice of what the learner's tape shows: how lengths are read and shown from now on."""

    def __init__(self, page_hive: PageHive) -> None:
        self.page_hive, self.said = page_hive, Area(min_height="2em")
        options = [("inches", "inch"), ("millimetres", "mm")]
        chosen = partial(self.said.show, self._kept)
        self.choice = choice("Your tape shows", options, chosen, page_hive.hive.units)
        super().__init__([self.choice, self.said])

    def _kept(self) -> str:
        hive = self.page_hive.count_in(self.choice.value)
        how = "a number alone is in millimetres" if hive.units == "mm" else "a number is in inches"
        return message(
            "right",
            f"Saved: {how}; the other unit is read where you write it.",
            "What you have not measured yet has the usual size in that unit.",
        )


class HiveName(Field):
    """A field for the hive's own name."""

    def __init__(self, page_hive: PageHive) -> None:
        def named(text: str) -> str:
            return message("right", f"Saved: this hive is “{page_hive.rename(text).name}”.")

        super().__init__("Name of your hive", lambda: page_hive.hive.name, named)
        page_hive.watch(self.renew)


class SleevedBox(ipywidgets.VBox):
    """What a box comes from, a button that makes the hive of it and its sleeve, and the way back.

    Another size of the hive is replaced by the second press only: the first says what would go.
    """

    names: tuple[str, ...] = BOX_SIZES
    use_box = "My hive is this box in a sleeve"

    def __init__(self, page_hive: PageHive) -> None:
        self.page_hive, self.said = page_hive, Area(min_height="4.2em")
        self.fields = {n: self._field(n) for n in self.names}
        self.use_button = button(self.use_box, self.use)
        self.back_button = button("Back to the size before", self.back)
        self._renew()
        page_hive.watch(self._renew)
        buttons = ipywidgets.Box([self.use_button, self.back_button])
        buttons.layout.flex_flow = "row wrap"
        super().__init__([*self.fields.values(), buttons, self.said])

    def _field(self, name: str) -> Field:
        now = partial(message, "note", MEASUREMENTS[name].meaning)
        answer = partial(self._answer, name)
        worked_out_too = ", measured" if name in BOX_SIZES else ""  # a lesson asks for both
        return Field(label(name) + worked_out_too, partial(self._text, name), answer, now=now)

    def _text(self, name: str) -> str:
        """A size of the box that the hive is, or that was set aside."""
        hive = self.page_hive.hive
        known = {**hive.set_aside, **sizes_given(hive)}
        return value_text(hive, name, known[name]) if name in known else ""

    def _renew(self) -> None:
        for field in self.fields.values():
            field.renew()
        self.use_button.description = self.use_box
        self.back_button.disabled = not self.page_hive.hive.set_aside

    def _answer(self, name: str, text: str) -> str:
        self.use_button.description = self.use_box
        self.said.tell("")
        return outcomes.as_read(self.page_hive.hive, text, MEASUREMENTS[name])

    def use(self) -> None:
        """Save it all or not at all; what it replaces is said before."""
        self.said.show(self._used)

    def _used(self) -> str:
        texts = {n: f.box.value for n, f in self.fields.items()}
        return self._asked(texts) or sleeved(self.page_hive.keep_box(texts))

    def _asked(self, texts: Mapping[str, str]) -> str:
        """What is asked before a size is replaced that was given; nothing at the next press."""
        before = self.page_hive.hive
        box = of_box(before, texts)
        asked = self.use_button.description == REPLACE
        if asked or self.page_hive.demo or box.set_aside == before.set_aside:
            return ""
        self.use_button.description = REPLACE
        return replaces(before, box)

    def back(self) -> None:
        """Bring the size back that the box replaced."""
        self.said.show(lambda: gone_back(self.page_hive.go_back()))


class BoxOfFrames(SleevedBox):
    """The same for a box that is made from its frames outwards."""

    names = ("frames",)
    use_box = "My hive is a box of these frames in a sleeve"


class Readings(Entries):
    """Readings of one size at several places, each kept in the hive file, and their outcome."""

    def __init__(
        self, page_hive: PageHive, name: str, places: Sequence[str], outcome: Callable[..., Outcome]
    ) -> None:
        self.page_hive, self.name = page_hive, name
        fields = {each: partial(self._kept_text, place) for place, each in enumerate(places)}
        super().__init__(page_hive, fields, outcome)

    def _kept_text(self, place: int, hive: Hive) -> str:
        reading = dict(enumerate(hive.readings.get(self.name, ()))).get(place)
        return "" if reading is None else typed(reading, hive)

    def _answer(self, place: int, text: str) -> str:
        try:
            self.page_hive.keep_reading(self.name, place, text)
        except HiveFaults as error:
            self.blank()
            return refused(error, self.name)
        self.show()
        return outcomes.as_read(self.page_hive.hive, text)


class Diagonals(Readings):
    """Two diagonals, and how far out of square the box is."""

    def __init__(self, page_hive: PageHive) -> None:
        super().__init__(page_hive, "diagonals", outcomes.DIAGONALS, outcomes.two_diagonals)


class Places(Readings):
    """Three readings of one size, which of them to use, and a button that uses it."""

    def __init__(self, page_hive: PageHive, name: str) -> None:
        places = [f"{label(name)}, {at}" for at in ("first place", "in the middle", "last place")]
        super().__init__(page_hive, name, places, outcomes.three_places)
        self.children = [*self.fields, self.message, button(f"Use this {title(name)}", self.use)]

    def use(self) -> None:
        """Save the largest reading as the hive's size."""
        self.message.show(self._used)

    def _used(self) -> str:
        hive = self.page_hive.hive
        found = [length_from_text(f.box.value, hive.units) for f in self.fields if f.box.value]
        advice = reading_to_use(found, hive.units)
        if advice.misread:
            return message("wrong", advice.sentence)
        return kept(self.name, self.page_hive.keep(self.name, typed(advice.use, hive)))
