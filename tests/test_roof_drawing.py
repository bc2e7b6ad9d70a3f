"""The roof's section: sound, true to scale on the slope, and honest about where screws land.

Lines and pieces lie on a slope, so their lengths are read back by Pythagoras. Where a screw lands
is found a second way, by shapely, from the outlines in the picture itself.
"""

import re
import xml.etree.ElementTree as ET
from fractions import Fraction
from itertools import pairwise
from math import hypot

import pytest
from shapely import LineString, Point, Polygon, box

from hivecalc.components import values
from hivecalc.drawing.roof import roof_from_above as view_from_above
from hivecalc.drawing.roof_section import roof_section as drawn_section
from hivecalc.hive import Hive, changed, demo_hive
from hivecalc.space import only_these
from tests.pictures import (
    BARE,
    FLAT,
    KINDS,
    NS,
    PX,
    Sizes,
    box_of,
    corners,
    described,
    edges,
    extent,
    missing,
    parsed,
    parts,
    scaled,
    trio,
    true_values,
    views,
    words,
)

roof_section, _, _ = trio(drawn_section)
roof_from_above, _, _ = trio(view_from_above)
ROOF = "roof."


def cut_values(hive: Hive, **cuts: Fraction) -> Sizes:
    return values(hive, {ROOF + name: size for name, size in cuts.items()})


def whole(root: ET.Element) -> dict[str, ET.Element]:
    return parts(next(views(root)))


# The edges of each outline that are sizes of the piece.
SIZES_OF = {
    "deck": ("deck_length", "deck_thickness"),
    "cover": ("cover_length", "cover_thickness"),
    "rim front": ("rim_front_thickness", "rim_front_width", "rim_front_inner_height"),
    "rim back": ("rim_back_thickness", "rim_back_width"),
    "rim side, left": ("rim_side_length", "rim_side_width"),
    "roof panel": ("roof_panel_thickness",),
    "roof retainer, left": ("roof_retainer_length", "roof_retainer_thickness"),
    "skirt end, front": ("skirt_end_thickness",),
}


@pytest.mark.parametrize("kind", ["smallest", "eight-frame", "metric", "steep", "flat", "bare"])
def test_every_piece_of_the_section_is_drawn_to_scale(kind):
    now = values(KINDS[kind])
    root = parsed(roof_section(now))
    scale, pieces = float(root.attrib["data-scale"]), whole(root)
    for piece, sizes in SIZES_OF.items():
        found = edges(pieces[piece])
        for size in sizes:
            wished = float(now[ROOF + size]) * scale
            assert any(abs(edge - wished) < PX for edge in found), (piece, size)


# ── what is drawn where ────────────────────────────────────────────────────────────────────────


# By hand: a roof, what is told on it, what is not. Common practice, no published source.
SEEN: list[tuple[Sizes, Sizes | None, tuple[str, ...], tuple[str, ...]]] = [
    # A hive 22 1/2 in long: rim 22 1/2 + 1/2; foam 23 - 1 1/2 - 1; deck 22 1/2 + 2 × 2; cover
    # 26 1/2 + 2 × 1/2; screws 1 3/4 + 3/4 from the deck's edge and 1/2 more from the cover's, at
    # the back 1/4 less; a skirt of 1 1/2 + 7/8 of inner cover + 1; a fall of 2 in over 23 in is
    # 24/23 in a foot.
    (true_values("22 1/2", "16"), None,
     ("rim side 23 in", "foam 20 1/2 in", "lap on the box 1 in", "lip 1/2 in", "overhang 2 in",
      "falls 2 in to the back over 23 in, about 1 1/16 in", "cover 27 1/2 in", "deck 26 1/2 in",
      "screw from cover's edge 3 in", "screw from deck's edge 2 1/2 in", "rim front 3 1/2 in",
      "screw from cover's edge 2 3/4 in", "screw from deck's edge 2 1/4 in"), ()),
    # 2 - 1 1/2 is 1/2 in below the rim, 3/8 less than the inner cover of 7/8 in
    (true_values(skirt_width="2"), None,
     ("The skirt ends 3/8 in above the box: wind and rain get in.",), ("lap on the box",)),
    # a deck of 27 1/8 in on a slope of 2 in 23 5/8 is 27.028 in long in plan, so it stands out
    # 1.952 in beyond a hive of 23 1/8 in: 1 15/16 in to the nearest sixteenth
    (true_values(), None, ("level ≈ 1 15/16 in", "inner cover 7/8 in"), ()),
    (values(BARE), None, ("lap on the box 1 in",), ("inner cover",)),
    # 1 1/2 from the cover's edge is 1 in from the deck's, and the rim begins at 1 3/4
    (true_values(), values(demo_hive(), {"roof.cover_screw_line": Fraction(3, 2)}),
     ("At the front the screw through the cover misses the rim front.", "should be 3 in"), ()),
]  # fmt: skip


