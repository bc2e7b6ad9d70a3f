"""The parts and dimensions of every component: check values, a second way, the ways in."""

import re
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hivecalc.components import (
    DIMENSIONS,
    MODULES,
    PRACTICE,
    built,
    changed_since_first_edition,
    checked,
    in_use,
    is_there,
    notes,
    parts,
    values,
    values_to_find,
)
from hivecalc.derivation import UnknownNameError
from hivecalc.hive import MEASUREMENTS, Hive, HiveFaults, changed, demo_hive, hive_from_text
from hivecalc.length import MM, UNITS, Rounding, Units, length_from_text, mixed
from hivecalc.part import SIZES
from tests.by_hand import by_hand
from tests.hives import HIVES, LOOSE, SIZED, allowed_hives, hive_of

SMALL = {"hive_length": "22 3/4", "hive_width": "16 1/4"}
ROOFED = {"hive_length": "22 1/2", "hive_width": "16"}
# Check values: common practice, no published source. Worked out by hand beside the value.
CHECK_VALUES = [
    (SMALL, {
        "bottom_board.side_rail_length": "21 1/4", "bottom_board.front_rail_length": "13 1/4",
        "bottom_board.front_rail_width": "2 3/4", "bottom_board.back_rail_length": "16 1/4",
        "bottom_board.screen_length": "19 5/8", "bottom_board.screen_width": "13 1/8",
        "bottom_board.screen_end_strip_length": "11 5/8", "bottom_board.panel_length": "19 1/2",
        "bottom_board.panel_width": "13",
        "bottom_board.mesh_length": "19 3/8",  # 19 5/8 - 2 x 1/8
        "bottom_board.headroom": "0.091",  # 3 1/2 - (3/4 + 1 1/8 + 3 x 1/2 + 0.034)
        "bottom_board.screen_front_stop_thickness": "0.2785",  # 3 1/2 - 2.909 - 5/16
        "bottom_board.way_in": "5/16",
    }),
    # A wider stud than 3 in gives the front stop a size again; a closed cover's front is whole.
    (SMALL | {"stud_width": "3 1/4"}, {"front_stop_height": "0.0285"}),
    (SMALL | {"inner_notch": "0"}, {"inner_cover.rim_front_length": "13 1/4"}),  # 16 1/4 - 3
    # what is measured wins over what could be derived
    ({"frames": "10", "hive_length": "22 15/16", "hive_width": "19 1/4"},
     {"hive_length": "22 15/16"}),
    (SMALL | {"front_stop_height": "1/4"}, {
        "bottom_board.front_stop_top": "3.159",
        "bottom_board.way_in": "0.341",  # a stop cut to the tape's 1/4; 8.7 mm
    }),
    (ROOFED, {
        "roof.rim_length": "23", "roof.rim_width": "16 1/2", "roof.roof_panel_length": "20 1/2",
        "roof.roof_panel_width": "13 1/2", "roof.deck_width": "20",
        "inner_cover.overall_height": "7/8",
        "roof.skirt_end_width": "3 3/8",  # 1 1/2 + 7/8 + 1
        "roof.lap": "1",
    }),
    (ROOFED | {"inner_cover": "no", "roof_lap": "1/2"}, {
        "roof.skirt_side_width": "2",  # 1 1/2 + 1/2
        "roof.lap": "1/2",
    }),
    # The skirt of 2 in that hangs beside an inner cover of 1 in ends 1/2 in above the box.
    (ROOFED | {"skirt_width": "2", "inner_rim_height": "1/2"}, {"roof.lap": "-1/2"}),
    # The ten-frame box of the Langstroth type; its frame, 9 1/8 in deep, is that of USDA Farmers'
    # Bulletin 447 (E. F. Phillips, 1911). The rest is common practice, no published source.
    ({"frames": "10"}, {
        "box.inside_length": "18 3/8", "box.inside_width": "14 3/4", "box_length": "19 7/8",
        "box_width": "16 1/4", "box_height": "9 9/16", "box.space_above": "5/16",
        "box.space_between": "7/16", "hive_length": "22 7/8", "hive_width": "19 1/4",
        "sleeve.bearing": "0",  # foam and skin together are as thick as the stud
    }),
    # Two layers of foam round the box, one below it and above it.
    ({"frames": "10", "sleeve_foam_thickness": "2"}, {
        "hive_length": "24 7/8", "hive_width": "21 1/4", "sleeve.bearing": "-1",
        "bottom_board.panel_thickness": "1", "roof.roof_panel_thickness": "1",
        "sleeve.foam_side_thickness": "2",
    }),
    # A deck's edge: 2 in from the hive, 1 3/4 in from the rim; the screw in the middle of a rail.
    (SMALL, {
        "roof.deck_overhang": "1 3/4", "roof.deck_screw_line": "2 1/2",
        "roof.deck_back_screw_line": "2 1/4", "roof.cover_screw_line": "3",
        "roof.cover_back_screw_line": "2 3/4",
    }),
]  # fmt: skip


