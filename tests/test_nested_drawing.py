"""The hive from above, growing outwards: which layers there are, and how big each is."""

import re
from collections.abc import Mapping
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hivecalc.components import checked, values
from hivecalc.drawing import nested as view
from hivecalc.drawing.layout import Box
from hivecalc.hive import Hive, HiveFaults, changed, demo_hive, hive_from_text
from hivecalc.length import Units
from tests.hives import HIVES
from tests.pictures import (
    PX,
    assert_clear,
    box_of,
    described,
    extent,
    hive_of,
    missing,
    parsed,
    parts,
    scaled,
    sizes_within,
    trio,
    views,
    words,
)

nested, changed_nested, nested_to_work_out = trio(view.nested)
UNITS: tuple[Units, Units] = ("inch", "mm")
FRAMES = hive_from_text("[chosen]\nframes = 10")
BOX = hive_from_text('[measured]\nbox_length = "20"\nbox_width = "16"\nbox_height = "9 5/8"')
Sizes = dict[str, tuple[Fraction, Fraction]]  # of each layer: along the hive and across it


def by_hand(m: Mapping[str, Fraction], *, frames: bool, sleeve: bool) -> Sizes:
    """The layers' sizes in plain arithmetic, apart from the library's own."""
    if not (frames or sleeve):
        return {"hive": (m["hive_length"], m["hive_width"])}
    found: Sizes = {}
    if frames:
        count = f"{m['frames']} frames"
        along = m["top_bar"] - m["rest_overlap"] - m["rest_overlap"] + m["rest_ease"]
        across = m["frames"] * m["frame_spacing"]
        found[count] = (m["top_bar"], across)
        found["inside"] = (along, across + m["frame_play"])
        board = m["board_thickness"] + m["board_thickness"]
        found["box"] = (along + board, across + m["frame_play"] + board)
    else:
        found["box"] = (m["box_length"], m["box_width"])
    if sleeve:
        box, foam, skin = found["box"], m["foam_thickness"] * 2, m["skin_thickness"] * 2
        found["with foam"] = (box[0] + foam, box[1] + foam)
        found["hive"] = (box[0] + foam + skin, box[1] + foam + skin)
    return found


def dims(svg: str) -> dict[str, list[tuple[Fraction, float, float, float]]]:
    """Of each dimension line by its word: its length, its reach across and down, the scale."""
    found: dict[str, list[tuple[Fraction, float, float, float]]] = {}
    for element, scale in scaled(parsed(svg)):
        if "data-name" in element.attrib:
            one = (Fraction(element.attrib["data-exact"]), *extent(element), scale)
            found.setdefault(element.attrib["data-name"], []).append(one)
    return found


def assert_drawn(svg: str, sizes: Sizes) -> None:
    """Each layer has a dimension line each way, true to scale, and no other layer is there."""
    found = dims(svg)
    assert set(found) == {*sizes, *(["top bar"] if "inside" in sizes else [])}
    for word, (along, across) in sizes.items():
        lines = found[word] + (found["top bar"] if word.endswith("frames") else [])
        ((long, wide, _, scale),) = [line for line in lines if line[1] > line[2]]
        ((broad, _, high, _),) = [line for line in lines if line[2] > line[1]]
        assert (long, broad) == (along, across), word
        assert wide == pytest.approx(float(along) * scale, abs=PX)
        assert high == pytest.approx(float(across) * scale, abs=PX)


# ── hives of each kind ─────────────────────────────────────────────────────────────────────────

# By hand: ten frames: 10 x 1 3/8 = 13 3/4, with 1 of play 14 3/4 inside; 19 - 3/4 + 1/8 = 18 3/8;
# two boards of 3/4 make 19 7/8 x 16 1/4; two of foam of 1 make 21 7/8 x 18 1/4; two of skin of 1/2
# make 22 7/8 x 19 1/4. Common practice, no published source.
TEN_FRAMES = (
    "10 frames 13 3/4 in", "top bar 19 in", "inside 18 3/8 in", "inside 14 3/4 in",
    "box 19 7/8 in", "box 16 1/4 in", "with foam 21 7/8 in", "with foam 18 1/4 in",
    "hive 22 7/8 in", "hive 19 1/4 in", "skin 1/2 in", "foam 1 in", "board 3/4 in",
)  # fmt: skip


