"""The roof cut along its middle, seen from the side: whole, and its two ends enlarged."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import ceil, hypot

from hivecalc.drawing.canvas import MARGIN, PAPER, PENCIL, WIDTH, Canvas, Finish, Pen, Shape
from hivecalc.drawing.faults import APART
from hivecalc.drawing.labels import (
    Dim,
    Label,
    Measure,
    Row,
    Text,
    draw_dims,
    draw_labels,
    draw_measures,
    in_rows,
    packed,
    room_for,
    text_end,
)
from hivecalc.drawing.layout import Box, Point, Side
from hivecalc.drawing.prisms import between
from hivecalc.drawing.roof import HEIGHT, LINES, CutRoof, ScrewLine, Where
from hivecalc.drawing.subject import Enlarged, Named, Subject, View, floated
from hivecalc.drawing.svg import Picture
from hivecalc.space.solids import hull, shared_interval, span

HIGHEST = 150.0  # of the whole roof on the sheet
BELOW_SKIRT = 6.0  # between the skirt and the numbers of faults
ROW, COLUMN = 104.0, 104.0  # most width of a label above the roof, and of one beside it
SHARES = 0.2, 0.5, 0.85  # of the cover's length: where the labels above the roof point to
ABOVE = (("cover", "roof.cover_length", "cover"), ("deck", "roof.deck_length", "deck"))
BELOW = (
    ("roof panel", "roof.roof_panel_length", "foam"),
    ("rim side, left", "roof.rim_side_length", "rim side"),
    ("box below", "hive_length", "hive"),
)
SKIRT = ("skirt side, left", "roof.skirt_side_length", "skirt side")  # only where it is cut wrong
HEIGHTS: dict[Side, Named] = {
    "left": ("rim front", "roof.rim_front_width", "rim front"),
    "right": ("rim back", "roof.rim_back_width", "rim back"),
}
SIDE_HEIGHT = ("rim side, left", "roof.rim_side_width", "rim side")  # only where it is cut wrong
AIR = Fraction(1, 32)  # inches around the roof, so that nothing of it is cut off


def roof_section(subject: Subject) -> Picture:
    """SVG picture of the roof cut along its middle, whole and with its ends enlarged.

    What a wrong cut lets overlap or stay open is marked, enlarged and named, and so is a screw that
    does not land in a rail.
    """
    subject = subject.of("roof")
    return _Section(subject, CutRoof(subject)).picture()


@dataclass(frozen=True)
class _Section:
    subject: Subject
    roof: CutRoof

    def picture(self) -> Picture:
        canvas, roof = Canvas(lit=self.subject.lit), self.roof
        top = canvas.paragraph("Cut along the middle, front at left", MARGIN, bold=True)
        view, bottom = self._draw_whole(canvas, top)
        bottom = canvas.paragraph(roof.slope, bottom + MARGIN)
        for end in (FRONT, BACK):
            heading = f"{end.where.capitalize()} end, enlarged"
            bottom = canvas.paragraph(heading, bottom + 14, bold=True)
            bottom = _DrawnEnd(end, roof, bottom).draw(canvas)
        bottom = roof.seen.tell(canvas, view, roof.draw, bottom + MARGIN)
        for warning in roof.warnings:
            bottom = canvas.paragraph(warning, bottom, bold=True) + MARGIN
        rows = [*ABOVE, *self._below, *self._heights.values(), *FRONT.column, *BACK.column]
        named = [row[1:] for row in rows if row[1]]
        named += [line[::2] for end in LINES.values() for line in end]
        spaces = "; ".join(", ".join(text.lines) for text in roof.measured.values())
        more = (f"{spaces}.".capitalize(), roof.slope, *roof.seen.sentences, *roof.warnings)
        intro = "The roof cut along its middle, front at left"
        words = self.subject.words(intro, named, *more)
        title = "Roof from the side, cut along its middle"
        return canvas.picture(title, words, bottom, self.subject.name)

    def _draw_whole(self, canvas: Canvas, top: float) -> tuple[View, float]:
        left, right = (room_for([self._upright(side)]) for side in HEIGHTS)
        above = [self.subject.said(name, word).fitted(ROW) for _, name, word in ABOVE]
        row = max(text.high for text in above)
        view = self._view(MARGIN + left, WIDTH - MARGIN - right - RAIN, top + row + 30)
        with canvas.view("section", view.scale):
            with canvas.window(view.frame):
                self.roof.draw(canvas, view)
            end = self._draw_heights(canvas, view)
            bottom = draw_dims(canvas, "bottom", *self._lengths(view, end))
        draw_rain(canvas, *view.points(self.roof.top))
        draw_labels(canvas, "top", view.top - 24, list(self._row(view, above)))
        high = self._number_rows(view.right - view.left) * APART
        room = Box(view.left, view.bottom - high, view.right, view.bottom + 4)
        self.roof.seen.number(canvas, view, room)
        return view, max(bottom, end)

    def _view(self, left: float, right: float, top: float) -> View:
        """The roof as big as the sheet allows, with some of the box below it."""
        _, (front, back), (low, high) = hull(s.extents for s in self.subject.solids.values())
        low = min(low, self.roof.box_top)
        window = (front - AIR, back + AIR), (low, high)
        view = View.between(left, right, HIGHEST, window)
        numbers = self._number_rows(view.right - view.left) * APART
        room = Fraction((numbers + BELOW_SKIRT) / view.scale) if numbers else HIVE_SHOWN
        return replace(view, top=top, v=(low - room, high + AIR), down=False)

    def _number_rows(self, wide: float) -> int:
        """How many rows of numbers go below the roof, each with as much room as it may need."""
        numbers = sum(len(fault.regions) for fault in self.roof.seen.faults)
        return ceil(2 * APART * numbers / wide)

    # Dimension lines

    @cached_property
    def _below(self) -> list[Named]:
        """The lengths below the roof, and the skirt's if it was cut wrong."""
        return [*([SKIRT] if self.subject.changed(SKIRT[1]) else []), *BELOW]

    @cached_property
    def _heights(self) -> dict[Side, Named]:
        """The heights beside the roof: in front the rim front's, or a side's that was cut wrong."""
        side, front = (self.subject.changed(name) for _, name, _ in (SIDE_HEIGHT, HEIGHTS["left"]))
        return {**HEIGHTS, "left": SIDE_HEIGHT} if side and not front else HEIGHTS

    def _upright(self, side: Side) -> Dim:
        dim = self.subject.dim(*self._heights[side][1:], 0, 0)
        return replace(dim, text=dim.text.fitted(COLUMN))

    def _draw_heights(self, canvas: Canvas, view: View) -> float:
        columns = dict[Side, list[Row]]()
        for side, (piece, _, _) in self._heights.items():
            low, high = self.subject.solids[piece].extents[HEIGHT]
            dim = replace(self._upright(side), low=view.y(high), high=view.y(low))
            columns[side] = in_rows([dim], view.top - 16)
        draw_dims(canvas, "left", view.left, columns["left"])
        draw_dims(canvas, "right", view.right + RAIN, columns["right"])
        _, (_, edge) = view.points(self.roof.top)
        return max(*map(text_end, columns.values()), edge + FALL)

    def _lengths(self, view: View, end: float) -> tuple[float, list[Row]]:
        """The dimension lines below the roof, and where they begin.

        Texts that are wider than the roof begin where the texts beside it end.
        """
        dims = [
            self.subject.dim(name, word, *map(view.x, self.roof.there[piece].extents[1]))
            for piece, name, word in self._below
        ]
        if max(dim.text.width for dim in dims) <= view.right - view.left:
            return view.bottom, packed(dims, view.left, view.right)
        return max(view.bottom, end), packed(dims)

    def _row(self, view: View, above: list[Text]) -> Iterator[Label]:
        """Labels that point to the middle of cover and deck, and to the rain."""
        for text, (piece, *_), share in zip(above, ABOVE, SHARES, strict=False):
            front_low, back_low, back, front = floated(self.roof.profile(piece))
            ends = between(front_low, front, 0.5), between(back_low, back, 0.5)
            y, z = between(*ends, share)
            yield Label(text, (view.x(y), view.y(z)))
        front, back = view.points(self.roof.top)
        x, y = between(front, back, SHARES[-1])
        yield Label(Text(("rain",)), (x, y - RAIN / 2))


