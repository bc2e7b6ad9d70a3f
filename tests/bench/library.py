"""What a call into each room of the library costs, in one process.

Run:  python -m tests.bench.library          all of it
      python -m tests.bench.library heat     one part: graph, pictures, book, building, heat

Trust the ratios: every figure is of this machine, and a median unless it says otherwise.
"""

import csv
import resource
import statistics
import sys
import time
import warnings
from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory

import pint

from hivecalc.as_built import HABITS, check
from hivecalc.as_built.trial import trial
from hivecalc.built import BUILT, as_cut
from hivecalc.components import DIMENSIONS, built, values
from hivecalc.derivation import Values
from hivecalc.document.page import document_html, document_pdf
from hivecalc.drawing import Subject, plan, section, stack, tape
from hivecalc.drawing.in_space import in_space
from hivecalc.fit import FIT, findings, is_allowed
from hivecalc.hive import MEASUREMENTS, Hive, changed, demo_hive, hive_from_text, hive_text
from hivecalc.pages import outcomes
from hivecalc.pages.warmth import wall_with_foam
from hivecalc.reports.book import book
from hivecalc.reports.judge import JudgedFile
from hivecalc.warmth.losses import faces, losses
from hivecalc.warmth.sections import bridges
from hivecalc.wood import CLIMATES, SPECIES, gaps
from tests.by_hand import by_hand
from tests.hives import hive_of

HIVE, SLEEVED = demo_hive(), hive_of(frames="10")
FRONT_RAIL = "bottom_board.front_rail_length"


def times(work: Callable[[], object], count: int) -> list[float]:
    """Milliseconds of each of several runs, sorted; a first run is not counted."""
    work()
    found = []
    for _ in range(count):
        start = time.perf_counter()
        work()
        found.append(1000 * (time.perf_counter() - start))
    return sorted(found)


def show(name: str, found: list[float], beside: float = 0) -> float:
    """Print median, 95th percentile and ratio to another way; the median comes back."""
    middle, p95 = statistics.median(found), found[int(0.95 * (len(found) - 1))]
    ratio = f"   × {middle / beside:.2f}" if beside else ""
    print(f"{name:48} median {middle:9.2f} ms   p95 {p95:9.2f}{ratio}")
    return middle


# ── the parts ─────────────────────────────────────────────────────────────────────────────────


def graph() -> None:
    """The graph of dimensions beside the same sums by hand, and over pint's exact quantities."""
    inch = pint.UnitRegistry(non_int_type=Fraction).inch
    measured, components = SLEEVED.measurements, built(SLEEVED)
    lengths = {n: v * inch if MEASUREMENTS[n].kind == "length" else v for n, v in measured.items()}
    studs = iter(Fraction(n, 640) for n in range(960, 1200))
    print(f"{len(DIMENSIONS.dimensions)} dimensions of {len(components)} components")
    hand = show("whole hive by hand", times(partial(by_hand, measured), 200))
    show("by hand, as pint quantities", times(partial(by_hand, lengths), 50), hand)
    whole = partial(DIMENSIONS.values, measured, None, components)
    show("by the graph", times(whole, 200), hand)
    another = times(lambda: values(changed(SLEEVED, {"stud_thickness": next(studs)})), 200)
    show("one changed measurement, from the hive", another, hand)


def pictures() -> None:
    """From a changed field to the new picture, in the kernel."""
    found, whole, stud = Subject(values(HIVE)), built(HIVE), "stud_thickness"
    turns, studs = iter(range(0, 2000, 7)), iter(f"1 {n}/128" for n in range(20, 90))
    rails = iter(f"{13 + n // 8} {n % 8}/8" for n in range(1, 90))
    works: dict[str, Callable[[], object]] = {
        "a changed stud, whole outcome":
            lambda: outcomes.planned_anew(HIVE, stud, next(studs)).follows,
        "a wrong front rail, whole outcome":
            lambda: outcomes.wrong_cut(HIVE, FRONT_RAIL, next(rails)).follows,
        "a reading on the tape": lambda: outcomes.on_tape(tape, HIVE, "23 1/8"),
        "drawing alone: plan": lambda: plan(Subject(found.now)),
        "drawing alone: section": lambda: section(Subject(found.now)),
        "drawing alone: stack": lambda: stack(Subject(found.now)),
        "drawing alone: tape": lambda: tape(Fraction(185, 8)),
        "in space: the bottom board":
            lambda: in_space(found.now, whole[:1], turn=next(turns), opened=0.5),
        "in space: the whole hive":
            lambda: in_space(found.now, whole, turn=next(turns), opened=0.5),
    }  # fmt: skip
    for name, work in works.items():
        show(name, times(work, 60))


