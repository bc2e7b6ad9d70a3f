"""An answer and what to say about it: right, right for an earlier answer, a slip, or look here.

`verdict` is a plain function. It judges in five stages: can it be read; is it the value; would it
be right if an earlier answer were; is it what a named slip gives; and else, where to look first.
"""

from collections.abc import Mapping
from fractions import Fraction
from functools import partial

from hivecalc.components import COURSE
from hivecalc.derivation import Values
from hivecalc.hive import Hive
from hivecalc.judging.case import Case
from hivecalc.judging.comparing import (
    ALLOWED,
    HAIR,
    RATIO_PLACE,
    TENTH_OF_MM,
    is_right,
    is_sane,
    stands_for,
)
from hivecalc.judging.forms import is_list_form, list_form
from hivecalc.judging.reading import read
from hivecalc.judging.sheet import Sheet, sheet
from hivecalc.judging.telling import MOST_SLIPS, NO_SLIP, slip_message, tells_apart
from hivecalc.judging.verdicts import Judgement, NamedSlip, Verdict, verdict_json
from hivecalc.length import LONGEST, LengthError
from hivecalc.slips.arithmetic import dimension_in

__all__ = [
    "ALLOWED",
    "HAIR",
    "MOST_SLIPS",
    "NO_SLIP",
    "RATIO_PLACE",
    "TENTH_OF_MM",
    "Judgement",
    "NamedSlip",
    "Verdict",
    "is_list_form",
    "is_right",
    "is_sane",
    "list_form",
    "slip_message",
    "stands_for",
    "tells_apart",
    "verdict",
    "verdict_json",
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
        value = _read(answer, dimension, known)
    except LengthError as error:
        return Verdict(dimension, answer, "unreadable", str(error))
    case = Case(known, asked, answer, value, _readable(earlier, dimension, known))
    return case.right() or case.carried() or case.slip() or case.unexplained()


def _read(answer: str, dimension: str, known: Sheet) -> Fraction:
    below_nothing = known.values[dimension] < 0
    return read(answer, COURSE.dimension(dimension), known.units, below_nothing=below_nothing)


def _readable(earlier: Mapping[str, str | Fraction], dimension: str, known: Sheet) -> Values:
    """The earlier answers that can be read and make sense as the size that they are for."""
    found: Values = {}
    for name, answer in earlier.items():
        COURSE.dimension(name)  # an unknown name is told
        if name == dimension or name not in known.values:
            continue
        try:
            value = answer if isinstance(answer, Fraction) else _read(answer, name, known)
        except LengthError:
            continue
        if is_sane(value, known.values[name]):
            found[name] = value
    return found
