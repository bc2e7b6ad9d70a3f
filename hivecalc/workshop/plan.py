"""The plan of a batch: boards, strips, sheets, settings and basket, all of one making.

Buying, cutting and setting the saw are views of it, so they agree. The same hives and yard give
the same plan on any machine; its file holds them, so that it is made again and compared when it is
read: a plan that was cut short or changed by hand is told.
"""

import json
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass, fields, replace
from fractions import Fraction
from hashlib import sha256
from pathlib import Path
from typing import Final

from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.length import MILLIMETRE, SIXTEENTH, Length, Units, length_json
from hivecalc.support.files import data_in, system_faults, text_of
from hivecalc.workshop.basket import Basket, basket
from hivecalc.workshop.boards import Aim, BoardsCut, CutBoard, Item, Unplanned, boards_cut, room
from hivecalc.workshop.needs import (
    STRAIGHT_OVER,
    Lumber,
    Piece,
    SheetStock,
    Tagged,
    batch,
    lumber,
    needed,
    other_wood,
    sheet_stock,
)
from hivecalc.workshop.settings import Setting, settings
from hivecalc.workshop.sheets import Sheet, SheetsCut, sheets_cut
from hivecalc.workshop.sheets import numbered as numbered_sheets
from hivecalc.workshop.strips import LONGEST_RIP, Blanks, ripped
from hivecalc.workshop.yard import Board, Package, SheetGoods, Yard, told_in

SCHEMA: Final = "hivecalc-plan/1"
MANY: Final = 8_000
"""Of more pieces than that, blanks of one length only are tried."""

A_PLAN: Final = "make it again with `hivecalc plan FILE… --out PLAN.json`"


@dataclass(frozen=True)
class Boards:
    """The boards of one kind of lumber, their blanks, and how near to the best they are cut."""

    kind: Lumber
    cut: BoardsCut
    blanks: tuple[Blanks, ...]


@dataclass(frozen=True)
class Sheets:
    """The sheets of one material and thickness, and how near to the best they are cut."""

    kind: SheetStock
    cut: SheetsCut


@dataclass(frozen=True)
class Plan:
    """One plan of a batch of hives at a yard.

    `warnings` come first wherever it is shown: wood that is not as it was measured.
    """

    hives: tuple[Tagged, ...]
    yard: Yard
    aim: Aim
    edge: frozenset[str]
    lumber: tuple[Boards, ...]
    stock: tuple[Sheets, ...]
    settings: tuple[Setting, ...]
    basket: Basket
    unplanned: tuple[Unplanned, ...]
    warnings: tuple[str, ...]
    pieces: tuple[Piece, ...]

    @property
    def units(self) -> Units:
        """The units that it is told in."""
        return self.yard.units

    @property
    def kinds(self) -> tuple[Boards | Sheets, ...]:
        """Everything that is cut: kinds of lumber, then kinds of sheets."""
        return (*self.lumber, *self.stock)

    @property
    def boards(self) -> tuple[CutBoard, ...]:
        """All boards, numbered."""
        return tuple(board for kind in self.lumber for board in kind.cut.boards)

    @property
    def blanks(self) -> tuple[Blanks, ...]:
        """All blanks that are ripped."""
        return tuple(blank for kind in self.lumber for blank in kind.blanks)

    @property
    def sheets(self) -> tuple[Sheet, ...]:
        """All sheets, numbered."""
        return tuple(sheet for kind in self.stock for sheet in kind.cut.sheets)

    @property
    def number(self) -> str:
        """The plan's number: the first signs of the hash of its hives, its yard and its choices."""
        return fingerprint(self.hives, self.yard, self.aim, self.edge)[:8]

    @property
    def name(self) -> str:
        """What the plan is for, in words."""
        names = Counter(one.hive.name for one in self.hives)
        if len(names) > 3:  # noqa: PLR2004 - a heading has no room for more
            return f"{len(self.hives)} hives"
        return ", ".join(f"{name} × {n}" if n > 1 else name for name, n in names.items())


