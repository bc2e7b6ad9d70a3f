"""What cutting boards costs, beside two general packages and beside what a careful person does.

Run:  python -m tests.bench.cutting            (needs the extra 'bench'; five minutes)
      python -m tests.bench.cutting careful    (a hundred classes against longest-first alone)

The hives are invented, and the same each time: length from 18 to 26 in and width from 14 to 20 in,
each mark of the grid as likely as any other; all else is the demo hive's. Of each hive the eight
pieces of stud of bottom board and roof are cut, with the demo yard's kerf, trim and prices.
"""

# ruff: noqa: S311 - it prints its figures, and its dice need no secrecy

import random
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import partial
from itertools import pairwise
from statistics import mean

from hivecalc.components import parts
from hivecalc.cutting import Aim, BoardPlan, Wanted, board_faults, board_plan, careful_plan
from hivecalc.hive import Hive, changed, demo_hive
from hivecalc.length import MM
from hivecalc.stock import Board, demo_yard
from tests.bench.alone import alone

YARD = demo_yard()
STUDS = [board for board in YARD.boards if board.material == "stud"]
EIGHT_FEET = STUDS[:1]
SIXTEENTHS, HALVES = Fraction(1, 16), Fraction(1, 2)
SECONDS = 20.0
CLASSES, HIVES = 100, 12


def hives(count: int, grid: Fraction, seed: int = 1) -> Iterator[Hive]:
    """Return invented hives, each size on a mark of the grid."""
    dice = random.Random(seed)
    for _ in range(count):
        length, width = (
            grid * dice.randint(int(low / grid), int(high / grid))
            for low, high in ((18, 26), (14, 20))
        )
        yield changed(demo_hive(), {"hive_length": length, "hive_width": width})


def pieces(some: Sequence[Hive] | Iterator[Hive]) -> list[Wanted]:
    """Return the pieces of stud of these hives, those of one length together."""
    lengths: Counter[Fraction] = Counter()
    for hive in some:
        for piece in parts(hive):
            if piece.material == "stud" and piece.component in {"bottom_board", "roof"}:
                lengths[piece.length.value] += piece.quantity
    return [Wanted(str(length), length, count) for length, count in lengths.items()]


def by_plan(wanted: list[Wanted], boards: list[Board], aim: Aim = "boards") -> tuple[float, float]:
    """Return what `board_plan` finds, after the separate check."""
    kerf, trim = YARD.kerf, YARD.end_trim
    plan = board_plan(wanted, boards, kerf=kerf, trim=trim, aim=aim, seconds=SECONDS)
    assert board_faults(plan, wanted, boards, kerf, trim) == []
    return float(plan.counted), float(plan.bound)


def by_cost(wanted: list[Wanted], _boards: list[Board]) -> tuple[float, float]:
    """Return what `board_plan` finds as the least cost out of all lengths of the yard."""
    return by_plan(wanted, STUDS, "cost")


