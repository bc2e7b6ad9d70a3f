"""Cutting sheets: published instances, trying every cut, the separate check, and bad input."""

# ruff: noqa: S311 - the dice of tests need no secrecy

import _thread
import random
import resource
import threading
from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import product
from pathlib import Path

import numpy as np
import pytest

from hivecalc.components import parts
from hivecalc.cutting.sheets import (
    Layout,
    Offcut,
    Piece,
    SheetPlan,
    Split,
    WantedSheet,
    cut_words,
    sheet_faults,
    sheet_plan,
)
from hivecalc.cutting.sheets.blocks import counts_of
from hivecalc.cutting.sheets.columns import Columns
from hivecalc.cutting.sheets.knapsack import Effort, best_block, block_above
from hivecalc.cutting.sheets.packing import greedy
from hivecalc.cutting.sheets.planning import NO_PRICE
from hivecalc.cutting.sheets.pricing import by_layouts, by_search, by_table
from hivecalc.cutting.sheets.problem import Kind, Problem, Stock, left_out
from hivecalc.cutting.sheets.record import Record
from hivecalc.cutting.sheets.search import searched
from hivecalc.cutting.sheets.worth import Worth
from hivecalc.cutting.wanted import STOPPED
from hivecalc.hive import HiveFaults, changed, demo_hive
from hivecalc.length import MM
from hivecalc.stock import SheetGoods
from tests.every_cut import cheapest, cuts, holds, mix_holds, small_instance

INSTANCES = Path(__file__).parent / "instances"
EIGHTH, KNIFE = Fraction(1, 8), Fraction(0)


def sheet(name, width, length, price=None, **more):
    price = None if price is None else Fraction(price)
    return SheetGoods(
        name, "plywood", Fraction(1, 2), Fraction(width), Fraction(length), price, **more
    )


WHOLE, HALF, QUARTER = (
    sheet("whole", 48, 96, 24),
    sheet("half", 48, 48, 14),
    sheet("quarter", 24, 48, 8),
)
PLYWOOD = (WHOLE, HALF, QUARTER)


def want(label, width, length, count=1, **more):
    return WantedSheet(label, Fraction(width), Fraction(length), count, **more)


def checked(wanted, sheets, kerf=EIGHTH, **more) -> SheetPlan:
    """Return the plan, after the separate check has found nothing wrong with it."""
    edges = {name: more[name] for name in ("trim", "keep_factory_edge") if name in more}
    plan = sheet_plan(wanted, sheets, kerf=kerf, **more)
    assert sheet_faults(plan, wanted, sheets, kerf, **edges) == []
    return plan


# ── published instances ─────────────────────────────────────────────────────────────────────────


def instance(name: str) -> tuple[Stock, list[Kind], list[int]]:
    """Return the sheet, the kinds and their values of a published instance."""
    lines = (INSTANCES / f"{name}.txt").read_text().splitlines()
    rows = [list(map(int, line.split())) for line in lines if not line.startswith("#")]
    many = rows[1][0] * rows[1][1]
    kinds = [Kind(row[0], row[1], row[2] if len(row) == 4 else many) for row in rows[2:]]
    return Stock(*rows[1], 1, 1), kinds, [row[-1] for row in rows[2:]]


# Optima: Christofides and Whitlock (1977) for cgcut, Beasley (1985) for gcut; both from memory, and
# proved once more by an exhaustive search written apart. The second number is without the limits on
# how many; only that search vouches for it.
OPTIMA = [
    ("cgcut1", 244, 249),
    ("cgcut2", 2892, 3076),
    ("cgcut3", 1860, 2240),
    ("gcut1", 56460, 56460),
]


@pytest.mark.parametrize(("name", "limited", "unlimited"), OPTIMA)
@pytest.mark.parametrize("step", [1, 2])
def test_the_best_block_of_a_published_instance_is_the_known_one(name, limited, unlimited, step):
    stock, kinds, values = instance(name)
    found = best_block(kinds, values, stock, Effort(60, step))
    assert (found.worth, found.bound) == (limited, limited)
    counts = counts_of(found.block, len(kinds))
    assert sum(n * value for n, value in zip(counts, values, strict=True)) == limited
    assert all(n <= kind.demand for n, kind in zip(counts, kinds, strict=True))
    assert block_above(kinds, values, stock, limited, Effort(60, step)).block is None
    assert unlimited <= Worth(kinds, values, (stock.width, stock.length), step).most


