"""The walk to one dimension: predict, build the chain, do the sum, see it; or type it at once.

Wiring only: what each entry leads to is decided in `pages/chain.py`.
"""

from collections import Counter as Votes
from collections.abc import Callable, Iterable, Mapping, Sequence
from fractions import Fraction
from typing import Final

import ipywidgets

from hivecalc.derivation import title
from hivecalc.hive import Hive
from hivecalc.judging import Judgement, NamedSlip, Verdict
from hivecalc.judging.chain import MOST_COUNT, chain_verdict, rules_in_words
from hivecalc.pages import chain as pages
from hivecalc.pages.contents import (
    CHAIN,
    PREDICTED,
    SUM,
    found_on,
    judged_of_hive,
    last_text,
    on_this_tape,
)
from hivecalc.pages.messages import message, picture
from hivecalc.widgets.answering import Ask, SumPractice, kept_answer, kept_shown
from hivecalc.widgets.field import LABEL, WIDE, Area, Field, beside, button
from hivecalc.widgets.page_hive import SharedHive, to_ask_on

HIDDEN_WORDS: Final = "\u2003\u2003"
"""Wide spaces in a counter's button: what stands behind them is read aloud and not seen."""


# ── a chain of sizes or of layers ─────────────────────────────────────────────────────────────


class Counter(ipywidgets.Box):
    """One link of a chain with its value, and how often it counts, between two buttons."""

    def __init__(
        self, of: pages.Offered, count: Fraction, by: Fraction, changed: Callable[[], None]
    ) -> None:
        self.name, self.count, self._changed = of.name, count, changed
        self._shown = ipywidgets.HTML()
        self._show()
        less = self._button("−", f"one less: {of.words}", -by)
        more = self._button("+", f"one more: {of.words}", by)
        label = ipywidgets.HTML(
            f'<div class="hc">{of.words} <b>{of.size}</b></div>',
            layout=ipywidgets.Layout(flex="1 1 9em", height="auto"),
        )
        row = ipywidgets.Layout(
            display="flex", flex_flow="row nowrap", align_items="center", width="100%",
            max_width="24em", margin="1px 0",
        )  # fmt: skip
        super().__init__([label, less, self._shown, more], layout=row)
        self.add_class("hc-counter")

    def _button(self, sign: str, said: str, by: Fraction) -> ipywidgets.Button:
        made = button(f"{sign}{HIDDEN_WORDS}{said}", lambda: self.press(by))
        made.tooltip = said
        made.layout.width, made.layout.height, made.layout.flex = "2.8em", "2.4em", "0 0 auto"
        made.add_class("hc-count")
        return made

    def press(self, by: Fraction) -> None:
        """Count the link once more or once less, never beyond what a chain may hold."""
        if abs(self.count + by) <= MOST_COUNT:
            self.count += by
        self._show()
        self._changed()

    def _show(self) -> None:
        sign = "+" if self.count > 0 else "−" if self.count < 0 else ""
        text = f'<div class="hc hc-counted" role="status">{sign}{abs(self.count)}</div>'
        self._shown.value = text


class Links(ipywidgets.VBox):
    """The links that a chain may be built from, each with its counter, a check, and what it says.

    `checked` gives what is said to the chain as it stands, `changed` is called at every press.
    `between` stands between the counters and the check: the bar.
    """

    def __init__(
        self,
        checked: Callable[[], str],
        changed: Callable[[], object] = list,
        between: Sequence[ipywidgets.Widget] = (),
    ) -> None:
        self._checked, self._changed = checked, changed
        self.counters: list[Counter] = []
        self.rows, self.said = ipywidgets.VBox(), Area()
        self.check = button("Check my chain", self.say)
        super().__init__([self.rows, *between, self.check, self.said])

    def offer(
        self,
        links: Iterable[pages.Offered],
        counts: Mapping[str, Fraction],
        by: Fraction = Fraction(1),
        instead: Sequence[ipywidgets.Widget] = (),
    ) -> None:
        """Offer these links, each as often as it counted; `instead` where there are none."""
        none = Fraction(0)
        self.counters = [Counter(o, counts.get(o.name, none), by, self._press) for o in links]
        self.rows.children = self.counters or instead

    @property
    def counts(self) -> dict[str, Fraction]:
        """How often each link counts, without those that do not."""
        return {c.name: c.count for c in self.counters if c.count}

    def say(self) -> None:
        """Say what is right or wrong with the chain."""
        self.said.show(self._checked)

    def _press(self) -> None:
        self.said.tell("")
        self._changed()


