"""What to buy: fasteners joint by joint, packages, money, the basket and what else could be bought.

How many fasteners a joint takes is common practice, no published source.
"""

import json
import math
from dataclasses import replace
from fractions import Fraction
from importlib import import_module
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hivecalc.components import built, values
from hivecalc.cutting import BoardPlan, Progress
from hivecalc.cutting.needs import SheetNeed
from hivecalc.cutting.planner import HURRIED, Planner
from hivecalc.cutting.plans import BoardsCut
from hivecalc.cutting.wanted import STOPPED
from hivecalc.hive import Hive, HiveFaults, changed, demo_hive, hive_from_text
from hivecalc.shopping import (
    MOST_HIVES,
    Alternative,
    Group,
    Line,
    alternatives,
    amount,
    basket,
    fixings,
    more_or_less,
    small_goods,
)
from hivecalc.shopping.fixings import length_remark
from hivecalc.shopping.packages import packed, with_spare
from hivecalc.shopping.sheets import sheet_group
from hivecalc.space import AXES, Each, Every, Held, assembled, contacts, held, joints
from hivecalc.stock import Package, Yard, demo_yard, yard_from_text
from hivecalc.tables.shop import basket_json, basket_table, basket_text, joints_table
from hivecalc.tables.texts import csv_text, json_text
from tests.hives import HIVES

SMALL = hive_from_text('name = "Small hive"\nmeasured = {hive_length = 20, hive_width = 16}')
OUTWARDS = hive_from_text("[chosen]\nframes = 10")
WITH_BOX = hive_from_text("[chosen]\nframes = 14")

# The small hive by hand, 20 by 16 in, all else as it is usual. In inches:
#   opening 17 x 13; screen 16 7/8 x 12 7/8; rim 20 1/2 x 16 1/2, its front and back 13 1/2.
# 3 in screws: 2 joints of the frame and 4 of the rim, 2 each: 12.
# Hanger bolts: 2.
# 1 1/4 in brads, one for every 6 in, at least 2:
#   lower runners 16 1/2 twice and 11 1/2: 3 + 3 + 2; upper ones 16 1/2 twice and 11: 3 + 3 + 2
#   retainers 17 1/2 twice: 3 + 3
#   skirt on the rim's sides, 20 1/2 twice: 4 + 4; on front and back, 13 1/2: 3 + 3; its ends: 4
#   16 + 6 + 18 = 40
# 3/4 in brads, the same way:
#   screen: 16 7/8 twice and 11 3/8 twice: 3 + 3 + 2 + 2
#   inner cover, above and below: 20 twice, 5 1/2 twice, 13: 2 x (4 + 4 + 2 + 2 + 3)
#   10 + 30 = 40
# Deck screws: landing board 13, one for every 6 in, 3, and one at each end: 5;
#   deck, one for every 8 in, at least 3: 20 1/2 twice and 13 1/2 twice: 3 on each side: 12
#   5 + 12 = 17
# Cover 21 x 25, screw line 3 in from its edge: 15 x 19. Corners and half-way, then no two are more
#   than 12 in apart: 8 screws, 8 dabs.
# Glue: frame 2 x 2 3/4, screen's corners 8 x 3/4, landing board 13: 24 1/2
#   rim 2 x 3 1/2 + 2 x 1 1/2, skirt 2 x 20 1/2 + 2 x 13 1/2, its corners 4 x 2: 86
#   inner cover 2 x (20 + 20 + 11 + 13), its corners 4 x 1 1/2: 134
#   24 1/2 + 86 + 134 = 244 1/2, so 245
BY_HAND = {
    "frame_screw": 12,
    "hanger_bolt": 2,
    "long_brad": 40,
    "short_brad": 40,
    "deck_screw": 17,
    "cover_screw": 8,
    "silicone": 8,
    "glue": 245,
}