@pytest.mark.parametrize(("name", "_limited", "unlimited"), OPTIMA)
def test_the_table_of_a_published_instance_has_the_known_worth(name, _limited, unlimited):
    stock, kinds, values = instance(name)
    worth = Worth(kinds, values, (stock.width, stock.length))
    assert worth.most == unlimited
    counts = counts_of(worth.block(stock.width, stock.length), len(kinds))
    assert sum(n * value for n, value in zip(counts, values, strict=True)) == unlimited


# ── against every cut there is ──────────────────────────────────────────────────────────────────


def as_asked(stocks, pieces):
    sheets = [sheet(f"sheet {n}", w, long, cost) for n, (w, long, cost) in enumerate(stocks)]
    wanted = [
        want(f"piece {n}", w, long, turns=turns, factory_edge=edge)
        for n, (w, long, turns, edge) in enumerate(pieces)
    ]
    return wanted, sheets


def problem_of(stocks, kerf, pieces) -> Problem:
    kinds = [
        Kind(small.width + kerf, small.length + kerf, pieces.count(small), small.turns, small.edge)
        for small in sorted(set(pieces))
    ]
    return Problem(
        tuple(kinds), tuple(Stock(w + kerf, n + kerf, c, len(pieces)) for w, n, c in stocks)
    )


def cuttable_instance(seed: int):
    """Return an instance without the pieces that no sheet gives, and the least that it costs."""
    stocks, kerf, pieces = small_instance(seed)
    pieces = tuple(p for p in pieces if cheapest(stocks, kerf, (p,)) is not None)
    return stocks, kerf, pieces, cheapest(stocks, kerf, pieces)


@pytest.mark.parametrize("seed", range(120))
def test_a_plan_costs_what_trying_every_cut_finds(seed):
    stocks, kerf, pieces = small_instance(seed)
    wanted, sheets = as_asked(stocks, pieces)
    *_, given, least = cuttable_instance(seed)
    plan = checked(wanted, sheets, Fraction(kerf), keep_factory_edge=True)
    assert sum(missing.count for missing in plan.unplanned) == len(pieces) - len(given)
    assert plan.price == plan.bound == least
    assert plan.proved


WITH_PIECES = [seed for seed in range(120, 220) if cuttable_instance(seed)[2]]


@pytest.mark.parametrize("seed", WITH_PIECES)
def test_the_search_for_a_class_is_never_wrong_about_what_trying_every_cut_finds(seed):
    """The search for many pieces, on few: its bound holds, and so does what it calls proved."""
    stocks, kerf, pieces, least = cuttable_instance(seed)
    problem = problem_of(stocks, kerf, pieces)
    record = Record(problem, seconds=1)
    record.improve(greedy(problem))
    searched(record)
    assert not any(left_out(problem.demands, record.best))
    assert record.bound <= least <= record.cost
    assert record.cost == least or not record.proved


@pytest.mark.parametrize("seed", WITH_PIECES[::2])
def test_a_certificate_never_refutes_a_mix_that_holds_all_pieces(seed):
    stocks, kerf, pieces, least = cuttable_instance(seed)
    problem = problem_of(stocks, kerf, pieces)
    mixes = product(range(len(pieces) + 1), repeat=2)
    good = min((mix for mix in mixes if mix_holds(stocks, kerf, pieces, mix)), key=problem.cost)
    assert problem.cost(good) == least
    for pricing in (by_table(problem, 1), by_table(problem, 2), by_search(problem, Effort(1))):
        columns = Columns(problem, pricing, greedy(problem))
        assert columns.refuting(good, seconds=5) is None
        assert all(certificate.allows(good) for certificate in columns.grown(seconds=5))


@pytest.mark.parametrize("seed", range(40))
def test_the_table_agrees_with_trying_every_cut(seed):
    stocks, kerf, pieces = small_instance(seed)
    problem = problem_of(stocks, kerf, pieces)
    values = [random.Random(seed + kind.area).randint(1, 30) for kind in problem.kinds]

    @cache
    def worth(width, length):
        single = [
            value
            for kind, value in zip(problem.kinds, values, strict=True)
            for _, wide, long in kind.ways()
            if wide <= width and long <= length
        ]
        parted = (worth(*low) + worth(*high) for low, high in cuts(width, length, 0))
        return max([0, *single, *parted])

    @cache
    def around(width, length):
        """Return what fits around a block: it may be taken for a bigger one, or get a strip."""
        rest_wide, rest_long = wide - width, long - length
        beside = (worth(x, length) + around(width + x, length) for x in range(1, rest_wide + 1))
        behind = (worth(width, y) + around(width, length + y) for y in range(1, rest_long + 1))
        return max([0, *beside, *behind])

    wide, long, _ = stocks[0]
    found = Worth(problem.kinds, values, (wide, long))
    assert found.of(wide, long) == worth(wide, long)
    for width, length in product(found.wide.sizes, found.long.sizes):
        at = np.array([width]), np.array([length])
        assert found.around(*at).tolist() == [around(int(width), int(length))]


