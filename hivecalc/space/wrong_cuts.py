"""What a wrong cut does, found by comparing the true assembly with the changed one.

What is found between two pieces is said in one plain sentence, and for its twins with it.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache, partial
from typing import Literal, TypeAlias

from hivecalc.components import DIMENSIONS
from hivecalc.components import MODULES as COMPONENTS
from hivecalc.derivation import title
from hivecalc.length import Length, Units, by_the_tape, written
from hivecalc.space.meeting import (
    Contact,
    Overlap,
    contacts_between,
    gap,
    least_gap,
    opening,
    overlap,
)
from hivecalc.space.solids import (
    AXES,
    NOTHING,
    Axis,
    Extents,
    Solid,
    finest_grid,
    hull,
    near,
    steps,
)

Kind: TypeAlias = Literal["overlap", "open", "stands out", "bare", "clearance", "nothing"]
WrongPiece: TypeAlias = tuple[Solid, Solid]
_Fault: TypeAlias = tuple[str, tuple[tuple[str, Length], ...]]  # turned or not, sizes off by this

# What one says of a size that is too big or too small.
TOO: dict[str, tuple[str, str]] = {
    "length": ("too long", "too short"),
    "width": ("too wide", "too narrow"),
    "thickness": ("too thick", "too thin"),
    "height": ("too high", "too low"),
}


@dataclass(frozen=True)
class Finding:
    """A consequence for one pair, before twins are put together.

    `first` does it to `second`, or `both` do it to one another; `before` and `after` are the
    overlap, gap or face along the axis.
    """

    kind: Kind
    axis: Axis
    before: Length
    after: Length | None
    first: Solid
    second: Solid | None = None
    side: str = ""
    both: bool = False

    @property
    def doers(self) -> tuple[Solid, ...]:
        """The piece that does it, or both."""
        return (self.first, self.second) if self.both and self.second else (self.first,)


def twins(finding: Finding, wrong: Mapping[str, WrongPiece]) -> tuple[object, ...]:
    """What findings have in common that are said in one sentence."""
    axis, doers = finding.axis, finding.doers
    faults = tuple(_fault(*wrong[d.name], axis) for d in doers if d.name in wrong)
    met = finding.second.part if finding.second else ""
    return (finding.kind, faults, met, axis, finding.before, finding.after, finding.side)


def sentence(
    group: Sequence[Finding], wrong: Mapping[str, WrongPiece], units: Units = "inch"
) -> str:
    """One sentence for the findings about twins: what is wrong with a piece, and what that does.

    `wrong` holds each piece that was cut or turned wrong, by name: as it should be, and as it is.
    """
    doers = _each_once(d for f in group for d in f.doers)
    own = [wrong[s.name] for s in doers if s.name in wrong]
    subject = ("they" if len(doers) > 1 else "it") if own else noun(doers)
    effect = _effect(group, subject, several=len(doers) > 1, units=units)
    axis, i = group[0].axis, AXES.index(group[0].axis)
    off = [(old, new) for old, new in wrong.values() if old.extents[i] != new.extents[i]]
    cause = _causes(own or off or list(wrong.values()), axis, units)
    text = f"{cause}: {effect}." if cause else f"{effect}."
    return text[0].upper() + text[1:]


def _effect(group: Sequence[Finding], subject: str, *, several: bool, units: Units) -> str:
    """What happens between these pieces, without a capital and a full stop."""
    one, before, after = group[0], group[0].before, group[0].after
    met = "one another" if one.both else noun(_each_once(f.second for f in group if f.second))
    apart = "between them" if one.both else f"to {met}"
    tape = partial(by_the_tape, units=units)

    def verb(word: str) -> str:
        return word if several else word + ("es" if word.endswith("ch") else "s")

    match one.kind:
        case "overlap":
            said = f"{subject} {verb('run')} {tape(after or before)} into {met}"
        case "open" if after:
            said = f"{subject} {verb('leave')} a gap of {tape(after)} {apart}"
        case "open":
            said = f"{subject} no longer {verb('touch')} {met}"
        case "stands out":
            said = f"{subject} {verb('stand')} out {tape(after or before)} {one.side}"
        case "bare" if one.both:
            said = f"{tape(before - (after or 0))} less of each lies against the other"
        case "bare":
            each = "each" if subject == "they" else subject
            said = f"{tape(before - (after or 0))} less of {each} lies against {met}"
        case "clearance":
            start = "" if subject in {"it", "they"} else f" from {subject}"
            closes = f"closes, it should be {tape(before)}"
            now = f"is {tape(after)} instead of {tape(before)}" if after else closes
            said = f"the gap{start} {apart} {now}"
        case "nothing":
            said = f"{subject} {verb('touch')} the same pieces, and no gap changes"
    return said


def noun(solids: Sequence[Solid]) -> str:
    """Some pieces as one speaks of them: one by its place, twins by their part's name."""
    by_part: dict[str, list[Solid]] = {}
    for solid in solids:
        by_part.setdefault(solid.part, []).append(solid)
    words = (s[0].words if len(s) == 1 else f"{title(part)}s" for part, s in by_part.items())
    return " and ".join(f"the {w}" for w in words)


