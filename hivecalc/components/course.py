"""What is built of a hive: all dimensions, the pieces, what is wrong, what its builder must know.

A hive's two ways to a size must agree, and each of its pieces must have a size. Notes tell of
choices that disagree, and of sizes that changed since the first edition.
"""

import ast
from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from types import ModuleType
from typing import Final, TypeAlias

from hivecalc.components import bottom_board, box, inner_cover, practice, roof, sleeve
from hivecalc.derivation import UnknownNameError, Values, collected, title
from hivecalc.hive import (
    BOX_SIZES,
    HIVE_SIZES,
    OPENINGS,
    Fault,
    Hive,
    HiveFaults,
    changed,
    demo_hive,
    hive_from_file,
)
from hivecalc.length import MARKS, Units, rounded, shown, with_unit
from hivecalc.part import SIZES, Part, Size, SizedPart

MODULES: Final[dict[str, ModuleType]] = {
    "bottom_board": bottom_board,
    "roof": roof,
    "inner_cover": inner_cover,
    "box": box,
    "sleeve": sleeve,
}
DIMENSIONS: Final = collected(*MODULES.values(), practice)
ALIKE: Final = tuple(
    name
    for name, made in DIMENSIONS.dimensions.items()
    if "." not in name and isinstance(made.expression, ast.Name)
)
"""Measurements that are as another one is, as long as nobody has measured them."""
PRACTICE: Final = "practice"
ALWAYS_BUILT: Final = ("bottom_board", "roof")
BOXES: Final = ("box", "sleeve")
"""Components of which there are as many as boxes."""

TAPE_AGREES: Final = Fraction(1, 8)
"""How far two careful readings of one size are apart; common practice, no published source."""
OPENING_OFF: Final = Fraction(1, 2)
"""How far an opening in a glued frame may be off its plan, so that the rest can be cut to it.

Common practice, no published source.
"""


def values(hive: Hive, given: Mapping[str, Fraction] | None = None) -> Values:
    """Every dimension of what is built for this hive, with its measurements, by full name.

    >>> from hivecalc.hive import demo_hive
    >>> values(demo_hive())["bottom_board.side_rail_length"]
    Fraction(173, 8)

    Lengths are Fractions of an inch. `given` replaces any of them by a value of your own.
    """
    if given:
        return DIMENSIONS.values(hive.measurements, given, built(hive))
    return dict(_values(hive.units, tuple(hive.measured.items()), tuple(hive.chosen.items()), ()))


_Given: TypeAlias = tuple[tuple[str, Fraction], ...]


@lru_cache(maxsize=256)
def _values(units: Units, measured: _Given, chosen: _Given, more: tuple[str, ...]) -> Values:
    """The same of a hive with these sizes: a page asks for those of its hive again and again."""
    hive = Hive("", units, dict(measured), dict(chosen))
    return DIMENSIONS.values(hive.measurements, None, (*built(hive), *more))


def values_to_find(hive: Hive) -> Values:
    """The same, with the parts that end a lesson and that no hive is built with.

    >>> from hivecalc.hive import demo_hive
    >>> values_to_find(demo_hive())["practice.middle_rail_length"]
    Fraction(161, 8)
    """
    measured, chosen = tuple(hive.measured.items()), tuple(hive.chosen.items())
    return dict(_values(hive.units, measured, chosen, (PRACTICE,)))


def begun_with(hive: Hive, dimension: str) -> Values:
    """The sizes that the steps to a dimension begin with, in inches, by name.

    They are the measurements, those that are another one under a name of their own, and the hive's
    own length and width for all but themselves: where a box gives those, lesson 07 has worked them
    out.
    """
    found, known = values(hive), worked_out_on(hive, dimension).measurements
    begun = found.keys() & {*HIVE_SIZES, *ALIKE} - {dimension}
    return {**{n: found[n] for n in begun}, **known}


def in_use(hive: Hive, name: str) -> Fraction:
    """What a measurement is on this hive: as given, worked out, or the usual one.

    An opening that was not measured yet is as long and as wide as planned. Lengths are Fractions of
    an inch.
    """
    found = values(hive)
    return found[name] if name in found else found[OPENINGS[name][-1]]


