"""Three hints for an exercise: a question, the rule, and almost the answer.

None of them gives the answer in figures. What a record does not say itself is made from the slips,
the formula and the numbers.
"""

import ast
from fractions import Fraction
from typing import Final, TypeAlias

from hivecalc.derivation import title
from hivecalc.exercise.asked import asked_for
from hivecalc.exercise.options import Offered
from hivecalc.exercise.record import Exercise, Numbers, with_change
from hivecalc.exercise.steps import FIGURE, HARD, sum_steps
from hivecalc.judging import Question, SizeOfHive, question
from hivecalc.length import MM, SIXTEENTH, LengthError, Units, length_from_text, written

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
EYE: Final = "Put your eye straight over the arrow. Between which two numbers does it stand?"
CHAIN: Final = (
    "Take off what the piece stands between or makes room for, add what it reaches over, and count "
    "each as often as it is there."
)
BOTH_ENDS: Final = "At which mark does the board begin, and between which two numbers does it end?"
READING: Final = "Find the number before the arrow. Then count the shortest marks: "
SHORTEST: Final[dict[Units, str]] = {"inch": "sixteen make an inch.", "mm": "each is 1 mm more."}
NO_FIGURES: Final = "Put your numbers into the rule, and work from left to right."
LANDMARKS: Final = ("whole inch", "quarter", "half", "three-quarter mark")
LANDMARKS_MM: Final = ("the one with the number", "the one half-way to the next number")
FROM_THERE: Final = "Count the shortest marks from there."
ON_LONGER: Final = (
    "The arrow stands on one of the longer marks: into how many parts do they cut the inch?"
)
BURNT: Final = " Then take off the mark at which you began."
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


def hints(exercise: Exercise, numbers: Numbers, offered: Offered = ()) -> Hints:
    """The three hints of an exercise on these numbers.

    >>> from hivecalc.exercise.record import numbers_of
    >>> rail = Exercise("02-01", "derive", "bottom_board.side_rail_length", "", "", "",
    ...                 question="What lies behind its end?")
    >>> for hint in hints(rail, numbers_of("")):
    ...     print(hint)
    What lies behind its end?
    Side rail length = hive length − stud thickness.
    Put your numbers in: 23 1/8 − 1 1/2. Make the parts equal: 1 1/2 is 1 4/8. 1/8 is too small \
to take 4/8 from: borrow an inch. 23 1/8 is 22 9/8. Go on from there.
    """
    question, rule, almost = _made(exercise, numbers, offered)
    return exercise.question or question, exercise.rule or rule, exercise.almost or almost


def _made(exercise: Exercise, numbers: Numbers, offered: Offered) -> Hints:
    asked = asked_for(exercise, numbers)
    if exercise.by in ORDERS:
        (last,) = (o.text.rpartition(", then ")[2] for o in offered if o.right)
        in_mm = f"{exercise.by}, in mm" if numbers.units == "mm" else ""
        return (*ORDERS.get(in_mm, ORDERS[exercise.by]), f"Last comes this one: {last}.")
    if exercise.by == "count":
        return _of_count(exercise, numbers)
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
        return BOTH_ENDS if "first_mark" in asked.dimension.inputs else EYE
    if asked.dimension.name in QUESTIONS:
        return QUESTIONS[asked.dimension.name]
    first = (w.question for s in exercise.slips[:1] for w in asked.wrong if w.slip.name == s)
    return next(first, FIRST)


def _rule(asked: Question) -> str:
    if "mark" in asked.dimension.inputs:
        return READING + SHORTEST[asked.units]
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
        end = BURNT if len(asked.dimension.inputs) > 1 else ""
        return landmark(asked.values["mark"], asked.units) + end
    *_, last = asked.steps()
    if isinstance(asked.dimension.expression, ast.Name):
        return f"It is the {last.formula} itself: nothing is added and nothing comes off."
    begun = "" if _is_one_sum(asked) else f"Put your numbers in: {last.numbers}. "
    told = f"{begun}{_as_far_as_hard(asked)}"
    if gives_away(told, last.value):
        told = f"{begun}Only the sum is left to do."
    return NO_FIGURES if gives_away(told, last.value) else told


def _as_far_as_hard(asked: Question) -> str:
    """The sum as far as its first hard step, where it has one."""
    steps = sum_steps(asked)
    hard = next((i for i, step in enumerate(steps) if step.kind in HARD), None)
    if hard is None:
        return "Only the sum is left to do."
    return " ".join(step.words for step in steps[: hard + 1]) + " Go on from there."


def landmark(mark: Fraction, units: Units) -> str:
    """The longer mark at or before a reading of the tape.

    >>> landmark(Fraction(139, 8), "inch")
    'The longer mark just before the arrow is the quarter. Count the shortest marks from there.'
    """
    if units == "mm":
        name = LANDMARKS_MM[mark / MM % 10 >= 5]  # noqa: PLR2004 - half of ten marks
        return f"The longer mark at or before the arrow is {name}. {FROM_THERE}"
    count, beyond = divmod(mark % 1 / SIXTEENTH.step, 4)
    return (
        f"The longer mark just before the arrow is the {LANDMARKS[int(count)]}. {FROM_THERE}"
        if beyond
        else ON_LONGER
    )


def _of_count(exercise: Exercise, numbers: Numbers) -> Hints:
    (asked,) = asked_for(exercise, numbers)
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
