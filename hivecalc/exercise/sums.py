"""A sum over the givens of an exercise, in the form of a dimension: its slips and its verdict."""

import ast
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from typing import Final

from hivecalc.derivation import Dimension, RoundingRule, Values, line, title
from hivecalc.exercise.record import UNIT
from hivecalc.judging import (
    MOST_SLIPS,
    NO_SLIP,
    NamedSlip,
    Verdict,
    is_list_form,
    is_right,
    slip_message,
    stands_for,
    tells_apart,
)
from hivecalc.length import SIXTEENTH, LengthError, Units, length_from_text, rounded, written
from hivecalc.slips import SLIPS, Wrong, about_rule, about_sums, about_tape, about_writing
from hivecalc.slips.arithmetic import computed

FINEST: Final = 64
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


def wrong_sums(
    asked: Dimension, values: Values, units: Units, *, on_tape: bool = False
) -> tuple[Wrong, ...]:
    """The wrong answers of slips in a sum's rule, in adding up, in writing, and on the tape.

    >>> sizes = {"board": Fraction(93, 4), "off": Fraction(3, 2), "left": Fraction(87, 4)}
    >>> found = wrong_sums(sum_of("left = board - off"), sizes, "inch")
    >>> [w.working for w in found if w.slip.name == "inch_not_lowered"]
    ['23 1/4 − 1 1/2 = 22 3/4']

    None is right, and none is below zero. values hold the sum's own value, too.
    """
    value = values[asked.name]
    wrong = [
        *_wrong_rules(asked, values, units),
        *about_sums.wrong_answers(asked, values, units),
        *(about_tape.readings(value, units, asked.name) if on_tape else ()),
        *about_writing.wrong_answers(asked, value, units),
    ]
    return tuple(w for w in wrong if w.value > 0 and not is_right(w.value, value, asked))


def _wrong_rules(asked: Dimension, values: Values, units: Units) -> Iterator[Wrong]:
    known = {n: written(v, units) for n, v in values.items()} | CALLS
    for rule in about_rule.wrong_rules(asked):
        names = [n.id for n in ast.walk(rule.expression) if isinstance(n, ast.Name)]
        if known.keys() >= set(names):
            value = computed(rule.expression, values)
            told = f"{line(rule.expression, known)} = {written(value, units)}"
            working = partial(str, told)
            yield Wrong(SLIPS[rule.slip], asked.name, value, rule.what, rule.other, working)


# ── the verdict ───────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Sum:
    """A sum to judge answers by: its sizes with its own value, and the wrong answers of slips.

    The slips that are shown, by name, come first, and are looked for at the nearest mark of a tape
    whatever they are about.

    >>> sizes = {"board": Fraction(93, 4), "off": Fraction(3, 2), "left": Fraction(87, 4)}
    >>> Sum(sum_of("left = board - off"), sizes, "inch").verdict("21.75").message
    'Right. On a cutting list it is written 21 3/4 in.'
    """

    asked: Dimension
    values: Values
    units: Units
    wrong: tuple[Wrong, ...] = ()
    shown: Collection[str] = ()

    def verdict(self, answer: str) -> Verdict:
        """The verdict on an answer, in the form that a dimension's has."""
        name = self.asked.name
        try:
            read = length_from_text(answer, self.units)
        except LengthError as error:
            return Verdict(name, answer, "unreadable", str(error))
        if self._is_right(read):
            return self._right(answer, read)
        found = [w for w in self.wrong if self._is(read, w)]
        if found:
            return slipped(name, answer, found, read, self.shown)
        return Verdict(name, answer, "unexplained", NO_SLIP, value=read)

    def _is_right(self, read: Fraction) -> bool:
        """Whether an answer is the value, or a rounding that takes no more than a tenth of it."""
        value = self.values[self.asked.name]
        return is_right(read, value, self.asked) and abs(read - value) * 10 <= value

    def _right(self, answer: str, read: Fraction) -> Verdict:
        name, units, value = self.asked.name, self.units, self.values[self.asked.name]
        exact = units == "mm" or not FINEST % value.denominator
        listed = written(value if exact else rounded(value, SIXTEENTH), units).removeprefix("≈ ")
        on_list = f"{listed} {UNIT[units]}"
        if is_list_form(answer, read, units):
            return Verdict(name, answer, "right", "Right.", value=read, on_list=on_list)
        told = f"Right. On a cutting list it is written {on_list}."
        return Verdict(name, answer, "right_other_form", told, value=read, on_list=on_list)

    def _is(self, read: Fraction, wrong: Wrong) -> bool:
        """Whether an answer is what a slip gives, as it may be written."""
        at_mark = wrong.slip.name in self.shown and read == rounded(wrong.value, SIXTEENTH)
        return at_mark or stands_for(read, wrong.value, wrong, self.asked)


def slipped(
    name: str,
    answer: str,
    found: Iterable[Wrong],
    read: Fraction | None = None,
    shown: Collection[str] = (),
) -> Verdict:
    """The verdict that names slips: each once, the likeliest first, never more than three.

    >>> sizes = {"board": Fraction(93, 4), "off": Fraction(3, 2), "left": Fraction(87, 4)}
    >>> wrong = wrong_sums(sum_of("left = board - off"), sizes, "inch")
    >>> slipped("left", "24 3/4", [w for w in wrong if w.slip.name == "size_added"]).message
    'This is what you would get if the off were added instead of taken off.'
    """
    ranked = sorted(found, key=lambda w: (w.slip.name not in shown, -w.slip.weight))
    once = list({w.slip.name: w for w in reversed(ranked)}.values())[::-1][:MOST_SLIPS]
    slips = tuple(_named(w) for w in once)
    told, question = slip_message(slips), slips[0].question
    return Verdict(
        name, answer, "slip", told, question, read, slips=slips, tells_apart=tells_apart(slips)
    )


def _named(wrong: Wrong) -> NamedSlip:
    slip, working = wrong.slip, f"{title(wrong.step)}: {wrong.working}"
    return NamedSlip(
        slip.name, slip.family, wrong.step, wrong.sentence, wrong.question, slip.practice, working
    )
