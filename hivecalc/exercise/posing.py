"""An exercise put to somebody on one set of numbers: what it says, its hints, its verdicts."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from typing import Final

from hivecalc.components import DIMENSIONS, begun_with
from hivecalc.derivation import sizes_in, title
from hivecalc.exercise.hints import Hints, faded, hints
from hivecalc.exercise.options import Offered, choice_verdict, done, options
from hivecalc.exercise.record import (
    Case,
    Exercise,
    Numbers,
    asked_for,
    in_mm,
    model_answer,
    numbers_of,
    with_change,
)
from hivecalc.hive import BOX_SIZES, HIVE_SIZES, MEASUREMENTS, Hive
from hivecalc.judging import Question, SizeOfHive, Verdict, Wrong, wrong_rules
from hivecalc.length import SIGN_OF, SIXTEENTH, Units, in_units, rounded

ANSWERED: Final = {name for name, known in MEASUREMENTS.items() if known.kind == "answer"}
"""What is yes or no, and so no figure to reckon with."""
WITHOUT_FIGURES: Final = {"needed first", "built first", "too early"}
"""What is asked about an order, and needs no figures."""
CARDS: Final = {
    "frames": (
        "frames", "frame_spacing", "frame_play", "top_bar", "rest_overlap", "rest_ease",
        "board_thickness", "joint_depth",
    ),
    "box_length": (
        *BOX_SIZES, "stud_thickness", "foam_thickness", "skin_thickness", "edge_strip_height",
    ),
    "hive_length": (
        *HIVE_SIZES, "stud_thickness", "stud_width", "strip_narrow", "strip_wide",
        "foam_thickness",
    ),
}  # fmt: skip
"""What is given of a hive as a whole, by the measurement that it starts from."""
HIDDEN: Final = "mark"
"""What a picture shows and no text says: where the arrow of a tape stands."""


@dataclass(frozen=True)
class Posed:
    """An exercise on one set of numbers.

    >>> from hivecalc.exercise.record import numbers_of
    >>> rail = Exercise("02-01", "derive", "bottom_board.side_rail_length",
    ...                 "How long is a side rail?", "", "")
    >>> posed = Posed(rail, "given", numbers_of(""))
    >>> posed.model_answer, posed.verdict("21.625").verdict
    ('21 5/8', 'right_other_form')
    """

    exercise: Exercise
    case: Case
    numbers: Numbers

    @property
    def key(self) -> str:
        """The name under which an answer is kept: "02-03", "02-03 alike", "02-03 own"."""
        return self.exercise.id if self.case == "given" else f"{self.exercise.id} {self.case}"

    @cached_property
    def asked(self) -> tuple[Question, ...]:
        """The sizes that are asked for."""
        return asked_for(self.exercise, self.numbers)

    @cached_property
    def options(self) -> Offered:
        """What there is to choose from; nothing where a length is to be typed."""
        return options(self.exercise, self.numbers)

    @property
    def unit(self) -> str:
        """What stands behind the right answer: "in", "mm", or nothing for a choice or a ratio."""
        ratio = any(a.dimension.kind == "ratio" for a in self.asked)
        return "" if self.options or ratio else f" {SIGN_OF[self.numbers.units]}"

    @cached_property
    def text(self) -> str:
        """What is asked, in words."""
        if self.case == "own":
            return f"On your own hive: work out the {title(self.exercise.asks)}."
        prompt = in_units(self.exercise.prompt, self.exercise.units)
        return re.sub(r"{(\w+)}", lambda named: self._said(named[1]), prompt)

    def _said(self, name: str) -> str:
        """What stands in a prompt for a name in braces: a given, if nothing else."""
        change = self.exercise.change
        match name:
            case "wrong":
                return self.shown[0].working
            case "done":
                return done(self.exercise, self.numbers)
            case "change":
                return with_change(self.numbers, change).said(change.partition(" ")[0])
        return self.numbers.said(name)

    @cached_property
    def given(self) -> tuple[tuple[str, str], ...]:
        """What is given: each name in words, with its value as it is said."""
        sizes = [n for n in self.numbers.sizes if n != HIDDEN]
        needed = self._needed()
        names = [*(n for n in MEASUREMENTS if n in needed | self._card()), *sizes]
        return tuple((title(n), self.numbers.said(n)) for n in names if n not in ANSWERED)

    def _card(self) -> set[str]:
        """The figures of the whole hive, where the learner is to find those that are needed."""
        alone = self.case != "own" and self.exercise.stage in {"hard step", "alone"}
        worked_out = self.exercise.kind in {"derive", "find", "chain", "part"}
        if not (alone and worked_out and self.exercise.dimensions):
            return set()
        start = next((n for n in CARDS if n in self.numbers.texts), HIVE_SIZES[0])
        return set(CARDS[start])

    def _needed(self) -> set[str]:
        """What the sizes are made from, and what the slips that are shown would take instead."""
        if self.exercise.by in WITHOUT_FIGURES:
            return set()
        if not self.asked:
            return set(self.numbers.texts)
        names = set[str]()
        for asked in self.asked:
            names |= {asked.name} if isinstance(asked, SizeOfHive) else {*asked.dimension.inputs}
            for rule in wrong_rules(asked.dimension):
                if rule.slip in self.exercise.slips:
                    names.update(sizes_in(rule.expression))
        begun = begun_with(self.numbers.hive, self.exercise.asks)
        worked_out = names & DIMENSIONS.dimensions.keys()
        made_from = {n for each in worked_out for n in DIMENSIONS.rests_on(each, begun)}
        return made_from | (names - worked_out)

    @property
    def faded(self) -> tuple[str, ...]:
        """The worked steps as far as they are given for these numbers, some of them open."""
        stage = self.exercise.stage
        whole = stage in {"worked", "alone"} or self.case == "own"
        return () if whole else faded(self.asked[0], self.numbers.texts, stage)

    @cached_property
    def hints(self) -> Hints:
        """A question, the rule, and almost the answer."""
        return hints(self.exercise, self.numbers, self.asked, self.options)

    @property
    def why(self) -> str:
        """Why the answer is what it is."""
        why = in_units(self.exercise.why, self.exercise.units)
        return why or " ".join(a.dimension.why for a in self.asked[:1])

    @property
    def model_answer(self) -> str:
        """The right answer, as it is best written."""
        if self.options:
            return next(o.text for o in self.options if o.right)
        return model_answer(self.asked[0])

    @cached_property
    def shown(self) -> tuple[Wrong, ...]:
        """The wrong answers of the slips that it is meant to show, the foremost slip first."""
        of_options = [w for o in self.options for w in o.wrong]
        wrong = of_options or [w for a in self.asked[:1] for w in a.wrong]
        return tuple(w for s in self.exercise.slips for w in wrong if w.slip.name == s)

    def verdict(self, answer: str, earlier: Mapping[str, str | Fraction] | None = None) -> Verdict:
        """The verdict on an answer; earlier holds answers to other dimensions of this hive."""
        if self.options:
            units = self.numbers.units
            return choice_verdict(self.exercise.id, self.options, answer, self.hints[0], units)
        found = self.asked[0].verdict(answer, earlier)
        if self.exercise.dimensions:
            asks = "rounded_wrong_way" in self.exercise.slips
            on_mark = found.value is None or rounded(found.value, SIXTEENTH) == found.value
            if not asks or not found.right or on_mark:
                return found
            text = "Right so far, and exact. No mark of the tape is there: to which one do you cut?"
            return replace(found, verdict="right_other_form", message=text)
        question = self.hints[0] if found.verdict == "unexplained" else found.question
        return replace(found, dimension=self.exercise.id, question=question)


def posed(
    exercise: Exercise, case: Case = "given", hive: Hive | None = None, units: Units = "inch"
) -> Posed:
    """An exercise on its own numbers, on others like them, or on the learner's own hive.

    >>> left = Exercise("01-01", "derive", "left = board - off", "Cut {off} off.",
    ...                 "board 9, off 2 1/2", "board 8, off 1 1/4")
    >>> posed(left).text, posed(left, "alike").model_answer
    ('Cut 2 1/2 in off.', '6 3/4')
    >>> posed(left, units="mm").text
    'Cut 64 mm off.'

    For a tape in mm in whole millimetres, unless it is about inches. Raises ValueError for a case
    "own" without a hive, or of an exercise that has none.
    """
    if case == "own":
        if hive is None or not exercise.own:
            raise ValueError(f"exercise {exercise.id} can't be done on a hive of your own")
        return Posed(exercise, case, Numbers(hive, {}, {}, hive.units))
    if units == "mm":
        exercise = in_mm(exercise)
    given = exercise.givens if case == "given" else exercise.alike
    return Posed(exercise, case, numbers_of(given, exercise.units))
