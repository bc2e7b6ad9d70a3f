"""A component, the whole hive, or some pieces of it, in space: turned, taken apart, a piece lit.

The picture keeps its size while it is turned and taken apart, so that nothing beside it moves.
"""

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache
from math import cos, dist, hypot, pi, sin
from typing import NamedTuple

from hivecalc.components import parts_of
from hivecalc.derivation import title
from hivecalc.drawing.canvas import (
    CHANGED,
    INK,
    MARGIN,
    NO_LINE,
    STRESSED,
    THIN,
    WIDTH,
    Canvas,
    Finish,
    Hand,
    Pen,
    figure,
)
from hivecalc.drawing.labels import draw_tick
from hivecalc.drawing.layout import ASCENT, LETTER, LINE, Box, Point, counted, spread, text_width
from hivecalc.drawing.prisms import LINE as EDGE
from hivecalc.drawing.prisms import (
    RISE,
    WIDER,
    Eye,
    Face,
    Place,
    between,
    convex,
    covers,
    faces_seen,
    mean,
    not_hidden,
    overlaps,
    paint,
    visible_spot,
)
from hivecalc.drawing.subject import Sizes
from hivecalc.drawing.svg import Picture
from hivecalc.drawing.whole_hive import moves
from hivecalc.length import Units
from hivecalc.part import ADJECTIVES, SIZES
from hivecalc.space import Solid
from hivecalc.space.solids import edges

HIGHEST, HIGHEST_HIVE = 230.0, 330.0  # of the pieces on the sheet, and of a whole hive's
MOST_NAMED = 2  # components whose parts are named: of more, only the components are
LARGEST = 14.0  # scale: sheet units for an inch of a hive that is small
RADIUS, NUMBER = 9.5, 20.0  # of a number's circle, and from one number to the next
BESIDE = 12.0  # between the pieces and the numbers
AROUND = 12.0  # room around the pieces for dimension lines
OFF, BEYOND = 7.0, 3.0  # of a dimension line: how far from its edge, how far lines go past it
COMPASS = (40.0, 42.0)  # room for the needle that points to the front
LIT, GHOST = Pen(CHANGED, 2.4), Pen(CHANGED, 1.0, "3 2")
MEASURED, ENDS = Pen(CHANGED, 1.1), Pen(INK, 1.3)
LOOKS = (
    "the front", "the front right", "the right", "the back right",
    "the back", "the back left", "the left", "the front left",
)  # fmt: skip
NEARLY = 0.001  # inches: how far the slanting side of a piece may be off its size as cut
FAR = (4.0, 12.0, 24.0, 44.0, 70.0, 104.0, 150.0)  # how far from its line a figure may stand
# How much farther off a figure stands rather than hide a place more of what is drawn, or touch it.
HIDES, TOUCHES = 60.0, 25.0
WAYS = [(cos(n * pi / 8), sin(n * pi / 8)) for n in range(16)]


def in_space(  # noqa: PLR0913 - all that can be chosen of one look
    values: Sizes,
    components: Sequence[str],
    *,
    turn: float = 30.0,
    opened: float = 0.0,
    lit: str = "",
    shown: Collection[str] | None = None,
    new: Collection[str] = (),
    asked: Collection[str] = (),
    units: Units = "inch",
    name: str = "",
) -> Picture:
    """SVG picture of a component in space, or of several as they stand on one another.

    Turned by 0 degrees the front looks at you, by 90 the right side. `opened` is from 0, put
    together, to 1, taken apart. The part that is `lit`, such as "roof.deck", has its three sizes.
    `shown` are the parts, or the names of single pieces, that are there; left out, all are. Those
    that are `new` are lit without their sizes, and only outlined beside a part that is lit. A "?"
    stands for the figures of the dimensions that are still `asked`.
    """
    drawn = _Look(values, tuple(components), turn, opened, lit, shown, new, units, asked)
    return drawn.picture(name)


def seen_from(turn: float) -> str:
    """Where one looks from, in words.

    >>> seen_from(0), seen_from(50), seen_from(-90)
    ('the front', 'the front right', 'the left')
    """
    return LOOKS[round(turn / 360 * len(LOOKS)) % len(LOOKS)]


