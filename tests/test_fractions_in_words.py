"""Sums in words: every number in them is read back and reckoned again with plain fractions."""

import re
from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hivecalc.fractions_in_words import (
    difference_in_words,
    half_in_words,
    product_in_words,
    reckoned_in_words,
    sum_in_words,
    unfinished_in_words,
)
from hivecalc.length import MM

LENGTHS = st.one_of(
    st.integers(0, 1600).map(lambda n: Fraction(n, 16)),
    st.integers(0, 6400).map(lambda n: Fraction(n, 64)),
    st.integers(0, 2540).map(lambda n: n * MM),
    st.integers(0, 100_000).map(lambda n: Fraction(n, 1000)),
)
NUMBER = r"\d+ \d+/\d+|\d+/\d+|\d+"
WORDS = {
    "half": 2, "quarters": 4, "eighths": 8, "sixteenths": 16, "thirty-seconds": 32,
    "sixty-fourths": 64,
}  # fmt: skip


def number(text: str) -> Fraction:
    return sum(map(Fraction, text.split()), Fraction(0))


def assert_true(sentence: str) -> None:
    """Whatever a sentence says is added, taken or the same is so."""
    for sum_, result in re.findall(
        rf"((?:{NUMBER})(?: [+−] (?:{NUMBER}))+) = ({NUMBER})", sentence
    ):
        first, *others = re.findall(rf"(?:^|([+−]) )({NUMBER})", sum_)
        total = number(first[1])
        for sign, other in others:
            total += number(other) if sign == "+" else -number(other)
        assert total == number(result), sentence
        after = re.search(rf"= {re.escape(result)}, which is ({NUMBER})", sentence)
        assert after is None or number(after[1]) == total, sentence
    for one, other in re.findall(rf"({NUMBER}) is ({NUMBER})", sentence):
        assert number(one) == number(other), sentence
    for one, other in re.findall(rf"is ({NUMBER}), which is ({NUMBER})", sentence):
        assert number(one) == number(other), sentence


def last_number(sentences: list[str]) -> Fraction:
    return number(re.findall(NUMBER, sentences[-1])[-1])


# Worked by hand on a tape, in eighths and sixteenths.
BY_HAND = [
    (sum_in_words, "17 3/8", "5 3/4", [
        "Make the parts equal: 5 3/4 is 5 6/8.",
        "Add the eighths: 3/8 + 6/8 = 9/8.",
        "9/8 is more than an inch: carry it. 9/8 is 1 1/8.",
        "Add the inches: 17 + 5 + 1 = 23.",
        "Together: 23 1/8 in.",
    ]),
    (sum_in_words, "4 7/8", "2 3/8", [
        "Add the eighths: 7/8 + 3/8 = 10/8.",
        "10/8 is more than an inch: carry it. 10/8 is 1 2/8, which is 1 1/4.",
        "Add the inches: 4 + 2 + 1 = 7.",
        "Together: 7 1/4 in.",
    ]),
    (sum_in_words, "5/8", "3/8", [
        "Add the eighths: 5/8 + 3/8 = 8/8.",
        "8/8 is just an inch: carry it.",
        "Together: 1 in.",
    ]),
    (sum_in_words, "17", "5 3/4", ["Add the inches: 17 + 5 = 22.", "Together: 22 3/4 in."]),
    (difference_in_words, "23 1/8", "5 1/2", [
        "Make the parts equal: 5 1/2 is 5 4/8.",
        "1/8 is too small to take 4/8 from: borrow an inch. 23 1/8 is 22 9/8.",
        "Take the eighths: 9/8 − 4/8 = 5/8.",
        "Take the inches: 22 − 5 = 17.",
        "Left: 17 5/8 in.",
    ]),
    (difference_in_words, "20", "3 5/16", [
        "20 has no fraction to take 5/16 from: borrow an inch. 20 is 19 16/16.",
        "Take the sixteenths: 16/16 − 5/16 = 11/16.",
        "Take the inches: 19 − 3 = 16.",
        "Left: 16 11/16 in.",
    ]),
    (difference_in_words, "1 1/2", "1 1/2", [
        "Take the halves: 1/2 − 1/2 = 0.", "Take the inches: 1 − 1 = 0.", "Left: 0 in.",
    ]),
    (difference_in_words, "5", "5 1/2", ["5 1/2 in can’t come off 5 in: 1/2 in is lacking."]),
]  # fmt: skip


