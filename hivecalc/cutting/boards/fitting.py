"""What fits on a board, and what is left of it: the pieces, and a kerf for each cut."""

from collections.abc import Sequence
from fractions import Fraction

from hivecalc.length import Count, Length
from hivecalc.stock import Board


def pieces_of_one_length(usable: Length, length: Length, kerf: Length) -> Count:
    """How many pieces of one length a board gives.

    >>> pieces_of_one_length(Fraction(96), Fraction(15), Fraction(1, 8))
    6
    >>> pieces_of_one_length(Fraction(96), Fraction(16), Fraction(0))
    6

    In inches. Between two pieces a kerf is lost, and none after the last one if it ends at the
    board's end. So n pieces need n lengths and n - 1 kerfs: give the board one kerf more, and each
    piece takes its length and a kerf.
    """
    return max(0, int((usable + kerf) // (length + kerf)))


def usable_length(board: Board, trim: Length) -> Length:
    """Length of a board that pieces may come out of.

    >>> from hivecalc.stock import Board
    >>> stud = Board("8 ft stud", "stud", Fraction(3, 2), Fraction(7, 2), Fraction(96))
    >>> usable_length(stud, Fraction(1, 2))
    Fraction(191, 2)

    In inches. `trim` goes off one end of a bought board, kerf included, to make that end square
    and free of cracks. A board at hand has been cut before, so its whole length counts.
    """
    return board.length if board.at_hand else max(Fraction(0), board.length - trim)


def offcut(usable: Length, lengths: Sequence[Length], kerf: Length) -> Length:
    """Length of what is left when these pieces are cut off.

    >>> offcut(Fraction(96), [Fraction(47), Fraction(48)], Fraction(1, 8))
    Fraction(3, 4)
    >>> offcut(Fraction(96), [Fraction(48), Fraction(767, 16)], Fraction(1, 8))
    Fraction(0, 1)

    In inches. The cut after the last piece takes a kerf too, or all that is left if that is less.
    """
    return max(Fraction(0), usable - sum(lengths) - kerf * len(lengths))
