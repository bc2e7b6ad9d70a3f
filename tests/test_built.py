"""From the pieces to the hive: the plan's own figures for exact pieces, and examples by hand."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hivecalc.built import BUILT, PIECES, as_cut, together
from hivecalc.components import DIMENSIONS, built, parts, values
from hivecalc.derivation import UnknownNameError
from hivecalc.fit import FIT, findings
from hivecalc.hive import MEASUREMENTS, Hive
from hivecalc.length import MM
from hivecalc.part import SIZES
from tests.hives import allowed_hives, hive_of, inches

# Common practice, no published source, as all sizes here; worked out by hand beside them.
LONG_STUD = {"hive_length": "21 7/8", "hive_width": "17"}


# ── exact pieces give the plan ────────────────────────────────────────────────────────────────


OTHER_NAMES = {
    "bottom_board.frame_length": "hive_length", "bottom_board.frame_width": "hive_width",
    "bottom_board.rail_top": "stud_width",
    "roof.rim_opening_width": "roof.rim_front_length",
    "roof.clear_length": "roof.rim_length", "roof.clear_width": "roof.rim_width",
    "roof.deck_overhang_along": "roof.deck_overhang",
    "roof.deck_overhang_across": "roof.deck_overhang",
    "roof.cover_lip_along": "cover_lip", "roof.cover_lip_across": "cover_lip",
    "inner_cover.overall_length": "hive_length", "inner_cover.overall_width": "hive_width",
    "inner_cover.notch_length": "inner_notch", "box.space_beneath": "space_below",
    "sleeve.outside_length": "hive_length", "sleeve.outside_width": "hive_width",
}  # fmt: skip
NOT_PLANNED = {"bottom_board.screen_underside", "roof.rim_opening_length"}


def figures_of_the_plan(hive: Hive) -> dict[str, Fraction]:
    """What the plan has for each thing that comes together, by the name that this has here."""
    plan, measured = values(hive), hive.measurements
    there = {n for n, d in BUILT.dimensions.items() if d.inputs and d.component in built(hive)}
    there -= NOT_PLANNED
    if not measured["inner_notch"]:
        there -= {"inner_cover.notch_length"}
    if "hive_length" in hive.measured:
        there -= {"sleeve.outside_length", "sleeve.outside_width"}
    return {n: measured.get(n, plan[OTHER_NAMES.get(n, n)]) for n in there}


NAMED = [
    hive_of(hive_length="23 1/8", hive_width="17 3/8"),
    hive_of("mm", hive_length="587", hive_width="441"),
    hive_of(frames="10"),
    hive_of("mm", box_length="505", box_width="413", box_height="243"),
    hive_of(hive_length="23 1/8", hive_width="17 3/8", stud_width="5 1/2"),
    hive_of(frames="10", sleeve_foam_thickness="2"),
    hive_of(hive_length="23 1/8", hive_width="17 3/8", inner_notch="0"),
    hive_of(hive_length="23 1/8", hive_width="17 3/8", inner_cover="no"),
    hive_of(hive_length="23 1/8", hive_width="17 3/8", rim_low_height="3 1/2"),
    hive_of(frames="10", boxes="2"),
    hive_of(frames="10", hive_length="19 7/8", hive_width="16 1/4"),
    hive_of("mm", frames="10", boxes="3", joint_depth="0"),
]


@settings(max_examples=50)
@given(allowed_hives() | st.sampled_from(NAMED))
def test_exact_pieces_come_to_the_plan(hive):
    plan, found = figures_of_the_plan(hive), together(hive)
    assert len(plan) >= 25
    assert {n: found[n] for n in plan} == plan
    assert found["stack.outside_length"] == values(hive)["hive_length"]
    assert found["stack.outside_width"] == values(hive)["hive_width"]


# ── a name means one thing ────────────────────────────────────────────────────────────────────


def meanings(component: str, parameter: str, own: str) -> set[str]:
    """Everything that a parameter could stand for, by the words of the developers' page."""
    known = {*MEASUREMENTS, *FIT.dimensions}
    named = {f"{c}.{parameter.removeprefix(f'{c}_')}"
             for c in FIT.components if parameter.startswith(f"{c}_")}  # fmt: skip
    return ({parameter, f"{component}.{parameter}"} | named) & known - {own}


