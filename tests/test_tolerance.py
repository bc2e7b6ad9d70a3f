"""How errors add up: printed worked examples first, then bounds, corners and closed forms."""

import itertools
import math
from fractions import Fraction

import pytest
from hivecalc.tolerance import (
    HAND_MARK,
    READING,
    SIGMAS,
    STOP_BLOCK,
    Care,
    Contributor,
    ranked,
    rests_on,
    root_sum_square,
    rule_value,
    rules_of,
    simulated,
    sizes_of,
    stack,
    trial,
    worst_case,
)
from hivecalc.tolerance.chance import errors_drawn, gaps_drawn
from hypothesis import given, settings
from hypothesis import strategies as st

from hivecalc.derivation import UnknownNameError
from hivecalc.fit import FIT, findings
from hivecalc.hive import HiveFaults, demo_hive, hive_from_text
from tests.hives import HIVES

DEMO = demo_hive()
BUILT = {name: hive_from_text(text) for name, text in HIVES.items()}
PERFECT = Care(cut=Fraction(0), mark=Fraction(0), reading=Fraction(0))
ABSURD = Care(cut=Fraction(1), mark=Fraction(1), reading=Fraction(1))


def part(name: str, tolerance: str, sensitivity: int = 1, **more: object) -> Contributor:
    return Contributor(
        name=name, tolerance=Fraction(tolerance), sensitivity=Fraction(sensitivity), **more
    )


# ── worked examples ───────────────────────────────────────────────────────────────────────────


def test_a_bore_with_three_rings_in_it() -> None:
    """A printed worked example of an engineering site, in mm.

    Bore 40.00 ±0.10, spacer 25.00 ±0.05, ring 2.00 ±0.03, shoulder 10.00 ±0.05: gap 3.00, worst
    ±0.23. Its root-sum-square is worked out from those figures: ±0.126.
    """
    sizes = {"bore": ("40", "0.10"), "spacer": ("-25", "0.05"), "ring": ("-2", "0.03")}
    sizes["shoulder"] = ("-10", "0.05")
    gap = sum(Fraction(size) for size, _ in sizes.values())
    parts = [part(n, t, 1 if n == "bore" else -1) for n, (_, t) in sizes.items()]
    assert gap == 3
    assert worst_case(parts) == Fraction("0.23")
    assert root_sum_square(parts) == pytest.approx(0.126, abs=0.0005)
    assert ranked(parts)[0].name == "bore"


TEN = [part(f"part {i}", "0.1") for i in range(10)]


def test_ten_parts_of_a_tenth_each() -> None:
    """A printed worked example of an engineering site, in mm: worst ±1.0, chance ±0.316."""
    assert worst_case(TEN) == 1
    assert root_sum_square(TEN) == pytest.approx(0.316, abs=0.0005)


def test_how_many_of_ten_parts_leave_root_sum_square() -> None:
    """The same example prints 0.27 % outside, three standard deviations of a normal error.

    Ours is a little less, 0.24 % or so, as errors are cut off at their tolerance. The allowance is
    four standard errors of 200,000 tries beside that difference.
    """
    limit, hives = Fraction(root_sum_square(TEN)), 200_000
    found = simulated(TEN, Fraction(0), -limit, limit, seed=3, hives=hives)
    noise = 4 * math.sqrt(0.0027 / hives)
    assert 0.0020 - noise < found.share < 0.0027 + noise


def test_a_stack_that_can_be_checked_in_the_head() -> None:
    """Worked out by hand: 2/64 + 2/64 + 1/64 = 5/64, and √(4 + 4 + 1) = 3."""
    parts = [part("a", "1/32"), part("b", "1/32"), part("c", "1/64")]
    assert worst_case(parts) == Fraction(5, 64)
    assert root_sum_square(parts) == 3 / 64
    assert [round(c.share * 9) for c in ranked(parts)] == [4, 4, 1]


