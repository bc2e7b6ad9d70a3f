"""Panels that show what an entry leads to: fields, a slider, a picture, what follows.

They show outcomes, and decide none.
"""

from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from fractions import Fraction
from functools import partial
from typing import Any, TypeAlias

import ipywidgets

from hivecalc.as_built import PIECE_SIZE
from hivecalc.built import PieceSize
from hivecalc.components import DIMENSIONS, built, in_use
from hivecalc.hive import MEASUREMENTS, OPENINGS, Hive, HiveFaults, exact_text
from hivecalc.hive.hive import said_with_unit, value_of
from hivecalc.judging import plain
from hivecalc.length import length_from_text, with_unit, written
from hivecalc.pages import assembly, outcomes
from hivecalc.pages.messages import Outcome, message
from hivecalc.pages.outcomes import Reader
from hivecalc.support.faults import RefusedError
from hivecalc.widgets.field import (
    LABEL,
    WIDE,
    Field,
    Panel,
    abreast,
    beside,
    button,
    choice,
    unheard,
)
from hivecalc.widgets.page_hive import SharedHive

Start: TypeAlias = str | Callable[[Hive], str]
"""What stands in a field at first: a text, or one that follows the hive."""
Fields: TypeAlias = Mapping[str, Start | tuple[Start, Reader]]
"""Fields by their labels; one for anything but a length comes with what is read in it."""


def label(name: str) -> str:
    """A measurement's or dimension's label: its name in words, as it stands in the glossary."""
    return plain(name).capitalize()


def text_of(hive: Hive, name: str) -> str:
    """A measurement as it can be typed again, worked out where it was not measured."""
    if name in OPENINGS and name not in hive.measured:
        return ""  # nobody has measured it yet
    return value_text(hive, name, in_use(hive, name))


def value_text(hive: Hive, name: str, value: Fraction) -> str:
    """Any value of a measurement or dimension as it can be typed."""
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


class Entries(Panel):
    """Fields and lists that together lead to one outcome.

    Each field says what was read in it; a single one says the outcome instead. What can't be read
    stands beside its field only. `working` stands there while an outcome takes long.
    """

    def __init__(
        self,
        shared: SharedHive,
        fields: Fields,
        outcome: Callable[..., Outcome],
        lists: Mapping[str, Mapping[str, str]] | None = None,
        working: str = "",
    ) -> None:
        super().__init__(shared)
        self.leads_to, self.working = outcome, working
        options = (lists or {}).items()
        self.lists = [choice(name, list(each.items()), self.show) for name, each in options]
        starts = [each if isinstance(each, tuple) else (each, None) for each in fields.values()]
        self.readers = [reader for _, reader in starts]
        self.fields = [
            Field(name, partial(self._start, start), partial(self._answer, place))
            for place, (name, (start, _)) in enumerate(zip(fields, starts, strict=True))
        ]
        abreast(self, len(self.fields))
        self.alone = len(self.fields) == 1 and not self.lists
        if self.alone:
            self.message = self.fields[0].message
        self._renew()
        shared.watch(self._renew)
        below = [] if self.alone else [self.message]
        self.children = [*self.lists, *self.fields, *below, self.picture, self.follows]

    def _start(self, start: Start) -> str:
        return start if isinstance(start, str) else start(self.shared.hive)

    def _answer(self, place: int, text: str) -> str:
        self.show()
        return self.message.value if self.alone else self._read(place, text)

    def _read(self, place: int, text: str) -> str:
        return outcomes.as_read(self.shared.hive, text, self.readers[place])

    def _renew(self) -> None:
        for field in self.fields:
            field.renew()
        self.show()

    def show(self) -> None:
        """Show what the entries lead to; nothing where one of them can't be read."""
        if not self.alone and not all(map(self._can_be_read, range(len(self.fields)))):
            self.blank()
            return
        if self.working:
            self.message.tell(message("note", self.working))
        super().show()

    def _can_be_read(self, place: int) -> bool:
        with suppress(ValueError):
            self._read(place, self.fields[place].box.value)
            return True
        return False

    def outcome(self) -> Outcome:
        """What all fields and lists lead to together."""
        entries = [str(each.value) for each in self.lists] + [f.box.value for f in self.fields]
        return self.leads_to(self.shared.hive, *entries)


