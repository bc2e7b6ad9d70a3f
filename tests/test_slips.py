"""Slips: wrong answers worked out by hand, published errors by name, and where they make no sense.

Check values are sums done on paper beside the line, unless a source is named.
"""

import re
from fractions import Fraction
from itertools import product

import pytest

from hivecalc.components import DIMENSIONS, values
from hivecalc.derivation import UnknownNameError
from hivecalc.exercise.record import sum_of
from hivecalc.hive import changed, demo_hive, hive_from_text
from hivecalc.judging import SLIPS, question, readings
from hivecalc.judging import wrong_figures as figures
from hivecalc.judging.wrong_rules import of_wrong_rules, size_by_name
from hivecalc.length import MM, length_from_text
from tests.bench.judging import hives
from tests.each import each

DEMO = demo_hive()
SLEEVED = hive_from_text("chosen = {frames = 10}")


def inches(text: str) -> Fraction:
    return length_from_text(text)


def given_by(slip: str, dimension: str, hive=DEMO) -> set[Fraction]:
    """Return the wrong answers that a slip gives for a dimension."""
    return {w.value for w in question(hive, dimension).wrong if w.slip.name == slip}


# The demo hive is 23 1/8 by 17 3/8 in, studs 1 1/2 by 3 1/2, strips 1/2 by 3/4, panel gap 1/4,
# runner gap 1/2, cap clearance 1/2, overhang 2, cover lip 1/2; the frames' box is 19 7/8 by 16 1/4.
BY_HAND = [
    ("thickness_once", "bottom_board.front_rail_length", "15 7/8"),  # 17 3/8 - 1 1/2
    ("thickness_forgotten", "bottom_board.front_rail_length", "17 3/8"),
    ("thickness_added", "bottom_board.front_rail_length", "20 3/8"),  # 17 3/8 + 3
    ("thickness_twice", "bottom_board.side_rail_length", "20 1/8"),  # 23 1/8 - 3
    ("nominal_size", "bottom_board.front_rail_length", "13 3/8"),  # 17 3/8 - 2 x 2
    ("nominal_size", "bottom_board.front_rail_width", "3 1/4"),  # 4 - 3/4
    ("nominal_size", "bottom_board.way_in", "13/16"),  # 4 less the higher of 2 3/4 and 3 3/16
    ("halved_bottom", "roof.deck_overhang", "1"),  # half of 1/2 as 1/1, and 2 less that
    ("eighths_for_sixteenths", "hive_length", "23 1/4"),  # 23 2/16
    ("other_side", "bottom_board.front_rail_length", "10 3/8"),  # 17 3/8 - 7
    ("other_side", "bottom_board.screen_end_strip_length", "13 1/4"),  # 14 1/4 - 2 x 1/2
    ("length_for_width", "bottom_board.front_rail_length", "20 1/8"),  # 23 1/8 - 3
    ("length_for_width", "bottom_board.panel_length", "14 1/8"),  # 14 3/8 - 1/4
    ("rounded_too_far", "bottom_board.back_rail_length", "17"),
    ("gap_forgotten", "bottom_board.panel_width", "14 3/8"),  # the opening itself
    ("gap_each_side", "bottom_board.panel_width", "13 7/8"),  # 14 3/8 - 1/2
    ("gap_added", "bottom_board.panel_width", "14 5/8"),  # 14 3/8 + 1/4
    ("overall_size", "inner_cover.rim_front_length", "17 3/8"),
    ("overall_size", "roof.roof_panel_length", "23 5/8"),
    ("one_side_only", "roof.deck_width", "19 3/8"),  # 17 3/8 + 2
    ("one_side_only", "roof.cover_width", "21 7/8"),  # 21 3/8 + 1/2
    ("clearance_forgotten", "roof.rim_width", "17 3/8"),
    ("clearance_doubled", "roof.rim_width", "18 3/8"),  # 17 3/8 + 1
    ("clearance_doubled", "roof.deck_overhang", "1 1/2"),  # 2 - 1/2, not 2 - 1/4
    ("half_forgotten", "roof.deck_screw_line", "3 1/4"),  # 1 3/4 + 1 1/2
    ("step_skipped", "bottom_board.way_in", "2 3/4"),  # the front rail's top
    ("wrong_one_of_two", "bottom_board.way_in", "3/4"),  # 3 1/2 - 2 3/4
    ("size_left_out", "bottom_board.front_rail_width", "3 1/2"),
    ("size_added", "roof.lap", "4"),  # 3 3/8 + 1 1/2 - 7/8
    ("size_taken_off", "roof.rim_width", "16 7/8"),  # 17 3/8 - 1/2
    ("first_inch_kept", "hive_width", "18 3/8"),
    ("from_the_other_end", "hive_width", "17 5/8"),
    ("sixteenths_for_eighths", "hive_width", "17 3/16"),
    ("neighbours_rule", "bottom_board.back_rail_length", "14 3/8"),  # as the front rail: - 3
    ("neighbours_rule", "bottom_board.back_rail_length", "15 7/8"),  # as a side rail: - 1 1/2
    ("wrong_one_covers", "roof.skirt_end_length", "18 7/8"),  # 17 7/8 + 2 x 1/2
    ("another_gap", "bottom_board.panel_width", "14 1/4"),  # 14 3/8 less the screen's 1/8
    ("other_thickness", "roof.roof_panel_length", "20 5/8"),  # 23 5/8 - 2 x 1 1/2
    ("other_thickness", "roof.roof_panel_length", "21 5/8"),  # 23 5/8 - 2 x 1
    ("notch_twice", "inner_cover.rim_front_length", "5 3/16"),  # half of 14 3/8 - 4
    ("both_given", "inner_cover.rim_front_length", "12 3/8"),  # and the half is 6 3/16
    ("from_the_rim", "roof.deck_width", "21 7/8"),  # 17 7/8 + 4
    ("other_one_doubled", "inner_cover.overall_height", "1"),  # 2 x 3/8 + 1/4
    ("nothing_comes_off", "inner_cover.sheet_width", "15 7/8"),
    ("nothing_comes_off", "inner_cover.sheet_width", "14 3/8"),
    ("as_for_the_roof", "inner_cover.sheet_width", "17 7/8"),
    ("size_left_out", "roof.deck_screw_line", "3/4"),  # half a stud, and no overhang
    ("multiplied_one_part", "bottom_board.front_rail_length", "14 7/8"),  # 17 3/8 - 2 1/2
    ("fraction_dropped", "bottom_board.front_rail_length", "15 3/8"),  # 17 3/8 - 2
    ("fraction_dropped", "bottom_board.side_rail_length", "22 1/8"),  # 23 1/8 - 1
    ("rounded_wrong_way", "bottom_board.panel_width", "14 1/8"),
]


