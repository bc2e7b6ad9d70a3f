"""The sizes that an exercise asks for: of a hive, or of a sum; their slips and their verdicts."""

import ast
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import TypeAlias

from hivecalc.components import DIMENSIONS, values_to_find
from hivecalc.derivation import Dimension, RoundingRule, Step, Values, line, on_hive, title
from hivecalc.exercise.record import Exercise, Numbers
from hivecalc.hive import MEASUREMENTS, Hive
from hivecalc.judging import (
    SLIPS,
    Question,
    Verdict,
    Wrong,
    at_step,
    computed,
    question,
    readings,
    verdict,
    wrong_rules,
)
from hivecalc.length import (
    SIXTEENTH,
    SIXTY_FOURTH,
    THIRTY_SECOND,
    Rounding,
    Units,
    decimal_inches,
    rounded,
    written,
)


def sum_of(text: str) -> Dimension:
    """A sum such as "piece_left = board - piece_off", as a dimension that stands in no graph.

    >>> left = sum_of("piece_left = board - piece_off")
    >>> left.title, left.inputs, left.function(Fraction(9), Fraction(2))
    ('piece left', ('board', 'piece_off'), Fraction(7, 1))
    """
    name, _, arithmetic = text.partition(" = ")
    expression = ast.parse(arithmetic, mode="eval").body
    named = [n for n in ast.walk(expression) if isinstance(n, ast.Name)]
    read = dict.fromkeys(n.id for n in sorted(named, key=lambda n: n.col_offset))
    inputs = tuple(n for n in read if n not in {"max", "min"})  # from left to right

    def worked_out(*sizes: Fraction) -> Fraction:
        return computed(expression, dict(zip(inputs, sizes, strict=True)))

    return Dimension(
        name, "exercise", inputs, inputs, worked_out, expression, "length", title(name), "",
        RoundingRule(),
    )  # fmt: skip


def question_of(
    asked: Dimension,
    values: Values,
    units: Units,
    *,
    on_tape: bool = False,
    shown: Collection[str] = (),
) -> Question:
    """The question that a sum asks: slips in its rule, in adding up, in writing, on the tape.

    >>> sizes = {"board": Fraction(93, 4), "off": Fraction(3, 2), "left": Fraction(87, 4)}
    >>> asked = question_of(sum_of("left = board - off"), sizes, "inch")
    >>> asked.verdict("21.75").message
    'Right. On a cutting list it is written 21 3/4 in.'
    >>> [w.working for w in asked.wrong if w.slip.name == "inch_not_lowered"]
    ['23 1/4 − 1 1/2 = 22 3/4']

    values hold the sum's own value, too.
    """
    value = values[asked.name]
    wrong = list[Wrong](at_step(asked, values, units))
    if on_tape:
        laid_on = "first_mark" in asked.inputs
        read = list(readings(value, units, asked.name, laid_on=laid_on))
        kept = {w.value for w in read if w.slip.name == "first_inch_kept"}
        wrong = [w for w in wrong if w.what != "first mark" or w.value not in kept]  # told once
        wrong += read
    return Question(asked, value, units, wrong, shown)


@dataclass(frozen=True)
class OfHive:
    """A dimension of a hive that is asked for."""

    hive: Hive
    name: str

    @property
    def dimension(self) -> Dimension:
        """The dimension itself, with the arithmetic that it comes to on this hive."""
        return on_hive(DIMENSIONS.dimension(self.name), self.values)

    @property
    def units(self) -> Units:
        """The unit of a bare number."""
        return self.hive.units

    @cached_property
    def values(self) -> Values:
        """Every size of the hive, and of parts that no hive has."""
        return values_to_find(self.hive)

    @cached_property
    def wrong(self) -> tuple[Wrong, ...]:
        """The wrong answers of slips at this step."""
        return question(self.hive, self.name).wrong

    def verdict(self, text: str, earlier: Mapping[str, str | Fraction] | None = None) -> Verdict:
        """The verdict on an answer; earlier holds answers to other dimensions of this hive."""
        return verdict(self.hive, self.name, text, earlier)

    def steps(self) -> list[Step]:
        """The worked steps, the deepest first."""
        return DIMENSIONS.steps(self.name, self.hive.measurements, units=self.units)

    def needs(self, slips: tuple[str, ...]) -> list[str]:
        """The measurements to be told: what it rests on, and what these slips would take."""
        names, known = {self.name, *_taken_by(slips, self.dimension)}, self.hive.measurements
        worked_out = names & DIMENSIONS.dimensions.keys()
        rests_on = {m for n in worked_out for m in DIMENSIONS.rests_on(n, known)}
        return [n for n in MEASUREMENTS if n in rests_on | (names - worked_out)]