class LayerChain(ipywidgets.VBox):
    """A wall's layers to build a chain from, judged by what is in it, and then its sum."""

    def __init__(self, shared: SharedHive) -> None:
        from hivecalc.pages import warmth as page  # noqa: PLC0415 - slow to load

        self.shared, self._page = shared, page
        self.links = Links(lambda: page.judged_layers(shared.hive, self.links.counts))
        self.sum = Field(
            "R of the whole wall",
            str,
            lambda text: page.judged_layers_sum(shared.hive, self.links.counts, text),
        )
        self.renew()
        shared.watch(self.renew)
        build = step("1 · Build the chain: what does heat go through, one after another?")
        super().__init__([build, self.links, step("2 · Do the sum of your chain"), self.sum])

    def renew(self) -> None:
        """Offer the layers of the hive as it is now, keeping how often each counts."""
        layers = self._page.links_offered(self.shared.hive)
        offered = [pages.Offered(one.name, one.name, one.said) for one in layers]
        self.links.offer(offered, self.links.counts)
        self.links.said.tell("")


# ── the walk ──────────────────────────────────────────────────────────────────────────────────


class Prediction(ipywidgets.VBox):
    """What may be predicted, to choose from; on a projector, how many of the class said so.

    There each digit key counts one hand for the choice of that place.
    """

    def __init__(
        self, options: Sequence[tuple[str, str]], kept: str, chosen: Callable[[str], None]
    ) -> None:
        self.choice = toggles(options, kept, chosen)
        self.votes = Votes[str]()
        self.hands = [self._hand(n, text) for n, (text, _) in enumerate(options, 1)]
        row = ipywidgets.Box(self.hands, layout=ipywidgets.Layout(flex_flow="row wrap"))
        row.add_class("hc-votes")
        super().__init__([row, self.choice])

    def _hand(self, number: int, text: str) -> ipywidgets.Button:
        def raised() -> None:
            self.votes[text] += 1
            made.description = f"{number}: {self.votes[text]}"
            made.tooltip = f"{self.votes[text]} for: {text}"

        made = button(f"{number}: 0", raised)
        made.tooltip = f"one hand for: {text}"
        made.add_class("hc-vote")
        return made