# The same frames in a sleeve: box 16 1/4 by 19 7/8, foam 1, skin 1/2, 14 3/4 inside.
SLEEVED_BY_HAND = [
    ("thickness_forgotten", "hive_width", "17 1/4"),  # the foam left out: 16 1/4 + 2 x 1/2
    ("thickness_forgotten", "hive_width", "18 1/4"),  # the skin left out: 16 1/4 + 2 x 1
    ("wrong_one_covers", "sleeve.foam_side_length", "21 7/8"),  # 19 7/8 + 2 x 1
    ("thickness_forgotten", "sleeve.foam_end_length", "16 1/4"),
    ("one_fewer", "box.inside_width", "13 3/8"),  # 9 x 1 3/8 + 1
    ("multiplied_one_part", "box.inside_width", "11 3/8"),  # 10 3/8 + 1
    ("gap_forgotten", "box.inside_width", "13 3/4"),  # the play
    ("thickness_once", "hive_width", "17 3/4"),  # of both in brackets: 16 1/4 + 1 + 1/2
]


@each(BY_HAND + SLEEVED_BY_HAND)
def test_a_slip_gives_what_it_gives_on_paper(row):
    slip, dimension, value = row
    hive = changed(DEMO, {"panel_gap": "9/32"}) if slip == "rounded_wrong_way" else DEMO
    sleeved = row in SLEEVED_BY_HAND
    assert inches(value) in given_by(slip, dimension, SLEEVED if sleeved else hive)


def test_only_wood_with_a_name_is_taken_by_its_name():
    rail = "bottom_board.side_rail_length"
    assert given_by("nominal_size", rail, changed(DEMO, {"stud_thickness": "45 mm"})) == set()
    for stud in ("38", "45"):  # both were sawn 50 mm thick
        hive = hive_from_text(
            f'units = "mm"\n[measured]\nhive_length = 515\nhive_width = 430\n'
            f"stud_thickness = {stud}"
        )
        (wrong,) = [w for w in question(hive, rail).wrong if w.slip.name == "nominal_size"]
        assert (wrong.value, wrong.other) == (inches("465 mm"), "50 mm")
        assert "were 50 mm, as its name says" in wrong.sentence


