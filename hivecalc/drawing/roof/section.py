"""The roof cut along its middle, seen from the side: whole, and its two ends enlarged."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import ceil

from hivecalc.drawing.bottom_board.state import Named, Sizes, titled
from hivecalc.drawing.dimensions import GAP, Dim, Row, depth, draw_dims, packed
from hivecalc.drawing.faults import APART
from hivecalc.drawing.labels import Label, draw_labels, fitted
from hivecalc.drawing.layout import ASCENT, LETTER, LINE, Box, Point, Side
from hivecalc.drawing.roof.cut_roof import HEIGHT, CutRoof
from hivecalc.drawing.roof.ends import BACK, FRONT, HIVE_SHOWN, draw_end, draw_tick
from hivecalc.drawing.roof.rain import FALL, RAIN, draw_rain
from hivecalc.drawing.roof.screws import LINES
from hivecalc.drawing.roof.state import ComponentState
from hivecalc.drawing.svg import CHANGED, INK, MARGIN, THIN, WIDTH, Hand, Sheet
from hivecalc.drawing.view import View, floated
from hivecalc.length import Units
from hivecalc.space.outlines import Profile
from hivecalc.space.solids import hull

TITLE = "Roof from the side, cut along its middle"
HEADING = "Cut along the middle, front at left"
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
BESIDE_LINE = 5.0  # between an upright dimension line and its text


def roof_section(
    values: Sizes, cut: Sizes | None = None, *, units: Units = "inch", name: str = ""
) -> str:
    """SVG picture of the roof cut along its middle, whole and with its ends enlarged.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> "rim side 23 5/8 in" in roof_section(values(demo_hive()))
    True

    With `cut`, the same sizes with one or more wrong ones among them, what then overlaps or stays
    open is marked, enlarged and told, and so is a screw that does not land in a rail.

    >>> near_edge = values(demo_hive(), {"roof.cover_screw_line": Fraction(3, 2)})
    >>> "misses the rim front" in roof_section(values(demo_hive()), near_edge)
    True

    Values as components.values gives them, in inches; figures are shown in `units`. Raises
    NoPieceError where a piece would have no size left.
    """
    return _drawn(ComponentState(cut or values, values, units, wrong=cut is not None), name)


def changed_roof_section(
    before: Sizes, now: Sizes, *, units: Units = "inch", name: str = ""
) -> str:
    """SVG picture of the roof cut along its middle, with the sizes from before a change.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import changed, demo_hive
    >>> wider = values(changed(demo_hive(), {"overhang": "3"}))
    >>> "cover 30 1/8 in, was 28 1/8 in" in changed_roof_section(values(demo_hive()), wider)
    True

    Values as components.values gives them, in inches; figures are shown in `units`.
    """
    return _drawn(ComponentState(now, before, units), name)


def roof_section_to_work_out(
    values: Sizes,
    cut: Sizes | None = None,
    *,
    units: Units = "inch",
    name: str = "",
    found: Collection[str] = (),
) -> str:
    """SVG picture of the roof cut along its middle, with "?" for what has to be worked out.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> "rim side ?" in roof_section_to_work_out(values(demo_hive()))
    True

    With `cut`, the same sizes with a piece among them as somebody answered it, the piece is built
    in as it is, and what then overlaps or stays open is marked without its amount.

    Values as components.values gives them, in inches; what was measured is shown in `units`,
    and so is what was found.
    """
    state = ComponentState(cut or values, values, units, cut is not None, asked=True, found=found)
    return _drawn(state, name)


def _drawn(state: ComponentState, name: str) -> str:
    return _Section(state, CutRoof(state)).picture(name)


@dataclass(frozen=True)
class _Section:
    state: ComponentState
    roof: CutRoof

    def picture(self, name: str) -> str:
        sheet = Sheet()
        top = sheet.paragraph(HEADING, MARGIN, bold=True)
        view, bottom = self._draw_whole(sheet, top)
        bottom = sheet.paragraph(self.roof.slope, bottom + MARGIN)
        for end in (FRONT, BACK):
            bottom = draw_end(sheet, end, self.roof, bottom + 14)
        bottom = self.roof.telling(view).tell(sheet, bottom + MARGIN)
        for warning in self.roof.warnings:
            bottom = sheet.paragraph(warning, bottom, bold=True) + MARGIN
        return sheet.picture(titled(TITLE, name), self._words(), bottom, view.scale)

    def _words(self) -> str:
        rows = [*ABOVE, *self._below, *self._heights.values(), *FRONT.column, *BACK.column]
        named = [
            *(row[1:] for row in rows if row[1]),
            *(line[::2] for end in LINES.values() for line in end),
        ]
        roof = self.roof
        spaces = [", ".join(m.lines(self.state)) for m in (roof.skirt_lap, roof.lip, roof.overhang)]
        faults = [fault.consequence.sentence for fault in roof.shown.faults]
        intro, told = "The roof cut along its middle, front at left", f"{'; '.join(spaces)}."
        more = (told.capitalize(), roof.slope, *faults, *roof.warnings)
        return self.state.words(intro, named, *more)

    def _draw_whole(self, sheet: Sheet, top: float) -> tuple[View, float]:
        """Draw the whole section, its labels and dimension lines; where they end comes back too."""
        left, right = (depth([[(self._upright(side), 0.0)]]) for side in HEIGHTS)
        row = max(len(told) for told in self._row_texts) * LINE
        view = self._view(MARGIN + left, WIDTH - MARGIN - right - RAIN, top + row + 30)
        with sheet.view("section", view.scale):
            self.roof.draw(sheet, view)
            end = self._draw_heights(sheet, view)
            foot, below = self._lengths(view, end)
            draw_dims(sheet, "bottom", foot, below)
        draw_rain(sheet, *view.points(self.roof.top))
        draw_labels(sheet, "top", view.top - 24, self._row(view), (MARGIN, WIDTH - MARGIN))
        self.roof.telling(view).number(sheet, self._room(view))
        return view, max(foot + depth(below), end)

    def _draw_heights(self, sheet: Sheet, view: View) -> float:
        """Draw the upright dimension lines beside the roof; where all beside it ends comes back."""
        columns = {side: self._column(side, view) for side in HEIGHTS}
        draw_dims(sheet, "left", view.left, columns["left"])
        self._draw_right(sheet, view, columns["right"])
        ends = [c + d.text_width / 2 for rows in columns.values() for row in rows for d, c in row]
        return max(*ends, self.roof.back_edge(view)[1] + FALL)

    def _lengths(self, view: View, end: float) -> tuple[float, list[Row]]:
        """The dimension lines below the roof, and where they begin.

        Texts that are wider than the roof begin where the texts beside it end.
        """
        dims = [self._dim(*named, view) for named in self._below]
        if max(dim.text_width for dim in dims) <= view.right - view.left:
            return view.bottom, packed(dims, view.left, view.right)
        return max(view.bottom, end), packed(dims, MARGIN, WIDTH - MARGIN)

    def _view(self, left: float, right: float, top: float) -> View:
        """The roof as big as the sheet allows, with some of the box below it."""
        _, (front, back), (low, high) = hull(s.extents for s in self.state.solids.values())
        low = min(low, self.roof.box_top)
        y = (front - AIR, back + AIR)
        wide = float(y[1] - y[0])
        scale = min((right - left) / wide, HIGHEST / float(high - low))
        numbers = self._number_rows(wide * scale) * APART
        room = Fraction((numbers + BELOW_SKIRT) / scale) if numbers else HIVE_SHOWN
        start = left + (right - left - wide * scale) / 2
        return View(start, top, scale, y, (low - room, high + AIR))

    def _number_rows(self, wide: float) -> int:
        """How many rows of numbers go below the roof, each with as much room as it may need."""
        numbers = sum(len(fault.regions) for fault in self.roof.shown.faults)
        return ceil(2 * APART * numbers / wide)

    def _room(self, view: View) -> Box:
        """The room for the numbers of faults: below the roof."""
        high = self._number_rows(view.right - view.left) * APART
        return Box(view.left, view.bottom - high, view.right, view.bottom + 4)

    # Dimension lines

    @cached_property
    def _below(self) -> list[Named]:
        """The lengths below the roof, and the skirt's if it was cut wrong."""
        return [*([SKIRT] if self.state.changed(SKIRT[1]) else []), *BELOW]

    @cached_property
    def _heights(self) -> dict[Side, Named]:
        """The heights beside the roof: in front the rim front's, or a side's that was cut wrong."""
        side, front = (self.state.changed(name) for _, name, _ in (SIDE_HEIGHT, HEIGHTS["left"]))
        return {**HEIGHTS, "left": SIDE_HEIGHT} if side and not front else HEIGHTS

    def _upright(self, side: Side) -> Dim:
        _, name, word = self._heights[side]
        dim = self.state.dim(name, word, 0, 0)
        return replace(dim, lines=fitted(dim.lines, COLUMN, self.state.mark(name)))

    def _column(self, side: Side, view: View) -> list[Row]:
        solid = self.state.solids[self._heights[side][0]]
        low, high = solid.extents[HEIGHT][0], solid.extents[HEIGHT][1]
        placed = replace(self._upright(side), low=view.y(high), high=view.y(low))
        return packed([placed], view.top - 16, float("inf"))

    def _draw_right(self, sheet: Sheet, view: View, rows: list[Row]) -> None:
        """Draw the upright dimension line behind the roof, its text on the far side of it."""
        ((dim, centre),) = (entry for row in rows for entry in row)
        start, x = view.right + RAIN, view.right + RAIN + GAP
        for y in (dim.low, dim.high):
            sheet.line((start, y), (x + 3, y))
            draw_tick(sheet, (x, y))
        sheet.line((x, dim.low), (x, dim.high), THIN, {"name": dim.name, "exact": dim.exact})
        hand = Hand(dim.changed, CHANGED if dim.changed else INK, upright=True)
        for i, line in enumerate(dim.lines):
            sheet.text(line, (x + BESIDE_LINE + ASCENT * LETTER + i * LINE, centre), "middle", hand)

    def _dim(self, piece: str, name: str, word: str, view: View) -> Dim:
        """A dimension line along the hive, of a piece or of the hive itself."""
        solid = self.state.solids.get(piece) or self.state.met[piece]
        return self.state.dim(name, word, *map(view.x, solid.extents[1]))

    # The row of labels

    @property
    def _row_texts(self) -> Iterator[tuple[str, ...]]:
        for _, name, word in ABOVE:
            yield fitted(self.state.lines(name, word), ROW, self.state.mark(name))

    def _row(self, view: View) -> list[Label]:
        """The labels in a row above the section: cover, deck, rain."""
        labels = [
            Label(told, _within(view, self.roof.profile(piece), share), mark=self.state.mark(name))
            for told, (piece, name, _), share in zip(
                self._row_texts, ABOVE, SHARES[:2], strict=True
            )
        ]
        (x0, y0), (x1, y1) = view.points(self.roof.top)
        rain = x0 + (x1 - x0) * SHARES[-1], y0 + (y1 - y0) * SHARES[-1] - RAIN / 2
        return [*labels, Label(("rain",), rain)]


def _within(view: View, profile: Profile, share: float) -> Point:
    """Where on the sheet the middle of a sheet's thickness is, at a share of its length."""
    front_low, back_low, back, front = floated(profile)
    (y0, z0), (y1, z1) = (
        ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
        for low, high in ((front_low, front), (back_low, back))
    )
    return view.x(y0 + (y1 - y0) * share), view.y(z0 + (z1 - z0) * share)
