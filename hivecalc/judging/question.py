"""A size that is asked for, and the one way to judge an answer to it.

Can it be read; is it the value, or what may be cut instead; would it be right if an earlier answer
were; is it what a named slip gives; and else, where to look first.
"""

import ast
from collections.abc import Collection, Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import replace
from fractions import Fraction
from functools import cached_property, lru_cache
from typing import Final, TypeAlias

from hivecalc.components import DIMENSIONS, values, values_to_find
from hivecalc.derivation import (
    Chains,
    Dimension,
    Step,
    UnknownNameError,
    Values,
    line,
    on_hive,
    title,
)
from hivecalc.fit import is_allowed, is_cut, mark
from hivecalc.hive import Hive
from hivecalc.judging.answer import (
    FARTHEST,
    GRIDS_OF,
    HAIR,
    ONE_MARK,
    RATIO_PLACE,
    Candidate,
    Entry,
    Judgement,
    NamedSlip,
    Verdict,
    entered,
    in_units,
    is_at,
    is_mark,
    is_sane,
    named_slips,
    roundings,
    slip_verdict,
    space_left_out,
    stands_for,
)
from hivecalc.judging.slips import Wrong
from hivecalc.judging.wrong_figures import misspelt, readings, wrong_sums
from hivecalc.judging.wrong_rules import of_wrong_rules
from hivecalc.length import (
    LONGEST,
    MILLIMETRE,
    SIXTEENTH,
    SIXTY_FOURTH,
    THIRTY_SECOND,
    Grid,
    LengthError,
    Rounding,
    Units,
    rounded,
    shown,
    with_unit,
    written,
)
from hivecalc.support.faults import sentence

NOT_EXPECTED: Final = "Not yet: this is not the value expected."
MOST_REMEMBERED: Final = 4096
MOST_HIVES: Final = 64
"""How many hives are looked up and not worked out again; one takes at most about 1.5 MB."""

Earlier: TypeAlias = Mapping[str, Entry]