@pytest.mark.parametrize(("now", "cut", "told", "not_told"), SEEN, ids=range(len(SEEN)))
def test_figures_of_a_roof_worked_by_hand(now, cut, told, not_told):
    root = parsed(roof_section(now, cut) if cut else roof_section(now))
    seen = words(root)
    assert not missing(told, seen + described(root))
    assert len(missing(not_told, seen)) == len(not_told)
    beside = [e for e in root.iter() if e.get("data-screw", "").startswith("misses")]
    assert bool(beside) == (cut is not None)
    assert all("wrong" in e.attrib["fill"] for e in beside)


def test_the_deck_slopes_to_the_back_and_lies_on_the_rim():
    # By hand: 3 1/2 - 1 1/2 = 2 in over 23 1/8 + 1/2 = 23 5/8 in.
    pieces = whole(parsed(roof_section(true_values())))
    front, back, *_ = corners(pieces["deck"])
    assert front[0] < back[0]
    assert (back[1] - front[1]) / (back[0] - front[0]) == pytest.approx(2 / 23.625, abs=5e-4)
    shapes = {name: Polygon(corners(e)) for name, e in pieces.items()}
    for low, high in (
        ("rim front", "deck"), ("roof panel", "deck"), ("deck", "cover"),
        ("rim front", "roof panel"), ("roof panel", "rim back"),
    ):  # fmt: skip
        assert shapes[low].distance(shapes[high]) < 0.05, (low, high)
        assert shapes[low].intersection(shapes[high]).area < 240 * PX, (low, high)


def test_the_skirt_laps_the_box_at_both_ends():
    # By hand: an inner cover of 3/8 + 2 × 1/4 = 7/8 in, and 1 in of lap on the box below it.
    root = parsed(roof_section(true_values()))
    assert "inner cover 7/8 in" in words(root)
    pieces, scale = whole(root), float(root.attrib["data-scale"])
    foot = box_of(pieces["rim front"]).bottom
    for end in ("front", "back"):
        low = box_of(pieces[f"skirt end, {end}"]).bottom
        assert low - foot == pytest.approx(scale * 15 / 8, abs=PX)


def test_rain_falls_clear_of_the_cover():
    root = parsed(roof_section(true_values()))
    edge = box_of(whole(root)["cover"]).right
    drops = [e for e in root.iter() if e.get("data-rain") == "drop"]
    assert len(drops) == 6  # three off the whole roof, three off its enlarged end
    assert min(x for e in drops[:3] for x, _ in corners(e)) > edge


def test_foam_that_hangs_out_of_the_rim_is_told():
    # By hand: at the rim's back, 1 in before its end, the deck is 1 1/2 + 16/189 in up; 3 in of
    # foam hang 1.415 in below the rim there, and the strips under them more.
    root = parsed(roof_section(true_values(roof_foam_thickness="3")))
    told = re.search(r"hang ≈ ([\d /]+) in below the rim: the roof rocks", words(root))
    assert told
    whole_inches, top, bottom = map(int, re.split(r"[ /]", told[1]))
    assert 1.415 < whole_inches + top / bottom < 1.415 + 0.51


def test_a_flat_roof_is_told_to_be_tilted_on_its_stand():
    # By hand: the rim is 3 1/2 in high all round; the skirt 3 1/2 + 7/8 + 1 = 5 3/8 in wide.
    root = parsed(roof_section(values(FLAT)))
    assert "The roof is flat: tilt the stand to the back" in words(root)
    assert "lap on the box 1 in" in words(root)
    (y0, *_, y1) = (y for _, y in corners(whole(root)["deck"])[:2])
    assert y0 == pytest.approx(y1, abs=PX)
    scale = float(root.attrib["data-scale"])
    tall = extent(whole(root)["skirt end, front"])[1]
    assert tall == pytest.approx(5.375 * scale, abs=PX)


# ── screws ─────────────────────────────────────────────────────────────────────────────────────


