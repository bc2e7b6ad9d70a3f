"""The bottom board cut along its middle, seen from the side: whole, and its two ends enlarged."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from hivecalc.drawing.canvas import MARGIN, PAPER, THIN, WIDTH, Canvas, Finish, Picture
from hivecalc.drawing.faults import SPACE_TAKEN_TWICE, Seen, Telling
from hivecalc.drawing.labels import (
    Dim,
    Label,
    column_height,
    depth,
    draw_dims,
    draw_labels,
    fitted,
    in_rows,
    packed,
    room_for,
    text_end,
)
from hivecalc.drawing.layout import LINE, Side
from hivecalc.drawing.subject import Named, Subject
from hivecalc.drawing.view import Enlarged, Piece, View, cut_finish, floated
from hivecalc.space import Solid
from hivecalc.space.solids import Interval, Profile, hull, rectangle

TITLE = "Bottom board from the side, cut along its middle"
HEADING = "Cut along the middle, front at left"
LABELS = 152.0  # width of a column of labels beside an enlarged end
HIGHEST = 170.0  # of an enlarged end
LANDING_SHOWN = Fraction(3, 2)
BEYOND = Finish(THIN, PAPER)


def section(subject: Subject) -> Picture:
    """SVG picture of the bottom board cut along its middle, whole and with its ends enlarged.

    What a wrong cut lets overlap or stay open is marked, enlarged and told.
    """
    return _Section(subject.of("bottom_board")).picture()


@dataclass(frozen=True)
class _Section:
    subject: Subject

    def picture(self) -> Picture:
        canvas = self.subject.canvas()
        top = canvas.paragraph(HEADING, MARGIN, bold=True)
        view, bottom = self._draw_whole(canvas, top)
        for end in (FRONT, BACK):
            bottom = self._draw_end(canvas, end, bottom + 14)
        bottom = self._telling(view).tell(canvas, bottom + MARGIN)
        if self.subject.proud:
            bottom = canvas.paragraph(self.subject.proud, bottom, bold=True) + MARGIN
        return canvas.picture(self.subject.titled(TITLE), self._words(), bottom, view.scale)

    def _words(self) -> str:
        rows = [*LINES, *((n, w) for end in (FRONT, BACK) for n, w in end.named())]
        told = [fault.consequence.sentence for fault in self._through.faults]
        intro = "The bottom board cut along its middle, front at left"
        return self.subject.words(intro, rows, *told, self.subject.proud)

    # The whole

    def _draw_whole(self, canvas: Canvas, top: float) -> tuple[View, float]:
        """Draw the whole section and its dimension lines; where they end comes back too."""
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
            draw_dims(canvas, "bottom", view.bottom, below_rows)
            draw_dims(canvas, "right", view.right, column)
        return view, max(view.bottom + depth(below_rows), text_end(column))

    def _dim(self, name: str, word: str, view: View) -> Dim:
        """A dimension line along the hive: of a piece, of the opening or of the whole hive."""
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
        """Draw one end enlarged, labelled all round; where that ends on the sheet comes back."""
        above = [line for _, *row in end.above for line in self.subject.lines(*row)]
        top = canvas.paragraph(end.heading, top, bold=True) + LINE * len(above) + 12
        _, _, z = hull(s.extents for s in self.subject.solids.values())
        large = Enlarged.fit(end.side, (end.shown(self.subject), z), top, LABELS, HIGHEST)
        view = large.view
        name, window = f"{end.below[-1][0]}, enlarged", view.frame.grown(1.5)
        with canvas.view(name, view.scale), canvas.window(window):
            self._draw_pieces(canvas, view)
        seen = [row for row in end.column if view.seen(self._profile(row[0]))]
        column = [self._beside(row, view, large.room) for row in seen]
        foot = max(view.bottom, top + column_height(column))
        draw_labels(canvas, end.side, large.level, column, (top, foot))
        draw_labels(canvas, "top", top - 10, [self._over(row, view) for row in end.above])
        below = [self._over(row, view) for row in end.below]
        draw_labels(canvas, "bottom", foot + 10, below)
        return foot + 10 + max(label.height for label in below)

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
        """From where to where on the sheet a piece or a space is seen in this view."""
        piece = row[0]
        xs, ys = zip(*view.seen(self._profile(piece)), strict=True)
        return (min(xs), max(xs)), (min(ys), max(ys))

    def _profile(self, piece: str) -> Profile:
        """The outline of a piece, or of the space of that name, in the section."""
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
    ("bottom_board.screen_length", "screen"),
    ("bottom_board.panel_length", "panel"),
    ("bottom_board.opening_length", "opening"),
    ("hive_length", "hive"),
)
RAIL = ("bottom_board.back_rail_width", "back rail")
FRONT = End(
    "Front end, enlarged",
    "right",
    (("entrance", "entrance_height", "entrance"),),
    (
        ("screen front stop", "bottom_board.screen_front_stop_thickness", "front stop"),
        ("mesh", "mesh_thickness", "mesh"),
        (
            "screen end strip, lower front",
            "bottom_board.screen_end_strip_thickness",
            "screen strip",
        ),
        ("upper front runner", "bottom_board.upper_runner_height", "upper runner"),
        ("slot", "bottom_board.slot_height", "slot"),
        ("panel", "bottom_board.panel_thickness", "foam panel"),
        ("lower front runner", "bottom_board.lower_runner_height", "lower runner"),
    ),
    (
        ("landing board", "", "landing board"),
        ("front rail", "bottom_board.front_rail_width", "front rail"),
    ),
)
BACK = End(
    "Back end, enlarged: no runner",
    "left",
    (),
    (
        ("screen end strip, upper back", "bottom_board.screen_end_strip_thickness", "screen strip"),
        ("mesh", "mesh_thickness", "mesh"),
        ("screen end strip, lower back", "bottom_board.screen_end_strip_thickness", "screen strip"),
        ("panel", "bottom_board.panel_thickness", "foam panel"),
    ),
    (("back rail", "bottom_board.back_rail_width", "back rail"),),
)
