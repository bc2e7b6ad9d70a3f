"""An answer as somebody wrote it: read, compared with a value, shown, and doubted."""

import re
import unicodedata
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache
from typing import Final

from hivecalc.derivation import Dimension
from hivecalc.hive import MEASUREMENTS
from hivecalc.judging.slips import Form, Wrong
from hivecalc.judging.wrong_rules import IN_INCHES, is_a_name
from hivecalc.length import (
    MILLIMETRE,
    SIXTEENTH,
    SIXTY_FOURTH,
    THIRTY_SECOND,
    Grid,
    LengthError,
    Rounding,
    Units,
    length_from_text,
    likely_meant,
    mixed,
    rounded,
    with_unit,
)

HAIR: Final = Fraction(1, 200)
"""What no saw cuts and no pencil draws, in inches: half of a decimal's second place."""
ONE_MARK: Final = SIXTEENTH.step
"""How far off an answer may be for its cutter to hear that it is close, in inches."""
FARTHEST: Final = ONE_MARK + HAIR
"""How far a mark of a tape may lie from what is rounded to it, and the hair, in inches."""
RATIO_PLACE: Final = Fraction(1, 2000)
"""Half of a decimal's third place: how close a fall for each inch has to be."""
TENTH_OF_MM: Final = Fraction(1, 500)
"""Half of 0.1 mm, and a little more than half of a decimal's third place, in inches."""
GRIDS_OF: Final[dict[Units, tuple[Grid, ...]]] = {
    "inch": (SIXTEENTH, THIRTY_SECOND, SIXTY_FOURTH),
    "mm": (MILLIMETRE,),
}
"""The marks of a tape, by the unit that an answer is written in."""

_INSTEAD: Final = "; write it like "
_INCH_MARK: Final = re.compile(r" *(inches|inch|in\.?|''|′′|’’|[\"″”])\Z")
_METRIC: Final = re.compile(r"([0-9]+([.,][0-9]+)?) *(mm)?")
_SINGLE_SIGN: Final = re.compile("([¼-¾⅐-⅞])")
_METRIC_UNIT: Final = re.compile(r"[0-9 ](mm|cm|m)\Z")
_FEET: Final = re.compile(r"ft|foot|feet|['′’](?!['′’]|\Z)|[0-9 ]['′’]\Z")
_BARE: Final = re.compile(r"[0-9]*[.,]?[0-9]*")
_TOP_HEAVY: Final = re.compile(r"[0-9]+(?:-| and | +)([0-9]+)/([0-9]+)\b")


# ── read ──────────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Entry:
    """An answer: its text, the value that it says, and the unit of a bare number.

    value is in inches, a plain number for a ratio.
    """

    text: str
    value: Fraction
    units: Units

    @cached_property
    def written_in(self) -> Units:
        """The unit that it is written in; that of a bare number where none is named."""
        text = self.text.strip()
        bare = self.units == "mm" and _BARE.fullmatch(text) is not None
        return "mm" if bare or _METRIC_UNIT.search(text) else "inch"

    @cached_property
    def forms(self) -> frozenset[Form]:
        """How it is written.

        >>> sorted(Entry("143/8 in", Fraction(143, 8), "inch").forms)
        ['inch', 'spaceless']
        """
        text = self.text.strip().replace("⁄", "/")
        whole, slash, _ = _INCH_MARK.sub("", text).partition("/")
        metric = self.written_in == "mm"
        found: dict[Form, bool] = {
            "bare": _BARE.fullmatch(text) is not None,
            "decimal": not slash and not _SINGLE_SIGN.search(text),
            "inch": not metric,
            "metric": metric,
            "feet": _FEET.search(text) is not None,
            "spaceless": bool(slash) and whole.isdigit(),
        }
        return frozenset(form for form, so in found.items() if so)

    @property
    def is_unfinished(self) -> bool:
        """Whether a fraction after whole inches makes an inch or more, as in 20 13/8."""
        found = _TOP_HEAVY.search(self.text.replace("⁄", "/"))
        return found is not None and int(found[1]) >= int(found[2])

    @property
    def is_list_form(self) -> bool:
        """Whether it is written as on a cutting list: a mixed fraction in lowest terms, or mm."""
        text = self.text.strip().lstrip("-−")
        if self.units == "mm":
            return _METRIC.fullmatch(text) is not None
        bare = _SINGLE_SIGN.sub(r" \1", _INCH_MARK.sub("", text)).replace("-", " ")
        plain = " ".join(unicodedata.normalize("NFKC", bare).replace("⁄", "/").split())
        return plain == mixed(abs(self.value), SIXTY_FOURTH)


def entered(answer: str, asked: Dimension, units: Units, *, below_nothing: bool = False) -> Entry:
    """The answer as it is read; raises LengthError with one sentence for the learner.

    >>> from hivecalc.components import DIMENSIONS
    >>> entered("1 in 12", DIMENSIONS.dimension("roof.slope"), "inch").value
    Fraction(1, 12)

    A minus is read only where the size is below nothing.
    """
    text = answer.strip()
    if asked.kind == "ratio":
        value = _ratio(answer)
    elif below_nothing and text[:1] in {"-", "−"}:
        value = -length_from_text(text[1:], units)
    else:
        value = length_from_text(answer, units)
    return Entry(answer, value, units)


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


