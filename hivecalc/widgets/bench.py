"""The bench: one learner's hive on one page, and the panels that look at it."""

from collections.abc import Callable, Mapping
from functools import partial
from types import ModuleType
from typing import TypeVar

import ipywidgets
from IPython.display import display

from hivecalc.drawing.boards import cut_off, end_to_end
from hivecalc.drawing.tape import burnt_inch_tape, hooked_tape, tape
from hivecalc.exercise import exercise
from hivecalc.hive import OPENINGS, Hive
from hivecalc.length import Length, Units
from hivecalc.pages import assembly as made
from hivecalc.pages import contents, outcomes, views, workshop
from hivecalc.pages.chain import Stage, worked_chain
from hivecalc.pages.exercises import solution
from hivecalc.pages.messages import STYLE, Outcome, heading, message, on_this_page, picture
from hivecalc.pages.progress import learned
from hivecalc.widgets.answering import ExercisePanel, Sums
from hivecalc.widgets.chain import Derive, LayerChain, Waiting, all_shown, left_to_find
from hivecalc.widgets.field import Area, button
from hivecalc.widgets.folder import (
    Contents,
    Printer,
    TwoHives,
    book_steps,
    other_hives,
    template_steps,
    this_page,
)
from hivecalc.widgets.in_space import Assembly, InSpace, PullSquare
from hivecalc.widgets.measuring import (
    BoxOfFrames,
    Diagonals,
    HiveName,
    Measurements,
    Places,
    SleevedBox,
    TapeUnits,
)
from hivecalc.widgets.page_hive import FRAMES, Made, PageHive, SharedHive, hive_path, with_a_box
from hivecalc.widgets.panels import Entries, Fields, PiecesAsCut, Sliding, WhatIf, text_of
from hivecalc.workshop import Yard, yard_beside

Widget = TypeVar("Widget", bound=ipywidgets.DOMWidget)
USUAL_FILES = 2  # of a course folder: the learner's hive and their yard


# ── methods of the bench that are made alike ──────────────────────────────────────────────────


def _method(makes: Callable[..., Widget], shown: object) -> Callable[..., Widget]:
    """A method of the bench that says of itself what is said of what it shows."""

    def method(bench: "Bench", *names: str) -> Widget:
        return makes(bench, *names)

    method.__doc__ = shown.__doc__
    return method


def _keeps(panel: Callable[..., Widget]) -> Callable[..., Widget]:
    """A method that makes a panel which saves what is typed in the hive file."""
    return _method(lambda bench, *names: panel(bench.page_hive, *names), panel)


def _looks(panel: Callable[..., Widget]) -> Callable[..., Widget]:
    """A method that makes a panel which looks at the hive as this page shows it."""
    return _method(lambda bench, *names: panel(bench.shared, *names), panel)


def _tells(page: Callable[..., str]) -> Callable[..., Area]:
    """A method that shows what a page says of the hive, now and at each change."""
    return _method(lambda bench, *names: bench.shows(page, *names), page)


def _asks(outcome: Callable[..., Outcome], fields: Fields) -> Callable[..., Entries]:
    """A method that makes fields, and shows what their entries lead to."""
    return _method(lambda bench: Entries(bench.shared, fields, outcome), outcome)


def _asks_at_the_saw(outcome: Callable[..., Outcome], *names: str) -> Callable[..., Entries]:
    """The same with fields for choices of the learner's yard."""
    return _method(lambda bench: bench.at_the_yard(outcome, bench.choices(*names)), outcome)


def _own(name: str) -> Callable[[Hive], str]:
    """What stands in a field: a measurement of the hive, as it can be typed."""
    return partial(text_of, name=name)