def lies(solid: Solid) -> str:
    """How a piece lies, which its three sizes say: on edge, flat, upright or on a slope.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.space import solids
    >>> board = solids(values(demo_hive()), "bottom_board")
    >>> lies(board[0]), lies(board[7])
    ('stands on edge', 'lies flat')
    """
    upright = solid.along[-1]
    if upright == "thickness":
        return "lies flat" if solid.size[-1] == solid.cut[-1] else "lies on a slope"
    return "stands on edge" if upright == "width" else "stands upright"


@lru_cache(maxsize=4)
def _kept_moves(
    values: tuple[tuple[str, Fraction], ...], components: tuple[str, ...]
) -> list[tuple[Solid, Place]]:
    return moves(dict(values), components)


def size_figures(
    values: Sizes, solid: Solid, units: Units, asked: Collection[str] = ()
) -> dict[str, str]:
    """How thick, wide and long a piece is, in words; with "?" for what is still `asked`."""
    return {
        size: f"{'?' if name in asked else figure(values[name], units)} {ADJECTIVES[size]}"
        for size, name in _size_names(values, solid).items()
    }


def _size_names(values: Sizes, solid: Solid) -> dict[str, str]:
    """The names of a piece's sizes; a roll is as thick as it was measured."""
    names = {size: f"{_part(solid)}_{size}" for size in SIZES}
    if names["thickness"] not in values:
        names["thickness"] = f"{solid.part}_thickness"
    return {size: name for size, name in names.items() if name in values}


class _Measure(NamedTuple):
    """One size of the lit piece: its dimension's name, what it says, and where it is measured."""

    name: str
    text: str
    start: Point
    end: Point
    off: Point