# A yard with one size of each, so that the counts can be worked out by hand:
#   Studs: 107 1/2 in of whole pieces and more that is ripped do not go into one of 143 1/2 in.
#   The rest is ripped from two blanks of 13 and 13 1/2 in and from about 51 in for all strips:
#   less than the 287 in of two.
#   The landing board takes one 1x4. Deck, 20 x 24, and four pieces of skirt, 2 in wide and at most
#   21 1/2 long, go into 24 x 48; so do two sheets of 16 x 20; panels of 12 3/4 x 16 3/4 and
#   13 1/2 x 18 into 24 x 96; the cover of 21 x 25 into 48 x 48; the mesh of 12 7/8 x 16 7/8 into
#   24 x 60.
# With 10 % to spare: 14 screws, 19 deck screws, 9 cover screws, 44 brads of each kind, 9 dabs,
# glue for 270 in: one package of each. Bolts are not lost: one pair.
ONE_SIZE = """
currency = "coins"
board = [
    {name = "stud", material = "2x4", length = "12 ft", price = "6.85"},
    {name = "landing", material = "1x4", length = "8 ft", price = 3.95},
]
sheet = [
    {name = "deck", material = "plywood", thickness = "1/2", width = 24, length = 48, price = 8.25},
    {name = "thin", material = "plywood", thickness = "1/4", width = 24, length = 48, price = 5.1},
    {name = "foam", material = "foam", thickness = "1", width = 24, length = 96, price = 11.40},
    {name = "top", material = "plastic", thickness = "4 mm", width = 48, length = 48, price = 9.05},
    {name = "mesh", material = "mesh", thickness = "0.034", width = 24, length = 60, price = 6.35},
]
package = [
    {name = "screws", item = "frame_screw", holds = 25, price = 2.95},
    {name = "deck screws", item = "deck_screw", holds = 25, price = 2.45},
    {name = "cover screws", item = "cover_screw", holds = 25, price = 1.95},
    {name = "long brads", item = "long_brad", holds = 100, price = 1.85},
    {name = "short brads", item = "short_brad", holds = 100, price = 1.75},
    {name = "bolts", item = "hanger_bolt", holds = 2, price = 2.35},
    {name = "silicone", item = "silicone", holds = 200, price = 3.65},
    {name = "glue", item = "glue", covers = "25 ft", price = 4.15},
]
"""
#   13.70 + 3.95 + 8.25 + 5.10 + 11.40 + 9.05 + 6.35
#   + 2.95 + 2.45 + 1.95 + 1.85 + 1.75 + 2.35 + 3.65 + 4.15
IN_ALL = Fraction("78.90")
BOUGHT = {
    "stud": 2, "landing": 1, "deck": 1, "thin": 1, "foam": 1, "top": 1, "mesh": 1,
    "screws": 1, "deck screws": 1, "cover screws": 1, "long brads": 1, "short brads": 1, "bolts": 1,
    "silicone": 1, "glue": 1,
}  # fmt: skip
# Three of them: 3 x 12 x 1.1 = 39.6, so 40 screws: 2 bags; 56.1, so 57 deck screws: 3; 27 cover
# screws: 2; 132 brads of each: 2 and 2; 6 bolts: 3 pairs; 27 dabs: 1 tube; glue for 808.5, so
# 809 in: 3 bottles of 300.
SMALL_GOODS_OF_THREE = {
    "screws": 2, "deck screws": 3, "cover screws": 2, "long brads": 2, "short brads": 2, "bolts": 3,
    "silicone": 1, "glue": 3,
}  # fmt: skip


def one_size() -> Yard:
    return yard_from_text(ONE_SIZE)


def bought(lines: tuple[Line, ...]) -> dict[str, int]:
    return {line.name: line.count for line in lines if not line.at_hand}


def unwrapped(text: str) -> str:
    return " ".join(text.split())


# ── fasteners ─────────────────────────────────────────────────────────────────────────────────


