"""Pieces in space as one sees them from above, turned about an upright axis.

The look is down at a fixed angle, that of an isometric drawing (ISO 5456-3): turned by 45 degrees,
lines along the length, the width and the height are all drawn to one scale. Turned by 0 the front
looks at you, by 90 the right side.

All pieces are convex prisms, or a few of them put together. Of two that do not overlap, a plane
that parts them says which lies in front, so the order in which they are painted follows.
"""

from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from heapq import heapify, heappop, heappush
from itertools import chain, combinations, groupby, repeat
from math import cos, hypot, radians, sin, sqrt
from typing import TypeAlias

from hivecalc.drawing.canvas import INK, NO_LINE, PENCIL, Canvas, Finish, Pen
from hivecalc.drawing.layout import Box, Point
from hivecalc.space import Solid, material_of
from hivecalc.space.solids import edges

Place: TypeAlias = tuple[float, float, float]

ISOMETRIC = 45.0  # degrees of turn at which all three axes are drawn to one scale
DOWN, LEVEL = 1 / sqrt(3), sqrt(2 / 3)  # sine and cosine of the angle of the look
WIDER = 1 / LEVEL  # how much an isometric drawing is larger than what one sees
RISE = WIDER * DOWN  # how much a step away from the eye rises on the sheet
TOUCH = 1e-6  # inches: what is nearer than this touches

LINE = Pen(INK, 0.8)
WIRE = Pen(PENCIL, 0.4)
WIRES = 9  # in each direction on a sheet of mesh, far fewer than there are
TOWARDS = 0.72  # how far from a face's middle to its corners and edges one may point
POINTED_AT = 4.0  # units of the sheet that a face is wide and high
UPPER = 0.5  # of a face's normal along z: what looks up more than this is an upper face
# Of each material: the tint of an upper face, of one that looks left, of one that looks right.
TINTS = {
    "wood": ((251, 245, 233), (241, 228, 203), (230, 212, 179)),
    "foam": ((238, 243, 246), (223, 232, 238), (207, 220, 229)),
    "metal": ((239, 239, 239), (222, 222, 222), (207, 207, 207)),
    "lit": ((205, 228, 243), (181, 214, 236), (156, 199, 229)),
}
LOOKS = {"foam": "foam", "mesh": "metal", "sheet": "metal"}


@dataclass(frozen=True)
class Eye:
    """How a place in the hive, in inches, comes to a place on the sheet.

    `left` and `top` are where the place (0, 0, 0) is seen, `scale` is in units of the sheet for an
    inch, `turn` in degrees.
    """

    left: float = 0.0
    top: float = 0.0
    scale: float = 1.0
    turn: float = ISOMETRIC

    @cached_property
    def turned(self) -> Point:
        """Cosine and sine of the turn; nothing where they are nearly nothing."""
        c, s = cos(radians(self.turn)), sin(radians(self.turn))
        return 0.0 if abs(c) < TOUCH else c, 0.0 if abs(s) < TOUCH else s

    @cached_property
    def towards(self) -> Place:
        """The direction from the hive to the eye."""
        c, s = self.turned
        return s * LEVEL, -c * LEVEL, DOWN

    def at(self, place: Place) -> Point:
        """Where on the sheet a place is seen."""
        (x, y, z), (c, s) = place, self.turned
        return (
            self.left + (x * c + y * s) * WIDER * self.scale,
            self.top + ((x * s - y * c) * RISE - z) * self.scale,
        )


