"""The fit rules: each at its limits, each by a second way, and what they say to other programs."""

import json
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

import pytest

from hivecalc.derivation import DerivationError, UnknownNameError, kind_of
from hivecalc.fit import (
    FIGURES,
    FIT,
    RULES,
    Finding,
    broken,
    finding_json,
    findings,
    fit_json,
    holds,
)
from hivecalc.fit.rule import rule_of
from hivecalc.hive import Hive, changed, demo_hive, hive_from_text
from hivecalc.length import MM, decimal_inches, millimetres

HAIR = Fraction(1, 1000)

DEMO = demo_hive()
SLEEVED = hive_from_text("[chosen]\nframes = 10")
SINGLE = changed(SLEEVED, {"hive_length": "19 7/8", "hive_width": "16 1/4"})
ODD = hive_from_text(
    """
    [measured]
    box_length = "20"
    box_width = "16 3/8"
    box_height = "9 9/16"
    stud_thickness = "1 9/16"
    stud_width = "3 5/8"
    strip_narrow = "7/16"
    strip_wide = "13/16"
    foam_thickness = "25 mm"
    deck_thickness = "15/32"
    skin_thickness = "12 mm"
    [chosen]
    frames = 10
    frame_play = "1 1/8"
    rest_overlap = "7/16"
    rest_depth = "11/16"
    overhang = "1 3/4"
    rim_low_height = "1 5/8"
    rim_back_thickness = "1 1/8"
    skirt_width = "2 1/4"
    entrance_height = "5/8"
    space_below = "5/16"
    """
)


def value(hive: Hive, rule: str, given: Mapping[str, Fraction] | None = None) -> Finding:
    return next(f for f in findings(hive, given) if f.rule == rule)


def length(text: str) -> Fraction:
    return sum(map(Fraction, text.split()), Fraction(0))


# ── at the limits ─────────────────────────────────────────────────────────────────────────────


class Row(NamedTuple):
    """A rule holds while a knob is turned from least to most, both included, and not beyond."""

    rule: str
    hive: Hive
    knob: str
    least: str | None
    most: str | None


