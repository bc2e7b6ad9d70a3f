"""The hive and its inner cover taken apart: sound, to scale, and nothing hidden that is in front.

What one sees in front is found a second way: a ray from the eye through each of many places meets
the solids of the assembly, and the nearest of them must be what is painted there.
"""

import random
import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from itertools import pairwise
from math import cos, hypot, radians, sin

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st
from shapely import Point, Polygon

from hivecalc.components import built, checked, parts, values
from hivecalc.drawing.exploded import (
    changed_inner_cover,
    exploded_hive,
    exploded_inner_cover,
    inner_cover_to_work_out,
    part_numbers,
)
from hivecalc.hive import Hive, HiveFaults, changed, demo_hive, hive_from_text
from hivecalc.length import Units, written
from hivecalc.space import Block, Solid, consequences, solids
from hivecalc.space import assembled as put_together
from tests.hives import HIVES
from tests.test_drawing import (
    NS,
    PX,
    SIDES,
    Sizes,
    assert_labels_clear,
    assert_sound,
    corners,
    hive_of,
    scaled,
    sizes_within,
    true_values,
    views,
    words,
)

INNER = "inner_cover."
FLAT = radians(25)


def whole_hive(hive: Hive, units: Units = "inch") -> str:
    return exploded_hive(values(hive), built(hive), units=units, name=hive.name)


def cut_values(hive: Hive, **cuts: Fraction) -> Sizes:
    return values(hive, {INNER + name: size for name, size in cuts.items()})