def test_ten_frames_in_a_box_by_themselves_and_off_one_stop() -> None:
    """Worked out by hand: 4/64 + 10/64 = 7/32; √(16 + 10)/64 apart, √(16 + 100)/64 together."""
    box = part("box", "1/16")
    apart = [part(f"frame {i}", "1/64", -1) for i in range(10)]
    counted = part("frames", "1/64", -10, pieces=10)
    together = [part(f"frame {i}", "1/64", -1, group="stop block") for i in range(10)]
    for frames in (apart, [counted], together):
        assert worst_case([box, *frames]) == Fraction(7, 32)
    assert root_sum_square([box, *apart]) == pytest.approx(math.sqrt(26) / 64)
    assert root_sum_square([box, counted]) == pytest.approx(math.sqrt(26) / 64)
    assert root_sum_square([box, *together]) == pytest.approx(math.sqrt(116) / 64)


def test_one_error_in_two_sizes_takes_itself_back() -> None:
    rip = [part("skirt", "1/32", 1, group="fence"), part("rim", "1/32", -1, group="fence")]
    assert worst_case(rip) == root_sum_square(rip) == 0
    assert simulated(rip, Fraction(1), Fraction(1), Fraction(1)).failing == 0


# ── by chance, against the closed form ────────────────────────────────────────────────────────


def below(limit: float) -> float:
    """Share of a normal error, cut off at three standard deviations, that lies below a limit."""

    def phi(x: float) -> float:
        return (1 + math.erf(x / math.sqrt(2))) / 2

    return (phi(limit) - phi(-SIGMAS)) / (phi(SIGMAS) - phi(-SIGMAS))


def cut_off_variance() -> float:
    """Variance of a standard normal error that is cut off at three, from its closed form."""
    density = math.exp(-(SIGMAS**2) / 2) / math.sqrt(2 * math.pi)
    return 1 - 2 * SIGMAS * density / math.erf(SIGMAS / math.sqrt(2))


@pytest.mark.parametrize("limit", [-2.5, -1, 0, 0.5, 2])
def test_one_error_fails_as_often_as_the_normal_form_says(limit: float) -> None:
    lid = part("lid", "3/16")
    found = simulated([lid], Fraction(0), Fraction(limit) / 16, None, seed=11, hives=100_000)
    expected = below(limit)
    assert found.share == pytest.approx(expected, abs=4 * math.sqrt(0.25 / found.hives))
    assert found.share == pytest.approx(
        expected, abs=5 * math.sqrt(expected * (1 - expected) / found.hives)
    )


@pytest.mark.parametrize("rule", ["bottom_board.room_above_stack", "bottom_board.bee_way_in"])
def test_a_stack_of_many_sizes_fails_as_often_as_a_normal_sum(rule: str) -> None:
    """The sum of six or more errors is nearly normal; its variance is that of errors cut off."""
    found = stack(DEMO, rule, hives=200_000)
    sigma = root_sum_square(found.contributors) / SIGMAS * math.sqrt(cut_off_variance())
    limits = [(float(v) - float(found.value)) / sigma / math.sqrt(2) if v is not None else None
              for v in (found.low, found.high)]  # fmt: skip
    low, high = limits
    expected = (1 + math.erf(low)) / 2 + ((1 - math.erf(high)) / 2 if high is not None else 0)
    noise = 4 * math.sqrt(expected / found.simulation.hives)
    assert found.simulation.share == pytest.approx(expected, abs=noise + 0.003)


def test_the_errors_are_cut_off_and_as_wide_as_the_closed_form_says() -> None:
    errors = errors_drawn([part("a", "3")], seed=5, hives=200_000)["a"]
    assert abs(errors).max() <= SIGMAS
    assert errors.var() == pytest.approx(cut_off_variance(), rel=0.02)
    assert errors.mean() == pytest.approx(0, abs=0.01)


# ── bounds ────────────────────────────────────────────────────────────────────────────────────

SIZES = st.fractions(0, 1, max_denominator=64)
FACTORS = st.fractions(-12, 12, max_denominator=4)


