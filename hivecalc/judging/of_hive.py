"""The sizes of a hive as questions: judged by what fit allows, and with the answers given before.

An answer may be right for an earlier one that it was worked on from, and a slip may stand at a step
before the one that is asked for.
"""

import ast
from collections.abc import Collection, Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import replace
from fractions import Fraction
from functools import cached_property, lru_cache
from typing import Final, TypeAlias

from hivecalc.components import DIMENSIONS, begun_with, values, values_to_find, worked_out_on
from hivecalc.derivation import Chains, Dimension, Step, UnknownNameError, Values, on_hive, title
from hivecalc.fit import is_allowed, is_cut, mark
from hivecalc.hive import Hive
from hivecalc.judging.answer import (
    GRIDS_OF,
    HAIR,
    ONE_MARK,
    Candidate,
    Entry,
    NamedSlip,
    Verdict,
    is_sane,
    named_slips,
    roundings,
    spoken,
    stands_for,
)
from hivecalc.judging.question import NOT_EXPECTED, Earlier, Question
from hivecalc.judging.slips import Wrong
from hivecalc.judging.wrong_figures import misspelt, readings, wrong_sums
from hivecalc.judging.wrong_rules import of_wrong_rules
from hivecalc.length import (
    LONGEST,
    MARKS,
    SIXTEENTH,
    Grid,
    LengthError,
    Rounding,
    Units,
    rounded,
    shown,
)

MOST_REMEMBERED: Final = 4096
MOST_HIVES: Final = 64
"""How many hives are looked up and not worked out again; one takes at most about 1.5 MB."""


class Questions:
    """All sizes of one hive, each a question of its own; made once, and then looked up."""

    def __init__(self, hive: Hive) -> None:
        self.hive, self.units = hive, hive.units
        self.values = values_to_find(hive)
        self.built = values(hive).keys()
        self.known = frozenset(hive.measurements)
        self.chains = Chains(self.values, self.known, DIMENSIONS)
        self._questions = dict[str, SizeOfHive]()

    def question(self, name: str) -> "SizeOfHive":
        """The question for a dimension of this hive; raises UnknownNameError."""
        if name not in self._questions:
            dimension, plan = self.dimension(name), worked_out_on(self.hive, name)
            if plan is self.hive:
                asked = SizeOfHive(self, on_hive(dimension, self.values))
            else:
                asked = MeasuredSince(questions(plan), dimension, self.values[name])
            self._questions[name] = asked
        return self._questions[name]

    def dimension(self, name: str) -> Dimension:
        """The dimension of this name, if this hive has it; raises UnknownNameError."""
        found = DIMENSIONS.dimension(name)
        if name not in self.values:
            here = [n for n in DIMENSIONS.dimensions if n in self.values]
            raise UnknownNameError(name, here, "dimension in this hive")
        return found

    def in_order(self, name: str, stops: Iterable[str] = ()) -> tuple[str, ...]:
        """The steps to a size, the deepest first and itself last; none to what was measured."""
        return DIMENSIONS.in_order(name, self.known.union(stops))

    def worked_on(self, name: str, given: Mapping[str, Fraction]) -> Fraction | None:
        """The value of a dimension for other values before it; None where there is none."""
        try:
            return DIMENSIONS.worked_on(name, self.values, given, self.known)
        except ZeroDivisionError:
            return None


