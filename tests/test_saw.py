"""At the saw: angles by trigonometry written apart and the assembly; settings as few as can be."""

import csv
import io
import json
import math
import re
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hivecalc.components import values
from hivecalc.cutting.needs import board_needs, needed
from hivecalc.cutting.strips import LEAST_HELD, LEAST_RIP
from hivecalc.hive import Hive, HiveFaults, changed, demo_hive, hive_from_text
from hivecalc.length import MM, SIXTEENTH, THIRTY_SECOND
from hivecalc.saw import (
    CAUTIONS,
    Bevel,
    SawPlan,
    Step,
    Taper,
    landing_bevel,
    rim_front_bevel,
    saw_plan,
    taper,
)
from hivecalc.saw.plan import KINDS
from hivecalc.saw.resets import followed
from hivecalc.saw.resets import settings as fewest_settings
from hivecalc.saw.telling import WHY, degrees_text, setting_told, taper_told, work_told
from hivecalc.space import solids
from hivecalc.stock import COMMON, Yard, demo_yard
from hivecalc.tables.saw import saw_json, saw_table, saw_text
from hivecalc.tables.texts import csv_text, json_text
from tests.hives import HIVES

YARD = demo_yard()
PLAN = saw_plan([demo_hive()], YARD)


def inches(text: str) -> Fraction:
    return sum(map(Fraction, text.split()), Fraction(0))


def some_hive(name: str) -> Hive:
    return hive_from_text(HIVES[name])


@st.composite
def roofs(draw: st.DrawFn) -> Hive:
    """Hives whose roofs are of any allowed length, height and slope."""
    width = draw(st.integers(2 * 16, 7 * 16))
    sizes = {
        "hive_length": draw(st.integers(9 * 16, 48 * 16)),
        "hive_width": draw(st.integers(9 * 16, 48 * 16)),
        "stud_width": width,
        "stud_thickness": draw(st.integers(16, 36)),
        "rim_low_height": draw(st.integers(8, min(width - 1, 96))),
        "board_thickness": draw(st.integers(10, 28)),
        "rim_back_thickness": 12,
        "entrance_height": 8,
    }
    return changed(demo_hive(), {name: Fraction(n, 16) for name, n in sizes.items()})


# ── the taper ──────────────────────────────────────────────────────────────────────────────────


@given(roofs())
@settings(max_examples=60)
def test_the_taper_is_the_outline_of_the_rim_side_in_the_assembly(hive: Hive) -> None:
    side = next(s for s in solids(values(hive), "roof") if s.label == "rim side, left")
    (front, foot), (back, _), (_, low), (_, high) = side.blocks[0].profile
    cut = taper(hive)
    assert (cut.high, cut.low) == (high - foot, low - foot)
    assert abs(cut.run - (back - front)) <= SIXTEENTH.step / 2  # the length is cut on a mark
    assert [tuple(mark) for mark in cut.marks] == [(0, cut.high), (cut.run, cut.low)]


@given(roofs())
@settings(max_examples=60)
def test_the_taper_by_trigonometry_written_apart(hive: Hive) -> None:
    """Angle from the cut's two ends, jig from a point's distance to the line through them."""
    cut = taper(hive)
    run, high, low = (float(x) for x in (cut.run, cut.high, cut.low))
    line = complex(run, low) - complex(0, high)
    assert cut.angle == pytest.approx(-math.degrees(math.atan2(line.imag, line.real)), rel=1e-12)
    assert float(cut.slope) == pytest.approx(math.tan(math.radians(cut.angle)), rel=1e-12)
    for corner, distance in zip((complex(0, 0), complex(run, 0)), cut.from_jig, strict=True):
        away = (corner - complex(0, high)) / line
        assert float(distance) == pytest.approx(abs(away.imag) * abs(line), rel=2e-6)
    turned = (high - low) * math.cos(math.radians(cut.angle))
    assert float(cut.jig_offset) == pytest.approx(turned, rel=3e-6)
    assert float(cut.middle) == pytest.approx(high + 0.5 * line.imag, rel=1e-12)
    assert float(cut.per_foot) == pytest.approx(12 * (high - low) / run, rel=1e-12)


def test_a_taper_by_hand() -> None:
    # 2 in over 24 in are 1 in to a foot; atan(1/12) is 4.7636 degrees by a table of tangents.
    cut = Taper(Fraction(24), Fraction(7, 2), Fraction(3, 2))
    assert (cut.rise, cut.per_foot, cut.middle) == (2, 1, Fraction(5, 2))
    assert cut.angle == pytest.approx(4.7636, abs=5e-5)


