"""What it costs to build a hive up from its pieces, to ask every rule, to try many hives.

Run:  python -m tests.bench.building
"""

import resource
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Mapping
from fractions import Fraction

from hivecalc.as_built import HABITS, check
from hivecalc.as_built.trial import trial
from hivecalc.built import BUILT, as_cut
from hivecalc.components import built
from hivecalc.derivation import Values
from hivecalc.fit import FIT, findings, is_allowed
from hivecalc.hive import Hive, demo_hive
from tests.hives import hive_of

DEMO = demo_hive()
SLEEVED = hive_of(frames="10")
RAIL = "bottom_board.front_rail_length"
SIZES = {
    "single wall": {"hive_length": "23 1/8 in", "hive_width": "17 3/8 in"},
    "frames outwards, sleeved": {"frames": "10"},
    "a box in a sleeve": {
        "box_length": "19 7/8 in", "box_width": "16 1/4 in", "box_height": "9 9/16 in",
    },
}  # fmt: skip


def milliseconds(work: Callable[[], object], times: int) -> list[float]:
    """Milliseconds of each of several runs, sorted."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        taken.append(1000 * (time.perf_counter() - start))
    return sorted(taken)


def by_plain_calls(sizes: Mapping[str, Fraction]) -> Values:
    """The same sums by hand: every function called with its numbers, in an order made before."""
    found = dict(sizes)
    for name, function, inputs in PLAIN:
        found[name] = function(*[found[i] for i in inputs])
    return found


PLAIN = [
    (name, function, inputs)
    for name, function, inputs in FIT.plan(
        frozenset(FIT.dimensions.keys() & as_cut(SLEEVED).keys()), (*built(SLEEVED), "stack"), None
    )
]


def costs() -> None:
    """Print what each call costs, with its ratio to the same sums by hand."""
    components, sizes = (*built(SLEEVED), "stack"), as_cut(SLEEVED)
    (hand, *_) = milliseconds(lambda: by_plain_calls(sizes), 200)
    works: dict[str, Callable[[], object]] = {
        "all that comes together, and every rule": lambda: FIT.values(sizes, components=components),
        "all that comes together": lambda: BUILT.values(sizes, components=components),
        "pieces, and what comes together": lambda: BUILT.values(
            as_cut(SLEEVED), components=components
        ),
        "one piece changed, what comes of it": lambda: BUILT.values(
            {**sizes, RAIL: Fraction(14)}, components=components
        ),
        "every rule, with its words (fit)": lambda: findings(SLEEVED),
        "may this be cut? (is_allowed)": lambda: is_allowed(SLEEVED, RAIL, Fraction(16)),
        "one piece checked": lambda: check(SLEEVED, {RAIL: [Fraction(16)]}),
    }
    print(f"{'every sum and rule of a sleeved hive by hand':46} {hand:8.2f} ms")
    for name, work in works.items():
        taken = milliseconds(work, 60)
        print(f"{name:46} {statistics.median(taken):8.2f} ms   x {taken[0] / hand:.2f} by hand")


def tried() -> None:
    """Print what 10,000 hives cost, and the most memory that a process for them takes."""
    trial(DEMO, hives=10)
    for name, hive in {"single wall": DEMO, "sleeved": SLEEVED}.items():
        taken = milliseconds(lambda h=hive: trial(h), 5)
        print(f"{f'10,000 hives, {name}':46} {statistics.median(taken):8.0f} ms")
    alone = [sys.executable, "-m", "tests.bench.building", "alone"]
    said = subprocess.run(alone, capture_output=True, text=True, check=True).stdout
    print(f"{'most memory of a process that tries 10,000':46} {said.strip()} MB")


def alone() -> None:
    """Print the most memory that this process took for one trial, in MB."""
    trial(SLEEVED)
    print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024)


def defaults() -> None:
    """Print the share of default hives that fail a rule, with usual care, by habit."""
    print(f"\n{'default hives, failing in 100':46} " + "".join(f"{h:>8}" for h in HABITS))
    for units in ("inch", "mm"):
        for boxes in (1, 3):
            for name, sizes in SIZES.items():
                hive = hive_of(units, boxes=str(boxes), **sizes)
                print(f"{f'{units}, {boxes} high, {name}':46} {shares(hive)}")


def shares(hive: Hive) -> str:
    """The share of failing hives for each habit."""
    return "".join(f"{100 * trial(hive, habit=habit).share:8.2f}" for habit in HABITS)


if __name__ == "__main__":
    if sys.argv[1:] == ["alone"]:
        alone()
    else:
        costs()
        tried()
        defaults()