def plan(
    hives: Sequence[Hive], yard: Yard, aim: Aim = "cost", edge: frozenset[str] = frozenset()
) -> Plan:
    """The plan of some hives at a yard.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.workshop.yard_file import demo_yard
    >>> found = plan([demo_hive()], demo_yard())
    >>> [board.number for board in found.boards], found.sheets[0].number
    (['B1', 'B2', 'B3', 'B4'], 'S1')

    It buys at the least cost, or the fewest boards; `edge` names parts that shall have a side on
    the edge of a sheet as it came from the factory. Raises HiveFaults for no hive or too many.
    """
    tagged = batch(hives)
    yard = told_in(yard, _units(tagged, yard))
    pieces = needed(tagged)
    by_tag = {one.tag: one.hive for one in tagged}
    kinds = lumber(pieces, yard)
    cut_boards: list[Boards] = []
    whole: list[Piece] = []
    left: list[Unplanned] = []
    for kind in kinds:
        made, own = boards_planned(kind, by_tag, yard, aim, cut_boards)
        cut_boards.append(made[0])
        left += made[1]
        whole += own
    stock: list[Sheets] = []
    for sort in sheet_stock(pieces, yard):
        found = sheets_cut(sort, yard, aim, edge)
        first = 1 + sum(len(other.cut.sheets) for other in stock)
        stock.append(
            Sheets(sort, replace(found, sheets=tuple(numbered_sheets(found.sheets, first))))
        )
        left += found.unplanned
    boards, sheets = whole_boards(cut_boards), [s for kind in stock for s in kind.cut.sheets]
    blanks = [blank for kind in cut_boards for blank in kind.blanks]
    cut = {item.mark for board in boards for item in board.items}
    there = [piece for piece in whole if piece.mark in cut]
    by_sort = {
        "board": [piece for piece in pieces if piece.section],
        "sheet": [piece for piece in pieces if not piece.section],
    }
    return Plan(
        tagged,
        yard,
        aim,
        edge,
        tuple(cut_boards),
        tuple(stock),
        settings(boards, blanks, there, sheets, by_tag, yard),
        basket(boards, sheets, by_sort, tagged, yard),
        tuple(left),
        tuple(other_wood(tagged, kinds, yard.units)),
        tuple(pieces),
    )


def _units(hives: Iterable[Tagged], yard: Yard) -> Units:
    """The units that a plan is told in: those of its hives, or the yard's where they differ."""
    first, *others = {one.hive.units for one in hives}
    return yard.units if others else first


def whole_boards(kinds: Sequence[Boards]) -> list[CutBoard]:
    """All boards of some kinds of lumber."""
    return [board for kind in kinds for board in kind.cut.boards]


def boards_planned(
    kind: Lumber, hives: Mapping[str, Hive], yard: Yard, aim: Aim, before: Sequence[Boards]
) -> tuple[tuple[Boards, list[Unplanned]], list[Piece]]:
    """The boards of one kind of lumber, what it does not give, and the pieces only crosscut.

    Blanks of several lengths are tried, so that they divide the boards well.
    """
    if not kind.boards:
        why = f"your yard has no {kind.name} up to the longest board that you can handle"
        none = BoardsCut((), aim, Fraction(0), Fraction(0))
        return (Boards(kind, none, ()), [Unplanned(p.mark, why) for p in kind.pieces]), []
    first = 1 + sum(len(other.blanks) for other in before)
    tries = []
    for most in _lengths(kind, yard):
        blanks, whole, left = ripped(kind, hives, yard, first, most)
        items = [Item(p.mark, p.length, p.length > STRAIGHT_OVER) for p in whole]
        items += [item for blank in blanks for item in blank.items]
        found = boards_cut(items, kind.boards, yard, aim)
        tries.append((len(found.unplanned), found.counted, found, blanks, whole, left))
        if found.proved and not found.unplanned:
            break
    _, _, found, blanks, whole, left = min(tries, key=lambda one: one[:2])
    order = sorted(found.boards, key=lambda b: (not b.board.at_hand, -b.items[0].length))
    start = 1 + len(whole_boards(before))
    numbered = tuple(replace(board, number=f"B{n}") for n, board in enumerate(order, start))
    there, lost = _there(blanks, found.unplanned)
    return (Boards(kind, replace(found, boards=numbered), there), [*left, *lost]), whole


