"""The bar of a chain: to scale, each size where it lies, labels clear at any hive and any count."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hivecalc.components import values
from hivecalc.drawing.bar import Term, chain_bar, laid_off
from hivecalc.hive import hive_from_text
from hivecalc.judging.chain import MOST_COUNT, offered
from tests.hives import HIVES
from tests.pictures import NS, assert_clear, assert_true, box_of, described, parsed, words
from tests.test_chain import TRUE

F = Fraction
HALVES = st.integers(-2 * MOST_COUNT, 2 * MOST_COUNT).map(lambda n: F(n, 2))
DEMO = [Term("hive width", F(139, 8), F(1)), Term("stud thickness", F(3, 2), F(-2))]


@settings(max_examples=40)
@given(st.sampled_from(sorted(HIVES)), st.sampled_from(sorted(TRUE)), st.data())
def test_any_chain_on_any_hive_is_drawn_clear_and_to_scale(name, dimension, data):
    hive = hive_from_text(HIVES[name])
    sizes = values(hive)
    counts = [(n, data.draw(HALVES)) for n in offered(hive, dimension)]
    terms = [Term(n.replace("_", " "), sizes[n], c) for n, c in counts if c]
    svg = chain_bar(terms, dimension.rpartition(".")[2].replace("_", " "), units=hive.units)
    assert_clear(svg)
    assert bool(assert_true(svg)) == bool(terms)


@pytest.mark.parametrize("units", ["inch", "mm"])
def test_the_two_studs_stand_at_the_two_ends_of_the_rail(units):
    root = parsed(chain_bar(DEMO, "front rail length", units=units))
    whole, *studs = [box_of(e) for e in root.iter(f"{NS}polygon") if "data-exact" in e.attrib]
    assert len(studs) == 2
    ends = studs[0].left, studs[1].right
    assert ends == pytest.approx((whole.left, whole.right), abs=0.01)


# By hand: the terms (size, count, whether meant in all), what of it lies before the piece, where
# each size lies by its term, and what is left.
HIVE, RIM, OPENING = (F("23.125"), F(1)), (F(23), F(1)), (F(14), F(1))
GAP = F("0.25")
LAID = [
    ([HIVE, (F("1.5"), F(-1))], F(0), [(0, 0, "23.125"), (1, "21.625", "23.125")], (0, "21.625")),
    ([HIVE, (F("1.5"), F(-1))], F("1.5"), [(0, 0, "23.125"), (1, 0, "1.5")], ("1.5", "23.125")),
    ([RIM, (F("0.5"), F(2))], None, [(1, 0, "0.5"), (0, "0.5", "23.5"), (1, "23.5", 24)], (0, 24)),
    ([OPENING, (GAP, F(-1), True)], None,
     [(0, 0, 14), (1, 0, "0.125"), (1, "13.875", 14)], ("0.125", "13.875")),
    ([OPENING, (GAP, F(-2), True)], None,
     [(0, 0, 14), (1, 0, "0.25"), (1, "13.75", 14)], ("0.25", "13.75")),
    ([OPENING, (GAP, F(1), True)], None,
     [(1, 0, "0.125"), (0, "0.125", "14.125"), (1, "14.125", "14.25")], (0, "14.25")),
]  # fmt: skip


@pytest.mark.parametrize(("terms", "before", "laid", "rest"), LAID)
def test_each_size_lies_where_the_piece_has_it(terms, before, laid, rest):
    found = laid_off([Term("size", *term) for term in terms], before)
    places = sorted((one.term, one.low, one.high) for one in found.laid)
    assert places == sorted((term, F(low), F(high)) for term, low, high in laid)
    assert found.rest == tuple(map(F, rest))


def test_the_bar_keeps_its_result_to_itself_until_it_is_found():
    asking = chain_bar(DEMO, "front rail length")
    assert "14 3/8" not in asking
    assert str(F(115, 8)) not in asking
    assert "14 3/8 in" in chain_bar(DEMO, "front rail length", result="14 3/8 in")


def test_the_bar_is_told_in_words():
    assert described(parsed(chain_bar(DEMO, "front rail length"))) == (
        "A: hive width 17 3/8 in. B: stud thickness 1 1/2 in, taken off twice, at both ends. "
        "What it comes to, the front rail length: ?"
    )
    too_much = [DEMO[0], Term("stud thickness", F(3, 2), F(-20))]
    assert "More is taken off than there is." in words(parsed(chain_bar(too_much, "rail")))
    assert "Nothing is on the bar yet." in words(parsed(chain_bar([], "rail")))
