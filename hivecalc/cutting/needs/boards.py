"""What to crosscut from lumber: whole pieces and blanks, and from which boards of the yard.

A piece with the section of a stud is only crosscut. Any other comes out of a blank that is ripped.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from hivecalc.cutting.boards import usable_length
from hivecalc.cutting.needs.pieces import Needed, Section, needed
from hivecalc.cutting.needs.ripping import Ripping
from hivecalc.cutting.strips import Blanks
from hivecalc.cutting.wanted import Unplanned, Wanted
from hivecalc.hive import Hive
from hivecalc.length import Length
from hivecalc.stock import Board, Yard

NEAR: Final = Fraction(1, 8)
"""How far lumber as measured may be from the yard's own size; common practice, no published source.

Lumber shrinks and swells by less, and the next size that is sold is further off.
"""

STRAIGHT_OVER: Final = Fraction(18)
"""Pieces longer than this come from straight boards; common practice, no published source.

A crooked board yields short pieces that are straight enough.
"""


@dataclass(frozen=True)
class BoardNeed:
    """What to crosscut from one kind of lumber, from which boards, and what is ripped from it.

    `wanted` holds the blanks among the whole pieces; `blanks` say how each is ripped and what comes
    out of it. `boards` are those of the yard that serve.
    """

    name: str
    wanted: tuple[Wanted, ...]
    boards: tuple[Board, ...]
    blanks: tuple[Blanks, ...] = ()
    unplanned: tuple[Unplanned, ...] = ()


def board_needs(hives: Iterable[Hive], yard: Yard) -> tuple[BoardNeed, ...]:
    """What to crosscut from lumber for one or several hives, a need for each kind of lumber.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> studs, boards = board_needs([demo_hive()], demo_yard())
    >>> studs.name, [(w.label, w.count) for w in studs.wanted][:2]
    ('stud of 1 1/2 × 3 1/2 in', [('bottom board side rail', 2), ('bottom board back rail', 1)])
    >>> [(str(b.length), b.count, b.made) for b in studs.blanks if b.made > 5]
    [('315/8', 1, 8)]

    Lengths in inches. Lumber as it was measured on several hives is one kind where the same boards
    of the yard serve for it. What the yard has no lumber for is left out and told. Raises
    HiveFaults where there is no hive.
    """
    sections: dict[Section, list[Needed]] = {}
    for piece in needed(hives):
        if piece.section:
            sections.setdefault(piece.section, []).append(piece)
    kinds: dict[tuple[Board, ...] | Section, list[Needed]] = {}
    for section, pieces in sections.items():
        kinds.setdefault(boards_for(section, yard) or section, []).extend(pieces)
    return tuple(_need(kind, pieces, yard) for kind, pieces in kinds.items())


def boards_for(section: Section, yard: Yard) -> tuple[Board, ...]:
    """The boards of a yard that serve for a section of lumber, as it comes or ripped to width.

    >>> from hivecalc.stock import demo_yard
    >>> measured = Section("stud", Fraction(25, 16), Fraction(57, 16))
    >>> [board.name for board in boards_for(measured, demo_yard())][:2]
    ['8 ft 2x4', '10 ft 2x4']
    >>> side = Section("board", Fraction(3, 4), Fraction(77, 8), sawn=True)
    >>> boards_for(side, demo_yard())[0].name
    '8 ft 1x12'

    Lumber counts as the one that was measured where its sizes are within 1/8 in. What is ripped to
    width comes from the narrowest boards that are wide enough, and from wider ones at hand.
    """
    like = [
        board
        for board in yard.boards
        if board.material == section.material and _near(board.thickness, section.thickness)
    ]
    as_it_comes = [board for board in like if _near(board.width, section.width)]
    if section.material == "stud" or (as_it_comes and not section.sawn):
        return tuple(as_it_comes)
    wide = [board for board in like if board.width >= section.width]
    width = min((board.width for board in wide if board.count is None), default=None)
    return tuple(b for b in wide if b.count is not None or b.width == width)


def _near(one: Length, other: Length) -> bool:
    return abs(one - other) <= NEAR


def _need(kind: tuple[Board, ...] | Section, pieces: Sequence[Needed], yard: Yard) -> BoardNeed:
    name = next(piece.section.named(piece.units) for piece in pieces if piece.section)
    if isinstance(kind, Section):
        why = f"your yard has no {name}{' or wider' if kind.sawn else ''}"
        left = tuple(Unplanned(p.label, p.count, why) for p in pieces)
        return BoardNeed(name, (), (), unplanned=left)
    longest = max(usable_length(board, yard.end_trim) for board in kind)
    ripping = Ripping(longest, yard.kerf)
    stock = [(piece, _as_sold(piece.section, kind)) for piece in pieces if piece.section]
    ripping.add((p, sold) for p, sold in stock if not _comes_as(p, sold))
    whole = [_whole(piece) for piece, sold in stock if _comes_as(piece, sold)]
    blanks = ripping.made
    cut = [Wanted(b.label, b.length, b.count, straight=True) for b in blanks if not b.rest_of]
    return BoardNeed(name, (*whole, *cut), kind, tuple(blanks), tuple(ripping.unplanned))


def _as_sold(section: Section, boards: tuple[Board, ...]) -> Section:
    """The section as it comes from the yard: as it was measured, or wider where it is ripped."""
    width = min(board.width for board in boards)
    if section.sawn or not _near(width, section.width):
        return replace(section, width=width)
    return section


def _comes_as(piece: Needed, sold: Section) -> bool:
    return (piece.thickness, piece.width) == (sold.thickness, sold.width)


def _whole(piece: Needed) -> Wanted:
    return Wanted(piece.label, piece.length, piece.count, piece.length > STRAIGHT_OVER)
