"""The bottom board: cut along its middle, its frame from above, its layers against the rail."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from typing import TypeAlias

from hivecalc.drawing.canvas import (
    HIDDEN,
    MARGIN,
    PAPER,
    THIN,
    WIDTH,
    WOOD,
    Canvas,
    Finish,
    Picture,
    Shape,
    corners,
)
from hivecalc.drawing.faults import SPACE_TAKEN_TWICE, Seen, Telling, tell
from hivecalc.drawing.labels import (
    Dim,
    Label,
    Mark,
    Row,
    depth,
    draw_column,
    draw_dims,
    draw_labels,
    fitted,
    in_rows,
    packed,
    room_for,
    text_end,
)
from hivecalc.drawing.layout import LINE, Box, Point, Side
from hivecalc.drawing.subject import Enlarged, Named, Piece, Subject, View, cut_finish, floated
from hivecalc.space import Solid
from hivecalc.space.solids import Interval, Profile, hull, rectangle

# ── cut along its middle ──────────────────────────────────────────────────────────────────────

END_LABELS = 152.0  # width of a column of labels beside an enlarged end
END_HIGHEST = 170.0  # of an enlarged end
LANDING_SHOWN = Fraction(3, 2)
BEYOND = Finish(THIN, PAPER)


def section(subject: Subject) -> Picture:
    """SVG picture of the bottom board cut along its middle, whole and with its ends enlarged.

    What a wrong cut lets overlap or stay open is marked, enlarged and named.
    """
    return _Section(subject.of("bottom_board")).picture()


@dataclass(frozen=True)
class _Section:
    subject: Subject

    def picture(self) -> Picture:
        canvas = self.subject.canvas()
        top = canvas.paragraph("Cut along the middle, front at left", MARGIN, bold=True)
        view, bottom = self._draw_whole(canvas, top)
        for end in (FRONT, BACK):
            bottom = self._draw_end(canvas, end, bottom + 14)
        bottom = self._telling(view).tell(canvas, bottom + MARGIN)
        if self.subject.proud:
            bottom = canvas.paragraph(self.subject.proud, bottom, bold=True) + MARGIN
        title = self.subject.titled("Bottom board from the side, cut along its middle")
        return canvas.picture(title, self._words(), bottom, view.scale)

    def _words(self) -> str:
        rows = [*LINES, *((n, w) for end in (FRONT, BACK) for n, w in end.named())]
        texts = [fault.consequence.sentence for fault in self._through.faults]
        intro = "The bottom board cut along its middle, front at left"
        return self.subject.words(intro, rows, *texts, self.subject.proud)

    # The whole

    def _draw_whole(self, canvas: Canvas, top: float) -> tuple[View, float]:
        _, y, z = hull(s.extents for s in self.subject.solids.values())
        rail = self.subject.dim(*RAIL, 0, 0)
        wide = WIDTH - 2 * MARGIN - room_for([rail])
        view = View(MARGIN, 0, wide / float(y[1] - y[0]), y, z)
        above, *below = [self._dim(*line, view) for line in LINES]
        above_rows, below_rows = (packed(d, MARGIN, MARGIN + wide) for d in ([above], below))
        view = replace(view, top=top + depth(above_rows))
        back = self.subject.solids["back rail"].extents[2]
        rail = replace(rail, low=view.y(back[1]), high=view.y(back[0]))
        column = in_rows([rail], top)
        with canvas.view("section", view.scale):
            self._draw_pieces(canvas, view)
            draw_dims(canvas, "top", view.top, above_rows)
            bottom = draw_dims(canvas, "bottom", view.bottom, below_rows)
            draw_dims(canvas, "right", view.right, column)
        return view, max(bottom, text_end(column))

    def _dim(self, name: str, word: str, view: View) -> Dim:
        now, solids = self.subject.now, self.subject.solids
        stud, length = now["stud_thickness"], now["hive_length"]
        ends = {"hive": (Fraction(0), length), "opening": (stud, length - stud)}
        piece = "screen side strip, lower left" if word == "screen" else word
        low, high = ends.get(word) or solids[piece].extents[1]
        return self.subject.dim(name, word, view.x(low), view.x(high))

    # The pieces

    def _is_cut(self, solid: Solid) -> bool:
        x0, x1 = solid.extents[0]
        return x0 < self.subject.now["hive_width"] / 2 < x1

    @cached_property
    def _beyond(self) -> list[Piece]:
        """What lies beyond the cut, the farthest first."""
        middle, solids = self.subject.now["hive_width"] / 2, self.subject.solids.values()
        beyond = [s for s in solids if s.extents[0][1] <= middle]
        beyond.sort(key=lambda s: s.extents[0][0])
        return [(floated(rectangle(*s.extents[1:])), BEYOND, None) for s in beyond]

    @cached_property
    def _cut(self) -> list[Piece]:
        """What is cut, and what stands above the rails of a hive's own, where the box should."""
        found, top = list[Piece](), self.subject.now["stud_width"]
        for solid in filter(self._is_cut, self.subject.solids.values()):
            finish = cut_finish(solid, self.subject.pen(solid))
            found.append((floated(solid.blocks[0].profile), finish, {"part": solid.label}))
            _, y, (low, high) = solid.extents
            if self.subject.proud and high > top:
                proud = floated(rectangle(y, (max(low, top), high)))
                found.append((proud, SPACE_TAKEN_TWICE, None))
        return found

    def _draw_pieces(self, canvas: Canvas, view: View) -> None:
        for piece in self._beyond:
            view.draw(canvas, *piece)
        view.draw_beside(canvas, self._cut)
        self._telling(view).mark(canvas, view)

    def _telling(self, view: View) -> Telling:
        return Telling(self._through, view, self._draw_pieces)

    @cached_property
    def _through(self) -> Seen:
        return Seen.of(self.subject, ("y", "z"), self._is_cut)

    # Its ends

    def _draw_end(self, canvas: Canvas, end: "End", top: float) -> float:
        above = [line for _, *row in end.above for line in self.subject.lines(*row)]
        top = canvas.paragraph(end.heading, top, bold=True) + LINE * len(above) + 12
        _, _, z = hull(s.extents for s in self.subject.solids.values())
        large = Enlarged.fit(end.side, (end.shown(self.subject), z), top, END_LABELS, END_HIGHEST)
        view = large.view
        name, window = f"{end.below[-1][0]}, enlarged", view.frame.grown(1.5)
        with canvas.view(name, view.scale), canvas.window(window):
            self._draw_pieces(canvas, view)
        seen = [row for row in end.column if view.seen(self._profile(row[0]))]
        column = [self._beside(row, view, large.room) for row in seen]
        rows = [[self._over(row, view) for row in some] for some in (end.above, end.below)]
        return large.draw_labels(canvas, column, (rows[0], rows[1]))

    def _beside(self, row: Named, view: View, room: float) -> Label:
        """A label for a column: its leader ends anywhere in the height of the piece."""
        (left, right), (low, high) = self._seen(row, view)
        inset = min(3.0, (high - low) / 2)
        target = (left + right) / 2, (low + high) / 2
        mark = self.subject.mark(row[1])
        lines = fitted(self.subject.lines(*row[1:]), room, mark)
        return Label(lines, target, low + inset, high - inset, mark)

    def _over(self, row: Named, view: View) -> Label:
        """A label for a row above or below: its leader ends anywhere along the piece."""
        (left, right), (low, high) = self._seen(row, view)
        target = (left + right) / 2, (low + 7 * high) / 8
        _, name, word = row
        if not name:
            return Label(tuple(word.split()), target)
        lines, mark = self.subject.lines(name, word), self.subject.mark(name)
        return Label(lines, target, left + 6, right - 6, mark)

    def _seen(self, row: Named, view: View) -> tuple[tuple[float, float], tuple[float, float]]:
        piece = row[0]
        xs, ys = zip(*view.seen(self._profile(piece)), strict=True)
        return (min(xs), max(xs)), (min(ys), max(ys))

    def _profile(self, piece: str) -> Profile:
        solids = self.subject.solids
        if piece == "entrance":
            _, y, (_, top) = solids["front rail"].extents
            return rectangle(y, (top, self.subject.now["stud_width"]))
        if piece == "slot":
            _, y, (_, top) = solids["panel"].extents
            return rectangle(y, (top, solids["upper front runner"].extents[2][0]))
        return solids[piece].blocks[0].profile


