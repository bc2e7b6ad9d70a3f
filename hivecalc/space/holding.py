"""What may hold a joint: fasteners, or nothing and why; and which way a piece comes away.

All of it is common practice, no published source.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal, TypeAlias

from hivecalc.length import Length, Units, shown
from hivecalc.space.solids import Axis

Along: TypeAlias = Literal["length", "width"]


@dataclass(frozen=True)
class Every:
    """One fastener for every so many inches of a joint, rounded up, and never fewer than `least`.

    >>> Every(Fraction(6), 2).count(Fraction(20)), Every(Fraction(6), 2).count(Fraction(5))
    (4, 2)
    """

    spacing: Length
    least: int

    def count(self, run: Length) -> int:
        """How many a joint takes that runs so far."""
        return max(self.least, -(-run // self.spacing))

    def told(self, run: Length, units: Units) -> str:
        """Why it is so many."""
        every, whole = shown(self.spacing, units), shown(run, units)
        return f": one for every {every} of {whole}, rounded up, and at least {self.least}"


@dataclass(frozen=True)
class Each:
    """The same number of fasteners in each joint, however far it runs."""

    number: int

    def count(self, _: Length) -> int:
        """How many a joint takes."""
        return self.number

    def told(self, _: Length, __: Units) -> str:
        """Why it is so many: there is nothing to add."""
        return ""


@dataclass(frozen=True)
class OnTheLine:
    """As many as stand on the roof's screw line, along the side that a rail closes or all round."""


@dataclass(frozen=True)
class Held:
    """How one kind of joint is held: which fastener goes through which piece and into which.

    `item` is the measurement that gives the fastener's length. The joint runs along one size of the
    pieces, as far as the piece that has less of it; glued, it takes one line of glue so long. A
    `square` fastener goes straight from one into the other. An axis is given where two kinds of
    pieces meet along several; `where` says what to heed when it is driven.
    """

    through: str
    into: str
    item: str
    count: Every | Each | OnTheLine
    along: Along = "length"
    glued: bool = False
    square: bool = True
    axis: Axis | None = None
    where: str = ""


@dataclass(frozen=True)
class Loose:
    """A joint that no fastener goes through, and why not; it may be glued all the same."""

    through: str
    into: str
    why: str
    glued: bool = False
    along: Along = "width"
    axis: Axis | None = None


Hold: TypeAlias = Held | Loose


@dataclass(frozen=True)
class Away:
    """Which way pieces of one kind come away where a hive is taken apart, and by how many steps.

    Where no way is given it is the side that each piece is at; a piece in the middle stays.
    """

    kind: str
    way: Literal["front", "back", ""] = ""
    steps: float = 1.0


Layers: TypeAlias = tuple[tuple[Away, ...], ...]
"""What is lifted together when a component is taken apart, from below upwards."""

BRADS: Final = Every(Fraction(6), 2)
CORNER: Final = Every(Fraction(3), 3)

SLIDES: Final = "It slides in and out."
RESTS: Final = "It rests there by its weight."
FOAM: Final = "The foam is pressed in between what holds it."
TOUCHES: Final = "It only touches there."
OTHERS: Final = "Fasteners in the joints beside it hold both."