def _lengths(kind: Lumber, yard: Yard) -> list[Length]:
    """How long blanks may be at most: as long as is ripped, a half or a third of a board."""
    if len(kind.pieces) > MANY:
        return [LONGEST_RIP]
    halves = {room(board, yard) / 2 - yard.cut for board in kind.boards if not board.at_hand}
    thirds = {room(board, yard) / 3 - yard.cut for board in kind.boards if not board.at_hand}
    fitting = {size for size in halves | thirds if LONGEST_RIP / 2 <= size < LONGEST_RIP}
    return [LONGEST_RIP, *sorted(fitting, reverse=True)]


def _there(
    blanks: Sequence[Blanks], unplanned: Sequence[Unplanned]
) -> tuple[tuple[Blanks, ...], list[Unplanned]]:
    """The blanks that come out of boards, and every piece that does not, blank by blank."""
    missing = Counter(left.mark for left in unplanned)
    why = {left.mark: left.why for left in unplanned}
    numbers = {blank.number for blank in blanks}
    kept, lost = [], [left for left in unplanned if left.mark not in numbers]
    for blank in blanks:
        many = blank.count - missing[blank.number]
        strips = blank.strips[: many * blank.section.count]
        lost += [
            Unplanned(piece.mark, why[blank.number])
            for strip in blank.strips[len(strips) :]
            for piece, _ in strip.pieces
        ]
        if strips:
            kept.append(replace(blank, count=many, strips=strips))
    return tuple(kept), lost


# ── its file ──────────────────────────────────────────────────────────────────────────────────


def fingerprint(hives: Sequence[Tagged], yard: Yard, aim: Aim, edge: frozenset[str]) -> str:
    """The hash of what a plan is made for."""
    told = {"hives": _hives_json(hives), "yard": _yard_json(yard), "aim": aim, "edge": sorted(edge)}
    return sha256(json.dumps(told).encode()).hexdigest()


