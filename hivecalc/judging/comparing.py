"""Whether an answer is a value: exactly, or with the roundings that its rule and a tape allow."""

from fractions import Fraction
from typing import Final

from hivecalc.derivation import Dimension
from hivecalc.length import (
    MILLIMETRE,
    SIXTEENTH,
    SIXTY_FOURTH,
    THIRTY_SECOND,
    Grid,
    Rounding,
    rounded,
)
from hivecalc.slips import Wrong

HAIR: Final = Fraction(1, 200)
"""What no saw cuts and no pencil draws, in inches: half of a decimal's second place."""
ALLOWED: Final = Fraction(1, 16)
"""How far from the value, on the safe side, a size may be that is rounded down or up."""
RATIO_PLACE: Final = Fraction(1, 2000)
"""Half of a decimal's third place: how close a fall for each inch has to be."""
TENTH_OF_MM: Final = Fraction(1, 500)
"""Half of 0.1 mm, and a little more than half of a decimal's third place, in inches."""
SECOND_PLACE: Final = Fraction(1, 100)

_MARKS: Final[tuple[Grid, ...]] = (SIXTEENTH, THIRTY_SECOND, SIXTY_FOURTH, MILLIMETRE)
_FARTHEST: Final = SIXTEENTH.step / 2 + HAIR


def is_right(answer: Fraction, value: Fraction, asked: Dimension) -> bool:
    """Whether an answer is the value, or the value rounded as the dimension's rule says.

    >>> from hivecalc.components import COURSE
    >>> panel = COURSE.dimension("bottom_board.panel_width")
    >>> [is_right(Fraction(a, 16), Fraction(14), panel) for a in (222, 223, 224, 225)]
    [False, True, True, False]

    In inches. Where the rule rounds down, up to 1/16 in under is right and over is not; where it
    rounds up, the other way round. Else the nearest 1/16, 1/32 or 1/64 in or mm is right, both of
    two that are as near; nothing at all is right for no size. A hair of 0.005 in more never
    matters.
    """
    over = answer - value
    if asked.kind == "ratio":
        return abs(over) <= RATIO_PLACE
    if asked.rule.rounding is Rounding.DOWN:
        return -ALLOWED - HAIR <= over <= HAIR
    if asked.rule.rounding is Rounding.UP:
        return -HAIR <= over <= ALLOWED + HAIR
    return abs(over) <= HAIR or (answer != 0 and is_nearest_mark(answer, value))


def is_nearest_mark(answer: Fraction, value: Fraction) -> bool:
    """Whether an answer is a mark that lies nearest to the value, as it may be written.

    >>> [is_nearest_mark(Fraction(a, 32), Fraction(1, 10)) for a in (2, 3, 4, 5)]
    [False, True, True, False]
    """
    if abs(answer - value) > _FARTHEST:
        return False
    near = ((rounded(answer, grid), grid.step) for grid in _MARKS)
    return any(abs(answer - m) <= HAIR and 2 * abs(m - value) <= step for m, step in near)


def is_sane(answer: Fraction, value: Fraction) -> bool:
    """Whether a wrong answer is near enough to its value to be carried on from.

    >>> [is_sane(Fraction(a), Fraction(14)) for a in (0, 3, 17, 1000)]
    [False, False, True, False]

    More than nothing; and between a quarter and four times the value, or within 4 in of it.
    Common practice, no published source.
    """
    near = abs(answer - value) <= 4  # noqa: PLR2004 - as the docstring says
    return answer > 0 and (near or value <= 4 * answer <= 16 * value)


def stands_for(answer: Fraction, value: Fraction, wrong: Wrong, asked: Dimension) -> bool:
    """Whether an answer is what a slip comes to, written with the roundings that learners write.

    >>> from hivecalc.components import COURSE
    >>> from hivecalc.slips import SLIPS
    >>> rail = COURSE.dimension("bottom_board.side_rail_length")
    >>> once = Wrong(SLIPS["thickness_once"], rail.name, Fraction(2909, 1000))
    >>> [stands_for(Fraction(a), once.value, once, rail) for a in ("2.91", "2.9375", "2.8")]
    [True, True, False]

    value is what the slip comes to at this step, which may stand behind the step of the slip. What
    came of a slip in writing is a decimal, and is not rounded to a mark.
    """
    off = abs(answer - value)
    if asked.kind == "ratio":
        place = RATIO_PLACE if _ends(answer, 3) else RATIO_PLACE / 10
        return off <= place and _ends(answer, 4)
    if off <= TENTH_OF_MM:
        return True
    if wrong.slip.family == "writing":
        return off <= HAIR and _ends(answer, 2)
    return is_nearest_mark(answer, value) or answer == rounded(
        value, SIXTEENTH, asked.rule.rounding
    )


def _ends(answer: Fraction, places: int) -> bool:
    """Whether a number is a decimal of so many places at most."""
    return not 10**places % answer.denominator
