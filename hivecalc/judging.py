"""An answer and what to say about it: right, right for an earlier answer, a slip, or look here.

`verdict` is a plain function. It judges in five stages: can it be read; is it the value; would it
be right if an earlier answer were; is it what a named slip gives; and else, where to look first.
"""

import re
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property, lru_cache
from typing import Final, Literal, TypeAlias

from hivecalc.components import COURSE, values
from hivecalc.derivation import Dimension, Values, title
from hivecalc.hive import Hive
from hivecalc.length import (
    LONGEST,
    MILLIMETRE,
    SIXTEENTH,
    SIXTY_FOURTH,
    THIRTY_SECOND,
    Grid,
    LengthError,
    Rounding,
    Units,
    decimal_inches,
    length_from_text,
    mixed,
    rounded,
    shown,
)
from hivecalc.slips import Wrong, at_step
from hivecalc.slips.arithmetic import before, dimension_in, has_choice, in_order, worked_on

Judgement: TypeAlias = Literal[
    "right", "right_other_form", "right_carried", "slip", "unexplained", "unreadable"
]

HAIR: Final = Fraction(1, 200)
"""What no saw cuts and no pencil draws, in inches: half of a decimal's second place."""
ALLOWED: Final = Fraction(1, 16)
"""How far from the value, on the safe side, a size may be that is rounded down or up."""
RATIO_PLACE: Final = Fraction(1, 2000)
"""Half of a decimal's third place: how close a fall for each inch has to be."""
MOST_SLIPS: Final = 3
STEPS_BACK: Final = 2
MOST_REMEMBERED: Final = 4096
MOST_HIVES: Final = 64
"""How many hives are looked up and not worked out again; one takes at most about 1.5 MB."""


@dataclass(frozen=True)
class NamedSlip:
    """A slip that gives the answer: its name, the step it would have happened at, what to say."""

    name: str
    family: str
    step: str
    sentence: str
    question: str
    practice: str
    working: str


@dataclass(frozen=True)
class Verdict:
    """All that a page or a report says about one answer.

    value is the answer as read, in inches (a plain number for a ratio), None where it is
    unreadable. on_list is how a right answer stands on a cutting list, else empty. safe says
    whether the answer lies on the side that the dimension's rounding allows; None where both sides
    are alike, or where it is more than 1/8 in away. slips are at most three, the likeliest first,
    and tells_apart says how to know which. first_difference is the first step to look at, a
    dimension's name. carried_from is the earlier answer that a carried one rests on.
    """

    dimension: str
    answer: str
    verdict: Judgement
    message: str
    question: str = ""
    value: Fraction | None = None
    on_list: str = ""
    safe: bool | None = None
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


def verdict(
    hive: Hive,
    dimension: str,
    answer: str,
    earlier: Mapping[str, str | Fraction] | None = None,
) -> Verdict:
    """Verdict on an answer for one dimension of this hive.

    >>> from hivecalc.hive import demo_hive
    >>> verdict(demo_hive(), "bottom_board.side_rail_length", "21.625").message
    'Right. On a cutting list it is written 21 5/8 in.'
    >>> verdict(demo_hive(), "bottom_board.panel_width", "15 5/8",
    ...         {"bottom_board.opening_width": "15 7/8"}).verdict
    'right_carried'

    A bare number is in the hive's units. earlier holds the learner's answers to other dimensions,
    by full name; those that can't be read, or make no sense as a size, carry nothing.

    Raises UnknownNameError for a dimension that there isn't, or that this hive does not have.
    """
    sheet = _sheet(_Same(hive))
    if earlier or len(answer) > LONGEST:
        return _judged(sheet, dimension, answer, earlier or {})
    return sheet.remembered(dimension, answer)


