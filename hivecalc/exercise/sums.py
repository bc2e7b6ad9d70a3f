"""A sum over the givens of an exercise, in the form of a dimension: its slips and its verdict."""

import ast
import re
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from functools import partial
from typing import Final

from hivecalc.derivation import Dimension, RoundingRule, Values, line, title
from hivecalc.exercise.record import UNIT
from hivecalc.judging import MOST_SLIPS, TENTH_OF_MM, NamedSlip, Verdict, is_right
from hivecalc.length import SIXTEENTH, LengthError, Units, length_from_text, rounded, written
from hivecalc.slips import SLIPS, Wrong, about_rule, about_sums, about_tape, about_writing
from hivecalc.slips.arithmetic import computed

NO_SLIP: Final = "This is not the value expected, and no known slip gives it."
FINEST: Final = 64
CALLS: Final = {"max": "max", "min": "min"}
_UNIT_BEHIND: Final = re.compile(r" *(inches|inch|in|mm|[\"″”]) *\Z")


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


def sum_verdict(
    asked: Dimension, values: Values, units: Units, wrong: Iterable[Wrong], answer: str
) -> Verdict:
    """The verdict on an answer to a sum, in the form that a dimension's has.

    >>> sizes = {"board": Fraction(93, 4), "off": Fraction(3, 2), "left": Fraction(87, 4)}
    >>> sum_verdict(sum_of("left = board - off"), sizes, "inch", (), "21.75").message
    'Right. On a cutting list it is written 21 3/4 in.'

    values hold the sum's own value, wrong are the answers of slips.
    """
    name = asked.name
    try:
        read = length_from_text(answer, units)
    except LengthError as error:
        return Verdict(name, answer, "unreadable", str(error))
    if is_right(read, values[name], asked):
        return _right(name, answer, read, units)
    found = [w for w in wrong if _stands_for(read, w.value)]
    if found:
        return slipped(name, answer, found, read)
    return Verdict(name, answer, "unexplained", NO_SLIP, value=read)


def _right(name: str, answer: str, read: Fraction, units: Units) -> Verdict:
    exact = units == "mm" or not FINEST % read.denominator
    listed = written(read if exact else rounded(read, SIXTEENTH), units).removeprefix("≈ ")
    on_list = f"{listed} {UNIT[units]}"
    if " ".join(_UNIT_BEHIND.sub("", answer).split()) == listed:
        return Verdict(name, answer, "right", "Right.", value=read, on_list=on_list)
    told = f"Right. On a cutting list it is written {on_list}."
    return Verdict(name, answer, "right_other_form", told, value=read, on_list=on_list)


def _stands_for(answer: Fraction, wrong: Fraction) -> bool:
    """Whether an answer is a wrong value, exactly or as the nearest mark of the tape."""
    return abs(answer - wrong) <= TENTH_OF_MM or answer == rounded(wrong, SIXTEENTH)


def slipped(
    name: str, answer: str, found: Sequence[Wrong], read: Fraction | None = None
) -> Verdict:
    """The verdict that names slips: each once, the likeliest first, never more than three.

    >>> sizes = {"board": Fraction(93, 4), "off": Fraction(3, 2), "left": Fraction(87, 4)}
    >>> wrong = wrong_sums(sum_of("left = board - off"), sizes, "inch")
    >>> slipped("left", "24 3/4", [w for w in wrong if w.slip.name == "size_added"]).message
    'This is what you would get if the off were added instead of taken off.'
    """
    ranked = sorted(found, key=lambda w: -w.slip.weight)
    once = list({w.slip.name: w for w in reversed(ranked)}.values())[::-1][:MOST_SLIPS]
    told = once[0].sentence + "".join(f" Or if {w.gives}." for w in once[1:])
    slips = tuple(_named(w) for w in once)
    return Verdict(name, answer, "slip", told, once[0].question, read, slips=slips)


def _named(wrong: Wrong) -> NamedSlip:
    slip, working = wrong.slip, f"{title(wrong.step)}: {wrong.working}"
    return NamedSlip(
        slip.name, slip.family, wrong.step, wrong.sentence, wrong.question, slip.practice, working
    )
