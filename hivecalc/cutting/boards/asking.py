"""What is wrong with what was asked: pieces, boards, kerf and trim, one sentence a fault."""

from collections.abc import Iterator, Sequence
from typing import Final

from hivecalc.cutting.boards.plan import AIMS
from hivecalc.cutting.wanted import Wanted
from hivecalc.hive import Fault
from hivecalc.hive.texts import quoted
from hivecalc.length import Length, Units, written
from hivecalc.stock import Board

MOST_PIECES: Final = 500_000
MOST_STOCKS: Final = 1000


def inches_or_mm(length: Length, units: Units) -> str:
    """Length with its unit, for a sentence.

    >>> from fractions import Fraction
    >>> inches_or_mm(Fraction(1, 8), "inch"), inches_or_mm(Fraction(5, 127), "mm")
    ('1/8 in', '1 mm')
    """
    return f"{written(length, units)} {'in' if units == 'inch' else 'mm'}"


def faults_of_saw(
    wanted: Sequence[Wanted], kerf: Length, trim: Length, units: Units
) -> Iterator[Fault]:
    """What is wrong with the kerf and the trimmed end.

    >>> from fractions import Fraction
    >>> [str(f) for f in faults_of_saw([], Fraction(-1), Fraction(0), "inch")]
    ['kerf: −1 in is below zero; a kerf is 0 (a knife) or more.']
    """
    if kerf < 0:
        found = f"{inches_or_mm(kerf, units)} is below zero"
        yield Fault("kerf", found, "a kerf is 0 (a knife) or more")
    lengths = [piece.length for piece in wanted if piece.length > 0 and piece.count > 0]
    if lengths and kerf >= min(lengths):
        found = f"{inches_or_mm(kerf, units)} is as much as the shortest piece or more"
        accepted = f"a kerf is less than {inches_or_mm(min(lengths), units)} here"
        yield Fault("kerf", found, accepted)
    if trim < 0:
        found = f"{inches_or_mm(trim, units)} is below zero"
        yield Fault("trim", found, "what is trimmed off an end is 0 or more")


def faults_of_pieces(wanted: Sequence[Wanted], units: Units) -> Iterator[Fault]:
    """What is wrong with the pieces.

    >>> from fractions import Fraction
    >>> [str(f) for f in faults_of_pieces([Wanted("rail", Fraction(0))], "inch")]
    ['pieces, “rail”: its length is 0 in; it must be more than 0.']
    """
    for piece in wanted:
        place = f"pieces, {quoted(piece.label)}"
        if piece.length <= 0:
            found = f"its length is {inches_or_mm(piece.length, units)}"
            yield Fault(place, found, "it must be more than 0")
        if piece.count < 0:
            yield Fault(place, f"its count is {piece.count}", "it must be 0 or more")
    pieces = sum(max(0, piece.count) for piece in wanted)
    if pieces > MOST_PIECES:
        accepted = f"{MOST_PIECES:,} are planned at once; plan a part of them at a time"
        yield Fault("pieces", f"they are {pieces:,}", accepted)


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
        if board.length <= 0:
            found = f"its length is {inches_or_mm(board.length, units)}"
            yield Fault(place, found, "it must be more than 0")
        if board.price is not None and board.price < 0:
            yield Fault(place, "its price is below zero", "it must be 0 or more, or left out")
        if board.count is not None and board.count < 0:
            yield Fault(place, f"its count is {board.count}", "it must be 0 or more")
        if board.at_hand and board.count is None:
            yield Fault(place, "it is at hand without a count", "write how many there are")


def faults_of_aim(aim: str) -> Iterator[Fault]:
    """What is wrong with the aim.

    >>> [str(f) for f in faults_of_aim("beauty")]
    ['aim: “beauty” is none; boards, cost or waste is accepted.']
    """
    if aim not in AIMS:
        yield Fault(
            "aim", f"{quoted(aim)} is none", f"{', '.join(AIMS[:-1])} or {AIMS[-1]} is accepted"
        )
