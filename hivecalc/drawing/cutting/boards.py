"""Boards laid out with their pieces, all to one scale: numbered pieces, kerfs, offcuts."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from typing import Final, TypeAlias

from hivecalc.cutting import BoardPattern
from hivecalc.drawing.dimensions import Dim, depth, draw_dims, packed
from hivecalc.drawing.labels import Label, draw_labels
from hivecalc.drawing.layout import LINE
from hivecalc.drawing.svg import MARGIN, OUTLINE, PAPER, PENCIL, WIDTH, WOOD, Pen, Sheet, figure
from hivecalc.drawing.view import Look, View
from hivecalc.length import Length, Units

Kind: TypeAlias = tuple[str, Length]

TITLE: Final = "Boards with their pieces"
HIGH: Final = 26.0  # of a board on the sheet
LABEL_ROOM: Final = LINE + 14.0
AIR: Final = Fraction(1, 1000)
PIECE, REST = Look(OUTLINE, WOOD, "grain"), Look(Pen(PENCIL, 0.8, "4 3"), PAPER)
FIRST_WORDS: Final = "Each piece bears its number; the longest is cut first, at the left."
TRIM_WORDS: Final = "The dashed end at its left comes off before, so that the end is square."
ALONE: Final = 24.0  # so wide on the sheet is a piece that has a number to itself


def boards_cut_up(
    patterns: Sequence[BoardPattern],
    kerf: Length,
    trim: Length,
    *,
    units: Units = "inch",
    name: str = "",
) -> str:
    """SVG picture of boards with their pieces, true to scale along the boards, with a list below.

    >>> from hivecalc.stock import Board
    >>> stud = Board("8 ft stud", "stud", Fraction(3, 2), Fraction(7, 2), Fraction(96))
    >>> two = BoardPattern(stud, (("rail", Fraction(40)), ("rail", Fraction(40))), 1, Fraction(15))
    >>> picture = boards_cut_up([two], Fraction(1, 8), Fraction(1, 2))
    >>> picture.count('data-name="rail"'), "offcut 15 in" in picture
    (2, True)

    `trim` comes off the left end of a board that is not at hand. Lengths in inches, shown in
    `units`; the boards' width is drawn as is convenient.
    """
    return _Picture(tuple(patterns), kerf, trim, units).picture(name)


def numbered(patterns: Iterable[BoardPattern]) -> dict[Kind, int]:
    """The number of each kind of piece, from the first board's longest piece on.

    >>> numbered([])
    {}
    """
    kinds = dict.fromkeys(piece for pattern in patterns for piece in pattern.pieces)
    return {kind: number for number, kind in enumerate(kinds, 1)}


@dataclass(frozen=True)
class _Picture:
    patterns: tuple[BoardPattern, ...]
    kerf: Length
    trim: Length
    units: Units

    def picture(self, name: str) -> str:
        sheet, numbers = Sheet(), numbered(self.patterns)
        bottom = sheet.paragraph(TITLE, MARGIN, bold=True)
        bottom = sheet.paragraph(self._first_words, bottom)
        scale = self._scale
        for pattern in self.patterns:
            bottom = self._draw(sheet, pattern, numbers, bottom + MARGIN)
        told = [*self._listed(numbers)]
        for line in told:
            bottom = sheet.paragraph(line, bottom)
        title = f"{name}: {TITLE}" if name else TITLE
        words = " ".join((self._first_words, *map(self._heading, self.patterns), *told))
        return sheet.picture(title, words, bottom + MARGIN, scale)

    @property
    def _first_words(self) -> str:
        trimmed = self.trim and any(not p.board.at_hand for p in self.patterns)
        return f"{FIRST_WORDS} {TRIM_WORDS}" if trimmed else FIRST_WORDS

    @property
    def _scale(self) -> float:
        longest = max((p.board.length for p in self.patterns), default=Fraction(1))
        return (WIDTH - 2 * MARGIN) / float(longest)

    def _heading(self, pattern: BoardPattern) -> str:
        at_hand = ", at hand" if pattern.board.at_hand else ""
        return f"{pattern.count} × {pattern.board.name}{at_hand}"

    def _listed(self, numbers: dict[Kind, int]) -> Iterator[str]:
        for (label, length), number in numbers.items():
            yield f"{number}: {label}, {figure(length, self.units)}"

    def _draw(
        self, sheet: Sheet, pattern: BoardPattern, numbers: dict[Kind, int], top: float
    ) -> float:
        top = sheet.paragraph(self._heading(pattern), top, bold=True) + LABEL_ROOM
        scale, length = self._scale, pattern.board.length
        view = View(MARGIN, top, scale, (-AIR, length + AIR), (Fraction(0), Fraction(HIGH / scale)))
        placed = list(self._placed(pattern))
        with sheet.view("board", scale):
            view.draw(sheet, _bar(Fraction(0), length, view), REST, {"part": "board"})
            for (label, size), start in placed:
                data = {"name": label, "exact": size}
                view.draw(sheet, _bar(start, size, view), PIECE, data)
            rows = packed(self._dims(pattern, view), MARGIN, WIDTH - MARGIN)
            draw_dims(sheet, "bottom", view.bottom, rows)
        labels = [_label(numbers[kind], run, view) for kind, run in _runs(placed, ALONE / scale)]
        draw_labels(sheet, "top", view.top - 8, labels, (MARGIN, WIDTH - MARGIN))
        return view.bottom + depth(rows) + MARGIN

    def _placed(self, pattern: BoardPattern) -> Iterator[tuple[Kind, Length]]:
        """Each piece, and how far from the board's left end it begins."""
        start = Fraction(0) if pattern.board.at_hand else self.trim
        for piece in pattern.pieces:
            yield piece, start
            start += piece[1] + self.kerf

    def _dims(self, pattern: BoardPattern, view: View) -> Iterator[Dim]:
        length, offcut = pattern.board.length, pattern.offcut
        if offcut:
            yield self._dim("offcut", offcut, length - offcut, length, view)
        yield self._dim("board", length, Fraction(0), length, view)

    def _dim(self, word: str, exact: Length, low: Length, high: Length, view: View) -> Dim:
        return Dim(word, exact, (f"{word} {figure(exact, self.units)}",), view.x(low), view.x(high))


def _runs(
    placed: Sequence[tuple[Kind, Length]], least: float
) -> Iterator[tuple[Kind, tuple[Length, Length]]]:
    """Where each number belongs: to a piece at least so long, or to all that are alike in a row."""
    for kind, alike in groupby(placed, key=lambda one: one[0]):
        starts = [start for _, start in alike]
        alone = [(start, start + kind[1]) for start in starts]
        runs = alone if kind[1] >= least else [(starts[0], alone[-1][1])]
        yield from ((kind, run) for run in runs)


def _label(number: int, run: tuple[Length, Length], view: View) -> Label:
    low, high = map(view.x, run)
    return Label((str(number),), ((low + high) / 2, view.top), low, high)


def _bar(start: Length, length: Length, view: View) -> list[tuple[Length, Fraction | float]]:
    high = view.v[1]
    end = start + length
    return [(start, 0), (end, 0), (end, high), (start, high)]
