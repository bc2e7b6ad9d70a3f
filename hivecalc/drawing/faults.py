"""What a wrong cut does, marked where it happens, enlarged, and said in a sentence."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, reduce
from itertools import islice, product
from math import dist
from typing import ClassVar, Self, TypeAlias

from hivecalc.drawing.canvas import MARGIN, PAPER, WRONG, WRONG_LINE, Canvas, Finish, Pen, figure
from hivecalc.drawing.layout import Box, Point
from hivecalc.drawing.subject import Outline, Subject, View, floated
from hivecalc.length import Length, Units
from hivecalc.space import Axis, Consequence, Solid, consequences, surroundings
from hivecalc.space.meeting import contacts_between, shared_block
from hivecalc.space.solids import (
    AXES,
    Block,
    Extents,
    Interval,
    clipped,
    edges,
    hull,
    profile_area,
    rectangle,
    shared_interval,
    shared_profile,
    space_between,
    span,
)

Axes: TypeAlias = tuple[Axis, Axis]
SPACE_TAKEN_TWICE = Finish(WRONG_LINE, hatch="wrong")
SPACE_LEFT_OPEN = Finish(Pen(WRONG, 2, "5 3"), PAPER)
HEADINGS = {
    "overlap": "overlap {}: does not go",
    "open": "gap {}: stays open",
    "stands out": "stands out {}",
    "bare": "bare {}",
}
WITHOUT_AMOUNT = {
    "overlap": "Two pieces need the same room here.",
    "open": "Something stays open here.",
    "stands out": "Something stands out here.",
    "bare": "A piece does not reach far enough here.",
}
MOST = 4  # faults that one drawing tells
ENLARGED = 36  # how big the amount of a fault is in its enlargement, on the sheet
INSET_WIDE, INSET_HIGH = 118, 84
RADIUS = 9.0  # of a numbered mark
APART = 2 * RADIUS + 4
NEARBY = 3  # how much longer than its amount the part of a sloping space is that is enlarged
Y, Z = 1, 2


@dataclass(frozen=True)
class Misfit:
    """A consequence that a drawing can show, and where it is in space: once for each twin.

    `outlines` are the spaces to mark as they are drawn, `measure` is how big one is along the
    consequence's axis, `doers` are the pieces that leave or take each, by name, the one that does
    it first. Where its amount is still `asked`, a "?" stands for it.
    """

    number: int
    consequence: Consequence
    regions: tuple[Extents, ...]
    outlines: tuple[Outline, ...]
    measure: Length
    doers: tuple[tuple[str, ...], ...] = ()
    asked: bool = False

    @property
    def finish(self) -> Finish:
        """How its spaces are drawn."""
        left_open = self.consequence.kind in {"open", "bare"}
        return SPACE_LEFT_OPEN if left_open else SPACE_TAKEN_TWICE

    @property
    def data(self) -> dict[str, object]:
        """What is noted on each of its spaces."""
        return {"fault": self.consequence.kind, "exact": self.measure}


@dataclass(frozen=True)
class Seen:
    """What a drawing shows of a wrong cut: the axes that run right and up, pieces true and as cut.

    Without pieces there is no wrong cut, and no fault.
    """

    axes: Axes
    true: Mapping[str, Solid]
    cut: Mapping[str, Solid]
    units: Units
    asked: bool = False
    lost_along: ClassVar[tuple[int, ...]] = (0, Y, Z)  # where a piece may have become too small

    @classmethod
    def of(cls, subject: Subject, axes: Axes, is_seen: Callable[[Solid], bool]) -> Self:
        """What a drawing of this subject along these axes shows, among the pieces seen there."""
        if not subject.wrong:
            return cls(axes, {}, {}, subject.units)
        before = (*subject.solids_before.values(), *surroundings(subject.before, subject.component))
        now = (*subject.solids.values(), *subject.met.values())
        true, cut = ({s.name: s for s in some if is_seen(s)} for some in (before, now))
        return cls(axes, true, cut, subject.units, subject.asked)

    @cached_property
    def faults(self) -> list[Misfit]:
        """The consequences that can be seen in this drawing, numbered from 1, the gravest first."""
        found: list[Misfit] = []
        before, after = list(self.true.values()), list(self.cut.values())
        for consequence in consequences(before, after, self.units) if before else ():
            if consequence.kind not in HEADINGS or consequence.axis not in self.axes:
                continue
            fault = self._fault(len(found) + 1, consequence)
            if fault and self.asked:  # the sentence does not tell the amount, either
                without = replace(consequence, sentence=WITHOUT_AMOUNT[consequence.kind])
                fault = replace(fault, consequence=without, asked=True)
            if fault:
                found.append(fault)
        return found[:MOST]

    @property
    def sentences(self) -> list[str]:
        """What is said of each fault."""
        return [fault.consequence.sentence for fault in self.faults]

    def _fault(self, number: int, consequence: Consequence) -> Misfit | None:
        """The fault that a consequence is in this drawing, if any of it can be marked."""
        shown = (names for names in consequence.pieces if all(name in self.cut for name in names))
        found = [(space, names) for names in shown for space in self._spaces(consequence, names)]
        if not found:
            return None
        spaces, doers = zip(*found, strict=True)
        regions = tuple(self._region(space, consequence) for space in spaces)
        outlines = tuple(map(self._outline, spaces))
        measure = self._measure(regions[0], consequence)
        return Misfit(number, consequence, regions, outlines, measure, doers)

    def _spaces(self, consequence: Consequence, names: Sequence[str]) -> Iterator[Block]:
        """The spaces that these pieces both take, or leave open."""
        i, bodies = AXES.index(consequence.axis), [_body(self.cut[name]) for name in names]
        first, second = bodies[0], bodies[-1]
        if consequence.kind == "overlap":
            shared = shared_block(first, second)
            yield from (shared,) if shared else ()
        elif consequence.kind == "stands out":
            yield from _outside(first, i, hull(s.extents for s in self.true.values())[i])
        elif consequence.kind == "open" and consequence.after is not None:
            both = contacts_between(*(self.true[name] for name in names))
            (joint,) = (c.extents for c in both if c.axis == consequence.axis)
            yield from _open(first, second, i, joint)
        else:  # what is lost of a piece that was cut too small
            true = _body(self.true[names[0]])
            lost = (j for j in self.lost_along if true.extents[j] != first.extents[j])
            for j in islice(lost, 1):
                yield from _outside(true, j, first.extents[j])

    def _region(self, space: Block, _: Consequence) -> Extents:
        """Where to look at a space."""
        return space.extents

    def _measure(self, region: Extents, consequence: Consequence) -> Length:
        """How big a space is along the consequence's axis."""
        low, high = region[AXES.index(consequence.axis)]
        return high - low

    def _outline(self, space: Block) -> Outline:
        """A space as this drawing shows it."""
        u, v = (space.extents[AXES.index(axis)] for axis in self.axes)
        return rectangle(u, v)

    # On a sheet

    def mark(self, canvas: Canvas, view: View) -> None:
        """Draw the spaces that are taken twice or left open."""
        for fault in self.faults:
            for outline in fault.outlines:
                view.draw(canvas, outline, fault.finish, fault.data)

    def number(self, canvas: Canvas, view: View, room: Box) -> None:
        """Draw a numbered mark for each space, on a leader, where there is room for it."""
        taken: list[Point] = []
        for fault in self.faults:
            for region in fault.regions:
                u, v = (region[AXES.index(axis)] for axis in self.axes)
                place = view.x((u[0] + u[1]) / 2), view.y((v[0] + v[1]) / 2)
                centre = _free_place(place, taken, room)
                taken.append(centre)
                canvas.line(place, centre, Pen(WRONG, 1))
                draw_number(canvas, fault.number, centre)

    def tell(
        self, canvas: Canvas, view: View, draw: Callable[[Canvas, View], None], top: float
    ) -> float:
        """Draw each fault enlarged, with its sentence; where the next may begin comes back.

        `draw` draws the pieces, and what is marked, through a view.
        """

        def enlarge(fault: Misfit, top: float) -> None:
            window = self._window(fault, top, down=view.down)
            window.draw_framed(canvas, f"fault {fault.number}", draw)

        return tell_all(canvas, self.faults, self.units, top, view.scale, enlarge)

    def _window(self, fault: Misfit, top: float, *, down: bool) -> View:
        """A window on the fault, so near that its amount is easily seen."""
        scale = ENLARGED / fault.measure
        whole, spans = hull(s.extents for s in self.true.values()), list[Interval]()
        for axis, size in zip(self.axes, (INSET_WIDE, INSET_HIGH), strict=True):
            i, half = AXES.index(axis), size / scale / 2
            low, high = fault.regions[0][i]
            centre = (low + high) / 2
            if axis != fault.consequence.axis:
                centre = low if low + high > sum(whole[i]) else high
            spans.append((centre - half, centre + half))
        return View(MARGIN, top, float(scale), spans[0], spans[1], down)


