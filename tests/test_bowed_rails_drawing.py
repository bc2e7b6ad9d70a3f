"""Side rails that bow inwards until the panel sticks: by hand, and read back from the picture."""

import re
from fractions import Fraction

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from hivecalc.components import values
from hivecalc.drawing import Subject
from hivecalc.drawing.frame import bowed_rails as drawn_bowed
from hivecalc.drawing.frame import gap_left
from hivecalc.hive import Hive, demo_hive
from hivecalc.length import MM, LengthError, Units
from tests.pictures import (
    NS,
    PX,
    assert_clear,
    contrast,
    extent,
    hive_of,
    hives,
    parsed,
    scaled,
    true_values,
    views,
    words,
)

BOWS = st.one_of(
    st.integers(0, 64).map(lambda n: Fraction(n, 64)),
    st.integers(0, 254).map(lambda n: n * MM / 10),
)
UNITS: tuple[Units, Units] = ("inch", "mm")


def bowed_rails(now: dict[str, Fraction], bow: Fraction, **more: object) -> str:
    return drawn_bowed(Subject(now, **more), bow)  # type: ignore[arg-type]


def marked(svg: str, name: str) -> list[tuple[Fraction, float, float]]:
    """What is drawn under this name: how big it says it is, its height on the sheet, the scale."""
    return [
        (Fraction(e.attrib["data-exact"]), extent(e)[1], scale)
        for e, scale in scaled(parsed(svg))
        if name in {e.get("data-name"), e.get("data-fault")}
    ]


def assert_marked(svg: str, name: str, size: Fraction) -> None:
    """Everything of this name has this size, and is drawn to scale: at both sides of the plan."""
    found = marked(svg, name)
    assert len(found) >= 2
    for exact, high, scale in found:
        assert exact == size
        assert high == pytest.approx(float(size) * scale, abs=PX)


# ── the gap that is left ───────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    ("bow", "left"), [("0", "1/4"), ("1/16", "1/8"), ("1/8", "0"), ("5/32", "-1/16")]
)
def test_the_gap_left_by_hand(bow: str, left: str) -> None:
    # By hand: 17 3/8 - 2 x 1 1/2 = 14 3/8 opening; panel 14 3/8 - 1/4 = 14 1/8; each rail takes the
    # bow off the gap of 1/4, so both take it twice: 1/4 - 2/16 = 1/8; 1/4 - 2/8 = 0.
    assert gap_left(values(demo_hive()), Fraction(bow)) == Fraction(left)


@given(hives(), BOWS)
@settings(max_examples=40)
def test_a_panel_that_was_cut_to_its_gap_loses_the_bow_twice(hive: Hive, bow: Fraction) -> None:
    assert gap_left(values(hive), bow) == hive.measurements["panel_gap"] - 2 * bow


# ── the picture ────────────────────────────────────────────────────────────────────────────────


@given(hives(), BOWS, st.sampled_from(UNITS))
@example(hive_of("8", "8"), Fraction(1), "inch")
@example(hive_of("48", "8"), Fraction(1, 16), "mm")
@example(hive_of("8", "48", panel_gap="1"), Fraction(3, 8), "inch")
@example(hive_of("48", "48", panel_gap="1/16"), Fraction(1, 64), "mm")
@settings(max_examples=100)
def test_any_hive_and_any_bow_is_drawn_clear_and_true(
    hive: Hive, bow: Fraction, units: Units
) -> None:
    found = values(hive)
    svg = bowed_rails(found, bow, units=units, name=hive.name)
    assert_clear(svg)
    width = found["hive_width"] - 2 * found["stud_thickness"]
    left = hive.measurements["panel_gap"] - 2 * bow
    for name, size in (("opening", width - 2 * bow), ("panel", width - left - 2 * bow)):
        ((exact, high, scale),) = marked(svg, name)
        assert exact == size
        assert high == pytest.approx(float(size) * scale, abs=PX)
    if bow:
        assert_marked(svg, "bow", bow)
    if left:
        assert_marked(svg, "gap" if left > 0 else "overlap", abs(left) / 2)
    assert bool(marked(svg, "overlap")) == (left < 0)
    assert ("sticks" in words(parsed(svg))) == (left <= 0)


