"""Many hives by chance: against plain numpy written apart, printed stacks, and sums by hand."""

import math
from fractions import Fraction

import numpy as np
import pytest

from hivecalc.as_built import Care, usual_care
from hivecalc.as_built.care import sources
from hivecalc.as_built.trial import Spread, root_sum_square, spread, trial
from hivecalc.derivation import UnknownNameError
from hivecalc.fit import newly_failing, rules_of
from hivecalc.hive import Hive, HiveFaults, demo_hive
from hivecalc.length import MM
from tests.commands import called
from tests.hives import hive_of

DEMO = demo_hive()
CUT = RIP = 1 / 32
TAPE = PLANE = 1 / 64
HIVES = 100_000
COARSE = Care(cut=Fraction(1, 8), rip=Fraction(1, 8), tape=Fraction(1, 16), plane=Fraction(1, 16))


# ── plain numpy, written apart ────────────────────────────────────────────────────────────────


class Bench:
    """Hands and tools: each call draws one error for each hive, a bell curve cut off at its end."""

    def __init__(self, seed: int, scale: float = 1.0) -> None:
        self.chance, self.scale = np.random.default_rng(seed), scale

    def off(self, amount: float) -> np.ndarray:
        drawn = self.chance.standard_normal(2 * HIVES)
        return drawn[abs(drawn) <= 3][:HIVES] / 3 * amount * self.scale


def panel_play_along(habit: str, scale: float) -> np.ndarray:
    """Side rails 21 5/8, front stud 1 1/2, panel 19 7/8: or, to the frame, opening less 1/4."""
    bench = Bench(7, scale)
    rails = [21.625 + bench.off(CUT) for _ in range(2)]
    opening = np.minimum(*rails) - (1.5 + bench.off(TAPE))
    aimed = 19.875 if habit == "plan" else opening + bench.off(TAPE) - 0.25
    return opening - (aimed + bench.off(CUT))


def headroom(_: str, scale: float) -> np.ndarray:
    """Studs 3 1/2 share their reading; 3/4 of one fence setting, three times 1/2 of another.

    The slot of 1 1/8 is marked out by hand; mesh of 0.034 is gauged to 1/256.
    """
    bench = Bench(8, scale)
    narrow, wide = 0.5 + bench.off(RIP), 0.75 + bench.off(RIP)
    mesh = 0.034 + bench.off(1 / 256 / scale if scale > 1 else 1 / 256)
    slot = 1.125 + bench.off(CUT)
    return 3.5 + bench.off(TAPE) - wide - slot - 3 * narrow - mesh


def screen_gap_along(habit: str, scale: float) -> np.ndarray:
    """Opening as above; the screen is as long as the longest of four side strips of 20."""
    bench = Bench(9, scale)
    rails = [21.625 + bench.off(CUT) for _ in range(2)]
    opening = np.minimum(*rails) - (1.5 + bench.off(TAPE))
    aimed = 20.0 if habit == "plan" else opening + bench.off(TAPE) - 0.125
    strips = [aimed + bench.off(CUT) for _ in range(4)]
    return opening - np.maximum.reduce(strips)


APART = [
    ("bottom_board.panel_play_along", panel_play_along, "plan", 1.0),
    ("bottom_board.panel_play_along", panel_play_along, "frame", 4.0),
    ("bottom_board.room_above_stack", headroom, "frame", 4.0),
    ("bottom_board.screen_play_along", screen_gap_along, "frame", 1.0),
]
LEAST = {
    "bottom_board.panel_play_along": 1 / 8,
    "bottom_board.room_above_stack": 0,
    "bottom_board.screen_play_along": 1 / 32,
}


@pytest.mark.parametrize(("rule", "by_numpy", "habit", "scale"), APART)
def test_a_rule_spreads_as_by_plain_numpy(rule, by_numpy, habit, scale):
    """Ends within 2/1000 in, and a share of failing hives within four standard errors."""
    care = Care() if scale == 1 else COARSE
    found = spread(DEMO, rule, care, habit, hives=50_000)
    plain = by_numpy(habit, scale)
    ends = np.quantile(plain, [0.00135, 0.99865])
    assert found.tried == pytest.approx(ends, abs=0.002 * scale)
    share, ours = (plain < LEAST[rule]).mean(), found.failing / found.hives
    assert abs(ours - share) <= 4 * math.sqrt(max(share, 1e-4) / found.hives) + 1e-4


def test_the_share_of_hives_that_fail_is_no_less_than_any_rule_and_no_more_than_all():
    found = trial(DEMO, COARSE, hives=5000)
    assert max(found.rules.values()) <= found.failing <= sum(found.rules.values())
    assert [*found.rules.values()] == sorted(found.rules.values(), reverse=True)