@dataclass(frozen=True)
class End:
    """One end of the section: its heading, and rows of piece, dimension and word to label it."""

    heading: str
    side: Side
    above: tuple[Named, ...]
    column: tuple[Named, ...]
    below: tuple[Named, ...]

    def shown(self, subject: Subject) -> Interval:
        """The part of the hive's length that is shown: the rail, and an inch beyond the strips."""
        rail = subject.solids[self.below[-1][0]].extents[1]
        strips = subject.now["strip_wide"]
        if self.side == "right":
            landing = subject.solids["landing board"].extents[1][0]
            return max(-LANDING_SHOWN, landing), rail[1] + strips + 1
        return rail[0] - strips - 2, rail[1] + Fraction(1, 8)

    def named(self) -> Iterator[tuple[str, str]]:
        """The dimensions that are shown at this end, with the words for them."""
        return ((n, w) for _, n, w in (*self.above, *self.column, *self.below) if n)


# The dimension lines: above the section, and below it from inside outwards.
LINES = (
    ("bottom_board.screen_length", "screen"), ("bottom_board.panel_length", "panel"),
    ("bottom_board.opening_length", "opening"), ("hive_length", "hive"),
)  # fmt: skip
RAIL = ("bottom_board.back_rail_width", "back rail")
MESH = ("mesh", "mesh_thickness", "mesh")
PANEL = ("panel", "bottom_board.panel_thickness", "foam panel")
STOP = ("screen front stop", "bottom_board.screen_front_stop_thickness", "front stop")
FRONT = End(
    "Front end, enlarged", "right",
    (("entrance", "entrance_height", "entrance"),),
    (
        STOP, MESH,
        ("screen end strip, lower front", "bottom_board.screen_end_strip_thickness",
         "screen strip"),
        ("upper front runner", "bottom_board.upper_runner_height", "upper runner"),
        ("slot", "bottom_board.slot_height", "slot"), PANEL,
        ("lower front runner", "bottom_board.lower_runner_height", "lower runner"),
    ),
    (("landing board", "", "landing board"),
     ("front rail", "bottom_board.front_rail_width", "front rail")),
)  # fmt: skip
BACK = End(
    "Back end, enlarged: no runner", "left",
    (),
    (
        ("screen end strip, upper back", "bottom_board.screen_end_strip_thickness", "screen strip"),
        MESH,
        ("screen end strip, lower back", "bottom_board.screen_end_strip_thickness", "screen strip"),
        PANEL,
    ),
    (("back rail", *RAIL),),
)  # fmt: skip


