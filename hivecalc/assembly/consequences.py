"""What a wrong cut does, found by comparing the true assembly with the changed one.

Nothing is listed by hand for any part: new overlaps, joints that open, faces left bare, pieces that
stand out and gaps that change are all measured between the two.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from hivecalc.assembly.meeting import (
    Contact,
    Overlap,
    contacts_between,
    gap,
    opening,
    overlap,
)
from hivecalc.assembly.outlines import NOTHING
from hivecalc.assembly.solids import AXES, Axis, Extents, Solid, hull, near
from hivecalc.assembly.telling import (
    Finding,
    Kind,
    WrongPiece,
    sentence,
    twins,
    worth_telling,
)
from hivecalc.length import Length, Units

GRAVITY: tuple[Kind, ...] = ("overlap", "open", "stands out", "bare", "clearance", "nothing")
WIDE = Fraction(4)  # a gap wider than this is room and no fit: what changes it is not told
SIDES: dict[Axis, tuple[str, str]] = {
    "x": ("at the left", "at the right"),
    "y": ("at the front", "at the back"),
    "z": ("at the bottom", "at the top"),
}


@dataclass(frozen=True)
class Consequence:
    """One thing that a wrong cut does, with its amount and a sentence about it.

    `pieces` are names: in each pair the piece that does it and the one it does it to (a piece that
    stands out stands alone). `before` and `after` are the overlap, gap or face along the axis;
    `after` is None where the pieces do not even face each other any more.
    """

    kind: Kind
    axis: Axis
    before: Length
    after: Length | None
    pieces: tuple[tuple[str, ...], ...]
    sentence: str

    @property
    def amount(self) -> Length | None:
        """By how much it changes, None where the pieces no longer face each other."""
        return None if self.after is None else abs(self.after - self.before)


def consequences(
    true: Sequence[Solid], changed: Sequence[Solid], units: Units = "inch"
) -> tuple[Consequence, ...]:
    """What differs between a true assembly and one with a wrong cut, the gravest first.

    >>> from fractions import Fraction
    >>> from hivecalc.assembly import assembled
    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> wrong = {"bottom_board.front_rail_length": Fraction(127, 8)}
    >>> true = assembled(values(demo_hive()), "bottom_board")
    >>> changed = assembled(values(demo_hive(), wrong), "bottom_board")
    >>> print(consequences(true, changed)[0].sentence)
    The front rail is 1 1/2 in too long: it runs 1 1/2 in into the right side rail.

    Both with what the component meets (assembled), or both whole hives. `units` is how amounts are
    shown.
    """
    comparison = _Comparison(true, changed)
    found = [f for f in comparison.findings() if worth_telling(f, units)]
    told = [f for f in found if not _said_already(f, found)] or comparison.harmless()
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for finding in sorted(told, key=lambda f: GRAVITY.index(f.kind)):
        groups.setdefault(twins(finding, comparison.wrong, units), []).append(finding)
    return tuple(_consequence(group, comparison.wrong, units) for group in groups.values())


def _said_already(finding: Finding, found: Iterable[Finding]) -> bool:
    """Whether a face left bare only repeats the gap that the same piece opens along that axis."""
    return finding.kind == "bare" and any(
        f.kind != "bare" and f.first == finding.first and f.axis == finding.axis for f in found
    )


def _consequence(
    group: Sequence[Finding], wrong: Mapping[str, WrongPiece], units: Units
) -> Consequence:
    one = group[0]
    pieces = tuple(tuple(s.name for s in (f.first, f.second) if s) for f in group)
    told = sentence(group, wrong, units)
    return Consequence(one.kind, one.axis, one.before, one.after, pieces, told)


class _Comparison:
    """Two assemblies of the same pieces, by name, and the pieces that differ."""

    def __init__(self, true: Sequence[Solid], changed: Sequence[Solid]) -> None:
        self.before = {s.name: s for s in true}
        self.after = {s.name: s for s in changed if s.name in self.before}
        self.moved = [n for n, s in self.after.items() if s.blocks != self.before[n].blocks]
        self.wrong = {n: self._pair(n) for n in self.moved if _cut_wrong(*self._pair(n))}
        self.lifts = {n: _lift(*self._pair(n)) for n in self.moved}
        self.outline = hull(s.extents for s in true)

    def _pair(self, name: str) -> WrongPiece:
        return self.before[name], self.after[name]

    def findings(self) -> Iterator[Finding]:
        """All that changes: pieces that stand out first, then what changes between two pieces."""
        for name in self.moved:
            yield from _standing_out(self.after[name], self.outline)
        for first, second in self._pairs():
            (old, new), (other_old, other_new) = self._pair(first), self._pair(second)
            yield from self._between_two((old, other_old), (new, other_new))

    def harmless(self) -> Iterator[Finding]:
        """That nothing is changed by any of the pieces that were cut wrong."""
        for _, new in self.wrong.values():
            yield Finding("nothing", "x", NOTHING, NOTHING, new)

    def _pairs(self) -> Iterator[tuple[str, str]]:
        """Each pair that may have changed, a piece that was cut wrong before the other."""
        ranked = sorted(self.moved, key=lambda n: n not in self.wrong)
        for i, first in enumerate(ranked):
            done = {*ranked[: i + 1]}
            others = (n for n in self.after if n not in done)
            yield from ((first, n) for n in others if not self._lifted_together(first, n))

    def _lifted_together(self, first: str, second: str) -> bool:
        lift = self.lifts[first]
        return lift is not None and self.lifts.get(second) == lift

    def _between_two(self, old: tuple[Solid, Solid], new: tuple[Solid, Solid]) -> Iterator[Finding]:
        """What changes between two pieces: an overlap hides whatever else there is."""
        runs_into = _running_into(old, new)
        if runs_into:
            yield runs_into
            return
        yield from _losing_contact(old, new)
        for finding in _changing_gaps(old, new):
            if not _interrupted(old, finding, self.before.values()):
                yield finding


def _cut_wrong(old: Solid, new: Solid) -> bool:
    return (old.cut, old.along) != (new.cut, new.along)


def _lift(old: Solid, new: Solid) -> Length | None:
    """How much higher the same piece now lies, None where it differs in another way."""
    higher = new.extents[2][0] - old.extents[2][0]
    return higher if old.raised(higher).blocks == new.blocks else None


def _standing_out(piece: Solid, outline: Extents) -> Iterator[Finding]:
    """Where a piece reaches out of the outline that the true assembly had."""
    for axis, (low, high), (old_low, old_high) in zip(AXES, piece.extents, outline, strict=True):
        for out, side in zip((old_low - low, high - old_high), SIDES[axis], strict=True):
            if out > 0:
                yield Finding("stands out", axis, NOTHING, out, piece, side=side)


def _running_into(old: tuple[Solid, Solid], new: tuple[Solid, Solid]) -> Finding | None:
    shared = overlap(*new) if near(*new) else None
    if shared is None:
        return None
    was, axis = overlap(*old), _way_in(old, shared)
    before, after = was.depth(axis) if was else NOTHING, shared.depth(axis)
    return Finding("overlap", axis, before, after, *new) if after > before else None


def _way_in(old: tuple[Solid, Solid], shared: Overlap) -> Axis:
    """The axis along which one runs into the other: where they faced each other the nearest way."""
    gaps = {axis: gap(*old, axis) for axis in AXES}
    facing = [
        (distance, shared.depth(axis), axis)
        for axis, distance in gaps.items()
        if distance is not None
    ]
    return min(facing or [(NOTHING, shared.depth(axis), axis) for axis in AXES])[2]


def _contacts(pair: tuple[Solid, Solid]) -> dict[Axis, Contact]:
    return {c.axis: c for c in contacts_between(*pair)} if near(*pair) else {}


def _losing_contact(old: tuple[Solid, Solid], new: tuple[Solid, Solid]) -> Iterator[Finding]:
    """Joints that open, and faces of pieces that are no longer covered as far as they were."""
    touched = _contacts(old)
    kept = _contacts(new) if touched else {}
    for axis, contact in touched.items():
        if axis not in kept:
            yield Finding("open", axis, NOTHING, opening(*new, axis), *new)
        elif all(piece.cut for piece in new):
            yield from _left_bare(contact, kept[axis])


def _left_bare(old: Contact, new: Contact) -> Iterator[Finding]:
    for axis, before, after in zip(AXES, old.size, new.size, strict=True):
        if after < before and axis != old.axis:
            yield Finding("bare", axis, before, after, new.first, new.second)


def _changing_gaps(old: tuple[Solid, Solid], new: tuple[Solid, Solid]) -> Iterator[Finding]:
    for axis in AXES:
        before = gap(*old, axis)
        after = gap(*new, axis) if before and before <= WIDE else None
        if before and after is not None and after != before:
            yield Finding("clearance", axis, before, after, *new)


def _interrupted(pair: tuple[Solid, Solid], finding: Finding, solids: Iterable[Solid]) -> bool:
    """Whether some other piece stands in the gap between two pieces."""
    names = {piece.name for piece in pair}
    for other in solids:
        if other.name not in names:
            here, there = (gap(piece, other, finding.axis) for piece in pair)
            if here is not None and there is not None and here + there < finding.before:
                return True
    return False