def plan_json(found: Plan) -> dict[str, object]:
    """A plan for its file and for other programs: what it was made for, and all that it says.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.workshop.yard_file import demo_yard
    >>> list(plan_json(plan([demo_hive()], demo_yard())))[:4]
    ['schema', 'number', 'hives', 'yard']
    """

    def size(length: Length) -> Mapping[str, object]:
        return length_json(length, MILLIMETRE if found.units == "mm" else SIXTEENTH)

    return {
        "schema": SCHEMA,
        "number": found.number,
        "hives": _hives_json(found.hives),
        "yard": _yard_json(found.yard),
        "aim": found.aim,
        "factory_edge": sorted(found.edge),
        "warnings": list(found.warnings),
        "boards": [
            {
                "board": cut.number,
                "need": kind.kind.name,
                "stock": {"name": cut.board.name, "length": size(cut.board.length)},
                "pieces": [{"mark": i.mark, "length": size(i.length)} for i in cut.items],
                "offcut": size(cut.offcut),
                "tight": cut.tight,
            }
            for kind in found.lumber
            for cut in kind.cut.boards
        ],
        "strips": [
            {
                "strip": strip.number,
                "blank": blank.number,
                "length": size(blank.length),
                "thickness": size(blank.sides[0]),
                "width": size(blank.sides[1]),
                "tilt": blank.tilt,
                "pieces": [{"mark": p.mark, "length": size(length)} for p, length in strip.pieces],
            }
            for blank in found.blanks
            for strip in blank.strips
        ],
        "sheets": [
            {
                "sheet": sheet.number,
                "stock": {
                    "name": sheet.goods.name,
                    "width": size(sheet.goods.width),
                    "length": size(sheet.goods.length),
                },
                "pieces": [
                    {
                        "mark": p.piece.mark,
                        "x": size(p.x),
                        "y": size(p.y),
                        "width": size(p.width),
                        "length": size(p.length),
                        "turned": p.turned,
                    }
                    for p in sheet.placed
                ],
                "cuts": [
                    {
                        "stage": cut.stage,
                        "way": cut.way,
                        "at": size(cut.at),
                        "count": cut.times,
                        "takes_off": size(cut.off),
                        "pieces": list(cut.marks),
                    }
                    for cut in sheet.cuts
                ],
            }
            for sheet in found.sheets
        ],
        "settings": [
            {
                "setting": s.number,
                "kind": s.kind,
                "machine": s.machine,
                "distance": size(s.distance),
                "tilt": s.tilt,
                "told": s.told(found.units),
                "from": list(s.sources),
                "pieces": [
                    {"mark": w.mark, "from": w.source, "count": w.times, "group": w.group}
                    for w in s.works
                ],
                "cautions": [caution.text for caution in s.cautions],
            }
            for s in found.settings
        ],
        "basket": [
            {
                "sort": line.sort,
                "name": line.name,
                "count": line.count,
                "spare": line.spare,
                "price": None if line.price is None else str(line.price),
                "cost": None if line.cost is None else str(line.cost),
                "left_over": list(line.left_over),
            }
            for line in found.basket.lines
        ],
        "total": str(found.basket.total),
        "shares": {tag: str(share) for tag, share in found.basket.shares.items()},
        "bounds": [
            {
                "need": kind.kind.name,
                "aim": kind.cut.aim,
                "counted": str(kind.cut.counted),
                "bound": str(kind.cut.bound),
                "proved": kind.cut.proved,
            }
            for kind in found.kinds
        ],
        "unplanned": [{"mark": mark, "why": why} for mark, why in found.unplanned],
        "missing": list(found.basket.missing),
    }


def cut_json(found: Plan) -> dict[str, object]:
    """The cutting of a plan for other programs: its boards one by one, and how near to the best.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.workshop.yard_file import demo_yard
    >>> list(cut_json(plan([demo_hive()], demo_yard())))[:5]
    ['schema', 'proved', 'bound', 'stock_used', 'plans']

    `stock_used` and `bound` are what the aim counts of the boards, boards or money; beside them
    stand the plan's number, strips, sheets and bounds, as in the plan's own file.
    """
    whole = plan_json(found)
    bound, used = (
        sum((getattr(k.cut, counted) for k in found.lumber), Fraction(0))
        for counted in ("bound", "counted")
    )
    kept = ("number", "aim", "warnings", "strips", "sheets", "bounds", "unplanned")
    boards: list[dict[str, object]] = whole["boards"]  # type: ignore[assignment]
    return {
        "schema": "hivecalc/1",
        "proved": all(k.cut.proved for k in found.lumber),
        "bound": int(bound) if bound.denominator == 1 else float(bound),
        "stock_used": int(used) if used.denominator == 1 else float(used),
        "plans": [{"count": 1, **board} for board in boards],
        **{name: whole[name] for name in kept},
    }


def plan_text(found: Plan) -> str:
    """A plan as the text of its file."""
    return json.dumps(plan_json(found), ensure_ascii=True, indent=1) + "\n"