# ── moved by a slider ─────────────────────────────────────────────────────────────────────────


class Slider(ipywidgets.VBox):
    """A slider on marks of the tape and a field as its twin, which says what comes of its text.

    `marks` are the texts that the slider offers, `own` the one that it begins with, and `as_mark`
    writes what was typed as a mark is written. `moved` shows what a new text leads to.
    """

    def __init__(  # noqa: PLR0913, PLR0917 - a slider and its field are given all they do
        self,
        name: str,
        field_name: str,
        marks: Callable[[], Sequence[str]],
        own: Callable[[], str],
        as_mark: Callable[[str], str],
        moved: Callable[[], None],
    ) -> None:
        self._marks, self._own, self._as_mark, self._moved = marks, own, as_mark, moved
        self.slider = ipywidgets.SelectionSlider(
            options=list(marks()),
            value=own(),
            description=name,
            style=LABEL,
            layout=ipywidgets.Layout(**WIDE),
        )
        self.field = Field(field_name, own, self._typed)
        self.slider.observe(self._slid, names="value")
        super().__init__([self.slider, self.field])

    def begin(self) -> None:
        """Offer what can be chosen now, and stand at the own value without answering to it."""
        own = self._own()
        self._stand_at(own, list(self._marks()))
        self.field.show(own)

    def _stand_at(self, mark: str, marks: list[str] | None = None) -> None:
        """Stand at a mark, of other ones perhaps, without answering to it."""
        with unheard(self.slider, self._slid):
            if marks and tuple(marks) != tuple(self.slider.options):
                self.slider.options = marks
            self.slider.value = mark

    def _slid(self, change: Any) -> None:  # noqa: ANN401 - a traitlets bunch
        self.field.show(change["new"])
        self._moved()

    def _typed(self, text: str) -> str:
        with suppress(ValueError):
            if (mark := self._as_mark(text)) in self.slider.options:
                self._stand_at(mark)
        self._moved()
        said: str = self.field.message.value
        return said


class WhatIf(Panel):
    """A choice of what to change, a slider and a field for its value, what comes of it, a way back.

    `ways` are the outcomes to choose from, by the words for each; one alone is not offered.
    """

    at_rest = True

    def __init__(
        self,
        shared: SharedHive,
        names: Sequence[str],
        question: str,
        ways: Mapping[str, Callable[[Hive, str, str, str], Outcome]],
        view: str,
    ) -> None:
        super().__init__(shared)
        self.names, self.ways, self.view = names, ways, view
        self.picture.add_class("hc-seen")
        self.choice = choice(question, self._options(), self.back)
        self.way = ipywidgets.ToggleButtons(options=[*ways], style={"button_width": "auto"})
        self.way.observe(lambda _: self._again(), names="value")
        self.twin = Slider(
            "Slide it", "New value", self._marks, self._text, self._as_mark, self._moved
        )
        self.field, self.changed = self.twin.field, False
        self.message = self.field.message
        self._renew()
        shared.watch(self._renew)
        ways_shown = [self.way] if len(ways) > 1 else []
        undo = button("Back to my hive", self.back)
        entries = [self.choice, *ways_shown, self.twin, undo]
        self.children = [beside(entries, [self.picture]), self.follows]

    def _options(self) -> list[tuple[str, str]]:
        found = can_change(self.shared.hive, self.names)
        return [(label(n), n) for n in found or self.names]

    def _text(self) -> str:
        hive, name = self.shared.hive, self.choice.value
        return value_text(hive, name, outcomes.to_begin_with(hive, name))

    def _marks(self) -> list[str]:
        hive, name = self.shared.hive, self.choice.value
        return [value_text(hive, name, mark) for mark in outcomes.marks_around(hive, name)]

    def _as_mark(self, text: str) -> str:
        hive, name = self.shared.hive, self.choice.value
        return value_text(hive, name, outcomes.typed_for(hive, name, text))

    def _renew(self) -> None:
        """Offer what can be changed on the hive as it is now, and show that hive."""
        if self._options() != list(self.choice.options):
            self.choice.options = self._options()
        self.back()

    def back(self) -> None:
        """Show the hive as it is, with nothing changed."""
        self.twin.begin()
        self.changed = False
        self.show()

    def _moved(self) -> None:
        self.changed = True
        self.show()

    def _again(self) -> None:
        """Show the same change in the other way."""
        if self.field.box.value != self._text():
            self._moved()

    def outcome(self) -> Outcome:
        """The hive as it is, or what the change leads to in the way that is chosen."""
        if not self.changed:
            return outcomes.unchanged(self.shared.hive, self.view)
        leads_to = self.ways[self.way.value]
        return leads_to(self.shared.hive, self.choice.value, self.field.box.value, self.view)