def drawn_screws(svg: str) -> list[tuple[str, LineString]]:
    """What each screw of the whole roof is said to do, and its middle from its head to its tip.

    In front first, and at each end the cover's first.
    """
    view = next(views(parsed(svg)))
    found, middle = [], 180  # of a sheet 360 wide
    for element in view.iter():
        if "data-screw" in element.attrib:
            left, _, _, tip, _, _, right = corners(element)
            head = ((left[0] + right[0]) / 2, (left[1] + right[1]) / 2)
            place = tip[0] > middle, element.attrib["data-sheet"]
            found.append((place, element.attrib["data-screw"], LineString([head, tip])))
    return [(said, screw) for _, said, screw in sorted(found, key=lambda each: each[0])]


def test_screws_are_as_long_as_they_are_and_stand_on_the_lines_that_are_marked():
    # By hand, along the slope: 2 - 1/4 + 3/4 = 2 1/2 in from the deck's edge, 1/2 more from the
    # cover's; at the back, whose rail is 1 in thick, 1/4 less. 1 in and 1 5/8 in long.
    svg = roof_section(true_values())
    root = parsed(svg)
    scale, pieces = float(root.attrib["data-scale"]), whole(root)
    cover, deck = corners(pieces["cover"]), corners(pieces["deck"])
    screws = drawn_screws(svg)
    wished = ((cover[3], 3, 1), (deck[3], 2.5, 1.625), (cover[2], 2.75, 1), (deck[2], 2.25, 1.625))
    assert len(screws) == len(wished)
    for (_, screw), (edge, away, long) in zip(screws, wished, strict=True):
        assert screw.length == pytest.approx(long * scale, abs=PX)
        assert Point(edge).distance(Point(screw.coords[0])) == pytest.approx(away * scale, abs=PX)


def test_screw_lines_are_measured_above_the_cover():
    root = parsed(roof_section(true_values()))
    for view in list(views(root))[1:]:
        (cover,) = (Polygon(corners(e)) for e in view.iter() if e.get("fill") == "#e8e8e8" and
                    "data-screw" not in e.attrib)  # fmt: skip
        marked = [
            LineString(corners(e)) for e in view.iter() if "screw_line" in e.get("data-name", "")
        ]
        assert len(marked) == 2
        for line in marked:
            assert line.distance(cover) > 8
            assert line.centroid.y < cover.centroid.y


@pytest.mark.parametrize("line", ["cover_screw_line", "deck_screw_line"])
@pytest.mark.parametrize("eighths", range(4, 44, 5))
def test_a_screw_misses_where_shapely_finds_it_beside_the_rail(line, eighths):
    svg = roof_section(true_values(), cut_values(demo_hive(), **{line: Fraction(eighths, 8)}))
    pieces = {n: Polygon(corners(e)) for n, e in whole(parsed(svg)).items()}
    screws = drawn_screws(svg)
    assert screws
    for number, (said, screw) in enumerate(screws):
        rail = "rim front" if number < len(screws) / 2 else "rim back"
        below = screw.difference(pieces["cover"]).difference(pieces["deck"])
        left, _, right, foot = pieces[rail].bounds
        beside = below.difference(box(left - 0.05, 0, right + 0.05, foot)).length > 0.05
        lands = not beside and pieces[rail].contains(Point(screw.coords[-1]))
        assert lands == said.endswith("lands in the rail"), (said, number)
        told = words(parsed(svg))
        assert lands or f"{'At the ' + rail[4:]} the screw" in told


def test_the_thin_back_of_a_rim_of_thick_studs_has_a_line_of_its_own():
    # By hand: half of 2 1/4 in, 1 1/8, lies behind a back of 1/2 in: at the back the front's line
    # misses, its own does not.
    sizes = {"stud_thickness": "2 1/4", "rim_back_thickness": "1/2"}
    said = [what for what, _ in drawn_screws(roof_section(true_values(**sizes)))]
    assert said == ["cover: lands in the rail", "deck: lands in the rail"] * 2
    hive = changed(demo_hive(), sizes)
    front = values(hive)["roof.cover_screw_line"]
    svg = roof_section(values(hive), cut_values(hive, cover_back_screw_line=front))
    assert "misses the rim back" in [what for what, _ in drawn_screws(svg)]


