"""What is needed from lumber and sheets: each piece once, as it is cut, from stock that serves."""

from collections import Counter
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hivecalc.components import COURSE, built, parts, values
from hivecalc.cutting import Wanted, board_plan
from hivecalc.cutting.needs import (
    BoardNeed,
    Section,
    board_needs,
    boards_for,
    kinds_of,
    needed,
    sheet_needs,
    sheets_for,
)
from hivecalc.cutting.needs.ripping import PLANED
from hivecalc.cutting.strips import LEAST_RIP
from hivecalc.hive import Hive, HiveFaults, changed, demo_hive, hive_from_text
from hivecalc.length import MM, Rounding
from hivecalc.stock import Board, SheetGoods, Yard, demo_yard
from tests.hives import HIVES

YARD = demo_yard()
STUD = Board("stud", "stud", Fraction(3, 2), Fraction(7, 2), Fraction(96))


def inches(text: str) -> Fraction:
    return sum(map(Fraction, text.split()), Fraction(0))


def some_hive(name: str) -> Hive:
    return hive_from_text(HIVES[name])


@st.composite
def hives(draw: st.DrawFn) -> Hive:
    """Hives of any size and shape that a strip's, stud's and foam's usual sizes give."""
    sizes = {
        "hive_length": draw(st.integers(16 * 16, 48 * 16)),
        "hive_width": draw(st.integers(9 * 16, 48 * 16)),
        "stud_thickness": draw(st.integers(20, 36)),
        "stud_width": draw(st.integers(48, 116)),
        "strip_narrow": draw(st.integers(4, 10)),
        "strip_wide": draw(st.integers(10, 20)),
        "entrance_height": draw(st.integers(4, 40)),
        "front_stop_height": draw(st.integers(2, 16)),
        "inner_rim_height": draw(st.integers(4, 20)),
        "rim_back_thickness": draw(st.integers(8, 20)),
    }
    units = draw(st.sampled_from(["inch", "mm"]))
    hive = changed(demo_hive(), {name: Fraction(n, 16) for name, n in sizes.items()})
    return replace(hive, units=units)


# ── the pieces as they are cut ─────────────────────────────────────────────────────────────────

# A hive of 22 3/4 by 16 1/4 in; side, front and back rail, screen and panel are check values of
# common practice. The rest by hand: 16 1/4 - 3 - 2 = 11 1/4 is cut in two halves of 5 5/8; the rim
# is half an inch longer than the hive; the deck 4 in.
CHECKED = {
    "bottom board side rail": (2, "1 1/2", "3 1/2", "21 1/4"),
    "bottom board front rail": (1, "1 1/2", "2 3/4", "13 1/4"),
    "bottom board back rail": (1, "1 1/2", "3 1/2", "16 1/4"),
    "bottom board screen end strip": (3, "1/2", "3/4", "11 5/8"),
    "bottom board panel": (1, "1", "13", "19 1/2"),
    "bottom board landing board": (1, "3/4", "3 1/2", "16 1/4"),
    "roof rim side": (2, "1 1/2", "3 1/2", "23 1/4"),
    "roof rim back": (1, "1", "1 1/2", "13 3/4"),
    "roof deck": (1, "1/2", "20 1/4", "26 3/4"),
    "inner cover rim front half": (2, "1/2", "1 1/2", "5 5/8"),
}


def test_pieces_have_the_sizes_of_the_check_values() -> None:
    hive = changed(demo_hive(), {"hive_length": "22 3/4", "hive_width": "16 1/4"})
    found = {piece.label: piece for piece in needed([hive])}
    for label, (count, *sizes) in CHECKED.items():
        piece = found[label]
        assert piece.count == count
        assert [piece.thickness, piece.width, piece.length] == list(map(inches, sizes)), label
    mesh = found["bottom board mesh"]
    assert (mesh.thickness, mesh.width, mesh.length) == (None, inches("13 1/8"), inches("19 5/8"))


def test_a_size_is_rounded_the_way_its_dimension_says() -> None:
    # By hand for 23 1/32 by 17 9/32 in: what slides goes down to the sixteenth, what covers goes
    # up, the rest to the nearest, and half-way up. Panel 17 9/32 - 3 - 1/4 = 14 1/32, down to 14;
    # deck 17 9/32 + 4 = 21 9/32, up to 21 5/16; back rail 17 9/32, half-way, up to 17 5/16.
    hive = changed(demo_hive(), {"hive_length": "23 1/32", "hive_width": "17 9/32"})
    found = {piece.label: piece for piece in needed([hive])}
    assert found["bottom board panel"].width == 14
    assert found["roof deck"].width == inches("21 5/16")
    assert found["bottom board back rail"].length == inches("17 5/16")


