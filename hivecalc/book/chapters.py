"""The chapters of a hive book, in the order of the work."""

from collections.abc import Sequence

from hivecalc.book.bench import at_the_saw, when_it_is_together
from hivecalc.book.cautions import take_care
from hivecalc.book.checks import checks
from hivecalc.book.content import Chapter
from hivecalc.book.from_the_yard import from_the_yard
from hivecalc.book.front import not_given
from hivecalc.book.glossary import words
from hivecalc.book.pictures import drawings, whole_hive
from hivecalc.book.pieces import component_chapter
from hivecalc.book.warmth import warmth
from hivecalc.components import built, values
from hivecalc.drawing.whole_hive import part_numbers
from hivecalc.hive import Fault, Hive
from hivecalc.workshop import Yard


def chapters(hive: Hive, yard: Yard, faults: Sequence[Fault] = ()) -> tuple[Chapter, ...]:
    """Every chapter of the book of a hive that is built from what a yard sells.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.workshop import demo_yard
    >>> [chapter.heading for chapter in chapters(demo_hive(), demo_yard())][:3]
    ['The whole hive', 'Take care', 'Bottom board']

    `faults` are those of the yard file that this yard stands in for.
    """
    numbers, at_yard = part_numbers(values(hive), built(hive)), from_the_yard(hive, yard, faults)
    told = (
        whole_hive(hive),
        take_care(),
        *(component_chapter(hive, c, numbers, drawings(hive, c)) for c in built(hive)),
        at_yard.to_buy,
        *at_yard.to_cut,
        at_the_saw(hive, numbers),
        *at_yard.settings,
        when_it_is_together(hive),
        checks(hive),
        warmth(hive),
        not_given(hive),
    )
    return (*told, words(told))
