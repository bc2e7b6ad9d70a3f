"""Dimensions as a graph: what is refused, how lines are shown, what a change reaches."""

import ast
import re
import sys
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hivecalc.components import DIMENSIONS, values
from hivecalc.derivation import (
    DerivationError,
    Graph,
    UnknownNameError,
    changes,
    collected,
    kind_of,
    line,
    number,
    title,
)
from hivecalc.hive import MEASUREMENTS, changed, demo_hive, hive_from_text
from hivecalc.length import MM
from hivecalc.part import TradeSize

DEMO = demo_hive()
GRID = st.builds(Fraction, st.integers(1, 2000), st.sampled_from([1, 2, 4, 8, 16, 32, 64]))


@pytest.fixture
def shelf_of(tmp_path, monkeypatch) -> Callable[..., Graph]:
    """The graph of a throw-away component, collected as a real one is: from its source."""

    def collect(text: str, **more: object) -> Graph:
        (tmp_path / "shelf.py").write_text(f"from hivecalc.length import Length, Lengths\n{text}")
        monkeypatch.syspath_prepend(str(tmp_path))
        monkeypatch.delitem(sys.modules, "shelf", raising=False)
        return collected(__import__("shelf"), **more)

    return collect


PLANKS = {"shelf.plank_length": ("shelf.plank_left_length", "shelf.plank_right_length")}
AS_CUT = TradeSize(Fraction(9), "Length of a plank.", "as cut")
CUT = {"leaves": dict.fromkeys(PLANKS["shelf.plank_length"], AS_CUT), "pieces": PLANKS}
NAIL = {"nail": TradeSize(Fraction(5, 4), "Length of the nail.", "common practice, no source")}
OVER_THE_DECK = """
def nail_bite(nail: Length, roof_deck_thickness: Length, plank_thickness: Length) -> Length:
    return nail - roof_deck_thickness - plank_thickness

def plank_thickness(board_thickness: Length) -> Length:
    return board_thickness / 2
"""
PLANK = "def plank_length(hive_length: Length) -> Length:\n    {}\n"
# A component, what it is collected with, and what is said of it.
REFUSED = [
    (PLANK.replace("length:", "lenght:").format("return hive_lenght"), {},
     r"shelf\.plank_length.*hive_lenght.*hive_length"),
    (("def tread(riser: Length) -> Length:\n    return riser + 1\n"
      "def riser(tread: Length) -> Length:\n    return tread - 1\n"), {},
     r"shelf\.(tread|riser) → shelf\.(tread|riser) → "),
    ("def plank_length(hive_length: Length):\n    return hive_length\n", {},
     "must return a Length or a Ratio"),
    # pieces that there are not; a leaf and a dimension of another graph that are not given
    ("def most(plonk_length: Lengths) -> Length:\n    return max(*plonk_length)\n", CUT,
     r"shelf\.most: 'plonk_length'.*shelf\.plank_length"),
    (OVER_THE_DECK, {"base": DIMENSIONS}, r"shelf\.nail_bite: 'nail' is neither a measurement"),
    (OVER_THE_DECK, {"leaves": NAIL}, r"'roof_deck_thickness' is neither a measurement"),
    # what is no plain arithmetic
    *((PLANK.format(body), {}, r"shelf\.plank_length|may not hold") for body in (
        "x = hive_length\n    return x", "return hive_length ** 2", "return abs(hive_length)",
        "return hive_length if hive_length > 2 else 1", "return hive_length // 2", "pass",
        "return hive_length if hive_length else abs(hive_length)")),
]  # fmt: skip


@pytest.mark.parametrize(("text", "more", "said"), REFUSED, ids=range(len(REFUSED)))
def test_a_component_that_makes_no_sense_is_refused(shelf_of, text, more, said):
    with pytest.raises(DerivationError, match=said):
        shelf_of(text, **more)


# ── checked when collected ────────────────────────────────────────────────────────────────────


def test_a_new_dimension_needs_no_line_more(shelf_of):
    graph = shelf_of(
        "def plank_length(hive_length: Length, overhang: Length) -> Length:\n"
        '    """Length of a plank.\n\n    It stands out at both ends.\n    """\n'
        "    return hive_length + 2 * overhang\n"
    )
    (step,) = graph.steps("shelf.plank_length", DEMO.measurements)
    assert (step.formula, step.numbers) == ("hive length + 2 × overhang", "23 1/8 + 2 × 2")
    assert (step.shown, step.why) == ("27 1/8", "It stands out at both ends.")


# ── over all pieces of a part ──────────────────────────────────────────────────────────────────

