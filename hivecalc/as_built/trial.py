"""Many hives built with some care: how many fail a rule, and which; and one rule in three ways.

Needs numpy, so it is loaded where hives are tried.
"""

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, cached_property
from typing import Any, Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from hivecalc.as_built.care import HABITS, Care, Habit, Source, Work, sources, usual_care
from hivecalc.built import CUT_TO, PIECES, as_cut
from hivecalc.components import DIMENSIONS
from hivecalc.derivation import Dimension, Graph, Kind, UnknownNameError, compiled
from hivecalc.fit import FIT, Level, Rule, rules_of
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.length import Length
from hivecalc.support.faults import quoted

Floats: TypeAlias = NDArray[np.float64]
Errors: TypeAlias = Mapping[str, Floats]
"""Each separate error in each hive, as a share of its amount: from -1 to 1."""

Value: TypeAlias = Callable[[Errors], Floats]
"""The value of a rule in each hive, from the errors."""

SEED: Final = 1
HIVES: Final = 10_000
MOST_HIVES: Final = 1_000_000
SIGMAS: Final = 3
"""An error's amount is taken as this many standard deviations, and errors are cut off there."""
HAIR: Final = 1e-9  # inches: what floating numbers may add to a value that lies on its limit
INSIDE: Final = 0.9973  # share of a bell curve within three standard deviations
_TRIED: Final = 4096  # ways in which all errors are off by their full amounts


@dataclass(frozen=True)
class Trial:
    """Hives built by chance: how many fail a rule that blocks or harms, and each rule's count.

    `rules` has every rule that fails in some hive, the worst first. The same seed builds the same
    hives.
    """

    hives: int
    seed: int
    care: Care
    habit: Habit
    failing: int
    rules: Mapping[str, int]

    @property
    def share(self) -> float:
        """The share of hives in which something fails, from 0 to 1."""
        return self.failing / self.hives


def trial(
    hive: Hive,
    care: Care | None = None,
    habit: Habit = "frame",
    *,
    hives: int = HIVES,
    seed: int = SEED,
) -> Trial:
    """How many of many hives built to the same plan fail some rule that blocks or harms.

    Without `care`, usual care. With the habit "frame", panel, screen, runners and the roof's foam
    are cut to the frames as measured once they are glued. Raises HiveFaults for a number of hives
    that is not from 1 to 1,000,000, a habit that there isn't, or a seed below 0.
    """
    _check(hives, habit, seed)
    building = _Building(hive, care or usual_care(hive), habit)
    asked = {n: rule for n, rule in rules_of(hive).items() if rule.level != "note"}
    found = building.came_out(building.by_chance(hives, seed), tuple(asked))
    failed, counts = np.zeros(hives, dtype=bool), dict[str, int]()
    for name, rule in asked.items():
        outside = np.broadcast_to(_outside(found[name], rule), (hives,))
        failed |= outside
        counts[name] = int(outside.sum())
    worst = dict(sorted(((n, c) for n, c in counts.items() if c), key=lambda pair: -pair[1]))
    return Trial(hives, seed, building.care, habit, int(failed.sum()), worst)


def _check(hives: int, habit: str, seed: int) -> None:
    faults = []
    if seed < 0:
        faults.append(Fault("seed", str(seed), "0 or more is accepted"))
    if not 1 <= hives <= MOST_HIVES:
        faults.append(Fault("hives to try", f"{hives:,}", "1 to 1,000,000 are accepted"))
    if habit not in HABITS:
        faults.append(
            Fault("habit", f"{quoted(habit)} isn't a habit", f"write {', '.join(HABITS)}")
        )
    if faults:
        raise HiveFaults(faults)


