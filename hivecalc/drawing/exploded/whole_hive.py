"""The whole hive taken apart, component by component, with the numbers of the parts table."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from hivecalc.components import parts_of
from hivecalc.drawing.bottom_board.state import Sizes, titled
from hivecalc.drawing.exploded.layers import Layer, across, apart, down, gaps, layers
from hivecalc.drawing.exploded.painting import Painted, draw_guides, paint, painted, spot
from hivecalc.drawing.exploded.space import ACROSS, Projection
from hivecalc.drawing.labels import Label, draw_labels
from hivecalc.drawing.layout import ASCENT, LETTER, LINE, Point, spread, text_width, wrapped
from hivecalc.drawing.svg import INK, MARGIN, PAPER, THIN, WIDTH, Hand, Pen, Sheet, figure
from hivecalc.length import Units
from hivecalc.part import Part
from hivecalc.space import BOXES, Solid, solids
from hivecalc.space.roof import fall

TITLE = "The whole hive, taken apart"
STACK = ("bottom_board", "box", "sleeve", "inner_cover", "roof")  # from below upwards
PICTURE = 188.0  # width of the pieces on the sheet
BESIDE = 12.0  # between the pieces and the numbers
RADIUS = 11.5  # of a number's circle
ROOM = 6.0  # between a number and its part's name
LEAST_GAP = 13.0  # between two layers, on the sheet
LARGEST = 9.0  # scale: sheet units for an inch of a hive that is small
ELBOW = 8.0
CIRCLE = Pen(INK, 1)


def part_numbers(values: Sizes, built: Iterable[str]) -> dict[tuple[str, str], int]:
    """The number of each part in the parts table, by its component and its name.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> part_numbers(values(demo_hive()), ("bottom_board", "roof"))["roof", "rim_side"]
    14

    `built` from components.built; the order is that of components.parts.
    """
    names = ((c, part.name) for c in built for part in parts_of(c, values))
    return {name: number for number, name in enumerate(names, 1)}


def exploded_hive(
    values: Sizes, built: Sequence[str], *, units: Units = "inch", name: str = ""
) -> str:
    """SVG picture of the whole hive taken apart, each part with its number, name and count.

    >>> from hivecalc.components import built, values
    >>> from hivecalc.hive import demo_hive
    >>> hive = demo_hive()
    >>> "landing board" in exploded_hive(values(hive), built(hive))
    True

    Values as components.values gives them, in inches, and `built` as components.built does; figures
    are shown in `units`. Raises NoPieceError where a piece would have no size left.
    """
    return _Apart(values, tuple(built), units).picture(name)


@dataclass(frozen=True)
class _Entry:
    """One line of the legend: its text, and for a part its number and where one sees it."""

    lines: tuple[str, ...]
    centre: float
    number: int = 0
    spot: Point = (0.0, 0.0)

    @property
    def height(self) -> float:
        """Height that the entry keeps."""
        return max(2 * RADIUS, LINE * len(self.lines)) + 3


@dataclass(frozen=True)
class _Apart:
    values: Sizes
    built: tuple[str, ...]
    units: Units

    def picture(self, name: str) -> str:
        sheet = Sheet()
        top = sheet.paragraph("The hive, taken apart", MARGIN, bold=True)
        top = sheet.paragraph(self._intro, top) + MARGIN
        projection = self._projection(top)
        seen = painted([layer.lifted for layer in self._layers], projection)
        bottom = max(y for one in seen for _, y in one.points)
        entries = list(self._legend(seen))
        with sheet.view("exploded", projection.scale):
            draw_guides(sheet, projection, self.values, self._layers[-1].reach(0.0)[0])
            paint(sheet, seen)
        self._draw_front(sheet, seen, bottom)
        column = self._draw_legend(sheet, entries, top, bottom)
        bottom = max(column, bottom + 14 + LINE) + MARGIN
        return sheet.picture(titled(TITLE, name), self._words, bottom, projection.scale)

    @property
    def _intro(self) -> str:
        sizes = (figure(self.values[n], self.units) for n in ("hive_length", "hive_width"))
        said = "Hive {} long, {} wide. The numbers are those of the parts table.".format(*sizes)
        boxes = int(self.values["boxes"])
        several = boxes > 1 and any(c in self.built for c in BOXES)
        return f"{said} Of {boxes} boxes, one is shown." if several else said

    @property
    def _words(self) -> str:
        told = []
        for component in self._from_above:
            named = self._parts(component)
            parts = (
                f"{self._numbers[component, p.name]} {self._named(component, p)}" for p in named
            )
            told.append(f"{component.replace('_', ' ').capitalize()}: {', '.join(parts)}.")
        return " ".join(["The hive taken apart, from above downwards.", self._intro, *told])

    # Layers

    @cached_property
    def _numbers(self) -> dict[tuple[str, str], int]:
        return part_numbers(self.values, self.built)

    def _parts(self, component: str) -> list[Part]:
        return parts_of(component, self.values)

    def _count(self, component: str, part: Part) -> int:
        """How many there are of a part in the whole hive."""
        return part.quantity * (int(self.values["boxes"]) if component in BOXES else 1)

    def _named(self, component: str, part: Part) -> str:
        number = self._numbers[component, part.name]
        return f"{number} {part.name.replace('_', ' ')} × {self._count(component, part)}"

    @property
    def _from_above(self) -> list[str]:
        return [component for component in reversed(STACK) if component in self.built]

    @cached_property
    def _pieces(self) -> list[Layer]:
        """The layers from below upwards, not lifted."""
        components = reversed(self._from_above)
        return [layer for c in components for layer in layers(c, solids(self.values, c))]

    @cached_property
    def _layers(self) -> list[Layer]:
        """The layers, so far apart that their legend fits beside them."""
        slope, many = float(fall(self.values)), sum(gaps(*pair) for pair in pairwise(self._pieces))
        low, high = down(apart(self._pieces, 0.0, slope))
        free = self._legend_height - (high - low) * self._scale
        return apart(self._pieces, max(LEAST_GAP, free / many) / self._scale, slope)

    @cached_property
    def _scale(self) -> float:
        """How big an inch is on the sheet."""
        low, high = across(self._pieces)
        return min(LARGEST, PICTURE / (high - low) / ACROSS)

    def _projection(self, top: float) -> Projection:
        low, high = across(self._pieces)
        wide = (high - low) * ACROSS * self._scale
        left = MARGIN + (PICTURE - wide) / 2 - low * ACROSS * self._scale
        return Projection(left, top - down(self._layers)[0] * self._scale, self._scale)

    def _draw_front(self, sheet: Sheet, seen: Sequence[Painted], bottom: float) -> None:
        front = next(one for one in seen if one.face.solid.part == "landing_board")
        middle = (front.box.left + front.box.right) / 2, (front.box.top + front.box.bottom) / 2
        draw_labels(sheet, "bottom", bottom + 10, [Label(("front",), middle)], (MARGIN, PICTURE))

    # The legend

    @property
    def _text_left(self) -> float:
        return MARGIN + PICTURE + BESIDE + 2 * RADIUS + ROOM

    def _lines(self, component: str, part: Part) -> tuple[str, ...]:
        """A part's name and count, the count in one piece."""
        room, count = WIDTH - MARGIN - self._text_left, f"× {self._count(component, part)}"
        *before, last = wrapped(part.name.replace("_", " "), room)
        whole = f"{last} {count}"
        return (*before, whole) if text_width(whole) <= room else (*before, last, count)

    @cached_property
    def _legend_height(self) -> float:
        parts = (_Entry(self._lines(c, p), 0) for c in self.built for p in self._parts(c))
        return sum(entry.height for entry in parts) + len(self.built) * _Entry(("",), 0).height

    def _legend(self, seen: Sequence[Painted]) -> Iterator[_Entry]:
        """The components from above downwards, each followed by its parts as they lie."""
        for component in self._from_above:
            entries = [self._entry(component, part, seen) for part in self._parts(component)]
            entries.sort(key=lambda entry: entry.centre)
            title = (component.replace("_", " ").capitalize(),)
            yield _Entry(title, entries[0].centre - LINE)
            yield from entries

    def _entry(self, component: str, part: Part, seen: Sequence[Painted]) -> _Entry:
        def is_meant(solid: Solid) -> bool:
            return (solid.component, solid.part) == (component, part.name)

        place = spot(seen, is_meant)
        number = self._numbers[component, part.name]
        return _Entry(self._lines(component, part), place[1], number, place)

    def _draw_legend(
        self, sheet: Sheet, entries: Sequence[_Entry], top: float, bottom: float
    ) -> float:
        """Draw the legend beside the pieces, leaders first; where it ends comes back."""
        centres = [entry.centre for entry in entries]
        heights = [entry.height for entry in entries]
        places = spread(centres, heights, top, max(bottom, top + sum(heights)))
        for entry, y in zip(entries, places, strict=True):
            if entry.number:
                _draw_leader(sheet, entry, y)
        for entry, y in zip(entries, places, strict=True):
            self._draw_entry(sheet, entry, y)
        return places[-1] + heights[-1] / 2

    def _draw_entry(self, sheet: Sheet, entry: _Entry, y: float) -> None:
        left = self._text_left if entry.number else self._text_left - 2 * RADIUS - ROOM
        first = y - LINE * len(entry.lines) / 2 + 1 + ASCENT * LETTER
        for i, line in enumerate(entry.lines):
            sheet.text(line, (left, first + i * LINE), hand=Hand(bold=not entry.number))
        if entry.number:
            centre = (left - ROOM - RADIUS, y)
            sheet.circle(centre, RADIUS, CIRCLE, PAPER)
            sheet.text(str(entry.number), (centre[0], y + 0.36 * LETTER), "middle")


def _draw_leader(sheet: Sheet, entry: _Entry, y: float) -> None:
    level = MARGIN + PICTURE + BESIDE
    sheet.path([(level, y), (level - ELBOW, y), entry.spot], THIN)
    sheet.circle(entry.spot, 1.7, None, INK)
