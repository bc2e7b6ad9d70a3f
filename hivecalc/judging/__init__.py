"""An answer and what to say about it: right, right for an earlier answer, a slip, or look here.

`verdict` is a plain function. It judges in five stages: can it be read; is it the value; would it
be right if an earlier answer were; is it what a named slip gives; and else, where to look first.
The slips stand beside it, in four families: about the rule, the sums, the tape, and writing. Each
is a wrong rule made from the right one.
"""

from collections.abc import Mapping
from fractions import Fraction
from functools import partial

from hivecalc.components import COURSE
from hivecalc.derivation import Values
from hivecalc.hive import Hive
from hivecalc.judging.answer import Entry, doubt, entered, is_right, is_sane, stands_for
from hivecalc.judging.arithmetic import before, computed, dimension_in, plain, worked_on
from hivecalc.judging.case import (
    MOST_SLIPS,
    NOT_EXPECTED,
    UNFINISHED,
    Case,
    named_slip,
    slip_message,
    space_left_out,
    tells_apart,
)
from hivecalc.judging.rule import wrong_rules
from hivecalc.judging.sheet import SLIPS, Sheet, at_step, sheet, wrong_answers
from hivecalc.judging.slip import Slip, Wrong
from hivecalc.judging.tape import readings
from hivecalc.judging.verdicts import Judgement, NamedSlip, Verdict, open_steps, verdict_json
from hivecalc.length import LONGEST, LengthError

__all__ = [
    "MOST_SLIPS",
    "NOT_EXPECTED",
    "SLIPS",
    "UNFINISHED",
    "Entry",
    "Judgement",
    "NamedSlip",
    "Slip",
    "Verdict",
    "Wrong",
    "at_step",
    "before",
    "computed",
    "doubt",
    "is_right",
    "is_sane",
    "named_slip",
    "open_steps",
    "plain",
    "readings",
    "slip_message",
    "space_left_out",
    "stands_for",
    "tells_apart",
    "verdict",
    "verdict_json",
    "worked_on",
    "wrong_answers",
    "wrong_rules",
]


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
    by full name; those that can't be read, or make no sense as a size, carry nothing.

    Raises UnknownNameError for a dimension that there isn't, or that this hive does not have.
    """
    known = sheet(hive)
    judge = partial(_judged, known, dimension, answer, earlier or {})
    if earlier or len(answer) > LONGEST:
        return judge()
    return known.remembered(dimension, answer, judge)


def _judged(
    known: Sheet, dimension: str, answer: str, earlier: Mapping[str, str | Fraction]
) -> Verdict:
    asked = dimension_in(known.values, dimension)
    try:
        entry = _entered(answer, dimension, known)
    except LengthError as error:
        return Verdict(dimension, answer, "unreadable", str(error))
    case = Case(known, asked, entry, _readable(earlier, dimension, known))
    return case.right() or case.carried() or case.slip() or case.unexplained()


def _entered(answer: str, dimension: str, known: Sheet) -> Entry:
    below_nothing = known.values[dimension] < 0
    return entered(answer, COURSE.dimension(dimension), known.units, below_nothing=below_nothing)


def _readable(earlier: Mapping[str, str | Fraction], dimension: str, known: Sheet) -> Values:
    """The earlier answers that can be read and make sense as the size that they are for."""
    found: Values = {}
    for name, answer in earlier.items():
        COURSE.dimension(name)  # an unknown name is told
        if name == dimension or name not in known.values:
            continue
        try:
            value = answer if isinstance(answer, Fraction) else _entered(answer, name, known).value
        except LengthError:
            continue
        if is_sane(value, known.values[name]):
            found[name] = value
    return found
