"""What is built of a hive: the graph of all dimensions, the components, and the pieces to cut."""

from collections.abc import Mapping
from fractions import Fraction
from types import ModuleType
from typing import Final

from hivecalc.components import bottom_board, box, inner_cover, practice, roof, sleeve
from hivecalc.components.making import at_the_bench
from hivecalc.derivation import UnknownNameError, Values, collected
from hivecalc.hive import BOX_SIZES, HIVE_SIZES, OPENINGS, Hive
from hivecalc.part import SIZES, Part, Piece, Size

MODULES: Final[dict[str, ModuleType]] = {
    "bottom_board": bottom_board,
    "roof": roof,
    "inner_cover": inner_cover,
    "box": box,
    "sleeve": sleeve,
}
COURSE: Final = collected(*MODULES.values(), practice)
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
    return COURSE.values(hive.measurements, given, built(hive))


def values_to_find(hive: Hive) -> Values:
    """The same, with the parts that end a lesson and that no hive is built with.

    >>> from hivecalc.hive import demo_hive
    >>> values_to_find(demo_hive())["practice.middle_rail_length"]
    Fraction(161, 8)
    """
    return COURSE.values(hive.measurements, None, (*built(hive), PRACTICE))


def in_use(hive: Hive, name: str) -> Fraction:
    """What a measurement is on this hive: as given, worked out, or the usual one.

    >>> from hivecalc.hive import demo_hive
    >>> in_use(demo_hive(), "built_opening_width")
    Fraction(115, 8)

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
    """Whether a box is sleeved to make this hive, and is not the hive itself.

    >>> from hivecalc.hive import hive_from_text
    >>> is_sleeved(hive_from_text("chosen.frames = 10"))
    True
    """
    if not has_box(hive):
        return False
    if HIVE_SIZES[0] not in hive.measured:
        return True
    return hive.measured[HIVE_SIZES[0]] - sizes_from_box(hive)["box_length"] > TAPE_AGREES


def has_box(hive: Hive) -> bool:
    """Whether this hive's file gives a box, by its frames or by its own sizes.

    >>> from hivecalc.hive import demo_hive
    >>> has_box(demo_hive())
    False
    """
    return "frames" in hive.chosen or BOX_SIZES[0] in hive.measured


def sizes_from_box(hive: Hive) -> Values:
    """The sizes that the box and its sleeve give, whatever was measured on the hive itself.

    >>> from hivecalc.hive import hive_from_text
    >>> sizes_from_box(hive_from_text("chosen.frames = 10"))["hive_width"]
    Fraction(77, 4)
    """
    measured = {n: v for n, v in hive.measurements.items() if n not in HIVE_SIZES}
    return COURSE.values(measured, components=("sleeve",))


def parts(
    hive: Hive, given: Mapping[str, Fraction] | None = None, component: str | None = None
) -> list[Piece]:
    """The pieces of what is built for this hive, or of one component, top to bottom as built.

    >>> from hivecalc.hive import demo_hive
    >>> [p.part for p in parts(demo_hive(), component="inner_cover")]
    ['rim_side', 'rim_front', 'rim_back', 'channel_side', 'channel_back', 'sheet']

    Of box and sleeve there are as many as boxes. Raises UnknownNameError for a component that there
    isn't.
    """
    found = values(hive, given)
    names = built(hive) if component is None else (_built_component(component, hive),)
    return [
        _piece(hive, name, part, found)
        for name in names
        for part in parts_of(name, hive.measurements)
    ]


def parts_of(component: str, measurements: Mapping[str, Fraction]) -> list[Part]:
    """The parts of a component that are there in a hive with these measurements.

    >>> from hivecalc.hive import demo_hive
    >>> closed = {**demo_hive().measurements, "inner_notch": Fraction(0)}
    >>> [p.name for p in parts_of("inner_cover", closed)]
    ['rim_side', 'rim_front', 'rim_back', 'sheet']
    """
    return [p for p in MODULES[component].PARTS if p.is_there(measurements)]


def is_there(name: str, measurements: Mapping[str, Fraction]) -> bool:
    """Whether a dimension's piece is there in a hive with these measurements.

    >>> from hivecalc.hive import demo_hive
    >>> closed = {**demo_hive().measurements, "inner_notch": Fraction(0)}
    >>> is_there("inner_cover.channel_back_length", closed)
    False

    A dimension that is no size of a piece always is.
    """
    component, _, size = name.rpartition(".")
    listed = MODULES[component].PARTS if component else ()
    same = [p for p in listed if p.name == size.rpartition("_")[0]]
    return not same or any(p.is_there(measurements) for p in same)


def _built_component(component: str, hive: Hive) -> str:
    if component not in built(hive):
        raise UnknownNameError(component, built(hive), "component built for this hive")
    return component


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
    return Size(found[name], COURSE.dimension(name).rule.rounding)


def of_stock(name: str) -> bool:
    """Whether a size is that of the stock or was chosen, and not one of the whole hive or box.

    >>> of_stock("bottom_board.side_rail_width"), of_stock("bottom_board.back_rail_length")
    (True, False)
    """
    dimension = COURSE.dimension(name)
    return dimension.as_measured and dimension.inputs[0] not in (*HIVE_SIZES, *BOX_SIZES)