# ── right ─────────────────────────────────────────────────────────────────────────────────────


@lru_cache(maxsize=4096)
def roundings(exact: Fraction, rounding: Rounding, units: Units) -> frozenset[Fraction]:
    """What an exact length is rounded to on the marks of a tape, to the side that is safe.

    >>> sorted(map(str, roundings(Fraction(451, 32), Rounding.DOWN, "inch")))
    ['225/16', '451/32']

    Where both sides are alike, the nearest mark; both of two that are as near.
    """
    grids = GRIDS_OF[units]
    if rounding is not Rounding.NEAREST:
        return frozenset({exact, *(rounded(exact, grid, rounding) for grid in grids)})
    ways = Rounding.DOWN, Rounding.UP
    near = ((rounded(exact, grid, way), grid.step) for grid in grids for way in ways)
    return frozenset({exact, *(mark for mark, step in near if 2 * abs(mark - exact) <= step)})


def is_at(answer: Fraction, value: Fraction, marks: Collection[Fraction]) -> bool:
    """Whether a length is a value or one of its marks, to a hair; nothing at all is no mark."""
    if abs(answer - value) <= HAIR:
        return True
    return answer != 0 and any(abs(answer - mark) <= HAIR for mark in marks)


def is_sane(answer: Fraction, value: Fraction) -> bool:
    """Whether a wrong answer is near enough to its value to be carried on from.

    More than nothing; and between a quarter and four times the value, or within 4 in of it.
    Common practice, no published source.
    """
    near = abs(answer - value) <= 4  # noqa: PLR2004 - as the docstring says
    return answer > 0 and (near or value <= 4 * answer <= 16 * value)


def stands_for(entry: Entry, value: Fraction, wrong: Wrong, asked: Dimension) -> bool:
    """Whether an answer is what a slip comes to, written and rounded as one may.

    value is what the slip comes to at this step, which may stand behind the step of the slip. What
    came of a slip in writing is a decimal, and is not rounded to a mark. No rounding takes more
    than a tenth of a size.
    """
    answer, off = entry.value, abs(entry.value - value)
    if not wrong.forms <= entry.forms:
        return False
    if asked.kind == "ratio":
        place = RATIO_PLACE if _ends(answer, 3) else RATIO_PLACE / 10
        return off <= place and _ends(answer, 4)
    if off <= TENTH_OF_MM:
        return answer != 0
    if 10 * off > value:
        return False
    if wrong.slip.family == "writing":
        return off <= HAIR and _ends(answer, 2)
    marks = roundings(value, Rounding.NEAREST, entry.written_in)
    return is_at(answer, value, {*marks, rounded(value, SIXTEENTH, asked.rule.rounding)})


def _ends(answer: Fraction, places: int) -> bool:
    """Whether a number is a decimal of so many places at most."""
    return not 10**places % answer.denominator


# ── shown ─────────────────────────────────────────────────────────────────────────────────────


def is_mark(value: Fraction) -> bool:
    """Whether a length is a mark of a tape, down to 1/64 in."""
    return SIXTY_FOURTH.step.denominator % value.denominator == 0


def in_units(value: Fraction, units: Units) -> str:
    """A length as exactly as it can be written, with its unit."""
    return with_unit(units, value).removeprefix("≈ ")


# ── a size that was typed, doubted ────────────────────────────────────────────────────────────

FAR: Final = Fraction(1, 8)
"""How far a reading may lie from the others of the same size, as a share of it, unasked."""


def doubt(name: str, text: str, units: Units = "inch", just_typed: Iterable[Fraction] = ()) -> str:
    """The question that a measurement just typed gives rise to; empty where it gives rise to none.

    >>> doubt("stud_thickness", "2")
    '2 in is the name of a stud; most measure 1 1/2 in. Did your tape really say so?'
    >>> doubt("hive_length", "231/8", just_typed=[Fraction(185, 8)])
    '231/8 is 28 7/8 in. Did you mean 23 1/8 in?'
    >>> doubt("hive_length", "32 1/8", just_typed=[Fraction(185, 8)])
    'That is far from the 23 1/8 in that you typed before. Is it the same size?'

    just_typed are the readings of the same size so far. The size is a length that can be read; it
    is kept as it was typed, whatever this asks.
    """
    value, readings = length_from_text(text, units), sorted(just_typed)
    usual = readings[len(readings) // 2] if readings else MEASUREMENTS[name].defaults[units]
    meant = likely_meant(text, usual, units) if usual else None
    if meant is not None:
        read, asked = in_units(value, units), in_units(meant, units)
        return f"{text.strip()} is {read}. Did you mean {asked}?"
    if is_a_name(name, value, units):
        said, wood = in_units(value, units), "stud" if name.startswith("stud") else "board"
        less = "planed, it measures less"
        if units == "inch":
            less = f"most measure {in_units(IN_INCHES[int(value)], units)}"
        return f"{said} is the name of a {wood}; {less}. Did your tape really say so?"
    if readings and usual and abs(value - usual) > FAR * usual:
        before = in_units(usual, units)
        return f"That is far from the {before} that you typed before. Is it the same size?"
    return ""
