"""What a drawing of the bottom board is drawn from: its sizes and solids, now and before."""

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import TypeAlias

from hivecalc.components import DIMENSIONS, MODULES
from hivecalc.components.bottom_board import PARTS
from hivecalc.drawing.dimensions import Dim
from hivecalc.drawing.faults import Axes, Shown
from hivecalc.drawing.labels import Mark
from hivecalc.drawing.svg import CHANGED_LINE, OUTLINE, Pen, figure
from hivecalc.hive import MEASUREMENTS
from hivecalc.length import Units
from hivecalc.space import Solid, solids, surroundings

Sizes: TypeAlias = Mapping[str, Fraction]
Named: TypeAlias = tuple[str, str, str]  # a piece, the dimension to show, and the word for it
COMPONENT = "bottom_board"
PIECES = frozenset(
    f"{component}.{part.name}_{size}"
    for component, module in MODULES.items()
    for part in module.PARTS
    for size, _ in part.sizes()
)
WORKED_OUT = frozenset({"front_stop_height", "skirt_width"})
"""Sizes that a builder works out, though a hive file may give them."""
MATERIAL = {part.name: part.material for part in PARTS}


@dataclass(frozen=True)
class State:
    """The sizes that are drawn, those to compare them with and the word for these, and the units.

    Where the others are those of a true hive, `wrong` is set: then the drawing tells what a wrong
    cut does. Where what is to be worked out is still `asked`, a "?" stands for its figure, but for
    that of a piece as somebody answered it, and for those that were `found`.
    """

    now: Sizes
    before: Sizes
    units: Units
    wrong: bool = False
    asked: bool = False
    found: Collection[str] = ()

    @cached_property
    def solids(self) -> dict[str, Solid]:
        """Every piece of the bottom board as it is drawn, by its label."""
        return {s.label: s for s in solids(self.now, COMPONENT)}

    @cached_property
    def solids_before(self) -> dict[str, Solid]:
        """Every piece as it was before, or should be, by its label."""
        same = self.now is self.before
        return self.solids if same else {s.label: s for s in solids(self.before, COMPONENT)}

    def shown(self, axes: Axes, seen: Callable[[Solid], bool]) -> Shown:
        """What a drawing along these axes shows of a wrong cut, among the pieces seen there."""
        true, cut = (
            {s.name: s for s in (*pieces.values(), *surroundings(sizes, COMPONENT)) if seen(s)}
            if self.wrong
            else {}
            for pieces, sizes in ((self.solids_before, self.before), (self.solids, self.now))
        )
        return Shown(axes, true, cut, self.units, asked=self.asked)

    def changed(self, name: str) -> bool:
        """Whether this size is another than before."""
        return self.now[name] != self.before[name]

    def mark(self, name: str) -> Mark:
        """How a label with this size is marked."""
        return "changed" if self.changed(name) else "plain"

    def pen(self, solid: Solid) -> Pen:
        """The pen for a piece's outline: thicker, in the colour of a change, if it is cut anew."""
        before = self.solids_before.get(solid.label)
        return OUTLINE if before and before.cut == solid.cut else CHANGED_LINE

    def figure(self, name: str) -> str:
        """This size as it stands on a drawing."""
        return "?" if self.asked and self._to_work_out(name) else figure(self.now[name], self.units)

    def _to_work_out(self, name: str) -> bool:
        """Whether this is a size of its own, no stock as it was bought, and no answered piece's."""
        given = name in {*MEASUREMENTS, *self.found} or self._is_stock(name)
        return not given and not (name in PIECES and self.changed(name))

    def _is_stock(self, name: str) -> bool:
        """Whether this is a size as the stock was bought."""
        if name not in DIMENSIONS.dimensions or not DIMENSIONS.dimension(name).as_measured:
            return False
        (source,) = DIMENSIONS.dimension(name).inputs
        return source not in WORKED_OUT or source in self.found

    def lines(self, name: str, word: str) -> tuple[str, ...]:
        """A word and the size, and below it the size to compare it with, if it is another."""
        text = f"{word} {self.figure(name)}"
        if self.asked or not self.changed(name):
            return (text,)
        return (
            text,
            f"{'should be' if self.wrong else 'was'} {figure(self.before[name], self.units)}",
        )

    def dim(self, name: str, word: str, low: float, high: float) -> Dim:
        """A dimension line for this size between two places on a sheet."""
        return Dim(name, self.now[name], self.lines(name, word), low, high, self.changed(name))

    def words(self, intro: str, rows: Iterable[tuple[str, str]], *more: str) -> str:
        """A description: what is seen, the figures on it, and whatever more there is to tell."""
        figures = "; ".join(dict.fromkeys(", ".join(self.lines(*row)) for row in rows))
        return " ".join([f"{intro}: {figures}.", *more])

    @property
    def proud(self) -> str:
        """A sentence where the screen of a hive without a wrong cut stands above the rails."""
        headroom = self.now["bottom_board.headroom"]
        if headroom >= 0 or self.wrong or self.asked:
            return ""
        above = figure(-headroom, self.units)
        return f"The screen stands {above} above the rails: the box does not close."


def titled(title: str, name: str) -> str:
    """A picture's title, with the hive's name if it has one.

    >>> titled("Bottom board from above", "Orchard hive")
    'Bottom board from above: Orchard hive'
    """
    return f"{title}: {name}" if name else title
