"""A verdict: all that a page or a report says about one answer, and the step that helps."""

from collections.abc import Collection
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeAlias

from hivecalc.components import COURSE, values
from hivecalc.derivation import on_hive, title
from hivecalc.fractions_in_words import formula_steps, without_result
from hivecalc.hive import Hive

Judgement: TypeAlias = Literal[
    "right", "right_other_form", "right_carried", "slip", "unexplained", "unreadable"
]


@dataclass(frozen=True)
class NamedSlip:
    """A slip that gives the answer: its name, the step it would have happened at, what to say."""

    name: str
    family: str
    step: str
    sentence: str
    question: str
    practice: str
    working: str
    trace: str


@dataclass(frozen=True)
class Verdict:
    """All that a page or a report says about one answer.

    value is the answer as read, in inches (a plain number for a ratio), None where it is
    unreadable. on_list is how a right answer stands on a cutting list, else empty. safe says
    whether the answer lies on the side that the dimension's rounding allows; None where both sides
    are alike, or where it is more than 1/8 in away. slips are at most three, the likeliest first,
    and tells_apart says how to know which. first_difference is the first step to look at, a
    dimension's name. carried_from is the earlier answer that a carried one rests on.
    """

    dimension: str
    answer: str
    verdict: Judgement
    message: str
    question: str = ""
    value: Fraction | None = None
    on_list: str = ""
    safe: bool | None = None
    slips: tuple[NamedSlip, ...] = ()
    tells_apart: str = ""
    first_difference: str | None = None
    carried_from: str | None = None

    @property
    def right(self) -> bool:
        """Whether the answer counts as right."""
        return self.verdict.startswith("right")

    @property
    def carried(self) -> bool:
        """Whether the answer is right only for an earlier answer of the learner's."""
        return self.verdict == "right_carried"


def verdict_json(judged: Verdict) -> dict[str, object]:
    """Verdict for other programs, its keys in a fixed order.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.judging import verdict
    >>> judged = verdict(demo_hive(), "bottom_board.front_rail_length", "15 7/8")
    >>> verdict_json(judged)["verdict"], verdict_json(judged)["slips"]
    ('slip', ['thickness_once'])
    """
    return {
        "schema": "hivecalc/1",
        "dimension": judged.dimension,
        "answer": judged.answer,
        "verdict": judged.verdict,
        "slips": [slip.name for slip in judged.slips],
        "message": judged.message,
        "first_difference": judged.first_difference,
        "carried": judged.carried,
    }


def open_steps(hive: Hive, dimension: str, right: Collection[str] = ()) -> list[str]:
    """The first worked step that is not among the right ones, and its sum, without the result.

    >>> from hivecalc.hive import demo_hive
    >>> for line in open_steps(demo_hive(), "bottom_board.panel_width"):
    ...     print(line)
    opening width = hive width − 2 × stud thickness = 17 3/8 − 2 × 1 1/2 = ?
    First 2 × 1 1/2. Take the inches: 2 × 1 = 2.
    Take the halves as often: 2 × 1/2 = 2/2, which is 1.
    Together: 3 in.
    Then 17 3/8 − 3. Take the inches: 17 − 3 = ?

    No figure in it is still to be found. Empty for a size that was measured. Raises
    UnknownNameError.
    """
    steps = COURSE.steps(dimension, hive.measurements, units=hive.units)
    first = next((s for s in steps if s.dimension not in right), steps[-1] if steps else None)
    if first is None:
        return []
    found = values(hive)
    step = on_hive(COURSE.dimension(first.dimension), found)
    sizes = {p: found[n] for p, n in zip(step.parameters, step.inputs, strict=True)}
    head = " = ".join(dict.fromkeys((title(first.dimension), first.formula, first.numbers, "?")))
    return [head, *without_result(formula_steps(step.expression, sizes, hive.units))]
