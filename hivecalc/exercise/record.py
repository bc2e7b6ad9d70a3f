"""One exercise as it is written down: on which numbers, to show which slips; and what it asks for.

A record holds no answer. The right value is a dimension's, or that of a sum over the givens; the
wrong ones are those of the slips.
"""

import ast
import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final, Literal, NamedTuple, TypeAlias

from hivecalc.components import DIMENSIONS, in_use
from hivecalc.derivation import Dimension, RoundingRule, Values, computed, sizes_in, title
from hivecalc.hive import BOX_SIZES, MEASUREMENTS, Hive, changed, demo_hive
from hivecalc.judging import (
    SLIPS,
    Question,
    SizeOfHive,
    Wrong,
    question,
    readings,
)
from hivecalc.judging.of_hive import at_step
from hivecalc.judging.slips import COUNTS
from hivecalc.length import (
    MM,
    SIGN_OF,
    SIXTEENTH,
    SIXTY_FOURTH,
    THIRTY_SECOND,
    Rounding,
    Units,
    decimal_inches,
    in_units,
    length_from_text,
    rounded,
    written,
)

Kind: TypeAlias = Literal[
    "derive", "chain", "part", "read", "find", "choose", "measure", "predict", "order", "board"
]
Stage: TypeAlias = Literal["worked", "last step", "hard step", "alone"]
Case: TypeAlias = Literal["given", "alike", "own"]

KINDS: Final[Mapping[Kind, str]] = {
    "derive": "work out a length",
    "chain": "build the chain",
    "part": "a part nobody has worked out",
    "read": "read the tape",
    "find": "find the error",
    "choose": "choose the piece that fits",
    "measure": "measure and judge",
    "predict": "predict the effect",
    "order": "put in order",
    "board": "plan the board",
}
"""What the learner is to do, in plain words."""
_ABOUT_CHANGE: Final = re.compile("^(most|least|rule) ")

KERF: Final = "Each cut turns its kerf into dust, so the lengths alone promise too much."
ABOUT_INCHES: Final = re.compile(
    r"\binch|sixteenth|eighth|fraction|under the line|\btops\b|parts equal|\d in\b|\d/\d|\dx\d"
)
"""What only makes sense where one reckons in inches and their fractions."""
IN_MM: Final = {
    name: name for name in (
        "one_tick_off", "mm_for_cm", "inch_as_25_mm", "rounded_wrong_way", "unit_left_out",
    )
} | {
    "inch_not_lowered": "ten_not_lowered", "smaller_from_larger": "smaller_digit_from_larger",
    "carry_dropped": "ten_not_carried", "first_inch_kept": "size_left_out",
}  # fmt: skip
"""The slips with sums, tape and writing that have a twin where the tape is in mm."""


@dataclass(frozen=True)
class Exercise:
    """One exercise: from it come the page that asks, the solution, and the tests.

    asks is a dimension's full name, several of them, or a sum over the givens such as
    "piece_left = board - piece_off". givens and alike are two sets of numbers, "name length" with
    commas between. shows are the slips that the numbers are chosen for. prompt may name a given in
    braces, and {wrong} is the working of the first slip in shows. by says what changes, or by which
    order or judgement. The first hint is the question, the second the rule, the third almost the
    answer; an empty one is made from the slip, the formula and the numbers. What is said may hold
    "[1 in|100 mm]", for either tape. metric holds the two sets of numbers for a tape in mm, with
    "; " between, where those of `in_mm` would not do.
    """

    id: str
    kind: Kind
    asks: str
    prompt: str
    givens: str
    alike: str
    shows: str = ""
    stage: Stage = "alone"
    by: str = ""
    question: str = ""
    rule: str = ""
    almost: str = ""
    why: str = ""
    own: bool = False
    picture: str = ""
    units: Units = "inch"
    metric: str = ""

    @property
    def lesson(self) -> str:
        """The number of its lesson, such as "02"."""
        return self.id.partition("-")[0]

    @property
    def slips(self) -> tuple[str, ...]:
        """The names of the slips that it is meant to show, the first one foremost."""
        return tuple(self.shows.split())

    @property
    def change(self) -> str:
        """The measurement that changes, with its new value; nothing where none does."""
        return _ABOUT_CHANGE.sub("", self.by) if self.kind == "predict" else ""

    @property
    def dimensions(self) -> tuple[str, ...]:
        """The full names of the dimensions that it asks for; none where it asks for a sum."""
        names = tuple(self.asks.split())
        return names if all(n in DIMENSIONS.dimensions for n in names) else ()


