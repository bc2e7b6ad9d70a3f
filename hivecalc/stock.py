"""Actual sizes of lumber, plywood, whole sheets and fasteners, each with its source."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, NamedTuple

from hivecalc.length import MM, Length

COMMON: Final = "common practice, no published source"


class Dressed(NamedTuple):
    """Actual size of a piece of lumber that is dry and planed, in inches."""

    thickness: Length
    width: Length


_THICKNESSES: Final = {1: "3/4", 2: "1 1/2"}
_WIDTHS: Final = {
    2: "1 1/2", 3: "2 1/2", 4: "3 1/2", 6: "5 1/2", 8: "7 1/4", 10: "9 1/4", 12: "11 1/4",
}  # fmt: skip


def _inches(text: str) -> Length:
    return sum(map(Fraction, text.split()), Fraction(0))


NOMINAL: Final[Mapping[str, Dressed]] = {
    f"{thick}x{wide}": Dressed(_inches(_THICKNESSES[thick]), _inches(_WIDTHS[wide]))
    for thick in _THICKNESSES
    for wide in _WIDTHS
}
"""Smallest dry dressed size of softwood lumber by its nominal name, such as "2x4".

American Softwood Lumber Standard PS 20-20, Table 3 (minimum-dressed sizes of boards and dimension),
as retold in an engineering reference. A real piece may be bigger: measure it.
"""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A whole sheet as it is sold: its material, the smaller side, the larger side.

    >>> SHEETS["foam_board"].width
    Fraction(48, 1)

    In inches.
    """

    material: str
    width: Length
    length: Length


SHEETS: Final[Mapping[str, Sheet]] = {
    "plywood_sheet": Sheet("plywood", Fraction(48), Fraction(96)),
    "foam_board": Sheet("foam", Fraction(48), Fraction(96)),
    "half_foam_board": Sheet("foam", Fraction(24), Fraction(96)),
    "metric_foam_board": Sheet("foam", 600 * MM, 1250 * MM),
    "plastic_sheet": Sheet("sheet", Fraction(48), Fraction(96)),
}
"""Sheets by name: 4 x 8 ft, 2 x 8 ft and 600 x 1250 mm; common practice, no published source."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A size that nobody measures on the hive: its value in inches, what it is, its source."""

    value: Length
    what: str
    source: str
