"""The bottom board: cut along its middle, its frame from above, its layers against the rail."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from hivecalc.drawing.canvas import (
    HIDDEN,
    MARGIN,
    PAPER,
    THIN,
    WIDTH,
    WOOD,
    Canvas,
    Finish,
    Shape,
    corners,
)
from hivecalc.drawing.faults import SPACE_TAKEN_TWICE, Seen, tell
from hivecalc.drawing.labels import (
    Dim,
    Label,
    Text,
    depth,
    draw_column,
    draw_dims,
    draw_labels,
    in_rows,
    packed,
    room_for,
    text_end,
)
from hivecalc.drawing.layout import LINE, Box, Point, Side
from hivecalc.drawing.subject import (
    Enlarged,
    Named,
    Piece,
    Sizes,
    Subject,
    View,
    cut_finish,
    floated,
)
from hivecalc.drawing.svg import Picture
from hivecalc.space import Solid
from hivecalc.space.solids import NOTHING, Interval, Profile, hull, rectangle

# ── cut along its middle ──────────────────────────────────────────────────────────────────────

END_LABELS = 152.0  # width of a column of labels beside an enlarged end
END_HIGHEST = 170.0  # of an enlarged end
LANDING_SHOWN = Fraction(3, 2)
BEYOND = Finish(THIN, PAPER)


@dataclass(frozen=True)
class End:
    """One end of the section: its heading, and rows of piece, dimension and word to label it."""

    heading: str
    side: Side
    above: tuple[Named, ...]
    column: tuple[Named, ...]
    below: tuple[Named, ...]


# The dimension lines: above the section, and below it from inside outwards.
LINES: tuple[Named, ...] = (
    ("screen side strip, lower left", "bottom_board.screen_length", "screen"),
    ("panel", "bottom_board.panel_length", "panel"),
    ("", "bottom_board.opening_length", "opening"), ("", "hive_length", "hive"),
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


def section(subject: Subject) -> Picture:
    """SVG picture of the bottom board cut along its middle, whole and with its ends enlarged.

    What a wrong cut lets overlap or stay open is marked, enlarged and named.
    """
    return _Section(subject.of("bottom_board")).picture()


def _along(now: Sizes) -> dict[str, Interval]:
    """From where to where along the hive a length reaches that no piece has."""
    stud, length = now["stud_thickness"], now["hive_length"]
    return {
        "stud_thickness": (NOTHING, stud),
        "bottom_board.opening_length": (stud, length - stud),
        "hive_length": (NOTHING, length),
    }


@dataclass(frozen=True)
class _Section:
    subject: Subject

    def picture(self) -> Picture:
        canvas, proud = Canvas(lit=self.subject.lit), self.subject.proud
        top = canvas.paragraph("Cut along the middle, front at left", MARGIN, bold=True)
        view, bottom = self._draw_whole(canvas, top)
        for end in (FRONT, BACK):
            bottom = self._draw_end(canvas, end, bottom + 14)
        bottom = self._seen.tell(canvas, view, self._draw, bottom + MARGIN)
        if proud:
            bottom = canvas.paragraph(proud, bottom, bold=True) + MARGIN
        title = "Bottom board from the side, cut along its middle"
        ends = (row for end in (FRONT, BACK) for row in (*end.above, *end.column, *end.below))
        named = [(name, word) for _, name, word in (*LINES, *ends) if name]
        intro = "The bottom board cut along its middle, front at left"
        words = self.subject.words(intro, named, *self._seen.sentences, proud)
        return canvas.picture(title, words, bottom, self.subject.name)

    def _draw_whole(self, canvas: Canvas, top: float) -> tuple[View, float]:
        solids = self.subject.solids
        _, y, z = hull(s.extents for s in solids.values())
        rail = self.subject.dim(*RAIL, 0, 0)
        wide = WIDTH - 2 * MARGIN - room_for([rail])
        view = View(MARGIN, 0, wide / float(y[1] - y[0]), y, z)
        along = _along(self.subject.now)
        ends = [along[name] if name in along else solids[p].extents[1] for p, name, _ in LINES]
        first, *others = [
            self.subject.dim(name, word, *map(view.x, end))
            for (_, name, word), end in zip(LINES, ends, strict=True)
        ]
        above, below = (packed(d, MARGIN, MARGIN + wide) for d in ([first], others))
        view = replace(view, top=top + depth(above))
        low, high = solids["back rail"].extents[2]
        column = in_rows([replace(rail, low=view.y(high), high=view.y(low))], top)
        with canvas.view("section", view.scale):
            self._draw(canvas, view)
            draw_dims(canvas, "top", view.top, above)
            bottom = draw_dims(canvas, "bottom", view.bottom, below)
            draw_dims(canvas, "right", view.right, column)
        return view, max(bottom, text_end(column))

    # The pieces

    def _is_cut(self, solid: Solid) -> bool:
        x0, x1 = solid.extents[0]
        return x0 < self.subject.now["hive_width"] / 2 < x1

    @cached_property
    def _seen(self) -> Seen:
        return Seen.of(self.subject, ("y", "z"), self._is_cut)

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

    def _draw(self, canvas: Canvas, view: View) -> None:
        """Draw the pieces that a view shows, with what does not go marked."""
        for piece in self._beyond:
            view.draw(canvas, *piece)
        view.draw_beside(canvas, self._cut)
        self._seen.mark(canvas, view)

    # Its ends

    def _draw_end(self, canvas: Canvas, end: End, top: float) -> float:
        above = sum(self.subject.said(*row[1:]).high for row in end.above)
        top = canvas.paragraph(end.heading, top, bold=True) + above + 12
        rail = end.below[-1][0]
        large = Enlarged.fit(end.side, self._shown(end, rail), top, END_LABELS, END_HIGHEST)
        view = large.view
        with canvas.view(f"{rail}, enlarged", view.scale), canvas.window(view.frame.grown(1.5)):
            self._draw(canvas, view)
        seen = [row for row in end.column if view.seen(self._profile(row[0]))]
        column = [self._beside(row, view, large.room) for row in seen]
        rows = [[self._over(row, view) for row in some] for some in (end.above, end.below)]
        return large.draw_labels(canvas, column, (rows[0], rows[1]))

    def _shown(self, end: End, rail: str) -> tuple[Interval, Interval]:
        """The part of the hive's length that is shown: the rail, and an inch beyond the strips."""
        solids, strips = self.subject.solids, self.subject.now["strip_wide"]
        _, _, z = hull(s.extents for s in solids.values())
        low, high = solids[rail].extents[1]
        if end.side == "left":
            return (low - strips - 2, high + Fraction(1, 8)), z
        landing = solids["landing board"].extents[1][0]
        return (max(-LANDING_SHOWN, landing), high + strips + 1), z

    def _beside(self, row: Named, view: View, room: float) -> Label:
        """A label for a column: its leader ends anywhere in the height of the piece."""
        left, low, right, high = self._place(row, view)
        inset = min(3.0, (high - low) / 2)
        target = (left + right) / 2, (low + high) / 2
        return Label(self.subject.said(*row[1:]).fitted(room), target, low + inset, high - inset)

    def _over(self, row: Named, view: View) -> Label:
        """A label for a row above or below: its leader ends anywhere along the piece."""
        left, low, right, high = self._place(row, view)
        target, (_, name, word) = ((left + right) / 2, (low + 7 * high) / 8), row
        if not name:
            return Label(Text(tuple(word.split())), target)
        return Label(self.subject.said(name, word), target, left + 6, right - 6)

    def _place(self, row: Named, view: View) -> Box:
        """Where on the sheet one sees a piece."""
        return Box.around(view.seen(self._profile(row[0])))

    def _profile(self, piece: str) -> Profile:
        """The outline of a piece, of the entrance or of the slot."""
        solids = self.subject.solids
        if piece == "entrance":
            _, y, (_, top) = solids["front rail"].extents
            return rectangle(y, (top, self.subject.now["stud_width"]))
        if piece == "slot":
            _, y, (_, top) = solids["panel"].extents
            return rectangle(y, (top, solids["upper front runner"].extents[2][0]))
        return solids[piece].blocks[0].profile