# ── its frame from above ──────────────────────────────────────────────────────────────────────

RAILS = ("side_rail", "front_rail", "back_rail")
PLAN_HIGHEST = 380.0  # of the frame on the sheet
# The dimension lines of each side from the frame outwards: the dimension and the word for it.
PLAN_LINES: dict[Side, tuple[tuple[str, str], ...]] = {
    "top": (("stud_thickness", "stud"), ("bottom_board.opening_length", "opening")),
    "bottom": (("bottom_board.side_rail_length", "side rail"), ("hive_length", "hive")),
    "left": (("bottom_board.front_rail_length", "front rail"), ("hive_width", "hive")),
    "right": (("bottom_board.back_rail_length", "back rail"),),
}


def plan(subject: Subject) -> Picture:
    """SVG picture of the bottom board's frame from above, with its dimension lines.

    Pieces are drawn as they were cut, each at its datum; what a wrong cut then lets overlap or stay
    open is marked, enlarged and named.
    """
    return _Plan(subject.of("bottom_board")).picture()


@dataclass(frozen=True)
class _Plan:
    subject: Subject

    def picture(self) -> Picture:
        canvas = self.subject.canvas()
        heading = canvas.paragraph("From above, front at left", MARGIN, bold=True)
        view, area = self._view()
        above, below = (packed(self._dims(s, view), *area) for s in ("top", "bottom"))
        view = replace(view, top=heading + depth(above))
        seen = Seen.of(self.subject, ("y", "x"), lambda solid: solid.part in RAILS)
        telling = Telling(seen, view, self._draw_rails)
        with canvas.view("plan", view.scale):
            self._draw_rails(canvas, view)
            telling.mark(canvas, view)
            draw_dims(canvas, "top", view.top, above)
            bottom = draw_dims(canvas, "bottom", view.bottom, below)
            columns = self._columns(view, heading)
            draw_dims(canvas, "left", view.left, columns["left"])
            draw_dims(canvas, "right", view.right, columns["right"])
        telling.number(canvas, self._opening(view))
        end = max(bottom, *map(text_end, columns.values()))
        bottom = telling.tell(canvas, end + MARGIN)
        rows = (row for rows in PLAN_LINES.values() for row in rows)
        sentences = (fault.consequence.sentence for fault in seen.faults)
        words = self.subject.words("The frame from above, front at left", rows, *sentences)
        return canvas.picture(
            self.subject.titled("Bottom board from above"), words, bottom, view.scale
        )

    def _view(self) -> tuple[View, tuple[float, float]]:
        """The frame as big as the sheet allows, and the room across for it."""
        x, y, _ = hull(rail.extents for rail in self._rails().values())
        left, right = MARGIN + self._deep("left"), WIDTH - MARGIN - self._deep("right")
        return View.between(left, right, PLAN_HIGHEST, (y, x)), (left, right)

    def _deep(self, side: Side) -> float:
        return room_for(self.subject.dim(*line, 0, 0) for line in PLAN_LINES[side])

    def _rails(self) -> dict[str, Solid]:
        return {n: s for n, s in self.subject.solids.items() if s.part in RAILS}

    def _draw_rails(self, canvas: Canvas, view: View) -> None:
        pieces = list[Piece]()
        for rail in self._rails().values():
            x, y, _ = rail.extents
            hatch = "grain" if rail.part == "side_rail" else "grain_across"
            finish = Finish(self.subject.pen(rail), WOOD, hatch)
            pieces.append((rectangle(y, x), finish, {"part": rail.label}))
        view.draw_beside(canvas, pieces)

    def _opening(self, view: View) -> Box:
        """The opening on the sheet: the room that nothing else is drawn in."""
        now = self.subject.now
        y = self._ends()["bottom_board.opening_length"]
        x = now["stud_thickness"], now["hive_width"] - now["stud_thickness"]
        return Box(view.x(y[0]), view.y(x[0]), view.x(y[1]), view.y(x[1]))

    # Dimension lines

    def _dims(self, side: Side, view: View) -> list[Dim]:
        place = view.x if side in {"top", "bottom"} else view.y
        ends = self._ends()
        return [
            self.subject.dim(name, word, *map(place, ends[name])) for name, word in PLAN_LINES[side]
        ]

    def _columns(self, view: View, heading: float) -> dict[Side, list[Row]]:
        """The upright dimension lines: within the frame's height, if their texts go in there."""
        left, right = self._dims("left", view), self._dims("right", view)
        fits = max(d.text_width for d in (*left, *right)) <= view.bottom - view.top
        between = (view.top, view.bottom) if fits else (heading, float("inf"))
        return {"left": in_rows(left, *between), "right": in_rows(right, *between)}

    def _ends(self) -> dict[str, Interval]:
        now, rails, nothing = self.subject.now, self._rails(), Fraction(0)
        stud, length = now["stud_thickness"], now["hive_length"]
        return {
            "stud_thickness": (nothing, stud),
            "bottom_board.opening_length": (stud, length - stud),
            "bottom_board.side_rail_length": rails["side rail, right"].extents[1],
            "hive_length": (nothing, length),
            "bottom_board.front_rail_length": rails["front rail"].extents[0],
            "hive_width": (nothing, now["hive_width"]),
            "bottom_board.back_rail_length": rails["back rail"].extents[0],
        }


