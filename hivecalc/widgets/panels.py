"""The panels of a lesson: fields, a picture, what follows. They show outcomes, and decide none."""

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime
from fractions import Fraction
from functools import partial
from pathlib import Path

import ipywidgets

from hivecalc.answers import Answers
from hivecalc.components import values
from hivecalc.derivation import title
from hivecalc.drawing.tape import tape
from hivecalc.hive import BOX_SIZES, MEASUREMENTS, Hive, HiveFaults
from hivecalc.judging import Verdict
from hivecalc.length import written
from hivecalc.pages import outcomes
from hivecalc.pages.as_answered import as_answered
from hivecalc.pages.earlier import judged_of_hive
from hivecalc.pages.messages import kept, meaning, message, refused, sleeved
from hivecalc.pages.outcomes import Outcome
from hivecalc.pages.progress import learned
from hivecalc.pages.sums import sum_steps, sum_verdict
from hivecalc.pages.workings import worked
from hivecalc.widgets.answering import Help, Question
from hivecalc.widgets.field import Area, Field, button, choice, picture, told
from hivecalc.widgets.keeping import Keeper


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
    value = values(hive)[name]
    return str(value) if MEASUREMENTS[name].kind == "count" else _typed(value, hive)


def _typed(value: Fraction, hive: Hive) -> str:
    """A length in the hive's own units, or in mm where inches can't say it exactly."""
    text = written(value, hive.units)
    return f"{written(value, 'mm').removeprefix('≈ ')} mm" if "≈" in text else text


class Measurements(ipywidgets.VBox):
    """Fields for some measurements, each read, refused or saved, and the last one on a tape."""

    def __init__(self, keeper: Keeper, names: Sequence[str]) -> None:
        self.keeper = keeper
        self.fields = {
            n: Field(label(n), text_of(keeper.hive, n), self._saver(n), now=meaning(n))
            for n in names
        }
        self.tape, self.units = Area(), keeper.hive.units
        self._show_tape(names[0])
        keeper.watch(self._renew)
        super().__init__([*self.fields.values(), self.tape])

    def _renew(self) -> None:
        """Write the figures anew where they are told in another unit now."""
        hive = self.keeper.hive
        if hive.units != self.units:
            self.units = hive.units
            for name, field in self.fields.items():
                field.show(text_of(hive, name))
            self._show_tape(next(iter(self.fields)))

    def _saver(self, name: str) -> Callable[[str], str]:
        def saved(text: str) -> str:
            try:
                hive = self.keeper.keep(name, text)
            except HiveFaults as error:
                return refused(error, name, self.keeper.hive)
            self._show_tape(name)
            return kept(name, hive)

        return saved

    def _show_tape(self, name: str) -> None:
        hive = self.keeper.hive
        drawn = tape(values(hive)[name], hive.units)
        self.tape.tell(picture(drawn, f"{label(name)} on the tape."))


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
        return message("right", f"Saved: {how}; the other unit is read where you write it.")


class HiveName(Field):
    """A field for the hive's own name."""

    def __init__(self, keeper: Keeper) -> None:
        def named(text: str) -> str:
            return message("right", f"Saved: this hive is “{keeper.rename(text).name}”.")

        super().__init__("Name of your hive", keeper.hive.name, named)


class Entries(ipywidgets.VBox):
    """Fields that together lead to one outcome: its message, its picture and what follows."""

    def __init__(
        self, keeper: Keeper, fields: Mapping[str, str], outcome: Callable[..., Outcome]
    ) -> None:
        self.keeper, self.outcome = keeper, outcome
        self.message, self.picture, self.follows = Area(), Area(), Area()
        self.fields = [Field(name, text, self._answer) for name, text in fields.items()]
        self._show()
        keeper.watch(self._show)
        super().__init__([*self.fields, self.message, self.picture, self.follows])

    def _answer(self, text: str) -> str:
        self._show()
        return outcomes.as_read(self.keeper.hive, text) if text.strip() else ""

    def _show(self) -> None:
        self.message.tell(told(self._shown)())

    def _shown(self) -> str:
        found = self.outcome(self.keeper.hive, *(f.box.value for f in self.fields))
        self.picture.tell(picture(found.picture))
        self.follows.tell(found.follows)
        return found.message


class Places(ipywidgets.VBox):
    """Three readings of one size, which of them to use, and a button that uses it."""

    def __init__(self, keeper: Keeper, name: str) -> None:
        self.keeper, self.name = keeper, name
        self.advice = Area(min_height="4.2em")
        self.fields = [
            Field(f"{label(name)}, {place}", "", self._answer)
            for place in ("first place", "in the middle", "last place")
        ]
        use = button(f"Use this {title(name)}", self._use)
        super().__init__([*self.fields, self.advice, use])

    def _answer(self, text: str) -> str:
        self.advice.tell(told(self._advised)())
        return outcomes.as_read(self.keeper.hive, text)

    def _advised(self) -> str:
        return outcomes.three_places([f.box.value for f in self.fields], self.keeper.hive)[1]

    def _use(self) -> None:
        self.advice.tell(told(self._used)())

    def _used(self) -> str:
        texts = [f.box.value for f in self.fields]
        use, _ = outcomes.three_places(texts, self.keeper.hive)
        return kept(self.name, self.keeper.keep(self.name, _typed(use, self.keeper.hive)))


