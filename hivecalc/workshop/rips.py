"""The cross-section of a stud cut into strips: how many come out, which way to rip, what is left.

A rip has the wide part between blade and fence, and the piece that it takes off falls away on the
other side. So each rip moves the fence nearer.
What stands between blade and fence must be wide enough to be held and pushed, so that a narrow
strip is always the piece that falls off.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import accumulate
from typing import Final, Literal, NamedTuple, TypeAlias

from hivecalc.hive.hive import said_with_unit
from hivecalc.length import Length, Units
from hivecalc.workshop.yard import Yard

DEEPEST: Final = Fraction(3)
"""Deepest cut of an upright blade of 10 in; common practice, no published source.

The saw's manual says how deep yours cuts.
"""

Side: TypeAlias = Literal["width", "thickness"]


class Rip(NamedTuple):
    """One pass: the fence's distance from the blade, and what the stock measures before it.

    `off` is the width that falls away on the other side of the blade; nothing falls where the stock
    is wider than the fence's distance by a kerf or less. `keeps` says whether what falls is wanted.
    """

    fence: Length
    before: Length
    off: Length
    keeps: bool


class Rectangle(NamedTuple):
    """A part of the cross-section: its low corner, and how far it reaches along both sides.

    x runs along the stud's width, y along its thickness.
    """

    x: Length
    y: Length
    wide: Length
    high: Length

    @property
    def area(self) -> Length:
        """Its area in square inches."""
        return self.wide * self.high


@dataclass(frozen=True)
class Slice:
    """A slice that the first rips take off: its size, its number of strips, how it is ripped."""

    size: Length
    strips: int
    rips: tuple[Rip, ...]


@dataclass(frozen=True)
class CrossSection:
    """How the cross-section of a stud is ripped into strips of one size.

    >>> stud = cross_section(*map(Fraction, ("1.5", "3.5", "0.5", "0.75", "0.125")))
    >>> stud.count, stud.first, [str(rip.fence) for rip in stud.rips]
    (5, 'width', ['23/8', '9/4', '13/8', '3/4'])

    In inches. The first rips cut the stud's `first` side into slices, widest rest first; then each
    slice is laid flat and ripped into strips.
    """

    thickness: Length
    width: Length
    piece_thickness: Length
    piece_width: Length
    kerf: Length
    first: Side
    slices: tuple[Slice, ...]
    rips: tuple[Rip, ...]

    @property
    def count(self) -> int:
        """How many strips come out."""
        return sum(part.strips for part in self.slices)

    def giving(self, strips: int) -> "CrossSection":
        """The same, with no more slices taken off than it takes for so many strips."""
        enough = next((i for i, made in enumerate(self._made()) if made >= strips), -1)
        if enough < 0:
            return self
        return replace(self, slices=self.slices[:enough], rips=self.rips[:enough])

    def _made(self) -> Iterator[int]:
        """How many strips no slice gives, the first, the first two, and so on."""
        return accumulate((part.strips for part in self.slices), initial=0)

    @property
    def used(self) -> Fraction:
        """The share of the cross-section that becomes strips."""
        area = self.count * self.piece_thickness * self.piece_width
        return area / (self.thickness * self.width)

    @property
    def passes(self) -> int:
        """How many rips it takes in all."""
        return len(self.rips) + sum(len(part.rips) for part in self.slices)

    @cached_property
    def strips(self) -> tuple[Rectangle, ...]:
        """Where each strip lies."""
        return tuple(self._across(*place) for place in self._strip_places())

    @cached_property
    def rests(self) -> tuple[Rectangle, ...]:
        """What is left beside the strips, where the kerfs leave anything."""
        return tuple(self._across(*place) for place in self._rest_places())

    @cached_property
    def kerfs(self) -> tuple[Rectangle, ...]:
        """Where the blade goes, as far as there is wood."""
        return tuple(self._across(*place) for place in self._kerf_places())

    def _across(self, u: Length, v: Length, along: Length, over: Length) -> Rectangle:
        """A place along the first side and over it, as a rectangle of the stud."""
        if self.first == "width":
            return Rectangle(u, v, along, over)
        return Rectangle(v, u, over, along)

    @property
    def _sides(self) -> tuple[Length, Length]:
        """The side that is ripped first, and the other one."""
        sides = self.width, self.thickness
        return sides if self.first == "width" else sides[::-1]

    def _starts(self) -> Iterator[tuple[Length, Slice]]:
        u = Fraction(0)
        for part in self.slices:
            yield u, part
            u += part.size + self.kerf

    def _strip_places(self) -> Iterator[tuple[Length, Length, Length, Length]]:
        for u, part in self._starts():
            size = self._other(part)
            for i in range(part.strips):
                yield u, i * (size + self.kerf), part.size, size

    def _other(self, part: Slice) -> Length:
        """The side of a strip that lies along the stud's other side."""
        both = self.piece_thickness, self.piece_width
        return both[1] if part.size == both[0] else both[0]

    def _rest_places(self) -> Iterator[tuple[Length, Length, Length, Length]]:
        side, other = self._sides
        for u, part in self._starts():
            end = part.strips * (self._other(part) + self.kerf)
            if end < other:
                yield u, end, part.size, other - end
        end = sum((part.size + self.kerf for part in self.slices), Fraction(0))
        if end < side:
            yield end, Fraction(0), side - end, other

    def _kerf_places(self) -> Iterator[tuple[Length, Length, Length, Length]]:
        side, other = self._sides
        for u, part in self._starts():
            size = self._other(part)
            for i in range(len(part.rips)):
                v = (i + 1) * size + i * self.kerf
                yield u, v, part.size, min(self.kerf, other - v)
        for (u, part), _ in zip(self._starts(), self.rips, strict=False):
            end = u + part.size
            yield end, Fraction(0), min(self.kerf, side - end), other


