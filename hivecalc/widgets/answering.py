"""Questions on a page, of the hive, of a sum or of an exercise: field, verdict, and help."""

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from datetime import datetime
from fractions import Fraction
from functools import lru_cache, partial
from typing import Final

import ipywidgets

from hivecalc import judging
from hivecalc.answers import Answers
from hivecalc.derivation import title
from hivecalc.exercise import Case, Exercise, posed
from hivecalc.exercise.record import question_of, sum_of
from hivecalc.fractions_in_words import Sign, in_words, taught_steps, without_result
from hivecalc.hive import HiveFaults
from hivecalc.judging import SLIPS, Verdict, open_steps
from hivecalc.length import Units, length_from_text
from hivecalc.pages import exercises as pages
from hivecalc.pages.chain import TRIES_BEFORE_STEP
from hivecalc.pages.contents import (
    SHOWN,
    found_on,
    judged_in,
    judged_of_hive,
    last_text,
    on_this_tape,
    right_by_now,
)
from hivecalc.pages.messages import message, picture, refused, verdict_message
from hivecalc.pages.outcomes import as_answered, worked
from hivecalc.widgets.field import WIDE, Area, Field, button
from hivecalc.widgets.page_hive import Made, PageHive, SharedHive, to_ask_on


class Help(ipywidgets.VBox):
    """Below a question: after wrong tries the piece as it was answered, built in, and the steps.

    `built` gives the picture after so many wrong tries, `step` a worked step without its result,
    which comes by itself, and `steps` all of them, for a learner who asks. What can't be read is no
    try.
    """

    def __init__(
        self,
        steps: Callable[[], str],
        step: Callable[[], str],
        built: Callable[[Verdict, int], str],
        answers: Answers,
    ) -> None:
        self._steps, self._step, self._built, self.tries = steps, step, built, 0
        self.steps, self.built, self.practice = Area(), Area(), SumPractice(answers)
        super().__init__([self.built, self.steps, self.practice])

    def after(self, found: Verdict) -> None:
        """Show what helps after this verdict."""
        self.practice.after(found)
        if found.right:
            self.clear()
            return
        self.tries += found.verdict in {"slip", "unexplained"}
        self.built.show(lambda: self._built(found, self.tries))
        if self.tries >= TRIES_BEFORE_STEP:
            self.steps.show(self._step)

    def show_steps(self) -> None:
        """Show the worked steps."""
        self.steps.show(self._steps)

    def clear(self) -> None:
        """Show nothing, and count from the start."""
        self.tries = 0
        for area in (self.built, self.steps):
            area.tell("")


class SumPractice(ipywidgets.VBox):
    """After a slip in a sum, a short sum that practises it, with a field of its own."""

    def __init__(self, answers: Answers) -> None:
        self.answers, self.task = answers, ""
        super().__init__()

    def after(self, found: Verdict) -> None:
        """Offer the sum that practises the slip that was just found; it stays until another is."""
        task = next(filter(None, (SLIPS[slip.name].task for slip in found.slips)), "")
        if task and task != self.task:
            self.task, said = task, Area()
            said.tell(message("note", "Practise that on another sum:"))
            self.children = [said, Sums([task], self.answers)]


class AnswerPanel(ipywidgets.VBox):
    """A field for one answer, its verdict, a button for the steps, and the help.

    Every answer is kept under its key. The last one stands in the field, wherever and whenever it
    was given, and is judged again when another answer comes that it may rest on.
    """

    def __init__(
        self, label: str, key: str, judge: Callable[[str], Verdict], help_: Help, answers: Answers
    ) -> None:
        self.key, self.judge, self.help, self.answers = key, judge, help_, answers
        self.field = Field(label, self._last, self._answer, again=self._judged)
        self.judge_again()
        answers.watch(self.judge_again)
        self.show = button("Show me the steps", help_.show_steps)
        super().__init__([self.field, self.show, help_])

    def _last(self) -> str:
        return last_text(self.answers, self.key)

    def _answer(self, text: str) -> str:
        found = self.judge(text)
        self.help.after(found)
        said = verdict_message(found)
        self.field.message.tell(said)  # before it is saved: a disk may take its time
        return said + kept_answer(self.answers, self.key, found)

    def judge_again(self) -> None:
        """Judge the last answer as things are now; nothing is kept of it."""
        self.field.renew()
        self.field.answer_again()

    def _judged(self, text: str) -> str:
        return verdict_message(self.judge(text))


def kept_answer(answers: Answers, key: str, found: Verdict) -> str:
    """Keep a judged answer in the learner's file, and return what went wrong with that, if so."""
    try:
        answers.add(key, found.answer, found, datetime.now().astimezone())
    except HiveFaults as error:
        return refused(error)
    return ""


def kept_shown(answers: Answers, dimension: str) -> str:
    """Keep that a figure was shown, so that it counts as found; what went wrong with that."""
    return kept_answer(answers, f"{dimension}{SHOWN}", Verdict(dimension, "", "right", ""))


