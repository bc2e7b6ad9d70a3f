"""The parts in space: true sizes, no overlaps, every meant joint and gap; what a wrong cut does.

Where a piece lies is common practice, no published source. Volumes and areas are checked against
closed forms, sizes against plain arithmetic written apart from the library.
"""

import math
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hivecalc.components import DIMENSIONS, MODULES, built
from hivecalc.components.bottom_board import LANDING_TILT
from hivecalc.derivation import Values
from hivecalc.hive import MEASUREMENTS, demo_hive, hive_from_text
from hivecalc.hive.measurements import DEFAULTS
from hivecalc.length import MM
from hivecalc.space import (
    AXES,
    Consequence,
    NoPieceError,
    Solid,
    assembled,
    consequences,
    contacts,
    feet,
    gap,
    joints,
    only_these,
    overlaps,
    solids,
    stacked,
    surroundings,
)
from hivecalc.space.bottom_board import COSINE, SINE, landing_profile
from hivecalc.space.roof import fall, height_on_slope
from hivecalc.space.solids import FLAT_ACROSS, Block, profile_area, rectangle
from tests.each import each
from tests.plain_stack import PlainStack

COMPONENTS = tuple(MODULES)
SIXTEENTH = Fraction(1, 16)
MOST = settings(max_examples=15)


# ---- hives, in both systems, whose parts can fit ----


@st.composite
def fitting(draw: st.DrawFn) -> dict[str, Fraction]:
    """Return the measurements of a hive whose stack stays in its frame, from ten frames or so."""
    step = draw(st.sampled_from([SIXTEENTH, MM]))

    def size(low: Fraction | float, high: Fraction | float) -> Fraction:
        least, most = math.ceil(Fraction(low) / step), math.floor(Fraction(high) / step)
        return draw(st.integers(least, max(least, most))) * step

    m = dict(DEFAULTS["inch"])
    m |= {"stud_thickness": size(1.25, 2), "foam_thickness": size(0.75, 2)}
    m |= {"strip_narrow": size(0.375, 0.75), "strip_wide": size(0.75, 1.25)}
    m |= {"panel_gap": size(0.125, 0.5), "screen_gap": size(0.1, 0.25)}
    m |= {"slot_ease": size(0.1, 0.375)}
    m["runner_gap"] = size(0.375, 1.5 * float(m["strip_narrow"]))  # runners face at the corners
    below = m["strip_wide"] + m["foam_thickness"] + m["slot_ease"] + m["strip_narrow"]
    m["stud_width"] = below + 2 * m["strip_narrow"] + m["mesh_thickness"] + size(0.05, 0.5)
    m["entrance_height"] = size(0.25, 2 * m["strip_narrow"])
    m["front_stop_height"] = size(0.125, m["strip_narrow"])
    m["rim_low_height"] = m["foam_thickness"] + m["strip_narrow"] + size(0.1, 0.5)
    m |= {"cap_clearance": size(0.125, 1), "overhang": size(1.5, 6), "cover_lip": size(0.125, 2)}
    m["rim_back_thickness"] = m["cap_clearance"] / 2 + size(0.25, 1)  # it must reach the hive
    m["roof_lap"] = size(0.25, 2)
    m["inner_cover"] = Fraction(draw(st.integers(0, 1)))
    m |= {"landing_thickness": size(0.5, 1.5), "landing_width": size(2, 5)}
    m |= {"skirt_thickness": size(0.125, 1), "deck_thickness": size(0.25, 1)}
    m |= {"inner_notch": draw(st.sampled_from([Fraction(0), size(0.5, 3)]))}
    m |= {"inner_rim_height": size(0.25, 2), "inner_channel_depth": size(0.75, 4)}
    m["mesh_margin"] = size(0.03, 0.25)
    m |= {"board_thickness": size(1, 1.75), "joint_depth": size(0.125, 0.75)}
    m |= {"rest_overlap": size(0.25, 0.75), "rest_ease": size(0.05, 0.25)}
    m |= {"rest_depth": size(0.5, 1.5), "edge_strip_height": size(0.375, 1.5)}
    m |= {"frames": Fraction(draw(st.integers(7, 20))), "top_bar": size(14, 24)}
    return m