@pytest.mark.parametrize(("sizes", "expected"), CHECK_VALUES)
def test_check_values(sizes, expected):
    found = values(hive_of(**sizes))
    below_zero = {n: -length_from_text(t[1:]) for n, t in expected.items() if t.startswith("-")}
    wanted = {n: below_zero.get(n) or length_from_text(t.lstrip("-")) for n, t in expected.items()}
    assert {n: found[n] for n in expected} == wanted


@pytest.mark.parametrize("stud", ["3 7/16", "3 1/2", "3 9/16", "3 5/8"])
def test_the_way_in_is_what_is_wanted_whatever_the_stud_measures(stud):
    assert values(hive_of(**SMALL, stud_width=stud))["bottom_board.way_in"] == Fraction(5, 16)


# ── a second way ──────────────────────────────────────────────────────────────────────────────

TWELVE = [
    hive_of(hive_length="23 1/8", hive_width="17 3/8"),
    hive_of(hive_length="22 3/4", hive_width="16 1/4", stud_thickness="1 9/16", inner_notch="0"),
    hive_of(hive_length="19 7/8", hive_width="16 1/4", foam_thickness="25 mm", panel_gap="3/16"),
    hive_of(hive_length="21 15/16", hive_width="20", strip_narrow="7/16", inner_cover="no"),
    hive_of(hive_length="24", hive_width="13 3/4", rim_low_height="3 1/2", cap_clearance="5/8"),
    hive_of(frames="10", boxes="3"),
    hive_of(frames="10", frame_play="1 1/4", joint_depth="0", sleeve_foam_thickness="2"),
    hive_of(box_length="20", box_width="16 3/8", box_height="9 1/2", sleeve_foam_thickness="1 1/2"),
    hive_of("mm", hive_length="587", hive_width="441", stud_thickness="45", stud_width="95"),
    hive_of("mm", hive_length="560", hive_width="420", built_opening_width="343", skirt_width="90"),
    hive_of("mm", frames="10", frame_spacing="35", board_thickness="19", top_bar="482"),
    hive_of("mm", box_length="505", box_width="413", box_height="244", foam_thickness="30",
            skin_thickness="9", front_stop_height="6", panel_foam_thickness="20"),
]  # fmt: skip


def test_the_hand_calculation_knows_every_dimension_and_no_other():
    assert set(by_hand(TWELVE[0].measurements)) == set(DIMENSIONS.dimensions)


@settings(max_examples=100)
@given(allowed_hives() | st.sampled_from(TWELVE))
def test_any_hive_as_worked_out_by_hand(hive):
    found, expected = values_to_find(hive), by_hand(hive.measurements)
    names = DIMENSIONS.names((*built(hive), PRACTICE))
    assert {n: found[n] for n in names} == {n: expected[n] for n in names}
    for piece in parts(hive):
        for size in (piece.thickness, piece.width, piece.length):
            assert size is None or size.value > 0


@st.composite
def extreme_settings(draw: st.DrawFn) -> tuple[Units, dict[str, str | Fraction]]:
    """A few measurements at one end of what is accepted, with a size of the hive."""
    units: Units = draw(st.sampled_from(UNITS))
    names = draw(st.lists(st.sampled_from(LOOSE), max_size=6, unique=True))
    ends = {n: MEASUREMENTS[n].limits(units)[draw(st.integers(0, 1))] for n in names}
    return units, {**draw(st.sampled_from(SIZED)), **ends}


