"""Boards along a tape, end to end or with a piece off; and what the name of a board hides."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby
from math import ceil, hypot, sqrt

from hivecalc.drawing.canvas import (
    HIDDEN,
    LENGTHWAYS,
    MARGIN,
    PAPER,
    PENCIL,
    WIDTH,
    WOODEN,
    Canvas,
    Finish,
    Hand,
    Pen,
    corners,
    figure,
)
from hivecalc.drawing.faults import SPACE_TAKEN_TWICE
from hivecalc.drawing.labels import SHEET, Dim, Row, draw_dims, plain_dim
from hivecalc.drawing.layout import ASCENT, LETTER, LINE, Box, Point, spread
from hivecalc.drawing.subject import View
from hivecalc.drawing.svg import Picture
from hivecalc.drawing.tape import HEIGHTS, LARGEST, Stretch, draw_arrow
from hivecalc.length import MILLIMETRE, Length, LengthError, Units, rounded, written
from hivecalc.part import NOMINAL, Dressed
from hivecalc.space.solids import NOTHING, rectangle

LONGEST = Fraction(100)
"""Longest board that is drawn, in inches."""

TAKEN_OFF = Finish(HIDDEN, PAPER, "grain")
TAPE_HIGH, BOARD_HIGH = 36.0, 26.0
TAIL = 18.0  # of tape beyond the last board
BETWEEN = 12.0  # between two enlargements
CLEAR = 5.0  # between the text of a length and what stands beside it


def end_to_end(first: Length, second: Length, *, units: Units = "inch") -> Picture:
    """SVG picture of two boards laid end to end along a tape: each one's length, and the whole.

    Lengths are in inches, and shown in `units`. Raises LengthError for a board that has no length
    or is longer than 100 in.
    """
    _refuse(first, second, units=units)
    whole = first + second
    one, other, both = (figure(length, units) for length in (first, second, whole))
    spans = (
        _Span("first", NOTHING, first, LENGTHWAYS),
        _Span("second", first, whole, LENGTHWAYS),
        _Span("whole", NOTHING, whole),
    )
    laid = _Laid(spans, (("The first ends at", first), ("The second ends at", whole)), units)
    text = f"{one} and {other}, end to end, are {both}."
    return laid.picture("Two boards end to end", text)


def cut_off(whole: Length, off: Length, *, units: Units = "inch") -> Picture:
    """SVG picture of a board along a tape, the piece that comes off it, and what is left.

    More than the board has is drawn as what does not go.

    Lengths are in inches, and shown in `units`. Raises LengthError for a board or a piece that has
    no length or is longer than 100 in.
    """
    _refuse(whole, off, units=units)
    left = whole - off
    all_of, taken = figure(whole, units), figure(off, units)
    ends = ("The board ends at", whole)
    if left < 0:
        spans = (
            _Span("board", NOTHING, whole, LENGTHWAYS),
            _Span("lacking", whole, off, SPACE_TAKEN_TWICE),
            _Span("to come off", NOTHING, off),
        )
        text = (
            f"{taken} can't come off a board of {all_of}: {figure(-left, units)} is lacking. "
            "It does not go."
        )
        laid = _Laid(spans, (ends, ("It should reach", off)), units)
        return laid.picture("More than the board has", text, bold=True)
    kept = (_Span("left", NOTHING, left, LENGTHWAYS),) if left else ()
    spans = (*kept, _Span("off", left, whole, TAKEN_OFF), _Span("whole", NOTHING, whole))
    remains = f"leaves {figure(left, units)}" if left else "leaves nothing"
    text = (
        f"{taken} off {all_of} {remains}. Dashed: what comes off. The width of the saw's cut is "
        "not counted here."
    )
    laid = _Laid(spans, ((("Cut at", left), ends) if left else (ends,)), units)
    return laid.picture("A piece off a board", text)


def _refuse(*lengths: Length, units: Units) -> None:
    for length in lengths:
        if not 0 < length <= LONGEST:
            raise LengthError(
                f"A board of {figure(length, units)} can't be drawn: "
                f"it must be longer than 0 and at most {figure(LONGEST, units)} long."
            )


@dataclass(frozen=True)
class _Span:
    """A length along the tape with the word for it, and how the board there looks, if any is."""

    word: str
    low: Length
    high: Length
    finish: Finish | None = None


@dataclass(frozen=True)
class _Laid:
    """Boards along a tape: the whole of them, and the tape enlarged at two of their ends."""

    spans: tuple[_Span, ...]
    enlarged: tuple[tuple[str, Length], ...]
    units: Units

    def picture(self, title: str, text: str, *, bold: bool = False) -> Picture:
        canvas = Canvas()
        top = canvas.paragraph(title, MARGIN, bold=True) + 4
        longest = max(span.high for span in self.spans)
        scale = min(LARGEST, (WIDTH - 2 * MARGIN - TAIL) / float(longest))
        whole = Stretch(self.units, MARGIN, WIDTH - MARGIN, NOTHING, scale)
        with canvas.view("boards", scale):
            self._draw(canvas, whole, top)
            rows, foot = self._rows(whole), top + TAPE_HIGH + BOARD_HIGH
            bottom = draw_dims(canvas, "bottom", foot, rows)
        if scale < LARGEST:
            bottom = self._draw_enlarged(canvas, bottom + 10)
        bottom = canvas.paragraph(text, bottom + MARGIN, bold=bold)
        spans = "; ".join(f"{s.word} {figure(s.high - s.low, self.units)}" for s in self.spans)
        words = f"{text} Along a tape: {spans}."
        return canvas.picture(title, words, bottom + MARGIN)

    # What is drawn

    def _draw(self, canvas: Canvas, stretch: Stretch, top: float) -> None:
        """Draw the tape, and under it as much of each board as the stretch shows."""
        edge = top + TAPE_HIGH
        for span in self.spans:
            left, right = stretch.within(span.low, span.high)
            if span.finish and left < right:
                outline = corners(left, edge, right, edge + BOARD_HIGH)
                canvas.polygon(outline, span.finish, {"part": span.word})
        stretch.draw(canvas, (top, edge))

    def _rows(self, stretch: Stretch) -> list[Row]:
        """The boards' lengths in one chain, if their texts go in there, and the whole below."""
        end, row = max(stretch.x(span.high) for span in self.spans), Row()
        for span in self.spans:
            ends = stretch.x(span.low), stretch.x(span.high)
            dim = plain_dim(span.word, span.high - span.low, self.units, *ends)
            row.append(replace(dim, centre=_centre(dim, end)))
        *chain, whole = row
        goes_in = all(dim.text.width + 2 * CLEAR <= dim.high - dim.low for dim in chain)
        return [chain, [whole]] if goes_in else [[dim] for dim in row]

    def _draw_enlarged(self, canvas: Canvas, top: float) -> float:
        """Draw the tape at two ends of boards, each below its words and with an arrow."""
        wide, tape = (WIDTH - 2 * MARGIN - BETWEEN) / 2, top + 2 * LINE + 14
        foot = tape + TAPE_HIGH + BOARD_HIGH
        for i, (words, place) in enumerate(self.enlarged):
            left = MARGIN + i * (wide + BETWEEN)
            low = max(NOTHING, place - Fraction(wide / 2 / LARGEST).limit_denominator(16))
            stretch = Stretch(self.units, left, left + wide, low)
            canvas.text(words, (left, top + ASCENT * LETTER))
            with canvas.view(f"{words}, enlarged", stretch.scale):
                self._draw(canvas, stretch, tape)
            canvas.frame(Box(left, tape, left + wide, foot))
            arrow = (tape - 1, tape + (1 - HEIGHTS[-1]) * TAPE_HIGH, foot)
            reading = figure(place, self.units), {"reading": place}
            draw_arrow(canvas, stretch.x(place), arrow, reading, (left, left + wide))
        return foot