def in_mm(exercise: Exercise) -> Exercise:
    """The same exercise for a tape in mm; itself where it is in mm, or about inches themselves.

    Sizes are whole millimetres: as far from what is usual in mm as they are from what is usual in
    inches. Slips with fractions and words about inches are left out.
    """
    if exercise.units == "mm" or ABOUT_INCHES.search(in_units(exercise.prompt, "mm")):
        return exercise
    kept = [s if SLIPS[s].family == "rule" else IN_MM.get(s) for s in exercise.slips]
    if "{wrong}" in exercise.prompt and not kept[0]:
        return exercise
    shows = filter(None, kept)
    givens, alike = _in_mm(exercise.givens), _in_mm(exercise.alike)
    if exercise.metric:
        givens, alike = exercise.metric.split("; ")
    by = exercise.by
    if exercise.change:
        by = by.removesuffix(exercise.change) + _in_mm(exercise.change)
    return replace(
        exercise, givens=givens, alike=alike, shows=" ".join(shows), by=by, units="mm",
        question=_of_mm(exercise.question), rule=_of_mm(exercise.rule),
        almost=_of_mm(exercise.almost), why=_of_mm(exercise.why),
    )  # fmt: skip


def _of_mm(text: str) -> str:
    """A text with its limits in mm; nothing where it is about inches all the same."""
    text = in_units(text, "mm").replace("1/8 in", "3 mm").replace("5/32 in", "4 mm")
    return "" if ABOUT_INCHES.search(text) else text


def _in_mm(givens: str) -> str:
    """Sizes of a record in whole millimetres, with those that have a unit or count as they are."""
    found = []
    for given in filter(None, givens.split(", ")):
        name, text = given.split(" ", 1)
        if name not in COUNTS and text[-1].isdigit():
            size, known = length_from_text(text), MEASUREMENTS.get(name)
            usual, usual_mm = (known.defaults[u] if known else None for u in ("inch", "mm"))
            if usual and usual_mm:
                size += usual_mm - usual
            text = str(max(1, round(size / MM)))
        found.append(f"{name} {text}")
    return ", ".join(found)


class LessonExercises(NamedTuple):
    """The exercises of one lesson, with its number and title."""

    number: str
    title: str
    exercises: tuple[Exercise, ...]


@dataclass(frozen=True)
class Numbers:
    """What one case of an exercise is asked on: a hive, other sizes, and both as they were given.

    sizes are in inches; one that counts pieces is a plain number.
    """

    hive: Hive
    sizes: Mapping[str, Fraction]
    texts: Mapping[str, str]
    units: Units = "inch"

    def said(self, name: str) -> str:
        """A given as it stands in a prompt: as it was written, with its unit.

        >>> numbers_of("hive_width 17 3/8, foam_thickness 25 mm").said("foam_thickness")
        '25 mm'
        """
        text = self.texts.get(name) or written(in_use(self.hive, name), self.units)
        bare = text[-1].isdigit() and name not in COUNTS
        return f"{text} {SIGN_OF[self.units]}" if bare else text


def numbers_of(text: str, units: Units = "inch") -> Numbers:
    """The numbers of one case, from the text of a record.

    >>> numbers = numbers_of("hive_width 16 1/4, board 96")
    >>> numbers.hive.measured["hive_width"], dict(numbers.sizes)
    (Fraction(65, 4), {'board': Fraction(96, 1)})

    What is not given is the demo hive's, or that of one like it in mm; a box or its frames stand
    without a measured hive. Raises LengthError, or HiveFaults for a size that no hive has.
    """
    texts = dict(given.split(" ", 1) for given in text.split(", ")) if text else {}
    settings = {n: t for n, t in texts.items() if n in MEASUREMENTS}
    is_of_box = settings.keys() & {"frames", *BOX_SIZES}
    hive = Hive("", units, {}, {}) if is_of_box else demo_hive(units)
    sizes = {n: length_from_text(t, units) for n, t in texts.items() if n not in MEASUREMENTS}
    return Numbers(changed(hive, settings) if settings else hive, sizes, texts, units)


def with_change(numbers: Numbers, change: str) -> Numbers:
    """The same numbers after a change such as "stud_thickness 1 9/16".

    Raises HiveFaults.
    """
    name, text = change.split(" ", 1)
    hive = changed(numbers.hive, {name: text})
    return replace(numbers, hive=hive, texts={**numbers.texts, name: text})


# ── what it asks for ───────────────────────────────────────────────────────────────────────────


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
    return Question(asked, values, units, _wrong(asked, values, units, on_tape=on_tape), shown)


def _wrong(asked: Dimension, values: Values, units: Units, *, on_tape: bool) -> Iterator[Wrong]:
    """The wrong answers to a sum, worked out when they are first asked for."""
    laid_on = "first_mark" in asked.inputs
    tape = readings(values[asked.name], units, asked.name, laid_on=laid_on)
    read = list(tape) if on_tape else []
    kept = {w.value for w in read if w.slip.name == "first_inch_kept"}
    for wrong in at_step(asked, values, units):
        if wrong.what != "first mark" or wrong.value not in kept:  # said once
            yield wrong
    yield from read


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
    is given to 1/64 in where it comes out so.
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