class Prism:
    """One block of a piece, moved by so much: from x0 to x1, with an outline in y and z."""

    __slots__ = ("profile", "solid", "square", "x", "y", "z")

    def __init__(self, solid: Solid, block: int, moved: Place = (0.0, 0.0, 0.0)) -> None:
        found, (dx, dy, dz) = solid.blocks[block], moved
        self.solid, self.square = solid, found.square
        self.x = float(found.x0) + dx, float(found.x1) + dx
        self.profile = [(float(y) + dy, float(z) + dz) for y, z in found.profile]
        ys, zs = zip(*self.profile, strict=True)
        self.y, self.z = (min(ys), max(ys)), (min(zs), max(zs))

    def holds(self, place: Place) -> bool:
        """Whether a place lies in this block or on its surface."""
        x, y, z = place
        return self.x[0] - TOUCH <= x <= self.x[1] + TOUCH and all(
            (y1 - y0) * (z - z0) - (z1 - z0) * (y - y0) >= -TOUCH
            for (y0, z0), (y1, z1) in edges(self.profile)
        )

    def depth(self, eye: Eye) -> float:
        """How near the eye its middle lies."""
        ex, ey, ez = eye.towards
        (x0, x1), (y0, y1), (z0, z1) = self.x, self.y, self.z
        found: float = ((x0 + x1) * ex + (y0 + y1) * ey + (z0 + z1) * ez) / 2
        return found

    def spans(self, eye: Eye) -> tuple[Point, Point, Point]:
        """From where to where it reaches on the sheet, square to each axis as that is drawn."""
        c, s = eye.turned
        ups = [-DOWN * y - c * LEVEL * z for y, z in self.profile]
        cross = sorted(-DOWN * x for x in self.x), sorted(s * LEVEL * z for z in self.z)
        level = sorted(c * x for x in self.x), sorted(s * y for y in self.y)
        return (
            (min(ups), max(ups)),
            (cross[0][0] + cross[1][0], cross[0][1] + cross[1][1]),
            (level[0][0] + level[1][0], level[0][1] + level[1][1]),
        )


def covers(points: Sequence[Point], place: Point) -> bool:
    """Whether a convex outline has a place in it."""
    x, y = place
    left = right = False
    x0, y0 = points[-1]
    for x1, y1 in points:
        turn = (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)
        left, right = left or turn > 0, right or turn < 0
        if left and right:
            return False
        x0, y0 = x1, y1
    return True


def overlaps(points: Sequence[Point], box: Box) -> bool:
    """Whether a convex outline, as `convex` gives it, and a rectangle share any area.

    >>> corner = [(0, 0), (4, 0), (0, 4)]
    >>> overlaps(corner, Box(1, 1, 9, 9)), overlaps(corner, Box(2, 2, 9, 9))
    (True, False)
    """
    left, top, right, bottom = box
    return all(
        (x1 - x0) * ((bottom if x1 > x0 else top) - y0)
        > (y1 - y0) * ((left if y1 > y0 else right) - x0)
        for (x0, y0), (x1, y1) in edges(points)
    )


def convex(points: Iterable[Point]) -> list[Point]:
    """The corners of the smallest convex outline that has all of these places in it.

    >>> convex([(0, 0), (2, 0), (1, 1), (2, 2), (0, 2)])
    [(0, 0), (2, 0), (2, 2), (0, 2)]
    """
    ordered = sorted(set(points))
    halves = []
    for some in (ordered, ordered[::-1]):
        half: list[Point] = []
        for x, y in some:
            while len(half) > 1:
                (x0, y0), (x1, y1) = half[-2:]
                if (x1 - x0) * (y - y1) > (y1 - y0) * (x - x1):
                    break  # it turns left
                half.pop()
            half.append((x, y))
        halves.append(half[:-1])
    return halves[0] + halves[1]


# ── what lies in front ────────────────────────────────────────────────────────────────────────


def in_order(prisms: Sequence[Prism], eye: Eye) -> list[Prism]:
    """Prisms in the order in which they are painted: what is hidden by another comes before it."""
    spans = [tuple(chain.from_iterable(prism.spans(eye))) for prism in prisms]
    later: list[list[int]] = [[] for _ in prisms]
    waits = [0] * len(prisms)
    for i, j in combinations(range(len(prisms)), 2):
        if _meet(spans[i], spans[j]):
            front = _in_front(prisms[i], prisms[j], eye)
            if front:
                first, last = (i, j) if front > 0 else (j, i)
                later[first].append(last)
                waits[last] += 1
    return [prisms[i] for i in _sorted([prism.depth(eye) for prism in prisms], later, waits)]


