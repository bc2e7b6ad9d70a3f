"""What a row of a yard file may say: each entry with its range, and how its value is read."""

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Final, TypeAlias

from hivecalc.hive.faults import RefusedError
from hivecalc.hive.measurements import Kind, Measurement
from hivecalc.hive.texts import quoted
from hivecalc.hive.values import kind_of
from hivecalc.length import UNITS, Units
from hivecalc.stock.goods import Money

_PRICE: Final = re.compile(r"[0-9]{1,7}(\.[0-9]{1,4})?")
_A_PRICE: Final = "write a number like 3.95, or leave the line out if the price is not known"


TOP: Final = ("currency", "units", "kerf", "end_trim", "spare_percent")
"""What a yard file says once, above all its rows."""

# A row: name, lowest, highest, meaning, reason for the range: common practice, no published source.
_Row: TypeAlias = tuple[str, str, str, str, str]
_NO_DEFAULT: Final[Mapping[Units, None]] = dict.fromkeys(UNITS)


def _entry(row: _Row, kind: Kind = "length") -> Measurement:
    name, low, high, meaning, reason = row
    ends = Fraction(low), Fraction(high)
    return Measurement(name, "chosen", _NO_DEFAULT, *ends, meaning, reason, kind)


KERF: Final = _entry((
    "kerf", "1/64", "1/4", "Width of the cut that the saw leaves.",
    "Every saw turns some wood into dust, and no blade for this work is thicker.",
))  # fmt: skip
END_TRIM: Final = _entry((
    "end_trim", "0", "6", "What comes off one end of each board, to make it square.",
    "More than 6 in is no trimming.",
))  # fmt: skip
SPARE: Final = _entry((
    "spare_percent", "0", "100", "Small goods bought beyond those counted, in percent.",
    "Twice as many as are counted will do for anybody.",
), "count")  # fmt: skip
BOARD_LENGTH: Final = _entry((
    "length", "1", "288", "Length of the board.",
    "A shorter piece is no board, and no longer one is sold.",
))  # fmt: skip
THICKNESS: Final = _entry((
    "thickness", "1/100", "4", "Thickness.",
    "The thinnest wire is about this thin, and nothing of a hive is thicker.",
))  # fmt: skip
SIDE: Final = _entry((
    "width", "1/2", "72", "Width: of a sheet the way across the grain or the flutes.",
    "A narrower piece is a strip, and no wider sheet goes through a door.",
))  # fmt: skip
SHEET_LENGTH: Final = _entry((
    "length", "1", "1200", "Length, along the grain or the flutes.",
    "The longest roll of mesh is 100 ft.",
))  # fmt: skip
COUNT: Final = _entry((
    "count", "0", "100000", "How many there are; leave it out if there are enough.",
    "Nobody counts more than that.",
), "count")  # fmt: skip
HOLDS: Final = _entry((
    "holds", "1", "100000", "How many are in it.",
    "An empty package is none, and nobody counts more than that.",
), "count")  # fmt: skip
COVERS: Final = _entry((
    "covers", "1", "100000", "How much joint it is enough for.",
    "Less is no bottle, and more is a drum.",
))  # fmt: skip


def price_of(given: object) -> Money:
    """Price that a yard file gives, exactly.

    >>> from hivecalc.hive.toml import Number
    >>> price_of("3.95"), price_of(Number("12.5")), price_of(4)
    (Fraction(79, 20), Fraction(25, 2), Fraction(4, 1))

    Raises RefusedError for a word, for less than nothing, and for more than four decimals.
    """
    if not isinstance(given, str | int) or isinstance(given, bool):
        raise RefusedError(f"{kind_of(given)} stands here", _A_PRICE)
    text = given.strip(" ") if isinstance(given, str) else _digits(given)
    if _PRICE.fullmatch(text):
        return Fraction(text)
    below = text[:1] in {"-", "−"}
    what = "is below zero, and nobody pays you for taking it" if below else "is no price"
    raise RefusedError(f"{quoted(text)} {what}", _A_PRICE)


def _digits(number: int) -> str:
    """Return the digits of a number; of one too long to be a price it does not matter which."""
    return str(max(min(number, 10**9), -(10**9)))


def yes_or_no(given: object) -> bool:
    """Whether a row says true.

    >>> yes_or_no(False)
    False

    Raises RefusedError for anything but true and false.
    """
    if not isinstance(given, bool):
        raise RefusedError(f"{kind_of(given)} stands here", "write true or false")
    return given


def one_of(given: object, known: Iterable[str], accepted: str) -> str:
    """Name that is one of those known.

    >>> one_of("foam", ["plywood", "foam"], "write plywood or foam")
    'foam'

    Raises RefusedError.
    """
    if not isinstance(given, str):
        raise RefusedError(f"{kind_of(given)} stands here", accepted)
    if given not in known:
        raise RefusedError(f"{quoted(given)} is not known here", accepted)
    return given
