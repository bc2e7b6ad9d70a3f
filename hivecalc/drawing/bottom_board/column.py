"""What lies one above the other in the bottom board, enlarged, against the height of the rail."""

from collections.abc import Collection
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import TypeAlias

from hivecalc.drawing.bottom_board.state import MATERIAL, Named, Sizes, State, titled
from hivecalc.drawing.dimensions import depth, draw_dims, packed
from hivecalc.drawing.faults import SPACE_TAKEN_TWICE, Fault, tell
from hivecalc.drawing.labels import Label, Mark, column_height, draw_labels, fitted
from hivecalc.drawing.layout import LINE, Point
from hivecalc.drawing.svg import HIDDEN, MARGIN, PAPER, THIN, WIDTH, Data, Sheet, figure
from hivecalc.drawing.view import Look, cut_look
from hivecalc.length import Units
from hivecalc.space.outlines import Interval

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


def stack(values: Sizes, cut: Sizes | None = None, *, units: Units = "inch", name: str = "") -> str:
    """SVG picture of all that lies in the bottom board, layer by layer, against the rail's height.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> "headroom 0.091 in" in stack(values(demo_hive()))
    True

    With `cut`, the same sizes with a wrong one among them, such as an upper runner that is turned
    the wrong way, what then stands proud is marked and told.

    >>> wrong = values(demo_hive(), {"bottom_board.upper_runner_height": Fraction(3, 4)})
    >>> "5/32 in into the box above" in stack(values(demo_hive()), wrong)
    True

    Values as components.values gives them, in inches; figures are shown in `units`. Raises
    NoPieceError where a piece would have no size left.
    """
    return _Stack(State(cut or values, values, units, wrong=cut is not None)).picture(name)


def changed_stack(before: Sizes, now: Sizes, *, units: Units = "inch", name: str = "") -> str:
    """SVG picture of the stack against the rail, with the sizes from before a change.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import changed, demo_hive
    >>> metric = values(changed(demo_hive(), {"foam_thickness": "25 mm"}))
    >>> "was 1 in" in changed_stack(values(demo_hive()), metric)
    True

    Values as components.values gives them, in inches; figures are shown in `units`.
    """
    return _Stack(State(now, before, units)).picture(name)


def stack_to_work_out(
    values: Sizes,
    cut: Sizes | None = None,
    *,
    units: Units = "inch",
    name: str = "",
    found: Collection[str] = (),
) -> str:
    """SVG picture of the stack, with "?" for every size that has to be worked out.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> "?" in stack_to_work_out(values(demo_hive()))
    True

    With `cut`, the same sizes with a piece among them as somebody answered it, the piece is built
    in as it is, and what then overlaps or stays open is marked without its amount.

    Values as components.values gives them, in inches; what was measured is shown in `units`,
    and so is what was found.
    """
    return _Stack(
        State(cut or values, values, units, cut is not None, asked=True, found=found)
    ).picture(name)


@dataclass(frozen=True)
class _Stack:
    state: State

    def picture(self, name: str) -> str:
        sheet = Sheet()
        top = sheet.paragraph(HEADING, MARGIN, bold=True) + 3 * LINE
        column = _Column(self.state, top)
        with sheet.view("stack", column.scale):
            column.draw(sheet)
        bottom = column.draw_labels(sheet) + MARGIN
        faults = self._faults()
        for fault in faults:
            bottom = tell(sheet, fault, self.state.units, (MARGIN, bottom)) + MARGIN
        if self.state.proud:
            bottom = sheet.paragraph(self.state.proud, bottom, bold=True) + MARGIN
        rows = [row[1:] for row in (STRIP, STOP, *ABOVE_SLOT, *IN_SLOT)]
        told = [fault.consequence.sentence for fault in faults]
        words = self.state.words(INTRO, [*HEIGHTS, SLOT, HEADROOM, WAY_IN, *rows], *told)
        text = f"{words} {self.state.proud}".strip()
        return sheet.picture(titled(TITLE, name), text, bottom, column.scale)

    def _faults(self) -> list[Fault]:
        """What a wrong cut does to heights: a column shows no more."""
        shown = self.state.shown(("z", "z"), lambda solid: solid.part in SEEN)
        return shown.faults