hives = fitting().map(DIMENSIONS.values)


def made_of(values: Values) -> tuple[str, ...]:
    """Return what is built of a hive: all of it, but the inner cover where there is none."""
    return tuple(c for c in COMPONENTS if c != "inner_cover" or values["inner_cover"])


def demo(component: str = "bottom_board", given: dict[str, Fraction] | None = None) -> Values:
    """Return the demo hive's values; the box and the sleeve are those of ten frames."""
    outwards = component in {"box", "sleeve"}
    hive = hive_from_text("[chosen]\nframes = 10") if outwards else demo_hive()
    return DIMENSIONS.values(hive.measurements, given, built(hive))


def in_place(values: Values, component: str = "bottom_board") -> dict[str, Solid]:
    return {s.label: s for s in assembled(values, component)}


# ---- sizes ----

SIZES = [
    f"{c}.{p.name}_{size}" for c in COMPONENTS for p in MODULES[c].PARTS for size, _ in p.sizes()
]


@MOST
@given(fitting())
def test_every_piece_reaches_from_where_to_where_the_plain_stack_has_it(m):
    values = DIMENSIONS.values(m)
    PlainStack(m, box=True, sleeve=True).assert_it_is(stacked(values, made_of(values)))


def volume_of(values: Values, s: Solid) -> float:
    """Return the volume of a piece by its closed form, in floats."""
    v = {n.removeprefix(f"{s.component}.{s.part}_"): float(x) for n, x in values.items()}
    planed = v["roof.slope"] * v.get("thickness", 0) ** 2 / 2
    whole_board = math.prod(map(float, s.cut))
    less = {
        "landing_board": lambda: (
            v["length"] * v["thickness"] ** 2 * math.tan(math.radians(30)) / 2
        ),
        "rim_side": lambda: v["length"] * v["thickness"] * (v["width"] - v["rim_low_height"]) / 2,
        "rim_front": lambda: v["length"] * planed,
        "rim_back": lambda: v["length"] * planed,
        "skirt_side": lambda: v["thickness"] * planed,
        "skirt_end": lambda: v["length"] * planed if s.place == "back" else 0,
        "side": lambda: 2 * v["joint_depth"] * v["board_thickness"] * v["box_height"],
        "end": lambda: v["length"] * v["rest_overlap"] * v["rest_depth"],
    }  # fmt: skip
    if s.component == "inner_cover" and s.part.startswith("rim"):
        return whole_board
    if s.part == "sheet" and s.place == "lower":
        slot = v["inner_cover.slot_length"] * v["inner_cover.slot_width"] if v["inner_notch"] else 0
        return whole_board - slot * v["thickness"]
    return whole_board - less.get(s.part, lambda: 0.0)()


@MOST
@given(hives)
def test_every_piece_holds_as_much_wood_as_its_closed_form(values):
    for component in COMPONENTS:
        for s in solids(values, component):
            expected = volume_of(values, s)
            assert math.isclose(float(s.volume), expected, rel_tol=3e-6), s.name


@each(lambda: product(SIZES, (Fraction(0), Fraction(-1, 16))))
def test_a_size_of_nothing_is_refused_by_name(case):
    name, size = case
    component = name.partition(".")[0]
    with pytest.raises(NoPieceError, match=f"^{name}: "):
        solids(demo(component, {name: size}), component)


# ---- joints and gaps ----


@MOST
@given(hives)
def test_no_two_pieces_of_a_hive_that_fits_are_in_one_place(values):
    assert overlaps(stacked(values, made_of(values))) == ()
    for component in COMPONENTS:
        assert overlaps(assembled(values, component)) == ()


@MOST
@given(hives)
def test_just_the_pieces_that_are_meant_to_touch_do(values):
    for component in COMPONENTS:
        touching = contacts(assembled(values, component))
        found = {(frozenset((c.first.label, c.second.label)), c.axis) for c in touching}
        assert found == {(frozenset(pair), axis) for *pair, axis in joints(values, component)}
        assert all(c.area > 0 for c in touching)


