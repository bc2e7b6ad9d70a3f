"""The learner's own yard, and the kerf that was typed instead of the yard's."""

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Final

from hivecalc.hive import Fault, HiveFaults
from hivecalc.hive.texts import seen
from hivecalc.hive.values import said_with_unit
from hivecalc.length import Length, Units, length_from_text
from hivecalc.stock import YARD_FILE, Yard, demo_yard, yard_from_file

WIDEST_KERF: Final = Length(1, 2)
"""No blade for wood takes more than that; a choice, so that a slip of the pen is told."""


def yard_beside(hive_file: Path) -> Yard:
    """The yard whose file lies beside a hive file, or the invented one where there is none.

    >>> yard_beside(Path("/nowhere/my-hive.toml")).currency
    'coins'

    Raises HiveFaults for a yard file that can't be read.
    """
    own = hive_file.with_name(YARD_FILE)
    if not own.exists():
        return demo_yard()
    try:
        yard = yard_from_file(own)
    except HiveFaults as error:
        raise HiveFaults(_by_name(error.faults, own)) from error
    return replace(yard, left_out=tuple(_by_name(yard.left_out, own)))


def _by_name(faults: Iterable[Fault], file: Path) -> list[Fault]:
    """The same faults with the file called by its name, and no folders before it."""
    return [
        replace(fault, place=fault.place.replace(seen(str(file)), file.name)) for fault in faults
    ]


def typed_kerf(hive_file: Path, units: Units) -> str:
    """The kerf of the yard beside a hive file as it can be typed, empty where it can't be read.

    >>> typed_kerf(Path("/nowhere/my-hive.toml"), "inch")
    '1/8 in'
    """
    try:
        kerf = yard_beside(hive_file).kerf
        return said_with_unit(kerf, units).removeprefix("≈ ")
    except HiveFaults:
        return ""


def with_kerf(yard: Yard, text: str, units: Units) -> Yard:
    """The same yard with a kerf that was typed; an empty text leaves it as it is.

    >>> str(with_kerf(demo_yard(), "3/32", "inch").kerf)
    '3/32'

    Raises LengthError, and HiveFaults for a kerf that no saw has.
    """
    if not text.strip():
        return yard
    kerf = length_from_text(text, units)
    if not 0 <= kerf <= WIDEST_KERF:
        found, most = (said_with_unit(size, units) for size in (kerf, WIDEST_KERF))
        raise HiveFaults([Fault("kerf", f"{found} is no saw's", f"type 0 to {most}")])
    return replace(yard, kerf=kerf)