OVER_ALL = """
from hivecalc.derivation import difference

def longest(plank_length: Lengths) -> Length:
    return max(*plank_length)

def together(plank_length: Lengths, overhang: Length) -> Length:
    return sum(plank_length) - 2 * overhang

def uneven(shelf_plank_length: Lengths, overhang: Length) -> Length:
    return difference(*shelf_plank_length, overhang)
"""


def test_a_formula_over_all_pieces_of_a_part_is_one_over_each(shelf_of):
    """Planks of 9 and 10 in: the longer 10, together 19 less two overhangs of 2, uneven by 8."""
    graph = shelf_of(OVER_ALL, **CUT)
    cut = {"shelf.plank_right_length": Fraction(10)}
    found = graph.values(DEMO.measurements, cut)
    assert [found[f"shelf.{n}"] for n in ("longest", "together", "uneven")] == [10, 15, 8]
    reached = ("shelf.longest", "shelf.together", "shelf.uneven")
    assert graph.reached_by("shelf.plank_left_length") == reached
    step = graph.steps("shelf.uneven", DEMO.measurements, cut)[-1]
    assert step.numbers == "(the largest of 9, 10 and 2) − (the smallest of 9, 10 and 2)"
    as_python = sys.modules["shelf"].uneven([Fraction(9), Fraction(10)], Fraction(2))
    assert as_python == 8


# ── on top of another graph ───────────────────────────────────────────────────────────────────


@pytest.fixture
def shelf(shelf_of) -> Graph:
    return shelf_of(OVER_THE_DECK, base=DIMENSIONS, leaves=NAIL)


def test_a_graph_on_top_of_another_knows_and_holds_its_dimensions(shelf):
    assert list(shelf.dimensions)[: len(DIMENSIONS.dimensions)] == list(DIMENSIONS.dimensions)
    assert shelf.components == (*DIMENSIONS.components, "shelf")
    inputs = ("nail", "roof.deck_thickness", "shelf.plank_thickness")
    assert shelf.dimension("shelf.nail_bite").inputs == inputs
    own = shelf.values(DEMO.measurements, components=("shelf",))
    assert own["shelf.nail_bite"] == Fraction("1.25") - Fraction("0.5") - Fraction("0.375")
    assert "roof.deck_thickness" in shelf.reached_by("deck_thickness")
    assert "shelf.nail_bite" not in DIMENSIONS.dimensions


def test_a_leaf_is_a_length_that_may_be_given_with_the_measurements(shelf):
    assert kind_of("nail", shelf.dimensions) == "length"
    longer = {"nail": Fraction(2)}
    bite = {"shelf.nail_bite": Fraction("1.125")}
    asked = ("shelf",)
    assert bite.items() <= shelf.values({**DEMO.measurements, **longer}, None, asked).items()
    assert bite.items() <= shelf.values(DEMO.measurements, longer, asked).items()
    assert "nail" in shelf.rests_on("shelf.nail_bite", longer)
    assert shelf.reached_by("nail") == ("shelf.nail_bite",)


def test_a_leaf_is_a_worked_step_in_the_units_asked_for(shelf):
    nail, *_ = shelf.steps("shelf.nail_bite", DEMO.measurements)
    assert (nail.dimension, nail.formula, nail.numbers) == ("nail", "1 1/4", "1 1/4")
    assert nail.why == "common practice, no source"
    nail, *_ = shelf.steps("shelf.nail_bite", DEMO.measurements, units="mm")
    assert (nail.formula, nail.numbers, nail.shown) == ("31.75", "31.75", "31.75")


def test_a_name_that_is_taken_is_refused(shelf_of):
    lap = "def lap(skirt_width: Length) -> Length:\n    return 0\n"
    with pytest.raises(DerivationError, match=r"shelf\.lap: there is a dimension of this name"):
        shelf_of(lap, base=shelf_of(lap))


# ── shown lines ───────────────────────────────────────────────────────────────────────────────

NUMBER = re.compile(r"\d+ \d+/\d+|\d+/\d+|\d+\.\d+|\d+")
IN_PYTHON = {
    "(the larger of ": "max(", "(the smaller of ": "min(", " and ": ", ", "×": "*", "÷": "/",
    "−": "-",
}  # fmt: skip


def computed(shown: str) -> Fraction:
    """A second way to compute a shown line: from its text, as Python reads it in its own signs."""
    text = f"({shown})"
    for sign, python in IN_PYTHON.items():
        text = text.replace(sign, python)
    exact = NUMBER.sub(lambda number: f"sum(map(F, {number[0].split()}), F())", text)
    return eval(exact, {"F": Fraction})  # noqa: S307 - our own text


