"""Drawings of cutting and buying: true to scale, labels clear for every hive of the range."""

import xml.etree.ElementTree as ET
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hivecalc.cutting import board_plan, offcut
from hivecalc.cutting.boards import BoardPattern
from hivecalc.cutting.needs import board_needs, sheet_needs
from hivecalc.cutting.sheets import Layout, sheet_plan
from hivecalc.drawing.cutting import Bar, bars, boards_cut_up, sheet_cut_up
from hivecalc.hive import Hive, changed, demo_hive, hive_from_text
from hivecalc.length import MM
from hivecalc.stock import Board, SheetGoods, demo_yard
from tests.hives import HIVES
from tests.test_drawing import (
    NS,
    PX,
    assert_labels_clear,
    assert_named_true,
    assert_sound,
    corners,
    extent,
    words,
)

YARD = demo_yard()
EXTREMES = {
    "smallest": {"hive_length": "8", "hive_width": "8"},
    "long": {"hive_length": "48", "hive_width": "8"},
    "wide": {"hive_length": "8", "hive_width": "48"},
    "largest": {"hive_length": "48", "hive_width": "48"},
}
ALL: dict[str, Hive] = {name: hive_from_text(text) for name, text in HIVES.items()}
ALL |= {name: changed(demo_hive(), sizes) for name, sizes in EXTREMES.items()}


def of_part(svg: str, part: str) -> Iterator[ET.Element]:
    return (e for e in ET.fromstring(svg).iter(f"{NS}polygon") if e.get("data-part") == part)


# ── boards ─────────────────────────────────────────────────────────────────────────────────────


def plans(hive: Hive, how_many: int = 1) -> Iterator[tuple[BoardPattern, ...]]:
    for need in board_needs([hive] * how_many, YARD):
        yield board_plan(
            need.wanted, need.boards, kerf=YARD.kerf, trim=YARD.end_trim, aim="boards", seconds=2
        ).patterns


@pytest.mark.parametrize("name", ALL)
def test_the_boards_of_every_hive_are_drawn_clear_and_true(name: str) -> None:
    hive = ALL[name]
    patterns = [p for found in plans(hive) for p in found]
    svg = boards_cut_up(patterns, YARD.kerf, YARD.end_trim, units=hive.units, name=hive.name)
    assert_sound(svg)
    assert_labels_clear(svg)
    assert_named_true(svg)


def test_the_boards_of_a_class_are_drawn_clear() -> None:
    for patterns in plans(demo_hive(), 12):
        assert_labels_clear(boards_cut_up(patterns, YARD.kerf, YARD.end_trim))


def test_pieces_lie_where_they_are_cut_with_a_kerf_between_them() -> None:
    # By hand: the trim of 1/2, then 40, a kerf of 1/8, then 20: ends at 40 1/2 and 60 5/8.
    stud = Board("8 ft stud", "stud", *map(Fraction, ("1.5", "3.5", "96")))
    pieces = (("long", Fraction(40)), ("short", Fraction(20)))
    left = offcut(Fraction(191, 2), [Fraction(40), Fraction(20)], Fraction(1, 8))
    svg = boards_cut_up([BoardPattern(stud, pieces, 2, left)], Fraction(1, 8), Fraction(1, 2))
    root = ET.fromstring(svg)
    scale = float(root.attrib["data-scale"])
    (board,) = of_part(svg, "board")
    zero = min(x for x, _ in corners(board))
    named = {e.get("data-name"): corners(e) for e in root.iter(f"{NS}polygon")}
    ends = {
        name: tuple((f(x for x, _ in named[name]) - zero) / scale for f in (min, max))
        for name in ("long", "short")
    }
    assert ends["long"] == pytest.approx((0.5, 40.5), abs=1e-2)
    assert ends["short"] == pytest.approx((40.625, 60.625), abs=1e-2)
    assert "offcut 35 1/4 in" in words(root)  # 96 - 60 5/8 and the last kerf
    assert "2 × 8 ft stud" in words(root)


def test_each_piece_has_its_number_and_short_ones_in_a_row_share_theirs() -> None:
    board = Board("8 ft stud", "stud", Fraction(3, 2), Fraction(7, 2), Fraction(96))
    long, short = ("rail", Fraction(20)), ("stop", Fraction(2))
    pieces = (long, long, short, short, short)
    svg = boards_cut_up([BoardPattern(board, pieces, 1, Fraction(49))], Fraction(1, 8), Fraction(0))
    texts = [text.text or "" for text in ET.fromstring(svg).iter(f"{NS}text")]
    assert [text for text in texts if text.isdigit()] == ["1", "1", "2"]
    assert "comes off before" not in svg


