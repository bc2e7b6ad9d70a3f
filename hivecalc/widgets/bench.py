"""The bench: one learner's hive on one page, and the panels that look at it."""

from collections.abc import Callable

import ipywidgets
from IPython.display import display

from hivecalc.components import values
from hivecalc.drawing.boards import real_boards
from hivecalc.drawing.nested import nested
from hivecalc.hive import Hive
from hivecalc.pages import outcomes
from hivecalc.pages.messages import STYLE, heading, message
from hivecalc.pages.views import VIEWS
from hivecalc.pages.workings import carry, worked
from hivecalc.widgets.field import Area, picture, told
from hivecalc.widgets.keeping import Keeper, hive_path
from hivecalc.widgets.panels import (
    Ask,
    Entries,
    HiveName,
    Measurements,
    Places,
    Sums,
    Trial,
    text_of,
)


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

    def picture_to_work_out(self, view: str = "plan") -> Area:
        """The same picture, with "?" for what has to be worked out first."""
        return self._watched(lambda: picture(VIEWS[view].to_work_out(self.hive)))

    def picture(self, view: str = "plan") -> Area:
        """A picture of the hive as it is now: plan, section, stack, roof or inner cover."""
        return self._watched(lambda: picture(VIEWS[view].of(self.hive)))

    def name(self) -> HiveName:
        """A field for the hive's name."""
        return HiveName(self.keeper)

    def measurements(self, *names: str) -> Measurements:
        """Fields for these measurements: read, refused or saved."""
        return Measurements(self.keeper, names)

    def tape(self, name: str = "hive_length") -> Entries:
        """A tape that shows any reading, beginning with this measurement."""
        fields = {"Show me this reading": text_of(self.hive, name)}
        return Entries(self.keeper, fields, outcomes.reading)

    def places(self, name: str) -> Places:
        """Three readings of one size, and which of them to use."""
        return Places(self.keeper, name)

    def diagonals(self) -> Entries:
        """Two diagonals, and how far out of square the box is."""
        ways = ("front left to back right", "front right to back left")
        return Entries(self.keeper, {f"Diagonal, {w}": "" for w in ways}, outcomes.two_diagonals)

    def end_to_end(self, first: str, second: str) -> Entries:
        """Two boards laid end to end, and their lengths added up."""
        fields = {"First board": first, "Second board": second}
        return Entries(self.keeper, fields, outcomes.two_boards)

    def cut_off(self, whole: str, off: str) -> Entries:
        """A board, the piece that comes off it, and what is left."""
        fields = {"Whole board": whole, "Take off": off}
        return Entries(self.keeper, fields, outcomes.piece_cut_off)

    def real_boards(self) -> Area:
        """The ends of real boards, beside the sizes of their names."""
        return self._watched(lambda: picture(real_boards(units=self.hive.units)))

    def nested(self) -> Area:
        """The box and its sleeve from above, growing outwards from the frames."""

        def drawn() -> str:
            hive = self.hive
            return picture(nested(values(hive), units=hive.units, name=hive.name))

        return self._watched(drawn)

    def sums(self, *tasks: str) -> Sums:
        """Sums to work out on paper, such as "17 1/4 − 2 5/8"."""
        return Sums(tasks)

    def swelling(self) -> Entries:
        """Side rails that swell, until the panel sticks."""
        return Entries(self.keeper, {"Each side rail swells by": "1/16 in"}, outcomes.swollen)

    def change(self, *names: str, view: str = "plan") -> Trial:
        """What a changed measurement does: old and new, the pieces, the rules that fail."""
        question = "What if this were different:"
        return Trial(self.keeper, names, question, outcomes.changed_measurement, view)

    def cut(self, *dimensions: str, view: str = "plan") -> Trial:
        """What a wrong cut does: the piece is built in, and the overlap or gap is measured."""
        question = "This piece was cut wrong:"
        return Trial(self.keeper, dimensions, question, outcomes.wrong_cut, view)

    def ask(self, *dimensions: str) -> ipywidgets.VBox:
        """A question for each dimension of this hive, answered and judged."""
        return ipywidgets.VBox([Ask(self.keeper, d) for d in dimensions])

    def worked(self, dimension: str) -> Area:
        """The worked steps to one dimension of this hive."""
        return self._watched(lambda: worked(self.hive, dimension))

    def carry(self, component: str, *names: str) -> Area:
        """The figures to carry to the saw."""
        return self._watched(lambda: carry(self.hive, component, names))
