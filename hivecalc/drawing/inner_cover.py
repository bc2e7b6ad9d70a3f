"""The inner cover taken apart: a sheet with its slot, rim, notch and channel, a sheet."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import chain

from hivecalc.drawing.canvas import CHANGED_LINE, MARGIN, OUTLINE, WIDTH, WRONG, Canvas, Pen
from hivecalc.drawing.faults import (
    APART,
    ENLARGED,
    INSET_HIGH,
    INSET_WIDE,
    MOST,
    RADIUS,
    Axes,
    Misfit,
    Seen,
    draw_number,
    tell_all,
)
from hivecalc.drawing.labels import Label, Text, draw_column, draw_measures
from hivecalc.drawing.layout import Box, Point, spread
from hivecalc.drawing.prisms import (
    LINE,
    Eye,
    Face,
    Place,
    Prism,
    between,
    faces,
    faces_seen,
    paint,
    spot,
)
from hivecalc.drawing.subject import BEYOND, Named, Subject, within
from hivecalc.drawing.svg import Picture
from hivecalc.drawing.whole_hive import ACROSS, Lift, beside_labels, draw_guides, eye_on, layers
from hivecalc.length import Length
from hivecalc.part import SIZES
from hivecalc.space import Solid
from hivecalc.space.inner_cover import slot
from hivecalc.space.solids import AXES, Block, Extents, rectangle

TITLE = "The inner cover, taken apart"
COMPONENT = "inner_cover"
LABELS = 142.0  # width of the column of labels
BESIDE = 14.0  # between the pieces and their labels
LARGEST = 14.0  # scale: sheet units for an inch of a hive that is small
LEAST_GAP = 30.0  # between two layers, on the sheet
RIGHT = WIDTH - MARGIN - LABELS - BESIDE
NUMBERS = 2 * RADIUS + 8  # room for the numbers of faults
NOTCH_LINE = 11.0  # how far before the rim the notch is measured, on the sheet
# The part, how the label of its piece begins, and the words for it.
SHEET: Named = ("sheet", "sheet, upper", "upper sheet")
RIM: tuple[Named, ...] = (
    ("rim_back", "rim back", "rim back"), ("rim_side", "rim side", "rim side × 2"),
)  # fmt: skip
CLOSED: tuple[Named, ...] = (("rim_front", "rim front", "rim front"),)
WITH_A_WAY: tuple[Named, ...] = (
    ("rim_front", "rim front", "rim front × 2"),
    ("channel_back", "channel back", "channel back"),
    ("channel_side", "channel side", "channel side × 2"),
)
LOWER, NOTCH, SLOT = "sheet, lower", "notch", "slot"
HEIGHT = "inner_cover.overall_height"


def exploded_inner_cover(subject: Subject) -> Picture:
    """SVG picture of the inner cover taken apart: its pieces, notch and slot with their sizes.

    What a wrong cut lets overlap or stay open is marked, enlarged and named.
    """
    return _Apart(subject.of(COMPONENT)).picture()


@dataclass(frozen=True)
class _Apart:
    subject: Subject

    def picture(self) -> Picture:
        canvas, (layers, scale) = Canvas(lit=self.subject.lit), self._lifted
        top = canvas.paragraph(TITLE, MARGIN, bold=True)
        top = canvas.paragraph(self._intro, top) + MARGIN
        eye, seen = eye_on(layers, self._left, RIGHT, top, scale)
        with canvas.view("exploded", scale):
            draw_guides(canvas, eye, self.subject.now, layers[-1].reach()[0])
            paint(canvas, seen, self._pen)
            for fault, region, layer, solid in self._marked:
                _draw_region(canvas, fault, (solid, region, layer.lift), eye)
            self._draw_notch(canvas, eye)
        bottom = max(y for one in seen for _, y in one.points)
        column = sorted(self._labels(seen, eye), key=lambda label: label.target[1])
        bottom = draw_column(canvas, "right", WIDTH - MARGIN - LABELS, column, (top, bottom))
        self._number_faults(canvas, eye, (top, bottom))
        bottom = tell_all(
            canvas, self._found, self.subject.units, bottom + MARGIN, scale,
            lambda fault, top: self._enlarge(canvas, fault, top),
        )  # fmt: skip
        texts = [f"{', '.join(text.lines)}.".capitalize() for text in self._texts.values()]
        texts += [fault.consequence.sentence for fault in self._found]
        words = " ".join([f"{TITLE}. {self._intro}", *texts])
        return canvas.picture(TITLE, words, bottom, self.subject.name)

    @property
    def _intro(self) -> str:
        now, shown = self.subject.now, self.subject.shown
        length, width = (shown(now[n]) for n in ("hive_length", "hive_width"))
        height = ", ".join(self.subject.said(HEIGHT, "").lines)
        return f"Front at lower left. Length {length}, width {width}, height{height}."

    # The layers

    @cached_property
    def _lifted(self) -> tuple[list[Lift], float]:
        """The layers, so far apart that their labels fit beside them, and their scale."""
        flat = list(layers(COMPONENT, list(self.subject.solids.values())))
        texts = (text.fitted(LABELS) for text in self._texts.values())
        high = sum(Label(text, (0.0, 0.0)).height + 2 for text in texts)
        return beside_labels(flat, high, RIGHT - self._left, LARGEST, LEAST_GAP)

    @property
    def _left(self) -> float:
        return MARGIN + (NUMBERS if self._found else 0.0)

    def _pen(self, solid: Solid) -> Pen:
        return LINE if self.subject.pen(solid) is OUTLINE else CHANGED_LINE

    def _at(self, eye: Eye, label: str, place: Place) -> Point:
        """Where on the sheet one sees a place that is lifted with a piece."""
        x, y, z = place
        lift = next(la.lift for la in self._lifted[0] if any(s.label == label for s in la.solids))
        return eye.at((x, y, z + lift))

    # The notch

    @cached_property
    def _notches(self) -> tuple[Length | None, Length | None]:
        """How wide the notch is, and was before; None where it is closed."""
        return _notch(self.subject.solids), _notch(self.subject.solids_before)

    def _notch_text(self) -> Text | None:
        (now, before), subject = self._notches, self.subject
        if now is None and before is None:
            return None
        if now is None or now <= 0:
            lines = ["closed, no notch" if now is None else "no notch is left"]
            lines += [f"was {subject.shown(before)}"] if before else []
        elif subject.asked and now != before:
            lines = ["notch ?"]
        else:
            lines = [f"notch {subject.shown(now)}"]
            if now != before:
                was = subject.shown(before) if before else "closed"
                lines += [f"{subject.compared_word} {was}"]
        return Text(tuple(lines), "plain" if now == before else "changed")

    def _notch_line(self, eye: Eye) -> tuple[Point, Point]:
        """Where the notch is measured: before the rim's front, from where to where it is open."""
        left, right = (self.subject.solids[f"rim front, {side}"] for side in ("left", "right"))
        y, z = -NOTCH_LINE / eye.scale, float(left.extents[2][1])
        start, end = float(left.extents[0][1]), float(right.extents[0][0])
        return self._at(eye, left.label, (start, y, z)), self._at(eye, left.label, (end, y, z))

    def _draw_notch(self, canvas: Canvas, eye: Eye) -> None:
        width, _ = self._notches
        if width is None or width <= 0:
            return
        ends = self._notch_line(eye)
        edges = [(x + NOTCH_LINE * ACROSS, y - NOTCH_LINE / 2) for x, y in ends]
        draw_measures(canvas, (ends, edges, {"name": "inner_notch", "exact": width}))

    # Labels

    @cached_property
    def _texts(self) -> dict[str, Text]:
        """What the labels say, each by how the label of its piece begins; of notch and slot."""
        figure, open_front = self.subject.figure, bool(self.subject.now["inner_notch"])
        pieces = (SHEET, *RIM, *(WITH_A_WAY if open_front else CLOSED))
        texts = {starts: self._text(part, word) for part, starts, word in pieces}
        texts[LOWER] = Text((f"lower sheet, as big{', with the slot' * open_front}",))
        notch = self._notch_text()
        if notch:
            texts[NOTCH] = notch
        if open_front:
            sizes = [figure(f"{COMPONENT}.slot_{size}") for size in ("width", "length")]
            texts[SLOT] = Text((f"slot {_by(sizes)}",))
        return texts

    def _text(self, part: str, word: str) -> Text:
        """A part's sizes, and below them those to compare them with, if any is another."""
        subject, sizes = self.subject, {size: f"{COMPONENT}.{part}_{size}" for size in SIZES}
        changed = [size for size, name in sizes.items() if subject.changed(name)]
        before = (
            f"{size} {subject.compared_word} {subject.shown(subject.before[sizes[size]])}"
            for size in (() if subject.asked else changed)
        )
        now = _by([subject.figure(name) for name in sizes.values()])
        return Text((word, now, *before), "changed" if changed else "plain")

    def _labels(self, seen: Sequence[Face], eye: Eye) -> Iterator[Label]:
        for starts, text in self._texts.items():
            if starts == SLOT:
                (x0, x1), (y0, y1) = slot(self.subject.now)
                top = self.subject.solids[LOWER].extents[2][1]
                middle = float(x0 + x1) / 2, float(y0 + y1) / 2, float(top)
                target = self._at(eye, LOWER, middle)
            elif starts == NOTCH and self._notches[0] is not None:
                target = between(*self._notch_line(eye), 0.5)
            else:
                begins = "rim front" if starts == NOTCH else starts
                target = spot(seen, lambda solid, begins=begins: solid.label.startswith(begins))  # type: ignore[misc]
            yield Label(text.fitted(LABELS), target)

    # What a wrong cut does

    @cached_property
    def _found(self) -> list[Misfit]:
        """All that a wrong cut does that can be shown, along any axis, numbered from 1."""
        views: tuple[Axes, Axes] = (("x", "y"), ("z", "z"))
        every = (Seen.of(self.subject, axes, lambda _: True).faults for axes in views)
        return [replace(f, number=n) for n, f in enumerate([*chain.from_iterable(every)][:MOST], 1)]

    @property
    def _marked(self) -> list[tuple[Misfit, Extents, Lift, Solid]]:
        """Each space that is taken twice or left open, and the piece that does it, in its layer."""
        pieces = {s.name: (layer, s) for layer in self._lifted[0] for s in layer.solids}
        found = dict[tuple[int, Extents], tuple[Misfit, Extents, Lift, Solid]]()
        for fault in self._found:
            for region, names in zip(fault.regions, fault.doers, strict=True):
                layer, solid = next(pieces[name] for name in names if name in pieces)
                found.setdefault((fault.number, region), (fault, region, layer, solid))
        return list(found.values())

    def _number_faults(self, canvas: Canvas, eye: Eye, reach: Point) -> None:
        """Draw a numbered mark for each space in a column at the left, on a leader."""
        marks = [
            (eye.at(_nearest(fault, region, layer.lift)), fault.number)
            for fault, region, layer, _ in self._marked
        ]
        marks.sort(key=lambda mark: mark[0][1])
        levels = spread([place[1] for place, _ in marks], [APART] * len(marks), *reach)
        for (place, number), level in zip(marks, levels, strict=True):
            centre = (MARGIN + RADIUS, level)
            canvas.line(place, centre, Pen(WRONG, 1))
            draw_number(canvas, number, centre)

    def _enlarge(self, canvas: Canvas, fault: Misfit, top: float) -> None:
        """Draw the fault put together, so near that it is easily seen, all above it left away."""
        frame = Box(MARGIN, top, MARGIN + INSET_WIDE, top + INSET_HIGH)
        scale = ENLARGED / float(fault.measure)
        _, region, layer, solid = next(one for one in self._marked if one[0] is fault)
        x, y = Eye(scale=scale).at(_nearest(fault, region, 0.0))
        eye = Eye((frame.left + frame.right) / 2 - x, (frame.top + frame.bottom) / 2 - y, scale)
        layers = self._lifted[0]
        below = layers[: layers.index(layer) + 1]
        seen = faces_seen([(s, (0.0, 0.0, 0.0)) for one in below for s in one.solids], eye)
        with canvas.view(f"fault {fault.number}", scale), canvas.window(frame):
            paint(canvas, seen, self._pen)
            _draw_region(canvas, fault, (solid, region, 0.0), eye, frame)
        canvas.frame(frame)