def test_ten_frames_outwards_by_hand():
    root = parsed(nested(values(FRAMES)))
    assert not missing(TEN_FRAMES, words(root))
    told = ("10 frames 19 in by 13 3/4 in", "inside 18 3/8 in by 14 3/4 in",
            "hive 22 7/8 in by 19 1/4 in", "foam 1 in thick")  # fmt: skip
    assert not missing(told, described(root))
    assert [g.attrib["data-view"] for g in views(root)] == ["from above", "corner, enlarged"]
    from_outside = views(parsed(nested(values(demo_hive()))))  # which has no corner to enlarge
    assert [g.attrib["data-view"] for g in from_outside] == ["from above"]


def test_before_the_questions_only_the_frames_are_told_and_what_was_found_is_filled_in():
    asking = parsed(nested_to_work_out(values(FRAMES)))
    given = ("10 frames 13 3/4 in", "top bar 19 in", "skin 1/2 in", "foam 1 in", "board 3/4 in")
    assert missing(TEN_FRAMES, words(asking)) == [t for t in TEN_FRAMES if t not in given]
    assert "18 3/8" not in described(asking)
    assert "hive ? by ?" in described(asking)
    found = {"box.inside_width", "box_length"}
    told = words(parsed(nested_to_work_out(values(FRAMES), found=found)))
    assert not missing(("inside 14 3/4 in", "inside ?", "box 19 7/8 in", "box ?", "hive ?"), told)


def test_a_change_says_what_each_layer_was_before():
    thicker = values(changed(FRAMES, {"foam_thickness": "1 1/2"}))
    picture = changed_nested(values(FRAMES), thicker)
    told = words(parsed(picture))
    other = ("with foam 22 7/8 in", "with foam was 21 7/8 in by 18 1/4 in.", "hive 23 7/8 in",
             "hive was 22 7/8 in by 19 1/4 in.", "foam 1 1/2 in", "was 1 in")  # fmt: skip
    assert missing((*other, "box was", "inside was"), told) == ["box was", "inside was"]
    assert_clear(picture)


@pytest.mark.parametrize(
    ("name", "frames", "sleeve"),
    [("smallest", False, False), ("largest", False, False), ("eight-frame", True, True),
     ("sleeved", False, True)],
)  # fmt: skip
def test_only_what_is_known_of_a_hive_is_shown(name, frames, sleeve):
    hive = hive_from_text(HIVES[name])
    svg = nested(values(hive), units=hive.units, name=hive.name)
    assert_clear(svg)
    assert_drawn(svg, by_hand(hive.measurements, frames=frames, sleeve=sleeve))
    shown = words(parsed(svg))
    assert ("board" in shown) == frames
    assert ("skin" in shown) == sleeve
    assert ("is not known" in shown) == (not frames and not sleeve)


def test_a_box_without_a_sleeve_is_shown_without_foam_and_skin():
    hive = changed(hive_of("19 7/8", "16 1/4"), {"frames": "10"})
    svg = nested(values(hive))
    assert_drawn(svg, by_hand(hive.measurements, frames=True, sleeve=False))
    assert "foam" not in words(parsed(svg))


def test_a_skin_that_was_measured_a_little_otherwise_is_not_called_the_hive():
    # By hand: the sleeve makes 22 7/8, and 22 15/16 was measured: two readings of one tape.
    hive = hive_from_text(
        '[measured]\nhive_length = "22 15/16"\nhive_width = "19 1/4"\n[chosen]\nframes = 10'
    )
    found = dims(nested(values(hive)))
    assert "hive" not in found
    assert [line[0] for line in found["with skin"]] == [Fraction(183, 8), Fraction(77, 4)]


# ── any hive ───────────────────────────────────────────────────────────────────────────────────

OF_FRAMES = ("top_bar", "frame_spacing", "frame_play", "rest_overlap", "rest_ease",
             "board_thickness", "joint_depth")  # fmt: skip
