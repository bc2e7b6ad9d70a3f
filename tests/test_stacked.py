"""The whole hive stacked, beside a plain stack written apart from the library."""

import math
import re
from collections import Counter
from fractions import Fraction

import pytest

from hivecalc.components import built, parts, values
from hivecalc.fit import findings
from hivecalc.hive import Hive, changed, demo_hive, hive_from_text
from hivecalc.space import (
    Axis,
    Solid,
    Weight,
    contacts,
    gap,
    overall_height,
    overlaps,
    skirt_laps,
    stacked,
    way_in,
    weights,
)
from hivecalc.space.solids import intervals_meet
from tests.plain_stack import CLOSE, PlainStack

MEASURED = '[measured]\nhive_length = "22 3/4"\nhive_width = "16 1/4"\n'
METRIC = 'units = "mm"\n[measured]\nhive_length = "560"\nhive_width = "430"\n'
OLD_BOX = '[measured]\nbox_length = "19 7/8"\nbox_width = "16 1/4"\nbox_height = "9 5/8"\n'
FRAMES = "[chosen]\nframes = 10\n"

HIVES = {
    "inch": MEASURED,
    "inch, closed": MEASURED + "[chosen]\ninner_notch = 0",
    "inch, no inner cover": MEASURED + '[chosen]\ninner_cover = "no"',
    "inch, flat roof": MEASURED + '[chosen]\nrim_low_height = "3 1/2"',
    "inch, three boxes": MEASURED + "[chosen]\nboxes = 3",
    "inch, rough studs": MEASURED + 'stud_thickness = "1 9/16"\nstud_width = "5 1/2"',
    "inch, short skirt": MEASURED + "[chosen]\nskirt_width = 2",
    "inch, high inner rim": MEASURED + '[chosen]\ninner_rim_height = "3/4"\nroof_lap = 2',
    "inch, big lip": MEASURED + "[chosen]\ncover_lip = 2\noverhang = 3\ncap_clearance = 1",
    "inch, thin strips": MEASURED + 'strip_narrow = "3/8"\nstrip_wide = "3/4"\n',
    "inch, other foams": MEASURED + 'panel_foam_thickness = "3/4"\nroof_foam_thickness = "7/8"',
    "inch, landing board": MEASURED + 'landing_width = "5 1/2"\nlanding_thickness = "1"',
    "mm, no inner cover, flat": METRIC + '[chosen]\ninner_cover = "no"\nrim_low_height = 89',
    "mm, wide channel": METRIC + "[chosen]\ninner_channel_depth = 60\ninner_notch = 70",
    "mm, frames, two boxes": 'units = "mm"\n' + FRAMES + "boxes = 2",
    "frames": FRAMES,
    "2 in, closed": '[measured]\nsleeve_foam_thickness = "2"\n' + FRAMES + "inner_notch = 0",
    "frames, butt joints": FRAMES + "joint_depth = 0",
    "frames, eight": "[chosen]\nframes = 8\nedge_strip_height = 1.5",
    "sleeved box, 2x6, two": OLD_BOX + 'stud_width = "5 1/2"\n[chosen]\nboxes = 2',
    "sleeved box, thin foam": OLD_BOX + 'sleeve_foam_thickness = "3/4"\nskin_thickness = "3/8"',
}


def stack_of(hive: Hive) -> tuple[Solid, ...]:
    return stacked(values(hive), built(hive))


def upper_ways(stack: tuple[Solid, ...]) -> dict[str, Fraction]:
    """What the pieces leave open of the way out above: slot, channel, notch, behind the skirt."""
    pieces = {s.name.partition("inner cover: ")[2] or s.label: s for s in stack}
    if "rim front, left" not in pieces:
        return {}

    def between(first: str, second: str, axis: Axis) -> Fraction:
        return gap(pieces[first], pieces[second], axis) or Fraction(0)

    lower, front = pieces["sheet, lower"], pieces["rim front, left"]
    high = between("sheet, lower", "sheet, upper", "z")
    found = {"slot": open_slot(lower, stack), "channel": high, "notch": high}
    if pieces["skirt end, front"].extents[2][0] < front.extents[2][1]:
        sides = ("rim front, left", "rim front, right")
        found["behind the skirt"] = min(between("skirt end, front", s, "y") for s in sides)
    return found