def edges(element: ET.Element) -> list[float]:
    """Lengths of the edges of a shape, or of a line."""
    places = corners(element)
    ring = [*places, places[0]] if element.tag == f"{NS}polygon" else places
    return [hypot(x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in pairwise(ring)]


def pieces(root: ET.Element) -> list[ET.Element]:
    """The faces of pieces in the main view, in the order in which they are painted."""
    view = next(views(root))
    return [e for e in view.iter() if "data-part" in e.attrib]


def by_name(now: Sizes, components: tuple[str, ...]) -> dict[str, Solid]:
    return {s.name: s for c in components for s in solids(now, c)}


def assert_true_to_scale(svg: str, now: Sizes, components: tuple[str, ...]) -> None:
    """Every face is as wide and, where it is square to the hive, as long as its solid."""
    root = ET.fromstring(svg)
    scale, found = float(root.attrib["data-scale"]), by_name(now, components)
    seen = set()
    for face in pieces(root):
        solid, lengths = found[face.attrib["data-part"]], edges(face)
        seen.add(solid.name)
        across = [float(b.x1 - b.x0) * scale for b in solid.blocks]
        if face.attrib["data-side"] != "right":
            assert any(abs(lengths[1] - wide) < PX for wide in across), solid.name
        if len(solid.blocks) == 1 and solid.blocks[0].square:
            own = [float(size) * scale for size in solid.size]
            assert all(any(abs(e - size) < PX for size in own) for e in lengths), solid.name
    assert seen == found.keys()


@pytest.mark.parametrize("units", ["inch", "mm"])
@pytest.mark.parametrize("width", SIDES)
@pytest.mark.parametrize("length", SIDES)
def test_pictures_are_sound_and_true_at_every_corner_of_the_range(
    length: str, width: str, units: Units
) -> None:
    hive = hive_of(length, width)
    now = values(hive)
    for svg, components in (
        (whole_hive(hive, units), built(hive)),
        (exploded_inner_cover(now, units=units), ("inner_cover",)),
    ):
        assert_sound(svg)
        assert_labels_clear(svg)
        assert_true_to_scale(svg, now, components)


@pytest.mark.parametrize("name", HIVES)
def test_hives_with_a_box_and_a_sleeve_are_sound_and_true(name: str) -> None:
    hive = hive_from_text(HIVES[name])
    svg = whole_hive(hive, hive.units)
    assert_sound(svg)
    assert_labels_clear(svg)
    assert_true_to_scale(svg, values(hive), built(hive))


NAMES = (
    "stud_thickness", "stud_width", "strip_narrow", "foam_thickness", "sheet_thickness",
    "rim_low_height", "overhang", "skirt_width", "inner_rim_height", "inner_notch",
    "entrance_height", "skin_thickness", "edge_strip_height", "inner_channel_depth", "bee_way",
)  # fmt: skip


@st.composite
def hives(draw: st.DrawFn) -> Hive:
    """Allowed hives of every shape, some with a box of any number of frames in a sleeve."""
    chosen = draw(st.sets(st.sampled_from(NAMES), max_size=6))
    sizes = {n: draw(sizes_within(n)) for n in sorted(chosen)}
    framed = draw(st.one_of(st.none(), st.integers(2, 30)))
    if framed is not None:
        start = hive_from_text(f"[chosen]\nframes = {framed}")
    else:
        sides = {n: draw(sizes_within(n)) for n in ("hive_length", "hive_width")}
        start, sizes = demo_hive(), sides | sizes
    try:
        return checked(changed(start, sizes))
    except HiveFaults:
        return draw(st.nothing())


STEEP = changed(
    demo_hive(),
    {"hive_length": "8", "stud_width": "7 1/4", "rim_low_height": "1/2", "overhang": "6"},
)


LEVEL = changed(demo_hive(), {"rim_low_height": "3 1/2"})
BARE = changed(demo_hive(), {"inner_cover": "no"})


@given(hives(), st.sampled_from(["inch", "mm"]))
@example(LEVEL, "inch")
@example(STEEP, "inch")
@settings(max_examples=30)
def test_any_allowed_hive_is_drawn_clear_and_true(hive: Hive, units: Units) -> None:
    now = values(hive)
    for svg, components in (
        (whole_hive(hive, units), built(hive)),
        (exploded_inner_cover(now, units=units), ("inner_cover",)),
    ):
        assert_sound(svg)
        assert_labels_clear(svg)
        assert_true_to_scale(svg, now, components)


def test_a_hive_without_an_inner_cover_is_drawn_clear_and_true() -> None:
    svg = whole_hive(BARE)
    assert_sound(svg)
    assert_labels_clear(svg)
    assert_true_to_scale(svg, values(BARE), built(BARE))
    assert "nner cover" not in svg


@given(hives(), hives(), st.sampled_from(["inch", "mm"]))
@settings(max_examples=25)
def test_any_change_of_the_inner_cover_is_drawn_clear(
    before: Hive, after: Hive, units: Units
) -> None:
    svg = changed_inner_cover(values(before), values(after), units=units)
    assert_sound(svg)
    assert_labels_clear(svg)
    assert_true_to_scale(svg, values(after), ("inner_cover",))
    assert "data-fault" not in svg


CUTS = (
    "rim_side_length", "rim_front_length", "rim_back_length", "sheet_length", "sheet_width",
    "rim_side_thickness", "rim_back_thickness", "rim_front_width", "sheet_thickness",
)  # fmt: skip


@given(
    hives(),
    st.dictionaries(st.sampled_from(CUTS), st.integers(-48, 48), min_size=1, max_size=3),
)
@settings(max_examples=40)
def test_any_wrong_cut_of_the_inner_cover_is_drawn_clear(hive: Hive, off: dict[str, int]) -> None:
    true = values(hive)
    cuts = {n: true[INNER + n] + Fraction(sixteenths, 16) for n, sixteenths in off.items()}
    assume(all(size > 0 for size in cuts.values()))
    svg = exploded_inner_cover(true, cut_values(hive, **cuts))
    assert_sound(svg)
    assert_labels_clear(svg)


# ── what lies in front ─────────────────────────────────────────────────────────────────────────

EYE = (1.0, -1.0, 2 * sin(FLAT))  # along it one looks: front, right and above are seen


def span_of_ray(block: Block, start: tuple[float, float, float]) -> tuple[float, float] | None:
    """From where to where a ray towards the eye runs within a block: by its x and its outline."""
    x, y, z = start
    low, high = float(block.x0) - x, float(block.x1) - x
    ring = [(float(a), float(b)) for a, b in block.profile]
    for (y0, z0), (y1, z1) in pairwise([*ring, ring[0]]):
        # Inside is left of each edge: (y1 - y0)(z - z0) - (z1 - z0)(y - y0) is not below 0.
        rate = (y1 - y0) * EYE[2] - (z1 - z0) * EYE[1]
        here = (y1 - y0) * (z - z0) - (z1 - z0) * (y - y0)
        if abs(rate) < 1e-12:
            if here < 0:
                return None
        elif rate > 0:
            low = max(low, -here / rate)
        else:
            high = min(high, -here / rate)
    return (low, high) if low < high else None


def lifts_of(
    faces: list[ET.Element], found: dict[str, Solid], origin: tuple[float, float], scale: float
) -> dict[str, float]:
    """How many inches each piece is lifted on the sheet: read off its lowest corner."""
    lifts = {}
    for name, solid in found.items():
        downs = [
            (float(b.x1) - float(y)) * sin(FLAT) - float(z)
            for b in solid.blocks
            for y, z in b.profile
        ]
        low = max(y for f in faces if f.attrib["data-part"] == name for _, y in corners(f))
        lifts[name] = max(downs) - (low - origin[1]) / scale
    return lifts


@pytest.mark.parametrize("hive", [demo_hive(), hive_of("48", "8"), hive_of("8", "8"), STEEP,
                                  hive_from_text(HIVES["eight-frame"])])  # fmt: skip
def test_what_is_nearest_to_the_eye_is_what_one_sees(hive: Hive) -> None:
    now, components = values(hive), built(hive)
    root = ET.fromstring(exploded_hive(now, components))
    scale, faces, found = float(root.attrib["data-scale"]), pieces(root), by_name(now, components)
    guide = next(e for e in root.iter(f"{NS}line"))  # stands on the corner (0, 0, 0) of the hive
    origin = corners(guide)[0]
    lifts = lifts_of(faces, found, origin, scale)
    shapes = [(f.attrib["data-part"], Polygon(corners(f))) for f in faces]
    xs, ys = zip(*(place for f in faces for place in corners(f)), strict=True)
    rng, met = random.Random(4), 0  # noqa: S311 - places to look at, no secrets
    for _ in range(250):
        u, v = rng.uniform(min(xs), max(xs)), rng.uniform(min(ys), max(ys))
        place = Point(u, v)
        if any(shape.boundary.distance(place) < 0.15 for _, shape in shapes):
            continue  # too near an edge to tell
        drawn = next((name for name, shape in reversed(shapes) if shape.contains(place)), None)
        y = (u - origin[0]) / scale / cos(FLAT)  # the place on the plane where x is 0
        z = -y * sin(FLAT) - (v - origin[1]) / scale
        reached = {
            name: max((s[1] for b in solid.blocks
                       if (s := span_of_ray(b, (0.0, y, z - lifts[name])))), default=-1e9)
            for name, solid in found.items()
        }  # fmt: skip
        nearest = max(reached, key=lambda name: reached[name])
        assert drawn == (nearest if reached[nearest] > -1e9 else None)
        met += drawn is not None
    assert met > 20


# ── numbers and legend ─────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("name", HIVES)
def test_numbers_are_those_of_the_parts_table(name: str) -> None:
    hive = hive_from_text(HIVES[name])
    table = {(p.component, p.part): n for n, p in enumerate(parts(hive), 1)}
    assert part_numbers(values(hive), built(hive)) == table


def legend(root: ET.Element) -> dict[int, tuple[str, float]]:
    """What stands beside each number, and how far down the sheet the number stands."""
    found: dict[int, tuple[str, float]] = {}
    lines: list[str] = []
    for text in root.iter(f"{NS}text"):
        if text.get("text-anchor") == "middle" and (text.text or "").isdigit():
            found[int(text.text or "")] = (" ".join(lines), float(text.attrib["y"]))
            lines = []
        elif text.get("font-weight") or text.get("text-anchor"):
            lines = []
        else:
            lines.append(text.text or "")
    return found


@cache
def taken_apart(name: str) -> tuple[Hive, ET.Element]:
    hive = hive_from_text(HIVES[name])
    return hive, ET.fromstring(whole_hive(hive))


@pytest.mark.parametrize("name", HIVES)
def test_each_part_has_its_number_name_and_count_in_the_legend(name: str) -> None:
    hive, root = taken_apart(name)
    found, table = legend(root), parts(hive)
    assert len(found) == len(table)
    for number, piece in enumerate(table, 1):
        said = f"{piece.part.replace('_', ' ')} × {piece.quantity}"
        assert found[number][0] == said
        assert f"{number} {said}" in (root.findtext(f"{NS}desc") or "")


def leaders(root: ET.Element) -> Iterator[tuple[int, Point]]:
    """The number that each leader starts from, and the place that it ends at."""
    circles = [e for e in root.iter(f"{NS}circle") if float(e.attrib["r"]) > 9]
    rows = {n: y for n, (_, y) in legend(root).items()}
    for line in root.iter(f"{NS}polyline"):
        (_, level), *_, end = corners(line)
        if any(abs(float(c.attrib["cy"]) - level) < PX for c in circles):
            yield min(rows, key=lambda n: abs(rows[n] - level)), Point(end)


@pytest.mark.parametrize("name", HIVES)
def test_each_leader_ends_where_one_sees_its_part(name: str) -> None:
    hive, root = taken_apart(name)
    shapes = [(f.attrib["data-part"], Polygon(corners(f))) for f in pieces(root)]
    numbers = {n: key for key, n in part_numbers(values(hive), built(hive)).items()}
    ends = dict(leaders(root))
    assert ends.keys() == numbers.keys()
    for number, place in ends.items():
        seen = next(name for name, shape in reversed(shapes) if shape.buffer(PX).contains(place))
        component, part = (words.replace("_", " ") for words in numbers[number])
        assert seen.startswith(f"{component}: {part}"), number


def test_the_hive_lies_from_below_upwards_as_it_is_built() -> None:
    _, root = taken_apart("eight-frame")
    lowest: dict[str, float] = {}
    for face in pieces(root):
        name = face.attrib["data-part"]
        lowest[name] = max(lowest.get(name, 0.0), *(y for _, y in corners(face)))
    order = [
        "bottom board: side rail, right", "bottom board: lower side runner, right",
        "bottom board: panel", "bottom board: upper side runner, right",
        "bottom board: mesh", "bottom board: screen side strip, upper right",
        "box: side, right", "sleeve: edge strip side, lower right", "sleeve: foam side, right",
        "sleeve: skin side, right", "inner cover: sheet, lower", "inner cover: rim side, right",
        "inner cover: sheet, upper", "roof: rim side, right", "roof: roof retainer, right",
        "roof: roof panel", "roof: deck", "roof: cover",
    ]  # fmt: skip
    heights = [lowest[name] for name in order]
    assert heights == sorted(heights, reverse=True)


def test_the_front_is_told_and_looks_to_the_lower_left() -> None:
    root = ET.fromstring(whole_hive(demo_hive()))
    assert "front" in words(root).split()
    places = {e.attrib["data-part"]: corners(e) for e in pieces(root)}
    front, back = (
        sum(x for x, _ in places[f"bottom board: {rail} rail"]) for rail in ("front", "back")
    )
    assert front < back


# ── the inner cover ────────────────────────────────────────────────────────────────────────────


def test_sizes_of_the_inner_cover_worked_by_hand() -> None:
    # A hive 22 3/4 by 16 1/4 in of 1 1/2 in studs: rim back 16 1/4 - 3; each front piece half of
    # what is left of it beside a notch of 2 in; sides and sheets as long as the hive; 3/8 + 2 × 1/4
    # in high. Channel: 1 1/2 in deep, its back 2 in and two strips of 1/2 in long. Common practice,
    # no published source.
    root = ET.fromstring(exploded_inner_cover(true_values("22 3/4", "16 1/4")))
    told = root.findtext(f"{NS}desc") or ""
    for text in (
        "Rim back, 3/8 × 1 1/2 × 13 1/4 in", "Rim front × 2, 3/8 × 1 1/2 × 5 5/8 in",
        "Rim side × 2, 3/8 × 1 1/2 × 22 3/4 in", "Upper sheet, 1/4 × 16 1/4 × 22 3/4 in",
        "Channel side × 2, 3/8 × 1/2 × 1 1/2 in", "Channel back, 3/8 × 1/2 × 3 in",
        "Lower sheet, as big, with the slot.", "Slot 5/16 × 2 in.", "height 7/8 in", "Notch 2 in",
    ):  # fmt: skip
        assert text in told, text
    assert "notch 2 in" in words(root)


def test_a_closed_inner_cover_has_one_front_and_neither_slot_nor_channel() -> None:
    # By hand: 16 1/4 - 3.
    svg = exploded_inner_cover(true_values("22 3/4", "16 1/4", inner_notch="0"))
    told = ET.fromstring(svg).findtext(f"{NS}desc") or ""
    assert "Rim front, 3/8 × 1 1/2 × 13 1/4 in" in told
    for word in ("slot", "hannel", "otch 2"):
        assert word not in told
    assert_sound(svg)
    assert_labels_clear(svg)


def test_a_cover_that_was_closed_before_says_so() -> None:
    closed, now = true_values(inner_notch="0"), true_values()
    opened = changed_inner_cover(closed, now)
    assert "was closed" in words(ET.fromstring(opened))
    shut = changed_inner_cover(now, closed)
    assert "closed, no notch, was 2 in" in (ET.fromstring(shut).findtext(f"{NS}desc") or "").lower()
    for svg in (opened, shut):
        assert_sound(svg)
        assert_labels_clear(svg)


@pytest.mark.parametrize("notch", ["1/2", "2", "3"])
def test_the_notch_is_measured_before_the_rim(notch: str) -> None:
    root = ET.fromstring(exploded_inner_cover(true_values(inner_notch=notch)))
    (line,) = (e for e in root.iter() if e.get("data-name") == "inner_notch")
    exact, scale = Fraction(line.attrib["data-exact"]), float(root.attrib["data-scale"])
    assert exact == {"1/2": Fraction(1, 2), "2": 2, "3": 3}[notch]
    assert edges(line)[0] == pytest.approx(float(exact) * scale, abs=PX)


# By hand on the demo hive, whose rim back is 14 3/8 in, rim side 23 1/8 and rim strip 3/8 in.
WRONG = [
    ({"rim_back_length": Fraction(15)}, Fraction(5, 8), "overlap", "into the right rim side"),
    ({"rim_back_length": Fraction(14)}, Fraction(3, 8), "open", "gap of 3/8 in"),
    ({"rim_side_length": Fraction(47, 2)}, Fraction(3, 8), "stands out", "at the back"),
    ({"rim_side_thickness": Fraction(1, 2)}, Fraction(1, 8), "overlap", "into the upper sheet"),
    ({"rim_side_thickness": Fraction(1, 4)}, Fraction(1, 8), "open", "to the upper sheet"),
]


@pytest.mark.parametrize(("cuts", "by_hand", "kind", "told"), WRONG)
def test_a_wrong_cut_is_marked_with_the_measure_that_the_assembly_finds(
    cuts: Sizes, by_hand: Fraction, kind: str, told: str
) -> None:
    true, cut = true_values(), cut_values(demo_hive(), **cuts)
    found = consequences(put_together(true, "inner_cover"), put_together(cut, "inner_cover"))
    assert by_hand in {c.amount for c in found if c.kind == kind}
    root = ET.fromstring(exploded_inner_cover(true, cut))
    marks = [(e, scale) for e, scale in scaled(root) if e.get("data-fault") == kind]
    assert marks
    assert {Fraction(e.attrib["data-exact"]) for e, _ in marks} == {by_hand}
    assert any(abs(edge - float(by_hand) * scale) < PX for e, scale in marks for edge in edges(e))
    assert told in words(root)
    assert told in (root.findtext(f"{NS}desc") or "")


@pytest.mark.parametrize(("cuts", "by_hand", "kind", "told"), WRONG)
def test_a_small_fault_is_enlarged_until_it_is_seen(
    cuts: Sizes, by_hand: Fraction, kind: str, told: str
) -> None:
    root = ET.fromstring(exploded_inner_cover(true_values(), cut_values(demo_hive(), **cuts)))
    enlarged = [g for g in views(root) if g.attrib["data-view"].startswith("fault")]
    assert max(float(g.attrib["data-scale"]) * float(by_hand) for g in enlarged) >= 20, (kind, told)
    assert all(len(list(g)) > 1 for g in enlarged)


def test_nothing_is_told_by_colour_alone() -> None:
    svg = exploded_inner_cover(true_values(), cut_values(demo_hive(), rim_back_length=Fraction(15)))
    root = ET.fromstring(re.sub(r"#0072B2|#D55E00", "#262626", svg))
    thick = {e.attrib["data-part"] for e in pieces(root) if float(e.get("stroke-width", 0)) > 2}
    assert thick == {"inner cover: rim back"}
    assert any("wrong" in e.get("fill", "") for e in root.iter() if "data-fault" in e.attrib)
    assert "length should be 14 3/8 in" in words(root)
    assert "overlap 5/8 in: does not go" in words(root)


def test_a_true_inner_cover_has_no_fault() -> None:
    true = true_values()
    svg = exploded_inner_cover(true, true_values())
    assert "data-fault" not in svg
    assert words(ET.fromstring(svg)) == words(ET.fromstring(exploded_inner_cover(true)))


def test_a_notch_that_is_closed_is_told() -> None:
    # By hand: both pieces of the front are to fill 14 3/8 in with a notch of 2; 14 3/8 closes it.
    cut = cut_values(demo_hive(), rim_front_length=Fraction(115, 8))
    root = ET.fromstring(exploded_inner_cover(true_values(), cut))
    assert "no notch is left" in words(root)
    assert not [e for e in root.iter() if e.get("data-name") == "inner_notch"]


def test_no_answer_stands_on_the_picture_that_asks() -> None:
    now = true_values("23 5/16", "17 7/16", stud_thickness="1 9/16")
    svg = inner_cover_to_work_out(now)
    shown = " ".join(re.findall(r">([^<]+)<", svg))
    for name in ("rim_front_length", "rim_back_length", "overall_height"):
        assert f" {written(now[INNER + name])} in" not in shown, name
    assert "× ?" in shown
    assert "notch 2 in" in shown
    assert_labels_clear(svg)


# ── every picture ──────────────────────────────────────────────────────────────────────────────


def test_ids_are_unique_on_a_page_and_all_else_is_steady() -> None:
    hive = demo_hive()
    svgs = [draw() for draw in (lambda: whole_hive(hive),) * 2]
    svgs += [exploded_inner_cover(values(hive)) for _ in range(2)]
    ids = [i for svg in svgs for i in re.findall(r' id="([^"]+)"', svg)]
    assert len(ids) == len(set(ids))
    steady = [re.sub(r"drawing\d+-", "", svg) for svg in svgs]
    assert steady[0] == steady[1]
    assert steady[2] == steady[3]


def test_markup_in_a_name_does_no_harm() -> None:
    name = "<script>alert(1)</script>"
    now = true_values()
    for svg in (
        exploded_inner_cover(now, name=name),
        exploded_hive(now, built(demo_hive()), name=name),
    ):
        root = assert_sound(svg)
        assert not [e for e in root.iter() if "script" in e.tag]
        assert (root.findtext(f"{NS}title") or "").endswith(name)


def test_letters_are_never_under_12_px_at_the_size_shown() -> None:
    for svg in (whole_hive(demo_hive()), exploded_inner_cover(true_values())):
        root = ET.fromstring(svg)
        wide = float(root.attrib["viewBox"].split()[2])
        least = float(re.findall(r"min-width:(\d+)px", root.attrib["style"])[0])
        assert float(root.attrib["font-size"]) * least / wide >= 12
        assert not any("font-size" in e.attrib for e in root.iter(f"{NS}text"))
