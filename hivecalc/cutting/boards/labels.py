"""From kinds back to pieces with their labels: the same labels together as far as can be."""

from collections import Counter
from collections.abc import Iterator

from hivecalc.cutting.boards.fitting import offcut, usable_length
from hivecalc.cutting.boards.plan import BoardPattern
from hivecalc.cutting.boards.problem import LEFT_OUT, Cutting, Pattern
from hivecalc.cutting.boards.task import Task
from hivecalc.cutting.wanted import Unplanned, Wanted
from hivecalc.length import Length

USED_UP = "the boards in stock are used up"


class Labels:
    """The labels of each kind, handed out in the order in which they were asked for.

    >>> from fractions import Fraction
    >>> rail, stop = Wanted("rail", Fraction(20), 2), Wanted("stop", Fraction(20), 1)
    >>> [piece.label for piece in Labels(((rail, stop),)).off(0, 3)]
    ['rail', 'rail', 'stop']
    """

    def __init__(self, pieces: tuple[tuple[Wanted, ...], ...]) -> None:
        self.queues = [self._each(group) for group in pieces]

    @staticmethod
    def _each(group: tuple[Wanted, ...]) -> Iterator[Wanted]:
        for piece in group:
            for _ in range(piece.count):
                yield piece

    def off(self, kind: int, count: int) -> list[Wanted]:
        """The next labels of a kind."""
        return [next(self.queues[kind]) for _ in range(count)]


def board_patterns(task: Task, cutting: Cutting, labels: Labels) -> Iterator[BoardPattern]:
    """The boards of a cutting with labels on the pieces; those at hand first, long pieces first."""
    boards = task.request.boards
    planned = (pattern for pattern in cutting if pattern.stock != LEFT_OUT)
    for pattern in sorted(planned, key=lambda p: (not boards[p.stock].at_hand, p.stock, p.pieces)):
        yield from _labelled(task, pattern, cutting[pattern], labels)


def _labelled(task: Task, pattern: Pattern, count: int, labels: Labels) -> Iterator[BoardPattern]:
    """Boards of one pattern; place by place each takes the next labels, so that most are alike."""
    rows: list[list[Wanted]] = [[] for _ in range(count)]
    for kind, pieces in pattern.pieces:
        for _ in range(pieces):
            for row, piece in zip(rows, labels.off(kind, count), strict=True):
                row.append(piece)
    board, request = task.request.boards[pattern.stock], task.request
    usable = usable_length(board, request.trim)
    sorted_rows = (tuple(sorted(row, key=_longest_first)) for row in rows)
    for row_of, alike in Counter(sorted_rows).items():
        shown = tuple((piece.label, piece.length) for piece in row_of)
        left = offcut(usable, [length for _, length in shown], request.kerf)
        yield BoardPattern(board, shown, alike, left)


def _longest_first(piece: Wanted) -> tuple[Length, str]:
    return -piece.length, piece.label


def left_out(cutting: Cutting, labels: Labels) -> Iterator[Unplanned]:
    """The pieces that a cutting leaves out, by label; to be asked for after the boards."""
    for pattern, count in cutting.items():
        if pattern.stock == LEFT_OUT:
            (kind, _), *_ = pattern.pieces
            names = Counter(piece.label for piece in labels.off(kind, count))
            yield from (Unplanned(name, n, USED_UP) for name, n in names.items())