PLANED = {25: (18, 22), 50: (36, 47), 75: (60, 72), 100: (86, 97), 150: (136, 147)}


@pytest.mark.parametrize(("sawn", "left"), PLANED.items())
def test_planed_wood_has_the_name_it_was_sawn_by(sawn, left):
    """What planing leaves of wood of so many mm: common practice, no published source."""
    least, most = left
    for size, named in ((least - 1, None), (least, sawn), (most, sawn), (most + 1, None)):
        found = size_by_name(size * MM, "mm")
        assert found == (named and (named * MM, f"{named} mm"))


STACK, SLOT, PANEL = (f"bottom_board.{n}" for n in ("stack_height", "slot_height", "panel_width"))
# A slip, a dimension, changes of the demo hive, and all that it gives.
ALL_GIVEN = [
    # no step of a stack or a fall could be handed in for them
    *((slip, name, {}, []) for slip in ("step_skipped", "overall_size")
      for name in (STACK, "roof.slope")),
    # foam of 25 mm taken for an inch; an opening of 425 - 75 = 350 mm is nothing that was bought
    ("size_as_25_mm", SLOT, {"foam_thickness": "75 mm"}, ["25/8"]),
    ("size_as_25_mm", SLOT, {}, []),
    ("size_as_25_mm", PANEL, {"hive_width": "425 mm", "stud_thickness": "37.5 mm"}, []),
    # a fall turned over: 23 5/8 over 2 instead of 2 over 23 5/8
    ("upside_down", "roof.slope", {}, ["189/16"]), ("not_divided", "roof.slope", {}, ["2"]),
    # a tangent of 0.0847 is one of 4.84 degrees, by a table: tan 4.8 is 0.0840, tan 4.9 is 0.0857
    ("in_degrees", "roof.slope", {}, ["4.84", "4.8", "5"]),
]  # fmt: skip


@pytest.mark.parametrize(("slip", "dimension", "change", "gives"), ALL_GIVEN)
def test_a_slip_gives_this_and_nothing_else(slip, dimension, change, gives):
    assert given_by(slip, dimension, changed(DEMO, change)) == set(map(Fraction, gives))


# ── a new dimension ───────────────────────────────────────────────────────────────────────────


def test_a_new_dimension_has_its_slips_without_a_line_more():
    dimension = sum_of("shelf_length = hive_width - 2 * skin_thickness - panel_gap")
    sizes = {"hive_width": 20, "hive_length": 30, "skin_thickness": 1, "panel_gap": 3}
    sizes |= {"screen_gap": 8, "runner_gap": 7}
    exact = {name: Fraction(value) for name, value in sizes.items()}
    wrong = of_wrong_rules(dimension, exact, "inch")
    assert {(w.slip.name, int(w.value)) for w in wrong} == {
        ("thickness_once", 16), ("thickness_forgotten", 17), ("thickness_added", 19),
        ("gap_forgotten", 18), ("gap_each_side", 12), ("gap_added", 21), ("length_for_width", 25),
        ("overall_size", 20), ("another_gap", 10), ("another_gap", 11),
    }  # fmt: skip


PILES = {
    "pile = skin_thickness + panel_gap": {
        "gap_forgotten", "gap_each_side", "size_taken_off", "another_gap",
    },
    "pile = skin_thickness + panel_gap + top_bar": {"size_left_out", "another_gap"},
}  # fmt: skip


@pytest.mark.parametrize(("pile", "slips"), PILES.items())
def test_in_three_layers_or_more_nothing_is_taken_off_or_double(pile, slips):
    sizes = {"skin_thickness": 1, "panel_gap": 2, "top_bar": 4, "screen_gap": 8}
    exact = {name: Fraction(size) for name, size in sizes.items()}
    wrong = of_wrong_rules(sum_of(pile), exact, "inch")
    assert {w.slip.name for w in wrong if w.what == "panel gap"} == slips


# ── sums ──────────────────────────────────────────────────────────────────────────────────────

