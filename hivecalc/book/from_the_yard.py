"""The chapters of a hive book that rest on a plan: buying, cutting, the saw."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from hivecalc.book.content import Chapter, Paragraph
from hivecalc.book.workshop import at_the_saw, to_buy, to_cut
from hivecalc.hive import Fault, Hive
from hivecalc.support.faults import escaped
from hivecalc.workshop import Yard, plan

UNUSED: Final = "Your yard file can't be used."
INSTEAD: Final = (
    "So the yard that comes with the course stands here, with invented prices. Mend your yard file "
    "and make the book again."
)


@dataclass(frozen=True)
class FromTheYard:
    """The chapters of buying, of cutting, and of the saw's settings."""

    to_buy: Chapter
    to_cut: tuple[Chapter, ...] = ()
    settings: tuple[Chapter, ...] = ()


def from_the_yard(hive: Hive, yard: Yard, faults: Sequence[Fault] = ()) -> FromTheYard:
    """The chapters of one hive that rest on a yard.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.workshop import demo_yard
    >>> from_the_yard(demo_hive(), demo_yard()).to_buy.heading
    'What to buy'

    `faults` are those of the yard file that this yard stands in for: the first chapter tells them.
    """
    made = plan([hive], yard)
    buy = to_buy(made)
    blocks = (*_told(faults), *buy.blocks)
    return FromTheYard(replace(buy, blocks=blocks), (to_cut(made),), (at_the_saw(made),))


def _told(faults: Sequence[Fault]) -> tuple[Paragraph, ...]:
    """Return in one paragraph what is wrong: the first fault, and how many more there are."""
    if not faults:
        return ()
    more = len(faults) - 1
    others = f" There are {more:,} more faults like it." if more else ""
    return (Paragraph(f"{escaped(str(faults[0]))}{others} {INSTEAD}", UNUSED, "wrong"),)
