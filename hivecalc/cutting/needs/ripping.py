"""Pieces that are ripped from lumber: the blanks for them, or the rest of other blanks."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Final, TypeAlias

from hivecalc.cutting.needs.pieces import MARKS, Needed, Section
from hivecalc.cutting.strips import (
    LEAST_RIP,
    Blanks,
    CrossSection,
    blanks_for,
    cross_section,
    rest_for,
)
from hivecalc.cutting.wanted import Unplanned, Wanted
from hivecalc.hive.values import said_with_unit
from hivecalc.length import Length, Units, with_unit

LONGEST_RIP: Final = Fraction(54)
"""Longest blank that is ripped; common practice, no published source.

One person can feed it past the blade, and studs are used up better than with longer ones.
"""

PLANED: Final = Fraction(1, 16)
"""Most that a hand plane takes off a strip; common practice, no published source."""

Sides: TypeAlias = tuple[Length, Length]


@dataclass
class Ripping:
    """Blanks from boards that yield so much length, with this kerf; filled group by group."""

    longest: Length
    kerf: Length
    made: list[Blanks] = field(default_factory=list)
    unplanned: list[Unplanned] = field(default_factory=list)
    _taken: Counter[tuple[str, Sides]] = field(default_factory=Counter)

    def add(self, pieces: Iterable[tuple[Needed, Section]]) -> None:
        """Add the blanks for pieces out of the sections beside them; those of most pieces first."""
        for group in sorted(_groups(pieces), key=lambda group: -group.count):
            section, wanted = self._section(group), group.wanted
            if not section.count:
                why = f"no {group.words} can be ripped from a {group.sold.named(group.units)}"
                self._leave_out(wanted, why)
                continue
            long = [piece for piece in wanted if piece.length > self.longest]
            yields = said_with_unit(self.longest, group.units)
            self._leave_out(long, f"it is longer than the {yields} that a board yields")
            self._make(group, section, [p for p in wanted if p.length <= self.longest])

    def _leave_out(self, pieces: Iterable[Wanted], why: str) -> None:
        self.unplanned += [Unplanned(p.label, p.count, why) for p in pieces]

    def _section(self, group: "_Group") -> CrossSection:
        sold = group.sold
        return cross_section(sold.thickness, sold.width, *group.sides, self.kerf)

    def _make(self, group: "_Group", section: CrossSection, pieces: list[Wanted]) -> None:
        if not pieces:
            return
        rest = self._of_rests(section, pieces)
        made = [rest] if rest else self._of_boards(group, section, pieces)
        self.made += [replace(blanks, material=group.sold.material) for blanks in made]

    def _of_rests(self, section: CrossSection, pieces: Sequence[Wanted]) -> Blanks | None:
        """The pieces out of what is left of other blanks: as it falls, or else ripped once more."""
        for way in (_as_it_falls, _ripped_again):
            for blanks, rest, many in self._rests():
                found = rest_for(pieces, way(rest, section), blanks, many)
                if found:
                    self._taken[blanks.label, rest] += found.count
                    return found
        return None

    def _rests(self) -> Iterator[tuple[Blanks, Sides, int]]:
        """What is left of the blanks so far: of which, its sides, how many are not yet taken."""
        for blanks in self.made:
            if not blanks.rest_of:
                for rest, many in Counter(map(_sides, blanks.section.rests)).items():
                    yield blanks, rest, many * blanks.count - self._taken[blanks.label, rest]

    def _of_boards(
        self, group: "_Group", section: CrossSection, pieces: Sequence[Wanted]
    ) -> Iterator[Blanks]:
        """Blanks of their own; where a section gives one strip only, each piece has its blank."""
        grid = MARKS[group.units]
        if section.count > 1:
            room = max(LONGEST_RIP, *(piece.length for piece in pieces))
            label = self._unused(group.label)
            yield blanks_for(label, pieces, section, min(room, self.longest), grid)
            return
        for piece in pieces:
            one = min(max(piece.length, LEAST_RIP), self.longest)
            label = piece.label if one == piece.length else f"blank for {piece.label}"
            yield blanks_for(label, [piece], section, one, grid)

    def _unused(self, label: str) -> str:
        """The label, with a number behind it where other blanks have it already."""
        used, number, new = {blanks.label for blanks in self.made}, 1, label
        while new in used:
            number += 1
            new = f"{label} ({number})"
        return new


@dataclass(frozen=True)
class _Group:
    """Pieces of one section that are ripped from the same lumber."""

    sold: Section
    sides: Sides
    pieces: tuple[Needed, ...]

    @property
    def units(self) -> Units:
        return self.pieces[0].units

    @property
    def count(self) -> int:
        return sum(piece.count for piece in self.pieces)

    @property
    def wanted(self) -> list[Wanted]:
        return [Wanted(piece.label, piece.length, piece.count) for piece in self.pieces]

    @property
    def words(self) -> str:
        return f"strip of {with_unit(self.units, *self.sides)}"

    @property
    def label(self) -> str:
        """What is written on a blank: the part, if there is only one, or the strips' section."""
        parts = {replace(piece, hive="").label for piece in self.pieces}
        return f"blank for {parts.pop()}" if len(parts) == 1 else f"blank, {self.words}"


def _groups(pieces: Iterable[tuple[Needed, Section]]) -> list[_Group]:
    found: dict[tuple[Section, Sides], list[Needed]] = {}
    for piece, sold in pieces:
        if piece.thickness:
            key = sold, (piece.thickness, piece.width)
            found.setdefault(key, []).append(piece)
    return [_Group(*key, tuple(group)) for key, group in found.items()]


def _as_it_falls(rest: Sides, section: CrossSection) -> CrossSection:
    """The rest as a strip, if it is as big as one or by what a hand plane takes off bigger."""
    sides = _sides((section.piece_thickness, section.piece_width))
    off = [have - want for have, want in zip(rest, sides, strict=True)]
    serves = min(off) >= 0 and max(off) <= PLANED
    return cross_section(*(sides if serves else (Fraction(0),) * 2), *sides, section.kerf)


def _ripped_again(rest: Sides, section: CrossSection) -> CrossSection:
    return cross_section(*rest, section.piece_thickness, section.piece_width, section.kerf)


def _sides(sides: Sequence[Length]) -> Sides:
    """The two sides of a section or of a rectangle, the smaller first."""
    small, big = sorted(sides[-2:])
    return small, big
