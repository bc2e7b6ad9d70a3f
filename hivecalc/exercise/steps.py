"""The worked steps of an exercise, told in lines, and the same with some of them left open."""

import ast
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from hivecalc.derivation import Step, line, title
from hivecalc.exercise.asked import Asked, OfSum
from hivecalc.exercise.on_tape import reading_in_words
from hivecalc.exercise.record import UNIT, Stage
from hivecalc.fractions_in_words import difference_in_words, sum_in_words
from hivecalc.judging import computed
from hivecalc.length import written

SIXTY_FOURTHS: Final = 64
HALVES: Final = 2
FIGURE: Final = re.compile(r"\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?")
HARD_WORDS: Final = ("borrow", "carry", "Double", "shortest marks")


@dataclass(frozen=True)
class Line:
    """One line of the worked steps: as it is, and as it stands while it is open."""

    text: str
    open: str


def lines(asked: Asked) -> tuple[Line, ...]:
    """The worked steps of what is asked for, down to what was measured.

    >>> from hivecalc.exercise.asked import OfHive
    >>> from hivecalc.hive import demo_hive
    >>> for one in lines(OfHive(demo_hive(), "bottom_board.front_rail_length")):
    ...     print(one.text, "|", one.open)
    front rail length = hive width − 2 × stud thickness | front rail length = ?
    = 17 3/8 − 2 × 1 1/2 | = ?
    = 14 3/8 in | = ? in
    """
    told = in_words(asked)
    if told:
        return tuple(Line(text, FIGURE.sub("?", text)) for text in told)
    return tuple(one for step in asked.steps() for one in _of_step(step, asked))


def _of_step(step: Step, asked: Asked) -> list[Line]:
    name, ratio = title(step.dimension), asked.dimension.kind == "ratio"
    unit = "" if ratio and step.dimension == asked.dimension.name else f" {UNIT[asked.units]}"
    equals = "" if step.shown.startswith("≈") else "= "
    return [
        Line(f"{name} = {step.formula}", f"{name} = ?"),
        Line(f"= {step.numbers}", "= ?"),
        Line(f"{equals}{step.shown}{unit}", f"= ?{unit}"),
    ]


# ── left open ─────────────────────────────────────────────────────────────────────────────────


def faded(asked: Asked, stage: Stage) -> tuple[str, ...]:
    """The worked steps as far as they are given: all, all but the last, all but the hard one.

    >>> from hivecalc.exercise.asked import OfHive
    >>> from hivecalc.hive import demo_hive
    >>> faded(OfHive(demo_hive(), "bottom_board.front_rail_length"), "hard step")
    ('front rail length = hive width − ? × stud thickness', '= ?', '= ? in')
    """
    told = lines(asked)
    if stage == "alone":
        return ()
    if stage == "hard step":
        return _without_hard_step(asked, told)
    kept = told if stage == "worked" else told[:-1]
    return (*(one.text for one in kept), *(one.open for one in told[len(kept) :]))


def _without_hard_step(asked: Asked, told: Sequence[Line]) -> tuple[str, ...]:
    if in_words(asked):
        hard = hard_line(told)
        texts = [one.text for one in told[:hard]]
        return (*texts, _half_told(told[hard].text), *(one.open for one in told[hard + 1 :]))
    before, (_, numbers, value) = told[:-3], told[-3:]
    formula = f"{asked.dimension.title} = {_without_counts(asked)}"
    return (*(one.text for one in before), formula, numbers.open, value.open)


def hard_line(told: Sequence[Line]) -> int:
    """Where the hard step stands: the borrowing, the carrying, the halving, the counting.

    >>> hard_line([Line("Make the parts equal.", ""), Line("It is too small: borrow an inch.", "")])
    1
    """
    found = (i for i, one in enumerate(told) if any(w in one.text for w in HARD_WORDS))
    return next(found, 0)


def _half_told(text: str) -> str:
    """A line with its last figure open: what is asked stays, what comes of it goes."""
    *_, last = FIGURE.finditer(text)
    return text[: last.start()] + "?" + text[last.end() :]


def _without_counts(asked: Asked) -> str:
    """The formula in words, with a "?" for how often each thing counts that is added or taken."""
    words = {
        p: title(i) for p, i in zip(asked.dimension.parameters, asked.dimension.inputs, strict=True)
    }
    return line(_opened(asked.dimension.expression), {**words, "?": "?"})


def _opened(expression: ast.expr) -> ast.expr:
    if not isinstance(expression, ast.BinOp) or isinstance(expression.op, ast.Mult):
        return expression
    if isinstance(expression.op, ast.Div):
        return ast.BinOp(_opened(expression.left), expression.op, expression.right)
    counted = ast.BinOp(ast.Name(id="?"), ast.Mult(), _core(expression.right))
    return ast.BinOp(_opened(expression.left), expression.op, counted)