GAPS = (
    ("bottom_board", "slot_ease", "z", "panel", "upper front runner"),
    ("bottom_board", "entrance_height", "z", "front rail", "box above"),
    ("bottom_board", "bottom_board.headroom", "z", "screen side strip, upper left", "box above"),
    ("inner_cover", "inner_rim_height", "z", "sheet, lower", "sheet, upper"),
    ("inner_cover", "inner_cover.overall_height", "z", "box below", "roof above"),
    ("box", "box.space_above", "z", "top bars", "cover above"),
    ("box", "box.inside_width", "x", "side, left", "side, right"),
    ("sleeve", "sleeve.clear_height", "z", "edge strip side, lower left",
     "edge strip side, upper left"),
)  # fmt: skip
HALVES = (
    ("bottom_board", "runner_gap", "y", "front rail", "lower side runner, left"),
    ("bottom_board", "panel_gap", "x", "side rail, left", "panel"),
    ("bottom_board", "panel_gap", "y", "panel", "back rail"),
    ("bottom_board", "screen_gap", "x", "side rail, left", "screen side strip, lower left"),
    ("box", "frame_play", "x", "top bars", "side, right"),
    ("box", "rest_ease", "y", "end, front", "top bars"),
    ("roof", "cap_clearance", "x", "skirt side, left", "box below"),
)


@MOST
@given(hives)
def test_gaps_are_as_big_as_the_dimensions_that_make_them(values):
    for rows, share in ((GAPS, 1), (HALVES, 2)):
        for component, dimension, axis, first, second in rows:
            pieces = in_place(values, component)
            found = gap(pieces[first], pieces[second], axis)
            assert found == values[dimension] / share, (component, dimension, first)


def test_a_butt_joint_has_no_rabbet():
    values = demo("box", {"joint_depth": Fraction(0), "box.end_length": Fraction(59, 4)})
    pieces = assembled(values, "box")
    assert overlaps(pieces) == ()
    corners = [c for c in contacts(pieces) if {c.first.part, c.second.part} == {"side", "end"}]
    assert {c.axis for c in corners} == {"x"}
    assert all(s.volume == math.prod(s.cut) for s in pieces if s.part == "side")


# ---- true to shape ----

widths = st.fractions(min_value=2, max_value=8, max_denominator=64)
thicknesses = st.fractions(min_value=Fraction(1, 4), max_value=1, max_denominator=64)


@MOST
@given(widths, thicknesses)
def test_the_landing_board_is_true_to_trigonometry(width, thickness):
    rear_low, rear_high, front, below = landing_profile(Fraction(3), width, thickness)
    assert rear_low[0] == rear_high[0] == 0
    assert rear_high[1] == 3
    angle = math.atan2(float(rear_high[1] - front[1]), float(rear_high[0] - front[0]))
    assert math.isclose(math.degrees(angle), 30, abs_tol=1e-4)
    square = [float(front[i] - rear_high[i]) * float(below[i] - front[i]) for i in (0, 1)]
    assert math.isclose(sum(square), 0, abs_tol=1e-12)
    area = float(thickness) * (float(width) - float(thickness) * math.tan(math.radians(30)) / 2)
    assert math.isclose(
        float(profile_area((rear_low, rear_high, front, below))), area, rel_tol=1e-6
    )


def test_the_cosine_of_thirty_degrees_is_right_to_a_millionth():
    assert LANDING_TILT == 30
    assert 0 < float(COSINE) - math.cos(math.radians(LANDING_TILT)) < 1e-6
    assert math.sin(math.radians(30)) == pytest.approx(float(SINE), abs=1e-15)


@MOST
@given(hives)
def test_the_landing_board_starts_flush_with_the_front_rail_and_falls(values):
    pieces = in_place(values)
    assert pieces["landing board"].extents[2][1] == pieces["front rail"].extents[2][1]
    assert pieces["landing board"].extents[1][1] == 0


