"""A separate check of a plan for sheets, which knows only sheets, pieces, kerf and trim.

It shares no sum with the search and none with the layouts' trees: it looks at the rectangles that
lie on each sheet, and finds by itself whether cuts from edge to edge can free them. Then it makes
the cuts in the order that is told, and sees what comes off.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from itertools import combinations
from operator import itemgetter
from typing import TypeAlias

from hivecalc.cutting.checking import faults_of_bound
from hivecalc.cutting.sheets.layout import Layout, Placed
from hivecalc.cutting.sheets.plan import SheetPlan
from hivecalc.cutting.sheets.wanted import WantedSheet
from hivecalc.length import Length, written
from hivecalc.stock import SheetGoods


def sheet_faults(  # noqa: PLR0913 - all that the saw and the yard decide
    plan: SheetPlan,
    wanted: Sequence[WantedSheet],
    sheets: Sequence[SheetGoods],
    kerf: Length,
    *,
    trim: Length = Fraction(0),
    keep_factory_edge: bool = False,
) -> list[str]:
    """What is wrong with a plan, one sentence each; nothing if it can be cut as it stands.

    >>> from hivecalc.cutting.sheets.tree import Piece
    >>> half = SheetGoods("half", "foam", *map(Fraction, (1, 24, 48)), Fraction(11))
    >>> plan = SheetPlan((Layout(half, 1, Piece("panel"), Fraction(0)),), Fraction(11), proved=True)
    >>> sheet_faults(plan, [WantedSheet("panel", Fraction(20), Fraction(48))], [half], Fraction(0))
    ['panel: 1 of 24 × 48 in are cut beyond those that are wanted.']

    In inches. Every piece wanted must be cut or told as unplanned, none twice; none may lie beyond
    its sheet or in what is trimmed off, over another one, or within a kerf of it; cuts from edge to
    edge must free them all; a piece that must not be turned lies along the sheet; no more sheets
    may be used than there are; and the plan's bound may not be above the plan itself.
    """
    edge = trim if not keep_factory_edge else Fraction(0)
    return [
        *_faults_of_pieces(plan, wanted),
        *_faults_of_turning(plan, wanted),
        *(_faults_of_edge(plan, wanted) if keep_factory_edge else ()),
        *_faults_of_stock(plan, sheets),
        *(
            fault
            for layout in plan.layouts
            for fault in _faults_of_layout(layout, kerf, trim, edge)
        ),
        *faults_of_bound(plan),
    ]


_Own: TypeAlias = tuple[str, Length, Length]


def _own(placed: Placed) -> _Own:
    """A piece's label and its own sides, however it lies."""
    if placed.turned:
        return placed.label, placed.length, placed.width
    return placed.label, placed.width, placed.length


def _cut(plan: SheetPlan, asked: Callable[[Layout, Placed], bool]) -> Counter[_Own]:
    """How many pieces of each label and size are cut, of those that are asked for."""
    found: Counter[_Own] = Counter()
    for layout in plan.layouts:
        for placed in layout.placed:
            found[_own(placed)] += layout.count if asked(layout, placed) else 0
    return found


def _wanted(wanted: Sequence[WantedSheet], asked: Callable[[WantedSheet], bool]) -> Counter[_Own]:
    found: Counter[_Own] = Counter()
    for piece in wanted:
        found[piece.label, piece.width, piece.length] += piece.count if asked(piece) else 0
    return found


def _faults_of_pieces(plan: SheetPlan, wanted: Sequence[WantedSheet]) -> Iterator[str]:
    cut = _cut(plan, lambda _layout, _placed: True)
    asked = _wanted(wanted, lambda _piece: True)
    for (label, width, length), count in (cut - asked).items():
        yield f"{label}: {count} of {_size(width, length)} are cut beyond those that are wanted."
    told: Counter[str] = Counter()
    for missing in plan.unplanned:
        told[missing.label] += missing.count
    for label in {own[0] for own in asked} | told.keys():
        made, needed = (
            sum(n for own, n in each.items() if own[0] == label) for each in (cut, asked)
        )
        if made + told[label] != needed:
            told_of = f"{made} are cut and {told[label]} told as unplanned"
            yield f"{label}: {needed} are wanted, {told_of}."


def _faults_of_turning(plan: SheetPlan, wanted: Sequence[WantedSheet]) -> Iterator[str]:
    turned = _cut(plan, lambda _layout, placed: placed.turned)
    for label, *_ in turned - _wanted(wanted, lambda piece: piece.turns):
        yield f"{label}: it must not be turned, and it lies across the sheet."


