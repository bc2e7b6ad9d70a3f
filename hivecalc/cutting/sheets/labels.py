"""From whole numbers back to what a builder reads: layouts with labels."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain
from typing import Final

from hivecalc.cutting.sheets.blocks import leaves
from hivecalc.cutting.sheets.growing import tree_of
from hivecalc.cutting.sheets.layout import Layout
from hivecalc.cutting.sheets.packing import sheet_order
from hivecalc.cutting.sheets.problem import Cutting, Pattern, offcut
from hivecalc.cutting.sheets.task import Task
from hivecalc.cutting.sheets.tree import Part
from hivecalc.cutting.sheets.wanted import WantedSheet
from hivecalc.cutting.wanted import Unplanned

RAN_OUT: Final = "the sheets that there are were used up"


@dataclass(eq=False)
class _Waiting:
    """Pieces that are wanted, and how many of them have no place yet."""

    piece: WantedSheet
    left: int


class Labels:
    """The pieces of each kind that have no place yet; layouts give them one, in their order.

    What no layout has is `left_out` in the end.
    """

    def __init__(self, task: Task) -> None:
        self.task = task
        self.waiting = [[_Waiting(piece, piece.count) for piece in group] for group in task.groups]

    def layouts(self, cutting: Cutting) -> Iterator[Layout]:
        """The layouts of a cutting: sheets at hand first, and the one with most left over last."""
        for pattern, times in sorted(cutting.items(), key=self._place):
            sheet, trees = self.task.sheets[pattern.stock], Counter[Part]()
            for pieces, count in self._runs(pattern, times):
                trees[tree_of(self.task, sheet, pattern.block, iter(pieces))] += count
            for tree, count in trees.items():
                yield Layout(sheet, count, tree, self.task.request.kerf)

    def _place(self, item: tuple[Pattern, int]) -> tuple[int, int, tuple[int, ...]]:
        pattern = item[0]
        problem = self.task.problem
        over = offcut(problem.stocks[pattern.stock], pattern.block)
        return sheet_order(problem).index(pattern.stock), over, pattern.counts

    def _runs(self, pattern: Pattern, times: int) -> Iterator[tuple[list[WantedSheet], int]]:
        """The pieces of one sheet, and how many sheets running have the same ones."""
        while times:
            taken = [self._next(leaf.kind) for leaf in leaves(pattern.block)]
            each = Counter(taken)
            more = min(times - 1, *(waiting.left // n for waiting, n in each.items()))
            for waiting, n in each.items():
                waiting.left -= n * more
            yield [waiting.piece for waiting in taken], 1 + more
            times -= 1 + more

    def _next(self, kind: int) -> _Waiting:
        waiting = next(each for each in self.waiting[kind] if each.left)
        waiting.left -= 1
        return waiting

    def left_out(self) -> Iterator[Unplanned]:
        """Pieces that no layout has, when all are made, since there are not enough sheets."""
        for waiting in chain.from_iterable(self.waiting):
            if waiting.left:
                yield Unplanned(waiting.piece.label, waiting.left, RAN_OUT)