class Question:
    """A size that is asked for: its value, and the wrong answers that slips would give.

    `values` are the sizes that it is made from, and its own.
    The slips that are shown, by name, come first, and are looked for at the nearest mark of a tape
    whatever they are about.
    """

    def __init__(
        self,
        dimension: Dimension,
        values: Values,
        units: Units,
        wrong: Iterable[Wrong] = (),
        shown: Collection[str] = (),
    ) -> None:
        self.dimension, self.values, self.units, self.shown = dimension, values, units, shown
        self.value, self._given_wrong = values[dimension.name], wrong

    @cached_property
    def wrong(self) -> tuple[Wrong, ...]:
        """The wrong answers of slips at this very step; none that would be judged right."""
        found = (w for w in self._all_wrong() if w.value > 0)
        return tuple(w for w in found if not self.is_right(Entry("", w.value, self.units)))

    def _all_wrong(self) -> Iterable[Wrong]:
        return self._given_wrong

    @property
    def name(self) -> str:
        """The full name of what is asked."""
        return self.dimension.name

    def verdict(self, answer: str, _earlier: Mapping[str, str | Fraction] | None = None) -> Verdict:
        """The verdict on an answer: can it be read, is it right, a slip, or none of them.

        What stands alone rests on no earlier answer.
        """
        return self._judge(answer, {})

    def steps(self) -> list[Step]:
        """The worked steps to its value, the deepest first: here its own sum alone."""
        asked, value = self.dimension, written(self.value, self.units)
        words = {n: title(n) for n in asked.inputs}
        numbers = {n: written(self.values[n], self.units) for n in asked.inputs}
        formula, summed = (line(asked.expression, each) for each in (words, numbers))
        return [Step(self.name, formula, summed, self.value, value, asked.why)]

    def _judge(self, answer: str, earlier: Earlier) -> Verdict:
        try:
            entry = self.read(answer)
        except LengthError as error:
            return Verdict(self.name, answer, "unreadable", str(error))
        return (
            self._right(entry)
            or self._carried(entry, earlier)
            or self._slip(entry, earlier)
            or self._unexplained(entry, earlier)
        )

    def _carried(self, _entry: Entry, _earlier: Earlier) -> Verdict | None:
        return None

    def read(self, answer: str) -> Entry:
        """An answer as it is read; raises LengthError with one sentence for the learner."""
        return entered(answer, self.dimension, self.units, below_nothing=self.value < 0)

    # right

    def is_right(self, entry: Entry) -> bool:
        """Whether an answer is the value, or a mark of its tape that may be cut instead."""
        if abs(entry.value - self.value) > FARTHEST:
            return False
        return self._is_at(entry, self.value, ()) or self._is_at(
            entry, self.value, self.marks(entry.written_in)
        )

    def _is_at(self, entry: Entry, value: Fraction, marks: Collection[Fraction]) -> bool:
        if self.dimension.kind == "ratio":
            return abs(entry.value - value) <= RATIO_PLACE
        return is_at(entry.value, value, marks)

    def marks(self, units: Units) -> Collection[Fraction]:
        """The marks of a tape that may stand for the value; none takes more than a tenth of it."""
        marks = roundings(self.value, self._rounding, units)
        return [m for m in marks if abs(m - self.value) * 10 <= self.value]

    @property
    def listed(self) -> str:
        """The right value as it is written on a cutting list, with its unit."""
        exact = self.units == "mm" or is_mark(self.value)
        value = self.value if exact else rounded(self.value, SIXTEENTH, self._rounding)
        return with_unit(self.units, value).removeprefix("≈ ")

    @property
    def _rounding(self) -> Rounding:
        return self.dimension.rule.rounding

    def _right(self, entry: Entry) -> Verdict | None:
        if not self.is_right(entry):
            return None
        text = f"Right{self._closeness(entry, self.value)}"
        if entry.is_unfinished:
            text = "Right so far: now carry the inch."
        elif self._in_form(entry):
            return self._verdict(entry, "right", text)
        nearest = self.units == "inch" and self._rounding is Rounding.NEAREST
        form = "On a cutting list it is written"
        if nearest and not is_mark(self.value):
            form = "The nearest mark of a tape is"
        return self._verdict(entry, "right_other_form", f"{text} {form} {self.listed}.")

    def _in_form(self, entry: Entry) -> bool:
        """Whether it stands as on a cutting list; a fall stands on none, so any form will do."""
        return self.dimension.kind == "ratio" or entry.is_list_form

    def _closeness(self, entry: Entry, expected: Fraction) -> str:
        if abs(entry.value - expected) <= HAIR:
            return "."
        if self._rounding is Rounding.NEAREST:
            return ", to the nearest mark."
        return f", and on the safe side. {self._reason}"

    @property
    def _reason(self) -> str:
        """Why the size is rounded to one side, as a sentence."""
        return f"{sentence(self.dimension.rule.reason.rstrip('.'))}."

    def _side(self, entry: Entry) -> bool | None:
        """Whether an answer lies on the safe side; None where both are alike, or it is far off."""
        over = entry.value - self.value
        if abs(over) > 2 * ONE_MARK:
            return None
        return {Rounding.DOWN: over <= HAIR, Rounding.UP: over >= -HAIR}.get(self._rounding)

    # a slip

    def _slip(self, entry: Entry, earlier: Earlier) -> Verdict | None:
        """The verdict if a space was left out, or if named slips give the answer."""
        if without := space_left_out(entry, self.value, self.dimension):
            return without
        found = self._slips(entry, earlier)
        if not found:
            return None
        slipped = slip_verdict(self.name, entry.text, entry.value, found)
        return replace(slipped, message=slipped.message + self._unsafe(entry))

    def _slips(self, entry: Entry, _earlier: Earlier) -> tuple[NamedSlip, ...]:
        near = (
            Candidate(w, w.value)
            for w in self.wrong
            if (w.slip.name in self.shown and entry.value == rounded(w.value, SIXTEENTH))
            or stands_for(entry, w.value, w, self.dimension)
        )
        return named_slips(near, entry.value, self.units, self.shown)

    def _unsafe(self, entry: Entry) -> str:
        """What to know about rounding when an answer is just over on the wrong side."""
        unsafe = self._side(entry) is False
        return f" Mind which side is safe. {self._reason}" if unsafe else ""

    # nothing known

    def _unexplained(self, entry: Entry, _earlier: Earlier) -> Verdict:
        return self._verdict(entry, "unexplained", NOT_EXPECTED)

    def _verdict(self, entry: Entry, judged: Judgement, message: str) -> Verdict:
        return Verdict(self.name, entry.text, judged, message, value=entry.value)