class SizeOfHive(Question):
    """A dimension of a hive: judged by what fit allows, with the steps and answers before it."""

    def __init__(self, sizes: Questions, dimension: Dimension) -> None:
        self.sizes, self.hive = sizes, sizes.hive
        self._marks = dict[Units, frozenset[Fraction]]()
        self._judged = dict[str, Verdict]()
        self.measured = dimension.name in sizes.known
        super().__init__(dimension, sizes.values, sizes.units)

    def verdict(self, answer: str, earlier: Mapping[str, str | Fraction] | None = None) -> Verdict:
        """The verdict on an answer; earlier holds the learner's answers to other dimensions.

        What no earlier answer bears on is remembered: a class gives the same often.
        """
        if earlier or len(answer) > LONGEST:
            return self._judge(answer, self._readable(earlier or {}))
        if answer not in self._judged:
            if len(self._judged) >= MOST_REMEMBERED:
                self._judged.clear()
            self._judged[answer] = self._judge(answer, {})
        return self._judged[answer]

    def steps(self) -> list[Step]:
        """The worked steps, down to what was measured and the hive's own length and width."""
        return DIMENSIONS.steps(self.name, self._begun, units=self.units)

    @cached_property
    def _begun(self) -> Values:
        return begun_with(self.hive, self.name)

    def _readable(self, earlier: Mapping[str, str | Fraction]) -> Earlier:
        """The earlier answers that can be read and make sense as the size that they are for."""
        found = dict[str, Entry]()
        for name, answer in earlier.items():
            DIMENSIONS.dimension(name)  # an unknown name is refused
            if name == self.name or name not in self.values:
                continue
            asked = self.sizes.question(name)
            with suppress(LengthError):
                read = asked.read(answer) if isinstance(answer, str) else None
                entry = read or Entry("", Fraction(answer), self.units)
                if is_sane(entry.value, asked.value):
                    found[name] = entry
        return found

    # right

    def marks(self, units: Units) -> Collection[Fraction]:
        """The marks that no rule of fit minds; of two that are as near, both if none minds them."""
        if units not in self._marks:
            best = {self._mark(grid) for grid in GRIDS_OF[units]}
            others = self._roundings(units) - best - {self.value}
            self._marks[units] = frozenset({*best, *filter(self._may_be_cut, others)})
        return self._marks[units]

    @property
    def listed(self) -> str:
        """What a cutting list of this hive has for the size."""
        grid = MARKS[self.units]
        return shown(self._mark(grid), self.units, grid, self._rounding).removeprefix("≈ ")

    def _mark(self, grid: Grid) -> Fraction:
        """The mark of a grid that may be cut; no rule of fit knows a part that no hive has."""
        if self.name in self.sizes.built:
            return mark(self.hive, self.name, grid)
        return rounded(self.value, grid, self._rounding)

    def _may_be_cut(self, length: Fraction) -> bool:
        if self.name not in self.sizes.built or not is_cut(self.name):
            return True
        return is_allowed(self.hive, self.name, length)

    @cached_property
    def _as_shown(self) -> Fraction:
        return self.value if self.measured else super()._as_shown

    # an earlier answer carried on

    def _carried(self, entry: Entry, earlier: Earlier) -> Verdict | None:
        """The verdict if the answer is right for what the learner answered earlier."""
        for given, sources in self._carries(earlier):
            for expected in self._worked_from(given):
                marks = roundings(expected, self._rounding, entry.written_in)
                if expected > 0 and self._is_at(entry, expected, marks):
                    source = self._looked_at_again(given, sources, expected, earlier)
                    return self._carried_verdict(entry, earlier[source], source, expected)
        return None

    def _carries(self, earlier: Earlier) -> Iterator[tuple[Values, list[str]]]:
        """The earlier answers to go on from, all of them first, with those that may be at fault."""
        if not earlier:
            return
        given = {n: e.value for n, e in earlier.items()}
        right = {n for n in earlier if self._was_right(n, earlier)}
        exact = {n: self.values[n] for n in right}
        order = self.sizes.in_order(self.name)
        rounded_ones = [n for n in order if n in right and given[n] != exact[n]]
        before = self.sizes.in_order(self.name, right)[:-1]  # not what lies only behind those
        wrong = [n for n in before if n in earlier and n not in right]
        if wrong or rounded_ones:
            yield given, wrong or rounded_ones[::-1]
        for name in wrong:
            yield {**exact, name: given[name]}, [name]

    def _looked_at_again(
        self, given: Values, sources: list[str], expected: Fraction, earlier: Earlier
    ) -> str:
        """The earlier answer that a value rests on: one that changes it, or what that rests on."""
        changing = (
            n for n in sources if expected not in self._worked_from({**given, n: self.values[n]})
        )
        source = next(changing, sources[0])
        return self.sizes.question(source).worked_on_from(earlier)

    def worked_on_from(self, earlier: Earlier) -> str:
        """The earlier answer that the one to this size is right for; else this size."""
        others = {n: entry for n, entry in earlier.items() if n != self.name}
        found = self._carried(earlier[self.name], others)
        return (found and found.carried_from) or self.name

    def _was_right(self, name: str, earlier: Earlier) -> bool:
        return name in earlier and self.sizes.question(name).is_right(earlier[name])

    def _worked_from(self, given: Values) -> Iterator[Fraction]:
        """What a dimension comes to from other values before it: all anew, or its own step only.

        The two differ where a value reaches it by two ways, and one of them was worked out rightly.
        """
        anew = self.sizes.worked_on(self.name, given)
        if anew is not None:
            yield anew
        if not self.measured and not given.keys().isdisjoint(self.dimension.inputs):
            known = {n: self.values[n] for n in self.dimension.inputs if n not in given}
            step = self.sizes.worked_on(self.name, {**given, **known})
            if step is not None:
                yield step

    def _carried_verdict(
        self, entry: Entry, given: Entry, source: str, expected: Fraction
    ) -> Verdict:
        name, close = title(source), self._closeness(entry, expected)
        said = spoken(given.value, self.units)
        message = f"Right, worked on from your {name} of {said}{close}"
        question = ""
        if self.sizes.question(source).is_right(given):
            message += f" You rounded the {name}, so this one comes out a hair different."
        else:
            message += f" This step is well done; look at that {name} again before you cut."
            message += self._or_a_slip_here(entry, name)
            question = first_question(DIMENSIONS.dimensions[source])
        return replace(
            self._verdict(entry, "right_carried", message),
            question=question,
            first_difference=source,
            carried_from=source,
        )

    def _or_a_slip_here(self, entry: Entry, source: str) -> str:
        """What slip in the rule of this step would give the answer from the right sizes, too."""
        here = (c for c in self._matches(entry, {}) if c.steps_back == 0 and c.gives(entry.value))
        of_rule = (c for c in here if c.wrong.slip.family == "rule")
        found = named_slips(of_rule, entry.value, self.units)
        said = found[0].sentence if found else ""
        return f" From the right {source}, {said[0].lower()}{said[1:]}" if said else ""

    # a slip

    def _all_wrong(self) -> Iterable[Wrong]:
        return at_step(self.dimension, self.values, self.units, measured=self.measured)

    def _slips(self, entry: Entry, earlier: Earlier) -> tuple[NamedSlip, ...]:
        right = {n: e for n, e in earlier.items() if self._was_right(n, earlier)}
        ways = [(self._matches, earlier), (self._carried_matches, earlier)]
        if len(right) < len(earlier):  # a wrong answer before it rules no slip out
            ways.append((self._matches, right))
        for matches, after in ways:
            if found := named_slips(matches(entry, after), entry.value, self.units):
                return found
        return ()

    def _matches(self, entry: Entry, earlier: Earlier) -> Iterator[Candidate]:
        """The slips that give the answer, those left out that an earlier answer speaks against.

        Close to the value only those count that give the very answer.
        """
        close, here = self._is_close(entry), entry.value // SIXTEENTH.step
        for candidate in (c for n in (here - 1, here, here + 1) for c in self._table.get(n, ())):
            if close and not candidate.gives(entry.value):
                continue
            fits = stands_for(entry, candidate.value, candidate.wrong, self.dimension)
            if fits and self._may_be(candidate, earlier):
                yield candidate

    def _may_be(self, candidate: Candidate, earlier: Earlier) -> bool:
        wrong = candidate.wrong
        if candidate.steps_back == 0 or wrong.step not in earlier:
            return True
        asked = DIMENSIONS.dimensions[wrong.step]
        written_anyhow = replace(wrong, forms=frozenset())
        return stands_for(earlier[wrong.step], wrong.value, written_anyhow, asked)

    def _carried_matches(self, entry: Entry, earlier: Earlier) -> Iterator[Candidate]:
        """The slips at this step that give the answer when it is worked on from earlier ones."""
        given, _ = next(self._carries(earlier), (None, []))
        names = {*self.dimension.inputs, self.name}
        worked = {n: self.sizes.worked_on(n, given) for n in names} if given else {}
        sizes = {n: v for n, v in worked.items() if v is not None}
        if len(sizes) < len(names):
            return
        for wrong in at_step(self.dimension, {**self.values, **sizes}, self.units):
            if stands_for(entry, wrong.value, wrong, self.dimension):
                yield Candidate(wrong, wrong.value)

    @cached_property
    def _table(self) -> dict[int, list[Candidate]]:
        """The wrong answers of slips at this step and at those just before it, by sixteenths."""
        candidates = [Candidate(wrong, wrong.value) for wrong in self.wrong]
        for step, back in self._before.items():
            for wrong in self.sizes.question(step).wrong:
                carried = self._worked_with(step, wrong)
                right = carried is None or self.is_right(Entry("", carried, self.units))
                if carried and carried > 0 and not right:
                    candidates.append(Candidate(wrong, carried, back))
        table = dict[int, list[Candidate]]()
        for candidate in candidates:
            table.setdefault(candidate.value // SIXTEENTH.step, []).append(candidate)
        return table

    @cached_property
    def _before(self) -> dict[str, int]:
        """The steps just before this one in this hive, with how far back they are."""
        return {} if self.measured else DIMENSIONS.before(self.name, self.sizes.known)

    def _worked_with(self, step: str, wrong: Wrong) -> Fraction | None:
        """What a wrong value at an earlier step comes to here; None where it leaves no trace."""
        if not wrong.slip.carries:
            return None
        carried = self.sizes.worked_on(self.name, {step: wrong.value})
        if carried and self._has_choice:
            # where another size decides, any wrong value there would give this answer
            hidden = self.sizes.worked_on(self.name, {step: wrong.value + HAIR}) == carried
            return None if hidden else carried
        return carried

    @cached_property
    def _has_choice(self) -> bool:
        """Whether the larger or the smaller of some sizes is taken here, or just before."""
        steps = (DIMENSIONS.dimensions[n].expression for n in (self.name, *self._before))
        return any(isinstance(e, ast.Call) for step in steps for e in ast.walk(step))

    # nothing known

    def _unexplained(self, entry: Entry, earlier: Earlier) -> Verdict:
        """The verdict where no known slip gives the answer: the first step to look at."""
        order = self.sizes.in_order(self.name, self._begun)
        first = next((n for n in order if not self._was_right(n, earlier)), self.name)
        text = NOT_EXPECTED
        if done := [title(n) for n in order[: order.index(first)]]:
            *most, last = done
            listed = f"{', the '.join(most)} and the {last}" if most else last
            text += f" Right so far: the {listed}."
        if self._is_close(entry):
            text = "Not yet, but close: the sum gives a length that is about one mark away."
            if self._side(entry) is True:
                more = "more" if self._rounding is Rounding.DOWN else "less"
                text = f"It would work, but the sum gives a little {more}. {self._reason}"
        if not self._in_form(entry):
            text = f"This reads as {spoken(entry.value, self.units)}. {text}"
        return replace(
            self._verdict(entry, "unexplained", f"{text}{self._unsafe(entry)}"),
            question=first_question(DIMENSIONS.dimensions[first]),
            first_difference=first,
        )

    def _is_close(self, entry: Entry) -> bool:
        """Whether the answer is one mark of the tape off, or less."""
        length = self.dimension.kind == "length" and entry.value != 0
        return length and abs(entry.value - self.value) <= ONE_MARK + HAIR


class MeasuredSince(SizeOfHive):
    """An opening by the plan, on a hive whose glued frame was measured since."""

    def __init__(self, sizes: Questions, dimension: Dimension, since: Fraction) -> None:
        self.since = since
        super().__init__(sizes, dimension)

    def _judge(self, answer: str, earlier: Earlier) -> Verdict:
        found = super()._judge(answer, earlier)
        if found.value is None:
            return found
        if not found.right and abs(found.value - self.since) <= HAIR:
            found = Verdict(self.name, answer, "right", "Right.", value=found.value)
        text = (
            f"{found.message} This is asked by the plan: in the glued frame you measured "
            f"{spoken(self.since, self.units)} since, and what goes in is cut to that."
        )
        return replace(found, message=text)


def at_step(
    dimension: Dimension, found: Values, units: Units, *, measured: bool = False
) -> tuple[Wrong, ...]:
    """The wrong answers of slips at one step, for these values of all sizes.

    A tape is read only where one measures; a rule and a sum can be wrong only where one does not.
    """
    dimension, value = on_hive(dimension, found), found[dimension.name]
    wrong = [*misspelt(dimension, value, units)]
    if measured:
        wrong += readings(value, units, dimension.name)
    else:
        wrong += of_wrong_rules(dimension, found, units)
        wrong += wrong_sums(dimension, found, units)
    return tuple(w for w in wrong if w.value > 0)


def first_question(first: Dimension) -> str:
    """The question that sends a learner to the first step to look at."""
    name = title(first.name)
    if len(first.inputs) == 1:
        return f"Begin with the {name}: which one size gives it?"
    return (
        f"Begin with the {name}: which sizes make it, which are added and which taken off, and "
        "does any of them count twice?"
    )


# ── looked up ─────────────────────────────────────────────────────────────────────────────────


class _Same:
    """A hive that equals only itself, so that it is found again without reading its sizes."""

    def __init__(self, hive: Hive) -> None:
        self.hive = hive

    def __hash__(self) -> int:
        return id(self.hive)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and self.hive is other.hive


def questions(hive: Hive) -> Questions:
    """The questions of a hive, made once; a hive of the same sizes has the same."""
    return _questions(_Same(hive))


@lru_cache(maxsize=MOST_HIVES)
def _questions(same: _Same) -> Questions:
    hive = same.hive
    return _questions_of(hive.units, tuple(hive.measured.items()), tuple(hive.chosen.items()))


_Items: TypeAlias = tuple[tuple[str, Fraction], ...]


@lru_cache(maxsize=MOST_HIVES)
def _questions_of(units: Units, measured: _Items, chosen: _Items) -> Questions:
    return Questions(Hive("", units, dict(measured), dict(chosen)))
