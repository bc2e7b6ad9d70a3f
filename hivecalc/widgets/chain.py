"""The walk to one dimension: predict, build the chain, do the sum, see it; or type it at once.

Wiring only: what each entry leads to is decided in `pages/chain.py`.
"""

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime
from fractions import Fraction
from typing import Final

import ipywidgets

from hivecalc.answers import Answers
from hivecalc.derivation import title
from hivecalc.hive import Hive, HiveFaults
from hivecalc.judging import Judgement, Verdict
from hivecalc.judging.chain import chain_verdict, rules_in_words
from hivecalc.pages import chain as steps
from hivecalc.pages.earlier import judged_of_hive
from hivecalc.pages.found import CHAIN, PREDICTED, SHOWN, SUM, found_on, still_to_find
from hivecalc.pages.messages import message
from hivecalc.widgets.answering import Ask, kept_answer
from hivecalc.widgets.field import Area, Field, button, choice, picture, told
from hivecalc.widgets.keeping import Look, to_ask_on

HIDDEN_WORDS: Final = "\u2003\u2003"
"""Wide spaces in a counter's button: what stands behind them is read aloud and not seen."""
NO_BREAK: Final = "\u00a0"
CHOOSE: Final = "choose …"
STYLE: Final = """<style>
.hc-count.jupyter-widgets.widget-button { padding: 0; overflow: hidden; text-align: left;
  text-indent: .95em; text-overflow: clip; white-space: nowrap; font-weight: bold; }
.hc-counted { width: 2.4em; text-align: center; font-weight: bold; font-size: 1.15em; }
.hc-step { font-size: 1.05em; font-weight: bold; margin: .8em 0 .2em; }
</style>"""


class Counter(ipywidgets.Box):
    """One size of a chain with its value, and how often it counts, between two buttons."""

    def __init__(
        self, of: steps.Offered, count: Fraction, by: Fraction, changed: Callable[[], None]
    ) -> None:
        self.name, self.count, self._changed = of.name, count, changed
        size = of.size.replace(" ", NO_BREAK)
        label = f'<div class="hc">{of.words} <b>{size}</b></div>'
        self._shown = ipywidgets.HTML()
        self._show()
        less, more = (
            self._button(sign, f"{said} {of.words}", step)
            for sign, said, step in (("−", "one less:", -by), ("+", "one more:", by))
        )
        row = ipywidgets.Layout(
            display="flex", flex_flow="row nowrap", align_items="center", width="100%",
            max_width="24em", margin="1px 0",
        )  # fmt: skip
        name = ipywidgets.HTML(label, layout=ipywidgets.Layout(flex="1 1 9em", height="auto"))
        super().__init__([name, less, self._shown, more], layout=row)

    def _button(self, sign: str, said: str, by: Fraction) -> ipywidgets.Button:
        made = button(f"{sign}{HIDDEN_WORDS}{said}", lambda: self.press(by))
        made.tooltip = said
        made.layout.width, made.layout.height, made.layout.flex = "2.8em", "2.4em", "0 0 auto"
        made.add_class("hc-count")
        return made

    def press(self, by: Fraction) -> None:
        """Count the size once more or once less, never beyond what a chain may hold."""
        self.count = steps.changed_count(self.count, by)
        self._show()
        self._changed()

    def _show(self) -> None:
        self._shown.value = (
            f'<div class="hc hc-counted" role="status">{steps.count_told(self.count)}</div>'
        )