def test_a_size_of_the_stock_stays_as_it_was_measured() -> None:
    hive = changed(demo_hive(), {"stud_thickness": "1 33/64", "foam_thickness": "25 mm"})
    found = {piece.label: piece for piece in needed([hive])}
    assert found["bottom board side rail"].thickness == inches("1 33/64")
    assert found["bottom board panel"].thickness == 25 * MM
    assert found["inner cover rim side"].width == inches("1 33/64")


@given(hives())
@settings(max_examples=40)
def test_every_cut_size_lies_on_the_grid_beside_the_exact_one(hive: Hive) -> None:
    step, exact = (MM if hive.units == "mm" else Fraction(1, 16)), values(hive)
    for piece in needed([hive]):
        name = f"{piece.component}.{piece.part}_length"
        halves = 2 if piece.label.endswith(" half") else 1
        off = piece.length - exact[name] / halves
        assert (piece.length / step).denominator == 1
        rounding = COURSE.dimension(name).rule.rounding
        low, high = {
            Rounding.DOWN: (-step, 0),
            Rounding.UP: (0, step),
            Rounding.NEAREST: (-step / 2, step / 2),
        }[rounding]
        assert low <= off <= high


@pytest.mark.parametrize("name", HIVES)
def test_every_part_that_is_built_is_needed_once(name: str) -> None:
    hive = some_hive(name)
    counts = Counter()
    for piece in needed([hive]):
        counts[piece.component, piece.part] += piece.count
    for piece in parts(hive):
        halves = 2 if (piece.component, piece.part) == ("inner_cover", "rim_front") else 1
        assert counts.pop((piece.component, piece.part)) == halves * piece.quantity
    assert not counts
    assert {piece.component for piece in needed([hive])} == set(built(hive))


def test_the_halves_of_the_inner_rims_front_leave_the_notch() -> None:
    # By hand: 17 3/8 - 3 = 14 3/8 between the sides; less the notch of 2 leaves 2 x 6 3/16.
    half = next(p for p in needed([demo_hive()]) if p.label == "inner cover rim front half")
    assert (half.count, half.length) == (2, inches("6 3/16"))


# ── several hives ──────────────────────────────────────────────────────────────────────────────


def test_hives_that_are_alike_are_counted_and_others_are_named() -> None:
    wide = replace(changed(demo_hive(), {"hive_width": "19"}), name="Wide hive")
    pieces = needed([demo_hive(), wide, demo_hive()])
    labels = {piece.label: piece.count for piece in pieces}
    assert labels["Orchard hive: bottom board side rail"] == 4
    assert labels["Wide hive: bottom board side rail"] == 2
    assert not any(":" in piece.label for piece in needed([demo_hive()] * 3))


def test_hives_of_one_name_are_told_apart() -> None:
    other = changed(demo_hive(), {"hive_width": "19"})
    third = changed(demo_hive(), {"hive_width": "20"})
    names = [kind.name for kind in kinds_of([demo_hive(), other, third])]
    assert names == ["Orchard hive", "Orchard hive (2)", "Orchard hive (3)"]
    same = replace(other, name="Orchard hive (2)")
    assert len({k.name for k in kinds_of([demo_hive(), third, same])}) == 3


def test_no_hive_is_refused_in_one_sentence() -> None:
    for function in (needed, kinds_of):
        with pytest.raises(HiveFaults) as refused:
            function([])
        assert str(refused.value) == "hives: there are none; give one hive or more."
    for function in (board_needs, sheet_needs):
        with pytest.raises(HiveFaults):
            function([], YARD)


# ── lumber ─────────────────────────────────────────────────────────────────────────────────────


def assert_each_piece_once(hives: list[Hive], needs: tuple[BoardNeed, ...]) -> None:
    """Every piece of lumber is wanted whole, comes out of a blank, or is told to be left out."""
    found: Counter[tuple[str, Fraction]] = Counter()
    left: Counter[str] = Counter()
    for need in needs:
        blanks = {b.label: b.count for b in need.blanks if not b.rest_of}
        for wanted in need.wanted:
            if blanks.pop(wanted.label, None) is None:
                found[wanted.label, wanted.length] += wanted.count
        assert not blanks
        for blank in need.blanks:
            for strip in blank.strips:
                for piece in strip.pieces:
                    found[piece] += strip.count
        left.update({u.label: u.count for u in need.unplanned})
    for piece in needed(hives):
        if piece.section:
            got = found.pop((piece.label, piece.length), 0)
            assert got + left[piece.label] == piece.count, piece.label
    assert not found