def before_openings(hive: Hive) -> Hive:
    """The same hive before an opening was measured in a glued frame: all of it is as planned."""
    if hive.measured.keys().isdisjoint(OPENINGS):
        return hive
    return replace(hive, measured={n: v for n, v in hive.measured.items() if n not in OPENINGS})


def worked_out_on(hive: Hive, dimension: str) -> Hive:
    """The hive, or, for an opening that was measured since, what it was by the plan."""
    opened = {cut for name in OPENINGS.keys() & hive.measured for cut in OPENINGS[name]}
    return before_openings(hive) if dimension in opened else hive


def sides_in_hand(hive: Hive) -> tuple[Fraction, Fraction]:
    """Length and width of what the tape was laid on: of the box to be sleeved, or of the hive.

    >>> from hivecalc.hive import demo_hive
    >>> sides_in_hand(demo_hive())
    (Fraction(185, 8), Fraction(139, 8))
    """
    length, width = BOX_SIZES[:2] if BOX_SIZES[0] in hive.measured else HIVE_SIZES
    return values(hive)[length], values(hive)[width]


def built(hive: Hive) -> tuple[str, ...]:
    """The components that are built for this hive, in the order they are built.

    >>> from hivecalc.hive import demo_hive
    >>> built(demo_hive())
    ('bottom_board', 'roof', 'inner_cover')
    """
    cover_built = ("inner_cover",) if hive.measurements["inner_cover"] else ()
    box_built = ("box",) if "frames" in hive.chosen else ()
    return (*ALWAYS_BUILT, *cover_built, *box_built, *(("sleeve",) if is_sleeved(hive) else ()))


def is_sleeved(hive: Hive) -> bool:
    """Whether a box is sleeved to make this hive, and is not the hive itself."""
    if not has_box(hive):
        return False
    if HIVE_SIZES[0] not in hive.measured:
        return True
    return hive.measured[HIVE_SIZES[0]] - sizes_from_box(hive)["box_length"] > TAPE_AGREES


def has_box(hive: Hive) -> bool:
    """Whether this hive's file gives a box, by its frames or by its own sizes."""
    return "frames" in hive.chosen or BOX_SIZES[0] in hive.measured


def sizes_from_box(hive: Hive) -> Values:
    """The sizes that the box and its sleeve give, whatever was measured on the hive itself."""
    measured = {n: v for n, v in hive.measurements.items() if n not in HIVE_SIZES}
    return DIMENSIONS.values(measured, components=("sleeve",))


def parts(hive: Hive, component: str | None = None) -> list[SizedPart]:
    """The pieces of what is built for this hive, or of one component, top to bottom as built.

    >>> from hivecalc.hive import demo_hive
    >>> [p.part for p in parts(demo_hive(), component="inner_cover")]
    ['rim_side', 'rim_front', 'rim_back', 'channel_side', 'channel_back', 'sheet']

    Of box and sleeve there are as many as boxes. Raises UnknownNameError for a component that there
    isn't.
    """
    found, there = values(hive), built(hive)
    if component not in {None, *there}:
        raise UnknownNameError(str(component), there, "component built for this hive")
    names = there if component is None else (component,)
    return [
        _piece(hive, name, part, found)
        for name in names
        for part in parts_of(name, hive.measurements)
    ]


def parts_of(component: str, measurements: Mapping[str, Fraction]) -> list[Part]:
    """The parts of a component that are there in a hive with these measurements."""
    return [p for p in MODULES[component].PARTS if p.is_there(measurements)]


def how_many(component: str, measurements: Mapping[str, Fraction]) -> int:
    """How many of a component a hive with these measurements has: of box and sleeve all boxes."""
    return int(measurements["boxes"]) if component in BOXES else 1


def is_there(name: str, measurements: Mapping[str, Fraction]) -> bool:
    """Whether a dimension's piece is there in a hive with these measurements.

    A dimension that is not the size of a piece is always there.
    """
    component, _, size = name.rpartition(".")
    listed = MODULES[component].PARTS if component else ()
    same = [p for p in listed if p.name == size.rpartition("_")[0]]
    return not same or any(p.is_there(measurements) for p in same)


