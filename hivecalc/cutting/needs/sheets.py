"""What to cut from sheets: the pieces of each material and thickness, and the sheets that serve."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from hivecalc.cutting.needs.pieces import Needed, needed
from hivecalc.cutting.sheets import WantedSheet
from hivecalc.cutting.wanted import Unplanned
from hivecalc.hive import Hive
from hivecalc.length import Length, with_unit
from hivecalc.stock import SheetGoods, Yard

NEAR: Final[Mapping[str, Fraction]] = {
    "plywood": Fraction(1, 32),
    "foam": Fraction(1, 64),
    "sheet": Fraction(1, 32),
    "mesh": Fraction(1, 64),
}
"""How far a thickness as measured may be from the yard's own, by material.

Plywood: 1/32 in, as the standard PS 1 allows for sheets up to 13/16 in. The others are common
practice, no published source; foam of 25 mm is not foam of 1 in.
"""

RUN_ALONG: Final = frozenset({"deck", "cover", "skin_side", "skin_end", "skirt_side", "skirt_end"})
"""Parts whose grain or flutes run along their length; common practice, no published source.

Deck, skin and skirt are stiffer so; water runs off along the flutes of the cover. Other parts may
be turned on the sheet.
"""

SAWN: Final = frozenset({"plywood"})
"""Materials that are sawn. The others are cut with a knife or with snips, which takes no kerf."""


@dataclass(frozen=True)
class SheetNeed:
    """What to cut from one material and thickness, which sheets serve, and what a cut takes."""

    name: str
    material: str
    thickness: Length | None
    wanted: tuple[WantedSheet, ...]
    sheets: tuple[SheetGoods, ...]
    kerf: Length
    unplanned: tuple[Unplanned, ...] = ()


def sheet_needs(hives: Iterable[Hive], yard: Yard) -> tuple[SheetNeed, ...]:
    """What to cut from sheets for one or several hives, a need for each kind of sheet.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> [(n.name, len(n.wanted), str(n.kerf)) for n in sheet_needs([demo_hive()], demo_yard())][:3]
    [('foam of 1 in', 2, '0'), ('mesh', 1, '0'), ('plywood of 1/2 in', 3, '1/8')]

    Lengths in inches. Thicknesses as they were measured on several hives are one kind where the
    same sheets of the yard serve for them. What the yard has no sheet for is left out and told.
    Raises HiveFaults where there is no hive.
    """
    alike: dict[tuple[str, Length | None], list[Needed]] = {}
    for piece in needed(hives):
        if piece.section is None:
            alike.setdefault((piece.material, piece.thickness), []).append(piece)
    kinds: dict[tuple[object, ...], list[Needed]] = {}
    for kind, pieces in alike.items():
        kinds.setdefault(sheets_for(*kind, yard) or kind, []).extend(pieces)
    return tuple(_need(pieces, yard) for pieces in kinds.values())


def sheets_for(material: str, thickness: Length | None, yard: Yard) -> tuple[SheetGoods, ...]:
    """The sheets of a yard that serve for a material and thickness as it was measured.

    >>> from hivecalc.stock import demo_yard
    >>> [sheet.name for sheet in sheets_for("plywood", Fraction(15, 32), demo_yard())][:1]
    ['sheet of 1/2 in plywood']

    With no thickness, as mesh has none, every sheet of the material serves.
    """
    return tuple(
        sheet
        for sheet in yard.sheets
        if sheet.material == material
        and (thickness is None or abs(sheet.thickness - thickness) <= NEAR[material])
    )


def _need(pieces: Sequence[Needed], yard: Yard) -> SheetNeed:
    first = pieces[0]
    name, material = _named(first), first.material
    sheets = sheets_for(material, first.thickness, yard)
    kerf = yard.kerf if material in SAWN else Fraction(0)
    if not sheets:
        why = f"your yard has no {name}"
        left = tuple(Unplanned(p.label, p.count, why) for p in pieces)
        return SheetNeed(name, material, first.thickness, (), (), kerf, left)
    wanted = tuple(_wanted(piece, yard) for piece in pieces)
    return SheetNeed(name, material, first.thickness, wanted, sheets, kerf)


def _named(piece: Needed) -> str:
    kind = "plastic" if piece.material == "sheet" else piece.material
    if piece.thickness is None:
        return kind
    return f"{kind} of {with_unit(piece.units, piece.thickness)}"


def _wanted(piece: Needed, yard: Yard) -> WantedSheet:
    return WantedSheet(
        piece.label,
        piece.width,
        piece.length,
        piece.count,
        turns=piece.part not in RUN_ALONG,
        factory_edge=piece.part in yard.factory_edge,
    )
