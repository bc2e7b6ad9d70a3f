"""What may be cut instead of the exact value of a dimension: asked by all that judge a length.

A verdict, the cutting list, the check of what was cut and the solutions all ask here, so they say
the same. A length is allowed where no rule that blocks or harms fails with it that holds without
it. What the cutting list has is stricter: the exact value, or the mark next to it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from hivecalc.built import PIECES, as_cut, each_piece
from hivecalc.components import COURSE, built, values
from hivecalc.fit.findings import FIT, RULES
from hivecalc.hive import Hive
from hivecalc.length import MILLIMETRE, SIXTEENTH, Grid, Length, Rounding, Units, rounded
from hivecalc.part import Piece, Size

GRID_OF: Final[Mapping[Units, Grid]] = {"inch": SIXTEENTH, "mm": MILLIMETRE}
REACH: Final = Fraction(1, 2)
"""How far beside the exact value allowed lengths are looked for, in inches."""

_OTHER_WAYS: Final = {
    Rounding.NEAREST: (Rounding.NEAREST, Rounding.DOWN, Rounding.UP),
    Rounding.DOWN: (Rounding.DOWN, Rounding.UP),
    Rounding.UP: (Rounding.UP, Rounding.DOWN),
}


@dataclass(frozen=True)
class Allowed:
    """What may be cut instead of a dimension's exact value on one hive, in inches.

    `mark` is what the cutting list has: the exact value where the grid has it, else the mark next
    to it in the direction that the piece permits, as far as no rule fails with it. From `low` to
    `high` no rule fails that holds without it; both reach half an inch at most.
    """

    name: str
    exact: Length
    mark: Length
    low: Length
    high: Length

    def right(self, value: Length) -> bool:
        """Whether a value is the exact one, or what the cutting list has for it."""
        return value in (self.exact, self.mark)


def newly_failing(hive: Hive, cut: Mapping[str, Fraction]) -> list[str]:
    """The rules that block or harm, and fail with these pieces but hold without them.

    >>> from hivecalc.hive import demo_hive
    >>> newly_failing(demo_hive(), {"bottom_board.panel_length": Fraction(161, 8)})
    ['bottom_board.panel_play_along']

    `cut` as for `built.as_cut`.
    """
    components, planned = (*built(hive), "stack"), as_cut(hive)
    before = FIT.values(planned, components=components)
    changed = FIT.values({**planned, **each_piece(hive, cut)}, components=components)
    return [
        name
        for name, rule in RULES.items()
        if rule.level != "note"
        and rule.applies(components, changed)
        and not rule.allows(changed[name])
        and rule.allows(before[name])
    ]


def is_allowed(hive: Hive, name: str, value: Length) -> bool:
    """Whether this may be cut for that dimension: no rule fails with it that holds without it.

    >>> from hivecalc.hive import demo_hive
    >>> is_allowed(demo_hive(), "bottom_board.panel_length", Fraction(159, 8) - Fraction(1, 8))
    True
    >>> is_allowed(demo_hive(), "bottom_board.panel_length", Fraction(159, 8) + Fraction(1, 4))
    False

    A dimension that no piece has, such as the slope, is allowed as it is and no other.
    """
    if name not in _CUT:
        return value == values(hive)[name]
    return value > 0 and not newly_failing(hive, {name: value})


_CUT: Final = frozenset({*PIECES, *(s.planned for s in PIECES.values())})


def mark(hive: Hive, name: str, grid: Grid | None = None) -> Length:
    """What the cutting list has for a dimension of this hive, in inches.

    >>> from hivecalc.hive import demo_hive
    >>> str(mark(demo_hive(), "roof.rim_back_width"))
    '13/8'

    Raises KeyError for a dimension that this hive has not.
    """
    exact = values(hive)[name]
    return _mark(hive, name, exact, grid or GRID_OF[hive.units])


def _mark(hive: Hive, name: str, exact: Length, grid: Grid) -> Length:
    ways = _OTHER_WAYS[COURSE.dimension(name).rule.rounding]
    marks = [rounded(exact, grid, way) for way in ways]
    if marks[0] == exact or name not in _CUT:
        return marks[0]
    return next((m for m in marks if is_allowed(hive, name, m)), exact)


def rounding_to_mark(hive: Hive, name: str, exact: Length, grid: Grid | None = None) -> Rounding:
    """The way to round a dimension of this value to its mark, for a table that shows "≈" before it.

    >>> from hivecalc.hive import demo_hive
    >>> rounding_to_mark(demo_hive(), "roof.rim_back_width", Fraction(599, 378))
    <Rounding.UP: 'up'>

    Where the grid has the exact value, or no mark is allowed, it is the way of the dimension.
    """
    marks = grid or GRID_OF[hive.units]
    ways = _OTHER_WAYS[COURSE.dimension(name).rule.rounding]
    best = _mark(hive, name, exact, marks)
    return next((w for w in ways if rounded(exact, marks, w) == best), ways[0])


def marked(hive: Hive, piece: Piece, grid: Grid | None = None) -> Piece:
    """The piece with each size rounded to its mark, as the cutting list has it.

    >>> from hivecalc.components import parts
    >>> from hivecalc.hive import demo_hive
    >>> back = next(p for p in parts(demo_hive()) if p.part == "rim_back")
    >>> marked(demo_hive(), back).width
    Size(value=Fraction(599, 378), rounding=<Rounding.UP: 'up'>)
    """

    def size(found: Size | None, name: str) -> Size | None:
        full = f"{piece.component}.{piece.part}_{name}"
        return found and Size(found.value, rounding_to_mark(hive, full, found.value, grid))

    return replace(
        piece,
        thickness=size(piece.thickness, "thickness"),
        width=size(piece.width, "width"),
        length=size(piece.length, "length"),
    )


def allowed(hive: Hive, name: str, grid: Grid | None = None) -> Allowed:
    """What may be cut instead of a dimension's exact value on this hive.

    >>> from hivecalc.hive import demo_hive
    >>> found = allowed(demo_hive(), "bottom_board.panel_length")
    >>> str(found.mark), str(found.low), str(found.high)
    ('159/8', '79/4', '20')

    Raises KeyError for a dimension that this hive has not.
    """
    marks = grid or GRID_OF[hive.units]
    exact = values(hive)[name]
    best = _mark(hive, name, exact, marks)
    if name not in _CUT:
        return Allowed(name, exact, best, min(best, exact), max(best, exact))
    return Allowed(
        name, exact, best, _end(hive, name, exact, -marks.step), _end(hive, name, exact, marks.step)
    )


def _end(hive: Hive, name: str, exact: Length, step: Length) -> Length:
    """The farthest allowed mark in steps of the grid, with none on the way that is not allowed."""
    end, tried = exact, _first_mark(exact, step)
    while abs(tried - exact) <= REACH and is_allowed(hive, name, tried):
        end, tried = tried, tried + step
    return end


def _first_mark(exact: Length, step: Length) -> Length:
    """The next mark beside a value, in the direction of the step."""
    marks = exact / abs(step)
    return (marks // 1 + 1 if step > 0 else -(-marks // 1) - 1) * abs(step)
