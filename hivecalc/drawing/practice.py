"""The parts that end a lesson, each among the pieces that it fits between; its size is asked.

Pieces are places along the size that is asked for; their heights only show which is which.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, TypeAlias

from hivecalc.derivation import title
from hivecalc.drawing.bar import ASKED
from hivecalc.drawing.canvas import CHANGED, INK, MARGIN, WIDTH, WOOD, Canvas, Finish, Pen, corners
from hivecalc.drawing.labels import depth, draw_asked, draw_dims, packed, plain_dim
from hivecalc.drawing.layout import Point
from hivecalc.length import Units

Sizes: TypeAlias = Mapping[str, Fraction]
PIECES_HIGH: Final = 96.0
"""Height of the pieces on the sheet, in its units; only along the size are they true to scale."""


@dataclass(frozen=True)
class Piece:
    """A piece from where to where along the size, in inches; low and high as parts of the height.

    One without a name only shows where something else stands.
    """

    name: str
    start: Fraction
    end: Fraction
    low: float = 0.0
    high: float = 1.0
    hatch: str | None = "grain_across"


@dataclass(frozen=True)
class Shown:
    """A part among its neighbours: what it is seen as, the pieces, and the sizes that are known."""

    told: str
    pieces: tuple[Piece, ...]
    known: tuple[tuple[str, Fraction, Fraction], ...]
    asked: tuple[Fraction, Fraction]


def practice_drawing(
    sizes: Sizes, dimension: str, *, result: str = ASKED, units: Units = "inch"
) -> str:
    """SVG picture of a part that ends a lesson, its size "?" until that is found."""
    shown = PARTS[dimension](sizes)
    canvas, name = Canvas(), title(dimension)
    top = canvas.paragraph(name.capitalize(), MARGIN, bold=True) + 4
    first, last = min(p.start for p in shown.pieces), max(p.end for p in shown.pieces)
    scale = (WIDTH - 2 * MARGIN) / float(last - first)

    def x(place: Fraction) -> float:
        return MARGIN + float(place - first) * scale

    dims = [plain_dim(word, end - at, units, x(at), x(end)) for word, at, end in shown.known]
    rows = packed(dims)
    level = top + depth(rows)
    with canvas.view("practice", scale):
        for piece in shown.pieces:
            low, high = level + piece.low * PIECES_HIGH, level + piece.high * PIECES_HIGH
            _draw(canvas, piece, corners(x(piece.start), low, x(piece.end), high))
        draw_dims(canvas, "top", level, rows)
    foot, (start, end) = level + PIECES_HIGH, shown.asked
    bottom = draw_asked(canvas, (x(start), x(end)), foot + 9, foot + 2, f"{name} {result}")
    bottom = canvas.paragraph(shown.told, bottom + 6)
    known = ", ".join(dim.lines[0] for dim in dims)
    words = f"{shown.told} Known: {known}. Asked: {name}, {result}"
    return canvas.picture(name.capitalize(), words, bottom + MARGIN, scale)


def _draw(canvas: Canvas, piece: Piece, outline: list[Point]) -> None:
    if not piece.hatch:
        canvas.polygon(outline, Finish(Pen(INK, 0.8, "4 3")), {"part": piece.name})
        return
    pen = Pen(CHANGED, 2.2) if piece.name == ASKED else Pen(INK, 1.1)
    data = {} if piece.name == ASKED else {"part": piece.name}
    canvas.polygon(outline, Finish(pen, WOOD, piece.hatch), data)


# ── the parts ─────────────────────────────────────────────────────────────────────────────────

_0: Final = Fraction(0)


def _middle_rail(v: Sizes) -> Shown:
    long, stud = v["hive_length"], v["stud_thickness"]
    return Shown(
        "The frame from above, its front at the left. The marked rail runs down the middle.",
        (
            Piece("left side rail", _0, long - stud, 0, 0.15, "grain"),
            Piece("right side rail", _0, long - stud, 0.85, 1, "grain"),
            Piece("front rail", _0, stud, 0.15, 0.85),
            Piece("back rail", long - stud, long),
            Piece(ASKED, stud, long - stud, 0.42, 0.57, "grain"),
        ),
        (("stud", _0, stud), ("hive length", _0, long)),
        (stud, long - stud),
    )


def _pan_end(v: Sizes) -> Shown:
    wide, stud, strip, gap = (
        v[n] for n in ("hive_width", "stud_thickness", "strip_narrow", "panel_gap")
    )
    left, right = stud + gap / 2, wide - stud - gap / 2
    return Shown(
        "Rails and pan from above, cut off at the back. The marked end stands between the pan's "
        "sides, and those stand on edge. The gap is meant in all.",
        (
            Piece("left side rail", _0, stud),
            Piece("right side rail", wide - stud, wide),
            Piece("left side of the pan", left, left + strip, 0.2),
            Piece("right side of the pan", right - strip, right, 0.2),
            Piece(ASKED, left + strip, right - strip, 0.2, 0.32, "grain"),
        ),
        (("strip", left, left + strip), ("stud", wide - stud, wide), ("hive width", _0, wide)),
        (left + strip, right - strip),
    )


def _middle_strip(v: Sizes) -> Shown:
    long, stud, gap, strip = (
        v[n] for n in ("hive_length", "stud_thickness", "screen_gap", "strip_wide")
    )
    front, back = stud + gap / 2, long - stud - gap / 2
    return Shown(
        "The screen between front and back rail, from above, its front at the left. All strips "
        "lie flat. The marked one runs down the middle. The gap is meant in all.",
        (
            Piece("front rail", _0, stud),
            Piece("back rail", long - stud, long),
            Piece("left side strip", front, back, 0.05, 0.2, "grain"),
            Piece("right side strip", front, back, 0.8, 0.95, "grain"),
            Piece("front end strip", front, front + strip, 0.2, 0.8),
            Piece("back end strip", back - strip, back, 0.2, 0.8),
            Piece(ASKED, front + strip, back - strip, 0.43, 0.57, "grain"),
        ),
        (("stud", _0, stud), ("strip", back - strip, back), ("hive length", _0, long)),
        (front + strip, back - strip),
    )


def _twin_rim(v: Sizes) -> Shown:
    wide, stud, room = v["hive_width"], v["stud_thickness"], v["cap_clearance"]
    left, right = -room / 2, 2 * wide + room / 2
    return Shown(
        "One rim over two hives, from above; the hives are dashed. The marked front stands between "
        "the rim's two sides. The cap clearance is meant in all.",
        (
            Piece("left hive", _0, wide, 0.1, 1, None),
            Piece("right hive", wide, 2 * wide, 0.1, 1, None),
            Piece("left side of the rim", left, left + stud),
            Piece("right side of the rim", right - stud, right),
            Piece(ASKED, left + stud, right - stud, 0.75, 1, "grain"),
        ),
        (("hive width", _0, wide), ("hive width", wide, 2 * wide), ("stud", left, left + stud)),
        (left + stud, right - stud),
    )


def _notched_front(v: Sizes) -> Shown:
    wide, stud, notch = v["hive_width"], v["stud_thickness"], v["inner_notch"]
    return Shown(
        "The inner cover's rim from above, its front below. The notch lies beside the left side, "
        "and the marked front is one piece.",
        (
            Piece("left side of the rim", _0, stud),
            Piece("right side of the rim", wide - stud, wide),
            Piece("back of the rim", stud, wide - stud, 0, 0.15, "grain"),
            Piece(ASKED, stud + notch, wide - stud, 0.85, 1, "grain"),
        ),
        (
            *((("notch", stud, stud + notch),) if notch else ()),
            ("stud", wide - stud, wide),
            ("hive width", _0, wide),
        ),
        (stud + notch, wide - stud),
    )


def _follower(v: Sizes) -> Shown:
    inside, ease, board, overlap, bar = (
        v[n]
        for n in ("box.inside_length", "rest_ease", "board_thickness", "rest_overlap", "top_bar")
    )
    start = -overlap
    return Shown(
        "The box from its side, cut open. The follower board hangs from a bar as long as a "
        "frame's, and the ease stays free at each end of the marked board.",
        (
            Piece("front end of the box", -board, _0, 0.1),
            Piece("back end of the box", inside, inside + board, 0.1),
            Piece("top bar", start, start + bar, 0.02, 0.1, "grain"),
            Piece(ASKED, ease, inside - ease, 0.1, 0.92, "grain"),
        ),
        (("rest", start, _0), ("board", inside, inside + board), ("top bar", start, start + bar)),
        (ease, inside - ease),
    )


def _entrance_strip(v: Sizes) -> Shown:
    wide, stud, gap = v["hive_width"], v["stud_thickness"], v["screen_gap"]
    left, right = stud + gap / 2, wide - stud - gap / 2
    low = float(v["entrance_height"] / v["stud_width"])
    return Shown(
        "The entrance from the front. The marked strip stands on the front rail, between the side "
        "rails. The gap is meant in all.",
        (
            Piece("left side rail", _0, stud),
            Piece("right side rail", wide - stud, wide),
            Piece("front rail", stud, wide - stud, low, 1, "grain"),
            Piece(ASKED, left, right, 0, low, "grain"),
        ),
        (("stud", _0, stud), ("hive width", _0, wide)),
        (left, right),
    )


PARTS: Final[Mapping[str, Callable[[Sizes], Shown]]] = {
    "practice.middle_rail_length": _middle_rail,
    "practice.pan_end_length": _pan_end,
    "practice.middle_strip_length": _middle_strip,
    "practice.twin_rim_front_length": _twin_rim,
    "practice.notched_front_length": _notched_front,
    "practice.follower_length": _follower,
    "practice.entrance_strip_length": _entrance_strip,
}