def _each_once(solids: Iterable[Solid]) -> list[Solid]:
    return list({s.name: s for s in solids}.values())


def _causes(wrong: Sequence[WrongPiece], axis: Axis, units: Units) -> str:
    """What is wrong with these pieces; pieces with the same fault are named together."""
    by_fault: dict[_Fault, list[Solid]] = {}
    for old, new in wrong:
        by_fault.setdefault(_fault(old, new, axis), []).append(new)
    causes = []
    for (turned, sizes), pieces in by_fault.items():
        too = " and ".join(
            f"{by_the_tape(abs(more), units)} {TOO[size][more < 0]}" for size, more in sizes
        )
        causes.append(f"{noun(pieces)}{turned} {'are' if len(pieces) > 1 else 'is'} {too}")
    return "; ".join(causes)


def _fault(old: Solid, new: Solid, axis: Axis) -> _Fault:
    """Whether a piece is turned, and by how much its size is off along an axis, else any size."""
    sizes = zip(AXES, old.along, new.along, old.cut, new.cut, strict=True)
    off = {
        at: ("height" if (at, name) == ("z", "width") else name, cut - was)
        for at, name, now, was, cut in sizes
        if name == now and was != cut
    }
    if axis in off:
        return "", (off[axis],)
    if old.along != new.along:
        return ", turned the wrong way,", (("height", new.cut[2] - old.cut[2]),)
    return "", tuple(off.values())


# ── two assemblies compared ───────────────────────────────────────────────────────────────────────


WORST_FIRST: tuple[Kind, ...] = ("overlap", "open", "stands out", "bare", "clearance", "nothing")


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


