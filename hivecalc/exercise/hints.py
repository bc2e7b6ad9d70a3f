"""The help with an exercise: its worked steps, whole or partly open, and three hints.

A hint is a question, the rule, or almost the answer, and none gives the answer in figures. What a
record does not say itself is made from the slips, the formula and the numbers.
"""

import ast
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, TypeAlias

from hivecalc.derivation import Step, line, title
from hivecalc.exercise.options import Offered
from hivecalc.exercise.record import (
    Exercise,
    Numbers,
    Stage,
    model_answer,
    with_change,
)
from hivecalc.fractions_in_words import SumStep, formula_steps, without_result
from hivecalc.judging import Question, SizeOfHive, question
from hivecalc.length import (
    MM,
    SIGN_OF,
    SIXTEENTH,
    LengthError,
    Units,
    decimal_inches,
    in_units,
    length_from_text,
    written,
)

FIGURE: Final = re.compile(r"\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?")
HARD: Final = {"borrow", "carry", "halve", "count marks"}
"""The kinds of steps that most go wrong in: left open where all others are done."""
OTHER_UNIT: Final[dict[Units, str]] = {"inch": " mm", "mm": " in"}


# ── worked steps ───────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class StepLine:
    """One line of the worked steps: as it is, and as it stands while it is open."""

    text: str
    open: str
    hard: bool = False


def lines(asked: Question, given: Mapping[str, str]) -> tuple[StepLine, ...]:
    """The worked steps of what is asked for, down to what was measured or given in these texts.

    >>> from hivecalc.hive import demo_hive
    >>> for one in lines(question(demo_hive(), "bottom_board.front_rail_length"), {}):
    ...     print(one.text, "|", one.open)
    front rail length = hive width − 2 × stud thickness | front rail length = ?
    = 17 3/8 − 2 × 1 1/2 | = ?
    = 14 3/8 in | = ? in
    """
    if not isinstance(asked, SizeOfHive):
        return tuple(_of_sum(asked, given))
    return tuple(one for step in asked.steps() for one in _of_step(step, asked))


def _of_step(step: Step, asked: Question) -> list[StepLine]:
    name, ratio = title(step.dimension), asked.dimension.kind == "ratio"
    unit = "" if ratio and step.dimension == asked.dimension.name else f" {SIGN_OF[asked.units]}"
    equals = "" if step.shown.startswith("≈") else "= "
    return [
        StepLine(f"{name} = {step.formula}", f"{name} = ?"),
        StepLine(f"= {step.numbers}", "= ?"),
        StepLine(f"{equals}{step.shown}{unit}", f"= ?{unit}"),
    ]


def _of_sum(asked: Question, given: Mapping[str, str]) -> Iterator[StepLine]:
    """The steps of a sum over the givens: the tape read, units made alike, then the sum itself."""
    expression = asked.dimension.expression
    if "mark" in asked.values:
        yield from _reading(asked.values["mark"], asked.units)
    elif any(isinstance(e, ast.BinOp) for e in ast.iter_child_nodes(expression)):
        yield from _of_step(asked.steps()[0], asked)[:2]
    for name in asked.dimension.inputs:
        yield from map(_line, _converted(asked, name, given.get(name, "")))
    for step in last_sum(asked):
        yield _line(step.words, hard=step.kind in HARD)


def _line(text: str, *, hard: bool = False) -> StepLine:
    return StepLine(text, FIGURE.sub("?", text), hard)


def last_sum(asked: Question) -> list[SumStep]:
    """The last sum to a size, step by step: what is added, borrowed, carried, doubled and halved.

    >>> from hivecalc.hive import demo_hive
    >>> last_sum(question(demo_hive(), "bottom_board.side_rail_length"))[0].words
    'Make the parts equal: 1 1/2 is 1 4/8.'

    Nothing for a size that is another one as it is.
    """
    sizes = {p: asked.values[name] for p, name in asked.dimension.full_names.items()}
    if min(sizes.values(), default=Fraction(0)) < 0:
        return []
    return formula_steps(asked.dimension.expression, sizes, asked.units)


