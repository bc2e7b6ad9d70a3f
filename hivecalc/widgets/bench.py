"""The bench: one learner's hive on one page, and the panels that look at it."""

from collections.abc import Callable
from fractions import Fraction
from functools import partial

import ipywidgets
from IPython.display import display

from hivecalc.components import built, values
from hivecalc.drawing import Subject, boards, whole_hive
from hivecalc.drawing.tape import burnt_inch_tape, hooked_tape, tape
from hivecalc.exercise import exercise
from hivecalc.hive import OPENINGS, Hive, Measurement
from hivecalc.length import MM, Units
from hivecalc.pages import assembly, outcomes, views, workshop
from hivecalc.pages import chain as chain_page
from hivecalc.pages import contents as contents_page
from hivecalc.pages import exercises as solutions
from hivecalc.pages.messages import STYLE, Outcome, heading, message, on_this_page
from hivecalc.widgets import (
    answering,
    chain,
    measuring,
    panels,
)
from hivecalc.widgets.field import Area, button, picture, safely
from hivecalc.widgets.folder import (
    Contents,
    Learned,
    Practice,
    Printer,
    TwoHives,
    book_steps,
    other_hives,
    template_steps,
    this_page,
)
from hivecalc.widgets.in_space import Assembly, InSpace, PullSquare
from hivecalc.widgets.page_hive import FRAMES, Made, PageHive, SharedHive, hive_path, with_a_box
from hivecalc.workshop import Yard, yard_beside

USUAL_FILES = 2  # of a course folder: the learner's hive and their yard


def _foams(units: Units) -> tuple[Fraction, ...]:
    """Thicknesses of foam on marks of the tape, from 1/2 to 3 in or from 13 to 76 mm."""
    if units == "mm":
        return tuple(mm * MM for mm in range(13, 77))
    return tuple(Fraction(eighths, 8) for eighths in range(4, 25))