# Worked out by hand for the demo hive of 23 1/8 by 17 3/8 in, whose opening is 20 1/8 by 14 3/8 and
# whose deck stands out 1 3/4; for the ten-frame box, 19 7/8 by 16 1/4; and for that box in its
# sleeve, 22 7/8 by 19 1/4. The limits are common practice, but for the bee space: 1/4 to 3/8 in,
# ends included, as encyclopedias and beekeepers' associations give it.
ROWS = [
    Row("bottom_board.room_above_stack", DEMO, "bottom_board.stack_height", None, "3 1/2"),
    Row("bottom_board.bee_way_in", DEMO, "bottom_board.front_stop_top", "3 1/8", "3 1/4"),
    Row("bottom_board.way_over_stop", DEMO, "bottom_board.front_stop_top", None, "3 5/16"),
    Row("bottom_board.panel_play_along", DEMO, "bottom_board.panel_length", None, "20"),
    Row("bottom_board.panel_play_across", DEMO, "bottom_board.panel_width", None, "14 1/4"),
    Row("bottom_board.widest_gap_at_panel", DEMO, "bottom_board.panel_width", "13 7/8", None),
    Row("bottom_board.widest_gap_at_panel", DEMO, "bottom_board.panel_length", "19 5/8", None),
    Row("bottom_board.screen_play_along", DEMO, "bottom_board.screen_length", None, "20 1/16"),
    Row("bottom_board.screen_play_across", DEMO, "bottom_board.screen_width", None, "14 5/16"),
    Row("bottom_board.widest_gap_at_screen", DEMO, "bottom_board.screen_width", "14 7/32", None),
    Row("bottom_board.widest_gap_at_screen", DEMO, "bottom_board.screen_length", "19 31/32", None),
    Row(
        "bottom_board.lower_runners_apart",
        DEMO, "bottom_board.lower_front_runner_length", None, "13 5/16",
    ),
    Row(
        "bottom_board.upper_runners_apart",
        DEMO, "bottom_board.upper_front_runner_length", None, "12 13/16",
    ),
    Row(
        "bottom_board.upper_runner_lies_flat",
        DEMO, "bottom_board.upper_runner_height", None, "5/8",
    ),
    Row("bottom_board.wood_past_long_brad", DEMO, "stud_thickness", "7/8", None),
    Row("bottom_board.wood_past_long_brad", DEMO, "long_brad", None, "1 7/8"),
    Row("bottom_board.wood_past_short_brad", DEMO, "strip_narrow", "7/16", None),
    Row("bottom_board.wood_past_short_brad", DEMO, "short_brad", None, "7/8"),
    Row("bottom_board.bolt_bite", DEMO, "hanger_bolt", "2 3/4", None),
    Row("bottom_board.bolt_bite", DEMO, "stud_thickness", None, "1 3/4"),
    Row("bottom_board.bolt_play", DEMO, "bolt_hole", "5/16", "1/2"),
    Row("bottom_board.wood_beside_bolt_hole", DEMO, "stud_thickness", "1 1/8", None),
    Row("bottom_board.panel_out_of_board", DEMO, "bottom_board.panel_length", None, "96"),
    Row("roof.rim_clear_along", DEMO, "roof.rim_length", "23 1/4", None),
    Row("roof.rim_clear_across", DEMO, "roof.rim_width", "17 1/2", None),
    Row("roof.skirt_lap", DEMO, "skirt_width", "1 3/4", None),
    Row("roof.room_under_retainer", DEMO, "foam_thickness", None, "1 16/189"),
    Row("roof.fall", DEMO, "rim_low_height", None, "3 1/128"),
    Row("roof.deck_line_in_rim", DEMO, "roof.deck_screw_line", "1 15/16", "3 1/16"),
    Row("roof.deck_line_in_back", DEMO, "roof.deck_screw_line", "1 15/16", "2 9/16"),
    Row("roof.cover_line_in_rim", DEMO, "roof.cover_screw_line", "2 7/16", "3 9/16"),
    Row("roof.cover_line_in_back", DEMO, "roof.cover_screw_line", "2 7/16", "3 1/16"),
    Row("roof.screw_bite", DEMO, "deck_thickness", None, "19/32"),
    Row("roof.wood_past_screw", DEMO, "cover_screw", None, "2 1/32"),
    Row("roof.roof_panel_out_of_board", DEMO, "roof.roof_panel_length", None, "96"),
    Row("roof.deck_out_of_sheet", DEMO, "roof.deck_length", None, "96"),
    Row("roof.cover_out_of_sheet", DEMO, "roof.cover_length", None, "96"),
    Row("roof.spacer_width", DEMO, "roof.deck_overhang", "0", None),
    Row("inner_cover.sheet_out_of_sheet", DEMO, "inner_cover.sheet_length", None, "96"),
    Row("box.bee_space_above", SLEEVED, "box.space_above", "1/4", "3/8"),
    Row("box.bee_space_above", SLEEVED, "rest_depth", "5/8", "3/4"),
    Row("box.bee_space_below", SLEEVED, "space_below", "1/4", "3/8"),
    Row("box.bee_space_at_ends", SLEEVED, "box.inside_length", "18 1/8", "18 3/8"),
    Row("box.room_at_sides", SLEEVED, "box.inside_width", "14 1/4", "15"),
    Row("box.hive_against_box_along", SINGLE, "hive_length", "19 3/4", "20"),
    Row("box.hive_against_box_across", SINGLE, "hive_width", "16 1/8", "16 3/8"),
    Row("sleeve.hive_against_sleeve_along", SLEEVED, "hive_length", "22 3/4", "23"),
    Row("sleeve.hive_against_sleeve_across", SLEEVED, "hive_width", "19 1/8", "19 3/8"),
]  # fmt: skip


def test_each_rule_has_a_row_on_which_it_fails() -> None:
    assert {row.rule for row in ROWS} == set(RULES)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.rule}-{row.knob}")
