"""An answer as somebody wrote it, read and compared with a value; and what a verdict says of it."""

import re
import unicodedata
from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property, lru_cache
from typing import Final, Literal, TypeAlias

from hivecalc.components import DIMENSIONS, begun_with
from hivecalc.derivation import Dimension, on_hive, title
from hivecalc.fractions_in_words import formula_steps, without_result
from hivecalc.hive import MEASUREMENTS, Hive
from hivecalc.judging.slips import LINE, SLIP_MESSAGE, SLIPS, Form, Wrong
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
    ends_within,
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
RATIO_PLACE: Final = Fraction(1, 1000)
"""A decimal's third place: how close a fall for each inch has to be.

Over a roof of 2 ft it is less than 1/32 in.
"""
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
_ONE_IN: Final = re.compile(r"1 *(?::|/| in ) *[0-9]+")
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
    """The number that a fall for each inch is given as: 0.1, 1/10, 1:10, 1 in 10, 10 %."""
    text = answer.strip()
    first, colon, second = re.sub(r" in (?=[0-9.])", ":", text.removesuffix("%")).partition(":")
    try:
        above, below = _bare_number(first), _bare_number(second if colon else "1")
        return above / below / (100 if text.endswith("%") else 1)
    except LengthError as error:
        fault = str(error).rpartition(_INSTEAD)[0].replace("a length", "a fall for each inch")
    except ZeroDivisionError:
        fault = "Nothing can be divided by zero"
    raise LengthError(f"{fault}{_INSTEAD}0.1, 1/10, 1:10, 1 in 10 or 10 %.")


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


def is_fall(entry: Entry, value: Fraction) -> bool:
    """Whether a fall is a value to the third place, or one in the nearest whole number of inches.

    >>> found = [Entry(text, _ratio(text), "inch") for text in ("0.084", "1 in 12", "1 in 11")]
    >>> [is_fall(entry, Fraction(16, 189)) for entry in found]
    [True, True, False]
    """
    one_in = value > 0 and _ONE_IN.fullmatch(entry.text.strip()) is not None
    nearest = one_in and 2 * abs(1 / entry.value - 1 / value) <= 1
    return nearest or abs(entry.value - value) <= RATIO_PLACE


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
        place = RATIO_PLACE / 2 if ends_within(answer, 3) else RATIO_PLACE / 20
        return off <= place and ends_within(answer, 4)
    if off <= TENTH_OF_MM:
        return answer != 0
    if 10 * off > value:
        return False
    if wrong.slip.family == "writing":
        return off <= HAIR and ends_within(answer, 2)
    marks = roundings(value, Rounding.NEAREST, entry.written_in)
    return is_at(answer, value, {*marks, rounded(value, SIXTEENTH, asked.rule.rounding)})


# ── shown ─────────────────────────────────────────────────────────────────────────────────────


def spoken(value: Fraction, units: Units) -> str:
    """A length as exactly as it can be said, with its unit and without the sign ≈."""
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
        read, asked = spoken(value, units), spoken(meant, units)
        return f"{text.strip()} is {read}. Did you mean {asked}?"
    if is_a_name(name, value, units):
        said, wood = spoken(value, units), "stud" if name.startswith("stud") else "board"
        less = "planed, it measures less"
        if units == "inch":
            less = f"most measure {spoken(IN_INCHES[int(value)], units)}"
        return f"{said} is the name of a {wood}; {less}. Did your tape really say so?"
    if readings and usual and abs(value - usual) > FAR * usual:
        before = spoken(usual, units)
        return f"That is far from the {before} that you typed before. Is it the same size?"
    return ""


# ── a verdict ──────────────────────────────────────────────────────────────────────────────────

Judgement: TypeAlias = Literal[
    "right", "right_other_form", "right_carried", "slip", "unexplained", "unreadable"
]


_FAMILIES: Final = {"rule": 0, "sums": 1, "tape": 2, "writing": 2}


@dataclass(frozen=True)
class NamedSlip:
    """A slip that gives the answer: its name, the step it would have happened at, what to say."""

    name: str
    step: str
    sentence: str
    question: str
    practice: str
    trace: str


