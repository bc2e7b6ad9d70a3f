"""What may be cut instead of the exact value of a dimension: asked by all that judge a length.

A verdict, the cutting list, the check of what was cut and the solutions all ask here, so they say
the same. A length is allowed where no rule that blocks or harms fails with it that holds without
it. What the cutting list has is stricter: the exact value, or the mark next to it.
"""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from functools import cache
from typing import Final

from hivecalc.built import PIECES, as_cut, each_piece
from hivecalc.components import DIMENSIONS, built, values
from hivecalc.fit.findings import FIT, RULES
from hivecalc.hive import Hive
from hivecalc.length import MARKS, Grid, Length, Rounding, rounded
from hivecalc.part import SIZES, Piece, Size

_OTHER_WAYS: Final = {
    Rounding.NEAREST: (Rounding.NEAREST, Rounding.DOWN, Rounding.UP),
    Rounding.DOWN: (Rounding.DOWN, Rounding.UP),
    Rounding.UP: (Rounding.UP, Rounding.DOWN),
}


def newly_failing(hive: Hive, cut: Mapping[str, Fraction]) -> list[str]:
    """The rules that block or harm, and fail with these pieces but hold without them.

    >>> from hivecalc.hive import demo_hive
    >>> newly_failing(demo_hive(), {"bottom_board.panel_length": Fraction(161, 8)})
    ['bottom_board.panel_play_along']

    `cut` as for `built.as_cut`.
    """
    components, planned, pieces = built(hive), as_cut(hive), each_piece(hive, cut)
    reached = {rule for name in pieces for rule in _rules_reached(name)}
    asked = tuple(name for name in RULES if name in reached)
    before = FIT.values(planned, names=asked)
    changed = FIT.values({**planned, **pieces}, names=asked)
    return [
        name
        for name in asked
        if RULES[name].level != "note"
        and RULES[name].applies(components, changed)
        and not RULES[name].allows(changed[name])
        and RULES[name].allows(before[name])
    ]


@cache
def _rules_reached(name: str) -> tuple[str, ...]:
    return tuple(rule for rule in FIT.reached_by(name) if rule in RULES)


def is_allowed(hive: Hive, name: str, value: Length) -> bool:
    """Whether this may be cut for that dimension: no rule fails with it that holds without it.

    A dimension that no piece has, such as the slope, is allowed as it is and no other.
    """
    if not is_cut(name):
        return value == values(hive)[name]
    return value > 0 and not newly_failing(hive, {name: value})


_CUT: Final = frozenset({*PIECES, *(s.planned for s in PIECES.values())})


def is_cut(name: str) -> bool:
    """Whether a piece has this size; else it only comes out, as the slope does."""
    return name in _CUT


def mark(hive: Hive, name: str, grid: Grid | None = None) -> Length:
    """What the cutting list has for a dimension of this hive, in inches.

    Raises KeyError for a dimension that this hive does not have.
    """
    return _mark(hive, name, values(hive)[name], grid)[0]


def _mark(hive: Hive, name: str, exact: Length, grid: Grid | None) -> tuple[Length, Rounding]:
    """The mark of a dimension of this value, and the way to it; the value where none is allowed."""
    ways = _OTHER_WAYS[DIMENSIONS.dimension(name).rule.rounding]
    marks = [(rounded(exact, grid or MARKS[hive.units], way), way) for way in ways]
    if marks[0][0] == exact or name not in _CUT:
        return marks[0]
    allowed = (found for found in marks if is_allowed(hive, name, found[0]))
    return next(allowed, (exact, ways[0]))


def rounding_to_mark(hive: Hive, name: str, exact: Length, grid: Grid | None = None) -> Rounding:
    """The way to round a dimension of this value to its mark, for a table that shows "≈" before it.

    Where the grid has the exact value, or no mark is allowed, it is the way of the dimension.
    """
    return _mark(hive, name, exact, grid)[1]


def marked(hive: Hive, piece: Piece, grid: Grid | None = None) -> Piece:
    """The piece with each size rounded to its mark, as the cutting list has it."""

    def size(found: Size | None, name: str) -> Size | None:
        full = f"{piece.component}.{piece.part}_{name}"
        return found and Size(found.value, rounding_to_mark(hive, full, found.value, grid))

    thickness, width, length = (size(getattr(piece, name), name) for name in SIZES)
    return replace(piece, thickness=thickness, width=width, length=length)