@pytest.mark.parametrize("seed", range(40))
def test_the_best_block_agrees_with_trying_every_cut(seed):
    (first, _), kerf, pieces = small_instance(seed)
    problem = problem_of([first], kerf, pieces)
    values = [random.Random(seed + kind.area).randint(1, 30) for kind in problem.kinds]
    kinds = sorted(set(pieces))
    worths = []
    for counts in product(*(range(kind.demand + 1) for kind in problem.kinds)):
        taken = [small for small, n in zip(kinds, counts, strict=True) for _ in range(n)]
        if holds(first[0], first[1], kerf, tuple(taken)):
            worths.append(sum(n * value for n, value in zip(counts, values, strict=True)))
    found = best_block(problem.kinds, values, problem.stocks[0])
    assert found.worth == found.bound == max(worths)


def test_layouts_from_a_table_that_is_rounded_up_can_be_cut():
    kinds = (Kind(137, 218, 9, turns=True), Kind(17, 173, 9), Kind(79, 178, 9, turns=True))
    problem = Problem(kinds, (Stock(385, 769, 1, 9),))
    priced = by_layouts(problem, 8)([kind.area for kind in kinds], [0])
    block = priced.patterns[0].block
    assert block.width <= 385
    assert block.length <= 769
    assert not priced.most


# ── the separate check catches what is wrong ────────────────────────────────────────────────────

TWO = [want("deck", 20, 30, 2, turns=False)]
ROW = Split(
    "along", Fraction(20), Piece("deck"), Split("along", Fraction(20), Piece("deck"), Offcut())
)
GOOD = Split("across", Fraction(30), ROW, Offcut())


def plan_of(tree, price=14, stock=HALF, count=1, **more) -> SheetPlan:
    return SheetPlan((Layout(stock, count, tree, EIGHTH),), Fraction(price), proved=True, **more)


def faults(plan, wanted=TWO, sheets=PLYWOOD, **more):
    return sheet_faults(plan, wanted, sheets, EIGHTH, **more)


def test_a_good_layout_passes():
    assert faults(plan_of(GOOD)) == []


def turned(tree):
    return replace(tree, low=replace(tree.low, low=Piece("deck", turned=True)))


BAD_TREES = {
    "missing": (
        Split("across", Fraction(30), replace(ROW, high=Offcut()), Offcut()),
        "2 are wanted, 1 are",
    ),
    "twice": (replace(GOOD, high=replace(GOOD, high=Offcut())), "beyond those that are wanted"),
    "turned": (turned(GOOD), "of 30 × 20 in are cut beyond"),
    "too narrow": (Split("across", Fraction(29), ROW, Offcut()), "20 × 29 in are cut beyond"),
    "beyond": (Split("across", Fraction(60), ROW, Offcut()), "lies beyond its part"),
}


@pytest.mark.parametrize("name", BAD_TREES)
def test_a_bad_tree_is_caught(name):
    tree, words = BAD_TREES[name]
    assert any(words in fault for fault in faults(plan_of(tree))), faults(plan_of(tree))


class Drawn(Layout):
    """A layout that tells of pieces that its cuts do not give."""

    placed = ()


def drawn(*places, stock=HALF):
    """Return a plan with decks of 20 × 30 in at these places, whatever the cuts say."""
    layout = Drawn(stock, 1, Offcut(), EIGHTH)
    object.__setattr__(
        layout,
        "placed",
        tuple(
            Layout(stock, 1, GOOD, EIGHTH).placed[0]._replace(x=Fraction(x), y=Fraction(y))
            for x, y in places
        ),
    )
    return SheetPlan((layout,), Fraction(14), proved=True)


PLACES = {
    "over one another": [(0, 0), (19, 0)],
    "no kerf between": [(0, 0), (20, 0)],
    "beyond the edge": [(0, 0), (Fraction(225, 8), 0)],
    "do not leave the pieces": [(0, 0), (21, 0)],
}