def test_no_parameter_could_mean_a_measurement_or_a_piece():
    """The rim's back is `rim_back_thickness` in the hive file, and so is a piece of two parts."""
    for name, dimension in FIT.dimensions.items():
        for parameter, stands_for in zip(dimension.parameters, dimension.inputs, strict=True):
            assert meanings(dimension.component, parameter, name) == {stands_for}


def test_what_a_piece_can_say_is_never_asked_of_the_stock():
    """A rule about a piece reads the piece as cut; but brads go through any of the strips."""
    through_a_strip = {
        "wood_past_long_brad", "long_brad_bite", "mesh_held", "upper_runner_lies_flat",
    }  # fmt: skip
    of_a_box_that_is_not_built = {"wall_thickness"}
    stock = {"stud_thickness", "stud_width", "deck_thickness", "skirt_thickness", "foam_thickness",
             "strip_narrow", "strip_wide", "board_thickness", "skin_thickness", "sheet_thickness",
             "cover_thickness", "rim_back_thickness", "skirt_width", "front_stop_height",
             "edge_strip_height", "inner_rim_height"}  # fmt: skip
    asked = {n for n, d in FIT.dimensions.items() if stock.intersection(d.inputs)}
    assert {n.partition(".")[2] for n in asked} == through_a_strip | of_a_box_that_is_not_built


def test_every_piece_of_the_parts_table_has_its_sizes_here():
    for hive in NAMED:
        table = {f"{p.component}.{p.part}_{s}": getattr(p, s).value
                 for p in parts(hive) for s in SIZES if getattr(p, s)}  # fmt: skip
        cut = as_cut(hive)
        assert table == {s.planned: cut[n] for n, s in PIECES.items() if n in cut}


# ── by hand ───────────────────────────────────────────────────────────────────────────────────


def test_side_rails_cut_too_short_meet_a_panel_without_play():
    """21 7/8 by 17: rail 20 3/8, panel 18 7/8 - 1/4 = 18 5/8. Rails of 20 1/8 open 18 5/8."""
    hive = hive_of(**LONG_STUD)
    assert values(hive)["bottom_board.panel_length"] == inches("18 5/8")
    short = {"bottom_board.side_rail_length": inches("20 1/8")}
    assert together(hive, short)["bottom_board.opening_length"] == inches("18 5/8")
    play = next(f for f in findings(hive, short) if f.rule == "bottom_board.panel_play_along")
    assert (play.value, play.holds, play.level) == (0, False, "blocks")


FRAMED = hive_of(frames="10")
# Pieces cut otherwise, and what comes together from them.
COMES_TO = [
    # the opening ends at the shorter rail, and the frame is as long as the longer with the back
    ("bottom_board.side_rail_left_length 20 1/8", "bottom_board.opening_length 18 5/8"),
    ("bottom_board.side_rail_left_length 20 1/8", "bottom_board.frame_length 21 7/8"),
    # front and back rail 1/16 thicker: the opening loses 1/16 in front alone, the frame grows
    *((f"bottom_board.{rail}_rail_thickness 1 9/16", f"bottom_board.{what}")
      for rail, what in (("front", "opening_length 18 13/16"), ("front", "frame_length 21 7/8"),
                         ("back", "opening_length 18 7/8"), ("back", "frame_length 21 15/16"))),
    # the front rail makes the width; the sides only stand beside it
    ("bottom_board.front_rail_length 14 1/4", "bottom_board.opening_width 14 1/4"),
    ("bottom_board.side_rail_left_thickness 1 5/8", "bottom_board.frame_width 17 1/8"),
    # an upper runner on edge lifts the screen by 3/4 - 1/2
    ("bottom_board.upper_side_runner_right_thickness 3/4", "bottom_board.headroom -0.159"),
    # the screen is as wide as its longest end strip pushes it: 13 + 3/4 + 3/4
    ("bottom_board.screen_front_stop_length 13", "bottom_board.screen_width 14 1/2"),
    # the way in is over the higher of rail and stop: 3 1/2 - 3 1/4
    ("bottom_board.front_rail_width 3 1/4", "bottom_board.way_in 1/4"),
    # short skirt sides pull the skirt's ends in: 22 3/4 - 1/2 - 1/2
    ("roof.skirt_side_left_length 22 3/4", "roof.clear_length 21 3/4"),
    ("roof.skirt_side_left_length 24", "roof.clear_length 22 3/8"),
    ("roof.rim_back_length 14 5/8", "roof.rim_width 17 5/8"),
    ("roof.rim_back_length 14 1/4", "roof.rim_opening_width 14 1/4"),
    # a deck of 21 7/8 + 4 less 1, over a rim of 22 3/8
    ("roof.deck_length 24 7/8", "roof.deck_overhang_along 1 1/4"),
    # skirt 3 3/8 planned; the lowest piece counts: 3 - 1 1/2 - 7/8
    ("roof.skirt_end_back_width 3", "roof.lap 5/8"),
    ("inner_cover.rim_front_left_length 5", "inner_cover.notch_length 3"),
    ("inner_cover.rim_front_left_thickness 1/2", "inner_cover.overall_height 1"),
    # a box of 19 7/8 by 9 9/16: sides of 20; a strip of 1 1/2 below, 9 9/16 - 1 1/2 - 3/4
    ("box.side_length 20", "box_length 20"),
    ("sleeve.edge_strip_end_lower_back_width 1 1/2", "sleeve.clear_height 7 5/16"),
]  # fmt: skip