def consequences(
    true: Sequence[Solid], changed: Sequence[Solid], units: Units = "inch"
) -> tuple[Consequence, ...]:
    """What differs between a true assembly and one with a wrong cut, the gravest first.

    >>> from fractions import Fraction
    >>> from hivecalc.space import assembled
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
    found = [f for f in comparison.findings() if _shows(f, units)]
    kept = [f for f in found if not _said_already(f, found)]
    kept = kept or [
        Finding("nothing", "x", NOTHING, NOTHING, s) for _, s in comparison.wrong.values()
    ]
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for finding in sorted(kept, key=lambda f: WORST_FIRST.index(f.kind)):
        groups.setdefault(twins(finding, comparison.wrong), []).append(finding)
    shown = []
    for group in groups.values():
        one, said = group[0], sentence(group, comparison.wrong, units)
        pieces = tuple(tuple(s.name for s in (f.first, f.second) if s) for f in group)
        shown.append(Consequence(one.kind, one.axis, one.before, one.after, pieces, said))
    return tuple(shown)


def _shows(finding: Finding, units: Units) -> bool:
    """Whether the change is big enough to show at all."""
    if finding.after is None:
        return True
    return written(abs(finding.after - finding.before), units).removeprefix("≈ ") != "0"


def only_these(true: Mapping[str, Fraction], cut: Mapping[str, Fraction]) -> dict[str, Fraction]:
    """What is given where only these pieces are wrong: every other keeps the size it was cut to.

    A wrong figure that is the size of no piece (the opening's length) is carried on to those that
    come from it, as a builder would.
    """
    kept = {*sizes_of_pieces(), "front_stop_height"} & true.keys()
    for name in cut:
        if name not in kept and not name.endswith("_runner_height"):
            kept -= {*DIMENSIONS.reached_by(name, cut)}
    return {name: true[name] for name in kept} | dict(cut)


@cache
def sizes_of_pieces() -> frozenset[str]:
    """The names of all sizes to which somebody cuts a piece."""
    return frozenset(
        f"{name}.{part.name}_{size}"
        for name, module in COMPONENTS.items()
        for part in module.PARTS
        for size, _ in part.sizes()
    )


def _said_already(finding: Finding, found: Iterable[Finding]) -> bool:
    """Whether a face left bare only repeats the gap that the same piece opens along that axis."""
    return finding.kind == "bare" and any(
        f.kind != "bare" and f.first == finding.first and f.axis == finding.axis for f in found
    )


WIDE = Fraction(4)  # a gap wider than this is room and no fit: what changes it is not reported
SIDES: dict[Axis, tuple[str, str]] = {
    "x": ("at the left", "at the right"),
    "y": ("at the front", "at the back"),
    "z": ("at the bottom", "at the top"),
}


class _Comparison:
    """Two assemblies of the same pieces, by name, and the pieces that differ.

    All is searched in whole steps of one grid; a finding is in inches.
    """

    def __init__(self, true: Sequence[Solid], changed: Sequence[Solid]) -> None:
        old = {s.name: s for s in true}
        new = {s.name: s for s in changed if s.name in old}
        self.moved = [n for n, s in new.items() if s.blocks != old[n].blocks]
        moved = [new[n] for n in self.moved]
        blocks = (block for s in (*true, *moved) for block in s.blocks)
        self.grid = finest_grid(place for block in blocks for place in block.places)
        self.before = {n: s.on_grid(self.grid) for n, s in old.items()}
        self.after = {n: self.before[n] for n in new}
        self.after |= {s.name: s.on_grid(self.grid) for s in moved}
        pairs = {n: self._pair(n) for n in self.moved}
        self.wrong = {
            n: (was, now)
            for n, (was, now) in pairs.items()
            if (was.cut, was.along) != (now.cut, now.along)
        }
        self.lifts = {n: _lift(*pair) for n, pair in pairs.items()}
        self.outline = hull(s.extents for s in self.before.values())

    def _pair(self, name: str) -> WrongPiece:
        return self.before[name], self.after[name]

    def findings(self) -> Iterator[Finding]:
        """All that changes: pieces that stand out first, then what changes between two pieces."""
        for f in self._in_steps():
            after = None if f.after is None else Fraction(f.after) / self.grid
            yield replace(f, before=Fraction(f.before) / self.grid, after=after)

    def _in_steps(self) -> Iterator[Finding]:
        for name in self.moved:
            yield from _standing_out(self.after[name], self.outline)
        for first, second in self._pairs():
            (old, new), (other_old, other_new) = self._pair(first), self._pair(second)
            for finding in self._between_two((old, other_old), (new, other_new)):
                yield self._with_doer(finding)

    def _pairs(self) -> Iterator[tuple[str, str]]:
        """Each pair that may have changed, a piece that was cut wrong before the other."""
        ranked = sorted(self.moved, key=lambda n: n not in self.wrong)
        for i, first in enumerate(ranked):
            done = {*ranked[: i + 1]}
            lift = self.lifts[first]
            others = (n for n in self.after if n not in done)
            yield from ((first, n) for n in others if lift is None or self.lifts.get(n) != lift)

    def _between_two(self, old: tuple[Solid, Solid], new: tuple[Solid, Solid]) -> Iterator[Finding]:
        """What changes between two pieces: an overlap hides whatever else there is."""
        runs_into = _running_into(old, new)
        if runs_into:
            yield runs_into
            return
        touched = _contacts(old)
        yield from _losing_contact(touched, new)
        apart = [axis for axis in AXES if axis not in touched]
        for finding in _changing_gaps(old, new, apart, steps(WIDE, self.grid)):
            others = (s for s in self.before.values() if s not in old)
            if not any(_stands_in(old, other, finding) for other in others):
                yield finding

    def _with_doer(self, finding: Finding) -> Finding:
        """The same finding, the piece that was cut wrong there first, or both of them as doers."""
        first, second = finding.first, finding.second
        if second is None or second.name not in self.wrong:
            return finding
        by_first = self._is_off(first, second, finding)
        by_second = self._is_off(second, first, finding)
        if by_second and not by_first:
            return replace(finding, first=second, second=first)
        return replace(finding, both=by_first and by_second)

    def _is_off(self, piece: Solid, other: Solid, finding: Finding) -> bool:
        """Whether a piece ends elsewhere than it should, where it faces or lies beside another."""
        i = AXES.index(finding.axis)
        old, new = (solids[piece.name].extents[i] for solids in (self.before, self.after))
        if finding.kind == "bare":
            return old != new
        end = old < self.before[other.name].extents[i]  # the high end where it lies lower
        return old[end] != new[end]


def _lift(old: Solid, new: Solid) -> Length | None:
    """How much higher the same piece now lies, None where it differs in another way."""
    higher = new.extents[2][0] - old.extents[2][0]
    return higher if old.raised(higher).blocks == new.blocks else None


def _standing_out(piece: Solid, outline: Extents) -> Iterator[Finding]:
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


def _losing_contact(touched: Mapping[Axis, Contact], new: tuple[Solid, Solid]) -> Iterator[Finding]:
    """Joints that open, and faces of pieces that are no longer covered as far as they were."""
    kept = _contacts(new) if touched else {}
    for axis, contact in touched.items():
        if axis not in kept:
            yield Finding("open", axis, NOTHING, opening(*new, axis, contact.extents), *new)
        elif all(piece.cut for piece in new):
            yield from _left_bare(contact, kept[axis])


def _left_bare(old: Contact, new: Contact) -> Iterator[Finding]:
    """By how much less a face is covered; of one with sloping sides along its length alone."""
    sizes = zip(AXES, old.size, new.size, strict=True)
    less = [(b - a, b, a, axis) for axis, b, a in sizes if a < b and axis != old.axis]
    for _, before, after, axis in less if old.rectangular else sorted(less)[-1:]:
        yield Finding("bare", axis, before, after, new.first, new.second)


def _changing_gaps(
    old: tuple[Solid, Solid], new: tuple[Solid, Solid], axes: Iterable[Axis], widest: Length
) -> Iterator[Finding]:
    for axis in axes:
        before = gap(*old, axis) if least_gap(*old, axis) <= widest else None
        after = gap(*new, axis) if before and before <= widest else None
        if before and after is not None and after != before:
            yield Finding("clearance", axis, before, after, *new)


def _stands_in(pair: tuple[Solid, Solid], other: Solid, finding: Finding) -> bool:
    """Whether a piece stands between two: its gaps to both are together less than their gap."""
    room = finding.before
    for piece in pair:
        near_enough = least_gap(piece, other, finding.axis) < room
        beside = gap(piece, other, finding.axis) if near_enough else None
        if beside is None or beside >= room:
            return False
        room -= beside
    return True
