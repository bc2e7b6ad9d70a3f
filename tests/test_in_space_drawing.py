"""The view in space: at any turn what is in front is what one sees, labels are clear, figures true.

What lies in front is found a second way: a ray from the eye through each of many places meets the
solids, and the nearest of them must be what is painted there.
"""

import re
from collections.abc import Mapping
from datetime import UTC, datetime
from fractions import Fraction
from itertools import combinations, pairwise, product
from math import cos, dist, radians, sin, sqrt

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from hivecalc.answers import Answers
from hivecalc.components import DIMENSIONS, built, values
from hivecalc.components import parts as parts_of
from hivecalc.drawing.canvas import figure
from hivecalc.drawing.in_space import in_space, seen_from
from hivecalc.drawing.prisms import Eye, Place, faces_seen
from hivecalc.drawing.whole_hive import moves
from hivecalc.hive import Hive, changed, demo_hive, hive_from_text
from hivecalc.judging import verdict
from hivecalc.pages.contents import lessons
from hivecalc.pages.views import still_asked
from hivecalc.space import Block, Solid, is_kind, layers, solids, stacked
from tests.hives import HIVES
from tests.panels import said
from tests.pictures import (
    NS,
    PX,
    STEEP,
    assert_clear,
    corners,
    described,
    hive_of,
    hives,
    missing,
    parsed,
    parts,
    words,
)

SINE = 1 / sqrt(3)  # of the angle of the look, as ISO 5456-3 has it for an isometric drawing
KINDS = {
    "demo": demo_hive(),
    "long": hive_of("48", "8"),
    "steep": STEEP,
    "eight-frame": hive_from_text(HIVES["eight-frame"]),
    "metric": hive_from_text(HIVES["metric"]),
    "two boxes": changed(hive_from_text(HIVES["sleeved"]), {"boxes": "2"}),
}


@pytest.mark.parametrize("name", KINDS)
def test_each_piece_comes_away_in_one_way(name):
    for piece in stacked(values(KINDS[name]), built(KINDS[name])):
        ways = [each for layer in layers(piece.component) for each in layer]
        assert len([each for each in ways if is_kind(piece.label, each.kind)]) == 1, piece.name


def last_met(block: Block, starts: np.ndarray, towards: np.ndarray) -> np.ndarray:
    """How far along each ray a block's last place lies, by its x and its outline; else -inf."""
    places = [(float(y), float(z)) for y, z in block.profile]
    outs = [(-1.0, 0.0, 0.0), (1.0, 0.0, 0.0)]
    limits = [-float(block.x0), float(block.x1)]
    for (y0, z0), (y1, z1) in pairwise([*places, places[0]]):
        outs.append((0.0, z1 - z0, y0 - y1))
        limits.append((z1 - z0) * y0 + (y0 - y1) * z0)
    rates, left = np.array(outs) @ towards, np.array(limits) - starts @ np.array(outs).T
    along = np.abs(rates) < 1e-12
    ends = left[:, ~along] / rates[~along]
    high = np.where(rates[~along] > 0, ends, np.inf).min(axis=1)
    low = np.where(rates[~along] < 0, ends, -np.inf).max(axis=1)
    return np.where((low < high) & (left[:, along] >= 0).all(axis=1), high, -np.inf)


def nearest(
    pieces: list[tuple[Solid, Place]], starts: np.ndarray, towards: np.ndarray
) -> list[str | None]:
    """The piece that each ray from far away meets first."""
    blocks = [(solid.name, b, np.array(moved)) for solid, moved in pieces for b in solid.blocks]
    ends = np.array([last_met(b, starts - moved, towards) for _, b, moved in blocks])
    return [
        None if ends[one, ray] == -np.inf else blocks[one][0]
        for ray, one in enumerate(ends.argmax(axis=0))
    ]


