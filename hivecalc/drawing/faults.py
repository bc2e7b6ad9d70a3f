"""What a wrong cut does, marked where it happens, enlarged, and told in a sentence."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cached_property
from math import hypot
from typing import TypeAlias

from hivecalc.drawing.layout import LETTER, Box, Point
from hivecalc.drawing.svg import (
    BOLD,
    MARGIN,
    PAPER,
    THIN,
    WRONG,
    WRONG_LINE,
    Pen,
    Sheet,
    figure,
)
from hivecalc.drawing.view import Look, View
from hivecalc.length import Length, Units
from hivecalc.space import Axis, Consequence, Solid, consequences
from hivecalc.space.outlines import Interval, rectangle
from hivecalc.space.solids import AXES, Extents, hull

Axes: TypeAlias = tuple[Axis, Axis]
SPACE_TAKEN_TWICE = Look(WRONG_LINE, "none", "wrong")
SPACE_LEFT_OPEN = Look(Pen(WRONG, 2, "5 3"), PAPER)
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


@dataclass(frozen=True)
class Fault:
    """A consequence that a drawing can show, and where it is in space: once for each twin.

    Where its amount is still `asked`, a "?" stands for it.
    """

    number: int
    consequence: Consequence
    regions: tuple[Extents, ...]
    asked: bool = field(default=False, kw_only=True)

    @property
    def measure(self) -> Length:
        """How big the marked space is along the consequence's axis."""
        low, high = self.regions[0][AXES.index(self.consequence.axis)]
        return high - low


@dataclass(frozen=True)
class Shown:
    """What a drawing shows: the axes that run right and up or down, the pieces true and as cut.

    Without pieces there is no wrong cut, and no fault.
    """

    axes: Axes
    true: Mapping[str, Solid]
    cut: Mapping[str, Solid]
    units: Units
    asked: bool = field(default=False, kw_only=True)

    @cached_property
    def faults(self) -> list[Fault]:
        """The consequences that can be seen in this drawing, numbered from 1, the gravest first."""
        found: list[Fault] = []
        before, after = list(self.true.values()), list(self.cut.values())
        for consequence in consequences(before, after, self.units) if before else ():
            told = len(found) < MOST and consequence.kind in HEADINGS
            visible = told and consequence.axis in self.axes
            fault = self._fault(len(found) + 1, consequence) if visible else None
            if fault:
                found.append(self._without_amount(fault) if self.asked else fault)
        return found

    def _without_amount(self, fault: Fault) -> Fault:
        told = replace(fault.consequence, sentence=WITHOUT_AMOUNT[fault.consequence.kind])
        return replace(fault, consequence=told, asked=True)

    def _fault(self, number: int, consequence: Consequence) -> Fault | None:
        """The fault that a consequence is in this drawing, if any of it can be marked."""
        regions = tuple(self._regions(consequence))
        return Fault(number, consequence, regions) if regions else None

    def _regions(self, consequence: Consequence) -> Iterator[Extents]:
        for names in consequence.pieces:
            if all(name in self.cut for name in names):
                region = self._region(consequence, names)
                if region:
                    yield region

    def _region(self, consequence: Consequence, names: tuple[str, ...]) -> Extents | None:
        i, first = AXES.index(consequence.axis), self.cut[names[0]].extents
        if consequence.kind == "overlap":
            return _common(first, self.cut[names[1]].extents)
        if consequence.kind == "stands out":
            outline = hull(s.extents for s in self.true.values())
            return _beyond(first, outline, i)
        if consequence.kind == "open" and consequence.after is not None:
            return _between(first, self.cut[names[1]].extents, i)
        return _missing(self.true[names[0]].extents, first)


def _common(first: Extents, second: Extents) -> Extents | None:
    x, y, z = ((max(a[0], b[0]), min(a[1], b[1])) for a, b in zip(first, second, strict=True))
    return (x, y, z) if all(low < high for low, high in (x, y, z)) else None


def _with(extents: Extents, i: int, interval: Interval) -> Extents:
    x, y, z = (interval if j == i else e for j, e in enumerate(extents))
    return x, y, z


def _beyond(extents: Extents, outline: Extents, i: int) -> Extents | None:
    (low, high), (old_low, old_high) = extents[i], outline[i]
    if high > old_high:
        return _with(extents, i, (max(low, old_high), high))
    return _with(extents, i, (low, min(high, old_low))) if low < old_low else None


def _between(first: Extents, second: Extents, i: int) -> Extents | None:
    """The space between two pieces that face each other along axis i."""
    gap = min(first[i][1], second[i][1]), max(first[i][0], second[i][0])
    return _common(_with(first, i, gap), _with(second, i, gap))


def _missing(true: Extents, cut: Extents) -> Extents | None:
    """The part of a piece that is not there, as it was cut too short."""
    for i in range(len(AXES)):
        if cut[i][1] < true[i][1]:
            return _with(true, i, (cut[i][1], true[i][1]))
        if cut[i][0] > true[i][0]:
            return _with(true, i, (true[i][0], cut[i][0]))
    return None


