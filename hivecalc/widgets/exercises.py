"""An exercise on the page: its picture, a field or choices, the verdict, hints and steps."""

from collections.abc import Callable, Iterable
from dataclasses import replace

import ipywidgets

from hivecalc.exercise import Case, Exercise, Posed, posed
from hivecalc.hive import Hive
from hivecalc.judging import Verdict
from hivecalc.pages import exercises as pages
from hivecalc.pages.earlier import judged_in
from hivecalc.pages.messages import verdict_message
from hivecalc.widgets.answering import Help, kept_answer
from hivecalc.widgets.field import WIDE, Area, Field, button, picture, safely
from hivecalc.widgets.page_hive import PageHive, to_ask_on


class Choices(ipywidgets.VBox):
    """A button for each thing to choose from, and the message about what was chosen."""

    def __init__(self, options: Iterable[str], answer: Callable[[str], str]) -> None:
        self.answer, self.message = answer, Area(min_height="4.2em")
        self.buttons = {text: button(text, self._chooser(text)) for text in options}
        super().__init__([*self.buttons.values(), self.message])

    def _chooser(self, text: str) -> Callable[[], None]:
        def chosen() -> None:
            self.message.tell(safely(self.answer)(text))

        return chosen


class ExercisePanel(ipywidgets.VBox):
    """One exercise: answered, judged, with three hints, the steps, and other numbers."""

    def __init__(self, page_hive: PageHive, exercise: Exercise) -> None:
        self.page_hive, self.exercise, self.answers = page_hive, exercise, page_hive.answers
        self.case: Case = "given"
        self.prompt, self.picture, self.beginning = Area(), Area(), Area()
        self.entry = ipywidgets.VBox(layout=ipywidgets.Layout(**WIDE))
        self.hints, self.hint_button = Area(), button("Hint", self.hint)
        self.help = Help(self._steps, self._step, self._built, page_hive.answers)
        for area in (self.hints, self.help.steps):
            area.observe(self._count_hints, names="value")
        page_hive.watch(self._hive_changed)
        page_hive.answers.watch(self._judge_again)
        self.put("given")
        super().__init__(
            [
                self.prompt,
                self.beginning,
                self.picture,
                self.entry,
                self._buttons(),
                self.hints,
                self.help,
            ]
        )

    def _buttons(self) -> ipywidgets.Box:
        row = ipywidgets.Layout(**WIDE, flex_flow="row wrap")
        ways = {"Show me the steps": self.help.show_steps}
        if self.exercise.stage != "worked":
            ways["Another one like it"] = self.another
        if self.exercise.own:
            ways["On my own hive"] = self.on_own_hive
        made = {text: button(text, pressed) for text, pressed in ways.items()}
        for text, each in {"Hint": self.hint_button, **made}.items():
            each.tooltip = f"{text}: {self.exercise.id}"
        return ipywidgets.Box([self.hint_button, *made.values()], layout=row)

    # Which numbers

    def put(self, case: Case) -> None:
        """Ask the exercise on these numbers, with the answer that was given to it before."""
        self.case, self.hinted, self.units = case, list[int](), self.page_hive.hive.units
        self.found: Verdict | None = None
        self.rule_shown = False
        own = self._own() if case == "own" else None
        self.asked = posed(self.exercise, case, own, self.page_hive.hive.units)
        self.prompt.tell(pages.prompt(self.asked))
        self.beginning.tell(pages.beginning(self.asked))
        drawn = pages.picture(self.asked)
        self.picture.tell(picture(drawn) if drawn else "")
        self.field = self._field(self.asked)
        self.hints.tell("")
        self.help.clear()
        self.field.message.observe(self._count_hints, names="value")
        self.entry.children = [self.field]
        self._show_last()
        self._count_hints()

    def _own(self) -> Hive:
        return to_ask_on(self.page_hive.hive, self.exercise.asks)

    def _field(self, asked: Posed) -> Field | Choices:
        if asked.options:
            return Choices([o.text for o in asked.options], self._answer)
        label = f"Your answer to {self.exercise.id}"
        return Field(label, str, self._answer, again=self._judged)

    def _show_last(self) -> None:
        last = self.answers.last(self.asked.key)
        if last is None:
            return
        if isinstance(self.field, Field):
            self.field.show(last.answer)
        self.field.message.tell(safely(self._judged)(last.answer))

    def _judge_again(self) -> None:
        """Judge a typed answer again, as it may rest on another one that came since."""
        if isinstance(self.field, Field) and self.field.box.value:
            self.field.message.tell(safely(self._judged)(self.field.box.value))

    def _judged(self, text: str) -> str:
        return self._told(self._verdict(text))

    def _told(self, found: Verdict) -> str:
        """What a verdict says, without a question that stands among the hints."""
        self.found = found
        asked = [self.asked.hints[number - 1] for number in self.hinted]
        return verdict_message(replace(found, question="") if found.question in asked else found)

    def _verdict(self, text: str) -> Verdict:
        return judged_in(self.asked, text, self.answers.all())

    def _hive_changed(self) -> None:
        changed_unit = self.units != self.page_hive.hive.units
        if self.case == "own" or changed_unit:
            self.put(self.case)

    def another(self) -> None:
        """Ask it on the other numbers, and then on the first ones again."""
        self._tell(lambda: self.put("given" if self.case == "alike" else "alike"))

    def on_own_hive(self) -> None:
        """Ask it on the learner's own hive."""
        self._tell(lambda: self.put("own"))

    # Answers and help

    def _answer(self, text: str) -> str:
        found = self._verdict(text)
        self.help.after(found)
        return self._told(found) + kept_answer(self.answers, self.asked.key, found)

    def hint(self) -> None:
        """Show the next hint that does not stand on the page, below those asked for before."""
        self.hinted += self._hints_left()[:1]
        self.hints.tell("".join(pages.hint(self.asked, number) for number in self.hinted))

    def _hints_left(self) -> list[int]:
        """The hints that stand nowhere: a verdict may ask the first, and steps be the second."""
        asks = self.found is not None and self.found.question == self.asked.hints[0]
        rule = self.rule_shown and bool(self.help.steps.value)
        told = {*self.hinted, *([1] if asks else []), *([2] if rule else [])}
        return [number for number in (1, 2, 3) if number not in told]

    def _count_hints(self, _change: object = None) -> None:
        left = len(self._hints_left())
        self.hint_button.description = f"Hint ({left} left)" if left else "No hint left"
        self.hint_button.disabled = not left

    def _steps(self) -> str:
        self.rule_shown = pages.only_the_rule(self.asked)
        return pages.steps(self.asked)

    def _step(self) -> str:
        self.rule_shown = pages.only_the_rule(self.asked, whole=False)
        return pages.open_step(self.asked)

    def _built(self, found: Verdict, tries: int) -> str:
        return pages.built_in(self.asked, found, tries)

    def _tell(self, done: Callable[[], None]) -> None:
        """Do something, and say in the place of the prompt what went wrong, if anything did."""

        def safe() -> str:
            done()
            return ""

        if said := safely(safe)():
            self.prompt.tell(said)
