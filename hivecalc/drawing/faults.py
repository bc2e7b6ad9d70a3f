"""What a wrong cut does, marked where it happens, enlarged, and said in a sentence."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, reduce
from itertools import product
from math import dist
from typing import Self, TypeAlias

from hivecalc.drawing.canvas import MARGIN, PAPER, WRONG, WRONG_LINE, Canvas, Finish, Pen, figure
from hivecalc.drawing.layout import Box, Point
from hivecalc.drawing.subject import Outline, Subject, View, floated
from hivecalc.length import Length, Units
from hivecalc.space import Axis, Consequence, Solid, consequences, surroundings
from hivecalc.space.meeting import contacts_between, overlap
from hivecalc.space.solids import (
    AXES,
    NOTHING,
    Block,
    Extents,
    Interval,
    Profile,
    clipped,
    edges,
    hull,
    profile_area,
    rectangle,
    shared_interval,
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
            visible = consequence.kind in HEADINGS and consequence.axis in self.axes
            fault = self._fault(len(found) + 1, consequence) if visible else None
            if fault and self.asked:  # the sentence does not tell the amount, either
                without = replace(consequence, sentence=WITHOUT_AMOUNT[consequence.kind])
                fault = replace(fault, consequence=without, asked=True)
            found += [fault] if fault else []
        return found[:MOST]

    @property
    def sentences(self) -> list[str]:
        """What is said of each fault."""
        return [fault.consequence.sentence for fault in self.faults]

    def _fault(self, number: int, consequence: Consequence) -> Misfit | None:
        """The fault that a consequence is in this drawing, if any of it can be marked."""
        shown = (names for names in consequence.pieces if all(name in self.cut for name in names))
        found = [(region, names) for names in shown if (region := self._region(consequence, names))]
        if not found:
            return None
        regions, doers = zip(*found, strict=True)
        low, high = regions[0][AXES.index(consequence.axis)]
        places = [[region[AXES.index(axis)] for axis in self.axes] for region in regions]
        outlines = tuple(rectangle(u, v) for u, v in places)
        return Misfit(number, consequence, regions, outlines, high - low, doers)

    def _region(self, consequence: Consequence, names: tuple[str, ...]) -> Extents | None:
        i, first = AXES.index(consequence.axis), self.cut[names[0]].extents
        if consequence.kind == "overlap":
            return _common(first, self.cut[names[1]].extents)
        if consequence.kind == "stands out":
            return _beyond(first, hull(s.extents for s in self.true.values()), i)
        if consequence.kind == "open" and consequence.after is not None:
            return _between(first, self.cut[names[1]].extents, i)
        return _missing(self.true[names[0]].extents, first)

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


def _common(first: Extents, second: Extents) -> Extents | None:
    x, y, z = (shared_interval(a, b) for a, b in zip(first, second, strict=True))
    return (x, y, z) if x and y and z else None


def _with(extents: Extents, i: int, interval: Interval) -> Extents:
    x, y, z = (interval if j == i else e for j, e in enumerate(extents))
    return x, y, z


def _beyond(extents: Extents, outline: Extents, i: int) -> Extents | None:
    (low, high), (old_low, old_high) = extents[i], outline[i]
    if high > old_high:
        return _with(extents, i, (max(low, old_high), high))
    return _with(extents, i, (low, min(high, old_low))) if low < old_low else None


def _between(first: Extents, second: Extents, i: int) -> Extents | None:
    gap = min(first[i][1], second[i][1]), max(first[i][0], second[i][0])
    return _common(_with(first, i, gap), _with(second, i, gap))


def _missing(true: Extents, cut: Extents) -> Extents | None:
    for i in range(len(AXES)):
        if cut[i][1] < true[i][1]:
            return _with(true, i, (cut[i][1], true[i][1]))
        if cut[i][0] > true[i][0]:
            return _with(true, i, (true[i][0], cut[i][0]))
    return None


# ── spaces that slope, in a section through y and z ───────────────────────────────────────────


class SlopingSeen(Seen):
    """What a section shows of a wrong cut, with the true outlines of the spaces."""

    def _fault(self, number: int, consequence: Consequence) -> Misfit | None:
        """The fault that a consequence is in this section; its regions are where to look."""
        outlines = tuple(self._outlines(consequence))
        if not outlines:
            return None
        near = NEARBY * (consequence.after or consequence.before)
        regions = tuple(_thickest(outline, near) for outline in outlines)
        less = consequence.before - (consequence.after or 0)
        low, high = regions[0][AXES.index(consequence.axis)]
        amount = (less if consequence.kind == "bare" else consequence.after) or high - low
        return Misfit(number, consequence, regions, tuple(map(floated, outlines)), amount)

    def _outlines(self, consequence: Consequence) -> Iterator[Profile]:
        for names in consequence.pieces:
            pieces = [self.cut[name] for name in names]
            i = AXES.index(consequence.axis)
            if consequence.kind == "overlap":
                shared = overlap(*pieces)
                yield from (b.profile for b in shared.blocks) if shared else ()
            elif consequence.kind == "stands out":
                outline = hull(s.extents for s in self.true.values())[i]
                yield from _outside(_profile(pieces[0]), i, outline)
            elif consequence.kind == "open" and consequence.after:
                both = contacts_between(*(self.true[name] for name in names))
                (joint,) = (c.extents for c in both if c.axis == consequence.axis)
                yield from _open(pieces, i, joint[Y + Z - i])
            else:
                yield from _lost(self.true[names[0]], pieces[0])


def _profile(piece: Solid) -> Profile:
    return piece.blocks[0].profile


def _thickest(outline: Profile, long: Length) -> Extents:
    """The extents of an outline's thicker end, as much of it as is this long at most."""
    _, (low, high), _ = Block(NOTHING, NOTHING, outline).extents
    lows, highs = (span(outline, Z - 1, y) for y in (low, high))
    front = lows[1] - lows[0] >= highs[1] - highs[0]
    end = (low, min(high, low + long)) if front else (max(low, high - long), high)
    return Block(NOTHING, NOTHING, part(outline, Y, end) or outline).extents