@pytest.mark.parametrize(("told", "first", "second", "sentences"), BY_HAND)
def test_sums_worked_by_hand(
    told: Callable[[Fraction, Fraction], list[str]], first: str, second: str, sentences: list[str]
) -> None:
    assert told(number(first), number(second)) == sentences


@given(LENGTHS, LENGTHS)
def test_what_a_sum_says_is_so_at_each_step_and_at_the_end(
    first: Fraction, second: Fraction
) -> None:
    sentences = sum_in_words(first, second)
    for sentence in sentences:
        assert_true(sentence)
    assert last_number(sentences) == first + second
    assert any("carry" in s for s in sentences) == (first % 1 + second % 1 >= 1)


@given(LENGTHS, LENGTHS)
def test_what_a_difference_says_is_so_at_each_step_and_at_the_end(
    one: Fraction, other: Fraction
) -> None:
    whole, off = max(one, other), min(one, other)
    sentences = difference_in_words(whole, off)
    for sentence in sentences:
        assert_true(sentence)
    assert last_number(sentences) == whole - off
    assert any("borrow" in s for s in sentences) == (whole % 1 < off % 1)


@given(LENGTHS, LENGTHS)
def test_parts_are_named_as_they_are_written(first: Fraction, second: Fraction) -> None:
    for sentence in sum_in_words(first, second):
        named = re.match(r"Add the ([a-z-]+ths|halves|quarters|thirty-seconds):", sentence)
        if named:
            bottoms = set(re.findall(r"/(\d+) [+=]", sentence))
            assert bottoms == {str({**WORDS, "halves": 2}[named[1]])}


@given(LENGTHS, LENGTHS.filter(bool))
def test_too_much_off_says_what_is_lacking(whole: Fraction, more: Fraction) -> None:
    (sentence,) = difference_in_words(whole, whole + more)
    assert [number(n) for n in re.findall(NUMBER, sentence)] == [whole + more, whole, more]


def test_a_bottom_that_no_tape_has_stays_exact() -> None:
    # One mm is 5/127 in, as an inch is 25.4 mm by law; 1/2 is 127/254 and 5/127 is 10/254.
    assert sum_in_words(MM, Fraction(1, 2)) == [
        "Make the parts equal: 5/127 is 10/254, 1/2 is 127/254.",
        "Add the parts of 1/254: 10/254 + 127/254 = 137/254.",
        "Together: 137/254 in.",
    ]


@pytest.mark.parametrize("told", [sum_in_words, difference_in_words])
def test_a_length_below_zero_is_refused(told: Callable[..., list[str]]) -> None:
    with pytest.raises(ValueError, match="can't be −1/2 in long"):
        told(Fraction(1), Fraction(-1, 2))


# ── products, halves, whole sums ──────────────────────────────────────────────────────────────

SIXTEENTHS = st.integers(1, 800).map(lambda n: Fraction(n, 16))
COUNTS = st.sampled_from([Fraction(n, 2) for n in (1, 2, 3, 4, 6, 20)])


def last_result(sentences: list[str]) -> Fraction:
    """What the last sentence says that it comes to."""
    found = re.findall(rf"({NUMBER}) in\.$", sentences[-1])
    assert found, sentences
    return number(found[-1])


@given(st.integers(2, 20), SIXTEENTHS)
def test_a_product_comes_to_what_it_should(times: int, size: Fraction) -> None:
    sentences = product_in_words(times, size)
    assert last_result(sentences) == times * size
    for sentence in sentences[:-1]:
        many, of, result = re.search(rf"(\d+) × ({NUMBER}) = (\d+(?:/\d+)?)", sentence).groups()
        assert int(many) * number(of) == Fraction(result)


@given(SIXTEENTHS)
def test_a_half_comes_to_what_it_should(size: Fraction) -> None:
    assert last_result(half_in_words(size)) == size / 2


@given(st.lists(st.tuples(COUNTS, SIXTEENTHS), min_size=1, max_size=4), SIXTEENTHS)
def test_a_whole_sum_comes_to_what_it_should_and_its_open_end_hides_it(
    added: list[tuple[Fraction, Fraction]], off: Fraction
) -> None:
    total = sum((c * s for c, s in added), Fraction(0)) - off
    terms = [*added, (Fraction(-1), off)]
    if total < 0:
        assert "can’t come off" in reckoned_in_words(terms)[-1]
        return
    told = reckoned_in_words(terms)
    assert last_result(told) == total
    hidden = unfinished_in_words(terms)
    assert len(hidden) < len(told)
    assert not hidden[-1].endswith("in.")
    assert any(s.endswith(("= ?", "= ? in.")) for s in hidden)
