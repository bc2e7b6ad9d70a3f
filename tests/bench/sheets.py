"""What cutting sheets costs, for one hive and for a class, beside two general packages.

Run:  python -m tests.bench.sheets          (needs the extra 'bench'; three minutes)
      python -m tests.bench.sheets classes  (ten classes, by `sheet_plan` alone)

The hives are invented, and the same each time: boxes in a sleeve whose outside is from 18 to 26 in
long and from 14 to 20 in wide, each sixteenth as likely as any other; all else is the demo hive's.
Of each the deck, the skirt, the cover, the inner sheets, the skins, the foam and the mesh are cut,
with the demo yard's kerf, sheets and prices.

The packages know one size of sheet, no price and no kerf: each size has a kerf added, and they
count whole sheets. `rectpack` is a set of greedy rules, of which guillotine ones are taken, and the
best of eight; it turns all pieces or none. The plain model for CP-SAT keeps grain, but its layouts
need not come free by cuts from edge to edge.
"""

# ruff: noqa: S311 - it prints its figures, and its dice need no secrecy

import random
import sys
import time
from collections.abc import Iterator
from fractions import Fraction
from functools import partial
from itertools import pairwise
from math import gcd, lcm

from hivecalc.cutting.needs.sheets import SheetNeed, sheet_needs
from hivecalc.cutting.sheets import sheet_faults, sheet_plan
from hivecalc.hive import Hive, changed, demo_hive
from hivecalc.stock import SheetGoods, demo_yard
from tests.bench.alone import Row, alone

YARD = demo_yard()
SECONDS = {1: 2.0, 12: 8.0}
"""Seconds for one kind of sheet; few kinds take them all."""


def hives(count: int, seed: int = 1) -> Iterator[Hive]:
    """Return invented hives: boxes in sleeves, each size on a sixteenth."""
    dice = random.Random(seed)
    for _ in range(count):
        length, width = (
            Fraction(dice.randint(16 * low, 16 * high), 16) for low, high in ((18, 26), (14, 20))
        )
        outside = {"box_length": length - 3, "box_width": width - 3}
        yield changed(demo_hive(), {**outside, "box_height": Fraction(77, 8)})


def by_price(need: SheetNeed, seconds: float) -> tuple[float, float]:
    """Return the least money that `sheet_plan` finds out of all sizes, after the separate check."""
    plan = sheet_plan(need.wanted, need.sheets, kerf=need.kerf, seconds=seconds)
    assert sheet_faults(plan, need.wanted, need.sheets, need.kerf) == []
    return float(plan.counted), float(plan.bound)


def by_whole_sheets(need: SheetNeed, seconds: float) -> tuple[float, float]:
    """Return how many sheets of the biggest size `sheet_plan` takes, after the separate check."""
    whole = [biggest(need)]
    plan = sheet_plan(need.wanted, whole, kerf=need.kerf, seconds=seconds, aim="sheets")
    assert sheet_faults(plan, need.wanted, whole, need.kerf) == []
    return float(plan.counted), float(plan.bound)


def biggest(need: SheetNeed) -> SheetGoods:
    """Return the biggest sheet of a need."""
    return max(need.sheets, key=lambda sheet: sheet.width * sheet.length)


def by_rectpack(need: SheetNeed, _seconds: float) -> tuple[float, None]:
    """Return how many sheets the best of eight greedy rules takes; it knows no bound."""
    import rectpack
    from rectpack import guillotine

    (wide, long), pieces = _whole_numbers(need)
    rules = [
        getattr(guillotine, f"Guillotine{fit}{split}")
        for fit in ("Bssf", "Baf")
        for split in ("Sas", "Las", "Slas", "Maxas")
    ]
    found = []
    for rule in rules:
        packer = rectpack.newPacker(rotation=all(turns for *_, turns in pieces), pack_algo=rule)
        for width, length, _ in pieces:
            packer.add_rect(width, length)
        packer.add_bin(wide, long, count=len(pieces))
        packer.pack()
        if len(packer.rect_list()) == len(pieces):
            found.append(len(packer))
    return float(min(found)), None