@dataclass(frozen=True)
class _Building:
    """One hive as it is built many times: the care that is taken, and what may be off."""

    hive: Hive
    care: Care
    habit: Habit

    @cached_property
    def off(self) -> tuple[Source, ...]:
        return sources(self.hive, self.care, self.habit)

    @cached_property
    def errors(self) -> tuple[str, ...]:
        """The separate errors, those of reading the glued frames among them."""
        in_frames = (f"read in the frame: {name}" for name in CUT_TO)
        return tuple(dict.fromkeys([*(s.shared for s in self.off), *in_frames]))

    def by_chance(self, hives: int, seed: int) -> dict[str, Floats]:
        """Each separate error in each hive, as a share of its amount: from -1 to 1."""
        source = np.random.default_rng(seed)
        found: dict[str, Floats] = {}
        for name in self.errors:
            drawn = source.standard_normal(hives)
            while (far := abs(drawn) > SIGMAS).any():
                drawn[far] = source.standard_normal(int(far.sum()))
            found[name] = drawn / SIGMAS
        return found

    def came_out(self, errors: Errors, rules: tuple[str, ...]) -> dict[str, Any]:
        """The value of these rules, and of all they rest on, where errors are off by these shares.

        `errors` gives each separate error as a share of its amount, hive by hive.
        """
        sizes: dict[str, Any] = {n: float(v) for n, v in as_cut(self.hive).items()}
        sizes |= {s.name: float(s.aimed) + _error(s, errors) for s in self.off}
        if self.habit != "plan":
            sizes |= self._cut_to_frames(sizes, errors)
        return _in_arrays(FIT, sizes, rules)

    def _cut_to_frames(self, sizes: Mapping[str, Any], errors: Errors) -> dict[str, Any]:
        """The pieces cut to a frame as it was read in each hive, each with its own error."""
        came = _in_arrays(FIT, sizes, tuple(CUT_TO))
        plan: dict[str, Any] = {n: float(v) for n, v in self.hive.measurements.items()}
        for opening, replaced in CUT_TO.items():
            read = errors[f"read in the frame: {opening}"] * float(self.care.tape)
            plan |= dict.fromkeys(replaced, came[opening] + read)
        cut_to = {name for names in CUT_TO.values() for name in names}
        follow = cut_to.union(*map(DIMENSIONS.reached_by, cut_to))
        off = (
            (s, PIECES[s.name].planned) for s in self.off if s.kind == "cut" and s.name in PIECES
        )
        cut = [(source, planned) for source, planned in off if planned in follow]
        found = _in_arrays(DIMENSIONS, plan, tuple(dict.fromkeys(planned for _, planned in cut)))
        return {s.name: found[planned] + _error(s, errors) for s, planned in cut}


def _error(source: Source, errors: Errors) -> Floats:
    return errors[source.shared] * float(source.tolerance)


# ── formulas over arrays ──────────────────────────────────────────────────────────────────────


def _in_arrays(graph: Graph, given: Mapping[str, Any], names: tuple[str, ...]) -> dict[str, Any]:
    """The value of these dimensions, and of all they rest on; sizes may be arrays of hives."""
    found = dict(given)
    known = frozenset(found.keys() & graph.dimensions.keys())
    for name, function, inputs in graph.plan(known, (), names):
        if not inputs:  # a figure that rests on nothing
            found[name] = float(function())
            continue
        found[name] = _over_arrays(graph.dimension(name))(*(found[i] for i in inputs))
    return found


@cache
def _over_arrays(dimension: Dimension) -> Callable[..., Any]:
    choices = {
        "min": lambda *all_: np.minimum.reduce(np.broadcast_arrays(*all_)),
        "max": lambda *all_: np.maximum.reduce(np.broadcast_arrays(*all_)),
    }
    return compiled(dimension.parameters, dimension.expression, choices)


def _outside(found: Floats | float, rule: Rule) -> NDArray[np.bool_]:
    """In which hives a rule fails, by more than a hair of floating numbers."""
    outside = np.asarray(False)  # noqa: FBT003 - in none of them
    for limit in rule.limits:
        outside = outside | (limit.sign * (np.asarray(found) - float(limit.widest)) < -HAIR)
    return outside


# ── one rule, three ways ──────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Contributor:
    """An error that reaches a rule: its size, how large it is, and what that does to the rule.

    `share` is what part of the spread comes from it, by root-sum-square; all together make 1.
    """

    name: str
    kind: Work
    tolerance: Length
    reach: float
    share: float


@dataclass(frozen=True)
class Spread:
    """How far the value of a rule may go, three ways, beside its limits.

    Worst: everything off the worst way at once. Root-sum-square: by chance, partly cancelling.
    Trial: hives built by chance, `failing` of `hives`. In inches; a ratio is a number. The
    contributors stand with the largest share first.
    """

    rule: str
    level: Level
    kind: Kind
    aimed: float
    low: Fraction | None
    high: Fraction | None
    worst: tuple[float, float]
    chance: tuple[float, float]
    tried: tuple[float, float]
    hives: int
    seed: int
    failing: int
    contributors: tuple[Contributor, ...]

    def holds_within(self, ends: tuple[float, float]) -> bool:
        """Whether the rule holds from one of these values to the other."""
        least, most = ends
        above = self.low is None or least >= float(self.low) - HAIR
        return above and (self.high is None or most <= float(self.high) + HAIR)