# ── its ends ──────────────────────────────────────────────────────────────────────────────────

LABELS = 134.0  # width of a column of labels beside an enlarged end
HIGHEST_END = 170.0  # of an enlarged end
HALF_ROW = 160.0  # width of one of two labels in a row
UNDER = 114.0  # width of the label below an overhang, if it can be
RAISED = (22.0, 10.0)  # how far above the cover the two screw lines are measured
BEHIND = Fraction(5, 4)  # inches: how far behind its rail an end is shown
AROUND = Fraction(1, 8)  # inches beyond the cover's edge
HIVE_SHOWN = Fraction(1, 2)  # inches of the box below the skirt
INSET = Fraction(3, 8)  # inches from where a piece ends in the view to its leader


@dataclass(frozen=True)
class _End:
    """One end of the section: the side of its labels, and the pieces to label."""

    where: Where
    side: Side
    column: tuple[Named, ...]


FRONT = _End(
    "front", "right",
    (
        ("cover", "roof.cover_thickness", "cover"),
        ("deck", "roof.deck_thickness", "deck"),
        ("roof panel", "roof.roof_panel_thickness", "foam"),
        ("rim front", "roof.rim_front_thickness", "rim front"),
        ("inner cover below", "inner_cover.overall_height", "inner cover"),
        ("box below", "", "box"),
    ),
)  # fmt: skip
BACK = _End(
    "back", "left",
    (
        ("roof panel", "roof.roof_panel_thickness", "foam"),
        ("roof retainer, left", "roof.roof_retainer_thickness", "retainer"),
        ("rim back", "roof.rim_back_thickness", "rim back"),
        ("skirt end, back", "roof.skirt_end_thickness", "skirt"),
    ),
)  # fmt: skip


