"""Pieces painted on a sheet in space: their faces, their materials, and where one can point."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from hivecalc.components import MODULES
from hivecalc.drawing.bottom_board.state import Sizes
from hivecalc.drawing.exploded.space import (
    Face,
    Projection,
    Side,
    bounds,
    covers,
    faces,
    in_order,
    shapes,
)
from hivecalc.drawing.layout import Box, Point
from hivecalc.drawing.svg import HIDDEN, INK, PENCIL, Pen, Sheet
from hivecalc.drawing.view import within
from hivecalc.space import Solid

LINE = Pen(INK, 0.8)
WIRE = Pen(PENCIL, 0.4)
WIRES = 9  # in each direction on a sheet of mesh, far fewer than there are
TINTS: dict[str, dict[Side, str]] = {
    "wood": {"top": "#fbf5e9", "front": "#f1e4cb", "right": "#e6d4b3"},
    "foam": {"top": "#eef3f6", "front": "#dfe8ee", "right": "#cfdce5"},
    "metal": {"top": "#efefef", "front": "#dedede", "right": "#cfcfcf"},
}
LOOKS = {"foam": "foam", "mesh": "metal", "sheet": "metal"}
MATERIALS = {
    (component, part.name): part.material
    for component, module in MODULES.items()
    for part in module.PARTS
}
TOWARDS = 0.72  # how far from a face's middle to its corners and edges one may point


@dataclass(frozen=True)
class Painted:
    """One face on the sheet: its outline, and the rectangle that holds it."""

    face: Face
    points: list[Point]

    @cached_property
    def box(self) -> Box:
        """The rectangle that holds the face."""
        return bounds(self.points)

    def hides(self, place: Point) -> bool:
        """Whether a place on the sheet lies in this face."""
        box = self.box
        inside = box.left <= place[0] <= box.right and box.top <= place[1] <= box.bottom
        return inside and covers(self.points, place)


def painted(
    layers: Iterable[Sequence[tuple[Solid, float]]], projection: Projection
) -> list[Painted]:
    """All faces that are seen, in the order in which they are painted, from the lowest layer up.

    Each layer is some pieces, with how much each is lifted, in inches.
    """
    found: list[Painted] = []
    for layer in layers:
        by_piece = {solid.name: shapes(solid, lift) for solid, lift in layer}
        for shape in in_order([shape for blocks in by_piece.values() for shape in blocks]):
            others = [other for other in by_piece[shape.solid.name] if other is not shape]
            found.extend(
                Painted(face, [projection.at(corner) for corner in face.corners])
                for face in faces(shape, others)
            )
    return found


def paint(
    sheet: Sheet,
    seen: Iterable[Painted],
    pen: Callable[[Solid], Pen] = lambda _: LINE,
    frame: Box | None = None,
) -> None:
    """Paint faces, or as much of them as a frame on the sheet shows."""
    for one in seen:
        points = within(one.points, frame) if frame else one.points
        if points:
            _paint_face(sheet, one, points, pen(one.face.solid), frame)


def _paint_face(
    sheet: Sheet, one: Painted, points: list[Point], pen: Pen, frame: Box | None
) -> None:
    face, whole = one.face, points == one.points
    material = MATERIALS.get((face.solid.component, face.solid.part), "board")  # plain walls
    tint = TINTS[LOOKS.get(material, "wood")][face.side]
    hatch = "foam" if material == "foam" else None
    data = {"part": face.solid.name, "side": face.side}
    if whole and not any(face.seams):
        sheet.polygon(points, pen, tint, hatch, data)
    else:
        sheet.polygon(points, None, tint, hatch, data if whole else None)
        for start, end in _drawn_edges(one, points, frame):
            sheet.line(start, end, pen)
    if material == "mesh" and face.side == "top" and whole:
        _paint_wires(sheet, points)


def _drawn_edges(
    one: Painted, points: list[Point], frame: Box | None
) -> Iterator[tuple[Point, Point]]:
    """The edges of a face that are no seam, or of a part of it those not on the frame."""
    ring = list(zip(points, (*points[1:], points[0]), strict=True))
    if frame is None or points == one.points:
        yield from (edge for edge, seam in zip(ring, one.face.seams, strict=True) if not seam)
        return
    for start, end in ring:
        if not any(
            start[i] == end[i] == limit for i in (0, 1) for limit in (frame[i], frame[i + 2])
        ):
            yield start, end


def draw_guides(sheet: Sheet, projection: Projection, values: Sizes, top: float) -> None:
    """Draw upright lines up to a height, at the three corners of the hive that are seen."""
    wide, long = float(values["hive_width"]), float(values["hive_length"])
    for x, y in ((0.0, 0.0), (wide, 0.0), (wide, long)):
        sheet.line(projection.at((x, y, 0.0)), projection.at((x, y, top)), HIDDEN)


def _paint_wires(sheet: Sheet, points: Sequence[Point]) -> None:
    """Draw some wires each way on a face with four corners."""
    a, b, c, d = points
    for (start, end), (other_start, other_end) in (((a, b), (d, c)), ((a, d), (b, c))):
        for i in range(1, WIRES + 1):
            share = i / (WIRES + 1)
            sheet.line(_between(start, end, share), _between(other_start, other_end, share), WIRE)


def _between(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def spot(seen: Sequence[Painted], is_meant: Callable[[Solid], bool]) -> Point:
    """The place farthest right where one sees a piece that is meant, or where it would be seen."""
    places = [
        (place, i)
        for i, one in enumerate(seen)
        if is_meant(one.face.solid)
        for place in _places(one)
    ]
    places.sort(key=lambda entry: -entry[0][0])
    free = (p for p, i in places if not any(other.hides(p) for other in seen[i + 1 :]))
    return next(free, places[0][0])


def _places(one: Painted) -> Iterator[Point]:
    """Places on a face: its middle, and some way from there to its corners and edges."""
    ring = one.points
    middle = sum(x for x, _ in ring) / len(ring), sum(y for _, y in ring) / len(ring)
    yield middle
    for start, end in zip(ring, (*ring[1:], ring[0]), strict=True):
        yield _between(middle, start, TOWARDS)
        yield _between(middle, _between(start, end, 0.5), TOWARDS)
