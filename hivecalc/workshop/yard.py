"""What a yard sells and asks for it, and what a saw and a hand can do: all that a plan rests on.

Read from a file: every fault is listed at once, and a bad offcut costs its own row only. The
shipped file has a note on everything that may stand in one. Money is a Fraction of whatever the
user pays in, None where the price is not known.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Final, TypeAlias, TypeVar

from hivecalc.derivation import title
from hivecalc.hive.hive import kind_of_value, line_of, value_of
from hivecalc.hive.measurements import MEASUREMENTS, Measurement, entry
from hivecalc.length import (
    MILLIMETRE,
    MM,
    SIGN_OF,
    TENTH_MM,
    UNITS,
    Length,
    Rounding,
    Units,
    in_units,
    rounded,
    written,
)
from hivecalc.part import LEAST_RIP, NOMINAL, Dressed
from hivecalc.support.faults import (
    Fault,
    HiveFaults,
    RefusedError,
    escaped,
    nearest,
    nearest_or,
    quoted,
    raise_faults,
)
from hivecalc.support.files import file_faults, text_in, toml_table, write_whole

Money: TypeAlias = Fraction


@dataclass(frozen=True, slots=True)
class Goods:
    """Boards or sheets of one size, in inches; the grain, or the flutes, run along the length.

    `count` is how many there are, None as many as needed. What is at hand, like an offcut, has a
    count, costs nothing and is used first. `straight` says whether long pieces may come out of a
    board.
    """

    name: str
    material: str
    thickness: Length
    width: Length
    length: Length
    price: Money | None = None
    count: int | None = None
    at_hand: bool = False
    straight: bool = True


@dataclass(frozen=True, slots=True)
class Package:
    """Small goods by the package: what is in it, how many or how far it goes, and its price.

    `holds` counts pieces, or for glue the inches of joint that one tube covers. Fasteners whose
    length is not said count as being as long as a hive asks for.
    """

    name: str
    item: str
    holds: int
    price: Money | None = None
    length: Length | None = None


@dataclass(frozen=True, slots=True)
class SmallGoods:
    """One kind of small goods: its name for one and for several.

    What is spread is counted in inches of joint. Of what `gets_lost`, some more is bought than is
    counted.
    """

    one: str
    several: str
    spread: bool = False
    gets_lost: bool = True
    more: tuple[str, str] = ("", "")

    def named(self, count: int, size: str = "", units: Units = "inch") -> str:
        """So many of it in words, each of this size.

        >>> brad, glue = ITEMS["long_brad"], ITEMS["glue"]
        >>> brad.named(4, "1 1/4 in"), brad.named(1), glue.named(90)
        ('4 brads of 1 1/4 in', '1 brad', 'glue for 90 in of joint')
        """
        if self.spread and units == "mm":
            return f"{self.one} for {float(count / MM) / 1000:.1f} m of joint"
        if self.spread:
            return f"{self.one} for {count:,} in of joint"
        name, more = (self.one, self.more[0]) if count == 1 else (self.several, self.more[1])
        return f"{count:,} {name}{f' of {size}' * bool(size)}{more}"


ITEMS: Final[Mapping[str, SmallGoods]] = {
    "frame_screw": SmallGoods("screw", "screws"),
    "deck_screw": SmallGoods("deck screw", "deck screws"),
    "edge_screw": SmallGoods("screw for edge strips", "screws for edge strips"),
    "cover_screw": SmallGoods("cover screw", "cover screws"),
    "long_brad": SmallGoods("brad", "brads"),
    "short_brad": SmallGoods("brad", "brads"),
    "stop_brad": SmallGoods("brad", "brads"),
    "sheet_brad": SmallGoods("brad", "brads"),
    "hanger_bolt": SmallGoods(
        "hanger bolt", "hanger bolts", gets_lost=False,
        more=(" with washer and wing nut", " with washers and wing nuts"),
    ),
    "silicone": SmallGoods("dab of outdoor silicone", "dabs of outdoor silicone"),
    "glue": SmallGoods("glue", "glue", spread=True),
}  # fmt: skip
"""Every kind of small goods, by the name that a yard file and a hive file have for it."""


@dataclass(frozen=True)
class Yard:
    """What a yard sells, in which currency, what the saw takes, and what its user will do.

    Lengths in inches. The defaults are common practice, no published source; a machine's manual
    goes before each of them. `kerf` is what a cut takes, `cut_margin` what is added to each so
    that no error adds up, `end_trim` what comes off both ends of a new board. Nothing shorter than
    `least_rip` is ripped, nothing narrower than `least_fence` runs between fence and blade, and no
    piece shorter than `least_stop` is cut against a stop by a machine. No board longer than
    `longest_board` is bought. `left_out` tells which rows of the file are no part of the yard.
    """

    currency: str
    boards: tuple[Goods, ...]
    sheets: tuple[Goods, ...]
    packages: tuple[Package, ...]
    units: Units = "inch"
    kerf: Length = Fraction(1, 8)
    cut_margin: Length = Fraction(1, 32)
    end_trim: Length = Fraction(1, 2)
    least_rip: Length = LEAST_RIP
    least_fence: Length = Fraction(3, 4)
    least_stop: Length = Fraction(6)
    longest_board: Length = Fraction(144)
    spare_percent: Fraction = Fraction(10)
    spare_boards: Fraction = Fraction(5)
    minutes_a_setting: Fraction = Fraction(3)
    left_out: tuple[Fault, ...] = ()

    @property
    def cut(self) -> Length:
        """What one cut of the saw takes of a length, with its margin."""
        return self.kerf + self.cut_margin


# ── what an entry of the file may be: common practice, no published source ────────────────────

CHOICES: Final[Mapping[str, Measurement]] = {
    known.name: known
    for known in (
        entry("kerf", "1/64", "1/4", "Width of the cut that the saw leaves.",
              "Every saw turns some wood into dust, and no blade for this work is thicker."),
        entry("cut_margin", "0", "1/2", "What is added to each cut, so that no error adds up.",
              "More than half an inch a cut is waste."),
        entry("end_trim", "0", "6", "What comes off both ends of a new board, to make them "
              "square.", "More than 6 in of a board is waste."),
        entry("least_rip", "6", "48", "Shortest piece that is ripped on the saw.",
              "A shorter one turns between blade and fence, and no rail of a hive is longer."),
        entry("least_fence", "1/2", "6", "Least width between fence and blade.",
              "What is narrower can't be held and pushed past the blade, and no rail of a hive is "
              "much wider."),
        entry("least_stop", "2", "24", "Shortest piece that is cut against a stop by a machine.",
              "Fingers hold a shorter one too near to the blade, and most rails of a hive "
              "are not much longer."),
        entry("longest_board", "24", "288", "Longest board that you can carry and handle.",
              "A shorter board gives no rail, and no longer one is sold."),
        entry("spare_percent", "0", "100", "Small goods bought beyond those counted, in percent.",
              "Twice as many as are counted will do for anybody.", "count"),
        entry("spare_boards", "0", "100", "Boards and sheets bought beyond those cut, in percent.",
              "Twice as many as are cut will do for anybody.", "count"),
        entry("minutes_a_setting", "0", "60", "Minutes to set the saw, cut scrap and measure it.",
              "Nobody takes an hour for it.", "count"),
    )
}  # fmt: skip
"""What a yard file says once about saw and hand, by name."""


def yard_in(yard: Yard, units: Units) -> Yard:
    """The same yard for hives in these units: in mm, what saw and hand do is in whole mm, too.

    >>> from hivecalc.length import with_unit
    >>> sold = yard_in(demo_yard(), "mm")
    >>> [with_unit("mm", size) for size in (sold.kerf, sold.least_fence, sold.least_rip)]
    ['3.2 mm', '20 mm', '305 mm']

    A margin is never less than it was: it goes up to the next mm, or tenth of one below 10 mm.
    """
    said = {n: getattr(yard, n) for n, known in CHOICES.items() if known.kind == "length"}
    in_mm = {
        n: rounded(v, TENTH_MM if v < 10 * MM else MILLIMETRE, Rounding.UP) for n, v in said.items()
    }
    return replace(yard, units=units, **in_mm if units == "mm" else {})  # type: ignore[arg-type]


TOP: Final = ("currency", "units", *CHOICES)
"""What a yard file says once, above all its rows."""

THICKNESS, SIDE, BOARD_LENGTH, SHEET_LENGTH, COUNT, HOLDS, COVERS = (
    entry("thickness", "1/100", "4", "Thickness.",
          "The thinnest wire is about this thin, and nothing of a hive is thicker."),
    entry("width", "1/2", "72", "Width: of a sheet the way across the grain or the flutes.",
          "A narrower piece is a strip, and no wider sheet goes through a door."),
    entry("length", "1", "288", "Length of the board.",
          "A shorter piece is scrap, and longer boards are not sold."),
    entry("length", "1", "1200", "Length, along the grain or the flutes.",
          "The longest roll of mesh is 100 ft."),
    entry("count", "0", "100000", "How many there are; leave it out if there are enough.",
          "Nobody counts more than that.", "count"),
    entry("holds", "1", "100000", "How many are in it.",
          "An empty package is of no use, and nobody counts more than that.", "count"),
    entry("covers", "1", "100000", "How much joint it is enough for.",
          "Any tube covers more, and nobody buys glue by the drum."),
)  # fmt: skip
"""What a row of a yard file may say in figures."""

_PRICE: Final = re.compile(r"[0-9]{1,7}(\.[0-9]{1,4})?")
_PER: Final = re.compile(r" *(?:per|/) *(ft|m)$")
_A_PRICE: Final = "write a number like 3.95, or leave the line out if the price is not known"


def price_of(given: object, length: Length | None = None) -> Money:
    """Price that a yard file gives, exactly; that of goods with a length may be per foot or metre.

    >>> price_of("3.95"), price_of("0.55 per ft", Fraction(96))
    (Fraction(79, 20), Fraction(22, 5))

    Raises RefusedError for a word, for less than nothing, and for more than four decimals.
    """
    if not isinstance(given, str | int) or isinstance(given, bool):
        raise RefusedError(f"{kind_of_value(given)} stands here", _A_PRICE)
    # of a number too long to be a price it does not matter which it is
    text = given.strip(" ") if isinstance(given, str) else str(max(min(given, 10**9), -(10**9)))
    per = _PER.search(text) if length is not None else None
    number = text[: per.start()] if per else text
    if _PRICE.fullmatch(number):
        if per is None or length is None:
            return Fraction(number)
        import pint  # noqa: PLC0415 - loads slowly, and only a price per length needs it

        units: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)
        return Fraction(number) * units.Quantity(length, "inch").to(per[1]).magnitude
    below = text[:1] in {"-", "−"}
    what = "is below zero, and nobody pays you for taking it" if below else "is not a price"
    raise RefusedError(f"{quoted(text)} {what}", _A_PRICE)


def _yes_or_no(given: object) -> bool:
    if not isinstance(given, bool):
        raise RefusedError(f"{kind_of_value(given)} stands here", "write true or false")
    return given


def _one_of(given: object, known: Iterable[str], accepted: str) -> str:
    if not isinstance(given, str):
        raise RefusedError(f"{kind_of_value(given)} stands here", accepted)
    if given not in known:
        raise RefusedError(f"{quoted(given)} is not known here", accepted)
    return given


# ── rows ──────────────────────────────────────────────────────────────────────────────────────

V = TypeVar("V")

BOARDS: Final[Mapping[str, Dressed | None]] = {**NOMINAL, "stud": None, "board": None}
"""What a row of boards may be of, and the size that goes without saying."""

SHEETS: Final = {"plywood": "plywood", "foam": "foam", "plastic": "sheet", "mesh": "mesh"}
"""What a row of sheets may be of, and what the parts call it."""

_SORTS: Final = {"1": "board", "2": "stud"}
LUMBER: Final = frozenset({"board", "stud"})
"""What boards are of, as the parts call it; all else comes in sheets."""

_INCH: Final = Fraction(1)
_UNKNOWN: Final = Dressed(_INCH, _INCH)
"""Size of a material that is unknown: none is asked for, as it may go without saying."""


@dataclass
class _Row:
    """One row of a yard file, or the file's top: where it stands, what it says, its faults."""

    place: str
    given: Mapping[str, object]
    units: Units
    faults: list[Fault] = field(default_factory=list)

    def only(self, *known: str) -> None:
        """Note a fault for each entry that no such row has."""
        place = self.place.rstrip(",")
        for name in self.given:
            if name in known:
                continue
            if name in TOP:
                accepted = "put it at the top of the file, above all rows"
                self.faults.append(Fault(f"{place} {name}", f"{name} stands in a row", accepted))
            else:
                hint = nearest_or(nearest(name, known), f"known are {', '.join(known)}")
                self.faults.append(Fault(place, f"{quoted(name)} is not a known name", hint))

    def read(self, name: str, reader: Callable[[object], V], unread: V, needs: str = "") -> V:
        """The value of an entry; `unread` where there is none, or where its fault is noted.

        `needs` says what to write where it must not be missing.
        """
        if name not in self.given:
            if needs:
                self.faults.append(Fault(f"{self.place} {name}", "it is missing", needs))
            return unread
        try:
            return reader(self.given[name])
        except RefusedError as refused:
            self.faults.append(Fault(f"{self.place} {name}", *refused.args))
            return unread

    def number(self, known: Measurement, unsaid: Fraction | None = None) -> Fraction:
        """A length or a count; it may be missing only where one goes without saying."""
        example = "10" if known.kind == "count" else '"3 1/2"'
        needs = f"write a line like {known.name} = {example}" if unsaid is None else ""
        unread = _INCH if unsaid is None else unsaid
        return self.read(known.name, lambda v: value_of(known, v, self.units), unread, needs)

    def one_of(self, name: str, known: Iterable[str]) -> str:
        """A name that is one of those known, empty where it is not."""
        accepted = f"write one of {', '.join(known)}"
        return self.read(name, lambda v: _one_of(v, known, accepted), "", accepted)


