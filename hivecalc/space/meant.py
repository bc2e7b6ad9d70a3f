"""What is meant: which pieces are to touch, and which gap is made by which dimension."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TypeAlias

from hivecalc.length import Length
from hivecalc.space.meeting import gap
from hivecalc.space.solids import Axis, Solid

Pair: TypeAlias = tuple[str, str]
Joint: TypeAlias = tuple[str, str, Axis]
Measure: TypeAlias = Callable[[Solid, Solid, Axis], Length | None]
Together: TypeAlias = Callable[[Iterable[Length]], Length]


def in_all(lengths: Iterable[Length]) -> Length:
    """The sum of some lengths.

    >>> in_all([Fraction(1, 8), Fraction(1, 8)])
    Fraction(1, 4)
    """
    return sum(lengths, Fraction(0))


@dataclass(frozen=True)
class MeantGap:
    """A gap that is meant: which dimension makes it, and between which pieces it is measured.

    Pieces stand by their labels. Where a gap is meant in all, it lies between several pairs, and
    `together` is in_all; where the narrowest place counts, `together` is min.
    """

    dimension: str
    axis: Axis
    pairs: tuple[Pair, ...]
    together: Together = in_all
    measure: Measure = gap


def measured(meant: MeantGap, solids: Mapping[str, Solid]) -> Length | None:
    """How big a meant gap is in this assembly, None where its pieces do not face each other.

    >>> from hivecalc.space.solids import Block, rectangle
    >>> face = rectangle((0, 1), (0, 1))
    >>> pieces = {
    ...     "rail": Solid("c", "rail", "", (Block(0, 2, face),)),
    ...     "panel": Solid("c", "panel", "", (Block(3, 9, face),)),
    ... }
    >>> measured(MeantGap("panel_gap", "x", (("rail", "panel"),)), pieces)
    Fraction(1, 1)

    `solids` are keyed by label.
    """
    found = [meant.measure(solids[a], solids[b], meant.axis) for a, b in meant.pairs]
    sizes = [size for size in found if size is not None]
    return meant.together(sizes) if len(sizes) == len(found) else None


def both_sides(*joints: Joint) -> tuple[Joint, ...]:
    """These joints and, where one speaks of the left, the same on the right.

    >>> both_sides(("skin, left", "foam, left", "x"), ("mesh", "panel", "z"))
    (('skin, left', 'foam, left', 'x'), ('skin, right', 'foam, right', 'x'), ('mesh', 'panel', 'z'))
    """
    return tuple(joint for given in joints for joint in _twins(given))


def _twins(joint: Joint) -> Iterator[Joint]:
    yield joint
    first, second, axis = joint
    if "left" in first + second:
        yield (right(first), right(second), axis)


def right(label: str) -> str:
    """The label of the twin on the right.

    >>> right("screen side strip, upper left")
    'screen side strip, upper right'
    """
    return label.replace("left", "right")


def each_side(meant: MeantGap) -> tuple[MeantGap, MeantGap]:
    """A gap that is meant at the left, and the same at the right.

    >>> [m.pairs for m in each_side(MeantGap("slot_ease", "z", (("a, left", "b"),)))]
    [(('a, left', 'b'),), (('a, right', 'b'),)]
    """
    return meant, replace(meant, pairs=tuple((right(a), right(b)) for a, b in meant.pairs))
