"""A separate check of a cutting plan, which knows only boards, pieces, kerf and trim.

It shares no sum with the search: it walks along each board, cut by cut.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from hivecalc.cutting.boards.plan import BoardPattern, BoardPlan
from hivecalc.cutting.wanted import Wanted
from hivecalc.length import Length, written
from hivecalc.stock import Board

if TYPE_CHECKING:  # it checks sheets with what stands here
    from hivecalc.cutting.sheets.plan import SheetPlan


def board_faults(
    plan: BoardPlan,
    wanted: Sequence[Wanted],
    boards: Sequence[Board],
    kerf: Length,
    trim: Length = Fraction(0),
) -> list[str]:
    """What is wrong with a plan, one sentence each; nothing if it can be cut as it stands.

    >>> stud = Board("8 ft stud", "stud", Fraction(3, 2), Fraction(7, 2), Fraction(96))
    >>> one = BoardPattern(stud, (("rail", Fraction(48)), ("rail", Fraction(48))), 1, Fraction(0))
    >>> plan = BoardPlan((one,), "boards", Fraction(1), proved=True)
    >>> board_faults(plan, [Wanted("rail", Fraction(48), 2)], [stud], Fraction(1, 8))
    ['8 ft stud: rail ends at 96 1/8 in, and the board at 96 in.']

    In inches. Every piece wanted must be cut or told as unplanned, none twice; no piece may end
    beyond its board, with a kerf between two pieces; no more boards may be used than there are; a
    straight piece needs a straight board; and the plan's bound may not be above the plan itself.
    """
    return [
        *_faults_of_pieces(plan, wanted),
        *_faults_of_stock(plan, boards),
        *(fault for pattern in plan.patterns for fault in _faults_of_board(pattern, kerf, trim)),
        *_faults_of_straightness(plan, wanted),
        *faults_of_bound(plan),
    ]


def _faults_of_pieces(plan: BoardPlan, wanted: Sequence[Wanted]) -> Iterator[str]:
    asked, cut = _asked(wanted), _cut(plan)
    for (label, length), count in (cut - asked).items():
        yield f"{label}: {count} more of {written(length)} in are cut than are wanted."
    told: Counter[str] = Counter()
    for missing in plan.unplanned:
        told[missing.label] += missing.count
    there, made = _by_label(asked), _by_label(cut)
    for label in there.keys() | told.keys():
        if made[label] + told[label] != there[label]:
            yield (
                f"{label}: {there[label]} are wanted, "
                f"{made[label]} are cut and {told[label]} told as unplanned."
            )


def _asked(wanted: Sequence[Wanted]) -> Counter[tuple[str, Length]]:
    asked: Counter[tuple[str, Length]] = Counter()
    for piece in wanted:
        asked[piece.label, piece.length] += piece.count
    return asked


def _cut(plan: BoardPlan) -> Counter[tuple[str, Length]]:
    cut: Counter[tuple[str, Length]] = Counter()
    for pattern in plan.patterns:
        for piece in pattern.pieces:
            cut[piece] += pattern.count
    return cut


def _by_label(pieces: Counter[tuple[str, Length]]) -> Counter[str]:
    labels: Counter[str] = Counter()
    for (label, _), count in pieces.items():
        labels[label] += count
    return labels


def _faults_of_stock(plan: BoardPlan, boards: Sequence[Board]) -> Iterator[str]:
    used: Counter[Board] = Counter()
    for pattern in plan.patterns:
        if pattern.count < 1:
            yield f"{pattern.board.name}: a pattern is cut {pattern.count} times."
        used[pattern.board] += pattern.count
    for board, count in used.items():
        if board not in boards:
            yield f"{board.name}: there is no such board in stock."
        there = [each.count for each in boards if each == board]
        if None not in there and count > sum(n or 0 for n in there):
            yield f"{board.name}: {count} are cut, and there are {sum(n or 0 for n in there)}."


def _faults_of_board(pattern: BoardPattern, kerf: Length, trim: Length) -> Iterator[str]:
    """Walk along one board: the trimmed end, a piece, a kerf, a piece, up to the last."""
    board, at = pattern.board, Fraction(0)
    if not board.at_hand:
        at += trim
    for label, length in pattern.pieces:
        if at > board.length - length:
            end, edge = written(at + length), written(board.length)
            yield f"{board.name}: {label} ends at {end} in, and the board at {edge} in."
        at += length + kerf
    rest = board.length - at if at < board.length else Fraction(0)
    if rest != pattern.offcut:
        told, left = written(pattern.offcut), written(rest)
        yield f"{board.name}: {told} in are told to be left over, and {left} in are."
    lengths = [length for _, length in pattern.pieces]
    if not lengths or lengths != sorted(lengths, reverse=True):
        yield f"{board.name}: its pieces are not told longest first."


def _faults_of_straightness(plan: BoardPlan, wanted: Sequence[Wanted]) -> Iterator[str]:
    """More pieces of a name and length out of crooked boards than may be crooked."""
    may: Counter[tuple[str, Length]] = Counter()
    for piece in wanted:
        may[piece.label, piece.length] += 0 if piece.straight else piece.count
    crooked: Counter[tuple[str, Length]] = Counter()
    for pattern in plan.patterns:
        for piece_cut in pattern.pieces:
            crooked[piece_cut] += 0 if pattern.board.straight else pattern.count
    for label, _ in crooked - may:
        yield f"{label}: it must be straight, and it is cut out of a crooked board."


def faults_of_bound(plan: "BoardPlan | SheetPlan") -> Iterator[str]:
    """What can't be true of a plan's bound, of boards or of sheets."""
    if plan.bound > plan.counted:
        yield f"The bound {plan.bound} is above what the plan takes, {plan.counted}."
    if plan.proved and plan.bound != plan.counted:
        yield f"The plan is told to be proved, but its bound {plan.bound} is below {plan.counted}."
