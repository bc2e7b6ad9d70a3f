"""A hive as a whole: what is wrong with it, and what its builder is told once.

Its two ways to a size must agree, and each of its pieces must have a size. Notes tell of choices
that disagree, and of sizes that changed since the first edition.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from pathlib import Path
from typing import Final

from hivecalc.components.course import (
    DIMENSIONS,
    TAPE_AGREES,
    built,
    has_box,
    is_sleeved,
    parts_of,
    sizes_from_box,
    values,
)
from hivecalc.derivation import Values, title
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
from hivecalc.length import MARKS, Units, rounded, shown, with_unit


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
    faults = [*_disagreements(hive)] or [*_pieces_of_no_size(hive), *_channel_faults(hive)]
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
    for name in _sizes_of_pieces(hive):
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


def _sizes_of_pieces(hive: Hive) -> Iterator[str]:
    for component in built(hive):
        for part in parts_of(component, hive.measurements):
            yield from (f"{component}.{part.name}_{size}" for size, _ in part.sizes())


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
    agrees with them on the tape is not told.
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


# ── a hive file of the first edition ──────────────────────────────────────────────────────────

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
    sizes = [_IN_MM] if hive.units == "mm" else []
    return [*sizes, *_new_sizes(hive, values(hive)), *_PIECES]


def _new_sizes(hive: Hive, found: Values) -> Iterator[str]:
    for name, (component, old, why) in _FIRST.items():
        if component in built(hive) and name not in hive.chosen:
            now, was = (shown(size, hive.units) for size in (found[name], old))
            yield f"The {title(name)} is {now} now and was {was}, {why}."
