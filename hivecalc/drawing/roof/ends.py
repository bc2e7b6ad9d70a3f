"""One end of the roof in section, enlarged: pieces, screw lines, lap, lip and overhang."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from hivecalc.drawing.bottom_board.state import Named
from hivecalc.drawing.labels import Label, Mark, column_height, draw_labels, fitted
from hivecalc.drawing.layout import LINE, Point, Side
from hivecalc.drawing.roof.cut_roof import HEIGHT, CutRoof
from hivecalc.drawing.roof.rain import FALL, RAIN, draw_drops
from hivecalc.drawing.roof.screws import LINES, Line, Screw, Where, lines
from hivecalc.drawing.svg import INK, MARGIN, THIN, WIDTH, Pen, Sheet, figure
from hivecalc.drawing.view import View
from hivecalc.space.outlines import Interval, covering, shared_interval, span

LABELS = 134.0  # width of a column of labels beside an enlarged end
HIGHEST = 170.0  # of an enlarged end
ROW = 160.0  # width of one of two labels in a row
UNDER = 114.0  # width of the label below an overhang, if it can be
ABOVE = (22.0, 10.0)  # how far above the cover the two screw lines are measured
BEHIND = Fraction(5, 4)  # inches: how far behind its rail an end is shown
AROUND = Fraction(1, 8)  # inches beyond the cover's edge
HIVE_SHOWN = Fraction(1, 2)  # inches of the box below the skirt
INSET = Fraction(3, 8)  # inches from where a piece ends in the view to its leader
TICK = Pen(INK, 1.3)
BESIDE = 14.0  # between a view and its labels


@dataclass(frozen=True)
class End:
    """One end of the section: its heading, the side of its labels, and the pieces to label."""

    where: Where
    heading: str
    side: Side
    column: tuple[Named, ...]

    @property
    def skirt(self) -> str:
        """The skirt's piece at this end."""
        return f"skirt end, {self.where}"

    def window(self, roof: CutRoof) -> tuple[Interval, Interval]:
        """What is shown: from the cover's edge to behind the rail, from the cover to the box."""
        pieces = roof.state.solids
        cover, rail = pieces["cover"].extents[1], pieces[f"rim {self.where}"].extents[1]
        lowest = min(roof.box_top, pieces[self.skirt].extents[HEIGHT][0]) - HIVE_SHOWN
        if self.where == "front":
            shown = cover[0] - AROUND, rail[1] + BEHIND
            return shown, (lowest, pieces["cover"].extents[HEIGHT][1] + AROUND)
        shown = rail[0] - BEHIND, cover[1] + AROUND
        highest = span(roof.profile("cover"), HEIGHT - 1, max(shown[0], cover[0]))[1]
        return shown, (lowest, highest)


FRONT = End(
    "front",
    "Front end, enlarged",
    "right",
    (
        ("cover", "roof.cover_thickness", "cover"),
        ("deck", "roof.deck_thickness", "deck"),
        ("roof panel", "roof.roof_panel_thickness", "foam"),
        ("rim front", "roof.rim_front_thickness", "rim front"),
        ("inner cover below", "inner_cover.overall_height", "inner cover"),
        ("box below", "", "box"),
    ),
)
BACK = End(
    "back",
    "Back end, enlarged",
    "left",
    (
        ("roof panel", "roof.roof_panel_thickness", "foam"),
        ("roof retainer, left", "roof.roof_retainer_thickness", "retainer"),
        ("rim back", "roof.rim_back_thickness", "rim back"),
        ("skirt end, back", "roof.skirt_end_thickness", "skirt"),
    ),
)


def draw_end(sheet: Sheet, end: End, roof: CutRoof, top: float) -> float:
    """Draw one end enlarged, labelled all round; where that ends on the sheet comes back."""
    top = sheet.paragraph(end.heading, top, bold=True)
    drawn = _DrawnEnd(end, roof, View(0, 0, 1, *end.window(roof)))
    return drawn.placed(top).draw(sheet)


