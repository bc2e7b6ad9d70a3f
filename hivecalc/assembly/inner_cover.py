"""The inner cover in its place: a sheet, the rim, a sheet.

In the hive's coordinates, z from the lower sheet's lower face. The notch is in the middle of the
front; each of the two pieces beside it is half of the rim front's length.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction

from hivecalc.assembly.meant import Joint, MeantGap, both_sides
from hivecalc.assembly.placing import (
    FLAT_ACROSS,
    FLAT_LENGTHWAYS,
    Bench,
    ending_at,
    starting_at,
)
from hivecalc.assembly.solids import Solid

COMPONENT = "inner_cover"


def solids(values: Mapping[str, Fraction]) -> tuple[Solid, ...]:
    """Every piece of the inner cover in its place.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> [s.label for s in solids(values(demo_hive()))][:3]
    ['sheet, lower', 'rim side, left', 'rim side, right']

    `values` from components.values; lengths are Fractions of an inch.
    """
    bench, foot = Bench(COMPONENT, values), Fraction(0)
    on_rim = values["sheet_thickness"] + values["inner_rim_height"]
    return (_sheet(bench, "lower", foot), *_rim(bench), _sheet(bench, "upper", on_rim))


def surroundings(values: Mapping[str, Fraction]) -> tuple[Solid, ...]:
    """What the inner cover meets: the box below and the roof above, as plain blocks.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> [s.words for s in surroundings(values(demo_hive()))]
    ['box below', 'roof above']
    """
    bench, nothing, deep = Bench(COMPONENT, values), Fraction(0), values["stud_width"]
    x, y = (nothing, values["hive_width"]), (nothing, values["hive_length"])
    top = 2 * values["sheet_thickness"] + values["inner_rim_height"]
    below = bench.stand_in("box_below", x, y, (-deep, nothing))
    return (below, bench.stand_in("roof_above", x, y, (top, top + deep)))


def _sheet(bench: Bench, place: str, height: Fraction) -> Solid:
    corner = starting_at(Fraction(0))
    return bench.piece("sheet", place, FLAT_LENGTHWAYS, (corner, corner, starting_at(height)))


def _rim(bench: Bench) -> Iterator[Solid]:
    v, corner = bench.values, starting_at(Fraction(0))
    z = starting_at(v["sheet_thickness"])
    for place, x in (("left", corner), ("right", ending_at(v["hive_width"]))):
        yield bench.piece("rim_side", place, FLAT_LENGTHWAYS, (x, corner, z))
    inside = starting_at(v["stud_thickness"]), ending_at(v["hive_width"] - v["stud_thickness"])
    length, width, thickness = bench.cut("rim_front", FLAT_ACROSS)
    cut = (length / 2, width, thickness)
    for place, spot in zip(("left", "right"), inside, strict=True):
        extents = (spot(cut[0]), corner(width), z(thickness))
        yield bench.box("rim_front", place, FLAT_ACROSS, cut, extents)
    yield bench.piece("rim_back", "", FLAT_ACROSS, (inside[0], ending_at(v["hive_length"]), z))


_ON_SHEETS: tuple[Joint, ...] = tuple(
    (f"sheet, {place}", piece, "z")
    for place in ("lower", "upper")
    for piece in (
        "rim side, left",
        "rim side, right",
        "rim front, left",
        "rim front, right",
        "rim back",
    )
)

JOINTS = _ON_SHEETS + both_sides(
    ("rim side, left", "rim front, left", "x"),
    ("rim side, left", "rim back", "x"),
    ("box below", "sheet, lower", "z"),
    ("sheet, upper", "roof above", "z"),
)

MEANT_GAPS = (
    MeantGap("inner_notch", "x", (("rim front, left", "rim front, right"),)),
    MeantGap("inner_rim_height", "z", (("sheet, lower", "sheet, upper"),)),
    MeantGap("inner_cover.overall_height", "z", (("box below", "roof above"),)),
)
