"""The worked steps of an exercise, told in lines, and the same with some of them left open."""

import ast
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from hivecalc import fractions_in_words as sums
from hivecalc.derivation import Step, line, title
from hivecalc.exercise.asked import model_answer
from hivecalc.exercise.record import UNIT, Stage
from hivecalc.fractions_in_words import SumStep, formula_steps
from hivecalc.judging import Question, SizeOfHive
from hivecalc.length import MM, SIXTEENTH, Units, decimal_inches, written

FIGURE: Final = re.compile(r"\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?")
HARD: Final = {"borrow", "carry", "halve", "count marks"}
"""The kinds of steps that most go wrong in: left open where all others are done."""
OTHER_UNIT: Final[dict[Units, str]] = {"inch": " mm", "mm": " in"}
TEN: Final = 10


@dataclass(frozen=True)
class Line:
    """One line of the worked steps: as it is, and as it stands while it is open."""

    text: str
    open: str
    hard: bool = False


def lines(asked: Question, given: Mapping[str, str]) -> tuple[Line, ...]:
    """The worked steps of what is asked for, down to what was measured or given in these texts.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.judging import question
    >>> for one in lines(question(demo_hive(), "bottom_board.front_rail_length"), {}):
    ...     print(one.text, "|", one.open)
    front rail length = hive width − 2 × stud thickness | front rail length = ?
    = 17 3/8 − 2 × 1 1/2 | = ?
    = 14 3/8 in | = ? in
    """
    if not isinstance(asked, SizeOfHive):
        return tuple(_of_sum(asked, given))
    return tuple(one for step in asked.steps() for one in _of_step(step, asked))


def _of_step(step: Step, asked: Question) -> list[Line]:
    name, ratio = title(step.dimension), asked.dimension.kind == "ratio"
    unit = "" if ratio and step.dimension == asked.dimension.name else f" {UNIT[asked.units]}"
    equals = "" if step.shown.startswith("≈") else "= "
    return [
        Line(f"{name} = {step.formula}", f"{name} = ?"),
        Line(f"= {step.numbers}", "= ?"),
        Line(f"{equals}{step.shown}{unit}", f"= ?{unit}"),
    ]


def _of_sum(asked: Question, given: Mapping[str, str]) -> Iterator[Line]:
    """The steps of a sum over the givens: the tape read, units made alike, then the sum itself."""
    expression = asked.dimension.expression
    if "mark" in asked.values:
        yield from _reading(asked.values["mark"], asked.units)
    elif any(isinstance(e, ast.BinOp) for e in ast.iter_child_nodes(expression)):
        yield from _of_step(asked.steps()[0], asked)[:2]
    for name in asked.dimension.inputs:
        yield from map(_line, _converted(asked, name, given.get(name, "")))
    for step in sum_steps(asked):
        yield _line(step.words, hard=step.kind in HARD)


def _line(text: str, *, hard: bool = False) -> Line:
    return Line(text, FIGURE.sub("?", text), hard)


def sum_steps(asked: Question) -> list[SumStep]:
    """The last sum to a size, step by step: what is added, borrowed, carried, doubled and halved.

    >>> from hivecalc.fractions_in_words import in_words
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.judging import question
    >>> in_words(sum_steps(question(demo_hive(), "bottom_board.side_rail_length")))[0]
    'Make the parts equal: 1 1/2 is 1 4/8.'

    Nothing for a size that is another one as it is.
    """
    names = zip(asked.dimension.parameters, asked.dimension.inputs, strict=True)
    sizes = {parameter: asked.values[name] for parameter, name in names}
    if min(sizes.values(), default=Fraction(0)) < 0:
        return []
    return formula_steps(asked.dimension.expression, sizes, asked.units)


def _reading(mark: Fraction, units: Units) -> Iterator[Line]:
    """A reading of the tape, as eyes count it; a tape in mm has a number at every tenth mark."""
    if units == "mm":
        number, count = (int(n) for n in divmod(mark / MM, TEN))
        number, parts = TEN * number, f"{count} mm"
    else:
        number, count = int(mark // 1), int(mark % 1 / SIXTEENTH.step)
        part = written(mark % 1)
        parts = f"{count}/16" + ("" if part.endswith("/16") else f", which is {part}")
    yield _line(f"The number before the arrow is {number}.")
    marks = f"{count} of the shortest marks further"
    yield _line(f"Past it the arrow is {marks}: {parts}.", hard=True)
    yield _line(f"The tape reads {written(mark, units)} {UNIT[units]}.")


def _converted(asked: Question, name: str, text: str) -> Iterator[str]:
    """A given in the other unit brought into that of the answer, where it is one."""
    units = asked.units
    if not text.endswith(OTHER_UNIT[units]):
        return
    number, value = text.removesuffix(OTHER_UNIT[units]), asked.values[name]
    if units == "mm":
        decimal = decimal_inches(value)
        if "/" in number:
            yield f"{number} written with a decimal is {decimal}."
        yield f"{decimal} × 25.4 = {written(value, units)} mm."
        return
    inches = decimal_inches(value)
    yield f"{number} ÷ 25.4 {'' if '≈' in inches else '= '}{inches} in."
    if "≈" in inches:
        yield f"The nearest mark of the tape is {model_answer(asked)} in."


def without_result(asked: Question, given: Mapping[str, str]) -> list[str]:
    """The steps of a sum over the givens, with what comes of the last one left open."""
    told, steps = [one.text for one in _of_sum(asked, given)], sum_steps(asked)
    if not steps:
        return [*told[:-1], _half_told(told[-1])]
    return [*told[: -len(steps)], *sums.without_result(steps)]


# ── left open ─────────────────────────────────────────────────────────────────────────────────


def faded(asked: Question, given: Mapping[str, str], stage: Stage) -> tuple[str, ...]:
    """The worked steps as far as they are given: all but the last, or all but the hard one.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.judging import question
    >>> faded(question(demo_hive(), "bottom_board.front_rail_length"), {}, "hard step")
    ('front rail length = hive width − ? × stud thickness', '= ?', '= ? in')
    """
    told = lines(asked, given)
    if stage == "last step":
        return (*(one.text for one in told[:-1]), told[-1].open)
    if not isinstance(asked, SizeOfHive):
        hard = next((i for i, one in enumerate(told) if one.hard), 0)
        texts = [one.text for one in told[:hard]]
        return (*texts, _half_told(told[hard].text), *(one.open for one in told[hard + 1 :]))
    before, (_, numbers, value) = told[:-3], told[-3:]
    formula = f"{asked.dimension.title} = {_without_counts(asked)}"
    return (*(one.text for one in before), formula, numbers.open, value.open)


def _half_told(text: str) -> str:
    """A line with its last figure open: what is asked stays, what comes of it goes."""
    *_, last = FIGURE.finditer(text)
    return text[: last.start()] + "?" + text[last.end() :]


def _without_counts(asked: Question) -> str:
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
