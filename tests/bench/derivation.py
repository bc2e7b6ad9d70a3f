"""What the graph of dimensions costs, beside the same sums by hand and over pint.

Run:  python -m tests.bench.derivation

All ways run in one process, in turn, and the figures are medians of the rounds; trust the ratios.
"""

import statistics
import time
import warnings
from collections.abc import Callable
from fractions import Fraction
from functools import partial

from hivecalc.components import DIMENSIONS, built, values
from hivecalc.hive import MEASUREMENTS, changed, hive_from_text
from tests.by_hand import by_hand

ROUNDS, CALLS = 15, 100


def rounds(ways: dict[str, Callable[[], object]]) -> dict[str, float]:
    """Median milliseconds a call of each way, the ways taken in turn in each round."""
    times: dict[str, list[float]] = {name: [] for name in ways}
    for _ in range(ROUNDS):
        for name, way in ways.items():
            start = time.perf_counter()
            for _ in range(CALLS):
                way()
            times[name].append((time.perf_counter() - start) / CALLS * 1000)
    return {name: statistics.median(t) for name, t in times.items()}


def pint_quantities(measured: dict[str, Fraction]) -> Callable[[], object]:
    """The sums by hand over pint quantities, exact fractions in an exact registry."""
    import pint

    inch = pint.UnitRegistry(non_int_type=Fraction).inch
    lengths = {n: v * inch if MEASUREMENTS[n].kind == "length" else v for n, v in measured.items()}
    return partial(by_hand, lengths)


def main() -> None:
    """Print a table of the ways, each with its time and its ratio to the first."""
    warnings.simplefilter("ignore")
    hive = hive_from_text("[chosen]\nframes = 10\n")
    thicker = changed(hive, {"stud_thickness": Fraction(25, 16)})
    measured, components = hive.measurements, built(hive)
    print(f"{len(DIMENSIONS.dimensions)} dimensions of {len(components)} components")
    whole = rounds(
        {
            "whole hive by the graph": partial(DIMENSIONS.values, measured, None, components),
            "the same by hand": partial(by_hand, measured),
            "the same by hand, as pint quantities": pint_quantities(measured),
            "one changed measurement, from the hive": partial(values, thicker),
        }
    )
    first = next(iter(whole.values()))
    for name, ms in whole.items():
        print(f"{name:42} {ms:8.3f} ms   × {ms / first:6.2f}")
    print(f"graph over hand: × {whole['whole hive by the graph'] / whole['the same by hand']:.2f}")


if __name__ == "__main__":
    main()