def assert_sound(need: BoardNeed, kerf: Fraction) -> None:
    """Blanks are as many and as long as what comes out of them, and no rest serves twice."""
    taken: Counter[str] = Counter()
    for blank in need.blanks:
        assert blank.length >= LEAST_RIP
        assert blank.needed <= blank.made
        for strip in blank.strips:
            lengths = [length for _, length in strip.pieces]
            assert sum(lengths) + (len(lengths) - 1) * kerf <= blank.length
        if blank.rest_of:
            parent = next(b for b in need.blanks if b.label == blank.rest_of)
            assert not parent.rest_of
            assert parent.length == blank.length
            taken[parent.label] += blank.count
            sides = sorted((blank.section.thickness, blank.section.width))
            assert any(
                all(0 <= a - b <= PLANED for a, b in zip(sorted(rest[2:]), sides, strict=True))
                for rest in parent.section.rests
            )
    for label, count in taken.items():
        parent = next(b for b in need.blanks if b.label == label)
        assert count <= len(parent.section.rests) * parent.count
    assert len({b.label for b in need.blanks if not b.rest_of}) == sum(
        not b.rest_of for b in need.blanks
    )


@pytest.mark.parametrize("name", HIVES)
def test_each_piece_of_lumber_comes_from_somewhere_once(name: str) -> None:
    needs = board_needs([some_hive(name)], YARD)
    assert_each_piece_once([some_hive(name)], needs)
    assert not any(need.unplanned for need in needs)
    for need in needs:
        assert_sound(need, YARD.kerf)


def test_all_hives_at_once_are_planned_together() -> None:
    hives = [some_hive(name) for name in HIVES]
    needs = board_needs([*hives, hives[0]], YARD)
    assert_each_piece_once([*hives, hives[0]], needs)
    for need in needs:
        assert_sound(need, YARD.kerf)
    boards = [set(need.boards) for need in needs]
    assert all(not one & other for i, one in enumerate(boards) for other in boards[:i])


@given(hives(), st.sampled_from([Fraction(1, 8), Fraction(3, 32), Fraction(0), 3 * MM]))
@settings(max_examples=60)
def test_any_hive_is_planned_whole_or_told(hive: Hive, kerf: Fraction) -> None:
    stud = Board("stud", "stud", Fraction(3, 2), hive.measurements["stud_width"], Fraction(96))
    yard = replace(YARD, kerf=kerf, boards=(*YARD.boards, stud))
    needs = board_needs([hive], yard)
    assert_each_piece_once([hive], needs)
    for need in needs:
        assert_sound(need, kerf)


def test_the_demo_hives_rests_become_its_thin_pieces() -> None:
    # By hand: two strips of 1/2 and their kerfs leave 1/4 of 1 1/2, and 3/4 is the slice: the front
    # stop. Four strips of 1/2 and their kerfs leave 1 of 3 1/2, and 1 1/2 the other way: the back.
    blanks = board_needs([demo_hive()], YARD)[0].blanks
    rests = {strip.pieces[0][0]: b for b in blanks if b.rest_of for strip in b.strips}
    assert set(rests) == {"bottom board screen front stop", "roof rim back"}
    assert all(blank.section.passes == 0 for blank in rests.values())


@pytest.mark.parametrize("name", HIVES)
def test_no_blank_that_is_a_sixteenth_shorter_holds_its_strips(name: str) -> None:
    """Against the exact plan for boards: of strips one step shorter there must be more."""
    for need in board_needs([some_hive(name)], YARD):
        for blank in need.blanks:
            if blank.rest_of or blank.section.count == 1 or blank.length <= LEAST_RIP + 1:
                continue
            pieces = Counter()
            for strip in blank.strips:
                pieces.update({piece: strip.count * strip.pieces.count(piece) for piece in
                               dict.fromkeys(strip.pieces)})  # fmt: skip
            shorter = replace(STUD, length=blank.length - Fraction(1, 16))
            wanted = [Wanted(label, length, count) for (label, length), count in pieces.items()]
            plan = board_plan(wanted, [shorter], kerf=YARD.kerf)
            assert plan.proved
            assert plan.unplanned or plan.boards > blank.made


