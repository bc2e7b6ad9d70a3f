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

from hivecalc.components import DIMENSIONS, of_stock, parts, sleeve_layers, values
from hivecalc.derivation import title
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.length import MARKS, Length, Units, in_either_unit, rounded
from hivecalc.part import Material, Size, SizedPart
from hivecalc.workshop.yard import SHEETS, Goods, Yard

MOST_HIVES: Final = 2_000
"""So many hives are planned at once; nobody teaches a larger class."""

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

    @property
    def alike(self) -> object:
        """What hives have in common that are built alike, whatever their names."""
        given = (self.hive.measured, self.hive.chosen)
        return self.hive.units, *(frozenset(sizes.items()) for sizes in given)


class Section(NamedTuple):
    """A cross-section of lumber: its material, thickness and width, in inches.

    `sawn` says that any board that is wide enough serves, ripped to this width.
    """

    material: str
    thickness: Length
    width: Length
    sawn: bool = False

    def ripped_from(self, sold: "Section") -> bool:
        """Whether it is ripped to its width from lumber that is sold wider."""
        return self.sawn or abs(self.width - sold.width) > NEAR

    def named(self, units: Units = "inch") -> str:
        """The section in words."""
        return f"{self.material} of {in_either_unit(units, self.thickness, self.width)}"


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece as it is cut: of which hive, component and part, its letter, its sizes in inches.

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
    """The pieces of a batch as they are cut, hive by hive, as they are built."""
    known: dict[object, list[Piece]] = {}
    found = []
    for one in hives:
        if one.alike not in known:
            known[one.alike] = list(_pieces(one.hive))
        found += [replace(piece, hive=one.tag) for piece in known[one.alike]]
    return found


def _pieces(hive: Hive) -> Iterator[Piece]:
    ease = hive.measurements["runner_gap"]
    for part in parts(hive):
        if part.width is None or part.length is None:
            continue  # a piece without width and length is nothing to cut
        thick = _thickness(part, hive)
        wide, long = (_cut_size(part, size, hive) for size in ("width", "length"))
        least = long - ease if part.part in NOT_CRITICAL else long
        count = part.quantity
        is_wrapped = (part.component, part.material) == ("sleeve", "foam")
        if is_wrapped and (layers := sleeve_layers(values(hive))) > 1:
            thick, count = hive.measurements["foam_thickness"], count * layers
        for number in range(count):
            yield Piece(
                "", part.component, part.part, chr(ord("a") + number) if count > 1 else "",
                part.material, thick, wide, long, _section(part, hive), least, hive.units,
            )  # fmt: skip


def _thickness(piece: SizedPart, hive: Hive) -> Length | None:
    """How thick a piece is as it is cut: a sheet as thick as it came, since nobody cuts that."""
    if piece.thickness and piece.material in NEAR_SHEET:
        return piece.thickness.value
    return _cut_size(piece, "thickness", hive) if piece.thickness else None


def _cut_size(piece: SizedPart, size: str, hive: Hive) -> Length:
    """One size of a piece as it is cut: on the grid, but the stock's own size as measured."""
    value: Size = getattr(piece, size)
    if _as_measured(f"{piece.component}.{piece.part}_{size}", hive):
        return value.value
    return rounded(value.value, MARKS[hive.units], value.rounding)


def _as_measured(name: str, hive: Hive) -> bool:
    return of_stock(name) and DIMENSIONS.dimension(name).inputs[0] in hive.measurements


def _section(piece: SizedPart, hive: Hive) -> Section | None:
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
class Stock:
    """The pieces that come out of one kind of lumber or sheets, and the goods of the yard for it.

    `sold` is the section of lumber as the yard sells it; None for sheets, which are one kind where
    they are of one material and thickness.
    """

    name: str
    pieces: tuple[Piece, ...]
    goods: tuple[Goods, ...]
    sold: Section | None

    @property
    def material(self) -> Material:
        """What it is made of, as the parts call it."""
        return self.pieces[0].material


def stocks(pieces: Iterable[Piece], yard: Yard) -> list[Stock]:
    """The pieces by the goods that serve for them: lumber, then sheets, in the order of the parts.

    What was measured a little otherwise on several hives is one stock where the same goods serve
    for it; one for which the yard has none has no goods.
    """
    found: dict[object, list[Piece]] = {}
    for piece in sorted(pieces, key=lambda piece: piece.section is None):
        own = piece.section or (piece.material, piece.thickness)
        found.setdefault(goods_for(piece, yard) or own, []).append(piece)
    made = []
    for alike in found.values():
        first = alike[0]
        goods, sold = goods_for(first, yard), first.section
        if sold and goods:
            usual = min(goods, key=lambda board: (board.at_hand, board.width))
            sold = Section(sold.material, usual.thickness, usual.width)
        if sold:
            name = sold.named(yard.units)
        else:
            name = next(called for called, sort in SHEETS.items() if sort == first.material)
            name += f" of {in_either_unit(yard.units, first.thickness)}" if first.thickness else ""
        made.append(Stock(name, tuple(alike), goods, sold))
    return made


def goods_for(piece: Piece, yard: Yard) -> tuple[Goods, ...]:
    """The boards or sheets of a yard that serve for a piece, as they come or ripped to width.

    A sheet serves where its thickness is near enough as measured; for mesh, which has none, any.
    Lumber counts as the one that was measured where its sizes are within 1/8 in. What is ripped to
    width comes from the narrowest boards that are wide enough, and from wider ones at hand. Boards
    that are longer than one can handle are left at the yard.
    """
    section, thick = piece.section, piece.thickness
    if section is None:
        near = NEAR_SHEET[piece.material]
        return tuple(
            sheet
            for sheet in yard.sheets
            if sheet.material == piece.material
            and (thick is None or abs(sheet.thickness - thick) <= near)
        )
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


def as_it_comes(piece: Piece, sold: Section) -> bool:
    """Whether a piece has the section of the lumber as it comes, and is only crosscut."""
    own = piece.section or sold
    width = sold.width if own.ripped_from(sold) else own.width
    return (piece.thickness, piece.width) == (own.thickness, width)


# ── wood that is not as it was measured ───────────────────────────────────────────────────────


def other_wood(hives: Sequence[Tagged], found: Iterable[Stock], units: Units) -> Iterator[str]:
    """A sentence for each hive whose pieces were worked out for another wood than the yard's."""
    names = {one.tag: one.hive.name for one in hives}
    for stock in found:
        if stock.sold is None or not stock.goods:
            continue
        for tag, pieces in groupby(stock.pieces, lambda piece: piece.hive):
            for section in dict.fromkeys(piece.section for piece in pieces if piece.section):
                off = [section.thickness - stock.sold.thickness]
                if not section.sawn and section.material == "stud":
                    off.append(section.width - stock.sold.width)
                if max(map(abs, off)) >= TOLD_FROM:
                    yield (
                        f"{names[tag]}: its pieces were worked out for a {section.named(units)}, "
                        f"and the yard's is {stock.sold.named(units).partition(' of ')[2]}. "
                        "Measure the wood that you buy, and write what you find into the hive file."
                    )
