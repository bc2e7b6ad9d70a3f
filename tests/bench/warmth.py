"""What heat and damp cost: losses, sections, gaps, and the memory of it all.

Run:  python -m tests.bench.warmth
"""

import resource
import statistics
import time
from collections.abc import Callable
from fractions import Fraction

from hivecalc.hive import changed, hive_from_text


def milliseconds(work: Callable[[], object]) -> float:
    """Milliseconds of one run."""
    start = time.perf_counter()
    work()
    return 1000 * (time.perf_counter() - start)


def main() -> None:
    """Print the first time and the median of the next ones of each work, then the memory."""
    from hivecalc.pages.warmth import wall_with_foam
    from hivecalc.warmth.losses import faces, losses
    from hivecalc.warmth.sections import bridges
    from hivecalc.wood import CLIMATES, SPECIES, gaps

    hive = hive_from_text("chosen.frames = 10")
    fir, year = SPECIES["white fir"], CLIMATES["chicago"]
    works: dict[str, Callable[[], object]] = {
        "sections of a hive": lambda: [b.inches for b in bridges(hive)],
        "losses of the whole hive": lambda: losses(hive, 20, -10),
        "faces and first drops": lambda: faces(hive, 20, -10, 0.6),
        "gaps through a year": lambda: gaps(hive, fir, year, 12),
    }
    for name, work in works.items():
        first, later = milliseconds(work), [milliseconds(work) for _ in range(20)]
        print(f"{name}: first {first:.0f} ms, then {statistics.median(later):.1f} ms")
    foams = [Fraction(n, 16) for n in range(8, 49)]
    another = [
        milliseconds(lambda f=f: losses(changed(hive, {"sleeve_foam_thickness": str(f)}), 20, -10))
        for f in foams
    ]
    print(f"losses with another foam: median {statistics.median(another):.0f} ms")
    slid = sorted(
        milliseconds(lambda f=f: wall_with_foam(hive, str(f)))
        for f in [Fraction(n, 64) for n in range(32, 193)]
    )
    print(f"slider to picture: p95 {slid[int(0.95 * len(slid))]:.0f} ms")
    print(f"memory: {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024} MB")


if __name__ == "__main__":
    main()