# ── of the hive ───────────────────────────────────────────────────────────────────────────────


class Ask(AnswerPanel):
    """A question for one dimension of this hive, judged with the learner's earlier answers to it.

    When the hive changes, the answer that stands there is judged again for the new one.
    """

    def __init__(self, shared: SharedHive, dimension: str) -> None:
        self.asked_on = Made(shared, partial(to_ask_on, name=dimension))
        self.dimension = dimension
        help_ = Help(self._steps, self._step, self._built, shared.answers)
        label = title(dimension).capitalize()
        super().__init__(label, dimension, self._verdict, help_, shared.answers)
        self.show.on_click(lambda _: self._keep_shown())
        shared.watch(self._hive_changed)

    def _last(self) -> str:
        return on_this_tape(super()._last(), self.asked_on.hive.units)

    def _verdict(self, text: str) -> Verdict:
        return judged_of_hive(self.asked_on.hive, self.dimension, text, self.answers.all())

    def _keep_shown(self) -> None:
        """Keep that the figure was shown: from then on it counts as found."""
        is_found = self.dimension in found_on(self.asked_on.hive, self.answers)
        if not is_found and (fault := kept_shown(self.answers, self.dimension)):
            self.field.message.tell(fault)

    def _steps(self) -> str:
        return worked(self.asked_on.hive, self.dimension)

    def _step(self) -> str:
        hive = self.asked_on.hive
        right = [name for name, so in right_by_now(self.answers.all(), hive).items() if so]
        return message("note", *open_steps(hive, self.dimension, right))

    def _built(self, found: Verdict, tries: int) -> str:
        return as_answered(self.asked_on.hive, self.dimension, found, tries)

    def _hive_changed(self) -> None:
        self.help.clear()
        self.judge_again()


# ── sums on paper ─────────────────────────────────────────────────────────────────────────────

QUESTIONS: Final = {
    ("inch", "+"): "Make the parts equal first. Do they come to more than an inch?",
    ("inch", "−"): "Make the parts equal first. Is there enough fraction to take from?",
    ("mm", "+"): "Begin with the ones. Do they come to more than ten?",
    ("mm", "−"): "Begin with the ones. Are there enough to take from?",
}


def task_verdict(task: str, text: str) -> Verdict:
    """The verdict on the answer to a sum.

    >>> task_verdict("17 1/4 − 2 5/8", "14 5/8").message
    'Right.'
    >>> [slip.name for slip in task_verdict("17 1/4 − 2 5/8", "15 5/8").slips]
    ['inch_not_lowered']
    """
    found = _sum(task).verdict(text)
    if found.verdict != "unexplained":
        return found
    return replace(found, question=QUESTIONS[_units(task), _parts(task)[1]])


@lru_cache(maxsize=64)
def _sum(task: str) -> judging.Question:
    first, sign, second = _parts(task)
    asked = sum_of(f"result = first_length {'+' if sign == '+' else '-'} second_length")
    values = {"first_length": first, "second_length": second}
    values[asked.name] = asked.function(first, second)
    return question_of(asked, values, _units(task))


def _units(task: str) -> Units:
    return "mm" if "mm" in task else "inch"


def _parts(task: str) -> tuple[Fraction, Sign, Fraction]:
    first, sign, second = re.split(r" ([+−]) ", task)
    return length_from_text(first), "+" if sign == "+" else "−", length_from_text(second)


def task_steps(task: str, *, last: bool = True) -> str:
    """The sum step by step, as a builder does it, with what comes of it or without."""
    first, sign, second = _parts(task)
    steps = taught_steps(first, sign, second, _units(task))
    return message("note", *(in_words(steps) if last else without_result(steps)))


class Sums(ipywidgets.VBox):
    """Sums to work out on paper, each with a field for its answer, its verdict and its steps."""

    def __init__(self, tasks: Sequence[str], answers: Answers) -> None:
        panels = list[AnswerPanel]()
        for task in tasks:
            steps, step = partial(task_steps, task), partial(task_steps, task, last=False)
            help_ = Help(steps, step, lambda _found, _tries: "", answers)
            judge = partial(task_verdict, task)
            panels.append(AnswerPanel(f"{task} =", task, judge, help_, answers))
        super().__init__(panels)


# ── exercises ─────────────────────────────────────────────────────────────────────────────────


class Choices(ipywidgets.VBox):
    """A button for each thing to choose from, and the message about what was chosen."""

    def __init__(self, options: Iterable[str], answer: Callable[[str], str]) -> None:
        self.message = Area(min_height="4.2em")
        self.buttons = {
            text: button(text, partial(self.message.show, partial(answer, text)))
            for text in options
        }
        super().__init__([*self.buttons.values(), self.message])


