"""The panels of a lesson: fields, a picture, what follows. They show outcomes, and decide none."""

from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from fractions import Fraction
from functools import partial
from typing import TypeAlias

import ipywidgets

from hivecalc.components import COURSE, built, in_use
from hivecalc.derivation import title
from hivecalc.drawing.tape import tape
from hivecalc.hive import BOX_SIZES, MEASUREMENTS, OPENINGS, Hive, HiveFaults, exact_text
from hivecalc.hive.hive import said_with_unit
from hivecalc.length import LengthError, length_from_text, written
from hivecalc.measuring import reading_to_use
from hivecalc.pages import outcomes
from hivecalc.pages.messages import (
    gone_back,
    kept,
    meaning,
    message,
    refused,
    refused_reading,
    replaces,
    sleeved,
)
from hivecalc.pages.outcomes import Outcome
from hivecalc.widgets.field import Area, Field, button, choice, picture, told
from hivecalc.widgets.keeping import Keeper, Look, of_box

Start: TypeAlias = str | Callable[[Hive], str]
"""What stands in a field at first: a text, or one that follows the hive."""

DIAGONALS = ("Diagonal from front left", "Diagonal from front right")
THREE_PLACES = ("first place", "in the middle", "last place")
USE_BOX, REPLACE = "My hive is this box in a sleeve", "Yes, replace it by this box"


def label(name: str) -> str:
    """A measurement's or dimension's label: its name in words, as it stands in the glossary.

    >>> label("bottom_board.side_rail_length")
    'Side rail length'
    """
    return title(name).capitalize()


def text_of(hive: Hive, name: str) -> str:
    """A measurement as it can be typed again, worked out where it was not measured.

    >>> from hivecalc.hive import demo_hive
    >>> text_of(demo_hive(), "hive_length")
    '23 1/8'
    """
    if name in OPENINGS and name not in hive.measured:
        return ""  # nobody has measured it yet
    value = in_use(hive, name)
    kind = MEASUREMENTS[name].kind if name in MEASUREMENTS else "length"
    return typed(value, hive) if kind == "length" else said_with_unit(value, hive.units, kind)


def typed(value: Fraction, hive: Hive) -> str:
    """A length as it can be typed to be exactly this one, where any text can say that.

    >>> from hivecalc.hive import demo_hive
    >>> typed(Fraction(125, 127), demo_hive())
    '25 mm'
    """
    with suppress(HiveFaults):
        return exact_text("", value, hive.units)
    return written(value, hive.units).removeprefix("≈ ")


# ── what is measured, and kept in the hive file ───────────────────────────────────────────────


class Measurements(ipywidgets.VBox):
    """Fields for some measurements, each read, refused or saved, and the last one on a tape."""

    def __init__(self, keeper: Keeper, names: Sequence[str]) -> None:
        self.keeper, self.on_tape, self.tape = keeper, names[0], Area()
        self.fields = {n: self._field(n) for n in names}
        self._renew()
        keeper.watch(self._renew)
        super().__init__([*self.fields.values(), self.tape])

    def _field(self, name: str) -> Field:
        def saved(text: str) -> str:
            try:
                self.on_tape = name
                return kept(name, self.keeper.keep(name, text), text)
            except HiveFaults as error:
                return refused(error, name, self.keeper.hive)

        return Field(
            label(name),
            lambda: text_of(self.keeper.hive, name),
            saved,
            now=lambda: meaning(name, self.keeper.hive),
        )

    def _renew(self) -> None:
        for field in self.fields.values():
            field.renew()
        self.tape.tell(told(self._drawn)())

    def _drawn(self) -> str:
        hive, name = self.keeper.hive, self.on_tape
        drawn = tape(in_use(hive, name), hive.units)
        return picture(drawn, f"{label(name)} on the tape.")


class TapeUnits(ipywidgets.VBox):
    """A choice of what the learner's tape shows: how lengths are read and shown from now on."""

    def __init__(self, keeper: Keeper) -> None:
        self.keeper, self.said = keeper, Area(min_height="2em")
        options = [("inches", "inch"), ("millimetres", "mm")]
        self.choice = choice("Your tape shows", options, self._chosen, keeper.hive.units)
        super().__init__([self.choice, self.said])

    def _chosen(self) -> None:
        self.said.tell(told(self._kept)())

    def _kept(self) -> str:
        hive = self.keeper.count_in(self.choice.value)
        how = "a number alone is in millimetres" if hive.units == "mm" else "a number is in inches"
        return message(
            "right",
            f"Saved: {how}; the other unit is read where you write it.",
            "What you have not measured yet has the usual size in that unit.",
        )