@pytest.mark.parametrize("words", PLACES)
def test_pieces_that_lie_wrong_are_caught(words):
    assert any(words in fault for fault in faults(drawn(*PLACES[words])))


def test_a_layout_that_no_cut_from_edge_to_edge_frees_is_caught():
    """Four pieces around a fifth, each as long as two: the pinwheel, a known example."""
    around = [(0, 0, 30, 15), (31, 0, 15, 30), (16, 31, 30, 15), (0, 16, 15, 30), (16, 16, 14, 14)]
    placed = tuple(
        Layout(HALF, 1, GOOD, EIGHTH)
        .placed[0]
        ._replace(label=f"vane {n}", x=x, y=y, width=w, length=long)
        for n, (x, y, w, long) in enumerate([tuple(map(Fraction, each)) for each in around])
    )
    layout = Drawn(HALF, 1, Offcut(), EIGHTH)
    object.__setattr__(layout, "placed", placed)
    wanted = [want(p.label, p.width, p.length) for p in placed]
    plan = SheetPlan((layout,), Fraction(14), proved=True)
    assert any("no cut from edge to edge parts vane 0" in fault for fault in faults(plan, wanted))
    object.__setattr__(layout, "placed", placed[:4])
    assert any("no cut from edge to edge" in fault for fault in faults(plan, wanted[:4]))
    object.__setattr__(layout, "placed", placed[1:])
    assert not any("no cut from edge to edge" in fault for fault in faults(plan, wanted[1:]))


def test_a_turned_piece_that_must_not_be_is_caught():
    tree = Split(
        "across",
        Fraction(20),
        Split("along", Fraction(30), Piece("deck", turned=True), Offcut()),
        Offcut(),
    )
    one = [want("deck", 20, 30, turns=False)]
    assert faults(plan_of(tree), one) == [
        "deck: it must not be turned, and it lies across the sheet."
    ]
    assert faults(plan_of(tree), [replace(one[0], turns=True)]) == []


def test_sheets_that_are_not_there_and_bounds_that_lie_are_caught():
    few = replace(HALF, count=1)
    four = [replace(TWO[0], count=4)]
    assert faults(plan_of(GOOD, 28, few, 2), four, [few]) == ["half: 2 are cut, and there are 1."]
    assert faults(plan_of(GOOD), sheets=[WHOLE]) == ["half: there is no such sheet in stock."]
    assert faults(plan_of(GOOD, 15))[0] == "The bound 15 is above what the plan takes, 14."
    assert "told to be proved" in faults(plan_of(GOOD, 13))[0]


def test_a_piece_in_what_is_trimmed_off_is_caught():
    assert any("beyond the edge" in fault for fault in faults(plan_of(GOOD), trim=Fraction(1, 4)))


# ── what is asked for is kept to ────────────────────────────────────────────────────────────────


def test_turning_saves_a_sheet_only_where_it_may_be_turned():
    strip = sheet("strip", 20, 96, 5)
    wanted = [want("panel", 30, 19, 3)]
    assert checked(wanted, [strip]).price == 5
    fixed = checked([replace(wanted[0], turns=False)], [strip])
    assert fixed.layouts == ()
    assert fixed.unplanned[0].why == (
        "it is 30 × 19 in and must not be turned, and the largest sheet gives 20 × 96 in"
    )


def test_a_kerf_decides_whether_a_sheet_is_enough():
    panels = [want("panel", 24, 48, 4)]
    assert checked(panels, [HALF], KNIFE).sheets == 2
    assert checked(panels, [HALF], EIGHTH).sheets == 4


def test_the_cheapest_mix_of_sheets_is_bought():
    decks = [want("deck", 23, 47, 3, turns=False)]
    assert checked(decks, PLYWOOD).price == 22  # a half sheet and a quarter, 14 + 8
    dear = (WHOLE, replace(HALF, price=Fraction(17)), QUARTER)
    assert checked(decks, dear).price == 24  # a whole sheet, or three quarters


def test_of_plans_that_cost_the_same_the_one_with_fewer_sheets_is_taken():
    even = (WHOLE, replace(HALF, price=Fraction(16)), QUARTER)
    assert checked([want("deck", 23, 47, 2)], even).sheets == 1