class ExercisePanel(ipywidgets.VBox):
    """One exercise: answered, judged, with three hints, the steps, and other numbers."""

    def __init__(self, page_hive: PageHive, exercise: Exercise) -> None:
        self.page_hive, self.exercise, self.answers = page_hive, exercise, page_hive.answers
        self.prompt, self.picture, self.beginning, self.hints = Area(), Area(), Area(), Area()
        self.entry = ipywidgets.VBox(layout=ipywidgets.Layout(**WIDE))
        self.hint_button = button("Hint", self.hint)
        self.help = Help(self._steps, self._step, self._built, page_hive.answers)
        for area in (self.hints, self.help.steps):
            area.observe(self._count_hints, names="value")
        page_hive.watch(self._hive_changed)
        page_hive.answers.watch(self._judge_again)
        self.put("given")
        top = [self.prompt, self.beginning, self.picture, self.entry]
        super().__init__([*top, self._buttons(), self.hints, self.help])

    def _buttons(self) -> ipywidgets.Box:
        ways = {"Show me the steps": self.help.show_steps}
        if self.exercise.stage != "worked":
            ways["Another one like it"] = self.another
        if self.exercise.own:
            ways["On my own hive"] = self.on_own_hive
        made = {"Hint": self.hint_button} | {text: button(text, do) for text, do in ways.items()}
        for text, each in made.items():
            each.tooltip = f"{text}: {self.exercise.id}"
        row = ipywidgets.Layout(**WIDE, flex_flow="row wrap")
        return ipywidgets.Box([*made.values()], layout=row)

    # Which numbers

    def put(self, case: Case) -> None:
        """Ask the exercise on these numbers, with the answer that was given to it before."""
        self.case, self.hinted, self.units = case, list[int](), self.page_hive.hive.units
        self.found: Verdict | None = None
        self.rule_shown = False
        own = to_ask_on(self.page_hive.hive, self.exercise.asks) if case == "own" else None
        self.asked = posed(self.exercise, case, own, self.units)
        self.prompt.tell(pages.prompt(self.asked))
        self.beginning.tell(pages.beginning(self.asked))
        self.picture.tell(picture(pages.picture(self.asked)))
        self.field = self._field()
        self.hints.tell("")
        self.help.clear()
        self.field.message.observe(self._count_hints, names="value")
        self.entry.children = [self.field]
        self._put_last()
        self._count_hints()

    def _put_last(self) -> None:
        """Show the answer given before, unless it was to the numbers of another tape."""
        last = last_text(self.answers, self.asked.key)
        if self.case == "own":
            last = on_this_tape(last, self.units)
        if not last or self._verdict(last).verdict == "unreadable":
            return
        if isinstance(self.field, Field):
            self.field.show(last)
        self.field.message.show(lambda: self._judged(last))

    def _field(self) -> Field | Choices:
        if self.asked.options:
            return Choices([o.text for o in self.asked.options], self._answer)
        label = f"Your answer to {self.exercise.id}"
        return Field(label, str, self._answer, again=self._judged)

    def _judge_again(self) -> None:
        """Judge a typed answer again, as it may rest on another one that came since."""
        if isinstance(self.field, Field):
            self.field.answer_again()

    def _judged(self, text: str) -> str:
        return self._message(self._verdict(text))

    def _message(self, found: Verdict) -> str:
        """What a verdict says, without a question that stands among the hints."""
        self.found = found
        asked = [self.asked.hints[number - 1] for number in self.hinted]
        return verdict_message(replace(found, question="") if found.question in asked else found)

    def _verdict(self, text: str) -> Verdict:
        return judged_in(self.asked, text, self.answers.all())

    def _hive_changed(self) -> None:
        if self.case == "own" or self.units != self.page_hive.hive.units:
            self.put(self.case)

    def another(self) -> None:
        """Ask it on the other numbers, and then on the first ones again."""
        self._put_safely("given" if self.case == "alike" else "alike")

    def on_own_hive(self) -> None:
        """Ask it on the learner's own hive."""
        self._put_safely("own")

    def _put_safely(self, case: Case) -> None:
        """Ask it on these numbers, and say in the place of the prompt what went wrong."""

        def put() -> str:
            self.put(case)
            return self.prompt.value

        self.prompt.show(put)

    # Answers and help

    def _answer(self, text: str) -> str:
        found = self._verdict(text)
        self.help.after(found)
        return self._message(found) + kept_answer(self.answers, self.asked.key, found)

    def hint(self) -> None:
        """Show the next hint that does not stand on the page, below those asked for before."""
        self.hinted += self._hints_left()[:1]
        self.hints.tell("".join(pages.hint(self.asked, number) for number in self.hinted))

    def _hints_left(self) -> list[int]:
        """The hints that stand nowhere: a verdict may ask the first, and steps be the second."""
        asks = self.found is not None and self.found.question == self.asked.hints[0]
        rule = self.rule_shown and bool(self.help.steps.value)
        given = {*self.hinted, *([1] if asks else []), *([2] if rule else [])}
        return [number for number in (1, 2, 3) if number not in given]

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