def _meet(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    a, b, c, d, e, f = one
    u, v, w, x, y, z = other
    return (
        a < v - TOUCH and u < b - TOUCH and c < x - TOUCH
        and w < d - TOUCH and e < z - TOUCH and y < f - TOUCH
    )  # fmt: skip


def _sorted(depths: Sequence[float], later: Sequence[list[int]], waits: list[int]) -> list[int]:
    """The places in an order that keeps to `later`, the farthest first where that leaves a choice.

    Where each waits for another in a circle, the one that waits for the fewest goes first.
    """
    found: list[int] = []
    left = set(range(len(depths)))
    ready = [(depth, i) for i, depth in enumerate(depths) if not waits[i]]
    heapify(ready)
    while left:
        i = heappop(ready)[1] if ready else min(left, key=lambda n: (waits[n], depths[n]))
        left.remove(i)
        found.append(i)
        for other in later[i]:
            waits[other] -= 1
            if not waits[other] and other in left:
                heappush(ready, (depths[other], other))
    return found


def _in_front(one: Prism, other: Prism, eye: Eye) -> int:
    """1 where the other may hide this one, -1 where this one may hide the other, else 0.

    Each plane that parts the two says that one of them can't hide the other. Where none does, they
    share some room, and the plane counts beyond which they share the least.
    """
    ways: set[int] = set()
    shared: list[tuple[float, int]] = []
    for low, high, towards in zip(
        (one.x, one.y, one.z), (other.x, other.y, other.z), eye.towards, strict=True
    ):
        for gap, way in ((high[0] - low[1], towards), (low[0] - high[1], -towards)):
            if gap >= -TOUCH:
                ways.add(_sign(way))
            else:
                shared.append((-gap, _sign(way)))
    for first, second, turn in ((one, other, 1), (other, one, -1)):
        if not first.square:
            ways.update(turn * way for way in _parting_edges(first, second, eye))
    if not ways:
        return min(shared)[1]
    return ways.pop() if len(ways) == 1 else 0


def _parting_edges(one: Prism, other: Prism, eye: Eye) -> Iterator[int]:
    """For each edge of the one's outline that has all of the other outside: the way it looks."""
    _, ey, ez = eye.towards
    for (y0, z0), (y1, z1) in edges(one.profile):
        out_y, out_z = z1 - z0, y0 - y1
        if all((y - y0) * out_y + (z - z0) * out_z >= -TOUCH for y, z in other.profile):
            yield _sign(out_y * ey + out_z * ez)


def _sign(value: float) -> int:
    return (value > TOUCH) - (value < -TOUCH)


# ── faces ─────────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Face:
    """One face that is seen: its corners on the sheet, which of its edges are seams, its shade.

    An edge is a seam where another block of the same piece goes on. The shade is -1 for an upper
    face, else from 0 for one that looks left to 1 for one that looks right.
    """

    solid: Solid
    block: "Prism"
    points: list[Point]
    seams: tuple[bool, ...]
    shade: float

    @property
    def edges(self) -> list[tuple[Point, Point]]:
        """Its edges that are no seams."""
        seams = self.seams or repeat(object=False)
        return [edge for edge, seam in zip(edges(self.points), seams, strict=False) if not seam]

    @cached_property
    def box(self) -> Box:
        """The rectangle that holds the face."""
        return Box.around(self.points)

    def covers(self, place: Point) -> bool:
        """Whether a place on the sheet lies in this face."""
        (x, y), box = place, self.box
        if not (box.left <= x <= box.right and box.top <= y <= box.bottom):
            return False
        return covers(self.points, place)


def faces(prism: Prism, eye: Eye, others: Iterable[Prism] = ()) -> Iterator[Face]:
    """The faces of a block that are seen; `others` are the other blocks of the same piece."""
    rest, (ex, ey, ez), (c, s) = tuple(others), eye.towards, eye.turned
    x0, x1 = prism.x
    for (y0, z0), (y1, z1) in edges(prism.profile):
        out_y, out_z = z1 - z0, y0 - y1
        if out_y * ey + out_z * ez > TOUCH:
            size = hypot(out_y, out_z)
            shade = -1.0 if out_z / size > UPPER else (1 + s * out_y / size) / 2
            corners = ((x0, y1, z1), (x0, y0, z0), (x1, y0, z0), (x1, y1, z1))
            yield _face(prism, corners, rest, eye, shade)
    if abs(ex) > TOUCH:
        x, way = (x1, 1) if ex > 0 else (x0, -1)
        cap = tuple((x, y, z) for y, z in prism.profile)
        yield _face(prism, cap, rest, eye, (1 + way * c) / 2)


def _face(
    prism: Prism, corners: tuple[Place, ...], others: Sequence[Prism], eye: Eye, shade: float
) -> Face:
    sides = edges(corners) if others else ()
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2) for a, b in sides]
    seams = tuple(any(other.holds(middle) for other in others) for middle in middles)
    return Face(prism.solid, prism, [eye.at(corner) for corner in corners], seams, shade)