def _taken_by(slips: tuple[str, ...], asked: Dimension) -> set[str]:
    rules = [r.expression for r in wrong_rules(asked) if r.slip in slips]
    names = {n.id for r in rules for n in ast.walk(r) if isinstance(n, ast.Name)}
    return names - {"max", "min"}


@dataclass(frozen=True)
class OfSum:
    """A sum over the givens that is asked for."""

    exercise: Exercise
    numbers: Numbers

    @cached_property
    def dimension(self) -> Dimension:
        """The sum, in the form of a dimension."""
        return sum_of(self.exercise.asks)

    @property
    def units(self) -> Units:
        """The unit of a bare number."""
        return self.exercise.units

    @cached_property
    def values(self) -> Values:
        """The givens, and the sum's own value."""
        asked = self.dimension
        found = {**self.numbers.hive.measurements, **self.numbers.sizes}
        return {**found, asked.name: asked.function(*(found[n] for n in asked.inputs))}

    @cached_property
    def _question(self) -> Question:
        """The question, with the slips on the tape where one is read."""
        shows_tape = any(SLIPS[s].family == "tape" for s in self.exercise.slips)
        on_tape = self.exercise.kind == "read" or shows_tape
        return question_of(
            self.dimension, self.values, self.units, on_tape=on_tape, shown=self.exercise.slips
        )

    @property
    def wrong(self) -> tuple[Wrong, ...]:
        """The wrong answers of slips."""
        return self._question.wrong

    def verdict(self, text: str, earlier: Mapping[str, str | Fraction] | None = None) -> Verdict:
        """The verdict on an answer; a sum rests on no earlier one."""
        del earlier
        return self._question.verdict(text)

    def steps(self) -> list[Step]:
        """The one worked step."""
        asked, words = self.dimension, {n: title(n) for n in self.dimension.inputs}
        numbers = {n: written(self.values[n], self.units) for n in asked.inputs}
        value = self.values[asked.name]
        return [
            Step(
                asked.name,
                line(asked.expression, words),
                line(asked.expression, numbers),
                value,
                written(value, self.units),
                self.exercise.why,
            )
        ]

    def needs(self, slips: tuple[str, ...]) -> list[str]:
        """The givens that it is made from, and what these slips would take."""
        names = {*self.dimension.inputs, *_taken_by(slips, self.dimension)}
        known = dict.fromkeys((*self.numbers.texts, *MEASUREMENTS))
        return [n for n in known if n in names]


Asked: TypeAlias = OfHive | OfSum


def asked_for(exercise: Exercise, numbers: Numbers) -> tuple[Asked, ...]:
    """What an exercise asks for on these numbers; nothing where its names are not sizes of these.

    >>> from hivecalc.exercise.record import numbers_of
    >>> left = Exercise("01-01", "derive", "left = board - off", "", "board 9, off 2 1/2", "")
    >>> [model_answer(a) for a in asked_for(left, numbers_of(left.givens))]
    ['6 1/2']
    """
    if " = " in exercise.asks:
        return (OfSum(exercise, numbers),)
    return tuple(OfHive(numbers.hive, n) for n in exercise.dimensions)


def model_answer(asked: Asked) -> str:
    """The right answer as it is written on a cutting list; a fall for each inch is a decimal.

    >>> from hivecalc.hive import demo_hive
    >>> model_answer(OfHive(demo_hive(), "bottom_board.headroom"))
    '3/32'

    What is no mark of the tape is rounded: a fit of the hive to 1/32 in, the rest to 1/16 in. A sum
    is told to 1/64 in where it comes out so.
    """
    value, rule = asked.values[asked.dimension.name], asked.dimension.rule
    if asked.dimension.kind == "ratio":
        return decimal_inches(value).removeprefix("≈ ")
    if asked.units == "mm":
        return written(value, "mm").removeprefix("≈ ")
    if rounded(value, SIXTY_FOURTH if isinstance(asked, OfSum) else SIXTEENTH) == value:
        return written(value)
    fit = isinstance(asked, OfHive) and rule.rounding is Rounding.NEAREST
    return written(rounded(value, THIRTY_SECOND if fit else SIXTEENTH, rule.rounding))
