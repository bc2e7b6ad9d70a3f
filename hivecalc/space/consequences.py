"""What a wrong cut does, found by comparing the true assembly with the changed one."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from hivecalc.length import Length, Units
from hivecalc.space.comparing import Comparison
from hivecalc.space.solids import Axis, Solid
from hivecalc.space.telling import (
    Finding,
    Kind,
    WrongPiece,
    sentence,
    twins,
    worth_telling,
)

GRAVITY: tuple[Kind, ...] = ("overlap", "open", "stands out", "bare", "clearance", "nothing")


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
    comparison = Comparison(true, changed)
    found = [f for f in comparison.findings() if worth_telling(f, units)]
    told = [f for f in found if not _said_already(f, found)] or comparison.harmless()
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for finding in sorted(told, key=lambda f: GRAVITY.index(f.kind)):
        groups.setdefault(twins(finding, comparison.wrong), []).append(finding)
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
