"""Sums step by step: each step's figures are read back and worked out again with plain fractions.

The sums in BY_HAND were done on a tape, in eighths and sixteenths.
"""

import ast
import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hivecalc.fractions_in_words import (
    PARTS,
    SumStep,
    formula_steps,
    in_words,
    sum_steps,
    taught_steps,
    without_result,
)
from hivecalc.length import MM, Units, length_from_text

BY_HAND: list[tuple[str, str, Units, list[str]]] = [
    ("a + b", "17 3/8, 5 3/4", "inch", [
        "Make the parts equal: 5 3/4 is 5 6/8.",
        "Add the eighths: 3/8 + 6/8 = 9/8.",
        "9/8 is more than an inch: carry it. 9/8 is 1 1/8.",
        "Add the inches: 17 + 5 + 1 = 23.",
        "Together: 23 1/8 in.",
    ]),
    ("a + b", "4 7/8, 2 3/8", "inch", [
        "Add the eighths: 7/8 + 3/8 = 10/8.",
        "10/8 is more than an inch: carry it. 10/8 is 1 2/8, which is 1 1/4.",
        "Add the inches: 4 + 2 + 1 = 7.",
        "Together: 7 1/4 in.",
    ]),
    ("a + b", "5/8, 3/8", "inch", [
        "Add the eighths: 5/8 + 3/8 = 8/8.",
        "8/8 is just an inch: carry it. 8/8 is 1.",
        "Together: 1 in.",
    ]),
    ("a + b", "17, 5 3/4", "inch", ["Add the inches: 17 + 5 = 22.", "Together: 22 3/4 in."]),
    ("a - b", "23 1/8, 5 1/2", "inch", [
        "Make the parts equal: 5 1/2 is 5 4/8.",
        "1/8 is too small to take 4/8 from: borrow an inch. 23 1/8 is 22 9/8.",
        "Take the eighths: 9/8 − 4/8 = 5/8.",
        "Take the inches: 22 − 5 = 17.",
        "Left: 17 5/8 in.",
    ]),
    ("a - b", "20, 3 5/16", "inch", [
        "20 has no fraction to take 5/16 from: borrow an inch. 20 is 19 16/16.",
        "Take the sixteenths: 16/16 − 5/16 = 11/16.",
        "Take the inches: 19 − 3 = 16.",
        "Left: 16 11/16 in.",
    ]),
    ("a - b", "5, 5 1/2", "inch", ["5 1/2 in can’t come off 5 in: 1/2 in is lacking."]),
    ("8 * a + b", "1 3/8, 3/4", "inch", [
        "First 8 × 1 3/8. Take the inches: 8 × 1 = 8.",
        "Take the eighths as often: 8 × 3/8 = 24/8, which is 3.",
        "Together: 11 in.",
        "Then 11 + 3/4. Together: 11 3/4 in.",
    ]),
    ("a - b / 2", "2 1/8, 3/8", "inch", [
        "First half of 3/8. Double what stands under the line: half of 3/8 is 3/16 in.",
        "Then 2 1/8 − 3/16. Make the parts equal: 2 1/8 is 2 2/16.",
        "2/16 is too small to take 3/16 from: borrow an inch. 2 2/16 is 1 18/16.",
        "Take the sixteenths: 18/16 − 3/16 = 15/16.",
        "Left: 1 15/16 in.",
    ]),
    ("a / 2", "13 1/4", "inch", [
        "The inches are odd: take one of them apart. 13 1/4 is 12 5/4.",
        "Half of 12 is 6.",
        "Double what stands under the line: half of 5/4 is 5/8.",
        "Together: 6 5/8 in.",
    ]),
    ("max(a, b)", "1/2, 3/8", "inch", ["The larger of 1/2 and 3/8 is 1/2 in."]),
    ("(a - b) / c", "3 1/2, 1 1/2, 24", "inch", [
        "First 3 1/2 − 1 1/2. Take the halves: 1/2 − 1/2 = 0.",
        "Take the inches: 3 − 1 = 2.",
        "Left: 2 in.",
        "Then 2 ÷ 24 ≈ 0.083.",
    ]),
    ("a - 2 * b - c / 2", "430, 45, 12", "mm", [
        "First 2 × 45 = 90 mm.", "Then 430 − 90 = 340 mm.", "Then half of 12 is 6 mm.",
        "Then 340 − 6 = 334 mm.",
    ]),
    ("a - b", "430, 442.5", "mm", ["442.5 mm can’t come off 430 mm: 12.5 mm is lacking."]),
    ("a + b", "5, 25 mm", "inch", ["5 + 63/64 ≈ 5 63/64 in."]),  # 25 mm is 0.984 in
]  # fmt: skip


def steps(formula: str, sizes: str, units: Units = "inch") -> list[SumStep]:
    lengths = (length_from_text(size, units) for size in sizes.split(", "))
    values = dict(zip("abc", lengths, strict=False))
    return formula_steps(ast.parse(formula, mode="eval").body, values, units)


@pytest.mark.parametrize(("formula", "sizes", "units", "sentences"), BY_HAND)
def test_sums_worked_by_hand(formula, sizes, units, sentences):
    assert in_words(steps(formula, sizes, units)) == sentences


@pytest.mark.parametrize(("bottom", "named"), [
    (2, "halves"), (4, "quarters"), (8, "eighths"), (16, "sixteenths"), (32, "thirty-seconds"),
    (64, "sixty-fourths"),
])  # fmt: skip
def test_the_parts_of_an_inch_have_their_names(bottom, named):
    first, *_ = in_words(steps("a + b", f"1 1/{bottom}, 2 1/{bottom}"))
    assert first.startswith(f"Add the {named}: 1/{bottom} + 1/{bottom} = 2/{bottom}")