@st.composite
def contributors(draw: st.DrawFn) -> list[Contributor]:
    count = draw(st.integers(1, 7))
    found = []
    for i in range(count):
        group = draw(st.sampled_from(["", "", "stop", "fence"]))
        pieces = 1 if group else draw(st.integers(1, 5))
        found.append(
            Contributor(
                name=f"size {i}", tolerance=draw(SIZES), sensitivity=draw(FACTORS),
                group=group, pieces=pieces,
            )
        )  # fmt: skip
    return found


@given(contributors())
def test_worst_is_never_less_than_root_sum_square(parts: list[Contributor]) -> None:
    worst, chance = worst_case(parts), root_sum_square(parts)
    assert float(worst) >= chance - 1e-12
    assert chance >= float(worst) / math.sqrt(5 * len(parts)) - 1e-12


@given(contributors())
def test_shares_make_one_and_stand_in_order(parts: list[Contributor]) -> None:
    shares = [c.share for c in ranked(parts)]
    assert shares == sorted(shares, reverse=True)
    assert sum(shares) == pytest.approx(1 if root_sum_square(parts) else 0)


@given(contributors(), st.integers(0, 2**32 - 1))
@settings(max_examples=40)
def test_no_hive_is_worse_than_the_worst(parts: list[Contributor], seed: int) -> None:
    worst = worst_case(parts)
    found = simulated(parts, Fraction(0), -worst, worst, seed=seed, hives=500)
    assert found.failing == 0
    assert -worst - 1e-9 <= found.low <= found.high <= worst + 1e-9


# ── a rule's own arithmetic ───────────────────────────────────────────────────────────────────

# Worked out by hand from the drawings: how far each size moves the gap.
SENSITIVITIES = {
    "bottom_board.panel_play_along": {
        "hive_length": 1, "stud_thickness": -2, "bottom_board.panel_length": -1,
    },
    "bottom_board.room_above_stack": {
        "stud_width": 1, "strip_wide": -1, "foam_thickness": -1, "slot_ease": -1,
        "strip_narrow": -3, "mesh_thickness": -1,
    },
    "roof.skirt_lap": {"skirt_width": 1, "rim_low_height": -1},
    "roof.rim_clear_across": {"roof.rim_width": Fraction(1, 2), "hive_width": Fraction(-1, 2)},
    "bottom_board.wood_beside_bolt_hole": {"stud_thickness": Fraction(1, 2)},
    "roof.screw_bite": {"cover_thickness": -1, "deck_thickness": -1},
}  # fmt: skip


@pytest.mark.parametrize("rule", SENSITIVITIES)
def test_sensitivities_are_those_worked_out_by_hand(rule: str) -> None:
    found = {c.name: c.sensitivity for c in stack(DEMO, rule, hives=1).contributors}
    assert found == SENSITIVITIES[rule]


def test_the_quarter_inch_of_the_panel_is_just_enough() -> None:
    """By hand: ±1/32 for tape and stop block; 1 + 2 + 1 of them; the gap of 1/4 keeps 1/8."""
    found = stack(DEMO, "bottom_board.panel_play_along")
    assert (found.worst_low, found.worst_high) == (Fraction(1, 8), Fraction(3, 8))
    assert found.rss_low == pytest.approx(0.25 - math.sqrt(6) / 32)
    assert found.holds_at_worst
    assert found.simulation.failing == 0


def test_a_piece_that_was_measured_is_as_good_as_the_tape() -> None:
    care = Care(cut=HAND_MARK)
    name = "bottom_board.panel_length"
    planned = stack(DEMO, "bottom_board.panel_play_along", care)
    measured = stack(DEMO, "bottom_board.panel_play_along", care, {name: Fraction(79, 4)})
    tolerances = [
        next((c.tolerance, c.reason) for c in s.contributors if c.name == name)
        for s in (planned, measured)
    ]
    assert tolerances == [(HAND_MARK, "as you cut"), (READING, "as you read the tape")]
    assert measured.value == planned.value + Fraction(1, 8)


def given_corner(rule: str, signs: dict[str, int], found: dict[str, Fraction]) -> Fraction:
    """The rule at one corner of its tolerances, by the graph itself."""
    moved = {n: sizes + signs[n] for n, sizes in found.items() if n in signs}
    return FIT.values(DEMO.measurements, moved, (rule.partition(".")[0],))[rule]