def _goods(row: _Row, *, at_hand: bool = False) -> Goods:
    """Boards or sheets that a row tells of; what is at hand may be either."""
    sheet = row.given.get("material") in SHEETS if at_hand else "[[sheet]]" in row.place
    known: Mapping[str, object] = SHEETS if sheet else BOARDS
    row.only(
        "name", "material", "thickness", "width", "length", "count",
        *["price"] * (not at_hand), *["straight"] * (not sheet),
    )  # fmt: skip
    material = row.one_of("material", (*BOARDS, *SHEETS) if at_hand and not sheet else known)
    if at_hand and not material:
        return Goods("", "", _INCH, _INCH, _INCH)
    usual = None if sheet else BOARDS[material] if material else _UNKNOWN
    sizes = (
        row.number(THICKNESS, usual and usual.thickness),
        row.number(SIDE, usual and usual.width),
        row.number(SHEET_LENGTH if sheet else BOARD_LENGTH),
    )
    text = " x ".join(written(size, row.units) for size in (sizes if sheet else sizes[2:]))
    unnamed = f"{material} of {text} {SIGN_OF[row.units]}"
    name = row.read("name", line_of, unnamed)
    straight = sheet or row.read("straight", _yes_or_no, unread=True)
    count = int(row.number(COUNT, _INCH)) if "count" in row.given or at_hand else None
    price = Fraction(0) if at_hand else row.read("price", lambda v: price_of(v, sizes[2]), None)
    sort = SHEETS.get(material, "") if sheet else _SORTS.get(material[:1], material)
    return Goods(name, sort, *sizes, price, count, at_hand, straight)