class Derive(ipywidgets.VBox):
    """The walk to one dimension of this hive, kept step by step.

    Folded, it asks for the number alone; the walk is there at a press. With the stage "counts" only
    the sizes that belong to the rule are offered.
    """

    links: Links  # there as soon as it is built

    def __init__(
        self,
        shared: SharedHive,
        dimension: str,
        *,
        folded: bool = False,
        stage: pages.Stage = "all",
    ) -> None:
        self.dimension, self.answers, self.stage, self.tries = dimension, shared.answers, stage, 0
        self.at_once, self.card, self.end = Ask(shared, dimension), Area(), Area()
        self.open_button = button("Build the rule, step by step", self.begin)
        self.open_button.tooltip = f"Build the rule of the {title(dimension)}, step by step"
        self.is_open = self.is_built = False
        self._found = self._found_now()
        super().__init__()
        if not folded or any(map(self._last, (PREDICTED, CHAIN))):
            self.begin()
        else:
            self.children = [self.card, self.at_once, self.open_button, self.end]
            self._show_card()
        self.end.show(self._end)
        self.answers.watch(self._found_more)
        shared.watch(self._renew)

    @property
    def hive(self) -> Hive:
        """The hive that it is asked on."""
        return self.at_once.asked_on.hive

    # the panel

    def begin(self) -> None:
        """Show the walk; the field for the number alone stands below it."""
        if self.is_open:
            return
        question, options, *_ = pages.to_predict(self.hive, self.dimension)
        self.predict = Prediction(options, self._last(PREDICTED), self._predicted)
        self.lit = Area(min_height="1px")
        self.lit.add_class("hc-seen")
        self.or_type = step("Or type the figure, if you know it")
        self.middle = ipywidgets.VBox()
        first = [step(f"1 · Predict: {question}"), self.predict] if options else []
        columns = beside([*first, self.middle, self.or_type, self.at_once], [self.lit])
        self.is_open, self.children = True, [columns, self.end]
        if not options or self.predict.choice.value or self._last(CHAIN):
            self.build()
        else:
            self._draw()

    def build(self) -> None:
        """Show the chain and its sum: as soon as something was predicted."""
        if self.is_built:
            return
        self.is_built = True
        self.bar, self.step, self.practice = Area(), Area(), SumPractice(self.answers)
        self.links = Links(self._checked, self._changed, [self.bar])
        rules = [rule.words for rule in rules_in_words(self.hive, self.dimension)]
        kept = self._last(CHAIN)
        self.rule = toggles([(words, words) for words in rules], kept)
        self.rule.description, self.rule.layout.flex_flow = "The rule is", "column"
        comes_to = f"{title(self.dimension).capitalize()}, by your chain"
        self.sum = Field(comes_to, lambda: self._last(SUM), self._answered)
        self.whole = button("Show me the whole sum", self._show_whole)
        _shown(self.whole, so=False)
        sum_parts = [self.sum, self.step, self.whole, self.practice]
        self.sum_box = ipywidgets.VBox([step("3 · Do the sum of your chain"), *sum_parts])
        self._offer(kept)
        asks = "Build the rule: what counts, and how often?" if self.counters else "Choose the rule"
        build = step(f"2 · {asks}" if self.predict.hands else asks)
        self.middle.children = [build, self.card, self.links, self.sum_box]
        _shown(self.sum_box, so=bool(self.chain))

    def _show_card(self) -> None:
        self.card.show(lambda: pages.hive_card(self.hive, self.dimension, self._found_now()))

    def _offer(self, kept: str) -> None:
        """Offer the sizes of the hive as it is, each as often as it was kept."""
        offered = pages.sizes_offered(self.hive, self.dimension, self._found_now(), self.stage)
        counts = pages.kept_chain(kept, [o.name for o in offered])
        by = pages.step_of_count(self.hive, self.dimension)
        self.links.offer(offered, counts, by, [self.rule])
        self.links.check.description = "Check my chain" if offered else "Check my rule"
        if offered:
            self.card.tell("")
        else:
            self._show_card()
        self._draw()

    @property
    def counters(self) -> list[Counter]:
        """The counters that are shown."""
        return self.links.counters if self.is_built else []

    @property
    def chain(self) -> Mapping[str, Fraction]:
        """The chain as it stands now."""
        return self.links.counts if self.is_built else {}

    # what is entered

    def _predicted(self, word: str) -> None:
        fits = word == pages.to_predict(self.hive, self.dimension).right
        self.build()
        self.links.said.tell(self._keep(PREDICTED, word, "right" if fits else "unexplained"))

    def _changed(self) -> None:
        for area in (self.sum.message, self.step):
            area.tell("")
        self._tried(0)
        self._draw()

    def _tried(self, tries: int) -> None:
        self.tries = tries
        _shown(self.whole, so=tries >= pages.TRIES_BEFORE_SUM)

    def _draw(self) -> None:
        _shown(self.or_type, so=not self._is_found())
        if self.is_built:
            self.bar.show(self._bar)
        drawn = pages.drawing_of
        found = self._found_now()
        self.lit.show(lambda: picture(drawn(self.hive, self.dimension, self.chain, found)))

    def _bar(self) -> str:
        if not self.counters:
            return ""
        solved = self._is_found() and self._is_right()
        return picture(pages.bar_of(self.hive, self.dimension, self.chain, solved=solved))

    def _checked(self) -> str:
        """What is right or wrong with the chain, which is kept; or with the rule in words."""
        if not self.counters:
            words = self.rule.value or ""
            right, said = pages.rule_message(self.hive, self.dimension, words)
            return said + (self._keep(CHAIN, words, "right" if right else "slip") if words else "")
        found = chain_verdict(self.hive, self.dimension, self.chain)
        said = pages.chain_message(found)
        if not self.chain:
            return said
        _shown(self.sum_box, so=True)
        if self.sum.box.value:
            _, again = pages.judged_sum(self.hive, self.dimension, self.chain, self.sum.box.value)
            self.sum.message.tell(again)
        return said + self._keep(CHAIN, pages.chain_text(self.chain), found.verdict, found.slips)

    def _is_right(self) -> bool:
        return bool(self.chain) and chain_verdict(self.hive, self.dimension, self.chain).right

    def _answered(self, text: str) -> str:
        if not self.chain:
            return message("note", "Build your chain first.")
        found, said = pages.judged_sum(self.hive, self.dimension, self.chain, text)
        self._tried(0 if found.right else self.tries + (found.verdict != "unreadable"))
        self.step.tell(pages.sum_help(self.hive, self.chain, found, self.tries))
        self.practice.after(found)
        said += self._keep(SUM, text, found.verdict, found.slips)
        if found.right and self._is_right():
            whole = judged_of_hive(self.hive, self.dimension, text, self.answers.all())
            said += kept_answer(self.answers, self.dimension, whole)
        return said

    def _show_whole(self) -> None:
        """Show the whole sum; of a right chain that is the figure itself, which counts as shown."""
        self.step.show(lambda: pages.whole_sum(self.hive, self.chain))
        if self._is_right():
            self.sum.message.tell(kept_shown(self.answers, self.dimension))

    # what is kept

    def _last(self, kept_step: str) -> str:
        return on_this_tape(
            last_text(self.answers, f"{self.dimension}{kept_step}"), self.hive.units
        )

    def _keep(
        self, kept_step: str, text: str, judged: Judgement, slips: tuple[NamedSlip, ...] = ()
    ) -> str:
        """Keep a step, and return what went wrong with that, if anything did."""
        found = Verdict(self.dimension, text, judged, "", slips=slips)
        return kept_answer(self.answers, f"{self.dimension}{kept_step}", found)

    # what follows

    def _found_now(self) -> frozenset[str]:
        return found_on(self.hive, self.answers)

    def _is_found(self) -> bool:
        return self.dimension in self._found_now()

    def _found_more(self) -> None:
        """Show what was found since; most answers leave it as it is."""
        found = self._found_now()
        if new := found ^ self._found:
            self._found = found
            if self.is_open and pages.may_change_drawing(self.dimension, new):
                self._draw()
            self.end.show(self._end)

    def _end(self) -> str:
        if not self._is_found():
            return ""
        return pages.seen(self.hive, self.dimension, self._last(PREDICTED))

    def _renew(self) -> None:
        """Begin anew on another hive; what was built there stands if it can."""
        if self.is_built:
            self._offer(pages.chain_text(self.chain))
            self.links.said.tell("")
            self._changed()
        elif self.is_open:
            self._draw()
        else:
            self._show_card()
        self.end.show(self._end)