def test_the_small_hive_takes_what_was_counted_by_hand() -> None:
    assert small_goods(fixings(SMALL)) == BY_HAND


def faces(hive: Hive, component: str) -> dict[tuple[frozenset[str], str], Fraction]:
    """Return how far the face of each joint reaches, from where the solids touch."""
    found = contacts(assembled(values(hive), component))
    return {
        (frozenset((c.first.label, c.second.label)), c.axis): max(
            size for size, axis in zip(c.size, AXES, strict=True) if axis != c.axis
        )
        for c in found
    }


@pytest.mark.parametrize("name", HIVES)
def test_fasteners_are_as_many_as_the_faces_of_the_solids_ask_for(name: str) -> None:
    """A second way: how far a joint runs, from where the solids touch in space."""
    hive = hive_from_text(HIVES[name])
    for component in built(hive):
        touching = faces(hive, component)
        counted: dict[tuple[str, str, str], int] = {}
        for way, met in held(joints(values(hive), component), component):
            for first, second, axis in met:
                if isinstance(way, Held) and isinstance(way.count, Each | Every):
                    run = touching[frozenset((first, second)), axis]
                    key = (way.through, way.into, way.item)
                    counted[key] = counted.get(key, 0) + in_a_joint(way, run)
        told: dict[tuple[str, str, str], int] = {}
        for fixing in fixings(hive):
            through, _, into = fixing.joint.partition(" to ")
            on_screw_line = through in {"cover", "deck"}
            if fixing.component == component and fixing.item and not on_screw_line:
                key = (through, into, fixing.item)
                told[key] = told.get(key, 0) + fixing.count
        assert told == counted


def in_a_joint(way: Held, run: Fraction) -> int:
    assert isinstance(way.count, Each | Every)
    if isinstance(way.count, Each):
        return way.count.number
    return max(way.count.least, math.ceil(run / way.count.spacing))


def test_the_deck_is_held_on_all_four_sides_with_three_screws_or_more() -> None:
    deck = [f for f in fixings(SMALL) if f.joint.startswith("deck to")]
    assert [(f.joint, f.joints, f.each) for f in deck] == [
        ("deck to rim side", 2, 3),
        ("deck to rim front", 1, 3),
        ("deck to rim back", 1, 3),
    ]


@given(st.fractions(1, 99, max_denominator=64), st.sampled_from([6, 8]), st.integers(1, 4))
def test_no_two_fasteners_stand_farther_apart_than_their_spacing(
    run: Fraction, spacing: int, least: int
) -> None:
    count = Every(Fraction(spacing), least).count(run)
    assert count >= least
    assert run <= count * spacing
    assert count == least or run > (count - 1) * spacing


def test_each_count_has_its_reason() -> None:
    reasons = {f.joint: f.reason for f in fixings(SMALL)}
    assert reasons["side rail to front rail"] == "2 joints × 2 screws of 3 in."
    assert reasons["lower side runner to side rail"] == (
        "2 joints × 3 brads of 1 1/4 in: "
        "one for every 6 in of 16 1/2 in, rounded up, and at least 2."
    )
    assert reasons["screen side strip to screen end strip"] == "6 joints, only glued."
    for fixing in fixings(SMALL):
        assert fixing.reason.endswith(".")
        assert str(fixing.joints) in fixing.reason


def test_a_metric_hive_is_told_in_mm() -> None:
    metric = hive_from_text(HIVES["metric"])
    assert all(" mm of " in f.reason for f in fixings(metric) if "for every" in f.reason)


# Length of the fastener, what it goes through, what it goes into: common practice, no source.
LENGTHS = [
    ("5/4", "1/2", "3/2", ""),
    ("3", "3/2", "3/2", ""),
    ("25/8", "3/2", "3/2", "Its point comes out by 1/8 in: take one of 1 3/4 to 3 in."),
    ("13/8", "2", "3/4", "It is too short for what it goes through, 2 in: take one of 2 1/4 to"),
    ("5/4", "1", "2", ""),
    ("5/4", "17/16", "2", "It is too short"),
]


