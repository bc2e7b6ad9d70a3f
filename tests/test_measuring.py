"""Three places and two diagonals: against a box laid out corner by corner in the plane."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hivecalc.length import length_from_text
from hivecalc.measuring import lean, reading_to_use, squareness

SIZE = st.integers(8 * 16, 48 * 16).map(lambda n: Fraction(n, 16))


def test_the_3_4_5_triangle_is_square():
    """Euclid, Elements I.47: a right angle where the squares of two sides make the third's."""
    found = squareness(Fraction(16), Fraction(12), Fraction(20), Fraction(20))
    assert (found.lean, found.square, found.misread) == (0, True, False)


def test_a_sixteenth_between_the_diagonals_of_a_ten_frame_box():
    """Small-angle form Δ·d/(2ab) for 19 7/8 × 16 1/4: 0.142 degrees, worked out apart."""
    a, b = Fraction(159, 8), Fraction(65, 4)
    diagonal = Fraction(round(math.hypot(a, b) * 1000), 1000)
    found = squareness(a, b, diagonal + Fraction(1, 32), diagonal - Fraction(1, 32))
    assert math.degrees(math.asin(found.lean / a)) == pytest.approx(0.142, abs=0.001)
    assert found.square
    assert "1/16 in" in found.sentence


@pytest.mark.parametrize(("more", "square"), [("1/8", True), ("129/1000", False)])
def test_an_eighth_between_the_diagonals_is_square_enough_and_a_hair_more_is_not(more, square):
    """Common practice, no published source; a 3-4-5 box, its diagonals off by half of it each."""
    half = Fraction(more) / 2
    found = squareness(Fraction(16), Fraction(12), 20 + half, 20 - half)
    assert (found.square, found.misread) == (square, False)
    assert ("more than 1/8 in" in found.sentence) is not square


@pytest.mark.parametrize(("off", "misread"), [("124/1000", False), ("126/1000", True)])
def test_diagonals_an_eighth_too_long_for_their_sides_are_misread(off, misread):
    both = 20 + Fraction(off)
    assert squareness(Fraction(16), Fraction(12), both, both).misread is misread


@given(SIZE, SIZE, st.floats(-3, 3))
def test_a_box_laid_out_in_the_plane_gives_its_lean_back(length, width, sideways):
    """Second way: corners as points, diagonals by Pythagoras, the lean read back."""
    back = math.sqrt(float(length) ** 2 - sideways**2)
    rising = math.hypot(float(width) + sideways, back)
    falling = math.hypot(float(width) - sideways, back)
    found = squareness(length, width, Fraction(rising), Fraction(falling))
    assert float(found.lean) == pytest.approx(sideways, abs=1e-6)
    assert not found.misread


@given(SIZE, SIZE, SIZE, SIZE)
def test_any_readings_get_one_answer_and_turn_with_their_diagonals(length, width, one, other):
    there, back = (squareness(length, width, *pair) for pair in ((one, other), (other, one)))
    assert there.lean == -back.lean
    assert abs(there.lean) <= length
    assert there.sentence == back.sentence


def test_out_of_square_says_which_way_to_push_and_what_no_box_has_is_misread():
    found = squareness(Fraction(20), Fraction(15), Fraction(101, 4), Fraction(99, 4))
    assert not found.square
    assert found.lean > 0
    assert "1/2 in" in found.sentence
    assert "longer diagonal" in found.sentence
    assert lean(Fraction(4), Fraction(1), Fraction(40), Fraction(1)) == 4  # the length at most
    none_has = squareness(Fraction(20), Fraction(15), Fraction(26), Fraction(26))
    assert (none_has.misread, none_has.square) == (True, False)
    assert "misread" in none_has.sentence
    with pytest.raises(ValueError, match="at least one"):
        reading_to_use([])


@pytest.mark.parametrize(("readings", "use", "straight", "words"), [
    (["23", "23", "23"], "23", True, "widest place"),
    (["23", "23 1/8", "23"], "23 1/8", True, "by 1/8 in"),
    (["23", "23.126", "23"], "23.126", False, "more than 1/8 in: measure again"),
    (["23", "23 3/16", "23"], "23 3/16", False, "true up the box"),
    (["23", "23 1/2", "23"], "23 1/2", False, "Use the largest"),
    (["23", "23 9/16", "23"], "23 9/16", False, "one of them is misread"),
])  # fmt: skip
def test_the_largest_of_three_readings_is_used(readings, use, straight, words):
    advice = reading_to_use([length_from_text(r) for r in readings])
    assert advice.use == length_from_text(use)
    assert advice.straight is straight
    assert words in advice.sentence
    assert advice.misread == ("misread" in words)
