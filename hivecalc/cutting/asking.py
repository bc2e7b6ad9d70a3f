"""What is wrong with what was asked, for boards and sheets alike, one sentence a fault."""

from collections.abc import Iterable, Iterator

from hivecalc.hive import Fault
from hivecalc.length import Length, Units, with_unit
from hivecalc.stock import Board, SheetGoods


def faults_below_zero(name: str, length: Length, units: Units, accepted: str) -> Iterator[Fault]:
    """What is wrong with a kerf or a trim that is less than nothing.

    >>> from fractions import Fraction
    >>> [str(f) for f in faults_below_zero("kerf", Fraction(-1), "inch", "it is 0 or more")]
    ['kerf: −1 in is below zero; it is 0 or more.']
    """
    if length < 0:
        yield Fault(name, f"{with_unit(units, length)} is below zero", accepted)


def faults_of_size(place: str, name: str, size: Length, units: Units) -> Iterator[Fault]:
    """What is wrong with one side of a piece or of goods.

    >>> from fractions import Fraction
    >>> [str(f) for f in faults_of_size("rail", "length", Fraction(0), "inch")]
    ['rail: its length is 0 in; it must be more than 0.']
    """
    if size <= 0:
        yield Fault(place, f"its {name} is {with_unit(units, size)}", "it must be more than 0")


def faults_of_count(place: str, count: int | None) -> Iterator[Fault]:
    """What is wrong with how many there are; None is as many as are needed.

    >>> [str(f) for f in faults_of_count("rail", -1)]
    ['rail: its count is -1; it must be 0 or more.']
    """
    if count is not None and count < 0:
        yield Fault(place, f"its count is {count}", "it must be 0 or more")


def faults_of_many(counts: Iterable[int], most: int) -> Iterator[Fault]:
    """What is wrong with how many pieces there are in all.

    >>> [str(f) for f in faults_of_many([3, 4], most=5)]
    ['pieces: they are 7; 5 are planned at once; plan a part of them at a time.']
    """
    pieces = sum(max(0, count) for count in counts)
    if pieces > most:
        accepted = f"{most:,} are planned at once; plan a part of them at a time"
        yield Fault("pieces", f"they are {pieces:,}", accepted)


def faults_of_goods(place: str, goods: Board | SheetGoods) -> Iterator[Fault]:
    """What is wrong with the price and the count of goods.

    >>> from fractions import Fraction
    >>> rest = SheetGoods("rest", "foam", *map(Fraction, (1, 20, 30)), at_hand=True)
    >>> [str(f) for f in faults_of_goods("rest", rest)]
    ['rest: it is at hand without a count; write how many there are.']
    """
    if goods.price is not None and goods.price < 0:
        yield Fault(place, "its price is below zero", "it must be 0 or more, or left out")
    yield from faults_of_count(place, goods.count)
    if goods.at_hand and goods.count is None:
        yield Fault(place, "it is at hand without a count", "write how many there are")
