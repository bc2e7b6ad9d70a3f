"""All that was made, measured: what fits, what does not, and what to do."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from hivecalc.as_built.allowances import allowance_of
from hivecalc.as_built.faults import faults_of_readings, refuse
from hivecalc.as_built.frames import Frame, FrameCheck, faults_of_frame, frame_check
from hivecalc.as_built.plan import Plan
from hivecalc.as_built.repairs import OffSize, PieceAsCut, Repair
from hivecalc.as_built.sizes import Readings, listed
from hivecalc.derivation import Values
from hivecalc.fit import Finding, broken, findings, holds
from hivecalc.hive import Hive
from hivecalc.length import Length
from hivecalc.space import Consequence, Solid, assembled, consequences


@dataclass(frozen=True)
class AsBuilt:
    """What you made, measured: what still fits, what does not, and what to do with each piece.

    `findings` are those of every rule on the hive as it is now, `broken` the ones that would hold
    as planned. `consequences` are how the pieces out of tolerance meet the others.
    """

    repairs: tuple[Repair, ...]
    findings: tuple[Finding, ...]
    broken: tuple[Finding, ...]
    consequences: tuple[Consequence, ...]
    frame: FrameCheck | None

    @property
    def fits(self) -> bool:
        """Whether every rule that matters holds and no piece has to be mended or replaced."""
        return holds(self.findings) and all(r.verdict in {"good", "usable"} for r in self.repairs)


def as_built(hive: Hive, measured: Readings, frame: Frame | None = None) -> AsBuilt:
    """What still fits of a hive with these sizes, what does not, and what can be saved.

    >>> from fractions import Fraction
    >>> from hivecalc.hive import demo_hive
    >>> found = as_built(demo_hive(), {"bottom_board.front_rail_length": Fraction(29, 2)})
    >>> print(found.repairs[0].sentence)
    The front rail is 1/8 in too long: it runs 1/8 in into the right side rail. Crosscut 1/8 in \
off: it should be 14 3/8 in long.

    `measured` gives sizes that were cut, by full name as cut_sizes has them: one length for all
    pieces of a part, or one for each piece in order. With readings of the `frame`, what goes into
    it is planned from the frame as it is. Raises HiveFaults with every fault at once.
    """
    refuse([*(faults_of_frame(hive, frame) if frame else []), *faults_of_readings(hive, measured)])
    checked = frame_check(hive, frame) if frame else None
    plan = Plan(hive, checked.given if checked else {})
    readings = {n: listed(v) for n, v in measured.items()}
    repairs = tuple(p.repair() for p in _pieces(plan, readings))
    found = findings(hive, plan.pinned() | plan.in_rules(readings))
    return AsBuilt(
        repairs=repairs,
        findings=tuple(found),
        broken=tuple(broken(findings(hive), found)),
        consequences=tuple(_meetings(plan, repairs)),
        frame=checked,
    )


def _pieces(plan: Plan, readings: Mapping[str, Sequence[Length]]) -> Iterator[PieceAsCut]:
    """Each piece that was measured; pieces of which one reading was given for all, as one."""
    parts = dict.fromkeys((plan.sizes[n].component, plan.sizes[n].part) for n in plan.sizes)
    for component, part in parts:
        mine = {n: r for n, r in readings.items() if plan.sizes[n].part is part}
        most = max(map(len, mine.values()), default=0)
        for i in range(most):
            sizes = tuple(off_size(plan, n, v) for n, v in _nth(mine, i).items())
            yield PieceAsCut(plan, component, part, i + 1 if most > 1 else 0, sizes)


def off_size(plan: Plan, name: str, reading: Length) -> OffSize:
    """A reading beside the planned size and how far it may be off."""
    size = plan.sizes[name]
    return OffSize(name, size.planned, reading, allowance_of(plan, size))


def _meetings(plan: Plan, repairs: Iterable[Repair]) -> Iterator[Consequence]:
    """How pieces meet in each component of which some piece is out of its tolerance."""
    off = [r for r in repairs if r.off]
    for component in dict.fromkeys(r.component for r in off):
        mine = [r for r in off if r.component == component]
        if len(mine) == 1:
            yield from mine[0].consequences
        else:
            true = plan.standing(component)
            yield from consequences(true, _as_cut(plan, component, mine), plan.units)


def _as_cut(plan: Plan, component: str, repairs: Iterable[Repair]) -> tuple[Solid, ...]:
    """A component with these pieces as they were cut."""
    found = [*plan.standing(component)]
    for repair in repairs:
        places = [i for i, solid in enumerate(found) if solid.part == repair.part]
        measured = {s.name: s.measured for s in repair.sizes}
        changed = assembled(plan.values | measured, component)
        for i in places if not repair.number else [places[repair.number - 1]]:
            found[i] = changed[i]
    return tuple(found)


def _nth(readings: Mapping[str, Sequence[Length]], number: int) -> Values:
    """The sizes of a part's piece of this number: its own reading, or the one for all."""
    own = {n: r[number] for n, r in readings.items() if number < len(r)}
    return own | {n: r[0] for n, r in readings.items() if len(r) == 1}