class HiveName(Field):
    """A field for the hive's own name."""

    def __init__(self, keeper: Keeper) -> None:
        def named(text: str) -> str:
            return message("right", f"Saved: this hive is “{keeper.rename(text).name}”.")

        super().__init__("Name of your hive", lambda: keeper.hive.name, named)
        keeper.watch(self.renew)


class SleevedBox(ipywidgets.VBox):
    """Three sizes of a box, a button that makes the hive of it and its sleeve, and the way back.

    Another size of the hive is replaced by the second press only: the first says what would go.
    """

    def __init__(self, keeper: Keeper) -> None:
        self.keeper, self.said = keeper, Area(min_height="4.2em")
        self.fields = {n: self._field(n) for n in BOX_SIZES}
        self.use_button = button(USE_BOX, self.use)
        self.back_button = button("Back to the size before", self.back)
        self._renew()
        keeper.watch(self._renew)
        buttons = ipywidgets.Box([self.use_button, self.back_button])
        buttons.layout.flex_flow = "row wrap"
        super().__init__([*self.fields.values(), buttons, self.said])

    def _field(self, name: str) -> Field:
        return Field(
            label(name),
            lambda: self._text(name),
            self._answer,
            now=lambda: message("note", MEASUREMENTS[name].meaning),
        )

    def _text(self, name: str) -> str:
        """A size of the box that the hive is, or that was set aside."""
        hive = self.keeper.hive
        known = {**hive.set_aside, **hive.measured}
        return typed(known[name], hive) if name in known else ""

    def _renew(self) -> None:
        for field in self.fields.values():
            field.renew()
        self.use_button.description = USE_BOX
        self.back_button.disabled = not self.keeper.hive.set_aside

    def _answer(self, text: str) -> str:
        self.use_button.description = USE_BOX
        self.said.tell("")
        return outcomes.as_read(self.keeper.hive, text) if text.strip() else ""

    def use(self) -> None:
        """Save the three sizes, all or none; what they replace is said before."""
        self.said.tell(told(self._used)())

    def _used(self) -> str:
        texts = {n: f.box.value for n, f in self.fields.items()}
        try:
            asked = self._asked(texts)
            return asked or sleeved(self.keeper.keep_box(texts))
        except HiveFaults as error:
            return refused(error, "", self.keeper.hive)

    def _asked(self, texts: Mapping[str, str]) -> str:
        """What is asked before a size is replaced that was given; nothing at the next press."""
        before = self.keeper.hive
        box = of_box(before, texts)
        asked = self.use_button.description == REPLACE
        if asked or self.keeper.demo or box.set_aside == before.set_aside:
            return ""
        self.use_button.description = REPLACE
        return replaces(before, box)

    def back(self) -> None:
        """Bring the size back that the box replaced."""
        self.said.tell(told(self._gone_back)())

    def _gone_back(self) -> str:
        return gone_back(self.keeper.go_back())


# ── what is typed to be looked at ─────────────────────────────────────────────────────────────


class Entries(ipywidgets.VBox):
    """Fields that together lead to one outcome: its message, its picture and what follows.

    Each field says what was read in it; a single one says the outcome instead. What can't be read
    is told beside its field only, and nothing of the entry before stays.
    """

    def __init__(
        self, keeper: Look, fields: Mapping[str, Start], outcome: Callable[..., Outcome]
    ) -> None:
        self.keeper, self.outcome = keeper, outcome
        self.picture, self.follows = Area(), Area()
        self.fields = [self._field(n, *each) for n, each in enumerate(fields.items())]
        self.alone = len(self.fields) == 1
        self.message = self.fields[0].message if self.alone else Area()
        self._renew()
        keeper.watch(self._renew)
        below = [] if self.alone else [self.message]
        super().__init__([*self.fields, *below, self.picture, self.follows])

    def _field(self, place: int, name: str, start: Start) -> Field:
        def text() -> str:
            return start if isinstance(start, str) else start(self.keeper.hive)

        return Field(name, text, partial(self._answer, place))

    def _answer(self, _place: int, text: str) -> str:
        self._show()
        return self.message.value if self.alone else self._read(text)

    def _read(self, text: str) -> str:
        return outcomes.as_read(self.keeper.hive, text) if text.strip() else ""

    def _renew(self) -> None:
        for field in self.fields:
            field.renew()
        self._show()

    def _show(self) -> None:
        areas = self.picture, self.follows
        if not self.alone and not all(self._can_be_read(f.box.value) for f in self.fields):
            for area in (self.message, *areas):
                area.tell("")
        else:
            self.message.tell(told(self._shown, *areas)())

    def _can_be_read(self, text: str) -> bool:
        with suppress(LengthError):
            self._read(text)
            return True
        return False

    def _shown(self) -> str:
        found = self.outcome(self.keeper.hive, *(f.box.value for f in self.fields))
        self.picture.tell(picture(found.picture) if found.picture else "")
        self.follows.tell(found.follows)
        return found.message


