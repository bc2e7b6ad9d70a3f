"""A yard from its file: every fault told at once, a bad offcut only at the cost of its own row.

A yard file is TOML; `yard_text` is one with a note on everything that may stand in it.
"""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Final, TypeAlias, TypeVar

from hivecalc.hive.hive import kind_of_value, line_of, value_of
from hivecalc.hive.measurements import Kind, Measurement
from hivecalc.length import Length, Units, written
from hivecalc.stock import NOMINAL, Dressed
from hivecalc.support.faults import (
    Fault,
    HiveFaults,
    RefusedError,
    escaped,
    nearest,
    quoted,
    raise_faults,
)
from hivecalc.support.files import data_in, file_faults, system_faults, text_of, toml_table
from hivecalc.workshop.yard import ITEMS, Board, Money, Package, SheetGoods, Yard

_PRICE: Final = re.compile(r"[0-9]{1,7}(\.[0-9]{1,4})?")
_PER: Final = re.compile(r" *(?:per|/) *(ft|m)$")
_A_PRICE: Final = "write a number like 3.95, or leave the line out if the price is not known"


# A row: name, lowest, highest, meaning, reason for the range: common practice, no published source.
_Row: TypeAlias = tuple[str, str, str, str, str]


_NO_DEFAULT: Final[Mapping[Units, Fraction | None]] = {"inch": None, "mm": None}


def _entry(row: _Row, kind: Kind = "length") -> Measurement:
    name, low, high, meaning, reason = row
    ends = Fraction(low), Fraction(high)
    return Measurement(name, "chosen", _NO_DEFAULT, *ends, meaning, reason, kind)


CHOICES: Final[Mapping[str, Measurement]] = {
    entry.name: entry
    for entry in (
        _entry((
            "kerf", "1/64", "1/4", "Width of the cut that the saw leaves.",
            "Every saw turns some wood into dust, and no blade for this work is thicker.",
        )),
        _entry((
            "cut_margin", "0", "1/2", "What is added to each cut, so that no error adds up.",
            "More than half an inch a cut is no margin.",
        )),
        _entry((
            "end_trim", "0", "6", "What comes off both ends of a new board, to make them square.",
            "More than 6 in is no trimming.",
        )),
        _entry((
            "least_rip", "6", "48", "Shortest piece that is ripped on the saw.",
            "A shorter one turns between blade and fence.",
        )),
        _entry((
            "least_fence", "1/2", "6", "Least width between fence and blade.",
            "What is narrower can't be held and pushed past the blade.",
        )),
        _entry((
            "least_stop", "2", "24", "Shortest piece that is cut against a stop by a machine.",
            "Fingers hold a shorter one too near to the blade.",
        )),
        _entry((
            "longest_board", "24", "288", "Longest board that you can carry and handle.",
            "A shorter board gives no rail, and no longer one is sold.",
        )),
        _entry((
            "spare_percent", "0", "100", "Small goods bought beyond those counted, in percent.",
            "Twice as many as are counted will do for anybody.",
        ), "count"),
        _entry((
            "spare_boards", "0", "100", "Boards and sheets bought beyond those cut, in percent.",
            "Twice as many as are cut will do for anybody.",
        ), "count"),
        _entry((
            "minutes_a_setting", "0", "60", "Minutes to set the saw, cut scrap and measure it.",
            "Nobody takes an hour for it.",
        ), "count"),
    )
}  # fmt: skip
"""What a yard file says once about saw and hand, by name."""

TOP: Final = ("currency", "units", *CHOICES)
"""What a yard file says once, above all its rows."""

BOARD_LENGTH: Final = _entry((
    "length", "1", "288", "Length of the board.",
    "A shorter piece is no board, and no longer one is sold.",
))  # fmt: skip
THICKNESS: Final = _entry((
    "thickness", "1/100", "4", "Thickness.",
    "The thinnest wire is about this thin, and nothing of a hive is thicker.",
))  # fmt: skip
SIDE: Final = _entry((
    "width", "1/2", "72", "Width: of a sheet the way across the grain or the flutes.",
    "A narrower piece is a strip, and no wider sheet goes through a door.",
))  # fmt: skip
SHEET_LENGTH: Final = _entry((
    "length", "1", "1200", "Length, along the grain or the flutes.",
    "The longest roll of mesh is 100 ft.",
))  # fmt: skip
COUNT: Final = _entry((
    "count", "0", "100000", "How many there are; leave it out if there are enough.",
    "Nobody counts more than that.",
), "count")  # fmt: skip
HOLDS: Final = _entry((
    "holds", "1", "100000", "How many are in it.",
    "An empty package is none, and nobody counts more than that.",
), "count")  # fmt: skip
COVERS: Final = _entry((
    "covers", "1", "100000", "How much joint it is enough for.",
    "Less is no bottle, and more is a drum.",
))  # fmt: skip