def spread(  # noqa: PLR0913 - a rule of a hive, how it is built, and how it is tried
    hive: Hive,
    rule: str,
    care: Care | None = None,
    habit: Habit = "frame",
    *,
    hives: int = HIVES,
    seed: int = SEED,
) -> Spread:
    """How far a rule may go on this hive when it is built with this care.

    Raises UnknownNameError for a rule that there isn't for this hive, and HiveFaults as `trial`.
    """
    asked = rules_of(hive)
    if rule not in asked:
        raise UnknownNameError(rule, asked, "rule for this hive")
    _check(hives, habit, seed)
    building, limits = _Building(hive, care or usual_care(hive), habit), asked[rule]

    def value(errors: Errors) -> Floats:
        return np.asarray(building.came_out(errors, (rule,))[rule])

    aimed, reaches = _reaches(value, building.errors)
    chance = root_sum_square(reaches.values())
    by_name = {source.shared: source for source in reversed(building.off)}
    contributors = []
    for name in sorted(reaches, key=lambda n: -abs(reaches[n])):
        source, share = by_name.get(name), reaches[name] ** 2 / chance**2
        kind: Work = source.kind if source else "tape"
        amount = source.tolerance if source else building.care.tape
        contributors.append(Contributor(name, kind, amount, reaches[name], share))
    found = np.broadcast_to(value(building.by_chance(hives, seed)), (hives,))
    ends = np.quantile(found, [(1 - INSIDE) / 2, (1 + INSIDE) / 2])
    low, high = limits.widest
    return Spread(
        rule=rule,
        level=limits.level,
        kind=FIT.dimension(rule).kind,
        aimed=aimed,
        low=low,
        high=high,
        worst=_worst(value, building.errors, aimed),
        chance=(aimed - chance, aimed + chance),
        tried=(float(ends[0]), float(ends[1])),
        hives=hives,
        seed=seed,
        failing=int(_outside(found, limits).sum()),
        contributors=tuple(contributors),
    )


def root_sum_square(reaches: Iterable[float]) -> float:
    """How far a sum is off by chance, from what each error at its full amount does to it.

    It takes errors that come each by itself, as often above as below (F. Scholz, Tolerance Stack
    Analysis Methods, 1995).
    """
    return math.sqrt(sum(reach**2 for reach in reaches))


def _reaches(value: Value, names: Sequence[str]) -> tuple[float, dict[str, float]]:
    """The value with no error, and what each error at its full amount does to it, if anything.

    Where both ways move it the same way, as where two pieces should be alike, the larger counts.
    """
    count = len(names)
    ways = np.hstack([np.eye(count), -np.eye(count), np.zeros((count, 1))])
    found = np.broadcast_to(value(dict(zip(names, ways, strict=True))), (2 * count + 1,))
    aimed = float(found[-1])
    up, down = found[:count] - aimed, found[count:-1] - aimed
    reach = np.where(up * down > 0, np.where(abs(up) > abs(down), up, down), (up - down) / 2)
    return aimed, {n: float(r) for n, r in zip(names, reach, strict=True) if abs(r) > HAIR}


def _worst(value: Value, names: Sequence[str], aimed: float) -> tuple[float, float]:
    """The smallest and the largest value where all errors are off by their full amounts.

    The worst of many ways by chance, in which then one error after the other is turned round as
    long as that makes it worse.
    """

    def at(ways: Floats) -> Floats:
        return np.broadcast_to(value(dict(zip(names, ways.T, strict=True))), (len(ways),))

    ways = np.random.default_rng(SEED).choice((-1.0, 1.0), (_TRIED, len(names)))
    found, turns = at(ways), np.vstack([np.ones(len(names)), 1 - 2 * np.eye(len(names))])
    ends = [aimed]
    for sign in (-1, 1):
        best = ways[np.argmax(sign * found)]
        while turn := int((sign * at(best * turns)).argmax()):
            best = best * turns[turn]
        ends.append(float(at(best[np.newaxis])[0]))
    return min(ends), max(ends)
