"""One number of a hive as a command shows it."""

from fractions import Fraction

from hivecalc.components import DIMENSIONS
from hivecalc.derivation import Kind, RoundingRule, kind_of
from hivecalc.hive import answer_text
from hivecalc.length import (
    MILLIMETRE,
    MM,
    SIXTEENTH,
    Grid,
    Rounding,
    Units,
    decimal_inches,
    length_json,
    shown,
    with_unit,
)


def usual_grid(units: Units) -> Grid:
    """Grid that a hive's lengths are shown on, unless told otherwise.

    >>> usual_grid("mm").name
    '1 mm'
    """
    return MILLIMETRE if units == "mm" else SIXTEENTH


def number_json(
    value: Fraction, kind: Kind, grid: Grid, rounding: Rounding = Rounding.NEAREST
) -> object:
    """Value for other programs: a length as `length_json` has it, a ratio as a number.

    >>> number_json(Fraction(2, 25), "ratio", SIXTEENTH)
    0.08
    """
    if kind == "length":
        return length_json(value, grid, rounding)
    if kind == "answer":
        return answer_text(value)
    return int(value) if kind == "count" else float(value)


def number_text(
    value: Fraction, kind: Kind, grid: Grid, rounding: Rounding = Rounding.NEAREST
) -> str:
    """Value as people read it, on the grid if it is a length.

    >>> [number_text(Fraction(1, 3), kind, SIXTEENTH) for kind in ("length", "ratio")]
    ['≈ 5/16 in', '≈ 0.3333']
    """
    if kind == "length":
        return shown(value, grid=grid, rounding=rounding)
    return answer_text(value) if kind == "answer" else decimal_inches(value, places=4)


def exactly(value: Fraction, kind: Kind, units: Units) -> str:
    """Value with its unit, as exactly as it can be written: a hair may decide a fit.

    >>> exactly(Fraction(45, 2), "length", "inch"), exactly(Fraction(45, 2), "length", "mm")
    ('22 1/2 in', '571.5 mm')
    """
    if kind == "length":
        return with_unit(units, value)
    return answer_text(value) if kind == "answer" else decimal_inches(value, places=4)


def length_in_mm(value: Fraction, kind: Kind) -> float | None:
    """Value of a length in mm; None for a ratio or a count, which have no unit.

    >>> length_in_mm(Fraction(1, 2), "length"), length_in_mm(Fraction(1, 2), "ratio")
    (12.7, None)
    """
    return float(value / MM) if kind == "length" else None


def kind_named(name: str) -> Kind:
    """What sort of number a dimension or measurement is.

    >>> kind_named("roof.slope"), kind_named("hive_width")
    ('ratio', 'length')
    """
    return kind_of(name, DIMENSIONS.dimensions)


def rule_named(name: str) -> RoundingRule:
    """How a dimension is rounded; the usual way for a measurement.

    >>> [rule_named(n).rounding.value for n in ("bottom_board.panel_width", "hive_width")]
    ['down', 'nearest']
    """
    found = DIMENSIONS.dimensions.get(name)
    return found.rule if found else RoundingRule()
