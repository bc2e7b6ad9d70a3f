"""A yard from its file: every fault told at once, a bad offcut only at the cost of its own row."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final, TypeAlias

from hivecalc.hive.faults import Fault, refuse
from hivecalc.hive.files import data_in, file_faults, system_faults, text_of
from hivecalc.hive.texts import seen
from hivecalc.hive.toml import toml_table
from hivecalc.hive.values import kind_of, line_of
from hivecalc.length import Units
from hivecalc.stock import entries, rows
from hivecalc.stock.goods import Board, Package, SheetGoods
from hivecalc.stock.rows import Row
from hivecalc.stock.yard import END_TRIM, KERF, SPARE, Yard

Goods: TypeAlias = Board | SheetGoods | Package

A_YARD: Final = "name a yard file, or write a new one with `hivecalc new FILE --yard`"
SOME_MONEY: Final = "money"
"""The currency of a yard that names none."""

_UNITS: Final[Mapping[str, Units]] = {"inch": "inch", "mm": "mm"}
_READERS: Final[Mapping[str, Callable[[Row], Goods]]] = {
    "board": rows.board,
    "sheet": rows.sheet,
    "package": rows.package,
    "at_hand": rows.at_hand,
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

    >>> yard = yard_from_text('''
    ...     currency = "acorns"
    ...     [[board]]
    ...     material = "2x4"
    ...     length = "8 ft"
    ...     price = 3.95
    ... ''')
    >>> yard.boards[0].price
    Fraction(79, 20)

    place is what faults call the file. An offcut whose row has a fault, and goods of which there
    are none, are told in the yard's `left_out`. Raises HiveFaults with every other fault, in the
    file's order.
    """
    file = seen(place)
    read = _Read(file)
    yard = read.yard(toml_table(text, file))
    refuse(iter(read.faults), file)
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
        top.only(*entries.TOP, *_READERS)
        top.units = _UNITS.get(top.read("units", _unit, "inch"), "inch")
        currency = top.read("currency", line_of, SOME_MONEY)
        kerf, trim = top.number(entries.KERF, KERF), top.number(entries.END_TRIM, END_TRIM)
        spare = top.number(entries.SPARE, SPARE * 100) / 100
        self.faults += top.faults
        for sort in (name for name in table if name in _READERS):
            self._rows(sort, table[sort], top.units)
        boards = tuple(g for g in self.goods if isinstance(g, Board))
        sheets = tuple(g for g in self.goods if isinstance(g, SheetGoods))
        packages = tuple(g for g in self.goods if isinstance(g, Package))
        return Yard(currency, boards, sheets, packages, kerf, trim, spare, tuple(self.left_out))

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
                told.append(Fault(section, f"{kind_of(what)} stands here", accepted))

    def _row(self, row: Row, reader: Callable[[Row], Goods], told: list[Fault]) -> None:
        goods = reader(row)
        told += row.faults
        if isinstance(goods, Board | SheetGoods) and goods.count == 0:
            found = f"there are 0 of it, so “{goods.name}” is left out"
            self.left_out.append(Fault(f"{row.place} count", found, "write how many there are"))
        elif not row.faults:
            self.goods.append(goods)


def _unit(given: object) -> str:
    return entries.one_of(given, _UNITS, 'write "inch" or "mm"')