class Bench:
    """One learner's hive on one page: makes the panels of a lesson, all over the same hive file.

    `hive_file` is the path of the hive; left empty, it is the learner's own (see `hive_path`).
    """

    def __init__(self, hive_file: str = "") -> None:
        self.page_hive = PageHive(hive_path(hive_file))
        self.shared: SharedHive = self.page_hive
        self.to_find: list[str] = []
        self.walks = False
        self.show_all = button("Show all figures", self._show_all)
        self.show_all.tooltip = "For who looks figures up or teaches: it is kept for this lesson."
        self.show_all.layout.display = "none"
        self._shown_said = Area()
        top = [ipywidgets.HTML(STYLE), self.contents(), self._watched(self._heading)]
        top += [self.show_all, self._shown_said, *self._beside_another()]
        display(*top)  # type: ignore[no-untyped-call]

    def _beside_another(self) -> list[TwoHives]:
        """The panel that shows two hives, where there is more than a hive and a yard to choose."""
        if len([*self.page_hive.path.parent.glob("*.toml")]) <= USUAL_FILES:
            return []
        others = other_hives(self.page_hive.path)
        return [TwoHives(self.page_hive, others)] if others else []

    @property
    def hive(self) -> Hive:
        """The hive as this page shows it now."""
        return self.shared.hive

    def _heading(self) -> str:
        closed = self.page_hive.answers.closed
        told_of = [*self.page_hive.faults, *([str(closed)] if closed else [])]
        faults = message("wrong", *told_of) if told_of else ""
        demo, place = self.page_hive.demo, self.page_hive.path.name
        return faults + heading(self.page_hive.hive, demo=demo, place=place, page=this_page())

    def _watched(self, html: Callable[[], str]) -> Area:
        """An area that shows this HTML, now and whenever the hive changes."""
        area = Area()

        def show() -> None:
            area.tell(safely(html)())

        show()
        self.page_hive.watch(show)
        return area

    def contents(self) -> Contents:
        """A button for the table of contents: all lessons, and how far the learner is in each."""
        return Contents(self.page_hive)

    def picture_to_work_out(self, view: str = "plan") -> Area:
        """The same picture, with "?" for what was not found yet."""
        area = self._watched(drawn := lambda: picture(self._to_work_out(view)))
        self.page_hive.answers.watch(lambda: area.tell(safely(drawn)()))
        return area

    def _to_work_out(self, view: str) -> str:
        found = contents_page.found_on(self.hive, self.page_hive.answers)
        return views.VIEWS[view].to_work_out(self.hive, found)

    def picture(self, view: str = "plan") -> Area:
        """A picture of the hive as it is now: plan, section, stack, roof, inner cover or box."""
        return self._watched(lambda: picture(views.VIEWS[view].of(self.hive)))

    def in_space(self, *components: str) -> InSpace:
        """These components in space, or the whole hive: turned, taken apart, a part lit."""
        return InSpace(self.shared, components)

    def tape_units(self) -> measuring.TapeUnits:
        """A choice of inches or millimetres, for this hive."""
        return measuring.TapeUnits(self.page_hive)

    def name(self) -> measuring.HiveName:
        """A field for the hive's name."""
        return measuring.HiveName(self.page_hive)

    def measurements(self, *names: str) -> measuring.Measurements:
        """Fields for these measurements: read, refused or saved."""
        return measuring.Measurements(self.page_hive, names)

    def tape(self, name: str = "hive_length") -> panels.Entries:
        """A tape that shows any reading, beginning with this measurement."""
        fields = {"Show me this reading": partial(panels.text_of, name=name)}
        return panels.Entries(self.shared, fields, partial(outcomes.on_tape, tape))

    def hooked_on(self) -> panels.Entries:
        """A board measured with the tape's hook over its end."""
        fields = {"The board is": partial(panels.text_of, name="hive_length")}
        return panels.Entries(self.shared, fields, partial(outcomes.on_tape, hooked_tape))

    def without_hook(self) -> panels.Entries:
        """The same board measured from the 1 in mark: what the tape reads, and what comes off."""
        fields = {"The board is really": partial(panels.text_of, name="hive_length")}
        return panels.Entries(self.shared, fields, partial(outcomes.on_tape, burnt_inch_tape))

    def places(self, name: str) -> measuring.Places:
        """Three readings of one size, and which of them to use."""
        return measuring.Places(self.page_hive, name)

    def sleeved_box(self) -> measuring.SleevedBox:
        """Three sizes of a box you have, and a button that makes your hive of it."""
        return measuring.SleevedBox(self.page_hive)

    def diagonals(self) -> measuring.Readings:
        """Two diagonals, and how far out of square the box is."""
        return measuring.Readings(
            self.page_hive, "diagonals", measuring.DIAGONALS, outcomes.two_diagonals
        )

    def end_to_end(self, first: str, second: str) -> panels.Entries:
        """Two boards laid end to end, and their lengths added up."""
        fields = {"First board": first, "Second board": second}
        return panels.Entries(self.shared, fields, outcomes.two_boards)

    def cut_off(self, whole: str, off: str) -> panels.Entries:
        """A board, the piece that comes off it, and what is left."""
        fields = {"Whole board": whole, "Take off": off}
        return panels.Entries(self.shared, fields, outcomes.piece_cut_off)

    def real_boards(self) -> Area:
        """The ends of real boards, beside the sizes of their names."""
        return self._watched(lambda: picture(boards.real_boards(units=self.hive.units)))

    def sums(self, *tasks: str) -> answering.Sums:
        """Sums to work out on paper, such as "17 1/4 − 2 5/8"."""
        return answering.Sums(tasks, self.page_hive.answers)

    def bowed_rails(self) -> ipywidgets.DOMWidget:
        """Side rails that bow inwards, until the panel sticks."""
        fields: panels.Fields = {
            "Each side rail bows in by": lambda hive: "2" if hive.units == "mm" else "1/16"
        }
        return self._once_found(lambda: panels.Entries(self.shared, fields, outcomes.bowed))

    def change(self, *names: str, view: str = "plan") -> ipywidgets.DOMWidget:
        """What a changed measurement does: old and new, the pieces, the rules that fail."""
        ways = {
            "planned anew": outcomes.planned_anew,
            "pieces already cut": outcomes.already_cut,
        }
        question = "What if this were different:"
        return self._once_found(lambda: panels.WhatIf(self.shared, names, question, ways, view))

    def cut(self, *dimensions: str, view: str = "plan") -> ipywidgets.DOMWidget:
        """What a wrong cut does: the piece is built in, and the overlap or gap is measured."""
        ways = {"as it was cut": outcomes.wrong_cut}
        question = "This piece was cut wrong:"
        return self._once_found(
            lambda: panels.WhatIf(self.shared, dimensions, question, ways, view)
        )

    def rules(self) -> Area:
        """Every rule of this hive: held or not, by how much, and why."""
        return self._watched(lambda: assembly.rule_table(self.hive))

    def pieces(self) -> panels.PiecesAsCut:
        """Every piece of the hive as it was cut: what comes together, what can be saved."""
        return panels.PiecesAsCut(self.shared)

    def frame(self) -> panels.Entries:
        """A frame's widths, lengths and diagonals: its shape, and what to do about it."""
        places = ("Width in front", "Width in the middle", "Width at the back")
        sides = ("Length of the left side", "Length of the right side")
        fields = assembly.size_fields(*places, *sides, *measuring.DIAGONALS)
        return panels.Entries(self.shared, fields, assembly.frame_as_made)

    def assembly(self) -> Assembly:
        """The hive put together step by step: turned, told, and ticked when a step is done."""
        return Assembly(self.shared)

    def pull_square(self) -> PullSquare:
        """A frame that leans and is pulled until both its diagonals are the same."""
        return PullSquare(self.shared)

    def cut_anew(self) -> Area:
        """What is cut otherwise once the openings of the glued frames are measured."""
        return self._watched(lambda: assembly.cut_anew(self.hive))

    def openings(self) -> measuring.Measurements:
        """The openings of the glued frames, kept: what goes in is cut to them from then on."""
        return measuring.Measurements(self.page_hive, [*OPENINGS])

    def many_hives(self) -> panels.Entries:
        """Many hives built with some care: how many fail, and one rule in three ways."""
        rules = assembly.rules_offered(self.hive)
        lists = {"Habit": assembly.habits_offered(), "One rule, three ways": rules}
        return panels.Entries(self.shared, assembly.kinds_of_work(), assembly.care_and_habit, lists)

    def whole(self) -> Area:
        """The whole hive pulled apart, with part numbers."""

        def drawn() -> str:
            hive = self.hive
            subject = Subject(values(hive), units=hive.units, name=hive.name)
            return picture(whole_hive.exploded_hive(subject, built(hive)))

        return self._watched(drawn)

    def book(self) -> Printer:
        """A button that writes the hive book beside the hive file."""
        return Printer(self.shared, "Make the book", book_steps)

    @property
    def yard(self) -> Yard:
        """The learner's yard as it is now: its file lies beside the hive file."""
        return yard_beside(self.page_hive.path, self.hive.units)

    def _at_the_yard(
        self, fields: panels.Fields, outcome: Callable[..., Outcome], working: str = ""
    ) -> panels.Entries:
        """Fields whose outcome is decided by the hive and the learner's yard as they are now."""

        def here(hive: Hive, *texts: str) -> Outcome:
            return outcome(hive, self.yard, *texts)

        return panels.Entries(self.shared, fields, here, working=working)

    def basket(self) -> panels.Entries:
        """What to buy for a number of hives: a bar and a line for each kind of goods."""
        fields: panels.Fields = {
            "How many hives": ("1", workshop.HIVES),
            "Boards to spare, in percent": self._choice("spare_boards"),
        }
        return self._at_the_yard(fields, workshop.bought, working="Working out what to buy …")

    def fixings(self) -> Area:
        """Screws, brads and glue of this hive, joint by joint."""
        return self._watched(lambda: workshop.joints(self.hive))

    def alternatives(self) -> Area:
        """What else could be bought for this hive, and what it costs more or less."""
        return self._watched(lambda: workshop.other_ways(self.hive, self.yard))

    def boards(self) -> panels.Entries:
        """The boards of this hive with their pieces, for a kerf, a margin and a length of board."""
        fields: panels.Fields = {
            "Kerf of your saw": self._choice("kerf"),
            "Margin for each cut": self._choice("cut_margin"),
            "Length of a board": (
                lambda hive: "8 ft" if hive.units == "inch" else "2400 mm",
                workshop.A_BOARD,
            ),
        }
        return self._at_the_yard(fields, workshop.boards_cut)

    def strips(self) -> panels.Entries:
        """A stud's end with the cuts that make strips of it, for a kerf and a least width."""
        fields: panels.Fields = {
            "Kerf of your saw": self._choice("kerf"),
            "Least width at the fence": self._choice("least_fence"),
        }
        return self._at_the_yard(fields, workshop.strips)

    def sheets(self, material: str) -> Area:
        """The sheets of one material with their pieces, and the cuts in order."""
        return self._watched(lambda: workshop.sheets(self.hive, self.yard, material))

    def saw_cautions(self) -> Area:
        """What to take care of at the saw."""
        return self._watched(workshop.cautions)

    def saw(self) -> panels.Entries:
        """Every setting of the saw for this hive in order, for the shortest piece it may rip."""
        fields = {"Shortest piece that is ripped": self._choice("least_rip")}
        return self._at_the_yard(fields, workshop.settings)

    def fence(self) -> panels.Entries:
        """Fence and kerf at the front rail's rip, for a kerf."""
        return self._at_the_yard({"Kerf of your saw": self._choice("kerf")}, workshop.fence)

    def landing_edge(self) -> Area:
        """The bevel of the landing board, cut with the blade leaning."""
        return self._watched(lambda: workshop.landing_edge(self.hive, self.yard))

    def taper(self) -> panels.Entries:
        """The taper of the roof's sides, for a low height."""
        fields = {"Low height": partial(panels.text_of, name="rim_low_height")}
        return panels.Entries(self.shared, fields, workshop.tapered)

    def templates(self) -> Printer:
        """A button that writes the templates at full size beside the hive file."""
        advice = "Print it at 100 %, and check its ruler."
        return Printer(self.shared, "Make the templates", template_steps, advice)

    # Heat and wood: their rooms load slowly, and only these panels load them.

    def heat(self) -> panels.Entries:
        """Heat that goes out of this hive, part by part, for two temperatures."""
        from hivecalc.pages import warmth as page  # noqa: PLC0415

        fields: panels.Fields = {
            "Inside": (page.WARM, page.degrees),
            "Outside": (page.COLD, page.degrees),
        }
        return panels.Entries(self.shared, fields, page.lost)

    def built_otherwise(self) -> Area:
        """What this hive would lose if it were built in another way."""
        from hivecalc.pages import warmth as page  # noqa: PLC0415

        return self._watched(lambda: page.built_otherwise(self.hive))

    def foam(self) -> panels.Sliding:
        """The temperature through a wall in its sleeve, for any thickness of foam."""
        from hivecalc.pages import warmth as page  # noqa: PLC0415

        marks = _foams(self.hive.units)
        return panels.Sliding(self.shared, "Thickness of the foam", marks, page.wall_with_foam)

    def chain_of_layers(self) -> chain.LayerChain:
        """A chain of layers to build, each with its R, and a field for the sum."""
        return chain.LayerChain(self.shared)

    def section_through(self) -> panels.Entries:
        """Lines of equal temperature where wood goes through the foam, at a place to choose."""
        from hivecalc.pages import warmth as page  # noqa: PLC0415
        from hivecalc.warmth.sections import RAIL, RIM, STRIPS  # noqa: PLC0415

        places = {name.capitalize(): name for name in (RAIL, RIM, STRIPS)}
        return panels.Entries(self.shared, {}, page.bridged, {"Place": places})

    def first_drop(self) -> panels.Entries:
        """Where the first drop forms inside the hive."""
        from hivecalc.pages import warmth as page  # noqa: PLC0415

        fields: panels.Fields = {
            "Inside": (page.WARM, page.degrees),
            "Outside": (page.COLD, page.degrees),
            "Humidity inside": (page.DAMP, page.damp),
        }
        return panels.Entries(self.shared, fields, page.first_drops)

    def left_out_of_heat(self) -> Area:
        """What the sums on heat leave out, and their sources."""
        from hivecalc.pages import warmth as page  # noqa: PLC0415

        return self._watched(page.left_out)

    def gap_in_a_year(self) -> panels.Entries:
        """One gap of this hive through the year, for a wood, a climate and a moisture."""
        from hivecalc.pages import warmth as page  # noqa: PLC0415
        from hivecalc.wood import CLIMATES, SPECIES, gap_names  # noqa: PLC0415

        lists = {
            "Gap": {name.capitalize(): name for name in gap_names(self.hive)},
            "Wood": {name: name for name in sorted(SPECIES, key=lambda n: n != "white fir")},
            "Climate": {name.capitalize(): name for name in ("chicago", *CLIMATES)},
        }
        fields: panels.Fields = {"Moisture when cut, in percent": ("12", page.moist)}
        return panels.Entries(self.shared, fields, page.gap_through_year, lists)

    def board_that_swells(self) -> panels.Entries:
        """A board's change of width from one moisture to another, along and across its grain."""
        from hivecalc.pages import warmth as page  # noqa: PLC0415

        fields: panels.Fields = {
            "Size at first": lambda hive: "9 1/2" if hive.units == "inch" else "240",
            "Moisture at first, in percent": ("12", page.moist),
            "Moisture later, in percent": ("8", page.moist),
        }
        return panels.Entries(self.shared, fields, page.swelling)

    def _choice(self, name: str) -> tuple[str, Measurement]:
        """A choice of the learner's yard as it can be typed again, and what may be typed for it."""
        return workshop.choice_field(self.page_hive.path, name, self.hive.units)

    def with_frames(self) -> "Bench":
        """This bench, its box made from frames on this page only, where the learner has none."""
        self.shared = Made(self.page_hive, with_a_box)
        display(self._watched(lambda: on_this_page(self.page_hive.hive, FRAMES)))  # type: ignore[no-untyped-call]
        return self

    def worked_chain(self, name: str = "shelf") -> Area:
        """A chain that somebody else built, of a sister piece: its bar and its sum."""

        def shown() -> str:
            bar, told_of = chain_page.worked_chain(self.hive.units, name)
            return picture(bar) + told_of

        return self._watched(shown)

    def derive(self, dimension: str, stage: chain_page.Stage = "all") -> chain.Derive:
        """The walk to one dimension: predict, build the chain, do the sum, see it.

        With the stage "counts" only the sizes of the rule are offered. What comes later on the page
        and would give the figure away waits until it is found.
        """
        self._to_be_found(dimension)
        self.walks = True
        return self._walk(dimension, stage=stage)

    def ask(self, *dimensions: str) -> ipywidgets.VBox:
        """A question for each dimension of this hive, for its number alone; its walk at a press."""
        self._to_be_found(*dimensions)
        return ipywidgets.VBox([self._walk(d, folded=True) for d in dimensions])

    def _walk(
        self, dimension: str, *, stage: chain_page.Stage = "all", folded: bool = False
    ) -> chain.Derive:
        """The walk to one dimension, and below it the exercises that practise it."""
        panel = chain.Derive(self.page_hive, dimension, stage=stage, folded=folded)
        practised = Practice(self.page_hive, partial(contents_page.practice_of, [dimension]))
        panel.children = [*panel.children, practised]
        return panel

    def _to_be_found(self, *dimensions: str) -> None:
        self.to_find += dimensions
        self.show_all.layout.display = ""

    def _show_all(self) -> None:
        """Show every figure that this page asks for; that is kept."""
        self._shown_said.tell(safely(chain.all_shown)(self.page_hive, self.to_find))

    def _once_found(self, panel: Callable[[], ipywidgets.DOMWidget]) -> ipywidgets.DOMWidget:
        """A panel that gives figures away: as soon as those that are to be found before it are."""
        return chain.Waiting(self.page_hive, tuple(self.to_find), panel) if self.walks else panel()

    def worked(self, dimension: str) -> ipywidgets.DOMWidget:
        """The worked steps to one dimension of this hive."""
        return self._once_found(
            lambda: self._watched(lambda: outcomes.worked(self.hive, dimension))
        )

    def carry(self, component: str, *names: str) -> ipywidgets.DOMWidget:
        """The figures to carry to the saw."""
        return self._once_found(
            lambda: self._watched(lambda: outcomes.carry(self.hive, component, names))
        )

    def exercise(self, name: str) -> answering.ExercisePanel:
        """An exercise to answer, with hints, steps and another one like it."""
        return answering.ExercisePanel(self.page_hive, exercise(name))

    def solution(self, name: str) -> Area:
        """The worked solution of an exercise."""
        return self._watched(lambda: solutions.solution(exercise(name), self.page_hive.hive.units))

    def practise(self, number: str) -> Practice:
        """How many exercises this lesson has, how many are done, and the next one."""
        return Practice(self.page_hive, partial(contents_page.practice, number))

    def progress(self) -> Learned:
        """What the learner's own answers show, and what to practise next."""
        return Learned(self.page_hive.answers, self.page_hive.hive.units)