@dataclass(frozen=True)
class _DrawnEnd:
    """One end of a roof, enlarged below a place on the sheet, and labelled all round."""

    end: _End
    roof: CutRoof
    top: float

    @property
    def skirt(self) -> str:
        return f"skirt end, {self.end.where}"

    @cached_property
    def large(self) -> Enlarged:
        """From the cover's edge to behind the rail, and from the cover to the box."""
        pieces, roof = self.roof.subject.solids, self.roof
        cover, rail = pieces["cover"].extents[1], pieces[f"rim {self.end.where}"].extents[1]
        lowest = min(roof.box_top, pieces[self.skirt].extents[HEIGHT][0]) - HIVE_SHOWN
        if self.end.where == "front":
            shown = cover[0] - AROUND, rail[1] + BEHIND
            highest = pieces["cover"].extents[HEIGHT][1] + AROUND
        else:
            shown = rail[0] - BEHIND, cover[1] + AROUND
            highest = span(roof.profile("cover"), HEIGHT - 1, max(shown[0], cover[0]))[1]
        top = self.top + max(text.high for text in self._line_texts) + 14 + RAISED[0]
        return Enlarged.fit(self.end.side, (shown, (lowest, highest)), top, LABELS, HIGHEST_END,
                            RAIN)  # fmt: skip

    @property
    def view(self) -> View:
        return self.large.view

    def draw(self, canvas: Canvas) -> float:
        view = self.view
        with canvas.view(f"{self.end.where} end, enlarged", view.scale):
            with canvas.window(view.frame):
                self.roof.draw(canvas, view)
            draw_measures(canvas, *self._measures())
        column = sorted(self._column(), key=lambda label: label.target[1])
        lowest = 0.0
        if self.end.where == "back":
            _, edge = view.points(self.roof.top)
            draw_drops(canvas, edge)
            lowest = edge[1] + FALL - 10
        rows = self._line_labels(), [self._below()]
        return self.large.draw_labels(canvas, column, rows, RAISED[0] + 12, lowest)

    # Screw lines and lap

    @cached_property
    def _lines(self) -> list[ScrewLine]:
        return self.roof.lines(self.end.where)

    @cached_property
    def _line_texts(self) -> list[Text]:
        said = self.roof.subject.said
        return [said(name, word).fitted(HALF_ROW) for name, _, word in LINES[self.end.where]]

    def _measured(self, line: ScrewLine, above: float) -> tuple[Point, Point]:
        """Where on the sheet a screw line is measured; only its edge, if the view ends before."""
        start, end = (self._raised(place, line, above) for place in (line.edge, line.mark))
        shown = self.view.left <= self.view.x(line.mark[0]) <= self.view.right
        return start, end if shown else start

    def _raised(self, place: Point, line: ScrewLine, above: float) -> Point:
        """A place on the sheet so far above the cover, square to the slope."""
        (y, z), (up_y, up_z) = place, self.roof.up
        cover = self._lines[0].edge
        under = (cover[0] - line.edge[0]) * up_y + (cover[1] - line.edge[1]) * up_z
        high = under + above / self.view.scale
        return self.view.x(y + up_y * high), self.view.y(z + up_z * high)

    def _measures(self) -> Iterator[Measure]:
        """How far each screw line is from its edge, above the cover; the skirt's lap on the box."""
        for line, above in zip(self._lines, RAISED, strict=True):
            start, end = self._measured(line, above)
            if start != end:
                data = {"name": line.name, "exact": self.roof.subject.now[line.name]}
                yield (start, end), self.view.points((line.edge, line.mark)), data
        if self.roof.lap > 0 and self.end.where == "front":
            low, high = self._lap_line
            inner = self.view.x(self.roof.subject.solids[self.skirt].extents[1][1])
            data = {"name": "roof.lap", "exact": self.roof.lap}
            yield (low, high), ((inner, low[1]), high), data

    @property
    def _lap_line(self) -> tuple[Point, Point]:
        top = self.roof.box_top
        x = self.view.x(self.roof.there["box below"].extents[1][0] + INSET)
        return (x, self.view.y(top - self.roof.lap)), (x, self.view.y(top))

    # Labels

    def _line_labels(self) -> list[Label]:
        found = []
        for line, above, text in zip(self._lines, RAISED, self._line_texts, strict=True):
            (x0, y0), (x1, y1) = self._measured(line, above)
            found.append(Label(text, (self._inside((x0 + x1) / 2), (y0 + y1) / 2)))
        return sorted(found, key=lambda label: label.target[0])

    def _column(self) -> Iterator[Label]:
        """Labels for the column, each with the place in the view that it speaks of."""
        for piece, name, word in self.end.column:
            spot = self._spot(piece) if piece in self.roof.there else None
            if spot:
                text = self.roof.subject.said(name, word) if name else Text((word,))
                yield self._beside(text, *spot)
        for screw in self.roof.screws[self.end.where]:
            # the longer one, which stands aside, is pointed to where it shows below the other
            place = screw.at(float(screw.exact) * (0.85 if screw.aside else 0.4))
            word = f"{screw.sheet} screw {self.roof.subject.shown(screw.exact)}"
            text = Text((word, screw.fault), "wrong") if screw.fault else Text((word,))
            yield self._beside(text, self._at(place))
        if self.end.where == "front":
            yield self._lap_label()

    def _at(self, place: Point) -> Point:
        """Where on the sheet a place is seen, or the edge of the view beyond which it lies."""
        return self._inside(self.view.x(place[0])), self.view.y(place[1])

    def _inside(self, x: float) -> float:
        return min(max(x, self.view.left + 2), self.view.right - 2)

    def _beside(self, text: Text, target: Point, reach: Point | None = None) -> Label:
        low, high = reach or (target[1], target[1])
        return Label(text.fitted(self.large.room), target, low, high)

    def _spot(self, piece: str) -> tuple[Point, Point] | None:
        """Where a piece is seen near the labels: a place in it, and how far up and down it goes."""
        profile = self.roof.profile(piece)
        seen = shared_interval(self.view.u, self.roof.there[piece].extents[1])
        if seen is None:
            return None
        inset = min(INSET, (seen[1] - seen[0]) / 2)
        y = seen[1] - inset if self.end.side == "right" else seen[0] + inset
        z = shared_interval(self.view.v, span(profile, HEIGHT - 1, y))
        if z is None:
            return None
        low, high = self.view.y(z[1]), self.view.y(z[0])
        away = min(3.0, (high - low) / 2)
        return (self.view.x(y), (low + high) / 2), (low + away, high - away)

    def _lap_label(self) -> Label:
        if self.roof.lap <= 0:
            above = f"ends {self.roof.subject.shown(-self.roof.lap)} above the box"
            spot = self._spot(self.skirt)
            target = spot[0] if spot else (self.view.left, self.view.bottom)
            return self._beside(Text(("skirt", above), "wrong"), target)
        (x, low), (_, high) = self._lap_line
        return self._beside(self.roof.measured["roof.lap"], (x, (low + high) / 2))

    def _below(self) -> Label:
        """The label below the end: the overhang in front, the lip that rain drips off behind."""
        roof, back = self.roof, self.end.where == "back"
        text = roof.measured["cover_lip" if back else "overhang"]
        more = ("rain drips clear of the wood",) if back else roof.level_overhang
        said = replace(text, lines=(*text.lines, *more)).fitted(HALF_ROW if back else UNDER)
        # it points half-way between the edge of a piece and where the inner one begins
        piece, inner, end = ("cover", "deck", 1) if back else ("deck", self.skirt, 0)
        one, other = (roof.there[label].extents[1] for label in (piece, inner))
        y = max(min((one[end] + other[end]) / 2, one[1]), one[0])
        low, high = span(roof.profile(piece), HEIGHT - 1, y)
        return Label(said, self._at((float(y), float(low + high) / 2)))