@dataclass(frozen=True)
class Verdict:
    """All that a page or a report says about one answer.

    value is the answer as read, in inches (a plain number for a ratio), None where it is
    unreadable. slips are at most three, the likeliest first, and tells_apart says how to know
    which. first_difference is the first step to look at, a dimension's name. carried_from is the
    earlier answer that a carried one rests on.
    """

    dimension: str
    answer: str
    verdict: Judgement
    message: str
    question: str = ""
    value: Fraction | None = None
    slips: tuple[NamedSlip, ...] = ()
    tells_apart: str = ""
    first_difference: str | None = None
    carried_from: str | None = None

    @property
    def right(self) -> bool:
        """Whether the answer counts as right."""
        return self.verdict.startswith("right")

    @property
    def carried(self) -> bool:
        """Whether the answer is right only for an earlier answer of the learner's."""
        return self.verdict == "right_carried"


def verdict_json(judged: Verdict) -> dict[str, object]:
    """Verdict for other programs, its keys in a fixed order.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.judging import verdict
    >>> judged = verdict(demo_hive(), "bottom_board.front_rail_length", "15 7/8")
    >>> verdict_json(judged)["verdict"], verdict_json(judged)["slips"]
    ('slip', ['thickness_once'])
    """
    return {
        "schema": "hivecalc/1",
        "dimension": judged.dimension,
        "answer": judged.answer,
        "verdict": judged.verdict,
        "slips": [slip.name for slip in judged.slips],
        "message": judged.message,
        "first_difference": judged.first_difference,
        "carried": judged.carried,
    }


# ── slips, named ──────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Candidate:
    """A wrong answer to a size: the slip that gives it, what it comes to there, how far back it is.

    steps_back says how many steps before the size that is asked for the slip would stand.
    """

    wrong: Wrong
    value: Fraction
    steps_back: int = 0

    def gives(self, answer: Fraction) -> bool:
        """Whether it is the very answer, and not only something that rounds to it."""
        return abs(answer - self.value) <= TENTH_OF_MM


def named_slips(
    matches: Iterable[Candidate],
    answer: Fraction,
    units: Units = "inch",
    shown: Collection[str] = (),
) -> tuple[NamedSlip, ...]:
    """At most three slips, each name once, and none that nothing tells from a likelier one.

    Those that are shown, by name, stand first. Then slips of the rule that give the very value,
    those of the sum, and those of the tape and of writing; here before a step back, the commoner
    before the rarer. What meets the value by rounding only is named where none gives the value.
    """

    def rank(candidate: Candidate) -> tuple[bool, int, int, int, str]:
        slip, back = candidate.wrong.slip, candidate.steps_back
        return slip.name not in shown, _FAMILIES[slip.family], back, -slip.weight, slip.name

    ranked = sorted(matches, key=rank)
    ranked = [c for c in ranked if c.gives(answer)] or ranked
    best, apart = dict[str, Candidate](), dict[str, Candidate]()
    for candidate in ranked:
        best.setdefault(candidate.wrong.slip.name, candidate)
    for candidate in best.values():
        apart.setdefault(candidate.wrong.trace, candidate)
    return tuple(_named(c, ranked, units) for c in list(apart.values())[:3])


def _named(first: Candidate, ranked: Iterable[Candidate], units: Units) -> NamedSlip:
    wrong = first.wrong
    where = f", at the {title(wrong.step)}, " if first.steps_back else " "
    same = (c.wrong for c in ranked if c.wrong.slip is wrong.slip and c.wrong.step == wrong.step)
    gives = list(dict.fromkeys((wrong.gives, *(w.gives for w in same))))
    return named_slip(wrong, units, f"{SLIP_MESSAGE}{where}{', or if '.join(gives)}.")


def named_slip(wrong: Wrong, units: Units = "inch", sentence: str = "") -> NamedSlip:
    """A slip as a verdict names it."""
    slip = wrong.slip
    return NamedSlip(
        slip.name,
        wrong.step,
        sentence or wrong.sentence,
        wrong.question,
        slip.to_practise(units),
        wrong.trace,
    )


