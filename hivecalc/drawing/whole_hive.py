"""The whole hive: in layers, taken apart with the numbers of the parts table, and as it stands."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from itertools import pairwise
from math import hypot, sqrt

from hivecalc.components import BOXES, how_many, parts_of
from hivecalc.derivation import title
from hivecalc.drawing.canvas import HIDDEN, INK, MARGIN, THIN, WIDTH, Canvas, Hand, Pen
from hivecalc.drawing.labels import Label, Text, draw_column, draw_labels
from hivecalc.drawing.layout import ASCENT, LETTER, LINE, Point, counted, spread
from hivecalc.drawing.prisms import Eye, Face, Place, faces_seen, not_hidden, paint, spot
from hivecalc.drawing.subject import Sizes, Subject
from hivecalc.drawing.svg import Picture
from hivecalc.part import Part
from hivecalc.space import (
    Solid,
    Weight,
    box_height,
    is_kind,
    overall_height,
    skirt_laps,
    solids,
    stacked,
    way_in,
    weights,
)
from hivecalc.space import layers as layers_of
from hivecalc.space.roof import fall

LAYER_GAP = 0.08  # between layers: a share of the hive's diagonal
SIDE_STEP = 0.09  # of a piece to the side: as above
ACROSS = sqrt(3) / 2  # how far an inch of length or of width goes across an isometric drawing
BETWEEN_COMPONENTS = 1.5  # times the gap within a component

WAYS = {"left": (-1, 0), "right": (1, 0), "front": (0, -1), "back": (0, 1)}


@dataclass(frozen=True)
class Lift:
    """Some pieces of one component that are lifted together, and by how many inches."""

    component: str
    solids: tuple[Solid, ...]
    lift: float = 0.0

    def reach(self, slope: float = 0.0) -> tuple[float, float]:
        """The lowest and highest it reaches, counted from a plane that falls to the back."""
        heights = [
            float(z) + slope * float(y)
            for solid in self.solids
            for block in solid.blocks
            for y, z in block.profile
        ]
        return min(heights) + self.lift, max(heights) + self.lift


def layers(component: str, solids: Sequence[Solid]) -> Iterator[Lift]:
    """The layers of a component, from below upwards, none lifted yet; none without a piece."""
    left = list(solids)
    for kinds in layers_of(component):
        own = tuple(s for s in left if any(is_kind(s.label, one.kind) for one in kinds))
        left = [s for s in left if s not in own]
        if own:
            yield Lift(component, own)
    if left:
        raise ValueError(f"APART of space/{component}.py does not name the {left[0].label}")


def apart(found: Iterable[Lift], gap: float, slope: float = 0.0) -> list[Lift]:
    """Layers lifted, each until it is so many inches above the one below it.

    Between two components the gap is wider. The roof's layers keep theirs all along its slope.
    """
    lifted: list[Lift] = []
    for layer in found:
        lift = 0.0
        if lifted:
            below = lifted[-1]
            steep = slope if layer.component == below.component == "roof" else 0.0
            above = below.reach(steep)[1] + gap * _gaps(below, layer)
            lift = max(above - layer.reach(steep)[0], below.lift)
        lifted.append(replace(layer, lift=lift))
    return lifted


def beside_labels(  # noqa: PLR0913, PLR0917 - the room there is, and its limits
    found: Sequence[Lift],
    labels: float,
    wide: float,
    largest: float,
    least: float,
    slope: float = 0,
) -> tuple[list[Lift], float]:
    """Layers lifted so far that labels of this height fit beside them, and their scale.

    The scale is in units of the sheet for an inch, the least gap and the width in those units.
    """
    low, high = across(found)
    scale = min(largest, wide / (high - low) / ACROSS)
    low, high = down(apart(found, 0.0, slope))
    free = (labels - (high - low) * scale) / sum(_gaps(*pair) for pair in pairwise(found))
    return apart(found, max(least, free) / scale, slope), scale


def moves(values: Mapping[str, Fraction], components: Sequence[str]) -> list[tuple[Solid, Place]]:
    """Every piece of some components, and how far it moves where all is taken apart.

    On the way there no two pieces meet: each is lifted at least as far as what lies below it.
    """
    size = hypot(float(values["hive_length"]), float(values["hive_width"]))
    return [
        (solid, (*_aside(solid, size), layer.lift))
        for layer in apart(_flat(values, components), LAYER_GAP * size)
        for solid in layer.solids
    ]


def _flat(values: Mapping[str, Fraction], components: Sequence[str]) -> Iterator[Lift]:
    """The layers of some components from below upwards, box by box, none lifted yet.

    Of several components they are where they stand on one another, walls for boxes not built.
    """
    found: Sequence[Solid] = solids(values, components[0])
    if len(components) > 1:
        every = stacked(values, components)
        found = [s for s in every if s.component in components or s.part == "wall"]
    tiers = range(1, max(s.tier for s in found) + 1)
    boxes = [(component, tier) for tier in tiers for component in BOXES]
    for component, tier in (("bottom_board", 1), *boxes, ("inner_cover", 1), ("roof", 1)):
        own = [s for s in found if (s.component, s.tier) == (component, tier)]
        yield from layers(component, own)


def _gaps(below: Lift, layer: Lift) -> float:
    """How many gaps there are between two layers: more where a component begins."""
    return 1.0 if below.component == layer.component else BETWEEN_COMPONENTS


def _aside(solid: Solid, size: float) -> tuple[float, float]:
    """How far a piece comes away, across and along a hive of this size."""
    kinds = (one for layer in layers_of(solid.component) for one in layer)
    away = next(one for one in kinds if is_kind(solid.label, one.kind))
    x, y = WAYS.get(away.way or solid.place.rpartition(" ")[2], (0, 0))
    return x * away.steps * SIDE_STEP * size, y * away.steps * SIDE_STEP * size


def eye_on(
    found: Sequence[Lift], left: float, right: float, top: float, scale: float
) -> tuple[Eye, list[Face]]:
    """An eye on layers between two places across a sheet, from `top` downwards; what it sees."""
    low, high = (limit * ACROSS * scale for limit in across(found))
    eye = Eye((left + right - high - low) / 2, top - down(found)[0] * scale, scale)
    pieces = ((s, (0.0, 0.0, layer.lift)) for layer in found for s in layer.solids)
    return eye, faces_seen(pieces, eye)


def draw_guides(canvas: Canvas, eye: Eye, values: Mapping[str, Fraction], top: float) -> None:
    """Draw upright lines up to a height, at the three corners of the hive that are seen."""
    wide, long = float(values["hive_width"]), float(values["hive_length"])
    for x, y in ((0.0, 0.0), (wide, 0.0), (wide, long)):
        canvas.line(eye.at((x, y, 0.0)), eye.at((x, y, top)), HIDDEN)


def across(found: Iterable[Lift]) -> tuple[float, float]:
    """From where to where layers reach to the right on a sheet: inches of x and y together."""
    extents = [solid.extents for layer in found for solid in layer.solids]
    low = min(x[0] + y[0] for x, y, _ in extents)
    return float(low), float(max(x[1] + y[1] for x, y, _ in extents))


def down(found: Iterable[Lift]) -> tuple[float, float]:
    """From where to where layers reach on a sheet, counted downwards, in inches."""
    downs = [
        (float(x) - float(y)) / 2 - float(z) - layer.lift
        for layer in found
        for solid in layer.solids
        for block in solid.blocks
        for x in (block.x0, block.x1)
        for y, z in block.profile
    ]
    return min(downs), max(downs)


STACK = ("bottom_board", "box", "sleeve", "inner_cover", "roof")  # from below upwards


def part_numbers(values: Sizes, built: Iterable[str]) -> dict[tuple[str, str], int]:
    """The number of each part in the parts table, by its component and its name.

    `built` from components.built; the order is that of components.parts.
    """
    names = ((c, part.name) for c in built for part in parts_of(c, values))
    return {name: number for number, name in enumerate(names, 1)}


# ── taken apart ───────────────────────────────────────────────────────────────────────────────

PICTURE = 188.0  # width of the pieces on the sheet
BESIDE = 12.0  # between the pieces and the numbers
RADIUS = 11.5  # of a number's circle
ROOM = 6.0  # between a number and its part's name
LEAST_GAP = 13.0  # between two layers, on the sheet
LARGEST = 9.0  # scale: sheet units for an inch of a hive that is small
ELBOW = 8.0
NUMBERS_LEFT = MARGIN + PICTURE + BESIDE
TEXT_LEFT = NUMBERS_LEFT + 2 * RADIUS + ROOM
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
        eye, seen = eye_on(lifted, MARGIN, MARGIN + PICTURE, top, scale)
        bottom = max(y for face in seen for _, y in face.points)
        entries = list(self._legend(seen))
        with canvas.view("exploded", eye.scale):
            draw_guides(canvas, eye, self.subject.now, lifted[-1].reach()[0])
            paint(canvas, not_hidden(seen))
        front = next(face.box for face in seen if face.solid.part == "landing_board")
        middle = (front.left + front.right) / 2, (front.top + front.bottom) / 2
        draw_labels(
            canvas, "bottom", bottom + 10, [Label(Text(("front",)), middle)], (MARGIN, PICTURE)
        )
        column = self._draw_legend(canvas, entries, top, bottom)
        bottom = max(column, bottom + 14 + LINE) + MARGIN
        named = "The whole hive, taken apart"
        return canvas.picture(named, self._words, bottom, self.subject.name)

    @property
    def _intro(self) -> str:
        sizes = (self.subject.shown(self.subject.now[n]) for n in ("hive_length", "hive_width"))
        said = "Hive {} long, {} wide. The numbers are those of the parts table.".format(*sizes)
        boxes = int(self.subject.now["boxes"])
        several = boxes > 1 and any(c in self.built for c in BOXES)
        return f"{said} Of {boxes} boxes, one is shown." if several else said

    @property
    def _words(self) -> str:
        texts = []
        for component in self._from_above:
            parts = ", ".join(
                f"{self._numbers[component, part.name]} {title(part.name)} "
                f"× {self._count(component, part)}"
                for part in parts_of(component, self.subject.now)
            )
            texts.append(f"{title(component).capitalize()}: {parts}.")
        return " ".join(["The hive taken apart, from above downwards.", self._intro, *texts])

    # Layers

    @cached_property
    def _numbers(self) -> dict[tuple[str, str], int]:
        return part_numbers(self.subject.now, self.built)

    def _count(self, component: str, part: Part) -> int:
        return part.quantity * how_many(component, self.subject.now)

    @property
    def _from_above(self) -> list[str]:
        return [component for component in reversed(STACK) if component in self.built]

    @cached_property
    def _lifted(self) -> tuple[list[Lift], float]:
        """The layers, so far apart that their legend fits beside them, and their scale."""
        now = self.subject.now
        flat = [la for c in reversed(self._from_above) for la in layers(c, solids(now, c))]
        parts = [_Entry(self._lines(c, p), 0) for c in self.built for p in parts_of(c, now)]
        high = sum(entry.height for entry in parts) + len(self.built) * _Entry([""], 0).height
        return beside_labels(flat, high, PICTURE, LARGEST, LEAST_GAP, float(fall(now)))

    # The legend

    def _lines(self, component: str, part: Part) -> list[str]:
        room, count = WIDTH - MARGIN - TEXT_LEFT, self._count(component, part)
        return counted(title(part.name), count, room, always=True)

    def _legend(self, seen: Sequence[Face]) -> Iterator[_Entry]:
        """The components from above downwards, each followed by its parts as they lie."""
        for component in self._from_above:
            entries = list[_Entry]()
            for part in parts_of(component, self.subject.now):
                key = component, part.name
                place = spot(seen, lambda solid, key=key: (solid.component, solid.part) == key)  # type: ignore[misc]
                lines = self._lines(component, part)
                entries.append(_Entry(lines, place[1], self._numbers[key], place))
            entries.sort(key=lambda entry: entry.centre)
            yield _Entry([title(component).capitalize()], entries[0].centre - LINE)
            yield from entries

    def _draw_legend(
        self, canvas: Canvas, entries: Sequence[_Entry], top: float, bottom: float
    ) -> float:
        centres = [entry.centre for entry in entries]
        heights = [entry.height for entry in entries]
        places = spread(centres, heights, top, max(bottom, top + sum(heights)))
        for entry, y in zip(entries, places, strict=True):
            if entry.number:
                elbow = NUMBERS_LEFT - ELBOW, y
                canvas.path([(NUMBERS_LEFT, y), elbow, entry.spot], THIN)
                canvas.dot(entry.spot)
        for entry, y in zip(entries, places, strict=True):
            left = TEXT_LEFT if entry.number else NUMBERS_LEFT
            first = y - LINE * len(entry.lines) / 2 + 1 + ASCENT * LETTER
            for i, line in enumerate(entry.lines):
                canvas.text(line, (left, first + i * LINE), hand=Hand(bold=not entry.number))
            if entry.number:
                centre = (left - ROOM - RADIUS, y)
                canvas.number(entry.number, centre, RADIUS, CIRCLE, bold=False)
        return places[-1] + heights[-1] / 2


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
        right, whole = WIDTH - MARGIN - LABELS - BEFORE_LABELS, [Lift("", self._stack)]
        (left, most), (highest, lowest) = across(whole), down(whole)
        wide = (most - left) * ACROSS
        scale = min(LARGEST_STANDING, (right - MARGIN) / wide, HIGHEST / (lowest - highest))
        _, seen = eye_on(whole, MARGIN, right, top, scale)
        with canvas.view("standing", scale):
            paint(canvas, not_hidden(seen))
        column = list[Label]()
        for starts, text in self._rows:
            place = spot(seen, lambda solid, starts=starts: solid.name.startswith(starts))  # type: ignore[misc]
            column.append(Label(text.fitted(LABELS), place))
        column.sort(key=lambda label: label.target[1])
        bottom = max(y for face in seen for _, y in face.points)
        bottom = draw_column(canvas, "right", WIDTH - MARGIN - LABELS, column, (top, bottom))
        sentences = (f"{', '.join(text.lines).capitalize()}." for _, text in self._rows)
        words = " ".join((f"{STANDS}. {self._intro}", *sentences))
        return canvas.picture(STANDS, words, bottom + MARGIN, self.subject.name)

    @cached_property
    def _stack(self) -> tuple[Solid, ...]:
        return stacked(self.subject.now, self.built)

    @cached_property
    def _weights(self) -> dict[str, Weight]:
        return {weight.component: weight for weight in weights(self.subject.now, self.built)}

    @property
    def _intro(self) -> str:
        high, whole = self.subject.shown(overall_height(self._stack)), "whole hive"
        return (
            f"{high} high. About {self._mass(whole)} empty, {self._mass(whole, full=True)} full of "
            "honey: lift with two, or comb by comb."
        )

    def _mass(self, component: str, *, full: bool = False) -> str:
        weight = self._weights[component]
        if self.subject.units == "mm":
            return f"{round(weight.full if full else weight.empty)} kg"
        return f"{round(weight.full_pounds if full else weight.pounds)} lb"

    @cached_property
    def _rows(self) -> list[tuple[str, Text]]:
        """What each label points to, by how its pieces' names begin, and what it says."""
        lap, shown = min(skirt_laps(self._stack).values()), self.subject.shown
        laps = Text((f"skirt laps the box {shown(lap)}",))
        if lap <= 0:
            laps = Text((f"skirt ends {shown(-lap)} above the box",), "wrong")
        board = "bottom board", self._mass("bottom board"), f"way in {shown(way_in(self._stack))}"
        return [
            ("roof: cover", Text(("roof", self._mass("roof")))),
            ("roof: skirt side, right", laps),
            *(self._box(tier) for tier in range(int(self.subject.now["boxes"]), 0, -1)),
            ("bottom board: side rail, right", Text(board)),
        ]

    def _box(self, tier: int) -> tuple[str, Text]:
        several = self.subject.now["boxes"] > 1
        weight = f"box {tier}" if several else "box"
        high = self.subject.shown(box_height(self.subject.now, self.built))
        lines = f"{weight}, {high}", f"{self._mass(weight)}, full {self._mass(weight, full=True)}"
        part = "sleeve" if "sleeve" in self.built else "box"
        return f"{part} {tier}:" if tier > 1 else f"{part}:", Text(lines)
