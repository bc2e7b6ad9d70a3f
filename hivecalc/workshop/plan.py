"""The plan of a batch: boards, strips, sheets, settings and basket, all of one making.

Buying, cutting and setting the saw are views of it, so they agree. The same hives and yard give
the same plan on any machine; its file holds them, so that it is made again and compared when it is
read: a plan that was cut short or changed by hand is refused.
"""

import json
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass, fields, replace
from fractions import Fraction
from functools import cached_property
from hashlib import sha256
from pathlib import Path
from typing import Any, Final

from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.length import MARKS, Length, Units, length_json
from hivecalc.support.files import file_faults, text_in
from hivecalc.workshop.basket import Basket, basket
from hivecalc.workshop.boards import Aim, Cut, CutBoard, CutItem, Unplanned, boards_cut, room
from hivecalc.workshop.needs import (
    STRAIGHT_OVER,
    Piece,
    Stock,
    Tagged,
    batch,
    needed,
    other_wood,
    stocks,
)
from hivecalc.workshop.settings import Setting, settings
from hivecalc.workshop.sheets import Sheet, sheets_cut
from hivecalc.workshop.strips import LONGEST_RIP, Blanks, ripped
from hivecalc.workshop.yard import Goods, Package, Yard, yard_in

SCHEMA: Final = "hivecalc-plan/1"
MANY: Final = 8_000  # of more pieces, blanks of one length only are tried

A_PLAN: Final = "make it again with `hivecalc plan FILE… --out PLAN.json`"


