"""A hive checked as a whole: its two ways to a size agree, and each of its pieces has a size."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from pathlib import Path

from hivecalc.components.course import (
    COURSE,
    TAPE_AGREES,
    built,
    has_box,
    is_sleeved,
    parts_of,
    sizes_from_box,
    values,
)
from hivecalc.derivation import Values
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
from hivecalc.length import with_unit


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

    >>> from hivecalc.hive import demo_hive
    >>> checked(demo_hive()) == demo_hive()
    True

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
        from_frames = COURSE.values(unmeasured, components=("box",))
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
        if found[name] <= 0:
            size = f"it would be {with_unit(hive.units, found[name])}"
            yield Fault(name, size, _what_gives_it_a_size(name, hive, found))


def _sizes_of_pieces(hive: Hive) -> Iterator[str]:
    for component in built(hive):
        for part in parts_of(component, hive.measurements):
            yield from (f"{component}.{part.name}_{size}" for size, _ in part.sizes())


def _what_gives_it_a_size(name: str, hive: Hive, found: Values) -> str:
    if name == "bottom_board.screen_front_stop_thickness":
        way = with_unit(hive.units, found["bee_way"])
        return (
            f"give a wider stud, thinner foam for the panel or thinner strips, so that a stop and "
            f"a bee_way of {way} go above the mesh"
        )
    sources = ", ".join(COURSE.rests_on(name, hive.measurements, found))
    return f"it must be more than nothing, and comes from {sources}"


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
            yield Fault(*_too_big_a_channel(hive, name, (size, room, most)))


def _too_big_a_channel(
    hive: Hive, name: str, sizes: tuple[Fraction, Fraction, Fraction]
) -> tuple[str, str, str]:
    size, room, most = (with_unit(hive.units, each) for each in sizes)
    found = f"with its strips the channel is {size} across, and the rims leave {room}"
    return f"[chosen] {name}", found, f"give {most} at most"