class Bench:
    """One learner's hive on one page: makes the panels of a lesson, all over the same hive file.

    `hive_file` is the path of the hive; left empty, it is the learner's own (see `hive_path`).
    """

    def __init__(self, hive_file: str = "") -> None:
        self.page_hive = PageHive(hive_path(hive_file))
        self.shared: SharedHive = self.page_hive
        self.to_find: list[str] = []
        self.walks = False
        said, asked = Area(), self.to_find
        shown = partial(said.show, lambda: all_shown(self.page_hive, asked))
        self.show_all = button("", shown)
        self.show_all.tooltip = "For who looks figures up or teaches: it is kept for this lesson."
        self.show_all.layout.display = "none"
        self.page_hive.answers.watch(self._count_left)
        top = [ipywidgets.HTML(STYLE), self.contents()]
        top += [Area().follow(self._heading, self.page_hive), self.show_all, said]
        path = self.page_hive.path
        several = len([*path.parent.glob("*.toml")]) > USUAL_FILES
        if several and (others := other_hives(path)):
            top.append(TwoHives(self.page_hive, others))
        display(*top)  # type: ignore[no-untyped-call]

    def _heading(self) -> str:
        hive, closed = self.page_hive, self.page_hive.answers.closed
        faults = message("wrong", *hive.faults, str(closed or ""))
        return faults + heading(hive.hive, demo=hive.demo, place=hive.path.name, page=this_page())

    @property
    def hive(self) -> Hive:
        """The hive as this page shows it now."""
        return self.shared.hive

    def shows(self, page: Callable[..., str], *names: str) -> Area:
        """An area with what a page says of the hive, now and at each change."""
        return Area().follow(lambda: page(self.hive, *names), self.page_hive)

    def with_frames(self) -> "Bench":
        """This bench, its box made from frames on this page only, where the learner has none."""
        said = Area().follow(lambda: on_this_page(self.page_hive.hive, FRAMES), self.page_hive)
        self.shared = Made(self.page_hive, with_a_box)
        display(said)  # type: ignore[no-untyped-call]
        return self

    # ── the learner's own hive ──

    contents = _keeps(Contents)
    tape_units = _keeps(TapeUnits)
    name = _keeps(HiveName)
    measurements = _keeps(Measurements)
    places = _keeps(Places)
    diagonals = _keeps(Diagonals)
    sleeved_box = _keeps(SleevedBox)
    box_of_frames = _keeps(BoxOfFrames)

    def openings(self) -> Measurements:
        """The openings of the glued frames, kept: what goes in is cut to them from then on."""
        return Measurements(self.page_hive, *OPENINGS)

    def book(self) -> Printer:
        """A button that writes the hive book beside the hive file."""
        return Printer(self.shared, "Make the book", book_steps)

    def templates(self) -> Printer:
        """A button that writes the templates at full size beside the hive file."""
        advice = "Print it at 100 %, and check its ruler."
        return Printer(self.shared, "Make the templates", template_steps, advice)

    # ── pictures ──

    in_space = _looks(InSpace)
    whole = _tells(views.pulled_apart)
    real_boards = _tells(views.real_boards_text)

    def picture_to_work_out(self, view: str) -> Area:
        """A picture of the hive, with "?" for what was not found yet."""

        def drawn() -> str:
            found = contents.found_on(self.hive, self.page_hive.answers)
            return picture(views.VIEWS[view].to_work_out(self.hive, found))

        return Area().follow(drawn, self.page_hive, self.page_hive.answers)

    # ── the tape, and sums on paper ──

    def _on_tape(self, asked: str, name: str, drawn: Callable[[Length, Units], str]) -> Entries:
        return Entries(self.shared, {asked: _own(name)}, partial(outcomes.on_tape, drawn))

    def tape(self, name: str = "hive_length") -> Entries:
        """A tape that shows any reading, beginning with this measurement."""
        return self._on_tape("Show me this reading", name, tape)

    def hooked_on(self) -> Entries:
        """A board measured with the tape's hook over its end."""
        return self._on_tape("The board is", "hive_length", hooked_tape)

    def without_hook(self) -> Entries:
        """The same board measured from the 1 in mark: what the tape reads, and what comes off."""
        return self._on_tape("The board is really", "hive_length", burnt_inch_tape)

    def end_to_end(self, first: str, second: str) -> Entries:
        """Two boards laid end to end, and their lengths added up."""
        fields = {"First board": first, "Second board": second}
        return Entries(self.shared, fields, partial(outcomes.two_boards, end_to_end, 1))

    def cut_off(self, whole: str, off: str) -> Entries:
        """A board, the piece that comes off it, and what is left."""
        fields = {"Whole board": whole, "Take off": off}
        return Entries(self.shared, fields, partial(outcomes.two_boards, cut_off, -1))

    def sums(self, *tasks: str) -> Sums:
        """Sums to work out on paper, such as "17 1/4 − 2 5/8"."""
        return Sums(tasks, self.page_hive.answers)

    # ── a dimension worked out ──

    worked_chain = _tells(worked_chain)

    def derive(self, dimension: str, stage: Stage = "all") -> Derive:
        """The walk to one dimension: predict, build the chain, do the sum, see it.

        With the stage "counts" only the sizes of the rule are offered. What comes later on the page
        and would give the figure away waits until it is found.
        """
        self.walks = True
        return self._walk(dimension, stage=stage)

    def ask(self, *dimensions: str) -> ipywidgets.VBox:
        """A question for each dimension of this hive, for its number alone; its walk at a press."""
        return ipywidgets.VBox([self._walk(d, folded=True) for d in dimensions])

    def _walk(self, dimension: str, *, stage: Stage = "all", folded: bool = False) -> Derive:
        """The walk to one dimension, and below it the exercises that practise it."""
        self.to_find.append(dimension)
        self.show_all.layout.display = ""
        self._count_left()
        panel = Derive(self.page_hive, dimension, stage=stage, folded=folded)
        practised = self._practised(partial(contents.practice_of, dimension))
        panel.children = [*panel.children, practised]
        return panel

    def _count_left(self) -> None:
        """Say so where nothing is left to show."""
        some = bool(left_to_find(self.page_hive, self.to_find))
        self.show_all.disabled = not some
        self.show_all.description = "Show all figures" if some else "All figures are shown"

    def _once_found(self, panel: Callable[[], ipywidgets.DOMWidget]) -> ipywidgets.DOMWidget:
        """A panel that gives figures away: as soon as those that are to be found before it are."""
        return Waiting(self.page_hive, tuple(self.to_find), panel) if self.walks else panel()

    def worked(self, dimension: str) -> ipywidgets.DOMWidget:
        """The worked steps to one dimension of this hive."""
        return self._once_found(lambda: self.shows(outcomes.worked, dimension))

    def carry(self, component: str, *names: str) -> ipywidgets.DOMWidget:
        """The figures to carry to the saw."""
        return self._once_found(lambda: self.shows(outcomes.carry, component, *names))

    # ── what if ──

    def change(self, *names: str, view: str = "plan") -> ipywidgets.DOMWidget:
        """What a changed measurement does: old and new, the pieces, the rules that fail."""
        ways = {"planned anew": outcomes.planned_anew, "pieces already cut": outcomes.already_cut}
        question = "What if this were different:"
        return self._once_found(lambda: WhatIf(self.shared, names, question, ways, view))

    def cut(self, *dimensions: str, view: str = "plan") -> ipywidgets.DOMWidget:
        """What a wrong cut does: the piece is built in, and the overlap or gap is measured."""
        ways = {"as it was cut": outcomes.wrong_cut}
        question = "This piece was cut wrong:"
        return self._once_found(lambda: WhatIf(self.shared, dimensions, question, ways, view))

    def bowed_rails(self) -> ipywidgets.DOMWidget:
        """Side rails that bow inwards, until the panel sticks."""
        fields: Fields = {
            "Each side rail bows in by": lambda hive: "2" if hive.units == "mm" else "1/16"
        }
        return self._once_found(lambda: Entries(self.shared, fields, outcomes.bowed))

    # ── will it go together, and putting it together ──

    rules = _tells(made.rule_table)
    pieces = _looks(PiecesAsCut)
    frame = _asks(made.frame_as_made, made.FRAME)
    assembly = _looks(Assembly)
    pull_square = _looks(PullSquare)
    cut_anew = _tells(made.cut_anew)

    def many_hives(self) -> Entries:
        """Many hives built with some care: how many fail, and one rule in three ways."""
        fields, lists = made.kinds_of_work(), made.habits_and_rules(self.hive)
        return Entries(self.shared, fields, made.care_and_habit, lists)

    # ── shop and saw ──

    strips = _asks_at_the_saw(workshop.strips, "kerf", "least_fence")
    saw = _asks_at_the_saw(workshop.settings, "least_rip")
    fence = _asks_at_the_saw(workshop.fence, "kerf")
    taper = _asks(workshop.tapered, {"Low height": _own("rim_low_height")})
    fixings = _tells(workshop.joints)

    def choices(self, *names: str) -> dict[str, tuple[str, outcomes.Reader]]:
        """Fields for choices of the learner's yard as they can be typed again."""
        return {**workshop.choice_fields(self.page_hive.path, self.hive.units, *names)}

    def at_the_yard(
        self, outcome: Callable[..., Outcome], fields: Fields, working: str = ""
    ) -> Entries:
        """Fields whose outcome is decided by the hive and the learner's yard as they are now."""

        def here(hive: Hive, *texts: str) -> Outcome:
            return outcome(hive, self.yard, *texts)

        return Entries(self.shared, fields, here, working=working)

    @property
    def yard(self) -> Yard:
        """The learner's yard as it is now: its file lies beside the hive file."""
        return yard_beside(self.page_hive.path, self.hive.units)

    def basket(self) -> Entries:
        """What to buy for a number of hives: a bar and a line for each kind of goods."""
        fields: Fields = {"How many hives": ("1", workshop.HIVES), **self.choices("spare_boards")}
        return self.at_the_yard(workshop.bought, fields, working="Working out what to buy …")

    def boards(self) -> Entries:
        """The boards of this hive with their pieces, for a kerf, a margin and a length of board."""
        fields: Fields = {**self.choices("kerf", "cut_margin"), **workshop.BOARD}
        return self.at_the_yard(workshop.boards_cut, fields)

    def alternatives(self) -> Area:
        """What else could be bought for this hive, and what it costs more or less."""
        return self.shows(lambda hive: workshop.other_ways(hive, self.yard))

    def sheets(self, material: str) -> Area:
        """The sheets of one material with their pieces, and the cuts in order."""
        return self.shows(lambda hive: workshop.sheets(hive, self.yard, material))

    def landing_edge(self) -> Area:
        """The bevel of the landing board, cut with the blade leaning."""
        return self.shows(lambda hive: workshop.landing_edge(hive, self.yard))

    def saw_cautions(self) -> Area:
        """What to take care of at the saw."""
        return Area().follow(workshop.cautions)

    # ── heat and wood: their rooms load slowly, and only these panels load them ──

    @property
    def _warmth(self) -> ModuleType:
        from hivecalc.pages import warmth  # noqa: PLC0415 - slow to load

        return warmth

    def heat(self) -> Entries:
        """Heat that goes out of this hive, part by part, for two temperatures."""
        return Entries(self.shared, self._warmth.WEATHER, self._warmth.lost)

    def built_otherwise(self) -> Area:
        """What this hive would lose if it were built in another way."""
        return self.shows(self._warmth.built_otherwise)

    def foam(self) -> Sliding:
        """The temperature through a wall in its sleeve, for any thickness of foam."""
        marks = self._warmth.foams(self.hive.units)
        return Sliding(self.shared, "Thickness of the foam", marks, self._warmth.wall_with_foam)

    chain_of_layers = _looks(LayerChain)

    def section_through(self) -> Entries:
        """Lines of equal temperature where wood goes through the foam, at a place to choose."""
        return Entries(self.shared, {}, self._warmth.bridged, self._warmth.PLACES)

    def first_drop(self) -> Entries:
        """Where the first drop forms inside the hive."""
        return Entries(self.shared, self._warmth.DAMP_WEATHER, self._warmth.first_drops)

    def left_out_of_heat(self) -> Area:
        """What the sums on heat leave out, and their sources."""
        return Area().follow(self._warmth.left_out)

    def gap_in_a_year(self) -> Entries:
        """One gap of this hive through the year, for a wood, a climate and a moisture."""
        page, lists = self._warmth, self._warmth.year_lists(self.hive)
        return Entries(self.shared, page.MADE_AT, page.gap_through_year, lists)

    def board_that_swells(self) -> Entries:
        """A board's change of width from one moisture to another, along and across its grain."""
        return Entries(self.shared, self._warmth.BOARD, self._warmth.swelling)

    # ── exercises, and how far the learner is ──

    def exercise(self, name: str) -> ExercisePanel:
        """An exercise to answer, with hints, steps and another one like it."""
        return ExercisePanel(self.page_hive, exercise(name))

    def solution(self, name: str) -> Area:
        """The worked solution of an exercise."""
        return self.shows(lambda hive: solution(exercise(name), hive.units))

    def practise(self, number: str) -> Area:
        """How many exercises this lesson has, how many are done, and the next one."""
        return self._practised(partial(contents.practice, number))

    def _practised(self, listed: Callable[[Mapping[str, bool]], str]) -> Area:
        """Exercises to practise with, and which of them are done: shown anew after each answer."""
        answers = self.page_hive.answers
        return Area().follow(lambda: listed({a.asked: a.right for a in answers.all()}), answers)

    def progress(self) -> Area:
        """What the learner's own answers show, and what to practise next."""
        answers, units = self.page_hive.answers, self.page_hive.hive.units
        return Area().follow(lambda: learned(answers, units), answers)