def test_a_taper_at_its_limits() -> None:
    """Nothing to take off is no angle; as much as the length is 45 degrees."""
    assert Taper(Fraction(20), Fraction(3), Fraction(3)).angle == 0
    assert Taper(Fraction(20), Fraction(3), Fraction(3)).jig_offset == 0
    assert Taper(Fraction(2), Fraction(3), Fraction(1)).angle == pytest.approx(45)


@given(st.integers(1, 200), st.integers(1, 200), st.integers(100, 900))
def test_a_longer_piece_has_a_smaller_angle(low: int, rise: int, run: int) -> None:
    short, long = (
        Taper(Fraction(n, 16), Fraction(low + rise, 16), Fraction(low, 16)) for n in (run, run + 16)
    )
    assert short.angle > long.angle
    assert short.slope * short.run == long.slope * long.run == Fraction(rise, 16)


# ── bevels ─────────────────────────────────────────────────────────────────────────────────────


@given(roofs())
@settings(max_examples=40)
def test_the_landing_boards_bevel_is_that_of_the_assembly(hive: Hive) -> None:
    board = next(s for s in solids(values(hive), "bottom_board") if s.label == "landing board")
    heel, top, front, below = ((float(y), float(z)) for y, z in board.blocks[0].profile)
    bevel = landing_bevel(hive)
    assert float(bevel.upper) == pytest.approx(math.dist(top, front), rel=1e-6)
    assert float(bevel.fence) == pytest.approx(math.dist(heel, below), rel=1e-5)
    assert bevel.tilt == pytest.approx(30, abs=1e-4)
    thick = float(hive.measurements["board_thickness"])
    assert float(bevel.taken) == pytest.approx(thick * math.tan(math.radians(30)), rel=1e-6)


@given(roofs())
@settings(max_examples=40)
def test_the_rims_front_is_bevelled_as_it_stands_in_the_assembly(hive: Hive) -> None:
    front = next(s for s in solids(values(hive), "roof") if s.label == "rim front")
    (y0, _), (y1, _), (_, inner), (_, outer) = front.blocks[0].profile
    bevel = rim_front_bevel(hive)
    assert (bevel.upper, bevel.fence, bevel.thickness) == (outer, inner, y1 - y0)
    fall = math.atan2(float(outer - inner), float(y1 - y0))
    assert bevel.tilt == pytest.approx(math.degrees(fall), rel=1e-9)


def test_the_front_is_tilted_as_the_sides_are_tapered() -> None:
    assert rim_front_bevel(demo_hive()).tilt == pytest.approx(taper(demo_hive()).angle, rel=1e-12)


def test_a_bevel_at_its_limits() -> None:
    flat = Bevel(Fraction(3, 4), Fraction(7, 2), Fraction(0))
    assert (flat.tilt, flat.taken, flat.fence) == (0, 0, Fraction(7, 2))
    steep = Bevel(Fraction(3, 4), Fraction(7, 2), Fraction(1))
    assert (steep.tilt, steep.fence) == (45, inches("2 3/4"))


# ── as few settings as can be ──────────────────────────────────────────────────────────────────


def shortest(orders: list[tuple[int, ...]]) -> int:
    """The length of the shortest list that has each order in it, by breadth-first search."""
    states, length = {tuple(orders)}, 0
    while all(any(state) for state in states):
        length += 1
        states = {
            tuple(o[1:] if o[:1] == (setting,) else o for o in state)
            for state in states
            for setting in {o[0] for o in state if o}
        }
    return length


ORDERS = st.lists(
    st.lists(st.integers(1, 6), min_size=1, max_size=5).map(lambda o: tuple(sorted(o)[::-1])),
    max_size=4,
)
ANY_ORDERS = st.lists(st.lists(st.integers(1, 5), max_size=4).map(tuple), max_size=4)


@given(st.one_of(ORDERS, ANY_ORDERS))
def test_settings_are_as_few_as_a_search_of_everything_finds(orders: list[tuple[int, ...]]) -> None:
    found = fewest_settings(orders)
    assert all(followed(order, found.order) for order in orders)
    assert len(found.order) == found.fewest == shortest(orders)
    assert found.proved


def test_orders_that_take_too_long_get_a_good_list_and_a_bound() -> None:
    orders = [tuple(range(40 - i, 2, -1 - i % 5)) + tuple(range(9, i, -1)) for i in range(1, 9)]
    found = fewest_settings(orders)
    assert all(followed(order, found.order) for order in orders)
    assert len({n for order in orders for n in order}) <= found.fewest <= len(found.order)


