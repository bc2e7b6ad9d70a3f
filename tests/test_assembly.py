"""The order of work: each piece once, nothing on what is not there, every joint made and held.

The second source is the plan: the parts' quantities, the joints in space, the basket's fasteners.
What must come after what is common practice, no published source.
"""

import re
from collections import Counter
from fractions import Fraction
from functools import cache

import pytest

from hivecalc.assembly import STANDS_FOR, THERE, Step, steps
from hivecalc.components import DIMENSIONS, built, parts, values
from hivecalc.document import TICK, Paragraph, Table
from hivecalc.hive import OPENINGS, Hive, changed, demo_hive, hive_from_text
from hivecalc.length import written
from hivecalc.reports.book import assembly_chapter
from hivecalc.space import Solid, held, joints, stacked
from hivecalc.workshop.basket import fixings, small_goods
from hivecalc.workshop.cautions import DRILL, FOAM, GLUE, MESH, NAILS
from tests.hives import HIVES, hive_of

EVERY: dict[str, Hive] = {
    **{name: hive_from_text(text) for name, text in HIVES.items()},
    "demo": demo_hive(),
    "closed": changed(demo_hive(), {"inner_notch": "0"}),
    "no inner cover": changed(demo_hive(), {"inner_cover": "no"}),
    "flat": changed(demo_hive(), {"rim_low_height": "3 1/2"}),
    "three boxes": hive_of(frames="10", boxes="3"),
    "two boxes, mm": hive_of("mm", frames="10", boxes="2"),
    "sleeved, no inner cover, mm": hive_of("mm", frames="8", inner_cover="no"),
}
ON_ITS_OWN = "bottom_board.screen_below"
"""Where a piece of work begins that is put in later."""


@cache
def work_on(name: str) -> tuple[Step, ...]:
    return steps(EVERY[name])


@pytest.fixture(params=EVERY, scope="module")
def name(request: pytest.FixtureRequest) -> str:
    return request.param


@pytest.fixture(scope="module")
def hive(name: str) -> Hive:
    return EVERY[name]


@pytest.fixture(scope="module")
def work(name: str) -> tuple[Step, ...]:
    return work_on(name)


def named(component: str, label: str) -> str:
    return f"{component.replace('_', ' ')}: {label}"


def test_each_piece_comes_in_once(hive, work):
    names = [piece.name for step in work for piece in step.pieces]
    assert len(names) == len(set(names)) == sum(part.quantity for part in parts(hive))
    assert set(names) == {s.name for s in stacked(values(hive), built(hive)) if s.part != "wall"}


def test_each_joint_is_made_once(hive, work):
    made = Counter(joint for step in work for joint in step.joints)
    assert made == Counter((c, j) for c in built(hive) for j in joints(values(hive), c))


def test_nothing_is_joined_to_what_is_not_there(work):
    for step in work:
        there = {*step.shown, *step.off}
        for component, (*pair, _) in step.joints:
            labels = [label for label in pair if label not in {*STANDS_FOR, THERE}]
            assert {named(component, label) for label in labels} <= there, step.key


def test_whatever_comes_in_is_joined_to_something(work):
    for step in work:
        joined = {named(c, label) for c, (*pair, _) in step.joints for label in pair}
        assert {p.name for p in step.pieces if p.tier == 1} <= joined, step.key


def test_all_that_was_bought_is_used_up(hive, work):
    used = [fixing for step in work for fixing in step.fixings]
    assert small_goods(used) == small_goods(fixings(hive))


def test_what_can_hurt_is_told_at_its_step(work):
    """From the ways in space themselves, not from what was counted of them."""
    for step in work:
        ways = [w for c, joint in step.joints for w, _ in held([joint], c)]
        items = {getattr(way, "item", "") for way in ways}
        wanted = {
            GLUE: any(way.glued for way in ways),
            NAILS: any("brad" in item for item in items),
            DRILL: any("screw" in item or "bolt" in item for item in items),
            MESH: any(piece.part == "mesh" for piece in step.pieces),
            FOAM: any(p.part in {"panel", "roof_panel", "foam_side"} for p in step.pieces),
        }
        told = {caution for caution in wanted if caution in step.cautions}
        assert {caution for caution, there in wanted.items() if there} <= told, step.key
        assert len(set(step.cautions)) == len(step.cautions)
        assert any(fixing.glue for fixing in step.fixings) == wanted[GLUE]


def bars(piece: Solid, other: Solid, comes: str) -> bool:
    """Return whether a piece stands in the way of another that is moved to its place from there."""
    axis = {"front": 1, "back": 1, "above": 2, "below": 2}[comes]
    beside = all(
        a[0] < b[1] and b[0] < a[1]
        for n, (a, b) in enumerate(zip(piece.extents, other.extents, strict=True))
        if n != axis
    )
    (low, high), (start, end) = piece.extents[axis], other.extents[axis]
    return beside and (end <= low if comes in {"front", "below"} else start >= high)