def test_a_rule_holds_at_its_limits_and_not_a_hair_beyond(row: Row) -> None:
    def held(knob: Fraction) -> bool:
        return value(row.hive, row.rule, {row.knob: knob}).holds

    for end, outwards in ((row.least, -HAIR), (row.most, HAIR)):
        if end is not None:
            at = length(end)
            assert (held(at - outwards), held(at), held(at + outwards)) == (True, True, False)


def test_a_piece_is_turned_to_come_out_of_its_sheet() -> None:
    """A sheet of 48 by 96 in: common practice, no published source."""
    rule = "bottom_board.panel_out_of_board"
    sizes = "bottom_board.panel_width", "bottom_board.panel_length"

    def margin(*panel: int) -> Fraction:
        return value(DEMO, rule, dict(zip(sizes, map(Fraction, panel), strict=True))).value

    assert margin(90, 40) == margin(40, 90) == 6
    assert margin(47, 10) == margin(10, 47) == 38
    assert margin(49, 50) == -1


# ── a second way ──────────────────────────────────────────────────────────────────────────────


def by_hand(m: dict[str, Fraction]) -> dict[str, Fraction]:
    """Each rule's value in plain arithmetic, from the hive's size and the builder's measures."""
    stud, high, narrow, wide = (
        m[n] for n in ("stud_thickness", "stud_width", "strip_narrow", "strip_wide")
    )
    foam, fall = m["foam_thickness"], (high - m["rim_low_height"])
    stop_top = wide + foam + m["slot_ease"] + 2 * narrow + m["mesh_thickness"] + Fraction(1, 4)
    stack = stop_top - Fraction(1, 4) + narrow
    roof_long, roof_wide = (m[n] + Fraction(1, 2) for n in ("hive_length", "hive_width"))
    in_back = min(stud / 2, m["rim_back_thickness"] - stud / 2)
    rail_top = high - m["entrance_height"]
    screws = m["deck_thickness"] + Fraction(5, 32)
    deck = m["hive_width"] + 2 * m["overhang"], m["hive_length"] + 2 * m["overhang"]
    return {
        "bottom_board.room_above_stack": high - stack,
        "bottom_board.bee_way_in": min(high - rail_top, high - stop_top),
        "bottom_board.way_over_stop": high - stop_top,
        "bottom_board.panel_play_along": Fraction(1, 4),
        "bottom_board.panel_play_across": Fraction(1, 4),
        "bottom_board.widest_gap_at_panel": Fraction(1, 4),
        "bottom_board.screen_play_along": Fraction(1, 8),
        "bottom_board.screen_play_across": Fraction(1, 8),
        "bottom_board.widest_gap_at_screen": Fraction(1, 8),
        "bottom_board.lower_runners_apart": Fraction(1, 2),
        "bottom_board.upper_runners_apart": Fraction(1, 2),
        "bottom_board.upper_runner_lies_flat": (wide - narrow) / 2,
        "bottom_board.wood_past_long_brad": narrow + stud - Fraction("1.25"),
        "bottom_board.wood_past_short_brad": 2 * narrow - Fraction("0.75"),
        "bottom_board.bolt_bite": Fraction("2.5") - stud,
        "bottom_board.bolt_play": Fraction(1, 8),
        "bottom_board.wood_beside_bolt_hole": stud / 2 - Fraction(3, 16),
        "bottom_board.panel_out_of_board": 48 - (m["hive_width"] - 2 * stud - Fraction(1, 4)),
        "roof.rim_clear_along": Fraction(1, 4),
        "roof.rim_clear_across": Fraction(1, 4),
        "roof.skirt_lap": m["skirt_width"] - m["rim_low_height"],
        "roof.room_under_retainer": m["rim_low_height"]
        + fall * m["rim_back_thickness"] / roof_long
        - foam
        - narrow,
        "roof.fall": fall / roof_long,
        "roof.deck_line_in_rim": stud / 2,
        "roof.deck_line_in_back": in_back,
        "roof.cover_line_in_rim": stud / 2,
        "roof.cover_line_in_back": in_back,
        "roof.screw_bite": 1 - screws,
        "roof.wood_past_screw": m["rim_low_height"] - (1 - screws),
        "roof.roof_panel_out_of_board": 48 - (roof_wide - 2 * stud),
        "roof.deck_out_of_sheet": 48 - min(deck),
        "roof.cover_out_of_sheet": 48 - min(deck) - 1,
        "roof.spacer_width": m["overhang"] - Fraction(1, 4),
        "inner_cover.sheet_out_of_sheet": 48 - m["hive_width"],
    }