def whole_lengths(hives: list[Hive]) -> set[Fraction]:
    return {w.length for need in board_needs(hives, YARD) for w in need.wanted}


PLANNED = [[some_hive(name)] for name in HIVES] + [[some_hive(n) for n in HIVES]]


@pytest.mark.parametrize("hives", PLANNED)
def test_a_stop_is_set_once_for_each_length_the_longest_first(hives: list[Hive]) -> None:
    plan = saw_plan(hives, YARD)
    cuts = [step.setting for step in plan.of("crosscut")]
    assert cuts == sorted(whole_lengths(hives), reverse=True)
    strips = [step.setting for step in plan.of("to_length")]
    assert strips == sorted(set(strips), reverse=True)
    for kind in ("crosscut", "to_length", "bevel", "taper"):
        assert plan.settings[kind] == plan.fewest[kind]


@pytest.mark.parametrize("hives", PLANNED)
def test_every_piece_of_lumber_is_cut_at_its_own_length(hives: list[Hive]) -> None:
    plan = saw_plan(hives, YARD)
    done: Counter[tuple[str, Fraction]] = Counter()
    blanks = {blank.label: blank for blank in plan.blanks}
    for step in (*plan.of("crosscut"), *plan.of("to_length")):
        for work in step.work:
            done[work.label, step.setting] += work.count
    for blank in blanks.values():
        if not blank.rest_of:
            assert done.pop((blank.label, blank.length)) == blank.count
        for strip in blank.strips:
            if [length for _, length in strip.pieces] == [blank.length]:
                done[strip.pieces[0]] += strip.count
    wanted = {(p.label, p.length): p.count for p in needed(hives) if p.section}
    assert done == wanted


@pytest.mark.parametrize("hives", PLANNED)
def test_every_rip_is_made_in_its_turn_and_can_be_held(hives: list[Hive]) -> None:
    """The rips of each blank, played back: each starts from what the one before it left."""
    plan = saw_plan(hives, YARD)
    parents = {blank.label: blank.rest_of for blank in plan.blanks}
    passes = [work.passing for step in plan.of("rip") for work in step.work]
    ripped = Counter()
    last = {}
    for number, passing in enumerate(passes):
        assert passing.rip.fence >= LEAST_HELD
        ripped[passing.label] += passing.count
        last[passing.label] = number
        parent = parents[passing.label]
        assert not any(p.label == parent for p in passes[number:])
    for blank in plan.blanks:
        assert ripped[blank.label] == blank.section.passes * blank.count
        assert blank.length >= LEAST_RIP
        fences = [p.rip.fence for p in passes if p.label == blank.label and p.stage == "stud"]
        assert fences == [rip.fence for rip in blank.section.rips]
    assert all(step.setting == w.passing.rip.fence for step in plan.of("rip") for w in step.work)


def test_the_fence_of_the_demo_hive_is_set_as_rarely_as_can_be() -> None:
    """Ten different distances, and 7/8 in twice: a slice is freed at 3/4, then ripped at 7/8."""
    distances = [step.setting for step in PLAN.of("rip")]
    assert len(distances) == PLAN.fewest["rip"] == 11
    assert Counter(distances).most_common(1) == [(Fraction(7, 8), 2)]
    between = distances[distances.index(Fraction(7, 8)) + 1]
    assert between == Fraction(3, 4)
    assert max(distances) == distances[0]


def test_a_class_needs_fewer_settings_than_its_hives_one_after_the_other() -> None:
    hives = [some_hive(name) for name in HIVES]
    together, alone = saw_plan(hives, YARD), [saw_plan([hive], YARD) for hive in hives]
    for kind in ("crosscut", "bevel", "taper"):
        assert together.settings[kind] <= sum(plan.settings[kind] for plan in alone)
    assert together.settings["rip"] * 2 < sum(plan.settings["rip"] for plan in alone)
    assert len(together.steps) < sum(len(plan.steps) for plan in alone)


def test_hives_that_need_the_same_setting_share_it() -> None:
    longer = replace(changed(demo_hive(), {"hive_length": "24"}), name="Longer hive")
    plan = saw_plan([demo_hive(), longer], YARD)
    back = next(step for step in plan.of("crosscut") if step.setting == inches("17 3/8"))
    assert {work.label for work in back.work} == {
        f"{name}: bottom board {part}"
        for name in ("Orchard hive", "Longer hive")
        for part in ("back rail", "landing board")
    }
    assert plan.settings["taper"] == 2
    bevels = [[w.label for w in step.work] for step in plan.of("bevel")]
    assert [
        "Orchard hive: bottom board landing board",
        "Longer hive: bottom board landing board",
    ] in bevels