def price_of(given: object, length: Length | None = None) -> Money:
    """Price that a yard file gives, exactly; that of goods with a length may be per foot or metre.

    >>> from hivecalc.support.files import Number
    >>> price_of("3.95"), price_of(Number("12.5")), price_of("0.55 per ft", Fraction(96))
    (Fraction(79, 20), Fraction(25, 2), Fraction(22, 5))

    Raises RefusedError for a word, for less than nothing, and for more than four decimals.
    """
    if not isinstance(given, str | int) or isinstance(given, bool):
        raise RefusedError(f"{kind_of_value(given)} stands here", _A_PRICE)
    text = given.strip(" ") if isinstance(given, str) else _digits(given)
    per = _PER.search(text) if length is not None else None
    number = text[: per.start()] if per else text
    if _PRICE.fullmatch(number):
        return Fraction(number) * (_in_units(length, per[1]) if per and length is not None else 1)
    below = text[:1] in {"-", "−"}
    what = "is below zero, and nobody pays you for taking it" if below else "is no price"
    raise RefusedError(f"{quoted(text)} {what}", _A_PRICE)


def _in_units(length: Length, unit: str) -> Fraction:
    """How many feet or metres a length in inches is, exactly."""
    import pint  # noqa: PLC0415 - loads slowly, and only a price per length needs it

    units: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)
    return Fraction(units.Quantity(length, "inch").to(unit).magnitude)


def _digits(number: int) -> str:
    """Return the digits of a number; of one too long to be a price it does not matter which."""
    return str(max(min(number, 10**9), -(10**9)))


def yes_or_no(given: object) -> bool:
    """Whether a row says true.

    Raises RefusedError for anything but true and false.
    """
    if not isinstance(given, bool):
        raise RefusedError(f"{kind_of_value(given)} stands here", "write true or false")
    return given


def one_of(given: object, known: Iterable[str], accepted: str) -> str:
    """Name that is one of those known.

    Raises RefusedError.
    """
    if not isinstance(given, str):
        raise RefusedError(f"{kind_of_value(given)} stands here", accepted)
    if given not in known:
        raise RefusedError(f"{quoted(given)} is not known here", accepted)
    return given


# ── rows ──────────────────────────────────────────────────────────────────────────────────────

V = TypeVar("V")
G = TypeVar("G", Board, SheetGoods)

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
        if name in TOP:
            accepted = "put it at the top of the file, above all rows"
            return Fault(f"{place} {name}", f"{name} stands in a row", accepted)
        near = nearest(name, known)
        hint = f"the nearest known name is {near}" if near else f"known are {', '.join(known)}"
        return Fault(place, f"{quoted(name)} is not a known name", hint)

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
        return self.read(name, lambda v: one_of(v, known, accepted), "")

    def named(self, material: str, *sizes: Length) -> str:
        """A name made of the material and the sizes, for goods that are given none."""
        said = " x ".join(written(size, self.units) for size in sizes)
        return f"{material} of {said} {'mm' if self.units == 'mm' else 'in'}"

    def price(self, length: Length | None = None) -> Money | None:
        """The price, None where it is not known."""
        return self.read("price", lambda given: price_of(given, length), None)

    def count(self) -> int | None:
        """How many there are, None where there are enough."""
        return int(self.number(COUNT, Fraction(0))) if "count" in self.given else None


def board(row: Row) -> Board:
    """Board that a row tells of."""
    row.only(*_SIZES, "price", "straight")
    made = _board(row)
    return replace(made, price=row.price(made.length))


def _board(row: Row) -> Board:
    material = row.one_of("material", BOARDS)
    usual = BOARDS[material] if material else _UNKNOWN
    thickness = row.number(THICKNESS, usual and usual.thickness)
    width = row.number(SIDE, usual and usual.width)
    length = row.number(BOARD_LENGTH)
    name = row.read("name", line_of, row.named(material, length))
    straight = row.read("straight", yes_or_no, unread=True)
    sort, count = _SORTS.get(material[:1], material), row.count()
    return Board(name, sort, thickness, width, length, count=count, straight=straight)


def sheet(row: Row) -> SheetGoods:
    """Sheet that a row tells of."""
    row.only(*_SIZES, "price")
    made = _sheet(row)
    return replace(made, price=row.price(made.length))


def _sheet(row: Row) -> SheetGoods:
    material = row.one_of("material", SHEETS)
    known = (THICKNESS, SIDE, SHEET_LENGTH)
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
    holds = row.number(COVERS if spread else HOLDS, None if item else _INCH)
    name = row.read("name", line_of, item.replace("_", " "))
    return Package(name, item, int(holds), row.price())


# ── the file ──────────────────────────────────────────────────────────────────────────────────

Goods: TypeAlias = Board | SheetGoods | Package

A_YARD: Final = "name a yard file, or write a new one with `hivecalc new FILE --yard`"
SOME_MONEY: Final = "money"
"""The currency of a yard that names none."""