def _judged(
    sheet: "_Sheet", dimension: str, answer: str, earlier: Mapping[str, str | Fraction]
) -> Verdict:
    asked = dimension_in(sheet.values, dimension)
    try:
        value = _read(answer, asked, sheet)
    except LengthError as error:
        return Verdict(dimension, answer, "unreadable", str(error))
    case = _Case(sheet, asked, answer, value, _readable(earlier, asked, sheet))
    return case.right() or case.carried() or case.slip() or case.unexplained()


# ── what is known of a hive ───────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class _Candidate:
    """A wrong answer of this dimension: the slip that gives it, and how many steps back."""

    wrong: Wrong
    value: Fraction
    steps_back: int


_Table: TypeAlias = dict[int, list[_Candidate]]


class _Sheet:
    """Everything of one hive that judging looks up: values, wrong answers, order of work."""

    def __init__(self, hive: Hive) -> None:
        self.hive = hive
        self.units: Units = hive.units
        self.values: Values = values(hive)
        self.known = frozenset(hive.measurements)
        self._own: dict[str, tuple[Wrong, ...]] = {}
        self._tables: dict[str, _Table] = {}
        self._order: dict[str, tuple[str, ...]] = {}
        self._judged: dict[tuple[str, str], Verdict] = {}

    def remembered(self, name: str, answer: str) -> Verdict:
        """The verdict on an answer that no earlier one bears on; a class gives the same often."""
        if (name, answer) not in self._judged:
            if len(self._judged) >= MOST_REMEMBERED:
                self._judged.clear()
            self._judged[name, answer] = _judged(self, name, answer, {})
        return self._judged[name, answer]

    def own(self, name: str) -> tuple[Wrong, ...]:
        """The wrong answers of slips at this very step; none that would be judged right."""
        if name not in self._own:
            asked, value = COURSE.dimensions[name], self.values[name]
            wrong = at_step(asked, self.values, self.units, measured=name in self.known)
            self._own[name] = tuple(w for w in wrong if not is_right(w.value, value, asked))
        return self._own[name]

    def table(self, name: str) -> _Table:
        """The wrong answers of slips at this step and at those just before it, by sixteenths."""
        if name not in self._tables:
            table: _Table = {}
            for candidate in self._candidates(name):
                table.setdefault(_sixteenths(candidate.value), []).append(candidate)
            self._tables[name] = table
        return self._tables[name]

    def _candidates(self, name: str) -> Iterator[_Candidate]:
        yield from (_Candidate(w, w.value, 0) for w in self.own(name))
        asked, value = COURSE.dimensions[name], self.values[name]
        for step, back in self.before(name, STEPS_BACK).items():
            for wrong in self.own(step):
                carried = self._carried(name, step, wrong)
                if carried and carried > 0 and not is_right(carried, value, asked):
                    yield _Candidate(wrong, carried, back)

    def _carried(self, name: str, step: str, wrong: Wrong) -> Fraction | None:
        """What a wrong value at an earlier step comes to here; None where it leaves no trace."""
        if not wrong.slip.carries:
            return None
        carried = self.worked_on(name, {step: wrong.value})
        return None if carried and self._is_hidden(name, step, wrong, carried) else carried

    def _is_hidden(self, name: str, step: str, wrong: Wrong, carried: Fraction) -> bool:
        """Whether another size decides, so that any wrong value there would give this answer."""
        choices = any(has_choice(n) for n in (name, *self.before(name, STEPS_BACK)))
        return choices and self.worked_on(name, {step: wrong.value + HAIR}) == carried

    def before(self, name: str, most: int) -> dict[str, int]:
        """The steps before this one in this hive, with how far back they are."""
        return {} if name in self.known else before(name, self.known, most)

    def worked_on(self, name: str, given: Mapping[str, Fraction]) -> Fraction | None:
        """The value of a dimension for other values before it; None where there is none."""
        try:
            return worked_on(name, self.values, given, self.known)
        except ZeroDivisionError:
            return None

    def order(self, name: str) -> tuple[str, ...]:
        """The steps down to this one, the deepest first."""
        if name not in self._order:
            self._order[name] = in_order(name, self.known)
        return self._order[name]


