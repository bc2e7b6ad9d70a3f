"""The panels of lesson 08: pieces as they were cut, and many hives built with some care."""

from contextlib import suppress
from fractions import Fraction
from typing import cast

import ipywidgets

from hivecalc.as_built import HABITS, KINDS, Care, Habit, usual_care
from hivecalc.built import PieceSize
from hivecalc.derivation import title
from hivecalc.fit import RULES, rules_of
from hivecalc.hive import Hive
from hivecalc.length import LengthError, length_from_text, with_unit
from hivecalc.pages import checks, outcomes
from hivecalc.pages.messages import message
from hivecalc.widgets.field import Area, Field, choice, told
from hivecalc.widgets.keeping import Look

FIRST_RULE = "bottom_board.panel_play_along"


class PiecesAsCut(ipywidgets.VBox):
    """A choice of part, a field for each of its pieces, and what comes of all that was measured."""

    def __init__(self, keeper: Look) -> None:
        self.keeper, self.readings = keeper, dict[str, str]()
        self.parts = checks.cut_parts(keeper.hive)
        options = [(name, name) for name in self.parts]
        self.part = choice("Part that you measured", options, self._chosen)
        self.fields = ipywidgets.VBox([])
        self.message, self.follows = Area(), Area()
        self._chosen()
        keeper.watch(self._show)
        super().__init__([self.part, self.fields, self.message, self.follows])

    def _chosen(self) -> None:
        sizes = self.parts[self.part.value]
        self.fields.children = [self._field(size) for size in sizes]
        self._show()

    def _field(self, size: PieceSize) -> Field:
        def answered(text: str) -> str:
            self.readings[size.name] = text
            read = outcomes.as_read(self.keeper.hive, text) if text.strip() else ""
            self._show()
            return read

        label = f"{size.words.capitalize()}, {size.size}"
        return Field(
            label,
            lambda: self.readings.get(size.name, ""),
            answered,
            blanks=(self.message, self.follows),
        )

    def _read(self) -> dict[str, Fraction]:
        """What was measured and can be read; the rest is told beside its field."""
        found = {}
        for name, text in self.readings.items():
            with suppress(LengthError):
                if text.strip():
                    found[name] = length_from_text(text, self.keeper.hive.units)
        return found

    def _show(self) -> None:
        self.message.tell(told(self._shown, self.follows)())

    def _shown(self) -> str:
        found = checks.pieces_as_cut(self.keeper.hive, self._read())
        self.follows.tell(found.follows)
        return found.message


class ManyHives(ipywidgets.VBox):
    """How far off each kind of work is, a habit, and what comes of it: all rules, and one."""

    def __init__(self, keeper: Look) -> None:
        self.keeper = keeper
        self.message, self.follows = Area(), Area()
        self.one, self.shares = Area(), Area()
        self.fields = {kind: self._field(kind, words) for kind, words in KINDS.items()}
        habits = [(words, habit) for habit, words in HABITS.items()]
        self.habit = choice("Habit", habits, self._show)
        self.habit.layout.width = "auto"
        rules = [(_rule_words(n), n) for n in rules_of(keeper.hive) if RULES[n].level != "note"]
        self.rule = choice("One rule, three ways", rules, self._show, FIRST_RULE)
        self.rule.layout.width = "auto"
        self._show()
        keeper.watch(self._renew)
        super().__init__(
            [
                *self.fields.values(),
                self.habit,
                self.message,
                self.follows,
                self.rule,
                self.one,
                self.shares,
            ]
        )

    def _field(self, kind: str, words: str) -> Field:
        def usual(hive: Hive) -> str:
            return with_unit(hive.units, usual_care(hive).amounts[kind])

        def answered(text: str) -> str:
            self._show()
            return outcomes.as_read(self.keeper.hive, text)

        note = message("note", f"{words[0].upper()}{words[1:]}, more or less.")
        return Field(
            f"Off by, {kind}",
            lambda: usual(self.keeper.hive),
            answered,
            now=lambda: note,
        )

    def _renew(self) -> None:
        for field in self.fields.values():
            field.renew()
        self._show()

    def _show(self) -> None:
        """Show what comes of it; nothing where an amount can't be read, which its field says."""
        areas = self.message, self.follows, self.one, self.shares
        for area in areas:
            area.tell("")
        if self._can_be_read():
            self.message.tell(told(self._shown, *areas)())

    def _can_be_read(self) -> bool:
        with suppress(LengthError):
            for field in self.fields.values():
                length_from_text(field.box.value, self.keeper.hive.units)
            return True
        return False

    def _shown(self) -> str:
        hive, asked = self.keeper.hive, self._asked()
        many = checks.many_hives(hive, *asked)
        one = checks.three_ways(hive, self.rule.value, *asked)
        self.follows.tell(many.follows)
        self.one.tell(one.message)
        self.shares.tell(one.follows)
        return many.message

    def _asked(self) -> tuple[Care, Habit]:
        texts: dict[str, str] = {kind: field.box.value for kind, field in self.fields.items()}
        return checks.care_of(self.keeper.hive, texts), cast("Habit", self.habit.value)


def _rule_words(name: str) -> str:
    return f"{title(name.partition('.')[0])}: {title(name)}"