# ── its frame from above ──────────────────────────────────────────────────────────────────────

RAILS = {"side_rail": "grain", "front_rail": "grain_across", "back_rail": "grain_across"}
"""The parts of the frame, and their hatching from above."""
PLAN_HIGHEST = 380.0  # of the frame on the sheet
# The dimension lines of each side from the frame outwards: a piece, the dimension and the word.
PLAN_LINES: dict[Side, tuple[Named, ...]] = {
    "top": (("", "stud_thickness", "stud"), ("", "bottom_board.opening_length", "opening")),
    "bottom": (("side rail, right", "bottom_board.side_rail_length", "side rail"),
               ("", "hive_length", "hive")),
    "left": (("front rail", "bottom_board.front_rail_length", "front rail"),
             ("", "hive_width", "hive")),
    "right": (("back rail", "bottom_board.back_rail_length", "back rail"),),
}  # fmt: skip


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
        canvas = Canvas(lit=self.subject.lit)
        heading = canvas.paragraph("From above, front at left", MARGIN, bold=True)
        left, right = (
            room_for(self.subject.dim(*row[1:], 0, 0) for row in PLAN_LINES[side])
            for side in ("left", "right")
        )
        area = MARGIN + left, WIDTH - MARGIN - right
        x, y, _ = hull(rail.extents for rail in self._rails.values())
        view = View.between(*area, PLAN_HIGHEST, (y, x))
        above, below = (packed(self._dims(s, view), *area) for s in ("top", "bottom"))
        view = replace(view, top=heading + depth(above))
        with canvas.view("plan", view.scale):
            self._draw(canvas, view)
            draw_dims(canvas, "top", view.top, above)
            bottom = draw_dims(canvas, "bottom", view.bottom, below)
            end = max(bottom, self._draw_columns(canvas, view, heading))
        self._seen.number(canvas, view, self._opening(view))
        bottom = self._seen.tell(canvas, view, self._draw, end + MARGIN)
        rows = (row[1:] for rows in PLAN_LINES.values() for row in rows)
        intro = "The frame from above, front at left"
        words = self.subject.words(intro, rows, *self._seen.sentences)
        return canvas.picture("Bottom board from above", words, bottom, self.subject.name)

    @cached_property
    def _rails(self) -> Mapping[str, Solid]:
        return {n: s for n, s in self.subject.solids.items() if s.part in RAILS}

    @cached_property
    def _seen(self) -> Seen:
        return Seen.of(self.subject, ("y", "x"), lambda solid: solid.part in RAILS)

    def _draw(self, canvas: Canvas, view: View) -> None:
        """Draw the rails, with what does not go marked."""
        pieces = list[Piece]()
        for rail in self._rails.values():
            finish = Finish(self.subject.pen(rail), WOOD, RAILS[rail.part])
            pieces.append((rectangle(*rail.extents[1::-1]), finish, {"part": rail.label}))
        view.draw_beside(canvas, pieces)
        self._seen.mark(canvas, view)

    def _opening(self, view: View) -> Box:
        """The opening on the sheet: the room that nothing else is drawn in."""
        now = self.subject.now
        left, right = map(view.x, _along(now)["bottom_board.opening_length"])
        x = now["stud_thickness"], now["hive_width"] - now["stud_thickness"]
        return Box(left, view.y(x[0]), right, view.y(x[1]))

    def _dims(self, side: Side, view: View) -> list[Dim]:
        upright, now = side in {"left", "right"}, self.subject.now
        ends = {**_along(now), "hive_width": (NOTHING, now["hive_width"])}
        found = []
        for piece, name, word in PLAN_LINES[side]:
            low, high = self._rails[piece].extents[0 if upright else 1] if piece else ends[name]
            place = view.y if upright else view.x
            found.append(self.subject.dim(name, word, place(low), place(high)))
        return found

    def _draw_columns(self, canvas: Canvas, view: View, heading: float) -> float:
        """Draw the upright dimension lines: within the frame's height, if their texts go there."""
        left, right = self._dims("left", view), self._dims("right", view)
        fits = max(dim.text.width for dim in (*left, *right)) <= view.bottom - view.top
        between = (view.top, view.bottom) if fits else (heading, float("inf"))
        columns = in_rows(left, *between), in_rows(right, *between)
        draw_dims(canvas, "left", view.left, columns[0])
        draw_dims(canvas, "right", view.right, columns[1])
        return max(map(text_end, columns))