def _piece(hive: Hive, component: str, part: Part, found: Values) -> SizedPart:
    names = {s: f"{component}.{part.name}_{s}" for s in SIZES if getattr(part, s)}
    sizes = {s: Size(found[n], DIMENSIONS.dimensions[n].rule.rounding) for s, n in names.items()}
    more = at_the_bench(component, part.name, found, hive.units)
    return SizedPart(
        component,
        part.name,
        part.quantity * how_many(component, found),
        part.material,
        sizes.get("thickness"),
        sizes.get("width"),
        sizes.get("length"),
        f"{part.note} {more}" if more else part.note,
    )


def of_stock(name: str) -> bool:
    """Whether a size is that of the stock or was chosen, and not one of the whole hive or box."""
    dimension = DIMENSIONS.dimension(name)
    return dimension.as_measured and dimension.inputs[0] not in (*HIVE_SIZES, *BOX_SIZES)


# ── what to know at the bench beyond the sizes ────────────────────────────────────────────────────


LEAST_BEARING: Final = Fraction(1, 4)
"""Less than this of a box's foot on the rails, and the lower edge strips carry the box.

Common practice, no published source.
"""


def sleeve_layers(found: Values) -> int:
    """How many layers of the foam board a sleeve's foam is; one where it is no whole number."""
    layers = found["sleeve_foam_thickness"] / found["foam_thickness"]
    return int(layers) if layers.denominator == 1 else 1


def at_the_bench(  # noqa: C901 - a case a part
    component: str, part: str, found: Values, units: Units
) -> str:
    """What the maker of a piece has to know on this hive; empty where its sizes say it all.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> print(at_the_bench("roof", "rim_side", values(demo_hive()), "inch"))
    Taper it: 3 1/2 in high in front, 1 1/2 in at the back.

    Common practice, no published source.
    """

    def size(name: str) -> str:
        return shown(found[name], units)

    said, sloped = "", found["roof.slope"] > 0
    match component, part:
        case "roof", "rim_side" if not sloped:
            said = "It is as high at the back as in front: tilt the stand, so that rain runs off."
        case "roof", "rim_side":
            front, back = size("stud_width"), size("rim_low_height")
            said = f"Taper it: {front} high in front, {back} at the back."
        case "roof", "rim_front" if sloped:
            inner = size("roof.rim_front_inner_height")
            said = f"Its top is planed to the slope: {inner} high at its inner face."
        case "roof", "rim_back" if sloped:
            outer = size("rim_low_height")
            said = f"Its top is planed to the slope: {outer} high at its outer face."
        case "roof", "skirt_end" if sloped:
            said = "The top edge of the one at the back is planed to the slope."
        case "roof", "skirt_side" if sloped:
            said = "Where it passes the rim's back, its tail is planed to the slope."
        case "inner_cover", "sheet" if found["inner_notch"]:
            long, wide = size("inner_cover.slot_length"), size("inner_cover.slot_width")
            said = (
                f"Cut a slot through the lower one, at the channel's back end: {long} long across "
                f"the hive, {wide} wide, in the middle, {size('inner_cover.slot_from_front')} from "
                "the front edge."
            )
        case "sleeve", "foam_side" | "foam_end":
            layers = sleeve_layers(found)
            if layers > 1:
                board = size("foam_thickness")
                said = f"It takes {layers} layers of the {board} board, one on the other."
        case "sleeve", "edge_strip_side" | "edge_strip_end":
            if found["sleeve.bearing"] < LEAST_BEARING:
                said = "The lower ones carry the box: glue and screw them."
    return said


# ── checked as a whole ────────────────────────────────────────────────────────────────────────────


def opened_hive(path: Path | str | None, settings: Mapping[str, str] | None = None) -> Hive:
    """The hive of this file, or the demo hive, with settings changed, and checked as a whole.

    Raises HiveFaults with every fault at once.
    """
    hive = demo_hive() if path is None else hive_from_file(Path(path))
    return checked(changed(hive, settings) if settings else hive)


def checked(hive: Hive) -> Hive:
    """The same hive, once its two ways to a size agree and each of its pieces has a size.

    An opening that was measured is near its plan. Raises HiveFaults.
    """
    faults = [*_disagreements(hive)] or [*_openings_off_plan(hive)]
    faults = faults or [*_pieces_of_no_size(hive), *_channel_faults(hive)]
    if faults:
        raise HiveFaults(faults)
    return hive