@pytest.mark.parametrize("seed", range(3))
def test_a_hive_of_the_trial_fails_by_the_rules_that_fit_knows(seed):
    """One hive built by chance, put together again piece by piece and asked by fit itself."""
    off = sources(DEMO, COARSE, "plan")
    chance = np.random.default_rng(seed)
    drawn: dict[str, np.ndarray] = {}
    for name in dict.fromkeys([s.shared for s in off]):
        values = chance.standard_normal(1)
        while abs(values[0]) > 3:
            values = chance.standard_normal(1)
        drawn[name] = values / 3
    exact = {s.name: s.aimed + Fraction(drawn[s.shared][0]) * s.tolerance for s in off}
    failed = set(newly_failing(DEMO, exact))
    found = trial(DEMO, COARSE, "plan", hives=1, seed=seed)
    assert set(found.rules) == failed


# ── worst case and root-sum-square ────────────────────────────────────────────────────────────


ALL_ONE = Care(*[Fraction(1, 32)] * 3)
# A rule, care and habit; by hand what it is meant to be, and how far off at worst and by chance.
# Worst case is the sum of |a T|, by chance √(sum of (a T)²): F. Scholz, Tolerance Stack Analysis
# Methods, 1995.
STACKS = [
    # rail, stud and panel on the plan: 1/32 + 1/64 + 1/32
    ("panel_play_along", Care(), "plan", 1 / 4, 5 / 64, None),
    # rail and panel; to the frame a reading and a cut, and no longer the rail
    ("panel_play_across", Care(), "plan", 1 / 4, 1 / 16, math.sqrt(2) / 32),
    ("panel_play_across", Care(), "frame", 1 / 4, 3 / 64, math.sqrt(5) / 64),
    # front rail, hive, and two studs of one reading, added before they are squared
    ("frame_against_hive_across", ALL_ONE, "frame", 0, 4 / 32, math.sqrt(1 + 1 + 4) / 32),
    # front rail, front runner, and two runners that share a setting of 1/128: √(4 + 4 + 1) is 3
    ("lower_runners_apart", Care(rip=Fraction(1, 128)), "plan", 1 / 2, 5 / 64, 3 / 64),
]


@pytest.mark.parametrize(("rule", "care", "habit", "meant", "worst", "chance"), STACKS)
def test_worst_case_and_root_sum_square_by_hand(rule, care, habit, meant, worst, chance):  # noqa: PLR0913, PLR0917 - a row
    found = spread(DEMO, f"bottom_board.{rule}", care, habit, hives=1000)
    assert found.worst == pytest.approx((meant - worst, meant + worst))
    assert chance is None or chance_of(found) == pytest.approx(chance)
    shares = {c.name: c.share for c in found.contributors}
    assert rule != "lower_runners_apart" or shares["strip_narrow"] == pytest.approx(1 / 9)


def chance_of(found: Spread) -> float:
    return (found.chance[1] - found.chance[0]) / 2


@pytest.mark.parametrize(
    ("errors", "chance"),
    [([0.10, 0.05, 0.03, 0.05], 0.126), ([0.1] * 10, 0.316)],
    ids=["bore, spacer, ring, shoulder", "ten parts alike"],
)
def test_root_sum_square_as_printed(errors, chance):
    """Worked examples of engineering sites: a bore with three parts in it; ten parts of ± 0.1 mm.

    Of the first only the worst case is printed, ± 0.23; ± 0.126 was worked out from its errors.
    """
    assert round(root_sum_square(errors), 3) == chance


def test_strips_of_one_setting_are_off_together():
    """Headroom: stud 1/64, wide strip 1/32, slot 1/32, mesh 1/256 and three narrow ones at once."""
    found = spread(DEMO, "bottom_board.room_above_stack", hives=1000)
    reach = {c.name: abs(c.reach) for c in found.contributors}
    assert reach["strip_narrow"] == pytest.approx(3 / 32)
    parts = [1 / 64, 1 / 32, 1 / 32, 1 / 256, 3 / 32]
    assert sorted(reach.values()) == pytest.approx(sorted(parts))
    assert chance_of(found) == pytest.approx(math.sqrt(sum(p * p for p in parts)))
    assert sum(c.share for c in found.contributors) == pytest.approx(1)


def test_a_misread_hive_cancels_out_of_rail_and_panel():
    found = spread(DEMO, "bottom_board.panel_play_along", habit="plan", hives=10)
    rails = {f"bottom_board.side_rail_{side}_length" for side in ("left", "right")}
    own = {"stud_thickness", "bottom_board.panel_length"}
    assert {c.name for c in found.contributors} == rails | own


# ── seed, care and habit ──────────────────────────────────────────────────────────────────────