def by_hand_round_a_box(m: dict[str, Fraction]) -> dict[str, Fraction]:
    inside_length = 19 - 2 * m["rest_overlap"] + Fraction(1, 8)
    return {
        "box.bee_space_above": m["rest_depth"] - Fraction(3, 8),
        "box.bee_space_below": m["space_below"],
        "box.bee_space_at_ends": (inside_length - Fraction("17.625")) / 2,
        "box.room_at_sides": m["frame_play"] / 2,
    }


def test_the_demo_hive_by_plain_arithmetic() -> None:
    assert {f.rule: f.value for f in findings(DEMO)} == by_hand(DEMO.measurements)


def test_the_box_in_its_sleeve_by_plain_arithmetic() -> None:
    sizes = {"hive_length": Fraction("22.875"), "hive_width": Fraction("19.25")}
    measures = {**SLEEVED.measurements, **sizes}
    ways = dict.fromkeys([r for r in RULES if r.startswith("sleeve.")], Fraction(0))
    expected = {**by_hand(measures), **by_hand_round_a_box(measures), **ways}
    assert {f.rule: f.value for f in findings(SLEEVED)} == expected


def test_an_odd_hive_round_a_measured_box_by_plain_arithmetic() -> None:
    wall = 2 * (25 + 12) * MM
    sizes = {"hive_length": 20 + wall, "hive_width": Fraction("16.375") + wall}
    measures = {**ODD.measurements, **sizes}
    ways = dict.fromkeys([r for r in RULES if r.startswith("sleeve.")], Fraction(0))
    expected = {**by_hand(measures), **by_hand_round_a_box(measures), **ways}
    assert {f.rule: f.value for f in findings(ODD)} == expected


# ── check values ──────────────────────────────────────────────────────────────────────────────


def test_headroom_and_way_in_of_common_practice() -> None:
    """Common practice, no published source: headroom 0.091 in, way in 0.341 in or 8.7 mm."""
    way = value(DEMO, "bottom_board.bee_way_in")
    assert decimal_inches(value(DEMO, "bottom_board.room_above_stack").value) == "0.091"
    assert (decimal_inches(way.value), millimetres(way.value)) == ("0.341", "≈ 8.7")
    assert way.holds


def test_the_bee_space_includes_both_its_ends() -> None:
    """Bee space 1/4 to 3/8 in: encyclopedias and beekeepers' associations, a rule of thumb."""
    for rule in ("bottom_board.bee_way_in", "box.bee_space_above", "box.bee_space_at_ends"):
        assert (RULES[rule].low, RULES[rule].high) == (Fraction(1, 4), Fraction(3, 8))
        assert "bee space" in RULES[rule].source


def test_a_frame_of_1911_has_a_bee_space_at_its_ends() -> None:
    """Frame 17 5/8 in: USDA Farmers' Bulletin 447 (1911); inside 18 3/8 in: common practice."""
    at_ends = value(SLEEVED, "box.bee_space_at_ends")
    assert at_ends.value == (Fraction("18.375") - Fraction("17.625")) / 2
    assert "Farmers' Bulletin 447" in at_ends.source


def test_default_figures_hold_on_every_way_to_a_hive() -> None:
    for hive in (DEMO, SLEEVED, SINGLE):
        assert [f.rule for f in findings(hive) if not f.holds] == []


# ── which rules are asked ─────────────────────────────────────────────────────────────────────


def components_asked(hive: Hive) -> set[str]:
    return {f.rule.partition(".")[0] for f in findings(hive)}


