"""One figure of a hive as people read it and as other programs do."""

from fractions import Fraction
from typing import Final

from hivecalc.components import DIMENSIONS, of_stock
from hivecalc.derivation import Kind, RoundingRule, kind_of, title
from hivecalc.document import Paper
from hivecalc.hive import answer_text
from hivecalc.length import (
    MARKS,
    MM,
    TENTH_MM,
    Grid,
    Rounding,
    Units,
    decimal_inches,
    length_json,
    shown,
    with_unit,
)
from hivecalc.part import SIZES, Piece, Size

WAYS: Final = {
    Rounding.NEAREST: "to the nearest",
    Rounding.DOWN: "down to",
    Rounding.UP: "up to",
}


def usual_paper(units: Units) -> Paper:
    """The paper that goes with the units of a hive: letter with inches, A4 with mm."""
    return "letter" if units == "inch" else "a4"


def number_json(
    value: Fraction, kind: Kind, grid: Grid, rounding: Rounding = Rounding.NEAREST
) -> object:
    """Value for other programs: a length as `length_json` has it, a ratio as a number."""
    if kind == "length":
        return length_json(value, grid, rounding)
    if kind == "answer":
        return answer_text(value)
    return int(value) if kind == "count" else float(value)


def number_text(
    value: Fraction, kind: Kind, grid: Grid, rounding: Rounding = Rounding.NEAREST
) -> str:
    """Value as people read it, on the grid if it is a length."""
    if kind == "length":
        return shown(value, grid=grid, rounding=rounding)
    return answer_text(value) if kind == "answer" else decimal_inches(value, places=4)


def exactly(value: Fraction, kind: Kind, units: Units) -> str:
    """Value with its unit, as exactly as it can be written: a hair may decide a fit."""
    if kind == "length":
        return with_unit(units, value)
    return answer_text(value) if kind == "answer" else decimal_inches(value, places=4)


def length_in_mm(value: Fraction, kind: Kind) -> float | None:
    """Value of a length in mm; None for a ratio or a count, which have no unit."""
    return float(value / MM) if kind == "length" else None


def kind_named(name: str) -> Kind:
    """What sort of number a dimension or measurement is."""
    return kind_of(name, DIMENSIONS.dimensions)


def rule_named(name: str) -> RoundingRule:
    """How a dimension is rounded; the usual way for a measurement."""
    found = DIMENSIONS.dimensions.get(name)
    return found.rule if found else RoundingRule()


# ── in both units ─────────────────────────────────────────────────────────────────────────────


def in_both_units(length: Fraction, units: Units, rounding: Rounding = Rounding.NEAREST) -> str:
    """A length in the hive's own unit, and on a second line in the other one."""
    return f"{shown(length, units, None, rounding)}\n{shown(length, other(units), None, rounding)}"


def exactly_in_both_units(length: Fraction, units: Units) -> str:
    """A length as exactly as a tape shows it, and on a second line in the other unit."""
    also = shown(length, grid=TENTH_MM) if units == "inch" else exactly(length, "length", "inch")
    return f"{as_on_tape(length, units)}\n{also}"


def as_on_tape(length: Fraction, units: Units) -> str:
    """A size of stock that somebody measured, exactly; on the usual marks if no tape has it.

    What is thinner than such a mark, as wire is, is told in thousandths.
    """
    step = MM / 10 if units == "mm" else Fraction(1, 64)
    if (length / step).denominator == 1 or length < MARKS[units].step:
        return exactly(length, "length", units)
    return shown(length, units)


def other(units: Units) -> Units:
    """The unit that a hive is not told in."""
    return "mm" if units == "inch" else "inch"


def sizes_in_both_units(piece: Piece, units: Units) -> tuple[str, ...]:
    """Thickness, width and length of a piece, each in both units, or a dash where there is none.

    What somebody cuts is rounded its own way; stock that is used as it was measured is not.
    """
    return tuple(_size(piece, size, units) for size in SIZES)


def _size(piece: Piece, name: str, units: Units) -> str:
    size: Size | None = getattr(piece, name)
    if size is None:
        return "–"
    if name in roundings(piece):
        return in_both_units(size.value, units, size.rounding)
    return exactly_in_both_units(size.value, units)


def piece_name(piece: Piece) -> str:
    """The name of a piece in plain words, as it begins a line."""
    return title(piece.part).capitalize()


def roundings(piece: Piece) -> dict[str, tuple[Rounding, str]]:
    """The way each size that somebody cuts is rounded, and why, by the name of the size."""
    names = {s: f"{piece.component}.{piece.part}_{s}" for s in SIZES if getattr(piece, s)}
    rules = {s: DIMENSIONS.dimension(n).rule for s, n in names.items() if not of_stock(n)}
    return {size: (rule.rounding, rule.reason) for size, rule in rules.items()}