@MOST
@given(hives)
def test_the_deck_reaches_a_hair_less_far_along_the_hive_than_it_was_cut(values):
    (deck,) = [s for s in solids(values, "roof") if s.part == "deck"]
    (back, front), slope = sorted(deck.blocks[0].profile[:2], reverse=True), float(fall(values))
    assert fall(values) == values["roof.slope"]
    plan, cut = float(back[0] - front[0]), float(values["roof.deck_length"])
    assert math.isclose(plan, cut / math.sqrt(1 + slope * slope), rel_tol=1e-6)
    assert plan < cut
    middle = (back[0] + front[0]) / 2
    assert middle == values["hive_length"] / 2
    assert (back[1] + front[1]) / 2 == height_on_slope(values, middle)


# ---- the whole hive ----


def test_a_box_that_is_not_built_is_as_high_as_it_was_measured_or_as_usual():
    values, on_rails = demo(), demo()["stud_width"]
    assert feet(values, ())["roof"] == on_rails + Fraction(153, 16)
    assert feet(values | {"box_height": Fraction(9)}, ())["roof"] == on_rails + 9


# ---- wrong cuts ----


def done_by(given: dict[str, Fraction], component: str = "bottom_board") -> list[Consequence]:
    true = demo(component)
    changed = demo(component, only_these(true, given))
    return list(consequences(assembled(true, component), assembled(changed, component)))


def wrong_by(name: str, more: Fraction) -> list[Consequence]:
    component = name.partition(".")[0]
    return done_by({name: demo(component)[name] + more}, component)


def told(found: list[Consequence]) -> set[tuple[str, str, str, Fraction | None]]:
    """Return kind, axis, the other part and how much: the overlap, gap or face that there is."""
    return {
        (c.kind, c.axis, pair[-1].rpartition(": ")[2] if len(pair) > 1 else "", c.after)
        for c in found
        for pair in c.pieces
    }


SMALL, BIG = SIXTEENTH, Fraction(3, 2)
ENDS = Fraction(1, 4)  # each end of a runner: half of the runner gap of 1/2, common practice

# A size, and the piece that it runs into when too big and leaves a gap to when too small.
MEETS = [
    ("front_rail_length", "x", "side rail, right"), ("side_rail_length", "y", "back rail"),
    ("side_rail_width", "z", "box above"), ("side_rail_thickness", "x", "front rail"),
    ("back_rail_thickness", "y", "side rail, left"),
]  # fmt: skip
WRONG_RAILS = [
    *((size, more, ("overlap" if more > 0 else "open", axis, other, abs(more)))
      for size, axis, other in MEETS for more in (SMALL, -SMALL, BIG, -BIG)
      if abs(more) == SMALL or not size.endswith("thickness")),
    ("back_rail_length", SMALL, ("stands out", "x", "", SMALL)),
    ("back_rail_length", BIG, ("stands out", "x", "", BIG)),
    ("back_rail_length", -SMALL, ("bare", "x", "side rail, right", BIG - SMALL)),
    ("back_rail_length", -BIG, ("open", "y", "side rail, right", None)),
    ("front_rail_width", SMALL, ("clearance", "z", "box above", Fraction(11, 16))),
    ("front_rail_width", BIG, ("overlap", "z", "box above", Fraction(3, 4))),
    ("front_rail_width", -SMALL, ("clearance", "z", "box above", Fraction(13, 16))),
]  # fmt: skip
WRONG_RUNNERS = [
    (f"{runner}_length", more, (kind, axis, other, after))
    for runner, axis, others in (
        ("lower_side_runner", "y", ("front rail", "back rail")),
        ("upper_side_runner", "y", ("front rail", "back rail")),
        ("lower_front_runner", "x", ("lower side runner, left", "lower side runner, right")),
        ("upper_front_runner", "x", ("upper side runner, left", "upper side runner, right")),
    )
    for more, kind, after in (
        (SMALL, "clearance", ENDS - SMALL / 2), (-SMALL, "clearance", ENDS + SMALL / 2),
        (BIG, "overlap", BIG / 2 - ENDS), (-BIG, "clearance", ENDS + BIG / 2),
    )
    for other in others
]  # fmt: skip


@each(WRONG_RAILS + WRONG_RUNNERS)
def test_a_wrong_rail_or_runner_does_what_the_builder_sees(case):
    size, more, expected = case
    assert expected in told(wrong_by(f"bottom_board.{size}", more))