def test_with_the_aim_sheets_the_fewest_are_bought_and_no_bigger_ones_than_needed():
    decks = [want("deck", 23, 47, 3)]
    plan = checked(decks, PLYWOOD, aim="sheets")
    assert (plan.sheets, plan.aim, plan.bound) == (1, "sheets", 1)
    assert plan.layouts[0].sheet == WHOLE
    assert (
        checked(decks[:1], [WHOLE, replace(HALF, width=Fraction(80))], aim="sheets")
        .layouts[0]
        .sheet.name
        == "half"
    )


def test_without_a_price_the_count_is_right_and_that_is_said():
    plan = checked([want("deck", 23, 47, 3)], (WHOLE, replace(HALF, price=None)))
    assert (plan.aim, plan.sheets, plan.bound, plan.notes) == ("sheets", 1, 1, (NO_PRICE,))


def test_what_is_at_hand_is_used_first():
    rest = sheet("offcut", 24, 30, 0, count=1, at_hand=True)
    plan = checked([want("deck", 20, 25, 3, turns=False)], (*PLYWOOD, rest))
    assert plan.layouts[0].sheet == rest
    assert plan.price == 14
    assert checked([want("deck", 20, 25)], (*PLYWOOD, rest)).price == 0


def test_a_limited_sheet_gives_as_much_as_it_can_and_the_rest_is_told():
    few = replace(HALF, count=1)
    plan = checked([want("deck", 23, 47, 3, turns=False), want("lid", 10, 10)], [few])
    assert [(u.label, u.count, u.why) for u in plan.unplanned] == [
        ("deck", 1, "the sheets that there are were used up"),
        ("lid", 1, "the sheets that there are were used up"),
    ]
    others = checked(
        [want("deck", 23, 47, 3, turns=False), want("lid", 10, 10)],
        [few, sheet("small", 12, 12, 1)],
    )
    assert [u.label for u in others.unplanned] == ["deck"]


def test_many_pieces_and_a_limited_sheet():
    """The same where there are too many pieces to look at every set of them."""
    sizes = [(10 + n % 3, 11 + n % 5) for n in range(15)]
    wanted = [want(f"lid {n}", *size, turns=False) for n, size in enumerate(sizes)]
    plan = checked(wanted, [replace(HALF, count=1)])
    assert plan.sheets == 1
    assert 1 <= sum(u.count for u in plan.unplanned) <= 6


def test_no_stock_at_all_plans_nothing_and_says_so():
    for sheets in ([], [replace(WHOLE, count=0)]):
        plan = checked([want("deck", 20, 20)], sheets)
        assert plan.layouts == ()
        assert [u.why for u in plan.unplanned] == ["there is no sheet to cut it from"]
    assert checked([], PLYWOOD).sheets == 0
    assert checked([want("deck", 20, 20, 0)], PLYWOOD).unplanned == ()


def test_a_piece_bigger_than_any_sheet_is_told_and_the_rest_planned():
    plan = checked([want("wall", 60, 100), want("deck", 20, 20)], PLYWOOD)
    assert [(u.label, u.why) for u in plan.unplanned] == [
        ("wall", "it is 60 × 100 in, and the largest sheet gives 48 × 96 in")
    ]
    assert plan.price == 8
    metric = checked([want("wall", 60, 100)], PLYWOOD, units="mm")
    assert metric.unplanned[0].why.startswith("it is 1524 × 2540 mm, and")


def test_trim_comes_off_every_edge_of_a_new_sheet_first():
    panel = [want("panel", 23, 47)]
    assert checked(panel, [QUARTER], trim=Fraction(1, 2)).sheets == 1
    assert checked(panel, [QUARTER], trim=Fraction(5, 8)).unplanned[0].why == (
        "it is 23 × 47 in, and the largest sheet gives 22 3/4 × 46 3/4 in"
    )
    layout = checked(panel, [QUARTER], trim=EIGHTH).layouts[0]
    assert [cut.low.what for cut in layout.cuts[:2]] == ["nothing", "part"]
    at_hand = replace(QUARTER, at_hand=True, count=1)
    assert checked(panel, [at_hand], trim=Fraction(1)).layouts[0].placed[0].x == 0


@pytest.mark.parametrize("count", [2, 9])
def test_a_factory_edge_is_kept_for_the_pieces_that_want_it(count):
    """By looking at every set of pieces, and by the search for many."""
    decks = [
        want("deck", 17, 20, count, turns=False, factory_edge=True),
        *(want(f"lid {n}", 9 + n, 8, count) for n in range(count)),
    ]
    free = checked(decks, PLYWOOD, seconds=2)
    kept = checked(decks, PLYWOOD, keep_factory_edge=True, trim=Fraction(1, 4), seconds=2)
    for layout in kept.layouts:
        assert all(p.x == 0 for p in layout.placed if p.label == "deck")
        assert all(p.x + p.width <= 48 - Fraction(1, 4) for p in layout.placed)
    assert kept.price >= free.price
    at_hand = [replace(QUARTER, at_hand=True, count=90)]
    none = checked(decks[:1], at_hand, keep_factory_edge=True)
    assert (
        none.unplanned[0].why == "one of its sides should be a factory edge, and no sheet has one"
    )


