"""Settings of saw and tools in the order of the work: what is set, what is cut, out of what.

First the boards are crosscut, the longest first; then rips, bevels, strips to length, the taper and
the plane; then the sheets. Every setting stands once for the whole batch, and says from which
boards its pieces come: sizes that a saw can't tell apart are set as one.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby
from math import atan, degrees
from typing import Final, Literal, NamedTuple, TypeAlias

from hivecalc.as_built import Care
from hivecalc.components import values
from hivecalc.hive import Hive
from hivecalc.hive.hive import said_with_unit
from hivecalc.length import (
    MARKS,
    MM,
    Length,
    Ratio,
    Units,
    decimal_inches,
    in_either_unit,
    rounded,
    shown,
    with_unit,
)
from hivecalc.space.bottom_board import COSINE, SINE
from hivecalc.space.roof import cosine
from hivecalc.workshop import cautions as kinds
from hivecalc.workshop.boards import CutBoard
from hivecalc.workshop.cautions import Kind
from hivecalc.workshop.needs import Piece, batch, needed
from hivecalc.workshop.sheets import Sheet, SheetCut
from hivecalc.workshop.strips import Blanks, Rip
from hivecalc.workshop.yard import Yard

# ── tapers and bevels ─────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Taper:
    """A taper from one height to a lower one over a length: its angle and its jig.

    The cut runs from the front's top corner to the low height at the other end.

    Lengths in inches, the angle in degrees.
    """

    run: Length
    high: Length
    low: Length

    @property
    def rise(self) -> Length:
        """How much higher the front is than the back."""
        return self.high - self.low

    @property
    def slope(self) -> Ratio:
        """Rise over run."""
        return self.rise / self.run

    @property
    def angle(self) -> float:
        """The angle between the straight edge and the cut, in degrees."""
        return degrees(atan(self.slope))

    @property
    def middle(self) -> Length:
        """The height half-way along: what a check with the tape must find."""
        return (self.high + self.low) / 2

    @property
    def jig_offset(self) -> Length:
        """How much nearer to the sled's edge the straight edge lies at the back than in front.

        Both square to the sled's edge, along which the blade runs; too big by less than one part in
        a million.
        """
        return self.rise * cosine(self.slope)


def taper(hive: Hive) -> Taper:
    """The taper of a hive's rim sides, over the length that they are cut to."""
    pieces = needed(batch([hive]))
    side = next(p for p in pieces if (p.component, p.part) == ("roof", "rim_side"))
    return Taper(side.length, side.width, values(hive)["rim_low_height"])


@dataclass(frozen=True)
class Bevel:
    """An edge ripped with the blade tilted: the stock's thickness, its upper face, the tilt.

    Lengths in inches, the tilt in degrees from upright; `slope` is its tangent. `upper` is the
    width of the face that lies above; the fence is set to that of the face below.
    """

    thickness: Length
    upper: Length
    slope: Ratio

    @property
    def tilt(self) -> float:
        """How far the blade leans from upright, in degrees."""
        return degrees(atan(self.slope))


def landing_bevel(hive: Hive) -> Bevel:
    """The bevel of the landing board's rear edge, which lies against the frame."""
    sizes = hive.measurements
    return Bevel(sizes["landing_thickness"], sizes["landing_width"], SINE / COSINE)


def degrees_text(angle: float) -> str:
    """An angle as a saw's scale shows it."""
    return f"{decimal_inches(Fraction(round(angle * 1000), 1000), 1)}°"


def taper_words(taper: Taper, units: Units = "inch") -> Iterator[str]:
    """How a taper is marked, set up and checked."""
    high, low, run, rise, middle = (
        said_with_unit(length, units)
        for length in (taper.high, taper.low, taper.run, taper.rise, taper.middle)
    )
    yield f"mark 1: at the front end, {high} up, the top corner"
    yield f"mark 2: {run} from the front end, {low} up from the straight edge"
    yield "the cut runs from mark to mark; the wedge above it is waste"
    nearer = shown(taper.jig_offset, units)
    yield f"on a sled, the straight edge lies {nearer} nearer to the blade at the back"
    metric = units == "mm"
    leg, text = (300 * MM, "300 mm") if metric else (Fraction(12), "12 in")
    yield f"a hinged jig stands {shown(leg * taper.slope, units)} open, {text} from its hinge"
    yield f"check: {middle} high half-way; {rise} fall over {run}"


# ── the settings ──────────────────────────────────────────────────────────────────────────────────

Group: TypeAlias = Literal["week before", "day one", "day two", "at home"]
"""When a class does what: strips and tapers before it meets."""

_DAYS: Final[Mapping[str, Group]] = {
    "bottom_board": "day one", "roof": "day two", "inner_cover": "day two", "box": "at home",
    "sleeve": "at home",
}  # fmt: skip

SAME: Final = Care.cut
"""Sizes that differ by no more are set as one: a saw is off by as much with usual care.

A fence is set anew for each size: what it is off by shows in every strip.
"""

