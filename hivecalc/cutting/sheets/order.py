"""The order in which to make the cuts of a sheet: of those that can be made, the longest first.

So the long rips come while the sheet is still big and lies well; then the parts, down to the small
ones.
"""

from collections.abc import Iterator
from heapq import heappop, heappush
from itertools import count
from string import ascii_uppercase
from typing import Final, NamedTuple, TypeAlias

from hivecalc.cutting.sheets.blocks import Way
from hivecalc.cutting.sheets.tree import Part, Piece, Rectangle, Split, halves
from hivecalc.length import Length

LETTERS: Final = len(ascii_uppercase)


class Result(NamedTuple):
    """What a cut leaves on one side of it, and where that lies.

    `what` is "piece", "part", "offcut" or "nothing"; `name` is the piece's label, or the letter of
    a part that is cut further.
    """

    what: str
    name: str
    where: Rectangle


class Cut(NamedTuple):
    """One cut: which part it cuts, which way, and how far from the part's left edge or near end.

    `part` is empty for the whole sheet. The blade runs beyond the mark, so `low` is as wide or as
    long as `at` says.
    """

    number: int
    part: str
    where: Rectangle
    way: Way
    at: Length
    low: Result
    high: Result

    @property
    def length(self) -> Length:
        """How long the cut is."""
        return self.where.length if self.way == "along" else self.where.width


def letters(number: int) -> str:
    """A letter for each number from 0 on, and two or more where there are not enough.

    >>> letters(0), letters(25), letters(26)
    ('A', 'Z', 'AA')
    """
    high, low = divmod(number, LETTERS)
    return (letters(high - 1) if high else "") + ascii_uppercase[low]


_Open: TypeAlias = tuple[Length, Length, Length, int, str, Split, Rectangle]


def ordered(tree: Part, whole: Rectangle, kerf: Length) -> Iterator[Cut]:
    """The cuts of a tree, numbered in the order to make them.

    >>> from fractions import Fraction
    >>> from hivecalc.cutting.sheets.tree import Offcut
    >>> sheet = Rectangle(*map(Fraction, (0, 0, 48, 96)))
    >>> tree = Split("across", Fraction(30), Split("along", Fraction(20), Piece("deck"), Offcut()),
    ...     Offcut())
    >>> [(cut.number, cut.part, cut.low.what, cut.high.what) for cut in ordered(tree, sheet, 0)]
    [(1, '', 'part', 'offcut'), (2, 'A', 'piece', 'offcut')]
    """
    return _Ordering(kerf).cuts(tree, whole)


class _Ordering:
    """The parts that can be cut next, and the letters given so far."""

    def __init__(self, kerf: Length) -> None:
        self.kerf = kerf
        self.open: list[_Open] = []
        self.number = count()
        self.letter = count()

    def cuts(self, tree: Part, whole: Rectangle) -> Iterator[Cut]:
        if isinstance(tree, Split):
            self._add("", tree, whole)
        for number in count(1):
            if not self.open:
                return
            *_, name, split, where = heappop(self.open)
            low, high = halves(split, where, self.kerf)
            results = self._result(split.low, low), self._result(split.high, high)
            yield Cut(number, name, where, split.way, split.at, *results)

    def _add(self, name: str, split: Split, where: Rectangle) -> None:
        """Take in a part that can be cut; longer cuts come first, then the ones further left."""
        length = where.length if split.way == "along" else where.width
        heappush(self.open, (-length, where.x, where.y, next(self.number), name, split, where))

    def _result(self, part: Part | None, where: Rectangle) -> Result:
        if part is None:
            return Result("nothing", "", where)
        if isinstance(part, Piece):
            return Result("piece", part.label, where)
        if not isinstance(part, Split):
            return Result("offcut", "", where)
        name = letters(next(self.letter))
        self._add(name, part, where)
        return Result("part", name, where)