def test_the_demo_hive_by_hand() -> None:
    # By hand: the gap of 1/4 less twice 1/16 is 1/8 in all, so 1/16 at each side; opening
    # 14 3/8 - 2/16 = 14 1/4; panel 14 1/8.
    root = parsed(bowed_rails(true_values(), Fraction(1, 16)))
    told = (
        "opening 14 1/4 in", "was 14 3/8 in", "panel 14 1/8 in", "bows in 1/16 in", "gap 1/16 in",
        "1/8 in of gap is left in all, 1/16 in at each side.",
    )  # fmt: skip
    for text in told:
        assert text in words(root)
    description = root.findtext(f"{NS}desc") or ""
    for text in (*told[:3], "each side rail bows in by 1/16 in", told[-1]):
        assert text in description


def test_a_gap_is_enlarged_until_it_is_seen_at_both_sides() -> None:
    svg = bowed_rails(true_values(), Fraction(0))
    seen = [high for _, high, scale in marked(svg, "gap") if scale > 50]
    assert len(seen) == 2
    assert min(seen) >= 20  # units of a sheet 360 wide, so never under 17 px
    heads = [t.text for t in parsed(svg).iter(f"{NS}text") if "font-weight" in t.attrib]
    assert heads[1:] == ["Left side, enlarged", "Right side, enlarged"]


def test_rails_grow_towards_the_panel() -> None:
    def edges(svg: str) -> list[float]:
        plan = next(g for g in views(parsed(svg)))
        lines = [e for e in plan.iter() if e.get("data-name") == "bow"]
        return [float(n) for e in lines for n in re.findall(r",([\d.]+)", e.attrib["points"])]

    plan = next(g for g in views(parsed(bowed_rails(true_values(), Fraction(1, 8)))))
    panel = next(e for e in plan.iter() if e.get("data-part") == "panel")
    ys = [float(n) for n in re.findall(r",([\d.]+)", panel.attrib["points"])]
    grown = edges(bowed_rails(true_values(), Fraction(1, 8)))
    assert min(grown) < min(ys) < max(ys) < max(grown)
    assert min(abs(g - min(ys)) for g in grown) < PX  # at 1/8 in each the gap of 1/4 is used up
    assert min(abs(g - max(ys)) for g in grown) < PX


def test_sticking_is_told_without_colour() -> None:
    svg = bowed_rails(true_values(), Fraction(5, 32)).traced
    svg = re.sub(r"#0072B2|#D55E00", "#262626", svg)
    root = parsed(svg)
    overlaps = [e for e in root.iter() if e.get("data-fault") == "overlap"]
    assert len(overlaps) == 4  # two in the plan, one in each enlargement
    assert all("wrong" in e.attrib["fill"] for e in overlaps)
    grown = [e for e in root.iter() if e.get("data-name") == "bow"]
    assert all("strip" in e.attrib["fill"] for e in grown)  # the rail itself shows its grain
    bold = " ".join(t.text or "" for t in root.iter(f"{NS}text") if "font-weight" in t.attrib)
    assert "The gap is used up: the panel sticks." in bold
    assert "1/32 in too wide" in bold


def test_a_gap_that_is_just_used_up_sticks_but_does_not_overlap() -> None:
    svg = bowed_rails(true_values(), Fraction(1, 8))
    root = parsed(svg)
    assert "no gap: sticks" in words(root)
    bold = " ".join(t.text or "" for t in root.iter(f"{NS}text") if "font-weight" in t.attrib)
    assert "The gap is used up: the panel sticks. It does not go." in bold
    assert not marked(svg, "overlap")
    assert not marked(svg, "gap")


@pytest.mark.parametrize("bow", [Fraction(-1, 64), Fraction(65, 64), Fraction(10**9)])
def test_a_bow_that_cannot_be_is_refused_in_one_sentence(bow: Fraction) -> None:
    with pytest.raises(LengthError, match="give a bow from 0 to 1 in"):
        bowed_rails(true_values(), bow)


def test_a_name_with_markup_is_shown_as_it_stands_and_text_stands_out_from_the_paper() -> None:
    svg = bowed_rails(true_values(), Fraction(1, 16), name="<b>&")
    assert "&lt;b&gt;&amp;" in svg
    root = parsed(svg)
    paper = next(e for e in root if e.tag == f"{NS}rect").attrib["fill"]
    # WCAG 2.1, success criterion 1.4.3: at least 4.5 to 1 for text.
    for text in root.iter(f"{NS}text"):
        assert contrast(text.get("fill", root.attrib["fill"]), paper) >= 4.5
        assert "font-size" not in text.attrib