EXPRESSIONS = st.recursive(
    st.sampled_from(["a", "b", "c", "2"]),
    lambda inner: st.one_of(
        st.tuples(inner, st.sampled_from("+-*/"), inner).map(lambda t: f"({t[0]} {t[1]} {t[2]})"),
        st.tuples(st.sampled_from(["max", "min"]), inner, inner).map(
            lambda t: f"{t[0]}({t[1]}, {t[2]})"
        ),
    ),
    max_leaves=8,
)


@given(EXPRESSIONS, GRID, GRID, GRID)
def test_any_shown_line_computes_to_its_value(expression, a, b, c):
    body = ast.parse(expression, mode="eval").body
    words = {n: number(v, "length") for n, v in {"a": a, "b": b, "c": c}.items()}
    shown = line(body, words)
    try:
        exact = expression.replace("2", "two")  # in Python 2 / 2 of whole numbers is a float
        names = {"a": a, "b": b, "c": c, "two": Fraction(2)}
        expected = eval(exact, names)  # noqa: S307 - our own text
    except ZeroDivisionError:
        return
    assert computed(shown) == expected


@given(st.sampled_from(DIMENSIONS.names()), GRID, st.sampled_from(["inch", "mm"]))
def test_each_step_of_the_course_computes_to_its_value(name, stud, units):
    hive = hive_from_text("[measured]\nhive_length = '23 1/8'\nhive_width = '17 3/8'\n")
    measurements = {**hive.measurements, "stud_thickness": stud % 3 + Fraction(1, 2)}
    unit = MM if units == "mm" else Fraction(1)
    for step in DIMENSIONS.steps(name, measurements, units=units):
        if "≈" in step.numbers + step.shown or DIMENSIONS.dimension(step.dimension).kind == "ratio":
            continue  # a rounded line says so, and is held to no exact value
        assert computed(step.numbers) * unit == computed(step.shown) * unit == step.value


def test_a_rounded_number_carries_its_sign_and_one_below_zero_stands_in_brackets():
    words = {"a": number(Fraction(3), "length"), "b": number(Fraction(-1, 4), "length")}
    assert line(ast.parse("a - b", mode="eval").body, words) == "3 − (−1/4)"
    third = number(Fraction(1, 3), "length")
    assert third.startswith("≈ ")
    assert number(25 * MM, "length").startswith("≈ ")
    assert number(25 * MM, "length", "mm") == "25"
    assert kind_of("inner_cover", {}) == "answer"
    assert [number(Fraction(n), "answer") for n in (0, 1)] == ["no", "yes"]


# ── a formula with two branches ───────────────────────────────────────────────────────────────

TWO_WAYS = """
def shelf_height(boxes: Length, overhang: Length, bracket_height: Length) -> Length:
    return overhang + bracket_height if boxes else overhang

def bracket_height(cover_lip: Length) -> Length:
    return 2 * cover_lip
"""


TAKEN = [
    (0, [("overhang", "2")], ("boxes", "overhang")),
    (1, [("2 × cover lip", "2 × 1/2"), ("overhang + bracket height", "2 + 1")],
     ("boxes", "overhang", "cover_lip")),
]  # fmt: skip


@pytest.mark.parametrize(("boxes", "steps", "sources"), TAKEN)
def test_steps_and_sources_follow_the_branch_that_is_taken(shelf_of, boxes, steps, sources):
    graph = shelf_of(TWO_WAYS)
    measured = {**DEMO.measurements, "boxes": Fraction(boxes)}
    found = graph.steps("shelf.shelf_height", measured)
    assert [(s.formula, s.numbers) for s in found] == steps
    known = graph.values(measured)
    assert found[-1].value == known["shelf.shelf_height"] == (3 if boxes else 2)
    assert graph.rests_on("shelf.shelf_height", measured, known) == sources
    every = {"boxes", "overhang", "cover_lip"}
    assert set(graph.rests_on("shelf.shelf_height", measured)) == every
    assert [n for n in every if "shelf.shelf_height" not in graph.reached_by(n)] == []


# ── values ────────────────────────────────────────────────────────────────────────────────────


def test_steps_run_from_the_tape_to_the_asked_dimension_each_once():
    steps = DIMENSIONS.steps("bottom_board.screen_end_strip_length", DEMO.measurements)
    named = ["opening width", "screen width", "screen end strip length"]
    assert [title(s.dimension) for s in steps] == named
    way_in = [s.dimension for s in DIMENSIONS.steps("bottom_board.way_in", DEMO.measurements)]
    assert len(way_in) == len(set(way_in))
    place = {n: i for i, n in enumerate(way_in)}
    for n in way_in:
        assert all(place[i] < place[n] for i in DIMENSIONS.dimension(n).inputs if i in place)


