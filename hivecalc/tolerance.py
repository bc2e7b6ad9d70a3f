"""How errors of tape and saw add up: worst case, root-sum-square, and hives made by chance.

A fit rule rests on sizes that were measured or cut, and each of them is off by a little. How much
of that reaches the rule comes from the rule's own arithmetic. The method, a gap as a sum of sizes
each with its own factor, is that of F. Scholz, Tolerance Stack Analysis Methods (1995).
"""

import ast
import itertools
import math
import operator
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Final, Generic, TypeAlias, TypeVar

from hivecalc.components import COURSE, MODULES, built
from hivecalc.derivation import Kind, UnknownNameError, kind_of, nearest_names, number, title
from hivecalc.fit import FIGURES, FIT, RULES, Level, Rule
from hivecalc.hive import MEASUREMENTS, Fault, Hive, HiveFaults
from hivecalc.length import Length, Units, written

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats: TypeAlias = NDArray[np.float64]

N = TypeVar("N")

# ── how far off a size may be ─────────────────────────────────────────────────────────────────

STOP_BLOCK: Final = Fraction(1, 32)
"""A cut against a stop block or a rip fence, more or less; common practice, no published source."""
HAND_MARK: Final = Fraction(1, 16)
"""A cut to a pencil line, or the line, more or less; common practice, no published source."""
READING: Final = Fraction(1, 32)
"""A reading of a tape in sixteenths, more or less; common practice, no published source."""
GAUGED: Final = Fraction(1, 256)
"""A wire or sheet that is too thin for a tape, gauged; common practice, no published source."""
THIN: Final = Fraction(1, 8)
LARGEST: Final = Fraction(1)
MARKED: Final = frozenset({"roof.deck_screw_line", "roof.cover_screw_line"})
"""Lines drawn by hand on a piece: once drawn they stay where they are, as a cut does."""
SEED: Final = 1
HIVES: Final = 10_000
MOST_HIVES: Final = 1_000_000
SIGMAS: Final = 3
"""A tolerance is taken as this many standard deviations, and errors are cut off there."""
HAIR: Final = 1e-9  # inches: what floating numbers may add to a value that lies on its limit
INSIDE: Final = 0.9973  # share of a bell curve within three standard deviations


@dataclass(frozen=True, kw_only=True)
class Deviation:
    """By how much one size may be off, more or less, and why so much.

    Sizes with the same `group` are off together, by one and the same error: one setting of the stop
    block, one misread tape. Of `pieces` separate pieces each is off by itself.
    """

    name: str
    tolerance: Length
    reason: str = ""
    group: str = ""
    pieces: int = 1


@dataclass(frozen=True, kw_only=True)
class Contributor(Deviation):
    """One size that a gap rests on: how far off it may be, and what that does to the gap.

    `sensitivity` is by how much the gap changes for each inch that the size changes. `share` is
    what part of the spread comes from it, by root-sum-square; all shares together make 1.

    >>> rails = Contributor(name="rail", tolerance=Fraction(1, 32), sensitivity=Fraction(-2))
    >>> rails.reach
    Fraction(-1, 16)
    """

    sensitivity: Fraction = Fraction(1)
    share: float = 0.0

    @property
    def reach(self) -> Fraction:
        """By how much the gap changes when this size is off by its tolerance."""
        return self.sensitivity * self.tolerance

    @property
    def title(self) -> str:
        """The name of the size in plain words."""
        return title(self.name)


