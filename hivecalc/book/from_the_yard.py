"""The chapters of a hive book that rest on what a yard sells: buying, cutting, the saw."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from hivecalc.book.content import Chapter, Paragraph
from hivecalc.book.saw_settings import saw_settings
from hivecalc.book.to_buy import to_buy
from hivecalc.book.to_cut import to_cut
from hivecalc.cutting.planner import Planner
from hivecalc.cutting.plans import CutPlans
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.hive.texts import seen
from hivecalc.saw import saw_plan
from hivecalc.shopping import alternatives, basket
from hivecalc.stock import Yard

SECONDS: Final = 1.0
"""What one plan may take while a book is made; those of one hive seldom take a tenth of that."""

UNUSED: Final = "Your yard file can't be used."
NOT_PLANNED: Final = "Buying and cutting can't be planned."
INSTEAD: Final = (
    "So the yard that comes with the course stands here, with invented prices. Mend your yard file "
    "and make the book again."
)


@dataclass(frozen=True)
class FromTheYard:
    """The chapters of buying, of cutting, and of the saw's settings; empty where none can be."""

    to_buy: Chapter
    to_cut: tuple[Chapter, ...] = ()
    settings: tuple[Chapter, ...] = ()


def from_the_yard(hive: Hive, yard: Yard, faults: Sequence[Fault] = ()) -> FromTheYard:
    """The chapters of one hive that rest on a yard.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> from_the_yard(demo_hive(), demo_yard()).to_buy.heading
    'What to buy'

    `faults` are those of the yard file that this yard stands in for: the first chapter tells them.
    So does it where nothing can be planned with the yard, and the others are left out.
    """
    planner = Planner(hive.units, SECONDS)
    try:
        found = basket([hive], yard, planner)
        buy = to_buy(found, alternatives(found, yard, planner))
        plans = CutPlans(hive.units, "cost", found.boards_cut, found.sheets_cut)
        cut = to_cut(plans, yard, hive.name)
        saw = saw_settings(saw_plan([hive], yard), hive.name)
    except HiveFaults as error:
        unplanned = _told(error.faults, NOT_PLANNED)
        return FromTheYard(Chapter("What to buy", (*_told(faults, UNUSED), *unplanned)))
    told = (*_told(faults, UNUSED, INSTEAD), *buy.blocks)
    return FromTheYard(replace(buy, blocks=told), (cut,), (saw,))


def _told(faults: Sequence[Fault], lead: str, then: str = "") -> tuple[Paragraph, ...]:
    """Return in one paragraph what is wrong: the first fault, and how many more there are."""
    if not faults:
        return ()
    more = len(faults) - 1
    others = f" There are {more:,} more faults like it." if more else ""
    said = f"{seen(str(faults[0]))}{others} {then}".strip()
    return (Paragraph(said, lead, "wrong"),)