def _disagreements(hive: Hive) -> Iterator[Fault]:
    """The sizes that two ways give differently, by more than two readings of a tape may."""
    for name, others in _second_ways(hive):
        value = hive.measured[name]
        if all(abs(value - other) > TAPE_AGREES for other in others.values()):
            ways = " and ".join(f"{with_unit(hive.units, o)} from {w}" for w, o in others.items())
            yield Fault(
                place=f"[measured] {name}",
                found=f"{with_unit(hive.units, value)} measured, but {ways}",
                accepted="give two ways that agree within 1/8 in (3 mm), or only one of them",
            )


def _openings_off_plan(hive: Hive) -> Iterator[Fault]:
    """The openings that are so far off their plan that they are misread, or the frame is no use."""
    plan = before_openings(hive)
    for name in [n for n in OPENINGS if n in hive.measured]:
        value, planned = hive.measured[name], in_use(plan, name)
        if abs(value - planned) > OPENING_OFF:
            most = with_unit(hive.units, OPENING_OFF)
            yield Fault(
                place=f"[measured] {name}",
                found=(
                    f"{with_unit(hive.units, value)} measured, but "
                    f"{with_unit(hive.units, planned)} planned"
                ),
                accepted=(
                    "measure it again, or leave it out until a new frame is glued: "
                    f"{most} off is the most"
                ),
            )


def _second_ways(hive: Hive) -> Iterator[tuple[str, Values]]:
    """Each measured size that can be had another way: its name, and what the other ways give."""
    if "frames" in hive.chosen:
        unmeasured = {n: v for n, v in hive.measurements.items() if n not in BOX_SIZES}
        from_frames = DIMENSIONS.values(unmeasured, components=("box",))
        yield from ((n, {"the frames": from_frames[n]}) for n in BOX_SIZES if n in hive.measured)
    if has_box(hive):
        sleeved = is_sleeved(hive)
        sizes, way = sizes_from_box(hive), "the box and its sleeve" if sleeved else "the box"
        for name in HIVE_SIZES:
            source = name if sleeved else name.replace("hive", "box")
            if name in hive.measured:
                yield name, {way: sizes[source]}


def _pieces_of_no_size(hive: Hive) -> Iterator[Fault]:
    found = values(hive)
    there = ((c, part) for c in built(hive) for part in parts_of(c, hive.measurements))
    for name in [f"{c}.{part.name}_{size}" for c, part in there for size, _ in part.sizes()]:
        if found[name] > 0:
            continue
        if name == "bottom_board.screen_front_stop_thickness":
            below, stud, way = (
                shown(found[n], hive.units)
                for n in ("bottom_board.mesh_top", "stud_width", "bee_way")
            )
            no_room = (
                "no room is left for the front stop: runners, slot, screen and mesh take "
                f"{below} of the stud's {stud}, and the bees' way over the stop takes {way}"
            )
            wider = "give a wider stud, thinner foam for the panel, thinner strips"
            yield Fault(name, no_room, f"{wider} or a lower bee_way")
            continue
        sources = ", ".join(DIMENSIONS.rests_on(name, hive.measurements, found))
        size = f"it would be {with_unit(hive.units, found[name])}"
        yield Fault(name, size, f"it must be more than nothing, and comes from {sources}")


def _channel_faults(hive: Hive) -> Iterator[Fault]:
    """The faults of an upper way that does not go between the inner cover's rims."""
    found = values(hive)
    if "inner_cover" not in built(hive) or not found["inner_notch"]:
        return
    back, depth = "inner_cover.channel_back_length", "inner_cover.channel_side_length"
    for name, size, room in (
        ("inner_notch", found[back], found["bottom_board.opening_width"]),
        (
            "inner_channel_depth",
            found[depth] + found["strip_narrow"],
            found["bottom_board.opening_length"],
        ),
    ):
        most = found[name] - (size - room)
        if size > room and most > 0:
            across, left, given = (with_unit(hive.units, each) for each in (size, room, most))
            wide = f"with its strips the channel is {across} across, and the rims leave {left}"
            yield Fault(f"[chosen] {name}", wide, f"give {given} at most")


# ── notes ─────────────────────────────────────────────────────────────────────────────────────────


