"""One value of a hive file: read exactly, or refused with what is accepted."""

import re
from fractions import Fraction
from typing import Final

from hivecalc.hive.faults import RefusedError
from hivecalc.hive.measurements import ANSWERS, Kind, Measurement
from hivecalc.hive.texts import LONGEST_NAME, quoted, steers
from hivecalc.hive.toml import Number
from hivecalc.length import LengthError, Units, length_from_text, with_unit

_TOO_LONG: Final = 10**9
_A_LENGTH: Final = 'write a length like "3 1/2"'
_A_COUNT: Final = "write a whole number like 10"
_AN_ANSWER: Final = 'write "yes" or "no"'
_A_LINE: Final = f"write 1 to {LONGEST_NAME} characters in quotes, on one line"
_COUNT: Final = re.compile(r" *([0-9]{1,6}) *")
_KINDS: Final = (
    (Number, "a number"),
    (str, "a text"),
    (bool, "true or false"),
    (int, "a number"),
    (list, "a list"),
    (dict, "a table"),
    (float, "a floating number"),
    (object, "a date or time"),
)


def value_of(known: Measurement, given: object, units: Units | None) -> Fraction:
    """Value that is given for a measurement, in inches; a Fraction is in inches already.

    Where the units are unknown, any size will do. Raises RefusedError.
    """
    value = given if isinstance(given, Fraction) else _read(known.kind, given, units or "inch")
    if known.kind == "answer" and value not in ANSWERS.values():
        raise RefusedError("this is neither yes nor no", _AN_ANSWER)
    if known.kind != "length" and value.denominator > 1:
        raise RefusedError("this is not a whole number", _A_COUNT)
    if units:
        _check_range(known, value, units)
    return value


def _check_range(known: Measurement, value: Fraction, units: Units) -> None:
    lowest, highest = known.limits(units)
    if not lowest <= value <= highest:
        said, low, high = (said_with_unit(v, units, known.kind) for v in (value, lowest, highest))
        size = "small" if value < lowest else "large"
        accepted = f"give {low} to {high}, because {_clause(known.reason)}"
        raise RefusedError(f"{said} is too {size}", accepted)


def _clause(sentence: str) -> str:
    return sentence[0].lower() + sentence[1:].rstrip(".")


def _read(kind: Kind, given: object, units: Units) -> Fraction:
    if kind == "count":
        return _count(_text(given, _A_COUNT))
    if kind == "answer":
        return _answer(_text(given, _AN_ANSWER))
    return _length(_text(given, _A_LENGTH), units)


def _text(given: object, accepted: str) -> str:
    """Return the text of a value that is a text or a number."""
    if isinstance(given, str):
        return given
    if not isinstance(given, int) or isinstance(given, bool):
        raise RefusedError(f"{kind_of(given)} stands here", accepted)
    if abs(given) >= _TOO_LONG:
        raise RefusedError("this number has ten digits or more", accepted)
    return str(given)


def _length(text: str, units: Units) -> Fraction:
    try:
        return length_from_text(text, units)
    except LengthError as error:
        found, _, accepted = str(error).rstrip(".").rpartition("; ")
        raise RefusedError(_clause(found), accepted) from None


def _answer(text: str) -> Fraction:
    if text.strip(" ") not in ANSWERS:
        raise RefusedError(f"{quoted(text.strip(' '))} is neither yes nor no", _AN_ANSWER)
    return ANSWERS[text.strip(" ")]


def _count(text: str) -> Fraction:
    found = _COUNT.fullmatch(text)
    if not found:
        what = f"{quoted(text.strip(' '))} is not a whole number that can be counted"
        raise RefusedError(what, _A_COUNT)
    return Fraction(found[1])


def line_of(given: object, what: str = "the text") -> str:
    """Text on one line, such as a name or a currency.

    `what` is what a fault calls the text. Raises RefusedError for what is no text, for one that is
    empty or has more than 80 characters, and for one with a control character in it.
    """
    if kind_of(given) != "a text":
        raise RefusedError(f"{kind_of(given)} stands here", _A_LINE)
    text = str(given)
    if not text.strip():
        raise RefusedError(f"{what} is empty", _A_LINE)
    if len(text) > LONGEST_NAME:
        raise RefusedError(f"{what} has {len(text)} characters", _A_LINE)
    if any(map(steers, text)):
        raise RefusedError(f"{quoted(text)} has a control character in it", _A_LINE)
    return text.strip(" ")


def kind_of(given: object) -> str:
    """What a value is that should be something else."""
    return next(name for kind, name in _KINDS if isinstance(given, kind))


def answer_text(value: Fraction) -> str:
    """What an answer says."""
    return next(text for text, meant in ANSWERS.items() if meant == value)


def said_with_unit(value: Fraction, units: Units, kind: Kind = "length") -> str:
    """Value with its unit; one too long to be read by a person is only described.

    >>> said_with_unit(Fraction(29, 8), "inch"), said_with_unit(Fraction(10**12), "mm")
    ('3 5/8 in', 'a number of ten digits or more')
    """
    if abs(value) >= _TOO_LONG:
        return "a number of ten digits or more"
    if kind == "answer":
        return answer_text(value)
    if kind == "count":
        return str(value)
    return with_unit(units, value)
