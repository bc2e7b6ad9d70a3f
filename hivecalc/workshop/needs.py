"""The pieces of a batch of hives, one by one as they are marked on the wood, and what they come of.

A batch is some hives, each with the short tag that its pieces carry. A piece is rounded on its
hive's grid by its dimension's rule; a size of the stock itself stays as it was measured.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby
from typing import Final, NamedTuple

from hivecalc.components import DIMENSIONS, of_stock, parts, values
from hivecalc.derivation import title
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.length import MILLIMETRE, SIXTEENTH, Grid, Length, Units, rounded, with_unit
from hivecalc.part import Material, Size
from hivecalc.part import Piece as Listed
from hivecalc.workshop.yard import Board, SheetGoods, Yard

MOST_HIVES: Final = 2_000
"""So many hives are planned at once; nobody teaches a larger class."""

MARKS: Final[Mapping[Units, Grid]] = {"inch": SIXTEENTH, "mm": MILLIMETRE}
"""The grid that a hive's pieces are rounded on, by the hive's units."""

NEAR: Final = Fraction(1, 8)
"""How far lumber as measured may be from the yard's own size; common practice, no published source.

Lumber shrinks and swells by less, and the next size that is sold is further off.
"""

NEAR_SHEET: Final[Mapping[str, Fraction]] = {
    "plywood": Fraction(1, 32),
    "foam": Fraction(1, 64),
    "sheet": Fraction(1, 32),
    "mesh": Fraction(1, 64),
}
"""How far a thickness as measured may be from the yard's own, by material.

Plywood: 1/32 in, as the standard PS 1 allows for sheets up to 13/16 in. The others are common
practice, no published source; foam of 25 mm is not foam of 1 in.
"""

TOLD_FROM: Final = Fraction(1, 64)
"""A smaller difference between two sizes of wood can't be read on a tape."""

STRAIGHT_OVER: Final = Fraction(18)
"""Pieces longer than this come from straight boards; common practice, no published source."""

RUN_ALONG: Final = frozenset({"deck", "cover", "skin_side", "skin_end", "skirt_side", "skirt_end"})
"""Parts whose grain or flutes run along their length; common practice, no published source.

Deck, skin and skirt are stiffer so; water runs off along the flutes of the cover. Other parts may
be turned on the sheet.
"""

NOT_CRITICAL: Final = frozenset({
    "lower_side_runner", "lower_front_runner", "upper_side_runner", "upper_front_runner",
    "roof_retainer",
})  # fmt: skip
"""Parts that may stop short by one runner gap more: nothing is held by their ends."""

CODES: Final = {"bottom_board": "B", "roof": "R", "inner_cover": "I", "box": "X", "sleeve": "S"}
"""The letter that marks a component on the wood; the initials of the part stand behind it."""


@dataclass(frozen=True, slots=True)
class Tagged:
    """A hive of a batch with the tag that its pieces carry; empty where there is only one."""

    tag: str
    hive: Hive


