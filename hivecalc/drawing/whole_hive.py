"""The whole hive: taken apart, with the numbers of the parts table, and as it stands."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from hivecalc.components import parts_of
from hivecalc.drawing.apart import (
    ACROSS,
    Layer,
    across,
    beside_labels,
    down,
    draw_guides,
    eye_on,
    layers,
)
from hivecalc.drawing.canvas import INK, MARGIN, THIN, WIDTH, Canvas, Hand, Pen, Picture
from hivecalc.drawing.labels import Label, Mark, column_height, draw_labels, fitted
from hivecalc.drawing.layout import ASCENT, LETTER, LINE, Point, counted, spread
from hivecalc.drawing.prisms import Face, faces_seen, not_hidden, paint, spot
from hivecalc.drawing.subject import Sizes, Subject
from hivecalc.part import Part
from hivecalc.space import (
    BOXES,
    Solid,
    Weight,
    box_height,
    overall_height,
    skirt_laps,
    solids,
    stacked,
    ways,
    weights,
)
from hivecalc.space.roof import fall

STACK = ("bottom_board", "box", "sleeve", "inner_cover", "roof")  # from below upwards


def part_numbers(values: Sizes, built: Iterable[str]) -> dict[tuple[str, str], int]:
    """The number of each part in the parts table, by its component and its name.

    `built` from components.built; the order is that of components.parts.
    """
    names = ((c, part.name) for c in built for part in parts_of(c, values))
    return {name: number for number, name in enumerate(names, 1)}


# ── taken apart ───────────────────────────────────────────────────────────────────────────────

APART = "The whole hive, taken apart"
PICTURE = 188.0  # width of the pieces on the sheet
BESIDE = 12.0  # between the pieces and the numbers
RADIUS = 11.5  # of a number's circle
ROOM = 6.0  # between a number and its part's name
LEAST_GAP = 13.0  # between two layers, on the sheet
LARGEST = 9.0  # scale: sheet units for an inch of a hive that is small
ELBOW = 8.0
CIRCLE = Pen(INK, 1)


def exploded_hive(subject: Subject, built: Sequence[str]) -> Picture:
    """SVG picture of the whole hive taken apart, each part with its number, name and count.

    `built` as components.built gives it.
    """
    return _Apart(subject, tuple(built)).picture()


@dataclass(frozen=True)
class _Entry:
    """One line of the legend: its text, and for a part its number and where one sees it."""

    lines: list[str]
    centre: float
    number: int = 0
    spot: Point = (0.0, 0.0)

    @property
    def height(self) -> float:
        """Height that the entry keeps."""
        return max(2 * RADIUS, LINE * len(self.lines)) + 3


@dataclass(frozen=True)
class _Apart:
    subject: Subject
    built: tuple[str, ...]

    def picture(self) -> Picture:
        canvas = Canvas()
        top = canvas.paragraph("The hive, taken apart", MARGIN, bold=True)
        top = canvas.paragraph(self._intro, top) + MARGIN
        lifted, scale = self._lifted
        eye = eye_on(lifted, MARGIN, MARGIN + PICTURE, top, scale)
        seen = faces_seen([piece for layer in lifted for piece in layer.lifted], eye)
        bottom = max(y for face in seen for _, y in face.points)
        entries = list(self._legend(seen))
        with canvas.view("exploded", eye.scale):
            draw_guides(canvas, eye, self.subject.now, lifted[-1].reach()[0])
            paint(canvas, not_hidden(seen))
        self._draw_front(canvas, seen, bottom)
        column = self._draw_legend(canvas, entries, top, bottom)
        bottom = max(column, bottom + 14 + LINE) + MARGIN
        return canvas.picture(self.subject.titled(APART), self._words, bottom, eye.scale)

    @property
    def _intro(self) -> str:
        sizes = (self.subject.shown(self.subject.now[n]) for n in ("hive_length", "hive_width"))
        said = "Hive {} long, {} wide. The numbers are those of the parts table.".format(*sizes)
        boxes = int(self.subject.now["boxes"])
        several = boxes > 1 and any(c in self.built for c in BOXES)
        return f"{said} Of {boxes} boxes, one is shown." if several else said

    @property
    def _words(self) -> str:
        told = []
        for component in self._from_above:
            parts = []
            for part in parts_of(component, self.subject.now):
                number, count = self._numbers[component, part.name], self._count(component, part)
                parts.append(f"{number} {part.name.replace('_', ' ')} × {count}")
            told.append(f"{component.replace('_', ' ').capitalize()}: {', '.join(parts)}.")
        return " ".join(["The hive taken apart, from above downwards.", self._intro, *told])

    # Layers

    @cached_property
    def _numbers(self) -> dict[tuple[str, str], int]:
        return part_numbers(self.subject.now, self.built)

    def _count(self, component: str, part: Part) -> int:
        """How many there are of a part in the whole hive."""
        return part.quantity * (int(self.subject.now["boxes"]) if component in BOXES else 1)

    @property
    def _from_above(self) -> list[str]:
        return [component for component in reversed(STACK) if component in self.built]

    @cached_property
    def _lifted(self) -> tuple[list[Layer], float]:
        """The layers, so far apart that their legend fits beside them, and their scale."""
        now = self.subject.now
        flat = [la for c in reversed(self._from_above) for la in layers(c, solids(now, c))]
        parts = [_Entry(self._lines(c, p), 0) for c in self.built for p in parts_of(c, now)]
        high = sum(entry.height for entry in parts) + len(self.built) * _Entry([""], 0).height
        return beside_labels(flat, high, PICTURE, LARGEST, LEAST_GAP, float(fall(now)))

    def _draw_front(self, canvas: Canvas, seen: Sequence[Face], bottom: float) -> None:
        front = next(face for face in seen if face.solid.part == "landing_board")
        middle = (front.box.left + front.box.right) / 2, (front.box.top + front.box.bottom) / 2
        draw_labels(canvas, "bottom", bottom + 10, [Label(("front",), middle)], (MARGIN, PICTURE))

    # The legend

    @property
    def _text_left(self) -> float:
        return MARGIN + PICTURE + BESIDE + 2 * RADIUS + ROOM

    def _lines(self, component: str, part: Part) -> list[str]:
        """A part's name and count, told even where there is one."""
        room, count = WIDTH - MARGIN - self._text_left, self._count(component, part)
        return counted(part.name.replace("_", " "), count, room, always=True)

    def _legend(self, seen: Sequence[Face]) -> Iterator[_Entry]:
        """The components from above downwards, each followed by its parts as they lie."""
        for component in self._from_above:
            parts = parts_of(component, self.subject.now)
            entries = [self._entry(component, part, seen) for part in parts]
            entries.sort(key=lambda entry: entry.centre)
            title = component.replace("_", " ").capitalize()
            yield _Entry([title], entries[0].centre - LINE)
            yield from entries

    def _entry(self, component: str, part: Part, seen: Sequence[Face]) -> _Entry:
        place = spot(seen, lambda solid: (solid.component, solid.part) == (component, part.name))
        number = self._numbers[component, part.name]
        return _Entry(self._lines(component, part), place[1], number, place)

    def _draw_legend(
        self, canvas: Canvas, entries: Sequence[_Entry], top: float, bottom: float
    ) -> float:
        """Draw the legend beside the pieces, leaders first; where it ends comes back."""
        centres = [entry.centre for entry in entries]
        heights = [entry.height for entry in entries]
        places = spread(centres, heights, top, max(bottom, top + sum(heights)))
        for entry, y in zip(entries, places, strict=True):
            if entry.number:
                level = MARGIN + PICTURE + BESIDE
                canvas.path([(level, y), (level - ELBOW, y), entry.spot], THIN)
                canvas.dot(entry.spot)
        for entry, y in zip(entries, places, strict=True):
            self._draw_entry(canvas, entry, y)
        return places[-1] + heights[-1] / 2

    def _draw_entry(self, canvas: Canvas, entry: _Entry, y: float) -> None:
        left = self._text_left if entry.number else self._text_left - 2 * RADIUS - ROOM
        first = y - LINE * len(entry.lines) / 2 + 1 + ASCENT * LETTER
        for i, line in enumerate(entry.lines):
            canvas.text(line, (left, first + i * LINE), hand=Hand(bold=not entry.number))
        if entry.number:
            centre = (left - ROOM - RADIUS, y)
            canvas.number(entry.number, centre, RADIUS, CIRCLE, bold=False)


