"""The plan at the saw as one SVG file: every setting in order, drawn, with the cautions for it."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Final

from hivecalc.cutting.strips import Rip
from hivecalc.drawing.page import Page
from hivecalc.drawing.saw import fence_and_kerf, stop_distances, taper_drawing, tilted_blade
from hivecalc.length import Length
from hivecalc.saw import CAUTIONS, Caution, Kind, SawPlan, Step
from hivecalc.saw.plan import KINDS
from hivecalc.saw.telling import HEADINGS, WHY, setting_told, work_told
from hivecalc.tables.drawn.words import named, shares, write_missing
from hivecalc.tables.saw import AFTER, BEFORE, FIRST, caution_told, settings_told

TITLE: Final = "How to set the saw"
TOGETHER: Final = 6
"""So many settings of the stop block share a picture at most."""

Numbered = tuple[int, Step]


def saw_drawn(plan: SawPlan, *, name: str = "") -> str:
    """A plan at the saw as an SVG file: each setting in order, drawn, below its cautions.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.saw import saw_plan
    >>> from hivecalc.stock import demo_yard
    >>> svg = saw_drawn(saw_plan([demo_hive()], demo_yard()))
    >>> svg.count("<title"), svg.count("stop block 23 5/8 in from the blade</text>")
    (1, 1)

    `name` is the hive's or the class's.
    """
    page, title = Page(), named(name, TITLE)
    page.begin(title)
    page.write(FIRST)
    _caution(page, BEFORE, CAUTIONS["before"])
    for kind in KINDS:
        steps = [each for each in enumerate(plan.steps, 1) if each[1].kind == kind]
        if steps:
            _caution(page, HEADINGS[kind], CAUTIONS[kind], WHY[kind], settings_told(plan, kind))
            page.hang(_PICTURES[kind](steps, plan))
    write_missing(page, plan.unplanned)
    _caution(page, AFTER, CAUTIONS["after"])
    return page.file(title)


def _caution(page: Page, heading: str, cautions: Iterable[Caution], *first: str) -> None:
    """Begin with a heading, what is said about it, and its cautions."""
    page.begin(heading)
    page.write(*first)
    page.warn(map(caution_told, cautions))


def _stops(steps: Sequence[Numbered], plan: SawPlan) -> Iterator[str]:
    """Return the settings of the stop block, all to one scale."""
    longest = max(step.setting for _, step in steps)
    for some in shares(steps, TOGETHER):
        yield stop_distances(some, longest=longest, units=plan.units)


def _rips(steps: Sequence[Numbered], plan: SawPlan) -> Iterator[str]:
    """Return the settings of the fence, each with every way to rip at it."""
    for number, step in steps:
        cell = _begun(number, step, plan)
        for (rip, high), told in _alike(step, plan).items():
            cell.write(*told)
            cell.hang([fence_and_kerf(rip, high, plan.kerf, units=plan.units)])
        yield cell.picture()


def _shaped(steps: Sequence[Numbered], plan: SawPlan) -> Iterator[str]:
    """Return the settings that shape a piece, each with its bevel or its taper."""
    for number, step in steps:
        cell = _begun(number, step, plan)
        cell.write(*_works(step, plan))
        cell.hang(_shapes(step, plan))
        yield cell.picture()


def _shapes(step: Step, plan: SawPlan) -> Iterator[str]:
    if step.edge:
        yield tilted_blade(step.edge, step.edge.upper, plan.kerf, units=plan.units)
    if step.taper:
        yield taper_drawing(step.taper, units=plan.units)


_PICTURES: Final[Mapping[Kind, Callable[[Sequence[Numbered], SawPlan], Iterator[str]]]] = {
    "crosscut": _stops,
    "rip": _rips,
    "to_length": _stops,
    "bevel": _shaped,
    "taper": _shaped,
}


def _begun(number: int, step: Step, plan: SawPlan) -> Page:
    """Return the place of a step, with its number and what is set."""
    cell = Page(abreast=1)
    cell.begin(f"{number}. {setting_told(step, plan.units)}")
    return cell


def _works(step: Step, plan: SawPlan) -> list[str]:
    """Return what is cut at a step; how a taper is marked stands in its picture."""
    return [told for _, told in zip(step.work, work_told(step, plan.units), strict=False)]


def _alike(step: Step, plan: SawPlan) -> dict[tuple[Rip, Length], list[str]]:
    """Return what passes the blade alike: the rip and how high it lies, with what it is."""
    found: dict[tuple[Rip, Length], list[str]] = {}
    for work, told in zip(step.work, _works(step, plan), strict=True):
        if work.passing:
            passes = work.passing.rip, plan.lying(work.passing)
            found.setdefault(passes, []).append(told)
    return found