def test_hives_that_are_alike_are_cut_together() -> None:
    one, many = PLAN, saw_plan([demo_hive()] * 12, YARD)
    assert many.settings["taper"] == 1
    assert next(s for s in many.of("taper")).cuts == 12 * one.of("taper")[0].cuts
    labels = dict(many.labels)
    assert labels == {label: 12 * count for label, count in one.labels}


def test_no_hive_is_refused() -> None:
    with pytest.raises(HiveFaults, match="there are none"):
        saw_plan([], YARD)


def test_what_the_yard_has_no_lumber_for_is_told_and_the_rest_planned() -> None:
    plan = saw_plan([some_hive("eight-frame")], Yard("coins", YARD.boards[:1], (), ()))
    assert {left.label for left in plan.unplanned} == {
        "bottom board landing board", "box side", "box end",
    }  # fmt: skip
    assert plan.of("crosscut")
    assert "your yard has no board of 3/4 × 9 5/8 in or wider" in saw_text(plan)


# ── what is said ───────────────────────────────────────────────────────────────────────────────


def test_each_kind_of_step_has_its_cautions() -> None:
    words = {kind: " ".join(c.text.lower() for c in CAUTIONS[kind]) for kind in CAUTIONS}
    for kind in ("crosscut", "rip", "to_length", "bevel"):
        assert "guard" in words[kind]
        assert "riving knife or splitter" in words[kind]
        assert "nothing freehand" in words[kind]
    for kind in KINDS:
        assert "glasses" in words[kind]
        assert "hearing" in words[kind]
        assert "gloves" in words[kind]
        assert "manual" in words[kind]
    for kind in ("rip", "bevel", "taper"):
        assert "push stick" in words[kind]
    for kind in ("rip", "bevel", "to_length"):
        assert "never rip a piece shorter or narrower than the saw's manual allows" in words[kind]
    assert "wet" in words["rip"]
    assert "binds" in words["crosscut"]
    assert "dust" in words["before"]
    assert "hand saw" in words["taper"]
    assert "leave the roof flat" in words["taper"]
    assert "wire" in words["after"]
    assert "label" in words["after"]


# What has been read of the standard; other paragraphs are from memory and must not be cited.
READ = {"(c)(1) to (3)", "(a)(1) and (a)(6)", "(b)(1) and (b)(3)"}


def test_only_sections_of_the_standard_that_were_read_are_cited() -> None:
    sources = {caution.source for cautions in CAUTIONS.values() for caution in cautions}
    cited = {s.removeprefix("OSHA 29 CFR 1910.213") for s in sources if "CFR" in s}
    assert cited == READ
    assert {s for s in sources if "CFR" not in s} == {COMMON, "OSHA, page on wood dust"}


def test_a_step_in_words() -> None:
    said = [setting_told(step) for step in PLAN.steps]
    assert "stop block 23 5/8 in from the blade" in said
    assert "fence 2 3/4 in from the blade" in said
    assert "fence 3 1/16 in from the blade, tilted 30° away from it" in said
    assert "jig with an offset of 2 in, ≈ 4.8°" in said
    front = next(step for step in PLAN.of("rip") if step.setting == inches("2 3/4"))
    assert list(work_told(front)) == [
        "1 × bottom board front rail: 2 3/4 in stays at the fence and is kept, 5/8 in falls off"
    ]
    last = PLAN.of("rip")[-1]
    (told,) = work_told(last)
    assert told.startswith("4 × blank, strip of 1/2 × 3/4 in: a slice laid flat, 1/2 in stays")
    assert told.endswith("at the fence and is kept, 1/4 in falls off")


def test_the_taper_in_words_has_both_marks_and_a_check() -> None:
    told = "\n".join(taper_told(taper(demo_hive())))
    assert "mark 1: at the front end, 3 1/2 in up" in told
    assert "mark 2: 23 5/8 in from the front end, 1 1/2 in up" in told
    assert "≈ 1 in open, 12 in from its hinge" in told  # 12 x 2 / 23.625 = 1.016
    assert "check: 2 1/2 in high half-way; 2 in fall over 23 5/8 in" in told
    metric = "\n".join(taper_told(Taper(600 * MM, 89 * MM, 39 * MM), "mm"))
    assert "a hinged jig stands 25 mm open, 300 mm from its hinge" in metric