def _faults_of_edge(plan: SheetPlan, wanted: Sequence[WantedSheet]) -> Iterator[str]:
    """Pieces that should have a factory edge and lie elsewhere."""
    inside = _cut(plan, lambda layout, placed: placed.x > 0 or layout.sheet.at_hand)
    for label, *_ in inside - _wanted(wanted, lambda piece: not piece.factory_edge):
        yield f"{label}: it should have a factory edge, and it does not lie on the left edge."


def _faults_of_stock(plan: SheetPlan, sheets: Sequence[SheetGoods]) -> Iterator[str]:
    used: Counter[SheetGoods] = Counter()
    for layout in plan.layouts:
        if layout.count < 1:
            yield f"{layout.sheet.name}: it is cut {layout.count} times."
        used[layout.sheet] += layout.count
    for sheet, count in used.items():
        there = [each.count for each in sheets if each == sheet]
        if not there:
            yield f"{sheet.name}: there is no such sheet in stock."
        elif None not in there and count > sum(n or 0 for n in there):
            yield f"{sheet.name}: {count} are cut, and there are {sum(n or 0 for n in there)}."


def _faults_of_layout(
    layout: Layout, kerf: Length, trim: Length, left_trim: Length
) -> Iterator[str]:
    new = not layout.sheet.at_hand
    yield from _faults_of_border(layout, trim * new, left_trim * new)
    clashes = list(_faults_of_distance(layout, kerf))
    yield from clashes
    if not clashes and (stuck := _stuck(layout.placed, kerf)):
        labels = ", ".join(placed.label for placed in stuck)
        yield f"{layout.sheet.name}: no cut from edge to edge parts {labels}."
    yield from _faults_of_cuts(layout, kerf)


def _faults_of_border(layout: Layout, trim: Length, left_trim: Length) -> Iterator[str]:
    wide, long = layout.sheet.width - trim, layout.sheet.length - trim
    for label, x, y, width, length, _ in layout.placed:
        if x < left_trim or y < trim or x + width > wide or y + length > long:
            yield f"{layout.sheet.name}: {label} at {_size(x, y)} is beyond the edge."


def _faults_of_distance(layout: Layout, kerf: Length) -> Iterator[str]:
    """Pairs that lie over one another, or with no room for a cut between them."""
    for one, other in combinations(layout.placed, 2):
        beside = max(one.x, other.x) - min(one.x + one.width, other.x + other.width)
        behind = max(one.y, other.y) - min(one.y + one.length, other.y + other.length)
        if max(beside, behind) < kerf:
            what = (
                "lie over one another" if max(beside, behind) < 0 else "have no kerf between them"
            )
            yield f"{layout.sheet.name}: {one.label} and {other.label} {what}."


def _stuck(pieces: Sequence[Placed], kerf: Length) -> Sequence[Placed]:
    """Pieces that no cut from edge to edge of their part can part; none if all come free.

    Any cut that hits no piece may come first: what could be cut before can be cut after it.
    """
    if len(pieces) < 2:  # noqa: PLR2004 - one piece is free
        return ()
    for low, reach in ((itemgetter(1), itemgetter(3)), (itemgetter(2), itemgetter(4))):
        row = sorted(pieces, key=low)
        end = low(row[0]) + reach(row[0])
        for at, piece in enumerate(row[1:], start=1):
            if low(piece) >= end + kerf:
                return _stuck(row[:at], kerf) or _stuck(row[at:], kerf)
            end = max(end, low(piece) + reach(piece))
    return pieces


def _faults_of_cuts(layout: Layout, kerf: Length) -> Iterator[str]:
    """Make the cuts as they are told, each through a part that is there from edge to edge."""
    sheet = layout.sheet
    parts = Counter([(Fraction(0), Fraction(0), sheet.width, sheet.length)])
    for number, cut in enumerate(layout.cuts, start=1):
        x, y, width, length = cut.where
        if cut.number != number or not parts[cut.where]:
            yield f"{sheet.name}: cut {number} is through a part that is not there."
            return
        parts[cut.where] -= 1
        side = width if cut.way == "along" else length
        if not 0 <= cut.at < side:
            yield f"{sheet.name}: cut {number} lies beyond its part."
        rest = side - cut.at - kerf
        if cut.way == "along":
            halves = (x, y, cut.at, length), (x + cut.at + kerf, y, rest, length)
        else:
            halves = (x, y, width, cut.at), (x, y + cut.at + kerf, width, rest)
        parts.update(half for half in halves if half[2] > 0 and half[3] > 0)
    told = Counter(placed[1:5] for placed in layout.placed) + Counter(map(tuple, layout.offcuts))
    if +parts != told:
        yield f"{sheet.name}: the cuts do not leave the pieces and offcuts that are told."


def _size(width: Length, length: Length) -> str:
    return f"{written(width)} × {written(length)} in"
