"""The components of a hive, top to bottom as built, and the graph of all their dimensions."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from pathlib import Path
from types import ModuleType

from hivecalc.components import bottom_board, box, inner_cover, roof, sleeve
from hivecalc.derivation import UnknownNameError, Values, collected
from hivecalc.hive import (
    BOX_SIZES,
    HIVE_SIZES,
    Fault,
    Hive,
    HiveFaults,
    changed,
    demo_hive,
    hive_from_file,
)
from hivecalc.length import written
from hivecalc.part import SIZES, Part, Piece, Size

MODULES: dict[str, ModuleType] = {
    "bottom_board": bottom_board,
    "roof": roof,
    "inner_cover": inner_cover,
    "box": box,
    "sleeve": sleeve,
}
COURSE = collected(*MODULES.values())
ALWAYS_BUILT = ("bottom_board", "roof")
STACKED = ("box", "sleeve")
"""Components of which there are as many as boxes."""
TAPE_AGREES = Fraction(
    1, 8
)  # two careful readings of one size; common practice, no published source


def values(hive: Hive, given: Mapping[str, Fraction] | None = None) -> Values:
    """Every dimension of what is built for this hive, with its measurements, by full name.

    >>> from hivecalc.hive import demo_hive
    >>> values(demo_hive())["bottom_board.side_rail_length"]
    Fraction(173, 8)

    Lengths are Fractions of an inch. `given` replaces any of them by a value of your own.
    """
    return COURSE.values(hive.measurements, given, built(hive))


def built(hive: Hive) -> tuple[str, ...]:
    """The components that are built for this hive, in the order they are built.

    >>> from hivecalc.hive import demo_hive
    >>> built(demo_hive())
    ('bottom_board', 'roof', 'inner_cover')
    """
    cover_built = ("inner_cover",) if hive.measurements["inner_cover"] else ()
    box_built = ("box",) if "frames" in hive.chosen else ()
    return (*ALWAYS_BUILT, *cover_built, *box_built, *(("sleeve",) if _sleeved(hive) else ()))


def _sleeved(hive: Hive) -> bool:
    if not _from_box(hive):
        return False
    if HIVE_SIZES[0] not in hive.measured:
        return True
    return hive.measured[HIVE_SIZES[0]] - sizes_from_box(hive)["box_length"] > TAPE_AGREES


def _from_box(hive: Hive) -> bool:
    return "frames" in hive.chosen or BOX_SIZES[0] in hive.measured


def sizes_from_box(hive: Hive) -> Values:
    """The sizes that the box and its sleeve give, whatever was measured on the hive itself."""
    measured = {n: v for n, v in hive.measurements.items() if n not in HIVE_SIZES}
    return COURSE.values(measured, components=("sleeve",))


def parts(
    hive: Hive, given: Mapping[str, Fraction] | None = None, component: str | None = None
) -> list[Piece]:
    """The pieces of what is built for this hive, or of one component, top to bottom as built.

    >>> from hivecalc.hive import demo_hive
    >>> [p.part for p in parts(demo_hive(), component="inner_cover")]
    ['rim_side', 'rim_front', 'rim_back', 'channel_side', 'channel_back', 'sheet']

    Raises UnknownNameError for a component that there isn't.
    """
    found = values(hive, given)
    names = built(hive) if component is None else (_built_component(component, hive),)
    return [_piece(c, part, found) for c in names for part in parts_of(c, hive.measurements)]


def parts_of(component: str, measurements: Mapping[str, Fraction]) -> list[Part]:
    """The parts of a component that are there in a hive with these measurements.

    >>> from hivecalc.hive import demo_hive
    >>> closed = {**demo_hive().measurements, "inner_notch": Fraction(0)}
    >>> [p.name for p in parts_of("inner_cover", closed)]
    ['rim_side', 'rim_front', 'rim_back', 'sheet']
    """
    return [p for p in MODULES[component].PARTS if p.is_there(measurements)]


def _built_component(component: str, hive: Hive) -> str:
    if component not in built(hive):
        raise UnknownNameError(component, built(hive), "component built for this hive")
    return component


def _piece(component: str, part: Part, found: Values) -> Piece:
    sizes = {s: _size(f"{component}.{part.name}_{s}", found) for s in SIZES if getattr(part, s)}
    return Piece(
        component,
        part.name,
        part.quantity * int(found["boxes"] if component in STACKED else 1),
        part.material,
        sizes.get("thickness"),
        sizes.get("width"),
        sizes.get("length"),
        part.note,
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


def opened_hive(path: Path | str | None, settings: Mapping[str, str] | None = None) -> Hive:
    """The hive of this file, or the demo hive, with settings changed, and checked as a whole.

    >>> opened_hive(None, {"stud_thickness": "1 9/16"}).measured["stud_thickness"]
    Fraction(25, 16)

    Raises HiveFaults with every fault at once.
    """
    hive = demo_hive() if path is None else hive_from_file(Path(path))
    return checked(changed(hive, settings) if settings else hive)


def checked(hive: Hive) -> Hive:
    """The same hive, once its two ways to a size agree and each of its pieces has a size.

    Raises HiveFaults.
    """
    faults = [*_disagreements(hive)] or [*_pieces_of_no_size(hive)]
    if faults:
        raise HiveFaults(faults)
    return hive


def _disagreements(hive: Hive) -> Iterator[Fault]:
    """The sizes that two ways give differently, by more than two readings of a tape may."""
    for name, others in _second_ways(hive):
        value = hive.measured[name]
        if all(abs(value - other) > TAPE_AGREES for other in others.values()):
            ways = " and ".join(f"{written(o, hive.units)} from {w}" for w, o in others.items())
            yield Fault(
                place=f"[measured] {name}",
                found=f"{written(value, hive.units)} measured, but {ways}",
                accepted="two ways that agree within 1/8 in, or only one of them",
            )


def _second_ways(hive: Hive) -> Iterator[tuple[str, Values]]:
    """Each measured size that can be had another way: its name, and what the other ways give."""
    if "frames" in hive.chosen:
        unmeasured = {n: v for n, v in hive.measurements.items() if n not in BOX_SIZES}
        from_frames = COURSE.values(unmeasured, components=("box",))
        yield from ((n, {"the frames": from_frames[n]}) for n in BOX_SIZES if n in hive.measured)
    if _from_box(hive):
        sizes, way = sizes_from_box(hive), "the box and its sleeve" if _sleeved(hive) else "the box"
        for name in HIVE_SIZES:
            source = name if _sleeved(hive) else name.replace("hive", "box")
            if name in hive.measured:
                yield name, {way: sizes[source]}


def _pieces_of_no_size(hive: Hive) -> Iterator[Fault]:
    found = values(hive)
    for name in COURSE.names(built(hive)):
        part_size = COURSE.dimension(name).kind == "length" and name.rpartition("_")[2] in SIZES
        if not part_size or found[name] > 0 or not _is_there(name, hive):
            continue
        if name == "bottom_board.screen_front_stop_thickness":
            accepted = (
                "a stud_width that holds runners, slot, screen and the way in, or thinner "
                "panel_foam_thickness or strips"
            )
        else:
            sources = ", ".join(n for n in COURSE.rests_on(name, hive.measurements))
            accepted = f"a piece longer than nothing; it comes from {sources}"
        yield Fault(place=name, found=written(found[name], hive.units), accepted=accepted)


def _is_there(size: str, hive: Hive) -> bool:
    """Whether the piece whose size this is, is there in this hive; other lengths always are."""
    component, _, name = size.partition(".")
    of = [p for p in MODULES[component].PARTS if name.rpartition("_")[0] == p.name]
    return not of or any(p.is_there(hive.measurements) for p in of)
