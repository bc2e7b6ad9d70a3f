"""A frame from above: a panel between rails that bow inwards; a box or a frame out of square."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import sqrt

from hivecalc.drawing.canvas import (
    CHANGED,
    CHANGED_LINE,
    CROSSWAYS,
    FOAMED,
    HIDDEN,
    LENGTHWAYS,
    MARGIN,
    NO_LINE,
    OUTLINE,
    PAPER,
    WIDTH,
    WOOD,
    Canvas,
    Finish,
    Pen,
    figure,
)
from hivecalc.drawing.faults import SPACE_TAKEN_TWICE
from hivecalc.drawing.labels import (
    Dim,
    Label,
    Mark,
    Text,
    draw_column,
    draw_dims,
    in_rows,
    room_for,
    text_end,
)
from hivecalc.drawing.layout import Point
from hivecalc.drawing.subject import Sizes, Subject, View
from hivecalc.drawing.svg import Picture
from hivecalc.length import TENTH_MM, THIRTY_SECOND, Length, LengthError, Units, shown
from hivecalc.space import Solid
from hivecalc.space.solids import Interval, hull, rectangle

# ── out of square ───────────────────────────────────────────────────────────────────────────────

LARGEST = 250.0  # of either side of the box on the sheet
SHOWN = 0.14  # of the shorter side: how far what is off is drawn off on the sheet


def out_of_square(
    length: Length, width: Length, lean: Length, *, units: Units = "inch", name: str = ""
) -> Picture:
    """SVG picture of a box from above whose back has moved sideways by `lean`, drawn larger.

    The front is at the left, and a lean above 0 is towards the box's right side, which lies below.
    All three are in inches.
    """
    box = _Crooked((length, length), (width,) * 3, lean)
    text = "A square box: both diagonals are the same."
    if lean:
        side, other = ("right", "left") if lean > 0 else ("left", "right")
        leans = shown(abs(lean), units, THIRTY_SECOND if units == "inch" else TENTH_MM)
        text = (
            f"The back leans {leans} to the {side}, {box.drawn('far')}. "
            f"The diagonal from front {other} to back {side}, drawn full, is the longer one; "
            "dashed: square."
        )
    canvas = Canvas()
    canvas.paragraph("From above, the front at the left", MARGIN, bold=True)
    plain, crooked = ([outline[i] for i in (0, 2, 3, 5)] for outline in box.outlines)
    front_left, back_left, back_right, front_right = crooked
    bottom = box.draw(canvas, plain, crooked)
    for ends, long in (((front_left, back_right), lean >= 0), ((front_right, back_left), lean < 0)):
        canvas.line(*ends, Pen(CHANGED, 1.6) if lean and long else HIDDEN)
    canvas.text(f"front: {figure(width, units)}", (MARGIN, plain[0][1] - 26))
    canvas.text("back", (WIDTH - MARGIN, plain[0][1] - 26), "end")
    bottom = canvas.paragraph(text, bottom + MARGIN) + MARGIN
    return canvas.picture("A box from above", text, bottom, name)


def frame_from_above(
    lengths: Sequence[Length],
    widths: Sequence[Length],
    lean: Length,
    *,
    units: Units = "inch",
    name: str = "",
) -> Picture:
    """SVG picture of a frame from above: taper, bow and lean as measured, drawn larger.

    The front is at the left. Lengths of the left and the right side; widths in front, in the middle
    and at the back; how far the back has moved to the right. In inches.
    """
    frame = _Crooked(lengths, widths, lean)
    text = "All widths and lengths agree, and it does not lean."
    if any(frame.off):
        text = (
            "Full line: the frame as measured, with its taper, its bow and its lean "
            f"{frame.drawn('large')}. Dashed: as wide as in front, and square."
        )
    canvas = Canvas()
    canvas.paragraph("The frame from above", MARGIN, bold=True)
    plain, crooked = frame.outlines
    bottom = frame.draw(canvas, plain, crooked)
    above = min(y for _, y in [*plain, *crooked]) - 10
    for (x, _), width, anchor in zip(plain, widths, ("start", "middle", "end"), strict=False):
        canvas.text(figure(width, units), (x, above), anchor)
    middle = (plain[0][1] + plain[5][1]) / 2
    canvas.text("front", (plain[0][0] + MARGIN, middle))
    canvas.text("back", (plain[2][0] - 2 * MARGIN, middle), "end")
    bottom = canvas.paragraph(text, bottom + MARGIN) + MARGIN
    return canvas.picture("A frame from above", text, bottom, name)


@dataclass(frozen=True)
class _Crooked:
    """A frame by its lengths at the left and right, its widths from front to back, its lean."""

    lengths: Sequence[Length]
    widths: Sequence[Length]
    lean: Length

    @property
    def scale(self) -> float:
        return LARGEST / float(max(*self.lengths, *self.widths))

    @property
    def off(self) -> tuple[Length, ...]:
        """By how much the frame misses a rectangle: widths, lengths, lean."""
        front, *others = self.widths
        return (*(w - front for w in others), self.lengths[1] - self.lengths[0], self.lean)

    @property
    def times(self) -> int:
        """How many times larger than it is everything that is off is drawn."""
        most = max(abs(o) for o in self.off)
        far = SHOWN * float(min(*self.lengths, *self.widths))
        return max(1, round(far / float(most))) if most else 1

    def drawn(self, how: str) -> str:
        """How far, or how large, what is off is drawn."""
        return f"drawn {self.times} times as {how}" if self.times > 1 else "true to scale"

    @property
    def outlines(self) -> tuple[list[Point], list[Point]]:
        """The frame on the sheet as it should be, and as it is."""
        return self._outline(0), self._outline(self.times)

    def _outline(self, times: int) -> list[Point]:
        """Front left, middle and back left, back right, middle and front right, on the sheet."""
        half = [float(self.widths[0] + (w - self.widths[0]) * times) / 2 for w in self.widths]
        left = float(self.lengths[0])
        right = left + float(self.lengths[1] - self.lengths[0]) * times
        lean, middle = float(self.lean) * times, float(self.widths[0]) / 2
        corners = [
            (0.0, middle - half[0]),
            (left / 2, middle - half[1] + lean / 2),
            (left, middle - half[2] + lean),
            (right, middle + half[2] + lean),
            (right / 2, middle + half[1] + lean / 2),
            (0.0, middle + half[0]),
        ]
        above = max(LARGEST * SHOWN, -float(self.lean) * self.times * self.scale)
        x0, y0 = (WIDTH - left * self.scale) / 2, 3 * MARGIN + 48 + above
        return [(x0 + x * self.scale, y0 + y * self.scale) for x, y in corners]

    def draw(self, canvas: Canvas, plain: Sequence[Point], crooked: Sequence[Point]) -> float:
        with canvas.view("from above", self.scale):
            canvas.polygon(plain, Finish(HIDDEN if any(self.off) else OUTLINE, WOOD))
            if any(self.off):
                canvas.polygon(crooked, Finish(CHANGED_LINE))
        return max(y for _, y in [*plain, *crooked])


# ── rails that bow ──────────────────────────────────────────────────────────────────────────────

MOST = Fraction(1)
"""Most that a rail is drawn bowed by, in inches: a rail with more is firewood."""

HIGHEST = 240.0  # of the frame on the sheet
WINDOW_WIDE, WINDOW_HIGH = 150, 80
GAP_SHOWN = 34  # how big the gap at one side, as it was cut, is in an enlargement
FINEST = Fraction(1, 64)  # of a gap that is enlarged so far
LABELS = 14.0  # between an enlargement and its labels
STEPS = 24  # of a bow's edge, as it is drawn
FRAME = {"side_rail": LENGTHWAYS, "front_rail": CROSSWAYS, "back_rail": CROSSWAYS}
TAKEN = Finish(NO_LINE, WOOD, "strip")
SPACE = Finish(NO_LINE, PAPER)


def gap_left(values: Sizes, bow: Length) -> Length:
    """Gap that is left between the panel and both side rails, in all, once each has bowed inwards.

    In inches. Where it is nothing or less, the panel sticks.
    """
    opening = values["bottom_board.opening_width"] - 2 * bow
    return opening - values["bottom_board.panel_width"]


def bowed_rails(subject: Subject, bow: Length) -> Picture:
    """SVG picture of the panel in its opening, with each side rail bowed towards it.

    The bow is of one rail, in inches. Raises LengthError for one below zero or above 1 in.
    """
    if not 0 <= bow <= MOST:
        raise LengthError(
            f"A rail can't be drawn that bows by {subject.shown(bow)}: "
            f"give a bow from 0 to {subject.shown(MOST)}."
        )
    return _BowedRails(subject.of("bottom_board"), bow).picture()


@dataclass(frozen=True)
class _Side:
    """A side rail and the panel beside it, from above: which places lie where across the hive.

    The places run from the rail's edge as it was, over its edge as it is, to the panel's edge.
    """

    name: str
    was: Length
    edge: Length
    panel: Length

    @property
    def between(self) -> Interval:
        """The gap between rail and panel, or what both would take if they run into each other."""
        return min(self.edge, self.panel), max(self.edge, self.panel)


@dataclass(frozen=True)
class _BowedRails:
    subject: Subject
    bow: Length

    def picture(self) -> Picture:
        canvas = Canvas()
        heading = canvas.paragraph("From above, front at left", MARGIN, bold=True)
        bottom = self._draw_whole(canvas, heading)
        for side in self._sides:
            bottom = self._draw_side(canvas, side, bottom + MARGIN)
        bottom = canvas.paragraph(self._sentences, bottom + MARGIN, bold=self._left <= 0)
        dims = self._dims(View(0, 0, 1, *self._window))
        figures = "; ".join(", ".join(dim.text.lines) for dim in dims)
        bows = f"each side rail bows in by {self.subject.shown(self.bow)}."
        intro = "The foam panel between the side rails, from above."
        words = f"{intro} {figures}; {bows} {self._sentences}"
        title = "The panel between side rails that bow inwards, from above"
        return canvas.picture(title, words, bottom + MARGIN, self.subject.name)

    # What is found

    @cached_property
    def _left(self) -> Length:
        return gap_left(self.subject.now, self.bow)

    @cached_property
    def _sides(self) -> tuple[_Side, _Side]:
        left, right = (self.subject.solids[f"side rail, {side}"] for side in ("left", "right"))
        near, far = self.subject.solids["panel"].extents[0]
        inner, other = left.extents[0][1], right.extents[0][0]
        return (
            _Side("left", inner, inner + self.bow, near),
            _Side("right", other, other - self.bow, far),
        )

    @property
    def _sentences(self) -> str:
        in_all, each = self.subject.shown(abs(self._left)), self.subject.shown(abs(self._left) / 2)
        if self._left > 0:
            return f"The panel slides: {in_all} of gap is left in all, {each} at each side."
        wide = f"It is {in_all} too wide, {each} at each side. " if self._left else ""
        return f"The gap is used up: the panel sticks. {wide}It does not go."

    # The whole

    @cached_property
    def _window(self) -> tuple[Interval, Interval]:
        x, y, _ = hull(s.extents for s in self.subject.solids.values() if s.part in FRAME)
        return y, x

    def _draw_whole(self, canvas: Canvas, heading: float) -> float:
        opening, panel = (room_for([dim]) for dim in self._dims(View(0, 0, 1, *self._window)))
        right_end = WIDTH - MARGIN - panel
        view = View.between(MARGIN + opening, right_end, HIGHEST, self._window)
        view = replace(view, top=heading + MARGIN)
        left, right = (in_rows([dim], heading) for dim in self._dims(view))
        with canvas.view("plan", view.scale):
            self._draw_pieces(canvas, view)
            draw_dims(canvas, "left", view.left, left)
            draw_dims(canvas, "right", view.right, right)
        return max(view.bottom, text_end([*left, *right]))

    def _dims(self, view: View) -> tuple[Dim, Dim]:
        first, second = self._sides
        opening, was = second.edge - first.edge, second.was - first.was
        panel = second.panel - first.panel
        texts = (
            self.subject.compared("opening", opening, was),
            Text((f"panel {self.subject.shown(panel)}",)),
        )
        places = (first.edge, second.edge), (first.panel, second.panel)
        (low, high), (panel_low, panel_high) = (tuple(map(view.y, both)) for both in places)
        return (
            Dim("opening", opening, texts[0], low, high),
            Dim("panel", panel, texts[1], panel_low, panel_high),
        )

    # Shapes

    def _draw_pieces(self, canvas: Canvas, view: View) -> None:
        """Draw the frame, what its bowed rails take, the panel, and what lies between them."""
        for solid in self.subject.solids.values():
            if solid.part in FRAME:
                self._draw_piece(canvas, view, solid, FRAME[solid.part])
        for side in self._sides:
            self._draw_bow(canvas, view, side)
        self._draw_piece(canvas, view, self.subject.solids["panel"], FOAMED)
        for side in self._sides:
            self._draw_between(canvas, view, side)

    def _draw_piece(self, canvas: Canvas, view: View, solid: Solid, finish: Finish) -> None:
        x, y, _ = solid.extents
        view.draw(canvas, rectangle(y, x), finish, {"part": solid.label})

    def _draw_bow(self, canvas: Canvas, view: View, side: _Side) -> None:
        """Draw what a bowed rail takes of the opening, from its straight edge, dashed."""
        if not self.bow:
            return
        along = shared(self._inside, view.u)
        arc, straight = self._arc(side, along), [(u, side.was) for u in along[::-1]]
        view.draw(canvas, [*arc, *straight], TAKEN, {"name": "bow", "exact": self.bow})
        for place, line, pen in ((side.was, straight, HIDDEN), (side.edge, arc, CHANGED_LINE)):
            if view.v[0] < place < view.v[1]:
                canvas.path(view.points(line), pen)

    def _arc(self, side: _Side, along: Interval) -> list[tuple[Length, Length]]:
        """The edge of a bowed rail between two places: a parabola, deepest in the middle."""
        (start, end), way = self._inside, 1 if side.edge >= side.was else -1
        found = []
        for i in range(STEPS + 1):
            u = along[0] + (along[1] - along[0]) * i / STEPS
            away = (2 * u - start - end) / (end - start)  # from -1 at one end to 1 at the other
            found.append((u, side.was + way * self.bow * (1 - away * away)))
        return found

    def _draw_between(self, canvas: Canvas, view: View, side: _Side) -> None:
        """Draw the gap that is left, or what rail and panel would both take up."""
        along = shared(self.subject.solids["panel"].extents[1], view.u)
        low, high = side.between
        if self._left > 0:
            gap = {"name": "gap", "exact": high - low}
            view.draw(canvas, rectangle(along, (low, high)), SPACE, gap)
        elif low < high:
            # from where to where along the rail it stands in the panel's way
            (start, end), as_cut = self._inside, self._left + 2 * self.bow
            half = Fraction(sqrt(1 - as_cut / (2 * self.bow))) * (end - start) / 2
            reach = shared(((start + end) / 2 - half, (start + end) / 2 + half), along)
            both = [*self._arc(side, reach), *((u, side.panel) for u in reach[::-1])]
            overlap = {"fault": "overlap", "exact": high - low}
            view.draw(canvas, both, SPACE_TAKEN_TWICE, overlap)

    @property
    def _inside(self) -> Interval:
        front, back = (self.subject.solids[rail].extents[1] for rail in ("front rail", "back rail"))
        return front[1], back[0]

    # A side, enlarged

    def _draw_side(self, canvas: Canvas, side: _Side, top: float) -> float:
        top = canvas.paragraph(f"{side.name.capitalize()} side, enlarged", top, bold=True) + 5
        # a window on the gap as it was cut, half-way along the panel
        scale = GAP_SHOWN / max(abs(side.panel - side.was), FINEST)
        front, back = self.subject.solids["panel"].extents[1]
        u, v = (front + back) / 2, (side.was + side.panel) / 2
        wide, high = WINDOW_WIDE / scale / 2, WINDOW_HIGH / scale / 2
        window = (u - wide, u + wide), (v - high, v + high)
        view = View(MARGIN, top, float(scale), *window, down=True)
        view.draw_framed(canvas, f"{side.name} side, enlarged", self._draw_pieces)
        labels = list(self._labels(side, view))[:: 1 if side.name == "left" else -1]
        return draw_column(canvas, "right", view.right + LABELS, labels, (top, view.bottom))

    def _labels(self, side: _Side, view: View) -> Iterator[Label]:
        ways = 1 if side.name == "left" else -1
        (start, end), (before, after) = view.v[::ways], side.between[::ways]
        yield self._label(f"{side.name} side rail", "plain", (start + side.was) / 2, view)
        if self.bow:
            bows = f"bows in {self.subject.shown(self.bow)}"
            yield self._label(bows, "changed", (side.was + before) / 2, view)
        each = self.subject.shown(abs(self._left) / 2)
        mark: Mark = "changed" if self.bow else "plain"
        words = f"gap {each}"
        if self._left <= 0:
            words, mark = f"{each} too wide" if self._left else "no gap: sticks", "wrong"
        yield self._label(words, mark, (before + after) / 2, view)
        yield self._label("foam panel", "plain", (after + end) / 2, view)

    def _label(self, words: str, mark: Mark, middle: Length, view: View) -> Label:
        level = min(max(view.y(middle), view.top), view.bottom)
        text = Text((words,), mark).fitted(WIDTH - MARGIN - view.right - LABELS)
        return Label(text, (view.right - 14, level))


def shared(one: Interval, other: Interval) -> Interval:
    """What two intervals share, where they share anything."""
    return max(one[0], other[0]), min(one[1], other[1])