# ── rain ──────────────────────────────────────────────────────────────────────────────────────

RAIN = 14.0
"""Room that falling rain takes beyond the cover's edge, on the sheet."""

FALL = 48.0
"""How far below the cover's edge falling rain is drawn, on the sheet."""

OVER_COVER = 6.0  # between the cover and the rain on it
RUNNING, DROP = Pen(PENCIL, 1.1, "7 4"), Finish(Pen(PENCIL, 0.9), PAPER)
ARROW, WIDE, HIGH, DROPS = 6.0, 2.2, 7.0, 13.0


def draw_rain(canvas: Canvas, front: Point, back: Point) -> None:
    """Draw rain that runs down the cover, from its front edge to its back edge, and off it."""
    (x0, y0), (x1, y1) = front, back
    canvas.path([(x0 + 4, y0 - OVER_COVER), (x1, y1 - OVER_COVER)], RUNNING)
    long = hypot(x1 - x0, y1 - y0)
    along, down = (x1 - x0) / long * ARROW, (y1 - y0) / long * ARROW
    tip = (x1 + along * 0.6, y1 - OVER_COVER + down * 0.6)
    for aside in (-0.55, 0.55):
        end = (tip[0] - along - down * aside, tip[1] - down + along * aside)
        canvas.line(tip, end, Pen(PENCIL, 1.1))
    draw_drops(canvas, back)


def draw_drops(canvas: Canvas, edge: Point) -> None:
    """Draw three drops that fall from an edge."""
    (x, y), drops = (edge[0] + WIDE + 2, edge[1] + 8), list[Shape]()
    for i in range(3):
        top = y + i * DROPS
        low = top + HIGH
        left, right = ([(x + w * WIDE, low - 2), (x + 0.7 * w * WIDE, low)] for w in (-1, 1))
        sides = [*left, *right[::-1]]
        drops.append(([(x, top), *sides], DROP, {"rain": "drop"}))
    canvas.shapes(drops)