class _Same:
    """A hive that equals only itself, so that it is found again without reading its sizes."""

    def __init__(self, hive: Hive) -> None:
        self.hive = hive

    def __hash__(self) -> int:
        return id(self.hive)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and self.hive is other.hive


@lru_cache(maxsize=MOST_HIVES)
def _sheet(same: _Same) -> _Sheet:
    hive = same.hive
    return _sheet_of(hive.units, tuple(hive.measured.items()), tuple(hive.chosen.items()))


_Items: TypeAlias = tuple[tuple[str, Fraction], ...]


@lru_cache(maxsize=MOST_HIVES)
def _sheet_of(units: Units, measured: _Items, chosen: _Items) -> _Sheet:
    return _Sheet(Hive("", units, dict(measured), dict(chosen)))


def _sixteenths(value: Fraction) -> int:
    return 16 * value.numerator // value.denominator


# ── reading ───────────────────────────────────────────────────────────────────────────────────

_INSTEAD: Final = "; write it like "


def _read(answer: str, asked: Dimension, sheet: _Sheet) -> Fraction:
    """The value that an answer says; raises LengthError with one sentence for the learner."""
    if asked.kind == "ratio":
        return _ratio(answer)
    text = answer.strip()
    if sheet.values[asked.name] < 0 and text[:1] in {"-", "−"}:
        return -length_from_text(text[1:], sheet.units)
    return length_from_text(answer, sheet.units)


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
    value = length_from_text(text)
    if not text.rstrip()[-1].isdigit():
        raise LengthError(f"Cannot read “{text}” as a length: it has a unit{_INSTEAD}")
    return value


def _readable(earlier: Mapping[str, str | Fraction], asked: Dimension, sheet: _Sheet) -> Values:
    """The earlier answers that can be read and make sense as the size that they are for."""
    found: Values = {}
    for name, answer in earlier.items():
        before = COURSE.dimension(name)
        if before is asked or name not in sheet.values:
            continue
        try:
            value = answer if isinstance(answer, Fraction) else _read(answer, before, sheet)
        except LengthError:
            continue
        if is_sane(value, sheet.values[name]):
            found[name] = value
    return found


def is_sane(answer: Fraction, value: Fraction) -> bool:
    """Whether a wrong answer is near enough to its value to be carried on from.

    >>> [is_sane(Fraction(a), Fraction(14)) for a in (0, 3, 17, 1000)]
    [False, False, True, False]

    More than nothing; and between a quarter and four times the value, or within 4 in of it.
    Common practice, no published source.
    """
    near = abs(answer - value) <= 4  # noqa: PLR2004 - as the docstring says
    return answer > 0 and (near or value <= 4 * answer <= 16 * value)


# ── comparing ─────────────────────────────────────────────────────────────────────────────────

_MARKS: Final[tuple[Grid, ...]] = (SIXTEENTH, THIRTY_SECOND, SIXTY_FOURTH, MILLIMETRE)
_FARTHEST: Final = SIXTEENTH.step / 2 + HAIR


def is_right(answer: Fraction, value: Fraction, asked: Dimension) -> bool:
    """Whether an answer is the value, or the value rounded as the dimension's rule says.

    >>> panel = COURSE.dimension("bottom_board.panel_width")
    >>> [is_right(Fraction(a, 16), Fraction(14), panel) for a in (222, 223, 224, 225)]
    [False, True, True, False]

    In inches. Where the rule rounds down, up to 1/16 in under is right and over is not; where it
    rounds up, the other way round. Else the nearest 1/16, 1/32 or 1/64 in or mm is right, both of
    two that are as near. A hair of 0.005 in more never matters.
    """
    over = answer - value
    if asked.kind == "ratio":
        return abs(over) <= RATIO_PLACE
    if asked.rule.rounding is Rounding.DOWN:
        return -ALLOWED - HAIR <= over <= HAIR
    if asked.rule.rounding is Rounding.UP:
        return -HAIR <= over <= ALLOWED + HAIR
    return abs(over) <= HAIR or _is_nearest_mark(answer, value)


