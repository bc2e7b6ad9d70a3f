"""From a block in whole numbers to the tree of cuts of a sheet, in exact lengths."""

from collections.abc import Iterator
from fractions import Fraction

from hivecalc.cutting.sheets.blocks import Block, Leaf, Pair, Way
from hivecalc.cutting.sheets.task import Room, Task
from hivecalc.cutting.sheets.tree import Offcut, Part, Piece, Split
from hivecalc.cutting.sheets.wanted import WantedSheet
from hivecalc.length import Length
from hivecalc.stock import SheetGoods


def tree_of(task: Task, sheet: SheetGoods, block: Block, pieces: Iterator[WantedSheet]) -> Part:
    """The cuts that free a block's pieces from a sheet, its edges trimmed first.

    `pieces` are those of the block, in its order.
    """
    inside = _Growing(task).part(block, task.request.room(sheet), pieces)
    return _trimmed(task, sheet, inside)


def _trimmed(task: Task, sheet: SheetGoods, inside: Part) -> Part:
    """Cuts that take the edges off, around what is inside of them."""
    request = task.request
    left, trim, room = request.left_trim(sheet), request.trims(sheet), request.room(sheet)
    tree = inside
    if trim:
        edge = _rest(trim - request.kerf)
        tree = Split("across", room.length, tree, edge)
        tree = Split("across", trim - request.kerf, edge, tree)
        tree = Split("along", room.width, tree, edge)
    if left:
        tree = Split("along", left - request.kerf, _rest(left - request.kerf), tree)
    return tree


def _rest(size: Length) -> Offcut | None:
    """What a cut leaves beyond the blade, if anything."""
    return Offcut() if size > 0 else None


class _Growing:
    """Lengths as they are: a size in the problem has a kerf in it."""

    def __init__(self, task: Task) -> None:
        self.scale, self.kerf = task.scale, task.request.kerf

    def part(self, block: Block, room: Room, pieces: Iterator[WantedSheet]) -> Part:
        """A block in the corner of a room, with what is beside and behind it cut off."""
        size = self._size(block)
        if isinstance(block, Leaf) and size == room:
            piece = next(pieces)
            return Piece(piece.label, size != (piece.width, piece.length))
        if isinstance(block, Pair) and room.cut(block.way, size.side(block.way)) == size:
            return self._parted(block, room, pieces)
        way = self._first(room, size)
        at = size.side(way)
        low = self.part(block, room.cut(way, at), pieces)
        return Split(way, at, low, _rest(room.side(way) - at - self.kerf))

    def _parted(self, pair: Pair, room: Room, pieces: Iterator[WantedSheet]) -> Split:
        """The low block cut off. The high one has all that is left, and is measured anew."""
        at = self._size(pair.low).side(pair.way)
        low = self.part(pair.low, room.cut(pair.way, at), pieces)
        rest = room.cut(pair.way, room.side(pair.way) - at - self.kerf)
        return Split(pair.way, at, low, self.part(pair.high, rest, pieces))

    def _size(self, block: Block) -> Room:
        return Room(*(side * self.scale - self.kerf for side in (block.width, block.length)))

    def _first(self, room: Room, size: Room) -> Way:
        """The way to cut first, so that the bigger rest stays in one piece."""
        if room.width == size.width or room.length == size.length:
            return "across" if room.width == size.width else "along"
        beside, behind = (
            max(r - s - self.kerf, Fraction(0)) for r, s in zip(room, size, strict=True)
        )
        return "along" if beside * room.length >= behind * room.width else "across"
