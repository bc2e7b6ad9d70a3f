"""The frame of the bottom board from above: rails, opening, and what a wrong cut does."""

from dataclasses import dataclass, replace
from fractions import Fraction

from hivecalc.drawing.canvas import MARGIN, WIDTH, WOOD, Canvas, Finish, Picture
from hivecalc.drawing.faults import Seen, Telling
from hivecalc.drawing.labels import Dim, Row, depth, draw_dims, in_rows, packed, room_for, text_end
from hivecalc.drawing.layout import Box, Side
from hivecalc.drawing.subject import Subject
from hivecalc.drawing.view import Piece, View
from hivecalc.space import Solid
from hivecalc.space.solids import Interval, hull, rectangle

RAILS = ("side_rail", "front_rail", "back_rail")
HIGHEST = 380.0  # of the frame on the sheet
TITLE = "Bottom board from above"
HEADING = "From above, front at left"
# The dimension lines of each side from the frame outwards: the dimension and the word for it.
LINES: dict[Side, tuple[tuple[str, str], ...]] = {
    "top": (("stud_thickness", "stud"), ("bottom_board.opening_length", "opening")),
    "bottom": (("bottom_board.side_rail_length", "side rail"), ("hive_length", "hive")),
    "left": (("bottom_board.front_rail_length", "front rail"), ("hive_width", "hive")),
    "right": (("bottom_board.back_rail_length", "back rail"),),
}


def plan(subject: Subject) -> Picture:
    """SVG picture of the bottom board's frame from above, with its dimension lines.

    Pieces are drawn as they were cut, each at its datum; what a wrong cut then lets overlap or stay
    open is marked, enlarged and told.
    """
    return _Plan(subject.of("bottom_board")).picture()


@dataclass(frozen=True)
class _Plan:
    subject: Subject

    def picture(self) -> Picture:
        canvas = self.subject.canvas()
        heading = canvas.paragraph(HEADING, MARGIN, bold=True)
        view, area = self._view()
        above, below = (packed(self._dims(s, view), *area) for s in ("top", "bottom"))
        view = replace(view, top=heading + depth(above))
        seen = Seen.of(self.subject, ("y", "x"), lambda solid: solid.part in RAILS)
        telling = Telling(seen, view, self._draw_rails)
        with canvas.view("plan", view.scale):
            self._draw_rails(canvas, view)
            telling.mark(canvas, view)
            draw_dims(canvas, "top", view.top, above)
            draw_dims(canvas, "bottom", view.bottom, below)
            columns = self._columns(view, heading)
            draw_dims(canvas, "left", view.left, columns["left"])
            draw_dims(canvas, "right", view.right, columns["right"])
        telling.number(canvas, self._opening(view))
        end = max(view.bottom + depth(below), *map(text_end, columns.values()))
        bottom = telling.tell(canvas, end + MARGIN)
        rows = (row for rows in LINES.values() for row in rows)
        told = (fault.consequence.sentence for fault in seen.faults)
        words = self.subject.words("The frame from above, front at left", rows, *told)
        return canvas.picture(self.subject.titled(TITLE), words, bottom, view.scale)

    def _view(self) -> tuple[View, tuple[float, float]]:
        """The frame as big as the sheet allows, and the room across for it."""
        x, y, _ = hull(rail.extents for rail in self._rails().values())
        left, right = MARGIN + self._deep("left"), WIDTH - MARGIN - self._deep("right")
        return View.between(left, right, HIGHEST, (y, x)), (left, right)

    def _deep(self, side: Side) -> float:
        return room_for(self.subject.dim(*line, 0, 0) for line in LINES[side])

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
        return [self.subject.dim(name, word, *map(place, ends[name])) for name, word in LINES[side]]

    def _columns(self, view: View, heading: float) -> dict[Side, list[Row]]:
        """The upright dimension lines: within the frame's height, if their texts go in there."""
        left, right = self._dims("left", view), self._dims("right", view)
        fits = max(d.text_width for d in (*left, *right)) <= view.bottom - view.top
        between = (view.top, view.bottom) if fits else (heading, float("inf"))
        return {"left": in_rows(left, *between), "right": in_rows(right, *between)}

    def _ends(self) -> dict[str, Interval]:
        """Where each dimension line begins and ends, in inches."""
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