def test_nothing_is_in_the_way_of_what_comes_in(hive, work):
    pieces = {s.name: s for s in stacked(values(hive), built(hive))}
    for step in work:
        if step.comes in {"", "outside"}:
            continue
        new = {piece.name for piece in step.pieces}
        for piece in step.pieces:
            around = (pieces[n] for n in step.shown if n not in new)
            same = (s for s in around if s.component == piece.component)
            assert [s.name for s in same if bars(piece, s, step.comes)] == [], piece.name


def test_the_back_would_be_in_the_way_of_the_panel():
    (slid,) = (step for step in steps(demo_hive()) if step.key == "bottom_board.slide_in")
    pieces = {s.label: s for s in stacked(values(demo_hive()), built(demo_hive()))}
    assert slid.off == ("bottom board: back rail",)
    assert bars(pieces["panel"], pieces["back rail"], slid.comes)


@pytest.mark.parametrize("opening", OPENINGS)
def test_what_is_cut_to_an_opening_comes_after_it_was_measured(opening):
    """And the rails that make it come before."""
    hive, component = demo_hive(), OPENINGS[opening][0].partition(".")[0]
    planned = values(hive)
    smaller = written(planned[OPENINGS[opening][-1]] - Fraction(1, 4))
    cut = values(changed(hive, {opening: smaller}))
    work = steps(hive)
    (measured,) = (n for n, step in enumerate(work) if step.key == f"{component}.opening")
    for number, step in enumerate(work):
        for piece in step.pieces:
            sizes = [f"{piece.component}.{piece.part}_{size}" for size in piece.along]
            follows = any(cut[s] != planned[s] for s in sizes if s in DIMENSIONS.dimensions)
            is_rail = piece.part in {"side_rail", "front_rail", "rim_side", "rim_front"}
            assert not (follows and number < measured), piece.name
            assert not (is_rail and piece.component == component and number > measured)


def test_each_step_says_what_to_do_why_and_how_it_is_checked(hive, work):
    for step in work:
        told = [*step.do, step.why, step.check]
        assert step.do
        assert [t for t in told if not re.fullmatch(r"[A-Z][^{}]+[.!]", t)] == [], step.key
        if hive.units == "mm":
            assert [t for t in told if re.search(r"\d in\b", t)] == []


def test_what_only_some_hives_have_is_told_of_those_only():
    keys = {name: [step.key for step in work_on(name)] for name in EVERY}
    assert "hive.handles" in keys["three boxes"]
    assert "hive.handles" not in keys["demo"]
    assert "inner_cover.channel" in keys["demo"]
    assert "inner_cover.channel" not in keys["closed"]
    assert [k for k in keys["no inner cover"] if "inner_cover" in k] == []
    words = {n: " ".join(t for s in work_on(n) for t in s.do) for n in EVERY}
    assert "each of the 3 boxes" in words["three boxes"]
    assert "each of the" not in words["eight-frame"]
    assert "slope of the sides" not in words["flat"]
    assert "lean a little" in words["flat"]


def test_three_boxes_take_three_times_the_screws_of_one():
    """Corners of a box: common practice, screws in every box alike."""
    screws = {
        boxes: small_goods(
            f for f in fixings(hive_of(frames="10", boxes=boxes)) if "box" in f.component
        )
        for boxes in ("1", "3")
    }
    assert screws["1"]["deck_screw"]
    assert screws["3"]["deck_screw"] == 3 * screws["1"]["deck_screw"]


# ── in the book ───────────────────────────────────────────────────────────────────────────────


def test_the_book_has_each_step_with_a_box_its_fasteners_and_its_check(hive, work):
    _, table, _ = assembly_chapter(hive).blocks
    assert isinstance(table, Table)
    assert [row[0] for row in table.rows] == [str(n) for n in range(1, len(work) + 1)]
    for step, (_, told, box) in zip(work, table.rows, strict=True):
        assert told.startswith(f"{step.title}\n")
        assert step.check in told
        assert box == TICK
        count = sum(f.count for f in step.fixings if f.item.endswith("brad"))
        brads = re.findall(r"(\d+) brads?", told.partition("Takes")[2].partition("Check:")[0])
        assert sum(map(int, brads)) == count


def test_the_book_tells_the_entrance_strip_of_this_hive():
    """By hand: 17 3/8 less two studs is 14 3/8, less 1/8 of gap; the entrance is 3/4."""
    *_, strip = assembly_chapter(demo_hive()).blocks
    assert isinstance(strip, Paragraph)
    assert "14 1/4 in, as high as the entrance, 3/4 in" in strip.text
    assert "3/8 in high and 3 in wide" in strip.text