def test_a_given_value_replaces_the_derivation_and_is_carried_on():
    wrong = {"bottom_board.opening_width": Fraction(15)}
    found = values(DEMO, wrong)
    assert found["bottom_board.screen_width"] == Fraction(119, 8)
    steps = DIMENSIONS.steps("bottom_board.screen_width", DEMO.measurements, wrong)
    assert [s.numbers for s in steps] == ["15 − 1/8"]


NEAREST = {
    "bottom_board.panel_widht": r"bottom_board\.panel_width",
    "panel_width": r"bottom_board\.panel_width",
    "stud_thicknes": "stud_thickness",
    "long_brads": "long_brad",
    "hornets": "no dimension called 'hornets'",
}


@pytest.mark.parametrize(("name", "nearest"), NEAREST.items())
def test_a_given_name_that_nothing_has_is_refused_with_the_nearest(name, nearest):
    given = {"stud_width": Fraction(3), "roof.lap": Fraction(1), name: Fraction(1)}
    for asked in (
        lambda: values(DEMO, given),
        lambda: DIMENSIONS.values(DEMO.measurements, given, ("roof",)),
        lambda: DIMENSIONS.steps("roof.lap", DEMO.measurements, given),
    ):
        with pytest.raises(UnknownNameError, match=nearest):
            asked()


def test_a_given_name_of_what_is_not_built_is_no_fault():
    given = {"box.inside_length": Fraction(18), "frames": Fraction(8)}
    assert given.items() <= values(DEMO, given).items()


@pytest.mark.parametrize(
    ("name", "nearest"),
    {
        "side_rail_length": r"bottom_board\.side_rail_length",
        "bottom_board.side_rail_lenth": r"bottom_board\.side_rail_length",
        "side_lenth": r"box\.side_length or hive_length or box\.inside_length",
    }.items(),
)
def test_an_unknown_dimension_is_told_with_the_nearest(name, nearest):
    with pytest.raises(UnknownNameError, match=f"did you mean {nearest}"):
        DIMENSIONS.dimension(name)


MEASURED = sorted(n for n in DEMO.measurements if MEASUREMENTS[n].kind == "length")


@given(st.sampled_from(MEASURED), st.integers(1, 32))
def test_a_changed_measurement_changes_only_what_it_reaches(name, sixty_fourths):
    measured = {**DEMO.measurements}
    before = DIMENSIONS.values(measured, components=("bottom_board", "roof", "inner_cover"))
    measured[name] += Fraction(sixty_fourths, 64)
    after = DIMENSIONS.values(measured, components=("bottom_board", "roof", "inner_cover"))
    changed_names = {c.name for c in changes(before, after)} - {name}
    assert changed_names <= set(DIMENSIONS.reached_by(name, DEMO.measurements))


def test_reached_by_and_rests_on_are_two_views_of_one_graph():
    rests = {d: set(DIMENSIONS.rests_on(d)) for d in DIMENSIONS.names()}
    for name in [n for n in MEASURED if n not in DIMENSIONS.dimensions]:
        assert set(DIMENSIONS.reached_by(name)) == {d for d, on in rests.items() if name in on}
    rail = "bottom_board.side_rail_length"  # what was measured is not derived again
    assert "hive_length" in DIMENSIONS.rests_on(rail, DEMO.measurements)
    assert "top_bar" in rests[rail]


def test_changes_say_old_and_new():
    thick = changed(DEMO, {"stud_thickness": "1 9/16"})
    found = {c.name: (c.old, c.new) for c in changes(values(DEMO), values(thick))}
    assert found["bottom_board.side_rail_length"] == (Fraction(173, 8), Fraction(345, 16))
    assert "roof.deck_length" not in found


def test_the_order_of_the_functions_does_not_matter(tmp_path, monkeypatch):
    source = Path(sys.modules["hivecalc.components.bottom_board"].__file__ or "").read_text()
    head, *functions = re.split(r"\n\n\n(?=@rounds|def )", source.partition("PARTS = (")[0])
    (tmp_path / "bottom_board.py").write_text("\n\n\n".join([head, *reversed(functions)]))
    monkeypatch.syspath_prepend(str(tmp_path))
    monkeypatch.delitem(sys.modules, "bottom_board", raising=False)
    graph = collected(__import__("bottom_board"))
    turned = graph.values(DEMO.measurements)
    straight = values(DEMO)
    assert all(turned[n] == straight[n] for n in graph.names())