def tells_apart(found: Iterable[NamedSlip]) -> str:
    """What in a learner's own working tells which of some slips it was; empty where there is one.

    >>> traces = f"{LINE} “9 − 2”", f"{LINE} “9 + 2”", "was it 9"
    >>> tells_apart([NamedSlip(*"abcde", trace) for trace in traces])
    'Your own working tells which: is there a line like “9 − 2”, or like “9 + 2”, or was it 9?'
    """
    first, *others = dict.fromkeys(slip.trace for slip in found)
    like = [f"like{t.removeprefix(LINE)}" if t.startswith(LINE) else t for t in others]
    text = ", or ".join((first, *(like if first.startswith(LINE) else others)))
    return f"Your own working tells which: {text}?" if others else ""


def slip_verdict(
    name: str, answer: str, value: Fraction | None, found: tuple[NamedSlip, ...]
) -> Verdict:
    """The verdict on an answer that these slips give, the likeliest first."""
    first, *others = found
    text = first.sentence
    text += "".join(f" Or if{s.sentence.removeprefix(SLIP_MESSAGE)}" for s in others)
    return Verdict(
        name, answer, "slip", text, first.question, value, slips=found,
        tells_apart=tells_apart(found), first_difference=first.step,
    )  # fmt: skip


def space_left_out(entry: Entry, expected: Fraction, asked: Dimension) -> Verdict | None:
    """The verdict that asks whether 143/8 was meant to be 14 3/8, where that comes closer.

    >>> rail = DIMENSIONS.dimension("bottom_board.front_rail_length")
    >>> found = space_left_out(Entry("143/8", Fraction(143, 8), "inch"), Fraction(14), rail)
    >>> found.message, found.question
    ('143/8 reads as 17 7/8 in.', 'Did you mean 14 3/8 in?')
    """
    if asked.kind != "length" or expected <= 0:
        return None
    meant = likely_meant(entry.text, expected, entry.units)
    if meant is None:
        return None
    wrong = Wrong(SLIPS["space_forgotten"], asked.name, entry.value)
    asks = f"Did you mean {spoken(meant, entry.units)}?"
    named = replace(named_slip(wrong, entry.units), question=asks)
    read = f"{entry.text.strip()} reads as {spoken(entry.value, entry.units)}."
    return replace(
        slip_verdict(asked.name, entry.text, entry.value, (named,)), message=read, tells_apart=""
    )


# ── the step that helps ───────────────────────────────────────────────────────────────────────


def open_steps(hive: Hive, dimension: str, right: Collection[str] = ()) -> list[str]:
    """The first worked step that is not among the right ones, and its sum, without the result.

    >>> from hivecalc.hive import demo_hive
    >>> for line in open_steps(demo_hive(), "bottom_board.panel_width"):
    ...     print(line)
    opening width = hive width − 2 × stud thickness = 17 3/8 − 2 × 1 1/2 = ?
    First 2 × 1 1/2. Take the inches: 2 × 1 = 2.
    Take the halves as often: 2 × 1/2 = 2/2, which is 1.
    Together: 3 in.
    Then 17 3/8 − 3. Take the inches: 17 − 3 = ?

    No figure in it is still to be found. Empty for a size that was measured. Raises
    UnknownNameError.
    """
    begun = begun_with(hive, dimension)
    steps = DIMENSIONS.steps(dimension, begun, units=hive.units)
    first = next((s for s in steps if s.dimension not in right), steps[-1] if steps else None)
    if first is None:
        return []
    found = DIMENSIONS.values(begun, names=(first.dimension,))
    step = on_hive(DIMENSIONS.dimension(first.dimension), found)
    sizes = {p: found[n] for p, n in step.full_names.items()}
    head = " = ".join(dict.fromkeys((title(first.dimension), first.formula, first.numbers, "?")))
    return [head, *without_result(formula_steps(step.expression, sizes, hive.units))]