def notes(hive: Hive) -> list[str]:
    """A sentence for each choice in a hive file that disagrees with another one.

    >>> from hivecalc.hive import changed, demo_hive
    >>> notes(changed(demo_hive(), {"skirt_width": "2"}))
    ['skirt_width 2 in ends 3/8 in above the box: leave it out and the skirt is 3 3/8 in.']

    A skirt or a front stop that is given wins over the lap or the way in that is wanted; what
    agrees with them on the tape is not said.
    """
    return [*_skirt(hive), *_front_stop(hive)]


def _skirt(hive: Hive) -> Iterator[str]:
    given, meant = hive.chosen.get("skirt_width"), _derived(hive, "skirt_width", "roof")
    if given is None or _same_on_the_tape(given, meant, hive.units):
        return
    found = values(hive)
    lap = shown(abs(found["roof.lap"]), hive.units)
    if found["roof.lap"] > 0:
        wanted = shown(found["roof_lap"], hive.units)
        does = f"laps the box by {lap}, and roof_lap asks for {wanted}"
    else:
        does = f"ends {lap} above the box" if found["roof.lap"] else "ends where the box begins"
    yield (
        f"skirt_width {shown(given, hive.units)} {does}: leave it out and the skirt is "
        f"{shown(meant, hive.units)}."
    )


def _front_stop(hive: Hive) -> Iterator[str]:
    given = hive.chosen.get("front_stop_height")
    meant = _derived(hive, "front_stop_height", "bottom_board")
    if given is None or _same_on_the_tape(given, meant, hive.units):
        return
    found = values(hive)
    way = found["stud_width"] - found["bottom_board.front_stop_top"]
    leaves = f"leaves {shown(way, hive.units)} over it" if way > 0 else "closes the way in"
    wanted = shown(found["bee_way"], hive.units)
    yield (
        f"front_stop_height {shown(given, hive.units)} {leaves}, and bee_way asks for {wanted}: "
        f"leave it out and the front stop is {shown(meant, hive.units)}."
    )


def _derived(hive: Hive, name: str, component: str) -> Fraction:
    """What a measurement would be if the hive file did not give it."""
    others = {n: v for n, v in hive.measurements.items() if n != name}
    return DIMENSIONS.values(others, components=(component,))[name]


def _same_on_the_tape(one: Fraction, other: Fraction, units: Units) -> bool:
    marks = MARKS[units]
    return rounded(one, marks) == rounded(other, marks)


# ── a hive file of the first edition ──────────────────────────────────────────────────────────────

# What the first edition took where a file gave no size: its component, the size, why not now.
_FIRST: Final[Mapping[str, tuple[str, Fraction, str]]] = {
    "front_stop_height": (
        "bottom_board", Fraction(1, 4), "so that the way in stays right whatever a stud measures"
    ),
    "skirt_width": ("roof", Fraction(2), "so that it hangs past the inner cover and laps the box"),
    "inner_rim_height": (
        "inner_cover", Fraction(1, 2), "so that its upper way is a bee space high"
    ),
    "rest_depth": ("box", Fraction(5, 8), "so that the middle of a bee space is over the frames"),
    "space_below": ("box", Fraction(1, 4), "so that it is a bee space between stacked boxes"),
}  # fmt: skip
_IN_MM: Final = (
    "A hive in mm has defaults of its own now, in whole millimetres: a stud of 38 × 89, a strip of "
    "12 × 20, foam of 25 and plywood of 12, where it had inches turned into millimetres."
)
_PIECES: Final = (
    "The mesh ends a mesh_margin inside the screen's edge now, where it was as big as the screen.",
    "The roof's rim back is ripped higher now, so that its top can be planed to the slope.",
)


def changed_since_first_edition(hive: Hive) -> list[str]:
    """A sentence for each size of this hive that is another than in the course's first edition.

    A size that the hive file gives has not changed, nor has one of a part that is not built.
    """
    found, notes = values(hive), [_IN_MM] if hive.units == "mm" else []
    for name, (component, old, why) in _FIRST.items():
        if component in built(hive) and name not in hive.chosen:
            now, was = (shown(size, hive.units) for size in (found[name], old))
            notes.append(f"The {title(name)} is {now} now and was {was}, {why}.")
    return [*notes, *_PIECES]
