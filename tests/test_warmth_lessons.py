"""Lessons 12 and 13: what their pages say, their charts, their panels, the judged sum."""

import re
import xml.etree.ElementTree as ET
from fractions import Fraction
from html import escape, unescape

import pytest

from hivecalc.drawing import charts
from hivecalc.exercise import LESSONS, posed
from hivecalc.hive import HiveFaults, demo_hive, hive_from_text
from hivecalc.pages import warmth as page
from hivecalc.support.faults import RefusedError
from hivecalc.warmth.layers import FOAM, RESISTANCE, SOFTWOOD, Element, Path, imperial, layer
from hivecalc.warmth.losses import beside_slips, chain_slips, in_a_row, links, side_by_side
from hivecalc.warmth.sections import RAIL, RIM, STRIPS
from hivecalc.widgets import Bench
from hivecalc.wood import gap_names
from tests.panels import enter, has, said, words

HIVES = {
    "demo": demo_hive(),
    "sleeved": hive_from_text("chosen.frames = 10"),
    "no cover": hive_from_text('chosen = {frames = 8, inner_cover = "no", boxes = 2}'),
    "mm": hive_from_text('units = "mm"\nmeasured = {hive_length = 587, hive_width = 441}'),
}
YEAR = ("panel, front to back", "white fir", "seattle", "12")
OUTCOMES = {
    "lost": lambda h: page.lost(h, "68 F", "14 F"),
    "wall": lambda h: page.wall_with_foam(h, "2 in"),
    "rail": lambda h: page.bridged(h, RAIL),
    "rim": lambda h: page.bridged(h, RIM),
    "year": lambda h: page.gap_through_year(h, *YEAR),
}


# ── charts ────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("hive", ["sleeved", "mm"])
@pytest.mark.parametrize("name", OUTCOMES)
def test_a_chart_has_a_title_a_description_letters_and_its_numbers_as_a_table(name, hive):
    found = OUTCOMES[name](HIVES[hive])
    root = ET.fromstring(found.picture)
    space = "{http://www.w3.org/2000/svg}"
    assert root.get("role") == "img"
    for part, names in (("title", "aria-labelledby"), ("desc", "aria-describedby")):
        said = root.find(f"{space}{part}")
        assert said.text
        assert said.get("id") == root.get(names)
    sizes = re.findall(r"font: (?:\w+ )*([\d.]+)px|font-size: ([\d.]+)px", found.picture)
    assert sizes
    assert min(float(a or b) for a, b in sizes) >= 12
    assert "<text" in found.picture
    assert "<table" in found.follows


def test_names_in_a_chart_can_do_no_harm():
    row = [("walls", 4.0, 5.0, 6.0)]
    assert charts.bars("Heat", row, "W") == charts.bars("Heat", row, "W")  # the same each time
    drawn = charts.bars("<script>", [("<b>", 1.0, 2.0, 3.0)], "W")
    has(drawn, without=("<script>", "<b>"))
    ET.fromstring(drawn)


def test_bars_grow_with_their_numbers():
    """The longest bar's right end lies farther right by as much as its number is larger."""
    drawn = ET.fromstring(charts.bars("Heat", [("a", 9, 10, 11), ("b", 19, 20, 21)], "W"))
    boxes = [p.get("d") for p in drawn.iter("{http://www.w3.org/2000/svg}path")
             if "url(#h" in (p.get("style") or "")]  # fmt: skip
    ends = [max(float(x) for x in re.findall(r"[ML] ([\d.]+) ", d)) for d in boxes]
    starts = [min(float(x) for x in re.findall(r"[ML] ([\d.]+) ", d)) for d in boxes]
    one, two = (end - start for start, end in zip(starts, ends, strict=True))
    assert two == pytest.approx(2 * one, rel=1e-3)


# ── what is said ──────────────────────────────────────────────────────────────────────────────


def test_the_table_under_the_line_has_the_temperatures_of_the_layers():
    """1 in of foam between a 3/4 in board and a 1/2 in skin, 68 and 14 °F: by hand."""
    r = [0.13, 0.01905 / SOFTWOOD.conductivity, 0.0254 / FOAM.conductivity, 0.0127 / 0.13, 0.04]
    face = 68 - 54 * r[0] / sum(r)
    said = words(page.wall_with_foam(HIVES["sleeved"], "1").message)
    assert f"The inside face is {face:.0f} °F" in said