@settings(max_examples=120)
@given(extreme_settings())
def test_at_the_ends_of_the_ranges_a_hive_is_built_or_refused_in_sentences(extreme):
    units, sizes = extreme
    told: list[str] = []
    try:
        hive = checked(changed(Hive("Any hive", units, {}, {}), sizes))
    except HiveFaults as refused:
        told = [str(fault) for fault in refused.faults]
    else:
        pieces = parts(hive)
        assert all(size.value > 0 for p in pieces for size in (p.width, p.length) if size)
        told = [p.note for p in pieces] + notes(hive) + changed_since_first_edition(hive)
    assert all(re.fullmatch(r"[^\n]+[^.]\.", sentence) for sentence in told)


IN_MM = [
    {"hive_length": "588", "hive_width": "442"},
    {"frames": "10"},
    {"frames": "10", "hive_length": "505", "hive_width": "414"},
    {"frames": "10", "sleeve_foam_thickness": "50", "boxes": "2"},
    {"hive_length": "600", "hive_width": "460", "stud_thickness": "45", "stud_width": "95"},
]
# What may be no whole mm: the slope, and the middles of a rail of 25 and of a stud of 45.
FRACTIONS = {
    f"roof.{name}" for name in (
        "slope", "rim_front_inner_height", "rim_back_inner_height", "rim_back_width",
        "deck_back_screw_line", "cover_back_screw_line", "deck_screw_line", "cover_screw_line",
    )
}  # fmt: skip


@pytest.mark.parametrize("sizes", IN_MM)
def test_each_piece_of_a_default_hive_in_mm_is_whole_millimetres(sizes):
    hive = hive_of("mm", **sizes)
    sawn = {f"{p.part}_{n}": getattr(p, n) for p in parts(hive) for n in SIZES}
    odd = {name for name, size in sawn.items() if size is not None and size.value / MM % 1}
    assert odd <= {"rim_back_width"}, "choose sizes that need no half of a mm"  # on the slope
    fractions = {n for n, v in values(hive).items() if v / MM % 1}
    assert fractions - set(MEASUREMENTS) <= FRACTIONS, "what may be no whole mm is in FRACTIONS"


# ── parts ─────────────────────────────────────────────────────────────────────────────────────


def test_every_part_says_what_it_is_for_and_has_its_sizes():
    for piece in (piece for hive in TWELVE for piece in parts(hive)):
        assert piece.note.endswith(".")
        assert piece.quantity > 0
        assert None not in {piece.width, piece.length}
        assert (piece.thickness is None) == (piece.material == "mesh")


def test_each_piece_has_a_place_and_each_size_is_a_dimension_under_the_parts_name():
    for component, module in MODULES.items():
        for part in module.PARTS:
            assert len(set(part.places)) == part.quantity > 0
            sizes = {f"{component}.{part.name}_{size}" for size, _ in part.sizes()}
            assert sizes <= DIMENSIONS.dimensions.keys()


def test_a_panel_is_shown_rounded_down_and_a_cover_up():
    hive = hive_of("mm", hive_length="587", hive_width="441", stud_thickness="38", stud_width="89")
    by_name = {p.part: p.length for p in parts(hive)}
    for part, side in (("panel", -1), ("cover", 1)):
        size = by_name[part]
        shown = length_from_text(mixed(size.value, rounding=size.rounding).removeprefix("≈ "))
        assert 0 < (shown - size.value) * side < Fraction(1, 16)


def test_an_unknown_component_is_told_with_the_nearest():
    with pytest.raises(UnknownNameError, match="did you mean roof"):
        parts(demo_hive(), component="rooff")
    with pytest.raises(UnknownNameError, match="component"):
        parts(demo_hive(), component="sleeve")


TEN_FRAME_BOX = {"box_length": "19 7/8", "box_width": "16 1/4", "box_height": "9 5/8"}


# ── three ways in ─────────────────────────────────────────────────────────────────────────────


BUILT = [
    ({"hive_length": "23 1/8", "hive_width": "17 3/8"}, ()),
    (TEN_FRAME_BOX, ("sleeve",)),
    ({"frames": "10"}, ("box", "sleeve")),
    ({"frames": "10", "hive_length": "19 7/8", "hive_width": "16 1/4"}, ("box",)),
    (TEN_FRAME_BOX | {"hive_length": "19 7/8", "hive_width": "16 1/4"}, ()),
    (TEN_FRAME_BOX | {"hive_length": "22 7/8", "hive_width": "19 1/4"}, ("sleeve",)),
    ({"frames": "10", "hive_length": "22 15/16", "hive_width": "19 1/4"}, ("box", "sleeve")),
]


