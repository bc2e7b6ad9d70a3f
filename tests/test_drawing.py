"""Drawings: sound as SVG, true to scale, with labels that keep clear of one another at any size.

Label boxes are measured with the glyph widths of the DejaVu Sans font files that matplotlib brings:
a second way beside the drawing's own table of widths, and one of the widest fonts a browser takes.
"""

import re
import xml.etree.ElementTree as ET
from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import cache
from itertools import combinations, pairwise
from pathlib import Path

import matplotlib as mpl
import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st
from matplotlib.ft2font import FT2Font

from hivecalc import drawing
from hivecalc.components import checked, values
from hivecalc.drawing.layout import Box, spread, text_width, wrapped
from hivecalc.drawing.svg import figure
from hivecalc.drawing.view import within
from hivecalc.hive import MEASUREMENTS, Hive, HiveFaults, changed, demo_hive
from hivecalc.length import MM, Units
from hivecalc.space import assembled, consequences, only_these

NS = "{http://www.w3.org/2000/svg}"
BOARD = "bottom_board."
Sizes = dict[str, Fraction]
Picture = Callable[..., str]
PICTURES = (drawing.plan, drawing.section, drawing.stack)
CHANGES = (drawing.changed_plan, drawing.changed_section, drawing.changed_stack)
TAPES = (drawing.tape, drawing.tape_to_read, drawing.burnt_inch_tape, drawing.hooked_tape)
SIDES = ("8", "17 3/8", "23 1/8", "48")
PX = 0.01


def hive_of(length: str, width: str, **more: str) -> Hive:
    return changed(demo_hive(), {"hive_length": length, "hive_width": width, **more})


def true_values(length: str = "23 1/8", width: str = "17 3/8", **more: str) -> Sizes:
    return values(hive_of(length, width, **more))


def cut_values(hive: Hive, **cuts: Fraction) -> Sizes:
    given = {BOARD + name: size for name, size in cuts.items()}
    return values(hive, only_these(values(hive), given))


# ── what is read back from a picture ───────────────────────────────────────────────────────────


def views(root: ET.Element) -> Iterator[ET.Element]:
    """The parts of a picture that are drawn to one scale each."""
    return (g for g in root.iter(f"{NS}g") if "data-view" in g.attrib)


def scaled(root: ET.Element) -> Iterator[tuple[ET.Element, float]]:
    """Each element that is drawn in a view, with the view's scale."""
    for view in views(root):
        yield from ((element, float(view.attrib["data-scale"])) for element in view.iter())


def corners(element: ET.Element) -> list[tuple[float, float]]:
    if element.tag == f"{NS}line":
        x1, y1, x2, y2 = (float(element.attrib[n]) for n in ("x1", "y1", "x2", "y2"))
        return [(x1, y1), (x2, y2)]
    return [
        (float(x), float(y))
        for x, _, y in (p.partition(",") for p in element.attrib["points"].split())
    ]