def test_more_foam_makes_the_inside_face_warmer():
    faces = [
        int(re.search(r"face is (\d+) °F", words(page.wall_with_foam(demo_hive(), t).message))[1])
        for t in ("1/2", "1", "2", "4")
    ]
    assert faces == sorted(faces)
    assert faces[0] < faces[-1]


def test_foam_that_is_not_sold_and_what_is_no_number_is_refused():
    sold = "1/2 in to 4 in"
    for text, told in {"0": sold, "1/4": sold, "5": sold, "1 m": sold, "thick": "length"}.items():
        with pytest.raises(RefusedError, match=told):
            page.wall_with_foam(demo_hive(), text)
    for text in ("much", "1/2", "-3", "7.4 m"):
        with pytest.raises(HiveFaults, match="not a number"):
            page.judged_resistance(demo_hive(), text)


def test_a_hive_without_a_sleeve_has_no_edge_strips():
    assert "Only a hive in a sleeve" in page.bridged(demo_hive(), STRIPS).message
    assert "<svg" in page.bridged(HIVES["sleeved"], STRIPS).picture


def test_damper_air_wets_more_faces():
    dry, damp = (page.first_drops(demo_hive(), "68 F", "14 F", rh).message for rh in ("20", "90"))
    assert "All faces are dry now." in dry
    assert "Wet now: bottom board&#x27;s rail" in damp
    assert damp.count(",") > dry.count(",")


def test_along_the_grain_a_board_hardly_moves():
    found = page.swelling(demo_hive(), "9 1/2", "12", "8")
    assert "dries and shrinks" in found.message
    assert re.search(r"along the grain\s+hardly any", words(found.follows))
    assert "as big" in page.swelling(demo_hive(), "9 1/2", "12", "12").message


def test_what_is_left_out_and_where_figures_come_from_stands_on_the_page():
    said = page.left_out()
    assert all(word in said for word in ("Wind", "bees", "EN ISO 10456", "from memory"))


# ── the sum of the chain, judged ──────────────────────────────────────────────────────────────


def test_the_right_sum_is_that_of_the_column():
    column = [link.r for link in page.links_offered(demo_hive()) if link.on_the_way]
    right = f"{sum(column):.1f}"
    for text in (right, f"R {right}", right.replace(".", ",")):
        assert "Right." in page.judged_resistance(demo_hive(), text)


@pytest.mark.parametrize("hive", HIVES.values(), ids=HIVES)
def test_the_sum_that_stands_further_down_is_right_too(hive):
    """There it is rounded once, not link by link: with a skin of 12 mm it is 7.4, and not 7.3."""
    foam = "1 in" if hive.units == "inch" else "25 mm"
    (further_down,) = re.findall(r"R (\d+\.\d+)", page.wall_with_foam(hive, foam).message)
    assert "Right." in page.judged_resistance(hive, further_down)


@pytest.mark.parametrize(("slip", "said"), [
    ("film_forgotten", "film were left out"), ("films_forgotten", "both films"),
    ("u_for_r", "one divided by R"), ("side_by_side", "side by side"), ("other_r", "metres"),
])  # fmt: skip
def test_a_known_slip_gets_its_sentence(slip, said):
    chain = links(page.sleeved_wall(demo_hive(), Fraction(1)))
    found = next(s for s in chain_slips(chain) if s.name == slip)
    told = page.judged_resistance(demo_hive(), f"{found.value:.3g}")
    assert said in told
    assert "hc-wrong" in told


def test_a_chain_in_mm_is_in_m2_k_per_watt():
    """25 mm of foam, 20 of board, 12 of skin: 0.13 + 0.17 + 0.87 + 0.09 + 0.04, R 7.4 in inches."""
    metric = demo_hive("mm")
    said = [link.said for link in page.links_offered(metric) if link.on_the_way]
    assert said == ["R 0.13", "R 0.17", "R 0.87", "R 0.09", "R 0.04"]
    counts = {link.name: int(link.on_the_way) for link in page.links_offered(metric)}
    assert "Right." in page.judged_layers_sum(metric, counts, "1,30")
    for text, told in (
        ("1.26", "the outside film were left out"), ("7.38", "inches were used"),
        ("0.77", "one divided by R"), ("1.31", "Not this"),
    ):  # fmt: skip
        assert told in page.judged_layers_sum(metric, counts, text)
    assert "A right sum" in page.judged_layers_sum(metric, counts | {"skin": 0}, "1.21")