# A wrong sum, its two sizes, and what it gives on paper; None where it can't be made on them.
SUMS = [
    ("inch_not_lowered", "12 1/4", "3 5/8", "9 5/8"),  # not 8 5/8
    ("smaller_from_larger", "12 1/4", "3 5/8", "9 3/8"),
    ("borrowed_ten", "12 1/4", "3 5/8", "8 7/8"),  # 2/8 + 10/8 - 5/8 = 7/8
    ("inch_not_lowered", "7 1/16", "4 9/16", "3 1/2"),  # not 2 1/2
    ("smaller_from_larger", "7 1/16", "4 9/16", "3 1/2"),
    ("borrowed_ten", "7 1/16", "4 9/16", "2 1/8"),  # 1/16 + 10/16 - 9/16 = 2/16
    ("inch_not_lowered", "5 1/4", "1 1/2", "4 3/4"),  # not 3 3/4
    ("smaller_from_larger", "5 1/4", "1 1/2", "4 1/4"),
    ("borrowed_ten", "5 1/4", "1 1/2", None),  # ten quarters would be more than an inch
    ("inch_not_lowered", "5 1/16", "2 11/16", "3 3/8"),  # not 2 3/8
    ("smaller_from_larger", "5 1/16", "2 11/16", "3 5/8"),
    ("borrowed_ten", "5 1/16", "2 11/16", None),  # ten sixteenths would leave none
    *((slip, "8 1/2", "3", None)  # nothing to borrow
      for slip in ("inch_not_lowered", "smaller_from_larger", "borrowed_ten")),
    ("carry_dropped", "4 5/8", "2 7/8", "6 1/2"),  # not 7 1/2
    ("carry_dropped", "4 1/8", "2 3/8", None),
    ("tops_and_bottoms", "3/4", "1/2", "4/6"),
    ("tops_and_bottoms", "5 1/4", "3 3/8", "8 4/12"),
    ("tops_and_bottoms", "3/4", "2", None),
    # 12/13 + 7/8 answered 19/21: the assessment named beside the slip; from memory
    ("tops_and_bottoms", "12/13", "7/8", "19/21"),
    ("halved_bottom", "3/4", "2", "3/2"),  # not 3/8
    ("halved_bottom", "2 5/8", "2", "9/4"),  # 1 and 5/4
    ("halved_bottom", "2", "2", None),
]  # fmt: skip


@each(SUMS)
def test_a_sum_done_wrong(row):
    slip, left, right, wrong = row
    expected = None if wrong is None else sum(map(Fraction, wrong.split()))
    one, other = (sum(map(Fraction, text.split())) for text in (left, right))
    assert given_by_sums(slip, one, other) == ({expected} - {None})


def given_by_sums(slip: str, one: Fraction, other: Fraction) -> set[Fraction]:
    found = (each for wrong in figures.SUMS.values() for each in wrong(one, other))
    return {value for name, value in found if name == slip}


def test_most_subtractions_in_sixteenths_say_nothing_about_borrowing():
    """On random sixteenths more than half of the items tell nothing of the three usual slips."""
    tops = range(16)
    silent = [
        not given_by_sums("smaller_from_larger", 20 + Fraction(a, 16), 3 + Fraction(b, 16))
        for a, b in product(tops, tops)
    ]
    assert 0.5 < sum(silent) / len(silent) < 0.6


def test_the_working_is_the_line_on_the_paper():
    lines = {w.slip.name: w.working for w in question(DEMO, "bottom_board.front_rail_length").wrong}
    assert lines["thickness_once"] == "17 3/8 − 1 1/2 = 15 7/8"
    assert lines["nominal_size"] == "17 3/8 − 2 × 2 = 13 3/8"
    # the inner cover: 3/8 + 2 x 1/4
    found = question(DEMO, "inner_cover.overall_height").wrong
    assert [w.working for w in found if w.slip.name == "tops_and_bottoms"] == ["3/8 + 1/2 = 4/10"]
    found = question(DEMO, "inner_cover.slot_from_front").wrong  # its stud and its channel
    assert "1 1/2 + 1 1/2 = 2 2/4" in [w.working for w in found]
    found = question(DEMO, "bottom_board.front_rail_width").wrong
    assert "3 1/2 − 3/4 = 3 3/4" in [w.working for w in found]
    box = question(SLEEVED, "box_width").wrong  # 14 3/4 + 2 x 3/4, and boards called 1 in
    assert "14 3/4 + 2 × 1 = 16 3/4" in [w.working for w in box if w.slip.name == "nominal_size"]
    long = changed(SLEEVED, {"foam_thickness": "1 1/4", "skin_thickness": "3/8"})
    sums = [w.working for w in question(long, "hive_width").wrong if w.slip.family == "sums"]
    assert "1 1/4 + 3/8 = 1 4/12" in sums
    # sleeve round a box 16 1/4 wide of foam 3/4 and skin 1/2: 3/4 + 1/2 is 1 1/4, carry dropped 1/4
    carried = changed(SLEEVED, {"foam_thickness": "3/4", "skin_thickness": "1/2"})
    assert inches("16 3/4") in given_by("carry_dropped", "hive_width", carried)