@dataclass(frozen=True)
class _DrawnEnd:
    """One end of a roof, where it stands on the sheet."""

    end: End
    roof: CutRoof
    view: View

    def placed(self, top: float) -> "_DrawnEnd":
        """The same end below this place, as big as goes beside its labels."""
        (y0, y1), (z0, z1) = self.view.u, self.view.v
        wide = WIDTH - 2 * MARGIN - LABELS - BESIDE - RAIN
        scale = min(wide / float(y1 - y0), HIGHEST / float(z1 - z0))
        left = (
            MARGIN if self.end.side == "right" else WIDTH - MARGIN - RAIN - float(y1 - y0) * scale
        )
        row = max(len(lines) for _, lines in self._line_texts) * LINE
        view = View(left, top + row + 14 + ABOVE[0], scale, self.view.u, self.view.v)
        return _DrawnEnd(self.end, self.roof, view)

    def draw(self, sheet: Sheet) -> float:
        """Draw the end and its labels; where they end comes back."""
        view, side = self.view, self.end.side
        with sheet.view(f"{self.end.where} end, enlarged", view.scale):
            self.roof.draw(sheet, view)
            for line, above in zip(self._lines, ABOVE, strict=True):
                self._draw_along(sheet, line, above)
            self._draw_lap(sheet)
        column = sorted(self._column(), key=lambda label: label.target[1])
        foot = max(view.bottom, view.top + column_height(column))
        if self.end.where == "back":
            edge = self.roof.back_edge(view)
            draw_drops(sheet, edge)
            foot = max(foot, edge[1] + FALL - 10)
        draw_labels(sheet, side, self._level, column, (view.top, foot))
        wide = MARGIN, WIDTH - MARGIN
        draw_labels(sheet, "top", view.top - ABOVE[0] - 12, list(self._line_labels()), wide)
        below = self._below()
        draw_labels(sheet, "bottom", foot + 10, [below], wide)
        return foot + 10 + below.height

    # Screw lines and lap

    @property
    def _lines(self) -> list[Line]:
        return lines(self.roof.state.solids, self.roof.state.now, self.end.where)

    def _measured(self, line: Line, above: float) -> tuple[Point, Point] | None:
        """Where on the sheet a screw line is measured; nowhere, if the view does not reach it."""
        start, end = (self._raised(place, line, above) for place in (line.edge, line.mark))
        x = self.view.x(line.mark[0])
        return (start, end) if self.view.left <= x <= self.view.right else None

    def _raised(self, place: Point, line: Line, above: float) -> Point:
        """A place on the sheet so far above the cover, square to the slope."""
        (y, z), (up_y, up_z) = place, self.roof.up
        cover = self._lines[0].edge
        under = (cover[0] - line.edge[0]) * up_y + (cover[1] - line.edge[1]) * up_z
        high = under + above / self.view.scale
        return self.view.x(y + up_y * high), self.view.y(z + up_z * high)

    def _draw_along(self, sheet: Sheet, line: Line, above: float) -> None:
        """Draw how far a screw line is from its edge, along the slope above the cover."""
        measured = self._measured(line, above)
        if measured is None:
            return
        for place, (x, y) in zip((line.edge, line.mark), measured, strict=True):
            sheet.line((self.view.x(place[0]), self.view.y(place[1])), (x, y))
            draw_tick(sheet, (x, y))
        data = {"name": line.name, "exact": self.roof.state.now[line.name]}
        sheet.line(*measured, THIN, data)

    def _draw_lap(self, sheet: Sheet) -> None:
        """Draw how far the skirt laps the box, as a line inside the box."""
        lap = self.roof.skirt_lap.now
        if lap > 0 and self.end.where == "front":
            low, high = self._lap_line
            inner = self.roof.state.solids[self.end.skirt].extents[1][1]
            sheet.line((self.view.x(inner), low[1]), low)
            sheet.line(low, high, THIN, {"name": "roof.lap", "exact": lap})
            for place in (low, high):
                draw_tick(sheet, place)

    @property
    def _lap_line(self) -> tuple[Point, Point]:
        top = self.roof.box_top
        x = self.view.x(self.roof.state.met["box below"].extents[1][0] + INSET)
        return (x, self.view.y(top - self.roof.skirt_lap.now)), (x, self.view.y(top))

    # Labels

    @property
    def _level(self) -> float:
        """Where on the sheet the column of labels begins."""
        right = self.end.side == "right"
        return self.view.right + BESIDE if right else self.view.left - BESIDE

    @property
    def _room(self) -> float:
        """Width that the column of labels has."""
        return WIDTH - MARGIN - self._level if self.end.side == "right" else self._level - MARGIN

    @property
    def _line_texts(self) -> Iterator[tuple[str, tuple[str, ...]]]:
        state = self.roof.state
        for name, _, word in LINES[self.end.where]:
            yield name, fitted(state.lines(name, word), ROW, state.mark(name))

    def _line_labels(self) -> Iterator[Label]:
        """Labels for the screw lines, from left to right."""
        found = []
        for line, above, (name, told) in zip(self._lines, ABOVE, self._line_texts, strict=True):
            start, end = self._measured(line, above) or (self._raised(line.edge, line, above),) * 2
            middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
            found.append(Label(told, middle, mark=self.roof.state.mark(name)))
        yield from sorted(found, key=lambda label: label.target[0])

    def _column(self) -> Iterator[Label]:
        """Labels for the column, each with the place in the view that it speaks of."""
        for piece, name, word in self.end.column:
            spot = self._spot(piece) if self.roof.has(piece) else None
            if spot:
                told = self.roof.state.lines(name, word) if name else (word,)
                yield self._beside(told, *spot, self.roof.state.mark(name) if name else "plain")
        for screw in self.roof.screws[self.end.where]:
            # the longer one, which stands aside, is pointed to where it shows below the other
            place = screw.at(screw.length * (0.85 if screw.aside else 0.4))
            yield self._beside(self._screw_lines(screw), self._at(place), mark=_screw_mark(screw))
        if self.end.where == "front":
            yield self._lap_label()

    def _at(self, place: Point) -> Point:
        return self.view.x(place[0]), self.view.y(place[1])

    def _beside(
        self, told: tuple[str, ...], target: Point, reach: Point | None = None, mark: Mark = "plain"
    ) -> Label:
        lines = fitted(told, self._room, mark)
        low, high = reach or (target[1], target[1])
        return Label(lines, target, low, high, mark)

    def _spot(self, piece: str) -> tuple[Point, Point] | None:
        """Where a piece is seen near the labels: a place in it, and how far up and down it goes."""
        profile = self.roof.profile(piece)
        seen = shared_interval(self.view.u, covering([(y, y) for y, _ in profile]))
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

    def _screw_lines(self, screw: Screw) -> tuple[str, ...]:
        word = f"{screw.sheet} screw {figure(screw.exact, self.roof.state.units)}"
        return (word, screw.fault) if screw.fault else (word,)

    def _lap_label(self) -> Label:
        """The lap's label, or that the skirt ends above the box."""
        lap, state = self.roof.skirt_lap, self.roof.state
        if lap.now <= 0:
            above = f"ends {figure(-lap.now, state.units)} above the box"
            spot = self._spot(self.end.skirt)
            target = spot[0] if spot else (self.view.left, self.view.bottom)
            return self._beside(("skirt", above), target, mark="wrong")
        (x, low), (_, high) = self._lap_line
        return self._beside(lap.lines(state), (x, (low + high) / 2), mark=lap.mark)

    def _below(self) -> Label:
        """The label below the end: the overhang in front, the lip that rain drips off behind."""
        roof = self.roof
        if self.end.where == "back":
            told = (*roof.lip.lines(roof.state), "rain drips clear of the wood")
            return Label(
                fitted(told, ROW, roof.lip.mark), self._under("cover", "deck"), mark=roof.lip.mark
            )
        level = [roof.level_overhang] if roof.level_overhang else []
        told = fitted((*roof.overhang.lines(roof.state), *level), UNDER, roof.overhang.mark)
        return Label(told, self._under("deck", self.end.skirt), mark=roof.overhang.mark)

    def _under(self, piece: str, inner: str) -> Point:
        """A place in a piece, half-way between its edge and where the inner one begins."""
        profile, end = self.roof.profile(piece), max if self.end.where == "back" else min
        edge, inside = (end(y for y, _ in self.roof.profile(p)) for p in (piece, inner))
        y = (edge + inside) / 2
        y = max(min(y, max(p[0] for p in profile)), min(p[0] for p in profile))
        low, high = span(profile, HEIGHT - 1, y)
        return self._at((float(y), float(low + high) / 2))


def _screw_mark(screw: Screw) -> Mark:
    return "wrong" if screw.fault else "plain"


def draw_tick(sheet: Sheet, place: Point) -> None:
    """Draw the tick that ends a dimension line."""
    x, y = place
    sheet.path([(x - 3.5, y + 3.5), (x + 3.5, y - 3.5)], TICK)
