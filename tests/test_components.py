"""The parts and dimensions of every component: check values, a second way, the ways in."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hivecalc.components import COURSE, MODULES, built, checked, opened_hive, parts, values
from hivecalc.derivation import UnknownNameError
from hivecalc.hive import MEASUREMENTS, Hive, HiveFaults, demo_hive, hive_from_text
from hivecalc.length import length_from_text, mixed
from tests.by_hand import by_hand


def hive_of(units: str = "inch", **sizes: str) -> Hive:
    """A hive file in words: sizes by name, each in its section."""
    sections = {
        group: [f'{n} = "{v}"' for n, v in sizes.items() if MEASUREMENTS[n].group == group]
        for group in ("measured", "chosen")
    }
    text = "\n".join(f"[{group}]\n" + "\n".join(lines) for group, lines in sections.items())
    return checked(hive_from_text(f'units = "{units}"\n{text}'.replace('"10"', "10")))


# Check values: common practice, no published source.
CHECK_VALUES = [
    ({"hive_length": "22 3/4", "hive_width": "16 1/4"}, {
        "bottom_board.side_rail_length": "21 1/4",
        "bottom_board.front_rail_length": "13 1/4",
        "bottom_board.front_rail_width": "2 3/4",
        "bottom_board.back_rail_length": "16 1/4",
        "bottom_board.screen_length": "19 5/8",
        "bottom_board.screen_width": "13 1/8",
        "bottom_board.screen_end_strip_length": "11 5/8",
        "bottom_board.panel_length": "19 1/2",
        "bottom_board.panel_width": "13",
        "bottom_board.headroom": "0.091",
        "bottom_board.way_in": "0.341",
    }),
    ({"hive_length": "22 1/2", "hive_width": "16"}, {
        "roof.rim_length": "23",
        "roof.rim_width": "16 1/2",
        "roof.roof_panel_length": "20 1/2",
        "roof.roof_panel_width": "13 1/2",
        "roof.deck_width": "20",
    }),
    # The ten-frame box of the Langstroth type; its frame, 9 1/8 in deep, is that of USDA Farmers'
    # Bulletin 447 (E. F. Phillips, 1911). The rest is common practice, no published source.
    ({"frames": "10"}, {
        "box.inside_length": "18 3/8",
        "box.inside_width": "14 3/4",
        "box_length": "19 7/8",
        "box_width": "16 1/4",
        "box_height": "9 5/8",
        "box.space_above": "1/4",
        "hive_length": "22 7/8",
        "hive_width": "19 1/4",
    }),
]  # fmt: skip


@pytest.mark.parametrize(("sizes", "expected"), CHECK_VALUES)
def test_check_values(sizes, expected):
    found = values(hive_of(**sizes))
    assert {n: found[n] for n in expected} == {n: length_from_text(t) for n, t in expected.items()}


def test_the_way_in_of_the_default_hive_is_8_7_mm():
    assert round(float(values(demo_hive())["bottom_board.way_in"]) * 25.4, 1) == 8.7


# ── a second way ──────────────────────────────────────────────────────────────────────────────

TWELVE = [
    hive_of(hive_length="23 1/8", hive_width="17 3/8"),
    hive_of(hive_length="22 3/4", hive_width="16 1/4", stud_thickness="1 9/16"),
    hive_of(hive_length="19 7/8", hive_width="16 1/4", foam_thickness="25 mm", panel_gap="3/16"),
    hive_of(hive_length="21 15/16", hive_width="20", strip_narrow="7/16", strip_wide="13/16"),
    hive_of(hive_length="24", hive_width="13 3/4", overhang="2 1/2", cap_clearance="5/8"),
    hive_of(frames="10"),
    hive_of(frames="10", frame_play="1 1/4", joint_depth="0", skin_thickness="15/32"),
    hive_of(box_length="20", box_width="16 3/8", box_height="9 1/2", sleeve_foam_thickness="1 1/2"),
    hive_of("mm", hive_length="587", hive_width="441", stud_thickness="38", stud_width="89"),
    hive_of("mm", hive_length="560", hive_width="420", foam_thickness="25", deck_thickness="12"),
    hive_of("mm", frames="10", frame_spacing="35", board_thickness="19", top_bar="482"),
    hive_of("mm", box_length="505", box_width="413", box_height="244", foam_thickness="30",
            skin_thickness="9", stud_thickness="38", stud_width="89"),
]  # fmt: skip


@pytest.mark.parametrize("hive", TWELVE, ids=range(12))
def test_every_dimension_as_worked_out_by_hand(hive):
    found, expected = values(hive), by_hand(hive.measurements)
    names = COURSE.names(built(hive))
    assert len(names) > 70
    assert {n: found[n] for n in names} == {n: expected[n] for n in names}


def test_the_hand_calculation_knows_every_dimension_and_no_other():
    assert set(by_hand(TWELVE[0].measurements)) == set(COURSE.dimensions)


EIGHTHS = st.integers(8 * 12, 8 * 40).map(lambda n: Fraction(n, 8))


@given(EIGHTHS, EIGHTHS, st.integers(18, 32).map(lambda n: Fraction(n, 16)))
def test_any_hive_as_worked_out_by_hand(length, width, stud):
    hive = demo_hive()
    measured = {"hive_length": length, "hive_width": width, "stud_thickness": stud}
    hive = Hive(hive.name, hive.units, measured, {})
    expected = by_hand(hive.measurements)
    assert all(expected[n] == v for n, v in values(hive).items() if n in expected)


# ── parts ─────────────────────────────────────────────────────────────────────────────────────


def test_every_part_says_what_it_is_for_and_has_its_sizes():
    for hive in TWELVE:
        for piece in parts(hive):
            assert piece.note.endswith(".")
            assert piece.quantity > 0
            assert piece.width is not None
            assert piece.length is not None
            assert (piece.thickness is None) == (piece.material == "mesh")


# How many of each part: common practice, no published source.
COUNTS = {
    "bottom_board": {
        "side_rail": 2, "front_rail": 1, "back_rail": 1, "lower_side_runner": 2,
        "lower_front_runner": 1, "panel": 1, "upper_side_runner": 2, "upper_front_runner": 1,
        "screen_side_strip": 4, "screen_end_strip": 3, "screen_front_stop": 1, "mesh": 1,
        "landing_board": 1,
    },
    "roof": {
        "rim_side": 2, "rim_front": 1, "rim_back": 1, "deck": 1, "roof_panel": 1,
        "roof_retainer": 2, "skirt_end": 2, "skirt_side": 2, "cover": 1,
    },
    "inner_cover": {"rim_side": 2, "rim_front": 1, "rim_back": 1, "sheet": 2},
    "box": {"side": 2, "end": 2},
    "sleeve": {
        "foam_side": 2, "foam_end": 2, "edge_strip_side": 4, "edge_strip_end": 4, "skin_side": 2,
        "skin_end": 2,
    },
}  # fmt: skip


@pytest.mark.parametrize("component", COUNTS)
def test_how_many_of_each_part(component):
    found = {p.part: p.quantity for p in parts(hive_of(frames="10"), component=component)}
    assert found == COUNTS[component]


def test_each_size_of_a_part_is_a_dimension_under_the_parts_name():
    for component, module in MODULES.items():
        for part in module.PARTS:
            for size, _ in part.sizes():
                assert f"{component}.{part.name}_{size}" in COURSE.dimensions


def test_a_panel_is_shown_rounded_down_and_a_cover_up():
    hive = hive_of("mm", hive_length="587", hive_width="441", stud_thickness="38", stud_width="89")
    by_name = {p.part: p for p in parts(hive)}
    for part, side in (("panel", -1), ("cover", 1)):
        size = by_name[part].length
        assert size is not None
        shown = length_from_text(mixed(size.value, rounding=size.rounding).removeprefix("≈ "))
        assert 0 < (shown - size.value) * side < Fraction(1, 16)


def test_an_unknown_component_is_told_with_the_nearest():
    with pytest.raises(UnknownNameError, match="did you mean roof"):
        parts(demo_hive(), component="rooff")
    with pytest.raises(UnknownNameError, match="component"):
        parts(demo_hive(), component="sleeve")


TEN_FRAME_BOX = {"box_length": "19 7/8", "box_width": "16 1/4", "box_height": "9 5/8"}


# ── three ways in ─────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    ("sizes", "components"),
    [
        ({"hive_length": "23 1/8", "hive_width": "17 3/8"}, ()),
        (TEN_FRAME_BOX, ("sleeve",)),
        ({"frames": "10"}, ("box", "sleeve")),
        ({"frames": "10", "hive_length": "19 7/8", "hive_width": "16 1/4"}, ("box",)),
        (TEN_FRAME_BOX | {"hive_length": "19 7/8", "hive_width": "16 1/4"}, ()),
        (TEN_FRAME_BOX | {"hive_length": "22 7/8", "hive_width": "19 1/4"}, ("sleeve",)),
        ({"frames": "10", "hive_length": "22 15/16", "hive_width": "19 1/4"}, ("box", "sleeve")),
    ],
)
def test_what_is_built(sizes, components):
    assert built(hive_of(**sizes)) == ("bottom_board", "roof", "inner_cover", *components)


def test_what_is_measured_wins_over_what_could_be_derived():
    hive = hive_of(frames="10", hive_length="22 15/16", hive_width="19 1/4")
    assert values(hive)["hive_length"] == Fraction(367, 16)


@pytest.mark.parametrize(
    ("sizes", "named"),
    [
        (
            {"frames": "10", "hive_length": "24", "hive_width": "19 1/4"},
            ["[measured] hive_length", "24 measured", "22 7/8 from the box and its sleeve"],
        ),
        (
            {"frames": "10", "hive_length": "19", "hive_width": "16 1/4"},
            ["[measured] hive_length", "19 measured", "19 7/8 from the box"],
        ),
        (
            {"frames": "10", "box_length": "21", "box_width": "16 1/4", "box_height": "9 5/8"},
            ["[measured] box_length", "21 measured", "19 7/8 from the frames"],
        ),
    ],
)
def test_two_ways_that_disagree_show_both(sizes, named):
    with pytest.raises(HiveFaults) as raised:
        hive_of(**sizes)
    assert len(raised.value.faults) == 1
    assert all(words in str(raised.value) for words in named)


def test_a_piece_that_would_have_no_size_is_told_with_what_it_comes_from():
    with pytest.raises(HiveFaults) as raised:
        hive_of(
            box_length="8",
            box_width="4",
            box_height="6",
            foam_thickness="1/2",
            skin_thickness="1/8",
            stud_thickness="2 1/4",
        )
    assert "bottom_board.upper_front_runner_length" in str(raised.value)
    assert "box_width, foam_thickness, skin_thickness, stud_thickness" in str(raised.value)


def test_settings_are_read_in_the_hives_units_and_reach_everywhere():
    hive = opened_hive(None, {"stud_thickness": "38 mm"})
    assert values(hive)["bottom_board.side_rail_length"] == Fraction(185, 8) - Fraction(190, 127)