def test_only_one_piece_of_a_row_lies_on_the_factory_edge():
    """Two decks side by side fit on a half sheet; where both want the edge, each has a sheet."""
    decks = [want("deck", 17, 40, 2, turns=False, factory_edge=True)]
    assert checked(decks, PLYWOOD).price == 14
    assert checked(decks, PLYWOOD, keep_factory_edge=True).price == 16


def test_pieces_of_one_size_keep_their_own_labels():
    wanted = [want("hive A: lid", 20, 10, 3), want("hive B: lid", 10, 20, 2, turns=True)]
    plan = checked(wanted, PLYWOOD)
    labels = sorted(
        p.label for layout in plan.layouts for p in layout.placed for _ in range(layout.count)
    )
    assert labels == ["hive A: lid"] * 3 + ["hive B: lid"] * 2


def test_one_big_offcut_is_left_and_few_cuts_are_made():
    """Two lids on a half sheet: all its length beside one column of lids can be left."""
    layout = checked([want("lid", 10, 20, 2)], [HALF]).layouts[0]
    assert layout.offcuts[0].area == 48 * (48 - 10 - EIGHTH)
    assert len(layout.cuts) == 3


# ── the order of cuts, and its words ────────────────────────────────────────────────────────────


def test_cuts_come_longest_first_as_far_as_they_can():
    layout = checked([want("deck", 17, 20, 4), want("strip", 2, 40, 3)], [WHOLE]).layouts[0]
    made = {""}
    for cut in layout.cuts:
        assert cut.part in made
        rest = [other for other in layout.cuts[cut.number :] if other.part in made]
        assert all(other.length <= cut.length for other in rest)
        made |= {r.name for r in (cut.low, cut.high) if r.what == "part"}
    assert [cut.number for cut in layout.cuts] == list(range(1, len(layout.cuts) + 1))


def test_the_words_say_which_part_where_to_mark_it_and_what_comes_off():
    """In an invented example, worked out by hand."""
    said = cut_words(plan_of(GOOD).layouts[0])
    assert "blade goes beyond the mark" in said[0]
    assert (
        "\n".join(said[1:])
        == """\
1. Crosscut the whole sheet, 48 × 48 in: mark it 30 in from its near end. \
Near you: part A, 48 × 30 in; beyond: an offcut, 48 × 17 7/8 in.
2. Rip part A, 48 × 30 in: mark it 20 in from its left edge. \
On the left: deck, 20 × 30 in; on the right: part B, 27 7/8 × 30 in.
3. Rip part B, 27 7/8 × 30 in: mark it 20 in from its left edge. \
On the left: deck, 20 × 30 in; on the right: an offcut, 7 3/4 × 30 in."""
    )


def test_the_words_for_a_knife_a_count_and_a_trimmed_edge():
    foam = Layout(HALF, 3, GOOD, KNIFE)
    said = cut_words(foam, "mm")
    assert "Cut on the mark" in said[0]
    assert said[1] == "Cut 3 sheets like this."
    assert said[2].startswith(
        "1. Cut the whole sheet across, 1219.2 × 1219.2 mm: mark it 762 mm from"
    )
    whole = Layout(HALF, 1, Piece("deck"), EIGHTH)
    assert cut_words(whole)[1:] == ("The sheet is the deck as it comes: no cut is needed.",)
    edge = Layout(HALF, 1, Split("along", KNIFE, None, Piece("rest")), EIGHTH)
    assert cut_words(edge)[1] == (
        "1. Rip the whole sheet, 48 × 48 in: take the width of the blade off its left edge. "
        "On the right: rest, 47 7/8 × 48 in."
    )


