"""One answer, judged in stages: is it right, right for an earlier answer, a slip, or none."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from typing import Final

from hivecalc.components import COURSE
from hivecalc.derivation import Dimension, Values, title
from hivecalc.judging.answer import (
    HAIR,
    ONE_MARK,
    TENTH_OF_MM,
    Entry,
    in_units,
    is_mark,
    is_right,
    list_form,
    stands_for,
)
from hivecalc.judging.arithmetic import in_order
from hivecalc.judging.sheet import SLIPS, Candidate, Sheet, at_step
from hivecalc.judging.slip import LINE, Wrong
from hivecalc.judging.verdicts import Judgement, NamedSlip, Verdict
from hivecalc.length import Rounding, likely_meant
from hivecalc.support.faults import sentence

MOST_SLIPS: Final = 3
NOT_EXPECTED: Final = "Not yet: this is not the value expected."
UNFINISHED: Final = "Right so far: now carry the inch."
SLIP_MESSAGE: Final = "This is what you would get if"
_FAMILIES: Final = {"rule": 0, "sums": 1, "tape": 2, "writing": 2}


@dataclass(frozen=True)
class Case:
    """One answer to judge, with all that it is judged by."""

    sheet: Sheet
    asked: Dimension
    entry: Entry
    earlier: Values

    @property
    def value(self) -> Fraction:
        """The answer as it was read."""
        return self.entry.value

    @cached_property
    def truth(self) -> Fraction:
        """The right value."""
        return self.sheet.values[self.asked.name]

    # right

    def right(self) -> Verdict | None:
        """The verdict if the answer is the value or what may be cut instead of it."""
        if not self.sheet.is_right(self.asked.name, self.value):
            return None
        judged: Judgement = "right" if self._in_form else "right_other_form"
        form = "" if self._in_form else self._form(self.truth)
        told = f"Right{self._closeness(self.truth)}"
        if self.entry.is_unfinished:
            told, form = UNFINISHED, self._form(self.value)
        verdict = self._verdict(judged, f"{told}{form}", self.truth)
        return replace(verdict, on_list=self._listed(self.truth))

    @property
    def _in_form(self) -> bool:
        """Whether it stands as on a cutting list; a fall stands on none, so any form will do."""
        return self.asked.kind == "ratio" or self.entry.is_list_form

    def _form(self, expected: Fraction) -> str:
        """How the answer is written on a cutting list, or which mark of a tape comes nearest."""
        inches = self.sheet.units == "inch" and self._rounding is Rounding.NEAREST
        if inches and not is_mark(expected):
            return f" The nearest mark of a tape is {self._listed(expected)}."
        return f" On a cutting list it is written {self._listed(expected)}."

    def _listed(self, expected: Fraction) -> str:
        return list_form(self._target(expected), self.asked, self.sheet.units)

    def _target(self, expected: Fraction) -> Fraction:
        """What is written on the list of this hive; of a carried answer, that answer rounded."""
        if expected == self.truth:
            return self.sheet.mark(self.asked.name)
        exact = abs(self.value - expected) <= HAIR or self._rounding is Rounding.NEAREST
        return expected if exact else self.value

    @property
    def _rounding(self) -> Rounding:
        return self.asked.rule.rounding

    def _closeness(self, expected: Fraction) -> str:
        if abs(self.value - expected) <= HAIR:
            return "."
        if self._rounding is Rounding.NEAREST:
            return ", to the nearest mark."
        return f", and on the safe side. {self._reason}"

    @property
    def _reason(self) -> str:
        """Why the size is rounded to one side, as a sentence."""
        return f"{sentence(self.asked.rule.reason.rstrip('.'))}."

    def _side(self, expected: Fraction) -> bool | None:
        over = self.value - expected
        if abs(over) > 2 * ONE_MARK:
            return None
        sides = {Rounding.DOWN: over <= HAIR, Rounding.UP: over >= -HAIR}
        return sides.get(self._rounding)

    # an earlier answer carried on

    def carried(self) -> Verdict | None:
        """The verdict if the answer is right for what the learner answered earlier."""
        for given, source in self._carries():
            for expected in self.sheet.worked_from(self.asked, given):
                if expected > 0 and is_right(self.value, expected, self.asked):
                    return self._carried_verdict(source, expected)
        return None

    def _carries(self) -> Iterator[tuple[Values, str]]:
        """The earlier answers to go on from, all of them first, with the one to look at again."""
        right = {n: v for n, v in self.earlier.items() if self._was_right(n)}
        exact = {n: self.sheet.values[n] for n in right}
        rounded_ones = [n for n in self._order() if n in right and right[n] != exact[n]]
        wrong = [n for n in self._order(right) if n in self.earlier and n not in right]
        if wrong or rounded_ones:
            yield self.earlier, (wrong or rounded_ones[::-1])[0]
        for name in wrong:
            yield {**exact, name: self.earlier[name]}, name

    def _order(self, stops: Iterable[str] = ()) -> tuple[str, ...]:
        """The steps before this one, the deepest first; not what lies only behind the stops."""
        return in_order(self.asked.name, self.sheet.known.union(stops))[:-1] if self.earlier else ()

    def _was_right(self, name: str) -> bool:
        return self.sheet.is_right(name, self.earlier[name])

    def _carried_verdict(self, source: str, expected: Fraction) -> Verdict:
        name, before = title(source), in_units(self.earlier[source], self.sheet.units)
        message = f"Right, worked on from your {name} of {before}{self._closeness(expected)}"
        question = ""
        if self._was_right(source):
            message += f" You rounded the {name}, so this one comes out a hair different."
        else:
            message += f" This step is well done; look at that {name} again before you cut."
            question = first_question(COURSE.dimensions[source])
        return replace(
            self._verdict("right_carried", message, expected),
            question=question,
            on_list=self._listed(expected),
            first_difference=source,
            carried_from=source,
        )

    # a slip

    def slip(self) -> Verdict | None:
        """The verdict if a space was left out, or if named slips give the answer: at most three."""
        if told := space_left_out(self.entry, self.truth, self.asked):
            return told
        found = named_slips(self._matches(), self.value) or named_slips(
            self._carried_matches(), self.value
        )
        if not found:
            return None
        return replace(
            self._verdict("slip", slip_message(found) + self._unsafe(), self.truth),
            question=found[0].question,
            slips=found,
            tells_apart=tells_apart(found),
            first_difference=found[0].step,
        )

    def _matches(self) -> Iterator[Candidate]:
        """The slips that give the answer, those left out that an earlier answer speaks against.

        Close to the value only those count that give the very answer.
        """
        close = self._is_close()
        for candidate in self.sheet.near(self.asked.name, self.value):
            exact = _is_exact(candidate, self.value)
            if (exact or not close) and self._is(candidate) and self._may_be(candidate):
                yield candidate

    def _is(self, candidate: Candidate) -> bool:
        return stands_for(self.entry, candidate.value, candidate.wrong, self.asked)

    def _may_be(self, candidate: Candidate) -> bool:
        wrong = candidate.wrong
        if candidate.steps_back == 0 or wrong.step not in self.earlier:
            return True
        asked, units = COURSE.dimensions[wrong.step], self.sheet.units
        earlier = Entry("", self.earlier[wrong.step], units)
        return stands_for(earlier, wrong.value, replace(wrong, forms=frozenset()), asked)

    def _carried_matches(self) -> Iterator[Candidate]:
        """The slips at this step that give the answer when it is worked on from earlier ones."""
        given, _ = next(self._carries(), (None, ""))
        names = (*self.asked.inputs, self.asked.name)
        worked = {n: self.sheet.worked_on(n, given) for n in names} if given else {}
        sizes = {n: v for n, v in worked.items() if v is not None}
        if len(sizes) < len(set(names)):
            return
        for wrong in at_step(self.asked, {**self.sheet.values, **sizes}, self.sheet.units):
            candidate = Candidate(wrong, wrong.value, 0)
            if self._is(candidate):
                yield candidate

    # nothing known

    def unexplained(self) -> Verdict:
        """The verdict where no known slip gives the answer: the first step to look at."""
        order = self.sheet.order(self.asked.name)
        first = next((n for n in order if not self._is_answered_rightly(n)), self.asked.name)
        so_far = [title(n) for n in order[: order.index(first)]]
        told = self._close() if self._is_close() else f"{NOT_EXPECTED}{_right_so_far(so_far)}"
        return replace(
            self._verdict("unexplained", f"{self._as_read}{told}{self._unsafe()}", self.truth),
            question=first_question(COURSE.dimensions[first]),
            first_difference=first,
        )

    def _is_close(self) -> bool:
        """Whether the answer is one mark of the tape off, or less."""
        length = self.asked.kind == "length" and self.value != 0
        return length and abs(self.value - self.truth) <= ONE_MARK + HAIR

    def _close(self) -> str:
        """What is said of an answer that is one mark off: that it would work, where it would."""
        if self._side(self.truth) is not True:
            return "Not yet, but close: the sum gives a length that is about one mark away."
        more = "more" if self._rounding is Rounding.DOWN else "less"
        return f"It would work, but the sum gives a little {more}. {self._reason}"

    @property
    def _as_read(self) -> str:
        """How the answer was read, where it is not written as on a cutting list."""
        if self._in_form:
            return ""
        return f"This reads as {in_units(self.value, self.sheet.units)}. "

    def _is_answered_rightly(self, name: str) -> bool:
        return name in self.earlier and self._was_right(name)

    def _unsafe(self) -> str:
        """What to know about rounding when an answer is just over on the wrong side."""
        unsafe = self._side(self.truth) is False
        return f" Mind which side is safe. {self._reason}" if unsafe else ""

    def _verdict(self, judged: Judgement, message: str, expected: Fraction) -> Verdict:
        return Verdict(
            self.asked.name,
            self.entry.text,
            judged,
            message,
            value=self.value,
            safe=self._side(expected),
        )


# ── what is said ──────────────────────────────────────────────────────────────────────────────


def space_left_out(entry: Entry, expected: Fraction, asked: Dimension) -> Verdict | None:
    """The verdict that asks whether 143/8 was meant to be 14 3/8, where that comes closer.

    >>> rail = COURSE.dimension("bottom_board.front_rail_length")
    >>> told = space_left_out(Entry("143/8", Fraction(143, 8), "inch"), Fraction(14), rail)
    >>> told.message, told.question
    ('143/8 reads as 17 7/8 in.', 'Did you mean 14 3/8 in?')
    """
    if asked.kind != "length" or expected <= 0:
        return None
    meant = likely_meant(entry.text, expected, entry.units)
    if meant is None:
        return None
    slip, asks = SLIPS["space_forgotten"], f"Did you mean {in_units(meant, entry.units)}?"
    read = f"{entry.text.strip()} reads as {in_units(entry.value, entry.units)}."
    wrong = Wrong(slip, asked.name, entry.value)
    named = NamedSlip(
        slip.name, slip.family, asked.name, wrong.sentence, asks, slip.practice, "", wrong.trace
    )
    return Verdict(
        asked.name, entry.text, "slip", read, asks, entry.value,
        slips=(named,), first_difference=asked.name,
    )  # fmt: skip


def named_slips(matches: Iterable[Candidate], answer: Fraction) -> tuple[NamedSlip, ...]:
    """At most three slips, each name once, and none that nothing tells from a likelier one.

    Slips of the rule that give the very value stand first, then those of the sum, then those of the
    tape and of writing; what meets the value by rounding only is told where none gives the value.
    """
    best: dict[str, Candidate] = {}
    ranked = sorted(matches, key=_rank)
    ranked = [c for c in ranked if _is_exact(c, answer)] or ranked
    for candidate in ranked:
        best.setdefault(candidate.wrong.slip.name, candidate)
    apart: dict[str, Candidate] = {}
    for candidate in best.values():
        apart.setdefault(candidate.wrong.trace, candidate)
    chosen = list(apart.values())[:MOST_SLIPS]
    return tuple(_named(c, ranked) for c in chosen)


def _rank(candidate: Candidate) -> tuple[int, int, int, str]:
    """How a slip ranks: by its family, here before a step back, the commoner before the rarer."""
    slip = candidate.wrong.slip
    return _FAMILIES[slip.family], candidate.steps_back, -slip.weight, slip.name


def _is_exact(candidate: Candidate, answer: Fraction) -> bool:
    """Whether a slip gives the very answer, and not only something that rounds to it."""
    return abs(answer - candidate.value) <= TENTH_OF_MM


def _named(first: Candidate, ranked: Iterable[Candidate]) -> NamedSlip:
    wrong = first.wrong
    where = f", at the {title(wrong.step)}, " if first.steps_back else " "
    same = (c.wrong for c in ranked if c.wrong.slip is wrong.slip and c.wrong.step == wrong.step)
    gives = list(dict.fromkeys((wrong.gives, *(w.gives for w in same))))
    return named_slip(wrong, f"{SLIP_MESSAGE}{where}{', or if '.join(gives)}.")


def named_slip(wrong: Wrong, told: str = "") -> NamedSlip:
    """A slip as a verdict names it."""
    slip, working = wrong.slip, f"{title(wrong.step)}: {wrong.working}"
    return NamedSlip(
        slip.name,
        slip.family,
        wrong.step,
        told or wrong.sentence,
        wrong.question,
        slip.practice,
        working,
        wrong.trace,
    )


def slip_message(found: Iterable[NamedSlip]) -> str:
    """The sentences of slips that give one answer, as one text.

    >>> slip_message([NamedSlip(*"abc", f"{SLIP_MESSAGE} {s}.", *"defg") for s in "xy"])
    'This is what you would get if x. Or if y.'
    """
    first, *others = (slip.sentence for slip in found)
    return first + "".join(f" Or if{s.removeprefix(SLIP_MESSAGE)}" for s in others)


def tells_apart(found: Iterable[NamedSlip]) -> str:
    """What in a learner's own working tells which of some slips it was; empty where there is one.

    >>> traces = f"{LINE} “9 − 2”", f"{LINE} “9 + 2”", "was it 9"
    >>> tells_apart([NamedSlip(*"abcdef", "", trace) for trace in traces])
    'Your own working tells which: is there a line like “9 − 2”, or like “9 + 2”, or was it 9?'
    """
    first, *others = dict.fromkeys(slip.trace for slip in found)
    like = [f"like{t.removeprefix(LINE)}" if t.startswith(LINE) else t for t in others]
    told = ", or ".join((first, *(like if first.startswith(LINE) else others)))
    return f"Your own working tells which: {told}?" if others else ""


def first_question(first: Dimension) -> str:
    """The question that sends a learner to the first step to look at."""
    name = title(first.name)
    if len(first.inputs) == 1:
        return f"Begin with the {name}: which one size gives it?"
    return (
        f"Begin with the {name}: which sizes make it, which are added and which taken off, and "
        "does any of them count twice?"
    )


def _right_so_far(names: list[str]) -> str:
    """The steps that were answered rightly, told after a wrong answer."""
    if not names:
        return ""
    *most, last = names
    listed = f"{', the '.join(most)} and the {last}" if most else last
    return f" Right so far: the {listed}."