@pytest.mark.parametrize(("sizes", "components"), BUILT)
def test_what_is_built(sizes, components):
    assert built(hive_of(**SMALL, inner_cover="no")) == ("bottom_board", "roof")
    assert built(hive_of(**sizes)) == ("bottom_board", "roof", "inner_cover", *components)


DISAGREE = [
    ({"frames": "10", "hive_length": "24", "hive_width": "19 1/4"},
     ["[measured] hive_length", "24 in measured", "22 7/8 in from the box and its sleeve"]),
    ({"frames": "10", "hive_length": "19", "hive_width": "16 1/4"},
     ["[measured] hive_length", "19 in measured", "19 7/8 in from the box"]),
    ({"frames": "10", "box_length": "21", "box_width": "16 1/4", "box_height": "9 5/8"},
     ["[measured] box_length", "21 in measured", "19 7/8 in from the frames"]),
]  # fmt: skip


@pytest.mark.parametrize(("sizes", "named"), DISAGREE)
def test_two_ways_that_disagree_show_both(sizes, named):
    with pytest.raises(HiveFaults) as raised:
        hive_of(**sizes)
    assert len(raised.value.faults) == 1
    assert all(words in str(raised.value) for words in named)


# Demo hive: 17 3/8 less two studs of 1 1/2 leaves 14 3/8; 23 1/8 leaves 20 1/8. Its roof's rim is
# 1/2 wider than the hive, so 14 7/8 inside. Old box: 16 1/4, 25 mm (0.984) of foam and 3/8 of skin
# on both sides, less two studs: 15.968. An inch misread is refused, a half is just taken.
ORCHARD, SLEEVED = demo_hive(), hive_from_text(HIVES["sleeved"])
OFF_PLAN = [
    (ORCHARD, "built_opening_width", "14 7/8", ""),
    (ORCHARD, "built_opening_width", "13 7/8", ""),
    (ORCHARD, "built_opening_width", "14 15/16", "14 15/16 in measured, but 14 3/8 in planned"),
    (ORCHARD, "built_opening_width", "12", "12 in measured, but 14 3/8 in planned"),
    (ORCHARD, "built_opening_length", "30", "30 in measured, but 20 1/8 in planned"),
    (ORCHARD, "built_rim_opening_width", "15 7/8", "15 7/8 in measured, but 14 7/8 in planned"),
    (SLEEVED, "built_opening_width", "16 7/16", ""),
    (SLEEVED, "built_opening_width", "16 1/2", "16 1/2 in measured, but ≈ 15 31/32 in planned"),
]


@pytest.mark.parametrize(("hive", "name", "size", "said"), OFF_PLAN)
def test_an_opening_that_is_far_off_its_plan_is_refused(hive, name, size, said):
    told = []
    try:
        checked(changed(hive, {name: size}))
    except HiveFaults as refused:
        told = [(fault.place, fault.found) for fault in refused.faults]
    assert told == ([(f"[measured] {name}", said)] if said else [])


TINY = {
    "box_length": "8", "box_width": "4", "box_height": "6", "sleeve_foam_thickness": "1/2",
    "skin_thickness": "1/8",
}  # fmt: skip
# A fault of the hive as a whole: what is given, where it stands, what is said.
FAULTS = [
    (TINY | {"stud_thickness": "2 1/4"}, "bottom_board.upper_front_runner_length",
     "comes from box_width, sleeve_foam_thickness, skin_thickness, stud_thickness"),
    ({"hive_length": "20", "hive_width": "8", "stud_thickness": "2", "strip_wide": "1",
      "strip_narrow": "1", "inner_notch": "2 1/2"}, "[chosen] inner_notch",
     "the channel is 4 1/2 in across, and the rims leave 4 in; give 2 in at most"),
    ({"hive_length": "8", "hive_width": "20", "stud_thickness": "2", "strip_narrow": "1/2",
      "inner_channel_depth": "3 3/4"}, "[chosen] inner_channel_depth",
     "the channel is 4 1/4 in across, and the rims leave 4 in; give 3 1/2 in at most"),
    (SMALL | {"stud_width": "3"}, "bottom_board.screen_front_stop_thickness",
     "screen and mesh take ≈ 2 15/16 in of the stud's 3 in, and the bees' way over the stop"),
    ({"frames": "10", "frame_depth": "3", "edge_strip_height": "1 1/2", "rest_depth": "3/8",
      "space_below": "0"}, "sleeve.foam_side_width",
     "it would be 0 in; it must be more than nothing"),
]  # fmt: skip


