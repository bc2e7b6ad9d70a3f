"""Exact lengths: read from text, rounded on a named grid, shown as a tape or a drawing has them.

A length is a plain fraction of an inch. Nothing in here is a float, except the number that
`length_json` hands to other programs.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from typing import Final, Literal, TypeAlias

from hivecalc.support.faults import quoted

Length: TypeAlias = Fraction
Lengths: TypeAlias = Sequence[Length]
"""The same size of each piece of a part."""
Ratio: TypeAlias = Fraction
Count: TypeAlias = int
Units: TypeAlias = Literal["inch", "mm"]
UNITS: Final[tuple[Units, ...]] = ("inch", "mm")
SIGN_OF: Final[dict[Units, str]] = {"inch": "in", "mm": "mm"}
"""What stands behind a number."""

_IN_EITHER_UNIT: Final = re.compile(r"\[([^|\]]*)\|([^|\]]*)\]")

MM: Final = Fraction(5, 127)
"""One millimetre in inches.

An inch is 25.4 mm exactly: international yard and pound agreement of 1959 (24 FR 5348, 1 July 1959;
addendum to NBS Circular 572).
"""

LONGEST: Final = 60
"""Characters that the text of a length may have, spaces included."""

ACCEPTED: Final[dict[Units, str]] = {
    "inch": "23 1/8, 23.125, 23 1/8 in, 1' 11 1/8\", 587.4 mm, 58.7 cm or 0.587 m",
    "mm": "587, 587.4, 587.4 mm, 58.7 cm, 0.587 m, 23 1/8 in or 1' 11 1/8\"",
}
"""The forms to write a length in, as an error tells them, by the unit of a bare number."""


class LengthError(ValueError):
    """A text that is not a length; `str()` of it is one sentence for the person who wrote it."""


class Rounding(Enum):
    """Which way a length goes that lies between two marks; a tie goes up under NEAREST."""

    NEAREST = "nearest"
    DOWN = "down"
    UP = "up"


@dataclass(frozen=True, slots=True)
class Grid:
    """Marks to round to: their name, the step from one to the next in inches, the unit shown."""

    name: str
    step: Fraction
    units: Units


EIGHTH: Final = Grid("1/8 in", Fraction(1, 8), "inch")
SIXTEENTH: Final = Grid("1/16 in", Fraction(1, 16), "inch")
THIRTY_SECOND: Final = Grid("1/32 in", Fraction(1, 32), "inch")
SIXTY_FOURTH: Final = Grid("1/64 in", Fraction(1, 64), "inch")
MILLIMETRE: Final = Grid("1 mm", MM, "mm")
TENTH_MM: Final = Grid("0.1 mm", MM / 10, "mm")

GRIDS: Final[dict[str, Grid]] = {
    grid.name: grid
    for grid in (EIGHTH, SIXTEENTH, THIRTY_SECOND, SIXTY_FOURTH, MILLIMETRE, TENTH_MM)
}

MARKS: Final[dict[Units, Grid]] = {"inch": SIXTEENTH, "mm": MILLIMETRE}
"""The grid that a hive's lengths are marked and shown on unless told otherwise, by its units."""

# ── reading ───────────────────────────────────────────────────────────────────────────────────

# fmt: off
_SIGNS: Final = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5",
    "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅐": "1/7", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
    "⅑": "1/9", "⅒": "1/10",
}
# fmt: on
_AS_TYPED: Final = {
    **dict.fromkeys(map(ord, "\N{NO-BREAK SPACE}\N{NARROW NO-BREAK SPACE}"), " "),
    ord("\N{FRACTION SLASH}"): "/",
}

# Digits are taken possessively (++), so the time for a text grows with its length and no faster.
_FORM: Final = re.compile(
    r"""
    (?! \Z )
    (?: (?P<feet> [0-9]++ ) [ ]*+ (?: ['′’] (?! ['′’] ) | foot | feet | ft )
        [ ]*+ (?: - (?= [0-9.] ) )? )?
    (?P<inches>
        (?: (?: (?P<whole> [0-9]++ ) (?: - | [ ]++ and [ ]++ | [ ]++ | (?= [SIGNS] ) ) )?
            (?P<fraction> [0-9]++ / [0-9]++ | [SIGNS] )
          | (?P<number> [0-9]*+ \. [0-9]++ | [0-9]++ , [0-9]++ | [0-9]++ ) )
        (?: [ ]*+ (?P<unit> ["″”] | ''|′′|’’ | inches | inch | in\.? | mm | cm | m (?! [a-z] ) ) )?
    )?
    """.replace("SIGNS", "".join(_SIGNS)),
    re.VERBOSE,
)
_FOOT: Final = 12
_METRIC: Final = {"mm": MM, "cm": 10 * MM, "m": 1000 * MM}