def test_rules_of_what_is_not_built_are_left_out() -> None:
    always = {"bottom_board", "roof", "inner_cover"}
    assert components_asked(DEMO) == always
    assert components_asked(SINGLE) == always | {"box"}
    assert components_asked(SLEEVED) == always | {"box", "sleeve"}
    measured = hive_from_text("measured = {box_length = 20, box_width = 16, box_height = 9}")
    assert components_asked(measured) == always | {"sleeve"}


def test_the_hive_is_held_against_its_box_or_its_sleeve_but_not_both() -> None:
    ways = [{f.rule for f in findings(h) if "hive_against" in f.rule} for h in (SINGLE, SLEEVED)]
    assert [len(way) for way in ways] == [2, 2]
    assert not ways[0] & ways[1]


def test_findings_stand_in_the_order_of_the_rules() -> None:
    rules = list(RULES)
    found = [rules.index(f.rule) for f in findings(SLEEVED)]
    assert found == sorted(found)
    components = [name.partition(".")[0] for name in rules]
    assert [*dict.fromkeys(components)] == ["bottom_board", "roof", "inner_cover", "box", "sleeve"]


def test_the_spacer_is_always_told_and_stops_nothing() -> None:
    """A spacer as wide as the overhang (2 in) fits on one side only; common practice."""
    told = value(DEMO, "roof.spacer_width")
    assert (told.level, told.holds, told.value) == ("note", True, Fraction("1.75"))
    gone = findings(DEMO, {"roof.deck_overhang": Fraction(-1)})
    assert not next(f for f in gone if f.rule == told.rule).holds
    rim = {"roof.deck_line_in_rim", "roof.deck_line_in_back"}
    assert not rim & {f.rule for f in gone if not f.holds}


@pytest.mark.parametrize(
    ("name", "nearest"),
    [("bottom_board.panel_widht", r"bottom_board\.panel_width"), ("long_bard", "long_brad")],
)
def test_a_name_that_is_neither_dimension_nor_figure_is_refused(name: str, nearest: str) -> None:
    with pytest.raises(UnknownNameError, match=nearest):
        findings(DEMO, {name: Fraction(1)})


def test_a_rule_belongs_to_the_component_that_its_module_is_named_for() -> None:
    for name, rule in RULES.items():
        module = FIT.dimension(name).function.__module__
        assert name.startswith(f"{rule.component}.")
        assert module == f"hivecalc.fit.{rule.component}"


def test_a_function_without_limits_is_no_rule() -> None:
    with pytest.raises(DerivationError, match="sum: a function in here must have a rule"):
        rule_of(sum)


# ── what a wrong cut breaks ───────────────────────────────────────────────────────────────────


def broken_names(given: Mapping[str, Fraction], hive: Hive = DEMO) -> list[str]:
    return [f.rule.partition(".")[2] for f in broken(findings(hive), findings(hive, given))]


@pytest.mark.parametrize(
    ("given", "names"),
    [
        ({"bottom_board.panel_length": "20 1/8"}, ["panel_play_along"]),
        ({"bottom_board.upper_front_runner_length": "12 7/8"}, ["upper_runners_apart"]),
        ({"front_stop_height": "1/2"}, ["bee_way_in", "way_over_stop"]),
        ({"cover_screw": "2 1/2"}, ["wood_past_screw"]),
        ({"short_brad": "1 1/4"}, ["wood_past_short_brad"]),
        ({"roof.cover_screw_line": "2 1/2"}, []),
        ({"roof.cover_screw_line": "4"}, ["cover_line_in_rim", "cover_line_in_back"]),
        ({}, []),
    ],
)
def test_a_wrong_cut_breaks_these_rules(given: Mapping[str, str], names: list[str]) -> None:
    assert broken_names({n: length(text) for n, text in given.items()}) == names


def test_a_rule_that_failed_before_is_not_broken_by_a_change() -> None:
    thick = changed(DEMO, {"foam_thickness": "1 1/2"})
    assert not value(thick, "bottom_board.room_above_stack").holds
    assert broken_names({"foam_thickness": Fraction(2)}, thick) == []