def _by(figures: Sequence[str]) -> str:
    """Figures with "by" between them and the unit behind the last.

    >>> _by(["1/2 in", "1 1/2 in", "23 in"])
    '1/2 × 1 1/2 × 23 in'
    """
    *first, last = figures
    return " × ".join([*(f.removesuffix(" in").removesuffix(" mm") for f in first), last])


def _notch(solids: Mapping[str, Solid]) -> Length | None:
    """How wide the notch is between the two pieces of the rim's front, None where it is closed."""
    if "rim front" in solids:
        return None
    return solids["rim front, right"].extents[0][0] - solids["rim front, left"].extents[0][1]


def _nearest(fault: Misfit, region: Extents, lift: float) -> Place:
    """The middle of a region along the fault's axis, at its nearest edge along the others."""
    i = AXES.index(fault.consequence.axis)
    near = (region[0][1], region[1][0], region[2][1])
    x, y, z = (float((e[0] + e[1]) / 2 if j == i else near[j]) for j, e in enumerate(region))
    return x, y, z + lift


def _draw_region(
    canvas: Canvas,
    fault: Misfit,
    where: tuple[Solid, Extents, float],
    eye: Eye,
    frame: Box | None = None,
) -> None:
    """Draw the faces of the space that a fault marks, or as much of them as a frame shows."""
    solid, (x, y, z), lift = where
    space = Prism(replace(solid, blocks=(Block(*x, rectangle(y, z)),)), 0, (0.0, 0.0, lift))
    for face in faces(space, eye):
        shown = within(face.points, frame.grown(BEYOND)) if frame else face.points
        data = fault.data if shown == face.points else None
        if shown:
            canvas.polygon(shown, fault.finish, data)