def open_slot(sheet: Solid, stack: tuple[Solid, ...]) -> Fraction:
    """The widest stretch of the slot in the lower sheet that no wall of the box below covers."""
    before, behind = sheet.blocks[1:3]
    x, (at, high) = before.extents[0], (before.extents[1][1], behind.extents[1][0])
    blocks = [block for s in stack if s.component in {"box", "sleeve"} for block in s.blocks]
    below = [
        block.extents[1]
        for block in blocks
        if block.extents[2][1] == sheet.extents[2][0] and intervals_meet(block.extents[0], x)
    ]
    widest = Fraction(0)
    for start, end in sorted(below):
        widest = max(widest, min(start, high) - at)
        at = max(at, min(end, high))
    return max(widest, high - at)


@pytest.mark.parametrize("name", HIVES)
def test_the_stack_is_the_plain_stack(name):
    """A second way to compute: every piece's reach, the lap, the ways, the height."""
    hive = hive_from_text(HIVES[name])
    made = built(hive)
    plain = PlainStack(hive.measurements, box="box" in made, sleeve="sleeve" in made)
    stack = stack_of(hive)
    plain.assert_it_is(stack)
    assert set(skirt_laps(stack).values()) == {plain.lap}
    assert float(overall_height(stack)) == pytest.approx(plain.height, abs=CLOSE)
    assert way_in(stack) == plain.way_in
    assert upper_ways(stack) == plain.upper
    counted = Counter(re.sub(r" \d(?=: )|, .*", "", piece) for piece in plain.pieces)
    table = {f"{p.component}: {p.part}".replace("_", " "): p.quantity for p in parts(hive)}
    assert table == {part: n for part, n in counted.items() if part != "box: wall"}
    assert [(o.first.name, o.second.name) for o in overlaps(stack)] == []
    lying = set()
    for face in contacts(stack):
        pair = sorted((face.first, face.second), key=lambda s: s.extents[2][0])
        below, above = ((s.component.replace("sleeve", "box"), s.tier) for s in pair)
        if face.axis == "z" and above != below:
            lying.add(above)
    boxes = {("box", tier) for tier in range(1, int(hive.measurements["boxes"]) + 1)}
    assert lying == boxes | {(c, 1) for c in made if c in {"inner_cover", "roof"}}


def test_a_skirt_of_the_first_edition_ends_above_the_box():
    """A hive of the first edition: a skirt of 2 in over an inner cover of 1 in (1/2 in strips).

    The course's own check value: it ends 1/2 in above the box.
    """
    text = MEASURED + '[chosen]\nskirt_width = 2\ninner_rim_height = "1/2"'
    assert set(skirt_laps(stack_of(hive_from_text(text))).values()) == {Fraction(-1, 2)}


def test_the_slot_lies_behind_a_sleeved_wall_of_usual_foam_and_over_one_of_twice_as_much():
    """Foam, skin and board reach 2 1/4 in from the front, or 3 1/4; the slot from 2 11/16 to 3.

    Over the rest, 3/8 in wide, the wall is lower: there 1/8 in of the slot stays open.
    """
    for foam, wide in (("1", Fraction(5, 16)), ("2", Fraction(1, 8))):
        hive = hive_from_text(f"[measured]\nsleeve_foam_thickness = {foam}\n{FRAMES}")
        assert upper_ways(stack_of(hive))["slot"] == wide
        rule = next(f for f in findings(hive) if f.rule == "inner_cover.slot_behind_wall")
        assert rule.holds == (wide == Fraction(5, 16))