@pytest.mark.parametrize(
    ("material", "kerf", "tool"),
    [("plywood", EIGHTH, "blade"), ("foam", KNIFE, "knife"), ("mesh", KNIFE, "snips")],
)
def test_what_is_said_first_goes_for_the_tool(material, kerf, tool):
    sheet = SheetGoods("roll", material, *map(Fraction, (1, 24, 60)))
    tree = Split("across", Fraction(20), Piece("piece"), Offcut())
    first = cut_words(Layout(sheet, 1, tree, kerf))[0]
    assert [word for word in ("knife", "snips") if word in first] == [tool] * (tool != "blade")
    assert ("saw's manual" in first) == (tool == "blade")


# ── one hive, a class, many ─────────────────────────────────────────────────────────────────────


def sheets_of(some, kerf=EIGHTH):
    """Return what hives need of sheets: pieces by material and thickness, in sixteenths."""
    needs: dict[tuple[str, Fraction], list[WantedSheet]] = {}
    for number, hive in enumerate(some):
        for piece in parts(hive):
            if piece.material in {"plywood", "foam", "sheet"} and piece.thickness is not None:
                sides = (Fraction(int(side.value * 16), 16) for side in (piece.width, piece.length))
                fixed = piece.part in {
                    "deck",
                    "cover",
                    "skin_side",
                    "skin_end",
                    "skirt_side",
                    "skirt_end",
                }
                label = f"{number}: {piece.component} {piece.part}"
                need = needs.setdefault((piece.material, piece.thickness.value), [])
                need.append(WantedSheet(label, *sides, piece.quantity, turns=not fixed))
    for (material, _), wanted in needs.items():
        yield wanted, kerf if material == "plywood" else KNIFE


def hives(count, seed):
    """Return invented hives in sleeves: sizes anywhere between 18 and 26 by 14 and 20 in."""
    dice = random.Random(seed)
    for _ in range(count):
        length, width = (
            Fraction(dice.randint(16 * low, 16 * high), 16) for low, high in ((18, 26), (14, 20))
        )
        sizes = {"box_length": length - 4, "box_width": width - 3, "box_height": Fraction(77, 8)}
        yield changed(demo_hive(), sizes)


@pytest.mark.parametrize("seed", range(5))
def test_one_hive_is_proved(seed):
    for wanted, kerf in sheets_of(hives(1, seed)):
        plan = checked(wanted, PLYWOOD, kerf, seconds=2)
        assert plan.proved
        assert plan.unplanned == ()


def test_a_class_of_twelve_is_at_most_one_sheet_above_the_bound():
    for wanted, kerf in sheets_of(hives(12, 1)):
        plan = checked(wanted, PLYWOOD, kerf, seconds=3)
        assert plan.unplanned == ()
        assert plan.gap <= WHOLE.price


def test_a_thousand_hives_alike_are_planned_as_fast_as_a_few():
    """Time grows by the number of different pieces, not of hives."""
    for wanted, kerf in sheets_of(hives(1, 3)):
        many = [replace(piece, count=1000 * piece.count) for piece in wanted]
        plan = sheet_plan(many, PLYWOOD, kerf=kerf, seconds=10)
        assert plan.gap <= WHOLE.price
        cut = sum(layout.count * len(layout.placed) for layout in plan.layouts)
        assert cut == sum(piece.count for piece in many)


def test_hives_in_mm_and_in_inches_are_cut_from_one_sheet():
    wanted = [want("deck", 20, 25, turns=False)]
    wanted += [WantedSheet("metric deck", 500 * MM, 620 * MM, 2, turns=False)]
    plan = checked(wanted, PLYWOOD)
    assert plan.proved
    assert {p.label for layout in plan.layouts for p in layout.placed} == {"deck", "metric deck"}


# ── told on the way, stopped on the way ─────────────────────────────────────────────────────────


def a_class():
    return max(sheets_of(hives(12, 1)), key=lambda need: sum(piece.count for piece in need[0]))


def test_the_search_tells_how_far_it_is():
    heard = []
    wanted, kerf = a_class()
    plan = checked(wanted, PLYWOOD, kerf, seconds=2, tell=heard.append)
    assert all(progress.bound <= progress.best for progress in heard[1:])
    assert [p.best for p in heard] == sorted((p.best for p in heard), reverse=True)
    assert [p.bound for p in heard] == sorted(p.bound for p in heard)
    assert (heard[-1].best, heard[-1].bound) == (plan.price, plan.bound)


@pytest.mark.parametrize("at", [1, 2])
def test_stopped_by_ctrl_c_it_gives_the_best_so_far(at):
    def stop(_progress, times=[]):  # noqa: B006 - counts its calls
        times.append(None)
        if len(times) >= at:
            raise KeyboardInterrupt

    wanted, kerf = a_class()
    plan = checked(wanted, PLYWOOD, kerf, tell=stop)
    assert plan.notes == (STOPPED,)
    assert plan.unplanned == ()


