"""The shipped yard, whose prices are invented: as text for a file of one's own, and read."""

from functools import cache
from pathlib import Path
from typing import Final

from hivecalc.stock.reading import yard_from_text
from hivecalc.stock.yard import Yard

SHIPPED: Final = Path(__file__).with_name("yard.toml")
"""The yard file that comes with the course."""

YARD_FILE: Final = "my-yard.toml"
"""Name of the learner's own yard file, which lies beside the hive file."""


def yard_text() -> str:
    """Text of a yard file with a note on everything in it; its prices are invented.

    >>> print(yard_text().splitlines()[0])
    # A yard file: what your yard sells, what it asks for it, and the offcuts that you have.
    """
    return SHIPPED.read_text(encoding="utf-8")


@cache
def demo_yard() -> Yard:
    """Yard that comes with the course; its prices are invented, in round numbers.

    >>> demo_yard().boards[0].name, demo_yard().boards[0].price
    ('8 ft 2x4', Fraction(4, 1))
    """
    return yard_from_text(yard_text())