@each(lambda: product(SIZES, (SMALL, -SMALL)))
def test_no_wrong_cut_of_a_sixteenth_passes_without_a_word(case):
    found = wrong_by(*case)
    assert found
    assert all(c.sentence[0].isupper() and c.sentence.endswith(".") for c in found)
    assert len({c.sentence for c in found}) == len(found)


SENTENCES = [
    ("front_rail_length", BIG,
     "The front rail is 1 1/2 in too long: it runs 1 1/2 in into the right side rail."),
    ("side_rail_length", -SMALL,
     "The side rails are 1/16 in too short: they leave a gap of 1/16 in to the back rail."),
    ("back_rail_length", SMALL,
     "The back rail is 1/16 in too long: it stands out 1/16 in at the right."),
    ("back_rail_length", -SMALL,
     "The back rail is 1/16 in too short: 1/16 in less of it lies against the right side rail."),
    ("panel_width", SMALL,
     "The panel is 1/16 in too wide: the gap to the side rails is 3/32 in instead of 1/8 in."),
    ("landing_board_width", -SMALL,
     "The landing board is 1/16 in too narrow: it touches the same pieces, and no gap changes."),
]  # fmt: skip


def test_sentences_say_what_is_wrong_and_what_it_does_in_the_builders_unit():
    for size, more, said in SENTENCES:
        assert wrong_by(f"bottom_board.{size}", more)[0].sentence == said
    true, changed = demo(), demo(given={"bottom_board.back_rail_length": Fraction(139, 8) + 5 * MM})
    found = consequences(assembled(true, "bottom_board"), assembled(changed, "bottom_board"), "mm")
    assert found[0].sentence == "The back rail is 5 mm too long: it stands out 5 mm at the right."


def test_an_upper_runner_turned_the_wrong_way_lifts_the_screen_out_of_the_frame():
    turned = {"bottom_board.upper_runner_height": demo()["strip_wide"]}
    proud = -demo(given=turned)["bottom_board.headroom"]
    assert proud == Fraction(159, 1000)
    raised = {
        ("overlap", "z", "box above", proud),
        ("clearance", "z", "box above", demo()["bottom_board.way_in"] - Fraction(1, 4)),
    }
    found = done_by(turned)
    assert raised <= told(found)
    assert found[0].sentence == (
        "The upper side runners and the upper front runner, turned the wrong way, are 1/4 in too "
        "high: the screen side strips and the upper back screen end strip run a little more "
        "than 5/32 in into the box above."
    )


def test_a_lower_runner_laid_flat_closes_a_gap_and_one_of_no_height_is_refused():
    name = "bottom_board.upper_runner_height"
    with pytest.raises(NoPieceError, match=f"^{name}: "):
        solids(demo(given={name: Fraction(0)}), "bottom_board")
    flat = {"bottom_board.lower_runner_height": demo()["strip_narrow"]}
    assert ("clearance", "x", "lower front runner", Fraction(0)) in told(done_by(flat))


# By hand, in sixteenths: each piece is told for what it does itself, and two that do it together.
SEVERAL = [
    ({"side_rail_length": 4, "front_rail_length": 4},
     "The side rails are 1/4 in too long: they run 1/4 in into the back rail.",
     "The front rail is 1/4 in too long: it runs 1/4 in into the right side rail."),
    ({"side_rail_length": 4, "front_rail_length": -4, "back_rail_length": 4},
     "The front rail is 1/4 in too short: it leaves a gap of 1/4 in to the right side rail.",
     "The back rail is 1/4 in too long: it stands out 1/4 in at the right."),
    ({"side_rail_thickness": 2, "front_rail_length": 2},
     "The left side rail is 1/8 in too thick: it runs 1/8 in into the front rail.",
     ("The right side rail is 1/8 in too thick; the front rail is 1/8 in too long: they run 1/4 in "
      "into one another.")),
    ({"side_rail_thickness": -2, "front_rail_length": -2},
     "The left side rail is 1/8 in too thin: it leaves a gap of 1/8 in to the front rail.",
     ("The right side rail is 1/8 in too thin; the front rail is 1/8 in too short: they leave a "
      "gap of 1/4 in between them.")),
    ({"back_rail_length": -16, "back_rail_thickness": 2},
     "The back rail is 1/8 in too thick: it runs 1/8 in into the side rails.",
     "The back rail is 1/8 in too thick: the gap to the panel closes, it should be 1/8 in."),
    ({"upper_runner_height": 4, "upper_side_runner_length": 4},
     ("The upper side runners, turned the wrong way, are 1/4 in too high: the gap to the upper "
      "front runner is 1/2 in instead of 1/4 in."),
     ("The upper side runners are 1/4 in too long: the gap to the front rail is 1/8 in instead of "
      "1/4 in.")),
]  # fmt: skip