# ── its layers against the rail ───────────────────────────────────────────────────────────────

Spot: TypeAlias = tuple[float, Fraction, Fraction]  # a place across the sheet, and two heights
INTRO = "All that lies in the bottom board, against the height of the side rail"
STACK_HIGHEST = 300.0  # of the stack or the rail, on the sheet
STACK_TOP = MARGIN + 4 * LINE
FOOT = STACK_TOP + STACK_HIGHEST
RAIL_WIDE, FRONT_WIDE, REST_WIDE, BETWEEN = 28.0, 26.0, 38.0, 10.0  # which have no scale
LABELS = 16.0  # between the stack and its labels
# From above downwards: the piece, the dimension that is its height, and the word for it.
STRIP = ("screen side strip, upper left", "bottom_board.screen_side_strip_thickness",
         "screen strip")  # fmt: skip
ABOVE_SLOT = (
    MESH,
    ("screen side strip, lower left", *STRIP[1:]),
    ("upper side runner, left", "bottom_board.upper_runner_height", "upper runner"),
)
IN_SLOT = (PANEL, ("lower side runner, left", "bottom_board.lower_runner_height", "lower runner"))
SLOT = ("bottom_board.slot_height", "slot")
HEADROOM, WAY_IN = ("bottom_board.headroom", "headroom"), ("bottom_board.way_in", "way in")
HEIGHTS = (("bottom_board.front_rail_width", "front rail"), ("stud_width", "side rail"))
SEEN = {
    "side_rail", "front_rail", "screen_front_stop", "screen_side_strip", "mesh", "box_above",
    "upper_side_runner", "panel", "lower_side_runner",
}  # fmt: skip