def _package(row: _Row) -> Package:
    item = row.one_of("item", ITEMS)
    long = replace(MEASUREMENTS[item], name="length") if item in MEASUREMENTS else None
    row.only("name", "item", "holds", "covers", "price", *["length"] * (not item or bool(long)))
    spread = item in ITEMS and ITEMS[item].spread
    holds = row.number(COVERS if spread else HOLDS, None if item else _INCH)
    name = row.read("name", line_of, title(item))
    length = row.number(long) if long and "length" in row.given else None
    return Package(name, item, int(holds), row.read("price", price_of, None), length)


_READERS: Final[Mapping[str, Callable[[_Row], Goods | Package]]] = {
    "board": _goods,
    "sheet": _goods,
    "package": _package,
    "at_hand": lambda row: _goods(row, at_hand=True),
}


# ── the file ──────────────────────────────────────────────────────────────────────────────────

A_YARD: Final = "name a yard file, or write a new one with `hivecalc new FILE --yard`"
SOME_MONEY: Final = "money"
"""The currency of a yard that names none."""


def yard_from_file(path: str | Path) -> Yard:
    """Yard that a file tells of.

    Raises HiveFaults with every fault, in the file's order, and for a file that cannot be read.
    """
    return yard_from_text(text_in(path, A_YARD), str(path))


