"""What is built of a hive: the graph of all dimensions, the components, and the pieces to cut."""

from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache
from types import ModuleType
from typing import Final, TypeAlias

from hivecalc.components import bottom_board, box, inner_cover, practice, roof, sleeve
from hivecalc.derivation import UnknownNameError, Values, collected
from hivecalc.hive import BOX_SIZES, HIVE_SIZES, OPENINGS, Hive
from hivecalc.length import Units, shown
from hivecalc.part import SIZES, Part, Piece, Size

MODULES: Final[dict[str, ModuleType]] = {
    "bottom_board": bottom_board,
    "roof": roof,
    "inner_cover": inner_cover,
    "box": box,
    "sleeve": sleeve,
}
DIMENSIONS: Final = collected(*MODULES.values(), practice)
PRACTICE: Final = "practice"
ALWAYS_BUILT: Final = ("bottom_board", "roof")
STACKED: Final = ("box", "sleeve")
"""Components of which there are as many as boxes."""

TAPE_AGREES: Final = Fraction(1, 8)
"""How far two careful readings of one size are apart; common practice, no published source."""


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


def in_use(hive: Hive, name: str) -> Fraction:
    """What a measurement is on this hive: as given, worked out, or the usual one.

    An opening that was not measured yet is as long and as wide as planned. Lengths are Fractions of
    an inch.
    """
    found = values(hive)
    return found[name] if name in found else found[OPENINGS[name][-1]]


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


def parts(hive: Hive, component: str | None = None) -> list[Piece]:
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


def is_there(name: str, measurements: Mapping[str, Fraction]) -> bool:
    """Whether a dimension's piece is there in a hive with these measurements.

    A dimension that is not the size of a piece is always there.
    """
    component, _, size = name.rpartition(".")
    listed = MODULES[component].PARTS if component else ()
    same = [p for p in listed if p.name == size.rpartition("_")[0]]
    return not same or any(p.is_there(measurements) for p in same)


def _piece(hive: Hive, component: str, part: Part, found: Values) -> Piece:
    sizes = {s: _size(f"{component}.{part.name}_{s}", found) for s in SIZES if getattr(part, s)}
    more = at_the_bench(component, part.name, found, hive.units)
    return Piece(
        component,
        part.name,
        part.quantity * int(found["boxes"] if component in STACKED else 1),
        part.material,
        sizes.get("thickness"),
        sizes.get("width"),
        sizes.get("length"),
        f"{part.note} {more}" if more else part.note,
    )


def _size(name: str, found: Values) -> Size:
    return Size(found[name], DIMENSIONS.dimension(name).rule.rounding)


def of_stock(name: str) -> bool:
    """Whether a size is that of the stock or was chosen, and not one of the whole hive or box."""
    dimension = DIMENSIONS.dimension(name)
    return dimension.as_measured and dimension.inputs[0] not in (*HIVE_SIZES, *BOX_SIZES)


# ── what to know at the bench beyond the sizes ────────────────────────────────────────────────────


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

    def told(name: str) -> str:
        return shown(found[name], units)

    said, sloped = "", found["roof.slope"] > 0
    match component, part:
        case "roof", "rim_side" if not sloped:
            said = "It is as high at the back as in front: tilt the stand, so that rain runs off."
        case "roof", "rim_side":
            front, back = told("stud_width"), told("rim_low_height")
            said = f"Taper it: {front} high in front, {back} at the back."
        case "roof", "rim_front" if sloped:
            inner = told("roof.rim_front_inner_height")
            said = f"Its top is planed to the slope: {inner} high at its inner face."
        case "roof", "rim_back" if sloped:
            outer = told("rim_low_height")
            said = f"Its top is planed to the slope: {outer} high at its outer face."
        case "roof", "skirt_end" if sloped:
            said = "The top edge of the one at the back is planed to the slope."
        case "roof", "skirt_side" if sloped:
            said = "Where it passes the rim's back, its tail is planed to the slope."
        case "inner_cover", "sheet" if found["inner_notch"]:
            long, wide = told("inner_cover.slot_length"), told("inner_cover.slot_width")
            said = (
                f"Cut a slot through the lower one, at the channel's back end: {long} long across "
                f"the hive, {wide} wide, in the middle, {told('inner_cover.slot_from_front')} from "
                "the front edge."
            )
        case "sleeve", "foam_side" | "foam_end":
            layers = found["sleeve_foam_thickness"] / found["foam_thickness"]
            if layers != 1 and layers.denominator == 1:
                board = told("foam_thickness")
                said = f"It takes {layers} layers of the {board} board, one on the other."
        case "sleeve", "edge_strip_side" | "edge_strip_end":
            if found["sleeve.bearing"] < LEAST_BEARING:
                said = "The lower ones carry the box: glue and screw them."
    return said


LEAST_BEARING: Final = Fraction(1, 4)
"""Less than this of a box's foot on the rails, and the lower edge strips carry the box.

Common practice, no published source.
"""