@dataclass(frozen=True)
class _Look:
    values: Sizes
    components: tuple[str, ...]
    turn: float
    opened: float
    lit: str
    chosen: Collection[str] | None
    new: Collection[str]
    units: Units
    asked: Collection[str]

    def picture(self, name: str) -> Picture:
        canvas = Canvas()
        top = canvas.paragraph(self._title, MARGIN, bold=True)
        top = canvas.paragraph(f"From {seen_from(self.turn)}, from above.", top)
        room = Box(MARGIN, top, WIDTH - MARGIN - 2 * RADIUS - BESIDE, top + self._height)
        eye = self._eye(room)
        every = faces_seen(self._pieces, eye)
        seen = not_hidden(every)
        with canvas.view("in space", eye.scale):
            # where a part is lit, what is new is outlined only
            tinted = {solid.name for solid, _ in self._lit} or self._lit_names
            pens = dict.fromkeys(self._lit_names, LIT)
            paint(canvas, seen, lambda solid: pens.get(solid.name, EDGE), lit=tinted)
            self._draw_ghost(canvas, every)
        compass = self._draw_compass(canvas, room)
        self._draw_numbers(canvas, seen, room)
        self._draw_sizes(canvas, every, eye, room, compass)
        bottom = self._draw_legend(canvas, room.bottom + MARGIN)
        return canvas.picture(self._title, self._words, bottom + MARGIN, name)

    @property
    def _title(self) -> str:
        names = [title(component) for component in self.components]
        what = "The whole hive" if len(names) > MOST_NAMED else f"The {' and the '.join(names)}"
        state = "so far" if self.chosen is not None else "put together"
        return f"{what}, {'taken apart' if self.opened else state}"

    # The pieces

    @cached_property
    def _moves(self) -> list[tuple[Solid, Place]]:
        return _kept_moves(tuple(self.values.items()), self.components)

    @cached_property
    def _pieces(self) -> list[tuple[Solid, Place]]:
        share, wanted = self.opened, self.chosen
        return [
            (solid, (x * share, y * share, z * share))
            for solid, (x, y, z) in self._moves
            if wanted is None or _part(solid) in wanted or solid.name in wanted
        ]

    # How large it is, and where: the same at any turn, and for any pieces that are there

    @cached_property
    def _hulls(self) -> list[tuple[list[float], Place]]:
        """From where to where every piece reaches, from the middle of the hive, and its move."""
        middle = [float(self.values[n]) / 2 for n in ("hive_width", "hive_length")] + [0.0]
        sides = ([*zip(solid.extents, middle, strict=True)] for solid, _ in self._moves)
        reached = ([float(s) - m for side, m in each for s in side] for each in sides)
        return [*zip(reached, (moved for _, moved in self._moves), strict=True)]

    def _seen(self, opened: float) -> tuple[float, float, float]:
        """How wide and how high all pieces are seen at a scale of 1, and their middle's height."""
        around, heights = 0.0, []
        for (x0, x1, y0, y1, z0, z1), (x, y, z) in self._hulls:
            dx, dy, dz = x * opened, y * opened, z * opened
            heights += [z0 + dz, z1 + dz]
            around = max(around, hypot(max(-x0 - dx, x1 + dx), max(-y0 - dy, y1 + dy)))
        low, high = min(heights), max(heights)
        return 2 * around * WIDER, 2 * around * RISE + high - low, (low + high) / 2

    @cached_property
    def _height(self) -> float:
        highest = HIGHEST if len(self.components) <= MOST_NAMED else HIGHEST_HIVE
        both = self._seen(0.0), self._seen(1.0)
        needed = max(self._scale(wide, high, highest) * high for wide, high, _ in both)
        return max(2 * AROUND + needed, len(self._entries) * NUMBER)

    @staticmethod
    def _scale(wide: float, high: float, highest: float) -> float:
        room = WIDTH - 2 * MARGIN - 2 * RADIUS - BESIDE - 2 * AROUND
        return min(LARGEST, room / wide, highest / high)

    def _eye(self, room: Box) -> Eye:
        wide, high, z = self._seen(self.opened)
        scale = self._scale(wide, high, self._height - 2 * AROUND)
        x, y = (float(self.values[n]) / 2 for n in ("hive_width", "hive_length"))
        left, top = Eye(0, 0, scale, self.turn).at((x, y, z))
        across, down = (room.left + room.right) / 2, (room.top + room.bottom) / 2
        return Eye(across - left, down - top, scale, self.turn)

    # What is lit

    @cached_property
    def _lit(self) -> list[tuple[Solid, Place]]:
        return [(s, moved) for s, moved in self._pieces if self.lit and _part(s) == self.lit]

    @cached_property
    def _lit_names(self) -> frozenset[str]:
        return frozenset([*self.new, *(solid.name for solid, _ in self._lit)])

    @cached_property
    def _lit_entries(self) -> set[str]:
        return _keys(solid for solid, _ in self._pieces if solid.name in self._lit_names)

    def _draw_ghost(self, canvas: Canvas, seen: Sequence[Face]) -> None:
        """Draw the edges of what is lit once more, dashed: they show through what hides them.

        Not of a whole hive, which has too many pieces for that.
        """
        for face in seen if len(self.components) <= MOST_NAMED else ():
            if face.solid.name in self._lit_names:
                for edge in face.edges:
                    canvas.line(*edge, GHOST)

    @cached_property
    def _figures(self) -> dict[str, str]:
        """Each size of the lit piece in words, such as "1 1/2 in thick"."""
        return size_figures(self.values, self._lit[0][0], self.units, self.asked)

    def _draw_sizes(
        self, canvas: Canvas, seen: Sequence[Face], eye: Eye, room: Box, compass: Box
    ) -> None:
        if not self._lit:
            return
        taken, outline = [compass], convex([p for face in seen for p in face.points])

        def nearness(piece: tuple[Solid, Place]) -> float:
            along = zip(piece[0].extents, piece[1], eye.towards, strict=True)
            return sum((float(a + b) / 2 + moved) * e for (a, b), moved, e in along)

        solid, moved = max(self._lit, key=nearness)
        own = [face for face in seen if face.solid.name == solid.name]
        measures = list(self._measures(solid, moved, own, eye))
        for name, text, start, end, (x, y) in measures:
            for at in (start, end):
                off, beyond = ((at[0] + x * by, at[1] + y * by) for by in (-OFF, BEYOND))
                canvas.line(off, beyond)
                draw_tick(canvas, at)
            known = {} if text.startswith("?") else {"exact": self.values[name]}
            canvas.line(start, end, MEASURED, {"name": name, **known})
        for measure in measures:
            box = _free_box(measure, taken, (own, outline), room)
            taken.append(box)
            x, y = middle = between(measure.start, measure.end, 0.5)
            nearest = min(max(x, box.left), box.right), min(max(y, box.top), box.bottom)
            if dist(nearest, middle) > FAR[1]:
                canvas.line(middle, nearest)
            canvas.text(measure.text, (box.left, box.top + 1 + ASCENT * LETTER), hand=STRESSED)

    def _measures(
        self, solid: Solid, moved: Place, own: Sequence[Face], eye: Eye
    ) -> Iterator[_Measure]:
        """Each size along the edge of the piece that is farthest out, drawn beside it."""
        middle, (dx, dy, dz) = mean([p for face in own for p in face.points]), moved

        def at(place: Place) -> Point:
            return eye.at((place[0] + dx, place[1] + dy, place[2] + dz))

        names = _size_names(self.values, solid)
        for axis, size in enumerate(solid.along):
            if size in names:
                found = [(at(a), at(b)) for a, b in _edges_along(solid, axis)]
                edge = max(found, key=lambda e: _outside(e, middle))
                x, y = _outwards(*edge, middle)
                start, end = ((a[0] + x * OFF, a[1] + y * OFF) for a in edge)
                yield _Measure(names[size], self._figures[size], start, end, (x, y))

    # Beside and below the pieces

    def _draw_compass(self, canvas: Canvas, room: Box) -> Box:
        """Draw a needle on the ground that points to the hive's front."""
        wide, high = COMPASS
        box = Box(room.left, room.bottom - high, room.left + wide, room.bottom)
        x, y = box.left + text_width("front") / 2, box.top + (high - LINE) / 2
        needle = Eye(x, y, 10.0, self.turn)
        back, tip = needle.at((0, 1, 0)), needle.at((0, -1, 0))
        wings = [needle.at((side, -0.35, 0)) for side in (-0.3, 0.3)]
        canvas.line(back, tip, ENDS)
        canvas.polygon([wings[0], tip, wings[1]], Finish(NO_LINE, INK))
        canvas.text("front", (box.left, box.bottom - 4))
        return box

    @cached_property
    def _entries(self) -> list[tuple[str, str, int]]:
        """What is numbered: the parts with their count, or, of a whole hive, its components."""
        if len(self.components) > MOST_NAMED:
            return [(c, title(c), 1) for c in self.components]
        return [
            (f"{component}.{p.name}", title(p.name), p.quantity)
            for component in self.components
            for p in parts_of(component, self.values)
        ]

    @cached_property
    def _keys_there(self) -> set[str]:
        return _keys(solid for solid, _ in self._pieces)

    def _draw_numbers(self, canvas: Canvas, seen: Sequence[Face], room: Box) -> None:
        spots = []
        for number, (key, *_) in enumerate(self._entries, 1):
            place = visible_spot(seen, lambda s, key=key: key in _keys([s]))  # type: ignore[misc]
            spots += [(place, number)] if place else []
        spots.sort(key=lambda entry: entry[0][1])
        x = WIDTH - MARGIN - RADIUS
        heights = [place[1] for place, _ in spots]
        levels = spread(heights, [NUMBER] * len(spots), room.top, room.bottom)
        for (place, _), y in zip(spots, levels, strict=True):
            canvas.path([(x - RADIUS, y), (x - RADIUS - 5, y), place], THIN)
        for place, _ in spots:
            canvas.dot(place)
        for (_, number), y in zip(spots, levels, strict=True):
            lit = self._entries[number - 1][0] in self._lit_entries
            canvas.number(number, (x, y), RADIUS, Pen(CHANGED, 2) if lit else Pen(INK, 1), bold=lit)

    def _draw_legend(self, canvas: Canvas, top: float) -> float:
        half, bottoms = -(-len(self._entries) // 2), [top]
        wide, inset = (WIDTH - 2 * MARGIN) / 2, text_width("00") + 4
        for column in (0, 1):
            y, left = top, MARGIN + column * wide
            for number in range(column * half, min(len(self._entries), (column + 1) * half)):
                key, text, count = self._entries[number]
                lines = counted(text, count, wide - inset)
                if key not in self._keys_there:
                    y += LINE * len(lines)  # its place is kept
                    continue
                lit, at = key in self._lit_entries, (left + inset - 4, y + ASCENT * LETTER)
                hand = Hand(colour=CHANGED) if lit else Hand()
                canvas.text(str(number + 1), at, "end", Hand(lit, hand.colour))
                for line in lines:
                    canvas.text(line, (left + inset, y + ASCENT * LETTER), hand=hand)
                    y += LINE
            bottoms.append(y)
        return max(bottoms)

    @property
    def _words(self) -> str:
        entries = ", ".join(
            f"{number} {text}{_times(count)}"
            for number, (key, text, count) in enumerate(self._entries, 1)
            if key in self._keys_there
        )
        words = f"{self._title}, seen from {seen_from(self.turn)} and from above. {entries}."
        if not self._lit:
            return words
        solid, sizes = self._lit[0][0], ", ".join(self._figures.values())
        part = f"{title(solid.part).capitalize()}{_times(len(self._lit))}"
        return f"{words} {part}: {lies(solid)}; {sizes}."


def _part(solid: Solid) -> str:
    return f"{solid.component}.{solid.part}"


def _keys(solids: Iterable[Solid]) -> set[str]:
    """The parts and the components of some pieces."""
    return {key for solid in solids for key in (_part(solid), solid.component)}


def _times(count: int) -> str:
    return f" × {count}" if count > 1 else ""


def _edges_along(solid: Solid, axis: int) -> list[tuple[Place, Place]]:
    """Edges of a piece that are as long as it was cut along an axis, or those of its hull."""
    (x0, x1), (y0, y1), (z0, z1) = ((float(a), float(b)) for a, b in solid.extents)
    profile = [(float(y), float(z)) for y, z in solid.blocks[0].profile]
    if axis == 0:
        ends = profile if len(solid.blocks) == 1 else [(y, z) for y in (y0, y1) for z in (z0, z1)]
        return [((x0, y, z), (x1, y, z)) for y, z in ends]
    cut = float(solid.cut[axis])
    own = [e for e in edges(profile) if abs(dist(*e) - cut) < NEARLY]
    if len(solid.blocks) > 1 or not own:
        hull = [[((y0, z), (y1, z)) for z in (z0, z1)], [((y, z0), (y, z1)) for y in (y0, y1)]]
        own = hull[axis - 1]
    elif solid.blocks[0].square:
        own = [e for e in own if e[0][2 - axis] == e[1][2 - axis]]
    return [((x, *a), (x, *b)) for x in (x0, x1) for a, b in own]


def _outside(edge: tuple[Point, Point], middle: Point) -> float:
    """How far out an edge lies, one that is lower on the sheet a little farther."""
    x, y = between(*edge, 0.5)
    return hypot(x - middle[0], y - middle[1]) + 0.4 * (y - middle[1])


def _outwards(start: Point, end: Point, middle: Point) -> Point:
    """The direction square to a line that leads away from a place, of length 1."""
    (x0, y0), (x1, y1) = start, end
    size = hypot(x1 - x0, y1 - y0) or 1.0
    x, y = (y1 - y0) / size, (x0 - x1) / size
    away = ((x0 + x1) / 2 - middle[0]) * x + ((y0 + y1) / 2 - middle[1]) * y
    return (x, y) if away >= 0 else (-x, -y)


def _free_box(
    measure: _Measure,
    taken: Sequence[Box],
    hidden: tuple[Sequence[Face], Sequence[Point]],
    room: Box,
) -> Box:
    """Where a figure stands: near its line and clear of the other figures.

    It hides as little as it can of its piece, and of what lies within the outline of all pieces.
    """
    own, outline = hidden
    wide, (x, y) = text_width(measure.text, bold=True), between(measure.start, measure.end, 0.5)
    best, least = room, float("inf")
    for far in FAR:
        for way_x, way_y in WAYS:
            cost = far + 8 * (1 - way_x * measure.off[0] - way_y * measure.off[1])
            if cost >= least:
                continue
            left = x + way_x * (far + wide / 2) - wide / 2
            top = y + way_y * (far + LINE / 2) - LINE / 2
            left = min(max(left, room.left), room.right - wide)
            top = min(max(top, room.top), room.bottom - LINE)
            box = Box(left, top, left + wide, top + LINE)
            if any(box.meets(other) for other in taken):
                continue
            if overlaps(outline, box):
                if cost + TOUCHES >= least:
                    continue
                inside = [p for p in _dots(box) if covers(outline, p)]
                own_too = sum(face.covers(p) for face in own for p in inside)
                cost += max(TOUCHES, HIDES * len(inside)) + 12 * own_too
            if cost < least:
                best, least = box, cost
    return best


def _dots(box: Box) -> list[Point]:
    across = box.left, (box.left + box.right) / 2, box.right
    return [(x, y) for x in across for y in (box.top, (box.top + box.bottom) / 2, box.bottom)]