def yard_from_text(text: str, place: str = "yard.toml") -> Yard:
    """Yard that the text of a yard file tells of.

    place is what faults call the file. An offcut whose row has a fault, and goods of which there
    are none, stand in the yard's `left_out`. Raises HiveFaults with every other fault, in the
    file's order.
    """
    file = escaped(place)
    table = toml_table(text, file)
    names = table.keys() - {"units"}
    if names and not any(nearest(name, (*TOP, *_READERS)) for name in names):
        raise file_faults(place, "nothing of a yard stands in this file", A_YARD)
    top = _Row(f"{file},", table, "inch")
    top.only(*TOP, *_READERS)
    unit = top.read("units", lambda v: _one_of(v, UNITS, 'write "inch" or "mm"'), "inch")
    top.units = "mm" if unit == "mm" else "inch"
    currency = top.read("currency", line_of, SOME_MONEY)
    said = {name: top.number(known, getattr(Yard, name)) for name, known in CHOICES.items()}
    goods, left_out = list[Goods | Package](), list[Fault]()
    for sort in (name for name in table if name in _READERS):
        faults = left_out if sort == "at_hand" else top.faults
        for row in _rows(f"{file}, [[{sort}]]", table[sort], top.units, faults):
            made = _READERS[sort](row)
            faults += row.faults
            if isinstance(made, Goods) and made.count == 0:
                found = f"there are 0 of it, so “{made.name}” is left out"
                left_out.append(Fault(f"{row.place} count", found, "write how many there are"))
            elif not row.faults:
                goods.append(made)
    raise_faults(iter(top.faults), file)
    return Yard(
        currency,
        tuple(g for g in goods if isinstance(g, Goods) and g.material in LUMBER),
        tuple(g for g in goods if isinstance(g, Goods) and g.material not in LUMBER),
        tuple(g for g in goods if isinstance(g, Package)),
        top.units,
        **said,
        left_out=tuple(left_out),
    )