def test_the_same_seed_builds_the_same_hives_and_perfect_care_builds_them_well():
    perfect = trial(DEMO, Care(*[Fraction(0)] * 4), "plan", hives=50)
    assert (perfect.failing, dict(perfect.rules)) == (0, {})
    one, again, other = (trial(DEMO, COARSE, hives=2000, seed=s) for s in (3, 3, 4))
    assert one == again
    assert one.rules != other.rules


@pytest.mark.parametrize("kind", ["cut", "rip", "tape"])
def test_less_care_lets_more_hives_fail(kind):
    amounts = [Fraction(n, 64) for n in (2, 6, 12)]
    hive = hive_of(frames="10", boxes="2")
    shares = [trial(hive, Care(**{kind: a}), hives=2000).share for a in amounts]
    assert shares == sorted(shares)
    assert shares[0] < shares[-1]


def test_a_plane_set_deep_spoils_the_way_in():
    cares = [Care(plane=Fraction(n, 64)) for n in (1, 8, 16)]
    usual, more, most = (spread(DEMO, "bottom_board.bee_way_in", c, hives=5000) for c in cares)
    assert usual.failing <= more.failing < most.failing


def test_cutting_to_the_frame_helps_and_a_stop_block_too():
    care = Care(cut=Fraction(1, 16))
    plan, frame = (trial(DEMO, care, h, hives=5000) for h in ("plan", "frame"))
    assert frame.share < plan.share
    strips = "bottom_board.screen_strips_alike"
    alone, at_one_stop = (spread(DEMO, strips, care, h, hives=1000) for h in ("frame", "block"))
    assert at_one_stop.worst == (0, 0)
    assert alone.worst == pytest.approx((0, 1 / 8))


def test_usual_care_is_told_in_the_hive_s_units():
    for units, saw, tape in (("inch", Fraction(1, 32), Fraction(1, 64)),
                             ("mm", Fraction("0.8") * MM, Fraction("0.4") * MM)):  # fmt: skip
        amounts = usual_care(hive_of(units, frames="10")).amounts
        assert amounts == {"cut": saw, "rip": saw, "tape": tape, "plane": tape}


def test_a_sheet_thinner_than_an_eighth_is_gauged_and_not_taped():
    """To 1/256 in; common practice, no published source."""
    hive = hive_of(hive_length="23 1/8", hive_width="17 3/8", skirt_thickness="1/8",
                   cover_thickness="0.124")  # fmt: skip
    off = {s.name: s.tolerance for s in sources(hive, usual_care(hive))}
    assert off["roof.skirt_end_front_thickness"] == Fraction(1, 64)
    assert off["roof.cover_thickness"] == Fraction(1, 256)


# ── the default hives ─────────────────────────────────────────────────────────────────────────

SIZES: list[dict[str, str]] = [
    {"hive_length": "23 1/8 in", "hive_width": "17 3/8 in"},
    {"frames": "10"},
    {"box_length": "19 7/8 in", "box_width": "16 1/4 in", "box_height": "9 9/16 in"},
]


@pytest.mark.parametrize("units", ["inch", "mm"])
@pytest.mark.parametrize("boxes", ["1", "3"])
@pytest.mark.parametrize("sizes", SIZES, ids=("single", "frames", "box"))
def test_95_of_100_default_hives_hold_with_usual_care(units, boxes, sizes):
    """What the course owes a builder who cuts panel and screen to the measured frame."""
    found = trial(hive_of(units, boxes=boxes, **sizes), hives=4000)
    assert found.habit == "frame"
    assert found.share <= 0.05


# ── bad input ─────────────────────────────────────────────────────────────────────────────────


def test_every_fault_of_a_trial_is_told_at_once():
    with pytest.raises(HiveFaults) as raised:
        trial(DEMO, habit="lazy", hives=0, seed=-1)
    assert len(str(raised.value).splitlines()) == 3
    with pytest.raises(UnknownNameError, match="panel_play_along"):
        spread(DEMO, "bottom_board.panel_play_alnog")


def test_the_command_tells_the_trial_in_json(capfd):
    told = called(capfd, "fit --trial 500 --care cut=1/8 --habit plan --seed 2 --format json")
    found = told.document["trial"]
    assert list(found) == ["hives", "failing", "seed", "care", "habit", "rules"]
    assert (found["hives"], found["seed"], found["habit"]) == (500, 2, "plan")
    assert found["care"]["cut"] == {"exact": "1/8", "inches": "1/8", "mm": 3.175}
    assert set(found["rules"]) <= set(rules_of(DEMO))


def test_a_rule_can_be_told_three_ways():
    """Every twelfth of them."""
    hive: Hive = hive_of(frames="10", boxes="2")
    for rule in [*rules_of(hive)][::12]:
        found = spread(hive, rule, hives=50)
        assert found.worst[0] <= found.aimed <= found.worst[1]
        assert found.low is None or found.worst[0] <= found.tried[0] + 1e-9
        assert found.high is None or found.tried[1] <= found.worst[1] + 1e-9
