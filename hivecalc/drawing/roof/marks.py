"""What a wrong cut does in the roof's section, where spaces taken twice or left open may slope."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from hivecalc.drawing.faults import (
    SPACE_LEFT_OPEN,
    SPACE_TAKEN_TWICE,
    Fault,
    Shown,
    Telling,
)
from hivecalc.drawing.svg import Sheet
from hivecalc.drawing.view import Outline, View, floated
from hivecalc.length import Length
from hivecalc.space import Axis, Consequence, Solid
from hivecalc.space.meeting import contacts_between, overlap
from hivecalc.space.outlines import (
    Interval,
    Profile,
    clipped,
    profile_area,
    space_between,
    span,
)
from hivecalc.space.solids import AXES, Block, Extents, hull

NEARBY = 3  # how much longer than its amount the part of a sloping space is that is enlarged
Y, Z = 1, 2


@dataclass(frozen=True)
class SlopingFault(Fault):
    """A fault whose marked spaces have outlines of their own; its regions are where to look."""

    outlines: tuple[Outline, ...] = ()

    @property
    def measure(self) -> Length:
        """How big the marked space is along the consequence's axis."""
        told = self.consequence
        less = told.before - (told.after or 0)
        return (less if told.kind == "bare" else told.after) or super().measure


@dataclass(frozen=True)
class SlopingShown(Shown):
    """What a section shows of a wrong cut, with the true outlines of the spaces."""

    def _fault(self, number: int, consequence: Consequence) -> Fault | None:
        """The fault that a consequence is in this section, with the outlines of its spaces."""
        outlines = tuple(self._outlines(consequence))
        return _fault(number, consequence, outlines) if outlines else None

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
                yield from _between(pieces, i, self._joint(names, consequence.axis))
            else:
                yield from _lost(self.true[names[0]], pieces[0])

    def _joint(self, names: Sequence[str], axis: Axis) -> Interval:
        """Where, along the other axis of the section, two pieces touch that are cut true."""
        first, second = (self.true[name] for name in names)
        (joint,) = (c for c in contacts_between(first, second) if c.axis == axis)
        return joint.extents[Y + Z - AXES.index(axis)]


def _profile(piece: Solid) -> Profile:
    return piece.blocks[0].profile


def _fault(number: int, consequence: Consequence, outlines: Sequence[Profile]) -> Fault:
    near = NEARBY * (consequence.after or consequence.before)
    regions = tuple(_thickest(outline, near) for outline in outlines)
    return SlopingFault(number, consequence, regions, tuple(map(floated, outlines)))


def _thickest(outline: Profile, long: Length) -> Extents:
    """The extents of an outline's thicker end, as much of it as is this long at most."""
    nothing = Fraction(0)
    _, (low, high), _ = Block(nothing, nothing, outline).extents
    lows, highs = (span(outline, Z - 1, y) for y in (low, high))
    front = lows[1] - lows[0] >= highs[1] - highs[0]
    end = (low, min(high, low + long)) if front else (max(low, high - long), high)
    return Block(nothing, nothing, part(outline, Y, end) or outline).extents


def part(outline: Profile, i: int, interval: Interval) -> Profile:
    """The part of an outline between two places along y (1) or z (2); empty where it has no area.

    >>> from hivecalc.space.outlines import rectangle
    >>> square = rectangle((Fraction(0), Fraction(4)), (Fraction(0), Fraction(4)))
    >>> profile_area(part(square, 2, (Fraction(-1), Fraction(1))))
    Fraction(4, 1)
    """
    (low, high), one, nothing = interval, Fraction(1), Fraction(0)
    if i == Y:
        kept = clipped(outline, (low, one), (low, nothing))
        kept = clipped(kept, (high, nothing), (high, one))
    else:
        kept = clipped(outline, (nothing, low), (one, low))
        kept = clipped(kept, (one, high), (nothing, high))
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


def _between(pieces: Sequence[Solid], i: int, within: Interval) -> Iterator[Profile]:
    """The outline of the space that is open between two pieces, opposite along y or z."""
    one, other = map(_profile, pieces)
    space = space_between(one, other, i, within)
    ring = [(at, low) for at, (low, _) in space] + [(at, high) for at, (_, high) in space[::-1]]
    if ring:
        yield tuple(ring) if i == Z else tuple((along, at) for at, along in ring)


@dataclass(frozen=True)
class SlopingTelling(Telling):
    """Faults on a sheet: marked with their own outlines, enlarged and told."""

    def mark(self, sheet: Sheet, view: View) -> None:
        """Draw the spaces that are taken twice or left open."""
        for fault in self.shown.faults:
            kind = fault.consequence.kind
            look = SPACE_LEFT_OPEN if kind in {"open", "bare"} else SPACE_TAKEN_TWICE
            data = {"fault": kind, "exact": fault.measure}
            for outline in fault.outlines if isinstance(fault, SlopingFault) else ():
                view.draw(sheet, outline, look, data)