def test_no_slip_is_right_and_no_other_answer_gets_one():
    chain = links(page.sleeved_wall(demo_hive(), Fraction(1)))
    assert all(abs(s.value - in_a_row(chain)) > 0.05 for s in chain_slips(chain))
    assert "Not this." in page.judged_resistance(demo_hive(), "99")


def test_side_by_side_is_the_upper_limit_of_the_standard():
    """ISO 6946 without films: an inch of foam, a tenth of it wood of R 1."""
    ways = [Path(0.9, (layer(FOAM, 0.0254),)), Path(0.1, (layer(SOFTWOOD, 0.0254 / 1.197),))]
    wall = Element(tuple(ways), "level")
    bare = 1 / sum(p.share / imperial(p.resistance, RESISTANCE) for p in wall.paths)
    assert side_by_side([(0.9, 5.0), (0.1, 1.0)]) == pytest.approx(bare, abs=0.06)
    assert all(s.value != 3.6 for s in beside_slips([(0.9, 5.0), (0.1, 1.0)]))


@pytest.mark.parametrize(
    ("number", "units", "right"),
    [("12-04", "inch", "R 7.4"), ("12-05", "inch", "R 3.6"), ("12-04", "mm", "R 1.30")],
)
def test_an_exercise_on_heat_has_the_answer_of_paper(number, units, right):
    """0.7 + 0.9 + 5.0 + 0.6 + 0.2; and one divided by 0.9/5 + 0.1/1, which is 3.57.

    In mm 0.13 + 2 x 0.083 + 2.5 x 0.347 + 1.2 x 0.077 + 0.04, in m²·K/W.
    """
    (record,) = (e for e in LESSONS["12"].exercises if e.id == number)
    asked = posed(record, units=units)
    assert asked.model_answer == right
    assert asked.verdict(right).verdict == "right"
    wrong = [o for o in asked.options if not o.right]
    assert len(wrong) >= 3
    assert all("would get if" in asked.verdict(o.text).message for o in wrong)


# ── panels ────────────────────────────────────────────────────────────────────────────────────


@pytest.fixture
def bench_on(file, monkeypatch):
    """Make a bench on a hive file with this text."""
    monkeypatch.chdir(file.parent)

    def made(text: str) -> Bench:
        file.write_text(text, encoding="utf-8")
        return Bench(str(file))

    return made


@pytest.fixture
def bench(bench_on):
    return bench_on("chosen.frames = 10\n")


def test_a_temperature_is_typed_and_the_bars_follow(bench):
    panel = bench.heat()
    inside, outside = panel.fields
    before = panel.picture.value
    assert "50 °F" in enter(outside, "50 F")
    assert panel.picture.value != before
    assert "not a temperature" in enter(outside, "fifty")
    assert panel.picture.value == panel.message.value == ""
    enter(outside, "50 F")
    enter(inside, "0 F")
    assert "colder than outside" in said(panel.message)
    assert panel.picture.value == ""


def test_who_measures_in_mm_reads_degrees_celsius_first(bench_on):
    inside, outside = bench_on('units = "mm"\nchosen.frames = 10\n').heat().fields
    assert (inside.box.value, outside.box.value) == ("20 C", "-10 C")
    assert "−5 °C (23 °F)" in enter(outside, "-5 C")
    metric = HIVES["mm"]
    for text in (page.built_otherwise(metric), page.wall_with_foam(metric, "25").message):
        assert re.search(r"\d °C \(−?\d+ °F\)", text)
        assert not re.search(r"°F \(", text)


def test_slider_and_field_are_twins(bench):
    panel = bench.foam()
    panel.slider.value = "2 in"
    assert panel.field.box.value == "2 in"
    assert "2 in of foam" in panel.picture.value
    panel.field.box.value = "1 1/2"
    assert panel.slider.value == "1 1/2 in"
    assert "1 1/2 in of foam" in panel.picture.value
    panel.field.box.value = "9"
    assert "9 in is too large" in panel.field.message.value
    assert panel.picture.value == ""


def test_a_metric_hive_slides_on_whole_millimetres(bench_on):
    panel = bench_on('units = "mm"\nmeasured = {hive_length = 587, hive_width = 441}\n').foam()
    assert panel.slider.value == panel.field.box.value == "25 mm"
    panel.field.box.value = "51"
    assert panel.slider.value == "51 mm"
    assert "51 mm of foam" in panel.picture.value