@pytest.mark.parametrize(("off", "one", "other"), SEVERAL)
def test_of_several_wrong_pieces_each_is_told_for_its_own_fault(off, one, other):
    true, names = demo(), {name: f"bottom_board.{name}" for name in off}
    given = {full: true[full] + off[name] * SIXTEENTH for name, full in names.items()}
    assert {one, other} <= {c.sentence for c in done_by(given)}


# By hand: the demo's strips are 1/2 by 3/4; upper runners lie flat, lower ones stand on edge.
@pytest.mark.parametrize(("layer", "height", "width", "said"), [
    ("upper", Fraction(9, 16), Fraction(3, 4), "are 1/16 in too thick"),
    ("upper", Fraction(7, 8), Fraction(3, 4), "are 3/8 in too thick"),
    ("lower", Fraction(5, 8), Fraction(1, 2), "are 1/8 in too low"),
    ("lower", Fraction(1), Fraction(1, 2), "are 1/4 in too high"),
])  # fmt: skip
def test_a_runner_as_high_as_no_strip_side_stands_as_it_is_meant_to(layer, height, width, said):
    wrong = {f"bottom_board.{layer}_runner_height": height}
    pieces = in_place(demo(given=only_these(demo(), wrong)))
    sides, front = (pieces[f"{layer} {runner}"] for runner in ("side runner, left", "front runner"))
    assert (sides.size[0], sides.size[2]) == (front.size[1], front.size[2]) == (width, height)
    on_it = "panel" if layer == "lower" else "screen side strip, lower left"
    assert gap(sides, pieces[on_it], "z") == 0
    runners = f"The {layer} side runners and the {layer} front runner {said}"
    assert any(c.sentence.startswith(runners) for c in done_by(wrong))


def test_what_only_faces_another_part_of_its_neighbour_leaves_no_gap_but_no_joint():
    """By hand: a front rail 1 1/2 in lower ends below the landing board's rear edge.

    Its top is 2 3/4 − 1 1/2 = 1 1/4 in up; that edge of a 3/4 in board at 30 degrees begins
    3/4 ÷ cos 30° = 0.866 in below 2 3/4. In front of the rail the board's lower face slopes away.
    """
    rail = wrong_by("bottom_board.front_rail_width", -BIG)
    assert ("open", "y", "landing board", None) in told(rail)
    skirt = wrong_by("roof.skirt_side_length", -Fraction(1))
    assert ("open", "z", "deck", None) in told(skirt)


@pytest.mark.parametrize(("apart", "kind"), [("4", "clearance"), ("4.001", "nothing")])
def test_a_gap_of_4_in_is_told_and_a_wider_one_is_room(apart, kind):
    """A strip that is 1/16 in longer, and one that stands before its end."""

    def two(length: Fraction) -> list[Solid]:
        face, along = rectangle((Fraction(0), Fraction(1)), (Fraction(0), Fraction(1))), FLAT_ACROSS
        ends = {"a": (Fraction(0), length), "b": (1 + Fraction(apart), 6 + Fraction(apart))}
        return [
            Solid("box", part, "", (Block(low, high, face),), along, (high - low, 1, 1))
            for part, (low, high) in ends.items()
        ]

    (found,) = consequences(two(Fraction(1)), two(Fraction(17, 16)))
    assert found.kind == kind


def test_a_true_hive_has_no_consequences_and_what_is_too_small_to_show_is_none():
    for component in COMPONENTS:
        assert done_by({}, component) == []
    for more, shows in (("1/300", False), ("1/100", True), ("1", True)):  # to 1/64 in, or decimals
        kinds = {c.kind for c in wrong_by("bottom_board.back_rail_length", Fraction(more))}
        assert ("stands out" in kinds) == shows, more