OF_BOX = ("box_length", "box_width", "box_height")
AROUND = ("foam_thickness", "skin_thickness")


@st.composite
def boxed_hives(draw: st.DrawFn) -> Hive:
    """Allowed hives that grow from a measured box or from its frames."""
    frames = draw(st.booleans())
    some = draw(st.sets(st.sampled_from((*OF_FRAMES, *AROUND) if frames else AROUND)))
    names = sorted(some) if frames else [*OF_BOX, *sorted(some)]
    sizes = {name: draw(sizes_within(name)) for name in names}
    if frames:
        sizes["frames"] = Fraction(draw(st.integers(2, 30)))
    try:
        return checked(changed(FRAMES if frames else BOX, sizes))
    except HiveFaults:
        return draw(st.nothing())


@given(boxed_hives(), st.sampled_from(UNITS))
@settings(max_examples=40)
def test_any_box_and_sleeve_is_drawn_clear_and_true(hive, units):
    frames = "frames" in hive.chosen
    svg = nested(values(hive), units=units, name=hive.name)
    assert_clear(svg)
    assert_drawn(svg, by_hand(hive.measurements, frames=frames, sleeve=True))


# ── the rectangles ─────────────────────────────────────────────────────────────────────────────


def boxes(svg: str) -> dict[str, Box]:
    """Where on the sheet each piece of the whole, and each frame, is."""
    return {part: box_of(e) for part, e in parts(next(views(parsed(svg)))).items()}


def test_each_ring_lies_round_the_one_within_and_is_as_thick_as_it_is():
    svg = nested(values(FRAMES))
    scale, pieces = float(parsed(svg).attrib["data-scale"]), boxes(svg)

    def ends(*layers: str) -> list[float]:
        found = (getattr(pieces[piece], end) for piece, end in (e.split("|") for e in layers))
        return [round(place / scale, 3) for place in found]

    left = ends("skin side, left|top", "skin side, left|bottom", "foam side, left|top",
                "foam side, left|bottom", "side, left|top", "side, left|bottom")  # fmt: skip
    thick = [b - a for a, b in pairwise(left)]
    assert thick == pytest.approx([0.5, 0, 1, 0, 0.75], abs=2 * PX / scale)
    front = ends("skin end, front|right", "foam end, front|left", "foam end, front|right",
                 "end, front|left")  # fmt: skip
    assert [b - a for a, b in pairwise(front)][::2] == pytest.approx([0, 0], abs=PX / scale)
    mirrored = ends("side, right|bottom", "foam side, right|top", "foam side, right|bottom",
                    "skin side, right|top", "end, back|right", "foam end, back|left")  # fmt: skip
    for one, other in (mirrored[:2], mirrored[2:4], mirrored[4:]):
        assert one == pytest.approx(other, abs=PX / scale)


@pytest.mark.parametrize("count", [2, 8, 10, 20])
def test_frames_are_counted_and_lie_side_by_side_in_the_middle(count):
    pieces = boxes(nested(values(changed(FRAMES, {"frames": str(count)}))))
    frames = [pieces[f"frame {n}"] for n in range(1, count + 1)]
    assert f"frame {count + 1}" not in pieces
    for one, other in pairwise(frames):
        assert other.top == pytest.approx(one.bottom, abs=PX)
    play = frames[0].top - pieces["side, left"].bottom
    assert play == pytest.approx(pieces["side, right"].top - frames[-1].bottom, abs=2 * PX)
    assert play > 0
    # the top bar rests on the end
    assert pieces["end, front"].left < frames[0].left < pieces["end, front"].right


def test_a_corner_is_enlarged_and_its_layers_are_told_apart_without_colour():
    svg = nested(values(FRAMES))
    whole, corner = views(parsed(re.sub(r"#0072B2|#D55E00", "#262626", svg.traced)))
    assert float(corner.attrib["data-scale"]) > 2 * float(whole.attrib["data-scale"])
    hatches = {parts(whole)[f"{layer}, left"].attrib["fill"]
               for layer in ("side", "foam side", "skin side")}  # fmt: skip
    assert len(hatches) == 3
    assert all("url(#" in hatch for hatch in hatches)
