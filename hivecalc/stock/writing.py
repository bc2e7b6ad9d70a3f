"""The shipped yard, whose prices are invented: as text for a file of one's own, and read."""

import os
from functools import cache
from pathlib import Path
from typing import Final

from hivecalc.hive.files import file_faults, write_whole
from hivecalc.stock.reading import yard_from_text
from hivecalc.stock.yard import Yard

_SHIPPED: Final = Path(__file__).with_name("yard.toml")


def yard_text() -> str:
    """Text of a yard file with a note on everything in it; its prices are invented.

    >>> print(yard_text().splitlines()[0])
    # A yard file: what your yard sells, what it asks for it, and the offcuts that you have.
    """
    return _SHIPPED.read_text(encoding="utf-8")


@cache
def demo_yard() -> Yard:
    """Yard that comes with the course; its prices are invented, in round numbers.

    >>> demo_yard().boards[0].name, demo_yard().boards[0].price
    ('8 ft 2x4', Fraction(4, 1))
    """
    return yard_from_text(yard_text())


def save_new_yard(path: str | Path) -> None:
    """Write a yard file to begin with; a file that is there already stays as it is.

    Raises HiveFaults with the reason where nothing was written.
    """
    if os.path.lexists(path):
        accepted = "choose another name, as nothing is ever overwritten"
        raise file_faults(path, "this file is there already", accepted)
    write_whole(path, yard_text())
