"""A sum over the givens of an exercise, in the form of a dimension, and the question it asks."""

import ast
from collections.abc import Collection
from fractions import Fraction
from typing import Final

from hivecalc.derivation import Dimension, RoundingRule, Values, title
from hivecalc.judging import Question, Wrong, at_step, computed, readings
from hivecalc.length import Units

CALLS: Final = {"max": "max", "min": "min"}


def sum_of(text: str) -> Dimension:
    """A sum such as "piece_left = board - piece_off", as a dimension that stands in no graph.

    >>> left = sum_of("piece_left = board - piece_off")
    >>> left.title, left.inputs, left.function(Fraction(9), Fraction(2))
    ('piece left', ('board', 'piece_off'), Fraction(7, 1))
    """
    name, _, arithmetic = text.partition(" = ")
    expression = ast.parse(arithmetic, mode="eval").body
    inputs = tuple(n for n in _names(expression) if n not in CALLS)

    def worked_out(*sizes: Fraction) -> Fraction:
        return computed(expression, dict(zip(inputs, sizes, strict=True)))

    return Dimension(
        name, "exercise", inputs, inputs, worked_out, expression, "length", title(name), "",
        RoundingRule(),
    )  # fmt: skip


def _names(expression: ast.expr) -> list[str]:
    """The names in an expression as they are read from left to right, each once."""
    named = [n for n in ast.walk(expression) if isinstance(n, ast.Name)]
    return list(dict.fromkeys(n.id for n in sorted(named, key=lambda n: n.col_offset)))


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