class Section(NamedTuple):
    """A cross-section of lumber: its material, thickness and width, in inches.

    `sawn` says that any board that is wide enough serves, ripped to this width.
    """

    material: str
    thickness: Length
    width: Length
    sawn: bool = False

    def named(self, units: Units = "inch") -> str:
        """The section in words."""
        return f"{self.material} of {with_unit(units, self.thickness, self.width)}"


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece as it is cut: of which hive, component and part, its letter, its sizes in inches.

    >>> from hivecalc.hive import demo_hive
    >>> rail = needed(batch([demo_hive()]))[0]
    >>> rail.mark, rail.name, str(rail.length)
    ('B-SR a', 'bottom board side rail a', '173/8')

    `section` is the lumber that it comes out of, None for what comes out of a sheet; `least` is how
    short it may be cut at most. Thickness is None for mesh.
    """

    hive: str
    component: str
    part: str
    letter: str
    material: Material
    thickness: Length | None
    width: Length
    length: Length
    section: Section | None
    least: Length
    units: Units

    @property
    def code(self) -> str:
        """The component's letter and the part's initials."""
        return f"{CODES[self.component]}-{''.join(w[0] for w in self.part.split('_')).upper()}"

    @property
    def mark(self) -> str:
        """What is written on the wood."""
        return " ".join(word for word in (self.hive, self.code, self.letter) if word)

    @property
    def name(self) -> str:
        """The piece in words."""
        hive = f"{self.hive}: " if self.hive else ""
        return " ".join(word for word in (f"{hive}{self.kind}", self.letter) if word)

    @property
    def kind(self) -> str:
        """The part in words."""
        component, part = title(self.component), title(self.part)
        return part if part.startswith(component) else f"{component} {part}"


def batch(hives: Iterable[Hive]) -> tuple[Tagged, ...]:
    """Hives with their tags: the first letters of a name, and a number where two begin alike.

    >>> from hivecalc.hive import demo_hive
    >>> [one.tag for one in batch([demo_hive(), demo_hive()])]
    ['ORC1', 'ORC2']

    Raises HiveFaults for no hive and for more than 2,000.
    """
    found = list(hives)
    if not 1 <= len(found) <= MOST_HIVES:
        accepted = f"give 1 to {MOST_HIVES:,}, and of more hives a part at a time"
        raise HiveFaults([Fault("hives", f"there are {len(found):,} of them", accepted)])
    if len(found) == 1:
        return (Tagged("", found[0]),)
    begins = ["".join(filter(str.isalnum, hive.name))[:3].upper() or "H" for hive in found]
    many, at = Counter(begins), Counter[str]()
    tags = []
    for begin in begins:
        at[begin] += 1
        tags.append(begin if many[begin] == 1 else f"{begin}{at[begin]}")
    if len(set(tags)) < len(tags):
        tags = [str(number) for number in range(1, len(found) + 1)]
    return tuple(map(Tagged, tags, found))


def needed(hives: Sequence[Tagged]) -> list[Piece]:
    """The pieces of a batch as they are cut, hive by hive, as they are built.

    >>> from hivecalc.hive import demo_hive
    >>> [p.mark for p in needed(batch([demo_hive()] * 2))][:3]
    ['ORC1 B-SR a', 'ORC1 B-SR b', 'ORC1 B-FR']
    """
    known: dict[object, list[Piece]] = {}
    found = []
    for one in hives:
        sizes = (frozenset(given.items()) for given in (one.hive.measured, one.hive.chosen))
        key = (one.hive.units, *sizes)
        if key not in known:
            known[key] = list(_pieces(one.hive))
        found += [replace(piece, hive=one.tag) for piece in known[key]]
    return found


def _pieces(hive: Hive) -> Iterator[Piece]:
    ease = hive.measurements["runner_gap"]
    for part in parts(hive):
        if part.width is None or part.length is None:
            continue  # a piece without width and length is nothing to cut
        thick = cut_size(part, "thickness", hive) if part.thickness else None
        wide, long = (cut_size(part, size, hive) for size in ("width", "length"))
        least = long - ease if part.part in NOT_CRITICAL else long
        for number in range(part.quantity):
            yield Piece(
                "", part.component, part.part, _letter(number) if part.quantity > 1 else "",
                part.material, thick, wide, long, _section(part, hive), least, hive.units,
            )  # fmt: skip


def _letter(number: int) -> str:
    return chr(ord("a") + number)


def cut_size(piece: Listed, size: str, hive: Hive) -> Length:
    """One size of a piece as it is cut: on the grid, but the stock's own size as measured."""
    value: Size = getattr(piece, size)
    if _as_measured(f"{piece.component}.{piece.part}_{size}", hive):
        return value.value
    return rounded(value.value, MARKS[hive.units], value.rounding)


def _as_measured(name: str, hive: Hive) -> bool:
    return of_stock(name) and DIMENSIONS.dimension(name).inputs[0] in hive.measurements


def _section(piece: Listed, hive: Hive) -> Section | None:
    """The lumber that a piece comes out of: strips are ripped from studs."""
    sizes = hive.measurements
    if piece.material in {"stud", "strip"}:
        return Section("stud", sizes["stud_thickness"], sizes["stud_width"])
    if piece.material == "board" and piece.thickness and piece.width:
        sawn = not _as_measured(f"{piece.component}.{piece.part}_width", hive)
        return Section("board", piece.thickness.value, piece.width.value, sawn)
    return None


# ── which goods of the yard serve ─────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Lumber:
    """The pieces that come out of one kind of lumber, and the boards of the yard for it.

    `sold` is its section as the yard sells it.
    """

    name: str
    pieces: tuple[Piece, ...]
    boards: tuple[Board, ...]
    sold: Section

    def comes_as(self, piece: Piece) -> bool:
        """Whether a piece has the section of the lumber as it comes, and is only crosscut."""
        if piece.section is None or piece.section.sawn:
            return (piece.thickness, piece.width) == self.sold[1:3]
        return (piece.thickness, piece.width) == piece.section[1:3]


@dataclass(frozen=True)
class SheetStock:
    """The pieces that come out of one material and thickness, and the sheets of the yard for it."""

    name: str
    material: str
    pieces: tuple[Piece, ...]
    sheets: tuple[SheetGoods, ...]


def lumber(pieces: Iterable[Piece], yard: Yard) -> list[Lumber]:
    """The pieces from lumber by the boards that serve for them, in the order of the parts.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.workshop.yard_file import demo_yard
    >>> found = lumber(needed(batch([demo_hive()])), demo_yard())
    >>> [(kind.name, len(kind.boards)) for kind in found]
    [('stud of 1 1/2 × 3 1/2 in', 3), ('board of 3/4 × 3 1/2 in', 2)]

    Lumber as it was measured on several hives is one kind where the same boards serve for it; a
    kind for which the yard has none has no boards.
    """
    kinds: dict[object, list[Piece]] = {}
    for piece in pieces:
        if piece.section:
            boards = boards_for(piece.section, yard)
            kinds.setdefault(boards or piece.section, []).append(piece)
    return [_lumber(found, yard) for found in kinds.values()]


