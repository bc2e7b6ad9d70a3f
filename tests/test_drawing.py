"""The bottom board's drawings and the tape by hand, and where labels go."""

from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from hivecalc import drawing
from hivecalc.drawing.layout import Box, spread, text_width, wrapped
from hivecalc.drawing.subject import within
from hivecalc.length import MM, Units
from tests.pictures import (
    NS,
    PX,
    assert_clear,
    box_of,
    corners,
    described,
    extent,
    missing,
    parsed,
    parts,
    real_width,
    trio,
    true_values,
    views,
    words,
)

Picture = Callable[..., drawing.Picture]
UNITS: tuple[Units, Units] = ("inch", "mm")
plan, changed_plan, _ = trio(drawing.plan)
section, stack = trio(drawing.section)[0], trio(drawing.stack)[0]
TAPES = (drawing.tape, drawing.tape_to_read, drawing.burnt_inch_tape, drawing.hooked_tape)


# ── pictures of a hive ─────────────────────────────────────────────────────────────────────────


def test_figures_of_the_demo_hive_by_plain_arithmetic():
    # 23 1/8 by 17 3/8 in of 1 1/2 in studs, worked by hand: 23 1/8 - 1 1/2 = 21 5/8;
    # 17 3/8 - 3 = 14 3/8; 23 1/8 - 3 = 20 1/8; 20 1/8 - 1/4 = 19 7/8; 20 1/8 - 1/8 = 20.
    above, beside = (parsed(p(true_values())) for p in (plan, section))
    rails = ("side rail 21 5/8 in", "front rail 14 3/8 in", "back rail 17 3/8 in")
    assert not missing(rails, words(above))
    lengths = ("opening 20 1/8 in", "panel 19 7/8 in", "screen 20 in", "entrance 3/4 in")
    assert not missing(lengths, words(beside))


# By hand for 23 1/8 by 17 3/8 in, studs of 1 1/2 by 3 1/2: across and down on the sheet.
BY_HAND = {
    plan: {
        "side rail, left": (21.625, 1.5), "side rail, right": (21.625, 1.5),
        "front rail": (1.5, 14.375), "back rail": (1.5, 17.375),
    },
    section: {
        "front rail": (1.5, 2.75), "back rail": (1.5, 3.5), "lower front runner": (0.5, 0.75),
        "upper front runner": (0.75, 0.5), "panel": (19.875, 1), "mesh": (19.75, 0.034),
        "screen front stop": (0.75, 0.2785),
    },
}  # fmt: skip


@pytest.mark.parametrize("picture", BY_HAND)
def test_pieces_are_drawn_with_the_sizes_worked_by_hand(picture):
    whole = next(views(parsed(picture(true_values()))))
    scale = float(whole.attrib["data-scale"])
    for part, sizes in BY_HAND[picture].items():
        assert extent(parts(whole)[part]) == pytest.approx(
            [size * scale for size in sizes], abs=PX
        ), part


def test_rails_from_above_stand_where_they_are_built():
    rails = {name: box_of(e) for name, e in parts(parsed(plan(true_values()))).items()}
    left, right = rails["side rail, left"], rails["side rail, right"]
    assert rails["front rail"].left == left.left == right.left
    assert left.right == right.right == rails["back rail"].left
    assert (left.bottom, right.top) == (rails["front rail"].top, rails["front rail"].bottom)


def test_a_change_shows_the_sizes_from_before_and_no_fault():
    # By hand: 23 1/8 - 1 9/16 = 21 9/16, and it was 21 5/8.
    svg = changed_plan(true_values(), true_values(stud_thickness="1 9/16"))
    assert "side rail 21 9/16 in, was 21 5/8 in" in described(parsed(svg))
    assert "data-fault" not in svg.traced


def test_a_stack_that_stands_proud_says_so():
    # By hand: 3/4 + 1 5/8 + 1/2 + 1/2 + 0.034 + 1/2 = 3.909, which is 0.409 above 3 1/2: 13/32.
    thick = {"foam_thickness": "1 1/2", "front_stop_height": "1/4"}
    root = parsed(stack(true_values(**thick)))
    told = ("The screen stands ≈ 13/32 in above the rails", "stands proud ≈ 13/32 in")
    assert not missing(told, words(root))
    assert any("wrong" in e.get("fill", "") for e in root.iter())


def test_every_layer_of_the_stack_has_its_thickness_and_lies_on_the_one_below():
    root = parsed(stack(true_values()))
    layers = {name: box_of(e) for name, e in parts(root).items()}
    order = ["lower side runner, left", "panel", "upper side runner, left",
             "screen side strip, lower left", "mesh", "screen side strip, upper left"]  # fmt: skip
    scale = float(root.attrib["data-scale"])
    gaps = [(layers[a].top - layers[b].bottom) / scale for a, b in pairwise(order)]
    assert gaps == pytest.approx([0, 0.125, 0, 0, 0], abs=PX / scale)  # the slot's ease is 1/8
    assert layers["screen front stop"].bottom == layers["mesh"].top


# ── the tape ───────────────────────────────────────────────────────────────────────────────────

READINGS = st.one_of(
    st.integers(0, 1200 * 16).map(lambda n: Fraction(n, 16)),
    st.integers(0, 1200 * 64).map(lambda n: Fraction(n, 64)),
    st.integers(0, 30000).map(lambda n: n * MM),
)


