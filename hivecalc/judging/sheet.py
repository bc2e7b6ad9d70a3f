"""Everything of one hive that judging looks up: values, wrong answers, the order of work.

No slip says what a learner thought; it says what would give this value.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache, partial
from typing import Final, TypeAlias

from hivecalc.components import COURSE, values
from hivecalc.derivation import Dimension, Values, on_hive
from hivecalc.fit import GRID_OF, is_allowed, is_cut, mark
from hivecalc.hive import Hive
from hivecalc.judging import rule, rule_slips, sums, tape, writing
from hivecalc.judging.answer import GRIDS, HAIR, is_right, list_grid, roundings
from hivecalc.judging.arithmetic import before, dimension_in, has_choice, in_order, worked_on
from hivecalc.judging.slip import Slip, Wrong
from hivecalc.judging.verdicts import Verdict
from hivecalc.length import Units, rounded

SLIPS: Final[dict[str, Slip]] = {
    slip.name: slip for slip in (*rule_slips.SLIPS, *sums.SLIPS, *tape.SLIPS, *writing.SLIPS)
}
STEPS_BACK: Final = 2
MOST_REMEMBERED: Final = 4096
MOST_HIVES: Final = 64
"""How many hives are looked up and not worked out again; one takes at most about 1.5 MB."""


def wrong_answers(
    hive: Hive, dimension: str, given: Mapping[str, Fraction] | None = None
) -> tuple[Wrong, ...]:
    """Wrong answers for a dimension of this hive, each with the slip at this step that gives it.

    >>> from hivecalc.hive import demo_hive
    >>> found = wrong_answers(demo_hive(), "bottom_board.front_rail_length")
    >>> [w.working for w in found if w.slip.name == "thickness_once"]
    ['17 3/8 − 1 1/2 = 15 7/8']

    None equals the right value, and none is below zero, as no size is. Lengths are in inches.
    given replaces other dimensions by values. Raises UnknownNameError.
    """
    found = values(hive, given)
    measured = dimension in hive.measurements
    return at_step(dimension_in(found, dimension), found, hive.units, measured=measured)


def at_step(
    dimension: Dimension, found: Values, units: Units, *, measured: bool = False
) -> tuple[Wrong, ...]:
    """The same, for values that are worked out already; a tape is read only where one measures."""
    dimension, value = on_hive(dimension, found), found[dimension.name]
    wrong = [*writing.wrong_answers(dimension, value, units)]
    if measured:
        wrong += tape.readings(value, units, dimension.name)
    else:
        wrong += rule.wrong_answers(dimension, found, units)
        wrong += sums.wrong_answers(dimension, found, units)
    return tuple(w for w in wrong if w.value != value and w.value > 0)


@dataclass(frozen=True)
class Candidate:
    """A wrong answer of this dimension: the slip that gives it, and how many steps back."""

    wrong: Wrong
    value: Fraction
    steps_back: int


_Table: TypeAlias = dict[int, list[Candidate]]


class Sheet:
    """Everything of one hive that judging looks up: values, wrong answers, order of work."""

    def __init__(self, hive: Hive) -> None:
        self.hive = hive
        self.units: Units = hive.units
        self.values = values(hive)
        self.known = frozenset(hive.measurements)
        self._own: dict[str, tuple[Wrong, ...]] = {}
        self._tables: dict[str, _Table] = {}
        self._order: dict[str, tuple[str, ...]] = {}
        self._judged: dict[tuple[str, str], Verdict] = {}
        self._instead: dict[str, frozenset[Fraction]] = {}

    def remembered(self, name: str, answer: str, judge: Callable[[], Verdict]) -> Verdict:
        """The verdict on an answer that no earlier one bears on; a class gives the same often."""
        if (name, answer) not in self._judged:
            if len(self._judged) >= MOST_REMEMBERED:
                self._judged.clear()
            self._judged[name, answer] = judge()
        return self._judged[name, answer]

    def is_right(self, name: str, answer: Fraction) -> bool:
        """Whether an answer is a dimension's value on this hive, or what may be cut instead."""
        asked = COURSE.dimensions[name]
        return is_right(answer, self.values[name], asked, partial(self._may_be_cut, name))

    def mark(self, name: str) -> Fraction:
        """What a cutting list of this hive has for a dimension."""
        value, asked = self.values[name], COURSE.dimensions[name]
        return mark(self.hive, name, list_grid(value, asked, self.units))

    def _may_be_cut(self, name: str) -> frozenset[Fraction]:
        """The marks that no rule of fit minds; of two that are as near, both if none minds them."""
        if name not in self._instead:
            value, rounding = self.values[name], COURSE.dimensions[name].rule.rounding
            marks = {mark(self.hive, name, grid) for grid in GRIDS}
            if further := roundings(value, rounding) - marks - {value}:
                marks |= {m for m in further if is_cut(name) and is_allowed(self.hive, name, m)}
            self._instead[name] = frozenset(m for m in marks if not self._too_far(m, value))
        return self._instead[name]

    def _too_far(self, mark: Fraction, value: Fraction) -> bool:
        """Whether a mark looks like one of the hive's own grid that is a whole step off a value."""
        own = GRID_OF[self.units]
        like = rounded(mark, own)
        return abs(like - mark) <= HAIR and abs(like - value) >= own.step

    def own(self, name: str) -> tuple[Wrong, ...]:
        """The wrong answers of slips at this very step; none that would be judged right."""
        if name not in self._own:
            asked = COURSE.dimensions[name]
            wrong = at_step(asked, self.values, self.units, measured=name in self.known)
            self._own[name] = tuple(w for w in wrong if not self.is_right(name, w.value))
        return self._own[name]

    def near(self, name: str, answer: Fraction) -> Iterator[Candidate]:
        """The wrong answers of slips, here and just before, within 1/16 in of an answer."""
        table, here = self._table(name), _sixteenths(answer)
        return (c for mark in (here - 1, here, here + 1) for c in table.get(mark, ()))

    def _table(self, name: str) -> _Table:
        """The wrong answers of slips at this step and at those just before it, by sixteenths."""
        if name not in self._tables:
            table: _Table = {}
            for candidate in self._candidates(name):
                table.setdefault(_sixteenths(candidate.value), []).append(candidate)
            self._tables[name] = table
        return self._tables[name]

    def _candidates(self, name: str) -> Iterator[Candidate]:
        yield from (Candidate(w, w.value, 0) for w in self.own(name))
        for step, back in self.before(name, STEPS_BACK).items():
            for wrong in self.own(step):
                carried = self._carried(name, step, wrong)
                if carried and carried > 0 and not self.is_right(name, carried):
                    yield Candidate(wrong, carried, back)

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

    def worked_from(self, asked: Dimension, given: Mapping[str, Fraction]) -> Iterator[Fraction]:
        """What a dimension comes to from other values before it: all anew, or its own step only.

        The two differ where a value reaches it by two ways, and one of them was worked out rightly.
        """
        anew = self.worked_on(asked.name, given)
        if anew is not None:
            yield anew
        if asked.name not in self.known and not given.keys().isdisjoint(asked.inputs):
            known = {n: self.values[n] for n in asked.inputs if n not in given}
            step = self.worked_on(asked.name, {**given, **known})
            if step is not None:
                yield step

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


def sheet(hive: Hive) -> Sheet:
    """The sheet of a hive, made once; a hive of the same sizes has the same.

    >>> from hivecalc.hive import demo_hive
    >>> sheet(demo_hive()) is sheet(demo_hive())
    True
    """
    return _sheet(_Same(hive))


@lru_cache(maxsize=MOST_HIVES)
def _sheet(same: _Same) -> Sheet:
    hive = same.hive
    return _sheet_of(hive.units, tuple(hive.measured.items()), tuple(hive.chosen.items()))


_Items: TypeAlias = tuple[tuple[str, Fraction], ...]


@lru_cache(maxsize=MOST_HIVES)
def _sheet_of(units: Units, measured: _Items, chosen: _Items) -> Sheet:
    return Sheet(Hive("", units, dict(measured), dict(chosen)))


def _sixteenths(value: Fraction) -> int:
    return 16 * value.numerator // value.denominator