MINUTES_A_CUT: Final = Fraction(1, 2)
"""Minutes that a cut takes once the saw is set; common practice, no published source."""


class Work(NamedTuple):
    """What is cut at a setting: its mark, the board, strip or sheet it is cut from, how many.

    The source is empty where a piece is done that was cut before. `component` and `group` say what
    it is for and when a class does it.
    """

    mark: str
    source: str
    times: int
    component: str
    group: Group
    how: str = ""


@dataclass(frozen=True)
class Setting:
    """One setting, numbered: its kind, the distance in inches, the tilt in degrees, what is cut."""

    number: int
    kind: Kind
    distance: Length
    works: tuple[Work, ...]
    tilt: int = 0
    note: str = ""

    @property
    def on_sheets(self) -> bool:
        """Whether it is made on sheets, and described beside their pictures."""
        return not self.kind.heading

    @property
    def cuts(self) -> int:
        """How many cuts are made at it."""
        return sum(work.times for work in self.works)

    @property
    def sources(self) -> tuple[str, ...]:
        """The boards, strips or sheets that its pieces come from."""
        return tuple(dict.fromkeys(work.source for work in self.works if work.source))

    def minutes(self, yard: Yard) -> Fraction:
        """An estimate of how long it takes to set the saw and make the cuts."""
        return yard.minutes_a_setting + self.cuts * MINUTES_A_CUT

    def sentence(self, units: Units) -> str:
        """What is set, in words.

        >>> Setting(1, kinds.RIP, Fraction(21, 8), ()).sentence("inch")
        'fence 2 5/8 in from the blade'
        """
        distance = in_either_unit(units, self.distance)
        return self.kind.set.format(distance=distance, tilt=self.tilt) + self.note


def settings(  # noqa: PLR0913, PLR0917 - all that a plan is made of
    boards: Sequence[CutBoard],
    blanks: Sequence[Blanks],
    whole: Iterable[Piece],
    sheets: Sequence[Sheet],
    hives: Mapping[str, Hive],
    yard: Yard,
) -> tuple[Setting, ...]:
    """All settings of a plan in their order, numbered from 1."""
    pieces = {piece.mark: piece for piece in whole}
    found = (
        *_crosscuts(boards, pieces, blanks, yard.units),
        *_rips(blanks),
        *_to_length(blanks, yard),
        *_by_the_slope(pieces.values(), blanks, hives),
        *_of_sheets(sheets),
    )
    return tuple(replace(setting, number=number) for number, setting in enumerate(found, 1))


def _work(piece: Piece, source: str, how: str = "") -> Work:
    early = piece.component == "roof" and piece.part == "rim_side"
    day: Group = "week before" if early else _DAYS[piece.component]
    return Work(piece.mark, source, 1, piece.component, day, how)


def _blank_work(blank: Blanks, source: str, count: int, how: str = "") -> Work:
    components = {cut.piece.component for cut in blank.pieces}
    return Work(blank.number, source, count, " ".join(sorted(components)), "week before", how)


def _gathered(
    kind: Kind, works: Iterable[tuple[Length, Work]], units: Units | None = None
) -> Iterator[Setting]:
    """A setting for each distance, the farthest first; what is alike at it is counted together.

    With the yard's units, distances that a saw can't tell apart are set as one: as the shortest of
    them that lies on a mark, or the shortest.
    """
    listed = list(works)
    alike = list[list[Length]]()
    for distance in sorted({distance for distance, _ in listed}):
        if units and alike and distance <= alike[-1][0] + SAME:
            alike[-1].append(distance)
        else:
            alike.append([distance])
    set_at = dict[Length, Length]()
    for group in alike:
        step = MARKS[units or "inch"].step
        on_mark = (distance for distance in group if (distance / step).denominator == 1)
        set_at |= dict.fromkeys(group, next(on_mark, group[0]))
    found: dict[Length, dict[tuple[str, ...], Work]] = {}
    for distance, work in listed:
        there = found.setdefault(set_at[distance], {})
        key = (work.mark, work.source, work.how)
        count = there[key].times if key in there else 0
        there[key] = work._replace(times=work.times + count)
    for distance in sorted(found, reverse=True):
        yield Setting(0, kind, distance, tuple(found[distance].values()))


def _crosscuts(
    boards: Iterable[CutBoard], pieces: Mapping[str, Piece], blanks: Iterable[Blanks], units: Units
) -> Iterator[Setting]:
    by_number = {blank.number: blank for blank in blanks}
    works = (
        (length, _blank_work(by_number[mark], board.number, 1) if mark in by_number
         else _work(pieces[mark], board.number))
        for board in boards for mark, length, _ in board.items
    )  # fmt: skip
    return _gathered(kinds.CROSSCUT, works, units)