def _lumber(pieces: Sequence[Piece], yard: Yard) -> Lumber:
    first = next(piece.section for piece in pieces if piece.section)
    boards = boards_for(first, yard)
    sold = first
    if boards:
        usual = min(boards, key=lambda board: (board.at_hand, board.width))
        sold = Section(first.material, usual.thickness, usual.width)
    return Lumber(sold.named(yard.units), tuple(pieces), boards, sold)


def boards_for(section: Section, yard: Yard) -> tuple[Board, ...]:
    """The boards of a yard that serve for a section of lumber, as it comes or ripped to width.

    >>> from hivecalc.workshop.yard_file import demo_yard
    >>> side = Section("board", Fraction(3, 4), Fraction(77, 8), sawn=True)
    >>> boards_for(side, demo_yard())[0].name
    '8 ft 1x12'

    Lumber counts as the one that was measured where its sizes are within 1/8 in. What is ripped to
    width comes from the narrowest boards that are wide enough, and from wider ones at hand. Boards
    that are longer than one can handle are left at the yard.
    """
    like = [
        board
        for board in yard.boards
        if board.material == section.material
        and abs(board.thickness - section.thickness) <= NEAR
        and (board.at_hand or board.length <= yard.longest_board)
    ]
    as_it_comes = [board for board in like if abs(board.width - section.width) <= NEAR]
    if section.material == "stud" or (as_it_comes and not section.sawn):
        return tuple(as_it_comes)
    wide = [board for board in like if board.width >= section.width]
    width = min((board.width for board in wide if board.count is None), default=None)
    return tuple(b for b in wide if b.count is not None or b.width == width)


def sheet_stock(pieces: Iterable[Piece], yard: Yard) -> list[SheetStock]:
    """The pieces from sheets by the sheets that serve for them, in the order of the parts.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.workshop.yard_file import demo_yard
    >>> [kind.name for kind in sheet_stock(needed(batch([demo_hive()])), demo_yard())][:3]
    ['foam of 1 in', 'mesh', 'plywood of 1/2 in']
    """
    kinds: dict[object, list[Piece]] = {}
    for piece in pieces:
        if piece.section is None:
            own = (piece.material, piece.thickness)
            kinds.setdefault(sheets_for(*own, yard) or own, []).append(piece)
    return [
        SheetStock(_named(found[0], yard.units), found[0].material, tuple(found), sheets)
        for found in kinds.values()
        for sheets in [sheets_for(found[0].material, found[0].thickness, yard)]
    ]


def sheets_for(material: str, thickness: Length | None, yard: Yard) -> tuple[SheetGoods, ...]:
    """The sheets of a yard that serve for a material and thickness as it was measured.

    >>> from hivecalc.workshop.yard_file import demo_yard
    >>> [sheet.name for sheet in sheets_for("plywood", Fraction(15, 32), demo_yard())][:1]
    ['sheet of 1/2 in plywood']

    With no thickness, as mesh has none, every sheet of the material serves.
    """
    return tuple(
        sheet
        for sheet in yard.sheets
        if sheet.material == material
        and (thickness is None or abs(sheet.thickness - thickness) <= NEAR_SHEET[material])
    )


def _named(piece: Piece, units: Units) -> str:
    kind = "plastic" if piece.material == "sheet" else piece.material
    return kind if piece.thickness is None else f"{kind} of {with_unit(units, piece.thickness)}"


# ── wood that is not as it was measured ───────────────────────────────────────────────────────


def other_wood(hives: Sequence[Tagged], kinds: Iterable[Lumber], units: Units) -> Iterator[str]:
    """A sentence for each hive whose pieces were worked out for another wood than the yard's.

    >>> from hivecalc.hive import changed, demo_hive
    >>> from hivecalc.workshop.yard_file import demo_yard
    >>> thick = batch([changed(demo_hive(), {"stud_thickness": "1 9/16"})])
    >>> next(other_wood(thick, lumber(needed(thick), demo_yard()), "inch")).split(":")[0]
    'Orchard hive'
    """
    names = {one.tag: one.hive.name for one in hives}
    for kind in kinds:
        for tag, found in groupby(kind.pieces if kind.boards else (), lambda piece: piece.hive):
            for section in dict.fromkeys(piece.section for piece in found if piece.section):
                if differs(section, kind.sold):
                    yield (
                        f"{names[tag]}: its pieces were worked out for a {section.named(units)}, "
                        f"and the yard's is {kind.sold.named(units).partition(' of ')[2]}. Measure "
                        f"the wood that you buy, and write what you find into the hive file."
                    )


def differs(measured: Section, sold: Section) -> bool:
    """Whether wood as it was measured and as it is sold differ by more than a tape can show."""
    sides = [(measured.thickness, sold.thickness)]
    if not measured.sawn and measured.material == "stud":
        sides.append((measured.width, sold.width))
    return any(abs(one - other) >= TOLD_FROM for one, other in sides)


def slope_of(hive: Hive) -> Fraction:
    """The slope of a hive's roof."""
    return values(hive)["roof.slope"]
