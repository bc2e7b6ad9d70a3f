"""What lies one above the other in the bottom board, enlarged, against the height of the rail."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import TypeAlias

from hivecalc.drawing.canvas import (
    HIDDEN,
    MARGIN,
    PAPER,
    THIN,
    WIDTH,
    Canvas,
    Finish,
    Picture,
    Shape,
    corners,
)
from hivecalc.drawing.faults import SPACE_TAKEN_TWICE, Seen, tell
from hivecalc.drawing.labels import (
    Label,
    Mark,
    column_height,
    draw_dims,
    draw_labels,
    fitted,
    in_rows,
    room_for,
)
from hivecalc.drawing.layout import LINE, Point
from hivecalc.drawing.subject import Named, Subject
from hivecalc.drawing.view import cut_finish
from hivecalc.space.solids import Interval

Spot: TypeAlias = tuple[float, Fraction, Fraction]  # a place across the sheet, and two heights
INTRO = "All that lies in the bottom board, against the height of the side rail"
TITLE = "The stack in the bottom board, against the rail"
HEADING = "The stack against the rail"
HIGHEST = 300.0  # of the stack or the rail, on the sheet
RAIL, FRONT, REST, BETWEEN = 28.0, 26.0, 38.0, 10.0  # widths on the sheet, which have no scale
LABELS = 16.0  # between the stack and its labels
# From above downwards: the piece, the dimension that is its height, and the word for it.
STRIP = (
    "screen side strip, upper left",
    "bottom_board.screen_side_strip_thickness",
    "screen strip",
)
STOP = ("screen front stop", "bottom_board.screen_front_stop_thickness", "front stop")
ABOVE_SLOT = (
    ("mesh", "mesh_thickness", "mesh"),
    ("screen side strip, lower left", "bottom_board.screen_side_strip_thickness", "screen strip"),
    ("upper side runner, left", "bottom_board.upper_runner_height", "upper runner"),
)
IN_SLOT = (
    ("panel", "bottom_board.panel_thickness", "foam panel"),
    ("lower side runner, left", "bottom_board.lower_runner_height", "lower runner"),
)
SLOT, HEADROOM, WAY_IN = (
    ("bottom_board.slot_height", "slot"),
    ("bottom_board.headroom", "headroom"),
    ("bottom_board.way_in", "way in"),
)
HEIGHTS = (("bottom_board.front_rail_width", "front rail"), ("stud_width", "side rail"))
SEEN = {
    "side_rail",
    "front_rail",
    "screen_front_stop",
    "screen_side_strip",
    "mesh",
    "box_above",
} | {"upper_side_runner", "panel", "lower_side_runner"}


def stack(subject: Subject) -> Picture:
    """SVG picture of all that lies in the bottom board, layer by layer, against the rail's height.

    What stands proud by a wrong cut, such as an upper runner turned the wrong way, is marked.
    """
    return _Stack(subject.of("bottom_board")).picture()


@dataclass(frozen=True)
class _Stack:
    subject: Subject

    def picture(self) -> Picture:
        canvas = self.subject.canvas()
        top = canvas.paragraph(HEADING, MARGIN, bold=True) + 3 * LINE
        column = _Column(self.subject, top)
        with canvas.view("stack", column.scale):
            column.draw(canvas)
        bottom = column.draw_labels(canvas) + MARGIN
        # what a wrong cut does to heights: a column shows no more
        seen = Seen.of(self.subject, ("z", "z"), lambda solid: solid.part in SEEN)
        faults = seen.faults
        for fault in faults:
            bottom = tell(canvas, fault, self.subject.units, (MARGIN, bottom)) + MARGIN
        if self.subject.proud:
            bottom = canvas.paragraph(self.subject.proud, bottom, bold=True) + MARGIN
        rows = [row[1:] for row in (STRIP, STOP, *ABOVE_SLOT, *IN_SLOT)]
        told = [fault.consequence.sentence for fault in faults]
        rows = [*HEIGHTS, SLOT, HEADROOM, WAY_IN, *rows]
        words = self.subject.words(INTRO, rows, *told, self.subject.proud)
        return canvas.picture(self.subject.titled(TITLE), words, bottom, column.scale)


@dataclass(frozen=True)
class _Column:
    """The rail, the front of the stack and the rest of it, side by side on one foot."""

    subject: Subject
    top: float

    def draw(self, canvas: Canvas) -> None:
        """Draw the rails, the layers, the line that the box stands on, and the rails' heights."""
        side = (self.left, self.left + RAIL)
        canvas.polygon(self._bar(side, self._z("side rail, left")), Finish(THIN, PAPER))
        middle = self.front + FRONT
        layers = [((self.front, self.right), row) for row in (*IN_SLOT, *ABOVE_SLOT)]
        uppermost = [((self.front, middle), STOP), ((middle, self.right), STRIP)]
        front_rail = (side, ("front rail", *HEIGHTS[0]))
        canvas.shapes(self._piece(x, row) for x, row in (front_rail, *layers, *uppermost))
        canvas.shapes(self._proud(uppermost))
        level = self.y(self.subject.now["stud_width"])
        canvas.line((self.left, level), (self.right + 10, level), HIDDEN)
        dims = [self.subject.dim(n, w, self.y(self.subject.now[n]), self.foot) for n, w in HEIGHTS]
        rows = in_rows(dims, self.top - 2 * LINE, self.foot)
        draw_dims(canvas, "left", self.left, rows)

    def draw_labels(self, canvas: Canvas) -> float:
        """Write the labels beside and above the column; where they end comes back."""
        x, level = self.front + FRONT + REST / 2, self.right + LABELS
        uppermost = [self._label(STRIP, x), self._label(STOP, self.front + FRONT / 2)]
        uppermost.sort(key=lambda label: label.target[1])
        column = [self._headroom(x), *uppermost, *(self._label(row, x) for row in ABOVE_SLOT)]
        column += [self._slot(x), *(self._label(row, x) for row in IN_SLOT)]
        low = self.top - LINE / 2
        bottom = max(self.foot, low + column_height(column))
        draw_labels(canvas, "right", level, column, (low, bottom))
        draw_labels(canvas, "top", self.top - 14, [self._way_in()])
        return bottom

    # Places on the sheet

    @cached_property
    def scale(self) -> float:
        """How big an inch of height is on the sheet."""
        tops = (s.extents[2][1] for s in self.subject.solids.values())
        return HIGHEST / float(max(tops))

    @property
    def foot(self) -> float:
        """Where the bottom of the frame is."""
        return self.top + HIGHEST

    @cached_property
    def left(self) -> float:
        """Where the rail begins, beside its dimension lines."""
        return MARGIN + room_for(self.subject.dim(*row, 0, 0) for row in HEIGHTS)

    @property
    def front(self) -> float:
        """Where the front of the stack begins."""
        return self.left + RAIL + BETWEEN

    @property
    def right(self) -> float:
        """Where the stack ends."""
        return self.front + FRONT + REST

    def y(self, z: Fraction) -> float:
        """Where this height stands."""
        return self.foot - float(z) * self.scale

    def _z(self, piece: str) -> Interval:
        return self.subject.solids[piece].extents[2]

    # Shapes

    def _piece(self, x: Point, row: Named) -> Shape:
        piece, name, _ = row
        solid = self.subject.solids[piece]
        data = {"part": piece, "name": name, "exact": self.subject.now[name]}
        return self._bar(x, self._z(piece)), cut_finish(solid, self.subject.pen(solid)), data

    def _bar(self, x: Point, z: Interval) -> list[Point]:
        return corners(x[0], self.y(z[1]), x[1], self.y(z[0]))

    def _proud(self, uppermost: Iterable[tuple[Point, Named]]) -> Iterator[Shape]:
        """What stands above the rail, where the box should stand."""
        rail = self.subject.now["stud_width"]
        for x, (piece, *_) in uppermost:
            low, high = self._z(piece)
            if high > rail:
                yield self._bar(x, (max(low, rail), high)), SPACE_TAKEN_TWICE, None

    # Labels

    def _label(self, row: Named, x: float) -> Label:
        piece, name, word = row
        low, high = self._z(piece)
        return self._at(self.subject.lines(name, word), (x, low, high), self.subject.mark(name))

    def _at(self, lines: tuple[str, ...], spot: Spot, mark: Mark) -> Label:
        """A label whose leader ends half-way between two heights, wrapped where there is need."""
        (x, low, high), room = spot, WIDTH - MARGIN - self.right - LABELS
        target = x, (self.y(low) + self.y(high)) / 2
        return Label(fitted(lines, room, mark), target, mark=mark)

    def _slot(self, x: float) -> Label:
        """The slot's label, which points to the ease above the panel."""
        under, above = self._z("panel")[1], self._z("upper side runner, left")[0]
        return self._at(self.subject.lines(*SLOT), (x, under, above), self.subject.mark(SLOT[0]))

    def _headroom(self, x: float) -> Label:
        now, rail = self.subject.now[HEADROOM[0]], self.subject.now["stud_width"]
        spot = x, self._z(STRIP[0])[1], rail
        if now < 0:
            proud = "?" if self.subject.asked else self.subject.shown(-now)
            return self._at((f"stands proud {proud}",), spot, "wrong")
        return self._at(self.subject.lines(*HEADROOM), spot, self.subject.mark(HEADROOM[0]))

    def _way_in(self) -> Label:
        """The way in's label, which points between the rail's top and the higher of two edges."""
        rail = self.subject.now["stud_width"]
        higher = max(self._z("front rail")[1], self._z(STOP[0])[1])
        spot = self.front + FRONT / 2, higher, rail
        if higher >= rail:
            return self._at(("no way in",), spot, "wrong")
        target = spot[0], (self.y(higher) + self.y(rail)) / 2
        return Label(self.subject.lines(*WAY_IN), target, mark=self.subject.mark(WAY_IN[0]))