def _rows(section: str, given: object, units: Units, faults: list[Fault]) -> list[_Row]:
    found = []
    for number, row in enumerate(given if isinstance(given, list) else [None], 1):
        if isinstance(row, dict):
            found.append(_Row(f"{section} {number}", row, units))
        else:
            what = f"{kind_of_value(given if row is None else row)} stands here"
            accepted = f"write {section.rpartition(' ')[2]} above each row of it"
            faults.append(Fault(section, what, accepted))
    return found


_SHIPPED: Final = Path(__file__).with_name("yard.template")

YARD_FILE: Final = "my-yard.toml"
"""Name of the learner's own yard file, which lies beside the hive file."""


def yard_text(units: Units = "inch") -> str:
    """The yard file that comes with the course, with a note on everything: invented, in all.

    In mm it sells what a metric builder buys, not inches converted to mm.
    """
    return in_units(_SHIPPED.read_text(encoding="utf-8"), units)


@cache
def demo_yard(units: Units = "inch") -> Yard:
    """Yard that comes with the course, for hives in these units; its prices are invented."""
    return yard_from_text(yard_text(units))


def yard_beside(hive_file: Path, units: Units) -> Yard:
    """The yard whose file lies beside a hive file, or the invented one where there is none.

    Faults call the file by its name, without its folders. Raises HiveFaults for a yard file that
    can't be read.
    """
    own = hive_file.with_name(YARD_FILE)
    if not own.exists():
        return demo_yard(units)
    try:
        yard = yard_from_file(own)
    except HiveFaults as error:
        raise HiveFaults(_by_name(error.faults, own)) from error
    return replace(yard, left_out=tuple(_by_name(yard.left_out, own)))


def turn_yard(hive_file: Path, units: Units) -> None:
    """Make the yard file beside a hive file one in these units, if it is still as it was given."""
    own = hive_file.with_name(YARD_FILE)
    with suppress(OSError, UnicodeDecodeError):  # then it is not ours
        if own.read_text(encoding="utf-8") in map(yard_text, {*UNITS} - {units}):
            write_whole(own, yard_text(units))


def _by_name(faults: Iterable[Fault], file: Path) -> list[Fault]:
    whole = escaped(str(file))
    return [replace(fault, place=fault.place.replace(whole, file.name)) for fault in faults]