def _rips(blanks: Sequence[Blanks]) -> Iterator[Setting]:
    """The fence for whole blanks, the farthest first, for slices that lie flat, and for bevels."""

    def works(blank: Blanks, rips: Iterable[Rip], how: str = "") -> Iterator[tuple[Length, Work]]:
        units = blank.pieces[0].piece.units
        for rip in rips:
            off = with_unit(units, rip.off) if rip.off else "only dust"
            falls = f"{how}{off} falls off{' and is kept' * rip.keeps}"
            yield rip.fence, _blank_work(blank, blank.number, blank.count, falls)

    first = (work for blank in blanks for work in works(blank, blank.section.rips))
    second = (
        work
        for blank in blanks
        for part in blank.section.slices
        for work in works(blank, part.rips, "slice flat, ")
    )
    yield from _gathered(kinds.RIP, first)
    yield from _gathered(kinds.RIP_SLICE, second)
    for tilt in sorted({blank.tilt for blank in blanks} - {0}):
        leaning = (blank for blank in blanks if blank.tilt == tilt)
        bevels = ((b.fence, _blank_work(b, b.number, b.count)) for b in leaning)
        for setting in _gathered(kinds.BEVEL, bevels):
            yield replace(setting, tilt=tilt)


def _to_length(blanks: Iterable[Blanks], yard: Yard) -> Iterator[Setting]:
    """The stop for the pieces of strips; what is too short for a machine is sawn by hand."""
    works = [
        (cut.length, _work(cut.piece, strip.number, cut.short_by(yard.units)))
        for blank in blanks
        for strip in blank.strips
        for cut in strip.pieces
    ]
    long = (work for work in works if work[0] >= yard.least_stop)
    short = (work for work in works if work[0] < yard.least_stop)
    yield from _gathered(kinds.TO_LENGTH, long, yard.units)
    yield from _gathered(kinds.SHORT, short, yard.units)


def _by_the_slope(
    whole: Iterable[Piece], blanks: Iterable[Blanks], hives: Mapping[str, Hive]
) -> Iterator[Setting]:
    tapers, planes = list[tuple[Length, Work]](), dict[int, list[Work]]()
    for piece in (*whole, *(cut.piece for blank in blanks for cut in blank.pieces)):
        if piece.component != "roof" or piece.part not in {"rim_side", "rim_back"}:
            continue
        cut = taper(hives[piece.hive])
        if piece.part == "rim_back":
            planes.setdefault(round(cut.angle), []).append(_work(piece, ""))
        elif cut.rise:
            low, high = (with_unit(piece.units, size) for size in (cut.low, cut.high))
            how = f"from {high} in front to {low} at the back"
            tapers.append((rounded(cut.jig_offset, MARKS[piece.units]), _work(piece, "", how)))
    yield from _gathered(kinds.TAPER, tapers)
    for angle in sorted(set(planes) - {0}):
        yield Setting(0, kinds.PLANE, Fraction(0), tuple(planes[angle]), angle)


def _of_sheets(sheets: Iterable[Sheet]) -> Iterator[Setting]:
    """The settings on sheets, kind by kind: straight across each, across its strips, the trims.

    A cut that another sheet of the kind has too is set with it, where each sheet's cuts then still
    follow one another in their order.
    """
    for _, alike in groupby(sheets, key=lambda s: (s.goods.material, s.goods.thickness)):
        found = list[Setting]()
        for sheet in alike:
            at, own = 0, list[Setting]()
            for cut in sheet.cuts:
                made = _cut_of_sheet(sheet, cut)
                for n, other in enumerate(found[at:], at):
                    if other.note == made.note and 0 <= cut.at - other.distance <= SAME:
                        both = replace(other, works=other.works + made.works)
                        found[n : n + 1] = [*own, both]
                        at, own = n + len(own) + 1, []
                        break
                else:
                    own.append(made)
            found += own
        yield from found


def _cut_of_sheet(sheet: Sheet, cut: SheetCut) -> Setting:
    kind = kinds.SAW_SHEET if sheet.kerf else kinds.KNIFE
    if sheet.goods.material == "mesh":
        kind = kinds.SNIPS
    by_mark = {placed.piece.mark: placed.piece for placed in sheet.placed}
    where = {1: "the whole sheet", 2: "the sheet, in its strips", 3: "the sheet: trim"}[cut.stage]
    works = tuple(_work(by_mark[mark], sheet.number) for mark in cut.marks)
    if cut.stage == 1:
        works = (works[0]._replace(mark=", ".join(cut.marks), times=cut.times),)
    return Setting(0, kind, cut.at, works, note=f", {cut.way} {where}")


def only(
    found: Iterable[Setting], component: str | None = None, group: Group | None = None
) -> tuple[Setting, ...]:
    """The settings that are for one component, or that a class does on one day."""
    kept = []
    for setting in found:
        works = tuple(
            work
            for work in setting.works
            if (component is None or component in work.component.split())
            and (group is None or work.group == group)
        )
        if works:
            kept.append(replace(setting, works=works))
    return tuple(kept)