def part(outline: Profile, i: int, interval: Interval) -> Profile:
    """The part of an outline between two places along y (1) or z (2); empty where it has no area.

    >>> square = rectangle((Fraction(0), Fraction(4)), (Fraction(0), Fraction(4)))
    >>> part(square, 2, (Fraction(-1), Fraction(1))) == rectangle((0, 4), (0, 1))
    True
    """
    _, y, z = Block(NOTHING, NOTHING, outline).extents
    around = rectangle(interval, z) if i == Y else rectangle(y, interval)
    kept = reduce(lambda left, edge: clipped(left, *edge), edges(around), outline)
    return kept if kept and profile_area(kept) else ()


def _outside(outline: Profile, i: int, interval: Interval) -> Iterator[Profile]:
    """The parts of an outline that reach out of an interval along y or z."""
    (low, high), own = interval, [point[i - 1] for point in outline]
    for end in ((min(own), low), (high, max(own))):
        if end[0] < end[1]:
            yield part(outline, i, end)


def _lost(true: Solid, cut: Solid) -> Iterator[Profile]:
    """The parts of a piece's true outline that are not there, as it was cut too small."""
    i = Y if true.extents[Y] != cut.extents[Y] else Z
    return _outside(_profile(true), i, cut.extents[i])


def _open(pieces: Sequence[Solid], i: int, within_: Interval) -> Iterator[Profile]:
    """The outline of the space that is open between two pieces, opposite along y or z."""
    one, other = map(_profile, pieces)
    space = space_between(one, other, i, within_)
    ring = [(at, low) for at, (low, _) in space] + [(at, high) for at, (_, high) in space[::-1]]
    if ring:
        yield tuple(ring) if i == Z else tuple((along, at) for at, along in ring)


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