def length_from_text(text: str, units: Units = "inch") -> Length:
    """Length that a text says, exactly, in inches.

    >>> length_from_text("23 1/8")
    Fraction(185, 8)
    >>> length_from_text("1' 11 ⅛″") == length_from_text("587.375 mm") == Fraction(185, 8)
    True
    >>> length_from_text("587,5", units="mm") == length_from_text("58.75 cm")
    True
    >>> length_from_text("22 9/8")  # a sum whose inch is still to be carried
    Fraction(185, 8)
    >>> length_from_text("23 x 5")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    hivecalc.length.LengthError: Cannot read “23 x 5” as a length: “x” is not understood there; ...

    The grammar, in which what stands in [ ] may be left out and | parts a choice. Spaces may stand
    around a length and on both sides of a unit; a no-break space counts as a space:

        length    = inches [inch] | feet ["-"] [inches [inch]] | decimal metric
        feet      = whole foot
        inches    = whole | decimal | fraction | whole joint fraction
        joint     = one or more spaces | "-" | " and " | nothing before a sign such as ½
        fraction  = whole slash whole | ½ ⅓ ⅔ ¼ ¾ ⅕ ⅖ ⅗ ⅘ ⅙ ⅚ ⅐ ⅛ ⅜ ⅝ ⅞ ⅑ ⅒
        slash     = / | ⁄
        decimal   = [whole] "." digits | whole | whole "," digits (the comma for metric only)
        whole     = one or more of the digits 0 to 9
        foot      = ' | ′ | ’ | ft | foot | feet
        inch      = " | ″ | ” | '' | ′′ | ’’ | in | in. | inch | inches
        metric    = mm | cm | m

    A fraction after a whole number may be more than 1, as a sum leaves it before its inch is
    carried. Inches after feet are less than 12. A bare number is in `units`; where that is mm, it
    may have a comma, and a bare fraction is refused: mm are not written so, and nobody should guess
    inches. Zero is a length; whether it makes sense is for the hive to say.

    Raises LengthError for every other text, and for one of more than 60 characters.
    """
    if len(text) > LONGEST:
        raise _refusal(text, f"it has {len(text)} characters, and {LONGEST} are enough", units)
    found = _FORM.match(text.translate(_AS_TYPED).strip(" "))
    if found is None:
        raise _refusal(text, "nothing is written", units)
    fault = _fault_of_rest(found) or _fault_of_number(found, units) or _fault_of_feet(found)
    if fault:
        raise _refusal(text, fault, units)
    value = _numeral(found)
    if found["feet"]:
        return _FOOT * int(found["feet"]) + value
    unit = found["unit"] or units
    return value * _METRIC[unit] if unit in _METRIC else value


_SPACELESS: Final = re.compile(r" *([0-9]+)[/⁄](2|4|8|16|32|64)( *[^0-9 ].*)?")


def likely_meant(text: str, near: Length, units: Units = "inch") -> Length | None:
    """Length that a text was likelier meant to say than what it says; None where it says it.

    >>> likely_meant("143/8", near=Fraction(14))
    Fraction(115, 8)
    >>> likely_meant("143/8", near=Fraction(18)), likely_meant("14 3/8", near=Fraction(14))
    (None, None)

    The space between inches and fraction is easily left out. So a text such as 143/8 is split where
    that comes closest to near, if it comes closer so than as it is written. A fraction of less than
    an inch is meant as it stands. Files and commands take any text as written.
    """
    found = _SPACELESS.fullmatch(text)
    if found is None or len(text) > LONGEST or int(found[1]) < int(found[2]):
        return None
    written_as, bottom = length_from_text(text, "inch" if found[3] else units), int(found[2])
    splits = ((found[1][:i], found[1][i:]) for i in range(1, len(found[1])))
    meant = [
        int(whole) + Fraction(int(top), bottom)
        for whole, top in splits
        if top[0] != "0" and int(top) < bottom
    ]
    nearest = min(meant, key=lambda one: abs(one - near), default=written_as)
    return nearest if abs(nearest - near) < abs(written_as - near) else None


