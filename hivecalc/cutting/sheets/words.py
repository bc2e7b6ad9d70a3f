"""The cuts of a sheet in plain sentences, one after the other."""

from collections.abc import Iterator
from typing import Final

from hivecalc.cutting.sheets.layout import Layout
from hivecalc.cutting.sheets.order import Cut, Result
from hivecalc.cutting.sheets.tree import Rectangle
from hivecalc.hive.texts import sentence
from hivecalc.length import Units, with_unit

BY_SAW: Final = (
    "Lay the sheet with its length away from you, and carry both sides of every cut. Clamp a "
    "straight strip as a fence. The blade goes beyond the mark, so that what you measured keeps "
    "its full size. Eyes, ears and lungs protected; your saw's manual goes before this list."
)
BY_KNIFE: Final = (
    "Lay the sheet with its length away from you, on something that may be cut. Cut on the mark, "
    "along a straight strip of metal, with a sharp blade and in several light passes. Keep the "
    "hand that holds the strip out of the knife's way."
)
BY_SNIPS: Final = (
    "Roll the mesh out with its length away from you, and weigh down its ends, as it springs back. "
    "Cut with snips along a wire, from edge to edge. Wear gloves and safety glasses: the ends of "
    "cut wire are sharp, and small ones fly off."
)


def cut_words(layout: Layout, units: Units = "inch") -> tuple[str, ...]:
    """The cuts of a layout as sentences in the order to make them, after what goes for them all.

    >>> from fractions import Fraction
    >>> from hivecalc.cutting.sheets.tree import Offcut, Piece, Split
    >>> from hivecalc.stock import SheetGoods
    >>> sheet = SheetGoods("sheet", "plywood", *map(Fraction, (1, 48, 96)))
    >>> tree = Split("along", Fraction(81, 4), Piece("wall"), Offcut())
    >>> print(*cut_words(Layout(sheet, 1, tree, Fraction(1, 8)))[1:])
    1. Rip the whole sheet, 48 × 96 in: mark it 20 1/4 in from its left edge. On the left: wall, \
20 1/4 × 96 in; on the right: an offcut, 27 5/8 × 96 in.

    `units` is how lengths are written.
    """
    return _for_all(layout), *_sentences(layout, units)


def _for_all(layout: Layout) -> str:
    """What goes for every cut, by the tool that makes it."""
    if layout.sheet.material == "mesh":
        return BY_SNIPS
    return BY_SAW if layout.kerf else BY_KNIFE


def _sentences(layout: Layout, units: Units) -> Iterator[str]:
    if layout.count > 1:
        yield f"Cut {layout.count} sheets like this."
    for piece in () if layout.cuts else layout.placed:
        yield f"The sheet is the {piece.label} as it comes: no cut is needed."
    for cut in layout.cuts:
        doing, mark = _doing(cut, layout, units), _mark(cut, units)
        yield f"{cut.number}. {doing}: {mark} {_results(cut, units)}"


def _doing(cut: Cut, layout: Layout, units: Units) -> str:
    """What is cut, and which way."""
    part = f"part {cut.part}" if cut.part else "the whole sheet"
    by_saw = "Rip" if cut.way == "along" else "Crosscut"
    doing = f"{by_saw} {part}" if layout.kerf else f"Cut {part} {cut.way}"
    return f"{doing}, {_size(cut.where, units)}"


def _mark(cut: Cut, units: Units) -> str:
    edge = "left edge" if cut.way == "along" else "near end"
    if not cut.at:
        return f"take the width of the blade off its {edge}."
    return f"mark it {with_unit(units, cut.at)} from its {edge}."


def _results(cut: Cut, units: Units) -> str:
    """What lies on the sides of the cut; a side that the blade leaves nothing of is passed over."""
    names = ("on the left", "on the right") if cut.way == "along" else ("near you", "beyond")
    sides = [
        f"{side}: {_named(result, units)}"
        for side, result in zip(names, (cut.low, cut.high), strict=True)
        if result.what != "nothing"
    ]
    text = "; ".join(sides)
    return f"{sentence(text)}."


def _named(result: Result, units: Units) -> str:
    name = {"part": f"part {result.name}", "offcut": "an offcut"}.get(result.what, result.name)
    return f"{name}, {_size(result.where, units)}"


def _size(where: Rectangle, units: Units) -> str:
    return f"{with_unit(units, where.width, where.length)}"
