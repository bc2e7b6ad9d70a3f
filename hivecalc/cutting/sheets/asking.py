"""What is wrong with what was asked: pieces, sheets, kerf and trim, one sentence a fault."""

from collections.abc import Iterator, Sequence
from typing import Final

from hivecalc.cutting.asking import (
    faults_below_zero,
    faults_of_count,
    faults_of_goods,
    faults_of_many,
    faults_of_size,
)
from hivecalc.cutting.sheets.plan import SHEET_AIMS
from hivecalc.cutting.sheets.wanted import WantedSheet
from hivecalc.hive import Fault
from hivecalc.hive.texts import quoted
from hivecalc.length import Length, Units, with_unit
from hivecalc.stock import SheetGoods

MOST_PIECES: Final = 100_000
MOST_STOCKS: Final = 200


def faults_of_saw(
    wanted: Sequence[WantedSheet], kerf: Length, trim: Length, units: Units
) -> Iterator[Fault]:
    """What is wrong with the kerf and the trimmed edge.

    >>> from fractions import Fraction
    >>> [str(f) for f in faults_of_saw([], Fraction(1, 8), Fraction(1, 16), "inch")]
    ['trim: 1/16 in is less than the kerf; what is trimmed off an edge is 0, or 1/8 in or more.']
    """
    yield from faults_below_zero("kerf", kerf, units, "a kerf is 0 (a knife) or more")
    shortest = min((min(w.width, w.length) for w in wanted if w.count > 0), default=None)
    if shortest is not None and 0 < shortest <= kerf:
        found = f"{with_unit(units, kerf)} is as much as the narrowest piece or more"
        yield Fault("kerf", found, f"a kerf is less than {with_unit(units, shortest)} here")
    yield from faults_below_zero("trim", trim, units, "what is trimmed off an edge is 0 or more")
    if 0 < trim < kerf:
        found = f"{with_unit(units, trim)} is less than the kerf"
        accepted = f"what is trimmed off an edge is 0, or {with_unit(units, kerf)} or more"
        yield Fault("trim", found, accepted)


def faults_of_pieces(wanted: Sequence[WantedSheet], units: Units) -> Iterator[Fault]:
    """What is wrong with the pieces.

    >>> from fractions import Fraction
    >>> deck = WantedSheet("deck", Fraction(17), Fraction(0), -1)
    >>> for fault in faults_of_pieces([deck], "inch"):
    ...     print(fault)
    pieces, “deck”: its length is 0 in; it must be more than 0.
    pieces, “deck”: its count is -1; it must be 0 or more.
    """
    for piece in wanted:
        place = f"pieces, {quoted(piece.label)}"
        yield from _faults_of_sides(place, piece, units)
        yield from faults_of_count(place, piece.count)
    yield from faults_of_many((piece.count for piece in wanted), MOST_PIECES)


def _faults_of_sides(place: str, thing: WantedSheet | SheetGoods, units: Units) -> Iterator[Fault]:
    for name, size in (("width", thing.width), ("length", thing.length)):
        yield from faults_of_size(place, name, size, units)


def faults_of_sheets(sheets: Sequence[SheetGoods], units: Units) -> Iterator[Fault]:
    """What is wrong with the sheets.

    >>> from fractions import Fraction
    >>> rest = SheetGoods("rest", "foam", *map(Fraction, (1, 20, 30)), at_hand=True)
    >>> [str(f) for f in faults_of_sheets([rest], "inch")]
    ['sheets, “rest”: it is at hand without a count; write how many there are.']
    """
    if len(sheets) > MOST_STOCKS:
        accepted = f"{MOST_STOCKS} are planned with at once"
        yield Fault("sheets", f"there are {len(sheets):,} kinds of sheets", accepted)
    for sheet in sheets:
        place = f"sheets, {quoted(sheet.name)}"
        yield from _faults_of_sides(place, sheet, units)
        yield from faults_of_goods(place, sheet)


def faults_of_aim(aim: str) -> Iterator[Fault]:
    """What is wrong with the aim.

    >>> [str(f) for f in faults_of_aim("beauty")]
    ['aim: “beauty” is none; cost or sheets is accepted.']
    """
    if aim not in SHEET_AIMS:
        yield Fault("aim", f"{quoted(aim)} is none", f"{' or '.join(SHEET_AIMS)} is accepted")