class Readings(Entries):
    """Readings of one size at several places, each kept in the hive file, and their outcome."""

    keeper: Keeper

    def __init__(
        self,
        keeper: Keeper,
        name: str,
        places: Sequence[str],
        outcome: Callable[..., Outcome],
    ) -> None:
        self.name = name
        fields = {each: self._kept_text(place) for place, each in enumerate(places)}
        super().__init__(keeper, fields, outcome)

    def _kept_text(self, place: int) -> Callable[[Hive], str]:
        def text(hive: Hive) -> str:
            found = hive.readings.get(self.name, ())
            reading = found[place] if place < len(found) else None
            return "" if reading is None else typed(reading, hive)

        return text

    def _answer(self, place: int, text: str) -> str:
        try:
            self.keeper.keep_reading(self.name, place, text)
        except HiveFaults as error:
            for area in (self.message, self.picture, self.follows):
                area.tell("")
            return refused_reading(error, self.name, self.keeper.hive)
        self._show()
        return self._read(text)


class Places(Readings):
    """Three readings of one size, which of them to use, and a button that uses it."""

    def __init__(self, keeper: Keeper, name: str) -> None:
        places = [f"{label(name)}, {place}" for place in THREE_PLACES]
        super().__init__(keeper, name, places, outcomes.three_places)
        use = button(f"Use this {title(name)}", self.use)
        self.children = (*self.fields, self.message, use)

    def use(self) -> None:
        """Save the largest reading as the hive's size."""
        self.message.tell(told(self._used)())

    def _used(self) -> str:
        hive = self.keeper.hive
        found = [length_from_text(f.box.value, hive.units) for f in self.fields if f.box.value]
        use = typed(reading_to_use(found, hive.units).use, hive)
        return kept(self.name, self.keeper.keep(self.name, use))


class Trial(ipywidgets.VBox):
    """A choice of what to change, a field for its new value, the outcome, and the way back."""

    def __init__(
        self,
        keeper: Look,
        names: Sequence[str],
        question: str,
        outcome: Callable[[Hive, str, str, str], Outcome],
        view: str,
    ) -> None:
        self.keeper, self.names, self.outcome, self.view = keeper, names, outcome, view
        self.follows, self.picture = Area(), Area()
        self.choice = choice(question, self._options(), self.back)
        self.field = Field("New value", self._text, self._answer, blanks=self._areas)
        self._renew()
        keeper.watch(self._renew)
        undo = button("Back to my hive", self.back)
        super().__init__([self.choice, self.field, undo, self.picture, self.follows])

    @property
    def _areas(self) -> tuple[Area, Area]:
        return self.picture, self.follows

    def _options(self) -> list[tuple[str, str]]:
        found = can_change(self.keeper.hive, self.names)
        return [(label(n), n) for n in found or self.names]

    def _text(self) -> str:
        return text_of(self.keeper.hive, self.choice.value)

    def _renew(self) -> None:
        """Offer what can be changed on the hive as it is now, and show that hive."""
        if self._options() != list(self.choice.options):
            self.choice.options = self._options()
        self.back()

    def back(self) -> None:
        """Show the hive as it is, with nothing changed."""
        self.field.show(self._text())
        self.field.message.tell(told(self._unchanged, *self._areas)())

    def _unchanged(self) -> str:
        return self._shown(outcomes.unchanged(self.keeper.hive, self.view))

    def _answer(self, text: str) -> str:
        return self._shown(self.outcome(self.keeper.hive, self.choice.value, text, self.view))

    def _shown(self, found: Outcome) -> str:
        self.picture.tell(picture(found.picture))
        self.follows.tell(found.follows)
        return found.message


def can_change(hive: Hive, names: Sequence[str]) -> list[str]:
    """Those of some sizes that something built for this hive is made from, or that are cut for it.

    >>> from hivecalc.hive import demo_hive
    >>> can_change(demo_hive(), ["stud_thickness", "frames", "roof.rim_front_length"])
    ['stud_thickness', 'roof.rim_front_length']
    """
    made = COURSE.names(built(hive))
    sources = {s for name in made for s in COURSE.rests_on(name, hive.measurements)}
    return [n for n in names if n in (sources if n in MEASUREMENTS else made)]
