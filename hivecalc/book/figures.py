"""How lengths and pieces are written in a hive book."""

from fractions import Fraction

from hivecalc.components import DIMENSIONS, of_stock
from hivecalc.derivation import title
from hivecalc.length import Rounding, Units, shown
from hivecalc.part import SIZES, Piece, Size
from hivecalc.tables.numbers import exactly, usual_grid

WAYS = {Rounding.NEAREST: "to the nearest", Rounding.DOWN: "down to", Rounding.UP: "up to"}


def in_both_units(length: Fraction, units: Units, rounding: Rounding = Rounding.NEAREST) -> str:
    """A length in the hive's own unit, and on a second line in the other one.

    >>> in_both_units(Fraction(173, 8), "inch").splitlines()
    ['21 5/8 in', '≈ 549 mm']
    """
    other: Units = "mm" if units == "inch" else "inch"
    return f"{shown(length, units, None, rounding)}\n{shown(length, other, None, rounding)}"


def exactly_in_both_units(length: Fraction, units: Units) -> str:
    """A length as exactly as it can be written, and on a second line in the other unit.

    >>> exactly_in_both_units(Fraction(17, 500), "inch").splitlines()
    ['0.034 in', '≈ 0.9 mm']
    """
    other: Units = "mm" if units == "inch" else "inch"
    return f"{exactly(length, 'length', units)}\n{exactly(length, 'length', other)}"


def sizes_in_both_units(piece: Piece, units: Units) -> tuple[str, ...]:
    """Thickness, width and length of a piece, each in both units, or a dash where there is none.

    >>> from hivecalc.components import parts
    >>> from hivecalc.hive import demo_hive
    >>> cover = next(p for p in parts(demo_hive()) if p.part == "cover")
    >>> [size.splitlines()[0] for size in sizes_in_both_units(cover, "inch")]
    ['5/32 in', '22 3/8 in', '28 1/8 in']

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
    """The way each size that somebody cuts is rounded, and why, by the name of the size.

    >>> from hivecalc.components import parts
    >>> from hivecalc.hive import demo_hive
    >>> deck = next(p for p in parts(demo_hive()) if p.part == "deck")
    >>> {size: way.value for size, (way, why) in roundings(deck).items()}
    {'width': 'up', 'length': 'up'}
    """
    names = {s: f"{piece.component}.{piece.part}_{s}" for s in SIZES if getattr(piece, s)}
    rules = {s: DIMENSIONS.dimension(n).rule for s, n in names.items() if not of_stock(n)}
    return {size: (rule.rounding, rule.reason) for size, rule in rules.items()}


def grid_name(units: Units) -> str:
    """The name of the marks that a hive's sizes are rounded to.

    >>> grid_name("inch"), grid_name("mm")
    ('1/16 in', '1 mm')
    """
    return usual_grid(units).name