@pytest.mark.parametrize(("length", "through", "into", "told"), LENGTHS)
def test_a_fastener_of_the_wrong_length_is_told(
    length: str, through: str, into: str, told: str
) -> None:
    remark = length_remark(Fraction(length), Fraction(through), Fraction(into))
    assert remark.startswith(told)
    assert bool(remark) == bool(told)


def test_usual_wood_suits_the_usual_fasteners_and_thick_foam_does_not() -> None:
    assert [f.remark for f in fixings(OUTWARDS) if f.remark] == []
    thick = hive_from_text('measured = {foam_thickness = "2"}\nchosen = {frames = 10}')
    told = {f.joint: f.remark for f in fixings(thick) if f.remark}
    assert set(told) == {"edge strip side to box inside", "edge strip end to box inside"}
    assert told["edge strip end to box inside"].endswith("take one of 2 1/4 to 2 3/4 in.")


# ── packages and money ────────────────────────────────────────────────────────────────────────

packages = st.lists(
    st.builds(
        lambda holds, price: Package("p", "long_brad", holds, price),
        st.integers(1, 12),
        st.fractions(0, 9, max_denominator=20),
    ),
    min_size=1,
    max_size=3,
)


@given(st.integers(1, 30), packages)
def test_packages_hold_enough_and_no_other_choice_costs_less(
    count: int, sold: list[Package]
) -> None:
    chosen = packed(count, sold)
    assert sum(b.package.holds * b.count for b in chosen) >= count
    cost = sum(b.count * (b.package.price or 0) for b in chosen)
    tries = product(*(range(math.ceil(count / p.holds) + 1) for p in sold))
    costs = [
        sum(n * (p.price or 0) for n, p in zip(numbers, sold, strict=True))
        for numbers in tries
        if sum(n * p.holds for n, p in zip(numbers, sold, strict=True)) >= count
    ]
    assert cost == min(costs)


def test_packages_are_rounded_up() -> None:
    box = Package("box", "long_brad", 100, Fraction(3))
    counts = {n: [b.count for b in packed(n, [box])] for n in (0, 1, 99, 100, 101, 1000, 1001)}
    assert counts == {0: [], 1: [1], 99: [1], 100: [1], 101: [2], 1000: [10], 1001: [11]}


def test_without_prices_as_little_as_can_be_is_left_over() -> None:
    big, little = Package("big", "glue", 100), Package("little", "glue", 25)
    assert [(b.package.name, b.count) for b in packed(120, [big, little])] == [
        ("big", 1),
        ("little", 1),
    ]
    priced = Package("priced", "glue", 7, Fraction(1))
    assert [b.package for b in packed(120, [big, priced])] == [priced]


@pytest.mark.parametrize(("count", "had"), [(40, 44), (41, 46), (8, 9), (0, 0), (10, 11)])
def test_some_more_is_bought_than_is_counted(count: int, had: int) -> None:
    """41 and a tenth are 45.1, so 46."""
    assert with_spare(count, Fraction(1, 10)) == had
    assert with_spare(count, Fraction(0)) == count


AMOUNTS = [
    (3 * Fraction("3.95"), "11.85"),
    (100 * Fraction("0.1"), "10"),
    (Fraction("1234567.5"), "1,234,567.50"),
    (Fraction("0.0625"), "0.0625"),
    (Fraction("-2.5"), "−2.50"),
    (Fraction(0), "0"),
]


@pytest.mark.parametrize(("money", "text"), AMOUNTS)
def test_money_is_exact(money: Fraction, text: str) -> None:
    assert amount(money) == text


def test_three_boards_of_3_95_cost_11_85() -> None:
    line = Line("board", "8 ft 2x4", 3, Fraction("3.95"), Fraction(1))
    assert line.cost == Fraction("11.85")
    assert more_or_less(Fraction("11.85") - 12, "coins") == "0.15 coins less"


