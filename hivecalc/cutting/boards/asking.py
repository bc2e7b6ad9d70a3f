"""What is wrong with what was asked: pieces, boards, kerf and trim, one sentence a fault."""

from collections.abc import Iterator, Sequence
from typing import Final

from hivecalc.cutting.asking import (
    faults_below_zero,
    faults_of_count,
    faults_of_goods,
    faults_of_many,
    faults_of_size,
)
from hivecalc.cutting.boards.plan import AIMS
from hivecalc.cutting.wanted import Wanted
from hivecalc.hive import Fault
from hivecalc.hive.texts import quoted
from hivecalc.length import Length, Units, with_unit
from hivecalc.stock import Board

MOST_PIECES: Final = 500_000
MOST_STOCKS: Final = 1000


def faults_of_saw(
    wanted: Sequence[Wanted], kerf: Length, trim: Length, units: Units
) -> Iterator[Fault]:
    """What is wrong with the kerf and the trimmed end.

    >>> from fractions import Fraction
    >>> [str(f) for f in faults_of_saw([], Fraction(-1), Fraction(0), "inch")]
    ['kerf: −1 in is below zero; a kerf is 0 (a knife) or more.']
    """
    yield from faults_below_zero("kerf", kerf, units, "a kerf is 0 (a knife) or more")
    lengths = [piece.length for piece in wanted if piece.length > 0 and piece.count > 0]
    if lengths and kerf >= min(lengths):
        found = f"{with_unit(units, kerf)} is as much as the shortest piece or more"
        accepted = f"a kerf is less than {with_unit(units, min(lengths))} here"
        yield Fault("kerf", found, accepted)
    yield from faults_below_zero("trim", trim, units, "what is trimmed off an end is 0 or more")


def faults_of_pieces(wanted: Sequence[Wanted], units: Units) -> Iterator[Fault]:
    """What is wrong with the pieces.

    >>> from fractions import Fraction
    >>> [str(f) for f in faults_of_pieces([Wanted("rail", Fraction(0))], "inch")]
    ['pieces, “rail”: its length is 0 in; it must be more than 0.']
    """
    for piece in wanted:
        place = f"pieces, {quoted(piece.label)}"
        yield from faults_of_size(place, "length", piece.length, units)
        yield from faults_of_count(place, piece.count)
    yield from faults_of_many((piece.count for piece in wanted), MOST_PIECES)


def faults_of_boards(boards: Sequence[Board], units: Units) -> Iterator[Fault]:
    """What is wrong with the boards.

    >>> from fractions import Fraction
    >>> stud = Board("stud", "stud", Fraction(3, 2), Fraction(7, 2), Fraction(96), Fraction(-1))
    >>> [str(f) for f in faults_of_boards([stud], "inch")]
    ['boards, “stud”: its price is below zero; it must be 0 or more, or left out.']
    """
    if len(boards) > MOST_STOCKS:
        accepted = f"{MOST_STOCKS:,} are planned with at once"
        yield Fault("boards", f"there are {len(boards):,} kinds of boards", accepted)
    for board in boards:
        place = f"boards, {quoted(board.name)}"
        yield from faults_of_size(place, "length", board.length, units)
        yield from faults_of_goods(place, board)


def faults_of_aim(aim: str) -> Iterator[Fault]:
    """What is wrong with the aim.

    >>> [str(f) for f in faults_of_aim("beauty")]
    ['aim: “beauty” is none; boards, cost or waste is accepted.']
    """
    if aim not in AIMS:
        yield Fault(
            "aim", f"{quoted(aim)} is none", f"{', '.join(AIMS[:-1])} or {AIMS[-1]} is accepted"
        )
