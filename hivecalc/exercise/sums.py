"""A sum over the givens of an exercise, in the form of a dimension: its slips and its verdict."""

import ast
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from hivecalc.derivation import Dimension, RoundingRule, Values, title
from hivecalc.exercise.record import UNIT
from hivecalc.judging import (
    MOST_SLIPS,
    NOT_EXPECTED,
    UNFINISHED,
    Entry,
    Verdict,
    Wrong,
    at_step,
    computed,
    is_right,
    named_slip,
    readings,
    slip_message,
    space_left_out,
    stands_for,
    tells_apart,
)
from hivecalc.length import SIXTEENTH, LengthError, Units, length_from_text, rounded, written

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
    wrong = [*at_step(asked, values, units)]
    if on_tape:
        laid_on = "first_mark" in asked.inputs
        read = list(readings(value, units, asked.name, laid_on=laid_on))
        kept = {w.value for w in read if w.slip.name == "first_inch_kept"}
        wrong = [w for w in wrong if w.what != "first mark" or w.value not in kept]  # told once
        wrong += read
    return tuple(w for w in wrong if w.value > 0 and not is_right(w.value, value, asked))


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
            entry = Entry(answer, length_from_text(answer, self.units), self.units)
        except LengthError as error:
            return Verdict(name, answer, "unreadable", str(error))
        if self._is_right(entry.value):
            return self._right(entry)
        if told := space_left_out(entry, self.values[name], self.asked):
            return told
        found = [w for w in self.wrong if self._is(entry, w)]
        if found:
            return slipped(name, answer, found, entry.value, self.shown)
        return Verdict(name, answer, "unexplained", NOT_EXPECTED, value=entry.value)

    def _is_right(self, read: Fraction) -> bool:
        """Whether an answer is the value, or a rounding that takes no more than a tenth of it."""
        value = self.values[self.asked.name]
        return is_right(read, value, self.asked) and abs(read - value) * 10 <= value

    def _right(self, entry: Entry) -> Verdict:
        name, units, value = self.asked.name, self.units, self.values[self.asked.name]
        exact = units == "mm" or not FINEST % value.denominator
        listed = written(value if exact else rounded(value, SIXTEENTH), units).removeprefix("≈ ")
        on_list = f"{listed} {UNIT[units]}"
        if entry.is_list_form:
            return Verdict(name, entry.text, "right", "Right.", value=entry.value, on_list=on_list)
        begin = UNFINISHED if entry.is_unfinished else "Right."
        told = f"{begin} On a cutting list it is written {on_list}."
        return Verdict(
            name, entry.text, "right_other_form", told, value=entry.value, on_list=on_list
        )

    def _is(self, entry: Entry, wrong: Wrong) -> bool:
        """Whether an answer is what a slip gives, as it may be written."""
        at_mark = wrong.slip.name in self.shown and entry.value == rounded(wrong.value, SIXTEENTH)
        return at_mark or stands_for(entry, wrong.value, wrong, self.asked)


def slipped(
    name: str,
    answer: str,
    found: Iterable[Wrong],
    read: Fraction | None = None,
    shown: Collection[str] = (),
) -> Verdict:
    """The verdict that names slips, the likeliest first: three at most that can be told apart.

    >>> sizes = {"board": Fraction(93, 4), "off": Fraction(3, 2), "left": Fraction(87, 4)}
    >>> wrong = wrong_sums(sum_of("left = board - off"), sizes, "inch")
    >>> slipped("left", "24 3/4", [w for w in wrong if w.slip.name == "size_added"]).message
    'This is what you would get if the off were added instead of taken off.'
    """
    ranked = sorted(found, key=lambda w: (w.slip.name not in shown, -w.slip.weight))
    once, apart = dict[str, Wrong](), dict[str, Wrong]()
    for wrong in ranked:
        once.setdefault(wrong.slip.name, wrong)
    for wrong in once.values():
        apart.setdefault(wrong.trace, wrong)
    slips = tuple(named_slip(w) for w in [*apart.values()][:MOST_SLIPS])
    told, question = slip_message(slips), slips[0].question
    return Verdict(
        name, answer, "slip", told, question, read, slips=slips, tells_apart=tells_apart(slips)
    )
