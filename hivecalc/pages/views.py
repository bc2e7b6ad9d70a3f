"""The pictures of a lesson by name: what each one draws, and of which component."""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from fractions import Fraction

from hivecalc.components import DIMENSIONS, MODULES, values
from hivecalc.drawing import Picture, Subject, plan, section, stack
from hivecalc.drawing.bottom_board import RAILS
from hivecalc.drawing.inner_cover import exploded_inner_cover
from hivecalc.drawing.nested import nested
from hivecalc.drawing.roof_section import roof_section
from hivecalc.hive import Hive
from hivecalc.space import only_these


@dataclass(frozen=True)
class View:
    """A picture of one component: as it is, with a piece cut wrong, and after a change."""

    component: str
    draw: Callable[[Subject], Picture]
    shown: frozenset[str] | None = None  # the parts that can be built in wrong; None: all
    around: tuple[str, ...] = ()  # other components that are seen in it

    @property
    def components(self) -> tuple[str, ...]:
        """Every component that is seen in it."""
        return self.component, *self.around

    def cuts(self, name: str) -> bool:
        """Whether this is a size that somebody cuts, of a part that is seen in the picture."""
        seen = self.shown
        parts = (p for p in MODULES[self.component].PARTS if seen is None or p.name in seen)
        sizes = {f"{self.component}.{p.name}_{size}" for p in parts for size, _ in p.sizes()}
        return name in sizes and not DIMENSIONS.dimension(name).as_measured

    def of(self, hive: Hive) -> Picture:
        """The picture of this hive as it is."""
        return self.draw(Subject(values(hive), units=hive.units, name=hive.name))

    def to_work_out(
        self, hive: Hive, found: Collection[str] = (), lit: Collection[str] = ()
    ) -> Picture:
        """The picture of this hive with "?" for what has to be worked out and was not found yet.

        Pieces with a label that is `lit` are lit up.
        """
        true, known = values(hive), {*found, *hive.measurements}
        subject = Subject(true, units=hive.units, name=hive.name, asked=True, found=known, lit=lit)
        return self.draw(subject)

    def as_answered(self, hive: Hive, answered: Mapping[str, Fraction]) -> Picture:
        """The picture that asks, with pieces built in as they were answered, amounts left out."""
        return self._built_in(hive, answered, asked=True)

    def with_cut(self, hive: Hive, cut: Mapping[str, Fraction]) -> Picture:
        """The picture of this hive with pieces of these sizes built in."""
        return self._built_in(hive, cut, asked=False)

    def _built_in(self, hive: Hive, cut: Mapping[str, Fraction], *, asked: bool) -> Picture:
        true = values(hive)
        as_cut = values(hive, only_these(true, cut))
        return self.draw(Subject(as_cut, true, hive.units, hive.name, wrong=True, asked=asked))

    def after(self, before: Hive, now: Hive) -> Picture:
        """The picture of a changed hive, with what it was before."""
        return self.draw(Subject(values(now), values(before), now.units, now.name))


VIEWS = {
    "plan": View("bottom_board", plan, frozenset(RAILS)),
    "section": View("bottom_board", section),
    "stack": View("bottom_board", stack),
    "roof": View("roof", roof_section),
    "inner cover": View("inner_cover", exploded_inner_cover),
    "box": View("box", nested, frozenset(), ("sleeve",)),
}