def _reading(mark: Fraction, units: Units) -> Iterator[StepLine]:
    """A reading of the tape, as eyes count it; a tape in mm has a number at every tenth mark."""
    if units == "mm":
        number, count = (int(n) for n in divmod(mark / MM, 10))
        number, parts = 10 * number, f"{count} mm"
    else:
        number, count = int(mark // 1), int(mark % 1 / SIXTEENTH.step)
        part = written(mark % 1)
        parts = f"{count}/16" + ("" if part.endswith("/16") else f", which is {part}")
    yield _line(f"The number before the arrow is {number}.")
    marks = f"{count} of the shortest marks further"
    yield _line(f"Past it the arrow is {marks}: {parts}.", hard=True)
    yield _line(f"The tape reads {written(mark, units)} {SIGN_OF[units]}.")


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


def steps_left_open(asked: Question, given: Mapping[str, str]) -> list[str]:
    """The steps of a sum over the givens, with what comes of the last one left open."""
    worked, steps = [one.text for one in _of_sum(asked, given)], last_sum(asked)
    if not steps:
        return [*worked[:-1], _half_open(worked[-1])]
    return [*worked[: -len(steps)], *without_result(steps)]


# ── left open ─────────────────────────────────────────────────────────────────────────────────


def faded(asked: Question, given: Mapping[str, str], stage: Stage) -> tuple[str, ...]:
    """The worked steps as far as they are given: all but the last, or all but the hard one.

    >>> from hivecalc.hive import demo_hive
    >>> faded(question(demo_hive(), "bottom_board.front_rail_length"), {}, "hard step")
    ('front rail length = hive width − ? × stud thickness', '= ?', '= ? in')
    """
    worked = lines(asked, given)
    if stage == "last step":
        return (*(one.text for one in worked[:-1]), worked[-1].open)
    if not isinstance(asked, SizeOfHive):
        hard = next((i for i, one in enumerate(worked) if one.hard), 0)
        texts = [one.text for one in worked[:hard]]
        return (*texts, _half_open(worked[hard].text), *(one.open for one in worked[hard + 1 :]))
    before, (_, numbers, value) = worked[:-3], worked[-3:]
    words = {p: title(name) for p, name in asked.dimension.full_names.items()}
    formula = line(_opened(asked.dimension.expression), {**words, "?": "?"})
    opened = f"{asked.dimension.title} = {formula}", numbers.open, value.open
    return (*(one.text for one in before), *opened)


def _half_open(text: str) -> str:
    """A line with its last figure open: what is asked stays, what comes of it goes."""
    *_, last = FIGURE.finditer(text)
    return text[: last.start()] + "?" + text[last.end() :]


def _opened(expression: ast.expr) -> ast.expr:
    """A formula with a "?" for how often each thing counts that is added or taken off."""
    if not isinstance(expression, ast.BinOp) or isinstance(expression.op, ast.Mult):
        return expression
    if isinstance(expression.op, ast.Div):
        return ast.BinOp(_opened(expression.left), expression.op, expression.right)
    term = expression.right
    if isinstance(term, ast.BinOp) and isinstance(term.op, ast.Mult | ast.Div):
        term = term.right if isinstance(term.left, ast.Constant) else term.left
    counted = ast.BinOp(ast.Name(id="?"), ast.Mult(), term)
    return ast.BinOp(_opened(expression.left), expression.op, counted)


# ── hints ──────────────────────────────────────────────────────────────────────────────────────

Hints: TypeAlias = tuple[str, str, str]
FIRST: Final = "Which sizes make it, which of them are added or taken off, and how often each?"
RULES: Final[dict[type[ast.operator], str]] = {
    ast.Add: "Make the parts equal and add them. If they make an inch or more, carry it over. Then "
    "add the inches.",
    ast.Sub: "Make the parts equal. Is there too little to take from? Then borrow an inch, and "
    "lower the inches by one.",
    ast.Div: "To halve a fraction, double what stands under its line. Half of an odd inch is half "
    "an inch more.",
}
QUESTIONS: Final = {
    "bottom_board.front_rail_length": "Go across the frame from left to right: which rails do you "
    "meet beside the front rail?",
    "bottom_board.opening_length": "Go from the front of the frame to its back: how many rails do "
    "you go through?",
    "bottom_board.opening_width": "Go across the frame from left to right: how many rails do you "
    "go through?",
    "bottom_board.lower_front_runner_length": "What stands at both ends of that runner, and how "
    "thick is it, the way it stands?",
    "bottom_board.upper_front_runner_length": "What lies at both ends of that runner, and how wide "
    "is it, the way it lies?",
    "bottom_board.screen_end_strip_length": "What lies at both ends of that strip, and which way "
    "round does it lie?",
    "bottom_board.stack_height": "Lay it up in your mind, layer by layer: which are there?",
    "roof.rim_front_length": "What stands at both ends of the front?",
    "roof.skirt_side_length": "What does a side of the skirt cover at its two ends?",
    "inner_cover.rim_back_length": "What lies at both ends of the back?",
    "inner_cover.rim_front_length": "What else lies across the width, besides the front pieces?",
    "inner_cover.overall_height": "Lay it up in your mind: what lies below the rim, what above?",
    "box_width": "What stands at the left and at the right of the room inside?",
    "hive_length": "What stands before the box and behind it, from the box outwards?",
    "hive_width": "What stands at the left and at the right of the box, from the box outwards?",
    "sleeve.foam_end_length": "What does the foam at the end cover, besides the end of the box?",
    "sleeve.skin_side_length": "What does the skin at the side cover, besides the foam there?",
    "sleeve.skin_end_length": "Which edges does the skin at the end cover, and at how many sides?",
}
"""What to look at first, by dimension; for others the question of the slip shown first will do."""
CHAIN: Final = (
    "Take off what the piece stands between or makes room for, add what it reaches over, and count "
    "each as often as it is there."
)
ORDERS: Final = {
    "longest first": (
        "Which piece could still be cut from another one that was spoilt?",
        "The longest comes first: if it is spoilt, a shorter one can still be cut from it.",
    ),
    "smallest first": (
        "Into how many equal parts must you cut the inch to compare them all?",
        "Write them all with the same number under the line. Then compare the tops.",
    ),
    "smallest first, in mm": (
        "Which of them has the fewest millimetres?",
        "All are in millimetres, so the numbers can be compared as they are.",
    ),
    "needed first": (
        "Which of these sizes can you work out from measured ones alone?",
        "A size comes after all those that it is made from.",
    ),
}


def hints(
    exercise: Exercise, numbers: Numbers, asked: Sequence[Question], offered: Offered = ()
) -> Hints:
    """The three hints of an exercise on these numbers, where this is asked.

    >>> from hivecalc.exercise.record import asked_for, numbers_of
    >>> rail = Exercise("02-01", "derive", "bottom_board.side_rail_length", "", "", "",
    ...                 question="What lies behind its end?")
    >>> for hint in hints(rail, demo := numbers_of(""), asked_for(rail, demo)):
    ...     print(hint)
    What lies behind its end?
    Side rail length = hive length − stud thickness.
    Put your numbers in: 23 1/8 − 1 1/2. Make the parts equal: 1 1/2 is 1 4/8. 1/8 is too small \
to take 4/8 from: borrow an inch. 23 1/8 is 22 9/8. Go on from there.
    """
    question, rule, almost = _made(exercise, numbers, asked, offered)
    first = in_units(exercise.question, exercise.units) or question
    second = in_units(exercise.rule, exercise.units) or rule
    return first, second, in_units(exercise.almost, exercise.units) or almost


def _made(
    exercise: Exercise, numbers: Numbers, asked: Sequence[Question], offered: Offered
) -> Hints:
    if exercise.by in ORDERS:
        (last,) = (o.text.rpartition(", then ")[2] for o in offered if o.right)
        in_mm = f"{exercise.by}, in mm" if numbers.units == "mm" else ""
        return (*ORDERS.get(in_mm, ORDERS[exercise.by]), f"Last comes this one: {last}.")
    if exercise.by == "count":
        return _of_count(numbers, asked[0])
    if exercise.kind == "chain":
        first = asked[0].dimension.inputs[0]
        return _first(exercise, asked[0]), CHAIN, f"It begins with the {title(first)}."
    if exercise.kind == "predict" and len(asked) == 1:
        return _of_effect(exercise, numbers, asked[0])
    if len(asked) == 1:
        return _first(exercise, asked[0]), _rule(asked[0]), _almost(asked[0])
    return FIRST, "", ""


def _first(exercise: Exercise, asked: Question) -> str:
    """What to look at first: at the tape, at the piece itself, or as the slip shown first asks."""
    if "mark" in asked.dimension.inputs:
        if "first_mark" in asked.dimension.inputs:
            return "At which mark does the board begin, and between which two numbers does it end?"
        return "Put your eye straight over the arrow. Between which two numbers does it stand?"
    if asked.dimension.name in QUESTIONS:
        return QUESTIONS[asked.dimension.name]
    first = (w.question for s in exercise.slips[:1] for w in asked.wrong if w.slip.name == s)
    return next(first, FIRST)


def _rule(asked: Question) -> str:
    if "mark" in asked.dimension.inputs:
        shortest = "sixteen make an inch" if asked.units == "inch" else "each is 1 mm more"
        return f"Find the number before the arrow. Then count the shortest marks: {shortest}."
    expression = asked.dimension.expression
    if _is_one_sum(asked) and isinstance(expression, ast.BinOp):
        return RULES[type(expression.op)]
    *_, last = asked.steps()
    return f"{title(last.dimension).capitalize()} = {last.formula}."


def _is_one_sum(asked: Question) -> bool:
    """Whether it is the sum, difference or half of what is given, in inches."""
    expression = asked.dimension.expression
    one = isinstance(expression, ast.BinOp) and type(expression.op) in RULES
    nested = any(isinstance(e, ast.BinOp) for e in ast.iter_child_nodes(expression))
    of_givens = not isinstance(asked, SizeOfHive)
    return of_givens and asked.units == "inch" and one and not nested


def _almost(asked: Question) -> str:
    if "mark" in asked.dimension.inputs:
        before = landmark(asked.values["mark"], asked.units)
        burnt = len(asked.dimension.inputs) > 1
        return f"{before} Then take off the mark at which you began." if burnt else before
    *_, last = asked.steps()
    if isinstance(asked.dimension.expression, ast.Name):
        return f"It is the {last.formula} itself: nothing is added and nothing comes off."
    begun = "" if _is_one_sum(asked) else f"Put your numbers in: {last.numbers}. "
    text = f"{begun}{_as_far_as_hard(asked)}"
    if gives_away(text, last.value):
        text = f"{begun}Only the sum is left to do."
    if gives_away(text, last.value):
        return "Put your numbers into the rule, and work from left to right."
    return text


def _as_far_as_hard(asked: Question) -> str:
    """The sum as far as its first hard step, where it has one."""
    steps = last_sum(asked)
    hard = next((i for i, step in enumerate(steps) if step.kind in HARD), None)
    if hard is None:
        return "Only the sum is left to do."
    return " ".join(step.words for step in steps[: hard + 1]) + " Go on from there."


def landmark(mark: Fraction, units: Units) -> str:
    """The longer mark at or before a reading of the tape.

    >>> landmark(Fraction(139, 8), "inch")
    'The longer mark just before the arrow is the quarter. Count the shortest marks from there.'
    """
    on = "Count the shortest marks from there."
    if units == "mm":
        half_way = mark / MM % 10 >= 5  # noqa: PLR2004 - half of ten marks
        name = "the one half-way to the next number" if half_way else "the one with the number"
        return f"The longer mark at or before the arrow is {name}. {on}"
    quarters, beyond = divmod(mark % 1 / SIXTEENTH.step, 4)
    if beyond:
        name = ("whole inch", "quarter", "half", "three-quarter mark")[int(quarters)]
        return f"The longer mark just before the arrow is the {name}. {on}"
    return "The arrow stands on one of the longer marks: into how many parts do they cut the inch?"


def _of_count(numbers: Numbers, asked: Question) -> Hints:
    piece = written(asked.value, asked.units)
    together = f"A piece and its cut take {piece} + {numbers.texts['kerf']}."
    return (
        "How much of the board does one piece take up, together with the cut beside it?",
        "Every piece takes its length and a kerf. Only the last one needs no cut behind it.",
        f"{together} How often does the board hold that, if it were a kerf longer?",
    )


def _of_effect(exercise: Exercise, numbers: Numbers, asked: Question) -> Hints:
    new = question(with_change(numbers, exercise.change).hive, exercise.asks)
    (*_, before), (*_, after) = asked.steps(), new.steps()
    changed = title(exercise.change.partition(" ")[0])
    return (
        f"How often does the {changed} come into the {title(exercise.asks)}?",
        _rule(asked),
        f"Before it is {before.numbers}, after it is {after.numbers}. Compare the two.",
    )


def gives_away(hint: str, answer: Fraction) -> bool:
    """Whether a hint holds the answer in figures, in inches or in mm."""
    return any(answer in {_length(f, ""), _length(f, " mm")} for f in FIGURE.findall(hint))


def _length(figure: str, unit: str) -> Fraction | None:
    try:
        return length_from_text(figure + unit)
    except LengthError:
        return None