# ── tape ──────────────────────────────────────────────────────────────────────────────────────


def test_wrong_readings_of_a_mark():
    read = {(w.slip.name, w.value) for w in readings(inches("13 5/16"))}
    assert read == {
        ("one_tick_off", inches("13 1/4")), ("one_tick_off", inches("13 3/8")),
        ("eighths_for_sixteenths", inches("13 5/8")), ("long_mark_dropped", inches("13 1/16")),
        ("from_the_other_end", inches("13 11/16")), ("wrong_inch", inches("12 5/16")),
        ("first_inch_kept", inches("14 5/16")),
    }  # fmt: skip
    lines = {w.slip.name: w.working for w in readings(inches("13 5/16"))}
    assert lines["eighths_for_sixteenths"] == "13 5/16 read as 13 5/8"
    assert lines["first_inch_kept"] == "from 1 in to 14 5/16 in is 14 5/16 in"
    only_read = {(w.slip.name, w.value) for w in readings(inches("13 5/16"), laid_on=False)}
    assert ("wrong_inch", inches("14 5/16")) in only_read
    assert "first_inch_kept" not in {name for name, _ in only_read}
    ninth = {w.slip.name for w in readings(inches("13 9/16"))}
    assert "eighths_for_sixteenths" not in ninth


MISREAD = [
    ("long_mark_dropped", "17 7/16", "17 3/16"),  # three sixteenths past the quarter
    ("eighths_for_sixteenths", "17 7/16", "17 5/8"),  # 1/4 + 3/8
    ("longer_marks_left_out", "17 7/16", "17 9/16"),  # 5/16, 7/16, 9/16: the third of them
    ("long_mark_dropped", "17 11/16", "17 3/16"),  # three past the half
    ("sixteenths_for_eighths", "17 5/8", "17 5/16"),
    ("from_the_other_end", "17 3/8", "17 5/8"),
]


@pytest.mark.parametrize(("slip", "mark", "read"), MISREAD)
def test_a_fraction_misread(slip, mark, read):
    assert (slip, inches(read)) in {(w.slip.name, w.value) for w in readings(inches(mark))}


def test_a_tape_in_mm_is_read_one_mm_off():
    read = {w.value: w.working for w in readings(inches("441 mm"), "mm")}
    assert read == {inches("440 mm"): "441 read as 440", inches("442 mm"): "441 read as 442"}


# ── writing ───────────────────────────────────────────────────────────────────────────────────


SPELT = [
    ("fraction_as_decimal", "13 5/8", "13.58"), ("fraction_as_decimal", "13 5/8", "13.5"),
    ("fraction_as_decimal", "13 5/8", "13.8"), ("fraction_as_decimal", "13 3/16", "13.316"),
    ("fraction_as_decimal", "13 3/64", "13.364"),
    ("decimal_feet", "21", "22.8"),  # 1 ft 9 in written 1.9 ft, which is 22.8 in
    ("decimal_feet", "21", "19.5"),  # 1.75 ft read as 1 ft 7.5 in
    ("mm_for_cm", "44.2 cm", "44.2 mm"), ("mm_for_cm", "38 mm", "38 cm"),
    ("space_forgotten", "14 3/8", "17 7/8"),  # 143/8
    ("inch_as_25_mm", "10", "250 mm"), ("inch_as_25_mm", "250 mm", "10"),
]  # fmt: skip


@pytest.mark.parametrize(("slip", "value", "wrong"), SPELT)
def test_wrong_spellings(slip, value, wrong):
    lines = [line for name, _, line, _ in figures.spellings(inches("21")) if name == "decimal_feet"]
    assert lines == ["1 ft 9 in written as 1.9 ft", "1.75 ft read as 1 ft 7 1/2 in"]
    assert next(figures.spellings(inches("13 5/8")))[2] == "5/8 written as .58"
    found = figures.spellings(inches(value))
    assert (slip, inches(wrong)) in {(name, read) for name, read, *_ in found}