def test_a_real_ctrl_c_ends_it_with_the_best_so_far():
    wanted, kerf = a_class()
    threading.Timer(1, _thread.interrupt_main).start()
    plan = checked(wanted, PLYWOOD, kerf, seconds=1000)
    assert plan.notes == (STOPPED,)
    assert plan.unplanned == ()


def test_memory_stays_small():
    wanted, kerf = a_class()
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    checked(wanted, PLYWOOD, kerf, seconds=1)
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 300_000


# ── bad input ───────────────────────────────────────────────────────────────────────────────────

BAD = [
    ({"kerf": Fraction(-1)}, {}, "kerf: −1 in is below zero; a kerf is 0 (a knife) or more."),
    (
        {"kerf": Fraction(2)}, {},
        "kerf: 2 in is as much as the narrowest piece or more; a kerf is less than 2 in here.",
    ),
    (
        {"trim": Fraction(-1)}, {},
        "trim: −1 in is below zero; what is trimmed off an edge is 0 or more.",
    ),
    (
        {"trim": Fraction(1, 16)}, {},
        "trim: 1/16 in is less than the kerf; what is trimmed off an edge is 0, or 1/8 in or more.",
    ),
    ({"aim": "beauty"}, {}, "aim: “beauty” is none; cost or sheets is accepted."),
    ({}, {"width": KNIFE}, "pieces, “deck”: its width is 0 in; it must be more than 0."),
    ({}, {"count": -2}, "pieces, “deck”: its count is -2; it must be 0 or more."),
    (
        {}, {"count": 200_000},
        "pieces: they are 200,000; 100,000 are planned at once; plan a part of them at a time.",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("asked", "piece", "sentence"), BAD)
def test_bad_pieces_and_saws_are_told_in_one_sentence(asked, piece, sentence):
    deck = replace(want("deck", 2, 30), **piece)
    with pytest.raises(HiveFaults) as told:
        sheet_plan([deck], PLYWOOD, **{"kerf": EIGHTH, **asked})
    assert [str(fault) for fault in told.value.faults] == [sentence]


BAD_SHEETS = [
    (
        {"price": Fraction(-1)},
        "sheets, “half”: its price is below zero; it must be 0 or more, or left out.",
    ),
    ({"count": -1}, "sheets, “half”: its count is -1; it must be 0 or more."),
    ({"length": Fraction(-2)}, "sheets, “half”: its length is −2 in; it must be more than 0."),
    ({"at_hand": True}, "sheets, “half”: it is at hand without a count; write how many there are."),
]


@pytest.mark.parametrize(("wrong", "sentence"), BAD_SHEETS)
def test_bad_sheets_are_told_in_one_sentence(wrong, sentence):
    with pytest.raises(HiveFaults) as told:
        sheet_plan([want("deck", 2, 30)], [replace(HALF, **wrong)], kerf=EIGHTH)
    assert [str(fault) for fault in told.value.faults] == [sentence]


def test_every_fault_is_told_at_once():
    with pytest.raises(HiveFaults) as told:
        sheet_plan([want("deck", 0, -1)], [replace(HALF, count=-1)] * 201, kerf=Fraction(-1))
    assert len(told.value.faults) == 101


def test_a_price_of_nothing_is_a_price():
    plan = checked([want("deck", 23, 47, 3)], [replace(QUARTER, price=KNIFE), HALF])
    assert (plan.price, plan.sheets, plan.proved) == (0, 3, True)


def test_very_small_pieces_fill_a_sheet():
    plan = checked([want("tag", 2, 2, 250)], [QUARTER], KNIFE, seconds=2)
    assert plan.sheets == 1


def test_a_plan_that_had_no_time_is_not_called_proved() -> None:
    source = random.Random(6)
    sizes = [(source.randrange(140, 420), source.randrange(180, 700)) for _ in range(80)]
    wanted = [WantedSheet(f"{w} x {n}", Fraction(w, 16), Fraction(n, 16), 3) for w, n in sizes]
    sheet = SheetGoods("sheet", "plywood", Fraction(1, 2), Fraction(48), Fraction(96))
    hurried, long = (sheet_plan(wanted, [sheet], kerf=Fraction(1, 8), seconds=s) for s in (0, 4))
    assert hurried.bound <= sum(layout.count for layout in long.layouts)