def assert_front_is_seen(pieces: list[tuple[Solid, Place]], turn: float, places: int) -> None:
    eye, c, s = Eye(turn=turn), cos(radians(turn)), sin(radians(turn))
    faces = faces_seen(pieces, eye)
    shapes = np.array([Polygon(f.points) for f in faces])
    rng, (left, low, right, high) = np.random.default_rng(4), shapely.total_bounds(shapes)
    looked = rng.uniform((left, low), (right, high), (places, 2))
    to_edges = shapely.distance(shapely.boundary(shapes)[:, None], shapely.points(looked)[None, :])
    looked = looked[to_edges.min(axis=0) >= 0.02]  # nearer to an edge nobody can tell
    u, v = looked.T
    inside = shapely.contains_xy(shapes[:, None], u[None, :], v[None, :])
    drawn = [next((faces[n].solid.name for n in np.flatnonzero(ray)[::-1]), None)
             for ray in inside.T]  # fmt: skip
    # A place on the ground that is seen there: turned back from the sheet, by hand.
    level, away = u / sqrt(3 / 2), -v * sqrt(2)
    starts = np.stack([level * c - away * s, level * s + away * c, 0 * u], axis=1)
    towards = np.array([s * sqrt(2 / 3), -c * sqrt(2 / 3), SINE])
    assert drawn == nearest(pieces, starts, towards), turn
    assert len(looked) - drawn.count(None) > places / 20


TURNS = [0, 30, 45, 90, 137, 200, 270, 311]


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_nearest_to_the_eye_is_what_one_sees(kind):
    hive = KINDS[kind]
    now, first = values(hive), list(KINDS).index(kind)
    for n, turn in enumerate(TURNS[first % 3 :: 3]):
        whole = [(s, (0.0, 0.0, 0.0)) for s in stacked(now, built(hive))]
        assert_front_is_seen(whole, turn, 300)
        for component in built(hive)[n::2]:
            assert_front_is_seen([(s, (0.0, 0.0, 0.0)) for s in solids(now, component)], turn, 200)


def pulled_apart(
    hive: Hive, components: tuple[str, ...], share: float
) -> list[tuple[Solid, Place]]:
    pieces = moves(values(hive), components)
    return [(s, (x * share, y * share, z * share)) for s, (x, y, z) in pieces]


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_taken_apart_is_seen_in_front_too(kind):
    hive = KINDS[kind]
    for n, components in enumerate([built(hive), *((c,) for c in built(hive))]):
        assert_front_is_seen(pulled_apart(hive, components, (0.1, 0.5, 1)[n % 3]), 30 + 67 * n, 200)


# A piece that is cut 1/16 in too big, by its size, and the piece that it then runs into.
RUNS_INTO = [
    ("bottom_board", "front_rail_length", {"front rail", "side rail, right"}),
    ("roof", "roof_panel_length", {"roof panel", "rim back"}),
    ("roof", "rim_front_width", {"rim front", "deck"}),
    ("inner_cover", "rim_side_thickness", {"rim side, left", "sheet, upper"}),
]


@pytest.mark.parametrize(("component", "size", "labels"), RUNS_INTO)
def test_pieces_that_share_a_hair_of_room_are_painted_as_if_they_touched(component, size, labels):
    def painted(now: Mapping[str, Fraction], turn: float) -> list[str]:
        both = [(s, (0.0, 0.0, 0.0)) for s in solids(now, component) if s.label in labels]
        return [face.solid.label for face in faces_seen(both, Eye(turn=turn))]

    name, true = f"{component}.{size}", values(demo_hive())
    cut = values(demo_hive(), {name: true[name] + Fraction(1, 16)})
    for turn in range(0, 360, 15):
        assert painted(cut, turn) == painted(true, turn), turn


def share_room(one: tuple[Solid, Place], other: tuple[Solid, Place]) -> bool:
    (a, (ax, ay, az)), (b, (bx, by, bz)) = one, other
    for p, q in product(a.blocks, b.blocks):
        low = max(float(p.x0) + ax, float(q.x0) + bx)
        high = min(float(p.x1) + ax, float(q.x1) + bx)
        outlines = (
            Polygon([(float(y) + dy, float(z) + dz) for y, z in block.profile])
            for block, dy, dz in ((p, ay, az), (q, by, bz))
        )
        if high - low > 1e-6 and next(outlines).intersection(next(outlines)).area > 1e-6:
            return True
    return False


@pytest.mark.parametrize("kind", KINDS)
def test_no_piece_runs_into_another_while_the_hive_is_taken_apart(kind):
    hive = KINDS[kind]
    for component in built(hive):
        for share in (0.02, 0.3, 0.7, 1.0):
            for one, other in combinations(pulled_apart(hive, (component,), share), 2):
                assert not share_room(one, other), (share, one[0].name, other[0].name)