def test_places_and_gaps_are_chosen(bench):
    section, year = bench.section_through(), bench.gap_in_a_year()
    before = section.picture.value
    section.lists[0].value = RIM
    assert section.picture.value != before
    year.lists[0].value = "box, under the frames"
    year.lists[2].value = "phoenix"
    assert "Box, under the frames, in Phoenix" in year.picture.value
    assert "wood that moves" in year.message.value
    for text, said_so in (
        ("60", "is too wet; write 4 to 25, in percent: wetter wood hardly swells any more"),
        ("3", "is too dry; write 4 to 25, in percent: no yard has drier wood"),
        ("damp", "is not a number; write 4 to 25"),
        ("nan", "is not a number"),
        ("12,5", "This is 12.5 %."),
    ):
        assert said_so in enter(year.fields[0], text)


def test_a_gap_for_both_says_which_both():
    """The screen's gap in Phoenix moves by more than a quarter of it, and by less than a half."""
    year = ("screen, side to side", "white fir", "phoenix", "12")
    told = page.gap_through_year(demo_hive(), *year).message
    assert "This gap is there for wood that moves, and for lean, bow and dirt." in told


@pytest.mark.parametrize("hive", HIVES.values(), ids=HIVES)
def test_only_gaps_that_a_hive_has_are_offered(hive, monkeypatch):
    monkeypatch.setattr(charts, "year", lambda title, *_: title)
    names = gap_names(hive)
    for name in (names[0], names[-1]):
        found = page.gap_through_year(hive, name, "white fir", "chicago", "12")
        assert found.picture == f"{name.capitalize()}, in Chicago"
        assert [name for name in names if f">{escape(name)}</td>" not in found.follows] == []
    assert ("box, under the frames" in names) == ("frames" in hive.chosen)


def test_a_chain_of_layers_is_judged_by_what_is_in_it(bench):
    """By hand: films 0.7 and 0.2, board 0.9, foam 5.0, skin 0.6; the foam alone is 5.0."""
    panel = bench.chain_of_layers()
    others = ("inside film", "board", "skin", "outside film")

    def checked(**presses: int) -> str:
        for counter in panel.links.counters:
            times = presses.get(counter.name.replace(" ", "_"), 0)
            for _ in range(abs(times)):
                counter.press(Fraction(times, abs(times)))
        assert panel.links.said.value == "" or not presses
        panel.links.say()
        return panel.links.said.value

    assert enter(panel.sum, "7.4").startswith("✓ Right.")
    assert enter(panel.sum, "5").startswith("✗")
    has(checked(foam=1), *(f"past the {name}" for name in others))
    assert "A right sum of your chain" in enter(panel.sum, "5.0")
    assert "hc-right" in checked(inside_film=1, board=1, skin=1, outside_film=1)
    told = checked(foam=1, edge_strip_beside_the_foam=1)
    has(told, "foam counts more than once", "edge strip beside the foam lies beside the way")
    assert "past the foam" in checked(foam=-3)
    assert panel.links.counts["foam"] == -1


def test_the_panels_follow_the_hive_and_counters_keep_their_counts(bench):
    heat, layers = bench.heat(), bench.chain_of_layers()
    before = heat.picture.value
    layers.links.counters[1].press(Fraction(1))
    bench.page_hive.keep("board_thickness", "1 1/2")
    assert heat.picture.value != before
    assert layers.links.counts["board"] == 1
    assert "Right." not in enter(layers.sum, "7.4")


def test_a_metric_hive_sees_degrees_celsius_and_millimetres():
    metric = HIVES["mm"]
    assert "inside air 20 °C" in page.wall_with_foam(metric, "25 mm").picture
    found = page.bridged(metric, RIM)
    assert "Roof's rim, in °C" in unescape(found.picture)
    assert " mm of foam were missing" in found.message


def test_each_page_says_what_it_found():
    hive = demo_hive()
    assert "Most goes through: walls." in page.lost(hive, "68 F", "14 F").message
    assert "First: bottom board" in page.first_drops(hive, "68 F", "14 F", "60").message
    beside = [link.name for link in page.links_offered(hive) if not link.on_the_way]
    assert beside == ["edge strip beside the foam", "panel of the bottom board"]
    gap = page.gap_through_year(hive, "panel, front to back", "white fir", "chicago", "12")
    assert "lean, bow and dirt" in gap.message