@pytest.mark.parametrize(("piece", "comes_to"), COMES_TO)
def test_one_piece_cut_otherwise(piece, comes_to):
    name, _, size = piece.partition(" ")
    what, _, value = comes_to.partition(" ")
    framed = name.startswith(("box", "sleeve"))
    found = together(FRAMED if framed else hive_of(**LONG_STUD), {name: inches(size)})
    assert found[what] == (-inches(value[1:]) if value.startswith("-") else inches(value))


def test_sides_of_a_box_that_are_long_make_the_foam_of_its_sleeve_too_short():
    """19 7/8 planned; sides of 20 leave it 1/8 short of the corner."""
    found = findings(FRAMED, {"box.side_length": Fraction(20)})
    assert next(f.value for f in found if f.rule == "sleeve.foam_along_box") == Fraction(1, 8)


def test_a_part_s_name_stands_for_its_pieces_and_a_piece_s_own_wins():
    rail = "bottom_board.side_rail"
    both = {f"{rail}_length": Fraction(20), f"{rail}_right_length": Fraction(21)}
    found = as_cut(hive_of(**LONG_STUD), both)
    assert [found[f"{rail}_{side}_length"] for side in ("left", "right")] == [20, 21]


def test_an_unknown_name_is_refused_with_the_nearest():
    with pytest.raises(UnknownNameError, match="side_rail"):
        together(hive_of(**LONG_STUD), {"bottom_board.side_rial_length": Fraction(20)})


# ── of several pieces, the one that counts ────────────────────────────────────────────────────

# By hand, from how it goes together: of pieces alike the biggest counts, or the smallest.
BIGGEST_COUNTS = [
    ("bottom_board.frame_length", "bottom_board.side_rail_right_length"),
    ("bottom_board.lower_runner_height", "bottom_board.lower_side_runner_left_width"),
    ("bottom_board.lower_runner_height", "bottom_board.lower_front_runner_width"),
    ("bottom_board.upper_runner_height", "bottom_board.upper_side_runner_right_thickness"),
    ("bottom_board.upper_runner_height", "bottom_board.upper_front_runner_thickness"),
    ("bottom_board.mesh_top", "bottom_board.screen_side_strip_lower_left_thickness"),
    ("bottom_board.mesh_top", "bottom_board.screen_end_strip_lower_back_thickness"),
    ("bottom_board.stack_height", "bottom_board.screen_side_strip_upper_left_thickness"),
    ("bottom_board.stack_height", "bottom_board.screen_end_strip_upper_back_thickness"),
    ("bottom_board.screen_length", "bottom_board.screen_side_strip_upper_right_length"),
    ("bottom_board.screen_width", "bottom_board.screen_end_strip_lower_front_length"),
    ("bottom_board.screen_width", "bottom_board.screen_front_stop_length"),
    ("roof.rim_length", "roof.rim_side_left_length"),
    ("roof.rim_width", "roof.rim_back_length"),
    ("roof.slope", "roof.rim_side_right_width"),
    ("inner_cover.overall_length", "inner_cover.rim_side_left_length"),
    ("inner_cover.overall_height", "inner_cover.rim_side_left_thickness"),
    ("inner_cover.overall_height", "inner_cover.rim_back_thickness"),
    ("box_length", "box.side_left_length"),
    ("box_width", "box.end_front_length"),
    ("box_height", "box.end_back_width"),
    ("sleeve.outside_length", "sleeve.skin_side_left_length"),
    ("sleeve.clear_height", "sleeve.edge_strip_side_lower_left_width"),
    ("sleeve.clear_height", "sleeve.edge_strip_end_upper_back_width"),
]
SMALLEST_COUNTS = [
    ("bottom_board.opening_length", "bottom_board.side_rail_left_length"),
    ("bottom_board.rail_top", "bottom_board.side_rail_left_width"),
    ("bottom_board.rail_top", "bottom_board.back_rail_width"),
    ("roof.rim_opening_length", "roof.rim_side_right_length"),
    ("roof.rim_opening_width", "roof.rim_front_length"),
    ("roof.clear_length", "roof.skirt_side_left_length"),
    ("roof.clear_width", "roof.skirt_end_back_length"),
    ("roof.lap", "roof.skirt_end_back_width"),
    ("roof.lap", "roof.skirt_side_left_width"),
    ("box.inside_length", "box.side_right_length"),
    ("box.inside_width", "box.end_back_length"),
    ("box.space_beneath", "box.side_left_width"),
]
COUNTS = [
    *((FRAMED, *row, True) for row in BIGGEST_COUNTS),
    *((FRAMED, *row, False) for row in SMALLEST_COUNTS),
    *((hive_of(**LONG_STUD, inner_cover="no"), "roof.lap", piece, False)
      for piece in ("roof.skirt_side_right_width", "roof.skirt_end_front_width")),
    *((hive_of(**LONG_STUD, inner_notch="0"), f"inner_cover.overall_{what}",
       f"inner_cover.rim_{piece}", True)
      for what, piece in (("width", "front_length"), ("width", "back_length"),
                          ("height", "front_thickness"))),
]  # fmt: skip