@pytest.mark.parametrize("rule", rules_of(DEMO))
def test_worst_is_the_worst_of_all_corners(rule: str) -> None:
    """Second way: every combination of errors, computed by the graph. Exact on the failing side."""
    found, asked = stack(DEMO, rule, hives=1), rules_of(DEMO)[rule]
    sizes = sizes_of(DEMO)
    tolerances = {n: _tolerance(n) for n in rests_on(DEMO, rule) if n in _read_or_cut(rule)}
    corners = [
        given_corner(rule, dict(zip(tolerances, signs, strict=True)), sizes)
        for signs in itertools.product(*((-t, t) for t in tolerances.values()))
    ]
    assert found.worst_low <= min(corners)
    assert found.worst_high >= max(corners)
    if asked.low is not None:
        assert found.worst_low == min(corners)
    if asked.high is not None:
        assert found.worst_high == max(corners)


def _read_or_cut(rule: str) -> set[str]:
    """What of a rule somebody reads or cuts: all but what is bought."""
    bought = {n for n, d in FIT.dimensions.items() if d.component == "stock"}
    return set(rests_on(DEMO, rule)) - bought


def _tolerance(name: str) -> Fraction:
    if name == "mesh_thickness":
        return Fraction(1, 256)
    return HAND_MARK if name.endswith("screw_line") else STOP_BLOCK


@pytest.mark.parametrize("hive", BUILT)
def test_chance_never_leaves_the_worst_and_root_sum_square_neither(hive: str) -> None:
    for rule in rules_of(BUILT[hive]):
        found = stack(BUILT[hive], rule, hives=400)
        low, high = float(found.worst_low), float(found.worst_high)
        assert low - 1e-9 <= found.rss_low <= found.rss_high <= high + 1e-9, rule
        assert low - 1e-9 <= found.simulation.low <= found.simulation.high <= high + 1e-9, rule
        assert found.worst_low <= found.value <= found.worst_high, rule
        assert found.value == rule_value(rule, {n: sizes_of(BUILT[hive])[n]
                                                for n in rests_on(BUILT[hive], rule)})  # fmt: skip


@pytest.mark.parametrize("hive", ["orchard", "eight-frame"])
def test_hives_by_chance_are_what_the_exact_rules_find(hive: str) -> None:
    """Eight of the hives made by chance, each rule computed again by the exact graph."""
    built, planned = BUILT[hive], sizes_of(BUILT[hive])
    names = {n for rule in rules_of(built) for n in rests_on(built, rule)} & planned.keys()
    drawn = errors_drawn([part(n, "1/32") for n in sorted(names)], seed=2, hives=8)
    for i in range(8):
        moved = {n: planned[n] + Fraction(float(drawn[n][i])) for n in names if n != "frames"}
        exact = {f.rule: f.value for f in findings(built, moved)}
        for rule in rules_of(built):
            sizes = {n: planned[n] for n in rests_on(built, rule)}
            errors = {n: e for n, e in drawn.items() if n != "frames"}
            gaps = gaps_drawn(rule, sizes, errors)
            assert gaps[i] == pytest.approx(float(exact[rule]), abs=1e-9), rule


# ── from nothing to everything ────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("rule", rules_of(DEMO))
def test_without_errors_nothing_moves(rule: str) -> None:
    found = stack(DEMO, rule, PERFECT, hives=50)
    assert found.worst_low == found.value == found.worst_high
    assert found.contributors == ()
    assert found.simulation.failing == 0


def test_the_share_goes_from_none_to_nearly_all() -> None:
    cares = [
        Care(cut=t, mark=t, reading=t)
        for t in (
            Fraction(1, 10_000),
            Fraction(1, 64),
            Fraction(1, 16),
            Fraction(1, 4),
            Fraction(1),
        )
    ]
    shares = [stack(DEMO, "bottom_board.bee_way_in", c).simulation.share for c in cares]
    assert shares[0] == 0
    assert shares == sorted(shares)
    assert shares[-1] > 0.9
    assert trial(DEMO, PERFECT).share == 0
    assert trial(DEMO, ABSURD).share > 0.999


