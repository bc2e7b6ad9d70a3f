"""Rips grouped by the fence's distance: which blank passes the blade when, and what falls off."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from hivecalc.cutting.strips import Blanks, Rip
from hivecalc.length import Length
from hivecalc.saw.resets import Order, Settings, settings

Stage: TypeAlias = Literal["stud", "slice"]


@dataclass(frozen=True)
class Pass:
    """Passes along one setting of the fence that are alike: of what, how many, and the rip.

    `stage` says whether a stud or board is ripped, or a slice of one laid flat.
    """

    label: str
    stage: Stage
    rip: Rip
    count: int


@dataclass(frozen=True)
class Ripping:
    """All rips: the settings of the fence in their order, and the passes at each."""

    settings: Settings
    passes: tuple[tuple[Pass, ...], ...]

    @property
    def steps(self) -> Iterator[tuple[Length, tuple[Pass, ...]]]:
        """Each setting with its passes."""
        return zip(self.settings.order, self.passes, strict=True)


def ripping(blanks: Sequence[Blanks]) -> Ripping:
    """How all these blanks are ripped with the fence reset as rarely as can be.

    >>> from fractions import Fraction
    >>> from hivecalc.cutting.needs import board_needs
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> studs = board_needs([demo_hive()], demo_yard())[0]
    >>> [str(distance) for distance, passes in ripping(studs.blanks).steps][:4]
    ['23/8', '11/4', '21/8', '9/4']

    Blanks that are the rest of others come after them. Each blank is ripped widest rest first, so
    its own settings keep their order.
    """
    found = settings(order for blank in blanks for order in _orders(blank, blanks))
    jobs = [_Job(blank) for blank in blanks]
    for job in jobs:
        job.after = next((other for other in jobs if other.of.label == job.of.rest_of), None)
    return Ripping(found, tuple(tuple(_at(distance, jobs)) for distance in found.order))


def _orders(blank: Blanks, blanks: Sequence[Blanks]) -> Iterator[Order]:
    """The settings that each slice of a blank needs, those of what it is the rest of first."""
    first = [rip.fence for rip in blank.section.rips]
    own = [
        (*first[: i + 1], *(rip.fence for rip in part.rips))
        for i, part in enumerate(blank.section.slices)
    ]
    parent = next((other for other in blanks if other.label == blank.rest_of), None)
    before = list(_orders(parent, blanks)) if parent else [()]
    return ((*early, *late) for early in before for late in own)


@dataclass
class _Job:
    """How far the ripping of some blanks has come."""

    of: Blanks
    after: "_Job | None" = None
    rips: int = 0
    slices: dict[int, int] = field(default_factory=dict)

    @property
    def done(self) -> bool:
        """Whether all of it is ripped."""
        section = self.of.section
        cut = (self.slices.get(i, 0) == len(s.rips) for i, s in enumerate(section.slices))
        return self.rips == len(section.rips) and all(cut)

    def passes(self, distance: Length) -> Iterator[Pass]:
        """What passes the blade at this distance of the fence."""
        section, count = self.of.section, self.of.count
        if self.rips < len(section.rips) and section.rips[self.rips].fence == distance:
            yield Pass(self.of.label, "stud", section.rips[self.rips], count)
            self.rips += 1
        ready: dict[Rip, int] = {}
        for i, part in enumerate(section.slices[: self._free]):
            at = self.slices.get(i, 0)
            if at < len(part.rips) and part.rips[at].fence == distance:
                ready[part.rips[at]] = ready.get(part.rips[at], 0) + count
                self.slices[i] = at + 1
        for rip, passing in ready.items():
            yield Pass(self.of.label, "slice", rip, passing)

    @property
    def _free(self) -> int:
        """How many slices are off the stud: with the last rip the last one is free as well."""
        section = self.of.section
        return len(section.slices) if self.rips == len(section.rips) else self.rips


def _at(distance: Length, jobs: Sequence[_Job]) -> Iterator[Pass]:
    for job in jobs:
        if job.after is None or job.after.done:
            yield from job.passes(distance)