@dataclass(frozen=True)
class Telling:
    """Faults on a sheet: marked in a view, then enlarged and told below it."""

    shown: Shown
    view: View
    draw: Callable[[Sheet, View], None]  # draws the pieces through a view

    def mark(self, sheet: Sheet, view: View) -> None:
        """Draw the spaces that are taken twice or left open."""
        for fault in self.shown.faults:
            look = (
                SPACE_LEFT_OPEN if fault.consequence.kind in {"open", "bare"} else SPACE_TAKEN_TWICE
            )
            data = {"fault": fault.consequence.kind, "exact": fault.measure}
            for region in fault.regions:
                view.draw(sheet, self._profile(region), look, data)

    def number(self, sheet: Sheet, room: Box) -> None:
        """Draw a numbered mark for each space, on a leader, where there is room for it."""
        taken: list[Point] = []
        for fault in self.shown.faults:
            for region in fault.regions:
                (u0, v0), _, (u1, v1), _ = self.view.points(self._profile(region))
                place = (u0 + u1) / 2, (v0 + v1) / 2
                centre = _free_place(place, taken, room)
                taken.append(centre)
                sheet.line(place, centre, Pen(WRONG, 1))
                draw_number(sheet, fault.number, centre)

    def tell(self, sheet: Sheet, top: float) -> float:
        """Draw each fault enlarged, with its sentence; where the next may begin comes back."""
        for fault in self.shown.faults:
            left = MARGIN
            bottom = top
            if float(fault.measure) * self.view.scale < ENLARGED:
                self._enlarge(sheet, fault, top)
                left += INSET_WIDE + 10
                bottom = top + INSET_HIGH
            top = max(bottom, tell(sheet, fault, self.shown.units, (left, top))) + 10
        return top

    def _profile(self, region: Extents) -> tuple[tuple[Fraction, Fraction], ...]:
        u, v = (region[AXES.index(axis)] for axis in self.shown.axes)
        return rectangle(u, v)

    def _enlarge(self, sheet: Sheet, fault: Fault, top: float) -> None:
        view = self._window(fault, top)
        with sheet.view(f"fault {fault.number}", view.scale):
            self.draw(sheet, view)
            self.mark(sheet, view)
        frame = Box(view.left, view.top, view.right, view.bottom)
        sheet.polygon(_corners(frame), THIN)

    def _window(self, fault: Fault, top: float) -> View:
        """A window on the fault, so near that its amount is easily seen."""
        scale = ENLARGED / fault.measure
        region = fault.regions[0]
        middle = hull(s.extents for s in self.shown.true.values())
        spans = []
        for axis, size in zip(self.shown.axes, (INSET_WIDE, INSET_HIGH), strict=True):
            i = AXES.index(axis)
            low, high = region[i]
            centre = (low + high) / 2
            if axis != fault.consequence.axis:
                centre = low if low + high > middle[i][0] + middle[i][1] else high
            spans.append((centre - size / scale / 2, centre + size / scale / 2))
        return View(MARGIN, top, float(scale), spans[0], spans[1], self.view.down)


def _free_place(place: Point, taken: Sequence[Point], room: Box) -> Point:
    """The place in the room that is nearest, a step off, and free of the marks that are there."""
    free = (p for p in _places(room) if all(hypot(p[0] - x, p[1] - y) >= APART for x, y in taken))
    far_enough = (p for p in free if hypot(p[0] - place[0], p[1] - place[1]) >= RADIUS + 6)
    fallback = (room.left + room.right) / 2, (room.top + room.bottom) / 2
    return min(far_enough, key=lambda p: hypot(p[0] - place[0], p[1] - place[1]), default=fallback)


def _places(room: Box) -> Iterator[Point]:
    across = _steps(room.left, room.right)
    down = _steps(room.top, room.bottom)
    return ((x, y) for x in across for y in down)


def _steps(low: float, high: float) -> list[float]:
    """Places a mark apart from one end to the other, both ends included; the middle if too near."""
    low, high = low + RADIUS + 3, high - RADIUS - 3
    if high <= low:
        return [(low + high) / 2]
    count = max(1, int((high - low) / (APART / 2)))
    return [low + (high - low) * i / count for i in range(count + 1)]


def draw_number(sheet: Sheet, number: int, centre: Point) -> None:
    """Draw a fault's number in a circle."""
    sheet.circle(centre, RADIUS, Pen(WRONG, 1.6), PAPER)
    sheet.text(str(number), (centre[0], centre[1] + 0.36 * LETTER), "middle", BOLD)


def tell(sheet: Sheet, fault: Fault, units: Units, place: Point) -> float:
    """Write one fault's number, amount and sentence; where the next may begin comes back."""
    left, top = place
    draw_number(sheet, fault.number, (left + RADIUS, top + RADIUS))
    amount = "?" if fault.asked else figure(fault.measure, units)
    heading = HEADINGS[fault.consequence.kind].format(amount)
    top = sheet.paragraph(heading, top, bold=True, left=left + 2 * RADIUS + 6)
    return sheet.paragraph(fault.consequence.sentence, top + 4, left=left)


def _corners(box: Box) -> list[Point]:
    left, top, right, bottom = box
    return [(left, top), (right, top), (right, bottom), (left, bottom)]
