"""Putting it together, as it is told in the book of one hive: each step with a box to tick."""

from collections.abc import Iterator
from typing import Final

from hivecalc.assembly import PHRASES, STRIP_WAY, WHOLE, Step, steps, taken
from hivecalc.components import DIMENSIONS, values_to_find
from hivecalc.derivation import title
from hivecalc.document import TICK, Chapter, Column, Paragraph, Table
from hivecalc.hive import Hive
from hivecalc.length import shown

COLUMNS: Final = (
    Column("", 0.7),
    Column("step, what it takes, what to check", 9),
    Column("", 0.7),
)
GLUED: Final = " ".join(PHRASES[name] for name in ("dry", "spread", "diagonals", "tighten", "set"))
STRIP: Final = "practice.entrance_strip_length"


def assembly_chapter(hive: Hive) -> Chapter:
    """Chapter of the order of work: what each step takes, what to check, a box to tick.

    >>> from hivecalc.hive import demo_hive
    >>> assembly_chapter(demo_hive()).blocks[1].rows[0][1].splitlines()[0]
    'Hang the back'

    How all is done stands in the lesson; here what has a figure, and how the hive is set up.
    """
    rows = tuple(
        (str(number), f"{step.title}\n{' '.join(_told(step))}", TICK)
        for number, step in enumerate(steps(hive), 1)
    )
    return Chapter(
        "Putting it together",
        (
            Paragraph(GLUED, "Every glued joint."),
            Table(COLUMNS, rows, abreast=2),
            Paragraph(_strip(hive), "Entrance strip."),
        ),
    )


def _told(step: Step) -> Iterator[str]:
    for text in step.do:
        has_figure = any(letter.isdigit() for letter in text)
        if has_figure or step.component == WHOLE:
            yield text
    if step.fixings:
        yield f"Takes {taken(step.fixings)}."
    yield f"Check: {step.check}"


def _strip(hive: Hive) -> str:
    """The entrance strip of this hive, which nothing else in the book is made from."""
    found, units = values_to_find(hive), hive.units
    long = shown(found[STRIP], units, None, DIMENSIONS.dimension(STRIP).rule.rounding)
    high = shown(found["entrance_height"], units)
    return (
        f"{title(STRIP).capitalize()} {long}, as high as the entrance, {high}; low in its middle a "
        f"way {STRIP_WAY[units]} wide."
    )