def _centre(dim: Dim, end: float) -> float:
    """The centre of a text on its dimension line, or where no end of any board runs through it."""
    places = (
        (dim.low, dim.high), (MARGIN - CLEAR, dim.low),
        (dim.high, end), (end, WIDTH - MARGIN + CLEAR),
    )  # fmt: skip
    wide = dim.text.width + 2 * CLEAR
    free = ((low, high) for low, high in places if high - low >= wide)
    low, high = next(free, SHEET)
    return spread([(dim.low + dim.high) / 2], [wide], low, high)[0]


# ── the ends of real boards ───────────────────────────────────────────────────────────────────

SHELVES = (("2x4", "1x4"), ("1x10",), ("1x12",))
PER_INCH = 28.0
RING = 8.0  # from one growth ring to the next


def real_boards(*, units: Units = "inch") -> Picture:
    """SVG picture of the ends of four boards, each within the size that its name speaks of.

    Sizes are the smallest of dry, planed softwood, American Softwood Lumber Standard PS 20-20; the
    table with its source is hivecalc.part.NOMINAL.
    """
    canvas = Canvas()
    top = canvas.paragraph("The name, and the real board", MARGIN, bold=True) + 4
    with canvas.view("ends of boards", PER_INCH):
        for shelf in SHELVES:
            top = _draw_shelf(canvas, shelf, top, units) + 10
    text = (
        "Dashed: the size in the name. Full: the least size of a dry, planed board, by PS 20-20. "
        "Yours may be a little more: measure it."
    )
    bottom = canvas.paragraph(text, top)
    sizes = "; ".join(", ".join(_lines(n, units)) for shelf in SHELVES for n in shelf)
    words = f"The ends of four boards. {text} {sizes}."
    return canvas.picture("What the name of a board hides", words, bottom + MARGIN)