def _numeral(found: re.Match[str]) -> Fraction:
    if number := found["number"]:
        whole, _, tail = number.replace(",", ".").partition(".")
        return Fraction(int(whole + tail), 10 ** len(tail))
    top, bottom = _top_and_bottom(found["fraction"] or "0/1")
    return Fraction(int(found["whole"] or 0) * bottom + top, bottom)


def _top_and_bottom(fraction: str) -> tuple[int, int]:
    top, _, bottom = _SIGNS.get(fraction, fraction).partition("/")
    return int(top), int(bottom)


def _fault_of_rest(found: re.Match[str]) -> str:
    """Return what is wrong with the part of a text that no form reaches, or an empty text."""
    rest = found.string[found.end() :].lstrip(" ")
    if not rest:
        return ""
    part, reason = quoted(rest.split(" ")[0]), _reason(rest)
    if found.end() or reason:
        return f"{part} is not understood there{reason}"
    return f"it must begin with a number, not with {part}"


def _reason(rest: str) -> str:
    if rest.startswith(("-", "+", "−")):
        return ", as a size has no sign in front"
    if rest.startswith(("'", "′", "’", "ft", "foot", "feet")):
        return ", as feet come first and are a whole number"
    if rest[0].isdigit() and not rest[0].isascii():
        return ", as only the digits 0 to 9 are read"
    return ""


def _fault_of_number(found: re.Match[str], units: Units) -> str:
    fraction, unit = found["fraction"], found["unit"]
    if fraction:
        return _fault_of_fraction(found, fraction, unit or units)
    metric = unit in _METRIC or (unit is None and units == "mm" and not found["feet"])
    if found["number"] and "," in found["number"] and not metric:
        return f"{quoted(found['number'])} has a comma, which is read only in mm, cm or m"
    return ""


def _fault_of_fraction(found: re.Match[str], fraction: str, unit: str) -> str:
    _, bottom = _top_and_bottom(fraction)
    if bottom == 0:
        return f"{quoted(fraction)} has a zero under the line"
    if found["unit"] in _METRIC:
        return f"{quoted(fraction)} is a fraction, and {unit} takes a whole number or a decimal"
    if unit == "mm" and not found["feet"]:
        return f'{quoted(fraction)} is a fraction without a unit, so in or " must stand behind it'
    return ""


def _fault_of_feet(found: re.Match[str]) -> str:
    if not found["feet"] or not found["inches"]:
        return ""
    if found["unit"] in _METRIC:
        return f"{quoted(found['inches'])} after feet must be inches"
    if _numeral(found) >= _FOOT:
        return f"{quoted(found['inches'])} after feet must be less than 12 inches"
    return ""


def _refusal(text: str, fault: str, units: Units) -> LengthError:
    return LengthError(
        f"Cannot read {quoted(text)} as a length: {fault}; write it like {ACCEPTED[units]}."
    )


# ── rounding ──────────────────────────────────────────────────────────────────────────────────


def rounded(
    length: Length, grid: Grid = SIXTEENTH, rounding: Rounding = Rounding.NEAREST
) -> Length:
    """Length on a mark of the grid: the nearest, the next below or the next above.

    >>> rounded(Fraction(1, 3), EIGHTH)
    Fraction(3, 8)
    >>> rounded(Fraction(1, 3), EIGHTH, Rounding.DOWN)
    Fraction(1, 4)
    >>> rounded(Fraction(1, 16), EIGHTH)
    Fraction(1, 8)

    In inches. Half-way between two marks NEAREST takes the larger length. Down is towards smaller,
    up towards larger, below zero as well.
    """
    return _on_marks(length, grid.step, rounding)


def is_mark(length: Length) -> bool:
    """Whether a length is a mark of a tape in inches, down to 1/64 in."""
    return not SIXTY_FOURTH.step.denominator % length.denominator


def ends_within(value: Fraction, places: Count) -> bool:
    """Whether a number is a decimal of so many places at most."""
    return not int(10**places) % value.denominator


