"""The sizes that are cut, and what is common practice about them; no published source."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, TypeAlias

from hivecalc.components import COURSE, MODULES, built, values
from hivecalc.hive import BOX_SIZES, HIVE_SIZES, MEASUREMENTS, Hive
from hivecalc.length import Length, Rounding
from hivecalc.part import Part
from hivecalc.tolerance.sizes import PIECE_SIZES

Readings: TypeAlias = Mapping[str, Length | Sequence[Length]]
MARK: Final = Fraction(1, 16)  # a mark of the tape: saw and tape are each off by half of it
LONGEST: Final = Fraction(120)  # a stud of ten feet


@dataclass(frozen=True)
class CutSize:
    """One size of a piece that is cut: whose it is, how many there are, and what is planned."""

    name: str
    component: str
    part: Part
    size: str
    planned: Length

    @property
    def rounding(self) -> Rounding:
        """Which way this size is rounded on the cutting list."""
        return COURSE.dimension(self.name).rule.rounding


def cut_sizes(hive: Hive) -> tuple[CutSize, ...]:
    """The sizes that somebody cuts for this hive, as planned, in the order of the parts.

    >>> from hivecalc.hive import demo_hive
    >>> [s.name.partition(".")[2] for s in cut_sizes(demo_hive())][:4]
    ['side_rail_length', 'front_rail_width', 'front_rail_length', 'back_rail_length']

    Sizes that the stock has already, such as a stud's thickness, are none of them: those belong
    in the hive's file.
    """
    return cut_sizes_of(hive, values(hive))


def cut_sizes_of(hive: Hive, planned: Mapping[str, Fraction]) -> tuple[CutSize, ...]:
    """The sizes that are cut, with these values planned for them."""
    return tuple(
        CutSize(name, component, part, size, planned[name])
        for component in built(hive)
        for part in MODULES[component].PARTS
        for size, _ in part.sizes()
        if stock_of(name := f"{component}.{part.name}_{size}") is None
    )


def stock_of(name: str) -> str | None:
    """The measurement of the stock that a size of a piece is, or None where it is cut."""
    source = PIECE_SIZES[name][-1]
    known = MEASUREMENTS.get(source)
    outside = source in HIVE_SIZES + BOX_SIZES
    return source if known and known.group == "measured" and not outside else None


def names_in_rules(size: CutSize) -> tuple[str, ...]:
    """What the rules call this size: its own name, those it repeats, and what was chosen."""
    return tuple(n for n in PIECE_SIZES[size.name] if _own(n))


def _own(name: str) -> bool:
    return name not in MEASUREMENTS or MEASUREMENTS[name].group == "chosen"


def listed(value: Length | Sequence[Length]) -> tuple[Length, ...]:
    """Readings as a list, where one stands for all."""
    return tuple(value) if isinstance(value, Sequence) else (value,)
