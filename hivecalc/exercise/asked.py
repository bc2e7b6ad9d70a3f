"""What an exercise asks for: a size of a hive, a sum over its givens, or one of several options."""

import ast
import re
from collections.abc import Collection
from dataclasses import dataclass
from fractions import Fraction

from hivecalc.derivation import Dimension, RoundingRule, Values, title
from hivecalc.exercise.record import Exercise, Numbers
from hivecalc.judging import (
    SLIPS,
    Question,
    SizeOfHive,
    Wrong,
    at_step,
    computed,
    question,
    readings,
    sizes_in,
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


@dataclass(frozen=True)
class Option:
    """One thing to choose: its text, whether it is right, its value if it is a length.

    wrong are the slips that give it; says is what to tell somebody who chose it: why it is right,
    or why it is not.
    """

    text: str
    right: bool
    value: Fraction | None = None
    wrong: tuple[Wrong, ...] = ()
    says: str = ""


def sum_of(text: str) -> Dimension:
    """A sum such as "piece_left = board - piece_off", as a dimension that stands in no graph.

    >>> left = sum_of("piece_left = board - piece_off")
    >>> left.title, left.inputs, left.function(Fraction(9), Fraction(2))
    ('piece left', ('board', 'piece_off'), Fraction(7, 1))
    """
    name, _, arithmetic = text.partition(" = ")
    expression = ast.parse(arithmetic, mode="eval").body
    inputs = tuple(sorted(sizes_in(expression), key=re.findall(r"\w+", arithmetic).index))

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
    return Question(asked, values, units, wrong, shown)


def asked_for(exercise: Exercise, numbers: Numbers) -> tuple[Question, ...]:
    """What an exercise asks for on these numbers; nothing where its names are no sizes.

    >>> from hivecalc.exercise.record import numbers_of
    >>> left = Exercise("01-01", "derive", "left = board - off", "", "board 9, off 2 1/2", "")
    >>> [model_answer(a) for a in asked_for(left, numbers_of(left.givens))]
    ['6 1/2']

    Raises UnknownNameError for a size that this hive does not have.
    """
    if " = " not in exercise.asks:
        return tuple(question(numbers.hive, n) for n in exercise.dimensions)
    asked = sum_of(exercise.asks)
    given = {**numbers.hive.measurements, **numbers.sizes}
    values = {**given, asked.name: asked.function(*(given[n] for n in asked.inputs))}
    on_tape = exercise.kind == "read" or any(SLIPS[s].family == "tape" for s in exercise.slips)
    units, shown = exercise.units, exercise.slips
    return (question_of(asked, values, units, on_tape=on_tape, shown=shown),)


def model_answer(asked: Question) -> str:
    """The right answer as it is written on a cutting list; a fall for each inch is a decimal.

    >>> from hivecalc.hive import demo_hive
    >>> model_answer(question(demo_hive(), "bottom_board.headroom"))
    '3/32'

    What is no mark of the tape is rounded: a fit of the hive to 1/32 in, the rest to 1/16 in. A sum
    is told to 1/64 in where it comes out so.
    """
    value, rule, of_hive = asked.value, asked.dimension.rule, isinstance(asked, SizeOfHive)
    if asked.dimension.kind == "ratio":
        return decimal_inches(value).removeprefix("≈ ")
    if asked.units == "mm":
        return written(value, "mm").removeprefix("≈ ")
    if rounded(value, SIXTEENTH if of_hive else SIXTY_FOURTH) == value:
        return written(value)
    fit = of_hive and rule.rounding is Rounding.NEAREST
    return written(rounded(value, THIRTY_SECOND if fit else SIXTEENTH, rule.rounding))
