"""A chain as a bar to scale, and the parts that end a lesson among the pieces they fit between.

On the bar each size is laid off where the piece really lies, as far as that is known: so the two
studs beside a rail stand at the two ends of the bar.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from hivecalc.derivation import title
from hivecalc.drawing.canvas import (
    CHANGED,
    INK,
    MARGIN,
    PAPER,
    WIDTH,
    WOOD,
    WRONG_LINE,
    Canvas,
    Finish,
    Pen,
    corners,
    figure,
)
from hivecalc.drawing.labels import (
    Label,
    Text,
    depth,
    draw_asked,
    draw_dims,
    draw_labels,
    packed,
    plain_dim,
)
from hivecalc.drawing.layout import LINE, Point
from hivecalc.drawing.subject import Sizes
from hivecalc.length import Units

HIGH: Final = 34.0
LETTERS: Final = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
TITLE: Final = "The chain as a bar, to scale"
ASKED: Final = "?"
HALVED: Final = "half of it at each end"
_0: Final = Fraction(0)
_OFTEN: Final = {Fraction(1, 2): "half of it", Fraction(1): "once", Fraction(2): "twice"}


@dataclass(frozen=True)
class Term:
    """One size of a chain: what it is called, how big it is, and how often it counts.

    A gap is meant in all: counted once, half of it lies at each end.
    """

    name: str
    size: Fraction
    count: Fraction
    in_all: bool = False

    @property
    def halved(self) -> bool:
        """Whether half of it lies at each end."""
        return self.in_all and abs(self.count) == 1

    @property
    def often(self) -> str:
        """How often it counts, in words."""
        times = abs(self.count)
        return _OFTEN.get(times) or f"{times} times"


@dataclass(frozen=True)
class LaidSize:
    """One size laid off on the bar: which term it is of, and from where to where, in inches."""

    term: int
    low: Fraction
    high: Fraction
    off: bool


@dataclass(frozen=True)
class Layout:
    """All that is laid off on a bar, how long it is, and what is left of it."""

    laid: tuple[LaidSize, ...]
    whole: Fraction
    rest: tuple[Fraction, Fraction]

    @property
    def too_much(self) -> bool:
        """Whether more is taken off than there is."""
        return self.rest[1] <= self.rest[0]


def laid_off(terms: Sequence[Term], before: Fraction | None = None) -> Layout:
    """Where each size of a chain lies on the bar.

    >>> stud = Term("stud", Fraction(3, 2), Fraction(-2))
    >>> found = laid_off([Term("hive", Fraction(17), Fraction(1)), stud])
    >>> [(str(one.low), str(one.high)) for one in found.laid if one.off], str(found.rest[0])
    ([('0', '3/2'), ('31/2', '17')], '3/2')

    before is how much of the whole lies before the piece, where that is known; else what comes off
    twice comes off at both ends, and once at the far end. Lengths are in inches.
    """
    laid, place = list[LaidSize](), _0
    for i, size in _around(terms):
        laid.append(LaidSize(i, place, place + size, off=False))
        place += size
    low, high = _0, place
    for i, term in enumerate(terms):
        pieces = list(_pieces(term)) if term.count < 0 else []
        for n, size in enumerate(pieces):
            if n < len(pieces) // 2 if before is None else low + size <= before:
                laid.append(LaidSize(i, low, low + size, off=True))
                low += size
            else:
                laid.append(LaidSize(i, high - size, high, off=True))
                high -= size
    return Layout(tuple(laid), place, (low, high))


def _around(terms: Sequence[Term]) -> list[tuple[int, Fraction]]:
    """The sizes that are added in a row, pairs half before and half behind the others."""
    first, middle, last = (list[tuple[int, Fraction]]() for _ in range(3))
    for i, term in enumerate(terms):
        own = [(i, size) for size in _pieces(term) if term.count > 0]
        if middle and (term.halved or term.count % 2 == 0):
            half = len(own) // 2
            first, last = own[:half] + first, last + own[half:]
        else:
            middle += own
    return [*first, *middle, *last]


def _pieces(term: Term) -> Iterator[Fraction]:
    """The single sizes that a term is, a half of one last; two halves of what is meant in all."""
    times = abs(term.count)
    if term.halved:
        yield from (term.size / 2, term.size / 2)
        return
    yield from (term.size for _ in range(int(times)))
    if times % 1:
        yield term.size * (times % 1)


# ── drawn ─────────────────────────────────────────────────────────────────────────────────────


def chain_bar(
    terms: Sequence[Term],
    asked: str,
    *,
    before: Fraction | None = None,
    result: str = ASKED,
    units: Units = "inch",
) -> str:
    """SVG picture of a chain as a bar to scale, with the sizes in words below it.

    asked is what the bar comes to; its figure is the result, "?" as long as it is to be found.
    Figures are shown in `units`.
    """
    found = laid_off(terms, before)
    canvas = Canvas()
    top = canvas.paragraph(TITLE, MARGIN, bold=True) + 4
    bottom = _draw_bar(canvas, terms, found, top + LINE + 14, result) if found.laid else top
    words = list(_words(terms, found, asked, result, units))
    bottom = canvas.paragraphs(words, bottom)
    return canvas.picture(f"{TITLE}: {asked}", " ".join(words), bottom + MARGIN)


def _draw_bar(
    canvas: Canvas, terms: Sequence[Term], found: Layout, top: float, result: str
) -> float:
    """Draw a bar with its letters and what is left; where the next may begin comes back."""
    ends = [end for one in found.laid for end in (one.low, one.high)]
    first, last = min(ends), max(*ends, found.whole)
    scale = (WIDTH - 2 * MARGIN) / float(last - first or 1)

    def x(place: Fraction) -> float:
        return MARGIN + float(place - first) * scale

    foot = top + HIGH
    with canvas.view("bar", scale):
        for one in found.laid:
            inset = HIGH * 0.2 if one.off else 0
            pen = WRONG_LINE if one.off and found.too_much else Pen(INK, 1.1)
            finish = Finish(pen, PAPER, "strip") if one.off else Finish(pen, WOOD, "grain")
            data = {"name": terms[one.term].name, "exact": one.high - one.low}
            outline = corners(x(one.low), top + inset, x(one.high), foot - inset)
            canvas.polygon(outline, finish, data)
    labels = []
    for run in _runs(found.laid):
        low, high = x(run.low), x(run.high)
        labels.append(Label(Text((LETTERS[run.term],)), ((low + high) / 2, top), low, high))
    draw_labels(canvas, "top", top - 10, labels)
    if found.too_much:
        return foot + 13
    low, high = map(x, found.rest)
    return draw_asked(canvas, (low, high), foot + 9, foot - 3, result) + 4


def _runs(laid: Iterable[LaidSize]) -> list[LaidSize]:
    """The sizes from left to right, those of one term that follow on one another as one."""
    runs: list[LaidSize] = []
    for one in sorted(laid, key=lambda each: (each.low, each.high)):
        same = next((r for r in runs if (r.term, r.high) == (one.term, one.low)), None)
        if same:
            runs[runs.index(same)] = replace(same, high=one.high)
        else:
            runs.append(one)
    return sorted(runs, key=lambda run: run.low + run.high)


def _words(
    terms: Sequence[Term], found: Layout, asked: str, result: str, units: Units
) -> Iterable[str]:
    """The bar in words: each size, how often, whether it comes off, and at which end."""
    if not found.laid:
        yield "Nothing is on the bar yet."
        return
    for i, term in enumerate(terms):
        laid = [one for one in found.laid if one.term == i]
        if not laid:
            continue
        size = f"{LETTERS[i]}: {term.name} {figure(term.size, units)}"
        if laid[0].off:
            in_front = sum(1 for one in laid if one.high <= found.rest[0])
            where = "at the left end" if in_front else "at the right end"
            if term.halved:
                where = HALVED
            elif 0 < in_front < len(laid):
                where = "at both ends"
            yield f"{size}, taken off {term.often}, {where}."
        elif term.halved and len(found.laid) > len(laid):
            yield f"{size}, {HALVED}."
        else:
            yield f"{size}." if term.count == 1 else f"{size}, {term.often}."
    comes_to = f"What it comes to, the {asked}: {result}{'' if result == ASKED else '.'}"
    yield "More is taken off than there is." if found.too_much else comes_to


# ── parts that end a lesson ─────────────────────────────────────────────────────────────────────

PIECES_HIGH: Final = 96.0
"""Height of the pieces on the sheet, in its units; only along the size are they true to scale."""


@dataclass(frozen=True)
class BarPiece:
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

    sentence: str
    pieces: tuple[BarPiece, ...]
    known: tuple[tuple[str, Fraction, Fraction], ...]


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
            outline = corners(x(piece.start), low, x(piece.end), high)
            is_asked = piece.name == ASKED
            pen = Pen(CHANGED, 2.2) if is_asked else Pen(INK, 1.1)
            finish = Finish(pen, WOOD, piece.hatch) if piece.hatch else Finish(Pen(INK, 0.8, "4 3"))
            canvas.polygon(outline, finish, None if is_asked else {"part": piece.name})
        draw_dims(canvas, "top", level, rows)
    foot, part = level + PIECES_HIGH, next(p for p in shown.pieces if p.name == ASKED)
    ends = x(part.start), x(part.end)
    bottom = draw_asked(canvas, ends, foot + 9, foot + 2, f"{name} {result}")
    bottom = canvas.paragraph(shown.sentence, bottom + 6)
    known = ", ".join(dim.text.lines[0] for dim in dims)
    words = f"{shown.sentence} Known: {known}. Asked: {name}, {result}"
    return canvas.picture(name.capitalize(), words, bottom + MARGIN)


# ── the parts ─────────────────────────────────────────────────────────────────────────────────


def _pair(
    names: str, low: Fraction, high: Fraction, thick: Fraction, rows: Point = (0.0, 1.0)
) -> tuple[BarPiece, BarPiece]:
    """Two pieces of one thickness that begin and end something, "left/right side rail" in words."""
    one, _, rest = names.partition("/")
    other, _, what = rest.partition(" ")
    return (
        BarPiece(f"{one} {what}", low, low + thick, *rows),
        BarPiece(f"{other} {what}", high - thick, high, *rows),
    )


def _middle_rail(v: Sizes) -> Shown:
    long, stud = v["hive_length"], v["stud_thickness"]
    return Shown(
        "The frame from above, its front at the left. The marked rail runs down the middle.",
        (BarPiece("left side rail", _0, long - stud, 0, 0.15, "grain"),
         BarPiece("right side rail", _0, long - stud, 0.85, 1, "grain"),
         BarPiece("front rail", _0, stud, 0.15, 0.85),
         BarPiece("back rail", long - stud, long),
         BarPiece(ASKED, stud, long - stud, 0.42, 0.57, "grain")),
        (("stud", _0, stud), ("hive length", _0, long)),
    )  # fmt: skip


def _pan_end(v: Sizes) -> Shown:
    wide, stud, strip, gap = (
        v[n] for n in ("hive_width", "stud_thickness", "strip_narrow", "panel_gap")
    )
    left, right = stud + gap / 2, wide - stud - gap / 2
    return Shown(
        "Rails and pan from above, cut off at the back. The marked end stands between the pan's "
        "sides, and those stand on edge. The gap is meant in all.",
        (*_pair("left/right side rail", _0, wide, stud),
         *_pair("left/right side of the pan", left, right, strip, (0.2, 1.0)),
         BarPiece(ASKED, left + strip, right - strip, 0.2, 0.32, "grain")),
        (("strip", left, left + strip), ("stud", wide - stud, wide), ("hive width", _0, wide)),
    )  # fmt: skip


def _middle_strip(v: Sizes) -> Shown:
    long, stud, gap, strip = (
        v[n] for n in ("hive_length", "stud_thickness", "screen_gap", "strip_wide")
    )
    front, back = stud + gap / 2, long - stud - gap / 2
    return Shown(
        "The screen between front and back rail, from above, its front at the left. All strips "
        "lie flat. The marked one runs down the middle. The gap is meant in all.",
        (*_pair("front/back rail", _0, long, stud),
         BarPiece("left side strip", front, back, 0.05, 0.2, "grain"),
         BarPiece("right side strip", front, back, 0.8, 0.95, "grain"),
         *_pair("front/back end strip", front, back, strip, (0.2, 0.8)),
         BarPiece(ASKED, front + strip, back - strip, 0.43, 0.57, "grain")),
        (("stud", _0, stud), ("strip", back - strip, back), ("hive length", _0, long)),
    )  # fmt: skip


def _twin_rim(v: Sizes) -> Shown:
    wide, stud, room = v["hive_width"], v["stud_thickness"], v["cap_clearance"]
    left, right = -room / 2, 2 * wide + room / 2
    return Shown(
        "One rim over two hives, from above; the hives are dashed. The marked front stands between "
        "the rim's two sides. The cap clearance is meant in all.",
        (BarPiece("left hive", _0, wide, 0.1, 1, None),
         BarPiece("right hive", wide, 2 * wide, 0.1, 1, None),
         *_pair("left/right side of the rim", left, right, stud),
         BarPiece(ASKED, left + stud, right - stud, 0.75, 1, "grain")),
        (("hive width", _0, wide), ("hive width", wide, 2 * wide), ("stud", left, left + stud)),
    )  # fmt: skip


def _notched_front(v: Sizes) -> Shown:
    wide, stud, notch = v["hive_width"], v["stud_thickness"], v["inner_notch"]
    return Shown(
        "The inner cover's rim from above, its front below. The notch lies beside the left side, "
        "and the marked front is one piece.",
        (*_pair("left/right side of the rim", _0, wide, stud),
         BarPiece("back of the rim", stud, wide - stud, 0, 0.15, "grain"),
         BarPiece(ASKED, stud + notch, wide - stud, 0.85, 1, "grain")),
        (
            *((("notch", stud, stud + notch),) if notch else ()),
            ("stud", wide - stud, wide),
            ("hive width", _0, wide),
        ),
    )  # fmt: skip


def _follower(v: Sizes) -> Shown:
    inside, ease, board, overlap, bar = (
        v[n]
        for n in ("box.inside_length", "rest_ease", "board_thickness", "rest_overlap", "top_bar")
    )
    start = -overlap
    return Shown(
        "The box from its side, cut open. The follower board hangs from a bar as long as a "
        "frame's, and the ease stays free at each end of the marked board.",
        (*_pair("front/back end of the box", -board, inside + board, board, (0.1, 1.0)),
         BarPiece("top bar", start, start + bar, 0.02, 0.1, "grain"),
         BarPiece(ASKED, ease, inside - ease, 0.1, 0.92, "grain")),
        (("rest", start, _0), ("board", inside, inside + board), ("top bar", start, start + bar)),
    )  # fmt: skip


def _entrance_strip(v: Sizes) -> Shown:
    wide, stud, gap = v["hive_width"], v["stud_thickness"], v["screen_gap"]
    left, right = stud + gap / 2, wide - stud - gap / 2
    low = float(v["entrance_height"] / v["stud_width"])
    return Shown(
        "The entrance from the front. The marked strip stands on the front rail, between the side "
        "rails. The gap is meant in all.",
        (*_pair("left/right side rail", _0, wide, stud),
         BarPiece("front rail", stud, wide - stud, low, 1, "grain"),
         BarPiece(ASKED, left, right, 0, low, "grain")),
        (("stud", _0, stud), ("hive width", _0, wide)),
    )  # fmt: skip


PARTS: Final[Mapping[str, Callable[[Sizes], Shown]]] = {
    "practice.middle_rail_length": _middle_rail,
    "practice.pan_end_length": _pan_end,
    "practice.middle_strip_length": _middle_strip,
    "practice.twin_rim_front_length": _twin_rim,
    "practice.notched_front_length": _notched_front,
    "practice.follower_length": _follower,
    "practice.entrance_strip_length": _entrance_strip,
}