class Derive(ipywidgets.VBox):
    """The walk to one dimension of this hive, kept step by step."""

    def __init__(self, keeper: Look, dimension: str) -> None:
        self.keeper, self.dimension, self.answers = keeper, dimension, keeper.answers
        self.tries = 0
        self.counters: list[Counter] = []
        self.at_once = Ask(keeper, dimension)
        self._build()
        self.answers.watch(self._found_more)
        keeper.watch(self._renew)
        super().__init__([ipywidgets.HTML(STYLE), self.walk, self.end])
        self._found_more()

    @property
    def hive(self) -> Hive:
        """The hive that it is asked on."""
        return to_ask_on(self.keeper.hive, self.dimension)

    # the panel

    def _build(self) -> None:
        question, options = steps.prediction(self.hive, self.dimension)
        kept = self._last(PREDICTED)
        known = kept if kept in {word for _, word in options} else None
        self.predict = ipywidgets.ToggleButtons(
            options=options,
            value=known,
            style={"button_width": "auto"},
            layout=ipywidgets.Layout(width="100%", max_width="46em", height="auto"),
        )
        self.predict.observe(lambda _: self._predicted(), names="value")
        self.rows, self.bar, self.lit = ipywidgets.VBox(), Area(), Area(min_height="1px")
        rules = [(r.words, r.words) for r in rules_in_words(self.hive, self.dimension)]
        self.rule = choice("The rule is", [(CHOOSE, ""), *rules], lambda: None)
        self.check = button("Check my chain", self.check_chain)
        self.chain_said, self.step, self.end = Area(), Area(), Area()
        comes_to = f"{title(self.dimension).capitalize()}, by your chain"
        self.sum = Field(comes_to, lambda: self._last(SUM), self._answered)
        build = step("2 · Build the rule: what counts, and how often?")
        self.chain_part = ipywidgets.VBox([build, self.rows, self.bar, self.check, self.chain_said])
        self.sum_box = ipywidgets.VBox([step("3 · Do the sum of your chain"), self.sum, self.step])
        at_once = [step("Or type the length, if you know it"), self.at_once]
        left = self._column([self.chain_part, self.sum_box, *at_once])
        first = step(f"1 · Predict: {question}")
        self.walk = ipywidgets.VBox(
            [first, self.predict, self._row([left, self._column([self.lit])])]
        )
        _shown(self.chain_part, so=bool(known or self._last(CHAIN)))
        self._offer(self._last(CHAIN))
        _shown(self.sum_box, so=bool(self.chain))

    @staticmethod
    def _column(parts: list[ipywidgets.Widget]) -> ipywidgets.VBox:
        return ipywidgets.VBox(parts, layout=ipywidgets.Layout(flex="1 1 20em", min_width="0"))

    @staticmethod
    def _row(parts: list[ipywidgets.Widget]) -> ipywidgets.Box:
        layout = ipywidgets.Layout(display="flex", flex_flow="row wrap", width="100%")
        return ipywidgets.Box(parts, layout=layout)

    def _offer(self, kept: str) -> None:
        """Offer the sizes of the hive as it is, each as often as it was kept."""
        found = found_on(self.hive, self.answers)
        offered = steps.sizes_offered(self.hive, self.dimension, found)
        counts = steps.kept_chain(kept, [o.name for o in offered])
        by = steps.step_of_count(self.hive, self.dimension)
        nothing = Fraction(0)
        self.counters = [
            Counter(o, counts.get(o.name, nothing), by, self._changed) for o in offered
        ]
        self.rows.children = self.counters or [self.rule]
        self._draw()

    @property
    def chain(self) -> Mapping[str, Fraction]:
        """The chain as it stands now."""
        return {c.name: c.count for c in self.counters if c.count}

    # what is entered

    def _predicted(self) -> None:
        word = self.predict.value
        if word:
            fits = steps.prediction_fits(self.hive, self.dimension, word)
            kept = self._keep(PREDICTED, word, "right" if fits else "unexplained")
            self.chain_said.tell(kept)
            _shown(self.chain_part, so=True)
            self._draw()

    def _changed(self) -> None:
        for area in (self.chain_said, self.sum.message, self.step):
            area.tell("")
        self.tries = 0
        self._draw()

    def _draw(self) -> None:
        self.bar.tell(told(self._bar)())
        self.lit.tell(told(self._drawing)())

    def _bar(self) -> str:
        if not self.counters or self.chain_part.layout.display == "none":
            return ""
        solved = self._is_found() and self._is_right()
        return picture(steps.bar_of(self.hive, self.dimension, self.chain, solved=solved))

    def _drawing(self) -> str:
        found = found_on(self.hive, self.answers)
        drawn = steps.drawing_of(self.hive, self.dimension, self.chain, found)
        return picture(drawn) if drawn else ""

    def check_chain(self) -> None:
        """Say what is right or wrong with the chain, and keep it."""
        self.chain_said.tell(told(self._checked)())

    def _checked(self) -> str:
        if not self.counters:
            return self._rule_checked()
        found = chain_verdict(self.hive, self.dimension, self.chain)
        said = steps.chain_told(found)
        if not self.chain:
            return said
        _shown(self.sum_box, so=True)
        if self.sum.box.value:
            _, again = steps.judged_sum(self.hive, self.dimension, self.chain, self.sum.box.value)
            self.sum.message.tell(again)
        slips = found.slips
        verdict = Verdict(self.dimension, "", found.verdict, found.message, slips=slips)
        return said + self._keep(CHAIN, steps.chain_text(self.chain), verdict)

    def _rule_checked(self) -> str:
        """The verdict on the rule that was chosen in words, for what is no plain chain."""
        words = self.rule.value
        if not words:
            return message("note", "Choose a rule first.")
        right, said = steps.rule_told(self.hive, self.dimension, words)
        return said + self._keep(CHAIN, words, "right" if right else "slip")

    def _is_right(self) -> bool:
        return bool(self.chain) and chain_verdict(self.hive, self.dimension, self.chain).right

    def _answered(self, text: str) -> str:
        if not self.chain:
            return message("note", "Build your chain first.")
        found, said = steps.judged_sum(self.hive, self.dimension, self.chain, text)
        self.tries = 0 if found.right else self.tries + (found.verdict != "unreadable")
        self.step.tell("" if found.right else steps.sum_step(self.hive, self.chain, self.tries))
        said += self._keep(SUM, text, found)
        if found.right and self._is_right():
            whole = judged_of_hive(self.hive, self.dimension, text, self.answers.all())
            said += kept_answer(self.answers, self.dimension, whole)
        return said

    # what is kept

    def _last(self, step: str) -> str:
        last = self.answers.last(f"{self.dimension}{step}")
        return last.answer if last else ""

    def _keep(self, step: str, text: str, judged: Judgement | Verdict) -> str:
        found = judged
        if not isinstance(found, Verdict):
            found = Verdict(self.dimension, text, found, "")
        try:
            key = f"{self.dimension}{step}"
            self.answers.add(key, text, found, datetime.now().astimezone())
        except HiveFaults as error:
            return message("wrong", *(str(fault) for fault in error.faults))
        return ""

    # what follows

    def _is_found(self) -> bool:
        return not still_to_find([self.dimension], self.hive, self.answers)

    def _found_more(self) -> None:
        self._draw()
        self.end.tell(told(self._end)())

    def _end(self) -> str:
        if not self._is_found():
            return ""
        return steps.seen(self.hive, self.dimension, self._last(PREDICTED))

    def _renew(self) -> None:
        """Begin anew on another hive; what was built there stands if it can."""
        self._offer(steps.chain_text(self.chain))
        self._changed()
        self._found_more()


