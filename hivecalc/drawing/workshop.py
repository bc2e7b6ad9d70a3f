"""Boards to hang at the saw, sheets with their pieces, and bars that compare what things cost."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Final

from hivecalc.drawing.canvas import (
    BOLD,
    CHANGED,
    HIDDEN,
    INK,
    MARGIN,
    PAPER,
    WIDTH,
    WOOD,
    WOODEN,
    Canvas,
    Finish,
    Hand,
    Pen,
    corners,
    figure,
)
from hivecalc.drawing.layout import ASCENT, DESCENT, LETTER, LINE, Point, text_width
from hivecalc.drawing.subject import View
from hivecalc.drawing.svg import Picture
from hivecalc.length import Units, in_either_unit
from hivecalc.space.solids import NOTHING, rectangle
from hivecalc.workshop.basket import on_mark
from hivecalc.workshop.boards import CutBoard
from hivecalc.workshop.sheets import Placed, Sheet
from hivecalc.workshop.yard import Yard

WIDE: Final = 1180.0
"""Width of the page of boards, in its own units."""

NARROW: Final = 760.0
"""Width of the boards of one hive, whose marks are short, so that letters are bigger."""

HEAD: Final = 150.0  # room for a board's number and name
BAR: Final = 2 * LINE + 2
ON_A_PAGE: Final = 20
REST: Final = Finish(HIDDEN, PAPER)
FILLED: Final = Finish(Pen(INK, 0.8), WOOD, "strip")
SHEET_WIDE, SHEET_HIGH = 520.0, 560.0


def boards_page(
    boards: Sequence[CutBoard],
    yard: Yard,
    *,
    name: str = "",
    wide: float = WIDE,
    beside: bool = True,
) -> Picture:
    """SVG picture of boards one below the other, full width, each piece with mark and length.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.workshop import demo_yard, plan
    >>> picture = boards_page(plan([demo_hive()], demo_yard()).boards, demo_yard())
    >>> picture.traced.count("data-mark='B-SR a'"), "B1" in picture
    (1, True)

    The left end is where the first cut squares the board; the dashed part is left over. A board's
    name stands beside it, or above it, where the picture is narrower by that.
    """
    head = HEAD if beside else 0.0
    canvas, top = Canvas(wide - HEAD + head), MARGIN
    longest = max((cut.board.length for cut in boards), default=Fraction(1))
    scale = (wide - HEAD - 2 * MARGIN) / float(longest)
    title = f"{name}: boards" if name else "Boards"
    top = canvas.paragraph(
        f"{title}. Write its number on each board and its mark on each piece. The longest comes "
        "off first, at the left, once the end is square.", top,
    )  # fmt: skip
    with canvas.view("boards", scale):
        for cut in boards:
            top = _board(canvas, cut, yard, (MARGIN + head, top + 4), scale) + 2
    words = "; ".join(
        f"{cut.number}, {cut.board.name}: {', '.join(item.mark for item in cut.items)}"
        for cut in boards
    )
    return canvas.picture(title, words or title, top + MARGIN)


def _board(canvas: Canvas, cut: CutBoard, yard: Yard, corner: Point, scale: float) -> float:
    left, top = corner
    right = left + float(cut.board.length) * scale
    canvas.text(cut.number, (MARGIN, top + ASCENT * LETTER), hand=BOLD)
    tight = "tight" if cut.tight else f"left {on_mark(cut.offcut, yard.units)}"
    if left > MARGIN:
        canvas.text(cut.board.name, (MARGIN + 42, top + ASCENT * LETTER))
        canvas.text(tight, (MARGIN + 42, top + ASCENT * LETTER + LINE))
    else:
        canvas.text(f"{cut.board.name}, {tight}", (MARGIN + 42, top + ASCENT * LETTER))
        top += LINE + 2
    canvas.polygon(corners(left, top, right, top + BAR), REST, {"board": cut.number})
    at = left + float(NOTHING if cut.board.at_hand else yard.end_trim) * scale
    for item in cut.items:
        end = at + float(item.length) * scale
        data = {"mark": item.mark, "exact": item.length}
        canvas.polygon(corners(at, top, end, top + BAR), WOODEN, data)
        size = in_either_unit(yard.units, item.length)
        if text_width(size) + 2 > end - at:
            size = size.rpartition(" ")[0]  # the unit stands with the board
        for line, words in enumerate((item.mark, size)):
            hand = BOLD if line == 0 and text_width(words, bold=True) < end - at else Hand()
            place = (at + end) / 2, top + ASCENT * LETTER + line * LINE
            canvas.text(words, place, "middle", hand)
        at = end + float(yard.cut) * scale
    return top + BAR


def sheet_picture(cut: Sheet, units: Units, *, name: str = "", titled: bool = True) -> Picture:
    """SVG picture of a sheet as it lies, its first cuts across it and its pieces with their marks.

    The sheet's length runs from left to right; you stand at its left end, and its left edge is at
    the top. Its title stands on it, unless it hangs below a heading that says the same.
    """
    canvas = Canvas(SHEET_WIDE)
    title = f"{cut.number}: {cut.goods.name}"
    top = canvas.paragraph(title, MARGIN, bold=True) + 4 if titled else MARGIN
    long, wide = cut.goods.length, cut.goods.width
    scale = min((SHEET_WIDE - 2 * MARGIN) / float(long), SHEET_HIGH / float(wide))
    view = View(MARGIN, top, scale, (NOTHING, long), (NOTHING, wide), down=True)
    with canvas.view("sheet", scale):
        whole = rectangle(view.u, view.v)
        view.draw(canvas, whole, replace(REST, hatch="grain"), {"part": "sheet"})
        for placed in cut.placed:
            _piece(canvas, placed, view, units)
        for strip in cut.strips:
            end = strip.at + strip.width + cut.kerf / 2
            if strip.at + strip.wide < cut.sides[0]:
                ends = ((0, end), (long, end)) if cut.way == "along" else ((end, 0), (end, wide))
                canvas.path(view.points(ends), Pen(CHANGED, 2.0, "8 3"))
    size = f"{figure(wide, units)} × {figure(long, units)}. Blue: the cuts straight across, first."
    bottom = canvas.paragraph(size, view.bottom + 4)
    words = "; ".join(placed.piece.mark for placed in cut.placed)
    return canvas.picture(title, words, bottom + MARGIN, name)


def _piece(canvas: Canvas, placed: Placed, view: View, units: Units) -> None:
    u, v = (placed.y, placed.y + placed.length), (placed.x, placed.x + placed.width)
    (left, right), (upper, lower) = map(view.x, u), map(view.y, v)
    data = {"mark": placed.piece.mark, "exact": placed.length}
    canvas.polygon(corners(left, upper, right, lower), WOODEN, data)
    wide, high = right - left, lower - upper
    mark = placed.piece.mark
    short = mark.removeprefix(f"{placed.piece.hive} ")
    for words, upright in ((mark, False), (mark, True), (short, False), (short, True)):
        room, across = (high, wide) if upright else (wide, high)
        if text_width(words, bold=True) < room and across + 3 > (ASCENT + DESCENT) * LETTER:
            break
    else:
        return
    middle = ((left + right) / 2, (upper + lower) / 2)
    if upright:
        place = middle[0] + 0.35 * LETTER, middle[1]
        canvas.text(words, place, "middle", Hand(bold=True, upright=True))
        return
    lines = [words]
    width, _, length = in_either_unit(units, placed.width, placed.length).partition(" × ")
    sizes = [f"{width} ×", length]
    if high > 3 * LINE and max(map(text_width, sizes)) + 4 < wide:
        lines += sizes
    first = middle[1] - (len(lines) - 1) * LINE / 2 + 0.35 * LETTER
    for number, line in enumerate(lines):
        canvas.text(line, (middle[0], first + number * LINE), "middle", Hand(bold=number == 0))


def bars(title: str, found: Sequence[tuple[str, Fraction, str]], *, name: str = "") -> Picture:
    """SVG picture of bars as long as what they stand for, the name and amount above each."""
    canvas, longest = Canvas(), max((amount for _, amount, _ in found), default=Fraction(1))
    scale = (WIDTH - 2 * MARGIN) / float(longest or 1)
    bottom = canvas.paragraph(title, MARGIN, bold=True)
    with canvas.view("bars", scale):
        for what, amount, said in found:
            top = canvas.paragraph(f"{what}: {said}", bottom + MARGIN) + 2
            bottom = top + 12
            bar = corners(MARGIN, top, MARGIN + float(amount) * scale, bottom)
            canvas.polygon(bar, FILLED, {"name": what, "exact": amount})
    words = "; ".join(f"{what}: {said}" for what, _, said in found)
    return canvas.picture(title, words or title, bottom + MARGIN, name)