def _draw_shelf(canvas: Canvas, names: Sequence[str], top: float, units: Units) -> float:
    foot = top + PER_INCH * max(float(_in_name(name).thickness) for name in names)
    lines = [_lines(name, units) for name in names]
    for i, name in enumerate(names):
        left = MARGIN + i * WIDTH / 2
        _draw_board_end(canvas, name, (left, foot))
        for j, line in enumerate(lines[i]):
            canvas.text(line, (left, foot + LINE * (j + 1)), hand=Hand(bold=not j))
    return foot + LINE * len(lines[0]) + 4


def _in_name(name: str) -> Dressed:
    """The size that a name speaks of: "2x4" says 2 in by 4 in."""
    thickness, width = map(Fraction, name.split("x"))
    return Dressed(thickness, width)


def _lines(name: str, units: Units) -> list[str]:
    said, real = (_by(size, units) for size in (_in_name(name), NOMINAL[name]))
    return [name, f"says {said}", f"really {real}"]


def _by(size: Dressed, units: Units) -> str:
    """Thickness by width, in mm to the nearest one, as the standard's own table has them."""
    thickness, width = size.thickness, size.width
    if units == "mm":
        thickness, width = rounded(thickness, MILLIMETRE), rounded(width, MILLIMETRE)
    return f"{written(thickness, units)} × {figure(width, units)}"


def _draw_board_end(canvas: Canvas, name: str, place: Point) -> None:
    """Draw the end grain of a board in the middle of the size that its name speaks of."""
    said, real = _in_name(name), NOMINAL[name]
    left, foot = place[0], place[1] - float(said.thickness) * PER_INCH
    view = View(left, foot, PER_INCH, (NOTHING, said.width), (NOTHING, said.thickness))
    aside, up = (said.width - real.width) / 2, (said.thickness - real.thickness) / 2
    inner = rectangle((aside, said.width - aside), (up, said.thickness - up))
    for what, size, outline, finish in (
        ("says", said, rectangle(view.u, view.v), Finish(HIDDEN)),
        ("really", real, inner, WOODEN),
    ):
        data = {"part": f"{name} {what}", "width": size.width, "thickness": size.thickness}
        view.draw(canvas, outline, finish, data)
    _draw_rings(canvas, view.points(inner))


def _draw_rings(canvas: Canvas, corners: Sequence[Point]) -> None:
    """Draw growth rings round a heart that lies below the board, as far as they lie within it."""
    (left, bottom), _, (right, top), _ = corners
    x0, y0 = left + (right - left) * 0.4, bottom + (right - left) * 0.3
    steps = round((right - left) / 3)
    xs = [left + (right - left) * i / steps for i in range(steps + 1)]
    for n in range(ceil((y0 - bottom) / RING), int(hypot(right - x0, y0 - top) / RING) + 1):
        ring = [(x, y0 - sqrt(max(0.0, (n * RING) ** 2 - (x - x0) ** 2))) for x in xs]
        for inside, arc in groupby(ring, lambda place: top <= place[1] <= bottom):
            if inside:
                canvas.path([*arc], Pen(PENCIL, 0.5))
