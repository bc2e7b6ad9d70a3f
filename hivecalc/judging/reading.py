"""What an answer says: a length, or for a fall the number of inches for each inch."""

import re
from fractions import Fraction
from typing import Final

from hivecalc.derivation import Dimension
from hivecalc.length import LengthError, Units, length_from_text

_INSTEAD: Final = "; write it like "


def read(answer: str, asked: Dimension, units: Units, *, below_nothing: bool = False) -> Fraction:
    """The value that an answer says; raises LengthError with one sentence for the learner.

    >>> from hivecalc.components import COURSE
    >>> read("1 in 12", COURSE.dimension("roof.slope"), "inch")
    Fraction(1, 12)

    In inches, a plain number for a ratio. A minus is read only where the size is below nothing.
    """
    if asked.kind == "ratio":
        return _ratio(answer)
    text = answer.strip()
    if below_nothing and text[:1] in {"-", "−"}:
        return -length_from_text(text[1:], units)
    return length_from_text(answer, units)


def _ratio(answer: str) -> Fraction:
    """The number that a fall for each inch is given as: 0.085, 1/12, 1:12, 1 in 12, 8.5 %."""
    text = answer.strip()
    first, colon, second = re.sub(r" in (?=[0-9.])", ":", text.removesuffix("%")).partition(":")
    try:
        above, below = _bare_number(first), _bare_number(second if colon else "1")
        return above / below / (100 if text.endswith("%") else 1)
    except LengthError as error:
        fault = str(error).rpartition(_INSTEAD)[0].replace("a length", "a fall for each inch")
    except ZeroDivisionError:
        fault = "Nothing can be divided by zero"
    raise LengthError(f"{fault}{_INSTEAD}0.085, 1/12, 1:12 or 8.5 %.")


def _bare_number(text: str) -> Fraction:
    """A number without a unit, whose decimal sign may be a comma, as no tape has such marks."""
    value = length_from_text(text.replace(",", "."))
    if not text.rstrip()[-1].isdigit():
        raise LengthError(f"Cannot read “{text}” as a length: it has a unit{_INSTEAD}")
    return value