def extent(element: ET.Element) -> tuple[float, float]:
    """How far an element reaches across and down."""
    xs, ys = zip(*corners(element), strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


def words(root: ET.Element) -> str:
    return " ".join(text.text or "" for text in root.iter(f"{NS}text"))


@cache
def font(*, bold: bool = False) -> FT2Font:
    file = "DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"
    return FT2Font(str(Path(mpl.get_data_path()) / "fonts" / "ttf" / file))


@cache
def advance(sign: str, *, bold: bool) -> float:
    """Width of one sign for a letter size of 1, from the font file."""
    face = font(bold=bold)
    face.set_size(100, 72)
    return float(face.load_char(ord(sign)).linearHoriAdvance) / 65536 / 100


def real_width(text: str, *, bold: bool) -> float:
    return sum(advance(sign, bold=bold) for sign in text)


def label_box(text: ET.Element, size: float) -> Box:
    """The box that a browser gives a text in DejaVu Sans: its width, ascent and descent."""
    x, y = float(text.attrib["x"]), float(text.attrib["y"])
    face = font()
    above, below = (n / face.units_per_EM * size for n in (face.ascender, -face.descender))
    wide = real_width(text.text or "", bold="font-weight" in text.attrib) * size
    before = {"start": 0.0, "middle": wide / 2, "end": wide}[text.get("text-anchor", "start")]
    if "transform" in text.attrib:
        return Box(x - above, y + before - wide, x + below, y + before)
    return Box(x - before, y - above, x - before + wide, y + below)


def assert_labels_clear(svg: str) -> None:
    """No label overlaps another, none is clipped."""
    root = ET.fromstring(svg)
    _, _, wide, high = (float(n) for n in root.attrib["viewBox"].split())
    size = float(root.attrib["font-size"])
    boxes = [(t.text, label_box(t, size)) for t in root.iter(f"{NS}text")]
    assert boxes
    for text, box in boxes:
        assert min(box.left, box.top) >= 0, text
        assert box.right <= wide, text
        assert box.bottom <= high, text
    for (one, box), (other, other_box) in combinations(boxes, 2):
        across = min(box.right, other_box.right) - max(box.left, other_box.left)
        down = min(box.bottom, other_box.bottom) - max(box.top, other_box.top)
        assert min(across, down) <= PX, (one, other)


def assert_named_true(svg: str) -> None:
    """Each length that carries its name is drawn as long as it says."""
    found = 0
    for element, scale in scaled(ET.fromstring(svg)):
        exact = element.get("data-exact")
        if exact is not None:
            assert any(abs(s - float(Fraction(exact)) * scale) < PX for s in extent(element))
            found += 1
    assert found


def assert_sound(svg: str) -> ET.Element:
    """One SVG with role, name, description and unique ids that are all found."""
    root = ET.fromstring(svg)
    assert root.tag == f"{NS}svg"
    assert root.attrib["role"] == "img"
    ids = {e.attrib["id"]: e for e in root.iter() if "id" in e.attrib}
    assert len(ids) == sum("id" in e.attrib for e in root.iter())
    assert ids[root.attrib["aria-labelledby"]].tag == f"{NS}title"
    assert ids[root.attrib["aria-describedby"]].tag == f"{NS}desc"
    assert all(
        ids[i].text for i in (root.attrib["aria-labelledby"], root.attrib["aria-describedby"])
    )
    assert set(re.findall(r"url\(#([^)]+)\)", svg)) <= ids.keys()
    return root


def assert_true_to_scale(svg: str, now: Sizes) -> None:
    """Every drawn length with a name has the size that the derivation gives it."""
    found = 0
    for element, scale in scaled(ET.fromstring(svg)):
        name, exact = element.get("data-name"), element.get("data-exact")
        if name and exact:
            assert now[name] == Fraction(exact)
            sizes = extent(element)
            assert any(abs(size - float(now[name]) * scale) < PX for size in sizes), name
            found += 1
    assert found


# ── pictures of a hive ─────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("units", ["inch", "mm"])
@pytest.mark.parametrize("width", SIDES)
@pytest.mark.parametrize("length", SIDES)
@pytest.mark.parametrize("picture", PICTURES)
def test_pictures_are_sound_and_true_at_every_corner_of_the_range(
    picture: Picture, length: str, width: str, units: Units
) -> None:
    now = true_values(length, width)
    svg = picture(now, units=units)
    assert_sound(svg)
    assert_labels_clear(svg)
    assert_true_to_scale(svg, now)


NAMES = (
    "hive_length", "hive_width", "stud_thickness", "stud_width", "strip_narrow", "strip_wide",
    "foam_thickness", "mesh_thickness", "board_thickness", "slot_ease", "panel_gap", "screen_gap",
    "runner_gap", "entrance_height", "front_stop_height",
)  # fmt: skip


def sizes_within(name: str) -> st.SearchStrategy[Fraction]:
    """Sizes in a measurement's range: its ends, sixteenths, and the odd thousandths of an mm."""
    low, high = MEASUREMENTS[name].low, MEASUREMENTS[name].high
    sixteenths = st.integers(-(-low * 16 // 1), high * 16 // 1).map(lambda n: Fraction(n, 16))
    metric = st.integers(-(-low / MM // 1), high / MM // 1).map(lambda n: n * MM + MM / 7)
    return st.one_of(
        st.sampled_from([low, high]), sixteenths, metric.filter(lambda v: low <= v <= high)
    )


@st.composite
def hives(draw: st.DrawFn) -> Hive:
    """Allowed hives of every shape, most of their other sizes as they come."""
    chosen = draw(st.sets(st.sampled_from(NAMES[2:]), max_size=6))
    sizes = {name: draw(sizes_within(name)) for name in (*NAMES[:2], *sorted(chosen))}
    try:
        return checked(changed(demo_hive(), sizes))
    except HiveFaults:
        return draw(st.nothing())


@given(hives(), st.sampled_from(PICTURES), st.sampled_from(["inch", "mm"]))
@settings(max_examples=150)
def test_any_allowed_hive_is_drawn_clear_and_true(
    hive: Hive, picture: Picture, units: Units
) -> None:
    now = values(hive)
    svg = picture(now, units=units, name=hive.name)
    assert_sound(svg)
    assert_labels_clear(svg)
    assert_true_to_scale(svg, now)


@given(hives(), hives(), st.sampled_from(CHANGES), st.sampled_from(["inch", "mm"]))
@settings(max_examples=80)
def test_any_change_is_drawn_clear_and_true(
    before: Hive, after: Hive, picture: Picture, units: Units
) -> None:
    svg = picture(values(before), values(after), units=units)
    assert_sound(svg)
    assert_labels_clear(svg)
    assert_true_to_scale(svg, values(after))


CUTS = (
    "side_rail_length", "front_rail_length", "back_rail_length", "panel_length", "screen_length",
    "upper_runner_height", "lower_runner_height", "front_rail_width", "panel_thickness",
    "back_rail_thickness",
)  # fmt: skip


@given(
    hives(),
    st.dictionaries(st.sampled_from(CUTS), st.integers(-48, 48), min_size=1, max_size=3),
    st.sampled_from(PICTURES),
)
@settings(max_examples=120)
def test_any_wrong_cut_is_drawn_clear_and_true(
    hive: Hive, off: dict[str, int], picture: Picture
) -> None:
    true = values(hive)
    cuts = {n: true[BOARD + n] + Fraction(sixteenths, 16) for n, sixteenths in off.items()}
    assume(all(size > 0 for size in cuts.values()))
    cut = cut_values(hive, **cuts)
    svg = picture(true, cut)
    assert_sound(svg)
    assert_labels_clear(svg)
    assert_true_to_scale(svg, cut)


def test_figures_of_the_demo_hive_by_plain_arithmetic() -> None:
    # 23 1/8 by 17 3/8 in of 1 1/2 in studs, worked by hand: 23 1/8 - 1 1/2 = 21 5/8;
    # 17 3/8 - 3 = 14 3/8; 23 1/8 - 3 = 20 1/8; 20 1/8 - 1/4 = 19 7/8; 20 1/8 - 1/8 = 20.
    plan, section = (ET.fromstring(p(true_values())) for p in (drawing.plan, drawing.section))
    for text in ("side rail 21 5/8 in", "front rail 14 3/8 in", "back rail 17 3/8 in"):
        assert text in words(plan)
    for text in ("opening 20 1/8 in", "panel 19 7/8 in", "screen 20 in", "entrance 3/4 in"):
        assert text in words(section)


# By hand for 23 1/8 by 17 3/8 in, studs of 1 1/2 by 3 1/2: across and down on the sheet.
BY_HAND = {
    drawing.plan: {
        "side rail, left": (21.625, 1.5),
        "side rail, right": (21.625, 1.5),
        "front rail": (1.5, 14.375),
        "back rail": (1.5, 17.375),
    },
    drawing.section: {
        "front rail": (1.5, 2.75),
        "back rail": (1.5, 3.5),
        "lower front runner": (0.5, 0.75),
        "upper front runner": (0.75, 0.5),
        "panel": (19.875, 1),
        "mesh": (19.75, 0.034),
        "screen front stop": (0.75, 0.2785),
    },
}


@pytest.mark.parametrize("picture", BY_HAND)
def test_pieces_are_drawn_with_the_sizes_worked_by_hand(picture: Picture) -> None:
    whole = next(views(ET.fromstring(picture(true_values()))))
    scale = float(whole.attrib["data-scale"])
    pieces = {e.attrib["data-part"]: extent(e) for e in whole.iter() if "data-part" in e.attrib}
    for part, sizes in BY_HAND[picture].items():
        assert pieces[part] == pytest.approx([size * scale for size in sizes], abs=PX), part


def test_rails_from_above_stand_where_they_are_built() -> None:
    root = ET.fromstring(drawing.plan(true_values()))
    places = {e.attrib["data-part"]: corners(e) for e in root.iter() if "data-part" in e.attrib}
    left = {part: min(x for x, _ in place) for part, place in places.items()}
    right = {part: max(x for x, _ in place) for part, place in places.items()}
    assert left["front rail"] == left["side rail, left"] == left["side rail, right"]
    assert right["side rail, left"] == right["side rail, right"] == left["back rail"]
    assert max(y for _, y in places["side rail, left"]) == min(y for _, y in places["front rail"])
    assert min(y for _, y in places["side rail, right"]) == max(y for _, y in places["front rail"])


# ── wrong cuts ─────────────────────────────────────────────────────────────────────────────────

WRONG = [
    (drawing.plan, {"side_rail_length": Fraction(347, 16)}, Fraction(1, 16), "overlap"),
    (drawing.plan, {"side_rail_length": Fraction(345, 16)}, Fraction(1, 16), "open"),
    (drawing.plan, {"front_rail_length": Fraction(113, 8)}, Fraction(1, 4), "open"),
    (drawing.plan, {"back_rail_length": Fraction(143, 8)}, Fraction(1, 2), "stands out"),
    (drawing.section, {"panel_length": Fraction(81, 4)}, Fraction(1, 16), "overlap"),
    (drawing.section, {"upper_runner_height": Fraction(3, 4)}, Fraction(159, 1000), "overlap"),
]


@pytest.mark.parametrize(("picture", "cuts", "by_hand", "kind"), WRONG)
def test_a_wrong_cut_is_marked_with_the_measure_that_the_assembly_finds(
    picture: Picture, cuts: Sizes, by_hand: Fraction, kind: str
) -> None:
    # By hand: the side rail is a sixteenth off 21 5/8; the front rail 1/4 short of 14 3/8; the
    # back rail 1/2 over 17 3/8; a panel of 20 1/4 in an opening of 20 1/8 runs in by 1/16 at each
    # end; with the runner on edge the stack of 3.409 grows by 1/4 to 3.659, 0.159 above 3 1/2.
    true, cut = true_values(), cut_values(demo_hive(), **cuts)
    found = consequences(assembled(true, "bottom_board"), assembled(cut, "bottom_board"))
    assert by_hand in {c.amount for c in found if c.kind == kind}
    root = ET.fromstring(picture(true, cut))
    marks = [(e, scale) for e, scale in scaled(root) if e.get("data-fault") == kind]
    assert marks
    for element, scale in marks:
        assert Fraction(element.attrib["data-exact"]) == by_hand
        assert any(abs(size - float(by_hand) * scale) < PX for size in extent(element))
    told = figure(by_hand, "inch").removeprefix("≈ ") + " "
    assert told in words(root)
    assert told in (root.findtext(f"{NS}desc") or "")


@pytest.mark.parametrize(("picture", "cuts", "by_hand", "kind"), WRONG)
def test_a_small_fault_is_enlarged_until_it_is_seen(
    picture: Picture, cuts: Sizes, by_hand: Fraction, kind: str
) -> None:
    root = ET.fromstring(picture(true_values(), cut_values(demo_hive(), **cuts)))
    seen = [
        float(by_hand) * float(view.attrib["data-scale"])
        for view in views(root)
        if any(e.get("data-fault") == kind for e in view.iter())
        or view.attrib["data-view"].startswith("fault")
    ]
    assert max(seen) >= 20  # units of a sheet 360 wide, so never under 17 px


def test_nothing_is_told_by_colour_alone() -> None:
    true, cut = true_values(), cut_values(demo_hive(), side_rail_length=Fraction(347, 16))
    svg = drawing.plan(true, cut)
    without = re.sub(r"#0072B2|#D55E00", "#262626", svg)
    root = ET.fromstring(without)
    thick = {e.attrib["data-part"] for e in root.iter(f"{NS}polygon")
             if "data-part" in e.attrib and float(e.attrib["stroke-width"]) > 2}  # fmt: skip
    assert thick == {"side rail, left", "side rail, right"}
    assert any("wrong" in e.get("fill", "") for e in root.iter() if "data-fault" in e.attrib)
    assert "should be 21 5/8 in" in words(root)
    assert "overlap 1/16 in: does not go" in words(root)


def test_a_true_cut_has_no_fault() -> None:
    true = true_values()
    for picture in PICTURES:
        svg = picture(true, true_values())
        assert "data-fault" not in svg
        assert "should be" not in svg
        assert words(ET.fromstring(svg)) == words(ET.fromstring(picture(true)))


def test_a_change_shows_the_sizes_from_before_and_no_fault() -> None:
    # By hand: 23 1/8 - 1 9/16 = 21 9/16, and it was 21 5/8.
    svg = drawing.changed_plan(true_values(), true_values(stud_thickness="1 9/16"))
    description = ET.fromstring(svg).findtext(f"{NS}desc") or ""
    assert "side rail 21 9/16 in, was 21 5/8 in" in description
    assert "data-fault" not in svg


def test_a_stack_that_stands_proud_says_so() -> None:
    # By hand: 3/4 + 1 5/8 + 1/2 + 1/2 + 0.034 + 1/2 = 3.909, which is 0.409 above 3 1/2: 13/32.
    thick = {"foam_thickness": "1 1/2", "front_stop_height": "1/4"}
    root = ET.fromstring(drawing.stack(true_values(**thick)))
    assert "The screen stands ≈ 13/32 in above the rails" in words(root)
    assert "stands proud ≈ 13/32 in" in words(root)
    assert any("wrong" in e.get("fill", "") for e in root.iter())


def test_every_layer_of_the_stack_has_its_thickness_and_lies_on_the_one_below() -> None:
    root = ET.fromstring(drawing.stack(true_values()))
    layers = [e for e in root.iter(f"{NS}polygon") if "data-name" in e.attrib]
    tops = {e.attrib["data-part"]: min(y for _, y in corners(e)) for e in layers}
    feet = {e.attrib["data-part"]: max(y for _, y in corners(e)) for e in layers}
    order = ["lower side runner, left", "panel", "upper side runner, left",
             "screen side strip, lower left", "mesh", "screen side strip, upper left"]  # fmt: skip
    scale = float(root.attrib["data-scale"])
    gaps = [(tops[low] - feet[high]) / scale for low, high in pairwise(order)]
    assert gaps == pytest.approx([0, 0.125, 0, 0, 0], abs=1e-4)  # the slot's ease is 1/8
    assert feet["screen front stop"] == tops["mesh"]


# ── the tape ───────────────────────────────────────────────────────────────────────────────────

READINGS = st.one_of(
    st.integers(0, 1200 * 16).map(lambda n: Fraction(n, 16)),
    st.integers(0, 1200 * 64).map(lambda n: Fraction(n, 64)),
    st.integers(0, 30000).map(lambda n: n * MM),
)


@given(READINGS, st.sampled_from(["inch", "mm"]), st.sampled_from(TAPES))
@example(Fraction(0), "inch", drawing.hooked_tape)
@example(Fraction(47, 16), "inch", drawing.burnt_inch_tape)
@example(Fraction(1723, 2) * MM, "mm", drawing.hooked_tape)
@settings(max_examples=150)
def test_any_reading_is_drawn_clear(reading: Fraction, units: Units, picture: Picture) -> None:
    assume(reading < 1190)
    svg = picture(reading, units)
    assert_sound(svg)
    assert_labels_clear(svg)


@given(READINGS, st.sampled_from(["inch", "mm"]), st.sampled_from(TAPES[:1] + TAPES[2:]))
@settings(max_examples=100)
def test_the_arrow_stands_at_the_reading_among_the_numbered_marks(
    reading: Fraction, units: Units, picture: Picture
) -> None:
    assume(reading < 1190)
    root = ET.fromstring(picture(reading, units))
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


def test_marks_are_sixteenths_and_longer_for_greater_parts() -> None:
    root = ET.fromstring(drawing.tape(Fraction(185, 8)))
    lines = [corners(e) for e in root.iter(f"{NS}line") if "data-name" not in e.attrib]
    heights = {round(a[0], 2): a[1] - b[1] for a, b in lines}
    numbered = [float(e.attrib["x1"]) for e in root.iter() if e.get("data-mark") == "22"]
    inch = [heights[round(numbered[0] + 80 * k / 16, 2)] for k in range(17)]
    order = [16, 1, 8, 1, 4, 1, 8, 1, 2, 1, 8, 1, 4, 1, 8, 1, 16]  # a rule's marks, by hand
    rank = {16: 5, 2: 4, 4: 3, 8: 2, 1: 1}
    assert sorted(set(inch)) == sorted({inch[i] for i in (0, 8, 4, 2, 1)})
    assert [sorted(set(inch)).index(h) + 1 for h in inch] == [rank[o] for o in order]


def test_a_tape_to_read_keeps_its_answer_to_itself() -> None:
    svg = drawing.tape_to_read(Fraction(185, 8))
    root = ET.fromstring(svg)
    assert "23 1/8" not in svg
    assert "185/8" not in svg
    assert "?" in words(root)
    assert "2 marks" not in words(root)


def test_reading_from_the_burnt_inch_is_an_inch_more_than_the_board() -> None:
    assert "The tape reads 24 1/8 in" in words(
        ET.fromstring(drawing.burnt_inch_tape(Fraction(185, 8)))
    )
    # 23 1/8 in are 587.375 mm (25.4 mm an inch), and 100 mm more are 687.375 mm.
    metric = words(ET.fromstring(drawing.burnt_inch_tape(Fraction(185, 8), "mm")))
    assert "The tape reads 687.375 mm" in metric


@pytest.mark.parametrize("picture", TAPES)
@pytest.mark.parametrize("reading", [Fraction(-1, 16) - 4, Fraction(1201)])
def test_a_reading_off_the_tape_is_refused(picture: Picture, reading: Fraction) -> None:
    with pytest.raises(ValueError, match="can't read"):
        picture(reading)


# ── every picture ──────────────────────────────────────────────────────────────────────────────


def test_ids_are_unique_on_a_page_even_for_the_same_picture_twice() -> None:
    true = true_values()
    svgs = [picture(true) for picture in (*PICTURES, *PICTURES)]
    svgs += [drawing.tape(Fraction(5)), drawing.tape(Fraction(5))]
    ids = [i for svg in svgs for i in re.findall(r' id="([^"]+)"', svg)]
    assert len(ids) == len(set(ids))


def test_the_same_values_give_the_same_picture_but_for_its_ids() -> None:
    true = true_values()
    for picture in PICTURES:
        one, other = (re.sub(r"drawing\d+-", "", picture(true)) for _ in range(2))
        assert one == other


@pytest.mark.parametrize("picture", PICTURES)
@pytest.mark.parametrize(
    "name", ["<script>alert(1)</script>", '"><img onerror=x>', "a&b", "]]>", "\x00\x07\u202e"]
)
def test_markup_in_a_name_is_shown_and_does_no_harm(picture: Picture, name: str) -> None:
    root = assert_sound(picture(true_values(), name=name))
    assert {e.tag.removeprefix(NS) for e in root.iter()} <= {
        "svg", "title", "desc", "defs", "pattern", "path", "rect", "g", "line", "polyline",
        "polygon", "circle", "text",
    }  # fmt: skip
    shown = "".join(sign if sign.isprintable() else "\N{REPLACEMENT CHARACTER}" for sign in name)
    assert (root.findtext(f"{NS}title") or "").endswith(shown)


@pytest.mark.parametrize("picture", PICTURES)
def test_letters_are_never_under_12_px_at_the_size_shown(picture: Picture) -> None:
    root = ET.fromstring(picture(true_values()))
    wide = float(root.attrib["viewBox"].split()[2])
    least = float(re.findall(r"min-width:(\d+)px", root.attrib["style"])[0])
    assert float(root.attrib["font-size"]) * least / wide >= 12
    assert not any("font-size" in e.attrib for e in root.iter(f"{NS}text"))


def test_a_picture_carries_its_own_paper_and_ink() -> None:
    root = ET.fromstring(drawing.plan(true_values()))
    paper = next(e for e in root if e.tag == f"{NS}rect")
    _, _, wide, high = root.attrib["viewBox"].split()
    assert (paper.attrib["width"], paper.attrib["height"]) == (wide, high)
    ink = root.attrib["fill"]
    assert contrast(ink, paper.attrib["fill"]) >= 7
    # WCAG 2.1, success criterion 1.4.3: at least 4.5 to 1 for text.
    for text in ET.fromstring(
        drawing.changed_plan(true_values(), true_values(stud_thickness="2"))
    ).iter(f"{NS}text"):
        assert contrast(text.get("fill", ink), paper.attrib["fill"]) >= 4.5


def contrast(one: str, other: str) -> float:
    """Contrast of two colours by the formula of WCAG 2.1."""

    def luminance(colour: str) -> float:
        parts = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
        linear = [p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
        return sum(w * p for w, p in zip((0.2126, 0.7152, 0.0722), linear, strict=True))

    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


# ── where labels go ────────────────────────────────────────────────────────────────────────────

SHOWN = st.text(
    "0123456789/.≈−×,: ?()%abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ'′″“”½¼¾",
    max_size=40,
)


@given(SHOWN, st.booleans())
def test_the_width_of_a_text_is_on_the_safe_side(text: str, bold: bool) -> None:  # noqa: FBT001 - drawn
    assert text_width(text, bold=bold) >= real_width(text, bold=bold) * 14 - 1e-6


@given(st.lists(st.tuples(st.floats(0, 300), st.floats(1, 60)), max_size=12), st.floats(0, 100))
def test_spread_labels_keep_order_and_room(items: list[tuple[float, float]], low: float) -> None:
    items.sort()
    centres, sizes = [c for c, _ in items], [s for _, s in items]
    high = low + sum(sizes) + 50
    found = spread(centres, sizes, low, high)
    edges = [(c - s / 2, c + s / 2) for c, s in zip(found, sizes, strict=True)]
    assert all(a[1] <= b[0] + 1e-6 for a, b in pairwise(edges))
    assert all(low - 1e-6 <= a and b <= high + 1e-6 for a, b in edges)


def test_labels_that_are_clear_stay_where_they_are() -> None:
    assert spread([10, 40, 90], [20, 20, 20], 0, 100) == [10, 40, 90]


@given(st.lists(st.sampled_from(["side", "rail", "21 5/8 in", "≈ 3 mm", "a"]), min_size=1))
def test_wrapped_lines_hold_the_same_words_and_never_part_a_length(parts: list[str]) -> None:
    text = " ".join(parts)
    lines = wrapped(text, 90)
    assert " ".join(lines) == text
    assert all(text_width(line) <= 90 or " " not in line or line in parts for line in lines)
    assert not any(line.startswith(("in", "mm", "5/8")) or line.endswith("≈") for line in lines)


def test_a_window_keeps_what_lies_in_it() -> None:
    # A triangle of base and height 4, seen through its lower half, by hand.
    triangle = [(0.0, 0.0), (4.0, 0.0), (2.0, 4.0)]
    assert set(within(triangle, Box(-9, -9, 9, 2))) == {(0, 0), (4, 0), (3, 2), (1, 2)}
    assert within(triangle, Box(10, 0, 20, 4)) == []
    assert within(triangle, Box(-9, -9, 9, 9)) == triangle