def test_long_pieces_and_blanks_want_straight_boards() -> None:
    for need in board_needs([demo_hive()], YARD):
        for wanted in need.wanted:
            ripped = any(wanted.label == blank.label for blank in need.blanks)
            assert wanted.straight == (ripped or wanted.length > 18)


def test_a_short_front_rail_is_ripped_from_a_longer_blank() -> None:
    # A hive 8 in wide: the front rail is 5 in, and two of them with a kerf go into 12 in.
    hive = some_hive("smallest")
    need = board_needs([hive, hive], YARD)[0]
    blank = next(b for b in need.blanks if "front rail" in b.label)
    assert (blank.length, blank.count, blank.label) == (
        LEAST_RIP, 1, "blank for bottom board front rail",
    )  # fmt: skip
    assert [len(strip.pieces) for strip in blank.strips] == [2]


@pytest.mark.parametrize(
    ("thickness", "width", "serves"),
    [
        ("1 1/2", "3 1/2", True),
        ("1 5/8", "3 5/8", True),
        ("1 3/8", "3 3/8", True),
        ("1 11/16", "3 1/2", False),
        ("1 1/2", "2 1/2", False),
        ("1 1/2", "5 1/2", False),
    ],
)
def test_lumber_within_an_eighth_is_the_one_that_was_measured(
    thickness: str,
    width: str,
    serves: bool,  # noqa: FBT001 - a row of the table
) -> None:
    section = Section("stud", inches(thickness), inches(width))
    assert bool(boards_for(section, Yard("coins", (STUD,), (), ()))) == serves


def test_what_is_ripped_to_width_comes_from_the_narrowest_board_and_from_offcuts() -> None:
    side = Section("board", Fraction(3, 4), inches("9 5/8"), sawn=True)
    inch = STUD.__class__("", "board", Fraction(3, 4), Fraction(0), Fraction(96))
    sold = [replace(inch, name=n, width=inches(w)) for n, w in
            (("1x10", "9 1/4"), ("1x12", "11 1/4"), ("wide", "14"))]  # fmt: skip
    offcut = replace(inch, name="offcut", width=Fraction(16), count=1, at_hand=True)
    low = replace(offcut, name="low", width=Fraction(9))
    yard = Yard("coins", (*sold, offcut, low), (), ())
    assert [board.name for board in boards_for(side, yard)] == ["1x12", "offcut"]


def test_a_board_that_the_yard_has_not_is_told_with_each_piece() -> None:
    needs = board_needs([some_hive("eight-frame")], Yard("coins", (STUD,), (), ()))
    told = {u.label: u.why for need in needs for u in need.unplanned}
    assert set(told) == {"bottom board landing board", "box side", "box end"}
    assert told["bottom board landing board"] == "your yard has no board of 3/4 × 3 1/2 in"
    assert told["box side"] == "your yard has no board of 3/4 × 9 5/8 in or wider"


def test_pieces_longer_than_any_board_are_told_and_the_rest_planned() -> None:
    short = replace(STUD, length=Fraction(20))
    need = board_needs([demo_hive()], Yard("coins", (short,), (), ()))[0]
    # By hand: 20 in less the trim of 1/2 give 19 1/2; strips of 20 and 20 5/8 do not come out.
    told = {u.label: u.why for u in need.unplanned}
    assert told["bottom board screen side strip"] == (
        "it is longer than the 19 1/2 in that a board yields"
    )
    assert "bottom board screen end strip" not in told
    assert any(b.section.count > 1 for b in need.blanks)


def test_a_strip_that_no_stud_gives_is_told() -> None:
    hive = changed(
        demo_hive(), {"strip_narrow": "7/8", "strip_wide": "1 1/4", "stud_thickness": "1"}
    )
    board = replace(STUD, thickness=Fraction(1))
    need = board_needs([hive], Yard("coins", (board,), (), ()))[0]
    assert need.blanks
    thick = changed(demo_hive(), {"foam_thickness": "3", "edge_strip_height": "1 1/2",
                                  "box_length": "19", "box_width": "15", "box_height": "9",
                                  "stud_width": "2 1/2", "stud_thickness": "1",
                                  "hive_length": "26", "hive_width": "22"})  # fmt: skip
    narrow = replace(STUD, thickness=Fraction(1), width=inches("2 1/2"))
    need = board_needs([thick], Yard("coins", (narrow,), (), ()))[0]
    why = {u.why for u in need.unplanned if "edge strip" in u.label}
    assert why == {"no strip of 3 × 1 1/2 in can be ripped from a stud of 1 × 2 1/2 in"}