# ── the basket ────────────────────────────────────────────────────────────────────────────────


def test_the_basket_of_the_small_hive_is_the_one_worked_out_by_hand() -> None:
    found = basket([SMALL], one_size())
    assert bought(found.lines) == BOUGHT
    assert found.total == IN_ALL
    assert found.total_text == "78.90 coins in all."
    assert found.unplanned == ()
    assert [line.left_over for line in found.small[0].lines] == [("11 screws of 3 in",)]


def test_small_goods_of_three_hives_are_packed_together() -> None:
    found = basket([SMALL] * 3, one_size())
    lines = tuple(line for group in found.small for line in group.lines)
    assert bought(lines) == SMALL_GOODS_OF_THREE
    assert [(alike.hive, alike.count) for alike in found.joints] == [(SMALL, 3)]


def test_what_is_left_over_and_the_share_used_are_those_worked_out_by_hand() -> None:
    """Off 96 in: an end of 1/2, then 16 in and a kerf of 1/8 for each landing board."""
    one, ten = (basket([SMALL] * n, one_size()).boards[1].lines for n in (1, 10))
    assert [(line.left_over, line.used) for line in one] == [(("79 3/8 in",), Fraction(1, 6))]
    assert [(line.count, line.left_over) for line in ten] == [(2, ("2 × 14 7/8 in",))]
    assert ten[0].used == Fraction(10 * 16, 2 * 96)


def test_two_sheets_that_are_cut_alike_leave_two_of_each_offcut() -> None:
    """Two covers of 21 x 25 in lie side by side on 48 x 48, and no third one beside them."""
    (cover,) = basket([SMALL] * 4, one_size()).sheets[3].lines
    assert (cover.name, cover.count, cover.used) == ("top", 2, Fraction(2 * 21 * 25, 48 * 48))
    assert cover.left_over
    assert all(left.startswith("2 × ") for left in cover.left_over)


def test_an_offcut_under_an_inch_is_not_worth_telling() -> None:
    at_hand = '\n[[at_hand]]\nmaterial = "1x4"\nlength = "16 1/4"\n'
    (line,) = basket([SMALL], yard_from_text(f"{ONE_SIZE}{at_hand}")).boards[1].lines
    assert line.at_hand
    assert line.left_over == ()


def test_different_hives_share_what_is_bought() -> None:
    apart = basket([SMALL], one_size()).total + basket([demo_hive()], one_size()).total
    together = basket([SMALL, demo_hive()], one_size())
    assert together.total < apart
    assert together.unplanned == ()
    counted = small_goods(fixings(SMALL)) + small_goods(fixings(demo_hive()))
    long_brads = next(g for g in together.small if g.name == "brads of 1 1/4 in")
    assert long_brads.why.startswith(f"{counted['long_brad']} counted joint by joint")


@pytest.mark.parametrize("name", HIVES)
def test_every_kind_of_hive_gets_a_basket(name: str) -> None:
    found = basket([hive_from_text(HIVES[name])], demo_yard())
    assert found.total > 0
    assert found.total == sum(group.cost for group in found.groups)
    assert all(0 < line.used <= 1 for line in found.lines)
    assert basket_text(found)


def test_what_is_at_hand_is_used_first_and_costs_nothing() -> None:
    at_hand = '\n[[at_hand]]\nmaterial = "1x4"\nlength = 20\n'
    with_offcut = yard_from_text(f"{ONE_SIZE}{at_hand}")
    found = basket([SMALL], with_offcut)
    landing = found.boards[1].lines
    assert [(line.name, line.at_hand, line.cost) for line in landing] == [
        ("1x4 of 20 in", True, Fraction(0))
    ]
    assert found.total == IN_ALL - Fraction("3.95")


