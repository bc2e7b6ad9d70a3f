"""The hive and its inner cover taken apart, and the hive as it stands: figures, numbers, legend."""

import xml.etree.ElementTree as ET
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from itertools import pairwise
from math import dist

import pytest
from shapely import Point, Polygon

from hivecalc.components import built, parts, values
from hivecalc.drawing import Subject
from hivecalc.drawing.inner_cover import exploded_inner_cover
from hivecalc.drawing.whole_hive import exploded_hive, part_numbers, standing_hive
from hivecalc.hive import Hive, changed, demo_hive, hive_from_text
from tests.hives import HIVES
from tests.pictures import (
    NS,
    PX,
    assert_clear,
    corners,
    described,
    edges,
    faces,
    in_bold,
    missing,
    parsed,
    trio,
    true_values,
    words,
)

inner_cover, changed_inner_cover, _ = trio(exploded_inner_cover)


def standing(hive: Hive) -> str:
    return standing_hive(Subject(values(hive), None, hive.units, hive.name), built(hive))


# ── numbers and legend ─────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("name", HIVES)
def test_numbers_are_those_of_the_parts_table(name):
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
    return hive, parsed(exploded_hive(Subject(values(hive)), built(hive)))


@pytest.mark.parametrize("name", HIVES)
def test_each_part_has_its_number_name_and_count_in_the_legend(name):
    hive, root = taken_apart(name)
    found, table = legend(root), parts(hive)
    assert len(found) == len(table)
    for number, piece in enumerate(table, 1):
        said = f"{piece.part.replace('_', ' ')} × {piece.quantity}"
        assert found[number][0] == said
        assert f"{number} {said}" in described(root)


def leaders(root: ET.Element) -> Iterator[tuple[int, Point]]:
    """The number that each leader starts from, and the place that it ends at."""
    circles = [e for e in root.iter(f"{NS}circle") if float(e.attrib["r"]) > 9]
    rows = {n: y for n, (_, y) in legend(root).items()}
    for line in root.iter(f"{NS}polyline"):
        (_, level), *_, end = corners(line)
        if any(abs(float(c.attrib["cy"]) - level) < PX for c in circles):
            yield min(rows, key=lambda n: abs(rows[n] - level)), Point(end)


@pytest.mark.parametrize("name", ["smallest", "eight-frame"])
def test_each_leader_ends_where_one_sees_its_part(name):
    hive, root = taken_apart(name)
    shapes = [(name, Polygon(face).buffer(PX), Polygon(face).buffer(-PX))
              for name, face in faces(root)]  # fmt: skip
    numbers = {n: key for key, n in part_numbers(values(hive), built(hive)).items()}
    ends = dict(leaders(root))
    assert ends.keys() == numbers.keys()
    for number, place in ends.items():
        covering = [name for name, wider, _ in shapes if wider.contains(place)]
        hiding = [name for name, _, within in shapes if within.contains(place)]
        component, part = (words.replace("_", " ") for words in numbers[number])
        meant = max(i for i, name in enumerate(covering) if name.startswith(f"{component}: {part}"))
        assert not [name for name in covering[meant + 1 :] if name in hiding], number


def test_the_hive_lies_from_below_upwards_as_it_is_built():
    _, root = taken_apart("eight-frame")
    lowest: dict[str, float] = {}
    for name, face in faces(root):
        lowest[name] = max(lowest.get(name, 0.0), *(y for _, y in face))
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


def test_the_front_is_told_and_looks_to_the_lower_left():
    root = parsed(exploded_hive(Subject(true_values()), built(demo_hive())))
    assert "front" in words(root).split()
    places = {name: sum(x for x, _ in face) for name, face in faces(root)}
    assert places["bottom board: front rail"] < places["bottom board: back rail"]


# ── the inner cover ────────────────────────────────────────────────────────────────────────────