# ── as it stands ──────────────────────────────────────────────────────────────────────────────

STANDS = "The whole hive, as it stands"
LABELS = 128.0  # width of the column of labels
BEFORE_LABELS = 14.0
LARGEST_STANDING = 12.0  # scale: sheet units for an inch of a hive that is small
HIGHEST = 420.0  # of the hive on the sheet


def standing_hive(subject: Subject, built: Sequence[str]) -> Picture:
    """SVG picture of the whole hive, stacked, with heights, ways, lap and estimated weights.

    `built` as components.built gives it. Weights are in pounds with inches, else in kilograms.
    """
    return _Standing(subject, tuple(built)).picture()


@dataclass(frozen=True)
class _Standing:
    subject: Subject
    built: tuple[str, ...]

    def picture(self) -> Picture:
        canvas = Canvas()
        top = canvas.paragraph(STANDS, MARGIN, bold=True)
        top = canvas.paragraph(self._intro, top) + MARGIN
        right = WIDTH - MARGIN - LABELS - BEFORE_LABELS
        whole = [Layer("", self._stack)]
        (left, most), (highest, lowest) = across(whole), down(whole)
        wide = (most - left) * ACROSS
        scale = min(LARGEST_STANDING, (right - MARGIN) / wide, HIGHEST / (lowest - highest))
        eye = eye_on(whole, MARGIN, right, top, scale)
        seen = not_hidden(faces_seen(whole[0].lifted, eye))
        with canvas.view("standing", scale):
            paint(canvas, seen)
        column = sorted(self._labels(seen), key=lambda label: label.target[1])
        bottom = max(y for face in seen for _, y in face.points)
        bottom = max(bottom, top + column_height(column))
        draw_labels(canvas, "right", WIDTH - MARGIN - LABELS, column, (top, bottom))
        told = (f"{', '.join(lines).capitalize()}." for _, lines, _ in self._rows)
        words = " ".join((f"{STANDS}. {self._intro}", *told))
        return canvas.picture(self.subject.titled(STANDS), words, bottom + MARGIN, scale)

    @cached_property
    def _stack(self) -> tuple[Solid, ...]:
        return stacked(self.subject.now, self.built)

    @cached_property
    def _weights(self) -> dict[str, Weight]:
        return {weight.component: weight for weight in weights(self.subject.now, self.built)}

    @property
    def _intro(self) -> str:
        whole = self._weights["whole hive"]
        high = self.subject.shown(overall_height(self._stack))
        return (
            f"{high} high. About {self._mass(whole)} empty, {self._mass(whole, full=True)} full of "
            "honey: lift with two, or comb by comb."
        )

    def _mass(self, weight: Weight, *, full: bool = False) -> str:
        if self.subject.units == "mm":
            return f"{round(weight.full if full else weight.empty)} kg"
        return f"{round(weight.full_pounds if full else weight.pounds)} lb"

    @cached_property
    def _rows(self) -> list[tuple[str, tuple[str, ...], Mark]]:
        """What each label points to, by how its pieces' names begin, and what it says."""
        lap, shown = min(skirt_laps(self._stack).values()), self.subject.shown
        laps = (
            f"skirt laps the box {shown(lap)}"
            if lap > 0
            else f"skirt ends {shown(-lap)} above the box"
        )
        rows: list[tuple[str, tuple[str, ...], Mark]] = [
            ("roof: cover", ("roof", self._mass(self._weights["roof"])), "plain"),
            ("roof: skirt side, right", (laps,), "plain" if lap > 0 else "wrong"),
        ]
        rows += [self._box(tier) for tier in range(int(self.subject.now["boxes"]), 0, -1)]
        board = self._weights["bottom board"]
        entrance = next(way for way in ways(self._stack) if way.name == "entrance")
        told = ("bottom board", self._mass(board), f"way in {shown(entrance.least)}")
        return [*rows, ("bottom board: side rail, right", told, "plain")]

    def _box(self, tier: int) -> tuple[str, tuple[str, ...], Mark]:
        several = self.subject.now["boxes"] > 1
        weight = self._weights[f"box {tier}" if several else "box"]
        high = self.subject.shown(box_height(self.subject.now, self.built))
        name = f"box {tier}, {high}" if several else f"box, {high}"
        told = (name, f"{self._mass(weight)}, full {self._mass(weight, full=True)}")
        part = "sleeve" if "sleeve" in self.built else "box"
        return f"{part} {tier}:" if tier > 1 else f"{part}:", told, "plain"

    def _labels(self, seen: Sequence[Face]) -> Iterator[Label]:
        for starts, lines, mark in self._rows:
            place = spot(seen, lambda solid, starts=starts: solid.name.startswith(starts))  # type: ignore[misc]
            yield Label(fitted(lines, LABELS, mark), place, mark=mark)
