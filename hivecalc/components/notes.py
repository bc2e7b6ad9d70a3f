"""What a builder is told once about a hive file: choices that disagree, and sizes that changed."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from hivecalc.components.course import COURSE, built, values
from hivecalc.derivation import Values, title
from hivecalc.hive import Hive
from hivecalc.length import MILLIMETRE, SIXTEENTH, Units, rounded, shown


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
    lap = _said(abs(found["roof.lap"]), hive.units)
    if found["roof.lap"] > 0:
        wanted = _said(found["roof_lap"], hive.units)
        does = f"laps the box by {lap}, and roof_lap asks for {wanted}"
    else:
        does = f"ends {lap} above the box" if found["roof.lap"] else "ends where the box begins"
    yield (
        f"skirt_width {_said(given, hive.units)} {does}: leave it out and the skirt is "
        f"{_said(meant, hive.units)}."
    )


def _front_stop(hive: Hive) -> Iterator[str]:
    given = hive.chosen.get("front_stop_height")
    meant = _derived(hive, "front_stop_height", "bottom_board")
    if given is None or _same_on_the_tape(given, meant, hive.units):
        return
    found = values(hive)
    way = found["stud_width"] - found["bottom_board.front_stop_top"]
    leaves = f"leaves {_said(way, hive.units)} over it" if way > 0 else "closes the way in"
    wanted = _said(found["bee_way"], hive.units)
    yield (
        f"front_stop_height {_said(given, hive.units)} {leaves}, and bee_way asks for {wanted}: "
        f"leave it out and the front stop is {_said(meant, hive.units)}."
    )


def _derived(hive: Hive, name: str, component: str) -> Fraction:
    """What a measurement would be if the hive file did not give it."""
    others = {n: v for n, v in hive.measurements.items() if n != name}
    return COURSE.values(others, components=(component,))[name]


def _same_on_the_tape(one: Fraction, other: Fraction, units: Units) -> bool:
    marks = MILLIMETRE if units == "mm" else SIXTEENTH
    return rounded(one, marks) == rounded(other, marks)


def _said(length: Fraction, units: Units) -> str:
    return shown(length, units)


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

    >>> from hivecalc.hive import demo_hive
    >>> print(changed_since_first_edition(demo_hive())[1])
    The skirt width is 3 3/8 in now and was 2 in, so that it hangs past the inner cover and laps \
the box.

    A size that the hive file gives has not changed, nor has one of a part that is not built.
    """
    sizes = [_IN_MM] if hive.units == "mm" else []
    return [*sizes, *_new_sizes(hive, values(hive)), *_PIECES]


def _new_sizes(hive: Hive, found: Values) -> Iterator[str]:
    for name, (component, old, why) in _FIRST.items():
        if component in built(hive) and name not in hive.chosen:
            now, was = (_said(size, hive.units) for size in (found[name], old))
            yield f"The {title(name)} is {now} now and was {was}, {why}."