def _on_marks(value: Fraction, step: Fraction, rounding: Rounding) -> Fraction:
    top, bottom = value.numerator * step.denominator, value.denominator * step.numerator
    if rounding is Rounding.NEAREST:
        marks = (2 * top + bottom) // (2 * bottom)
    elif rounding is Rounding.DOWN:
        marks = top // bottom
    else:
        marks = -(-top // bottom)
    return Fraction(marks * step.numerator, step.denominator)


# ── showing ───────────────────────────────────────────────────────────────────────────────────


def mixed(length: Length, grid: Grid = SIXTEENTH, rounding: Rounding = Rounding.NEAREST) -> str:
    """Text of a length as whole inches and a fraction, without a unit.

    >>> mixed(Fraction(185, 8))
    '23 1/8'
    >>> mixed(Fraction(1, 3))
    '≈ 5/16'

    The sign ≈ stands in front where rounding changed the length, − where it is below zero.

    Raises ValueError for a grid in mm.
    """
    value = _on_inches(length, grid, rounding)
    return _about(length, value) + _mixed_text(value)


def feet_and_inches(
    length: Length, grid: Grid = SIXTEENTH, rounding: Rounding = Rounding.NEAREST
) -> str:
    """Text of a length in feet and inches, with their units.

    >>> feet_and_inches(Fraction(185, 8))
    '1 ft 11 1/8 in'
    >>> feet_and_inches(Fraction(383, 32))
    '≈ 1 ft 0 in'
    >>> feet_and_inches(Fraction(3, 4))
    '3/4 in'

    Rounded first and split afterwards, so no fraction becomes 16/16 and no inches become 12. Below
    one foot only inches are shown.

    Raises ValueError for a grid in mm.
    """
    value = _on_inches(length, grid, rounding)
    feet, inches = divmod(abs(value), _FOOT)
    sign = "−" if value < 0 else ""
    front = f"{feet} ft " if feet else ""
    return f"{_about(length, value)}{sign}{front}{_mixed_text(inches)} in"


def decimal_inches(length: Length, places: Count = 3) -> str:
    """Text of a length as a decimal number of inches, without a unit.

    >>> decimal_inches(Fraction(185, 8))
    '23.125'
    >>> decimal_inches(Fraction(1, 3))
    '≈ 0.333'

    Zeros at the end are left out; half a last place goes up.
    """
    return _decimal(length, places)


def millimetres(length: Length, places: Count = 1) -> str:
    """Text of a length as a decimal number of millimetres, without a unit.

    >>> millimetres(Fraction(23))
    '584.2'
    >>> millimetres(Fraction(185, 8))
    '≈ 587.4'

    Zeros at the end are left out; half a last place goes up. 25.4 mm are one inch.
    """
    return _decimal(length / MM, places)


def shown(
    length: Length,
    units: Units = "inch",
    grid: Grid | None = None,
    rounding: Rounding = Rounding.NEAREST,
) -> str:
    """Text of a length on a grid, with its unit.

    >>> shown(Fraction(185, 8))
    '23 1/8 in'
    >>> shown(Fraction(185, 8), "mm", rounding=Rounding.DOWN)
    '≈ 587 mm'
    >>> shown(Fraction(185, 8), "mm", TENTH_MM)
    '≈ 587.4 mm'

    Without a grid it is 1/16 in, or 1 mm where `units` is mm. A given grid decides the unit.
    """
    marks = grid or MARKS[units]
    if marks.units == "inch":
        return f"{mixed(length, marks, rounding)} in"
    value = rounded(length, marks, rounding)
    return f"{_about(length, value)}{_decimal_text(value / MM)} mm"


def written(length: Length, units: Units = "inch") -> str:
    """Text of a length as exactly as it can be written, without a unit.

    >>> written(Fraction(185, 8)), written(Fraction(17, 500)), written(Fraction(1, 3))
    ('23 1/8', '0.034', '≈ 21/64')
    >>> written(Fraction(185, 8), "mm"), written(Fraction(1, 64), "mm")
    ('587.375', '≈ 0.4')

    In inches: a fraction down to 1/64, else a decimal of at most 4 places, else the nearest 1/64.
    In mm: a decimal of at most 3 places, else the nearest 0.1 mm. A text without the sign ≈ in
    front reads back as the same length, if it is not below zero.
    """
    value = as_written(length, units)
    if units == "mm":
        return _about(length, value) + _decimal_text(value / MM)
    return _about(length, value) + (_mixed_text(value) if is_mark(value) else _decimal_text(value))


def as_written(length: Length, units: Units = "inch") -> Length:
    """Length, in inches, that the text of `written` says: itself where it is written exactly."""
    if units == "mm":
        return length if ends_within(length / MM, 3) else rounded(length, TENTH_MM)
    exact = is_mark(length) or ends_within(length, 4)
    return length if exact else rounded(length, SIXTY_FOURTH)


def with_unit(units: Units, *lengths: Length) -> str:
    """Text of a length, or of the sizes of one piece, as exactly as can be, with the unit.

    >>> with_unit("inch", Fraction(63, 2)), with_unit("mm", 600 * MM, 1250 * MM)
    ('31 1/2 in', '600 × 1250 mm')
    """
    said = " × ".join(written(each, units) for each in lengths)
    return f"{said} {SIGN_OF[units]}"


def in_either_unit(units: Units, *lengths: Length) -> str:
    """Text of the sizes of one piece where inches and mm come together, as in a class.

    >>> in_either_unit("inch", 522 * MM), in_either_unit("inch", 522 * MM, Fraction(3, 2))
    ('522 mm', '≈ 20 35/64 × 1 1/2 in')

    In mm where a tape in mm shows them all, and one in inches does not.
    """
    said = with_unit(units, *lengths)
    on_mm = all((length / MM).denominator == 1 for length in lengths)
    return with_unit("mm", *lengths) if "≈" in said and on_mm else said


def limit_text(length: Length, units: Units) -> str:
    """Text of a limit, or of what it is held against, with its unit: in mm to a tenth.

    >>> limit_text(Fraction(1, 8), "inch"), limit_text(Fraction(1, 8), "mm")
    ('1/8 in', '≈ 3.2 mm')
    """
    return with_unit(units, length) if units == "inch" else shown(length, grid=TENTH_MM)


def in_units(text: str, units: Units) -> str:
    """Text for hives in one of the units, where it stands as [inch|mm] for either.

    >>> in_units("a strip [12 in|300 mm] long", "mm")
    'a strip 300 mm long'
    """
    return _IN_EITHER_UNIT.sub(rf"\{1 + UNITS.index(units)}", text)


def by_the_tape(length: Length, units: Units = "inch") -> str:
    """Text of a length as somebody with a tape in hand says it, with its unit.

    >>> by_the_tape(Fraction("0.0375")), by_the_tape(Fraction(185, 8)), by_the_tape(10 * MM, "mm")
    ('a little more than 1/32 in', '23 1/8 in', '10 mm')
    >>> by_the_tape(Fraction(1, 100))
    'less than 1/32 in'

    In inches it is named by the nearest 1/32 where it is not a mark down to 1/64. Above zero only.
    """
    if units == "mm" or is_mark(length):
        return with_unit(units, length)
    mark = rounded(length, THIRTY_SECOND)
    if not mark:
        return f"less than {_mixed_text(THIRTY_SECOND.step)} in"
    return f"a little {'more' if length > mark else 'less'} than {_mixed_text(mark)} in"


def length_json(
    length: Length, grid: Grid = SIXTEENTH, rounding: Rounding = Rounding.NEAREST
) -> dict[str, str | float]:
    """Length for other programs: exact as text, inches on the grid, and millimetres.

    >>> length_json(Fraction(87, 4))
    {'exact': '87/4', 'inches': '21 3/4', 'mm': 552.45}

    exact is a fraction of an inch; mm is the exact length, not the one on the grid, as the nearest
    floating number. For a grid in mm the inches are on 1/16 in.
    """
    marks = grid if grid.units == "inch" else SIXTEENTH
    return {
        "exact": str(length),
        "inches": mixed(length, marks, rounding),
        "mm": float(length / MM),
    }


def _on_inches(length: Length, grid: Grid, rounding: Rounding) -> Length:
    if grid.units != "inch":
        raise ValueError(f"A mixed fraction needs a grid in inches, and {grid.name} is not one.")
    return rounded(length, grid, rounding)


def _about(length: Fraction, value: Fraction) -> str:
    return "" if value == length else "≈ "


def _mixed_text(value: Fraction) -> str:
    bottom = value.denominator
    whole, top = divmod(abs(value.numerator), bottom)
    sign = "−" if value.numerator < 0 else ""
    if not top:
        return f"{sign}{whole}"
    return f"{sign}{whole} {top}/{bottom}" if whole else f"{sign}{top}/{bottom}"


def _decimal(value: Fraction, places: Count) -> str:
    near = _on_marks(value, Fraction(1, 10**places), Rounding.NEAREST)
    return _about(value, near) + _decimal_text(near)


def _decimal_text(value: Fraction) -> str:
    places = value.denominator.bit_length()
    whole, tail = divmod(abs(value.numerator) * 10**places // value.denominator, 10**places)
    sign = "−" if value.numerator < 0 else ""
    return f"{sign}{whole}.{tail:0{places}d}".rstrip("0").rstrip(".")
