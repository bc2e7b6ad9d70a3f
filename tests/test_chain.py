"""Chains: judged by structure, and their sums as arithmetic.

The true chains below are typed by hand from the arithmetic of the course hive, apart from the
formulas that the judge reads: in the formula's own terms, and in measurements. Wrong chains are
made from them by removing, repeating, turning or exchanging one term; that is to be named.
"""

import random
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from math import lcm

import pytest

from hivecalc.components import values_to_find
from hivecalc.hive import Hive, demo_hive, hive_from_text
from hivecalc.judging.chain import (
    ChainVerdict,
    chain_json,
    chain_verdict,
    comes_to,
    offered,
    rules_in_words,
    sum_verdict,
    true_chain,
    whole_verdict,
)
from hivecalc.pages.chain import to_predict
from tests.hives import HIVES

B, R = "bottom_board.", "roof."
W, L, S, SW = "hive_width", "hive_length", "stud_thickness", "stud_width"
OPEN_W, OPEN_L = f"{B}opening_width", f"{B}opening_length"
# dimension: own terms; in measurements, where that differs
TRUE: dict[str, tuple[dict[str, int], ...]] = {
    f"{B}side_rail_length": ({L: 1, S: -1},),
    f"{B}front_rail_length": ({W: 1, S: -2},),
    f"{B}front_rail_width": ({SW: 1, "entrance_height": -1},),
    f"{B}back_rail_length": ({W: 1},),
    f"{B}opening_length": ({L: 1, S: -2},),
    f"{B}panel_width": ({OPEN_W: 1, "panel_gap": -1}, {W: 1, S: -2, "panel_gap": -1}),
    f"{B}panel_length": ({OPEN_L: 1, "panel_gap": -1}, {L: 1, S: -2, "panel_gap": -1}),
    f"{B}lower_front_runner_length": (
        {OPEN_W: 1, "strip_narrow": -2, "runner_gap": -1},
        {W: 1, S: -2, "strip_narrow": -2, "runner_gap": -1},
    ),
    f"{B}upper_front_runner_length": (
        {OPEN_W: 1, "strip_wide": -2, "runner_gap": -1},
        {W: 1, S: -2, "strip_wide": -2, "runner_gap": -1},
    ),
    f"{B}screen_end_strip_length": (
        {f"{B}screen_width": 1, "strip_wide": -2},
        {OPEN_W: 1, "screen_gap": -1, "strip_wide": -2},
        {W: 1, S: -2, "screen_gap": -1, "strip_wide": -2},
    ),
    f"{B}mesh_length": (
        {f"{B}screen_length": 1, "mesh_margin": -2},
        {L: 1, S: -2, "screen_gap": -1, "mesh_margin": -2},
    ),
    f"{B}headroom": ({SW: 1, f"{B}stack_height": -1},),
    f"{R}rim_length": ({L: 1, "cap_clearance": 1},),
    f"{R}rim_front_length": ({f"{R}rim_width": 1, S: -2}, {W: 1, "cap_clearance": 1, S: -2}),
    f"{R}deck_width": ({W: 1, "overhang": 2},),
    f"{R}roof_panel_length": (
        {f"{R}rim_length": 1, S: -1, "rim_back_thickness": -1},
        {L: 1, "cap_clearance": 1, S: -1, "rim_back_thickness": -1},
    ),
    f"{R}skirt_side_length": ({f"{R}rim_length": 1, "skirt_thickness": 2},),
    f"{R}cover_length": (
        {f"{R}deck_length": 1, "cover_lip": 2},
        {L: 1, "overhang": 2, "cover_lip": 2},
    ),
    "inner_cover.rim_back_length": ({W: 1, S: -2},),
    "inner_cover.overall_height": ({"inner_rim_height": 1, "sheet_thickness": 2},),
    "practice.middle_rail_length": ({L: 1, S: -2},),
    "practice.pan_end_length": (
        {OPEN_W: 1, "panel_gap": -1, "strip_narrow": -2},
        {W: 1, S: -2, "panel_gap": -1, "strip_narrow": -2},
    ),
    "practice.middle_strip_length": (
        {f"{B}screen_length": 1, "strip_wide": -2},
        {L: 1, S: -2, "screen_gap": -1, "strip_wide": -2},
    ),
    "practice.twin_rim_front_length": ({W: 2, "cap_clearance": 1, S: -2},),
    "practice.notched_front_length": ({W: 1, S: -2, "inner_notch": -1},),
}
STRANGERS = ("top_bar", "landing_width", "cover_lip", "slot_ease", "strip_narrow", "overhang")
Counts = dict[str, int]


