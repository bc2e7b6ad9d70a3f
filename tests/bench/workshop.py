"""How long a plan takes, how near it comes to the bound, and beside what other ways find.

    python -m tests.bench.workshop            speed and memory
    python -m tests.bench.workshop bound      boards and sheets against the bound, 100 classes
    python -m tests.bench.workshop others     first fit alone, CP-SAT (boards), rectpack (sheets)

The last needs the extra `bench`. Seconds are this machine's; nothing in a plan depends on them.
"""

import sys
import time
from collections import Counter
from fractions import Fraction

import psutil

from hivecalc.hive import demo_hive, hive_from_text
from hivecalc.workshop import demo_yard, plan
from hivecalc.workshop.boards import room
from hivecalc.workshop.needs import batch, needed, stocks
from hivecalc.workshop.plan import boards_planned
from tests.test_workshop import invented_class


def sleeved(seed):
    """A class whose hives have boxes and sleeves."""
    return [
        hive_from_text(
            f'name = "{hive.name}"\n[measured]\nbox_length = "{20 + n / 16}"\n'
            'box_width = "16 1/4"\n'
            'box_height = "9 5/8"'
        )
        for n, hive in enumerate(invented_class(seed))
    ]


def speed():
    demo_yard()
    for name, hives in (
        ("1 hive", [demo_hive()]),
        ("12 different hives", invented_class(1)),
        ("12 different, with sleeves", sleeved(1)),
        ("100 different hives", invented_class(1, 100)),
    ):
        start = time.perf_counter()
        found = plan(hives, demo_yard())
        seconds = time.perf_counter() - start
        print(
            f"{name}: {seconds:.2f} s, {len(found.pieces)} pieces, {len(found.settings)} settings"
        )
    start = time.perf_counter()
    found = boards_of([demo_hive()] * 1000, "cost")
    seconds, many = time.perf_counter() - start, [len(cut.goods) for _, cut in found]
    print(f"1,000 hives' boards: {seconds:.1f} s, {many}")
    print(f"memory: {psutil.Process().memory_info().rss / 2**20:.0f} MB")


def boards_of(hives, aim):
    """Each kind of lumber's items, and how they are cut."""
    yard, tagged = demo_yard(), batch(hives)
    by_tag, found = {one.tag: one.hive for one in tagged}, []
    for kind in stocks([p for p in needed(tagged) if p.section], yard):
        made, *_ = boards_planned(kind, by_tag, yard, aim)
        found.append(([item for cut in made.goods for item in cut.items], made))
    return found


def bound():
    above, tight, sheets = {aim: Counter() for aim in ("boards", "cost")}, [], {}
    for seed in range(100):
        for aim, counted in above.items():
            found = boards_of(invented_class(1000 + seed), aim)
            counted[sum(float(f.counted - f.bound) for _, f in found)] += 1
            tight += [b.tight for _, f in found for b in f.goods]
    for seed in range(20):
        for cut in plan(invented_class(1000 + seed), demo_yard()).stock:
            told = sheets.setdefault(cut.stock.name, [0, 0])
            told[0] += float(cut.counted)
            told[1] += float(cut.bound)
    for aim, counted in above.items():
        print(f"{aim}, counted above the bound, and classes: {dict(sorted(counted.items()))}")
    print(f"tight boards: {sum(tight)} of {len(tight)}")
    for name, (counted, low) in sheets.items():
        print(f"{name}: {counted:g} coins for 20 classes, bound {low:g}, ratio {counted / low:.3f}")


def others():
    ours, first, best = 0, 0, 0
    for seed in range(20):
        (items, found), *_ = boards_of(invented_class(1000 + seed), "boards")
        longest = max(demo_yard().boards, key=lambda b: b.length <= 144 and b.length)
        sizes = [int((item.length + demo_yard().cut) * 64) + 1 for item in items]
        space = int(room(longest, demo_yard()) * 64)
        ours += len(found.goods)
        first += first_fit(sizes, space)
        best += cp_sat(sizes, space, len(found.goods))
    print(f"boards of 20 classes: ours {ours}, first fit alone {first}, CP-SAT {best}")
    mine, packed = 0, 0
    for seed in range(20):
        for kind in plan(invented_class(1000 + seed), demo_yard(), "boards").stock:
            mine += len(kind.goods)
            packed += guillotine(kind.stock)
    print(f"sheets of 20 classes, fewest: ours {mine}, rectpack guillotine {packed}")


def first_fit(sizes, space):
    rooms = []
    for size in sorted(sizes, reverse=True):
        at = next((n for n, left in enumerate(rooms) if left >= size), None)
        if at is None:
            rooms.append(space - size)
        else:
            rooms[at] -= size
    return len(rooms)


def cp_sat(sizes, space, known):
    """The fewest boards that CP-SAT finds in ten seconds, at most as many as are known."""
    from ortools.sat.python import cp_model

    fewest = -(-sum(sizes) // space)
    for boards in range(fewest, known):
        model = cp_model.CpModel()
        lies = [[model.new_bool_var("") for _ in range(boards)] for _ in sizes]
        for row in lies:
            model.add_exactly_one(row)
        for b in range(boards):
            model.add(sum(size * row[b] for size, row in zip(sizes, lies, strict=True)) <= space)
        solver = cp_model.CpSolver()
        solver.parameters.max_time_in_seconds = 10
        if solver.solve(model) in {cp_model.OPTIMAL, cp_model.FEASIBLE}:
            return boards
    return known


def guillotine(stock):
    """The fewest sheets of the largest size that rectpack's guillotine rules take."""
    import rectpack

    largest = max(stock.goods, key=lambda s: s.width * s.length)
    kerf = demo_yard().cut if stock.material == "plywood" else Fraction(0)
    turns = all(
        piece.part not in {"deck", "cover", "skirt_side", "skirt_end"} for piece in stock.pieces
    )
    fewest = None
    for algorithm in (
        rectpack.GuillotineBssfSas,
        rectpack.GuillotineBafMinas,
        rectpack.GuillotineBlsfLas,
    ):
        packer = rectpack.newPacker(pack_algo=algorithm, rotation=turns)
        for piece in stock.pieces:
            packer.add_rect(float(piece.width + kerf), float(piece.length + kerf))
        packer.add_bin(float(largest.width + kerf), float(largest.length + kerf), count=50)
        packer.pack()
        if sum(len(b) for b in packer) == len(stock.pieces):
            fewest = min(len(packer), fewest or 99)
    return fewest


if __name__ == "__main__":
    {"bound": bound, "others": others}.get(sys.argv[1] if len(sys.argv) > 1 else "", speed)()