# ── a size of a hive ──────────────────────────────────────────────────────────────────────────


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
            self._questions[name] = SizeOfHive(self, on_hive(self.dimension(name), self.values))
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
        """The worked steps, down to what was measured."""
        return DIMENSIONS.steps(self.name, self.hive.measurements, units=self.units)

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
            others = roundings(self.value, self._rounding, units) - best - {self.value}
            self._marks[units] = frozenset({*best, *filter(self._may_be_cut, others)})
        return self._marks[units]

    @property
    def listed(self) -> str:
        """What a cutting list of this hive has for the size.

        To 1/16 in what is cut to slide or to cover; the rest to 1/32 in where it is no mark.
        """
        grid = MILLIMETRE if self.units == "mm" else SIXTEENTH
        if grid is SIXTEENTH and self._rounding is Rounding.NEAREST:
            grid = SIXTY_FOURTH if is_mark(self.value) else THIRTY_SECOND
        return shown(self._mark(grid), self.units, grid, self._rounding).removeprefix("≈ ")

    def _mark(self, grid: Grid) -> Fraction:
        """The mark of a grid that may be cut; no rule of fit knows a part that no hive has."""
        if self.name in self.sizes.built:
            return mark(self.hive, self.name, grid)
        return rounded(self.value, grid, self._rounding)

    def _may_be_cut(self, length: Fraction) -> bool:
        if self.name not in self.sizes.built:
            return True
        return is_cut(self.name) and is_allowed(self.hive, self.name, length)

    # an earlier answer carried on

    def _carried(self, entry: Entry, earlier: Earlier) -> Verdict | None:
        """The verdict if the answer is right for what the learner answered earlier."""
        for given, source in self._carries(earlier):
            for expected in self._worked_from(given):
                marks = roundings(expected, self._rounding, entry.written_in)
                if expected > 0 and self._is_at(entry, expected, marks):
                    return self._carried_verdict(entry, earlier[source], source, expected)
        return None

    def _carries(self, earlier: Earlier) -> Iterator[tuple[Values, str]]:
        """The earlier answers to go on from, all of them first, with the one to look at again."""
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
            yield given, (wrong or rounded_ones[::-1])[0]
        for name in wrong:
            yield {**exact, name: given[name]}, name

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
        said = in_units(given.value, self.units)
        message = f"Right, worked on from your {name} of {said}{close}"
        question = ""
        if self.sizes.question(source).is_right(given):
            message += f" You rounded the {name}, so this one comes out a hair different."
        else:
            message += f" This step is well done; look at that {name} again before you cut."
            question = first_question(DIMENSIONS.dimensions[source])
        return replace(
            self._verdict(entry, "right_carried", message),
            question=question,
            first_difference=source,
            carried_from=source,
        )

    # a slip

    def _all_wrong(self) -> Iterable[Wrong]:
        return at_step(self.dimension, self.values, self.units, measured=self.measured)

    def _slips(self, entry: Entry, earlier: Earlier) -> tuple[NamedSlip, ...]:
        for matches in (self._matches, self._carried_matches):
            if found := named_slips(matches(entry, earlier), entry.value, self.units):
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
        given, _ = next(self._carries(earlier), (None, ""))
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
        table = dict[int, list[Candidate]]()
        for candidate in self._candidates():
            table.setdefault(candidate.value // SIXTEENTH.step, []).append(candidate)
        return table

    def _candidates(self) -> Iterator[Candidate]:
        yield from (Candidate(wrong, wrong.value) for wrong in self.wrong)
        for step, back in self._before.items():
            for wrong in self.sizes.question(step).wrong:
                carried = self._worked_with(step, wrong)
                right = carried is None or self.is_right(Entry("", carried, self.units))
                if carried and carried > 0 and not right:
                    yield Candidate(wrong, carried, back)

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
        order = self.sizes.in_order(self.name)
        first = next((n for n in order if not self._was_right(n, earlier)), self.name)
        *most, last = ["", *(title(n) for n in order[: order.index(first)])]
        listed = f"{', the '.join(most[1:])} and the {last}" if most[1:] else last
        text = f"{NOT_EXPECTED} Right so far: the {listed}." if last else NOT_EXPECTED
        if self._is_close(entry):
            text = "Not yet, but close: the sum gives a length that is about one mark away."
            if self._side(entry) is True:
                more = "more" if self._rounding is Rounding.DOWN else "less"
                text = f"It would work, but the sum gives a little {more}. {self._reason}"
        if not self._in_form(entry):
            text = f"This reads as {in_units(entry.value, self.units)}. {text}"
        return replace(
            self._verdict(entry, "unexplained", f"{text}{self._unsafe(entry)}"),
            question=first_question(DIMENSIONS.dimensions[first]),
            first_difference=first,
        )

    def _is_close(self, entry: Entry) -> bool:
        """Whether the answer is one mark of the tape off, or less."""
        length = self.dimension.kind == "length" and entry.value != 0
        return length and abs(entry.value - self.value) <= ONE_MARK + HAIR


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
