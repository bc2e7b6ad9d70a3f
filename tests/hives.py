"""Hives, invented for tests: files that lead a notebook to the ends of what is allowed, and any."""

from fractions import Fraction
from functools import cache
from math import ceil, floor

from hypothesis import assume
from hypothesis import strategies as st

from hivecalc.components import checked, in_use
from hivecalc.hive import (
    MEASUREMENTS,
    OPENINGS,
    SIZED_BY,
    Hive,
    HiveFaults,
    changed,
    hive_from_text,
)
from hivecalc.length import MM, UNITS, Units, written

LENGTH, WIDTH = MEASUREMENTS["hive_length"], MEASUREMENTS["hive_width"]


def inches(text: str) -> Fraction:
    """A length as it stands on a cutting list: a second way to read "21 5/8"."""
    return sum(map(Fraction, text.split()), Fraction(0))


HIVES = {
    "smallest": f"""
        name = "Smallest hive"
        [measured]
        hive_length = "{written(LENGTH.low)}"
        hive_width = "{written(WIDTH.low)}"
        """,
    "largest": f"""
        name = "Largest hive"
        [measured]
        hive_length = "{written(LENGTH.high)}"
        hive_width = "{written(WIDTH.high)}"
        """,
    "orchard": """
        name = "Orchard hive"
        units = "inch"
        [measured]
        hive_length = "23 1/8"
        hive_width = "17 3/8"
        """,
    "metric": """
        name = "Metric yard"
        units = "mm"
        [measured]
        hive_length = "587"
        hive_width = "441.5"
        stud_thickness = "38"
        stud_width = "89"
        foam_thickness = "25"
        [chosen]
        panel_gap = "6"
        """,
    "eight-frame": """
        name = "Eight frames outwards"
        [measured]
        stud_thickness = "1 9/16"
        [chosen]
        frames = 8
        """,
    "sleeved": """
        name = "Old box in a sleeve"
        [measured]
        box_length = "19 7/8"
        box_width = "16 1/4"
        box_height = "9 5/8"
        foam_thickness = "25 mm"
        skin_thickness = "3/8"
        """,
}


def hive_of(units: str = "inch", **sizes: str) -> Hive:
    """A hive file in words: sizes by name, each in its section."""
    sections = {
        group: [f'{n} = "{v}"' for n, v in sizes.items() if MEASUREMENTS[n].group == group]
        for group in ("measured", "chosen")
    }
    text = "\n".join(f"[{group}]\n" + "\n".join(lines) for group, lines in sections.items())
    return checked(hive_from_text(f'units = "{units}"\n{text}'))


# ── any hive that is allowed ──────────────────────────────────────────────────────────────────

SIZED = [
    {"hive_length": "23 in", "hive_width": "17 in"},
    {"box_length": "19 3/4 in", "box_width": "16 in", "box_height": "9 5/8 in"},
    {"frames": "10"},
]
TURNS: list[dict[str, str | Fraction]] = [
    {}, {"inner_cover": "no"}, {"inner_notch": "0"}, {"boxes": "3"}, {"stud_width": "5 1/2 in"},
    {"sleeve_foam_thickness": "2 in"}, {"roof_foam_thickness": "2 in"}, {"joint_depth": "0"},
    {"rim_low_height": "1 in"}, {"skirt_width": "2 in"}, {"front_stop_height": "1/4 in"},
]  # fmt: skip


@cache
def near(name: str, units: Units) -> st.SearchStrategy[Fraction]:
    """A value that is allowed, and no further from the usual one than by a fourth."""
    known = MEASUREMENTS[name]
    low, high = known.limits(units)
    usual = known.defaults[units] or (low + high) / 2
    step = MM if units == "mm" else Fraction(1, 32)
    first, last = max(low, usual * 3 / 4), min(high, usual * 5 / 4)
    if known.kind != "length":
        return st.integers(int(low), int(high)).map(Fraction)
    return st.integers(ceil(first / step), floor(last / step)).map(lambda n: n * step)


LOOSE = [n for n in MEASUREMENTS if n not in {*SIZED_BY, *OPENINGS}]
SOME = st.lists(st.sampled_from(LOOSE), max_size=12, unique=True)


@st.composite
def allowed_hives(draw: st.DrawFn) -> Hive:
    """Any hive that is allowed: inch or mm, measured, from a box or frames, with any choices."""
    units: Units = draw(st.sampled_from(UNITS))
    names = draw(SOME)
    some = {n: draw(near(n, units)) for n in names}
    sizes = {**draw(st.sampled_from(SIZED)), **some, **draw(st.sampled_from(TURNS))}
    off = draw(st.dictionaries(st.sampled_from([*OPENINGS]), st.integers(-8, 8), max_size=2))
    try:
        hive = checked(changed(Hive("Any hive", units, {}, {}), sizes))
        glued = {n: in_use(hive, n) + Fraction(sixteenths, 16) for n, sixteenths in off.items()}
        return checked(changed(hive, glued))
    except HiveFaults:
        assume(False)  # noqa: FBT003 - the signature of hypothesis
        raise
