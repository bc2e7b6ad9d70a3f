"""The pages that go to the saw and the bench: figures to cut by, boxes to tick, blanks to fill."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from hivecalc.book.content import TICK, Chapter, Column, Paragraph, Section, Table, ticks
from hivecalc.book.figures import (
    WAYS,
    grid_name,
    in_both_units,
    piece_name,
    roundings,
    sizes_in_both_units,
)
from hivecalc.components import built, parts, values
from hivecalc.derivation import title
from hivecalc.hive import Hive
from hivecalc.length import Rounding
from hivecalc.part import Material, Piece

Numbers = Mapping[tuple[str, str], int]

HOW_TO_CUT = (
    "One kind of stock at a time, the longest pieces first. Cut, tick a box for each piece, and "
    "write down what your tape says of it. Before you cut a piece that must meet another, measure "
    "the one that is there."
)
KINDS: dict[Material, str] = {
    "stud": "Studs",
    "strip": "Strips, ripped from a stud",
    "board": "Boards",
    "plywood": "Plywood",
    "foam": "Foam board",
    "sheet": "Waterproof sheet",
    "mesh": "Mesh",
}
SAW_COLUMNS = (
    Column("no.", 1.2, bold=True),
    Column("piece", 4.4),
    Column("thickness", 2.3),
    Column("width", 2.8, bold=True),
    Column("length", 2.9, bold=True),
    Column("rounded", 2.5),
    Column("cut", 1.6),
    Column("as cut", 3.2),
)


def at_the_saw(hive: Hive, numbers: Numbers) -> Chapter:
    """Chapter of the figures to carry to the saw, one table for each kind of stock.

    >>> from hivecalc.drawing.whole_hive import part_numbers
    >>> from hivecalc.hive import demo_hive
    >>> numbers = part_numbers(values(demo_hive()), built(demo_hive()))
    >>> [s.heading for s in at_the_saw(demo_hive(), numbers).sections][:2]
    ['Studs', 'Strips, ripped from a stud']
    """
    pieces = parts(hive)
    by_kind = ((k, [p for p in pieces if p.material == k]) for k in KINDS)
    tables = (Section(KINDS[k], (_cuts(hive, ps, numbers),)) for k, ps in by_kind if ps)
    why = Section("Which way the figures are rounded", tuple(_reasons(hive, pieces)))
    return Chapter("At the saw", (Paragraph(HOW_TO_CUT),), (*tables, why))


def _cuts(hive: Hive, pieces: Iterable[Piece], numbers: Numbers) -> Table:
    longest_first = sorted(pieces, key=lambda p: -p.length.value if p.length else Fraction(0))
    rows = (_cut(hive, piece, numbers) for piece in longest_first)
    return Table(SAW_COLUMNS, tuple(rows), to_write_in=True)


def _cut(hive: Hive, piece: Piece, numbers: Numbers) -> tuple[str, ...]:
    return (
        str(numbers[piece.component, piece.part]),
        f"{piece_name(piece)}\n{title(piece.component)}",
        *sizes_in_both_units(piece, hive.units),
        _ways(piece),
        ticks(piece.quantity),
        "",
    )


def _ways(piece: Piece) -> str:
    """Return which way a piece's length is rounded, and below it what differs from that."""
    ways = {size: rounding.value for size, (rounding, _) in roundings(piece).items()}
    others = (f"{size} {way}" for size, way in ways.items() if way != ways["length"])
    return "\n".join((ways["length"], *others))


def _reasons(hive: Hive, pieces: Iterable[Piece]) -> Iterator[Paragraph]:
    """Return each way of rounding with its reason and the pieces that are rounded so."""
    found = dict[tuple[Rounding, str], dict[str, None]]()
    for piece in pieces:
        for way in roundings(piece).values():
            found.setdefault(way, {})[piece_name(piece).lower()] = None
    for (rounding, reason), names in found.items():
        lead = f"{WAYS[rounding].capitalize()} {grid_name(hive.units)}."
        yield Paragraph(f"{reason} So: {', '.join(names)}.", lead)


OUTSIDES = {
    "bottom_board": ("hive_length", "hive_width"),
    "roof": ("roof.rim_length", "roof.rim_width"),
    "inner_cover": ("inner_cover.sheet_length", "inner_cover.sheet_width"),
    "box": ("box_length", "box_width"),
    "sleeve": ("hive_length", "hive_width"),
}
WHAT = {"bottom_board": "Bottom board, frame", "roof": "Roof, rim"}
PLACES = (
    Column("what", 4),
    Column("should be", 2.4, bold=True),
    Column("left or front", 2.4),
    Column("middle", 2.4),
    Column("right or back", 2.4),
)
HOW_TO_MEASURE = (
    "Before the glue is hard: measure each frame in three places and corner to corner both ways. "
    "Both diagonals the same means square corners. If one is longer, push its two corners "
    "together. Lesson 08 says what still fits when a figure is off."
)
TRIALS = {
    "bottom_board": (
        "The foam panel slides in and out from the back.",
        "The screen slides in and out above it, and nothing stands above the rails.",
        "The back rail closes, and comes off by its wing nuts.",
        "A strip as high as the way in goes through above the front rail.",
    ),
    "roof": (
        "The roof goes on and comes off without force, and does not shift about.",
        "Water poured on the cover runs off at the back.",
        "No screw's point shows below the deck or the rim.",
    ),
    "inner_cover": ("The inner cover lies flat and rocks on no corner.",),
    "box": (
        "A frame hangs on both rests, and lifts out without force.",
        "The box stands on a flat table and rocks on no corner.",
    ),
    "sleeve": (
        "No gap shows between foam, strips and skin.",
        "Box and skin end level, so that the bottom board and the roof meet both.",
    ),
}


def when_it_is_together(hive: Hive) -> Chapter:
    r"""Chapter of what to measure and try on the parts that were made, with room to write.

    >>> from hivecalc.hive import demo_hive
    >>> when_it_is_together(demo_hive()).blocks[1].rows[0][:2]
    ('Bottom board, frame\nlength', '23 1/8 in\n≈ 587 mm')
    """
    components = built(hive)
    rows = (row for component in components for row in _as_made(hive, component))
    tries = ((trial, TICK) for component in components for trial in TRIALS[component])
    return Chapter(
        "When it is together",
        (Paragraph(HOW_TO_MEASURE), Table(PLACES, tuple(rows), to_write_in=True)),
        (
            Section("Try it", (_tick_list(tuple(tries)),)),
            Section("Notes", (_lines(),)),
        ),
    )


def _as_made(hive: Hive, component: str) -> Iterator[tuple[str, ...]]:
    what = WHAT.get(component, title(component).capitalize())
    for side, name in zip(("length", "width"), OUTSIDES[component], strict=True):
        yield (f"{what}\n{side}", in_both_units(values(hive)[name], hive.units), "", "", "")
    yield (f"{what}\nboth diagonals", "the same", "", "–", "")


def _tick_list(rows: Sequence[tuple[str, ...]]) -> Table:
    return Table((Column("what to try", 12), Column("holds", 1.4)), tuple(rows))


def _lines() -> Table:
    """Return empty lines to write on."""
    return Table((Column("what to do otherwise next time", 1),), (("",),) * 6, to_write_in=True)
