"""What learners type into the panels that are measured, and where these panels stand."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain
from typing import Final

from playwright.sync_api import Locator, Page

from hivecalc.length import written

TAPE: Final = "workbook/00-your-hive-and-your-tape.ipynb"
FRAME: Final = "workbook/02-the-frame-of-the-bottom-board.ipynb"
SCREEN: Final = "workbook/04-the-screen-that-pulls-out.ipynb"
ROOF: Final = "workbook/05-the-roof.ipynb"
CHECKS: Final = "workbook/08-will-it-go-together.ipynb"
BOOK: Final = "workbook/15-your-hive-book.ipynb"
EXERCISES: Final = "exercises/02-the-frame-of-the-bottom-board.ipynb"

OUTPUT, ROW = ".jp-OutputArea-output", ".widget-box"
SVG, MESSAGE = "svg[role=img]", "[role=alert], [role=status]"
CHANGE, CUT, VALUE = "What if this were different:", "This piece was cut wrong:", "New value"


@dataclass(frozen=True, eq=False)
class Panel:
    """A panel of a lesson: the field that is filled in, and what then changes in its area.

    The area is the innermost `holder` that has a field with the label `within`.
    """

    name: str
    field: str
    entries: Sequence[str]
    within: str
    shows: str = SVG
    holder: str = OUTPUT

    def area(self, page: Page) -> Locator:
        """Where the panel stands on the page."""
        label = page.get_by_label(self.within, exact=True)
        return page.locator(self.holder).filter(has=label).last


def sizes(first: str, step: str, count: int = 41) -> list[str]:
    """Sizes that rise step by step, all different: nothing is remembered from an earlier one.

    >>> sizes("1 1/4", "1/64", 3)
    ['1 1/4', '1 17/64', '1 9/32']
    """
    start, by = (sum(map(Fraction, text.split()), Fraction()) for text in (first, step))
    return [written(start + n * by) for n in range(count)]


# For a front rail of 14 3/8 in, in a hive 17 3/8 in wide, of studs of 1 1/2 in.
RIGHT = [
    "14 3/8", "14-3/8", "14 3/8 in", '14 3/8"', "14.375", "115/8", "14 6/16", "14⅜", "1' 2 3/8\"",
    "1 ft 2 3/8 in", "365.125 mm",
]  # fmt: skip
SLIPPED = [
    "15 7/8", "13 3/8", "14 5/16", "14 7/16", "20 3/8", "15.875", "403.225 mm", "15-7/8",
    "15 14/16", "1 ft 3 7/8 in", "13.375",
]  # fmt: skip
JUNK = [
    "about 14", "fourteen", "14 3/0", "-14 3/8", "=1+1", "<b>14</b>", "14 3/8 m", "14 3/8 15",
    "?", "14 3/8 kg", "one four",
]  # fmt: skip
ANSWERS = list(
    chain.from_iterable(zip(RIGHT, SLIPPED, JUNK, sizes("12 1/16", "1/4", 11), strict=True))
)

TAPE_PANEL = Panel(
    "tape, lesson 00", "Show me this reading", sizes("1 1/16", "9/16"), "Show me this reading"
)
FRAME_PANEL = Panel("changed stud, lesson 02", VALUE, sizes("1 1/4", "1/64"), CHANGE)
WRONG_RAIL = Panel("front rail cut wrong, lesson 02", VALUE, sizes("13 1/16", "1/16"), CUT)
WRONG_RUNNER = Panel("runner cut wrong, stack, lesson 04", VALUE, sizes("5/16", "1/64"), CUT)
FOAM = Panel("changed foam, stack, lesson 04", VALUE, sizes("11/16", "1/64"), CHANGE)
OVERHANG = Panel("changed overhang, roof, lesson 05", VALUE, sizes("1 1/8", "1/16"), CHANGE)
WRONG_RIM = Panel("rim side cut wrong, roof, lesson 05", VALUE, sizes("20 1/16", "1/16"), CUT)
ASKED = Panel(
    "front rail asked, lesson 02", "Front rail length", ANSWERS, "Front rail length", MESSAGE, ROW
)
EXERCISE = Panel(
    "exercise 02-02", "Your answer to 02-02", ANSWERS, "Your answer to 02-02", MESSAGE, ROW
)

VISITS: Final = {
    TAPE: [TAPE_PANEL],
    FRAME: [FRAME_PANEL, WRONG_RAIL, ASKED],
    SCREEN: [WRONG_RUNNER, FOAM],
    ROOF: [OVERHANG, WRONG_RIM],
    EXERCISES: [EXERCISE],
}
