"""How a length is written on a cutting list, and whether an answer is written so."""

import re
import unicodedata
from fractions import Fraction
from typing import Final

from hivecalc.derivation import Dimension
from hivecalc.length import (
    SIXTEENTH,
    SIXTY_FOURTH,
    THIRTY_SECOND,
    Grid,
    Rounding,
    Units,
    decimal_inches,
    mixed,
    shown,
    written,
)

_INCH_MARK: Final = re.compile(r" *(inches|inch|in|[\"″”])\Z")
_METRIC: Final = re.compile(r"([0-9]+([.,][0-9]+)?) *(mm)?")
_SINGLE_SIGN: Final = re.compile("([¼-¾⅐-⅞])")
_UNIT: Final[dict[Units, str]] = {"inch": "in", "mm": "mm"}


def is_list_form(answer: str, value: Fraction, units: Units) -> bool:
    """Whether an answer is written as on a cutting list: a mixed fraction in lowest terms, or mm.

    >>> [is_list_form(a, Fraction(173, 8), "inch") for a in ("21 5/8", "21⅝", "21-5/8 in")]
    [True, True, True]
    >>> [is_list_form(a, Fraction(173, 8), "inch") for a in ("21 10/16", "21.625", "173/8")]
    [False, False, False]

    value is the answer as read, in inches.
    """
    text = answer.strip().lstrip("-−")
    if units == "mm":
        return _METRIC.fullmatch(text) is not None
    bare = _SINGLE_SIGN.sub(r" \1", _INCH_MARK.sub("", text)).replace("-", " ")
    plain = " ".join(unicodedata.normalize("NFKC", bare).replace("⁄", "/").split())
    return plain == mixed(abs(value), SIXTY_FOURTH)


def list_form(value: Fraction, asked: Dimension, units: Units) -> str:
    """A value as it is written on a cutting list, with its unit; a fall for each inch is a decimal.

    >>> from hivecalc.components import COURSE
    >>> rail, panel = (COURSE.dimension(f"bottom_board.{n}") for n in ("way_in", "panel_width"))
    >>> list_form(Fraction("2.341"), rail, "inch"), list_form(Fraction("2.341"), panel, "inch")
    ('2 11/32 in', '2 5/16 in')

    Rounded as the dimension's rule says: what is cut to slide or to cover to 1/16 in, the rest to
    1/32 in where it is no mark of a tape, and mm to whole ones.
    """
    if asked.kind == "ratio":
        return decimal_inches(value).removeprefix("≈ ")
    rounding = asked.rule.rounding
    grid = None if units == "mm" else _grid(value, rounding)
    return shown(value, units, grid, rounding).removeprefix("≈ ")


def _grid(value: Fraction, rounding: Rounding) -> Grid:
    if rounding is not Rounding.NEAREST:
        return SIXTEENTH
    return SIXTY_FOURTH if is_mark(value) else THIRTY_SECOND


def is_mark(value: Fraction) -> bool:
    """Whether a length is a mark of a tape, down to 1/64 in.

    >>> is_mark(Fraction(173, 8)), is_mark(Fraction("0.091"))
    (True, False)
    """
    return SIXTY_FOURTH.step.denominator % value.denominator == 0


def in_units(value: Fraction, units: Units) -> str:
    """A length as exactly as it can be written, with its unit.

    >>> in_units(Fraction(143, 8), "inch")
    '17 7/8 in'
    """
    return f"{written(value, units).removeprefix('≈ ')} {_UNIT[units]}"
