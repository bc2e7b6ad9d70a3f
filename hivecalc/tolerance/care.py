"""How far off a size may be, by how it was read or cut."""

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TYPE_CHECKING, Final, TypeAlias

from hivecalc.derivation import nearest_names, title
from hivecalc.fit import FIT
from hivecalc.hive import MEASUREMENTS, Fault, HiveFaults
from hivecalc.length import Length, written

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats: TypeAlias = NDArray[np.float64]


STOP_BLOCK: Final = Fraction(1, 32)
"""A cut against a stop block or a rip fence, more or less; common practice, no published source."""
HAND_MARK: Final = Fraction(1, 16)
"""A cut to a pencil line, or the line, more or less; common practice, no published source."""
READING: Final = Fraction(1, 32)
"""A reading of a tape in sixteenths, more or less; common practice, no published source."""
GAUGED: Final = Fraction(1, 256)
"""A wire or sheet that is too thin for a tape, gauged; common practice, no published source."""
THIN: Final = Fraction(1, 8)
LARGEST: Final = Fraction(1)
MARKED: Final = frozenset({"roof.deck_screw_line", "roof.cover_screw_line"})
"""Lines drawn by hand on a piece: once drawn they stay where they are, as a cut does."""
SIGMAS: Final = 3
"""A tolerance is taken as this many standard deviations, and errors are cut off there."""


@dataclass(frozen=True, kw_only=True)
class Deviation:
    """By how much one size may be off, more or less, and why so much.

    Sizes with the same `group` are off together, by one and the same error: one setting of the stop
    block, one misread tape. Of `pieces` separate pieces each is off by itself.
    """

    name: str
    tolerance: Length
    reason: str = ""
    group: str = ""
    pieces: int = 1


@dataclass(frozen=True, kw_only=True)
class Contributor(Deviation):
    """One size that a gap rests on: how far off it may be, and what that does to the gap.

    `sensitivity` is by how much the gap changes for each inch that the size changes. `share` is
    what part of the spread comes from it, by root-sum-square; all shares together make 1.

    >>> rails = Contributor(name="rail", tolerance=Fraction(1, 32), sensitivity=Fraction(-2))
    >>> rails.reach
    Fraction(-1, 16)
    """

    sensitivity: Fraction = Fraction(1)
    share: float = 0.0

    @property
    def reach(self) -> Fraction:
        """By how much the gap changes when this size is off by its tolerance."""
        return self.sensitivity * self.tolerance

    @property
    def title(self) -> str:
        """The name of the size in plain words."""
        return title(self.name)


@dataclass(frozen=True, kw_only=True)
class Care:
    """How carefully somebody measures and cuts: every tolerance, more or less, in inches.

    `own` gives a size its own tolerance. `together` names sizes that share one error. `apart` says
    of how many pieces a size consists that are off each by itself: three strips of the screen, each
    ripped at its own setting of the fence.

    >>> Care(cut=HAND_MARK).cut
    Fraction(1, 16)
    >>> Care(own={"stud_thickness": Fraction(2)})  # doctest: +IGNORE_EXCEPTION_DETAIL
    Traceback (most recent call last):
    HiveFaults: tolerance of stud_thickness: 2 in; 0 to 1 in is accepted.

    A `mark` is a line drawn by hand, such as the screw line. Raises HiveFaults with every fault at
    once.
    """

    cut: Length = STOP_BLOCK
    mark: Length = HAND_MARK
    reading: Length = READING
    own: Mapping[str, Length] = field(default_factory=dict)
    together: Sequence[Sequence[str]] = ()
    apart: Mapping[str, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Refuse what no tolerance is."""
        faults = [*self._faults()]
        if faults:
            raise HiveFaults(faults)

    def _faults(self) -> Iterator[Fault]:
        usual = {"a cut": self.cut, "a mark": self.mark, "a reading": self.reading}
        for name, value in {**usual, **self.own}.items():
            if not 0 <= value <= LARGEST:
                accepted = "0 to 1 in is accepted"
                yield Fault(f"tolerance of {name}", f"{written(value)} in", accepted)
        grouped = [*itertools.chain(*self.together)]
        for name in {*self.own, *grouped, *self.apart}:
            if name not in FIT.dimensions and name not in MEASUREMENTS:
                yield _unknown_size(name)
            if grouped.count(name) + (name in self.apart) > 1:
                yield Fault(f"tolerance of {name}", "it is in two groups", "put it in one")
        for name, pieces in self.apart.items():
            if pieces < 1:
                yield Fault(f"pieces of {name}", str(pieces), "1 or more is accepted")

    def deviation(self, name: str, value: Fraction, *, read: bool) -> Deviation:
        """By how much this size may be off: its own tolerance, that of a reading, or of a cut."""
        tolerance, reason = self._tolerance(name, value, read=read)
        group = next((f"together {i + 1}" for i, g in enumerate(self.together) if name in g), "")
        pieces = self.apart.get(name, 1)
        return Deviation(name=name, tolerance=tolerance, reason=reason, group=group, pieces=pieces)

    def _tolerance(self, name: str, value: Fraction, *, read: bool) -> tuple[Length, str]:
        if name in self.own:
            return self.own[name], "as you set it"
        if name in MARKED and not read:
            return self.mark, "as you draw a line by hand"
        if not read:
            return self.cut, "as you cut"
        if value < THIN:
            return min(self.reading, GAUGED), "too thin for a tape, so gauged"
        return self.reading, "as you read the tape"


def _unknown_size(name: str) -> Fault:
    near = nearest_names(name, [*MEASUREMENTS, *FIT.dimensions])
    accepted = f"the nearest are {', '.join(near)}" if near else "take one from the parts table"
    return Fault(f"tolerance of {name[:60]!a}", "there is no size of this name", accepted)


USUAL: Final = Care()
