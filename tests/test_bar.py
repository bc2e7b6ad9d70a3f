"""The bar of a chain: to scale, each size where it lies, labels clear at any hive and any count."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hivecalc.components import values
from hivecalc.drawing.bar import Term, chain_bar, laid_off
from hivecalc.hive import hive_from_text
from hivecalc.judging.chain import MOST_COUNT, offered
from hivecalc.length import Units
from tests.hives import HIVES
from tests.pictures import (
    NS,
    assert_clear,
    assert_named_true,
    assert_sound,
    corners,
    parsed,
    words,
)
from tests.test_chain import TRUE

HALVES = st.integers(-2 * MOST_COUNT, 2 * MOST_COUNT).map(lambda n: Fraction(n, 2))
DEMO = [
    Term("hive width", Fraction(139, 8), Fraction(1)),
    Term("stud thickness", Fraction(3, 2), Fraction(-2)),
]


@settings(max_examples=60)
@given(st.sampled_from(sorted(HIVES)), st.sampled_from(sorted(TRUE)), st.data())
def test_any_chain_on_any_hive_is_drawn_clear_and_to_scale(
    name: str, dimension: str, data: st.DataObject
) -> None:
    hive = hive_from_text(HIVES[name])
    sizes = values(hive)
    counts = [(n, data.draw(HALVES)) for n in offered(hive, dimension)]
    terms = [Term(n.replace("_", " "), sizes[n], c) for n, c in counts if c]
    svg = chain_bar(terms, dimension.rpartition(".")[2].replace("_", " "), units=hive.units)
    assert_clear(svg)
    if terms:
        assert_named_true(svg)


@pytest.mark.parametrize("units", ["inch", "mm"])
def test_the_two_studs_stand_at_the_two_ends_of_the_rail(units: Units) -> None:
    root = parsed(chain_bar(DEMO, "front rail length", units=units))
    laid = [e for e in root.iter(f"{NS}polygon") if "data-exact" in e.attrib]
    (whole, *studs) = [[x for x, _ in corners(e)] for e in laid]
    assert len(studs) == 2
    assert min(studs[0]) == pytest.approx(min(whole), abs=0.01)
    assert max(studs[1]) == pytest.approx(max(whole), abs=0.01)


def test_one_size_that_comes_off_lies_where_the_piece_ends() -> None:
    side = [
        Term("hive length", Fraction(185, 8), Fraction(1)),
        Term("s", Fraction(3, 2), Fraction(-1)),
    ]
    assert laid_off(side, Fraction(0)).rest == (0, Fraction(173, 8))
    assert laid_off(side, Fraction(3, 2)).rest == (Fraction(3, 2), Fraction(185, 8))


def test_what_is_added_on_both_sides_lies_on_both_sides() -> None:
    skirt = [Term("rim", Fraction(23), Fraction(1)), Term("skirt", Fraction(1, 2), Fraction(2))]
    laid = laid_off(skirt).laid
    assert [(one.term, one.low, one.high) for one in laid] == [
        (1, 0, Fraction(1, 2)),
        (0, Fraction(1, 2), Fraction(47, 2)),
        (1, Fraction(47, 2), 24),
    ]


def test_a_gap_that_is_meant_in_all_lies_half_at_each_end() -> None:
    opening, gap = Term("opening", Fraction(14), Fraction(1)), Fraction(1, 4)
    in_all = laid_off([opening, Term("gap", gap, Fraction(-1), in_all=True)])
    assert in_all.rest == (Fraction(1, 8), Fraction(111, 8))
    each_side = laid_off([opening, Term("gap", gap, Fraction(-2), in_all=True)])
    assert each_side.rest == (Fraction(1, 4), Fraction(55, 4))
    wider = laid_off([opening, Term("clearance", gap, Fraction(1), in_all=True)])
    assert [(one.low, one.high) for one in wider.laid if one.term == 1] == [
        (0, Fraction(1, 8)),
        (Fraction(113, 8), Fraction(57, 4)),
    ]


def test_the_bar_keeps_its_result_to_itself_until_it_is_found() -> None:
    asking = chain_bar(DEMO, "front rail length")
    assert "14 3/8" not in asking
    assert str(Fraction(115, 8)) not in asking
    assert "14 3/8 in" in chain_bar(DEMO, "front rail length", result="14 3/8 in")


def test_the_bar_is_told_in_words() -> None:
    root = assert_sound(chain_bar(DEMO, "front rail length"))
    told = next(root.iter(f"{NS}desc")).text or ""
    assert told == (
        "A: hive width 17 3/8 in. B: stud thickness 1 1/2 in, taken off twice, at both ends. "
        "What it comes to, the front rail length: ?"
    )


def test_more_taken_off_than_there_is_and_nothing_at_all_are_said() -> None:
    too_much = [DEMO[0], Term("stud thickness", Fraction(3, 2), Fraction(-20))]
    assert "More is taken off than there is." in words(parsed(chain_bar(too_much, "rail")))
    assert "Nothing is on the bar yet." in words(parsed(chain_bar([], "rail")))