@pytest.mark.parametrize(("sizes", "place", "said"), FAULTS)
def test_a_hive_that_cannot_be_built_is_told_with_what_to_change(sizes, place, said):
    with pytest.raises(HiveFaults) as raised:
        hive_of(**sizes)
    told = {fault.place: str(fault) for fault in raised.value.faults}
    assert said in told[place]
    assert re.fullmatch(r"[^.]*(\.[a-z0-9][^.]*)*\.", told[place])


def test_a_channel_that_just_goes_between_the_rims_is_no_fault():
    tight = hive_of(hive_length="8", hive_width="8", stud_thickness="2", inner_notch="3",
                    inner_channel_depth="3 1/2")  # fmt: skip
    found = values(tight)
    assert found["inner_cover.channel_back_length"] == found["bottom_board.opening_width"] == 4


# ── what the maker must know ──────────────────────────────────────────────────────────────────


SLOT = (
    "Cut a slot through the lower one, at the channel's back end: 2 in long across the hive, "
    "5/16 in wide, in the middle, 2 11/16 in from the front edge."
)
# Over a rim 32 in long a roof from 3 1/2 to 1 1/2 in falls 1/16 in an inch.
LONG = {"hive_length": "31 1/2", "hive_width": "16"}
FLAT = SMALL | {"rim_low_height": "3 1/2"}
FRAMES = {"frames": "10"}
# A part, its hive, what its maker is told, and what not.
TOLD = [
    ("inner_cover.sheet", SMALL, SLOT, ""),
    ("inner_cover.sheet", SMALL | {"inner_notch": "0"}, "", "slot"),
    ("roof.rim_side", LONG, "3 1/2 in high in front, 1 1/2 in at the back", ""),
    ("roof.rim_front", LONG, "≈ 3 7/16 in high at its inner face", ""),  # 3 13/32
    ("roof.rim_back", LONG, "1 1/2 in high at its outer face", ""),
    ("roof.skirt_end", LONG, "planed to the slope", ""),
    ("roof.skirt_side", LONG, "planed to the slope", ""),
    ("roof.rim_side", FLAT, "tilt the stand", "planed"),
    ("roof.skirt_end", FLAT, "", "planed"),
    *((f"sleeve.foam_{side}", FRAMES | {"sleeve_foam_thickness": thick}, told, other)
      for side in ("side", "end") for thick, told, other in (
          ("1", "", "layers"), ("2", "2 layers of the 1 in board", ""), ("3", "3 layers", ""),
          ("1 1/2", "", "layers"))),
    # strips that carry the box; beside a skin of 1/4: 1 1/2 - 1 - 1/4 = 1/4
    ("sleeve.edge_strip_end", FRAMES, "glue and screw them", ""),
    ("sleeve.edge_strip_end", FRAMES | {"skin_thickness": "1/4"}, "", "glue"),
]  # fmt: skip


@pytest.mark.parametrize(("part", "sizes", "told", "not_told"), TOLD)
def test_a_maker_is_told_what_goes_beyond_the_sizes(part, sizes, told, not_told):
    component, _, name = part.partition(".")
    (note,) = (p.note for p in parts(hive_of(**sizes), component=component) if p.part == name)
    assert told in note
    assert not not_told or not_told not in note


def test_nothing_is_planed_on_a_flat_roof():
    assert all("planed" not in p.note and "Taper" not in p.note for p in parts(hive_of(**FLAT)))
    assert values(hive_of(**FLAT))["roof.rim_back_width"] == Fraction(7, 2)


# ── what is told once ─────────────────────────────────────────────────────────────────────────

NOTES = [
    ({}, None),
    ({"skirt_width": "3 3/8"}, None),
    ({"front_stop_height": "1/4"}, None),  # what the tape shows of 0.2785
    ({"skirt_width": "2"},
     "skirt_width 2 in ends 3/8 in above the box: leave it out and the skirt is 3 3/8 in."),
    ({"skirt_width": "2 3/8"}, "skirt_width 2 3/8 in ends where the box begins: leave it out"),
    ({"skirt_width": "3", "roof_lap": "1 1/2"},
     "skirt_width 3 in laps the box by 5/8 in, and roof_lap asks for 1 1/2 in: leave it out"),
    ({"skirt_width": "2", "inner_cover": "no", "roof_lap": "1/2"}, None),
    ({"front_stop_height": "3/8"},
     "front_stop_height 3/8 in leaves ≈ 3/16 in over it, and bee_way asks for 5/16 in: leave"),
    ({"front_stop_height": "5/8"},
     "front_stop_height 5/8 in closes the way in, and bee_way asks for 5/16 in: leave it out"),
]  # fmt: skip