def stack(subject: Subject) -> Picture:
    """SVG picture of all that lies in the bottom board, layer by layer, against the rail's height.

    What stands proud by a wrong cut, such as an upper runner turned the wrong way, is marked.
    """
    return _Stack(subject.of("bottom_board")).picture()


@dataclass(frozen=True)
class _Stack:
    """The rail, the front of the stack and the rest of it, side by side on one foot."""

    subject: Subject

    def picture(self) -> Picture:
        canvas = self.subject.canvas()
        canvas.paragraph("The stack against the rail", MARGIN, bold=True)
        with canvas.view("stack", self.scale):
            self._draw(canvas)
        bottom = self._draw_labels(canvas) + MARGIN
        # what a wrong cut does to heights: a column shows no more
        faults = Seen.of(self.subject, ("z", "z"), lambda solid: solid.part in SEEN).faults
        for fault in faults:
            bottom = tell(canvas, fault, self.subject.units, (MARGIN, bottom)) + MARGIN
        if self.subject.proud:
            bottom = canvas.paragraph(self.subject.proud, bottom, bold=True) + MARGIN
        named = [row[1:] for row in (STRIP, STOP, *ABOVE_SLOT, *IN_SLOT)]
        texts = [fault.consequence.sentence for fault in faults]
        rows = [*HEIGHTS, SLOT, HEADROOM, WAY_IN, *named]
        words = self.subject.words(INTRO, rows, *texts, self.subject.proud)
        title = self.subject.titled("The stack in the bottom board, against the rail")
        return canvas.picture(title, words, bottom, self.scale)

    def _draw(self, canvas: Canvas) -> None:
        """Draw the rails, the layers, the line that the box stands on, and the rails' heights."""
        side = (self.left, self.left + RAIL_WIDE)
        canvas.polygon(self._bar(side, self._z("side rail, left")), Finish(THIN, PAPER))
        middle = self.front + FRONT_WIDE
        layers = [((self.front, self.right), row) for row in (*IN_SLOT, *ABOVE_SLOT)]
        uppermost = [((self.front, middle), STOP), ((middle, self.right), STRIP)]
        front_rail = (side, ("front rail", *HEIGHTS[0]))
        canvas.shapes(self._piece(x, row) for x, row in (front_rail, *layers, *uppermost))
        canvas.shapes(self._proud(uppermost))
        level = self.y(self.subject.now["stud_width"])
        canvas.line((self.left, level), (self.right + 10, level), HIDDEN)
        dims = [self.subject.dim(n, w, self.y(self.subject.now[n]), FOOT) for n, w in HEIGHTS]
        draw_dims(canvas, "left", self.left, in_rows(dims, STACK_TOP - 2 * LINE, FOOT))

    def _draw_labels(self, canvas: Canvas) -> float:
        x, front = self.front + FRONT_WIDE + REST_WIDE / 2, self.front + FRONT_WIDE / 2
        uppermost = [self._label(STRIP, x), self._label(STOP, front)]
        uppermost.sort(key=lambda label: label.target[1])
        column = [self._headroom(x), *uppermost, *(self._label(row, x) for row in ABOVE_SLOT)]
        # the slot's label points to the ease above the panel
        ease = x, self._z("panel")[1], self._z("upper side runner, left")[0]
        column += [self._named(SLOT, ease), *(self._label(row, x) for row in IN_SLOT)]
        low = STACK_TOP - LINE / 2
        bottom = draw_column(canvas, "right", self.right + LABELS, column, (low, FOOT))
        draw_labels(canvas, "top", STACK_TOP - 14, [self._way_in(front)])
        return bottom

    # Places on the sheet

    @cached_property
    def scale(self) -> float:
        return STACK_HIGHEST / float(max(s.extents[2][1] for s in self.subject.solids.values()))

    @cached_property
    def left(self) -> float:
        return MARGIN + room_for(self.subject.dim(*row, 0, 0) for row in HEIGHTS)

    @property
    def front(self) -> float:
        return self.left + RAIL_WIDE + BETWEEN

    @property
    def right(self) -> float:
        return self.front + FRONT_WIDE + REST_WIDE

    def y(self, z: Fraction) -> float:
        return FOOT - float(z) * self.scale

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
        return self._named(row[1:], (x, *self._z(row[0])))

    def _named(self, row: tuple[str, str], spot: Spot) -> Label:
        return self._at(self.subject.lines(*row), spot, self.subject.mark(row[0]))

    def _at(self, lines: tuple[str, ...], spot: Spot, mark: Mark) -> Label:
        """A label whose leader ends half-way between two heights, wrapped where there is need."""
        (x, low, high), room = spot, WIDTH - MARGIN - self.right - LABELS
        target = x, (self.y(low) + self.y(high)) / 2
        return Label(fitted(lines, room, mark), target, mark=mark)

    def _headroom(self, x: float) -> Label:
        now, rail = self.subject.now[HEADROOM[0]], self.subject.now["stud_width"]
        spot = x, self._z(STRIP[0])[1], rail
        if now < 0:
            proud = "?" if self.subject.asked else self.subject.shown(-now)
            return self._at((f"stands proud {proud}",), spot, "wrong")
        return self._named(HEADROOM, spot)

    def _way_in(self, x: float) -> Label:
        """The way in's label, which points between the rail's top and the higher of two edges."""
        rail = self.subject.now["stud_width"]
        higher = max(self._z("front rail")[1], self._z(STOP[0])[1])
        if higher >= rail:
            return self._at(("no way in",), (x, higher, rail), "wrong")
        target = x, (self.y(higher) + self.y(rail)) / 2
        return Label(self.subject.lines(*WAY_IN), target, mark=self.subject.mark(WAY_IN[0]))