# ── its layers against the rail ───────────────────────────────────────────────────────────────

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
        canvas, proud = Canvas(lit=self.subject.lit), self.subject.proud
        canvas.paragraph("The stack against the rail", MARGIN, bold=True)
        with canvas.view("stack", self.view.scale):
            self._draw(canvas)
        bottom = self._draw_labels(canvas) + MARGIN
        # what a wrong cut does to heights: a column shows no more
        seen = Seen.of(self.subject, ("z", "z"), lambda solid: solid.part in SEEN)
        for fault in seen.faults:
            bottom = tell(canvas, fault, self.subject.units, (MARGIN, bottom)) + MARGIN
        if proud:
            bottom = canvas.paragraph(proud, bottom, bold=True) + MARGIN
        named = (row[1:] for row in (STRIP, STOP, *ABOVE_SLOT, *IN_SLOT))
        intro = "All that lies in the bottom board, against the height of the side rail"
        rows = [*HEIGHTS, SLOT, HEADROOM, WAY_IN, *named]
        words = self.subject.words(intro, rows, *seen.sentences, proud)
        title = "The stack in the bottom board, against the rail"
        return canvas.picture(title, words, bottom, self.subject.name)

    def _draw(self, canvas: Canvas) -> None:
        """Draw the rails, the layers, the line that the box stands on, and the rails' heights."""
        left, y, rail = self.view.left, self.view.y, self.subject.now["stud_width"]
        side, middle = (left, left + RAIL_WIDE), self.front + FRONT_WIDE
        canvas.polygon(self._bar(side, self._z("side rail, left")), Finish(THIN, PAPER))
        uppermost = [((self.front, middle), STOP), ((middle, self.right), STRIP)]
        rows = [((self.front, self.right), row) for row in (*IN_SLOT, *ABOVE_SLOT)]
        rows = [(side, ("front rail", *HEIGHTS[0])), *rows, *uppermost]
        shapes = list[Shape]()
        for x, (piece, name, _) in rows:
            solid = self.subject.solids[piece]
            data = {"part": piece, "name": name, "exact": self.subject.now[name]}
            finish = cut_finish(solid, self.subject.pen(solid))
            shapes.append((self._bar(x, self._z(piece)), finish, data))
        canvas.shapes(shapes)
        tops = ((x, self._z(row[0])) for x, row in uppermost)  # where the box should stand
        canvas.shapes((self._bar(x, (max(low, rail), high)), SPACE_TAKEN_TWICE, None)
                      for x, (low, high) in tops if high > rail)  # fmt: skip
        canvas.line((left, y(rail)), (self.right + 10, y(rail)), HIDDEN)
        dims = [self.subject.dim(n, w, y(self.subject.now[n]), FOOT) for n, w in HEIGHTS]
        draw_dims(canvas, "left", left, in_rows(dims, STACK_TOP - 2 * LINE, FOOT))

    def _draw_labels(self, canvas: Canvas) -> float:
        x, front = self.front + FRONT_WIDE + REST_WIDE / 2, self.front + FRONT_WIDE / 2
        rail, headroom = self.subject.now["stud_width"], self.subject.now[HEADROOM[0]]
        said = self.subject.said(*HEADROOM)
        if headroom < 0:
            proud = "?" if self.subject.asked else self.subject.shown(-headroom)
            said = Text((f"stands proud {proud}",), "wrong")
        column = [self._at(said, x, (self._z(STRIP[0])[1], rail))]
        uppermost = [self._label(STRIP, x), self._label(STOP, front)]
        column += sorted(uppermost, key=lambda label: label.target[1])
        column += [self._label(row, x) for row in ABOVE_SLOT]
        # the slot's label points to the ease above the panel
        ease = self._z("panel")[1], self._z("upper side runner, left")[0]
        column += [self._at(self.subject.said(*SLOT), x, ease)]
        column += [self._label(row, x) for row in IN_SLOT]
        low = STACK_TOP - LINE / 2
        bottom = draw_column(canvas, "right", self.right + LABELS, column, (low, FOOT))
        # that of the way in points between the rail's top and the higher of two edges
        higher = max(self._z(piece)[1] for piece in ("front rail", STOP[0]))
        way = self.subject.said(*WAY_IN) if higher < rail else Text(("no way in",), "wrong")
        target = front, (self.view.y(higher) + self.view.y(rail)) / 2
        draw_labels(canvas, "top", STACK_TOP - 14, [Label(way, target)])
        return bottom

    # Places and shapes

    @cached_property
    def view(self) -> View:
        """How heights come to the sheet."""
        highest = max(s.extents[2][1] for s in self.subject.solids.values())
        left = MARGIN + room_for(self.subject.dim(*row, 0, 0) for row in HEIGHTS)
        scale = STACK_HIGHEST / float(highest)
        return View(left, STACK_TOP, scale, (NOTHING, NOTHING), (NOTHING, highest))

    @property
    def front(self) -> float:
        """Where across the sheet the stack begins."""
        return self.view.left + RAIL_WIDE + BETWEEN

    @property
    def right(self) -> float:
        """Where across the sheet the stack ends."""
        return self.front + FRONT_WIDE + REST_WIDE

    def _z(self, piece: str) -> Interval:
        return self.subject.solids[piece].extents[2]

    def _bar(self, x: Point, z: Interval) -> list[Point]:
        return corners(x[0], self.view.y(z[1]), x[1], self.view.y(z[0]))

    # Labels

    def _label(self, row: Named, x: float) -> Label:
        return self._at(self.subject.said(*row[1:]), x, self._z(row[0]))

    def _at(self, text: Text, x: float, heights: Interval) -> Label:
        """A label whose leader ends half-way between two heights, wrapped where there is need."""
        room, (low, high) = WIDTH - MARGIN - self.right - LABELS, map(self.view.y, heights)
        return Label(text.fitted(room), (x, (low + high) / 2))