class SleevedBox(ipywidgets.VBox):
    """Three sizes of a box, and a button that makes the hive of it and its sleeve."""

    def __init__(self, keeper: Keeper) -> None:
        self.keeper = keeper
        self.fields = {n: Field(label(n), "", self._answer, now=meaning(n)) for n in BOX_SIZES}
        self.said = Area(min_height="4.2em")
        use = button("My hive is this box in a sleeve", self.use)
        super().__init__([*self.fields.values(), use, self.said])

    def _answer(self, text: str) -> str:
        return outcomes.as_read(self.keeper.hive, text) if text.strip() else ""

    def use(self) -> None:
        """Save the three sizes, all or none."""
        self.said.tell(told(self._used)())

    def _used(self) -> str:
        typed = {n: f.box.value for n, f in self.fields.items()}
        try:
            return sleeved(self.keeper.keep_box(typed))
        except HiveFaults as error:
            return refused(error, "", self.keeper.hive)


class Trial(ipywidgets.VBox):
    """A choice of what to change, a field for its new value, the outcome, and the way back."""

    def __init__(
        self,
        keeper: Keeper,
        names: Sequence[str],
        question: str,
        outcome: Callable[[Hive, str, str, str], Outcome],
        view: str,
    ) -> None:
        self.keeper, self.outcome, self.view = keeper, outcome, view
        self.follows, self.picture = Area(), Area()
        self.choice = choice(question, [(label(n), n) for n in names], self.back)
        self.field = Field("New value", "", self._answer)
        self.back()
        keeper.watch(self.back)
        undo = button("Back to my hive", self.back)
        super().__init__([self.choice, self.field, undo, self.picture, self.follows])

    def back(self) -> None:
        """Show the hive as it is, with nothing changed."""
        hive = self.keeper.hive
        self.field.show(_typed(values(hive)[self.choice.value], hive))
        self.field.message.tell(self._shown(outcomes.unchanged(hive, self.view)))

    def _answer(self, text: str) -> str:
        return self._shown(self.outcome(self.keeper.hive, self.choice.value, text, self.view))

    def _shown(self, found: Outcome) -> str:
        self.picture.tell(picture(found.picture))
        self.follows.tell(found.follows)
        return found.message


class Ask(Question):
    """A question for one dimension of this hive, judged with the learner's earlier answers to it.

    When the hive changes, the answer that stands there is judged again for the new one.
    """

    def __init__(self, keeper: Keeper, dimension: str) -> None:
        self.keeper, self.dimension = keeper, dimension
        help_ = Help(self._steps, self._built)
        super().__init__(label(dimension), dimension, self._verdict, help_, keeper.answers)
        keeper.watch(self._hive_changed)

    def _verdict(self, text: str) -> Verdict:
        kept_before = self.keeper.answers.all()
        return judged_of_hive(self.keeper.hive, self.dimension, text, kept_before)

    def _steps(self) -> str:
        return worked(self.keeper.hive, self.dimension)

    def _built(self, found: Verdict, tries: int) -> str:
        return as_answered(self.keeper.hive, self.dimension, found, tries)

    def _hive_changed(self) -> None:
        self.help.clear()
        self.judge_again()


class Sums(ipywidgets.VBox):
    """Sums to work out on paper, each with a field for its answer, its verdict and its steps."""

    def __init__(self, tasks: Sequence[str], answers: Answers) -> None:
        super().__init__([self._question(task, answers) for task in tasks])

    def _question(self, task: str, answers: Answers) -> Question:
        help_ = Help(partial(sum_steps, task), lambda _found, _tries: "")
        return Question(f"{task} =", task, partial(sum_verdict, task), help_, answers)


class Learned(Area):
    """What the learner's answers show, and what to practise next: counted anew after each one."""

    def __init__(self, answers: Answers) -> None:
        super().__init__()
        self.answers = answers
        self.show()
        answers.watch(self.show)

    def show(self) -> None:
        """Show what the answers show by now."""
        self.tell(told(learned)(self.answers, datetime.now().astimezone().date()))


class Printer(ipywidgets.VBox):
    """A choice of paper, and a button that writes files to print beside the hive file.

    `written` writes them, whole or not at all, and gives their paths; `advice` is said then.
    """

    def __init__(
        self, keeper: Keeper, name: str, written: Callable[..., Sequence[Path]], *advice: str
    ) -> None:
        self.keeper, self.written, self.advice = keeper, written, advice
        self.said = Area(min_height="4.2em")
        self.paper = choice("Paper", [("A4", "a4"), ("Letter", "letter")], self._forget)
        super().__init__([self.paper, button(name, self.make), self.said])

    def _forget(self) -> None:
        self.said.tell("")

    def make(self) -> None:
        """Write the files."""
        self.said.tell(told(self._made)())

    def _made(self) -> str:
        paths = self.written(self.keeper.hive, self.keeper.path, self.paper.value)
        return message("right", *(f"Written: {path.name}" for path in paths), *self.advice)
