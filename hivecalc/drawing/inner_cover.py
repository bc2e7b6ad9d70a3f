"""The inner cover taken apart: a sheet with its slot, rim, notch and channel, a sheet."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import chain

from hivecalc.drawing.canvas import (
    CHANGED_LINE,
    MARGIN,
    OUTLINE,
    WIDTH,
    WRONG,
    Canvas,
    Pen,
    Picture,
)
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
from hivecalc.drawing.whole_hive import ACROSS, Lift, beside_labels, draw_guides, eye_on, layers
from hivecalc.length import Length
from hivecalc.part import SIZES
from hivecalc.space import Solid
from hivecalc.space.solids import AXES, Block, Extents, hull, rectangle

TITLE = "The inner cover, taken apart"
COMPONENT = "inner_cover"
LABELS = 142.0  # width of the column of labels
BESIDE = 14.0  # between the pieces and their labels
LARGEST = 14.0  # scale: sheet units for an inch of a hive that is small
LEAST_GAP = 30.0  # between two layers, on the sheet
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
LOWER = "sheet, lower"
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
        canvas = Canvas(lit=self.subject.lit)
        top = canvas.paragraph(TITLE, MARGIN, bold=True)
        top = canvas.paragraph(self._intro, top) + MARGIN
        eye = eye_on(self._layers, self._left, self._right, top, self._lifted[1])
        seen = faces_seen([piece for layer in self._layers for piece in layer.lifted], eye)
        with canvas.view("exploded", eye.scale):
            draw_guides(canvas, eye, self.subject.now, self._layers[-1].reach()[0])
            paint(canvas, seen, self._pen)
            self._mark_faults(canvas, eye)
            self._draw_notch(canvas, eye)
        bottom = max(y for one in seen for _, y in one.points)
        column = sorted(self._labels(seen, eye), key=lambda label: label.target[1])
        bottom = draw_column(canvas, "right", WIDTH - MARGIN - LABELS, column, (top, bottom))
        self._number_faults(canvas, eye, (top, bottom))
        bottom = tell_all(
            canvas, self._found, self.subject.units, bottom + MARGIN, eye.scale,
            lambda fault, top: self._enlarge(canvas, fault, top),
        )  # fmt: skip
        texts = [fault.consequence.sentence for fault in self._found]
        words = " ".join([f"{TITLE}. {self._intro}", *self._texts(), *texts])
        return canvas.picture(TITLE, words, bottom, self.subject.name)

    @property
    def _intro(self) -> str:
        now, shown = self.subject.now, self.subject.shown
        length, width = (shown(now[n]) for n in ("hive_length", "hive_width"))
        height = ", ".join(self.subject.said(HEIGHT, "").lines)
        return f"Front at lower left. Length {length}, width {width}, height{height}."

    def _texts(self) -> Iterator[str]:
        for part, _, word in self._pieces:
            yield f"{', '.join((word, *self._sizes(part)))}.".capitalize()
        yield f"{self._lower_word}.".capitalize()
        for lines in (self._notch_text.lines, self._slot_lines):
            if lines:
                yield f"{', '.join(lines)}.".capitalize()

    @property
    def _pieces(self) -> tuple[Named, ...]:
        """The pieces that have a label: another front, and a channel, where there is a notch."""
        return (SHEET, *RIM, *(WITH_A_WAY if self.subject.now["inner_notch"] else CLOSED))

    @property
    def _lower_word(self) -> str:
        return "lower sheet, as big" + (", with the slot" if self._slot else "")

    # The layers

    @cached_property
    def _lifted(self) -> tuple[list[Lift], float]:
        """The layers, so far apart that their labels fit beside them, and their scale."""
        flat = list(layers(COMPONENT, list(self.subject.solids.values())))
        wide = self._right - self._left
        return beside_labels(flat, self._column_height, wide, LARGEST, LEAST_GAP)

    @property
    def _layers(self) -> list[Lift]:
        return self._lifted[0]

    @property
    def _column_height(self) -> float:
        texts = [self._text(part, word) for part, _, word in self._pieces]
        texts += [Text((self._lower_word,)).fitted(LABELS), self._notch_text]
        texts += [Text(self._slot_lines)]
        return sum(Label(text, (0.0, 0.0)).height + 2 for text in texts if text.lines)

    @property
    def _left(self) -> float:
        return MARGIN + (NUMBERS if self._found else 0.0)

    @property
    def _right(self) -> float:
        return WIDTH - MARGIN - LABELS - BESIDE

    def _pen(self, solid: Solid) -> Pen:
        return LINE if self.subject.pen(solid) is OUTLINE else CHANGED_LINE

    # The notch and the slot

    @property
    def _slot(self) -> Place | None:
        blocks = self.subject.solids[LOWER].blocks
        if len(blocks) == 1:
            return None
        (_, before, behind, _), top = blocks, self.subject.solids[LOWER].extents[2][1]
        x, y = before.extents[0], (before.extents[1][1], behind.extents[1][0])
        return float(x[0] + x[1]) / 2, float(y[0] + y[1]) / 2, float(top)

    @property
    def _slot_lines(self) -> tuple[str, ...]:
        if not self._slot:
            return ()
        sizes = [self.subject.figure(f"{COMPONENT}.slot_{size}") for size in ("width", "length")]
        return (f"slot {_by(sizes)}",)

    @property
    def _notch(self) -> tuple[Place, Place]:
        """From where to where the rim's front is open, before it and above its layer's lift."""
        left, right = (self.subject.solids[f"rim front, {side}"] for side in ("left", "right"))
        z = float(left.extents[2][1])
        return (float(left.extents[0][1]), 0.0, z), (float(right.extents[0][0]), 0.0, z)

    @cached_property
    def _notches(self) -> tuple[Length | None, Length | None]:
        """How wide the notch is, and was before; None where it is closed."""
        return _notch(self.subject.solids), _notch(self.subject.solids_before)

    @property
    def _notch_text(self) -> Text:
        (now, before), subject = self._notches, self.subject
        if now is None and before is None:
            return Text(())
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
        lift = next(la.lift for la in self._layers if any(s.part == "rim_side" for s in la.solids))
        away = NOTCH_LINE / eye.scale
        start, end = (eye.at((x, y - away, z + lift)) for x, y, z in self._notch)
        return start, end

    def _draw_notch(self, canvas: Canvas, eye: Eye) -> None:
        width, _ = self._notches
        if width is None or width <= 0:
            return
        start, end = self._notch_line(eye)
        away = NOTCH_LINE * ACROSS, -NOTCH_LINE / 2
        edges = [(x + away[0], y + away[1]) for x, y in (start, end)]
        draw_measures(canvas, ((start, end), edges, {"name": "inner_notch", "exact": width}))

    # Labels

    def _labels(self, seen: Sequence[Face], eye: Eye) -> Iterator[Label]:
        for part, starts, word in self._pieces:
            yield Label(self._text(part, word), _spot(seen, starts))
        yield Label(Text((self._lower_word,)).fitted(LABELS), _spot(seen, LOWER))
        if self._slot:
            x, y, z = self._slot
            lift = next(la.lift for la in self._layers if la.solids[0].label == LOWER)
            yield Label(Text(self._slot_lines).fitted(LABELS), eye.at((x, y, z + lift)))
        if self._notch_text.lines:
            target = _spot(seen, "rim front")
            if self._notches[0] is not None:
                target = between(*self._notch_line(eye), 0.5)
            yield Label(self._notch_text.fitted(LABELS), target)

    def _text(self, part: str, word: str) -> Text:
        changed = any(self.subject.changed(name) for name in _names(part))
        lines = word, *self._sizes(part)
        return Text(lines, "changed" if changed else "plain").fitted(LABELS)

    def _sizes(self, part: str) -> tuple[str, ...]:
        """A part's sizes, and below them those to compare them with, if any is another."""
        now = _by([self.subject.figure(name) for name in _names(part)])
        compared = self.subject.compared_word
        changed = (
            f"{size} {compared} {self.subject.shown(self.subject.before[name])}"
            for size, name in zip(SIZES, _names(part), strict=True)
            if self.subject.changed(name) and not self.subject.asked
        )
        return (now, *changed)

    # What a wrong cut does

    @cached_property
    def _found(self) -> list[Misfit]:
        """All that a wrong cut does that can be shown, along any axis, numbered from 1."""
        views: tuple[Axes, Axes] = (("x", "y"), ("z", "z"))
        every = (Seen.of(self.subject, axes, lambda _: True).faults for axes in views)
        numbered = enumerate(list(chain.from_iterable(every))[:MOST], 1)
        return [replace(f, number=n, regions=tuple(dict.fromkeys(f.regions))) for n, f in numbered]

    @property
    def _marked(self) -> list[tuple[Misfit, Extents]]:
        return [(fault, region) for fault in self._found for region in fault.regions]

    def _mark_faults(self, canvas: Canvas, eye: Eye) -> None:
        """Draw the spaces that are taken twice or left open, each at the piece that does it."""
        for fault, region in self._marked:
            layer, solid = self._doer(fault, region)
            _draw_region(canvas, fault, (solid, region, layer.lift), eye)

    def _number_faults(self, canvas: Canvas, eye: Eye, between: tuple[float, float]) -> None:
        """Draw a numbered mark for each space in a column at the left, on a leader."""
        lifts = (self._doer(*marked)[0].lift for marked in self._marked)
        marks = [
            (eye.at(_nearest(*marked, lift)), marked[0].number)
            for marked, lift in zip(self._marked, lifts, strict=True)
        ]
        marks.sort(key=lambda mark: mark[0][1])
        levels = spread([place[1] for place, _ in marks], [APART] * len(marks), *between)
        for (place, number), level in zip(marks, levels, strict=True):
            centre = (MARGIN + RADIUS, level)
            canvas.line(place, centre, Pen(WRONG, 1))
            draw_number(canvas, number, centre)

    def _enlarge(self, canvas: Canvas, fault: Misfit, top: float) -> None:
        """Draw the fault put together, so near that it is easily seen, all above it left away."""
        frame = Box(MARGIN, top, MARGIN + INSET_WIDE, top + INSET_HIGH)
        region, scale = fault.regions[0], ENLARGED / float(fault.measure)
        layer, solid = self._doer(fault, region)
        x, y = Eye(scale=scale).at(_nearest(fault, region, 0.0))
        eye = Eye((frame.left + frame.right) / 2 - x, (frame.top + frame.bottom) / 2 - y, scale)
        below = self._layers[: self._layers.index(layer) + 1]
        seen = faces_seen([(s, (0.0, 0.0, 0.0)) for one in below for s in one.solids], eye)
        with canvas.view(f"fault {fault.number}", scale), canvas.window(frame):
            paint(canvas, seen, self._pen)
            _draw_region(canvas, fault, (solid, region, 0.0), eye, frame)
        canvas.frame(frame)

    def _doer(self, fault: Misfit, region: Extents) -> tuple[Lift, Solid]:
        """The piece that does it where this region is, and the layer that it lies in."""
        pairs = fault.consequence.pieces
        names = [*(pair[0] for pair in pairs), *chain.from_iterable(pair[1:] for pair in pairs)]
        pieces = [(layer, s) for layer in self._layers for s in layer.solids]
        doers = [p for p in pieces if p[1].name in names]
        doers.sort(key=lambda p: names.index(p[1].name))
        for layer, solid in doers:  # as it is and as it should be
            both = hull((solid.extents, self.subject.solids_before[solid.label].extents))
            if all(a[0] <= b[0] and b[1] <= a[1] for a, b in zip(both, region, strict=True)):
                return layer, solid
        return next(iter(doers), pieces[0])


def _names(part: str) -> list[str]:
    return [f"{COMPONENT}.{part}_{size}" for size in SIZES]


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


def _spot(seen: Sequence[Face], starts: str) -> Point:
    return spot(seen, lambda solid: solid.label.startswith(starts))


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
