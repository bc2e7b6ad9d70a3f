"""From the pieces to the hive: what comes together, from pieces as they were cut.

The plan derives pieces from the hive; the functions in here go back. `BUILT` is the graph of them,
over the sizes of each single piece. Fit rules, the check of what was cut and the trial of many
hives read these functions and nothing else, so they cannot disagree. With pieces cut as planned
they give the plan's own figures.
"""

from collections.abc import Mapping
from fractions import Fraction
from typing import Final

from hivecalc.built import bottom_board, box, inner_cover, roof, sleeve, stack
from hivecalc.built.pieces import (
    EACH_PIECE,
    PIECES,
    SET_OUT,
    PieceSize,
    each_piece,
    pieces_of,
)
from hivecalc.components import DIMENSIONS
from hivecalc.components import built as components_built
from hivecalc.components import values as planned
from hivecalc.derivation import Graph, UnknownNameError, Values, collected
from hivecalc.hive import BOX_SIZES, MEASUREMENTS, OPENINGS, Hive
from hivecalc.part import Figure

__all__ = [
    "BUILT",
    "CUT_TO",
    "EACH_PIECE",
    "PIECES",
    "SET_OUT",
    "PieceSize",
    "as_cut",
    "each_piece",
    "pieces_of",
    "together",
]

_NOT_THERE: Final = Fraction(0)
_LEAVES: Final = {
    **{
        n: Figure(_NOT_THERE, f"The {s.size} of the {s.words}.", "as cut")
        for n, s in PIECES.items()
    },
    **{n: Figure(_NOT_THERE, "As marked out.", "as marked out") for n in SET_OUT},
    "sleeved": Figure(_NOT_THERE, "Whether there is a sleeve.", "the hive file"),
    "stacked": Figure(_NOT_THERE, "Boxes beyond the first.", "the hive file"),
}
BUILT: Final[Graph] = collected(
    bottom_board, roof, inner_cover, box, sleeve, stack, leaves=_LEAVES, pieces=EACH_PIECE
)
"""What comes together, by full name, over the sizes of the single pieces."""


CUT_TO: Final[Mapping[str, tuple[str, ...]]] = {
    opening: tuple(n for n in (opening, *cut) if n in DIMENSIONS.dimensions)
    for opening, *cut in OPENINGS.values()
}
"""Each opening of a glued frame, and the dimensions of the plan that are cut to it."""


def as_cut(hive: Hive, cut: Mapping[str, Fraction] | None = None) -> Values:
    """Every size that a hive is put together from: pieces, marks, and what was measured.

    >>> from hivecalc.hive import demo_hive
    >>> sizes = as_cut(demo_hive(), {"bottom_board.side_rail_left_length": Fraction(43, 2)})
    >>> [str(sizes[f"bottom_board.side_rail_{side}_length"]) for side in ("left", "right")]
    ['43/2', '173/8']

    In inches; the sizes of a box that is built come from its boards. `cut` replaces sizes by the
    name of one piece, by the name of a part for all its pieces, or anything that comes together by
    its own name. Raises UnknownNameError for any other.
    """
    plan, components = planned(hive), components_built(hive)
    from_boards = {n for n in BOX_SIZES if "box" in components and n not in hive.measured}
    known = {n: plan.get(n, _NOT_THERE) for n in MEASUREMENTS if n not in from_boards}
    marked: Values = {n: plan[n] for n in SET_OUT if n in plan}
    pieces = {s.name: plan[s.planned] for s in pieces_of(hive)}
    flags = {
        "sleeved": Fraction("sleeve" in components),
        "stacked": plan["boxes"] - 1,
    }
    opening = {n: v for n, v in hive.measurements.items() if n in BUILT.dimensions}
    given = each_piece(hive, cut or {})
    for name in given:
        if name not in BUILT.dimensions and name not in MEASUREMENTS:
            raise UnknownNameError(name, [*BUILT.dimensions, *MEASUREMENTS])
    return {**known, **marked, **pieces, **flags, **opening, **given}


def together(hive: Hive, cut: Mapping[str, Fraction] | None = None) -> Values:
    """What comes together from the pieces of this hive, with the pieces' own sizes beside it.

    >>> from hivecalc.hive import demo_hive
    >>> short = {"bottom_board.side_rail_length": Fraction(21)}
    >>> together(demo_hive(), short)["bottom_board.opening_length"]
    Fraction(39, 2)

    `cut` as for `as_cut`; lengths are Fractions of an inch.
    """
    return BUILT.values(as_cut(hive, cut), components=(*components_built(hive), "stack"))