def test_a_length_below_zero_is_refused():
    with pytest.raises(ValueError, match="can't be −1/2 in long"):
        sum_steps([(Fraction(1), Fraction(1)), (Fraction(1), Fraction(-1, 2))])


IN_COLUMNS = [
    (447, "+", 38, [
        "Add the ones: 7 + 8 = 15.", "15 is more than ten: carry it. 15 is 1 ten and 5 ones.",
        "Add the tens: 44 + 3 + 1 = 48.", "Together: 485 mm.",
    ]),
    (589, "+", 11, [
        "Add the ones: 9 + 1 = 10.", "10 is just ten: carry it. 10 is 1 ten and 0 ones.",
        "Add the tens: 58 + 1 + 1 = 60.", "Together: 600 mm.",
    ]),
    (441, "+", 38, ["Add the ones: 1 + 8 = 9.", "Add the tens: 44 + 3 = 47.", "Together: 479 mm."]),
    (441, "−", 76, [
        "1 is too small to take 6 from: borrow a ten. 441 is 43 tens and 11 ones.",
        "Take the ones: 11 − 6 = 5.", "Take the tens: 43 − 7 = 36.", "Left: 365 mm.",
    ]),
    (400, "−", 6, [
        "0 is too small to take 6 from: borrow a ten. 400 is 39 tens and 10 ones.",
        "Take the ones: 10 − 6 = 4.", "Left: 394 mm.",
    ]),
    (448, "−", 6, ["448 − 6 = 442 mm."]),
    (38, "−", 441, ["441 mm can’t come off 38 mm: 403 mm is lacking."]),
    (441.5, "+", 38, ["441.5 + 38 = 479.5 mm."]),
]  # fmt: skip


@pytest.mark.parametrize(("first", "sign", "second", "sentences"), IN_COLUMNS)
def test_tens_are_carried_and_borrowed_as_lesson_01_does(first, sign, second, sentences):
    """As pupils write it in columns; done by hand."""
    sizes = [Fraction(size) * MM for size in (first, second)]
    found = taught_steps(sizes[0], sign, sizes[1], "mm")
    assert in_words(found) == sentences
    if len(found) > 1:
        assert not any(found[-1].after.text in asked for asked in without_result(found))


# ── any sum ───────────────────────────────────────────────────────────────────────────────────

LENGTHS = st.integers(1, 1600).map(lambda n: Fraction(n, 32))
IN_MM = st.integers(1, 800).map(lambda n: n * MM)
COUNTS = st.sampled_from([Fraction(n, 2) for n in (1, 2, 3, 4, 6, 20)])
NUMBER = r"\d+ \d+/\d+|\d+/\d+|\d+"


def number(text: str) -> Fraction:
    return sum(map(Fraction, text.split()), Fraction(0))


def comes_to(step: SumStep) -> Fraction:
    """What a step must come to, by its kind and its figures alone."""
    first, *others = (figure.value for figure in step.before)
    if step.kind == "add":
        return first + sum(others)
    if step.kind == "take":
        return first - others[0]
    if step.kind == "multiply":
        return first * others[0]
    return first / 2 if step.kind == "halve" else first  # else it is only written another way


@given(st.lists(st.tuples(COUNTS, LENGTHS), min_size=1, max_size=4), LENGTHS)
def test_each_step_of_any_sum_is_so_and_the_last_one_is_the_whole(added, off):
    total = sum((c * s for c, s in added), Fraction(0)) - off
    found = sum_steps([*added, (Fraction(-1), off)])
    for step in found:
        for figure in (*step.before, step.after):
            assert number(figure.text) == figure.value
            assert figure.text in step.words or step.kind == "result"
        if step.kind not in {"result", "lacking"}:
            assert step.after.value == comes_to(step), step.words
        named = re.search(r"(?:Add|Take) the (\S+?)(?: as often)?: (.*?) =", step.words)
        if named and named[1] != "inches":
            bottoms = set(re.findall(r"/(\d+)", named[2]))
            assert {PARTS[int(b)] for b in bottoms} == {named[1]}
        for one, other in re.findall(rf"({NUMBER})(?:,? which)? is ({NUMBER})", step.words):
            halved = re.search(rf"[Hh]alf of {re.escape(one)} is", step.words)
            assert number(one) == number(other) * (2 if halved else 1), step.words
    assert found[-1].after.value == abs(total)
    assert (found[-1].kind == "lacking") == (total < 0)


@given(LENGTHS, LENGTHS)
def test_an_inch_is_carried_and_borrowed_just_where_it_must_be(one, other):
    added = sum_steps([(Fraction(1), one), (Fraction(1), other)])
    assert any(s.kind == "carry" for s in added) == (one % 1 + other % 1 >= 1)
    more, less = max(one, other), min(one, other)
    left = sum_steps([(Fraction(1), more), (Fraction(-1), less)])
    assert any(s.kind == "borrow" for s in left) == (more % 1 < less % 1)


@pytest.mark.parametrize(("sizes", "units"), [(LENGTHS, "inch"), (IN_MM, "mm")])
def test_without_its_result_a_sum_asks_and_does_not_tell(sizes, units):
    @given(st.lists(st.tuples(COUNTS, sizes), min_size=2, max_size=3))
    def holds(terms):
        found = sum_steps(terms, units)
        last = [s for s in found if s.operation == found[-1].operation]
        asked = without_result(found)[len(found) - len(last) :]
        assert any("?" in sentence for sentence in asked)
        result = re.escape(found[-1].after.text)
        assert not any(re.search(rf"(=|is|:|≈) {result}(?![\d/ ]*[−+×])", s) for s in asked), asked

    holds()
