"""Blanks: lengths of stud that are crosscut first, then ripped into strips, then cut to length.

All blanks for one kind of strip are equally long, so that one setting of the stop block does, and
as short as all the pieces together allow.
"""

from collections import Counter, deque
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Final, TypeAlias

from hivecalc.cutting.strips.cross_section import CrossSection
from hivecalc.cutting.strips.laying import Laid, laid, shortest_room, strips_in
from hivecalc.cutting.wanted import Wanted
from hivecalc.length import Grid, Length, Rounding, rounded
from hivecalc.space.outlines import finest_grid

LEAST_RIP: Final = Fraction(12)
"""Shortest piece that is ripped on the saw; common practice, no published source.

A shorter one can turn between blade and fence. The saw's manual may ask for more.
"""

MORE_BLANKS: Final = 4
"""So many counts of blanks are tried, from the fewest on."""

Piece: TypeAlias = tuple[str, Length]


@dataclass(frozen=True)
class Strip:
    """Strips that are cut to length alike: the pieces of each, longest first, and how many."""

    pieces: tuple[Piece, ...]
    count: int


@dataclass(frozen=True)
class Blanks:
    """Blanks that are alike: their length, how many, how they are ripped, what comes out.

    In inches. Where `rest_of` names other blanks, these are what is left of those, and none of them
    is crosscut.
    """

    label: str
    section: CrossSection
    length: Length
    count: int
    strips: tuple[Strip, ...]
    rest_of: str = ""
    material: str = "stud"

    @property
    def made(self) -> int:
        """How many strips the blanks give; some of them may be spare."""
        return self.count * self.section.count

    @property
    def needed(self) -> int:
        """How many strips are cut to length."""
        return sum(strip.count for strip in self.strips)


def blanks_for(
    label: str,
    pieces: Sequence[Wanted],
    section: CrossSection,
    longest: Length,
    grid: Grid | None = None,
) -> Blanks:
    """The fewest inches of stud, in equal blanks, that give all these pieces as strips.

    >>> from hivecalc.cutting.strips import cross_section
    >>> stud = cross_section(*map(Fraction, ("1.5", "3.5", "0.5", "0.75", "0.125")))
    >>> made = blanks_for("strips", [Wanted("runner", Fraction(20), 10)], stud, Fraction(95))
    >>> made.count, str(made.length), [(len(strip.pieces), strip.count) for strip in made.strips]
    (2, '20', [(1, 10)])

    Pieces and `longest`, the most that a blank may be, are in inches. A blank is on a mark of the
    grid, and long enough to be ripped. The pieces are laid along the strips longest first, each
    into the first strip with room, and the shortest room that holds them so is sought: a good plan
    that is seldom beaten, and not proved to be the best. Raises ValueError where the section gives
    no strip, or a piece is longer than `longest`.
    """
    if section.count == 0 or max(p.length for p in pieces) > longest:
        raise ValueError("these pieces do not come out of this stud")
    task = _Task(tuple(pieces), section.kerf)
    plans = task.plans(section.count, longest)
    sized = [(_on_grid(task.inches(laid), longest, grid), n, laid) for n, laid in plans]
    length, count, best = min(sized, key=lambda plan: (plan[0] * plan[1], plan[1]))
    used = section.giving(-(-strips_in(best) // count))
    return Blanks(label, used, length, count, task.strips(best))


def rest_for(
    pieces: Sequence[Wanted], section: CrossSection, of: Blanks, rests: int
) -> Blanks | None:
    """The pieces out of what is left of other blanks, or None where that is too short or too few.

    >>> from hivecalc.cutting.strips import cross_section
    >>> stud = cross_section(*map(Fraction, ("1.5", "3.5", "0.5", "0.75", "0.125")))
    >>> made = blanks_for("strips", [Wanted("runner", Fraction(20), 10)], stud, Fraction(95))
    >>> thin = cross_section(*map(Fraction, ("0.25", "0.75", "0.25", "0.75", "0.125")))
    >>> stops = rest_for([Wanted("stop", Fraction(12), 5)], thin, made, 6)
    >>> stops.count, stops.rest_of
    (5, 'strips')

    `section` says how one of the rests is ripped, and `rests` how many of them there are.
    """
    if section.count == 0 or max(p.length for p in pieces) > of.length:
        return None
    task = _Task(tuple(pieces), section.kerf)
    layout = laid(task.demand, task.size(of.length))
    count = -(-strips_in(layout) // section.count)
    if count > rests:
        return None
    used = section.giving(-(-strips_in(layout) // count))
    return Blanks(f"rest of {of.label}", used, of.length, count, task.strips(layout), of.label)


def _on_grid(needed: Length, longest: Length, grid: Grid | None) -> Length:
    """The length of a blank: what is needed, on the next mark and long enough to be ripped."""
    wished = max(LEAST_RIP, needed)
    return max(needed, min(rounded(wished, grid, Rounding.UP) if grid else wished, longest))


@dataclass(frozen=True)
class _Task:
    """Pieces to lay along strips, in whole steps, each with one kerf."""

    pieces: tuple[Wanted, ...]
    kerf: Length

    @cached_property
    def step(self) -> int:
        """How many steps make an inch, so that all lengths are whole numbers of them."""
        return finest_grid((self.kerf, *(piece.length for piece in self.pieces)))

    @cached_property
    def demand(self) -> dict[int, int]:
        """How many pieces there are of each size."""
        found: Counter[int] = Counter()
        for piece in self.pieces:
            found[self.size(piece.length)] += piece.count
        return dict(found)

    def size(self, length: Length) -> int:
        """A length and one kerf, in steps."""
        return int((length + self.kerf) * self.step)

    def plans(self, per_blank: int, longest: Length) -> Iterator[tuple[int, Laid]]:
        """For each count of blanks the pieces laid along as short strips as were found."""
        room = self.size(longest)
        fewest = -(-strips_in(laid(self.demand, room)) // per_blank)
        for count in range(fewest, fewest + MORE_BLANKS):
            yield count, laid(self.demand, shortest_room(self.demand, count * per_blank, room))

    def inches(self, layout: Laid) -> Length:
        """Length of the fullest strip."""
        steps = max(sum(size * n for size, n in pattern) for pattern, _ in layout)
        return Fraction(steps, self.step) - self.kerf

    def strips(self, layout: Laid) -> tuple[Strip, ...]:
        """The same layout with the pieces' labels; strips that are labelled alike are counted."""
        waiting: dict[int, deque[Piece]] = {}
        for piece in self.pieces:
            queue = waiting.setdefault(self.size(piece.length), deque())
            queue.extend([(piece.label, piece.length)] * piece.count)
        found = Counter(
            tuple(waiting[size].popleft() for size, n in pattern for _ in range(n))
            for pattern, times in layout
            for _ in range(times)
        )
        return tuple(Strip(pieces, count) for pieces, count in found.items())