# ── weight ────────────────────────────────────────────────────────────────────────────────────


def test_a_flat_roof_weighs_what_its_parts_table_says():
    """Densities as the library's comments source them, written out once more."""
    hive = hive_from_text(HIVES["inch, flat roof"])
    found = {w.component: w.empty for w in weights(values(hive), built(hive))}
    kilograms = {"stud": 450, "strip": 450, "plywood": 500, "foam": 35, "sheet": 200}
    weight = sum(
        kilograms[p.material] * p.quantity * math.prod(float(size.value) for size in sizes if size)
        for p in parts(hive, "roof")
        for sizes in [(p.thickness, p.width, p.length)]
    )
    assert found["roof"] == pytest.approx(weight * 0.0254**3, rel=1e-9)


def box_of(text: str) -> Weight:
    hive = hive_from_text(text)
    return next(w for w in weights(values(hive), built(hive)) if w.component == "box")


def test_a_full_box_weighs_what_beekeepers_say():
    """A deep box of ten frames full of honey: 80 to 90 lb (from memory, no published source).

    Bare walls of the usual ten-frame box, so without a sleeve.
    """
    box = box_of('[measured]\nhive_length = "19 7/8"\nhive_width = "16 1/4"\n')
    assert 78 < box.full_pounds < 92
    # Four walls of boards 3/4 in thick and 9 9/16 in high, of 450 kg a cubic metre.
    walls = 2 * (19.875 + 16.25 - 2 * 0.75) * 9.5625 * 0.75
    assert box.empty == pytest.approx(walls * 0.0254**3 * 450, rel=1e-4)
    assert box.empty < box.full / 5


def test_honey_and_frames_of_ten_frames_by_hand():
    """Ten combs of 1 3/8 − 3/8 by 18 3/8 − 1 3/8 by 9 1/8 − 1 1/8 in; frames of a quarter kilogram.

    Honey of 1.4 kg a litre, and what of a frame is not comb: common practice, no published source.
    """
    box = box_of(FRAMES)
    honey = 10 * 1 * 17 * 8 * 0.254**3 * 1.4
    assert box.full - box.empty == pytest.approx(honey + 10 * 0.25, rel=1e-9)
    assert box.pounds * 0.45359237 == box.empty


def test_mesh_weighs_as_much_as_its_two_layers_of_wire():
    """Eight wires of 0.017 in to the inch, both ways, of steel: 7.85 kg a litre (from memory)."""
    hives = demo_hive(), changed(demo_hive(), {"mesh_margin": "1/2"})
    found = [values(hive) for hive in hives]
    area, less = (v["bottom_board.mesh_length"] * v["bottom_board.mesh_width"] for v in found)
    whole, bare = (weights(v, built(h))[0].empty for v, h in zip(found, hives, strict=True))
    wire = 2 * 8 * math.pi / 4 * 0.017**2 * 0.254**3 * 7.85
    assert whole - bare == pytest.approx(float(area - less) * wire, rel=1e-6)


def test_each_box_is_weighed_and_the_whole_is_their_sum():
    hive = changed(demo_hive(), {"boxes": "3"})
    *each, whole = weights(values(hive), built(hive))
    names = ["bottom board", "box 1", "box 2", "box 3", "inner cover", "roof"]
    assert [w.component for w in each] == names
    assert whole.full == pytest.approx(sum(w.full for w in each))
    assert each[1].full == each[2].full


@pytest.mark.parametrize("cover", ["yes", "no"])
def test_each_box_more_makes_the_hive_as_much_higher(cover):
    hives = [changed(demo_hive(), {"boxes": str(n), "inner_cover": cover}) for n in (1, 2, 3)]
    heights = [overall_height(stack_of(hive)) for hive in hives]
    assert [high - heights[0] for high in heights] == [0, Fraction(153, 16), 2 * Fraction(153, 16)]