def test_a_board_at_hand_is_not_trimmed_and_is_told() -> None:
    left = Board("offcut", "stud", *map(Fraction, ("1.5", "3.5", "30")), count=1, at_hand=True)
    pattern = BoardPattern(left, (("rail", Fraction(20)),), 1, Fraction(79, 8))
    svg = boards_cut_up([pattern], Fraction(1, 8), Fraction(1, 2))
    (board,) = of_part(svg, "board")
    (rail,) = (e for e in ET.fromstring(svg).iter() if e.get("data-name") == "rail")
    assert min(corners(board))[0] == pytest.approx(min(corners(rail))[0], abs=PX)
    assert "at hand" in words(ET.fromstring(svg))


# ── sheets ─────────────────────────────────────────────────────────────────────────────────────


def layouts(hive: Hive, how_many: int = 1) -> Iterator[Layout]:
    for need in sheet_needs([hive] * how_many, YARD):
        yield from sheet_plan(need.wanted, need.sheets, kerf=need.kerf, seconds=2).layouts


def assert_all_told(layout: Layout, svg: str) -> None:
    """Each piece bears its letter, each cut its number."""
    texts = Counter(t.text for t in ET.fromstring(svg).iter(f"{NS}text"))
    assert all(texts[str(cut.number)] == 1 for cut in layout.cuts)
    assert sum(n for t, n in texts.items() if t and t.isalpha() and len(t) == 1) == len(
        layout.placed
    )


@pytest.mark.parametrize("name", ALL)
def test_the_sheets_of_every_hive_are_drawn_clear_and_true(name: str) -> None:
    hive = ALL[name]
    for layout in layouts(hive):
        svg = sheet_cut_up(layout, units=hive.units, name=hive.name)
        assert_sound(svg)
        assert_labels_clear(svg)
        assert_named_true(svg)
        assert_all_told(layout, svg)


def test_the_pieces_on_a_sheet_are_as_big_as_they_are() -> None:
    for layout in layouts(demo_hive()):
        svg = sheet_cut_up(layout)
        scale = float(ET.fromstring(svg).attrib["data-scale"])
        drawn = Counter(
            tuple(sorted(round(16 * s / scale) for s in extent(e))) for e in of_part(svg, "piece")
        )
        assert drawn == Counter(
            tuple(sorted(round(16 * s) for s in (p.width, p.length))) for p in layout.placed
        )


def test_a_cut_runs_from_edge_to_edge_of_what_it_cuts() -> None:
    half = SheetGoods("half", "plywood", *map(Fraction, ("0.5", "48", "48")), price=Fraction(1))
    (layout,) = (x for x in layouts(demo_hive()) if x.sheet.thickness == half.thickness)
    svg = sheet_cut_up(layout)
    scale = float(ET.fromstring(svg).attrib["data-scale"])
    lines = {
        int(e.attrib["data-cut"]): max(extent(e)) / scale
        for e in ET.fromstring(svg).iter(f"{NS}line")
        if e.get("data-cut")
    }
    assert lines.keys() == set(range(1, len(layout.cuts) + 1))
    for cut in layout.cuts:
        assert lines[cut.number] == pytest.approx(float(cut.length), abs=1e-2)


# ── bars ───────────────────────────────────────────────────────────────────────────────────────


@given(st.lists(st.fractions(0, 1000), min_size=1, max_size=6, unique=True))
@settings(max_examples=30)
def test_bars_are_as_long_as_what_they_stand_for(amounts: list[Fraction]) -> None:
    svg = bars("Costs", [Bar(f"goods {n}", a, f"{n} coins") for n, a in enumerate(amounts)])
    assert_sound(svg)
    assert_labels_clear(svg)
    assert_named_true(svg)


def test_what_has_no_price_has_words_and_no_bar() -> None:
    svg = bars("Costs", [Bar("boards", None, "no price"), Bar("foam", 3 * MM, "little")])
    assert svg.count("data-exact") == 1
    assert "boards: no price" in words(ET.fromstring(svg))
