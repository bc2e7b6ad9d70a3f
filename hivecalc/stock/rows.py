"""Rows of a yard file made into goods; the faults of a row are noted in it."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Final, TypeVar

from hivecalc.hive.faults import Fault, RefusedError
from hivecalc.hive.measurements import Measurement
from hivecalc.hive.texts import nearest, quoted
from hivecalc.hive.values import line_of, value_of
from hivecalc.length import Length, Units, written
from hivecalc.stock import entries
from hivecalc.stock.goods import Board, Money, Package, SheetGoods
from hivecalc.stock.items import ITEMS
from hivecalc.stock.sizes import NOMINAL, Dressed

V = TypeVar("V")

BOARDS: Final[Mapping[str, Dressed | None]] = {**NOMINAL, "stud": None, "board": None}
"""What a row of boards may be of, and the size that goes without saying."""

SHEETS: Final = {"plywood": "plywood", "foam": "foam", "plastic": "sheet", "mesh": "mesh"}
"""What a row of sheets may be of, and what the parts call it."""

_SIZES: Final = ("name", "material", "thickness", "width", "length", "count")
_PACKAGE: Final = ("name", "item", "holds", "covers", "price")
_SORTS: Final = {"1": "board", "2": "stud"}
_INCH: Final = Fraction(1)
_UNKNOWN: Final = Dressed(_INCH, _INCH)
"""Size of a material that is told as unknown: none is asked for, as it may go without saying."""


@dataclass
class Row:
    """One row of a yard file: where it stands, what it says, and what is wrong with it."""

    place: str
    given: Mapping[str, object]
    units: Units
    faults: list[Fault] = field(default_factory=list)

    def only(self, *known: str) -> None:
        """Note a fault for each entry that no such row has."""
        strange = (name for name in self.given if name not in known)
        self.faults += (self._strange(name, known) for name in strange)

    def _strange(self, name: str, known: Sequence[str]) -> Fault:
        place = self.place.rstrip(",")
        if name in entries.TOP:
            accepted = "put it at the top of the file, above all rows"
            return Fault(f"{place} {name}", f"{name} stands in a row", accepted)
        near = nearest(name, known)
        hint = f"the nearest known name is {near}" if near else f"known are {', '.join(known)}"
        return Fault(place, f"{quoted(name)} is no known name", hint)

    def need(self, name: str, accepted: str) -> None:
        """Note a fault where an entry is missing."""
        if name not in self.given:
            self.faults.append(Fault(f"{self.place} {name}", "it is missing", accepted))

    def read(self, name: str, reader: Callable[[object], V], unread: V) -> V:
        """The value of an entry; `unread` where there is none, or where its fault is noted."""
        if name not in self.given:
            return unread
        try:
            return reader(self.given[name])
        except RefusedError as refused:
            self.faults.append(Fault(f"{self.place} {name}", *refused.args))
            return unread

    def number(self, known: Measurement, unsaid: Fraction | None = None) -> Fraction:
        """A length or a count; it may be missing only where one goes without saying."""
        if unsaid is None:
            example = "10" if known.kind == "count" else '"3 1/2"'
            self.need(known.name, f"write a line like {known.name} = {example}")
        unread = _INCH if unsaid is None else unsaid
        return self.read(known.name, lambda v: value_of(known, v, self.units), unread)

    def one_of(self, name: str, known: Iterable[str]) -> str:
        """A name that is one of those known, empty where it is not."""
        accepted = f"write one of {', '.join(known)}"
        self.need(name, accepted)
        return self.read(name, lambda v: entries.one_of(v, known, accepted), "")

    def named(self, material: str, *sizes: Length) -> str:
        """A name made of the material and the sizes, for goods that are given none."""
        said = " x ".join(written(size, self.units) for size in sizes)
        return f"{material} of {said} {'mm' if self.units == 'mm' else 'in'}"

    def price(self) -> Money | None:
        """The price, None where it is not known."""
        return self.read("price", entries.price_of, None)

    def count(self) -> int | None:
        """How many there are, None where there are enough."""
        return int(self.number(entries.COUNT, Fraction(0))) if "count" in self.given else None


def board(row: Row) -> Board:
    """Board that a row tells of.

    >>> found = board(Row("yard.toml, [[board]] 1", {"material": "2x4", "length": "8 ft"}, "inch"))
    >>> found.name, found.width
    ('2x4 of 96 in', Fraction(7, 2))
    """
    row.only(*_SIZES, "price", "straight")
    return replace(_board(row), price=row.price())


def _board(row: Row) -> Board:
    material = row.one_of("material", BOARDS)
    usual = BOARDS[material] if material else _UNKNOWN
    thickness = row.number(entries.THICKNESS, usual and usual.thickness)
    width = row.number(entries.SIDE, usual and usual.width)
    length = row.number(entries.BOARD_LENGTH)
    name = row.read("name", line_of, row.named(material, length))
    straight = row.read("straight", entries.yes_or_no, unread=True)
    sort, count = _SORTS.get(material[:1], material), row.count()
    return Board(name, sort, thickness, width, length, count=count, straight=straight)


def sheet(row: Row) -> SheetGoods:
    """Sheet that a row tells of.

    >>> half = {"material": "plywood", "thickness": "1/2", "width": "4 ft", "length": "4 ft"}
    >>> sheet(Row("yard.toml, [[sheet]] 1", half, "inch")).name
    'plywood of 1/2 x 48 x 48 in'
    """
    row.only(*_SIZES, "price")
    return replace(_sheet(row), price=row.price())


def _sheet(row: Row) -> SheetGoods:
    material = row.one_of("material", SHEETS)
    known = (entries.THICKNESS, entries.SIDE, entries.SHEET_LENGTH)
    thickness, width, length = (row.number(entry) for entry in known)
    usual = row.named(material, thickness, width, length)
    name = row.read("name", line_of, usual)
    sort = SHEETS.get(material, "")
    return SheetGoods(name, sort, thickness, width, length, count=row.count())


def at_hand(row: Row) -> Board | SheetGoods:
    """Offcut that a row tells of: a board or a sheet that costs nothing.

    >>> said = {"material": "2x4", "length": "31 1/2", "straight": False}
    >>> found = at_hand(Row("yard.toml, [[at_hand]] 1", said, "inch"))
    >>> found.length, found.count, found.price, found.straight
    (Fraction(63, 2), 1, Fraction(0, 1), False)
    """
    if row.given.get("material") in SHEETS:
        row.only(*_SIZES)
        return _offcut(_sheet(row))
    row.only(*_SIZES, "straight")
    if row.one_of("material", (*BOARDS, *SHEETS)):
        return _offcut(_board(row))
    return Board("", "", _INCH, _INCH, _INCH)


G = TypeVar("G", Board, SheetGoods)


def _offcut(goods: G) -> G:
    count = 1 if goods.count is None else goods.count
    return replace(goods, price=Fraction(0), count=count, at_hand=True)


def package(row: Row) -> Package:
    """Package that a row tells of.

    >>> box = {"item": "long_brad", "holds": 200, "price": "2.95"}
    >>> package(Row("yard.toml, [[package]] 1", box, "inch")).price
    Fraction(59, 20)
    """
    row.only(*_PACKAGE)
    item = row.one_of("item", ITEMS)
    spread = item in ITEMS and ITEMS[item].spread
    holds = row.number(entries.COVERS if spread else entries.HOLDS, None if item else _INCH)
    name = row.read("name", line_of, item.replace("_", " "))
    return Package(name, item, int(holds), row.price())