def cross_section(  # noqa: PLR0913 - a stud and a strip have two sides each
    thickness: Length,
    width: Length,
    piece_thickness: Length,
    piece_width: Length,
    kerf: Length,
    *,
    least_fence: Length = Yard.least_fence,
    deepest: Length = DEEPEST,
) -> CrossSection:
    """The way to rip a stud that gives most strips, and of these the one with fewest rips.

    In inches. One side of the stud is cut into slices as wide as a strip is wide or thick, the
    rest perhaps the other way; then each slice into strips. A side of W gives
    floor((W + kerf) / (w + kerf)) pieces of w where w can be held at the fence; fewer where it is
    narrower than `least_fence`, as then that much must stay there. No cut is deeper than `deepest`.
    With no way to rip it, the count is 0.
    """
    return _best(_Stud(thickness, width, piece_thickness, piece_width, kerf, least_fence, deepest))


@lru_cache(maxsize=256)  # the same few studs and strips are asked for again and again
def _best(stud: "_Stud") -> CrossSection:
    return min(stud.ways(), key=lambda way: (-way.count, way.passes, way.first != "width"))


@dataclass(frozen=True)
class _Stud:
    thickness: Length
    width: Length
    piece_thickness: Length
    piece_width: Length
    kerf: Length
    least_fence: Length
    deepest: Length

    def ways(self) -> Iterator[CrossSection]:
        yield self._way("width", ())
        yield from self._ways("width", self.width, self.thickness)
        yield from self._ways("thickness", self.thickness, self.width)

    def _ways(self, first: Side, side: Length, other: Length) -> Iterator[CrossSection]:
        thin, wide = self.piece_thickness, self.piece_width
        kinds = self._slice(thin, wide, other), self._slice(wide, thin, other)
        for thins in range(self._most(side, thin) + 1):
            for wides in range(self._most(side, wide) + 1 if wide != thin else 1):
                slices = (kinds[0],) * thins + (kinds[1],) * wides
                rips = self._rips(side, [part.size for part in slices])
                if rips is not None and (not rips or other <= self.deepest):
                    yield self._way(first, slices, rips)

    def _way(
        self, first: Side, slices: tuple[Slice, ...], rips: Iterable[Rip] = ()
    ) -> CrossSection:
        return CrossSection(
            self.thickness,
            self.width,
            self.piece_thickness,
            self.piece_width,
            self.kerf,
            first,
            slices,
            tuple(rips),
        )

    def _most(self, side: Length, size: Length) -> int:
        return int((side + self.kerf) // (size + self.kerf))

    def _slice(self, size: Length, strip: Length, other: Length) -> Slice:
        """The slice of this size with as many strips as it gives."""
        for count in range(self._most(other, strip), 0, -1):
            rips = self._rips(other, [strip] * count)
            if rips is not None and (not rips or size <= self.deepest):
                return Slice(size, count, tuple(rips))
        return Slice(size, 0, ())

    def _rips(self, side: Length, sizes: Sequence[Length]) -> list[Rip] | None:
        """The rips that cut a side into these sizes, or None where one could not be held."""
        rips: list[Rip] = []
        for i, size in enumerate(sizes):
            last = i == len(sizes) - 1
            if last and size == side:
                break
            at_fence = last and size >= self.least_fence
            fence = size if at_fence else side - size - self.kerf
            if fence < self.least_fence or size > side:
                return None
            rips.append(Rip(fence, side, max(side - fence - self.kerf, Fraction(0)), not at_fence))
            side = fence
        return rips


# ── in words ──────────────────────────────────────────────────────────────────────────────────

NEVER: Final = (
    "Never cut a rest on the saw that is less than {} wide: it can't be held. That width is common "
    "practice, no published source; your saw's manual may ask for more."
)
LIES: Final = {"width": "lies flat", "thickness": "stands on edge"}


def section_told(
    section: CrossSection, units: Units = "inch", material: str = "stud"
) -> tuple[str, ...]:
    """Sentences on a cross-section: the count, the order of the rips, and the rest.

    >>> from fractions import Fraction
    >>> stud = cross_section(*map(Fraction, ("1.5", "3.5", "0.5", "1.5", "0.125")))
    >>> for sentence in section_told(stud)[:3]:
    ...     print(sentence)
    A stud of 1 1/2 in by 3 1/2 in gives 4 strips of 1/2 in by 1 1/2 in with a kerf of 1/8 in.
    It lies flat. Set the fence to 2 7/8 in, 2 1/4 in, 1 5/8 in and 1 in, in this order.
    The wide part runs between blade and fence, and each slice falls off on the other side.
    """
    sides = (section.thickness, section.width), (section.piece_thickness, section.piece_width)
    stock, strip = (" by ".join(said_with_unit(s, units) for s in pair) for pair in sides)
    if not section.count:
        return (f"A {material} of {stock} gives no strip of {strip}.",)
    many = "one strip" if section.count == 1 else f"{section.count} strips"
    kerf = said_with_unit(section.kerf, units)
    return (
        f"A {material} of {stock} gives {many} of {strip} with a kerf of {kerf}.",
        *_first_rips(section, units),
        *_second_rips(section, units),
        *_rest(section, units),
    )


def _first_rips(section: CrossSection, units: Units) -> Iterator[str]:
    if section.rips:
        distances = _listed([rip.fence for rip in section.rips], units)
        yield f"It {LIES[section.first]}. Set the fence to {distances}."
    if any(rip.keeps for rip in section.rips):
        yield (
            "The wide part runs between blade and fence, and each slice falls off on the other "
            "side."
        )


def _second_rips(section: CrossSection, units: Units) -> Iterator[str]:
    ways = dict.fromkeys(part for part in section.slices if part.rips)
    for part in ways:
        distances = _listed([rip.fence for rip in part.rips], units)
        slices = sum(other == part for other in section.slices)
        which = "the slice" if slices == 1 else f"each of {slices} slices"
        thick = said_with_unit(part.size, units)
        yield f"Lay {which} of {thick} flat and set the fence to {distances}."


def _listed(lengths: list[Length], units: Units) -> str:
    listed = _and([said_with_unit(length, units) for length in lengths])
    return f"{listed}, in this order" if len(lengths) > 1 else listed


def _and(words: list[str]) -> str:
    *first, last = words
    return f"{', '.join(first)} and {last}" if first else last


def _rest(section: CrossSection, units: Units) -> Iterator[str]:
    for rest, many in Counter(map(_sides, section.rests)).items():
        sides = " by ".join(said_with_unit(side, units) for side in rest)
        yield f"Left: {many} of {sides}." if many > 1 else f"Left: {sides}."
    if any(min(rest.wide, rest.high) < Yard.least_fence for rest in section.rests):
        yield NEVER.format(said_with_unit(Yard.least_fence, units))


def _sides(rest: Rectangle) -> tuple[Length, Length]:
    return min(rest[2:]), max(rest[2:])