def exact(chain: Counts) -> dict[str, Fraction]:
    return {name: Fraction(count) for name, count in chain.items()}


def spoilt(chain: Counts) -> Iterator[tuple[Counts, str, str]]:
    """Each chain with one fault: the chain, the kind of fault, and the size that has it."""
    for name, count in chain.items():
        rest = {n: c for n, c in chain.items() if n != name}
        if rest:
            yield rest, "missing", name
        yield {**chain, name: -count}, "sign", name
        yield {**chain, name: count + (1 if count > 0 else -1)}, "count", name
        if abs(count) == 2:
            yield {**chain, name: count // 2}, "count", name
        for other in STRANGERS:
            if other not in chain:
                yield {**chain, other: -1}, "extra", other


@cache
def wrong_chains() -> list[tuple[str, Counts, Counts, str, str, ChainVerdict]]:
    """Wrong chains of all dimensions, drawn without the judge, and its verdicts on them."""
    made = [
        (dimension, chain, *fault)
        for dimension, chains in TRUE.items()
        for chain in chains
        for fault in spoilt(chain)
    ]
    kept = [case for case in made if not is_the_size_before(case)]
    drawn = random.Random(14).sample(kept, 300)  # noqa: S311 - the same cases each time
    return [(*case, chain_verdict(demo_hive(), case[0], exact(case[2]))) for case in drawn]


def is_the_size_before(case: tuple[str, Counts, Counts, str, str]) -> bool:
    """Whether the fault only leads to another form that is right: hive_width alone, say."""
    dimension, _, chain, _, _ = case
    return any(exact(chain) == exact(form) for form in TRUE[dimension])


@pytest.mark.parametrize("hive", [demo_hive(), hive_from_text(HIVES["metric"])])
def test_a_right_chain_is_never_flagged(hive):
    for dimension, chains in TRUE.items():
        for chain in chains:
            found = chain_verdict(hive, dimension, exact(chain))
            assert found.right, (dimension, chain, found)
            assert comes_to(hive, exact(chain)) == values_to_find(hive)[dimension]


DEMO, FRAMED = demo_hive(), hive_from_text("[chosen]\nframes = 10")
RAIL, SIDE, PANEL = f"{B}front_rail_length", f"{B}side_rail_length", f"{B}panel_width"
UPPER, LOWER = f"{B}upper_side_runner_length", f"{B}lower_side_runner_length"
HALF = Fraction(1, 2)
# A hive, a dimension, a chain; what is missing, too much and counted otherwise, and its slips.
FOUND = [
    # a neighbour that comes to the same
    (DEMO, RAIL, {OPEN_W: 1}, (), (), {}, []),
    (DEMO, OPEN_L, {SIDE: 1, S: -1}, (), (), {}, []),
    (DEMO, OPEN_L, {SIDE: 1, S: -2}, (), (), {S: -1}, []),
    # begun at the hive
    (DEMO, PANEL, {W: 1}, (S, "panel_gap"), (), {}, []),
    (DEMO, f"{B}screen_end_strip_length", {W: 1}, (S, "screen_gap", "strip_wide"), (), {}, []),
    # the size itself, and what rests on it
    (DEMO, PANEL, {PANEL: 1}, (OPEN_W, "panel_gap"), (PANEL,), {}, []),
    (DEMO, LOWER, {UPPER: 1}, (OPEN_L, "runner_gap"), (UPPER,), {}, []),
    # made by a slip, one of them at the step before
    (DEMO, RAIL, {W: 1, S: -1}, (), (), {S: -2}, [("thickness_once", RAIL)]),
    (DEMO, RAIL, {W: 1, S: 2}, (), (), {}, [("thickness_added", RAIL)]),
    (DEMO, RAIL, {L: 1, S: -2}, (W,), (L,), {}, [("length_for_width", RAIL)]),
    (DEMO, RAIL, {W: 1, SW: -2}, (S,), (SW,), {}, [("other_side", RAIL)]),
    (DEMO, PANEL, {W: 1, S: -1, "panel_gap": -1}, (), (), {S: -2}, [("thickness_once", OPEN_W)]),
    # a count, and a half
    (FRAMED, "box.inside_width", {"frame_spacing": 9, "frame_play": 1}, (), (),
     {"frame_spacing": 10}, [("one_fewer", "box.inside_width")]),
    (DEMO, f"{R}deck_overhang", {"overhang": 1, "cap_clearance": -HALF}, (), (), {}, []),
    (DEMO, f"{R}deck_overhang", {"overhang": 1, "cap_clearance": -1}, (), (),
     {"cap_clearance": -HALF}, [("clearance_doubled", f"{R}deck_overhang")]),
]  # fmt: skip


@pytest.mark.parametrize("row", FOUND, ids=range(len(FOUND)))
def test_what_a_chain_lacks_or_has_too_much_is_found_and_a_slip_that_makes_it(row):
    hive, dimension, chain, missing, extra, count, slips = row
    found = chain_verdict(hive, dimension, exact(chain))
    assert (found.missing, found.extra, found.count or {}) == (missing, extra, count)
    assert [(slip.name, slip.step) for slip in found.slips] == slips
    flawed = missing or extra or count or slips
    assert found.right is not bool(flawed)


def test_a_count_is_told_as_it_is():
    assert true_chain(FRAMED, "box.inside_width") == {"frame_spacing": 10, "frame_play": 1}
    whole = exact({"overhang": 1, "cap_clearance": -1})
    told = chain_json(DEMO, chain_verdict(DEMO, f"{R}deck_overhang", whole), None)
    assert told["chain"]["count"] == {"cap_clearance": "-1/2"}


def test_at_least_99_of_100_wrong_chains_are_named_exactly():
    wrong, cases = [], wrong_chains()
    for dimension, true, chain, kind, name, found in cases:
        expected = {"missing": [], "extra": [], "sign": [], "count": {}}
        expected[kind] = {name: true[name]} if kind == "count" else [name]
        told = chain_json(demo_hive(), found, None)["chain"]
        assert not told.pop("right")
        if told != expected:
            wrong.append((dimension, chain, kind, name, told))
    assert len(wrong) <= len(cases) // 100, wrong


def test_what_is_said_holds_no_number_and_no_result():
    for *_, found in wrong_chains():
        assert found.message
        assert found.question.endswith("?")
        assert not any(sign.isdigit() for sign in found.message + found.question)


# A chain of a dimension whose first fault no slip makes, and how the question about it begins.
ASKED = [
    (f"{B}front_rail_length", {W: 1, S: -3}, "At which end of the front rail does another piece"),
    (f"{B}front_rail_length", {W: -1, S: 3}, "Does the hive width make the front rail length big"),
    (f"{B}panel_width", {OPEN_W: 1, "panel_gap": 2}, "Must the panel width be bigger or smaller"),
    (f"{B}lower_front_runner_length", {OPEN_W: 1, "strip_narrow": -1, "runner_gap": -2},
     "Go through the drawing along the lower front runner length"),
    (f"{B}lower_front_runner_length", {OPEN_W: 1, "strip_narrow": -2, "runner_gap": -3},
     "Is the runner gap meant at each side"),
    (f"{R}deck_width", {W: 1, "overhang": 3}, "How often does the overhang come into the deck"),
    (f"{R}deck_width", {W: 1, "overhang": -1}, "Does the overhang make the deck width bigger"),
    (f"{R}deck_width", {W: 1, "overhang": 2, "cover_lip": 1}, "Look at the drawing: where does"),
    ("practice.twin_rim_front_length", {W: 1, "cap_clearance": 1, S: -1},
     "How often does the hive width come into the"),
]  # fmt: skip


@pytest.mark.parametrize(("dimension", "chain", "question"), ASKED)
def test_a_fault_that_no_slip_makes_is_asked_about(dimension, chain, question):
    found = chain_verdict(demo_hive(), dimension, exact(chain))
    assert found.slips == ()
    assert found.question.startswith(question)


def test_the_true_sizes_are_offered_whatever_was_found_and_at_most_eight():
    for dimension, chains in TRUE.items():
        nothing_found = offered(demo_hive(), dimension)
        if not any("." in name for name in chains[-1]):
            assert set(chains[-1]) <= set(nothing_found), dimension
        assert len(nothing_found) <= 8
        assert not any("." in name for name in nothing_found)
        own = [n for n in chains[0] if "." in n]
        assert set(chains[0]) <= set(offered(demo_hive(), dimension, own))
    assert len(offered(demo_hive(), "front_stop_height")) == 8


def test_a_sleeved_hive_is_offered_itself_and_not_its_box():
    sleeved = hive_from_text(HIVES["sleeved"])
    assert offered(sleeved, f"{B}side_rail_length") == (L, W, SW, S)
    assert "box_length" in offered(sleeved, L)
    # 19 7/8 + 2 (25 mm + 3/8) = 22.59; by the tape 22 19/32
    asked = to_predict(sleeved, f"{B}side_rail_length").question
    assert asked.startswith("compared with the hive length of ≈ 22 19/32 in, ")


def test_no_plain_chain_is_asked_by_rules_in_words():
    for dimension in (f"{R}slope", f"{B}way_in", f"{R}rim_front_inner_height"):
        assert offered(demo_hive(), dimension) == ()
        rules = rules_in_words(demo_hive(), dimension)
        assert [r.slip for r in rules].count("") == 1
        assert len({r.words for r in rules}) == len(rules) >= 3
        assert all(r.question for r in rules if r.slip)
        with pytest.raises(ValueError, match="no plain chain"):
            chain_verdict(demo_hive(), dimension, {SW: Fraction(1)})


# ── the sum of it ─────────────────────────────────────────────────────────────────────────────


def mixed(value: Fraction) -> str:
    whole, rest = divmod(value, 1)
    return f"{whole} {rest}" if whole and rest else str(rest or whole)


def slipped_sums(left: Fraction, right: Fraction) -> Iterator[tuple[str, Fraction]]:
    """Subtractions gone wrong as the published studies of such sums tell: see `judging/sums.py`.

    Written anew here on whole inches and tops over one bottom, as a pupil works on paper.
    """
    bottom = lcm(left.denominator, right.denominator)
    (inches, top), (off, off_top) = ((int(v), int(v % 1 * bottom)) for v in (left, right))
    if top < off_top:
        yield "inch_not_lowered", inches - off + Fraction(top + bottom - off_top, bottom)
        yield "smaller_from_larger", inches - off + Fraction(off_top - top, bottom)
        ten = top + 10 - off_top
        if 0 < ten < bottom and bottom != 10:
            yield "borrowed_ten", inches - 1 - off + Fraction(ten, bottom)


def wrong_sums() -> list[tuple[Hive, str, Fraction]]:
    """Wrong sums of side rails and back rails of many hives, drawn without the judge."""
    made = []
    chance = random.Random(28)  # noqa: S311 - the same cases each time
    while len(made) < 120:
        length, stud = (Fraction(chance.randrange(*ends), 16) for ends in ((300, 600), (19, 27)))
        hive = hive_from_text(
            f'[measured]\nhive_length = "{mixed(length)}"\nhive_width = "17 3/8"\n'
            f'stud_thickness = "{mixed(stud)}"\n'
        )
        sums = [s for s in slipped_sums(length, stud) if s[1] > 0]
        told_apart = [s for s in sums if [v for _, v in sums].count(s[1]) == 1]
        off = [s for s in told_apart if abs(s[1] - (length - stud)) > Fraction(1, 15)]
        made += [(hive, *each) for each in off]
    return made


def test_at_least_99_of_100_wrong_sums_are_named():
    chain, rail = exact({L: 1, S: -1}), f"{B}side_rail_length"
    wrong = []
    for hive, slip, value in (cases := wrong_sums()):
        found = sum_verdict(hive, rail, chain, mixed(value))
        if [s.name for s in found.slips][:1] != [slip]:
            wrong.append((hive.measured, slip, value, found.message))
    assert len(wrong) <= len(cases) // 100, wrong[:3]


LID = {"inner_rim_height": 1, "sheet_thickness": 2}  # 3/8 + 2 x 1/4
# A chain, a wrong sum of it, and the slip that gives it.
SUMS = [
    ({W: 1, S: -2}, "14 7/8", "multiplied_one_part"), ({W: 1, S: -2}, "15 3/8", "fraction_dropped"),
    ({W: HALF, S: -1}, "7 3/4", "halved_bottom"),  # 3/8 halved to 3/4, not to 3/16: 9 1/4 - 1 1/2
    ({L: 1, "cap_clearance": 1}, "23 2/10", "tops_and_bottoms"),  # 1/8 and 1/2
    (LID, "4/10", "tops_and_bottoms"), (LID, "7/12", "tops_and_bottoms"),  # 3/8 + 1/4 + 1/4 singly
]  # fmt: skip


@pytest.mark.parametrize(("chain", "answer", "slip"), SUMS)
def test_a_doubled_mixed_number_is_judged_too(chain, answer, slip):
    assert slip in [s.name for s in sum_verdict(DEMO, RAIL, exact(chain), answer).slips]


def test_a_right_sum_of_a_wrong_chain_is_said_to_be_that():
    once = exact({W: 1, S: -1})
    found = chain_verdict(DEMO, RAIL, once)
    told = whole_verdict(DEMO, found, "15 7/8")
    assert "The sum is right" in told.message
    assert (told.right, told.question) == (False, found.question)
    rounded = sum_verdict(DEMO, RAIL, once, "15.88")
    assert rounded.verdict == "right_other_form"
    assert rounded.message.endswith("On a cutting list it is written 15 7/8 in.")
    right = chain_verdict(DEMO, RAIL, exact({W: 1, S: -2}))
    slipped = whole_verdict(DEMO, right, "15 3/8")  # 17 3/8 - 2: a fraction dropped
    assert slipped.question == "Is each fraction that you began with in your sum?"
    assert sum_verdict(DEMO, RAIL, once, "14 3/8").verdict != "right"


def test_a_sum_of_rounded_sizes_half_way_between_two_marks_is_either():
    # foam of 25 mm is shown as 63/64, the hive as 16 3/8 + 2 31/32 = 19 11/32 wide, less 2 7/8
    sleeved = hive_from_text(
        'measured = {box_length = 20, box_width = "16 3/8", box_height = 9, '
        'stud_thickness = "1 7/16", foam_thickness = "25 mm"}'
    )
    chain, answers = exact({W: 1, S: -2}), ("16 7/16", "16 1/2", "16 9/16")
    found = [sum_verdict(sleeved, RAIL, chain, answer).right for answer in answers]
    assert found == [True, True, False]


def test_no_chain_at_all_and_more_taken_off_than_there_is_have_no_sum():
    assert not sum_verdict(DEMO, RAIL, {}, "1").right
    assert "nothing would be left" in sum_verdict(DEMO, RAIL, exact({S: -2}), "3").message
    assert sum_verdict(DEMO, RAIL, exact({W: 1}), "x").verdict == "unreadable"


def test_right_sums_are_never_flagged():
    for dimension, chains in TRUE.items():
        for chain in chains:
            value = values_to_find(demo_hive())[dimension]
            answer = mixed(value) if 64 % value.denominator == 0 else f"{float(value):.3f}"
            assert sum_verdict(demo_hive(), dimension, exact(chain), answer).right, dimension