@dataclass(frozen=True, kw_only=True)
class Care:
    """How carefully somebody measures and cuts: every tolerance, more or less, in inches.

    `own` gives a size its own tolerance. `together` names sizes that share one error. `apart` says
    of how many pieces a size consists that are off each by itself: three strips of the screen, each
    ripped at its own setting of the fence.

    >>> Care(cut=HAND_MARK).cut
    Fraction(1, 16)
    >>> Care(own={"stud_thickness": Fraction(2)})  # doctest: +IGNORE_EXCEPTION_DETAIL
    Traceback (most recent call last):
    HiveFaults: tolerance of stud_thickness: 2 in; 0 to 1 in is accepted.

    A `mark` is a line drawn by hand, such as the screw line. Raises HiveFaults with every fault at
    once.
    """

    cut: Length = STOP_BLOCK
    mark: Length = HAND_MARK
    reading: Length = READING
    own: Mapping[str, Length] = field(default_factory=dict)
    together: Sequence[Sequence[str]] = ()
    apart: Mapping[str, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Refuse what no tolerance is."""
        faults = [*self._faults()]
        if faults:
            raise HiveFaults(faults)

    def _faults(self) -> Iterator[Fault]:
        usual = {"a cut": self.cut, "a mark": self.mark, "a reading": self.reading}
        for name, value in {**usual, **self.own}.items():
            if not 0 <= value <= LARGEST:
                accepted = "0 to 1 in is accepted"
                yield Fault(f"tolerance of {name}", f"{written(value)} in", accepted)
        grouped = [*itertools.chain(*self.together)]
        for name in {*self.own, *grouped, *self.apart}:
            if name not in FIT.dimensions and name not in MEASUREMENTS:
                yield _unknown_size(name)
            if grouped.count(name) + (name in self.apart) > 1:
                yield Fault(f"tolerance of {name}", "it is in two groups", "put it in one")
        for name, pieces in self.apart.items():
            if pieces < 1:
                yield Fault(f"pieces of {name}", str(pieces), "1 or more is accepted")

    def deviation(self, name: str, value: Fraction, *, read: bool) -> Deviation:
        """By how much this size may be off: its own tolerance, that of a reading, or of a cut."""
        tolerance, reason = self._tolerance(name, value, read=read)
        group = next((f"together {i + 1}" for i, g in enumerate(self.together) if name in g), "")
        pieces = self.apart.get(name, 1)
        return Deviation(name=name, tolerance=tolerance, reason=reason, group=group, pieces=pieces)

    def _tolerance(self, name: str, value: Fraction, *, read: bool) -> tuple[Length, str]:
        if name in self.own:
            return self.own[name], "as you set it"
        if name in MARKED and not read:
            return self.mark, "as you draw a line by hand"
        if not read:
            return self.cut, "as you cut"
        if value < THIN:
            return min(self.reading, GAUGED), "too thin for a tape, so gauged"
        return self.reading, "as you read the tape"


def _unknown_size(name: str) -> Fault:
    near = nearest_names(name, [*MEASUREMENTS, *FIT.dimensions])
    accepted = f"the nearest are {', '.join(near)}" if near else "take one from the parts table"
    return Fault(f"tolerance of {name[:60]!a}", "there is no size of this name", accepted)


USUAL: Final = Care()

# ── adding up ─────────────────────────────────────────────────────────────────────────────────


def worst_case(contributors: Iterable[Contributor]) -> Length:
    """How far a gap is off, more or less, when all its sizes are off the worst way at once.

    >>> sizes = [Contributor(name=n, tolerance=Fraction(1, b)) for n, b in zip("abc", (32, 32, 64))]
    >>> worst_case(sizes)
    Fraction(5, 64)

    In inches: the sum of |sensitivity x tolerance|, those of one group first put together.
    """
    return sum((abs(reach) for reach, _ in _reaches(contributors)), Fraction(0))


def root_sum_square(contributors: Iterable[Contributor]) -> float:
    """How far a gap is off, more or less, when errors come by chance and partly cancel.

    >>> sizes = [Contributor(name=n, tolerance=Fraction(1, b)) for n, b in zip("abc", (32, 32, 64))]
    >>> root_sum_square(sizes) == 3 / 64
    True

    In inches: the root of the sum of (sensitivity x tolerance) squared. It takes errors that are
    as often above as below, each by itself but for the groups.
    """
    return math.sqrt(_square(contributors))


def _square(contributors: Iterable[Contributor]) -> Fraction:
    squares = (reach * reach / pieces for reach, pieces in _reaches(contributors))
    return sum(squares, Fraction(0))


def _reaches(contributors: Iterable[Contributor]) -> list[tuple[Fraction, int]]:
    """What each separate error does to the gap, and of how many pieces it is made."""
    alone, groups = [], dict[str, Fraction]()
    for one in contributors:
        if one.group:
            groups[one.group] = groups.get(one.group, Fraction(0)) + one.reach
        else:
            alone.append((one.reach, one.pieces))
    return alone + [(reach, 1) for reach in groups.values()]


def ranked(contributors: Sequence[Contributor]) -> tuple[Contributor, ...]:
    """The same sizes with their shares of the spread, the largest share first.

    >>> sizes = [Contributor(name=n, tolerance=Fraction(1, b)) for n, b in zip("abc", (64, 32, 32))]
    >>> [(c.name, round(c.share, 2)) for c in ranked(sizes)]
    [('b', 0.44), ('c', 0.44), ('a', 0.11)]

    A share below 0 is that of a size that takes back what others of its group do.
    """
    total = _square(contributors)
    shared = [replace(c, share=_share(c, contributors, total)) for c in contributors]
    return tuple(sorted(shared, key=lambda c: -c.share))


def _share(one: Contributor, contributors: Iterable[Contributor], total: Fraction) -> float:
    if not total:
        return 0.0
    group = [c for c in contributors if c.group == one.group] if one.group else [one]
    return float(one.reach * sum(c.reach for c in group) / one.pieces / total)


# ── made by chance ────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Simulation:
    """What came out of hives made by chance: how many fail, and how far the gap went.

    The same seed makes the same hives. `low` and `high` hold the gap of all hives but 27 in 10,000.
    """

    hives: int
    seed: int
    failing: int
    low: float
    high: float

    @property
    def share(self) -> float:
        """The share of hives that fail, from 0 to 1."""
        return self.failing / self.hives


def simulated(  # noqa: PLR0913 - a gap, its limits, and how it is tried
    contributors: Sequence[Contributor],
    middle: Length,
    low: Length | None,
    high: Length | None,
    *,
    seed: int = SEED,
    hives: int = HIVES,
) -> Simulation:
    """What comes out of hives made by chance, for a gap that is a sum of sizes.

    >>> lid = Contributor(name="lid", tolerance=Fraction(1, 16), sensitivity=Fraction(-1))
    >>> simulated([lid], Fraction(1, 8), Fraction(1, 16), None).failing
    0

    Each error is normal, its tolerance three standard deviations, and cut off there, since a piece
    that is off by more is seen and not used. Lengths are in inches. Raises HiveFaults for a number
    of hives that is not from 1 to 1,000,000.
    """
    errors = _drawn(contributors, seed, hives)
    gap = float(middle) + sum(float(c.sensitivity) * errors[c.name] for c in contributors)
    return _counted(gap, low, high, seed, hives)


def _drawn(errors: Iterable[Deviation], seed: int, hives: int) -> "dict[str, Floats]":
    """By how much each size is off in each hive."""
    import numpy as np  # noqa: PLC0415 - loaded only where hives are simulated

    if not 1 <= hives <= MOST_HIVES:
        raise HiveFaults([Fault("hives to simulate", str(hives), "1 to 1,000,000 is accepted")])
    source = np.random.default_rng(seed)
    bells: dict[tuple[str, str], Floats] = {}
    found: dict[str, Floats] = {}
    for error in errors:
        key = (error.group, "" if error.group else error.name)
        if key not in bells:
            bells[key] = _bell(source, error.pieces, hives)
        found[error.name] = float(error.tolerance) / SIGMAS * bells[key]
    return found


def _bell(source: "np.random.Generator", pieces: int, hives: int) -> "Floats":
    """The mean error of some pieces in each hive, in standard deviations of one."""
    drawn = source.standard_normal((pieces, hives))
    far = abs(drawn) > SIGMAS
    while far.any():
        drawn[far] = source.standard_normal(int(far.sum()))
        far = abs(drawn) > SIGMAS
    mean: Floats = drawn.mean(axis=0)
    return mean


def _counted(
    gap: "Floats | float", low: Fraction | None, high: Fraction | None, seed: int, hives: int
) -> Simulation:
    import numpy as np  # noqa: PLC0415 - loaded only where hives are simulated

    gaps = np.broadcast_to(gap, (hives,))
    ends = np.quantile(gaps, [(1 - INSIDE) / 2, (1 + INSIDE) / 2])
    failing = int(_outside(gaps, low, high).sum())
    return Simulation(hives, seed, failing, float(ends[0]), float(ends[1]))


def _outside(gaps: "Floats", low: Fraction | None, high: Fraction | None) -> "NDArray[np.bool_]":
    least = -math.inf if low is None else float(low) - HAIR
    most = math.inf if high is None else float(high) + HAIR
    return (gaps < least) | (gaps > most)


# ── a rule's own arithmetic ───────────────────────────────────────────────────────────────────

_OPERATORS: Final[dict[type[ast.operator], Callable[[Any, Any], Any]]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}
Choose: TypeAlias = Callable[[ast.Call, Sequence[N]], N]


@dataclass(frozen=True)
class _Arithmetic(Generic[N]):
    """The sums behind a rule, done with any sort of number; `choose` decides larger or smaller."""

    choose: Choose[N]

    def value(self, name: str, found: dict[str, N]) -> N:
        """The value of a dimension or rule; what it needs on the way is added to `found`."""
        if name not in found:
            d = FIT.dimension(name)
            numbers = {p: self.value(i, found) for p, i in zip(d.parameters, d.inputs, strict=True)}
            found[name] = self._computed(d.expression, numbers)
        return found[name]

    def _computed(self, expression: ast.expr, numbers: Mapping[str, N]) -> N:
        if isinstance(expression, ast.Name):
            return numbers[expression.id]
        if isinstance(expression, ast.Call):
            return self.choose(expression, [self._computed(a, numbers) for a in expression.args])
        if isinstance(expression, ast.BinOp):
            sides = [self._computed(e, numbers) for e in (expression.left, expression.right)]
            value: N = _OPERATORS[type(expression.op)](*sides)
            return value
        constant: N = ast.literal_eval(expression)
        return constant


def _true_choice(call: ast.Call, numbers: Sequence[Fraction]) -> Fraction:
    return max(numbers) if ast.unparse(call.func) == "max" else min(numbers)


def _true_choices(call: ast.Call, numbers: "Sequence[Floats]") -> "Floats":
    import numpy as np  # noqa: PLC0415 - loaded only where hives are simulated

    smaller = ast.unparse(call.func) == "min"
    chosen: Floats = (np.minimum if smaller else np.maximum).reduce(np.broadcast_arrays(*numbers))
    return chosen


def rule_value(rule: str, sizes: Mapping[str, Fraction]) -> Fraction:
    """What a rule finds for these sizes, exactly.

    >>> rule_value("roof.skirt_lap", {"skirt_width": Fraction(2), "rim_low_height": Fraction(3, 2)})
    Fraction(1, 2)

    `sizes` needs at least what the rule rests on. Raises UnknownNameError for a rule that there
    isn't.
    """
    return _Arithmetic(_true_choice).value(rule, dict(sizes))


# ── what a rule rests on ──────────────────────────────────────────────────────────────────────


def _same_sizes(name: str) -> Iterator[str]:
    """The names that a piece's size has: its own, and those of the sizes that it only repeats."""
    while name in COURSE.dimensions:
        yield name
        dimension = COURSE.dimension(name)
        if not isinstance(dimension.expression, ast.Name):
            return
        name = dimension.inputs[0]
    yield name


PIECE_SIZES: Final[Mapping[str, tuple[str, ...]]] = {
    f"{component}.{part.name}_{size}": tuple(_same_sizes(f"{component}.{part.name}_{size}"))
    for component, module in MODULES.items()
    for part in module.PARTS
    for size, _ in part.sizes()
}
"""Each size of each piece by its full name, and all the names that stand for this size."""
_CUT: Final = frozenset(itertools.chain(*PIECE_SIZES.values()))


def sizes_of(hive: Hive, given: Mapping[str, Fraction] | None = None) -> dict[str, Fraction]:
    """Every value that the rules on this hive need, by full name, figures of the stock as well.

    >>> from hivecalc.hive import demo_hive
    >>> sizes_of(demo_hive())["bottom_board.panel_length"]
    Fraction(159, 8)

    `given` replaces any of them. Raises UnknownNameError for a name that there isn't.
    """
    for name in given or {}:
        if name not in FIT.dimensions and name not in MEASUREMENTS:
            raise UnknownNameError(name, [*MEASUREMENTS, *FIT.dimensions])
    return FIT.values(hive.measurements, given, built(hive))


def rules_of(hive: Hive) -> dict[str, Rule]:
    """The rules that apply to what is built of this hive, by name.

    >>> from hivecalc.hive import demo_hive
    >>> {name.partition(".")[0] for name in rules_of(demo_hive())} == set(built(demo_hive()))
    True
    """
    components = built(hive)
    return {name: rule for name, rule in RULES.items() if rule.applies(components)}


@lru_cache(maxsize=1024)
def resting_sizes(rule: str, known: frozenset[str]) -> tuple[str, ...]:
    """The sizes that a rule rests on where these measurements and values are known.

    >>> resting_sizes("roof.skirt_lap", frozenset({"skirt_width", "rim_low_height"}))
    ('skirt_width', 'rim_low_height')

    Where the arithmetic comes to the size of a piece it stops: once cut, a piece stays as it is.
    """
    return FIT.rests_on(rule, known | _CUT | MARKED | FIGURES.keys())


def rests_on(hive: Hive, rule: str, given: Mapping[str, Fraction] | None = None) -> tuple[str, ...]:
    """The sizes measured, cut, chosen or bought that a rule rests on.

    >>> from hivecalc.hive import demo_hive
    >>> rests_on(demo_hive(), "bottom_board.panel_play_along")
    ('hive_length', 'stud_thickness', 'bottom_board.panel_length')

    Raises UnknownNameError for a rule that there isn't for this hive.
    """
    asked = rules_of(hive)
    if rule not in asked:
        raise UnknownNameError(rule, asked, "rule for this hive")
    return resting_sizes(rule, _known(hive, given))


def _known(hive: Hive, given: Mapping[str, Fraction] | None) -> frozenset[str]:
    return frozenset({*hive.measurements, *(given or {})})


@dataclass(frozen=True)
class _Sheet:
    """What is known of a hive, of how it is made, and so how far off each of its sizes may be."""

    hive: Hive
    care: Care
    given: Mapping[str, Fraction]
    values: Mapping[str, Fraction]

    def sizes(self, rule: str) -> dict[str, Fraction]:
        """The sizes that a rule rests on."""
        known = _known(self.hive, self.given)
        return {n: self.values[n] for n in resting_sizes(rule, known)}

    def deviations(self, names: Iterable[str]) -> list[Deviation]:
        """The errors of those sizes that somebody reads or cuts; what is bought has none."""
        lengths = (n for n in names if n not in FIGURES)
        return [
            self.care.deviation(n, self.values[n], read=self._read(n))
            for n in lengths
            if kind_of(n, FIT.dimensions) == "length"
        ]

    def _read(self, name: str) -> bool:
        """Whether a size comes off a tape: it was measured on the stock, the hive or a piece."""
        known = MEASUREMENTS.get(name)
        measured = known is not None and known.group == "measured"
        return name in self.given or (measured and name in self.hive.measurements)


def _sheet(hive: Hive, care: Care, given: Mapping[str, Fraction] | None) -> _Sheet:
    return _Sheet(hive, care, given or {}, sizes_of(hive, given))


# ── the stack of a rule ───────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Stack:
    """How far the value of a rule may go, three ways, beside the limits of the rule.

    Worst: everything off the worst way at once. Root-sum-square: by chance, partly cancelling.
    Simulation: hives made by chance, with the share that fails. The contributors stand with the
    largest share first. Lengths are in inches; a ratio is a number.
    """

    rule: str
    level: Level
    kind: Kind
    value: Fraction
    low: Fraction | None
    high: Fraction | None
    contributors: tuple[Contributor, ...]
    worst_low: Fraction
    worst_high: Fraction
    rss_low: float
    rss_high: float
    simulation: Simulation

    @property
    def holds_at_worst(self) -> bool:
        """Whether the rule holds however the errors fall."""
        return self._within(self.worst_low, self.worst_high)

    @property
    def holds_by_chance(self) -> bool:
        """Whether the rule holds within root-sum-square, in all hives but about 27 in 10,000."""
        return self._within(self.rss_low + HAIR, self.rss_high - HAIR)

    def _within(self, least: float | Fraction, most: float | Fraction) -> bool:
        return (self.low is None or least >= self.low) and (self.high is None or most <= self.high)

    def sentences(self, units: Units = "inch") -> tuple[str, str, str]:
        r"""What the three ways find, in a plain sentence each.

        >>> from hivecalc.hive import demo_hive
        >>> print("\n".join(stack(demo_hive(), "bottom_board.panel_play_along").sentences()))
        Everything off the worst way at once: 1/8 in to 3/8 in, and the rule holds.
        Off by chance (root-sum-square): ≈ 11/64 in to ≈ 21/64 in, and the rule holds.
        10,000 hives made by chance (seed 1): 0 fail, 0 in 100.
        """
        worst = self._span(self.worst_low, self.worst_high, units)
        chance = self._span(Fraction(self.rss_low), Fraction(self.rss_high), units)
        tried = self.simulation
        percent = f"{100 * tried.share:.2f}".rstrip("0").rstrip(".")
        made = f"{tried.hives:,} hives made by chance (seed {tried.seed})"
        return (
            f"Everything off the worst way at once: {worst}, {_held(self.holds_at_worst)}.",
            f"Off by chance (root-sum-square): {chance}, {_held(self.holds_by_chance)}.",
            f"{made}: {tried.failing:,} fail, {percent} in 100.",
        )

    def _span(self, least: Fraction, most: Fraction, units: Units) -> str:
        unit = "" if self.kind == "ratio" else " mm" if units == "mm" else " in"
        return " to ".join(f"{number(v, self.kind, units)}{unit}" for v in (least, most))


def _held(holds: bool) -> str:  # noqa: FBT001 - a word for yes or no
    return "and the rule holds" if holds else "and the rule fails"


def stack(  # noqa: PLR0913 - a rule of a hive, how it is made, and how it is tried
    hive: Hive,
    rule: str,
    care: Care = USUAL,
    given: Mapping[str, Fraction] | None = None,
    *,
    seed: int = SEED,
    hives: int = HIVES,
) -> Stack:
    """How far a rule may go on this hive when it is measured and cut with this care.

    >>> from hivecalc.hive import demo_hive
    >>> found = stack(demo_hive(), "bottom_board.room_above_stack")
    >>> found.holds_at_worst, found.holds_by_chance, found.contributors[0].name
    (False, False, 'strip_narrow')

    `given` replaces sizes by values as measured on the pieces. Where the smaller or larger of two
    decides the rule, the contributors and root-sum-square are those of the one that comes nearest
    to failing. Raises UnknownNameError for a rule that there isn't.
    """
    sheet = _sheet(hive, care, given)
    sizes = {n: sheet.values[n] for n in rests_on(hive, rule, given)}
    asked = RULES[rule]
    deviations = sheet.deviations(sizes)
    branches = _branches(rule, sizes, deviations)
    least, most = _worst(rule, branches, sizes)
    deciding = _deciding(branches, asked, least, most)
    chance = root_sum_square(deciding.contributors)
    gaps = _gaps(rule, sizes, _drawn(deviations, seed, hives))
    return Stack(
        rule=rule,
        level=asked.level,
        kind=FIT.dimension(rule).kind,
        value=rule_value(rule, sizes),
        low=asked.low,
        high=asked.high,
        contributors=ranked([c for c in deciding.contributors if c.reach]),
        worst_low=least,
        worst_high=most,
        rss_low=max(float(deciding.middle) - chance, float(least)),
        rss_high=min(float(deciding.middle) + chance, float(most)),
        simulation=_counted(gaps, asked.low, asked.high, seed, hives),
    )


@dataclass(frozen=True)
class _Branch:
    """A rule with each choice of the larger or smaller decided one way: a plain sum of sizes."""

    arithmetic: _Arithmetic[Fraction]
    middle: Fraction
    contributors: Sequence[Contributor]

    @property
    def least(self) -> Fraction:
        return self.middle - worst_case(self.contributors)

    @property
    def most(self) -> Fraction:
        return self.middle + worst_case(self.contributors)


def _branches(
    rule: str, sizes: Mapping[str, Fraction], deviations: Sequence[Deviation]
) -> list[_Branch]:
    """The rule's plain sums, one for each way in which its choices can fall."""
    calls: dict[ast.Call, int] = {}

    def noted(call: ast.Call, numbers: Sequence[Fraction]) -> Fraction:
        calls[call] = len(numbers)
        return numbers[0]

    _Arithmetic(noted).value(rule, dict(sizes))
    picks = itertools.product(*(range(n) for n in calls.values()))
    decided = (_decided(dict(zip(calls, pick, strict=True))) for pick in picks)
    return [_branch(rule, d, sizes, deviations) for d in decided]


def _decided(picks: Mapping[ast.Call, int]) -> _Arithmetic[Fraction]:
    return _Arithmetic(lambda call, numbers: numbers[picks[call]])


def _branch(
    rule: str,
    arithmetic: _Arithmetic[Fraction],
    sizes: Mapping[str, Fraction],
    deviations: Iterable[Deviation],
) -> _Branch:
    contributors = [_contributor(rule, arithmetic, sizes, d) for d in deviations]
    return _Branch(arithmetic, arithmetic.value(rule, dict(sizes)), contributors)


def _contributor(
    rule: str,
    arithmetic: _Arithmetic[Fraction],
    sizes: Mapping[str, Fraction],
    deviation: Deviation,
) -> Contributor:
    """A size with its sensitivity: exact where the rule is a sum, as all are but the slope."""
    step, size = deviation.tolerance or STOP_BLOCK, sizes[deviation.name]
    less, more = (
        arithmetic.value(rule, {**sizes, deviation.name: size + s}) for s in (-step, step)
    )
    return Contributor(**vars(deviation), sensitivity=(more - less) / (2 * step))


def _worst(
    rule: str, branches: Sequence[_Branch], sizes: Mapping[str, Fraction]
) -> tuple[Fraction, Fraction]:
    """The least and the most that a rule can come to, everything off by its tolerance at most."""
    spots = [sizes, *(_corner(b.contributors, sizes, way) for b in branches for way in (-1, 1))]
    reached = [rule_value(rule, spot) for spot in spots]
    sums = [[b.arithmetic.value(rule, dict(spot)) for b in branches] for spot in spots]
    if len(branches) > 1 and reached == [*map(min, sums)]:
        return min(b.least for b in branches), _most_of_smallest(branches)
    if len(branches) > 1 and reached == [*map(max, sums)]:
        return -_most_of_smallest(branches, -1), max(b.most for b in branches)
    if len(branches) > 1:
        reached = [rule_value(rule, spot) for spot in _all_corners(branches, sizes)]
    return min(reached), max(reached)


def _all_corners(
    branches: Sequence[_Branch], sizes: Mapping[str, Fraction]
) -> Iterator[dict[str, Fraction]]:
    """The sizes with every error at either end: enough where each moves a rule one way only."""
    moving = [c for c in branches[0].contributors if any(_reaches_by(c, b) for b in branches)]
    keys = list(dict.fromkeys(c.group or c.name for c in moving))
    for ways in itertools.product((-1, 1), repeat=len(keys)):
        way = dict(zip(keys, ways, strict=True))
        moves = {c.name: c.tolerance * way[c.group or c.name] for c in moving}
        yield {**sizes, **{n: sizes[n] + moved for n, moved in moves.items()}}


def _reaches_by(one: Contributor, branch: _Branch) -> bool:
    return any(c.name == one.name and c.reach for c in branch.contributors)


def _corner(
    contributors: Sequence[Contributor], sizes: Mapping[str, Fraction], way: int
) -> dict[str, Fraction]:
    """The sizes with every error at its end, each the way that moves the gap this way."""
    moved, reaches = dict(sizes), _reach_of(contributors)
    for one in contributors:
        reach = reaches[one.group or one.name]
        moved[one.name] += one.tolerance * way * ((reach > 0) - (reach < 0))
    return moved


def _reach_of(contributors: Iterable[Contributor]) -> dict[str, Fraction]:
    """What each separate error does to the gap, by its group or else its name."""
    found: dict[str, Fraction] = {}
    for one in contributors:
        key = one.group or one.name
        found[key] = found.get(key, Fraction(0)) + one.reach
    return found


def _most_of_smallest(branches: Sequence[_Branch], sign: int = 1) -> Fraction:
    """The most that the smallest of some sums can come to (with sign -1, of their opposites).

    However two sums are mixed, the smaller of them stays below the mixture: the mixture with the
    lowest top says how high it can come. That top is lowest where one error drops out of it.
    """
    lines = [(sign * b.middle, _reach_of(b.contributors)) for b in branches]
    tops = [
        share * one + (1 - share) * other + sum(abs(share * a[k] + (1 - share) * b[k]) for k in a)
        for (one, a), (other, b) in itertools.combinations(lines, 2)
        for share in _mixtures(a, b)
    ]
    return min(tops)


def _mixtures(a: Mapping[str, Fraction], b: Mapping[str, Fraction]) -> set[Fraction]:
    """The shares of the first sum at which an error drops out, and all or nothing of it."""
    shares = {b[k] / (b[k] - a[k]) for k in a if (a[k] < 0 < b[k]) or (b[k] < 0 < a[k])}
    return shares | {Fraction(0), Fraction(1)}


def _deciding(branches: Sequence[_Branch], rule: Rule, least: Fraction, most: Fraction) -> _Branch:
    """The sum that brings a rule nearest to failing."""
    if _low_side(rule, least, most):
        return min(branches, key=lambda b: abs(b.least - least))
    return min(branches, key=lambda b: abs(b.most - most))


def _low_side(rule: Rule, least: Fraction, most: Fraction) -> bool:
    """Whether a rule comes nearer to failing at its low limit than at its high one."""
    if rule.high is None or rule.low is None:
        return rule.high is None
    return least - rule.low <= rule.high - most


def _gaps(rule: str, sizes: Mapping[str, Fraction], drawn: "Mapping[str, Floats]") -> "Floats":
    """The rule's value in each hive made by chance, from its own arithmetic."""
    import numpy as np  # noqa: PLC0415 - loaded only where hives are simulated

    found = {n: np.float64(v) + drawn.get(n, np.zeros(1)) for n, v in sizes.items()}
    return _Arithmetic(_true_choices).value(rule, found)


# ── the whole hive ────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Trial:
    """Whole hives made by chance: how many fail a rule that blocks or harms, and each rule's count.

    The same seed makes the same hives.
    """

    hives: int
    seed: int
    failing: int
    rules: Mapping[str, int]

    @property
    def share(self) -> float:
        """The share of hives in which something fails, from 0 to 1."""
        return self.failing / self.hives


def trial(
    hive: Hive,
    care: Care = USUAL,
    given: Mapping[str, Fraction] | None = None,
    *,
    seed: int = SEED,
    hives: int = HIVES,
) -> Trial:
    """How many of many hives made to the same plan fail some rule that blocks or harms.

    >>> from hivecalc.hive import demo_hive
    >>> perfect = Care(cut=Fraction(0), reading=Fraction(0))
    >>> trial(demo_hive(), perfect, hives=100).failing
    0

    In each hive all rules see the same errors. Rules that never fail are not listed.
    """
    import numpy as np  # noqa: PLC0415 - loaded only where hives are simulated

    sheet = _sheet(hive, care, given)
    asked = {name: rule for name, rule in rules_of(hive).items() if rule.level != "note"}
    names = dict.fromkeys(itertools.chain(*(sheet.sizes(rule) for rule in asked)))
    drawn = _drawn(sheet.deviations(names), seed, hives)
    failed, counts = np.zeros(hives, dtype=bool), dict[str, int]()
    for name, rule in asked.items():
        outside = _outside(_gaps(name, sheet.sizes(name), drawn), rule.low, rule.high)
        failed |= outside
        counts[name] = int(np.broadcast_to(outside, (hives,)).sum())
    failing = {n: c for n, c in counts.items() if c}
    return Trial(hives, seed, int(failed.sum()), failing)
