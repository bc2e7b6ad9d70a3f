"""What a drawing is of: the sizes of a hive, those to compare them with, what is still asked."""

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from typing import TypeAlias

from hivecalc.components import DIMENSIONS, MODULES
from hivecalc.drawing.canvas import CHANGED_LINE, OUTLINE, Canvas, Pen, figure
from hivecalc.drawing.labels import Dim, Mark
from hivecalc.hive import MEASUREMENTS
from hivecalc.length import Length, Units
from hivecalc.space import Solid, solids, surroundings

Sizes: TypeAlias = Mapping[str, Fraction]
Named: TypeAlias = tuple[str, str, str]  # a piece, the dimension to show, and the word for it
PARTS = [(component, part) for component, module in MODULES.items() for part in module.PARTS]
PIECES = frozenset(f"{c}.{part.name}_{size}" for c, part in PARTS for size, _ in part.sizes())
MATERIALS = {(c, part.name): part.material for c, part in PARTS}
WORKED_OUT = frozenset({"front_stop_height", "skirt_width"})
"""Sizes that a builder works out, though a hive file may give them."""


@dataclass(frozen=True)
class Subject:
    """What a drawing is of, in inches, and the units that its figures are shown in.

        Subject(values)                      a hive as it is
        Subject(cut, true, wrong=True)       with a wrong cut among its sizes
        Subject(now, before)                 after a change, with the sizes from before
        Subject(values, asked=True)          with "?" for what is to be worked out and was not found

    `now` is as components.values gives it, `name` is the hive's. A piece as somebody answered it
    shows its figure even where figures are `asked`. `lit` are labels of pieces to light up.
    Views raise NoPieceError where a piece would have no size left.
    """

    now: Sizes
    was: Sizes | None = None
    units: Units = "inch"
    name: str = ""
    wrong: bool = False
    asked: bool = False
    found: Collection[str] = ()
    lit: Collection[str] = ()
    component: str = "bottom_board"

    @property
    def before(self) -> Sizes:
        """The sizes to compare with: from before a change, or as they should be."""
        return self.now if self.was is None else self.was

    def of(self, component: str) -> "Subject":
        """The same, of this component."""
        return self if component == self.component else replace(self, component=component)

    def canvas(self) -> Canvas:
        """An empty sheet to draw it on."""
        return Canvas(lit=self.lit)

    def titled(self, title: str) -> str:
        """A picture's title, with the hive's name if it has one."""
        return f"{title}: {self.name}" if self.name else title

    # Pieces

    @cached_property
    def solids(self) -> dict[str, Solid]:
        """Every piece of the component as it is drawn, by its label."""
        return {s.label: s for s in solids(self.now, self.component)}

    @cached_property
    def solids_before(self) -> dict[str, Solid]:
        """Every piece as it was before, or should be, by its label."""
        if self.now is self.before:
            return self.solids
        return {s.label: s for s in solids(self.before, self.component)}

    @cached_property
    def met(self) -> dict[str, Solid]:
        """What the component meets, by its label."""
        return {s.label: s for s in surroundings(self.now, self.component)}

    def compared(
        self, is_seen: Callable[[Solid], bool]
    ) -> tuple[dict[str, Solid], dict[str, Solid]]:
        """Of a wrong cut the pieces that are seen, true and as cut, by name; else nothing."""
        if not self.wrong:
            return {}, {}
        before = (*self.solids_before.values(), *surroundings(self.before, self.component))
        now = (*self.solids.values(), *self.met.values())
        true, cut = ({s.name: s for s in some if is_seen(s)} for some in (before, now))
        return true, cut

    def pen(self, solid: Solid) -> Pen:
        """The pen for a piece's outline: thicker, in the colour of a change, if it is cut anew."""
        before = self.solids_before.get(solid.label)
        return OUTLINE if before and before.cut == solid.cut else CHANGED_LINE

    # Figures

    def changed(self, name: str) -> bool:
        """Whether this size is another than before."""
        return self.now[name] != self.before[name]

    def mark(self, name: str) -> Mark:
        """How a label with this size is marked."""
        return "changed" if self.changed(name) else "plain"

    def shown(self, length: Length) -> str:
        """A length as it stands on a drawing."""
        return figure(length, self.units)

    def figure(self, name: str) -> str:
        """This size as it stands on a drawing."""
        return "?" if self.asked and self._to_work_out(name) else self.shown(self.now[name])

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

    @property
    def compared_word(self) -> str:
        """The word for the sizes to compare with."""
        return "should be" if self.wrong else "was"

    def lines(self, name: str, word: str) -> tuple[str, ...]:
        """A word and the size, and below it the size to compare it with, if it is another."""
        compared = self.changed(name) and not self.asked
        return self.told(word, self.figure(name), self.before[name] if compared else None)

    def told(self, word: str, figure: str, before: Length | None) -> tuple[str, ...]:
        """A word and a figure, and below it the length to compare it with, if there is one."""
        text = f"{word} {figure}"
        return (text,) if before is None else (text, f"{self.compared_word} {self.shown(before)}")

    def dim(self, name: str, word: str, low: float, high: float) -> Dim:
        """A dimension line for this size between two places on a sheet."""
        return Dim(name, self.now[name], self.lines(name, word), low, high, self.changed(name))

    def words(self, intro: str, rows: Iterable[tuple[str, str]], *more: str) -> str:
        """A description: what is seen, the figures on it, and whatever more there is to tell."""
        figures = "; ".join(dict.fromkeys(", ".join(self.lines(*row)) for row in rows))
        return " ".join([f"{intro}: {figures}.", *more]).strip()

    @property
    def proud(self) -> str:
        """A sentence where the screen of a hive without a wrong cut stands above the rails."""
        headroom = self.now["bottom_board.headroom"]
        if headroom >= 0 or self.wrong or self.asked:
            return ""
        above = self.shown(-headroom)
        return f"The screen stands {above} above the rails: the box rocks on it."