def faces_seen(pieces: Iterable[tuple[Solid, Place]], eye: Eye) -> list[Face]:
    """All faces that are seen of some pieces, each moved by so much, in the order of painting."""
    blocks = {
        solid.name: [Prism(solid, i, moved) for i in range(len(solid.blocks))]
        for solid, moved in pieces
    }
    ordered = in_order([prism for own in blocks.values() for prism in own], eye)
    return [
        face
        for prism in ordered
        for face in faces(prism, eye, [o for o in blocks[prism.solid.name] if o is not prism])
    ]


def not_hidden(seen: Sequence[Face]) -> list[Face]:
    """Faces without those that a later one covers whole."""
    later: list[Face] = []
    for face in reversed(seen):
        left, top, right, bottom = face.box
        if not any(
            o.box[0] <= left and o.box[1] <= top and o.box[2] >= right and o.box[3] >= bottom
            and all(map(o.covers, face.points)) for o in later
        ):  # fmt: skip
            later.append(face)
    return later[::-1]


# ── paint ─────────────────────────────────────────────────────────────────────────────────────


def paint(
    canvas: Canvas,
    seen: Iterable[Face],
    pen: Callable[[Solid], Pen] = lambda _: LINE,
    *,
    lit: Collection[str] = (),
) -> None:
    """Paint faces; pieces of these names are lit."""
    for (name, _), own in groupby(seen, lambda face: (face.solid.name, id(face.block))):
        block = list(own)
        line = pen(block[0].solid)
        with canvas.noted({"part": name}):
            for face in block:
                _paint_face(canvas, face, line, lit=name in lit)


def _paint_face(canvas: Canvas, face: Face, pen: Pen, *, lit: bool) -> None:
    material = material_of(face.solid)
    upper, left, right = TINTS["lit" if lit else LOOKS.get(material, "wood")]
    mixed = [round(a + (b - a) * face.shade) for a, b in zip(left, right, strict=True)]
    tint = "#{:02x}{:02x}{:02x}".format(*(upper if face.shade < 0 else mixed))
    hatch = "foam" if material == "foam" else None
    canvas.polygon(face.points, Finish(NO_LINE if any(face.seams) else pen, tint, hatch))
    if any(face.seams):
        for edge in face.edges:
            canvas.line(*edge, pen)
    if material == "mesh" and face.shade < 0:
        a, b, c, d = face.points
        for one, other in (((a, b), (d, c)), ((a, d), (b, c))):
            for share in (i / (WIRES + 1) for i in range(1, WIRES + 1)):
                canvas.line(between(*one, share), between(*other, share), WIRE)


def mean(points: Sequence[Point]) -> Point:
    """The mean of some places."""
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)


def between(start: Point, end: Point, share: float) -> Point:
    """The place so far along the way from start to end."""
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def spot(seen: Sequence[Face], is_meant: Callable[[Solid], bool]) -> Point:
    """The place farthest right where one sees a piece that is meant, or where it would be seen."""
    found = visible_spot(seen, is_meant)
    hidden = (place for face in seen if is_meant(face.solid) for place in _places(face))
    return found or max(hidden)


def visible_spot(seen: Sequence[Face], is_meant: Callable[[Solid], bool]) -> Point | None:
    """The place farthest right where one sees a piece that is meant, if any of it is seen.

    A face too small to be pointed at counts only where no other is seen.
    """
    meant = [i for i, face in enumerate(seen) if is_meant(face.solid)]
    meant.sort(key=lambda i: (seen[i].box.right, i), reverse=True)
    boxes = {i: seen[i].box for i in meant}
    large = [i for i, b in boxes.items() if min(b.right - b.left, b.bottom - b.top) >= POINTED_AT]
    return _farthest(seen, large) or _farthest(seen, meant)


def _farthest(seen: Sequence[Face], meant: Sequence[int]) -> Point | None:
    """The visible place farthest right on some faces, the one that reaches farthest first."""
    best: Point | None = None
    for i in meant:
        box = seen[i].box
        if best and box.right <= best[0]:
            break
        over = [other for other in seen[i + 1 :] if other.box.meets(box)]
        for place in _places(seen[i]):
            farther = best is None or place[0] > best[0]
            if farther and not any(other.covers(place) for other in over):
                best = place
    return best


def _places(face: Face) -> Iterator[Point]:
    """Places on a face: its middle, and some way from there to its corners and edges."""
    middle = mean(face.points)
    yield middle
    for start, end in edges(face.points):
        yield between(middle, start, TOWARDS)
        yield between(middle, between(start, end, 0.5), TOWARDS)