def test_whole_hives_fail_at_least_as_often_as_their_worst_rule_and_at_most_as_all() -> None:
    found = trial(DEMO, hives=20_000)
    assert max(found.rules.values()) <= found.failing <= sum(found.rules.values())
    for rule, count in found.rules.items():
        alone = stack(DEMO, rule, hives=20_000).simulation.share
        noise = 5 * math.sqrt(2 * alone * (1 - alone) / 20_000)
        assert count / found.hives == pytest.approx(alone, abs=noise), rule


def test_strips_that_are_ripped_apart_spread_less_than_off_one_fence() -> None:
    """By hand: one error three times is 3, three errors once are √3, in 1/32 in."""
    rule = "bottom_board.room_above_stack"
    one = stack(DEMO, rule)
    apart = stack(DEMO, rule, Care(apart={"strip_narrow": 3}))
    assert one.worst_low == apart.worst_low
    reach = [(float(s.value) - s.rss_low) * 32 for s in (one, apart)]
    assert reach[0] ** 2 - reach[1] ** 2 == pytest.approx(9 - 3)
    assert apart.simulation.share < one.simulation.share


def test_sizes_off_together_are_one_error() -> None:
    care = Care(together=[["skirt_width", "rim_low_height"]])
    found = stack(DEMO, "roof.skirt_lap", care)
    assert found.worst_low == found.worst_high == found.value
    assert {c.group for c in found.contributors} == {"together 1"}


def test_the_same_seed_makes_the_same_hives() -> None:
    one, same, other = (
        stack(DEMO, "bottom_board.bee_way_in", seed=s).simulation for s in (7, 7, 8)
    )
    assert one == same
    assert one.failing != other.failing
    assert one.seed == 7
    assert one.hives == 10_000


# ── what is said, and what is refused ─────────────────────────────────────────────────────────


def test_each_way_has_a_plain_sentence() -> None:
    told = stack(DEMO, "bottom_board.bee_way_in", seed=7).sentences("mm")
    assert told[0] == (
        "Everything off the worst way at once: ≈ 3 mm to ≈ 14.3 mm, and the rule fails."
    )
    assert "root-sum-square" in told[1]
    assert "(seed 7)" in told[2]
    assert "10,000 hives" in told[2]
    slope = stack(DEMO, "roof.fall").sentences()
    assert " in " not in slope[0].partition(":")[2].partition(",")[0].replace(" to ", "")


def test_faults_of_care_are_told_all_at_once() -> None:
    with pytest.raises(HiveFaults) as caught:
        Care(
            cut=Fraction(-1, 32),
            own={"stud_thicknes": Fraction(1, 32), "stud_width": Fraction(3)},
            together=[["skirt_width"], ["skirt_width"]],
            apart={"strip_narrow": 0},
        )
    told = str(caught.value).splitlines()
    assert len(told) == 5
    assert told[0] == "tolerance of a cut: −1/32 in; 0 to 1 in is accepted."
    assert any("stud_thickness" in line for line in told)
    assert any("two groups" in line for line in told)
    assert any("1 or more" in line for line in told)


@pytest.mark.parametrize("hives", [0, -5, 1_000_001])
def test_a_number_of_hives_that_cannot_be_is_refused(hives: int) -> None:
    with pytest.raises(HiveFaults, match="hives to simulate"):
        stack(DEMO, "roof.skirt_lap", hives=hives)


def test_a_rule_that_this_hive_does_not_have_is_refused() -> None:
    with pytest.raises(UnknownNameError, match=r"roof\.skirt_lap"):
        stack(DEMO, "roof.skirt_lapp")
    with pytest.raises(UnknownNameError):
        stack(DEMO, "box.bee_space_above")
    with pytest.raises(UnknownNameError, match="stud_width"):
        stack(DEMO, "roof.skirt_lap", given={"stud_widht": Fraction(3)})
