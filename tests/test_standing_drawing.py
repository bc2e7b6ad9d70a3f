"""The whole hive as it stands: sound, to scale, its figures those of the stack in space."""

import xml.etree.ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hivecalc.components import built, values
from hivecalc.drawing.exploded import standing_hive
from hivecalc.hive import Hive, changed, demo_hive, hive_from_text
from tests.hives import HIVES
from tests.test_drawing import NS, SIDES, assert_labels_clear, assert_sound, hive_of, words
from tests.test_exploded_drawing import edges, hives, pieces

PX = 0.06


def standing(hive: Hive) -> str:
    return standing_hive(values(hive), built(hive), units=hive.units, name=hive.name)


def assert_clear(hive: Hive) -> None:
    svg = standing(hive)
    assert_sound(svg)
    assert_labels_clear(svg)


@pytest.mark.parametrize("name", HIVES)
@pytest.mark.parametrize("boxes", ["1", "3"])
def test_any_kind_of_hive_is_drawn_clear(name: str, boxes: str) -> None:
    assert_clear(changed(hive_from_text(HIVES[name]), {"boxes": boxes}))


@pytest.mark.parametrize("width", SIDES)
@pytest.mark.parametrize("length", SIDES)
def test_hives_of_every_size_are_drawn_clear(length: str, width: str) -> None:
    assert_clear(hive_of(length, width))


@pytest.mark.parametrize(
    "more", [{"rim_low_height": "3 1/2"}, {"inner_cover": "no"}, {"inner_notch": "0"}]
)
def test_flat_bare_and_closed_hives_are_drawn_clear(more: dict[str, str]) -> None:
    assert_clear(changed(demo_hive(), more))


@given(hives(), st.sampled_from(["1", "2", "3"]))
@settings(max_examples=25)
def test_any_allowed_hive_is_drawn_clear(hive: Hive, boxes: str) -> None:
    assert_clear(changed(hive, {"boxes": boxes}))


def test_the_deck_and_the_walls_are_drawn_to_scale() -> None:
    # By hand: a hive 23 1/8 by 17 3/8 has a deck 21 3/8 wide; plain walls stand 9 9/16 high.
    root = ET.fromstring(standing(demo_hive()))
    scale = float(root.attrib["data-scale"])
    faces = {(e.attrib["data-part"], e.attrib["data-side"]): edges(e) for e in pieces(root)}
    assert any(abs(e - 21.375 * scale) < PX for e in faces["roof: deck", "front"])
    assert any(abs(e - 9.5625 * scale) < PX for e in faces["box: wall, right", "right"])
    assert any(abs(e - 23.125 * scale) < PX for e in faces["box: wall, right", "right"])


def test_it_says_what_only_the_whole_shows() -> None:
    # Common practice, no published source: 1 in of lap, a way in of 5/16 in, the usual box.
    told = words(ET.fromstring(standing(demo_hive())))
    for text in ("skirt laps the box 1 in", "way in 5/16 in", "box, 9 9/16 in", "full of honey"):
        assert text in told, text
    two = words(ET.fromstring(standing(changed(demo_hive(), {"boxes": "2"}))))
    assert "box 1, 9 9/16 in" in two
    assert "box 2, 9 9/16 in" in two


def test_a_skirt_that_ends_above_the_box_is_told_and_marked() -> None:
    # By hand: 2 - 1 1/2 in below the rim, 7/8 in of inner cover: 3/8 above the box.
    root = ET.fromstring(standing(changed(demo_hive(), {"skirt_width": "2"})))
    bold = " ".join(t.text or "" for t in root.iter(f"{NS}text") if "font-weight" in t.attrib)
    assert "skirt ends 3/8 in above the box" in bold


def test_a_metric_hive_is_weighed_in_kilograms() -> None:
    told = words(ET.fromstring(standing(hive_from_text(HIVES["metric"]))))
    assert " kg empty" in told
    assert " lb" not in told
