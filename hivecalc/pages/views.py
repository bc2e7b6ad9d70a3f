"""The pictures of a lesson by name: what each one draws, and of which component."""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol, TypeAlias

from hivecalc.components import DIMENSIONS, MODULES, values
from hivecalc.drawing.bottom_board import (
    changed_plan,
    changed_section,
    changed_stack,
    plan,
    plan_to_work_out,
    section,
    section_to_work_out,
    stack,
    stack_to_work_out,
)
from hivecalc.drawing.bottom_board.from_above import RAILS
from hivecalc.drawing.exploded import (
    changed_inner_cover,
    exploded_inner_cover,
    inner_cover_to_work_out,
)
from hivecalc.drawing.nested import changed_nested, nested, nested_to_work_out
from hivecalc.drawing.roof import (
    changed_roof_section,
    roof_section,
    roof_section_to_work_out,
)
from hivecalc.hive import Hive
from hivecalc.length import Units
from hivecalc.space import only_these

Sizes: TypeAlias = Mapping[str, Fraction]


class Draw(Protocol):
    """A drawing of a hive, and of the same hive with wrong cuts among its sizes."""

    def __call__(
        self, values: Sizes, cut: Sizes | None = None, *, units: Units = "inch", name: str = ""
    ) -> str:
        """SVG picture."""


@dataclass(frozen=True)
class View:
    """A picture of one component: as it is, with a piece cut wrong, and after a change."""

    component: str
    draw: Draw
    draw_changed: Callable[..., str]
    draw_to_work_out: Callable[..., str]
    shown: frozenset[str] | None = None  # the parts that can be built in wrong; None: all
    around: tuple[str, ...] = ()  # other components that are seen in it
    fills_in: bool = False  # whether it can show what the learner has found so far

    @property
    def components(self) -> tuple[str, ...]:
        """Every component that is seen in it."""
        return self.component, *self.around

    def cuts(self, name: str) -> bool:
        """Whether this is a size that somebody cuts, of a part that is seen in the picture.

        >>> VIEWS["plan"].cuts("bottom_board.side_rail_length")
        True
        >>> VIEWS["plan"].cuts("bottom_board.side_rail_width")  # taken as the stud was bought
        False
        >>> VIEWS["plan"].cuts("bottom_board.panel_length")  # not seen from above
        False
        """
        seen = self.shown
        parts = (p for p in MODULES[self.component].PARTS if seen is None or p.name in seen)
        sizes = {f"{self.component}.{p.name}_{size}" for p in parts for size, _ in p.sizes()}
        return name in sizes and not DIMENSIONS.dimension(name).as_measured

    def of(self, hive: Hive) -> str:
        """The picture of this hive as it is."""
        return self.draw(values(hive), units=hive.units, name=hive.name)

    def to_work_out(self, hive: Hive, found: Collection[str] = ()) -> str:
        """The picture of this hive with "?" for what has to be worked out and was not found yet."""
        shown = {"found": {*found, *hive.measurements}} if self.fills_in else {}
        return self.draw_to_work_out(values(hive), units=hive.units, name=hive.name, **shown)

    def as_answered(self, hive: Hive, answered: Mapping[str, Fraction]) -> str:
        """The picture that asks, with pieces built in as they were answered, amounts left out."""
        true = values(hive)
        built_in = values(hive, only_these(true, answered))
        return self.draw_to_work_out(true, built_in, units=hive.units, name=hive.name)

    def with_cut(self, hive: Hive, cut: Mapping[str, Fraction]) -> str:
        """The picture of this hive with pieces of these sizes built in."""
        true = values(hive)
        as_cut = values(hive, only_these(true, cut))
        return self.draw(true, as_cut, units=hive.units, name=hive.name)

    def after(self, before: Hive, now: Hive) -> str:
        """The picture of a changed hive, with what it was before."""
        return self.draw_changed(values(before), values(now), units=now.units, name=now.name)


def _nested(
    values: Sizes, cut: Sizes | None = None, *, units: Units = "inch", name: str = ""
) -> str:
    """The nested box; nothing is built into it wrong, so there is no cut."""
    return nested(cut or values, units=units, name=name)


def _nested_to_work_out(
    values: Sizes, cut: Sizes | None = None, *, units: Units = "inch", name: str = ""
) -> str:
    return nested_to_work_out(cut or values, units=units, name=name)


VIEWS = {
    "plan": View(
        "bottom_board", plan, changed_plan, plan_to_work_out, frozenset(RAILS), fills_in=True
    ),
    "section": View("bottom_board", section, changed_section, section_to_work_out, fills_in=True),
    "stack": View("bottom_board", stack, changed_stack, stack_to_work_out, fills_in=True),
    "roof": View(
        "roof", roof_section, changed_roof_section, roof_section_to_work_out, fills_in=True
    ),
    "inner cover": View(
        "inner_cover", exploded_inner_cover, changed_inner_cover, inner_cover_to_work_out
    ),
    "box": View("box", _nested, changed_nested, _nested_to_work_out, frozenset(), ("sleeve",)),
}
