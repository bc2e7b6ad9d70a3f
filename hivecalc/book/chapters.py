"""The chapters of a hive book, in the order of the work."""

from hivecalc.book.bench import at_the_saw, when_it_is_together
from hivecalc.book.cautions import take_care
from hivecalc.book.checks import checks
from hivecalc.book.content import Chapter
from hivecalc.book.front import not_given
from hivecalc.book.glossary import words
from hivecalc.book.pictures import drawings, whole_hive
from hivecalc.book.pieces import component_chapter
from hivecalc.components import built
from hivecalc.drawing.exploded import part_numbers
from hivecalc.hive import Hive


def chapters(hive: Hive) -> tuple[Chapter, ...]:
    """Every chapter of the book of a hive.

    >>> from hivecalc.hive import demo_hive
    >>> [chapter.heading for chapter in chapters(demo_hive())][:3]
    ['The whole hive', 'Take care', 'Bottom board']
    """
    numbers = part_numbers(built(hive))
    told = (
        whole_hive(hive),
        take_care(),
        *(component_chapter(hive, c, numbers, drawings(hive, c)) for c in built(hive)),
        at_the_saw(hive, numbers),
        when_it_is_together(hive),
        checks(hive),
        not_given(hive),
    )
    return (*told, words(told))