def _core(term: ast.expr) -> ast.expr:
    if isinstance(term, ast.BinOp) and isinstance(term.op, ast.Mult | ast.Div):
        return term.right if isinstance(term.left, ast.Constant) else term.left
    return term


# ── sums in words ────────────────────────────────────────────────────────────────────────────


def in_words(asked: Asked) -> list[str]:
    """A sum of two lengths, a half or a reading, told as a builder reckons it; else nothing."""
    if not isinstance(asked, OfSum):
        return []
    expression, values = asked.dimension.expression, asked.values
    if "mark" in asked.dimension.inputs:
        reading = reading_in_words(values["mark"], asked.units)
        return [*reading, *(last_sum_in_words(asked) or _first_mark_off(asked))]
    if asked.units == "mm":
        return []
    if isinstance(expression, ast.BinOp) and isinstance(expression.op, ast.Div):
        return half_in_words(computed(expression.left, values))
    terms = [expression.left, expression.right] if isinstance(expression, ast.BinOp) else []
    both_given = terms and all(isinstance(term, ast.Name) for term in terms)
    return last_sum_in_words(asked) if both_given else []


def _first_mark_off(asked: OfSum) -> list[str]:
    """The mark at which a tape in mm was laid on, taken off in one line; nothing where it is 0."""
    (*_, last) = asked.steps()
    begun = "first_mark" in asked.dimension.inputs
    return [f"Take off where you began: {last.numbers} = {last.shown} mm."] if begun else []


def last_sum_in_words(asked: Asked) -> list[str]:
    """The last addition or subtraction, step by step; nothing where a tape has no such marks.

    >>> from hivecalc.exercise.asked import OfHive
    >>> from hivecalc.hive import demo_hive
    >>> last_sum_in_words(OfHive(demo_hive(), "bottom_board.front_rail_length"))
    ['2 × 1 is 2, and 2 × 1/2 is 2/2, which is 1.', 'Together: 3 in.', \
'Take the inches: 17 − 3 = 14.', 'Left: 14 3/8 in.']
    """
    expression = asked.dimension.expression
    if asked.units == "mm" or not isinstance(expression, ast.BinOp):
        return []
    names = dict(zip(asked.dimension.parameters, asked.dimension.inputs, strict=True))
    values = {p: asked.values[i] for p, i in names.items()}
    both = [computed(e, values) for e in (expression.left, expression.right)]
    if any(v < 0 or SIXTY_FOURTHS % v.denominator for v in both):
        return []
    before = [*_part_in_words(expression.left, values), *_part_in_words(expression.right, values)]
    if isinstance(expression.op, ast.Add):
        return [*before, *sum_in_words(*both)]
    return [*before, *difference_in_words(*both)] if isinstance(expression.op, ast.Sub) else []


def _part_in_words(term: ast.expr, values: Mapping[str, Fraction]) -> list[str]:
    """A half or a multiple that goes into a sum, worked out; nothing for a plain size."""
    if not isinstance(term, ast.BinOp) or not isinstance(term.op, ast.Mult | ast.Div):
        return []
    left, right = computed(term.left, values), computed(term.right, values)
    if isinstance(term.op, ast.Div):
        return half_in_words(left) if right == HALVES else []
    return multiple_in_words(int(left), right) if left.denominator == 1 else []


def multiple_in_words(count: int, one: Fraction) -> list[str]:
    """A length taken several times, step by step.

    >>> multiple_in_words(10, Fraction(11, 8))
    ['10 × 1 is 10, and 10 × 3/8 is 30/8, which is 3 3/4.', 'Together: 13 3/4 in.']
    >>> multiple_in_words(2, Fraction(3, 4))
    ['2 × 3/4 is 6/4, which is 1 1/2 in.']
    """
    inches, part = one // 1, one % 1
    if not part:
        return [f"{count} × {inches} is {count * inches} in."]
    parts = f"{count} × {written(part)} is {count * part.numerator}/{part.denominator}"
    if not inches:
        return [f"{parts}, which is {written(count * part)} in."]
    return [
        f"{count} × {inches} is {count * inches}, and {parts}, which is {written(count * part)}.",
        f"Together: {written(count * one)} in.",
    ]


def half_in_words(whole: Fraction) -> list[str]:
    """Half of a length, step by step.

    >>> half_in_words(Fraction(53, 4))
    ['Half of 13 in is 6 1/2 in.', 'Double what stands under the line: half of 1/4 is 1/8.', \
'Together: 6 5/8 in.']
    """
    inches, part = Fraction(whole // 1), whole % 1
    told = [f"Half of {written(inches)} in is {written(inches / 2)} in."] if inches else []
    if part:
        half = written(part / 2)
        told.append(f"Double what stands under the line: half of {written(part)} is {half}.")
    return [*told, f"Together: {written(whole / 2)} in."] if len(told) > 1 else told