def _is_nearest_mark(answer: Fraction, value: Fraction) -> bool:
    """Whether an answer is a mark that lies nearest to the value, as it may be written."""
    if abs(answer - value) > _FARTHEST:
        return False
    near = ((rounded(answer, grid), grid.step) for grid in _MARKS)
    return any(abs(answer - m) <= HAIR and 2 * abs(m - value) <= step for m, step in near)


TENTH_OF_MM: Final = Fraction(1, 500)
"""Half of 0.1 mm, and a little more than half of a decimal's third place, in inches."""
SECOND_PLACE: Final = Fraction(1, 100)


def _stands_for(answer: Fraction, candidate: _Candidate, asked: Dimension) -> bool:
    """Whether an answer is a wrong value, written with the roundings that learners write."""
    value = candidate.value
    off = abs(answer - value)
    if off <= TENTH_OF_MM or asked.kind == "ratio":
        return off <= (RATIO_PLACE if asked.kind == "ratio" else TENTH_OF_MM)
    if off > ALLOWED:
        return False
    if candidate.wrong.slip.family == "writing":
        return off <= HAIR and (answer / SECOND_PLACE).denominator == 1
    nearest = _is_nearest_mark(answer, value)
    return nearest or answer == rounded(value, SIXTEENTH, asked.rule.rounding)


# ── form ──────────────────────────────────────────────────────────────────────────────────────

_INCH_MARK: Final = re.compile(r" *(inches|inch|in|[\"″”])\Z")
_METRIC: Final = re.compile(r"[0-9]*([.,][0-9]+)?( *mm)?")
_SINGLE_SIGN: Final = re.compile("([¼-¾⅐-⅞])")


def _is_list_form(answer: str, value: Fraction, asked: Dimension, units: Units) -> bool:
    """Whether an answer is written as on a cutting list: a mixed fraction in lowest terms, or mm.

    A fall for each inch stands on no cutting list, so every way to write it will do.
    """
    if asked.kind == "ratio":
        return True
    text = answer.strip().lstrip("-−")
    if units == "mm":
        return _METRIC.fullmatch(text) is not None
    bare = _SINGLE_SIGN.sub(r" \1", _INCH_MARK.sub("", text)).replace("-", " ")
    plain = " ".join(unicodedata.normalize("NFKC", bare).replace("⁄", "/").split())
    return plain == mixed(abs(value), SIXTY_FOURTH)


def _on_list(value: Fraction, asked: Dimension, units: Units) -> str:
    if asked.kind == "ratio":
        return decimal_inches(value).removeprefix("≈ ")
    return shown(value, units, rounding=asked.rule.rounding).removeprefix("≈ ")


