"""Wrong rules beside the right one: what a learner's answer would be with one named slip in it.

Four families: about the rule, about the sums, about the tape, about writing. No slip says what a
learner thought; it says what would give this value.
"""

from collections.abc import Mapping
from fractions import Fraction

from hivecalc.components import COURSE, values
from hivecalc.derivation import Dimension, Values, on_hive, title
from hivecalc.hive import Hive
from hivecalc.length import Units
from hivecalc.slips import about_rule, about_sums, about_tape, about_writing
from hivecalc.slips.arithmetic import dimension_in
from hivecalc.slips.slip import Slip, Wrong

__all__ = ["SLIPS", "Slip", "Wrong", "at_step", "no_sense", "wrong_answers"]

FAMILIES = {
    "rule": about_rule,
    "sums": about_sums,
    "tape": about_tape,
    "writing": about_writing,
}
SLIPS: dict[str, Slip] = {s.name: s for family in FAMILIES.values() for s in family.SLIPS}


def wrong_answers(
    hive: Hive, dimension: str, given: Mapping[str, Fraction] | None = None
) -> tuple[Wrong, ...]:
    """Wrong answers for a dimension of this hive, each with the slip at this step that gives it.

    >>> from hivecalc.hive import demo_hive
    >>> found = wrong_answers(demo_hive(), "bottom_board.front_rail_length")
    >>> [w.working for w in found if w.slip.name == "thickness_once"]
    ['17 3/8 − 1 1/2 = 15 7/8']

    None equals the right value, and none is below zero, as no size is. Lengths are in inches.
    given replaces other dimensions by values. Raises UnknownNameError.
    """
    found = values(hive, given)
    measured = dimension in hive.measurements
    return at_step(dimension_in(found, dimension), found, hive.units, measured=measured)


def at_step(
    dimension: Dimension, found: Values, units: Units, *, measured: bool = False
) -> tuple[Wrong, ...]:
    """The same, for values that are worked out already; a measured size has no rule and no sums."""
    dimension, value = on_hive(dimension, found), found[dimension.name]
    wrong = [
        *(() if measured else about_rule.wrong_answers(dimension, found, units)),
        *(() if measured else about_sums.wrong_answers(dimension, found, units)),
        *about_tape.wrong_answers(dimension, value, units, measured=measured),
        *about_writing.wrong_answers(dimension, value, units),
    ]
    return tuple(w for w in wrong if w.value != value and w.value > 0)


def no_sense(slip: str, dimension: str, units: Units = "inch") -> str:
    """Why a slip makes no sense for a dimension; empty where it makes sense.

    >>> no_sense("gap_forgotten", "bottom_board.side_rail_length")
    'For the side rail length there is no gap.'
    >>> no_sense("gap_forgotten", "bottom_board.panel_length")
    ''

    Whether it then gives a wrong answer is for the numbers to say. Raises UnknownNameError for a
    dimension and KeyError for a slip that there isn't.
    """
    known, asked = SLIPS[slip], COURSE.dimension(dimension)
    if FAMILIES[known.family].makes_sense(slip, asked, units):
        return ""
    where = " in mm" if FAMILIES[known.family].makes_sense(slip, asked, "inch") else ""
    return f"For the {title(dimension)} there is no {known.needs}{where}."