def test_sizes_of_the_inner_cover_worked_by_hand():
    # A hive 22 3/4 by 16 1/4 in of 1 1/2 in studs: rim back 16 1/4 - 3; each front piece half of
    # what is left of it beside a notch of 2 in; sides and sheets as long as the hive; 3/8 + 2 × 1/4
    # in high. Channel: 1 1/2 in deep, its back 2 in and two strips of 1/2 in long. Common practice,
    # no published source.
    root = parsed(inner_cover(true_values("22 3/4", "16 1/4")))
    told = (
        "Rim back, 3/8 × 1 1/2 × 13 1/4 in", "Rim front × 2, 3/8 × 1 1/2 × 5 5/8 in",
        "Rim side × 2, 3/8 × 1 1/2 × 22 3/4 in", "Upper sheet, 1/4 × 16 1/4 × 22 3/4 in",
        "Channel side × 2, 3/8 × 1/2 × 1 1/2 in", "Channel back, 3/8 × 1/2 × 3 in",
        "Lower sheet, as big, with the slot.", "Slot 5/16 × 2 in.", "height 7/8 in", "Notch 2 in",
    )  # fmt: skip
    assert not missing(told, described(root))
    assert "notch 2 in" in words(root)


def test_a_closed_inner_cover_has_one_front_no_slot_and_no_channel_and_says_what_was_before():
    told = described(assert_clear(inner_cover(true_values("22 3/4", "16 1/4", inner_notch="0"))))
    assert "Rim front, 3/8 × 1 1/2 × 13 1/4 in" in told  # 16 1/4 - 3
    assert len(missing(("slot", "hannel", "otch 2"), told)) == 3
    closed, now = true_values(inner_notch="0"), true_values()
    assert "was closed" in words(assert_clear(changed_inner_cover(closed, now)))
    shut = described(assert_clear(changed_inner_cover(now, closed)))
    assert "closed, no notch, was 2 in" in shut.lower()


@pytest.mark.parametrize("notch", ["1/2", "2", "3"])
def test_the_notch_is_measured_before_the_rim(notch):
    root = parsed(inner_cover(true_values(inner_notch=notch)))
    (line,) = (e for e in root.iter() if e.get("data-name") == "inner_notch")
    exact, scale = Fraction(line.attrib["data-exact"]), float(root.attrib["data-scale"])
    assert exact == Fraction(notch)
    assert edges(line)[0] == pytest.approx(float(exact) * scale, abs=PX)


def test_a_notch_that_is_closed_is_told():
    # By hand: both pieces of the front are to fill 14 3/8 in with a notch of 2; 14 3/8 closes it.
    cut = values(demo_hive(), {"inner_cover.rim_front_length": Fraction(115, 8)})
    root = parsed(inner_cover(true_values(), cut))
    assert "no notch is left" in words(root)
    assert not [e for e in root.iter() if e.get("data-name") == "inner_notch"]


# ── as it stands ──────────────────────────────────────────────────────────────────────────────


def test_the_deck_and_the_walls_are_drawn_to_scale():
    # By hand: a hive 23 1/8 by 17 3/8 has a deck 21 3/8 wide; plain walls stand 9 9/16 high.
    root = parsed(standing(demo_hive()))
    scale = float(root.attrib["data-scale"])
    for piece, size in (("roof: deck", 21.375), ("box: wall, right", 9.5625),
                        ("box: wall, right", 23.125)):  # fmt: skip
        own = [face for name, face in faces(root) if name == piece]
        sides = [dist(*side) for face in own for side in pairwise([*face, face[0]])]
        assert any(abs(side - size * scale) < 0.06 for side in sides), piece


def test_it_says_what_only_the_whole_shows():
    # Common practice, no published source: 1 in of lap, a way in of 5/16 in, the usual box.
    told = ("skirt laps the box 1 in", "way in 5/16 in", "box, 9 9/16 in", "full of honey")
    assert not missing(told, words(parsed(standing(demo_hive()))))
    two = words(parsed(standing(changed(demo_hive(), {"boxes": "2"}))))
    assert not missing(("box 1, 9 9/16 in", "box 2, 9 9/16 in"), two)
    # By hand: 2 - 1 1/2 in below the rim, 7/8 in of inner cover: 3/8 above the box.
    short = parsed(standing(changed(demo_hive(), {"skirt_width": "2"})))
    assert "skirt ends 3/8 in above the box" in in_bold(short)
    metric = words(parsed(standing(hive_from_text(HIVES["metric"]))))
    assert " kg empty" in metric
    assert " lb" not in metric


def test_what_a_broad_roof_hides_is_labelled_where_it_would_be_seen():
    low = {"hive_length": "8", "hive_width": "8", "stud_width": "2", "front_stop_height": "1/8"}
    roof = {"overhang": "6", "stud_thickness": "1", "roof_foam_thickness": "1/2"}
    root = assert_clear(standing(changed(demo_hive(), low | roof)))
    assert "skirt laps the box" in words(root)
    assert "roof: skirt side, right" not in {part for part, _ in faces(root)}