@dataclass(frozen=True)
class Plan:
    """One plan of a batch of hives at a yard.

    `warnings` come first wherever it is shown: wood that is not as it was measured.
    """

    hives: tuple[Tagged, ...]
    yard: Yard
    aim: Aim
    edge: frozenset[str]
    pieces: tuple[Piece, ...]
    lumber: tuple[Cut[CutBoard], ...]
    stock: tuple[Cut[Sheet], ...]
    blanks: tuple[Blanks, ...]
    settings: tuple[Setting, ...]
    basket: Basket
    unplanned: tuple[Unplanned, ...]
    warnings: tuple[str, ...]

    @property
    def units(self) -> Units:
        """The units that it is shown in."""
        return self.yard.units

    @property
    def is_whole(self) -> bool:
        """Whether the yard gives everything."""
        return not (self.unplanned or self.basket.missing)

    @property
    def cuts(self) -> "tuple[Cut[CutBoard] | Cut[Sheet], ...]":
        """How each stock is cut: kinds of lumber, then kinds of sheets."""
        return (*self.lumber, *self.stock)

    @property
    def boards(self) -> tuple[CutBoard, ...]:
        """All boards, numbered."""
        return tuple(board for cut in self.lumber for board in cut.goods)

    @property
    def sheets(self) -> tuple[Sheet, ...]:
        """All sheets, numbered."""
        return tuple(sheet for cut in self.stock for sheet in cut.goods)

    @cached_property
    def number(self) -> str:
        """The plan's number: the first signs of the hash of its hives, its yard and its choices."""
        data = {"hives": _hives_json(self.hives), "yard": _yard_json(self.yard)}
        data |= {"aim": self.aim, "edge": sorted(self.edge)}
        return sha256(json.dumps(data).encode()).hexdigest()[:8]

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
    >>> from hivecalc.workshop.yard import demo_yard
    >>> found = plan([demo_hive()], demo_yard())
    >>> [board.number for board in found.boards], found.sheets[0].number
    (['B1', 'B2', 'B3', 'B4'], 'S1')

    It buys at the least cost, or the fewest boards; `edge` names parts that shall have a side on
    the edge of a sheet as it came from the factory. Raises HiveFaults for no hive or too many.
    """
    tagged = batch(hives)
    yard = yard_in(yard, units_of((one.hive for one in tagged), yard.units))
    pieces = needed(tagged)
    by_tag = {one.tag: one.hive for one in tagged}
    found = stocks(pieces, yard)
    lumber, stock = list[Cut[CutBoard]](), list[Cut[Sheet]]()
    blanks, whole, left = list[Blanks](), list[Piece](), list[Unplanned]()
    of_boards, of_sheets = list[CutBoard](), list[Sheet]()
    for kind in found:
        if kind.sold is None:
            made = sheets_cut(kind, yard, aim, edge)
            first = len(of_sheets) + 1
            sheets = [replace(s, number=f"S{n}") for n, s in enumerate(made.goods, first)]
            stock.append(replace(made, goods=tuple(sheets)))
            of_sheets += sheets
            left += made.unplanned
            continue
        cut, strips, own, lost = boards_planned(kind, by_tag, yard, aim, 1 + len(blanks))
        order = sorted(cut.goods, key=lambda b: (not b.board.at_hand, -b.items[0].length))
        boards = [replace(b, number=f"B{n}") for n, b in enumerate(order, len(of_boards) + 1)]
        lumber.append(replace(cut, goods=tuple(boards)))
        of_boards += boards
        blanks += strips
        whole += own
        left += lost
    there = {item.mark for board in of_boards for item in board.items}
    crosscut = [piece for piece in whole if piece.mark in there]
    return Plan(
        tagged, yard, aim, edge, tuple(pieces), tuple(lumber), tuple(stock), tuple(blanks),
        settings(of_boards, blanks, crosscut, of_sheets, by_tag, yard),
        basket(of_boards, of_sheets, pieces, tagged, yard),
        tuple(left), tuple(dict.fromkeys(other_wood(tagged, found, yard.units))),
    )  # fmt: skip


def units_of(hives: Iterable[Hive], mixed: Units = "inch") -> Units:
    """The units of some hives; `mixed` where they differ."""
    first, *others = {hive.units for hive in hives}
    return mixed if others else first


def boards_planned(
    stock: Stock, hives: Mapping[str, Hive], yard: Yard, aim: Aim, first: int = 1
) -> tuple[Cut[CutBoard], list[Blanks], list[Piece], list[Unplanned]]:
    """The boards of one kind of lumber, its blanks, the pieces only crosscut, what it lacks.

    Blanks are numbered from `first` on. They are tried in several lengths, so that they divide the
    boards well: as long as is ripped, a half or a third of a board.
    """
    if not stock.goods:
        why = f"your yard has no {stock.name} up to the longest board that you can handle"
        none = Cut[CutBoard](stock, (), aim, Fraction(0), Fraction(0))
        return none, [], [], [Unplanned(p.mark, why) for p in stock.pieces]
    sold = [board for board in stock.goods if not board.at_hand]
    parts = {room(board, yard) / many - yard.cut for board in sold for many in (2, 3)}
    fitting = [size for size in parts if LONGEST_RIP / 2 <= size < LONGEST_RIP]
    lengths = [] if len(stock.pieces) > MANY else sorted(fitting, reverse=True)
    tries = []
    for most in (LONGEST_RIP, *lengths):
        blanks, whole, left = ripped(stock, hives, yard, first, most)
        items = [CutItem(p.mark, p.length, p.length > STRAIGHT_OVER) for p in whole]
        items += [item for blank in blanks for item in blank.items]
        cut = boards_cut(items, stock, yard, aim)
        tries.append((cut, blanks, whole, left))
        if cut.proved and not cut.unplanned:
            break
    cut, blanks, whole, left = min(tries, key=lambda one: (len(one[0].unplanned), one[0].counted))
    there, lost = _there(blanks, cut.unplanned)
    return cut, there, whole, [*left, *lost]


def _there(
    blanks: Sequence[Blanks], unplanned: Sequence[Unplanned]
) -> tuple[list[Blanks], list[Unplanned]]:
    """The blanks that come out of boards, and every piece that does not, blank by blank."""
    missing, why = Counter(left.mark for left in unplanned), dict(unplanned)
    numbers = {blank.number for blank in blanks}
    kept, lost = [], [left for left in unplanned if left.mark not in numbers]
    for blank in blanks:
        many = blank.count - missing[blank.number]
        strips = blank.strips[: many * blank.section.count]
        gone = (piece for strip in blank.strips[len(strips) :] for piece, _ in strip.pieces)
        lost += [Unplanned(piece.mark, why[blank.number]) for piece in gone]
        if strips:
            kept.append(replace(blank, count=many, strips=strips))
    return kept, lost


# ── its file ──────────────────────────────────────────────────────────────────────────────────


def plan_json(found: Plan) -> dict[str, object]:
    """A plan for its file and for other programs: what it was made for, and all that it says."""
    grid = MARKS[found.units]

    def sizes(**lengths: Length) -> dict[str, Any]:
        return {name: length_json(length, grid) for name, length in lengths.items()}

    return {
        "schema": SCHEMA, "number": found.number,
        "hives": _hives_json(found.hives), "yard": _yard_json(found.yard),
        "aim": found.aim, "factory_edge": sorted(found.edge),
        "warnings": [*found.warnings, *filter(None, [found.basket.instead])],
        "boards": [{
            "board": cut.number, "need": kind.stock.name,
            "stock": {"name": cut.board.name, **sizes(length=cut.board.length)},
            "pieces": [{"mark": i.mark, **sizes(length=i.length)} for i in cut.items],
            **sizes(offcut=cut.offcut), "tight": cut.tight,
        } for kind in found.lumber for cut in kind.goods],
        "strips": [{
            "strip": number, "blank": blank.number,
            **sizes(length=blank.length, thickness=blank.sides[0], width=blank.sides[1]),
            "tilt": blank.tilt,
            "pieces": [{"mark": p.mark, **sizes(length=length)} for p, length in pieces],
        } for blank in found.blanks for number, pieces in blank.strips],
        "sheets": [{
            "sheet": sheet.number,
            "stock": {"name": sheet.goods.name}
                     | sizes(width=sheet.goods.width, length=sheet.goods.length),
            "pieces": [{
                "mark": p.piece.mark, **sizes(x=p.x, y=p.y, width=p.width, length=p.length),
                "turned": p.turned,
            } for p in sheet.placed],
            "cuts": [{
                "stage": cut.stage, "way": cut.way, **sizes(at=cut.at), "count": cut.times,
                **sizes(takes_off=cut.off), "pieces": list(cut.marks),
            } for cut in sheet.cuts],
        } for sheet in found.sheets],
        "settings": [{
            "setting": s.number, "kind": s.kind.name, "machine": s.kind.machine,
            **sizes(distance=s.distance), "tilt": s.tilt, "told": s.sentence(found.units),
            "from": list(s.sources),
            "pieces": [{"mark": w.mark, "from": w.source, "count": w.times, "group": w.group}
                       for w in s.works],
            "cautions": [caution.text for caution in s.kind.cautions],
        } for s in found.settings],
        "basket": [{
            "sort": line.sort, "name": line.name, "count": line.count, "spare": line.spare,
            "price": _money(line.price), "cost": _money(line.cost),
            "left_over": list(line.left_over),
        } for line in found.basket.lines],
        "total": str(found.basket.total),
        "shares": {tag: str(share) for tag, share in found.basket.shares.items()},
        "bounds": [{
            "need": cut.stock.name, "aim": cut.aim, "counted": str(cut.counted),
            "bound": str(cut.bound), "proved": cut.proved,
        } for cut in found.cuts],
        "unplanned": [{"mark": mark, "why": why} for mark, why in found.unplanned],
        "missing": list(found.basket.missing),
    }  # fmt: skip


def _money(money: Fraction | None) -> str | None:
    return None if money is None else str(money)


def cut_json(found: Plan) -> dict[str, object]:
    """The cutting of a plan for other programs: its boards one by one, and how near to the best.

    `stock_used` and `bound` are what the aim counts of the boards, boards or money; beside them
    stand the plan's number, strips, sheets and bounds, as in the plan's own file.
    """
    whole = plan_json(found)
    kept = ("number", "aim", "warnings", "strips", "sheets", "bounds", "unplanned")
    boards: list[dict[str, object]] = whole["boards"]  # type: ignore[assignment]

    def count(numbers: Iterable[Fraction]) -> int | float:
        total = sum(numbers, Fraction(0))
        return int(total) if total.denominator == 1 else float(total)

    return {
        "schema": "hivecalc/1",
        "proved": all(cut.proved for cut in found.lumber),
        "bound": count(cut.bound for cut in found.lumber),
        "stock_used": count(cut.counted for cut in found.lumber),
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
    text, place = text_in(path, A_PLAN), str(path)
    if f'"{SCHEMA.partition("/")[0]}/' not in text:
        raise file_faults(path, "it is not a plan", A_PLAN.replace("it again", "one"))
    try:
        data = json.loads(text)
        if data.get("schema") != SCHEMA:
            raise _fault(place, f"it is not a plan of this version ({SCHEMA})")
        hives = [_hive(one) for one in data["hives"]]
        found = plan(hives, _yard(data["yard"]), data["aim"], frozenset(data["factory_edge"]))
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
    """Sentences on what is no longer as it was when a plan was made; none where it still fits."""
    texts = []
    before, now = (_hives_json(one) for one in (found.hives, batch(hives)))
    if len(before) != len(now):
        many = "1 hive" if len(before) == 1 else f"{len(before)} hives"
        texts.append(f"The plan is for {many}, and not for {len(now)}.")
    elif other := [n["name"] for old, n in zip(before, now, strict=True) if old != n]:
        changed = dict.fromkeys(other)
        texts += [f"{name} is not as it was when the plan was made." for name in changed]
    if yard is not None and _yard_json(yard) != _yard_json(found.yard):
        texts.append("The yard is not as it was when the plan was made.")
    return texts


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


def _hive(data: Mapping[str, Any]) -> Hive:
    given = (data["measured"], data["chosen"])
    measured, chosen = ({k: Fraction(v) for k, v in one.items()} for one in given)
    return Hive(str(data["name"]), data["units"], measured, chosen)


_GOODS: Final = {"boards": Goods, "sheets": Goods, "packages": Package}
_FRACTIONS: Final = frozenset(
    field.name
    for kind in (Yard, Goods, Package)
    for field in fields(kind)
    if "Fraction" in str(field.type)
)
"""What the file has as text, since JSON has no fractions."""


def _yard_json(yard: Yard) -> dict[str, object]:
    def said(row: Mapping[str, object]) -> dict[str, object]:
        return {k: str(v) if isinstance(v, Fraction) else v for k, v in row.items()}

    rows = {name: [said(asdict(row)) for row in getattr(yard, name)] for name in _GOODS}
    for sheet in rows["sheets"]:
        del sheet["straight"]
    for package in rows["packages"]:
        if package["length"] is None:
            del package["length"]
    top = {f.name: getattr(yard, f.name) for f in fields(yard) if f.name not in _GOODS}
    return {**said(top), **rows, "left_out": []}


def _yard(data: Mapping[str, Any]) -> Yard:
    def read(row: Mapping[str, object]) -> dict[str, Any]:
        exact = {k: Fraction(str(v)) for k, v in row.items() if k in _FRACTIONS and v is not None}
        return {**row, **exact}

    goods = {n: tuple(kind(**read(one)) for one in data[n]) for n, kind in _GOODS.items()}
    return Yard(**{**read(data), **goods, "left_out": ()})