def test_what_has_no_price_is_counted_and_the_total_says_what_it_leaves_out() -> None:
    unpriced = yard_from_text(ONE_SIZE.replace(", price = 3.95", "").replace(", price = 4.15", ""))
    found = basket([SMALL], unpriced)
    assert bought(found.lines) == BOUGHT
    assert found.total == IN_ALL - Fraction("3.95") - Fraction("4.15")
    assert found.total_text == (
        "70.80 coins in all, without what has no price: 1 × landing, 1 × glue."
    )
    assert [line.cost for line in found.unpriced] == [None, None]


def test_what_the_yard_does_not_sell_is_told_and_the_rest_is_planned() -> None:
    rows = [row for row in ONE_SIZE.splitlines() if "mesh" not in row and "2x4" not in row]
    found = basket([SMALL], yard_from_text("\n".join(r for r in rows if "bolts" not in r)))
    expected = {n: c for n, c in BOUGHT.items() if n not in {"mesh", "stud", "bolts"}}
    assert bought(found.lines) == expected
    told = {left.why for left in found.unplanned}
    assert "your yard has no package of it" in told
    assert any("mesh" in why for why in told)
    assert any("stud" in why for why in told)
    assert "What your yard does not give is not in it" in found.total_text


def test_a_yard_that_sells_nothing_gives_an_empty_basket_that_says_so() -> None:
    found = basket([SMALL], yard_from_text("# sold out"))
    assert found.lines == ()
    assert found.total == 0
    counted = sum(BY_HAND.values()) - BY_HAND["glue"]
    assert sum(left.count for left in found.unplanned) > counted
    assert all(left.why for left in found.unplanned)


def test_a_damaged_offcut_does_not_stop_the_basket() -> None:
    damaged = yard_from_text(f'{ONE_SIZE}\n[[at_hand]]\nmaterial = "1x4"\nlength = "banana"\n')
    found = basket([SMALL], damaged)
    assert found.total == IN_ALL
    assert [fault.place for fault in found.left_out] == ["yard.toml, [[at_hand]] 1 length"]


@pytest.mark.parametrize("count", [0, MOST_HIVES + 1, 10_000])
def test_too_few_and_too_many_hives_are_told_in_a_sentence(count: int) -> None:
    with pytest.raises(HiveFaults) as refused:
        basket([SMALL] * count, one_size())
    assert str(refused.value) == (
        f"hives: there are {count:,} of them; give 1 to 2,000, and of more hives a part at a time."
    )


def test_studs_as_measured_come_out_of_the_studs_that_are_sold() -> None:
    """A dry 2x4 is 1 1/2 in (PS 20-20, Table 3); a learner's is a little thicker."""
    thicker = changed(SMALL, {"stud_thickness": "1 9/16"})
    found = basket([thicker], one_size())
    assert found.unplanned == ()
    assert bought(found.lines)["stud"] == 2
    assert found.boards[0].name == "stud of 1 9/16 × 3 1/2 in"