# ── labels and figures ─────────────────────────────────────────────────────────────────────────


def every_part(hive: Hive) -> list[str]:
    return [f"{p.component}.{p.part}" for p in parts_of(hive)]


def named(svg: str) -> dict[str, Fraction]:
    """What each dimension line says: on a turned piece it is no longer as long as that."""
    drawn = (e.attrib for e in parsed(svg).iter() if "data-exact" in e.attrib)
    return {e["data-name"]: Fraction(e["data-exact"]) for e in drawn}


@given(
    st.one_of(st.sampled_from(list(KINDS.values())), hives()),
    st.data(),
    st.integers(-180, 180),
    st.sampled_from([0.0, 0.3, 1.0]),
)
@settings(max_examples=40)
def test_any_look_at_any_hive_is_sound_and_clear_with_true_figures(hive, data, turn, share):
    now = values(hive)
    lit = data.draw(st.sampled_from(every_part(hive)))
    whole = data.draw(st.booleans())
    components = built(hive) if whole else (lit.partition(".")[0],)
    svg = in_space(
        now, components, turn=turn, opened=share, lit=lit, units=hive.units, name=hive.name
    )
    root, told = assert_clear(svg), named(svg)
    assert told
    assert told.items() <= now.items()
    sizes = {n.removeprefix(f"{lit}_"): exact for n, exact in told.items()}
    said, words_of = words(root), {"thickness": "thick", "width": "wide", "length": "long"}
    for size, word in words_of.items():
        if size in sizes:
            assert f"{figure(sizes[size], hive.units)} {word}" in said


@pytest.mark.parametrize("kind", ["steep", "metric", "two boxes"])
def test_nothing_moves_beside_the_picture_while_it_is_turned_and_taken_apart(kind):
    hive = KINDS[kind]
    now, part = values(hive), every_part(hive)[0]
    for components in (built(hive), *((c,) for c in built(hive))):
        looks = [(0, 0.0, ""), (75, 0.4, part), (200, 1.0, "")]
        drawn = (in_space(now, components, turn=t, opened=o, lit=lit) for t, o, lit in looks)
        assert len({re.findall("viewBox='[^']+'", svg)[0] for svg in drawn}) == 1


def test_a_lit_piece_by_hand():
    # By hand on the demo hive, 23 1/8 by 17 3/8 in, studs 1 1/2 by 3 1/2: side rail 23 1/8 - 1 1/2.
    now = values(demo_hive())
    for turn in (0, 30, 200):
        svg = in_space(now, ["bottom_board"], turn=turn, lit="bottom_board.side_rail")
        root = parsed(svg)
        assert not missing(("1 1/2 in thick", "3 1/2 in wide", "21 5/8 in long"), words(root))
        told = "Side rail × 2: stands on edge; 1 1/2 in thick, 3 1/2 in wide, 21 5/8 in long"
        assert told in described(root)
        drawn = [e for e in root.iter(f"{NS}g") if "data-part" in e.attrib]
        thick = {e.attrib["data-part"] for e in drawn if float(e[0].attrib["stroke-width"]) > 2}
        assert {name.partition(",")[0] for name in thick} == {"bottom board: side rail"}


def test_each_dimension_is_drawn_as_long_as_its_edge_is_seen():
    # Turned by 45 degrees all three axes are drawn to one scale, as ISO 5456-3 has it.
    now = values(demo_hive())
    root = parsed(in_space(now, ["bottom_board"], turn=45, lit="bottom_board.back_rail"))
    scale = float(root.attrib["data-scale"])
    lines = [e for e in root.iter(f"{NS}line") if "data-exact" in e.attrib]
    assert len(lines) == 3
    for e in lines:
        assert dist(*corners(e)) == pytest.approx(float(Fraction(e.attrib["data-exact"])) * scale,
                                                  abs=PX)  # fmt: skip


@pytest.mark.parametrize("lit", every_part(demo_hive())[::3])
def test_no_figure_that_is_still_asked_is_told(lit):
    now, component = values(demo_hive()), lit.partition(".")[0]
    told = named(in_space(now, [component], lit=lit))
    for name, exact in told.items():
        svg = in_space(now, [component], lit=lit, asked=[name])
        assert named(svg).keys() == told.keys() - {name}
        assert svg.count("? ") == 2  # on the picture and in its description
        if list(told.values()).count(exact) == 1:
            assert not re.search(rf"[>;,] ?{figure(exact, 'inch')} (thick|wide|long)", svg)