def test_a_rule_that_was_not_asked_before_is_not_broken() -> None:
    wide = {"frame_play": Fraction(2)}
    assert "box.room_at_sides" not in {
        f.rule for f in broken(findings(DEMO), findings(SLEEVED, wide))
    }


def test_only_what_blocks_or_harms_keeps_it_from_holding() -> None:
    found = value(DEMO, "roof.fall")
    by_level = {
        level: holds([replace(found, level=level, holds=False)])
        for level in ("blocks", "harms", "note")
    }
    assert by_level == {"blocks": False, "harms": False, "note": True}
    assert holds([found])


def test_a_thick_stud_of_1_9_16_still_goes_together() -> None:
    """Common practice, no published source: studs come up to 1/16 in thicker than the standard."""
    assert holds(findings(changed(DEMO, {"stud_thickness": "1 9/16"})))


# ── for other programs ────────────────────────────────────────────────────────────────────────

KEYS = ["rule", "level", "holds", "value", "low", "high", "why", "source"]


def test_the_json_of_a_fit_has_its_keys_in_order() -> None:
    told = json.loads(json.dumps(fit_json(SLEEVED)))
    assert list(told) == ["schema", "holds", "rules"]
    assert (told["schema"], told["holds"]) == ("hivecalc/1", True)
    assert [list(rule) for rule in told["rules"]] == [KEYS] * len(findings(SLEEVED))


def test_the_json_of_a_length_and_of_a_ratio() -> None:
    way = finding_json(value(DEMO, "bottom_board.bee_way_in"))
    assert way["value"] == {"exact": "341/1000", "inches": "≈ 5/16", "mm": 8.6614}
    assert way["high"] == {"exact": "3/8", "inches": "3/8", "mm": 9.525}
    fall = finding_json(value(DEMO, "roof.fall"))
    assert fall["value"] == pytest.approx(2 / 23.625)
    assert fall["low"] == pytest.approx(1 / 48)
    assert fall["high"] is None


def test_the_json_of_a_wrong_cut_says_that_it_does_not_hold() -> None:
    told = fit_json(DEMO, {"bottom_board.panel_length": Fraction(21)})
    assert told["holds"] is False


# ── the rules as a text to be read ────────────────────────────────────────────────────────────


@pytest.mark.parametrize("name", RULES)
def test_a_rule_says_what_it_measures_why_it_matters_and_where_it_comes_from(name: str) -> None:
    rule, rated = RULES[name], FIT.dimension(name)
    assert rated.what.endswith(".")
    assert rated.why.endswith(".")
    assert len(rated.why.split()) >= 10
    assert ">>>" in (rated.function.__doc__ or "")
    assert "common practice, no published source" in rule.source or "bee space" in rule.source
    assert rule.low is not None or rule.high is not None


@pytest.mark.parametrize("hive", [SLEEVED, SINGLE], ids=["sleeved", "single"])
def test_each_rule_has_worked_steps_down_to_what_was_measured(hive: Hive) -> None:
    for found in findings(hive):
        last = FIT.steps(found.rule, hive.measurements)[-1]
        assert (last.dimension, last.value, last.why) == (found.rule, found.value, found.why)


def test_a_figure_is_a_worked_step_with_its_source() -> None:
    steps = FIT.steps("roof.screw_bite", DEMO.measurements)
    screw, bite = steps
    assert (screw.dimension, screw.formula) == ("cover_screw", "1")
    assert screw.why == "common practice, no published source"
    assert bite.formula == "cover screw − cover thickness − deck thickness"
    assert bite.numbers == "1 − 5/32 − 1/2"


def test_each_figure_is_a_length_with_a_source_that_some_rule_uses() -> None:
    for name, figure in FIGURES.items():
        assert kind_of(name, FIT.dimensions) == "length"
        assert (FIT.dimension(name).what, FIT.dimension(name).why) == (figure.what, figure.source)
        assert set(FIT.reached_by(name)) & set(RULES)