@dataclass(frozen=True)
class _Column:
    """The rail, the front of the stack and the rest of it, side by side on one foot."""

    state: State
    top: float

    def draw(self, sheet: Sheet) -> None:
        """Draw the rails, the layers, the line that the box stands on, and the rails' heights."""
        side = (self.left, self.left + RAIL)
        self._bar(sheet, side, self._z("side rail, left"), Look(THIN, PAPER))
        self._piece(sheet, side, ("front rail", *HEIGHTS[0]))
        for row in (*IN_SLOT[::-1], *ABOVE_SLOT[::-1]):
            self._piece(sheet, (self.front, self.right), row)
        for x, row in ((self._front_x, STOP), (self._rest_x, STRIP)):
            self._piece(sheet, x, row)
            self._draw_proud(sheet, x, row)
        level = self.y(self.state.now["stud_width"])
        sheet.line((self.left, level), (self.right + 10, level), HIDDEN)
        dims = [self.state.dim(n, w, self.y(self.state.now[n]), self.foot) for n, w in HEIGHTS]
        rows = [row for d in dims for row in packed([d], self.top - 2 * LINE, self.foot)]
        draw_dims(sheet, "left", self.left, rows)

    def draw_labels(self, sheet: Sheet) -> float:
        """Write the labels beside and above the column; where they end comes back."""
        x, level = self.front + FRONT + REST / 2, self.right + LABELS
        uppermost = [self._label(STRIP, x), self._label(STOP, self.front + FRONT / 2)]
        uppermost.sort(key=lambda label: label.target[1])
        column = [self._headroom(x), *uppermost, *(self._label(row, x) for row in ABOVE_SLOT)]
        column += [self._slot(x), *(self._label(row, x) for row in IN_SLOT)]
        low = self.top - LINE / 2
        bottom = max(self.foot, low + column_height(column))
        draw_labels(sheet, "right", level, column, (low, bottom))
        draw_labels(sheet, "top", self.top - 14, [self._way_in()], (MARGIN, WIDTH - MARGIN))
        return bottom

    # Places on the sheet

    @cached_property
    def scale(self) -> float:
        """How big an inch of height is on the sheet."""
        tops = (s.extents[2][1] for s in self.state.solids.values())
        return HIGHEST / float(max(tops))

    @property
    def foot(self) -> float:
        """Where the bottom of the frame is."""
        return self.top + HIGHEST

    @cached_property
    def left(self) -> float:
        """Where the rail begins, beside its dimension lines."""
        return MARGIN + depth([[(self.state.dim(*row, 0, 0), 0.0)] for row in HEIGHTS])

    @property
    def front(self) -> float:
        """Where the front of the stack begins."""
        return self.left + RAIL + BETWEEN

    @property
    def right(self) -> float:
        """Where the stack ends."""
        return self.front + FRONT + REST

    @property
    def _front_x(self) -> Point:
        return self.front, self.front + FRONT

    @property
    def _rest_x(self) -> Point:
        return self.front + FRONT, self.right

    def y(self, z: Fraction) -> float:
        """Where this height stands."""
        return self.foot - float(z) * self.scale

    def _z(self, piece: str) -> Interval:
        return self.state.solids[piece].extents[2]

    # Shapes

    def _piece(self, sheet: Sheet, x: Point, row: Named) -> None:
        piece, name, _ = row
        solid = self.state.solids[piece]
        look = cut_look(MATERIAL[solid.part], self.state.pen(solid))
        data = {"part": piece, "name": name, "exact": self.state.now[name]}
        self._bar(sheet, x, self._z(piece), look, data)

    def _bar(
        self, sheet: Sheet, x: Point, z: Interval, look: Look, data: Data | None = None
    ) -> None:
        (left, right), (bottom, top) = x, map(self.y, z)
        corners = [(left, bottom), (right, bottom), (right, top), (left, top)]
        sheet.polygon(corners, look.pen, look.fill, look.hatch, data)

    def _draw_proud(self, sheet: Sheet, x: Point, row: Named) -> None:
        """Mark what stands above the rail, where the box should stand."""
        rail, (low, high) = self.state.now["stud_width"], self._z(row[0])
        if high > rail:
            self._bar(sheet, x, (max(low, rail), high), SPACE_TAKEN_TWICE)

    # Labels

    def _label(self, row: Named, x: float) -> Label:
        piece, name, word = row
        low, high = self._z(piece)
        return self._at(self.state.lines(name, word), (x, low, high), self.state.mark(name))

    def _at(self, lines: tuple[str, ...], spot: Spot, mark: Mark) -> Label:
        """A label whose leader ends half-way between two heights, wrapped where there is need."""
        (x, low, high), room = spot, WIDTH - MARGIN - self.right - LABELS
        target = x, (self.y(low) + self.y(high)) / 2
        return Label(fitted(lines, room, mark), target, mark=mark)

    def _slot(self, x: float) -> Label:
        """The slot's label, which points to the ease above the panel."""
        under, above = self._z("panel")[1], self._z("upper side runner, left")[0]
        return self._at(self.state.lines(*SLOT), (x, under, above), self.state.mark(SLOT[0]))

    def _headroom(self, x: float) -> Label:
        now, rail = self.state.now[HEADROOM[0]], self.state.now["stud_width"]
        spot = x, self._z(STRIP[0])[1], rail
        if now < 0:
            proud = "?" if self.state.asked else figure(-now, self.state.units)
            return self._at((f"stands proud {proud}",), spot, "wrong")
        return self._at(self.state.lines(*HEADROOM), spot, self.state.mark(HEADROOM[0]))

    def _way_in(self) -> Label:
        """The way in's label, which points between the rail's top and the higher of two edges."""
        rail = self.state.now["stud_width"]
        higher = max(self._z("front rail")[1], self._z(STOP[0])[1])
        spot = self.front + FRONT / 2, higher, rail
        if higher >= rail:
            return self._at(("no way in",), spot, "wrong")
        target = spot[0], (self.y(higher) + self.y(rail)) / 2
        return Label(self.state.lines(*WAY_IN), target, mark=self.state.mark(WAY_IN[0]))
