"""How a hive is held together: each joint's fastener, and where the roof's screws stand.

All of it is common practice, no published source. A joint is named by the two kinds of pieces that
meet in it, as the assembly labels them but without left, right, front and back.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Final, Literal, TypeAlias

from hivecalc import part
from hivecalc.length import Length, Units
from hivecalc.space.meeting import Held, Hold, Joint, OnTheLine
from hivecalc.space.solids import NOTHING, Solid
from hivecalc.space.stacking import MODULES

Side: TypeAlias = Literal["left", "right", "front", "back"]
Sheet: TypeAlias = Literal["cover", "deck"]
SIDES: Final[tuple[Side, ...]] = ("front", "back", "left", "right")
LEAST_A_SIDE: Final = 3  # deck screws


# ── where the roof's screws stand ─────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class ScrewRow:
    """The screws along one edge of the roof, as one marks them on the flat sheets.

    `cover` and `deck` are distances along the *cover's* edge, from its left end at front and back,
    from its front end at the sides; on the bare deck each is less by the lip. The rows of cover
    screws meet in the corners, so each corner screw is in two of them. `line` is the distance of
    the row from the cover's edge, `length` that of the edge itself.
    """

    side: Side
    line: Length
    length: Length
    cover: tuple[Length, ...]
    deck: tuple[Length, ...]


def screw_row(values: Mapping[str, Fraction], side: Side) -> ScrewRow:
    """The screws along one edge of the roof: the cover's and, away from them, the deck's.

    The cover's stand in the corners of the screw line and half-way between, until none are more
    than `screw_spacing` apart. The deck's keep `screw_offset` from them, or as much as the space
    allows; three or more a side, and none more than `screw_spacing` apart either.
    """
    size, ends = ("width", part.SIDES) if side in part.ENDS else ("length", part.ENDS)
    length, lip = values[f"roof.cover_{size}"], values["cover_lip"]
    low, high = (_line(values, "cover", end) for end in ends)
    cover = _halved(length - low - high, values["screw_spacing"])
    spots = _between(cover, values["screw_spacing"], values["screw_offset"])
    deck_low = lip + _line(values, "deck", ends[0])
    deck_high = lip + _line(values, "deck", ends[1])
    stretch = (length - deck_low - deck_high) / (length - low - high)
    return ScrewRow(
        side,
        _line(values, "cover", side),
        length,
        tuple(low + at for at in cover),
        tuple(deck_low + at * stretch for at in spots),
    )


def on_cover(
    values: Mapping[str, Fraction], side: Side, at: Length, line: Length
) -> tuple[Length, Length]:
    """Where a place on a row of screws lies on the flat cover: across it, and along it.

    Counted from the cover's front left corner.
    """
    if side in part.ENDS:
        return at, line if side == "front" else values["roof.cover_length"] - line
    return (line if side == "left" else values["roof.cover_width"] - line), at


def _line(values: Mapping[str, Fraction], sheet: Sheet, side: str) -> Length:
    """How far the screw line of a sheet is from that sheet's edge, nearer at the thin back."""
    return values[f"roof.{sheet}_{'back_' if side == 'back' else ''}screw_line"]


def _halved(run: Length, spacing: Length) -> tuple[Length, ...]:
    """Both ends of a run, and half-way between until no two are farther apart than the spacing."""
    parts = 1
    while run > parts * spacing:
        parts *= 2
    return tuple(run * i / parts for i in range(parts + 1))


def _between(cover: tuple[Length, ...], spacing: Length, offset: Length) -> tuple[Length, ...]:
    """The deck's screws in the spaces between the cover's, from the first corner to the last.

    Where there are spaces enough, one in the middle of each; those next to the corners come as near
    to them as the offset lets them. Fewer spaces take two or three each.
    """
    space, spaces = cover[1] - cover[0], len(cover) - 1
    in_each = -(-LEAST_A_SIDE // spaces)
    if in_each > 1:
        edge = min(offset, space / (in_each + 1))
        step = (space - 2 * edge) / (in_each - 1)
        return tuple(at + edge + i * step for at in cover[:-1] for i in range(in_each))
    edge = max(min(offset, space / 2), space * 3 / 2 - spacing)
    middles = (at + space / 2 for at in cover[1:-2])
    return (cover[0] + edge, *middles, cover[-1] - edge)


# ── what holds each joint ─────────────────────────────────────────────────────────────────────

HELD: Final[Mapping[str, tuple[Hold, ...]]] = {c: module.HELD for c, module in MODULES.items()}
"""For each component, every kind of joint and how it is held."""


@cache
def kind_of_piece(label: str) -> str:
    """Label of a piece without its place among twins.

    >>> kind_of_piece("side rail, left"), kind_of_piece("screen side strip, upper right")
    ('side rail', 'screen side strip, upper')
    """
    piece, _, place = label.partition(", ")
    layers = [word for word in place.split() if word not in SIDES]
    return ", ".join((piece, *layers))


def matches(way: Hold, joint: Joint) -> bool:
    """Whether this is how a joint is held; a way without layer is that of every layer."""
    first, second, axis = joint
    pairs = ((first, second), (second, first))
    return way.axis in {None, axis} and any(
        is_kind(a, way.through) and is_kind(b, way.into) for a, b in pairs
    )


def held(joints: Sequence[Joint], component: str) -> tuple[tuple[Hold, tuple[Joint, ...]], ...]:
    """Each way in which these joints of a component are held, and those that are held so."""
    found = ((way, tuple(j for j in joints if matches(way, j))) for way in HELD[component])
    return tuple((way, met) for way, met in found if met)


def fasteners(
    way: Held, joint: Joint, run: Length, values: Mapping[str, Fraction], units: Units
) -> int:
    """How many fasteners one joint takes that runs so far, on a hive in these units."""
    if not isinstance(way.count, OnTheLine):
        return way.count.count(run, units)
    rows = [screw_row(values, side) for side in SIDES]
    counts = {row.side: len(row.deck) for row in rows}
    if way.item == "cover_screw":  # a corner screw is one of the front's or the back's
        counts = {r.side: len(r.cover if r.side in part.ENDS else r.cover[1:-1]) for r in rows}
    words = {word.strip(",") for label in joint[:2] for word in label.split()}
    along_one = [count for side, count in counts.items() if side in words]
    return sum(along_one or counts.values())


def run_of(way: Hold, joint: Joint, pieces: Mapping[str, Solid]) -> Length:
    """How far a joint runs: along the size of the piece that has less of it.

    `pieces` by label. A plain block that stands for what a component meets was never cut: it
    reaches as far as it does beside the other piece.
    """
    both = [pieces[label] for label in joint[:2]]
    cut = [solid for solid in both if solid.cut]
    if not cut:
        return NOTHING
    beside = cut[0].along.index(way.along)
    runs = (s.cut[s.along.index(way.along)] if s.cut else s.size[beside] for s in both)
    return min(runs)


def is_kind(label: str, kind: str) -> bool:
    """Whether a piece is of a kind, which may name its layer."""
    return kind in {kind_of_piece(label), label.partition(", ")[0]}