def test_a_stopped_search_keeps_the_best_plan_and_the_rest_is_planned_in_a_hurry(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    told: list[str] = []
    seconds: dict[str, float] = {}

    def stop(name: str, _: Progress) -> None:
        told.append(name)
        if name == "plywood of 1/2 in" and told.count(name) == 2:
            raise KeyboardInterrupt

    def watched(need: SheetNeed, planner: Planner) -> Group:
        seconds[need.name] = planner.seconds
        return sheet_group(need, planner)

    monkeypatch.setattr(import_module("hivecalc.shopping.basket"), "sheet_group", watched)
    how = Planner("inch", 2, stop)
    found = basket([SMALL, demo_hive(), WITH_BOX] * 4, demo_yard(), how)
    assert how.stopped
    assert [g.name for g in found.groups if STOPPED in g.notes] == ["plywood of 1/2 in"]
    assert seconds["plywood of 1/2 in"] == 2
    assert seconds["plywood of 1/4 in"] == HURRIED
    assert found.unplanned == ()
    assert len(found.sheets) == len(seconds) == 5
    assert STOPPED in unwrapped(basket_text(found))


# ── what else could be bought ─────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("hives", [[SMALL], [WITH_BOX] * 3], ids=["small", "with a box"])
def test_the_difference_is_that_of_two_baskets_worked_out_apart(hives: list[Hive]) -> None:
    yard = replace(demo_yard(), sheets=())
    first = basket(hives, yard)
    others = {other.name: other for other in alternatives(first, yard)}
    for board in yard.boards:
        kin = [b for b in yard.boards if (b.material, b.width) == (board.material, board.width)]
        kept = tuple(b for b in yard.boards if b == board or b not in kin)
        apart = basket(hives, replace(yard, boards=kept)).total - first.total
        other = others.get(f"only {board.name}")
        assert (other.difference if other else 0) == apart


def labels(group: Group) -> set[str]:
    assert isinstance(group.plan, BoardPlan)
    return {label for pattern in group.plan.patterns for label, _ in pattern.pieces}


def test_another_size_gives_the_same_pieces_and_no_others() -> None:
    """The landing board comes from the 1x4, whichever 1x12 the sides of the box come from."""
    found = basket([WITH_BOX], demo_yard())
    others = {o.name: o for o in alternatives(found, demo_yard()) if o.instead in found.boards}
    assert {"only 12 ft 1x12", "only 12 ft 1x4", "only 16 ft 2x4"} <= set(others)
    for other in others.values():
        assert labels(other.group) == labels(other.instead), other.name


@pytest.mark.parametrize("sort", ["sheets", "packages"])
def test_the_difference_of_sheets_and_packages_is_that_of_two_baskets(sort: str) -> None:
    yard, first = demo_yard(), basket([SMALL], demo_yard())
    others = {other.name: other for other in alternatives(first, yard)}
    for goods in getattr(yard, sort):
        kin = [g for g in getattr(yard, sort) if alike(g) == alike(goods)]
        kept = tuple(g for g in getattr(yard, sort) if g == goods or g not in kin)
        apart = basket([SMALL], replace(yard, **{sort: kept})).total - first.total
        other = others.get(f"only {goods.name}")
        if other is None:
            assert apart == 0
        elif not other.missing:
            assert other.difference == apart


def alike(goods: object) -> object:
    """Return what other sizes of the same thing have in common."""
    item = getattr(goods, "item", None)
    return item or (getattr(goods, "material", ""), getattr(goods, "thickness", 0))


def test_nothing_that_is_sold_in_one_size_only_costs_less_than_the_basket() -> None:
    first = basket([SMALL], demo_yard())
    proved = {group.name for group in first.groups if group.plan is None or group.plan.proved}
    for other in alternatives(first, demo_yard()):
        if other.instead.name in proved and other.difference is not None:
            assert other.difference >= 0, other.name


def test_a_size_that_is_too_small_says_how_many_pieces_it_leaves_out() -> None:
    yard = yard_from_text(
        ONE_SIZE.replace(
            "board = [",
            'board = [\n    {name = "short", material = "2x4", length = "20", price = 1},',
        )
    )
    others = {o.name: o for o in alternatives(basket([demo_hive()], yard), yard)}
    short = others["only short"]
    assert short.difference is None
    assert short.missing > 0
    assert short.told("coins").endswith("of the pieces do not come out of it")


def test_without_a_price_there_is_no_difference() -> None:
    yard = yard_from_text(
        ONE_SIZE.replace(
            "package = [", 'package = [\n    {name = "few", item = "glue", covers = 400},'
        )
    )
    (other,) = alternatives(basket([SMALL], yard), yard)
    assert (other.name, other.difference, other.told("coins")) == (
        "only few",
        None,
        "a price is not known",
    )


# ── tables ────────────────────────────────────────────────────────────────────────────────────

KEYS = [
    "schema", "hives", "currency", "prices_invented", "total", "groups", "lines", "unplanned",
    "alternatives", "joints", "left_out",
]  # fmt: skip


def test_json_holds_the_basket_with_its_keys_in_order() -> None:
    yard = one_size()
    found = basket([SMALL], yard)
    told = json.loads(json_text(basket_json(found, alternatives(found, yard))))
    assert list(told) == KEYS
    assert told["schema"] == "hivecalc/1"
    assert told["total"] == {"cost": "78.90", "complete": True, "without_price": []}
    assert told["hives"] == [{"name": "Small hive", "count": 1}]
    assert sum(Fraction(line["cost"]) for line in told["lines"]) == IN_ALL
    counted: dict[str, int] = {}
    for joint in told["joints"]:
        if joint["item"]:
            counted[joint["item"]] = counted.get(joint["item"], 0) + joint["count"]
    assert counted == {n: c for n, c in BY_HAND.items() if n != "glue"}
    glue = sum(Fraction(joint["glue"]["exact"]) for joint in told["joints"])
    assert math.ceil(glue) == BY_HAND["glue"]


def test_amounts_in_json_are_plain_decimals() -> None:
    yard = one_size()
    found = basket([SMALL] * 40, yard)
    told = basket_json(found, [Alternative("another", found.boards[0], found.boards[1])])
    total = told["total"]
    assert isinstance(total, dict)
    assert found.total > 1000
    assert Fraction(total["cost"]) == found.total
    others = told["alternatives"]
    assert isinstance(others, list)
    less = found.boards[1].cost - found.boards[0].cost
    assert less < 0
    assert Fraction(others[0]["difference"]) == less


def test_csv_has_a_row_for_each_line_and_no_formula() -> None:
    yard = replace(one_size(), currency="=1+1")
    rows = csv_text(basket_table(basket([SMALL], yard))).splitlines()
    assert len(rows) == 1 + len(BOUGHT)
    assert all(",'=1+1," in row for row in rows[1:])
    assert rows[1].startswith("stud of 1 1/2 × 3 1/2 in,board,stud,2,6.85,13.70,")
    joints_rows = csv_text(joints_table(basket([SMALL], yard))).splitlines()
    assert len(joints_rows) == 1 + len(fixings(SMALL))


def test_text_tells_boards_sheets_small_goods_total_and_joints() -> None:
    text = basket_text(basket([SMALL, SMALL], one_size()))
    for expected in (
        "Small hive × 2: what to buy",
        "Boards\n",
        "Sheets\n",
        "Small goods\n",
        "coins in all.",
        "Take care: ",
        "Small hive, joint by joint, for one hive",
        "2 joints × 2 screws of 3 in.",
    ):
        assert expected in text
    assert "invented" not in text


def test_it_is_said_where_a_plan_is_not_proved() -> None:
    found = basket([SMALL], one_size())
    first, *rest = found.boards
    assert isinstance(first.plan, BoardPlan)
    assert isinstance(first.cut, BoardsCut)
    group = replace(first, cut=replace(first.cut, plan=replace(first.plan, proved=False)))
    unproved = replace(found, boards=(group, *rest))
    said = "Whether anything costs less is not proved."
    assert said not in unwrapped(basket_text(found))
    assert unwrapped(basket_text(unproved)).count(said) == 1
    told = json.loads(json_text(basket_json(unproved)))
    assert [g["name"] for g in told["groups"] if not g["proved"]] == [first.name]


def test_text_says_that_the_shipped_prices_are_invented() -> None:
    assert "These prices are invented" in basket_text(basket([SMALL], demo_yard()))


def test_what_somebody_wrote_into_a_yard_file_does_no_harm_in_a_terminal() -> None:
    yard = one_size()
    boards = tuple(replace(b, name="\x1b[31mred") for b in yard.boards)
    found = basket([SMALL], replace(yard, boards=boards, currency="\u202ecoins"))
    text = basket_text(found)
    assert "\x1b" not in text
    assert "\u202e" not in text