@pytest.mark.parametrize(("choices", "told"), NOTES)
def test_a_choice_that_disagrees_with_another_is_told_in_one_sentence(choices, told):
    found = notes(hive_of(**SMALL, **choices))
    assert len(found) == (told is not None)
    if told:
        assert found[0].startswith(told)
        assert found[0].endswith(".")


def test_a_hive_in_mm_is_told_in_mm():
    told = notes(hive_of("mm", hive_length="588", hive_width="442", skirt_width="50"))
    # 38 + (8 + 2 x 6) + 25 = 83, and 50 - 38 - 20 = -8.
    assert told == [
        "skirt_width 50 mm ends 8 mm above the box: leave it out and the skirt is 83 mm."
    ]


def test_what_changed_since_the_first_edition_is_told_for_what_is_built_and_not_given():
    told = changed_since_first_edition(hive_of(**SMALL))
    assert [t.split(",")[0] for t in told[:3]] == [
        "The front stop height is ≈ 1/4 in now and was 1/4 in",
        "The skirt width is 3 3/8 in now and was 2 in",
        "The inner rim height is 3/8 in now and was 1/2 in",
    ]
    boxed = " ".join(changed_since_first_edition(hive_of(frames="10", rest_depth="5/8")))
    assert "space below is 1/8 in now and was 1/4 in" in boxed
    assert "rest depth" not in boxed
    told_of_rest = " ".join(changed_since_first_edition(hive_of(frames="10")))
    assert "rest depth is 11/16 in now and was 5/8 in" in told_of_rest
    metric = changed_since_first_edition(hive_of("mm", hive_length="588", hive_width="442"))
    assert "38 × 89" in metric[0]
    assert all(re.fullmatch(r"[A-Z][^!?]*\.", t) and "Traceback" not in t for t in told + metric)


# ── which way a cut is rounded ────────────────────────────────────────────────────────────────

# By hand: what slides or is pressed in must not be too big, what covers not too small.
DOWN = {
    "bottom_board": "panel_length panel_width screen_length screen_width screen_side_strip_length "
    "mesh_length mesh_width",
    "roof": "roof_panel_length roof_panel_width",
    "sleeve": "foam_side_width foam_end_width",
}
UP = {"roof": "rim_back_inner_height deck_length deck_width cover_length cover_width"}


@pytest.mark.parametrize(("way", "names"), [(Rounding.DOWN, DOWN), (Rounding.UP, UP)])
def test_what_slides_is_rounded_down_and_what_covers_up(way, names):
    course = (*built(hive_of(frames="10")),)
    written = {
        name
        for name, d in DIMENSIONS.dimensions.items()
        if d.rule.rounding is way and d.component in course and d.function.__name__[0] != "_"
    }
    by_hand = {f"{c}.{name}" for c, listed in names.items() for name in listed.split()}
    assert written == by_hand, "DOWN and UP hold, by hand, what is rounded so: name it there, too"


def test_a_measurement_in_use_is_as_given_as_worked_out_or_as_usual():
    hive = hive_of(**SMALL, stud_width="3 5/8")
    assert in_use(hive, "stud_width") == Fraction(29, 8)
    assert in_use(hive, "panel_gap") == Fraction(1, 4)
    assert in_use(hive, "skirt_width") == values(hive)["skirt_width"]
    assert in_use(hive, "built_opening_width") == values(hive)["bottom_board.opening_width"]
    assert in_use(hive_of(**SMALL, built_opening_width="13"), "built_opening_width") == 13


def test_a_piece_is_there_where_its_hive_has_it():
    with_notch, closed = (hive_of(**SMALL, inner_notch=n).measurements for n in ("2", "0"))
    channel = "inner_cover.channel_back_length"
    assert (is_there(channel, with_notch), is_there(channel, closed)) == (True, False)
    assert is_there("roof.slope", closed)
    assert is_there("hive_length", closed)