def test_the_same_lumber_measured_twice_is_one_need() -> None:
    thick = replace(changed(demo_hive(), {"stud_thickness": "1 9/16"}), name="Thick studs")
    needs = board_needs([demo_hive(), thick], YARD)
    assert len(needs) == 2
    assert {b.section.thickness for b in needs[0].blanks if not b.rest_of} == {
        Fraction(3, 2), Fraction(25, 16),
    }  # fmt: skip


def test_two_shallow_box_sides_come_out_of_one_wide_board() -> None:
    # By hand: a frame of 5 in, 1/4 in below and 5/8 - 3/8 above it make a box of 5 1/2; and
    # 5 1/2 + 1/8 + 5 1/2 = 11 1/8 goes into 11 1/4.
    hive = changed(some_hive("eight-frame"), {"frame_depth": "5"})
    need = next(n for n in board_needs([hive], YARD) if n.blanks and "board" in n.name)
    assert {(b.section.count, b.section.piece_width) for b in need.blanks} == {(2, inches("5 1/2"))}


# ── sheets ─────────────────────────────────────────────────────────────────────────────────────


def test_sheets_are_grouped_by_what_serves_and_sawn_or_cut() -> None:
    needs = {need.name: need for need in sheet_needs([demo_hive()], YARD)}
    assert set(needs) == {
        "foam of 1 in", "mesh", "plywood of 1/2 in", "plywood of 1/4 in", "plastic of 5/32 in",
    }  # fmt: skip
    assert {n.material: n.kerf for n in needs.values()} == {
        "foam": 0, "mesh": 0, "plywood": Fraction(1, 8), "sheet": 0,
    }  # fmt: skip
    halves = needs["plywood of 1/2 in"].wanted
    assert {w.label: w.count for w in halves} == {
        "roof deck": 1, "roof skirt end": 2, "roof skirt side": 2,
    }  # fmt: skip


@pytest.mark.parametrize("name", HIVES)
def test_each_piece_of_sheet_is_wanted_once(name: str) -> None:
    hives = [some_hive(name), some_hive("orchard")]
    found = Counter()
    for need in sheet_needs(hives, YARD):
        for wanted in need.wanted:
            found[wanted.label] += wanted.count
            assert wanted.width > 0
            assert wanted.length > 0
        found.update({u.label: u.count for u in need.unplanned})
    assert found == Counter({p.label: p.count for p in needed(hives) if p.section is None})


def test_grain_and_flutes_run_along_and_foam_may_turn() -> None:
    hive = some_hive("sleeved")
    turns = {w.label: w.turns for n in sheet_needs([hive], YARD) for w in n.wanted}
    assert {label for label, may in turns.items() if not may} >= {
        "roof deck", "roof cover", "roof skirt side", "roof skirt end",
    }  # fmt: skip
    assert turns["bottom board panel"]
    assert turns["inner cover sheet"]
    assert turns["sleeve foam side"]


def test_foam_of_25_mm_is_not_foam_of_an_inch() -> None:
    names = [s.name for s in sheets_for("foam", 25 * MM, YARD)]
    assert names == ["board of 25 mm foam"]
    assert "board of 25 mm foam" not in {s.name for s in sheets_for("foam", Fraction(1), YARD)}


@pytest.mark.parametrize(
    ("thickness", "serves"), [("15/32", True), ("17/32", True), ("29/64", False), ("35/64", False)]
)
def test_plywood_is_what_it_is_called_within_its_tolerance(
    thickness: str,
    serves: bool,  # noqa: FBT001 - a row of the table
) -> None:
    """1/32 in more or less: voluntary product standard PS 1, as retold by a trade association."""
    sold = SheetGoods("half-inch", "plywood", Fraction(1, 2), Fraction(48), Fraction(96))
    found = sheets_for("plywood", inches(thickness), Yard("coins", (), (sold,), ()))
    assert bool(found) == serves


def test_a_sheet_that_the_yard_has_not_is_told() -> None:
    needs = sheet_needs([demo_hive()], Yard("coins", (), (), ()))
    told = {u.label: u.why for need in needs for u in need.unplanned}
    assert told["roof cover"] == "your yard has no plastic of 5/32 in"
    assert told["bottom board mesh"] == "your yard has no mesh"
    assert all(not need.wanted for need in needs)
