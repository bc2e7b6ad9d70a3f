"""One answer, judged in stages: is it right, right for an earlier answer, a slip, or none."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from hivecalc.components import COURSE
from hivecalc.derivation import Dimension, Values, title
from hivecalc.hive.texts import sentence
from hivecalc.judging.comparing import ALLOWED, HAIR, is_right, stands_for
from hivecalc.judging.forms import in_units, is_list_form, is_mark, list_form
from hivecalc.judging.sheet import Candidate, Sheet
from hivecalc.judging.telling import (
    NO_SLIP,
    first_question,
    named_slips,
    slip_message,
    tells_apart,
)
from hivecalc.judging.verdicts import Judgement, Verdict
from hivecalc.length import Rounding
from hivecalc.slips import at_step
from hivecalc.slips.arithmetic import in_order


@dataclass(frozen=True)
class Case:
    """One answer to judge, with all that it is judged by."""

    sheet: Sheet
    asked: Dimension
    answer: str
    value: Fraction
    earlier: Values

    @cached_property
    def truth(self) -> Fraction:
        """The right value."""
        return self.sheet.values[self.asked.name]

    # right

    def right(self) -> Verdict | None:
        """The verdict if the answer is the value or a rounding of it."""
        if not is_right(self.value, self.truth, self.asked):
            return None
        judged: Judgement = "right" if self._in_form else "right_other_form"
        form = "" if self._in_form else self._form(self.truth)
        told = f"Right{self._closeness(self.truth)}{form}"
        return replace(self._verdict(judged, told, self.truth), on_list=self._listed(self.truth))

    @property
    def _in_form(self) -> bool:
        """Whether it stands as on a cutting list; a fall stands on none, so any form will do."""
        ratio = self.asked.kind == "ratio"
        return ratio or is_list_form(self.answer, self.value, self.sheet.units)

    def _form(self, expected: Fraction) -> str:
        """How the answer is written on a cutting list, or which mark of a tape comes nearest."""
        inches = self.sheet.units == "inch" and self._rounding is Rounding.NEAREST
        if inches and not is_mark(expected):
            return f" The nearest mark of a tape is {self._listed(expected)}."
        return f" On a cutting list it is written {self._listed(expected)}."

    def _listed(self, expected: Fraction) -> str:
        return list_form(self._target(expected), self.asked, self.sheet.units)

    def _target(self, expected: Fraction) -> Fraction:
        """What is written on the list: the answer, where it may be rounded to one side."""
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
        if abs(over) > 2 * ALLOWED:
            return None
        sides = {Rounding.DOWN: over <= HAIR, Rounding.UP: over >= -HAIR}
        return sides.get(self._rounding)

    # an earlier answer carried on

    def carried(self) -> Verdict | None:
        """The verdict if the answer is right for what the learner answered earlier."""
        for given, source in self._carries():
            expected = self.sheet.worked_on(self.asked.name, given)
            if expected and expected > 0 and is_right(self.value, expected, self.asked):
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
        asked = COURSE.dimensions[name]
        return is_right(self.earlier[name], self.sheet.values[name], asked)

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
        """The verdict if named slips give the answer, at most three of them."""
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
        """The slips that give the answer, those left out that an earlier answer speaks against."""
        for candidate in self.sheet.near(self.asked.name, self.value):
            if self._is(candidate) and self._may_be(candidate):
                yield candidate

    def _is(self, candidate: Candidate) -> bool:
        return stands_for(self.value, candidate.value, candidate.wrong, self.asked)

    def _may_be(self, candidate: Candidate) -> bool:
        wrong = candidate.wrong
        if candidate.steps_back == 0 or wrong.step not in self.earlier:
            return True
        earlier, asked = self.earlier[wrong.step], COURSE.dimensions[wrong.step]
        return stands_for(earlier, wrong.value, wrong, asked)

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
        message = f"{self._as_read}{NO_SLIP}{self._unsafe()}"
        return replace(
            self._verdict("unexplained", message, self.truth),
            question=first_question(COURSE.dimensions[first]),
            first_difference=first,
        )

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
            self.answer,
            judged,
            message,
            value=self.value,
            safe=self._side(expected),
        )