def by_ortools(need: SheetNeed, seconds: float) -> tuple[float | None, float]:
    """Return what CP-SAT finds with the plain model: where each piece lies, and on which sheet."""
    from ortools.sat.python import cp_model

    (wide, long), pieces = _whole_numbers(need)
    most = int(by_rectpack(need, seconds)[0])
    model = cp_model.CpModel()
    used = [model.new_bool_var(f"sheet {s}") for s in range(most)]
    sheets: list[list[tuple[object, object]]] = [[] for _ in range(most)]
    for number, (width, length, turns) in enumerate(pieces):
        ways = [(width, length)] + [(length, width)] * (turns and width != length)
        lies = []
        for s, (w, n) in [(s, way) for s in range(most) for way in ways if way[0] <= wide]:
            here = model.new_bool_var(f"{number} on {s} as {w}")
            x = model.new_int_var(0, wide - w, f"x {number} {s} {w}")
            y = model.new_int_var(0, max(long - n, 0), f"y {number} {s} {w}")
            across = model.new_optional_fixed_size_interval_var(x, w, here, f"across {number} {s}")
            along = model.new_optional_fixed_size_interval_var(y, n, here, f"along {number} {s}")
            sheets[s].append((across, along))
            model.add_implication(here, used[s])
            lies.append(here)
        model.add_exactly_one(lies)
    for row in sheets:
        model.add_no_overlap_2d([across for across, _ in row], [along for _, along in row])
    for before, after in pairwise(used):
        model.add(before >= after)
    model.minimize(sum(used))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    found = solver.solve(model) in {cp_model.OPTIMAL, cp_model.FEASIBLE}
    return solver.objective_value if found else None, solver.best_objective_bound


def _whole_numbers(need: SheetNeed) -> tuple[tuple[int, int], list[tuple[int, int, bool]]]:
    """The biggest sheet and each piece, a kerf added, in a unit that divides all pieces."""
    sides = [side + need.kerf for w in need.wanted for side in (w.width, w.length)]
    shared = lcm(*(side.denominator for side in sides))
    unit = Fraction(gcd(*(int(side * shared) for side in sides)), shared)
    sheet = biggest(need)
    room = int((sheet.width + need.kerf) / unit), int((sheet.length + need.kerf) / unit)
    pieces = [
        (int((w.width + need.kerf) / unit), int((w.length + need.kerf) / unit), w.turns)
        for w in need.wanted
        for _ in range(w.count)
    ]
    return room, pieces


# ── figures ───────────────────────────────────────────────────────────────────────────────────

WAYS = {
    "sheet_plan, least money": by_price,
    "sheet_plan, whole sheets": by_whole_sheets,
    "rectpack, whole sheets": by_rectpack,
    "CP-SAT, whole sheets": by_ortools,
}


def print_times() -> None:
    """Print a row for each kind of sheet and way, then the sums of the times."""
    print(
        f"{'hives':5} {'sheet':20} {'sizes':>5} {'pieces':>6}  {'way':25}"
        "   found   bound  seconds   MB"
    )
    for count, seconds in SECONDS.items():
        totals = dict.fromkeys(WAYS, 0.0)
        for need in sheet_needs(hives(count), YARD):
            for name, way in WAYS.items():
                row = alone(partial(way, need, seconds))
                totals[name] += row.seconds
                _print_row(count, need, name, row)
        for name, total in totals.items():
            print(f"{count:5} {'all':20} {name:40} {total:25.2f}")


def _print_row(count: int, need: SheetNeed, name: str, row: Row) -> None:
    pieces = sum(piece.count for piece in need.wanted)
    head = f"{count:5} {need.name:20} {len(need.wanted):5} {pieces:6}  {name:25}"
    bound = "" if row.bound is None else f"{row.bound:.0f}"
    found = "none" if row.found is None else f"{row.found:.0f}"
    print(
        f"{head} {found:>7} {bound:>7} {row.seconds:8.2f} {row.megabytes:4.0f}",
        flush=True,
    )


def print_classes(classes: int = 10, count: int = 12) -> None:
    """Print how near `sheet_plan` comes to its bound for classes that differ."""
    proved = plans = 0
    for seed in range(classes):
        start, gaps, sheets = time.perf_counter(), [], 0.0
        for need in sheet_needs(hives(count, seed), YARD):
            plan = sheet_plan(need.wanted, need.sheets, kerf=need.kerf, seconds=SECONDS[count])
            assert sheet_faults(plan, need.wanted, need.sheets, need.kerf) == []
            price = biggest(need).price or Fraction(1)
            sheets = max(sheets, float(plan.gap / price))
            gaps.append(f"{need.name} {float(plan.counted):.0f} (bound {float(plan.bound):.0f})")
            proved, plans = proved + plan.proved, plans + 1
        seconds = time.perf_counter() - start
        print(
            f"class {seed}: {seconds:5.1f} s, at most {sheets:.2f} sheets above: {', '.join(gaps)}"
        )
    print(f"{proved} of {plans} plans proved best")


if __name__ == "__main__":
    print_classes() if sys.argv[1:] == ["classes"] else print_times()
