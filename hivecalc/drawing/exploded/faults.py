"""What a wrong cut does, in space: marked on pieces taken apart, enlarged as they go together."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import chain

from hivecalc.drawing.exploded.layers import Layer
from hivecalc.drawing.exploded.painting import paint, painted
from hivecalc.drawing.exploded.space import Place, Projection, Shape, faces
from hivecalc.drawing.faults import (
    APART,
    ENLARGED,
    INSET_HIGH,
    INSET_WIDE,
    MOST,
    RADIUS,
    SPACE_LEFT_OPEN,
    SPACE_TAKEN_TWICE,
    Axes,
    Fault,
    draw_number,
    tell,
)
from hivecalc.drawing.layout import Box, spread
from hivecalc.drawing.roof.state import ComponentState
from hivecalc.drawing.svg import MARGIN, THIN, WRONG, Pen, Sheet
from hivecalc.drawing.view import within
from hivecalc.space import Block, Solid
from hivecalc.space.outlines import rectangle
from hivecalc.space.solids import AXES, Extents, hull

VIEWS: tuple[Axes, Axes] = (("x", "y"), ("z", "z"))


def found(state: ComponentState) -> list[Fault]:
    """All that a wrong cut does that can be shown, along any axis, numbered from 1."""
    every = (state.shown(axes, lambda _: True).faults for axes in VIEWS)
    numbered = enumerate(list(chain.from_iterable(every))[:MOST], 1)
    return [replace(f, number=n, regions=tuple(dict.fromkeys(f.regions))) for n, f in numbered]


@dataclass(frozen=True)
class FaultsInSpace:
    """Faults among pieces that are taken apart into these layers."""

    state: ComponentState
    faults: Sequence[Fault]
    layers: Sequence[Layer]
    pen: Callable[[Solid], Pen]

    def mark(self, sheet: Sheet, projection: Projection) -> None:
        """Draw the spaces that are taken twice or left open, each at the piece that does it."""
        for fault in self.faults:
            for region in fault.regions:
                layer, solid = self._doer(fault, region)
                _draw_region(sheet, fault, Shape(solid, _block(region), layer.lift), projection)

    def number(self, sheet: Sheet, projection: Projection, between: tuple[float, float]) -> None:
        """Draw a numbered mark for each space in a column at the left, on a leader."""
        marks = []
        for fault in self.faults:
            for region in fault.regions:
                lift = self._doer(fault, region)[0].lift
                marks.append((projection.at(_nearest(fault, region, lift)), fault.number))
        marks.sort(key=lambda mark: mark[0][1])
        heights = [place[1] for place, _ in marks]
        levels = spread(heights, [APART] * len(marks), *between)
        for (place, number), level in zip(marks, levels, strict=True):
            centre = (MARGIN + RADIUS, level)
            sheet.line(place, centre, Pen(WRONG, 1))
            draw_number(sheet, number, centre)

    def tell(self, sheet: Sheet, top: float, scale: float) -> float:
        """Draw each small fault enlarged, and its sentence; where the next may begin comes back."""
        for fault in self.faults:
            left, bottom = MARGIN, top
            if float(fault.measure) * scale < ENLARGED:
                self._enlarge(sheet, fault, top)
                left, bottom = MARGIN + INSET_WIDE + 10, top + INSET_HIGH
            top = max(bottom, tell(sheet, fault, self.state.units, (left, top))) + 10
        return top

    def _enlarge(self, sheet: Sheet, fault: Fault, top: float) -> None:
        """Draw the fault put together, so near that it is easily seen, all above it left away."""
        frame = Box(MARGIN, top, MARGIN + INSET_WIDE, top + INSET_HIGH)
        region, scale = fault.regions[0], ENLARGED / float(fault.measure)
        layer, solid = self._doer(fault, region)
        x, y = Projection(0, 0, scale).at(_nearest(fault, region, 0.0))
        middle = (frame.left + frame.right) / 2, (frame.top + frame.bottom) / 2
        projection = Projection(middle[0] - x, middle[1] - y, scale)
        below = self.layers[: self.layers.index(layer) + 1]
        seen = painted([[(s, 0.0) for s in one.solids] for one in below], projection)
        with sheet.view(f"fault {fault.number}", scale):
            paint(sheet, seen, self.pen, frame)
            _draw_region(sheet, fault, Shape(solid, _block(region)), projection, frame)
        corners = [(frame.left, frame.top), (frame.right, frame.top)]
        sheet.polygon([*corners, (frame.right, frame.bottom), (frame.left, frame.bottom)], THIN)

    def _doer(self, fault: Fault, region: Extents) -> tuple[Layer, Solid]:
        """The piece that does it where this region is, and the layer that it lies in."""
        pairs = fault.consequence.pieces
        names = [*(pair[0] for pair in pairs), *chain.from_iterable(pair[1:] for pair in pairs)]
        pieces = [(layer, s) for layer in self.layers for s in layer.solids]
        doers = sorted(
            (p for p in pieces if p[1].name in names), key=lambda p: names.index(p[1].name)
        )
        at = (d for d in doers if _reaches(self._grown(d[1]), region))
        return next(at, next(iter(doers), pieces[0]))

    def _grown(self, solid: Solid) -> Extents:
        """The extents of a piece as it is and as it should be."""
        return hull((solid.extents, self.state.solids_before[solid.label].extents))


def _reaches(extents: Extents, region: Extents) -> bool:
    return all(a[0] <= b[0] and b[1] <= a[1] for a, b in zip(extents, region, strict=True))


def _block(region: Extents) -> Block:
    x, y, z = region
    return Block(*x, rectangle(y, z))


def _nearest(fault: Fault, region: Extents, lift: float) -> Place:
    """The middle of a region along the fault's axis, at its nearest edge along the others."""
    i = AXES.index(fault.consequence.axis)
    near = (region[0][1], region[1][0], region[2][1])
    x, y, z = (float((e[0] + e[1]) / 2 if j == i else near[j]) for j, e in enumerate(region))
    return x, y, z + lift


def _draw_region(
    sheet: Sheet, fault: Fault, shape: Shape, projection: Projection, frame: Box | None = None
) -> None:
    """Draw the faces of the space that a fault marks, or as much of them as a frame shows."""
    kind = fault.consequence.kind
    look = SPACE_LEFT_OPEN if kind in {"open", "bare"} else SPACE_TAKEN_TWICE
    data = {"fault": kind, "exact": fault.measure}
    for face in faces(shape):
        points = [projection.at(corner) for corner in face.corners]
        shown = within(points, frame) if frame else points
        if shown:
            sheet.polygon(shown, look.pen, look.fill, look.hatch, data if shown == points else None)