def test_a_screw_that_is_too_short_or_too_long_for_its_rail_is_told():
    # By hand: 1/2 in of deck and the rim's back of 1 1/2 in are less than a screw of 3 in.
    said = [what for what, _ in drawn_screws(roof_section(true_values(deck_screw="3")))]
    assert said[1::2] == ["deck: lands in the rail", "comes out below the rim back"]
    # By hand: a deck of 1 in and a cover of 5/32 in are more than a screw of 1 in.
    said = [what for what, _ in drawn_screws(roof_section(true_values(deck_thickness="1")))]
    assert said[::2] == ["does not reach the rim front", "does not reach the rim back"]
    assert set(said[1::2]) == {"deck: lands in the rail"}


# ── screws from above ──────────────────────────────────────────────────────────────────────────


def circles(root: ET.Element) -> dict[bool, list[tuple[float, float]]]:
    """Where screws stand on the picture: rings are those of the deck."""
    found: dict[bool, list[tuple[float, float]]] = {False: [], True: []}
    for e in root.iter(f"{NS}circle"):
        found[e.attrib["stroke"] != "none"].append((float(e.attrib["cx"]), float(e.attrib["cy"])))
    return found


def test_screws_from_above_by_hand():
    """A hive of 22 1/2 by 16: cover 27 1/2 by 21; its screws 3 in from the edge, 2 3/4 at the back.

    So the line is 21 3/4 by 15: spaces of 5 7/16 along, 7 1/2 across; the deck's in the middle of
    those along, and 2 1/2 from the cover's across.
    """
    root = parsed(roof_from_above(true_values("22 1/2", "16")))
    scale = float(root.attrib["data-scale"])
    cover = next(e for e in root.iter(f"{NS}polygon"))
    (left, top), *_ = corners(cover)
    along, across = [3 + 5.4375 * i for i in range(5)], [3, 10.5, 18]
    wished = {(x, y) for x in along for y in (3, 18)} | {(x, y) for x in (3, 24.75) for y in across}
    between = {(x + 5.4375 / 2, y) for x in along[:-1] for y in (3, 18)}
    between |= {(x, y) for x in (3, 24.75) for y in (5.5, 8, 13, 15.5)}
    for ring, places in ((False, wished), (True, between)):
        seen = {((x - left) / scale, (y - top) / scale) for x, y in circles(root)[ring]}
        assert len(seen) == len(places)
        for place in places:
            assert min(hypot(place[0] - x, place[1] - y) for x, y in seen) < 0.01
    told = ("12 screws of the cover, 1 in long", "16 screws of the deck", "2 3/4 in")
    assert not missing(told, words(root))


# ── wrong cuts ─────────────────────────────────────────────────────────────────────────────────


def test_a_gap_on_the_slope_is_marked_from_face_to_face():
    # By trigonometry: a deck 1/4 in too thin leaves 1/4 in square to the slope; upright, that is
    # by the cosine of a slope of 2 in 23 5/8 more. The ends of the deck look another way.
    root = parsed(
        roof_section(true_values(), cut_values(demo_hive(), deck_thickness=Fraction(1, 4)))
    )
    element, scale = next(m for m in scaled(root) if m[0].get("data-fault") == "open")
    places = corners(element)
    sides = pairwise([*places, places[0]])
    ends = [abs(y1 - y0) for (x0, y0), (x1, y1) in sides if x0 == x1]
    assert ends == pytest.approx([0.25 * hypot(1, 2 / 23.625) * scale] * 2, abs=PX)
    assert "it leaves a gap of a little more than 1/4 in to the cover" in words(root)


@pytest.mark.parametrize("length", ["22", "19", "15"])
def test_leaders_end_in_their_view_where_a_deck_is_far_too_short(length):
    cut = values(demo_hive(), only_these(true_values(), {f"{ROOF}deck_length": Fraction(length)}))
    root = parsed(roof_section(true_values(), cut))
    shown = {view.attrib["data-view"]: view for view in views(root)}
    for end in ("front", "back"):
        shapes = [box_of(e) for e in shown[f"{end} end, enlarged"].iter(f"{NS}polygon")]
        left, top, right, bottom = (pick(at) for pick, at in zip(
            (min, min, max, max), zip(*shapes, strict=True), strict=True))  # fmt: skip
        dots = [e.attrib for e in root.iter(f"{NS}circle") if e.get("r") == "1.7"]
        beside = [float(e["cx"]) for e in dots if top < float(e["cy"]) < bottom]
        assert beside
        assert left - PX <= min(beside) <= max(beside) <= right + PX