def printed() -> None:
    """A hive file read, its book written, and a class's file of answers judged."""
    text, many = hive_text(HIVE), 20_000
    show("a hive file read", times(lambda: hive_from_text(text), 200))
    show("the hive book as HTML", times(lambda: document_html(book(HIVE)), 10))
    show("the hive book as PDF", times(lambda: document_pdf(book(HIVE)), 5))
    names = [n for n in DIMENSIONS.dimensions if n.startswith("bottom_board.")]
    with TemporaryDirectory() as folder:
        path = Path(folder) / "answers.csv"
        with path.open("w", newline="") as file:
            answers = ((names[i % len(names)], f"{10 + i % 13} {1 + i % 7}/8") for i in range(many))
            csv.writer(file).writerows([("dimension", "answer"), *answers])
        (taken,) = times(lambda: JudgedFile.of(HIVE, path, str), 1)
    print(f"answers judged from a file: {many / taken * 1000:,.0f} a second")


def building() -> None:
    """A hive built up from its pieces, every rule asked, 10,000 hives tried."""
    components, sizes = (*built(SLEEVED), "stack"), as_cut(SLEEVED)
    asked = FIT.plan(frozenset(FIT.dimensions.keys() & sizes.keys()), components, None)

    def by_plain_calls(sizes: Mapping[str, Fraction]) -> Values:
        found = dict(sizes)
        for name, function, inputs in asked:
            found[name] = function(*[found[i] for i in inputs])
        return found

    hand = show("every sum and rule by hand", times(lambda: by_plain_calls(sizes), 200))
    works: dict[str, Callable[[], object]] = {
        "all that comes together, and every rule": lambda: FIT.values(sizes, components=components),
        "all that comes together": lambda: BUILT.values(sizes, components=components),
        "pieces, and what comes together":
            lambda: BUILT.values(as_cut(SLEEVED), components=components),
        "every rule, with its words (fit)": lambda: findings(SLEEVED),
        "may this be cut? (is_allowed)": lambda: is_allowed(SLEEVED, FRONT_RAIL, Fraction(16)),
        "one piece checked": lambda: check(SLEEVED, {FRONT_RAIL: [Fraction(16)]}),
    }  # fmt: skip
    for name, work in works.items():
        show(name, times(work, 60), hand)
    for name, hive in {"single wall": HIVE, "sleeved": SLEEVED}.items():
        show(f"10,000 hives, {name}", times(lambda h=hive: trial(h), 5))
    print(f"\n{'default hives, failing in 100':48} " + "".join(f"{h:>8}" for h in HABITS))
    frame = {"hive_length": "23 1/8 in", "hive_width": "17 3/8 in"}
    box = {"box_length": "19 7/8 in", "box_width": "16 1/4 in", "box_height": "9 9/16 in"}
    for units in ("inch", "mm"):
        for high in "13":
            for kind, given in {"frame": frame, "frames": {"frames": "10"}, "box": box}.items():
                failing = shares(hive_of(units, boxes=high, **given))
                print(f"{f'{units}, {high} high, {kind}':48} {failing}")


def shares(hive: Hive) -> str:
    """How many of 100 hives fail with usual care, for each habit."""
    return "".join(f"{100 * trial(hive, habit=habit).share:8.2f}" for habit in HABITS)


def heat() -> None:
    """Losses, sections, first drops and gaps: the first time, and then."""
    fir, year = SPECIES["white fir"], CLIMATES["chicago"]
    works: dict[str, Callable[[], object]] = {
        "sections of a hive": lambda: [b.inches for b in bridges(SLEEVED)],
        "losses of the whole hive": lambda: losses(SLEEVED, 20, -10),
        "faces and first drops": lambda: faces(SLEEVED, 20, -10, 0.6),
        "gaps through a year": lambda: gaps(SLEEVED, fir, year, 12),
    }
    for name, work in works.items():
        start = time.perf_counter()
        work()
        show(f"{name}, first {1000 * (time.perf_counter() - start):.0f}", times(work, 20))
    foams = iter(Fraction(n, 64) for n in range(32, 193))
    show("slider of foam → picture", times(lambda: wall_with_foam(SLEEVED, str(next(foams))), 120))


PARTS = {
    "graph": graph, "pictures": pictures, "book": printed, "building": building, "heat": heat,
}  # fmt: skip


def main() -> None:
    """Print the parts that are named, or all, and the most memory that it took."""
    warnings.simplefilter("ignore")  # pint's, at fractions of inches
    for name in sys.argv[1:] or PARTS:
        print(f"── {name}")
        PARTS[name]()
    print(f"memory: {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024} MB")


if __name__ == "__main__":
    main()