def plan_from_file(path: str | Path) -> Plan:
    """The plan of a file, made again from the hives and the yard in it.

    Raises HiveFaults for a file that can't be read, is of another version, or was changed by hand.
    """
    with system_faults(path, A_PLAN):
        data = data_in(path)
    text, place = text_of(path, data, A_PLAN), str(path)
    try:
        told = json.loads(text)
        if told.get("schema") != SCHEMA:
            raise _fault(place, f"it is no plan of this version ({SCHEMA})")
        hives = [_hive(one) for one in told["hives"]]
        found = plan(hives, _yard(told["yard"]), told["aim"], frozenset(told["factory_edge"]))
    except HiveFaults:
        raise
    except (ValueError, KeyError, TypeError, AttributeError, IndexError, RecursionError,
            ZeroDivisionError):  # fmt: skip
        raise _fault(place, "it was cut short or changed, and can't be read") from None
    if plan_text(found) != text:
        raise _fault(place, "it was changed by hand, or made by another version")
    return found


def _fault(place: str, what: str) -> HiveFaults:
    return HiveFaults([Fault(place, what, A_PLAN)])


def changes_since(found: Plan, hives: Sequence[Hive], yard: Yard | None = None) -> list[str]:
    """Sentences on what is no longer as it was when a plan was made; none where it still fits.

    >>> from hivecalc.hive import changed, demo_hive
    >>> from hivecalc.workshop.yard_file import demo_yard
    >>> old = plan([demo_hive()], demo_yard())
    >>> changes_since(old, [demo_hive()]), len(changes_since(old, [demo_hive()] * 2))
    ([], 1)
    """
    told = []
    before, now = (_hives_json(one) for one in (found.hives, batch(hives)))
    if len(before) != len(now):
        told.append(f"The plan is for {len(before)} hives, and here are {len(now)}.")
    else:
        names = [n["name"] for old, n in zip(before, now, strict=True) if old != n]
        told += [f"{name} is not as it was when the plan was made." for name in names]
    if yard is not None and _yard_json(yard) != _yard_json(found.yard):
        told.append("The yard is not as it was when the plan was made.")
    return told


def _hives_json(hives: Sequence[Tagged]) -> list[dict[str, object]]:
    return [
        {
            "tag": one.tag,
            "name": one.hive.name,
            "units": one.hive.units,
            "measured": {name: str(value) for name, value in one.hive.measured.items()},
            "chosen": {name: str(value) for name, value in one.hive.chosen.items()},
        }
        for one in hives
    ]


def _hive(told: Mapping[str, object]) -> Hive:
    given = (told["measured"], told["chosen"])
    measured, chosen = ({k: Fraction(v) for k, v in one.items()} for one in given)  # type: ignore[attr-defined]
    return Hive(str(told["name"]), told["units"], measured, chosen)  # type: ignore[arg-type]


_EXACT: Final = frozenset({
    "thickness", "width", "length", "price", "kerf", "cut_margin", "end_trim", "least_rip",
    "least_fence", "least_stop", "longest_board", "spare_percent", "spare_boards",
    "minutes_a_setting",
})  # fmt: skip
_GOODS: Final = {"boards": Board, "sheets": SheetGoods, "packages": Package}


def _yard_json(yard: Yard) -> dict[str, object]:
    rows = {name: [_exact(asdict(row)) for row in getattr(yard, name)] for name in _GOODS}
    return {
        **_exact({f.name: getattr(yard, f.name) for f in fields(yard) if f.name not in _GOODS}),
        **rows,
        "left_out": [],
    }


def _exact(row: Mapping[str, object]) -> dict[str, object]:
    return {k: str(v) if isinstance(v, Fraction) else v for k, v in row.items()}


def _yard(told: Mapping[str, object]) -> Yard:
    def row(given: Mapping[str, object]) -> dict[str, object]:
        return {
            k: Fraction(str(v)) if k in _EXACT and v is not None else v for k, v in given.items()
        }

    goods = {
        name: tuple(kind(**row(one)) for one in told[name])  # type: ignore[attr-defined]
        for name, kind in _GOODS.items()
    }
    said = {k: v for k, v in row(told).items() if k not in _GOODS}
    return Yard(**{**said, **goods, "left_out": ()})  # type: ignore[arg-type]
