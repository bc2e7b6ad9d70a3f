"""The box and its sleeve from above, as rectangles that grow outwards from the frames."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from itertools import pairwise

from hivecalc.drawing.canvas import (
    CROSSWAYS,
    FOAMED,
    LENGTHWAYS,
    MARGIN,
    OUTLINE,
    PAPER,
    PENCIL,
    THIN,
    WIDTH,
    WOOD,
    Canvas,
    Finish,
    Pen,
)
from hivecalc.drawing.labels import (
    Dim,
    Label,
    Row,
    Text,
    depth,
    draw_column,
    draw_dims,
    in_rows,
    room_for,
    text_end,
)
from hivecalc.drawing.layout import Side
from hivecalc.drawing.subject import Subject, View
from hivecalc.drawing.svg import Picture
from hivecalc.length import Length
from hivecalc.part import ENDS, SIDES
from hivecalc.space import Solid, solids, surroundings
from hivecalc.space.box import outline
from hivecalc.space.solids import Interval, hive_outline, hull, rectangle

HEADING = "From above, front at left"
HIGHEST = 280.0  # of the outermost rectangle on the sheet
WINDOW_WIDE, WINDOW_HIGH = 190, 104
EDGE, BEYOND = Fraction(1, 16), Fraction(3, 4)  # of the enlargement, outside and inside
LABELS = 14.0  # between the enlargement and its labels
FRAME, PLAIN = Finish(THIN, PAPER), Finish(OUTLINE, PAPER)
HIVE = ("hive_width", "hive_length")
COMB = Pen(PENCIL, 2)
SKIN = Finish(OUTLINE, WOOD, "strip")
LOOKS = {"side": LENGTHWAYS, "end": CROSSWAYS, "foam": FOAMED, "skin": SKIN}
# The layers that a label tells the thickness of, from outside inwards: the piece, and the words.
THICKNESSES = (
    ("skin side, left", "skin_thickness", "skin"),
    ("foam side, left", "foam_thickness", "foam"),
    ("side, left", "board_thickness", "board"),
)
FOUND_BY = {
    "inside": ("box.inside_width", "box.inside_length"),
    "box": ("box_width", "box_length"),
    **dict.fromkeys(("foam", "skin", "hive"), HIVE),
}
"""The dimensions across and along the hive by which the size of a layer is found."""
GROWS = "Each layer is added on both sides."
STRIPS = "Not shown: the edge strips over the foam."
FROM_OUTSIDE = "This hive was measured from outside: what lies within is not known."


def nested(subject: Subject) -> Picture:
    """SVG picture of the hive from above, growing outwards: frames, inside, boards, foam, skin.

    Only what is built or was measured is shown; of a hive measured from outside, its outline.
    """
    before = None if subject.was is None else replace(subject, now=subject.was, was=None)
    return _Nested(subject, _Nested(before) if before else None).picture()


@dataclass(frozen=True)
class _Layer:
    """A rectangle from above: its word and from where to where it reaches, across and along.

    The word may be another along the hive: frames are counted across it.
    """

    kind: str
    word: str
    reach: tuple[Interval, Interval]
    along: str = ""

    @property
    def size(self) -> tuple[Length, Length]:
        """How wide and how long it is."""
        (x0, x1), (y0, y1) = self.reach
        return x1 - x0, y1 - y0


@dataclass(frozen=True)
class _Nested:
    """The hive from above, beside how it was before; the layers' sizes may still be asked for."""

    subject: Subject
    before: "_Nested | None" = None

    def picture(self) -> Picture:
        canvas = Canvas()
        heading = canvas.paragraph(HEADING, MARGIN, bold=True)
        view, above = self._view(heading)
        columns = in_rows(self._dims("left", view), heading)
        with canvas.view("from above", view.scale):
            self._draw_pieces(canvas, view)
            draw_dims(canvas, "top", view.top, above)
            draw_dims(canvas, "left", view.left, columns)
        bottom = max(view.bottom, text_end(columns))
        if self._thicknesses:
            bottom = self._draw_corner(canvas, bottom + MARGIN)
        sentences = [FROM_OUTSIDE]
        if self._has_box or self._has_sleeve:
            sentences = [f"{GROWS} {STRIPS}" if self._has_sleeve else GROWS]
        sentences += self._were
        bottom = canvas.paragraphs(sentences, bottom + MARGIN)
        said = [f"{layer.word} {self._by(layer)}" for layer in self.layers]
        texts = (self._thick(name, word) for _, name, word in self._thicknesses)
        said += [f"{', '.join(text.lines)} thick" for text in texts]
        words = " ".join((f"{HEADING}, along by across: {'; '.join(said)}.", *sentences))
        title = "The hive from above, from the inside outwards"
        return canvas.picture(title, words, bottom + MARGIN, self.subject.name)

    # What is known of the hive

    @cached_property
    def _has_box(self) -> bool:
        return "box.inside_width" in self.subject.now

    @cached_property
    def _has_sleeve(self) -> bool:
        return "sleeve.clear_height" in self.subject.now

    @cached_property
    def _pieces(self) -> dict[str, Solid]:
        """Every piece that is seen, but the edge strips, which would hide the foam."""
        components = (("box", self._has_box), ("sleeve", self._has_sleeve))
        found = (s for c, built in components if built for s in solids(self.subject.now, c))
        return {s.label: s for s in found if _stem(s) in LOOKS}

    @cached_property
    def layers(self) -> list[_Layer]:
        """The rectangles that are known of this hive, from the inside outwards."""
        found = list[_Layer]()
        if self._has_box:
            (bars,) = (s for s in surroundings(self.subject.now, "box") if s.part == "top_bars")
            frames = f"{self.subject.now['frames']} frames"
            found.append(_Layer("frames", frames, bars.extents[:2], "top bar"))
            left, right = (self._pieces[f"side, {place}"].extents[0] for place in SIDES)
            front, back = (self._pieces[f"end, {place}"].extents[1] for place in ENDS)
            found.append(_Layer("inside", "inside", ((left[1], right[0]), (front[1], back[0]))))
        if self._has_box or self._has_sleeve:
            found.append(_Layer("box", "box", outline(self.subject.now)))
        if self._has_sleeve:
            found += [self._round("foam", "with foam"), self._round("skin", "hive")]
            size = tuple(self.subject.now[name] for name in HIVE)
            if found[-1].size != size:  # the hive was measured otherwise
                found[-1] = replace(found[-1], word="with skin")
        if not found:  # it was measured from outside
            found.append(_Layer("hive", "hive", hive_outline(self.subject.now)))
        return found

    def _round(self, stem: str, word: str) -> _Layer:
        x, y, _ = hull(s.extents for s in self._pieces.values() if _stem(s) == stem)
        return _Layer(stem, word, (x, y))

    # Words

    @property
    def _were(self) -> list[str]:
        """What each layer that changed was before, from the inside outwards."""
        olds = ((layer, self._old(layer)) for layer in self.layers)
        changed = [
            f"{old.word} was {self._by(old)}." for new, old in olds if old and old.size != new.size
        ]
        return ["Before, along by across:", *changed] if changed else []

    def _by(self, layer: _Layer) -> str:
        across, along = (self._size(layer, i) for i in range(2))
        return f"{along} by {across}"

    def _size(self, layer: _Layer, axis: int) -> str:
        """One size of a layer as it stands on the picture, across the hive or along it."""
        asked = self.subject.asked and layer.kind != "frames"
        unknown = asked and FOUND_BY[layer.kind][axis] not in self.subject.found
        return "?" if unknown else self.subject.shown(layer.size[axis])

    def _old(self, layer: _Layer) -> _Layer | None:
        layers = self.before.layers if self.before else []
        return next((old for old in layers if old.kind == layer.kind), None)

    def _thick(self, name: str, word: str) -> Text:
        """A layer's thickness in words, and below it what it was before."""
        now = self.subject.now[name]
        before = self.before.subject.now.get(name, now) if self.before else now
        return self.subject.compared(word, now, before)

    # Dimension lines

    def _view(self, heading: float) -> tuple[View, list[Row]]:
        """The hive as big as the sheet allows, and the rows of dimension lines above it."""
        outer = self.layers[-1]
        left = MARGIN + room_for(self._dims("left"))
        across, along = map(float, outer.size)
        scale = min((WIDTH - MARGIN - left) / along, HIGHEST / across)
        view = View(left, 0, scale, *outer.reach[::-1], down=True)
        rows = in_rows(self._dims("top", view), left, WIDTH - MARGIN)
        return replace(view, top=heading + depth(rows)), rows

    def _dims(self, side: Side, view: View | None = None) -> Iterator[Dim]:
        """A dimension line for each layer: across the hive at the left, along it above."""
        axis = 0 if side == "left" else 1
        place = (view.x if axis else view.y) if view else float
        for layer in self.layers:
            (low, high), size, old = layer.reach[axis], layer.size[axis], self._old(layer)
            changed = old is not None and old.size[axis] != size
            word = layer.along if axis and layer.along else layer.word
            text = Text((f"{word} {self._size(layer, axis)}",), "changed" if changed else "plain")
            yield Dim(word, size, text, place(low), place(high))

    # Shapes

    def _draw_pieces(self, canvas: Canvas, view: View) -> None:
        """Draw every piece from above, or a plain outline of what is not known within."""
        if not self._has_box:
            plain = self.layers[0]
            view.draw(canvas, rectangle(*plain.reach[::-1]), PLAIN, {"part": plain.word})
        found = ((s, rectangle(*s.extents[1::-1])) for s in self._pieces.values())
        view.draw_beside(canvas, ((o, LOOKS[_stem(s)], {"part": s.label}) for s, o in found))
        if self._has_box:
            self._draw_frames(canvas, view)

    def _draw_frames(self, canvas: Canvas, view: View) -> None:
        (x, y), spacing = self.layers[0].reach, self.subject.now["frame_spacing"]
        places = [x[0] + i * spacing for i in range(int(self.subject.now["frames"]) + 1)]
        frames = list(pairwise(places))
        outlines = (
            (rectangle(y, frame), FRAME, {"part": f"frame {i}"})
            for i, frame in enumerate(frames, 1)
        )
        view.draw_beside(canvas, outlines)
        for low, high in frames:
            middle = view.seen([(along, (low + high) / 2) for along in y])
            if middle:
                canvas.path(middle, COMB)

    # A corner, enlarged

    @property
    def _thicknesses(self) -> list[tuple[str, str, str]]:
        return [row for row in THICKNESSES if row[0] in self._pieces]

    def _draw_corner(self, canvas: Canvas, top: float) -> float:
        top = canvas.paragraph("Front left corner, enlarged", top, bold=True) + 5
        x, y = self.layers[-1].reach
        deep = sum((self.subject.now[name] for _, name, _ in self._thicknesses), BEYOND)
        scale, across, along = WINDOW_HIGH / deep, x[0] - EDGE, y[0] - EDGE
        window = (along, along + WINDOW_WIDE / scale), (across, across + deep)
        view = View(MARGIN, top, float(scale), *window, down=True)
        view.draw_framed(canvas, "corner, enlarged", self._draw_pieces)
        labels, at = list[Label](), view.right - 14
        for piece, name, word in self._thicknesses:
            low, high = map(view.y, self._pieces[piece].extents[0])
            labels.append(Label(self._thick(name, word), (at, (low + high) / 2)))
        first = self.layers[0]  # the frames, or the box that stands there
        middle = (view.y(first.reach[0][0]) + view.bottom) / 2
        labels.append(Label(Text((first.word,)), (at, middle)))
        return draw_column(canvas, "right", view.right + LABELS, labels, (top, view.bottom))


def _stem(piece: Solid) -> str:
    return piece.part if piece.part in LOOKS else piece.part.rpartition("_")[0]