def can_change(hive: Hive, names: Sequence[str]) -> list[str]:
    """Those of some sizes that something of this hive is made from, or that are cut for it."""
    made = DIMENSIONS.names(built(hive))
    sources = {s for name in made for s in DIMENSIONS.rests_on(name, hive.measurements)}
    return [n for n in names if n in (sources if n in MEASUREMENTS else made)]


class Sliding(Panel):
    """A slider on marks of the tape with a field as its twin, and the outcome of what it says."""

    at_rest = True

    def __init__(
        self,
        shared: SharedHive,
        name: str,
        marks: Sequence[Fraction],
        outcome: Callable[..., Outcome],
    ) -> None:
        super().__init__(shared)
        self.leads_to, units = outcome, shared.hive.units
        texts = [with_unit(units, mark) for mark in marks]
        usual = "1 in" if units == "inch" else "25 mm"
        self.twin = Slider(
            name, f"{name}, typed", lambda: texts, lambda: usual, self._as_mark, self.show
        )
        self.slider, self.field = self.twin.slider, self.twin.field
        self.message = self.field.message
        shared.watch(self.show)
        self.show()
        self.children = [self.twin, self.picture, self.follows]

    def _as_mark(self, text: str) -> str:
        units = self.shared.hive.units
        return with_unit(units, length_from_text(text, units))

    def outcome(self) -> Outcome:
        """What the text in the field leads to."""
        return self.leads_to(self.shared.hive, self.field.box.value)


# ── pieces as they were cut ───────────────────────────────────────────────────────────────────


class PiecesAsCut(Panel):
    """A choice of part, a field for each of its pieces, and what comes of all that was measured."""

    def __init__(self, shared: SharedHive) -> None:
        super().__init__(shared)
        self.readings = dict[str, str]()
        self.parts = assembly.cut_parts(shared.hive)
        options = [(name, name) for name in self.parts]
        self.part = choice("Part that you measured", options, self._chosen)
        self.fields = ipywidgets.VBox([])
        self._chosen()
        shared.watch(self.show)
        self.children = [self.part, self.fields, self.message, self.follows]

    def _chosen(self) -> None:
        self.fields.children = [self._field(size) for size in self.parts[self.part.value]]
        self.show()

    def _field(self, size: PieceSize) -> Field:
        def answered(text: str) -> str:
            self.readings[size.name] = text
            read = outcomes.as_read(self.shared.hive, text, PIECE_SIZE)
            self.show()
            return read

        name = f"{size.words.capitalize()}, {size.size}"
        blanks = self.message, self.follows
        return Field(name, lambda: self.readings.get(size.name, ""), answered, blanks=blanks)

    def outcome(self) -> Outcome:
        """What comes of all that was measured and can be read; a field tells of the rest."""
        hive, found = self.shared.hive, dict[str, Fraction]()
        for name, text in self.readings.items():
            with suppress(RefusedError):
                if text.strip():
                    found[name] = value_of(PIECE_SIZE, text, hive.units)
        return assembly.pieces_as_cut(hive, found)
