"""Steps at the saw: the settings of stop, fence, tilt and jig, and what is cut at each."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from hivecalc.cutting.needs import BoardNeed
from hivecalc.cutting.strips import Blanks
from hivecalc.length import Grid, Length, Ratio, rounded
from hivecalc.saw.bevel import Bevel, tilt_of
from hivecalc.saw.cautions import CAUTIONS, Caution, Kind
from hivecalc.saw.ripping import Pass, Ripping
from hivecalc.saw.taper import Taper


@dataclass(frozen=True)
class Work:
    """Pieces that are cut alike at one setting: their label, how many, and how they pass a rip."""

    label: str
    count: int
    passing: Pass | None = None


@dataclass(frozen=True)
class Step:
    """One setting of the saw and what is cut at it; lengths in inches, the tilt in degrees.

    `kind` says what is set: the stop block for a crosscut from a board and for a cut to length, the
    fence for a rip, fence and tilt for a bevel, the jig's offset for a taper. `edge` is one of the
    edges that are bevelled at the step.
    """

    kind: Kind
    setting: Length
    work: tuple[Work, ...]
    tilt: float = 0.0
    taper: Taper | None = None
    edge: Bevel | None = None

    @property
    def cuts(self) -> int:
        """How many cuts are made at this setting."""
        return sum(work.count for work in self.work)

    @property
    def cautions(self) -> tuple[Caution, ...]:
        """What to take care of at this step."""
        return CAUTIONS[self.kind]


Counted = tuple[str, int]


def crosscuts(needs: Iterable[BoardNeed]) -> Iterator[Step]:
    """A step for each length that is crosscut from boards, the longest first.

    >>> from hivecalc.cutting.needs import board_needs
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> steps = list(crosscuts(board_needs([demo_hive()], demo_yard())))
    >>> [(str(s.setting), [w.label for w in s.work]) for s in steps if len(s.work) > 1]
    [('139/8', ['bottom board back rail', 'bottom board landing board'])]

    Pieces of any hive, part and lumber that are equally long share a setting of the stop block.
    """
    pieces = ((w.length, (w.label, w.count)) for need in needs for w in need.wanted)
    return _by_length("crosscut", pieces)


def cuts_to_length(blanks: Iterable[Blanks]) -> Iterator[Step]:
    """A step for each length that strips are cut to, the longest first.

    >>> from hivecalc.cutting.needs import board_needs
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> studs, boards = board_needs([demo_hive()], demo_yard())
    >>> [str(step.setting) for step in cuts_to_length(studs.blanks)][:3]
    ['165/8', '20', '157/8']

    A strip that is one piece and as long as its blank needs no further cut.
    """
    pieces = (
        (length, (label, strip.count))
        for blank in blanks
        for strip in blank.strips
        for label, length in strip.pieces
        if length != blank.length
    )
    return _by_length("to_length", pieces)


def _by_length(kind: Kind, pieces: Iterable[tuple[Length, Counted]]) -> Iterator[Step]:
    found: dict[Length, dict[str, int]] = {}
    for length, (label, count) in pieces:
        there = found.setdefault(length, {})
        there[label] = there.get(label, 0) + count
    for length in sorted(found, reverse=True):
        work = tuple(Work(label, count) for label, count in found[length].items())
        yield Step(kind, length, work)


def rips(ripping: Ripping) -> Iterator[Step]:
    """A step for each setting of the fence.

    >>> from hivecalc.cutting.needs import board_needs
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.saw.ripping import ripping
    >>> from hivecalc.stock import demo_yard
    >>> studs = board_needs([demo_hive()], demo_yard())[0]
    >>> [(str(step.setting), step.cuts) for step in rips(ripping(studs.blanks))][-1]
    ('1/2', 4)
    """
    for distance, passes in ripping.steps:
        yield Step("rip", distance, tuple(Work(p.label, p.count, p) for p in passes))


def bevels(edges: Mapping[Bevel, list[Counted]], grid: Grid) -> Iterator[Step]:
    """A step for each tilt and distance of the fence at which edges are bevelled, least tilt first.

    >>> from fractions import Fraction
    >>> from hivecalc.length import SIXTEENTH
    >>> edge = Bevel(Fraction(3, 4), Fraction(7, 2), Fraction(1, 2))
    >>> (step,) = bevels({edge: [("landing board", 1)]}, SIXTEENTH)
    >>> str(step.setting), round(step.tilt, 1)
    ('25/8', 26.6)

    The fence is set to the nearest mark of the grid, and edges that then agree share a step.
    """
    found: dict[tuple[Ratio, Length], dict[Bevel, list[Counted]]] = {}
    for edge, pieces in edges.items():
        found.setdefault((edge.slope, rounded(edge.fence, grid)), {})[edge] = pieces
    for (slope, fence), alike in sorted(found.items(), key=lambda item: item[0]):
        work = tuple(Work(*counted) for pieces in alike.values() for counted in pieces)
        yield Step("bevel", fence, work, tilt=tilt_of(slope), edge=next(iter(alike)))


def tapers(sides: Mapping[Taper, list[Counted]], grid: Grid) -> Iterator[Step]:
    """A step for each taper, the longest first.

    >>> from fractions import Fraction
    >>> from hivecalc.length import SIXTEENTH
    >>> side = Taper(Fraction(24), Fraction(7, 2), Fraction(3, 2))
    >>> [str(step.setting) for step in tapers({side: [("rim side", 2)]}, SIXTEENTH)]
    ['2']

    The jig's offset is set to the nearest mark of the grid.
    """
    for side in sorted(sides, key=lambda side: -side.run):
        work = tuple(Work(*counted) for counted in sides[side])
        yield Step("taper", rounded(side.jig_offset, grid), work, side.angle, side)