_UNSAID: Final[Mapping[str, Fraction]] = {name: getattr(Yard, name) for name in CHOICES}
_UNITS: Final[Mapping[str, Units]] = {"inch": "inch", "mm": "mm"}
_READERS: Final[Mapping[str, Callable[[Row], Goods]]] = {
    "board": board,
    "sheet": sheet,
    "package": package,
    "at_hand": at_hand,
}


def yard_from_file(path: str | Path) -> Yard:
    """Yard that a file tells of.

    Raises HiveFaults with every fault, in the file's order, and for a file that cannot be read.
    """
    with system_faults(path, A_YARD):
        data = data_in(path)
    text = text_of(path, data, A_YARD)
    if not text.strip():
        raise file_faults(path, "this file is empty", A_YARD)
    return yard_from_text(text, str(path))


def yard_from_text(text: str, place: str = "yard.toml") -> Yard:
    """Yard that the text of a yard file tells of.

    place is what faults call the file. An offcut whose row has a fault, and goods of which there
    are none, are told in the yard's `left_out`. Raises HiveFaults with every other fault, in the
    file's order.
    """
    file = escaped(place)
    read = _Read(file)
    yard = read.yard(toml_table(text, file))
    raise_faults(iter(read.faults), file)
    return yard


@dataclass
class _Read:
    """What was read of a file so far: goods, faults that stop, and those that cost one row."""

    file: str
    goods: list[Goods] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)
    left_out: list[Fault] = field(default_factory=list)

    def yard(self, table: Mapping[str, object]) -> Yard:
        top = Row(f"{self.file},", table, "inch")
        top.only(*TOP, *_READERS)
        top.units = _UNITS.get(top.read("units", _unit, "inch"), "inch")
        currency = top.read("currency", line_of, SOME_MONEY)
        said = {name: top.number(known, _UNSAID[name]) for name, known in CHOICES.items()}
        self.faults += top.faults
        for sort in (name for name in table if name in _READERS):
            self._rows(sort, table[sort], top.units)
        boards = tuple(g for g in self.goods if isinstance(g, Board))
        sheets = tuple(g for g in self.goods if isinstance(g, SheetGoods))
        packages = tuple(g for g in self.goods if isinstance(g, Package))
        return Yard(
            currency, boards, sheets, packages, top.units, **said, left_out=tuple(self.left_out)
        )

    def _rows(self, sort: str, given: object, units: Units) -> None:
        """Read all rows of one sort; those of offcuts cost themselves only."""
        told = self.left_out if sort == "at_hand" else self.faults
        section, accepted = f"{self.file}, [[{sort}]]", f"write [[{sort}]] above each row of it"
        listed = given if isinstance(given, list) else [None]
        for number, row in enumerate(listed, 1):
            if isinstance(row, dict):
                self._row(Row(f"{section} {number}", row, units), _READERS[sort], told)
            else:
                what = given if row is None else row
                told.append(Fault(section, f"{kind_of_value(what)} stands here", accepted))

    def _row(self, row: Row, reader: Callable[[Row], Goods], told: list[Fault]) -> None:
        goods = reader(row)
        told += row.faults
        if isinstance(goods, Board | SheetGoods) and goods.count == 0:
            found = f"there are 0 of it, so “{goods.name}” is left out"
            self.left_out.append(Fault(f"{row.place} count", found, "write how many there are"))
        elif not row.faults:
            self.goods.append(goods)


def _unit(given: object) -> str:
    return one_of(given, _UNITS, 'write "inch" or "mm"')


# ── the shipped yard ──────────────────────────────────────────────────────────────────────────

SHIPPED: Final = Path(__file__).with_name("yard.toml")
"""The yard file that comes with the course."""

YARD_FILE: Final = "my-yard.toml"
"""Name of the learner's own yard file, which lies beside the hive file."""


def yard_text() -> str:
    """Text of a yard file with a note on everything in it; its prices are invented."""
    return SHIPPED.read_text(encoding="utf-8")


@cache
def demo_yard() -> Yard:
    """Yard that comes with the course; its prices are invented, in round numbers."""
    return yard_from_text(yard_text())


def yard_beside(hive_file: Path) -> Yard:
    """The yard whose file lies beside a hive file, or the invented one where there is none.

    >>> yard_beside(Path("/nowhere/my-hive.toml")).currency
    'coins'

    Faults call the file by its name, without its folders. Raises HiveFaults for a yard file that
    can't be read.
    """
    own = hive_file.with_name(YARD_FILE)
    if not own.exists():
        return demo_yard()
    try:
        yard = yard_from_file(own)
    except HiveFaults as error:
        raise HiveFaults(_by_name(error.faults, own)) from error
    return replace(yard, left_out=tuple(_by_name(yard.left_out, own)))


def _by_name(faults: Iterable[Fault], file: Path) -> list[Fault]:
    whole = escaped(str(file))
    return [replace(fault, place=fault.place.replace(whole, file.name)) for fault in faults]