class Waiting(ipywidgets.VBox):
    """A panel that would give figures away: there as soon as they are found, or asked for.

    `panel` makes it. That somebody had the figures shown is kept, as "Show me" is.
    """

    def __init__(
        self, shared: SharedHive, names: Sequence[str], panel: Callable[[], ipywidgets.DOMWidget]
    ) -> None:
        self.shared, self.names, self._panel = shared, names, panel
        self.said, self.is_open = Area(), False
        self.show = button("Show these figures", self.show_all)
        super().__init__([self.said, self.show])
        self._look()
        shared.answers.watch(self._look)
        shared.watch(self._look)

    def _look(self) -> None:
        """Show the panel if nothing is left to find; once it stands there, it stays."""
        if self.is_open:
            return
        if left := left_to_find(self.shared, self.names):
            self.said.tell(message("note", pages.waiting(left)))
        else:
            self.is_open, self.children = True, [self._panel()]

    def show_all(self) -> None:
        """Show all figures that are still to be found, and keep that they were shown."""
        self.said.show(lambda: all_shown(self.shared, self.names))


def left_to_find(shared: SharedHive, names: Iterable[str]) -> list[str]:
    """Those of some dimensions that were not found yet, each on the hive it is asked on."""
    hives = {name: to_ask_on(shared.hive, name) for name in names}
    found = found_on(shared.hive, shared.answers)
    if made := next((hive for hive in hives.values() if hive is not shared.hive), None):
        found_on_made = found_on(made, shared.answers)
    return [n for n, h in hives.items() if n not in (found if h is shared.hive else found_on_made)]


def all_shown(shared: SharedHive, names: Iterable[str]) -> str:
    """Keep that all these figures were shown; what went wrong with that comes back, if anything."""
    left = left_to_find(shared, names)
    return next(filter(None, (kept_shown(shared.answers, name) for name in left)), "")


def toggles(
    options: Sequence[tuple[str, str]], kept: str, chosen: Callable[[str], None] | None = None
) -> ipywidgets.ToggleButtons:
    """Buttons of which one is pressed: the one that was kept, or none yet."""
    made = ipywidgets.ToggleButtons(
        options=options,
        value=kept if kept in dict(options).values() else None,
        style={"button_width": "auto", **LABEL},
        layout=ipywidgets.Layout(**WIDE, height="auto"),
    )
    if chosen:
        made.observe(lambda change: change["new"] and chosen(change["new"]), names="value")
    return made


def step(name: str) -> ipywidgets.HTML:
    """The heading of one step of a walk."""
    heading = f'<div class="hc hc-step" role="heading" aria-level="4">{name}</div>'
    return ipywidgets.HTML(heading)


def _shown(part: ipywidgets.Widget, *, so: bool) -> None:
    part.layout.display = "" if so else "none"
