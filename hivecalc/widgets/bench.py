"""The bench: one learner's hive on one page, and the panels that look at it."""

from collections.abc import Callable

import ipywidgets
from IPython.display import display

from hivecalc.components import values
from hivecalc.drawing.bottom_board.column import stack
from hivecalc.drawing.bottom_board.from_above import plan
from hivecalc.drawing.bottom_board.from_the_side import section
from hivecalc.hive import Hive
from hivecalc.pages import outcomes
from hivecalc.pages.messages import STYLE, heading, message
from hivecalc.pages.workings import carry, worked
from hivecalc.widgets.field import Area, picture, told
from hivecalc.widgets.keeping import Keeper, hive_path
from hivecalc.widgets.panels import Ask, Diagonals, HiveName, Measurements, Places, Tape, Trial


class Bench:
    """One learner's hive on one page: makes the panels of a lesson, all over the same hive file.

    `hive_file` is the path of the hive; left empty, it is the learner's own (see `hive_path`).
    """

    def __init__(self, hive_file: str = "") -> None:
        self.keeper = Keeper(hive_path(hive_file))
        display(ipywidgets.HTML(STYLE), self._watched(self._heading))  # type: ignore[no-untyped-call]

    @property
    def hive(self) -> Hive:
        """The hive as it is now."""
        return self.keeper.hive

    def _heading(self) -> str:
        faults = message("wrong", *self.keeper.faults) if self.keeper.faults else ""
        demo, place = self.keeper.demo, self.keeper.path.name
        return faults + heading(self.hive, demo=demo, place=place)

    def _watched(self, html: Callable[[], str]) -> Area:
        """An area that shows this HTML, now and whenever the hive changes."""
        area = Area()

        def show() -> None:
            area.tell(told(html)())

        show()
        self.keeper.watch(show)
        return area

    def _drawn(self, draw: Callable[..., str]) -> Area:
        def drawn() -> str:
            return picture(draw(values(self.hive), units=self.hive.units))

        return self._watched(drawn)

    def name(self) -> HiveName:
        """A field for the hive's name."""
        return HiveName(self.keeper)

    def measurements(self, *names: str) -> Measurements:
        """Fields for these measurements: read, refused or saved."""
        return Measurements(self.keeper, names)

    def tape(self, name: str = "hive_length") -> Tape:
        """A tape that shows any reading, beginning with this measurement."""
        return Tape(self.keeper, name)

    def places(self, name: str) -> Places:
        """Three readings of one size, and which of them to use."""
        return Places(self.keeper, name)

    def diagonals(self) -> Diagonals:
        """Two diagonals, and how far out of square the box is."""
        return Diagonals(self.keeper)

    def plan(self) -> Area:
        """The bottom board's frame from above."""
        return self._drawn(plan)

    def section(self) -> Area:
        """The bottom board cut open along its middle."""
        return self._drawn(section)

    def stack(self) -> Area:
        """What is stacked in the frame, as a column against the rail."""
        return self._drawn(stack)

    def change(self, *names: str) -> Trial:
        """What a changed measurement does: old and new, the pieces, the rules that fail."""
        question = "What if this were different:"
        return Trial(self.keeper, names, question, outcomes.changed_measurement)

    def cut(self, *dimensions: str) -> Trial:
        """What a wrong cut does: the piece is built in, and the overlap or gap is measured."""
        return Trial(self.keeper, dimensions, "This piece was cut wrong:", outcomes.wrong_cut)

    def ask(self, dimension: str) -> Ask:
        """A question for one dimension of this hive, answered and judged."""
        return Ask(self.keeper, dimension)

    def worked(self, dimension: str) -> Area:
        """The worked steps to one dimension of this hive."""
        return self._watched(lambda: worked(self.hive, dimension))

    def carry(self, component: str, *names: str) -> Area:
        """The figures to carry to the saw."""
        return self._watched(lambda: carry(self.hive, component, names))
