"""An answer and what to say about it: right, right for an earlier answer, a slip, or look here.

`verdict` judges one answer to one dimension of a hive, and `Question` any size that is asked for.
The slips stand in four families: about the rule, the sums, the tape, and writing. Each is a wrong
rule, sum or reading made from the right one.
"""

from collections.abc import Mapping
from fractions import Fraction

from hivecalc.hive import Hive
from hivecalc.judging.answer import (
    Candidate,
    Entry,
    Judgement,
    NamedSlip,
    Verdict,
    doubt,
    is_sane,
    named_slips,
    open_steps,
    slip_verdict,
    spoken,
    verdict_json,
)
from hivecalc.judging.of_hive import SizeOfHive, questions
from hivecalc.judging.question import Question
from hivecalc.judging.slips import SLIPS, Wrong, plain
from hivecalc.judging.wrong_figures import readings
from hivecalc.judging.wrong_rules import wrong_rules

__all__ = [
    "SLIPS", "Candidate", "Entry", "Judgement", "NamedSlip", "Question", "SizeOfHive", "Verdict",
    "Wrong", "doubt", "is_sane", "named_slips", "open_steps", "plain", "question", "readings",
    "slip_verdict", "spoken", "verdict", "verdict_json", "wrong_rules",
]  # fmt: skip


def question(hive: Hive, dimension: str) -> SizeOfHive:
    """The question for one dimension of this hive.

    Raises UnknownNameError for a dimension that there isn't, or that this hive does not have.
    """
    return questions(hive).question(dimension)


def verdict(
    hive: Hive,
    dimension: str,
    answer: str,
    earlier: Mapping[str, str | Fraction] | None = None,
) -> Verdict:
    """Verdict on an answer for one dimension of this hive.

    >>> from hivecalc.hive import demo_hive
    >>> verdict(demo_hive(), "bottom_board.side_rail_length", "21.625").message
    'Right. On a cutting list it is written 21 5/8 in.'
    >>> verdict(demo_hive(), "bottom_board.panel_width", "15 5/8",
    ...         {"bottom_board.opening_width": "15 7/8"}).verdict
    'right_carried'

    A bare number is in the hive's units. earlier holds the learner's answers to other dimensions,
    by full name; those that can't be read, or make no sense as a size, carry nothing. Raises
    UnknownNameError as `question` does.
    """
    return question(hive, dimension).verdict(answer, earlier)
