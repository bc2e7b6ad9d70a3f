"""What a drawing of any one component is drawn from: its sizes and solids, now and before."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from hivecalc.drawing.bottom_board.state import State
from hivecalc.drawing.faults import Axes, Shown
from hivecalc.space import Solid, solids, surroundings


@dataclass(frozen=True)
class ComponentState(State):
    """The same as for the bottom board, for the component of this name."""

    component: str = "roof"

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

    def shown(self, axes: Axes, seen: Callable[[Solid], bool]) -> Shown:
        """What a drawing along these axes shows of a wrong cut, among the pieces seen there."""
        true, cut = (
            {s.name: s for s in (*pieces.values(), *surroundings(sizes, self.component)) if seen(s)}
            if self.wrong
            else {}
            for pieces, sizes in ((self.solids_before, self.before), (self.solids, self.now))
        )
        return Shown(axes, true, cut, self.units, asked=self.asked)