def by_ortools(wanted: list[Wanted], boards: list[Board]) -> tuple[int | None, float]:
    """Return what CP-SAT finds with the plain model: how many of each length on each board."""
    from ortools.sat.python import cp_model

    room, sizes = _whole(wanted, boards[0])
    most = careful_plan(wanted, boards, kerf=YARD.kerf, trim=YARD.end_trim).boards
    model = cp_model.CpModel()
    used = [model.new_bool_var(f"board {b}") for b in range(most)]
    on = [
        [model.new_int_var(0, min(w.count, room // size), f"{w.label} on {b}") for b in range(most)]
        for w, size in zip(wanted, sizes, strict=True)
    ]
    for w, row in zip(wanted, on, strict=True):
        model.add(sum(row) == w.count)
    for b in range(most):
        model.add(sum(size * row[b] for size, row in zip(sizes, on, strict=True)) <= room * used[b])
    for before, after in pairwise(used):
        model.add(before >= after)
    model.minimize(sum(used))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = SECONDS
    found = solver.solve(model) in {cp_model.OPTIMAL, cp_model.FEASIBLE}
    return round(solver.objective_value) if found else None, solver.best_objective_bound


def by_binpacking(wanted: list[Wanted], boards: list[Board]) -> tuple[int, None]:
    """Return what the greedy rule of `binpacking` finds; it knows no bound."""
    import binpacking

    room, sizes = _whole(wanted, boards[0])
    each = [size for w, size in zip(wanted, sizes, strict=True) for _ in range(w.count)]
    return len(binpacking.to_constant_volume(each, room)), None


def _whole(wanted: list[Wanted], board: Board) -> tuple[int, list[int]]:
    """Room and sizes in thousandths of a sixteenth, rounded so that what is found can be cut."""
    unit = 16_000
    room = (board.length - YARD.end_trim + YARD.kerf) * unit
    return int(room), [-int(-(w.length + YARD.kerf) * unit // 1) for w in wanted]


# ── times ─────────────────────────────────────────────────────────────────────────────────────

BATCHES = [
    (1, SIXTEENTHS),
    (12, SIXTEENTHS),
    (100, SIXTEENTHS),
    (1000, HALVES),
    (1000, SIXTEENTHS),
    (1000, MM),
    (10_000, SIXTEENTHS),
]
WAYS = {
    "board_plan": (by_plan, 10_000),
    "  least cost": (by_cost, 10_000),
    "ortools CP-SAT": (by_ortools, 100),
    "binpacking": (by_binpacking, 1000),
}
"""Each way with the most hives it is tried on; of more, the plain model would not end."""


def print_times() -> None:
    """Print a row for each batch and way, with its ratio to the first way."""
    print("hives  pieces  lengths  way                 found     bound   seconds       ×     MB")
    for count, grid in BATCHES:
        wanted = pieces(hives(count, grid))
        head = f"{count:5}  {sum(w.count for w in wanted):6}  {len(wanted):7}"
        first = None
        for name, (way, most) in WAYS.items():
            if count <= most:
                row = alone(partial(way, wanted, EIGHT_FEET))
                first = first or row.seconds
                found = "none" if row.found is None else f"{row.found:.1f}"
                bound = "" if row.bound is None else f"{row.bound:.1f}"
                print(
                    f"{head}  {name:15} {found:>9} {bound:>9} {row.seconds:9.3f}"
                    f" {row.seconds / first:7.1f} {row.megabytes:6.0f}",
                    flush=True,
                )


# ── a careful person ──────────────────────────────────────────────────────────────────────────


def print_careful() -> None:
    """Print what a hundred classes take by the search and by longest-first alone."""
    print(f"{CLASSES} classes of {HIVES} hives; lengths of boards at hand: none; prices invented")
    for title, same, boards, aim in (
        ("all hives different, 8 ft boards, fewest boards", False, EIGHT_FEET, "boards"),
        ("all hives different, 8 to 16 ft, least cost", False, STUDS, "cost"),
        ("one hive twelve times, 8 ft boards, fewest boards", True, EIGHT_FEET, "boards"),
        ("one hive twelve times, 8 to 16 ft, least cost", True, STUDS, "cost"),
    ):
        both = [_both(seed, same, boards, aim) for seed in range(CLASSES)]
        print(f"\n{title}")
        for name, plans in zip(
            ("longest first", "board_plan"), zip(*both, strict=True), strict=True
        ):
            _print_plans(name, plans)
        better = sum(plan.counted < careful.counted for careful, plan in both)
        print(f"  better in {better} of {CLASSES}; worse in {_worse(both)}")


def _both(seed: int, same: bool, boards: list[Board], aim: str) -> tuple[BoardPlan, BoardPlan]:  # noqa: FBT001 - a column of the table above
    some = [*hives(1, SIXTEENTHS, seed)] * HIVES if same else [*hives(HIVES, SIXTEENTHS, seed)]
    saw = {"kerf": YARD.kerf, "trim": YARD.end_trim, "aim": aim}
    wanted = pieces(some)
    return careful_plan(wanted, boards, **saw), board_plan(wanted, boards, **saw, seconds=5)


def _print_plans(name: str, plans: Sequence[BoardPlan]) -> None:
    waste = mean(float(plan.waste) for plan in plans)
    share = mean(float(plan.waste / plan.length_to_buy) for plan in plans)
    proved = sum(plan.proved for plan in plans)
    print(
        f"  {name:14} boards {mean(plan.boards for plan in plans):6.2f}   waste {waste:6.1f} in"
        f" ({share:5.1%})   price {mean(float(plan.price or 0) for plan in plans):7.2f}"
        f"   proved best {proved:3}"
    )


def _worse(both: Sequence[tuple[BoardPlan, BoardPlan]]) -> int:
    return sum(plan.counted > careful.counted for careful, plan in both)


if __name__ == "__main__":
    print_careful() if sys.argv[1:] == ["careful"] else print_times()