def test_what_lessons_ask_and_what_leads_there_is_asked_until_it_is_found(tmp_path):
    hive, answers = demo_hive(), Answers(tmp_path / "answers.json", "Orchard hive")
    asked = still_asked(hive, answers)
    # Lesson 06 asks for the sheet, which is as long as the hive; a front stop's height is derived.
    assert {"inner_cover.sheet_length", "bottom_board.screen_front_stop_thickness"} <= asked
    assert not {"bottom_board.side_rail_thickness", "inner_cover.sheet_thickness"} & asked
    for lesson in lessons():
        dimensions = {name for name in lesson.asks if name in DIMENSIONS.dimensions}
        assert dimensions <= asked, lesson.name


def test_only_what_is_shown_is_there():
    now = values(demo_hive())
    shown = ["bottom_board.front_rail", "bottom board: side rail, left"]
    root = parsed(in_space(now, ["bottom_board"], shown=shown))
    assert parts(root).keys() == {"bottom board: front rail", "bottom board: side rail, left"}
    whole = parsed(in_space(now, ["bottom_board"]))
    assert root.attrib["viewBox"] == whole.attrib["viewBox"]


def test_where_one_looks_from_is_told():
    # By hand: turned by 90 degrees the right side looks at you, by 180 the back.
    now = values(demo_hive())
    for turn, side in ((0, "the front"), (90, "the right"), (180, "the back"), (270, "the left")):
        assert seen_from(turn) == side
        told = words(parsed(in_space(now, ["roof"], turn=turn)))
        assert f"From {side}, from above." in told
    pieces = [(s, (0.0, 0.0, 0.0)) for s in solids(now, "bottom_board")]
    faces = {f.solid.label: f for f in faces_seen(pieces, Eye(turn=0))}
    assert faces["front rail"].box.bottom > faces["back rail"].box.bottom


def test_a_picture_is_no_larger_than_a_page_is_sent_at_a_time():
    hive = KINDS["eight-frame"]
    for component in built(hive):
        svg = in_space(values(hive), [component], opened=1.0)
        assert len(svg.encode()) < 18_000, component


# ── the panel ──────────────────────────────────────────────────────────────────────────────────


def test_a_panel_is_turned_taken_apart_and_lit(bench):
    panel = bench.in_space("bottom_board")
    assert "put together" in panel.picture.value
    panel.turn.value, panel.apart.value = 180, 50
    assert "taken apart" in panel.picture.value
    assert "From the back, from above." in panel.picture.value
    panel.lit.value = "bottom_board.front_rail"
    assert said(panel.message) == (
        "• Front rail: stands on edge, between the side rails. • 1 1/2 in thick, ? wide, ? long."
    )


def test_a_figure_is_told_once_it_is_found(bench):
    # By hand on the demo hive: 17 3/8 - 2 × 1 1/2.
    panel, rail = bench.in_space("bottom_board"), "bottom_board.front_rail_length"
    panel.lit.value = "bottom_board.front_rail"
    assert "14 3/8" not in panel.picture.value + panel.message.value
    right = verdict(bench.hive, rail, "14 3/8")
    bench.page_hive.answers.add(rail, "14 3/8", right, datetime.now(UTC))
    assert "14 3/8 in long" in panel.picture.value
    assert "14 3/8 in long" in said(panel.message)
    assert "? wide" in said(panel.message)


def test_a_panel_follows_the_hive(bench):
    panel = bench.in_space("inner_cover")
    assert "inner_cover.channel_back" in dict(panel.lit.options).values()
    panel.lit.value = "inner_cover.channel_back"
    bench.page_hive.keep("inner_notch", "0")
    assert "inner_cover.channel_back" not in dict(panel.lit.options).values()
    assert panel.lit.value == ""
    bench.page_hive.keep("inner_cover", "no")
    assert said(panel.message) == "• This hive has none, as it is built."
    assert panel.picture.value == ""


def test_the_whole_hive_is_shown_where_no_component_is_named(bench):
    panel = bench.in_space()
    assert "The whole hive" in panel.picture.value
    panel.lit.value = "roof.deck"
    assert "Deck: lies on a slope." in said(panel.message)