# ── all of them ───────────────────────────────────────────────────────────────────────────────

SOME = [
    *hives(6, seed=11),
    hive_from_text('units = "mm"\nmeasured = {hive_length = 587, hive_width = 441.5}'),
]


def test_each_slip_gives_a_wrong_answer_somewhere_and_none_the_right_one_or_nothing():
    seen = set()
    for hive in [*SOME, changed(SLEEVED, {"foam_thickness": "50 mm"})]:
        right = values(hive)
        for name in right.keys() & DIMENSIONS.dimensions.keys():
            for wrong in question(hive, name).wrong:
                assert wrong.value != right[name]
                assert wrong.value > 0
                assert wrong.step == name
                seen.add(wrong.slip.name)
    assert seen == set(SLIPS)


def test_every_slip_of_the_rule_is_worked_out_on_paper():
    assert {row[0] for row in (*BY_HAND, *SLEEVED_BY_HAND)} >= {
        s.name for s in SLIPS.values() if s.family == "rule"
    } - WITH_A_TEST_BELOW


WITH_A_TEST_BELOW = {"upside_down", "in_degrees", "not_divided", "size_as_25_mm"}


def test_what_this_hive_has_not_is_told():
    with pytest.raises(UnknownNameError, match="in this hive called 'box_height'"):
        question(DEMO, "box_height")


def test_a_tape_is_misread_only_where_one_is_read():
    for name in ("bottom_board.panel_width", "bottom_board.back_rail_length"):
        assert "tape" not in {w.slip.family for w in question(DEMO, name).wrong}
    tape = {w.slip.name for w in question(DEMO, "hive_length").wrong if w.slip.family == "tape"}
    assert {"one_tick_off", "first_inch_kept", "from_the_other_end"} <= tape
    assert {w.slip.family for w in question(DEMO, "hive_length").wrong} == {"tape", "writing"}


def test_rounding_too_far_and_a_unit_left_out():
    rail = "bottom_board.side_rail_length"  # 21 5/8 in: 549.275 mm
    assert given_by("rounded_too_far", rail) == {Fraction(22), inches("21.6")}
    told = {"549", "549.3", "54.9", "54.93"}
    assert given_by("unit_left_out", rail) == {Fraction(text) for text in told}
    metric = hive_from_text('units = "mm"\nmeasured = {hive_length = 587.375, hive_width = 441}')
    rest = inches("587.375 mm") - inches("38 mm")  # of so many inches, read as mm
    assert given_by("unit_left_out", rail, metric) == {rest / inches("25.4 mm") * inches("1 mm")}
    assert given_by("rounded_too_far", rail, metric) == set()


def test_fractions_are_no_matter_in_mm_and_practice_there_names_no_inch():
    metric = SOME[-1]
    names = [n for n in DIMENSIONS.dimensions if n in values(metric)]
    slips = {w.slip for n in names for w in question(metric, n).wrong}
    assert {s.name for s in slips}.isdisjoint(
        {"inch_not_lowered", "multiplied_one_part", "fraction_dropped", "fraction_as_decimal",
         "rounded_too_far", "wrong_inch"})  # fmt: skip
    said = {s.name for s in slips if re.search(r"\d in\b|/\d|inch", s.to_practise("mm"))}
    assert said <= {"size_as_25_mm", "inch_as_25_mm", "unit_left_out"}  # about inches themselves


@each(SLIPS.values())
def test_the_words_of_a_slip(slip):
    words = slip.gives.format(what="a", other="b", step="c")
    assert not words.endswith((".", "?"))
    assert slip.question.format(what="a", other="b", step="c", piece="d").endswith("?")
    for practice in (slip.to_practise(), slip.to_practise("mm")):
        assert re.search(r"[0-9][^|\[\]]*[.?]$", practice)
    assert slip.source.endswith(("no published source", "not checked against print")) or (
        "from memory, not checked against print" in slip.source
    )
    everything = f"{words} {slip.question} {slip.practice}".lower()
    assert not re.search(r"you (believe|think|thought|assume)", everything)


def test_the_published_slips_name_their_paper():
    assert "Brown" in SLIPS["smaller_from_larger"].source
    assert "Brown" in SLIPS["inch_not_lowered"].source
    published = {s.name for s in SLIPS.values() if "(19" in s.source}
    own = {"halved_bottom", "multiplied_one_part", "fraction_dropped"}
    assert published == {s.name for s in SLIPS.values() if s.family == "sums"} - own
