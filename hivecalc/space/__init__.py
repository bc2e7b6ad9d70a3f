"""The parts in space: what touches, what overlaps, what is left open.

All components stand in the hive's own coordinates: x across (0 at the hive's left, hive_width at
its right), y from front (0) to back, z up from the component's own foot. Lengths are exact.

    solids(values, component)        every piece of a component in its place
    surroundings(values, component)  what the component meets, as plain blocks
    whole(values, built)             all components stacked
    overlaps(solids), contacts(solids), gap(a, b, axis), lap(a, b, axis)
    consequences(true, changed)      what a wrong cut does
    joints(values, component)        what is meant to touch
    meant_gaps(values, component)    which gap is made by which dimension
"""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from types import ModuleType

from hivecalc.length import Length
from hivecalc.space import bottom_board, box, inner_cover, roof, sleeve
from hivecalc.space.consequences import Consequence, consequences
from hivecalc.space.fastening import (
    HELD,
    SIDES,
    Each,
    Every,
    Held,
    Loose,
    OnTheLine,
    Screw,
    ScrewRow,
    Side,
    Way,
    fasteners,
    is_kind,
    matches,
    run_of,
    screw_row,
    screws,
    ways,
)
from hivecalc.space.meeting import (
    Contact,
    Joint,
    MeantGap,
    Overlap,
    contacts,
    gap,
    lap,
    measured,
    overlaps,
)
from hivecalc.space.solids import AXES, Axis, Block, NoPieceError, Solid

__all__ = [
    "AXES",
    "HELD",
    "SIDES",
    "Axis",
    "Block",
    "Consequence",
    "Contact",
    "Each",
    "Every",
    "Held",
    "Joint",
    "Loose",
    "MeantGap",
    "NoPieceError",
    "OnTheLine",
    "Overlap",
    "Screw",
    "ScrewRow",
    "Side",
    "Solid",
    "Way",
    "assembled",
    "consequences",
    "contacts",
    "fasteners",
    "feet",
    "gap",
    "is_kind",
    "joints",
    "lap",
    "matches",
    "meant_gaps",
    "measured",
    "overlaps",
    "run_of",
    "screw_row",
    "screws",
    "solids",
    "surroundings",
    "ways",
    "whole",
]

MODULES: dict[str, ModuleType] = {
    "bottom_board": bottom_board,
    "roof": roof,
    "inner_cover": inner_cover,
    "box": box,
    "sleeve": sleeve,
}


def joints(values: Mapping[str, Fraction], component: str) -> tuple[Joint, ...]:
    """The joints of a component on this hive: which pieces are meant to touch, along which axis.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> joints(values(demo_hive()), "bottom_board")[0]
    ('side rail, left', 'front rail', 'x')
    """
    found: tuple[Joint, ...] = MODULES[component].joints(values)
    return found


def meant_gaps(values: Mapping[str, Fraction], component: str) -> tuple[MeantGap, ...]:
    """The gaps of a component that are meant on this hive, and which dimension makes each.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> meant_gaps(values(demo_hive()), "bottom_board")[0].dimension
    'panel_gap'
    """
    found: tuple[MeantGap, ...] = MODULES[component].meant_gaps(values)
    return found


def solids(values: Mapping[str, Fraction], component: str) -> tuple[Solid, ...]:
    """Every piece of a component in its place, each with its own sizes.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> len(solids(values(demo_hive()), "bottom_board"))
    21

    Raises NoPieceError for a size of nothing or less.
    """
    found: tuple[Solid, ...] = MODULES[component].solids(values)
    return found


def surroundings(values: Mapping[str, Fraction], component: str) -> tuple[Solid, ...]:
    """What a component meets, as plain blocks: the box above, the hive below.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> [s.words for s in surroundings(values(demo_hive()), "bottom_board")]
    ['box above']
    """
    found: tuple[Solid, ...] = MODULES[component].surroundings(values)
    return found


def assembled(values: Mapping[str, Fraction], component: str) -> tuple[Solid, ...]:
    """A component's pieces in their places, and what it meets beside them.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> len(assembled(values(demo_hive()), "bottom_board"))
    22
    """
    return solids(values, component) + surroundings(values, component)


def whole(values: Mapping[str, Fraction], built: Iterable[str]) -> tuple[Solid, ...]:
    """Every piece of what is built, stacked: bottom board, box and sleeve, inner cover, roof.

    >>> from hivecalc.components import built, values
    >>> from hivecalc.hive import demo_hive
    >>> hive = demo_hive()
    >>> round(float(max(s.extents[2][1] for s in whole(values(hive), built(hive)))), 2)
    8.72

    Where no box is built and none was measured, the inner cover lies on the bottom board.
    """
    heights = feet(values)
    return tuple(
        s.raised(heights[c]) for c in MODULES if c in set(built) for s in solids(values, c)
    )


def feet(values: Mapping[str, Fraction]) -> dict[str, Length]:
    """How high the foot of each component stands above the bottom of the hive.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> {name: float(height) for name, height in feet(values(demo_hive())).items()}
    {'bottom_board': 0.0, 'box': 3.5, 'sleeve': 3.5, 'inner_cover': 3.5, 'roof': 4.375}
    """
    on_board = values["stud_width"]
    on_box = on_board + values.get("box_height", Fraction(0))
    on_cover = on_box + (values["inner_cover.overall_height"] if values["inner_cover"] else 0)
    return {
        "bottom_board": Fraction(0),
        "box": on_board,
        "sleeve": on_board,
        "inner_cover": on_box,
        "roof": on_cover,
    }
