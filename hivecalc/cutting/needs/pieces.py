"""The pieces of one or several hives as they are cut: rounded on the grid, counted, labelled."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Final

from hivecalc.components import of_stock, parts
from hivecalc.derivation import title
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.length import MILLIMETRE, SIXTEENTH, Grid, Length, Units, rounded, with_unit
from hivecalc.part import Material, Piece, Size

MARKS: Final[Mapping[Units, Grid]] = {"inch": SIXTEENTH, "mm": MILLIMETRE}
"""The grid that a hive's pieces are rounded on, by the hive's units."""

IN_HALVES: Final = frozenset({("inner_cover", "rim_front")})
"""Parts that are cut in two pieces of half the length: the notch lies between them."""


@dataclass(frozen=True, slots=True)
class Section:
    """A cross-section of lumber: its material, thickness and width.

    >>> from fractions import Fraction
    >>> Section("stud", Fraction(3, 2), Fraction(7, 2)).named()
    'stud of 1 1/2 × 3 1/2 in'

    In inches. `sawn` says that any board that is wide enough serves, ripped to this width.
    """

    material: str
    thickness: Length
    width: Length
    sawn: bool = False

    def named(self, units: Units = "inch") -> str:
        """The section in words."""
        return f"{self.material} of {with_unit(units, self.thickness, self.width)}"


@dataclass(frozen=True, slots=True)
class Needed:
    """Pieces that are alike, as they are cut: of which hive and part, how many, how big.

    >>> from hivecalc.hive import demo_hive
    >>> rail = needed([demo_hive()])[0]
    >>> rail.label, rail.count, str(rail.length), rail.section.named()
    ('bottom board side rail', 2, '173/8', 'stud of 1 1/2 × 3 1/2 in')

    In inches, rounded on the grid. `hive` is empty where only one kind of hive is cut; thickness is
    None for mesh; `section` is the lumber that it comes out of, None for what comes out of a sheet.
    """

    hive: str
    component: str
    part: str
    count: int
    material: Material
    thickness: Length | None
    width: Length
    length: Length
    section: Section | None = None
    units: Units = "inch"

    @property
    def label(self) -> str:
        """What is written on the piece."""
        hive = f"{self.hive}: " if self.hive else ""
        half = " half" if (self.component, self.part) in IN_HALVES else ""
        component, part = title(self.component), title(self.part)
        whole = part if part.startswith(component) else f"{component} {part}"
        return f"{hive}{whole}{half}"


def needed(hives: Iterable[Hive], grid: Grid | None = None) -> list[Needed]:
    """The pieces of one or several hives as they are cut, hive by hive, as they are built.

    >>> from hivecalc.hive import demo_hive
    >>> [p.count for p in needed([demo_hive(), demo_hive()])][:3]
    [4, 2, 2]

    Hives that are alike are counted together. Each size is rounded on the grid (1/16 in, or 1 mm
    for a hive in mm) by its dimension's rule; a size of the stock itself stays as it was measured.
    Raises HiveFaults where there is no hive.
    """
    return [
        replace(piece, hive=kind.name, count=piece.count * kind.count)
        for kind in kinds_of(hives)
        for piece in _pieces(kind.hive, grid or MARKS[kind.hive.units])
    ]


@dataclass(frozen=True)
class HiveKind:
    """Hives that are alike: the name that their pieces carry, one of them, and how many."""

    name: str
    hive: Hive
    count: int


def kinds_of(hives: Iterable[Hive]) -> list[HiveKind]:
    """Hives that differ, each with how many there are of it; named where there are several kinds.

    >>> from hivecalc.hive import demo_hive
    >>> [(kind.name, kind.count) for kind in kinds_of([demo_hive(), demo_hive()])]
    [('', 2)]

    Raises HiveFaults where there is no hive.
    """
    found: dict[object, list[Hive]] = {}
    for hive in hives:
        sizes = (frozenset(given.items()) for given in (hive.measured, hive.chosen))
        found.setdefault((hive.name, hive.units, *sizes), []).append(hive)
    if not found:
        raise HiveFaults([Fault("hives", "there are none", "give one hive or more")])
    alike = list(found.values())
    names = _names([hive for hive, *_ in alike]) if len(alike) > 1 else [""]
    return [HiveKind(n, hs[0], len(hs)) for n, hs in zip(names, alike, strict=True)]


def _names(hives: Iterable[Hive]) -> list[str]:
    """The hives' names, with a number behind one that stood there before."""
    seen: dict[str, int] = {}
    for hive in hives:
        name, number = hive.name, 1
        while name in seen:
            number += 1
            name = f"{hive.name} ({number})"
        seen[name] = number
    return list(seen)


def _pieces(hive: Hive, grid: Grid) -> Iterator[Needed]:
    for piece in parts(hive):
        if piece.width is None or piece.length is None:
            continue  # a piece without width and length is nothing to cut
        share = 2 if (piece.component, piece.part) in IN_HALVES else 1
        length = Size(piece.length.value / share, piece.length.rounding)
        yield Needed(
            "",
            piece.component,
            piece.part,
            piece.quantity * share,
            piece.material,
            cut_size(piece, "thickness", piece.thickness, grid) if piece.thickness else None,
            cut_size(piece, "width", piece.width, grid),
            cut_size(piece, "length", length, grid),
            _section(piece, hive),
            hive.units,
        )


def cut_size(piece: Piece, size: str, value: Size, grid: Grid) -> Length:
    """One size of a piece as it is cut: on the grid, but the stock's own size as it was measured.

    >>> from fractions import Fraction
    >>> from hivecalc.hive import demo_hive
    >>> deck = next(p for p in parts(demo_hive()) if p.part == "deck")
    >>> cut_size(deck, "length", Size(Fraction(1, 3), deck.length.rounding), SIXTEENTH)
    Fraction(3, 8)
    """
    return value.value if _of_stock(piece, size) else rounded(value.value, grid, value.rounding)


def _of_stock(piece: Piece, size: str) -> bool:
    return of_stock(f"{piece.component}.{piece.part}_{size}")


def _section(piece: Piece, hive: Hive) -> Section | None:
    """The lumber that a piece comes out of: strips are ripped from studs."""
    sizes = hive.measurements
    if piece.material in {"stud", "strip"}:
        return Section("stud", sizes["stud_thickness"], sizes["stud_width"])
    if piece.material == "board" and piece.thickness and piece.width:
        sawn = not _of_stock(piece, "width")
        return Section("board", piece.thickness.value, piece.width.value, sawn)
    return None