class SlopingSeen(Seen):
    """What a section through y and z shows of a wrong cut, with the true outlines of the spaces."""

    lost_along = Y, Z

    def _region(self, space: Block, consequence: Consequence) -> Extents:
        """A space's thicker end, as much of it as is a few times its amount long at most."""
        _, (low, high), _ = space.extents
        long = NEARBY * (consequence.after or consequence.before)
        lows, highs = (span(space.profile, Z - 1, y) for y in (low, high))
        front = lows[1] - lows[0] >= highs[1] - highs[0]
        end = (low, min(high, low + long)) if front else (max(low, high - long), high)
        return (part(space, Y, end) or space).extents

    def _measure(self, region: Extents, consequence: Consequence) -> Length:
        """How big a space is: less than it reaches, where it slopes."""
        less = consequence.before - (consequence.after or 0)
        amount = less if consequence.kind == "bare" else consequence.after
        return amount or super()._measure(region, consequence)

    def _outline(self, space: Block) -> Outline:
        """The outline of a space."""
        return floated(space.profile)


def _body(piece: Solid) -> Block:
    """A piece as one block; of one that has several, the block that holds them."""
    x, y, z = piece.extents
    return piece.blocks[0] if len(piece.blocks) == 1 else Block(*x, rectangle(y, z))