@given(READINGS.filter(lambda n: n < 1190), st.sampled_from(UNITS), st.sampled_from(TAPES))
@example(Fraction(0), "inch", drawing.hooked_tape)
@example(Fraction(47, 16), "inch", drawing.burnt_inch_tape)
@example(Fraction(1723, 2) * MM, "mm", drawing.hooked_tape)
@settings(max_examples=80)
def test_any_reading_is_drawn_clear_with_its_arrow_among_the_numbered_marks(
    reading, units, picture
):
    root = assert_clear(picture(reading, units))
    if picture is drawing.tape_to_read:
        return
    (arrow,) = (e for e in root.iter() if e.get("data-name") == "reading")
    per_inch, unit = float(root.attrib["data-scale"]), 1 if units == "inch" else MM
    start = {drawing.burnt_inch_tape: 1 if units == "inch" else 100 * MM}.get(picture, 0)
    marks = [
        (e, Fraction(e.attrib["data-mark"]) * unit) for e in root.iter() if "data-mark" in e.attrib
    ]
    x = float(arrow.attrib["x1"])
    mark, inches = min(marks, key=lambda m: abs(float(m[0].attrib["x1"]) - x))
    read = float(inches) + (x - float(mark.attrib["x1"])) / per_inch
    assert abs(read - float(reading + start)) * per_inch < PX
    assert Fraction(arrow.attrib["data-exact"]) == reading + start


def test_marks_are_sixteenths_and_longer_for_greater_parts():
    root = parsed(drawing.tape(Fraction(185, 8)))
    lines = [corners(e) for e in root.iter(f"{NS}line") if "data-name" not in e.attrib]
    heights = {round(a[0], 2): a[1] - b[1] for a, b in lines}
    numbered = [float(e.attrib["x1"]) for e in root.iter() if e.get("data-mark") == "22"]
    inch = [heights[round(numbered[0] + 80 * k / 16, 2)] for k in range(17)]
    order = [16, 1, 8, 1, 4, 1, 8, 1, 2, 1, 8, 1, 4, 1, 8, 1, 16]  # a rule's marks, by hand
    rank = {16: 5, 2: 4, 4: 3, 8: 2, 1: 1}
    assert sorted(set(inch)) == sorted({inch[i] for i in (0, 8, 4, 2, 1)})
    assert [sorted(set(inch)).index(h) + 1 for h in inch] == [rank[o] for o in order]


def test_a_tape_to_read_keeps_its_answer_to_itself():
    svg = drawing.tape_to_read(Fraction(185, 8))
    assert len(missing(("23 1/8", "185/8"), svg.traced)) == 2
    assert "?" in words(parsed(svg))
    assert "2 marks" not in words(parsed(svg))


def test_reading_from_the_burnt_inch_is_an_inch_more_than_the_board():
    assert "The tape reads 24 1/8 in" in words(parsed(drawing.burnt_inch_tape(Fraction(185, 8))))
    # 23 1/8 in are 587.375 mm (25.4 mm an inch), and 100 mm more are 687.375 mm, told to a tenth.
    metric = words(parsed(drawing.burnt_inch_tape(Fraction(185, 8), "mm")))
    assert "The tape reads ≈ 687.4 mm" in metric


@pytest.mark.parametrize("picture", TAPES)
@pytest.mark.parametrize("reading", [Fraction(-1, 16) - 4, Fraction(1201)])
def test_a_reading_off_the_tape_is_refused(picture, reading):
    for units, said in (("inch", "1200 in can't read"), ("mm", r"30480 mm can't read .* mm\.")):
        with pytest.raises(ValueError, match=f"a tape of {said}"):
            picture(reading, units)


# ── where labels go ────────────────────────────────────────────────────────────────────────────

SHOWN = st.text(
    "0123456789/.≈−×,: ?()%abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ'′″“”½¼¾",
    max_size=40,
)


@given(SHOWN, st.booleans())
def test_the_width_of_a_text_is_on_the_safe_side(text, bold):
    assert text_width(text, bold=bold) >= real_width(text, bold=bold) * 14 - 1e-6


@given(st.lists(st.tuples(st.floats(0, 300), st.floats(1, 60)), max_size=12), st.floats(0, 100))
def test_spread_labels_keep_order_and_room(items, low):
    assert spread([10, 40, 90], [20, 20, 20], 0, 100) == [10, 40, 90]  # clear ones stay
    items.sort()
    centres, sizes = [c for c, _ in items], [s for _, s in items]
    high = low + sum(sizes) + 50
    found = spread(centres, sizes, low, high)
    edges = [(c - s / 2, c + s / 2) for c, s in zip(found, sizes, strict=True)]
    assert all(a[1] <= b[0] + 1e-6 for a, b in pairwise(edges))
    assert all(low - 1e-6 <= a and b <= high + 1e-6 for a, b in edges)


@given(st.lists(st.sampled_from(["side", "rail", "21 5/8 in", "≈ 3 mm", "a"]), min_size=1))
def test_wrapped_lines_hold_the_same_words_and_never_part_a_length(parts):
    text = " ".join(parts)
    lines = wrapped(text, 90)
    assert " ".join(lines) == text
    assert all(text_width(line) <= 90 or " " not in line or line in parts for line in lines)
    assert not any(line.startswith(("in", "mm", "5/8")) or line.endswith("≈") for line in lines)


def test_a_window_keeps_what_lies_in_it():
    # A triangle of base and height 4, seen through its lower half, by hand.
    triangle = [(0.0, 0.0), (4.0, 0.0), (2.0, 4.0)]
    assert set(within(triangle, Box(-9, -9, 9, 2))) == {(0, 0), (4, 0), (3, 2), (1, 2)}
    assert within(triangle, Box(10, 0, 20, 4)) == []
    assert within(triangle, Box(-9, -9, 9, 9)) == triangle