@pytest.mark.parametrize(("hive", "what", "piece", "biggest"), COUNTS, ids=range(len(COUNTS)))
def test_of_pieces_alike_the_one_counts_that_is_in_the_way(hive, what, piece, biggest):
    plan, off = together(hive), Fraction(1, 8)
    bigger, smaller = (together(hive, {piece: plan[piece] + more}) for more in (off, -off))
    assert (bigger[what] != plan[what], smaller[what] != plan[what]) == (biggest, not biggest)


# ── cut to what was built ─────────────────────────────────────────────────────────────────────

MEASURED_OPENING = {"built_opening_length": "18 3/4", "built_opening_width": "13 7/8"}
CUT_TO_IT = {
    "bottom_board.panel_length": "18 1/2",  # less the panel gap of 1/4
    "bottom_board.panel_width": "13 5/8",
    "bottom_board.screen_length": "18 5/8",  # less the screen gap of 1/8
    "bottom_board.screen_width": "13 3/4",
    "bottom_board.screen_end_strip_length": "12 1/4",  # less two strips of 3/4
    "bottom_board.lower_side_runner_length": "18 1/4",  # less the runner gap of 1/2
    "bottom_board.lower_front_runner_length": "12 3/8",  # less two strips of 1/2, and 1/2
    "bottom_board.side_rail_length": "20 3/8",  # the rails are cut already
    "bottom_board.front_rail_length": "14",
}


def test_an_opening_measured_in_the_frame_is_what_all_is_cut_to():
    hive = hive_of(**LONG_STUD, **MEASURED_OPENING)
    plan = values(hive)
    assert {n: plan[n] for n in CUT_TO_IT} == {n: inches(v) for n, v in CUT_TO_IT.items()}
    table = {f"{p.component}.{p.part}": p.length.value for p in parts(hive) if p.length}
    assert table["bottom_board.panel"] == inches("18 1/2")
    steps = DIMENSIONS.steps("bottom_board.panel_length", hive.measurements)
    assert [s.numbers for s in steps] == ["18 3/4 − 1/4"]
    assert together(hive)["bottom_board.opening_length"] == inches("18 3/4")


def test_the_roof_s_foam_is_cut_to_the_rim_as_measured():
    sizes = {"built_rim_opening_length": "500", "built_rim_opening_width": "370"}
    hive = hive_of("mm", hive_length="556", hive_width="432", **sizes)
    plan = values(hive)
    assert plan["roof.roof_panel_length"] == 500 * MM
    assert plan["roof.roof_panel_width"] == 370 * MM
    assert plan["roof.roof_retainer_length"] == 488 * MM  # less the runner gap of 12
    gaps = {f.rule: f.value for f in findings(hive) if f.rule.startswith("roof.roof_foam")}
    assert gaps == {"roof.roof_foam_along": 0, "roof.roof_foam_across": 0}