class Waiting(ipywidgets.VBox):
    """A panel that would give figures away: there as soon as they are found, or asked for.

    `panel` makes it. That somebody had the figures shown is kept, as "Show me" is.
    """

    def __init__(
        self, keeper: Look, names: Sequence[str], panel: Callable[[], ipywidgets.DOMWidget]
    ) -> None:
        self.keeper, self.names, self._panel = keeper, names, panel
        self.said, self.is_open = Area(), False
        self.show = button("Show all figures", self.show_all)
        super().__init__([self.said, self.show])
        self._look()
        keeper.answers.watch(self._look)
        keeper.watch(self._look)

    def _look(self) -> None:
        """Show the panel if nothing is left to find; once it stands there, it stays."""
        if self.is_open:
            return
        left = still_to_find(self.names, to_ask_on(self.keeper.hive, self.names[0]), self._answers)
        if left:
            self.said.tell(message("note", steps.waiting(left)))
        else:
            self.is_open, self.children = True, [self._panel()]

    @property
    def _answers(self) -> Answers:
        return self.keeper.answers

    def show_all(self) -> None:
        """Show all figures that are still to be found, and keep that they were shown."""
        self.said.tell(told(self._all_shown)())

    def _all_shown(self) -> str:
        hive = to_ask_on(self.keeper.hive, self.names[0])
        for name in still_to_find(self.names, hive, self._answers):
            shown = Verdict(name, "", "right", "")
            self._answers.add(f"{name}{SHOWN}", "", shown, datetime.now().astimezone())
        return ""


def step(name: str) -> ipywidgets.HTML:
    """The heading of one step of a walk."""
    return ipywidgets.HTML(f'<div class="hc hc-step" role="heading" aria-level="4">{name}</div>')


def _shown(part: ipywidgets.Widget, *, so: bool) -> None:
    part.layout.display = "" if so else "none"