def test_angles_are_marked_where_they_were_rounded() -> None:
    assert [degrees_text(a) for a in (30.0, 4.8383, 0.0, 7.5)] == ["30°", "≈ 4.8°", "0°", "7.5°"]


LENGTH = {"exact", "inches", "mm"}


def test_the_plan_for_other_programs() -> None:
    found = json.loads(json_text(saw_json(PLAN)))
    assert found["schema"] == "hivecalc/1"
    assert [step["number"] for step in found["steps"]] == list(range(1, len(PLAN.steps) + 1))
    for step, meant in zip(found["steps"], PLAN.steps, strict=True):
        assert set(step) == {
            "number", "kind", "what", "setting", "tilt", "pieces", "how", "why", "cautions",
        }  # fmt: skip
        assert set(step["setting"]) == LENGTH
        assert Fraction(step["setting"]["exact"]) == meant.setting
        assert step["why"] == WHY[meant.kind]
        assert [c["text"] for c in step["cautions"]] == [c.text for c in CAUTIONS[meant.kind]]
        assert sum(piece["count"] for piece in step["pieces"]) == meant.cuts
    assert found["settings"]["rip"] == {"count": 11, "fewest": 11}
    strips = found["blanks"][0]
    assert (strips["strips_each"], strips["length"]["inches"]) == (8, "39 3/8")
    assert len(found["labels"]) == len([p for p in needed([demo_hive()]) if p.section])
    assert found["ripped_off"][0]["thickness"]["exact"] == "5/8"


def test_the_grid_changes_what_is_shown_and_not_what_is() -> None:
    fine, usual = saw_json(PLAN, THIRTY_SECOND), saw_json(PLAN)
    assert [s["setting"]["exact"] for s in fine["steps"]] == [
        s["setting"]["exact"] for s in usual["steps"]
    ]


def test_the_plan_for_a_spreadsheet() -> None:
    rows = list(csv.DictReader(io.StringIO(csv_text(saw_table(PLAN)))))
    assert len(rows) == sum(len(step.work) for step in PLAN.steps)
    taper_row = rows[-1]
    assert taper_row["kind"] == "taper"
    assert float(taper_row["tilt"]) == pytest.approx(4.8388, abs=1e-3)
    stops = [float(r["setting_mm"]) for r in rows if r["kind"] == "crosscut"]
    assert stops == sorted(stops, reverse=True)


def test_the_plan_to_read_has_every_setting_label_and_caution() -> None:
    text = " ".join(saw_text(PLAN).split())
    for step in PLAN.steps:
        assert setting_told(step) in text
        for caution in step.cautions:
            assert caution.text in text
    for label, count in PLAN.labels:
        assert f"{count} × {label}" in text
    assert text.index("Before the first cut") < text.index("Crosscut from the boards")
    assert "11 settings of the fence for rips: fewer can't do." in text
    assert "5/8 in thick, one kerf of 1/8 in less" in text
    assert max(map(len, saw_text(PLAN).splitlines())) <= 80


def test_a_hive_in_mm_is_told_in_mm() -> None:
    text = saw_text(saw_plan([some_hive("metric")], YARD))
    settings_lines = re.findall(r"^ ?\d+\. .*$", text, re.MULTILINE)
    assert settings_lines
    assert all(" mm" in line for line in settings_lines)
    assert not any(re.search(r"\d in\b", line) for line in text.splitlines())


@pytest.mark.parametrize("name", ["\x1b[31m", "=1+1", "a\nb"])
def test_a_name_can_do_no_harm(name: str) -> None:
    bad = replace(demo_hive(), name=name)
    plan = saw_plan([bad, changed(demo_hive(), {"hive_width": "20"})], YARD)
    for text in (saw_text(plan), csv_text(saw_table(plan)), json_text(saw_json(plan))):
        assert "\x1b" not in text
    for row in csv.reader(io.StringIO(csv_text(saw_table(plan)))):
        assert not any(cell.startswith(("=", "+", "@")) for cell in row)


def test_steps_come_in_the_order_of_the_work() -> None:
    plans: list[SawPlan] = [saw_plan(hives, YARD) for hives in PLANNED]
    for plan in plans:
        kinds = [KINDS.index(step.kind) for step in plan.steps]
        assert all(one <= other for one, other in pairwise(kinds))
        assert isinstance(plan.steps[0], Step)
