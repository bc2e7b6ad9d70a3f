"""What every question on a page has: a field, the verdict, and below it the help that comes."""

from collections.abc import Callable
from datetime import datetime

import ipywidgets

from hivecalc.answers import Answers
from hivecalc.hive import HiveFaults
from hivecalc.judging import Verdict
from hivecalc.pages.messages import message, verdict_message
from hivecalc.widgets.field import Area, Field, button, told

TRIES_BEFORE_STEPS = 3


class Help(ipywidgets.VBox):
    """Below a question: after wrong tries the piece as it was answered, built in, and the steps.

    `steps` gives the worked steps, and `built` the picture after so many wrong tries. What can't
    be read is no try.
    """

    def __init__(self, steps: Callable[[], str], built: Callable[[Verdict, int], str]) -> None:
        self._steps, self._built, self.tries = steps, built, 0
        self.steps, self.built = Area(), Area()
        super().__init__([self.built, self.steps])

    def after(self, found: Verdict) -> None:
        """Show what helps after this verdict."""
        if found.right:
            self.clear()
            return
        self.tries += found.verdict in {"slip", "unexplained"}
        self.built.tell(told(self._built)(found, self.tries))
        if self.tries >= TRIES_BEFORE_STEPS:
            self.show_steps()

    def show_steps(self) -> None:
        """Show the worked steps."""
        self.steps.tell(told(self._steps)())

    def clear(self) -> None:
        """Show nothing, and count from the start."""
        self.tries = 0
        for area in (self.built, self.steps):
            area.tell("")


class Question(ipywidgets.VBox):
    """A field for one answer, its verdict, a button for the steps, and the help.

    Every answer is kept under its key, the last one is there when the page is opened again, and it
    is judged again when another answer comes that it may rest on.
    """

    def __init__(
        self, label: str, key: str, judge: Callable[[str], Verdict], help_: Help, answers: Answers
    ) -> None:
        self.key, self.judge, self.help, self.answers = key, judge, help_, answers
        self.field = Field(label, "", self._answer)
        self._show_last()
        answers.watch(self.judge_again)
        super().__init__([self.field, button("Show me the steps", help_.show_steps), help_])

    def _show_last(self) -> None:
        last = self.answers.last(self.key)
        if last:
            self.field.show(last.answer)
            self.judge_again()

    def _answer(self, text: str) -> str:
        found = self.judge(text)
        self.help.after(found)
        said = verdict_message(found)
        self.field.message.tell(said)  # before it is saved: a disk may take its time
        return said + kept_answer(self.answers, self.key, found)

    def judge_again(self) -> None:
        """Judge what stands in the field as things are now; nothing is kept of it."""
        if self.field.box.value:
            self.field.message.tell(told(self._judged)(self.field.box.value))

    def _judged(self, text: str) -> str:
        return verdict_message(self.judge(text))


def kept_answer(answers: Answers, key: str, found: Verdict) -> str:
    """Keep a judged answer in the learner's file, and return what went wrong with that, if so."""
    try:
        answers.add(key, found.answer, found, datetime.now().astimezone())
    except HiveFaults as error:
        return message("wrong", *(str(fault) for fault in error.faults))
    return ""