# ── one case ──────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class _Case:
    """One answer to judge, with all that it is judged by."""

    sheet: _Sheet
    asked: Dimension
    answer: str
    value: Fraction
    earlier: Values

    @cached_property
    def truth(self) -> Fraction:
        return self.sheet.values[self.asked.name]

    def right(self) -> Verdict | None:
        """The verdict if the answer is the value or a rounding of it."""
        if not is_right(self.value, self.truth, self.asked):
            return None
        in_form = _is_list_form(self.answer, self.value, self.asked, self.sheet.units)
        on_list = self._listed(self.truth)
        judged: Judgement = "right" if in_form else "right_other_form"
        message = f"Right{self._closeness(self.truth)}."
        if not in_form:
            message += f" On a cutting list it is written {on_list}."
        return replace(self._verdict(judged, message, self.truth), on_list=on_list)

    def _listed(self, expected: Fraction) -> str:
        exact = abs(self.value - expected) <= HAIR
        return _on_list(expected if exact else self.value, self.asked, self.sheet.units)

    def _closeness(self, expected: Fraction) -> str:
        if abs(self.value - expected) <= HAIR:
            return ""
        if self.asked.rule.rounding is Rounding.NEAREST:
            return ", to the nearest mark"
        return f", and on the safe side: {self._reason()}"

    def _reason(self) -> str:
        reason = self.asked.rule.reason.rstrip(".")
        return reason[:1].lower() + reason[1:]

    def _side(self, expected: Fraction) -> bool | None:
        over = self.value - expected
        if abs(over) > 2 * ALLOWED:
            return None
        sides = {Rounding.DOWN: over <= HAIR, Rounding.UP: over >= -HAIR}
        return sides.get(self.asked.rule.rounding)

    # an earlier answer carried on

    def carried(self) -> Verdict | None:
        """The verdict if the answer is right for what the learner answered earlier."""
        for given, source in self._carries():
            expected = self.sheet.worked_on(self.asked.name, given)
            if expected and expected > 0 and is_right(self.value, expected, self.asked):
                return self._carried_verdict(source, expected)
        return None

    def _carries(self) -> Iterator[tuple[Values, str]]:
        """The earlier answers to go on from, all of them first, with the one to look at again."""
        right = {n: v for n, v in self.earlier.items() if self._was_right(n)}
        exact = {n: self.sheet.values[n] for n in right}
        rounded_ones = [n for n in self._order() if n in right and right[n] != exact[n]]
        wrong = [n for n in self._order(right) if n in self.earlier and n not in right]
        if wrong or rounded_ones:
            yield self.earlier, (wrong or rounded_ones[::-1])[0]
        for name in wrong if len(wrong) > 1 or rounded_ones else ():
            yield {**exact, name: self.earlier[name]}, name

    def _order(self, stops: Iterable[str] = ()) -> tuple[str, ...]:
        """The steps before this one, the deepest first; not what lies only behind the stops."""
        return in_order(self.asked.name, self.sheet.known.union(stops))[:-1] if self.earlier else ()

    def _was_right(self, name: str) -> bool:
        asked = COURSE.dimensions[name]
        return is_right(self.earlier[name], self.sheet.values[name], asked)

    def _carried_verdict(self, source: str, expected: Fraction) -> Verdict:
        name = title(source)
        message = f"Right, worked on from your {name}{self._closeness(expected)}."
        question = ""
        if self._was_right(source):
            message += f" You rounded the {name}, so this one comes out a hair different."
        else:
            message += f" That {name} is what to look at again."
            question = _first_question(COURSE.dimensions[source])
        return replace(
            self._verdict("right_carried", message, expected),
            question=question,
            on_list=self._listed(expected),
            first_difference=source,
            carried_from=source,
        )

    # a slip

    def slip(self) -> Verdict | None:
        """The verdict if named slips give the answer, at most three of them."""
        found = self._named(self._matches()) or self._named(self._carried_matches())
        if not found:
            return None
        return replace(
            self._verdict("slip", _slip_message(found) + self._unsafe(), self.truth),
            question=found[0].question,
            slips=found,
            tells_apart=_tells_apart(found),
            first_difference=found[0].step,
        )

    def _matches(self) -> Iterator[_Candidate]:
        """The slips that give the answer, those left out that an earlier answer speaks against."""
        table, near = self.sheet.table(self.asked.name), _sixteenths(self.value)
        for mark in (near - 1, near, near + 1):
            for candidate in table.get(mark, ()):
                if _stands_for(self.value, candidate, self.asked) and self._may_be(candidate):
                    yield candidate

    def _may_be(self, candidate: _Candidate) -> bool:
        step = candidate.wrong.step
        if candidate.steps_back == 0 or step not in self.earlier:
            return True
        there = _Candidate(candidate.wrong, candidate.wrong.value, 0)
        return _stands_for(self.earlier[step], there, COURSE.dimensions[step])

    def _carried_matches(self) -> Iterator[_Candidate]:
        """The slips at this step that give the answer when it is worked on from earlier ones."""
        given, _ = next(self._carries(), (None, ""))
        names = (*self.asked.inputs, self.asked.name)
        worked = {n: self.sheet.worked_on(n, given) for n in names} if given else {}
        sizes = {n: v for n, v in worked.items() if v is not None}
        if len(sizes) < len(set(names)):
            return
        for wrong in at_step(self.asked, {**self.sheet.values, **sizes}, self.sheet.units):
            candidate = _Candidate(wrong, wrong.value, 0)
            if _stands_for(self.value, candidate, self.asked):
                yield candidate

    def _named(self, matches: Iterable[_Candidate]) -> tuple[NamedSlip, ...]:
        """At most three slips, each name once: those of most weight, the likeliest way first."""
        by_name: dict[str, list[_Candidate]] = {}
        for candidate in matches:
            by_name.setdefault(candidate.wrong.slip.name, []).append(candidate)
        weights = {n: [_likelihood(c, self.value) for c in same] for n, same in by_name.items()}
        chosen = sorted(by_name, key=lambda n: (-sum(weights[n]), n))[:MOST_SLIPS]
        chosen.sort(key=lambda n: -max(weights[n]))
        return tuple(self._named_slip(by_name[n]) for n in chosen)

    def _named_slip(self, same: list[_Candidate]) -> NamedSlip:
        first = min(same, key=lambda c: c.steps_back)
        wrong = first.wrong
        where = f", at the {title(wrong.step)}, " if first.steps_back else " "
        gives = dict.fromkeys(c.wrong.gives for c in same if c.wrong.step == wrong.step)
        return NamedSlip(
            wrong.slip.name,
            wrong.slip.family,
            wrong.step,
            f"This is what you would get if{where}{', or if '.join(gives)}.",
            wrong.question,
            wrong.slip.practice,
            f"{title(wrong.step)}: {wrong.working}",
        )

    # nothing known

    def unexplained(self) -> Verdict:
        """The verdict where no known slip gives the answer: the first step to look at."""
        order = self.sheet.order(self.asked.name)
        first = next((n for n in order if not self._is_answered_rightly(n)), self.asked.name)
        message = "This is not the value expected, and no known slip gives it."
        return replace(
            self._verdict("unexplained", message + self._unsafe(), self.truth),
            question=_first_question(COURSE.dimensions[first]),
            first_difference=first,
        )

    def _is_answered_rightly(self, name: str) -> bool:
        return name in self.earlier and self._was_right(name)

    def _unsafe(self) -> str:
        """What to know about rounding when an answer is just over on the wrong side."""
        unsafe = self._side(self.truth) is False
        return f" Mind the side: {self._reason()}." if unsafe else ""

    def _verdict(self, judged: Judgement, message: str, expected: Fraction) -> Verdict:
        return Verdict(
            self.asked.name,
            self.answer,
            judged,
            message,
            value=self.value,
            safe=self._side(expected),
        )


def _likelihood(candidate: _Candidate, answer: Fraction) -> int:
    """How a slip ranks: the commoner before the rarer, here before a step back, exact first."""
    nearness = 1 << (STEPS_BACK - candidate.steps_back)
    exactness = 2 if answer == candidate.value else 1
    return candidate.wrong.slip.weight * nearness * exactness


def _slip_message(found: tuple[NamedSlip, ...]) -> str:
    first, *others = (slip.sentence for slip in found)
    return first + "".join(f" Or{s.removeprefix('This is what you would get')}" for s in others)


def _tells_apart(found: tuple[NamedSlip, ...]) -> str:
    lines = list(dict.fromkeys(f"“{slip.working}”" for slip in found))
    if len(lines) == 1:
        return ""
    return f"Your own working tells which: is there a line like {' or '.join(lines)}?"


def _first_question(first: Dimension) -> str:
    name = title(first.name)
    if len(first.inputs) == 1:
        return f"Begin with the {name}: which one size gives it?"
    return (
        f"Begin with the {name}: which sizes make it, which are added and which taken off, and "
        "does any of them count twice?"
    )