# ---- gaps at sloping faces ----


def gaps_left(true: Values, given: Values) -> dict[str, float]:
    """Return the gap that opens to each piece of the roof when these sizes are cut wrong."""
    m = {name: true[name] for name in MEASUREMENTS if name in true}
    changed = DIMENSIONS.values(m, given)
    found = consequences(assembled(true, "roof"), assembled(changed, "roof"))
    return {
        pair[-1].removeprefix("roof: "): float(c.after)
        for c in found
        if c.kind == "open" and c.after
        for pair in c.pieces
    }


@MOST
@given(hives)
def test_a_gap_on_a_slope_is_told_from_face_to_face(values):
    """By trigonometry: upright, a board on a slope is its thickness by the cosine thick.

    The foam's ends stand upright, so what its thickness lacks is the upright gap itself.
    """
    angle = math.atan2(
        float(values["stud_width"] - values["rim_low_height"]), float(values["roof.rim_length"])
    )
    thin = {name: values[name] / 2 for name in ("roof.deck_thickness", "roof.roof_panel_thickness")}
    deck, foam = (float(size) for size in thin.values())
    found = gaps_left(values, {"roof.deck_thickness": thin["roof.deck_thickness"]})
    assert math.isclose(found["cover"], deck / math.cos(angle), rel_tol=3e-6)
    found = gaps_left(values, {"roof.roof_panel_thickness": thin["roof.roof_panel_thickness"]})
    assert math.isclose(found["roof retainer, left"], foam, rel_tol=3e-6)


@MOST
@given(hives)
def test_a_gap_beside_a_sloping_top_is_told_along_the_hive(values):
    """What the rim's front lacks in thickness is what stays open before the foam behind it."""
    stud = values["roof.rim_front_thickness"]
    found = gaps_left(values, {"roof.rim_front_thickness": stud - SIXTEENTH})
    assert found["roof panel"] == float(SIXTEENTH)


def test_what_the_foam_lacks_in_length_is_told_once():
    said = [c.sentence for c in wrong_by("roof.roof_panel_length", -Fraction(1, 4))]
    assert [text for text in said if text.startswith("The roof panel")] == [
        "The roof panel is 1/4 in too short: it leaves a gap of 1/4 in to the rim back."
    ]


def cut_wrong(m: dict[str, Fraction], name: str, steps: int) -> tuple[Values, Values]:
    """Return the values of a hive, and those with one size off by some sixteenths."""
    true = DIMENSIONS.values(m)
    return true, DIMENSIONS.values(m, {name: max(true[name] + steps * SIXTEENTH, SIXTEENTH)})


wrong_sizes = st.sampled_from(SIZES)
off_by = st.integers(-24, 24).filter(bool)


@MOST
@given(fitting(), wrong_sizes, off_by)
def test_every_new_overlap_is_told_and_no_other(m, name, steps):
    component = name.partition(".")[0]
    true, changed = (assembled(v, component) for v in cut_wrong(m, name, steps))
    clashing = {frozenset((o.first.name, o.second.name)): o for o in overlaps(changed)}
    said = {
        frozenset(pair): (c.axis, c.after)
        for c in consequences(true, changed)
        if c.kind == "overlap"
        for pair in c.pieces
    }
    assert all(clashing[pair].depth(axis) == depth for pair, (axis, depth) in said.items())
    too_little_to_show = Fraction(1, 128)
    for pair in clashing.keys() - said.keys():
        assert min(clashing[pair].depth(axis) for axis in AXES) <= too_little_to_show


@MOST
@given(fitting(), wrong_sizes, off_by)
def test_a_wrong_cut_moves_no_piece_but_those_cut_wrong(m, name, steps):
    component = name.partition(".")[0]
    true, changed = cut_wrong(m, name, steps)
    for old, new in zip(solids(true, component), solids(changed, component), strict=True):
        if old.cut == new.cut:
            assert old == new
    assert surroundings(true, component) == surroundings(changed, component)