def part(block: Block, i: int, interval: Interval) -> Block | None:
    """The part of a block between two places along an axis, if there is any.

    >>> print(part(Block(0, 1, rectangle((0, 4), (0, 4))), 2, (-1, 1)).volume)
    4
    """
    x, y, z = (interval if j == i else reach for j, reach in enumerate(block.extents))
    if i == 0:
        return Block(*x, block.profile)
    kept = reduce(lambda left, edge: clipped(left, *edge), edges(rectangle(y, z)), block.profile)
    return Block(*x, kept) if kept and profile_area(kept) else None


def _outside(block: Block, i: int, interval: Interval) -> Iterator[Block]:
    """The parts of a block that reach out of an interval along an axis."""
    low, high = block.extents[i]
    for end in ((low, interval[0]), (interval[1], high)):
        found = part(block, i, end) if end[0] < end[1] else None
        yield from (found,) if found else ()


def _open(one: Block, other: Block, i: int, joint: Extents) -> Iterator[Block]:
    """The space that is open between two blocks, opposite along an axis where they should meet."""
    if i == 0:
        gap = min(one.x1, other.x1), max(one.x0, other.x0)
        yield Block(*gap, shared_profile(one.profile, other.profile))
        return
    space = space_between(one.profile, other.profile, i, joint[Y + Z - i])
    ring = [(at, low) for at, (low, _) in space] + [(at, high) for at, (_, high) in space[::-1]]
    x = shared_interval(one.extents[0], other.extents[0])
    if ring and x:
        yield Block(*x, tuple(ring) if i == Z else tuple((along, at) for at, along in ring))


def _free_place(place: Point, taken: Sequence[Point], room: Box) -> Point:
    """The place in the room that is nearest, a step off, and free of the marks that are there."""
    places = product(_steps(room.left, room.right), _steps(room.top, room.bottom))
    free = (p for p in places if all(dist(p, other) >= APART for other in taken))
    far_enough = (p for p in free if dist(p, place) >= RADIUS + 6)
    fallback = (room.left + room.right) / 2, (room.top + room.bottom) / 2
    return min(far_enough, key=lambda p: dist(p, place), default=fallback)


def _steps(low: float, high: float) -> list[float]:
    """Places a mark apart from one end to the other, both ends included; the middle if too near."""
    low, high = low + RADIUS + 3, high - RADIUS - 3
    if high <= low:
        return [(low + high) / 2]
    count = max(1, int((high - low) / (APART / 2)))
    return [low + (high - low) * i / count for i in range(count + 1)]


def draw_number(canvas: Canvas, number: int, centre: Point) -> None:
    """Draw a fault's number in a circle."""
    canvas.number(number, centre, RADIUS, Pen(WRONG, 1.6), bold=True)


def tell(canvas: Canvas, fault: Misfit, units: Units, place: Point) -> float:
    """Write one fault's number, amount and sentence; where the next may begin comes back."""
    left, top = place
    draw_number(canvas, fault.number, (left + RADIUS, top + RADIUS))
    amount = "?" if fault.asked else figure(fault.measure, units)
    heading = HEADINGS[fault.consequence.kind].format(amount)
    top = canvas.paragraph(heading, top, bold=True, left=left + 2 * RADIUS + 6)
    return canvas.paragraph(fault.consequence.sentence, top + 4, left=left)


def tell_all(  # noqa: PLR0913, PLR0917 - where and how faults are shown
    canvas: Canvas,
    faults: Iterable[Misfit],
    units: Units,
    top: float,
    scale: float,
    enlarge: Callable[[Misfit, float], None],
) -> float:
    """Draw each fault that is small at this scale enlarged; write all; where that ends."""
    for fault in faults:
        left, bottom = MARGIN, top
        if float(fault.measure) * scale < ENLARGED:
            enlarge(fault, top)
            left, bottom = MARGIN + INSET_WIDE + 10, top + INSET_HIGH
        top = max(bottom, tell(canvas, fault, units, (left, top))) + 10
    return top
